"""The picture of cold: what the chart says is kept, and what that does to the bank."""

from typing import Any

import numpy as np
import plotly.graph_objects as go
from plotly.subplots import make_subplots

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import DataTable
from offgrid_core.figures.parts import Pins
from offgrid_core.quantities import Settings
from offgrid_core.system.explore import ChainView


def make(view: ChainView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    figure = make_subplots(
        rows=1, cols=2, horizontal_spacing=0.12, subplot_titles=("What the cold leaves", "What the bank must be")
    )
    for traces, column in ((_kept(), 1), ([_warm(), *parts.bank()], 2), (parts.marked_ghosts("hv"), 2)):
        for trace in traces:
            figure.add_trace(trace, row=1, col=column)
    figure.update_layout(**palette.layout(460))
    figure.update_yaxes(**palette.axis("capacity kept (%)"), row=1, col=1)
    figure.update_yaxes(**palette.axis("capacity on the label (Ah)"), row=1, col=2)
    title = parts.axis_title(view.against, settings)
    figure.update_xaxes(**palette.axis(title, from_zero=False))
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: ChainView, pins: Pins, settings: Settings) -> None:
    """Put a view's data, and the bank curves of pinned views, into a picture made by :func:`make`."""
    published, invented, kept_now, warm, *bank = figure.data[:8]
    xs, here = parts.along_axis(view, settings), parts.here(view, settings)
    percent = settings.unit_for("kept_frac").from_canonical
    kept, own = percent(view.along("kept_frac")), view.invented
    parts.put(published, xs, np.where(own, np.nan, kept))
    parts.put(invented, xs, np.where(own | np.roll(own, 1), kept, np.nan))
    parts.put(kept_now, [here], [percent(view.at("kept_frac"))])
    parts.put(warm, xs, np.full(xs.shape, view.if_warm_ah))
    parts.put_bank(bank, view, settings)
    parts.put_ghosts(figure.data[8:], pins, view, "bank_ah", settings)


def tables(view: ChainView, settings: Settings) -> list[DataTable]:
    """Return the numbers behind the picture."""
    temperature, *bank = parts.bank_columns(view, settings).items()
    kept = {
        "capacity kept (%)": settings.unit_for("kept_frac").from_canonical(view.along("kept_frac")),
        "whose data": tuple("our own, invented" if own else "published" for own in view.invented),
    }
    warm = {"bank needed if it stayed warm (Ah)": np.full(view.xs.shape, view.if_warm_ah)}
    return [DataTable("What the cold leaves, and the bank it takes", dict([temperature]) | kept | warm | dict(bank))]


def _kept() -> list[go.Scatter]:
    ink = palette.LOSS
    return [
        parts.line("kept, published", ink.colour, "solid"),
        parts.line("kept, our own invented data", ink.colour, "dot"),
        parts.mark("kept now", ink.colour, ink.marker),
    ]


def _warm() -> go.Scatter:
    return parts.line("bank needed if it stayed warm", palette.MONEY.colour, "longdashdot")
