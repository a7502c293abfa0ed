"""Further templates of the exit quiz of the inverter lesson, where something is worked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l09_sheets_more import (
    HEAT,
    HOT,
    MARGIN,
    NAMEPLATE,
    PLAIN,
    PLATE,
    RATINGS,
    SIDE_VA,
    START,
    SURGE,
    THREE_OF_FOUR,
    TOGETHER,
    VOLT_AMPS,
    WATTS,
    WITH_HOURS,
    WORDS,
)
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_teaching import IN_HEAT
from offgrid_core.sizing.loads import LOADS
from offgrid_core.worksheet import Sheet

_LISTED = PLAIN | MARGIN | THREE_OF_FOUR
_ALL = PLAIN | {"coincidence_by_row_frac": 1}


def _watts() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-exit-1",
            title="A school with four rooms",
            statement="The teacher's table: computers, projector and fans share the lesson; the copier gets its own "
            "break. Which rating follows, if the label is to stand {inverter_margin_factor} times above the load of a "
            "lesson?",
            hint=TOGETHER,
            sheet=WATTS,
            rows=("computers", "projector", "fans", "copier"),
            given=_LISTED,
            grids={
                "power_by_row_w": ((45, 260, 55, 280), (60, 230, 40, 270), (35, 310, 65, 350), (50, 280, 45, 320)),
                "count_by_row": ((9, 1, 4, 1), (14, 1, 2, 1), (11, 1, 3, 1), (12, 1, 4, 1)),
            },
            curated={"power_by_row_w": (45, 260, 55, 280), "count_by_row": (14, 1, 2, 1)},
            mistakes=("IN-02", "IN-04", "IN-21"),
            words=WORDS,
            asked=(Step("inverter_needed_w"),),
        ),
        Work(
            id="L09-exit-1",
            title="Evening at the lake",
            statement="For a cabin's evening somebody wrote watts and hours beside each other. The heater is barred "
            "while people cook. Give the power that the sockets deliver at most in one minute of that evening.",
            hint=TOGETHER,
            sheet=WITH_HOURS.upto("peak_w") + Sheet(LOADS["run_energy_by_row_wh"]),
            rows=("hob", "music", "lamps", "heater"),
            given=_LISTED,
            grids={
                "power_by_row_w": (
                    (1300, 120, 90, 800),
                    (1100, 150, 130, 700),
                    (950, 180, 110, 600),
                    (1200, 140, 75, 650),
                ),
                "hours_by_row_h": ((1.5, 4, 5, 2), (0.5, 3, 4, 3), (2, 5, 6, 2), (0.5, 6, 5, 1)),
            },
            curated={"power_by_row_w": (1300, 120, 90, 800), "hours_by_row_h": (1.5, 4, 5, 2)},
            mistakes=("IN-01", "IN-02", "IN-03"),
            words=WORDS,
            asked=(Step("peak_w"),),
        ),
        Work(
            id="L09-exit-1",
            title="A nameplate in horsepower",
            statement="The plate of a saw reads {shaft_hp}, and its maker states an efficiency of {motor_eff_frac}. "
            "Radio and light ({others_w}) stay on. From plate to plug, from there to the sum, and then, times "
            "{inverter_margin_factor}, to what you would order.",
            hint=PLATE,
            sheet=Sheet(NAMEPLATE["motor_input_w"], NAMEPLATE["peak_w"], INVERTER["inverter_needed_w"]),
            given=MARGIN,
            grids={
                "shaft_hp": (0.5, 0.75, 1.5, 2),
                "motor_eff_frac": (0.61, 0.67, 0.73),
                "others_w": (70, 110, 140),
            },
            curated={"shaft_hp": 0.75, "motor_eff_frac": 0.67, "others_w": 70},
            mistakes=("IN-04", "IN-13", "IN-14", "IN-15"),
            words=WORDS,
            asked=(Step("motor_input_w"), Step("peak_w"), Step("inverter_needed_w")),
        ),
    )


def _starts() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-exit-2",
            title="Two motors, one kitchen",
            statement="Freezer and pump of the cabin both hang on the inverter, and either may start by itself while "
            "somebody fries eggs. For which instant must the surge rating be chosen, in watts?",
            hint=START,
            sheet=SURGE,
            rows=("freezer", "pump", "frying plate"),
            given=_ALL,
            grids={
                "power_by_row_w": ((130, 350, 800), (150, 420, 650), (110, 480, 900), (140, 310, 720)),
                "start_by_row_factor": ((5, 5, 1), (4.5, 4.5, 1), (6, 6, 1)),
            },
            curated={"power_by_row_w": (150, 420, 650), "start_by_row_factor": (5, 5, 1)},
            mistakes=("IN-06", "IN-07", "IN-08", "IN-09"),
            words=WORDS,
            asked=(Step("surge_w"),),
        ),
        Work(
            id="L09-exit-2",
            title="From the plate to the jolt",
            statement="The plate of a fodder cutter says {shaft_hp}; {motor_eff_frac} is how well its motor works, "
            "and at switch-on it wants {start_by_row_factor} times its running power. The yard's "
            "lamps, {others_w}, are lit. Work out plug power, running sum, extra at the start, and the jolt itself.",
            hint=PLATE,
            sheet=NAMEPLATE,
            grids={
                "shaft_hp": (0.5, 0.75, 1.5),
                "motor_eff_frac": (0.6, 0.66, 0.72),
                "start_by_row_factor": (3.5, 4.5, 5.5),
                "others_w": (240, 330),
            },
            curated={"shaft_hp": 0.75, "motor_eff_frac": 0.66, "start_by_row_factor": 4.5, "others_w": 330},
            mistakes=("IN-06", "IN-07", "IN-13", "IN-14"),
            words=WORDS,
            asked=tuple(map(Step, NAMEPLATE)),
        ),
        Work(
            id="L09-exit-2",
            title="On top of the laundry",
            statement="Measured at the laundry, with everything humming: {peak_w}. The table has the motors among "
            "them. Whichever of these comes back on alone after a pause: what does it add at worst, and what does the "
            "meter then jump to?",
            hint=START,
            sheet=Sheet(LOADS["start_extra_w"], LOADS["surge_w"]),
            rows=("spin dryer", "washer", "circulation pump"),
            given=PLAIN,
            grids={
                "peak_w": (1150, 1320, 1480),
                "power_by_row_w": ((280, 350, 90), (340, 290, 70), (250, 410, 110)),
                "start_by_row_factor": ((4, 3, 5), (5, 3.5, 4), (4.5, 4, 6)),
            },
            curated={"peak_w": 1320, "power_by_row_w": (280, 350, 90), "start_by_row_factor": (5, 3.5, 4)},
            mistakes=("IN-06", "IN-07"),
            words=WORDS,
            asked=(Step("start_extra_w"), Step("surge_w")),
        ),
    )


def _volt_amps() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-exit-3",
            title="Old tubes and a cooler",
            statement="Riverbend's store still burns old light tubes; the drinks cooler runs with them. Which "
            "apparent power does the inverter feel?",
            hint=SIDE_VA,
            sheet=VOLT_AMPS,
            rows=("light tubes", "drinks cooler"),
            given=_ALL,
            grids={
                "count_by_row": ((8, 1), (12, 1), (10, 1), (6, 1)),
                "power_by_row_w": ((38, 190), (42, 230), (34, 260)),
                "power_factor_by_row_ratio": ((0.5, 0.7), (0.55, 0.65), (0.6, 0.75)),
            },
            curated={
                "count_by_row": (8, 1),
                "power_by_row_w": (42, 230),
                "power_factor_by_row_ratio": (0.5, 0.7),
            },
            mistakes=("IN-10", "IN-11", "IN-12"),
            words=WORDS,
            asked=(Step("peak_va"),),
        ),
        Work(
            id="L09-exit-3",
            title="What a meter calls W and VA",
            statement="A plug meter shows watts and a factor for each of these, all switched on together at the "
            "printer's. Add up both ways, then say what one start on top would bring it to.",
            hint=SIDE_VA,
            sheet=Sheet(*(RATINGS[n] for n in ("peak_w", "peak_va", "start_extra_w", "surge_w"))),
            rows=("press", "suction pump", "screens"),
            given=_ALL,
            grids={
                "power_by_row_w": ((640, 330, 90), (520, 390, 120), (710, 270, 150)),
                "power_factor_by_row_ratio": ((0.65, 0.75, 0.6), (0.7, 0.8, 0.55)),
                "start_by_row_factor": ((3, 4, 1), (3.5, 5, 1), (2.5, 3.5, 1)),
            },
            curated={
                "power_by_row_w": (640, 330, 90),
                "power_factor_by_row_ratio": (0.65, 0.75, 0.6),
                "start_by_row_factor": (3, 5, 1),
            },
            mistakes=("IN-06", "IN-10", "IN-11"),
            words=WORDS,
            asked=tuple(map(Step, ("peak_w", "peak_va", "start_extra_w", "surge_w"))),
        ),
        Work(
            id="L09-exit-3",
            title="Never with the welder",
            statement="Grinder, air pump and lamp of a bicycle shop may all be on; the small welder must wait until "
            "they are off. Two numbers are asked for the first three: the real one, and the one that the amps follow.",
            hint=SIDE_VA,
            sheet=VOLT_AMPS,
            rows=("grinder", "air pump", "lamp", "welder"),
            given=PLAIN | THREE_OF_FOUR,
            grids={
                "power_by_row_w": ((670, 410, 40, 590), (580, 350, 60, 520), (740, 460, 50, 680)),
                "power_factor_by_row_ratio": (
                    *((0.8, 0.6, 0.9, 0.9), (0.7, 0.65, 0.9, 0.8)),
                    *((0.75, 0.55, 0.95, 0.8), (0.65, 0.75, 1, 0.85)),
                ),
            },
            curated={"power_by_row_w": (670, 410, 40, 590), "power_factor_by_row_ratio": (0.8, 0.6, 0.9, 0.9)},
            mistakes=("IN-02", "IN-10", "IN-11"),
            words=WORDS,
            asked=tuple(map(Step, VOLT_AMPS)),
        ),
    )


def _heat() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-exit-4",
            title="A share from the maker",
            statement="A maker's curve says that at the top of a grain store {inverter_heat_frac} of the label remain. "
            "The conveyor up there takes {peak_w}. Give the label to look for.",
            hint=HOT,
            sheet=Sheet(IN_HEAT["inverter_for_heat_w"]),
            grids={
                "inverter_heat_frac": (0.61, 0.66, 0.72, 0.78),
                "peak_w": (540, 760, 930, 1250, 1490),
            },
            curated={"inverter_heat_frac": 0.72, "peak_w": 930},
            mistakes=("IN-16", "IN-17", "IN-18"),
            words=WORDS,
            asked=(Step("inverter_for_heat_w"),),
        ),
        Work(
            id="L09-exit-4",
            title="Behind glass",
            statement="A kiosk stands in the sun, behind glass: {air_hot_c} inside. Its ice box and scales draw "
            "{peak_w}. A catalogue quotes {inverter_rated_w} at {inverter_temp_rated_c} for one model, less "
            "{inverter_derate_per_k}. First that model's output there, then the rating to look for among its like.",
            hint=HOT,
            sheet=HEAT,
            grids={
                "air_hot_c": (46, 49, 52),
                "peak_w": (360, 520, 690),
                "inverter_rated_w": (450, 900, 1200),
                "inverter_temp_rated_c": (25, 30),
                "inverter_derate_per_k": (0.013, 0.016),
            },
            curated={
                "air_hot_c": 49,
                "peak_w": 520,
                "inverter_rated_w": 900,
                "inverter_temp_rated_c": 25,
                "inverter_derate_per_k": 0.013,
            },
            mistakes=("IN-16", "IN-17", "IN-18", "IN-20"),
            words=WORDS,
            asked=(Step("inverter_hot_w"), Step("inverter_for_heat_w")),
        ),
        Backwards(
            id="L09-exit-4",
            title="How much for the baker?",
            statement="The baker owns one already: {inverter_rated_w}, specified at {inverter_temp_rated_c}, and it "
            "gives up {inverter_derate_per_k} once that is passed. Beside the oven the thermometer climbs to "
            "{air_hot_c}. How large a load can he still put on it without a margin?",
            hint=HOT,
            sheet=HEAT,
            grids={
                "inverter_rated_w": (900, 1800, 2600),
                "inverter_temp_rated_c": (30, 40),
                "inverter_derate_per_k": (0.017, 0.021),
                "air_hot_c": (52, 55, 57),
            },
            curated={
                "inverter_rated_w": 1800,
                "inverter_temp_rated_c": 40,
                "inverter_derate_per_k": 0.017,
                "air_hot_c": 55,
            },
            mistakes=("IN-16", "IN-17", "IN-18"),
            words=WORDS | {"peak_w": "load it carries there"},
            unknown="peak_w",
            span=(1, 50_000),
            result="inverter_for_heat_w",
            wanted="inverter_rated_w",
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_watts(), _starts(), _volt_amps(), _heat())}
