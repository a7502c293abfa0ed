"""What a design costs over the years, two designs beside each other, and which input the choice hangs on.

All prices are invented classroom data and the rates are assumptions; the sums are sound, the amounts are nobody's
quotation. Designs are compared by their life-cycle cost, which is fair only where they deliver about the same energy:
:func:`side_by_side` has the energy and the cost of a kilowatt-hour in it too.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import QUANTITIES, label_of
from offgrid_core.sizing.cost import COST, YEARS
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved, Swing, sensitivity

RESULT = "life_cycle_cost"
#: What stands side by side, in the order shown.
COMPARED = (
    "served_year_wh",
    "first_cost",
    "bank_replaced_count",
    "replaced_cost",
    "upkeep_cost",
    "fuel_cost",
    "salvage_cost",
    RESULT,
    "year_cost",
    "kwh_cost",
)
#: How far each input is usually doubted, for a tornado: classroom spans round the assumptions.
SPANS: dict[str, tuple[float, float]] = {
    "discount_rate_frac": (0.02, 0.10),
    "horizon_years": (15, 25),
    "battery_price_factor": (0.6, 1.4),
    "fuel_litre_cost": (0.8, 2.5),
    "fuel_growth_frac": (0.0, 0.05),
    "upkeep_frac": (0.005, 0.02),
    "balance_frac": (0.2, 0.6),
    "salvage_frac": (0.0, 0.2),
    "controller_life_years": (7, 15),
    "inverter_life_years": (7, 15),
}
#: Inputs that are whole numbers of years.
_WHOLE = ("horizon_years", "controller_life_years", "inverter_life_years", "generator_life_years", "array_life_years")
_POINTS = 65
_ZOOMS = 6


def givens_of(
    design: Design, served_year_wh: float, bank_life_years: float, fuel_year_l: float = 0.0
) -> dict[str, Any]:
    """Return the inputs of the cost worksheet for a design and what a year of it came to.

    Parameters
    ----------
    design
        A sized system: its counts, and the invented prices of its parts. Parts that the plan has on hand are priced
        like others, as in the order list.
    served_year_wh
        Energy served in a mean year, Wh. Counted at the battery it has the inverter's losses in it, and a
        kilowatt-hour comes out cheaper than at the socket.
    bank_life_years
        Years until the bank is worn out.
    fuel_year_l
        Fuel that the generator burns in a mean year, L.

    Returns
    -------
    dict
        Givens of :data:`offgrid_core.sizing.cost.COST`; any of them may be overwritten.
    """
    parts, system, generator = design.parts, design.system, design.plan.generator
    assumed = {n: a.value for n, a in YEARS_ASSUMPTIONS.items()} | design.plan.assume
    return {n: value for n, value in assumed.items() if n in COST.inputs} | {
        "year_by_row_years": YEARS,
        "units_count": float(system["units_count"]),
        "unit_cost": parts.battery_unit.cost,
        "modules_count": float(system["modules_count"]),
        "module_cost": parts.module.cost,
        "controllers_count": float(system["controllers_count"]),
        "controller_cost": parts.controller.cost,
        "inverter_cost": parts.inverter.cost if parts.inverter else 0.0,
        "generator_rated_w": generator.rated_w if generator else 0.0,
        "bank_life_years": bank_life_years,
        "fuel_year_l": fuel_year_l,
        "served_year_wh": served_year_wh,
    }


def cost_of(design: Design, served_year_wh: float, bank_life_years: float, fuel_year_l: float = 0.0) -> Solved:
    """Return the cost worksheet of a design, solved; parameters as in :func:`givens_of`.

    Raises
    ------
    OffgridError
        If a value cannot be worked with: no energy delivered, a bank that lasts no time.
    """
    return COST.solve(givens_of(design, served_year_wh, bank_life_years, fuel_year_l))


@dataclass(frozen=True)
class Compared:
    """One row of designs side by side.

    Attributes
    ----------
    name, label
        The quantity and its trade words.
    values
        One for each design, in the unit of the name; money in whatever currency the prices are in.
    """

    name: str
    label: str
    values: tuple[float, ...]


def side_by_side(designs: Sequence[tuple[str, Mapping[str, Any]]]) -> list[Compared]:
    """Return the rows of a table of two to four designs, in the order of :data:`COMPARED`.

    Parameters
    ----------
    designs
        Name and givens of each design (see :func:`givens_of`).

    Raises
    ------
    OffgridError
        If there are fewer than two or more than four designs, two share a name, or one cannot be worked.
    """
    names = [name for name, _ in designs]
    if not 2 <= len(names) <= 4 or len(set(names)) < len(names):
        raise OffgridError(f"side by side: two to four designs of different names are wanted, not {names}")
    solved = [COST.solve(given) for _, given in designs]
    return [
        Compared(n, COST[n].label if n in COST else label_of(n), tuple(float(each[n]) for each in solved))
        for n in COMPARED
    ]


def reverses(one: Mapping[str, Any], other: Mapping[str, Any], moved: str) -> float | None:
    """Return the value of an input, nearest to the present one, at which the dearer design becomes the cheaper.

    Parameters
    ----------
    one, other
        Givens of two designs, which have the same value of the input now.
    moved
        The input to move, over the span of its slider: discount rate, horizon, battery price, fuel price, and so on.

    Returns
    -------
    float or None
        In the unit of the input; a whole number where the input is whole years. ``None`` where no value in the span
        reverses the choice, or where the two cost exactly the same now.

    Raises
    ------
    OffgridError
        If no such input of the cost worksheet has a slider, or the designs differ in it.

    Notes
    -----
    Costs jump where a replacement moves over the horizon, so the order is looked at on 65 points of the span, and
    between the two where it changes 65 again, and again. An order that changes and changes back between two
    neighbouring points is not seen.
    """
    slider = QUANTITIES[moved].slider if moved in QUANTITIES and moved in COST.inputs else None
    if slider is None:
        able = ", ".join(n for n in COST.inputs if n in QUANTITIES and QUANTITIES[n].slider)
        raise OffgridError(f"the choice cannot be asked about {moved}; it can about {able}")
    if one[moved] != other[moved]:
        raise OffgridError(f"the two designs have different values of {moved}: {one[moved]:g} and {other[moved]:g}")
    low, high, _ = slider
    grid = np.arange(low, high + 1) if moved in _WHOLE else np.linspace(low, high, _POINTS)
    now = float(one[moved])
    if not (before := int(_dearer(one, other, moved, now))):
        return None
    points = np.union1d(grid, [now])
    found = []
    for way in (points[points <= now][::-1], points[points >= now]):
        place = int(np.argmax(_dearer(one, other, moved, way) == -before))
        if place:  # the first point of either way is the present one, where nothing has turned
            found.append(_narrowed(one, other, moved, way[place - 1], way[place]))
    return min(found, key=lambda x: abs(x - now), default=None)


def _dearer(one: Mapping[str, Any], other: Mapping[str, Any], moved: str, at: Any) -> np.ndarray:
    """Return 1 where the first design is the dearer, −1 where the other is, 0 where they cost the same."""
    sheet = COST.upto(RESULT)
    mine, yours = (sheet.solve({**given, moved: at})[RESULT] for given in (one, other))
    return np.broadcast_to(np.where(mine > yours, 1, np.where(mine < yours, -1, 0)), np.shape(at))


def _narrowed(one: Mapping[str, Any], other: Mapping[str, Any], moved: str, kept: float, turned: float) -> float:
    """Return the first value on the way from one point to another at which the choice is the other's."""
    if moved in _WHOLE:
        return float(turned)
    after = _dearer(one, other, moved, turned)
    for _ in range(_ZOOMS):
        points = np.linspace(kept, turned, _POINTS)
        place = max(int(np.argmax(_dearer(one, other, moved, points) == after)), 1)
        kept, turned = points[place - 1], points[place]
    return float(turned)


@dataclass(frozen=True)
class Bar:
    """One bar of a tornado.

    Attributes
    ----------
    swing
        The input, its two ends, and the life-cycle cost at each.
    in_steps
        Whether the cost moves in steps as the input does, because a replacement comes or goes: between the two ends
        it may then be higher or lower than at either.
    """

    swing: Swing
    in_steps: bool


def tornado(given: Mapping[str, Any], spans: Mapping[str, tuple[float, float]] = SPANS) -> list[Bar]:
    """Move one input at a time over its span and return how far the life-cycle cost goes, the farthest first.

    Parameters
    ----------
    given
        Givens of one design (see :func:`givens_of`).
    spans
        Low and high end of each input to move.

    Raises
    ------
    OffgridError
        If one of them is no input of the cost worksheet, or an end cannot be worked with.
    """
    if unknown := sorted(set(spans) - set(COST.inputs)):
        raise OffgridError(f"tornado: {', '.join(unknown)} is no input of the cost worksheet")
    return [Bar(swing, _in_steps(swing.name)) for swing in sensitivity(COST, RESULT, given, spans)]


def _in_steps(moved: str) -> bool:
    return any(name.endswith("_replaced_by_row_count") for name in COST.downstream(moved))
