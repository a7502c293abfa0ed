"""Problems of the inverter lesson; choices, judgement, and what is mixed in from earlier lessons, stand beside it."""

from offgrid_core.practice.kinds import Backwards, Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l09_judge_more import judge
from offgrid_core.practice.slots.l09_mixed_more import mixed
from offgrid_core.practice.slots.l09_round_more import idling, open_ones, rough
from offgrid_core.practice.slots.l09_sheets_more import (
    HEAT,
    HEAT_IDEA,
    HOT,
    MARGIN,
    NAMEPLATE,
    PLAIN,
    PLATE,
    PLATE_IDEA,
    RATINGS,
    SIDE_VA,
    START,
    START_IDEA,
    THREE_OF_FOUR,
    TOGETHER,
    TOGETHER_IDEA,
    VA_IDEA,
    VOLT_AMPS,
    WATTS,
    WITH_HOURS,
    WORDS,
)
from offgrid_core.sizing.inverter_day_teaching import MOMENT
from offgrid_core.worksheet import Sheet

_BESIDE = ("peak_w", "start_extra_w", "surge_w")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    entry = entry_check("L09", *practice)
    round_it = (idling(), rough())
    return (*open_ones(), _guess(), *entry, _explore(), *_faded(), *practice, *mixed(), *round_it, *judge())


def _guess() -> Slot:
    return Guess(
        id="L09-guess",
        title="Guess, then lock it",
        statement="In the evening {others_w} run at Fell hut. Then the water pump starts, which takes {motor_input_w} "
        "once it runs. How many watts does the inverter have to give in that first moment?",
        hint="How hard is it to get something heavy moving, beside keeping it moving?",
        principle=START_IDEA,
        sheet=Sheet(*(NAMEPLATE[n] for n in _BESIDE)),
        curated={"others_w": 201, "motor_input_w": 370, "start_by_row_factor": 4},
        starts_curated=True,
        words=WORDS,
        step=Step("surge_w"),
    )


def _explore() -> Slot:
    return Rise(
        id="L09-explore",
        title="Predict, then slide",
        statement="Fell hut as the panel opens: the fridge of 90 W hums when it likes, the kettle of 1000 W is on at "
        "7 h, the washing machine of 350 W at 10 h. The pump of 370 W, which takes four times as much while it starts, "
        "runs at {moment_h}. Somebody sets it to {moved_h} instead. What becomes of the hardest start of the day?",
        hint="What is on already when the pump starts?",
        principle=START_IDEA,
        sheet=MOMENT.upto("surge_w"),
        given={
            # at the moment at which the pump starts, the pump runs
            "label_by_row_w": (90, 1000, 350, 370),
            "start_by_row_h": (0, 7, 10, 0),
            "hours_by_row_h": (24, 0.25, 1, 24),
            "start_by_row_factor": (5, 1, 3, 4),
            "coincidence_by_row_frac": 1,
            "count_by_row": 1,
            "on_ac_by_row_frac": 1,
        },
        curated={"moment_h": 12, "moved_h": 7},
        starts_curated=True,
        words={"surge_w": "hardest start of the day", "moment_h": "start of the pump"},
        result="surge_w",
        moved="moment_h",
        after="moved_h",
        reasons=(
            Option(
                "the pump starts on top of the kettle, which is on already",
                "The start is the same as before. What it stands on has grown by the kettle.",
                right=True,
            ),
            Option("a kettle starts with several times its watts as well", mistake="IN-07"),
            Option("a start is over before the inverter feels it: only running watts count", mistake="IN-06"),
            Option("a motor's start is the same whenever it comes", mistake="IN-08"),
        ),
    )


