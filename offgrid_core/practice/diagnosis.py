"""Which catalogued mistake gives a number, worked from the learner's own earlier steps.

One mistake in the lines of the step; if none fits, two mistakes in two of its lines; if none fits, a unit. Where
mistakes in focus fit, others that give the same number are not brought up.
"""

from collections.abc import Iterable, Mapping
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


def lines_of(sheet: Sheet, step: Step, held: Iterable[str]) -> list[str]:
    """Return the lines worked within a step: back from it to whatever is held."""
    stop, found, todo = set(held), {step.line}, [step.line]
    while todo:
        for need in sheet[todo.pop()].needs:
            if need in sheet and need not in stop and need not in found:
                found.add(need)
                todo.append(need)
    return [n for n in sheet if n in found]


def value_of(problem: Problem, step: Step, held: Held, wrong: Iterable[tuple[Mistake, str]] = ()) -> float | None:
    """Work one step from what is held, with lines written wrongly; nothing where that cannot be worked."""
    try:
        sheet = problem.slot.sheet.upto(step.line)
        for mistake, line in wrong:
            sheet = mistake.in_sheet(sheet, line)
        return step.value_in(sheet.solve(problem.given, {n: v for n, v in held.items() if n in sheet}))
    except OffgridError:
        return None


def explain(problem: Problem, step: Step, value: float, held: Held) -> tuple[tuple[str, ...], ...]:
    """Return what explains a wrong value; each explanation is one id, or the two that together give it."""
    single = on_lines(lines_of(problem.slot.sheet, step, held))
    found = _fitting(problem, step, value, held, [(each,) for each in single])
    if not found:
        pairs = [(a, b) for a, b in combinations(single, 2) if a[1] != b[1] and a[0].id != b[0].id]
        found = _fitting(problem, step, value, held, pairs)
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
    in_other_units = [float(u.to_canonical(typed)) for u in menu(step.line)]
    scaled = [value * f for f in _UNIT_FACTORS] + [value / f for f in _UNIT_FACTORS]
    scaled = scaled if own and menu(step.line)[0].kind not in ("temperature", "count") else []
    return any(accepts(step.line, v, own) for v in in_other_units + scaled)


def _fitting(
    problem: Problem,
    step: Step,
    value: float,
    held: Held,
    candidates: Iterable[tuple[tuple[Mistake, str], ...]],
) -> tuple[tuple[str, ...], ...]:
    found: dict[tuple[str, ...], None] = {}
    for wrong in candidates:
        got = value_of(problem, step, held, wrong)
        if got is not None and matches(step.line, value, got):
            found[tuple(m.id for m, _ in wrong)] = None
    focus = [ids for ids in found if set(ids) <= set(problem.slot.mistakes)]
    return tuple(focus or found)
