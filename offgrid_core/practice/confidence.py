"""How sure it is that a mistake is held, across problems: one match is a guess, two on different numbers are a habit.

Bayes' rule with fixed numbers (measured on synthetic learners, not on people): a learner who holds a mistake shows it
in 85 % of the problems that can show it; another number matches it by chance in 1 % of screened ones.
"""

from collections.abc import Mapping

from offgrid_core.practice.learner import first_tries
from offgrid_core.practice.record import Entry
from offgrid_core.practice.slots import slots

PRIOR, SHOWS, CHANCE = 0.05, 0.85, 0.01
#: Clean chances in a row after which a mistake is taken to be gone.
CLEAN = 2


def held(mistake_id: str, entries: Mapping[str, Entry]) -> float:
    """Return the probability that a learner holds a mistake, from the first tries of every problem that can show it."""
    odds = PRIOR / (1 - PRIOR)
    for shown in _chances(mistake_id, entries):
        odds *= SHOWS / CHANCE if shown else (1 - SHOWS) / (1 - CHANCE)
    return odds / (1 + odds)


def times_shown(mistake_id: str, entries: Mapping[str, Entry]) -> int:
    """Return on how many variants it showed since the learner was last rid of it."""
    chances = _chances(mistake_id, entries)
    clean = 0
    count = 0
    for shown in chances:
        clean = 0 if shown else clean + 1
        count = 0 if clean >= CLEAN else count + shown
    return count


def _chances(mistake_id: str, entries: Mapping[str, Entry]) -> list[bool]:
    """Return, in the order of their days, whether each chance to show the mistake was taken."""
    found = [
        (check.day, mistake_id in check.mistakes)
        for id_, slot in slots().items()
        if mistake_id in slot.mistakes
        for check in first_tries(entries.get(id_, Entry()))
        if any(v not in ("unanswered", "reenter") for v in check.verdicts.values())
    ]
    return [shown for _, shown in sorted(found, key=lambda pair: pair[0])]
