"""Work it, and fill the gap: steps typed one by one, judged one by one from the learner's own earlier steps."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.practice import feedback
from offgrid_core.practice.diagnosis import explain, is_unit_slip, lines_of, upstream, value_of
from offgrid_core.practice.entering import Reading, number_field, read, units_for, written
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.screens import is_chain_end, steps_pass
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot, Verdict
from offgrid_core.practice.tolerance import accepts
from offgrid_core.quantities import Settings
from offgrid_core.worksheet import Finding, Solved
from offgrid_core.worksheet.grammar import axis_of

_METHOD, _ACCURACY = 3, 1


@dataclass(frozen=True, kw_only=True)
class Work(Slot):
    """Steps of a worksheet to be worked.

    Attributes
    ----------
    asked
        Steps to enter, in worked order.
    filled
        Steps shown already worked, after the asked ones: a faded example hands over its *first* steps first.
    only
        Step id -> symbols of its menu, where the unit is part of the question.
    sense
        Line -> lowest and highest value that a real system has. A carried value outside earns its mark, but is asked
        about first: to notice it is the skill.
    moot
        Line -> the earlier line and the least it must come to for this step to decide anything. Carried on from less,
        the step is not assessed: a single string leaves nothing to share out.
    """

    asked: tuple[Step, ...]
    filled: tuple[Step, ...] = ()
    only: Mapping[str, tuple[str, ...]] | None = None
    sense: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    moot: Mapping[str, tuple[str, float]] = field(default_factory=dict)

    @property
    def kind(self) -> str:
        """``"faded"`` if some steps are shown already worked, else ``"work"``."""
        return "faded" if self.filled else "work"

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return one number box a step; the filled ones hold their value."""
        asked = [number_field(s.id, problem.label(s), s.line, settings, self._only(s)) for s in self.asked]
        filled = [
            Field(s.id, problem.label(s), filled=problem.shown(s.line, s.value_in(problem.key), settings))
            for s in self.filled
        ]
        return (*asked, *filled)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge each step by what its own earlier steps lead to (error carried forward)."""
        readings = {
            s.id: read(answers.get(s.id), s.line, units_for(s.line, settings, self._only(s))[0], settings)
            for s in self.asked
        }
        found: list[FieldMark] = []
        for step in self.asked:
            found.append(self._judged(problem, step, readings, found, settings))
        return feedback.of_steps(problem, tuple(found), _score(found), self._dangers(problem, readings, settings))

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return every asked step from the solved worksheet."""
        return self._written(problem, problem.key, settings)

    def tempting(self, problem: Problem) -> tuple[str, ...]:  # noqa: ARG002
        """Return every mistake in focus."""
        return self.mistakes

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return every asked step from the worksheet with the mistake in it."""
        made = mistake(mistake_id).somewhere_in(self.sheet)
        return self._written(problem, made.solve(problem.given), settings)

    def passes(self, problem: Problem) -> bool:
        """Screen the numbers: each mistake in focus shows, and is told from the key and from the others."""
        return steps_pass(problem, self.asked)

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return every step with this variant's numbers in it, and before it each line between.

        Of a line between that has many values, a step of one row is told from that row; the others stay untold.
        """
        steps = (*self.asked, *self.filled)
        shown = dict.fromkeys(s for step in steps for s in (*self._between(problem, step, steps), step))
        # a step asked in units of its own is an exercise in them: it is told in those of the rule
        return tuple(problem.worked_step(s, settings.in_sums if self._only(s) else settings) for s in shown)

    def _between(self, problem: Problem, step: Step, steps: tuple[Step, ...]) -> list[Step]:
        """Return what is worked on the way to a step and is no step itself."""
        asked, found = {s.line for s in steps}, []
        for n in self.sheet.upto(step.line):
            if np.size(problem.key[n]) == 1:
                found += [Step(n)] * (n not in asked)
            elif step.row is not None and axis_of(n) == axis_of(step.line):
                found += [Step(n, step.row)]
        return [s for s in found if s not in steps]

    def _only(self, step: Step) -> tuple[str, ...]:
        return (self.only or {}).get(step.id, ())

    def _written(self, problem: Problem, solved: Solved, settings: Settings) -> dict[str, Answer]:
        fields = {f.id: f for f in self.fields(problem, settings)}
        return {s.id: written(s.line, s.value_in(solved), fields[s.id], settings) for s in self.asked}

    def _judged(
        self,
        problem: Problem,
        step: Step,
        readings: Mapping[str, Reading],
        before: list[FieldMark],
        settings: Settings,
    ) -> FieldMark:
        reading, label = readings[step.id], problem.label(step)
        if reading.value is None:
            return FieldMark(step.id, label, "unanswered" if reading.is_empty else "reenter", reason=reading.reason)
        above = upstream(self.sheet, step.line)
        earlier = [s for s in self.asked if s.line != step.line and s.line in above]
        held = _held(problem, {s: v for s in earlier if (v := readings[s.id].value) is not None})
        hidden = is_chain_end(problem, step, earlier)
        ids = {s.id for s in earlier}
        clean = all(m.verdict in ("right", "unanswered") for m in before if m.id in ids)
        shown = problem.shown(step.line, reading.value, settings)
        verdict = verdict_of(problem, step, reading.value, held, clean, hidden)
        if verdict != "unexplained":
            return self._credited(step, label, shown, verdict, reading.value, held)
        within = lines_of(self.sheet, step, held)
        named = not any(s.line in within and readings[s.id].value is None for s in earlier)
        if found := explain(problem, step, reading.value, held):
            return FieldMark(step.id, label, "mistake", shown, found, named=named)
        own = value_of(problem, step, held)
        if own is not None and is_unit_slip(step, reading.typed, reading.value, own):
            return FieldMark(step.id, label, "unit", shown)
        return FieldMark(step.id, label, "unexplained", shown, named=named)

    def _credited(
        self, step: Step, label: str, shown: str, verdict: Verdict, value: float, held: Mapping[str, Any]
    ) -> FieldMark:
        """Return the mark of a step that needs no diagnosis; a carried value is guarded first."""
        if verdict == "carried":
            verdict = self._guarded(step, value, held)
        method, accuracy = verdict in ("right", "carried", "senseless"), verdict in ("right", "inconsistent")
        return FieldMark(step.id, label, verdict, shown, method=method, accuracy=accuracy)

    def _guarded(self, step: Step, value: float, held: Mapping[str, Any]) -> Verdict:
        """Return what becomes of a carried value where there was nothing to decide, or where it makes no sense."""
        upstream_line, least = self.moot.get(step.line, ("", 0.0))
        if upstream_line in held and float(np.max(held[upstream_line])) < least:
            return "moot"
        low, high = self.sense.get(step.line, (-np.inf, np.inf))
        return "carried" if low <= value <= high else "senseless"

    def _dangers(self, problem: Problem, readings: Mapping[str, Reading], settings: Settings) -> list[Finding]:
        """Return the limits of danger that the learner's own system breaks, once every step is answered.

        A safety step is judged by its own consequence, whatever was carried into it.
        """
        values = {s: readings[s.id].value for s in self.asked}
        if any(v is None for v in values.values()) or not any(x.severity == "danger" for x in self.sheet.values()):
            return []
        try:
            own = self.sheet.solve(problem.given, _held(problem, {s: v for s, v in values.items() if v is not None}))
        except OffgridError:
            return []
        found = own.findings(lambda name, value: problem.shown(name, value, settings))
        return [f for f in found if not f.passed and f.severity == "danger"]


