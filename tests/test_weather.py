"""Years of hours: what a weather may hold, the real years that ship with pvlib, a person's own file, and refusals."""

import math
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

import numpy as np
import pvlib
import pytest
from published import sky_cases as book
from test_sky import a_year, year_of

from offgrid_core import data
from offgrid_core.errors import DataError, OffgridError, WorksheetError
from offgrid_core.sizing import sky
from offgrid_core.year import records
from offgrid_core.year.records import SHIPPED, TYPICAL_LIMIT, read_hours, shipped_hours, weather_of
from offgrid_core.year.weather import Weather

PVLIB = Path(pvlib.__file__).parent / "data"
LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


# ---- what a weather may hold


def parts(**changed) -> dict[str, object]:
    whole = np.ones((2, 8760))
    good = {"plane_w_m2": 300 * whole, "air_c": 10 * whole, "flat_w_m2": 250 * whole}
    return {"name": "a place", "source": "made here.", "limits": ("none.",)} | good | changed


def one_bad(value: float, fill: float = 10.0) -> np.ndarray:
    values = np.full((2, 8760), fill)
    values[1, 4000] = value
    return values


def test_a_weather_of_two_years():
    weather = Weather(**parts())
    assert weather.years == 2
    assert weather.monthly_plane_kwh_m2 == pytest.approx(np.full((2, 12), 7.2))


def test_monthly_means_of_the_plane_are_by_calendar_month():
    month = np.repeat(np.arange(12), np.array(LENGTHS) * 24)
    weather = Weather(**parts(plane_w_m2=np.stack([month, 2 * month]) * 10.0))
    assert weather.monthly_plane_kwh_m2 == pytest.approx(np.outer([1, 2], np.arange(12)) * 0.24)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"plane_w_m2": one_bad(-1)}, "^weather, sun on the array, year 2, hour 4001: -1 W/m² is not between 0 and"),
        ({"plane_w_m2": one_bad(2001)}, "2001 W/m² is not between 0 and 2000 W/m²$"),
        ({"flat_w_m2": one_bad(math.nan)}, "^weather, sun on the flat, year 2, hour 4001: nan W/m² is not"),
        ({"flat_w_m2": one_bad(math.inf)}, "inf W/m² is not between"),
        ({"air_c": one_bad(-71)}, "^weather, air, year 2, hour 4001: -71 °C is not between -70 and 60 °C$"),
        ({"air_c": one_bad(61)}, "61 °C is not between"),
        ({"air_c": np.ones((1, 8760))}, "^weather, air: there are 1 years but 2 of sun on the array; as many"),
        ({"plane_w_m2": np.ones(8760)}, "^weather, sun on the array: the shape is 8760; whole years of 8760 hours"),
        ({"plane_w_m2": np.ones((2, 8784))}, "the shape is 2 × 8784; whole years of 8760 hours are wanted$"),
        ({"air_c": np.float64(3)}, "^weather, air: the shape is a single value; whole years"),
        ({"plane_w_m2": np.ones((0, 8760))}, "the shape is 0 × 8760"),
    ],
)  # fmt: skip
def test_a_weather_is_refused(changed, says):
    with pytest.raises(WorksheetError, match=says):
        Weather(**parts(**changed))


# ---- the real years


@pytest.mark.parametrize(("key", "latitude"), [("hourly_26n", 25.8), ("hourly_36n", 36.1), ("hourly_55n", 55.317)])
def test_a_shipped_year_on_a_plane_is_that_of_the_month_by_month_sum(key, latitude):
    real = a_year(SHIPPED[key][0])
    record = shipped_hours(key)
    assert (record.latitude_deg, record.longitude_deg) == pytest.approx((real.latitude, real.longitude))
    assert record.latitude_deg == pytest.approx(latitude, abs=0.01)
    for tilt, azimuth in ((latitude, 180), (60, 225)):
        weather = weather_of(record, tilt, azimuth, 0.2)
        assert weather.years == 1
        assert weather.monthly_plane_kwh_m2[0] == pytest.approx(real.on(tilt, azimuth), rel=2e-3)
        whole = weather.plane_w_m2.sum() / 1000 / 365
        assert whole == pytest.approx(year_of(real.on(tilt, azimuth)), rel=5e-4)
    own = sky.year_on_plane_kwh_m2(record.hours, *(record.latitude_deg, record.longitude_deg), 60, 225, 0.2)
    assert weather.monthly_plane_kwh_m2[0] == pytest.approx(own, rel=1e-12)


