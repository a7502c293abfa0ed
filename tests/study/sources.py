"""What the source's parameter names stand for in the lines of the slots, written apart from the catalogue's lines.

A text formula of ``tests/mistakes`` speaks of ``E_day``, ``DoD`` or ``f_ret``. Here each gets its number from what
stands on a learner's own page, so that wrong ÷ correct is the factor by which that learner's line goes wrong. What a
formula has beside the line in question (the bank's voltage, in a line of watt-hours) cancels, and is 1.

The names stand in the modules ``lines_of_…``, found by their name: ``BY_LINE`` for a line, ``BY_MISTAKE`` for a mistake
that reads its line otherwise, by its id or, where only one of its lines does, by its id and that line.
"""

import pkgutil
from importlib import import_module
from pathlib import Path

from study.reading import ROWS, Reading

_HERE = Path(__file__).parent
_LINES = [
    import_module(f"study.{m.name}") for m in pkgutil.iter_modules([str(_HERE)]) if m.name.startswith("lines_of_")
]
_BY_LINE: dict[str, Reading] = {}
_BY_MISTAKE: dict[str | tuple[str, str], Reading] = {}
for _module in _LINES:
    for _all, _own in ((_BY_LINE, _module.BY_LINE), (_BY_MISTAKE, _module.BY_MISTAKE)):
        assert not _all.keys() & _own.keys(), f"{_module.__name__} reads again: {_all.keys() & _own.keys()}"
        _all |= _own

__all__ = ["ROWS", "reading"]


def reading(id_: str, line: str) -> Reading:
    """Return how a mistake's text is read in a line; a new mistake in focus needs its names here."""
    return _BY_MISTAKE.get((id_, line)) or _BY_MISTAKE.get(id_) or _BY_LINE[line]
