"""The loads list: what runs, how much energy it takes in a day, and what that is at the battery.

One value a row of the list (``by_row``). Only AC energy passes the inverter, so only AC energy is divided by
its efficiency; the inverter's own idle draw comes on top for as long as it is switched on.
"""

from offgrid_core.worksheet import Sheet, larger, largest_of, line, sum_of

_ALONE = "a load that never runs with the rest still runs by itself"
_MEAN = "weekly mean: for the array; the busiest day is for the bank"


@line("energy of the row on a day it runs", standing="physics")
def run_energy_by_row_wh(count_by_row, power_by_row_w, hours_by_row_h, duty_by_row_frac, season_by_row_frac):
    return count_by_row * power_by_row_w * hours_by_row_h * duty_by_row_frac * season_by_row_frac


@line("standby energy of the row on a day it runs", standing="physics")
def standby_energy_by_row_wh(count_by_row, standby_by_row_w, hours_by_row_h):
    return count_by_row * standby_by_row_w * (24 - hours_by_row_h)


@line("energy of the row on its busiest day", standing="physics")
def day_energy_by_row_wh(run_energy_by_row_wh, standby_energy_by_row_wh):
    return run_energy_by_row_wh + standby_energy_by_row_wh


@line("mean energy of the row over the week", standing="physics", source=_MEAN)
def mean_energy_by_row_wh(run_energy_by_row_wh, week_by_row_days, count_by_row, standby_by_row_w, hours_by_row_h):
    return run_energy_by_row_wh * week_by_row_days / 7 + count_by_row * standby_by_row_w * (
        24 - hours_by_row_h * week_by_row_days / 7
    )


@line("AC energy a day", standing="physics")
def ac_day_wh(day_energy_by_row_wh, on_ac_by_row_frac):
    return sum_of(day_energy_by_row_wh * on_ac_by_row_frac)


@line("DC energy a day", standing="physics")
def dc_day_wh(day_energy_by_row_wh, on_ac_by_row_frac):
    return sum_of(day_energy_by_row_wh * (1 - on_ac_by_row_frac))


@line("inverter's idle energy a day", standing="physics", source="for being on, whatever is plugged in")
def inverter_idle_wh(inverter_idle_w, inverter_on_h):
    return inverter_idle_w * inverter_on_h


@line("energy into the inverter a day", standing="physics")
def inverter_day_wh(ac_day_wh, inverter_eff_frac, inverter_idle_wh):
    return ac_day_wh / inverter_eff_frac + inverter_idle_wh


@line("energy out of the battery a day", standing="physics")
def battery_day_wh(inverter_day_wh, dc_day_wh, dc_wiring_eff_frac, growth_factor):
    return (inverter_day_wh + dc_day_wh / dc_wiring_eff_frac) * growth_factor


@line("mean AC energy a day", standing="physics", source=_MEAN)
def ac_mean_wh(mean_energy_by_row_wh, on_ac_by_row_frac):
    return sum_of(mean_energy_by_row_wh * on_ac_by_row_frac)


@line("mean DC energy a day", standing="physics", source=_MEAN)
def dc_mean_wh(mean_energy_by_row_wh, on_ac_by_row_frac):
    return sum_of(mean_energy_by_row_wh * (1 - on_ac_by_row_frac))


@line("mean energy into the inverter a day", standing="physics", source=_MEAN)
def inverter_mean_wh(ac_mean_wh, inverter_eff_frac, inverter_idle_wh):
    return ac_mean_wh / inverter_eff_frac + inverter_idle_wh


@line("mean energy out of the battery a day", standing="physics", source=_MEAN)
def battery_mean_wh(inverter_mean_wh, dc_mean_wh, dc_wiring_eff_frac, growth_factor):
    return (inverter_mean_wh + dc_mean_wh / dc_wiring_eff_frac) * growth_factor


