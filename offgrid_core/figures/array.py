"""The picture of the design month: load, sun, and the array each month asks for, the bank's two demands over it."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings, say
from offgrid_core.system.explore_array import MonthsView

MONTHS = tuple(say(f"month.{m}")[:3] for m in range(1, 13))
Pins = Sequence[tuple[str, MonthsView]]
_SUN_FILL, _LOAD_FILL, _ASKED_FILL = "#F3E6C4", "#CFE3F1", "#F6DDD2"
#: Sun, load, what each month asks for, the two demands of the bank.
_OWN = 5


def make(view: MonthsView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=2,
        cols=2,
        specs=[[{}, {}], [{"colspan": 2}, None]],
        row_heights=[0.32, 0.68],
        vertical_spacing=0.15,
        horizontal_spacing=0.14,
        subplot_titles=("Load", "Sun on the array", "Array that each month asks for: load ÷ sun, and the losses"),
    )
    figure.add_trace(_bars("load", palette.LOAD, _LOAD_FILL, palette.LOAD.pattern), row=1, col=1)
    figure.add_trace(_bars("sun", palette.SUN, _SUN_FILL, palette.SUN.pattern), row=1, col=2)
    asked = _bars("array the month asks for", palette.UNMET, _ASKED_FILL, "")
    for trace in (asked, *_demands(), *parts.ghosts("hvh")):
        figure.add_trace(trace, row=2, col=1)
    figure.update_layout(**palette.layout(560))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.1})
    figure.update_yaxes(**palette.axis("load (Wh a day)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("sun (kWh/m² a day)"), row=1, col=2)
    figure.update_yaxes(**palette.axis("array (W)"), row=2, col=1)
    figure.update_xaxes(tickangle=-45, row=1)
    figure.update_xaxes(tickangle=0, tickvals=MONTHS, row=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: MonthsView, pins: Pins, settings: Settings) -> None:  # noqa: ARG001 - W in any setting
    """Put a view's data, and the marks of pinned views, into a picture made by :func:`make`."""
    load, sun, asked, refill, current = figure.data[:_OWN]
    parts.put(load, MONTHS, view.by_month("battery_mean_by_month_wh"))
    parts.put(sun, MONTHS, view.by_month("peak_sun_by_month_h"))
    parts.put(asked, MONTHS, view.by_month("array_by_month_w"))
    rules = [month == view.ruling for month in range(1, 13)]
    parts.update(asked.marker.pattern, "shape", tuple(palette.UNMET.pattern if each else "" for each in rules))
    said = tuple(f"{month}<br><b>rules</b>" if each else month for month, each in zip(MONTHS, rules, strict=True))
    parts.update(figure.layout.xaxis3, "ticktext", said)
    for trace, name in ((refill, "array_for_refill_w"), (current, "array_for_current_w")):
        value = float(view.point[name])
        parts.update(trace, "visible", value > 0)
        parts.put(trace, MONTHS, np.full(12, value))
    ghosts = figure.data[_OWN:]
    for trace, pinned in parts.each_pin(ghosts, pins):
        parts.put(trace, MONTHS, pinned.by_month("array_by_month_w"))


def tables(view: MonthsView, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - Wh and W in any setting
    """Return the numbers behind the picture."""
    return [
        DataTable(
            "What each month asks of the array",
            {
                "month": tuple(say(f"month.{m}") for m in range(1, 13)),
                "load (Wh a day)": view.by_month("battery_mean_by_month_wh"),
                "sun (peak sun hours)": view.by_month("peak_sun_by_month_h"),
                "load for each hour of full sun (W)": view.by_month("load_sun_by_month_w"),
                "array asked for (W)": view.by_month("array_by_month_w"),
            },
        )
    ]


def _bars(name: str, ink: palette.Ink, fill: str, pattern: str) -> go.Bar:
    marker = {
        "color": fill,
        "line": {"color": ink.colour, "width": 1},
        "pattern": {"shape": pattern, "fgcolor": ink.colour, "size": 5},
    }
    return go.Bar(name=name, marker=marker, showlegend=False)


def _demands() -> list[go.Scatter]:
    store, current = palette.STORE, palette.CURRENT
    return [
        parts.line("array to refill the bank", store.colour, store.dash),
        parts.line("array for the charging current", current.colour, current.dash),
    ]
