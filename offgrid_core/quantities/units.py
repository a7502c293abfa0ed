"""Units: the ending of a name fixes the stored unit, and a closed menu fixes the others a person may use.

Conversion happens only at the edge, where a person types or reads. A temperature and a temperature difference
are different kinds, so that 9 °F steps (5 K) are never read as 9 °F (−12.8 °C).
"""

import math
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.worksheet.grammar import AXES


@dataclass(frozen=True)
class Unit:
    """A unit of one kind of quantity.

    Attributes
    ----------
    symbol
        What a person reads; empty for a plain number.
    kind
        What is measured. Units of different kinds never meet.
    factor
        Size of one step, in canonical units.
    offset
        The reading, in this unit, at which the canonical unit reads zero: 32 for °F.
    """

    symbol: str
    kind: str
    factor: float = 1.0
    offset: float = 0.0

    def to_canonical(self, x: Any) -> Any:
        """Return ``x`` (a number or an array in this unit) in the canonical unit."""
        return (x - self.offset) * self.factor

    def from_canonical(self, x: Any) -> Any:
        """Return ``x`` (a number or an array in the canonical unit) in this unit."""
        return x / self.factor + self.offset


#: Kind -> (symbol, factor, offset) of its menu, the one usually shown first. The one that is 1, 0 is canonical.
#: International foot, inch and pound, US gallon (exact), Wh and MJ through the second: from memory.
_MENUS: dict[str, tuple[tuple[str, float, float], ...]] = {
    "energy": (("Wh", 1, 0), ("kWh", 1000, 0), ("MJ", 1e6 / 3600, 0)),
    "power": (("W", 1, 0), ("kW", 1000, 0)),
    "apparent power": (("VA", 1, 0), ("kVA", 1000, 0)),
    "shaft power": (("hp", 1, 0),),
    "capacity": (("Ah", 1, 0), ("mAh", 1e-3, 0)),
    "current": (("A", 1, 0), ("mA", 1e-3, 0)),
    "voltage": (("V", 1, 0), ("mV", 1e-3, 0)),
    "time": (("h", 1, 0), ("min", 1 / 60, 0)),
    "days": (("days", 1, 0),),
    "month": (("", 1, 0),),
    "fraction": (("%", 0.01, 0), ("as a fraction", 1, 0)),
    "number": (("", 1, 0),),
    "count": (("", 1, 0),),
    "money": (("", 1, 0),),
    "temperature": (("°C", 1, 0), ("°F", 5 / 9, 32)),
    "difference": (("K", 1, 0), ("°F steps", 5 / 9, 0)),
    "length": (("m", 1, 0), ("ft", 0.3048, 0), ("cm", 0.01, 0)),
    "thickness": (("mm", 1, 0),),
    "area": (("mm²", 1, 0),),
    "opening": (("cm²", 1, 0),),
    "air flow": (("m³/h", 1, 0), ("ft³/min", 0.3048**3 * 60, 0), ("ft³/h", 0.3048**3, 0)),
    "gassing": (("mA/Ah", 1, 0),),
    "gas of a charge": (("L/Ah", 1, 0), ("ft³/Ah", 304.8**3 / 1e6, 0)),
    "air of a charge": (("m³/Ah", 1, 0),),
    "volume": (("m³", 1, 0), ("ft³", 0.3048**3, 0)),
    "fuel": (("L", 1, 0), ("gal", 3.785411784, 0)),
    "fuel flow": (("L/h", 1, 0), ("gal/h", 3.785411784, 0)),
    "fuel of an energy": (("L/kWh", 1, 0),),
    "mass": (("kg", 1, 0), ("lb", 0.45359237, 0)),
    "resistance": (("Ω", 1, 0), ("mΩ", 1e-3, 0)),
    "small resistance": (("mΩ", 1, 0),),
    "resistance of a length": (("Ω/m", 1, 0), ("Ω/km", 1e-3, 0)),
    "resistance of a capacity": (("Ω·Ah", 1, 0),),
    "sun": (("kWh/m²", 1, 0),),
    "sun in megajoules": (("MJ/m²", 1, 0),),
    "irradiance": (("kW/m²", 1, 0),),
    "angle": (("°", 1, 0),),
    "share per kelvin": (("%/K", 0.01, 0), ("per K", 1, 0)),
    "share per watt": (("%/kW", 1e-5, 0), ("per W", 1, 0)),
    "rate": (("per h", 1, 0),),
    "cell slope": (("mV/K", 1, 0),),
    "years": (("years", 1, 0),),
    "heat flow": (("W/K", 1, 0),),
    "heat flow of an area": (("W/(m²·K)", 1, 0),),
    "heat flow for the wind": (("W·s/(m³·K)", 1, 0),),
    "speed": (("m/s", 1, 0), ("km/h", 1 / 3.6, 0)),
    "heat of a mass": (("Wh/(kg·K)", 1, 0),),
}
MENUS = {kind: tuple(Unit(s, kind, f, o) for s, f, o in rows) for kind, rows in _MENUS.items()}
_CANONICAL = {kind: next(u for u in units if (u.factor, u.offset) == (1, 0)) for kind, units in MENUS.items()}

