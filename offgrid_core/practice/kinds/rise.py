"""Will it go up? A prediction, then what the panel shows when one input is moved, then the reason."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from offgrid_core.errors import OffgridError
from offgrid_core.practice.entering import Reading, number_field, read, units_for, written
from offgrid_core.practice.kinds.choose import Option
from offgrid_core.practice.problem import Problem, Step, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import listed, say
from offgrid_core.quantities import Settings, unit_of

DIRECTION, SIZE, READING, REASON = "direction", "size", "reading", "reason"
_DIRECTIONS = ("up", "down", "same")
#: After ÷ before at which one band of size ends and the next begins.
_BANDS = (1 / 3, 0.8, 1.25, 3.0)
#: Bands that a way can come to; what hardly moves may have gone either way.
_FITTING = {"up": "234", "down": "012", "same": "2"}
#: A change is at least so large, or it is none at all.
_PLAIN, _NONE = 0.10, 1e-9
#: Figures that a panel shows.
_FIGURES = 3
_OF_READING, _OF_REASON = 0.5, 0.5


@dataclass(frozen=True, kw_only=True)
class Rise(Slot):
    """A change to be predicted, then read, then explained.

    Attributes
    ----------
    result
        The line that is watched.
    moved, after
        The input that is moved, and the given that holds its new value.
    reasons
        Right reason and wrong ones, as options of a choice.
    """

    result: str
    moved: str
    after: str
    reasons: tuple[Option, ...]

    def __post_init__(self) -> None:
        if self.moved not in self.sheet.inputs or self.result not in self.sheet:
            raise OffgridError(f"{self.id}: {self.moved} and {self.result} are not an input and a line")
        if sum(o.right for o in self.reasons) != 1 or len(self.reasons) < 2:
            raise OffgridError(f"{self.id}: two or more reasons, one of them right")

    @property
    def kind(self) -> str:
        """``"rise"``."""
        return "rise"

    def ends(self, problem: Problem) -> tuple[float, float]:
        """Return the result before and after."""
        moved = self.sheet.upto(self.result).solve({**problem.given, self.moved: problem.given[self.after]})
        step = Step(self.result)
        return step.value_in(problem.key), step.value_in(moved)

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return direction and size of the prediction, the reading, and the reasons in this variant's order."""
        result = problem.word(self.result)
        order = sorted(range(len(self.reasons)), key=lambda i: picked(f"{problem.seed}|reason {i}", 2**32))
        ways = tuple((w, say(f"rise_{w}", result=result)) for w in _DIRECTIONS)
        sizes = tuple((str(i), say(f"rise_size_{i}")) for i in range(len(_BANDS) + 1))
        reasons = tuple((str(i), problem.text(self.reasons[i].text, settings)) for i in order)
        return (
            Field(DIRECTION, say("rise_direction"), options=ways, locks=True),
            Field(SIZE, say("rise_size"), options=sizes, locks=True),
            number_field(READING, say("rise_reading", result=result), self.result, settings),
            Field(REASON, say("rise_reason"), options=reasons),
        )

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Take the prediction as it is; judge the reading and the reason, half each."""
        fields = {f.id: f for f in self.fields(problem, settings)}
        predicted = [self._predicted(fields[n], answers.get(n, Answer())) for n in (DIRECTION, SIZE)]
        if any(m.verdict == "unanswered" for m in predicted):
            rest = (FieldMark(n, fields[n].label, "unanswered") for n in (READING, REASON))
            begun = (replace(m, verdict="moot") if m.verdict == "locked" else m for m in predicted)
            return Marks((*begun, *rest), (say("rise_first"),), 0.0, False)
        reading = self._reading(problem, fields[READING], answers.get(READING), settings)
        chosen = self._chosen(answers)
        way, size = (answers[n].text for n in (DIRECTION, SIZE))
        if size not in _FITTING[way] and reading.verdict == "unanswered" and chosen is None:
            rest = (FieldMark(n, fields[n].label, "unanswered") for n in (READING, REASON))
            return Marks(
                (*(replace(m, verdict="moot") for m in predicted), *rest),
                (say("rise_clash", direction=predicted[0].shown, size=predicted[1].shown),),
                0.0,
                False,
            )
        reason = self._reason(problem, fields[REASON], chosen, settings)
        score = _OF_READING * (reading.verdict == "right") + _OF_REASON * (reason.verdict == "right")
        return self._told(problem, (*predicted, reading, reason), chosen, score, settings)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return what happens, what the panel then shows, and the right reason."""
        box = next(f for f in self.fields(problem, settings) if f.id == READING)
        right = next(str(i) for i, o in enumerate(self.reasons) if o.right)
        return {
            DIRECTION: Answer(self.direction(problem)),
            SIZE: Answer(str(self.band(problem))),
            READING: written(self.result, self.ends(problem)[1], box, settings),
            REASON: Answer(right),
        }

    def tempting(self, problem: Problem) -> tuple[str, ...]:  # noqa: ARG002
        """Return mistakes that stand behind reasons."""
        return tuple(o.mistake for o in self.reasons if o.mistake)

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return everything right but the reason, which is the mistake's."""
        wrong = next(str(i) for i, o in enumerate(self.reasons) if o.mistake == mistake_id)
        return {**self.solution(problem, settings), REASON: Answer(wrong)}

    def passes(self, problem: Problem) -> bool:
        """Screen: the input is moved, and the result changes by a tenth or more, or truly not at all."""
        if problem.given[self.moved] == problem.given[self.after]:
            return False
        before, after = self.ends(problem)
        if not (0 < before < math.inf and 0 < after < math.inf):
            return False
        return abs(after - before) >= _PLAIN * before or self.direction(problem) == "same"

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the result before and after, and why."""
        before, after = self.ends(problem)
        at = [problem.shown(self.moved, problem.given[n], settings) for n in (self.moved, self.after)]
        word, moved = problem.word(self.result), problem.word(self.moved)
        right = next(o for o in self.reasons if o.right)
        told = say(f"rise_{self.direction(problem)}", result=word)
        return (
            (word, say("rise_at", moved=moved, value=at[0]), problem.shown(self.result, before, settings, _FIGURES)),
            (word, say("rise_at", moved=moved, value=at[1]), problem.shown(self.result, after, settings, _FIGURES)),
            (told, problem.text(right.text, settings), say(f"rise_size_{self.band(problem)}")),
        )

    def direction(self, problem: Problem) -> str:
        """Return ``"up"``, ``"down"`` or ``"same"``."""
        before, after = self.ends(problem)
        if abs(after - before) <= _NONE * abs(before):
            return "same"
        return "up" if after > before else "down"

    def band(self, problem: Problem) -> int:
        """Return the place of the band of size, from 0."""
        before, after = self.ends(problem)
        return sum(after / before > end for end in _BANDS)

    def _predicted(self, asked: Field, answer: Answer) -> FieldMark:
        shown = dict(asked.options).get(answer.text)
        return FieldMark(asked.id, asked.label, "unanswered" if shown is None else "locked", shown or "")

    def _reading(self, problem: Problem, asked: Field, answer: Answer | None, settings: Settings) -> FieldMark:
        reading: Reading = read(answer, self.result, units_for(self.result, settings)[0], settings)
        if reading.value is None:
            verdict = "unanswered" if reading.is_empty else "reenter"
            return FieldMark(READING, asked.label, verdict, reason=reading.reason)  # type: ignore[arg-type]
        right = self._as_displayed(reading.value, self.ends(problem)[1], settings)
        shown = problem.shown(self.result, reading.value, settings)
        return FieldMark(READING, asked.label, "right" if right else "unexplained", shown, method=right, accuracy=right)

    def _as_displayed(self, value: float, key: float, settings: Settings) -> bool:
        """Whether a value is what a panel shows, or one step of its last figure off; a count is exact."""
        if unit_of(self.result).kind == "count":
            return value == key
        unit = settings.unit_for(self.result)
        shown = f"{float(unit.from_canonical(key)):.{_FIGURES - 1}e}"
        step = 10.0 ** (int(shown.partition("e")[2]) - _FIGURES + 1)
        return abs(float(unit.from_canonical(value)) - float(shown)) <= step * (1 + 1e-6)

    def _chosen(self, answers: Mapping[str, Answer]) -> Option | None:
        text = answers.get(REASON, Answer()).text
        return next((o for i, o in enumerate(self.reasons) if str(i) == text), None)

    def _reason(self, problem: Problem, asked: Field, chosen: Option | None, settings: Settings) -> FieldMark:
        if chosen is None:
            return FieldMark(REASON, asked.label, "unanswered")
        shown = problem.text(chosen.text, settings)
        if chosen.right:
            return FieldMark(REASON, asked.label, "right", shown, method=True, accuracy=True)
        found = ((chosen.mistake,),) if chosen.mistake else ()
        return FieldMark(REASON, asked.label, "mistake" if found else "unexplained", shown, found)

    def _told(
        self, problem: Problem, marks: tuple[FieldMark, ...], chosen: Option | None, score: float, settings: Settings
    ) -> Marks:
        direction, size, reading, reason = marks
        if chosen is not None and chosen.right and reading.verdict == "right":
            before = problem.shown(self.result, self.ends(problem)[0], settings, _FIGURES)
            said = (
                say("chosen_right", because=problem.text(chosen.because, settings)),
                say("rise_compare", direction=direction.shown, size=size.shown, before=before, after=reading.shown),
            )
            return Marks(marks, said, 1.0, True)
        right = [m.label for m in (reading, reason) if m.verdict == "right"]
        if all(m.verdict == "unanswered" for m in (reading, reason)):
            return Marks(marks, (say("rise_locked", direction=direction.shown, size=size.shown),), score, False)
        blank = [m.label for m in (reading, reason) if m.verdict == "unanswered"]
        told = [say("credit", steps=listed(right))] if right else []
        question = ""
        if reading.verdict == "reenter":
            told.append(say("reenter", quantity=reading.label, reason=reading.reason))
        elif reading.verdict == "unexplained":
            at = problem.shown(self.after, problem.given[self.after], settings)
            question = say("rise_read", result=problem.word(self.result), moved=problem.word(self.moved), value=at)
        elif chosen is not None and not chosen.right:
            question = chosen.question
        if blank and not question:
            told.append(say("rest", steps=listed(blank)))
        return Marks(marks, (*told, question) if question else tuple(told), score, False, question)
