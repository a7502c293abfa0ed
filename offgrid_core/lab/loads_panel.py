"""The loads panel: what a day takes out of the battery, row by row, and what the inverter takes for itself."""

from offgrid_core.figures import loads as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore import LoadsView, one_day

CONTROLS = ("inverter_eff_frac", "inverter_idle_w", "inverter_on_h", "growth_factor")


def loads_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel of a sized system's loads list.

    Parameters
    ----------
    design
        Its loads list and inverter are where the sliders start.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    return Panel(
        PanelParts(
            title=f"A day of loads at {design.plan.title}",
            question=question,
            controls=sliders(CONTROLS, design.loads, settings),
            more=[],
            compute=lambda inputs: one_day(design, inputs),
            picture=picture,
            readouts=lambda view, chosen: readings(_READOUTS, view.day, chosen),
            sentence=sentence,
            legend=lambda view, chosen: symbols(CONTROLS, view.day, chosen),
        ),
        settings,
    )


_READOUTS = {
    "ac_day_wh": "AC energy a day",
    "dc_day_wh": "DC energy a day",
    "idle_grown_wh": "Inverter idle",
    "battery_day_wh": "Out of the battery",
}


def sentence(view: LoadsView, settings: Settings) -> str:
    """Say what the picture says."""
    (first, most), *_ = view.at_battery()
    return (
        f"The battery gives {show('battery_day_wh', view.day['battery_day_wh'], settings, 3)} on the busiest day. "
        f"The largest part goes to “{first}”: {show('battery_day_wh', most, settings, 3)}; the inverter takes "
        f"{show('idle_grown_wh', view.day['idle_grown_wh'], settings, 3)} only for being on."
    )
