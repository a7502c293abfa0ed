"""Exit quiz of the lesson on depth of discharge: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l04_exit_choices_more import CHOICES
from offgrid_core.practice.slots.l04_exit_more import OTHERS
from offgrid_core.practice.slots.l04_words_more import DEEP, GO_BACK, HOURS, LABEL, PAGE, TAKEN, WORDS
from offgrid_core.sizing.depth_teaching import AT_HOURS, HOW_FULL
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.worksheet import Sheet


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L04-exit-1",
            others=OTHERS["L04-exit-1"],
            title="A label for the clinic",
            statement="Riverbend takes {energy_day_wh} on its hardest day. Its bank of {bank_voltage_v} carries "
            "{autonomy_days} and may be emptied by {depth_frac}. Work the day and the spell in amp-hours, then the "
            "label.",
            hint=GO_BACK,
            sheet=LABEL,
            given={"bank_voltage_v": 24},
            grids={
                "energy_day_wh": (1900, 2080, 2260, 2450, 2700),
                "autonomy_days": (3, 4, 5, 6),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 2260, "autonomy_days": 4, "depth_frac": 0.6},
            mistakes=("BV-08", "AU-02", *DEEP),
            words=WORDS,
            asked=tuple(map(Step, LABEL)),
        ),
        Work(
            id="L04-exit-2",
            others=OTHERS["L04-exit-2"],
            title="After the pump",
            statement="At sunset a bank of {bank_ah} was full; no more than {depth_max_frac} of it should ever go. A "
            "pump then ran for {load_h} and took {load_a} all the time. What went out, what is the depth of discharge, "
            "and how full is the bank?",
            hint=TAKEN,
            sheet=HOW_FULL,
            grids={
                "bank_ah": (260, 340, 430, 580),
                "depth_max_frac": (0.6, 0.7, 0.8),
                "load_h": (2.5, 3.5, 4.5),
                "load_a": (17, 22, 26, 33),
            },
            curated={"bank_ah": 340, "depth_max_frac": 0.7, "load_h": 4.5, "load_a": 22},
            mistakes=("DD-10", "DD-11"),
            words=WORDS,
            asked=tuple(map(Step, HOW_FULL)),
        ),
        Work(
            id="L04-exit-3",
            others=OTHERS["L04-exit-3"],
            title="One night, one label",
            statement="On the label stands {bank_ah}, measured over {capacity_hours_h}. One night of "
            "{functional_hours_h} will empty the battery, and at that pace it holds {capacity_hours_ratio}. The "
            "limit is {depth_frac}. What does it hold, and what may the night have?",
            hint=HOURS,
            sheet=AT_HOURS,
            given={"capacity_hours_h": 100},
            grids={
                "bank_ah": (130, 170, 260, 350),
                "functional_hours_h": (10, 12, 13),
                "capacity_hours_ratio": (0.7, 0.74, 0.78, 0.82),
                "depth_frac": (0.4, 0.6, 0.7),
            },
            curated={"bank_ah": 170, "functional_hours_h": 12, "capacity_hours_ratio": 0.74, "depth_frac": 0.6},
            mistakes=("DD-12", "DD-13", "AU-09"),
            words=WORDS,
            marks={"capacity_hours_ratio": " of the label"},
            asked=tuple(map(Step, AT_HOURS)),
        ),
        Choose(
            id="L04-exit-4",
            others=CHOICES["L04-exit-4"],
            title="From 40 % to 80 %",
            statement="A bank is emptied to its limit each day. The limit is set from 40 % to 80 %, the load stays, "
            "and a new bank is bought to fit. By a table of cycles, what becomes of its lead, its life and the price "
            "of each kilowatt-hour?",
            hint="How many cycles are bought with each half of the lead?",
            options=(
                Option(
                    "half the lead, less than half the life, a kilowatt-hour somewhat dearer",
                    "The lead saved today is bought again tomorrow, and a little more.",
                    right=True,
                ),
                Option("half the lead, the same life, a kilowatt-hour at half the price", mistake="CO-09"),
                Option("twice the lead, less than half the life, a kilowatt-hour far dearer", mistake="DD-01"),
                Option("the same lead, less than half the life, a kilowatt-hour far dearer", mistake="DD-02"),
            ),
        ),
        Choose(
            id="L04-exit-5",
            others=CHOICES["L04-exit-5"],
            title="Two labels",
            statement="On one crate stands 120 Ah over 100 hours, on the other 110 Ah over 10 hours. The load empties "
            "either of them in about 10 hours. Which battery gives more to this load?",
            hint="What would the first crate say if it were written for ten hours too?",
            options=(
                Option(
                    "the 110 Ah one: its figure is for this load's pace",
                    "At ten hours the other one gives clearly less than its 120 Ah.",
                    right=True,
                ),
                Option("the 120 Ah one: the larger figure gives more", mistake="DD-12"),
                Option(
                    "the 120 Ah one: a figure for more hours is the more careful one",
                    "In which of the two tests was the battery emptied more gently?",
                ),
                Option("they cannot be compared at all", "Which of the two was tested at the pace of this very load?"),
            ),
        ),
        Slip(
            id="L04-exit-6",
            others=OTHERS["L04-exit-6"],
            title="One more page",
            statement="For Fell hut somebody worked this page, the cold left aside: {energy_day_wh} a day for "
            "{autonomy_days}, {bank_voltage_v}, limit {depth_frac}. Find the first line that goes wrong, if there is "
            "one, and mend it.",
            hint=GO_BACK,
            sheet=LABEL + Sheet(charge_left_frac),
            given={"bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2000, 2300, 2600, 3000),
                "autonomy_days": (3, 5, 6),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 2300, "autonomy_days": 5, "depth_frac": 0.7},
            mistakes=("DD-01", "DD-02", "DD-03", "DD-05", "DD-06", "DD-10"),
            words=PAGE,
        ),
    )