@line("AC power running together", standing="common practice, no source", source=_ALONE)
def peak_w(count_by_row, power_by_row_w, coincidence_by_row_frac, on_ac_by_row_frac):
    return larger(
        sum_of(count_by_row * power_by_row_w * coincidence_by_row_frac * on_ac_by_row_frac),
        largest_of(power_by_row_w * on_ac_by_row_frac),
    )


@line("AC volt-amps running together", standing="common practice, no source", source=_ALONE)
def peak_va(count_by_row, power_by_row_w, power_factor_by_row_ratio, coincidence_by_row_frac, on_ac_by_row_frac):
    return larger(
        sum_of(count_by_row * power_by_row_w / power_factor_by_row_ratio * coincidence_by_row_frac * on_ac_by_row_frac),
        largest_of(power_by_row_w / power_factor_by_row_ratio * on_ac_by_row_frac),
    )


@line("extra power of the hardest start", standing="common practice, no source", source="one motor starts at a time")
def start_extra_w(power_by_row_w, start_by_row_factor, on_ac_by_row_frac):
    return largest_of(power_by_row_w * (start_by_row_factor - 1) * on_ac_by_row_frac)


@line("surge while the rest runs", standing="common practice, no source")
def surge_w(peak_w, start_extra_w):
    return peak_w + start_extra_w


@line("DC power running together", standing="common practice, no source", source=_ALONE)
def dc_peak_w(count_by_row, power_by_row_w, coincidence_by_row_frac, on_ac_by_row_frac):
    return larger(
        sum_of(count_by_row * power_by_row_w * coincidence_by_row_frac * (1 - on_ac_by_row_frac)),
        largest_of(power_by_row_w * (1 - on_ac_by_row_frac)),
    )


@line("energy of the row, at the battery", standing="physics", source="without the inverter's idle draw")
def row_at_battery_by_row_wh(day_energy_by_row_wh, on_ac_by_row_frac, inverter_eff_frac, dc_wiring_eff_frac):
    return day_energy_by_row_wh * (on_ac_by_row_frac / inverter_eff_frac + (1 - on_ac_by_row_frac) / dc_wiring_eff_frac)


@line("energy of the row, at the battery, the load grown", standing="physics")
def row_grown_by_row_wh(row_at_battery_by_row_wh, growth_factor):
    return row_at_battery_by_row_wh * growth_factor


@line("idle energy of the inverter, the load grown", standing="physics")
def idle_grown_wh(inverter_idle_wh, growth_factor):
    return inverter_idle_wh * growth_factor


@line("running power, the load grown", standing="physics")
def grown_by_row_w(power_by_row_w, load_factor):
    return power_by_row_w * load_factor


@line("standby power, the load grown", standing="physics")
def grown_standby_by_row_w(standby_by_row_w, load_factor):
    return standby_by_row_w * load_factor


#: The same list with every load drawing more or less.
GROWN = Sheet(grown_by_row_w, grown_standby_by_row_w)
#: What each row takes out of the battery, for pictures.
ROWS_AT_BATTERY = Sheet(run_energy_by_row_wh, standby_energy_by_row_wh, day_energy_by_row_wh, row_at_battery_by_row_wh)
#: The same with the growth that the day's energy counts on: together they are what leaves the battery.
GROWN_AT_BATTERY = Sheet(row_grown_by_row_wh, idle_grown_wh)
#: From the rows of a loads list to the day's energy at the battery, and the peaks.
LOADS = Sheet(
    run_energy_by_row_wh,
    standby_energy_by_row_wh,
    day_energy_by_row_wh,
    mean_energy_by_row_wh,
    ac_day_wh,
    dc_day_wh,
    inverter_idle_wh,
    inverter_day_wh,
    battery_day_wh,
    ac_mean_wh,
    dc_mean_wh,
    inverter_mean_wh,
    battery_mean_wh,
    peak_w,
    peak_va,
    start_extra_w,
    surge_w,
    dc_peak_w,
)
