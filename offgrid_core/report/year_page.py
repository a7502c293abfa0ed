"""The years of a design as one page of HTML, to be read on a screen and printed; it needs nothing from anywhere else.

Whatever number it shows is also in the JSON of the same years.
"""

from collections.abc import Iterator
from importlib import resources

from offgrid_core.quantities import Settings
from offgrid_core.quantities import say as say_shared
from offgrid_core.report import tables, year_pictures
from offgrid_core.report import year_tables as rows
from offgrid_core.report.markup import Markup, items, join, own, tag
from offgrid_core.report.page import LANGUAGE, contents_of, rows_table, section_of
from offgrid_core.report.year_run import Run
from offgrid_core.report.year_words import say


def year_html(run: Run, settings: Settings) -> str:
    """Return the whole report as a page of HTML.

    Parameters
    ----------
    run
        A design followed through its years.
    settings
        Units and marks of the reader.

    Returns
    -------
    str
        A complete HTML document that refers to nothing outside itself.
    """
    design, parts = run.design, list(_sections(run, settings))
    body = [
        tag("h1", say("title", title=own(design.plan.title))),
        tag("p", tables.site_text(design, settings, own(design.site.name))),
        *(tag("p", said, class_="note") for said in (run.outcome.weather.source, *rows.place_said(run, settings))),
        tag("p", say_shared("caution.design_exercise"), class_="caution"),
        tag("p", tag("strong", rows.verdict(run, settings))),
        *(tag("p", said) for said in rows.generator_said(run, settings)),
        contents_of([name for name, _ in parts]),
        *(section_of(number, name, inside) for number, (name, inside) in enumerate(parts, 1)),
    ]
    head = join(
        [
            Markup('<meta charset="utf-8">'),
            Markup('<meta name="viewport" content="width=device-width, initial-scale=1">'),
            tag("title", say("title", title=design.plan.title)),
            tag("style", Markup(resources.files(__package__).joinpath("page.css").read_text("utf-8"))),
        ]
    )
    page = tag("html", tag("head", head), tag("body", tag("main", join(body))), lang=LANGUAGE)
    return f"<!DOCTYPE html>\n{page}\n"


def _sections(run: Run, settings: Settings) -> Iterator[tuple[str, Markup]]:
    """Yield the sections: first what the years brought, then what it costs, and last what to doubt."""
    yield say("ribbon_days"), year_pictures.ribbon(run, settings)
    yield say("years"), _years(run, settings)
    yield say("places"), _places(run, settings)
    hand = [_said(rows.hand_said(run, settings)), rows_table(say("hand"), rows.hand_rows(run, settings))]
    yield say("hand"), join(hand)
    yield say("wear"), _wear(run, settings)
    cost = rows_table(say("table.cost", horizon=rows.horizon(run, settings)), rows.cost_rows(run, settings))
    yield say("cost"), join([tag("p", say("note.cost"), class_="caution"), cost])
    yield say("assumed"), rows_table(say("assumed"), rows.assumption_rows(run, settings), "plain assumed")
    yield say("limits"), items(run.outcome.weather.limits)


def _years(run: Run, settings: Settings) -> Markup:
    spread = rows_table(say("table.spread"), rows.spread_rows(run, settings), "figures")
    by_year = rows.year_rows(run, settings)
    listed = [rows_table(say("table.years"), by_year, "figures")] if by_year else []
    return join([spread, *map(_note, rows.years_notes(run)), *listed])


def _places(run: Run, settings: Settings) -> Markup:
    table = rows_table(say("places"), rows.place_rows(run, settings), "figures")
    notes = [_note(say("note.places")), _note(rows.closes(run, settings))]
    return join([year_pictures.places(run, settings), table, *notes, year_pictures.months(run, settings)])


def _wear(run: Run, settings: Settings) -> Markup:
    lasts = rows_table(say("table.wear"), rows.wear_rows(run, settings), "figures")
    depths = rows_table(say("table.depths"), rows.depth_rows(run, settings), "figures")
    return join([_said(rows.ended_by(run, settings)), lasts, depths, _note(say("note.wear"))])


def _said(text: str) -> Markup:
    return tag("p", text)


def _note(text: str) -> Markup:
    return tag("p", text, class_="note")
