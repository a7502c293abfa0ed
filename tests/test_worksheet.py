"""The worksheet: solving, holding, replacing, sweeping, steps, findings, questions; and its refusals."""

import time

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from worksheet_cases import SHEETS, TABLES, random_given
from worksheet_words import read

from offgrid_core import worksheet
from offgrid_core.errors import WorksheetError
from offgrid_core.quantities import show
from offgrid_core.sizing import BANK, LOADS, chain
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet, Table, limit, line, sensitivity, solve_for
from offgrid_core.worksheet.grammar import axis_of

POINTS = 12  # as many as there are months, so that a sweep that meets the months is noticed
every_sheet = pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)


def solvable(sheet, count, start=0):
    """Return the first ``count`` random givens that no table refuses."""
    found, seed = [], start
    while len(found) < count:
        assert seed < start + 40 * count, "hardly any random givens can be solved"
        try:
            sheet.solve(candidate := random_given(sheet, seed))
            found.append(candidate)
        except WorksheetError:
            pass
        seed += 1
    return found


def equal(a, b):
    if isinstance(a, Table):
        return a is b
    return np.array_equal(np.asarray(a, float), np.asarray(b, float), equal_nan=True)


def uses(sheet, name):
    """Return everything worked from a name: grow the set until no line joins it any more, in whatever order."""
    found, before = {name}, None
    while before != found:
        before = set(found)
        found |= {n for n, x in sheet.items() if found & set(x.needs)}
    return found - {name}


# ---- one value, many values


@every_sheet
def test_many_at_once_are_as_one_by_one(sheet):
    singles = solvable(sheet, POINTS)
    stacked = {n: TABLES.get(n, np.stack([np.asarray(g[n]) for g in singles])) for n in sheet.inputs if n not in TABLES}
    swept = sheet.solve(stacked | {n: TABLES[n] for n in sheet.inputs if n in TABLES})
    for place, single in enumerate(singles):
        for name, value in sheet.solve(single).items():
            if name in sheet:
                own = np.broadcast_to(swept[name], (POINTS, *np.shape(value)))[place]
                assert equal(own, value), f"{name}: {own} in the sweep, {value} alone"


@every_sheet
def test_sweeping_one_input_is_as_moving_it_by_hand(sheet):
    first = solvable(sheet, 1)[0]
    second = solvable(sheet, 1, start=500)[0]
    for moved in sheet.inputs:
        if moved in TABLES or axis_of(moved):
            continue
        xs = np.linspace(first[moved], second[moved], POINTS)
        try:
            swept = sheet.solve({**first, moved: xs})
        except WorksheetError:
            continue  # somewhere between the two a table refuses
        touched = uses(sheet, moved)
        for place in (0, 4, POINTS - 1):
            alone = sheet.solve({**first, moved: float(xs[place])})
            for name in sheet:
                shape = np.shape(alone[name])
                own = np.broadcast_to(swept[name], (POINTS, *shape))[place] if name in touched else swept[name]
                assert equal(own, alone[name]), f"{name} as {moved} moves"


def test_twelve_points_never_meet_twelve_months():
    sheet = chain()
    start = solvable(sheet, 1)[0]
    swept = sheet.solve({**start, "array_load_ratio": np.linspace(1, 2, 12)})
    assert swept["array_by_month_w"].shape == (12, 12)
    assert swept["array_for_load_w"].shape == (12,)
    assert np.all(np.diff(swept["array_for_load_w"]) > 0)
    assert np.array_equal(swept["peak_sun_by_month_h"], sheet.solve(start)["peak_sun_by_month_h"])


def test_two_sweeps_make_a_grid():
    start = solvable(BANK, 1)[0]
    days, depths = np.linspace(1, 10, 12), np.linspace(0.2, 0.9, 7)
    grid = BANK.solve({**start, "autonomy_days": days[:, None], "depth_frac": depths})["bank_needed_ah"]
    assert grid.shape == (12, 7)
    one = BANK.solve({**start, "autonomy_days": float(days[3]), "depth_frac": float(depths[5])})
    assert grid[3, 5] == one["bank_needed_ah"]


