"""Tables, worksheets and words that the problems of the wiring lesson share.

The tables are those of a named code setting. Whoever teaches under another code changes the setting, not the problems.
"""

from typing import Any

from offgrid_core.data import cell_rest_voltage, code_setting
from offgrid_core.data.codes import CodeSetting
from offgrid_core.data.neighbours import area_of_gauge, neighbours
from offgrid_core.practice.listing import Listing
from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.circuits import CIRCUITS, GROUPING
from offgrid_core.sizing.fuse_teaching import GAUGE_ON_HAND
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.wire_teaching import CURRENT_FACTOR
from offgrid_core.worksheet import Sheet

US, IEC = code_setting("us_style"), code_setting("iec_style")
#: Sizes and factors that a problem lists: what its numbers can come to, and some on either side.
_FUSES, _AIR = (10, 150), (25, 60)


def tables_of(code: CodeSetting) -> dict[str, Any]:
    """Return what a code setting gives to a circuit, with the rows beside the right ones."""
    return neighbours(code) | {
        "next_fuse": code.fuse_size,
        "ambient_factor": code.ambient_factor,
        "cable_for_ampacity": code.conductor_for_ampacity,
        "cable_for_conductance": code.conductor_for_conductance,
        "cable_resistance": code.resistance_of,
        "cable_ampacity": code.ampacity_of,
        "grouping_table": code.grouping_factor,
        "conductors_circuit_count": code.conductors_circuit_count,
        "table_temp_c": code.table_temp_c,
        "wire_temp_c": float(code.insulation_c),
        "cables_by_row_count": 1,
        "steady_factor": code.continuous_factor,
        "bright_sun_factor": code.pv_current_factor,
    }


def _within(values: tuple[float, ...], span: tuple[float, float]) -> tuple[float, ...]:
    return tuple(v for v in values if span[0] <= v <= span[1])


def fuses(code: CodeSetting) -> Listing:
    """Return the list of standard sizes."""
    return Listing(f"Fuses and breakers, {code.label}", (("size", "fuse_by_row_a", _within(code.fuse_size.x, _FUSES)),))


def air(code: CodeSetting) -> Listing:
    """Return the factors for the air round a cable; between two of them the hotter one counts."""
    temps = _within(code.ambient_factor.x, _AIR)
    return Listing(
        f"Heat, {code.label}, {code.insulation_c} °C insulation",
        (("air up to", "ambient_c", temps), ("factor", "ambient_factor_ratio", tuple(map(code.ambient_factor, temps)))),
    )


def together(code: CodeSetting) -> Listing:
    """Return the factors for circuits laid together, counted as circuits of two wires."""
    count = range(1, 7)
    given = {"grouping_table": code.grouping_factor, "conductors_circuit_count": code.conductors_circuit_count}
    solved = (GROUPING.solve({**given, "circuits_together_count": n}) for n in count)
    factors = tuple(float(each["grouping_frac"]) for each in solved)
    wires = code.conductors_circuit_count
    counts = f": a circuit counts as {wires} wires" if wires > 1 else ""
    return Listing(
        f"Neighbours, {code.label}{counts}",
        (("circuits together", "circuits_together_count", tuple(count)), ("factor", "grouping_ratio", factors)),
    )


def cables(code: CodeSetting, carries: bool = True, resists: bool = False) -> Listing:
    """Return the list of cables: size, and the ampacity or the resistance of a length, or both."""
    areas, gauged = code.ampacity_of.x, code.conductors_circuit_count == 2
    gauges = tuple(code.size_label(a).removesuffix(" AWG") for a in areas)
    rows: list[tuple[str, str, tuple[Any, ...]]] = [("gauge (AWG)", "gauge_count", gauges)] if gauged else []
    rows.append(("copper", "cable_by_row_mm2", areas))
    if carries:
        rows.append(("carries", "ampacity_by_row_a", code.ampacity_of.y))
    if resists:
        words = f"resistance at {code.table_temp_c:g} °C"
        rows.append((words, "resistance_by_row_ohm_m:Ω/km", code.resistance_of.y))
    return Listing(f"Copper wire in air of 30 °C, {code.label}, {code.insulation_c} °C insulation", tuple(rows))


