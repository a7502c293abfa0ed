"""Practice of the strings lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK, LOADS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.worksheet import Sheet

_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_CHAIN = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah")))
_WORDS = {
    "ac_day_wh": "AC energy a day",
    "dc_day_wh": "DC energy a day",
    "energy_day_wh": "energy on the hardest day",
    "bank_warm_wh": "bank, if it stayed warm",
    "kept_frac": "share kept in the cold",
}


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    return (
        Work(
            id="L06-2",
            title="Two kinds of load",
            statement="Before a village school's bank is built, its day is worked once more: {ac_day_wh} at the "
            "sockets, {dc_day_wh} for lamps and pump on DC. The inverter passes on {inverter_eff_frac} and idles at "
            "{inverter_idle_w} for {inverter_on_h}. What must come out of the bank?",
            hint="Which path does each load's energy take from the battery?",
            principle="Only what passes the inverter pays its loss; what it takes for being on comes on top.",
            sheet=_BUS,
            given={"dc_wiring_eff_frac": 1, "growth_factor": 1},
            grids={
                "ac_day_wh": (950, 1150, 1400, 1700),
                "dc_day_wh": (450, 620, 780, 900),
                "inverter_eff_frac": (0.7, 0.74, 0.78),
                "inverter_idle_w": (8, 11, 13),
                "inverter_on_h": (12, 16, 24),
            },
            curated={
                "ac_day_wh": 1150,
                "dc_day_wh": 620,
                "inverter_eff_frac": 0.7,
                "inverter_idle_w": 13,
                "inverter_on_h": 16,
            },
            mistakes=("LD-13", "LD-14", "LD-15", "LD-16", "LD-19"),
            words=_WORDS,
            asked=tuple(map(Step, _BUS)),
        ),
        Work(
            id="L06-5",
            title="How much must the label say?",
            statement="A farm takes {energy_day_wh} on its hardest day. The bank carries {autonomy_days} without "
            "sun, may be emptied by {depth_frac}, keeps {kept_frac} on the coldest day and is {bank_voltage_v}. "
            "How many amp-hours must its label say?",
            hint="Which earlier line does this one begin from?",
            principle="Each line asks one thing: the sunless days, the depth limit, the cold, then the voltage.",
            sheet=_CHAIN,
            grids={
                "energy_day_wh": (1900, 2300, 2600, 3100),
                "autonomy_days": (3, 4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.62, 0.66, 0.72),
                "bank_voltage_v": (24, 48),
            },
            curated={
                "energy_day_wh": 2600,
                "autonomy_days": 4,
                "depth_frac": 0.6,
                "kept_frac": 0.62,
                "bank_voltage_v": 48,
            },
            mistakes=("AU-05", "DD-01", "DD-03", "TE-01", "TE-02", "BV-07", "BV-09"),
            words=_WORDS,
            asked=tuple(map(Step, _CHAIN)),
        ),
        Work(
            id="L06-8",
            title="What the charger is told",
            statement="Each string of a lead-acid bank is {bank_voltage_v}, with {cells_12v_count} cells in every "
            "12 V. The label says {absorb_cell_v} for each at {label_temp_c} and {compensation_mv_k} for each. Today "
            "the cells are at {battery_temp_c}. How many cells stand in a string, and to what voltage is it charged?",
            hint="How far is the battery from the label's temperature, and which way?",
            principle="Each cell moves by its own few millivolts for each kelvin from the label's temperature: up in "
            "the cold, down in heat.",
            sheet=SET_POINTS.upto("absorb_set_v"),
            given={"cells_12v_count": 6, "label_temp_c": 25},
            grids={
                "bank_voltage_v": (24, 48),
                "absorb_cell_v": (2.36, 2.41, 2.45),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (-10, -6, 4, 37, 41),
            },
            curated={"bank_voltage_v": 24, "absorb_cell_v": 2.41, "compensation_mv_k": -5, "battery_temp_c": -10},
            mistakes=("TE-14", "TE-15", "TE-16"),
            words=_WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
    )
