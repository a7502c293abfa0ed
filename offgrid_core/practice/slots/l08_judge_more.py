"""Judgement items of the controller lesson: a page with a slip, a drawing to check, two parts to pick."""

from offgrid_core.practice.kinds import Drawing, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_sheets_more import (
    BRIGHT,
    COLD_IDEA,
    LINE,
    PAGE,
    TRACKING_IDEA,
    WHICH_VOLTS,
    WINDOW_IDEA,
    WORDS,
)
from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.charging import CONTROLLER, SET_POINTS
from offgrid_core.sizing.controller_teaching import CONTROLLER_RULES
from offgrid_core.sizing.cost import array_cost, controllers_cost
from offgrid_core.worksheet import Sheet

_OF_VOLTS = ("string_voc_cold_v", "string_vmp_hot_v", "cold_voltage_margin_v", "hot_voltage_margin_v")
#: One controller of a table, judged: the cold morning, the hot day, the amps.
_CONTROLLERS = Sheet(
    SET_POINTS["start_voltage_v"],
    *(ARRAY_LAYOUT[n] for n in _OF_VOLTS),
    *(CONTROLLER[n] for n in ("charge_current_a", "strings_each_count", "controller_each_a")),
    CONTROLLER["controller_each_margin_a"],
    controllers_cost,
)
#: One layout of modules of a table, judged: the cold morning, the hot day, the watts.
_LAYOUTS = Sheet(
    *(ARRAY_LAYOUT[n] for n in _OF_VOLTS),
    *(ARRAY_LAYOUT[n] for n in ("modules_count", "array_w", "array_margin_w")),
    array_cost,
)
_COLD = "What does a whole row come to on the coldest morning?"
_HOT = "On the hottest day, does a whole row still reach what charging needs?"


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (_slip(), _drawing(), _pick(), _pick_modules())


def _slip() -> Slot:
    return Slip(
        id="L08-slip",
        title="Find the slip",
        statement="Somebody worked a mountain hut's controllers: {cells_count} cells at {battery_temp_c}, "
        "{absorb_cell_v} and {compensation_mv_k} each, {controller_headroom_v} on top; {modules_in_series_count} "
        "modules in a row, {module_voc_v} open and {module_vmp_v} working, {voc_temp_per_k} and {power_temp_per_k}; "
        "{air_coldest_c} on the coldest morning, {cell_hottest_c} in the hottest cell; controllers for "
        "{controller_voltage_max_v} and {controller_rated_a}, {controller_factor} for bright sun; {array_w} at "
        "{bank_voltage_v}. Find the first line that goes wrong, if there is one, and give its right value.",
        hint=LINE,
        principle=f"{COLD_IDEA} {WINDOW_IDEA} {TRACKING_IDEA}",
        sheet=PAGE,
        given={"bank_voltage_v": 48, "cells_count": 24, **BRIGHT},
        grids={
            "battery_temp_c": (-8, -5),
            "absorb_cell_v": (2.41, 2.45),
            "compensation_mv_k": (-4, -5),
            "controller_headroom_v": (4, 5),
            "modules_in_series_count": (3, 4),
            "module_voc_v": (38.4, 40.1, 41.2),
            "module_vmp_v": (31.5, 33.0, 34.2),
            "voc_temp_per_k": (-0.0029, -0.0032),
            "power_temp_per_k": (-0.0037, -0.0041),
            "air_coldest_c": (-15, -19, -24),
            "cell_hottest_c": (56, 61),
            "controller_voltage_max_v": (190, 240),
            "controller_rated_a": (55, 70),
            "array_w": (4100, 4700, 5200),
        },
        curated={
            "battery_temp_c": -8,
            "absorb_cell_v": 2.45,
            "compensation_mv_k": -5,
            "controller_headroom_v": 4,
            "modules_in_series_count": 3,
            "module_voc_v": 38.4,
            "module_vmp_v": 31.5,
            "voc_temp_per_k": -0.0032,
            "power_temp_per_k": -0.0041,
            "air_coldest_c": -24,
            "cell_hottest_c": 61,
            "controller_voltage_max_v": 240,
            "controller_rated_a": 70,
            "array_w": 4100,
        },
        mistakes=("TE-14", "CC-01", "CC-03", "CC-04", "CC-10", "CC-14", "CC-18", "CC-25"),
        words=WORDS,
    )


