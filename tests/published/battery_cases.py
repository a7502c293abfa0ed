"""Published examples: rate and capacity, state of charge, freezing, and the life of the bank."""

from published.case import FLOODED, PRACTICE, Case, typed

from offgrid_core import data
from offgrid_core.sizing import BANK_1013
from offgrid_core.sizing.life import LIFE
from offgrid_core.sizing.rate import CAPACITY_TEST, RATE
from offgrid_core.sizing.state import BY_GRAVITY, BY_VOLTAGE, FREEZING, GRAVITY_SPREAD

_1013 = "IEEE Std 1013"
_DUNLOP = "Dunlop, Photovoltaic Systems, stand-alone battery sizing equations"
_PEUKERT = "Peukert 1897, referred-to-rating form"
_SHARE = "Peukert 1897: C_H proportional to H^(1 − 1/k)"
_MOTIVE = "US Army TM 10-6140-200-14, Table 1-1"
_VEHICLE = "US Army TM 5-1185, battery Table II"
_ICE = "US Army TM 5-1185, battery Table III"
_NAVY = "US Navy NAVEDTRA 14344"
_HALVING_8 = "an educational page on float life: halving for each 8 °C above 25 °C"
_HALVING_10 = "EUROBAT and IEC practice: halving for each 10 °C"
_HALVING = "the three rules in circulation, for one case"
_SPIERS = "Spiers and Rasinkoski, Solar Energy 58 (1996) 147-154"

_WX10 = {
    "energy_day_wh": 2400,
    "bank_voltage_v": 24,
    "autonomy_days": 5,
    "depth_frac": 0.80,
    "depth_daily_frac": 0.20,
    "end_of_life_frac": 0.80,
    "capacity_kept": FLOODED,
    "battery_temp_c": 10,
    "design_margin_factor": 1.10,
}

WHOLE_BANK_CASES = [
    Case(
        "WX10", "bank", BANK_1013, "bank_needed_ah", _WX10,
        818.1, 1e-4, _1013 + " procedure, from the day's energy to the label", "from memory, computed",
    ),
    Case(
        "WX10 cold", "bank", BANK_1013, "for_cold_ah", {k: x for k, x in _WX10.items() if k != "design_margin_factor"},
        743.75, 1e-4, _1013 + " procedure, 625 Ah × 1.19 at 10 °C", "from memory, computed",
    ),
    Case(
        "WX10 hours", "bank", BANK_1013, "functional_hours_h", _WX10 | {"running_current_a": 10},
        81.8, 1e-3, _1013 + " cl. 6.4", "from memory, computed", "read the maker's capacity near that rate",
    ),
    Case(
        "WX10 multiplied", "bank",
        BANK_1013.written(for_all_three_ah="for_depth_ah / end_of_life_frac"), "for_all_three_ah",
        {"day_ah": 100, "autonomy_days": 5, "depth_frac": 0.80, "end_of_life_frac": 0.80},
        781, 1e-3, "a hand method at odds with IEEE Std 1013: depth and end of life multiplied", "computed",
        "the standard takes the largest, 625 Ah; see BAT-033",
    ),
]  # fmt: skip


def _drawn(amps: float, exponent: float) -> dict[str, float]:
    return {"bank_ah": 100, "capacity_hours_h": 20, "running_current_a": amps, "peukert_exponent": exponent}


def _share(id_: str, hours: float, exponent: float, expected: float) -> Case:
    given = {"functional_hours_h": hours, "capacity_hours_h": 20, "peukert_exponent": exponent}
    return Case(
        id_, "rate", RATE, "capacity_hours_ratio", given, expected, 1e-3, _SHARE, "from memory, computed",
        "" if hours < 20 else "an extrapolation: real batteries show 1.1 to 1.3",
    )  # fmt: skip


def _delivered(id_: str, times: float, expected: float) -> Case:
    return Case(
        id_, "rate", RATE, "delivered_ah", _drawn(5 * times, 1.10), expected, 1e-3, _PEUKERT, "from memory, computed",
        f"at {times:g} times the label's current",
    )  # fmt: skip


