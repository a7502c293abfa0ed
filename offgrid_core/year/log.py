"""The meters on the wall, written down hour by hour for a stretch of days: of a sound system, or of one with a fault.

A classroom approximation: the energies are the year's own, the battery voltage is a simple rule of charge and current,
and the noise of the meters is invented (see :mod:`offgrid_core.sizing.log`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.balance import FEEDS, stepper
from offgrid_core.sizing.log import (
    FED,
    LOG_FEEDS,
    LOGGED,
    LOGGED_WITH_GENERATOR,
    READ,
    READ_WITH_GENERATOR,
    STEADY,
    WIDTHS,
    log_stepper,
)
from offgrid_core.worksheet import Solved, Stepper
from offgrid_core.year.hours import Hours
from offgrid_core.year.simulate import FED as FED_BY
from offgrid_core.year.simulate import full_bank
from offgrid_core.year.weather import HOURS

DAYS = 14
_FEWEST, _MOST = 10, 365
#: Width of the noise of the battery's thermometer, K, one standard deviation: a classroom value, no source.
SENSOR_WIDTH_K = 0.3
#: A switch is read without noise; this is how far it may seem off when a log is explained.
SWITCH_WIDTH = 0.2
#: Reading = the noise in it, and the line that says how wide that is.
METERS = {
    "sun_read_kw_m2": ("sun_noise_kw_m2", "sun_width_kw_m2"),
    "array_read_a": ("array_noise_a", "charge_width_a"),
    "battery_read_v": ("voltage_noise_v", "voltage_width_v"),
    "load_read_a": ("load_noise_a", "load_width_a"),
    "battery_read_a": ("battery_noise_a", "charge_width_a"),
    "battery_read_c": ("sensor_noise_k", "sensor_width_k"),
}
#: Switches on the wall: 1 for loads connected, 1 for generator running.
SWITCHES = ("connected_frac", "running_frac")
#: What every input that a fault changes is in a sound system.
SOUND = {
    "dirt_per_h": 0.0,
    "dry_h": 0.0,
    "open_count": 0.0,
    "shaded_frac": 0.0,
    "unlisted_frac": 0.0,
    "sleepless_frac": 0.0,
    "frozen_frac": 0.0,
    "frozen_below_k": 0.0,
    "stuck_frac": 0.0,
    "stuck_c": 25.0,
    "typed_low_frac": 0.0,
    "weak_frac": 0.0,
    "lug_drop_frac": 0.0,
    "array_meter_factor": 1.0,
    "load_meter_factor": 1.0,
    "battery_meter_factor": 1.0,
}
#: Input of an hour = the series of a sound system that it is taken from.
_SERIES = {
    "clean_yield_h": FED_BY["yield_h"],
    "listed_wanted_wh": FED_BY["wanted_wh"],
    "warm_now_c": "battery_by_hour_c",
    "plane_now_kw_m2": "plane_by_hour_kw_m2",
}
_QUIET = {noise: 0.0 for noise, _ in METERS.values()}
_SHEETS = (STEADY, WIDTHS, FED, LOGGED_WITH_GENERATOR, READ_WITH_GENERATOR)
#: What the worksheets of a log take from the design: all of a design's givens, handed on each time, take half the time.
_TAKEN = {n for sheet in _SHEETS for n in sheet.inputs} - {n for sheet in _SHEETS for n in sheet}
#: What decides, beside those, whether a system can have a fault.
_TAKEN |= {"air_coldest_c"}


@dataclass(frozen=True, eq=False)
class Stretch:
    """Some days of one year of a sound system, ready to have something go wrong.

    Attributes
    ----------
    hours
        What every hour of the years is given.
    year
        Which year, from 0.
    first_hour, length
        Hour of the year at which the log begins, from 0; and hours in it.
    begun
        What every hour of that year begins with in the sound system: arrays of 8760.
    """

    hours: Hours
    year: int
    first_hour: int
    length: int
    begun: Mapping[str, np.ndarray]

    @property
    def rows(self) -> np.ndarray:
        """Rows of the log, from 0; row 0 is the hour from midnight."""
        return np.arange(self.length)

    @property
    def has_generator(self) -> bool:
        """Whether there is a generator."""
        return "running_frac" in self.hours.sheet

    @property
    def columns(self) -> tuple[str, ...]:
        """Names of the columns of a log, in the order shown."""
        return tuple(METERS) + (SWITCHES if self.has_generator else SWITCHES[:1])

    @cached_property
    def given(self) -> dict[str, Any]:
        """What stays the same in a sound system, as far as a log needs it."""
        return {n: x for n, x in self.hours.given.items() if n in _TAKEN} | SOUND

    @cached_property
    def widths(self) -> dict[str, float]:
        """Width of the noise of every column, one standard deviation, in the unit of the column."""
        solved = {**WIDTHS.solve(self.given), "sensor_width_k": SENSOR_WIDTH_K}
        widths = {name: float(solved[width]) for name, (_, width) in METERS.items()}
        return {name: widths.get(name, SWITCH_WIDTH) for name in self.columns}


@dataclass(frozen=True, eq=False)
class Wrong:
    """What is wrong with a system in a stretch of days.

    Attributes
    ----------
    values
        Inputs that are not as in a sound system, by name: one value, or one an hour.
    clock_h
        Hours by which the clock of the log is fast; negative if it is slow.
    """

    values: Mapping[str, Any] = field(default_factory=dict)
    clock_h: int = 0


@dataclass(frozen=True, eq=False)
class Log:
    """What stands on the wall, one row an hour.

    Attributes
    ----------
    stretch
        The days, and the system as it should be.
    readings
        Column = values, in the unit of its name; with noise.
    solved
        Every line of the hours behind the readings: what nobody at the wall sees.
    """

    stretch: Stretch
    readings: Mapping[str, np.ndarray]
    solved: Solved


def stretch_of(hours: Hours, first_day: int, days: int = DAYS, year: int = 0) -> Stretch:
    """Return a stretch of days of a sound system.

    Parameters
    ----------
    hours
        A design in its weather: see :func:`offgrid_core.year.hours.hours_of`.
    first_day
        Day of the year, 1 to 365. A stretch that reaches over New Year goes on with January of the same year.
    days
        How many, 10 to 365.
    year
        Which of the years, from 0.

    Raises
    ------
    OffgridError
        If the year, the day or the number of days is out of range.
    """
    for label, value, low, high in (
        ("year of the log", year, 0, hours.years - 1),
        ("first day of the log", first_day, 1, 365),
        ("days of the log", days, _FEWEST, _MOST),
    ):
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise OffgridError(f"{label}: {value!r} is not a whole number from {low} to {high}")
    feeds = {n: np.roll(hours.by_hour[FED_BY[n]][year], -hours.first_hour) for n in FEEDS}
    path, _ = stepper(hours.sheet).path(hours.given, feeds, full_bank(hours.given))
    begun = {n: np.roll(x, hours.first_hour) for n, x in path.items()}
    return Stretch(hours, year, range(0, HOURS, 24)[first_day - 1], days * 24, begun)


def log_of(stretch: Stretch, seed: int | None = None, wrong: Wrong | None = None) -> Log:
    """Return the log of a stretch of days.

    Parameters
    ----------
    stretch
        The days, and the system as it should be. What is wrong is wrong from the first row on; the log begins with
        the charge that the sound system had.
    seed
        Of the noise, a whole number of 0 or more; without one the meters read without noise.
    wrong
        What is wrong; without it the system is sound.

    Raises
    ------
    OffgridError
        If a value leaves the range of a table.
    """
    wrong = wrong or Wrong()
    hours = stretch.hours
    rows = (stretch.first_hour - wrong.clock_h + stretch.rows) % HOURS
    series = {n: hours.by_hour[source][stretch.year][rows] for n, source in _SERIES.items()}
    start = {n: float(x[rows[0]]) for n, x in stretch.begun.items()}
    given = stretch.given | dict(wrong.values)
    steady = STEADY.solve(given | start)
    given |= {n: steady[n] for n in STEADY} | {"bank_wh": steady["left_bank_wh"]} | series
    fed = FED.solve(given)
    given |= {n: np.broadcast_to(fed[n], stretch.length) for n in FED}
    walk = _walk(stretch.has_generator)
    path, _ = walk.path(given, {n: given[n] for n in LOG_FEEDS}, {**start, "store_wh": float(steady["begun_wh"])})
    read = READ_WITH_GENERATOR if stretch.has_generator else READ
    solved = read.solve({**walk.sheet.solve(given | path), **_noise(stretch, seed)})
    lines = {n: "fed_frac" if n == "connected_frac" and stretch.has_generator else n for n in stretch.columns}
    readings = {n: np.broadcast_to(np.asarray(solved[x], float), stretch.length) for n, x in lines.items()}
    return Log(stretch, readings, solved)


@lru_cache(2)
def _walk(generator: bool) -> Stepper:
    return log_stepper(LOGGED_WITH_GENERATOR if generator else LOGGED)


def _noise(stretch: Stretch, seed: int | None) -> dict[str, Any]:
    """Return the noise of every meter; each has its own dice, so that no meter's noise hangs on another's."""
    if seed is None:
        return dict(_QUIET)
    widths = stretch.widths
    return {
        noise: np.random.default_rng([seed, place]).normal(0.0, widths[name], stretch.length)
        for place, (name, (noise, _)) in enumerate(METERS.items())
    }
