"""A worksheet: lines in worked order, checked when built, solved for numbers or whole arrays of them.

Solving, showing the steps, holding a line at somebody's own value, replacing a line by a wrong or another
one, and listing broken limits all read the same lines. That is the idea the package is built on.
"""

import ast
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError, WorksheetError
from offgrid_core.worksheet.grammar import (
    FORGIVEN,
    FUNCTIONS,
    REDUCERS,
    axis_of,
    compiled,
    looked_up_names,
    names_in,
    say,
    with_named_numbers,
)
from offgrid_core.worksheet.line import SEVERITIES, Line
from offgrid_core.worksheet.table import Table

#: From a name and a value of it to its text, with the unit.
Show = Callable[[str, Any], str]


@dataclass(frozen=True)
class Step:
    """One line of a solved worksheet, ready to be shown.

    ``formula`` has labels in it, ``worked`` this case's numbers; both come from the line's expression.
    """

    name: str
    label: str
    formula: str
    worked: str
    value: Any
    shown: str
    standing: str
    source: str
    held: bool


@dataclass(frozen=True)
class Finding:
    """What a limit line says of a solved worksheet: the margin, and what would mend a negative one.

    ``worked_in`` words the numbers once more, shown in another way.
    """

    name: str
    label: str
    margin: float
    shown: str
    worked: str
    passed: bool
    severity: str
    mend: str
    standing: str
    source: str
    worked_in: Callable[[Show], str] = field(repr=False, compare=False)


class Sheet(Mapping[str, Line]):
    """Lines in worked order.

    Parameters
    ----------
    *lines
        A line may use inputs and *earlier* lines; one that uses a later line is refused.

    Examples
    --------
    >>> from offgrid_core.worksheet import line
    >>> @line("Amp-hours a day", standing="physics")
    ... def day_ah(energy_day_wh, bank_voltage_v):
    ...     return energy_day_wh / bank_voltage_v
    >>> sheet = Sheet(day_ah)
    >>> sheet.solve({"energy_day_wh": 2400, "bank_voltage_v": 24})["day_ah"]
    100.0
    """

    def __init__(self, *lines: Line) -> None:
        self._lines: dict[str, Line] = {}
        for added in lines:
            if self._lines.get(added.name, added) is not added:
                raise WorksheetError(f"two different lines are called {added.name}")
            self._lines[added.name] = added
        seen: set[str] = set()
        for each in self._lines.values():
            if late := sorted((set(each.needs) - seen) & set(self._lines)):
                raise WorksheetError(f"{each.name} uses {', '.join(late)}, which is worked out only later")
            seen.add(each.name)
        self.inputs = tuple(dict.fromkeys(n for x in self._lines.values() for n in x.needs if n not in self._lines))

    def __getitem__(self, name: str) -> Line:
        return self._lines[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)

    def __add__(self, more: "Sheet") -> "Sheet":
        """Continue this worksheet with another; lines they share must be the same lines."""
        return Sheet(*self.values(), *more.values())

    def replace(self, *lines: Line) -> "Sheet":
        """Return the same worksheet with some lines written otherwise, each in its old place.

        Raises
        ------
        WorksheetError
            If the worksheet has no line of that name.
        """
        by_name = {x.name: x for x in lines}
        if unknown := sorted(set(by_name) - set(self)):
            raise WorksheetError(f"there is no line {', '.join(unknown)} to replace")
        return Sheet(*(by_name.get(n, x) for n, x in self.items()))

    def written(self, **expressions: str) -> "Sheet":
        """Return the worksheet with lines worked from other expressions (see :meth:`Line.with_expression`)."""
        return self.replace(*(self._known(n).with_expression(text) for n, text in expressions.items()))

    def upto(self, *names: str) -> "Sheet":
        """Return only the lines that the named ones are worked from, and the named ones."""
        wanted = {self._known(n).name for n in names}
        for n in reversed(list(self)):
            if n in wanted:
                wanted |= set(self[n].needs) & set(self)
        return Sheet(*(x for n, x in self.items() if n in wanted))

    def downstream(self, name: str) -> tuple[str, ...]:
        """Return the lines that change when ``name`` (an input or a line) changes."""
        moved = {name}
        for n, x in self.items():
            if moved & set(x.needs):
                moved.add(n)
        return tuple(n for n in self if n in moved - {name})

    def solve(self, given: Mapping[str, Any], held: Mapping[str, Any] | None = None) -> "Solved":
        """Work out every line.

        Parameters
        ----------
        given
            Inputs by name: numbers, arrays (any shapes that broadcast), or tables. Names with ``by_month`` or
            ``by_row`` own the last axis. Inputs that no line uses are ignored.
        held
            Lines held at a value of their own instead of being worked: a learner's answer carried forward.

        Raises
        ------
        WorksheetError
            A missing input, a line's name among the givens, a value that a table refuses, or a division by
            nothing; the message names the line.
        """
        held = held or {}
        if shadowed := self._lines.keys() & given.keys():
            raise WorksheetError(f"{', '.join(sorted(shadowed))} is worked out by a line; hold it instead of giving it")
        if unknown := held.keys() - self._lines.keys():
            raise WorksheetError(f"there is no line {', '.join(sorted(unknown))} to hold")
        values = {n: _plain(n, v) for n, v in {**given, **held}.items()}
        with np.errstate(divide="raise", invalid="raise", over="raise"):
            for name, each in self._lines.items():
                if name not in held:
                    values[name] = _worked(each, values)
        return Solved(self, values, frozenset(held))

    def _known(self, name: str) -> Line:
        if name not in self._lines:
            raise WorksheetError(f"there is no line {name}")
        return self._lines[name]


