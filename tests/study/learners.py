"""Synthetic learners: what somebody writes on the page, worked with the right lines and the source's text formulas.

Each step is worked from what the learner wrote above it and is written with three figures, in one of the units of the
menu. The one line that goes wrong does so by the source's wrong ÷ correct text formula; see :mod:`study.sources`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

import numpy as np

from offgrid_core.practice import Answer, Problem, Step, catalogue
from offgrid_core.quantities import Settings, menu
from offgrid_core.quantities.units import unit_of
from study.sources import reading

FIGURES = 3


@dataclass(frozen=True)
class Place:
    """A mistake made in one line, on the way to one step (of a list: in one row)."""

    id: str
    line: str
    step: Step


class Paper:
    """What one learner wrote.

    Parameters
    ----------
    problem
        A variant of a slot with steps.
    rng
        Chooses the unit of each answer.
    wrong
        Where the learner goes wrong, by step.
    tamper
        Step id -> what becomes of the text that was about to be written there.
    """

    def __init__(self, problem: Problem, rng, wrong: tuple[Place, ...] = (), tamper: Mapping | None = None) -> None:
        self.problem = problem
        self.answers: dict[str, Answer] = {}
        self.exact: dict[str, float] = {}
        self.own: dict[str, object] = {}
        self.shows: set[str] = set()
        units = {f.id: f.units for f in problem.slot.fields(problem, Settings())}
        by_step = {place.step.id: place for place in wrong}
        for step in problem.slot.asked:
            place = by_step.get(step.id)
            value = right(problem, step, self.own)
            if place:
                value, rightly = mistaken(problem, step, self.own, place), value
                if differs(value, rightly):
                    self.shows.add(step.id)
            self.exact[step.id] = value
            chosen = rng.choice(units[step.id])
            unit = next(u for u in menu(step.line) if u.symbol == chosen)
            text = as_written(step.line, float(unit.from_canonical(value)))
            text = (tamper or {}).get(step.id, lambda t: t)(text)
            self.answers[step.id] = Answer(text, unit.symbol)
            _put(self.own, problem, step, float(unit.to_canonical(float(text))))


def as_written(name: str, value: float) -> str:
    """Write a number as a person does: a count in full, anything else with three figures."""
    if unit_of(name).kind == "count" and value == round(value):
        return f"{value:.0f}"
    text = f"{Decimal(f'{value:.{FIGURES - 1}e}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def right(problem: Problem, step: Step, own: Mapping[str, object]) -> float:
    """Work a step rightly from what the learner wrote above it."""
    return step.value_in(_solved(problem, step, own))


def mistaken(problem: Problem, step: Step, own: Mapping[str, object], place: Place) -> float:
    """Work a step from what the learner wrote above it, one line of it by the source's wrong text."""
    how = reading(place.id, place.line)
    solved = _solved(problem, step, {n: v for n, v in own.items() if n not in how.again})
    page = {n: _in_row(v, step.row) for n, v in solved.items()}
    held = dict(own)
    if place.line != step.line:
        column = np.array(solved[place.line], float)
        column[... if step.row is None else step.row] = how.wrong(place.id, page, page[place.line])
        held[place.line] = column
        return step.value_in(_solved(problem, step, held))
    return how.wrong(place.id, page, page[place.line])


def places(problem: Problem) -> list[Place]:
    """Return where each mistake in focus can be made so that it shows: by more than rounding to three figures."""
    slot, made, found = problem.slot, catalogue(), []
    asked = {s.line for s in slot.asked}
    for step in slot.asked:
        above = {n: problem.key[n] for n in asked - {step.line} if n in _upto(slot.sheet, step.line)}
        key = step.value_in(problem.key)
        for line in worked_within(slot.sheet, step.line, asked):
            for id_ in slot.mistakes:
                place = Place(id_, line, step)
                if line in made[id_].lines and differs(mistaken(problem, step, above, place), key):
                    found.append(place)
    return found


def worked_within(sheet, line: str, asked: set[str]) -> list[str]:
    """Return the lines somebody works to get from the asked lines above to this one."""
    found = [line]
    for name in found:
        found += [n for n in sheet[name].needs if n in sheet and n not in asked and n not in found]
    return found


def differs(value: float, key: float) -> bool:
    """Whether two numbers are two on paper: by more than rounding to three figures."""
    return abs(value - key) > 0.5 * 10 ** (1 - FIGURES) * max(abs(value), abs(key))


#: The part of a worksheet that leads to a line, by worksheet (kept here, so that no other gets its id) and line.
_LEADING: dict = {}


def _upto(sheet, line: str):
    key = id(sheet), line
    if key not in _LEADING:
        _LEADING[key] = sheet, sheet.upto(line)
    return _LEADING[key][1]


def _solved(problem: Problem, step: Step, own: Mapping[str, object]):
    sheet = _upto(problem.slot.sheet, step.line)
    return sheet.solve(problem.given, {n: v for n, v in own.items() if n in sheet and n != step.line})


def _in_row(value: object, row: int | None) -> object:
    """Return the row that is worked; where none is, a lone row, and of several all of them."""
    if not isinstance(value, np.ndarray) or not value.ndim or (row is None and value.size > 1):
        return value
    return value[row or 0]


def _put(own: dict[str, object], problem: Problem, step: Step, value: float) -> None:
    if step.row is None:
        own[step.line] = value
        return
    column = own.setdefault(step.line, np.array(problem.key[step.line], float))
    column[step.row] = value
