"""What the panel of the array shows: what each month asks for, which month rules, and the bank's two demands beside it.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.sizing.array import ARRAY_FOR_BANK, ARRAY_NEED
from offgrid_core.sizing.array_teaching import SEASONS
from offgrid_core.sizing.sky import midwinter_caution, plane_kwh_m2
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Sheet, Solved

#: October to March, and April to September: the darker half of the year by where the sun is.
_NORTHERN_WINTER = (1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0)
#: What the bank as built gives to the array's demands.
_OF_BANK = ("bank_usable_wh", "bank_ah")
#: The three demands, of which the largest decides.
DEMANDS = ("array_for_load_w", "array_for_refill_w", "array_for_current_w")


@dataclass(frozen=True)
class MonthsView:
    """The months at one setting.

    Attributes
    ----------
    point
        The array's worksheet solved.
    tilt_deg
        Tilt of the array.
    caution
        What is to be said of midwinter sun at this latitude; empty where it may be trusted.
    """

    point: Solved
    tilt_deg: float
    caution: str

    def by_month(self, name: str) -> np.ndarray:
        """Return twelve values of a line or an input."""
        return np.broadcast_to(np.asarray(self.point[name], float), (12,))

    @property
    def ruling(self) -> int:
        """The design month, 1 for January."""
        return int(self.point["design_month"])

    @property
    def darkest(self) -> int:
        """The month with the least sun on the array, 1 for January."""
        return int(np.argmin(self.by_month("peak_sun_by_month_h"))) + 1

    @property
    def hungriest(self) -> int:
        """The month with the largest load, 1 for January."""
        return int(np.argmax(self.by_month("battery_mean_by_month_wh"))) + 1

    @property
    def decides(self) -> str:
        """The line of the largest demand."""
        return max(DEMANDS, key=lambda n: float(self.point[n]))


def winter_half(latitude_deg: float) -> tuple[float, ...]:
    """Return, by month, 1 in the winter half of the year and 0 in the other."""
    if latitude_deg >= 0:
        return _NORTHERN_WINTER
    return tuple(1 - share for share in _NORTHERN_WINTER)


def listed(design: Design) -> dict[str, Any]:
    """Return a design's loads by month as its list has them, and which months are winter's."""
    load = np.broadcast_to(np.asarray(design.given["battery_mean_by_month_wh"], float), (12,))
    return {"listed_by_month_wh": load, "winter_half_by_month_frac": winter_half(design.site.latitude_deg)}


def winter_share(design: Design) -> float:
    """Return winter's share of the year's energy as a design's loads list has it."""
    return float(SEASONS.upto("winter_listed_frac").solve(listed(design))["winter_listed_frac"])


def months(design: Design, inputs: Mapping[str, Any]) -> MonthsView:
    """Work out what every month asks of the array of a design; its bank and its parts stay as built.

    Parameters
    ----------
    design
        A sized system.
    inputs
        ``tilt_deg``, ``winter_share_frac``, and any inputs of the array's worksheet that differ from the design's.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity, or one half of the year has no load at all to be moved.
    """
    of_design = (design.system.sheet[n] for n in (*ARRAY_NEED, *ARRAY_FOR_BANK))
    sheet = SEASONS + Sheet(*of_design)
    moved = {n: v for n, v in inputs.items() if n != "tilt_deg"}
    tilt, site = float(inputs["tilt_deg"]), design.site
    facing, ground = design.azimuth_deg, design.plan.site.ground_by_month_frac
    plane = plane_kwh_m2(site.ghi_by_month_kwh_m2, site.latitude_deg, tilt, facing, ground)
    given = {**design.given, **{n: design.system[n] for n in _OF_BANK}, **listed(design)}
    given |= {"plane_by_month_kwh_m2": plane, **moved}
    point = sheet.solve({n: given[n] for n in sheet.inputs})
    return MonthsView(point, tilt, midwinter_caution(site.latitude_deg))
