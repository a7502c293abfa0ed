"""Practice of the year lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from dataclasses import replace

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots import l08_mixed_more, l10_mixed_more
from offgrid_core.practice.slots.l08_sheets_more import COLD, COLD_IDEA, WHICH_VOLTS
from offgrid_core.practice.slots.l08_sheets_more import WORDS as VOLT_WORDS


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    roof, *_ = l08_mixed_more.mixed()
    *_, bank = l10_mixed_more.mixed()
    return (
        replace(
            roof,
            id="L12-3",
            title="Before anything is simulated",
            statement="Somebody wants to follow a mountain inn through a year and has no array yet. In the ruling "
            "month the load asks for {load_sun_by_month_w} for each hour of full sun. Dirt takes {soiling_frac}, "
            "wiring {wiring_loss_frac}, mismatch {mismatch_frac}; {heat_kept_by_month_frac} is left in the heat. The "
            "controller passes on {converter_kept_frac}, the battery {charge_eff_frac}; the "
            "array-to-load ratio is {array_load_ratio}. How many watts?",
        ),
        Work(
            id="L12-6",
            title="A cold record",
            statement="The log of a school in the hills has its coldest dawn at {air_coldest_c}. On its roof "
            "{modules_in_series_count} modules stand in a row, {module_voc_v} open on the label, {module_vmp_v} "
            "working, {voc_temp_per_k}. The controller takes {controller_voltage_max_v}. What stood at its terminals "
            "at that dawn, and how far from the limit was that?",
            hint=WHICH_VOLTS,
            principle=COLD_IDEA,
            sheet=COLD,
            grids={
                "air_coldest_c": (-11, -16, -21),
                "modules_in_series_count": (2, 3, 4),
                "module_voc_v": (37.4, 39.9, 45.8),
                "module_vmp_v": (31.2, 33.4, 37.9),
                "voc_temp_per_k": (-0.0028, -0.0032),
                "controller_voltage_max_v": (190, 240),
            },
            curated={
                "air_coldest_c": -16,
                "modules_in_series_count": 3,
                "module_voc_v": 39.9,
                "module_vmp_v": 33.4,
                "voc_temp_per_k": -0.0032,
                "controller_voltage_max_v": 190,
            },
            mistakes=("CC-01", "CC-03", "CC-04", "CC-05"),
            words=VOLT_WORDS,
            asked=tuple(map(Step, COLD)),
        ),
        replace(
            bank,
            id="L12-9",
            title="A bank to be followed",
            statement="For a year on the computer somebody needs whole battery units. Warm, {bank_warm_wh} would be "
            "enough; {kept_frac} of a label is left in the cold. The bank is {bank_voltage_v}, of units with {unit_v} "
            "and {unit_ah}. Work down: watt-hours on the label, amp-hours, strings, units.",
        ),
    )
