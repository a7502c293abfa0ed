"""Published examples: conductors, fuses, the inverter, set-points of charging and the controller."""

from typing import Any

from published.case import PRACTICE, Case, typed

from offgrid_core import data
from offgrid_core.sizing import CIRCUITS, VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.charging import CONTROLLER, SET_POINTS
from offgrid_core.sizing.inverter import INVERTER, rest_low_v
from offgrid_core.worksheet import Sheet, Table

US, US_90 = data.code_setting("us_style"), data.code_setting("us_style", insulation_c=90)
IEC = data.code_setting("iec_style")
AWG = {label: area for area, label in US.size_labels.items()}
KFT = 304.8  # metres in 1000 ft, exact

_CHART = "widely copied 12 V 2 % wire-loss chart, recomputed with NEC Chapter 9 Table 8"


def _run(current: float, length: str, code: data.CodeSetting, area: float, copper_c: float) -> dict[str, Any]:
    return {
        "current_by_row_a": current, "length_by_row_m": typed("length_by_row_m", length),
        "cable_resistance": code.resistance_of, "cable_by_row_mm2": area, "wire_temp_c": copper_c,
        "table_temp_c": code.table_temp_c, "cables_by_row_count": 1,
    }  # fmt: skip


_TRAINING = "electrician training example by the NEC Table 8 method"
_16_AWG = {"current_by_row_a": 4, "length_by_row_m": typed("length_by_row_m", "100 ft"), "cables_by_row_count": 1}
_16_AWG["resistance_by_row_ohm_m"] = 4.99 / KFT

CONDUCTOR_CASES = [
    Case(
        "VD-001", "conductors", CIRCUITS, "drop_by_row_v", _16_AWG,
        3.992, 2e-3, _TRAINING + ": 16 AWG, 4.99 ohm per 1000 ft", "seen", "prints 4.0 V",
    ),
    Case(
        "VD-001 share", "conductors", CIRCUITS, "drop_by_row_frac", _16_AWG | {"voltage_by_row_v": 24},
        0.166, 5e-3, _TRAINING, "seen", "prints 16.7 %",
    ),
] + [
    Case(
        id_, "conductors", CIRCUITS, "drop_by_row_frac", _run(amps, feet, US, AWG[size], 75) | {"voltage_by_row_v": 12},
        share, 1e-2, _CHART, "seen", f"{size}; the chart is consistent, but with copper at about 30 °C",
    )
    for id_, size, amps, feet, share in [
        ("VD-003", "14 AWG", 1, "45 ft", 0.0235),
        ("VD-004", "10 AWG", 10, "11.5 ft", 0.0238),
        ("VD-005", "4 AWG", 10, "45.5 ft", 0.0234),
        ("VD-006", "2 AWG", 50, "14.5 ft", 0.0234),
        ("VD-007", "2/0 AWG", 100, "14.5 ft", 0.0234),
        ("VD-008", "4/0 AWG", 100, "23 ft", 0.0233),
    ]
] + [
    Case(
        "WX15 20 °C", "conductors", CIRCUITS, "drop_by_row_v", _run(20, "10 m", IEC, 6, 20),
        1.232, 5e-4, "IEC 60228 class 2, 6 mm²: 3.08 ohm/km at 20 °C", "seen, computed",
    ),
    Case(
        "WX15 70 °C", "conductors", CIRCUITS, "drop_by_row_v", _run(20, "10 m", IEC, 6, 70),
        1.474, 5e-4, "the same at 70 °C; I228-013: 0.00393 for each kelvin", "seen, computed",
    ),
    Case(
        "VD-010", "conductors", CIRCUITS, "drop_by_row_v",
        {"current_by_row_a": 20, "length_by_row_m": 10, "resistance_by_row_ohm_m": 0.01724 / 6,
         "cables_by_row_count": 1},
        1.1493, 1e-4, "first principles: resistivity 0.01724 ohm mm²/m, 6 mm²", "computed",
    ),
    Case(
        "R8-019", "conductors", CIRCUITS, "resistance_by_row_ohm_m",
        {"cable_resistance": US.resistance_of, "cable_by_row_mm2": AWG["4/0 AWG"], "wire_temp_c": 20,
         "table_temp_c": US.table_temp_c},
        0.05 / KFT, 2e-3, "NEC Chapter 9 Table 8 note: 4/0, 0.0608 ohm per 1000 ft at 75 °C is 0.050 at 20 °C",
        "from memory",
    ),
    Case(
        "NPV-022", "conductors", CIRCUITS, "ampacity_by_row_a",
        {"cable_ampacity": US_90.ampacity_of, "cable_by_row_mm2": AWG["10 AWG"], "ambient_factor": US_90.ambient_factor,
         "ambient_c": 45, "grouping_frac": 1, "cables_by_row_count": 1},
        34.8, 1e-4, "conditions of use: 10 AWG, 90 °C, 40 A × 0.87 at 45 °C", "common practice",
    ),
]  # fmt: skip


def _current(amps: float, factor: float) -> dict[str, Any]:
    return {"current_by_row_a": amps, "current_by_row_factor": factor}


def _fused(amps: float, factor: float) -> dict[str, Any]:
    return _current(amps, factor) | {"next_fuse": US.fuse_size}


