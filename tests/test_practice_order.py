"""Put in order: graded against required pairs, on the worksheet of the bank and on a commissioning list."""

from dataclasses import replace
from itertools import permutations

import pytest
from kind_checks import US_COMMA, hostile, on_card, on_paper, one_question

from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, Problem, draw, mark
from offgrid_core.practice.kinds import Order, cards_of
from offgrid_core.quantities import Settings
from offgrid_core.sizing import BANK
from offgrid_core.worksheet import Sheet

CARDS, BEFORE = cards_of(BANK)
SLOT = Order(
    id="L99-order",
    title="Put the lines of the bank in order",
    statement="Every line of the bank's worksheet stands on a card.",
    hint="Which of these is known before anything is worked?",
    principle="A line can be worked when all that it is worked from is known.",
    cards=CARDS,
    before=BEFORE,
    extra={"sun": "peak sun hours in the design month", "modules": "modules in all"},
)
PLAIN = replace(SLOT, id="L99-plain", extra={})


def variants(slot, count=40):
    return [Problem(slot, {}, f"seed {n}") for n in range(count)]


PROBLEM = draw(SLOT)


def answers(places):
    return {n: Answer(str(p), "place") for n, p in places.items()}


def by_loop(places):
    """Return the score: pair by pair, from what each line of the worksheet is worked from."""
    pairs = 0
    lost = 0
    for later in BANK:
        for earlier in BANK:
            if earlier != later and earlier in BANK.upto(later):
                pairs += 1
                one, other = places.get(earlier, 0), places.get(later, 0)
                if one == 0 or other == 0 or one >= other:
                    lost += 1
    lost += sum(1 for n in SLOT.extra if places.get(n, 0) > 0)
    return max(0, 1 - lost / pairs)


def test_the_key_is_the_worksheet_s_own():
    assert list(CARDS.values())[2] == "energy for the sunless days"
    assert len(BEFORE) == 12
    assert ("energy_day_wh", "bank_needed_ah") in BEFORE
    assert not {("kept_frac", "spell_wh"), ("spell_wh", "kept_frac")} & set(BEFORE)
    turned = Sheet(BANK["energy_day_wh"], BANK["spell_wh"], BANK["bank_warm_wh"])
    assert cards_of(turned)[1] == (
        ("energy_day_wh", "spell_wh"),
        ("energy_day_wh", "bank_warm_wh"),
        ("spell_wh", "bank_warm_wh"),
    )


def test_every_one_of_720_orders_scores_what_the_loop_says():
    out = dict.fromkeys(SLOT.extra, 0)
    right = []
    for order in permutations(CARDS):
        places = {n: i + 1 for i, n in enumerate(order)}
        marks = mark(PROBLEM, answers(places | out))
        assert marks.score == pytest.approx(by_loop(places))
        assert marks.finished == (marks.score == 1)
        one_question(marks)
        if marks.finished:
            right.append(order)
    # the share kept in the cold may stand anywhere before the bank corrected for cold: four places
    assert len(right) == 4


@pytest.mark.parametrize("used", [["sun"], ["sun", "modules"]])
def test_a_card_that_belongs_nowhere_costs_a_pair(used):
    places = {n: i + 1 for i, n in enumerate(CARDS)} | dict.fromkeys(SLOT.extra, 0) | dict.fromkeys(used, 7)
    marks = mark(PROBLEM, answers(places))
    assert marks.score == pytest.approx(by_loop(places)) == pytest.approx(1 - len(used) / 12)
    assert {m.id for m in marks.fields if m.verdict != "right"} == set(used)
    assert "sun hours" not in marks.question
    one_question(marks)


def test_a_needed_card_left_out_is_asked_about():
    places = {n: i + 1 for i, n in enumerate(CARDS)} | {"kept_frac": 0} | dict.fromkeys(SLOT.extra, 0)
    marks = mark(PROBLEM, answers(places))
    assert marks.score == pytest.approx(10 / 12)
    assert marks.question.startswith("Share of the label kept in the cold: could everything else")


def test_cards_that_may_stand_either_way_may_share_a_place_and_others_not():
    places = dict(zip(CARDS, (1, 1, 2, 3, 4, 5), strict=True)) | dict.fromkeys(SLOT.extra, 0)
    assert mark(PROBLEM, answers(places)).finished
    assert mark(PROBLEM, answers(dict.fromkeys(places, 1))).score == 0


