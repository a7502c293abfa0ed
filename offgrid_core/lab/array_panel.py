"""The panel of the array: which month rules, what tilt, losses and winter's share do to it, and what else asks."""

from offgrid_core.figures import array as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import SliderControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, say, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_array import MonthsView, months, winter_share

LOSSES = ("soiling_frac", "charge_eff_frac")
MORE = ("refill_days", "array_load_ratio", "wiring_loss_frac")


def array_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel of what the months, and the bank, ask of the array of a sized system.

    Parameters
    ----------
    design
        Its place, loads, bank and parts stay; what is asked of the array follows the sliders.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    return Panel(
        PanelParts(
            title=f"The month that decides at {design.plan.title}",
            question=question,
            controls=[
                # as the loads list has it, to the nearest step: a page would move the slider there by itself
                SliderControl("winter_share_frac", round(winter_share(design), 2), settings),
                SliderControl("tilt_deg", design.tilt_deg, settings),
                *sliders(LOSSES, design.given, settings),
            ],
            more=sliders(MORE, design.given, settings),
            compute=lambda inputs: months(design, inputs),
            picture=picture,
            readouts=lambda view, chosen: readings(_READOUTS, view.point, chosen),
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


_READOUTS = {
    "design_month": "Ruling month",
    "array_for_load_w": "Array for the load",
    "array_for_refill_w": "… to refill the bank",
    "array_for_current_w": "… for the charging current",
    "array_needed_w": "Array needed",
}
_DEMANDS = {
    "array_for_load_w": "the load itself",
    "array_for_refill_w": "refilling the bank in time",
    "array_for_current_w": "the current that charges the bank well",
}


def sentence(view: MonthsView, settings: Settings) -> str:
    """Say what the picture says."""

    def text(name: str) -> str:
        return show(name, view.point[name], settings, 3)

    ruling, darkest, hungriest = (say(f"month.{m}") for m in (view.ruling, view.darkest, view.hungriest))
    said = (
        f"{ruling} rules: {text('design_load_wh')} a day from {text('design_sun_h')} of full sun take an array of "
        f"{text('array_for_load_w')}. The darkest month is {darkest}, the largest load comes in {hungriest}. "
        f"The array needed is {text('array_needed_w')}, decided by {_DEMANDS[view.decides]}."
    )
    return f"{said} {view.caution}".strip()


def legend(view: MonthsView, settings: Settings) -> str:
    """Return a short legend of a setting."""
    tilt = show("tilt_deg", view.tilt_deg, settings, 3)
    return f"tilt {tilt} · {symbols(('winter_share_frac', *LOSSES), view.point, settings)}"
