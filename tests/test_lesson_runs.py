"""Every lesson run with its exercises solved, and run again with wrong answers, which are refused and named.

As shipped, with nothing attempted, nbval runs them in real kernels. Here the cells run in this process, so that the
cards they show can be filled in.
"""

import ast
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from offgrid_core.lab.card import Card
from offgrid_core.lab.explorer import Explorer
from offgrid_core.lab.quiz import Quiz
from offgrid_core.practice import Answer, mark, mistake
from offgrid_core.practice.kinds import Choose, Guess, Slip
from offgrid_core.practice.kinds.slip import NONE, WHICH

LESSONS = Path(__file__).resolve().parents[1] / "lessons"
NOTEBOOKS = sorted(LESSONS.glob("*.ipynb"))
#: Mistakes tried on each exercise that has so many.
TRIED = 2
#: Kinds whose wrong answers fit no mistake of the catalogue: refused, with a question.
WITHOUT_MISTAKES = ("order", "knob", "rough", "failed", "pick", "drawing", "build")
#: Of a number that is certainly another one: not a power of ten, not a unit.
FAR_OFF = 3.37


@pytest.fixture(params=NOTEBOOKS, ids=lambda p: p.stem)
def cards(request, tmp_path, monkeypatch):
    """Run a lesson's cells; return the cards it shows."""
    monkeypatch.chdir(LESSONS)
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))
    notebook = json.loads(request.param.read_text(encoding="utf-8"))
    names: dict = {}
    shown = [last_value("".join(c["source"]), names) for c in notebook["cells"] if c["cell_type"] == "code"]
    return [card for value in shown for card in cards_in(value)]


def last_value(source: str, names: dict):
    """Run a cell and return its last value, as a notebook shows it."""
    tree = ast.parse(source)
    *first, last = tree.body or [ast.Pass()]
    if not isinstance(last, ast.Expr):
        exec(compile(tree, "a cell", "exec"), names)
        return None
    exec(compile(ast.Module(first, []), "a cell", "exec"), names)
    return eval(compile(ast.Expression(last.value), "a cell", "eval"), names)


def cards_in(value) -> Iterator[Card]:
    """Yield the cards of what a cell shows."""
    if isinstance(value, Card):
        yield value
    elif isinstance(value, Explorer):
        yield value.card
    elif isinstance(value, Quiz):
        yield from value.cards


def test_solved(cards):
    for card in cards:
        card.solve()
        card.check()
    for card in cards:
        card.look_again()
        assert card.entry.checks[-1].finished, (card.place.id, card.feedback)
        assert card.entry.checks[-1].score == 1, card.place.id
        assert "?" not in card.feedback, (card.place.id, card.feedback)


def test_two_mistakes_of_each_are_refused_and_named(cards):
    for card in cards:
        if not isinstance(card.place, Guess):
            tried = [refused(card, *each) for each in wrongs(card)]
            assert len(tried) == TRIED or card.place.kind in WITHOUT_MISTAKES, card.place.id


def wrongs(card) -> Iterator[tuple[dict[str, Answer], str, str]]:
    """Yield wrong answers, with the mistake they are and the question that must be asked; empty where none is known."""
    problem, settings = card.problem, card.settings
    slot = problem.slot
    if isinstance(slot, Choose):
        for i in [i for i, option in enumerate(slot.options) if not option.right][:TRIED]:
            (field,) = slot.fields(problem, settings)
            question = problem.text(slot.options[i].question, settings)
            yield {field.id: Answer(str(i))}, slot.options[i].mistake, question
        return
    tempting = slot.tempting(problem)[:TRIED]
    for id_ in tempting:
        yield slot.slipped(problem, id_, settings), id_, "" if slot.kind == "slip" else mistake(id_).question
    if isinstance(slot, Slip):  # the two other ways to go wrong: pointing at another line, and seeing no slip
        right = slot.solution(problem, settings)[WHICH].text
        for other in [key for key in (*reversed([*slot.sheet]), NONE) if key != right][: TRIED - len(tempting)]:
            yield {WHICH: Answer(other)}, "", ""
    elif not tempting:
        yield elsewhere(slot, problem, settings), "", ""


def elsewhere(slot, problem, settings) -> dict[str, Answer]:
    """Return the solution with every number far off and every choice another one."""
    found = {}
    fields = {f.id: f for f in slot.fields(problem, settings)}
    for id_, answer in slot.solution(problem, settings).items():
        options = [key for key, _ in fields[id_].options]
        text = answer.text.replace("\u2009", "").replace("−", "-")
        if options:
            found[id_] = Answer(next(key for key in options if key != answer.text), answer.unit)
        elif text.lstrip("-").replace(".", "", 1).isdigit():
            found[id_] = Answer(f"{max(1, round(float(text) * FAR_OFF))}", answer.unit)
        else:
            found[id_] = answer
    return found


def refused(card, answers, id_, question) -> None:
    """Enter wrong answers: they are not right, the mistake is named, and its question is asked."""
    for field, answer in answers.items():
        card.type(field, answer.text, answer.unit)
    card.check()
    assert not card.entry.checks[-1].finished, (card.place.id, id_)
    marks = mark(card.problem, card.answers, card.settings)
    assert " ".join(marks.feedback).count("?") == 1, (card.place.id, id_, marks.feedback)
    if id_:
        assert id_ in marks.mistakes, (card.place.id, id_, marks.feedback)
    if question:
        assert question in marks.question, (card.place.id, id_, marks.feedback)
    if not card.place.quiz:
        assert marks.question in card.feedback
