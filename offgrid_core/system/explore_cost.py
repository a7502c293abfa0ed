"""What the panel of cost shows: a small bank emptied deep and a large one of the same kind, bought over the years.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.banks_teaching import BANK_AGAIN, BANK_OVER_YEARS, SAVED
from offgrid_core.sizing.cost import YEARS
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved

#: Rates and horizons along the curves: those of the sliders; tenths of a year, so that a step stands where a bank ends.
RATES = np.linspace(0, 0.15, 151)
HORIZONS = np.linspace(1, 40, 391)
SMALL, LARGE = "small", "large"
#: What is compared: with nothing taken off for what is left at the horizon, or less its unused years.
PAID, LESS_LEFT = "banks_cost", "banks_net_cost"


@dataclass(frozen=True)
class BankCost:
    """One of the two banks.

    Attributes
    ----------
    now
        The amp-hours needed, price and life, then the bank and all later ones, at the setting.
    by_rate, by_horizon
        The bank and all later ones along :data:`RATES` and along :data:`HORIZONS`.
    """

    now: Solved
    by_rate: Solved
    by_horizon: Solved


@dataclass(frozen=True)
class CostView:
    """One setting of the two banks.

    Attributes
    ----------
    inputs
        The settings shown.
    banks
        The small bank, which is the one emptied deeper, and the large one.
    saved
        What the large bank saves over the small one, in money of today; below nothing, what it costs more.
    turns
        Discount rates at which the choice turns, 0 to 0.15.
    depth_max
        The deepest limit of the chemistry, 0 to 1.
    """

    inputs: Mapping[str, Any]
    banks: Mapping[str, BankCost]
    saved: float
    turns: tuple[float, ...]
    depth_max: float

    @property
    def is_too_deep(self) -> bool:
        """Whether the small bank is emptied deeper than its chemistry stands."""
        return float(self.banks[SMALL].now["depth_frac"]) > self.depth_max + 1e-9

    @property
    def total(self) -> str:
        """The line that is compared."""
        return str(self.inputs["compared"])

    def in_all(self, which: str) -> float:
        """Return what a bank comes to, in money of today."""
        return float(self.banks[which].now[self.total])

    def along(self, which: str, axis: str) -> np.ndarray:
        """Return what a bank comes to along ``"rate"`` or ``"horizon"``."""
        solved = self.banks[which].by_rate if axis == "rate" else self.banks[which].by_horizon
        return np.asarray(solved[self.total], float)


def cost_view(design: Design, inputs: Mapping[str, Any]) -> CostView:
    """Work out both banks at a setting, along the discount rate and along the horizon.

    Parameters
    ----------
    design
        A sized system; its load, voltage, chemistry and the price of its battery unit are kept.
    inputs
        Settings: ``discount_rate_frac``, ``horizon_years``, ``depth_frac`` and ``depth_large_frac`` of the two banks
        (the deeper one makes the small bank, whichever it is), ``cycles_year_count``, ``autonomy_days``,
        ``life_temp_c``, and ``compared``, the line that is compared.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity or of a table.
    """
    shallow, deep = sorted((inputs["depth_frac"], inputs["depth_large_frac"]))
    depths = {SMALL: deep, LARGE: shallow}
    banks = {which: _bank(design, {**inputs, "depth_frac": depth}) for which, depth in depths.items()}
    total, both = inputs["compared"], (banks[SMALL], banks[LARGE])
    now, along = _saved(*(b.now[total] for b in both)), _saved(*(b.by_rate[total] for b in both))
    return CostView(inputs, banks, float(now), _crossings(RATES, along), float(design.given["depth_max_frac"]))


def _bank(design: Design, inputs: Mapping[str, Any]) -> BankCost:
    cycles = data.cycle_life(design.plan.choices.chemistry)
    of_bank = {"cycle_life": cycles, "cycle_depth_least_frac": cycles.x[0], "unit_cost": design.parts.battery_unit.cost}
    given = {**design.given, **inputs, **of_bank, "year_by_row_years": YEARS}
    sheet = design.system.sheet.upto("bank_needed_ah") + BANK_OVER_YEARS
    now = sheet.solve({n: given[n] for n in sheet.inputs})

    def along(**moved: np.ndarray) -> Solved:
        return BANK_AGAIN.solve({n: now[n] for n in BANK_AGAIN.inputs} | moved)

    return BankCost(now, along(discount_rate_frac=RATES), along(horizon_years=HORIZONS))


def _saved(first: Any, second: Any) -> Any:
    return SAVED.solve({"first_banks_cost": first, "second_banks_cost": second})["saved_cost"]


def _crossings(xs: np.ndarray, ys: np.ndarray) -> tuple[float, ...]:
    """Return where a curve changes its sign, straight between two points."""
    found = []
    ys = np.round(ys, 6)  # two banks that cost the same are not turned by the noise of their sums
    for i in np.flatnonzero(ys[:-1] * ys[1:] < 0):
        (low, at_low), (high, at_high) = sorted(zip(ys[i : i + 2], xs[i : i + 2], strict=True))
        found.append(float(np.interp(0, [low, high], [at_low, at_high])))
    return tuple(found)
