"""The picture no hand method gives: what share of the load is lost, and what it costs, for arrays against banks."""

from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.sizing.cost import COST
from offgrid_core.sizing.feeds import STEADY
from offgrid_core.sizing.scaling import SCALED
from offgrid_core.sizing.wear import WEAR_BY_ENERGY
from offgrid_core.sizing.year_totals import SWEPT_GENERATOR_YEAR, SWEPT_YEAR
from offgrid_core.system.design import Design
from offgrid_core.year.costing import givens_of
from offgrid_core.year.hours import Hours, given_without
from offgrid_core.year.sweep import sweep

#: Arrays and banks of the map, as multiples of those of the design.
FACTORS = tuple(float(x) for x in np.linspace(0.2, 2.1, 30).round(6))


@dataclass(frozen=True, eq=False)
class ReliabilityMap:
    """Designs on a grid: banks down the rows, arrays along the columns.

    Attributes
    ----------
    array_w, bank_wh
        The axes.
    loss_frac
        Share of the load lost by energy, mean of the years, (banks, arrays); ``worst_frac`` that of the worst year.
    life_cycle_cost
        What each design costs over the horizon, from its wear by the energy drawn, (banks, arrays); prices invented.
    spilled_wh
        Energy spilled in a mean year, (banks, arrays).
    hand_array_w, hand_bank_wh
        The design that the hand method gave.
    years
        How many years went into it.
    """

    array_w: np.ndarray
    bank_wh: np.ndarray
    loss_frac: np.ndarray
    worst_frac: np.ndarray
    life_cycle_cost: np.ndarray
    spilled_wh: np.ndarray
    hand_array_w: float
    hand_bank_wh: float
    years: int

    def cheapest(self, most_loss_frac: float) -> tuple[int, int] | None:
        """Return row and column of the cheapest design that loses no more of the load; None if none does."""
        good = self.loss_frac <= most_loss_frac
        if not np.any(good):
            return None
        row, column = np.unravel_index(np.argmin(np.where(good, self.life_cycle_cost, np.inf)), good.shape)
        return int(row), int(column)


def reliability_map(
    design: Design,
    hours: Hours,
    array_factors: Sequence[float] = FACTORS,
    bank_factors: Sequence[float] = FACTORS,
    *,
    executor: Executor | None = None,
    told: Callable[[int, int], None] | None = None,
) -> ReliabilityMap:
    """Work a grid of designs, multiples of one design's array and bank, through the years.

    Parameters
    ----------
    design
        The hand method's design.
    hours
        What every hour is given (:func:`offgrid_core.year.hours.hours_of`).
    array_factors, bank_factors
        Multiples of its array and of its bank, rising, above 0. Controllers, charging ceiling and prices grow in
        proportion; parts are not rounded to whole ones, which would make stairs of every contour.
    executor, told
        As in :func:`offgrid_core.year.sweep.sweep`.
    """
    arrays, banks = (_rising(x) for x in (array_factors, bank_factors))
    system = design.system
    grid: dict[str, Any] = {"array_factor": arrays[None, :], "bank_factor": banks[:, None]}
    scaled = SCALED.solve({**grid, **{n: system[n] for n in SCALED.inputs if n in system}})
    made = {n: scaled[new] for n, new in _GROWN.items()}
    steady = STEADY.solve(given_without(hours.given, STEADY) | made)
    shape = (len(banks), len(arrays))
    columns = {**made, **{n: steady[n] for n in STEADY}}
    flat = {n: np.broadcast_to(x, shape).ravel() for n, x in columns.items()}
    sums = sweep(hours, flat, executor=executor, told=told)
    by_year = {n: x.reshape(-1, *shape) for n, x in sums.items()}
    wanted = hours.by_hour["wanted_by_hour_wh"].sum(axis=1)[:, None, None]
    sheet = SWEPT_YEAR + SWEPT_GENERATOR_YEAR if "generator_ran_h" in sums else SWEPT_YEAR
    judged = sheet.solve(given_without(hours.given, sheet) | by_year | {"wanted_year_wh": wanted})
    return ReliabilityMap(
        array_w=np.asarray(made["array_w"])[0],
        bank_wh=np.asarray(made["bank_wh"])[:, 0],
        loss_frac=judged["loss_energy_frac"].mean(axis=0),
        worst_frac=judged["loss_energy_frac"].max(axis=0),
        life_cycle_cost=_cost(design, hours, made, judged),
        spilled_wh=judged["spilled_sum_wh"].mean(axis=0),
        hand_array_w=float(system["array_w"]),
        hand_bank_wh=float(system["bank_wh"]),
        years=hours.years,
    )


#: Quantity of a design = the line that says how it grows.
_GROWN = {
    "array_w": "grown_array_w",
    "bank_wh": "grown_bank_wh",
    "controllers_count": "grown_controllers_count",
    "modules_count": "grown_modules_count",
    "units_count": "grown_units_count",
}


def _cost(design: Design, hours: Hours, made: dict[str, Any], judged: Any) -> np.ndarray:
    """Return the life-cycle cost of every design; a bank worn out within the year lasts one year."""
    cycles = data.cycle_life(design.plan.choices.chemistry)
    mean = {n: np.mean(judged[n], axis=0) for n in ("drawn_year_wh", "met_sum_wh", "generator_fuel_l") if n in judged}
    worn = WEAR_BY_ENERGY.solve(
        given_without(hours.given, WEAR_BY_ENERGY)
        | {"bank_wh": made["bank_wh"], "cycle_life": cycles, "drawn_year_wh": mean["drawn_year_wh"]}
    )
    given = givens_of(design, 1.0, 1.0) | {
        **{n: made[n] for n in ("controllers_count", "modules_count", "units_count")},
        "bank_life_years": np.maximum(worn["bank_life_years"], 1.0),
        "served_year_wh": np.maximum(mean["met_sum_wh"], 1.0),
        "fuel_year_l": mean.get("generator_fuel_l", 0.0),
    }
    return np.asarray(COST.solve(given)["life_cycle_cost"])


def _rising(factors: Sequence[float]) -> np.ndarray:
    values = np.asarray(factors, float)
    if values.ndim != 1 or not values.size or not np.all(values > 0) or np.any(np.diff(values) <= 0):
        raise OffgridError("the multiples of a map are numbers above 0, each larger than the one before")
    return values
