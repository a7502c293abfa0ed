"""The lesson on the bank's voltage: its reading is the panel's, its picture the sums, its numbers the sources'."""

import json
import re
from dataclasses import replace
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from panel_checks import marked, readout, set_to

from offgrid_core import data
from offgrid_core.figures.voltage import make
from offgrid_core.lab import voltage_panel
from offgrid_core.practice import Problem, Step, draw, slots
from offgrid_core.practice.diagnosis import explain
from offgrid_core.practice.kinds import Slip
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.quantities import Settings, label_of
from offgrid_core.sizing import VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.voltage_teaching import MAIN_CABLE, ONE_CABLE, STEP_UP
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_voltage import cable_sizes

OWN = [s for s in slots().values() if s.lesson == "L02"]
FOCUS = {"BV-02", "BV-03", "BV-04", "BV-05", "BV-07", "BV-09", "BV-11"}
NOTEBOOK = Path(__file__).resolve().parents[1] / "lessons" / "02_voltage.ipynb"


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def cabin(plans):
    return size(read_plan(plans / "weekend_cabin.toml"))


def panel_of(design, **moved):
    return set_to(voltage_panel(design, "", Settings()), **moved)


def trace(figure, name, place=0):
    return [t for t in figure.data if t.name == name][place]


# ---- the reading, and what the prose says of the panel


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L02-explore"])
    panel = panel_of(hut)
    before = {n: problem.given[n] for n in panel.inputs}
    assert before == panel.inputs, "the panel opens where the question begins"
    assert readout(panel, "Power lost in the cable") == "128 W"
    panel.set("bank_voltage_v", problem.given["raised_voltage_v"])
    answer = problem.slot.solution(problem, Settings())[READING]
    assert readout(panel, "Power lost in the cable") == f"{answer.text} {answer.unit}" == "32 W"


def test_twice_the_volts_is_half_the_amps_and_a_quarter_of_the_loss(hut):
    """Of the lines, not of rounded readouts; and a quarter of the copper keeps the same share."""
    for low, high in ((12, 24), (24, 48)):
        one, other = (panel_of(hut, bank_voltage_v=v).result.point for v in (low, high))
        ratios = [other[n] / one[n] for n in ("inverter_input_a", "inverter_lost_w", "copper_wanted_mm2")]
        assert ratios == pytest.approx([1 / 2, 1 / 4, 1 / 4], rel=1e-12)


def test_twice_as_far_is_twice_the_copper(hut):
    near, far = (panel_of(hut, cable_run_m=m).result.point["copper_wanted_mm2"] for m in (5, 10))
    assert far / near == pytest.approx(2)


def test_a_thinner_cable_overheats_on_12_v_and_not_on_24_v(hut):
    hot, cool = (panel_of(hut, cable_mm2=35.0, bank_voltage_v=v) for v in (12, 24))
    assert hot.summary.endswith("The cable may carry 138 A: it overheats.")
    assert cool.summary.endswith("The cable may carry 138 A.")
    assert "Allowed are 2 %: that takes 183 mm² of copper." in hot.summary
    assert "That is within the 2 % allowed." in panel_of(hut, bank_voltage_v=48).summary


def test_a_cable_that_would_take_every_volt_is_said_to(hut):
    panel = panel_of(hut, inverter_rated_w=5000, cable_run_m=20, cable_mm2=6.0)
    assert "more than the bank has: nothing runs on this cable" in panel.summary


def test_the_menu_has_the_cables_of_the_code_setting(hut, cabin):
    for design, code in ((hut, "iec_style"), (cabin, "us_style")):
        (menu,) = [c for c in voltage_panel(design).parts.controls if c.name == "cable_mm2"]
        assert (
            [size for _, size in menu.menu.options]
            == list(cable_sizes(design))
            == list(data.code_setting(code).size_labels)
        )
        assert menu.value >= 60


def test_numbers_under_the_picture_are_those_of_the_usual_voltages(hut):
    (told,) = panel_of(hut).tables
    assert list(told.columns["bank voltage (V)"]) == list(VOLTAGE_STEPS.y)
    assert told.columns["power lost (W)"] == pytest.approx([128, 32, 8], rel=1e-3)


# ---- the picture


def test_the_picture_draws_what_the_worksheet_says(hut):
    panel = panel_of(hut, inverter_rated_w=1500, bank_voltage_v=36)
    figure, given = make(panel.result, Settings()), {n: panel.result.point[n] for n in ONE_CABLE.inputs}
    for name, line in (("current", "inverter_input_a"), ("power lost", "inverter_lost_w")):
        drawn = trace(figure, name)
        for i in (0, 30, -1):
            alone = ONE_CABLE.solve({**given, "bank_voltage_v": float(drawn.x[i])})
            assert drawn.y[i] == pytest.approx(float(alone[line]), rel=1e-12)
    for place, line in enumerate(("inverter_input_a", "inverter_lost_w")):
        assert trace(figure, "now", place).x[0] == 36
        assert trace(figure, "now", place).y[0] == float(panel.result.point[line])


