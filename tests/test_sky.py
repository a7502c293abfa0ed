"""Sun on a tilted, turned array: against the books, against hours of real years, and against itself turned round."""

import math
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter

import numpy as np
import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import sky_cases as book
from published.sun_cases import GROUND, MADISON

from offgrid_core import data
from offgrid_core.errors import WorksheetError
from offgrid_core.sizing import sky, sun

ROOT = Path(__file__).resolve().parents[1]
MJ_IN_KWH = 3.6
LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MADISON_FLAT = np.array([row[0] for row in MADISON.values()]) / MJ_IN_KWH
PLACES = ("greensboro", "miami", "golden", "palmira", "kadoma", "pergamino")


def place(key: str) -> tuple[np.ndarray, float]:
    site = data.site(key)
    return np.array(site.ghi_by_month_kwh_m2), site.latitude_deg


def ids(row) -> str:
    return str(row[0])


# ---- one hour: the book's examples


def test_sun_position_of_the_book():
    _, latitude, day, hour_angle, zenith, azimuth = book.SUN_POSITION
    found = sky.sun_position_deg(latitude, sun.declination_deg(day), hour_angle)
    assert found == pytest.approx((zenith, azimuth), rel=5e-4)


def test_angle_of_incidence_of_the_book():
    _, latitude, slope, azimuth, day, hour_angle, degrees = book.INCIDENCE
    position = sky.sun_position_deg(latitude, sun.declination_deg(day), hour_angle)
    assert pvlib.irradiance.aoi(slope, azimuth, *position) == pytest.approx(degrees, rel=5e-4)


def test_the_split_of_an_hour_is_that_of_pvlib():
    draw = np.random.default_rng(7)
    zenith, day = draw.uniform(0, 120, 20_000), draw.integers(1, 366, 20_000)
    flat = draw.uniform(0, 1.1, 20_000) * 1367 * np.maximum(np.cos(np.radians(zenith)), 0.02)
    theirs = pvlib.irradiance.erbs(flat, zenith, day)
    beam, diffuse = sky.beam_and_diffuse_w_m2(flat, zenith, day)
    assert beam == pytest.approx(theirs["dni"], rel=1e-9, abs=1e-9)
    assert diffuse == pytest.approx(theirs["dhi"], rel=1e-9)


@given(st.floats(-89, 89), st.floats(-23.4, 23.4), st.floats(-179, 179))
def test_sun_position_is_that_of_pvlib(latitude, declination, hour_angle):
    zenith, azimuth = sky.sun_position_deg(latitude, declination, hour_angle)
    at = [math.radians(x) for x in (latitude, hour_angle, declination)]
    with np.errstate(invalid="ignore"):  # right above, theirs rounds to a cosine above 1
        wanted = np.nan_to_num(pvlib.solarposition.solar_zenith_analytical(*at))
    assert math.radians(zenith) == pytest.approx(wanted, abs=1e-6)
    if 0.01 < wanted < math.pi - 0.01 and abs(hour_angle) > 0.01:  # right above, and at noon, theirs may turn round
        assert azimuth == pytest.approx(
            math.degrees(pvlib.solarposition.solar_azimuth_analytical(*at, wanted)), abs=0.02
        )


@given(st.floats(0, 90), st.floats(0, 360), st.floats(0, 90), st.floats(0, 360), st.floats(0, 1), st.floats(0, 1))
def test_sun_on_a_plane_is_that_of_pvlib(zenith, azimuth, tilt, facing, diffuse, ground):
    beam = 0.8
    flat = diffuse + beam * max(math.cos(math.radians(zenith)), 0)
    found = sky.on_plane((zenith, azimuth), beam, flat, diffuse, tilt, facing, ground)
    theirs = pvlib.irradiance.get_total_irradiance(tilt, facing, zenith, azimuth, beam, flat, diffuse, albedo=ground)
    assert found == pytest.approx(theirs["poa_global"], abs=1e-9)


@pytest.mark.parametrize("row", book.BEAM_RATIOS, ids=ids)
def test_beam_ratio_of_the_book(row):
    _, latitude, slope, azimuth, day, hour_angle, ratio = row
    position = sky.sun_position_deg(latitude, sun.declination_deg(day), hour_angle)
    square_to_beam = 1 / math.cos(math.radians(position[0]))
    assert sky.on_plane(position, square_to_beam, 1, 0, slope, azimuth, 0) == pytest.approx(ratio, rel=5e-4)


