"""The wiring of a bank as a picture (SVG) and in words: units, links, strings, bus bars and fuses.

One step of the drawing is a quarter of a millimetre: 720 across are the 180 mm between the margins of an A4 page, and
the smallest type, 10 high, is 7 pt there. So that type never shrinks, a string of more than :data:`ACROSS` units is
folded into an odd number of rows, to and fro, and still ends at the + rail; six strings of 24 fill one page.
Black on white, told apart by shape and word: + bar filled, − bar hollow; links + solid, links − dashed. A fuse is
the rectangle with the wire through it of IEC 60617 (from memory).
"""

import math
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from textwrap import wrap
from typing import NamedTuple
from unicodedata import category
from zlib import crc32

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import say

LEADS = ("bus bars", "diagonal")
MOST_SERIES, MOST_STRINGS = 24, 6
#: Units in one row of a string.
ACROSS = 8
#: Characters of each label.
_MOST = {"unit": 24, "voltage": 8, "string_fuse": 8, "main_fuse": 8}

_WIDTH, _STEPS_MM, _MARGIN = 720, 4, 20
#: Across: the bank's ends, the rails, the units between, the fuses.
_MINUS_END, _PLUS_END, _MINUS_RAIL, _PLUS_RAIL = 14, 706, 64, 632
_LEFT, _RIGHT, _WIDEST = 100, 556, 120
_STRING_FUSE, _MAIN_FUSE, _FUSE = 574, 650, (34, 13)
#: Down: where strings begin, the line of a string's name, between rows, between strings, a line of notes.
_TOP, _HEAD, _ROW_GAP, _BETWEEN, _NOTE = 56, 18, 11, 10, 15
_GAP, _LOOP, _BAR, _BAR_END = 14, 9, 8, 20
_SMALL, _TYPE, _TITLE = 10, 11, 12
#: Width of a letter over the height of the type, on the wide side.
_LETTER = 0.62
_INK = "#1B1B1B"
Point = tuple[float, float]


@dataclass(frozen=True)
class BankWiring:
    """What a wiring picture shows.

    Attributes
    ----------
    series, strings
        Units in series, 1 to :data:`MOST_SERIES`; strings in parallel, 1 to :data:`MOST_STRINGS`.
    unit, voltage
        Labels of one unit and of the bank's voltage, as ``6 V 225 Ah`` and ``48 V``; at most 24 and 8 characters.
    string_fuse, main_fuse
        Sizes, as ``100 A``, at most 8 characters; empty where not known. With one string the main fuse is its fuse.
    leads
        ``"bus bars"``: equal leads from every string to two bars. ``"diagonal"``: links from string to string, and
        the main leads at opposite corners.

    Raises
    ------
    OffgridError
        If a count, a label or the way of the leads cannot be drawn.
    """

    series: int
    strings: int
    unit: str
    voltage: str
    string_fuse: str = ""
    main_fuse: str = ""
    leads: str = "bus bars"

    def __post_init__(self) -> None:
        for field, most in {"series": MOST_SERIES, "strings": MOST_STRINGS}.items():
            count = getattr(self, field)
            if count not in range(1, most + 1):
                raise OffgridError(f"wiring picture, {field}: {count} cannot be drawn; drawn are 1 to {most}, whole")
            object.__setattr__(self, field, int(count))  # a solved worksheet counts in floats
        for field, most in _MOST.items():
            text = getattr(self, field)
            plain = all(c.isprintable() or category(c) == "Zs" for c in text)
            if not plain or len(text) > most or not (text.strip() or "fuse" in field):
                raise OffgridError(
                    f"wiring picture, {field}: {text[:40]!r} cannot be drawn; "
                    f"allowed is a label of 1 to {most} letters, digits and signs in one line"
                )
        if self.leads not in LEADS:
            raise OffgridError(f"wiring picture, leads: {self.leads!r} is not known; allowed: {', '.join(LEADS)}")


class _Unit(NamedTuple):
    """One box: where its left upper corner is, and whether the current runs through it to the right."""

    x: float
    y: float
    forward: bool


class _Frame(NamedTuple):
    """The measures that all strings of one picture share."""

    rows: int
    across: int
    width: float
    height: float
    label_fits: bool

    @property
    def string(self) -> float:
        """How far down the next string begins."""
        return _HEAD + self.rows * (self.height + _ROW_GAP) - _ROW_GAP + _BETWEEN


def wiring_text(bank: BankWiring) -> str:
    """Return in words what :func:`wiring_svg` draws: strings, links, leads and fuses, with the cautions."""
    return " ".join([_title(bank) + ".", *_notes(bank), say("caution.battery"), say("caution.design_exercise")])