BOTH_FACTORS = US.pv_current_factor * US.continuous_factor
FUSE_CASES = [
    Case(
        "NPV-018", "fuses", CIRCUITS, "design_current_by_row_a", _current(11.2, US.pv_current_factor),
        14.0, 1e-6, PRACTICE, "common practice", "bright sun alone",
    ),
    Case(
        "NPV-021", "fuses", CIRCUITS, "design_current_by_row_a", _current(8.8, US.pv_current_factor),
        11.0, 1e-6, PRACTICE, "common practice",
    ),
    Case(
        "NPV-019", "fuses", CIRCUITS, "design_current_by_row_a", _current(11.2, BOTH_FACTORS),
        17.5, 1e-6, "NEC 690.8(B)", "seen", "bright sun and continuous duty",
    ),
    Case("NPV-019 fuse", "fuses", CIRCUITS, "fuse_by_row_a", _fused(11.2, BOTH_FACTORS), 20, 0, "NEC 690.8(B)", "seen"),
    Case(
        "NPV-023", "fuses", CIRCUITS, "fuse_by_row_a", _fused(32, US.continuous_factor),
        40, 0, PRACTICE, "common practice", "32 A continuous",
    ),
    Case(
        "NPV-026 conductor", "fuses", CIRCUITS, "design_current_by_row_a", _current(213.9, US.continuous_factor),
        267, 2e-3, "NEC 690.8 as taught in SAND2001-0674", "from memory, computed",
    ),
]  # fmt: skip


def _hundred(watts: float) -> dict[str, Any]:
    return {"peak_w": watts, "dc_peak_w": 0, "inverter_eff_frac": 0.90, "current_wanted_a": 100,
            "voltage_steps": VOLTAGE_STEPS}  # fmt: skip


INVERTER_CASES = [
    Case(
        "NPV-026", "inverter", INVERTER, "inverter_input_a",
        {"inverter_rated_w": 4000, "inverter_low_v": 22, "inverter_eff_frac": 0.85},
        213.9, 1e-3, "NEC 690.8(A) as taught in SAND2001-0674", "from memory, computed",
    ),
    Case(
        "INV-009", "inverter", INVERTER, "inverter_nominal_a",
        {"inverter_rated_w": 100, "bank_voltage_v": 12, "inverter_eff_frac": 0.85},
        9.8, 2e-2, PRACTICE, "common practice", "ten amps for each 100 W at 12 V",
    ),
] + [
    Case(
        id_, "inverter", VOLTAGE, "voltage_suggested_v", _hundred(watts),
        volts, 1e-6, PRACTICE, "common practice", "the largest inverter for 100 A",
    )
    for id_, watts, volts in [("INV-006", 1080, 12), ("INV-007", 2160, 24), ("INV-008", 4320, 48)]
]  # fmt: skip


def _set_point(cell_v: float, at_c: float, cells: int, mv_k: float) -> dict[str, float]:
    return {"cells_count": cells, "absorb_cell_v": cell_v, "compensation_mv_k": mv_k, "battery_temp_c": at_c}


_STATIONARY = "open code for a stationary float test: (Vrec + (77 − T) 0.003) n, T in °F"
_SET_POINTS = [
    ("CHG-013", (2.40, 0, 12, -5), 30.3, 1e-6, "28.8 V at 25 °C, −5 mV/K a cell", "from memory, computed"),
    ("CHG-013 hot", (2.40, 40, 12, -5), 27.9, 1e-6, "the same at 40 °C", "from memory, computed"),
    ("CHG-012 hot", (2.30, 35, 1, -3), 2.27, 1e-6, "battery-school teaching text, −3 mV/K", "seen"),
    ("CHG-012 cold", (2.30, 15, 1, -3), 2.33, 1e-6, "battery-school teaching text, −3 mV/K", "seen"),
    ("CHG-014", (2.25, typed("battery_temp_c", "68 °F"), 60, -5.4), 136.62, 1e-5, _STATIONARY, "seen, computed"),
]
#: Bank voltage, cells in 12 V, absorption voltage of a cell, and the set-point at 25 °C.
_WARM = [
    ("CHG-006 12 V", 12, 6, 2.40, 14.4),
    ("CHG-006 48 V", 48, 6, 2.40, 57.6),
    ("CHG-009 LFP 48 V", 48, 4, 3.45, 55.2),
]
CHARGE_CASES = [
    *(
        Case(id_, "charge set-points", SET_POINTS, "absorb_set_v", _set_point(*values), volts, tol, source, tag)
        for id_, values, volts, tol, source, tag in _SET_POINTS
    ),
    *(
        Case(
            id_, "charge set-points", SET_POINTS, "absorb_set_v",
            {"bank_voltage_v": bank, "cells_12v_count": cells, "absorb_cell_v": cell_v, "compensation_mv_k": 0,
             "battery_temp_c": 25},
            volts, 1e-6, PRACTICE, "common practice",
        )
        for id_, bank, cells, cell_v, volts in _WARM
    ),
    Case(
        "SG-033", "charge set-points", Sheet(rest_low_v), "rest_low_v",
        {"cells_count": 6, "cell_rest_voltage": Table("specific gravity 1.265 + 0.84", (1.0,), (2.105,), "", "V"),
         "depth_frac": 0},
        12.63, 1e-6, "textbook rule: cell voltage is specific gravity + 0.84", "seen, computed", "at rest, full",
    ),
]  # fmt: skip
CONTROLLER_CASES = [
    Case(
        f"INV-005 {volts} V", "controller", CONTROLLER, "charge_current_a", {"array_w": watts, "bank_voltage_v": volts},
        50, 1e-6, "PV training text: controller power at 50 A", "seen", "at nominal volts",
    )
    for volts, watts in [(12, 600), (24, 1200), (48, 2400)]
]  # fmt: skip
