"""A design followed through its years: what was lost, how the bank wears, and what it all costs."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from offgrid_core import data
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved
from offgrid_core.year.costing import cost_of
from offgrid_core.year.cycles import wear_of
from offgrid_core.year.hours import Hours, hours_of
from offgrid_core.year.sequence import generated
from offgrid_core.year.simulate import Years, simulate
from offgrid_core.year.weather import Weather

#: Years drawn unless somebody asks for more or fewer.
YEARS = 20


@dataclass(frozen=True, eq=False)
class Outcome:
    """A design, its weather, and what came of it.

    Attributes
    ----------
    design, weather, hours, years
        What went in, and the simulated years.
    wear
        Cycles counted over all the years together, and the years until the bank is worn out.
    cost
        The cost worksheet for a mean year.
    """

    design: Design
    weather: Weather
    hours: Hours
    years: Years
    wear: Solved
    cost: Solved

    def mean(self, name: str) -> float:
        """Return the mean of the years of one line of the year's worksheet."""
        return float(np.mean(self.years.totals[name]))


def drawn_weather(design: Design, years: int = YEARS, seed: int = 1) -> Weather:
    """Return years drawn from the monthly means of a design's site, on its array.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range.
    """
    site, place = design.site, design.plan.site
    swing = design.plan.assume.get("air_swing_k", YEARS_ASSUMPTIONS["air_swing_k"].value)
    return generated(
        site.ghi_by_month_kwh_m2,
        site.air_temp_by_month_c,
        site.latitude_deg,
        design.tilt_deg,
        design.azimuth_deg,
        place.ground_by_month_frac,
        years,
        seed,
        air_swing_k=swing,
    )


def follow(design: Design, weather: Weather, told: Callable[[int, int], None] | None = None) -> Outcome:
    """Follow a design through the years of its weather.

    Parameters
    ----------
    design, weather
        What to follow, and through what.
    told
        Called after every year with the years done and the years wanted.

    Raises
    ------
    OffgridError
        If a value leaves the range of a table, or an hour does not close.
    """
    hours = hours_of(design, weather)
    years = simulate(hours, told)
    # In the order in which the years were lived through, so that no swing is cut in two by New Year.
    lived = np.roll(years.charge_frac, -hours.first_hour, axis=1).ravel()
    given = {**hours.given, "cycle_life": data.cycle_life(design.plan.choices.chemistry)}
    wear = wear_of(lived, given)
    totals = {n: float(np.mean(years.totals[n])) for n in ("served_year_wh", "generator_fuel_l") if n in years.totals}
    cost = cost_of(
        design, totals["served_year_wh"], float(wear["bank_life_years"]), totals.get("generator_fuel_l", 0.0)
    )
    return Outcome(design, weather, hours, years, wear, cost)
