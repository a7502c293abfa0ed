"""Will it go up? The bank in the cold: solved before and after, read as a panel shows it, and explained."""

from dataclasses import replace
from decimal import Decimal
from itertools import product

import pytest
from kind_checks import US_COMMA, hostile, on_card, on_paper, one_question

from offgrid_core.data import capacity_kept
from offgrid_core.errors import OffgridError
from offgrid_core.lab.card import Card
from offgrid_core.practice import Answer, Problem, draw, mark, mistake, slots
from offgrid_core.practice.kinds import Option, Rise
from offgrid_core.practice.kinds.rise import _BANDS
from offgrid_core.practice.learner import first_tries
from offgrid_core.practice.record import Record
from offgrid_core.quantities import Settings, show
from offgrid_core.sizing import BANK
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.temperature import FAHRENHEIT
from offgrid_core.worksheet import Sheet

CHAIN = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "kept_frac", "bank_cold_wh", "bank_needed_ah")))
SLOT = Rise(
    id="L99-rise",
    title="Will it go up?",
    statement="The shed goes from {battery_temp_c} to {battery_temp_after_c}. What becomes of the bank needed?",
    hint="What does the cold take from every bank, large or small?",
    sheet=CHAIN,
    given={"capacity_kept": capacity_kept("flooded"), "energy_day_wh": 2400, "depth_frac": 0.5, "bank_voltage_v": 48},
    grids={
        "battery_temp_c": (20, 25, -3.9), "battery_temp_after_c": (-3.9, -10, 7.2, 30), "autonomy_days": (3, 4, 5),
    },
    curated={"battery_temp_c": 25, "battery_temp_after_c": -10, "autonomy_days": 4},
    result="bank_needed_ah",
    moved="battery_temp_c",
    after="battery_temp_after_c",
    reasons=(
        Option("the label is divided by what is kept", "Each amp-hour of the label gives only its share.", right=True),
        Option("what is lost is put on top", mistake="TE-02"),
        Option("the label is taken times what is kept", mistake="TE-01"),
        Option("the loads change with the weather", "Does any load of the list stand in the shed?"),
    ),
)  # fmt: skip
PROBLEMS = [draw(SLOT, attempt) for attempt in range(12)]
CURATED = Problem(SLOT, {**SLOT.given, **SLOT.curated}, "curated")
RIGHT = {"direction": Answer("up"), "size": Answer("3"), "reason": Answer("0")}


def by_loop(problem):
    """Return the result before and after, each solved by itself."""
    ends = []
    for name in ("battery_temp_c", "battery_temp_after_c"):
        given = {n: v for n, v in problem.given.items() if n != "battery_temp_after_c"}
        given["battery_temp_c"] = problem.given[name]
        ends.append(float(CHAIN.solve(given)["bank_needed_ah"]))
    return ends


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_direction_and_size_are_those_of_two_solves(problem):
    before, after = by_loop(problem)
    solution = SLOT.solution(problem, Settings())
    wanted = "same" if before == after else "up" if after > before else "down"
    ratio = after / before
    band = 0 if ratio <= 1 / 3 else 1 if ratio <= 0.8 else 2 if ratio <= 1.25 else 3 if ratio <= 3 else 4
    assert (solution["direction"].text, solution["size"].text) == (wanted, str(band))
    assert abs(ratio - 1) >= 0.1 or before == after


def test_variants_go_up_down_and_nowhere():
    assert {SLOT.direction(draw(SLOT, n)) for n in range(30)} == {"up", "down", "same"}
    slight = Problem(SLOT, {**CURATED.given, "battery_temp_c": 7.2, "battery_temp_after_c": 4.4}, "slight")
    assert not SLOT.passes(slight)
    assert not SLOT.passes(Problem(SLOT, {**CURATED.given, "battery_temp_after_c": 25}, "not moved at all"))
    warm = Problem(SLOT, {**CURATED.given, "battery_temp_c": 25, "battery_temp_after_c": 30}, "truly the same")
    assert SLOT.passes(warm)
    assert SLOT.direction(warm) == "same"
    assert SLOT.passes(CURATED)


@pytest.mark.parametrize("problem", PROBLEMS[:4], ids=str)
def test_no_prediction_is_punished(problem):
    solution = SLOT.solution(problem, Settings())
    for way, size in product(("up", "down", "same"), "01234"):
        predicted = {"direction": Answer(way), "size": Answer(size)}
        marks = mark(problem, {**solution, **predicted})
        assert (marks.score, marks.finished) == (1, True)
        assert [m.verdict for m in marks.fields] == ["locked", "locked", "right", "right"]
        assert marks.feedback[-1].startswith("Predicted: ")
        marks = mark(problem, predicted)
        assert marks.score == 0
        one_question(marks)


