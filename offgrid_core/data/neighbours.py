"""The row beside the right one: what a hand slips to in a table of fuses or cables, and what a gauge number stands for.

These are givens for problems in which somebody takes a neighbouring size; no design reads them.
"""

from itertools import pairwise

from offgrid_core.data.codes import CodeSetting
from offgrid_core.errors import DataError
from offgrid_core.worksheet import Table


def neighbours(code: CodeSetting) -> dict[str, Table]:
    """Return the neighbouring sizes of a code setting's fuses and cables, by the name a worksheet calls them by.

    Returns
    -------
    dict
        ``smaller_fuse``: a standard size, A, to the one below it, A; ``thinner_cable``: a listed area, mm², to the
        one below it, mm²; ``nearest_cable``: amperes to the area, mm², whose ampacity is nearest, above or below. The
        smallest fuse and the thinnest cable have none below them, and are refused.
    """
    amperes, areas = code.conductor_for_ampacity.x, code.conductor_for_ampacity.y
    middles = (*((low + high) / 2 for low, high in pairwise(amperes)), amperes[-1])
    source = code.conductor_for_ampacity.source
    return {
        "smaller_fuse": _below(code.fuse_size.y, "standard size below", "A", code.fuse_size.source),
        "thinner_cable": _below(areas, "cable one size thinner", "mm²", source),
        "nearest_cable": Table("cable of the nearest ampacity", middles, areas, "A", "mm²", source, "next"),
    }


def area_of_gauge(code: CodeSetting) -> Table:
    """Return the table from a gauge number (1/0 is 0, 4/0 is −3) to the area of the wire, mm².

    Raises
    ------
    DataError
        If the code setting does not list its conductors by gauge.
    """
    listed = {_gauge(label): area for area, label in code.size_labels.items() if label.endswith(" AWG")}
    if not listed:
        raise DataError(f"{code.label}: conductors are listed by their area; a code setting with gauges is wanted")
    numbers = tuple(sorted(listed))
    areas = tuple(listed[n] for n in numbers)
    return Table("area of the gauge", numbers, areas, "AWG", "mm²", code.conductor_for_ampacity.source, "exact")


def _gauge(label: str) -> float:
    number = label.removesuffix(" AWG")
    return 1.0 - float(number[:-2]) if number.endswith("/0") else float(number)


def _below(sizes: tuple[float, ...], label: str, unit: str, source: str) -> Table:
    return Table(label, sizes[1:], sizes[:-1], unit, unit, source, "exact")
