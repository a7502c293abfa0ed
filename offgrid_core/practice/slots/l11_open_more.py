"""Choices of the generator lesson: recall, the reason in the worked example, and where the engine stands."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import LEVELS_IDEA, PACE_ASKS, PACE_IDEA


def open_ones() -> tuple[Slot, ...]:
    """Return the choices, in order."""
    return (*_recall(), _reason(), _shed(), _last())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L11-recall-1",
            title="From the lesson on wiring",
            statement="A thin cable leads from the bank to a lamp, with a fuse at the bank. What decides how large "
            "that fuse may be at most?",
            hint="If the cable is pinched halfway, which part carries the fault?",
            options=(
                Option(
                    "what the cable can carry",
                    "A fuse guards the wire behind it, and opens before the wire grows too hot.",
                    right=True,
                ),
                Option("what the lamp takes", "If the lamp is not even reached, what carries the fault?"),
                Option("what the bank can give", "Would a fuse of thousands of amperes open before a thin wire glows?"),
                Option("the larger the safer: it never blows", "What happens to the wire while such a fuse holds?"),
            ),
        ),
        Choose(
            id="L11-recall-2",
            title="From the lesson on the inverter",
            statement="A fridge takes 120 W, and for a moment five times that when its compressor starts. Lamps of "
            "200 W are on. What must the inverter stand for that moment?",
            hint="Which loads are on in that moment, and which of them starts?",
            options=(
                Option(
                    "800 W: the start, and the lamps beside it",
                    "Only the motor that starts takes its multiple; what runs already is added to it.",
                    right=True,
                ),
                Option("320 W: a moment does not count", mistake="IN-06"),
                Option("1600 W: five times all of it", mistake="IN-07"),
                Option("600 W: the start alone", mistake="IN-08"),
            ),
        ),
        Choose(
            id="L11-recall-3",
            title="From the lesson on the array",
            statement="Over a year an array brings half as much again as the loads take. In December it brings less "
            "than they take. Is the array large enough?",
            hint="What do the loads of December live on?",
            options=(
                Option(
                    "not for December: no bank carries summer's sun over to the winter",
                    "Each month is held against its own sun. What is short then, an engine may bring.",
                    right=True,
                ),
                Option("yes: over the year there is more than enough", mistake="AR-18"),
                Option("yes: the mean of the months is what counts", mistake="AR-03"),
                Option("yes: the best month makes up for it", mistake="AR-04"),
            ),
        ),
    )


def _reason() -> Slot:
    return Choose(
        id="L11-reason",
        title="Say why",
        statement="The engine could give 3000 W. Why does the sum for the hours begin from 1883 W, not from 3000 W?",
        hint=PACE_ASKS,
        principle=PACE_IDEA,
        options=(
            Option(
                "only the charger's current reaches the bank, at the bank's voltage",
                "What the charger does not ask for, the engine does not make.",
                right=True,
            ),
            Option("it ought not to: the engine decides how fast the bank fills", mistake="GE-03"),
            Option("the DC loads help to fill the bank, so it needs less", mistake="GE-07"),
            Option("height and heat have taken the rest of the label", "Which line of the sum begins from the label?"),
        ),
    )


def _shed() -> Slot:
    return Choose(
        id="L11-shed",
        title="Out of the rain",
        statement="It pours. Somebody wants to run the engine inside the battery shed, with the door open. What do you "
        "say?",
        hint="What comes out of an engine, what comes out of a charging battery, and what of both can be seen?",
        principle="Exhaust holds carbon monoxide: no smell, and it kills. A charging lead-acid bank gives off "
        "hydrogen, which a spark sets off. The engine stands outdoors, under a roof without walls, far from windows "
        "and from the battery's openings. Local code and a licensed person decide.",
        options=(
            Option(
                "no: an open door does not clear the exhaust, and the bank gives off hydrogen",
                "Outdoors, well away, under a roof without walls. A detector for the gas hangs where people sleep.",
                right=True,
            ),
            Option("yes: with the door open the smell goes away", "Which part of the exhaust has no smell at all?"),
            Option("yes, if somebody stays beside it", "What happens to a person who breathes it and notices nothing?"),
            Option(
                "yes: hydrogen is light, so it stays clear of the engine",
                "Where does light gas gather in a shed, and what is up there?",
            ),
        ),
    )


def _last() -> Slot:
    return Choose(
        id="L11-full",
        title="While it is running anyway",
        statement="At 85 % the warden thinks: as the engine runs anyway, it may as well go on to 100 %. What comes of "
        "that?",
        hint="What does the charging current do in the last part of the charge?",
        principle=LEVELS_IDEA,
        options=(
            Option(
                "hours with a falling current: the engine burns nearly as much for less and less",
                "The sun of the next days finishes the charge for nothing.",
                right=True,
            ),
            Option("one more hour or two, as the last part goes as fast as the rest", mistake="GE-17"),
            Option("nothing: an engine without much work burns next to nothing", mistake="GE-11"),
            Option(
                "less fuel in the end, since a small load suits an engine",
                "What does a hardly loaded engine burn for each kilowatt-hour that it makes?",
            ),
        ),
    )
