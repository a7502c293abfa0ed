"""What the panel of the bank voltage shows: one inverter on one cable, at a setting and at every voltage.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing import VOLTAGE_STEPS
from offgrid_core.sizing.voltage_teaching import ONE_CABLE
from offgrid_core.system.design import Design
from offgrid_core.system.explore import span_of
from offgrid_core.worksheet import Solved


@dataclass(frozen=True)
class CableView:
    """One inverter on one cable.

    Attributes
    ----------
    point
        The cable's worksheet solved at the setting.
    xs
        Bank voltages along the curve, V.
    curve
        The worksheet solved along ``xs``; everything but the voltage stays.
    steps
        The worksheet solved at the voltages that banks are built at.
    limits_a
        The two currents at which the trade asks for more volts: the careful one, and the one not to be passed, A.
    """

    point: Solved
    xs: np.ndarray
    curve: Solved
    steps: Solved
    limits_a: tuple[float, float]

    @property
    def overheats(self) -> bool:
        """Whether the current is more than the cable may carry."""
        return bool(self.point.broken()["cable_margin_a"])

    @property
    def drops_too_much(self) -> bool:
        """Whether more of the volts is lost than is allowed."""
        return bool(self.point.broken()["inverter_drop_margin_frac"])

    @property
    def nothing_arrives(self) -> bool:
        """Whether the cable would take all the volts there are."""
        return float(self.point["inverter_lost_frac"]) >= 1

    @property
    def may_carry_a(self) -> float:
        """What the cable may carry, from the table of the code setting, A."""
        return float(self.point["cable_ampacity"](self.point["cable_mm2"]))


def cable_sizes(design: Design) -> tuple[float, ...]:
    """Return the copper of the cables that the design's code setting lists, mm²."""
    return tuple(data.code_setting(design.plan.circuits.code).size_labels)


def one_cable(design: Design, inputs: Mapping[str, Any]) -> CableView:
    """Work out current and loss of an inverter's cable, at a setting and along the bank voltage.

    Parameters
    ----------
    design
        Gives the tables of its code setting, the temperature of the copper, and what is allowed.
    inputs
        ``bank_voltage_v``, ``inverter_rated_w``, ``cable_run_m``, ``cable_mm2``, ``inverter_eff_frac`` and
        ``low_12v_v``.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity, or no such cable is listed.
    """
    given = {**design.given, **inputs}
    limits = float(given["current_wanted_a"]), float(given["bank_current_max_a"])
    given = {n: given[n] for n in ONE_CABLE.inputs}
    xs = span_of("bank_voltage_v", given)
    along, steps = (ONE_CABLE.solve({**given, "bank_voltage_v": v}) for v in (xs, np.array(VOLTAGE_STEPS.y)))
    return CableView(ONE_CABLE.solve(given), xs, along, steps, limits)