_HUT = ("kettle", "lamps", "laptop", "water pump")
_HUT_GIVEN = PLAIN | MARGIN | THREE_OF_FOUR


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-faded-1",
            title="Faded: the first two lines are yours",
            statement="A family keeps to one rule: the pump only runs while nothing else does. The rest may run "
            "together. {inverter_margin_factor} times the watts that run together are wanted on the label.",
            hint=TOGETHER,
            principle=TOGETHER_IDEA,
            sheet=WATTS + VOLT_AMPS,
            rows=_HUT,
            given=_HUT_GIVEN | {"power_factor_by_row_ratio": (1, 1, 0.6, 0.8)},
            grids={
                "power_by_row_w": ((900, 9, 65, 370), (1000, 8, 55, 420), (800, 11, 60, 340), (1100, 10, 70, 380)),
                "count_by_row": ((1, 6, 2, 1), (1, 8, 1, 1), (1, 9, 3, 1), (1, 7, 2, 1)),
            },
            curated={"power_by_row_w": (900, 9, 65, 370), "count_by_row": (1, 6, 2, 1)},
            mistakes=("IN-01", "IN-02", "IN-04", "IN-21"),
            words=WORDS,
            asked=(Step("peak_w"), Step("inverter_needed_w")),
            filled=(Step("peak_va"),),
        ),
        Work(
            id="L09-faded-2",
            title="Faded: all but the last two lines are yours",
            statement="A workshop with four machines; the big saw never runs beside the others. An inverter with "
            "{inverter_rated_w} on its label would stand in air of {air_hot_c}. The label holds up to "
            "{inverter_temp_rated_c}, and loses {inverter_derate_per_k} above that.",
            hint=START,
            principle=f"{START_IDEA} {VA_IDEA}",
            sheet=Sheet(*(RATINGS[n] for n in ("peak_w", "peak_va", "start_extra_w", "surge_w"))) + HEAT,
            rows=("drill press", "pump", "lamps", "big saw"),
            given=_HUT_GIVEN | {"count_by_row": 1, "inverter_rated_w": 2600},
            grids={
                "power_by_row_w": ((550, 370, 240, 480), (480, 420, 180, 440), (620, 350, 210, 510)),
                "power_factor_by_row_ratio": ((0.7, 0.8, 0.9, 0.7), (0.65, 0.75, 0.9, 0.7), (0.6, 0.8, 0.95, 0.7)),
                "start_by_row_factor": ((3, 5, 1, 2), (2.5, 4.5, 1, 2), (3, 4, 1, 2)),
                "air_hot_c": (54, 57),
                "inverter_temp_rated_c": (40,),
                "inverter_derate_per_k": (0.014, 0.016),
            },
            curated={
                "power_by_row_w": (550, 370, 240, 480),
                "power_factor_by_row_ratio": (0.7, 0.8, 0.9, 0.7),
                "start_by_row_factor": (3, 5, 1, 2),
                "air_hot_c": 54,
                "inverter_temp_rated_c": 40,
                "inverter_derate_per_k": 0.016,
            },
            mistakes=("IN-01", "IN-06", "IN-07", "IN-10", "IN-11", "IN-20"),
            words=WORDS,
            asked=tuple(map(Step, ("peak_w", "peak_va", "start_extra_w", "surge_w", "inverter_hot_w"))),
            filled=(Step("inverter_heat_frac"), Step("inverter_for_heat_w")),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L09-1",
            title="Supper at the hut",
            statement="At supper the first three of these are on; the warden never runs the pump at meal times. "
            "{inverter_margin_factor} times the watts that run together are wanted on the inverter's label. Which "
            "watts run together, and which are wanted?",
            hint=TOGETHER,
            principle=TOGETHER_IDEA,
            sheet=WITH_HOURS,
            rows=("cooking plate", "lamps", "laptop", "water pump"),
            given=_HUT_GIVEN | {"count_by_row": (1, 8, 1, 1)},
            grids={
                "power_by_row_w": (
                    *((900, 9, 85, 370), (800, 11, 65, 420), (1000, 12, 75, 340)),
                    *((1200, 14, 90, 450), (750, 10, 60, 390)),
                ),
                "hours_by_row_h": ((0.5, 4, 5, 0.5), (1.5, 5, 3, 0.5), (1.5, 4, 6, 1), (0.5, 6, 4, 1)),
            },
            curated={"power_by_row_w": (900, 9, 85, 370), "hours_by_row_h": (0.5, 4, 5, 0.5)},
            mistakes=("IN-01", "IN-02", "IN-03", "IN-04", "IN-21"),
            words=WORDS,
            asked=(Step("peak_w"), Step("inverter_needed_w")),
        ),
        Work(
            id="L09-3",
            title="Watts are not all",
            statement="In Riverbend's workshop the first three of these run together; the last one has to wait. What "
            "does the inverter carry in watts and in volt-amps, what does the hardest start add, and what is asked in "
            "that moment?",
            hint=SIDE_VA,
            principle=f"{VA_IDEA} {START_IDEA}",
            sheet=Sheet(*(RATINGS[n] for n in ("peak_w", "peak_va", "start_extra_w", "surge_w"))),
            rows=("compressor", "fan", "soldering iron", "bench grinder"),
            given=_HUT_GIVEN | {"count_by_row": 1},
            grids={
                "power_by_row_w": ((420, 130, 90, 300), (510, 160, 75, 380), (380, 190, 110, 320), (460, 110, 60, 350)),
                "power_factor_by_row_ratio": ((0.7, 0.6, 1, 0.75), (0.65, 0.7, 1, 0.7), (0.75, 0.55, 1, 0.7)),
                "start_by_row_factor": ((5, 3, 1, 2.5), (4, 2, 1, 3), (6, 2.5, 1, 3), (4.5, 3, 1, 2)),
            },
            curated={
                "power_by_row_w": (420, 130, 90, 300),
                "power_factor_by_row_ratio": (0.7, 0.6, 1, 0.75),
                "start_by_row_factor": (5, 3, 1, 2.5),
            },
            mistakes=("IN-06", "IN-07", "IN-08", "IN-10", "IN-11"),
            words=WORDS,
            asked=tuple(map(Step, ("peak_w", "peak_va", "start_extra_w", "surge_w"))),
        ),
        Work(
            id="L09-4",
            title="A mill under a tin roof",
            statement="A mill's nameplate says {shaft_hp}; its motor turns {motor_eff_frac} of what it takes into "
            "work. Lamps of {others_w} burn beside it. The inverters on offer hold their label up to "
            "{inverter_temp_rated_c} and lose {inverter_derate_per_k} above that; under the roof it gets {air_hot_c}. "
            "What does the mill take, what runs together, what is left of a label of {inverter_rated_w}, which share "
            "is that, and which label carries the load in that heat?",
            hint=PLATE,
            principle=f"{PLATE_IDEA} {HEAT_IDEA}",
            sheet=Sheet(NAMEPLATE["motor_input_w"], NAMEPLATE["peak_w"]) + HEAT,
            given={"inverter_temp_rated_c": 40, "inverter_rated_w": 1800},
            grids={
                "shaft_hp": (0.75, 1, 1.5),
                "motor_eff_frac": (0.62, 0.66, 0.71),
                "others_w": (80, 120, 150),
                "inverter_derate_per_k": (0.015, 0.017),
                "air_hot_c": (53, 55, 57),
            },
            curated={
                "shaft_hp": 0.75,
                "motor_eff_frac": 0.66,
                "others_w": 80,
                "inverter_derate_per_k": 0.017,
                "air_hot_c": 55,
            },
            mistakes=("IN-13", "IN-14", "IN-15", "IN-16", "IN-17", "IN-18", "IN-20"),
            words=WORDS,
            asked=tuple(
                map(Step, ("motor_input_w", "peak_w", "inverter_hot_w", "inverter_heat_frac", "inverter_for_heat_w"))
            ),
        ),
        Backwards(
            id="L09-7",
            title="What may run up there?",
            statement="An inverter with {inverter_rated_w} on its label hangs in Riverbend's loft, where it gets "
            "{air_hot_c}. Its sheet says: label up to {inverter_temp_rated_c}, minus {inverter_derate_per_k} above "
            "that. How many watts may run together on that afternoon?",
            hint=HOT,
            principle=HEAT_IDEA,
            sheet=HEAT,
            given={},
            grids={
                "inverter_rated_w": (450, 900, 1600, 2400),
                "air_hot_c": (49, 52, 55),
                "inverter_temp_rated_c": (25, 40),
                "inverter_derate_per_k": (0.013, 0.015, 0.017),
            },
            curated={
                "inverter_rated_w": 1600,
                "air_hot_c": 52,
                "inverter_temp_rated_c": 40,
                "inverter_derate_per_k": 0.017,
            },
            mistakes=("IN-16", "IN-17", "IN-18", "IN-20"),
            words=WORDS | {"peak_w": "watts that may run together"},
            unknown="peak_w",
            span=(1, 50_000),
            result="inverter_for_heat_w",
            wanted="inverter_rated_w",
        ),
    )
