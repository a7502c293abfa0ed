"""The picture of two banks over the years: what each comes to by the horizon, and by the discount rate."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings
from offgrid_core.system.explore_cost import HORIZONS, LARGE, RATES, SMALL, CostView

Pins = Sequence[tuple[str, CostView]]
#: Room above the highest point of a picture.
_ROOM = 1.12
_AXES = ("horizon", "rate")
_INKS = {SMALL: palette.LOSS, LARGE: palette.STORE}
_TURNS = 3


def make(view: CostView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("Cost by the horizon", "Cost by the discount rate")
    figure = make_subplots(rows=1, cols=2, horizontal_spacing=0.16, subplot_titles=titles)
    for col, axis in enumerate(_AXES, 1):
        for trace in _traces(axis):
            figure.add_trace(trace, row=1, col=col)
    figure.update_layout(**palette.layout(400))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.2})
    figure.update_yaxes(**palette.axis("in all (money of today)"), tickformat=",.0f")
    figure.update_xaxes(**palette.axis("horizon (years)"), range=(0, 40), col=1)
    symbol = settings.unit_for("discount_rate_frac").symbol
    ends = _rates(RATES[[0, -1]], settings)
    figure.update_xaxes(**palette.axis(f"discount rate above inflation ({symbol})"), range=tuple(ends), col=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: CostView, pins: Pins, settings: Settings) -> None:
    """Put a view's curves, and those of pinned views, into a picture made by :func:`make`."""
    own = 4 + parts.GHOSTS
    halves = figure.data[:own], figure.data[own:]
    now = (view.inputs["horizon_years"], _rates(view.inputs["discount_rate_frac"], settings))
    for traces, axis, here, height in zip(halves, _AXES, now, (figure.layout.yaxis, figure.layout.yaxis2), strict=True):
        curves = [view.along(which, axis) for which in (SMALL, LARGE)] + [v.along(SMALL, axis) for _, v in pins]
        top = _ROOM * max(float(np.max(curve)) for curve in curves)
        parts.update(height, "range", (0, top))
        xs = HORIZONS if axis == "horizon" else _rates(RATES, settings)
        small, large, mark, rule, *ghosts = traces
        parts.put(small, xs, view.along(SMALL, axis))
        parts.put(large, xs, view.along(LARGE, axis))
        parts.put(mark, [float(here)] * 2, [view.in_all(SMALL), view.in_all(LARGE)])
        if axis == "horizon":
            parts.put(rule, [float(here)] * 2, [0, top])
        else:
            _put_turns(rule, view, settings)
        _put_pins(ghosts, pins, axis, xs)


def tables(view: CostView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture."""
    symbol = settings.unit_for("discount_rate_frac").symbol
    every, whole_years = slice(None, None, 5), slice(None, None, 10)

    def both(axis: str, at: slice) -> dict[str, Any]:
        return {f"{which} bank (cost)": view.along(which, axis)[at] for which in (SMALL, LARGE)}

    by_rate = {f"discount rate ({symbol})": _rates(RATES, settings)[every], **both("rate", every)}
    return [
        DataTable("In all by the horizon", {"horizon (years)": HORIZONS[whole_years], **both("horizon", whole_years)}),
        DataTable("In all by the discount rate", by_rate),
    ]


def _rates(rates: Any, settings: Settings) -> np.ndarray:
    return np.asarray(settings.unit_for("discount_rate_frac").from_canonical(rates))


def _traces(axis: str) -> list[go.Scatter]:
    """Return the empty traces of one picture: the two banks, the setting, the horizon or the turn, pins."""
    first = axis == "horizon"
    shape = "vh" if first else "linear"
    banks = (
        parts.line(f"the {which} bank and all later ones", ink.colour, ink.dash, shape).update(showlegend=first)
        for which, ink in _INKS.items()
    )
    now = parts.mark("now", palette.TEXT, "square").update(marker={"symbol": [i.marker for i in _INKS.values()]})
    rule = parts.line("horizon", palette.TEXT, "dot") if first else _turn_marks()
    return [*banks, now, rule, *parts.ghosts(shape, showlegend=first)]


def _turn_marks() -> go.Scatter:
    marker = {"symbol": "circle-open", "color": palette.TEXT, "size": 16, "line": {"width": 2}}
    return go.Scatter(
        name="here the choice turns",
        mode="markers+text",
        marker=marker,
        text=("here it turns",) * _TURNS,
        textposition="top right",
        hoverinfo="skip",
    )


def _put_turns(marks: Any, view: CostView, settings: Settings) -> None:
    """Mark the first rates at which the choice turns."""
    rates = np.asarray(view.turns[:_TURNS])
    heights = np.interp(rates, RATES, view.along(SMALL, "rate"))
    parts.put(marks, _rates(rates, settings), heights)


def _put_pins(ghosts: Sequence[Any], pins: Pins, axis: str, xs: np.ndarray) -> None:
    """Keep the small bank's curve of each pinned view."""
    told = [(f"small bank, {legend}", pinned) for legend, pinned in pins]
    for trace, pinned in parts.each_pin(ghosts, told):
        parts.put(trace, xs, pinned.along(SMALL, axis))
