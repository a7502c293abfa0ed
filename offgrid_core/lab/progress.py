"""Where a learner stands in a lesson: what is known, what keeps coming back, what must be safe, and what is next."""

from html import escape

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.lab.card import Card
from offgrid_core.lab.sheet_of_paper import table
from offgrid_core.practice import Slot, mistake, slots
from offgrid_core.practice.confidence import times_shown
from offgrid_core.practice.learner import evidence_of, known_from, next_slot, quiz_passed, safe
from offgrid_core.practice.record import Record
from offgrid_core.practice.words import say
from offgrid_core.quantities import settings
from offgrid_core.quantities.text import capital


def next_exercise(lesson: str) -> Card:
    """Return the card of the problem to take next in a lesson, such as ``next_exercise("L05")``.

    Of the problems not done it is the one nearest to being solved seven times in ten.

    Raises
    ------
    OffgridError
        If no lesson of that name has problems.
    """
    record = Record()
    return Card(slots()[next_slot(record.entries(), _practice(lesson))], record, settings.load())


def progress(lesson: str) -> widgets.Widget:
    """Return where the learner stands in a lesson, such as ``progress("L05")``: tables in words, nothing to press.

    Raises
    ------
    OffgridError
        If no lesson of that name has problems, or the learner's file cannot be read.
    """
    return widgets.HTML("".join(f"<p style='margin:6px 0'>{x}</p>" if x[:1] != "<" else x for x in _parts(lesson)))


def _parts(lesson: str) -> list[str]:
    entries, practice = Record().entries(), _practice(lesson)
    exit_quiz = [s for s in slots().values() if s.lesson == lesson and s.quiz == "exit"]
    every = [*practice, *exit_quiz]
    evidence = evidence_of(entries, every)
    known = {n: k for n, k in known_from(evidence).items() if n.startswith("skill:")}
    if not known:
        return [escape(say("progress.none", slot=practice[0].id))]
    rows = [["", say("progress.level"), say("progress.tries")]]
    for node, found in known.items():
        level = say("progress.known" if found.mastered() else "progress.more")
        rows.append([capital(_label(node, every)), level, str(found.tries)])
    parts = [table(rows, say("progress.skill"))]
    rules = safe(evidence)
    if rules:
        names = {True: say("progress.safe"), False: say("progress.unsafe")}
        told = [[capital(mistake(n.partition(":")[2]).name), names[ok]] for n, ok in rules.items()]
        parts.append(table([["", say("progress.level")], *told], say("progress.rule")))
    again = [i for i in dict.fromkeys(i for s in every for i in s.mistakes) if times_shown(i, entries) > 1]
    parts += [escape(say("progress.again", question=mistake(i).question)) for i in again]
    if exit_quiz:
        parts.append(escape(say("progress.passed" if quiz_passed(entries, exit_quiz) else "progress.exit")))
    following = next_slot(entries, practice)
    return [*parts, escape(say("progress.next", slot=following, title=slots()[following].title))]


def _practice(lesson: str) -> list[Slot]:
    found = [s for s in slots().values() if s.lesson == lesson and not s.quiz and s.kind != "guess"]
    if not found:
        known = ", ".join(dict.fromkeys(s.lesson for s in slots().values()))
        raise OffgridError(f"there are no problems of a lesson {lesson!r:.20}; lessons with problems: {known}")
    return found


def _label(node: str, every: list[Slot]) -> str:
    """Return the words for a skill: those of its line, or the title of its problem."""
    name = node.partition(":")[2]
    holding = next((s for s in every if name in s.sheet), None)
    if holding:
        return str(holding.words.get(name, holding.sheet[name].label))
    return next(s.title for s in every if s.id == name)