def test_the_shipped_years_on_the_plane_are_the_printed_ones():
    for key, name in (("greensboro", "hourly_36n"), ("miami", "hourly_26n")):
        record = shipped_hours(name)
        weather = weather_of(record, record.latitude_deg, 180, 0.2)
        assert f"{weather.plane_w_m2.mean() * 0.024:.3f}" == book.YEAR_ON_THE_PLANE[key][0]


@pytest.mark.parametrize(("key", "site"), zip(SHIPPED, ("miami", "greensboro", "sand_point"), strict=True))
def test_hours_of_a_shipped_year_stand_at_their_time_of_day(key, site):
    weather = weather_of(shipped_hours(key), 0, 180)
    by_hour = weather.flat_w_m2.reshape(365, 24).mean(axis=0)
    # the mean of the file's own hours lies within half an hour of its solar noon (longitude against the zone)
    record = shipped_hours(key)
    zone = record.hours.index[0].utcoffset().total_seconds() / 3600
    noon = 12 + zone - record.longitude_deg / 15
    assert np.average(np.arange(24) + 0.5, weights=by_hour) == pytest.approx(noon, abs=0.5)
    assert by_hour[[0, 1, 23]].max() == 0
    air = weather.air_c.reshape(365, 24)
    assert 12 <= np.argmax(air.mean(axis=0)) <= 16
    month = np.repeat(np.arange(12), LENGTHS)
    means = [air[month == m].mean() for m in range(12)]
    assert means == pytest.approx(data.site(site).air_temp_by_month_c, abs=0.2), "tenths of a degree are not degrees"
    assert record.typical
    assert TYPICAL_LIMIT in weather.limits
    assert all(sentence.endswith(".") for sentence in (weather.source, *weather.limits))


def test_no_such_shipped_year():
    with pytest.raises(DataError, match=r"^there are no hours 'hourly_63n'; nearest: hourly_"):
        shipped_hours("hourly_63n")


# ---- a person's own file: the formats that pvlib reads


@cache
def epw_lines() -> tuple[str, ...]:
    """A year of a made-up place; every month comes from another year."""
    lines = ["LOCATION,MADE UP,XX,YYY,none,000000,40.0,25.0,2.0,100.0", *["COMMENT"] * 7]
    for month, length in enumerate(LENGTHS):
        for day in range(1, length + 1):
            for hour in range(1, 25):
                sun = 500 if 9 <= hour <= 16 else 0
                row = [2000 + month, month + 1, day, hour, 0, "?", 15.5, 5, 50, 100000, 0, 0, 300]
                row += [sun, sun // 2, sun // 2, 0, 0, 0, 0, 0, 1, 5, 5, 10, 1000, 9, 9, 10, 0.1, 0, 88, 0.2, 0, 0]
                lines.append(",".join(map(str, row)))
    return tuple(lines)


def epw(path: Path, change=list) -> Path:
    path.write_text("\n".join(change(list(epw_lines()))) + "\n", encoding="utf-8")
    return path


def changed(line: int, column: int, text: str):
    def change(lines: list[str]) -> list[str]:
        cells = lines[line].split(",")
        cells[column] = text
        return [*lines[:line], ",".join(cells), *lines[line + 1 :]]

    return change


def test_an_epw_file_whatever_its_name(tmp_path):
    record = read_hours(epw(tmp_path / "mine.txt"))
    assert (record.latitude_deg, record.longitude_deg, record.typical) == (40.0, 25.0, True)
    assert str(record.hours.index[0]) == "1990-01-01 00:30:00+02:00"
    weather = weather_of(record, 0, 180)
    assert set(np.flatnonzero(weather.flat_w_m2[0, :24])) == set(range(8, 16)), "hour 9 is that from 8 to 9"
    assert np.all(weather.air_c == 15.5)
    assert "mine.txt" in weather.source
    assert "Made Up" in weather.name


def test_an_epw_file_of_one_leap_year_loses_its_29_february(tmp_path):
    def leap(lines: list[str]) -> list[str]:
        lines = [f"2004,{line.split(',', 1)[1]}" if line[:2] == "20" else line for line in lines]
        after = 8 + 59 * 24
        extra = [line.replace("2004,2,28,", "2004,2,29,") for line in lines[after - 24 : after]]
        return [*lines[:after], *[line.replace(",15.5,", ",55.5,") for line in extra], *lines[after:]]

    record = read_hours(epw(tmp_path / "leap.epw", leap))
    assert len(record.hours) == 8760
    assert record.hours["temp_air"].max() == 15.5
    assert not record.typical
    assert TYPICAL_LIMIT not in weather_of(record, 0, 180).limits


@pytest.mark.parametrize(("value", "kept"), [("-3", 0.0), ("-10", 0.0), ("0.5", 0.5)])
def test_a_night_reading_a_little_below_nothing_is_nothing(tmp_path, value, kept):
    record = read_hours(epw(tmp_path / "night.epw", changed(8, 13, value)))
    assert record.hours["ghi"].iloc[0] == kept


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (changed(8 + 12, 13, "-11"), r"^own\.epw, the hour from 01-01 12:00: ghi is -11 W/m²; allowed is 0 to 2000 W"),
        (changed(8 + 12, 13, "9999"), "ghi is 9999 W/m²; allowed is 0 to 2000"),
        (changed(8 + 12, 14, "-9900"), "dni is -9900"),
        (changed(8 + 12, 15, "much"), r"^own\.epw, the hour from 01-01 12:00: dhi is much W/m²; "),
        (changed(8 + 12, 15, ""), "dhi is nan W/m²"),
        (changed(8 + 12, 6, "99.9"), "temp_air is 99.9 °C; allowed is -70 to 60 °C$"),
        (lambda lines: lines[:20] + lines[21:], r"^own\.epw: the hour from 01-01 12:00 is missing or out of order;"),
        (lambda lines: lines[:20] + lines[19:], r"^own\.epw: the hour from 01-01 11:00 is there twice; each is wanted"),
        (lambda lines: lines[:4000], "is missing or out of order"),
        (lambda lines: lines + lines[8:], "the hour from 01-01 00:00 is there twice"),
        (changed(8 + 12, 1, "13"), r"^own\.epw cannot be read as EPW \(.+\); a whole year of hours is wanted$"),
        (changed(0, 6, "north"), "cannot be read as EPW"),
        (changed(0, 6, "99"), "^own.epw: the latitude 99° is not between −90° and 90°$"),
        (changed(0, 7, "-25"), "its clock is .2 h from universal time, 3.7 h from the sun at -25° of longitude"),
        (lambda lines: lines[:8], "the hour from 01-01 00:00 is missing|cannot be read as EPW"),
    ],
)  # fmt: skip
def test_a_bad_epw_file_is_refused(tmp_path, change, says):
    with pytest.raises(DataError, match=says) as caught:
        read_hours(epw(tmp_path / "own.epw", change))
    assert "\n" not in str(caught.value)


