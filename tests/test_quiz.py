"""Entry check and exit quiz, the explorer that waits for a prediction, and the glossary, without a browser."""

from html import escape

import ipywidgets as widgets
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.lab import chain_panel, entry_check, exit_quiz, explore, glossary, unit_gate, words
from offgrid_core.lab.explorer import Explorer
from offgrid_core.lab.glossary import explained
from offgrid_core.practice import slots
from offgrid_core.practice.kinds import Rise
from offgrid_core.practice.slot import entry_check as entry_slots
from offgrid_core.quantities import Settings
from offgrid_core.system import read_plan, size

QUIZZES = [(lesson, which) for lesson, which in dict.fromkeys((s.lesson, s.quiz) for s in slots().values()) if which]
MAKE = {"entry": entry_check, "exit": exit_quiz, "gate": unit_gate}
COUNT = {"entry": 4, "exit": 6, "gate": 16}


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def answer(card, right=True):
    """Answer a card rightly, or in a way that its slot can show."""
    if right:
        card.solve()
    else:
        card.slip(card.problem.slot.tempting(card.problem)[0])
    card.check()


def buttons(card):
    row = next(w for w in card.children if isinstance(w, widgets.HBox) and isinstance(w.children[0], widgets.Button))
    return [b.description for b in row.children if b.layout.display != "none"]


def wrong_ones(quiz):
    return [c for c in quiz.cards if c.problem.slot.tempting(c.problem) and c.place.kind != "slip"]


class TestQuizzes:
    @pytest.mark.parametrize(("lesson", "which"), QUIZZES)
    def test_all_right(self, lesson, which):
        quiz = MAKE[which](lesson)
        assert len(quiz.cards) == COUNT[which]
        for card in quiz.cards:
            assert quiz.outcome == ""
            answer(card)
        all_right = "100 % of the gate" if which == "gate" else f"{COUNT[which]} of {COUNT[which]} right at once"
        assert quiz.outcome.startswith(all_right)
        assert all("look" not in card.feedback for card in quiz.cards), "every card tells when the last is in"
        assert MAKE[which](lesson).outcome == quiz.outcome

    @pytest.mark.parametrize(("lesson", "which"), QUIZZES)
    def test_nothing_is_told_before_the_last_is_in(self, lesson, which):
        quiz = MAKE[which](lesson)
        *first, last = quiz.cards
        for left, card in enumerate(first):
            answer(card)
            assert card.feedback == (
                f"Noted. These answers are looked at together, when all {COUNT[which]} are in; "
                f"{COUNT[which] - 1 - left} to go."
            )
        answer(last)
        assert all("Noted" not in card.feedback for card in quiz.cards)

    def test_a_gate_is_one_try_each_until_all_are_in(self):
        gate = unit_gate("G1")
        for card in gate.cards:
            assert buttons(card) == ["Check"]
            answer(card)
        assert all(buttons(card)[:2] == ["Check", "Help"] for card in gate.cards)
        assert "New numbers" in buttons(gate.cards[0])
        assert buttons(exit_quiz("L01").cards[0]) == ["Check", "Help", "New numbers"]

    def test_one_wrong_in_the_entry_check_goes_step_by_step(self):
        quiz = entry_check("L05")
        wrong = wrong_ones(quiz)[0]
        for card in quiz.cards:
            answer(card, right=card is not wrong)
        assert quiz.outcome == "3 of 4 right at once: the next parts go through it step by step."
        assert wrong.feedback.count("?") == 1

    def test_five_of_six_end_the_lesson_and_four_do_not(self):
        quiz = exit_quiz("L05")
        one, other = wrong_ones(quiz)[:2]
        for card in quiz.cards:
            answer(card, right=card not in (one, other))
        assert quiz.outcome.startswith("4 of 6 right at once, and 5 are enough")
        one.solve()
        one.check()
        assert quiz.outcome.startswith("4 of 6"), "only the first try of new numbers counts"
        one.new_numbers()
        assert quiz.outcome.startswith("4 of 6")
        answer(one)
        assert quiz.outcome == "5 of 6 right at once: this lesson is passed."

    def test_refused(self):
        with pytest.raises(OffgridError, match="no entry quiz of a lesson 'L99'"):
            entry_check("L99")


class TestEntrySlots:
    def test_are_the_practice_with_numbers_of_their_own(self):
        place = slots()["L05-4"]
        (entry,) = entry_slots("L05", place)
        assert (entry.id, entry.quiz, entry.others, entry.starts_curated) == ("L05-entry-1", "entry", (), False)
        assert entry.sheet is place.sheet

    @pytest.mark.parametrize("lesson", dict.fromkeys(s.lesson for s in slots().values() if s.quiz == "entry"))
    def test_each_can_be_drawn_anew(self, lesson):
        entry = [s for s in slots().values() if s.lesson == lesson and s.quiz == "entry"]
        assert len(entry) == 4
        assert all(s.grids for s in entry)
        assert len({s.title for s in entry}) == 4


class TestExplorer:
    def test_sliders_wait_for_the_prediction(self, hut):
        id_ = next(s.id for s in slots().values() if isinstance(s, Rise) and s.id.endswith("explore"))
        shown = explore(id_, chain_panel(hut, "", Settings()))
        assert isinstance(shown, Explorer)
        sliders = [c.slider for c in (*shown.panel.parts.controls, *shown.panel.parts.more) if hasattr(c, "slider")]
        assert all(s.disabled for s in sliders)
        assert "prediction" in shown.panel._status.value
        shown.card.type("direction", "same")
        shown.card.check()
        assert all(s.disabled for s in sliders)
        shown.card.type("size", "2")
        shown.card.check()
        assert not any(s.disabled for s in sliders)
        assert shown.panel._status.value == ""
        assert not any(
            c.slider.disabled for c in explore(id_, chain_panel(hut, "", Settings())).panel.parts.controls[:3]
        )

    def test_a_choice_waits_too(self, hut):
        panel = chain_panel(hut, "", Settings())
        panel.hold()
        assert panel.parts.controls[-1].menu.disabled
        panel.release()
        assert not panel.parts.controls[-1].menu.disabled


class TestGlossary:
    def test_words_in_the_order_wanted(self):
        told = words("string", "energy").value
        assert told.index("string") < told.index("energy")
        assert explained()["string"].split()[0] in told

    def test_all_are_there_in_the_order_of_the_alphabet(self):
        told = glossary().value
        places = [told.index(f">{escape(word)}</dt>") for word in explained()]
        assert places == sorted(places)

    def test_unknown_word(self):
        with pytest.raises(OffgridError, match="no word 'strin'; nearest: string"):
            words("strin")

    @pytest.mark.parametrize("word", ["AC", "DC", "kelvin", "flooded", "AGM", "LFP", "equalizing", "specific gravity"])
    def test_what_a_sheet_shows_is_explained(self, word):
        assert word in explained()

    def test_words_agree_with_the_lines(self):
        """The depth is of what the cold bank gives, full sun is not the most, and boxes bear the trade's letters."""
        assert "in the cold, of what the label still gives" in explained()["depth of discharge"]
        assert "Brighter sun pushes more" in explained()["short-circuit current"]
        assert "MPPT" in explained()["tracking controller"]
        assert "PWM" in explained()["direct controller"]

    def test_each_meaning_is_short_and_ends(self):
        for word, meaning in explained().items():
            assert len(meaning.split()) <= 35, word
            assert meaning.endswith("."), word
            assert word == word.strip()
            assert meaning[0].isupper() or meaning[0].isdigit(), word
