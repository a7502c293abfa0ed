"""Strings of battery units: how many in series, how many side by side, and what the bank as built can do."""

from offgrid_core.worksheet import Sheet, down, larger, limit, line, up

_STRINGS = "one string is best, two are good, three the usual limit"


@line("units in series", standing="physics")
def units_in_series_count(bank_voltage_v, unit_v):
    return bank_voltage_v / unit_v


@line("strings in parallel", standing="physics")
def strings_count(bank_needed_ah, unit_ah):
    return larger(1, up(bank_needed_ah / unit_ah))


@line("battery units in all", standing="physics")
def units_count(units_in_series_count, strings_count):
    return units_in_series_count * strings_count


@line("capacity of the bank as built, at the hours of its label", standing="physics")
def bank_ah(strings_count, unit_ah):
    return strings_count * unit_ah


@line("energy on the label of the bank as built", standing="physics")
def bank_wh(bank_ah, bank_voltage_v):
    return bank_ah * bank_voltage_v


@line("usable energy in the cold", standing="common practice, no source")
def bank_usable_wh(bank_wh, depth_frac, kept_frac):
    return bank_wh * depth_frac * kept_frac


@line("autonomy of the bank as built", standing="common practice, no source")
def autonomy_given_days(bank_usable_wh, energy_day_wh):
    return bank_usable_wh / energy_day_wh


@line("depth that the sunless days ask of the bank as built", standing="physics", source="above 100 % it runs flat")
def spell_depth_frac(energy_day_wh, autonomy_days, bank_wh, kept_frac):
    return energy_day_wh * autonomy_days / (bank_wh * kept_frac)


@line("mass of all units", standing="maker's data wanted")
def bank_mass_kg(units_count, unit_mass_kg):
    return units_count * unit_mass_kg


@limit(
    "bank as built against the bank needed",
    severity="service",
    mend="add strings, or ask less of the bank",
    standing="common practice, no source",
)
def bank_margin_ah(bank_ah, bank_needed_ah):
    return bank_ah - bank_needed_ah


@limit(
    "whole units in series",
    severity="danger",
    mend="choose a unit whose voltage divides the bank voltage",
    standing="physics",
)
def series_margin_count(units_in_series_count):
    return down(units_in_series_count) - up(units_in_series_count)


@limit(
    "strings in parallel against the most wanted",
    severity="service",
    mend="choose a unit with more amp-hours, or a higher bank voltage",
    standing="common practice, no source",
    source=_STRINGS,
)
def strings_margin_count(strings_max_count, strings_count):
    return strings_max_count - strings_count


@limit(
    "depth of discharge against the most the chemistry stands",
    severity="damage",
    mend="use less depth, or another chemistry",
    standing="maker's data wanted",
)
def depth_margin_frac(depth_max_frac, depth_frac):
    return depth_max_frac - depth_frac


@limit(
    "battery temperature against the coldest it may be used at",
    severity="damage",
    mend="warm the battery, or choose a chemistry that works in that cold",
    standing="maker's data wanted",
)
def use_temp_margin_k(battery_temp_c, discharge_temp_min_c):
    return battery_temp_c - discharge_temp_min_c


@limit(
    "depth of discharge of an ordinary day",
    severity="damage",
    mend="build a larger bank or save energy: shallow daily cycles make it last",
    standing="standard",
    source="IEEE Std 1013, from memory; shallow-cycling plates 0.2 (SAND81-7135)",
)
def daily_depth_margin_frac(depth_daily_frac, energy_day_wh, bank_wh, kept_frac):
    return depth_daily_frac - energy_day_wh / (bank_wh * kept_frac)


@line("amp-hours built beyond the need, as a share", standing="physics")
def overshoot_frac(bank_ah, bank_needed_ah):
    return bank_ah / bank_needed_ah - 1


@line("cost of all units", standing="physics", source="prices of the catalogue are invented")
def units_cost(units_count, unit_cost):
    return units_count * unit_cost


@limit(
    "one unit against what one person may lift",
    severity="service",
    mend="two people or a hoist",
    standing="common practice, no source",
)
def lift_margin_kg(lift_max_kg, unit_mass_kg):
    return lift_max_kg - unit_mass_kg


#: From the amp-hours needed to whole strings of one kind of unit.
STRINGS = Sheet(
    units_in_series_count,
    strings_count,
    units_count,
    bank_ah,
    bank_wh,
    bank_usable_wh,
    autonomy_given_days,
    spell_depth_frac,
    bank_mass_kg,
    bank_margin_ah,
    series_margin_count,
    strings_margin_count,
    depth_margin_frac,
    use_temp_margin_k,
    daily_depth_margin_frac,
)
#: With a bank already on hand the strings are counted, not worked out.
OWNED_STRINGS = strings_count.with_expression("down(owned_units_count / units_in_series_count)")
#: What kinds of unit are compared by, beyond the strings themselves.
STRINGS_COMPARED = Sheet(overshoot_frac, units_cost, lift_margin_kg)
