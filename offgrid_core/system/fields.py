"""How one entry of a plan file is read: a number within the validity of its quantity, or one clear sentence."""

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import BeforeValidator
from pydantic_core import PydanticCustomError

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import quantity, read_quantity, show


def refused(sentence: str) -> PydanticCustomError:
    """Return an error that carries one sentence and nothing else."""
    return PydanticCustomError("offgrid", "{sentence}", {"sentence": sentence})


def read_value(name: str, entry: Any) -> float:
    """Read one number of a plan.

    Parameters
    ----------
    name
        Quantity whose unit and validity apply.
    entry
        A number, or text with a unit such as ``"354 Ah"``.

    Raises
    ------
    pydantic_core.PydanticCustomError
        With the value found and what is allowed.
    """
    if isinstance(entry, str):
        try:
            value = read_quantity(entry, name)
        except OffgridError as e:
            raise refused(f"{entry[:40]!r} cannot be read: {e}") from None
    elif isinstance(entry, bool) or not isinstance(entry, int | float):
        raise refused(f"a number is wanted, not {_kind(entry)}; {_allowed(name)}")
    elif entry != entry or entry in (float("inf"), float("-inf")) or abs(entry) > 1e300:
        raise refused(f"{entry} is not a number that can be used; {_allowed(name)}")
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
    return tuple(read_value(name, x) for x in entry)


def read_one_or_twelve(name: str, entry: Any) -> tuple[float, ...]:
    """Read one value for every month, or twelve."""
    return read_twelve(name, entry) if isinstance(entry, list | tuple) else (read_value(name, entry),) * 12


def _validator(read: Callable[[str, Any], Any], name: str) -> BeforeValidator:
    return BeforeValidator(lambda entry: read(name, entry))


def number_of(name: str) -> Any:
    """Type of a plan entry that holds one number of a quantity."""
    return Annotated[float, _validator(read_value, name)]


def twelve_of(name: str) -> Any:
    """Type of a plan entry that holds twelve monthly numbers."""
    return Annotated[tuple[float, ...], _validator(read_twelve, name)]


def one_or_twelve_of(name: str) -> Any:
    """Type of a plan entry that holds one number or twelve."""
    return Annotated[tuple[float, ...], _validator(read_one_or_twelve, name)]


def _allowed(name: str) -> str:
    wanted = quantity(name)
    return f"allowed is {show(name, wanted.low)} to {show(name, wanted.high)}"


def _kind(entry: Any) -> str:
    kinds = {bool: "true or false", dict: "a table", list: "a list", str: "text"}
    return kinds.get(type(entry), f"{type(entry).__name__}")
