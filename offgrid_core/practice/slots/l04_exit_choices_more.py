"""Other templates of the choices in the exit quiz on depth of discharge."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option
from offgrid_core.practice.slot import Slot


def _life() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L04-exit-4",
            title="Hardly used",
            statement="An ordinary night at Gull mast takes only a twentieth of its bank. Somebody would double the "
            "bank, so that it stands twice as many years. What do you answer?",
            hint="What ends a battery that is hardly cycled?",
            options=(
                Option(
                    "it will not: by then age ends it, however gently it is used",
                    "Its cycles would outlast the years that a battery has.",
                    right=True,
                ),
                Option("it will: cycles are all that ends a battery", mistake="CO-01"),
                Option("it will: every night is a full cycle, and now half of one", mistake="CO-02"),
                Option(
                    "it will last half as long: there is twice the lead to spoil",
                    "Does lead that is never drawn on wear out by being drawn on?",
                ),
            ),
        ),
        Choose(
            id="L04-exit-4",
            title="Weekends only",
            statement="A data sheet promises 700 cycles at the depth that a weekend cabin reaches. People are there on "
            "100 days a year. For how many years do those cycles last, before anybody asks about age?",
            hint="How many of the cycles does one year use up?",
            options=(
                Option("7 years", "Each year uses up 100 of the 700.", right=True),
                Option("1.9 years: 700 days", mistake="CO-02"),
                Option("half a year: on few days few of them are left", mistake="CO-03"),
                Option("2555 years", mistake="CO-04"),
            ),
        ),
        Choose(
            id="L04-exit-4",
            title="Two curves",
            statement="For batteries that look alike, one leaflet prints 300 cycles at 50 %, another 750. Which "
            "reading of the two is sound?",
            hint="At what charging, warmth and end of life were those cycles counted?",
            options=(
                Option(
                    "the tests may differ; ask how it was tested and plan with the lower one",
                    "No common test stands behind such curves.",
                    right=True,
                ),
                Option(
                    "the second lasts two and a half times as long",
                    "Was it counted in the same way, at the same warmth, to the same end?",
                ),
                Option("the second, and age can be left out of it", mistake="CO-01"),
                Option("both last as many years as they have cycles, over 365", mistake="CO-02"),
            ),
        ),
    )


def _meant() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L04-exit-5",
            title="What the meter says",
            statement="The warden's meter counts from full and shows a state of charge of 70 %. Which depth of "
            "discharge has the bank reached?",
            hint="Just after a full charge, what would each of the two figures be?",
            options=(
                Option("30 %", "What is not in it any more has been taken out.", right=True),
                Option("70 %", mistake="DD-10"),
                Option("60 %, since only half of it may be used", mistake="DD-11"),
                Option("it depends on the bank's voltage", "Is a share of the whole counted in volts?"),
            ),
        ),
        Choose(
            id="L04-exit-5",
            title="Gently does it",
            statement="All of a mast's loads together would empty its bank in 62 hours. The label was measured over "
            "20. What does that mean for the bank that was sized by this label?",
            hint="When is a battery able to give more: emptied quickly, or slowly?",
            options=(
                Option(
                    "it has something in hand, which a careful designer does not count on",
                    "Slow discharge gives back a part; nobody promised how much.",
                    right=True,
                ),
                Option(
                    "it is too small: 62 hours ask for three times the label",
                    "Does a small current drawn for long take more amp-hours than were asked for?",
                ),
                Option("a label of 100 hours would have been the careful choice", mistake="DD-12"),
                Option("all of its label may be used now", mistake="DD-13"),
            ),
        ),
        Choose(
            id="L04-exit-5",
            title="Which share?",
            statement="“Twenty per cent must never leave this bank,” says the order for an iron phosphate bank. What "
            "is its depth limit, and where does it stand in the sizing?",
            hint="Which of the two shares belongs to the load?",
            options=(
                Option("80 %; the need is divided by it", "80 % of the label belong to the load.", right=True),
                Option("20 %; the need is divided by it", mistake="DD-03"),
                Option("80 %; the need is taken times it", mistake="DD-01"),
                Option("80 %; the need is divided by it, and once more when it is used", mistake="DD-06"),
            ),
        ),
    )


#: Id of a place -> its templates beside the first.
CHOICES: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_life(), _meant())}