def test_a_lone_value_stands_for_every_month():
    sheet = chain()
    start = solvable(sheet, 1)[0]
    lone = {"battery_mean_by_month_wh": 900.0, "air_temp_by_month_c": 11.0, "shade_by_month_frac": 1.0}
    full = sheet.solve({**start, **{n: [v] * 12 for n, v in lone.items()}})
    for name, value in sheet.solve({**start, **lone}).items():
        if name in sheet:
            assert equal(np.broadcast_to(value, np.shape(full[name])), full[name]), name


# ---- holding and replacing


@every_sheet
def test_a_held_line_changes_only_what_is_downstream(sheet):
    start = solvable(sheet, 1)[0]
    plain = sheet.solve(start)
    for name in sheet:
        try:
            moved = sheet.solve(start, held={name: plain[name] + 1})
        except WorksheetError:
            continue  # a table, or a place in a list, refuses the value held
        changed = {n for n in sheet if not equal(moved[n], plain[n])}
        assert name in changed
        assert changed - {name} <= uses(sheet, name)
        assert set(sheet.downstream(name)) == uses(sheet, name)
        assert moved.held == {name}


@every_sheet
def test_a_line_held_at_its_own_value_changes_nothing(sheet):
    start = solvable(sheet, 1)[0]
    plain = sheet.solve(start)
    for name in sheet:
        again = sheet.solve(start, held={name: plain[name]})
        assert all(equal(again[n], plain[n]) for n in plain)


@every_sheet
def test_downstream_of_an_input(sheet):
    for name in sheet.inputs:
        assert set(sheet.downstream(name)) == uses(sheet, name)
        assert uses(sheet, name), f"no line uses {name}"


@every_sheet
def test_a_line_replaced_by_itself_changes_nothing(sheet):
    start = solvable(sheet, 1)[0]
    plain = sheet.solve(start)
    again = sheet.written(**{n: x.expression for n, x in sheet.items()})
    assert list(again) == list(sheet)
    assert set(again.inputs) == set(sheet.inputs)
    assert all(equal(again.solve(start)[n], plain[n]) for n in plain)
    assert [x.said(str) for x in again.values()] == [x.said(str) for x in sheet.values()]
    same = sheet.replace(*sheet.values())
    assert all(same[n] is sheet[n] for n in sheet)


@every_sheet
def test_a_line_made_one_per_cent_larger_is_just_that(sheet):
    start = solvable(sheet, 1)[0]
    plain = sheet.solve(start)
    for name, each in sheet.items():
        larger = sheet.upto(name).written(**{name: f"({each.expression}) * 1.01"})
        solved = larger.solve(start)
        assert equal(solved[name], plain[name] * 1.01)
        assert larger[name].said(str) != each.said(str)
        assert solved.steps(str, in_full)[-1].worked.endswith("× 1.01")


@every_sheet
def test_upto_is_enough_and_no_more(sheet):
    start = solvable(sheet, 1)[0]
    plain = sheet.solve(start)
    for name in sheet:
        part = sheet.upto(name)
        assert list(part)[-1] == name
        assert set(part) == {n for n in sheet if n == name or name in uses(sheet, n)}
        assert equal(part.solve({n: start[n] for n in part.inputs})[name], plain[name])


# ---- the words


@every_sheet
def test_the_worked_formula_evaluates_to_the_value(sheet):
    functions = {n: getattr(worksheet, n) for n in worksheet.__all__ if n in worksheet.grammar._NAMESPACE}
    functions |= TABLES | {"array": np.array}
    start = solvable(sheet, 1)[0]
    solved = sheet.solve(start)
    for step in solved.steps(str, in_full):
        assert step.value is solved[step.name]
        assert equal(eval(read(step.worked), functions), step.value), step.worked


def in_full(name, value):
    if isinstance(value, Table):
        return name
    if np.ndim(value):
        return str(np.asarray(value).tolist()).replace("−", "-")
    return repr(float(value)).replace("-", "−", 1) if value < 0 else repr(float(value))


