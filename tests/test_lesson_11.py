"""The generator lesson: its reading is the panel's, its picture the sums, its year the simulated one."""

from itertools import product

import numpy as np
import pytest
from panel_checks import trace

from offgrid_core import data
from offgrid_core.figures.generator import make
from offgrid_core.lab import generator_panel
from offgrid_core.practice import Answer, Problem, draw, mark, mistake, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.quantities import Settings
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.generator_teaching import LABEL, RESTORE, RESTORE_FUEL, STARTS
from offgrid_core.system import read_plan, size
from offgrid_core.year.explore import rebuilt
from offgrid_core.year.explore_generator import HOURS, YEARS, one_run, with_generator
from offgrid_core.year.hours import hours_of
from offgrid_core.year.outcome import drawn_weather
from offgrid_core.year.simulate import simulate

FOCUS = {f"GE-{n:02}" for n in (1, 3, 6, 7, 9, 11, 13, 14)}
FELL_HUT = {"generator_rated_w": 3000, "charger_rated_a": 30}


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def stormed(hut):
    """Return the panel as the lesson shows it: three of five rows are left."""
    return generator_panel(hut, "", Settings(), array_factor=0.6)


@pytest.fixture
def panel(stormed):
    stormed.reset()
    return stormed


def moved(panel, **values):
    for name, value in values.items():
        panel.set(name, value)
    assert panel.status == ""
    return dict(panel.parts.readouts(panel.result, panel.settings))


# ---- the reading, and what the prose says


def test_the_reading_asked_for_is_what_the_panel_shows(panel):
    problem = draw(slots()["L11-explore"])
    for name in problem.slot.sheet.inputs:
        assert problem.given[name] == pytest.approx(panel.result.run[name]), name
    assert moved(panel)["Fuel of a run"] == "6.5 L"
    shown = moved(panel, generator_rated_w=float(problem.given["generator_rated_after_w"]))["Fuel of a run"]
    assert shown == "8.64 L"
    answers = problem.slot.solution(problem, Settings()) | {READING: Answer(*shown.split())}
    assert mark(problem, answers).finished
    assert not mark(problem, answers | {READING: Answer("8.5", "L")}).finished


def test_the_guess_is_the_run_of_the_panel(panel):
    problem = draw(slots()["L11-guess"])
    assert float(problem.key["restore_h"]) == pytest.approx(float(panel.result.run["restore_h"]))
    assert moved(panel)["Hours of a run"] == "8.48 h"


def test_a_generator_twice_as_large_changes_no_hour_and_a_charger_twice_as_large_halves_them(panel):
    before = moved(panel)
    larger = moved(panel, generator_rated_w=6000.0)
    assert larger["Hours of a run"] == before["Hours of a run"]
    assert larger["Engine a year"] == before["Engine a year"]
    assert moved(panel, charger_rated_a=60.0)["Hours of a run"] == "4.24 h"
    assert moved(panel, charger_rated_a=150.0, generator_rated_w=9000.0)["Hours of a run"] == "2.57 h"
    assert "98.8 A" in panel.summary, "the bank takes no more"


def test_an_engine_that_stalls_has_no_run_and_no_year(panel):
    panel.pin()
    shown = moved(panel, charger_rated_a=60.0)
    assert "TOO MUCH for this generator: 139 % of its label is asked, 95.1 % is left" in panel.summary
    assert "4.24" not in panel.summary
    assert list(shown.values()) == ["stalls", "stalls", "–", "–", "–", "–"]
    figure = panel.static()
    assert np.isnan(trace(figure, "by the sum").x[1])
    for name in ("hour by hour", "engine runs", "loads cut off"):
        assert np.isnan(trace(figure, name).y.astype(float)).all(), name
    assert trace(figure, "charger 30 A").y[-1] > 99, "the pin of a sound setting stays"
    assert panel.parts.picture.tables(panel.result, panel.settings) == []
    panel.unpin()
    assert moved(panel, generator_rated_w=6000.0)["Hours of a run"] == "4.24 h"


def test_starting_late_saves_every_start_and_loses_load(panel):
    assert moved(panel, generator_start_frac=0.4)["Starts a year"] == "0"
    assert "TOO LATE: the bank is cut off before the engine starts" in panel.summary
    assert panel.result.mean("loss_energy_frac") == pytest.approx(0.061, abs=0.001)
    early = moved(panel, generator_start_frac=0.6)
    assert (early["Starts a year"], early["Load lost"]) == ("9", "0 %")
    assert "TOO LATE" not in panel.summary


def test_up_to_the_last_per_cent_the_engine_never_stops(panel):
    assert panel.result.mean("generator_ran_h") == pytest.approx(34)
    moved(panel, generator_stop_frac=1.0)
    assert panel.result.mean("generator_ran_h") > 4000
    charge = panel.result.charge_frac
    assert charge[3] - charge[0] == pytest.approx(0.124, abs=0.001)
    assert charge[15] - charge[12] < 0.025


