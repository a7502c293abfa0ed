"""Protective devices, gassing currents and fuel curves, by name."""

from pathlib import Path
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from offgrid_core.data.models import Amps, Chemistries, Cost, Key, Row, Standing, Text
from offgrid_core.data.reading import by_key, nearest, read_rows
from offgrid_core.errors import DataError


class ProtectiveDevice(Row):
    """A kind of fuse or breaker for direct current, made in a span of sizes."""

    key: Key
    label: Text
    kind: Literal["fuse", "breaker"]
    dc_voltage_v: Annotated[float, Field(gt=0, le=2000)]
    interrupting_a: Annotated[float, Field(gt=0, le=1_000_000)]
    size_from_a: Amps
    size_to_a: Amps
    cost: Cost
    standing: Standing

    @model_validator(mode="after")
    def _largest_not_below_smallest(self) -> Self:
        if self.size_to_a < self.size_from_a:
            raise ValueError(
                f"column size_to_a: {self.size_to_a:g} is not allowed; "
                f"allowed is size_from_a, {self.size_from_a:g}, or more"
            )
        return self


class GasCurrent(Row):
    """Gassing current of one chemistry while it is charged in one way, for each amp-hour of size."""

    chemistry: Chemistries
    mode: Literal["float", "boost"]
    gas_ma_ah: Annotated[float, Field(ge=0, le=100)]
    note: Text
    source: Text
    standing: Standing


class FuelCurve(Row):
    """Fuel of a generator as a straight line: a part for its size and a part for its work."""

    key: Key
    label: Text
    fuel_size_l_kwh: Annotated[float, Field(ge=0, le=1)]
    fuel_work_l_kwh: Annotated[float, Field(gt=0, le=2)]
    source: Text
    standing: Standing


def protective_devices(folder: Path | None = None) -> tuple[ProtectiveDevice, ...]:
    """Return the fuses and breakers for direct current, in the order in which they are tried.

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("protective_devices.csv", ProtectiveDevice, folder)


def gas_current(chemistry: str, mode: str, folder: Path | None = None) -> GasCurrent:
    """Return the gassing current (mA for each Ah of size) of a chemistry in one way of charging.

    Parameters
    ----------
    chemistry
        A key of ``chemistries.csv``.
    mode
        ``"boost"``: absorbing, the mode to ventilate for off the grid; or ``"float"``.
    folder
        A person's own folder of data files.

    Raises
    ------
    DataError
        If there is no such row, or for a damaged file.
    """
    name = "gas_currents.csv"
    rows = {f"{row.chemistry} {row.mode}": row for row in read_rows(name, GasCurrent, folder)}
    wanted = f"{chemistry} {mode}"
    if wanted not in rows:
        raise DataError(f"{name} has no row for {wanted!r}; {nearest(wanted, rows)}")
    return rows[wanted]


def fuel_curve(key: str, folder: Path | None = None) -> FuelCurve:
    """Return a fuel line of a generator by its key; both parts in litres for each kilowatt-hour.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(read_rows("fuel_curves.csv", FuelCurve, folder), key, "fuel_curves.csv")
