"""Other templates of the array lesson's exit quiz, place six: pages with a slip."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_judge_more import PAGE_HINT
from offgrid_core.practice.slots.l07_sheets_more import FULL_SUN, LOSSES, MODULES, REFILL, SUN, WORDS
from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.worksheet import Sheet

_FROM_MEGAJOULES = SUN + Sheet(ARRAY_NEED["load_sun_by_month_w"], ARRAY_NEED["array_by_month_w"])
_TO_MODULES = LOSSES + Sheet(ARRAY_NEED["array_for_load_w"]) + MODULES
_TO_STRINGS = REFILL + MODULES


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L07-exit-6",
            title="A page that begins in megajoules",
            statement="An apprentice sized Gull mast from a record in MJ/m²: {plane_by_month_mj_m2} a day in June, "
            "{shade_by_month_frac} after the rock's shadow, {daylight_by_month_h} between sunrise and sunset, "
            "{battery_mean_by_month_wh} of load, {delivered_by_month_frac} delivered, {autonomy_days} without sun for "
            "the bank, array-to-load ratio {array_load_ratio}. Where is the first slip, if there is one, and what "
            "should stand there?",
            hint=PAGE_HINT,
            sheet=_FROM_MEGAJOULES,
            given=FULL_SUN,
            grids={
                "plane_by_month_mj_m2": (6.1, 6.8, 7.4),
                "shade_by_month_frac": (0.84, 0.9),
                "daylight_by_month_h": (8.6, 9.0),
                "battery_mean_by_month_wh": (110, 118, 126),
                "delivered_by_month_frac": (0.51, 0.57),
                "autonomy_days": (8, 10),
                "array_load_ratio": (1.3, 1.4),
            },
            curated={
                "plane_by_month_mj_m2": 6.8,
                "shade_by_month_frac": 0.9,
                "daylight_by_month_h": 8.6,
                "battery_mean_by_month_wh": 118,
                "delivered_by_month_frac": 0.51,
                "autonomy_days": 10,
                "array_load_ratio": 1.4,
            },
            mistakes=("AR-01", "AR-02", "AR-05", "AR-06", "AR-21"),
            words=WORDS,
        ),
        Slip(
            id="L07-exit-6",
            title="Down to the modules",
            statement="Check this sheet for Riverbend from the top. August's load comes to {load_sun_by_month_w} for "
            "each peak sun hour; {soiling_frac} dust, {wiring_loss_frac} wiring, {mismatch_frac} mismatch; heat leaves "
            "{heat_kept_by_month_frac}, controller {converter_kept_frac}, battery {charge_eff_frac}; array-to-load "
            "ratio {array_load_ratio}. Refill wants {array_for_refill_w}, current {array_for_current_w}; "
            "{modules_in_series_count} modules of {module_w} in a string. Which line is the first that fails, if one "
            "does, and what is its value?",
            hint=PAGE_HINT,
            sheet=_TO_MODULES,
            given={"array_for_refill_w": 1140, "modules_in_series_count": 2},
            grids={
                "load_sun_by_month_w": (430, 480, 540),
                "soiling_frac": (0.12, 0.16),
                "wiring_loss_frac": (0.06, 0.08),
                "mismatch_frac": (0.04, 0.06),
                "heat_kept_by_month_frac": (0.9, 0.93),
                "converter_kept_frac": (0.94, 0.97),
                "charge_eff_frac": (0.8, 0.85),
                "array_load_ratio": (1.2, 1.35),
                "array_for_current_w": (1780, 2010, 2190),
                "module_w": (320, 345),
            },
            curated={
                "load_sun_by_month_w": 480,
                "soiling_frac": 0.12,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.04,
                "heat_kept_by_month_frac": 0.93,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.85,
                "array_load_ratio": 1.35,
                "array_for_current_w": 2190,
                "module_w": 320,
            },
            mistakes=("AR-01", "AR-02", "AR-14", "AR-15", "AR-16"),
            words=WORDS,
        ),
        Slip(
            id="L07-exit-6",
            title="Refilled in a week?",
            statement="The owners of the weekend cabin did this sum themselves: {bank_usable_wh} to bring back in "
            "{refill_days}, {design_load_wh} a day meanwhile, {design_sun_h} of full sun in the month that rules, "
            "{design_delivered_frac} arriving, {array_for_load_w} for the load alone, modules of {module_w}, "
            "{modules_in_series_count} in each row. If a line is false, say which comes first, and mend it.",
            hint=PAGE_HINT,
            sheet=_TO_STRINGS,
            given={"array_for_current_w": 0, "modules_in_series_count": 2},
            grids={
                "bank_usable_wh": (3300, 3900, 4500),
                "refill_days": (5, 7),
                "design_load_wh": (590, 630, 690),
                "design_sun_h": (2.4, 2.8),
                "design_delivered_frac": (0.6, 0.66),
                "array_for_load_w": (340, 410),
                "module_w": (100, 120),
            },
            curated={
                "bank_usable_wh": 3900,
                "refill_days": 5,
                "design_load_wh": 630,
                "design_sun_h": 2.8,
                "design_delivered_frac": 0.66,
                "array_for_load_w": 340,
                "module_w": 100,
            },
            mistakes=("AR-01", "AR-02", "AR-10", "AR-16", "AR-28"),
            words=WORDS,
        ),
    )


#: Id of the place -> its templates beside the first.
OTHER_PAGES: Mapping[str, tuple[Slot, ...]] = {"L07-exit-6": _pages()}
