"""The exercise card, driven as a hand would drive it, without a browser."""

import asyncio
import re
from html.parser import HTMLParser

import ipywidgets as widgets
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.lab import card as card_module
from offgrid_core.lab.card import Card, exercise, guess
from offgrid_core.lab.sheet_of_paper import table
from offgrid_core.practice import mistake, slots
from offgrid_core.practice.kinds import Guess, Work
from offgrid_core.practice.record import Record
from offgrid_core.quantities import Settings, settings

US_COMMA = Settings(temperature="°F", decimal=",")


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))
    return tmp_path / "my-work"


def under(widget):
    """Return a widget and everything in it."""
    yield widget
    for child in getattr(widget, "children", ()):
        yield from under(child)


def boxes(card, kind=widgets.Text):
    return [w for w in under(card) if type(w) is kind]


def html_of(card):
    return " ".join(w.value for w in under(card) if isinstance(w, widgets.HTML))


def button(card, words):
    return next(w for w in boxes(card, widgets.Button) if w.description == words)


def _unshown(*_):
    raise OffgridError("there is no input called strings_count")


def press_enter(box):
    """What a page sends when Enter is pressed in a text box."""
    box._handle_custom_msg({"event": "submit"}, [])


class TestTheLessonsExample:
    def test_125_ah(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "125", "Ah")
        card.check()
        assert mistake("TE-02").question in card.feedback
        assert "in the right direction" in card.feedback
        assert "133" not in html_of(card)
        assert "role='status'" in html_of(card)
        assert "aria-live='polite'" in html_of(card)
        assert "look again" in html_of(card)

    def test_mended(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "133.3", "Ah")
        card.check()
        assert card.feedback.startswith("Right: ")


@pytest.mark.parametrize("id_", list(slots()))
class TestEveryCard:
    @pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
    def test_solved(self, id_, chosen, folder):
        settings.remember(chosen, folder)
        card = exercise(id_)
        card.solve()
        card.check()
        kept = Record().entry(id_)
        assert kept.checks[-1].finished
        assert set(kept.answers) == {k for k, a in card.answers.items() if a.text}

    def test_slipped(self, id_):
        card = exercise(id_)
        for wanted in slots()[id_].tempting(card.problem):
            card.slip(wanted)
            card.check()
            assert Record().entry(id_).checks[-1].mistakes == (wanted,)
            assert mistake(wanted).question in card.feedback or card.place.kind == "choose" or card.place.quiz

    def test_unanswered_is_no_try(self, id_):
        card = exercise(id_)
        card.check()
        assert card.feedback
        assert Record().entry(id_).checks == ()

    def test_every_field_has_a_name_and_a_keyboard(self, id_):
        card = exercise(id_)
        for box in boxes(card):
            assert box.description
        for menu in (*boxes(card, widgets.Dropdown), *boxes(card, widgets.RadioButtons)):
            assert menu.tooltip
        assert all(b.description for b in boxes(card, widgets.Button))

    def test_on_paper(self, id_):
        card = exercise(id_)
        card.solve()
        paper = card.static()
        seen = []
        parser = HTMLParser()
        parser.handle_starttag = lambda tag, _: seen.append(tag)
        parser.feed(paper)
        assert slots()[id_].title.replace("'", "&#x27;") in paper
        assert set(seen) <= {"section", "h4", "small", "p", "table", "caption", "tr", "th", "td", "ul", "li"}
        typed = [a.text for a in card.answers.values() if a.text]
        assert paper == exercise(id_).static()
        assert typed or slots()[id_].kind in ("choose", "slip")


class TestTyping:
    def test_enter_checks(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "125")
        press_enter(boxes(card)[0])
        assert mistake("TE-02").question in card.feedback

    def test_enter_waits_for_the_text_that_comes_after_it(self):
        """A page sends the key first and the text just after it."""

        async def page():
            card = exercise("L05-4")
            box = boxes(card)[0]
            press_enter(box)
            box.value = "125"
            assert card.feedback == ""
            await asyncio.sleep(card_module._TEXT_ARRIVES + 0.1)
            return card

        assert mistake("TE-02").question in asyncio.run(page()).feedback

    def test_buttons_press(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "125")
        button(card, "Check").click()
        assert mistake("TE-02").question in card.feedback
        button(card, "Help").click()
        assert card.feedback == mistake("TE-02").question
        button(card, "New numbers").click()
        assert card.answers["for_cold_ah"].text == ""
        assert card.feedback == ""

    def test_unknown_step_and_option(self):
        with pytest.raises(OffgridError, match="asks for for_cold_ah, not for x"):
            exercise("L05-4").type("x", "1")
        with pytest.raises(OffgridError, match="has the options"):
            exercise("L05-pick").type("choice", "neither of them")
        with pytest.raises(OffgridError, match="nearest: L05-"):
            exercise("L05-44")

    def test_choice_by_its_words(self):
        card = exercise("L05-pick")
        card.type("choice", next(o.text for o in slots()["L05-pick"].options if o.right))
        card.check()
        assert card.feedback.startswith("Yes: ")

    @pytest.mark.parametrize(
        "text", ["<script>alert(1)</script>", "__import__('os')", "1" * 10_000_000, "nan", "1e400", "\u202e5"]
    )
    def test_hostile(self, text):
        card = exercise("L05-4")
        card.type("for_cold_ah", text)
        card.check()
        assert "please re-enter" in html_of(card)
        assert "<script" not in html_of(card)
        assert len(html_of(card)) < 5000
        assert Record().entry("L05-4").checks == ()
        assert "<script" not in html_of(exercise("L05-4"))

    def test_a_verdict_goes_when_its_text_changes(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "125")
        card.check()
        assert "look again" in html_of(card)
        card.type("for_cold_ah", "126")
        assert "look again" not in html_of(card)