@pytest.mark.parametrize(("way", "size"), [("up", "0"), ("up", "1"), ("down", "3"), ("down", "4"), ("same", "0")])
def test_way_and_size_of_a_prediction_must_fit_before_it_is_locked(way, size):
    marks = mark(CURATED, {"direction": Answer(way), "size": Answer(size)})
    assert "do not fit together" in marks.feedback[0]
    assert "locked" not in {m.verdict for m in marks.fields}


@pytest.mark.parametrize(("way", "size"), [("up", "2"), ("up", "4"), ("down", "0"), ("down", "2"), ("same", "2")])
def test_what_fits_is_locked(way, size):
    marks = mark(CURATED, {"direction": Answer(way), "size": Answer(size)})
    assert [m.verdict for m in marks.fields[:2]] == ["locked", "locked"]


def test_the_prediction_comes_first():
    solution = SLOT.solution(CURATED, Settings())
    for missing in ("direction", "size"):
        marks = mark(CURATED, {n: a for n, a in solution.items() if n != missing})
        assert (marks.score, marks.finished) == (0, False)
        assert marks.feedback[0].startswith("Predict which way and how far first")
        assert marks.of("reading").verdict == "unanswered"
        assert "locked" not in {m.verdict for m in marks.fields}


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_a_reading_is_right_to_one_step_of_what_a_panel_shows(problem):
    shown = show("bank_needed_ah", by_loop(problem)[1], Settings(), 3)
    value = Decimal(shown.removesuffix(" Ah").replace("\u2009", ""))
    assert 100 <= value < 1000
    for off, right in ((-2, False), (-1.02, False), (-1, True), (0, True), (1, True), (1.02, False), (2, False)):
        text = str(value + Decimal(str(off)))
        marks = mark(problem, {**SLOT.solution(problem, Settings()), "reading": Answer(text, "Ah")})
        assert marks.finished == right, (text, shown)
        assert marks.score == (1 if right else 0.5)
        one_question(marks)
        assert shown not in marks.question


def test_the_step_is_that_of_the_unit_on_the_panel():
    assert not mark(CURATED, {**RIGHT, "reading": Answer("1", "Ah")}).finished
    after = by_loop(CURATED)[1]
    assert mark(CURATED, {**RIGHT, "reading": Answer(f"{after * 1000:.10g}", "mAh")}).finished
    assert not mark(CURATED, {**RIGHT, "reading": Answer(f"{(after + 2) * 1000:.10g}", "mAh")}).finished


def test_a_count_is_read_exactly():
    sheet = CHAIN + STRINGS.upto("strings_count")
    slot = replace(SLOT, sheet=sheet, given={**SLOT.given, "unit_ah": 100}, result="strings_count")
    problem = Problem(slot, {**slot.given, **slot.curated}, "count")
    count = int(slot.ends(problem)[1])
    assert count >= 4
    assert mark(problem, {**RIGHT, "reading": Answer(str(count))}).finished
    assert not mark(problem, {**RIGHT, "reading": Answer(str(count - 1))}).finished


def test_a_large_count_is_read_exactly_too():
    sheet = CHAIN + STRINGS.upto("strings_count")
    slot = replace(SLOT, sheet=sheet, given={**SLOT.given, "unit_ah": 0.7}, result="strings_count")
    problem = Problem(slot, {**slot.given, **slot.curated}, "count")
    count = int(slot.ends(problem)[1])
    assert count > 500
    assert mark(problem, {**RIGHT, "reading": Answer(str(count))}).finished
    assert not mark(problem, {**RIGHT, "reading": Answer(str(count + 1))}).finished


def test_a_reading_in_the_readers_own_unit():
    """50 °F is 10 °C and 86 °F is 30 °C: one step of what is shown is a tenth of a degree Fahrenheit."""
    slot = replace(
        SLOT, sheet=FAHRENHEIT, given={"swing_fahrenheit": 9}, grids={}, result="battery_temp_c",
        moved="reading_fahrenheit", after="later_fahrenheit", curated={},
        marks=dict.fromkeys(("reading_fahrenheit", "later_fahrenheit"), " °F"),
        words={"reading_fahrenheit": "thermometer reading", "swing_fahrenheit": "rise on it"},
    )  # fmt: skip
    problem = Problem(slot, {"reading_fahrenheit": 50, "later_fahrenheit": 86, "swing_fahrenheit": 9}, "F")
    for text, right in (("86", True), ("86,1", True), ("86,3", False), ("30", False)):
        marks = mark(problem, {**RIGHT, "reading": Answer(text, "°F")}, US_COMMA)
        assert (marks.of("reading").verdict == "right") == right, text


