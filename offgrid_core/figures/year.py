"""Pictures of simulated years: a ribbon of each day's lowest charge, one week of hours, and where the energy went.

Each can be had alone (:func:`ribbon`, :func:`week`, :func:`places`), and all three together in the panel's picture.
What they say in words, and the numbers behind them, stands in :mod:`offgrid_core.figures.year_words`.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.chain import MONTHS
from offgrid_core.figures.data_table import KWH, date, short_date
from offgrid_core.figures.year_words import PLACES, fell_short_at, places_text
from offgrid_core.figures.year_words import tables as tables
from offgrid_core.quantities import Settings
from offgrid_core.sizing.hourly_sun import DAYS, MONTH_OF_DAY
from offgrid_core.year.explore import Week, YearView

#: What a week of hours shows: line of an hour, what it is called, how it is drawn.
FLOWS = (
    ("array_in_wh", "array in", palette.SUN),
    ("generator_in_wh", "generator in", palette.MONEY),
    ("served_wh", "loads served", palette.LOAD),
    ("unserved_wh", "not served", palette.UNMET),
    ("spilled_wh", "spilled", palette.LOSS),
)
_BAND = "#D7E6E2"
_DATES = tuple(date(24 * day) for day in range(365))
_MONTH_STARTS = tuple(int(np.argmax(month == MONTH_OF_DAY)) + 1 for month in range(12))
#: Marks along a line, beside its dash.
_MARKS = 14
_RIBBON, _WEEK, _PLACES = 6, len(FLOWS) + 2, 2
#: Bottom and top of each row of the panel's picture, the two of the week close together; and the tops of the legends,
#: below the ribbon, below the week, and last that of the pins.
_ROWS = ((0.81, 1.0), (0.508, 0.657), (0.389, 0.49), (0.0, 0.237))
_LEGENDS = {"legend": 0.75, "legend2": 0.33, "legend3": -0.08}
Pins = Sequence[tuple[str, YearView]]


def make(view: YearView, settings: Settings) -> go.Figure:
    """Return the panel's picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("Lowest charge of each day", "A week of hours", "", "Where the energy of a mean year went")
    figure = make_subplots(rows=4, cols=1, subplot_titles=titles)
    ghosts = parts.ghosts(legend="legend3")
    for traces, row in ((_ribbon(), 1), (_flows(), 2), (_charge(), 3), (_places(), 4), (ghosts, 1)):
        for trace in traces:
            figure.add_trace(trace, row=row, col=1)
    _lay_out(figure, 880, settings)
    for trace in figure.data[_RIBBON : _RIBBON + _WEEK]:
        trace.update(legend="legend2")
    for name, top in _LEGENDS.items():
        figure.update_layout({name: {**_LEGEND, "y": top, "yanchor": "top"}})
    for title, (_, top) in zip(figure.layout.annotations, (_ROWS[0], _ROWS[1], _ROWS[3]), strict=True):
        title.update(y=top, x=0, xanchor="left", font={"size": 14})
    axes = (
        (_DAY_AXIS, _CHARGE_AXIS),
        ({**_HOUR_AXIS, **_UNTITLED}, _FLOW_AXIS),
        (_HOUR_AXIS, _CHARGE_AXIS),
        (_ENERGY_AXIS, _PLACE_AXIS),
    )
    for row, ((x, y), domain) in enumerate(zip(axes, _ROWS, strict=True), 1):
        figure.update_xaxes(**x, row=row, col=1)
        figure.update_yaxes(**y, domain=domain, row=row, col=1)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: YearView, pins: Pins, settings: Settings) -> None:
    """Put a view's data, and the worst years of pinned views, into a picture made by :func:`make`."""
    ribbon_, week_ = figure.data[:_RIBBON], figure.data[_RIBBON : _RIBBON + _WEEK]
    places_, ghosts = figure.data[_RIBBON + _WEEK :][:_PLACES], figure.data[_RIBBON + _WEEK + _PLACES :]
    _put_ribbon(ribbon_, view, settings)
    _put_week(week_, view.week, settings)
    _put_places(places_, view, settings)
    _put_ghosts(ghosts, pins, settings)
    _mark_days((figure.layout.xaxis2, figure.layout.xaxis3), view.week)
    parts.update(figure.layout.xaxis4, "range", _room_for_text(view))
    parts.update(figure.layout.annotations[1], "text", _week_title(view))


