"""Problems of the controller lesson; what is judged, and what is mixed in from earlier lessons, stands beside it."""

from offgrid_core.practice.kinds import Backwards, Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l08_judge_more import judge
from offgrid_core.practice.slots.l08_mixed_more import mixed
from offgrid_core.practice.slots.l08_open_more import open_ones
from offgrid_core.practice.slots.l08_sheets_more import (
    BRIGHT,
    COLD,
    COLD_IDEA,
    DIRECT,
    DIRECT_IDEA,
    FROM_MODULES,
    HOT,
    PASSES,
    SIDE,
    SPAN,
    TRACKING,
    TRACKING_IDEA,
    WHICH_VOLTS,
    WINDOW,
    WINDOW_IDEA,
    WORDS,
)
from offgrid_core.worksheet import Sheet

#: What is left to each limit, worked when both voltages are.
_MARGINS = ("cold_voltage_margin_v", "hot_voltage_margin_v")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    entry = entry_check("L08", *practice[:4])
    return (*open_ones(), _guess(), *entry, _explore(), *_faded(), *practice, *mixed(), *judge())


def _guess() -> Slot:
    return Guess(
        id="L08-guess",
        title="Guess, then lock it",
        statement="The array of Fell hut comes to {array_w}, its bank to {bank_voltage_v}. How many amps must the "
        "charge controllers together be able to give?",
        hint="How many amps are so many watts at the bank's voltage, and how bright can a cloud edge be?",
        principle=TRACKING_IDEA,
        sheet=TRACKING.upto("controller_needed_a"),
        given=BRIGHT,
        curated={"array_w": 4400, "bank_voltage_v": 48},
        starts_curated=True,
        words=WORDS,
        step=Step("controller_needed_a"),
    )


