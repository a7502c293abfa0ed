"""Published examples: hydrogen, air and openings of a battery room."""

from typing import Any

from published.case import Case, typed

from offgrid_core import data
from offgrid_core.sizing.ventilation import DILUTION, FARADAY, VENTILATION

_IEC = "IEC 62485-2:2010, EN 50272-2:2001"
_UFC = "UFC 3-410-04N (25 Oct 2004), battery maintenance, eqs (3) to (6)"
_UFC_EL = "UFC 3-520-01 (10 Jun 2002), para 14-1.3.2.2"


def _air(kind: str, mode: str, cells: int, ah: float) -> dict[str, Any]:
    return {"cells_count": cells, "gas_ma_ah": data.gas_current(kind, mode).gas_ma_ah, "bank_ah": ah}


#: Rows of the checks: air flow, opening, kind, mode, cells, Ah, m³/h, cm².
_ROOMS = [
    ("H2-012", "H2-013", "flooded", "boost", 24, 500, 12, 336),
    ("H2-014", "H2-015", "flooded", "float", 24, 500, 3, 84),
    ("H2-016", "H2-017", "agm", "boost", 24, 500, 4.8, 134.4),
    ("H2-018", "H2-019", "gel", "float", 24, 500, 0.6, 16.8),
    ("H2-020", "H2-021", "gel", "boost", 12, 200, 0.96, 26.88),
    ("H2-022", "H2-023", "flooded", "boost", 6, 100, 0.6, 16.8),
]
_CFM = typed("hydrogen_l_ah", "0.01614 ft³/Ah")  # 0.000269 ft³/min for each ampere, times 60 minutes

