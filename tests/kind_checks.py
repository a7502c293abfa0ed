"""What every kind of problem has to stand, whatever it asks: hostile text, the card by keyboard, paper."""

from html.parser import HTMLParser

import ipywidgets as widgets

from offgrid_core.lab.card import Card
from offgrid_core.practice import Answer, draw, mark
from offgrid_core.practice.record import Record
from offgrid_core.quantities import Settings

NASTY = [
    "__import__('os').system('true')", "9**9**9", "1e400", "1e99", "-1e99", "1e-99", "nan", "inf", "0x1f", "1,234", "½",
    "1\u202e2", "12\x00", "<script>alert(1)</script>", "[" * 500, "1" * 10_000_000, "--1", "1/0", "\ud800", " " * 100,
    "0", "-1", "1.5", "99", "\n1\n", "{depth_frac}",
]  # fmt: skip
US_COMMA = Settings(temperature="°F", length="ft", wire="AWG", decimal=",")


def hostile(problem):
    """Type every nasty text into every field, with nasty units as well: judged the same twice, and never right."""
    for chosen in (Settings(), US_COMMA):
        right = problem.slot.solution(problem, chosen)
        for field in problem.slot.fields(problem, chosen):
            for text in NASTY:
                for unit in (field.unit, "Wh", text[:70]):
                    for answers in ({field.id: Answer(text, unit)}, {**right, field.id: Answer(text, unit)}):
                        marks = mark(problem, answers, chosen)
                        assert 0 <= marks.score <= 1
                        assert marks == mark(problem, answers, chosen)
                        assert all(isinstance(said, str) and said for said in marks.feedback)
                        assert [m.id for m in marks.fields] == [f.id for f in problem.slot.fields(problem, chosen)]


def one_question(marks):
    """One question of at most 30 words where something is wrong; nothing of the person in it."""
    assert sum(said.count("?") for said in marks.feedback) <= 1
    assert len(marks.question.split()) <= 30
    assert not {"you", "your", "well", "good", "great", "sorry", "wrong"} & set(
        " ".join(marks.feedback).lower().split()
    )
    assert not {"multiply", "divide", "add", "subtract"} & set(" ".join(marks.feedback).lower().split())


def on_card(slot, folder, chosen):
    """Show a slot, fill in the solution with the card's own controls, and take it up again from the file."""
    card = Card(slot, Record(folder), chosen)
    every = list(_under(card))
    boxes = [w for w in every if type(w) is widgets.Text]
    menus = [w for w in every if type(w) in (widgets.Dropdown, widgets.RadioButtons)]
    assert len(card.answers) == len(boxes) + sum(type(w) is widgets.RadioButtons for w in menus)
    assert all(w.description and not w.disabled for w in boxes)
    assert all(w.tooltip for w in menus)
    paper = card.static()
    card.check()
    assert not Record(folder).entry(slot.id).checks
    card.solve()
    assert card.static() == paper
    card.check()
    assert Record(folder).entry(slot.id).checks[-1].finished
    assert all(row.box.disabled == row.field.locks for row in card._rows)
    again = Card(slot, Record(folder), chosen)
    assert again.answers == card.answers
    assert again.feedback == card.feedback
    return card


def on_paper(slot, attempt=0):
    """Return the printed form, made of plain elements only, in which every field has a blank or boxes to tick."""
    card = Card(slot, Record("nowhere"), Settings())
    card.problem = draw(slot, attempt)
    paper, seen = card.static(), []
    parser = HTMLParser()
    parser.handle_starttag = lambda tag, _: seen.append(tag)
    parser.feed(paper)
    assert set(seen) <= {"section", "h4", "small", "p", "table", "caption", "tr", "th", "td", "ul", "li"}
    fields = slot.fields(card.problem, Settings())
    assert paper.count("______________") == sum(not f.options for f in fields)
    assert paper.count("☐") == sum(len(f.options) for f in fields)
    return paper


def _under(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _under(child)
