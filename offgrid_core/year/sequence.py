"""Many years of weather from twelve monthly means: days by the published chains, hours by the published model.

The years are independent draws of the same climate. Each depends on the seed and its own number only: year 7 is the
same whether ten years are made or a hundred.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.sizing.clearness import chains, draw_days, forced_to_means, monthly_clearness, year_of_days
from offgrid_core.sizing.hourly_air import air_of_hours_c
from offgrid_core.sizing.hourly_sun import DAYS, MONTH_OF_HOUR, SunHours, hours_of_days, sun_hours
from offgrid_core.sizing.sky import beam_and_diffuse_w_m2, by_month, mean_days, on_plane, plane_kwh_m2
from offgrid_core.sizing.sun import TRUSTED_LATITUDE_DEG
from offgrid_core.year.weather import HOURS, Weather

#: More years than this fill the memory of a small computer.
MOST_YEARS = 1000
MOST_SWING_K = 30.0
_DAY_CHANCES = 2 * len(DAYS)

#: What the method cannot do, with what was measured beside long daily records.
LIMITS = (
    "Spells of dull or clear days are drawn with the memory of temperate coasts (correlation of 0.2 to 0.4 from day to "
    "day); in monsoon and dry-season climates 0.5 to 0.6 was measured, so there long dull spells come too seldom and "
    "a system looks more reliable than it is.",
    "In clear, dry months the means of single years differ by 2 to 5 %, less than the 7 to 14 % that was measured.",
    "The years are drawn one by one: a spell over New Year breaks off there, and no year is dull because the last was.",
    "The split into beam and diffuse sun is a mean one (Erbs 1982) and the sky is taken as equally bright all over: on "
    "a tilted array that is 0 to 10 % too little over a year, and 4 to 8 % too little in winter at 36° of latitude.",
    "The air follows its monthly means with the same swing every day: it knows neither cold spells nor the sun.",
)
_MIDWINTER = (
    f"Beyond {TRUSTED_LATITUDE_DEG:g}° of latitude the sun of midwinter on a tilted array comes out too low in years "
    "drawn hour by hour, at 55° by up to a quarter beside a real year; where the sun stays below 3° no beam is counted "
    "at all. The design sheet works from the mean day of each month and errs the other way."
)
_DULL = (
    "Months with 0.3 or less of the sun above the air all go by one published table, made from few stations, and are "
    "the least certain."
)
_FORCED = (
    "Every single month is forced to its mean: failures come out 1.2 to 16 times too rare. Use it only to show that."
)


def generated(
    flat_by_month_kwh_m2: Sequence[float],
    air_by_month_c: float | Sequence[float],
    latitude_deg: float,
    tilt_deg: float,
    azimuth_deg: float,
    ground: float | Sequence[float],
    years: int,
    seed: int,
    *,
    air_swing_k: float = 8.0,
    forced: bool = False,
) -> Weather:
    """Return years of hours drawn from monthly means.

    Parameters
    ----------
    flat_by_month_kwh_m2
        Twelve monthly means of daily irradiation on the flat, kWh/m² a day, January first; 0.05 to 0.78 of what
        arrives above the air.
    air_by_month_c
        Twelve monthly means of the air, °C, or one value.
    latitude_deg
        Degrees, north positive; −66 to 66.
    tilt_deg, azimuth_deg, ground
        As in :func:`offgrid_core.sizing.sky.plane_kwh_m2`, one plane.
    years
        How many, 1 to 1000.
    seed
        A whole number, 0 or more; the same seed makes the same years.
    air_swing_k
        From the coldest to the warmest hour of a day, K, 0 to 30.
    forced
        Make every single month the mean month: only to show how rosy that is.

    Returns
    -------
    Weather
        In solar time. The mean of many years is the means given; that of a single month differs, as real months do.

    Raises
    ------
    WorksheetError
        If a value is out of range.

    Notes
    -----
    Days: Aguiar, Collares-Pereira & Conde (1988), :mod:`offgrid_core.sizing.clearness`. Hours: Aguiar &
    Collares-Pereira (1992), :mod:`offgrid_core.sizing.hourly_sun`.
    """
    # the same method by months refuses what is out of range, before anything is drawn
    plane_kwh_m2(flat_by_month_kwh_m2, latitude_deg, tilt_deg, azimuth_deg, ground)
    if not 0 <= air_swing_k <= MOST_SWING_K:
        raise WorksheetError(f"daily swing of the air: {air_swing_k:g} K is not between 0 K and {MOST_SWING_K:g} K")
    air = air_of_hours_c(air_by_month_c, air_swing_k)
    chances = _chances(seed, years, _DAY_CHANCES + HOURS)
    sun = sun_hours(latitude_deg)
    days = _days(flat_by_month_kwh_m2, latitude_deg, sun, chances, forced)
    of_hours = chances[:, _DAY_CHANCES:].reshape(years, len(DAYS), 24)
    flat = (hours_of_days(days, sun, of_hours) * sun.above_w_m2).reshape(years, HOURS)
    return Weather(
        name=f"{years} drawn {'year' if years == 1 else 'years'}, seed {seed}",
        source=(
            "Drawn from monthly means: days by the chains of Aguiar, Collares-Pereira & Conde (1988), hours by the "
            "model of Aguiar & Collares-Pereira (1992)."
        ),
        limits=_limits(flat_by_month_kwh_m2, latitude_deg, forced),
        plane_w_m2=_on_plane(flat, sun, tilt_deg, azimuth_deg, by_month("ground_by_month_frac", ground)),
        air_c=np.broadcast_to(air, flat.shape),
        flat_w_m2=flat,
    )


def daily_clearness(
    flat_by_month_kwh_m2: Sequence[float], latitude_deg: float, years: int, seed: int, *, forced: bool = False
) -> np.ndarray:
    """Return the clearness of the days of :func:`generated` alone, shape (years, 365): the very same days."""
    mean_days(flat_by_month_kwh_m2, latitude_deg)  # refuses what is out of range
    chances = _chances(seed, years, _DAY_CHANCES)
    return _days(flat_by_month_kwh_m2, latitude_deg, sun_hours(latitude_deg), chances, forced)


def _chances(seed: int, years: int, count: int) -> np.ndarray:
    """Return uniform numbers, one row a year; a row depends on the seed and the year's number only."""
    for label, value, low, high in (("seed", seed, 0, 2**63 - 1), ("years", years, 1, MOST_YEARS)):
        if isinstance(value, bool) or not isinstance(value, int | np.integer) or not low <= value <= high:
            raise WorksheetError(f"{label}: {value} is not a whole number from {low} to {high}")
    return np.stack([np.random.default_rng([seed, year]).random(count) for year in range(years)])


