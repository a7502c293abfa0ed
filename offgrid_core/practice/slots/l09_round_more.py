"""Round the sums of the inverter lesson: recall, the reason in the worked example, what idling moves, a rough size."""

from dataclasses import replace

from offgrid_core.practice.kinds import Choose, Factor, Option, Rough
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l01_loads_more import round_the_sums
from offgrid_core.practice.slots.l09_sheets_more import NAMEPLATE, PLATE_IDEA, START, START_IDEA, WORDS

#: Common practice, no source: small single-phase motors, split-phase starts, and what a house has on in the evening.
_PUMP = (Factor("motor_eff_frac", 0.5, 0.75), Factor("start_by_row_factor", 5, 7), Factor("others_w", 100, 400))


def open_ones() -> tuple[Slot, ...]:
    """Return the choices, in order."""
    return (*_recall(), _reason())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L09-recall-1",
            title="From the lesson on controllers",
            statement="A row of modules is held against the controller's highest voltage. Which voltage of the row is "
            "it, and on which morning?",
            hint="When does the row stand highest, though no current flows?",
            options=(
                Option(
                    "the open-circuit voltage on the coldest morning",
                    "Cold raises it, and one morning is enough.",
                    right=True,
                ),
                Option("the working voltage, since that is what the row gives", mistake="CC-04"),
                Option("the open-circuit voltage of a hot day", mistake="CC-02"),
                Option("the open-circuit voltage of the label, whatever the morning", mistake="CC-03"),
            ),
        ),
        Choose(
            id="L09-recall-2",
            title="From the lesson on the array",
            statement="In a farm's darkest month the house is empty. Which month is the array sized for?",
            hint="What do load and sun together say of each month?",
            options=(
                Option(
                    "the one in which the load is largest beside the sun",
                    "A dark month with next to no load asks for little.",
                    right=True,
                ),
                Option("the darkest one in any case", mistake="AR-27"),
                Option("none of them: the year's mean sun decides", mistake="AR-03"),
                Option("the sunniest one, in which most is made", mistake="AR-04"),
            ),
        ),
        Choose(
            id="L09-recall-3",
            title="From the lesson on temperature",
            statement="In the cold a bank keeps 0.8 of its label, and 400 Ah must come out of it. What has to stand on "
            "the label?",
            hint="What does a bank of that label still give in the cold?",
            options=(
                Option("500 Ah", "500 Ah in the cold are 400 Ah: multiplied back, it comes home.", right=True),
                Option("480 Ah", mistake="TE-02"),
                Option("320 Ah", mistake="TE-01"),
                Option("400 Ah", mistake="TE-03"),
            ),
        ),
    )


def _reason() -> Slot:
    return Choose(
        id="L09-reason",
        title="Say why",
        statement="Why is the extra power of one start put on top of the watts that run together, and not the extra "
        "of every motor?",
        hint=START,
        principle=START_IDEA,
        options=(
            Option(
                "two motors hardly ever start in the same second, and one start is short",
                "So the hardest one decides. Who joins two motors to one switch has to count both.",
                right=True,
            ),
            Option("only the largest motor runs at all, so only it counts", mistake="IN-01"),
            Option("a start hardly asks for more than running does", mistake="IN-06"),
            Option("while a motor starts, everything else is off", mistake="IN-08"),
        ),
    )


def idling() -> Slot:
    """Return the ranking: at a house with a large inverter, what moves the energy that goes into it."""
    return replace(
        round_the_sums()[1],
        id="L09-6",
        title="A large inverter, a small office",
        statement="The clinic's office got an inverter that was made for a workshop. It takes {inverter_idle_w} for "
        "being on, night and day, and passes on {inverter_eff_frac} of the rest. {count_by_row} screens of "
        "{power_by_row_w} are lit for {hours_by_row_h}, and wait at {standby_by_row_w}. The DC side has {dc_day_wh}. "
        "Rank the three that move the energy out of the battery most.",
        hint="How many of the day's watt-hours hang on this one?",
        principle="A large inverter takes its idle watts for twenty-four hours. Beside a small load that comes first.",
        grids={
            "count_by_row": (2,),
            "power_by_row_w": (40, 50, 55),
            "hours_by_row_h": (2.5, 3),
            "standby_by_row_w": (2, 3),
            "inverter_eff_frac": (0.76, 0.8, 0.84),
            "inverter_idle_w": (34, 41, 48),
            "dc_day_wh": (120, 160, 390, 430),
        },
        curated={
            "count_by_row": 2,
            "power_by_row_w": 40,
            "hours_by_row_h": 3,
            "standby_by_row_w": 3,
            "inverter_eff_frac": 0.76,
            "inverter_idle_w": 34,
            "dc_day_wh": 160,
        },
    )


def rough() -> Slot:
    """Return the rough size of an inverter for a pump of which only the horsepower is known."""
    return Rough(
        id="L09-9",
        title="Only the horsepower is known",
        statement="A farmer telephones: a well pump with {shaft_hp} on its nameplate, the sort that starts hard "
        "(split-phase), beside what a house has on in the evening. Guess from what you know: the motor's efficiency, "
        "its start as a multiple, the watts that run beside it. What must the inverter give for a moment?",
        hint="Would the inverter of Fell hut, which gives 2000 W for a moment, start it?",
        principle=f"{PLATE_IDEA} {START_IDEA}",
        sheet=NAMEPLATE,
        grids={
            "shaft_hp": (0.5, 0.75, 1),
            "motor_eff_frac": (0.58, 0.62, 0.66),
            "start_by_row_factor": (5.5, 6, 6.5),
            "others_w": (160, 210, 280),
        },
        curated={"shaft_hp": 0.5, "motor_eff_frac": 0.62, "start_by_row_factor": 6, "others_w": 210},
        factors=_PUMP,
        step=Step("surge_w"),
        words=WORDS | {"motor_eff_frac": "efficiency of the motor", "others_w": "watts that run beside it"},
    )
