"""The grammar of a line: what is let through, what is refused, and that the words say what the code does."""

import ast
import re

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from worksheet_words import UnreadableError, read

from offgrid_core import worksheet
from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet import Line, Sheet, Table, at_place, down, grammar, larger, line, place_of_largest, up

NAMES = ("alpha_w", "beta_ratio", "gamma_h")
FUNCTIONS = {name: getattr(worksheet, name) for name in ("up", "down", "larger", "smaller", "at_least")}


@line("a result", standing="physics")
def result_w(alpha_w, beta_ratio):
    return alpha_w * beta_ratio


REFUSED = [
    "lambda: 1",
    "lambda alpha_w: alpha_w",
    "alpha_w.real",
    "alpha_w.__class__.__bases__",
    "alpha_w[0]",
    "alpha_w[1:2]",
    "[alpha_w]",
    "(alpha_w, beta_ratio)",
    "{alpha_w}",
    "{'a': alpha_w}",
    "[x for x in alpha_w]",
    "sum_of(x for x in alpha_w)",
    "larger(*alpha_w)",
    "up(x=alpha_w)",
    "up(**alpha_w)",
    "'text'",
    "b'bytes'",
    "f'{alpha_w}'",
    "alpha_w * 'text'",
    "True",
    "False",
    "None",
    "...",
    "1j",
    "alpha_w and beta_ratio",
    "not alpha_w",
    "alpha_w if beta_ratio else 1",
    "alpha_w < beta_ratio",
    "alpha_w == beta_ratio",
    "alpha_w in beta_ratio",
    "alpha_w // beta_ratio",
    "alpha_w % beta_ratio",
    "alpha_w @ beta_ratio",
    "alpha_w << 2",
    "alpha_w | beta_ratio",
    "~alpha_w",
    "+alpha_w",
    "(x := alpha_w)",
    "await alpha_w",
    "yield alpha_w",
    "__import__('os')",
    "__import__(alpha_w)",
    "__builtins__",
    "__debug__",
    "_hidden_w",
    "alpha_w(beta_ratio)(gamma_h)",
    "(alpha_w + beta_ratio)(gamma_h)",
    "up",
    "up * 2",
    "up(up)",
    "up()",
    "up(alpha_w, beta_ratio)",
    "larger()",
    "larger(alpha_w)",
    "at_place(alpha_by_month_w)",
    "at_place(alpha_by_month_w, 1, 2)",
    "sum_of()",
    "alpha_w(beta_ratio, gamma_h)",
    "9**9**9",
    "2**3",
    "alpha_w ** (9**9**9)",
    "up(9)**up(9)**up(9)",
    "9 ** larger(9, 9)",
    "-9 ** -9",
    "1e999",
    "1e15",
    "1" + "0" * 390,
    "alpha_w; beta_ratio",
    "alpha_w = 1",
    "import os",
    "alpha_w +",
    "(alpha_w",
    "",
    "   ",
    "\x00",
    "alpha_w\nbeta_ratio",
    "alpha_w" + " " * 400,
    "alpha_w" + "*alpha_w" * 49 + "*beta_ratio",
    "(" * 250 + ")" * 150,
]


@pytest.mark.parametrize("text", REFUSED, ids=lambda t: repr(t[:30]))
def test_the_grammar_refuses_everything_else(text):
    with pytest.raises(WorksheetError) as refusal:
        result_w.with_expression(text)
    assert "\n" not in str(refusal.value)
    assert str(refusal.value)


ALLOWED = (ast.Name, ast.Load, ast.Constant, ast.BinOp, ast.UnaryOp, ast.USub, ast.Call)
ALLOWED += (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)


