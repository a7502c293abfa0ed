"""One input of the worksheets: its words, its validity, and how its slider runs."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Quantity:
    """One input.

    Attributes
    ----------
    name, label, symbol
        Name with its unit ending; trade words; the short sign used in picture legends.
    low, high
        Validity, in the unit of the name. Both are ``nan`` for a table.
    slider
        Lowest, highest and step of its slider, or ``None`` when nobody slides it.
    """

    name: str
    label: str
    symbol: str
    low: float
    high: float
    slider: tuple[float, float, float] | None = None

    @property
    def is_table(self) -> bool:
        """Whether the input is a table read by lines, not a number."""
        return self.low != self.low


def number(
    name: str, label: str, low: float, high: float, slider: tuple[float, float, float] | None = None, symbol: str = ""
) -> Quantity:
    """Return an input that is a number; its sign in legends is its label if it has no other."""
    return Quantity(name, label, symbol or label, low, high, slider)


def table(name: str, label: str) -> Quantity:
    """Return an input that is a table."""
    return Quantity(name, label, label, float("nan"), float("nan"))
