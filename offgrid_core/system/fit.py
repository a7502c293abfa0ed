"""Parts that fit: every combination of battery unit, module, controller and inverter judged by every limit at once.

The kinds of part lie on axes of their own, so that one solve judges a whole chemistry with one kind of controller.
For each combination the best count of modules in series is taken. Cost is shown; it never ranks first.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.fitting import TOGETHER_AC, TOGETHER_DC
from offgrid_core.sizing.week import SPELL_OF_THAT_RUN
from offgrid_core.system import givens as give
from offgrid_core.system import loading
from offgrid_core.system import parts as pick
from offgrid_core.system.design import Design, chain_of
from offgrid_core.system.plan import Plan
from offgrid_core.worksheet import Sheet, Solved

ROLES = ("battery_unit", "module", "controller", "inverter")
_COUNTS = ("modules_in_series_count", "units_count", "strings_count", "modules_count", "controllers_count")
#: Givens that some chemistries do not have, and the table that is solved beforehand.
_OF_CHEMISTRY = ("equalize_cell_v", "gravity_of_charge", "freezing_of_gravity", "busiest_run", "days_of_run")
#: Combinations and series counts solved at once: about 100 MB.
_MOST_CELLS = 400_000


@dataclass(frozen=True)
class Catalogue:
    """The parts to choose among."""

    battery_unit: Sequence[data.BatteryUnit]
    module: Sequence[data.Module]
    controller: Sequence[data.Controller]
    inverter: Sequence[data.Inverter]


@dataclass(frozen=True)
class Verdict:
    """What the limits say of one part.

    Attributes
    ----------
    role, part
        Its kind and itself.
    fits
        In how many combinations it passes every limit.
    stopped_by
        Where it passes in none: the limits that stop it in the combination that breaks the fewest.
    """

    role: str
    part: Any
    fits: int
    stopped_by: tuple[str, ...]


@dataclass(frozen=True)
class Fit:
    """All combinations judged.

    Attributes
    ----------
    catalogue
        The parts judged.
    limits
        Labels of the limits, in the order of the bits of ``broken``.
    broken
        For each combination, a bit for each limit that it breaks with its best count in series: integers of the
        shape (battery units, modules, controllers, inverters).
    counts
        By name, counts of that best layout, in the same shape; ``cost`` in the catalogue's currency.
    """

    catalogue: Catalogue
    limits: tuple[str, ...]
    broken: np.ndarray
    counts: Mapping[str, np.ndarray]
    cost: np.ndarray

    @property
    def passing(self) -> list[tuple[int, ...]]:
        """Places of the combinations that pass: fewest strings first, then fewest controllers, modules, units, cost."""
        places = np.argwhere(self.broken == 0)
        at = tuple(places.T)
        keys = ("units_count", "modules_count", "controllers_count", "strings_count")
        order = np.lexsort((self.cost[at], *(self.counts[k][at] for k in keys)))
        return [tuple(int(i) for i in places[n]) for n in order]

    @property
    def verdicts(self) -> list[Verdict]:
        """What stops each part, or in how many combinations it fits."""
        return [verdict for axis, role in enumerate(ROLES) for verdict in self._of(axis, role)]

    def _of(self, axis: int, role: str) -> Iterator[Verdict]:
        for place, part in enumerate(getattr(self.catalogue, role)):
            masks = np.take(self.broken, place, axis).ravel()
            best = int(masks[np.argmin(np.bitwise_count(masks))])
            stopped = tuple(label for bit, label in enumerate(self.limits) if best >> bit & 1)
            yield Verdict(role, part, int(np.sum(masks == 0)), stopped)


def shipped() -> Catalogue:
    """Return the shipped catalogue."""
    return Catalogue(data.battery_units(), data.modules(), data.controllers(), data.inverters())


def parts_that_fit(design: Design, catalogue: Catalogue | None = None) -> Fit:
    """Judge every combination of a catalogue for the plan of a design; parts the plan names are judged like others.

    Parameters
    ----------
    design
        A sized plan: its loads, site, tilt, choices and assumptions are kept.
    catalogue
        The shipped one by default.

    Raises
    ------
    OffgridError
        If a value leaves the range of a table.
    """
    catalogue = _narrowed(catalogue or shipped(), design.plan)
    inverters = max(1, len(catalogue.inverter))
    shape = (len(catalogue.battery_unit), len(catalogue.module), len(catalogue.controller), inverters)
    broken = np.zeros(shape, np.int64)
    counts = {name: np.zeros(shape) for name in (*_COUNTS, "cost")}
    limits: dict[str, int] = {}
    inverter_axis = _inverter_axis(design, catalogue.inverter) if design.plan.has_ac else {}
    for units, controllers in _blocks(catalogue, shape):
        solved = _solved(design, catalogue, units, controllers, inverter_axis)
        full = (len(units), shape[1], len(controllers), shape[3], len(pick.SERIES))
        mask = _mask(solved, full, limits)
        best = _best_series(mask, solved["modules_count"])
        where = np.ix_(units, range(shape[1]), controllers, range(shape[3]))
        broken[where] = _taken(mask, best)
        cost = {"cost": solved["parts_cost" if design.plan.has_ac else "dc_parts_cost"]}
        for name, values in ({n: solved[n] for n in _COUNTS} | cost).items():
            counts[name][where] = _taken(np.broadcast_to(values, full), best)
    return Fit(catalogue, tuple(limits), broken, counts, counts.pop("cost"))


def _narrowed(catalogue: Catalogue, plan: Plan) -> Catalogue:
    """Return the catalogue with only the unit and module on hand, and with no inverter where all loads are DC."""
    return Catalogue(
        [u for u in catalogue.battery_unit if plan.owned.battery_unit in (None, u.key)],
        [m for m in catalogue.module if plan.owned.module in (None, m.key)],
        catalogue.controller,
        catalogue.inverter if plan.has_ac else (),
    )


def _blocks(catalogue: Catalogue, shape: tuple[int, ...]) -> Iterator[tuple[list[int], list[int]]]:
    """Yield places of units and controllers that share a sheet, no more at once than memory likes."""
    most = max(1, _MOST_CELLS // (shape[1] * shape[2] * shape[3] * len(pick.SERIES)))
    for chemistry in dict.fromkeys(u.chemistry for u in catalogue.battery_unit):
        units = [n for n, u in enumerate(catalogue.battery_unit) if u.chemistry == chemistry]
        for kind in dict.fromkeys(c.kind for c in catalogue.controller):
            controllers = [n for n, c in enumerate(catalogue.controller) if c.kind == kind]
            for first in range(0, len(units), most):
                yield units[first : first + most], controllers


def _solved(
    design: Design, catalogue: Catalogue, units: list[int], controllers: list[int], inverter_axis: Mapping[str, Any]
) -> Solved:
    chosen, controls = [catalogue.battery_unit[n] for n in units], [catalogue.controller[n] for n in controllers]
    given = {n: v for n, v in design.given.items() if n not in _OF_CHEMISTRY}
    given |= give.chemistry_givens(data.chemistry(chosen[0].chemistry))
    given |= pick.columns(chosen, pick.UNIT_GIVENS | {"unit_cost": "cost"}, (-1, 1, 1, 1, 1))
    given |= pick.columns(catalogue.module, pick.MODULE_GIVENS | {"module_cost": "cost"}, (-1, 1, 1, 1))
    given |= pick.columns(controls, pick.CONTROLLER_GIVENS | {"controller_cost": "cost"}, (-1, 1, 1))
    given["controller_bank_v"] = _nearest_bank(controls, given["bank_voltage_v"])
    given |= {**inverter_axis, "modules_in_series_count": pick.SERIES}
    return _sheet(design, given, controls[0].kind).solve({**given, **design.plan.assume})


def _sheet(design: Design, given: Mapping[str, Any], kind: str) -> Sheet:
    choices = design.plan.choices
    sheet = chain_of(design.plan, given, kind) + TOGETHER_DC
    if choices.spell_rule == "busiest_run":
        sheet = sheet.replace(*SPELL_OF_THAT_RUN[choices.bank_method])
    return sheet + TOGETHER_AC if design.plan.has_ac else sheet


def _nearest_bank(controls: Sequence[data.Controller], wanted: float) -> np.ndarray:
    """Return, for each controller, the bank voltage it can be set to that is nearest to this one."""
    nearest = [min(c.banks_v, key=lambda v: abs(v - wanted)) for c in controls]
    return np.array(nearest, float).reshape(-1, 1, 1)


def _inverter_axis(design: Design, inverters: Sequence[data.Inverter]) -> dict[str, Any]:
    """Return what depends on the inverter, its idle power in the loads too, with the inverters on their axis."""
    columns = pick.columns(inverters, pick.INVERTER_GIVENS | {"inverter_bank_v": "bank_v", "inverter_cost": "cost"})
    each = [
        {**design.given, **{n: float(v[i]) for n, v in columns.items()}, **design.plan.assume}
        for i in range(len(inverters))
    ]
    loads = [loading.loads_of(given).givens for given in each]
    if design.plan.choices.spell_rule == "busiest_run":
        days = design.given["autonomy_days"]
        for worked, given in zip(loads, each, strict=True):
            worked["battery_spell_wh"] = float(loading.busiest_run(given)["busiest_run"](days))
    axis: dict[str, Any] = {n: v.reshape(-1, 1) for n, v in columns.items()}
    for name in loads[0]:
        values = np.array([worked[name] for worked in loads])
        axis[name] = values.reshape(len(inverters), 1, *values.shape[1:])
    return axis


def _mask(solved: Solved, full: tuple[int, ...], limits: dict[str, int]) -> np.ndarray:
    """Return a bit for each broken limit; ``limits`` keeps the place of each label's bit from block to block."""
    mask = np.zeros(full, np.int64)
    for name, broken in solved.broken().items():
        bit = limits.setdefault(solved.sheet[name].label, len(limits))
        mask |= broken.astype(np.int64) << bit
    return mask


def _best_series(mask: np.ndarray, tie: np.ndarray) -> np.ndarray:
    """Return the place of the series count that breaks the fewest limits, and among those has the smallest ``tie``."""
    return np.asarray(np.argmin(np.bitwise_count(mask) * 1e6 + tie, axis=-1)[..., None])


def _taken(values: np.ndarray, place: np.ndarray) -> np.ndarray:
    return np.take_along_axis(values, place, axis=-1)[..., 0]
