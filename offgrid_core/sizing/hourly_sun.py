"""Sun of every hour of a year from the clearness of its days: the model of Aguiar & Collares-Pereira.

R. Aguiar and M. Collares-Pereira, TAG: a time-dependent, autoregressive, Gaussian model for generating synthetic hourly
radiation, *Solar Energy* 49 (1992) 167–174. The clearness of an hour (sun on the flat ÷ sun above the air) has a mean
that rises with the sun's height, a spread about it, and remembers the hour before. These are functions, not lines:
their result enters a simulation as a given.

Times are solar: noon is when the sun is highest. A year has 365 days. Between days there is no memory but that of
their clearness.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.sizing.sky import sun_position_deg
from offgrid_core.sizing.sun import declination_deg, extraterrestrial_kwh_m2, sunset_deg

#: Days of the months in a year of 365 days.
MONTH_DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
#: Days of the year, 1 to 365, and the month of each, 0 to 11.
DAYS = np.arange(1, 366)
MONTH_OF_DAY = np.repeat(np.arange(12), MONTH_DAYS)
#: The same for its 8760 hours.
MONTH_OF_HOUR = np.repeat(MONTH_OF_DAY, 24)
_HOURS = np.arange(24)
#: Farther out than this a normal deviate has no probability left in floating point.
_FARTHEST_CHANCE = 1e-300


# ---- the model's parts, by the clearness K of the day and the sine of the sun's height


def mean_parts(clearness: Any) -> tuple[Any, Any, Any]:
    """Return λ, ε and κ of the mean clearness of an hour, λ + ε exp(−κ ÷ sin h)."""
    k = np.asarray(clearness)
    return (
        -0.19 + 1.12 * k + 0.24 * np.exp(-8 * k),
        0.32 - 1.6 * (k - 0.5) ** 2,
        0.19 + 2.27 * k**2 - 2.51 * k**3,
    )


def mean_of_hour(clearness: Any, sin_height: Any) -> Any:
    """Return the mean clearness of an hour."""
    level, rise, fading = mean_parts(clearness)
    return level + rise * np.exp(-fading / sin_height)


def spread_parts(clearness: Any) -> tuple[Any, Any]:
    """Return A and B of the spread of an hour's clearness, A exp(B (1 − sin h))."""
    k = np.asarray(clearness)
    return 0.14 * np.exp(-20 * (k - 0.35) ** 2), 3 * (k - 0.45) ** 2 + 16 * k**5


def spread_of_hour(clearness: Any, sin_height: Any) -> Any:
    """Return the standard deviation of an hour's clearness about its mean."""
    at_zenith, growth = spread_parts(clearness)
    return at_zenith * np.exp(growth * (1 - np.asarray(sin_height)))


def memory_of_hour(clearness: Any) -> Any:
    """Return the correlation φ of an hour's deviation, in spreads, with that of the hour before."""
    return 0.38 + 0.06 * np.cos(7.4 * np.asarray(clearness) - 2.5)


def clear_limit(solar_hour: Any) -> Any:
    """Return the clearest an hour can be, by the middle of the hour (noon is 12)."""
    return 0.88 * np.cos(np.pi * (np.asarray(solar_hour) - 12) / 30)


# ---- where the sun stands


@dataclass(frozen=True, eq=False)
class SunHours:
    """The sun of every hour of the year at one latitude; arrays of 365 × 24, the same every year.

    Attributes
    ----------
    above_w_m2
        Mean sun of the hour above the air, on the flat, W/m². Their sum over a day is that of
        :func:`offgrid_core.sizing.sun.extraterrestrial_kwh_m2`.
    zenith_deg, azimuth_deg
        Sun's position in the middle of the sunlit part of the hour.
    limit
        The clearest the hour can be, :func:`clear_limit`.
    """

    above_w_m2: np.ndarray
    zenith_deg: np.ndarray
    azimuth_deg: np.ndarray
    limit: np.ndarray

    @property
    def day_limit(self) -> np.ndarray:
        """The clearest each of the 365 days can be: all its hours at their limit."""
        return np.asarray(np.sum(self.limit * self.above_w_m2, axis=1) / np.sum(self.above_w_m2, axis=1))


