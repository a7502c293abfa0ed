"""The picture of one circuit: load, fuse and wire as bars of amperes, the copper's temperature, and the voltage drop.

In each part a patterned field begins where the wire, its insulation or the allowed drop ends: no bar should reach it.
"""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.figures.palette import Ink
from offgrid_core.quantities import Settings, show
from offgrid_core.system.explore_wiring import WiringView

WiringPins = Sequence[tuple[str, WiringView]]
#: Each part: what is over its axis, its bars (line or input, words, ink) from the top, the line at which the field of
#: what must not be begins, and the word in that field.
_PARTS: tuple[tuple[str, tuple[tuple[str, str, Ink], ...], str, str], ...] = (
    (
        "current",
        (
            ("current_by_row_a", "load", palette.LOAD),
            ("fuse_by_row_a", "fuse", palette.CURRENT),
            ("ampacity_by_row_a", "wire as laid", palette.STORE),
        ),
        "ampacity_by_row_a",
        "more than the wire carries",
    ),
    (
        "copper",
        (
            ("copper_by_row_c", "with the load", palette.LOAD),
            ("copper_at_fuse_by_row_c", "with the fuse's rating", palette.CURRENT),
        ),
        "wire_temp_c",
        "insulation ages, then burns",
    ),
    (
        "voltage drop",
        (("drop_by_row_frac", "there and back", palette.LOSS),),
        "drop_limit_by_row_frac",
        "more than allowed",
    ),
)
#: Copper melts at 1085 °C (CRC Handbook, from memory): a sum that says more tells of no wire.
_MELTS_C, MELTED = 1085.0, "past copper's melting point"
_COPPER = ("copper_by_row_c", "copper_at_fuse_by_row_c")
#: How far the field goes on beyond the longest bar, and from where on its word has no room to the right of its edge.
_ROOM, _LATE = 1.3, 0.6
#: Heights above the first bar: of a part, of its field's word, and of the field.
_TOP, _WORD, _FIELD = -1.0, -0.62, -0.4


def told(name: str, value: Any, settings: Settings) -> str:
    """Return a value with its unit; copper that would have melted is told in words."""
    return MELTED if name in _COPPER and value > _MELTS_C else show(name, value, settings, 3)


def make(view: WiringView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=len(_PARTS), cols=1, row_heights=[len(bars) + 0.5 for _, bars, _, _ in _PARTS], vertical_spacing=0.17
    )
    for row, (over, bars, limit, word) in enumerate(_PARTS, 1):
        for trace in (_field(), _word(word), *(_bar(words, ink) for _, words, ink in bars), *parts.ghost_marks(24)):
            figure.add_trace(trace, row=row, col=1)
        title = f"{over} ({settings.unit_for(limit).symbol})"
        figure.update_xaxes(**palette.axis(title), row=row, col=1)
        span = {"range": [len(bars) - 0.5, _TOP], "tickvals": list(range(len(bars)))}
        figure.update_yaxes(zeroline=False, showgrid=False, tickfont={"size": 13}, **span, row=row, col=1)
    figure.update_layout(**palette.layout(480), barmode="overlay", showlegend=False)
    figure.update_layout(margin={"l": 176, "r": 12, "t": 12, "b": 52})
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: WiringView, pins: WiringPins, settings: Settings) -> None:
    """Put a view's bars and fields, and the values of pinned views, into a picture made by :func:`make`."""
    traces = iter(figure.data)
    for row, (_, bars, limit, _) in enumerate(_PARTS, 1):
        unit = settings.unit_for(limit)
        values = [float(unit.from_canonical(_drawn(name, view.solved[name]))) for name, _, _ in bars]
        ends = [float(unit.from_canonical(view.solved[limit])), *values]
        _put_field(next(traces), next(traces), ends, len(bars))
        for place, value in enumerate(values):
            parts.put(next(traces), [value], [place])
        ticks = tuple(f"{words}, <b>{told(name, view.solved[name], settings)}</b>" for name, words, _ in bars)
        parts.update(figure.layout[f"yaxis{row if row > 1 else ''}"], "ticktext", ticks)
        ghosts = [next(traces) for _ in range(parts.GHOSTS)]
        _put_pins(ghosts, pins, [name for name, _, _ in bars], settings)


def tables(view: WiringView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture, a row a bar, each with the line it should not reach."""
    rows = [
        (f"{over}, {words}", told(name, view.solved[name], settings), show(limit, view.solved[limit], settings, 3))
        for over, bars, limit, _ in _PARTS
        for name, words, _ in bars
    ]
    bar, value, most = zip(*rows, strict=True)
    return [DataTable(view.circuit, {"bar": bar, "value": value, "not more than": most})]


def _drawn(name: str, value: Any) -> float:
    """Return where a bar ends: that of copper at its melting point."""
    return min(float(value), _MELTS_C) if name in _COPPER else float(value)


def _field() -> go.Scatter:
    """Return the empty field of what must not be; the bars show through it."""
    ink, none = palette.UNMET, "rgba(0,0,0,0)"
    return go.Scatter(
        mode="lines",
        fill="toself",
        fillcolor=none,
        fillpattern={"shape": "/", "fgcolor": ink.colour, "bgcolor": none, "size": 9, "solidity": 0.15},
        line={"color": ink.colour, "dash": ink.dash, "width": 2},
        hoverinfo="skip",
    )


def _word(word: str) -> go.Scatter:
    """Return the word over a field."""
    font = {"color": palette.UNMET.colour, "size": 12}
    return go.Scatter(mode="text", text=(f"<b>{word}</b>",), textposition="middle right", textfont=font, name=word)


def _bar(words: str, ink: Ink) -> go.Bar:
    """Return an empty bar."""
    pattern = {"shape": ink.pattern, "fgcolor": ink.colour, "bgcolor": palette.PAPER, "size": 7}
    marker = {"color": palette.PAPER, "line": {"color": ink.colour, "width": 2}, "pattern": pattern}
    return go.Bar(name=words, orientation="h", width=0.56, marker=marker)


def _put_field(field: Any, word: Any, ends: Sequence[float], bars: int) -> None:
    begins, far, bottom = ends[0], _ROOM * max(ends), bars - 0.5
    parts.put(field, [begins, begins, far, far, begins], [bottom, _FIELD, _FIELD, bottom, bottom])
    parts.put(word, [begins], [_WORD])
    parts.update(word, "textposition", f"middle {'left' if begins > _LATE * far else 'right'}")


def _put_pins(marks: Sequence[Any], pins: WiringPins, names: Sequence[str], settings: Settings) -> None:
    for mark, pinned in parts.each_pin(marks, pins):
        values = [float(settings.unit_for(n).from_canonical(_drawn(n, pinned.solved[n]))) for n in names]
        parts.put(mark, values, np.arange(len(names)))