def test_an_engine_that_loafs_is_told_and_so_is_a_bank_that_never_fills(panel):
    moved(panel, generator_rated_w=9000.0)
    assert "loafs at 23.2 % of its label" in panel.summary
    panel.reset()
    said = moved(panel, charger_rated_a=5.0, dc_running_w=400.0)
    assert said["Hours of a run"] == "never done"
    assert "take all that the charger gives" in panel.summary
    panel.reset()
    assert moved(panel, generator_stop_frac=0.5)["Hours of a run"] == "never done"
    assert "does not lie above" in panel.summary


# ---- the picture


def test_the_run_of_the_picture_is_the_sum_and_the_balance(panel):
    moved(panel, dc_running_w=300.0)
    view, figure = panel.result, panel.static()
    by_sum, by_hour = trace(figure, "by the sum"), trace(figure, "hour by hour")
    assert list(by_sum.y) == pytest.approx([50, 85])
    assert by_sum.x[1] == pytest.approx(15960 / 1582.8)
    assert len(by_hour.x) == HOURS + 1
    assert np.interp(2, by_hour.x, by_hour.y) == pytest.approx(50 + 2 * 1582.8 * 0.8 / 364.8)
    assert np.all(np.diff(by_hour.y) > -1e-9)
    assert by_hour.y[-1] <= 100
    cut = trace(figure, "below the depth limit")
    assert max(cut.y) == pytest.approx(50)
    assert view.is_filling


@pytest.mark.parametrize("charger_a", [8, 15, 22, 26, 30, 45])
def test_no_curve_crosses_the_words_past_the_stop_level(panel, charger_a):
    """Two lines of words are about 11 of the 24 hours wide and 9 of the 100 per cent high."""
    moved(panel, charger_rated_a=float(charger_a), generator_rated_w=6000.0)
    figure = panel.static()
    curve, region = trace(figure, "hour by hour"), trace(figure, "past the stop level")
    (corner,) = [n for n, text in enumerate(region.text) if text]
    right = region.x[corner] > 0
    hours, low = ((13, 24), region.y[corner]) if right else ((0, 11), region.y[corner] - 9)
    along = np.interp(np.linspace(*hours, 50), curve.x, curve.y)
    assert (along > low + 9).all() or (along < low).all()


def test_the_months_of_the_picture_add_up_to_the_year(panel):
    view, figure = panel.result, panel.static()
    assert sum(trace(figure, "engine runs").y) == pytest.approx(view.mean("generator_ran_h"))
    assert sum(trace(figure, "loads cut off").y) == pytest.approx(view.mean("short_year_h"))
    assert sum(view.ran_by_month_h[3:9]) == 0, "no engine in summer"


def test_the_year_is_the_simulated_one(hut, panel):
    years = simulate(hours_of(rebuilt(hut, {"array_factor": 0.6}), drawn_weather(hut, YEARS, 1)))
    assert panel.result.mean("generator_fuel_l") == pytest.approx(float(np.mean(years.totals["generator_fuel_l"])))
    running = np.array([years.hour_by_hour(n)["running_frac"] for n in range(YEARS)])
    begun = (running > 0) & (np.roll(running, 1, axis=1) == 0)
    assert panel.result.starts == pytest.approx(begun.sum() / YEARS)


def test_a_pin_keeps_the_run_of_another_charger(panel):
    panel.pin()
    moved(panel, charger_rated_a=60.0, generator_rated_w=6000.0)
    ghost = next(t for t in panel.static().data if (t.name or "").startswith("charger 30 A"))
    assert ghost.y[2] < trace(panel.static(), "hour by hour").y[2]
    panel.unpin()


@pytest.mark.parametrize("name", ["riverbend", "gull_mast"])
def test_a_place_without_a_generator_gets_a_small_one(plans, name):
    design = size(read_plan(plans / f"{name}.toml"))
    assert design.plan.generator is None
    borrowed = with_generator(design)
    assert one_run(borrowed)["generator_rated_w"] == 3000
    assert borrowed.system["bank_ah"] == design.system["bank_ah"]
    assert make(generator_panel(design, "", Settings()).result, Settings()).data


# ---- the lines


def test_the_plan_of_the_hut(hut):
    run = one_run(hut)
    assert {n: float(run[n]) for n in FELL_HUT} == FELL_HUT
    assert float(hut.more["Backup generator"]["generator_run_ah"]) == 266
    assert float(hut.more["Backup generator"]["generator_run_h"]) == pytest.approx(8.87, abs=0.01)


def test_a_run_by_hand():
    """10 kWh missing at 80 %: 12.5 kWh; 2000 W less 400 W: 7.8125 h; 3 L an hour."""
    given = {"bank_wh": 25_000, "generator_stop_frac": 0.9, "generator_start_frac": 0.5, "charge_eff_frac": 0.8}
    solved = (RESTORE + RESTORE_FUEL).solve({**given, "charger_dc_w": 2000, "dc_running_w": 400, "fuel_l_h": 3})
    assert (solved["restore_wh"], solved["restore_h"]) == pytest.approx((12_500, 7.8125))
    assert solved["restore_l"] == pytest.approx(23.4375)


