"""The battery bank, short trade form: how many amp-hours must be on the label.

Divide by the depth of discharge, then by what the cold leaves. The correction for cold is the *reciprocal* of
what is kept. The longer form of the standard is in :mod:`offgrid_core.sizing.bank_1013`.
"""

from offgrid_core.worksheet import Sheet, largest_of, line, smaller


@line("energy of the hardest day", standing="common practice, no source", source="the largest month's busiest day")
def energy_day_wh(battery_day_by_month_wh):
    return largest_of(battery_day_by_month_wh)


@line(
    "share of the label kept in the cold",
    standing="standard",
    source="temperature factors after IEEE Std 485; never credited above 1 (DOE-SPEC-3019-96)",
)
def kept_frac(capacity_kept, battery_temp_c):
    return smaller(1, capacity_kept(battery_temp_c))


@line("energy for the sunless days", standing="common practice, no source")
def spell_wh(energy_day_wh, autonomy_days):
    return energy_day_wh * autonomy_days


@line("bank, if it stayed warm", standing="common practice, no source")
def bank_warm_wh(spell_wh, depth_frac):
    return spell_wh / depth_frac


@line("bank, corrected for cold", standing="common practice, no source")
def bank_cold_wh(bank_warm_wh, kept_frac):
    return bank_warm_wh / kept_frac


@line("bank needed", standing="physics")
def bank_needed_ah(bank_cold_wh, bank_voltage_v):
    return bank_cold_wh / bank_voltage_v


#: What both forms begin with.
BEGINNING = Sheet(energy_day_wh, kept_frac)
#: The short trade form: from the hardest day to the amp-hours on the label.
BANK = BEGINNING + Sheet(spell_wh, bank_warm_wh, bank_cold_wh, bank_needed_ah)