def _explore() -> Slot:
    return Rise(
        id="L08-explore",
        title="Predict, then slide",
        statement="{modules_in_series_count} of the cabin's modules stand in one row, each {module_voc_v} on its "
        "label, at a controller that takes at most {controller_voltage_max_v}. On a mild morning of {air_coldest_c}, "
        "before any current flows, the row stands well below that. What becomes of the margin below the limit on the "
        "coldest morning, {air_coldest_after_c}?",
        hint="Do cold cells give more volts, or fewer?",
        principle=COLD_IDEA,
        sheet=COLD,
        given={
            "modules_in_series_count": 3,
            "module_voc_v": 40.1,
            "voc_temp_per_k": -0.0029,
            "controller_voltage_max_v": 140,
        },
        curated={"air_coldest_c": 15, "air_coldest_after_c": -27},
        starts_curated=True,
        words=WORDS | {"cold_voltage_margin_v": "margin below the limit"},
        result="cold_voltage_margin_v",
        moved="air_coldest_c",
        after="air_coldest_after_c",
        reasons=(
            Option(
                "cold cells give more volts, and in a row the volts of all three rise together",
                "Each kelvin adds only a little. Over forty kelvins, and three modules, it is most of what was spare.",
                right=True,
            ),
            Option("cold makes the voltage fall, so there is more room", mistake="CC-01"),
            Option("the label's voltage is the highest a module ever gives", mistake="CC-03"),
            Option("a working module stays at its working voltage, whatever the cold", mistake="CC-04"),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-faded-1",
            title="Faded: the first two lines are yours",
            statement="At a rescue post {modules_in_series_count} modules stand in a row, {array_strings_count} rows "
            "side by side. A label says {module_voc_v} open, {module_vmp_v} working, and {voc_temp_per_k} on the open "
            "voltage, {power_temp_per_k} on the working one. The coldest morning has {air_coldest_c}, the hottest cell "
            "{cell_hottest_c}. The controller takes {controller_voltage_max_v}; charging needs {start_voltage_v}.",
            hint=WHICH_VOLTS,
            principle=COLD_IDEA,
            sheet=Sheet(*((COLD + HOT)[n] for n in ("string_voc_cold_v", "string_vmp_hot_v", *_MARGINS))),
            given={"power_temp_per_k": -0.0037, "cell_hottest_c": 56, "start_voltage_v": 67.8},
            grids={
                "modules_in_series_count": (3, 4),
                "array_strings_count": (2, 5),
                "module_voc_v": (37.9, 38.6, 40.4, 41.2),
                "module_vmp_v": (31.2, 32.4, 33.1),
                "voc_temp_per_k": (-0.0029, -0.0032),
                "air_coldest_c": (-15, -18, -22),
                "controller_voltage_max_v": (150, 190, 240),
            },
            curated={
                "modules_in_series_count": 3,
                "array_strings_count": 5,
                "module_voc_v": 41.2,
                "module_vmp_v": 33.1,
                "voc_temp_per_k": -0.0029,
                "air_coldest_c": -15,
                "controller_voltage_max_v": 150,
            },
            mistakes=("CC-01", "CC-03", "CC-04", "CC-05", "CC-06", "CC-07", "CC-08"),
            words=WORDS,
            asked=(Step("string_voc_cold_v"), Step("string_vmp_hot_v")),
            filled=(Step("cold_voltage_margin_v"), Step("hot_voltage_margin_v")),
        ),
        Work(
            id="L08-faded-2",
            title="Faded: all but the last line are yours",
            statement="A rescue post's bank of {bank_voltage_v} is charged up to {absorb_set_v}, and the controller "
            "wants {controller_headroom_v} on top. A module says {module_voc_v} open and {module_vmp_v} working, with "
            "{voc_temp_per_k} on the open voltage and {power_temp_per_k} on the working one. It is {air_coldest_c} on "
            "the coldest morning, {cell_hottest_c} in the hottest cell; the controller takes "
            "{controller_voltage_max_v}. The array comes to {array_w}, and {controller_factor} is for bright sun.",
            hint=WINDOW,
            principle=f"{WINDOW_IDEA} {TRACKING_IDEA}",
            sheet=SPAN + TRACKING.upto("controller_needed_a"),
            given={"bank_voltage_v": 48, **BRIGHT, "modules_in_series_count": 4},
            grids={
                "absorb_set_v": (61.2, 62.4, 63.6),
                "controller_headroom_v": (4, 5),
                "module_voc_v": (37.9, 39.4, 40.8),
                "module_vmp_v": (31.2, 32.4, 33.1),
                "voc_temp_per_k": (-0.0029, -0.0032),
                "power_temp_per_k": (-0.0037, -0.0041),
                "air_coldest_c": (-15, -18, -22),
                "cell_hottest_c": (56, 61),
                "controller_voltage_max_v": (190, 240),
                "array_w": (4200, 4700, 5100),
            },
            curated={
                "absorb_set_v": 61.2,
                "controller_headroom_v": 5,
                "module_voc_v": 39.4,
                "module_vmp_v": 32.4,
                "voc_temp_per_k": -0.0032,
                "power_temp_per_k": -0.0041,
                "air_coldest_c": -15,
                "cell_hottest_c": 61,
                "controller_voltage_max_v": 240,
                "array_w": 4200,
            },
            mistakes=("CC-10", "CC-11", "CC-13", "CC-18"),
            words=WORDS,
            asked=(*map(Step, SPAN), Step("charge_current_a")),
            filled=(Step("controller_needed_a"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-1",
            title="A row on a cold morning",
            statement="{modules_in_series_count} modules in a row, {array_strings_count} rows side by side, at a "
            "controller for {controller_voltage_max_v}. A label says {module_voc_v} open and {module_vmp_v} working, "
            "with {voc_temp_per_k} on the open voltage and {power_temp_per_k} on the working one. The coldest bright "
            "morning has {air_coldest_c}, the hottest cell {cell_hottest_c}. What voltage does the controller meet, "
            "how much is to spare, and what is left of the working voltage in the heat?",
            hint=WHICH_VOLTS,
            principle=COLD_IDEA,
            sheet=COLD + Sheet(HOT["string_vmp_hot_v"]),
            grids={
                "power_temp_per_k": (-0.0037, -0.0041),
                "cell_hottest_c": (57, 63),
                "modules_in_series_count": (2, 3, 4),
                "array_strings_count": (2, 3, 4, 5),
                "module_voc_v": (44.8, 46.0, 47.5, 49.4),
                "module_vmp_v": (36.8, 37.6, 38.9),
                "voc_temp_per_k": (-0.0027, -0.003, -0.0033),
                "air_coldest_c": (-12, -17, -21, -26),
                "controller_voltage_max_v": (140, 190, 240),
            },
            curated={
                "power_temp_per_k": -0.0037,
                "cell_hottest_c": 57,
                "modules_in_series_count": 3,
                "array_strings_count": 2,
                "module_voc_v": 47.5,
                "module_vmp_v": 38.9,
                "voc_temp_per_k": -0.003,
                "air_coldest_c": -21,
                "controller_voltage_max_v": 190,
            },
            mistakes=("CC-01", "CC-03", "CC-04", "CC-05", "CC-06", "CC-07", "CC-08"),
            words=WORDS,
            asked=(*map(Step, COLD), Step("string_vmp_hot_v")),
        ),
        Work(
            id="L08-3",
            title="How long may a row be?",
            statement="A bank of {bank_voltage_v} is charged up to {absorb_set_v}; the controller wants "
            "{controller_headroom_v} above that and takes at most {controller_voltage_max_v}. A module: "
            "{module_voc_v} open, {module_vmp_v} working, {voc_temp_per_k} on the open voltage, {power_temp_per_k} on "
            "the working one. Coldest morning {air_coldest_c}, hottest cell {cell_hottest_c}. What does charging need, "
            "and how many modules may a row have, at most and at least? Then check: to what does a row of "
            "{modules_in_series_count} rise in the cold?",
            hint=WINDOW,
            principle=WINDOW_IDEA,
            sheet=SPAN + Sheet(COLD["string_voc_cold_v"]),
            given={"bank_voltage_v": 48, "modules_in_series_count": 3},
            grids={
                "absorb_set_v": (60.8, 61.6, 62.6),
                "controller_headroom_v": (3, 4, 5, 6),
                "controller_voltage_max_v": (140, 190, 240, 310),
                "module_voc_v": (37.6, 38.4, 39.2, 40.1, 41.2),
                "module_vmp_v": (30.8, 31.5, 32.3, 33.0),
                "voc_temp_per_k": (-0.0029, -0.0033),
                "power_temp_per_k": (-0.0037, -0.0042),
                "air_coldest_c": (-14, -20, -25),
                "cell_hottest_c": (58, 64, 69),
            },
            curated={
                "absorb_set_v": 62.6,
                "controller_headroom_v": 4,
                "controller_voltage_max_v": 240,
                "module_voc_v": 38.4,
                "module_vmp_v": 32.3,
                "voc_temp_per_k": -0.0033,
                "power_temp_per_k": -0.0037,
                "air_coldest_c": -20,
                "cell_hottest_c": 64,
            },
            mistakes=("CC-09", "CC-11", "CC-26"),
            words=WORDS,
            asked=(*map(Step, SPAN), Step("string_voc_cold_v")),
        ),
        Work(
            id="L08-4",
            title="Amps for Riverbend",
            statement="On Riverbend's roof stand {array_strings_count} rows of {modules_in_series_count} modules, "
            "{module_w} each; a label says {module_vmp_v} working and {module_isc_a} short-circuit current. Tracking "
            "controllers of {controller_rated_a} charge the bank of {bank_voltage_v}; for bright cloud edges they are "
            "chosen {controller_factor} times as large. Work out the array, the charging current, the amps needed, and "
            "the number of controllers.",
            hint=SIDE,
            principle=TRACKING_IDEA,
            sheet=FROM_MODULES,
            given={"bank_voltage_v": 24, **BRIGHT},
            grids={
                "array_strings_count": (3, 4, 5),
                "modules_in_series_count": (2, 3),
                "module_w": (280, 320, 365),
                "module_vmp_v": (31.5, 33.0, 34.2),
                "module_isc_a": (9.42, 10.2, 11.2),
                "controller_rated_a": (40, 55, 70, 90),
            },
            curated={
                "array_strings_count": 4,
                "modules_in_series_count": 2,
                "module_w": 320,
                "module_vmp_v": 33.0,
                "module_isc_a": 10.2,
                "controller_rated_a": 55,
            },
            mistakes=("CC-14", "CC-18", "CC-19", "CC-20", "CC-25"),
            words=WORDS,
            asked=tuple(map(Step, ("array_w", *TRACKING))),
        ),
        Work(
            id="L08-7",
            title="Straight through",
            statement="A direct controller charges a bank of {bank_voltage_v}. {array_strings_count} rows of "
            "{modules_in_series_count} modules feed it; a label says {module_vmp_v} and {module_imp_a} working, "
            "{module_isc_a} short-circuit current. Which share of the modules' power is passed on, what current flows "
            "at full sun, and for how many amps is the controller chosen, with {controller_factor} for bright sun?",
            hint=PASSES,
            principle=DIRECT_IDEA,
            sheet=DIRECT,
            given=BRIGHT,
            grids={
                "bank_voltage_v": (24, 48),
                "array_strings_count": (3, 4, 5),
                "modules_in_series_count": (2, 4),
                "module_vmp_v": (17.8, 18.2, 18.8),
                "module_imp_a": (4.72, 5.49, 8.15),
                "module_isc_a": (5.05, 5.87, 8.64),
            },
            curated={
                "bank_voltage_v": 24,
                "array_strings_count": 3,
                "modules_in_series_count": 2,
                "module_vmp_v": 18.2,
                "module_imp_a": 5.49,
                "module_isc_a": 5.87,
            },
            mistakes=("CC-14", "CC-15", "CC-16", "CC-17", "CC-22"),
            words=WORDS,
            asked=tuple(map(Step, DIRECT)),
        ),
        Backwards(
            id="L08-6",
            title="What may the label say?",
            statement="A controller takes {controller_voltage_max_v}. On the roof {modules_in_series_count} modules "
            "are to stand in each of {array_strings_count} rows, and the coldest bright morning has {air_coldest_c}. "
            "Modules of this kind change by {voc_temp_per_k}. What may the label of one say at most, as its "
            "open-circuit voltage?",
            hint="If a label says that much, what does the whole row come to on the coldest morning?",
            principle=COLD_IDEA,
            sheet=COLD.upto("string_voc_cold_v"),
            grids={
                "controller_voltage_max_v": (90, 140, 190, 240),
                "modules_in_series_count": (2, 3, 4),
                "array_strings_count": (2, 3, 4, 5),
                "air_coldest_c": (-12, -18, -24, -29),
                "voc_temp_per_k": (-0.0027, -0.003, -0.0033),
            },
            curated={
                "controller_voltage_max_v": 140,
                "modules_in_series_count": 3,
                "array_strings_count": 2,
                "air_coldest_c": -24,
                "voc_temp_per_k": -0.003,
            },
            mistakes=("CC-01", "CC-03", "CC-05", "CC-07", "CC-08"),
            words=WORDS,
            unknown="module_voc_v",
            span=(1, 500),
            result="string_voc_cold_v",
            wanted="controller_voltage_max_v",
        ),
    )
