"""The catalogue of mistakes against the text formulas it comes from: two independent writings of each wrong path.

The modules of ``tests/mistakes`` hold the source's text formulas, which are read by a small evaluator of their own; the
package's side is the worksheet with a line replaced.
"""

import math
import random
import re

import pytest
from mistakes.groups import GROUPS
from mistakes.text_formulas import evaluate
from worksheet_cases import LINES

from offgrid_core.errors import DataError
from offgrid_core.practice import catalogue, mistake, slots
from offgrid_core.practice.kinds import Choose
from offgrid_core.practice.mistakes import _made, worst_first
from offgrid_core.practice.words import TEXT

GROUP_OF = {id_: group for group in GROUPS for id_ in group.ROWS}
SETS = 40


def draws(id_, what):
    """Yield sets of the source's parameters, over the spans a workshop meets."""
    group, rng = GROUP_OF[id_], random.Random(f"{what} {id_}")
    for _ in range(SETS):
        p = group.drawn(rng)
        yield group.adjusted(id_, p) if hasattr(group, "adjusted") else p


@pytest.mark.parametrize("id_", sorted(catalogue()))
def test_each_replaced_line_gives_what_its_text_formula_gives(id_):
    """Source: the catalogue of wrong solution paths, expert-made; wrong ÷ right must agree to 1e-9 on each set."""
    group = GROUP_OF[id_]
    for p in draws(id_, "practice"):
        right_text, wrong_text = (evaluate(group.ROWS[id_][f"{w}_formula"], p) for w in ("correct", "wrong"))
        for line, sheet, result, given in GROUP_OF[id_].cases(id_):
            right = float(sheet.solve(given(p))[result])
            wrong = float(mistake(id_).in_sheet(sheet, line).solve(given(p))[result])
            # A quantity that both writings start from in another unit or shape cancels in the ratio.
            assert wrong / right == pytest.approx(wrong_text / right_text, rel=1e-9, abs=1e-12), (line, p)


@pytest.mark.parametrize("id_", sorted(catalogue()))
def test_stated_direction(id_):
    """Source: the catalogue's ``effect`` column."""
    group, signs = GROUP_OF[id_], set()
    for p in draws(id_, "direction"):
        for line, sheet, result, given in GROUP_OF[id_].cases(id_):
            right = float(sheet.solve(given(p))[result])
            wrong = float(mistake(id_).in_sheet(sheet, line).solve(given(p))[result])
            if wrong == right:
                continue  # 12 V assumed on a 12 V bank
            larger = abs(wrong) > abs(right) if id_ in getattr(group, "BY_SIZE", ()) else wrong > right
            signs.add(larger)
    wanted = {"understates": {False}, "overstates": {True}, "either": {True, False}}[group.ROWS[id_]["direction"]]
    assert signs
    assert signs <= wanted


def test_every_row_has_its_mistake_and_nothing_is_unknown():
    assert set(GROUP_OF) == set(catalogue())
    assert sum(len(group.ROWS) for group in GROUPS) == len(GROUP_OF)


def test_every_line_named_is_a_line_of_the_core():
    known = {line.name for line in LINES.values()}
    for m in catalogue().values():
        assert set(m.lines) <= known, m.id


BANNED = re.compile(
    r"\b(divide|multiply|subtract|formula|wrong|mistake|careless|silly|bad|good|well done|sorry|obvious\w*)\b", re.I
)


def lint(question):
    """Return what is amiss with a question: one question mark, at most 30 words, no operation, no judgement."""
    found = []
    if question.count("?") != 1:
        found.append("not exactly one question")
    if len(question.split()) > 30:
        found.append("more than 30 words")
    if BANNED.search(question):
        found.append(f"says {BANNED.search(question)[0]!r}")
    return found


class TestQuestions:
    def test_lint_can_fail(self):
        assert lint("Divide by 0.75.") == ["not exactly one question", "says 'Divide'"]
        assert lint("Why? And why?") == ["not exactly one question"]
        assert lint("word " * 31 + "?") == ["more than 30 words"]

    @pytest.mark.parametrize("id_", sorted(catalogue()))
    def test_of_each_mistake(self, id_):
        assert lint(mistake(id_).question) == []

    @pytest.mark.parametrize("id_", sorted(catalogue()))
    def test_never_holds_the_answer(self, id_):
        """No line of a worksheet, by its label or its formula, stands in a question."""
        for line in mistake(id_).lines:
            assert line not in mistake(id_).question

    @pytest.mark.parametrize("id_", list(slots()))
    def test_of_each_slot(self, id_):
        slot = slots()[id_]
        assert lint(slot.hint) == []
        if isinstance(slot, Choose):
            for option in slot.options:
                if not option.right:
                    assert lint(option.question) == [], option.text

    def test_unit_question(self):
        assert lint(TEXT["unit"]) == []


class TestCatalogue:
    def test_unknown_id_is_refused(self):
        with pytest.raises(DataError, match="has no XX-01"):
            mistake("XX-01")

    def test_bad_rows_are_refused(self):
        row_ = {"name": "", "family": "", "severity": "S3", "question": "?", "consequence": "", "lines": {}}
        with pytest.raises(DataError, match="severity is one of danger, damage, service, not 'S3'"):
            _made("XX-01", row_)
        with pytest.raises(DataError, match="XX-01"):
            _made("XX-01", {"name": "only"})

    def test_worst_first(self):
        assert [m.id for m in worst_first(["LD-03", "TE-02", "TE-14"])] == ["TE-14", "TE-02", "LD-03"]

    def test_text_evaluator_refuses_the_rest(self):
        with pytest.raises(AssertionError):
            evaluate("[].append", {})
        assert math.isclose(evaluate("2*(3-1)**2/4", {}), 2)