def test_steps_carry_labels_units_and_what_is_held():
    start = {"battery_day_by_month_wh": [2400.0] * 12, "autonomy_days": 3, "depth_frac": 0.5, "bank_voltage_v": 24}
    start |= {"capacity_kept": TABLES["capacity_kept"], "battery_temp_c": 10}
    solved = BANK.solve(start, held={"spell_wh": 7000})
    steps = {s.name: s for s in solved.steps(lambda n: f"<{n}>", show)}
    assert steps["bank_warm_wh"].formula == "energy for the sunless days ÷ <depth_frac>"
    assert steps["bank_warm_wh"].worked == "7\u2009000 Wh ÷ 50 %"
    assert steps["bank_warm_wh"].shown == "14\u2009000 Wh"
    assert [s.name for s in steps.values() if s.held] == ["spell_wh"]


# ---- solve_for

LOADS_GIVEN = {"battery_day_by_month_wh": 2400.0, "capacity_kept": TABLES["capacity_kept"]}
SMOOTH = {
    "autonomy_days": (0.25, 60),
    "depth_frac": (0.05, 1),
    "bank_voltage_v": (2, 1000),
    "battery_temp_c": (-30, 20),
}
inside = st.floats(0, 1)


@given(st.sampled_from(sorted(SMOOTH)), inside, inside, inside, inside)
@settings(max_examples=150)
def test_solve_for_inverts_solve(unknown, days, depth, voltage, cold):
    shares = days, depth, voltage, cold
    given_ = LOADS_GIVEN | {n: lo + s * (hi - lo) for (n, (lo, hi)), s in zip(SMOOTH.items(), shares, strict=True)}
    wanted = float(BANK.solve(given_)["bank_needed_ah"])
    found = solve_for(BANK, unknown, "bank_needed_ah", wanted, given_, SMOOTH[unknown])
    assert not found.jumps
    width = SMOOTH[unknown][1] - SMOOTH[unknown][0]
    assert found.below - 1e-12 * width <= given_[unknown] <= found.above + 1e-12 * width
    assert found.above - found.below <= 1e-12 * width
    assert found.result_above == pytest.approx(wanted, rel=1e-9)
    assert found.result_below == pytest.approx(wanted, rel=1e-9)


@given(st.integers(2, 30), st.floats(10, 2000))
def test_over_rising_stairs_the_pair_of_feet(strings, unit_ah):
    found = solve_for(
        STRINGS, "bank_needed_ah", "strings_count", strings, {"unit_ah": unit_ah}, (0.5 * unit_ah, 40.5 * unit_ah)
    )
    assert found.jumps
    assert (found.result_below, found.result_above) == (strings - 1, strings)
    assert found.below == pytest.approx((strings - 1) * unit_ah, rel=1e-8)
    assert found.below < found.above <= found.below * (1 + 1e-12)


@given(st.integers(1, 9), st.floats(500, 2000))
def test_over_falling_stairs_the_pair_of_feet(strings, needed):
    found = solve_for(
        STRINGS, "unit_ah", "strings_count", strings, {"bank_needed_ah": needed}, (needed / 10.5, needed * 2)
    )
    assert found.jumps
    assert (found.result_below, found.result_above) == (strings + 1, strings)
    assert found.above == pytest.approx(needed / strings, rel=1e-8)


@line("a height", standing="physics")
def height_m(step_m, times_count):
    return step_m * times_count - 7


@line("a hill", standing="physics")
def hill_m(step_m):
    return step_m * (10 - step_m)


HILL = Sheet(height_m, hill_m)


@given(st.floats(0.1, 50))
def test_a_smooth_passage_through_zero_is_no_jump(times):
    assume(7 / times < 100)
    found = solve_for(HILL, "step_m", "height_m", 0, {"times_count": times}, (-3, 100))
    assert not found.jumps
    assert found.below == pytest.approx(7 / times, rel=1e-9)


