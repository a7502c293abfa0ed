"""What the panel of wiring shows: one circuit of a system with a fuse and a cable chosen by hand.

Pure functions of a design and a few inputs; nothing here knows a widget or a picture.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.circuits import CIRCUITS, GROUPING
from offgrid_core.sizing.fuse_teaching import COPPER
from offgrid_core.sizing.protection import PROTECTION
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Sheet, Solved

#: The lines of the circuits table that are left when fuse and cable are chosen by hand.
_CHOSEN = (
    "design_current_by_row_a",
    "ampacity_by_row_a",
    "drop_by_row_v",
    "drop_by_row_frac",
    "fuse_margin_by_row_a",
    "fuse_limit_margin_by_row_a",
    "drop_margin_by_row_frac",
)
ONE_CIRCUIT = (
    GROUPING + COPPER + Sheet(*(CIRCUITS[n] for n in _CHOSEN)) + Sheet(PROTECTION["fuse_current_margin_by_row_a"])
)


@dataclass(frozen=True)
class WiringView:
    """One circuit at one setting.

    Attributes
    ----------
    circuit
        Its name.
    solved
        Its lines.
    """

    circuit: str
    solved: Solved

    @property
    def is_broken(self) -> Mapping[str, Any]:
        """Whether each limit is broken, by name."""
        return self.solved.broken()

    @property
    def too_hot_now(self) -> bool:
        """Whether the load alone is more than the wire carries where it lies."""
        return bool(self.solved["current_by_row_a"] > self.solved["ampacity_by_row_a"])

    @property
    def wire_first(self) -> bool:
        """Whether a current that the fuse lets through is more than the wire may carry."""
        return bool(self.is_broken["fuse_margin_by_row_a"] or self.is_broken["fuse_limit_margin_by_row_a"])

    @property
    def opens_in_use(self) -> bool:
        """Whether the fuse is below what the load asks of it for hours."""
        return bool(self.is_broken["fuse_current_margin_by_row_a"])


def circuit_inputs(design: Design, circuit: str = "") -> dict[str, float]:
    """Return where a panel of one circuit starts: current, length, surroundings, and the fuse and cable as designed.

    Parameters
    ----------
    circuit
        Its name; the last main circuit of the design by default.
    """
    row = _row(design, circuit)
    names = ("current_by_row_a", "length_by_row_m", "fuse_by_row_a", "cable_by_row_mm2")
    own = {n: float(design.circuits[n][row]) for n in names}
    return own | {n: float(design.given[n]) for n in ("ambient_c", "circuits_together_count")}


def one_circuit(design: Design, inputs: Mapping[str, Any], circuit: str = "") -> WiringView:
    """Work one circuit with a fuse and a cable chosen by hand.

    Parameters
    ----------
    design
        Gives the voltage, the code setting with its tables, and the drop allowed.
    inputs
        ``current_by_row_a``, ``length_by_row_m``, ``ambient_c``, ``circuits_together_count``, ``fuse_by_row_a`` and
        ``cable_by_row_mm2``; any left out stay as designed.
    circuit
        Its name; the last main circuit of the design by default.

    Raises
    ------
    OffgridError
        For an unknown circuit, air hotter than the table of the code setting goes, or a cable that is not listed.
    """
    row = _row(design, circuit)
    columns = ("current_by_row_factor", "voltage_by_row_v", "drop_limit_by_row_frac")
    own = {n: float(design.circuits[n][row]) for n in columns}
    given = {**design.given, **own, "cables_by_row_count": 1.0, **circuit_inputs(design, circuit), **inputs}
    return WiringView(design.circuit_names[row], ONE_CIRCUIT.solve({n: given[n] for n in ONE_CIRCUIT.inputs}))


def sized_circuit(design: Design, circuit: str = "", **changed: float) -> Solved:
    """Size one main circuit by itself: from its current to fuse, cable and drop.

    Parameters
    ----------
    circuit
        Its name; the last main circuit of the design by default.
    **changed
        Inputs of the circuits table that are not as designed, such as ``ambient_c`` or ``circuits_together_count``.

    Raises
    ------
    OffgridError
        For an unknown circuit, or one beyond the tables of the code setting.
    """
    row, sheet = _row(design, circuit), GROUPING + CIRCUITS
    own = {n: float(design.circuits[n][row]) for n in sheet.inputs if "_by_row_" in n}
    given = {**design.given, **own, **changed}
    return sheet.solve({n: given[n] for n in sheet.inputs})


def _row(design: Design, circuit: str) -> int:
    names = design.circuit_names
    if circuit and circuit not in names:
        raise OffgridError(f"{design.plan.title} has no circuit called {circuit}; its circuits are {', '.join(names)}")
    return names.index(circuit) if circuit else len(names) - 1
