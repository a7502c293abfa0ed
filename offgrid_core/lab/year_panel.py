"""The year panel: a sized system followed through drawn years, hour by hour, with its bank and array moved."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from offgrid_core.figures import year as picture
from offgrid_core.figures.parts import symbols
from offgrid_core.figures.year_words import date_of_lowest, sentence
from offgrid_core.lab.controls import ChoiceControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore import HEADLINE
from offgrid_core.year.explore import FACTORS, YearView, rebuilt, without_generator
from offgrid_core.year.outcome import Outcome, drawn_weather, follow

#: Years drawn: as many as are worked out between two moves of a slider.
YEARS = 5
_WEEK = "week_year"
_WORST = "worst"
_GENERATOR = "generator"
_RUNS = {"starts when it is wanted": True, "stands still": False}
#: Settings kept worked out, so that going back and looking at another week are free.
_KEPT = 8


def year_panel(
    design: Design,
    question: str = "",
    units: Settings | None = None,
    *,
    years: int = YEARS,
    seed: int = 1,
    **start: Any,
) -> Panel:
    """Return the panel of a sized system's years.

    Parameters
    ----------
    design
        Its parts are kept; their counts follow the sliders. Its weather is drawn once, from the site's monthly means.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    years, seed
        How many years are drawn, and from which seed.
    **start
        Sliders, by name, that start somewhere else and stand in front, with the rest under "More inputs":
        ``array_factor=0.5``. Where the plan has a generator, ``generator=False`` lets it stand still.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range.
    """
    settings = units or load()
    weather = drawn_weather(design, years, seed)
    designs = {True: design}
    extra = []
    if design.plan.generator is not None:
        designs[False] = without_generator(design)
        extra = [ChoiceControl(_GENERATOR, "The generator", _RUNS, start.pop(_GENERATOR, True))]
    begins = {n: design.given[n] for n in HEADLINE} | _more(design) | start
    front = [*start] or [*HEADLINE]

    @lru_cache(_KEPT)
    def followed(moved: tuple[tuple[str, float], ...], runs: bool) -> Outcome:
        return follow(rebuilt(designs[runs], dict(moved)), weather)

    def compute(inputs: Mapping[str, Any]) -> YearView:
        moved = tuple((n, v) for n, v in inputs.items() if n not in (_WEEK, _GENERATOR))
        outcome = followed(moved, inputs.get(_GENERATOR, True))
        return YearView(outcome, None if inputs[_WEEK] == _WORST else inputs[_WEEK])

    return Panel(
        PanelParts(
            title=f"The year, hour by hour, at {design.plan.title}",
            question=question,
            controls=[*sliders(front, begins, settings), *extra, _weeks(years)],
            more=sliders([n for n in begins if n not in front], begins, settings),
            compute=compute,
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=lambda view, chosen: symbols(front, view.outcome.design.given, chosen),
        ),
        settings,
    )


def _weeks(years: int) -> ChoiceControl:
    options: dict[str, int | str] = {"the worst year": _WORST}
    options |= {f"year {year + 1}": year for year in range(years)}
    return ChoiceControl(_WEEK, "Show the week of the lowest charge of", options, _WORST)


def _more(design: Design) -> dict[str, float]:
    """Return the inputs under "More inputs" and where they start."""
    start = dict.fromkeys(FACTORS, 1.0)
    if design.plan.generator is not None:
        start["generator_start_frac"] = float(design.given["generator_start_frac"])
    return start


def readouts(view: YearView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture; of several years the mean, where nothing else is said."""
    outcome = view.outcome
    told = {"Load lost": "loss_energy_frac", "Hours short a year": "short_year_h"}
    also = {"Spilled or cut": "spilled_frac", "Generator a year": "generator_ran_h"}

    def means(names: Mapping[str, str]) -> list[tuple[str, str]]:
        there = {label: n for label, n in names.items() if n in outcome.years.totals}
        return [(label, show(n, outcome.mean(n), settings, 3)) for label, n in there.items()]

    return [
        *means(told),
        ("Longest outage", show("longest_outage_h", int(outcome.years.longest_outage_h.max()), settings, 3)),
        ("Lowest charge", date_of_lowest(view, settings)),
        *means(also),
        ("New bank after", show("bank_life_years", float(outcome.wear["bank_life_years"]), settings, 3)),
    ]
