"""Two sums of cost done by hand: a rate above inflation from a lender's, and what a bank's kilowatt-hour costs."""

from offgrid_core.sizing.wear import WEAR_BY_ENERGY
from offgrid_core.worksheet import Sheet, line


@line(
    "discount rate above inflation",
    standing="standard",
    source="ASTM E917 and NIST Handbook 135, from memory: the real rate from the nominal one",
)
def discount_rate_frac(nominal_rate_frac, inflation_frac):
    return (1 + nominal_rate_frac) / (1 + inflation_frac) - 1


@line(
    "cost of the bank for each kilowatt-hour it gives",
    standing="common practice, no source",
    source="no interest, and what charging costs is not in it; energy as it leaves the bank",
)
def stored_kwh_cost(bank_cost, life_drawn_wh):
    return bank_cost / (life_drawn_wh / 1000)


#: The rate that every present worth is worked with.
REAL_RATE = Sheet(discount_rate_frac)
#: The price of a bank spread over the energy it gives in its life by cycles.
STORED = WEAR_BY_ENERGY.upto("life_drawn_wh") + Sheet(stored_kwh_cost)
