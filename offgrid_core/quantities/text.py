"""Values as a person reads them: figures, marks, unit and label."""

import math
import re
from collections.abc import Callable
from typing import Any

import numpy as np

from offgrid_core.quantities.settings import Settings
from offgrid_core.quantities.units import AWG_SPAN, Unit, awg_label, mm2_to_awg
from offgrid_core.quantities.wording import say
from offgrid_core.worksheet.table import Table

THIN_SPACE = "\u2009"
#: Below the first and from the second on, a power of ten is easier to read than a row of zeros.
_WRITTEN_OUT = (1e-5, 1e12)
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=[A-Za-zµΩ°%])")
#: Units that are words: of one, they lose their s.
_SEVERAL = ("days", "years")


def kept_together(said: str) -> str:
    r"""Return words in which no end of a line parts a number from its unit, or its thousands from its hundreds.

    Examples
    --------
    >>> kept_together("1\u2009470 Ah, or 10 % less")
    '1\u202f470\xa0Ah, or 10\xa0% less'
    """
    return _BEFORE_UNIT.sub("\u00a0", said).replace(THIN_SPACE, "\u202f")


def number(x: float, figures: int = 4, settings: Settings | None = None) -> str:
    """Return a number with so many significant figures, no idle zeros, and the class's decimal mark.

    Parameters
    ----------
    x
        The number, in whatever unit it shall be shown.
    figures
        Significant figures: 4 where a person works on from the value, 3 for a readout.
    settings
        Gives the decimal mark.

    Examples
    --------
    >>> number(-1234.56), number(300.0), number(0.84037)
    ('−1\u2009235', '300', '0.8404')
    """
    if math.isnan(x):
        return say("value.nan")
    if math.isinf(x):
        return "∞" if x > 0 else "−∞"
    rounded = f"{x + 0.0:.{figures - 1}e}"
    plain, _, power = rounded.partition("e")
    if x == 0 or _WRITTEN_OUT[0] <= abs(x) < _WRITTEN_OUT[1]:
        plain, power = f"{float(rounded):,.{max(figures - 1 - int(power), 0)}f}", ""
    else:
        power = f"e{int(power)}"
    if "." in plain:
        plain = plain.rstrip("0").rstrip(".")
    mark = (settings or Settings()).decimal
    return (plain + power).translate(str.maketrans(",.-", f"{THIN_SPACE}{mark}−"))


def show(name: str, value: Any, settings: Settings | None = None, figures: int = 4) -> str:
    """Return a value of a quantity with its unit, for a person.

    Parameters
    ----------
    name
        The quantity; its ending fixes the unit the value is stored in.
    value
        A number or an array in the canonical unit; also a table, ``True``/``False``, text or ``None``.
    settings
        Units and marks to show; the usual ones if not given.
    figures
        Significant figures of each number. A whole count is always shown in full.

    Returns
    -------
    str
        Twelve monthly values are listed; of any other array the first and the last are shown.

    Raises
    ------
    OffgridError
        If a number has a name that does not end in a unit.

    Examples
    --------
    >>> show("bank_ah", 300.0), show("kept_frac", 0.8404), show("design_month", 12)
    ('300 Ah', '84.04 %', 'December')
    """
    said = _in_words(value)
    if said is not None:
        return said
    settings = settings or Settings()
    unit = settings.unit_for(name)
    if isinstance(value, float):
        return _one(unit.from_canonical(value), unit, figures, settings)
    values = unit.from_canonical(np.asarray(value, float).ravel())
    if values.size == 0:
        return say("value.empty")
    if values.size == 1:
        return _one(values[0], unit, figures, settings)
    numbers = [_bare(x, unit, figures, settings) for x in (values if values.size <= 12 else values[[0, -1]])]
    after = _after(unit)
    if "by_month" in name and values.size == 12:
        return ("; " if settings.decimal == "," else ", ").join(numbers) + after
    return say("value.many", first=numbers[0], last=numbers[-1], unit=after, count=values.size)


def word(name: str, labels: Callable[[str], str] | None = None) -> str:
    """Return the label of a quantity in trade words, from the one table of names or from ``labels``."""
    from offgrid_core.quantities.names import label_of

    return (labels or label_of)(name)


def capital(text: str) -> str:
    """Return a label as it begins a line."""
    return text[:1].upper() + text[1:]


def _in_words(value: Any) -> str | None:
    """Return words for whatever is not a number."""
    match value:
        case None:
            return say("value.none")
        case bool() | np.bool_():
            return say("value.yes" if value else "value.no")
        case str():
            return value
        case Table():
            return value.label
    return None


def _one(x: float, unit: Unit, figures: int, settings: Settings) -> str:
    bare = _bare(x, unit, figures, settings)
    after = _after(unit).removesuffix("s") if bare == "1" and unit.symbol in _SEVERAL else _after(unit)
    return bare if math.isnan(x) else bare + after + _gauge(x, unit, settings)


def _bare(x: float, unit: Unit, figures: int, settings: Settings) -> str:
    if unit.kind == "month" and x in range(1, 13):
        return say(f"month.{int(x)}")
    if unit.kind == "count" and math.isfinite(x) and x == round(x):
        figures = max(figures, len(str(abs(int(x)))))
    return number(float(x), figures, settings)


def _after(unit: Unit) -> str:
    return unit.symbol if unit.symbol in ("", "°") else f" {unit.symbol}"


def _gauge(area: float, unit: Unit, settings: Settings) -> str:
    """Return the gauge beside an area, or the two it lies between; nothing beyond the gauges there are."""
    if unit.kind != "area" or settings.wire != "AWG" or not 0 < area < math.inf:
        return ""
    gauge = float(mm2_to_awg(area))
    near = round(gauge)
    thick, thin = math.floor(gauge), math.ceil(gauge)
    if abs(gauge - near) < 0.02:
        thick = thin = near
    if thick < AWG_SPAN[0] or thin > AWG_SPAN[1]:
        return ""
    if thick == thin:
        return f" ({awg_label(near)})"
    return f" ({say('wire.between', thin=awg_label(thin), thick=awg_label(thick))})"