def _drawing() -> Slot:
    return Drawing(
        id="L08-drawing",
        title="Check the drawing",
        statement="A colleague drew three rows of modules, a disconnect, and one tracking controller. Judge each rule "
        "by what stands on the drawing; where a number is missing, say so. Then change one thing for the better.",
        hint="Which numbers does the rule compare, and are all of them on the drawing?",
        principle="The cold morning is held against the controller and against every device on the array. Rows are "
        "equally long. The amps are those of the battery's side.",
        sheet=CONTROLLER_RULES,
        rows=("row 1", "row 2", "row 3"),
        given={"power_temp_per_k": -0.0037, **BRIGHT},
        grids={
            "modules_in_series_count": (3,),
            "module_voc_v": (38.4, 40.1, 41.2),
            "voc_temp_per_k": (-0.0029, -0.0031),
            "air_coldest_c": (-12, -18, -22),
            "controller_voltage_max_v": (150, 190),
            "module_vmp_v": (31.5, 33.0, 34.2),
            "cell_hottest_c": (56, 62),
            "start_voltage_v": (66.5, 68.1),
            "disconnect_dc_v": (160, 250, 600),
            "modules_by_row_count": ((3, 3, 3),),
            "controller_rated_a": (90, 100),
            "controller_each_a": (54, 61, 67),
            "charge_current_a": (54, 61, 67),
            "bank_ah": (620, 760),
            "charge_rate_max_per_h": (0.13, 0.15),
        },
        curated={
            "modules_in_series_count": 3,
            "module_voc_v": 40.1,
            "voc_temp_per_k": -0.0029,
            "air_coldest_c": -18,
            "controller_voltage_max_v": 150,
            "module_vmp_v": 33.0,
            "cell_hottest_c": 56,
            "start_voltage_v": 68.1,
            "disconnect_dc_v": 250,
            "modules_by_row_count": (3, 3, 3),
            "controller_rated_a": 90,
            "controller_each_a": 61,
            "charge_current_a": 61,
            "bank_ah": 760,
            "charge_rate_max_per_h": 0.13,
            "batch": 0,
        },
        changes={
            "cold_voltage_margin_v": ("controller_voltage_max_v", (110, 120)),
            "disconnect_margin_v": ("disconnect_dc_v", (60, 125)),
            "hot_voltage_margin_v": ("start_voltage_v", (96, 104)),
            "string_length_margin_by_row_count.1": ("modules_by_row_count.1", (2, 4)),
            "string_length_margin_by_row_count.2": ("modules_by_row_count.2", (2, 4)),
            "string_length_margin_by_row_count.3": ("modules_by_row_count.3", (1, 2)),
            "controller_each_margin_a": ("controller_rated_a", (55, 60)),
            "charge_ceiling_margin_a": ("bank_ah", (210, 310)),
        },
        can_change={
            "controller_voltage_max_v": (50, 1000),
            "start_voltage_v": (60, 120),
            "disconnect_dc_v": (12, 1000),
            "modules_by_row_count": (1, 6),
            "controller_rated_a": (10, 200),
            "bank_ah": (100, 3000),
        },
        left_out={"disconnect_dc_v": 1, "air_coldest_c": -70, "controller_rated_a": 1, "bank_ah": 1},
        words={
            "string_voc_cold_v": WORDS["string_voc_cold_v"],
            "start_voltage_v": WORDS["start_voltage_v"],
            "cell_hottest_c": WORDS["cell_hottest_c"],
            "controller_each_a": "charging current of the controller",
            "charge_current_a": "charging current of the bank",
            "bank_ah": "bank as built",
            "modules_in_series_count": "modules in a row, as the sums have it",
        },
    )


