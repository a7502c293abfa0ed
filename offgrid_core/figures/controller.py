"""The picture of the charge controller: a string's volts along the cold, and for each number of modules in a row."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings
from offgrid_core.system.explore_controller import COUNTS, StringWindow

Pins = Sequence[tuple[str, StringWindow]]
_TOO_HIGH, _TOO_LOW = "unsafe: the<br>controller is destroyed", "no charging"
#: The regions lie over the bars, and let them be seen.
_HIGH_FILL, _LOW_FILL, _BAR_FILL = "rgba(178, 60, 0, 0.13)", "rgba(79, 85, 96, 0.10)", "#F3E6C4"
#: How far the picture reaches above the highest of the limit and the strings' own volts.
_TOP = 1.25
#: A region lower than this share of the picture has no room for its words.
_THIN = 0.08
#: Too high, too low, limit, needed; then the curve by the coefficient, by the code's table, and the point now.
_SHARED, _OWN = 4, 3


def make(view: StringWindow, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("Open, in the cold", "Hot foot, cold top")
    figure = make_subplots(rows=1, cols=2, shared_yaxes=True, horizontal_spacing=0.05, subplot_titles=titles)
    for traces, column in (
        (_regions(), 1),
        (_curves(), 1),
        (parts.marked_ghosts(), 1),
        (_regions(shown=False), 2),
        ((_bars(), parts.mark("now", palette.SUN.colour, palette.SUN.marker)), 2),
    ):
        for trace in traces:
            figure.add_trace(trace, row=1, col=column)
    figure.update_layout(**palette.layout(480))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.2})
    figure.update_xaxes(**palette.axis(parts.axis_title("air_coldest_c", settings), from_zero=False), row=1, col=1)
    figure.update_xaxes(**palette.axis("modules in a row (number)", from_zero=False), row=1, col=2)
    figure.update_xaxes(dtick=1, range=[COUNTS[0] - 0.5, COUNTS[-1] + 0.5], row=1, col=2)
    figure.update_yaxes(**palette.axis("voltage of the string (V)"))
    figure.update_yaxes(title=None, row=1, col=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: StringWindow, pins: Pins, settings: Settings) -> None:
    """Put a view's volts, and the curves of pinned views, into a picture made by :func:`make`."""
    left, rest = figure.data[:_SHARED], figure.data[_SHARED:]
    curve, table, now = rest[:_OWN]
    ghosts, rest = rest[_OWN : _OWN + parts.GHOSTS], rest[_OWN + parts.GHOSTS :]
    right, (bars, top_now) = rest[:_SHARED], rest[_SHARED:]
    top = _TOP * max(view.limit_v, view.now_v, *(pinned.now_v for _, pinned in pins))
    airs = _shown_c(view.airs_c, settings)
    _put_regions(left, view, airs[0], airs[-1], top)
    _put_regions(right, view, COUNTS[0] - 0.5, COUNTS[-1] + 0.5, top)
    parts.put(curve, airs, view.open_v)
    parts.update(table, "visible", view.table_v is not None)
    parts.put(table, airs, np.full(airs.shape, np.nan) if view.table_v is None else view.table_v)
    parts.put(now, [_air_now(view, settings)], [view.now_v])
    parts.put(bars, COUNTS, view.cold_v - view.hot_v)
    parts.update(bars, "base", tuple(view.hot_v.tolist()))
    chosen = [count == view.in_series for count in COUNTS]
    parts.update(bars.marker.pattern, "shape", tuple(palette.SUN.pattern if each else "" for each in chosen))
    parts.put(top_now, [view.in_series], [view.now_v])
    parts.update(figure.layout.yaxis, "range", (0, top))
    for trace, pinned in parts.each_pin(ghosts, pins):
        parts.put_marked(
            trace, (_shown_c(pinned.airs_c, settings), pinned.open_v), _air_now(pinned, settings), pinned.now_v
        )


def tables(view: StringWindow, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture."""
    unit = settings.unit_for("air_coldest_c").symbol
    cold = {f"coldest air ({unit})": _shown_c(view.airs_c, settings), "by the coefficient (V)": view.open_v}
    if view.table_v is not None:
        cold["by the code's table (V)"] = view.table_v
    rows = {
        "modules in a row (number)": COUNTS,
        "hot day, working (V)": view.hot_v,
        "cold morning, open (V)": view.cold_v,
    }
    return [DataTable("Volts of the string along the cold", cold), DataTable("Volts for each number of modules", rows)]


def _shown_c(values: Any, settings: Settings) -> np.ndarray:
    return np.asarray(settings.unit_for("air_coldest_c").from_canonical(values))


def _air_now(view: StringWindow, settings: Settings) -> float:
    return float(_shown_c(view.point["air_coldest_c"], settings))


def _regions(shown: bool = True) -> list[go.Scatter]:
    """Return the empty regions and lines that both halves have; their legend stands there once."""
    high, low = palette.UNMET, palette.MONEY
    return [
        _region(_TOO_HIGH, high, _HIGH_FILL, high.pattern, "bottom right" if shown else "", shown),
        _region(_TOO_LOW, low, _LOW_FILL, "/", "top right" if shown else "", shown),
        parts.line("controller's highest voltage", high.colour, high.dash).update(showlegend=shown),
        parts.line("what charging needs", low.colour, low.dash).update(showlegend=shown),
    ]


def _region(name: str, ink: palette.Ink, fill: str, pattern: str, words: str, shown: bool) -> go.Scatter:
    """Return an empty region, with its words inside where there is a place for them."""
    return go.Scatter(
        name=name.replace("<br>", " "),
        mode="text" if words else "lines",
        line={"width": 0},
        text=(name, "", "", ""),
        textposition=words or "top right",
        textfont={"color": ink.colour, "size": 13},
        fill="toself",
        fillcolor=fill,
        fillpattern={"shape": pattern, "fgcolor": ink.colour, "size": 14, "solidity": 0.08},
        hoverinfo="skip",
        showlegend=shown,
    )


def _put_regions(traces: Sequence[Any], view: StringWindow, first: float, last: float, top: float) -> None:
    """Fill above the limit and below what charging needs, and draw both as lines; words stand in the outer corners."""
    high, low, limit, needed = traces
    across = [first, last, last, first]
    parts.put(high, across, [top, top, view.limit_v, view.limit_v])
    parts.put(low, across, [0, 0, view.needed_v, view.needed_v])
    parts.update(low, "text", (_TOO_LOW if view.needed_v > _THIN * top else "", "", "", ""))
    parts.put(limit, [first, last], [view.limit_v] * 2)
    parts.put(needed, [first, last], [view.needed_v] * 2)


def _curves() -> list[go.Scatter]:
    ink = palette.SUN
    return [
        parts.line("open circuit, by the module's coefficient", ink.colour, ink.dash),
        parts.line("open circuit, by the code's table", ink.colour, "dot", shape="hvh"),
        parts.mark("coldest morning", ink.colour, ink.marker),
    ]


def _bars() -> go.Bar:
    ink = palette.SUN
    marker = {
        "color": _BAR_FILL,
        "line": {"color": ink.colour, "width": 1.5},
        "pattern": {"fgcolor": ink.colour, "size": 6},
    }
    return go.Bar(
        name="from hot day, working, to cold morning, open",
        marker=marker,
        width=0.5,
    )
