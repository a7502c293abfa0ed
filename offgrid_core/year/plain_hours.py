"""Hours of weather in a plain CSV file of a person's own.

It has these columns, in any order and no others, with commas between and a point in decimals:

``hour_starts`` or ``hour_ends``
    When each hour starts, or ends: ISO 8601 with the offset from universal time, at a full hour, as in
    ``2021-01-01T00:00+02:00``. Standard time the whole year.
``ghi_w_m2``
    Global sun on the flat, mean of the hour, W/m².
``dhi_w_m2``, ``dni_w_m2``
    Diffuse on the flat and beam square to it, W/m²; both or neither.
``air_c``
    Air temperature, °C.
"""

import csv
from datetime import datetime, timedelta
from pathlib import Path

from offgrid_core.errors import DataError

COLUMNS = ("ghi_w_m2", "dhi_w_m2", "dni_w_m2", "air_c")
_YEARS = (1900, 2100)


def read_plain(path: Path) -> tuple[list[datetime], dict[str, list[float]]]:
    """Return when each hour starts, and the numbers of each column, one a line of the file.

    Raises
    ------
    DataError
        If a line cannot be used; the message names the file, the line, the value and what is allowed.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            lines = csv.reader(file, strict=True)
            header = [word.strip() for word in next(lines)]
            label, ends = _header(path.name, header)
            starts: list[datetime] = []
            columns: dict[str, list[float]] = {word: [] for word in header if word in COLUMNS}
            for cells in filter(any, lines):
                where = f"{path.name}, line {lines.line_num}"
                if len(cells) != len(header):
                    raise DataError(f"{where}: {len(cells)} values where the header has {len(header)} columns")
                row = dict(zip(header, cells, strict=True))
                starts.append(_start(where, label, row[label], ends, starts))
                for word, column in columns.items():
                    column.append(_number(where, word, row[word]))
    except UnicodeDecodeError:
        raise DataError(f"{path.name} is not a UTF-8 text file; save it as CSV in UTF-8") from None
    except csv.Error as error:
        raise DataError(f"{path.name} is not a plain CSV file ({error}); save it with commas") from None
    return starts, columns


def _header(name: str, header: list[str]) -> tuple[str, bool]:
    """Return the column of the times, and whether it is the end of the hour."""
    labels = [word for word in header if word in ("hour_starts", "hour_ends")]
    unknown = [word for word in header if word not in COLUMNS and word not in labels]
    if len(labels) != 1 or unknown or len(set(header)) < len(header) or {"ghi_w_m2", "air_c"} - set(header):
        found = ", ".join(header)
        wanted = "hour_starts or hour_ends, ghi_w_m2, air_c, and perhaps dhi_w_m2 with dni_w_m2"
        raise DataError(f"{name}: the columns are {found}; wanted are {wanted}, each once and no others")
    if ("dhi_w_m2" in header) != ("dni_w_m2" in header):
        raise DataError(f"{name}: there is only one of dhi_w_m2 and dni_w_m2; both or neither are wanted")
    return labels[0], labels[0] == "hour_ends"


def _start(where: str, label: str, text: str, ends: bool, before: list[datetime]) -> datetime:
    try:
        found = datetime.fromisoformat(text.strip())
    except ValueError:
        found = datetime.min
    if found.tzinfo is None:
        raise DataError(
            f"{where}, column {label}: {text!r} is not a time with its offset; wanted is one like "
            "2021-01-01T00:00+02:00"
        )
    if found.minute or found.second or found.microsecond:
        raise DataError(f"{where}, column {label}: {text!r} is not a full hour; one line for each full hour is wanted")
    if before and found.utcoffset() != before[0].utcoffset():
        raise DataError(
            f"{where}, column {label}: the offset of {text!r} is not that of the first hour; standard time the whole "
            "year is wanted"
        )
    if not _YEARS[0] <= found.year <= _YEARS[1]:
        raise DataError(f"{where}, column {label}: {text!r} is not in the years {_YEARS[0]} to {_YEARS[1]}")
    return found - timedelta(hours=ends)


def _number(where: str, column: str, text: str) -> float:
    try:
        return float(text)
    except ValueError:
        shown = repr(text) if text.strip() else "an empty value"
        raise DataError(
            f"{where}, column {column}: {shown} is not a number; a number with a decimal point is wanted"
        ) from None
