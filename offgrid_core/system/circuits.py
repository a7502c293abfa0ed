"""The main circuits of a design as rows of the circuits table, and the table solved."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.errors import PlanError, WorksheetError
from offgrid_core.sizing.circuits import BANK_LEADS, MAIN_CIRCUITS
from offgrid_core.sizing.wire_teaching import CURRENT_FACTOR
from offgrid_core.system.plan import Plan
from offgrid_core.system.protection import Protection
from offgrid_core.worksheet import Solved, value_at

_GIVENS = (
    "current_by_row_a",
    "current_by_row_factor",
    "voltage_by_row_v",
    "length_by_row_m",
    "drop_way_by_row_frac",
    "on_array_by_row_frac",
    "circuits_by_row_count",
)


@dataclass(frozen=True)
class Wire:
    """What takes cable: its name, and the row of a solved worksheet that it stands in; ``wire[line]`` is a value."""

    name: str
    solved: Solved
    row: int

    def __getitem__(self, line: str) -> float:
        return float(value_at(self.solved, line, self.row))


def rows_of(plan: Plan, code: data.CodeSetting, system: Solved) -> list[tuple[Any, ...]]:
    """Return one row a circuit: its name, and the values of the circuits table's inputs."""
    margins = {"bright_sun_factor": code.pv_current_factor, "steady_factor": code.continuous_factor}
    factors = CURRENT_FACTOR.solve({**margins, "on_array_by_row_frac": [0, 1]})["current_by_row_factor"]
    lengths, steady, sun = plan.circuits, float(factors[0]), float(factors[1])
    bank_v, sun_v = system["bank_voltage_v"], system["string_vmp_hot_v"]
    strings, controllers = system["array_strings_count"], system["controllers_count"]
    charged_a, charged = system["controller_circuit_a"], sun if plan.choices.controller == "direct" else steady
    array_drop, charge_drop = code.drop_array_frac, code.drop_controller_frac
    rows = [
        (
            "module string",
            system["module_isc_a"],
            code.string_fuse_factor,
            sun_v,
            lengths.string_m,
            array_drop,
            1,
            strings,
        ),
        ("array to controller", system["array_circuit_a"], sun, sun_v, lengths.array_m, array_drop, 1, controllers),
        ("controller to bank", charged_a, charged, bank_v, lengths.controller_m, charge_drop, 0, controllers),
    ]
    if system.get("inverter_input_a", 0) > 0:
        amperes, metres = system["inverter_input_a"], lengths.inverter_m
        rows.append(("bank to inverter", amperes, steady, bank_v, metres, code.drop_inverter_frac, 0, 1))
    if system["dc_peak_w"] > 0:
        rows.append(
            ("bank to DC loads", system["dc_circuit_a"], steady, bank_v, lengths.dc_m, code.drop_load_frac, 0, 1)
        )
    return rows


def circuits_of(plan: Plan, code: data.CodeSetting, system: Solved) -> tuple[tuple[str, ...], Solved]:
    """Return the names of the circuits and the circuits table solved.

    Raises
    ------
    PlanError
        If a circuit is beyond the tables of the code setting.
    """
    names, *columns = zip(*rows_of(plan, code, system), strict=True)
    given = {key: np.array(column, float) for key, column in zip(_GIVENS, columns, strict=True)}
    try:
        return tuple(names), MAIN_CIRCUITS.solve({**system, **given, "array_drop_max_frac": code.drop_array_frac})
    except WorksheetError as e:
        raise PlanError(f"main circuits: {e}; change the load, the bank voltage or what is assumed") from None


def bank_leads_of(plan: Plan, code: data.CodeSetting, circuits: Solved, guard: Protection) -> Solved:
    """Return the leads of a battery string and the bank's main leads, sized to the fuses that guard them.

    Rows are those of :data:`~offgrid_core.system.protection.BATTERY_ROWS`.
    """
    fuses = guard.solved
    rows = {
        "lead_fuse_by_row_a": [fuses["battery_string_fuse_a"], fuses["bank_main_fuse_a"]],
        "current_by_row_a": [fuses["string_circuits_a"], fuses["bank_circuits_a"]],
        "current_by_row_factor": [1, 1],  # in those currents already
        "circuits_by_row_count": [circuits["strings_count"], 1],
        "voltage_by_row_v": [circuits["bank_voltage_v"]] * 2,
        "length_by_row_m": [plan.circuits.bank_m] * 2,
        "drop_limit_by_row_frac": [code.drop_inverter_frac] * 2,
    }
    given = {n: circuits[n] for n in BANK_LEADS.inputs if n not in rows}
    return BANK_LEADS.solve(given | {n: np.array(values, float) for n, values in rows.items()})
