"""Lines of lessons 01 and 05: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _energy(v):
    """Read a row's energy on a day it runs; the source's ``h`` is for how long it takes its power."""
    return {
        "P_W": v["power_by_row_w"],
        "P_np": v["power_by_row_w"],
        "n": v["count_by_row"],
        "h": v["hours_by_row_h"] * v["duty_by_row_frac"] * v["season_by_row_frac"],
        "mins": 60 * v["hours_by_row_h"],
        "duty": v["duty_by_row_frac"],
        "d_wk": 7,
    }


def _inverter(v):
    """What is not divided stands for the idle energy, as it is added after the division in both."""
    return {"E_ac": v["ac_day_wh"], "eta_inv": v["inverter_eff_frac"], "E_dc": v["inverter_idle_wh"]}


def _idle(v):
    return _inverter(v) | {"E_dc": 0, "P_idle": v["inverter_idle_wh"] / v["inverter_on_h"], "h_on": v["inverter_on_h"]}


def _battery(v):
    eta = v["inverter_eff_frac"]
    return {"E_ac": v["inverter_day_wh"] * eta, "eta_inv": eta, "E_dc": v["dc_day_wh"]}


def _battery_from_the_sockets(v):
    return {"E_ac": v["ac_day_wh"], "eta_inv": v["inverter_eff_frac"], "E_dc": v["dc_day_wh"]}


def _standby(v):
    return {"E_ac": v["run_energy_by_row_wh"], "n_sb": 1, "P_sb": v["standby_energy_by_row_wh"] / 24}


def _warm(v):
    """Read the energy of the spell as so many days of the day's energy, whatever the page has for it."""
    day = v.get("energy_day_wh", v["spell_wh"])
    return {"E_day": day, "N": v["spell_wh"] / day, "DoD": v["depth_frac"], "V_bank": 1}


def _cold(v):
    curve = v["capacity_kept"]
    return {
        "Ah_25": 1,
        "fT": lambda t: min(1.0, float(curve(t))),
        "T_bank_C": v["battery_temp_c"],
        "T_mean_C": v.get("mean_temp_c"),
        "T_air_min_C": v.get("air_coldest_c"),
    }


def _set_point(v):
    return {
        "V_abs25": v["cells_count"] * v["absorb_cell_v"],
        "n_cells": v["cells_count"],
        "mV_c": -v["compensation_mv_k"],
        "T_bank_C": v["battery_temp_c"],
    }


def _week(v):
    return {"P_W": v["run_energy_by_row_wh"], "n": 1, "h": 1, "d_wk": v["week_by_row_days"]}


def _asleep_in_a_week(v):
    """Return the standby energy of a mean day, of which the source's rows about the week do not speak."""
    on = v["hours_by_row_h"] * v["week_by_row_days"] / 7
    return v["count_by_row"] * v["standby_by_row_w"] * (24 - on)


def _every_day(v):
    """Whoever takes every day for a working day has its standby every day too: so many such days make the week."""
    day = v["run_energy_by_row_wh"] + v["count_by_row"] * v["standby_by_row_w"] * (24 - v["hours_by_row_h"])
    return {"P_W": day, "n": 1, "h": 1, "d_wk": 7 * v["mean_energy_by_row_wh"] / day}


#: By line; a mistake that reads its line otherwise is below.
BY_LINE = {
    "run_energy_by_row_wh": Reading(_energy),
    "mean_energy_by_row_wh": Reading(_week, beside=_asleep_in_a_week),
    "day_energy_by_row_wh": Reading(_standby),
    "standby_by_row_w": Reading(lambda v: {"I_mA": 1000 * v["standby_by_row_a"], "V_sb": v["supply_by_row_v"]}),
    "inverter_day_wh": Reading(_inverter),
    "battery_day_wh": Reading(_battery),
    "spell_wh": Reading(lambda v: {"E_day": v["energy_day_wh"], "N": v["autonomy_days"]}),
    "bank_warm_wh": Reading(_warm),
    "kept_frac": Reading(_cold, upside_down=True),
    "bank_cold_wh": Reading(lambda v: {"Ah_25": v["bank_warm_wh"], "f_ret": v["kept_frac"]}),
    "for_cold_ah": Reading(lambda v: {"Ah_25": v["for_all_three_ah"], "f_ret": v["kept_frac"]}),
    "bank_needed_ah": Reading(lambda v: {"E_day": v["bank_cold_wh"], "V_bank": v["bank_voltage_v"]}),
    "day_ah": Reading(lambda v: {"E_day": v["energy_day_wh"], "V_bank": v["bank_voltage_v"]}),
    "battery_temp_c": Reading(lambda v: {"T_F": v["reading_fahrenheit"]}),
    "temp_rise_k": Reading(lambda v: {"dT_F": v["swing_fahrenheit"]}),
    "absorb_set_v": Reading(_set_point),
}
BY_MISTAKE = {
    "LD-02": Reading(_every_day),
    "LD-19": Reading(_idle),
    "LD-17": Reading(_battery_from_the_sockets, again=("inverter_day_wh",), beside=lambda v: v["inverter_idle_wh"]),
}