def ribbon(view: YearView, settings: Settings) -> go.Figure:
    """Return the picture of each day's lowest charge alone: all years as a band, the worst year and the cut-off."""
    figure = go.Figure(_ribbon())
    _lay_out(figure, 400, settings)
    figure.update_layout(xaxis=_DAY_AXIS, yaxis=_CHARGE_AXIS)
    _put_ribbon(figure.data, view, settings)
    return figure


def week(view: YearView, settings: Settings) -> go.Figure:
    """Return the picture of a week of hours alone: what came, what was served, missed and spilled, and the charge."""
    figure = make_subplots(rows=2, cols=1, vertical_spacing=0.06, subplot_titles=(_week_title(view),))
    for traces, row in ((_flows(), 1), (_charge(), 2)):
        for trace in traces:
            figure.add_trace(trace.update(showlegend=True), row=row, col=1)
    _lay_out(figure, 440, settings)
    figure.update_annotations(x=0, xanchor="left", font={"size": 14})
    figure.update_layout(xaxis={**_HOUR_AXIS, **_UNTITLED}, yaxis=_FLOW_AXIS, xaxis2=_HOUR_AXIS, yaxis2=_CHARGE_AXIS)
    _put_week(figure.data, view.week, settings)
    _mark_days((figure.layout.xaxis, figure.layout.xaxis2), view.week)
    return figure


def places(view: YearView, settings: Settings) -> go.Figure:
    """Return the picture of where a mean year's energy went alone; its bars add up to what came in."""
    figure = go.Figure(_places())
    _lay_out(figure, 340, settings)
    figure.update_layout(xaxis={**_ENERGY_AXIS, "range": _room_for_text(view)}, yaxis=_PLACE_AXIS)
    _put_places(figure.data, view, settings)
    return figure


# ---- axes and looks

_CHARGE_AXIS = palette.axis("charge (%)")
_FLOW_AXIS = palette.axis("in an hour (Wh)")
_PLACE_AXIS = {"autorange": "reversed", "showticklabels": False}  # the names stand at the bars, where there is room
_ENERGY_AXIS = palette.axis("energy (kWh)")
_DAY_AXIS = {
    **palette.axis("day of the year (a tick on the first of each month)", from_zero=False),
    "tickvals": _MONTH_STARTS,
    "ticktext": MONTHS,
    "range": [1, 365],
}
_HOUR_AXIS = palette.axis("hour (a tick at each midnight)", from_zero=False)
_LEGEND = {"orientation": "h", "x": 0, "font": {"size": 11}, "traceorder": "normal"}
_UNTITLED = {"title": {"text": ""}, "showticklabels": False}


def _lay_out(figure: go.Figure, height: int, settings: Settings) -> None:
    figure.update_layout(**palette.layout(height))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={**_LEGEND, "y": -0.2})


def _line(name: str, ink: palette.Ink, dash: str, marker: str, **more: Any) -> go.Scatter:
    """Return an empty line with its own dash, and its own mark now and then."""
    marks = {"symbol": marker, "size": 6, "color": ink.colour, "maxdisplayed": _MARKS}
    drawn = {"color": ink.colour, "dash": dash, "width": 1.8}
    return go.Scatter(name=name, mode="lines+markers", line=drawn, marker=marks, **more)


# ---- the ribbon


def _ribbon() -> list[go.Scatter]:
    store, unmet = palette.STORE, palette.UNMET
    hover = {"text": _DATES, "hovertemplate": "%{text}: %{y:.0f} %"}
    edge = {"width": 0.8, "color": store.colour}
    lost = {"symbol": unmet.marker, "color": unmet.colour, "size": 7}
    return [
        go.Scatter(name="least", mode="lines", line=edge, showlegend=False, **hover),
        go.Scatter(name="all years", mode="lines", line=edge, fill="tonexty", fillcolor=_BAND, **hover),
        _line("middle year", store, "dot", "circle-open", **hover),
        _line("worst year", store, store.dash, store.marker, **hover),
        _line("cut-off", unmet, unmet.dash, "line-ns-open", **hover),
        go.Scatter(name="load fell short", mode="markers", marker=lost, **hover),
    ]


