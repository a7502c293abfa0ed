"""What the pictures of simulated years show, worked out: days of all years, one week of hours, places of the energy.

Pure functions of a design, its weather and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core.quantities import menu
from offgrid_core.sizing.scaling import SCALED
from offgrid_core.sizing.year_totals import CAME, CAME_WITH_GENERATOR, YEAR, month_sums_wh
from offgrid_core.system.beside import BACKUP
from offgrid_core.system.design import Design, size
from offgrid_core.worksheet import Solved
from offgrid_core.year.hours import given_without
from offgrid_core.year.outcome import Outcome, drawn_weather, follow
from offgrid_core.year.simulate import charge_frac, over_hours

WEEK_DAYS = 7
_KWH = next(unit for unit in menu("bank_wh") if unit.symbol == "kWh")
#: Where the energy of a year goes, on its way from the array to the loads.
PLACES = (
    "spilled_year_wh",
    "clipped_year_wh",
    "charge_loss_year_wh",
    "leak_year_wh",
    "store_grown_year_wh",
    "inverter_lost_year_wh",
    "dc_lost_year_wh",
    "served_year_wh",
)
_FLOOR = "floor_wh"
_SHORT = YEAR.upto("short_year_h")
#: Line of a design = the line that says how it grows with the array or the bank.
_GROWN = {
    "array_w": "grown_array_w",
    "modules_count": "grown_modules_count",
    "controllers_count": "grown_controllers_count",
    "bank_wh": "grown_bank_wh",
    "units_count": "grown_units_count",
}
#: What multiplies the array and the bank that come out.
FACTORS = ("array_factor", "bank_factor")


def without_generator(design: Design) -> Design:
    """Return a sized system with its generator taken away."""
    return size(design.plan.model_copy(update={"generator": None}))


def rebuilt(design: Design, inputs: Mapping[str, Any]) -> Design:
    """Return a design with some inputs moved: its parts are kept and their counts follow.

    Parameters
    ----------
    design
        A sized system.
    inputs
        Inputs of the chain or of the generator, in the units of their names; and ``array_factor`` and ``bank_factor``,
        by which the array and the bank that come out are multiplied, without rounding to whole parts.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity or of a table.
    """
    given = {**design.given, **inputs}
    system = design.system.sheet.solve(given)
    factors = {n: inputs.get(n, 1.0) for n in FACTORS}
    if any(x != 1.0 for x in factors.values()):
        known = {n: system[n] for n in SCALED.inputs if n in system}
        scaled = SCALED.solve({**known, **factors})
        system = design.system.sheet.solve(given, held={n: scaled[new] for n, new in _GROWN.items()})
    more = dict(design.more)
    if BACKUP in more:
        before = more[BACKUP]
        known = {n: system.get(n, before[n]) for n in before.sheet.inputs}
        more[BACKUP] = before.sheet.solve(known)
    return replace(design, given=given, system=system, more=more)


def years_of(design: Design, years: int = 5, seed: int = 1, **moved: float) -> Outcome:
    """Return a design with some inputs moved, as of :func:`rebuilt`, followed through years drawn for its place.

    Parameters
    ----------
    years, seed
        How many years are drawn, and from which seed.

    Raises
    ------
    OffgridError
        If a value leaves its validity, the number of years or the seed its range.
    """
    return follow(rebuilt(design, moved), drawn_weather(design, years, seed))


def kwh_by_month(outcome: Outcome) -> dict[str, list[float]]:
    """Return what a mean month's array could pass on, what the loads want, and what was not served, kWh."""
    hours, years = outcome.hours, outcome.years
    offered = [years.hour_by_hour(year)["array_offer_wh"] for year in range(hours.years)]
    by_hour = {"came": offered, "wanted": hours.by_hour["wanted_by_hour_wh"], "missing": years.unserved_wh}
    sums = {n: month_sums_wh(np.asarray(x, float)).mean(axis=0) for n, x in by_hour.items()}
    return {n: np.round(_KWH.from_canonical(x), 1).tolist() for n, x in sums.items()}


@dataclass(frozen=True)
class Outage:
    """Hours in a row in which the load fell short: year and hour of its beginning, from 0, and how many."""

    year: int
    hour: int
    hours: int


