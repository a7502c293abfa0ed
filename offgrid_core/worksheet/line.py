"""A line of a worksheet: a rule written once, as one expression, with its label, source and standing."""

import ast
import inspect
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Any

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet import grammar

#: Where a rule comes from, shown wherever the rule is used.
STANDINGS = (
    "physics",
    "standard",
    "common practice, no source",
    "maker's data wanted",
    "classroom approximation, no source",
)
#: How bad it is when a limit is broken: someone is hurt, equipment is ruined, the job is done badly.
SEVERITIES = ("danger", "damage", "service")


@dataclass(frozen=True)
class Line:
    """One named rule.

    Attributes
    ----------
    name
        Name of the result; its ending is the unit.
    label
        The result in trade words.
    needs
        Names of the inputs or earlier lines used, in the order written.
    tree
        The expression, from which value and wording both come.
    standing, source
        What kind of rule it is and where it can be read.
    severity
        Empty for an ordinary line. For a limit, one of :data:`SEVERITIES`; its value is then a margin and a
        negative margin is a broken limit.
    mend
        For a limit: what would mend it.
    """

    name: str
    label: str
    needs: tuple[str, ...]
    tree: ast.expr
    standing: str
    source: str
    severity: str = ""
    mend: str = ""

    @cached_property
    def work(self) -> Callable[..., Any]:
        """What works the result out from the values of ``needs``; made when first wanted, as most lines never are."""
        return grammar.compiled(self.tree, self.needs)

    @property
    def expression(self) -> str:
        """The expression as text."""
        return ast.unparse(self.tree)

    def said(self, word: Callable[[str], str]) -> str:
        """Return the expression in words; ``word`` says what to write for each name."""
        return grammar.say(self.tree, word)

    def with_expression(self, text: str) -> "Line":
        """Return the same line worked from another expression: a mistake, another practice, a what-if.

        >>> from offgrid_core.worksheet import line
        >>> @line("Energy the bank must give", standing="physics")
        ... def spell_wh(energy_day_wh, autonomy_days):
        ...     return energy_day_wh * autonomy_days
        >>> spell_wh.with_expression("energy_day_wh * (autonomy_days - 1)").work(1000, 3)
        2000
        """
        return _rewritten(self, text)

    def renamed(self, name: str, label: str, **needs: str) -> "Line":
        """Return the same rule for other quantities: what holds for a month, said of an hour.

        Parameters
        ----------
        name, label
            The new result, and its trade words.
        **needs
            Old name = new name, for the quantities that have another name there.
        """
        if unknown := set(needs) - set(self.needs):
            raise WorksheetError(f"{self.name} does not use {_listed(unknown)}")
        tree = grammar.with_names(self.tree, needs)
        used = tuple(dict.fromkeys(needs.get(n, n) for n in self.needs))
        return _checked(replace(self, name=name, label=label, needs=used, tree=tree))


@lru_cache(maxsize=2048)
def _rewritten(each: Line, text: str) -> Line:
    """Write a line otherwise. Kept, as the same mistakes are written into the same lines all day."""
    tree = grammar.parse(text)
    needs = tuple(dict.fromkeys(grammar.names_in(tree)))
    return _checked(replace(each, tree=tree, needs=needs))


def line(
    label: str, *, standing: str, source: str = "", severity: str = "", mend: str = ""
) -> Callable[[Callable[..., Any]], Line]:
    """Turn ``def NAME(inputs and earlier lines): return EXPRESSION`` into a :class:`Line`.

    Parameters
    ----------
    label
        The result in trade words, as a step table shows it.
    standing
        One of :data:`STANDINGS`.
    source
        Where the rule can be read; wanted for a standard.
    severity, mend
        See :func:`limit`.

    Raises
    ------
    WorksheetError
        If the function is anything but one plain expression, or the standing is unknown.
    """

    def make(function: Callable[..., Any]) -> Line:
        tree = _only_expression(function)
        needs = tuple(inspect.signature(function).parameters)
        made = Line(function.__name__, label, needs, tree, standing, source, severity, mend)
        return _checked(made)

    return make


def limit(
    label: str, *, severity: str, mend: str, standing: str, source: str = ""
) -> Callable[[Callable[..., Any]], Line]:
    """Like :func:`line`, for a limit: the value is the margin, and a negative margin breaks the limit.

    Parameters
    ----------
    severity
        One of :data:`SEVERITIES`.
    mend
        What would mend a broken limit, as an instruction to a designer.
    """
    if severity not in SEVERITIES:
        raise WorksheetError(f"a limit's severity is one of {', '.join(SEVERITIES)}, not {severity!r}")
    return line(label, standing=standing, source=source, severity=severity, mend=mend)


def _only_expression(function: Callable[..., Any]) -> ast.expr:
    lines, first = inspect.findsource(function)
    definition = _statements("".join(lines)).get(first + 1)
    if not isinstance(definition, ast.FunctionDef):
        raise WorksheetError(f"a line is written as a def, not as {type(definition).__name__}")
    statements = [s for s in definition.body if not (isinstance(s, ast.Expr) and isinstance(s.value, ast.Constant))]
    match statements:
        case [ast.Return(value=ast.expr() as tree)]:
            grammar.check(tree)
            return tree
    raise WorksheetError(f"{definition.name}: a line is a single 'return' of one expression")


@lru_cache(maxsize=4)
def _statements(source: str) -> dict[int, ast.stmt]:
    """Return the statements of a file by the number of their first line, decorators and all; a file is read once."""
    found: dict[int, ast.stmt] = {}
    for each in ast.walk(ast.parse(source)):  # the outer one of a line comes first
        if isinstance(each, ast.stmt):
            found.setdefault(min(x.lineno for x in (each, *getattr(each, "decorator_list", ()))), each)
    return found


def _checked(made: Line) -> Line:
    if made.standing not in STANDINGS:
        raise WorksheetError(f"{made.name}: standing is one of {', '.join(STANDINGS)}, not {made.standing!r}")
    if made.standing == "standard" and not made.source:
        raise WorksheetError(f"{made.name}: a rule from a standard names the standard")
    used = set(grammar.names_in(made.tree))
    if unknown := used - set(made.needs):
        raise WorksheetError(f"{made.name} uses {_listed(unknown)}, which is not among its inputs")
    if unused := set(made.needs) - used:
        raise WorksheetError(f"{made.name} lists {_listed(unused)} but does not use it")
    _check_axes(made)
    return made


def _check_axes(made: Line) -> None:
    for reducer, axes in grammar.reductions(made.tree):
        if axes not in ({axis} for axis in grammar.AXES):
            raise WorksheetError(f"{made.name}: inside {reducer} every name has by_month in it, or every name by_row")
    own = grammar.axis_of(made.name)
    reduced = grammar.reduced_names(made.tree)
    for need in made.needs:
        axis = grammar.axis_of(need)
        if own and axis and axis != own:
            raise WorksheetError(f"{made.name} is {own} and cannot use {need}, which is {axis}")
        if own and need in reduced:
            raise WorksheetError(f"{made.name} is {own}: a line that sums or picks from {need} comes first, on its own")
        if axis and not own and need not in reduced:
            raise WorksheetError(f"{made.name} has no {axis} in its name, so it must sum {need} or pick from it")


def _listed(names: set[str]) -> str:
    return ", ".join(sorted(names))
