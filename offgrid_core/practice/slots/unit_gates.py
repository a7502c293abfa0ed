"""The gates of the units: sixteen places each, made of the places of the exit quizzes, with numbers of their own.

They hold what must be caught: every place in which a mistake can hurt somebody, then a spread over the lessons.
"""

from collections.abc import Iterator
from dataclasses import replace
from importlib import import_module
from itertools import zip_longest
from pkgutil import iter_modules

from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.slot import Slot

#: Unit = its lessons.
LESSONS_OF = {
    "G1": ("L01", "L02", "L03", "L04", "L05"),
    "G2": ("L06", "L07", "L08", "L09"),
    "G3": ("L10", "L11", "L12", "L13"),
}
PLACES = 16


def slots() -> tuple[Slot, ...]:
    """Return the places of every gate, in the order of the lessons they come from."""
    return tuple(slot for unit, lessons in LESSONS_OF.items() for slot in _gate(unit, lessons))


def _gate(unit: str, lessons: tuple[str, ...]) -> Iterator[Slot]:
    """Yield a gate: the dangers first, then places of each lesson in turn until there are enough."""
    every = [s for lesson in lessons for s in _exit_places(lesson)]
    in_turn = [s for row in zip_longest(*map(_exit_places, lessons)) for s in row if s]
    chosen = {s.id for s in sorted(in_turn, key=lambda s: not _can_hurt(s))[:PLACES]}
    for number, place in enumerate((s for s in every if s.id in chosen), 1):
        id_ = f"{unit}-gate-{number}"
        others = tuple(replace(other, id=id_) for other in place.others)
        yield replace(place, id=id_, others=others, starts_curated=False)


def _exit_places(lesson: str) -> tuple[Slot, ...]:
    package, _, _ = __name__.rpartition(".")
    names = [m.name for m in iter_modules(import_module(package).__path__)]
    name = f"{lesson.lower()}_exit"
    return import_module(f"{package}.{name}").slots() if name in names else ()


def _can_hurt(place: Slot) -> bool:
    return any(mistake(i).severity == "danger" for i in place.mistakes)