def test_the_ends_of_the_span_belong_to_it():
    for end in (1.0, 5.0):
        found = solve_for(HILL, "step_m", "height_m", 3 * end - 7, {"times_count": 3}, (1, 5))
        assert found.above == pytest.approx(end, rel=1e-12)


@pytest.mark.parametrize(
    ("sheet", "unknown", "result", "wanted", "given_", "span", "message"),
    [
        (HILL, "step_m", "hill_m", 9, {}, (0, 10), "both rises and falls"),
        (STRINGS, "unit_ah", "bank_ah", 500, {"bank_needed_ah": 450}, (50, 600), "both rises and falls"),
        (HILL, "step_m", "height_m", 100, {"times_count": 3}, (0, 10), "does not reach 100"),
        (HILL, "step_m", "height_m", -100, {"times_count": -3}, (0, 10), "does not reach -100"),
        (HILL, "times_count", "height_m", 1, {"step_m": 0}, (0, 10), "does not move"),
        (HILL, "times_count", "hill_m", 1, {"step_m": 1}, (0, 10), "does not depend on times_count"),
        (HILL, "step_m", "valley_m", 1, {}, (0, 10), "no line valley_m"),
        (BANK, "battery_day_by_month_wh", "bank_needed_ah", 1, LOADS_GIVEN, (1, 2), "only a single number"),
        (BANK, "battery_temp_c", "kept_frac", 0.8, LOADS_GIVEN, (-60, 20), "-60 °C is outside the table"),
    ],
)
def test_solve_for_refuses(sheet, unknown, result, wanted, given_, span, message):
    with pytest.raises(WorksheetError, match=message):
        solve_for(sheet, unknown, result, wanted, given_, span)


def test_a_level_stretch_and_rounding_noise_are_not_a_fall():
    @line("a level stretch", standing="physics")
    def level_m(step_m):
        return 0.1 * step_m * 3 / step_m + smaller(step_m, 1)  # noqa: F821

    found = solve_for(Sheet(level_m), "step_m", "level_m", 0.8, {}, (0.1, 3))
    assert found.below == pytest.approx(0.5)


# ---- sensitivity


def test_the_input_that_matters_most_comes_first():
    start = LOADS_GIVEN | {"autonomy_days": 3, "depth_frac": 0.5, "bank_voltage_v": 24, "battery_temp_c": 10}
    spans = {"depth_frac": (0.45, 0.55), "unit_ah": (1, 2), "autonomy_days": (1, 8), "battery_temp_c": (-10, 20)}
    swings = sensitivity(BANK, "bank_needed_ah", start, spans)
    assert [s.name for s in swings] == ["autonomy_days", "battery_temp_c", "depth_frac", "unit_ah"]
    for swing in swings:
        low, high = (BANK.solve({**start, swing.name: end})["bank_needed_ah"] for end in spans[swing.name])
        assert (swing.result_low, swing.result_high) == (low, high)
        assert (swing.low, swing.high) == spans[swing.name]
        assert swing.size == abs(high - low)
    assert swings[-1].size == 0, "an input that nothing uses does not matter"


def test_of_inputs_that_matter_alike_the_first_named():
    swings = sensitivity(HILL, "height_m", {"step_m": 2, "times_count": 2}, {"times_count": (1, 3), "step_m": (1, 3)})
    assert [s.name for s in swings] == ["times_count", "step_m"]


# ---- refusals of solve


@line("shared amps", standing="physics")
def shared_a(total_a, parts_count):
    return total_a / parts_count


@line("amps from the table", standing="physics")
def listed_a(rows, shared_a):
    return rows(shared_a)


SHARING = Sheet(shared_a, listed_a)
ROWS = Table("listed amps", (0.0, 10.0), (0.0, 5.0), "A", "A")
FINE = {"total_a": 12, "parts_count": 3, "rows": ROWS}