def test_damaged_files_of_the_other_formats_are_refused(tmp_path):
    for key, line in (("hourly_36n", 30), ("hourly_26n", 30)):
        file = SHIPPED[key][0]
        lines = (PVLIB / file).read_text(encoding="latin-1").splitlines()
        (tmp_path / file).write_text("\n".join(lines[:line] + lines[line + 1 :]) + "\n", encoding="latin-1")
        with pytest.raises(DataError, match="is missing or out of order"):
            read_hours(tmp_path / file)
        (tmp_path / file).write_text("\n".join([*lines[:line], "rubbish", *lines[line:]]) + "\n", encoding="latin-1")
        with pytest.raises(DataError, match="cannot be read as TMY"):
            read_hours(tmp_path / file)
        with pytest.raises(DataError, match="says where it is from"):
            read_hours(PVLIB / file, 36.0, -80.0)


# ---- a person's own file: plain CSV


@cache
def plain_lines(years: tuple[int, int], header: str, offset: str) -> tuple[str, ...]:
    lines, now = [header], datetime.fromisoformat(f"{years[0]}-01-01T00:00{offset}")
    ends = "hour_ends" in header
    while now.year <= years[1]:
        sun = 400 if 8 <= now.hour < 16 else 0
        stamp = now + timedelta(hours=ends)
        values = {"ghi_w_m2": sun, "dhi_w_m2": sun // 2, "dni_w_m2": sun // 2, "air_c": now.month}
        words = (stamp.isoformat() if word.startswith("hour") else str(values[word]) for word in header.split(","))
        lines.append(",".join(words))
        now += timedelta(hours=1)
    return tuple(lines)


def plain(path: Path, years=(2021, 2021), change=list, header="hour_starts,ghi_w_m2,air_c", offset="+02:00") -> Path:
    path.write_text("\n".join(change(list(plain_lines(years, header, offset)))) + "\n", encoding="utf-8")
    return path


FULL = "air_c,hour_ends,dni_w_m2,ghi_w_m2,dhi_w_m2"


def test_plain_files_of_starts_and_of_ends_are_the_same_hours(tmp_path):
    begun = read_hours(plain(tmp_path / "a.csv"), 40, 25)
    ended = read_hours(plain(tmp_path / "b.csv", header="hour_ends,ghi_w_m2,air_c"), 40, 25)
    assert begun.hours.equals(ended.hours)
    assert str(begun.hours.index[0]) == "2021-01-01 00:30:00+02:00"
    weather = weather_of(begun, 0, 180)
    assert set(np.flatnonzero(weather.flat_w_m2[0, :24])) == set(range(8, 16))
    assert weather.air_c[0, -1] == 12
    assert any("no diffuse sun" in sentence for sentence in weather.limits)


def test_a_plain_file_of_four_years_with_beam_and_diffuse(tmp_path):
    record = read_hours(plain(tmp_path / "own.csv", (2019, 2022), header=FULL), 40, 25)
    assert set(record.hours.columns) == {"ghi", "dhi", "dni", "temp_air"}
    weather = weather_of(record, 40, 180)
    assert (weather.years, weather.name, record.typical) == (4, "own", False)
    assert not any((t.month, t.day) == (2, 29) for t in record.hours.index)
    assert not any("no diffuse sun" in sentence for sentence in weather.limits)
    months = np.array([weather.air_c[:, 24 * (sum(LENGTHS[:m]) + 5)] for m in range(12)])
    assert np.array_equal(months, np.tile(np.arange(1, 13)[:, None], 4)), "a leap year's months stand where others' do"
    on_it = sky.year_on_plane_kwh_m2(record.hours, 40, 25, 40, 180)
    assert weather.monthly_plane_kwh_m2.mean(axis=0) == pytest.approx(on_it, rel=1e-9)


def test_a_plain_file_may_leave_29_february_out_and_be_quoted(tmp_path):
    def leave_out(lines):
        return ['"hour_starts","ghi_w_m2","air_c"', *[x for x in lines[1:] if "-02-29T" not in x], ""]

    assert len(read_hours(plain(tmp_path / "a.csv", (2020, 2020), leave_out), 40, 25).hours) == 8760


AT = "2021-01-01T13:00+02:00"


def cell(line: int, text: str):
    return lambda lines: [*lines[:line], text, *lines[line + 1 :]]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (cell(14, f"{AT},much,5"), r"^own\.csv, line 15, column ghi_w_m2: 'much' is not a number; a"),
        (cell(14, f"{AT},,5"), "line 15, column ghi_w_m2: an empty value is not a number"),
        (cell(14, f"{AT},-11,5"), r"^own\.csv, the hour from 2021-01-01 13:00: ghi is -11.0 W/m²; "),
        (cell(14, f"{AT},nan,5"), "ghi is nan W/m²; allowed is 0 to 2000"),
        (cell(14, f"{AT},2001,5"), "ghi is 2001.0 W/m²"),
        (cell(14, f"{AT},400,61"), "temp_air is 61.0 °C; allowed is -70 to 60 °C$"),
        (cell(14, f"{AT},400"), r"^own\.csv, line 15: 2 values where the header has 3 columns$"),
        (cell(14, "2021-01-01T13:00,400,5"), "line 15, column hour_starts: '2021-01-01T13:00' is not a time with"),
        (cell(14, "1 p.m.,400,5"), "'1 p.m.' is not a time with its offset; wanted is one like 2021-01-01T00:00"),
        (cell(14, "2021-01-01T13:00+03:00,400,5"), "line 15, column hour_starts: the offset of .* standard time"),
        (cell(2, "2021-01-01T00:30+02:00,0,5"), "line 3, column hour_starts: '2021-01-01T00:30.* is not a full hour;"),
        (cell(14, "2021-01-01T12:00+02:00,400,5"), r"^own\.csv: the hour from 2021-01-01 12:00 is there twice; "),
        (cell(14, "2021-01-01T14:00+02:00,400,5"), r"^own\.csv: the hour from 2021-01-01 13:00 is missing or out"),
        (lambda lines: lines[:5000] + lines[5010:], "the hour from 2021-07-28 07:00 is missing or out of order"),
        (lambda lines: lines[:1] + lines[2:], "the hour from 2021-01-01 00:00 is missing"),
        (lambda lines: lines[:-1], "the hour from 2021-12-31 23:00 is missing"),
        (lambda lines: [*lines, "2022-01-01T00:00+02:00,0,5"], "the hour from 2022-01-01 01:00 is missing"),
        (lambda lines: lines[:1], r"^own\.csv has no hours; one or more whole years are wanted$"),
        (lambda lines: [lines[0], "2020-02-29T00:00+02:00,0,5"], "has no hours"),
        (cell(8760, "9999-12-31T23:00+02:00,0,5"), "is not in the years 1900 to 2100"),
        (cell(0, "hour_starts,ghi_w_m2,air_c,wind"), r"^own\.csv: the columns are hour_starts, ghi_w_m2, air_c, wind"),
        (cell(0, "hour_starts,ghi_w_m2"), "the columns are hour_starts, ghi_w_m2; wanted are hour_starts or"),
        (cell(0, "hour_starts,air_c,air_c"), "the columns are hour_starts, air_c, air_c; wanted are"),
        (cell(0, "hour_starts,hour_ends,air_c"), "the columns are hour_starts, hour_ends, air_c; wanted are"),
        (cell(0, "hour_starts,ghi_w_m2,air_c,dhi_w_m2"), "there is only one of dhi_w_m2 and dni_w_m2; both or neither"),
        (cell(0, "hour_starts;ghi_w_m2;air_c"), r"^own\.csv is not a file of hours that can be read; allowed are EPW"),
        (lambda _: [], "is not a file of hours that can be read"),
        (cell(14, f'"{AT},400,5'), r"own\.csv is not a plain CSV file \("),
    ],
)  # fmt: skip
def test_a_bad_plain_file_is_refused(tmp_path, change, says):
    with pytest.raises(DataError, match=says) as caught:
        read_hours(plain(tmp_path / "own.csv", change=change), 40, 25)
    assert "\n" not in str(caught.value)


