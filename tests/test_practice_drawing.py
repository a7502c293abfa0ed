"""Check the drawing: what is broken is what the core's own limits say, and the marks are those of a plain loop."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from kind_checks import NASTY, hostile, on_card, on_paper, one_question

from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, draw, mark, slots
from offgrid_core.practice.kinds import Drawing
from offgrid_core.practice.kinds.drawing import BROKEN, ITEM, KEPT, NONE, UNKNOWN, VALUE
from offgrid_core.quantities import Settings
from offgrid_core.sizing import chain
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.worksheet import Sheet

CHAIN = chain("short", "tracking", False)
RULES = Sheet(
    CHAIN["string_voc_cold_v"],
    CHAIN["cold_voltage_margin_v"],
    CHAIN["controller_each_margin_a"],
    CHAIN["charge_ceiling_margin_a"],
    CIRCUITS["fuse_margin_by_row_a"],
    CIRCUITS["drop_margin_by_row_frac"],
    PROTECTION["fuse_current_margin_by_row_a"],
    DEVICES["device_voltage_margin_by_row_v"],
    DEVICES["device_interrupting_margin_by_row_a"],
)
SLOT = Drawing(
    id="L99-drawing",
    title="Check the drawing",
    statement="Somebody drew an array, a controller, a bank at {bank_voltage_v} and the cable to the loads.",
    hint="Which two numbers does the rule compare?",
    design=Sheet(CIRCUITS["design_current_by_row_a"], CIRCUITS["drop_by_row_v"], CIRCUITS["drop_by_row_frac"]),
    sheet=RULES,
    rows=("controller to bank", "bank to loads"),
    given={
        "bank_voltage_v": 24, "module_voc_v": 46, "voc_temp_per_k": -0.0028, "controller_voltage_max_v": 190,
        "controller_factor": 1.25, "controller_rated_a": 80, "controller_each_a": 55, "charge_current_a": 55,
        "bank_ah": 600, "charge_rate_max_per_h": 0.13, "current_by_row_a": [55, 30],
        "current_by_row_factor": [1.25, 1.25], "fuse_by_row_a": [80, 40], "ampacity_by_row_a": [95, 55],
        "voltage_by_row_v": [24, 24], "resistance_by_row_ohm_m": [0.0008, 0.002], "cables_by_row_count": [1, 1],
        "drop_limit_by_row_frac": [0.02, 0.03], "voltage_most_by_row_v": [31, 31], "fault_by_row_a": [2600, 2600],
        "device_dc_by_row_v": [58, 58], "device_interrupting_by_row_a": [10000, 5000],
    },
    grids={"modules_in_series_count": (2, 3), "air_coldest_c": (-22, -14, -8), "length_by_row_m": ([3, 4], [2, 5])},
    changes={
        "cold_voltage_margin_v": ("controller_voltage_max_v", (60, 80, 100, 120, 150)),
        "controller_each_margin_a": ("controller_rated_a", (45, 60, 65)),
        "charge_ceiling_margin_a": ("bank_ah", (300, 350, 400)),
        "fuse_margin_by_row_a.1": ("fuse_by_row_a.1", (125, 150)),
        "fuse_margin_by_row_a.2": ("fuse_by_row_a.2", (30, 63, 80)),
        "device_voltage_margin_by_row_v.2": ("device_dc_by_row_v.2", (16, 24)),
        "device_interrupting_margin_by_row_a.1": ("device_interrupting_by_row_a.1", (1000, 2000)),
    },
    can_change={
        "controller_voltage_max_v": (50, 1000), "controller_rated_a": (10, 200), "bank_ah": (100, 3000),
        "fuse_by_row_a": (5, 250), "ampacity_by_row_a": (10, 400), "device_dc_by_row_v": (12, 1000),
        "device_interrupting_by_row_a": (500, 50_000),
    },
    left_out={"fault_by_row_a.2": 9000, "ampacity_by_row_a.1": 60, "module_voc_v": 200},
    words={
        "charge_current_a": "charging current", "bank_ah": "bank", "controller_each_a": "current of the controller",
        "fuse_by_row_a": "fuse", "ampacity_by_row_a": "ampacity of the cable as laid",
        "voltage_most_by_row_v": "highest voltage", "fault_by_row_a": "short-circuit current",
    },
)  # fmt: skip
PROBLEMS = [draw(SLOT, attempt) for attempt in range(24)]
DANGERS = {"cold_voltage_margin_v", "fuse_margin_by_row_a", "device_voltage_margin_by_row_v"}
DANGERS |= {"device_interrupting_margin_by_row_a"}


def state_of(problem):
    """Return what is right to say of each rule, worked from the numbers on the drawing by hand."""
    drawn = SLOT.drawn(problem)
    v = drawn.values
    cold = v["modules_in_series_count"] * v["module_voc_v"] * (1 + v["voc_temp_per_k"] * (v["air_coldest_c"] - 25))
    kept = {
        "cold_voltage_margin_v": cold <= v["controller_voltage_max_v"],
        "controller_each_margin_a": v["controller_each_a"] * v["controller_factor"] <= v["controller_rated_a"],
        "charge_ceiling_margin_a": v["charge_current_a"] <= v["bank_ah"] * v["charge_rate_max_per_h"],
    }
    for i in range(2):
        row = {n: np.asarray(x)[i] for n, x in v.items() if "_by_row_" in n}
        kept[f"fuse_margin_by_row_a.{i + 1}"] = row["fuse_by_row_a"] <= row["ampacity_by_row_a"]
        kept[f"drop_margin_by_row_frac.{i + 1}"] = row["drop_by_row_frac"] <= row["drop_limit_by_row_frac"]
        kept[f"fuse_current_margin_by_row_a.{i + 1}"] = row["design_current_by_row_a"] <= row["fuse_by_row_a"]
        kept[f"device_voltage_margin_by_row_v.{i + 1}"] = row["voltage_most_by_row_v"] <= row["device_dc_by_row_v"]
        kept[f"device_interrupting_margin_by_row_a.{i + 1}"] = (
            row["fault_by_row_a"] <= row["device_interrupting_by_row_a"]
        )
    needs = {
        "": None,
        "fault_by_row_a.2": "device_interrupting_margin_by_row_a.2",
        "ampacity_by_row_a.1": "fuse_margin_by_row_a.1",
        "module_voc_v": "cold_voltage_margin_v",
    }
    return {n: UNKNOWN if n == needs[drawn.hidden] else KEPT if ok else BROKEN for n, ok in kept.items()}


def by_hand(state, said):
    """Return the mean of sensitivity and specificity; nothing where a broken danger rule is passed."""
    if any(state[r] == BROKEN and said[r] == KEPT and r.partition(".")[0] in DANGERS for r in state):
        return 0.0
    broken = [said[r] == BROKEN for r in state if state[r] == BROKEN]
    others = [said[r] == state[r] for r in state if state[r] != BROKEN]
    return np.mean([np.mean(x) for x in (broken, others) if x])


def test_drawings_differ_and_break_just_what_was_changed():
    counts = {len(SLOT.drawn(p).planted) for p in PROBLEMS}
    assert counts == {0, 1, 2, 3}
    assert {bool(SLOT.drawn(p).hidden) for p in PROBLEMS} == {True, False}
    for problem in PROBLEMS:
        drawn, state = SLOT.drawn(problem), state_of(problem)
        assert len(state) == 13
        assert {r for r in state if state[r] == BROKEN} == drawn.broken
        assert {r for r in state if state[r] == UNKNOWN} == drawn.unknown
        assert len(drawn.broken) == len(drawn.planted)
        assert any(r.partition(".")[0] in DANGERS and s != UNKNOWN for r, s in state.items())
        assert KEPT in state.values()


def test_a_drawing_that_is_unsound_before_it_is_changed_is_refused():
    assert not any(SLOT.passes(replace(p, given={**p.given, "controller_voltage_max_v": 70})) for p in PROBLEMS)
    harmless = replace(SLOT, sheet=Sheet(RULES["charge_ceiling_margin_a"]), changes={}, left_out={})
    assert not harmless.passes(replace(PROBLEMS[0], slot=harmless)), "no danger rule in it"


def test_a_change_that_would_break_another_rule_too_is_not_made():
    again = RULES["charge_ceiling_margin_a"].renamed("again_margin_a", "the same again")
    double = replace(SLOT, sheet=RULES + Sheet(again), changes={"charge_ceiling_margin_a": ("bank_ah", (300,))})
    assert not any(double.drawn(replace(p, slot=double)).planted for p in PROBLEMS)
    single = replace(SLOT, changes={"charge_ceiling_margin_a": ("bank_ah", (300,))})
    assert any(single.drawn(replace(p, slot=single)).planted for p in PROBLEMS)


def test_the_solution_is_right_in_every_variant():
    for problem in PROBLEMS:
        marks = mark(problem, SLOT.solution(problem, Settings()))
        assert (marks.score, marks.finished) == (1, True)
        assert {f.verdict for f in marks.fields} == {"right"}


def test_marks_are_those_of_a_plain_loop():
    rng = np.random.default_rng(3)
    scores = set()
    for problem, _ in itertools.product(PROBLEMS, range(15)):
        state = state_of(problem)
        said = {r: str(rng.choice([KEPT, BROKEN, UNKNOWN])) if rng.random() < 0.2 else s for r, s in state.items()}
        solution = SLOT.solution(problem, Settings())
        marks = mark(problem, {**solution, **{r: Answer(t) for r, t in said.items()}})
        assert marks.score == pytest.approx(by_hand(state, said))
        assert marks.finished == (said == state)
        one_question(marks)
        scores.add(marks.score)
    assert 0 in scores
    assert len(scores) > 10


def test_one_change_mends_one_rule_and_breaks_no_other():
    tried = 0
    for problem in PROBLEMS:
        drawn, solution = SLOT.drawn(problem), SLOT.solution(problem, Settings())
        if not drawn.planted:
            other = {**solution, ITEM: Answer("bank_ah"), VALUE: Answer("900", "Ah")}
            assert mark(problem, other).of(ITEM).verdict == "unexplained", "there is nothing to mend"
            continue
        assert mark(problem, {**solution, ITEM: Answer(NONE)}).of(ITEM).verdict == "unexplained"
        assert mark(problem, {k: a for k, a in solution.items() if k != VALUE}).finished is False
        if "fuse_by_row_a.2" in drawn.planted:
            for fuse, verdict in (("40", "right"), ("25", "unexplained"), ("100", "unexplained")):
                mended = {**solution, ITEM: Answer("fuse_by_row_a.2"), VALUE: Answer(fuse, "A")}
                assert mark(problem, mended).of(VALUE).verdict == verdict, fuse
            tried += 1
    assert tried


def repaired(problem, item, value, unit):
    """Return the marks of somebody who judges every rule rightly and changes this item."""
    solution = problem.slot.solution(problem, Settings())
    return mark(problem, {**solution, ITEM: Answer(item), VALUE: Answer(value, unit)})


DRAWINGS = [s for s in slots().values() if isinstance(s, Drawing)]


@pytest.mark.parametrize("slot", DRAWINGS, ids=lambda s: s.id)
@pytest.mark.parametrize("learner", ["", "a learner", "another"])
def test_new_numbers_break_other_rules_than_the_drawing_before(slot, learner):
    """Two drawings running lacked the same two rules, in another row: the second could be judged from memory."""
    came = [draw(slot, n, learner) for n in range(8)]
    broken = [{r.partition(".")[0] for r in p.slot.drawn(p).broken} for p in came]
    assert all(one != other for one, other in itertools.pairwise(broken))


#: What nobody who draws can choose: weather, a fault, what others wrote on a label, what was asked for.
NOT_TO_CHOOSE = (
    "air_coldest_c", "module_voc_v", "voc_temp_per_k", "fault_by_row_a", "voltage_most_by_row_v", "charge_current_a",
    "controller_each_a", "bank_voltage_v", "bank_needed_ah", "current_by_row_factor", "bright_sun_factor",
    "controller_factor", "drop_limit_by_row_frac", "module_fuse_max_a", "module_isc_a", "strings_max_count",
    "age_spread_max_years", "charge_rate_max_per_h",
)  # fmt: skip


@pytest.mark.parametrize("slot", DRAWINGS, ids=lambda s: s.id)
def test_only_what_the_one_who_draws_can_choose_is_offered(slot):
    problem = draw(slot)
    offered = {k.partition(".")[0] for k, _ in slot.fields(problem, Settings())[-2].options} - {NONE}
    assert len(offered) > 3
    assert not offered & set(NOT_TO_CHOOSE)


@pytest.mark.parametrize(
    ("slot", "item", "value", "unit"),
    [
        ("L06-drawing", "plus_lead_count", "8", ""),
        ("L08-drawing", "controller_voltage_max_v", "3000", "V"),
        ("L08-drawing", "disconnect_dc_v", "30", "mV"),
        ("L10-drawing", "length_by_row_m.1", "1", "cm"),
        ("L10-drawing-2", "fuse_by_row_a.1", "1", "A"),
    ],
)
def test_a_part_that_cannot_be_bought_or_built_mends_nothing(slot, item, value, unit):
    came = [draw(slots()[slot], n) for n in range(30)]
    came = [p for p in came if p.slot.drawn(p).hidden != item]
    for problem in came:
        marks = repaired(problem, item, value, unit)
        assert not marks.finished
        assert marks.of(VALUE).verdict == "unexplained"
        one_question(marks)
        assert marks.question == " ".join(marks.feedback)
        assert "lies between" in marks.question


def test_while_somebody_can_be_hurt_another_change_does_not_finish_it():
    """A main lead was moved and praised, while a string of 54 V stayed joined to one of 48 V."""
    seen = set()
    for problem in (draw(slots()["L06-drawing"], n) for n in range(60)):
        broken = problem.slot.drawn(problem).broken
        if "corner_margin_count" in broken:
            hurts = any(r.startswith(("string_voltage", "string_fuses")) for r in broken)
            marks = repaired(problem, "minus_lead_count", "3", "")
            assert marks.finished != hurts
            assert ("hurt somebody" in " ".join(marks.feedback)) == hurts
            seen.add(hurts)
            assert mark(problem, problem.slot.solution(problem, Settings())).finished
    assert seen == {True, False}


def test_a_drawing_changed_to_what_nobody_can_choose_is_refused():
    with pytest.raises(OffgridError, match="can be chosen"):
        replace(SLOT, can_change={**SLOT.can_change, "bank_ah": (500, 3000)})
    with pytest.raises(OffgridError, match="can be chosen"):
        replace(SLOT, can_change={n: e for n, e in SLOT.can_change.items() if n != "bank_ah"})


def test_what_only_steers_the_sums_is_on_no_drawing():
    problem = draw(slots()["L10-drawing-2"])
    shown = repr(problem.slot.tables(problem, Settings()))
    assert "1 for yes" not in shown
    assert "string fuse: size" in shown
    assert len([s for s in problem.slot.drawn(problem).items if s.line == "fuse_by_row_a"]) == 2
    assert not any(s.line == "module_string_fuse_a" for s in problem.slot.drawn(problem).items), "it is there already"


def test_a_missing_number_stands_on_no_item_and_cannot_be_changed():
    for problem in PROBLEMS:
        hidden = SLOT.drawn(problem).hidden
        items = SLOT.tables(problem, Settings())[0][1]
        assert sum(row[2] == "not written" for row in items) == bool(hidden)
        item = next(f for f in SLOT.fields(problem, Settings()) if f.id == ITEM)
        assert hidden not in dict(item.options)


def test_the_same_on_every_machine():
    for problem in PROBLEMS[:6]:
        again = draw(replace(SLOT), problem.attempt)
        assert SLOT.tables(again, Settings()) == SLOT.tables(problem, Settings())


def test_the_next_drawing_breaks_other_rules_however_many_came_before():
    """More than a thousand: as deep as a function of Python may call itself."""
    slot = slots()["L08-drawing"]
    before, last = (draw(slot, attempt) for attempt in (1100, 1101))
    assert slot.story(before) != slot.story(last)


def test_nothing_and_nasty():
    assert mark(PROBLEMS[0], {}).feedback == ("Nothing is filled in yet. Begin with: Rule 1.",)
    hostile(PROBLEMS[1])
    everything = [f.id for f in SLOT.fields(PROBLEMS[1], Settings())]
    assert all(mark(PROBLEMS[1], dict.fromkeys(everything, Answer(text))).score == 0 for text in NASTY)


def test_on_the_card_and_on_paper(tmp_path):
    on_card(SLOT, tmp_path, Settings())
    paper = on_paper(SLOT)
    assert "<p>Rule 13</p>" in paper
    assert "☐ cannot tell" in paper.lower()
    assert "Rule 13: " not in paper
    assert "controller to bank: fuse" in paper
