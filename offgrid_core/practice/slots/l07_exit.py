"""Exit quiz of the array lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_exit_more import OTHERS
from offgrid_core.practice.slots.l07_exit_page_more import OTHER_PAGES
from offgrid_core.practice.slots.l07_judge_more import PAGE, PAGE_HINT
from offgrid_core.practice.slots.l07_sheets_more import (
    BACK,
    ENOUGH,
    FULL_SUN,
    LOSSES,
    MODULES,
    MONTHS,
    NAMES_HINT,
    SUN,
    SUN_WINTER,
    TWELVE,
    WHICH,
    WINTER_LOADS,
    WORDS,
)

_OTHERS = {**OTHERS, **OTHER_PAGES}


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L07-exit-1",
            others=_OTHERS["L07-exit-1"],
            title="A map in megajoules",
            statement="A sun map for Fell hut's tilted array says {plane_by_month_mj_m2} a day in February. The ridge "
            "leaves {shade_by_month_frac} of it, and daylight lasts {daylight_by_month_h}. Put the map's figure into "
            "kWh/m², then give the peak sun hours.",
            hint=NAMES_HINT,
            sheet=SUN,
            given=FULL_SUN,
            grids={
                "plane_by_month_mj_m2": (5.8, 6.5, 7.3, 8.2),
                "shade_by_month_frac": (0.82, 0.88, 0.94),
                "daylight_by_month_h": (9.6, 10.1),
            },
            curated={"plane_by_month_mj_m2": 6.5, "shade_by_month_frac": 0.88, "daylight_by_month_h": 9.6},
            mistakes=("AR-06", "AR-21", "AR-22"),
            words=WORDS,
            asked=(Step("plane_by_month_kwh_m2"), Step("peak_sun_by_month_h")),
        ),
        Choose(
            id="L07-exit-2",
            others=_OTHERS["L07-exit-2"],
            title="Which month rules?",
            statement="At a mountain inn the load is largest in August, the sun is least in December, and the load for "
            "each hour of sun is largest in October. Which month's numbers size the array for the load?",
            hint="In which month does one hour of sun have the most to do?",
            options=(
                Option("October's", "There an hour of sun has the most load to carry.", right=True),
                Option("December's, since it is the darkest", mistake="AR-27"),
                Option("August's load with December's sun", mistake="AR-20"),
                Option("none: the totals of the year are set side by side", mistake="AR-18"),
            ),
        ),
        Work(
            id="L07-exit-3",
            others=_OTHERS["L07-exit-3"],
            title="Dust, wires, heat",
            statement="Riverbend's roof is dusty: {soiling_frac} is lost to dirt, {wiring_loss_frac} in wiring and "
            "{mismatch_frac} to mismatch. Heat leaves {heat_kept_by_month_frac}, the controller {converter_kept_frac}, "
            "the battery {charge_eff_frac}. August has {load_sun_by_month_w} of load for each hour of full sun; "
            "array-to-load ratio {array_load_ratio}. Give the share kept after the first three, the share that reaches "
            "the load, and the array.",
            hint=BACK,
            sheet=LOSSES,
            grids={
                "soiling_frac": (0.12, 0.15, 0.18),
                "wiring_loss_frac": (0.06, 0.08),
                "mismatch_frac": (0.04, 0.06),
                "heat_kept_by_month_frac": (0.88, 0.91),
                "converter_kept_frac": (0.94, 0.97),
                "charge_eff_frac": (0.8, 0.85),
                "load_sun_by_month_w": (430, 480, 540),
                "array_load_ratio": (1.2, 1.35),
            },
            curated={
                "soiling_frac": 0.15,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.04,
                "heat_kept_by_month_frac": 0.91,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.85,
                "load_sun_by_month_w": 480,
                "array_load_ratio": 1.35,
            },
            mistakes=("AR-01", "AR-02", "AR-10", "AR-14", "AR-15"),
            words=WORDS,
            asked=tuple(map(Step, LOSSES)),
        ),
        Work(
            id="L07-exit-4",
            others=_OTHERS["L07-exit-4"],
            title="Guests in August",
            statement="Fell hut takes guests in August. Its twelve months stand below. {delivered_by_month_frac} of "
            "the array's work reaches the load, and the array-to-load ratio is {array_load_ratio}. What array does the "
            "load ask for?",
            hint=WHICH,
            sheet=MONTHS,
            grids={
                "peak_sun_by_month_h": SUN_WINTER,
                "battery_mean_by_month_wh": WINTER_LOADS,
                "delivered_by_month_frac": (0.61, 0.67, 0.72),
                "array_load_ratio": (1.15, 1.2, 1.3),
            },
            curated={
                "peak_sun_by_month_h": SUN_WINTER[2],
                "battery_mean_by_month_wh": WINTER_LOADS[2],
                "delivered_by_month_frac": 0.67,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-03", "AR-18", "AR-20"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("array_for_load_w"),),
        ),
        Work(
            id="L07-exit-5",
            others=_OTHERS["L07-exit-5"],
            title="Strings for the hut",
            statement="Fell hut's load wants {array_for_load_w} of modules, the refill of its bank "
            "{array_for_refill_w}, and its charging current {array_for_current_w}. {modules_in_series_count} modules "
            "of {module_w} make one string. What is needed, in how many strings, and how many modules is that?",
            hint=ENOUGH,
            sheet=MODULES.upto("modules_count"),
            grids={
                "array_for_load_w": (3180, 3450, 3730),
                "array_for_refill_w": (3620, 3940, 4120),
                "array_for_current_w": (2040, 2600),
                "module_w": (320, 345, 375, 410, 440),
                "modules_in_series_count": (2, 3),
            },
            curated={
                "array_for_load_w": 3730,
                "array_for_refill_w": 4120,
                "array_for_current_w": 2040,
                "module_w": 410,
                "modules_in_series_count": 3,
            },
            mistakes=("AR-16", "AR-17"),
            words=WORDS,
            asked=tuple(map(Step, MODULES.upto("modules_count"))),
        ),
        Slip(
            id="L07-exit-6",
            others=_OTHERS["L07-exit-6"],
            title="A page for the hut",
            statement="This page is for Fell hut in December: {plane_by_month_kwh_m2} a day on the array, "
            "{shade_by_month_frac} of it past the ridge, {daylight_by_month_h} of daylight, {battery_mean_by_month_wh} "
            "of load, dirt {soiling_frac}, wiring {wiring_loss_frac}, mismatch {mismatch_frac}, controller "
            "{converter_kept_frac}, battery {charge_eff_frac}, array-to-load ratio {array_load_ratio}. Find the first "
            "line that goes wrong, if there is one, and mend it.",
            hint=PAGE_HINT,
            sheet=PAGE,
            given=FULL_SUN | {"heat_kept_by_month_frac": 1},
            grids={
                "plane_by_month_kwh_m2": (1.1, 1.3, 1.6),
                "shade_by_month_frac": (0.86, 0.92),
                "daylight_by_month_h": (7.2, 7.5),
                "battery_mean_by_month_wh": (2250, 2400, 2600),
                "soiling_frac": (0.1, 0.13),
                "wiring_loss_frac": (0.05, 0.07),
                "mismatch_frac": (0.04, 0.06),
                "converter_kept_frac": (0.94, 0.97),
                "charge_eff_frac": (0.75, 0.8),
                "array_load_ratio": (1.2, 1.3),
            },
            curated={
                "plane_by_month_kwh_m2": 1.3,
                "shade_by_month_frac": 0.92,
                "daylight_by_month_h": 7.5,
                "battery_mean_by_month_wh": 2400,
                "soiling_frac": 0.1,
                "wiring_loss_frac": 0.05,
                "mismatch_frac": 0.04,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.8,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-01", "AR-02", "AR-06", "AR-10", "AR-14", "AR-15"),
            words=WORDS,
        ),
    )
