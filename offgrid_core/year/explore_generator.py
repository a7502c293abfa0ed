"""What the generator panel shows, worked out: one run, by a sum and hour by hour, and what a year asks of the engine.

Pure functions of a design, its weather and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.balance import HOUR_WITH_GENERATOR, stepper
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.generator_teaching import RESTORE, RESTORE_FUEL, STARTS
from offgrid_core.sizing.state import charge_left_frac
from offgrid_core.sizing.year_totals import CHARGE, YEAR, month_sums_wh
from offgrid_core.system import size
from offgrid_core.system.beside import BACKUP
from offgrid_core.system.design import Design
from offgrid_core.system.sections import Generator
from offgrid_core.worksheet import Sheet, Solved
from offgrid_core.year.explore import rebuilt
from offgrid_core.year.hours import given_without, hours_of
from offgrid_core.year.outcome import drawn_weather
from offgrid_core.year.simulate import Years, simulate

#: Years drawn, and settings of them kept worked out.
YEARS, _KEPT = 5, 16
#: Hours of one run that are followed.
HOURS = 24
#: A small set, for a plan that has none.
SMALL = Generator(rated_w=3000, rated_va=3500, charger_a=30)
#: What the inputs hold that is about one run alone, or is no number.
_OF_RUN, _FUEL = "dc_running_w", "fuel"
_ENGINE = ("charge_most_a", "charger_a", "charger_dc_w", "charger_ac_w", "generator_load_w", "loading_frac", "fuel_l_h")
_LABEL = (
    "generator_load_va",
    "generator_kept_frac",
    "generator_needed_va",
    "generator_margin_va",
    "generator_margin_w",
)
_LIMITS = ("loading_margin_frac", "start_margin_frac", "levels_margin_frac")
#: One run of the engine, from the charger to the fuel, and what limits it.
ONE_RUN = (
    Sheet(*(GENERATOR[n] for n in _ENGINE))
    + RESTORE
    + RESTORE_FUEL
    + Sheet(*(GENERATOR[n] for n in (*_LABEL, *_LIMITS)))
    + Sheet(charge_left_frac)
)
_SHORT = YEAR.upto("short_year_h")


@dataclass(frozen=True, eq=False)
class RunView:
    """One setting of charger, generator and levels.

    Attributes
    ----------
    run
        One run, by a sum.
    hours_h, charge_frac
        The same run hour by hour, going on past the stop level: hours since the start, and charge as a share of the
        label; no number where the engine stalls.
    years
        The design followed through its years.
    """

    run: Solved
    hours_h: np.ndarray
    charge_frac: np.ndarray
    years: Years

    @property
    def is_stalling(self) -> bool:
        """Whether more watts are asked of the engine than height and heat leave it: there is no run, and no year."""
        return bool(self.run.broken()["generator_margin_w"])

    @property
    def is_filling(self) -> bool:
        """Whether the bank comes up from the start to the stop level at all."""
        fills = self.run["charger_spare_w"] > 0 and self.run["levels_margin_frac"] > 0
        return bool(fills) and not self.is_stalling

    def mean(self, name: str) -> float:
        """Return the mean of the years of one line of the year's worksheet."""
        return float(np.mean(self.years.totals[name]))

    @property
    def starts(self) -> float:
        """Starts of the engine in a mean year."""
        each = [STARTS.solve(self._running(year))["starts_year_count"] for year in range(len(self.years.store_wh))]
        return float(np.mean(each))

    @property
    def ran_by_month_h(self) -> np.ndarray:
        """Hours that the engine runs in each month of a mean year; no number where it stalls."""
        ran = [self._running(year)["running_by_hour_frac"] for year in range(len(self.years.store_wh))]
        return self._months(np.array(ran))

    @property
    def short_by_month_h(self) -> np.ndarray:
        """Hours of each month of a mean year in which the load falls short; no number where the engine stalls."""
        return self._months(_SHORT.solve({"unserved_by_hour_wh": self.years.unserved_wh[..., None]})["short_year_h"])

    def _months(self, by_hour: np.ndarray) -> np.ndarray:
        return np.where(self.is_stalling, np.nan, month_sums_wh(by_hour).mean(axis=0))

    def _running(self, year: int) -> dict[str, np.ndarray]:
        return {
            "running_by_hour_frac": self.years.hour_by_hour(year)["running_frac"],
            "was_running_by_hour_frac": self.years.generator["was_running_frac"][year],
        }


