"""The catalogue of mistakes: each is the same worksheet with one line written otherwise.

The wrong expressions stand in ``catalogue/``, a file a topic, in the grammar of worksheets; nothing about a mistake is
computed anywhere but by solving the worksheet that :meth:`Mistake.in_sheet` returns.
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from offgrid_core.errors import DataError
from offgrid_core.worksheet import SEVERITIES, Sheet

_FOLDER = Path(__file__).with_name("catalogue")


@dataclass(frozen=True)
class Mistake:
    """One catalogued way to go wrong.

    Attributes
    ----------
    id
        Stable id, such as ``"TE-02"``.
    name
        What is done, in the trade's words; for the instructor.
    family
        The habit behind it.
    severity
        ``"danger"``, ``"damage"`` or ``"service"``.
    question
        The one question a learner is asked: at most 30 words, no answer in it, no operation named.
    consequence
        What would happen on site; told only after the learner has mended it, and only for a danger.
    lines
        Line name → the wrong expression for it. Where it names several lines, they are alternatives: the same
        habit in the worksheets that have one or the other.
    credit
        What an answer with this mistake still gets right, as a clause after "…"; may be empty.
    """

    id: str
    name: str
    family: str
    severity: str
    question: str
    consequence: str
    lines: Mapping[str, str]
    credit: str = ""

    def in_sheet(self, sheet: Sheet, line: str) -> Sheet:
        """Return the worksheet of somebody who makes this mistake in ``line``."""
        return sheet.written(**{line: self.lines[line]})

    def somewhere_in(self, sheet: Sheet) -> Sheet:
        """Return the worksheet of somebody who makes this mistake in the one line of it that it is known in."""
        return self.in_sheet(sheet, next(n for n in self.lines if n in sheet))


@cache
def catalogue() -> Mapping[str, Mistake]:
    """Return every mistake by id.

    Raises
    ------
    DataError
        Naming the row that lacks something, or has a severity that is not one.
    """
    found: dict[str, Mistake] = {}
    for path in sorted(_FOLDER.glob("*.toml")):
        for id_, row in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if id_ in found:
                raise DataError(f"{path.name}: {id_} is in the catalogue already")
            found[id_] = _made(id_, row)
    return found


def mistake(id_: str) -> Mistake:
    """Return one mistake by id, or refuse."""
    if id_ not in catalogue():
        raise DataError(f"the catalogue of mistakes has no {id_}")
    return catalogue()[id_]


def on_lines(lines: Iterable[str]) -> list[tuple[Mistake, str]]:
    """Return every mistake that can be made in one of these lines, with that line."""
    return [(m, name) for name in lines for m in catalogue().values() if name in m.lines]


def worst_first(ids: Iterable[str]) -> list[Mistake]:
    """Return mistakes by severity, the worst first; of equal ones, in the order given."""
    return sorted((mistake(i) for i in ids), key=lambda m: SEVERITIES.index(m.severity))


def _made(id_: str, row: Mapping[str, object]) -> Mistake:
    try:
        made = Mistake(id=id_, **row)  # type: ignore[arg-type]
    except TypeError as e:
        raise DataError(f"catalogue of mistakes, {id_}: {e}") from None
    if made.severity not in SEVERITIES:
        raise DataError(
            f"catalogue of mistakes, {id_}: severity is one of {', '.join(SEVERITIES)}, not {made.severity!r}"
        )
    return made
