"""What the panel of depth shows: the label that a limit asks for, and how long a bank of that label lasts.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.depth_teaching import DEPTH_LIFE, LABEL_HOURS
from offgrid_core.sizing.life import LIFE_AT_SITE
from offgrid_core.system.design import Design
from offgrid_core.system.explore import span_of
from offgrid_core.worksheet import Solved

_NEEDED = "bank_needed_ah"


@dataclass(frozen=True)
class DepthView:
    """One setting of the depth limit.

    Attributes
    ----------
    depths
        Limits along the curves, 0 to 1.
    chain
        The bank solved at the setting.
    label, life
        Label of the hours chosen, and life and price, solved at the setting.
    labels, lives
        The same along ``depths``.
    depth_max
        The deepest limit of the chemistry, 0 to 1.
    """

    depths: np.ndarray
    chain: Solved
    label: Solved
    life: Solved
    labels: Solved
    lives: Solved
    depth_max: float

    @property
    def depth(self) -> float:
        """The limit of the setting, 0 to 1."""
        return float(self.chain["depth_frac"])

    @property
    def is_too_deep(self) -> bool:
        """Whether the limit is deeper than the chemistry's."""
        return self.depth > self.depth_max + 1e-9

    @property
    def hours(self) -> float:
        """Hours of the label, h."""
        return float(self.label["capacity_hours_h"])

    def along(self, name: str) -> np.ndarray:
        """Return a line of label or life along the limits."""
        solved = self.labels if name in self.labels else self.lives
        return np.broadcast_to(np.asarray(solved[name], float), self.depths.shape)


def depth_view(design: Design, inputs: Mapping[str, Any]) -> DepthView:
    """Work out the label and the life at a setting and along the depth limit.

    Parameters
    ----------
    design
        A sized system; load, voltage, form of the bank and price of its battery unit are kept.
    inputs
        Settings that differ from the design's, among them ``capacity_hours_h``, the hours of the label.

    Raises
    ------
    OffgridError
        If a value leaves the validity of a quantity or of a table.
    """
    hours = {"capacity_hours_h": inputs["capacity_hours_h"]}
    given = {**design.given, **{n: v for n, v in inputs.items() if n not in hours}}
    sheet = design.system.sheet.upto(_NEEDED, "running_current_a")
    cycles = data.cycle_life(design.plan.choices.chemistry)
    worn = {
        "cycle_life": cycles,
        "cycle_depth_least_frac": cycles.x[0],
        "life_temp_c": life_temp_of(design),
        "unit_cost": design.parts.battery_unit.cost,
    }

    def follow(chain: Solved) -> tuple[Solved, Solved]:
        shared = {**given, **worn, **inputs, **{n: chain[n] for n in (*chain.sheet, *chain.sheet.inputs)}, **hours}
        label, life = ({n: shared[n] for n in of.inputs} for of in (LABEL_HOURS, DEPTH_LIFE))
        return LABEL_HOURS.solve(label), DEPTH_LIFE.solve(life)

    depths = span_of("depth_frac", given)
    point = sheet.solve(given)
    curve = sheet.solve({**given, "depth_frac": depths})
    return DepthView(depths, point, *follow(point), *follow(curve), float(given["depth_max_frac"]))


def life_temp_of(design: Design) -> float:
    """Return the mean battery temperature that the site's air gives, °C."""
    sheet = LIFE_AT_SITE.upto("life_temp_c")
    return float(sheet.solve({n: design.system[n] for n in sheet.inputs})["life_temp_c"])
