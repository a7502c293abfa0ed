"""Backwards: the input that makes a result come out as wanted, judged by working it forwards."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from offgrid_core.errors import OffgridError, WorksheetError
from offgrid_core.practice.entering import number_field, read, units_for, written
from offgrid_core.practice.feedback import about
from offgrid_core.practice.mistakes import mistake, worst_first
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.tolerance import matches, room
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings
from offgrid_core.worksheet import Line, Sheet, solve_for, turned

#: How far the result may lie on the safe side of what is wanted, and (rounding) on the other.
_SAFE_SIDE, _OTHER_SIDE = 0.02, 0.01


@dataclass(frozen=True, kw_only=True)
class Backwards(Slot):
    """An input to be found.

    Attributes
    ----------
    unknown, span
        The input, and between which values it lies.
    result, wanted
        The line, and the given whose value it shall not pass.
    """

    unknown: str
    span: tuple[float, float]
    result: str
    wanted: str

    @property
    def kind(self) -> str:
        """``"backwards"``."""
        return "backwards"

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return one number box for the input."""
        return (number_field(self.unknown, problem.word(self.unknown), self.unknown, settings),)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Work the learner's input forwards and see where the result comes to."""
        label = problem.word(self.unknown)
        reading = read(answers.get(self.unknown), self.unknown, units_for(self.unknown, settings)[0], settings)
        if reading.is_empty:
            return Marks((FieldMark(self.unknown, label, "unanswered"),), (say("nothing", step=label),), 0.0, False)
        if reading.value is None:
            mark = FieldMark(self.unknown, label, "reenter", reason=reading.reason)
            return Marks((mark,), (say("reenter", quantity=label, reason=reading.reason),), 0.0, False)
        shown = problem.shown(self.unknown, reading.value, settings)
        try:
            result = self._forwards(problem, reading.value)
        except OffgridError as e:
            mark = FieldMark(self.unknown, label, "reenter", shown, reason=str(e))
            return Marks((mark,), (say("reenter", quantity=label, reason=str(e)),), 0.0, False)
        told = problem.shown(self.result, result, settings)
        if self._meets(problem, result):
            mark = FieldMark(self.unknown, label, "right", shown, method=True, accuracy=True)
            return Marks(
                (mark,),
                (say("backwards_right", value=shown, quantity=problem.word(self.result), result=told),),
                1.0,
                True,
            )
        return self._not_yet(problem, reading.value, shown, told, settings)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the input, from solving the worksheet for it."""
        return self._typed(problem, self._found(problem, self.sheet), settings)

    def tempting(self, problem: Problem) -> tuple[str, ...]:  # noqa: ARG002
        """Return every mistake in focus, made and then solved for."""
        return self.mistakes

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return the input that meets what is wanted in the worksheet with the mistake in it."""
        return self._typed(problem, self._mistaken(problem, mistake_id), settings)

    def passes(self, problem: Problem) -> bool:
        """Screen the numbers: there is one answer, and each mistake in focus leads plainly elsewhere."""
        try:
            self._found(problem, self.sheet)
            wrong = [self._mistaken(problem, i) for i in self.mistakes]
            if any(self._meets(problem, self._forwards(problem, x)) for x in wrong):
                return False
        except OffgridError:
            return False
        return not any(matches(self.unknown, a, b) for i, a in enumerate(wrong) for b in wrong[:i])

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the way back from what is wanted to the input, then the lines forwards again.

        Where the worksheet cannot be turned round, the input stands there first, and says what it was chosen for.
        """
        found = self._found(problem, self.sheet)
        solved = Problem(self, {**problem.given, self.unknown: found}, problem.seed)
        if back := self._way_back():
            before = solved.worked_lines((n for n in self.sheet if not self._hangs(n)), settings)
            turned_round = (solved.worked_step(Step(x.name), settings, by=x) for x in back)
            (label, how, value), *rest = solved.worked_lines(filter(self._hangs, self.sheet), settings)
            return *before, *turned_round, (say("backwards_again", step=label), how, value), *rest
        wanted = problem.shown(self.wanted, problem.given[self.wanted], settings)
        chosen = say("backwards_chosen", wanted=wanted)
        begins = (problem.word(self.unknown), chosen, problem.shown(self.unknown, found, settings))
        return begins, *solved.worked_lines(self.sheet, settings)

    def _hangs(self, name: str) -> bool:
        """Whether a name is the input that is sought, or a line that is worked from it."""
        return name == self.unknown or (name in self.sheet and self.unknown in self.sheet.upto(name).inputs)

    def _way_back(self) -> list[Line]:
        """Return the lines turned round, from the result to the input; none where no single way leads there."""
        found: list[Line] = []
        name = self.result
        while name != self.unknown:
            above, *more = (n for n in self.sheet[name].needs if self._hangs(n))
            try:
                found.append(turned(self.sheet[name], above))
            except WorksheetError:
                return []
            if more:
                return []
            name = above
        return found

    def _forwards(self, problem: Problem, value: float) -> float:
        return float(self.sheet.solve({**problem.given, self.unknown: value})[self.result])

    def _meets(self, problem: Problem, result: float) -> bool:
        wanted = float(problem.given[self.wanted])
        return wanted * (1 - _SAFE_SIDE) <= result <= wanted * (1 + _OTHER_SIDE)

    def _found(self, problem: Problem, sheet: Sheet) -> float:
        wanted = float(problem.given[self.wanted])
        return solve_for(sheet, self.unknown, self.result, wanted, problem.given, self.span).above

    def _mistaken(self, problem: Problem, mistake_id: str) -> float:
        return self._found(problem, mistake(mistake_id).somewhere_in(self.sheet))

    def _reaches(self, problem: Problem, mistake_id: str, value: float) -> bool:
        """Whether a mistake reaches what is wanted near this input: quicker to see than to solve for it."""
        sheet = mistake(mistake_id).somewhere_in(self.sheet)
        near = value + 2 * room(self.unknown, value) * np.array([-1.0, 1.0])
        try:
            ends = sheet.solve({**problem.given, self.unknown: near})[self.result]
        except OffgridError:  # an end lies outside what the worksheet takes
            return True
        return bool(np.min(ends) <= problem.given[self.wanted] <= np.max(ends))

    def _typed(self, problem: Problem, value: float, settings: Settings) -> dict[str, Answer]:
        (field,) = self.fields(problem, settings)
        return {self.unknown: written(self.unknown, value, field, settings)}

    def _not_yet(self, problem: Problem, value: float, shown: str, told: str, settings: Settings) -> Marks:
        label = problem.word(self.unknown)
        near = [i for i in self.mistakes if self._reaches(problem, i, value)]
        found = tuple((i,) for i in near if matches(self.unknown, value, self._mistaken(problem, i)))
        if found:
            mark = FieldMark(self.unknown, label, "mistake", shown, found)
            worst = worst_first(i for (i,) in found)[0]
            return Marks((mark,), tuple(about(mark, worst)), 0.0, False, worst.question)
        mark = FieldMark(self.unknown, label, "unexplained", shown)
        wanted = problem.shown(self.wanted, problem.given[self.wanted], settings)
        names = {"value": shown, "quantity": problem.word(self.result), "result": told, "wanted": wanted}
        return Marks((mark,), (say("backwards_ask", **names, question=self.hint),), 0.0, False, self.hint)