@pytest.mark.parametrize("row", book.HOUR_SHARES, ids=ids)
def test_share_of_the_day_in_an_hour(row):
    _, latitude, day, hour_angle, share = row
    sunset = sun.sunset_deg(latitude, sun.declination_deg(day))
    assert sky.hour_share(hour_angle, sunset) == pytest.approx(share, rel=1e-3)


def test_share_of_the_diffuse_sun_in_an_hour():
    _, latitude, day, hour_angle, share = book.HOUR_SHARE_OF_DIFFUSE
    sunset = sun.sunset_deg(latitude, sun.declination_deg(day))
    assert sky.hour_share_of_diffuse(hour_angle, sunset) == pytest.approx(share, rel=1e-3)


def test_an_hour_of_june_at_madison():
    latitude, june, hour_angle, *expected = book.MADISON_JUNE_HOUR
    flat = MADISON_FLAT.copy()
    flat[5] = june / MJ_IN_KWH
    days = sky.mean_days(flat, latitude)
    hourly = [np.interp(hour_angle, days.hour_angle_deg[5], x[5]) for x in (days.flat_kw_m2, days.diffuse_kw_m2)]
    whole, diffuse = np.array(hourly) * MJ_IN_KWH
    assert (whole, diffuse, whole - diffuse) == pytest.approx(expected, rel=0.01)


def test_a_winter_morning_hour_on_a_slope():
    """Ex 2.15.1: from the hour's global sun to what reaches the slope."""
    x = book.EX_2_15_1
    declination = sun.declination_deg(x["day"])
    sunset = sun.sunset_deg(x["latitude"], declination)
    share = sky.hour_share_of_diffuse(x["hour angle"], sunset)
    above = share * sun.extraterrestrial_kwh_m2(x["latitude"], x["day"]) * MJ_IN_KWH
    assert above == pytest.approx(x["TR037 above the air"], rel=0.01)

    position = sky.sun_position_deg(x["latitude"], declination, x["hour angle"])
    flat = x["global"] / MJ_IN_KWH * 1000
    split = sky.beam_and_diffuse_w_m2(flat, position[0], x["day"])
    assert split[1] / flat == pytest.approx(x["TR039 diffuse share"], rel=0.01)

    def reaching(flat, beam, diffuse, ground):
        return sky.on_plane(position, beam, flat, diffuse, x["slope"], 180, ground) / 1000 * MJ_IN_KWH

    book_s = flat * x["TR039 diffuse share"]
    beam = (flat - book_s) / math.cos(math.radians(position[0]))
    assert reaching(0, beam, 0, 0) == pytest.approx(x["TR041 beam on slope"], rel=0.01)
    assert reaching(0, 0, book_s, 0) == pytest.approx(x["TR042 diffuse on slope"], rel=0.01)
    for parts in ((beam, book_s), split):
        assert reaching(flat, *parts, x["ground"]) == pytest.approx(x["TR044 all on slope"], rel=0.01)


@pytest.mark.parametrize("row", book.SUNSETS, ids=ids)
def test_sunset(row):
    _, latitude, day, degrees = row
    assert sun.sunset_deg(latitude, sun.declination_deg(day)) == pytest.approx(degrees, abs=0.006)


def test_monthly_diffuse_share_of_june_at_madison():
    clearness, sunset, share = book.MADISON_JUNE_DIFFUSE
    assert sun.diffuse_share(clearness, sunset) == pytest.approx(share, abs=5e-4)


@pytest.mark.parametrize("latitude", book.ABOVE_THE_AIR_BY_MONTH)
def test_rows_above_the_air_by_month(latitude):
    ends = np.cumsum(LENGTHS)
    for month, printed in enumerate(book.ABOVE_THE_AIR_BY_MONTH[latitude]):
        days = np.arange(ends[month] - LENGTHS[month], ends[month]) + 1
        if printed is not None:
            mean = np.mean(sun.extraterrestrial_kwh_m2(latitude, days)) * MJ_IN_KWH
            assert mean == pytest.approx(printed, abs=0.06), f"month {month + 1}"


