"""The year lesson: its reading is the panel's, its day by hand the year's own hours, its numbers those of the years."""

import numpy as np
import pytest
from panel_checks import readout

from offgrid_core.lab import year_panel
from offgrid_core.practice import Answer, draw, mark, slots
from offgrid_core.practice.failing import failing
from offgrid_core.practice.kinds import Failed
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.slots.l12_judge_more import judge
from offgrid_core.practice.slots.l12_sheets_more import SPILLING
from offgrid_core.quantities import Settings
from offgrid_core.sizing.balance import HOUR, stepper
from offgrid_core.sizing.year_teaching import DAY, LOG, MONTHS_IN_DAYS, YIELD
from offgrid_core.sizing.year_totals import month_sums_wh
from offgrid_core.system import read_plan, size
from offgrid_core.year.explore import kwh_by_month, rebuilt, without_generator, years_of
from offgrid_core.year.hours import hours_of
from offgrid_core.year.map_view import MapView, joined, map_in_parts
from offgrid_core.year.outcome import drawn_weather

FOCUS = ("YS-01", "YS-02", "YS-03", "YS-07", "YS-10", "YS-11", "YS-15", "YS-16")
OWN = [s for s in slots().values() if s.lesson == "L12"]


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def alone(hut):
    return without_generator(hut)


@pytest.fixture(scope="module")
def panel(hut):
    return year_panel(hut, "", Settings(), array_factor=0.5, bank_factor=1, generator=False)


@pytest.fixture(scope="module")
def half(alone):
    return years_of(alone, array_factor=0.5)


@pytest.fixture(scope="module")
def whole(alone):
    return years_of(alone)


def moved(panel, **settings):
    panel.reset()
    for name, value in settings.items():
        panel.set(name, value)
    assert panel.status == ""
    return panel


# ---- the reading, and the panel as the lesson opens it


def test_the_reading_asked_for_is_what_the_panel_shows(panel):
    problem = draw(slots()["L12-explore"])
    assert problem.given["bank_factor"] == moved(panel).inputs["bank_factor"]
    assert readout(panel, "Load lost") == "8.92 %"
    shown = readout(moved(panel, bank_factor=problem.given["bank_after_factor"]), "Load lost")
    assert shown == "7.84 %"
    answers = problem.slot.solution(problem, Settings()) | {READING: Answer(*shown.split())}
    assert mark(problem, answers).finished
    assert not mark(problem, answers | {READING: Answer("7.8", "%")}).finished
    lost = problem.given["lost_of_bank"]
    for factor in (1.0, 2.0):
        outcome = moved(panel, bank_factor=factor).result.outcome
        assert lost(factor) == pytest.approx(outcome.mean("loss_energy_frac"), abs=5e-6)


def test_sliders_that_start_elsewhere_stand_in_front_and_the_headline_stays_within_reach(panel, hut):
    assert [c.name for c in panel.parts.controls] == ["array_factor", "bank_factor", "generator", "week_year"]
    more = [c.name for c in panel.parts.more]
    assert more == ["autonomy_days", "depth_frac", "battery_temp_c", "generator_start_frac"]
    legend = panel.parts.legend(moved(panel).result, Settings())
    assert legend == "array 0.5 · bank 1"
    plain = year_panel(hut, "", Settings(), years=1)
    assert [c.name for c in plain.parts.controls][:3] == ["autonomy_days", "depth_frac", "battery_temp_c"]
    assert plain.inputs["generator"] is True


def test_the_generator_can_stand_still(panel):
    assert "Generator a year" not in dict(panel.parts.readouts(moved(panel).result, Settings()))
    assert readout(moved(panel, generator=True), "Generator a year") == "44.2 h"
    assert readout(panel, "Load lost") == "0.599 %"


def test_every_slider_of_the_panel_at_both_ends(panel):
    panel.reset()
    for control in (*panel.parts.controls[:2], *panel.parts.more):
        for end in (control.slider.min, control.slider.max):
            control.slider.value = end
            assert panel.status == ""
            assert len(panel.summary) > 100
        panel.reset()


