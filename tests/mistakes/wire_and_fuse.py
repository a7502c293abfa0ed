"""Wire, fuses and overcurrent protection: the text formulas and the worksheets that they are about.

Every row of the source is in. Two are put otherwise. WI-10 is said of the resistance a metre, which is what the core
works out before it reads a cable from a table. WI-11 has copper's constant as the core has it (1/254.5 for 0.00393).
The 1.25 of the text formulas is a named factor of a code setting in the worksheets; where a code does not ask for it
(IEC for hours on end) it is 1 and the mistake does not exist. The source's own remark on OP-03 and OP-07 is kept in
their consequences: US rules tolerate the next standard size above the cable, this course does not. OP-03 can only be
made where a cable is already in place, so its worksheet has the cable's ampacity given.

Sizes are read here from the published columns, not through the package's tables.
"""

import csv
import math
from bisect import bisect_left, bisect_right
from pathlib import Path

from mistakes.text_formulas import rows_beside
from offgrid_core.data import code_setting
from offgrid_core.data.neighbours import neighbours
from offgrid_core.practice import mistake
from offgrid_core.quantities.units import awg_to_mm2
from offgrid_core.sizing import CIRCUITS
from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.charging import CONTROLLER, SET_POINTS
from offgrid_core.sizing.circuits import GROUPING
from offgrid_core.sizing.protection import NEVER_EQUALIZED, PROTECTION
from offgrid_core.sizing.wire_teaching import CURRENT_FACTOR, GAUGE, PLAN_IN_FEET
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
_US = code_setting("us_style")
_FOLDER = Path(__file__).parents[2] / "datasets"


def _column(name, *fields, **only):
    with (_FOLDER / name).open(encoding="utf-8") as source:
        rows = [r for r in csv.DictReader(source) if all(r[k] == v for k, v in only.items())]
    return [[float(r[f]) for r in rows] for f in fields]


(_FUSES,) = _column("fuse_sizes.csv", "size_a", family="us")
_AMPERES, _AREAS = _column("conductors_us.csv", "ampacity_75_a", "area_mm2")
_TOGETHER, _KEPT = _column("grouping.csv", "count", "factor", family="us")


def std_up(amperes):
    return _FUSES[bisect_left(_FUSES, amperes)]


def std_down(amperes):
    return _FUSES[bisect_right(_FUSES, amperes) - 1]


def awg_enough(amperes):
    return _AREAS[bisect_left(_AMPERES, amperes)]


def awg_thinner(amperes):
    return _AREAS[bisect_left(_AMPERES, amperes) - 1]


def awg_nearest(amperes):
    return _AREAS[min(range(len(_AMPERES)), key=lambda n: abs(_AMPERES[n] - amperes))]


def f_cond(count):
    return _KEPT[bisect_left(_TOGETHER, count)]


def run(p):
    """Return one run of cable; the area a conductance wants is the copper's own, without steps."""
    return {
        "length_by_row_m": p["L_m"],
        "current_by_row_a": p["I_c"],
        "voltage_by_row_v": p["V_sys"],
        "ac_v": p["V_ac"],
        "drop_limit_by_row_frac": p["dv"],
        "resistance_by_row_ohm_m": p["r_km"] / 1000,
        "cables_by_row_count": 1,
        "table_temp_c": 20,
        "wire_temp_c": 20,
        "cable_for_conductance": lambda conductance: p["rho"] * conductance,
    }


def hot_run(p):
    """Return a run whose copper is hot; the resistance of the cable is the copper's own at 20 °C."""
    return run(p) | {"wire_temp_c": p["T_w"], "cable_resistance": lambda area: p["rho"] / area, "cable_by_row_mm2": 16}


def gauge_pick(p):
    """Return a current to find a cable for; the table that a conductance is read in stands in as the same one."""
    enough = awg_enough(p["I_des"])
    return neighbours(_US) | {
        "ampacity_wanted_by_row_a": p["I_des"],
        "cables_by_row_count": 1,
        "cable_for_ampacity": _US.conductor_for_ampacity,
        "resistance_listed_by_row_ohm_m": 1 / p["I_des"],
        "cable_for_conductance": _US.conductor_for_ampacity,
        "for_ampacity_by_row_mm2": enough,
        "for_drop_by_row_mm2": _AREAS[0],
        "for_fuse_by_row_mm2": enough,
    }


def laid(p):
    """Return a cable in the heat, among others, behind a fuse of the current to design for."""
    return {
        "fuse_by_row_a": p["I_des"],
        "ambient_factor": lambda _: p["f_temp"],
        "ambient_c": 45,
        "grouping_frac": p["f_grp"],
        "cable_ampacity": lambda _: p["I_tab"],
        "cable_by_row_mm2": 16,
        "cables_by_row_count": 1,
    }


def bundle(p):
    return {"grouping_table": _US.grouping_factor, "circuits_together_count": p["n_circ"]} | {
        "conductors_circuit_count": _US.conductors_circuit_count
    }


