"""How clear each day of a year is: the published chains of daily clearness, drawn without forcing a month to its mean.

R. Aguiar, M. Collares-Pereira and J. P. Conde, Simple procedure for generating sequences of daily radiation values
using a library of Markov transition matrices, *Solar Energy* 40 (1988) 269–279. The clearness of a day (sun on the
flat ÷ sun above the air) lies in one of ten classes; the class of tomorrow depends on that of today by one of ten
published tables, chosen by the clearness of the month. Inside its class a day is drawn evenly.

The classes of a month are moved up or down together until the mean **expected** of the month is the one given. Single
months stay free: a real March is seldom the mean March, and sequences whose months are all the mean make a system look
too reliable. These are functions, not lines: their result enters a simulation as a given.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from offgrid_core.data.clearness import clearness_chains
from offgrid_core.errors import WorksheetError
from offgrid_core.quantities import say
from offgrid_core.sizing.hourly_sun import DAYS, MONTH_OF_DAY, made_to_mean
from offgrid_core.sizing.sun import extraterrestrial_kwh_m2, flat_and_diffuse_kwh_m2

#: Months that can be drawn: duller ones are nowhere, clearer ones pass what a clear day has in hour after hour.
LEAST_MONTH, MOST_MONTH = 0.05, 0.78
#: The dullest day of the published tables; no class is moved below it.
DULLEST_DAY = 0.01
#: Halvings of a span of two in which the move of the classes is sought: to 1e-15.
_HALVINGS = 51


@dataclass(frozen=True, eq=False)
class Chain:
    """One published table.

    Attributes
    ----------
    month_to
        It is for months up to this clearness, from that of the table before.
    edges
        Of the ten classes, 11 values.
    step
        Row: class of today, column: class of tomorrow. The published chances, rounded to three digits, are made to
        sum to 1 in each row.
    """

    month_to: float
    edges: np.ndarray
    step: np.ndarray

    @property
    def stationary(self) -> np.ndarray:
        """The share of days in each class in the long run."""
        values, vectors = np.linalg.eig(self.step.T)
        share = np.real(vectors[:, np.argmin(np.abs(values - 1))])
        return np.asarray(share / np.sum(share))

    @property
    def mean(self) -> float:
        """Long-run mean clearness."""
        return float(self.stationary @ self._middles)

    @property
    def spread(self) -> float:
        """Long-run standard deviation of daily clearness; a day is anywhere in its class."""
        return float(np.sqrt(self.stationary @ (self._middles - self.mean) ** 2 + self._width**2 / 12))

    @property
    def lag_1(self) -> float:
        """Correlation of the clearness of successive days."""
        off = self._middles - self.mean
        return float((self.stationary * off) @ self.step @ off / self.spread**2)

    @property
    def _middles(self) -> np.ndarray:
        return np.asarray((self.edges[1:] + self.edges[:-1]) / 2)

    @property
    def _width(self) -> float:
        return float(self.edges[1] - self.edges[0])


@lru_cache(maxsize=1)
def chains() -> tuple[Chain, ...]:
    """Return the ten published tables, that for the dullest months first."""
    made = []
    for rows in clearness_chains():
        step = np.array([row.tomorrow for row in rows])
        edges = np.linspace(rows[0].day_lowest_ratio, rows[0].day_highest_ratio, len(rows) + 1)
        made.append(Chain(rows[0].month_to_ratio, edges, step / np.sum(step, axis=1, keepdims=True)))
    return tuple(made)


def chain_for(month_clearness: float) -> Chain:
    """Return the table for a month of a clearness, 0 to 1."""
    return next(chain for chain in chains() if month_clearness <= chain.month_to)


def monthly_clearness(flat_by_month: Sequence[float], latitude_deg: float) -> np.ndarray:
    """Return the clearness of twelve months from their means on the flat.

    Parameters
    ----------
    flat_by_month
        Twelve monthly means of daily irradiation on the flat, kWh/m² a day, January first.
    latitude_deg
        Degrees, north positive; −66 to 66.

    Returns
    -------
    numpy.ndarray
        Twelve ratios: sun of the whole month ÷ that above the air.

    Raises
    ------
    WorksheetError
        If there are not twelve values or one is outside what can be drawn, :data:`LEAST_MONTH` to :data:`MOST_MONTH`.
    """
    flat, _ = flat_and_diffuse_kwh_m2(flat_by_month, latitude_deg)
    above = np.bincount(MONTH_OF_DAY, extraterrestrial_kwh_m2(latitude_deg, DAYS)) / np.bincount(MONTH_OF_DAY)
    clearness = flat / above
    outside = ~((clearness >= LEAST_MONTH) & (clearness <= MOST_MONTH))
    if np.any(outside):
        month = int(np.argmax(outside))
        raise WorksheetError(
            f"sun by month: {flat[month]:.2f} kWh/m² in {say(f'month.{month + 1}')} is {clearness[month]:.2f} of what "
            f"arrives above the air; days can be drawn from {LEAST_MONTH:g} to {MOST_MONTH:g} of it, "
            f"{LEAST_MONTH * above[month]:.2f} to {MOST_MONTH * above[month]:.2f} kWh/m²"
        )
    return np.asarray(clearness)


# ---- a year of days


@dataclass(frozen=True, eq=False)
class YearOfDays:
    """The chances of every day of the year at a place.

    Attributes
    ----------
    wanted
        Clearness of the twelve months.
    step
        Tables of the months, 12 × 10 × 10. The class is carried on over the end of a month: the first day of a month
        goes by its own month's table from the last day of the month before.
    edges
        Of the classes of the months, moved, 12 × 11.
    shares
        Chance of each class on each day, 365 × 10, in a year that follows on another like it.
    limit
        The clearest each day can be, 365.
    above
        Sun above the air of each day, kWh/m², 365.
    """

    wanted: np.ndarray
    step: np.ndarray
    edges: np.ndarray
    shares: np.ndarray
    limit: np.ndarray
    above: np.ndarray

    def expected_by_month(self) -> np.ndarray:
        """Return the expected clearness of the twelve months, each day counted with its sun above the air."""
        return _expected(self.shares, self.edges, self.limit, self.above)


def year_of_days(flat_by_month: Sequence[float], latitude_deg: float, limit: np.ndarray) -> YearOfDays:
    """Return the chances of every day; parameters and errors are those of :func:`monthly_clearness`.

    ``limit`` is the clearest each of the 365 days can be. A class that is moved beyond it, or below the dullest day,
    is cut off there; the cut is counted when the classes are moved.
    """
    wanted = monthly_clearness(flat_by_month, latitude_deg)
    tables = [chain_for(month) for month in wanted]
    step, edges = np.stack([table.step for table in tables]), np.stack([table.edges for table in tables])
    shares = _shares(step)
    above = extraterrestrial_kwh_m2(latitude_deg, DAYS)
    low, high = np.full(12, -1.0), np.full(12, 1.0)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        too_low = _expected(shares, edges + middle[:, None], limit, above) < wanted
        low, high = np.where(too_low, middle, low), np.where(too_low, high, middle)
    return YearOfDays(wanted, step, edges + high[:, None], shares, limit, above)


def _shares(step: np.ndarray) -> np.ndarray:
    """Return the chance of each class on each day; a year is ages enough for it to forget how it began."""
    share, by_day = np.full(step.shape[1], 1 / step.shape[1]), np.empty((len(DAYS), step.shape[1]))
    for _ in range(2):
        for day, month in enumerate(MONTH_OF_DAY):
            by_day[day] = share = share @ step[month]
    return by_day


def _expected(shares: np.ndarray, edges: np.ndarray, limit: np.ndarray, above: np.ndarray) -> np.ndarray:
    reached = _cut_integral(edges[MONTH_OF_DAY], limit[:, None])
    mean_of_class = np.diff(reached, axis=1) / np.diff(edges[MONTH_OF_DAY], axis=1)
    by_day = np.sum(shares * mean_of_class, axis=1)
    return np.bincount(MONTH_OF_DAY, by_day * above) / np.bincount(MONTH_OF_DAY, above)


def _cut_integral(clearness: Any, limit: Any) -> Any:
    """Return the integral, up to a clearness, of the clearness cut off at the dullest day and at the limit."""
    inside = np.clip(clearness, DULLEST_DAY, limit) - DULLEST_DAY
    return DULLEST_DAY * clearness + inside**2 / 2 + (limit - DULLEST_DAY) * np.maximum(clearness - limit, 0)


def draw_days(year: YearOfDays, chances: np.ndarray) -> np.ndarray:
    """Return the clearness of every day of years that are drawn independently.

    Parameters
    ----------
    year
        The chances of the place.
    chances
        Uniform numbers from 0 to 1, shape (years, 365, 2): one for the class, one for the place inside it.

    Returns
    -------
    numpy.ndarray
        Shape (years, 365). The first day of each year is drawn by itself, as if any year may have gone before.
    """
    reached = np.cumsum(year.step, axis=2)
    classes = np.empty(chances.shape[:2], int)
    row = np.broadcast_to(np.cumsum(year.shares[0]), (len(chances), year.step.shape[1]))
    for day, month in enumerate(MONTH_OF_DAY):
        if day:
            row = reached[month][classes[:, day - 1]]
        # the last class is what is left, so that a sum of 0.9999… leaves no gap
        classes[:, day] = np.sum(row[:, :-1] <= chances[:, day, :1], axis=1)
    low, high = (year.edges[MONTH_OF_DAY, classes + more] for more in (0, 1))
    return np.asarray(np.clip(low + (high - low) * chances[:, :, 1], DULLEST_DAY, year.limit))


def forced_to_means(days: np.ndarray, year: YearOfDays) -> np.ndarray:
    """Return days, shape (years, 365), with every single month made the mean month; it makes systems look too good."""
    forced = np.empty_like(days)
    for month, mean in enumerate(year.wanted):
        own = month == MONTH_OF_DAY
        forced[:, own] = made_to_mean(days[:, own], year.limit[own], year.above[own], np.full(len(days), mean))
    return forced
