"""The lesson on cost: its reading is the panel's, its picture the sums, its claims hold, its banks are done by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest
from panel_checks import set_to

from offgrid_core.figures.cost import make, tables
from offgrid_core.lab import cost_panel
from offgrid_core.practice import Answer, draw, mark, slots
from offgrid_core.practice.kinds import Backwards
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slots.l13_exit import slots as exit_slots
from offgrid_core.quantities import Settings
from offgrid_core.report.tables import steps_of
from offgrid_core.sizing.banks_teaching import BANK_AGAIN, BANK_PICKED
from offgrid_core.sizing.cost import COST, YEARS
from offgrid_core.sizing.life import LIFE
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_cost import HORIZONS, LARGE, RATES, SMALL, cost_view
from offgrid_core.year.costing import cost_of

FOCUS = tuple(f"CO-{n:02}" for n in (1, 2, 3, 4, 5, 7, 11, 12, 16, 21, 23))
START = {"autonomy_days": 2, "depth_frac": 0.8, "discount_rate_frac": 0}
#: The last bank's unused years taken off, as where the lesson compares the two.
CREDITED = {"compared": "banks_net_cost"}


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def panel_of(design, settings=None, **moved):
    return set_to(cost_panel(design, "", settings or Settings(), **START), **moved)


def readouts(panel):
    return {n: v.replace("\u2009", "") for n, v in panel.parts.readouts(panel.result, panel.settings)}


def trace(figure, begins, place=0):
    return [t for t in figure.data if (t.name or "").startswith(begins)][place]


# ---- the reading, and what the prose says


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L13-explore"])
    panel = panel_of(hut)
    small = panel.result.banks[SMALL].now
    for name in ("bank_cost", "bank_life_years", "horizon_years", "discount_rate_frac"):
        assert problem.given[name] == pytest.approx(float(small[name]), rel=1e-4), name
    assert readouts(panel)["Small: in all"] == "11600"
    panel.set("discount_rate_frac", problem.given["discount_rate_after_frac"])
    shown = readouts(panel)["Small: in all"]
    assert shown == "5370"
    answers = problem.slot.solution(problem, Settings()) | {READING: Answer(shown, "")}
    assert mark(problem, answers).finished
    assert not mark(problem, answers | {READING: Answer("5400", "")}).finished
    panel.reset()
    assert readouts(panel)["Small: in all"] == "11600", "back to where the question begins"


def test_prices_and_lives_of_the_two_banks(hut):
    """A small bank, emptied to 80 %, of 3.1 years; a large one, to 40 %, of 6.5 for twice the price; 2.6 % turns it."""
    seen = readouts(panel_of(hut))
    assert [panel_of(hut).inputs[n] for n in ("depth_frac", "depth_large_frac")] == [0.8, 0.4]
    assert (seen["Small: life"], seen["Large: life"]) == ("3.13 years", "6.54 years")
    small, large = (float(panel_of(hut).result.banks[w].now["bank_cost"]) for w in (SMALL, LARGE))
    assert large / small == pytest.approx(2)
    assert seen["Choice turns at"] == "no rate", "without the credit a fourth large bank is paid in full"
    assert readouts(panel_of(hut, **CREDITED))["Choice turns at"] == "2.57 %"


def test_one_year_less_turns_the_advice_and_a_credit_takes_that_away(hut):
    view = panel_of(hut, discount_rate_frac=0.05).result
    saved = {h: cost_view(hut, {**view.inputs, "horizon_years": h}).saved for h in (18.0, 19.0, 20.0)}
    assert saved[19.0] > 0 > max(saved[18.0], saved[20.0])
    assert saved[19.0] - saved[20.0] > 1000
    for horizon in range(10, 41):
        credited = cost_view(hut, {**view.inputs, **CREDITED, "horizon_years": float(horizon)})
        assert -420 < credited.saved < -250
        assert 0.017 < credited.turns[0] < 0.027


def test_the_choice_with_the_credit_turns_where_a_year_of_either_bank_costs_the_same(hut):
    """A bank spread over the years that it lasts, with interest: the large one is the cheaper below about 2.5 %."""

    def a_year(bank, rate):
        life = float(bank["bank_life_years"])
        return float(bank["bank_cost"]) * rate / (1 - (1 + rate) ** -life)

    banks = [panel_of(hut).result.banks[w].now for w in (SMALL, LARGE)]
    assert a_year(banks[0], 0.025) > a_year(banks[1], 0.025)
    assert a_year(banks[0], 0.027) < a_year(banks[1], 0.027)


def test_a_bank_that_is_hardly_used_dies_of_its_age(hut):
    """A hundred cycles a year: 10 years both, though the large one has cycles for 24 years."""
    panel = panel_of(hut, cycles_year_count=100.0)
    assert readouts(panel)["Small: life"] == readouts(panel)["Large: life"] == "10 years"
    assert panel.summary.count("ended by age") == 2
    assert "ended by its cycles" in panel_of(hut).summary
    large = panel.result.banks[LARGE].now
    assert round(float(large["cycle_life_years"])) == 24


@pytest.mark.parametrize(("halving", "years"), [(8, 2.50), (8.33, 2.64), (10, 3.30)])
def test_three_rules_of_heat(halving, years):
    """LIF-005: 10 years at 25 °C, 41 °C: 2.50, 2.64 and 3.30 years by the three rules in circulation, from memory.

    LIF-001, 002 (an educational page, seen): halved at 33 °C, a quarter at 41 °C by each 8 K. LIF-006: 8.3 K.
    LIF-016 (WHO and UNICEF 2015, seen): lead-acid batteries of vaccine refrigerators last 3 to 5 years in the field.
    """
    given = {"float_life_years": 10, "life_temp_c": 41, "life_table_c": 25, "halving_k": halving}
    found = LIFE.upto("calendar_life_years").solve(given)["calendar_life_years"]
    assert float(found) == pytest.approx(years, abs=0.01)


def test_rate_above_inflation_and_the_price_of_money():
    """8 % with 3 % of inflation are 4.85 %, not 5 % and not 11 %; 5 % for ten years leaves 0.61 of a payment."""
    slot = slots()["L13-4"]
    line = slot.sheet.upto("discount_rate_frac")
    rate = float(line.solve({"nominal_rate_frac": 0.08, "inflation_frac": 0.03})["discount_rate_frac"])
    assert rate == pytest.approx(0.04854, abs=5e-6)
    given = {"discount_rate_frac": 0.05, "horizon_years": 10}
    assert float(COST.upto("horizon_factor").solve(given)["horizon_factor"]) == pytest.approx(0.6139, abs=5e-5)


def test_the_price_of_storing_is_not_the_price_of_energy(hut):
    """0.55 and, with interest, 0.63 out of the small bank; 1.81 for the whole of the hut, as in its problem."""
    now = panel_of(hut, discount_rate_frac=0.05).result.banks[SMALL].now
    stored = float(now["bank_cost"]) / (float(now["through_year_wh"]) * float(now["bank_life_years"]) / 1000)
    assert stored == pytest.approx(0.55, abs=0.005)
    assert float(now["banks_kwh_cost"]) == pytest.approx(0.63, abs=0.005)
    whole = cost_of(hut, 365 * float(hut.system["energy_day_wh"]), 9.6)
    assert float(whole["kwh_cost"]) == pytest.approx(1.81, abs=0.005)
    texts = [slots()["L13-prices"].statement, *(o.text for o in slots()["L13-prices"].options)]
    assert {"0.55", "1.81"} <= set(" ".join(texts).replace(":", " ").split())


# ---- the picture


def test_the_curves_are_the_sums(hut):
    view = panel_of(hut, discount_rate_frac=0.05).result
    figure = make(view, Settings())
    for which in (SMALL, LARGE):
        by_horizon, by_rate = (trace(figure, f"the {which} bank", n) for n in (0, 1))
        np.testing.assert_array_equal(by_horizon.y, view.along(which, "horizon"))
        np.testing.assert_array_equal(by_rate.y, view.along(which, "rate"))
        assert by_rate.x == pytest.approx(100 * RATES)
        for place in (0, 190, 390):
            alone = cost_view(hut, {**view.inputs, "horizon_years": float(HORIZONS[place])})
            assert alone.in_all(which) == pytest.approx(by_horizon.y[place])
        alone = cost_view(hut, {**view.inputs, "discount_rate_frac": float(RATES[100])})
        assert alone.in_all(which) == pytest.approx(by_rate.y[100])
    _, *rows = tables(view, Settings())[0].rows(Settings())
    assert [float(row[0]) for row in rows] == list(range(1, 41))


def test_a_step_stands_where_a_bank_is_worn_out(hut):
    """6.54 years: a horizon beyond 6.54, 13.07 or 19.61 years has one bank more, paid at the end of that year."""
    view = panel_of(hut, discount_rate_frac=0.05).result
    line = trace(make(view, Settings()), "the large bank")
    assert line.line.shape == "vh"
    steps = np.diff(line.y)
    price = float(view.banks[LARGE].now["bank_cost"])
    assert list(line.x[:-1][steps > 0])[:3] == pytest.approx([6.5, 13.0, 19.6])
    assert steps[steps > 0][:3] == pytest.approx([price / 1.05**paid for paid in (7, 14, 20)])


def test_where_the_choice_turns_is_marked_and_the_two_meet_there(hut):
    view = panel_of(hut, **CREDITED).result
    (rate,) = view.turns
    there = cost_view(hut, {**view.inputs, "discount_rate_frac": rate})
    assert there.in_all(SMALL) == pytest.approx(there.in_all(LARGE), rel=1e-5)
    mark_ = trace(make(view, Settings()), "here the choice turns")
    assert list(mark_.x) == pytest.approx([100 * rate])
    above, below = (cost_view(hut, {**view.inputs, "discount_rate_frac": rate + d}).saved for d in (0.001, -0.001))
    assert above < 0 < below


def test_banks_that_cost_the_same_are_said_to_and_turn_nothing(hut):
    panel = panel_of(hut, depth_large_frac=0.8)
    assert panel.result.turns == ()
    assert "the two come to the same" in panel.summary
    assert readouts(panel)["Choice turns at"] == "no rate"


def test_a_tie_at_no_interest_is_no_turn(hut):
    """Over 17 years six small banks and three large ones cost the same without interest, but for the sums' noise."""
    view = panel_of(hut, horizon_years=17.0).result
    ends = [view.along(which, "rate")[0] for which in (SMALL, LARGE)]
    assert ends[0] == pytest.approx(ends[1], rel=1e-12)
    assert view.turns == ()


