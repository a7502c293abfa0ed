"""What a system as built still carries when the load grows, and which limit gives way first.

The question of somebody who already owns a bank or an array, and of a client who wants a freezer next year.
Everything as built stays: units, strings, modules, controllers, inverter. Only the loads draw more.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.sizing.loads import GROWN
from offgrid_core.system import loading
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved

#: Loads looked at, as multiples of the plan's.
LOADS_TRIED = np.round(np.arange(0.1, 3.0 + 1e-9, 0.02), 2)
_BUILT = ("strings_count", "array_strings_count", "controllers_count")


@dataclass(frozen=True)
class GivesWay:
    """A limit, and the load at which it gives way.

    Attributes
    ----------
    name, label, severity, mend
        Of the limit.
    at_load_factor
        The smallest load tried that breaks it, as a multiple of the plan's; ``None`` if three times the load does not.
    """

    name: str
    label: str
    severity: str
    mend: str
    at_load_factor: float | None


def gives_way(design: Design) -> list[GivesWay]:
    """Return the limits in the order in which they give way as the load grows; those that never do come last."""
    sheet, first = design.system.sheet, dict[str, float]()
    for factor in LOADS_TRIED:
        for name, broken in with_load(design, float(factor)).broken().items():
            if np.any(broken):
                first.setdefault(name, float(factor))
    limits = [x for x in sheet.values() if x.severity]
    found = [GivesWay(x.name, x.label, x.severity, x.mend, first.get(x.name)) for x in limits]
    return sorted(found, key=lambda g: np.inf if g.at_load_factor is None else g.at_load_factor)


def with_load(design: Design, load_factor: float) -> Solved:
    """Return the chain of a design with every load drawing so many times its power; the counts stay as built."""
    given = {**design.given, "load_factor": load_factor}
    grown = GROWN.solve(given)
    given |= {"power_by_row_w": grown["grown_by_row_w"], "standby_by_row_w": grown["grown_standby_by_row_w"]}
    given |= loading.peaks_of(design.plan, given)
    given |= loading.loads_of(given).givens
    if design.plan.choices.spell_rule == "busiest_run":
        given |= loading.busiest_run(given)
    return design.system.sheet.solve(given, held=_as_built(design))


def _as_built(design: Design) -> Mapping[str, Any]:
    return {name: design.system[name] for name in _BUILT}