def verdict_of(
    problem: Problem, step: Step, value: float, held: Mapping[str, Any], clean: bool, hidden: bool
) -> Verdict:
    """Judge a value against what its own earlier steps lead to, and against the key.

    Parameters
    ----------
    held
        The learner's own earlier steps.
    clean
        Whether those are all right, up to rounding.
    hidden
        Whether lines of the step's chain are not asked.
    """
    key = step.value_in(problem.key)
    own = value_of(problem, step, held)
    is_key = accepts(step.line, value, key, hidden)
    is_own = own is not None and accepts(step.line, value, own, hidden)
    if clean and (is_key or is_own):
        return "right"
    if is_own and own is not None:
        return "right" if is_key and accepts(step.line, own, key, hidden) else "carried"
    return "inconsistent" if is_key else "unexplained"


def _held(problem: Problem, values: Mapping[Step, float]) -> dict[str, Any]:
    """Return the learner's own values by line; rows not answered stand at the key."""
    held: dict[str, Any] = {}
    for step, value in values.items():
        if step.row is None:
            held[step.line] = value
        else:
            column = held.get(step.line, np.array(problem.key[step.line], float))
            column[step.row] = value
            held[step.line] = column
    return held


def _score(marks: list[FieldMark]) -> float:
    assessed = [m for m in marks if m.verdict != "moot"]
    got = sum(_METHOD * m.method + _ACCURACY * m.accuracy for m in assessed)
    return got / ((_METHOD + _ACCURACY) * len(assessed)) if assessed else 0.0
