"""Named code settings: the factors and tables of one style of wiring rules, side by side with another's.

The tables are for teaching; the local code and a licensed person decide.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from offgrid_core.data.models import (
    AmbientIec,
    AmbientUs,
    CodeRow,
    ConductorIec,
    ConductorUs,
    FuseSize,
    Grouping,
    Row,
)
from offgrid_core.data.reading import by_key, read_rows
from offgrid_core.data.tables import cold_voltage_us, named_table
from offgrid_core.errors import DataError
from offgrid_core.worksheet import Table


@dataclass(frozen=True, eq=False)
class CodeSetting:
    """One style of wiring rules.

    Attributes
    ----------
    key, label, source, standing
        Its name, its words, where its factors come from and how far they can be trusted.
    insulation_c
        Insulation column in use, °C.
    table_temp_c
        Temperature of the resistance column, °C.
    continuous_factor, pv_current_factor, string_fuse_factor
        On a current that flows for hours; on the array's short-circuit current; from that to a module string's fuse.
    drop_array_frac, drop_controller_frac, drop_inverter_frac, drop_load_frac
        Voltage drop allowed for each circuit.
    fuse_size
        A to the next standard size up, A.
    conductor_for_ampacity
        A to the thinnest listed conductor that carries it, mm².
    conductor_for_conductance
        Wanted conductance of one metre (1 ÷ the resistance allowed, m/Ω) to the thinnest listed conductor, mm².
    conductor_for_fuse
        A to the thinnest listed conductor that may have a fuse of that size, mm².
    ampacity_of, resistance_of, fuse_limit_of
        A listed area, mm², to its ampacity in 30 °C air, A; its resistance, Ω/m at ``table_temp_c``; the largest
        fuse it may have, A: the small-conductor limit where there is one, else the ampacity.
    ambient_factor
        Air temperature, °C, to the factor on ampacity; between rows the hotter row is used.
    grouping_factor
        Conductors that carry current (US) or circuits (IEC) together, to the factor on ampacity.
    conductors_circuit_count
        What that table counts for one circuit of two wires: 2 conductors (US) or 1 circuit (IEC).
    size_labels
        Area, mm², to the size as sold.
    cold_voltage
        Kelvins below 25 °C to the factor on the open-circuit voltage of a module, where the code has such a table.
    """

    key: str
    label: str
    source: str
    standing: str
    insulation_c: int
    table_temp_c: float
    continuous_factor: float
    pv_current_factor: float
    string_fuse_factor: float
    drop_array_frac: float
    drop_controller_frac: float
    drop_inverter_frac: float
    drop_load_frac: float
    fuse_size: Table
    conductor_for_ampacity: Table
    conductor_for_conductance: Table
    conductor_for_fuse: Table
    ampacity_of: Table
    resistance_of: Table
    fuse_limit_of: Table
    ambient_factor: Table
    grouping_factor: Table
    conductors_circuit_count: int
    size_labels: Mapping[float, str]
    cold_voltage: Table | None

    def size_label(self, area_mm2: float) -> str:
        """Return the size as sold of a listed area.

        Raises
        ------
        DataError
            If no listed conductor has that area.
        """
        for area, label in self.size_labels.items():
            if abs(area - area_mm2) < 1e-6:
                return label
        listed = ", ".join(f"{area:g}" for area in self.size_labels)
        raise DataError(f"{self.label}: no conductor of {area_mm2:g} mm² is listed; allowed are {listed}")


def code_setting(name: str, folder: Path | None = None, insulation_c: int | None = None) -> CodeSetting:
    """Return a named code setting.

    Parameters
    ----------
    name
        ``"us_style"`` or ``"iec_style"``, or one of a person's own.
    folder
        A person's own folder of data files.
    insulation_c
        Insulation column to use, °C; the setting's own by default.

    Raises
    ------
    DataError
        For an unknown setting or insulation, or a damaged file.
    """
    row = by_key(read_rows("code_settings.csv", CodeRow, folder), name, "code_settings.csv")
    column = row.insulation_c if insulation_c is None else insulation_c
    factors = row.model_dump(exclude={"family", "insulation_c"})
    return CodeSetting(
        **factors,
        insulation_c=column,
        fuse_size=_fuses(row, folder),
        grouping_factor=_grouping(row, folder),
        conductors_circuit_count=2 if row.family == "us" else 1,
        ambient_factor=_ambient(row, column, folder),
        cold_voltage=cold_voltage_us(folder) if row.family == "us" else None,
        **_conductors(row, column, folder),
    )


def _column(name: str, row: Row, column: str, insulation_c: int) -> Any:
    if column not in type(row).model_fields:
        listed = [c for c in row.columns() if c.startswith(column.split("_")[0] + "_")]
        raise DataError(f"{name} has no column for {insulation_c:g} °C insulation; allowed are {', '.join(listed)}")
    return getattr(row, column)


def _conductors(row: CodeRow, insulation_c: int, folder: Path | None) -> dict[str, Any]:
    name = f"conductors_{row.family}.csv"
    model: type[ConductorUs | ConductorIec] = ConductorUs if row.family == "us" else ConductorIec
    wires = read_rows(name, model, folder)
    area = [wire.area_mm2 for wire in wires]
    ampacity = [_column(name, wire, f"ampacity_{insulation_c}_a", insulation_c) for wire in wires]
    ohm_m = [wire.resistance_ohm_km / 1000 for wire in wires]
    fuse = [getattr(wire, "small_conductor_fuse_a", None) or amps for wire, amps in zip(wires, ampacity, strict=True)]
    source = wires[-1].source

    def table(
        label: str, x: list[float], y: list[float], x_unit: str, y_unit: str, between: Literal["next", "exact"]
    ) -> Table:
        return named_table(name, label, x, y, x_unit, y_unit, source, between)

    return {
        "conductor_for_ampacity": table("conductor for the ampacity", ampacity, area, "A", "mm²", "next"),
        "conductor_for_conductance": table(
            "conductor for the resistance", [1 / r for r in ohm_m], area, "m/Ω", "mm²", "next"
        ),
        "conductor_for_fuse": table("conductor that may have the fuse", fuse, area, "A", "mm²", "next"),
        "ampacity_of": table("ampacity of the conductor", area, ampacity, "mm²", "A", "exact"),
        "resistance_of": table("resistance of the conductor", area, ohm_m, "mm²", "Ω/m", "exact"),
        "fuse_limit_of": table("largest fuse for the conductor", area, fuse, "mm²", "A", "exact"),
        "size_labels": {wire.area_mm2: wire.size for wire in wires},
    }


def _ambient(row: CodeRow, insulation_c: int, folder: Path | None) -> Table:
    name = f"ambient_{row.family}.csv"
    model: type[AmbientUs | AmbientIec] = AmbientUs if row.family == "us" else AmbientIec
    bands = read_rows(name, model, folder)
    pairs = [(band.ambient_c, _column(name, band, f"factor_{insulation_c}", insulation_c)) for band in bands]
    allowed = [(temp, factor) for temp, factor in pairs if factor is not None]
    temps, factors = [temp for temp, _ in allowed], [factor for _, factor in allowed]
    return named_table(name, "ambient factor", temps, factors, "°C", "", bands[0].source, "next")


def _fuses(row: CodeRow, folder: Path | None) -> Table:
    name = "fuse_sizes.csv"
    fuses = [fuse for fuse in read_rows(name, FuseSize, folder) if fuse.family == row.family]
    sizes, source = [fuse.size_a for fuse in fuses], "; ".join(dict.fromkeys(fuse.source for fuse in fuses))
    return named_table(name, "next standard fuse size", sizes, sizes, "A", "A", source, "next")


def _grouping(row: CodeRow, folder: Path | None) -> Table:
    name = "grouping.csv"
    rows = [group for group in read_rows(name, Grouping, folder) if group.family == row.family]
    counts, factors = [float(group.count) for group in rows], [group.factor for group in rows]
    source = "; ".join(dict.fromkeys(group.source for group in rows))
    return named_table(name, "grouping factor", counts, factors, "together", "", source, "next")
