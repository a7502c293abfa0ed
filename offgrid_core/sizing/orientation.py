"""Which way to set the array: the tilt, and if wanted the azimuth, that the design month or the year asks for.

For a system that must carry its load by itself the design month decides, so the best plane is the one whose hardest
month is easiest. The plane with the most sun in the year is there for comparison.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.sizing.sky import by_month, plane_kwh_m2, towards_equator_deg

#: Tilts that are looked at.
TILTS_DEG = np.arange(0.0, 91.0)
#: Azimuths to look at when nothing fixes where the array faces; nobody turns an array more finely than 5°.
ALL_ROUND_DEG = np.arange(0.0, 360.0, 5.0)
_DAYS_OF_MONTH = (31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
#: Planes that differ by less than this share are a tie: float noise.
_TIE = 1e-9


@dataclass(frozen=True)
class Orientation:
    """A plane and the sun on it, kWh/m² a day by month."""

    tilt_deg: float
    azimuth_deg: float
    plane_by_month_kwh_m2: np.ndarray


def year_mean_kwh_m2(by_month_kwh_m2: Sequence[float] | np.ndarray) -> np.ndarray:
    """Return the mean over the year of monthly means, each counted with its days; months are the last axis."""
    return np.average(by_month_kwh_m2, axis=-1, weights=_DAYS_OF_MONTH)


def best_for_load(
    flat_kwh_m2: Sequence[float],
    latitude_deg: float,
    load_by_month_wh: float | Sequence[float] | np.ndarray,
    shade_by_month_frac: float | Sequence[float] = 1.0,
    ground: float | Sequence[float] = 0.2,
    azimuths_deg: Sequence[float] | np.ndarray | None = None,
    tilt_least_deg: float = 0.0,
) -> Orientation:
    """Return the plane on which the largest monthly load ÷ (sun × shade) is smallest: the design month decides.

    Parameters
    ----------
    flat_kwh_m2, latitude_deg, ground
        As in :func:`offgrid_core.sizing.sky.plane_kwh_m2`.
    load_by_month_wh
        Mean load, Wh a day, one value or twelve; only the proportions count.
    shade_by_month_frac
        Share of the sun that shade leaves, one value or twelve.
    azimuths_deg
        Azimuths to choose from: the roof's own, or :data:`ALL_ROUND_DEG`. If not given, facing the equator.
    tilt_least_deg
        Flattest tilt wanted, so that rain washes the dust off.

    Returns
    -------
    Orientation
        Tilt in whole degrees. Of planes as good as each other the flattest, then the one nearest to the equator:
        it stands less in the wind and sees more of a dull sky.

    Raises
    ------
    WorksheetError
        As :func:`offgrid_core.sizing.sky.plane_kwh_m2`; if a load or a shade is out of range, or nothing is loaded.
    """
    load = by_month("battery_mean_by_month_wh", load_by_month_wh)
    shade = by_month("shade_by_month_frac", shade_by_month_frac)
    if not np.any(load):
        raise WorksheetError("load by month: all twelve are 0 Wh; at least one above 0 is wanted")
    candidates = [
        plane
        for plane in _candidates(flat_kwh_m2, latitude_deg, ground, azimuths_deg)
        if plane.tilt_deg >= tilt_least_deg
    ]
    given = {"battery_mean_by_month_wh": load, "shade_by_month_frac": shade, "full_sun_kw_m2": 1.0}
    planes = np.array([each.plane_by_month_kwh_m2 for each in candidates])
    solved = ARRAY_NEED.upto("load_sun_by_month_w").solve(given | {"plane_by_month_kwh_m2": planes})
    return candidates[_first_least(np.max(solved["load_sun_by_month_w"], axis=-1))]


def best_for_year(
    flat_kwh_m2: Sequence[float],
    latitude_deg: float,
    ground: float | Sequence[float] = 0.2,
    azimuths_deg: Sequence[float] | np.ndarray | None = None,
) -> Orientation:
    """Return the plane with the most sun in the year, for comparison; parameters as in :func:`best_for_load`."""
    candidates = _candidates(flat_kwh_m2, latitude_deg, ground, azimuths_deg)
    return candidates[_first_least(-year_mean_kwh_m2(np.array([each.plane_by_month_kwh_m2 for each in candidates])))]


def _candidates(
    flat_kwh_m2: Sequence[float],
    latitude_deg: float,
    ground: float | Sequence[float],
    azimuths_deg: Sequence[float] | np.ndarray | None,
) -> list[Orientation]:
    """Return every plane to choose from, the flattest first, and of those the nearest to the equator first."""
    equator = towards_equator_deg(latitude_deg)
    azimuths = np.atleast_1d(np.asarray(equator if azimuths_deg is None else azimuths_deg, float))
    if not azimuths.size:
        raise WorksheetError("azimuths: the list is empty; at least one to choose from is wanted")
    azimuths = azimuths[np.argsort(np.abs((azimuths - equator + 180) % 360 - 180), kind="stable")]
    # One azimuth after the other: all at once would take hundreds of megabytes.
    planes = [plane_kwh_m2(flat_kwh_m2, latitude_deg, TILTS_DEG, azimuth, ground) for azimuth in azimuths]
    return [
        Orientation(float(tilt), float(azimuth), planes[j][i])
        for i, tilt in enumerate(TILTS_DEG)
        for j, azimuth in enumerate(azimuths)
    ]


def _first_least(values: np.ndarray) -> int:
    """Return the place of the first value that is as small as any, but for float noise."""
    least = np.min(values)
    return int(np.argmax(values <= least + _TIE * abs(least)))
