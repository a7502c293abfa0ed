"""Other templates of the controller lesson's exit quiz: the volts of a row, and what is to be said of them."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Choose, Option, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_sheets_more import COLD, HOT, SPAN, WHICH_VOLTS, WINDOW, WORDS
from offgrid_core.worksheet import Sheet

_ROW = COLD.upto("string_voc_cold_v")


def _mornings() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-exit-1",
            title="The far north in January",
            statement="At a northern lodge {modules_in_series_count} panels are wired one behind the other. Each is "
            "marked {module_voc_v} with nothing joined, changing by {voc_temp_per_k} as it grows warmer. In January "
            "{air_coldest_c} was read at sunrise. Which voltage stands at the ends of the wires?",
            hint=WHICH_VOLTS,
            sheet=_ROW,
            grids={
                "modules_in_series_count": (2, 3, 4, 5),
                "module_voc_v": (36.8, 39.3, 41.9, 45.1),
                "voc_temp_per_k": (-0.0029, -0.0032),
                "air_coldest_c": (-24, -27, -30, -33),
            },
            curated={
                "modules_in_series_count": 3,
                "module_voc_v": 39.3,
                "voc_temp_per_k": -0.0029,
                "air_coldest_c": -27,
            },
            mistakes=("CC-01", "CC-03", "CC-05"),
            words=WORDS,
            asked=(Step("string_voc_cold_v"),),
        ),
        Backwards(
            id="L08-exit-1",
            title="Looking through a catalogue",
            statement="A radio hut's controller survives {controller_voltage_max_v}. Rows of {modules_in_series_count} "
            "are planned, out where a frosty dawn brings {air_coldest_c}. For a kind of module with {voc_temp_per_k}, "
            "up to which open-circuit voltage may you read on in the catalogue?",
            hint="If a label says that much, what does the whole row come to at dawn?",
            sheet=_ROW,
            grids={
                "controller_voltage_max_v": (52, 60, 90, 110),
                "modules_in_series_count": (2, 3, 4),
                "air_coldest_c": (-14, -16, -19),
                "voc_temp_per_k": (-0.003, -0.0033),
            },
            curated={
                "controller_voltage_max_v": 60,
                "modules_in_series_count": 2,
                "air_coldest_c": -16,
                "voc_temp_per_k": -0.003,
            },
            mistakes=("CC-01", "CC-03", "CC-05"),
            words=WORDS,
            unknown="module_voc_v",
            span=(1, 500),
            result="string_voc_cold_v",
            wanted="controller_voltage_max_v",
        ),
        Work(
            id="L08-exit-1",
            title="Both ends of the year",
            statement="A mountain inn hangs {modules_in_series_count} modules in line: {module_voc_v} open with "
            "{voc_temp_per_k}, {module_vmp_v} working with {power_temp_per_k}. Its thermometer has seen "
            "{air_coldest_c}; in July the cells reach {cell_hottest_c}. Work out the highest voltage of the year, and "
            "what the line works at in July.",
            hint=WHICH_VOLTS,
            sheet=_ROW + Sheet(HOT["string_vmp_hot_v"]),
            grids={
                "modules_in_series_count": (2, 3, 4),
                "module_voc_v": (44.2, 46.3, 48.8),
                "voc_temp_per_k": (-0.0028, -0.0033),
                "module_vmp_v": (36.5, 38.1, 40.4),
                "power_temp_per_k": (-0.0036, -0.0042),
                "air_coldest_c": (-19, -23, -28),
                "cell_hottest_c": (54, 60),
            },
            curated={
                "modules_in_series_count": 2,
                "module_voc_v": 46.3,
                "voc_temp_per_k": -0.0028,
                "module_vmp_v": 38.1,
                "power_temp_per_k": -0.0036,
                "air_coldest_c": -23,
                "cell_hottest_c": 60,
            },
            mistakes=("CC-01", "CC-03", "CC-05"),
            words=WORDS,
            asked=(Step("string_voc_cold_v"), Step("string_vmp_hot_v")),
        ),
    )


def _rows() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-exit-2",
            title="The longest row",
            statement="The cabin's controller must never see more than {controller_voltage_max_v}. Its modules are "
            "marked {module_voc_v} open circuit, {module_vmp_v} at work, {voc_temp_per_k}. Winter there goes down to "
            "{air_coldest_c}. How many of them can safely be strung together?",
            hint="With one more in the row, where does a January sunrise take it?",
            sheet=SPAN.upto("series_most_count"),
            grids={
                "controller_voltage_max_v": (190, 240, 280, 350, 410),
                "module_voc_v": (36.8, 39.3, 41.9),
                "module_vmp_v": (29.4, 31.3, 33.5),
                "voc_temp_per_k": (-0.0029, -0.0032),
                "air_coldest_c": (-24, -27, -30),
            },
            curated={
                "controller_voltage_max_v": 240,
                "module_voc_v": 39.3,
                "module_vmp_v": 31.3,
                "voc_temp_per_k": -0.0029,
                "air_coldest_c": -27,
            },
            mistakes=("CC-10", "CC-11"),
            words=WORDS,
            asked=(Step("series_most_count"),),
        ),
        Work(
            id="L08-exit-2",
            title="Heat decides too",
            statement="A school in the tropics: cells grow {cell_hottest_c} hot, no dawn is below {air_coldest_c}. "
            "{start_voltage_v} must arrive for the bank ({bank_voltage_v}) to fill, {controller_voltage_max_v} is the "
            "ceiling. Candidates have {module_vmp_v} working and {module_voc_v} open, {power_temp_per_k} and "
            "{voc_temp_per_k}. State the smallest and the largest number one behind another.",
            hint=WINDOW,
            sheet=Sheet(SPAN["series_fewest_count"], SPAN["series_most_count"]),
            given={"bank_voltage_v": 48},
            grids={
                "cell_hottest_c": (71, 75, 79),
                "air_coldest_c": (8, 11, 14),
                "start_voltage_v": (61.8, 63.4, 65.2),
                "controller_voltage_max_v": (190, 240, 290),
                "module_vmp_v": (30.1, 30.9, 31.8, 32.6),
                "module_voc_v": (37.7, 38.6, 39.9),
                "power_temp_per_k": (-0.0037, -0.0043),
                "voc_temp_per_k": (-0.0029, -0.0032),
            },
            curated={
                "cell_hottest_c": 71,
                "air_coldest_c": 11,
                "start_voltage_v": 63.4,
                "controller_voltage_max_v": 190,
                "module_vmp_v": 30.9,
                "module_voc_v": 38.6,
                "power_temp_per_k": -0.0037,
                "voc_temp_per_k": -0.0032,
            },
            mistakes=("CC-10", "CC-11", "CC-26"),
            words=WORDS,
            asked=(Step("series_fewest_count"), Step("series_most_count")),
        ),
        Work(
            id="L08-exit-2",
            title="Small modules, many in line",
            statement="For a relay on a hill somebody has a box of small modules: {module_voc_v} and {module_vmp_v} on "
            "each label, the first changing by {voc_temp_per_k}, the second by {power_temp_per_k}. A tracking box "
            "there must get {start_voltage_v} from a cell of {cell_hottest_c}, but may not get above "
            "{controller_voltage_max_v} at {air_coldest_c}. Between which two numbers does the row have to lie? Begin "
            "with the upper one.",
            hint=WINDOW,
            sheet=Sheet(SPAN["series_most_count"], SPAN["series_fewest_count"]),
            grids={
                "module_voc_v": (21.5, 22.1, 22.9),
                "module_vmp_v": (17.4, 18.0, 18.6),
                "voc_temp_per_k": (-0.003, -0.0033),
                "power_temp_per_k": (-0.0039, -0.0044),
                "start_voltage_v": (19.2, 34.1, 35.3),
                "cell_hottest_c": (55, 58, 62),
                "controller_voltage_max_v": (110, 140, 190),
                "air_coldest_c": (-9, -12, -15),
            },
            curated={
                "module_voc_v": 22.1,
                "module_vmp_v": 18.0,
                "voc_temp_per_k": -0.003,
                "power_temp_per_k": -0.0039,
                "start_voltage_v": 34.1,
                "cell_hottest_c": 62,
                "controller_voltage_max_v": 140,
                "air_coldest_c": -9,
            },
            mistakes=("CC-10", "CC-11", "CC-12"),
            words=WORDS,
            asked=(Step("series_most_count"), Step("series_fewest_count")),
        ),
    )


def _hazards() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L08-exit-5",
            title="A switch for the roof",
            statement="Between the row (up to 138 V DC in the cold) and the controller of a 24 V bank a disconnect is "
            "wanted. One lies on the bench, marked 250 V AC. May it be used?",
            hint="What puts an arc out, and what is there to put it out here?",
            options=(
                Option(
                    "no: it needs a DC rating above the cold-morning voltage",
                    "An AC mark says nothing of DC. Local code and a licensed person decide.",
                    right=True,
                ),
                Option("yes: 250 is more than 138, and volts are volts", mistake="OP-15"),
                Option("yes: it only has to stand the 24 V of the bank", mistake="OP-16"),
                Option("any DC switch above the 120 V of the labels will do", mistake="OP-17"),
            ),
        ),
        Choose(
            id="L08-exit-5",
            title="Which lead first?",
            statement="A licensed installer joins bank, controller and array at Riverbend. The maker's sheet says: "
            "battery first, array last, and the other way round when it comes apart. What is the reason the trade "
            "gives for that?",
            hint="Where can the array's current go while no battery is there?",
            options=(
                Option(
                    "with the battery there, the controller has volts to hold; the array cannot be switched off",
                    "The maker's own instructions decide for each controller.",
                    right=True,
                ),
                Option("until the battery is joined, the array has no voltage", "What switches daylight off?"),
                Option("so that the array's cold-morning voltage falls", mistake="CC-01"),
                Option(
                    "it is only the order of the terminals",
                    "What does a controller meet that has an array and no bank?",
                ),
            ),
        ),
        Choose(
            id="L08-exit-5",
            title="One morning in ten years",
            statement="A row of three stands at 138 V on the coldest morning of an ordinary year; the controller takes "
            "140 V. The oldest neighbour remembers a dawn six kelvins colder. Is that row to be built?",
            hint="What does a limit ask of the one worst minute of all those years?",
            options=(
                Option(
                    "no: on that one dawn it passes the limit, and once is enough",
                    "A ceiling holds on every morning. Two in a row, or a controller for more volts.",
                    right=True,
                ),
                Option("yes: colder means fewer volts, so it can only get safer", mistake="CC-01"),
                Option("yes: 2 V to spare round up to a module's worth", mistake="CC-10"),
                Option("yes: the highest voltage comes in July, and that went well", mistake="CC-02"),
            ),
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_mornings(), _rows(), _hazards())}
