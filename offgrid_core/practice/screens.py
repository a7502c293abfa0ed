"""Screens: numbers that would hide a mistake, or make two look alike, are not used."""

import ast
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.practice.diagnosis import lines_of, upstream, value_of
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.tolerance import apart, stands_clear
from offgrid_core.sizing.array_teaching import MODULE_CURRENTS
from offgrid_core.worksheet import Sheet, Table
from offgrid_core.worksheet.grammar import names_in

_FROM_WHOLE = 0.01
#: Working current as a share of the short-circuit current. Common practice, no source: silicon modules have 0.92 to
#: 0.95.
_MODULE_LOW, _MODULE_HIGH = 0.88, 0.96


def steps_pass(problem: Problem, steps: Iterable[Step]) -> bool:
    """Whether each mistake in focus shows in some step, told from the key and from the others in that step.

    So must a second mistake, made in a later step on what the first has left there, where anything is left of it.
    """
    steps = tuple(steps)
    try:
        key = {s.line: problem.key[s.line] for s in steps}
        wrong = {s.id: mistakes_in(problem, s, steps, key) for s in steps}
        if {i for found in wrong.values() for i in found} != set(problem.slot.mistakes):
            return False
        return (
            all(_told_apart(problem, s, steps, wrong[s.id].values(), s.value_in(key)) for s in steps)
            and clear_of_whole(problem.slot.sheet, problem)
            and all(_second_shows(problem, steps, i, x) for i, s in enumerate(steps) for x in wrong[s.id].values())
        )
    except OffgridError:
        return False


def is_real_module(problem: Problem) -> bool:
    """Whether the currents on a module's label could be those of one, where a problem tells both."""
    if "module_isc_a" not in problem.given:
        return True
    known = {**problem.given, **problem.key}
    sheet = Sheet(MODULE_CURRENTS["module_imp_frac"]) if "module_imp_a" in known else MODULE_CURRENTS
    if not known.keys() >= set(sheet.inputs):
        return True
    share = float(sheet.solve(known)["module_imp_frac"])
    return _MODULE_LOW <= share < _MODULE_HIGH


def _told_apart(problem: Problem, step: Step, steps: tuple[Step, ...], wrong: Iterable[float], right: float) -> bool:
    """Whether the numbers of mistakes in a step are told from the right one, from the key and from each other."""
    values, hidden, key = list(wrong), is_chain_end(problem, step, steps), step.value_in(problem.key)
    return all(
        stands_clear(step.line, v, right, hidden) and stands_clear(step.line, v, key, hidden) for v in values
    ) and not any(not apart(step.line, a, b) for i, a in enumerate(values) for b in values[:i])


def _second_shows(problem: Problem, steps: tuple[Step, ...], at: int, value: float) -> bool:
    """Whether every further mistake shows in the steps that follow from a wrong one."""
    first, own = steps[at], {s.line: problem.key[s.line] for s in steps}
    own |= with_value(problem, first, value, own)
    for later in steps[at + 1 :]:
        if later.line == first.line or first.line not in upstream(problem.slot.sheet, later.line):
            continue
        right = value_of(problem, later, own)
        if right is None or not _told_apart(
            problem, later, steps, mistakes_in(problem, later, steps, own).values(), right
        ):
            return False
        own |= with_value(problem, later, right, own)
    return True


def with_value(problem: Problem, step: Step, value: float, held: Mapping[str, Any]) -> dict[str, Any]:
    """Return a line with the value of a step in it; rows that nobody spoke of stand at the key."""
    if step.row is None:
        return {step.line: value}
    column = np.array(held.get(step.line, problem.key[step.line]), float)
    column[step.row] = value
    return {step.line: column}


def is_chain_end(problem: Problem, step: Step, asked: Iterable[Step]) -> bool:
    """Whether lines of the step's chain are not asked, so that its tolerance is the wider one."""
    return len(lines_of(problem.slot.sheet, step, [s.line for s in asked if s.line != step.line])) > 1


def mistakes_in(
    problem: Problem, step: Step, asked: tuple[Step, ...], own: Mapping[str, Any] | None = None
) -> dict[str, float]:
    """Return the value each mistake in focus gives in a step, where it differs from working it rightly.

    Parameters
    ----------
    own
        Lines of the asked steps as somebody has them; the key, if not given.
    """
    above = upstream(problem.slot.sheet, step.line)
    lines = {s.line for s in asked if s.line != step.line and s.line in above}
    held = {n: (own or problem.key)[n] for n in lines}
    within = set(lines_of(problem.slot.sheet, step, held))
    right = value_of(problem, step, held)
    found: dict[str, float] = {}
    for id_ in problem.slot.mistakes:
        made = mistake(id_)
        for line in set(made.lines) & within:
            value = value_of(problem, step, held, [(made, line)])
            if value is not None and right is not None and abs(value - right) > 1e-9 * max(abs(right), 1e-9):
                found[id_] = value
    return found


def clear_of_whole(sheet: Sheet, problem: Problem) -> bool:
    """Whether whatever is rounded up or down, or to the next size of a table, lies at least 1 % from where it turns.

    Working from rounded steps would otherwise flip a count or a size.
    """
    for line in sheet.values():
        for node in ast.walk(line.tree):
            if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
                continue
            sizes = _sizes(problem.given.get(node.func.id))
            is_worked = bool(sizes) and not set(names_in(node.args[0])).isdisjoint(sheet)
            if is_worked or node.func.id in ("up", "down"):
                unrounded = line.with_expression(ast.unparse(node.args[0]))
                part = sheet.replace(unrounded).upto(line.name)
                value = Step(line.name).value_in(part.solve(problem.given))
                if any(abs(value - turn) < _FROM_WHOLE * abs(value) for turn in (sizes or (round(value),))):
                    return False
    return True


def _sizes(given: Any) -> tuple[float, ...]:
    """Return the sizes between which a table goes to the next one; none for anything else."""
    return given.x if isinstance(given, Table) and given.between == "next" else ()
