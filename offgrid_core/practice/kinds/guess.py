"""Guess first: an order of magnitude, locked before anything is worked."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from offgrid_core.practice.entering import number_field, read, units_for, written
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings
from offgrid_core.quantities.text import number

#: |log10(guess / worked)| up to which a guess scores so much.
_SCORES = ((0.15, 1.0), (0.30, 0.5), (0.50, 0.25))
_NEAR = 1.25


@dataclass(frozen=True, kw_only=True)
class Guess(Slot):
    """A magnitude to be guessed, then compared with the worked value."""

    step: Step

    @property
    def kind(self) -> str:
        """``"guess"``."""
        return "guess"

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return one number box."""
        return (replace(number_field(self.step.id, problem.label(self.step), self.step.line, settings), locks=True),)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Lock the guess and score its distance; a far one is no fault, and the value is not told here."""
        units, _ = units_for(self.step.line, settings)
        reading = read(answers.get(self.step.id), self.step.line, units, settings)
        label = problem.label(self.step)
        if reading.is_empty:
            return Marks((FieldMark(self.step.id, label, "unanswered"),), (say("guess_first"),), 0.0, False)
        if reading.value is None or reading.value <= 0:
            reason = reading.reason or say("guess_positive")
            said = say("reenter", quantity=label, reason=reason)
            return Marks((FieldMark(self.step.id, label, "reenter", reason=reason),), (said,), 0.0, False)
        score = score_of(reading.value, self.step.value_in(problem.key))
        shown = problem.shown(self.step.line, reading.value, settings)
        mark = FieldMark(self.step.id, label, "locked", shown)
        return Marks((mark,), (say("guess_locked", value=shown),), score, True)

    def compare(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> str:
        """Say how the locked guess stands to the worked value."""
        units, _ = units_for(self.step.line, settings)
        guessed = read(answers.get(self.step.id), self.step.line, units, settings).value
        if guessed is None or guessed <= 0:
            return say("guess_first")
        key = self.step.value_in(problem.key)
        ratio = max(guessed / key, key / guessed)
        words = say("guess_near")
        if ratio > _NEAR:
            words = say("guess_high" if guessed > key else "guess_low", ratio=number(ratio, 2, settings))
        shown = (problem.shown(self.step.line, v, settings, 3) for v in (guessed, key))
        return say("guess_compare", guess=next(shown), worked=next(shown), words=words)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the worked value."""
        (field,) = self.fields(problem, settings)
        return {field.id: written(self.step.line, self.step.value_in(problem.key), field, settings)}

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the worked value, line by line."""
        return problem.worked_lines(self.sheet.upto(self.step.line), settings)


def score_of(guess: float, worked: float) -> float:
    """Return 0 to 1 for how near a guess above zero comes, by the ratio of the two."""
    distance = abs(math.log10(guess / worked))
    return next((got for most, got in _SCORES if distance <= most), 0.0)
