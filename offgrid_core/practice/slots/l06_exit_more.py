"""Other templates of the strings lesson's exit quiz: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l06_strings import BUILT, CARRIED, COUNTS, ENOUGH, STACK, WORDS
from offgrid_core.sizing import BANK
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.strings_teaching import AS_WIRED
from offgrid_core.worksheet import Sheet

_LINE = "What does this line begin from, and what should happen to it?"
_DOWN = "If the bank gives that much on every one of those days, how far down is it at the end?"


def _counts() -> tuple[Slot, ...]:
    return (
        Work(
            id="L06-exit-1",
            title="Into the boat",
            statement="For Gull mast, where AGM units of {unit_v} are stacked to {bank_voltage_v}: the label of the "
            "bank has to say {bank_needed_ah}, each block says {unit_ah}. How long is a row, and how many blocks go "
            "into the boat?",
            hint=STACK,
            sheet=COUNTS,
            given={"bank_voltage_v": 12},
            grids={
                "bank_needed_ah": (190, 230, 260, 310, 350, 420),
                "unit_v": (2, 4, 6),
                "unit_ah": (60, 75, 85, 105, 120),
            },
            curated={"bank_needed_ah": 260, "unit_v": 4, "unit_ah": 75},
            mistakes=("ST-02", "ST-08", "ST-09"),
            words=WORDS,
            asked=(Step("units_in_series_count"), Step("units_count")),
        ),
        Work(
            id="L06-exit-1",
            title="From the energy on",
            statement="Riverbend's bank must have {bank_cold_wh} on its label and is {bank_voltage_v}. Work the "
            "amp-hours, then how many gel units of {unit_v}, {unit_ah} make one string, how many strings, and the "
            "whole order.",
            hint=ENOUGH,
            sheet=Sheet(BANK["bank_needed_ah"]) + COUNTS,
            given={"bank_voltage_v": 24},
            grids={
                "bank_cold_wh": (13_000, 15_500, 18_000, 20_500, 23_500, 26_500),
                "unit_v": (2, 6, 12),
                "unit_ah": (140, 190, 245, 335),
            },
            curated={"bank_cold_wh": 18_000, "unit_v": 2, "unit_ah": 335},
            mistakes=("ST-02", "ST-05", "ST-09"),
            words=WORDS,
            asked=(Step("bank_needed_ah"), *map(Step, COUNTS)),
        ),
        Work(
            id="L06-exit-1",
            title="Unused, and all alike",
            statement="The weekend cabin at {bank_voltage_v} wants {bank_needed_ah}. A shop clears out unused blocks, "
            "all of one date: {unit_v} and {unit_ah} apiece. How many complete strings must be bought, and how many "
            "blocks altogether?",
            hint=ENOUGH,
            sheet=COUNTS,
            grids={
                "bank_needed_ah": (280, 340, 390, 470, 530, 590),
                "bank_voltage_v": (24, 48),
                "unit_v": (6, 8, 12),
                "unit_ah": (95, 125, 155, 205),
            },
            curated={"bank_needed_ah": 470, "bank_voltage_v": 24, "unit_v": 6, "unit_ah": 205},
            mistakes=("ST-02", "ST-03", "ST-09", "ST-10"),
            words=WORDS,
            asked=(Step("strings_count"), Step("units_count")),
        ),
    )


def _built() -> tuple[Slot, ...]:
    return (
        Work(
            id="L06-exit-2",
            title="Count the boxes",
            statement="Gull mast holds {strings_count} rows side by side, {bank_voltage_v} each, from {unit_v} blocks "
            "marked {unit_ah}. How many blocks are in the box, and what energy is printed on them together?",
            hint="Does every block hold energy, and are all of them counted?",
            sheet=BUILT,
            given={"bank_voltage_v": 12},
            grids={"strings_count": (2, 3, 4, 5), "unit_v": (2, 4, 6), "unit_ah": (65, 80, 105, 120, 140)},
            curated={"strings_count": 4, "unit_v": 6, "unit_ah": 105},
            mistakes=("ST-08", "ST-12", "ST-14"),
            words=WORDS,
            asked=(Step("units_count"), Step("bank_wh")),
        ),
        Work(
            id="L06-exit-2",
            title="A heap of units",
            statement="{owned_units_count} unused units of {unit_v} and {unit_ah} are left from another site. The "
            "weekend cabin puts them in strings of {units_in_series_count}. How many whole strings come out, and how "
            "many amp-hours has the bank?",
            hint="Is there a place for the units that fill no string?",
            sheet=AS_WIRED.upto("units_count", "bank_ah"),
            grids={
                "owned_units_count": (9, 10, 11, 13, 14, 15, 17, 18, 19),
                "units_in_series_count": (4, 6),
                "unit_v": (6, 8),
                "unit_ah": (110, 150, 195, 240),
            },
            curated={"owned_units_count": 14, "units_in_series_count": 4, "unit_v": 6, "unit_ah": 195},
            mistakes=("ST-11", "ST-12"),
            words=WORDS,
            asked=(Step("strings_count"), Step("bank_ah")),
        ),
        Work(
            id="L06-exit-2",
            title="Read off the stickers",
            statement="In Fell hut's shed there are {strings_count} equal strings. A sticker on each battery reads "
            "{unit_v}, {unit_ah}; from end to end a string measures {bank_voltage_v}. How many batteries have to be "
            "watered, and for how many amp-hours is the whole bank good?",
            hint=STACK,
            sheet=BUILT.upto("units_count", "bank_ah"),
            given={"bank_voltage_v": 48},
            grids={"strings_count": (2, 3, 4), "unit_v": (2, 6, 8, 12), "unit_ah": (175, 215, 290, 365)},
            curated={"strings_count": 2, "unit_v": 6, "unit_ah": 365},
            mistakes=("ST-08", "ST-12"),
            words=WORDS,
            asked=(Step("units_count"), Step("bank_ah")),
        ),
    )


def _carried() -> tuple[Slot, ...]:
    return (
        Backwards(
            id="L06-exit-3",
            title="How long alone?",
            statement="Gull mast draws {energy_day_wh} a day from {strings_count} strings, {bank_voltage_v}, made up "
            "of AGM blocks of {unit_v}, {unit_ah}. In winter {kept_frac} of the label is left, of which {depth_frac} "
            "may go. For how many sunless days is that enough?",
            hint=_DOWN,
            sheet=CARRIED,
            given={"bank_voltage_v": 12},
            grids={
                "strings_count": (2, 3),
                "unit_v": (2, 6),
                "unit_ah": (85, 105, 120),
                "energy_day_wh": (95, 110, 125),
                "kept_frac": (0.65, 0.7),
                "depth_frac": (0.6, 0.7),
            },
            curated={
                "strings_count": 3,
                "unit_v": 6,
                "unit_ah": 105,
                "energy_day_wh": 110,
                "kept_frac": 0.65,
                "depth_frac": 0.7,
            },
            mistakes=("ST-11", "ST-12"),
            words=WORDS | {"energy_day_wh": "energy a day"},
            unknown="autonomy_days",
            span=(0.5, 400),
            result="spell_depth_frac",
            wanted="depth_frac",
        ),
        Backwards(
            id="L06-exit-3",
            title="How large must each unit be?",
            statement="Riverbend has room for {strings_count} strings of {unit_v} gel units at {bank_voltage_v}. The "
            "clinic takes {energy_day_wh} daily and asks for {autonomy_days}; {kept_frac} of the capacity is kept, and "
            "no more than {depth_frac} of it is to be used. What must be printed on a single unit, in amp-hours?",
            hint="How many units add their amp-hours, and how many only their volts?",
            sheet=CARRIED,
            given={"bank_voltage_v": 24},
            grids={
                "strings_count": (2, 3),
                "unit_v": (2, 6),
                "energy_day_wh": (2100, 2400, 2800),
                "autonomy_days": (3, 4),
                "kept_frac": (0.86, 0.92),
                "depth_frac": (0.4, 0.6),
            },
            curated={
                "strings_count": 3,
                "unit_v": 2,
                "energy_day_wh": 2400,
                "autonomy_days": 4,
                "kept_frac": 0.92,
                "depth_frac": 0.4,
            },
            mistakes=("ST-11", "ST-12"),
            words=WORDS | {"energy_day_wh": "energy a day"},
            unknown="unit_ah",
            span=(1, 9000),
            result="spell_depth_frac",
            wanted="depth_frac",
        ),
        Backwards(
            id="L06-exit-3",
            title="How cold may it get?",
            statement="The cabin's {strings_count} strings ({bank_voltage_v}, batteries of {unit_v}, {unit_ah}) must "
            "last a weekend visit of {autonomy_days} with {energy_day_wh} a day, going down by {depth_frac} at most. "
            "Which share of the label has to be left in the cold for that?",
            hint="What share of the label do those days take at the depth limit, if all of it is kept?",
            sheet=CARRIED,
            given={"bank_voltage_v": 24, "strings_count": 3},
            grids={
                "unit_v": (2, 12),
                "unit_ah": (105, 115, 125),
                "energy_day_wh": (820, 900, 980),
                "autonomy_days": (3, 4),
                "depth_frac": (0.7, 0.8),
            },
            curated={"unit_v": 2, "unit_ah": 115, "energy_day_wh": 900, "autonomy_days": 4, "depth_frac": 0.8},
            mistakes=("ST-11",),
            words=WORDS | {"energy_day_wh": "energy a day"},
            unknown="kept_frac",
            span=(0.02, 3),
            result="spell_depth_frac",
            wanted="depth_frac",
        ),
    )


def _rounding() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L06-exit-4",
            title="One and a half in a row",
            statement="Somebody wants to build a 24 V bank from blocks of 16 V and writes: one and a half in series, "
            "so take two. What is your answer?",
            hint="What would two of those blocks measure from end to end, and what would one?",
            options=(
                Option(
                    "there is no such bank: neither one block nor two make 24 V",
                    "A series count is not rounded; another block is chosen.",
                    right=True,
                ),
                Option("two is safe: rounding up is the careful side", "What would the inverter meet at 32 V?"),
                Option("one will do, as two are too many", "Would the inverter start at 16 V?"),
                Option("take as many in series as the amp-hours ask for", mistake="ST-02"),
            ),
        ),
        Choose(
            id="L06-exit-4",
            title="The client saves a string",
            statement="Riverbend's sums say 2.9 strings. The client can pay for two only, and asks what it means to "
            "stop there. Which reply is honest?",
            hint="What does each string bring, and what else could give way?",
            options=(
                Option(
                    "two strings carry fewer days or a smaller load: say which",
                    "The number of strings may go down, if the promise goes down with it.",
                    right=True,
                ),
                Option("nothing changes: a third string is only a spare", mistake="ST-03"),
                Option("then add a few single blocks until the energy is right", mistake="ST-09"),
                Option("two long strings have more amp-hours than three short ones", mistake="ST-05"),
            ),
        ),
        Choose(
            id="L06-exit-4",
            title="One large or nine small",
            statement="Fell hut could have a single row of heavy 2 V cells, or nine rows of light 12 V blocks, about "
            "equal in energy. Which reason speaks for the single row?",
            hint="In which of the two can one battery work harder than the others without being noticed?",
            options=(
                Option(
                    "all its cells carry the same current: nothing has to be shared out",
                    "Nine rows share unevenly, have more joints, and hide a weak block.",
                    right=True,
                ),
                Option("its cells add their amp-hours along the row", mistake="ST-11"),
                Option("a cell can be carried by one person", "What does a cell of that size weigh?"),
                Option("nine rows would have a higher voltage", mistake="ST-07"),
            ),
        ),
    )


def _reading() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L06-exit-5",
            title="The short one",
            statement="In a photo of Fell hut's shed the upper row has eight batteries of 6 V, the lower one only "
            "seven. Their ends are joined at both sides. What happens, even with every load switched off?",
            hint="What would a meter show across each row, before they were joined?",
            options=(
                Option(
                    "the long row drives a large current through the short one",
                    "48 V against 42 V, with only copper and a few milliohms between: hundreds of amps for a "
                    "moment, then a charging current day and night that ruins both rows.",
                    right=True,
                ),
                Option("nothing, as no current is asked for", "What does a difference of six volts do in bare copper?"),
                Option("the bank settles at fifteen batteries' worth of amp-hours", mistake="ST-11"),
                Option("only the capacity is a little less", "Does a row without its eighth unit have the same volts?"),
            ),
        ),
        Choose(
            id="L06-exit-5",
            title="New beside old",
            statement="Gull mast's string is five years old and weak. A helper offers to set a brand-new string of the "
            "same size next to it, to save the old one. Why is that a poor bargain?",
            hint="Which of the two has the larger resistance, and which fills first?",
            options=(
                Option(
                    "the new string does most of the work and is dragged down by the old",
                    "They neither share the current nor want the same charge.",
                    right=True,
                ),
                Option("the voltages would add up", "Side by side or one behind the other: which adds volts?"),
                Option("two strings side by side have no more amp-hours than one", mistake="ST-12"),
                Option(
                    "new batteries hold no charge until they are a year old", "Is a new label empty on its first day?"
                ),
            ),
        ),
        Choose(
            id="L06-exit-5",
            title="Where does each fuse go?",
            statement="Riverbend's plan shows four parallel strings and one single fuse, in the main lead. A link "
            "inside string 2 drops onto its tray. What feeds that fault?",
            hint="Follow the current backwards from the fault: through which wires does it come?",
            options=(
                Option(
                    "the other three strings, and no fuse lies between",
                    "So each string has a fuse of its own, close to its end.",
                    right=True,
                ),
                Option("only string 2 itself, and it is soon empty", "Are the ends of the four strings not joined?"),
                Option("the main lead, and its fuse opens", "On which side of that fuse do the strings meet?"),
                Option("nothing: the trays are of plastic", "What may lie on a tray, or hang over it?"),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L06-exit-6",
            title="A page about the shed",
            statement="The warden wrote down what stands in the shed: {strings_count} strings of {bank_voltage_v}, "
            "batteries of {unit_v} and {unit_ah}. Check this page from the top: which line is the first that is off, "
            "if one is, and what should it say?",
            sheet=BUILT,
            given={"bank_voltage_v": 48},
            grids={"strings_count": (2, 3), "unit_v": (2, 6, 8, 12), "unit_ah": (165, 235, 305, 395)},
            curated={"strings_count": 2, "unit_v": 6, "unit_ah": 235},
            mistakes=("ST-08", "ST-10", "ST-11", "ST-12", "ST-13", "ST-14"),
            hint=_LINE,
            words=WORDS | {"strings_count": "strings in parallel"},
        ),
        Slip(
            id="L06-exit-6",
            title="From watt-hours down the page",
            statement="Someone sized Gull mast's AGM bank: {bank_cold_wh} on the label, {bank_voltage_v}, blocks with "
            "{unit_v} and {unit_ah} each. Where is the first slip, if any, and what belongs there?",
            sheet=Sheet(BANK["bank_needed_ah"]) + COUNTS,
            given={"bank_voltage_v": 12},
            grids={
                "bank_cold_wh": (2300, 2900, 3400, 4100, 4600),
                "unit_v": (2, 4, 6),
                "unit_ah": (60, 75, 105, 125),
            },
            curated={"bank_cold_wh": 3400, "unit_v": 6, "unit_ah": 105},
            mistakes=("BV-07", "BV-08", "ST-02", "ST-05", "ST-08"),
            hint=_LINE,
            words=WORDS,
        ),
        Slip(
            id="L06-exit-6",
            title="An offer from a dealer",
            statement="A dealer's offer to the weekend cabin, worked line by line: {bank_needed_ah} wanted, system "
            "voltage {bank_voltage_v}, article {unit_v}, {unit_ah}. Before anybody signs, find the line in which the "
            "offer first goes astray, or say that none does, and put it right.",
            sheet=COUNTS + Sheet(STRINGS["bank_ah"]),
            given={"bank_voltage_v": 24},
            grids={
                "bank_needed_ah": (250, 330, 370, 450, 520),
                "unit_v": (2, 6, 8, 12),
                "unit_ah": (70, 90, 115, 140),
            },
            curated={"bank_needed_ah": 370, "unit_v": 6, "unit_ah": 140},
            mistakes=("ST-03", "ST-09", "ST-11", "ST-12"),
            hint=_LINE,
            words=WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_counts(), _built(), _carried(), _rounding(), _reading(), _pages())
}
