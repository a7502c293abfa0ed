"""HTML made of small pieces: every text is escaped on its way in, so that no title or name can become markup."""

import html
from collections.abc import Iterable, Sequence

from offgrid_core.quantities.text import kept_together

#: Characters that turn the direction of writing; in a person's own text they would turn ours as well.
_TURNING = dict.fromkeys((0x200E, 0x200F, 0x061C, *range(0x202A, 0x202F), *range(0x2066, 0x206A)))
#: Control characters, which no page may hold.
_CONTROL = {c: " " if chr(c) in "\t\n\r" else None for c in (*range(32), *range(127, 160))}
_ISOLATED = "\u2068{}\u2069"


class Markup(str):
    """Text that is markup already and is put in as it is."""

    __slots__ = ()


def text(said: str) -> Markup:
    """Return text as markup; what is markup already stays."""
    return said if isinstance(said, Markup) else Markup(html.escape(said.translate(_CONTROL)))


def own(said: str) -> str:
    """Return what a person wrote, kept from turning the direction of the words around it."""
    return _ISOLATED.format(said.translate(_TURNING))


def tag(name: str, *inside: str, **attributes: str) -> Markup:
    """Return an element; a trailing ``_`` of an attribute is dropped, an inner one is a hyphen."""
    written = "".join(f' {k.rstrip("_").replace("_", "-")}="{text(v)}"' for k, v in attributes.items())
    return Markup(f"<{name}{written}>{''.join(map(text, inside))}</{name}>")


def join(pieces: Iterable[str], between: str = "\n") -> Markup:
    """Return pieces one after the other."""
    return Markup(between.join(map(text, pieces)))


def row(cells: Sequence[str], **attributes: str) -> Markup:
    """Return a row of a table; its first cell heads it."""
    first, *others = cells
    return tag("tr", tag("th", first, scope="row"), *(tag("td", cell) for cell in others), **attributes)


def table(caption: str, heads: Sequence[str], rows: Iterable[str], kind: str = "plain") -> Markup:
    """Return a table of rows made by :func:`row`, in a box that scrolls by itself where a screen is narrow."""
    head = tag("thead", tag("tr", *(tag("th", h, scope="col") for h in heads)))
    made = tag("table", tag("caption", caption), head, tag("tbody", *rows), class_=kind)
    return tag("div", made, class_="wide")


def unbroken(rows: Sequence[Sequence[str]]) -> list[list[str]]:
    """Return rows of text in which, but for what heads a row, no number is parted from its unit or its thousands."""
    return [[cells[0], *map(kept_together, cells[1:])] for cells in rows]


def items(said: Iterable[str]) -> Markup:
    """Return a list."""
    return tag("ul", *(tag("li", each) for each in said))