TROUBLE = {
    "missing input": ({"total_a": 12, "rows": ROWS}, {}, "shared amps (shared_a) needs parts_count"),
    "two missing": ({"rows": ROWS}, {}, "shared amps (shared_a) needs total_a, parts_count"),
    "a line given": (FINE | {"shared_a": 4}, {}, "shared_a is worked out by a line; hold it instead of giving it"),
    "unknown held": (FINE, {"shored_a": 4}, "there is no line shored_a to hold"),
    "an input held": (FINE, {"total_a": 4}, "there is no line total_a to hold"),
    "beyond the table": (
        FINE | {"total_a": 36},
        {},
        "amps from the table: listed amps: 12 A is outside the table, which covers 0 to 10 A",
    ),
    "held beyond the table": (
        FINE,
        {"shared_a": -3},
        "amps from the table: listed amps: -3 A is outside the table, which covers 0 to 10 A",
    ),
    "one of many beyond": (
        FINE | {"total_a": [3, 39, 6]},
        {},
        "amps from the table: listed amps: 13 A is outside the table, which covers 0 to 10 A",
    ),
    "zero": (
        FINE | {"parts_count": 0},
        {},
        "shared amps (shared_a): division by zero in total_a / parts_count",
    ),
    "zero among many": (FINE | {"parts_count": [1, 0]}, {}, "shared amps (shared_a): divide by zero"),
    "nothing by nothing": (FINE | {"total_a": [0, 1], "parts_count": 0}, {}, "shared amps (shared_a): "),
    "text": (FINE | {"total_a": "12"}, {}, "shared amps (shared_a) cannot be worked from what was given"),
    "none": (FINE | {"total_a": None}, {}, "shared amps (shared_a) cannot be worked from what was given"),
    "a list of text": (FINE | {"total_a": ["x"]}, {}, "total_a: a list of numbers is wanted, not ['x']"),
    "a ragged list": (FINE | {"total_a": [[1], [1, 2]]}, {}, "total_a: a list of numbers is wanted"),
    "held text": (FINE, {"shared_a": ["x"]}, "shared_a: a list of numbers is wanted"),
    "lists of two lengths": (
        FINE | {"total_a": [1, 2, 3], "parts_count": [1, 2]},
        {},
        "shared amps (shared_a) cannot be worked from what was given",
    ),
    "a table where a number is wanted": (
        FINE | {"total_a": ROWS},
        {},
        "shared amps (shared_a) cannot be worked from what was given",
    ),
    "a number where a table is wanted": (
        FINE | {"rows": 3},
        {},
        "amps from the table (listed_a) cannot be worked from what was given",
    ),
    "too large": (FINE | {"total_a": [1e308], "parts_count": 1e-10}, {}, "shared amps (shared_a): overflow"),
    "not a number in a table": (
        FINE | {"total_a": float("nan")},
        {},
        "amps from the table: listed amps: nan A is outside",
    ),
}


@pytest.mark.parametrize(("given_", "held", "message"), TROUBLE.values(), ids=TROUBLE)
def test_solve_refuses_in_one_sentence_that_names_the_place(given_, held, message):
    with pytest.raises(WorksheetError) as refusal:
        SHARING.solve(given_, held)
    assert str(refusal.value).startswith(message)
    assert "\n" not in str(refusal.value)


def test_what_no_line_uses_is_ignored():
    solved = SHARING.solve(FINE | {"colour": "red", "length_m": 3})
    assert (solved["shared_a"], solved["listed_a"]) == (4, 2)


# ---- building a worksheet


def test_a_line_that_uses_a_later_one_is_refused():
    with pytest.raises(WorksheetError, match="listed_a uses shared_a, which is worked out only later"):
        Sheet(listed_a, shared_a)
    with pytest.raises(WorksheetError, match="shared_a uses shared_a"):
        Sheet(shared_a).written(shared_a="shared_a * 2")
    with pytest.raises(WorksheetError, match="shared_a uses listed_a, which is worked out only later"):
        SHARING.written(shared_a="listed_a")


def test_two_lines_of_one_name_are_refused_and_one_line_twice_is_not():
    with pytest.raises(WorksheetError, match="two different lines are called shared_a"):
        Sheet(shared_a) + Sheet(shared_a.with_expression("total_a"))
    assert list(SHARING + SHARING) == ["shared_a", "listed_a"]


