"""Which catalogued mistake gives a number, worked from the learner's own earlier steps.

One mistake in the lines of the step; if none fits, two mistakes in two of its lines; if none fits, a unit. Where
mistakes in focus fit, others that give the same number are not brought up.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import combinations
from typing import Any

from offgrid_core.errors import OffgridError
from offgrid_core.practice.mistakes import Mistake, on_lines
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.tolerance import accepts, matches
from offgrid_core.quantities import menu
from offgrid_core.worksheet import Sheet

#: Factors between a number and the same number in a unit that the menu does not offer.
_UNIT_FACTORS = (1000.0, 12.0, 24.0, 60.0, 100.0)

Held = Mapping[str, Any]
_Wrong = tuple[Mistake, str]


class _Same:
    """A worksheet as a key of what was worked out about it: two are the same only if they are one."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet

    def __hash__(self) -> int:
        return id(self.sheet)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.sheet is self.sheet


def lines_of(sheet: Sheet, step: Step, held: Iterable[str]) -> tuple[str, ...]:
    """Return the lines worked within a step: back from it to whatever is held."""
    return tuple(_part(_Same(sheet), step.line, frozenset(held) - {step.line}))


def upstream(sheet: Sheet, line: str) -> frozenset[str]:
    """Return a line and the lines that it is worked from."""
    return frozenset(_part(_Same(sheet), line, frozenset()))


def value_of(problem: Problem, step: Step, held: Held, wrong: Iterable[tuple[Mistake, str]] = ()) -> float | None:
    """Work one step from what is held, with lines written wrongly; nothing where that cannot be worked."""
    known = frozenset(held) - {step.line}
    part = _part(_Same(problem.slot.sheet), step.line, known, _texts(wrong))
    return _worked(part, step, _known(problem, step, held, part.inputs))


def _worked(part: Sheet, step: Step, known: Held) -> float | None:
    try:
        return step.value_in(part.solve(known))
    except OffgridError:
        return None


def _known(problem: Problem, step: Step, held: Held, names: Iterable[str]) -> dict[str, Any]:
    """Return what is known of some names: held, else given."""
    above = {n: v for n, v in held.items() if n != step.line}
    return {n: above[n] if n in above else problem.given[n] for n in names if n in above or n in problem.given}


def _texts(wrong: Iterable[tuple[Mistake, str]]) -> tuple[tuple[str, str], ...]:
    return tuple((line, made.lines[line]) for made, line in wrong)


@lru_cache(maxsize=8192)
def _part(whole: _Same, asked: str, held: frozenset[str], wrong: tuple[tuple[str, str], ...] = ()) -> Sheet:
    """Return the lines of a worksheet that are worked for one of them where others are held, some written wrongly."""
    lines = dict(whole.sheet) | {n: whole.sheet[n].with_expression(text) for n, text in wrong}
    found, todo = {asked}, [asked]
    while todo:
        needs = set(lines[todo.pop()].needs) & set(lines) - held - found
        found |= needs
        todo += needs
    return Sheet(*(x for n, x in lines.items() if n in found))


@lru_cache(maxsize=1024)
def _singles(whole: _Same, asked: str, held: frozenset[str]) -> tuple[tuple[_Wrong, ...], ...]:
    """Return every mistake that can be made within a step, each alone; the catalogue is the same all day."""
    return tuple((each,) for each in on_lines(_part(whole, asked, held)))


@lru_cache(maxsize=1024)
def _parts(whole: _Same, asked: str, held: frozenset[str]) -> tuple[tuple[str, ...], tuple[Sheet, ...]]:
    """Return the worksheets of those mistakes, and the names that any of them needs."""
    parts = tuple(_part(whole, asked, held, _texts(wrong)) for wrong in _singles(whole, asked, held))
    return tuple(dict.fromkeys(n for part in parts for n in part.inputs)), parts


def explain(problem: Problem, step: Step, value: float, held: Held) -> tuple[tuple[str, ...], ...]:
    """Return what explains a wrong value; each explanation is one id, or the two that together give it."""
    within = _Same(problem.slot.sheet), step.line, frozenset(held) - {step.line}
    singles, (names, parts) = _singles(*within), _parts(*within)
    known = _known(problem, step, held, names)
    found = _fitting(problem, step, value, zip(singles, (_worked(p, step, known) for p in parts), strict=True))
    if not found:
        pairs = [(a, b) for (a,), (b,) in combinations(singles, 2) if a[1] != b[1] and a[0].id != b[0].id]
        found = _fitting(problem, step, value, ((pair, value_of(problem, step, held, pair)) for pair in pairs))
    return found


def is_unit_slip(step: Step, typed: float, value: float, own: float) -> bool:
    """Whether the number would be right in another unit.

    Parameters
    ----------
    typed, value
        The number as typed, and in the unit of the name.
    own
        What the step should be, from the learner's own earlier steps.
    """
    if not any(u.symbol for u in menu(step.line)):
        return False  # a bare number stands in no unit
    in_other_units = [float(u.to_canonical(typed)) for u in menu(step.line)]
    scaled = [value * f for f in _UNIT_FACTORS] + [value / f for f in _UNIT_FACTORS]
    scaled = scaled if own and menu(step.line)[0].kind not in ("temperature", "count") else []
    return any(accepts(step.line, v, own) for v in in_other_units + scaled)


def _fitting(
    problem: Problem, step: Step, value: float, worked: Iterable[tuple[tuple[_Wrong, ...], float | None]]
) -> tuple[tuple[str, ...], ...]:
    """Return those that give the number; where some of them are in focus, only those."""
    found: dict[tuple[str, ...], None] = {}
    for wrong, got in worked:
        if got is not None and matches(step.line, value, got):
            found[tuple(made.id for made, _ in wrong)] = None
    focus = [ids for ids in found if set(ids) <= set(problem.slot.mistakes)]
    return tuple(focus or found)
