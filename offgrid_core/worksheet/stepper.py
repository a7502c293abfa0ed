"""A worksheet worked step after step, each step beginning where the last one ended.

The lines are written once, and two ways of running them are made from their expressions: plain floats for one path,
and NumPy for many at once. A NumPy loop over one path would be fifty times slower than plain floats, and plain floats
over thousands of paths as much slower than NumPy. Only the lines that the next step needs are worked in the loop; with
the path known, the rest is a worksheet like any other, solved for all steps together.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet.plain import plain_source
from offgrid_core.worksheet.sheet import Sheet
from offgrid_core.worksheet.wide import WideWriter


class Stepper:
    """A worksheet with what it carries from step to step.

    Parameters
    ----------
    sheet
        The worksheet of one step. In the loop a line may use sums, products, ``larger``, ``smaller`` and ``at_least``.
    carried
        Input = line: the inputs that begin a step, and the line that says how the step ended.
    series
        Inputs that have their own value in every step.

    Examples
    --------
    >>> from offgrid_core.worksheet import line
    >>> @line("charge left", standing="physics")
    ... def store_end_wh(store_wh, drawn_wh):
    ...     return store_wh - drawn_wh
    >>> tank = Stepper(Sheet(store_end_wh), {"store_wh": "store_end_wh"}, ["drawn_wh"])
    >>> path, end = tank.path({}, {"drawn_wh": [1, 2, 3]}, {"store_wh": 10})
    >>> path["store_wh"].tolist(), end["store_wh"]
    ([10.0, 9.0, 7.0], 4.0)
    """

    def __init__(self, sheet: Sheet, carried: Mapping[str, str], series: Sequence[str]) -> None:
        self.sheet = sheet
        self.carried = dict(carried)
        self.series = tuple(series)
        self._loops: dict[frozenset[str], Callable[..., Any]] = {}
        moved = {n for name in carried for n in sheet.downstream(name)}
        fed = {n for name in series for n in sheet.downstream(name)} - moved
        #: Lines by what moves them: nothing, the series alone, or what is carried.
        self.fixed = Sheet(*(x for n, x in sheet.items() if n not in moved | fed))
        self.fed = Sheet(*(x for n, x in sheet.items() if n in fed))
        self.moved = Sheet(*(x for n, x in sheet.items() if n in moved))

    def path(
        self, given: Mapping[str, Any], series: Mapping[str, Any], start: Mapping[str, float]
    ) -> tuple[dict[str, np.ndarray], dict[str, float]]:
        """Run one path in plain floats.

        Parameters
        ----------
        given
            Every input that stays, single numbers.
        series
            One value a step for each of :attr:`series`.
        start
            What is carried into the first step.

        Returns
        -------
        path, end
            What each step began with, arrays of one value a step; and what is carried out of the last.
        """
        columns = {n: np.asarray(series[n], float) for n in self.series}
        known = self.fed.solve({**self.fixed.solve(given), **columns})
        constants, feeds = self._used
        positive = frozenset(n for n in (*constants, *feeds) if np.min(known[n]) >= 0)
        run = self._loop_of(positive)
        steps = columns[self.series[0]].size
        lists = [np.broadcast_to(known[n], steps).tolist() for n in feeds]
        try:
            *begun, ends = run([float(known[n]) for n in constants], lists, [float(start[n]) for n in self.carried])
        except (ZeroDivisionError, OverflowError) as e:
            raise WorksheetError(f"a step cannot be worked: {e}") from None
        path = {n: np.array(values) for n, values in zip(self.carried, begun, strict=True)}
        return path, dict(zip(self.carried, ends, strict=True))

    def totals(
        self,
        given: Mapping[str, Any],
        series: Mapping[str, np.ndarray],
        start: Mapping[str, Any],
        wanted: Sequence[str],
        shape: tuple[int, ...],
    ) -> tuple[dict[str, np.ndarray], dict[str, np.ndarray]]:
        """Run many paths at once and add up the lines wanted.

        Parameters
        ----------
        given
            Every input that stays; arrays broadcast to ``shape``.
        series
            Arrays whose first axis is the steps; what remains broadcasts to ``shape``.
        start
            What is carried into the first step.
        wanted
            Lines to add up over the steps; each must change from step to step.
        shape
            Of the paths.

        Returns
        -------
        totals, ends
            Sums of the lines wanted, and what is carried out of the last step; arrays of ``shape``.
        """
        if steady_lines := [n for n in wanted if n not in self.fed and n not in self.moved]:
            raise WorksheetError(f"{steady_lines[0]} is no line that changes from step to step, so nothing adds up")
        steady = self.fixed.solve(given)
        needed = self._needed(*wanted)
        loop = Sheet(*(x for part in (self.fed, self.moved) for n, x in part.items() if n in needed))
        used = {m for x in loop.values() for m in x.needs}
        feeds = {n: _narrowed(np.asarray(series[n], float)) for n in self.series if n in used or n == self.series[0]}
        constants = {n: _widened(np.asarray(steady[n], float), shape) for n in used if n in steady}
        carried = {n: np.array(np.broadcast_to(np.asarray(start[n], float), shape), order="C") for n in self.carried}
        sums = {n: np.zeros(shape) for n in wanted}
        shapes = {n: x.shape for n, x in constants.items()} | {n: x.shape[1:] for n, x in feeds.items()}
        writer = WideWriter(loop, self.carried, wanted, shapes, shape)
        run = _written(writer.source(list(constants), list(feeds)), vars(np))
        spare = [np.empty(shape) for _ in range(writer.spares)]
        with np.errstate(divide="raise", invalid="raise", over="raise"):
            try:
                run(constants, list(feeds.values()), carried, sums, spare, np.empty(shape, bool))
            except FloatingPointError as e:
                raise WorksheetError(f"a step cannot be worked: {e}") from None
        return sums, carried

    @cached_property
    def _used(self) -> tuple[list[str], list[str]]:
        """Names of the constants and of the feeds that the loop over one path reads."""
        used = [n for n in self.moved.upto(*self.carried.values()).inputs if n not in self.carried]
        feeds = [n for n in used if n in self.series or n in self.fed] or [self.series[0]]
        return [n for n in used if n not in feeds], feeds

    def _loop_of(self, positive: frozenset[str]) -> Callable[..., Any]:
        """Return the loop over one path where these quantities are never below 0; it is written only once."""
        if positive not in self._loops:
            lines = {n: x.tree for n, x in self.moved.upto(*self.carried.values()).items()}
            self._loops[positive] = _written(plain_source(lines, self.carried, *self._used, positive), {})
        return self._loops[positive]

    def _needed(self, *more: str) -> set[str]:
        """Return the lines that the next step and the lines wanted are worked from."""
        wanted = set(self.carried.values()) | set(more)
        return set(self.sheet.upto(*(wanted & set(self.sheet))))


def _widened(value: np.ndarray, shape: tuple[int, ...]) -> np.ndarray:
    """Give every path its own value, row by row: NumPy works several times faster on arrays of one shape and order."""
    return value if value.size == 1 else np.array(np.broadcast_to(value, shape), order="C")


def _narrowed(series: np.ndarray) -> np.ndarray:
    """Keep one number a step of a series that is the same for all paths."""
    flat = series.reshape(len(series), -1)
    return flat[:, 0] if np.all(flat == flat[:, :1]) else series


def _written(source: str, names: Mapping[str, Any]) -> Callable[..., Any]:
    """Make the function of a source that was written from checked expressions alone."""
    space: dict[str, Any] = {"__builtins__": {"zip": zip}, **names}
    exec(compile(source, "<steps>", "exec"), space)
    made: Callable[..., Any] = space["run"]
    return made
