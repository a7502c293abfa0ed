"""Questions asked of a whole worksheet: which input gives a wanted result, and which input matters most."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet.grammar import axis_of
from offgrid_core.worksheet.sheet import Sheet

_POINTS = 513
_ZOOMS = 6


@dataclass(frozen=True)
class Crossing:
    """Where a result passes a wanted value as one input moves.

    Attributes
    ----------
    below, above
        Values of the input on either side, ``below < above``; they meet where the result is smooth, and are
        the two feet of a stair where it jumps.
    result_below, result_above
        The result at those two.
    jumps
        Whether the result jumps over the wanted value instead of taking it.
    """

    below: float
    above: float
    result_below: float
    result_above: float
    jumps: bool


def solve_for(
    sheet: Sheet, unknown: str, result: str, wanted: float, given: Mapping[str, Any], span: tuple[float, float]
) -> Crossing:
    """Find the input that makes a line take a wanted value.

    Parameters
    ----------
    sheet
        The worksheet.
    unknown
        The input to find; any value given for it is ignored.
    result
        The line that shall take the wanted value.
    wanted
        That value, in the line's unit.
    given
        All other inputs, single numbers.
    span
        The lowest and highest value of the input to look between.

    Raises
    ------
    WorksheetError
        If the result rises *and* falls within the span, does not move at all, or does not reach the value.

    Notes
    -----
    513 points at once, then six times again between the two that straddle the value. No derivative is used,
    so stairs are as good as slopes.
    """
    work = sheet.upto(result)
    if unknown not in work.inputs:
        raise WorksheetError(f"{result} does not depend on {unknown}")
    if axis_of(unknown):
        raise WorksheetError(f"{unknown} is a list of values; only a single number can be looked for")

    def results(xs: np.ndarray) -> np.ndarray:
        return np.broadcast_to(np.asarray(work.solve({**given, unknown: xs})[result], float), xs.shape)

    low, high = span
    xs = np.linspace(low, high, _POINTS)
    ys = results(xs)
    rises, noise = np.diff(ys), 1e-12 * np.max(np.abs(ys))
    if np.any(rises > noise) and np.any(rises < -noise):
        raise WorksheetError(
            f"{result} both rises and falls between {low:g} and {high:g} of {unknown}: no single answer"
        )
    if ys[0] == ys[-1]:
        raise WorksheetError(f"{result} does not move between {low:g} and {high:g} of {unknown}")
    if not min(ys[0], ys[-1]) <= wanted <= max(ys[0], ys[-1]):
        raise WorksheetError(
            f"{result} goes from {ys[0]:g} to {ys[-1]:g} as {unknown} goes from {low:g} to {high:g}; "
            f"it does not reach {wanted:g}"
        )
    upward, step = ys[-1] > ys[0], 1e-6 * abs(ys[-1] - ys[0])
    for _ in range(_ZOOMS):
        beyond = ys >= wanted if upward else ys <= wanted
        first = max(int(np.argmax(beyond)), 1)
        xs = np.linspace(xs[first - 1], xs[first], _POINTS)
        ys = results(xs)
    jumps = bool(abs(ys[-1] - ys[0]) > step)
    return Crossing(float(xs[0]), float(xs[-1]), float(ys[0]), float(ys[-1]), jumps)


@dataclass(frozen=True)
class Swing:
    """How far one input moves a result between its low and its high end."""

    name: str
    low: float
    high: float
    result_low: float
    result_high: float

    @property
    def size(self) -> float:
        """Distance between the two results."""
        return abs(self.result_high - self.result_low)


def sensitivity(
    sheet: Sheet, result: str, given: Mapping[str, Any], spans: Mapping[str, tuple[float, float]]
) -> list[Swing]:
    """Move one input at a time from its low to its high end and see what the result does.

    Parameters
    ----------
    sheet, result, given
        The worksheet, the line watched, and all inputs at their present values.
    spans
        Low and high end of each input to move.

    Returns
    -------
    list of Swing
        The input that matters most first.
    """
    work = sheet.upto(result)
    swings = []
    for name, (low, high) in spans.items():
        at_low, at_high = (float(work.solve({**given, name: end})[result]) for end in (low, high))
        swings.append(Swing(name, low, high, at_low, at_high))
    return sorted(swings, key=lambda s: -s.size)
