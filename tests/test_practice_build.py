"""Build it: every rule can be broken alone, a copied number is seen, each mistake is asked about, and the year counts.

No outside source: briefs, parts and prices are invented. What is held to is the marking rule (four groups, nothing
where a rule of safety is broken) and the meaning of its words; limits and year are tested where they stand.
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
from offgrid_core.practice import Answer, draw, mark, slot
from offgrid_core.practice.building import built
from offgrid_core.practice.building_design import judged_by, mistaken
from offgrid_core.practice.building_rules import RULES, SAFETY, WORKED
from offgrid_core.practice.kinds.build_marks import Marking
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.words import TEXT
from offgrid_core.quantities import Settings
from offgrid_core.sizing import chain
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.system import parse_plan, size
from offgrid_core.year.outcome import drawn_weather, follow

#: The farm of the last lesson, by itself and under a name of its own.
SLOT = replace(slot("L14-build"), id="L99-build", others=(), curated={})
PLAN = SLOT.plan

# ---- other briefs, for what this one does not have

WIDE = replace(SLOT, id="L99-build-wide", offered={}, plan=PLAN + "bank_current_max_a = 90\n", mistakes=("TE-14",))
GENERATOR = replace(
    WIDE,
    id="L99-build-generator",
    plan=PLAN.replace("bank_voltage_v = 24", "bank_voltage_v = 48")
    + "inverter_eff_frac = 0.85\n[generator]\nrated_w = 4000\nrated_va = 5000\ncharger_a = 30\n",
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
LIMITS = {n for s in (chain(), CIRCUITS, PROTECTION, DEVICES) for n in s if s[n].severity}
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
    return {name: [draw(slot, attempt) for attempt in range(3 if slot is SLOT else 1)] for name, slot in SLOTS.items()}


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
    with pytest.raises(OffgridError, match="no design of the parts on offer"):
        poor.passes(replace(problems["slot"][0], slot=poor))
    # the lowest voltage of this bank is within two per cent of its nominal voltage
    blind = replace(SLOT, mistakes=("BV-05",))
    assert not blind.passes(replace(problems["slot"][0], slot=blind))
    assert replace(blind, mistakes=()).passes(problems["slot"][0])
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


def by_hand(problem, form):
    """Return {rule: kept}, worked from the numbers on the form and in the catalogue by plain arithmetic."""
    given, brief = problem.given, SLOT.brief(problem)
    of = {n: brief.part(n, form[n]) for n in ("battery_unit", "module", "controller", "inverter")}
    unit, module, controller, inverter = of.values()
    volts, strings, series = (form[n] for n in ("bank_voltage_v", "strings_count", "modules_in_series_count"))
    count, side = form["array_strings_count"], form["controllers_count"]
    code, site = data.code_setting("iec_style"), data.site(given["site"])
    coldest = series * module.voc_v * (1 + module.voc_temp_per_k * (site.coldest_c - 25))
    hottest = series * module.vmp_v * (1 + module.power_temp_per_k * (max(site.air_temp_by_month_c) + 12 + 32 - 25))
    charge, ah = series * count * module.module_w / volts, strings * unit.unit_ah
    each = charge * math.ceil(count / side) / count
    day = 90 * 24 * given["duty_frac"] + 8 * 7 * given["lamps_h"] * 1.3 + 370 * 0.5
    energy = day / inverter.efficiency_frac + 24 * inverter.idle_w
    left = float(data.capacity_kept("flooded")(given["battery_temp_c"]))
    needed = energy * given["autonomy_days"] / given["depth_frac"] / left / volts
    most = volts / 2 * (2.45 - 0.005 * (given["battery_temp_c"] - 25))
    ambient = float(code.ambient_factor(given["ambient_c"]))
    cost = volts / unit.unit_v * strings * unit.cost + series * count * module.cost
    kept = {
        "inverter_bank_margin_v": inverter.bank_v == volts,
        "controller_bank_margin_v": volts in controller.banks_v,
        "cold_voltage_margin_v": coldest <= controller.voltage_max_v,
        "hot_voltage_margin_v": hottest >= most + controller.pv_margin_v,
        "bank_margin_ah": ah >= needed,
        "charge_ceiling_margin_a": charge <= 0.13 * ah,
        "charge_floor_margin_a": charge >= 0.05 * ah,
        "unit_charge_margin_a": charge <= strings * unit.charge_limit_a,
        "controller_each_margin_a": each * 1.25 <= controller.rated_a,
        "inverter_margin_w": inverter.rated_w >= 1.25 * (90 + 56 + 370),
        "surge_margin_w": inverter.surge_w >= 90 + 56 + 370 + 3 * 370,
        "inverter_margin_va": inverter.rated_va >= 90 / 0.7 + 56 + 370 / 0.8,
        "strings_margin_count": strings <= 3,
        "controllers_margin_count": side <= 4,
        "daily_depth_margin_frac": energy <= 0.25 * ah * volts * left,
        "parts_cost": cost + side * controller.cost + inverter.cost <= brief.budget,
    }
    for i in (1, 2):
        cable, fuse, device = (form[f"{n}.{i}"] for n in ("cable_by_row_mm2", "fuse_by_row_a", "device"))
        part = brief.part("device", device)
        carries = float(code.ampacity_of(cable))
        kept[f"fuse_margin_by_row_a.{i}"] = fuse <= carries * ambient
        kept[f"fuse_limit_margin_by_row_a.{i}"] = fuse <= carries
        kept[f"device_size_margin_by_row_a.{i}"] = part.size_from_a <= fuse <= part.size_to_a
    one = math.ceil(count / side) * module.isc_a
    kept["fuse_current_margin_by_row_a.1"] = form["fuse_by_row_a.1"] >= one * 1.25
    hot = (234.5 + 70) / (234.5 + 20)
    drop = 2 * 12 * one * float(code.resistance_of(form["cable_by_row_mm2.1"])) * hot
    kept["drop_margin_by_row_frac.1"] = drop <= 0.03 * hottest * 12 / (12 + 3)  # 3 m of module string share it
    kept["device_voltage_margin_by_row_v.1"] = brief.part("device", form["device.1"]).dc_voltage_v >= coldest
    return kept


def changed(problem, form, rng):
    """Return a form in which one to three choices are others."""
    brief, code = SLOT.brief(problem), data.code_setting("iec_style")
    others = {"fuse_by_row_a": code.fuse_size.y, "cable_by_row_mm2": list(code.size_labels), "bank_voltage_v": [12, 48]}
    entries = [e for e in brief.entries if e.sort != WORKED and (e.name != "bank_voltage_v" or rng.random() < 0.2)]
    form = dict(form)
    for i in rng.choice(len(entries), rng.integers(1, 4), replace=False):
        e = entries[i]
        values = [p.key for p in brief.offer(e.name)] if e.sort == "part" else others.get(e.name, [1, 2, 3, 4, 6])
        value = values[rng.integers(len(values))]
        form[e.id] = value if isinstance(value, str) else float(value)
    return form


def test_rules_are_those_of_plain_arithmetic(problems):
    rng = np.random.default_rng(5)
    seen = {}
    for n in range(90):
        problem = problems["slot"][n % 3]
        form = changed(problem, SLOT.brief(problem).feasible[n % 2].entries, rng)
        answers = SLOT.solution(problem, Settings())
        answers |= {i: Answer(v if isinstance(v, str) else f"{v:g}") for i, v in form.items()}
        rules = marking(SLOT, problem, answers).rules
        unfit = not (rules["inverter_bank_margin_v"] and rules["controller_bank_margin_v"])
        for rule, kept in by_hand(problem, form).items():
            if rules[rule] is None:
                assert unfit or "by_row" in rule, rule
            else:
                assert rules[rule] == kept, (rule, form)
                seen.setdefault(rule, set()).add(kept)
    assert sum(s == {True, False} for s in seen.values()) >= 20, seen


def test_the_score_is_the_weighed_share_of_the_rules_kept(problems):
    rng = np.random.default_rng(8)
    scores = set()
    for n in range(30):
        problem = problems["slot"][n % 3]
        form = changed(problem, SLOT.brief(problem).feasible[0].entries, rng)
        answers = SLOT.solution(problem, Settings())
        answers |= {i: Answer(v if isinstance(v, str) else f"{v:g}") for i, v in form.items()}
        rules, groups = marking(SLOT, problem, answers).rules, SLOT.brief(problem).rules
        wanted = 0.0
        for group, share in (("safety", 0.35), ("energy", 0.3), ("equipment", 0.25), ("economy", 0.1)):
            kept = [rules[i] for i, r in groups.items() if r.group == group]
            wanted += share * kept.count(True) / len(kept)
            if group == "safety" and False in kept:
                wanted = -100
        marks = mark(problem, answers)
        assert marks.score == pytest.approx(max(0, wanted))
        assert sum(said.count("?") for said in marks.feedback) <= 1
        assert len(marks.question.split()) <= 30
        scores.add(round(marks.score, 3))
    assert 0 in scores
    assert len(scores) > 8


def test_less_array_loses_more_of_the_load_and_the_year_is_that_of_the_form(problems):
    problem = problems["wide"][0]
    brief = WIDE.brief(problem)
    form = dict(brief.feasible[0].entries)
    lost = [built(brief, form | {"array_strings_count": float(n)}).outcome["loss_energy_frac"] for n in (4, 2, 1)]
    small = built(brief, form | {"module": "module_50w_36cell", "array_strings_count": 1.0})
    assert [*lost, small.outcome["loss_energy_frac"]] == sorted([*lost, small.outcome["loss_energy_frac"]])
    assert small.outcome["loss_energy_frac"] > 0.1
    year = follow(small.design, brief.weather)
    assert small.outcome["lowest_charge_frac"] == float(np.min(year.years.totals["lowest_charge_frac"]))


# ---- what is blank, what was copied


@every_slot
def test_a_blank_is_never_wrong_and_hides_nothing_of_the_rest(slot, problems):
    """Any part of a sound form, also of one that is not the solution, is right as far as it goes."""
    rng = np.random.default_rng(2)
    problem = problems[next(n for n, s in SLOTS.items() if s is slot)][0]
    for n in range(45):
        form = typed(slot, problem, slot.brief(problem).feasible[n % 3].entries)
        kept = {i: a for i, a in form.items() if rng.random() < (0.5, 0.8, 0.95)[n // 3 % 3]}
        judged = marking(slot, problem, kept)
        assert False not in judged.rules.values(), [r for r, k in judged.rules.items() if k is False]
        marks = mark(problem, kept)
        assert {m.verdict for m in marks.fields} <= {"right", "moot", "unanswered"}
        assert [m.id for m in marks.fields if m.verdict == "unanswered"] == [i for i in form if i not in kept]
        assert marks.finished == (len(kept) == len(form))
        assert marks.question == ""
    assert mark(problem, {}).score == 0
    assert len(mark(problem, {}).feedback) == 1


def margins(form):
    """Return {rule: margin} of every limit of a form as built."""
    found = {}
    for solved in judged_by(form.design):
        for name, line in solved.sheet.items():
            rows = [form.design.circuit_names.index(c) for c in form.brief.circuits] if "by_row" in name else [None]
            if line.severity:
                values = {f"{name}.{i}" if row is not None else name: row for i, row in enumerate(rows, 1)}
                found |= {k: float(solved[name] if r is None else solved[name][r]) for k, r in values.items()}
    return {k: v for k, v in found.items() if k in form.brief.rules}


def test_a_limit_hangs_on_nothing_but_what_its_rule_needs(problems):
    """One entry is changed at a time: the margin of a rule that does not need it stays."""
    brief = WIDE.brief(problems["wide"][0])
    sound, seen = margins(brief.sound), set()
    assert sound.keys() == {i for i, r in brief.rules.items() if r.name in LIMITS}
    for e in (e for e in brief.entries if e.sort != WORKED):
        values = {"fuse_by_row_a": [10, 125], "cable_by_row_mm2": [10, 70], "bank_voltage_v": [12]}.get(e.name, [2, 4])
        for value in [p.key for p in brief.offer(e.name)] if e.sort == "part" else map(float, values):
            other = built(brief, {**brief.sound.entries, e.id: value})
            if other.design is None or not other.is_wired:
                continue
            for id_, margin in margins(other).items():
                needs, place = brief.rules[id_].needs, int(id_.partition(".")[2] or 0)
                wire = "circuits" in needs or ("wiring" in needs and e.place == place)
                if not (wire if e.section == "wiring" else e.section in needs):
                    assert margin == pytest.approx(sound[id_], rel=1e-12), (id_, e.id)
                    seen.add((id_, e.section))
    assert len(seen) > 90


def test_numbers_follow_from_the_form_and_a_copied_one_does_not(problems):
    problem = problems["slot"][0]
    first, second = (typed(SLOT, problem, SLOT.brief(problem).feasible[n].entries) for n in (0, 1))
    copied = [i for i in ("array_w", "charge_current_a", "inverter_input_a", "bank_ah") if first[i] != second[i]]
    assert copied
    for id_ in copied:
        assert mark(problem, first | {id_: second[id_]}).of(id_).verdict == "unexplained", id_
    # a current that goes with another power than the one on the form; and one that follows from it
    power, volts = float(first["array_w"].text), float(first["bank_voltage_v"].text)
    wrong = first | {"array_w": Answer(f"{power * 1.5:g}", "W")}
    marks = mark(problem, wrong)
    assert (marks.of("array_w").verdict, marks.of("charge_current_a").verdict) == ("unexplained", "inconsistent")
    own = wrong | {"charge_current_a": Answer(f"{power * 1.5 / volts:.4g}", "A")}
    assert mark(problem, own).of("charge_current_a").verdict == "right"
    assert not mark(problem, own).finished


def test_parts_that_do_not_go_together_leave_the_rest_unjudged(problems):
    problem = problems["wide"][0]
    answers = WIDE.solution(problem, Settings()) | {"inverter": Answer("inverter_48v_900w")}
    marks = mark(problem, answers)
    assert marks.score == 0
    assert marks.of("inverter").verdict == "unexplained"
    assert marks.of("array_w").verdict == "moot"
    assert marks.question == TEXT["build_ask.inverter_bank_margin_v"]


def test_what_cannot_be_built_is_to_be_entered_again(problems):
    problem = problems["generator"][0]
    sound = GENERATOR.solution(problem, Settings())
    for id_, text in (
        ("bank_voltage_v", "30"), ("strings_count", "1.5"), ("strings_count", "0"), ("array_strings_count", "100"),
        ("fuse_by_row_a.1", "61"), ("cable_by_row_mm2.2", "11"), ("charger_rated_a", "0"), ("array_w", "1,234"),
        ("generator_rated_w", "-5"),
    ):  # fmt: skip
        marks = mark(problem, sound | {id_: Answer(text)})
        assert marks.of(id_).verdict == "reenter", (id_, text)
        assert marks.of(id_).reason in marks.question
        assert not marks.finished
    assert mark(problem, sound | {"strings_count": Answer(" \t")}).of("strings_count").verdict == "unanswered"


# ---- mistakes


def test_each_mistake_is_named_and_its_question_asked(problems):
    for problem, id_ in ((p, i) for p in problems["slot"] for i in SLOT.mistakes):
        made = mistake(id_)
        form = SLOT.slipped(problem, id_, Settings())
        marks = mark(problem, form)
        assert marks.mistakes == (id_,), (id_, marks.feedback)
        assert marks.question == made.question
        assert any(made.question in said for said in marks.feedback)
        assert not marks.finished
        assert form != SLOT.solution(problem, Settings())
    assert SLOT.tempting(problems["slot"][0]) == SLOT.mistakes


def test_a_mistake_that_would_change_nothing_is_not_named(problems):
    slot = replace(WIDE, mistakes=("TE-03",))
    warm = replace(
        problems["wide"][0], slot=slot, given={**problems["wide"][0].given, "battery_temp_c": 25, "autonomy_days": 8}
    )
    brief = slot.brief(warm)
    form = dict(brief.feasible[0].entries) | {"battery_unit": "flooded_12v_85ah"}
    needed = math.ceil(built(brief, form).design.system["bank_needed_ah"] / 85)
    assert needed > 3
    answers = typed(slot, warm, form | {"strings_count": float(needed)}) | {"bank_needed_ah": Answer()}
    assert mark(warm, answers).of("strings_count").verdict == "unexplained"
    cabin = problems["lithium"][0]
    answers = LITHIUM.solution(cabin, Settings()) | {"strings_count": Answer("90")}
    design = marking(LITHIUM, cabin, answers).built.design
    answers["device.3"] = Answer(mistaken(design, None).devices[design.circuit_names.index("bank to DC loads")].key)
    judged = marking(LITHIUM, cabin, answers)
    assert judged.rules["device_interrupting_margin_by_row_a.3"] is False, "no device on offer is enough"
    assert mark(cabin, answers).of("device.3").verdict == "unexplained"


def test_the_worst_is_asked_about_first(problems):
    problem = problems["slot"][0]
    sound = SLOT.solution(problem, Settings())
    damage = SLOT.slipped(problem, "TE-03", Settings())
    thin = TEXT["build_ask.fuse_margin_by_row_a"].format(circuit="Bank to inverter")
    assert mark(problem, damage).question == mistake("TE-03").question
    assert mark(problem, damage | {"cable_by_row_mm2.2": Answer("1.5")}).question == thin
    dear = sound | {"controllers_count": Answer("5")}
    assert "set alike" in mark(problem, dear).question
    assert mark(problem, dear | {"cable_by_row_mm2.2": Answer("1.5")}).question == thin


def test_questions_ask_and_tell_nothing():
    for key, text in TEXT.items():
        if key.startswith("build_ask."):
            assert text.count("?") == 1, key
            assert text.endswith("?"), key
            assert len(text.split()) <= 26, key  # the name of a circuit may come before it
            assert not {"you", "your", "good", "wrong", "multiply", "divide", "add", "subtract"} & set(text.split()), (
                key
            )
    names = {r.name for r in RULES} - {r.name for r in RULES if r.name == r.at}
    assert {k.partition(".")[2] for k in TEXT if k.startswith("build_ask.")} == names


# ---- what every kind has to stand


def test_hostile_text_is_re_entered_or_judged(problems, monkeypatch):
    problem = problems["slot"][0]
    monkeypatch.setattr(kind_checks, "NASTY", ["9**9**9"])
    hostile(problem)
    fields, sound = SLOT.fields(problem, Settings()), SLOT.solution(problem, Settings())
    for n, text in enumerate(NASTY):
        for f in fields[n % 3 :: 3]:
            for answers in ({f.id: Answer(text, f.unit)}, sound | {f.id: Answer(text, text[:70])}):
                marks = mark(problem, answers)
                assert 0 <= marks.score <= 1
                assert [m.id for m in marks.fields] == [f.id for f in fields]
    everywhere = {f.id: Answer("__import__('os')", "W") for f in fields}
    assert {m.verdict for m in mark(problem, everywhere).fields} == {"reenter", "unanswered"}


def test_one_question_and_no_judgement_of_the_person(problems):
    problem = problems["slot"][0]
    sound = SLOT.solution(problem, Settings())
    for change in ({}, {"array_w": Answer("9", "W")}, {"strings_count": Answer("20")}, {"device.1": Answer("")}):
        one_question(mark(problem, sound | change))


@pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "us comma"])
def test_on_the_card_every_entry_can_be_typed(tmp_path, chosen):
    card = on_card(SLOT, tmp_path, chosen)
    card.slip("CC-03")
    card.check()
    assert mistake("CC-03").question in card.feedback


@every_slot
def test_on_paper(slot):
    paper = on_paper(slot)
    assert "Battery units on offer" in paper
    if slot is not LITHIUM:
        assert "January" in paper


def test_the_solution_is_shown_worked(problems):
    rows = SLOT.worked(problems["slot"][0], Settings())
    assert len(rows) == 26 + 4
    assert any("÷" in how for _, how, _ in rows)
    assert all(value for _, _, value in rows)


def test_a_new_design_is_marked_within_a_second_and_twice_the_same(problems):
    problem = problems["slot"][1]
    form = SLOT.solution(problem, Settings()) | {"array_strings_count": Answer("5"), "strings_count": Answer("3")}
    begun = time.perf_counter()
    first = mark(problem, form)
    assert time.perf_counter() - begun < 1
    assert first == mark(draw(SLOT, 1), form)