@given(st.one_of(st.text(max_size=60), st.text("ab_w0123456789.+-*/() ,[]'\"=:", max_size=60)))
@example("1if a else 2")
@example("0x1for x")
@settings(max_examples=400)
@pytest.mark.filterwarnings("ignore::SyntaxWarning")
def test_any_text_is_parsed_within_the_whitelist_or_refused(text):
    try:
        tree = grammar.parse(text)
    except WorksheetError:
        return
    assert all(isinstance(node, ALLOWED) for node in ast.walk(tree))
    assert all(
        type(node.value) in (int, float) and abs(node.value) < 1e15
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
    )


def test_four_hundred_characters_and_not_one_more():
    most = "alpha_w" + "*alpha_w" * 49
    assert len(most) == 399
    assert result_w.with_expression(most).work(1.0) == 1.0
    with pytest.raises(WorksheetError, match="at most 400 characters, not 401"):
        result_w.with_expression(most + "+1")


@pytest.mark.parametrize(
    ("text", "value"),
    [("(" * 190 + "alpha_w" + ")" * 190, 7.0), ("-" * 390 + "alpha_w", 7.0), ("up(" * 95 + "alpha_w" + ")" * 95, 7.0)],
    ids=["brackets", "signs", "calls"],
)
def test_deep_nesting_is_worked_not_a_crash(text, value):
    deep = result_w.with_expression(text)
    assert Sheet(deep).solve({"alpha_w": 7})["result_w"] == value
    assert "alpha_w" in deep.said(str)


def test_a_power_tower_of_givens_ends_at_once():
    tower = result_w.with_expression("alpha_w ** alpha_w ** alpha_w")
    for nine in (9, 9.0, np.int64(9), np.array([9, 9])):
        with pytest.raises(WorksheetError, match="result_w"):
            Sheet(tower).solve({"alpha_w": nine})


def test_a_power_of_a_negative_number_is_refused_not_complex():
    root = Sheet(result_w.with_expression("alpha_w ** 0.5"))
    for value in (-4, np.array([-4.0, 4.0])):
        with pytest.raises(WorksheetError, match="result_w"):
            root.solve({"alpha_w": value})
    assert root.solve({"alpha_w": 4})["result_w"] == 2


def test_an_expression_reaches_nothing_but_its_arguments():
    for made in (result_w, result_w.with_expression("up(alpha_w)")):
        reachable = made.work.__globals__
        assert reachable["__builtins__"] == {}
        assert set(reachable) - {"__builtins__"} == set(grammar.FUNCTIONS | grammar.REDUCERS)


def test_names_come_in_reading_order():
    made = result_w.with_expression("rows(gamma_h) + beta_ratio * (gamma_h - alpha_w) / larger(delta_w, beta_ratio)")
    assert made.needs == ("rows", "gamma_h", "beta_ratio", "alpha_w", "delta_w")


# ---- the words

leaf = st.sampled_from([*NAMES, "2", "0.5", "24", "234.5", "1e-05", "1000"])


def _join(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pairs = st.tuples(inner, st.sampled_from("+-*/"), inner).map(lambda t: f"({t[0]}) {t[1]} ({t[2]})")
    powers = st.tuples(inner, st.sampled_from(["2", "beta_ratio", "(-gamma_h)", "(gamma_h + 1)"])).map(
        lambda t: f"({t[0]}) ** {t[1]}"
    )
    signs = inner.map(lambda t: f"-({t})")
    calls = st.one_of(
        st.tuples(st.sampled_from(["up", "down", "capacity_kept"]), inner).map(lambda t: f"{t[0]}({t[1]})"),
        st.tuples(st.sampled_from(["larger", "smaller", "at_least"]), inner, inner).map(
            lambda t: f"{t[0]}({t[1]}, {t[2]})"
        ),
    )
    return st.one_of(pairs, powers, signs, calls)


expressions = st.recursive(leaf, _join, max_leaves=8).filter(lambda t: len(t) <= 400 and "alpha_w" in t)


def _made(text: str) -> Line:
    try:
        return result_w.with_expression(text)
    except WorksheetError:
        assume(False)
        raise


def _same(tree: ast.expr) -> str:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant):
            node.value = float(node.value)
    return ast.dump(tree)


