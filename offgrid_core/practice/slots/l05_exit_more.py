"""Other templates of the temperature lesson's exit quiz: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.data import capacity_kept
from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l05_temperature import BACK, COLD, COLD_END, MARKS, WORDS
from offgrid_core.sizing import BANK
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.temperature import FAHRENHEIT, cold_gives_ah
from offgrid_core.worksheet import Sheet

_READING = FAHRENHEIT.upto("battery_temp_c")
_CHAIN = Sheet(BANK["spell_wh"], BANK["bank_warm_wh"]) + COLD_END
_SET = SET_POINTS.upto("absorb_set_v")
_FREEZING = "At what reading does water freeze on each scale?"
_WHICH_WAY = "How far is the battery from the label's temperature, and which way?"
_LINE = "What does this line begin from, and what should happen to it?"
_WORDS = WORDS | {"battery_temp_c": "battery temperature", "mean_temp_c": "yearly mean at the battery"}


def _scales() -> tuple[Slot, ...]:
    return (
        Work(
            id="L05-exit-1",
            title="A morning's rise",
            statement="Between dawn and noon the thermometer in the weekend cabin's plant room rises by "
            "{swing_fahrenheit}. Give the rise in kelvin.",
            hint="If nothing changed at all, what would the rise be on each scale?",
            sheet=Sheet(FAHRENHEIT["temp_rise_k"]),
            grids={"swing_fahrenheit": (6, 8, 11, 12, 13, 15, 17, 19, 21, 22, 24, 26, 29, 31)},
            curated={"swing_fahrenheit": 22},
            mistakes=("TE-13",),
            words=WORDS,
            marks=MARKS,
            asked=(Step("temp_rise_k"),),
            only={"temp_rise_k": ("K",)},
        ),
        Work(
            id="L05-exit-1",
            title="A hot afternoon",
            statement="At Riverbend a thermometer on the bank reads {reading_fahrenheit} at noon. By four it has risen "
            "by {swing_fahrenheit}. Give the noon reading in °C and the rise in kelvin.",
            hint=_FREEZING,
            sheet=FAHRENHEIT,
            grids={"reading_fahrenheit": (79, 82, 84, 88, 91), "swing_fahrenheit": (5, 7, 10, 14)},
            curated={"reading_fahrenheit": 88, "swing_fahrenheit": 7},
            mistakes=("TE-10", "TE-11", "TE-12", "TE-13"),
            words=_WORDS,
            marks=MARKS,
            asked=(Step("battery_temp_c"), Step("temp_rise_k")),
            only={"battery_temp_c": ("°C",), "temp_rise_k": ("K",)},
        ),
        Work(
            id="L05-exit-1",
            title="From the thermometer to the curve",
            statement="The warden of Fell hut reads {reading_fahrenheit} on the flooded bank, bought as {bank_ah}. "
            "What is that in °C, what share of its label does the bank keep, and how many amp-hours can it give?",
            hint=_FREEZING,
            sheet=_READING + Sheet(BANK["kept_frac"], cold_gives_ah),
            given={"capacity_kept": capacity_kept("flooded")},
            grids={"reading_fahrenheit": (23, 25, 27, 37, 39, 41, 43, 45), "bank_ah": (300, 380, 420, 500)},
            curated={"reading_fahrenheit": 25, "bank_ah": 380},
            mistakes=("TE-07", "TE-11", "TE-12"),
            words=_WORDS,
            marks=MARKS,
            asked=(Step("battery_temp_c"), Step("kept_frac"), Step("cold_gives_ah")),
            only={"battery_temp_c": ("°C",)},
        ),
    )


def _back() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L05-exit-2",
            title="130 or 143?",
            statement="Two people buy a bank for Gull mast that must give 100 Ah on the coldest day, when it keeps "
            "70 %. One buys 130 Ah, the other 143 Ah. Which bank will do?",
            hint="What does each of the two give on that day?",
            options=(
                Option("only the one of 143 Ah", "70 % of 143 Ah are the 100 Ah that are needed.", right=True),
                Option("both: 30 % is lost, and 130 Ah have 30 % added", mistake="TE-02"),
                Option("both, with room to spare: 70 Ah on the label would do", mistake="TE-01"),
                Option("neither: the cold counts on buying and again on use", mistake="TE-04"),
            ),
        ),
        Choose(
            id="L05-exit-2",
            title="Half the share",
            statement="A bank like Fell hut's is wanted for a far colder place, where it keeps 40 % of its label in "
            "place of 80 %. What happens to the label that it must have?",
            hint="What must the label be for 100 Ah, before and after?",
            given={"label_temp_c": 25},
            options=(
                Option(
                    "it doubles", "100 ÷ 0.8 is 125 and 100 ÷ 0.4 is 250: half the share, twice the label.", right=True
                ),
                Option("it falls to one half", mistake="TE-01"),
                Option("it grows by a third: from 1.2 to 1.6 times the warm bank", mistake="TE-02"),
                Option("it stays: the label is printed for {label_temp_c}", mistake="TE-03"),
            ),
        ),
        Choose(
            id="L05-exit-2",
            title="What comes home",
            statement="A bank keeps 80 % in the cold, so its label was made 1.25 times the warm bank. What does it "
            "give on the coldest day?",
            hint="What becomes of the larger bank when it is taken into the cold?",
            options=(
                Option("just what the warm bank would", "0.8 × 1.25 is 1: nothing short, nothing over.", right=True),
                Option("a twentieth more: 25 % was added, 20 % is lost", "Of which of the two banks are 20 % lost?"),
                Option("a fifth less: the cold has yet to be corrected for", mistake="TE-04"),
                Option("a quarter of it: the lost share is what counts", mistake="TE-06"),
            ),
        ),
    )


def _cold() -> tuple[Slot, ...]:
    return (
        Work(
            id="L05-exit-3",
            title="To the amp-hours on the label",
            statement="A toll house's flooded bank would be {bank_warm_wh} if it stayed warm, at {bank_voltage_v}. Its "
            "coldest day is {battery_temp_c}; the coldest air in the yard was {air_coldest_c}. What share is kept, and "
            "what must the label say in watt-hours and in amp-hours?",
            hint=BACK,
            sheet=COLD_END,
            given={"capacity_kept": capacity_kept("flooded"), "bank_voltage_v": 48},
            grids={
                "bank_warm_wh": (17000, 20000, 22000, 25000),
                "battery_temp_c": (-15, -12, 1.7, 4.4),
                "air_coldest_c": (-22, -20, -18),
            },
            curated={"bank_warm_wh": 20000, "battery_temp_c": 1.7, "air_coldest_c": -20},
            mistakes=("TE-07", "TE-09", *COLD, "BV-07", "BV-08", "BV-09"),
            words=WORDS,
            asked=tuple(map(Step, COLD_END)),
        ),
        Work(
            id="L05-exit-3",
            title="The heater fails",
            statement="The weekend cabin's iron phosphate bank must carry {spell_wh} through the sunless days; "
            "{depth_frac} of it may be taken out. When the heater fails, a guard stops all charging and the battery "
            "falls to {battery_temp_c}, where it gives {kept_frac} of its label. What would the bank be if it stayed "
            "warm, and what must the label say?",
            hint=BACK,
            sheet=Sheet(BANK["bank_warm_wh"], BANK["bank_cold_wh"]),
            given={"battery_temp_c": -18},
            grids={
                "spell_wh": (2700, 3300, 3900, 4400),
                "depth_frac": (0.75, 0.8, 0.85),
                "kept_frac": (0.66, 0.7, 0.72),
            },
            curated={"spell_wh": 3300, "depth_frac": 0.85, "kept_frac": 0.7},
            mistakes=("DD-01", "DD-02", "DD-03", "TE-01", "TE-02", "TE-03", "TE-04"),
            words=WORDS,
            asked=(Step("bank_warm_wh"), Step("bank_cold_wh")),
        ),
        Work(
            id="L05-exit-3",
            title="What is left of it",
            statement="A lighthouse's AGM bank says {bank_ah} on its label. On its coldest day it is at "
            "{battery_temp_c}; its yearly mean is {mean_temp_c}, and the coldest air was {air_coldest_c}. How many "
            "amp-hours can the bank give on that day?",
            hint="Would it give all, nearly all, or clearly less?",
            sheet=Sheet(BANK["kept_frac"], cold_gives_ah),
            given={"capacity_kept": capacity_kept("agm")},
            grids={
                "bank_ah": (120, 150, 180, 220),
                "battery_temp_c": (-5, -2.5, 0),
                "mean_temp_c": (8, 10),
                "air_coldest_c": (-20, -15),
            },
            curated={"bank_ah": 150, "battery_temp_c": -5, "mean_temp_c": 8, "air_coldest_c": -15},
            mistakes=("TE-07", "TE-08", "TE-09"),
            words=_WORDS,
            asked=(Step("kept_frac"), Step("cold_gives_ah")),
        ),
    )


_CELLS = {"cells_12v_count": 6, "label_temp_c": 25}
_PUSH = ("TE-14", "TE-15", "TE-16", "TE-17")


def _charging() -> tuple[Slot, ...]:
    return (
        Work(
            id="L05-exit-4",
            title="Set for the winter",
            statement="Gull mast's AGM bank is {bank_voltage_v}, with {cells_12v_count} cells in every 12 V. Its maker "
            "gives {absorb_cell_v} for each cell at {label_temp_c} and {compensation_mv_k} for each cell. Somebody "
            "sets it by hand for a winter at {battery_temp_c}. Find the absorption set-point.",
            hint=_WHICH_WAY,
            sheet=_SET,
            given=_CELLS | {"bank_voltage_v": 12},
            grids={
                "absorb_cell_v": (2.37, 2.4, 2.42),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (3, 4, 5, 6),
            },
            curated={"absorb_cell_v": 2.4, "compensation_mv_k": -4, "battery_temp_c": 4},
            mistakes=_PUSH,
            words=WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
        Work(
            id="L05-exit-4",
            title="What must the array reach?",
            statement="Fell hut's flooded bank is {bank_voltage_v}, with {cells_12v_count} cells in every 12 V: "
            "{absorb_cell_v} for each at {label_temp_c}, {compensation_mv_k} for each. The shed is at "
            "{battery_temp_c}. The controller needs {controller_headroom_v} more than the bank. Which voltage must the "
            "array reach, so that the bank is filled?",
            hint=_WHICH_WAY,
            sheet=_SET + Sheet(SET_POINTS["start_voltage_v"]),
            given=_CELLS | {"bank_voltage_v": 48},
            grids={
                "absorb_cell_v": (2.4, 2.43, 2.45),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (-12, -9, -5),
                "controller_headroom_v": (1.5, 2, 3),
            },
            curated={
                "absorb_cell_v": 2.43,
                "compensation_mv_k": -5,
                "battery_temp_c": -9,
                "controller_headroom_v": 2,
            },
            mistakes=_PUSH,
            words=WORDS,
            asked=(Step("absorb_set_v"), Step("start_voltage_v")),
        ),
        Work(
            id="L05-exit-4",
            title="One figure for the whole bank",
            statement="A boathouse's old lead-acid bank is {bank_voltage_v}, with {cells_12v_count} cells in "
            "every 12 V. Its data sheet says {absorb_cell_v} for each cell at {label_temp_c} and {compensation_mv_k} "
            "for each cell. The controller asks for the compensation of the whole bank. Give it, and the absorption "
            "set-point at {battery_temp_c}.",
            hint="How many cells feel each degree, and which way does each of them move?",
            sheet=_SET + Sheet(SET_POINTS["bank_compensation_mv_k"]),
            given=_CELLS,
            grids={
                "bank_voltage_v": (24, 48),
                "absorb_cell_v": (2.38, 2.41, 2.44),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (3, 5, 37, 40),
            },
            curated={"bank_voltage_v": 24, "absorb_cell_v": 2.41, "compensation_mv_k": -5, "battery_temp_c": 5},
            mistakes=_PUSH,
            words=WORDS,
            asked=(Step("cells_count"), Step("bank_compensation_mv_k"), Step("absorb_set_v")),
        ),
    )


def _which() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L05-exit-5",
            title="Where is the curve read?",
            statement="A beacon's log of one winter: the battery at its coldest {battery_temp_c}, the air "
            "{air_coldest_c}, the year's mean at the battery {mean_temp_c}. At which temperature is the curve of "
            "capacity read?",
            hint="Whose capacity is it, and when is it least?",
            given={"battery_temp_c": -5, "air_coldest_c": -14, "mean_temp_c": 7},
            options=(
                Option("{battery_temp_c}", "It is the battery's own coldest day that must do.", right=True),
                Option("{mean_temp_c}", mistake="TE-08"),
                Option("{air_coldest_c}", mistake="TE-09"),
                Option("23 °C, since the thermometer says 23 on its Fahrenheit scale", mistake="TE-07"),
            ),
        ),
        Choose(
            id="L05-exit-5",
            title="A warm room",
            statement="On most days Riverbend's bank is at {room_temp_c}, and the curve says that it gives more than "
            "its label there. Somebody wants to buy a smaller bank for that. What do you answer?",
            hint="What else does a hot room do to a bank, year by year?",
            given={"room_temp_c": 30},
            options=(
                Option(
                    "no: the share that is counted on is never above the whole label",
                    "Warmth gives a little today and takes years of life; it is never a reason to buy less.",
                    right=True,
                ),
                Option("yes: the room's yearly mean decides", mistake="TE-08"),
                Option("no: the coldest air outside decides", mistake="TE-09"),
                Option(
                    "yes: what the curve gives above the label is free",
                    "What will the same heat have done to this bank by its last year?",
                ),
            ),
        ),
        Choose(
            id="L05-exit-5",
            title="A box for the bank",
            statement="Fell hut's bank gets an insulated and vented box in its stone shed. Which figure of its sizing "
            "changes?",
            hint="What is the coldest that the battery itself will be, before and after?",
            given={"label_temp_c": 25},
            options=(
                Option(
                    "the share kept, since its own coldest day is warmer",
                    "The battery's temperature moved.",
                    right=True,
                ),
                Option("none: the coldest air in the yard is as before", mistake="TE-09"),
                Option("none: the label was measured at {label_temp_c}, with a box or without", mistake="TE-03"),
                Option("the share kept, but only if the year's mean changes", mistake="TE-08"),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L05-exit-6",
            title="A page of set-points",
            statement="Somebody set Fell hut's controller from this page. The lead-acid bank is {bank_voltage_v}, "
            "{cells_12v_count} cells in every 12 V: {absorb_cell_v} for each at {label_temp_c}, {compensation_mv_k} "
            "for each; shed at {battery_temp_c}, headroom of the controller {controller_headroom_v}. Where is the "
            "first slip, if there is one, and what should stand there?",
            hint=_WHICH_WAY,
            sheet=_SET + Sheet(SET_POINTS["start_voltage_v"]),
            given=_CELLS | {"bank_voltage_v": 48, "compensation_mv_k": -5},
            grids={
                "absorb_cell_v": (2.36, 2.4, 2.44),
                "battery_temp_c": (-14, -11, -8),
                "controller_headroom_v": (1.5, 2),
            },
            curated={"absorb_cell_v": 2.4, "battery_temp_c": -11, "controller_headroom_v": 2},
            mistakes=("TE-14", "TE-15", "TE-16"),
            words=WORDS,
        ),
        Slip(
            id="L05-exit-6",
            title="A page that begins in °F",
            statement="In a chalet's cellar an old thermometer showed {reading_fahrenheit} on the coldest "
            "day; the year's mean there is {mean_temp_c}. The flooded bank would be {bank_warm_wh} in a warm room. "
            "Check this page from the top: which line is the first that goes wrong, if one does, and what should it "
            "be?",
            hint=_LINE,
            sheet=_READING + COLD_END.upto("bank_cold_wh"),
            given={"capacity_kept": capacity_kept("flooded")},
            grids={
                "bank_warm_wh": (6000, 7000, 8000, 9000),
                "reading_fahrenheit": (23, 25, 39, 41),
                "mean_temp_c": (15.6, 18.3),
            },
            curated={"bank_warm_wh": 7000, "reading_fahrenheit": 39, "mean_temp_c": 15.6},
            mistakes=("TE-01", "TE-02", "TE-06", "TE-08", "TE-10", "TE-12"),
            words=_WORDS,
            marks=MARKS,
        ),
        Slip(
            id="L05-exit-6",
            title="A page for the tide gauge",
            statement="A tide gauge takes {energy_day_wh} a day and is alone for {autonomy_days}. Its AGM bank is "
            "{bank_voltage_v}, with a depth of {depth_frac}, and falls to {battery_temp_c}. Somebody sized it on this "
            "page. Where is the first slip, if there is one, and what should stand there?",
            hint=_LINE,
            sheet=_CHAIN,
            given={"capacity_kept": capacity_kept("agm"), "bank_voltage_v": 12},
            grids={
                "energy_day_wh": (90, 110, 125, 140),
                "autonomy_days": (8, 10, 12),
                "depth_frac": (0.6, 0.7, 0.8),
                "battery_temp_c": (-10, -5, 0),
            },
            curated={"energy_day_wh": 110, "autonomy_days": 10, "depth_frac": 0.8, "battery_temp_c": -5},
            mistakes=("AU-05", "DD-02", "DD-03", "TE-01", "TE-04", "BV-08"),
            words=WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_scales(), _back(), _cold(), _charging(), _which(), _pages())
}
