"""Choices among the templates of the autonomy lesson's exit quiz: what autonomy means, and who may ask for less."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot


def meanings() -> tuple[Slot, ...]:
    """Return what else may be asked of the meaning of autonomy."""
    return (
        Choose(
            id="L03-exit-2",
            title="Ten dull days",
            statement="For ten days in a row the sky over Fell hut gives just half of what the loads take. The bank "
            "has five days of autonomy and was full. How does it end?",
            hint="What is missing on each of the ten, and what do those parts come to?",
            options=(
                Option(
                    "just carried: ten halves are five days of load", "What counts is what was missing.", right=True
                ),
                Option("empty on the fifth day", "What do those five days bring in, dull as they are?"),
                Option("empty a day early: one day of the five is always counted as sunny", mistake="AU-05"),
                Option("empty after the first night", mistake="AU-01"),
            ),
        ),
        Choose(
            id="L03-exit-2",
            title="Two spells, one after the other",
            statement="A client has the store doubled and leaves the array as it is. A long grey time has just ended, "
            "and the next begins a week later. What did the doubling not buy?",
            hint="What must happen to the bank between the two?",
            options=(
                Option(
                    "a faster refill: the same array now has twice the store to fill",
                    "Autonomy is counted from a full bank; the second spell may meet a half-empty one.",
                    right=True,
                ),
                Option("any more days: the store is shared out over more of them", mistake="AU-02"),
                Option("any more days: a bank hands out one day's load at a time", mistake="AU-01"),
                Option("a longer first spell", "How much could the bank give, before and after?"),
            ),
        ),
        Choose(
            id="L03-exit-2",
            title="A heater in the ward",
            statement="Riverbend was sized for five days alone. Then somebody plugs in a heater, and every day takes "
            "twice the energy. Which is true of the clinic's autonomy now?",
            hint="How much of the store does each day take now?",
            options=(
                Option(
                    "it is half of five days",
                    "The store is the same; each day takes twice as much of it.",
                    right=True,
                ),
                Option("it is five days, as on the quote", "For which load a day was that quote made?"),
                Option("it is ten days: more load asks for more store", mistake="AU-08"),
                Option(
                    "it is four days: the heater costs one of them", "What share of the store does one day take now?"
                ),
            ),
        ),
    )


def judged() -> tuple[Slot, ...]:
    """Return other requests to be judged before a record."""
    return (
        Choose(
            id="L03-exit-5",
            title="The vaccine fridge",
            statement="For Riverbend a hundred years were drawn. Some dark spell passes 2 days of load in 57 of them, "
            "3 in 17, 4 in 4, 5 in none. Spoiled vaccine can cost lives. A dealer offers a cheaper bank of 2 days, as "
            "“most dark spells last less than one day”. Which reply fits?",
            hint="How often would the fridge stand warm, and may it ever?",
            options=(
                Option(
                    "5 days: a load that must not fail is sized on the longest spells, not on most of them",
                    "And even none in a hundred drawn years is no promise.",
                    right=True,
                ),
                Option(
                    "2 days: the dealer is right about most spells",
                    "How many long spells does it take to spoil a fridge?",
                ),
                Option("3 days, for one of four brings sun", mistake="AU-05"),
                Option("one day, since each morning fills the bank", mistake="AU-01"),
            ),
        ),
        Choose(
            id="L03-exit-5",
            title="With a generator",
            statement="The warden lives at the hut and has a small generator. With 4 days of autonomy the drawn "
            "weather outlasts the bank about once a year, with 10 days about once in seven years. Which argument for 4 "
            "days holds?",
            hint="What happens on the day on which the bank is empty, and who is there?",
            options=(
                Option(
                    "someone is there to start the engine about once a year, and six days of bank are saved",
                    "Autonomy is a choice between store, fuel and risk.",
                    right=True,
                ),
                Option("4 days are never outlasted, so it will not be used", "What does the record say of that?"),
                Option("a larger bank would shrink each day's share", mistake="AU-02"),
                Option("one of four days is sunny, so the bank has a day in hand", mistake="AU-05"),
            ),
        ),
        Choose(
            id="L03-exit-5",
            title="One good winter",
            statement="A neighbour logged last winter: the deepest gap was 3.2 days of load. “So 3.5 days will do for "
            "good,” he says. What is amiss with that, if anything?",
            hint="How alike are the longest spells of one winter and the next?",
            options=(
                Option(
                    "one winter says little: the longest spell differs two- or threefold from year to year",
                    "Many years, measured or drawn, show how rare each length is.",
                    right=True,
                ),
                Option(
                    "nothing: the margin of a third of a day is enough",
                    "What does the margin cover, another winter or a misreading?",
                ),
                Option("he should take off the sunny day first", mistake="AU-05"),
                Option("he should look at one day, not at a gap of days", mistake="AU-01"),
            ),
        ),
    )
