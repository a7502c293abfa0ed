"""Practice of the generator lesson that is its own: hours, fuel, size, levels, and what moves them."""

from offgrid_core.practice.kinds import Backwards, Factor, Knob, Rough, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import (
    BACK,
    BEGINS,
    BURNT,
    FUEL,
    FUEL_IDEA,
    LEVELS_IDEA,
    PACE_IDEA,
    RUN,
    SITE,
    SIZE,
    SIZE_IDEA,
    WORDS,
)
from offgrid_core.sizing.generator_teaching import RESTORE, RESTORE_FUEL

_HOURS = RESTORE.upto("restore_h")


def practice() -> tuple[Slot, ...]:
    """Return the problems, in order."""
    return (_hours(), _fuel(), _size(), _level(), _knob(), _rough())


def _hours() -> Slot:
    return Work(
        id="L11-1",
        title="Until the bank is up again",
        statement="The clinic has borrowed a generator of {generator_rated_w}. Its bank, {bank_ah} at "
        "{bank_voltage_v}, stands at {generator_start_frac} and is to come to {generator_stop_frac}; it keeps "
        "{charge_eff_frac} of what it is given. The charger gives {charger_a} at {absorb_set_v}, {charger_eff_frac} of "
        "what it takes. Lamps and fans stay on, {dc_running_w} on DC. How long does the engine run?",
        hint=BEGINS,
        principle=PACE_IDEA,
        sheet=RUN,
        given={"bank_voltage_v": 24},
        grids={
            "generator_rated_w": (3000, 3800, 4500),
            "bank_ah": (500, 620, 735, 860),
            "generator_start_frac": (0.4, 0.45, 0.5),
            "generator_stop_frac": (0.8, 0.85),
            "charge_eff_frac": (0.78, 0.82, 0.86),
            "charger_a": (45, 55, 65),
            "absorb_set_v": (28.4, 29.2),
            "charger_eff_frac": (0.86, 0.9),
            "dc_running_w": (180, 240, 310),
        },
        curated={
            "generator_rated_w": 4500,
            "bank_ah": 735,
            "generator_start_frac": 0.4,
            "generator_stop_frac": 0.8,
            "charge_eff_frac": 0.82,
            "charger_a": 55,
            "absorb_set_v": 28.4,
            "charger_eff_frac": 0.86,
            "dc_running_w": 180,
        },
        mistakes=("GE-03", "GE-06", "GE-07", "GE-08", "GE-09", "GE-20"),
        words=WORDS,
        asked=tuple(map(Step, ("restore_wh", "charger_dc_w", "charger_spare_w", "restore_h"))),
    )


def _fuel() -> Slot:
    return Work(
        id="L11-3",
        title="How many cans?",
        statement="The charger gives the bank {charger_dc_w}, {charger_eff_frac} of what it takes from the generator; "
        "a water heater beside it takes {generator_other_w}. The generator's label says {generator_rated_w}. Its "
        "engine burns {fuel_size_l_kwh} for each kilowatt of that label and hour, and {fuel_work_l_kwh} for each "
        "kilowatt-hour it makes. The run takes {restore_h}. How much fuel is that?",
        hint=BEGINS,
        principle=FUEL_IDEA,
        sheet=FUEL + RESTORE_FUEL,
        grids={
            "charger_dc_w": (1150, 1400, 1750, 2100),
            "charger_eff_frac": (0.84, 0.88),
            "generator_other_w": (450, 600, 800),
            "generator_rated_w": (4200, 5000, 6000),
            "fuel_size_l_kwh": (0.066, 0.084, 0.1),
            "fuel_work_l_kwh": (0.246, 0.29, 0.32),
            "restore_h": (4.6, 5.8, 7.2, 8.5),
        },
        curated={
            "charger_dc_w": 1150,
            "charger_eff_frac": 0.88,
            "generator_other_w": 800,
            "generator_rated_w": 5000,
            "fuel_size_l_kwh": 0.066,
            "fuel_work_l_kwh": 0.29,
            "restore_h": 8.5,
        },
        mistakes=("GE-01", "GE-02", "GE-11", "GE-12", "GE-19"),
        words=WORDS,
        asked=tuple(map(Step, (*FUEL, *RESTORE_FUEL))),
    )


def _size() -> Slot:
    return Work(
        id="L11-4",
        title="A label for the pass",
        statement="A mountain inn lies at {altitude_m:m}; in summer it is {air_hot_c:°C} there. The charger gives "
        "{charger_dc_w}, {charger_eff_frac} of what it takes, with a power factor of {charger_pf_ratio}. The kitchen "
        "meanwhile takes {peak_w}, {peak_va}. A label loses {derate_altitude_frac} for each 300 m and "
        "{derate_heat_frac} for each 10 K above 25 °C. How many volt-amps must stand on it?",
        hint=BEGINS,
        principle=SIZE_IDEA,
        sheet=SIZE,
        given=SITE,
        grids={
            "altitude_m": (1600, 2000, 2400, 2800),
            "air_hot_c": (28, 32, 36),
            "charger_dc_w": (1250, 1600, 1950, 2300),
            "charger_eff_frac": (0.84, 0.88),
            "charger_pf_ratio": (0.65, 0.72, 0.78),
            "peak_w": (720, 780, 850),
            "peak_va": (900, 1050, 1200),
        },
        curated={
            "altitude_m": 2000,
            "air_hot_c": 36,
            "charger_dc_w": 1600,
            "charger_eff_frac": 0.84,
            "charger_pf_ratio": 0.65,
            "peak_w": 780,
            "peak_va": 1200,
        },
        mistakes=("GE-01", "GE-02", "GE-13", "GE-14", "GE-15", "GE-16"),
        words=WORDS,
        asked=tuple(map(Step, SIZE)),
    )


