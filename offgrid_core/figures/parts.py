"""Pieces that pictures share: lines and marks in a quantity's ink, and putting new data into them."""

from collections.abc import Iterator, Sequence
from typing import Any, TypeVar

import numpy as np
import plotly.graph_objects as go

from offgrid_core.figures import palette
from offgrid_core.quantities import Settings, label_of, quantity, show
from offgrid_core.system.explore import HEADLINE, ChainView
from offgrid_core.worksheet import Solved

GHOSTS = len(palette.GHOST_DASHES)
#: How large the mark of a pinned setting is.
_PINNED = 11
#: What a value needs beside its unit to be known, in the legend of a pin; the others go by their symbols.
_SAID = {
    "autonomy_days": "{}",
    "depth_frac": "{} deep",
    "battery_temp_c": "{}",
    "array_load_ratio": "array {} times the load",
    "inverter_rated_w": "{}",
    "inverter_eff_frac": "efficiency {}",
    "inverter_idle_w": "idle {}",
    "inverter_on_h": "on for {}",
    "growth_factor": "load times {}",
}
Pins = Sequence[tuple[str, ChainView]]
View = TypeVar("View")


def line(name: str, colour: str, dash: str, shape: str = "linear") -> go.Scatter:
    """Return an empty line."""
    return go.Scatter(name=name, mode="lines", line={"color": colour, "dash": dash, "shape": shape, "width": 2.2})


def mark(name: str, colour: str, symbol: str) -> go.Scatter:
    """Return an empty mark for the present point."""
    marker = {"color": colour, "symbol": symbol, "size": 12, "line": {"color": colour, "width": 2}}
    return go.Scatter(name=name, mode="markers", marker=marker, showlegend=False)


def bank() -> list[go.Scatter]:
    """Return the bank's empty traces: needed and as built along the curve, then both now."""
    ink = palette.STORE
    return [
        line("bank needed", ink.colour, "dot"),
        line("bank as built", ink.colour, "solid", shape="hv"),
        mark("needed now", ink.colour, "circle-open"),
        mark("built now", ink.colour, ink.marker),
    ]


def put_bank(traces: Sequence[Any], view: ChainView, settings: Settings) -> None:
    """Put a view into traces made by :func:`bank`."""
    needed, built, needed_now, built_now = traces
    for along, now, name in ((needed, needed_now, "bank_needed_ah"), (built, built_now, "bank_ah")):
        put(along, along_axis(view, settings), view.along(name))
        put(now, [here(view, settings)], [view.at(name)])


def bank_columns(view: ChainView, settings: Settings) -> dict[str, np.ndarray]:
    """Return the columns that the bank's curves bring to a table: the input along them, and the bank."""
    return {
        axis_title(view.against, settings): along_axis(view, settings),
        "bank needed (Ah)": view.along("bank_needed_ah"),
        "bank as built (Ah)": view.along("bank_ah"),
    }


def broken_marks() -> go.Scatter:
    """Return an empty row of crosses for where a limit is broken."""
    marker = {"symbol": "x", "color": palette.UNMET.colour, "size": 6}
    return go.Scatter(name="a limit is broken here", mode="markers", marker=marker)


def ghosts(shape: str = "linear", **more: Any) -> list[go.Scatter]:
    """Return the empty lines of pinned settings; ``more`` is what else is set on each."""
    return [
        line(f"pin {i}", palette.GHOST, dash, shape).update(visible=False, **more)
        for i, dash in enumerate(palette.GHOST_DASHES, 1)
    ]


def marked_ghosts(shape: str = "linear") -> list[go.Scatter]:
    """Return the same for :func:`put_marked`: of its points only the pinned one will have a mark."""
    made = ghosts(shape, mode="lines+markers", marker={"size": 0, "line": {"width": 2}})
    return [each.update(marker_symbol=symbol) for each, symbol in zip(made, palette.GHOST_POINTS, strict=True)]


def ghost_marks(size: int, symbols: Sequence[str] = palette.GHOST_MARKS, width: float = 2) -> list[go.Scatter]:
    """Return the empty marks of pinned settings, where there is a value and no curve."""
    marker = {"size": size, "color": palette.GHOST, "line": {"width": width}}
    return [
        go.Scatter(name=f"pin {i}", mode="markers", marker={**marker, "symbol": symbol}, visible=False)
        for i, symbol in enumerate(symbols, 1)
    ]


def each_pin(ghosts: Sequence[Any], pins: Sequence[tuple[str, View]]) -> Iterator[tuple[Any, View]]:
    """Hide the spare ghosts; show one for each pin, with its legend, and yield it with the view that goes into it."""
    for trace in ghosts[len(pins) :]:
        update(trace, "visible", False)
    for trace, (legend, pinned) in zip(ghosts, pins, strict=False):
        update(trace, "visible", True)
        update(trace, "name", legend)
        yield trace, pinned


def put_marked(trace: Any, curve: tuple[Any, Any], x: float, y: float) -> None:
    """Put in a pinned curve, with a mark where its setting stood: that tells two pins of one curve apart."""
    xs, ys = map(np.asarray, curve)
    place = int(np.searchsorted(xs, x))
    put(trace, np.insert(xs, place, x), np.insert(ys, place, y))
    update(trace.marker, "size", np.where(np.arange(len(xs) + 1) == place, _PINNED, 0))


def put(trace: Any, x: Any, y: Any) -> None:
    """Put data into a trace; names of months or rows, a tuple of words, stay one."""
    for name, values in (("x", x), ("y", y)):
        update(trace, name, values if isinstance(values, tuple) else np.asarray(values))


def update(thing: Any, name: str, value: Any) -> None:
    """Set one property of a picture, if it is new: an unchanged one would still make the page draw again."""
    old = thing[name]
    if not _same(old, value):
        thing[name] = value


def _same(old: Any, new: Any) -> bool:
    if not isinstance(new, np.ndarray):
        return bool(old == new)
    return old is not None and np.array_equal(np.asarray(old), new, equal_nan=new.dtype.kind == "f")


def put_ghosts(traces: Sequence[Any], pins: Pins, view: ChainView, shown: str, settings: Settings) -> None:
    """Show each pinned curve that is drawn along the same input; hide the other slots."""
    fitting = [(legend, pinned) for legend, pinned in pins if pinned.against == view.against]
    for trace, pinned in each_pin(traces, fitting):
        curve = along_axis(pinned, settings), pinned.along(shown)
        put_marked(trace, curve, here(pinned, settings), pinned.at(shown))


def along_axis(view: ChainView, settings: Settings) -> np.ndarray:
    """Return the values along the curve in the reader's unit."""
    return np.asarray(settings.unit_for(view.against).from_canonical(view.xs))


def here(view: ChainView, settings: Settings) -> float:
    """Return where the present setting stands along the curve, in the reader's unit."""
    return float(settings.unit_for(view.against).from_canonical(view.point[view.against]))


def axis_title(name: str, settings: Settings) -> str:
    """Return the title of an axis: label and unit."""
    return f"{label_of(name)} ({settings.unit_for(name).symbol})"


def legend_of(view: ChainView, settings: Settings) -> str:
    """Return a short legend of a setting: the three headline inputs."""
    return symbols(HEADLINE, view.point, settings)


def symbols(names: Sequence[str], solved: Solved, settings: Settings) -> str:
    """Return inputs in a few words or by their symbols, as the legend of a pin has room for."""
    return " · ".join(_SAID.get(n, quantity(n).symbol + " {}").format(show(n, solved[n], settings, 3)) for n in names)
