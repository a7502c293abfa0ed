"""The autonomy panel: the dark spells of drawn years against the days that a bank carries; and some days of sun."""

from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

import ipywidgets as widgets

from offgrid_core.figures import autonomy as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import sliders
from offgrid_core.lab.fit import Fit
from offgrid_core.lab.live_figure import LiveFigure
from offgrid_core.lab.numbers_below import NumbersBelow
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.year.explore_autonomy import YEARS, AutonomyView, autonomy_view, sun_record

CONTROLS = ("autonomy_days", "depth_frac", "array_load_ratio")


def autonomy_panel(
    design: Design, question: str = "", units: Settings | None = None, *, years: int = YEARS, seed: int = 1
) -> Panel:
    """Return the panel of a site's dark spells.

    Parameters
    ----------
    design
        Its site, array and load. Its weather is drawn once, from the site's monthly means.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    years, seed
        How many years are drawn, and from which seed.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range.
    """
    settings = units or load()
    record = sun_record(design, years, seed)

    def compute(inputs: Mapping[str, Any]) -> AutonomyView:
        return autonomy_view(design, record, inputs)

    return Panel(
        PanelParts(
            title=f"Dark spells at {design.plan.title}",
            question=question,
            controls=sliders(CONTROLS, design.given, settings),
            more=[],
            compute=compute,
            picture=picture,
            readouts=readouts,
            sentence=picture.sentence,
            legend=lambda view, chosen: symbols(CONTROLS, view.point, chosen),
        ),
        settings,
    )


_READOUTS = {
    "spell_wh": "Usable storage",
    "bank_warm_wh": "On the label, if warm",
    "longer_years_frac": "Share of dark years",
    "longer_spells_ratio": "Longer ones a year",
}


def readouts(view: AutonomyView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture."""
    mean = show("autonomy_days", view.mean_spell, settings, 3)
    return [*readings(_READOUTS, view.point, settings), ("Mean dark spell", mean)]


def sun_chart(sun: Sequence[float]) -> widgets.VBox:
    """Show the sun of successive days, in days of load: picture, sentence, and the numbers folded below.

    Parameters
    ----------
    sun
        Days of load, one a day, counted from 1 November.
    """
    settings = load()
    said = f"<div>{escape(picture.said_of_days(sun, settings))}</div>"
    written = picture.table_of_days(sun)
    numbers = NumbersBelow(lambda: [written], settings)
    return widgets.VBox([LiveFigure(picture.days_of_sun(sun, settings)), Fit(), widgets.HTML(said), numbers])
