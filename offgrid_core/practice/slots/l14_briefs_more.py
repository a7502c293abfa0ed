"""Four clients of the last lesson: what they want, as a plan with some of its numbers left open."""

from dataclasses import replace
from string import Template
from typing import Any

from offgrid_core.practice.kinds import Build

#: What a form asks when a number on it does not fit the rest.
HINT = "Which entry has been worked from other parts than those now on the form?"
PRINCIPLE = (
    "Work from the loads to the bank, from the bank and the hardest month to the array, then outwards to controller, "
    "inverter and wires. Each part is held to the worst that can happen to it."
)

_FARM = """
title = "Farm above the lake"

[site]
name = "$site"
tilt_deg = $tilt_deg

[choices]
bank_voltage_v = 24
autonomy_days = $autonomy_days
depth_frac = $depth_frac
battery_temp_c = $battery_temp_c
chemistry = "flooded"

[[load]]
name = "fridge"
bus = "AC"
power_w = 90
hours_h = 24
duty_frac = $duty_frac
start_factor = 5
power_factor_ratio = 0.7

[[load]]
name = "lamps"
bus = "AC"
count = 8
power_w = 7
hours_h = $lamps_h
season_frac = [1.3, 1.2, 1, 0.9, 0.8, 0.7, 0.7, 0.8, 1, 1.1, 1.2, 1.3]

[[load]]
name = "water pump"
bus = "AC"
power_w = 370
hours_h = 0.5
start_factor = 4
power_factor_ratio = 0.8

[circuits]
code = "iec_style"
array_m = 12
inverter_m = 2

[assume]
ambient_c = $ambient_c
"""
_INN = """
title = "Inn at the pass"

[site]
name = "$site"
tilt_deg = $tilt_deg

[choices]
bank_voltage_v = 48
autonomy_days = $autonomy_days
depth_frac = $depth_frac
battery_temp_c = $battery_temp_c
chemistry = "flooded"

[[load]]
name = "cold room"
bus = "AC"
power_w = 160
hours_h = 24
duty_frac = $duty_frac
start_factor = 5
power_factor_ratio = 0.7

[[load]]
name = "lamps"
bus = "AC"
count = 12
power_w = 6
hours_h = $lamps_h

[[load]]
name = "till and radio"
bus = "AC"
power_w = 35
hours_h = 10
standby_w = 4

[circuits]
code = "iec_style"
array_m = 12
inverter_m = 2

[generator]
rated_w = 4000
rated_va = 5000
charger_a = 30

[assume]
ambient_c = $ambient_c
inverter_eff_frac = 0.85
bank_current_max_a = 90
"""
_BOATHOUSE = """
title = "Boathouse on the lake"

[site]
name = "$site"
tilt_deg = $tilt_deg

[choices]
bank_voltage_v = 24
autonomy_days = $autonomy_days
depth_frac = $depth_frac
battery_temp_c = $battery_temp_c
chemistry = "lfp"

[[load]]
name = "cool box"
bus = "DC"
power_w = 60
hours_h = 24
duty_frac = $duty_frac

[[load]]
name = "lamps"
bus = "DC"
count = 10
power_w = 5
hours_h = $lamps_h
season_frac = [1.3, 1.2, 1, 0.9, 0.8, 0.7, 0.7, 0.8, 1, 1.1, 1.2, 1.3]

[[load]]
name = "bilge pump"
bus = "DC"
power_w = 120
hours_h = 0.5

[circuits]
code = "iec_style"
array_m = 12
dc_m = 6

[assume]
ambient_c = $ambient_c
bank_current_max_a = 90
"""
_SCHOOL = """
title = "School on the plain"

[site]
name = "$site"
tilt_deg = $tilt_deg

[choices]
bank_voltage_v = 24
autonomy_days = $autonomy_days
depth_frac = $depth_frac
battery_temp_c = $battery_temp_c
chemistry = "gel"

[[load]]
name = "fans"
bus = "AC"
count = 4
power_w = 30
hours_h = 6
week_days = 5

[[load]]
name = "screens"
bus = "AC"
count = 6
power_w = 25
hours_h = $lamps_h
week_days = 5

[[load]]
name = "medicine fridge"
bus = "AC"
power_w = $fridge_w
hours_h = 24
duty_frac = $duty_frac
start_factor = 5
power_factor_ratio = 0.7

[circuits]
code = "iec_style"
array_m = 14
inverter_m = 2

[assume]
ambient_c = $ambient_c
bank_current_max_a = 90
"""
#: A sound system of the same farm, for the log in which something failed.
SOUND_FARM = Template(_FARM).substitute(
    site="chicago",
    tilt_deg=60,
    autonomy_days=3,
    depth_frac=0.6,
    battery_temp_c=-5,
    duty_frac=0.35,
    lamps_h=5,
    ambient_c=40,
)
#: What every client's numbers are drawn from; each has others for some.
_DRAWN: dict[str, Any] = {
    "site": ("chicago", "swift_current", "golden", "brasov"),
    "tilt_deg": (50, 55, 60, 65),
    "autonomy_days": (2.5, 3, 3.5, 4),
    "depth_frac": (0.55, 0.6, 0.65, 0.7),
    "battery_temp_c": (-10, -8, -5, -2),
    "duty_frac": (0.25, 0.3, 0.35, 0.4),
    "lamps_h": (4, 5, 6),
    "ambient_c": (40, 45, 50),
    "loss_most_frac": (0.01, 0.015, 0.02),
    "life_wanted_years": (5, 6),
}
#: What those without a generator want of the lowest charge.
_LOWEST: dict[str, Any] = {"lowest_wanted_frac": (0.35, 0.4)}


