"""Rough size: amp-hours of a bank from four guessed factors; bands, honesty and distance as a plain loop says."""

import math
from dataclasses import replace
from itertools import product

import pytest
from kind_checks import US_COMMA, hostile, on_card, on_paper, one_question

from offgrid_core.data import capacity_kept
from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, Problem, Step, draw, mark
from offgrid_core.practice.kinds import Factor, Guess, Rough
from offgrid_core.practice.kinds.guess import score_of
from offgrid_core.quantities import Settings
from offgrid_core.sizing import BANK
from offgrid_core.worksheet import Sheet

CHAIN = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "kept_frac", "bank_cold_wh", "bank_needed_ah")))
#: Bands for a small hut: common practice, no source.
BANDS = {"energy_day_wh": (1000, 4000), "autonomy_days": (3, 5), "depth_frac": (0.3, 0.6), "bank_voltage_v": (12, 48)}
SLOT = Rough(
    id="L99-rough",
    title="How large a bank?",
    statement="A hut with lights, a radio and a small fridge, in a shed at {battery_temp_c}. Roughly, what bank?",
    hint="Would a bank of that size go on a hand cart, a trailer or a lorry?",
    principle="A few factors, each about right, give a size that is about right.",
    sheet=CHAIN,
    given={"capacity_kept": capacity_kept("flooded")},
    grids={
        "energy_day_wh": (1500, 2000, 2500), "autonomy_days": (3, 4, 5), "depth_frac": (0.4, 0.5),
        "bank_voltage_v": (24, 48), "battery_temp_c": (4.4, 15.6, 25),
    },
    curated={
        "energy_day_wh": 2000, "autonomy_days": 4, "depth_frac": 0.5, "bank_voltage_v": 24, "battery_temp_c": 15.6,
    },
    factors=tuple(Factor(n, *band) for n, band in BANDS.items()),
    step=Step("bank_needed_ah"),
    words={"energy_day_wh": "energy a day"},
)  # fmt: skip
PROBLEMS = [draw(SLOT, attempt) for attempt in range(6)]
UNITS = {"energy_day_wh": "Wh", "autonomy_days": "days", "depth_frac": "as a fraction", "bank_voltage_v": "V"}


def typed(factors, result=None):
    """Return answers as typed to twelve figures, the factors and what they are said to come to."""
    found = {n: Answer(f"{v:.12g}", UNITS[n]) for n, v in factors.items()}
    return found if result is None else {**found, "bank_needed_ah": Answer(f"{result:.12g}", "Ah")}


def comes_to(problem, factors):
    kept = float(problem.key["kept_frac"])
    value = factors["energy_day_wh"] * factors["autonomy_days"]
    return value / factors["depth_frac"] / kept / factors["bank_voltage_v"]


def by_loop(problem, factors, result):
    score = 0.0
    for name, (low, high) in BANDS.items():
        if low <= factors[name] * 1.25 and factors[name] <= high * 1.25:
            score += 0.1
    if abs(result / comes_to(problem, factors) - 1) <= 0.05:
        distance = abs(math.log10(result) - math.log10(comes_to(problem, problem.given)))
        score += 0.6 * (1 if distance <= 0.15 else 0.5 if distance <= 0.3 else 0.25 if distance <= 0.5 else 0)
    return score


@pytest.mark.parametrize("problem", PROBLEMS[:3], ids=str)
def test_factors_and_product_score_what_the_loop_says(problem):
    seen = set()
    every = product((500, 830, 2100, 4900, 5100), (2.3, 2.5, 4, 6.3), (0.23, 0.5, 0.76), (12, 48, 61), (0.94, 1, 1.06))
    for energy, days, depth, volts, off in every:
        factors = {"energy_day_wh": energy, "autonomy_days": days, "depth_frac": depth, "bank_voltage_v": volts}
        result = comes_to(problem, factors) * off
        marks = mark(problem, typed(factors, result))
        assert marks.score == pytest.approx(by_loop(problem, factors, result))
        assert marks.finished == (marks.score == 1)
        one_question(marks)
        seen.add(round(marks.score, 2))
        if off != 1:
            assert marks.of("bank_needed_ah").verdict == "inconsistent"
    assert {0.4, 1.0} < seen
    assert len(seen) >= 8


@pytest.mark.parametrize(("off", "honest"), [(0.9501, True), (0.949, False), (1.0499, True), (1.051, False)])
def test_the_product_is_the_learner_s_own_within_five_per_cent(off, honest):
    problem = PROBLEMS[0]
    factors = {n: problem.given[n] for n in BANDS}
    marks = mark(problem, typed(factors, comes_to(problem, factors) * off))
    assert marks.finished == honest
    assert ("does not follow from the steps above" in marks.question) != honest