def _pick() -> Slot:
    return Pick(
        id="L08-pick",
        title="Pick a charge controller",
        statement="A border post gets a second bank of {bank_voltage_v}, charged up to {absorb_set_v}, and an array of "
        "{array_w}: {array_strings_count} rows of {modules_in_series_count} modules, {module_voc_v} open and "
        "{module_vmp_v} working, {voc_temp_per_k} on the open voltage and {power_temp_per_k} on the working one. "
        "Coldest morning {air_coldest_c}, hottest cell {cell_hottest_c}. One tracking controller takes it all, with "
        "{controller_factor} for bright sun. Which is the cheapest that keeps every limit? Costs are invented.",
        hint=WHICH_VOLTS,
        principle=f"{COLD_IDEA} {TRACKING_IDEA}",
        sheet=_CONTROLLERS,
        given={
            "bank_voltage_v": 48,
            "modules_in_series_count": 2,
            "array_strings_count": 3,
            "controllers_count": 1,
            "voc_temp_per_k": -0.0029,
            "power_temp_per_k": -0.0037,
            **BRIGHT,
        },
        grids={
            "absorb_set_v": (61.2, 62.8),
            "array_w": (1920, 2190),
            "module_voc_v": (45.4, 46.8, 48.2),
            "module_vmp_v": (38.4, 39.2, 40.1),
            "air_coldest_c": (-15, -21, -27),
            "cell_hottest_c": (56, 62),
        },
        curated={
            "absorb_set_v": 62.8,
            "array_w": 1920,
            "module_voc_v": 46.8,
            "module_vmp_v": 39.2,
            "air_coldest_c": -27,
            "cell_hottest_c": 56,
            "batch": 0,
        },
        parts={
            "controller_voltage_max_v": (90, 98, 113, 118, 140, 190),
            "controller_rated_a": (35, 45, 55, 65, 75),
            "controller_headroom_v": (2, 3, 4, 11, 14),
            "controller_cost": (240, 310, 380, 470, 560, 690),
        },
        cost="controllers_cost",
        questions={
            "cold_voltage_margin_v": _COLD,
            "hot_voltage_margin_v": "What must the row give beside the charging voltage, for this controller to work?",
            "controller_each_margin_a": "What does the battery get in full sun, and how bright is a cloud's edge?",
        },
        words={"absorb_set_v": WORDS["absorb_set_v"], "cell_hottest_c": WORDS["cell_hottest_c"]},
    )


def _pick_modules() -> Slot:
    return Pick(
        id="L08-pick-2",
        title="Pick modules for a controller",
        statement="At a hill school a controller is there already: it takes at most {controller_voltage_max_v}. To "
        "charge it needs {start_voltage_v} from the array, and {array_needed_w} are asked for. Coldest morning "
        "{air_coldest_c}, hottest cell {cell_hottest_c}; open voltage {voc_temp_per_k}, working voltage "
        "{power_temp_per_k}. Dealers offer whole sets. Which is the cheapest that keeps every limit? Costs are "
        "invented.",
        hint="What does one whole row of this set come to, in the cold and in the heat?",
        principle=f"{WINDOW_IDEA} The label alone says neither.",
        sheet=_LAYOUTS,
        given={"voc_temp_per_k": -0.003, "power_temp_per_k": -0.0039},
        grids={
            "controller_voltage_max_v": (98, 116, 142),
            "start_voltage_v": (33.6, 34.8),
            "array_needed_w": (1480, 1720, 1950),
            "air_coldest_c": (9, 13),
            "cell_hottest_c": (73, 78),
        },
        curated={
            "controller_voltage_max_v": 142,
            "start_voltage_v": 33.6,
            "array_needed_w": 1720,
            "air_coldest_c": 13,
            "cell_hottest_c": 78,
            "batch": 0,
        },
        parts={
            "modules_in_series_count": (1, 2, 3, 4),
            "array_strings_count": (2, 3, 4),
            "module_w": (280, 320, 365, 440),
            "module_voc_v": (38.4, 40.1, 44.8, 49.4),
            "module_vmp_v": (31.5, 33.0, 35.1),
            "module_cost": (190, 230, 250, 300),
        },
        cost="array_cost",
        questions={
            "cold_voltage_margin_v": _COLD,
            "hot_voltage_margin_v": _HOT,
            "array_margin_w": "How many watts do all modules of this set come to?",
        },
        words={n: WORDS[n] for n in ("start_voltage_v", "cell_hottest_c", "array_strings_count")}
        | {"array_needed_w": "array needed"},
    )