def brief() -> Build:
    """Return the place of the whole design, with its four clients."""
    return replace(_farm(), others=(_inn(), _boathouse(), _school()))


def _farm() -> Build:
    return Build(
        id="L14-build",
        title="A farm above the lake",
        statement="A farm wants light, a fridge and water from its own well, and the nearest line of the grid ends far "
        "below. Enter a whole design that keeps every rule and every wish. A bank for {autonomy_days}, "
        "discharged to {depth_frac} at the most, was agreed on; its cellar falls to {battery_temp_c}. In no year may "
        "more than {loss_most_frac} of the energy be missing.",
        hint=HINT,
        principle=PRINCIPLE,
        plan=_FARM,
        offered={"battery_unit": 5, "module": 6, "controller": 5, "inverter": 6},
        wishes=("loss_most_frac", "lowest_wanted_frac", "life_wanted_years"),
        grids=_DRAWN | _LOWEST,
        curated={
            "site": "swift_current",
            "tilt_deg": 50,
            "autonomy_days": 3,
            "depth_frac": 0.65,
            "battery_temp_c": -5,
            "duty_frac": 0.35,
            "lamps_h": 5,
            "ambient_c": 50,
            "loss_most_frac": 0.02,
            "lowest_wanted_frac": 0.4,
            "life_wanted_years": 5,
            "batch": 20,
        },
        mistakes=("CC-03", "CC-18", "TE-14", "BV-03", "OP-16", "WI-15", "TE-03", "AR-03"),
    )


def _inn() -> Build:
    return Build(
        id="L14-build",
        title="An inn at the pass",
        statement="Walkers sleep here from May to October; a keeper stays all winter. There is an old generator, and "
        "the keeper wants to hear it less: in no year for more than {generator_most_h}. Cold room, lamps and a till "
        "run on AC. Plan for {autonomy_days} of storage, discharged by {depth_frac} at the deepest, in a hut that "
        "goes down to {battery_temp_c}. Fill in the form so that nothing on it is broken.",
        hint=HINT,
        principle=PRINCIPLE,
        plan=_INN,
        circuits=("controller to bank", "bank to inverter"),
        offered={"battery_unit": 5, "module": 6, "controller": 5},
        wishes=("loss_most_frac", "generator_most_h", "life_wanted_years"),
        grids=_DRAWN
        | {
            "site": ("fell_hut", "chicago", "golden"),
            "tilt_deg": (60, 65),
            "autonomy_days": (2.5, 3, 3.5),
            "duty_frac": (0.25, 0.3, 0.35),
            "ambient_c": (40, 45),
            "loss_most_frac": (0.01, 0.02),
            "generator_most_h": (20, 30, 60),
        },
        curated={
            "site": "chicago",
            "tilt_deg": 60,
            "autonomy_days": 3.5,
            "depth_frac": 0.65,
            "battery_temp_c": -2,
            "duty_frac": 0.25,
            "lamps_h": 5,
            "ambient_c": 45,
            "loss_most_frac": 0.02,
            "generator_most_h": 30,
            "life_wanted_years": 6,
            "batch": 160,
        },
        mistakes=("CC-03", "TE-03", "AR-03"),
    )


