"""The inverter lesson: its reading is the panel's, its picture the sums, and its new lines cases by hand."""

import numpy as np
import pytest
from panel_checks import readout, set_to, trace

from offgrid_core.errors import OffgridError
from offgrid_core.lab import inverter_panel
from offgrid_core.practice import Answer, draw, mark, mistake, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.slots.l09_exit import slots as exit_slots
from offgrid_core.quantities import Settings
from offgrid_core.sizing.hours import LOADS_BY_HOUR
from offgrid_core.sizing.inverter_day_teaching import IDLE, LABELS, MOMENT, ONE_MOTOR, idle_margin_wh
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_inverter import APPLIANCES, DIALS, MOMENTS, inverter_day, inverters_for
from offgrid_core.worksheet import Sheet

FOCUS = {"IN-01", "IN-03", "IN-06", "IN-07", "IN-10", "IN-11", "IN-13", "IN-17"}
LARGER = "inverter_48v_1800w"


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def clinic(plans):
    return size(read_plan(plans / "riverbend.toml"))


@pytest.fixture(scope="module")
def cabin(plans):
    return size(read_plan(plans / "weekend_cabin.toml"))


def panel_of(design, settings=None, inverter="", **moved):
    return set_to(inverter_panel(design, "", settings or Settings(), inverter), **moved)


# ---- the reading, and what the prose says


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L09-explore"])
    panel = panel_of(hut, inverter=LARGER)
    assert panel.inputs["pump_start_h"] == problem.given["moment_h"], "the panel opens where the question begins"
    assert readout(panel, "Hardest start") == "1\u2009570 W"
    panel.set("pump_start_h", float(problem.given["moved_h"]))
    shown = readout(panel, "Hardest start")
    assert shown == "2\u2009570 W"
    answers = problem.slot.solution(problem, Settings()) | {READING: Answer(*shown.replace("\u2009", "").split())}
    assert mark(problem, answers).finished
    assert not mark(problem, answers | {READING: Answer("2930", "W")}).finished, "the sum of all starts"


def test_the_question_speaks_of_the_panel_s_appliances(hut):
    """Those of the hut's plan, and a kettle: what the statement and the lesson's first list say of them."""
    told = {a.name: (a.power_w, a.start_factor) for a in APPLIANCES}
    of_plan = {row.name: (row.power_w, row.start_factor) for row in hut.plan.load}
    assert {n: v for n, v in told.items() if n != "kettle"} == of_plan
    assert {row.name: row.power_factor_ratio for row in hut.plan.load}.items() <= {
        (a.name, a.power_factor) for a in APPLIANCES
    }
    assert told["kettle"] == (1000, 1)
    given = draw(slots()["L09-explore"]).given
    assert given["label_by_row_w"] == tuple(told[n][0] for n in ("fridge", "kettle", "washing machine", "water pump"))
    statement = slots()["L09-explore"].statement
    assert all(f"{told[n][0]:.0f} W" in statement for n in ("fridge", "kettle", "washing machine", "water pump"))


def test_the_guess_is_the_hut_s_own_surge(hut):
    problem = draw(slots()["L09-guess"])
    assert problem.key["surge_w"] == pytest.approx(float(hut.loads["surge_w"])) == 1681


def test_at_45_degrees_the_kettle_alone_is_too_much_for_the_smallest(hut):
    smallest, larger = (panel_of(hut, inverter=i, air_hot_c=45.0) for i in ("inverter_48v_900w", LARGER))
    for hour in np.arange(0, 22.5, 0.5):
        smallest.set("kettle_start_h", float(hour))
        assert "TOO SMALL" in smallest.summary
    assert "enough" in larger.summary
    assert readout(larger, "In this heat") == "1\u2009620 W"
    larger.set("pump_start_h", 7.0)
    assert larger.result.broken == ("inverter_margin_w",)
    assert "1\u2009825 W" in larger.summary
    assert "the label (1\u2009800 W)" in larger.summary


def test_numbers_that_problems_and_prose_name(hut, clinic, cabin):
    """The clinic's air; 28 W more for a day; five days of the cabin's idling; two people at the hot roof."""
    assert float(clinic.system["air_hot_c"]) == pytest.approx(44.4)
    assert clinic.parts.inverter.rated_w == 450
    by_key = {i.key: i for i in inverters_for(hut)}
    small, large = by_key[LARGER], by_key["inverter_48v_6500w"]
    assert (small.idle_w, large.idle_w) == (17, 45)
    more = (large.idle_w - small.idle_w) * 24
    assert more == 672
    assert 0.24 < more / float(hut.loads["battery_day_wh"]) < 0.27
    idling = cabin.parts.inverter.idle_w * 5 * 24
    assert idling == 1680
    assert 0.8 < idling / float(cabin.loads["battery_day_wh"]) < 0.95
    told = {(i.rated_w, i.efficiency_frac, i.idle_w) for i in by_key.values()}
    assert told >= {(900, 0.91, 12), (1800, 0.92, 17), (2600, 0.93, 22), (6500, 0.94, 45)}, "the lesson's four"
    tools = next(row for row in cabin.plan.load if row.name == "tools")
    assert (tools.power_w, tools.power_factor_ratio) == (600, 0.75)


