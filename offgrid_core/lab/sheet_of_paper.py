"""A problem as plain HTML, for print: the same statement and tables as on the card, and blanks to write in."""

from collections.abc import Sequence
from html import escape

from offgrid_core.practice import Field, Problem
from offgrid_core.quantities import Settings
from offgrid_core.quantities.text import kept_together

_CELL = "style='text-align:left;padding:2px 10px'"


def table(rows: Sequence[Sequence[str]], caption: str = "", has_head: bool = False) -> str:
    """Return rows of text as an HTML table; empty for no rows.

    Parameters
    ----------
    rows
        The first row is the head where its first cell is empty.
    caption
        What stands above; may be empty.
    has_head
        Whether the first row is the head whatever its first cell.
    """
    if not rows:
        return ""
    head = f"<caption style='text-align:left'>{escape(caption)}</caption>" if caption else ""
    lines = []
    for i, row in enumerate(rows):
        tag = "th scope='col'" if i == 0 and (has_head or not row[0]) else "td"
        cells = "".join(f"<{tag} {_CELL}>{escape(kept_together(c))}</{tag.split()[0]}>" for c in row)
        lines.append(f"<tr>{cells}</tr>")
    return f"<table style='border-collapse:collapse;margin:6px 0'>{head}{''.join(lines)}</table>"


def on_paper(problem: Problem, settings: Settings) -> str:
    """Return a problem for print, without anything typed and without answers."""
    slot = problem.slot
    tables = "".join(table(rows, caption) for caption, rows in slot.tables(problem, settings))
    fields = slot.fields(problem, settings)
    blanks = "".join(_blank(f, len(fields) == 1) for f in fields)
    return (
        f"<section><h4>{escape(slot.title)} <small>{escape(slot.id)}</small></h4>"
        f"<p>{escape(kept_together(problem.text(slot.statement, settings)))}</p>{tables}{blanks}</section>"
    )


def _blank(field: Field, alone: bool) -> str:
    label = escape(field.label)
    if field.options:
        above = f"<p>{escape(field.heading)}</p>" if field.heading and not alone else ""
        return (
            above
            + "<ul style='list-style:none'>"
            + "".join(f"<li>☐ {escape(t)}</li>" for _, t in field.options)
            + "</ul>"
        )
    if field.filled:
        return f"<p>{label}: {escape(field.filled)}</p>"
    units = escape(" / ".join(u for u in field.units if u))
    return f"<p>{label}: ______________ {units}</p>"
