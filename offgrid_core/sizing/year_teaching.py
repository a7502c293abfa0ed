"""A year by hand: a day of the bank in three steps, twelve months beside their loads, and the energy of a log.

The day is the balance of :mod:`offgrid_core.sizing.balance` taken in three strides instead of twenty-four: a night that
only draws, a morning and an afternoon that only charge. Self-discharge and taper are left out.
"""

from offgrid_core.sizing.balance import available_wh, drawn_wh, floor_wh, lack_wh, left_wh, spilled_wh, stored_wh
from offgrid_core.worksheet import Sheet, larger, line, sum_of

dawn_wh = left_wh.renamed("dawn_wh", "charge at dawn")


@line("energy missing in the night", standing="physics", source="what the loads ask for beyond the cut-off")
def missed_wh(deficit_wh, drawn_wh):
    return deficit_wh - drawn_wh


@line("charge at the start of the hour", standing="physics", source="here of some dull days, told as a share")
def store_wh(bank_wh, charge_before_frac):
    return bank_wh * charge_before_frac


early_room_wh = lack_wh.renamed("early_room_wh", "room in the bank at dawn", store_wh="dawn_wh")
early_stored_wh = stored_wh.renamed(
    "early_stored_wh",
    "energy put into store in the morning",
    surplus_wh="early_surplus_wh",
    room_wh="early_room_wh",
)


@line("charge at noon", standing="physics")
def noon_wh(dawn_wh, early_stored_wh):
    return dawn_wh + early_stored_wh


late_room_wh = lack_wh.renamed("late_room_wh", "room in the bank at noon", store_wh="noon_wh")
late_stored_wh = stored_wh.renamed(
    "late_stored_wh",
    "energy put into store in the afternoon",
    surplus_wh="late_surplus_wh",
    room_wh="late_room_wh",
)
dusk_wh = noon_wh.renamed("dusk_wh", "charge at dusk", dawn_wh="noon_wh", early_stored_wh="late_stored_wh")
late_spilled_wh = spilled_wh.renamed(
    "late_spilled_wh",
    "energy spilled in the afternoon, the bank being full",
    surplus_wh="late_surplus_wh",
    stored_wh="late_stored_wh",
)


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


@line("energy missing in the month", standing="physics", source="a bank carries days, not months")
def short_by_month_wh(wanted_by_month_wh, yield_by_month_wh):
    return larger(0, wanted_by_month_wh - yield_by_month_wh)


dull_deficit_wh = short_by_month_wh.renamed(
    "deficit_wh",
    "energy the loads still ask for",
    wanted_by_month_wh="dull_wanted_wh",
    yield_by_month_wh="dull_came_wh",
)


@line(
    "energy missing in the year, month by month",
    standing="classroom approximation, no source",
    source="at the least: dark spells within a month and charging losses come on top",
)
def short_year_wh(short_by_month_wh):
    return sum_of(short_by_month_wh)


@line(
    "share of the load lost at the least",
    standing="classroom approximation, no source",
    source="by months; the hours find more",
)
def least_lost_frac(short_year_wh, wanted_by_month_wh):
    return short_year_wh / sum_of(wanted_by_month_wh)


@line("energy missing in the year, in days of load", standing="physics", source="by a mean day of the year")
def short_year_days(short_year_wh, wanted_by_month_wh):
    return short_year_wh * 365 / sum_of(wanted_by_month_wh)


@line("energy of a log", standing="physics", source="each sample stands for the time until the next")
def logged_wh(logged_by_row_w, sample_h):
    return sum_of(logged_by_row_w) * sample_h


@line("energy the loads still ask for", standing="physics", source="as a meter wrote it down")
def deficit_wh(logged_wh):
    return logged_wh


@line(
    "load lost with that bank", standing="classroom approximation, no source", source="read off years followed by hours"
)
def loss_read_frac(lost_of_bank, bank_factor):
    return lost_of_bank(bank_factor)


#: The night down to the cut-off, and what of it is missing.
NIGHT = Sheet(floor_wh, available_wh, drawn_wh, missed_wh)
#: Some dull days in one stride: the bank begins at a share of its label and is asked for what the array does not bring.
DULL_DAYS = Sheet(store_wh, dull_deficit_wh) + NIGHT
#: The same night, of which a meter wrote down what the loads took.
LOGGED_NIGHT = Sheet(logged_wh, deficit_wh) + NIGHT
#: A day of the bank in three steps: night, morning, afternoon; each begins where the last one ended.
DAY = Sheet(
    floor_wh,
    available_wh,
    drawn_wh,
    dawn_wh,
    early_room_wh,
    early_stored_wh,
    noon_wh,
    late_room_wh,
    late_stored_wh,
    dusk_wh,
)
#: What that afternoon spills.
SPILL = Sheet(late_spilled_wh)
#: Twelve months, each beside its own load.
MONTHS_SHORT = Sheet(short_by_month_wh, short_year_wh, least_lost_frac)
#: The same, said in days at the end.
MONTHS_IN_DAYS = MONTHS_SHORT + Sheet(short_year_days)
#: What a bank's size did to the load lost, as somebody read it off.
LOSS_READ = Sheet(loss_read_frac)
#: From the months' sun to a year's energy.
YIELD = Sheet(yield_by_month_wh, yield_year_wh)
#: From the samples of a log to its energy.
LOG = Sheet(logged_wh)
