"""Build it: every rule can be broken alone, a copied number is seen, each mistake is asked about, and the year counts.

No outside source: briefs, parts and prices are invented. What is held to is the marking rule (four groups, nothing where
a rule of safety is broken) and the meaning of its words; limits and year are tested where they stand.
"""

import math
import time
from dataclasses import replace
from string import Template

import kind_checks
import numpy as np
import pytest
from kind_checks import NASTY, US_COMMA, hostile, on_card, on_paper, one_question

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, draw, mark
from offgrid_core.practice.building import built
from offgrid_core.practice.building_rules import RULES, SAFETY, WORKED
from offgrid_core.practice.kinds import Build
from offgrid_core.practice.kinds.build_marks import Marking
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.words import TEXT
from offgrid_core.quantities import Settings
from offgrid_core.system import parse_plan, size
from offgrid_core.year.outcome import drawn_weather, follow

PLAN = """
title = "Farm workshop"

[site]
name = "$site"
tilt_deg = $tilt_deg

[choices]
bank_voltage_v = 24
autonomy_days = $autonomy_days
depth_frac = $depth_frac
battery_temp_c = $battery_temp_c
chemistry = "flooded"

[[load]]
name = "fridge"
bus = "AC"
power_w = 90
hours_h = 24
duty_frac = $duty_frac
start_factor = 5
power_factor_ratio = 0.7

[[load]]
name = "lamps"
bus = "AC"
count = 8
power_w = 7
hours_h = $lamps_h
season_frac = [1.3, 1.2, 1, 0.9, 0.8, 0.7, 0.7, 0.8, 1, 1.1, 1.2, 1.3]

[[load]]
name = "water pump"
bus = "AC"
power_w = 370
hours_h = 0.5
start_factor = 4
power_factor_ratio = 0.8

[circuits]
code = "iec_style"
array_m = 12
inverter_m = 2

[assume]
ambient_c = $ambient_c
"""
SLOT = Build(
    id="L99-build",
    title="Build it",
    statement="A farm wants light, a fridge and water without the grid. Enter a whole design that keeps every rule.",
    hint="Which entry has been worked from other parts than those now on the form?",
    principle="Work from the loads to the bank, from the bank and the darkest month to the array, then outwards; each "
    "part is held to the worst that can happen to it.",
    plan=PLAN,
    offered={"battery_unit": 5, "module": 6, "controller": 5, "inverter": 6},
    wishes=("loss_most_frac", "lowest_wanted_frac", "life_wanted_years"),
    grids={
        "site": ("chicago", "swift_current", "golden", "brasov"),
        "tilt_deg": (50, 55, 60, 65),
        "autonomy_days": (2.5, 3, 3.5, 4),
        "depth_frac": (0.55, 0.6, 0.65, 0.7),
        "battery_temp_c": (-10, -8, -5, -2),
        "duty_frac": (0.25, 0.3, 0.35, 0.4),
        "lamps_h": (4, 5, 6),
        "ambient_c": (40, 45, 50),
        "loss_most_frac": (0.01, 0.015, 0.02),
        "lowest_wanted_frac": (0.35, 0.4),
        "life_wanted_years": (5, 6),
    },
    mistakes=("CC-03", "CC-18", "TE-14", "BV-03", "OP-16", "WI-15", "TE-03", "AR-03"),
)
# ---- other briefs, for what this one does not have

WIDE = replace(SLOT, id="L99-build-wide", offered={}, plan=PLAN + "bank_current_max_a = 90\n", mistakes=("TE-14",))
GENERATOR = replace(
    WIDE,
    id="L99-build-generator",
    plan=PLAN.replace("bank_voltage_v = 24", "bank_voltage_v = 48")
    + "[generator]\nrated_w = 4000\nrated_va = 5000\ncharger_a = 30\n",
    circuits=("controller to bank", "bank to inverter"),
    wishes=("loss_most_frac", "generator_most_h", "life_wanted_years"),
    grids=SLOT.grids | {"site": ("fell_hut", "chicago"), "tilt_deg": (60, 65), "generator_most_h": (20, 30)},
    mistakes=("CC-03", "TE-03"),
)
LITHIUM = replace(
    WIDE,
    id="L99-build-lithium",
    plan=PLAN.replace("flooded", "lfp").replace('"AC"', '"DC"').replace("power_w = 370", "power_w = 120"),
    circuits=("module string", "array to controller", "bank to DC loads"),
    grids=SLOT.grids | {"battery_temp_c": (3, 5, 8)},
    mistakes=("CC-03", "CC-18", "TE-03"),
)
SLOTS = {"slot": SLOT, "wide": WIDE, "generator": GENERATOR, "lithium": LITHIUM}
every_slot = pytest.mark.parametrize("slot", SLOTS.values(), ids=SLOTS)