def test_the_regions_begin_where_a_limit_is_broken(hut):
    figure = make(panel_of(hut, cable_mm2=35.0).result, Settings())
    hot, lossy = trace(figure, "more than this cable may carry"), trace(figure, "more than the drop allowed")
    assert (min(hot.y), hot.visible) == (138, True)
    # 2 % of 12 V, times 199.8 A
    assert min(lossy.y) == pytest.approx(0.02 * 12 * 2000 / (0.91 * 11))
    assert {hot.fillpattern.shape, lossy.fillpattern.shape} == {"+", "/"}
    assert "it overheats" in hot.text
    assert not trace(make(panel_of(hut, inverter_rated_w=500).result, Settings()), hot.name).visible


def test_the_two_habits_of_the_trade_are_drawn(hut):
    figure = make(panel_of(hut).result, Settings())
    assert trace(figure, "100 A: some want more volts from here").y == pytest.approx([100, 100])
    assert trace(figure, "200 A: nearly all do").y == pytest.approx([200, 200])


def test_a_pin_keeps_both_curves_under_one_name(hut):
    panel = panel_of(hut)
    panel.pin()
    panel.set("cable_mm2", 120.0)
    ghosts = [t for t in panel.static().data if t.name == "2\u2009000 W · 70 mm²"]
    assert [t.visible for t in ghosts] == [True, True]
    assert [t.showlegend for t in ghosts] == [True, False]
    assert ghosts[1].y[0] == pytest.approx(128, rel=1e-3)
    assert [marked(t) for t in ghosts] == [
        [(12.0, pytest.approx(199.8, abs=0.1))],
        [(12.0, pytest.approx(128, rel=1e-3))],
    ]


# ---- what the prose says beyond its cells


def test_a_48_v_bank_is_above_50_v_while_it_is_charged():
    """Cells of 2.25 to 2.4 V at 25 °C, 24 of them: 54 to 58 V (float and absorption, common practice)."""
    given = {"bank_voltage_v": 48, "cells_12v_count": 6, "compensation_mv_k": -5, "label_temp_c": 25}
    volts = [
        float(SET_POINTS.upto("absorb_set_v").solve({**given, "battery_temp_c": t, "absorb_cell_v": v})["absorb_set_v"])
        for v, t in ((2.25, 25), (2.4, 25), (2.4, -8))
    ]
    assert [round(v) for v in volts[:2]] == [54, 58]
    assert volts[2] > volts[1]


#: Read in a training page on PV systems, step 4 (check INV-004): from and to which watts, and the bank voltage.
TRAINING_PAGE = {24: (1000, 2500), 48: (4000, float("inf"))}


def test_the_third_habit_leaves_gaps():
    for watts in (700, 3000):
        assert not any(low <= watts <= high for low, high in TRAINING_PAGE.values())
    assert watts > 2500


def test_at_the_100_a_habit_the_steps_are_those_of_the_published_rule():
    """INV-006 to INV-008: 1080, 2160 and 4320 W at an efficiency of 0.9 (common practice, no source)."""
    for watts, volts in ((1080, 12), (2160, 24), (4320, 48)):
        given = {"peak_w": watts, "dc_peak_w": 0, "inverter_eff_frac": 0.9, "current_wanted_a": 100}
        assert VOLTAGE.solve({**given, "voltage_steps": VOLTAGE_STEPS})["voltage_least_v"] == pytest.approx(volts)


def test_what_the_spanner_gets_is_ohms_law():
    """SAF-010: 12.8 V through 4 mΩ are 3200 A; SAF-009: more than 1000 A (common practice)."""
    cells = json.loads(NOTEBOOK.read_text(encoding="utf-8"))["cells"]
    (cell,) = [c for c in cells if "12.8 / 0.004" in "".join(c["source"])]
    assert cell["outputs"][0]["data"]["text/plain"] in ("3200", ["3200"])


# ---- new lines


def test_step_up_by_hand():
    """90 A through 6 mΩ: 48.6 W; at twice the volts 45 A, 12.15 W."""
    solved = STEP_UP.solve({"cable_a": 90, "cable_loop_ohm": 0.006, "bank_voltage_v": 24, "raised_voltage_v": 48})
    assert (solved["cable_lost_w"], solved["raised_lost_w"]) == pytest.approx((48.6, 12.15))
    again = STEP_UP.solve({"cable_a": 45, "cable_loop_ohm": 0.006, "bank_voltage_v": 48, "raised_voltage_v": 48})
    assert again["cable_lost_w"] == pytest.approx(12.15)