# ---- the mean days


@given(
    latitude=st.floats(-66, 66),
    clearness=st.lists(st.floats(0, 0.85), min_size=12, max_size=12),
)
def test_the_day_s_sum_is_the_month_s_mean_and_no_beam_is_negative(latitude, clearness):
    flat = np.array(clearness) * sun.extraterrestrial_kwh_m2(latitude, sun.MEAN_DAYS)
    days = sky.mean_days(flat, latitude)
    assert np.sum(days.flat_kw_m2 * days.step_h, axis=1) == pytest.approx(flat, rel=1e-12)
    _, diffuse = sun.flat_and_diffuse_kwh_m2(flat, latitude)
    assert np.sum(days.diffuse_kw_m2 * days.step_h, axis=1) == pytest.approx(diffuse, rel=1e-12)
    assert np.all(days.flat_kw_m2 - days.diffuse_kw_m2 >= -1e-12)


@pytest.mark.parametrize(("tilt", "azimuth"), [(36, 180), (60, 90), (90, 0), (90, 180), (75, 230)])
def test_steps_are_fine_enough(monkeypatch, tilt, azimuth):
    flat, latitude = place("greensboro")
    ours = sky.plane_kwh_m2(flat, latitude, tilt, azimuth)
    monkeypatch.setattr(sky, "STEPS", 4000)
    assert ours == pytest.approx(sky.plane_kwh_m2(flat, latitude, tilt, azimuth), rel=3e-4)


# ---- independent ways to the same number


@pytest.mark.parametrize("latitude", [60, 43, 20, 0, -20, -43, -60])
@pytest.mark.parametrize("tilt", [0, 15, 45, 60, 90])
def test_with_the_profile_of_klein_it_is_klein_s_method(monkeypatch, latitude, tilt):
    """Klein's beam ratio is the exact integral if the sun's profile is that above the air."""
    flat = 0.5 * sun.extraterrestrial_kwh_m2(latitude, sun.MEAN_DAYS)
    monkeypatch.setattr(sky, "hour_share", sky.hour_share_of_diffuse)
    ours = sky.plane_kwh_m2(flat, latitude, tilt, sky.towards_equator_deg(latitude), GROUND)
    assert ours == pytest.approx(sun.plane_kwh_m2(flat, latitude, tilt, GROUND), rel=1e-3)


@pytest.mark.parametrize("azimuth", [0, 37, 90, 180, 200, 300, 360])
@pytest.mark.parametrize("latitude", [52, 10, -34])
def test_against_plain_vectors(latitude, azimuth):
    """The same mean days by unit vectors (east, north, up) in place of pvlib."""
    tilt = 55.0
    flat = 0.5 * sun.extraterrestrial_kwh_m2(latitude, sun.MEAN_DAYS)
    days = sky.mean_days(flat, latitude)
    lat, dec, hour = np.radians(latitude), np.radians(sun.declination_deg(sun.MEAN_DAYS))[:, None], days.hour_angle_deg
    hour = np.radians(hour)
    east = -np.cos(dec) * np.sin(hour)
    north = np.sin(dec) * np.cos(lat) - np.cos(dec) * np.sin(lat) * np.cos(hour)
    up = np.sin(dec) * np.sin(lat) + np.cos(dec) * np.cos(lat) * np.cos(hour)
    t, a = np.radians(tilt), np.radians(azimuth)
    facing = np.maximum(east * np.sin(t) * np.sin(a) + north * np.sin(t) * np.cos(a) + up * np.cos(t), 0)
    beam = (days.flat_kw_m2 - days.diffuse_kw_m2) / up * facing
    rest = days.diffuse_kw_m2 * (1 + np.cos(t)) / 2 + days.flat_kw_m2 * 0.3 * (1 - np.cos(t)) / 2
    expected = np.sum((beam + rest) * days.step_h, axis=1)
    assert sky.plane_kwh_m2(flat, latitude, tilt, azimuth, 0.3) == pytest.approx(expected, rel=1e-6)


