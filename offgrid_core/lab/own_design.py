"""The last lesson's cells: what one's own finished design shows, what fails in it, and what one is asked about it."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.lab.card import Card
from offgrid_core.lab.page import table
from offgrid_core.practice import draw, slot, slots
from offgrid_core.practice.kinds import Build, Failed
from offgrid_core.practice.oral import oral_questions
from offgrid_core.practice.record import Record
from offgrid_core.practice.words import say
from offgrid_core.quantities import settings
from offgrid_core.quantities.text import capital
from offgrid_core.system import Design, parse_plan, size


def on_my_design(id_: str, show: Callable[[Design], Any]) -> Any:
    """Show something of the design that stands on a form, such as ``on_my_design("L14-build", year_panel)``.

    Parameters
    ----------
    id_
        The problem whose form it is.
    show
        What to make of the design.

    Returns
    -------
    object
        What ``show`` makes; as long as the form lacks a part or a count, a sentence that says so.
    """
    plan = _plan(id_)
    return show(size(parse_plan(plan))) if plan else widgets.HTML(f"<p>{say('own.first')}</p>")


def my_fault(id_: str, build_id: str) -> Card:
    """Return a log with a fault in it, of one's own design where its form is filled in, else of a neighbour's.

    Raises
    ------
    OffgridError
        If the first is no problem of that kind.
    """
    place = slot(id_)
    if not isinstance(place, Failed):
        raise OffgridError(f"{id_} has no log; show it with exercise({id_!r})")
    record, plan = Record(), _plan(build_id)
    if plan:
        own = replace(place, plan=plan)
        if "fault" in draw(own, record.entry(id_).attempt).given:  # some designs hide every fault of the library
            place = own
    return Card(place, record, settings.load())


def oral() -> widgets.HTML:
    """Show three questions to be answered aloud: about what one has got wrong in the course, the worst first."""
    rows = [[say("oral.number"), say("oral.question"), say("oral.why"), say("oral.site")]]
    asked = oral_questions(Record().entries(), slots().values())
    for number, (each, count) in enumerate(asked, 1):
        why = say("oral.made", count=count, name=each.name) if count else say("oral.danger", name=each.name)
        rows.append([str(number), each.question, capital(why), capital(each.consequence)])
    return table(rows, say("oral.title" if all(count for _, count in asked) else "oral.too_few"))


def _plan(build_id: str) -> str:
    """Return the design of a form as the text of a plan; empty as long as there is none."""
    place, entry, chosen = slot(build_id), Record().entry(build_id), settings.load()
    problem = draw(place, entry.attempt)
    if not isinstance(problem.slot, Build):
        raise OffgridError(f"{build_id} is no form of a whole design")
    return problem.slot.plan_made(problem, entry.answers, chosen)