def array_circuit(p):
    return {
        "current_by_row_a": p["n_p_pv"] * p["Isc"],
        "strings_each_count": p["n_p_pv"],
        "module_isc_a": p["Isc"],
        "module_imp_a": p["Imp"],
        "on_array_by_row_frac": 1,
        "bright_sun_factor": _US.pv_current_factor,
        "steady_factor": _US.continuous_factor,
    }


def fused(p):
    """Return a circuit of the bank in cool air by itself, so that the cable has only the fuse to follow."""
    return neighbours(_US) | {
        "current_by_row_a": p["I_cont"],
        "on_array_by_row_frac": 0,
        "bright_sun_factor": _US.pv_current_factor,
        "steady_factor": _US.continuous_factor,
        "next_fuse": p["next_fuse"],
        "ampacity_by_row_a": p["I_wire"],
        "ambient_factor": _US.ambient_factor,
        "ambient_c": 30,
        "grouping_frac": 1,
    }


def strings_of_modules(p):
    return array_circuit(p) | {"strings_each_count": p["n_p3"]}


def bank(p):
    """Return the bank that the source's unit resistance and voltage make, in cells of 2 V."""
    cells = p["V_bank"] // 2
    return {
        "cells_count": cells,
        "cell_rest_voltage": lambda _: p["V_bank"] / cells,
        "cell_resistance_ohm_ah": p["n_s_b"] * p["R_mohm"] / 1000 * p["unit_ah"] / cells,
        "unit_ah": p["unit_ah"],
        "strings_count": p["n_p_b"],
        "bank_ah": p["Ah_bank"],
    }


def on_array(p):
    return {
        "modules_in_series_count": p["n_s_pv"],
        "module_voc_v": p["Voc"],
        "voc_temp_per_k": p["beta_pct"] / 100,
        "air_coldest_c": p["T_min"],
        "on_array_by_row_frac": 1,
        "ac_v": p["V_ac"],
        "bank_voltage_v": p["V_bank"],
        "charge_most_v": 1.2 * p["V_bank"],
    }


def on_bank(p):
    return {
        "bank_voltage_v": p["V_bank"],
        "cells_12v_count": 6,
        "absorb_cell_v": p["V_abs25"] / p["n_cells"],
        "compensation_mv_k": -p["mV_c"],
        "battery_temp_c": p["T_bank_C"],
        "on_array_by_row_frac": 0,
        "string_voc_cold_v": 150,
    }


_DROP = Sheet(CIRCUITS["drop_by_row_v"], CIRCUITS["drop_by_row_frac"])
_AREA = Sheet(
    *(CIRCUITS[n] for n in ("resistance_allowed_by_row_ohm_m", "resistance_listed_by_row_ohm_m", "for_drop_by_row_mm2"))
)
_FUSE = CURRENT_FACTOR + Sheet(
    *(CIRCUITS[n] for n in ("design_current_by_row_a", "fuse_by_row_a", "ampacity_wanted_by_row_a"))
)
_MARGINS = _FUSE.upto("design_current_by_row_a")
_FAULT = PROTECTION.upto("bank_fault_a")
#: Line → its worksheet, the result that is compared, and the givens; where one mistake means another, below.
_OF_LINE = {
    "drop_by_row_v": (_DROP, "drop_by_row_frac", run),
    "drop_by_row_frac": (_DROP, "drop_by_row_frac", run),
    "resistance_allowed_by_row_ohm_m": (_AREA, "for_drop_by_row_mm2", run),
    "resistance_listed_by_row_ohm_m": (_AREA, "for_drop_by_row_mm2", hot_run),
    "resistance_by_row_ohm_m": (Sheet(CIRCUITS["resistance_by_row_ohm_m"]), "resistance_by_row_ohm_m", hot_run),
    "for_ampacity_by_row_mm2": (Sheet(CIRCUITS["for_ampacity_by_row_mm2"]), "for_ampacity_by_row_mm2", gauge_pick),
    "for_drop_by_row_mm2": (Sheet(CIRCUITS["for_drop_by_row_mm2"]), "for_drop_by_row_mm2", gauge_pick),
    "cable_by_row_mm2": (Sheet(CIRCUITS["cable_by_row_mm2"]), "cable_by_row_mm2", gauge_pick),
    "ampacity_by_row_a": (Sheet(CIRCUITS["ampacity_by_row_a"]), "ampacity_by_row_a", laid),
    "grouping_frac": (GROUPING, "grouping_frac", bundle),
    "array_circuit_a": (Sheet(CONTROLLER["array_circuit_a"]), "array_circuit_a", array_circuit),
    "length_by_row_m": (PLAN_IN_FEET, "length_by_row_m", lambda p: {"feet_by_row_count": p["L_ft"]}),
    "gauge_mm2": (GAUGE, "gauge_mm2", lambda p: {"gauge_count": p["G"], "area_of_gauge": awg_to_mm2}),
    "current_by_row_factor": (_FUSE, "fuse_by_row_a", fused),
    "design_current_by_row_a": (_FUSE, "fuse_by_row_a", fused),
    "fuse_by_row_a": (_FUSE, "fuse_by_row_a", fused),
    "ampacity_wanted_by_row_a": (_FUSE, "ampacity_wanted_by_row_a", fused),
    "array_backfeed_a": (Sheet(PROTECTION["array_backfeed_a"]), "array_backfeed_a", strings_of_modules),
    "bank_warm_resistance_ohm": (_FAULT, "bank_fault_a", bank),
    "bank_fault_a": (_FAULT, "bank_fault_a", bank),
    "voltage_most_by_row_v": (
        Sheet(ARRAY_LAYOUT["string_voc_cold_v"], PROTECTION["voltage_most_by_row_v"]),
        "voltage_most_by_row_v",
        on_array,
    ),
}
#: Mistakes in a line that other mistakes are also made in, in another situation.
_OF_MISTAKE = {
    "WI-10": (_AREA, "resistance_allowed_by_row_ohm_m", run),
    **dict.fromkeys(
        ("WI-14", "WI-15", "WI-16", "WI-17"),
        (Sheet(CIRCUITS["ampacity_wanted_by_row_a"]), "ampacity_wanted_by_row_a", laid),
    ),
    **dict.fromkeys(("WI-18", "WI-19"), (_MARGINS, "design_current_by_row_a", array_circuit)),
    "OP-18": (
        SET_POINTS.upto("absorb_set_v") + Sheet(NEVER_EQUALIZED, PROTECTION["voltage_most_by_row_v"]),
        "voltage_most_by_row_v",
        on_bank,
    ),
}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    found = []
    for line in mistake(id_).lines:
        sheet, result, given = _OF_MISTAKE.get(id_, _OF_LINE[line])

        def unworked(p, sheet=sheet, given=given):
            return {n: v for n, v in given(p).items() if n not in sheet}

        found.append((line, sheet, result, unworked))
    return found


