"""Screens: numbers that would hide a mistake, or make two look alike, are not used."""

import ast
from collections.abc import Iterable

from offgrid_core.errors import OffgridError
from offgrid_core.practice.diagnosis import lines_of, value_of
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.tolerance import apart, stands_clear
from offgrid_core.worksheet import Sheet

_FROM_WHOLE = 0.01


def steps_pass(problem: Problem, steps: Iterable[Step]) -> bool:
    """Whether each mistake in focus shows in some step, told from the key and from the others in that step."""
    steps = tuple(steps)
    seen: set[str] = set()
    try:
        for step in steps:
            wrong = mistakes_in(problem, step, steps)
            key = step.value_in(problem.key)
            values = list(wrong.values())
            if not all(stands_clear(step.line, v, key, is_chain_end(problem, step, steps)) for v in values):
                return False
            if any(not apart(step.line, a, b) for i, a in enumerate(values) for b in values[:i]):
                return False
            seen |= set(wrong)
    except OffgridError:
        return False
    return seen == set(problem.slot.mistakes) and clear_of_whole(problem.slot.sheet, problem)


def is_chain_end(problem: Problem, step: Step, asked: Iterable[Step]) -> bool:
    """Whether lines of the step's chain are not asked, so that its tolerance is the wider one."""
    return len(lines_of(problem.slot.sheet, step, [s.line for s in asked if s.line != step.line])) > 1


def mistakes_in(problem: Problem, step: Step, asked: tuple[Step, ...]) -> dict[str, float]:
    """Return the value each mistake in focus gives in a step whose earlier steps are right, where it differs."""
    upstream = problem.slot.sheet.upto(step.line)
    held = {s.line: problem.key[s.line] for s in asked if s.line != step.line and s.line in upstream}
    within = set(lines_of(problem.slot.sheet, step, held))
    key = step.value_in(problem.key)
    found: dict[str, float] = {}
    for id_ in problem.slot.mistakes:
        made = mistake(id_)
        for line in set(made.lines) & within:
            value = value_of(problem, step, held, [(made, line)])
            if value is not None and abs(value - key) > 1e-9 * max(abs(key), 1e-9):
                found[id_] = value
    return found


def clear_of_whole(sheet: Sheet, problem: Problem) -> bool:
    """Whether whatever is rounded up or down lies at least 1 % from a whole number.

    Working from rounded steps would otherwise flip a count.
    """
    for line in sheet.values():
        for node in ast.walk(line.tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ("up", "down"):
                unrounded = line.with_expression(ast.unparse(node.args[0]))
                value = Step(line.name).value_in(sheet.replace(unrounded).solve(problem.given))
                if abs(value - round(value)) < _FROM_WHOLE * abs(value):
                    return False
    return True