def test_a_clock_far_from_the_sun_is_refused(tmp_path):
    path = plain(tmp_path / "utc.csv", offset="+00:00")
    assert len(read_hours(path, 10, 50).hours) == 8760
    with pytest.raises(
        DataError, match=r"^utc.csv: its clock is \+0 h from universal time, 5.3 h from the sun at -80°"
    ):
        read_hours(path, 10, -80)
    east = plain(tmp_path / "east.csv", offset="+12:00")
    assert len(read_hours(east, 10, -176).hours) == 8760, "the date line is no distance"


def test_a_plain_file_wants_a_place(tmp_path):
    path = plain(tmp_path / "own.csv")
    with pytest.raises(DataError, match=r"^own\.csv does not say where it is from; give a latitude and a longitude$"):
        read_hours(path)
    with pytest.raises(DataError, match="the longitude 225° is not between −180° and 180°"):
        read_hours(path, 40, 225)
    with pytest.raises(DataError, match="the latitude nan° is not"):
        read_hours(path, math.nan, 25)
    with pytest.raises(WorksheetError, match=r"^latitude, north positive: 70° is not between −66° and 66°$"):
        weather_of(read_hours(path, 70, 25), 40, 180)
    with pytest.raises(WorksheetError, match=r"^tilt of the array: 95°"):
        weather_of(read_hours(path, 40, 25), 95, 180)