def test_no_line_of_that_name():
    other = shared_a.with_expression("total_a")
    for ask in (
        lambda: Sheet(listed_a).replace(other),
        lambda: Sheet(listed_a).written(shared_a="total_a"),
        lambda: Sheet(listed_a).upto("shared_a"),
    ):
        with pytest.raises(WorksheetError, match="there is no line shared_a"):
            ask()


def test_a_line_is_one_return_of_one_expression():
    def two_statements_a(total_a):
        half = total_a / 2
        return half * 1

    def nothing_a(total_a):  # noqa: ARG001
        return

    def forgets_a(total_a, parts_count):  # noqa: ARG001
        return total_a

    def invents_a(total_a):
        return total_a * parts_count  # noqa: F821

    def branches_a(total_a):
        return total_a if total_a > 0 else 0

    for function, message in (
        (two_statements_a, "two_statements_a: a line is a single 'return'"),
        (nothing_a, "nothing_a: a line is a single 'return'"),
        (forgets_a, "forgets_a lists parts_count but does not use it"),
        (invents_a, "invents_a uses parts_count, which is not among its inputs"),
        (branches_a, "a line is one plain expression"),
    ):
        with pytest.raises(WorksheetError, match=message):
            line("amps", standing="physics")(function)
    with pytest.raises(WorksheetError, match="written as a def, not as Assign"):
        line("amps", standing="physics")(lambda_a)
    with pytest.raises(WorksheetError, match="forgets_a: standing is one of physics"):
        line("amps", standing="hearsay")(forgets_a)
    with pytest.raises(WorksheetError, match="a rule from a standard names the standard"):
        line("amps", standing="standard")(forgets_a)
    with pytest.raises(WorksheetError, match="one of danger, damage, service, not 'awful'"):
        limit("amps", severity="awful", mend="less", standing="physics")


lambda_a = lambda total_a: total_a  # noqa: E731


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a_by_month_wh * 2", "has no by_month in its name, so it must sum a_by_month_wh or pick from it"),
        ("sum_of(a_by_month_wh) + a_by_month_wh", "must sum a_by_month_wh or pick from it"),
        ("at_place(1, a_by_month_wh)", "inside at_place every name"),
        ("sum_of(a_by_row_wh * total_a)", "inside sum_of every name"),
        ("sum_of(a_by_row_wh * b_by_month_wh)", "inside sum_of every name"),
        ("largest_of(total_a)", "inside largest_of every name"),
        ("sum_of(1)", "inside sum_of every name"),
    ],
)
def test_months_and_rows_must_be_summed_or_picked(text, message):
    with pytest.raises(WorksheetError, match=message):
        shared_a.with_expression(text)


def test_months_never_meet_rows():
    @line("energy by month", standing="physics")
    def energy_by_month_wh(a_by_month_wh):
        return a_by_month_wh

    with pytest.raises(WorksheetError, match="energy_by_month_wh is by_month and cannot use b_by_row_wh"):
        energy_by_month_wh.with_expression("a_by_month_wh * b_by_row_wh")
    with pytest.raises(WorksheetError, match="a line that sums or picks from a_by_month_wh comes first"):
        energy_by_month_wh.with_expression("sum_of(a_by_month_wh)")


# ---- findings


def _margin(name, severity):
    def margin_a(total_a):
        return total_a

    made = limit(f"{severity} margin", severity=severity, mend="add more", standing="physics")(margin_a)
    renamed = made.with_expression(name)
    return type(made)(**{**vars(renamed), "name": f"{name}_margin"})


def test_findings_are_broken_ones_first_and_worst_first():
    names = [("a", "service"), ("b", "danger"), ("c", "damage"), ("d", "danger"), ("e", "service"), ("f", "damage")]
    sheet = Sheet(*(_margin(*n) for n in names), shared_a)
    values = {"a": -1, "b": 1, "c": -1, "d": [3, -2], "e": 0, "f": -1e-12, "total_a": 1, "parts_count": 1}
    found = sheet.solve(values).findings(lambda _, v: f"{np.min(v):g}")
    assert [f.name[0] for f in found] == ["d", "c", "a", "b", "f", "e"]
    assert [f.passed for f in found] == [False, False, False, True, True, True]
    assert (found[0].margin, found[0].shown, found[0].worked, found[0].mend) == (-2, "-2", "-2", "add more")


