"""The picture of the generator: one run of the engine, and what the months of a year ask of it."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings, say
from offgrid_core.year.explore_generator import RunView

Pins = Sequence[tuple[str, RunView]]
MONTHS = tuple(say(f"month.{m}") for m in range(1, 13))
_SHORT_MONTHS = tuple(month[:3] for month in MONTHS)
_CUT, _SLOW = "below the depth limit: cut off", "past the stop level:<br>fuel for little"
#: The regions lie over the curves, and let them be seen.
_CUT_FILL, _SLOW_FILL = "rgba(178, 60, 0, 0.13)", "rgba(79, 85, 96, 0.10)"
#: Stop level up to which its words have a place above it.
_ROOM = 0.9
#: They stand at the right, below the curve, where it is above this share at that hour; else at the left, above it.
_CLEAR, _CLEAR_H = 0.95, 13
_START, _LEVEL = "generator_start_frac", "generator_stop_frac"
#: Cut off, past the stop level, the run by the sum, hour by hour, its start, its stop.
_OWN = 6


def make(view: RunView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("One run, with a warm bank", "A mean year, month by month")
    figure = make_subplots(rows=1, cols=2, horizontal_spacing=0.15, subplot_titles=titles)
    store = palette.STORE
    own = [
        _region(_CUT, palette.UNMET, _CUT_FILL, palette.UNMET.pattern, ("top right",) * 4),
        _region(_SLOW, palette.MONEY, _SLOW_FILL, "/", ("bottom right", "top left", "top left", "top left")),
        parts.line("by the sum, up to the stop level", store.colour, "dot"),
        parts.line("hour by hour, if it went on", store.colour, store.dash),
        parts.mark("start", store.colour, "circle-open"),
        parts.mark("stop", store.colour, store.marker),
    ]
    for trace in (*own, *parts.ghosts()):
        figure.add_trace(trace, row=1, col=1)
    for trace in (_bars("engine runs", palette.LOAD), _bars("loads cut off", palette.UNMET)):
        figure.add_trace(trace, row=1, col=2)
    figure.update_layout(**palette.layout(480))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.2})
    figure.update_xaxes(**palette.axis("hours since the engine started (h)"), row=1, col=1)
    figure.update_xaxes(range=[0, view.hours_h[-1]], dtick=4, row=1, col=1)
    unit = settings.unit_for(_LEVEL)
    figure.update_yaxes(**palette.axis(f"charge of the bank ({unit.symbol})"), row=1, col=1)
    figure.update_yaxes(range=[0, unit.from_canonical(1)], row=1, col=1)
    figure.update_xaxes(**palette.axis("month (of a mean year)", from_zero=False), row=1, col=2)
    figure.update_yaxes(**palette.axis("hours in the month (h)"), row=1, col=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: RunView, pins: Pins, settings: Settings) -> None:
    """Put a view's run and year, and the runs of pinned views, into a picture made by :func:`make`."""
    cut, slow, by_sum, by_hour, start, stop = figure.data[:_OWN]
    ghosts, (runs, short) = figure.data[_OWN : _OWN + parts.GHOSTS], figure.data[_OWN + parts.GHOSTS :]
    run, last = view.run, view.hours_h[-1]
    across = [0, last, last, 0]
    begins, ends, empty, full = _shown((run[_START], run[_LEVEL], run["charge_left_frac"], 1), settings)
    parts.put(cut, across, [0, 0, empty, empty])
    parts.put(slow, across, [full, full, ends, ends])
    words = _SLOW if run[_LEVEL] <= _ROOM else ""
    is_below = view.charge_frac[_CLEAR_H] >= _CLEAR
    parts.update(slow, "text", ("", "", words, "") if is_below else (words, "", "", ""))
    until = float(run["restore_h"]) if view.is_filling else np.nan
    parts.put(by_sum, [0, until], [begins, ends])
    parts.put(by_hour, view.hours_h, _shown(view.charge_frac, settings))
    parts.put(start, [0], [begins])
    parts.put(stop, [until], [ends])
    parts.put(runs, _SHORT_MONTHS, view.ran_by_month_h)
    parts.put(short, _SHORT_MONTHS, view.short_by_month_h)
    for trace, pinned in parts.each_pin(ghosts, pins):
        parts.put(trace, pinned.hours_h, _shown(pinned.charge_frac, settings))


def tables(view: RunView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture; an engine that stalls leaves none."""
    if view.is_stalling:
        return []
    run = {
        "hours since the start (h)": view.hours_h,
        f"charge ({settings.unit_for(_LEVEL).symbol})": _shown(view.charge_frac, settings),
    }
    year: dict[str, tuple[str, ...] | np.ndarray] = {
        "month": MONTHS,
        "engine runs (h)": view.ran_by_month_h,
        "loads cut off (h)": view.short_by_month_h,
    }
    return [DataTable("One run, hour by hour", run), DataTable("A mean year", year)]


def _shown(shares: Any, settings: Settings) -> np.ndarray:
    return np.asarray(settings.unit_for(_LEVEL).from_canonical(np.asarray(shares, float)))


def _region(name: str, ink: palette.Ink, fill: str, pattern: str, words: tuple[str, ...]) -> go.Scatter:
    """Return an empty region with its words inside; ``words`` says where they stand at each of its corners."""
    return go.Scatter(
        name=name,
        mode="text",
        line={"width": 0},
        text=(name, "", "", ""),
        textposition=words,
        textfont={"color": ink.colour, "size": 11},
        fill="toself",
        fillcolor=fill,
        fillpattern={"shape": pattern, "fgcolor": ink.colour, "size": 8, "solidity": 0.12},
        hoverinfo="skip",
        showlegend=False,
    )


def _bars(name: str, ink: palette.Ink) -> go.Bar:
    marker = {
        "color": palette.PAPER,
        "line": {"color": ink.colour, "width": 1.5},
        "pattern": {"shape": ink.pattern, "fgcolor": ink.colour, "size": 6},
    }
    return go.Bar(name=name, marker=marker)
