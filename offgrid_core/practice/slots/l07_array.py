"""Problems of the array lesson; what is judged, and what is mixed in from earlier lessons, stands beside it."""

from offgrid_core.practice.kinds import Choose, Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l07_judge_more import judge
from offgrid_core.practice.slots.l07_mixed_more import mixed
from offgrid_core.practice.slots.l07_ranges_more import ranges
from offgrid_core.practice.slots.l07_sheets_more import (
    BACK,
    ENOUGH,
    FULL_SUN,
    LOSS_IDEA,
    LOSSES,
    MODULES,
    MONTH,
    MONTH_IDEA,
    MONTHS,
    NAMES_HINT,
    STRING_IDEA,
    SUMMER_LOADS,
    SUN,
    SUN_IDEA,
    SUN_NORTH,
    TWELVE,
    WHICH,
    WORDS,
)
from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.sizing.array_teaching import SEASONS
from offgrid_core.worksheet import Sheet

#: The cabin's months with winter's share moved.
_MOVED = SEASONS + Sheet(*(ARRAY_NEED[n] for n in ("load_sun_by_month_w", "array_by_month_w", "array_for_load_w")))
#: The weekend cabin as its plan is sized: a test solves it again.
_CABIN = {
    "listed_by_month_wh": (
        *(621.5277, 614.70554, 619.95335, 625.20117, 621.00292, 623.62682),
        *(633.07289, 646.7172, 641.46939, 645.66764, 640.41983, 628.34985),
    ),
    "winter_half_by_month_frac": (1, 1, 1, 0, 0, 0, 0, 0, 0, 1, 1, 1),
    "peak_sun_by_month_h": (
        *(3.31494, 4.06171, 4.26138, 4.13285, 4.10662, 4.12021),
        *(4.3308, 4.31929, 4.22965, 3.70074, 2.90343, 2.80465),
    ),
    "delivered_by_month_frac": (
        *(0.8497, 0.8497, 0.8497, 0.83084, 0.81197, 0.79625),
        *(0.78682, 0.78996, 0.80568, 0.82455, 0.84655, 0.8497),
    ),
    "array_load_ratio": 1.3,
}


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    entry = entry_check("L07", *practice)
    return (*_recall(), _guess(), *entry, *_explore(), *_faded(), *practice, *mixed(), *ranges(), *judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L07-recall-1",
            title="From the lesson on strings",
            statement="A bank asks for 2.3 strings of units. Why are three built, and not two?",
            hint="What would two strings leave you with on the last evening?",
            options=(
                Option("two hold too little", "A need is a floor: it is rounded up to whole strings.", right=True),
                Option("2.3 is nearer to 2, so the third string is a spare", mistake="ST-04"),
                Option("each unit of a string adds its amp-hours", mistake="ST-11"),
                Option("so that the volts add up to the bank's", "Which connection stacks volts, row or rows?"),
            ),
        ),
        Choose(
            id="L07-recall-2",
            title="From the lesson on cold",
            statement="A cold bank keeps 80 % of its label. Why is the need divided by 0.8, and not raised by 20 %?",
            hint="What does each of the two give when it is taken into the cold?",
            options=(
                Option(
                    "the cold takes a fifth of whatever is bought, the extra too",
                    "Going back must land on the need: 0.8 times 1.25 is one.",
                    right=True,
                ),
                Option("20 % is lost, so adding 20 % brings it back", mistake="TE-02"),
                Option("because a cold bank needs fewer amp-hours", mistake="TE-01"),
                Option("dividing is only the cautious way of adding", "Do 100 ÷ 0.8 and 100 × 1.2 come out alike?"),
            ),
        ),
        Choose(
            id="L07-recall-3",
            title="From the lesson on autonomy",
            statement="Four days of autonomy are planned. What do they say about the array?",
            hint="Which part carries the load while there is no sun?",
            options=(
                Option(
                    "nothing: they size the bank, which carries days without sun",
                    "The array makes a day's energy in a day; the bank carries the rest.",
                    right=True,
                ),
                Option("it must make four days' energy in one day", mistake="AR-05"),
                Option("it may be small: the bank does its work", "Who fills the bank again after those days?"),
                Option("it works with a tenth of the sun on those days", "Is any sun counted on in those days?"),
            ),
        ),
    )


def _guess() -> Slot:
    return Guess(
        id="L07-guess",
        title="Guess, then lock it",
        statement="On a mean day of December Fell hut takes {battery_mean_by_month_wh} out of its battery. How many "
        "watts of modules does it take to bring that back, at 54° north?",
        hint="How many hours of full sun has a December day up there?",
        principle="The array makes up in watts what the month lacks in hours.",
        sheet=MONTH,
        given={"plane_by_month_kwh_m2": 1.0824, "shade_by_month_frac": 1, "delivered_by_month_frac": 0.71554}
        | {"array_load_ratio": 1.2}
        | FULL_SUN,
        curated={"battery_mean_by_month_wh": 2408},
        starts_curated=True,
        words=WORDS,
        step=Step("array_by_month_w"),
    )


