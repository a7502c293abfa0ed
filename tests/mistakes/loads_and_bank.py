"""Loads, autonomy, depth of discharge and temperature: the text formulas and the worksheets that they are about.

A module of this folder serves one group of topics. It has the rows of the source (a file of the same name beside it),
and for each id the worksheets with a line replaced: which line, which worksheet, which result, and how the source's
parameters become the worksheet's inputs.
"""

from mistakes.text_formulas import rows_beside
from offgrid_core.data import capacity_kept
from offgrid_core.practice import mistake
from offgrid_core.sizing import BANK, BANK_1013, LOADS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.standby import STANDBY
from offgrid_core.sizing.temperature import FAHRENHEIT
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
#: Larger in size, whatever the sign.
BY_SIZE = ("TE-11", "TE-12")

_SHORT = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah")))
#: The standard's form up to its first demand (a larger one would hide a mistake), and its correction for cold.
_LONG = Sheet(*(BANK_1013[n] for n in ("day_ah", "spell_ah", "for_depth_ah")))
_LONG_COLD = Sheet(BANK_1013["for_cold_ah"])
_ROW = {"duty_by_row_frac": 1, "season_by_row_frac": 1, "standby_by_row_w": 0}
_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_BUS_MEAN = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_mean_wh", "battery_mean_wh")))


def bank(p):
    """Return what both bank worksheets need, from the source's names; what a row leaves out does nothing."""
    return {
        "energy_day_wh": p["E_day"],
        "for_all_three_ah": p["Ah_25"],
        "autonomy_days": p["N"],
        "depth_frac": p["DoD"],
        "bank_voltage_v": p["V_bank"],
        "kept_frac": p["f_ret"],
    }


def bus(p, mean=False, idle=True):
    kind = "mean" if mean else "day"
    return {
        f"ac_{kind}_wh": p["E_ac"],
        f"dc_{kind}_wh": p["E_dc"],
        "inverter_eff_frac": p["eta_inv"],
        "inverter_idle_w": p["P_idle"] if idle else 0,
        "inverter_on_h": p["h_on"],
        "dc_wiring_eff_frac": 1,
        "growth_factor": 1,
    }


def row(p, minutes=False):
    return _ROW | {
        "count_by_row": p["n"],
        "power_by_row_w": p["P_W"],
        "hours_by_row_h": p["mins"] / 60 if minutes else p["h"],
        "week_by_row_days": p["d_wk"],
    }


def cycling(p):
    return row(p) | {
        "count_by_row": 1,
        "power_by_row_w": p["P_np"],
        "hours_by_row_h": 24,
        "duty_by_row_frac": p["duty"],
        "week_by_row_days": 7,
    }


def with_standby(p):
    return {
        "run_energy_by_row_wh": p["E_ac"],
        "count_by_row": p["n_sb"],
        "standby_by_row_w": p["P_sb"],
        "hours_by_row_h": 0,
    }


def power_factor(p):
    return {"day_energy_by_row_wh": p["E_ac"], "mean_energy_by_row_wh": p["E_ac"], "on_ac_by_row_frac": 1} | {
        "power_factor_by_row_ratio": p["pf"]
    }


def cold(p):
    return {"capacity_kept": p["fT"], "battery_temp_c": p["T_bank_C"], "bank_warm_wh": p["Ah_25"]} | {
        "mean_temp_c": p["T_mean_C"],
        "air_coldest_c": p["T_air_min_C"],
    }


def set_point(p):
    return {
        "bank_voltage_v": p["V_bank"],
        "cells_12v_count": 6,
        "absorb_cell_v": p["V_abs25"] / p["n_cells"],
        "compensation_mv_k": -p["mV_c"],
        "battery_temp_c": p["T_bank_C"],
    }


