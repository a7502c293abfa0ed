"""Pick a part: judged by the core's own limits, each pick from the table marked as a plain loop says."""

import numpy as np
import pytest

from offgrid_core.lab.sheet_of_paper import on_paper
from offgrid_core.practice import Answer, draw, mark
from offgrid_core.practice.kinds import Pick
from offgrid_core.practice.kinds.pick import BINDS, MARGIN, PART
from offgrid_core.quantities import Settings
from offgrid_core.sizing import chain

CHAIN = chain("short", "tracking", False)
LIMITS = ("cold_voltage_margin_v", "controller_each_margin_a", "charge_ceiling_margin_a")


def controllers(**more) -> Pick:
    """Return a table of charge controllers for an array whose layout is settled."""
    whole = CHAIN.upto("string_voc_cold_v", "charge_current_a", *LIMITS)
    return Pick(
        id="L99-pick",
        title="Pick a controller",
        statement="The array of {array_w} feeds a {bank_voltage_v} bank.",
        hint="Which number on the label does the coldest morning test?",
        sheet=type(whole)(*(whole[n] for n in whole if n in _LINES)),
        given={
            "array_w": 1500,
            "bank_voltage_v": 24,
            "array_strings_count": 2,
            "controllers_count": 1,
            "module_voc_v": 46,
            "voc_temp_per_k": -0.0028,
            "controller_factor": 1.25,
            "bank_ah": 900,
            "charge_rate_max_per_h": 0.13,
        },
        grids={"modules_in_series_count": (2, 3), "air_coldest_c": (-22, -14, -8)},
        parts={
            "controller_rated_a": (40, 55, 62, 70, 85, 90, 110),
            "controller_voltage_max_v": (90, 110, 130, 160, 190),
            "controller_cost": (110, 145, 180, 230, 270, 320),
        },
        cost="controller_cost",
        questions={"cold_voltage_margin_v": "What does a clear, frosty dawn do to a string with no load on it?"},
        words={n: n for n in ("array_strings_count", "controllers_count", "bank_ah", "array_w")},
        **more,
    )


_LINES = {
    "string_voc_cold_v", "cold_voltage_margin_v", "charge_current_a", "strings_each_count", "controller_each_a",
    "controller_each_margin_a", "charge_ceiling_margin_a",
}  # fmt: skip
SLOT = controllers()
PROBLEMS = [draw(SLOT, attempt) for attempt in range(6)]


def by_loop(problem):
    """Return (broken limits, relative margins, cost) of each part, worked one by one."""
    parts = SLOT.table(problem)
    found = []
    for i in range(SLOT.count):
        one = {n: float(v[i]) for n, v in parts.items()}
        solved = SLOT.sheet.solve({**problem.given, **one})
        sides = {
            "cold_voltage_margin_v": (one["controller_voltage_max_v"], solved["string_voc_cold_v"]),
            "controller_each_margin_a": (one["controller_rated_a"], solved["controller_each_a"] * 1.25),
            "charge_ceiling_margin_a": (900 * 0.13, solved["charge_current_a"]),
        }
        shares = {n: (a - b) / max(a, b) for n, (a, b) in sides.items()}
        found.append(({n for n, share in shares.items() if share < 0}, shares, one["controller_cost"]))
    return found


@pytest.mark.parametrize("problem", PROBLEMS, ids=lambda p: f"variant {p.attempt}")
def test_every_pick_is_marked_as_the_loop_says(problem):
    parts = by_loop(problem)
    cheapest = min(cost for broken, _, cost in parts if not broken)
    for i, (broken, shares, cost) in enumerate(parts):
        name = "ABCDEFGHIJKL"[i]
        binding = min(shares, key=shares.get)
        marks = mark(problem, {PART: Answer(name), BINDS: Answer(binding)})
        if broken:
            assert (marks.score, marks.finished) == (0, False)
            continue
        assert marks.score == pytest.approx((0.7 if cost <= 1.1 * cheapest else 0.5) + 0.2)
        other = next(n for n in shares if n != binding)
        assert mark(problem, {PART: Answer(name), BINDS: Answer(other)}).score == pytest.approx(marks.score - 0.2)


@pytest.mark.parametrize("problem", PROBLEMS, ids=lambda p: f"variant {p.attempt}")
def test_the_solution_is_right_and_the_margin_counts(problem):
    solution = SLOT.solution(problem, Settings())
    marks = mark(problem, solution)
    assert marks.finished
    assert marks.score == 1
    off = float(solution[MARGIN].text) * 1.05
    wrong = mark(problem, {**solution, MARGIN: Answer(f"{off:.4g}", solution[MARGIN].unit)})
    assert (wrong.score, wrong.finished) == (0.9, False)


@pytest.mark.parametrize("problem", PROBLEMS, ids=lambda p: f"variant {p.attempt}")
def test_screens_hold_in_every_variant(problem):
    parts = by_loop(problem)
    good = [i for i, (broken, _, cost) in enumerate(parts) if not broken]
    cheapest = min(parts[i][2] for i in good)
    assert 1 <= sum(parts[i][2] <= 1.1 * cheapest for i in good) <= 2
    assert any("cold_voltage_margin_v" in broken for broken, _, _ in parts)
    assert len({tuple(sorted(broken)) for broken, _, _ in parts if broken}) >= 2


def test_a_broken_limit_is_asked_about_and_not_named():
    problem = PROBLEMS[0]
    place = next(i for i, (broken, _, _) in enumerate(by_loop(problem)) if broken == {"cold_voltage_margin_v"})
    marks = mark(problem, {PART: Answer("ABCDEFGHIJKL"[place])})
    assert marks.question == SLOT.questions["cold_voltage_margin_v"]
    assert "controller's highest" not in " ".join(marks.feedback)


def test_the_same_variant_on_every_machine():
    again = draw(controllers(), 0)
    assert {n: v.tolist() for n, v in SLOT.table(again).items()} == {
        n: v.tolist() for n, v in SLOT.table(PROBLEMS[0]).items()
    }
    tables = [tuple(np.concatenate(list(SLOT.table(p).values()))) for p in PROBLEMS]
    assert len(set(tables)) == len(PROBLEMS)


@pytest.mark.parametrize("text", ["", "Z", "AB", "9" * 80, "__import__('os')", "‮A", "\x00"])
def test_hostile_picks_are_unanswered(text):
    marks = mark(PROBLEMS[0], {PART: Answer(text), BINDS: Answer(text), MARGIN: Answer(text, text)})
    assert not marks.finished
    assert marks.score == 0


def test_a_margin_in_the_unit_of_another_limit_is_not_right():
    problem = PROBLEMS[0]
    solution = SLOT.solution(problem, Settings())
    other = "A" if solution[MARGIN].unit != "A" else "V"
    marks = mark(problem, {**solution, MARGIN: Answer(solution[MARGIN].text, other)})
    assert marks.of(MARGIN).verdict == "unexplained"


def test_the_table_shows_every_part_with_units():
    ((_, rows),) = [t for t in SLOT.tables(PROBLEMS[0], Settings()) if t[1][0][0] == "part"]
    assert len(rows) == 1 + SLOT.count
    assert all(cell.endswith((" A", " V")) for row in rows[1:] for cell in row[1:3])


def test_each_group_of_choices_says_what_is_asked_on_paper():
    said = on_paper(PROBLEMS[0], Settings())
    for words in ("<p>part</p>", "<p>the limit with the smallest share to spare</p>"):
        assert words in said
    assert "margin to that limit: ______________" in said
