"""Problems of the autonomy lesson."""

from offgrid_core.practice.kinds import Backwards, Choose, Guess, Option, Rise, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.sizing import BANK, BANK_1013
from offgrid_core.sizing.autonomy_teaching import LONGER
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

WORDS = {
    "energy_day_wh": "load a day",
    "bank_ah": "bank on hand",
    "kept_frac": "share of the label given in the cold",
    "longer_years_frac": "share of dark years",
}
#: Where what a label says, or what may be used of it, is told and not worked.
TOLD = WORDS | {"bank_wh": "energy on the label", "bank_usable_wh": "usable storage"}
#: What the sunless days ask for.
STORE = Sheet(BANK["spell_wh"])
STORE_AH = Sheet(BANK_1013["day_ah"], BANK_1013["spell_ah"])
#: What a bank on hand carries.
CARRIED = Sheet(*(STRINGS[n] for n in ("bank_wh", "bank_usable_wh", "autonomy_given_days")))
STORE_MISTAKES = ("AU-01", "AU-02", "AU-05")
CARRIED_MISTAKES = ("AU-06", "AU-08", "AU-09", "AU-10")
SUNLESS = "How many days must the bank stand in for the sun, and how much does each of them take?"
SLICE = "Which part of the bank may be used, and how much of it does one day take?"
STORE_IDEA = "No sun is counted: the bank gives the whole load of every one of the days, so load a day times days."
CARRIED_IDEA = (
    "Amp-hours at the bank's voltage are the energy on the label. Only the part that may be used counts, and in the "
    "cold only the share that the battery still gives. What is left, shared out day by day, is the days."
)
#: The longest dark spell of each of 100 drawn years at Fell hut as its panel opens, days of load.
LONGEST = (
    5.93, 5.37, 5.56, 8.83, 5.07, 3.77, 6.94, 5.49, 5.54, 7.29, 8.28, 6.67, 11.32, 4.06, 7.9, 4.26, 6.51, 4.1, 3.93,
    4.04, 9.78, 9.14, 9.68, 3.68, 14.54, 9.31, 4.83, 7.26, 6.08, 6.39, 22.94, 10.9, 4.04, 5.46, 10.19, 9.43, 6.1, 6.8,
    8.31, 6.54, 7.8, 6.41, 7.94, 6.05, 5.08, 4.6, 9.74, 9.84, 12.41, 15.06, 7.15, 4.91, 8.92, 4.52, 8.43, 13.83, 8.91,
    9.52, 6.44, 11.38, 16.06, 7.78, 9.52, 3.96, 3.51, 5.08, 12.89, 6.07, 8.47, 8.51, 6.17, 7.27, 11.03, 3.89, 5.12,
    5.71, 6.69, 8.54, 7.77, 5.88, 6.03, 8.67, 8.53, 3.54, 8.13, 11.58, 4.93, 9.01, 14.82, 9.54, 5.59, 4.72, 7.12,
    12.31, 5.58, 6.25, 7.83, 5.57, 8.56, 7.38,
)  # fmt: skip
_RECORD = {"longest_by_row_days": LONGEST, "record_years": len(LONGEST)}
_YEARS = LONGER.upto("longer_years_frac")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    numbers = [s for s in practice if s.grids]
    return (*_recall(), _guess(), *entry_check("L03", *numbers), *_explore(), *_faded(), *practice, *_judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L03-recall-1",
            title="From the lesson on voltage",
            statement="One bank is 24 V, another 48 V. The same watt-hours are on both labels. "
            "Which of them keeps the lamps of Fell hut burning for longer?",
            hint="What do volts and amp-hours make together?",
            options=(
                Option("neither: watt-hours are what the lamps use up", "Voltage decides the current.", right=True),
                Option("the 24 V bank: it has more amp-hours", mistake="BV-07"),
                Option("the 48 V bank: energy grows with the volts once more", mistake="BV-08"),
                Option("it cannot be told until both are counted at 12 V", mistake="BV-09"),
            ),
        ),
        Choose(
            id="L03-recall-2",
            title="From the lesson on voltage: when?",
            statement="A kettle runs through the inverter. When is the current in the cable from the battery largest?",
            hint="What do volts and amps make together, and does the kettle ask for less of it?",
            options=(
                Option(
                    "when the bank is nearly empty", "Its volts are lowest then; the power is the same.", right=True
                ),
                Option("just after a full charge, when the bank is strongest", mistake="BV-06"),
                Option("always the same: take the voltage on the label", mistake="BV-05"),
                Option("it follows the voltage at the socket", mistake="BV-02"),
            ),
        ),
        Choose(
            id="L03-recall-3",
            title="From the lesson on loads",
            statement="Somebody wants to know how long a bank lasts. Which figure of the loads list is needed?",
            hint="What does the bank hand out, and over what time?",
            options=(
                Option(
                    "the energy that a day takes out of the battery",
                    "An amount for a whole day, counted where it leaves the bank.",
                    right=True,
                ),
                Option("the power of everything that may run together", mistake="LD-04"),
                Option("the energy that a day's sockets deliver", mistake="LD-15"),
                Option("the energy of everything that somebody switches on", mistake="LD-12"),
            ),
        ),
    )


