"""What the panel of strings shows: units on hand put in rows, and how the rows share the current.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from offgrid_core import data
from offgrid_core.sizing.sharing import SHARING
from offgrid_core.sizing.strings_teaching import AS_WIRED, SHARES
from offgrid_core.system.banks import sharing_of
from offgrid_core.system.design import Design
from offgrid_core.system.givens import fields_of
from offgrid_core.system.parts import UNIT_GIVENS
from offgrid_core.worksheet import Solved

#: Current that is shared out, A; the shares do not depend on it.
_CURRENT_A = 100.0


@dataclass(frozen=True)
class StringsView:
    """Units in rows at one setting.

    Attributes
    ----------
    unit
        The battery unit.
    placement
        Where the two leads are taken.
    wired
        The rows solved.
    sharing
        How the strings share the current; nothing for fewer than two.
    """

    unit: data.BatteryUnit
    placement: str
    wired: Solved
    sharing: Solved | None

    @property
    def strings(self) -> int:
        """Whole strings."""
        return int(self.wired["strings_count"])

    @property
    def series(self) -> int:
        """Units in each of them."""
        return int(self.wired["units_in_series_count"])

    @property
    def left_over(self) -> int:
        """Units in no whole string."""
        return int(self.wired["left_over_count"])

    @property
    def fits(self) -> bool:
        """Whether the volts as wired are those of the system."""
        return not self.wired.broken()["wired_margin_v"]

    @property
    def shares(self) -> list[float]:
        """Share of the current in each string; a single string has it all."""
        if self.sharing is None:
            return [1.0] * self.strings
        return [float(share) for share in self.sharing["string_share_by_row_frac"]]


def units_in_rows(design: Design, inputs: Mapping[str, Any]) -> StringsView:
    """Put battery units in strings of a chosen length.

    Parameters
    ----------
    design
        Gives the voltage of the system, the chemistry and what the cold leaves.
    inputs
        ``owned_units_count``, ``units_in_series_count``, ``link_ohm`` (Ω), and by key ``unit`` and ``placement``.

    Raises
    ------
    OffgridError
        If a loop of strings has no resistance at all.
    """
    unit = next(u for u in data.battery_units() if u.key == inputs["unit"])
    moved = {n: v for n, v in inputs.items() if n not in ("unit", "placement")}
    given = {**design.given, **fields_of(unit, UNIT_GIVENS), **moved, "kept_frac": design.system["kept_frac"]}
    wired = AS_WIRED.solve(given)
    shared = sharing_of(wired, _CURRENT_A).get(inputs["placement"])
    judged = SHARING + SHARES
    sharing = shared and judged.solve({n: shared[n] for n in judged.inputs})
    return StringsView(unit, inputs["placement"], wired, sharing)
