"""Reading what a person types: a small grammar of our own that asks back instead of guessing.

Nothing typed is ever evaluated. Decimal point and decimal comma are both understood wherever only one reading
is possible; the class's setting decides nothing but which mark is meant when a single mark could be either.
"""

import re
import unicodedata

from offgrid_core.errors import OffgridError, ReadingError
from offgrid_core.quantities.settings import CHOICES, Settings
from offgrid_core.quantities.units import AWG_SPAN, Unit, awg_to_mm2, menu, unit_of
from offgrid_core.quantities.wording import say

MOST_CHARACTERS = 64
MOST_DIGITS = 12

#: Space, no-break space, thin space, narrow no-break space: all stand between groups of three digits.
_SPACES = " \u00a0\u2009\u202f"
_ALIKE = str.maketrans(dict.fromkeys(_SPACES[1:], " ") | {"−": "-"})
_SIGNED = re.compile(r"([+-]?)([0-9., ]*)(?:[eE]([+-]?[0-9]{1,2}))?")
_PLAIN = re.compile(r"(?=[.,]?[0-9])([0-9]*)(?:([.,])([0-9]+))?")
_GROUPED = re.compile(r"([1-9][0-9]{0,2}([ .,])[0-9]{3}(?:\2[0-9]{3})*)(?:(?!\2)[.,]([0-9]+))?")
_NUMBER_THEN_UNIT = re.compile(r"([-+0-9., ]*(?:(?<=[0-9])[eE][-+]?[0-9]+)?)(.*)")

#: Other spellings of a unit, in small letters, beside its symbol.
_SPELLINGS = {
    "f": "°F",
    "c": "°C",
    "°f step": "°F steps",
    "°c steps": "K",
    "%/°c": "%/K",
    "mv/°c": "mV/K",
    "day": "days",
    "hours": "h",
    "minutes": "min",
    "feet": "ft",
    "foot": "ft",
    "lbs": "lb",
    "percent": "%",
    "fraction": "as a fraction",
}
#: º and ˚ are found on keyboards where ° is not; a raised figure on hardly any; the ohm sign has two codes.
_UNIT_ALIKE = str.maketrans({"º": "°", "˚": "°", "2": "²", "3": "³", "\u2126": "Ω", "℃": "°C", "℉": "°F"})


def read_number(text: str, decimal: str = ".") -> float:
    """Read a number that a person typed.

    Parameters
    ----------
    text
        At most 64 characters, at most 12 digits that count. One sign, digits 0 to 9, one decimal mark (point or
        comma), groups of three parted by one kind of space or mark, and a power of ten such as ``e3``.
    decimal
        The class's decimal mark, ``"."`` or ``","``. It is used where one mark could be either: ``1.234`` is
        1.234 under ``"."`` and is asked back under ``","``.

    Raises
    ------
    ReadingError
        If the text is not such a number, or can be read in two ways; the message says what to enter.
    OffgridError
        If ``decimal`` is no decimal mark.

    Examples
    --------
    >>> read_number("1 234,5"), read_number("1,234.5"), read_number("−1.2345e3")
    (1234.5, 1234.5, -1234.5)
    """
    if decimal not in CHOICES["decimal"]:
        raise OffgridError(f"a decimal mark is '.' or ',', not {decimal!r}")
    example = f"1234{decimal}5"
    return _number(_clean(text, example), decimal)


def _clean(text: object, example: str) -> str:
    """Refuse by length before anything else is done with the text, then by hidden and foreign characters."""
    if not isinstance(text, str):
        raise ReadingError(say("reading.not_text", most=MOST_CHARACTERS))
    if len(text) > MOST_CHARACTERS:
        raise ReadingError(say("reading.long", most=MOST_CHARACTERS, count=len(text)))
    if not text.isprintable() and any(unicodedata.category(c)[0] == "C" or c in "\u2028\u2029" for c in text):
        raise ReadingError(say("reading.hidden", text=ascii(text), example=example))
    if not text.isascii() and any(c.isdecimal() and not c.isascii() for c in text):
        raise ReadingError(say("reading.digits", text=repr(text)))
    plain = text.translate(_ALIKE).strip(" ")
    if not plain:
        raise ReadingError(say("reading.empty", example=example))
    return plain


def _number(text: str, decimal: str) -> float:
    found = _SIGNED.fullmatch(text)
    if not found:
        raise _not_number(text, decimal)
    sign, body, power = found.groups()
    digits = _digits(body, text, decimal)
    count = len(digits.replace(".", "").lstrip("0"))
    if count > MOST_DIGITS:
        raise ReadingError(say("reading.too_many_digits", text=repr(text), count=count, most=MOST_DIGITS))
    return float(f"{sign}{digits}e{power or 0}")


