"""Days of autonomy before a record of weather: the sun of each day in days of load, and how often a bank is too small.

The lines say what the autonomy lesson asks: every day takes the same load, the array is as large as its array-to-load
ratio says in the month with the least sun, and a day's sun and load are netted. Losses in the battery are left out.
Years hour by hour, with every loss, are in :mod:`offgrid_core.sizing.balance`.
"""

from offgrid_core.sizing.array import peak_sun_by_month_h
from offgrid_core.sizing.storage_rules import worst_sun_h
from offgrid_core.worksheet import Sheet, at_least, line, sum_of

day_sun_by_row_h = peak_sun_by_month_h.renamed(
    "day_sun_by_row_h",
    "peak sun hours of each day of the record",
    plane_by_month_kwh_m2="plane_by_row_kwh_m2",
    shade_by_month_frac="shade_by_row_frac",
)


@line(
    "sun of each day, in days of load",
    standing="classroom approximation, no source",
    source="the same load every day; the array brings its ratio of it on the mean day of the month with the least sun",
)
def sun_by_row_days(array_load_ratio, day_sun_by_row_h, worst_sun_h):
    return array_load_ratio * day_sun_by_row_h / worst_sun_h


@line("what each day falls short, in days of load", standing="physics", source="below 0 where there is more sun")
def short_by_row_days(sun_by_row_days):
    return 1 - sun_by_row_days


@line("years with a longer dark spell, one by one", standing="physics")
def longer_year_by_row_count(longest_by_row_days, autonomy_days):
    return at_least(longest_by_row_days, autonomy_days)


@line("share of the years with a longer dark spell", standing="physics", source="counted in the record")
def longer_years_frac(longer_year_by_row_count, record_years):
    return sum_of(longer_year_by_row_count) / record_years


@line("longer dark spells, one by one", standing="physics")
def longer_spell_by_row_count(spell_by_row_days, autonomy_days):
    return at_least(spell_by_row_days, autonomy_days)


@line("longer dark spells a year", standing="physics", source="counted in the record")
def longer_spells_ratio(longer_spell_by_row_count, record_years):
    return sum_of(longer_spell_by_row_count) / record_years


#: From the sun on the array to what each day falls short.
DAYS_OF_LOAD = Sheet(peak_sun_by_month_h, worst_sun_h, day_sun_by_row_h, sun_by_row_days, short_by_row_days)
#: How often a dark spell outlasts the days of autonomy.
LONGER = Sheet(longer_year_by_row_count, longer_years_frac, longer_spell_by_row_count, longer_spells_ratio)
