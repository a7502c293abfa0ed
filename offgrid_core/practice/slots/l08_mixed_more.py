"""Practice of the controller lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import BACK, LOSS_IDEA, LOSSES
from offgrid_core.practice.slots.l07_sheets_more import WORDS as SUN_WORDS
from offgrid_core.sizing import BANK
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.worksheet import Sheet

_CHAIN = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah")))
_WORDS = {
    "energy_day_wh": "energy on the hardest day",
    "bank_warm_wh": "bank, if it stayed warm",
    "kept_frac": "share kept in the cold",
}


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    return (
        Work(
            id="L08-2",
            title="Up the roof",
            statement="For each hour of full sun the cabin's ruling month asks for {load_sun_by_month_w}. Pollen and "
            "dust take {soiling_frac}, cables {wiring_loss_frac}, unlike modules {mismatch_frac}. In the heat "
            "{heat_kept_by_month_frac} is left; the controller hands on {converter_kept_frac}, the battery "
            "{charge_eff_frac}. The array-to-load ratio is {array_load_ratio}. Which array is that?",
            hint=BACK,
            principle=LOSS_IDEA,
            sheet=LOSSES,
            grids={
                "load_sun_by_month_w": (190, 230, 310, 390),
                "soiling_frac": (0.09, 0.13, 0.17),
                "wiring_loss_frac": (0.06, 0.08),
                "mismatch_frac": (0.04, 0.05),
                "heat_kept_by_month_frac": (0.91, 0.95),
                "converter_kept_frac": (0.95, 0.97),
                "charge_eff_frac": (0.76, 0.82, 0.86),
                "array_load_ratio": (1.15, 1.3),
            },
            curated={
                "load_sun_by_month_w": 310,
                "soiling_frac": 0.13,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.05,
                "heat_kept_by_month_frac": 0.95,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.82,
                "array_load_ratio": 1.3,
            },
            mistakes=("AR-01", "AR-02", "AR-10", "AR-14", "AR-15"),
            words=SUN_WORDS,
            asked=tuple(map(Step, LOSSES)),
        ),
        Work(
            id="L08-5",
            title="Behind the controller",
            statement="A bank of {bank_voltage_v} is to carry {energy_day_wh} a day for {autonomy_days} without sun. "
            "{depth_frac} may be taken out, and {kept_frac} of the label is there on the coldest day. What must stand "
            "on that label, in amp-hours?",
            hint="Which earlier line does this one begin from?",
            principle="Each line asks one thing: the sunless days, the depth limit, the cold, then the voltage.",
            sheet=_CHAIN,
            grids={
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (1700, 2050, 2450, 2850),
                "autonomy_days": (3, 4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.62, 0.66, 0.72),
            },
            curated={
                "bank_voltage_v": 24,
                "energy_day_wh": 1700,
                "autonomy_days": 4,
                "depth_frac": 0.4,
                "kept_frac": 0.72,
            },
            mistakes=("AU-05", "DD-01", "DD-03", "TE-01", "TE-02", "BV-07", "BV-09"),
            words=_WORDS,
            asked=tuple(map(Step, _CHAIN)),
        ),
        Work(
            id="L08-8",
            title="Before dawn",
            statement="The cells of a {bank_voltage_v} bank are at {battery_temp_c}. For {label_temp_c} their sheet "
            "asks {absorb_cell_v} each, changed by {compensation_mv_k} each; 12 V take {cells_12v_count} cells. "
            "How many cells stand in a row, and what is the charger to be told?",
            hint="How far is the battery from the label's temperature, and which way?",
            principle="Each cell moves by its own few millivolts for each kelvin from the label's temperature: up in "
            "the cold, down in heat.",
            sheet=SET_POINTS.upto("absorb_set_v"),
            given={"cells_12v_count": 6, "label_temp_c": 25},
            grids={
                "bank_voltage_v": (24, 48),
                "battery_temp_c": (-12, -9, -7, 38, 42),
                "absorb_cell_v": (2.35, 2.38, 2.43),
                "compensation_mv_k": (-4, -5),
            },
            curated={"bank_voltage_v": 48, "battery_temp_c": -9, "absorb_cell_v": 2.43, "compensation_mv_k": -5},
            mistakes=("TE-14", "TE-15", "TE-16"),
            words=_WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
    )
