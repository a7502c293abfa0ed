"""Banks over the years for the lessons: one bank bought again and again, two banks beside each other, one picked.

The price follows the label without the stairs of whole units, as in the lesson on depth. Payments are worked year by
year, as for a whole system; prices are above inflation and are invented.
"""

from offgrid_core.sizing.cost import (
    bank_replaced_by_row_count,
    bank_replaced_cost,
    bank_replaced_count,
    horizon_factor,
    kwh_cost,
    present_by_row_factor,
    recovery_factor,
    uniform_factor,
    within_by_row_factor,
    year_cost,
)
from offgrid_core.sizing.cost_teaching import stored_kwh_cost
from offgrid_core.sizing.depth_teaching import DEPTH_LIFE
from offgrid_core.sizing.life import LIFE
from offgrid_core.worksheet import Sheet, larger, limit, line

_RULE = "common practice, no source"

# ---- one bank and those that follow it

label_price = DEPTH_LIFE["label_cost"].renamed("bank_cost", "cost of the bank")


@line("the bank and all later ones, in today's money", standing="physics", source="what is left is not taken off")
def banks_cost(bank_cost, bank_replaced_cost):
    return bank_cost + bank_replaced_cost


@line(
    "share of the last bank's life that is left at the horizon",
    standing=_RULE,
    source="in proportion to the years: residual value in NIST Handbook 135, from memory",
)
def bank_left_frac(bank_replaced_count, bank_life_years, horizon_years):
    return larger(0, bank_replaced_count + 1 - horizon_years / bank_life_years)


@line("present worth of what is left of the last bank", standing=_RULE, source="nobody may want to buy it")
def bank_left_cost(bank_cost, bank_left_frac, horizon_factor):
    return bank_cost * bank_left_frac * horizon_factor


@line("the bank and all later ones, less what is left", standing=_RULE)
def banks_net_cost(banks_cost, bank_left_cost):
    return banks_cost - bank_left_cost


banks_year_cost = year_cost.renamed("banks_year_cost", "cost of the banks a year", life_cycle_cost="banks_cost")
banks_kwh_cost = kwh_cost.renamed(
    "banks_kwh_cost",
    "cost of the banks for each kilowatt-hour, with interest",
    year_cost="banks_year_cost",
    served_year_wh="through_year_wh",
)

# ---- two banks beside each other


@line("what the second bank saves over the first", standing="physics", source="below nothing: what it costs more")
def saved_cost(first_banks_cost, second_banks_cost):
    return first_banks_cost - second_banks_cost


# ---- one bank of several


@limit(
    "what may be taken out against what the sunless days take",
    severity="service",
    mend="a larger label, or a kind that may be emptied deeper",
    standing="physics",
)
def usable_margin_wh(bank_wh, depth_frac, spell_wh):
    return bank_wh * depth_frac - spell_wh


@limit(
    "life of the bank against the years until somebody comes to change it",
    severity="service",
    mend="a bank of more cycles or more years, or a visit in between",
    standing="physics",
)
def life_margin_years(bank_life_years, life_least_years):
    return bank_life_years - life_least_years


@limit("cost of the bank against the budget", severity="service", mend="a cheaper bank", standing="physics")
def budget_margin_cost(budget_cost, bank_cost):
    return budget_cost - bank_cost


#: From the amp-hours needed to a bank's price and to how long it lasts.
BANK_BOUGHT = Sheet(
    *(DEPTH_LIFE[n] for n in ("label_wh", "depth_day_frac", "depth_counted_frac", "cycles_count")),
    *(LIFE[n] for n in ("cycle_life_years", "calendar_life_years", "bank_life_years")),
    DEPTH_LIFE["through_year_wh"],
    label_price,
)
#: From price and life to what the bank and all later ones come to, with nothing taken off and with what is left.
BANK_AGAIN = Sheet(
    present_by_row_factor,
    within_by_row_factor,
    horizon_factor,
    bank_replaced_by_row_count,
    bank_replaced_count,
    bank_replaced_cost,
    banks_cost,
    bank_left_frac,
    bank_left_cost,
    banks_net_cost,
    uniform_factor,
    recovery_factor,
    banks_year_cost,
    banks_kwh_cost,
)
#: Both, one after the other.
BANK_OVER_YEARS = BANK_BOUGHT + BANK_AGAIN
#: Which of two banks costs more.
SAVED = Sheet(saved_cost)
#: One bank of a table, judged: what it gives, how long it lasts, what a kilowatt-hour through it costs.
BANK_PICKED = Sheet(
    usable_margin_wh,
    LIFE["cycle_life_years"],
    LIFE["bank_life_years"],
    life_margin_years,
    budget_margin_cost,
    DEPTH_LIFE["through_life_wh"],
    stored_kwh_cost.renamed("stored_kwh_cost", stored_kwh_cost.label, life_drawn_wh="through_life_wh"),
)
