"""Pictures of dark weather: the sun of some days in days of load, and the longest dark spell of each drawn year."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities.text import number
from offgrid_core.year.explore_autonomy import AutonomyView

#: What the sun brings on a day and what the loads take.
_ENOUGH = 1.0
_SHORT_FILL = "#F6DDD2"
Pins = Sequence[tuple[str, AutonomyView]]

# ---- some days of sun


def days_of_sun(sun: Sequence[float], settings: Settings) -> go.Figure:
    """Return the picture of the sun of successive days, in days of load, beside what the loads take each day."""
    days, brought = np.arange(1.0, len(sun) + 1), np.asarray(sun, float)
    short = brought < _ENOUGH
    figure = go.Figure(
        [
            _bars("enough or more", palette.SUN, "#F3E6C4", days[~short], brought[~short]),
            _bars("less than the loads take", palette.UNMET, _SHORT_FILL, days[short], brought[short]),
            go.Scatter(
                name="what the loads take each day",
                mode="lines",
                x=[0.5, len(sun) + 0.5],
                y=[_ENOUGH, _ENOUGH],
                line={"color": palette.LOAD.colour, "dash": palette.LOAD.dash, "width": 2.2},
            ),
        ]
    )
    figure.update_layout(**palette.layout(320))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.28}, bargap=0.15)
    figure.update_xaxes(**palette.axis("day (counted from 1 November)", from_zero=False))
    figure.update_yaxes(**palette.axis("sun (days of load)"))
    return figure


def said_of_days(sun: Sequence[float], settings: Settings) -> str:
    """Say what the picture of successive days says."""
    brought = np.asarray(sun, float)
    few = int(np.sum(brought < _ENOUGH))
    dullest = int(np.argmin(brought)) + 1
    return (
        f"Of {len(sun)} days, {few} bring less than the loads take. The dullest, day {dullest}, brings "
        f"{_days(brought.min(), settings)} of load; the mean day brings {_days(brought.mean(), settings)}."
    )


def table_of_days(sun: Sequence[float]) -> DataTable:
    """Return the numbers of the picture of successive days."""
    days = np.arange(1.0, len(sun) + 1)
    return DataTable("Sun of each day", {"day": days, "sun (days of load)": np.asarray(sun, float)})


def _bars(name: str, ink: palette.Ink, fill: str, x: np.ndarray, y: np.ndarray) -> go.Bar:
    pattern = {"shape": ink.pattern, "fgcolor": ink.colour, "size": 5}
    marker = {"color": fill, "line": {"color": ink.colour, "width": 1}, "pattern": pattern}
    return go.Bar(name=name, x=x, y=y, marker=marker, hovertemplate="day %{x}: %{y} days of load<extra></extra>")


# ---- the longest dark spell of each year

#: Where the traces of the second picture begin, and those of the pins.
_YEARS, _GHOSTS = 7, 9


def make(view: AutonomyView, settings: Settings) -> go.Figure:
    """Return the panel's picture for a first view; :func:`draw` moves it in place afterwards."""
    titles = ("Longest dark spell of each drawn year", "How often a longer one comes")
    figure = make_subplots(rows=1, cols=2, horizontal_spacing=0.12, subplot_titles=titles)
    for traces, column in ((_years(), 1), (_times(), 2), (parts.marked_ghosts(), 2)):
        for trace in traces:
            figure.add_trace(trace, row=1, col=column)
    figure.update_annotations(font={"size": 14})
    figure.update_layout(**palette.layout(460))
    figure.update_layout(separators=f"{settings.decimal}\u2009")
    figure.update_xaxes(**palette.axis("years, the darkest first (%)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("longest dark spell (days of load)"), row=1, col=1)
    figure.update_xaxes(**palette.axis(parts.axis_title("autonomy_days", settings)), row=1, col=2)
    figure.update_yaxes(**palette.axis("longer dark spells (a year)"), row=1, col=2)
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: AutonomyView, pins: Pins, settings: Settings) -> None:  # noqa: ARG001 - days in any setting
    """Put a view's data, and the curves of pinned views, into a picture made by :func:`make`."""
    years, (times, now), ghosts = figure.data[:_YEARS], figure.data[_YEARS:_GHOSTS], figure.data[_GHOSTS:]
    _put_years(years, view)
    parts.put(times, view.xs, _times_along(view))
    parts.put(now, [view.days], [float(view.point["longer_spells_ratio"])])
    for trace, pinned in parts.each_pin(ghosts, pins):
        curve = pinned.xs, _times_along(pinned)
        parts.put_marked(trace, curve, pinned.days, float(pinned.point["longer_spells_ratio"]))


def _years() -> list[go.Scatter]:
    unmet, store = palette.UNMET, palette.STORE
    return [
        go.Scatter(
            name="more than the bank carries",
            mode="none",
            fill="toself",
            fillcolor=_SHORT_FILL,
            fillpattern={"shape": unmet.pattern, "fgcolor": unmet.colour, "size": 14, "solidity": 0.08},
            hoverinfo="skip",
            showlegend=False,
        ),
        parts.line("days of autonomy", store.colour, "solid"),
        parts.line("mean of all dark spells", palette.MONEY.colour, palette.MONEY.dash),
        _marks("years that outlast the bank", unmet.colour, "x"),
        _marks("years the bank carries", store.colour, store.marker),
        _said("outlasts the bank", unmet.colour),
        _said("carried", store.colour),
    ]


def _marks(name: str, colour: str, symbol: str) -> go.Scatter:
    marker = {"color": colour, "symbol": symbol, "size": 6}
    return go.Scatter(name=name, mode="markers", marker=marker, hovertemplate="%{y:.1f} days of load<extra></extra>")


def _said(words: str, colour: str) -> go.Scatter:
    """Return an empty place for words inside a region."""
    font = {"size": 12, "color": colour, "weight": "bold"}
    return go.Scatter(mode="text", text=[words], textfont=font, hoverinfo="skip", showlegend=False)


def _put_years(traces: Sequence[Any], view: AutonomyView) -> None:
    above, line, mean, dark, carried, *said = traces
    order = np.argsort(-view.longest, kind="stable")
    longest, outlasted = view.longest[order], view.outlasted[order]
    share = (np.arange(view.years) + 0.5) * 100 / view.years
    top = 1.05 * max(float(longest[0]), view.days)
    parts.put(above, [0, 100, 100, 0], [view.days, view.days, top, top])
    for trace, height in ((line, view.days), (mean, view.mean_spell)):
        parts.put(trace, [0, 100], [height, height])
    for trace, place in zip(said, ((65, (view.days + top) / 2), (20, view.days / 2)), strict=True):
        parts.put(trace, [place[0]], [place[1]])
    for trace, which in ((dark, outlasted), (carried, ~outlasted)):
        parts.put(trace, share[which], longest[which])


def _times() -> list[go.Scatter]:
    ink = palette.UNMET
    return [
        parts.line("longer dark spells a year", ink.colour, ink.dash),
        parts.mark("at these days of autonomy", ink.colour, ink.marker),
    ]


def _times_along(view: AutonomyView) -> np.ndarray:
    return np.broadcast_to(np.asarray(view.curve["longer_spells_ratio"], float), view.xs.shape)


def sentence(view: AutonomyView, settings: Settings) -> str:
    """Say what the picture says, and what is counted as a dark spell."""
    point = view.point
    days, stored, label = (show(n, point[n], settings, 3) for n in ("autonomy_days", "spell_wh", "bank_warm_wh"))
    promise = "1 day of autonomy takes" if view.days == 1 else f"{days} of autonomy take"
    times = show("longer_spells_ratio", point["longer_spells_ratio"], settings, 3)
    mean, longest = (_days(x, settings) for x in (view.mean_spell, view.longest.max()))
    return (
        f"{promise} {stored} of usable storage, {label} on the label of a warm bank. "
        f"{_outlasted(view)}: {times} times a year on average. The mean dark spell is {mean} long, the longest of all "
        f"{longest}. A dark spell lasts from a full bank until the bank is full again. Its length is the most that is "
        "missing on the way, in days of load. The years are drawn, not measured."
    )


def tables(view: AutonomyView, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - days in any setting
    """Return the numbers behind the panel's picture."""
    share = np.broadcast_to(np.asarray(view.curve["longer_years_frac"], float), view.xs.shape)
    return [
        DataTable(
            "Days of autonomy and longer dark spells",
            {
                f"{label_of('autonomy_days')} (days)": view.xs,
                "years with a longer one (%)": 100 * share,
                "longer ones (number a year)": _times_along(view),
            },
        ),
        DataTable(
            "Longest dark spell of each drawn year",
            {"drawn year (number)": np.arange(1.0, view.years + 1), "longest (days of load)": view.longest},
        ),
    ]


def _outlasted(view: AutonomyView) -> str:
    count = int(np.sum(view.outlasted))
    if not count:
        return f"In none of {view.years} drawn years does a dark spell outlast it"
    return f"In {count} of {view.years} drawn years a dark spell outlasts it"


def _days(value: float, settings: Settings) -> str:
    return f"{number(float(value), 3, settings)} days"
