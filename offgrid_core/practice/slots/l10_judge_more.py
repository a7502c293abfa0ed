"""Judgement items of the wiring lesson: two pages with a slip, a wire and a device to pick, two drawings to check."""

from offgrid_core.practice.kinds import Drawing, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l10_tables_more import (
    ARRAY_IDEA,
    ARRAY_SIDE,
    BANK_FAULT,
    DROP,
    FAULT_IDEA,
    FULL_CELL,
    FUSE_IDEA,
    GAUGED,
    GAUGES,
    IEC,
    LINE,
    ON_ARRAY,
    US,
    WORDS,
    air,
    cables,
    fuses,
    tables_of,
    together,
)
from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.fuse_teaching import TERMINALS
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.worksheet import Sheet

_WIRES = DROP + Sheet(*(CIRCUITS[n] for n in ("ampacity_by_row_a", "fuse_margin_by_row_a", "drop_margin_by_row_frac")))
_DEVICES = Sheet(
    PROTECTION["fuse_current_margin_by_row_a"],
    CIRCUITS["fuse_margin_by_row_a"],
    *(DEVICES[n] for n in ("device_voltage_margin_by_row_v", "device_interrupting_margin_by_row_a")),
)
_BANK_SIDE = Sheet(
    *(DEVICES[n] for n in ("device_voltage_margin_by_row_v", "device_interrupting_margin_by_row_a")),
    *(CIRCUITS[n] for n in ("design_current_by_row_a", "fuse_margin_by_row_a")),
    PROTECTION["fuse_current_margin_by_row_a"],
    *(CIRCUITS[n] for n in ("drop_by_row_v", "drop_by_row_frac", "drop_margin_by_row_frac")),
)
_ROOF_SIDE = Sheet(
    PROTECTION["array_backfeed_a"],
    PROTECTION["module_string_fuse_a"],
    PROTECTION["module_fuse_margin_a"],
    ARRAY_LAYOUT["string_voc_cold_v"],
    ARRAY_LAYOUT["cold_voltage_margin_v"],
    PROTECTION["voltage_most_by_row_v"],
    DEVICES["device_voltage_margin_by_row_v"],
    CIRCUITS["fuse_margin_by_row_a"],
)
_STOPS = "Into a dead short, how many amperes must this device stop without bursting?"
_DC = "What is the highest DC voltage that this device ever has to break?"
_COMPARES = "Which numbers does the rule compare, and are all of them on the drawing?"


#: What can be bought for a circuit of a drawing, from least to most.
_CHOSEN = {
    "fuse_by_row_a": (5, 250),
    "ampacity_by_row_a": (10, 400),
    "device_dc_by_row_v": (12, 1000),
    "device_interrupting_by_row_a": (500, 50_000),
}


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (*_slips(), *_picks(), *_drawings())


