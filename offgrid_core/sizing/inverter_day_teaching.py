"""A day of appliances at one inverter: what runs at a moment, what all labels come to, and what idling takes.

What runs together is judged by the lines of the loads list, solved with the moments of the day on an axis before the
rows. Any motor that may run at a moment may start at it: a thermostat asks nobody.
"""

from offgrid_core.sizing.inverter_teaching import motor_input_w
from offgrid_core.sizing.loads import LOADS, peak_w, start_extra_w, surge_w
from offgrid_core.worksheet import Sheet, at_least, limit, line, sum_of


@line("whether it may run at that moment, 1 for yes", standing="physics")
def runs_now_by_row_frac(moment_h, start_by_row_h, hours_by_row_h):
    return at_least(moment_h, start_by_row_h) * (1 - at_least(moment_h, start_by_row_h + hours_by_row_h))


@line("running power", standing="physics", source="at moments at which it may run, otherwise none")
def power_by_row_w(label_by_row_w, runs_now_by_row_frac):
    return label_by_row_w * runs_now_by_row_frac


@line("all labels added up", standing="physics", source="what would run if everything ran at once")
def labels_w(count_by_row, power_by_row_w):
    return sum_of(count_by_row * power_by_row_w)


@line("idle energy beside what the AC loads take", standing="physics")
def idle_share_frac(inverter_idle_wh, ac_day_wh):
    return inverter_idle_wh / ac_day_wh


@limit(
    "inverter's idle energy against what may go on it",
    severity="service",
    mend="choose a smaller inverter, or switch it off while nothing runs",
    standing="common practice, no source",
)
def idle_margin_wh(idle_most_wh, inverter_idle_wh):
    return idle_most_wh - inverter_idle_wh


#: What runs together at a moment of the day, and its hardest start.
MOMENT = Sheet(runs_now_by_row_frac, power_by_row_w) + LOADS.upto("peak_w", "peak_va", "surge_w")
#: What all labels come to, whatever runs when.
LABELS = Sheet(labels_w)
#: What an inverter takes in a day for being on, beside what passes through it.
IDLE = LOADS.upto("ac_day_wh", "inverter_idle_wh") + Sheet(idle_share_frac)
#: One motor by its nameplate, beside what else runs: the list of loads has one motor and one other row.
ONE_MOTOR = Sheet(
    motor_input_w,
    peak_w.with_expression("others_w + motor_input_w"),
    start_extra_w.with_expression("motor_input_w * (largest_of(start_by_row_factor) - 1)"),
    surge_w,
)
