"""The panel of the depth limit: the label it asks for, how long that label lasts, and what its energy costs."""

from collections.abc import Callable, Sequence

from offgrid_core.figures import depth as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import ChoiceControl, SliderControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore import HEADLINE
from offgrid_core.system.explore_depth import DepthView, depth_view, life_temp_of

#: Hours that labels are written for.
_HOURS = (10.0, 20.0, 100.0)


def depth_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel of a sized system's depth limit.

    Parameters
    ----------
    design
        Its load, voltage and chemistry are kept; a bank of just the label needed is thought of.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    hours = float(design.given["capacity_hours_h"])
    labels = {f"{h:.0f} hours": h for h in sorted({*_HOURS, hours})}
    return Panel(
        PanelParts(
            title=f"How deep, at {design.plan.title}",
            question=question,
            controls=[
                *sliders(HEADLINE, design.given, settings),
                ChoiceControl("capacity_hours_h", "Hours that the label is written for", labels, hours),
            ],
            more=[
                SliderControl("life_temp_c", round(life_temp_of(design), 1), settings),
                *sliders(("peukert_exponent",), design.given, settings),
            ],
            compute=lambda inputs: depth_view(design, inputs),
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=lambda view, settings: symbols(HEADLINE, view.chain, settings),
        ),
        settings,
    )


_NEEDED = {"bank_needed_ah": "Bank needed"}
_WORN = {
    "depth_day_frac": "Hardest day takes",
    "cycles_count": "Cycles of that depth",
    "bank_life_years": "Life",
    "through_kwh_cost": "Price of a kWh",
}


def readouts(view: DepthView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture."""
    labelled = {"label_at_hours_ah": f"On a label of {view.hours:.0f} h"}
    return [
        *readings(_NEEDED, view.chain, settings),
        *readings(labelled, view.label, settings),
        *readings(_WORN, view.life, settings),
    ]


def sentence(view: DepthView, settings: Settings) -> str:
    """Say what the picture says."""
    every = {**view.chain, **view.label, **view.life}

    def text(name: str) -> str:
        return show(name, every[name], settings, 3)

    ends = {"calendar_life_years": ("Age ends", "age"), "cycle_life_years": ("Cycles end", "cycles")}
    first, later = sorted(ends, key=lambda n: float(every[n]))
    deep = "Too deep for this chemistry. " if view.is_too_deep else ""
    return (
        f"{deep}Emptied by {text('depth_frac')} at most, the bank needs {text('bank_needed_ah')}. "
        f"Its hardest day takes {text('depth_day_frac')} of that. {ends[first][0]} it after {text(first)}; "
        f"{ends[later][1]} alone would after {text(later)}. Each kWh through it costs {text('through_kwh_cost')}. "
        f"{_rate(view, text)}"
    )


def _rate(view: DepthView, text: Callable[[str], str]) -> str:
    """Say what the hours of the label do."""
    drawn, label = text("functional_hours_h"), text("label_at_hours_ah")
    said = f"All that may run together would empty it in {drawn}, "
    if view.label["capacity_hours_ratio"] < 1:
        return said + f"so a label of {view.hours:.0f} h must say {label}."
    return said + f"no faster than its label of {view.hours:.0f} h allows for."
