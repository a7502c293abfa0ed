"""How one line of a worksheet reads the text formulas of ``tests/mistakes``."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from mistakes.groups import GROUPS
from mistakes.text_formulas import evaluate

ROWS = {id_: row for group in GROUPS for id_, row in group.ROWS.items()}
Page = Mapping[str, object]


@dataclass(frozen=True)
class Reading:
    """How a line of the worksheet reads a text formula.

    Attributes
    ----------
    names
        From what stands on the page to the source's parameters.
    upside_down
        Whether what the source divides by is the line, not what it comes to.
    again
        Lines that the text works once more instead of beginning from what the page has there.
    beside
        A part of the line that the text does not speak of, and that stays as it is.
    """

    names: Callable[[Page], dict[str, object]]
    upside_down: bool = False
    again: tuple[str, ...] = ()
    beside: Callable[[Page], float] = lambda _: 0.0

    def wrong(self, id_: str, page: Page, right: float) -> float:
        """Return the line of somebody with the mistake, from the same line worked rightly."""
        p = self.names(page)
        correct, wrong = (evaluate(ROWS[id_][f"{w}_formula"], p) for w in ("correct", "wrong"))
        factor = correct / wrong if self.upside_down else wrong / correct
        rest = self.beside(page)
        return rest + (right - rest) * factor
