"""Which knob? The fuel of a generator: effects by an independent loop, and every ranking scored by it."""

import math
from dataclasses import replace
from itertools import pairwise, permutations, product

import pytest
from kind_checks import US_COMMA, hostile, on_card, on_paper, one_question

from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, Problem, draw, mark
from offgrid_core.practice.kinds import Knob
from offgrid_core.quantities import Settings
from offgrid_core.sizing import BANK
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.strings import STRINGS

UP, DOWN = "raises it", "lowers it"
INPUTS = ("altitude_m", "charger_eff_frac", "fuel_work_l_kwh", "generator_other_w", "generator_rated_w")
SLOT = Knob(
    id="L99-knob",
    title="Which knob saves fuel?",
    statement="A generator of {generator_rated_w} charges a bank and carries {generator_other_w} besides.",
    hint="Which part of the fuel is there even when the generator has nothing to do?",
    sheet=GENERATOR.upto("fuel_l_h", "generator_needed_va"),
    given={
        "fuel_size_l_kwh": 0.08, "fuel_work_l_kwh": 0.25, "bank_ah": 900, "charge_rate_max_per_h": 0.2,
        "absorb_set_v": 28.8, "derate_altitude_frac": 0.035, "derate_heat_frac": 0.02, "air_hot_c": 30,
        "charger_pf_ratio": 0.8, "peak_va": 1500, "altitude_m": 900,
    },
    grids={
        "generator_rated_w": (4000, 5000, 6000, 7000, 8000),
        "generator_other_w": (600, 800, 1000, 1200, 1600),
        "charger_eff_frac": (0.75, 0.8, 0.85, 0.9),
        "charger_rated_a": (20, 35, 50),
    },
    curated={"generator_rated_w": 4000, "generator_other_w": 800, "charger_eff_frac": 0.85, "charger_rated_a": 50},
    result="fuel_l_h",
    inputs=INPUTS,
    words={"charger_rated_a": "charger"},
)  # fmt: skip
PROBLEMS = [draw(SLOT, attempt) for attempt in range(8)]


def by_loop(problem):
    """Return the elasticity of each input: solve twice, logarithm of the ratio, over that of 1.1 ÷ 0.9."""
    found = {}
    for name in INPUTS:
        ends = []
        for times in (0.9, 1.1):
            given = dict(problem.given)
            given[name] = given[name] * times
            ends.append(float(SLOT.sheet.solve(given)["fuel_l_h"]))
        found[name] = math.log(ends[1] / ends[0]) / math.log(1.1 / 0.9)
    return found


def score_by_loop(effect, ranking, ways):
    top = sorted(effect, key=lambda n: abs(effect[n]), reverse=True)[:3]
    score = 0.4 if ranking[0] == top[0] else 0
    for i, j in ((0, 1), (0, 2), (1, 2)):
        a, b = ranking[i], ranking[j]
        if a in top and b in top and abs(effect[a]) > abs(effect[b]):
            score += 0.1
    for name, way in zip(ranking, ways, strict=True):
        if (way == UP and effect[name] > 0) or (way == DOWN and effect[name] < 0):
            score += 0.1
    return score


def answers(ranking, ways):
    return {n: Answer(str(i), way) for i, (n, way) in enumerate(zip(ranking, ways, strict=True), 1)}


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_effects_are_those_of_the_loop_and_of_the_straight_line_by_hand(problem):
    effect = SLOT.elasticity(problem)
    assert effect == pytest.approx(by_loop(problem), abs=1e-12)
    # fuel is size × rating + work × load, so the shares of its two parts are the effects, and add up to one
    size, work = 0.08 * problem.given["generator_rated_w"], 0.25 * problem.key["generator_load_w"]
    assert effect["generator_rated_w"] == pytest.approx(size / (size + work), rel=0.01)
    assert effect["fuel_work_l_kwh"] == pytest.approx(work / (size + work), rel=0.01)
    assert effect["charger_eff_frac"] < 0
    assert effect["altitude_m"] == 0