def _slips() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L10-slip",
            title="Find the slip",
            statement="Somebody worked a circuit of a sawmill by the US-style setting: {current_by_row_a} for hours "
            "at a factor of {current_by_row_factor}, air of {ambient_c}, {circuits_together_count} circuits together. "
            "In the store lies wire of gauge {gauge_count}. Find the first line that goes wrong, if there is one, and "
            "give its right value.",
            hint=LINE,
            principle=f"{FUSE_IDEA} The higher the gauge number, the thinner the wire.",
            sheet=GAUGED,
            given=tables_of(US) | GAUGES | {"current_by_row_factor": US.continuous_factor},
            grids={
                "current_by_row_a": (31, 35, 43, 52),
                "ambient_c": (40, 45, 50),
                "circuits_together_count": (2, 3, 4),
                "gauge_count": (1, 10, 12),
            },
            curated={"current_by_row_a": 35, "ambient_c": 45, "circuits_together_count": 2, "gauge_count": 10},
            mistakes=("OP-01", "OP-06", "WI-12", "WI-14", "WI-15", "WI-23"),
            words=WORDS,
            listed=(fuses(US), air(US), together(US), cables(US)),
        ),
        Slip(
            id="L10-slip-2",
            title="A page for the roof and the shed",
            statement="Somebody worked what protects an array of {strings_each_count} strings and the bank below it. A "
            "module: {module_isc_a} in a short, {module_voc_v} open, {voc_temp_per_k}; {modules_in_series_count} in a "
            "string, coldest morning {air_coldest_c}. Bank: {bank_voltage_v}, {strings_count} strings of {cells_count} "
            "cells, {unit_ah} each, a warm cell {cell_resistance_ohm_ah}. Sockets: {ac_v}. Find the first line that "
            "goes wrong, if there is one, and mend it.",
            hint=LINE,
            principle=f"{ARRAY_IDEA} {FAULT_IDEA}",
            sheet=ARRAY_SIDE + BANK_FAULT,
            given=tables_of(US) | ON_ARRAY | FULL_CELL | {"bank_voltage_v": 24, "cells_count": 12, "ac_v": 230},
            grids={
                "strings_each_count": (3, 4),
                "module_isc_a": (8.7, 10.9, 13.1),
                "module_voc_v": (38.4, 45.9),
                "voc_temp_per_k": (-0.0028, -0.0031),
                "modules_in_series_count": (2, 3),
                "air_coldest_c": (-18, -11),
                "strings_count": (2, 3),
                "unit_ah": (225, 310),
                "cell_resistance_ohm_ah": (0.07, 0.09),
            },
            curated={
                "strings_each_count": 3,
                "module_isc_a": 10.9,
                "module_voc_v": 38.4,
                "voc_temp_per_k": -0.0028,
                "modules_in_series_count": 2,
                "air_coldest_c": -18,
                "strings_count": 2,
                "unit_ah": 310,
                "cell_resistance_ohm_ah": 0.07,
            },
            mistakes=("CC-01", "CC-03", "OP-09", "OP-11", "OP-12", "OP-15", "OP-16", "WI-18"),
            words=WORDS,
            listed=(fuses(US),),
        ),
    )