def _days(flat: Sequence[float], latitude: float, sun: SunHours, chances: np.ndarray, forced: bool) -> np.ndarray:
    year = year_of_days(flat, latitude, sun.day_limit)
    days = draw_days(year, chances[:, :_DAY_CHANCES].reshape(len(chances), len(DAYS), 2))
    return forced_to_means(days, year) if forced else days


def _on_plane(flat: np.ndarray, sun: SunHours, tilt: float, azimuth: float, ground: np.ndarray) -> np.ndarray:
    lit = sun.above_w_m2.ravel() > 0

    def of_lit(by_hour: Any) -> np.ndarray:
        return np.asarray(by_hour).reshape(-1, HOURS)[:, lit]

    zenith, day = of_lit(sun.zenith_deg)[0], of_lit(np.repeat(DAYS, 24))[0]
    beam, diffuse = beam_and_diffuse_w_m2(of_lit(flat), zenith, day)
    place = zenith, of_lit(sun.azimuth_deg)[0]
    plane = np.zeros_like(flat)
    plane[:, lit] = on_plane(place, beam, of_lit(flat), diffuse, tilt, azimuth, ground[MONTH_OF_HOUR[lit]])
    return plane


def _limits(flat: Sequence[float], latitude: float, forced: bool) -> tuple[str, ...]:
    dull = bool(np.any(monthly_clearness(flat, latitude) <= chains()[0].month_to))
    more = [(_MIDWINTER, abs(latitude) > TRUSTED_LATITUDE_DEG), (_DULL, dull), (_FORCED, forced)]
    return (*LIMITS, *(sentence for sentence, holds in more if holds))
