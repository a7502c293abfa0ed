"""A year by hand: what an array makes in twelve months, and what a log of power samples comes to as energy."""

from offgrid_core.worksheet import Sheet, line, sum_of


@line("energy the array delivers in the month", standing="physics", source="nothing spilled: a ceiling")
def yield_by_month_wh(array_w, peak_sun_by_month_h, days_by_month_days, delivered_by_month_frac):
    return array_w * peak_sun_by_month_h * days_by_month_days * delivered_by_month_frac


@line(
    "energy the array delivers in a year",
    standing="physics",
    source="a ceiling; what of it is used depends on when it comes, which only the hours tell",
)
def yield_year_wh(yield_by_month_wh):
    return sum_of(yield_by_month_wh)


@line("energy of a log", standing="physics", source="each sample stands for the time until the next")
def logged_wh(logged_by_row_w, sample_h):
    return sum_of(logged_by_row_w) * sample_h


#: From the months' sun to a year's energy.
YIELD = Sheet(yield_by_month_wh, yield_year_wh)
#: From the samples of a log to its energy.
LOG = Sheet(logged_wh)
