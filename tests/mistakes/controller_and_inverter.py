"""Charge controller and inverter: the text formulas and the worksheets that they are about.

Every row of the source is in. One is put otherwise (CC-19): the source sets a current without a margin against one
with it, which would leave two mistakes in one; here both have it, as the core's rule does. The core leaves the
controller's own loss out of its charging current, so that it cancels in CC-18 to CC-21. Counts are drawn so that the
mistake shows: a whole number hides most of what is done to it.
"""

import math

from mistakes.text_formulas import rows_beside
from offgrid_core.data import code_setting
from offgrid_core.practice import mistake
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.array import ARRAY_LAYOUT, COLD_VOLTAGE_TABLE, DIRECT_CONVERTER
from offgrid_core.sizing.charging import CONTROLLER, DIRECT_CURRENT
from offgrid_core.sizing.controller_teaching import CHARGE_RATE
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_teaching import IN_HEAT, MOTOR
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
_MARGIN = code_setting("us_style").pv_current_factor
_HEAT = Sheet(INVERTER["inverter_hot_w"])


def module(p):
    """Return the modules, the cold and the heat; the code table of cold voltage is the coefficient's own here."""
    return {
        "modules_in_series_count": p["n_s_pv"],
        "array_strings_count": p["n_p_pv"],
        "strings_each_count": p["n_p_pv"],
        "module_voc_v": p["Voc"],
        "module_vmp_v": p["Vmp"],
        "module_isc_a": p["Isc"],
        "module_imp_a": p["Imp"],
        "voc_temp_per_k": p["beta_pct"] / 100,
        "power_temp_per_k": p["gamma_pct"] / 100,
        "air_coldest_c": p["T_min"],
        "air_temp_by_month_c": [p["T_max"] - 3 * min(n, 12 - n) for n in range(12)],
        "cell_hottest_c": p["T_cell"],
        "cold_voltage_factor": lambda below: 1 - p["beta_pct"] / 100 * below,
        "controller_voltage_max_v": p["V_lim"],
        "start_voltage_v": p["V_track"],
        "bank_voltage_v": p["V_bank"],
        "controller_factor": _MARGIN,
    }


def tracking(p):
    """Return a tracking controller; the source's string is one module of the whole string's voltage."""
    return {
        "array_w": p["P_arr"],
        "bank_voltage_v": p["V_chg_low"],
        "modules_in_series_count": 1,
        "module_vmp_v": p["Vmp_string"],
        "array_strings_count": p["n_p_pv"],
        "module_isc_a": p["Isc"],
        "controller_factor": _MARGIN,
    }


def direct(p):
    return module(p) | {"bank_voltage_v": p["V_chg"]}


def charged(p):
    return {"charge_current_a": p["I_chg"], "bank_ah": p["Ah_bank"]}


def several(p):
    return {"controller_needed_a": p["I_need"], "controller_rated_a": p["I_rated"]}


def together(p):
    """Return four loads of which the last never runs with the rest."""
    return {
        "count_by_row": 1,
        "power_by_row_w": [p["P1"], p["P2"], p["P3"], p["P4"]],
        "hours_by_row_h": [p["h1"], p["h2"], p["h3"], 1],
        "coincidence_by_row_frac": [1, 1, 1, 0],
        "power_factor_by_row_ratio": p["pf"],
        "on_ac_by_row_frac": 1,
        "inverter_margin_factor": 1 + p["m"],
    }


def counted(p):
    return together(p) | {"count_by_row": [p["n1"], 1, 1, 0]}


def start(p):
    return together(p) | {
        "power_by_row_w": [p["P_other"], p["P_motor"]],
        "coincidence_by_row_frac": 1,
        "start_by_row_factor": [1, p["k_s"]],
    }


def real_power(p):
    return together(p) | {"power_by_row_w": p["P_real"], "coincidence_by_row_frac": 1}


def shaft(p):
    return {"shaft_hp": p["hp"], "motor_eff_frac": p["eta_m"]}


def heat(p):
    return {"peak_w": p["P_real"], "inverter_rated_w": p["P_rated"], "inverter_hot_w": p["P_rated"] * p["f_hot"]}


def hot_air(p):
    return {
        "inverter_rated_w": p["P_rated"],
        "inverter_derate_per_k": p["d_hot"],
        "air_hot_c": p["T_hot"],
        "inverter_temp_rated_c": p["T_rated"],
    }