# ---- lines


def test_what_may_run_at_a_moment_by_hand():
    """From 7 h for half an hour; the end belongs to what comes after."""
    rows = {"start_by_row_h": (7, 0), "hours_by_row_h": (0.5, 24), "label_by_row_w": (370, 90)}
    solved = MOMENT.upto("power_by_row_w").solve(rows | {"moment_h": np.array([6.75, 7, 7.25, 7.5])})
    assert solved["power_by_row_w"].tolist() == [[0, 90], [370, 90], [370, 90], [0, 90]]


def test_labels_idling_and_one_motor_by_hand():
    assert LABELS.solve({"count_by_row": (8, 1), "power_by_row_w": (7, 370)})["labels_w"] == 426
    given = {
        "count_by_row": 1, "power_by_row_w": 100, "hours_by_row_h": 8, "duty_by_row_frac": 1, "season_by_row_frac": 1,
        "standby_by_row_w": 0, "on_ac_by_row_frac": 1, "inverter_idle_w": 20, "inverter_on_h": 10,
    }  # fmt: skip
    assert IDLE.solve(given)["idle_share_frac"] == pytest.approx(200 / 800)
    kept = Sheet(idle_margin_wh).solve({"idle_most_wh": 250, "inverter_idle_wh": 300})
    assert kept["idle_margin_wh"] == -50
    assert kept.broken()["idle_margin_wh"]
    motor = ONE_MOTOR.solve({"shaft_hp": 0.5, "motor_eff_frac": 0.5, "others_w": 200, "start_by_row_factor": 4})
    assert [float(motor[n]) for n in ONE_MOTOR] == [746, 946, 2238, 3184]


def test_one_motor_is_the_list_with_two_rows():
    """The replaced lines say of one motor what the lines of the loads list say of a list."""
    alone = {"motor_input_w": 370, "others_w": 201, "start_by_row_factor": 4}
    rows = {
        "count_by_row": 1, "power_by_row_w": (201, 370), "start_by_row_factor": (1, 4), "on_ac_by_row_frac": 1,
        "coincidence_by_row_frac": 1,
    }  # fmt: skip
    one = Sheet(*(ONE_MOTOR[n] for n in ("peak_w", "start_extra_w", "surge_w"))).solve(alone)
    listed = MOMENT.upto("surge_w").solve({
        **{n: v for n, v in rows.items() if n != "power_by_row_w"},
        "label_by_row_w": rows["power_by_row_w"], "start_by_row_h": 0, "hours_by_row_h": 24, "moment_h": 12,
    })  # fmt: skip
    for name in ("peak_w", "start_extra_w", "surge_w"):
        assert float(one[name]) == pytest.approx(float(listed[name])), name


# ---- the panel


def test_the_day_by_hand(hut):
    """Kettle 7 h to 7:15, washing 10 to 11, pump 12 to 12:30, laptop 17 to 23, lamps 18 to 23, fridge always."""
    view = panel_of(hut, inverter=LARGER).result
    by_hand = np.full(96, 90.0)
    for watts, begins, ends in ((1000, 28, 29), (350, 40, 44), (370, 48, 50), (55, 68, 92), (56, 72, 92)):
        by_hand[begins:ends] += watts
    assert view.running_w == pytest.approx(by_hand)
    hardest = np.where(by_hand == 460, 1110, np.where(by_hand == 440, 700, 360))
    assert view.surging_w == pytest.approx(by_hand + hardest)
    assert (view.peak_at_h, view.surge_at_h) == (7, 12)
    assert float(view.point["peak_va"]) == pytest.approx(1000 + 90 / 0.7)
    assert float(view.point["labels_w"]) == 1921
    assert float(view.point["inverter_idle_wh"]) == 17 * 24


