"""Rough size: a magnitude from a few guessed factors, each in a published band, and their product."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from offgrid_core.errors import OffgridError
from offgrid_core.practice.entering import Reading, number_field, read, units_for, written
from offgrid_core.practice.kinds.guess import score_of
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import listed, say
from offgrid_core.quantities import Settings

_FACTORS = range(3, 6)
#: A guess may lie a quarter beyond either end of its band, as a ratio.
_WIDER = 1.25
_OF_FACTOR = 0.1
#: How far the product may lie from what the learner's own factors give.
_HONEST = 0.05


@dataclass(frozen=True)
class Factor:
    """One factor: the input that it is, and the published band of its values in the unit of its name."""

    name: str
    low: float
    high: float

    def holds(self, value: float) -> bool:
        """Whether a guess lies in the band, or not far beyond it."""
        return self.low / _WIDER <= value <= self.high * _WIDER


@dataclass(frozen=True, kw_only=True)
class Rough(Slot):
    """A magnitude to be built from guessed factors.

    Attributes
    ----------
    factors
        Three to five inputs of the worksheet with their bands; the statement does not tell them.
    step
        The line that they lead to. What a learner's own factors give is worked by the same lines.
    """

    factors: tuple[Factor, ...]
    step: Step

    def __post_init__(self) -> None:
        if len(self.factors) not in _FACTORS or len({f.name for f in self.factors}) != len(self.factors):
            raise OffgridError(f"{self.id}: 3 to 5 different factors, not {len(self.factors)}")
        inputs = self.sheet.upto(self.step.line).inputs
        if strange := [f.name for f in self.factors if f.name not in inputs]:
            raise OffgridError(f"{self.id}: {strange[0]} does not lead to {self.step.line}")
        if empty := [f.name for f in self.factors if not 0 < f.low < f.high]:
            raise OffgridError(f"{self.id}: the band of {empty[0]} goes from above zero to something larger")

    @property
    def kind(self) -> str:
        """``"rough"``."""
        return "rough"

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return a number box for each factor, then one for what they come to."""
        boxes = (number_field(f.name, problem.word(f.name), f.name, settings) for f in self.factors)
        return *boxes, number_field(self.step.id, problem.label(self.step), self.step.line, settings)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the factors by their bands, and the product as a guess, once it follows from the factors."""
        readings = {f.name: _above_zero(answers.get(f.name), f.name, settings) for f in self.factors}
        last = _above_zero(answers.get(self.step.id), self.step.line, settings)
        marks = [self._factor(problem, f, readings[f.name], settings) for f in self.factors]
        own = self._own(problem, {n: r.value for n, r in readings.items() if r.value is not None})
        product, closeness = self._product(problem, last, own, settings)
        if all(r.is_empty for r in (*readings.values(), last)):
            return Marks((*marks, product), (say("nothing", step=marks[0].label),), 0.0, False)
        score = _OF_FACTOR * sum(m.verdict == "right" for m in marks) + self._of_product * closeness
        return self._told((*marks, product), round(score, 10))

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the given factors and what they come to."""
        names = {**{f.name: f.name for f in self.factors}, self.step.id: self.step.line}
        values = {**problem.given, self.step.id: self.step.value_in(problem.key)}
        boxes = self.fields(problem, settings)
        return {b.id: written(names[b.id], float(values[b.id]), b, settings) for b in boxes}

    def passes(self, problem: Problem) -> bool:
        """Screen: every given factor lies in its published band."""
        return all(f.low <= problem.given[f.name] <= f.high for f in self.factors)

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the factors with their bands, then the lines to the product."""
        rows = []
        for f in self.factors:
            ends = [problem.shown(f.name, x, settings) for x in (f.low, f.high)]
            band = say("rough_band", low=ends[0], high=ends[1])
            rows.append((problem.word(f.name), band, problem.shown(f.name, problem.given[f.name], settings)))
        return *rows, *problem.worked_lines(self.sheet.upto(self.step.line), settings)

    @property
    def _of_product(self) -> float:
        return 1 - _OF_FACTOR * len(self.factors)

    def _own(self, problem: Problem, factors: Mapping[str, float]) -> float | None:
        """Return what the learner's own factors come to; nothing while some are missing or no number comes of them."""
        if len(factors) < len(self.factors):
            return None
        try:
            own = self.step.value_in(self.sheet.upto(self.step.line).solve({**problem.given, **factors}))
        except OffgridError:
            return None
        return own if 0 < own < math.inf else None

    def _factor(self, problem: Problem, factor: Factor, reading: Reading, settings: Settings) -> FieldMark:
        label = problem.word(factor.name)
        if reading.value is None:
            return _no_number(factor.name, label, reading)
        right, shown = factor.holds(reading.value), problem.shown(factor.name, reading.value, settings)
        return FieldMark(factor.name, label, "right" if right else "unexplained", shown, method=right, accuracy=right)

    def _product(
        self, problem: Problem, reading: Reading, own: float | None, settings: Settings
    ) -> tuple[FieldMark, float]:
        """Return the mark of the product, and 0 to 1 for how near it comes."""
        id_, label = self.step.id, problem.label(self.step)
        if reading.value is None:
            return _no_number(id_, label, reading), 0.0
        shown = problem.shown(self.step.line, reading.value, settings)
        if own is None:
            return FieldMark(id_, label, "unexplained", shown, named=False), 0.0
        if abs(reading.value - own) > _HONEST * own:
            return FieldMark(id_, label, "inconsistent", shown), 0.0
        closeness = score_of(reading.value, self.step.value_in(problem.key))
        near = closeness == 1
        return FieldMark(id_, label, "right" if near else "unexplained", shown, method=True, accuracy=near), closeness

    def _told(self, marks: tuple[FieldMark, ...], score: float) -> Marks:
        right = [f"{m.label}, {m.shown}" for m in marks if m.verdict == "right"]
        if len(right) == len(marks):
            return Marks(marks, (say("rough_right", steps=listed(right)),), 1.0, True)
        said = [say("credit", steps=listed(right))] if right else []
        said += [say("reenter", quantity=m.label, reason=m.reason) for m in marks if m.verdict == "reenter"]
        *factors, product = marks
        off = [m for m in factors if m.verdict == "unexplained"]
        blank = [m.label for m in marks if m.verdict == "unanswered"]
        question = ""
        if product.verdict == "inconsistent":
            question = say("inconsistent", quantity=product.label, value=product.shown)
        elif off:
            question = say("rough_compare", quantity=off[0].label, value=off[0].shown)
        elif blank:
            said.append(say("rest", steps=listed(blank)))
        elif product.verdict == "unexplained" and product.method:
            question = say("ask", quantity=product.label, value=product.shown, question=self.hint)
        return Marks(marks, (*said, question) if question else tuple(said), score, False, question)


def _above_zero(answer: Answer | None, name: str, settings: Settings) -> Reading:
    """Read a guess: a number above zero."""
    reading = read(answer, name, units_for(name, settings)[0], settings)
    return Reading(reason=say("guess_positive")) if reading.value is not None and reading.value <= 0 else reading


def _no_number(id_: str, label: str, reading: Reading) -> FieldMark:
    if reading.is_empty:
        return FieldMark(id_, label, "unanswered")
    return FieldMark(id_, label, "reenter", reason=reading.reason.removeprefix("please re-enter: "))
