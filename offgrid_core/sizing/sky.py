"""Sun on an array of any tilt and azimuth, from twelve monthly means on the flat or from a year of hours.

From monthly means: on the mean day of each month global and diffuse sun are spread over the sunlit hours by the
published profiles of Collares-Pereira & Rabl (1979) and Liu & Jordan (1960), the diffuse share being that of
:mod:`offgrid_core.sizing.sun`. From hours: as they were recorded. What reaches the array is worked with
the isotropic sky: skies that brighten round the sun give 0 to 10 % more over a year, so it is the cautious side.

An azimuth is in degrees clockwise from north: 90 faces east, 180 south, 270 west. A month goes by its mean day, in
solar time, so that morning and afternoon are alike.

Validity of the monthly means, against hourly years at 26° and 36° of latitude: within 4 % over a year, within 12 % in
a month up to 60° of tilt and 15 % upright; winter months come out too high, most of all where the real share of
diffuse sun is above the formula's. At 55° a winter month came out a third too high: see :func:`midwinter_caution`.

The sun's place at a time of the clock comes from pvlib. It takes a second to load, so it is loaded only when that is
asked for; monthly means and drawn years do without it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.quantities import quantity, say, show
from offgrid_core.sizing.sun import (
    MEAN_DAYS,
    TRUSTED_LATITUDE_DEG,
    declination_deg,
    flat_and_diffuse_kwh_m2,
    hour_diffuse_share,
    sunset_deg,
)

if TYPE_CHECKING:
    import pandas as pd

#: Steps into which the sunlit part of a mean day is cut; the month is then within 0.03 % of a thousand steps.
STEPS = 48
#: Cosine of the zenith angle beyond which an hour's sun is all diffuse (87°), and the least that its clearness is taken
#: by: near the horizon it is mostly noise. Both as in pvlib.
_NO_BEAM, _LOW_SUN = np.cos(np.radians(87)), 0.065
#: Sun that no hour on earth has, W/m².
_TOO_MUCH_W_M2 = 2000.0


def towards_equator_deg(latitude_deg: float) -> float:
    """Return the azimuth that faces the equator: 180 north of it and on it, 0 south of it."""
    return 0.0 if latitude_deg < 0 else 180.0


def midwinter_caution(latitude_deg: float) -> str:
    """Return what to say of midwinter sun made from monthly means; empty where it may be trusted."""
    if abs(latitude_deg) <= TRUSTED_LATITUDE_DEG:
        return ""
    return say("caution.midwinter_sun", latitude=show("latitude_deg", TRUSTED_LATITUDE_DEG))


# ---- one hour


def hour_share(hour_angle_deg: Any, sunset: Any) -> Any:
    """Return the share of a day's global sun that falls in one hour (Collares-Pereira & Rabl 1979).

    Parameters
    ----------
    hour_angle_deg
        Sun's hour angle in the middle of the hour, degrees; negative before noon.
    sunset
        Sunset hour angle of the day, degrees.
    """
    from_60 = np.radians(np.asarray(sunset) - 60)
    a = 0.409 + 0.5016 * np.sin(from_60)
    b = 0.6609 - 0.4767 * np.sin(from_60)
    return (a + b * np.cos(np.radians(hour_angle_deg))) * hour_share_of_diffuse(hour_angle_deg, sunset)


def hour_share_of_diffuse(hour_angle_deg: Any, sunset: Any) -> Any:
    """Return the share of a day's diffuse sun that falls in one hour (Liu & Jordan 1960); see :func:`hour_share`.

    It is also the hour's share of what arrives above the air. By night it is 0.
    """
    sunset_rad = np.radians(sunset)
    above_sunset = np.maximum(np.cos(np.radians(hour_angle_deg)) - np.cos(sunset_rad), 0)
    return np.pi / 24 * above_sunset / (np.sin(sunset_rad) - sunset_rad * np.cos(sunset_rad))


def sun_position_deg(latitude_deg: float, declination: Any, hour_angle_deg: Any) -> tuple[Any, Any]:
    """Return zenith angle and azimuth of the sun in degrees, in solar time.

    Parameters
    ----------
    latitude_deg
        Degrees, north positive.
    declination
        Declination of the day, degrees (:func:`offgrid_core.sizing.sun.declination_deg`).
    hour_angle_deg
        Degrees from noon, 15 an hour, negative before noon.
    """
    latitude, tipped, turned = np.radians(latitude_deg), np.radians(declination), np.radians(hour_angle_deg)
    up = np.sin(latitude) * np.sin(tipped) + np.cos(latitude) * np.cos(tipped) * np.cos(turned)
    north = np.cos(latitude) * np.sin(tipped) - np.sin(latitude) * np.cos(tipped) * np.cos(turned)
    east = -np.cos(tipped) * np.sin(turned)
    return np.degrees(np.arccos(np.clip(up, -1, 1))), np.degrees(np.arctan2(east, north)) % 360


def on_plane(
    sun: tuple[Any, Any], beam: Any, flat: Any, diffuse: Any, tilt_deg: Any, azimuth_deg: Any, ground: Any = 0.2
) -> Any:
    """Return what reaches the plane under an isotropic sky; arrays broadcast.

    Parameters
    ----------
    sun
        Zenith angle and azimuth of the sun, degrees.
    beam, flat, diffuse
        Beam on a plane square to it, global on the flat and diffuse on the flat, all in one unit of power.
    tilt_deg, azimuth_deg
        Of the plane.
    ground
        Share of the sunlight that the ground throws back.

    Returns
    -------
    number or numpy.ndarray
        Global on the plane, in the unit of the others.
    """
    zenith, azimuth, tilt = np.radians(sun[0]), np.radians(sun[1]), np.radians(tilt_deg)
    towards = np.cos(zenith) * np.cos(tilt)
    towards = towards + np.sin(zenith) * np.sin(tilt) * np.cos(azimuth - np.radians(azimuth_deg))
    seen, turned_away = (1 + np.cos(tilt)) / 2, (1 - np.cos(tilt)) / 2
    return np.maximum(beam * towards, 0) + diffuse * seen + flat * ground * turned_away


def beam_and_diffuse_w_m2(flat_w_m2: Any, zenith_deg: Any, day: Any) -> tuple[Any, Any]:
    """Split global sun into beam square to it and diffuse on the flat (Erbs et al. 1982, hourly).

    Parameters
    ----------
    flat_w_m2
        Global on the flat, mean of the hour, W/m².
    zenith_deg
        Sun's zenith angle in the middle of the hour, degrees. Beyond 87° all is diffuse.
    day
        Day of the year.
    """
    up = np.cos(np.radians(zenith_deg))
    share = hour_diffuse_share(flat_w_m2 / (_above_the_air_w_m2(day) * np.maximum(up, _LOW_SUN)))
    diffuse = np.where(up < _NO_BEAM, 1, share) * flat_w_m2
    return (flat_w_m2 - diffuse) / np.maximum(up, _NO_BEAM), diffuse


def _above_the_air_w_m2(day: Any) -> Any:
    """Return what arrives above the air on a plane square to the sun, W/m² (Spencer 1971; 1366.1 W/m², ASTM E 490).

    It is finer than the one term and the 1367 W/m² with which the monthly method was published.
    """
    x = 2 * np.pi * (np.asarray(day) - 1) / 365
    terms = 1.00011 + 0.034221 * np.cos(x) + 0.00128 * np.sin(x) + 0.000719 * np.cos(2 * x) + 7.7e-05 * np.sin(2 * x)
    return 1366.1 * terms


# ---- from twelve monthly means


@dataclass(frozen=True)
class MeanDays:
    """The mean day of each month, built from monthly means.

    Attributes
    ----------
    hour_angle_deg
        Middle of each step from sunrise to sunset, degrees from noon, 12 × STEPS.
    step_h
        Length of a step of each month, hours, 12 × 1.
    flat_kw_m2, diffuse_kw_m2
        Global and diffuse on the flat, kW/m², 12 × STEPS. Times ``step_h`` they sum to the monthly means.
    """

    hour_angle_deg: np.ndarray
    step_h: np.ndarray
    flat_kw_m2: np.ndarray
    diffuse_kw_m2: np.ndarray


def mean_days(flat_kwh_m2: Sequence[float], latitude_deg: float) -> MeanDays:
    """Spread monthly means over their mean days; see :func:`plane_kwh_m2` for parameters and errors."""
    _refuse_outside("latitude_deg", latitude_deg)
    flat, diffuse = flat_and_diffuse_kwh_m2(flat_kwh_m2, latitude_deg)
    sunset = sunset_deg(latitude_deg, declination_deg(MEAN_DAYS))[:, None]
    hour_angle = sunset * ((np.arange(STEPS) + 0.5) / STEPS * 2 - 1)
    step_h = 2 * sunset / 15 / STEPS
    shape, shape_of_diffuse = hour_share(hour_angle, sunset), hour_share_of_diffuse(hour_angle, sunset)
    return MeanDays(
        hour_angle,
        step_h,
        # The profile of the global sun gives back its day only to about 0.5 %: the day's sum is made exact here.
        flat[:, None] * shape / np.sum(shape * step_h, axis=1, keepdims=True),
        diffuse[:, None] * shape_of_diffuse / np.sum(shape_of_diffuse * step_h, axis=1, keepdims=True),
    )


def plane_kwh_m2(
    flat_kwh_m2: Sequence[float],
    latitude_deg: float,
    tilt_deg: Any,
    azimuth_deg: Any,
    ground: float | Sequence[float] = 0.2,
) -> np.ndarray:
    """Return the twelve monthly means on a tilted, turned array, for one plane or many.

    Parameters
    ----------
    flat_kwh_m2
        Twelve monthly means of daily irradiation on the flat, kWh/m² a day, January first.
    latitude_deg
        Degrees, north positive; −66 to 66.
    tilt_deg
        Degrees from the flat, 0 to 90; a number or an array.
    azimuth_deg
        Degrees clockwise from north, 0 to 360; a number, or an array that broadcasts with the tilts.
    ground
        Share of sunlight that the ground throws back, one value or twelve; 0.2 bare, to 0.7 under fresh snow.

    Returns
    -------
    numpy.ndarray
        kWh/m² a day; the months are the last axis, after the shape of the planes.

    Raises
    ------
    WorksheetError
        If there are not twelve months, a month has more sun than arrives above the air, or a value is out of range.

    Examples
    --------
    >>> flat = [2.4, 3.1, 4.2, 5.4, 5.6, 6.2, 6.1, 5.6, 4.4, 3.6, 2.4, 2.2]
    >>> plane_kwh_m2(flat, 36.1, [30, 60], 180).shape
    (2, 12)
    """
    _refuse_outside("tilt_deg", tilt_deg)
    _refuse_outside("azimuth_deg", azimuth_deg)
    days = mean_days(flat_kwh_m2, latitude_deg)
    sun = sun_position_deg(latitude_deg, declination_deg(MEAN_DAYS)[:, None], days.hour_angle_deg)
    beam = (days.flat_kw_m2 - days.diffuse_kw_m2) / np.cos(np.radians(sun[0]))
    tilt, azimuth = (np.asarray(angle, float)[..., None, None] for angle in (tilt_deg, azimuth_deg))
    by_step = on_plane(
        sun, beam, days.flat_kw_m2, days.diffuse_kw_m2, tilt, azimuth, by_month("ground_by_month_frac", ground)[:, None]
    )
    return np.asarray(np.sum(by_step * days.step_h, axis=-1))


# ---- from a year of hours


def hours_on_plane_w_m2(
    hours: "pd.DataFrame",
    latitude_deg: float,
    longitude_deg: float,
    tilt_deg: float,
    azimuth_deg: float,
    ground: float | Sequence[float] = 0.2,
) -> np.ndarray:
    """Return what reaches the plane in each hour of a record.

    Parameters
    ----------
    hours
        Columns ``ghi``, ``dhi`` and ``dni``, W/m² (global and diffuse on the flat, beam square to it), by an index with
        a time zone that holds the **middle** of each hour. With ``ghi`` alone the hours are split by
        :func:`beam_and_diffuse_w_m2`.
    latitude_deg, longitude_deg
        Degrees, north and east positive.
    tilt_deg, azimuth_deg, ground
        As in :func:`plane_kwh_m2`, one plane.

    Returns
    -------
    numpy.ndarray
        W/m², one value an hour.

    Raises
    ------
    WorksheetError
        If the index has no time zone, a column is missing, or a value is out of range.
    """
    from pvlib import solarposition

    _refuse_outside("latitude_deg", latitude_deg)
    _refuse_outside("tilt_deg", tilt_deg)
    _refuse_outside("azimuth_deg", azimuth_deg)
    columns = _columns(hours)
    place = solarposition.get_solarposition(hours.index, latitude_deg, longitude_deg)
    sun = place["apparent_zenith"].to_numpy(), place["azimuth"].to_numpy()
    flat = columns["ghi"]
    if len(columns) == 1:
        beam, diffuse = beam_and_diffuse_w_m2(flat, place["zenith"].to_numpy(), hours.index.day_of_year.to_numpy())
    else:
        beam, diffuse = columns["dni"], columns["dhi"]
    by_hour = by_month("ground_by_month_frac", ground)[hours.index.month.to_numpy() - 1]
    return np.asarray(on_plane(sun, beam, flat, diffuse, tilt_deg, azimuth_deg, by_hour))


def year_on_plane_kwh_m2(
    hours: "pd.DataFrame",
    latitude_deg: float,
    longitude_deg: float,
    tilt_deg: float,
    azimuth_deg: float,
    ground: float | Sequence[float] = 0.2,
) -> np.ndarray:
    """Return the twelve monthly means on a plane from a record of one or more whole years.

    Parameters are those of :func:`hours_on_plane_w_m2`.

    Returns
    -------
    numpy.ndarray
        Twelve means, kWh/m² a day.

    Raises
    ------
    WorksheetError
        As there, and if a month is missing or has some hours of the day more often than others.
    """
    on_it = hours_on_plane_w_m2(hours, latitude_deg, longitude_deg, tilt_deg, azimuth_deg, ground)
    month, hour = hours.index.month.to_numpy() - 1, hours.index.hour.to_numpy()
    seen = np.zeros((12, 24))
    np.add.at(seen, (month, hour), 1)
    # One more or less is a clock put forward or back.
    gaps = (seen.min(axis=1) == 0) | (np.ptp(seen, axis=1) > 1)
    if np.any(gaps):
        which = say(f"month.{int(np.argmax(gaps)) + 1}")
        raise WorksheetError(f"hours: the record has gaps in {which}; every hour of the day is wanted equally often")
    return np.bincount(month, on_it) / np.bincount(month) * 24 / 1000


def _columns(hours: "pd.DataFrame") -> dict[str, np.ndarray]:
    """Return the record's columns by name, all three or the global alone, or refuse them."""
    if getattr(hours.index, "tz", None) is None:
        raise WorksheetError("hours: the times have no time zone; the middle of each hour is wanted, with its zone")
    names = [name for name in ("ghi", "dhi", "dni") if name in hours]
    if names not in (["ghi"], ["ghi", "dhi", "dni"]):
        found = ", ".join(map(str, hours.columns)) or "none"
        raise WorksheetError(f"hours: the columns are {found}; ghi, dhi and dni are wanted, or ghi alone")
    columns = {name: hours[name].to_numpy(float) for name in names}
    for name, values in columns.items():
        outside = ~((values >= 0) & (values <= _TOO_MUCH_W_M2))
        if np.any(outside):
            first = int(np.argmax(outside))
            raise WorksheetError(
                f"hours, {hours.index[first]}: {name} is {values[first]:g} W/m²; allowed is 0 to {_TOO_MUCH_W_M2:g}"
            )
    return columns


def by_month(name: str, value: float | Sequence[float] | np.ndarray) -> np.ndarray:
    """Return twelve values of a quantity from one or twelve, or refuse them in its own words."""
    _refuse_outside(name, value)
    if np.shape(value) not in ((), (12,)):
        raise WorksheetError(f"{quantity(name).label}: one value or twelve are needed, not {np.size(value)}")
    return np.broadcast_to(np.asarray(value, float), 12)


def _refuse_outside(name: str, value: Any) -> None:
    """Refuse a value, or any of many, that the quantity does not allow."""
    span, values = quantity(name), np.asarray(value, float)
    outside = ~((values >= span.low) & (values <= span.high))
    if np.any(outside):
        raise WorksheetError(
            f"{span.label}: {show(name, float(values[outside].flat[0]))} is not between "
            f"{show(name, span.low)} and {show(name, span.high)}"
        )