def test_a_bank_alone_moves_nothing_but_the_bank(hut):
    before, after = hut.system, rebuilt(hut, {"bank_factor": 2.0}).system
    assert after["bank_wh"] == 2 * before["bank_wh"]
    assert after["units_count"] == 2 * before["units_count"]
    assert after["array_w"] == before["array_w"]
    both = rebuilt(hut, {"bank_factor": 0.5, "array_factor": 3.0}).system
    assert (both["bank_wh"], both["array_w"]) == (0.5 * before["bank_wh"], 3 * before["array_w"])


def test_months_of_the_opener_are_the_years_own_hours(half):
    months = kwh_by_month(half)
    assert sum(months["missing"]) == pytest.approx(half.mean("unserved_year_wh") / 1000, abs=0.3)
    assert sum(months["came"]) == pytest.approx(half.mean("array_year_wh") / 1000, abs=0.6)
    wanted = month_sums_wh(half.hours.by_hour["wanted_by_hour_wh"][0]) / 1000
    assert months["wanted"] == pytest.approx(wanted, abs=0.05)
    assert all(each == round(each, 1) for row in months.values() for each in row)


# ---- the day by hand is the balance of the hours


@pytest.mark.parametrize("seed", range(12))
def test_a_day_in_three_steps_is_three_hours_of_the_balance(seed):
    """The year's own hours, with nothing that tapers or leaks: night, morning and afternoon an hour each."""
    dice = np.random.default_rng(seed)
    bank, depth, kept, eff = dice.uniform(5000, 20_000), dice.uniform(0.3, 0.9), dice.uniform(0.6, 1), 0.8
    store, night, early, late = (bank * dice.uniform(*span) for span in ((0.3, 1), (0.1, 0.6), (0, 0.5), (0, 1.2)))
    store = max(store, bank * (1 - depth * kept))
    steady = {"array_w": 1, "controller_hour_wh": 1e9, "bank_wh": bank, "depth_frac": depth, "taper_frac": 1}
    steady |= {"charge_most_wh": 1e9, "charge_eff_frac": eff, "leak_frac": 0, "reconnect_frac": 0}
    series = {"yield_h": [0, early, late], "wanted_wh": [night, 0, 0], "kept_now_frac": [kept] * 3}
    series["may_charge_frac"] = [1, 1, 1]
    path, end = stepper().path(steady, series, {"store_wh": store, "connected_frac": 1})
    given = {"bank_wh": bank, "depth_frac": depth, "kept_now_frac": kept, "charge_eff_frac": eff, "store_wh": store}
    given |= {"deficit_wh": night, "early_surplus_wh": early, "late_surplus_wh": late}
    day = SPILLING.solve(given)
    assert day["dawn_wh"] == pytest.approx(path["store_wh"][1])
    assert day["noon_wh"] == pytest.approx(path["store_wh"][2])
    assert day["dusk_wh"] == pytest.approx(end["store_wh"])
    hour = HOUR.solve(
        {**steady, **{n: x[2] for n, x in series.items()}, "store_wh": path["store_wh"][2], "connected_frac": 1}
    )
    assert day["late_spilled_wh"] == pytest.approx(hour["spilled_wh"], abs=1e-6)


def test_a_day_with_pencil_and_paper():
    """Floor 12000 × 0.4 = 4800; 8700 − 4800 = 3900 drawn of 5900; 0.8 × 2300 = 1840; 12000 − 6640 = 5360 of 9200."""
    given = {"bank_wh": 12_000, "depth_frac": 0.6, "kept_now_frac": 1, "store_wh": 8700, "deficit_wh": 5900}
    given |= {"early_surplus_wh": 2300, "late_surplus_wh": 11_500, "charge_eff_frac": 0.8}
    day = DAY.solve(given)
    wanted = {"floor_wh": 4800, "drawn_wh": 3900, "dawn_wh": 4800, "early_stored_wh": 1840, "noon_wh": 6640}
    wanted |= {"late_room_wh": 5360, "late_stored_wh": 5360, "dusk_wh": 12_000}
    assert {n: float(day[n]) for n in wanted} == pytest.approx(wanted)


