"""Other templates of the exit quiz on the bank's voltage: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l02_exit_judge_more import pages, why
from offgrid_core.practice.slots.l02_words_more import (
    AMP_HOURS,
    CHOICE,
    CURRENT,
    DAY_AH,
    LOSS,
    LOW,
    RUNNING,
    SAME_ENERGY,
    SQUARE,
    TOGETHER,
    WORDS,
)
from offgrid_core.sizing import BANK, VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.voltage_teaching import IN_THE_CABLE, LOW_CURRENT, STEP_UP
from offgrid_core.worksheet import Sheet

_EFFICIENT = (0.8, 0.82, 0.84, 0.86)


def _current() -> tuple[Slot, ...]:
    return (
        Work(
            id="L02-exit-1",
            title="So many volts for every twelve",
            statement="A workshop by the lake has a {bank_voltage_v} bank. Its planner counts on {low_12v_v} for "
            "every 12 V at the end of a hard evening. The machine inverter ({inverter_rated_w}, efficiency "
            "{inverter_eff_frac}) makes {outlet_v}. Give the voltage of that evening and the amperes that the "
            "inverter then takes from the bank.",
            hint=LOW,
            sheet=LOW_CURRENT,
            given={"outlet_v": 230},
            grids={
                "bank_voltage_v": (24, 48),
                "low_12v_v": (10.4, 10.6, 10.9),
                "inverter_rated_w": (1600, 2200, 2800, 3600),
                "inverter_eff_frac": _EFFICIENT,
            },
            curated={"bank_voltage_v": 48, "low_12v_v": 10.6, "inverter_rated_w": 2800, "inverter_eff_frac": 0.84},
            mistakes=CURRENT,
            words=WORDS,
            asked=(Step("inverter_low_v"), Step("inverter_input_a")),
        ),
        Work(
            id="L02-exit-1",
            title="How warm will it get?",
            statement="Fell hut's old {bank_voltage_v} inverter stays, at {inverter_rated_w} and "
            "{inverter_eff_frac}. Before dawn its battery shows {inverter_low_v}; the lamps hang on {outlet_v}. "
            "There and back, the cable between them resists with {cable_loop_ohm}. Find the amperes in it and the "
            "watts that warm it.",
            hint=LOW,
            sheet=Sheet(LOW_CURRENT["inverter_input_a"], IN_THE_CABLE["inverter_lost_w"]),
            given={"bank_voltage_v": 48, "outlet_v": 230},
            grids={
                "inverter_rated_w": (900, 1200, 1500),
                "inverter_eff_frac": _EFFICIENT,
                "inverter_low_v": (41.6, 42.4, 43.2),
                "cable_loop_ohm": (0.0072, 0.0096, 0.0124),
            },
            curated={
                "inverter_rated_w": 1200,
                "inverter_eff_frac": 0.84,
                "inverter_low_v": 42.4,
                "cable_loop_ohm": 0.0096,
            },
            mistakes=CURRENT,
            words=WORDS,
            asked=(Step("inverter_input_a"), Step("inverter_lost_w")),
        ),
        Work(
            id="L02-exit-1",
            title="Volts that never arrive",
            statement="Once a year a boat brings a small inverter to Gull mast, for a drill: {inverter_rated_w} at "
            "{outlet_v}, {inverter_eff_frac} efficient. The mast has {bank_voltage_v}, which may fall to "
            "{inverter_low_v}; a spare pair of cables has {cable_loop_ohm} altogether. What flows in it, and how "
            "many volts does it keep?",
            hint=LOW,
            sheet=Sheet(LOW_CURRENT["inverter_input_a"], IN_THE_CABLE["inverter_drop_v"]),
            given={"bank_voltage_v": 12, "outlet_v": 115},
            grids={
                "inverter_rated_w": (250, 300, 400, 450),
                "inverter_eff_frac": _EFFICIENT,
                "inverter_low_v": (10.4, 10.6, 10.8),
                "cable_loop_ohm": (0.011, 0.015, 0.022),
            },
            curated={
                "inverter_rated_w": 300,
                "inverter_eff_frac": 0.84,
                "inverter_low_v": 10.6,
                "cable_loop_ohm": 0.015,
            },
            mistakes=CURRENT,
            words=WORDS,
            asked=(Step("inverter_input_a"), Step("inverter_drop_v")),
        ),
    )


def _amp_hours() -> tuple[Slot, ...]:
    return (
        Work(
            id="L02-exit-2",
            title="A label in the wrong unit",
            statement="An iron phosphate box is sold by its energy: {bank_cold_wh:kWh} on the label, "
            "{bank_voltage_v}. The data sheet of the charger asks for amp-hours. Which number is to be entered?",
            hint=SAME_ENERGY,
            sheet=Sheet(BANK["bank_needed_ah"]),
            grids={"bank_cold_wh": (2600, 3600, 4300, 5100, 7700, 10_200), "bank_voltage_v": (24, 36, 48)},
            curated={"bank_cold_wh": 5100, "bank_voltage_v": 48},
            mistakes=AMP_HOURS,
            words=WORDS,
            asked=(Step("bank_needed_ah"),),
        ),
        Backwards(
            id="L02-exit-2",
            title="What may be used",
            statement="A bakery may take {bank_ah} from its {bank_voltage_v} bank between one sunset and the next. "
            "How much energy do lamps and fridge have for that time?",
            hint=SAME_ENERGY,
            sheet=DAY_AH,
            grids={"bank_ah": (45, 55, 65, 80, 95, 115, 130), "bank_voltage_v": (24, 48)},
            curated={"bank_ah": 80, "bank_voltage_v": 24},
            mistakes=("BV-07", "BV-08", "BV-09"),
            words=WORDS,
            unknown="energy_day_wh",
            span=(0.1, 1e6),
            result="day_ah",
            wanted="bank_ah",
        ),
        Work(
            id="L02-exit-2",
            title="One client, two banks",
            statement="The planner has found {energy_day_wh} for every day at the lake. A dealer offers a battery of "
            "{bank_voltage_v} and answers in amp-hours only. What is he to be asked for, to carry one such day?",
            hint=SAME_ENERGY,
            sheet=DAY_AH,
            grids={"energy_day_wh": (1150, 1650, 2150, 2450, 2950), "bank_voltage_v": (24, 36, 48)},
            curated={"energy_day_wh": 2150, "bank_voltage_v": 36},
            mistakes=AMP_HOURS,
            words=WORDS,
            asked=(Step("day_ah"),),
        ),
    )


def _loss() -> tuple[Slot, ...]:
    return (
        Work(
            id="L02-exit-3",
            title="Measured with a hand on it",
            statement="A farm's fridge cable is warm: {cable_lost_w} of heat, by the meter, at {bank_voltage_v}. A "
            "neighbour advises a bank of {raised_voltage_v}. How much of that heat would be left?",
            hint=SQUARE,
            sheet=Sheet(STEP_UP["raised_lost_w"]),
            grids={
                "cable_lost_w": (26, 34, 45, 58, 72, 85),
                "bank_voltage_v": (12, 24),
                "raised_voltage_v": (36, 48),
            },
            curated={"cable_lost_w": 58, "bank_voltage_v": 24, "raised_voltage_v": 48},
            mistakes=LOSS,
            words=WORDS,
            asked=(Step("raised_lost_w"),),
        ),
        Work(
            id="L02-exit-3",
            title="From the truck to the farm",
            statement="On the truck the winch draws {cable_a} at {bank_voltage_v}, along {cable_loop_ohm} of "
            "copper, out and home again. The farmer rewinds the motor for {raised_voltage_v}, with the same "
            "strength, and keeps the leads. Find the loss on the truck, then the loss at the farm.",
            hint=SQUARE,
            sheet=STEP_UP,
            given={"bank_voltage_v": 12},
            grids={
                "cable_a": (95, 130, 160, 185),
                "cable_loop_ohm": (0.0024, 0.0036, 0.0052),
                "raised_voltage_v": (24, 36, 48),
            },
            curated={"cable_a": 130, "cable_loop_ohm": 0.0036, "raised_voltage_v": 48},
            mistakes=LOSS,
            words=WORDS,
            asked=(Step("cable_lost_w"), Step("raised_lost_w")),
        ),
        Backwards(
            id="L02-exit-3",
            title="How high must it go?",
            statement="A long line at Gull mast loses {cable_lost_w} while it is fed with {bank_voltage_v}. Only "
            "{lost_allowed_w} may be lost. Which voltage would do, with power and wire as they are?",
            hint=SQUARE,
            sheet=Sheet(STEP_UP["raised_lost_w"]),
            given={"bank_voltage_v": 12},
            grids={"cable_lost_w": (24, 30, 36, 42), "lost_allowed_w": (2.5, 3.5, 5, 6.5)},
            curated={"cable_lost_w": 30, "lost_allowed_w": 3.5},
            mistakes=LOSS,
            words=WORDS | {"raised_voltage_v": "voltage wanted"},
            unknown="raised_voltage_v",
            span=(2, 900),
            result="raised_lost_w",
            wanted="lost_allowed_w",
        ),
    )


def _choice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L02-exit-4",
            title="All at once",
            statement="Before breakfast the cabin has {peak_w} on AC and {dc_peak_w} on DC. The inverter turns "
            "{inverter_eff_frac} of what it gets into AC; the bank has {bank_voltage_v}. How many amperes leave the "
            "bank?",
            hint=TOGETHER,
            sheet=RUNNING,
            grids={
                "peak_w": (620, 880, 1250, 1600),
                "dc_peak_w": (90, 130, 210),
                "inverter_eff_frac": (0.78, 0.82, 0.86),
                "bank_voltage_v": (24, 36, 48),
            },
            curated={"peak_w": 880, "dc_peak_w": 130, "inverter_eff_frac": 0.82, "bank_voltage_v": 24},
            mistakes=CHOICE,
            words=WORDS,
            asked=(Step("running_current_a"),),
        ),
        Work(
            id="L02-exit-4",
            title="A firm with its own rule",
            statement="A firm never lets a bank give more than {current_wanted_a}. One of its clients wants "
            "{peak_w} at the sockets ({inverter_eff_frac} inverter) with lamps and pump of {dc_peak_w} on the "
            "battery's own wires. From which voltage on is the rule kept, and which of 12, 24, 48 V does the firm "
            "build?",
            hint=TOGETHER,
            sheet=VOLTAGE,
            given={"voltage_steps": VOLTAGE_STEPS, "current_wanted_a": 150},
            grids={
                "peak_w": (1000, 2000, 2150, 4200, 4500),
                "dc_peak_w": (240, 330, 420),
                "inverter_eff_frac": (0.8, 0.83, 0.86),
            },
            curated={"peak_w": 2000, "dc_peak_w": 330, "inverter_eff_frac": 0.83},
            mistakes=CHOICE,
            words=WORDS,
            asked=(Step("voltage_least_v"), Step("voltage_suggested_v")),
        ),
        Backwards(
            id="L02-exit-4",
            title="Room for one more kettle",
            statement="Fell hut's {bank_voltage_v} bank shall never give more than {current_wanted_a}. {dc_peak_w} "
            "of DC are always on. With an inverter of {inverter_eff_frac}, how much AC power may run beside it?",
            hint=TOGETHER,
            sheet=RUNNING,
            given={"bank_voltage_v": 48},
            grids={
                "current_wanted_a": (30, 40, 50, 60),
                "dc_peak_w": (180, 260, 340),
                "inverter_eff_frac": (0.78, 0.82, 0.86),
            },
            curated={"current_wanted_a": 40, "dc_peak_w": 260, "inverter_eff_frac": 0.82},
            mistakes=CHOICE,
            words=WORDS | {"peak_w": "AC power that may run"},
            unknown="peak_w",
            span=(1, 20_000),
            result="running_current_a",
            wanted="current_wanted_a",
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_current(), _amp_hours(), _loss(), _choice(), why(), pages())
}
