"""The help ladder: a question; then the idea and a worked sibling; then this problem worked, and another is owed."""

from dataclasses import dataclass

from offgrid_core.practice.problem import Problem
from offgrid_core.practice.slot import Marks
from offgrid_core.practice.variants import sibling
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings

QUESTION, PRINCIPLE, SOLUTION = 1, 2, 3


@dataclass(frozen=True)
class Help:
    """One rung.

    Attributes
    ----------
    rung
        1 question, 2 principle and sibling, 3 solution.
    said
        Sentences.
    tables
        What stands under the sibling's statement: caption and rows, the first being the head.
    worked
        Rows of a worked sum: what, how, value.
    """

    rung: int
    said: tuple[str, ...]
    tables: tuple[tuple[str, list[list[str]]], ...] = ()
    worked: tuple[tuple[str, str, str], ...] = ()


def highest_rung(tries: int) -> int:
    """Return the highest rung open after so many checks of a variant: 1 at once, 2 after two, 3 after three."""
    return max(QUESTION, min(tries, SOLUTION))


def help_for(problem: Problem, marks: Marks | None, rung: int, settings: Settings) -> Help:
    """Return the help of a rung.

    Parameters
    ----------
    marks
        Of the last check, whose question the first rung repeats; ``None`` before the first.
    """
    if rung >= SOLUTION:
        said = (say("help_solution"), say("help_owed")) if problem.slot.grids else (say("help_solution"),)
        return Help(SOLUTION, said, worked=problem.slot.worked(problem, settings))
    if rung == PRINCIPLE:
        idea = (say("help_principle", principle=problem.slot.principle),) if problem.slot.principle else ()
        other = sibling(problem, settings)
        if other is None:
            return Help(PRINCIPLE, idea or (problem.slot.hint,))
        told = other.text(other.slot.statement, settings)
        tables = tuple(other.slot.tables(other, settings))
        return Help(PRINCIPLE, (*idea, say("help_sibling"), told), tables, other.slot.worked(other, settings))
    return Help(QUESTION, (marks.question if marks and marks.question else problem.slot.hint,))
