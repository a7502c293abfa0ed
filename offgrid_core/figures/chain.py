"""The picture of the whole chain: the bank against one input, the array by month, the currents against the input."""

from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.figures.parts import Pins
from offgrid_core.quantities import Settings
from offgrid_core.system.explore import ChainView

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def make(view: ChainView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=2,
        cols=2,
        specs=[[{"rowspan": 2}, {}], [None, {}]],
        column_widths=[0.52, 0.48],
        horizontal_spacing=0.12,
        vertical_spacing=0.24,
        subplot_titles=("Bank", "Array, month by month", "Charge controller and inverter"),
    )
    for traces, row, column in (
        ([*parts.bank(), parts.broken_marks()], 1, 1),
        (_array(), 1, 2),
        (_amps(), 2, 2),
        (parts.marked_ghosts("hv"), 1, 1),
    ):
        for trace in traces:
            figure.add_trace(trace, row=row, col=column)
    figure.update_layout(**palette.layout(540))
    figure.update_yaxes(**palette.axis("capacity on the label (Ah)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("array power (W)"), row=1, col=2)
    figure.update_yaxes(**palette.axis("current (A)"), row=2, col=2)
    for row, column in ((1, 1), (2, 2)):
        figure.update_xaxes(**palette.axis("", from_zero=False), row=row, col=column)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: ChainView, pins: Pins, settings: Settings) -> None:
    """Put a view's data, and the bank curves of pinned views, into a picture made by :func:`make`."""
    *bank, broken, asked, refill, brisk, array = figure.data[:9]
    controller, controller_now, inverter, inverter_now, *ghosts = figure.data[9:]
    xs, here = parts.along_axis(view, settings), parts.here(view, settings)
    parts.put_bank(bank, view, settings)
    parts.put(broken, xs, np.where(view.broken, 0.0, np.nan))
    parts.put(asked, MONTHS, view.point["array_by_month_w"])
    hatched = tuple("x" if i + 1 == view.at("design_month") else "" for i in range(12))
    parts.update(asked.marker.pattern, "shape", hatched)
    for trace, name in ((refill, "array_for_refill_w"), (brisk, "array_for_current_w"), (array, "array_w")):
        parts.put(trace, MONTHS, np.full(12, view.at(name)))
    parts.put(controller, xs, view.along("controller_needed_a"))
    parts.put(controller_now, [here], [view.at("controller_needed_a")])
    if "inverter_input_a" in view.point:
        parts.put(inverter, xs, view.along("inverter_input_a"))
        parts.put(inverter_now, [here], [view.at("inverter_input_a")])
    parts.put_ghosts(ghosts, pins, view, "bank_ah", settings)
    title = parts.axis_title(view.against, settings)
    for axis in (figure.layout.xaxis, figure.layout.xaxis3):
        parts.update(axis.title, "text", title)


def tables(view: ChainView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture: along the input, then month by month."""
    along = {**parts.bank_columns(view, settings), "controller (A)": view.along("controller_needed_a")}
    if "inverter_input_a" in view.point:
        along["inverter input (A)"] = view.along("inverter_input_a")
    broken = tuple("yes" if each else "no" for each in view.broken)
    demands = {
        "to refill the bank (W)": "array_for_refill_w",
        "to charge it briskly (W)": "array_for_current_w",
        "array as built (W)": "array_w",
    }
    by_month = {"month": MONTHS, "asked by the month's load (W)": view.point["array_by_month_w"]}
    return [
        DataTable("Bank, controller and inverter", {**along, "a limit is broken": broken}),
        DataTable("Array", by_month | {head: np.full(12, view.at(name)) for head, name in demands.items()}),
    ]


def _array() -> list[Any]:
    sun = palette.SUN
    bars = {"color": "#F3E3C3", "line": {"color": sun.colour, "width": 1.5}, "pattern": {"fgcolor": sun.colour}}
    return [
        go.Bar(name="asked by the month's load (hatched: design month)", marker=bars),
        parts.line("to refill the bank", palette.LOAD.colour, "dash"),
        parts.line("to charge it briskly", palette.CURRENT.colour, "dashdot"),
        parts.line("array as built", palette.STORE.colour, "solid"),
    ]


def _amps() -> list[go.Scatter]:
    current, load = palette.CURRENT, palette.LOAD
    return [
        parts.line("controller", current.colour, "solid"),
        parts.mark("controller now", current.colour, current.marker),
        parts.line("inverter input", load.colour, "dash"),
        parts.mark("inverter now", load.colour, load.marker),
    ]
