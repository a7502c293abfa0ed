"""Bank voltage, depth of discharge and autonomy of the bank as built: the text formulas and their worksheets.

Rows of the source that are not in the catalogue stand in :data:`LEFT_OUT`, with the reason.
"""

import math

from mistakes.text_formulas import rows_beside
from offgrid_core.practice import mistake
from offgrid_core.sizing import BANK_1013, VOLTAGE, chain
from offgrid_core.sizing.depth_teaching import AT_HOURS, HOW_FULL
from offgrid_core.sizing.inverter import INVERTER, rest_low_v
from offgrid_core.sizing.rate import RATE
from offgrid_core.sizing.state import FREEZING
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.voltage_teaching import STEP_UP
from offgrid_core.sizing.year_totals import charge_by_hour_frac
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
LEFT_OUT = {
    "DD-08": "the same line written the same way as BV-09: nobody could tell the two apart",
    "DD-14": "its right formula charges the battery's loss to the bank; here, as in IEEE Std 1013, the array bears it",
    "DD-15": "as DD-14; the loss forgotten on the array's side is AR-26",
}

_AS_BUILT = Sheet(*(STRINGS[n] for n in ("bank_wh", "bank_usable_wh", "autonomy_given_days")))
#: From the energy of one day, which the standard's form works out itself, to its largest demand.
_DEMANDS = Sheet(*(x for n, x in BANK_1013.upto("for_all_three_ah").items() if n != "energy_day_wh"))
#: Line → the worksheet it is worked in, and the result that is compared.
_SHEETS = {
    "inverter_input_a": (Sheet(INVERTER["inverter_input_a"]), "inverter_input_a"),
    "inverter_nominal_a": (Sheet(INVERTER["inverter_nominal_a"]), "inverter_nominal_a"),
    "running_current_a": (Sheet(BANK_1013["running_current_a"]), "running_current_a"),
    "voltage_least_v": (Sheet(VOLTAGE["voltage_least_v"]), "voltage_least_v"),
    "dc_circuit_a": (Sheet(chain()["dc_circuit_a"]), "dc_circuit_a"),
    "raised_lost_w": (STEP_UP, "raised_lost_w"),
    "bank_wh": (_AS_BUILT, "autonomy_given_days"),
    "bank_usable_wh": (_AS_BUILT, "autonomy_given_days"),
    "autonomy_given_days": (_AS_BUILT, "autonomy_given_days"),
    "charge_left_frac": (Sheet(FREEZING["charge_left_frac"]), "charge_left_frac"),
    "charge_level_frac": (Sheet(HOW_FULL["charge_level_frac"]), "charge_level_frac"),
    "charge_by_hour_frac": (Sheet(charge_by_hour_frac), "charge_by_hour_frac"),
    "rest_low_v": (Sheet(rest_low_v), "rest_low_v"),
    "capacity_at_hours_ah": (
        Sheet(RATE["capacity_hours_ratio"], RATE["capacity_at_hours_ah"]),
        "capacity_at_hours_ah",
    ),
    "usable_ah": (Sheet(AT_HOURS["usable_ah"]), "usable_ah"),
    "for_all_three_ah": (_DEMANDS, "for_all_three_ah"),
}
#: Lines at the nominal voltage: there the voltage that belongs in the sum is the nominal one.
_NOMINAL = ("inverter_nominal_a", "running_current_a", "voltage_least_v")


def current(p):
    """Return what a current is worked from. Any voltage does for lines that have only the one."""
    return {
        "inverter_rated_w": p["P_ac"],
        "inverter_eff_frac": p["eta_inv"],
        "inverter_low_v": p["V_low"],
        "bank_voltage_v": p["V_bank"],
        "outlet_v": p["V_ac"],
        "rest_low_v": p["V_low"],
        "peak_w": p["P_ac"],
        "dc_peak_w": 0,
        "current_wanted_a": 100,
    }


def nominal_current(p):
    return current(p) | {"bank_voltage_v": p["V_low"]}


def with_dc_loads(p):
    return current(p) | {"dc_peak_w": p["P_dc"]}


def dc_only(p):
    return current(p) | {"dc_peak_w": p["P_ac"]}


def small_load(p):
    return current(p) | {"peak_w": p["P_load"]}


def small_load_nominal(p):
    return small_load(p) | {"bank_voltage_v": p["V_low"]}