def adjusted(id_, p):
    """Return a draw in which the mistake shows."""
    if id_ == "WI-13":  # a little above a cable's ampacity that cable is the nearest
        return p | {"I_des": _AMPERES[p["n_cable"]] + p["bit"]}
    if id_ in ("OP-01", "OP-04", "OP-05") and p["stepless"]:  # steps of fuses would hide a small error of the margin
        return p | dict.fromkeys(("std_up", "next_fuse"), float)
    return p


def _current(rng):
    """Draw a current at which every slip with the margin gives another fuse."""
    while True:
        amperes = rng.uniform(12, 158)
        slips = (amperes, 1.25 * amperes, 1.5625 * amperes, amperes / 1.25)
        if len({std_up(a) for a in slips}) == len(slips):
            return amperes


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    volts, isc, steady, strings = rng.choice([12, 24, 48]), rng.uniform(5, 14), _current(rng), rng.randint(2, 4)
    unit_ah = rng.uniform(80, 400)
    above = [a for a in _AMPERES if a >= std_up(1.25 * steady) and std_up(a) > std_up(1.25 * steady)]
    return {
        "pi": math.pi,
        "stepless": rng.random() < 0.5,
        "next_fuse": _US.fuse_size,
        "std_up": std_up,
        "std_down": std_down,
        "awg_enough": awg_enough,
        "awg_thinner": awg_thinner,
        "awg_nearest": awg_nearest,
        "f_cond": f_cond,
        "L_m": rng.uniform(2, 30),
        "I_c": rng.uniform(5, 100),
        "V_sys": volts,
        "V_ac": rng.choice([120, 230]),
        "r_km": rng.uniform(0.2, 8),
        "rho": rng.uniform(0.017, 0.0225),
        "dv": rng.uniform(0.01, 0.05),
        "T_w": rng.uniform(45, 75),
        "I_des": rng.uniform(21, 220),
        "n_cable": rng.randint(0, len(_AMPERES) - 2),
        "bit": rng.uniform(0.1, 2.4),
        "f_temp": rng.uniform(0.67, 0.94),
        "f_grp": rng.choice([0.5, 0.7, 0.8]),
        "I_tab": rng.choice(_AMPERES),
        "n_circ": rng.randint(2, 4),
        "n_p_pv": rng.randint(2, 5),
        "n_p3": rng.randint(3, 6),
        "n_s_pv": rng.randint(2, 5),
        "Isc": isc,
        "Imp": isc * rng.uniform(0.92, 0.96),
        "Voc": rng.uniform(22, 50),
        "beta_pct": -rng.uniform(0.25, 0.35),
        "T_min": rng.uniform(-30, 5),
        "L_ft": rng.uniform(5, 150),
        "G": rng.randint(2, 14),
        "I_cont": steady,
        "I_wire": above[0],
        "V_bank": volts,
        "n_s_b": volts // 6,
        "n_p_b": strings,
        "R_mohm": rng.uniform(1, 20),
        "unit_ah": unit_ah,
        "Ah_bank": strings * unit_ah,
        "V_abs25": volts / 2 * rng.uniform(2.35, 2.47),
        "mV_c": rng.uniform(3, 5.5),
        "n_cells": volts // 2,
        "T_bank_C": rng.uniform(-5, 15),
    }