def test_months_and_logs_with_pencil_and_paper():
    """60 − 50 and 55 − 52 kWh are missing, 40 to spare do not count; a kilowatt for a quarter of an hour is 250 Wh.

    Of 165 kWh that are 7.88 %, and of 165 ÷ 365 kWh a day 28.76 days.
    """
    months = {"wanted_by_month_wh": [60_000, 50_000, 55_000], "yield_by_month_wh": [50_000, 90_000, 52_000]}
    short = MONTHS_IN_DAYS.solve(months)
    assert short["short_year_wh"] == 13_000
    assert float(short["short_year_days"]) == pytest.approx(28.76, abs=0.005)
    assert LOG.solve({"logged_by_row_w": [1000, 0], "sample_h": 0.25})["logged_wh"] == 250
    sun = {"array_w": 1000, "peak_sun_by_month_h": np.full(12, 3.0), "days_by_month_days": np.full(12, 30)}
    assert YIELD.solve(sun | {"delivered_by_month_frac": np.full(12, 0.5)})["yield_year_wh"] == 12 * 45_000


# ---- what the prose and the questions say


def test_the_guess_is_the_hut_s_mean_year(hut):
    panel = year_panel(hut, "", Settings())
    given = draw(slots()["L12-guess"]).given
    came = float(panel.result.came["came_year_wh"])
    served = panel.result.places_wh["served_year_wh"]
    assert given["came_year_wh"] == pytest.approx(came, abs=600)
    assert given["place_by_row_wh"] == pytest.approx(served, abs=100)
    assert "19.2 % reaches the loads" in panel.summary
    lost = float(panel.result.places_wh["inverter_lost_year_wh"])
    wanted = panel.result.outcome.mean("wanted_year_wh")
    assert [round(wh / 1000) for wh in (came, wanted, lost, served)] == [3512, 800, 126, 674]
    assert panel.result.outcome.mean("loss_energy_frac") < 1e-4, "next to nothing"


def test_the_chart_to_read(whole):
    """0.56 % lost, in December and January alone, and 73 % spilled."""
    assert whole.mean("loss_energy_frac") == pytest.approx(0.0056, abs=5e-5)
    assert whole.mean("spilled_frac") == pytest.approx(0.735, abs=0.001)
    missing = kwh_by_month(whole)["missing"]
    assert [month for month, kwh in enumerate(missing) if kwh] == [0, 11]


def test_one_change_and_its_costs(alone, half):
    def changed(**factors):
        outcome = years_of(alone, **{"array_factor": 0.5} | factors)
        more = float(outcome.cost["first_cost"]) - float(half.cost["first_cost"])
        return round(100 * outcome.mean("loss_energy_frac"), 2), more

    assert round(100 * half.mean("loss_energy_frac"), 1) == 8.9
    lost, cost = changed(bank_factor=2)
    assert (round(lost, 1), cost) == (7.8, pytest.approx(5520))
    lost, twice = changed(array_factor=1.0)
    assert (lost, twice) == (0.56, pytest.approx(2860, abs=5))
    assert 0.5 < twice / cost < 0.55, "half the money"
    assert changed(array_factor=1.5) == (0, pytest.approx(5710, abs=5))
    said = slots()["L12-one-change"].statement.replace("\u2009", "")
    assert all(number in said for number in ("8.9 %", "7.8 %", "5520", "0.56 %", "2860", "5710"))


def test_a_larger_bank_takes_an_eighth_of_the_trouble_away(panel):
    small, large = (moved(panel, bank_factor=n).result.outcome for n in (1.0, 2.0))
    lost = [x.mean("loss_energy_frac") for x in (small, large)]
    assert (lost[0] - lost[1]) / lost[0] == pytest.approx(1 / 8, abs=0.01)
    longest = [x.years.longest_outage_h.max() for x in (small, large)]
    assert longest[1] == pytest.approx(2 * longest[0], rel=0.05), "dark for twice as long"


def test_the_cheapest_on_the_map(alone):
    """5280 W with 18 kWh keep to 1 % for a fifth less money than 4400 W with 36 kWh, which lose 0.46 %."""
    view = MapView(joined(list(map_in_parts(alone, hours_of(alone, drawn_weather(alone, 10))))), 0.01)
    assert (round(view.cheapest.array_w), round(view.cheapest.bank_wh, -3)) == (5280, 18_000)
    assert (view.hand.array_w, round(view.hand.bank_wh, -3)) == (4400, 36_000)
    assert round(100 * view.hand.loss_frac, 2) == 0.46
    assert 1 - view.cheapest.life_cycle_cost / view.hand.life_cycle_cost == pytest.approx(0.2, abs=0.01)
    assert view.map.loss_frac.size > 800, "hundreds of designs"
    strict = MapView(view.map, 0.001).cheapest
    assert (round(strict.array_w), round(strict.bank_wh, -3)) == (6380, 22_000)
    assert strict.life_cycle_cost / view.cheapest.life_cycle_cost == pytest.approx(1.2, abs=0.01), "dearer by a fifth"


