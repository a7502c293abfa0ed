"""Worked lines as tables: one line a row, with a table of months or rows under it where a line has twelve or many."""

from collections.abc import Iterator, Sequence
from functools import partial

import numpy as np

from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities.text import capital, kept_together
from offgrid_core.report import tables
from offgrid_core.report.markup import Markup, join, own, row, table, tag
from offgrid_core.report.words import say
from offgrid_core.system.design import Design
from offgrid_core.system.protection import BATTERY_ROWS
from offgrid_core.worksheet import Solved, Step, value_at
from offgrid_core.worksheet.grammar import axis_of

_HEADS = ("head.line", "head.worked", "head.result", "head.rule")


def section(design: Design, title: str, steps: Sequence[Step], settings: Settings) -> Markup:
    """Return the steps of one section of the chain, or of what stands beside it, then its months."""
    solved = next(
        x for x in (design.system, *design.more.values(), design.protection.solved) if steps[0].name in x.sheet
    )
    month = int(design.system["design_month"])
    rows = [_row(s, *_example(solved, s, "by_month", month - 1, say_month(month), settings)) for s in steps]
    monthly = [s.name for s in steps if axis_of(s.name) == "by_month"]
    made = [table(say("table.lines", title=title), _heads(), rows, "steps")]
    if monthly:
        made += [note("note.month"), _months(solved, monthly, title, month, settings)]
    return join(made)


def load_section(design: Design, settings: Settings) -> Markup:
    """Return what runs, and what each load takes."""
    solved, names = design.loads, [own(load.name) for load in design.plan.load]
    lines = _by_row(solved)
    takes = [
        row([name, *(show(n, value_at(solved, n, i), settings) for n in lines)], data_row=str(i))
        for i, name in enumerate(names)
    ]
    heads = [say("head.load"), *(solved.sheet[n].label for n in lines)]
    return join([_inputs(design, settings), table(say("table.load_days"), heads, takes)])


def load_lines(design: Design, settings: Settings) -> Markup:
    """Return the worked lines of the loads; a line with a value a load is shown for the load with the largest."""
    solved, names = design.loads, [own(load.name) for load in design.plan.load]
    rows = []
    for s in tables.steps_of(solved, settings):
        largest = int(np.argmax(solved[s.name])) if s.name in _by_row(solved) and np.ndim(solved[s.name]) else 0
        rows.append(_row(s, *_example(solved, s, "by_row", largest, names[largest], settings)))
    return join([table(say("table.load_lines"), _heads(), rows, "steps"), note("note.example")])


def _by_row(solved: Solved) -> list[str]:
    return [n for n in solved.sheet if axis_of(n) == "by_row"]


def circuit_lines(design: Design, settings: Settings) -> Markup:
    """Return every line of the circuits and of the bank's leads, one column a circuit; what was given comes first."""
    made = (
        ("table.circuit_lines", "data_line", design.circuits, design.circuit_names),
        ("table.lead_lines", "data_lead", design.bank_leads, BATTERY_ROWS),
    )
    return join(
        table(
            say(key),
            [say("head.line_across"), *names, say("head.rule")],
            _across(mark, solved, names, settings),
            "steps across",
        )
        for key, mark, solved, names in made
    )


def plain_lines(caption: str, steps: Sequence[Step]) -> Markup:
    """Return steps that have one value each."""
    return table(caption, _heads(), [_row(s, s.worked, s.shown) for s in steps], "steps")


def note(key: str, **values: str) -> Markup:
    """Return a small remark under a table."""
    return tag("p", say(key, **values), class_="note")


def say_month(month: int) -> str:
    """Return the name of a month, 1 for January."""
    return show("design_month", month)


def _heads() -> list[str]:
    return [say(key) for key in _HEADS]


def under(said: str, small: str) -> Markup:
    """Return two texts, the second below the first and paler."""
    return join([said, tag("span", small, class_="under")], "")


def _row(step: Step, worked: str, shown: str) -> Markup:
    result = tag("span" if "…" in shown else "b", shown, class_="result")
    cells = [tag("strong", capital(step.label)), under(step.formula, f"= {kept_together(worked)}"), result]
    return row([*cells, tables.standing_of(step)], data_line=step.name)


def _example(solved: Solved, step: Step, axis: str, place: int, named: str, settings: Settings) -> tuple[str, str]:
    """Return the numbers and the result of a line; of one that owns the axis, those of one named place."""
    if axis_of(step.name) != axis:
        return step.worked, step.shown
    shown, reckoned = (partial(show, settings=s) for s in (settings, settings.in_sums))
    worked = solved.worked(solved.sheet[step.name], shown, place, reckoned)
    return f"{named}: {worked}", show(step.name, value_at(solved, step.name, place), settings)


def _months(solved: Solved, names: Sequence[str], title: str, month: int, settings: Settings) -> Markup:
    heads = [say("head.month"), *(solved.sheet[n].label for n in names)]
    rows = []
    for i in range(12):
        cells = [show(n, value_at(solved, n, i), settings) for n in names]
        here = i == month - 1
        named = say("design_month", month=say_month(i + 1)) if here else say_month(i + 1)
        rows.append(row([named, *cells], class_="marked" if here else "", data_row=str(i)))
    return table(say("table.months", title=title), heads, rows, "figures")


def _across(mark: str, solved: Solved, names: Sequence[str], settings: Settings) -> Iterator[Markup]:
    """Yield what was given, then the lines, one cell a circuit; ``mark`` is the attribute that names the row."""

    def cells(name: str) -> list[str]:
        return [show(name, value_at(solved, name, i), settings, 3) for i in range(len(names))]

    for n in solved.sheet.inputs:
        if axis_of(n) == "by_row":
            yield row([tag("strong", capital(label_of(n))), *cells(n), say("head.given")], **{mark: n})
    for s in tables.steps_of(solved, settings, 3):
        if not solved.sheet[s.name].severity:
            said = under(tag("strong", capital(s.label)), s.formula)
            yield row([said, *cells(s.name), tables.standing_of(s)], **{mark: s.name})


def _inputs(design: Design, settings: Settings) -> Markup:
    """Return the loads list as given; what is the same for every load is said once, underneath."""
    solved, loads = design.loads, design.plan.load
    given = [n for n in solved.sheet.inputs if axis_of(n) == "by_row" and n != "on_ac_by_row_frac"]
    columns = {n: [show(n, value_at(solved, n, i), settings) for i in range(len(loads))] for n in given}
    same = {n: cells[0] for n, cells in columns.items() if len(loads) > 1 and len(set(cells)) == 1}
    shown = [n for n in given if n not in same]
    clock = [[", ".join(x.windows or ())] for x in loads] if any(x.windows for x in loads) else [[]] * len(loads)
    heads = [say("head.load"), say("head.bus"), *(label_of(n) for n in shown)]
    heads += [say("head.windows")] if clock[0] else []
    rows = [row([own(x.name), x.bus, *(columns[n][i] for n in shown), *clock[i]]) for i, x in enumerate(loads)]
    made = [table(say("table.loads"), heads, rows)]
    if same:
        made.append(note("note.same", listed="; ".join(f"{label_of(n)} {cell}" for n, cell in same.items())))
    return join(made)
