"""Questions asked of a worksheet: which input gives a result, which input matters, which limits are broken; tables."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from worksheet_cases import TABLES

from offgrid_core.errors import WorksheetError
from offgrid_core.sizing import BANK
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet, Table, limit, line, sensitivity, solve_for, turned

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
    @line("a slope that ends in a level stretch", standing="physics")
    def level_m(step_m):
        return smaller(step_m, 1) * (step_m * 1.1 - step_m) / step_m  # noqa: F821

    heights = Sheet(level_m).solve({"step_m": np.linspace(0.1, 3, 65)})["level_m"]
    assert np.any(np.diff(heights) < 0), "rounding alone makes it fall here and there"
    found = solve_for(Sheet(level_m), "step_m", "level_m", 0.05, {}, (0.1, 3))
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


# ---- findings


def _margin(name, severity):
    def margin_a(total_a):
        return total_a

    made = limit(f"{severity} margin", severity=severity, mend="add more", standing="physics")(margin_a)
    renamed = made.with_expression(name)
    return type(made)(**{**vars(renamed), "name": f"{name}_margin"})


def test_findings_are_broken_ones_first_and_worst_first():
    names = [("a", "service"), ("b", "danger"), ("c", "damage"), ("d", "danger"), ("e", "service"), ("f", "damage")]
    sheet = Sheet(*(_margin(*n) for n in names))
    values = {"a": -1, "b": 1, "c": -1, "d": [3, -2], "e": 0, "f": -1e-12}
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


# ---- a line turned round


def of(text):
    """Return a line of an expression, under another result."""
    return BANK["spell_wh"].with_expression(text)


@pytest.mark.parametrize(
    ("text", "back"),
    [
        ("x_wh + 2", "spell_wh - 2"),
        ("2 + x_wh", "spell_wh - 2"),
        ("x_wh - 2", "spell_wh + 2"),
        ("2 - x_wh", "2 - spell_wh"),
        ("x_wh * 2", "spell_wh / 2"),
        ("2 * x_wh", "spell_wh / 2"),
        ("x_wh / 2", "spell_wh * 2"),
        ("2 / x_wh", "2 / spell_wh"),
        ("smaller(y_wh, x_wh * 2)", "spell_wh / 2"),
        ("y_wh * (3 - x_wh / 2) + 1", "(3 - (spell_wh - 1) / y_wh) * 2"),
    ],
)
def test_a_line_turned_round_by_hand(text, back):
    found = turned(of(text), "x_wh")
    assert (found.name, found.expression) == ("x_wh", back)
    assert set(found.needs) == {"spell_wh", "y_wh"} & set(back.replace("(", " ").replace(")", " ").split())


@pytest.mark.parametrize("text", ["x_wh * (1 + x_wh)", "x_wh ** 2", "up(x_wh)", "-x_wh", "2 * y_wh", "kept(x_wh)"])
def test_some_lines_cannot_be_turned_round(text):
    with pytest.raises(WorksheetError, match="cannot be turned round for"):
        turned(of(text), "x_wh")