#: Rule = the brief and what is changed on a sound form to break it. A circuit's own change has its place.
BREAKS = {
    "inverter_bank_margin_v": ("wide", {"inverter": "inverter_12v_1200w"}),
    "controller_bank_margin_v": ("generator", {"controller": "tracking_28a_90v"}),
    "series_margin_count": ("lithium", {"battery_unit": "lfp_48v_105ah"}),
    "units_in_series_count": ("wide", {"units_in_series_count": 3}),
    "cold_voltage_margin_v": ("wide", {"modules_in_series_count": 15}),
    "module_fuse_margin_a": ("lithium", {"array_strings_count": 12, "fuse_by_row_a.1": 100}),
    "fuse_margin_by_row_a.2": ("wide", {"cable_by_row_mm2.2": 1.5}),
    "fuse_limit_margin_by_row_a.1": ("wide", {"fuse_by_row_a.1": 250}),
    "device_voltage_margin_by_row_v.1": ("wide", {"device.1": "fuse_32v_1000a"}),
    "device_interrupting_margin_by_row_a.2": ("wide", {"device.2": "fuse_32v_1000a"}),
    "peak_w": ("wide", {"peak_w": 400}),
    "dc_peak_w": ("lithium", {"dc_peak_w": 99}),
    "energy_day_wh": ("wide", {"energy_day_wh": 900}),
    "bank_needed_ah": ("wide", {"bank_needed_ah": 99}),
    "bank_ah": ("wide", {"bank_ah": 99}),
    "array_needed_w": ("wide", {"array_needed_w": 99}),
    "array_w": ("wide", {"array_w": 99}),
    "bank_margin_ah": ("wide", {"battery_unit": "flooded_12v_85ah", "strings_count": 1}),
    "rate_margin_ah": ("wide", {"battery_unit": "flooded_12v_85ah", "strings_count": 1}),
    "array_margin_w": ("wide", {"module": "module_20w_36cell"}),
    "drop_margin_by_row_frac.2": ("wide", {"cable_by_row_mm2.2": 1.5}),
    "loss_energy_frac": ("wide", {"module": "module_50w_36cell"}),
    "lowest_charge_frac": ("wide", {"module": "module_50w_36cell"}),
    "generator_ran_h": ("generator", {"module": "module_50w_36cell"}),
    "absorb_set_v": ("wide", {"absorb_set_v": 29.4}),
    "daily_depth_margin_frac": ("wide", {"battery_unit": "flooded_12v_85ah", "strings_count": 1}),
    "discharge_margin_a": ("wide", {"battery_unit": "flooded_12v_85ah", "strings_count": 1}),
    "string_voc_cold_v": ("wide", {"string_voc_cold_v": 20}),
    "hot_voltage_margin_v": ("wide", {"module": "module_50w_36cell", "modules_in_series_count": 1}),
    "charge_floor_margin_a": ("wide", {"module": "module_20w_36cell"}),
    "charge_ceiling_margin_a": ("wide", {"array_strings_count": 20}),
    "unit_charge_margin_a": ("wide", {"array_strings_count": 20}),
    "charge_current_a": ("wide", {"charge_current_a": 9}),
    "controller_each_margin_a": ("wide", {"array_strings_count": 20}),
    "inverter_margin_w": ("wide", {"inverter": "inverter_24v_450w"}),
    "inverter_margin_va": ("wide", {"inverter": "inverter_24v_450w"}),
    "heat_margin_w": ("wide", {"inverter": "inverter_24v_450w"}),
    "surge_margin_w": ("wide", {"inverter": "inverter_24v_450w"}),
    "cutoff_margin_v": (
        "wide", {"inverter": "inverter_24v_3200w", "battery_unit": "flooded_12v_85ah", "strings_count": 1}
    ),
    "inverter_input_a": ("wide", {"inverter_input_a": 9}),
    "voltage_margin_a": ("wide", {"inverter": "inverter_24v_3200w"}),
    "fuse_current_margin_by_row_a.2": ("wide", {"fuse_by_row_a.2": 2}),
    "device_size_margin_by_row_a.1": ("wide", {"device.1": "fuse_80v_3000a"}),
    "generator_margin_va": ("generator", {"generator_rated_va": 500}),
    "generator_margin_w": ("generator", {"generator_rated_w": 400}),
    "loading_margin_frac": ("generator", {"generator_rated_w": 90000}),
    "strings_margin_count": ("wide", {"strings_count": 4}),
    "controllers_margin_count": ("wide", {"controllers_count": 5}),
    "parts_cost": ("wide", {"strings_count": 20}),
    "bank_life_years": ("generator", {"battery_unit": "flooded_12v_85ah", "strings_count": 1}),
}  # fmt: skip


