"""Problems of the strings lesson; what is judged, and what is mixed in from earlier lessons, stands beside it."""

from offgrid_core.practice.kinds import Backwards, Choose, Guess, Option, Order, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l06_judge_more import judge
from offgrid_core.practice.slots.l06_mixed_more import mixed
from offgrid_core.sizing import BANK
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.strings_teaching import AS_WIRED
from offgrid_core.worksheet import Sheet

WORDS = {
    "bank_needed_ah": "bank needed",
    "bank_cold_wh": "energy needed on the label",
    "bank_ah": "capacity of the bank as built",
    "bank_wh": "energy on its label",
    "owned_units_count": "units on hand",
    "kept_frac": "share kept in the cold",
    "energy_day_wh": "largest load a day",
}
#: From the amp-hours needed to the units on the floor.
COUNTS = STRINGS.upto("units_count")
#: From whole strings to what is on the label of the bank.
BUILT = Sheet(*(STRINGS[n] for n in ("units_in_series_count", "units_count", "bank_ah", "bank_wh")))
#: What a bank on the floor carries.
CARRIED = BUILT + Sheet(STRINGS["spell_depth_frac"])
COUNT_MISTAKES = ("ST-02", "ST-03", "ST-05", "ST-08", "ST-09")
STACK = "Which connection stacks volts, and which adds amp-hours?"
ENOUGH = "With so many whole strings, does the bank hold what is needed?"
IDEA = (
    "In a row the volts add up and the amp-hours stay those of one unit. Rows side by side add their amp-hours. "
    "Only whole rows count, and the number of rows is rounded up."
)
BUILT_IDEA = "Amp-hours add from string to string, never along one. Energy is those amp-hours at the bank's voltage."


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    numbers = [s for s in practice if s.grids]
    return (*_recall(), _guess(), *entry_check("L06", *numbers), *_explore(), *_faded(), *practice, *mixed(), *judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L06-recall-1",
            title="From the lesson on cold",
            statement="Fell hut's bank was sized for a battery at −8 °C. Then the shed is insulated, so that the "
            "battery never falls below 7 °C. What happens to the amp-hours that must be on the label?",
            hint="What share of its label does a warmer battery keep?",
            options=(
                Option("they fall", "More of the label is kept, and what is needed is divided by it.", right=True),
                Option("they rise: a warm battery is multiplied up", mistake="TE-01"),
                Option("they stay: the label was measured at 25 °C", mistake="TE-03"),
                Option("they stay: the air outside is as cold as before", mistake="TE-09"),
            ),
        ),
        Choose(
            id="L06-recall-2",
            title="From the lesson on depth",
            statement="Two banks carry the same load. One may be emptied by 50 %, the other by 80 %. "
            "Which one needs more amp-hours on its label, and why?",
            hint="Of 100 Ah on the label, how many may each of them give?",
            options=(
                Option(
                    "the 50 % one: a smaller part of its label may be used",
                    "The need is divided by the share that may be used.",
                    right=True,
                ),
                Option("the 80 % one: the need is taken times the depth", mistake="DD-01"),
                Option("neither: the load decides, not the depth", mistake="DD-02"),
                Option("the 80 % one: only a fifth of it may be used", mistake="DD-03"),
            ),
        ),
        Choose(
            id="L06-recall-3",
            title="From the lesson on voltage",
            statement="The same watt-hours are stored once at 24 V and once at 48 V. How do the amp-hours compare?",
            hint="What do volts and amp-hours make together?",
            options=(
                Option(
                    "half as many at 48 V",
                    "Energy is volts times amp-hours: twice the volts, half the rest.",
                    right=True,
                ),
                Option("twice as many at 48 V", mistake="BV-08"),
                Option("as many: amp-hours are the energy", mistake="BV-07"),
                Option("as many: amp-hours are counted at 12 V", mistake="BV-09"),
            ),
        ),
    )


def _guess() -> Slot:
    return Guess(
        id="L06-guess",
        title="Guess, then lock it",
        statement="Fell hut needs a bank of {bank_needed_ah} at {bank_voltage_v}. A dealer has units of {unit_v} and "
        "{unit_ah}. How many units must be on the lorry?",
        hint="How many make the volts, and how often must that row be repeated?",
        principle=IDEA,
        sheet=COUNTS,
        curated={"bank_needed_ah": 727, "bank_voltage_v": 48, "unit_v": 6, "unit_ah": 225},
        starts_curated=True,
        words=WORDS,
        step=Step("units_count"),
    )