def test_the_bank_emptied_deeper_is_the_small_one_wherever_the_sliders_stand(hut):
    panel = panel_of(hut, depth_frac=0.2)
    seen = readouts(panel)
    assert (seen["Small bank"], seen["Large bank"]) == ("3300", "6600")
    assert float(panel.result.banks[SMALL].now["depth_frac"]) == 0.4
    assert "The small bank lasts 6.54 years" in panel.summary


def test_the_worked_table_shows_the_rules_that_are_asked_for(hut):
    """Life is cycles over cycles a year, and a sum tells its terms; the later banks come before a year's share."""
    small = panel_of(hut, discount_rate_frac=0.05).result.banks[SMALL].now
    worked = {s.name: s.worked.replace("\u2009", "") for s in steps_of(small, Settings())}
    assert worked["cycle_life_years"] == "1143 ÷ 365"
    assert worked["bank_replaced_count"] == "1 + 1 + 1 + 1 + 1 + 1"
    assert worked["bank_replaced_cost"] == "1651 × (0.8227 + 0.7107 + 0.6139 + 0.5303 + 0.4581 + 0.3957)"
    assert worked["uniform_factor"] == "0.9524 + 0.907 + … + 0.3769"
    assert [*worked].index("banks_cost") < [*worked].index("uniform_factor")


