"""The picture of a day's loads: what each row takes out of the battery, the largest on top."""

from typing import Any

import numpy as np
import plotly.graph_objects as go

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import Columns, DataTable
from offgrid_core.quantities import Settings
from offgrid_core.system.explore import LoadsView


def make(view: LoadsView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    ink = palette.LOAD
    bars = {"color": "#CFE3F1", "line": {"color": ink.colour, "width": 1.5}, "pattern": {"fgcolor": ink.colour}}
    figure = go.Figure([go.Bar(name="at the battery", orientation="h", marker=bars), *parts.ghost_marks(22)])
    figure.update_layout(**palette.layout(420))
    figure.update_xaxes(**palette.axis("energy out of the battery on the busiest day (Wh)"))
    figure.update_yaxes(automargin=True, autorange="reversed", ticks="outside")
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: LoadsView, pins: Any, settings: Settings) -> None:  # noqa: ARG001 - Wh in any setting
    """Put a view's data, and the marks of pinned views, into a picture made by :func:`make`."""
    bars, *marks = figure.data
    names, energies = zip(*view.at_battery(), strict=True)
    parts.put(bars, energies, names)
    parts.update(bars.marker.pattern, "shape", tuple("/" if name.startswith("inverter") else "" for name in names))
    for mark, pinned in parts.each_pin(marks, pins):
        names, energies = zip(*pinned.at_battery(), strict=True)
        parts.put(mark, energies, names)


def tables(view: LoadsView, settings: Settings) -> list[DataTable]:  # noqa: ARG001 - Wh in any setting
    """Return the numbers behind the picture."""
    names, energies = zip(*view.at_battery(), strict=True)
    columns: Columns = {"load": names, "out of the battery (Wh a day)": np.array(energies)}
    return [DataTable("What each row takes out of the battery on the busiest day", columns)]
