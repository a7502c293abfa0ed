"""Quizzes: the entry check, which can save work; the exit quiz, which ends a lesson; the gate, which ends a unit."""

from html import escape

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.lab.card import Card
from offgrid_core.lab.keys import Keys
from offgrid_core.practice import mistake, slots
from offgrid_core.practice.learner import EXIT_SHARE, UNIT_SHARE, newest, rules_open, unit_passed
from offgrid_core.practice.record import Record
from offgrid_core.practice.slots.unit_gates import LESSONS_OF
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


def unit_gate(unit: str) -> "Quiz":
    """Return the gate of a unit, such as ``unit_gate("G1")``: four fifths, and every safety rule kept.

    Raises
    ------
    OffgridError
        If there is no such unit.
    """
    return Quiz(unit, "gate")


class Quiz(widgets.VBox):  # type: ignore[misc]
    """The cards of a quiz one below the other; what is said of the answers waits until all are in."""

    def __init__(self, lesson: str, which: str) -> None:
        places = [s for s in slots().values() if s.lesson == lesson and s.quiz == which]
        if not places:
            raise OffgridError(f"there is no {which} quiz of a lesson {lesson!r:.20}")
        record, chosen = Record(), settings.load()
        self.lesson, self.which, self.record = lesson, which, record
        self.cards = [Card(place, record, chosen) for place in places]
        self._outcome = widgets.HTML()
        super().__init__([*self.cards, self._outcome, Keys()])
        for card in self.cards:
            card.on_check(self._checked)
        self._tell()

    @property
    def outcome(self) -> str:
        """What is said of the whole; empty until all answers are in."""
        places = [card.place for card in self.cards]
        tries = newest({card.place.id: card.entry for card in self.cards}, places)
        count = len(places)
        if len(tries) < count:
            return ""
        if self.which == "gate":
            return self._of_gate(round(100 * sum(c.score for c in tries) / count))
        right = sum(c.finished for c in tries)
        enough = count if self.which == "entry" else round(EXIT_SHARE * count)
        keys = {"entry": ("entry.all", "entry.some"), "exit": ("exit.passed", "exit.again")}[self.which]
        return say(keys[right < enough], right=right, count=count, wanted=enough)

    def _of_gate(self, percent: int) -> str:
        """Say what the gate came to; a rule of safety that stays open is asked about first."""
        entries = self.record.entries()
        unit = [s for s in slots().values() if s.lesson in (*LESSONS_OF[self.lesson], self.lesson)]
        if unit_passed(entries, [c.place for c in self.cards], unit):
            return say("gate.passed", percent=percent)
        still = rules_open(entries, unit)
        if not still:
            return say("gate.again", percent=percent, wanted=round(100 * UNIT_SHARE))
        return say("gate.rules", percent=percent, count=len(still), question=mistake(still[0]).question)

    def _checked(self) -> None:
        if self.outcome:
            for card in self.cards:
                card.look_again()
        self._tell()

    def _tell(self) -> None:
        told = escape(self.outcome)
        self._outcome.value = f"<div role='status' aria-live='polite' style='margin:8px 0'><b>{told}</b></div>"
