"""How long a bank lasts: worn out by cycles or by years, whichever comes first.

No common test stands behind published curves of cycles against depth, and rules for the heat differ (life halves
every 8 K, 8.3 K or 10 K). The result compares designs; it promises nothing.
"""

from offgrid_core.worksheet import Sheet, larger, line, smaller, sum_of


@line(
    "depth of the hardest day's cycle",
    standing="physics",
    source="of the label, warm: an ordinary day is shallower, so the life comes out short rather than long",
)
def depth_day_frac(energy_day_wh, bank_wh):
    return energy_day_wh / bank_wh


@line(
    "depth of cycle counted",
    standing="classroom approximation, no source",
    source="never shallower than the table: no cycles are credited that nobody counted",
)
def depth_counted_frac(depth_day_frac, cycle_depth_least_frac):
    return larger(depth_day_frac, cycle_depth_least_frac)


@line("cycles to the end of life", standing="classroom approximation, no source", source="straight on log–log paper")
def cycles_count(cycle_life, depth_counted_frac):
    return cycle_life(depth_counted_frac)


@line("life by cycles", standing="physics")
def cycle_life_years(cycles_count, cycles_year_count):
    return cycles_count / cycles_year_count


@line("mean battery temperature", standing="classroom approximation, no source", source="mean of the months")
def life_temp_c(air_temp_by_month_c):
    return sum_of(air_temp_by_month_c) / 12


@line(
    "life by the calendar",
    standing="common practice, no source",
    source="halves every so many kelvin of warmth (8 to 10 K in circulation, IEEE Std 450 8.3 K); cold is not credited",
)
def calendar_life_years(float_life_years, life_temp_c, life_table_c, halving_k):
    return float_life_years * 0.5 ** (larger(0, life_temp_c - life_table_c) / halving_k)


@line(
    "life of the bank",
    standing="common practice, no source",
    source="the earlier end: Spiers and Rasinkoski, Solar Energy 58 (1996) 147; no promise",
)
def bank_life_years(cycle_life_years, calendar_life_years):
    return smaller(cycle_life_years, calendar_life_years)


#: From the bank as built and its warmth to the years it may last.
LIFE = Sheet(
    depth_day_frac,
    depth_counted_frac,
    cycles_count,
    cycle_life_years,
    calendar_life_years,
    bank_life_years,
)
#: The same, with the warmth of the site.
LIFE_AT_SITE = Sheet(life_temp_c) + LIFE
