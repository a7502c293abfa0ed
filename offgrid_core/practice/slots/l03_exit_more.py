"""Other templates of the autonomy lesson's exit quiz: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l03_autonomy import (
    CARRIED,
    SLICE,
    STORE,
    STORE_AH,
    STORE_MISTAKES,
    SUNLESS,
    TOLD,
    WORDS,
)
from offgrid_core.practice.slots.l03_exit_choices_more import judged, meanings
from offgrid_core.sizing import BANK_1013
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

_USED = Sheet(STRINGS["bank_usable_wh"], STRINGS["autonomy_given_days"])
_SPELL_AH = Sheet(BANK_1013["spell_ah"])
_LINE = "What does this line begin from, and what should happen to it?"
_ON_HAND = WORDS | {"bank_ah": "amp-hours on the label"}


def _stores() -> tuple[Slot, ...]:
    return (
        Work(
            id="L03-exit-1",
            title="Read off a monitor",
            statement="The monitor in Fell hut says that an ordinary winter day draws {day_ah} from the battery. For "
            "{autonomy_days} under snow clouds nothing will come in. How many amp-hours must the bank be able to give?",
            hint=SUNLESS,
            sheet=_SPELL_AH,
            grids={"day_ah": (46, 51, 54.5, 57, 62, 68), "autonomy_days": (3, 4, 5, 6, 7)},
            curated={"day_ah": 54.5, "autonomy_days": 4},
            mistakes=(*STORE_MISTAKES, "AU-04"),
            words=WORDS,
            asked=(Step("spell_ah"),),
        ),
        Work(
            id="L03-exit-1",
            title="Before the rains",
            statement="Riverbend plans for {autonomy_days} of monsoon without sun. What leaves the battery in a day, "
            "lights and vaccine fridge together, is {energy_day_wh}; its bank is {bank_voltage_v}. Give a day's "
            "amp-hours and those of the whole spell.",
            hint=SUNLESS,
            sheet=STORE_AH,
            given={"bank_voltage_v": 24},
            grids={
                "energy_day_wh": (1750, 1950, 2170, 2250, 2450, 2750),
                "autonomy_days": (3, 4, 5, 6),
            },
            curated={"energy_day_wh": 2170, "autonomy_days": 5},
            mistakes=(*STORE_MISTAKES, "BV-08"),
            words=WORDS,
            asked=tuple(map(Step, STORE_AH)),
        ),
        Work(
            id="L03-exit-1",
            title="Asked for, and there",
            statement="The weekend cabin is let to a family for {autonomy_days}, and the forecast is grey. They use "
            "{energy_day_wh} a day. The label says {bank_wh}; {depth_frac} of that may be taken, and {kept_frac} is "
            "left of it at this time of year. How much do they need, and how much can the bank give?",
            hint=SUNLESS,
            sheet=STORE + Sheet(STRINGS["bank_usable_wh"]),
            grids={
                "autonomy_days": (3, 4, 5),
                "energy_day_wh": (1250, 1450, 1700, 1900),
                "bank_wh": (5000, 7200, 8600, 10_100),
                "depth_frac": (0.6, 0.7, 0.8),
                "kept_frac": (0.8, 0.84, 0.9),
            },
            curated={
                "autonomy_days": 3,
                "energy_day_wh": 1450,
                "bank_wh": 7200,
                "depth_frac": 0.7,
                "kept_frac": 0.84,
            },
            mistakes=(*STORE_MISTAKES, "AU-09"),
            words=TOLD,
            asked=(Step("spell_wh"), Step("bank_usable_wh")),
        ),
    )


def _carried() -> tuple[Slot, ...]:
    return (
        Work(
            id="L03-exit-3",
            title="From the energy on the label",
            statement="On Gull mast's AGM bank one reads {bank_wh}. The rule there is to take out {depth_frac} and no "
            "more; the coldest week leaves {kept_frac}. What can the bank give in that week, and how long does a load "
            "of {energy_day_wh} a day last on it?",
            hint=SLICE,
            sheet=_USED,
            grids={
                "bank_wh": (1900, 2100, 2500, 2900),
                "depth_frac": (0.6, 0.7, 0.8),
                "kept_frac": (0.64, 0.68, 0.74),
                "energy_day_wh": (98, 108, 118, 132),
            },
            curated={"bank_wh": 2500, "depth_frac": 0.8, "kept_frac": 0.68, "energy_day_wh": 118},
            mistakes=("AU-06", "AU-08", "AU-09", "AU-10"),
            words=TOLD,
            asked=tuple(map(Step, _USED)),
        ),
        Work(
            id="L03-exit-3",
            title="Straight to the days",
            statement="Riverbend's room is warm, so its gel batteries give {kept_frac} of their label, {bank_wh} in "
            "all. Of this, {depth_frac} may be used. A technician asks over the radio: with {energy_day_wh} going out "
            "daily, when is the limit reached?",
            hint=SLICE,
            sheet=_USED,
            given={"kept_frac": 1},
            grids={
                "bank_wh": (12_300, 13_900, 15_600, 17_300, 19_400),
                "depth_frac": (0.4, 0.6, 0.7, 0.8),
                "energy_day_wh": (1900, 2170, 2400, 2700),
            },
            curated={"bank_wh": 15_600, "depth_frac": 0.6, "energy_day_wh": 2170},
            mistakes=("AU-06", "AU-08", "AU-09"),
            words=TOLD,
            asked=(Step("autonomy_given_days"),),
        ),
        Work(
            id="L03-exit-3",
            title="After a string was lost",
            statement="One string of Fell hut has failed; {bank_ah} at {bank_voltage_v} are left. How much energy is "
            "on these labels, and how many days does it make? The limit of use is {depth_frac}, the frost leaves "
            "{kept_frac}, and the household needs {energy_day_wh} every day.",
            hint=SLICE,
            sheet=CARRIED,
            given={"bank_voltage_v": 48},
            grids={
                "bank_ah": (225, 285, 350, 380, 430),
                "depth_frac": (0.6, 0.7, 0.8),
                "kept_frac": (0.62, 0.66, 0.72),
                "energy_day_wh": (2100, 2400, 2630, 2900),
            },
            curated={"bank_ah": 380, "depth_frac": 0.7, "kept_frac": 0.62, "energy_day_wh": 2630},
            mistakes=("AU-06", "AU-09", "AU-10"),
            words=WORDS,
            asked=(Step("bank_wh"), Step("autonomy_given_days")),
        ),
    )


def _backwards() -> tuple[Slot, ...]:
    return (
        Backwards(
            id="L03-exit-4",
            title="A label for the cabin",
            statement="How many amp-hours must stand on the cabin's label, at {bank_voltage_v}, so that "
            "{energy_day_wh} a day can be drawn for {autonomy_days} while the sun stays away? Of the label "
            "{depth_frac} may be used, and {kept_frac} is there in the cold.",
            hint="How many days does that label carry, once only the part that may be used is counted?",
            sheet=CARRIED,
            grids={
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (1200, 1500, 1800, 2100),
                "autonomy_days": (2, 3, 4),
                "depth_frac": (0.6, 0.7, 0.8),
                "kept_frac": (0.8, 0.84, 0.9),
            },
            curated={
                "bank_voltage_v": 24,
                "energy_day_wh": 1800,
                "autonomy_days": 3,
                "depth_frac": 0.8,
                "kept_frac": 0.9,
            },
            mistakes=("AU-06", "AU-07", "AU-09"),
            words=_ON_HAND,
            unknown="bank_ah",
            span=(1, 200_000),
            result="autonomy_given_days",
            wanted="autonomy_days",
        ),
        Backwards(
            id="L03-exit-4",
            title="Until the boat comes",
            statement="The next boat to Gull mast is uncertain. With {energy_day_wh} going out daily and "
            "{bank_usable_wh} that the bank can still hand out from full, how many sunless days at most may pass "
            "before the radio is cut off?",
            hint="What do so many days take together?",
            sheet=STORE,
            grids={
                "energy_day_wh": (95, 105, 118, 126, 140),
                "bank_usable_wh": (700, 810, 930, 1080, 1240, 1360),
            },
            curated={"energy_day_wh": 118, "bank_usable_wh": 1080},
            mistakes=("AU-04", "AU-05"),
            words=TOLD,
            unknown="autonomy_days",
            span=(0.5, 60),
            result="spell_wh",
            wanted="bank_usable_wh",
        ),
        Backwards(
            id="L03-exit-4",
            title="A load for the clinic's bank",
            statement="Riverbend's label reads {bank_ah} at {bank_voltage_v}, the room keeps all of it, and "
            "{depth_frac} is the share that may go. More beds are planned. Up to which daily energy does this bank "
            "still reach {autonomy_days}?",
            hint="With that load, how many days does the part that may be used last?",
            sheet=CARRIED,
            given={"bank_voltage_v": 24, "kept_frac": 1},
            grids={
                "bank_ah": (640, 720, 880, 980, 1220),
                "depth_frac": (0.4, 0.6, 0.7, 0.8),
                "autonomy_days": (3, 4, 5, 6),
            },
            curated={"bank_ah": 980, "depth_frac": 0.6, "autonomy_days": 5},
            mistakes=("AU-06", "AU-07", "AU-09"),
            words=WORDS,
            unknown="energy_day_wh",
            span=(1, 200_000),
            result="autonomy_given_days",
            wanted="autonomy_days",
        ),
    )


_CABIN = {
    "autonomy_days": (3, 4, 5),
    "energy_day_wh": (1250, 1450, 1700, 1900),
    "bank_ah": (260, 320, 380, 420),
    "depth_frac": (0.6, 0.7, 0.8),
    "kept_frac": (0.8, 0.84, 0.9),
}


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L03-exit-6",
            title="A page in amp-hours",
            statement="For Gull mast a student worked in amp-hours: {energy_day_wh} daily on {bank_voltage_v}, "
            "{autonomy_days} of fog. If a line of it is off, name the topmost one and mend it.",
            hint=_LINE,
            sheet=STORE_AH,
            given={"bank_voltage_v": 12},
            grids={"energy_day_wh": (95, 105, 118, 126, 140, 155), "autonomy_days": (6, 7, 9, 11, 12)},
            curated={"energy_day_wh": 118, "autonomy_days": 9},
            mistakes=("AU-01", "AU-02", "AU-05", "BV-08"),
            words=WORDS,
        ),
        Slip(
            id="L03-exit-6",
            title="A page for a letting",
            statement="Before letting the weekend cabin, its owner filled in this sheet. Stay of {autonomy_days}; "
            "{energy_day_wh} on each; {bank_ah}, {bank_voltage_v}; use {depth_frac}, left by the cold {kept_frac}. "
            "Look for the earliest error, should there be any.",
            hint=_LINE,
            sheet=STORE + CARRIED,
            given={"bank_voltage_v": 24},
            grids=_CABIN,
            curated={
                "autonomy_days": 3,
                "energy_day_wh": 1450,
                "bank_ah": 320,
                "depth_frac": 0.7,
                "kept_frac": 0.84,
            },
            mistakes=("AU-02", "AU-05", "AU-06", "AU-09", "AU-10"),
            words=_ON_HAND,
        ),
        Slip(
            id="L03-exit-6",
            title="A page about what is there",
            statement="Riverbend's technician wants to know what the present batteries are worth: {bank_ah} on a "
            "{bank_voltage_v} bus, {depth_frac} to be used, warm all year, daily draw {energy_day_wh}. Is one of these "
            "results not what it should be, and which comes first?",
            hint=_LINE,
            sheet=CARRIED,
            given={"bank_voltage_v": 24, "kept_frac": 1},
            grids={
                "bank_ah": (520, 640, 720, 880),
                "depth_frac": (0.4, 0.6, 0.7, 0.8),
                "energy_day_wh": (1900, 2100, 2300, 2600),
            },
            curated={"bank_ah": 720, "depth_frac": 0.6, "energy_day_wh": 2100},
            mistakes=("AU-06", "AU-08", "AU-09"),
            words=WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_stores(), meanings(), _carried(), _backwards(), judged(), _pages())
}
