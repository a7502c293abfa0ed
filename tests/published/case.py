"""Published worked examples: a source's inputs, its answer, and the worksheet that must turn one into the other.

``given`` holds what the source gives, by the worksheet's names. A name of a line among them is a value the source
starts from; whatever leads to it is then left out. Nothing is computed here but the unit of a table row (per 1000 ft
to per metre).

Tags. "seen": value or formula was read in the source or in a text that quotes it. "from memory": recalled from the
named publication, not seen. "computed": the formula is the source's, inputs and number were worked out elsewhere.
"common practice": a trade rule, no source. "seen, computed" and so on: seen formula, number worked out elsewhere.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from offgrid_core import data
from offgrid_core.quantities import read_quantity
from offgrid_core.worksheet import Sheet


@dataclass(frozen=True)
class Case:
    """One worked example."""

    id: str
    topic: str
    sheet: Sheet
    result: str
    given: Mapping[str, Any]
    expected: float
    rel_tol: float
    source: str
    tag: str
    note: str = ""


def typed(name: str, text: str) -> float:
    """Return what a person would have typed, in the unit of the name."""
    return float(read_quantity(text, name))


FLOODED = data.capacity_kept("flooded")
PRACTICE = "common practice, no source"
IEEE_1562 = "IEEE Std 1562 form"
