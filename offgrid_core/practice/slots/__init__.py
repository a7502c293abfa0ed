"""Every problem slot, by id.

A lesson has one module of its own here, one for its exit quiz, and one (``…_more``) for the quiz's further templates:
``l05_temperature``, ``l05_exit``, ``l05_exit_more``. A new lesson is a new module, found by its name.
"""

import pkgutil
from collections.abc import Mapping
from functools import cache
from importlib import import_module

from offgrid_core.errors import OffgridError
from offgrid_core.practice.slot import Slot


@cache
def slots() -> Mapping[str, Slot]:
    """Return every slot by id, in the order of the lessons."""
    names = [m.name for m in pkgutil.iter_modules(__path__) if not m.name.endswith("_more")]
    names.sort(key=lambda name: (name.partition("_")[0], name.endswith("_exit")))
    every = [s for name in names for s in import_module(f"{__name__}.{name}").slots()]
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
