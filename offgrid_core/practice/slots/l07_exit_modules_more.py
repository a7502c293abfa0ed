"""Other templates of the array lesson's exit quiz, place five: from what is asked of an array to modules in strings."""

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import BRISK, ENOUGH, MODULES, REFILL, WORDS
from offgrid_core.worksheet import Sheet

_COUNTS = MODULES.upto("modules_count")
#: The same where what is needed is known.
_ROWS = Sheet(*(MODULES[n] for n in ("array_strings_count", "modules_count", "array_w")))
_BOTH = ("AR-16", "AR-17")


def modules() -> tuple[Slot, ...]:
    """Return the three templates."""
    return (
        Work(
            id="L07-exit-5",
            title="A brisk current for gel",
            statement="Riverbend's bank of {bank_ah} at {bank_voltage_v} wants a charging rate of at least "
            "{charge_rate_min_per_h} at noon. The controller passes on {converter_kept_frac}; dirt, wiring and "
            "mismatch leave {losses_kept_frac}. Load and refill ask for less than that. Modules of {module_w} stand "
            "{modules_in_series_count} to a string. Give the least current, the array for it, strings, and modules.",
            hint=ENOUGH,
            sheet=BRISK + _COUNTS,
            given={"bank_voltage_v": 24, "array_for_load_w": 0, "array_for_refill_w": 0},
            grids={
                "bank_ah": (980, 1150, 1290, 1470),
                "charge_rate_min_per_h": (0.05, 0.06),
                "converter_kept_frac": (0.94, 0.97),
                "losses_kept_frac": (0.86, 0.9),
                "module_w": (175, 320, 345, 410),
                "modules_in_series_count": (2, 3),
            },
            curated={
                "bank_ah": 1150,
                "charge_rate_min_per_h": 0.06,
                "converter_kept_frac": 0.94,
                "losses_kept_frac": 0.9,
                "module_w": 410,
                "modules_in_series_count": 2,
            },
            mistakes=_BOTH,
            words=WORDS,
            asked=tuple(map(Step, ("charge_floor_a", "array_for_current_w", "array_strings_count", "modules_count"))),
        ),
        Work(
            id="L07-exit-5",
            title="Full again by Friday",
            statement="The guests leave the weekend cabin with {bank_usable_wh} missing from its bank. It shall be "
            "full in {refill_days}, while {design_load_wh} a day go on. The design month has {design_sun_h}, and "
            "{design_delivered_frac} is delivered; load and current ask for less. What array is that, and how many "
            "strings and modules, {modules_in_series_count} of {module_w} in a row?",
            hint=ENOUGH,
            sheet=REFILL + _COUNTS,
            given={"array_for_load_w": 0, "array_for_current_w": 0},
            grids={
                "bank_usable_wh": (3500, 3900, 4400),
                "refill_days": (4, 5, 6),
                "design_load_wh": (540, 630, 700),
                "design_sun_h": (2.5, 2.8),
                "design_delivered_frac": (0.66, 0.72),
                "module_w": (50, 60, 75),
                "modules_in_series_count": (2, 3),
            },
            curated={
                "bank_usable_wh": 3900,
                "refill_days": 4,
                "design_load_wh": 630,
                "design_sun_h": 2.5,
                "design_delivered_frac": 0.72,
                "module_w": 60,
                "modules_in_series_count": 2,
            },
            mistakes=("AR-28", *_BOTH),
            words=WORDS,
            asked=tuple(map(Step, ("array_for_refill_w", "array_strings_count", "modules_count"))),
        ),
        Work(
            id="L07-exit-5",
            title="What the dealer has",
            statement="A dealer near Gull mast sells {module_w} modules only. The array there must come to "
            "{array_needed_w} at least, joined {modules_in_series_count} in a row. How many rows, how many modules on "
            "the boat, and how many watts in all?",
            hint=ENOUGH,
            sheet=_ROWS,
            grids={
                "array_needed_w": (235, 290, 350, 430, 520),
                "module_w": (40, 60, 75),
                "modules_in_series_count": (2, 3),
            },
            curated={"array_needed_w": 520, "module_w": 60, "modules_in_series_count": 2},
            mistakes=_BOTH,
            words=WORDS,
            asked=tuple(map(Step, ("array_strings_count", "modules_count", "array_w"))),
        ),
    )
