"""The panel of cost: a small bank emptied deep and bought often, or a large one that is spared: which is cheaper."""

from collections.abc import Sequence

from offgrid_core.figures import cost as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_cost import LARGE, LESS_LEFT, PAID, SMALL, CostView, cost_view
from offgrid_core.system.explore_depth import life_temp_of

SLIDERS = ("discount_rate_frac", "horizon_years", "depth_frac", "cycles_year_count")
MORE = ("depth_large_frac", "autonomy_days", "life_temp_c")
#: Inputs that the legend of a pin tells.
_TOLD = ("depth_frac", "discount_rate_frac", "horizon_years")
#: Where the sliders start that a design does not speak of: a bank of half the depth, years and a rate in use.
_STARTS = {"discount_rate_frac": 0.05, "horizon_years": 20.0, "depth_large_frac": 0.4}


def cost_panel(design: Design, question: str = "", units: Settings | None = None, **start: float) -> Panel:
    """Return the panel of two banks for one load over the years.

    Parameters
    ----------
    design
        Its load, voltage, chemistry and the price of its battery unit are kept; banks of just the label needed are
        thought of.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    **start
        Sliders, by name, that start somewhere else: ``depth_frac=0.8``.
    """
    settings = units or load()
    begins = {**design.given, **_STARTS, "life_temp_c": life_temp_of(design), **start}
    compared = {"nothing is credited": PAID, "its unused years are credited": LESS_LEFT}
    return Panel(
        PanelParts(
            title=f"Two banks for {design.plan.title}",
            question=question,
            controls=[
                *sliders(SLIDERS, begins, settings),
                ChoiceControl("compared", "The last bank, at the horizon", compared, PAID),
            ],
            more=sliders(MORE, begins, settings),
            compute=lambda inputs: cost_view(design, inputs),
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=lambda view, chosen: symbols(_TOLD, view.banks[SMALL].now, chosen),
        ),
        settings,
    )


def readouts(view: CostView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture."""
    found = []
    for which in (SMALL, LARGE):
        bought = view.banks[which].now
        found += [
            (f"{which.capitalize()} bank", show("bank_cost", bought["bank_cost"], settings, 3)),
            (f"{which.capitalize()}: life", show("bank_life_years", bought["bank_life_years"], settings, 3)),
            (f"{which.capitalize()}: in all", show(view.total, view.in_all(which), settings, 3)),
        ]
    return [*found, ("Choice turns at", _turns(view, settings))]


def sentence(view: CostView, settings: Settings) -> str:
    """Say what the picture says."""
    small, large = (_story(view, which, settings) for which in (SMALL, LARGE))
    given = view.inputs
    over = show("horizon_years", given["horizon_years"], settings)
    rate = show("discount_rate_frac", given["discount_rate_frac"], settings, 3)
    ends = {SMALL: "the small bank", LARGE: "the large bank"}
    if view.saved:
        cheaper = ends[LARGE if view.saved > 0 else SMALL]
        verdict = f"{cheaper} is cheaper by {show('saved_cost', abs(view.saved), settings, 3)}"
    else:
        verdict = "the two come to the same"
    turns = (
        f"The choice turns at {_turns(view, settings)}." if view.turns else "No rate in the picture turns the choice."
    )
    deep = "The small bank is emptied too deep for this chemistry. " if view.is_too_deep else ""
    return f"{deep}{small} {large} Over {over} at {rate}, {verdict}. {turns}"


def _story(view: CostView, which: str, settings: Settings) -> str:
    """Say what becomes of one bank: how long it lasts and why no longer, how often it is bought again."""
    bank = view.banks[which]
    ends_by_age = bank.now["calendar_life_years"] <= bank.now["cycle_life_years"]
    life = show("bank_life_years", bank.now["bank_life_years"], settings, 3)
    again = int(bank.now["bank_replaced_count"])
    often = {0: "never bought again", 1: "bought again once", 2: "bought again twice"}
    times = often.get(again, f"bought again {again} times")
    return f"The {which} bank lasts {life}, ended by {'age' if ends_by_age else 'its cycles'}, and is {times}."


def _turns(view: CostView, settings: Settings) -> str:
    return " and ".join(show("discount_rate_frac", rate, settings, 3) for rate in view.turns) or "no rate"