VENTILATION_CASES = [
    *(
        Case(id_, "ventilation", VENTILATION, "air_needed_m3_h", _air(*room), air, 1e-6, _IEC, "seen, computed", "WX13")
        for id_, _, *room, air, _ in _ROOMS
    ),
    *(
        Case(
            id_, "ventilation", VENTILATION, "opening_needed_cm2", _air(*room),
            opening, 1e-6, _IEC, "seen, computed", "WX13; each way, at 0.1 m/s",
        )
        for _, id_, *room, _, opening in _ROOMS
    ),
    *(
        Case(
            id_, "ventilation", VENTILATION, "air_needed_m3_h", _air(kind, mode, 1, 100),
            air, 1e-9, _IEC, "seen, computed", f"{kind} {mode}: {gas} mA/Ah, one cell of 100 Ah",
        )
        for id_, kind, mode, gas, air in [
            ("H2-008", "flooded", "float", 5, 0.025), ("H2-009", "flooded", "boost", 20, 0.1),
            ("H2-010", "agm", "float", 1, 0.005), ("H2-011", "agm", "boost", 8, 0.04),
        ]
    ),
    Case(
        "H2-001", "ventilation", FARADAY, "hydrogen_l_ah", {"gas_temp_c": 0},
        0.4181, 2e-3, "Faraday's law", "from memory, computed",
    ),
    Case(
        "H2-002", "ventilation", FARADAY, "hydrogen_l_ah", {"gas_temp_c": 25},
        0.4564, 2e-3, "Faraday's law", "from memory, computed",
    ),
    Case(
        "H2-005", "ventilation", FARADAY, "hydrogen_l_ah", {"gas_temp_c": 25},
        typed("hydrogen_l_ah", "0.016 ft³/Ah"), 1e-2, _UFC, "seen", "0.000453 m³; a specification misprints 0.000045",
    ),
    Case(
        "H2-003", "ventilation", DILUTION, "hydrogen_m3_h", {"gassing_a": 1, "cells_count": 1, "hydrogen_l_ah": 0.457},
        1.27e-7 * 3600, 5e-3, _UFC_EL, "seen", "1.27e-7 m³/s for each ampere and cell is 0.457 L/Ah",
    ),
    Case(
        "H2-004", "ventilation", DILUTION, "hydrogen_m3_h",
        {"gassing_a": 1, "cells_count": 1, "gas_temp_c": 25},
        typed("hydrogen_m3_h", "0.000269 ft³/min"), 3e-3, _UFC_EL + "; IEEE 484", "seen",
    ),
    Case(
        "H2-007", "ventilation", FARADAY, "air_each_m3_ah",
        {"dilution_ratio": 24, "hydrogen_l_ah": 0.42, "gas_safety_factor": 5},
        0.0504, 1e-3, _IEC, "from memory", "rounded to 0.05",
    ),
    Case(
        "H2-030", "ventilation", DILUTION, "gas_hot_ma_ah",
        {"gas_ma_ah": 2.4, "battery_hot_c": typed("battery_hot_c", "92 °F"),
         "gas_doubling_k": typed("gas_doubling_k", "15 °F steps")},
        4.8, 1e-6, _UFC, "seen", "0.24 A for 100 Ah at 77 °F doubles at 92 °F",
    ),
    Case(
        "H2-026", "ventilation", DILUTION, "hydrogen_m3_h",
        {"gas_hot_ma_ah": 4.8, "bank_ah": 1360, "cells_count": 182,
         "hydrogen_l_ah": typed("hydrogen_l_ah", "0.016 ft³/Ah")},
        typed("hydrogen_m3_h", "19.0 ft³/h"), 5e-3, _UFC, "seen", "WX12",
    ),
    Case(
        "H2-027", "ventilation", DILUTION, "diluting_each_m3_h",
        {"hydrogen_m3_h": typed("hydrogen_m3_h", "19 ft³/h"), "hydrogen_limit_frac": 0.01},
        typed("diluting_each_m3_h", "31.7 ft³/min"), 1e-2, _UFC, "seen", "WX12; prints 32",
    ),
    Case(
        "H2-028", "ventilation", DILUTION, "diluting_m3_h",
        {"diluting_each_m3_h": typed("diluting_each_m3_h", "32 ft³/min"), "banks_count": 3, "ventilation_factor": 2},
        typed("diluting_m3_h", "192 ft³/min"), 1e-6, _UFC, "seen", "WX12",
    ),
    Case(
        "WX12 changes", "ventilation", DILUTION, "diluting_changes_per_h",
        {"diluting_m3_h": typed("diluting_m3_h", "192 ft³/min"), "room_m3": typed("room_m3", "8000 ft³")},
        1.44, 1e-6, _UFC, "seen",
    ),
    Case(
        "WX12 from the start", "ventilation", DILUTION, "diluting_changes_per_h",
        {"gas_ma_ah": 2.4, "battery_hot_c": typed("battery_hot_c", "92 °F"),
         "gas_doubling_k": typed("gas_doubling_k", "15 °F steps"), "bank_ah": 1360, "cells_count": 182,
         "hydrogen_l_ah": typed("hydrogen_l_ah", "0.016 ft³/Ah"), "hydrogen_limit_frac": 0.01, "banks_count": 3,
         "ventilation_factor": 2, "room_m3": typed("room_m3", "8000 ft³")},
        1.44, 2e-2, _UFC, "seen", "the source rounds 31.7 up to 32 on the way",
    ),
    Case(
        "H2-031", "ventilation", DILUTION, "hydrogen_m3_h",
        {"gassing_a": 25, "cells_count": 24, "hydrogen_l_ah": _CFM},
        typed("hydrogen_m3_h", "0.1614 ft³/min"), 2e-3, _UFC_EL, "seen, computed",
    ),
    *(
        Case(
            f"H2-031 air at {limit:g}", "ventilation", DILUTION, "diluting_each_m3_h",
            {"gassing_a": 25, "cells_count": 24, "hydrogen_l_ah": _CFM, "hydrogen_limit_frac": limit},
            typed("diluting_each_m3_h", f"{cfm} ft³/min"), 5e-3, _UFC_EL, "seen, computed",
            "H2-033: 2 % there, 1 % elsewhere",
        )
        for limit, cfm in [(0.01, 16.1), (0.02, 8.1)]
    ),
    Case(
        "H2-024 trap", "ventilation", VENTILATION.written(air_needed_m3_h="0.05 * cells_count * charge_current_a"),
        "air_needed_m3_h", {"cells_count": 24, "charge_current_a": 50},
        60, 1e-6, "open code citing EN 50272-2", "seen", "the charger's whole current: five times the standard's 12",
    ),
    Case(
        "H2-037", "ventilation", VENTILATION, "spark_free_mm",
        {"gas_ma_ah": 20, "unit_ah": 500, "block_cells_count": 1},
        620.5, 1e-3, _IEC + " close-vicinity formula", "from memory, computed",
    ),
]  # fmt: skip
