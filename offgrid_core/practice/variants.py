"""Drawing a problem's numbers: from grids, by a keyed hash, screened; the same on every machine and on paper."""

from dataclasses import replace

from offgrid_core.errors import OffgridError
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.screens import is_real_module
from offgrid_core.practice.slot import Slot
from offgrid_core.quantities import Settings

#: Draws tried before the curated numbers are used.
MOST_DRAWS = 500


def draw(slot: Slot, attempt: int = 0, learner: str = "", class_key: str = "", assignment: str = "practice") -> Problem:
    """Return a variant.

    Parameters
    ----------
    slot
        Where the grids are.
    attempt
        0 for the first variant; each further number is another variant, of the next template if there are several.
    learner, class_key, assignment
        What else the numbers hang on; empty for the public practice, whose numbers are the same for everybody.

    Returns
    -------
    Problem
        One that passes the slot's screens, whose modules could be real, and which tells another story than the variant
        before it where a kind has stories: the first of at most 500 draws that does, or the curated numbers.
    """
    key, begins = (class_key, learner, assignment), 0 if slot.tells_stories else attempt
    problem = _draw(slot, begins, key)
    for each in range(begins + 1, attempt + 1):
        problem = _draw(slot, each, key, problem)
    return problem


def _draw(place: Slot, attempt: int, key: tuple[str, str, str], before: Problem | None = None) -> Problem:
    """Return a variant that tells another story than the one before it, if there was one."""
    class_key, learner, _ = key
    slot = template_of(place, attempt, "|".join(key) if learner or class_key else "")
    seed = "|".join((*key, slot.id, str(attempt)))
    curated = Problem(slot, {**slot.given, **slot.curated}, seed, attempt)
    if not slot.grids or (slot.starts_curated and attempt == 0):
        return curated
    for count in range(MOST_DRAWS):
        drawn = {n: grid[picked(f"{seed}|{count}|{n}", len(grid))] for n, grid in slot.grids.items()}
        problem = replace(curated, given={**slot.given, **drawn})
        if _passes(problem) and (before is None or slot.story(problem) != before.slot.story(before)):
            return problem
    return curated


def template_of(slot: Slot, attempt: int, whose: str = "") -> Slot:
    """Return the template of a variant: each attempt takes the next; where they begin hangs on whose they are."""
    begins = picked(f"{whose}|{slot.id}|template", len(slot.templates)) if whose else 0
    return slot.templates[(begins + attempt) % len(slot.templates)]


def sibling(problem: Problem, settings: Settings) -> Problem | None:
    """Return a variant to show worked beside this one: of a few drawn, the one that shares fewest values with it.

    Two draws can differ and still share a result (12 W for 14 h is 7 W for 24 h). Nothing where the slot has one
    set of numbers only.
    """
    if not problem.slot.grids:
        return None
    own = {shown for _, _, shown in problem.slot.worked(problem, settings) if shown}
    alone = replace(problem.slot, others=())
    found: list[tuple[int, Problem]] = []
    for n in range(problem.slot.siblings):
        other = draw(alone, n, assignment="sibling")
        found.append((sum(shown in own for _, _, shown in other.slot.worked(other, settings)), other))
        if found[-1][0] == 0:
            break
    return min(found, key=lambda each: each[0])[1]


def _passes(problem: Problem) -> bool:
    try:
        return is_real_module(problem) and problem.slot.passes(problem)
    except OffgridError:
        return False