def test_a_file_that_is_missing_huge_or_no_text(tmp_path, monkeypatch):
    with pytest.raises(DataError, match=r"^there is no file .*nowhere\.csv; a file of hours is wanted$"):
        read_hours(tmp_path / "nowhere.csv")
    with pytest.raises(DataError, match=r"^there is no file"):
        read_hours(tmp_path)
    path = plain(tmp_path / "own.csv")
    with monkeypatch.context() as patch:
        patch.setattr(records, "MOST_BYTES", 100_000)
        with pytest.raises(DataError, match=r"^own\.csv has 0 MB; at most 0\.1 MB can be read$"):
            read_hours(path, 40, 25)
    huge = tmp_path / "huge.csv"
    with huge.open("wb") as file:
        file.truncate(50_000_001)
    with pytest.raises(DataError, match=r"^huge\.csv has 50 MB; at most 50 MB can be read$"):
        read_hours(huge)
    (tmp_path / "latin.csv").write_bytes(path.read_bytes().replace(b",1\n", b",\xfc\n", 1))
    with pytest.raises(DataError, match=r"^latin\.csv is not a UTF-8 text file"):
        read_hours(tmp_path / "latin.csv", 40, 25)
    (tmp_path / "picture.png").write_bytes(bytes(range(256)) * 40)
    with pytest.raises(OffgridError, match=r"^picture\.png is not a file of hours that can be read"):
        read_hours(tmp_path / "picture.png")