class TestSettings:
    def test_fahrenheit_and_comma(self, folder):
        settings.remember(US_COMMA, folder)
        card = exercise("L05-4")
        card.type("for_cold_ah", "133,3")
        card.check()
        assert card.feedback.startswith("Right: ")
        assert "133,3 Ah" in card.feedback
        assert "°F" in html_of(exercise("L05-3"))
        assert "°C" not in html_of(exercise("L05-3"))
        assert boxes(exercise("L05-6"), widgets.Dropdown)[0].value == "°F"

    def test_a_question_about_the_unit_keeps_its_unit(self, folder):
        settings.remember(US_COMMA, folder)
        card = exercise("L05-1")
        assert boxes(card, widgets.Dropdown) == []
        card.solve()
        assert card.answers["battery_temp_c"].unit == "°C"


class TestFaded:
    def test_given_steps_are_filled_and_shut(self):
        card = exercise("L05-faded-1")
        shut = [b for b in boxes(card) if b.disabled]
        assert [b.value for b in shut] == [
            card.problem.shown("bank_needed_ah", card.problem.key["bank_needed_ah"], Settings())
        ]
        assert len(boxes(card)) == 3
        with pytest.raises(OffgridError):
            card.type("bank_needed_ah", "1")


class TestGuess:
    def test_locks(self):
        card = guess("L05-guess")
        card.help()
        assert card.feedback == "Lock a guess first; any honest number will do."
        card.type("cold_gives_ah", "350")
        card.check()
        assert "Locked: 350 Ah" in card.feedback
        assert all(b.disabled for b in boxes(card))
        again = guess("L05-guess")
        assert again.answers["cold_gives_ah"].text == "350"
        assert all(b.disabled for b in boxes(again))
        again.type("cold_gives_ah", "286")
        again.check()
        assert len(Record().entry("L05-guess").checks) == 1
        button(card, "Compare").click()
        assert "worked 286 Ah" in card.feedback

    def test_only_guesses(self):
        with pytest.raises(OffgridError, match="is not a guess"):
            guess("L05-3")
        assert isinstance(slots()["L01-guess"], Guess)


def test_a_menu_of_many_units_opens_with_the_one_to_show_first():
    """Among the units of a drawing is none at all, for counts: an empty box is not set to that."""
    card = exercise("L08-drawing")
    assert "" in card._rows[-1].field.units
    assert card._rows[-1].unit.value == card._rows[-1].field.unit == "V"


class TestHelp:
    def test_ladder_and_a_variant_owed(self):
        card = exercise("L05-4")
        card.type("for_cold_ah", "111")
        card.help()
        assert card.feedback == slots()["L05-4"].hint
        card.help()
        assert "One more try" in card.feedback
        for _ in range(2):
            card.check()
        card.help()
        assert "The idea" in card.feedback
        assert "÷" in html_of(card)
        card.help()
        assert html_of(card).index("÷") < html_of(card).index("One more try")  # what to do next stands last
        assert "133.3\xa0Ah" not in html_of(card)
        card.check()
        card.help()
        assert "133.3\xa0Ah" in html_of(card)
        assert not re.search(r"\d (Ah|Wh|%|°C)", html_of(card))  # no end of a line parts a number from its unit
        assert "New numbers" in card.feedback
        card.solve()
        card.check()
        assert "not counted" in card.feedback
        assert Record().entry("L05-4").checks[-1].rung == 3
        card.new_numbers()
        card.solve()
        card.check()
        assert "not counted" not in card.feedback
        assert Record().entry("L05-4").checks[-1].rung == 0

    def test_a_sum_worked_as_an_example_stands_with_its_own_rows(self):
        card = exercise("L01-faded-1")
        card.slip(card.place.mistakes[0])
        for _ in range(2):
            card.check()
        card.help()
        shown = html_of(card).count("running power")
        card.help()
        assert "The idea" in card.feedback
        assert html_of(card).count("running power") == shown + 1

    def test_a_mistake_on_two_sets_of_numbers_is_said_to_be_one(self):
        """One match is a guess; nothing is said of it. On other numbers it is said, about the step, not the person."""
        card = exercise("L05-3")
        card.slip("TE-02")
        card.check()
        assert "different sets of numbers" not in html_of(card)
        card.new_numbers()
        card.slip("TE-02")
        card.check()
        assert "shows on 2\xa0different sets of numbers" in html_of(card)
        card.new_numbers()
        card.slip("TE-01")
        card.check()
        assert "different sets of numbers" not in html_of(card)

    def test_consequence_of_a_danger_comes_after_it_is_mended(self):
        card = exercise("L05-5")
        card.slip("TE-14")
        card.check()
        assert mistake("TE-14").consequence not in card.feedback
        card.solve()
        card.check()
        assert mistake("TE-14").consequence in card.feedback