def test_watts_of_a_label():
    """The usual power factor of a generator's label is 0.8: 10 kVA are 8 kW. Common practice, no source."""
    solved = LABEL.solve({"generator_rated_va": 10_000, "generator_pf_ratio": 0.8})
    assert solved["generator_rated_w"] == 8000


def test_starts_are_counted_where_an_engine_was_still():
    running = np.zeros(8760)
    running[[5, 6, 7, 100, 8759]] = 1
    before = np.roll(running, 1)
    solved = STARTS.solve({"running_by_hour_frac": running, "was_running_by_hour_frac": before})
    assert solved["starts_year_count"] == 3


@pytest.mark.parametrize(("key", "share"), [("diesel_textbook", 0.63), ("diesel_chart_100kw", 0.56)])
def test_half_the_load_takes_more_than_half_the_fuel(key, share):
    """Skarstein and Uhlen 1989 (from memory), 10 kW: 2.0715 of 3.3015 L/h; a chart: 4.1 of 7.4 gal/h is 0.55."""
    curve = data.fuel_curve(key)
    given = {n: getattr(curve, n) for n in ("fuel_size_l_kwh", "fuel_work_l_kwh")} | {"generator_rated_w": 10_000}
    half, full = (GENERATOR.upto("fuel_l_h").solve(_known(given, w))["fuel_l_h"] for w in (5000, 10_000))
    assert half / full == pytest.approx(share, abs=0.005)


def _known(given, load_w):
    """Return givens for which the engine's load comes to so many watts."""
    site = {"bank_ah": 1e4, "charge_rate_max_per_h": 0.1, "charger_rated_a": 1, "absorb_set_v": 60}
    return {**given, **site, "charger_eff_frac": 1, "generator_other_w": load_w - 60}


# ---- problems


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L11"]
    for id_ in FOCUS:
        places = {s.id for s in own for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}
        assert len(places) >= 3, id_


def test_ac_loads_are_loads_that_there_are():
    """What runs at most is more than what runs on average; kitchens and tools have a power factor of 0.6 to 1."""
    own = [t for s in slots().values() if s.lesson == "L11" for t in s.templates if "peak_w" in t.grids]
    assert len(own) >= 8
    for each in own:
        most, least = max(each.grids.get("generator_other_w", (0,))), min(each.grids["peak_w"])
        assert most < least, each.title
        if most or any(w in each.statement for w in ("kitchen", "tools")):
            assert least / max(each.grids["peak_va"]) >= 0.6, each.title
            assert max(each.grids["peak_w"]) <= min(each.grids["peak_va"]), each.title


@pytest.mark.parametrize("id_", ["L11-1", "L11-entry-1"])
@pytest.mark.parametrize("eff", [1, 0.86])
def test_engine_watts_for_the_chargers_are_asked_about_where_they_are_typed(id_, eff):
    """4500 W on the label, or 4500 × 0.86 = 3870 W of it: the charger's power is 55 A × 28.4 V = 1562 W."""
    slot = slots()[id_]
    problem = Problem(slot, {**slot.given, **slot.curated}, "by hand")
    assert problem.given["generator_rated_w"] == 4500
    answers = slot.solution(problem, Settings()) | {"charger_dc_w": Answer(str(4500 * eff), "W")}
    marks = mark(problem, answers)
    assert marks.of("charger_dc_w").verdict == "mistake"
    assert mistake("GE-03").question in " ".join(marks.feedback)


def test_no_engine_is_asked_for_more_than_its_label():
    (place,) = (t for t in slots()["L11-exit-2"].templates if t.title == "How much may hang on it?")
    for values in product(*place.grids.values()):
        given = dict(zip(place.grids, values, strict=True))
        load_w = (1000 * given["fuel_most_l_h"] - given["fuel_size_l_kwh"] * given["generator_rated_w"]) / given[
            "fuel_work_l_kwh"
        ]
        assert 0.3 < load_w / given["generator_rated_w"] < 1, given


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L11" and s.id[4:].isdigit()]
    own = {*GENERATOR, *RESTORE}
    mixed = [s for s in practice if not set(s.sheet) & own]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_the_pick_may_be_bound_by_each_of_its_limits():
    pick = slots()["L11-pick"]
    judged = [p.slot.judged(p) for p in (draw(pick, n) for n in range(20))]
    assert {j.binding(j.best).name for j in judged} == {x.name for x in pick.limits}


def test_the_failed_log_of_the_first_variant_is_a_late_start():
    problem = draw(slots()["L11-failed"])
    assert problem.given["fault"] == "generator_late"
    assert "running_frac" in problem.slot.log(problem).windows
