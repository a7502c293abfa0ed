"""Reading one file of facts: find it, check every row, and say plainly which value is not allowed.

Shipped files sit in ``datasets/`` beside the package in a checkout and inside the package once installed. A
person's own folder may hold files of the same names and columns; each one found there is read instead.
"""

import csv
from collections.abc import Iterable
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from offgrid_core.data.models import MONTHS, Row
from offgrid_core.errors import DataError

_PACKAGE = Path(__file__).resolve().parents[1]
R = TypeVar("R", bound=Row)


def shipped_folder() -> Path:
    """Return the folder of the shipped files.

    Returns
    -------
    Path
        ``datasets`` inside the package (an installed wheel), else ``datasets`` beside it (a checkout).

    Raises
    ------
    DataError
        If neither is there.
    """
    for folder in (_PACKAGE / "datasets", _PACKAGE.parent / "datasets"):
        if (folder / "MANIFEST.toml").is_file():
            return folder
    raise DataError(f"the shipped data files are missing: no datasets folder in or beside {_PACKAGE}")


def read_rows(name: str, model: type[R], folder: Path | None = None) -> tuple[R, ...]:
    """Read and check one file.

    Parameters
    ----------
    name
        File name, such as ``"modules.csv"``.
    model
        What a row holds; its columns are the file's columns.
    folder
        A person's own folder, looked in first.

    Returns
    -------
    tuple
        The rows, in the order of the file.

    Raises
    ------
    DataError
        If the folder, the file, a column or a value is not as it should be; the message names the file, the
        line of the file, the column, the value and what is allowed.
    """
    path = shipped_folder() / name
    if folder is not None:
        if not Path(folder).is_dir():
            raise DataError(f"there is no folder {folder}; give a folder of your own data files, or none")
        own = Path(folder) / name
        path = own.resolve() if own.is_file() else path
    if not path.is_file():
        raise DataError(f"the data file {name} is missing from {path.parent}")
    # the time stamp is part of the key, so that a file edited during a session is read afresh
    return _read(path, path.stat().st_mtime_ns, model)


@lru_cache(maxsize=128)
def _read(path: Path, _stamp: int, model: type[R]) -> tuple[R, ...]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            lines = csv.reader(file, strict=True)
            header = [word.strip() for word in next(lines, [])]
            _check_header(path.name, header, model)
            rows = [_row(path.name, lines.line_num, header, cells, model) for cells in lines if any(cells)]
    except UnicodeDecodeError:
        raise DataError(f"{path.name} is not a UTF-8 text file; save it as CSV in UTF-8") from None
    except csv.Error as error:
        raise DataError(
            f"{path.name} is not a plain CSV file ({error}); save it with commas and closed quotes"
        ) from None
    except OSError as error:
        raise DataError(f"{path.name} cannot be read ({error.strerror})") from None
    keys = [str(getattr(row, "key", number)) for number, row in enumerate(rows)]
    if twice := next((key for key in keys if keys.count(key) > 1), None):
        raise DataError(f"{path.name} has the key {twice!r} twice; each is allowed once")
    if not rows:
        raise DataError(f"{path.name} has no rows; at least one is wanted")
    return tuple(rows)


def _check_header(name: str, header: list[str], model: type[Row]) -> None:
    wanted = model.columns()
    if len(header) == 1 and any(mark in header[0] for mark in ";\t"):
        raise DataError(f"{name} is separated by semicolons or tabs; commas are allowed, with a point in decimals")
    if missing := [column for column in wanted if column not in header]:
        raise DataError(f"{name} has no column {', '.join(missing)}; its columns are {', '.join(wanted)}")
    if extra := [column for column in header if column not in wanted]:
        raise DataError(f"{name} has a column {extra[0]!r} that is not known; allowed are {', '.join(wanted)}")
    if len(set(header)) < len(header):
        raise DataError(f"{name} names a column twice; each is allowed once")


def _row(name: str, number: int, header: list[str], cells: list[str], model: type[R]) -> R:
    if len(cells) != len(header):
        raise DataError(
            f"{name}, line {number}: {len(cells)} values where the header has {len(header)} columns; "
            "a text or number with a comma needs quotes, and decimals take a point"
        )
    given = {column: cell.strip() for column, cell in zip(header, cells, strict=True)}
    try:
        return model.from_cells(given)
    except ValidationError as error:
        raise DataError(f"{name}, line {number}, {_complaint(error, given, model)}") from None


def _complaint(error: ValidationError, given: dict[str, str], model: type[Row]) -> str:
    first = error.errors(include_url=False)[0]
    place = first["loc"]
    if not place:
        return str(first["msg"]).removeprefix("Value error, ")
    field = str(place[0])
    column = f"{model.monthly[field]}_{MONTHS[int(place[1])]}" if field in model.monthly else field
    value = given[column]
    shown = repr(value) if value else "an empty value"
    allowed = _allowed(model.model_json_schema()["properties"][field])
    return f"column {column}: {shown} is not allowed; allowed is {allowed}"


def _allowed(schema: dict[str, Any]) -> str:
    """Say what a column may hold, from the very schema that checks it."""
    if "anyOf" in schema:
        return " or ".join(_allowed(part) for part in schema["anyOf"])
    if "pattern" in schema:
        return "a name of small letters, digits and _ that starts with a letter"
    if "enum" in schema:
        return "one of " + ", ".join(str(word) for word in schema["enum"])
    kind = schema.get("type")
    if kind == "array":
        item = schema["items"]
        return f"{_allowed(item)} for each" if "enum" in item else _allowed(item)
    if kind in ("number", "integer"):
        low = schema.get("minimum", schema.get("exclusiveMinimum"))
        above = "above " if "exclusiveMinimum" in schema else "from "
        whole = "a whole number" if kind == "integer" else "a number with a decimal point,"
        return f"{whole} {above}{low:g} up to {schema['maximum']:g}"
    return {"null": "nothing", "string": "a text that is not empty"}[str(kind)]


def by_key(rows: Iterable[R], key: str, name: str) -> R:
    """Return the row of that key.

    Raises
    ------
    DataError
        If there is none; the message names the nearest known ones.
    """
    known = {str(getattr(row, "key")): row for row in rows}  # noqa: B009 (not every row has a key)
    if key not in known:
        raise DataError(f"{name} has no {key!r}; {nearest(key, known)}")
    return known[key]


def nearest(word: str, known: Iterable[str]) -> str:
    """Return words that point to the nearest known names, or to all of them if none is near."""
    names = list(known)
    close = get_close_matches(str(word), names, 3, 0.5)
    return f"nearest: {', '.join(close)}" if close else f"known: {', '.join(names)}"
