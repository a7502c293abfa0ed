"""The panel of the charge controller: a module string between the coldest morning and the hottest day."""

from offgrid_core import data
from offgrid_core.figures import controller as picture
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_controller import StringWindow, controllers_for, string_window

SLIDERS = ("air_coldest_c", "modules_in_series_count", "hot_day_rise_k")


def controller_panel(design: Design, question: str = "", units: Settings | None = None, **start: float) -> Panel:
    """Return the panel in which modules are put in a row at a charge controller.

    Parameters
    ----------
    design
        Its modules, their number in a row, its controller and its coldest morning are where the controls start.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    **start
        Sliders, by name, that start somewhere else: ``air_coldest_c=15``.
    """
    settings = units or load()
    own = design.parts
    begins = {**design.given, "modules_in_series_count": design.system["modules_in_series_count"], **start}
    controllers = {c.label: c.key for c in controllers_for(design)}
    modules = {m.label: m.key for m in data.modules()}
    return Panel(
        PanelParts(
            title=f"Modules in a row at {design.plan.title}",
            question=question,
            controls=[
                *sliders(SLIDERS, begins, settings),
                ChoiceControl("controller", "Charge controller", controllers, own.controller.key),
            ],
            more=[ChoiceControl("module", "Module", modules, own.module.key)],
            compute=lambda inputs: string_window(design, inputs),
            picture=picture,
            readouts=lambda view, chosen: readings(_READOUTS, view.point, chosen),
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


_READOUTS = {
    "string_voc_cold_v": "Cold morning",
    "cold_voltage_margin_v": "Below the limit",
    "string_vmp_hot_v": "Hot day",
    "hot_voltage_margin_v": "Above charging",
    "converter_kept_frac": "Passed on",
    "controller_needed_a": "Amps needed",
}


def sentence(view: StringWindow, settings: Settings) -> str:
    """Say what the picture says."""

    def text(name: str) -> str:
        return show(name, view.point[name], settings, 3)

    def away(name: str) -> str:
        return show(name, abs(view.point[name]), settings, 3)

    row = "1 module stands" if view.in_series == 1 else f"{view.in_series} modules in a row stand"
    above = "above the controller's limit of {limit}: UNSAFE, the controller is destroyed."
    below = "below the controller's limit of {limit}."
    cold = (above if view.is_too_high else below).format(limit=text("controller_voltage_max_v"))
    short = "short of what charging needs: the bank is not filled on such a day."
    hot = short if view.is_too_low else "above what charging needs."
    said = (
        f"On a morning of {text('air_coldest_c')}, {row} at {text('string_voc_cold_v')}, "
        f"{away('cold_voltage_margin_v')} {cold} On the hottest day {text('string_vmp_hot_v')} are left, "
        f"{away('hot_voltage_margin_v')} {hot}"
    )
    is_enough = "enough" if view.point["controllers_count"] == 1 else "too small"
    amps = f"{text('controller_needed_a')} are needed; one of {text('controller_rated_a')} is {is_enough}."
    return f"{said} {_kind(view, settings)} {amps}"


def _kind(view: StringWindow, settings: Settings) -> str:
    kept = show("converter_kept_frac", view.point["converter_kept_frac"], settings, 3)
    if view.is_direct:
        return f"This direct controller holds the modules at the bank's voltage and passes on {kept} of their power."
    return f"This tracking controller turns spare volts into amps and passes on {kept} of the modules' power."


def legend(view: StringWindow, settings: Settings) -> str:
    """Return a short legend of a setting."""
    count = show("modules_in_series_count", view.point["modules_in_series_count"], settings)
    return f"{count} × {view.module.label.partition(',')[0]}, {view.controller.label}"
