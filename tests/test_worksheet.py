"""The worksheet: solving one value or many, holding, replacing, and the steps in words."""

import time

import numpy as np
import pytest
from worksheet_cases import SHEETS, TABLES, random_given
from worksheet_words import read

from offgrid_core import data, worksheet
from offgrid_core.errors import WorksheetError
from offgrid_core.quantities import show
from offgrid_core.sizing import BANK, CIRCUITS, LOADS, chain
from offgrid_core.worksheet import Sheet, Table, larger, largest_of, line, smallest_of, sum_of, value_at
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
    functions |= (
        TABLES | {"array": np.array, "alike": alike} | {n: listed_or_rows(n) for n in ("largest_of", "smallest_of")}
    )
    start = solvable(sheet, 1)[0]
    solved = sheet.solve(start)
    for step in solved.steps(str, in_full):
        assert step.value is solved[step.name]
        assert equal(eval(read(step.worked), functions), step.value), step.worked


def alike(looked_up, told):
    """Return what a table gives, once it is what the words say that it gives."""
    assert equal(looked_up, told)
    return looked_up


def listed_or_rows(reducer):
    """Return a reducer of one list, or of rows written one by one."""
    return lambda *rows: getattr(worksheet, reducer)(rows[0] if len(rows) == 1 else np.array(rows))


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


@line("Charging voltage", standing="physics")
def warmed_v(battery_v, air_hot_c, depth_frac, capacity_kept, battery_temp_c):
    return larger(48, battery_v) * (1 - depth_frac) - 2 * (air_hot_c - 25) * capacity_kept(battery_temp_c)


def test_a_number_beside_a_quantity_has_its_unit():
    given = {"battery_v": 50, "air_hot_c": 10, "depth_frac": 0.1, "battery_temp_c": 10}
    given |= {"capacity_kept": TABLES["capacity_kept"]}
    (step,) = Sheet(warmed_v).solve(given).steps(str, show, lambda n, v: show(n, v).replace("10 °C", "warm"))
    assert step.worked.startswith("larger of (48 V; 50 V) × (1 − 10 %) − 2 × (warm − 25 °C) × ")
    assert step.worked.endswith(" at (10 °C) = 84.03 %)")


# ---- speed, of the order of magnitude only


@line("Energy of a day", standing="physics")
def summed_wh(power_by_row_w, hours_by_row_h, spare_wh):
    return spare_wh - sum_of(power_by_row_w * hours_by_row_h) / 2


@pytest.mark.parametrize(
    ("powers", "hours", "worked"),
    [
        ((3, 4), (2, 5), "9 − (3 × 2 + 4 × 5) ÷ 2"),
        ((3, 4, 7), (2, 0, 1), "9 − (3 × 2 + 7) ÷ 2"),
        ((3, -4), (1, 1), "9 − (3 + (−4)) ÷ 2"),
        ((3,), (1,), "9 − 3 ÷ 2"),
        ((0, 0), (1, 2), "9 − 0 ÷ 2"),
        (range(1, 61), 1, "9 − (1 + 2 + … + 60) ÷ 2"),
    ],
)
def test_a_sum_over_rows_is_written_term_by_term(powers, hours, worked):
    """By hand; rows that add nothing are left out, and of a long sum only the ends are written."""
    given = {"power_by_row_w": [*powers], "hours_by_row_h": hours, "spare_wh": 9}
    (step,) = Sheet(summed_wh).solve(given).steps(str, lambda _, value: f"{value:g}".replace("-", "−"))
    assert step.worked == worked
    assert step.formula.endswith("sum of (power_by_row_w × hours_by_row_h) ÷ 2")


@line("Hardest start", standing="physics")
def hardest_w(power_by_row_w, start_by_row_factor):
    return largest_of(power_by_row_w * (start_by_row_factor - 1)) - smallest_of(power_by_row_w) / 2