@pytest.fixture(scope="module")
def problems():
    return {name: [draw(slot, attempt) for attempt in range(3)] for name, slot in SLOTS.items()}


def typed(slot, problem, entries, settings=Settings(), figures=4):  # noqa: B008
    """Return a form typed out: numbers that follow are those of the design as built, the rest as in ``entries``."""
    brief = slot.brief(problem)
    design = built(brief, entries).design
    answers = slot.solution(problem, settings)
    for e in brief.entries:
        if e.sort == "part":
            answers[e.id] = Answer(entries[e.id])
        else:
            value = e.number_in(design) if e.sort == WORKED else entries[e.id]
            text = f"{float(value):.{figures}g}" if e.sort == WORKED else f"{float(value):g}"
            answers[e.id] = Answer(text.replace(".", settings.decimal), "")
    return answers


def marking(slot, problem, answers):
    return Marking(slot, slot.brief(problem), answers, Settings())


# ---- the brief


@every_slot
def test_three_distinct_designs_keep_every_rule_and_finish(slot, problems):
    for problem in problems[next(n for n, s in SLOTS.items() if s is slot)]:
        brief = slot.brief(problem)
        assert len(brief.feasible) == 3
        assert len({tuple(b.entries.items()) for b in brief.feasible}) == 3
        for each in brief.feasible:
            assert each.outcome["parts_cost"] <= brief.budget
            for settings, figures in ((Settings(), 4), (Settings(), 3), (Settings(decimal=","), 3)):
                marks = mark(problem, typed(slot, problem, each.entries, settings, figures), settings)
                assert (marks.score, marks.finished) == (1, True), marks.feedback
                assert {m.verdict for m in marks.fields} == {"right"}
        for settings in (Settings(), US_COMMA):
            marks = mark(problem, slot.solution(problem, settings), settings)
            assert (marks.score, marks.finished) == (1, True)


def test_the_form_fits_the_brief(problems):
    counts = {n: len(SLOTS[n].fields(p[0], Settings())) for n, p in problems.items()}
    assert counts == {"slot": 26, "wide": 26, "generator": 29, "lithium": 27}
    ids = {n: {f.id.partition(".")[0] for f in SLOTS[n].fields(p[0], Settings())} for n, p in problems.items()}
    assert "charger_rated_a" in ids["generator"] - ids["slot"]
    assert {"inverter", "peak_w", "inverter_input_a"} & ids["lithium"] == set()
    assert "dc_peak_w" in ids["lithium"] - ids["slot"]
    rules = SLOT.brief(problems["slot"][0]).rules
    assert len({r.name for r in rules.values()}) >= 30
    assert len({r.group for r in rules.values()}) == 4


