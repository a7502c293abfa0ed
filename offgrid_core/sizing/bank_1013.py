"""The battery bank in the form of IEEE Std 1013: the largest of three demands, then cold, then a margin.

The three demands (total depth over the sunless days, daily depth, capacity left at the end of life) are *not*
multiplied: the largest one covers the others. Multiplying two of them asks for about a quarter more.
"""

from offgrid_core.sizing.bank import BEGINNING
from offgrid_core.worksheet import Sheet, larger, line

_1013 = "IEEE Std 1013 procedure, from memory"


@line("load a day", standing="physics")
def day_ah(energy_day_wh, bank_voltage_v):
    return energy_day_wh / bank_voltage_v


@line("load over the sunless days", standing="standard", source=_1013)
def spell_ah(day_ah, autonomy_days):
    return day_ah * autonomy_days


@line("capacity for the depth limit", standing="standard", source=_1013)
def for_depth_ah(spell_ah, depth_frac):
    return spell_ah / depth_frac


@line("capacity for the daily depth limit", standing="standard", source=_1013)
def for_daily_depth_ah(day_ah, depth_daily_frac):
    return day_ah / depth_daily_frac


@line("capacity for the end of life", standing="standard", source=_1013)
def for_end_of_life_ah(spell_ah, end_of_life_frac):
    return spell_ah / end_of_life_frac


@line("capacity that meets all three", standing="standard", source=_1013 + "; the largest, not the product")
def for_all_three_ah(for_depth_ah, for_daily_depth_ah, for_end_of_life_ah):
    return larger(for_depth_ah, for_daily_depth_ah, for_end_of_life_ah)


@line("capacity, corrected for cold", standing="standard", source=_1013)
def for_cold_ah(for_all_three_ah, kept_frac):
    return for_all_three_ah / kept_frac


@line("bank needed", standing="standard", source=_1013)
def bank_needed_ah(for_cold_ah, design_margin_factor):
    return for_cold_ah * design_margin_factor


@line("current of everything running together", standing="physics")
def running_current_a(peak_w, inverter_eff_frac, dc_peak_w, bank_voltage_v):
    return (peak_w / inverter_eff_frac + dc_peak_w) / bank_voltage_v


@line("functional hour rate", standing="standard", source=_1013 + "; tells which column of a data sheet to read")
def functional_hours_h(bank_needed_ah, running_current_a):
    return bank_needed_ah / running_current_a


#: The standard's form: from the hardest day to the amp-hours on the label, and the hours they are quoted for.
BANK_1013 = BEGINNING + Sheet(
    day_ah,
    spell_ah,
    for_depth_ah,
    for_daily_depth_ah,
    for_end_of_life_ah,
    for_all_three_ah,
    for_cold_ah,
    bank_needed_ah,
    running_current_a,
    functional_hours_h,
)