def _digits(body: str, text: str, decimal: str) -> str:
    """Return the digits with a point for the decimal mark and nothing between groups."""
    plain, grouped = _PLAIN.fullmatch(body), _GROUPED.fullmatch(body)
    if plain and grouped and plain[2] and plain[2] != decimal:
        whole, parted = text.replace(plain[2], ""), text.replace(plain[2], decimal)
        raise ReadingError(say("reading.ambiguous", text=text, whole=whole, parted=parted))
    if plain:
        return f"{plain[1]}.{plain[3] or ''}" if plain[1] else f"0.{plain[3]}"
    if grouped:
        return f"{grouped[1].replace(grouped[2], '')}.{grouped[3] or ''}"
    raise _not_number(text, decimal)


def _not_number(text: str, decimal: str) -> ReadingError:
    return ReadingError(say("reading.not_number", text=repr(text), example=f"1234{decimal}5"))


def read_quantity(text: str, name: str, settings: Settings | None = None, unit: str | None = None) -> float:
    """Read a number with, or without, a unit after it, and return it in the canonical unit of its name.

    Parameters
    ----------
    text
        As for :func:`read_number`, then optionally a unit of the closed menu: ``354 Ah``, ``62F``, ``50 %``.
        An area may be a gauge, ``1/0 AWG``; a month may be its name.
    name
        The quantity, which fixes the menu.
    settings
        The class's decimal mark, and the unit of a number that comes alone. The usual ones if not given.
    unit
        Symbol chosen in a menu beside the box (or ``AWG`` for an area); the number is then in that unit, so that
        0.5 with ``%`` is half a per cent.

    Returns
    -------
    float
        The value in the canonical unit. A number alone is in the unit that ``settings`` shows, but for a share
        it is the fraction as stored: ``0.5`` is one half, never half a per cent.

    Raises
    ------
    ReadingError
        Naming the units allowed if the unit is not one of them; otherwise as :func:`read_number`.
    """
    settings = settings or Settings()
    canonical = unit_of(name)
    typed = _clean(text, f"1234{settings.decimal}5")
    if canonical.kind == "area" and (unit == "AWG" or typed.casefold().endswith("awg")):
        return float(awg_to_mm2(_gauge(typed)))
    if canonical.kind == "month" and (month := _month(typed)):
        return float(month)
    number, after = _split(typed)
    allowed = {u.symbol: u for u in (*menu(name), settings.unit_for(name))}
    chosen = _on_menu(unit, allowed) if unit else None
    written = _on_menu(after, allowed) if after else None
    if chosen and written and chosen != written:
        raise ReadingError(say("reading.two_units", chosen=chosen.symbol, text=written.symbol))
    return float((chosen or written or _alone(name, settings)).to_canonical(_number(number, settings.decimal)))


def _split(typed: str) -> tuple[str, str]:
    found = _NUMBER_THEN_UNIT.fullmatch(typed)
    number, after = found.groups() if found else ("", "")
    return (number.strip(), after.strip()) if number.strip() else (typed, "")


def _on_menu(typed: str, allowed: dict[str, Unit]) -> Unit:
    """Return the unit written, or refuse and name the ones that are allowed."""
    plain = typed.translate(_UNIT_ALIKE).replace("ohm", "Ω")
    for spelling in (typed, _SPELLINGS.get(plain.casefold(), plain)):
        for symbol, unit in allowed.items():
            if spelling.casefold() == symbol.casefold() and _same_prefix(spelling, symbol):
                return unit
    told = ", ".join(s for s in allowed if s) + (", AWG" if "mm²" in allowed else "")
    if not told:
        raise ReadingError(say("reading.no_unit", text=repr(typed)))
    raise ReadingError(say("reading.unit", text=repr(typed), allowed=told))


def _same_prefix(spelling: str, symbol: str) -> bool:
    """Keep milli and mega apart; any other letter may be written large or small."""
    return symbol[0] not in "mM" or spelling[0] == symbol[0]


def _alone(name: str, settings: Settings) -> Unit:
    shown = settings.unit_for(name)
    return unit_of(name) if shown.symbol.startswith("%") else shown


def _gauge(typed: str) -> int:
    found = re.fullmatch(r"(?:([1-4])/0|(0|[1-9][0-9]?))(?: ?awg)?", typed, re.IGNORECASE)
    gauge = None if not found else 1 - int(found[1]) if found[1] else int(found[2])
    if gauge is None or gauge > AWG_SPAN[1]:
        raise ReadingError(say("reading.gauge", text=repr(typed)))
    return gauge


def _month(typed: str) -> int:
    names = [say(f"month.{n}").casefold() for n in range(1, 13)]
    return names.index(typed.casefold()) + 1 if typed.casefold() in names else 0
