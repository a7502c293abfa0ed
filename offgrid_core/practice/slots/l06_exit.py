"""Exit quiz of the strings lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Backwards, Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l06_exit_more import OTHERS
from offgrid_core.practice.slots.l06_strings import BUILT, CARRIED, COUNT_MISTAKES, COUNTS, ENOUGH, STACK, WORDS


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L06-exit-1",
            others=OTHERS["L06-exit-1"],
            title="Order for the hut",
            statement="Fell hut must have {bank_needed_ah} at {bank_voltage_v}. The carrier brings units of {unit_v} "
            "and {unit_ah}. Give the units of one string, the strings, and the units to be carried up.",
            hint=STACK,
            sheet=COUNTS,
            given={"bank_voltage_v": 48},
            grids={
                "bank_needed_ah": (430, 540, 620, 700, 770, 860),
                "unit_v": (6, 8, 12),
                "unit_ah": (145, 185, 230, 315),
            },
            curated={"bank_needed_ah": 540, "unit_v": 8, "unit_ah": 230},
            mistakes=COUNT_MISTAKES,
            words=WORDS,
            asked=tuple(map(Step, COUNTS)),
        ),
        Work(
            id="L06-exit-2",
            others=OTHERS["L06-exit-2"],
            title="What the label of the whole bank says",
            statement="Riverbend's gel bank has {strings_count} strings at {bank_voltage_v}; every unit is {unit_v}, "
            "{unit_ah}. What capacity has it, and how much energy?",
            hint=STACK,
            sheet=BUILT,
            given={"bank_voltage_v": 24},
            grids={
                "strings_count": (2, 3, 4),
                "unit_v": (2, 6, 12),
                "unit_ah": (130, 185, 260, 420, 510),
            },
            curated={"strings_count": 3, "unit_v": 6, "unit_ah": 185},
            mistakes=("ST-11", "ST-12", "ST-14"),
            words=WORDS,
            asked=(Step("bank_ah"), Step("bank_wh")),
        ),
        Backwards(
            id="L06-exit-3",
            others=OTHERS["L06-exit-3"],
            title="How much a day?",
            statement="At Fell hut {strings_count} strings of {bank_voltage_v} stand ready, built of {unit_v} units "
            "with {unit_ah}. The cold leaves {kept_frac}, the depth limit is {depth_frac}, and {autonomy_days} must be "
            "carried alone. Which daily load can the warden be promised?",
            hint="If the bank gives that load on every one of those days, how far down is it at the end?",
            sheet=CARRIED,
            given={"bank_voltage_v": 48},
            grids={
                "strings_count": (2, 3),
                "unit_v": (2, 6, 12),
                "unit_ah": (170, 240, 330),
                "kept_frac": (0.6, 0.65, 0.75),
                "depth_frac": (0.4, 0.6),
                "autonomy_days": (3, 5),
            },
            curated={
                "strings_count": 2,
                "unit_v": 6,
                "unit_ah": 330,
                "kept_frac": 0.6,
                "depth_frac": 0.6,
                "autonomy_days": 5,
            },
            mistakes=("ST-11", "ST-12", "ST-13"),
            words=WORDS,
            unknown="energy_day_wh",
            span=(20, 200_000),
            result="spell_depth_frac",
            wanted="depth_frac",
        ),
        Choose(
            id="L06-exit-4",
            others=OTHERS["L06-exit-4"],
            title="2.4 strings",
            statement="A bank asks for 2.4 strings of four units. What is ordered, if the need itself must be met?",
            hint=ENOUGH,
            options=(
                Option("12 units: 3 strings of four", "Only whole strings count, and two are too few.", right=True),
                Option("8 units: 2.4 is nearer to 2", mistake="ST-04"),
                Option("10 units: that is as much energy as 2.4 strings", mistake="ST-09"),
                Option("4 units: a string of four has four times the amp-hours", mistake="ST-05"),
            ),
        ),
        Choose(
            id="L06-exit-5",
            others=OTHERS["L06-exit-5"],
            title="Read the list of links",
            statement="A drawing of three strings, told in words: + of string 1 to + of string 2 to + of string 3; the "
            "same for −. Main lead + at string 1, main lead − at string 1. What should be changed?",
            hint="How much copper lies in the way of string 1, and how much in the way of string 3?",
            options=(
                Option(
                    "main lead − to string 3",
                    "At opposite corners every string has nearly the same copper in its way.",
                    right=True,
                ),
                Option("nothing: strings of equal units share equally", "Is the way through each string equally long?"),
                Option("both main leads to string 3", "Which string has the shortest way then?"),
                Option(
                    "an older fourth string beside the first",
                    "What happens to an old string that is charged together with young ones?",
                ),
            ),
        ),
        Slip(
            id="L06-exit-6",
            others=OTHERS["L06-exit-6"],
            title="A page for the clinic",
            statement="Somebody counted units for Riverbend: bank needed {bank_needed_ah} at {bank_voltage_v}, units "
            "of {unit_v} with {unit_ah}. Find the first line that goes wrong, if there is one, and mend it.",
            hint="What does this line begin from, and what should happen to it?",
            sheet=COUNTS,
            given={"bank_voltage_v": 24},
            grids={
                "bank_needed_ah": (560, 640, 710, 830, 960, 1040),
                "unit_v": (2, 6, 12),
                "unit_ah": (180, 220, 270, 340),
            },
            curated={"bank_needed_ah": 560, "unit_v": 6, "unit_ah": 220},
            mistakes=("ST-02", "ST-03", "ST-08"),
            words=WORDS,
        ),
    )
