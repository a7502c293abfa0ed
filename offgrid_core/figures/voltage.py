"""The picture of the bank voltage: the current of one inverter, and what one cable makes of it, along the voltage."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings, show
from offgrid_core.system.explore_voltage import CableView

Pins = Sequence[tuple[str, CableView]]
_HOT, _LOSSY = ("more than this cable may carry", "it overheats"), ("more than the drop allowed", "too much is lost")
_LIMITS = ("{}: some want more volts from here", "{}: nearly all do")
_FILL = "#F8E6DE"
#: How much of the picture is above the highest point of the curve.
_TOP = 1.1
#: Region, two limits, the curve, the usual voltages, the point now; then region, the curve, its marks, the point now.
_LEFT, _RIGHT = 6, 4


def make(view: CableView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("Current, battery low", "Power lost in the cable")
    figure = make_subplots(rows=1, cols=2, horizontal_spacing=0.13, subplot_titles=titles)
    for traces, column in ((_current(), 1), (_lost(), 2), (parts.marked_ghosts(), 1), (parts.marked_ghosts(), 2)):
        for trace in traces:
            figure.add_trace(trace, row=1, col=column)
    figure.update_layout(**palette.layout(470))
    figure.update_layout(separators=f"{settings.decimal}\u2009")
    figure.update_xaxes(**palette.axis(parts.axis_title("bank_voltage_v", settings), from_zero=False))
    figure.update_xaxes(tick0=12, dtick=12, range=[10, 50])
    figure.update_yaxes(**palette.axis("current (A)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("power lost (W)"), row=1, col=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: CableView, pins: Pins, settings: Settings) -> None:
    """Put a view's data, and the curves of pinned views, into a picture made by :func:`make`."""
    hot, some, more, current, at_steps, now = figure.data[:_LEFT]
    lossy, lost, lost_at_steps, lost_now = figure.data[_LEFT : _LEFT + _RIGHT]
    ghosts = figure.data[_LEFT + _RIGHT :]
    for trace, limit, words in zip((some, more), view.limits_a, _LIMITS, strict=True):
        parts.put(trace, _ends(view), np.full(2, limit))
        parts.update(trace, "name", words.format(show("inverter_input_a", limit, settings)))
    for name, along, steps, here in (
        ("inverter_input_a", current, at_steps, now),
        ("inverter_lost_w", lost, lost_at_steps, lost_now),
    ):
        parts.put(along, view.xs, _along(view, name))
        parts.put(steps, view.steps["bank_voltage_v"], view.steps[name])
        parts.put(here, [float(view.point["bank_voltage_v"])], [float(view.point[name])])
    _put_region(hot, view, view.may_carry_a, "inverter_input_a")
    _put_region(lossy, view, float(view.point["lost_allowed_w"]), "inverter_lost_w")
    for traces, name in ((ghosts[: parts.GHOSTS], "inverter_input_a"), (ghosts[parts.GHOSTS :], "inverter_lost_w")):
        _put_ghosts(traces, pins, name)


def tables(view: CableView, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - V, A and W in any setting
    """Return the numbers behind the picture, at the voltages that banks are built at."""
    names = {
        "bank voltage (V)": "bank_voltage_v",
        "current, battery low (A)": "inverter_input_a",
        "power lost (W)": "inverter_lost_w",
        "volts lost (V)": "inverter_drop_v",
        "copper that keeps the drop (mm²)": "copper_wanted_mm2",
    }
    return [DataTable("The same power at each voltage", {head: np.asarray(view.steps[n]) for head, n in names.items()})]


def _current() -> list[go.Scatter]:
    ink, limit = palette.CURRENT, palette.MONEY
    return [
        _region(*_HOT, palette.UNMET, palette.UNMET.pattern),
        parts.line(_LIMITS[0], limit.colour, "dash"),
        parts.line(_LIMITS[1], limit.colour, limit.dash),
        parts.line("current", ink.colour, ink.dash),
        _steps(ink),
        parts.mark("now", ink.colour, ink.marker),
    ]


def _lost() -> list[go.Scatter]:
    ink = palette.LOSS
    return [
        _region(*_LOSSY, palette.UNMET, "/"),
        parts.line("power lost", ink.colour, ink.dash),
        _steps(ink),
        parts.mark("now", ink.colour, ink.marker),
    ]


def _region(name: str, word: str, ink: palette.Ink, pattern: str) -> go.Scatter:
    """Return an empty region with a word in its upper corner."""
    return go.Scatter(
        name=name,
        mode="text",
        text=("", "", word, ""),
        textposition="bottom left",
        textfont={"color": ink.colour, "size": 13},
        fill="toself",
        fillcolor=_FILL,
        fillpattern={"shape": pattern, "fgcolor": ink.colour, "size": 14, "solidity": 0.08},
        hoverinfo="skip",
    )


def _steps(ink: palette.Ink) -> go.Scatter:
    marker = {"color": palette.PAPER, "symbol": "circle", "size": 8, "line": {"color": ink.colour, "width": 2}}
    return go.Scatter(name="12, 24, 48 V", mode="markers", marker=marker, showlegend=False)


def _ends(view: CableView) -> np.ndarray:
    return view.xs[[0, -1]]


def _along(view: CableView, name: str) -> np.ndarray:
    return np.broadcast_to(np.asarray(view.curve[name], float), view.xs.shape)


def _put_region(region: Any, view: CableView, begins: float, name: str) -> None:
    """Fill from where a region begins to the top of the picture; nothing where the curve stays below it."""
    top = _TOP * float(np.max(_along(view, name)))
    low, high = _ends(view)
    parts.update(region, "visible", begins < top)
    parts.put(region, [low, high, high, low], [begins, begins, top, top])


def _put_ghosts(ghosts: Sequence[Any], pins: Pins, name: str) -> None:
    for trace, pinned in parts.each_pin(ghosts, pins):
        curve = pinned.xs, _along(pinned, name)
        parts.put_marked(trace, curve, float(pinned.point["bank_voltage_v"]), float(pinned.point[name]))
        parts.update(trace, "showlegend", name == "inverter_input_a")
