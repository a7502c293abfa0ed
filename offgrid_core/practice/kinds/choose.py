"""Choose one of four, each wrong one backed by the reason that would make it right: recall, say why, pick."""

from collections.abc import Mapping
from dataclasses import dataclass

from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings

FIELD = "choice"


@dataclass(frozen=True)
class Option:
    """One answer.

    Attributes
    ----------
    text
        What stands beside the button.
    because
        For the right one, why; for a wrong one, the question that is asked back. Empty if ``mistake`` has one.
    mistake
        Id of the mistake whose reason this is, if it is one of the catalogue's.
    right
        Whether it is the right one.
    """

    text: str
    because: str = ""
    mistake: str = ""
    right: bool = False

    @property
    def question(self) -> str:
        """What is asked back when this wrong option is chosen."""
        return self.because or mistake(self.mistake).question


@dataclass(frozen=True, kw_only=True)
class Choose(Slot):
    """A question with options, exactly one of them right."""

    options: tuple[Option, ...]

    @property
    def kind(self) -> str:
        """``"choose"``."""
        return "choose"

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return one choice, its options in this variant's order."""
        order = sorted(range(len(self.options)), key=lambda i: picked(f"{problem.seed}|option {i}", 2**32))
        options = tuple((str(i), problem.text(self.options[i].text, settings)) for i in order)
        return (Field(FIELD, self.title, options=options),)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the choice."""
        chosen = self._chosen(answers)
        if chosen is None:
            return Marks((FieldMark(FIELD, self.title, "unanswered"),), (say("choose_one"),), 0.0, False)
        shown = problem.text(chosen.text, settings)
        if chosen.right:
            mark = FieldMark(FIELD, self.title, "right", shown, method=True, accuracy=True)
            return Marks((mark,), (say("chosen_right", because=problem.text(chosen.because, settings)),), 1.0, True)
        found = ((chosen.mistake,),) if chosen.mistake else ()
        mark = FieldMark(FIELD, self.title, "mistake" if found else "unexplained", shown, found)
        return Marks((mark,), (chosen.question,), 0.0, False, chosen.question)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:  # noqa: ARG002
        """Return the right option."""
        return {FIELD: Answer(next(str(i) for i, o in enumerate(self.options) if o.right))}

    def tempting(self, problem: Problem) -> tuple[str, ...]:  # noqa: ARG002
        """Return mistakes that stand behind options."""
        return tuple(o.mistake for o in self.options if o.mistake)

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:  # noqa: ARG002
        """Return the option that the mistake stands behind."""
        return {FIELD: Answer(next(str(i) for i, o in enumerate(self.options) if o.mistake == mistake_id))}

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the right option and why."""
        right = next(o for o in self.options if o.right)
        return ((problem.text(right.text, settings), problem.text(right.because, settings), ""),)

    def _chosen(self, answers: Mapping[str, Answer]) -> Option | None:
        text = answers.get(FIELD, Answer()).text
        return next((o for i, o in enumerate(self.options) if str(i) == text), None)
