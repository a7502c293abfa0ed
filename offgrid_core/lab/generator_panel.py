"""The panel of the backup generator: charger, engine and the two levels, for one run and for a year."""

from collections.abc import Sequence

from offgrid_core import data
from offgrid_core.figures import generator as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.year.explore_generator import SMALL, RunView, explored, one_run, with_generator

SLIDERS = ("charger_rated_a", "generator_rated_w", "generator_start_frac", "generator_stop_frac")
_MORE = {"dc_running_w": 0.0, "array_factor": 1.0}
_FUELS = ("diesel_textbook", "diesel_chart_100kw", "diesel_second_100kw", "diesel_second_20kw")


def generator_panel(design: Design, question: str = "", units: Settings | None = None, **start: float) -> Panel:
    """Return the panel of charger, generator and the two levels of charge.

    Parameters
    ----------
    design
        Its generator is where the controls start; a design without one gets a small set. Its weather is drawn once.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    **start
        Inputs, by name, that start somewhere else: ``array_factor=0.6``.

    Raises
    ------
    OffgridError
        If a value of the site is out of range.
    """
    settings = units or load()
    set_ = with_generator(design)
    begins = {**one_run(set_), **_MORE, **start}
    fuels = {data.fuel_curve(key).label: key for key in _FUELS}
    return Panel(
        PanelParts(
            title=f"Charger and generator at {design.plan.title}",
            question=question,
            controls=sliders(SLIDERS, begins, settings),
            more=[
                *sliders(_MORE, begins, settings),
                ChoiceControl("fuel", "Fuel line of the engine", fuels, (design.plan.generator or SMALL).fuel),
            ],
            compute=explored(set_),
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=lambda view, chosen: symbols(SLIDERS, view.run, chosen),
        ),
        settings,
    )


def readouts(view: RunView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture: one run, then a mean year."""
    run = {"Hours of a run": "restore_h", "Fuel of a run": "restore_l"}
    year = {"Engine a year": "generator_ran_h", "Fuel a year": "generator_fuel_l", "Load lost": "loss_energy_frac"}
    if view.is_stalling:
        return [*((label, "stalls") for label in run), *((label, "–") for label in ("Starts a year", *year))]
    never = {"restore_h": "never done", "restore_l": "no end"}
    told = {n: show(n, view.run[n], settings, 3) for n in run.values()} | ({} if view.is_filling else never)
    return [
        *((label, told[n]) for label, n in run.items()),
        ("Starts a year", show("starts_year_count", view.starts, settings, 3)),
        *((label, show(n, view.mean(n), settings, 3)) for label, n in year.items()),
    ]


def sentence(view: RunView, settings: Settings) -> str:
    """Say what the picture says."""
    if view.is_stalling:
        return _of_engine(view, settings)
    return " ".join(filter(None, (_of_run(view, settings), _of_engine(view, settings), _of_year(view, settings))))


def _of_run(view: RunView, settings: Settings) -> str:
    def text(name: str) -> str:
        return show(name, view.run[name], settings, 3)

    levels = f"from {text('generator_start_frac')} to {text('generator_stop_frac')}"
    if view.run.broken()["levels_margin_frac"] or not view.run["levels_margin_frac"]:
        return f"The run is to go {levels}: the stop level does not lie above the start level."
    if not view.is_filling:
        return f"The DC loads take all that the charger gives, {text('charger_dc_w')}: the bank never gets {levels}."
    given = "DC loads take their part of it, and " if view.run["dc_running_w"] else ""
    return (
        f"The charger gives the bank {text('charger_a')}, {text('charger_dc_w')}; {given}to go {levels} takes "
        f"{text('restore_h')} and {text('restore_l')} of fuel."
    )


def _of_engine(view: RunView, settings: Settings) -> str:
    broken = view.run.broken()
    loading, kept = (show(n, view.run[n], settings, 3) for n in ("loading_frac", "generator_kept_frac"))
    if view.is_stalling:
        return (
            f"TOO MUCH for this generator: {loading} of its label is asked, {kept} is left up here. It stalls: there "
            "is no run and no year to show."
        )
    if broken["loading_margin_frac"]:
        return f"The engine loafs at {loading} of its label, and soots up."
    return f"The engine is loaded to {loading} of its label."


def _of_year(view: RunView, settings: Settings) -> str:
    starts = show("starts_year_count", view.starts, settings, 3)
    lost = show("loss_energy_frac", view.mean("loss_energy_frac"), settings, 3)
    late = "TOO LATE: the bank is cut off before the engine starts. "
    told = f"Starts in a mean year: {starts}; share of the load lost: {lost}."
    return late + told if view.run.broken()["start_margin_frac"] else told
