"""The order list as a file for a spreadsheet: one row a part, then cable and fuses of every circuit."""

import csv
import io
from collections.abc import Iterator
from dataclasses import replace

from offgrid_core.quantities import Settings, show
from offgrid_core.report.words import say
from offgrid_core.system import handover
from offgrid_core.system.design import Design
from offgrid_core.worksheet import value_at

COLUMNS = ("part", "how many", "unit", "cost of one", "cost", "note")
_PRICED = ("count_by_row", "unit_by_row_cost", "cost_by_row_cost")
#: What a spreadsheet may take for the beginning of a formula.
_FORMULA = tuple("=+-@＝＋－＠\t\r\n")


def order_csv(design: Design, settings: Settings) -> str:
    """Return the order list of a design as CSV.

    Parameters
    ----------
    design
        A sized system.
    settings
        Whether a gauge stands beside a cable's area. Numbers have a decimal point and lengths are in metres whatever
        the settings, since programs read them. The currency is a label of the plan.

    Returns
    -------
    str
        Comma-separated, with one head row; a text cell that a spreadsheet would take for a formula begins with ``'``.
    """
    settings = replace(settings, decimal=".")
    currency = design.plan.currency or settings.currency
    heads = [f"{c} ({currency})" if currency and "cost" in c else c for c in COLUMNS]
    written = io.StringIO()
    out = csv.writer(written, lineterminator="\r\n")
    out.writerow(map(safe, heads))
    out.writerows(map(safe, row) for row in _rows(design, settings))
    return written.getvalue()


def safe(cell: str | float) -> str:
    """Return a cell as a spreadsheet may read it: a number as it is, text never as a formula."""
    if isinstance(cell, str):
        return f"'{cell}" if cell.lstrip(" \u00a0").startswith(_FORMULA) else cell
    return f"{cell:.12g}"


def _rows(design: Design, settings: Settings) -> Iterator[tuple[str | float, ...]]:
    order = handover.order(design)
    piece, metre = say("order.piece"), "m"
    for i, item in enumerate(order.items):
        count, one, cost = (float(value_at(order.priced, n, i)) for n in _PRICED)
        label, note = item.part.label, say("order.invented")
        if item.fuse_a is not None:
            size = show("fuse_by_row_a", item.fuse_a, settings)
            label, note = say("order.fuse", device=label, size=size, circuit=item.circuit), say("order.fuse_note")
        if item.on_hand:
            yield label, count, piece, "", "", say("order.on_hand")
        else:
            yield label, count, piece, one, cost, note
    for wire, length in zip(design.wires, order.cables["cable_by_row_m"].tolist(), strict=True):
        size = show("cable_by_row_mm2", wire["cable_by_row_mm2"], settings)
        yield say("order.cable", size=size, circuit=wire.name), length, metre, "", "", say("order.unpriced")
    yield say("order.total"), "", "", "", float(order.priced["order_cost"]), say("order.total_note")