def test_a_margin_that_is_not_a_number_is_a_broken_limit():
    found = Sheet(_margin("a", "danger")).solve({"a": float("nan")}).findings(show_any)
    assert not found[0].passed


def show_any(_, value):
    return str(value)


# ---- tables

CURVE = ((1.0, 10.0, 100.0), (1.0, 100.0, 10_000.0))


@pytest.mark.parametrize(
    ("between", "x", "y"),
    [
        ("straight", 5.5, 50.5),
        ("straight", 1, 1),
        ("straight", 100, 10_000),
        ("log", 5, 25),
        ("log", 50, 2500),
        ("log", 10, 100),
        ("next", 1, 1),
        ("next", 1.5, 100),
        ("next", 10.0000000001, 100),
        ("next", 10.001, 10_000),
        ("next", 0, 1),
        ("next", 100, 10_000),
        ("exact", 10, 100),
        ("exact", 10.00000001, 100),
    ],
)
def test_reading_a_table(between, x, y):
    table = Table("curve", *CURVE, "A", "W", between=between)
    assert float(table(x)) == pytest.approx(y, rel=1e-9)
    assert table(np.array([[x, x]])).shape == (1, 2)


@pytest.mark.parametrize(
    ("between", "x", "message"),
    [
        ("straight", 0.9, "curve: 0.9 A is outside the table, which covers 1 to 100 A"),
        ("log", 100.1, "curve: 100.1 A is outside the table, which covers 1 to 100 A"),
        ("next", 101, "curve: 101 A is outside the table, which covers up to 100 A"),
        ("exact", 5, "curve: no row for 5 A"),
        ("exact", np.array([10, 3, 100, 4]), "curve: no row for 3 A"),
        ("exact", 200, "curve: 200 A is outside the table"),
        ("straight", np.array([5, 130, 120]), "curve: 130 A is outside the table"),
        ("straight", float("nan"), "curve: nan A is outside the table"),
    ],
)
def test_a_table_refuses_to_guess(between, x, message):
    with pytest.raises(WorksheetError) as refusal:
        Table("curve", *CURVE, "A", "W", between=between)(x)
    assert str(refusal.value).startswith(message)


@pytest.mark.parametrize(
    ("x", "y"),
    [((), ()), ((1.0, 2.0), (1.0,)), ((2.0, 1.0), (1.0, 2.0)), ((1.0, 1.0), (1.0, 2.0)), ((1.0, np.nan), (1.0, 2.0))],
)
def test_a_table_that_can_be_read_in_two_ways_is_refused(x, y):
    with pytest.raises(WorksheetError, match="curve: "):
        Table("curve", x, y, "A", "W")


def test_outside_its_source_a_table_says_so():
    table = Table("curve", *CURVE, "A", "W", sourced_from=10, sourced_to=50)
    assert [table.invented_at(x) for x in (9, 10, 50, 51)] == [True, False, False, True]


# ---- speed, of the order of magnitude only


def test_a_redraw_is_quick():
    sheet = chain()
    start = solvable(sheet, 1)[0] | {"autonomy_days": np.linspace(1, 10, 200)}
    begun = time.perf_counter()
    sheet.solve(start)
    assert time.perf_counter() - begun < 1, "two hundred points through the whole chain: milliseconds, not seconds"


def test_the_loads_list_has_its_own_axis():
    rows = solvable(LOADS, 1)[0]
    season = np.linspace(0.5, 1.5, 12)[:, None] * np.ones(5)
    by_month = LOADS.solve(rows | {"season_by_row_frac": season})
    assert by_month["battery_day_wh"].shape == (12,)
    fifth = LOADS.solve(rows | {"season_by_row_frac": season[4]})
    assert by_month["battery_day_wh"][4] == fifth["battery_day_wh"]
