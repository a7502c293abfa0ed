"""What the panel of the controller shows: a module string between the coldest morning and the hottest day.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.array import ARRAY_LAYOUT, COLD_VOLTAGE_TABLE
from offgrid_core.system.design import Design, chain_of
from offgrid_core.system.explore import span_of
from offgrid_core.system.givens import cold_voltage_of, fields_of
from offgrid_core.system.parts import CONTROLLER_GIVENS, MODULE_GIVENS
from offgrid_core.worksheet import Solved

#: Modules in a row that the picture sets side by side.
COUNTS = np.arange(1.0, 9.0)
_COLD, _TABLE, _HOT = "string_voc_cold_v", "string_voc_table_v", "string_vmp_hot_v"
#: What the inputs name instead of a number.
_CHOSEN = ("module", "controller")


@dataclass(frozen=True)
class StringWindow:
    """A module string and a controller at one setting.

    Attributes
    ----------
    module, controller
        The parts.
    point
        The whole chain solved; the array follows the controller.
    airs_c, open_v, table_v
        Along the coldest air: the string's open-circuit voltage by the module's coefficient, and by the table of the
        code setting, if that has one.
    cold_v, hot_v
        For each of :data:`COUNTS`: the voltage of the coldest morning, and the working voltage of the hottest day.
    """

    module: data.Module
    controller: data.Controller
    point: Solved
    airs_c: np.ndarray
    open_v: np.ndarray
    table_v: np.ndarray | None
    cold_v: np.ndarray
    hot_v: np.ndarray

    @property
    def is_too_high(self) -> bool:
        """Whether the cold morning passes the controller's limit."""
        return bool(self.point.broken()["cold_voltage_margin_v"])

    @property
    def is_too_low(self) -> bool:
        """Whether the hot day falls short of what charging needs."""
        return bool(self.point.broken()["hot_voltage_margin_v"])

    @property
    def is_direct(self) -> bool:
        """Whether the controller passes the modules' current straight through."""
        return self.controller.kind == "direct"

    @property
    def in_series(self) -> int:
        """Modules in the row."""
        return int(self.point["modules_in_series_count"])

    @property
    def now_v(self) -> float:
        """The voltage of the row on the coldest morning, V."""
        return float(self.point[_COLD])

    @property
    def limit_v(self) -> float:
        """The controller's highest array voltage, V."""
        return float(self.point["controller_voltage_max_v"])

    @property
    def needed_v(self) -> float:
        """The array voltage that charging needs, V."""
        return float(self.point["start_voltage_v"])


def controllers_for(design: Design) -> list[data.Controller]:
    """Return the controllers of the catalogue that can be set to the design's bank voltage."""
    return [c for c in data.controllers() if float(design.given["bank_voltage_v"]) in c.banks_v]


def string_window(design: Design, inputs: Mapping[str, Any]) -> StringWindow:
    """Put modules in a row at a controller, and work out what cold and heat make of their volts.

    Parameters
    ----------
    design
        Gives loads, site, bank and code setting; what is asked of the array follows the controller.
    inputs
        ``air_coldest_c``, ``modules_in_series_count``, ``hot_day_rise_k``, and by key ``module`` and ``controller``.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity.
    """
    module = next(m for m in data.modules() if m.key == inputs["module"])
    controller = next(c for c in data.controllers() if c.key == inputs["controller"])
    given = {n: v for n, v in design.given.items() if n != "cold_voltage_factor"}
    given |= fields_of(module, MODULE_GIVENS) | fields_of(controller, CONTROLLER_GIVENS)
    given |= {n: v for n, v in inputs.items() if n not in _CHOSEN}
    given |= cold_voltage_of(data.code_setting(design.plan.circuits.code), given["air_coldest_c"])
    point = chain_of(design.plan, given, controller.kind).solve(given)
    airs = span_of("air_coldest_c", given)
    along = _solved(ARRAY_LAYOUT.upto(_COLD), point, air_coldest_c=airs)
    table = _solved(COLD_VOLTAGE_TABLE, point, air_coldest_c=airs)[_TABLE] if _TABLE in point else None
    rows = _solved(ARRAY_LAYOUT.upto(_COLD, _HOT), point, modules_in_series_count=COUNTS)
    return StringWindow(module, controller, point, airs, along[_COLD], table, rows[_COLD], rows[_HOT])


def _solved(sheet: Any, point: Solved, **moved: Any) -> Solved:
    solved: Solved = sheet.solve({**{n: point[n] for n in sheet.inputs}, **moved})
    return solved