def sun_hours(latitude_deg: float) -> SunHours:
    """Return the sun of every hour of the year.

    Parameters
    ----------
    latitude_deg
        Degrees, north positive; −66 to 66, where the sun rises and sets every day.
    """
    declination = declination_deg(DAYS)[:, None]
    sunset = sunset_deg(latitude_deg, declination)
    begin, end = (np.clip(15 * (_HOURS + more) - 180, -sunset, sunset) for more in (0, 1))
    latitude, tipped = np.radians(latitude_deg), np.radians(declination)
    # the sine of the sun's height, integrated over the sunlit part of the hour
    height = np.sin(latitude) * np.sin(tipped) * np.radians(end - begin)
    height = height + np.cos(latitude) * np.cos(tipped) * (np.sin(np.radians(end)) - np.sin(np.radians(begin)))
    share = np.maximum(height, 0) / np.sum(height, axis=1, keepdims=True)
    zenith, azimuth = sun_position_deg(latitude_deg, declination, (begin + end) / 2)
    limit = np.broadcast_to(clear_limit(_HOURS + 0.5), share.shape)
    return SunHours(1000 * extraterrestrial_kwh_m2(latitude_deg, DAYS)[:, None] * share, zenith, azimuth, limit)


# ---- drawing the hours of days


def made_to_mean(values: Any, limit: Any, weights: Any, mean: Any) -> np.ndarray:
    """Return values changed alike so that their weighted mean along the last axis is the one wanted.

    Where they are too high each is scaled down; where too low, what each lacks to its limit is scaled down. So none
    turns negative or passes its limit.

    Parameters
    ----------
    values, limit
        Shape (..., n), 0 ≤ value ≤ limit.
    weights
        Shape (..., n), none negative.
    mean
        Shape (...), from 0 to the weighted mean of the limits.
    """
    share = weights / np.sum(weights, axis=-1, keepdims=True)
    wanted = np.asarray(mean)[..., None]
    have, most = (np.sum(x * share, axis=-1, keepdims=True) for x in (values, limit))
    lower = values * (wanted / np.maximum(have, np.maximum(wanted, 1e-300)))
    higher = limit - (limit - values) * np.clip((most - wanted) / np.maximum(most - have, 1e-300), 0, 1)
    return np.asarray(np.where(have > wanted, lower, higher))


def hours_of_days(clearness: np.ndarray, sun: SunHours, chances: np.ndarray) -> np.ndarray:
    """Return the clearness of every hour of days, whose sun adds up to that of the day.

    Each hour is the model's mean and a deviation that remembers the hour before. A deviation that would take the hour
    below 0 or above its clear limit is not drawn: the normal distribution is cut off there, which has the same result
    as drawing again until it fits. Last, the hours of each day are made to give the day's clearness exactly
    (:func:`made_to_mean`).

    Parameters
    ----------
    clearness
        Of the days, shape (years, 365), 0 to :attr:`SunHours.day_limit`.
    sun
        Of the place.
    chances
        Uniform numbers from 0 to 1, shape (years, 365, 24).

    Returns
    -------
    numpy.ndarray
        Shape (years, 365, 24); 0 by night.
    """
    lit = sun.above_w_m2 > 0
    sin_height = np.maximum(np.cos(np.radians(sun.zenith_deg)), 1e-6)
    memory = memory_of_hour(clearness)
    hours, deviation, before = np.zeros(chances.shape), np.zeros(clearness.shape), np.zeros(len(DAYS), bool)
    for hour in np.flatnonzero(lit.any(axis=0)):
        mean = mean_of_hour(clearness, sin_height[:, hour])
        spread = spread_of_hour(clearness, sin_height[:, hour])
        # the first hour of a day has nothing to remember
        kept = np.where(before, memory, 0)
        carried, own = kept * deviation, np.sqrt(1 - kept**2)
        low, high = ((edge - mean) / spread for edge in (0.0, sun.limit[:, hour]))
        deviation = carried + own * normal_between((low - carried) / own, (high - carried) / own, chances[:, :, hour])
        hours[:, :, hour] = np.where(lit[:, hour], np.clip(mean + spread * deviation, 0, sun.limit[:, hour]), 0)
        before = lit[:, hour]
    return made_to_mean(hours, np.where(lit, sun.limit, 0), sun.above_w_m2, clearness)


def normal_between(low: Any, high: Any, chance: Any) -> np.ndarray:
    """Return the normal deviate of a chance (0 to 1) when only deviates from low to high may occur."""
    from scipy.special import ndtr, ndtri

    # worked in the lower tail, where floating point still tells small chances apart
    turned = low > 0
    below, above = np.where(turned, -high, low), np.where(turned, -low, high)
    part = np.where(turned, 1 - chance, chance)
    cut = ndtr(below)
    drawn = np.clip(ndtri(np.maximum(cut + part * (ndtr(above) - cut), _FARTHEST_CHANCE)), below, above)
    return np.asarray(np.where(turned, -drawn, drawn))


def month_means_kwh_m2(hours_w_m2: np.ndarray) -> np.ndarray:
    """Return monthly means, kWh/m² a day, shape (years, 12), from hours in W/m², shape (years, 8760)."""
    starts = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]]) * 24
    return np.asarray(np.add.reduceat(hours_w_m2, starts, axis=-1) / MONTH_DAYS / 1000)
