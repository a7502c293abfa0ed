"""Judgement items of the generator lesson: a page with a slip, a generator to pick, a log in which something failed."""

from offgrid_core.practice.kinds import Failed, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import (
    FUEL_IDEA,
    JUDGED,
    LEAST,
    LEVELS_IDEA,
    LINE,
    PACE_IDEA,
    PAGE,
    SITE,
    SIZE_IDEA,
    UP_THERE,
    WORDS,
)

#: A post whose array is small for its winter, so that the engine has to run. An invented place.
_POST = """
title = "A winter post"
note = "Whoever keeps the road open lives here. Four modules, and a generator for the dark weeks."

[site]
name = "fell_hut"
tilt_deg = 65

[choices]
bank_voltage_v = 48
autonomy_days = 2
depth_frac = 0.5
battery_temp_c = 5
chemistry = "flooded"

[[load]]
name = "radio and router"
bus = "AC"
power_w = 60
hours_h = 24

[[load]]
name = "lamps"
bus = "AC"
count = 8
power_w = 8
hours_h = 6

[owned]
module = "module_440w_72cell"
modules_count = 4

[generator]
rated_w = 3000
rated_va = 3500
charger_a = 30
"""


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (_slip(), _pick(), _failed())


def _slip() -> Slot:
    return Slip(
        id="L11-slip",
        title="Find the slip",
        statement="Somebody worked a mountain inn's next generator of {generator_rated_w}: the bank, {bank_ah} at "
        "{bank_voltage_v}, from {generator_start_frac} to {generator_stop_frac}, keeping {charge_eff_frac}; "
        "{charger_a} at {absorb_set_v}, {charger_eff_frac} of what the charger takes; {dc_running_w} of DC loads; AC "
        "loads on the engine, {generator_other_w} on average for the fuel, {peak_w} and {peak_va} at most for the "
        "label; fuel {fuel_size_l_kwh} by size and {fuel_work_l_kwh} by work; power factor {charger_pf_ratio}; "
        "{altitude_m:m}, {air_hot_c:°C}, with {derate_altitude_frac} for 300 m and {derate_heat_frac} for 10 K. Find "
        "the first line that goes wrong, if there is one, and give its right value.",
        hint=LINE,
        principle=f"{PACE_IDEA} {FUEL_IDEA} {SIZE_IDEA}",
        sheet=PAGE,
        given={"bank_voltage_v": 48, **SITE},
        grids={
            "generator_rated_w": (4200, 5000),
            "bank_ah": (570, 760, 950),
            "generator_start_frac": (0.5, 0.55),
            "generator_stop_frac": (0.8, 0.85),
            "charge_eff_frac": (0.78, 0.82),
            "charger_a": (30, 35, 40),
            "absorb_set_v": (58.8, 61.2),
            "charger_eff_frac": (0.86, 0.9),
            "dc_running_w": (210, 290),
            "generator_other_w": (350, 500),
            "fuel_size_l_kwh": (0.066, 0.084),
            "fuel_work_l_kwh": (0.246, 0.3),
            "charger_pf_ratio": (0.7, 0.78),
            "peak_w": (640, 720),
            "peak_va": (900, 1050),
            "altitude_m": (1800, 2400),
            "air_hot_c": (29, 33),
        },
        curated={
            "generator_rated_w": 4200,
            "bank_ah": 950,
            "generator_start_frac": 0.55,
            "generator_stop_frac": 0.85,
            "charge_eff_frac": 0.78,
            "charger_a": 40,
            "absorb_set_v": 58.8,
            "charger_eff_frac": 0.9,
            "dc_running_w": 210,
            "generator_other_w": 500,
            "fuel_size_l_kwh": 0.084,
            "fuel_work_l_kwh": 0.3,
            "charger_pf_ratio": 0.78,
            "peak_w": 720,
            "peak_va": 1050,
            "altitude_m": 1800,
            "air_hot_c": 33,
        },
        mistakes=("GE-03", "GE-06", "GE-07", "GE-09", "GE-11", "GE-13", "GE-14"),
        words=WORDS,
    )


def _pick() -> Slot:
    return Pick(
        id="L11-pick",
        title="Pick a generator",
        statement="A hut at {altitude_m:m}, {air_hot_c:°C} in summer, wants a diesel for its charger: {charger_dc_w} "
        "into the bank, {charger_eff_frac} of what the charger takes, power factor {charger_pf_ratio}. AC loads of "
        "{peak_va} run on it meanwhile, {generator_other_w}. A label loses {derate_altitude_frac} for each 300 m and "
        "{derate_heat_frac} for each 10 K above 25 °C; loaded below {loading_min_frac} of its watts, a diesel soots "
        "up. Which is the cheapest that keeps every limit? Costs are invented.",
        hint=UP_THERE,
        principle=f"{SIZE_IDEA} Too large is a fault as well: an engine that loafs soots up.",
        sheet=JUDGED,
        given={**SITE, **LEAST},
        grids={
            "altitude_m": (1500, 1900, 2300),
            "air_hot_c": (30, 34),
            "charger_dc_w": (1250, 1450, 1650),
            "charger_eff_frac": (0.86, 0.9),
            "charger_pf_ratio": (0.72, 0.8),
            "peak_va": (700, 850),
            "generator_other_w": (520, 610),
        },
        curated={
            "altitude_m": 1900,
            "air_hot_c": 34,
            "charger_dc_w": 1650,
            "charger_eff_frac": 0.9,
            "charger_pf_ratio": 0.8,
            "peak_va": 850,
            "generator_other_w": 610,
            "batch": 4,
        },
        parts={
            "generator_rated_va": (3000, 3600, 4400, 5500, 7000, 9500, 13_000),
            "generator_pf_ratio": (0.6, 0.7, 0.8, 0.9, 1),
            "generator_cost": (900, 1150, 1400, 1700, 2100, 2600),
        },
        cost="generator_cost",
        questions={
            "generator_margin_va": "What is left of this label's volt-amps up there, beside what is asked?",
            "generator_margin_w": "How many watts can this engine give up there, beside what it has to carry?",
            "loading_margin_frac": "How hard is this engine loaded while it charges, and for how many hours?",
        },
        words=WORDS | {"generator_rated_va": "label", "generator_pf_ratio": "power factor", "generator_cost": "cost"},
    )


def _failed() -> Slot:
    return Failed(
        id="L11-failed",
        title="What failed?",
        statement="Three winter days at a post with a generator that starts by itself, as somebody copied them from "
        "the meters. One thing is wrong. Which is it, where does it show, and what would you do about it?",
        hint="Which reading could not be so in a sound system?",
        principle=f"{LEVELS_IDEA} Hold each column against what the sound system would do.",
        plan=_POST,
        faults=(
            "generator_late",
            "disconnect_high",
            "always_on_load",
            "string_open",
            "weak_unit",
            "set_point_low",
        ),
        days=(8, 16, 53, 297, 316, 334, 349, 356),
        starts_curated=True,
        curated={"fault": "generator_late", "day": 334, "case": 0},
    )
