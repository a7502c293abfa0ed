"""A place for a problem: what it says, what it draws its numbers from, and how an answer to it is judged.

A kind of problem is a subclass of :class:`Slot` in :mod:`offgrid_core.practice.kinds`. Everything else (drawing
numbers, keeping answers, the card on the screen) works on this interface and knows no kind.
"""

from abc import ABC, abstractmethod
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from offgrid_core.practice.listing import Listing
from offgrid_core.quantities import Settings
from offgrid_core.worksheet import Sheet

if TYPE_CHECKING:
    from offgrid_core.practice.problem import Problem

Verdict = Literal[
    "right",
    "carried",
    "senseless",
    "moot",
    "inconsistent",
    "mistake",
    "unit",
    "unexplained",
    "reenter",
    "unanswered",
    "locked",
]


@dataclass(frozen=True)
class Answer:
    """What stands in one field: the text as typed (or the key of a choice) and the unit of the menu beside it."""

    text: str = ""
    unit: str = ""


@dataclass(frozen=True)
class Field:
    """One thing to enter.

    Attributes
    ----------
    id
        Its name in the answers.
    label
        What is asked, in words.
    units, unit
        Symbols of the menu beside a number box, and the one shown first; empty for a choice.
    options
        For a choice: key and text of each.
    filled
        Text of a step that is shown already worked; empty where the learner works.
    locks
        Whether it is locked once it was checked: a guess or a prediction. Fields that do not lock wait for those that
        do.
    """

    id: str
    label: str
    units: tuple[str, ...] = ()
    unit: str = ""
    options: tuple[tuple[str, str], ...] = ()
    filled: str = ""
    locks: bool = False

    @property
    def heading(self) -> str:
        """What stands above its options; empty for a number box, and where every option begins with it."""
        begins = all(text.lower().startswith(self.label.lower()) for _, text in self.options)
        return "" if begins else self.label


@dataclass(frozen=True)
class FieldMark:
    """What became of one field.

    Attributes
    ----------
    id, label, shown
        The field, its words, and the answer as read.
    verdict
        See :data:`Verdict`.
    explanations
        For ``"mistake"``: each is the ids that together give the number. Several explanations are ambiguous.
    reason
        For ``"reenter"``: what to enter instead. Of a change to a drawing: why it cannot be made.
    method, accuracy
        The two marks of a step.
    named
        Whether the feedback may name the mistake: false where steps before it are missing.
    """

    id: str
    label: str
    verdict: Verdict
    shown: str = ""
    explanations: tuple[tuple[str, ...], ...] = ()
    reason: str = ""
    method: bool = False
    accuracy: bool = False
    named: bool = True


@dataclass(frozen=True)
class Marks:
    """The judgement of one problem's answers: a pure function of problem, answers and settings.

    Attributes
    ----------
    fields
        One mark a field.
    feedback
        Sentences for the learner, in order: what was right first, then one question.
    score
        0 to 1.
    finished
        Whether everything is answered and right.
    question
        The one question asked; what the first rung of help repeats.
    """

    fields: tuple[FieldMark, ...]
    feedback: tuple[str, ...]
    score: float
    finished: bool
    question: str = ""

    @property
    def mistakes(self) -> tuple[str, ...]:
        """Ids of every mistake that explains an answer, in order."""
        return tuple(dict.fromkeys(i for f in self.fields for found in f.explanations for i in found))

    @property
    def is_read(self) -> bool:
        """Whether one field at least holds an answer."""
        return any(f.verdict not in ("unanswered", "reenter") for f in self.fields)

    def of(self, field_id: str) -> FieldMark:
        """Return the mark of one field."""
        return next(f for f in self.fields if f.id == field_id)


