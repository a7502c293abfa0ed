"""Other templates of the exit quiz on depth of discharge: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l04_words_more import DEEP, GO_BACK, HOURS, LABEL, PAGE, TAKEN, WORDS
from offgrid_core.sizing import BANK_1013
from offgrid_core.sizing.depth_teaching import AT_HOURS, BY_PEUKERT, HOW_FULL, WARM
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.worksheet import Sheet

_LEFT = Sheet(charge_left_frac)
_NOW = Sheet(HOW_FULL["charge_level_frac"])
_TIMES = {"capacity_hours_ratio": " of the label"}
_AT_PACE = Sheet(AT_HOURS["capacity_at_hours_ah"])
#: How full a bank is after a day's load, and after some amp-hours, counted at the load's pace.
_AFTER_A_DAY = Sheet(
    BANK_1013["day_ah"], HOW_FULL["depth_frac"].renamed("depth_frac", "depth of discharge", used_ah="day_ah")
)
_AFTER_AT_PACE = _AT_PACE + Sheet(
    HOW_FULL["depth_frac"].renamed("depth_frac", "depth of discharge", bank_ah="capacity_at_hours_ah")
)


def _labels() -> tuple[Slot, ...]:
    return (
        Work(
            id="L04-exit-1",
            title="Watt-hours for the mast",
            statement="The instruments of Gull mast use {energy_day_wh} each day. From the last boat of autumn on they "
            "are alone for {autonomy_days} of fog, and the order says: no deeper than {depth_frac}. Which energy do "
            "those days need, and which must be on the label?",
            hint=GO_BACK,
            sheet=Sheet(WARM["spell_wh"], WARM["bank_warm_wh"]),
            grids={
                "energy_day_wh": (90, 112, 126, 138, 155),
                "autonomy_days": (8, 9, 11, 12),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 112, "autonomy_days": 9, "depth_frac": 0.7},
            mistakes=("AU-02", "AU-05", *DEEP),
            words=WORDS,
            asked=(Step("spell_wh"), Step("bank_warm_wh")),
        ),
        Work(
            id="L04-exit-1",
            title="Amp-hours are known already",
            statement="Somebody has worked out that a cabin's dull week takes {spell_ah} out of the bank. Only "
            "{depth_frac} of any bank in this district may go out. Find the label, and the charge that is left after "
            "such a week.",
            hint=GO_BACK,
            sheet=Sheet(LABEL["for_depth_ah"]) + _LEFT,
            grids={
                "spell_ah": (130, 150, 190, 230, 270, 310, 370),
                "depth_frac": (0.3, 0.35, 0.4, 0.6, 0.65, 0.7),
            },
            curated={"spell_ah": 190, "depth_frac": 0.35},
            mistakes=(*DEEP, "DD-10"),
            words=WORDS,
            asked=(Step("for_depth_ah"), Step("charge_left_frac")),
        ),
        Work(
            id="L04-exit-1",
            title="From one dark week to the label",
            statement="Fell hut's sunless spell asks for {spell_wh}. With a limit of {depth_frac}, how many watt-hours "
            "stand on the label of a bank that stays warm? And how many amp-hours, at {bank_voltage_v}?",
            hint=GO_BACK,
            sheet=Sheet(WARM["bank_warm_wh"], WARM["bank_warm_ah"]),
            given={"bank_voltage_v": 48},
            grids={
                "spell_wh": (8400, 9200, 10500, 11800, 13000),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"spell_wh": 10500, "depth_frac": 0.4},
            mistakes=DEEP,
            words=WORDS,
            asked=(Step("bank_warm_wh"), Step("bank_warm_ah")),
        ),
    )


def _how_full() -> tuple[Slot, ...]:
    return (
        Work(
            id="L04-exit-2",
            title="Counted by hand",
            statement="The nurse's log says that {used_ah} left the {bank_ah} of Riverbend since the last full charge. "
            "The order allows {depth_max_frac}. Give depth and state of charge.",
            hint=TAKEN,
            sheet=Sheet(HOW_FULL["depth_frac"]) + _NOW,
            grids={
                "used_ah": (140, 210, 260, 330, 390),
                "bank_ah": (720, 860, 980, 1100),
                "depth_max_frac": (0.6, 0.7, 0.8),
            },
            curated={"used_ah": 260, "bank_ah": 860, "depth_max_frac": 0.6},
            mistakes=("DD-10", "DD-11"),
            words=WORDS,
            asked=(Step("depth_frac"), Step("charge_level_frac")),
        ),
        Work(
            id="L04-exit-2",
            title="One day without sun",
            statement="No sun today on the moor. The day took {energy_day_wh} from the {bank_voltage_v} battery, which "
            "holds {bank_ah} and began the day full. Turn the day into amp-hours, then say how deep the battery went "
            "and what charge it still has.",
            hint=TAKEN,
            sheet=_AFTER_A_DAY + _NOW,
            grids={
                "energy_day_wh": (1900, 2300, 2600, 2900, 3400),
                "bank_voltage_v": (24, 48),
                "bank_ah": (240, 310, 380),
            },
            curated={"energy_day_wh": 2600, "bank_voltage_v": 48, "bank_ah": 310},
            mistakes=("BV-08", "BV-09", "DD-10"),
            words=WORDS,
            asked=(Step("day_ah"), Step("depth_frac"), Step("charge_level_frac")),
        ),
        Work(
            id="L04-exit-2",
            title="At the limit",
            statement="At the pace of its loads a mast's battery holds {capacity_at_hours_ah}. Its order allows "
            "{depth_frac}. How many amp-hours may the loads have, and what will the meter show when they have had "
            "them all?",
            hint="Which part of what it holds belongs to the loads, and which part stays?",
            sheet=Sheet(AT_HOURS["usable_ah"]) + _LEFT,
            grids={
                "capacity_at_hours_ah": (95, 115, 145, 185, 225),
                "depth_frac": (0.3, 0.35, 0.4, 0.6, 0.65, 0.7),
            },
            curated={"capacity_at_hours_ah": 145, "depth_frac": 0.35},
            mistakes=("DD-10", "DD-13", "AU-09"),
            words=WORDS,
            asked=(Step("usable_ah"), Step("charge_left_frac")),
        ),
    )


def _hours() -> tuple[Slot, ...]:
    return (
        Work(
            id="L04-exit-3",
            title="How deep did that go?",
            statement="A second-hand battery was sold as {bank_ah} ({capacity_hours_h}). Tools at a building site "
            "empty it much faster, so only {capacity_hours_ratio} is there. By noon {used_ah} had gone. How "
            "much is there at all, how deep did the morning go, and what is left?",
            hint=HOURS,
            sheet=_AFTER_AT_PACE + _NOW,
            given={"capacity_hours_h": 100},
            grids={
                "bank_ah": (150, 190, 230, 280),
                "capacity_hours_ratio": (0.62, 0.66, 0.7, 0.75),
                "used_ah": (32, 36, 41),
            },
            curated={"bank_ah": 190, "capacity_hours_ratio": 0.66, "used_ah": 36},
            mistakes=("DD-12", "DD-10"),
            words=WORDS,
            marks=_TIMES,
            asked=(Step("capacity_at_hours_ah"), Step("depth_frac"), Step("charge_level_frac")),
        ),
        Work(
            id="L04-exit-3",
            title="By Peukert's law",
            statement="A flooded bank, {bank_ah} by its {capacity_hours_h} label, has an exponent of "
            "{peukert_exponent}. Everything switched on together would flatten it in {functional_hours_h}. Which "
            "multiple of the label is that, how many amp-hours, and what of them may be drawn with a limit of "
            "{depth_frac}?",
            hint=HOURS,
            sheet=BY_PEUKERT,
            given={"capacity_hours_h": 20},
            grids={
                "bank_ah": (225, 310, 380, 420),
                "peukert_exponent": (1.2, 1.25, 1.3),
                "functional_hours_h": (4, 5, 6, 8),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"bank_ah": 380, "peukert_exponent": 1.25, "functional_hours_h": 5, "depth_frac": 0.6},
            mistakes=("DD-12", "DD-13", "AU-09"),
            words=WORDS,
            marks=_TIMES,
            asked=tuple(map(Step, BY_PEUKERT)),
        ),
        Work(
            id="L04-exit-3",
            title="Only the capacity",
            statement="Three figures are printed on a crate for Riverbend; the boldest is {bank_ah}, for "
            "{capacity_hours_h}. The clinic's fans would run it down in {functional_hours_h}. By its sheet it "
            "holds {capacity_hours_ratio} then. Which capacity goes into the sizing?",
            hint=HOURS,
            sheet=_AT_PACE,
            given={"capacity_hours_h": 120},
            grids={
                "bank_ah": (440, 520, 610, 700, 820),
                "functional_hours_h": (9, 10, 14),
                "capacity_hours_ratio": (0.69, 0.73, 0.77, 0.81),
            },
            curated={"bank_ah": 610, "functional_hours_h": 10, "capacity_hours_ratio": 0.73},
            mistakes=("DD-12",),
            words=WORDS,
            marks=_TIMES,
            asked=(Step("capacity_at_hours_ah"),),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L04-exit-6",
            title="A page in watt-hours",
            statement="Gull mast again: its load is {energy_day_wh} every day, its wait {autonomy_days}, its battery "
            "{bank_voltage_v}, and {depth_frac} of that may be spent. A colleague wrote the lines below. Does one of "
            "them not follow, and what belongs there?",
            hint=GO_BACK,
            sheet=WARM,
            given={"bank_voltage_v": 12},
            grids={
                "energy_day_wh": (92, 108, 122, 136),
                "autonomy_days": (7, 9, 11, 13),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"energy_day_wh": 122, "autonomy_days": 9, "depth_frac": 0.6},
            mistakes=("AU-05", "DD-01", "DD-03", "DD-05", "DD-06"),
            words=PAGE,
        ),
        Slip(
            id="L04-exit-6",
            title="A page of a night",
            statement="The warden's son kept count after a full charge: {load_a} for {load_h} out of {bank_ah}, of "
            "which {depth_max_frac} may go. This is what he wrote. Look for the first line that cannot be, if any is, "
            "and set it right.",
            hint=TAKEN,
            sheet=HOW_FULL,
            grids={
                "load_a": (12, 15, 18, 21, 24),
                "load_h": (5, 7, 9),
                "bank_ah": (360, 480, 620),
                "depth_max_frac": (0.6, 0.7, 0.8),
            },
            curated={"load_a": 18, "load_h": 9, "bank_ah": 480, "depth_max_frac": 0.6},
            mistakes=("DD-10", "DD-11"),
            words=PAGE,
        ),
        Slip(
            id="L04-exit-6",
            title="A page about a label",
            statement="Before a bank is bought for a workshop, its {bank_ah} label ({capacity_hours_h}) was turned "
            "into what the saws can have. They run it down in {functional_hours_h}; exponent {peukert_exponent}, limit "
            "{depth_frac}. Peukert's law gave line 1. Is a line amiss, and which value is due in it?",
            hint=HOURS,
            sheet=BY_PEUKERT,
            given={"capacity_hours_h": 100},
            grids={
                "bank_ah": (280, 360, 470, 590),
                "functional_hours_h": (6, 7, 9, 10),
                "peukert_exponent": (1.15, 1.2, 1.25),
                "depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={"bank_ah": 360, "functional_hours_h": 7, "peukert_exponent": 1.2, "depth_frac": 0.4},
            mistakes=("DD-12", "DD-13", "AU-09"),
            words=PAGE,
            marks=_TIMES,
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_labels(), _how_full(), _hours(), _pages())}