@pytest.mark.parametrize("problem", PROBLEMS[:1], ids=str)
def test_every_ranking_scores_what_the_loop_says(problem):
    effect = by_loop(problem)
    finished = 0
    for ranking in permutations(INPUTS, 3):
        for ways in product((UP, DOWN, ""), repeat=3):
            marks = mark(problem, answers(ranking, ways))
            assert marks.score == pytest.approx(score_by_loop(effect, ranking, ways))
            assert marks.finished == (marks.score == 1)
            one_question(marks)
            finished += marks.finished
            if marks.finished:
                assert {m.verdict for m in marks.fields} == {"right", "moot"}
    assert finished == 1


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_the_solution_is_right_and_worked_shows_it(problem):
    solution = SLOT.solution(problem, Settings())
    marks = mark(problem, solution)
    assert (marks.finished, marks.score) == (True, 1)
    worked = SLOT.worked(problem, Settings())
    assert [row[0] for row in worked] == ["1", "2", "3", "4", "5"]
    for name, answer in solution.items():
        row = worked[int(answer.text) - 1]
        assert row[2] == f"{answer.text}: {problem.word(name)}, {answer.unit}"
    assert " L/h" in worked[0][1]


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_screens_hold_in_every_variant(problem):
    sizes = sorted((abs(e) for e in by_loop(problem).values()), reverse=True)
    assert sizes[2] > 0
    assert all(a >= 1.25 * b for a, b in pairwise(sizes[:4]))
    assert SLOT.passes(problem)


def test_a_near_tie_does_not_pass():
    near = Problem(SLOT, {**SLOT.given, **SLOT.curated, "generator_rated_w": 8000, "charger_rated_a": 50}, "near")
    sizes = sorted((abs(e) for e in by_loop(near).values()), reverse=True)
    assert sizes[0] < 1.25 * sizes[1]
    assert not SLOT.passes(near)


def test_stairs_between_input_and_result_do_not_pass(monkeypatch):
    given = {
        "bank_needed_ah": 1000, "unit_ah": 200, "bank_voltage_v": 24, "unit_v": 6, "depth_frac": 0.5, "kept_frac": 0.8,
        "energy_day_wh": 2000,
    }  # fmt: skip
    knobs = ("bank_needed_ah", "bank_voltage_v", "depth_frac", "kept_frac", "energy_day_wh")
    stairs = replace(
        SLOT, sheet=STRINGS.upto("autonomy_given_days"), given=given, grids={}, curated={},
        result="autonomy_given_days", inputs=knobs,
    )  # fmt: skip
    apart = dict(zip(knobs, (16.0, 8.0, 4.0, 2.0, 1.0), strict=True))
    monkeypatch.setattr(Knob, "elasticity", lambda *_: apart)
    assert not stairs.passes(draw(stairs))
    assert SLOT.passes(draw(SLOT)), "with the same effects and no stair"


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"inputs": INPUTS[:4]}, "5 or 6"),
        ({"inputs": (*INPUTS, INPUTS[0])}, "5 or 6"),
        ({"inputs": (*INPUTS, "moon_h")}, "moon_h is no input"),
        ({"inputs": (*INPUTS, "air_hot_c")}, "temperature"),
    ],
)
def test_a_slot_that_cannot_be_ranked_is_refused(changed, said):
    with pytest.raises(OffgridError, match=said):
        replace(SLOT, **changed)


def test_questions_name_no_answer():
    problem = Problem(SLOT, {**SLOT.given, **SLOT.curated}, "curated")
    first, second, third = SLOT.ranked(problem)[:3]
    assert (first, second, third) == ("fuel_work_l_kwh", "charger_eff_frac", "generator_rated_w")
    marks = mark(problem, answers((second, first, third), (DOWN, UP, UP)))
    assert marks.question.startswith("Charger efficiency: with each input")
    assert problem.word(first) not in marks.question
    marks = mark(problem, answers((first, second, third), (UP, UP, UP)))
    assert "which way would the fuel go" in marks.question
    assert DOWN not in " ".join(marks.feedback)