def _picks() -> tuple[Slot, ...]:
    return (
        Pick(
            id="L10-pick",
            title="Pick a wire",
            statement="A circuit at {voltage_by_row_v} carries {current_by_row_a} over {length_by_row_m}, one way, "
            "behind a fuse of {fuse_by_row_a}. Air of {ambient_c} takes its share of the "
            "ampacity; of the rest a neighbour leaves {grouping_frac}. At most "
            "{drop_limit_by_row_frac} may be lost; the terminals take {terminal_most_mm2}; the copper works at "
            "{wire_temp_c}. Which drum is the cheapest that keeps every limit? Prices are invented.",
            hint="Which of the two asks for more copper here: the fuse, or the drop?",
            principle="Three fences: the fuse in that heat, the drop there and back, and what the terminals take.",
            sheet=_WIRES + TERMINALS,
            given=tables_of(IEC) | {"grouping_frac": 0.8, "terminal_most_mm2": 35},
            grids={
                "voltage_by_row_v": (24, 48),
                "current_by_row_a": (31, 36),
                "fuse_by_row_a": (40, 50),
                "length_by_row_m": (4, 6, 8),
                "ambient_c": (40, 45),
                "drop_limit_by_row_frac": (0.02, 0.03),
            },
            curated={
                "voltage_by_row_v": 24,
                "current_by_row_a": 36,
                "fuse_by_row_a": 40,
                "length_by_row_m": 6,
                "ambient_c": 40,
                "drop_limit_by_row_frac": 0.03,
                "batch": 20,
            },
            parts={
                "cable_by_row_mm2": (4, 6, 10, 16, 25, 35, 50, 70),
                "unit_by_row_cost": (4, 5, 6, 7, 8, 9, 11, 12, 14, 17),
            },
            cost="unit_by_row_cost",
            questions={
                "fuse_margin_by_row_a": "In that heat and beside that neighbour, what can this wire stand, and what "
                "does the fuse let through?",
                "drop_margin_by_row_frac": "How many volts stay in this wire on the way there and back?",
                "terminal_margin_by_row_mm2": "Does the end of this wire go into the terminals?",
            },
            words=WORDS | {"unit_by_row_cost": "price of a metre", "fuse_by_row_a": "fuse"},
            listed=(air(IEC), cables(IEC, resists=True)),
        ),
        Pick(
            id="L10-pick-2",
            title="Pick a fuse or a breaker",
            statement="For a circuit of the bank: {design_current_by_row_a} to design for, a cable that carries "
            "{ampacity_by_row_a} where it lies, at most {voltage_most_by_row_v} while the bank is charged, and "
            "{fault_by_row_a} into a dead short. Which device is the cheapest that keeps every limit? Prices are "
            "invented.",
            hint="Which of its four numbers has to be above something here, and which has to be below?",
            principle="Its size lies between current and wire; its DC voltage and what it can stop lie above the "
            "circuit's. What it says of AC is of no use here.",
            sheet=_DEVICES,
            grids={
                "design_current_by_row_a": (17.3, 21.4, 26.5),
                "ampacity_by_row_a": (36, 46),
                "voltage_most_by_row_v": (30.4, 61.2, 64.8),
                "fault_by_row_a": (4200, 8600),
            },
            curated={
                "design_current_by_row_a": 21.4,
                "ampacity_by_row_a": 36,
                "voltage_most_by_row_v": 61.2,
                "fault_by_row_a": 4200,
                "batch": 1,
            },
            parts={
                "fuse_by_row_a": (16, 20, 25, 32, 40, 50, 63),
                "device_ac_v": (230, 250, 400, 690),
                "device_dc_by_row_v": (24, 48, 80, 125, 160),
                "device_interrupting_by_row_a": (1000, 3000, 6000, 10_000, 20_000),
                "unit_by_row_cost": (3, 6, 9, 14, 22, 31, 45, 60),
            },
            cost="unit_by_row_cost",
            questions={
                "fuse_current_margin_by_row_a": "For how many hours will this current flow without a break?",
                "fuse_margin_by_row_a": "In an overload, which gives up first: this device or the cable?",
                "device_voltage_margin_by_row_v": _DC,
                "device_interrupting_margin_by_row_a": _STOPS,
            },
            words=WORDS | {
                "fuse_by_row_a": "size",
                "device_ac_v": "AC voltage on it",
                "device_dc_by_row_v": "DC voltage on it",
                "device_interrupting_by_row_a": "stops",
                "unit_by_row_cost": "price",
            },
        ),
    )  # fmt: skip