def test_the_question_is_about_the_later_card_and_does_not_name_the_earlier_one():
    places = {n: i + 1 for i, n in enumerate(CARDS)} | dict.fromkeys(SLOT.extra, 0)
    places |= {"bank_warm_wh": places["spell_wh"], "spell_wh": places["bank_warm_wh"]}
    marks = mark(PROBLEM, answers(places))
    assert marks.question.startswith("Bank, if it stayed warm: what has to be there")
    assert "sunless" not in marks.question
    assert marks.score == pytest.approx(11 / 12)


def test_half_filled_in():
    assert mark(PROBLEM, {}).feedback == ("Give each card a place first.",)
    marks = mark(PROBLEM, answers({"energy_day_wh": 1, "spell_wh": 2}))
    assert not marks.question
    assert "Not answered yet" in marks.feedback[-1]
    assert marks.score == pytest.approx(1 / 12)
    marks = mark(
        PROBLEM, answers({n: i + 1 for i, n in enumerate(CARDS)}) | {"sun": Answer("1.5"), "modules": Answer("0")}
    )
    assert marks.of("sun").verdict == "reenter"
    assert "from 0 to 8" in marks.feedback[-1]
    assert not marks.finished


@pytest.mark.parametrize("slot", [SLOT, PLAIN], ids=["with extra", "plain"])
def test_the_screen_s_order_is_the_seed_s_and_never_right(slot):
    seen = set()
    for problem in variants(slot):
        shown = [f.id for f in slot.fields(problem, Settings())]
        assert shown == [f.id for f in slot.fields(Problem(slot, {}, problem.seed), Settings())]
        assert sorted(shown) == sorted({**slot.cards, **slot.extra})
        places = {n: i + 1 for i, n in enumerate(shown)}
        assert any(places[a] > places[b] for a, b in BEFORE)
        assert slot.broken(places)
        seen.add(tuple(shown))
    assert len(seen) > 30


def test_a_right_order_drawn_is_turned_round(monkeypatch):
    place = {n: i for i, n in enumerate(CARDS)}
    monkeypatch.setattr("offgrid_core.practice.kinds.order.picked", lambda text, _: place[text.rpartition(" ")[2]])
    assert PLAIN.on_screen(draw(PLAIN)) == list(CARDS)[::-1]


@pytest.mark.parametrize("slot", [SLOT, PLAIN], ids=["with extra", "plain"])
def test_the_solution_is_right_in_every_variant_and_worked_shows_it(slot):
    for problem in variants(slot):
        solution = slot.solution(problem, Settings())
        assert mark(problem, solution).finished
        worked = slot.worked(problem, Settings())
        assert {n: row[0] for n, row in zip({**slot.cards, **slot.extra}, worked, strict=True)} == {
            n: solution[n].text if n in slot.cards else "0" for n in solution
        }
        assert [row[2] for row in worked[:6]] == list(CARDS.values())


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"before": BEFORE[:5]}, "at least 6"),
        ({"before": (*BEFORE[:5], BEFORE[0])}, "at least 6"),
        ({"before": (*BEFORE, ("bank_needed_ah", "spell_wh"))}, "bank_needed_ah not before spell_wh"),
        ({"before": (*BEFORE, ("sun", "spell_wh"))}, "sun not before"),
        ({"cards": dict(list(CARDS.items())[:4])}, "5 to 8 cards"),
        ({"extra": {"spell_wh": "twice"}}, "each id once"),
        ({"extra": {"long": "x" * 51}}, "50 characters"),
        ({"grids": {"n": (1, 2)}}, "no numbers to draw"),
    ],
)
def test_a_slot_that_cannot_be_put_in_order_is_refused(changed, said):
    with pytest.raises(OffgridError, match=said):
        replace(SLOT, **changed)


def test_hostile_text():
    hostile(PROBLEM)


@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
@pytest.mark.parametrize("slot", [SLOT, PLAIN], ids=["with extra", "plain"])
def test_the_card(slot, chosen, tmp_path):
    on_card(slot, tmp_path, chosen)


def test_paper():
    paper = on_paper(SLOT)
    assert "0\u00a0for one to be left out" in paper
    assert "peak sun hours in the design month: ______________ place" in paper
    assert "left out" not in on_paper(PLAIN)