@pytest.mark.parametrize("id_", ["L13-guess", "L13-4", "L13-7", "L13-entry-3", "L13-entry-4", "L13-rough"])
def test_a_solution_names_no_row_that_nobody_sees(id_):
    worked = slots()[id_].worked(draw(slots()[id_]), Settings())
    assert "values)" not in str(worked)


@pytest.mark.parametrize(("template", "trips"), [("L13-6", ("first", "second")), ("L13-exit-3", ("second", "third"))])
def test_a_price_sought_is_worked_with_the_factor_of_each_later_year(template, trips):
    """One row told 6 … 12 years and the factor of the first year alone."""
    slot = next(t for t in slots()[template].templates if isinstance(t, Backwards))
    problem = draw(replace(slot, others=()))
    factors = [row for row in slot.worked(problem, Settings()) if row[0].endswith("present worth factor")]
    assert [label.partition(" ")[0] for label, _, _ in factors] == [*trips]
    for (_, how, value), years in zip(factors, problem.given["year_by_row_years"], strict=True):
        assert how.endswith(f"^ {years} years")
        assert float(value) == pytest.approx((1 + problem.given["discount_rate_frac"]) ** -years, abs=1e-4)


def test_the_guess_is_about_the_lesson_s_own_bank(hut):
    guess = draw(slots()["L13-guess"])
    small = panel_of(hut, discount_rate_frac=0.05).result.banks[SMALL].now
    assert float(Step("banks_cost").value_in(guess.key)) == pytest.approx(float(small["banks_cost"]), rel=1e-4)


def test_a_year_s_energy_is_told_in_one_unit_in_text_and_table():
    problem = draw(slots()["L13-9"])
    table = str(problem.slot.tables(problem, Settings()))
    energy = problem.text("{served_year_wh:kWh}", Settings())
    assert energy in table
    assert energy in problem.text(problem.slot.statement, Settings())
    assert " Wh" not in table


def test_too_deep_is_said(hut):
    assert panel_of(hut, depth_frac=0.9).summary.startswith("The small bank is emptied too deep")
    assert "too deep" not in panel_of(hut).summary


def test_a_pin_keeps_the_small_bank_in_both_pictures(hut):
    panel = panel_of(hut)
    panel.pin()
    panel.set("depth_frac", 0.6)
    pinned = [t for t in panel.static().data if t.visible and (t.name or "").startswith("small bank, 80 % deep")]
    assert len(pinned) == 2
    assert pinned[0].y[0] == pytest.approx(panel.pins[0][1].along(SMALL, "horizon")[0])