def _drawings() -> tuple[Slot, ...]:
    return (
        Drawing(
            id="L10-drawing",
            title="Check the drawing of the shed",
            statement="A colleague drew two circuits of a bank at {bank_voltage_v}. Judge each rule by what stands on "
            "the drawing; where a number is missing, say so. Then change one thing for the better.",
            hint=_COMPARES,
            principle=FUSE_IDEA,
            sheet=_BANK_SIDE,
            rows=("controller to bank", "bank to inverter"),
            given={
                "bank_voltage_v": 48,
                "current_by_row_factor": [1.25, 1.25],
                "voltage_by_row_v": [48, 48],
                "cables_by_row_count": [1, 1],
                "drop_limit_by_row_frac": [0.02, 0.02],
                "device_dc_by_row_v": [80, 80],
                "device_interrupting_by_row_a": [20_000, 20_000],
                "voltage_most_by_row_v": [65.2, 65.2],
            },
            grids={
                "current_by_row_a": ([44, 31], [38, 29]),
                "fuse_by_row_a": ([60, 40], [60, 45]),
                "ampacity_by_row_a": ([74, 52], [85, 65]),
                "length_by_row_m": ([3, 2], [4, 3]),
                "resistance_by_row_ohm_m": ([0.0016, 0.0026], [0.00101, 0.0016]),
                "fault_by_row_a": ([14_000, 14_000], [9_600, 9_600]),
            },
            curated={
                "current_by_row_a": [44, 31],
                "fuse_by_row_a": [60, 40],
                "ampacity_by_row_a": [74, 52],
                "length_by_row_m": [3, 2],
                "resistance_by_row_ohm_m": [0.0016, 0.0026],
                "fault_by_row_a": [14_000, 14_000],
                "batch": 0,
            },
            changes={
                "fuse_margin_by_row_a.1": ("fuse_by_row_a.1", (90, 100)),
                "fuse_margin_by_row_a.2": ("ampacity_by_row_a.2", (25, 35)),
                "fuse_current_margin_by_row_a.1": ("fuse_by_row_a.1", (35, 45)),
                "drop_margin_by_row_frac.1": ("length_by_row_m.1", (9, 14, 18)),
                "device_voltage_margin_by_row_v.1": ("device_dc_by_row_v.1", (32, 58)),
                "device_voltage_margin_by_row_v.2": ("device_dc_by_row_v.2", (24, 48)),
                "device_interrupting_margin_by_row_a.1": ("device_interrupting_by_row_a.1", (1000, 3000)),
                "device_interrupting_margin_by_row_a.2": ("device_interrupting_by_row_a.2", (5000, 6000)),
            },
            can_change=_CHOSEN
            | {
                "length_by_row_m": (1, 30),
                "resistance_by_row_ohm_m": (0.0001, 0.02),
                "cables_by_row_count": (1, 4),
            },
            left_out={
                "ampacity_by_row_a.1": 30,
                "device_interrupting_by_row_a.2": 1000,
                "device_dc_by_row_v.1": 24,
                "device_dc_by_row_v.2": 24,
            },
            words=WORDS,
        ),
        Drawing(
            id="L10-drawing-2",
            title="Check the drawing of the roof",
            statement="A colleague drew {strings_each_count} module strings that meet in one box, with a fuse in each "
            "string and a breaker between box and controller. Judge each rule by what stands on the drawing; where a "
            "number is missing, say so. Then change one thing for the better.",
            hint=_COMPARES,
            principle=ARRAY_IDEA,
            sheet=_ROOF_SIDE,
            rows=("string fuse", "breaker of the array"),
            given={
                "strings_each_count": 4,
                "bright_sun_factor": 1.25,
                "module_fuse_max_a": 20,
                "on_array_by_row_frac": [1, 1],
                "charge_most_v": 65.2,
                "controller_voltage_max_v": 150,
                "device_dc_by_row_v": [160, 160],
                "ampacity_by_row_a": [35, 85],
            },
            grids={
                "module_isc_a": (10.2, 11.3),
                "fuse_by_row_a": ([20, 70], [20, 80]),
                "modules_in_series_count": (2,),
                "module_voc_v": (41.2, 49.4),
                "voc_temp_per_k": (-0.0027, -0.003),
                "air_coldest_c": (-18, -12, -5),
            },
            curated={
                "module_isc_a": 11.3,
                "fuse_by_row_a": [20, 70],
                "modules_in_series_count": 2,
                "module_voc_v": 49.4,
                "voc_temp_per_k": -0.0027,
                "air_coldest_c": -12,
                "batch": 0,
            },
            changes={
                "module_fuse_margin_a": ("fuse_by_row_a.1", (30,)),
                "cold_voltage_margin_v": ("controller_voltage_max_v", (60, 75)),
                "device_voltage_margin_by_row_v.1": ("device_dc_by_row_v.1", (48, 58, 80)),
                "device_voltage_margin_by_row_v.2": ("device_dc_by_row_v.2", (58, 80)),
                "fuse_margin_by_row_a.1": ("ampacity_by_row_a.1", (15,)),
                "fuse_margin_by_row_a.2": ("fuse_by_row_a.2", (100, 125)),
            },
            can_change=_CHOSEN
            | {
                "fuse_by_row_a.1": (16, 63),
                "fuse_by_row_a.2": (63, 250),
                "controller_voltage_max_v": (50, 1000),
            },
            unseen=("on_array_by_row_frac",),
            left_out={
                "module_fuse_max_a": 10,
                "device_dc_by_row_v.2": 60,
                "ampacity_by_row_a.2": 30,
                "device_dc_by_row_v.1": 60,
            },
            words=WORDS | {"fuse_by_row_a": "size"},
        ),
    )
