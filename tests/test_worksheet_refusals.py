"""What a worksheet refuses, when it is built and when it is solved: one clear sentence that names the place."""

import pytest

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet import Sheet, Table, limit, line

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
