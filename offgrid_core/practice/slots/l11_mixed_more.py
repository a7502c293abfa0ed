"""Practice of the generator lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from dataclasses import replace

from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_mixed_more import mixed as of_l08
from offgrid_core.practice.slots.l10_mixed_more import mixed as of_l10


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    before = {s.id: s for s in (*of_l08(), *of_l10())}
    return (
        replace(
            before["L10-2"],
            id="L11-2",
            title="What a dull day takes",
            statement="No sun at the post today. At its sockets {ac_day_wh} are used, on DC {dc_day_wh}. Of what goes "
            "into the inverter {inverter_eff_frac} comes out; for being on it takes {inverter_idle_w} during "
            "{inverter_on_h}. What does this day take out of the bank?",
            grids={
                "ac_day_wh": (710, 930, 1180, 1420),
                "dc_day_wh": (280, 370, 480, 630),
                "inverter_eff_frac": (0.71, 0.75, 0.79),
                "inverter_idle_w": (8, 11, 14),
                "inverter_on_h": (12, 16, 20),
            },
            curated={
                "ac_day_wh": 930,
                "dc_day_wh": 370,
                "inverter_eff_frac": 0.75,
                "inverter_idle_w": 14,
                "inverter_on_h": 20,
            },
        ),
        replace(
            before["L08-5"],
            id="L11-5",
            title="Storage for an inn",
            statement="An inn takes {energy_day_wh} out of its bank on the hardest day and wants {autonomy_days} of "
            "them in a row before an engine has to help. The bank is {bank_voltage_v}; {depth_frac} may be taken out. "
            "The cold leaves {kept_frac} of a label. What must stand on it, in amp-hours?",
            grids={
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (2200, 2650, 3100, 3700),
                "autonomy_days": (2, 3, 4),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.61, 0.67, 0.71),
            },
            curated={
                "bank_voltage_v": 48,
                "energy_day_wh": 2200,
                "autonomy_days": 2,
                "depth_frac": 0.7,
                "kept_frac": 0.61,
            },
        ),
        replace(
            before["L10-6"],
            id="L11-8",
            title="What the charger is told",
            statement="A charger fills a lead-acid bank of {bank_voltage_v}, with {cells_12v_count} cells in each 12 "
            "V. For cells at {label_temp_c} their maker gives {absorb_cell_v}, changed by {compensation_mv_k} each. "
            "Today they are at {battery_temp_c}. How many cells stand in a row, and which voltage is it to hold?",
            grids={
                "bank_voltage_v": (24, 48),
                "absorb_cell_v": (2.36, 2.4, 2.44, 2.46),
                "compensation_mv_k": (-4.1, -5.2),
                "battery_temp_c": (-12, -6, 1, 39),
            },
            curated={"bank_voltage_v": 24, "absorb_cell_v": 2.44, "compensation_mv_k": -5.2, "battery_temp_c": 39},
        ),
    )