@pytest.mark.parametrize(
    ("powers", "worked"),
    [
        ((5, 4), "(5 × (3 − 1)) − smallest of (5; 4) ÷ 2"),
        ((5, -4), "(5 × (3 − 1)) − smallest of (5; −4) ÷ 2"),
        ((5, 0), "(5 × (3 − 1)) − smallest of (5; 0) ÷ 2"),
    ],
)
def test_the_largest_and_smallest_of_rows_leave_out_only_what_changes_nothing(powers, worked):
    """By hand; a row of 0 stays where it may be the smallest."""
    solved = Sheet(hardest_w).solve({"power_by_row_w": [*powers], "start_by_row_factor": [3, 1]})
    (step,) = solved.steps(str, lambda _, value: f"{value:g}".replace("-", "−"))
    assert step.worked == worked


@line("The largest power", standing="physics")
def most_w(on_by_row_frac, power_by_row_w):
    return largest_of((1 - on_by_row_frac) * power_by_row_w) * 2


@pytest.mark.parametrize(
    ("shares", "powers", "worked"),
    [
        ((1, 0, 0), (900, 70, 80), "largest of (70 W; 80 W) × 2"),
        ((1, 0, 1), (900, 70, 80), "70 W × 2"),
        ((0.5, 0), (900, 80), "largest of ((1 − 50 %) × 900 W; 80 W) × 2"),
        ((1, 1), (900, 80), "0 × 2"),
        ((1, 0), (900, -80), "largest of ((1 − 100 %) × 900 W; (−80 W)) × 2"),
        ([0] * 9, range(1, 10), "largest of (1 W; 2 W; …; 9 W) × 2"),
    ],
)
def test_a_choice_from_rows_is_written_row_by_row(shares, powers, worked):
    """By hand; a row of 0 is left out unless it is the largest, and so is a share that takes nothing away."""
    (step,) = Sheet(most_w).solve({"on_by_row_frac": [*shares], "power_by_row_w": [*powers]}).steps(str, show)
    assert step.worked == worked


def test_what_is_read_from_a_table_stands_beside_it():
    """A row of the table: a cable of 10 mm² may have a fuse of 63 A. Two of them, and 100 A."""
    code, name = data.code_setting("iec_style"), "fuse_limit_margin_by_row_a"
    given = {"cable_fuse_limit": code.fuse_limit_of, "cable_by_row_mm2": [2.5, 10], "cables_by_row_count": [1, 2]}
    solved = Sheet(CIRCUITS[name]).solve(given | {"fuse_by_row_a": [20, 100]})
    assert solved.worked(CIRCUITS[name], show, 1) == "(largest fuse for the conductor at (10 mm²) = 63 A) × 2 − 100 A"
    alone = Sheet(CIRCUITS["fuse_by_row_a"]).solve({"next_fuse": code.fuse_size, "design_current_by_row_a": 17})
    assert alone.worked(CIRCUITS["fuse_by_row_a"], show) == "next standard fuse size at (17 A)", (
        "the result says what it gives"
    )


def test_one_month_or_row_of_a_value():
    values = {"sun_by_month_h": np.arange(12.0), "kept_frac": np.array([0.5, 0.6]), "a_by_row_w": [7.0], "x_v": 3.0}
    assert value_at(values, "sun_by_month_h", 4) == 4
    assert value_at(values, "sun_by_month_h", None) is values["sun_by_month_h"]
    assert value_at(values, "a_by_row_w", 3) == 7, "a lone one stands for every row"
    assert value_at(values, "kept_frac", 1) is values["kept_frac"], "cases are no rows"
    assert value_at(values, "x_v", 1) == 3


def test_a_sum_over_many_cases_or_months_keeps_its_words():
    given = {"power_by_row_w": np.ones((3, 2)), "hours_by_row_h": 1, "spare_wh": 9}
    (step,) = Sheet(summed_wh).solve(given).steps(str, lambda name, _: name)
    assert "sum of (power_by_row_w × hours_by_row_h)" in step.worked


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
