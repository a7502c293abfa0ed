"""The panel of the bank voltage: one inverter on one cable, and what twice the volts does to current and loss."""

from offgrid_core.figures import voltage as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import ChoiceControl, SliderControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities.settings import load
from offgrid_core.quantities.text import capital
from offgrid_core.system.design import Design
from offgrid_core.system.explore_voltage import CableView, cable_sizes, one_cable

#: Where the sliders start, whatever the place has: a heavy inverter on the lowest voltage.
OPENS = {"bank_voltage_v": 12.0, "inverter_rated_w": 2000.0, "cable_run_m": 5.0}
#: Of the cables listed, the thinnest that has so much copper, mm².
_COPPER = 60
_LOW_12V_V = 11.0


def voltage_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel in which an inverter on one cable is put to a higher or a lower bank voltage.

    Parameters
    ----------
    design
        Its inverter efficiency, its cables and what it allows are used; the sliders start at a 2 kW inverter on 12 V.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    sizes = cable_sizes(design)
    shown = {show("cable_mm2", size, settings): size for size in sizes}
    thick = next(size for size in sizes if size >= _COPPER)
    return Panel(
        PanelParts(
            title=f"An inverter and its cable at {design.plan.title}",
            question=question,
            controls=[
                *sliders(OPENS, OPENS, settings),
                ChoiceControl("cable_mm2", capital(label_of("cable_mm2")), shown, thick),
            ],
            more=[
                *sliders(("inverter_eff_frac",), design.given, settings),
                SliderControl("low_12v_v", _LOW_12V_V, settings),
            ],
            compute=lambda inputs: one_cable(design, inputs),
            picture=picture,
            readouts=lambda view, chosen: readings(_READOUTS, view.point, chosen),
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


_READOUTS = {
    "inverter_low_v": "Lowest working voltage",
    "inverter_input_a": "Current then",
    "inverter_lost_w": "Power lost in the cable",
    "inverter_drop_v": "Volts lost",
    "copper_wanted_mm2": "Copper wanted",
}


def sentence(view: CableView, settings: Settings) -> str:
    """Say what the picture says."""
    sheet = view.point.sheet
    told = {
        n: show(n, view.point[n], settings, 3)
        for n in (*sheet, *sheet.inputs)
        if n not in ("cable_resistance", "cable_ampacity")
    }
    said = (
        f"On a {told['bank_voltage_v']} bank {told['inverter_rated_w']} take {told['inverter_input_a']} when the "
        f"battery is low. {told['cable_run_m']} of cable, there and back, keep {told['inverter_drop_v']}, which is "
        f"{told['inverter_lost_frac']} of the bank's, and turn {told['inverter_lost_w']} into heat."
    )
    if view.nothing_arrives:
        said += " That is more than the bank has: nothing runs on this cable."
    elif view.drops_too_much:
        said += f" Allowed are {told['inverter_drop_frac']}: that takes {told['copper_wanted_mm2']} of copper."
    else:
        said += f" That is within the {told['inverter_drop_frac']} allowed."
    carries = show("inverter_input_a", view.may_carry_a, settings, 3)
    return said + (
        f" The cable may carry {carries}: it overheats." if view.overheats else f" The cable may carry {carries}."
    )


def legend(view: CableView, settings: Settings) -> str:
    """Return a short legend of a setting."""
    copper = show("cable_mm2", view.point["cable_mm2"], settings, 3)
    return f"{symbols(('inverter_rated_w',), view.point, settings)} · {copper}"
