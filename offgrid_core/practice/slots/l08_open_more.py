"""Choices of the controller lesson: recall, the reason in the worked example, and two ideas that no number shows."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_sheets_more import COLD_IDEA, SIDE, TRACKING_IDEA, WHICH_VOLTS


def open_ones() -> tuple[Slot, ...]:
    """Return the choices, in order."""
    return (*_recall(), _reason(), _plugs_open(), _more_amps())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L08-recall-1",
            title="From the lesson on the array",
            statement="A house needs 1900 W of modules; one row of two makes 880 W. Three rows are built, 2640 W. Why "
            "so much?",
            hint="What would the next smaller number of whole rows come to?",
            options=(
                Option(
                    "two rows are too little, and only whole rows count",
                    "A need is a floor: it is rounded up, row by row.",
                    right=True,
                ),
                Option("five modules would do as well, two rows and a half", mistake="AR-17"),
                Option("two rows would do: 2.2 is nearly 2", mistake="AR-16"),
                Option("it must make up for the days of autonomy", mistake="AR-05"),
            ),
        ),
        Choose(
            id="L08-recall-2",
            title="From the lesson on strings",
            statement="Six 2 V cells of 490 Ah stand in one row, and a second row of six beside it. What is this bank?",
            hint="Which connection stacks volts, and which adds amp-hours?",
            options=(
                Option(
                    "12 V and 980 Ah",
                    "A row adds volts; rows side by side add amp-hours. Modules do the same with volts and amps.",
                    right=True,
                ),
                Option("12 V and 5880 Ah", mistake="ST-11"),
                Option("12 V and 490 Ah", mistake="ST-12"),
                Option("24 V and 490 Ah", "How many cells does the current pass, one after the other?"),
            ),
        ),
        Choose(
            id="L08-recall-3",
            title="From the lesson on depth",
            statement="A meter shows a state of charge of 35 %. The bank may be emptied by 60 %. Has somebody gone too "
            "far?",
            hint="How much of the label is missing when 35 % is in?",
            options=(
                Option(
                    "yes: 65 % is out",
                    "Depth is what is missing from full, and 65 is more than 60.",
                    right=True,
                ),
                Option("no: 35 is less than 60", mistake="DD-10"),
                Option("no: 40 % must be in, and 35 is near enough", "Is a limit with room below it still a limit?"),
                Option("it cannot be told without the amp-hours", "Are both shares of the same label?"),
            ),
        ),
    )


def _reason() -> Slot:
    return Choose(
        id="L08-reason",
        title="Say why",
        statement="Why is the open-circuit voltage of the coldest morning held against the controller's limit, and "
        "not one that the modules work at?",
        hint=WHICH_VOLTS,
        principle=COLD_IDEA,
        options=(
            Option(
                "at sunrise, before any current flows, the cold row stands at its highest voltage",
                "The limit must hold in that minute too; a moment is enough to destroy a controller.",
                right=True,
            ),
            Option("the highest voltage comes in the hottest month, and cold is only the custom", mistake="CC-02"),
            Option("it need not be: the working voltage is there all day", mistake="CC-04"),
            Option("the label was measured in the cold anyway, so nothing changes", mistake="CC-03"),
        ),
    )


def _plugs_open() -> Slot:
    return Choose(
        id="L08-open",
        title="With the plugs open",
        statement="A row of six modules lies on a roof on a bright winter morning. Its two end plugs are joined to "
        "nothing, and no current flows. Is there a dangerous voltage between them?",
        hint="What does a meter show between two plugs through which nothing flows?",
        principle="A voltage needs no current to be there. An array in daylight cannot be switched off: cover it or "
        "wait for the dark, follow the maker's sheet, and leave the plugs to people who are licensed.",
        options=(
            Option(
                "yes: the open-circuit voltage of all six, and it is never higher than now",
                "Voltage stands there without a current, and the cold raises it. Nobody touches both ends.",
                right=True,
            ),
            Option("no: where no current flows there is no voltage", "What does a meter show at an unused battery?"),
            Option("no: the controller is not even joined, so nothing is switched on", "Where does the light fall?"),
            Option("hardly: the cold keeps the voltage low", mistake="CC-01"),
        ),
    )


def _more_amps() -> Slot:
    return Choose(
        id="L08-extra",
        title="More amps out than in",
        statement="A tracking controller shows 82 V and 10 A coming from the array, and 27 V and 29 A going to the "
        "battery. Where do the other nineteen amps come from?",
        hint="How many watts go in, and how many come out?",
        principle=TRACKING_IDEA,
        options=(
            Option(
                "from the volts: 820 W go in, and a little less comes out",
                "Fewer volts, more amps, and a few per cent lost on the way. No energy is made.",
                right=True,
            ),
            Option("the controller finds energy that a plain one would not have", "Are there more watts out than in?"),
            Option("nowhere: the meter is off, as a controller passes the array's current", mistake="CC-19"),
            Option("out of the battery, which pushes them round once more", SIDE),
        ),
    )