def test_the_picture_is_the_computation(hut):
    panel = panel_of(hut, inverter=LARGER, kettle_start_h=19.0)
    view, figure = panel.result, panel.static()
    for name, values in (("together, W", view.running_w), ("hardest start on top", view.surging_w)):
        drawn = trace(figure, name)
        np.testing.assert_array_equal(drawn.y[:-1], values)
        np.testing.assert_array_equal(drawn.x[:-1], MOMENTS)
    bars = trace(figure, "may run")
    assert dict(zip(bars.y, bars.base, strict=True))["kettle"] == 19
    assert trace(figure, "in this heat").y[0] == 1800
    brief = trace(figure, "only for a moment")
    assert (min(brief.y), brief.visible) == (1800, True)
    assert brief.fillpattern.shape != trace(figure, "more than it gives").fillpattern.shape
    assert next(t for t in figure.data if t.name == "hardest start").x[0] == view.surge_at_h


def test_the_region_in_which_it_trips_begins_at_the_surge_rating(hut):
    figure = panel_of(hut, inverter="inverter_48v_900w", pump_start_h=7.0).static()
    trips = trace(figure, "more than it gives")
    assert (min(trips.y), trips.visible) == (2000, True)
    assert "trips" in trips.text[-1]


def test_heat_and_pins_and_the_numbers_below(hut):
    panel = panel_of(hut, inverter=LARGER)
    panel.pin()
    panel.set("air_hot_c", 50.0)
    panel.set("pump_start_h", 7.0)
    assert readout(panel, "In this heat") == "1\u2009440 W"
    assert "gives 1\u2009440 W; by its label, 4\u2009200 W for a moment" in panel.summary, "a surge knows no heat"
    assert set(panel.result.broken) == {"inverter_margin_w", "heat_margin_w"}
    ghost = next(t for t in panel.static().data if t.name == "1\u2009800 W; 12 h, 10 h, 7 h")
    assert max(ghost.y) == 1570
    (numbers,) = panel.tables
    columns = {head: list(column) for head, column in numbers.columns.items()}
    assert len({len(c) for c in columns.values()}) == 1
    assert columns["from (h)"][:3] == [0, 7, 7.25]


def test_an_inverter_for_another_bank_is_refused(hut):
    with pytest.raises(OffgridError, match="no inverter for this bank"):
        inverter_day(hut, {**DIALS, "air_hot_c": 20.0, "inverter_on_h": 24.0, "inverter": "inverter_12v_180w"})


def test_the_peaks_are_those_of_a_plan_with_windows(hut):
    """The same lines as a plan's own hours: the largest of the moments."""
    view = panel_of(hut, pump_start_h=10.0).result
    peaks = Sheet(*(LOADS_BY_HOUR[n] for n in ("peak_w", "surge_w"))).solve(
        {"running_by_hour_w": view.running_w, "surging_by_hour_w": view.surging_w}
    )
    assert float(peaks["peak_w"]) == float(view.point["peak_w"]) == np.max(view.running_w)
    assert float(peaks["surge_w"]) == float(view.point["surge_w"]) == 90 + 350 + 370 + 1110


# ---- problems


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L09"]
    for id_ in FOCUS:
        places = {s.id for s in own for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}
        assert len(places) >= 3, id_


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L09" and s.id[4:].isdigit()]
    mixed = [s for s in practice if not any(i.startswith("IN-") for i in s.mistakes) and s.kind == "work"]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_the_danger_is_asked_for_wherever_heat_counts():
    (heat,) = [s for s in exit_slots() if s.id == "L09-exit-4"]
    assert all("IN-18" in t.mistakes for t in heat.templates)
    assert mistake("IN-18").severity == "danger"


def test_the_cheapest_inverter_may_be_bound_by_several_limits():
    pick = slots()["L09-pick"]
    judged = [p.slot.judged(p) for p in (draw(pick, n) for n in range(25))]
    assert len({j.binding(j.best).name for j in judged}) >= 2
    broken = {x.name for j in judged for i in range(pick.count) for x in j.broken_of(i)}
    assert broken == {x.name for x in pick.limits}


def test_a_large_inverter_s_idling_leads_the_ranking():
    knob = slots()["L09-6"]
    assert all(knob.ranked(draw(knob, n))[0] == "inverter_idle_w" for n in range(12))


@pytest.mark.parametrize("id_", ["L09-faded-1", "L09-faded-2", "L09-3", "L09-exit-2", "L09-exit-6"])
def test_the_hardest_start_is_of_a_motor_that_need_not_wait(id_):
    """The worksheet puts the hardest start on top of what runs together."""
    for problem in (draw(slots()[id_], attempt) for attempt in range(12)):
        given = problem.given
        if "surge_w" not in problem.slot.sheet or "power_by_row_w" not in given:
            continue
        columns = (given.get(n, 1) for n in ("power_by_row_w", "start_by_row_factor", "coincidence_by_row_frac"))
        rows = zip(*np.broadcast_arrays(*columns), strict=True)
        assert max((power * (start - 1), together) for power, start, together in rows)[1] == 1
