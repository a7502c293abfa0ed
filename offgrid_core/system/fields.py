"""How one entry of a plan file is read: a number within the validity of its quantity, or one clear sentence."""

from collections.abc import Callable, Sequence
from typing import Any

from pydantic import AfterValidator, BeforeValidator
from pydantic_core import PydanticCustomError

from offgrid_core.data.reading import nearest
from offgrid_core.errors import OffgridError
from offgrid_core.quantities import menu, quantity, read_quantity, say, show

_KINDS = {bool: "true or false", dict: "a table", list: "a list", tuple: "a list", str: "text"}


def refused(sentence: str) -> PydanticCustomError:
    """Return an error that carries one sentence and nothing else."""
    return PydanticCustomError("offgrid", "{sentence}", {"sentence": sentence})


def shown(entry: Any) -> str:
    """Return an entry as a message may repeat it: short, on one line, never a whole table."""
    if isinstance(entry, str):
        return repr(entry[:40])
    if isinstance(entry, bool):
        return "true" if entry else "false"
    if isinstance(entry, float) or (isinstance(entry, int) and abs(entry) < 10**18):
        return f"{entry}"
    return "a whole number of more than 18 digits" if isinstance(entry, int) else _kind(entry)


def read_value(name: str, entry: Any) -> float:
    """Read one number of a plan.

    Parameters
    ----------
    name
        Quantity whose unit and validity apply.
    entry
        A number, or text with a unit such as ``"354 Ah"``; a plan knows only the decimal point.

    Raises
    ------
    pydantic_core.PydanticCustomError
        With the value found and what is allowed.
    """
    if isinstance(entry, str):
        value = _read_text(name, entry)
    elif isinstance(entry, bool) or not isinstance(entry, int | float):
        raise refused(f"a number is wanted, not {_kind(entry)}; {_allowed(name)}")
    elif not abs(entry) < 1e18:
        raise refused(f"{shown(entry)} is not a number that can be used; {_allowed(name)}")
    else:
        value = float(entry)
    wanted = quantity(name)
    if not wanted.low <= value <= wanted.high:
        raise refused(f"{show(name, value)} is not allowed; {_allowed(name)}")
    return value


def read_twelve(name: str, entry: Any) -> tuple[float, ...]:
    """Read twelve monthly values, January first."""
    if not isinstance(entry, list | tuple) or len(entry) != 12:
        count = f"{len(entry)} values" if isinstance(entry, list | tuple) else _kind(entry)
        raise refused(f"twelve numbers are wanted, January first, not {count}; {_allowed(name)}")
    return tuple(_read_month(name, x, month) for month, x in enumerate(entry, 1))


def read_one_or_twelve(name: str, entry: Any) -> tuple[float, ...]:
    """Read one value for every month, or twelve."""
    return read_twelve(name, entry) if isinstance(entry, list | tuple) else (read_value(name, entry),) * 12


def number_of(name: str) -> BeforeValidator:
    """Read a plan entry as one number of a quantity."""
    return _validator(read_value, name)


def whole_of(name: str) -> BeforeValidator:
    """Read a plan entry as a whole number of a quantity."""

    def whole(entry: Any) -> float:
        value = read_value(name, entry)
        if value != int(value):
            raise refused(f"{value:g} is not allowed; a whole number is wanted, as in 2 or 3")
        return value

    return BeforeValidator(whole)


def twelve_of(name: str) -> BeforeValidator:
    """Read a plan entry as twelve monthly numbers."""
    return _validator(read_twelve, name)


def one_or_twelve_of(name: str) -> BeforeValidator:
    """Read a plan entry as one number for all months, or twelve."""
    return _validator(read_one_or_twelve, name)


def _readable(text: str) -> str:
    """Refuse what would garble a sheet or a terminal."""
    if text and not text.strip():
        raise refused("only blanks are not allowed; a name is wanted")
    if not text.isprintable():
        raise refused(f"{shown(text)} has a hidden character in it; letters, digits, marks and blanks are allowed")
    return text


def _readable_lines(text: str) -> str:
    for each in text.splitlines():
        if each.strip():
            _readable(each)
    return text


#: Text of one line, or of several, that can be printed anywhere.
ONE_LINE = AfterValidator(_readable)
LINES = AfterValidator(_readable_lines)


def part_of(catalogue: Callable[[], Sequence[Any]]) -> AfterValidator:
    """Read a plan entry as the key of a part of the catalogue."""

    def known(key: str) -> str:
        keys = [part.key for part in catalogue()]
        if key not in keys:
            raise refused(f"{shown(key)} is not in the catalogue; {nearest(key, keys)}")
        return key

    return AfterValidator(known)


def _validator(read: Callable[[str, Any], Any], name: str) -> BeforeValidator:
    return BeforeValidator(lambda entry: read(name, entry))


def _read_text(name: str, entry: str) -> float:
    if "," in entry:
        raise refused(f"{shown(entry)} is not allowed; a plan writes numbers with a decimal point, as in 3.5")
    try:
        return read_quantity(entry, name)
    except OffgridError:
        units = " or ".join(unit.symbol for unit in menu(name) if unit.symbol)
        kind = f"in {units}" if units else "without a unit"
        raise refused(f"{shown(entry)} cannot be read as a number {kind}; {_allowed(name)}") from None


def _read_month(name: str, entry: Any, month: int) -> float:
    try:
        return read_value(name, entry)
    except PydanticCustomError as e:
        raise refused(f"{say(f'month.{month}')}: {e}") from None


def _allowed(name: str) -> str:
    wanted = quantity(name)
    return f"allowed is {show(name, wanted.low)} to {show(name, wanted.high)}"


def _kind(entry: Any) -> str:
    return _KINDS.get(type(entry), "a date or time")
