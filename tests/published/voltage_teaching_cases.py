"""Published examples: one cable between bank and inverter, and an inverter whose battery is low."""

from published.case import PRACTICE, Case, typed

from offgrid_core import data
from offgrid_core.sizing.voltage_teaching import IN_THE_CABLE, LOW_CURRENT, MAIN_CABLE, ONE_CABLE

US, IEC = data.code_setting("us_style"), data.code_setting("iec_style")
_2_0 = next(area for area, label in US.size_labels.items() if label == "2/0 AWG")
KFT = 304.8  # metres in 1000 ft, exact
_TRAINING = "electrician training example by the NEC Table 8 method: 16 AWG, 4.99 ohm per 1000 ft"
_CHART = "widely copied 12 V 2 % wire-loss chart, recomputed with NEC Chapter 9 Table 8"
_16_AWG = {"inverter_input_a": 4, "cable_run_m": typed("cable_run_m", "100 ft"), "cable_ohm_m": 4.99 / KFT}

ONE_CABLE_CASES = [
    Case(
        "VD-001 one cable", "conductors", IN_THE_CABLE, "inverter_drop_v", _16_AWG,
        3.992, 1e-3, _TRAINING, "seen", "prints 4.0 V",
    ),
    Case(
        "VD-001 one cable, share", "conductors", IN_THE_CABLE, "inverter_lost_frac", _16_AWG | {"bank_voltage_v": 24},
        0.166, 5e-3, _TRAINING, "seen", "prints 16.7 %",
    ),
    Case(
        "VD-001 one cable, heat", "conductors", IN_THE_CABLE, "inverter_lost_w", _16_AWG,
        15.97, 1e-3, _TRAINING, "seen, computed", "4 A through 3.992 V",
    ),
    Case(
        "VD-001 main cable", "conductors", MAIN_CABLE, "main_lost_w",
        {
            "running_current_a": 4, "cable_run_m": typed("cable_run_m", "100 ft"), "cable_ohm_m": 4.99 / KFT,
            "joints_ohm": 0, "fuse_ohm": 0,
        },
        15.97, 1e-3, _TRAINING, "seen, computed", "without lugs and fuse",
    ),
    Case(
        "VD-007 one cable", "conductors", ONE_CABLE, "inverter_lost_frac",
        {
            "inverter_input_a": 100, "cable_run_m": typed("cable_run_m", "14.5 ft"), "cable_mm2": _2_0,
            "cable_resistance": US.resistance_of, "wire_temp_c": 75, "table_temp_c": US.table_temp_c,
            "bank_voltage_v": 12,
        },
        0.0234, 1e-2, _CHART, "seen", "2/0 AWG",
    ),
    Case(
        "WX15 one cable", "conductors", ONE_CABLE, "inverter_drop_v",
        {
            "inverter_input_a": 20, "cable_run_m": 10, "cable_mm2": 6, "cable_resistance": IEC.resistance_of,
            "wire_temp_c": 20, "table_temp_c": IEC.table_temp_c,
        },
        1.232, 5e-4, "IEC 60228 class 2, 6 mm²: 3.08 ohm/km at 20 °C", "seen, computed",
    ),
    Case(
        "NPV-026 by twelves", "inverter", LOW_CURRENT, "inverter_input_a",
        {"bank_voltage_v": 24, "low_12v_v": 11, "inverter_rated_w": 4000, "inverter_eff_frac": 0.85},
        213.9, 1e-3, "NEC 690.8(A) as taught in SAND2001-0674: 4000 W at the lowest 22 V", "from memory, computed",
    ),
    Case(
        "LVD by twelves", "inverter", LOW_CURRENT, "inverter_low_v", {"bank_voltage_v": 48, "low_12v_v": 10.5},
        42, 1e-6, PRACTICE, "common practice", "usual cut-offs: 10.5, 21 and 42 V",
    ),
]  # fmt: skip