def _level() -> Slot:
    return Backwards(
        id="L11-6",
        title="Done before bedtime",
        statement="The engine may run {load_h}, from dinner to bedtime, and stops at {generator_stop_frac}. The bank "
        "holds {bank_wh} by its label and keeps {charge_eff_frac} of what it is given. The charger gives "
        "{charger_dc_w}; the DC loads take {dc_running_w} of that. At which charge must the engine be started, so that "
        "the run is no longer?",
        hint=BACK,
        principle=f"{PACE_IDEA} {LEVELS_IDEA}",
        sheet=_HOURS,
        grids={
            "load_h": (3.5, 4, 4.5, 5),
            "generator_stop_frac": (0.8, 0.85, 0.9),
            "bank_wh": (14_400, 17_300, 20_200, 24_000),
            "charge_eff_frac": (0.78, 0.82, 0.86),
            "charger_dc_w": (1350, 1600, 1900),
            "dc_running_w": (160, 210, 270),
        },
        curated={
            "load_h": 4,
            "generator_stop_frac": 0.85,
            "bank_wh": 14400,
            "charge_eff_frac": 0.82,
            "charger_dc_w": 1600,
            "dc_running_w": 270,
        },
        mistakes=("GE-06", "GE-07", "GE-08"),
        words=WORDS | {"load_h": "hours that the engine may run", "generator_start_frac": "charge at the start"},
        unknown="generator_start_frac",
        span=(0.02, 0.79),
        result="restore_h",
        wanted="load_h",
    )


def _knob() -> Slot:
    return Knob(
        id="L11-7",
        title="What saves the most fuel?",
        statement="One run of the engine burns some litres. Which three of these move that figure most, if each is "
        "made a tenth larger, and which way?",
        hint="By what share does the gap between the two levels change when one of them moves by a tenth?",
        principle="The two levels make the gap that is filled. It is the difference of two large shares, so a small "
        "change of one is a large change of the gap.",
        sheet=BURNT,
        given={"bank_voltage_v": 48, "generator_other_w": 0},
        grids={
            "bank_ah": (570, 760, 950),
            "generator_start_frac": (0.45, 0.5, 0.55),
            "generator_stop_frac": (0.8, 0.85),
            "charge_eff_frac": (0.8, 0.84),
            "charger_a": (30, 35, 40),
            "absorb_set_v": (58.8, 61.2),
            "charger_eff_frac": (0.86, 0.9),
            "dc_running_w": (90, 140),
            "fuel_size_l_kwh": (0.066, 0.084),
            "fuel_work_l_kwh": (0.246, 0.3),
            "generator_rated_w": (3200, 3800),
        },
        curated={
            "bank_ah": 570,
            "generator_start_frac": 0.5,
            "generator_stop_frac": 0.8,
            "charge_eff_frac": 0.84,
            "charger_a": 35,
            "absorb_set_v": 61.2,
            "charger_eff_frac": 0.86,
            "dc_running_w": 140,
            "fuel_size_l_kwh": 0.066,
            "fuel_work_l_kwh": 0.3,
            "generator_rated_w": 3200,
        },
        words=WORDS,
        result="restore_l",
        inputs=("generator_stop_frac", "generator_start_frac", "fuel_work_l_kwh", "fuel_size_l_kwh", "dc_running_w"),
    )


def _rough() -> Slot:
    return Rough(
        id="L11-9",
        title="On the back of an envelope",
        statement="By the phone, with no papers at hand: a lead-acid bank of {bank_wh}, a charger that gives it "
        "{charger_dc_w}, and DC loads of {dc_running_w} meanwhile. About how long does the engine run? Take the "
        "levels and the battery's loss as the trade does.",
        hint="Do your three figures and the power that is left come to so many hours?",
        principle=f"{PACE_IDEA} {LEVELS_IDEA}",
        sheet=_HOURS,
        grids={
            "bank_wh": (9_600, 14_400, 19_200, 28_800),
            "charger_dc_w": (1200, 1500, 1800),
            "dc_running_w": (100, 150, 200),
            "generator_start_frac": (0.4, 0.45, 0.5),
            "generator_stop_frac": (0.85,),
            "charge_eff_frac": (0.8, 0.84),
        },
        curated={
            "bank_wh": 14400,
            "charger_dc_w": 1800,
            "dc_running_w": 100,
            "generator_start_frac": 0.45,
            "generator_stop_frac": 0.85,
            "charge_eff_frac": 0.84,
        },
        words=WORDS,
        factors=(
            Factor("generator_start_frac", 0.35, 0.55),
            Factor("generator_stop_frac", 0.8, 0.9),
            Factor("charge_eff_frac", 0.75, 0.9),
        ),
        step=Step("restore_h"),
    )
