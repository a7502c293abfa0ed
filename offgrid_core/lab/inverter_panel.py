"""The panel of the inverter: appliances put on a day, and what they ask of an inverter in its heat."""

from offgrid_core.figures import inverter as picture
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_inverter import APPLIANCES, DIALS, InverterDay, air_of, inverter_day, inverters_for


def inverter_panel(
    design: Design, question: str = "", units: Settings | None = None, inverter: str = "", **start: float
) -> Panel:
    """Return the panel in which appliances are switched on at times of one's own choice.

    Parameters
    ----------
    design
        Its bank voltage says which inverters are offered, its place how hot it gets. The appliances are the same
        everywhere: see :mod:`offgrid_core.system.explore_inverter`.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    inverter
        Key of the inverter to start with; the design's own by default, or else the smallest.
    **start
        Sliders, by name, that start somewhere else: ``air_hot_c=45``.
    """
    settings = units or load()
    offered = inverters_for(design)
    own = design.parts.inverter or offered[0]
    begins = {**DIALS, "air_hot_c": round(air_of(design)), "inverter_on_h": 24.0, **start}
    return Panel(
        PanelParts(
            title=f"A day of appliances at {design.plan.title}",
            question=question,
            controls=[
                *sliders((*DIALS, "air_hot_c"), begins, settings),
                ChoiceControl("inverter", "Inverter", {i.label: i.key for i in offered}, inverter or own.key),
            ],
            more=sliders(("inverter_on_h",), begins, settings),
            compute=lambda inputs: inverter_day(design, inputs),
            picture=picture,
            readouts=lambda view, chosen: readings(_READOUTS, view.point, chosen),
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


_READOUTS = {
    "labels_w": "All labels",
    "peak_w": "Together",
    "peak_va": "Volt-amps",
    "surge_w": "Hardest start",
    "inverter_hot_w": "In this heat",
    "inverter_idle_wh": "Idle a day",
}
#: What the sentence tells beside the readouts.
_NAMED = ("inverter_needed_w", "inverter_rated_w", "inverter_rated_va", "inverter_surge_w", "ac_day_wh")
#: Places of the appliances that have a dial.
_DIALLED = tuple(i for i, a in enumerate(APPLIANCES) if a.dial)
#: What is said of each limit that is broken.
_SHORT = {
    "inverter_margin_w": "the watts with their margin ({inverter_needed_w}) against the label ({inverter_rated_w})",
    "inverter_margin_va": "the volt-amps against its {inverter_rated_va}",
    "heat_margin_w": "the watts in this heat",
    "surge_margin_w": "the hardest start",
}


def sentence(view: InverterDay, settings: Settings) -> str:
    """Say what the picture says."""
    told = {n: show(n, view.point[n], settings, 3 if n in _READOUTS else 4) for n in (*_NAMED, *_READOUTS)}
    peak_at, surge_at = (show("moment_h", t, settings) for t in (view.peak_at_h, view.surge_at_h))
    short = "; ".join(_SHORT[n].format_map(told) for n in view.broken)
    verdict = f"TOO SMALL by this: {short}." if short else "That is enough, with the margin."
    return (
        f"At {peak_at} most runs together: {told['peak_w']}, {told['peak_va']}. The hardest start can come at "
        f"{surge_at}, on top of what runs: {told['surge_w']}. In this heat the inverter gives "
        f"{told['inverter_hot_w']}; by its label, {told['inverter_surge_w']} for a moment. {verdict} For being on it "
        f"takes {told['inverter_idle_wh']} a day, beside {told['ac_day_wh']} for all that runs."
    )


def legend(view: InverterDay, settings: Settings) -> str:
    """Return a short legend of a setting."""
    at = ", ".join(show("moment_h", view.starts_h[i], settings) for i in _DIALLED)
    return f"{show('inverter_rated_w', view.inverter.rated_w, settings)}; {at}"