def test_the_mast_spills_three_quarters_and_loses_nothing(plans):
    mast = years_of(size(read_plan(plans / "gull_mast.toml")))
    assert round(100 * mast.mean("spilled_frac")) == 77
    assert mast.mean("unserved_year_wh") == 0


def test_what_a_colder_night_does_to_the_engine(hut):
    """With both levels alike the loads may go first; put up to 60 %, the engine always does."""
    for start, dark in ((0.5, 53), (0.6, 0)):
        years = years_of(hut, array_factor=0.5, generator_start_frac=start)
        assert round(years.mean("short_year_h")) == dark


# ---- problems


@pytest.mark.parametrize("id_", ["L12-2", "L12-entry-2", "L12-exit-2", "L12-exit-6", "G3-gate-11"])
def test_the_figures_of_a_year_do_not_contradict_each_other(id_):
    """What reached the loads is what they wanted and did not miss; it, what is spilled and cut is no more than came."""
    seen = 0
    for n in range(24):
        key = draw(slots()[id_], n).key
        if "place_by_row_wh" in key:
            assert key["place_by_row_wh"] == key["wanted_year_wh"] - key["unserved_year_wh"] < key["came_year_wh"]
            seen += 1
        if "spilled_year_wh" in key:
            kept = key["array_year_wh"] - key["spilled_year_wh"] - key["clipped_year_wh"]
            assert 0.5 < (key["wanted_year_wh"] - key["unserved_year_wh"]) / kept < 1
            seen += 1
    assert seen > 5


def test_no_bank_of_a_knob_holds_more_than_its_label_even_a_tenth_to_either_side():
    for id_, charge in (("L12-8", "store_wh"), ("L12-7", "store_wh")):
        for n in range(60):
            problem = draw(slots()[id_], n)
            held = problem.key[charge] / problem.key["bank_wh"] * 1.1
            assert (held / 0.9 if id_ == "L12-8" else held) <= 1
            assert min(abs(e) for e in problem.slot.elasticity(problem).values()) > 0, "each knob does something"


def test_a_larger_bank_misses_less_in_dull_days():
    """As the lesson has it: a charge told as a share grows with the bank."""
    for n in range(20):
        problem = draw(slots()["L12-7"], n)
        assert problem.slot.elasticity(problem)["bank_wh"] < 0


def named_by(template):
    return {
        *template.mistakes,
        *(o.mistake for o in (*getattr(template, "options", ()), *getattr(template, "reasons", ()))),
    }


@pytest.mark.parametrize("id_", FOCUS)
def test_every_bug_in_focus_is_in_several_places(id_):
    assert len({s.id for s in OWN for t in s.templates if id_ in named_by(t)}) >= 3


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in OWN if s.id[4:].isdigit()]
    mixed = [s for s in practice if not any(m.startswith("YS") for m in s.mistakes) and s.kind != "knob"]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_recall_is_of_lessons_11_10_and_8():
    found = [named_by(slots()[f"L12-recall-{i}"]) - {""} for i in (1, 2, 3)]
    assert [{m[:2] for m in ids} for ids in found] == [{"GE"}, {"OP"}, {"CC"}]


@pytest.mark.parametrize("slot", [s for s in judge() if isinstance(s, Failed)], ids=lambda s: s.id)
def test_each_log_can_have_each_of_its_faults(slot):
    for key in slot.faults:
        assert any(failing(slot.plan, day, key, case).is_plain() for day in slot.days for case in range(9)), key
    assert len({draw(slot, n).given["fault"] for n in range(8)}) >= 3


def test_the_night_that_draws_beyond_the_cut_off_is_seen_as_such():
    """A learner who lets the night draw all it asks for, and works on rightly from there."""
    problem = draw(slots()["L12-1"])
    answers = problem.slot.slipped(problem, "YS-02", Settings())
    marks = mark(problem, answers)
    assert marks.mistakes == ("YS-02",)
    assert "low-voltage disconnect" in marks.question
    assert {marks.of(n).verdict for n in ("dawn_wh", "noon_wh")} <= {"carried", "right"}
