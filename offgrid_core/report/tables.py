"""A design as plain values and rows of text: what the terminal sheet, the JSON and the lessons all print from."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.sizing import LOADS
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Finding, Solved, Step, Table

#: Sections of a design sheet: title, and the line each begins with, in worked order.
SECTIONS = (
    ("Bank", "energy_day_wh"),
    ("Strings", "units_in_series_count"),
    ("Charging set-points", "cells_count"),
    ("Sun and array", "peak_sun_by_month_h"),
    ("Charge controller", "array_circuit_a"),
    ("Inverter", "inverter_needed_w"),
)
#: Of the loads worksheet, the lines that are totals.
LOAD_TOTALS = tuple(n for n in LOADS if "by_row" not in n)
CIRCUIT_COLUMNS = (
    "current_by_row_a",
    "design_current_by_row_a",
    "fuse_by_row_a",
    "cable_by_row_mm2",
    "cables_by_row_count",
    "ampacity_by_row_a",
    "length_by_row_m",
    "drop_by_row_frac",
)


def steps_of(solved: Solved, settings: Settings, figures: int = 4) -> list[Step]:
    """Return the lines of a solved worksheet as steps in the reader's units."""
    return solved.steps(label_of, lambda name, value: show(name, value, settings, figures))


def standing_of(step: Step) -> str:
    """Return the standing of a step's rule, with its source where there is one."""
    return step.standing + (f" ({step.source})" if step.source else "")


def sections_of(design: Design, settings: Settings) -> list[tuple[str, list[Step]]]:
    """Return the steps of the chain in sections; limits are told apart, in the findings."""
    steps = {s.name: s for s in steps_of(design.system, settings) if not design.system.sheet[s.name].severity}
    order = list(steps)
    cut = [(title, order.index(first)) for title, first in SECTIONS if first in steps]
    ends = [start for _, start in cut[1:]] + [len(order)]
    return [(title, [steps[n] for n in order[start:end]]) for (title, start), end in zip(cut, ends, strict=True)]


def load_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the loads list as text, one row a load, with its energy on the busiest day."""
    rows = [["load", "bus", "how many", "power", "hours a day", "energy on the busiest day"]]
    energy = np.broadcast_to(design.loads["day_energy_by_row_wh"], (len(design.plan.load),))
    for load, wh in zip(design.plan.load, energy, strict=True):
        rows.append(
            [
                load.name,
                load.bus,
                show("count_by_row", load.count, settings),
                show("power_by_row_w", load.power_w, settings),
                show("hours_by_row_h", load.hours_h, settings),
                show("day_energy_by_row_wh", wh, settings),
            ]
        )
    return rows


def circuit_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the circuits table as text, one row a circuit."""
    heads = ["working current", "designed for", "fuse", "cable", "cables a pole", "ampacity", "one way", "drop"]
    rows = [["circuit", *heads]]
    for i, name in enumerate(design.circuit_names):
        cells = [show(n, _row(design.circuits[n], i), settings, 3) for n in CIRCUIT_COLUMNS]
        rows.append([name, *cells])
    return rows


def part_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the parts and their counts as text."""
    count = {n: show(n, design.system[n], settings) for n in ("units_count", "modules_count", "controllers_count")}
    rows = [
        ["part", "how many"],
        [design.parts.battery_unit.label, count["units_count"]],
        [design.parts.module.label, count["modules_count"]],
        [design.parts.controller.label, count["controllers_count"]],
    ]
    return rows + ([[design.parts.inverter.label, "1"]] if design.parts.inverter else [])


def assumption_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return what was assumed, with its standing; what the plan or a part decided instead is said to be so."""
    rows = [["assumed", "value", "standing"]]
    for name, a in ASSUMPTIONS.items():
        if name.startswith("inverter_") and design.parts.inverter is None:
            continue
        standing = " · ".join(filter(None, (a.standing, a.source)))
        if name in design.plan.assume:
            standing = "given in the plan"
        elif design.given[name] != a.value:
            standing = "maker's data of the part chosen"
        rows.append([label_of(name), show(name, design.given[name], settings), standing])
    return rows


def as_json(design: Design) -> dict[str, Any]:
    """Return every line and input by name, with stable keys; values unrounded, in the units of the names."""
    return {
        "title": design.plan.title,
        "site": design.site.name,
        "tilt_deg": design.tilt_deg,
        "parts": {k: getattr(v, "key", None) for k, v in vars(design.parts).items()},
        "loads": {"rows": [x.name for x in design.plan.load], **_plain(design.loads, list(LOADS))},
        "given": _plain(design.given, sorted(n for n, v in design.given.items() if not isinstance(v, Table))),
        "lines": _plain(design.system, list(design.system.sheet)),
        "circuits": {"rows": list(design.circuit_names), **_plain(design.circuits, list(design.circuits.sheet))},
        "findings": [_finding(f) for f in design.findings],
    }


def _plain(values: Any, names: Sequence[str]) -> dict[str, Any]:
    return {n: np.asarray(values[n], float).tolist() for n in names}


def _finding(f: Finding) -> dict[str, Any]:
    return {
        "name": f.name,
        "label": f.label,
        "margin": f.margin,
        "passed": f.passed,
        "severity": f.severity,
        "mend": f.mend,
        "standing": f.standing,
        "source": f.source,
    }


def _row(values: Any, row: int) -> float:
    column = np.atleast_1d(values)
    return float(column[row if column.size > 1 else 0])
