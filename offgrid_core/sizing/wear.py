"""How fast a bank wears out: counted cycles by Miner's rule, or the energy drawn, and the years beside them.

Every cycle uses up the share of the life that its depth costs, by the table of cycles and depth; the shares are added
up in whatever order they came. Real banks also remember the order, the hours spent low and the heat of each cycle.
The energy drawn is a coarser measure that needs no counting, for judging many designs at once. The result compares
designs; it promises nothing.
"""

from offgrid_core.sizing.life import (
    bank_life_years,
    calendar_life_years,
    cycles_count,
    depth_counted_frac,
    life_temp_c,
)
from offgrid_core.worksheet import Sheet, larger, line, sum_of

_RIPPLE = (
    "a cycle shallower than the table costs in proportion to its depth, so that the bank gives as much energy in its "
    "life as at the table's shallowest depth: no whole cycle for a ripple, and no life that nobody tested"
)
_MINER = "Palmgren-Miner: the shares are added up; Miner, J. Appl. Mech. 12 (1945) A159, from memory"

depth_counted_by_row_frac = depth_counted_frac.renamed(
    "depth_counted_by_row_frac", "depth at which the cycle is looked up", depth_day_frac="cycle_depth_by_row_frac"
)
life_cycles_by_row_count = cycles_count.renamed(
    "life_cycles_by_row_count",
    "cycles of that depth to the end of life",
    depth_counted_frac="depth_counted_by_row_frac",
)


@line("share of the life that the cycles use up", standing="classroom approximation, no source", source=_RIPPLE)
def wear_by_row_frac(cycle_by_row_count, life_cycles_by_row_count, cycle_depth_by_row_frac, depth_counted_by_row_frac):
    return cycle_by_row_count / life_cycles_by_row_count * (cycle_depth_by_row_frac / depth_counted_by_row_frac)


@line("share of the life that all cycles use up", standing="classroom approximation, no source", source=_MINER)
def wear_counted_frac(wear_by_row_frac):
    return sum_of(wear_by_row_frac)


@line("years counted", standing="physics", source="365 days of 24 hours")
def counted_years(counted_h):
    return counted_h / 8760


@line("share of the life used up in a year", standing="physics")
def wear_year_frac(wear_counted_frac, counted_years):
    return wear_counted_frac / counted_years


@line(
    "life by cycles",
    standing="classroom approximation, no source",
    source="until the shares come to the whole; 1000 years stand for a bank that is hardly cycled",
)
def cycle_life_years(wear_year_frac):
    return 1 / larger(0.001, wear_year_frac)


reference_cycles_count = cycles_count.renamed(
    "reference_cycles_count",
    "cycles to the end of life at the reference depth",
    depth_counted_frac="reference_depth_frac",
)


@line(
    "energy the bank gives in its life",
    standing="classroom approximation, no source",
    source="taken as the same at every depth; tables of cycles agree roughly, and less at the deep end",
)
def life_drawn_wh(reference_cycles_count, reference_depth_frac, bank_wh):
    return reference_cycles_count * reference_depth_frac * bank_wh


@line("share of the life used up in a year, by the energy drawn", standing="physics")
def drawn_wear_frac(drawn_year_wh, life_drawn_wh):
    return drawn_year_wh / life_drawn_wh


drawn_life_years = cycle_life_years.renamed("cycle_life_years", "life by cycles", wear_year_frac="drawn_wear_frac")

#: From the cycles counted in a charge curve, and the warmth of the site, to the years until a new bank.
WEAR = Sheet(
    depth_counted_by_row_frac,
    life_cycles_by_row_count,
    wear_by_row_frac,
    wear_counted_frac,
    counted_years,
    wear_year_frac,
    cycle_life_years,
    life_temp_c,
    calendar_life_years,
    bank_life_years,
)
#: The same from the energy drawn in a year, without counting.
WEAR_BY_ENERGY = Sheet(
    reference_cycles_count,
    life_drawn_wh,
    drawn_wear_frac,
    drawn_life_years,
    life_temp_c,
    calendar_life_years,
    bank_life_years,
)
