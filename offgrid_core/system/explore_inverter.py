"""What the panel of the inverter shows: a day of appliances, moment by moment, beside what one inverter can give.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture. The appliances are the same
wherever the panel stands: those of Fell hut's plan and a kettle, invented classroom data.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.sizing.hours import LOADS_BY_HOUR
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_day_teaching import IDLE, LABELS, MOMENT
from offgrid_core.system.design import Design
from offgrid_core.system.givens import fields_of
from offgrid_core.system.parts import INVERTER_GIVENS
from offgrid_core.worksheet import Sheet, Solved


@dataclass(frozen=True)
class Appliance:
    """One row of the day; ``dial`` names the slider that says when it starts."""

    name: str
    count: int
    power_w: float
    start_h: float
    hours_h: float
    duty_frac: float
    power_factor: float
    start_factor: float
    dial: str = ""


APPLIANCES = (
    Appliance("fridge", 1, 90, 0, 24, 0.35, 0.7, 5),
    Appliance("lamps", 8, 7, 18, 5, 1, 1, 1),
    Appliance("laptop and router", 1, 55, 17, 6, 1, 1, 1),
    Appliance("water pump", 1, 370, 12, 0.5, 1, 0.8, 4, "pump_start_h"),
    Appliance("washing machine", 1, 350, 10, 1, 1, 0.75, 3, "washing_start_h"),
    Appliance("kettle", 1, 1000, 7, 0.25, 1, 1, 1, "kettle_start_h"),
)
#: Where the dials stand when the panel opens: no two of them together.
DIALS = {a.dial: float(a.start_h) for a in APPLIANCES if a.dial}
_COLUMNS = {
    "count_by_row": "count",
    "power_by_row_w": "power_w",
    "hours_by_row_h": "hours_h",
    "duty_by_row_frac": "duty_frac",
    "power_factor_by_row_ratio": "power_factor",
    "start_by_row_factor": "start_factor",
}
_ROWS: dict[str, Any] = {n: np.array([getattr(a, key) for a in APPLIANCES], float) for n, key in _COLUMNS.items()} | {
    "season_by_row_frac": 1.0,
    "standby_by_row_w": 0.0,
    "on_ac_by_row_frac": 1.0,
    "coincidence_by_row_frac": 1.0,
}
#: Moments of the day, h: every quarter of an hour.
MOMENTS = np.arange(96) / 4
_PEAKS = {"running_by_hour_w": "peak_w", "running_by_hour_va": "peak_va", "surging_by_hour_w": "surge_w"}
_JUDGED = ("inverter_needed_w", "inverter_hot_w", "inverter_margin_w", "inverter_margin_va", "heat_margin_w")
_DAY = (
    Sheet(*(LOADS_BY_HOUR[n] for n in _PEAKS.values()))
    + Sheet(*(INVERTER[n] for n in (*_JUDGED, "surge_margin_w")))
    + LABELS
    + IDLE
)


@dataclass(frozen=True)
class InverterDay:
    """A day of appliances at one inverter.

    Attributes
    ----------
    inverter
        The part.
    starts_h
        When each of :data:`APPLIANCES` is switched on, h.
    running_w, running_va, surging_w
        At each of :data:`MOMENTS`: watts and volt-amps together, and watts while the hardest motor starts.
    point
        The peaks of the day, the idle energy, and the limits.
    """

    inverter: data.Inverter
    starts_h: np.ndarray
    running_w: np.ndarray
    running_va: np.ndarray
    surging_w: np.ndarray
    point: Solved

    @property
    def broken(self) -> tuple[str, ...]:
        """Names of the limits that are broken."""
        return tuple(n for n, is_broken in self.point.broken().items() if is_broken)

    @property
    def peak_at_h(self) -> float:
        """When most runs together for the first time in the day, h."""
        return float(MOMENTS[np.argmax(self.running_w)])

    @property
    def surge_at_h(self) -> float:
        """When the hardest start comes for the first time in the day, h."""
        return float(MOMENTS[np.argmax(self.surging_w)])


def inverters_for(design: Design) -> tuple[data.Inverter, ...]:
    """Return the inverters of the catalogue that are made for the design's bank voltage, the smallest first."""
    volts = float(design.given["bank_voltage_v"])
    return tuple(sorted((i for i in data.inverters() if i.bank_v == volts), key=lambda i: i.rated_w))


def air_of(design: Design) -> float:
    """Return the hottest air of the design's place, °C."""
    return float(Sheet(INVERTER["air_hot_c"]).solve(design.given)["air_hot_c"])


def inverter_day(design: Design, inputs: Mapping[str, Any]) -> InverterDay:
    """Work out a day of the appliances at an inverter.

    Parameters
    ----------
    design
        Gives the margin, what heat takes, and the bank voltage that the inverter must be for.
    inputs
        ``pump_start_h``, ``washing_start_h``, ``kettle_start_h``, ``air_hot_c``, ``inverter_on_h``, and the key of
        the ``inverter``.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity, or no inverter for this bank has that key.
    """
    part = next((i for i in inverters_for(design) if i.key == inputs["inverter"]), None)
    if part is None:
        raise OffgridError(f"no inverter for this bank is called {inputs['inverter']!r:.40}")
    starts = np.array([inputs.get(a.dial, a.start_h) for a in APPLIANCES], float)
    labels = {"label_by_row_w": _ROWS["power_by_row_w"], "start_by_row_h": starts, "moment_h": MOMENTS}
    peaks = MOMENT.solve({**{n: v for n, v in _ROWS.items() if n in MOMENT.inputs}, **labels})
    hourly = {name: np.asarray(peaks[peak], float) for name, peak in _PEAKS.items()}
    others = {n: v for n, v in inputs.items() if n != "inverter"}
    given = {**design.given, **_ROWS, **fields_of(part, INVERTER_GIVENS), **others, **hourly}
    point = _DAY.solve({n: given[n] for n in _DAY.inputs})
    running_w, running_va, surging_w = hourly.values()
    return InverterDay(part, starts, running_w, running_va, surging_w, point)