def test_many_planes_at_once_are_each_plane():
    flat, latitude = place("golden")
    tilts, azimuths = np.array([0.0, 30, 90])[:, None], np.array([0.0, 100, 180, 300])
    many = sky.plane_kwh_m2(flat, latitude, tilts, azimuths, GROUND)
    assert many.shape == (3, 4, 12)
    for i, tilt in enumerate(tilts[:, 0]):
        for j, azimuth in enumerate(azimuths):
            assert many[i, j] == pytest.approx(sky.plane_kwh_m2(flat, latitude, tilt, azimuth, GROUND), rel=1e-12)


# ---- turned round


@pytest.mark.parametrize("key", PLACES)
def test_a_flat_plane_gets_the_flat_sun_whichever_way_it_faces(key):
    flat, latitude = place(key)
    assert sky.plane_kwh_m2(flat, latitude, 0, [0, 77, 180, 300]) == pytest.approx(np.tile(flat, (4, 1)), rel=1e-9)


@pytest.mark.parametrize("key", PLACES)
@pytest.mark.parametrize("tilt", [10, 45, 90])
def test_east_and_west_are_alike(key, tilt):
    flat, latitude = place(key)
    turned = np.array([1, 45, 90, 135, 179])
    east, west = (sky.plane_kwh_m2(flat, latitude, tilt, azimuth) for azimuth in (180 - turned, 180 + turned))
    assert east == pytest.approx(west, rel=1e-9)


def test_an_upright_plane_facing_the_pole_in_winter_gets_only_diffuse_sun():
    flat, diffuse = sun.flat_and_diffuse_kwh_m2(MADISON_FLAT, 43)
    pole = sky.plane_kwh_m2(MADISON_FLAT, 43, 90, 0, 0.0)
    winter = [0, 1, 10, 11]
    assert pole[winter] == pytest.approx(diffuse[winter] / 2, rel=1e-9)
    assert pole[5] > diffuse[5] / 2 * 1.05, "in June the sun rises and sets on that side"
    assert sky.plane_kwh_m2(MADISON_FLAT, 43, 90, 0, 0.3)[0] == pytest.approx(diffuse[0] / 2 + 0.15 * flat[0])


@pytest.mark.parametrize("latitude", [10, 25, 40])
@pytest.mark.parametrize(("tilt", "azimuth"), [(20, 180), (60, 180), (90, 180), (40, 120), (90, 60)])
def test_a_mirrored_place_has_the_same_sun_half_a_year_later(latitude, tilt, azimuth):
    """Under skies as clear; the mean days are not quite half a year apart."""
    above = sun.extraterrestrial_kwh_m2(latitude, sun.MEAN_DAYS)
    below = sun.extraterrestrial_kwh_m2(-latitude, sun.MEAN_DAYS)
    clear = np.linspace(0.35, 0.65, 12)
    north = sky.plane_kwh_m2(clear * above, latitude, tilt, azimuth) / (clear * above)
    turned = np.roll(clear, 6) * below
    south = np.roll(sky.plane_kwh_m2(turned, -latitude, tilt, 180 - azimuth) / turned, 6)
    assert south == pytest.approx(north, rel=0.03)
    assert np.mean(south) == pytest.approx(np.mean(north), rel=0.01)


def test_which_way_the_equator_lies():
    assert [sky.towards_equator_deg(x) for x in (50, 0, -0.1, -50)] == [180, 180, 0, 0]
    for key in ("greensboro", "pergamino"):
        flat, latitude = place(key)
        towards, away = sky.plane_kwh_m2(
            flat, latitude, 40, [sky.towards_equator_deg(latitude), (180 * (latitude < 0))]
        )
        assert np.all(towards > away)