class Solved(Mapping[str, Any]):
    """Every input and line of a worksheet with its value."""

    def __init__(self, sheet: Sheet, values: Mapping[str, Any], held: frozenset[str]) -> None:
        self.sheet = sheet
        self.held = held
        self._values = values

    def __getitem__(self, name: str) -> Any:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def steps(self, word: Callable[[str], str], show: Show, reckon: Show | None = None) -> list[Step]:
        """Return the lines as steps, in worked order.

        Parameters
        ----------
        word
            Label of an input (a line brings its own).
        show
            Text of a value, with unit, given its name.
        reckon
            The same where a value stands in a sum, if it shall be told in another unit there.
        """
        return [
            Step(
                name=n,
                label=x.label,
                formula=x.said(lambda m: self.sheet[m].label if m in self.sheet else word(m)),
                worked=self.worked(x, show, reckon=reckon),
                value=self[n],
                shown=show(n, self[n]),
                standing=x.standing,
                source=x.source,
                held=n in self.held,
            )
            for n, x in self.sheet.items()
        ]

    def worked(self, each: Line, show: Show, place: int | None = None, reckon: Show | None = None) -> str:
        """Return the expression of a line with this case's numbers in it, of one month or row if a place is named.

        A sum or choice over rows is written row by row. What is read from a table stands beside where it was read,
        unless it is the result itself. A number of the expression that stands beside a quantity is told in the unit of
        it, as long as its figure stays the same: the 25 of ``t_c - 25`` is 25 °C, but the 1 of ``1 - share`` stays a 1
        beside a share in percent. The line may be one that is not in the worksheet, such as one of its own turned
        round. For ``reckon`` see :meth:`steps`.
        """
        tree, numbers = with_named_numbers(each.tree)
        looked_up, in_sum = looked_up_names(tree), reckon or show

        def value(name: str) -> Any:
            return numbers[name][1] if name in numbers else value_at(self, name, place)

        def word(name: str) -> str:
            if name not in numbers:
                return (show if name in looked_up else in_sum)(name, value(name))
            quantity, number = numbers[name]
            said, plain = in_sum(quantity, number), f"{number:.15g}"
            return said if re.fullmatch(rf"{re.escape(plain)}(\D.*)?", said) else plain

        def told(call: ast.Call) -> Sequence[str]:
            function = call.func.id  # type: ignore[attr-defined]
            if function in _ROW_BY_ROW:
                return self._rows(call, in_sum)
            if function in FUNCTIONS or function in REDUCERS or call is tree:
                return ()
            names = tuple(dict.fromkeys(names_in(call)))
            return (show(function, compiled(call, names)(*map(value, names))),)

        return say(tree, word, told=told)

    def _rows(self, call: ast.Call, show: Show) -> list[str]:
        """Return what each row brings to a sum or choice; nothing for months, hours, many cases.

        Rows that bring 0 are left out where that changes nothing, and so are factors of 1.
        """
        function, brought = call.func.id, call.args[0]  # type: ignore[attr-defined]
        names = tuple(dict.fromkeys(names_in(brought)))
        columns = dict(zip(names, np.broadcast_arrays(*(np.atleast_1d(self[n]) for n in names)), strict=True))
        if any(axis_of(n) != "by_row" or column.ndim > 1 for n, column in columns.items()):
            return []
        values = np.broadcast_to(compiled(brought, names)(*columns.values()), columns[names[0]].shape)
        counted = np.flatnonzero(values)
        if counted.size and function != "sum_of" and REDUCERS[function][0](values) == 0:
            counted = np.arange(values.size)  # here the 0 is the one that counts
        told = [
            say(brought, lambda n, row=row: show(n, columns[n][row]), after=function == "sum_of" and place > 0)  # type: ignore[misc]
            for place, row in enumerate(counted)
        ]
        return [_without_ones(each) for each in told] or ["0"]

    def broken(self) -> dict[str, Any]:
        """Return, by limit, whether it is broken: element by element where many were solved at once."""
        return {n: ~np.asarray(_kept(self[n])) for n, x in self.sheet.items() if x.severity}

    def findings(self, show: Show, rows: Sequence[str] = ()) -> list[Finding]:
        """Return what each limit line says, the worst first; margins over a list are judged by their worst.

        With the names of ``rows``, a limit ``by_row`` names its worst row and shows the numbers of that row.
        """
        found = []
        for n, x in self.sheet.items():
            if x.severity:
                worst = int(np.argmin(self[n])) if rows and axis_of(n) == "by_row" else None
                worked_in = partial(self.worked, x, place=worst)
                margin = float(np.min(self[n]))
                found.append(
                    Finding(
                        n,
                        x.label if worst is None else f"{x.label}, {rows[worst]}",
                        margin,
                        show(n, margin),
                        worked_in(show),
                        bool(_kept(margin)),
                        x.severity,
                        x.mend,
                        x.standing,
                        x.source,
                        worked_in,
                    )
                )
        return sorted(found, key=lambda f: (f.passed, SEVERITIES.index(f.severity)))


