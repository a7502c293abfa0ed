"""Exit quiz of the autonomy lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Backwards, Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l03_autonomy import (
    CARRIED,
    CARRIED_MISTAKES,
    SLICE,
    STORE,
    STORE_MISTAKES,
    SUNLESS,
    TOLD,
    WORDS,
)
from offgrid_core.practice.slots.l03_exit_more import OTHERS


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L03-exit-1",
            others=OTHERS["L03-exit-1"],
            title="Storage for the mast",
            statement="Instruments and radio of Gull mast take {energy_day_wh} a day. The bank has to stand in for the "
            "sun for {autonomy_days}. How much usable storage is that?",
            hint=SUNLESS,
            sheet=STORE,
            grids={"energy_day_wh": (95, 105, 118, 126, 140, 155), "autonomy_days": (6, 7, 9, 11, 12, 13)},
            curated={"energy_day_wh": 118, "autonomy_days": 9},
            mistakes=(*STORE_MISTAKES, "AU-04"),
            words=WORDS,
            asked=(Step("spell_wh"),),
        ),
        Choose(
            id="L03-exit-2",
            others=OTHERS["L03-exit-2"],
            title="What is promised?",
            statement="A quote says “four days of autonomy”. What does the client get?",
            hint="What weather is that figure made for, and in what state does the bank begin?",
            options=(
                Option(
                    "from a full bank, four days of the whole load with no sun at all",
                    "That, and no word about how often a dark spell is longer.",
                    right=True,
                ),
                Option("four days, of which one at least brings sun", mistake="AU-05"),
                Option("one night's store, filled again on each of four days", mistake="AU-01"),
                Option("a place where no dark spell is ever longer than four days", "Who has seen every year to come?"),
            ),
        ),
        Work(
            id="L03-exit-3",
            others=OTHERS["L03-exit-3"],
            title="The cabin's bank",
            statement="In the weekend cabin stands a bank of {bank_ah} at {bank_voltage_v}. {depth_frac} of it may be "
            "used, {kept_frac} is what the cold leaves, and a busy day takes {energy_day_wh}. For how many such days "
            "is it enough, with no sun?",
            hint=SLICE,
            sheet=CARRIED,
            given={"bank_voltage_v": 24},
            grids={
                "bank_ah": (210, 260, 320, 420),
                "depth_frac": (0.6, 0.7, 0.8),
                "kept_frac": (0.76, 0.8, 0.84),
                "energy_day_wh": (1300, 1500, 1900, 2200),
            },
            curated={"bank_ah": 420, "depth_frac": 0.8, "kept_frac": 0.84, "energy_day_wh": 1900},
            mistakes=CARRIED_MISTAKES,
            words=WORDS,
            asked=tuple(map(Step, CARRIED)),
        ),
        Backwards(
            id="L03-exit-4",
            others=OTHERS["L03-exit-4"],
            title="What may the hut take?",
            statement="Fell hut's bank can give {bank_usable_wh}. The warden wants to be sure of {autonomy_days} in "
            "the dark. Which load a day may the hut not go beyond?",
            hint="With that load on each of the days, what do they take together?",
            sheet=STORE,
            grids={
                "bank_usable_wh": (9300, 10_100, 10_900, 12_400, 13_300, 14_800),
                "autonomy_days": (3, 4, 5, 6, 7),
            },
            curated={"bank_usable_wh": 10_900, "autonomy_days": 5},
            mistakes=STORE_MISTAKES,
            words=TOLD,
            unknown="energy_day_wh",
            span=(1, 500_000),
            result="spell_wh",
            wanted="bank_usable_wh",
        ),
        Choose(
            id="L03-exit-5",
            others=OTHERS["L03-exit-5"],
            title="Ten winters",
            statement="Ten winters of a mountain hut; the longest dark spell of each, in days of load: 3.1, 4.0, 4.4, "
            "5.2, 5.9, 6.3, 7.0, 7.7, 9.5, 14.8. The owner accepts one dark winter in ten. Which is the smallest bank "
            "that does?",
            hint="In how many of the ten winters is the spell longer than that bank?",
            options=(
                Option("10 days", "Only the winter of 14.8 outlasts it.", right=True),
                Option("7 days: the mean of the ten", "In how many of these winters is that not enough?"),
                Option("9 days: one of ten is sunny", mistake="AU-05"),
                Option("15 days", "How many dark winters does the owner accept?"),
            ),
        ),
        Slip(
            id="L03-exit-6",
            others=OTHERS["L03-exit-6"],
            title="A page from the hut",
            statement="The warden of Fell hut checked the bank on this page: load {energy_day_wh} a day, "
            "{autonomy_days} wanted, {bank_ah} at {bank_voltage_v}, {depth_frac} may be used, {kept_frac} is given in "
            "the cold. Which line is the first that goes wrong, if one does, and what should stand there?",
            hint="What does this line begin from, and what should happen to it?",
            sheet=STORE + CARRIED,
            given={"bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2200, 2400, 2600, 2900),
                "autonomy_days": (3, 4, 5, 6),
                "bank_ah": (580, 660, 760, 900),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.6, 0.66, 0.72),
            },
            curated={
                "energy_day_wh": 2600,
                "autonomy_days": 4,
                "bank_ah": 760,
                "depth_frac": 0.6,
                "kept_frac": 0.6,
            },
            mistakes=("AU-01", "AU-05", "AU-06", "AU-09"),
            words=WORDS,
        ),
    )
