"""Exit quiz of the temperature lesson: six problems, feedback when all are answered."""

from offgrid_core.data import capacity_kept
from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l05_exit_more import OTHERS
from offgrid_core.practice.slots.l05_temperature import BACK, COLD, COLD_END, MARKS, WORDS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.temperature import FAHRENHEIT


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L05-exit-1",
            others=OTHERS["L05-exit-1"],
            title="One scale to the other",
            statement="The coldest battery reading in the log of Gull mast is {reading_fahrenheit}. Give it in °C.",
            hint="At what reading does water freeze on each scale?",
            sheet=FAHRENHEIT.upto("battery_temp_c"),
            grids={"reading_fahrenheit": (8, 17, 20, 26, 44, 53)},
            curated={"reading_fahrenheit": 17},
            mistakes=("TE-10", "TE-11", "TE-12"),
            words=WORDS,
            marks=MARKS,
            asked=(Step("battery_temp_c"),),
            only={"battery_temp_c": ("°C",)},
        ),
        Choose(
            id="L05-exit-2",
            others=OTHERS["L05-exit-2"],
            title="Multiply back",
            statement="Someone corrects a bank for the cold. How can the answer be checked without working it again?",
            hint="What does the share kept do to the new label?",
            options=(
                Option(
                    "take the share kept of the new label: it should be the warm bank",
                    "What is left in the cold is then what was needed.",
                    right=True,
                ),
                Option("the new label should be smaller than the warm one", mistake="TE-01"),
                Option("new label and warm bank should differ by exactly the share lost", mistake="TE-02"),
                Option("apply the share once more: nothing should change", mistake="TE-04"),
            ),
        ),
        Work(
            id="L05-exit-3",
            others=OTHERS["L05-exit-3"],
            title="Read and correct",
            statement="A relay station's AGM bank would be {bank_warm_wh} if it stayed warm. Its coldest day is "
            "{battery_temp_c}, its yearly mean {mean_temp_c}. How many watt-hours must be on the label?",
            hint=BACK,
            sheet=COLD_END.upto("bank_cold_wh"),
            given={"capacity_kept": capacity_kept("agm")},
            grids={
                "bank_warm_wh": (1300, 1500, 1700, 1900),
                "battery_temp_c": (-15, -14, -12, 0),
                "mean_temp_c": (4, 5, 6, 8),
            },
            curated={"bank_warm_wh": 1500, "battery_temp_c": 0, "mean_temp_c": 5},
            mistakes=("TE-07", "TE-08", *COLD),
            words=WORDS,
            asked=(Step("kept_frac"), Step("bank_cold_wh")),
        ),
        Work(
            id="L05-exit-4",
            others=OTHERS["L05-exit-4"],
            title="A hot battery room",
            statement="Riverbend's gel bank is {bank_voltage_v}, with {cells_12v_count} cells in every 12 V. The maker "
            "gives {absorb_cell_v} for each cell at {label_temp_c} and {compensation_mv_k} for each cell. The room "
            "is at {battery_temp_c}. Find the absorption set-point.",
            hint="How far is the battery from the label's temperature, and which way?",
            sheet=SET_POINTS.upto("absorb_set_v"),
            given={"cells_12v_count": 6, "bank_voltage_v": 24, "label_temp_c": 25},
            grids={
                "absorb_cell_v": (2.35, 2.37, 2.4),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (37, 39, 41, 43),
            },
            curated={"absorb_cell_v": 2.37, "compensation_mv_k": -5, "battery_temp_c": 39},
            mistakes=("TE-14", "TE-15", "TE-16", "TE-17"),
            words=WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
        Choose(
            id="L05-exit-5",
            others=OTHERS["L05-exit-5"],
            title="Which temperature?",
            statement="Four temperatures are known for Fell hut. Which one is the bank's capacity corrected for?",
            hint="Whose capacity is it, and when is it least?",
            given={"label_temp_c": 25},
            options=(
                Option("the battery's own on its coldest day", "It is that day's capacity that must do.", right=True),
                Option("the mean of the battery's year", mistake="TE-08"),
                Option("the coldest air on record in the yard", mistake="TE-09"),
                Option("{label_temp_c}, where the label was measured", mistake="TE-03"),
            ),
        ),
        Slip(
            id="L05-exit-6",
            others=OTHERS["L05-exit-6"],
            title="One more page",
            statement="This page was worked for a chapel's gel bank: {bank_warm_wh} if it stayed warm, coldest "
            "battery {battery_temp_c}, {bank_voltage_v}. Find the first line that goes wrong, if there is one, and "
            "mend it.",
            hint="What does this line begin from, and what should happen to it?",
            sheet=COLD_END,
            given={"capacity_kept": capacity_kept("gel"), "bank_voltage_v": 48},
            grids={"bank_warm_wh": (14000, 17000, 19000, 23000), "battery_temp_c": (-10, 0)},
            curated={"bank_warm_wh": 17000, "battery_temp_c": 0},
            mistakes=("TE-01", "TE-02", "TE-04", "TE-07", "BV-09"),
            words=WORDS,
        ),
    )
