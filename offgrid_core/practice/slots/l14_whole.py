"""Problems of the last lesson: a whole design for a client; the briefs and what is judged stand beside it."""

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots import l05_temperature, l07_array, l10_wiring
from offgrid_core.practice.slots.l08_controller import slots as of_controllers
from offgrid_core.practice.slots.l14_briefs_more import brief
from offgrid_core.practice.slots.l14_judge_more import judge


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    return (*_recall(), *_entry(), _ask(), brief(), *judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L14-recall-1",
            title="From last time: the cheaper bank",
            statement="Two banks do the same work. One costs half as much and lasts a third as long. When may it still "
            "be the better buy?",
            hint="Over how many years is the money counted, and what happens to money that is spent late?",
            principle="What is spent later counts for less, and nothing is gained by years that nobody uses.",
            options=(
                Option(
                    "when the horizon ends before it has to be bought for the second time",
                    "Within a short horizon the dearer bank's later years are never used.",
                    right=True,
                ),
                Option(
                    "never, since a third is less than a half",
                    because="Which of the two is still in use on the last day that is counted?",
                ),
                Option(
                    "always, since the first price is what is paid",
                    because="What else has to be paid before the horizon is reached?",
                ),
                Option(
                    "when its amp-hours are larger",
                    because="Do the two not do the same work, as the question says?",
                ),
            ),
        ),
        Choose(
            id="L14-recall-2",
            title="From the year: a total that fits",
            statement="Over twelve months an array makes a tenth more than the loads take. What follows?",
            hint="Where is the sun of July kept until December?",
            principle="A bank carries days, not seasons. Each month has to pay for itself.",
            options=(
                Option(
                    "nothing yet: the hardest month may still fall short, and no bank carries a season",
                    "A total hides the month that decides.",
                    right=True,
                ),
                Option("the loads are always served", mistake="YS-11"),
                Option(
                    "the bank is too large",
                    because="What does a yearly total say about the days that the bank has to carry?",
                ),
                Option(
                    "a tenth of the array can be left out",
                    because="What would the hardest month then look like?",
                ),
            ),
        ),
        Choose(
            id="L14-recall-3",
            title="From the wiring: what a fuse is for",
            statement="A fuse of 40 A sits before a cable that carries 27 A. The load takes 20 A. What is wrong?",
            hint="Which of the three gives way first when the current rises slowly?",
            principle="The fuse guards the cable: load below it, cable above it.",
            options=(
                Option(
                    "the cable: it can burn while the fuse still holds",
                    "Between 27 and 40 A nothing opens and the copper gets hotter and hotter.",
                    right=True,
                ),
                Option("nothing: the load is far below both", mistake="OP-06"),
                Option(
                    "the load: it should be larger",
                    because="Would a larger load make the cable safer?",
                ),
                Option(
                    "the fuse blows too early",
                    because="At what current does this fuse open, and what flows on a usual day?",
                ),
            ),
        ),
    )


def _entry() -> tuple[Slot, ...]:
    """Return one problem each of cold, array, controller and wiring."""
    every = (l05_temperature.slots(), l07_array.slots(), of_controllers(), l10_wiring.slots())
    known = {s.id: s for lesson in every for s in lesson}
    return entry_check("L14", *(known[i] for i in ("L05-3", "L07-2", "L08-1", "L10-1")))


def _ask() -> Slot:
    return Choose(
        id="L14-ask",
        title="The first question",
        statement="“We need five kilowatts of solar,” says the client on the telephone. What do you ask first?",
        hint="Which answer changes every later line of the sheet?",
        principle="A client brings a wish. The sheet begins with what runs, for how long, and at which time of year.",
        options=(
            Option(
                "what shall run, for how many hours a day, and at which time of year",
                "From watts and hours comes the day's energy, and everything else comes from that.",
                right=True,
            ),
            Option(
                "how many modules fit on the roof",
                because="If they all fit, do you know yet whether they are too many or too few?",
            ),
            Option("how many days a kilowatt lasts", mistake="LD-04"),
            Option(
                "which battery the neighbours have",
                because="What would you have to know about the neighbours before that helps?",
            ),
        ),
    )
