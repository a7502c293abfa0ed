"""Other templates of the array lesson's exit quiz, places one to five: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_exit_modules_more import modules
from offgrid_core.practice.slots.l07_sheets_more import (
    AUTUMN_LOADS,
    BACK,
    FULL_SUN,
    LOSSES,
    MONTH,
    MONTHS,
    NAMES_HINT,
    SOUTH_LOADS,
    SUN,
    SUN_AUTUMN,
    SUN_SOUTH,
    SUN_TROPICS,
    TROPICS_LOADS,
    TWELVE,
    WHICH,
    WORDS,
)
from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.sizing.array_teaching import SUN_READ
from offgrid_core.worksheet import Sheet


def _sun() -> tuple[Slot, ...]:
    return (
        Work(
            id="L07-exit-1",
            title="From a seed merchant's almanac",
            statement="An almanac for growers near Gull mast lists {plane_by_month_mj_m2} a day in winter for a plane "
            "like that of the modules. How many kilowatt-hours on each square metre is that?",
            hint=NAMES_HINT,
            sheet=SUN_READ,
            grids={"plane_by_month_mj_m2": (4.7, 5.5, 6.2, 6.9, 7.5, 8.1, 8.8, 9.4, 10.3, 11.1, 12.2, 13.3, 14.1)},
            curated={"plane_by_month_mj_m2": 6.9},
            mistakes=("AR-21", "AR-22"),
            words=WORDS,
            asked=(Step("plane_by_month_kwh_m2"),),
        ),
        Work(
            id="L07-exit-1",
            title="Behind the palms",
            statement="On Riverbend's modules fall {plane_by_month_kwh_m2} of sun a day, deep in the rainy season; "
            "on level ground fall {flat_by_month_kwh_m2}. Palms let {shade_by_month_frac} through, and between dawn "
            "and dusk are {daylight_by_month_h}. Give the peak sun hours, and the load of {battery_mean_by_month_wh} "
            "for each of them.",
            hint="Is the sun at full strength from dawn to dusk?",
            sheet=MONTH.upto("load_sun_by_month_w"),
            given=FULL_SUN,
            grids={
                "plane_by_month_kwh_m2": (3.9, 4.2, 4.4),
                "flat_by_month_kwh_m2": (4.8, 5.1),
                "shade_by_month_frac": (0.8, 0.86, 0.9),
                "daylight_by_month_h": (12.2, 12.4),
                "battery_mean_by_month_wh": (1750, 1950, 2150),
            },
            curated={
                "plane_by_month_kwh_m2": 4.2,
                "flat_by_month_kwh_m2": 4.8,
                "shade_by_month_frac": 0.86,
                "daylight_by_month_h": 12.2,
                "battery_mean_by_month_wh": 1950,
            },
            mistakes=("AR-06", "AR-07", "AR-08"),
            words=WORDS,
            asked=(Step("peak_sun_by_month_h"), Step("load_sun_by_month_w")),
        ),
        Work(
            id="L07-exit-1",
            title="The airfield's record",
            statement="An airfield measured {plane_by_month_mj_m2} each November day on a steep plane; at the weekend "
            "cabin nothing stands in the way. Its owners use {battery_mean_by_month_wh} a day then. What is the record "
            "in kWh/m², and how much load comes on each peak sun hour?",
            hint=NAMES_HINT,
            sheet=SUN + Sheet(ARRAY_NEED["load_sun_by_month_w"]),
            given=FULL_SUN | {"shade_by_month_frac": 1},
            grids={
                "plane_by_month_mj_m2": (8.3, 9.4, 10.2, 11.5),
                "battery_mean_by_month_wh": (520, 640, 710, 780),
            },
            curated={"plane_by_month_mj_m2": 10.2, "battery_mean_by_month_wh": 640},
            mistakes=("AR-07", "AR-21", "AR-22"),
            words=WORDS,
            asked=(Step("plane_by_month_kwh_m2"), Step("load_sun_by_month_w")),
        ),
    )


def _months() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L07-exit-2",
            title="Two rules for a vineyard",
            statement="For a house among vines one planner takes the load of September, the largest, and the sun of "
            "December, the least. Another sets every month's load beside that month's own sun. What can be said of the "
            "first plan?",
            hint="Does the load of September ever meet the sun of December?",
            options=(
                Option(
                    "its array is larger than any month asks for",
                    "No month has that load with that sun; money and the controller's rating are spent on it.",
                    right=True,
                ),
                Option("it is right: largest load and least sun is the rule", mistake="AR-20"),
                Option("it is right in December, the darkest, which always rules", mistake="AR-27"),
                Option("it would be right with the sums of the year in both places", mistake="AR-18"),
            ),
        ),
        Choose(
            id="L07-exit-2",
            title="The yearly mean",
            statement="A dealer sizes arrays by the mean sun of the whole year: 2.6 h of full sun at Fell hut, where "
            "December has 1.1 h. What happens to a house built so?",
            hint="What does that house live on in December?",
            options=(
                Option(
                    "in the dark months the array brings less than half of the load",
                    "1.1 h is well under half of 2.6 h, and the bank cannot make up weeks of that.",
                    right=True,
                ),
                Option("nothing: what is short in winter comes back in June", mistake="AR-18"),
                Option("nothing: the mean is what a year really brings", mistake="AR-03"),
                Option("it only needs more days of autonomy in the array", mistake="AR-05"),
            ),
        ),
        Choose(
            id="L07-exit-2",
            title="The rains of August",
            statement="In a tropical clinic fans run most in April, when the sky is clear. In August the sky is dull, "
            "and an ordinary load comes on it. How do you find out which of the two rules?",
            hint="What has to be set beside what, for each of the two?",
            options=(
                Option(
                    "work out load for each hour of sun in both, and take the larger",
                    "Only the two together tell: high load with much sun can be easier than low load with little.",
                    right=True,
                ),
                Option("no need: August is darker, so it rules", mistake="AR-27"),
                Option("no need: April's load with August's sun is safe", mistake="AR-20"),
                Option("no need: take the mean sun of the year for both", mistake="AR-03"),
            ),
        ),
    )


def _losses() -> tuple[Slot, ...]:
    return (
        Work(
            id="L07-exit-3",
            title="What is left of the light",
            statement="On Gull mast gulls leave {soiling_frac} of dirt. A long thin cable takes {wiring_loss_frac}, "
            "uneven modules {mismatch_frac}. What comes past the controller is {converter_kept_frac}, out of the "
            "battery again {charge_eff_frac}; it is too cool there for heat to matter. Find the share after dirt, "
            "cable and mismatch, and the share at the load.",
            hint="What does the second loss have left to take from?",
            sheet=LOSSES.upto("delivered_by_month_frac"),
            given={"heat_kept_by_month_frac": 1},
            grids={
                "soiling_frac": (0.1, 0.14, 0.18),
                "wiring_loss_frac": (0.08, 0.1),
                "mismatch_frac": (0.05, 0.08),
                "converter_kept_frac": (0.65, 0.9),
                "charge_eff_frac": (0.75, 0.8, 0.85),
            },
            curated={
                "soiling_frac": 0.14,
                "wiring_loss_frac": 0.08,
                "mismatch_frac": 0.05,
                "converter_kept_frac": 0.65,
                "charge_eff_frac": 0.85,
            },
            mistakes=("AR-13", "AR-14", "AR-15", "AR-26"),
            words=WORDS,
            asked=(Step("losses_kept_frac"), Step("delivered_by_month_frac")),
        ),
        Work(
            id="L07-exit-3",
            title="Ten sunless days in the brief",
            statement="A radio mast is to live through {autonomy_days} of fog on its bank. In its worst month "
            "{battery_mean_by_month_wh} a day meet {peak_sun_by_month_h} of full sun, and {delivered_by_month_frac} of "
            "the modules' work arrives. Its array-to-load ratio shall be {array_load_ratio}. How much array is that?",
            hint=BACK,
            sheet=Sheet(*(ARRAY_NEED[n] for n in ("load_sun_by_month_w", "array_by_month_w"))),
            grids={
                "autonomy_days": (8, 10, 12),
                "battery_mean_by_month_wh": (105, 118, 132),
                "peak_sun_by_month_h": (1.7, 1.9, 2.2),
                "delivered_by_month_frac": (0.51, 0.56, 0.62),
                "array_load_ratio": (1.3, 1.4),
            },
            curated={
                "autonomy_days": 10,
                "battery_mean_by_month_wh": 118,
                "peak_sun_by_month_h": 1.9,
                "delivered_by_month_frac": 0.56,
                "array_load_ratio": 1.4,
            },
            mistakes=("AR-01", "AR-02", "AR-05", "AR-10"),
            words=WORDS,
            asked=(Step("array_by_month_w"),),
        ),
        Work(
            id="L07-exit-3",
            title="Past the trees to the socket",
            statement="At the weekend cabin resin and pollen cost {soiling_frac}, the run to the shed "
            "{wiring_loss_frac}, odd modules {mismatch_frac}. With controller and battery together "
            "{delivered_by_month_frac} of the sun's work arrives. December's load is {load_sun_by_month_w} for each "
            "hour of full sun, the bank is for {autonomy_days}, the array-to-load ratio {array_load_ratio}. What share "
            "survives the first three losses, and what array does December ask for?",
            hint=BACK,
            sheet=Sheet(LOSSES["losses_kept_frac"], LOSSES["array_by_month_w"]),
            grids={
                "soiling_frac": (0.1, 0.13, 0.16),
                "wiring_loss_frac": (0.06, 0.09),
                "mismatch_frac": (0.05, 0.07),
                "delivered_by_month_frac": (0.57, 0.6, 0.64),
                "load_sun_by_month_w": (190, 224, 260),
                "autonomy_days": (3, 4),
                "array_load_ratio": (1.2, 1.3),
            },
            curated={
                "soiling_frac": 0.13,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.05,
                "delivered_by_month_frac": 0.6,
                "load_sun_by_month_w": 224,
                "autonomy_days": 3,
                "array_load_ratio": 1.3,
            },
            mistakes=("AR-01", "AR-05", "AR-10", "AR-14", "AR-15"),
            words=WORDS,
            asked=(Step("losses_kept_frac"), Step("array_by_month_w")),
        ),
    )


def _tables() -> tuple[Slot, ...]:
    return (
        Work(
            id="L07-exit-4",
            title="Visitors at the turn of the year",
            statement="Gull mast lies in the south, and people stay there over the new year. Find the load for each "
            "hour of full sun in January and in June, and then what the load asks of the array. "
            "{delivered_by_month_frac} arrives; array-to-load ratio {array_load_ratio}.",
            hint=WHICH,
            sheet=MONTHS,
            grids={
                "peak_sun_by_month_h": SUN_SOUTH,
                "battery_mean_by_month_wh": SOUTH_LOADS,
                "delivered_by_month_frac": (0.51, 0.56),
                "array_load_ratio": (1.3, 1.4),
            },
            curated={
                "peak_sun_by_month_h": SUN_SOUTH[0],
                "battery_mean_by_month_wh": SOUTH_LOADS[0],
                "delivered_by_month_frac": 0.51,
                "array_load_ratio": 1.4,
            },
            mistakes=("AR-03", "AR-18", "AR-20"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("load_sun_by_month_w", 0), Step("load_sun_by_month_w", 5), Step("array_for_load_w")),
        ),
        Work(
            id="L07-exit-4",
            title="Fans before the rains",
            statement="The clinic's fans run hardest before the rains come. From this year of Riverbend work out what "
            "August has for each peak sun hour, and size the modules for the load, at an array-to-load ratio of "
            "{array_load_ratio} and a share of {delivered_by_month_frac}.",
            hint=WHICH,
            sheet=MONTHS,
            grids={
                "peak_sun_by_month_h": SUN_TROPICS,
                "battery_mean_by_month_wh": TROPICS_LOADS,
                "delivered_by_month_frac": (0.62, 0.66),
                "array_load_ratio": (1.2, 1.35),
            },
            curated={
                "peak_sun_by_month_h": SUN_TROPICS[1],
                "battery_mean_by_month_wh": TROPICS_LOADS[1],
                "delivered_by_month_frac": 0.66,
                "array_load_ratio": 1.35,
            },
            mistakes=("AR-03", "AR-18", "AR-20"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("load_sun_by_month_w", 7), Step("array_for_load_w")),
        ),
        Work(
            id="L07-exit-4",
            title="Harvest at the cabin",
            statement="Friends press fruit at the weekend cabin until late in autumn. Look through all months of the "
            "table: how much load does October put on an hour of full sun, and what must the array be, if "
            "{delivered_by_month_frac} of its work is delivered and {array_load_ratio} times the load is wanted?",
            hint=WHICH,
            sheet=MONTHS,
            grids={
                "peak_sun_by_month_h": SUN_AUTUMN,
                "battery_mean_by_month_wh": AUTUMN_LOADS,
                "delivered_by_month_frac": (0.6, 0.65, 0.7),
                "array_load_ratio": (1.1, 1.2, 1.3),
            },
            curated={
                "peak_sun_by_month_h": SUN_AUTUMN[0],
                "battery_mean_by_month_wh": AUTUMN_LOADS[0],
                "delivered_by_month_frac": 0.65,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-18", "AR-20", "AR-27"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("load_sun_by_month_w", 9), Step("array_for_load_w")),
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_sun(), _months(), _losses(), _tables(), modules())
}