_CURRENT = Sheet(DIRECT_CURRENT, CONTROLLER["controller_needed_a"])
_TRACKING = CONTROLLER.upto("controller_needed_a")
_WATTS = Sheet(LOADS["peak_w"], INVERTER["inverter_needed_w"])
_VOLT_AMPS = Sheet(LOADS["peak_w"], LOADS["peak_va"])
_SURGE = Sheet(*(LOADS[n] for n in ("peak_w", "start_extra_w", "surge_w")))
#: Line → its worksheet, the result that is compared, and the givens; where one mistake means another, below.
_OF_LINE = {
    "string_voc_cold_v": (Sheet(ARRAY_LAYOUT["string_voc_cold_v"]), "string_voc_cold_v", module),
    "string_voc_table_v": (COLD_VOLTAGE_TABLE, "string_voc_table_v", module),
    "series_most_count": (Sheet(ARRAY_LAYOUT["series_most_count"]), "series_most_count", module),
    "series_fewest_count": (Sheet(ARRAY_LAYOUT["series_fewest_count"]), "series_fewest_count", module),
    "charge_current_a": (_CURRENT, "controller_needed_a", module),
    "controller_needed_a": (_CURRENT, "controller_needed_a", module),
    "array_circuit_a": (Sheet(CONTROLLER["array_circuit_a"]), "array_circuit_a", module),
    "converter_kept_frac": (Sheet(DIRECT_CONVERTER), "converter_kept_frac", direct),
    "charge_rate_per_h": (CHARGE_RATE, "charge_rate_per_h", charged),
    "controllers_count": (Sheet(CONTROLLER["controllers_count"]), "controllers_count", several),
    "peak_w": (_WATTS, "inverter_needed_w", together),
    "inverter_needed_w": (_WATTS, "inverter_needed_w", together),
    "peak_va": (_VOLT_AMPS, "peak_va", together),
    "surge_w": (_SURGE, "surge_w", start),
    "start_extra_w": (_SURGE, "surge_w", start),
    "motor_input_w": (MOTOR, "motor_input_w", shaft),
    "inverter_for_heat_w": (IN_HEAT, "inverter_for_heat_w", heat),
    "inverter_hot_w": (_HEAT, "inverter_hot_w", hot_air),
}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    found = []
    for line in mistake(id_).lines:
        sheet, result, given = _OF_LINE[line]
        if id_ in ("CC-18", "CC-19", "CC-20", "CC-21"):
            sheet, given = _TRACKING, tracking
        if id_ in ("IN-10", "IN-11", "IN-12"):
            given = real_power
        if id_ == "IN-21":
            sheet, result, given = sheet.upto(line), line, counted
        found.append((line, sheet, result, given))
    return found


def adjusted(id_, p):
    """Return a draw in which a count shows what was done to it."""
    cold, hot = 1 + p["beta_pct"] / 100 * (p["T_min"] - 25), 1 + p["gamma_pct"] / 100 * (p["T_cell"] - 25)
    if id_ == "CC-09":  # just whole before the cold
        return p | {"V_lim": p["Voc"] * (p["n_s_pv"] + p["bit"])}
    if id_ == "CC-24":  # just whole with the cold turned round
        return p | {"V_lim": p["Voc"] * (2 - cold) * (p["n_s_pv"] + p["bit"])}
    if id_ == "CC-11":
        return p | {"V_lim": p["Voc"] * cold * (p["n_s_pv"] + 3.5)}
    if id_ == "CC-12":  # just whole before the heat
        return p | {"V_track": p["Vmp"] * (p["n_s_pv"] - p["bit"])}
    if id_ == "CC-26":  # just whole at the bank's nominal voltage
        volts = p["Vmp"] * hot * (p["n_s_pv"] - p["bit"])
        return p | {"V_bank": volts, "V_track": 1.2 * volts}
    return p


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    n_s, n_p = rng.sample(range(2, 6), 2)
    powers = [rng.uniform(150, 1800) for _ in range(3)]
    voc, isc, volts, hot = rng.uniform(22, 50), rng.uniform(5, 14), rng.choice([24, 48]), rng.uniform(44, 55)
    return {
        "floor": math.floor,
        "ceil": math.ceil,
        "max": max,
        "n_s_pv": n_s,
        "n_p_pv": n_p,
        "Voc": voc,
        "Vmp": voc * rng.uniform(0.79, 0.84),
        "Isc": isc,
        "Imp": isc * rng.uniform(0.92, 0.96),
        "beta_pct": -rng.uniform(0.25, 0.35),
        "gamma_pct": -rng.uniform(0.3, 0.45),
        "T_min": rng.uniform(-30, -10),
        "T_max": rng.uniform(30, 45),
        "T_cell": rng.uniform(55, 75),
        "bit": rng.uniform(0.01, 0.04),
        "V_lim": voc * rng.uniform(3, 8),
        "V_track": voc * rng.uniform(1.1, 4),
        "V_bank": volts,
        "P_arr": rng.uniform(300, 6000),
        "eta_c": rng.uniform(0.93, 0.98),
        "V_chg_low": volts * rng.uniform(0.95, 1.1),
        "Vmp_string": n_s * voc * 0.82,
        "V_chg": n_s * voc * 0.82 * rng.uniform(0.6, 0.9),
        "I_chg": rng.uniform(10, 120),
        "Ah_bank": rng.uniform(150, 1500),
        "I_rated": 60,
        "I_need": 60 * (rng.randint(1, 3) + rng.uniform(0.05, 0.95)),
        "P1": powers[0],
        "P2": powers[1],
        "P3": powers[2],
        "P4": max(powers) * rng.uniform(0.3, 0.95),
        "n1": rng.randint(2, 6),
        "h1": rng.uniform(1.2, 6),
        "h2": rng.uniform(1.2, 6),
        "h3": rng.uniform(1.2, 6),
        "m": rng.uniform(0.15, 0.35),
        "P_other": rng.uniform(200, 1500),
        "P_motor": rng.uniform(150, 1200),
        "k_s": rng.uniform(3, 7),
        "P_real": rng.uniform(300, 4000),
        "pf": rng.uniform(0.6, 0.92),
        "hp": rng.choice([0.25, 0.5, 0.75, 1, 1.5, 2]),
        "eta_m": rng.uniform(0.55, 0.85),
        "f_hot": rng.uniform(0.68, 0.92),
        "P_rated": rng.uniform(500, 5000),
        "d_hot": rng.uniform(0.008, 0.015),
        "T_hot": hot,
        "T_rated": hot - rng.uniform(4, 15),
    }