@dataclass(frozen=True, kw_only=True)
class Slot(ABC):
    """What is declared of a problem.

    Attributes
    ----------
    id
        Such as ``"L05-3"``: lesson, then place; places that begin with ``entry``, ``exit`` or ``gate`` are a quiz.
    title, statement
        Words for the learner. ``{name}`` is replaced by that quantity's value with its unit, ``{name:min}`` by its
        value in another unit of its menu.
    hint, principle
        The question asked when a wrong number fits no mistake, and the idea behind the sum.
    sheet
        The worksheet that answers it.
    given, grids
        Fixed inputs, and the values that the others are drawn from.
    curated
        A draw known to be good: the first variant if ``starts_curated``, and the fallback.
    mistakes
        Ids in focus: each must show in the numbers drawn, and be told from the others.
    words, marks
        Labels of inputs that the table of quantities lacks; for names without a unit ending, what to write after.
    rows
        Names of the rows of a loads list, or of the months.
    listed
        Reference tables that stand under the statement, to be looked up.
    others
        Other templates of the same place: another situation, or another line asked. A place that counts has at least
        four in all, since other numbers alone do not keep answers from being passed on.
    """

    id: str
    title: str
    statement: str
    hint: str
    principle: str = ""
    sheet: Sheet = field(default_factory=Sheet)
    given: Mapping[str, Any] = field(default_factory=dict)
    grids: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    curated: Mapping[str, Any] = field(default_factory=dict)
    starts_curated: bool = False
    mistakes: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    marks: Mapping[str, str] = field(default_factory=dict)
    rows: tuple[str, ...] = ()
    listed: tuple[Listing, ...] = ()
    others: tuple["Slot", ...] = ()
    #: Variants drawn to find one that is shown worked beside this one; fewer where drawing takes long.
    siblings: ClassVar[int] = 8
    #: Whether two variants running must tell another story, and not the same with other numbers.
    tells_stories: ClassVar[bool] = False

    @property
    def templates(self) -> tuple["Slot", ...]:
        """Every template of the place, this one first."""
        return (self, *self.others)

    @property
    def lesson(self) -> str:
        """The lesson it belongs to, such as ``"L05"``."""
        return self.id.partition("-")[0]

    @property
    def quiz(self) -> str:
        """``"entry"``, ``"exit"`` or ``"gate"``: the quiz it is part of, looked at only when all of it is answered."""
        place = self.id.partition("-")[2]
        return next((quiz for quiz in ("entry", "exit", "gate") if place.startswith(quiz)), "")

    @property
    @abstractmethod
    def kind(self) -> str:
        """Name of the kind."""

    @abstractmethod
    def fields(self, problem: "Problem", settings: Settings) -> tuple[Field, ...]:
        """Return what is to be entered."""

    @abstractmethod
    def mark(self, problem: "Problem", answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the answers. Never raises on what a learner typed."""

    @abstractmethod
    def solution(self, problem: "Problem", settings: Settings) -> dict[str, Answer]:
        """Return the right answers as a learner would enter them."""

    def tempting(self, problem: "Problem") -> tuple[str, ...]:  # noqa: ARG002
        """Return the mistakes that this variant can show."""
        return ()

    def slipped(self, problem: "Problem", mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return the answers of somebody who makes one mistake and works on from it."""
        raise NotImplementedError(f"{self.id} is of a kind that shows no mistakes")

    def passes(self, problem: "Problem") -> bool:  # noqa: ARG002
        """Whether numbers drawn may be used; see the screens of each kind."""
        return True

    def story(self, problem: "Problem") -> Hashable:  # noqa: ARG002
        """Return what a variant is about, its numbers left aside."""
        return self.title

    def tables(self, problem: "Problem", settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the tables under the statement: caption and rows, the first being the head."""
        return problem.tables(settings)

    def worked(self, problem: "Problem", settings: Settings) -> tuple[tuple[str, str, str], ...]:  # noqa: ARG002
        """Return the solution as rows: what, how with these numbers, value."""
        return ()


def entry_check(lesson: str, *practice: Slot) -> tuple[Slot, ...]:
    """Return the entry check of a lesson, such as ``"L05"``: some of its practice, with numbers of its own."""
    return tuple(
        replace(slot, id=f"{lesson}-entry-{i}", others=(), starts_curated=False) for i, slot in enumerate(practice, 1)
    )
