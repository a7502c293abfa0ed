"""The picture of the depth limit: the label it asks for, how long that label lasts, and what its energy costs."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings
from offgrid_core.system.explore_depth import DepthView

Pins = Sequence[tuple[str, DepthView]]
_DEEP_FILL = "#F8E6DE"
_WORDS = "deeper than this chemistry likes"
#: Room above the highest point of a picture.
_ROOM = 1.15
#: What each of the three pictures draws along the limit; the last of each is what a pin keeps.
_LABEL = ("label_at_hours_ah", "bank_needed_ah")
_LIFE = ("cycle_life_years", "calendar_life_years", "bank_life_years")
_PRICE = ("through_kwh_cost",)
_PICTURES = (_LABEL, _LIFE, _PRICE)


def make(view: DepthView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=2,
        cols=2,
        specs=[[{}, {}], [{"colspan": 2}, None]],
        row_heights=[0.6, 0.4],
        vertical_spacing=0.19,
        horizontal_spacing=0.12,
        subplot_titles=("What must be on the label", "How long it lasts", "What each kWh through the bank costs"),
    )
    for names, (row, col) in zip(_PICTURES, ((1, 1), (1, 2), (2, 1)), strict=True):
        for trace in _traces(names):
            figure.add_trace(trace, row=row, col=col)
    figure.update_layout(**palette.layout(560))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.13})
    figure.update_yaxes(**palette.axis("on the label (Ah)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("life (years)"), row=1, col=2)
    figure.update_yaxes(**palette.axis("price (cost for each kWh)"), row=2, col=1)
    symbol = settings.unit_for("depth_frac").symbol
    ends = _shown(view.depths[[0, -1]], settings)
    figure.update_xaxes(**palette.axis(f"depth limit ({symbol})", from_zero=False), range=tuple(ends))
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: DepthView, pins: Pins, settings: Settings) -> None:
    """Put a view's curves, and those of pinned views, into a picture made by :func:`make`."""
    rest, axes = list(figure.data), (figure.layout.yaxis, figure.layout.yaxis2, figure.layout.yaxis3)
    xs = _shown(view.depths, settings)
    for names, axis in zip(_PICTURES, axes, strict=True):
        own = len(names) + 2
        (deep, *lines, now), rest = rest[:own], rest[own:]
        ghosts, rest = rest[: parts.GHOSTS], rest[parts.GHOSTS :]
        top = _top(names, view, pins)
        parts.update(axis, "range", (0, top))
        _put_deep(deep, view, settings, top)
        for trace, name in zip(lines, names, strict=True):
            parts.put(trace, xs, view.along(name))
        parts.put(now, [float(_shown(view.depth, settings))], [_now(view, names[-1])])
        _put_pins(ghosts, pins, names[-1], settings)
    label = figure.data[1]
    parts.update(label, "name", f"as written on a label of {view.hours:.0f} hours")


def tables(view: DepthView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture."""
    symbol = settings.unit_for("depth_frac").symbol
    columns = {
        f"depth limit ({symbol})": _shown(view.depths, settings),
        "bank needed (Ah)": view.along("bank_needed_ah"),
        f"label of {view.hours:.0f} h (Ah)": view.along("label_at_hours_ah"),
        "hardest day's depth (%)": 100 * view.along("depth_day_frac"),
        "life by cycles (years)": view.along("cycle_life_years"),
        "life by age (years)": view.along("calendar_life_years"),
        "each kWh (cost)": view.along("through_kwh_cost"),
    }
    return [DataTable("Label, life and price along the depth limit", columns)]


def _shown(depths: Any, settings: Settings) -> np.ndarray:
    return np.asarray(settings.unit_for("depth_frac").from_canonical(depths))


def _now(view: DepthView, name: str) -> float:
    return float(view.label[name] if name in view.label else view.life[name])


def _top(names: Sequence[str], view: DepthView, pins: Pins) -> float:
    """Return how far a picture reaches: life by cycles alone may leave it, since age comes first there."""
    if names is _LIFE:
        names = _LIFE[1:]
    return _ROOM * max(float(np.max(v.along(n))) for n in names for v in (view, *(pinned for _, pinned in pins)))


def _traces(names: Sequence[str]) -> list[go.Scatter]:
    """Return the empty traces of one picture: region, lines, the point now, pins."""
    store, worn, aged, money = palette.STORE, palette.CURRENT, palette.LOSS, palette.MONEY
    drawn = {
        _LABEL: (
            parts.line("as written on a label", store.colour, "dash"),
            parts.line("bank needed", store.colour, "dot"),
            parts.mark("needed now", store.colour, store.marker),
        ),
        _LIFE: (
            parts.line("worn out by cycles", worn.colour, worn.dash),
            parts.line("worn out by age", aged.colour, aged.dash),
            parts.line("whichever comes first", palette.TEXT, "solid"),
            parts.mark("life now", palette.TEXT, "square"),
        ),
        _PRICE: (
            parts.line("price of a kWh", money.colour, money.dash),
            parts.mark("price now", money.colour, money.marker),
        ),
    }[tuple(names)]
    first = names is _LABEL
    return [_deep(first, "" if names is _PRICE else "too<br>deep"), *drawn, *parts.ghosts(showlegend=first)]


def _deep(first: bool, words: str) -> go.Scatter:
    """Return the empty region of limits that are too deep, with its words where there is a place for them."""
    ink = palette.UNMET
    return go.Scatter(
        name=_WORDS,
        mode="text",
        text=(words, "", "", ""),
        textposition="bottom right",
        textfont={"color": ink.colour, "size": 12},
        line={"width": 0},
        fill="toself",
        fillcolor=_DEEP_FILL,
        fillpattern={"shape": ink.pattern, "fgcolor": ink.colour, "size": 14, "solidity": 0.08},
        hoverinfo="skip",
        showlegend=first,
    )


def _put_deep(region: Any, view: DepthView, settings: Settings, top: float) -> None:
    """Fill from the chemistry's deepest limit to the end of the curve, where it ends deeper than that."""
    first, last = (float(_shown(x, settings)) for x in (view.depth_max, view.depths[-1]))
    parts.update(region, "visible", first < last)
    parts.put(region, [first, last, last, first], [top, top, 0, 0])


def _put_pins(ghosts: Sequence[Any], pins: Pins, name: str, settings: Settings) -> None:
    for trace, pinned in parts.each_pin(ghosts, pins):
        parts.put(trace, _shown(pinned.depths, settings), pinned.along(name))
