"""Small things a lesson's cells call: a demo design, a table of worked steps, a caution, the reader's units."""

from collections.abc import Sequence
from html import escape
from pathlib import Path

import ipywidgets as widgets
import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import Settings, say, settings, show
from offgrid_core.quantities.text import kept_together
from offgrid_core.report import tables
from offgrid_core.system import Design, read_plan, size
from offgrid_core.worksheet import Solved

#: Plans of the demo places, beside the lessons.
PLANS = Path("plans")


def design_of(plan: str | Path) -> Design:
    """Size a demo place (``"fell_hut"``) or a plan file of your own."""
    path = Path(plan)
    return size(read_plan(path if path.suffix else PLANS / f"{path.name}.toml"))


def my_settings() -> Settings:
    """Return the units and marks this reader chose in the start lesson."""
    return settings.load()


def use_units(**choices: str) -> widgets.HTML:
    """Choose units and marks and remember them for every lesson; say which are in use.

    Parameters
    ----------
    **choices
        ``temperature`` "°C" or "°F"; ``length`` "m" or "ft"; ``wire`` "mm²" or "AWG"; ``decimal`` "." or ",";
        ``currency`` any short label.
    """
    try:
        chosen = Settings(**choices)
        settings.remember(chosen)
    except (OffgridError, TypeError) as e:
        return _box(str(e), "#B23C00")
    said = f"temperature in {chosen.temperature}, length in {chosen.length}, wire in {chosen.wire}"
    return widgets.HTML(f"<p>Remembered: {escape(said)}, decimal mark “{escape(chosen.decimal)}”.</p>")


def steps_table(worked: Solved, only: Sequence[str] = ()) -> widgets.HTML:
    """Show a solved worksheet line by line: label, formula, this case's numbers, value, standing.

    Parameters
    ----------
    worked
        A solved worksheet.
    only
        Names of the lines to show; all of them if empty.
    """
    steps = [s for s in tables.steps_of(worked, my_settings()) if not only or s.name in only]
    rows = [["line", "how it is worked", "with these numbers", "value", "standing of the rule"]]
    rows += [[s.label, s.formula, s.worked, s.shown, tables.standing_of(s)] for s in steps]
    return table(rows, "Worked line by line")


def loads_table(design: Design) -> widgets.HTML:
    """Show the loads list of a design with each row's energy on the busiest day, and all that it is worked from."""
    chosen = my_settings()
    head, *rows = tables.load_rows(design, chosen)
    month = show("design_month", design.hardest_month, chosen)
    more = {
        "duty_by_row_frac": "share of those hours",
        "season_by_row_frac": f"use in {month} against the usual",
        "standby_by_row_w": "while it waits",
    }
    columns = [np.broadcast_to(design.loads[n], (len(rows),)) for n in more]
    cells = [[show(n, x, chosen) for n, x in zip(more, row, strict=True)] for row in zip(*columns, strict=True)]
    wider = [[*row[:-1], *cell, row[-1]] for row, cell in zip(rows, cells, strict=True)]
    return table([[*head[:-1], *more.values(), head[-1]], *wider], f"{design.plan.title}, busiest day, in {month}")


def findings_table(design: Design) -> widgets.HTML:
    """Show what every limit says of a design, broken ones and the worst first, with what would mend them."""
    found = tables.findings_of(design, my_settings())
    rows = [[say(f"findings.{key}") for key in ("limit", "kept", "worked", "margin", "mend")]]
    for f in found:
        kept = say("findings.met" if f.passed else "findings.broken")
        rows.append([f.label, kept, f.worked, f.shown, "" if f.passed else f.mend])
    broken = sum(not f.passed for f in found)
    return table(rows, say("findings.title", title=design.plan.title, broken=broken, count=len(found)))


def table(rows: Sequence[Sequence[str]], caption: str) -> widgets.HTML:
    """Show rows of text as a table; the first row is the head."""
    head, *body = rows
    heads = "".join(f"<th scope='col' style='text-align:left;padding:4px 10px'>{escape(c)}</th>" for c in head)
    lines = "".join(
        "<tr>"
        + "".join(f"<td style='text-align:left;padding:4px 10px'>{_kept_together(c)}</td>" for c in row)
        + "</tr>"
        for row in body
    )
    return widgets.HTML(
        "<table style='border-collapse:collapse;line-height:1.4'>"
        f"<caption style='text-align:left;font-weight:600'>{escape(caption)}</caption>"
        f"<thead style='border-bottom:1px solid'><tr>{heads}</tr></thead><tbody>{lines}</tbody></table>"
    )


def _kept_together(text: str) -> str:
    """Keep a number and its unit on one line; long text still wraps."""
    kept = escape(kept_together(text))
    return kept.replace(" ", "&nbsp;") if len(text) < 12 else kept


def caution(*kinds: str) -> widgets.HTML:
    """Show the cautions of a lesson, the same box everywhere: ``caution("battery", "cold")``."""
    said = "<br>".join(escape(say(f"caution.{k}")) for k in (*kinds, "design_exercise"))
    return _box(said, "#B23C00", escaped=True, title="Care")


def _box(said: str, colour: str, escaped: bool = False, title: str = "") -> widgets.HTML:
    text = said if escaped else escape(said)
    head = f"<b>{escape(title)}</b><br>" if title else ""
    return widgets.HTML(f"<div role='note' style='border-left:5px double {colour};padding:4px 10px'>{head}{text}</div>")
