"""Exit quiz of the lesson on the bank's voltage: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l02_exit_more import OTHERS
from offgrid_core.practice.slots.l02_judge_more import LINE, PAGE
from offgrid_core.practice.slots.l02_words_more import (
    AMP_HOURS,
    CHOICE,
    CURRENT,
    DAY_AH,
    LOSS,
    LOW,
    SAME_ENERGY,
    SQUARE,
    TOGETHER,
    WORDS,
)
from offgrid_core.sizing import VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.voltage_teaching import LOW_CURRENT, STEP_UP
from offgrid_core.worksheet import Sheet


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L02-exit-1",
            others=OTHERS["L02-exit-1"],
            title="A steriliser for the clinic",
            statement="Riverbend's {bank_voltage_v} bank may sink to {inverter_low_v} while a new inverter works at "
            "its full {inverter_rated_w}. It passes on {inverter_eff_frac} of what it takes, to sockets of "
            "{outlet_v}. For what current is the cable at its input to be chosen?",
            hint=LOW,
            sheet=Sheet(LOW_CURRENT["inverter_input_a"]),
            given={"bank_voltage_v": 24, "outlet_v": 230},
            grids={
                "inverter_rated_w": (900, 1300, 1700, 2100),
                "inverter_eff_frac": (0.8, 0.82, 0.84, 0.86),
                "inverter_low_v": (20.8, 21.2, 21.6, 22),
            },
            curated={"inverter_rated_w": 1300, "inverter_eff_frac": 0.84, "inverter_low_v": 21.2},
            mistakes=CURRENT,
            words=WORDS,
            asked=(Step("inverter_input_a"),),
        ),
        Work(
            id="L02-exit-2",
            others=OTHERS["L02-exit-2"],
            title="The lodge's day",
            statement="A forest lodge takes {energy_day_wh:kWh} out of its battery in a day. The battery is "
            "{bank_voltage_v}. Give the same day in amp-hours.",
            hint=SAME_ENERGY,
            sheet=DAY_AH,
            grids={"energy_day_wh": (1450, 1900, 2350, 2800, 3300, 4100), "bank_voltage_v": (24, 48)},
            curated={"energy_day_wh": 1900, "bank_voltage_v": 48},
            mistakes=AMP_HOURS,
            words=WORDS,
            asked=(Step("day_ah"),),
        ),
        Work(
            id="L02-exit-3",
            others=OTHERS["L02-exit-3"],
            title="Rebuilt for more volts",
            statement="At the weekend cabin {cable_a} go through a pair of cables with {cable_loop_ohm} in all. The "
            "{bank_voltage_v} bank is rebuilt as one of {raised_voltage_v}; nothing else changes. How many watts "
            "heat the cables today, and how many afterwards?",
            hint=SQUARE,
            sheet=STEP_UP,
            grids={
                "cable_a": (55, 70, 85, 110),
                "cable_loop_ohm": (0.0048, 0.0064, 0.0092),
                "bank_voltage_v": (12, 24),
                "raised_voltage_v": (36, 48),
            },
            curated={"cable_a": 85, "cable_loop_ohm": 0.0064, "bank_voltage_v": 12, "raised_voltage_v": 36},
            mistakes=LOSS,
            words=WORDS,
            asked=(Step("cable_lost_w"), Step("raised_lost_w")),
        ),
        Work(
            id="L02-exit-4",
            others=OTHERS["L02-exit-4"],
            title="Twelve, twenty-four or forty-eight",
            statement="In a dairy's busiest minute {peak_w} run through the inverter ({inverter_eff_frac}) and "
            "{dc_peak_w} straight from the bank. No more than {current_wanted_a} is wanted. Banks come at 12, 24 "
            "and 48 V. Work the voltage at which the limit would just be reached, and name the bank.",
            hint=TOGETHER,
            sheet=VOLTAGE,
            given={"voltage_steps": VOLTAGE_STEPS, "current_wanted_a": 80},
            grids={
                "peak_w": (500, 1050, 1150, 2300, 2500),
                "dc_peak_w": (140, 200, 260),
                "inverter_eff_frac": (0.8, 0.83, 0.86),
            },
            curated={"peak_w": 1050, "dc_peak_w": 200, "inverter_eff_frac": 0.8},
            mistakes=CHOICE,
            words=WORDS,
            asked=(Step("voltage_least_v"), Step("voltage_suggested_v")),
        ),
        Choose(
            id="L02-exit-5",
            others=OTHERS["L02-exit-5"],
            title="Why a quarter?",
            statement="A cable turned 80 W into heat. Since the bank has twice the volts, it is 20 W, for the same "
            "load. Why?",
            hint="What becomes of the current, and of the volts that this current loses?",
            options=(
                Option(
                    "half the amps, and each of them loses half as many volts",
                    "Watts are volts times amps: a half times a half.",
                    right=True,
                ),
                Option("the loss halves with the current; the rest was saved by the inverter", mistake="BV-11"),
                Option("more volts push more current, which cools the cable", mistake="BV-12"),
                Option("a 48 V cable has a quarter of the resistance", "Was the cable changed, or the bank?"),
            ),
        ),
        Slip(
            id="L02-exit-6",
            others=OTHERS["L02-exit-6"],
            title="From the day to the heat",
            statement="A page for the weekend cabin, {bank_voltage_v}: {energy_day_wh} a day; an inverter of "
            "{inverter_rated_w}, {inverter_eff_frac} efficient; sockets of {outlet_v}; {low_12v_v} for each 12 V "
            "when low; {cable_loop_ohm} of cable. Its last line tries {raised_voltage_v}. Name the first line that "
            "goes wrong, if any does, and mend it.",
            hint=LINE,
            sheet=PAGE,
            given={"outlet_v": 230, "bank_voltage_v": 24, "raised_voltage_v": 48},
            grids={
                "energy_day_wh": (1300, 1600, 2000),
                "inverter_rated_w": (900, 1100, 1500),
                "inverter_eff_frac": (0.78, 0.81, 0.84),
                "low_12v_v": (10.6, 10.8, 11),
                "cable_loop_ohm": (0.0044, 0.0058, 0.0076),
            },
            curated={
                "energy_day_wh": 1600,
                "inverter_rated_w": 1100,
                "inverter_eff_frac": 0.84,
                "low_12v_v": 10.8,
                "cable_loop_ohm": 0.0058,
            },
            mistakes=("BV-09", "BV-02", "BV-03", "BV-04", "BV-05", "BV-11"),
            words=WORDS,
        ),
    )
