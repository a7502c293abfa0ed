"""Exit quiz of the generator lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_exit_engine_more import ENGINES
from offgrid_core.practice.slots.l11_exit_more import OTHERS
from offgrid_core.practice.slots.l11_exit_page_more import PAGES
from offgrid_core.practice.slots.l11_sheets_more import (
    BEGINS,
    FUEL,
    LEVELS,
    LINE,
    PAGE,
    RUN,
    SITE,
    SIZE,
    WORDS,
)

_OTHERS = {**OTHERS, **ENGINES, **PAGES}


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz; the fifth asks for the rules that keep people alive."""
    return (
        Work(
            id="L11-exit-1",
            others=_OTHERS["L11-exit-1"],
            title="A dull week at the hut",
            statement="Fell hut's bank of {bank_ah} at {bank_voltage_v} has come down to {generator_start_frac}. Its "
            "engine, rated {generator_rated_w}, is to bring it to {generator_stop_frac}; {charge_eff_frac} of what "
            "goes in is kept. The charger gives {charger_a} at {absorb_set_v}, {charger_eff_frac} of what it takes. "
            "New DC lamps burn meanwhile, {dc_running_w}. Give the missing energy, the power left for the bank, and "
            "the hours.",
            hint=BEGINS,
            sheet=RUN,
            given={"bank_voltage_v": 48},
            grids={
                "bank_ah": (570, 660, 760, 870),
                "generator_start_frac": (0.45, 0.5, 0.55),
                "generator_rated_w": (3500, 4200, 5000),
                "generator_stop_frac": (0.8, 0.85),
                "charge_eff_frac": (0.77, 0.81, 0.84),
                "charger_a": (25, 30, 35),
                "absorb_set_v": (59.4, 61.8),
                "charger_eff_frac": (0.85, 0.89),
                "dc_running_w": (190, 260, 330),
            },
            curated={
                "bank_ah": 570,
                "generator_start_frac": 0.55,
                "generator_rated_w": 5000,
                "generator_stop_frac": 0.85,
                "charge_eff_frac": 0.84,
                "charger_a": 30,
                "absorb_set_v": 59.4,
                "charger_eff_frac": 0.85,
                "dc_running_w": 330,
            },
            mistakes=("GE-03", "GE-06", "GE-07", "GE-09"),
            words=WORDS,
            asked=tuple(map(Step, ("restore_wh", "charger_spare_w", "restore_h"))),
        ),
        Work(
            id="L11-exit-2",
            others=_OTHERS["L11-exit-2"],
            title="Fuel for the clinic",
            statement="While the clinic's charger gives the bank {charger_dc_w}, {charger_eff_frac} of what it takes, "
            "a steriliser runs on the same generator, {generator_other_w}. The label says {generator_rated_w}. By its "
            "size the engine burns {fuel_size_l_kwh}, by its work {fuel_work_l_kwh}. What does the charger take, what "
            "does the engine carry, and what does it burn in an hour?",
            hint=BEGINS,
            sheet=FUEL,
            grids={
                "charger_dc_w": (1050, 1300, 1550, 1800),
                "charger_eff_frac": (0.83, 0.87),
                "generator_other_w": (520, 680, 850),
                "generator_rated_w": (3900, 4600, 5400),
                "fuel_size_l_kwh": (0.07, 0.084, 0.095),
                "fuel_work_l_kwh": (0.25, 0.28, 0.31),
            },
            curated={
                "charger_dc_w": 1800,
                "charger_eff_frac": 0.83,
                "generator_other_w": 680,
                "generator_rated_w": 4600,
                "fuel_size_l_kwh": 0.095,
                "fuel_work_l_kwh": 0.28,
            },
            mistakes=("GE-01", "GE-02", "GE-11", "GE-19"),
            words=WORDS,
            asked=tuple(map(Step, FUEL)),
        ),
        Work(
            id="L11-exit-3",
            others=_OTHERS["L11-exit-3"],
            title="A hut above the trees",
            statement="At {altitude_m:m} a hut wants a generator; the air there grows {air_hot_c:°C} warm. Into the "
            "bank go {charger_dc_w}, {charger_eff_frac} of what the charger takes, at a power factor of "
            "{charger_pf_ratio}. A pump and a saw run beside it: {peak_w}, {peak_va}. For 300 m a label loses "
            "{derate_altitude_frac}, for 10 K above 25 °C {derate_heat_frac}. Work down to the volt-amps of the label.",
            hint=BEGINS,
            sheet=SIZE,
            given=SITE,
            grids={
                "altitude_m": (1700, 2100, 2500, 2900),
                "air_hot_c": (27, 30, 33),
                "charger_dc_w": (1350, 1650, 2000),
                "charger_eff_frac": (0.85, 0.89),
                "charger_pf_ratio": (0.68, 0.74, 0.8),
                "peak_w": (650, 800, 950),
                "peak_va": (1000, 1150, 1300),
            },
            curated={
                "altitude_m": 1700,
                "air_hot_c": 27,
                "charger_dc_w": 1650,
                "charger_eff_frac": 0.85,
                "charger_pf_ratio": 0.74,
                "peak_w": 950,
                "peak_va": 1150,
            },
            mistakes=("GE-01", "GE-13", "GE-14", "GE-16"),
            words=WORDS,
            asked=tuple(map(Step, SIZE)),
        ),
        Work(
            id="L11-exit-4",
            others=_OTHERS["L11-exit-4"],
            title="By amp-hours",
            statement="A house has a bank of {bank_ah}. Its engine is set to start at {generator_start_frac} and to "
            "stop at {generator_stop_frac}. A large charger is bought, rated {charger_rated_a}; the bank's maker "
            "allows a charging rate of {charge_rate_max_per_h}. With no DC loads: how many amp-hours go back, which "
            "current flows, and for how long?",
            hint=BEGINS,
            sheet=LEVELS,
            grids={
                "bank_ah": (440, 530, 620, 760),
                "generator_start_frac": (0.4, 0.45, 0.5),
                "generator_stop_frac": (0.8, 0.85),
                "charger_rated_a": (110, 130, 150),
                "charge_rate_max_per_h": (0.12, 0.13, 0.14),
            },
            curated={
                "bank_ah": 760,
                "generator_start_frac": 0.5,
                "generator_stop_frac": 0.85,
                "charger_rated_a": 150,
                "charge_rate_max_per_h": 0.13,
            },
            mistakes=("GE-05", "GE-10", "GE-17", "GE-18"),
            words=WORDS,
            asked=tuple(map(Step, ("generator_run_ah", "charger_a", "generator_run_h"))),
        ),
        Choose(
            id="L11-exit-5",
            others=_OTHERS["L11-exit-5"],
            title="Under the window",
            statement="The hut's engine stands outdoors, close under the bedroom window, because the lead reaches no "
            "further. It is a cold night, and the window is open a hand's width. What now?",
            hint="Where does the exhaust go, and who would notice?",
            options=(
                Option(
                    "stop it, and let it run well away from windows, on a lead long and thick enough",
                    "Exhaust drifts in, has no smell of its own, and kills those who sleep.",
                    right=True,
                ),
                Option("let it run: it stands in the open air", "Which way does the air go at an open window?"),
                Option("shut the window halfway and go to sleep", "How much of the gas is too much for a night?"),
                Option(
                    "let it run: one would wake from the smell",
                    "Does the part of the exhaust that harms have a smell?",
                ),
            ),
        ),
        Slip(
            id="L11-exit-6",
            others=_OTHERS["L11-exit-6"],
            title="A page for the inn",
            statement="An inn's generator, {generator_rated_w}, line by line: {bank_ah} at {bank_voltage_v}, from "
            "{generator_start_frac} up to {generator_stop_frac}, {charge_eff_frac} kept; {charger_a} at "
            "{absorb_set_v}; {dc_running_w} on DC; {charger_eff_frac} through the charger; AC loads beside it, "
            "{generator_other_w} on average for the fuel, {peak_w} and {peak_va} at most for the label; "
            "{fuel_size_l_kwh} and {fuel_work_l_kwh} of fuel, by size and by work; power factor {charger_pf_ratio}; "
            "{altitude_m:m}, {air_hot_c:°C}. Height takes {derate_altitude_frac} for 300 m, heat {derate_heat_frac} "
            "for 10 K. Find the first line that goes wrong, if there is one, and mend it.",
            hint=LINE,
            sheet=PAGE,
            given={"bank_voltage_v": 24, **SITE},
            grids={
                "generator_rated_w": (3600, 4400),
                "bank_ah": (620, 735, 980),
                "generator_start_frac": (0.4, 0.45),
                "generator_stop_frac": (0.8, 0.85),
                "charge_eff_frac": (0.77, 0.81),
                "charger_a": (55, 65),
                "absorb_set_v": (28.4, 29.4),
                "dc_running_w": (180, 240),
                "charger_eff_frac": (0.85, 0.89),
                "generator_other_w": (300, 420),
                "fuel_size_l_kwh": (0.07, 0.09),
                "fuel_work_l_kwh": (0.25, 0.31),
                "charger_pf_ratio": (0.7, 0.78),
                "peak_w": (540, 610),
                "peak_va": (760, 890),
                "altitude_m": (1500, 2100),
                "air_hot_c": (30, 34),
            },
            curated={
                "generator_rated_w": 4400,
                "bank_ah": 620,
                "generator_start_frac": 0.45,
                "generator_stop_frac": 0.8,
                "charge_eff_frac": 0.81,
                "charger_a": 65,
                "absorb_set_v": 29.4,
                "dc_running_w": 180,
                "charger_eff_frac": 0.89,
                "generator_other_w": 420,
                "fuel_size_l_kwh": 0.09,
                "fuel_work_l_kwh": 0.31,
                "charger_pf_ratio": 0.7,
                "peak_w": 540,
                "peak_va": 890,
                "altitude_m": 2100,
                "air_hot_c": 30,
            },
            mistakes=("GE-06", "GE-07", "GE-09", "GE-11", "GE-13", "GE-14"),
            words=WORDS,
        ),
    )