# ---- refusals


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        (
            {"flat_kwh_m2": [*MADISON_FLAT[:11], math.nan]},
            "^sun by month: nan kWh/m² in month 12 is not between",
        ),
        ({"flat_kwh_m2": MADISON_FLAT[:11]}, "^sun by month: twelve values are needed, not 11$"),
        (
            {"flat_kwh_m2": MADISON_FLAT * 3},
            r"is not between 0 and 3\.\d\d kWh/m², which arrives above",
        ),
        ({"flat_kwh_m2": -MADISON_FLAT}, "month 1 is not between 0 and"),
        ({"azimuth_deg": 400}, "^azimuth of the array, clockwise from north: 400° is not between 0° and 360°$"),
        ({"azimuth_deg": [180, -10]}, "^azimuth of the array, clockwise from north: −10° is not between 0° and 360°$"),
        ({"azimuth_deg": math.nan}, "^azimuth of the array, clockwise from north: not a number is not between"),
        ({"tilt_deg": -5}, "^tilt of the array: −5° is not between 0° and 90°$"),
        ({"tilt_deg": np.array([10.0, 91])}, "^tilt of the array: 91° is not"),
        ({"latitude_deg": 67}, "^latitude, north positive: 67° is not between −66° and 66°$"),
        ({"latitude_deg": math.nan}, "^latitude, north positive: not a number"),
        ({"ground": 1.5}, "^sunlight the ground throws back: 150 % is not between 0 % and 90 %$"),
        ({"ground": [0.2] * 11}, "^sunlight the ground throws back: one value or twelve are needed, not 11$"),
    ],
)
def test_a_refusal_says_place_value_and_what_is_allowed(changed, says):
    good = {"flat_kwh_m2": MADISON_FLAT, "latitude_deg": 43, "tilt_deg": 60, "azimuth_deg": 180, "ground": 0.2}
    assert sky.plane_kwh_m2(**good).shape == (12,)
    with pytest.raises(WorksheetError, match=says):
        sky.plane_kwh_m2(**good | changed)


def test_the_caution_stands_where_the_monthly_means_may_not_be_trusted():
    assert sky.midwinter_caution(50) == ""
    assert sky.midwinter_caution(-42) == ""
    assert sky.midwinter_caution(-55).startswith("Beyond 50° of latitude, midwinter sun")
    assert "mean day of each month" in sky.midwinter_caution(55)
    assert "hour by hour come out too low" in sky.midwinter_caution(55)
    assert sky.midwinter_caution(50.1) == sky.midwinter_caution(-66)


# ---- hours of real years


@dataclass(frozen=True)
class Year:
    """A real year that comes with pvlib, public domain, and its monthly means."""

    hours: pd.DataFrame
    latitude: float
    longitude: float
    flat: np.ndarray

    def on(self, tilt: float, azimuth: float = 180, **more) -> np.ndarray:
        return sky.year_on_plane_kwh_m2(self.hours, self.latitude, self.longitude, tilt, azimuth, **more)


def a_year(file: str) -> Year:
    path = Path(pvlib.__file__).parent / "data" / file
    if path.suffix == ".tm2":
        read, about = pvlib.iotools.read_tmy2(path)
        hours, middle = read.rename(columns=str.lower), pd.Timedelta("30min")
    else:
        hours, about = pvlib.iotools.read_tmy3(path, coerce_year=1990, map_variables=True)
        middle = -pd.Timedelta("30min")
    hours = hours[["ghi", "dhi", "dni"]].set_index(hours.index + middle)
    flat = hours["ghi"].groupby(hours.index.month).mean().to_numpy() * 0.024
    return Year(hours, about["latitude"], about["longitude"], flat)


@pytest.fixture(scope="module")
def years() -> dict[str, Year]:
    files = {"greensboro": "723170TYA.CSV", "miami": "12839.tm2", "sand_point": "703165TY.csv"}
    return {key: a_year(file) for key, file in files.items()}


def year_of(by_month) -> float:
    return float(np.average(by_month, weights=LENGTHS))


@pytest.mark.parametrize("key", book.YEAR_ON_THE_PLANE)
def test_a_real_year_on_the_plane_to_the_printed_digits(years, key):
    printed, _ = book.YEAR_ON_THE_PLANE[key]
    assert f"{year_of(years[key].on(years[key].latitude)):.3f}" == printed


def test_months_of_a_real_year_on_the_plane(years):
    hourly, by_means = book.MONTHS_ON_THE_PLANE["greensboro"]
    here = years["greensboro"]
    assert here.on(here.latitude) == pytest.approx(hourly, abs=0.0051)
    assert sun.plane_kwh_m2(here.flat, here.latitude, here.latitude) == pytest.approx(by_means, abs=0.0051)