def wiring_svg(bank: BankWiring) -> str:
    """Return the wiring of a bank as the text of one SVG picture, 180 mm wide, with title and description.

    It brings no script, no style sheet, no font and no image. The same bank gives the same text.
    """
    frame = _frame(bank)
    strings = [_units(bank, frame, _TOP + i * frame.string) for i in range(bank.strings)]
    across = int((_WIDTH - 2 * _MARGIN) / (_TYPE * _LETTER))
    notes = [row for note in [*_notes(bank), say("caution.design_exercise")] for row in wrap(note, across)]
    below = _TOP + bank.strings * frame.string + _NOTE
    drawn = [_text(_WIDTH / 2, 22, _title(bank), _TITLE)]
    for number, units in enumerate(strings, 1):
        drawn += _string(bank, frame, units, number)
    drawn += _rails(bank, [_ends(frame, units) for units in strings])
    drawn += [_text(_MARGIN, below + i * _NOTE, note, _TYPE, "start") for i, note in enumerate(notes)]
    return _page(bank, drawn, below + len(notes) * _NOTE)


def _title(bank: BankWiring) -> str:
    return say("wiring.title", voltage=bank.voltage, unit=bank.unit, series=bank.series, strings=bank.strings)


def _notes(bank: BankWiring) -> list[str]:
    """Return the sentences on links, leads and fuses."""
    links = say("wiring.links", count=bank.series - 1) if bank.series > 1 else say("wiring.alone")
    main = say("wiring.main_fuse", size=bank.main_fuse or say("wiring.size_open"))
    if bank.strings == 1:
        return [links, say("wiring.one"), main]
    leads = say("wiring.bus_bars") if bank.leads == "bus bars" else say("wiring.diagonal", last=bank.strings)
    return [links, leads, say("wiring.string_fuses", size=bank.string_fuse or say("wiring.size_open")), main]


def _frame(bank: BankWiring) -> _Frame:
    rows = math.ceil(bank.series / ACROSS)
    rows += rows % 2 == 0
    across = math.ceil(bank.series / rows)
    width = min(_WIDEST, (_RIGHT - _LEFT - (across - 1) * _GAP) / across)
    fits = rows == 1 and len(bank.unit) * _LETTER * _SMALL <= width - 8
    return _Frame(rows, across, width, 42 if fits else 28, fits)


def _units(bank: BankWiring, frame: _Frame, top: float) -> list[_Unit]:
    """Return the boxes of one string in the order of the current, row by row to and fro."""
    pitch = frame.width + _GAP
    left = (_LEFT + _RIGHT - frame.across * pitch + _GAP) / 2
    placed = []
    for i in range(bank.series):
        row, column = divmod(i, frame.across)
        forward = row % 2 == 0
        x = left + pitch * (column if forward else frame.across - 1 - column)
        placed.append(_Unit(x, top + _HEAD + row * (frame.height + _ROW_GAP), forward))
    return placed


def _minus(frame: _Frame, unit: _Unit) -> Point:
    return unit.x + (0 if unit.forward else frame.width), unit.y + frame.height / 2


def _plus(frame: _Frame, unit: _Unit) -> Point:
    return unit.x + (frame.width if unit.forward else 0), unit.y + frame.height / 2


def _ends(frame: _Frame, units: list[_Unit]) -> tuple[Point, Point]:
    return _minus(frame, units[0]), _plus(frame, units[-1])


def _string(bank: BankWiring, frame: _Frame, units: list[_Unit], number: int) -> list[str]:
    """Draw one string: its name, its boxes and the links between them."""
    drawn = [_text(_LEFT, units[0].y - 6, say("wiring.string", number=number), _TYPE, "start")]
    for place, unit in enumerate(units, 1):
        drawn += _box(bank, frame, unit, place)
    for one, other in pairwise(units):
        (x, y), (to_x, to_y) = _plus(frame, one), _minus(frame, other)
        aside = x + (_LOOP if one.forward else -_LOOP)
        bend = [] if y == to_y else [(aside, y), (aside, to_y)]
        drawn.append(_wire("link", [(x, y), *bend, (to_x, to_y)]))
    return drawn


def _box(bank: BankWiring, frame: _Frame, unit: _Unit, place: int) -> list[str]:
    middle, base = unit.x + frame.width / 2, unit.y + (16 if frame.label_fits else frame.height / 2 + 4)
    left, right = ("−", "+") if unit.forward else ("+", "−")
    drawn = [
        _rect("unit", unit.x, unit.y, frame.width, frame.height, "#FFFFFF"),
        _text(unit.x + 8, base, left, _TITLE),
        _text(middle, base, str(place), _TYPE),
        _text(unit.x + frame.width - 8, base, right, _TITLE),
    ]
    return drawn + ([_text(middle, unit.y + 34, bank.unit, _SMALL)] if frame.label_fits else [])