class TestExit:
    def test_feedback_waits_for_all_six(self):
        ids = [i for i in slots() if i.startswith("L05-exit")]
        assert len(ids) == 6
        for left, id_ in zip(range(5, 0, -1), ids, strict=False):
            card = exercise(id_)
            card.solve()
            card.check()
            assert f"{left} to go" in card.feedback
            assert not re.search(r">right<", html_of(card))
            card.help()
            assert "to go" in card.feedback
        last = exercise(ids[-1])
        last.solve()
        last.check()
        assert "to go" not in last.feedback
        assert "to go" not in exercise(ids[0]).feedback
        assert exercise(ids[0]).feedback


class TestResume:
    def test_exactly_where_it_was(self):
        card = exercise("L05-3")
        card.new_numbers()
        card.type("spell_wh", "9 600", "Wh")
        card.type("kept_frac", "0.7", "as a fraction")
        again = exercise("L05-3")
        assert again.answers == card.answers
        assert again.problem.given["energy_day_wh"] == card.problem.given["energy_day_wh"]
        assert again.feedback == ""
        card.check()
        assert exercise("L05-3").feedback == card.feedback

    def test_numbers_that_cannot_be_shown_are_not_kept(self, monkeypatch):
        """Else the card, and with it the whole quiz, would fail on every run."""
        card = exercise("L05-3")
        before = card.problem
        with monkeypatch.context() as patched:
            patched.setattr(Work, "tables", _unshown)
            with pytest.raises(OffgridError):
                card.new_numbers()
        assert card.problem is before
        assert Record().entry("L05-3").attempt == 0
        card.new_numbers()
        assert Record().entry("L05-3").attempt == card.problem.attempt == 1

    def test_new_numbers_where_another_card_has_moved_on(self):
        one, other = exercise("L05-3"), exercise("L05-3")
        one.new_numbers()
        other.new_numbers()
        assert (other.entry.attempt, other.problem.attempt) == (2, 2)

    def test_two_cards_of_two_notebooks(self):
        one, other = exercise("L05-4"), exercise("L05-2")
        one.type("for_cold_ah", "125")
        other.type("bank_cold_wh", "20000")
        one.check()
        assert Record().entry("L05-2").answers["bank_cold_wh"].text == "20000"
        assert Record().entry("L05-4").answers["for_cold_ah"].text == "125"

    def test_a_folder_that_cannot_be_written(self, tmp_path):
        (tmp_path / "file").write_text("")
        card = Card(slots()["L05-4"], Record(tmp_path / "file" / "x"), Settings())
        card.type("for_cold_ah", "125")
        card.check()
        assert mistake("TE-02").question in card.feedback
        assert "could not be saved" in html_of(card)
        assert "role='alert'" in html_of(card)
        card.new_numbers()
        assert card.entry.attempt == card.problem.attempt == 1


def test_tables_escape_everything():
    assert "<b>" not in table([["", "<b>"], ["<b>", "<b>"]], "<b>")
    assert table([]) == ""


class TestUnits:
    """A number and its unit stand on one line, in the statement, in the help and in a choice."""

    def test_none_is_parted_from_its_number(self):
        card = exercise("L01-8")
        card.type(next(iter(card.answers)), "1")
        for _ in range(2):
            card.check()
            card.help()
        assert card.entry.rung == 2
        assert "The inverter passes on 85\u00a0%" in card._status.value.replace("\u2009", "")
        assert "draw 45\u00a0W each for 5\u00a0h" in html_of(card)
        (choice,) = boxes(exercise("L01-saving"), widgets.RadioButtons)
        assert any("5\u00a0W in place of 7\u00a0W" in text for text, _ in choice.options)


def test_a_quiz_does_not_note_what_it_cannot_read():
    card = exercise("L01-exit-1")
    card.type("run_energy_by_row_wh", "abc")
    card.check()
    assert "'abc' is not read as one number" in card.feedback
    assert "to go" not in card.feedback
    card.type("run_energy_by_row_wh", "1")
    card.check()
    assert "to go" in card.feedback
