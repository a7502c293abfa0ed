"""The picture of the inverter: what runs when, and what that asks of the inverter, moment by moment."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings, show
from offgrid_core.system.explore_inverter import APPLIANCES, MOMENTS, InverterDay

Pins = Sequence[tuple[str, InverterDay]]
_TRIPS, _BRIEF = ("more than it gives for a moment", "it trips"), ("only for a moment", "only for a start")
_FILL, _PALE = "#F8E6DE", "#F4F4F4"
#: How much of the picture is above the highest curve.
_TOP = 1.18
_DAY_ENDS = 24.0
#: What runs when; then two regions, two ratings, watts, volt-amps, starts, and the hardest of them.
_RUNS, _OWN = 1, 9


def make(view: InverterDay, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("What may run when", "What that asks of the inverter")
    figure = make_subplots(
        rows=2, cols=1, shared_xaxes=True, vertical_spacing=0.11, row_heights=[0.36, 0.64], subplot_titles=titles
    )
    figure.add_trace(_bars(), row=1, col=1)
    for trace in (*_power(), *parts.ghosts("hv")):
        figure.add_trace(trace, row=2, col=1)
    figure.update_layout(**palette.layout(500))
    figure.update_layout(separators=f"{settings.decimal}\u2009")
    figure.update_xaxes(range=[0, _DAY_ENDS], dtick=3, gridcolor=palette.GRID, ticks="outside")
    figure.update_xaxes(**palette.axis("time of day (h)"), row=2, col=1)
    figure.update_yaxes(autorange="reversed", automargin=True, row=1, col=1)
    figure.update_yaxes(**palette.axis("at the sockets (W, VA)"), row=2, col=1)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: InverterDay, pins: Pins, settings: Settings) -> None:
    """Put a view's data, and the starts of pinned views, into a picture made by :func:`make`."""
    bars, trips, brief, hot, surge, watts, volt_amps, starts, hardest = figure.data[:_OWN]
    ghosts = figure.data[_OWN:]
    parts.put(bars, np.array([a.hours_h for a in APPLIANCES]), tuple(a.name for a in APPLIANCES))
    parts.update(bars, "base", tuple(view.starts_h.tolist()))
    hot_w, surge_w = (float(view.point[n]) for n in ("inverter_hot_w", "inverter_surge_w"))
    top = _top_of(view)
    _put_region(trips, surge_w, top)
    _put_region(brief, hot_w, min(surge_w, top))
    for trace, name, value, words in (
        (hot, "inverter_hot_w", hot_w, "in this heat"),
        (surge, "inverter_surge_w", surge_w, "for a moment"),
    ):
        parts.put(trace, [0, _DAY_ENDS], np.full(2, value))
        parts.update(trace, "name", f"{words}: {show(name, value, settings, 3)}")
    for trace, values in ((watts, view.running_w), (volt_amps, view.running_va), (starts, view.surging_w)):
        parts.put(trace, _closed(MOMENTS, _DAY_ENDS), _closed(values, values[-1]))
    parts.put(hardest, [view.surge_at_h], [float(view.point["surge_w"])])
    parts.update(figure.layout.yaxis2, "range", (0.0, top))
    _put_ghosts(ghosts, pins)


def tables(view: InverterDay, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - h, W and VA in any setting
    """Return the numbers behind the picture: each moment at which something is switched on or off."""
    asked = np.stack([view.running_w, view.running_va, view.surging_w])
    turns = np.flatnonzero(np.r_[True, np.any(np.diff(asked), axis=0)])
    columns = {
        "from (h)": MOMENTS[turns],
        "running together (W)": view.running_w[turns],
        "running together (VA)": view.running_va[turns],
        "while the hardest motor starts (W)": view.surging_w[turns],
    }
    return [DataTable("What is asked of the inverter, from each moment on", columns)]


def _bars() -> go.Bar:
    ink = palette.LOAD
    pattern = {"shape": ink.pattern, "fgcolor": ink.colour, "size": 6, "solidity": 0.15}
    marker = {"color": "#E3EFF7", "line": {"color": ink.colour, "width": 1.5}, "pattern": pattern}
    return go.Bar(name="may run", orientation="h", marker=marker, showlegend=False, hoverinfo="skip")


def _power() -> list[go.Scatter]:
    load, current, loss, limit = palette.LOAD, palette.CURRENT, palette.LOSS, palette.MONEY
    return [
        _region(*_TRIPS, palette.UNMET, palette.UNMET.pattern, _FILL),
        _region(*_BRIEF, palette.MONEY, "/", _PALE),
        parts.line("rating", limit.colour, "dash"),
        parts.line("for a moment", limit.colour, limit.dash),
        parts.line("together, W", load.colour, "solid", shape="hv"),
        parts.line("together, VA", current.colour, current.dash, shape="hv"),
        parts.line("hardest start on top, W", loss.colour, loss.dash, shape="hv"),
        parts.mark("hardest start", loss.colour, loss.marker),
    ]


def _region(name: str, word: str, ink: palette.Ink, pattern: str, fill: str) -> go.Scatter:
    """Return an empty region with a word in its upper left corner."""
    return go.Scatter(
        name=name,
        mode="text",
        text=("", "", "", word),
        textposition="bottom right",
        textfont={"color": ink.colour, "size": 13},
        fill="toself",
        fillcolor=fill,
        fillpattern={"shape": pattern, "fgcolor": ink.colour, "size": 14, "solidity": 0.08},
        showlegend=False,
        hoverinfo="skip",
    )


def _top_of(view: InverterDay) -> float:
    highest = np.max([*view.surging_w, view.point["inverter_rated_w"]])
    return _TOP * float(highest)


def _closed(values: np.ndarray, last: float) -> np.ndarray:
    """Return the values with one more at the end, so that the last step is drawn to midnight."""
    return np.append(values, last)


def _put_region(region: Any, begins: float, ends: float) -> None:
    """Fill between two powers over the whole day; nothing where there is no room between them."""
    parts.update(region, "visible", begins < ends)
    parts.put(region, [0, _DAY_ENDS, _DAY_ENDS, 0], [begins, begins, ends, ends])


def _put_ghosts(ghosts: Sequence[Any], pins: Pins) -> None:
    for trace, pinned in parts.each_pin(ghosts, pins):
        parts.put(trace, _closed(MOMENTS, _DAY_ENDS), _closed(pinned.surging_w, pinned.surging_w[-1]))
