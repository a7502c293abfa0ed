"""Marking: a pure function of problem, answers and settings. Nothing typed is evaluated, whatever it is."""

from collections.abc import Mapping

from offgrid_core.practice.problem import Problem
from offgrid_core.practice.slot import Answer, Marks
from offgrid_core.quantities import Settings


def mark(problem: Problem, answers: Mapping[str, Answer], settings: Settings | None = None) -> Marks:
    """Judge a problem's answers.

    Parameters
    ----------
    problem
        The variant, whose key is solved from its worksheet here and stored nowhere.
    answers
        By field id: text as typed and the unit of the menu beside it. Missing fields are unanswered, never wrong.
    settings
        The learner's decimal mark and units; the usual ones if not given.
    """
    return problem.slot.mark(problem, answers, settings or Settings())
