"""The two quizzes of a lesson: the entry check, which can save work, and the exit quiz, which ends it."""

from html import escape

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.lab.card import Card
from offgrid_core.practice import slots
from offgrid_core.practice.learner import EXIT_SHARE, first_tries
from offgrid_core.practice.record import Record
from offgrid_core.practice.words import say
from offgrid_core.quantities import settings


def entry_check(lesson: str) -> "Quiz":
    """Return the entry check of a lesson, such as ``entry_check("L05")``: who knows it all goes on to practise.

    Raises
    ------
    OffgridError
        If the lesson has none.
    """
    return Quiz(lesson, "entry")


def exit_quiz(lesson: str) -> "Quiz":
    """Return the exit quiz of a lesson, such as ``exit_quiz("L05")``: five of six right end it.

    Raises
    ------
    OffgridError
        If the lesson has none.
    """
    return Quiz(lesson, "exit")


class Quiz(widgets.VBox):  # type: ignore[misc]
    """The cards of a quiz one below the other; what is said of the answers waits until all are in."""

    def __init__(self, lesson: str, which: str) -> None:
        places = [s for s in slots().values() if s.lesson == lesson and s.quiz == which]
        if not places:
            raise OffgridError(f"there is no {which} quiz of a lesson {lesson!r:.20}")
        record, chosen = Record(), settings.load()
        self.which = which
        self.cards = [Card(place, record, chosen) for place in places]
        self._outcome = widgets.HTML()
        super().__init__([*self.cards, self._outcome])
        for card in self.cards:
            card.on_check(self._checked)
        self._tell()

    @property
    def outcome(self) -> str:
        """What is said of the whole; empty until all answers are in."""
        newest = [first_tries(card.entry)[-1:] for card in self.cards]
        if not all(newest):
            return ""
        right, count = sum(tries[0].finished for tries in newest), len(newest)
        enough = count if self.which == "entry" else round(EXIT_SHARE * count)
        keys = {"entry": ("entry.all", "entry.some"), "exit": ("exit.passed", "exit.again")}[self.which]
        return say(keys[right < enough], right=right, count=count, wanted=enough)

    def _checked(self) -> None:
        if self.outcome:
            for card in self.cards:
                card.look_again()
        self._tell()

    def _tell(self) -> None:
        told = escape(self.outcome)
        self._outcome.value = f"<div role='status' aria-live='polite' style='margin:8px 0'><b>{told}</b></div>"
