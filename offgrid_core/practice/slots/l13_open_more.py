"""Choices of the lesson on cost: recall, the reason in the worked example, and three ideas that no number shows."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import FIRST_END, LATE_MONEY, LATER_IDEA, LIFE_IDEA, USED, USED_IDEA


def open_ones() -> tuple[Slot, ...]:
    """Return the choices, in order."""
    return (*_recall(), _reason(), _unused(), _three_prices(), _reverses())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L13-recall-1",
            title="From the lesson on the whole year",
            statement="Over a year an array makes more energy than its loads ask for. Yet in December the lamps go "
            "out. How can both be true?",
            hint="How long can what June has left over be kept?",
            options=(
                Option(
                    "what is made too much in June meets a full bank and is lost",
                    "A bank carries days, not seasons. Yearly totals hide the dark weeks.",
                    right=True,
                ),
                Option("they cannot: the totals say that the array is enough", mistake="YS-11"),
                Option("the spare of June waits in the bank, so a load must be broken", mistake="YS-01"),
                Option(
                    "the array is too large, and that empties the bank",
                    "Which way does the energy of an array go?",
                ),
            ),
        ),
        Choose(
            id="L13-recall-2",
            title="From the lesson on the generator",
            statement="A bank is to be filled by a generator of 5 kW through a charger of 1.5 kW. Nothing else runs. "
            "What sets how many hours the engine is on?",
            hint="Which of the two lets the least through on the way to the bank?",
            options=(
                Option(
                    "the charger: no more than it gives reaches the bank",
                    "A larger engine would only idle beside it, and burn for that.",
                    right=True,
                ),
                Option("the generator's 5 kW: that is what it makes", mistake="GE-03"),
                Option("both together: 6.5 kW", "Does the charger make power of its own?"),
                Option("the fuel tank alone", "Would a larger tank fill the bank any sooner?"),
            ),
        ),
        Choose(
            id="L13-recall-3",
            title="From the lesson on the inverter",
            statement="Somebody buys an inverter three times as large as needed, to be on the safe side. It is on all "
            "day and all night. What does that cost, apart from its price?",
            hint="What does it take from the bank while nobody uses anything?",
            options=(
                Option(
                    "energy, every hour: a large one mostly idles at more watts",
                    "The idle draw runs all day, and array and bank must grow for it.",
                    right=True,
                ),
                Option("nothing: it takes only what the loads take", mistake="LD-19"),
                Option("nothing: a large one is always better used", "At a small load, is a large one at its best?"),
                Option(
                    "the loads then draw three times as much",
                    "Who decides what a lamp draws, the inverter or the lamp?",
                ),
            ),
        ),
    )


def _reason() -> Slot:
    return Choose(
        id="L13-reason",
        title="Say why",
        statement="The hut's next bank is bought in ten years, at the price of today's one. Why does it stand in the "
        "sum with only about six tenths of that price?",
        hint=LATE_MONEY,
        principle=LATER_IDEA,
        options=(
            Option(
                "so much put aside today has grown to the full price by then",
                "At 5 % a year above inflation, 0.61 becomes 1 in ten years.",
                right=True,
            ),
            Option("ten years at 5 % come to a half of interest, and that is set against it", mistake="CO-12"),
            Option("it should stand there with more: interest makes it dearer", mistake="CO-11"),
            Option("because it is only a replacement, and the first bank was one too", mistake="CO-05"),
        ),
    )


def _unused() -> Slot:
    return Choose(
        id="L13-unused",
        title="Hardly ever used",
        statement="The cabin is used on thirty days of the year. By its cycles the bank would last for fifty years. "
        "For how long do the owners put money aside before a new one is due?",
        hint=FIRST_END,
        principle=LIFE_IDEA,
        options=(
            Option(
                "for its calendar life, about ten years, less in a warm room",
                "It corrodes and dries while it waits. Cycles that nobody uses buy no years.",
                right=True,
            ),
            Option("fifty years: the cycles say so", mistake="CO-01"),
            Option("about four years: one cycle a day", mistake="CO-02"),
            Option("less than a year: a bank that is used so little goes first of all", mistake="CO-03"),
        ),
    )


def _three_prices() -> Slot:
    return Choose(
        id="L13-prices",
        title="Two prices for one kilowatt-hour",
        statement="At Fell hut a kilowatt-hour through the bank costs 0.55: the bank's price over all it gives. The "
        "whole system comes to 1.81 for each kilowatt-hour that is used. Which one does a neighbour pay who wants to "
        "be connected, so that the hut comes out even?",
        hint=USED,
        principle=USED_IDEA,
        options=(
            Option(
                "1.81: array, controller, upkeep and interest are paid by the same kilowatt-hours",
                "What is stored has to be made first. The bank's price is a part of the whole.",
                right=True,
            ),
            Option("0.55: it comes out of the bank, after all", "Who paid for what filled the bank?"),
            Option("less than 0.55: the array makes far more than is used", mistake="CO-21"),
            Option("1.81 less the interest: nobody lent them anything", mistake="CO-16"),
        ),
    )


def _reverses() -> Slot:
    return Choose(
        id="L13-reverse",
        title="Say what would turn it",
        statement="Of two banks the dear, long-lived one comes out a little cheaper over twenty years. Which of these "
        "would turn the choice to the cheap one that is bought often?",
        hint="Which bank is paid mostly today, and which mostly later?",
        principle="Who recommends says what would change the advice: the rate, the years, the use, the last bank's "
        "worth.",
        options=(
            Option(
                "a higher discount rate: the later banks of the cheap one then count for less",
                "The dear one is paid today, and today's money is not discounted.",
                right=True,
            ),
            Option("a lower discount rate: interest lies on the later banks", mistake="CO-11"),
            Option("nothing: the rate takes the same share off both", "Which share of each is paid on the first day?"),
            Option("more inflation, as it is added to the rate", mistake="CO-23"),
        ),
    )
