"""What an explorer panel shows, worked out: one point, and the curve of what one input does to the rest.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import quantity
from offgrid_core.sizing.loads import GROWN_AT_BATTERY, LOADS, ROWS_AT_BATTERY
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved, Table

#: The three inputs every reader came for, in the order they stand on every panel.
HEADLINE = ("autonomy_days", "depth_frac", "battery_temp_c")
#: Points along a curve.
POINTS = 71


@dataclass(frozen=True)
class ChainView:
    """One setting of the whole chain.

    Attributes
    ----------
    inputs
        The settings shown.
    against
        Name of the input along the curve.
    xs
        Its values, in the unit of the name.
    point
        The chain solved at the setting.
    curve
        The chain solved along ``xs``.
    broken
        Along ``xs``: whether any limit is broken there.
    """

    inputs: Mapping[str, Any]
    against: str
    xs: np.ndarray
    point: Solved
    curve: Solved
    broken: np.ndarray

    @property
    def broken_now(self) -> list[str]:
        """Labels of the limits that are broken at the setting."""
        return [self.point.sheet[n].label for n, broken in self.point.broken().items() if broken]

    @property
    def if_warm_ah(self) -> float:
        """The bank that would be needed if the cold took nothing, Ah."""
        sheet = self.point.sheet.upto("bank_needed_ah")
        given = {n: self.point[n] for n in sheet.inputs}
        return float(sheet.solve(given, held={"kept_frac": 1.0})["bank_needed_ah"])

    @property
    def invented(self) -> np.ndarray:
        """Along a temperature curve: whether the capacity kept is our own invented data there."""
        return np.array([self.point["capacity_kept"].invented_at(x) for x in self.xs])

    def along(self, name: str) -> np.ndarray:
        """Return a line along the curve, one value for each of ``xs``."""
        return np.broadcast_to(np.asarray(self.curve[name], float), self.xs.shape)

    def at(self, name: str) -> float:
        """Return a line at the setting."""
        return float(self.point[name])


def whole_chain(design: Design, inputs: Mapping[str, Any], against: str = "autonomy_days") -> ChainView:
    """Work out the chain at a setting and along one input; parts stay those of the design, counts follow.

    Parameters
    ----------
    design
        A sized system; its parts are kept.
    inputs
        Settings that differ from the design's.
    against
        The input along the curve; it has a slider range.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity or of a table.
    """
    sheet, given = design.system.sheet, {**design.given, **inputs}
    xs = span_of(against, given)
    point = sheet.solve(given)
    curve = sheet.solve({**given, against: xs})
    broken = np.any([np.broadcast_to(b, xs.shape) for b in curve.broken().values()], axis=0)
    return ChainView(dict(inputs), against, xs, point, curve, broken)


def span_of(name: str, given: Mapping[str, Any]) -> np.ndarray:
    """Return the slider's values, finely spaced, within what the tables cover."""
    slider = quantity(name).slider
    if slider is None:
        raise OffgridError(f"{quantity(name).label} has no slider to draw a curve along")
    low, high, _ = slider
    kept = given.get("capacity_kept")
    if name == "battery_temp_c" and isinstance(kept, Table):
        low, high = max(low, kept.x[0]), min(high, kept.x[-1])
    return np.linspace(low, high, POINTS)


@dataclass(frozen=True)
class LoadsView:
    """A day of the loads list at one setting: the rows' names, and the worksheet solved."""

    names: tuple[str, ...]
    day: Solved

    def at_battery(self) -> list[tuple[str, float]]:
        """Return what each row takes out of the battery on the busiest day, then the inverter's idle energy, Wh."""
        rows = np.broadcast_to(self.day["row_grown_by_row_wh"], (len(self.names),))
        parts = [
            *zip(self.names, rows.tolist(), strict=True),
            ("inverter, only for being on", float(self.day["idle_grown_wh"])),
        ]
        return sorted(parts, key=lambda part: -part[1])


def one_day(design: Design, inputs: Mapping[str, Any]) -> LoadsView:
    """Work out the busiest day of a design's loads list with some inputs moved."""
    sheet = LOADS + ROWS_AT_BATTERY + GROWN_AT_BATTERY
    given = {n: design.loads[n] for n in sheet.inputs}
    return LoadsView(tuple(row.name for row in design.plan.load), sheet.solve({**given, **inputs}))
