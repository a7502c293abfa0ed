"""Every problem slot, by id: one module a lesson and one for its exit quiz. A new lesson is a new module."""

from collections.abc import Mapping
from functools import cache

from offgrid_core.errors import OffgridError
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots import l00_start, l01_exit, l01_loads, l05_exit, l05_temperature

LESSONS = (l00_start, l01_loads, l01_exit, l05_temperature, l05_exit)


@cache
def slots() -> Mapping[str, Slot]:
    """Return every slot by id, in the order of the lessons."""
    every = [s for lesson in LESSONS for s in lesson.slots()]
    found = {s.id: s for s in every}
    if len(found) != len(every):
        raise OffgridError("two problem slots have the same id")
    if strange := [s.id for s in every if any(other.id != s.id for other in s.templates)]:
        raise OffgridError(f"a template of {strange[0]} has another id")
    return found


def slot(id_: str) -> Slot:
    """Return one slot, or refuse with the nearest ids."""
    if id_ not in slots():
        from difflib import get_close_matches

        near = ", ".join(get_close_matches(id_, slots(), 3)) or ", ".join(slots())
        raise OffgridError(f"there is no problem {id_!r:.40}; nearest: {near}")
    return slots()[id_]
