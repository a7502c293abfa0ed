"""The last lesson: a form becomes a design, a year, a log; the questions are those that the learner's own record asks.

No outside source: clients, parts and prices are invented. What is held to is that one thing is the same everywhere:
the design marked is the design shown, followed and spoilt.
"""

import warnings

import pytest

from offgrid_core.lab import my_fault, on_my_design, oral
from offgrid_core.lab.card import exercise
from offgrid_core.practice import Answer, draw, mark, mistake, slot, slots
from offgrid_core.practice.oral import QUESTIONS, oral_questions
from offgrid_core.practice.record import Check, Entry, Record
from offgrid_core.quantities import Settings
from offgrid_core.system import parse_plan, size

BUILD = slot("L14-build")
each_client = pytest.mark.parametrize("client", BUILD.templates, ids=lambda t: t.title)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))


def fill_in(answers):
    """Put a form into the learner's record."""
    for field, answer in answers.items():
        Record().change("L14-build", lambda e, f=field, a=answer: e.typed(f, a))


def checks(*made):
    """Return an entry in which each of some mistakes was made once."""
    found = tuple(Check(i, 0, 0.0, False, {"x": "mistake"}, (m,), "2026-01-01") for i, m in enumerate(made))
    return Entry(checks=found)


class TestForm:
    @each_client
    def test_becomes_the_design_that_was_marked(self, client):
        problem = draw(client)
        template = problem.slot
        plan = size(parse_plan(template.plan_made(problem, template.solution(problem, Settings()), Settings())))
        judged = template.brief(problem).sound.design
        for name in ("bank_ah", "units_count", "array_w", "modules_in_series_count", "energy_day_wh", "bank_voltage_v"):
            source = judged.system if name in judged.system else judged.loads
            assert float(plan.system[name] if name in plan.system else plan.loads[name]) == float(source[name]), name

    @each_client
    def test_keeps_counts_that_the_sheet_would_not_choose(self, client):
        problem = draw(client)
        template = problem.slot
        answers = dict(template.solution(problem, Settings()))
        answers["strings_count"] = Answer("3")
        design = size(parse_plan(template.plan_made(problem, answers, Settings())))
        assert design.system["strings_count"] == 3

    def test_is_no_plan_while_a_part_or_a_count_is_missing(self):
        problem = draw(BUILD)
        whole = BUILD.solution(problem, Settings())
        assert BUILD.plan_made(problem, whole, Settings())
        for left_out in ("module", "strings_count", "cable_by_row_mm2.1", "bank_voltage_v"):
            assert BUILD.plan_made(problem, {k: v for k, v in whole.items() if k != left_out}, Settings()) == ""
        assert BUILD.plan_made(problem, {**whole, "strings_count": Answer("two")}, Settings()) == ""

    def test_is_no_plan_where_parts_do_not_go_together(self):
        problem = draw(BUILD)
        assert BUILD.plan_made(problem, {**BUILD.solution(problem, Settings()), "bank_voltage_v": Answer("48", "V")},
                               Settings()) == ""  # fmt: skip

    def test_each_client_asks_for_a_design_of_its_own(self):
        titles = {draw(BUILD, n).slot.title for n in range(len(BUILD.templates))}
        assert len(titles) == len(BUILD.templates) >= 4


class TestOwnDesign:
    def test_waits_for_the_form(self):
        shown = on_my_design("L14-build", lambda _: pytest.fail("there is no design yet"))
        assert "form" in shown.value

    def test_is_the_one_on_the_form(self):
        problem = draw(BUILD)
        fill_in(BUILD.solution(problem, Settings()))
        shown = on_my_design("L14-build", lambda design: design)
        assert shown.system["bank_ah"] == BUILD.brief(problem).sound.design.system["bank_ah"]

    def test_its_log_is_that_of_its_own_parts(self):
        neighbour = my_fault("L14-own", "L14-build").place
        problem = draw(BUILD)
        fill_in(BUILD.solution(problem, Settings()))
        own = my_fault("L14-own", "L14-build").place
        assert neighbour is slot("L14-own")
        design = size(parse_plan(own.plan))
        assert design.system["array_w"] == BUILD.brief(problem).sound.design.system["array_w"]

    def test_its_log_can_be_answered(self):
        fill_in(BUILD.solution(draw(BUILD), Settings()))
        card = my_fault("L14-own", "L14-build")
        marks = mark(card.problem, card.place.solution(card.problem, Settings()))
        assert marks.finished

    def test_other_problems_have_no_log_and_no_form(self):
        with pytest.raises(Exception, match="has no log"):
            my_fault("L14-ask", "L14-build")
        with pytest.raises(Exception, match="no form"):
            on_my_design("L14-ask", size)

    def test_the_card_shows_the_form_as_it_was(self):
        fill_in({"strings_count": Answer("2")})
        assert exercise("L14-build").entry.answers["strings_count"].text == "2"


def _lesson_of(made):
    """Return the lesson in which a mistake is first asked about."""
    return next(s.lesson for s in slots().values() if made.id in s.mistakes)


class TestOral:
    def test_asks_about_own_mistakes_the_worst_and_commonest_first(self):
        entries = {"L01-1": checks("LD-13", "LD-13", "LD-04"), "L08-1": checks("CC-03"), "L02-1": checks("LD-04")}
        asked = oral_questions(entries, slots().values())
        assert [(m.id, n) for m, n in asked] == [("CC-03", 1), ("LD-13", 2), ("LD-04", 2)]

    def test_who_made_none_is_asked_about_dangers(self):
        asked = oral_questions({}, slots().values())
        assert len(asked) == QUESTIONS == len({m.id for m, _ in asked})
        assert all(m.severity == "danger" and n == 0 for m, n in asked)
        assert len({m.family for m, _ in asked}) == QUESTIONS
        assert len({_lesson_of(m) for m, _ in asked}) == QUESTIONS

    def test_dangers_that_stand_in_are_of_other_lessons_than_each_other(self):
        asked = oral_questions({"L01-1": checks("LD-13")}, slots().values())
        assert [n for _, n in asked] == [1, 0, 0]
        assert len({_lesson_of(m) for m, _ in asked[1:]}) == 2

    def test_the_page_says_so_when_there_is_too_little_on_record(self):
        assert "dangers stand in, each from another lesson" in oral().value
        Record().change("L08-1", lambda _: checks("CC-03", "CC-01", "CC-04"))
        assert "stand in" not in oral().value

    def test_the_page_has_a_question_each(self):
        Record().change("L08-1", lambda _: checks("CC-03"))
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            page = oral().value
        assert page.count("<tr>") == QUESTIONS + 1
        assert mistake("CC-03").question in page.replace("&#x27;", "'")