def _rails(bank: BankWiring, ends: list[tuple[Point, Point]]) -> list[str]:
    """Draw the leads of the strings, the rails they go to, and the main leads of the bank."""
    minus_ys, plus_ys = [minus[1] for minus, _ in ends], [plus[1] for _, plus in ends]
    drawn = []
    for minus, plus in ends:
        drawn.append(_wire("lead", [(_MINUS_RAIL, minus[1]), minus]))
        if bank.strings > 1:
            drawn += _fuse("fuse", _STRING_FUSE, plus[1], bank.string_fuse)
        drawn.append(_wire("lead", [plus, (_PLUS_RAIL, plus[1])]))
    halfway = bank.leads == "bus bars"
    minus_y = (minus_ys[0] + minus_ys[-1]) / 2 if halfway else minus_ys[-1]
    plus_y = (plus_ys[0] + plus_ys[-1]) / 2 if halfway else plus_ys[0]
    drawn += [_wire("main", [(_MINUS_RAIL, minus_y), (_MINUS_END, minus_y)], 3), *_end("−", _MINUS_END, minus_y)]
    drawn += _fuse("main-fuse", _MAIN_FUSE, plus_y, bank.main_fuse, say("wiring.main"))
    drawn += [_wire("main", [(_PLUS_RAIL, plus_y), (_PLUS_END, plus_y)], 3), *_end("+", _PLUS_END, plus_y)]
    if bank.strings == 1:
        return drawn
    return drawn + _rail(bank, "−", _MINUS_RAIL, minus_ys) + _rail(bank, "+", _PLUS_RAIL, plus_ys)


def _rail(bank: BankWiring, sign: str, x: float, ys: list[float]) -> list[str]:
    """Draw a bus bar, or the links from string to string."""
    name = say("wiring.bar" if bank.leads == "bus bars" else "wiring.rail", sign=sign)
    drawn = [_text(x, ys[0] - _BAR_END - 6, name, _SMALL)]
    if bank.leads == "bus bars":
        fill = _INK if sign == "+" else "#FFFFFF"
        return [*drawn, _rect("bar", x - _BAR / 2, ys[0] - _BAR_END, _BAR, ys[-1] - ys[0] + 2 * _BAR_END, fill)]
    dash = "" if sign == "+" else "5 3"
    return drawn + [_wire("parallel", [(x, y), (x, to_y)], 3, dash) for y, to_y in pairwise(ys)]


def _fuse(kind: str, x: float, y: float, size: str, name: str = "") -> list[str]:
    """Draw a fuse; the lead drawn after it runs through it."""
    width, height = _FUSE
    middle = x + width / 2
    drawn = [_rect(kind, x, y - height / 2, width, height, "#FFFFFF")]
    if name:
        return [*drawn, _text(middle, y - 12, name, _SMALL), _text(middle, y + 19, size, _SMALL)]
    return [*drawn, _text(middle, y - 11, size, _SMALL)]


def _end(sign: str, x: float, y: float) -> list[str]:
    return [f'<circle class="end" cx="{x:g}" cy="{y:g}" r="5" fill="#FFFFFF"/>', _text(x, y - 10, sign, _TITLE)]


def _wire(kind: str, points: list[Point], width: float = 1.6, dash: str = "") -> str:
    along = " ".join(f"{x:g},{y:g}" for x, y in points)
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<polyline class="{kind}" points="{along}" fill="none" stroke-width="{width:g}"{dashed}/>'


def _rect(kind: str, x: float, y: float, width: float, height: float, fill: str) -> str:
    return f'<rect class="{kind}" x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" fill="{fill}"/>'


def _text(x: float, y: float, text: str, size: int, anchor: str = "middle") -> str:
    place = f'x="{x:g}" y="{y:g}" font-size="{size}" text-anchor="{anchor}"'
    return f'<text {place} fill="{_INK}" stroke="none">{escape(text)}</text>'


def _page(bank: BankWiring, drawn: list[str], height: float) -> str:
    title, told = _title(bank), wiring_text(bank)
    key = f"wiring-{crc32(told.encode()):08x}"
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{key}-title" '
            f'aria-describedby="{key}-desc" width="{_WIDTH / _STEPS_MM:g}mm" height="{height / _STEPS_MM:g}mm" '
            f'viewBox="0 0 {_WIDTH} {height:g}" font-family="system-ui, \'DejaVu Sans\', Arial, sans-serif">',
            f'<title id="{key}-title">{escape(title)}</title>',
            f'<desc id="{key}-desc">{escape(told)}</desc>',
            f'<rect class="paper" width="{_WIDTH}" height="{height:g}" fill="#FFFFFF"/>',
            f'<g stroke="{_INK}" stroke-width="1.2">',
            *drawn,
            "</g>",
            "</svg>",
        ]
    )
