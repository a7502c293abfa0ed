"""What is judged in the lesson on depth of discharge: two pages, a choice of labels, and a deeper limit."""

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l04_words_more import GO_BACK, HOURS, HOURS_IDEA, LABEL, LABEL_IDEA, LIFE_IDEA, PAGE
from offgrid_core.sizing.depth_teaching import BY_PEUKERT
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.worksheet import Sheet


def judge() -> tuple[Slot, ...]:
    """Return the problems in their order."""
    return _label_page(), _hours_page(), _which_label(), _deeper()


def _label_page() -> Slot:
    return Slip(
        id="L04-slip",
        title="Find the slip",
        statement="Someone sized a bank for Fell hut, leaving the cold aside: {energy_day_wh} a day, {autonomy_days}, "
        "{bank_voltage_v}, and a depth limit of {depth_frac}. Find the first line that goes wrong, if there is one, "
        "and give its right value.",
        hint=GO_BACK,
        principle=LABEL_IDEA,
        sheet=LABEL + Sheet(charge_left_frac),
        given={"bank_voltage_v": 48},
        grids={
            "energy_day_wh": (2100, 2400, 2700, 3200),
            "autonomy_days": (3, 4, 5),
            "depth_frac": (0.3, 0.4, 0.6, 0.7),
        },
        curated={"energy_day_wh": 2400, "autonomy_days": 4, "depth_frac": 0.6},
        mistakes=("AU-05", "BV-09", "DD-01", "DD-03", "DD-05", "DD-06", "DD-10"),
        words=PAGE,
    )


def _hours_page() -> Slot:
    return Slip(
        id="L04-slip-2",
        title="A page about a pump",
        statement="A farm near Riverbend bought a bank with {bank_ah} on its label, written for {capacity_hours_h}. "
        "The pump and all else together empty it in {functional_hours_h}. Its exponent is {peukert_exponent}; at most "
        "{depth_frac} is to be used. Somebody worked this page, the first line by Peukert's law. Which line is the "
        "first to go wrong, if any, and what should it be?",
        hint=HOURS,
        principle=HOURS_IDEA,
        sheet=BY_PEUKERT + Sheet(charge_left_frac),
        given={"capacity_hours_h": 100},
        grids={
            "bank_ah": (260, 340, 450, 620),
            "functional_hours_h": (8, 9, 11, 12),
            "peukert_exponent": (1.15, 1.2, 1.25),
            "depth_frac": (0.3, 0.4, 0.6, 0.7),
        },
        curated={"bank_ah": 340, "functional_hours_h": 9, "peukert_exponent": 1.2, "depth_frac": 0.6},
        mistakes=("DD-10", "DD-12", "DD-13", "AU-09"),
        words=PAGE,
        marks={"capacity_hours_ratio": " of the label"},
    )


def _which_label() -> Slot:
    return Choose(
        id="L04-label",
        title="Which figure of the label?",
        statement="One battery, and its data sheet says: 155 Ah over 5 hours, 180 Ah over 10 hours, 200 Ah over 20 "
        "hours, 245 Ah over 100 hours. At Riverbend the lamps and the fridge empty it in one long night, about 11 "
        "hours. With which figure is the bank sized?",
        hint="At which of these paces does the night empty it?",
        principle=HOURS_IDEA,
        options=(
            Option(
                "180 Ah: the night is about as long as those 10 hours",
                "A little slower than the figure's hours is on the safe side.",
                right=True,
            ),
            Option("245 Ah: it is the most that the battery holds", mistake="DD-12"),
            Option("200 Ah: batteries are sold by their 20 hours", "Does this night take twenty hours to empty it?"),
            Option("155 Ah: the least is always right", "How long would the night be, if that were its pace?"),
        ),
    )


def _deeper() -> Slot:
    return Choose(
        id="L04-deeper",
        title="Half the lead?",
        statement="A farm's flooded bank is emptied to its limit every night. A salesman offers a bank of half the "
        "size: the same load, but a limit of 80 % in place of 40 %. By this lesson's table it stands less than half "
        "the cycles. What do you tell the farmer?",
        hint="What has to be bought when those cycles are gone?",
        principle=LIFE_IDEA,
        options=(
            Option(
                "half the lead today, and it is bought again more than twice as soon",
                "260 cycles in place of 632: each kilowatt-hour through it costs about a fifth more.",
                right=True,
            ),
            Option("the same energy for half the price", mistake="CO-09"),
            Option(
                "it will not carry the sunless days: the label is too small",
                "What is 80 % of the small label, and 40 % of the large one?",
            ),
            Option("the large one lasts for ever: its days are so shallow", mistake="CO-01"),
        ),
    )
