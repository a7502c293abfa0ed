"""The whole-chain panel, and the temperature panel: one computation, two pictures.

The three headline sliders (autonomy, depth of discharge, coldest battery temperature) stand in both, look the
same and do the same.
"""

from collections.abc import Callable, Mapping
from typing import Any

from offgrid_core.figures import chain, temperature
from offgrid_core.figures.parts import legend_of
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore import HEADLINE, ChainView, whole_chain

MORE = ("array_load_ratio", "refill_days", "soiling_frac", "charge_eff_frac")


def chain_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel of a sized system.

    Parameters
    ----------
    design
        Its parts are kept; their counts follow the sliders.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    against = ChoiceControl("against", "Draw the curves against", {label_of(n): n for n in HEADLINE}, HEADLINE[0])

    def compute(inputs: Mapping[str, Any]) -> ChainView:
        moved = {n: v for n, v in inputs.items() if n != "against"}
        return whole_chain(design, moved, inputs["against"])

    return Panel(
        PanelParts(
            title=f"The whole chain at {design.plan.title}",
            question=question,
            controls=[*sliders(HEADLINE, design.given, settings), against],
            more=sliders(MORE, design.given, settings),
            compute=compute,
            picture=chain,
            readouts=lambda view, chosen: readings(_READOUTS, view.point, chosen),
            sentence=sentence,
            legend=legend_of,
        ),
        settings,
    )


def temperature_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel that shows what the cold leaves, and what that does to the bank of a sized system."""
    settings = units or load()
    return Panel(
        PanelParts(
            title=f"Cold and the bank at {design.plan.title}",
            question=question,
            controls=sliders(HEADLINE, design.given, settings),
            more=[],
            compute=lambda inputs: whole_chain(design, inputs, "battery_temp_c"),
            picture=temperature,
            readouts=lambda view, chosen: readings(_COLD_READOUTS, view.point, chosen),
            sentence=cold_sentence,
            legend=legend_of,
        ),
        settings,
    )


_READOUTS = {
    "bank_needed_ah": "Bank needed",
    "bank_ah": "Bank as built",
    "units_count": "Battery units",
    "strings_count": "Strings",
    "design_month": "Design month",
    "array_needed_w": "Array needed",
    "array_w": "Array as built",
    "controller_needed_a": "Controller",
    "inverter_input_a": "Inverter input",
}
_COLD_READOUTS = {
    "kept_frac": "Capacity kept",
    "bank_needed_ah": "Bank needed",
    "strings_count": "Strings",
    "units_count": "Battery units",
    "autonomy_given_days": "Autonomy as built",
}


def _texts(view: ChainView, settings: Settings) -> Callable[[str], str]:
    """Return what writes a line's value at the setting."""
    return lambda name: show(name, view.point[name], settings, 3)


def _strings(view: ChainView) -> str:
    count = view.at("strings_count")
    return f"{count:.0f} string" if count == 1 else f"{count:.0f} strings"


def cold_sentence(view: ChainView, settings: Settings) -> str:
    """Say what the picture of cold says."""
    text = _texts(view, settings)
    data = (
        " (our own invented data at this temperature)"
        if view.point["capacity_kept"].invented_at(view.at("battery_temp_c"))
        else ""
    )
    return (
        f"At {text('battery_temp_c')} the bank keeps {text('kept_frac')} of its label{data}. "
        f"It needs {text('bank_needed_ah')} on the label where a warm one would need "
        f"{show('bank_needed_ah', view.if_warm_ah, settings, 3)}: {_strings(view)} of "
        f"{text('units_in_series_count')} units."
    )


def sentence(view: ChainView, settings: Settings) -> str:
    """Say what the picture says."""
    text = _texts(view, settings)
    built = f"{text('units_count')} battery units in {_strings(view)} make {text('bank_ah')}"
    demands = {
        "array_for_load_w": f"the load of {text('design_month')}",
        "array_for_refill_w": "refilling the bank in time",
        "array_for_current_w": "charging the bank briskly",
    }
    decides = max(demands, key=lambda n: view.at(n))
    said = (
        f"The bank needs {text('bank_needed_ah')}; {built}. "
        f"The array must be {text('array_needed_w')}, decided by {demands[decides]}; "
        f"{text('modules_count')} modules give {text('array_w')}. "
        f"The controller must carry {text('controller_needed_a')}"
    )
    if "inverter_input_a" in view.point:
        said += f" and the inverter draws {text('inverter_input_a')} at {text('inverter_low_v')}"
    broken = "; ".join(view.broken_now)
    return said + (f". Limits broken: {broken}." if broken else ". No limit is broken.")
