"""A design followed through its years: everything the reports show, as numbers."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core.sizing.cost import COST
from offgrid_core.sizing.hourly_sun import MONTH_DAYS, MONTH_OF_DAY
from offgrid_core.sizing.year_totals import (
    BESIDE_AUTONOMY,
    CAME,
    CAME_WITH_GENERATOR,
    a_year_by_depth,
    month_sums_wh,
)
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved, Table
from offgrid_core.worksheet.grammar import axis_of
from offgrid_core.year.outcome import Outcome

#: What each year is judged by, in the order shown; what a design has not, such as a generator, is left out.
JUDGED = (
    "loss_energy_frac",
    "unserved_year_wh",
    "loss_hours_frac",
    "short_year_h",
    "longest_outage_h",
    "lowest_charge_frac",
    "spilled_frac",
    "generator_ran_h",
    "generator_fuel_l",
)
#: Where the energy that came in can go.
PLACES = (
    "served_year_wh",
    "inverter_lost_year_wh",
    "dc_lost_year_wh",
    "charge_loss_year_wh",
    "leak_year_wh",
    "spilled_year_wh",
    "clipped_year_wh",
    "store_grown_year_wh",
)
#: Lines of an hour = what their sum over a month is called.
MONTHLY = {
    "array_offer_wh": "array_offer_by_month_wh",
    "served_wh": "met_by_month_wh",
    "spilled_wh": "spilled_by_month_wh",
    "unserved_wh": "unserved_by_month_wh",
}
WEAR = ("wear_year_frac", "cycle_life_years", "calendar_life_years", "bank_life_years")
#: Cycles are put together between these depths.
DEPTHS = (0.0, 0.05, 0.1, 0.2, 0.3, 0.5, 0.8, 1.0)


@dataclass(frozen=True, eq=False)
class Run:
    """A design followed through its years.

    Attributes
    ----------
    outcome
        What came of it.
    seed
        Of drawn years; ``None`` where the hours are a file's.
    latitude_deg
        Where the hours of a file are from; ``None`` of drawn years, which are for the plan's own site.
    """

    outcome: Outcome
    seed: int | None = None
    latitude_deg: float | None = None

    @property
    def design(self) -> Design:
        """What was followed."""
        return self.outcome.design

    @property
    def count(self) -> int:
        """How many years there are."""
        return self.outcome.hours.years

    @cached_property
    def by_year(self) -> dict[str, np.ndarray]:
        """One value a year, by the names of :data:`JUDGED`."""
        years = self.outcome.years
        found = {**{n: years.totals[n] for n in years.totals.sheet}, "longest_outage_h": years.longest_outage_h}
        return {n: np.asarray(found[n], float) for n in JUDGED if n in found}

    @cached_property
    def dates(self) -> list[tuple[int, int]]:
        """Month, 1 for January, and day of the lowest charge of each year."""
        days = np.argmin(self.outcome.years.charge_frac, axis=1) // 24
        firsts = np.concatenate([[0], np.cumsum(MONTH_DAYS)])
        return [(int(MONTH_OF_DAY[d]) + 1, int(d - firsts[MONTH_OF_DAY[d]]) + 1) for d in days]

    @cached_property
    def places(self) -> Solved:
        """Energy of a mean year that came in, and what share of it went where; one row for each of ``place_names``."""
        outcome = self.outcome
        sheet = CAME_WITH_GENERATOR if self.has_generator else CAME
        means = {n: outcome.mean(n) for n in sheet.inputs if n in outcome.years.totals}
        return sheet.solve(means | {"place_by_row_wh": [outcome.mean(n) for n in self.place_names]})

    @property
    def place_names(self) -> list[str]:
        """The places that this design has."""
        return [n for n in PLACES if n in self.outcome.years.totals.sheet]

    @property
    def has_generator(self) -> bool:
        """Whether a generator helps."""
        return "generator_ran_h" in self.outcome.years.totals.sheet

    @cached_property
    def months(self) -> dict[str, np.ndarray]:
        """Energy of each month of a mean year, by the names in :data:`MONTHLY`."""
        years = self.outcome.years
        sums: dict[str, list[np.ndarray]] = {n: [] for n in MONTHLY}
        for year in range(self.count):
            solved = years.hour_by_hour(year)
            for n, held in sums.items():
                held.append(month_sums_wh(solved[n]))
        return {MONTHLY[n]: np.mean(held, axis=0) for n, held in sums.items()}

    @cached_property
    def depths(self) -> dict[str, np.ndarray]:
        """Cycles of a year and the share of the life they use up, between the depths of :data:`DEPTHS`."""
        wear = self.outcome.wear
        found = {"cycle_year_by_row_count": "cycle_by_row_count", "wear_year_by_row_frac": "wear_by_row_frac"}
        depths, counted = wear["cycle_depth_by_row_frac"], float(wear["counted_years"])
        return {name: a_year_by_depth(depths, wear[of], counted, DEPTHS) for name, of in found.items()}

    @cached_property
    def autonomy_used_days(self) -> np.ndarray:
        """Days of the hardest day's energy that the bank gave at most, one value a year."""
        given = self.outcome.hours.given
        lowest = {"lowest_charge_frac": self.by_year["lowest_charge_frac"]}
        return np.asarray(BESIDE_AUTONOMY.solve({**given, **lowest})["autonomy_used_days"])


