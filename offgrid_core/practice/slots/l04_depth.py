"""Problems of the lesson on depth of discharge; what is judged stands beside it."""

from offgrid_core.data import cycle_life
from offgrid_core.practice.kinds import Backwards, Choose, Guess, Knob, Option, Rise, Work
from offgrid_core.practice.listing import Listing
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l04_judge_more import judge
from offgrid_core.practice.slots.l04_words_more import (
    DEEP,
    FULL_IDEA,
    GO_BACK,
    HOURS,
    HOURS_IDEA,
    LABEL,
    LABEL_IDEA,
    LIFE_IDEA,
    LIMIT,
    LIVED,
    TAKEN,
    WHICH_END,
    WORDS,
)
from offgrid_core.sizing import BANK, LOADS
from offgrid_core.sizing.depth_teaching import AT_HOURS, HOW_FULL, WARM
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.worksheet import Sheet

#: The loads of a day, then the bank's energy as if it stayed warm.
_FROM_LOADS = Sheet(
    *(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")),
    BANK["spell_wh"].renamed("spell_wh", BANK["spell_wh"].label, energy_day_wh="battery_day_wh"),
    BANK["bank_warm_wh"],
)
_AGM = cycle_life("agm")
_READABLE = (0.1, 0.2, 0.3, 0.5, 0.8)
_CYCLES = Listing(
    "An AGM bank of the (invented) catalogue",
    (("", "depth_counted_frac", _READABLE), ("", "cycles_count", tuple(float(_AGM(d)) for d in _READABLE))),
)


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    numbers, others = _numbers(), (_backwards(), _knob())
    return (*_recall(), _guess(), *entry_check("L04", *numbers), *_explore(), *_faded(), *numbers, *others, *judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L04-recall-1",
            title="From the lesson on autonomy",
            statement="Two clients have the same load. One wants 3 days of autonomy, the other 6. "
            "What do the 6 days buy, and what do they not?",
            hint="What happens on the seventh dark day?",
            options=(
                Option(
                    "twice the storage; spells longer than 6 days are still not carried",
                    "Autonomy is a promise for so many days, not for every weather.",
                    right=True,
                ),
                Option("half the storage: it is shared by more days", mistake="AU-02"),
                Option("the same storage: a night takes one day's load", mistake="AU-01"),
                Option("5 days of storage: the last of the 6 will be sunny", mistake="AU-05"),
            ),
        ),
        Choose(
            id="L04-recall-2",
            title="From the lesson on voltage",
            statement="A day's load at Riverbend is 2200 Wh. Why does a bank of 24 V need half the amp-hours that one "
            "of 12 V would need for it?",
            hint="What do volts and amp-hours make together?",
            options=(
                Option(
                    "each amp-hour carries twice the energy",
                    "Watt-hours are volts times amp-hours; the energy stays.",
                    right=True,
                ),
                Option("it does not: a day's watt-hours are its amp-hours", mistake="BV-07"),
                Option("it does not: twice the volts ask for twice the amp-hours", mistake="BV-08"),
                Option("it does not: amp-hours are always counted at 12 V", mistake="BV-09"),
            ),
        ),
        Choose(
            id="L04-recall-3",
            title="From the lesson on loads",
            statement="A bank is to be sized for Fell hut, where everything runs through the inverter. Which day's "
            "energy is it sized for, and where is it counted?",
            hint="What does the bank hand out, and when does it hand out most?",
            options=(
                Option(
                    "the hardest day's, where it leaves the battery",
                    "There the inverter's loss and its idle draw are in.",
                    right=True,
                ),
                Option("the hardest day's, at the sockets", mistake="LD-15"),
                Option("the power of everything together, at the battery", mistake="LD-04"),
                Option("the hardest day's, at the sockets, less the inverter's share", mistake="LD-13"),
            ),
        ),
    )


def _guess() -> Slot:
    return Guess(
        id="L04-guess",
        title="Guess, then lock it",
        statement="Gull mast takes {energy_day_wh} a day and must do without sun for {autonomy_days}. At most "
        "{depth_frac} may be taken out of its {bank_voltage_v} bank. Leave the cold aside. How many amp-hours must be "
        "on the label?",
        hint="How many amp-hours do the ten days take, and is that all of the bank?",
        principle=LABEL_IDEA,
        sheet=LABEL,
        curated={"energy_day_wh": 118, "autonomy_days": 10, "depth_frac": 0.8, "bank_voltage_v": 12},
        starts_curated=True,
        words=WORDS,
        step=Step("for_depth_ah"),
    )


