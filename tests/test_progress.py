"""Where a learner stands, in words, from what the cards kept."""

import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.lab import exercise, next_exercise, progress
from offgrid_core.practice import mistake, slots

EXIT = [s.id for s in slots().values() if s.lesson == "L05" and s.quiz == "exit"]


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))


def answered(id_, how="solve", times=1):
    for _ in range(times):
        card = exercise(id_)
        card.solve() if how == "solve" else card.slip(how)
        card.check()
        card.new_numbers()


def test_nothing_checked_yet_says_where_to_begin():
    said = progress("L05").value
    assert "Nothing has been checked here yet" in said
    assert next_exercise("L05").place.lesson == "L05"


def test_three_right_first_tries_are_known_and_two_are_not():
    answered("L05-3", times=2)
    assert "known" not in progress("L05").value
    answered("L05-3")
    said = progress("L05").value
    assert "Bank, corrected for cold" in said
    assert said.count(">known<") >= 1
    assert ">3<" in said


def test_a_habit_is_given_its_question_and_a_danger_its_own_table():
    answered("L05-3", "TE-02", times=2)
    assert mistake("TE-02").question in progress("L05").value.replace("&#x27;", "'")
    answered("L05-5", "TE-14")
    said = progress("L05").value
    assert "not yet kept out twice in a row" in said
    answered("L05-5", times=2)
    after = progress("L05").value
    assert ">kept out twice in a row<" in after


def test_the_exit_is_open_until_five_of_six_are_right():
    answered("L05-3")
    assert "still open" in progress("L05").value
    for id_ in EXIT[:5]:
        answered(id_)
    assert "The exit of the lesson is passed" in progress("L05").value


def test_the_next_exercise_is_one_not_done():
    first = next_exercise("L05").place.id
    answered(first)
    assert next_exercise("L05").place.id != first
    assert f"Next: {next_exercise('L05').place.id}," in progress("L05").value


@pytest.mark.parametrize("lesson", ["L99", "", "05", "<b>"])
def test_an_unknown_lesson_is_refused_with_the_known_ones(lesson):
    with pytest.raises(OffgridError, match="lessons with problems: L00, L01, "):
        progress(lesson)
    with pytest.raises(OffgridError, match="no problems of a lesson"):
        next_exercise(lesson)
