"""Strings for the lessons: units put in rows by hand, a drawing of strings checked, a whole row that falls short."""

from offgrid_core.sizing.strings import OWNED_STRINGS, STRINGS
from offgrid_core.worksheet import Sheet, down, larger, largest_of, limit, line, smaller, smallest_of, sum_of, up

_RULE = "common practice, no source"
_CLASSROOM = "classroom approximation, no source"


# ---- units on hand, put in rows


@line("voltage of the bank as wired", standing="physics")
def wired_voltage_v(units_in_series_count, unit_v):
    return units_in_series_count * unit_v


@line("energy on the label of the bank as wired", standing="physics")
def wired_wh(bank_ah, wired_voltage_v):
    return bank_ah * wired_voltage_v


@line("units left over, in no whole string", standing="physics")
def left_over_count(owned_units_count, units_count):
    return owned_units_count - units_count


@limit(
    "voltage as wired against the voltage of the system",
    severity="danger",
    mend="make each string so long that its volts are those of inverter, controller and loads",
    standing="physics",
)
def wired_margin_v(wired_voltage_v, bank_voltage_v):
    return smaller(wired_voltage_v, bank_voltage_v) - larger(wired_voltage_v, bank_voltage_v)


@line("equal share of the current", standing="physics")
def equal_share_frac(strings_count):
    return 1 / strings_count


@line("largest share usually accepted in one string", standing=_RULE)
def most_share_frac(equal_share_frac, extra_max_frac):
    return equal_share_frac * (1 + extra_max_frac)


# ---- a unit whose voltage does not divide the bank voltage


@line("volts of the whole units that fit in one row", standing="physics")
def whole_row_v(bank_voltage_v, unit_v):
    return down(bank_voltage_v / unit_v) * unit_v


@limit(
    "volts of a row of whole units against the inverter's cut-off",
    severity="service",
    mend="choose a unit whose voltage divides the bank voltage",
    standing="physics",
)
def whole_row_margin_v(whole_row_v, inverter_cutoff_v):
    return whole_row_v - inverter_cutoff_v


@line("cost of one battery unit", standing=_CLASSROOM)
def unit_cost(unit_ah, unit_v, unit_kwh_cost):
    return up(unit_ah * unit_v * unit_kwh_cost / (1000 * 10)) * 10


# ---- the rules of a drawing of strings; one row a string


@limit(
    "volts of the string against the bank voltage",
    severity="danger",
    mend="fill the string, or take it out: strings of unlike volts drive current through each other at rest",
    standing="physics",
)
def string_voltage_margin_by_row_v(units_by_row_count, unit_v, bank_voltage_v):
    return smaller(units_by_row_count * unit_v, bank_voltage_v) - larger(units_by_row_count * unit_v, bank_voltage_v)


@limit(
    "fuses in the strings against the number of strings",
    severity="danger",
    mend="put a fuse at the end of each string: the others feed a fault in one of them",
    standing=_RULE,
    source="protection of each string: the local code decides",
)
def string_fuses_margin_count(string_fuses_count, strings_count):
    return string_fuses_count - strings_count


@limit(
    "units alike in size, string against string",
    severity="damage",
    mend="use units of one size and make throughout",
    standing=_RULE,
)
def alike_margin_ah(unit_by_row_ah):
    return smallest_of(unit_by_row_ah) - largest_of(unit_by_row_ah)


@limit(
    "units alike in age, string against string",
    severity="damage",
    mend="use units of one age: an old string is charged too much or too little by its neighbours",
    standing=_RULE,
)
def age_margin_years(age_spread_max_years, age_by_row_years):
    return age_spread_max_years - (largest_of(age_by_row_years) - smallest_of(age_by_row_years))


@limit(
    "main leads at opposite corners",
    severity="damage",
    mend="take one main lead at the first string and the other at the last, or use bus bars with equal leads",
    standing=_RULE,
)
def corner_margin_count(plus_lead_count, minus_lead_count, strings_count):
    return larger(plus_lead_count, minus_lead_count) - smaller(plus_lead_count, minus_lead_count) - (strings_count - 1)


@limit(
    "amp-hours of all strings against the bank needed",
    severity="service",
    mend="add a whole string, or ask less of the bank",
    standing="physics",
)
def drawn_margin_ah(unit_by_row_ah, bank_needed_ah):
    return sum_of(unit_by_row_ah) - bank_needed_ah


#: Units on hand put in strings of a chosen length: what they make, and what is left over.
AS_WIRED = Sheet(
    OWNED_STRINGS,
    STRINGS["units_count"],
    wired_voltage_v,
    STRINGS["bank_ah"],
    wired_wh,
    left_over_count,
    wired_margin_v,
)
#: Against what the share of a string is held.
SHARES = Sheet(equal_share_frac, most_share_frac)
#: How far whole units of a kind come in one row.
WHOLE_ROW = Sheet(whole_row_v, whole_row_margin_v)
#: What a drawing of strings is checked by.
STRING_RULES = Sheet(
    string_voltage_margin_by_row_v,
    string_fuses_margin_count,
    corner_margin_count,
    alike_margin_ah,
    age_margin_years,
    STRINGS["strings_margin_count"],
    drawn_margin_ah,
)
