"""Sun on a tilted array, month by month, from monthly means on the flat.

The monthly method of Klein (1977) with the isotropic sky of Liu and Jordan (1963) and the monthly diffuse
share of Erbs et al. (1982), in the form of Duffie & Beckman, *Solar Engineering of Thermal Processes*. It
faces the equator. These are functions, not lines: their result enters a worksheet as a given.

Validity: within about 4 % over a year and 12 % in a month up to 40° of latitude; not to be trusted for
midwinter beyond about 50°, where the diffuse share leaves the range it was fitted to.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from offgrid_core.errors import WorksheetError

#: Mean day of each month (Klein 1977), day of the year.
MEAN_DAYS = np.array([17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344])
#: Solar constant of the World Radiation Center, W/m².
SOLAR_CONSTANT_W_M2 = 1367.0
#: Beyond this latitude the method is not to be trusted in midwinter.
TRUSTED_LATITUDE_DEG = 50.0

_RAD = np.pi / 180


def declination_deg(day: Any) -> Any:
    """Return the sun's declination in degrees on a day of the year (Cooper 1969)."""
    return 23.45 * np.sin(_RAD * 360 * (284 + np.asarray(day)) / 365)


def sunset_deg(latitude_deg: float, declination: Any) -> Any:
    """Return the sunset hour angle in degrees, 0 to 180; polar night gives 0, midnight sun 180."""
    return np.arccos(np.clip(-np.tan(_RAD * latitude_deg) * np.tan(_RAD * declination), -1, 1)) / _RAD


def extraterrestrial_kwh_m2(latitude_deg: float, day: Any) -> Any:
    """Return the day's irradiation above the air on the flat, kWh/m² (Duffie & Beckman eq. 1.10.3)."""
    declination = declination_deg(day)
    sunset = sunset_deg(latitude_deg, declination)
    distance = 1 + 0.033 * np.cos(_RAD * 360 * np.asarray(day) / 365)
    flat = np.cos(_RAD * latitude_deg) * np.cos(_RAD * declination) * np.sin(_RAD * sunset)
    flat = flat + _RAD * sunset * np.sin(_RAD * latitude_deg) * np.sin(_RAD * declination)
    return 24 / np.pi * SOLAR_CONSTANT_W_M2 / 1000 * distance * flat


def diffuse_share(clearness: Any, sunset: Any) -> Any:
    """Return the monthly diffuse share of the flat irradiation (Erbs et al. 1982).

    Parameters
    ----------
    clearness
        Monthly clearness index, 0.3 to 0.8; values outside are taken at the nearest end.
    sunset
        Sunset hour angle of the mean day, degrees.
    """
    k = np.clip(clearness, 0.3, 0.8)
    winter = 1.391 - 3.560 * k + 4.189 * k**2 - 2.137 * k**3
    rest = 1.311 - 3.022 * k + 3.427 * k**2 - 1.821 * k**3
    return np.where(np.asarray(sunset) <= 81.4, winter, rest)


def hour_diffuse_share(clearness: Any) -> Any:
    """Return an hour's diffuse share of the flat irradiation from its clearness, 0 to 1 (Erbs et al. 1982)."""
    k = np.clip(clearness, 0, 1)
    between = 0.9511 - 0.1604 * k + 4.388 * k**2 - 16.638 * k**3 + 12.336 * k**4
    return np.where(k <= 0.22, 1 - 0.09 * k, np.where(k <= 0.8, between, 0.165))


def flat_and_diffuse_kwh_m2(flat_kwh_m2: Sequence[float], latitude_deg: float) -> tuple[np.ndarray, np.ndarray]:
    """Return twelve monthly means on the flat, checked, and how much of each comes from the sky without the sun.

    Parameters
    ----------
    flat_kwh_m2
        Twelve monthly means of daily irradiation on the flat, kWh/m² a day, January first.
    latitude_deg
        Degrees, north positive.

    Returns
    -------
    tuple of numpy.ndarray
        The twelve means and the twelve diffuse ones, kWh/m² a day.

    Raises
    ------
    WorksheetError
        If there are not twelve values, or one is not between zero and what arrives above the air.
    """
    flat = np.asarray(flat_kwh_m2, float)
    if flat.shape != (12,):
        raise WorksheetError(f"sun by month: twelve values are needed, not {flat.size}")
    above = extraterrestrial_kwh_m2(latitude_deg, MEAN_DAYS)
    # The mean day misses the month's mean by up to 1.5 %, and by more where the sun hardly rises.
    impossible = ~((flat >= 0) & (flat <= above * 1.05 + 0.1))
    if np.any(impossible):
        month = int(np.argmax(impossible))
        raise WorksheetError(
            f"sun by month: {flat[month]:g} kWh/m² in month {month + 1} is not between 0 and "
            f"{above[month]:.2f} kWh/m², which arrives above the air there"
        )
    share = diffuse_share(flat / np.maximum(above, 1e-9), sunset_deg(latitude_deg, declination_deg(MEAN_DAYS)))
    return flat, flat * share


def beam_ratio(latitude_deg: float, tilt_deg: float, day: Any) -> Any:
    """Return beam on the tilted plane ÷ beam on the flat, for a plane facing the equator (Klein 1977)."""
    latitude = abs(latitude_deg)
    declination = declination_deg(day) * (1 if latitude_deg >= 0 else -1)
    sunset = sunset_deg(latitude, declination)
    on_plane = np.minimum(sunset, sunset_deg(latitude - tilt_deg, declination))
    tilted = _daily(latitude - tilt_deg, declination, on_plane)
    return tilted / np.maximum(_daily(latitude, declination, sunset), 1e-9)


def plane_kwh_m2(
    flat_kwh_m2: Sequence[float],
    latitude_deg: float,
    tilt_deg: float,
    ground_reflectance: float | Sequence[float] = 0.2,
) -> np.ndarray:
    """Return the twelve monthly means on an array tilted towards the equator.

    Parameters
    ----------
    flat_kwh_m2
        Twelve monthly means of daily irradiation on the flat, kWh/m² a day, January first.
    latitude_deg
        Degrees, north positive.
    tilt_deg
        Degrees from the flat, 0 to 90.
    ground_reflectance
        One value or twelve; 0.2 for bare ground, to 0.7 for fresh snow.

    Returns
    -------
    numpy.ndarray
        Twelve means, kWh/m² a day.

    Raises
    ------
    WorksheetError
        If there are not twelve values, or one is not between zero and what arrives above the air.
    """
    if not 0 <= tilt_deg <= 90:
        raise WorksheetError(f"tilt: {tilt_deg:g}° is not between 0° (flat) and 90° (upright)")
    flat, diffuse = flat_and_diffuse_kwh_m2(flat_kwh_m2, latitude_deg)
    cos_tilt = np.cos(_RAD * tilt_deg)
    beam = (flat - diffuse) * beam_ratio(latitude_deg, tilt_deg, MEAN_DAYS)
    sky = diffuse * (1 + cos_tilt) / 2
    ground = flat * np.asarray(ground_reflectance, float) * (1 - cos_tilt) / 2
    return np.asarray(beam + sky + ground)


def _daily(latitude_deg: float, declination: Any, sunset: Any) -> Any:
    level = np.cos(_RAD * latitude_deg) * np.cos(_RAD * declination) * np.sin(_RAD * sunset)
    return level + _RAD * sunset * np.sin(_RAD * latitude_deg) * np.sin(_RAD * declination)