def test_variants_differ_and_the_same_seed_gives_the_same(problems):
    forms = [tuple(SLOT.solution(p, Settings()).items()) for p in problems["slot"]]
    assert len(set(forms)) == 3
    again = draw(SLOT, 1)
    assert SLOT.solution(again, Settings()) == dict(forms[1])
    assert SLOT.tables(again, Settings()) == SLOT.tables(problems["slot"][1], Settings())


def test_a_brief_without_three_designs_or_a_mistake_that_does_not_show_is_refused(problems):
    poor = replace(SLOT, offered={**SLOT.offered, "controller": 1, "module": 1, "battery_unit": 1, "inverter": 1})
    assert not poor.passes(replace(problems["slot"][0], slot=poor))
    # the lowest voltage of this bank is within two per cent of its nominal voltage
    blind = replace(SLOT, mistakes=("BV-05",))
    assert not blind.passes(replace(problems["slot"][0], slot=blind))
    with pytest.raises(OffgridError, match="no wish"):
        replace(SLOT, wishes=("budget_cost",))
    with pytest.raises(OffgridError, match="cannot be filled in"):
        SLOT.brief(replace(problems["slot"][0], given={}))
    far = replace(SLOT, circuits=("bank to moon",))
    with pytest.raises(OffgridError, match="bank to moon"):
        far.brief(replace(problems["slot"][0], slot=far))


@pytest.mark.parametrize("name", ["slot", "generator"])
def test_the_design_is_what_the_core_sizes_from_a_plan_with_these_parts(name, problems):
    """The form's own way to a design, beside the plan's: same counts, currents, cables and same year."""
    slot, problem = SLOTS[name], problems[name][0]
    first = slot.brief(problem).feasible[0]
    parts = {k: v for k, v in first.entries.items() if isinstance(v, str) and not k.startswith("device")}
    series = f"modules_in_series_count = {first.entries['modules_in_series_count']:g}\n"
    more = "[parts]\n" + "".join(f'{k} = "{v}"\n' for k, v in parts.items()) + series
    plan = parse_plan(Template(slot.plan).substitute(problem.given) + more)
    sized = size(plan)
    for line in sized.system:
        if not callable(sized.system[line]):
            assert np.allclose(sized.system[line], first.design.system[line], rtol=1e-12), line
    assert np.allclose(sized.circuits["cable_by_row_mm2"], first.design.circuits["cable_by_row_mm2"])
    year = follow(sized, drawn_weather(sized, 1, 3)).years.totals
    for outcome in ("loss_energy_frac", "lowest_charge_frac", *(["generator_ran_h"] if name == "generator" else [])):
        assert first.outcome[outcome] == pytest.approx(float(year[outcome][0]), abs=1e-12)


# ---- rules


def broken_form(rule, problems):
    """Return slot, problem, and a sound form in which something is changed to break a rule."""
    name, changes = BREAKS[rule]
    slot, problem = SLOTS[name], problems[name][0]
    answers = slot.solution(problem, Settings())
    answers |= {n: Answer(v if isinstance(v, str) else f"{v:g}") for n, v in changes.items()}
    return slot, problem, answers


def test_every_rule_has_a_way_to_break_it():
    assert {r.partition(".")[0] for r in BREAKS} == {r.name for r in RULES}


@pytest.mark.parametrize("rule", BREAKS)
def test_each_rule_once_broken_is_seen(rule, problems):
    slot, problem, answers = broken_form(rule, problems)
    sound = marking(slot, problem, slot.solution(problem, Settings()))
    assert sound.rules[rule] is True
    judged = marking(slot, problem, answers)
    assert judged.rules[rule] is False
    marks = mark(problem, answers)
    assert not marks.finished
    assert marks.question
    assert "?" in marks.question
    kind = slot.brief(problem).rules[rule]
    assert marks.of(judged._at(rule)).verdict in ("unexplained", "mistake", "inconsistent")
    assert marks.score < 1
    broken = {slot.brief(problem).rules[r].group for r, kept in judged.rules.items() if kept is False}
    assert (marks.score == 0) == (SAFETY in broken)
    if kind.group == SAFETY:
        assert marks.score == 0