def value_at(values: Mapping[str, Any], name: str, place: int | None) -> Any:
    """Return a value; of one that owns an axis, one month, row or hour, counted from 0. A lone one stands for all.

    Parameters
    ----------
    values
        A solved worksheet, or any other values by name.
    name
        The quantity.
    place
        Which of them; ``None`` for the whole value.
    """
    value = values[name]
    if place is None or not axis_of(name) or not np.ndim(value):
        return value
    return value[place if len(value) > 1 else 0]


#: Reducers whose rows are written one by one, and factors that change nothing, as they read.
_ROW_BY_ROW = ("sum_of", "largest_of", "smallest_of")
_ONES = ("1", "100 %", "(1 − 0 %)")


def _without_ones(product: str) -> str:
    """Leave factors of 1 out of a product in words, and divisors of 1."""
    factors = [f.removesuffix(" ÷ 1") for f in product.split(" × ")]
    return " × ".join(f for f in factors if f not in _ONES) or "1"


def _kept(margin: Any) -> Any:
    """Whether a limit is kept; float noise below nothing to spare is forgiven, and no number at all is not."""
    return np.asarray(margin) >= -FORGIVEN


def _plain(name: str, value: Any) -> Any:
    """Give lists the shape of arrays and make numbers floats, whose powers cannot grow without end; leave tables."""
    if isinstance(value, float):
        return value
    if isinstance(value, int | np.integer):
        return float(value)
    if not isinstance(value, list | tuple | np.ndarray):
        return value
    try:
        return np.asarray(value, float)
    except (TypeError, ValueError):
        raise WorksheetError(f"{name}: a list of numbers is wanted, not {str(value)[:60]}") from None


def _worked(each: Line, values: Mapping[str, Any]) -> Any:
    try:
        arguments = [values[n] for n in each.needs]
    except KeyError:
        lack = ", ".join(n for n in each.needs if n not in values)
        raise WorksheetError(f"{each.label} ({each.name}) needs {lack}") from None
    if axis_of(each.name):
        arguments = [_slotted(*pair) for pair in zip(each.needs, arguments, strict=True)]
    try:
        worked = each.work(*arguments)
    except OffgridError as e:
        raise WorksheetError(f"{each.label}: {e}") from None
    except ZeroDivisionError:
        raise WorksheetError(f"{each.label} ({each.name}): division by zero in {each.expression}") from None
    except FloatingPointError as e:
        raise WorksheetError(f"{each.label} ({each.name}): {e} in {each.expression}") from None
    except (TypeError, ValueError, OverflowError) as e:
        raise WorksheetError(f"{each.label} ({each.name}) cannot be worked from what was given: {e}") from None
    if isinstance(worked, complex):
        raise WorksheetError(f"{each.label} ({each.name}): a power of a negative number in {each.expression}")
    return worked


def _slotted(name: str, value: Any) -> Any:
    """In a line that owns an axis, give every other array a slot for it, so that 12 steps never meet 12 months."""
    if not axis_of(name) and not isinstance(value, Table) and np.ndim(value):
        return np.asarray(value)[..., None]
    return value