def _boathouse() -> Build:
    return Build(
        id="L14-build",
        title="A boathouse on the lake",
        statement="Everything here runs on DC: a cool box, ten lamps, a pump that keeps the boats dry. No inverter is "
        "wanted. Lithium cells stand in a locker that stays above {battery_temp_c}; they are to last "
        "{autonomy_days} without sun and give {depth_frac} of their label. The owner comes at weekends and would "
        "accept {loss_most_frac} of the energy missing. Design it.",
        hint=HINT,
        principle=PRINCIPLE,
        plan=_BOATHOUSE,
        circuits=("module string", "array to controller", "bank to DC loads"),
        wishes=("loss_most_frac", "lowest_wanted_frac", "life_wanted_years"),
        grids=_DRAWN | _LOWEST | {"battery_temp_c": (3, 5, 8)},
        curated={
            "site": "brasov",
            "tilt_deg": 60,
            "autonomy_days": 3.5,
            "depth_frac": 0.65,
            "battery_temp_c": 3,
            "duty_frac": 0.4,
            "lamps_h": 5,
            "ambient_c": 40,
            "loss_most_frac": 0.01,
            "lowest_wanted_frac": 0.35,
            "life_wanted_years": 6,
            "batch": 160,
        },
        mistakes=("CC-03", "CC-18", "TE-03"),
    )


def _school() -> Build:
    return Build(
        id="L14-build",
        title="A school on the plain",
        statement="Fans and screens serve the pupils on five days; the fridge with the medicines may never stop. It is "
        "hot, and the gel bank in the store room does not get colder than {battery_temp_c}. The board has settled on "
        "{autonomy_days} of autonomy and {depth_frac} of depth. Whoever signs must show that the year loses at most "
        "{loss_most_frac} and that the charge never sinks under {lowest_wanted_frac}. Give every entry.",
        hint=HINT,
        principle=PRINCIPLE,
        plan=_SCHOOL,
        offered={"battery_unit": 5, "module": 8, "controller": 8, "inverter": 8},
        wishes=("loss_most_frac", "lowest_wanted_frac", "life_wanted_years"),
        grids=_DRAWN
        | {
            "site": ("riverbend", "chiang_mai", "kadoma", "new_delhi"),
            "tilt_deg": (10, 15, 20),
            "depth_frac": (0.4, 0.45, 0.5),
            "battery_temp_c": (14, 17, 20),
            "duty_frac": (0.3, 0.35, 0.4),
            "fridge_w": (65, 70, 75, 85, 90, 95, 105),
            "lamps_h": (3, 4, 5),
            "loss_most_frac": (0.005, 0.01),
            "lowest_wanted_frac": (0.45, 0.5),
            "life_wanted_years": (4, 5),
        },
        curated={
            "site": "chiang_mai",
            "tilt_deg": 10,
            "autonomy_days": 4,
            "depth_frac": 0.4,
            "battery_temp_c": 20,
            "duty_frac": 0.4,
            "fridge_w": 90,
            "lamps_h": 4,
            "ambient_c": 50,
            "loss_most_frac": 0.01,
            "lowest_wanted_frac": 0.5,
            "life_wanted_years": 4,
            "batch": 11,
        },
        mistakes=("CC-03", "CC-18", "BV-03"),
    )