#: From the working current to the wire, with heat and neighbours.
CHAIN = GROUPING + Sheet(
    *(
        CIRCUITS[n]
        for n in (
            *("design_current_by_row_a", "fuse_by_row_a", "ampacity_wanted_by_row_a"),
            "for_ampacity_by_row_mm2",
        )
    )
)
#: The same, and the wire on hand beside it.
GAUGED = CHAIN + Sheet(*(GAUGE_ON_HAND[n] for n in ("gauge_mm2", "gauge_margin_by_row_mm2")))
#: A fuse for a cable that lies there already.
IN_PLACE = Sheet(*(CIRCUITS[n] for n in ("design_current_by_row_a", "fuse_by_row_a", "fuse_margin_by_row_a")))
#: The same, from what the cable carries where it lies.
LAID = Sheet(CIRCUITS["ampacity_by_row_a"]) + IN_PLACE
#: The drop of a cable that is known.
DROP = Sheet(*(CIRCUITS[n] for n in ("resistance_by_row_ohm_m", "drop_by_row_v", "drop_by_row_frac")))
_FOR_DROP = {"cable_by_row_mm2": "for_drop_by_row_mm2"}
#: From the drop allowed to the cable, and the drop that it then has.
CABLE_FOR_DROP = Sheet(
    *(CIRCUITS[f"resistance_{n}_by_row_ohm_m"] for n in ("allowed", "listed")),
    CIRCUITS["for_drop_by_row_mm2"],
    CIRCUITS["resistance_by_row_ohm_m"].renamed(
        "resistance_by_row_ohm_m", CIRCUITS["resistance_by_row_ohm_m"].label, **_FOR_DROP
    ),
    *(CIRCUITS[n] for n in ("drop_by_row_v", "drop_by_row_frac")),
)
#: One module string: current, fuse, what its neighbours push back, and the highest voltage.
ARRAY_SIDE = CURRENT_FACTOR + Sheet(
    CIRCUITS["design_current_by_row_a"].renamed(
        "design_current_by_row_a", CIRCUITS["design_current_by_row_a"].label, current_by_row_a="module_isc_a"
    ),
    CIRCUITS["fuse_by_row_a"],
    PROTECTION["array_backfeed_a"],
    ARRAY_LAYOUT["string_voc_cold_v"],
    PROTECTION["voltage_most_by_row_v"],
)
#: From the strings of a bank to what it drives into a dead short.
BANK_FAULT = Sheet(STRINGS["bank_ah"]) + PROTECTION.upto("bank_fault_a")
BANK_FAULT = Sheet(*(BANK_FAULT[n] for n in ("bank_ah", "bank_full_v", "bank_warm_resistance_ohm", "bank_fault_a")))
FAULT_AT_DEVICE = BANK_FAULT + Sheet(
    DEVICES["device_interrupting_margin_by_row_a"].renamed(
        "device_interrupting_margin_by_row_a",
        DEVICES["device_interrupting_margin_by_row_a"].label,
        fault_by_row_a="bank_fault_a",
    )
)
#: What a charged cell of a flooded bank rests at.
FULL_CELL = {"cell_rest_voltage": cell_rest_voltage("flooded")}
GAUGES = {"area_of_gauge": area_of_gauge(US)}
ON_ARRAY = {"on_array_by_row_frac": 1, "charge_most_v": 0}

WORDS = {
    "current_by_row_a": "current for hours",
    "ampacity_by_row_a": "what the cable carries where it lies",
    "cable_by_row_mm2": "cable",
    "ac_v": "AC voltage",
    "strings_count": "strings of the bank",
    "cells_count": "cells in a string",
    "resistance_by_row_ohm_m": "resistance of a metre of it",
    "cables_by_row_count": "cables for each pole",
    "module_fuse_max_a": "largest series fuse on the module's label",
    "strings_each_count": "module strings that meet there",
    "bank_ah": "bank",
    "charge_most_v": "highest charging voltage",
    "string_voc_cold_v": "voltage of the string on the coldest morning",
    "design_current_by_row_a": "current to design for",
    "fuse_by_row_a": "fuse",
    "bank_full_v": "volts of the full bank",
    "array_backfeed_a": "current pushed back into one string",
    "voltage_most_by_row_v": "highest voltage of the circuit",
    "fault_by_row_a": "short-circuit current there",
}
OPENS = "What must the wire stand until the fuse opens?"
THERE_AND_BACK = "How far does the current travel before it is back where it started?"
HOT = "In that air and among those neighbours, can the wire carry what its table says?"
FEEDS = "Who is still feeding the fault, and how hard?"
LINE = "What does this line begin from, and what should happen to it?"
FUSE_IDEA = (
    "Load, fuse, wire: each no more than the next. The fuse is chosen for the current; the wire is chosen for the "
    "fuse, and for what heat and neighbours leave of its rating."
)
DROP_IDEA = "The current goes there and comes back: twice the length. The share is taken of this circuit's own voltage."
ARRAY_IDEA = (
    "On the array the code puts one margin for bright sun on another for long hours. Into a faulty string push all the "
    "others. The highest voltage comes on the coldest morning."
)
FAULT_IDEA = (
    "Cells in a row add their resistance; strings side by side divide it. Volts over that little resistance is what "
    "the fuse has to stop."
)
