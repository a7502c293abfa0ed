"""Protection of the main circuits of a design: a device for each fuse, and what opens first."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.data import ProtectiveDevice
from offgrid_core.quantities import say, show
from offgrid_core.sizing.protection import DEVICES, NEVER_EQUALIZED, PROTECTION
from offgrid_core.system.parts import columns
from offgrid_core.worksheet import Finding, Solved

#: The rows that are added to those of the circuits table.
BATTERY_ROWS = ("battery string", "bank, main leads")
DEVICE_GIVENS = {
    "device_dc_by_row_v": "dc_voltage_v",
    "device_interrupting_by_row_a": "interrupting_a",
    "device_smallest_by_row_a": "size_from_a",
    "device_largest_by_row_a": "size_to_a",
}


@dataclass(frozen=True)
class Protection:
    """What protects the main circuits.

    Attributes
    ----------
    solved
        Fault currents, highest voltages and the order of opening; rows as in the circuits table.
    circuit_names
        Names of those rows.
    rated
        Every device against its row: the circuits, then the battery string and the main fuse.
    names, devices
        Names of those rows, and the device of each.
    """

    solved: Solved
    circuit_names: tuple[str, ...]
    rated: Solved
    names: tuple[str, ...]
    devices: tuple[ProtectiveDevice, ...]

    def findings(self, shown: Callable[[str, Any], str]) -> list[Finding]:
        """Return what every limit says; one by row, of its worst row. ``shown`` is the text of a value."""
        return self.solved.findings(shown, self.circuit_names) + self.rated.findings(shown, self.names)

    def verdicts(self) -> tuple[str, ...]:
        """Return in words what opens first, and whether module strings need fuses of their own."""
        s = self.solved
        broken = s.broken()["selective_margin_ratio"]
        ratio, wanted = show("ratio", s["selective_given_ratio"], figures=3), show("ratio", s["selective_ratio"])
        order = (
            say("protection.not_selective", ratio=ratio, wanted=wanted)
            if broken
            else say("protection.selective", ratio=ratio)
        )
        amounts = {"current": show("a", s["array_backfeed_a"]), "most": show("a", s["module_fuse_max_a"])}
        strings = "fuse_each_string" if s["unfused_spare_a"] < 0 else "no_fuse_each_string"
        return order, say(f"protection.{strings}", **amounts)


def protect(given: Mapping[str, Any], circuit_names: Sequence[str], devices: Sequence[ProtectiveDevice]) -> Protection:
    """Find the fault currents of a solved circuits table and a device for each row.

    Parameters
    ----------
    given
        The circuits table as solved, with what :data:`~offgrid_core.sizing.protection.PROTECTION` needs beside it.
    circuit_names
        Its rows, the module string first.
    devices
        In the order in which they are tried.

    Raises
    ------
    WorksheetError
        For a missing given, or a value that a table refuses.
    """
    sheet = PROTECTION if "equalize_set_v" in given else PROTECTION.replace(NEVER_EQUALIZED)
    solved = sheet.solve(given)
    bank = {
        "fuse_by_row_a": ["battery_string_fuse_a", "bank_main_fuse_a"],
        "voltage_most_by_row_v": ["charge_most_v"] * 2,
        "fault_by_row_a": ["bank_fault_a"] * 2,
    }
    rows = {name: np.append(solved[name], [solved[line] for line in lines]) for name, lines in bank.items()}
    chosen = pick_devices(rows, devices)
    rated = DEVICES.solve(rows | columns(chosen, DEVICE_GIVENS))
    return Protection(solved, tuple(circuit_names), rated, (*circuit_names, *BATTERY_ROWS), chosen)


def pick_devices(rows: Mapping[str, Any], devices: Sequence[ProtectiveDevice]) -> tuple[ProtectiveDevice, ...]:
    """Return for each row the first device that stands its voltage, its fault current and its size.

    Where none does, the voltage counts before the fault current, of which the nearest rating is taken, and both
    before the size.
    """
    solved = DEVICES.solve({**rows, **columns(devices, DEVICE_GIVENS, (-1, 1))})
    broken = solved.broken()
    short = np.maximum(-solved["device_interrupting_margin_by_row_a"], 0)
    keys = (broken["device_size_margin_by_row_a"], short, broken["device_voltage_margin_by_row_v"])
    return tuple(devices[place] for place in np.lexsort(keys, axis=0)[0])