def _guess() -> Slot:
    return Guess(
        id="L03-guess",
        title="Guess, then lock it",
        statement="Fell hut's bank was sized for {autonomy_days} of autonomy. Think of a hundred years of its weather. "
        "In what share of them does the bank run empty at least once? Such a year we call dark.",
        hint="Nearly never, now and then, or nearly always?",
        principle="A year has many dark spells, and one that outlasts the bank is enough.",
        sheet=_YEARS,
        given=_RECORD,
        curated={"autonomy_days": 4},
        starts_curated=True,
        words=WORDS,
        step=Step("longer_years_frac"),
    )


def _explore() -> tuple[Slot, ...]:
    return (
        Rise(
            id="L03-explore",
            title="Predict, then slide",
            statement="Fell hut as the panel opens, but with {autonomy_days} of autonomy. Somebody pays for "
            "{autonomy_after_days} instead. A year is dark if it has a dark spell longer than the bank carries. What "
            "becomes of the share of dark years?",
            hint="How many of the years lie between the two lines?",
            principle="Each year has one dark spell that is its longest, and these differ widely. Every further day "
            "carries only the years whose longest lies within that day.",
            sheet=_YEARS,
            given=_RECORD,
            grids={"autonomy_days": (3, 3.5, 4, 4.5, 5), "autonomy_after_days": (6, 6.5, 7.5, 8, 9, 10)},
            curated={"autonomy_days": 4, "autonomy_after_days": 8},
            starts_curated=True,
            words=WORDS,
            result="longer_years_frac",
            moved="autonomy_days",
            after="autonomy_after_days",
            reasons=(
                Option(
                    "each further day carries only the years whose longest spell lies within it",
                    "The years' longest spells are spread widely, so no day carries them all.",
                    right=True,
                ),
                Option("one of the days of autonomy is sunny, and it fills the bank again", mistake="AU-05"),
                Option("more days share out the same store, so each of them gets less", mistake="AU-02"),
                Option(
                    "the share halves as often as the days double",
                    "What was the share at half of the first setting, and at a quarter?",
                ),
            ),
        ),
        Choose(
            id="L03-reason",
            title="Say why",
            statement="Even a dull day brings a little sun. Why does the line still count the whole load of every day "
            "of autonomy?",
            hint="Who can say, before it comes, how much sun the darkest week will bring?",
            principle=STORE_IDEA,
            options=(
                Option(
                    "nobody can promise that little sun, so the bank is sized to do without it",
                    "What sun does come is a reserve, and it shortens the spell.",
                    right=True,
                ),
                Option("it need not: one of the days is sunny, so one fewer would do", mistake="AU-05"),
                Option("it need not: every night takes one day's load, and no more", mistake="AU-01"),
                Option("it shares one store out over all the days", mistake="AU-02"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L03-faded-1",
            title="Faded: the first two lines are yours",
            statement="Riverbend takes {energy_day_wh} a day and asks for {autonomy_days} without sun. Its gel bank "
            "says {bank_ah} at {bank_voltage_v}; {depth_frac} of it may be used, and in the warm room it gives "
            "{kept_frac} of its label. What do the days ask for, and what is on the label?",
            hint=SUNLESS,
            principle=STORE_IDEA,
            sheet=STORE + CARRIED,
            given={"bank_voltage_v": 24, "kept_frac": 1},
            grids={
                "energy_day_wh": (1900, 2100, 2300, 2600),
                "autonomy_days": (3, 4, 5, 6),
                "bank_ah": (520, 640, 720, 880),
                "depth_frac": (0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 2100, "autonomy_days": 5, "bank_ah": 720, "depth_frac": 0.6},
            mistakes=(*STORE_MISTAKES, "AU-07"),
            words=WORDS,
            asked=(Step("spell_wh"), Step("bank_wh")),
            filled=(Step("bank_usable_wh"), Step("autonomy_given_days")),
        ),
        Work(
            id="L03-faded-2",
            title="Faded: all but the last line are yours",
            statement="Fell hut's flooded bank says {bank_ah} at {bank_voltage_v}. At most {depth_frac} of it is to be "
            "taken out, and on its coldest day it gives {kept_frac} of its label. The hut takes {energy_day_wh} a day; "
            "the warden wants {autonomy_days}.",
            hint=SLICE,
            principle=CARRIED_IDEA,
            sheet=STORE + CARRIED,
            given={"bank_voltage_v": 48},
            grids={
                "bank_ah": (580, 660, 760, 900),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.6, 0.66, 0.72),
                "energy_day_wh": (2200, 2400, 2600, 2900),
                "autonomy_days": (3, 4, 5, 6),
            },
            curated={
                "bank_ah": 760,
                "depth_frac": 0.6,
                "kept_frac": 0.6,
                "energy_day_wh": 2600,
                "autonomy_days": 4,
            },
            mistakes=(*STORE_MISTAKES, "AU-07", "AU-09"),
            words=WORDS,
            asked=tuple(map(Step, ("spell_wh", "bank_wh", "bank_usable_wh"))),
            filled=(Step("autonomy_given_days"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L03-1",
            title="Storage in amp-hours",
            statement="A farm's loads take {energy_day_wh} out of the battery on the hardest day. The farm is to "
            "last {autonomy_days} without any sun, on a bank of {bank_voltage_v}. How many amp-hours does a day take, "
            "and how many must the bank be able to give?",
            hint=SUNLESS,
            principle=STORE_IDEA,
            sheet=STORE_AH,
            grids={
                "energy_day_wh": (1850, 2050, 2150, 2350, 2600, 2900),
                "autonomy_days": (3, 4, 5, 6, 7),
                "bank_voltage_v": (24, 48),
            },
            curated={"energy_day_wh": 2150, "autonomy_days": 5, "bank_voltage_v": 24},
            mistakes=(*STORE_MISTAKES, "AU-04", "BV-07", "BV-08", "BV-09"),
            words=WORDS,
            asked=tuple(map(Step, STORE_AH)),
        ),
        Work(
            id="L03-2",
            title="How long does it last?",
            statement="A bank of {bank_ah} at {bank_voltage_v} stands in Fell hut. The maker allows {depth_frac} of "
            "the label to be used. In the cold of winter it gives {kept_frac} of its label. The loads take "
            "{energy_day_wh} a day. How many days without sun does it carry?",
            hint=SLICE,
            principle=CARRIED_IDEA,
            sheet=CARRIED,
            given={"bank_voltage_v": 48},
            grids={
                "bank_ah": (420, 540, 620, 760, 880),
                "depth_frac": (0.4, 0.6, 0.7, 0.8),
                "kept_frac": (0.66, 0.7, 0.76, 0.8),
                "energy_day_wh": (1900, 2200, 2600, 3100),
            },
            curated={"bank_ah": 760, "depth_frac": 0.4, "kept_frac": 0.7, "energy_day_wh": 2600},
            mistakes=CARRIED_MISTAKES,
            words=WORDS,
            asked=tuple(map(Step, CARRIED)),
        ),
        Backwards(
            id="L03-3",
            title="What may a day take?",
            statement="Nobody comes to Gull mast for {autonomy_days} of dark weather. Its bank can give "
            "{bank_usable_wh} and no more. What is the largest load a day that it carries through?",
            hint="With that load on each of the days, what do they take together?",
            principle="The days together may take what the bank can give, so each of them its share.",
            sheet=STORE,
            grids={
                "bank_usable_wh": (840, 960, 1150, 1350, 1500, 1700),
                "autonomy_days": (6, 8, 9, 11, 12, 14),
            },
            curated={"bank_usable_wh": 1350, "autonomy_days": 11},
            mistakes=STORE_MISTAKES,
            words=TOLD,
            unknown="energy_day_wh",
            span=(1, 50_000),
            result="spell_wh",
            wanted="bank_usable_wh",
        ),
        Backwards(
            id="L03-4",
            title="What must the label say?",
            statement="The weekend cabin takes {energy_day_wh} on a busy day and is to last {autonomy_days}. Its bank "
            "is {bank_voltage_v}; {depth_frac} of the label may be used, and in a cold spring it gives {kept_frac} of "
            "it. How many amp-hours must be on the label?",
            hint="How many days does that label carry, once only the part that may be used is counted?",
            principle=CARRIED_IDEA,
            sheet=CARRIED,
            grids={
                "energy_day_wh": (1100, 1400, 1700, 1900),
                "autonomy_days": (2, 3, 4),
                "bank_voltage_v": (24, 48),
                "depth_frac": (0.4, 0.6, 0.7, 0.8),
                "kept_frac": (0.8, 0.84, 0.9),
            },
            curated={
                "energy_day_wh": 1900,
                "autonomy_days": 3,
                "bank_voltage_v": 24,
                "depth_frac": 0.8,
                "kept_frac": 0.9,
            },
            mistakes=("AU-06", "AU-07", "AU-09"),
            words=WORDS | {"bank_ah": "amp-hours on the label"},
            unknown="bank_ah",
            span=(1, 100_000),
            result="autonomy_given_days",
            wanted="autonomy_days",
        ),
        Guess(
            id="L03-5",
            title="In your head",
            statement="The nurse at Riverbend points at the bank: {bank_ah} at {bank_voltage_v}, {depth_frac} "
            "may be used, the room is warm, and the clinic takes {energy_day_wh} a day. No paper, no machine: how many "
            "days does it carry?",
            hint="How many kilowatt-hours are on the label, roughly?",
            principle=CARRIED_IDEA,
            sheet=CARRIED,
            given={"kept_frac": 1},
            curated={"bank_ah": 720, "bank_voltage_v": 24, "depth_frac": 0.6, "energy_day_wh": 2170},
            starts_curated=True,
            words=WORDS,
            step=Step("autonomy_given_days"),
        ),
    )


def _judge() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L03-slip",
            title="Find the slip",
            statement="Somebody checked Riverbend's bank before the rains: {energy_day_wh} a day, {autonomy_days} "
            "asked for, {bank_ah} at {bank_voltage_v}, {depth_frac} of the label may be used, warm room. Find the "
            "first line that goes wrong, if there is one, and give its right value.",
            hint="What does this line begin from, and what should happen to it?",
            principle=f"{STORE_IDEA} {CARRIED_IDEA}",
            sheet=STORE + CARRIED,
            given={"bank_voltage_v": 24, "kept_frac": 1},
            grids={
                "energy_day_wh": (1900, 2100, 2300, 2600),
                "autonomy_days": (3, 4, 5, 6),
                "bank_ah": (520, 640, 720, 880),
                "depth_frac": (0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 2100, "autonomy_days": 5, "bank_ah": 720, "depth_frac": 0.6},
            mistakes=("AU-01", "AU-02", "AU-05", "AU-06", "AU-09"),
            words=WORDS,
        ),
        Choose(
            id="L03-request",
            title="The client's request",
            statement="Gull mast is alone from April to October. In 100 drawn years its longest dark spell of the year "
            "came to more than 3 days of load in 70, more than 5 in 24, more than 7 in 7, more than 10 in 1. The "
            "client wants 3 days, to save money: “the mean dark spell is not even one day”. What do you answer?",
            hint="How often does the mast fall silent with 3 days, and who goes out to it?",
            principle="Not the mean spell but the longest of each year empties a bank; who waits for help decides how "
            "rare that must be.",
            options=(
                Option(
                    "ten days or more: nobody can come, so one year in a hundred is a fair risk",
                    "With 3 days the mast would fall silent in 70 years of the hundred.",
                    right=True,
                ),
                Option("3 days: they are three times the mean dark spell", "In how many years does 3 days do?"),
                Option("2 days: one of the three is sunny anyway", mistake="AU-05"),
                Option("one day's load: it fills up again in between", mistake="AU-01"),
            ),
        ),
    )
