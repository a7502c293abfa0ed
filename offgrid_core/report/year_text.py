"""The years of a design for a terminal: plain text, at most 100 columns wide."""

from collections.abc import Sequence
from textwrap import wrap

import numpy as np

from offgrid_core.quantities import Settings, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.report import tables
from offgrid_core.report import year_tables as rows
from offgrid_core.report.terminal import WIDTH, grid, heading
from offgrid_core.report.year_run import Run
from offgrid_core.report.year_words import say
from offgrid_core.sizing.hourly_sun import MONTH_DAYS

_BLOCKS = "▁▂▃▄▅▆▇█"
_WEEKS = np.arange(0, 364, 7)


def year_text(run: Run, settings: Settings) -> str:
    """Return the whole report: the verdict, the years, where the energy went, wear, cost, and what to doubt."""
    design, weather = run.design, run.outcome.weather
    said = [
        heading(say("title", title=design.plan.title)),
        *wrapped(tables.site_text(design, settings, design.site.name), weather.source, *rows.place_said(run, settings)),
        *wrapped("", rows.verdict(run, settings), *rows.generator_said(run, settings), ""),
        say_shared("caution.design_exercise"),
        heading(say("years")),
        grid(rows.spread_rows(run, settings)),
        *wrapped(*rows.years_notes(run)),
    ]
    by_year = rows.year_rows(run, settings)
    said += ["", grid(by_year)] if by_year else []
    said += [heading(say("ribbon")), *_ribbon(run), *wrapped(rows.ribbon_scale(run, settings))]
    said += [heading(say("places")), grid(rows.place_rows(run, settings))]
    said += wrapped(say("note.places"), rows.closes(run, settings))
    said += [heading(say("hand")), *wrapped(rows.hand_said(run, settings), ""), grid(rows.hand_rows(run, settings))]
    said += [heading(say("wear")), *wrapped(rows.ended_by(run, settings), ""), grid(rows.wear_rows(run, settings)), ""]
    said += [grid(rows.depth_rows(run, settings)), *wrapped(say("note.wear"))]
    said += [heading(say("cost")), *wrapped(say("note.cost"), ""), grid(rows.cost_rows(run, settings))]
    said += [heading(say("assumed")), grid(rows.assumption_rows(run, settings))]
    said += [heading(say("limits")), *bullets(weather.limits), ""]
    return "\n".join(said)


def bullets(said: Sequence[str]) -> list[str]:
    """Return sentences as a list, wrapped."""
    return [text for each in said for text in wrap(f"- {each}", WIDTH, subsequent_indent="  ")]


def wrapped(*said: str) -> list[str]:
    """Return sentences, each on lines of its own; an empty one is an empty line."""
    return [text for each in said for text in (wrap(each, WIDTH) or [""])]


def _ribbon(run: Run) -> list[str]:
    """Return one block a week for the lowest and the middle of the years, with the months above."""
    weeks = np.minimum.reduceat(run.outcome.years.daily_lowest_frac, _WEEKS, axis=1)
    picks = {"ribbon.only": weeks[0]}
    if run.count > 1:
        picks = {"ribbon.worst": weeks.min(axis=0), "ribbon.middle": np.median(weeks, axis=0)}
    begins = (np.cumsum(MONTH_DAYS) - MONTH_DAYS) // 7
    months = [" "] * len(_WEEKS)
    for month, week in enumerate(begins, 1):
        months[week] = show("design_month", month)[0]
    named = {say(key): "".join(map(_block, charge)) for key, charge in picks.items()}
    side = max(map(len, named))
    return [
        " " * (side + 2) + "".join(months).rstrip(),
        *(f"{name.ljust(side)}  {line}" for name, line in named.items()),
    ]


def _block(share: float) -> str:
    return _BLOCKS[int(np.clip(np.ceil(share * len(_BLOCKS)) - 1, 0, len(_BLOCKS) - 1))]