# ---- banks bought again, year by year by hand


@pytest.mark.parametrize(
    ("life", "horizon"), [(3.13, 20), (6.54, 20), (6.54, 21), (5, 20), (10, 20), (1.4, 7), (25, 20)]
)
@pytest.mark.parametrize("rate", [0, 0.05, 0.12])
def test_a_bank_and_all_later_ones_by_hand(life, horizon, rate):
    """A bank is bought at the end of the year in which the last one ends, unless that one ends at the horizon."""
    given = {"bank_cost": 1000, "bank_life_years": life, "horizon_years": horizon, "discount_rate_frac": rate}
    solved = BANK_AGAIN.upto("banks_net_cost").solve({**given, "year_by_row_years": YEARS})
    ends = [n * life for n in range(1, 60)]
    years = [math.ceil(round(e, 9)) for e in ends if round(e, 9) < horizon]
    assert float(solved["bank_replaced_count"]) == len(years)
    paid = 1000 + sum(1000 / (1 + rate) ** y for y in years)
    assert float(solved["banks_cost"]) == pytest.approx(paid)
    left = max(0.0, (len(years) + 1) * life - horizon) / life
    assert float(solved["banks_net_cost"]) == pytest.approx(paid - 1000 * left / (1 + rate) ** horizon)


OFFER = {
    "bank_wh": 10_000, "depth_frac": 0.6, "spell_wh": 5000, "cycles_count": 1650, "cycles_year_count": 330,
    "calendar_life_years": 8, "life_least_years": 4.5, "budget_cost": 3000, "bank_cost": 2500,
    "through_year_wh": 500_000,
}  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "broken"),
    [
        ({}, set()),
        ({"depth_frac": 0.4}, {"usable_margin_wh"}),
        ({"cycles_count": 1320}, {"life_margin_years"}),
        ({"calendar_life_years": 4}, {"life_margin_years"}),
        ({"bank_cost": 3100}, {"budget_margin_cost"}),
    ],
)
def test_each_limit_of_an_offer_is_broken_by_what_it_is_about(changed, broken):
    """By hand: 6000 Wh may be taken out; 1650 cycles at 330 a year last 5 years, in which 2500 kWh go through."""
    solved = BANK_PICKED.solve({**OFFER, **changed})
    assert {n for n, bad in solved.broken().items() if bad} == broken
    if not changed:
        assert float(solved["stored_kwh_cost"]) == pytest.approx(1)


# ---- the problems


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


@pytest.mark.parametrize("id_", FOCUS)
def test_each_bug_in_focus_is_in_several_slots(id_):
    own = [s for s in slots().values() if s.lesson == "L13"]
    places = {s.id for s in own for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}
    assert len(places) >= 3


def test_each_bug_in_focus_counts_in_the_exit_quiz():
    shown = {i for s in exit_slots() for t in s.templates for i in (*t.mistakes, *options_of(t))}
    assert set(FOCUS) <= shown


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L13" and s.id[4:].isdigit()]
    own = {*COST, *LIFE, "life_drawn_wh", "banks_cost"}
    mixed = [s for s in practice if not set(s.sheet) & own]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_the_picked_bank_may_be_bound_by_more_than_one_limit():
    pick = slots()["L13-pick"]
    judged = [pick.judged(draw(pick, n)) for n in range(20)]
    assert len({j.binding(j.best).name for j in judged}) >= 2
    assert any(j.best != int(np.argmin(j.cost)) for j in judged), "the cheapest of all is not always the answer"


def test_a_factor_that_is_the_same_in_every_year_is_read_in_each_row():
    """Whoever discounts nothing has a lone 1 where others have a column: the second year's answer is 1 all the same."""
    place = slots()["L13-4"]
    problem = draw(place)
    answers = place.solution(problem, Settings()) | {"present_by_row_factor.2": Answer("1", "")}
    marks = mark(problem, answers)
    assert marks.of("present_by_row_factor.2").explanations == (("CO-13",),)


def test_upkeep_is_about_a_fifth_of_the_first_cost():
    """As the rough problem says at its end: within a factor of 1.5."""
    rough = slots()["L13-rough"]
    for n in range(20):
        problem = draw(rough, n)
        share = Step("upkeep_cost").value_in(problem.key) / problem.given["first_cost"]
        assert 0.2 / 1.5 < share < 0.2 * 1.5


def test_numbers_that_answers_name():
    """0.42 over twice the energy is twice as much; fifty years of thirty days, and about four of one a day."""
    cycles = 50 * 30
    assert cycles / 365 == pytest.approx(4.1, abs=0.05)
    assert cycles / 365 * (30 / 365) < 1
    assert 10 * 0.05 == 0.5
