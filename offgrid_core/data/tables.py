"""Curves of the batteries and of the cold, as worksheet tables that know which of their rows are invented."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Literal, TypeVar, get_args

import numpy as np

from offgrid_core.data.acid import Fills, FreezingAtGravity, GravityAtCharge
from offgrid_core.data.models import (
    INVENTED,
    CapacityAtTemperature,
    Chemistries,
    ColdVoltage,
    CycleLife,
    RestVoltage,
)
from offgrid_core.data.reading import nearest, read_rows
from offgrid_core.errors import DataError, WorksheetError
from offgrid_core.worksheet import Table

C = TypeVar("C", CapacityAtTemperature, RestVoltage, CycleLife)
R = TypeVar("R", CapacityAtTemperature, RestVoltage, CycleLife, GravityAtCharge, FreezingAtGravity)


def _of_chemistry(rows: Sequence[C], chemistry: str, name: str) -> list[C]:
    if chemistry not in get_args(Chemistries):
        raise DataError(f"there is no chemistry {chemistry!r}; {nearest(chemistry, get_args(Chemistries))}")
    found = [row for row in rows if row.chemistry == chemistry]
    if not found:
        raise DataError(f"{name} has no row for the chemistry {chemistry!r}; at least one is wanted")
    return found


def _curve(
    name: str,
    label: str,
    rows: Sequence[R],
    x: tuple[Callable[[R], float], str],
    y: tuple[Callable[[R], float], str],
    between: Literal["straight", "log"] = "straight",
) -> Table:
    """Make the table; its sourced span is that of the rows that are not invented (none: an empty span)."""
    (x_of, x_unit), (y_of, y_unit) = x, y
    sourced = [x_of(row) for row in rows if row.standing != INVENTED]
    return named_table(
        name,
        label,
        [x_of(row) for row in rows],
        [y_of(row) for row in rows],
        x_unit,
        y_unit,
        source="; ".join(dict.fromkeys(row.source for row in rows)),
        between=between,
        sourced_from=min(sourced, default=np.inf),
        sourced_to=max(sourced, default=-np.inf),
    )


def named_table(
    name: str,
    label: str,
    x: Sequence[float],
    y: Sequence[float],
    x_unit: str,
    y_unit: str,
    source: str,
    between: Literal["straight", "log", "next", "exact"],
    sourced_from: float = -np.inf,
    sourced_to: float = np.inf,
) -> Table:
    """Build a worksheet table from columns of a file.

    Raises
    ------
    DataError
        If the columns cannot be read in one way only; the message names the file.
    """
    try:
        return Table(label, tuple(x), tuple(y), x_unit, y_unit, source, between, sourced_from, sourced_to)
    except WorksheetError as error:
        raise DataError(f"{name}: {error}") from None


def _said(chemistry: str) -> str:
    """Return a chemistry as a label names it: of two keys, the capitals are the name."""
    return chemistry.upper() if chemistry in ("agm", "lfp") else chemistry


def capacity_kept(chemistry: str, folder: Path | None = None) -> Table:
    """Return the share of the 25 °C capacity that is kept, against battery temperature (°C, −30 to 50).

    Above 25 °C the published shares pass 1; a sizing line must not take credit for them.

    Raises
    ------
    DataError
        For an unknown chemistry or a damaged file.
    """
    name = "capacity_temperature.csv"
    rows = _of_chemistry(read_rows(name, CapacityAtTemperature, folder), chemistry, name)
    label = f"capacity kept, {_said(chemistry)}"
    return _curve(name, label, rows, (lambda r: r.temp_c, "°C"), (lambda r: r.kept_frac, ""))


def cell_rest_voltage(chemistry: str, folder: Path | None = None) -> Table:
    """Return the resting voltage of one cell (V, 25 °C) against state of charge (0 to 1).

    Raises
    ------
    DataError
        For an unknown chemistry or a damaged file.
    """
    name = "cell_voltage.csv"
    rows = _of_chemistry(read_rows(name, RestVoltage, folder), chemistry, name)
    return _curve(
        name,
        f"resting voltage of one cell, {_said(chemistry)}",
        rows,
        (lambda r: r.charge_frac, ""),
        (lambda r: r.rest_v, "V"),
    )


def charge_of_rest_voltage(chemistry: str, folder: Path | None = None) -> Table:
    """Return the state of charge (0 to 1) against the resting voltage of one cell (V, 25 °C).

    Raises
    ------
    DataError
        For an unknown chemistry or a damaged file.
    """
    name = "cell_voltage.csv"
    rows = _of_chemistry(read_rows(name, RestVoltage, folder), chemistry, name)
    label = f"charge by the resting voltage of one cell, {_said(chemistry)}"
    return _curve(name, label, rows, (lambda r: r.rest_v, "V"), (lambda r: r.charge_frac, ""))


def _of_fill(fill: str, folder: Path | None) -> tuple[GravityAtCharge, ...]:
    name = "specific_gravity.csv"
    if fill not in get_args(Fills):
        raise DataError(f"there is no filling {fill!r}; {nearest(fill, get_args(Fills))}")
    found = tuple(row for row in read_rows(name, GravityAtCharge, folder) if row.fill == fill)
    if not found:
        raise DataError(f"{name} has no row for the filling {fill!r}; at least one is wanted")
    return found


def gravity_of_charge(fill: str, folder: Path | None = None) -> Table:
    """Return the specific gravity of the acid against state of charge (0 to 1).

    Parameters
    ----------
    fill
        ``"deep_cycle_1265"``, ``"motive_1280"`` or ``"vehicle_1280"``: full at 1.265 or 1.280.
    folder
        A person's own folder, looked in first.

    Raises
    ------
    DataError
        For an unknown filling or a damaged file.
    """
    label = f"specific gravity, {fill}"
    rows = _of_fill(fill, folder)
    return _curve("specific_gravity.csv", label, rows, (lambda r: r.charge_frac, ""), (lambda r: r.gravity_ratio, ""))


def charge_of_gravity(fill: str, folder: Path | None = None) -> Table:
    """Return the state of charge (0 to 1) against specific gravity; see :func:`gravity_of_charge`."""
    label = f"charge by specific gravity, {fill}"
    rows = _of_fill(fill, folder)
    return _curve("specific_gravity.csv", label, rows, (lambda r: r.gravity_ratio, ""), (lambda r: r.charge_frac, ""))


def freezing_of_gravity(folder: Path | None = None) -> Table:
    """Return the freezing point of sulphuric acid (°C) against its specific gravity (1.05 to 1.28).

    Raises
    ------
    DataError
        For a damaged file.
    """
    name = "freezing_gravity.csv"
    label = "freezing point of the acid"
    rows = read_rows(name, FreezingAtGravity, folder)
    return _curve(name, label, rows, (lambda r: r.gravity_ratio, ""), (lambda r: r.freezing_c, "°C"))


def cycle_life(chemistry: str, folder: Path | None = None) -> Table:
    """Return the cycles to the end of life against the depth of each cycle (0.1 to 1), straight on log–log paper.

    Raises
    ------
    DataError
        For an unknown chemistry or a damaged file.
    """
    name = "cycle_life.csv"
    rows = _of_chemistry(read_rows(name, CycleLife, folder), chemistry, name)
    label = f"cycles to the end of life, {_said(chemistry)}"
    return _curve(name, label, rows, (lambda r: r.depth_frac, ""), (lambda r: r.cycles, "cycles"), "log")


def cold_voltage_us(folder: Path | None = None) -> Table:
    """Return the US factor on open-circuit voltage against kelvins *below* 25 °C (5 to 65 K).

    A temperature between two bands takes the colder band's factor; the published bands are for whole degrees.

    Raises
    ------
    DataError
        For a damaged file.
    """
    name = "cold_voltage_us.csv"
    rows = sorted(read_rows(name, ColdVoltage, folder), key=lambda row: -row.temp_from_c)
    return named_table(
        name,
        "cold open-circuit voltage factor",
        [25 - row.temp_from_c for row in rows],
        [row.factor for row in rows],
        "K below 25 °C",
        "",
        source=rows[0].source,
        between="next",
    )
