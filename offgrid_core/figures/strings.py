"""The picture of strings: the units in their rows with rails and main leads, and how the rows share the current."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import Columns, DataTable
from offgrid_core.quantities import Settings
from offgrid_core.system.explore_strings import StringsView

StringPins = Sequence[tuple[str, StringsView]]
#: How far the rails stand from the rows' ends, and how far the main leads go on from there, in units.
_RAIL, _LEAD = 0.7, 1.6
#: The picture's room for the rows, in points; a unit is drawn no larger than the last figure.
_ACROSS, _DOWN, _LARGEST = 300, 260, 26
#: So many bars are tall enough to be written on; the table below has the numbers of all.
_WRITTEN = 12
#: What is written stands clear of a pin's mark at the end of its bar.
_BESIDE = "\u2002\u2002"
#: From so many strings on, every fourth has its number.
_MANY = 16
_GAP = np.nan


def make(view: StringsView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=1,
        cols=2,
        shared_yaxes=True,
        column_widths=[0.56, 0.44],
        horizontal_spacing=0.04,
        subplot_titles=("The units in their rows", "Who carries how much"),
    )
    for traces, column in ((_rows(), 1), (_shares(), 2)):
        for trace in traces:
            figure.add_trace(trace, row=1, col=column)
    figure.update_layout(**palette.layout(430))
    figure.update_xaxes(**palette.axis("place in the string (units, from the − end)", from_zero=False), row=1, col=1)
    figure.update_xaxes(**palette.axis("share of the current (%)"), row=1, col=2)
    figure.update_yaxes(autorange="reversed", ticks="outside", gridcolor=palette.GRID, zeroline=False)
    figure.update_yaxes(tickmode="array")
    figure.update_yaxes(title={"text": "string (number)", "standoff": 8}, row=1, col=1)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: StringsView, pins: StringPins, settings: Settings) -> None:  # noqa: ARG001 - no units in it
    """Put a view's rows and shares, and the shares of pinned views, into a picture made by :func:`make`."""
    links, minus, plus, leads, units, loose, bars, equal, most, *marks = figure.data
    numbers = np.arange(1, view.strings + 1)
    _put_rows(links, minus, plus, leads, view)
    places = np.arange(1, view.series + 1)
    parts.put(units, np.tile(places, view.strings), np.repeat(numbers, view.series))
    parts.put(loose, np.arange(1, view.left_over + 1), np.full(view.left_over, view.strings + 1))
    _put_sizes((units, loose), view)
    parts.put(bars, 100 * np.array(view.shares), numbers)
    written = view.shares if view.strings <= _WRITTEN else ()
    parts.update(bars, "text", tuple(f"{_BESIDE}{100 * share:.3g} %" for share in written))
    parts.update(bars.marker.pattern, "shape", tuple("+" if too_much else "" for too_much in _too_much(view)))
    ends = [0.5, view.strings + 0.5]
    for trace, name in ((equal, "equal_share_frac"), (most, "most_share_frac")):
        share = np.nan if view.sharing is None else float(view.sharing[name])
        parts.put(trace, [100 * share] * 2, ends)
    _put_pins(marks, pins)
    # what is left over, and what pads the axis, has no number: it is no string
    most_strings = max([view.strings, *(pinned.strings for _, pinned in pins)])
    for axis in (figure.layout.yaxis, figure.layout.yaxis2):
        parts.update(axis, "tickvals", np.arange(1, most_strings + 1, 1 if most_strings < _MANY else 4))


def tables(view: StringsView, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - no units in it
    """Return the numbers behind the picture, a row a string."""
    columns: Columns = {
        "string (number)": np.arange(1, view.strings + 1),
        "units in it (number)": np.full(view.strings, view.series),
        "share of the current (%)": 100 * np.array(view.shares),
        "more than usually accepted": tuple("yes" if each else "no" for each in _too_much(view)),
    }
    return [DataTable("Strings, and the share of the current that each carries", columns)]


def _rows() -> list[go.Scatter]:
    """Return the empty traces of the rows: links, rails, main leads, units, and what is left over."""
    wire, store, loose = palette.CURRENT, palette.STORE, palette.UNMET
    return [
        parts.line("links in a string", store.colour, "solid"),
        parts.line("− side", wire.colour, "dash"),
        parts.line("+ side", wire.colour, "solid"),
        go.Scatter(
            name="main leads",
            mode="markers+text",
            text=("−", "+"),
            textposition="top center",
            textfont={"size": 16},
            marker={"color": palette.PAPER, "size": 11, "line": {"color": wire.colour, "width": 2.2}},
            showlegend=False,
        ),
        go.Scatter(
            name="battery unit",
            mode="markers",
            marker={"symbol": "square", "color": "#CBE5DE", "line": {"color": store.colour, "width": 2}},
        ),
        go.Scatter(
            name="left over, in no string",
            mode="markers",
            marker={"symbol": "square-x-open", "color": loose.colour, "line": {"color": loose.colour, "width": 2}},
        ),
    ]


def _shares() -> list[Any]:
    """Return the empty traces of the shares: bars, what would be equal, what is usually accepted, and pins."""
    ink = palette.CURRENT
    bars = {"color": "#DDD8EE", "line": {"color": ink.colour, "width": 1.5}, "pattern": {"fgcolor": ink.colour}}
    written = {"textposition": "auto", "insidetextanchor": "start", "textangle": 0}
    return [
        go.Bar(name="share of a string (crossed: too much)", orientation="h", marker=bars, **written),
        parts.line("equal share", palette.MONEY.colour, palette.MONEY.dash),
        parts.line("a tenth more, usually accepted", palette.UNMET.colour, palette.UNMET.dash),
        *parts.ghost_marks(18),
    ]


def _put_rows(links: Any, minus: Any, plus: Any, leads: Any, view: StringsView) -> None:
    """Draw the links inside the strings, a rail at each end of them, and the two main leads."""
    last, top, bottom = view.series, 1.0, float(view.strings)
    numbers = np.arange(1, view.strings + 1)
    parts.put(links, np.tile([1 - _RAIL, last + _RAIL, _GAP], view.strings), np.repeat(numbers, 3))
    if not view.strings:
        for trace in (minus, plus, leads):
            parts.put(trace, [], [])
        return
    middle = (top + bottom) / 2
    at = {"same end": (top, top), "diagonal": (bottom, top), "bus bars": (middle, middle)}[view.placement]
    ends = (1 - _LEAD, last + _LEAD)
    for trace, rail, end, y in zip((minus, plus), (1 - _RAIL, last + _RAIL), ends, at, strict=True):
        parts.put(trace, [rail, rail, _GAP, rail, end], [top, bottom, _GAP, y, y])
        parts.update(trace.line, "width", 7 if view.placement == "bus bars" and view.strings > 1 else 2.2)
    parts.put(leads, np.array(ends), np.array(at))


def _put_sizes(traces: Sequence[Any], view: StringsView) -> None:
    across, down = max(view.series, view.left_over) + 2 * _LEAD, view.strings + 1
    size = max(4.0, min(_LARGEST, 0.7 * _ACROSS / across, 0.7 * _DOWN / down))
    for trace in traces:
        parts.update(trace.marker, "size", size)


def _too_much(view: StringsView) -> list[bool]:
    most = np.inf if view.sharing is None else float(view.sharing["most_share_frac"])
    return [share > most for share in view.shares]


def _put_pins(marks: Sequence[Any], pins: StringPins) -> None:
    for mark, pinned in parts.each_pin(marks, pins):
        parts.put(mark, 100 * np.array(pinned.shares), np.arange(1, pinned.strings + 1))
