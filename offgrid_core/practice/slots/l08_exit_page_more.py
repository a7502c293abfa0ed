"""Other pages with a slip, for the exit quiz of the controller lesson."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_sheets_more import BRIGHT, COLD, DIRECT, LINE, PAGE, SPAN, TRACKING, WORDS
from offgrid_core.worksheet import Sheet


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L08-exit-6",
            title="The school's controllers",
            statement="A desert school's sums, as found: {cells_count} cells at {battery_temp_c}, {absorb_cell_v} and "
            "{compensation_mv_k} per cell, plus {controller_headroom_v}. A line of {modules_in_series_count} modules; "
            "labels {module_voc_v} / {module_vmp_v}, {voc_temp_per_k} / {power_temp_per_k}. Dawn {air_coldest_c}, "
            "cells {cell_hottest_c}. Ceiling {controller_voltage_max_v}. Array {array_w}, bank {bank_voltage_v}, "
            "margin {controller_factor}, boxes of {controller_rated_a}. Where is the first slip, if any, and what "
            "belongs there?",
            hint=LINE,
            sheet=PAGE,
            given={"bank_voltage_v": 24, "cells_count": 12, **BRIGHT},
            grids={
                "battery_temp_c": (40, 43, 46),
                "absorb_cell_v": (2.35, 2.37),
                "compensation_mv_k": (-5, -6),
                "controller_headroom_v": (4, 5),
                "modules_in_series_count": (2, 3),
                "module_voc_v": (38.2, 39.8, 41.5),
                "module_vmp_v": (30.7, 32.2, 33.9),
                "voc_temp_per_k": (-0.0029, -0.0032),
                "power_temp_per_k": (-0.0037, -0.0041),
                "air_coldest_c": (2, 4),
                "cell_hottest_c": (71, 77),
                "controller_voltage_max_v": (140, 190),
                "controller_rated_a": (55, 70),
                "array_w": (1860, 2170, 2440),
            },
            curated={
                "battery_temp_c": 43,
                "absorb_cell_v": 2.37,
                "compensation_mv_k": -6,
                "controller_headroom_v": 5,
                "modules_in_series_count": 2,
                "module_voc_v": 39.8,
                "module_vmp_v": 32.2,
                "voc_temp_per_k": -0.0029,
                "power_temp_per_k": -0.0037,
                "air_coldest_c": 2,
                "cell_hottest_c": 71,
                "controller_voltage_max_v": 190,
                "controller_rated_a": 55,
                "array_w": 1860,
            },
            mistakes=("TE-14", "CC-03", "CC-05", "CC-10", "CC-14", "CC-18"),
            words=WORDS,
        ),
        Slip(
            id="L08-exit-6",
            title="Straight to the battery",
            statement="Somebody rated a direct controller: {array_strings_count} rows, {modules_in_series_count} "
            "modules in each, {module_vmp_v}, {module_imp_a}, {module_isc_a} on the sticker, battery {bank_voltage_v}, "
            "{controller_factor} to allow for bright sun. Check from the top which line is off first, if one is, and "
            "write what it should say.",
            hint=LINE,
            sheet=DIRECT,
            given={"bank_voltage_v": 24, "modules_in_series_count": 2, **BRIGHT},
            grids={
                "array_strings_count": (3, 4, 5),
                "module_vmp_v": (17.8, 18.3, 18.8),
                "module_imp_a": (5.39, 7.61, 9.13),
                "module_isc_a": (5.94, 8.39, 10.07),
            },
            curated={"array_strings_count": 3, "module_vmp_v": 18.3, "module_imp_a": 7.61, "module_isc_a": 8.39},
            mistakes=("CC-14", "CC-15", "CC-17", "CC-22"),
            words=WORDS,
        ),
        Slip(
            id="L08-exit-6",
            title="A dealer's sheet",
            statement="From a dealer, for a forester: {modules_in_series_count} of type {module_voc_v} / "
            "{module_vmp_v} ({voc_temp_per_k}) against {controller_voltage_max_v} at {air_coldest_c}; "
            "{array_strings_count} strings; {array_w} into {bank_voltage_v} with reserve {controller_factor}, "
            "delivered as units of {controller_rated_a}. Before anybody signs: does a line go astray, which one comes "
            "first, and how should it read?",
            hint=LINE,
            sheet=COLD + Sheet(SPAN["series_most_count"]) + TRACKING,
            given={"bank_voltage_v": 48, **BRIGHT},
            grids={
                "modules_in_series_count": (3, 4),
                "array_strings_count": (2, 5),
                "module_voc_v": (38.7, 40.4, 42.1),
                "module_vmp_v": (31.8, 33.3),
                "voc_temp_per_k": (-0.0029, -0.0033),
                "controller_voltage_max_v": (190, 240),
                "air_coldest_c": (-17, -20, -25),
                "array_w": (3900, 4500, 5100),
                "controller_rated_a": (55, 70),
            },
            curated={
                "modules_in_series_count": 3,
                "array_strings_count": 5,
                "module_voc_v": 42.1,
                "module_vmp_v": 33.3,
                "voc_temp_per_k": -0.0033,
                "controller_voltage_max_v": 190,
                "air_coldest_c": -25,
                "array_w": 3900,
                "controller_rated_a": 55,
            },
            mistakes=("CC-01", "CC-08", "CC-09", "CC-25"),
            words=WORDS,
        ),
    )


#: Id of the place -> its pages beside the first.
PAGES: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_pages(),)}
