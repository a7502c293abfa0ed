"""Depth of discharge for the lessons: how full a bank is, what it may give, and what a deeper limit does to its life.

Life and price here are those of a bank whose label says just what is needed, so that both follow the limit without the
stairs of whole strings. All of the load is taken to go through the bank: what the sun serves directly would spare it.
"""

from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.bank_1013 import functional_hours_h
from offgrid_core.sizing.cost_teaching import stored_kwh_cost
from offgrid_core.sizing.life import bank_life_years, calendar_life_years, cycles_count, depth_counted_frac
from offgrid_core.sizing.life import depth_day_frac as depth_of_bank_frac
from offgrid_core.sizing.rate import capacity_at_hours_ah, capacity_hours_ratio
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.sizing.wear import WEAR
from offgrid_core.worksheet import Sheet, line, smaller

# ---- how full


@line("amp-hours taken out", standing="physics")
def used_ah(load_a, load_h):
    return load_a * load_h


@line("depth of discharge", standing="physics", source="of the whole label, not of the part that may be used")
def depth_frac(used_ah, bank_ah):
    return used_ah / bank_ah


charge_level_frac = charge_left_frac.renamed("charge_level_frac", "state of charge")

# ---- the limit, in amp-hours

bank_warm_ah = BANK["bank_needed_ah"].renamed(
    "bank_warm_ah", "bank, if it stayed warm, in amp-hours", bank_cold_wh="bank_warm_wh"
)


@line("amp-hours that may be taken out", standing="common practice, no source")
def usable_ah(capacity_at_hours_ah, depth_frac):
    return capacity_at_hours_ah * depth_frac


@line(
    "amp-hours wanted on a label of those hours",
    standing="common practice, no source",
    source="a label of fewer hours than the bank is drawn in is not credited",
)
def label_at_hours_ah(bank_needed_ah, capacity_hours_ratio):
    return bank_needed_ah / smaller(1, capacity_hours_ratio)


# ---- what the limit does to life and price


@line("energy on the label", standing="physics")
def label_wh(bank_needed_ah, bank_voltage_v):
    return bank_needed_ah * bank_voltage_v


depth_day_frac = depth_of_bank_frac.renamed("depth_day_frac", "depth of the hardest day's cycle", bank_wh="label_wh")
wear_year_frac = WEAR["wear_by_row_frac"].renamed(
    "wear_year_frac",
    "share of the life used up in a year",
    cycle_by_row_count="cycles_year_count",
    life_cycles_by_row_count="cycles_count",
    cycle_depth_by_row_frac="depth_day_frac",
    depth_counted_by_row_frac="depth_counted_frac",
)


@line("energy through the bank in a year", standing="physics", source="every day as hard as the hardest")
def through_year_wh(energy_day_wh, cycles_year_count):
    return energy_day_wh * cycles_year_count


@line("energy through the bank until it ends", standing="physics")
def through_life_wh(through_year_wh, bank_life_years):
    return through_year_wh * bank_life_years


@line("price of that label", standing="physics", source="by the watt-hour, at the price of the unit chosen")
def label_cost(label_wh, unit_cost, unit_v, unit_ah):
    return label_wh * unit_cost / (unit_v * unit_ah)


through_kwh_cost = stored_kwh_cost.renamed(
    "through_kwh_cost", "bank's price for each kilowatt-hour", bank_cost="label_cost", life_drawn_wh="through_life_wh"
)

#: From a load that runs for some hours to how full the bank is afterwards.
HOW_FULL = Sheet(used_ah, depth_frac, charge_level_frac)
#: From watt-hours a day to the amp-hours on the label, before the cold is thought of.
WARM = Sheet(BANK["spell_wh"], BANK["bank_warm_wh"], bank_warm_ah)
#: From a label of so many hours to what may be taken out in the hours of the load.
AT_HOURS = Sheet(capacity_at_hours_ah, usable_ah)
#: The same, with the share that Peukert's law gives.
BY_PEUKERT = Sheet(capacity_hours_ratio) + AT_HOURS
#: From the hours of the load to the label wanted.
LABEL_HOURS = Sheet(functional_hours_h, capacity_hours_ratio, label_at_hours_ah)
#: From the amp-hours needed to life and price.
DEPTH_LIFE = Sheet(
    label_wh,
    depth_day_frac,
    depth_counted_frac,
    cycles_count,
    wear_year_frac,
    WEAR["cycle_life_years"],
    calendar_life_years,
    bank_life_years,
    through_year_wh,
    through_life_wh,
    label_cost,
    through_kwh_cost,
)