RATE_CASES = [
    Case("PEU-001", "rate", RATE, "runtime_h", _drawn(5, 1.2), 20, 1e-6, _PEUKERT, "from memory", "the label again"),
    Case("PEU-002", "rate", RATE, "runtime_h", _drawn(10, 1.2), 8.7055, 1e-4, _PEUKERT, "from memory, computed"),
    Case("PEU-002 given", "rate", RATE, "delivered_ah", _drawn(10, 1.2), 87.06, 1e-4, _PEUKERT, "computed"),
    Case("PEU-003", "rate", RATE, "runtime_h", _drawn(20, 1.2), 3.7893, 1e-4, _PEUKERT, "from memory, computed"),
    Case("PEU-003 given", "rate", RATE, "delivered_ah", _drawn(20, 1.2), 75.79, 1e-4, _PEUKERT, "computed"),
    Case(
        "PEU-004", "rate", RATE.written(runtime_h="bank_ah / running_current_a ** peukert_exponent"), "runtime_h",
        {"bank_ah": 100, "running_current_a": 5, "peukert_exponent": 1.2},
        14.5, 1e-3, "a popular article on Peukert's law", "seen",
        "a trap: a 100 Ah battery of 20 h gives 5 A for 20 h by its label, PEU-001",
    ),
    _delivered("PEU-005", 2, 93.3),
    _delivered("PEU-006", 4, 87.06),
    _delivered("PEU-007", 10, 79.43),
    _delivered("PEU-008", 20, 74.11),
    _share("PEU-009", 5, 1.1, 0.8816),
    _share("PEU-010", 100, 1.1, 1.158),
    _share("PEU-011", 5, 1.2, 0.7937),
    _share("PEU-012", 100, 1.2, 1.308),
    _share("PEU-013", 5, 1.3, 0.7262),
    _share("PEU-014", 100, 1.3, 1.450),
    Case(
        "PEU-017", "rate", CAPACITY_TEST, "tested_frac", {"test_hours_h": 8, "capacity_hours_h": 10},
        0.80, 1e-6, _NAVY + ", test discharge at the 10-hour rate", "seen, computed",
    ),
    Case(
        "WX11 hours", "rate", RATE, "average_discharge_h",
        {"load_hours_h": 6, "autonomy_days": 3, "depth_frac": 0.6},
        30, 1e-6, _DUNLOP + ": r_d = t_op × t_a ÷ DOD", "seen, computed", "read the column of about 30 h",
    ),
    Case(
        "WX11 load", "rate", RATE, "average_discharge_h",
        {"energy_day_wh": 600, "bank_voltage_v": 24, "peak_w": 0, "inverter_eff_frac": 1, "dc_peak_w": 100,
         "autonomy_days": 3, "depth_frac": 0.6},
        30, 1e-6, _DUNLOP + ": r_d = t_op × t_a ÷ DOD", "seen, computed", "100 W for 6 h a day",
    ),
]  # fmt: skip


def _charged(id_: str, fill: str, gravity: float, charge: float, source: str, tag: str) -> Case:
    given = {"gravity_ratio": gravity, "charge_of_gravity": data.charge_of_gravity(fill)}
    return Case(id_, "state of charge", BY_GRAVITY, "charge_by_gravity_frac", given, charge, 1e-6, source, tag)


_BAND = PRACTICE + ": middle of the band, filled to 1.265"

STATE_CASES = [
    _charged("SG-001 charge", "motive_1280", 1.280, 1.00, _MOTIVE, "seen"),
    _charged("SG-002 charge", "motive_1280", 1.250, 0.75, _MOTIVE, "seen"),
    _charged("SG-003 charge", "motive_1280", 1.220, 0.50, _MOTIVE, "seen"),
    _charged("SG-004 charge", "motive_1280", 1.160, 0.25, _MOTIVE, "seen"),
    _charged("SG-005", "vehicle_1280", 1.280, 1.00, _VEHICLE, "seen"),
    _charged("SG-006", "vehicle_1280", 1.250, 0.75, _VEHICLE, "seen"),
    _charged("SG-007", "vehicle_1280", 1.220, 0.50, _VEHICLE, "seen"),
    _charged("SG-008", "vehicle_1280", 1.190, 0.25, _VEHICLE, "seen"),
    _charged("SG-010", "vehicle_1280", 1.130, 0.00, _VEHICLE, "seen"),
    _charged("SG-016", "deep_cycle_1265", 1.265, 1.00, _BAND, "common practice"),
    _charged("SG-017", "deep_cycle_1265", 1.225, 0.75, _BAND, "common practice"),
    _charged("SG-018", "deep_cycle_1265", 1.190, 0.50, _BAND, "common practice"),
    _charged("SG-019", "deep_cycle_1265", 1.160, 0.25, _BAND, "common practice"),
    _charged("SG-020", "deep_cycle_1265", 1.120, 0.00, _BAND, "common practice"),
    Case(
        "SG-016 note", "state of charge", BY_GRAVITY, "charge_by_gravity_frac",
        {"gravity_ratio": 1.220, "charge_of_gravity": data.charge_of_gravity("deep_cycle_1265")},
        0.72, 1e-2, _BAND, "common practice, computed", "half charged in a vehicle battery, SG-007",
    ),
    Case(
        "SG-027", "state of charge", BY_GRAVITY, "gravity_ratio",
        {"gravity_read_ratio": 1.250, "acid_temp_c": typed("acid_temp_c", "50 °F"),
         "gravity_table_c": typed("gravity_table_c", "80 °F")},
        1.240, 1e-6, _NAVY + ": 0.001 for each 3 °F from 80 °F", "seen, computed", "cold acid reads high",
    ),
    Case(
        "SG-029", "state of charge", GRAVITY_SPREAD, "gravity_spread_margin_ratio",
        {"gravity_by_row_ratio": [1.270, 1.265, 1.235, 1.262], "gravity_spread_max_ratio": 0.025},
        -0.010, 1e-6, "US Army TM 9-6140-200-14 para 4-7", "seen, computed", "0.035 apart condemns the third cell",
    ),
    Case(
        "SG-033 cell", "state of charge", BY_GRAVITY, "cell_by_gravity_v", {"gravity_ratio": 1.265},
        2.105, 1e-6, "textbook rule: specific gravity + 0.84", "seen",
    ),
    Case(
        "SG-033 bank", "state of charge", BY_GRAVITY, "rest_by_gravity_v", {"gravity_ratio": 1.265, "cells_count": 6},
        12.63, 1e-6, "textbook rule: specific gravity + 0.84", "seen, computed",
    ),
    Case(
        "SG-033 charge", "state of charge", BY_VOLTAGE, "charge_by_voltage_frac",
        {"cell_read_v": 2.105, "charge_of_rest_voltage": data.charge_of_rest_voltage("flooded")},
        1.0, 1e-6, "textbook rule: specific gravity + 0.84, filled to 1.265", "seen, computed", "read backwards",
    ),
]  # fmt: skip