def test_half_filled_in():
    problem = PROBLEMS[0]
    first, second, third = SLOT.ranked(problem)[:3]
    assert mark(problem, {}).feedback[0].startswith("Nothing is filled in yet")
    assert mark(problem, {first: Answer("", UP)}).feedback[0].startswith("Nothing is filled in yet")
    marks = mark(problem, answers((first, second), (UP, UP)))
    assert (marks.score, marks.question) == (pytest.approx(0.4 + 0.1 + 0.2), "")
    assert "three places" in marks.feedback[-1]
    twice = mark(problem, {first: Answer("1", UP), second: Answer("1", UP), third: Answer("3", DOWN)})
    assert "place 1 stands twice" in " ".join(twice.feedback)
    assert not twice.finished
    assert [twice.of(n).verdict for n in (first, second)] == ["reenter", "reenter"]
    marks = mark(problem, answers((first, second, third), (UP, UP, "")))
    assert f"which way, for {problem.word(third)}" in marks.feedback[-1]


def test_a_direction_without_a_place_is_not_asked_about():
    problem = PROBLEMS[0]
    ranked, effect = SLOT.ranked(problem), SLOT.elasticity(problem)
    way = {n: UP if effect[n] > 0 else DOWN for n in ranked}
    other = {UP: DOWN, DOWN: UP}
    first, second, third, fourth, _ = ranked
    given = {first: Answer("1", way[first]), third: Answer("2", way[third]), second: Answer("3", way[second])}
    marks = mark(problem, {**given, fourth: Answer("", other[way[fourth]])})
    assert problem.word(third) in marks.question.lower()
    assert problem.word(fourth) not in marks.question.lower()


def test_an_input_without_effect_among_the_first_three_does_not_pass(monkeypatch):
    effects = dict(zip(INPUTS, (1.0, 0.5, 0.0, 0.0, 0.0), strict=True))
    assert SLOT.passes(PROBLEMS[0])
    monkeypatch.setattr(Knob, "elasticity", lambda *_: effects)
    assert not SLOT.passes(PROBLEMS[0])


def test_the_same_variant_from_the_same_seed():
    for attempt, problem in enumerate(PROBLEMS):
        again = draw(replace(SLOT), attempt)
        assert again.given == problem.given
        assert [f.id for f in SLOT.fields(again, Settings())] == [f.id for f in SLOT.fields(problem, Settings())]
    assert len({repr(p.given) for p in PROBLEMS}) >= 4
    assert len({tuple(SLOT.ranked(p)[:3]) for p in PROBLEMS}) >= 2
    assert len({tuple(f.id for f in SLOT.fields(p, Settings())) for p in PROBLEMS}) >= 4
    assert SLOT.passes(Problem(SLOT, {**SLOT.given, **SLOT.curated}, "curated"))


def test_a_changed_line_changes_the_key():
    """The key is the worksheet's: with no fuel for the size, the rating moves nothing."""
    other = replace(
        SLOT,
        sheet=SLOT.sheet.written(
            fuel_l_h="(0 * fuel_size_l_kwh * generator_rated_w + fuel_work_l_kwh * generator_load_w) / 1000"
        ),
    )
    with pytest.raises(OffgridError, match="altitude_m is no input"):
        replace(SLOT, sheet=BANK)
    assert abs(other.elasticity(Problem(other, PROBLEMS[0].given, "x"))["generator_rated_w"]) == 0


@pytest.mark.parametrize(("unit", "told"), [("", "1\u2009200 W"), (":kW", "1.2 kW")])
def test_the_table_tells_an_input_in_the_unit_of_the_statement(unit, told):
    slot = replace(SLOT, statement=f"A generator carries {{generator_other_w{unit}}}.")
    problem = Problem(slot, SLOT.given | SLOT.curated | {"generator_other_w": 1200}, "by hand")
    (_, rows), _ = slot.tables(problem, Settings())
    assert ["other load while the generator charges", told] in rows
    assert told in problem.text(slot.statement, Settings())


def test_hostile_text():
    hostile(PROBLEMS[0])


@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
def test_the_card(chosen, tmp_path):
    card = on_card(SLOT, tmp_path, chosen)
    card.new_numbers()
    assert card.answers == dict.fromkeys(card.answers, Answer("", ""))


def test_paper():
    paper = on_paper(SLOT)
    assert paper.count("raises it / lowers it") == len(INPUTS)
    assert "the others stay blank" in paper