@given(expressions)
@example("(-alpha_w) ** 2")
@example("(alpha_w ** 2) ** gamma_h")
@example("alpha_w - (-beta_ratio)")
@example("alpha_w / (beta_ratio / gamma_h)")
@example("-(alpha_w * 2)")
@example("alpha_w * 1.23456789")
@settings(max_examples=300)
def test_reading_the_words_gives_the_expression_back(text):
    made = _made(text)
    again = ast.parse(read(made.said(str)), mode="eval").body
    assert _same(again) == _same(ast.parse(text.strip(), mode="eval").body)


@given(expressions, st.lists(st.floats(-30, 30).map(lambda x: round(x, 2)), min_size=3, max_size=3))
@example("(alpha_w) ** 2", [-5.0, 0.0, 0.0])
@settings(max_examples=300)
def test_the_words_with_numbers_in_them_evaluate_to_the_value(text, numbers):
    made = _made(text)
    kept = Table("kept", (-1e12, 1e12), (0.0, 1.0), "K", "")
    values = dict(zip(NAMES, numbers, strict=True)) | {"capacity_kept": kept}
    try:
        solved = Sheet(made).solve(values)
    except WorksheetError:
        assume(False)
    assume(np.isfinite(solved["result_w"]))
    worked = solved.steps(str, _shown)[0].worked
    assert eval(read(worked), dict(FUNCTIONS, kept=kept, alike=alike)) == solved["result_w"]


def alike(looked_up, told):
    """Return what a table gives, once it is what the words say that it gives."""
    assert looked_up == told
    return looked_up


def _shown(_, value):
    if isinstance(value, Table):
        return value.label
    return repr(float(value) + 0.0).replace("-", "−", 1) if value < 0 else repr(float(value) + 0.0)


GROUPING = re.compile(r"(?<![a-z] )\(")


@given(expressions)
@settings(max_examples=200)
def test_no_bracket_is_idle(text):
    made = _made(text)
    words = made.said(str)
    meant = _same(ast.parse(read(words), mode="eval").body)
    for opening in GROUPING.finditer(words):
        without = _without_pair(words, opening.start())
        try:
            assert _same(ast.parse(read(without), mode="eval").body) != meant, (
                f"{words} needs no bracket there: {without}"
            )
        except UnreadableError:
            continue


def _without_pair(words: str, start: int) -> str:
    depth = 0
    for place in range(start, len(words)):
        depth += {"(": 1, ")": -1}.get(words[place], 0)
        if depth == 0:
            return words[:start] + words[start + 1 : place] + words[place + 1 :]
    raise AssertionError("brackets do not pair")


WORDS = [
    ("alpha_w * beta_ratio / gamma_h", "alpha_w × beta_ratio ÷ gamma_h"),
    ("alpha_w / (beta_ratio * gamma_h)", "alpha_w ÷ (beta_ratio × gamma_h)"),
    ("(alpha_w + beta_ratio) * gamma_h", "(alpha_w + beta_ratio) × gamma_h"),
    ("alpha_w + beta_ratio * gamma_h", "alpha_w + beta_ratio × gamma_h"),
    ("alpha_w - (beta_ratio - gamma_h)", "alpha_w − (beta_ratio − gamma_h)"),
    ("alpha_w ** 2 * gamma_h", "alpha_w ^ 2 × gamma_h"),
    ("larger(1, up(alpha_w / beta_ratio))", "larger of (1; round up (alpha_w ÷ beta_ratio))"),
    ("capacity_kept(alpha_w) * 2", "capacity_kept at (alpha_w) × 2"),
    ("beta_ratio * at_least(alpha_w, 3)", "beta_ratio × (1 if alpha_w is at least 3, else 0)"),
    ("down(alpha_w) - smaller(alpha_w, 1)", "round down (alpha_w) − smaller of (alpha_w; 1)"),
    ("sum_of(a_by_row_w) / 2", "sum of (a_by_row_w) ÷ 2"),
    ("largest_of(a_by_row_w) - smallest_of(a_by_row_w)", "largest of (a_by_row_w) − smallest of (a_by_row_w)"),
    ("place_of_largest(a_by_month_w)", "where the largest is in (a_by_month_w)"),
    ("at_place(a_by_month_w, alpha_w)", "a_by_month_w in place alpha_w"),
    ("at_place(a_by_month_w * 2, alpha_w + 1) * 3", "((a_by_month_w × 2) in place (alpha_w + 1)) × 3"),
]


