"""Tables as givens: a published column that a line can read, and that refuses to guess beyond its ends."""

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from offgrid_core.errors import WorksheetError


@dataclass(frozen=True, eq=False)
class Table:
    """Values of ``y`` against ``x``.

    Attributes
    ----------
    label
        What the table gives, in words that read on before "at".
    x, y
        The columns; ``x`` rises.
    x_unit, y_unit
        Units as shown, for messages.
    source
        Where the rows come from.
    between
        How to read between rows: ``"straight"`` line; ``"log"``, straight on log–log paper; ``"next"``, the
        first row whose ``x`` is not below the wanted one (fuse sizes, cable sizes); ``"exact"``, rows only.
    sourced_from, sourced_to
        The span of ``x`` that the source covers; outside it the rows are invented classroom data.

    Examples
    --------
    >>> sizes = Table("next size up", (10.0, 15.0), (10.0, 15.0), "A", "A", between="next")
    >>> float(sizes(10.5))
    15.0
    """

    label: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    x_unit: str
    y_unit: str
    source: str = ""
    between: Literal["straight", "log", "next", "exact"] = "straight"
    sourced_from: float = -np.inf
    sourced_to: float = np.inf

    def __post_init__(self) -> None:
        """Refuse columns that cannot be read in one way only."""
        if len(self.x) != len(self.y) or len(self.x) < 1:
            raise WorksheetError(f"{self.label}: a table has as many x as y and at least one row")
        if not all(a < b for a, b in zip(self.x, (*self.x[1:], np.inf), strict=True)):
            raise WorksheetError(f"{self.label}: the x column of a table rises from row to row")
        object.__setattr__(self, "_columns", (np.asarray(self.x, float), np.asarray(self.y, float)))

    def __call__(self, x: Any) -> Any:
        """Read the table at ``x`` (a number or an array), or refuse.

        Raises
        ------
        WorksheetError
            If any ``x`` lies outside the rows; the message names the value and the span.
        """
        xs, ys = self._columns  # type: ignore[attr-defined]
        low = -np.inf if self.between == "next" else xs[0]
        slack = 1e-9 * (abs(xs[-1]) + 1)
        if np.any((x < low - slack) | (x > xs[-1] + slack) | np.isnan(x)):
            self._refuse(x, low)
        if self.between == "straight":
            return np.interp(x, xs, ys)
        if self.between == "log":
            return np.exp(np.interp(np.log(x), np.log(xs), np.log(ys)))
        row = np.minimum(np.searchsorted(xs, np.asarray(x) - slack), len(xs) - 1)
        if self.between == "exact" and np.any(missing := np.abs(xs[row] - x) > slack):
            raise WorksheetError(f"{self.label}: no row for {np.asarray(x)[missing].flat[0]:g} {self.x_unit}")
        return ys[row]

    def invented_at(self, x: float) -> bool:
        """Whether the row used at ``x`` lies outside the published span."""
        return not self.sourced_from - 1e-9 <= x <= self.sourced_to + 1e-9

    def _refuse(self, x: Any, low: float) -> None:
        span = f"{low:g} to {self.x[-1]:g}" if np.isfinite(low) else f"up to {self.x[-1]:g}"
        value = _worst(x, low, self.x[-1])
        raise WorksheetError(
            f"{self.label}: {value:g} {self.x_unit} is outside the table, which covers {span} {self.x_unit}"
        )


def _worst(x: Any, low: float, high: float) -> float:
    flat = np.ravel(np.asarray(x, float))
    return float(flat[np.argmax(np.where(np.isnan(flat), np.inf, np.maximum(low - flat, flat - high)))])
