"""Find the slip: a worked page with one catalogued mistake in it, later lines carried forward from it, or none."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from offgrid_core.errors import OffgridError
from offgrid_core.practice.diagnosis import explain
from offgrid_core.practice.entering import read, units_for, written
from offgrid_core.practice.feedback import about
from offgrid_core.practice.mistakes import Mistake, mistake, worst_first
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.tolerance import accepts
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings
from offgrid_core.worksheet import Sheet

WHICH, VALUE, NONE = "which", "value", "none"
#: One page in so many has no mistake in it, so that searching is honest.
_CLEAN_ONE_IN = 5
#: A planted value is at least this far from the right one.
_PLAINLY = 0.05


@dataclass(frozen=True, kw_only=True)
class Slip(Slot):
    """A page on which the first wrong line is to be found and mended."""

    @property
    def kind(self) -> str:
        """``"slip"``."""
        return "slip"

    def planted(self, problem: Problem) -> tuple[Mistake, str] | None:
        """Return the mistake of this variant's page and its line, or nothing on a clean page."""
        choices = self._choices()
        n = problem.pick("planted", _CLEAN_ONE_IN * len(choices))
        return choices[n // _CLEAN_ONE_IN] if n % _CLEAN_ONE_IN else None

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return the line, and what it should be."""
        lines = tuple((n, f"{i}. {problem.word(n)}") for i, n in enumerate(self.sheet, 1))
        units = tuple(dict.fromkeys(u for n in self.sheet for u in units_for(n, settings)[0]))
        which = Field(WHICH, say("slip_which"), options=(*lines, (NONE, say("slip_none"))))
        return which, Field(VALUE, say("slip_value"), units, units[0])

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the worked page, as somebody wrote it."""
        planted = self.planted(problem)
        sheet = planted[0].in_sheet(self.sheet, planted[1]) if planted else self.sheet
        shown, reckoned = (partial(problem.shown, settings=s) for s in (settings, settings.in_sums))
        steps = sheet.solve(problem.given).steps(problem.word, shown, reckoned)
        page = [["", "line", "with these numbers", "value"]]
        page += [[str(i), problem.word(s.name), s.worked, s.shown] for i, s in enumerate(steps, 1)]
        return [*problem.tables(settings), ("", page)]

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the line first, then its value."""
        chosen = answers.get(WHICH, Answer()).text
        if chosen not in (*self.sheet, NONE):
            marks = (
                FieldMark(WHICH, say("slip_which"), "unanswered"),
                FieldMark(VALUE, say("slip_value"), "unanswered"),
            )
            return Marks(marks, (say("nothing", step=say("slip_which")),), 0.0, False)
        planted = self.planted(problem)
        wrong = planted[1] if planted else NONE
        shown = say("slip_none") if chosen == NONE else problem.word(chosen)
        if chosen != wrong:
            return self._elsewhere(chosen, wrong, shown)
        which = FieldMark(WHICH, say("slip_which"), "right", shown, method=True, accuracy=True)
        if planted is None:
            value = FieldMark(VALUE, say("slip_value"), "right", method=True, accuracy=True)
            return Marks((which, value), (say("slip_clean"),), 1.0, True)
        return self._value(problem, which, wrong, answers, settings)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the planted line and its right value."""
        planted = self.planted(problem)
        if planted is None:
            return {WHICH: Answer(NONE)}
        return {WHICH: Answer(planted[1]), VALUE: self._as_typed(planted[1], problem.key[planted[1]], settings)}

    def tempting(self, problem: Problem) -> tuple[str, ...]:
        """Return the planted mistake: finding its line and then copying its value."""
        planted = self.planted(problem)
        return (planted[0].id,) if planted else ()

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return the right line, with the value that the mistake gives; some can be made in two lines of a page."""
        planted = self.planted(problem)
        choices = [planted] if planted else []
        made, line = next(c for c in [*choices, *self._choices()] if c[0].id == mistake_id)
        value = made.in_sheet(self.sheet, line).solve(problem.given)[line]
        return {WHICH: Answer(line), VALUE: self._as_typed(line, value, settings)}

    def passes(self, problem: Problem) -> bool:
        """Screen the numbers: whatever is planted is plainly off."""
        try:
            for made, line in self._choices():
                wrong = Step(line).value_in(made.in_sheet(self.sheet, line).solve(problem.given))
                if abs(wrong - (key := Step(line).value_in(problem.key))) < _PLAINLY * abs(key):
                    return False
        except OffgridError:
            return False
        return True

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return which line of the page is the first to go wrong, then the page as it should be."""
        planted = self.planted(problem)
        which, value = say("slip_none"), ""
        if planted:
            _, line = planted
            which, value = problem.word(line), problem.shown(line, problem.key[line], settings)
        return (say("slip_which"), which, value), *problem.worked_lines(self.sheet, settings)

    def _choices(self) -> list[tuple[Mistake, str]]:
        return [(m, n) for m in map(mistake, self.mistakes) for n in m.lines if n in self.sheet]

    def _as_typed(self, line: str, value: float, settings: Settings) -> Answer:
        units, unit = units_for(line, settings)
        return written(line, float(value), Field(VALUE, "", units, unit), settings)

    def _elsewhere(self, chosen: str, wrong: str, shown: str) -> Marks:
        question = say("slip_not_clean") if chosen == NONE else say(self._agreeing(chosen, wrong), line=shown)
        marks = (
            FieldMark(WHICH, say("slip_which"), "unexplained", shown),
            FieldMark(VALUE, say("slip_value"), "unanswered"),
        )
        return Marks(marks, (question,), 0.0, False, question)

    def _agreeing(self, chosen: str, wrong: str) -> str:
        """Return what is said of a line that is right by itself."""
        if wrong == NONE:
            return "slip_on_clean"
        return "slip_earlier" if chosen in _before(self.sheet, wrong) else "slip_later"

    def _value(
        self, problem: Problem, which: FieldMark, line: str, answers: Mapping[str, Answer], settings: Settings
    ) -> Marks:
        label = problem.word(line)
        reading = read(answers.get(VALUE), line, units_for(line, settings)[0], settings)
        if reading.value is None:
            reason = reading.reason
            said = say("reenter", quantity=say("slip_value"), reason=reason) if reason else ""
            mark = FieldMark(VALUE, say("slip_value"), "reenter" if reason else "unanswered", reason=reason)
            return Marks((which, mark), (said or say("slip_line_only", line=label),), 0.5, False)
        shown = problem.shown(line, reading.value, settings)
        if accepts(line, reading.value, Step(line).value_in(problem.key)):
            mark = FieldMark(VALUE, label, "right", shown, method=True, accuracy=True)
            return Marks((which, mark), (say("slip_found", line=label, value=shown),), 1.0, True)
        above = {n: problem.key[n] for n in _before(self.sheet, line)}
        found = explain(problem, Step(line), reading.value, above)
        mark = FieldMark(VALUE, label, "mistake" if found else "unexplained", shown, found)
        if found:
            worst = worst_first(ids[0] for ids in found)[0]
            return Marks((which, mark), tuple(about(mark, worst)), 0.5, False, worst.question)
        said = say("ask", quantity=label, value=shown, question=self.hint)
        return Marks((which, mark), (said,), 0.5, False, self.hint)


def _before(sheet: Sheet, line: str) -> list[str]:
    names = list(sheet)
    return names[: names.index(line)]
