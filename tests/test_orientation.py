"""The best tilt and azimuth: against a plain search, against hours of real years, and where the load decides."""

import math

import numpy as np
import pytest
from published.sky_cases import YEAR_ON_THE_FLAT
from test_sky import a_year, place, year_of

from offgrid_core import data
from offgrid_core.errors import WorksheetError
from offgrid_core.sizing import orientation
from offgrid_core.sizing.orientation import ALL_ROUND_DEG, TILTS_DEG, best_for_load, best_for_year
from offgrid_core.sizing.sky import plane_kwh_m2, towards_equator_deg

STEADY = [1000.0] * 12
SUMMER = [0.0] * 5 + [1000.0] * 3 + [0.0] * 4
FILES = {"greensboro": "723170TYA.CSV", "miami": "12839.tm2"}


@pytest.mark.parametrize("key", ["greensboro", "kadoma", "hyderabad", "sand_point"])
@pytest.mark.parametrize("load", [STEADY, SUMMER, list(np.linspace(500, 1500, 12))])
def test_no_tilt_is_better(key, load):
    flat, latitude = place(key)
    shade = np.linspace(0.7, 1.0, 12)
    best = best_for_load(flat, latitude, load, shade, 0.4)
    hardest = {}
    for tilt in range(91):
        sunny = plane_kwh_m2(flat, latitude, tilt, towards_equator_deg(latitude), 0.4) * shade
        hardest[tilt] = max(w / s for w, s in zip(load, sunny, strict=True))
    assert best.tilt_deg == min(hardest, key=hardest.get)
    assert best.azimuth_deg == towards_equator_deg(latitude)
    assert np.array_equal(
        best.plane_by_month_kwh_m2, plane_kwh_m2(flat, latitude, best.tilt_deg, best.azimuth_deg, 0.4)
    )


def test_the_load_decides_not_the_sun():
    flat, latitude = place("greensboro")
    winter, summer = best_for_load(flat, latitude, STEADY), best_for_load(flat, latitude, SUMMER)
    assert winter.tilt_deg > latitude + 10
    assert summer.tilt_deg < latitude - 15
    assert summer.tilt_deg < best_for_year(flat, latitude).tilt_deg < winter.tilt_deg


def test_shade_decides_with_it():
    flat, latitude = place("greensboro")
    wooded_summer = [1.0] * 5 + [0.25] * 3 + [1.0] * 4
    assert best_for_load(flat, latitude, STEADY, wooded_summer).tilt_deg < 20


def test_only_the_proportions_of_the_load_count():
    flat, latitude = place("golden")
    load = np.linspace(300, 900, 12)
    assert best_for_load(flat, latitude, load).tilt_deg == best_for_load(flat, latitude, load * 7).tilt_deg


def test_a_roof_that_faces_away_is_laid_flatter():
    flat, latitude = place("greensboro")
    tilts = [best_for_load(flat, latitude, STEADY, azimuths_deg=[a]).tilt_deg for a in (180, 240, 270, 0)]
    assert tilts == sorted(tilts, reverse=True)
    assert tilts[-1] == 0
    assert best_for_load(flat, latitude, STEADY, azimuths_deg=[240]).azimuth_deg == 240


@pytest.mark.parametrize("key", ["golden", "pergamino"])
def test_looked_for_all_round_it_faces_the_equator(key):
    flat, latitude = place(key)
    found = best_for_load(flat, latitude, STEADY, azimuths_deg=ALL_ROUND_DEG)
    assert found.azimuth_deg == towards_equator_deg(latitude)
    assert found.tilt_deg == best_for_load(flat, latitude, STEADY).tilt_deg


def test_in_the_tropics_it_may_face_the_pole():
    flat, latitude = place("palmira")
    found = best_for_load(flat, latitude, SUMMER, azimuths_deg=ALL_ROUND_DEG)
    assert found.azimuth_deg == 0
    assert found.tilt_deg > 10
    assert best_for_load(flat, latitude, SUMMER).tilt_deg == 0