@dataclass(frozen=True, eq=False)
class YearView:
    """What came of a design in its years, and the year whose week is looked at.

    Attributes
    ----------
    outcome
        The design, followed through its years.
    week_year
        The year of the week, from 0; ``None`` for the worst.
    """

    outcome: Outcome
    week_year: int | None = None

    @property
    def count(self) -> int:
        """How many years there are."""
        return self.outcome.hours.years

    @cached_property
    def worst(self) -> int:
        """The year in which most of the load was lost; where none was, that of the lowest charge. From 0."""
        lost, lowest = (self.outcome.years.totals[n] for n in ("loss_energy_frac", "lowest_charge_frac"))
        return int(np.lexsort((lowest, np.negative(lost)))[0])

    @cached_property
    def lowest(self) -> tuple[int, int]:
        """Year and hour of the lowest charge above all others, from 0."""
        return self.outcome.years.lowest_hour

    @cached_property
    def cut_off_frac(self) -> np.ndarray:
        """Charge at which the loads are cut off, as a share of the label, (years, 8760)."""
        hours = self.outcome.hours
        sheet = hours.sheet.upto(_FLOOR)
        kept = {"kept_now_frac": hours.by_hour["kept_by_hour_frac"]}
        return charge_frac(hours, sheet.solve({**given_without(hours.given, sheet), **kept})[_FLOOR])

    @cached_property
    def daily_cut_off_frac(self) -> np.ndarray:
        """Highest cut-off of each day of the worst year, (365,)."""
        return np.asarray(_days(self.cut_off_frac[self.worst]).max(axis=1))

    @cached_property
    def band_frac(self) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """Lowest charge of each day: least, middle and most of the years, each (365,)."""
        low = self.outcome.years.daily_lowest_frac
        return low.min(axis=0), np.median(low, axis=0), low.max(axis=0)

    @cached_property
    def short_by_day_h(self) -> np.ndarray:
        """Hours of each day in which the load fell short, (years, 365)."""
        given = {"unserved_by_hour_wh": _days(self.outcome.years.unserved_wh)}
        return np.asarray(_SHORT.solve(given)["short_year_h"])

    @cached_property
    def outage(self) -> Outage | None:
        """The longest outage, the first of several; ``None`` where the load never falls short."""
        longest = self.outcome.years.longest_outage_h
        year = int(np.argmax(longest))
        if not longest[year]:
            return None
        by_hour = {"unserved_by_hour_wh": self.outcome.years.unserved_wh[year][:, None]}
        short = _SHORT.solve(by_hour)["short_year_h"] > 0
        runs = np.lib.stride_tricks.sliding_window_view(short, longest[year]).all(axis=1)
        return Outage(year, int(np.argmax(runs)), int(longest[year]))

    @cached_property
    def week(self) -> "Week":
        """The week round the lowest charge of the year that is looked at."""
        year = self.worst if self.week_year is None else self.week_year
        lowest = int(np.argmin(self.outcome.years.charge_frac[year]))
        first = min(max(lowest // 24 - WEEK_DAYS // 2, 0), 365 - WEEK_DAYS) * 24
        return Week(self, year, first, lowest)

    @cached_property
    def places_wh(self) -> dict[str, float]:
        """Energy of a mean year by the place it went to; together they are what came in."""
        return {n: self.outcome.mean(n) for n in PLACES if n in self.outcome.years.totals}

    @cached_property
    def came(self) -> Solved:
        """What came in in a mean year, and the share of it that went to each of the places."""
        sheet = CAME_WITH_GENERATOR if "generator_year_wh" in self.outcome.years.totals else CAME
        given = {n: self.outcome.mean(n) for n in sheet.inputs if n in self.outcome.years.totals}
        return sheet.solve({**given, "place_by_row_wh": np.array([*self.places_wh.values()])})


@dataclass(frozen=True, eq=False)
class Week:
    """Seven days of one year, hour by hour.

    Attributes
    ----------
    view
        What it is a part of.
    year, first_hour, lowest_hour
        Its year, its first hour, and the hour of the year's lowest charge, from 0.
    """

    view: YearView
    year: int
    first_hour: int
    lowest_hour: int

    @property
    def hours(self) -> np.ndarray:
        """Its hours of the year, from 0."""
        return np.arange(self.first_hour, self.first_hour + 24 * WEEK_DAYS)

    @cached_property
    def _worked(self) -> Solved:
        return self.view.outcome.years.hour_by_hour(self.year)

    def has(self, name: str) -> bool:
        """Return whether the worksheet of an hour has this line."""
        return name in self._worked

    def along(self, name: str) -> np.ndarray:
        """Return a line of the worksheet of an hour, (168,), by its name."""
        return np.asarray(self._worked[name][self.hours])

    @property
    def charge_frac(self) -> np.ndarray:
        """Charge as a share of the label, (168,)."""
        return np.asarray(self.view.outcome.years.charge_frac[self.year][self.hours])

    @property
    def cut_off_frac(self) -> np.ndarray:
        """The cut-off as a share of the label, (168,)."""
        return np.asarray(self.view.cut_off_frac[self.year][self.hours])

    @cached_property
    def sums(self) -> Solved:
        """What the loads wanted, got and missed, and what was spilled in the week."""
        sheet = YEAR.upto("wanted_year_wh", "met_year_wh", "unserved_year_wh", "spilled_year_wh")
        names = ("wanted_wh", "served_wh", "unserved_wh", "spilled_wh")
        return sheet.solve({over_hours(n): self.along(n) for n in names})


def _days(by_hour: np.ndarray) -> np.ndarray:
    return np.asarray(by_hour.reshape(*by_hour.shape[:-1], -1, 24))
