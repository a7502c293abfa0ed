"""Reference tables beside a problem: sizes, ratings and factors that somebody looks up while working it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from offgrid_core.quantities import Settings, menu
from offgrid_core.quantities.text import number

#: Figures of a listed number; enough for what a code prints.
_FIGURES = 4


@dataclass(frozen=True)
class Listing:
    """One table, its columns side by side across the page.

    Attributes
    ----------
    caption
        What it is a table of, with its source in short.
    rows
        Words, the quantity whose values follow, and the values; the words of the quantity where they are empty. A unit
        of its menu may stand after a colon. Values may be texts.
    """

    caption: str
    rows: tuple[tuple[str, str, Sequence[float | str]], ...]

    def shown(self, word: Callable[[str], str], settings: Settings) -> tuple[str, list[list[str]]]:
        """Return caption and rows of text, the first being the head."""
        return self.caption, [self._row(*row, word, settings) for row in self.rows]

    def _row(
        self, words: str, name: str, values: Sequence[float | str], word: Callable[[str], str], settings: Settings
    ) -> list[str]:
        quantity, _, symbol = name.partition(":")
        units = {u.symbol: u for u in menu(quantity)}
        unit = units[symbol] if symbol else settings.unit_for(quantity)
        head = ", ".join(filter(None, (words or word(quantity), unit.symbol)))
        told = [v if isinstance(v, str) else number(float(unit.from_canonical(v)), _FIGURES, settings) for v in values]
        return [head, *told]