@pytest.mark.parametrize("key", book.YEAR_ON_THE_PLANE)
def test_the_isotropic_sky_is_the_cautious_one(years, key):
    """The sky of Perez (by pvlib alone) gives 0 to 10 % more."""
    here, (_, perez) = years[key], book.YEAR_ON_THE_PLANE[key]
    place = pvlib.solarposition.get_solarposition(here.hours.index, here.latitude, here.longitude)
    brighter = pvlib.irradiance.get_total_irradiance(
        here.latitude, 180, place["apparent_zenith"], place["azimuth"],
        here.hours["dni"], here.hours["ghi"], here.hours["dhi"], albedo=0.2, model="perez",
        dni_extra=pvlib.irradiance.get_extra_radiation(here.hours.index),
        airmass=pvlib.atmosphere.get_relative_airmass(place["apparent_zenith"]),
    )["poa_global"]  # fmt: skip
    by_month = brighter.fillna(0).groupby(brighter.index.month).mean().to_numpy() * 0.024
    assert year_of(by_month) == pytest.approx(perez, rel=5e-4)
    more = by_month / here.on(here.latitude) - 1
    assert 0 < year_of(by_month) / year_of(here.on(here.latitude)) - 1 < 0.10
    assert np.all((more > -0.015) & (more < 0.10)), "in a summer month it can be a per cent less"


@pytest.mark.parametrize("key", ["greensboro", "miami"])
@pytest.mark.parametrize("tilt", ["flat", "latitude", "latitude + 15", 60, 90])
def test_monthly_means_against_hours_inside_their_validity(years, key, tilt):
    here = years[key]
    tilt = {"flat": 0, "latitude": here.latitude, "latitude + 15": here.latitude + 15}.get(tilt, tilt)
    real, ours = here.on(tilt), sky.plane_kwh_m2(here.flat, here.latitude, tilt, 180)
    klein = sun.plane_kwh_m2(here.flat, here.latitude, tilt)
    assert ours == pytest.approx(real, rel=0.15 if tilt == 90 else 0.12)
    assert klein == pytest.approx(real, rel=0.12 if tilt <= here.latitude else 0.20)
    assert year_of(ours) == pytest.approx(year_of(real), rel=0.04)
    assert year_of(klein) == pytest.approx(year_of(real), rel=0.04)
    if tilt:
        assert np.mean(np.abs(ours / real - 1)) < np.mean(np.abs(klein / real - 1)), "why the plan uses ours"


@pytest.mark.parametrize("key", ["greensboro", "miami"])
@pytest.mark.parametrize("azimuth", [0, 90, 135, 225, 270])
def test_turned_planes_against_hours(years, key, azimuth):
    here = years[key]
    real, ours = here.on(30, azimuth), sky.plane_kwh_m2(here.flat, here.latitude, 30, azimuth)
    assert year_of(ours) == pytest.approx(year_of(real), rel=0.06), "clouds of the afternoon are not in the means"
    assert ours == pytest.approx(real, rel=0.12 if azimuth else 0.16), "to the pole a winter month has little beam"


def test_beyond_fifty_degrees_the_caution_is_earned(years):
    here = years["sand_point"]
    more = sky.plane_kwh_m2(here.flat, here.latitude, 60, 180) / here.on(60) - 1
    assert 0.25 < more[0] < 0.40, "a third too high in January"
    assert np.all(np.abs(more[3:9]) < 0.05), "from April to September it holds there too"
    assert year_of(sky.plane_kwh_m2(here.flat, here.latitude, 60, 180)) == pytest.approx(year_of(here.on(60)), rel=0.05)


@pytest.mark.parametrize("key", book.YEAR_BY_MONTHLY_METHOD)
def test_a_shipped_place_by_the_monthly_method(key):
    flat, latitude = place(key)
    by_means = sun.plane_kwh_m2(flat, latitude, latitude)
    assert year_of(by_means) == pytest.approx(book.YEAR_BY_MONTHLY_METHOD[key], rel=3e-3)


def test_tucson_from_its_shipped_means_against_its_hours():
    hourly, by_means = (np.array(x, float) for x in book.MONTHS_ON_THE_PLANE["tucson"])
    flat, latitude = place("tucson")
    known = ~np.isnan(hourly)
    assert sky.plane_kwh_m2(flat, latitude, latitude, 180)[known] == pytest.approx(hourly[known], rel=0.03)
    assert sun.plane_kwh_m2(flat, latitude, latitude)[known] == pytest.approx(by_means[known], abs=0.011)


