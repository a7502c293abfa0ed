"""A log with one fault in it, short enough for a page: what is wrong, which rows show it, what else might explain it.

The log begins with the charge of the sound system and goes on for three days, of which every second hour is written
down. A fault that begins or ends on some day does so on the second of the three.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cached_property, lru_cache

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.system import parse_plan, size
from offgrid_core.year.faults import Case, drawn, fault_named, why_not
from offgrid_core.year.hours import Hours, hours_of
from offgrid_core.year.log import Log, Stretch, log_of, stretch_of
from offgrid_core.year.outcome import drawn_weather
from offgrid_core.year.suspects import RIVAL_MOST, TELLING_WIDTHS, Suspect, explains, pair, unique_answer

#: Days on the page, and hours from one row to the next.
DAYS, EVERY_H = 3, 2
#: Rows on the page.
ROWS = DAYS * 24 // EVERY_H
#: A stretch of rows worth pointing at has at least so many.
LEAST_ROWS = 2
#: Of the weather.
_WEATHER_SEED = 3


@dataclass(frozen=True, eq=False)
class Page(Stretch):
    """The days on the page: a stretch that begins some days after the log did.

    Attributes
    ----------
    first_row
        Row of the whole log at which the page begins, from 0.
    """

    first_row: int = 0

    @property
    def rows(self) -> np.ndarray:
        """Rows of the whole log that stand on the page."""
        return np.arange(self.first_row, self.first_row + self.length)


@dataclass(frozen=True, eq=False)
class Failing:
    """A log with one fault, judged.

    Attributes
    ----------
    case
        The fault, its size and place.
    sound, log
        The log of the sound system and of the faulty one: the same days, the same noise.
    """

    case: Case
    sound: Log
    log: Log

    @cached_property
    def windows(self) -> dict[str, tuple[range, ...]]:
        """By column: the rows of the page, from 1, in which the two logs differ by more than three noise widths."""
        widths = self.log.stretch.widths
        return {n: _runs(self._apart(n) > TELLING_WIDTHS * widths[n]) for n in self.log.stretch.columns}

    @cached_property
    def suspects(self) -> Mapping[str, Suspect]:
        """How well each fault explains the three days hour by hour, the best first; ``""`` is no fault."""
        return explains(self.log)

    @cached_property
    def ranked(self) -> tuple[str, ...]:
        """Keys of the faults, the one that explains the log best first."""
        return tuple(key for key in self.suspects if key)

    def rival(self, key: str) -> str:
        """Return the fault that explains the log best, another one aside."""
        return next(k for k in self.ranked if k != key)

    def page(self) -> list[tuple[int, dict[str, float]]]:
        """Return what stands on the page: of each row its hour, from 0, and its readings as fine as the meters are."""
        widths = self.log.stretch.widths
        digits = {n: math.ceil(-math.log10(width)) for n, width in widths.items()}
        return [
            (hour, {n: round(float(self.log.readings[n][hour]), digits[n]) for n in widths})
            for hour in range(0, self.log.stretch.length, EVERY_H)
        ]

    def shown(self, log: Log) -> np.ndarray:
        """Return what stands on the page of a log, in widths of noise: one row a column."""
        widths = log.stretch.widths
        return np.array([log.readings[n][::EVERY_H] / widths[n] for n in log.stretch.columns])

    def is_plain(self) -> bool:
        """Whether the fault alone explains the log, also by the rows on the page, and two windows show it."""
        telling = [w for runs in self.windows.values() for w in runs if len(w) >= LEAST_ROWS]
        return len(telling) >= 2 and unique_answer(self.suspects) == self.case.fault.key and self._alone_on_page()

    def _alone_on_page(self) -> bool:
        """Whether every other explanation, fitted to all hours, is an unlikely one of the rows on the page too."""
        seen, stretch = self.shown(self.log), self.log.stretch
        misfit = {}
        for key, suspect in self.suspects.items():
            tried = log_of(stretch, wrong=suspect.case.wrong(stretch) if suspect.case else None)
            misfit[key] = float(np.sum((seen - self.shown(tried)) ** 2))
        own = misfit.pop(self.case.fault.key)
        return bool(np.exp((own - min(misfit.values())) / 2) <= RIVAL_MOST)

    def _apart(self, name: str) -> np.ndarray:
        return np.asarray(np.abs(self.log.readings[name] - self.sound.readings[name])[::EVERY_H])


@lru_cache(maxsize=8)
def sound_year(plan: str) -> Hours:
    """Return the hours of a year of the design made from the text of a plan.

    Raises
    ------
    OffgridError
        If the text is no plan, or the design leaves the range of a table.
    """
    design = size(parse_plan(plan))
    return hours_of(design, drawn_weather(design, 1, _WEATHER_SEED))


@lru_cache(maxsize=128)
def failing(plan: str, first_day: int, key: str, seed: int) -> Failing:
    """Return the log of a design in which one fault sits.

    Parameters
    ----------
    plan
        Text of the plan that the design is made from, once.
    first_day
        Day of the year at which the log begins, 1 to 365.
    key
        Of the fault; its size and place are drawn from the seed.
    seed
        Also of the meters' noise, a whole number of 0 or more.

    Raises
    ------
    OffgridError
        If there is no such fault, or the system cannot have it.
    """
    case = drawn(fault_named(key), seed)
    page = _page(plan, first_day, _first_row(case))
    if why_not(case.fault, page):
        raise OffgridError(f"fault {key}: {why_not(case.fault, page)}")
    return Failing(case, *pair(case, page, seed))


def _page(plan: str, first_day: int, first_row: int) -> Page:
    whole = stretch_of(sound_year(plan), first_day)
    kept = {f.name: getattr(whole, f.name) for f in fields(whole)}
    return Page(**kept | {"length": DAYS * 24}, first_row=first_row)


def _first_row(case: Case) -> int:
    """Return the row of the log at which the page begins: a day before what happens on one day."""
    return (case.place - 1) * 24 if case.fault.place_is.startswith("days") else 0


def _runs(telling: np.ndarray) -> tuple[range, ...]:
    """Return where a series of yes and no is yes, as ranges of places from 1."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], telling.astype(np.int8), [0])))) + 1
    return tuple(range(int(first), int(end)) for first, end in edges.reshape(-1, 2))