@pytest.mark.parametrize(("text", "words"), WORDS)
def test_words(text, words):
    assert result_w.with_expression(text).said(str) == words
    again = ast.parse(read(words), mode="eval").body
    assert _same(again) == _same(ast.parse(text, mode="eval").body)


def test_a_negative_value_gets_brackets_only_after_a_sign():
    made = result_w.with_expression("alpha_w * (alpha_w - gamma_h) + alpha_w")
    assert made.said({"alpha_w": "−5 °C", "gamma_h": "3 h"}.get) == "−5 °C × (−5 °C − 3 h) + (−5 °C)"


# ---- rounding, choosing and picking


@given(st.integers(0, 10**6), st.floats(-0.9e-9, 0.9e-9))
def test_rounding_forgives_float_noise(whole, noise):
    assert up(whole * (1 + noise)) == whole
    assert down(whole * (1 - noise)) == whole


@given(st.integers(-1000, 1000), st.floats(0.001, 0.999))
def test_rounding_rounds(whole, part):
    assert up(whole + part) == whole + 1
    assert down(whole + part) == whole
    assert np.array_equal(up(np.array([whole, whole + part])), [whole, whole + 1])


def test_the_trade_s_own_noise():
    # 0.1 + 0.2 is 0.30000000000000004: three strings of 0.1, not four.
    assert up((0.1 + 0.2) / 0.1) == 3
    assert down(0.3 / 0.1) == 3  # 2.9999999999999996


def test_of_equal_months_the_first():
    assert place_of_largest([3, 7, 7, 1]) == 2
    assert np.array_equal(place_of_largest(np.array([[5, 5], [1, 2]])), [1, 2])
    assert place_of_largest(4.0) == 1


def test_picking_a_place():
    months = np.arange(1.0, 13.0)
    assert at_place(months, 12) == 12
    assert np.array_equal(at_place(months, np.array([1, 7])), [1, 7])
    sweep = np.stack([months, months * 10])
    assert np.array_equal(at_place(sweep, 3), [3, 30])
    assert np.array_equal(at_place(sweep, np.array([1, 12])), [1, 120])
    assert at_place(5.0, 7) == 5, "one value for all months"


@pytest.mark.parametrize("place", [0, -1, 13, 1.5, float("nan"), np.array([1, 13])])
def test_no_month_but_one_of_twelve(place):
    with pytest.raises(WorksheetError, match="whole number from 1 to 12"):
        at_place(np.arange(12.0), place)


@given(st.lists(st.lists(st.floats(-1e6, 1e6), min_size=3, max_size=3), min_size=2, max_size=4))
def test_choosing_is_element_by_element(columns):
    arrays = [np.array(c) for c in columns]
    assert np.array_equal(larger(*arrays), [max(row) for row in zip(*columns, strict=True)])
    assert np.array_equal(worksheet.smaller(*arrays), [min(row) for row in zip(*columns, strict=True)])


def test_reducing_one_row_or_none():
    assert worksheet.sum_of(5.0) == 5
    assert worksheet.sum_of(np.array([])) == 0
    assert worksheet.largest_of(np.array([1.0, 3.0])) == 3
    assert worksheet.smallest_of(np.array([[1.0, 3.0], [2.0, 0.0]])).tolist() == [1, 0]