#: The ending of a name -> its kind. ``ohm_m`` is ohms a metre, ``ohm_ah`` a cell's ohms times
#: its amp-hours, ``mv_k`` millivolts a kelvin a cell.
ENDINGS: dict[str, str] = {
    "wh": "energy",
    "w": "power",
    "va": "apparent power",
    "hp": "shaft power",
    "ah": "capacity",
    "a": "current",
    "v": "voltage",
    "h": "time",
    "days": "days",
    "month": "month",
    "frac": "fraction",
    "factor": "number",
    "ratio": "number",
    "count": "count",
    "cost": "money",
    "c": "temperature",
    "k": "difference",
    "m": "length",
    "mm": "thickness",
    "mm2": "area",
    "cm2": "opening",
    "m3_h": "air flow",
    "ma_ah": "gassing",
    "l_ah": "gas of a charge",
    "m3_ah": "air of a charge",
    "m3": "volume",
    "l": "fuel",
    "l_h": "fuel flow",
    "l_kwh": "fuel of an energy",
    "kg": "mass",
    "ohm": "resistance",
    "mohm": "small resistance",
    "ohm_m": "resistance of a length",
    "ohm_ah": "resistance of a capacity",
    "kwh_m2": "sun",
    "mj_m2": "sun in megajoules",
    "kw_m2": "irradiance",
    "deg": "angle",
    "per_k": "share per kelvin",
    "per_w": "share per watt",
    "per_h": "rate",
    "mv_k": "cell slope",
    "exponent": "number",
    "years": "years",
    "w_k": "heat flow",
    "w_m2_k": "heat flow of an area",
    "ws_m3_k": "heat flow for the wind",
    "m_s": "speed",
    "wh_kg_k": "heat of a mass",
}
#: A table -> the kind of what is read from it; its name says what that is, and seldom its unit.
READ: dict[str, str] = {
    "busiest_run": "energy",
    "days_of_run": "days",
    "voltage_steps": "voltage",
    "capacity_kept": "fraction",
    "charge_of_gravity": "fraction",
    "charge_of_rest_voltage": "fraction",
    "gravity_of_charge": "number",
    "freezing_of_gravity": "temperature",
    "cycle_life": "count",
    "cell_rest_voltage": "voltage",
    "next_fuse": "current",
    "smaller_fuse": "current",
    "grouping_table": "number",
    "area_of_gauge": "area",
    "thinner_cable": "area",
    "nearest_cable": "area",
    "cable_for_ampacity": "area",
    "cable_for_conductance": "area",
    "cable_for_fuse": "area",
    "cable_fuse_limit": "current",
    "cable_resistance": "resistance of a length",
    "cable_ampacity": "current",
    "lost_of_bank": "fraction",
}


@cache
def unit_of(name: str) -> Unit:
    """Return the canonical unit of a quantity: the one its values are stored in.

    Parameters
    ----------
    name
        The quantity's name. Its longest known ending is the unit; ``by_month`` and ``by_row`` do not count. For a
        table, the unit is that of what is read from it.

    Raises
    ------
    OffgridError
        If the name does not end in a unit.

    Examples
    --------
    >>> unit_of("sun_by_month_kwh_m2").symbol
    'kWh/m²'
    """
    if name in READ:
        return _CANONICAL[READ[name]]
    parts = _without_axis(name).split("_")
    for start in range(len(parts)):
        if kind := ENDINGS.get("_".join(parts[start:])):
            return _CANONICAL[kind]
    raise OffgridError(f"{name[:80]!r} does not end in a unit; a name ends in one of {', '.join(ENDINGS)}")


def menu(name: str) -> tuple[Unit, ...]:
    """Return the units a person may use for a quantity, the one usually shown first.

    Wire gauges are not on the menu of an area, being no multiple of one; see :func:`awg_to_mm2`.
    """
    return MENUS[unit_of(name).kind]


def _without_axis(name: str) -> str:
    for axis in AXES:
        name = name.replace(f"_{axis}", "")
    return name


#: Gauges that may be read and shown: 4/0 (written −3) to 40.
AWG_SPAN = (-3, 40)


def awg_to_mm2(gauge: Any) -> Any:
    """Return the area of a solid round wire of an American Wire Gauge number.

    Parameters
    ----------
    gauge
        Gauge number, a number or an array; 1/0 is 0, 2/0 is −1, 4/0 is −3.

    Returns
    -------
    float or ndarray
        Area in mm². Bigger number, thinner wire.

    Notes
    -----
    ASTM B258: the diameter is 0.127 mm × 92^((36 − gauge) / 39). A stranded wire of the same gauge has nearly
    the same metal area and a larger diameter.
    """
    return math.pi / 4 * (0.127 * 92 ** ((36 - np.asarray(gauge, float)) / 39)) ** 2


def mm2_to_awg(area: Any) -> Any:
    """Return the gauge number of an area in mm², between gauges as a fraction; the inverse of :func:`awg_to_mm2`.

    Raises
    ------
    OffgridError
        If an area is not above zero.
    """
    area = np.asarray(area, float)
    if not np.all(area > 0):
        raise OffgridError(f"a wire's area in mm² is above 0, not {np.min(area):g}")
    return 36 - 39 * np.log(np.sqrt(area * 4 / math.pi) / 0.127) / math.log(92)


def awg_label(gauge: int) -> str:
    """Return how the trade writes a gauge: ``4 AWG``, and ``2/0 AWG`` for −1.

    Raises
    ------
    OffgridError
        If the gauge is outside :data:`AWG_SPAN`.
    """
    low, high = AWG_SPAN
    if not low <= gauge <= high:
        raise OffgridError(f"a wire gauge is from {low} (which is 4/0) to {high}, not {gauge}")
    return f"{gauge} AWG" if gauge > 0 else f"{1 - gauge}/0 AWG"
