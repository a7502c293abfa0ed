"""What the autonomy panel shows, worked out: the dark spells of drawn years, and how often one outlasts the bank.

Pure functions of a design, its record of sun and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.sizing.autonomy_teaching import DAYS_OF_LOAD, LONGER
from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.dark_spells import dark_spells_days
from offgrid_core.sizing.hourly_sun import MONTH_OF_DAY
from offgrid_core.system.design import Design
from offgrid_core.system.explore import span_of
from offgrid_core.worksheet import Sheet, Solved
from offgrid_core.year.outcome import drawn_weather

#: Years drawn: so many that each is one in a hundred.
YEARS = 100
#: The opening days of the lesson: from 1 November, in the first drawn year.
OPENING_DAYS = 60
_FIRST_OF_NOVEMBER = int(np.argmax(MONTH_OF_DAY == 10))
_STORE = Sheet(BANK["spell_wh"], BANK["bank_warm_wh"])


@dataclass(frozen=True, eq=False)
class SunRecord:
    """Drawn years of sun on a design's array, day by day.

    Attributes
    ----------
    given
        Inputs of the worksheet of days of load. Each year begins on the first of the sunniest month, when a bank is
        full if it ever is, and goes on over New Year into the first months of the same drawn year.
    first_day
        Day of the year, from 0, on which they begin.
    limits
        Sentences: what the method of drawing cannot do.
    """

    given: Mapping[str, Any]
    first_day: int
    limits: tuple[str, ...]

    @property
    def years(self) -> int:
        """How many years there are."""
        return len(self.given["plane_by_row_kwh_m2"])

    def days_of_load(self, array_load_ratio: float) -> Solved:
        """Return the sun of every day in days of load, and what it falls short, for an array of that ratio."""
        return DAYS_OF_LOAD.solve({**self.given, "array_load_ratio": array_load_ratio})


def sun_record(design: Design, years: int = YEARS, seed: int = 1) -> SunRecord:
    """Draw years of sun from the monthly means of a design's site, on its array.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range.
    """
    weather = drawn_weather(design, years, seed)
    by_month = weather.monthly_plane_kwh_m2.mean(axis=0)
    first = int(np.argmax(int(np.argmax(by_month)) == MONTH_OF_DAY))
    by_day = weather.plane_w_m2.reshape(weather.years, len(MONTH_OF_DAY), -1).sum(axis=-1) / 1000
    shade = np.broadcast_to(design.given["shade_by_month_frac"], 12)
    given = {
        "plane_by_month_kwh_m2": by_month,
        "shade_by_month_frac": shade,
        "full_sun_kw_m2": design.given["full_sun_kw_m2"],
        "plane_by_row_kwh_m2": np.roll(by_day, -first, axis=1),
        "shade_by_row_frac": np.roll(shade[MONTH_OF_DAY], -first),
    }
    return SunRecord(given, first, weather.limits)


def sun_of_days(design: Design, days: int = OPENING_DAYS) -> list[float]:
    """Return what the sun brought on each of the days from 1 November of the first drawn year, in days of load.

    To two decimals, so that what a person reads is what a person works with.
    """
    record = sun_record(design)
    solved = record.days_of_load(float(design.given["array_load_ratio"]))
    of_year = np.roll(solved["sun_by_row_days"][0], record.first_day)
    return [round(float(x), 2) for x in of_year[_FIRST_OF_NOVEMBER : _FIRST_OF_NOVEMBER + days]]


@dataclass(frozen=True, eq=False)
class AutonomyView:
    """One setting of the autonomy panel.

    Attributes
    ----------
    inputs
        The settings shown.
    point
        Usable storage, and how often a dark spell is longer, solved at the setting.
    xs, curve
        Days of autonomy, and how often a dark spell is longer, solved along them.
    longest
        Longest dark spell of each year, days of load, shape (years,).
    spells
        All dark spells, days of load.
    """

    inputs: Mapping[str, Any]
    point: Solved
    xs: np.ndarray
    curve: Solved
    longest: np.ndarray
    spells: np.ndarray

    @property
    def years(self) -> int:
        """Years of the record."""
        return len(self.longest)

    @property
    def days(self) -> float:
        """Days of autonomy at the setting."""
        return float(self.point["autonomy_days"])

    @property
    def mean_spell(self) -> float:
        """Mean length of all dark spells, days of load."""
        return float(np.mean(self.spells))

    @property
    def outlasted(self) -> np.ndarray:
        """Whether each year has a dark spell that outlasts the bank, shape (years,)."""
        return np.asarray(self.point["longer_year_by_row_count"], bool)


def autonomy_view(design: Design, record: SunRecord, inputs: Mapping[str, Any]) -> AutonomyView:
    """Work out how often a dark spell is longer than the days of autonomy, at a setting and along the days.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity.
    """
    given = {**design.system, **inputs}
    ended = dark_spells_days(record.days_of_load(given["array_load_ratio"])["short_by_row_days"])
    longest, spells = ended.max(axis=1), ended[ended > 0]
    known = {"longest_by_row_days": longest, "spell_by_row_days": spells, "record_years": record.years}
    sheet = _STORE + LONGER
    xs = span_of("autonomy_days", given)
    return AutonomyView(
        dict(inputs),
        sheet.solve({n: v for n, v in {**given, **known}.items() if n not in sheet}),
        xs,
        LONGER.solve({**known, "autonomy_days": xs}),
        longest,
        spells,
    )