def _ice(id_: str, gravity: float, fahrenheit: float, source: str, tag: str, rel_tol: float = 4e-3) -> Case:
    given = {"gravity_left_ratio": gravity, "freezing_of_gravity": data.freezing_of_gravity()}
    celsius = typed("battery_temp_c", f"{fahrenheit} °F")
    return Case(id_, "freezing", FREEZING, "freezing_left_c", given, celsius, rel_tol, source, tag)


_CIRCULATING = "another circulating table, " + PRACTICE

FREEZING_CASES = [
    _ice("SG-002", 1.250, -62, _MOTIVE, "seen"),
    _ice("SG-003", 1.220, -31, _MOTIVE, "seen"),
    _ice("SG-004", 1.160, 1, _MOTIVE, "seen"),
    _ice("SG-011", 1.280, -90, _ICE, "seen"),
    _ice("SG-012", 1.250, -62, _ICE, "seen"),
    _ice("SG-013", 1.200, -16, _ICE, "seen"),
    _ice("SG-014", 1.150, 5, _ICE, "seen"),
    _ice("SG-015", 1.100, 19, _ICE, "seen"),
    _ice("SG-022", 1.225, -35, _CIRCULATING, "common practice", 0.02),
    _ice("SG-024", 1.150, 5, _CIRCULATING, "common practice"),
    _ice("SG-026", 1.050, 27, _CIRCULATING, "common practice", 0.01),
    Case(
        "SG-004 half", "freezing", FREEZING, "freezing_left_c",
        {"depth_frac": 0.75, "gravity_of_charge": data.gravity_of_charge("motive_1280"),
         "freezing_of_gravity": data.freezing_of_gravity()},
        -17.2, 1e-3, _MOTIVE + ": a quarter charged, 1 °F", "seen", "from the depth of discharge",
    ),
]  # fmt: skip


def _warm(id_: str, celsius: float, halving: float, years: float, source: str, tag: str, rel_tol: float = 1e-2) -> Case:
    given = {"float_life_years": 10, "life_temp_c": celsius, "life_table_c": 25, "halving_k": halving}
    return Case(id_, "life", LIFE, "calendar_life_years", given, years, rel_tol, source, tag)


LIFE_CASES = [
    _warm("LIF-001", 33, 8, 5.0, _HALVING_8, "seen"),
    _warm("LIF-002", 41, 8, 2.5, _HALVING_8, "seen"),
    _warm("LIF-003", 35, 10, 5.0, _HALVING_10, "from memory, computed"),
    _warm("LIF-004", 45, 10, 2.5, _HALVING_10, "from memory, computed"),
    _warm("LIF-005 8 K", 41, 8, 2.50, _HALVING, "computed"),
    _warm("LIF-005 15 °F", 41, typed("halving_k", "15 °F steps"), 2.64, _HALVING, "computed"),
    _warm("LIF-005 10 K", 41, 10, 3.30, _HALVING, "computed"),
    Case(
        "LIF-007", "life", LIFE, "bank_life_years", {"cycle_life_years": 8, "calendar_life_years": 5},
        5, 1e-6, _SPIERS + ": the earlier of the two", "seen, computed", "here the calendar ends it",
    ),
    Case(
        "LIF-008", "life", LIFE, "bank_life_years",
        {"cycles_count": 1500, "cycles_year_count": 365, "float_life_years": 10, "life_temp_c": 35, "life_table_c": 25,
         "halving_k": 10},
        4.11, 1e-3, _SPIERS, "seen, computed", "cycles end it before the 5.0 years of the calendar",
    ),
]  # fmt: skip
