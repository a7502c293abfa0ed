"""The course at a glance: every lesson in its order, what it asks for, and where the learner stands in it."""

import json
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from IPython.display import Markdown

from offgrid_core.practice import Slot, slots
from offgrid_core.practice.learner import first_tries, newest, quiz_passed
from offgrid_core.practice.record import Entry, Record
from offgrid_core.practice.words import say

#: The order of the course, beside the lessons.
ORDER = Path("lessons.toml")


@dataclass(frozen=True)
class Lesson:
    """A lesson as the course lists it.

    Attributes
    ----------
    file, id
        Its notebook, and what its problems' ids begin with.
    needs
        Ids of lessons that come before it.
    shown
        For each thing one can do after it: ids of the problems that show it.
    title, minutes
        As they stand at its head.
    """

    file: str
    id: str
    needs: tuple[str, ...]
    shown: tuple[tuple[str, ...], ...]
    title: str
    minutes: int


def lessons(order: Path = ORDER) -> list[Lesson]:
    """Return the lessons in the order of the course; the file stands beside the notebooks."""
    found = []
    for row in tomllib.loads(order.read_text(encoding="utf-8"))["lesson"]:
        notebook = json.loads((order.parent / row["file"]).read_text(encoding="utf-8"))
        head = "".join(notebook["cells"][0]["source"])
        title = head.partition("\n")[0].removeprefix("# ")
        minutes = int(re.search(r"\*Minutes:\* (\d+)", head)[1])  # type: ignore[index]
        shown = tuple(map(tuple, row.get("shown", ())))
        found.append(Lesson(row["file"], row["id"], tuple(row["needs"]), shown, title, minutes))
    return found


def course() -> Markdown:
    """Show every lesson with its minutes and where the learner stands in it, each a link to open it.

    Raises
    ------
    OffgridError
        If the learner's file cannot be read.
    """
    entries = Record().entries()
    rows = [[say(f"course.{key}") for key in ("lesson", "time", "standing")], [":--"] * 3]
    for lesson in lessons():
        own = [s for s in slots().values() if s.lesson == lesson.id]
        rows.append([f"[{lesson.title}]({lesson.file})", f"{lesson.minutes} min", _standing(own, entries)])
    return Markdown("\n".join(f"| {' | '.join(row)} |" for row in rows))  # type: ignore[no-untyped-call]


def _standing(own: list[Slot], entries: Mapping[str, Entry]) -> str:
    begun = sum(bool(first_tries(entries.get(s.id, Entry()))) for s in own)
    last = [s for s in own if s.quiz in ("exit", "gate")]
    if not own:
        return ""
    if not begun:
        return say("course.new")
    if last and len(newest(entries, last)) == len(last) and quiz_passed(entries, last):
        return say("course.passed")
    return say("course.begun", done=begun, count=len(own))