def _explore() -> tuple[Slot, ...]:
    return (
        Rise(
            id="L06-explore",
            title="Predict, then slide",
            statement="Fell hut's {owned_units_count} units, {unit_ah} each, stand in strings of "
            "{units_in_series_count}. Put the same units in strings of {units_in_series_after_count}. What becomes of "
            "the capacity of the bank, in amp-hours?",
            hint="How many strings stand there before, and how many after?",
            principle=IDEA,
            sheet=AS_WIRED.upto("bank_ah"),
            curated={
                "owned_units_count": 16,
                "unit_ah": 380,
                "units_in_series_count": 8,
                "units_in_series_after_count": 4,
            },
            starts_curated=True,
            words=WORDS | {"bank_ah": "capacity of the bank"},
            result="bank_ah",
            moved="units_in_series_count",
            after="units_in_series_after_count",
            reasons=(
                Option(
                    "each string adds its amp-hours, and there are twice as many strings",
                    "What the amp-hours gain the volts lose: the energy on the floor is the same.",
                    right=True,
                ),
                Option("the amp-hours of all units are added, however they stand", mistake="ST-11"),
                Option("the capacity of a bank is that of one unit", mistake="ST-12"),
                Option("shorter strings hold more energy", "Was any unit added to the floor?"),
            ),
        ),
        Choose(
            id="L06-reason",
            title="Say why",
            statement="A bank asks for 3.2 strings of eight units. Why are 4 strings built, which is 32 units?",
            hint="What would each of the other counts leave you with?",
            principle=IDEA,
            options=(
                Option(
                    "3 strings are too few, and a part of a string has too few volts",
                    "So the count goes up to the next whole string.",
                    right=True,
                ),
                Option("26 units would hold enough energy; 32 only look tidier", mistake="ST-09"),
                Option("3.2 would round to 3; the fourth string is a spare", mistake="ST-04"),
                Option("eight units in a row already make eight times the amp-hours", mistake="ST-05"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L06-faded-1",
            title="Faded: the first two lines are yours",
            statement="A farm's bank is {bank_voltage_v} and must hold {bank_needed_ah}. The units on offer are "
            "{unit_v}, {unit_ah}.",
            hint=ENOUGH,
            principle=IDEA,
            sheet=COUNTS + Sheet(STRINGS["bank_ah"]),
            grids={
                "bank_needed_ah": (540, 610, 680, 730, 790, 840),
                "bank_voltage_v": (24, 48),
                "unit_v": (6, 12),
                "unit_ah": (190, 225, 250, 310),
            },
            curated={"bank_needed_ah": 540, "bank_voltage_v": 48, "unit_v": 6, "unit_ah": 225},
            mistakes=("ST-02", "ST-03", "ST-05"),
            words=WORDS,
            asked=(Step("units_in_series_count"), Step("strings_count")),
            filled=(Step("units_count"), Step("bank_ah")),
        ),
        Work(
            id="L06-faded-2",
            title="Faded: all but the last line are yours",
            statement="Riverbend's gel bank is {bank_voltage_v} and must hold {bank_needed_ah}. It is to be built "
            "from units of {unit_v} and {unit_ah}.",
            hint=ENOUGH,
            principle=f"{IDEA} {BUILT_IDEA}",
            sheet=COUNTS + Sheet(STRINGS["bank_ah"], STRINGS["bank_wh"]),
            given={"bank_voltage_v": 24},
            grids={
                "bank_needed_ah": (860, 930, 1020, 1080, 1150, 1240),
                "unit_v": (2, 6, 12),
                "unit_ah": (190, 265, 330, 390, 490),
            },
            curated={"bank_needed_ah": 1020, "unit_v": 2, "unit_ah": 490},
            mistakes=("ST-02", "ST-05", "ST-08", "ST-09", "ST-12"),
            words=WORDS,
            asked=tuple(map(Step, ("units_in_series_count", "strings_count", "units_count", "bank_ah"))),
            filled=(Step("bank_wh"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L06-1",
            title="Rows, strings, units",
            statement="A bank of {bank_voltage_v} must hold {bank_needed_ah}. A unit has {unit_v} and {unit_ah}. How "
            "many stand in one string, how many strings stand side by side, how many units is that, and what capacity "
            "has the bank then?",
            hint=STACK,
            principle=IDEA,
            sheet=COUNTS + Sheet(STRINGS["bank_ah"]),
            grids={
                "bank_needed_ah": (410, 520, 590, 660, 740, 870, 950),
                "bank_voltage_v": (24, 48),
                "unit_v": (2, 6, 12),
                "unit_ah": (130, 190, 225, 310, 380),
            },
            curated={"bank_needed_ah": 870, "bank_voltage_v": 48, "unit_v": 6, "unit_ah": 380},
            mistakes=COUNT_MISTAKES,
            words=WORDS,
            asked=(*map(Step, COUNTS), Step("bank_ah")),
        ),
        Work(
            id="L06-3",
            title="What stands in the shed",
            statement="In a shed stand {strings_count} strings, each {bank_voltage_v}, of units that say {unit_v} and "
            "{unit_ah}. How many units are there, and what is the capacity and the energy of the bank?",
            hint=STACK,
            principle=BUILT_IDEA,
            sheet=BUILT,
            grids={
                "strings_count": (2, 3, 4),
                "bank_voltage_v": (24, 48),
                "unit_v": (2, 6, 12),
                "unit_ah": (105, 190, 225, 310, 490),
            },
            curated={"strings_count": 3, "bank_voltage_v": 24, "unit_v": 6, "unit_ah": 225},
            mistakes=("ST-11", "ST-12", "ST-14"),
            words=WORDS,
            asked=(Step("units_count"), Step("bank_ah"), Step("bank_wh")),
        ),
        Order(
            id="L06-4",
            title="Put a bank together",
            statement="Two strings of lead-acid units come off the lorry. Put the work in order, so that nobody is "
            "hurt and no two ends meet before they were measured. The maker's sheet and the local code come first.",
            hint="What could happen at this card if another one had not been done before it?",
            principle="Protect yourself, measure, build one string at a time, measure again, and make the connection "
            "that lets current flow last of all.",
            cards={
                "protect": "rings off, goggles and gloves on, air moving",
                "measure": "measure every unit and set odd ones apart",
                "place": "set the units in rows, lifted by two people",
                "link": "link each string with insulated tools",
                "check": "measure volts and polarity of each string",
                "holders": "mount the string fuse holders, fuses out",
                "join": "join the strings, + with + and − with −",
                "fuses": "put the fuses in, one string after the other",
            },
            before=(
                ("protect", "measure"),
                ("protect", "place"),
                ("measure", "link"),
                ("place", "link"),
                ("link", "check"),
                ("check", "join"),
                ("holders", "join"),
                ("join", "fuses"),
                ("protect", "link"),
                ("check", "fuses"),
            ),
            extra={
                "old": "fill a short string with an older unit",
                "spark": "touch two ends together to see if it sparks",
            },
        ),
        Backwards(
            id="L06-6",
            title="What may this bank be asked for?",
            statement="A bank stands ready: {strings_count} strings at {bank_voltage_v}, of units with {unit_v} and "
            "{unit_ah}. In the cold it keeps {kept_frac} of its label; {depth_frac} may be taken out. It has to carry "
            "{autonomy_days} alone. What is the largest load a day?",
            hint="If the bank gives that load on every one of those days, how far down is it at the end?",
            principle=f"{BUILT_IDEA} What may be taken out of it is shared among the days.",
            sheet=CARRIED,
            grids={
                "strings_count": (2, 3),
                "bank_voltage_v": (24, 48),
                "unit_v": (2, 6, 12),
                "unit_ah": (190, 225, 310, 380),
                "kept_frac": (0.7, 0.8),
                "depth_frac": (0.4, 0.6, 0.7),
                "autonomy_days": (3, 4, 5),
            },
            curated={
                "strings_count": 2,
                "bank_voltage_v": 48,
                "unit_v": 6,
                "unit_ah": 380,
                "kept_frac": 0.7,
                "depth_frac": 0.6,
                "autonomy_days": 4,
            },
            mistakes=("ST-11", "ST-12", "ST-13"),
            words=WORDS,
            unknown="energy_day_wh",
            span=(20, 200_000),
            result="spell_depth_frac",
            wanted="depth_frac",
        ),
        Work(
            id="L06-7",
            title="From watt-hours to a stack of units",
            statement="Corrected for cold, {bank_cold_wh} must be on the label of a bank at {bank_voltage_v}. How many "
            "amp-hours is that, how many strings of {unit_v} units with {unit_ah}, how many units, and what "
            "capacity do they make?",
            hint=ENOUGH,
            principle=IDEA,
            sheet=Sheet(BANK["bank_needed_ah"]) + COUNTS + Sheet(STRINGS["bank_ah"]),
            grids={
                "bank_cold_wh": (15_000, 17_000, 19_000, 21_000, 23_000, 26_000, 29_000, 31_000, 35_000),
                "bank_voltage_v": (24, 48),
                "unit_v": (6, 12),
                "unit_ah": (130, 160, 190, 225, 265, 310, 380),
            },
            curated={"bank_cold_wh": 16_000, "bank_voltage_v": 24, "unit_v": 6, "unit_ah": 310},
            mistakes=("BV-09", "ST-04", "ST-05", "ST-08"),
            words=WORDS,
            asked=tuple(map(Step, ("bank_needed_ah", "strings_count", "units_count", "bank_ah"))),
        ),
    )