def assumed(run: Run) -> dict[str, float]:
    """Return the assumptions that the years of this design stand on, by name."""
    hours = run.outcome.hours
    used = set(COST.inputs) | set(hours.sheet.inputs) | ({"air_swing_k"} if run.seed is not None else set())
    used |= {"battery_lag_h"} if run.design.plan.enclosure is None else set()
    if not run.has_generator:
        used -= {"generator_kw_cost", "generator_life_years", "fuel_litre_cost", "fuel_growth_frac"}
    plan = run.design.plan.assume
    return {n: float(plan.get(n, a.value)) for n, a in YEARS_ASSUMPTIONS.items() if n in used}


def as_json(run: Run) -> dict[str, Any]:
    """Return every number of the reports by name, with stable keys; values unrounded, in the units of the names."""
    outcome, design = run.outcome, run.design
    years, weather = outcome.years, outcome.weather
    year, hour = years.lowest_hour
    month, day = run.dates[year]
    places = run.places
    return {
        "title": design.plan.title,
        "site": design.site.name,
        "latitude_deg": design.site.latitude_deg,
        "tilt_deg": design.tilt_deg,
        "azimuth_deg": design.azimuth_deg,
        "years": run.count,
        "seed": run.seed,
        "weather": {"name": weather.name, "source": weather.source, "limits": list(weather.limits)},
        "lost": {n: outcome.mean(n) for n in ("loss_energy_frac", "loss_hours_frac")},
        "lowest": {
            "lowest_charge_frac": float(np.min(run.by_year["lowest_charge_frac"])),
            "year": year + 1,
            "month": month,
            "day": day,
            "hour": hour % 24,
        },
        "by_year": {
            **_plain(years.totals, list(years.totals.sheet)),
            "longest_outage_h": run.by_year["longest_outage_h"].tolist(),
            "autonomy_used_days": run.autonomy_used_days.tolist(),
            "lowest_date": [list(found) for found in run.dates],
        },
        "spread": {
            n: {"least": float(np.min(x)), "middle": float(np.median(x)), "most": float(np.max(x))}
            for n, x in run.by_year.items()
        },
        "places": {"rows": run.place_names, **_plain(places, ["place_by_row_wh", *places.sheet])},
        "by_month": {n: x.tolist() for n, x in run.months.items()},
        "wear": {
            **_plain(outcome.wear, WEAR),
            "depth_from_by_row_frac": list(DEPTHS[:-1]),
            "depth_to_by_row_frac": list(DEPTHS[1:]),
            **{n: x.tolist() for n, x in run.depths.items()},
        },
        "cost": _plain(outcome.cost, [n for n in outcome.cost if axis_of(n) != "by_row"]),
        "hand": by_hand(design),
        "assumed": assumed(run),
        "daily_lowest_frac": years.daily_lowest_frac.tolist(),
    }


def by_hand(design: Design) -> dict[str, float]:
    """Return what the hand method said of what the years show too, by name; what it did not say is left out."""
    said = {n: float(design.system[n]) for n in ("autonomy_days", "autonomy_given_days")}
    for title, names in (
        ("Life of the bank", ["bank_life_years"]),
        ("Backup generator", ["generator_year_h", "fuel_year_l"]),
    ):
        if title in design.more:
            said |= {n: float(design.more[title][n]) for n in names if n in design.more[title]}
    return said


def _plain(values: Any, names: Sequence[str]) -> dict[str, Any]:
    return {n: np.asarray(values[n], float).tolist() for n in names if not isinstance(values[n], Table)}