def thermometer(p):
    return {"reading_fahrenheit": p["T_F"], "swing_fahrenheit": p["dT_F"]}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    lines = mistake(id_).lines
    if id_ == "LD-12":
        sheet = Sheet(LOADS["standby_energy_by_row_wh"], LOADS["day_energy_by_row_wh"])
        return [("day_energy_by_row_wh", sheet, "day_energy_by_row_wh", with_standby)]
    if id_ in ("LD-10", "LD-11"):
        sheet = STANDBY + Sheet(LOADS["standby_energy_by_row_wh"])

        def supply(p):
            return {"standby_by_row_a": p["I_mA"] / 1000, "supply_by_row_v": p["V_sb"]} | {
                "count_by_row": 1,
                "hours_by_row_h": 0,
            }

        return [("standby_by_row_w", sheet, "standby_energy_by_row_wh", supply)]
    if id_ in ("LD-06", "LD-07"):
        sheet = LOADS.upto("run_energy_by_row_wh")
        return [("run_energy_by_row_wh", sheet, "run_energy_by_row_wh", lambda p: row(p, minutes=True))]
    if id_ in ("LD-08", "LD-09"):
        return [("run_energy_by_row_wh", LOADS.upto("run_energy_by_row_wh"), "run_energy_by_row_wh", cycling)]
    if "run_energy_by_row_wh" in lines or "mean_energy_by_row_wh" in lines:
        sheet = Sheet(LOADS["run_energy_by_row_wh"], LOADS["mean_energy_by_row_wh"])
        return [(n, sheet, "mean_energy_by_row_wh", row) for n in lines]
    if id_.startswith("LD"):
        idle = id_ == "LD-19"
        found = []
        for n in lines:
            kind = "mean" if "mean" in n else "day"
            sheet = _BUS_MEAN if kind == "mean" else _BUS

            def given(p, kind=kind):
                return bus(p, kind == "mean", idle) | (power_factor(p) if id_ == "LD-20" else {})

            found.append((n, sheet, f"battery_{kind}_wh", given))
        return found
    if id_ in ("TE-07", "TE-08", "TE-09"):
        return [("kept_frac", Sheet(BANK["kept_frac"], BANK["bank_cold_wh"]), "bank_cold_wh", cold)]
    if id_ in ("TE-10", "TE-11", "TE-12"):
        return [("battery_temp_c", FAHRENHEIT, "battery_temp_c", thermometer)]
    if id_ == "TE-13":
        return [("temp_rise_k", FAHRENHEIT, "temp_rise_k", thermometer)]
    if id_ in ("TE-14", "TE-15", "TE-16", "TE-17"):
        return [("absorb_set_v", SET_POINTS.upto("absorb_set_v"), "absorb_set_v", set_point)]

    def held_depth(p):
        """Rows that do not speak of depth or cold: everything else at one."""
        wanted = ROWS[id_]["correct_formula"]
        quiet = {n: 1 for n in ("N", "DoD", "f_ret", "V_bank") if n not in wanted}
        if "Ah_25" in wanted:
            quiet["E_day"] = p["Ah_25"]
        return bank(p | quiet)

    sheets = [next(s for s in (_SHORT, _LONG, _LONG_COLD) if n in s) for n in lines]
    return [(n, sheet, list(sheet)[-1], held_depth) for n, sheet in zip(lines, sheets, strict=True)]


def adjusted(id_, p):
    """Return a draw as one row means it."""
    # the source writes this row for the week, the worksheet for the day it runs
    return p | {"d_wk": 7} if id_ == "LD-04" else p


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    v = rng.choice([12, 24, 48])
    curve = capacity_kept("flooded")
    return {
        "P_W": rng.uniform(5, 800),
        "n": rng.randint(2, 8),
        "h": rng.uniform(1.2, 12),
        "d_wk": rng.randint(2, 6),
        "mins": rng.choice([10, 20, 30, 45]),
        "P_np": rng.uniform(60, 200),
        "duty": rng.uniform(0.2, 0.5),
        "I_mA": rng.uniform(50, 900),
        "V_sb": rng.choice([5, 9, 12]),
        "E_ac": rng.uniform(1600, 4000),
        "n_sb": rng.randint(1, 5),
        "P_sb": rng.uniform(1, 8),
        "eta_inv": rng.uniform(0.7, 0.93),
        "E_dc": rng.uniform(100, 1500),
        "P_idle": rng.uniform(5, 30),
        "h_on": rng.uniform(6, 24),
        "pf": rng.uniform(0.6, 0.95),
        "E_day": rng.uniform(500, 6000),
        "V_bank": v,
        "N": rng.randint(2, 8),
        "DoD": rng.uniform(0.25, 0.85),
        "f_ret": rng.uniform(0.55, 0.95),
        "Ah_25": rng.uniform(100, 900),
        "fT": lambda t: min(1.0, float(curve(t))),
        "T_bank_C": rng.uniform(-9, 9),
        "T_mean_C": rng.uniform(11, 19),
        "T_air_min_C": rng.uniform(-25, -11),
        "T_F": rng.uniform(5, 100),
        "dT_F": rng.uniform(5, 50),
        "V_abs25": v / 2 * rng.uniform(2.35, 2.47),
        "mV_c": rng.uniform(3, 5.5),
        "n_cells": v // 2,
    }
