"""The year, hour by hour: the charge of the bank through every hour, and what the years come to."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.balance import FEEDS, stepper
from offgrid_core.sizing.year_totals import CHARGE, DC_YEAR, GENERATOR_YEAR, YEAR
from offgrid_core.worksheet import Sheet, Solved
from offgrid_core.year.hours import Hours, given_without

#: Input of an hour = the series over the hours that it is taken from.
FED = {
    "yield_h": "yield_by_hour_h",
    "wanted_wh": "wanted_by_hour_wh",
    "kept_now_frac": "kept_by_hour_frac",
    "may_charge_frac": "may_charge_by_hour_frac",
}
#: An hour closes to this share of a day's energy.
CLOSES_TO = 1e-9
_SHORT_WH = 0.001


def over_hours(name: str) -> str:
    """Return the name of a quantity of one hour where it has a value for every hour."""
    stem, unit = name.rsplit("_", 1)
    return f"{stem}_by_hour_{unit}"


@dataclass(frozen=True, eq=False)
class Years:
    """The years of one design, simulated.

    Attributes
    ----------
    hours
        What every hour was given.
    store_wh, connected_frac
        What every hour began with: charge, and whether the loads were connected; arrays of (years, 8760).
    generator
        What else every hour began with, where there is a generator.
    totals
        The worksheet of a year solved: one value a year. Its ``residual_frac`` is how well every hour closes.
    unserved_wh
        Energy not served, hour by hour, (years, 8760).
    """

    hours: Hours
    store_wh: np.ndarray
    connected_frac: np.ndarray
    generator: Mapping[str, np.ndarray]
    totals: Solved
    unserved_wh: np.ndarray

    @cached_property
    def charge_frac(self) -> np.ndarray:
        """Charge at the beginning of every hour as a share of the label, (years, 8760)."""
        return charge_frac(self.hours, self.store_wh)

    @cached_property
    def daily_lowest_frac(self) -> np.ndarray:
        """Lowest charge of every day, (years, 365)."""
        return np.asarray(self.charge_frac.reshape(len(self.store_wh), -1, 24).min(axis=2))

    @property
    def lowest_hour(self) -> tuple[int, int]:
        """Year and hour of the lowest charge of all, from 0."""
        year, hour = np.unravel_index(np.argmin(self.store_wh), self.store_wh.shape)
        return int(year), int(hour)

    @cached_property
    def longest_outage_h(self) -> np.ndarray:
        """Longest row of hours in which the load fell short; one value a year."""
        return np.array([_longest_run(short) for short in self.unserved_wh > _SHORT_WH])

    def hour_by_hour(self, year: int) -> Solved:
        """Return every line of the balance for the 8760 hours of one year, by the names of one hour."""
        carried = {"store_wh": self.store_wh, "connected_frac": self.connected_frac, **self.generator}
        return _worked(self.hours, year, {n: x[year] for n, x in carried.items()})


def simulate(hours: Hours, told: Callable[[int, int], None] | None = None) -> Years:
    """Run the balance through every hour of every year.

    Parameters
    ----------
    hours
        What every hour is given.
    told
        Called after every year with the years done and the years wanted.

    Raises
    ------
    OffgridError
        If a step cannot be worked, or an hour does not close: what comes in must go out, be lost or be stored.
    """
    walk = stepper(hours.sheet)
    carried: dict[str, list[np.ndarray]] = {n: [] for n in walk.carried}
    unserved, totals = [], []
    start = full_bank(hours.given)
    for year in range(hours.years):
        feeds = {n: np.roll(hours.by_hour[FED[n]][year], -hours.first_hour) for n in FEEDS}
        path, _ = walk.path(hours.given, feeds, start)
        path = {n: np.roll(x, hours.first_hour) for n, x in path.items()}
        solved = _worked(hours, year, path)
        for n, x in path.items():
            carried[n].append(x)
        unserved.append(solved["unserved_wh"])
        totals.append(_totals(hours, year, solved))
        if told:
            told(year + 1, hours.years)
    whole = {n: np.array(x) for n, x in carried.items()}
    sheet = totals[0].sheet
    plain = [n for n in totals[0] if "by_hour" not in n]
    together = {n: np.array([t[n] for t in totals]) if n in sheet else totals[0][n] for n in plain}
    return Years(
        hours,
        whole.pop("store_wh"),
        whole.pop("connected_frac"),
        whole,
        Solved(sheet, together, frozenset()),
        np.array(unserved),
    )


def full_bank(given: Mapping[str, Any]) -> dict[str, Any]:
    """Return what is carried into the first hour: a full bank, the loads connected, no generator running."""
    return {"store_wh": given["bank_wh"], "connected_frac": 1.0, "was_running_frac": 0.0, "run_h": 0.0}


def charge_frac(hours: Hours, store_wh: np.ndarray) -> np.ndarray:
    """Return charge as a share of the label."""
    given = {"bank_wh": hours.given["bank_wh"], "store_by_hour_wh": store_wh}
    return np.asarray(CHARGE.solve(given)["charge_by_hour_frac"])


def year_sheet(hours: Hours) -> Sheet:
    """Return the worksheet of a year for a design with or without inverter and generator."""
    sheet = YEAR if hours.has_inverter else DC_YEAR
    return sheet + GENERATOR_YEAR if "running_frac" in hours.sheet else sheet


def _worked(hours: Hours, year: int, carried: Mapping[str, np.ndarray]) -> Solved:
    feeds = {n: hours.by_hour[FED[n]][year] for n in FEEDS}
    return hours.sheet.solve(given_without(hours.given, hours.sheet) | feeds | dict(carried))


def _totals(hours: Hours, year: int, solved: Solved) -> Solved:
    sheet = year_sheet(hours)
    names = {over_hours(n): n for n in solved if n not in hours.given}
    series: dict[str, Any] = {n: hours.by_hour[n][year] for n in sheet.inputs if n in hours.by_hour}
    series |= {n: solved[names[n]] for n in sheet.inputs if n in names}
    given = given_without(hours.given, sheet) | series | {"hours_year_h": float(len(solved["net_wh"]))}
    made = sheet.solve(given | {"charge_by_hour_frac": charge_frac(hours, solved["store_wh"])})
    worst = float(made["residual_frac"])
    if not worst <= CLOSES_TO:
        raise OffgridError(f"the year does not close: {worst:.2g} of a day's energy is missing in one hour")
    return made


def _longest_run(short: np.ndarray) -> int:
    edges = np.flatnonzero(np.diff(np.concatenate(([0], short.astype(np.int8), [0]))))
    return int(np.max(edges[1::2] - edges[::2], initial=0))
