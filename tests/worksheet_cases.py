"""Every worksheet of the sizing layer, and solvable random givens for each, for the tests."""

import importlib
import pkgutil
from itertools import product

import numpy as np

import offgrid_core.sizing
from offgrid_core import data
from offgrid_core.data.neighbours import area_of_gauge
from offgrid_core.quantities import QUANTITIES
from offgrid_core.sizing import BANK_METHODS, CONTROLLER_KINDS, VOLTAGE_STEPS, chain
from offgrid_core.worksheet import Line, Sheet, Table
from offgrid_core.worksheet.grammar import axis_of

ROWS = 5
US = data.code_setting("us_style")
TABLES = {
    "voltage_steps": VOLTAGE_STEPS,
    "capacity_kept": data.capacity_kept("flooded"),
    "cell_rest_voltage": data.cell_rest_voltage("flooded"),
    "charge_of_gravity": data.charge_of_gravity("deep_cycle_1265"),
    "charge_of_rest_voltage": data.charge_of_rest_voltage("flooded"),
    "gravity_of_charge": data.gravity_of_charge("deep_cycle_1265"),
    "freezing_of_gravity": data.freezing_of_gravity(),
    "cycle_life": data.cycle_life("flooded"),
    "cold_voltage_factor": data.cold_voltage_us(),
    "days_of_run": Table("busiest run that lasts", (0.0, 1e12), (0.0, 60.0), "Wh", "days"),
    "busiest_run": Table("busiest run", (0.0, 60.0), (0.0, 60_000.0), "days", "Wh"),
    "next_fuse": US.fuse_size,
    "grouping_table": US.grouping_factor,
    "ambient_factor": US.ambient_factor,
    "cable_for_ampacity": US.conductor_for_ampacity,
    "cable_for_conductance": US.conductor_for_conductance,
    "cable_for_fuse": US.conductor_for_fuse,
    "cable_fuse_limit": US.fuse_limit_of,
    "cable_resistance": US.resistance_of,
    "cable_ampacity": US.ampacity_of,
    "area_of_gauge": area_of_gauge(US),
    "lost_of_bank": Table("load lost", (0.01, 100.0), (0.2, 0.05), "banks", "lost"),
}
#: Narrower than validity, where a table ends or the arithmetic would leave everything else behind.
NARROW = {
    "battery_temp_c": (-30, 50),
    "bank_wh": (1, 20),
    "gravity_read_ratio": (1.16, 1.23),
    "cell_read_v": (1.97, 2.10),
    "air_coldest_c": (-40, 20),
    "ambient_c": (-5, 60),
    "current_by_row_a": (1, 400),
    "ampacity_most_a": (230, 230),
    "resistance_least_ohm_m": (0.0608 / 304.8, 0.0608 / 304.8),
    "length_by_row_m": (1, 40),
    "cable_mm2": (5.261, 5.261),
    "voltage_by_row_v": (12, 150),
    "drop_limit_by_row_frac": (0.01, 0.05),
    "fuse_most_a": (800, 800),
    "gauge_count": (10, 10),
    "cable_by_row_mm2": (8.366, 8.366),
}


def _modules():
    for found in pkgutil.iter_modules(offgrid_core.sizing.__path__):
        yield importlib.import_module(f"offgrid_core.sizing.{found.name}")


def _sheets():
    for module in _modules():
        for name, value in vars(module).items():
            if isinstance(value, Sheet):
                yield f"{module.__name__.rsplit('.', 1)[-1]}.{name}", value
    for kinds in product(BANK_METHODS, CONTROLLER_KINDS, (True, False)):
        yield "chain " + " ".join(map(str, kinds)), chain(*kinds)
    every = {
        "spell_rule": "busiest_run",
        "equalize": True,
        "cold_table": True,
        "acid": True,
        "enclosure": True,
        "owned_bank": True,
        "owned_array": True,
    }
    for method in BANK_METHODS:
        yield f"chain {method} with every option", chain(method, **every)


def _once(pairs):
    """Leave out a worksheet that is only imported from another module."""
    seen = []
    for name, sheet in pairs:
        if not any(sheet is other for other in seen):
            seen.append(sheet)
            yield name, sheet


#: Every worksheet by name.
SHEETS: dict[str, Sheet] = dict(_once(_sheets()))
#: Every line by name of module and line; also those that only replace another.
LINES: dict[str, Line] = {
    f"{module.__name__.rsplit('.', 1)[-1]}.{name}": value
    for module in _modules()
    for name, value in vars(module).items()
    if isinstance(value, Line)
}


def _validity(name):
    """Return the span of an input; of one that is another worksheet's line, some span away from zero."""
    return (QUANTITIES[name].low, QUANTITIES[name].high) if name in QUANTITIES else (1, 20)


def random_given(sheet, seed, rows=ROWS):
    """Return one value, or twelve, or one a row, for every input; within validity, and small of figure."""
    dice = np.random.default_rng(seed)
    given = {}
    for name in sheet.inputs:
        if name in TABLES:
            given[name] = TABLES[name]
            continue
        low, high = NARROW.get(name) or _validity(name)
        shape = {"": (), "by_month": (12,), "by_row": (rows,), "by_hour": (24,)}[axis_of(name)]
        drawn = low + (high - low) * dice.random(shape)
        given[name] = np.round(drawn, 3) if high - low > 1 else drawn
    return {name: value if np.ndim(value) or name in TABLES else float(value) for name, value in given.items()}