def with_generator(design: Design) -> Design:
    """Return the design itself, or one with a small generator where its plan has none."""
    if design.plan.generator is not None:
        return design
    return size(design.plan.model_copy(update={"generator": SMALL}))


def one_run(design: Design, inputs: Mapping[str, Any] | None = None) -> Solved:
    """Return one run of a design's generator, worked from the charger to the fuel and the label, on top of its chain.

    Parameters
    ----------
    design
        A sized system with a generator.
    inputs
        Inputs that are moved, in the units of their names; ``dc_running_w`` is 0 unless it is given.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity.
    """
    sheet = design.system.sheet + ONE_RUN
    known = {**design.more[BACKUP], **design.given, _OF_RUN: 0.0, **(inputs or {})}
    return sheet.solve(given_without(known, sheet))


def explored(design: Design, years: int = YEARS, seed: int = 1) -> Callable[[Mapping[str, Any]], RunView]:
    """Return what works out a setting of a design's generator in years that are drawn once.

    The inputs of it are those of the chain and the generator that move, ``dc_running_w``, ``array_factor``, and by its
    key the fuel line.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range; later, if an input leaves its validity.
    """
    design, weather = with_generator(design), drawn_weather(design, years, seed)

    @lru_cache(_KEPT)
    def followed(moved: tuple[tuple[str, float], ...]) -> tuple[Design, Years]:
        built = rebuilt(design, dict(moved))
        return built, simulate(hours_of(built, weather))

    def view(inputs: Mapping[str, Any]) -> RunView:
        fuel = data.fuel_curve(inputs[_FUEL])
        moved = {n: v for n, v in inputs.items() if n not in (_OF_RUN, _FUEL)}
        moved |= {n: getattr(fuel, n) for n in ("fuel_size_l_kwh", "fuel_work_l_kwh")}
        built, followed_years = followed(tuple(moved.items()))
        run = one_run(built, {_OF_RUN: inputs[_OF_RUN]})
        hours_h, charge_frac = _hour_by_hour(run, followed_years.hours.given)
        found = RunView(run, hours_h, charge_frac, followed_years)
        return replace(found, charge_frac=np.full_like(charge_frac, np.nan)) if found.is_stalling else found

    return view


def _hour_by_hour(run: Solved, given: Mapping[str, Any]) -> tuple[np.ndarray, np.ndarray]:
    """Follow a warm bank from the start level on while the engine goes on running: hours since then, and charge."""
    steady = {**given, "leak_frac": 0.0, "generator_start_frac": 1.0}
    walk, still, one = stepper(HOUR_WITH_GENERATOR), np.zeros(HOURS + 1), np.ones(HOURS + 1)
    warm = {"bank_wh": run["bank_wh"], "generator_start_frac": run["generator_start_frac"], "kept_now_frac": 1.0}
    begins = Sheet(HOUR_WITH_GENERATOR["generator_start_wh"]).solve(warm)["generator_start_wh"]
    feeds = {"yield_h": still, "wanted_wh": run[_OF_RUN] * one, "kept_now_frac": one, "may_charge_frac": one}
    start = {"store_wh": begins, "connected_frac": 1.0, "was_running_frac": 1.0, "run_h": 0.0}
    path, _ = walk.path(steady, feeds, start)
    charge = CHARGE.solve({"bank_wh": run["bank_wh"], "store_by_hour_wh": path["store_wh"]})
    return np.arange(HOURS + 1.0), np.asarray(charge["charge_by_hour_frac"])
