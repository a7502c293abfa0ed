"""Published examples: fault currents, fuses against them, what goes with cold strings, and cables laid together."""

from published.case import PRACTICE, Case

from offgrid_core import data
from offgrid_core.sizing.array import COLD_VOLTAGE_TABLE
from offgrid_core.sizing.circuits import CIRCUITS, GROUPING
from offgrid_core.sizing.protection import DEVICES, PROTECTION

US, IEC = data.code_setting("us_style"), data.code_setting("iec_style")
BOTH_FACTORS = US.pv_current_factor * US.continuous_factor
_GROUPED_IEC = "IEC 60364-5-52:2009 Table B.52.17 item 1"
_GROUPED_US = "NEC Table 310.15(C)(1)"


def _together(code: data.CodeSetting, circuits: int) -> dict[str, object]:
    return {
        "grouping_table": code.grouping_factor,
        "circuits_together_count": circuits,
        "conductors_circuit_count": code.conductors_circuit_count,
    }


PROTECTION_CASES = [
    Case(
        "SAF-010", "protection", PROTECTION, "bank_fault_a", {"bank_full_v": 12.8, "bank_warm_resistance_ohm": 0.004},
        3200, 1e-6, "Ohm's law with a typical 100 Ah AGM resistance", "common practice",
    ),
    Case(
        "SAF-010 device", "protection", DEVICES, "device_interrupting_margin_by_row_a",
        {"device_interrupting_by_row_a": 20_000, "fault_by_row_a": 3200},
        16_800, 1e-6, "class T fuse, typically 20 kA, against that bank", "common practice",
    ),
    Case(
        "NPV-017", "protection", COLD_VOLTAGE_TABLE, "string_voc_table_v",
        {"modules_in_series_count": 2, "module_voc_v": 38.9, "cold_voltage_factor": data.cold_voltage_us(),
         "air_coldest_c": -20},
        91.8, 2e-3, "NEC Table 690.7(A), row −16 to −20 °C", "seen", "a course read the 20 to 24 °C row: 79.4 V",
    ),
    Case(
        "NPV-020", "protection", CIRCUITS, "design_current_by_row_a",
        {"current_by_row_a": 1, "current_by_row_factor": BOTH_FACTORS},
        1.5625, 1e-6, "NEC 690.8(A) and (B)", "seen", "usually written 1.56",
    ),
    Case(
        "NPV-026 fuse", "protection", CIRCUITS, "fuse_by_row_a",
        {"current_by_row_a": 213.9, "current_by_row_factor": US.continuous_factor, "next_fuse": US.fuse_size},
        300, 0, "NEC 690.8 as taught in SAND2001-0674, next size of NEC 240.6(A)", "from memory, computed",
    ),
    *(
        Case(
            f"NPV-025 {amps} A", "protection", CIRCUITS, "fuse_by_row_a",
            {"design_current_by_row_a": amps, "next_fuse": US.fuse_size},
            size, 0, "NEC 240.6(A): 15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 ...", "seen",
        )
        for amps, size in [(15, 15), (15.1, 20), (50.5, 60), (111, 125), (401, 450), (599, 600)]
    ),
    *(
        Case(
            f"IEC-059 {circuits}", "protection", GROUPING, "grouping_frac", _together(IEC, circuits),
            factor, 0, _GROUPED_IEC, "seen",
        )
        for circuits, factor in [(1, 1.0), (2, 0.8), (3, 0.7), (4, 0.65), (5, 0.6), (6, 0.57)]
    ),
    *(
        Case(
            f"grouping US {circuits}", "protection", GROUPING, "grouping_frac", _together(US, circuits),
            factor, 0, _GROUPED_US + ": 4 to 6 conductors 80 %, 7 to 9 70 %, 10 to 20 50 %", "from memory",
            "two conductors a circuit; up to three need no factor",
        )
        for circuits, factor in [(1, 1.0), (2, 0.8), (3, 0.8), (4, 0.7), (5, 0.5)]
    ),
    Case(
        "back-feed 3 strings", "protection", PROTECTION, "array_backfeed_a",
        {"strings_each_count": 3, "module_isc_a": 8.8, "bright_sun_factor": 1.0},
        17.6, 1e-6, "PV trade: the other strings' short-circuit current, a fuse from three strings on; " + PRACTICE,
        "common practice", "above a 15 A series fuse",
    ),
]  # fmt: skip
