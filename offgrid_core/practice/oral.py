"""Ten minutes of questions at the end of the course, drawn from the mistakes that a learner has made on the way."""

from collections import Counter
from collections.abc import Iterable, Mapping
from itertools import islice

from offgrid_core.practice.mistakes import Mistake, mistake, worst_first
from offgrid_core.practice.record import Entry
from offgrid_core.practice.slot import Slot

QUESTIONS = 3


def oral_questions(entries: Mapping[str, Entry], slots: Iterable[Slot]) -> list[tuple[Mistake, int]]:
    """Return the mistakes to be asked about and how often each was made, three in all.

    Parameters
    ----------
    entries
        The learner's record.
    slots
        Every problem, in the order of the course.

    Returns
    -------
    list of (Mistake, int)
        The worst first, of equals the commonest. Where too few were made, dangers that the problems ask about stand in,
        with no count: the latest lessons first, each of another lesson and another family.
    """
    made = Counter(i for entry in entries.values() for check in entry.checks for i in check.mistakes)
    own = worst_first(i for i, _ in made.most_common())
    first: dict[str, str] = {}
    for place in slots:
        for id_ in place.mistakes:
            first.setdefault(id_, place.lesson)
    more: list[Mistake] = []
    taken: set[str] = set()
    for id_, lesson in sorted(first.items(), key=lambda pair: pair[1], reverse=True):
        each = mistake(id_)
        if each.severity == "danger" and id_ not in made and taken.isdisjoint({lesson, each.family}):
            more.append(each)
            taken |= {lesson, each.family}
    return [(each, made[each.id]) for each in islice((*own, *more), QUESTIONS)]
