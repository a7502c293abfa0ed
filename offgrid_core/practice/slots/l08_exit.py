"""Exit quiz of the controller lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_exit_amps_more import AMPS
from offgrid_core.practice.slots.l08_exit_more import OTHERS
from offgrid_core.practice.slots.l08_exit_page_more import PAGES
from offgrid_core.practice.slots.l08_sheets_more import (
    BRIGHT,
    COLD,
    DIRECT,
    FROM_MODULES,
    LINE,
    PASSES,
    SIDE,
    SPAN,
    TRACKING,
    WHICH_VOLTS,
    WINDOW,
    WORDS,
)
from offgrid_core.worksheet import Sheet

_OTHERS = {**OTHERS, **AMPS, **PAGES}


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz; the first two ask for the rules that keep people and controllers whole."""
    return (
        Work(
            id="L08-exit-1",
            others=_OTHERS["L08-exit-1"],
            title="A winter morning on the pass",
            statement="A toll house plans {modules_in_series_count} modules in each row. A label says {module_voc_v} "
            "open and {voc_temp_per_k}; the coldest morning has {air_coldest_c}. To what voltage does a row rise, and "
            "how far below the controller's {controller_voltage_max_v} does it stay?",
            hint=WHICH_VOLTS,
            sheet=COLD,
            grids={
                "modules_in_series_count": (2, 3, 4),
                "module_voc_v": (37.9, 38.9, 40.6, 41.4),
                "voc_temp_per_k": (-0.0028, -0.0031, -0.0034),
                "air_coldest_c": (-15, -18, -22),
                "controller_voltage_max_v": (150, 190, 240),
            },
            curated={
                "modules_in_series_count": 3,
                "module_voc_v": 40.6,
                "voc_temp_per_k": -0.0031,
                "air_coldest_c": -18,
                "controller_voltage_max_v": 190,
            },
            mistakes=("CC-01", "CC-03", "CC-05"),
            words=WORDS,
            asked=tuple(map(Step, COLD)),
        ),
        Work(
            id="L08-exit-2",
            others=_OTHERS["L08-exit-2"],
            title="Between two limits",
            statement="A rescue post charges its {bank_voltage_v} bank up to {absorb_set_v}; the controller wants "
            "{controller_headroom_v} more than that, and at most {controller_voltage_max_v}. A module has "
            "{module_voc_v} open ({voc_temp_per_k}) and {module_vmp_v} working ({power_temp_per_k}). Morning "
            "{air_coldest_c}, hottest cell {cell_hottest_c}. Give the volts that charging needs, then the longest and "
            "the shortest row.",
            hint=WINDOW,
            sheet=SPAN,
            given={"bank_voltage_v": 48},
            grids={
                "absorb_set_v": (61.4, 62.2, 63.1),
                "controller_headroom_v": (4, 5),
                "controller_voltage_max_v": (190, 240, 310),
                "module_voc_v": (37.2, 38.9, 40.6),
                "voc_temp_per_k": (-0.0028, -0.0031),
                "module_vmp_v": (30.5, 31.9, 33.2),
                "power_temp_per_k": (-0.0036, -0.004),
                "air_coldest_c": (-15, -18, -22),
                "cell_hottest_c": (55, 59, 63),
            },
            curated={
                "absorb_set_v": 62.2,
                "controller_headroom_v": 4,
                "controller_voltage_max_v": 240,
                "module_voc_v": 38.9,
                "voc_temp_per_k": -0.0031,
                "module_vmp_v": 31.9,
                "power_temp_per_k": -0.0036,
                "air_coldest_c": -18,
                "cell_hottest_c": 59,
            },
            mistakes=("CC-10", "CC-11", "CC-13"),
            words=WORDS,
            asked=tuple(map(Step, SPAN)),
        ),
        Work(
            id="L08-exit-3",
            others=_OTHERS["L08-exit-3"],
            title="Amps for the hut",
            statement="Fell hut's roof carries {array_strings_count} rows of {modules_in_series_count} modules of "
            "{module_w}, each {module_vmp_v} working and {module_isc_a} short-circuit current. The bank is "
            "{bank_voltage_v}. Tracking controllers give {controller_rated_a} each; the amps needed are "
            "{controller_factor} times the charging current. Work down from the array to the number of controllers.",
            hint=SIDE,
            sheet=FROM_MODULES,
            given={"bank_voltage_v": 48, **BRIGHT},
            grids={
                "array_strings_count": (4, 5, 6),
                "modules_in_series_count": (2, 3),
                "module_w": (345, 380, 425),
                "module_vmp_v": (33.6, 35.1, 40.2),
                "module_isc_a": (10.4, 11.1, 11.6),
                "controller_rated_a": (45, 55, 65),
            },
            curated={
                "array_strings_count": 5,
                "modules_in_series_count": 3,
                "module_w": 380,
                "module_vmp_v": 35.1,
                "module_isc_a": 11.6,
                "controller_rated_a": 65,
            },
            mistakes=("CC-14", "CC-18", "CC-19", "CC-25"),
            words=WORDS,
            asked=tuple(map(Step, ("array_w", "charge_current_a", "controller_needed_a", "controllers_count"))),
        ),
        Work(
            id="L08-exit-4",
            others=_OTHERS["L08-exit-4"],
            title="A plain controller on the mast",
            statement="Gull mast charges a bank of {bank_voltage_v} through a direct controller. {array_strings_count} "
            "modules hang side by side, each {module_vmp_v} and {module_imp_a} working, {module_isc_a} shorted. "
            "Which share of their power gets through, which current flows in full sun, and which rating is needed, "
            "{controller_factor} times as much?",
            hint=PASSES,
            sheet=DIRECT,
            given={"bank_voltage_v": 12, "modules_in_series_count": 1, **BRIGHT},
            grids={
                "array_strings_count": (2, 3, 4),
                "module_vmp_v": (17.6, 18.1, 18.7),
                "module_imp_a": (2.79, 4.72, 7.95),
                "module_isc_a": (2.99, 5.05, 8.45),
            },
            curated={"array_strings_count": 3, "module_vmp_v": 18.1, "module_imp_a": 4.72, "module_isc_a": 5.05},
            mistakes=("CC-14", "CC-15", "CC-16", "CC-22"),
            words=WORDS,
            asked=tuple(map(Step, DIRECT)),
        ),
        Choose(
            id="L08-exit-5",
            others=_OTHERS["L08-exit-5"],
            title="Measured on a warm afternoon",
            statement="On a warm afternoon somebody measures 126 V across the open row of the cabin. The controller "
            "takes 140 V. Fourteen volts to spare, says the helper: join it. What is your answer?",
            hint=WHICH_VOLTS,
            options=(
                Option(
                    "wait: on the coldest morning the same row stands higher, so work that out first",
                    "Forty-five kelvins colder, 126 V become more than 140.",
                    right=True,
                ),
                Option("join it: in the cold the voltage can only fall", mistake="CC-01"),
                Option("join it: the highest voltage of the year comes on such warm days", mistake="CC-02"),
                Option("join it: while charging the row works far below that", mistake="CC-04"),
            ),
        ),
        Slip(
            id="L08-exit-6",
            others=_OTHERS["L08-exit-6"],
            title="A page for the inn",
            statement="New controllers for a mountain inn, line by line: {modules_in_series_count} modules in a row of "
            "{module_voc_v} open and {module_vmp_v} working, {voc_temp_per_k} and {power_temp_per_k}; "
            "{air_coldest_c} outside, {cell_hottest_c} in the cell; {start_voltage_v} wanted for charging, "
            "{controller_voltage_max_v} allowed; {array_w} at {bank_voltage_v}, {controller_factor} for bright sun, "
            "{controller_rated_a} each. Find the first line that goes wrong, if there is one, and mend it.",
            hint=LINE,
            sheet=COLD + Sheet(SPAN["series_most_count"], SPAN["series_fewest_count"]) + TRACKING,
            given={"bank_voltage_v": 24, **BRIGHT},
            grids={
                "modules_in_series_count": (2, 3),
                "module_voc_v": (37.4, 39.6, 41.2),
                "module_vmp_v": (30.9, 32.5, 34.1),
                "voc_temp_per_k": (-0.0029, -0.0033),
                "power_temp_per_k": (-0.0037, -0.0041),
                "air_coldest_c": (-21, -27),
                "cell_hottest_c": (59, 65),
                "start_voltage_v": (33.4, 34.6),
                "controller_voltage_max_v": (150, 190),
                "array_w": (1950, 2240, 2630),
                "controller_rated_a": (55, 70),
            },
            curated={
                "modules_in_series_count": 3,
                "module_voc_v": 39.6,
                "module_vmp_v": 32.5,
                "voc_temp_per_k": -0.0029,
                "power_temp_per_k": -0.0037,
                "air_coldest_c": -27,
                "cell_hottest_c": 65,
                "start_voltage_v": 34.6,
                "controller_voltage_max_v": 190,
                "array_w": 2240,
                "controller_rated_a": 70,
            },
            mistakes=("CC-01", "CC-03", "CC-05", "CC-10", "CC-14", "CC-18"),
            words=WORDS,
        ),
    )