def test_hours_with_global_sun_alone_are_split(years):
    here = years["greensboro"]
    alone = sky.year_on_plane_kwh_m2(here.hours[["ghi"]], here.latitude, here.longitude, 36, 180)
    assert alone == pytest.approx(here.on(36), rel=0.10)
    assert year_of(alone) == pytest.approx(year_of(here.on(36)), rel=0.03)
    position = pvlib.solarposition.get_solarposition(here.hours.index, here.latitude, here.longitude)
    split = pvlib.irradiance.erbs(here.hours["ghi"], position["zenith"], here.hours.index)
    whole = here.hours.assign(dni=split["dni"], dhi=split["dhi"])
    assert alone == pytest.approx(Year(whole, here.latitude, here.longitude, here.flat).on(36), rel=1e-9)


def test_hours_on_the_flat_and_months_of_ground(years):
    here = years["miami"]
    assert here.on(0) == pytest.approx(here.flat, rel=0.011), "the file's own three columns close to 1 %"
    ground = [0.2, *[0.7] * 11]
    snowy, bare = here.on(60, ground=ground), here.on(60)
    assert snowy[0] == bare[0]
    assert snowy[1:] - bare[1:] == pytest.approx(here.flat[1:] * 0.5 * 0.25, rel=1e-6)


def test_summer_time_is_no_gap(years):
    here = years["greensboro"]
    moved = Year(here.hours.tz_convert("America/New_York"), here.latitude, here.longitude, here.flat)
    assert moved.on(36) == pytest.approx(here.on(36), rel=5e-3)


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda h: h.tz_localize(None), "^hours: the times have no time zone; the middle of each hour is wanted"),
        (lambda h: h.reset_index(drop=True), "^hours: the times have no time zone"),
        (lambda h: h.drop(columns="dni"), "^hours: the columns are ghi, dhi; ghi, dhi and dni are wanted, or"),
        (lambda h: h.drop(columns="ghi"), "^hours: the columns are dhi, dni; "),
        (lambda h: h[[]], "^hours: the columns are none; "),
        (lambda h: h.replace(h["ghi"].iloc[12], math.nan), "^hours, 1990-01-01 12:30:00-05:00: ghi is nan W/m²; "),
        (lambda h: h - 1, "ghi is -1 W/m²; allowed is 0 to 2000$"),
        (lambda h: h[h.index.month != 8], "^hours: the record has gaps in August; every hour of the day is wanted"),
        (lambda h: h[(h.index.month != 5) | (h.index.day < 30) | (h.index.hour != 12)], "gaps in May; "),
        (lambda h: h[h["ghi"] > 0], "^hours: the record has gaps in January"),
        (lambda h: h[h.index.hour % 3 == 0], "^hours: the record has gaps in January"),
        (lambda h: h.iloc[:0], "^hours: the record has gaps in January"),
    ],
)  # fmt: skip
def test_a_record_is_refused(years, spoil, says):
    here = years["greensboro"]
    with pytest.raises(WorksheetError, match=says):
        sky.year_on_plane_kwh_m2(spoil(here.hours), here.latitude, here.longitude, 30, 180)


# ---- speed and weight


def test_pvlib_is_loaded_only_when_it_is_wanted():
    code = (
        "import sys; from offgrid_core.year.sequence import generated; "
        "generated([5.0] * 12, 25.0, 3, 10, 180, ground=0.2, years=1, seed=1); "
        "print('pvlib' in sys.modules, 'pandas' in sys.modules)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert ran.stdout.split() == ["False", "False"]


def test_fast_enough_for_a_slider(capsys):
    flat, latitude = place("greensboro")
    sky.plane_kwh_m2(flat, latitude, 30, 180)

    def least_ms(tilts) -> float:
        times = []
        for _ in range(5):
            begun = perf_counter()
            sky.plane_kwh_m2(flat, latitude, tilts, 180)
            times.append(1000 * (perf_counter() - begun))
        return min(times)

    one, all_tilts = least_ms(30), least_ms(np.arange(91.0))
    with capsys.disabled():
        print(f"\nsun on a plane: {one:.1f} ms for one tilt, {all_tilts:.1f} ms for 91")
    assert one <= 10
    assert all_tilts <= 50