def _explore() -> tuple[Slot, ...]:
    return (
        Rise(
            id="L07-explore",
            title="Predict, then slide",
            statement="The cabin's winter half, October to March, takes {winter_share_frac} of the year's energy. Its "
            "owners turn into summer guests: winter keeps {winter_share_after_frac}, the rest moves to the bright "
            "half. Not one watt-hour is added in the year. What becomes of the array for the load?",
            hint="Which month has the most load beside its sun now?",
            principle=MONTH_IDEA,
            sheet=_MOVED,
            given=_CABIN,
            curated={"winter_share_frac": 0.5, "winter_share_after_frac": 0.2},
            starts_curated=True,
            words=WORDS | {"winter_share_frac": "winter's share"},
            result="array_for_load_w",
            moved="winter_share_frac",
            after="winter_share_after_frac",
            reasons=(
                Option(
                    "a summer month now has the most load beside its sun, and this steep array is set for winter",
                    "December stopped ruling on the way; from there on each step to summer asks for more.",
                    right=True,
                ),
                Option("the year needs as much as before, so the array stays as it is", mistake="AR-18"),
                Option("the darkest month rules, and it has less to carry now", mistake="AR-27"),
                Option("it is sized on the mean sun of the year", mistake="AR-03"),
            ),
        ),
        Choose(
            id="L07-reason",
            title="Say why",
            statement="The hut's array is worked with December's load and with December's sun. Why must the two come "
            "from one month?",
            hint="Does the sun of June ever meet the load of December?",
            principle=MONTH_IDEA,
            options=(
                Option(
                    "a day's load is met by that day's sun, so each month stands by itself",
                    "The month with the most load for each hour of its own sun rules.",
                    right=True,
                ),
                Option("a sunny summer makes up for a dark winter over the year", mistake="AR-18"),
                Option("they need not: largest load and least sun is safest, wherever they fall", mistake="AR-20"),
                Option("the mean sun of the year would do as well, and is easier to find", mistake="AR-03"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L07-faded-1",
            title="Faded: the first two lines are yours",
            statement="June rules at Gull mast. Its tilted array gets {plane_by_month_kwh_m2} a day; the rock behind "
            "it leaves {shade_by_month_frac} of that. From sunrise to sunset are {daylight_by_month_h}. The load is "
            "{battery_mean_by_month_wh} a day. Of each watt-hour the array makes, {delivered_by_month_frac} arrives at "
            "the load; the array-to-load ratio is {array_load_ratio}.",
            hint="Is the sun at full strength from morning to evening?",
            principle=f"{SUN_IDEA} {MONTH_IDEA}",
            sheet=MONTH,
            given=FULL_SUN | {"array_load_ratio": 1.4, "delivered_by_month_frac": 0.51},
            grids={
                "plane_by_month_kwh_m2": (1.7, 1.8, 1.9, 2.1),
                "shade_by_month_frac": (0.8, 0.85, 0.9),
                "daylight_by_month_h": (8.4, 8.8, 9.2),
                "battery_mean_by_month_wh": (105, 118, 127, 140),
            },
            curated={
                "plane_by_month_kwh_m2": 1.8,
                "shade_by_month_frac": 0.9,
                "daylight_by_month_h": 8.8,
                "battery_mean_by_month_wh": 118,
            },
            mistakes=("AR-06", "AR-07", "AR-09"),
            words=WORDS,
            asked=(Step("peak_sun_by_month_h"), Step("load_sun_by_month_w")),
            filled=(Step("array_by_month_w"),),
        ),
        Work(
            id="L07-faded-2",
            title="Faded: all but the last line are yours",
            statement="Fell hut's design month asks for {load_sun_by_month_w} of load for each hour of full sun. Dirt "
            "takes {soiling_frac}, wiring {wiring_loss_frac}, mismatch {mismatch_frac}; the controller passes on "
            "{converter_kept_frac}, the battery gives back {charge_eff_frac}. The array-to-load ratio is "
            "{array_load_ratio}; the bank asks for less. One string of modules is {modules_in_series_count} of "
            "{module_w}.",
            hint=BACK,
            principle=f"{LOSS_IDEA} {STRING_IDEA}",
            sheet=LOSSES + Sheet(ARRAY_NEED["array_for_load_w"]) + MODULES.upto("array_strings_count"),
            given={
                "heat_kept_by_month_frac": 1,
                "array_for_refill_w": 0,
                "array_for_current_w": 0,
                "modules_in_series_count": 2,
                "array_load_ratio": 1.2,
            },
            grids={
                "load_sun_by_month_w": (1650, 1900, 2100, 2250),
                "soiling_frac": (0.08, 0.12, 0.16),
                "wiring_loss_frac": (0.05, 0.07),
                "mismatch_frac": (0.04, 0.06),
                "converter_kept_frac": (0.94, 0.96),
                "charge_eff_frac": (0.75, 0.8),
                "module_w": (340, 410, 440),
            },
            curated={
                "load_sun_by_month_w": 2250,
                "soiling_frac": 0.12,
                "wiring_loss_frac": 0.05,
                "mismatch_frac": 0.04,
                "converter_kept_frac": 0.96,
                "charge_eff_frac": 0.75,
                "module_w": 440,
            },
            mistakes=("AR-01", "AR-02", "AR-10", "AR-14", "AR-15", "AR-26"),
            words=WORDS,
            asked=tuple(map(Step, ("losses_kept_frac", "delivered_by_month_frac", "array_by_month_w"))),
            filled=(Step("array_strings_count"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L07-1",
            title="One sun, three names",
            statement="A weather office gives {plane_by_month_mj_m2} a day on the tilted array for one month. Trees "
            "leave {shade_by_month_frac} of it; the days are {daylight_by_month_h} long. How many kWh/m² does the "
            "office mean, and how many peak sun hours reach the array?",
            hint=NAMES_HINT,
            principle=SUN_IDEA,
            sheet=SUN,
            given=FULL_SUN,
            grids={
                "plane_by_month_mj_m2": (5.2, 6.4, 7.7, 9.1, 11.3, 13.6),
                "shade_by_month_frac": (0.8, 0.85, 0.9),
                "daylight_by_month_h": (8.5, 9.3, 10.2),
            },
            curated={"plane_by_month_mj_m2": 7.7, "shade_by_month_frac": 0.85, "daylight_by_month_h": 9.3},
            mistakes=("AR-21", "AR-22", "AR-06"),
            words=WORDS,
            asked=(Step("plane_by_month_kwh_m2"), Step("peak_sun_by_month_h")),
        ),
        Work(
            id="L07-2",
            title="From loss to loss",
            statement="The design month asks for {load_sun_by_month_w} of load for each hour of full sun. Dirt takes "
            "{soiling_frac}, wiring {wiring_loss_frac}, mismatch {mismatch_frac}. Heat leaves "
            "{heat_kept_by_month_frac} of a module's power, the controller passes on {converter_kept_frac} and the "
            "battery gives back {charge_eff_frac}. The bank is for {autonomy_days}; the array-to-load ratio is "
            "{array_load_ratio}. Work down to the array.",
            hint=BACK,
            principle=LOSS_IDEA,
            sheet=LOSSES,
            grids={
                "load_sun_by_month_w": (210, 260, 340, 420),
                "soiling_frac": (0.10, 0.14, 0.18),
                "wiring_loss_frac": (0.06, 0.08),
                "mismatch_frac": (0.05, 0.07),
                "heat_kept_by_month_frac": (0.9, 0.94),
                "converter_kept_frac": (0.94, 0.97),
                "charge_eff_frac": (0.75, 0.8, 0.85),
                "autonomy_days": (4, 5, 7),
                "array_load_ratio": (1.2, 1.3),
            },
            curated={
                "load_sun_by_month_w": 340,
                "soiling_frac": 0.14,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.05,
                "heat_kept_by_month_frac": 0.94,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.8,
                "autonomy_days": 4,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-01", "AR-02", "AR-05", "AR-10", "AR-14", "AR-15", "AR-26"),
            words=WORDS,
            asked=tuple(map(Step, LOSSES)),
        ),
        Work(
            id="L07-3",
            title="A pump in the garden",
            statement="In summer the cabin waters its garden. The table has the load of each month and the sun on the "
            "array. Of what the array makes, {delivered_by_month_frac} reaches the load; the array-to-load ratio is "
            "{array_load_ratio}. Work out July and December, then the array for the month that rules.",
            hint=WHICH,
            principle=MONTH_IDEA,
            sheet=MONTHS,
            grids={
                "peak_sun_by_month_h": SUN_NORTH,
                "battery_mean_by_month_wh": SUMMER_LOADS,
                "delivered_by_month_frac": (0.58, 0.62, 0.66, 0.7),
                "array_load_ratio": (1.1, 1.2, 1.3),
            },
            curated={
                "peak_sun_by_month_h": SUN_NORTH[0],
                "battery_mean_by_month_wh": SUMMER_LOADS[0],
                "delivered_by_month_frac": 0.62,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-03", "AR-18", "AR-20", "AR-27"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("load_sun_by_month_w", 6), Step("load_sun_by_month_w", 11), Step("array_for_load_w")),
        ),
        Work(
            id="L07-4",
            title="The largest of three",
            statement="Three demands meet at one array: the load asks for {array_for_load_w}, refilling the bank in "
            "time for {array_for_refill_w}, a brisk charging current for {array_for_current_w}. Modules are "
            "{module_w}, {modules_in_series_count} in each string. What array is needed, how many "
            "strings and modules is that, and what do they come to?",
            hint=ENOUGH,
            principle=STRING_IDEA,
            sheet=MODULES,
            grids={
                "array_for_load_w": (950, 1640, 2380, 3150),
                "array_for_refill_w": (1140, 1890, 2720, 3580),
                "array_for_current_w": (820, 2010, 2460),
                "module_w": (175, 320, 410),
                "modules_in_series_count": (2, 3),
            },
            curated={
                "array_for_load_w": 2380,
                "array_for_refill_w": 2720,
                "array_for_current_w": 2010,
                "module_w": 410,
                "modules_in_series_count": 3,
            },
            mistakes=("AR-16", "AR-17"),
            words=WORDS,
            asked=tuple(map(Step, MODULES)),
        ),
    )