def test_of_equals_the_flattest_then_the_nearest_to_the_equator(monkeypatch):
    monkeypatch.setattr(orientation, "plane_kwh_m2", lambda *_: np.ones((len(TILTS_DEG), 12)))
    for latitude, equator in ((40, 180), (-40, 0)):
        for found in (
            best_for_load(STEADY, latitude, STEADY, azimuths_deg=ALL_ROUND_DEG),
            best_for_year(STEADY, latitude, azimuths_deg=ALL_ROUND_DEG),
        ):
            assert (found.tilt_deg, found.azimuth_deg) == (0, equator)


def test_flatter_goes_before_nearer_and_nearness_goes_round_north(monkeypatch):
    def plane(_flat, _latitude, tilts, azimuth, _ground):
        enough = np.where(tilts >= (30 if azimuth == 0 else 20), 1.0, 0.5)
        return enough[:, None] * np.ones(12)

    monkeypatch.setattr(orientation, "plane_kwh_m2", plane)
    found = best_for_load(STEADY, -40, STEADY, azimuths_deg=[20, 350, 0])
    assert (found.tilt_deg, found.azimuth_deg) == (20, 350)


def test_float_noise_breaks_no_tie(monkeypatch):
    noise = np.linspace(0, 1e-12, len(TILTS_DEG))[:, None]
    monkeypatch.setattr(orientation, "plane_kwh_m2", lambda *_: np.ones(12) + noise)
    assert best_for_load(STEADY, 40, STEADY).tilt_deg == 0
    assert best_for_year(STEADY, 40).tilt_deg == 0


@pytest.mark.parametrize("key", FILES)
def test_a_tilt_chosen_from_monthly_means_is_as_good_as_one_chosen_from_hours(key):
    here = a_year(FILES[key])
    by_hours = {tilt: here.on(tilt) for tilt in range(0, 91, 10)}
    chosen = here.on(best_for_load(here.flat, here.latitude, STEADY).tilt_deg)
    assert min(chosen) >= 0.98 * max(min(months) for months in by_hours.values())
    chosen = here.on(best_for_year(here.flat, here.latitude).tilt_deg)
    assert year_of(chosen) >= 0.998 * max(map(year_of, by_hours.values()))


@pytest.mark.parametrize("key", YEAR_ON_THE_FLAT)
def test_year_s_mean_of_a_shipped_place(key):
    mean = orientation.year_mean_kwh_m2(data.site(key).ghi_by_month_kwh_m2)
    assert mean == pytest.approx(YEAR_ON_THE_FLAT[key], rel=2e-3)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"load_by_month_wh": STEADY[:11]}, "^mean energy .* a day: one value or twelve are needed, not 11$"),
        ({"load_by_month_wh": [-1.0, *STEADY[1:]]}, "^mean energy .* a day: −1 Wh is not between 0 Wh and"),
        ({"load_by_month_wh": [math.nan, *STEADY[1:]]}, "^mean energy .* a day: not a number is not between"),
        ({"load_by_month_wh": [0.0] * 12}, "^load by month: all twelve are 0 Wh; at least one above 0 is wanted$"),
        ({"shade_by_month_frac": 0.0}, "^share left by shade: 0 % is not between 5 % and 100 %$"),
        ({"shade_by_month_frac": [0.5] * 11}, "^share left by shade: one value or twelve are needed, not 11$"),
        ({"azimuths_deg": [180, 400]}, "^azimuth of the array, clockwise from north: 400° is not between"),
        ({"azimuths_deg": []}, "^azimuths: the list is empty; at least one to choose from is wanted$"),
        ({"latitude_deg": -70}, "^latitude, north positive: −70° is not"),
        ({"flat_kwh_m2": STEADY[:11]}, "^sun by month: twelve values are needed, not 11$"),
    ],
)
def test_refused(changed, says):
    flat, latitude = place("greensboro")
    with pytest.raises(WorksheetError, match=says):
        best_for_load(**{"flat_kwh_m2": flat, "latitude_deg": latitude, "load_by_month_wh": STEADY} | changed)
