"""Real years of weather, hour by hour: three that come with pvlib, and a person's own file.

Files are told apart by what is in them: EPW, TMY3 and TMY2 are read by pvlib, plain CSV by
:mod:`offgrid_core.year.plain_hours`. Whole years are wanted, from 1 January 00:00, without gaps. 29 February is left
out. Sun from −10 to 0 W/m² is taken as 0: an instrument that cools towards the night sky reads a little below nothing.

pvlib and pandas take a second to load, so they are loaded only when a function here is called.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from offgrid_core.data.reading import nearest
from offgrid_core.errors import DataError
from offgrid_core.sizing.sky import hours_on_plane_w_m2
from offgrid_core.year.plain_hours import read_plain
from offgrid_core.year.weather import HOURS, Weather

if TYPE_CHECKING:
    import pandas as pd

#: Key → file in the data folder of pvlib, name to show. All are public domain.
SHIPPED = {
    "hourly_26n": ("12839.tm2", "Hours at 26° N, a warm coast"),
    "hourly_36n": ("723170TYA.CSV", "Hours at 36° N, four seasons"),
    "hourly_55n": ("703165TY.csv", "Hours at 55° N, a cloudy coast"),
}
MOST_BYTES = 50_000_000
#: Name in a file → name in the record.
COLUMNS = {"ghi_w_m2": "ghi", "dhi_w_m2": "dhi", "dni_w_m2": "dni", "air_c": "temp_air"}
#: Sun at least this is still taken as none.
NIGHT_READING_W_M2 = -10.0
_SPANS = {"ghi": (0, 2000, "W/m²"), "dhi": (0, 2000, "W/m²"), "dni": (0, 2000, "W/m²"), "temp_air": (-70, 60, "°C")}
#: Clocks stand at most this far from the sun; farther, and the offset or the longitude is wrong.
_CLOCK_FROM_SUN_H = 3.5
_ALLOWED = "allowed are EPW, TMY3, TMY2, and CSV by commas with hour_starts or hour_ends, ghi_w_m2 and air_c"
#: Hours of typical years come from several years; all are put in this one.
_TYPICAL_YEAR = 1990
_TMY2_HEAD = re.compile(r"\s?\d{5}\s.*\s[NS]\s+\d+\s+\d+\s+[EW]\s+\d+")

LIMITS = (
    "A record is one draw of the climate: a duller spell than any in it will come.",
    "The sky is taken as equally bright all over, which over a year is 0 to 10 % too little on a tilted array.",
    "29 February is left out.",
)
TYPICAL_LIMIT = (
    "A typical year is put together from ordinary months of several years: rare dull spells are not in it, so a system "
    "looks more reliable than it is."
)
SPLIT_LIMIT = "The file has no diffuse sun: it is worked out from the global sun by a mean rule (Erbs 1982)."


@dataclass(frozen=True, eq=False)
class HourRecord:
    """Hours of one or more whole years at a place.

    Attributes
    ----------
    name
        To show.
    source
        One sentence: where the hours are from.
    latitude_deg, longitude_deg
        Degrees, north and east positive.
    hours
        Columns ``ghi``, ``temp_air`` and perhaps ``dhi`` and ``dni`` (W/m², °C), 8760 rows a year, by the middle of
        each hour with its time zone.
    typical
        Whether its months come from different years.
    """

    name: str
    source: str
    latitude_deg: float
    longitude_deg: float
    hours: "pd.DataFrame"
    typical: bool


@cache
def shipped_hours(key: str) -> HourRecord:
    """Return a real year that comes with pvlib, by its key in :data:`SHIPPED`.

    Raises
    ------
    DataError
        For an unknown key, or if the file is missing.
    """
    import pvlib

    if key not in SHIPPED:
        raise DataError(f"there are no hours {key!r}; {nearest(key, SHIPPED)}")
    file, name = SHIPPED[key]
    record = read_hours(Path(pvlib.__file__).parent / "data" / file)
    source = f"A typical year of a US laboratory, public domain, from the data folder of pvlib ({file})."
    return HourRecord(name, source, record.latitude_deg, record.longitude_deg, record.hours, record.typical)


def read_hours(path: Path | str, latitude_deg: float | None = None, longitude_deg: float | None = None) -> HourRecord:
    """Read a file of hours.

    Parameters
    ----------
    path
        An EPW, TMY3, TMY2 or plain CSV file of at most 50 MB; the columns of plain CSV are those of
        :mod:`offgrid_core.year.plain_hours`.
    latitude_deg, longitude_deg
        Degrees, north and east positive. For plain CSV only; the other files say it themselves.

    Raises
    ------
    DataError
        If the file cannot be used; the message names it, the line or hour, and what is allowed.
    """
    path = Path(path)
    first, second = _first_lines(path)
    has_place = True
    if first.upper().startswith("LOCATION,"):
        record = _read_by_pvlib(path, "EPW", _epw)
    elif second.startswith("Date (MM/DD/YYYY),Time (HH:MM)"):
        record = _read_by_pvlib(path, "TMY3", _tmy3)
    elif _TMY2_HEAD.match(first):
        record = _read_by_pvlib(path, "TMY2", _tmy2)
    elif {"hour_starts", "hour_ends"} & set(_words(first)):
        has_place = False
        record = _read_plain(path, latitude_deg, longitude_deg)
    else:
        raise DataError(f"{path.name} is not a file of hours that can be read; {_ALLOWED}")
    if has_place and (latitude_deg, longitude_deg) != (None, None):
        raise DataError(f"{path.name} says where it is from; a latitude and longitude are for plain CSV only")
    _check_place(path.name, record)
    return record


def weather_of(
    record: HourRecord, tilt_deg: float, azimuth_deg: float, ground: float | Sequence[float] = 0.2
) -> Weather:
    """Return the weather of a record on a plane; parameters as in :func:`offgrid_core.sizing.sky.plane_kwh_m2`.

    Raises
    ------
    WorksheetError
        If the place or the plane is out of range.
    """
    place = record.latitude_deg, record.longitude_deg
    plane = hours_on_plane_w_m2(record.hours, *place, tilt_deg, azimuth_deg, ground)
    more = [(TYPICAL_LIMIT, record.typical), (SPLIT_LIMIT, "dhi" not in record.hours)]
    return Weather(
        name=record.name,
        source=record.source,
        limits=(*LIMITS, *(sentence for sentence, holds in more if holds)),
        plane_w_m2=plane.reshape(-1, HOURS),
        air_c=record.hours["temp_air"].to_numpy(float).reshape(-1, HOURS),
        flat_w_m2=record.hours["ghi"].to_numpy(float).reshape(-1, HOURS),
    )


# ---- finding out what it is


def _first_lines(path: Path) -> tuple[str, str]:
    if not path.is_file():
        raise DataError(f"there is no file {path}; a file of hours is wanted")
    if (size := path.stat().st_size) > MOST_BYTES:
        raise DataError(f"{path.name} has {size / 1e6:.0f} MB; at most {MOST_BYTES / 1e6:g} MB can be read")
    try:
        with path.open(encoding="utf-8-sig", errors="replace") as file:
            return file.readline().rstrip("\n"), file.readline().rstrip("\n")
    except OSError as error:
        raise DataError(f"{path.name} cannot be read ({error.strerror}); a file of hours is wanted") from None


def _words(line: str) -> list[str]:
    return [word.strip(' "') for word in line.split(",")]


def _check_place(name: str, record: HourRecord) -> None:
    for label, value, most in (("latitude", record.latitude_deg, 90), ("longitude", record.longitude_deg, 180)):
        if not -most <= value <= most:
            raise DataError(f"{name}: the {label} {value:g}° is not between −{most}° and {most}°")
    clock_h = record.hours.index[0].utcoffset().total_seconds() / 3600
    from_sun = (clock_h - record.longitude_deg / 15 + 12) % 24 - 12
    if abs(from_sun) > _CLOCK_FROM_SUN_H:
        raise DataError(
            f"{name}: its clock is {clock_h:+g} h from universal time, {abs(from_sun):.1f} h from the sun at "
            f"{record.longitude_deg:g}° of longitude (east positive); at most {_CLOCK_FROM_SUN_H:g} h, the place's own "
            "standard time, is allowed"
        )


# ---- EPW, TMY3, TMY2

#: Hours as pvlib reads them, what it says of the place, and how far the middle of an hour is from its label.
Parsed = tuple["pd.DataFrame", dict[str, Any], timedelta]
_HALF = timedelta(minutes=30)


def _epw(path: Path) -> Parsed:
    from pvlib import iotools

    hours, about = iotools.read_epw(path)
    return hours, about | {"name": about["city"]}, _HALF


def _tmy3(path: Path) -> Parsed:
    from pvlib import iotools

    # pvlib puts the last hour of 28 February astray where that year was a leap year, unless all are put in one year
    hours, about = iotools.read_tmy3(path, coerce_year=_TYPICAL_YEAR, map_variables=True)
    hours = hours.assign(year=hours["Date (MM/DD/YYYY)"].str[-4:])
    return hours, about | {"name": about["Name"].strip('"')}, -_HALF


def _tmy2(path: Path) -> Parsed:
    from pvlib import iotools

    hours, about = iotools.read_tmy2(path)
    hours = hours.rename(columns={"GHI": "ghi", "DHI": "dhi", "DNI": "dni"})
    return hours.assign(temp_air=hours["DryBulb"] / 10), about | {"name": about["City"]}, _HALF  # tenths of °C


def _read_by_pvlib(path: Path, kind: str, parse: Callable[[Path], Parsed]) -> HourRecord:
    try:
        read, about, middle = parse(path)
    except Exception as error:
        first = (str(error).splitlines() or [type(error).__name__])[0]
        raise DataError(f"{path.name} cannot be read as {kind} ({first}); a whole year of hours is wanted") from None
    read = read.set_index(read.index + middle)
    read = read[(read.index.month != 2) | (read.index.day != 29)]
    one_year = _in_one_year(path.name, read.index)
    title = " ".join(str(about["name"]).split()).title()
    return HourRecord(
        name=f"{title}, hours",
        source=f"The hours of {title} in {path.name} ({kind}), read by pvlib.",
        latitude_deg=float(about["latitude"]),
        longitude_deg=float(about["longitude"]),
        hours=_checked(path.name, read[list(COLUMNS.values())].set_index(one_year), "%m-%d %H:%M"),
        typical=len(set(read["year"])) > 1,
    )


def _in_one_year(name: str, labels: "pd.DatetimeIndex") -> "pd.DatetimeIndex":
    """Return the hours of one year for those of a file, whose months may be of several, or name the wrong hour."""
    import pandas as pd

    found = [(t.month, t.day, t.hour, t.minute) for t in labels]
    whole = pd.date_range(f"{_TYPICAL_YEAR}-01-01 00:30", periods=HOURS, freq="h", tz=labels.tz)
    _refuse_unlike(name, found, [(t.month, t.day, t.hour, t.minute) for t in whole], _month_day_hour)
    return whole


def _month_day_hour(middle: tuple[int, int, int, int]) -> str:
    month, day, hour, minute = middle
    return f"{month:02d}-{day:02d} {hour:02d}:{(minute + 30) % 60:02d}"


# ---- plain CSV


def _read_plain(path: Path, latitude_deg: float | None, longitude_deg: float | None) -> HourRecord:
    import pandas as pd

    if latitude_deg is None or longitude_deg is None:
        raise DataError(f"{path.name} does not say where it is from; give a latitude and a longitude")
    starts, columns = read_plain(path)
    kept = [number for number, start in enumerate(starts) if (start.month, start.day) != (2, 29)]
    if not kept:
        raise DataError(f"{path.name} has no hours; one or more whole years are wanted")
    starts = [starts[number] for number in kept]
    values = {COLUMNS[word]: [column[number] for number in kept] for word, column in columns.items()}
    wanted = list(islice(_whole_years(starts), len(starts) + 1))
    _refuse_unlike(path.name, starts, wanted, lambda start: f"{start:%Y-%m-%d %H:%M}")
    hours = pd.DataFrame(values, index=pd.DatetimeIndex(starts) + _HALF)
    return HourRecord(
        name=path.stem,
        source=f"The hours in {path.name}, a file of your own.",
        latitude_deg=float(latitude_deg),
        longitude_deg=float(longitude_deg),
        hours=_checked(path.name, hours, "%Y-%m-%d %H:%M"),
        typical=False,
    )


def _whole_years(starts: list[datetime]) -> Iterator[datetime]:
    """Yield every hour from the start of the first year to the end of the last, without 29 February."""
    now = starts[0].replace(month=1, day=1, hour=0)
    while now.year <= starts[-1].year:
        if (now.month, now.day) != (2, 29):
            yield now
        now += timedelta(hours=1)


# ---- whole years of good values


def _refuse_unlike(name: str, found: list[Any], wanted: list[Any], say_hour: Callable[[Any], str]) -> None:
    """Refuse hours that are not the wanted ones, in order, each once."""
    if found == wanted:
        return
    place = next(
        (n for n, pair in enumerate(zip(found, wanted, strict=False)) if pair[0] != pair[1]),
        min(len(found), len(wanted)),
    )
    if place < len(found) and found[place] in found[:place]:
        raise DataError(f"{name}: the hour from {say_hour(found[place])} is there twice; each is wanted once")
    if place < len(wanted):
        raise DataError(
            f"{name}: the hour from {say_hour(wanted[place])} is missing or out of order; whole years are wanted"
        )
    raise DataError(f"{name}: it goes on after a whole year, at {say_hour(found[place])}; one year is wanted")


def _checked(name: str, hours: "pd.DataFrame", hour_format: str) -> "pd.DataFrame":
    """Return the columns as numbers in their spans, or name the first hour that is not."""
    import pandas as pd

    made = {}
    for column in hours:
        low, high, unit = _SPANS[column]
        values = pd.to_numeric(hours[column], errors="coerce").to_numpy(float)
        if column != "temp_air":
            values = np.where((values >= NIGHT_READING_W_M2) & (values < 0), 0.0, values)
        outside = ~((values >= low) & (values <= high))
        if np.any(outside):
            first = int(np.argmax(outside))
            raise DataError(
                f"{name}, the hour from {(hours.index[first] - _HALF).strftime(hour_format)}: {column} is "
                f"{hours[column].iloc[first]} {unit}; allowed is {low:g} to {high:g} {unit}"
            )
        made[column] = values
    return pd.DataFrame(made, index=hours.index)