def stepped_up(p):
    return {
        "cable_a": p["I1"],
        "cable_loop_ohm": p["R_loop"],
        "bank_voltage_v": p["V1"],
        "raised_voltage_v": p["V2"],
    }


def as_built(p):
    return {
        "bank_ah": p["Ah_bank"],
        "capacity_at_hours_ah": p["Ah_bank"],
        "bank_voltage_v": p["V_bank"],
        "depth_frac": p["DoD"],
        "kept_frac": 1,
        "energy_day_wh": p["E_day"],
    }


def as_built_cold(p):
    return as_built(p) | {"kept_frac": p["f_ret"]}


def used(p):
    """Return a bank with something taken out; its voltage table is a straight line, so that it shows what is read."""
    return {
        "depth_frac": p["Ah_used"] / p["Ah_bank"],
        "depth_max_frac": p["DoD"],
        "cells_count": 6,
        "cell_rest_voltage": lambda charge: charge,
    }


def metered(p):
    return {
        "bank_wh": p["Ah_bank"] * p["V_bank"],
        "store_by_hour_wh": (p["Ah_bank"] - p["Ah_used"]) * p["V_bank"],
        "depth_frac": p["DoD"],
    }


def emptied_in_20_hours(p):
    """Return a bank labelled at 100 hours, and the exponent by which it has its 20-hour capacity in 20 hours."""
    kept = math.log(p["C20"] / p["C100"]) / math.log(20 / 100)
    return {
        "bank_ah": p["C100"],
        "capacity_hours_h": 100,
        "functional_hours_h": 20,
        "peukert_exponent": 1 / (1 - kept),
    }


def three_demands(p):
    return {
        "energy_day_wh": p["E_day"],
        "bank_voltage_v": p["V_bank"],
        "autonomy_days": p["N"],
        "depth_frac": p["DoD"],
        "depth_daily_frac": p["DoD_day"],
        "end_of_life_frac": p["eol"],
    }


def labelled(p):
    """Return a bank whose label says the capacity of the hours it is drawn in."""
    return as_built(p) | {"bank_ah": p["C20"], "capacity_at_hours_ah": p["C20"]}


def _given(id_, line):
    match id_:
        case "BV-11" | "BV-12":
            return stepped_up
        case "BV-13":
            return with_dc_loads
        case "BV-14":
            return small_load_nominal if line in _NOMINAL else small_load
        case "AU-10":
            return as_built_cold
        case "DD-10" | "DD-11":
            return metered if line == "charge_by_hour_frac" else used
        case "DD-12":
            return emptied_in_20_hours
        case "DD-13":
            return labelled
        case "DD-16" | "DD-17":
            return three_demands
    if id_.startswith("AU"):
        return as_built
    if line == "dc_circuit_a":
        return dc_only
    return nominal_current if line in _NOMINAL else current


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    return [(line, *_SHEETS[line], _given(id_, line)) for line in mistake(id_).lines]


def adjusted(id_, p):
    """Return a draw as one row means it."""
    # with many sunless days their demand is the largest, and nothing is lost by looking at it alone
    return p | {"N": 1 + p["N"] % 2} if id_ == "DD-17" else p


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    v = rng.choice([12, 24, 48])
    c20 = rng.uniform(80, 900)
    ah_bank = rng.uniform(100, 900)
    return {
        "P_ac": (p_ac := rng.uniform(300, 5000)),
        "P_load": p_ac * rng.uniform(0.2, 0.9),
        "P_dc": rng.uniform(20, 400),
        "eta_inv": rng.uniform(0.8, 0.95),
        "V_bank": v,
        "V_low": v * rng.uniform(0.87, 0.96),
        "V_ac": rng.choice([100, 120, 230]),
        "I1": rng.uniform(10, 200),
        "R_loop": rng.uniform(0.001, 0.05),
        "V1": (v1 := rng.choice([12, 24])),
        "V2": v1 * rng.choice([2, 4]),
        "Ah_bank": ah_bank,
        "Ah_used": ah_bank * rng.uniform(0.08, 0.75),
        "DoD": rng.uniform(0.25, 0.79),
        "DoD_day": rng.uniform(0.3, 0.5),
        "eol": rng.uniform(0.8, 0.9),
        "N": rng.randint(3, 8),
        "f_ret": rng.uniform(0.55, 0.95),
        "E_day": rng.uniform(500, 6000),
        "C20": c20,
        "C100": c20 * rng.uniform(1.11, 1.29),
    }
