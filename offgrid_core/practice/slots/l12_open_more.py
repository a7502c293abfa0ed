"""Choices of the year lesson: recall, the reason in the worked example, a chart to read, one part to change."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l12_sheets_more import EACH_MONTH, MONTH_IDEA, STEP_IDEA


def open_ones() -> tuple[Slot, ...]:
    """Return the choices, in order."""
    return (*_recall(), _reason(), _chart(), _one_change())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L12-recall-1",
            title="From the lesson on the generator",
            statement="A generator of 5 kW fills the bank through a charger of 1.5 kW. What sets the pace at which the "
            "bank fills?",
            hint="Through what does every watt on its way to the bank have to pass?",
            options=(
                Option(
                    "what the charger brings, less the loads that run meanwhile",
                    "The engine's label says what it could do. The charger is the narrow place.",
                    right=True,
                ),
                Option("the 5 kW on the engine's label", mistake="GE-03"),
                Option("the whole charger: loads do not count while the engine runs", mistake="GE-06"),
                Option("the charger and the loads together: both push the bank up", mistake="GE-07"),
            ),
        ),
        Choose(
            id="L12-recall-2",
            title="From the lesson on wiring",
            statement="On a circuit the load takes 20 A, and the wire can carry 27 A where it lies. Why is a fuse of "
            "25 A sound, and one of 40 A not?",
            hint="When 35 A flow for an hour, which of the two opens?",
            options=(
                Option(
                    "the fuse has to give up before the wire does, and after the load is content",
                    "Load, fuse, wire: each no more than the next.",
                    right=True,
                ),
                Option("a larger fuse wears out sooner", "What does a fuse of 40 A do at 35 A?"),
                Option("it is the load that the fuse protects, and 25 A is nearer to it", mistake="OP-06"),
                Option("40 A would do as well, if the wire is sized by the load", mistake="OP-07"),
            ),
        ),
        Choose(
            id="L12-recall-3",
            title="From the lesson on the controller",
            statement="Three modules stand in a row. On which morning of the year does the controller meet their "
            "highest voltage, and in which state?",
            hint="Do cold cells give more volts, or fewer?",
            options=(
                Option(
                    "the coldest bright one, before any current flows",
                    "Cold raises it, and an open row stands at its highest.",
                    right=True,
                ),
                Option("the hottest one, at full sun", mistake="CC-02"),
                Option("the coldest one, while it charges", mistake="CC-04"),
                Option("any: the label's voltage is the most a module gives", mistake="CC-03"),
            ),
        ),
    )


def _reason() -> Slot:
    return Choose(
        id="L12-reason",
        title="Say why",
        statement="Why does the line take the smaller of two things: what is left of the sun after the charging loss, "
        "and the room in the bank?",
        hint="What becomes of sunshine when the bank cannot take it?",
        principle=STEP_IDEA,
        options=(
            Option(
                "a bank takes in no more than it lacks; what is over is spilled",
                "Whoever forgets it carries summer's sun into winter, on paper only.",
                right=True,
            ),
            Option("there is no need: what the sun brings is always stored", mistake="YS-01"),
            Option("because the loss makes more arrive than was sent", mistake="YS-03"),
            Option("so that the bank is never drawn below its cut-off", mistake="YS-02"),
        ),
    )


def _chart() -> Slot:
    return Choose(
        id="L12-chart",
        title="Read a year",
        statement="A year of Fell hut with its whole array and no generator: 0.56 % of the load is lost, all of it in "
        "December and January, and 73 % of the sun is spilled. The owner says: so much goes to waste, we need no more "
        "modules, rather fewer. What do you answer?",
        hint="In which months is it spilled, and in which is it missing?",
        options=(
            Option(
                "it is spilled in summer and missing in December; fewer modules would make the dark weeks longer",
                "Waste and want come at different times, and the bank carries only days between them.",
                right=True,
            ),
            Option("73 % spilled means that 73 % was used: the array is busy", mistake="YS-16"),
            Option("the yearly sum is more than enough, so nothing can be missing", mistake="YS-11"),
            Option(
                "a bank twice as large would take the summer's sun into December",
                "How many days of load does such a bank hold, and how many lie between August and December?",
            ),
        ),
    )


def _one_change() -> Slot:
    return Choose(
        id="L12-one-change",
        title="Change one thing",
        statement="Fell hut stands with half its array and no generator, and loses 8.9 % of its load. At most 1 % may "
        "be lost, and one part may be changed. Followed hour by hour, twice the bank still loses 7.8 % and costs "
        "5\u2009520. Twice the array loses 0.56 % and costs 2\u2009860. Three times the array loses nothing and costs "
        "5\u2009710. All costs are invented. Which change is it?",
        hint=EACH_MONTH,
        principle=MONTH_IDEA,
        options=(
            Option(
                "twice the array: it is the cheapest of those that stay below 1 %",
                "First what meets the limit, then what costs least among those.",
                right=True,
            ),
            Option("twice the bank: it is room that is wanting, not sun", "Does that one stay below the limit?"),
            Option(
                "three times the array: nothing lost is better than something lost",
                "What was asked for, and what would the last half per cent cost?",
            ),
            Option("none: over the year the array brings twice what the loads take", mistake="YS-11"),
        ),
    )
