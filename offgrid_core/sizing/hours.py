"""The day by the clock: what runs together in which hour, what the day's curve is, and how much of it falls at night.

Solved once for all 24 hours: the hours lie on an axis before the rows. A load with a window can only run in its
window; one without may start at any time, so it counts in every hour of a peak and evenly along the day's curve.
"""

import numpy as np

from offgrid_core.sizing.loads import LOADS, dc_peak_w, peak_va, peak_w, surge_w
from offgrid_core.sizing.sun import MEAN_DAYS, declination_deg, sunset_deg
from offgrid_core.worksheet import Sheet, line, sum_of


@line("hours a day, from the windows", standing="physics")
def window_h(window_by_hour_frac):
    return sum_of(window_by_hour_frac)


@line("share of every hour, for a load that may run at any time", standing="classroom approximation, no source")
def even_frac(day_hours_h):
    return day_hours_h / 24


@line("running power, in an hour in which the row may run", standing="physics")
def open_by_row_w(power_by_row_w, touched_by_row_frac):
    return power_by_row_w * touched_by_row_frac


@line("energy of the row in the hour", standing="physics")
def hour_run_by_row_wh(count_by_row, power_by_row_w, duty_by_row_frac, season_by_row_frac, clock_by_row_frac):
    return count_by_row * power_by_row_w * duty_by_row_frac * season_by_row_frac * clock_by_row_frac


@line("energy of the row in the hour, with standby", standing="physics")
def hour_by_row_wh(hour_run_by_row_wh, count_by_row, standby_by_row_w, clock_by_row_frac):
    return hour_run_by_row_wh + count_by_row * standby_by_row_w * (1 - clock_by_row_frac)


@line("AC energy of the hour", standing="physics")
def hour_ac_wh(hour_by_row_wh, on_ac_by_row_frac):
    return sum_of(hour_by_row_wh * on_ac_by_row_frac)


@line("DC energy of the hour", standing="physics")
def hour_dc_wh(hour_by_row_wh, on_ac_by_row_frac):
    return sum_of(hour_by_row_wh * (1 - on_ac_by_row_frac))


@line(
    "energy out of the battery in the hour", standing="physics", source="the inverter's idle draw spread over the day"
)
def hour_battery_wh(
    hour_ac_wh, inverter_eff_frac, inverter_idle_w, inverter_on_h, hour_dc_wh, dc_wiring_eff_frac, growth_factor
):
    return (
        hour_ac_wh / inverter_eff_frac + inverter_idle_w * inverter_on_h / 24 + hour_dc_wh / dc_wiring_eff_frac
    ) * growth_factor


@line("energy used while the sun is down", standing="physics")
def night_wh(load_by_hour_wh, dark_by_hour_frac):
    return sum_of(load_by_hour_wh * dark_by_hour_frac)


@line("share of the day's energy used at night", standing="physics", source="all of it has to pass through the bank")
def night_share_frac(night_wh, load_by_hour_wh):
    return night_wh / sum_of(load_by_hour_wh)


@line("energy of the loads that must not fail", standing="physics")
def critical_day_wh(row_at_battery_by_row_wh, critical_by_row_frac, growth_factor):
    return sum_of(row_at_battery_by_row_wh * critical_by_row_frac) * growth_factor


@line("autonomy if only those loads run", standing="common practice, no source")
def critical_autonomy_days(bank_usable_wh, critical_day_wh):
    return bank_usable_wh / critical_day_wh


#: Hours a day of a load, from the share of each hour that its windows cover.
WINDOWS = Sheet(window_h)
#: The day's curve of a load without windows.
EVEN = Sheet(even_frac)
#: Lines that judge what runs together; solved with the hours on an axis before the rows.
TOGETHER = Sheet(open_by_row_w)
#: The curve of the day, hour by hour.
DAY_CURVE = Sheet(hour_run_by_row_wh, hour_by_row_wh, hour_ac_wh, hour_dc_wh, hour_battery_wh)
#: How much of the day's curve is used at night.
NIGHT = Sheet(night_wh, night_share_frac)
#: What the bank does for the loads that must not fail, with the others switched off.
CRITICAL = Sheet(critical_day_wh, critical_autonomy_days)
#: The loads worksheet of a list with windows: each peak is that of its busiest hour.
LOADS_BY_HOUR = LOADS.replace(
    peak_w.with_expression("largest_of(running_by_hour_w)"),
    peak_va.with_expression("largest_of(running_by_hour_va)"),
    surge_w.with_expression("largest_of(surging_by_hour_w)"),
    dc_peak_w.with_expression("largest_of(running_dc_by_hour_w)"),
)


def dark_by_hour_frac(latitude_deg: float, month: int) -> np.ndarray:
    """Return the share of each hour of solar time with the sun below a level horizon, on the month's mean day.

    Parameters
    ----------
    latitude_deg
        Degrees, north positive.
    month
        1 for January.

    Returns
    -------
    numpy.ndarray
        24 shares, midnight first.
    """
    half_day_h = sunset_deg(latitude_deg, declination_deg(MEAN_DAYS))[month - 1] / 15
    begins = np.arange(24.0)
    light = np.clip(np.minimum(begins + 1, 12 + half_day_h) - np.maximum(begins, 12 - half_day_h), 0, 1)
    return np.asarray(1 - light)
