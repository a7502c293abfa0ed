"""The inverter's losses at every load: a constant, a share and a square of the power, fitted to two known points.

The flat efficiency of the loads worksheet is an assumption; here it is verified against the inverter's own curve,
hour by hour. A large inverter that idles most of the day is the usual surprise.
"""

from offgrid_core.worksheet import Sheet, limit, line, sum_of

_FIT = "loss = a + b·P + c·P², a being the idle power; the two points are the maker's"


@line("power at the part-load point", standing="maker's data wanted")
def part_load_w(inverter_rated_w, part_load_frac):
    return inverter_rated_w * part_load_frac


@line("loss at part load beyond idling, for each watt", standing="physics", source=_FIT)
def part_loss_frac(part_load_w, inverter_part_eff_frac, inverter_idle_w):
    return 1 / inverter_part_eff_frac - 1 - inverter_idle_w / part_load_w


@line("loss at full load beyond idling, for each watt", standing="physics", source=_FIT)
def full_loss_frac(inverter_rated_w, inverter_full_eff_frac, inverter_idle_w):
    return 1 / inverter_full_eff_frac - 1 - inverter_idle_w / inverter_rated_w


@line("loss that grows with the square of the power", standing="physics", source=_FIT)
def square_loss_per_w(full_loss_frac, part_loss_frac, inverter_rated_w, part_load_w):
    return (full_loss_frac - part_loss_frac) / (inverter_rated_w - part_load_w)


@line("loss that grows with the power", standing="physics", source=_FIT)
def share_loss_frac(part_loss_frac, square_loss_per_w, part_load_w):
    return part_loss_frac - square_loss_per_w * part_load_w


@line("inverter's loss hour by hour", standing="physics", source=_FIT + "; idle power spread over the day")
def loss_by_hour_w(ac_by_hour_w, inverter_idle_w, inverter_on_h, share_loss_frac, square_loss_per_w):
    return inverter_idle_w * inverter_on_h / 24 + share_loss_frac * ac_by_hour_w + square_loss_per_w * ac_by_hour_w**2


@line("energy into the inverter a day, by its own curve", standing="physics", source="from the mean power of each hour")
def curve_day_wh(ac_by_hour_w, loss_by_hour_w):
    return sum_of(ac_by_hour_w + loss_by_hour_w)


@line("efficiency over the day, by its own curve", standing="physics", source="idling included")
def curve_eff_frac(ac_by_hour_w, curve_day_wh):
    return sum_of(ac_by_hour_w) / curve_day_wh


@limit(
    "energy assumed for the inverter against its own curve",
    severity="service",
    mend="assume a lower inverter_eff_frac, or choose an inverter nearer to the load",
    standing="maker's data wanted",
)
def curve_margin_wh(inverter_day_wh, curve_day_wh):
    return inverter_day_wh - curve_day_wh


#: The three terms of the loss, from idle power and two points of the efficiency curve.
LOSSES = Sheet(part_load_w, part_loss_frac, full_loss_frac, square_loss_per_w, share_loss_frac)
#: A day's energy through the curve, and the flat efficiency judged by it.
EFFICIENCY = LOSSES + Sheet(loss_by_hour_w, curve_day_wh, curve_eff_frac, curve_margin_wh)
