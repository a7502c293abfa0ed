"""What the problems of the lesson on cost share: worksheets, words, hints and ideas."""

from offgrid_core.sizing.banks_teaching import BANK_AGAIN
from offgrid_core.sizing.cost import COST, YEARS
from offgrid_core.sizing.cost_teaching import REAL_RATE, STORED
from offgrid_core.sizing.life import LIFE
from offgrid_core.worksheet import Sheet

#: How long a bank lasts: its cycles, its years in the warmth, the earlier of the two.
LIVED = Sheet(*(LIFE[n] for n in ("cycle_life_years", "calendar_life_years", "bank_life_years")))
#: The price of a bank spread over what its cycles let through.
THROUGH = Sheet(STORED["life_drawn_wh"], STORED["stored_kwh_cost"])
#: What later banks are worth today, at a rate above inflation, and the whole row of banks.
LATER = Sheet(*(BANK_AGAIN[n] for n in ("present_by_row_factor", "bank_replaced_cost", "banks_cost")))
FROM_LENDER = REAL_RATE + LATER
#: How many new banks are bought before the horizon.
HOW_MANY = BANK_AGAIN.upto("bank_replaced_count")
#: The factor of a payment every year, its share of one year, and what a kilowatt-hour that is used costs.
DELIVERED = Sheet(
    *(COST[n] for n in ("present_by_row_factor", "within_by_row_factor", "uniform_factor", "recovery_factor")),
    *(COST[n] for n in ("year_cost", "kwh_cost")),
)
#: The end of its cycles, and the end of the bank: to ask for the calendar's years too would tell the answer.
ENDS = ("cycle_life_years", "bank_life_years")
EVERY_YEAR = {"year_by_row_years": YEARS}
#: One page: how long the bank lasts, and what the next one is worth today.
PAGE = Sheet(*(LIVED[n] for n in ("cycle_life_years", "bank_life_years"))) + FROM_LENDER

WORDS = {
    "cycles_count": "cycles it stands",
    "cycle_life_years": "years those cycles last",
    "calendar_life_years": "years until it is old",
    "bank_life_years": "life of the bank",
    "reference_cycles_count": "cycles of that depth",
    "reference_depth_frac": "depth of each cycle",
    "bank_wh": "energy on the label",
    "bank_cost": "price of the bank",
    "life_drawn_wh": "energy it gives in its life",
    "stored_kwh_cost": "bank's price for each kWh it gives",
    "discount_rate_frac": "discount rate above inflation",
    "present_by_row_factor": "present worth factor",
    "bank_replaced_cost": "later banks, in today's money",
    "bank_replaced_count": "new banks before the horizon",
    "banks_cost": "all banks, in today's money",
    "year_by_row_years": "paid after",
    "uniform_factor": "factor of a payment every year",
    "recovery_factor": "share that falls on one year",
    "life_cycle_cost": "life-cycle cost",
    "year_cost": "cost a year",
    "kwh_cost": "cost of a kWh used",
    "served_year_wh": "energy used in a year",
    "array_year_wh": "energy made in a year",
    "rival_cost": "the long-lived bank, in today's money",
}
#: On a page to be checked, the lines keep the labels that they have there; the inputs that no table names.
PAGE_WORDS = {n: WORDS[n] for n in ("cycles_count", "calendar_life_years", "bank_cost", "year_by_row_years")} | {
    "bank_replaced_by_row_count": "banks bought then"
}
FIRST_END = "Which comes first, the last of its cycles or old age?"
LIFETIME = "How much energy passes through it before it is worn out?"
LATE_MONEY = "If your value lay in the bank and grew at that rate, would it pay the later bill?"
WHEN = "In which years is a new bank paid, and is one paid at the very end?"
USED = "Who pays for a year, and which kilowatt-hours are of use to anybody?"
LINE = "What does this line begin from, and what should happen to it?"
LIFE_IDEA = (
    "Cycles over cycles a year are years. Warmth shortens the years of the calendar. A battery also grows old unused, "
    "and the earlier end counts."
)
THROUGH_IDEA = (
    "A bank gives the depth of each cycle, so many times. Its price is spread over all of that, not over one filling."
)
LATER_IDEA = (
    "A later payment counts for less: what must lie aside today to pay it then. The rate acts each year on what has "
    "become of the sum. The first bank is paid in full, today."
)
USED_IDEA = (
    "A share of the cost falls on each year, interest with it. It is spread over the energy that is used; what is "
    "spilled helps nobody."
)