def _put_ribbon(traces: Sequence[Any], view: YearView, settings: Settings) -> None:
    percent = settings.unit_for("lowest_charge_frac").from_canonical
    least, middle, most = view.band_frac
    worst = view.outcome.years.daily_lowest_frac[view.worst]
    shown = (least, most, middle, worst, view.daily_cut_off_frac, fell_short_at(view))
    for trace, values in zip(traces, shown, strict=True):
        parts.put(trace, DAYS, percent(values))


def _put_ghosts(traces: Sequence[Any], pins: Pins, settings: Settings) -> None:
    percent = settings.unit_for("lowest_charge_frac").from_canonical
    for trace, pinned in parts.each_pin(traces, pins):
        parts.put(trace, DAYS, percent(pinned.outcome.years.daily_lowest_frac[pinned.worst]))


# ---- the week


def _flows() -> list[go.Scatter]:
    return [_line(name, ink, ink.dash, ink.marker) for _, name, ink in FLOWS]


def _charge() -> list[go.Scatter]:
    store, unmet = palette.STORE, palette.UNMET
    return [
        _line("charge", store, store.dash, store.marker, showlegend=False),
        _line("cut-off", unmet, unmet.dash, "line-ns-open", showlegend=False),
    ]


def _put_week(traces: Sequence[Any], seven: Week, settings: Settings) -> None:
    percent = settings.unit_for("lowest_charge_frac").from_canonical
    *flows, charge, cut_off = traces
    for trace, (name, _, _) in zip(flows, FLOWS, strict=True):
        there = seven.has(name)
        parts.update(trace, "visible", there)
        parts.put(trace, seven.hours, seven.along(name) if there else np.full(len(seven.hours), np.nan))
    parts.put(charge, seven.hours, percent(seven.charge_frac))
    parts.put(cut_off, seven.hours, percent(seven.cut_off_frac))


def _mark_days(axes: Sequence[Any], seven: Week) -> None:
    midnights = seven.hours[::24]
    for axis in axes:
        parts.update(axis, "tickvals", midnights)
        parts.update(axis, "ticktext", tuple(short_date(hour) for hour in midnights.tolist()))


def _week_title(view: YearView) -> str:
    return f"A week of hours: year {view.week.year + 1}, round its lowest charge"


# ---- the places


def _places() -> list[Any]:
    inks = [ink for _, ink in PLACES.values()]
    bars = {
        "color": "#F4F1F3",
        "line": {"color": [ink.colour for ink in inks], "width": 1.5},
        "pattern": {"shape": [ink.pattern for ink in inks], "fgcolor": [ink.colour for ink in inks], "size": 6},
    }
    told = {"mode": "text", "textposition": "middle right", "hoverinfo": "skip", "showlegend": False}
    return [
        go.Bar(name="went to", orientation="h", marker=bars, showlegend=False),
        go.Scatter(name="energy and share", **told),
    ]


def _put_places(traces: Sequence[Any], view: YearView, settings: Settings) -> None:
    bars, told = traces
    energies = KWH.from_canonical(np.array([view.places_wh.get(name, 0.0) for name in PLACES]))
    labels = tuple(label for label, _ in PLACES.values())
    parts.put(bars, energies, labels)
    parts.put(told, np.maximum(energies, 0), labels)
    parts.update(told, "text", tuple(f"\u2002{text}" for text in places_text(view, settings)))


def _room_for_text(view: YearView) -> tuple[float, float]:
    """Return the span of the bars, with room at the right for what stands beside the longest."""
    energies = [*KWH.from_canonical(np.array([*view.places_wh.values()])).tolist(), 0.0]
    return min(energies), 1.75 * max(energies)
