"""Practice of the wiring lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK, LOADS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_STACK = Sheet(BANK["bank_cold_wh"], BANK["bank_needed_ah"]) + STRINGS.upto("units_count")
_WORDS = {
    "ac_day_wh": "AC energy a day",
    "dc_day_wh": "DC energy a day",
    "bank_warm_wh": "bank, if it stayed warm",
    "kept_frac": "share kept in the cold",
}


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    return (
        Work(
            id="L10-2",
            title="What the cables have to bring",
            statement="Before a new room of Riverbend is wired, its day is counted: {ac_day_wh} at sockets and "
            "{dc_day_wh} on DC. Of what goes into the inverter {inverter_eff_frac} comes out, and for being on it "
            "takes {inverter_idle_w} during {inverter_on_h}. What does that take from the bank in a day?",
            hint="Which path does each load's energy take from the battery?",
            principle="Only what passes the inverter pays its loss; what it takes for being on comes on top.",
            sheet=_BUS,
            given={"dc_wiring_eff_frac": 1, "growth_factor": 1},
            grids={
                "ac_day_wh": (640, 820, 1050, 1300),
                "dc_day_wh": (330, 410, 560, 690),
                "inverter_eff_frac": (0.72, 0.76, 0.8),
                "inverter_idle_w": (9, 12, 15),
                "inverter_on_h": (10, 14, 18),
            },
            curated={
                "ac_day_wh": 1050,
                "dc_day_wh": 690,
                "inverter_eff_frac": 0.72,
                "inverter_idle_w": 15,
                "inverter_on_h": 14,
            },
            mistakes=("LD-13", "LD-14", "LD-15", "LD-16", "LD-19"),
            words=_WORDS,
            asked=tuple(map(Step, _BUS)),
        ),
        Work(
            id="L10-6",
            title="Volts at the posts",
            statement="The posts of a lead-acid bank of {bank_voltage_v} that is never equalized see no more than its "
            "charger is told to hold. There are {cells_12v_count} cells in every 12 V. The maker gives "
            "{absorb_cell_v} for each cell at {label_temp_c}, with {compensation_mv_k} for each cell. On a hard "
            "morning the cells are at {battery_temp_c}. How many cells stand in a string, and what is the voltage "
            "held?",
            hint="How far is the battery from the label's temperature, and which way?",
            principle="Each cell moves by its own few millivolts for each kelvin from the label's temperature: up in "
            "the cold, down in heat.",
            sheet=SET_POINTS.upto("absorb_set_v"),
            given={"cells_12v_count": 6, "label_temp_c": 25},
            grids={
                "bank_voltage_v": (24, 48),
                "absorb_cell_v": (2.35, 2.39, 2.43, 2.47),
                "compensation_mv_k": (-3.9, -5.1),
                "battery_temp_c": (-14, -9, -3, 2),
            },
            curated={"bank_voltage_v": 48, "absorb_cell_v": 2.43, "compensation_mv_k": -5.1, "battery_temp_c": -9},
            mistakes=("TE-14", "TE-15", "TE-16", "TE-17"),
            words=_WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
        Work(
            id="L10-9",
            title="What will stand behind the main fuse",
            statement="Before the main fuse can be chosen, somebody has to know the bank. If it stayed warm, "
            "{bank_warm_wh} would do; the cold leaves {kept_frac} of a label. It is {bank_voltage_v}, of units with "
            "{unit_v} and {unit_ah}. How many watt-hours and amp-hours on the label, how many strings, how many units?",
            hint="With so many whole strings, does the bank hold what is needed?",
            principle="Divide by what the cold leaves, turn watt-hours into amp-hours, then count whole strings.",
            sheet=_STACK,
            grids={
                "bank_warm_wh": (11_000, 13_000, 15_000, 17_500, 20_500),
                "kept_frac": (0.63, 0.69, 0.74),
                "bank_voltage_v": (24, 48),
                "unit_v": (6, 12),
                "unit_ah": (140, 190, 235, 270, 320),
            },
            curated={"bank_warm_wh": 15_000, "kept_frac": 0.69, "bank_voltage_v": 48, "unit_v": 6, "unit_ah": 320},
            mistakes=("TE-01", "TE-02", "BV-09", "ST-05", "ST-08"),
            words=_WORDS,
            asked=tuple(map(Step, ("bank_cold_wh", "bank_needed_ah", "strings_count", "units_count"))),
        ),
    )
