"""Where a sheet or an order list may be written, and writing it whole or not at all."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from offgrid_core.errors import OffgridError
from offgrid_core.files import write_whole
from offgrid_core.quantities import Settings
from offgrid_core.report.order import order_csv
from offgrid_core.report.page import page_html
from offgrid_core.report.words import say
from offgrid_core.system.design import Design


@dataclass(frozen=True)
class Kind:
    """A kind of file: what it is called, how its name ends, and what makes its text."""

    what: str
    example: str
    made: Callable[[Design, Settings], str]


#: By the option of the command that asks for it.
KINDS = {
    "report": Kind("the design sheet", "sheet.html", page_html),
    "order": Kind("the order list", "order.csv", order_csv),
}


def check_place(kind: Kind, path: Path) -> None:
    """Refuse a place where such a file cannot stand, before any work is done.

    Raises
    ------
    OffgridError
        If the name has another ending, is a folder's, or stands in a folder that is none.
    """
    ending = Path(kind.example).suffix
    told = {"path": _short(path), "what": kind.what}
    if path.suffix.lower() != ending:
        raise OffgridError(say("place.ending", **told, ending=ending, example=kind.example))
    if path.is_dir():
        raise OffgridError(say("place.folder", **told, example=kind.example))
    if not path.parent.is_dir():
        raise OffgridError(say("place.no_folder", **told, folder=_short(path.parent)))


def write(kind: Kind, path: Path, text: str) -> str:
    """Write a file whole or not at all; return a line that says where.

    Raises
    ------
    OffgridError
        If it cannot be written there; what stood there before still does.
    """
    try:
        write_whole(path, text)
    except OSError as e:
        raise OffgridError(say("place.unwritten", path=_short(path), what=kind.what, reason=e.strerror)) from None
    return say("written", path=path)


def _short(path: Path, most: int = 120) -> str:
    said = str(path)
    return said if len(said) <= most else f"…{said[-most:]}"
