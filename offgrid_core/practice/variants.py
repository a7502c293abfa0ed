"""Drawing a problem's numbers: from grids, by a keyed hash, screened; the same on every machine and on paper."""

from dataclasses import replace

from offgrid_core.errors import OffgridError
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Slot

#: Draws tried before the curated numbers are used.
MOST_DRAWS = 500


def draw(slot: Slot, attempt: int = 0, learner: str = "", class_key: str = "", assignment: str = "practice") -> Problem:
    """Return a variant.

    Parameters
    ----------
    slot
        Where the grids are.
    attempt
        0 for the first variant; each further number is another variant.
    learner, class_key, assignment
        What else the numbers hang on; empty for the public practice, whose numbers are the same for everybody.

    Returns
    -------
    Problem
        One that passes the slot's screens: the first of at most 500 draws that does, or the curated numbers.
    """
    seed = "|".join((class_key, learner, assignment, slot.id, str(attempt)))
    curated = Problem(slot, {**slot.given, **slot.curated}, seed, attempt)
    if not slot.grids or (slot.starts_curated and attempt == 0):
        return curated
    for count in range(MOST_DRAWS):
        drawn = {n: grid[picked(f"{seed}|{count}|{n}", len(grid))] for n, grid in slot.grids.items()}
        problem = replace(curated, given={**slot.given, **drawn})
        if _passes(problem):
            return problem
    return curated


def sibling(problem: Problem) -> Problem:
    """Return a worked sibling: the same slot with other numbers, not those of any variant a learner is given."""
    for attempt in range(MOST_DRAWS):
        other = draw(problem.slot, attempt, assignment="sibling")
        if any(other.given[n] != problem.given[n] for n in problem.slot.grids):
            return other
    return problem


def _passes(problem: Problem) -> bool:
    try:
        return problem.slot.passes(problem)
    except OffgridError:
        return False
