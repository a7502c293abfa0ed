"""One colour, dash and marker for each *kind of quantity*, the same in every picture.

Darkened from a colour-blind-safe set until each stands at least 4.5 : 1 against white (a test computes it).
Colour is never alone: every quantity has its own dash and its own marker, so grey print reads the same.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Ink:
    """How one kind of quantity is drawn."""

    colour: str
    dash: str
    marker: str
    pattern: str


SUN = Ink("#8F6000", "solid", "diamond", "/")
LOAD = Ink("#0072B2", "dash", "square", "\\")
STORE = Ink("#00705A", "solid", "circle", "x")
CURRENT = Ink("#5B4B9A", "dashdot", "triangle-up", "-")
LOSS = Ink("#96456F", "dot", "x", ".")
UNMET = Ink("#B23C00", "longdash", "star", "+")
MONEY = Ink("#4F5560", "longdashdot", "pentagon", "|")

PAPER = "#FFFFFF"
TEXT = "#1B1B1B"
GRID = "#D9D9D9"
GHOST = "#6B6B6B"
#: Dashes of the settings that a reader pins, first to third.
GHOST_DASHES = ("dash", "dot", "dashdot")
#: And their marks, where a setting has no line.
GHOST_MARKS = ("line-ns-open", "x-thin-open", "diamond-tall-open")
#: And their marks on a line: two dashes in the short line of a legend look much alike.
GHOST_POINTS = ("diamond-open", "triangle-left-open", "triangle-right-open")

FONT = {"family": "system-ui, 'Segoe UI', 'DejaVu Sans', Arial, sans-serif", "size": 12, "color": TEXT}


def layout(height: int = 460) -> dict[str, object]:
    """Return what every picture shares: white paper, readable type, no animation, no tool bar noise."""
    return {
        "height": height,
        "paper_bgcolor": PAPER,
        "plot_bgcolor": PAPER,
        "autosize": True,
        "font": FONT,
        "margin": {"l": 64, "r": 12, "t": 36, "b": 52},
        "legend": {"orientation": "h", "y": -0.16, "x": 0, "font": {"size": 11}},
        "hovermode": "closest",
        "bargap": 0.25,
        "separators": ".\u2009",
    }


def axis(title: str, from_zero: bool = True) -> dict[str, object]:
    """Return an axis with its title and unit, from zero unless said."""
    return {
        "title": {"text": title, "standoff": 8},
        "gridcolor": GRID,
        "zeroline": True,
        "zerolinecolor": GRID,
        "linecolor": TEXT,
        "ticks": "outside",
        "rangemode": "tozero" if from_zero else "normal",
    }