def test_one_cable_by_hand():
    """1980 W at 90 % from 22 V: 100 A. 8 m of 0.5 mΩ a metre, there and back, is 8 mΩ: 0.8 V, 80 W."""
    given = {"bank_voltage_v": 24, "low_12v_v": 11, "inverter_rated_w": 1980, "inverter_eff_frac": 0.9}
    given |= {"cable_run_m": 8, "inverter_drop_frac": 0.02, "cable_mm2": 40, "bank_current_max_a": 90}
    table = data.code_setting("iec_style").ampacity_of
    solved = ONE_CABLE.solve({**given, "cable_resistance": table, "cable_ampacity": table, "wire_temp_c": 20,
                              "table_temp_c": 20, "cable_mm2": 35}, held={"cable_ohm_m": 0.0005})  # fmt: skip
    wanted = {
        "inverter_low_v": 22, "inverter_input_a": 100, "cable_loop_ohm": 0.008, "inverter_drop_v": 0.8,
        "inverter_lost_frac": 0.8 / 24, "inverter_lost_w": 80, "lost_allowed_w": 48, "cable_margin_a": 38,
        "copper_wanted_mm2": 35 * 0.8 / 0.48, "inverter_drop_margin_frac": 0.02 - 0.8 / 24, "voltage_margin_a": -10,
    }  # fmt: skip
    assert {n: float(solved[n]) for n in wanted} == pytest.approx(wanted)
    assert solved.broken()["inverter_drop_margin_frac"]
    assert not solved.broken()["cable_margin_a"]


def test_main_cable_by_hand():
    """1080 W through 90 % and 240 W beside it, from 24 V: 60 A; 5 mΩ in all: 18 W."""
    given = {"peak_w": 1080, "inverter_eff_frac": 0.9, "dc_peak_w": 240, "bank_voltage_v": 24}
    given |= {"cable_run_m": 5, "cable_ohm_m": 0.0004, "joints_ohm": 0.0006, "fuse_ohm": 0.0004}
    assert float(MAIN_CABLE.solve(given)["main_lost_w"]) == pytest.approx(18)


def test_new_inputs_are_explained():
    for name in ("low_12v_v", "cable_run_m", "cable_mm2", "joints_ohm", "fuse_ohm"):
        assert len(label_of(name)) > 10


# ---- problems


def test_every_bug_in_focus_is_in_several_slots():
    for id_ in FOCUS:
        assert len({s.id for s in OWN for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}) >= 4, id_


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


def test_kinds_and_their_number():
    practice = [s for s in OWN if re.fullmatch(r"L02-(\d|explore|slip|pick)", s.id)]
    kinds = sorted(s.kind for s in practice)
    assert kinds == sorted(["work"] * 3 + ["rise", "pick", "knob", "slip", "choose", "choose"])


def grid_of(template):
    for values in product(*template.grids.values()):
        yield Problem(template, {**template.given, **dict(zip(template.grids, values, strict=True))}, "grid")


def test_no_number_lies_near_a_step_of_the_bank_voltage():
    """Working from rounded figures would otherwise change the bank."""
    chosen = [t for s in OWN for t in s.templates if "voltage_suggested_v" in t.sheet]
    assert len(chosen) >= 4
    for template in chosen:
        for problem in grid_of(template):
            least = float(problem.key["voltage_least_v"])
            assert least < 48
            assert min(abs(least / step - 1) for step in VOLTAGE_STEPS.y) > 0.015, (template.title, least)


def test_whatever_slip_is_planted_can_be_told_on_every_page():
    for template in (t for s in OWN for t in s.templates if isinstance(s, Slip)):
        lines = list(template.sheet)
        for problem in grid_of(template):
            assert template.passes(problem)
            for made, line in template._choices():
                written = Step(line).value_in(made.in_sheet(template.sheet, line).solve(problem.given))
                above = {n: problem.key[n] for n in lines[: lines.index(line)]}
                assert explain(problem, Step(line), written, above) == ((made.id,),), (template.title, made.id)


def test_the_cheapest_offer_may_be_bound_by_any_of_the_three():
    place = slots()["L02-pick"]
    judged = [p.slot.judged(p) for p in (draw(place, n) for n in range(40))]
    assert {j.binding(j.best).name for j in judged} == {
        "inverter_margin_w",
        "voltage_margin_a",
        "inverter_drop_margin_frac",
    }


def test_voltage_is_the_strongest_knob_and_lowers_the_heat():
    place = slots()["L02-4"]
    lasts = set()
    for problem in (draw(place, n) for n in range(12)):
        effect, ranked = place.elasticity(problem), place.ranked(problem)
        assert ranked[:3] == ["bank_voltage_v", "peak_w", "cable_run_m"]
        assert effect["bank_voltage_v"] == pytest.approx(-2, abs=0.02)
        lasts.add(ranked[-1])
    assert lasts == {"joints_ohm", "fuse_ohm"}


def test_the_entry_check_asks_for_the_outcomes_that_are_numbers():
    asked = [{step.line for step in s.asked} for s in OWN if s.quiz == "entry"]
    for line in ("inverter_input_a", "day_ah", "raised_lost_w", "voltage_suggested_v"):
        assert any(line in each for each in asked), line


def test_screens_find_numbers_without_the_curated_ones():
    for template in (t for s in OWN for t in s.templates if t.grids):
        hollow = replace(template, curated={}, starts_curated=False, others=())
        assert all(set(template.grids) <= set(draw(hollow, n).given) for n in range(10)), template.title


def test_curves_are_finite_over_the_whole_panel(hut):
    for view in (panel_of(hut, cable_mm2=1.5, inverter_rated_w=5000, cable_run_m=20).result, panel_of(hut).result):
        assert all(np.all(np.isfinite(view.curve[n])) for n in ("inverter_input_a", "inverter_lost_w"))