def _explore() -> tuple[Slot, ...]:
    return (
        Rise(
            id="L04-explore",
            title="Predict, then slide",
            statement="Fell hut as the panel opens, but with a depth limit of {depth_frac}. Now the warden wants to be "
            "gentler: a limit of {depth_after_frac}. What becomes of the bank needed?",
            hint="The same load leaves the bank; which share of the label is it before, and which after?",
            principle=LABEL_IDEA,
            sheet=Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah"))),
            given={"energy_day_wh": 2628, "autonomy_days": 4, "kept_frac": 0.6022, "bank_voltage_v": 48},
            curated={"depth_frac": 0.8, "depth_after_frac": 0.4},
            starts_curated=True,
            words=WORDS,
            result="bank_needed_ah",
            moved="depth_frac",
            after="depth_after_frac",
            reasons=(
                Option(
                    "the same load must come out of half the share of the label",
                    "Half the share, twice the label: 0.4 of the new one is what 0.8 of the old one was.",
                    right=True,
                ),
                Option("less is taken out, so less has to be there", mistake="DD-01"),
                Option("0.4 is left over now in place of 0.8, so the label grows by as much", mistake="DD-05"),
                Option("the load is the same, so the label is the same", mistake="DD-02"),
            ),
        ),
        Choose(
            id="L04-reason",
            title="Say why",
            statement="The sunless days take 200 Ah, and only 60 % of the bank may be taken out. Why does the label "
            "say 333 Ah?",
            hint="What is 60 % of each of the four labels?",
            principle=LABEL_IDEA,
            options=(
                Option(
                    "60 % of 333 Ah are the 200 Ah that are needed",
                    "The limit is a share of the label, so the label is the need divided by it.",
                    right=True,
                ),
                Option("it should say 120 Ah: only 60 % is wanted", mistake="DD-01"),
                Option("it should say 280 Ah: the 40 % that stays in is added", mistake="DD-05"),
                Option("it should say 500 Ah: 40 % must stay in", mistake="DD-03"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L04-faded-1",
            title="Faded: the first two lines are yours",
            statement="Gull mast takes {energy_day_wh} a day, and nobody comes for {autonomy_days}. Its AGM bank of "
            "{bank_voltage_v} may be emptied by {depth_frac}.",
            hint=GO_BACK,
            principle=LABEL_IDEA,
            sheet=WARM,
            given={"bank_voltage_v": 12},
            grids={
                "energy_day_wh": (95, 105, 118, 130, 145),
                "autonomy_days": (7, 8, 11, 12),
                "depth_frac": (0.6, 0.7, 0.8),
            },
            curated={"energy_day_wh": 118, "autonomy_days": 11, "depth_frac": 0.7},
            mistakes=("AU-01", "AU-02", *DEEP),
            words=WORDS,
            asked=(Step("spell_wh"), Step("bank_warm_wh")),
            filled=(Step("bank_warm_ah"),),
        ),
        Work(
            id="L04-faded-2",
            title="Faded: all but the last line are yours",
            statement="Riverbend's hardest day takes {energy_day_wh}; the clinic wants {autonomy_days} of autonomy. "
            "Its gel bank is {bank_voltage_v}, with a depth limit of {depth_frac}.",
            hint=GO_BACK,
            principle=LABEL_IDEA,
            sheet=LABEL + Sheet(charge_left_frac),
            given={"bank_voltage_v": 24},
            grids={
                "energy_day_wh": (1850, 2050, 2170, 2350, 2600),
                "autonomy_days": (3, 4, 5, 6),
                "depth_frac": (0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 2170, "autonomy_days": 5, "depth_frac": 0.6},
            mistakes=("BV-08", "AU-02", "AU-05", *DEEP),
            words=WORDS,
            asked=tuple(map(Step, LABEL)),
            filled=(Step("charge_left_frac"),),
        ),
    )


def _numbers() -> tuple[Slot, ...]:
    return (
        Work(
            id="L04-1",
            title="From watt-hours to the label",
            statement="A household takes {energy_day_wh} on its hardest day and must last {autonomy_days} without "
            "sun. The bank is {bank_voltage_v}; at most {depth_frac} of it may be taken out. Leave the cold aside. "
            "What must the label say?",
            hint=GO_BACK,
            principle=LABEL_IDEA,
            sheet=LABEL,
            grids={
                "energy_day_wh": (1700, 2100, 2400, 2900, 3300),
                "autonomy_days": (3, 4, 5),
                "bank_voltage_v": (24, 48),
                "depth_frac": (0.3, 0.4, 0.6, 0.7, 0.8),
            },
            curated={"energy_day_wh": 2400, "autonomy_days": 5, "bank_voltage_v": 48, "depth_frac": 0.3},
            mistakes=("BV-07", "BV-09", "AU-01", "AU-05", "DD-04", *DEEP),
            words=WORDS,
            asked=tuple(map(Step, LABEL)),
        ),
        Work(
            id="L04-2",
            title="How full is it now?",
            statement="Fell hut's bank of {bank_ah} was full at dusk. The plan lets {depth_max_frac} of it be taken "
            "out. A heater for the pipes draws {load_a} for {load_h}. How many amp-hours went out, how deep is the "
            "bank discharged, and what is its state of charge?",
            hint=TAKEN,
            principle=FULL_IDEA,
            sheet=HOW_FULL,
            grids={
                "bank_ah": (460, 520, 640, 760),
                "depth_max_frac": (0.6, 0.7, 0.8),
                "load_a": (16, 19, 23, 27),
                "load_h": (6, 8, 9),
            },
            curated={"bank_ah": 640, "depth_max_frac": 0.7, "load_a": 23, "load_h": 8},
            mistakes=("DD-10", "DD-11"),
            words=WORDS,
            asked=tuple(map(Step, HOW_FULL)),
        ),
        Work(
            id="L04-3",
            title="A label of a hundred hours",
            statement="A dealer's label says {bank_ah}, and in small print: over {capacity_hours_h}. The load will "
            "empty this bank in {functional_hours_h}; in so short a time, says the maker, it gives "
            "{capacity_hours_ratio}. At most {depth_frac} may be taken out. How much does it hold at the "
            "load's pace, and how much of that may be used?",
            hint=HOURS,
            principle=HOURS_IDEA,
            sheet=AT_HOURS,
            given={"capacity_hours_h": 100},
            grids={
                "bank_ah": (180, 240, 320, 410, 550),
                "functional_hours_h": (9, 10, 11, 12),
                "capacity_hours_ratio": (0.68, 0.72, 0.76, 0.8),
                "depth_frac": (0.4, 0.6, 0.7),
            },
            curated={"bank_ah": 240, "functional_hours_h": 10, "capacity_hours_ratio": 0.72, "depth_frac": 0.6},
            mistakes=("DD-12", "DD-13", "AU-09"),
            words=WORDS,
            marks={"capacity_hours_ratio": " of the label"},
            asked=tuple(map(Step, AT_HOURS)),
        ),
        Work(
            id="L04-4",
            title="Worn out, or old?",
            statement="A mast's AGM bank goes through {cycles_year_count} cycles a year, each to a depth of "
            "{depth_counted_frac}. Its maker gives it {calendar_life_years} if it is hardly used. How many cycles does "
            "it stand, how many years would those last, and how long does the bank live?",
            hint=WHICH_END,
            principle=LIFE_IDEA,
            sheet=LIVED,
            given={"cycle_life": _AGM},
            grids={
                "cycles_year_count": (60, 80, 100, 120, 140, 160),
                "depth_counted_frac": (0.2, 0.3, 0.5),
                "calendar_life_years": (6, 7, 8, 9, 10),
            },
            curated={"cycles_year_count": 120, "depth_counted_frac": 0.3, "calendar_life_years": 8},
            mistakes=("CO-01", "CO-02", "CO-03", "CO-04"),
            words=WORDS,
            listed=(_CYCLES,),
            asked=tuple(map(Step, LIVED)),
        ),
    )


def _backwards() -> Slot:
    return Backwards(
        id="L04-5",
        title="What may a day take?",
        statement="A second-hand bank of {bank_ah} at {bank_voltage_v} is on offer for a farm. It may be emptied by "
        "{depth_frac} and must carry {autonomy_days}. What is the largest load a day for which its label is enough?",
        hint="If each of those days takes that much, which share of the label is gone at the end?",
        principle="Only the limit's share of the label may leave; the days have it together.",
        sheet=LABEL,
        grids={
            "bank_ah": (420, 560, 640, 780, 900),
            "bank_voltage_v": (24, 48),
            "depth_frac": (0.3, 0.4, 0.6, 0.7),
            "autonomy_days": (3, 4, 5, 6),
        },
        curated={"bank_ah": 640, "bank_voltage_v": 24, "depth_frac": 0.6, "autonomy_days": 4},
        mistakes=DEEP,
        words=WORDS | {"bank_ah": "bank on offer"},
        unknown="energy_day_wh",
        span=(5, 500_000),
        result="for_depth_ah",
        wanted="bank_ah",
    )


def _knob() -> Slot:
    return Knob(
        id="L04-6",
        title="Which knob moves the label most?",
        statement="The cabin's bank must carry {autonomy_days} of sockets, lamps and an inverter that idles all day. "
        "Somebody turns one of these knobs by a tenth. Which three move the energy on the label most?",
        hint="Which knob acts on all of the load, and which only on a part of it?",
        principle="What the whole need is divided by moves the label in full; a load moves it by its share of the day.",
        sheet=_FROM_LOADS,
        given={"dc_wiring_eff_frac": 1, "growth_factor": 1, "inverter_eff_frac": 0.8},
        grids={
            "ac_day_wh": (900, 1100, 1300),
            "dc_day_wh": (400, 500, 600),
            "inverter_idle_w": (8, 10, 12),
            "inverter_on_h": (20, 24),
            "autonomy_days": (3, 4, 5),
            "depth_frac": (0.4, 0.6, 0.7),
        },
        curated={
            "ac_day_wh": 1100,
            "dc_day_wh": 500,
            "inverter_idle_w": 10,
            "inverter_on_h": 24,
            "autonomy_days": 4,
            "depth_frac": 0.6,
        },
        words=WORDS | {"bank_warm_wh": "energy on the label", "depth_frac": LIMIT},
        result="bank_warm_wh",
        inputs=("depth_frac", "ac_day_wh", "dc_day_wh", "inverter_idle_w", "inverter_on_h"),
    )