@pytest.mark.parametrize("chosen", range(4))
def test_reasons(chosen):
    solution = {**SLOT.solution(CURATED, Settings()), "reason": Answer(str(chosen))}
    marks, option = mark(CURATED, solution), SLOT.reasons[chosen]
    assert marks.finished == option.right
    assert marks.score == (1 if option.right else 0.5)
    assert marks.mistakes == ((option.mistake,) if option.mistake else ())
    if option.right:
        assert option.because in marks.feedback[0]
    else:
        assert marks.question == (mistake(option.mistake).question if option.mistake else option.because)


@pytest.mark.parametrize("id_", ["TE-01", "TE-02"])
def test_slipped(id_):
    assert id_ in SLOT.tempting(CURATED)
    assert mark(CURATED, SLOT.slipped(CURATED, id_, Settings())).mistakes == (id_,)


def test_half_filled_in():
    marks = mark(CURATED, {n: RIGHT[n] for n in ("direction", "size")})
    assert marks.feedback == (
        "Locked: the bank needed goes up, to between 1.25 and 3 times what it was. "
        "Now move the sliders, then note the reading.",
    )
    marks = mark(CURATED, RIGHT)
    assert (marks.score, marks.question) == (0.5, "")
    assert "read after the change" in marks.feedback[-1]
    marks = mark(CURATED, {**RIGHT, "reading": Answer("many", "Ah")})
    assert marks.of("reading").verdict == "reenter"
    wrong = mark(CURATED, {**RIGHT, "reading": Answer("5", "Ah")})
    assert "−10 °C" in wrong.question


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
def test_the_solution_is_right_and_worked_shows_it(problem, chosen):
    assert mark(problem, SLOT.solution(problem, chosen), chosen).score == 1
    before, after, why = SLOT.worked(problem, chosen)
    ends = by_loop(problem)
    assert (before[2], after[2]) == tuple(show("bank_needed_ah", x, chosen, 3) for x in ends)
    assert why[1] == SLOT.reasons[0].text
    assert {"up": "goes up", "down": "goes down", "same": "stays the same"}[SLOT.direction(problem)] in why[0]


def test_the_same_variant_from_the_same_seed():
    again = [draw(replace(SLOT), n) for n in range(12)]
    assert [p.given for p in again] == [p.given for p in PROBLEMS]
    assert [SLOT.fields(p, Settings()) for p in again] == [SLOT.fields(p, Settings()) for p in PROBLEMS]
    assert len({SLOT.fields(p, Settings())[3].options for p in PROBLEMS}) >= 4


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"moved": "moon_h"}, "moon_h and bank_needed_ah are not"),
        ({"result": "battery_temp_c"}, "are not an input and a line"),
        ({"reasons": SLOT.reasons[1:]}, "one of them right"),
        ({"reasons": SLOT.reasons[:1]}, "two or more"),
    ],
)
def test_a_slot_that_cannot_be_asked_is_refused(changed, said):
    with pytest.raises(OffgridError, match=said):
        replace(SLOT, **changed)


def test_hostile_text():
    hostile(CURATED)


@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
def test_the_card(chosen, tmp_path):
    on_card(SLOT, tmp_path, chosen)


def test_the_card_takes_the_prediction_first_and_keeps_it(tmp_path):
    card = Card(SLOT, Record(tmp_path), Settings())
    shown = lambda: [row.widget.layout.display != "none" for row in card._rows]  # noqa: E731
    assert shown() == [True, True, False, False]
    assert card.is_held
    card.type("direction", "up")
    card.check()
    assert card.is_held
    card.type("size", "4")
    card.check()
    assert shown() == [True] * 4
    assert not card.is_held
    assert [row.box.disabled for row in card._rows] == [True, True, False, False]
    again = Card(SLOT, Record(tmp_path), Settings())
    assert not again.is_held
    assert again.feedback == card.feedback
    again.new_numbers()
    assert again.is_held
    assert [row.box.disabled for row in again._rows] == [False] * 4


def test_a_prediction_is_no_evidence(tmp_path):
    card = Card(SLOT, Record(tmp_path), Settings())
    for id_, text in (("direction", "up"), ("size", "4")):
        card.type(id_, text)
    card.check()
    assert len(card.entry.checks) == 1
    assert first_tries(card.entry) == []
    card.solve()
    card.check()
    assert [c.finished for c in first_tries(card.entry)] == [True]


def test_paper():
    paper = on_paper(SLOT)
    assert "the bank needed goes up" in paper
    assert "to between 1.25 and 3 times what it was" in paper
    assert "read after the change: ______________ Ah / mAh" in paper


def test_no_explorer_ends_on_the_edge_of_two_bands():
    """Twice as much once was both "between 1.25 and 2" and "more than twice"."""
    found = [s for s in slots().values() if isinstance(s, Rise)]
    assert len(found) > 10
    for slot in found:
        before, after = slot.ends(draw(slot))
        assert all(abs(after / before - edge) > 0.05 * edge for edge in _BANDS), slot.id