def test_a_right_number_that_does_not_follow_is_asked_about_before_anything_else():
    problem = PROBLEMS[0]
    factors = {n: problem.given[n] for n in BANDS} | {"energy_day_wh": 90_000}
    marks = mark(problem, typed(factors, float(problem.key["bank_needed_ah"])))
    assert marks.of("bank_needed_ah").verdict == "inconsistent"
    assert marks.of("energy_day_wh").verdict == "unexplained"
    assert "does not follow" in marks.question
    assert marks.score == pytest.approx(0.3)


def test_a_factor_out_of_its_band_is_asked_about_and_the_band_not_told():
    problem = PROBLEMS[0]
    factors = {n: problem.given[n] for n in BANDS} | {"autonomy_days": 60}
    marks = mark(problem, typed(factors, comes_to(problem, factors)))
    assert marks.question.startswith("Days without sun, 60 days:") or "60 days" in marks.question
    assert "larger or smaller" in marks.question
    assert not {"3", "5", "3–5"} & set(marks.question.split())


def test_a_far_product_of_factors_in_their_bands_asks_the_hint():
    problem = PROBLEMS[0]
    factors = {"energy_day_wh": 1000, "autonomy_days": 3, "depth_frac": 0.6, "bank_voltage_v": 48}
    marks = mark(problem, typed(factors, comes_to(problem, factors)))
    assert [m.verdict for m in marks.fields[:4]] == ["right"] * 4
    assert SLOT.hint in marks.question
    assert not marks.finished


def test_half_filled_in():
    problem = PROBLEMS[0]
    assert mark(problem, {}).feedback[0].startswith("Nothing is filled in yet")
    alone = mark(problem, {"bank_needed_ah": Answer(str(float(problem.key["bank_needed_ah"])), "Ah")})
    assert (alone.score, alone.question) == (0, "")
    assert "Not answered yet" in alone.feedback[-1]
    marks = mark(problem, typed({n: problem.given[n] for n in BANDS} | {"depth_frac": -1}))
    assert marks.of("depth_frac").verdict == "reenter"
    assert "a guess is a number above zero" in " ".join(marks.feedback)
    assert "please re-enter: please" not in " ".join(marks.feedback)


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
def test_the_solution_is_right_and_worked_shows_it(problem, chosen):
    solution = SLOT.solution(problem, chosen)
    marks = mark(problem, solution, chosen)
    assert (marks.finished, marks.score) == (True, 1)
    worked = {row[0]: row for row in SLOT.worked(problem, chosen)}
    for field in SLOT.fields(problem, chosen):
        assert solution[field.id].text.rstrip("0") in worked[field.label][2]
    assert "published:" in worked["energy a day"][1]


@pytest.mark.parametrize("problem", PROBLEMS, ids=str)
def test_screens_hold_in_every_variant(problem):
    assert all(low <= problem.given[n] <= high for n, (low, high) in BANDS.items())
    outside = Problem(SLOT, {**problem.given, "bank_voltage_v": 60}, "outside")
    assert not SLOT.passes(outside)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"factors": SLOT.factors[:2]}, "3 to 5"),
        ({"factors": (*SLOT.factors, SLOT.factors[0])}, "3 to 5"),
        ({"factors": (*SLOT.factors, Factor("moon_h", 1, 2))}, "moon_h does not lead"),
        ({"factors": (*SLOT.factors[:3], Factor("bank_voltage_v", 48, 12))}, "band of bank_voltage_v"),
        ({"factors": (*SLOT.factors[:3], Factor("bank_voltage_v", 0, 12))}, "band of bank_voltage_v"),
    ],
)
def test_a_slot_that_cannot_be_guessed_is_refused(changed, said):
    with pytest.raises(OffgridError, match=said):
        replace(SLOT, **changed)


def test_distance_is_that_of_the_guess_kind():
    """One scale of distance: the same guess scores the same in both kinds."""
    guess = Guess(id="L99-guess", title="", statement="", hint="", sheet=CHAIN, step=Step("bank_needed_ah"))
    problem = Problem(guess, PROBLEMS[0].given, "x")
    for times, score in ((1.41, 1), (1.42, 0.5), (1 / 1.41, 1), (1.99, 0.5), (2.0, 0.25), (3.15, 0.25), (3.17, 0)):
        value = float(problem.key["bank_needed_ah"]) * times
        assert mark(problem, {"bank_needed_ah": Answer(f"{value:.10g}", "Ah")}).score == score
        assert score_of(value, float(problem.key["bank_needed_ah"])) == score


def test_the_same_variant_from_the_same_seed():
    assert [draw(replace(SLOT), n).given for n in range(6)] == [p.given for p in PROBLEMS]
    assert len({repr({n: p.given[n] for n in BANDS}) for p in PROBLEMS}) >= 4


def test_hostile_text():
    hostile(PROBLEMS[0])


@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
def test_the_card(chosen, tmp_path):
    on_card(SLOT, tmp_path, chosen)


def test_paper():
    paper = on_paper(SLOT)
    assert "energy a day: ______________ Wh / kWh / MJ" in paper
    assert "published" not in paper
