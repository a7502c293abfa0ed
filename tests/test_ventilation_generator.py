"""The battery room's air and the backup generator: signs, ends and turns that a published number does not show."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.ventilation import DILUTION, FARADAY, VENTILATION

# ---- air

ROOM = {"cells_count": 24, "gas_ma_ah": 20, "bank_ah": 500, "room_m3": 20, "unit_v": 6, "unit_ah": 250,
        "cells_12v_count": 6, "opening_cm2": 400}  # fmt: skip
HOT = {"gas_temp_c": 25, "gas_ma_ah": 2.4, "battery_hot_c": 25, "gas_doubling_k": 15 / 1.8, "bank_ah": 1360,
       "cells_count": 182, "hydrogen_limit_frac": 0.01, "banks_count": 1, "ventilation_factor": 1,
       "room_m3": 226}  # fmt: skip


def test_an_opening_too_small_is_a_danger():
    assert VENTILATION.solve(ROOM)["opening_margin_cm2"] == pytest.approx(400 - 336)
    found = VENTILATION.solve(ROOM | {"opening_cm2": 335})
    assert found.broken()["opening_margin_cm2"]
    assert VENTILATION["opening_margin_cm2"].severity == "danger"


def test_no_gas_wants_no_opening_and_says_what_a_fault_does():
    row = data.gas_current("lfp", "boost")
    solved = VENTILATION.solve(ROOM | {"gas_ma_ah": row.gas_ma_ah, "opening_cm2": 0})
    assert (solved["opening_needed_cm2"], solved["spark_free_mm"]) == (0, 0)
    assert not solved.broken()["opening_margin_cm2"]
    assert "fault" in row.note


def test_vented_cells_gas_most_and_boosting_gases_more_than_floating():
    gas = {
        (k, m): data.gas_current(k, m).gas_ma_ah for k in ("flooded", "agm", "gel", "lfp") for m in ("float", "boost")
    }
    assert gas["flooded", "boost"] > gas["agm", "boost"] == gas["gel", "boost"] > gas["lfp", "boost"] == 0
    assert all(gas[k, "boost"] >= gas[k, "float"] for k, _ in gas)


def test_the_standard_s_rounding_is_that_of_faraday_at_freezing():
    solved = FARADAY.solve({"gas_temp_c": 0, "dilution_ratio": 24, "gas_safety_factor": 5})
    assert solved["air_each_m3_ah"] == pytest.approx(0.05, rel=0.01)
    one = VENTILATION.upto("air_needed_m3_h").solve({"cells_count": 1, "gas_ma_ah": 1000, "bank_ah": 1})
    assert one["air_needed_m3_h"] == 0.05


@pytest.mark.parametrize(("celsius", "times"), [(-20, 1), (25, 1), (25 + 15 / 1.8, 2), (25 + 30 / 1.8, 4)])
def test_heat_doubles_the_gassing_and_cold_is_never_credited(celsius, times):
    solved = DILUTION.solve(HOT | {"battery_hot_c": celsius})
    assert solved["gas_hot_ma_ah"] == pytest.approx(2.4 * times)


@given(st.floats(1, 100), st.floats(10, 2000), st.floats(1.01, 3))
def test_more_cells_amp_hours_or_gassing_never_want_less_air(gas, ah, more):
    base = ROOM | {"gas_ma_ah": gas / 3, "bank_ah": ah}
    least = VENTILATION.solve(base)
    for name in ("gas_ma_ah", "bank_ah", "cells_count"):
        moved = VENTILATION.solve(base | {name: base[name] * more})
        assert moved["opening_needed_cm2"] == pytest.approx(more * least["opening_needed_cm2"])
        assert moved["opening_margin_cm2"] < least["opening_margin_cm2"]


def test_eight_times_the_gas_keeps_sparks_twice_as_far():
    near = VENTILATION.solve(ROOM)
    assert near["block_cells_count"] == 3
    far = VENTILATION.solve(ROOM | {"unit_ah": 2000})
    assert far["spark_free_mm"] == pytest.approx(2 * near["spark_free_mm"])


# ---- generator

SET = {
    "charger_rated_a": 60,
    "generator_stop_frac": 0.85, "generator_start_frac": 0.5, "bank_ah": 400, "charge_rate_max_per_h": 0.125,
    "absorb_set_v": 58.8, "charger_eff_frac": 0.9, "generator_other_w": 0, "charger_pf_ratio": 0.8,
    "peak_va": 1000, "peak_w": 700,
    "derate_altitude_frac": 0.035, "altitude_m": 0, "derate_heat_frac": 0.02, "air_hot_c": 25,
    "generator_rated_w": 5000, "generator_rated_va": 6250, "fuel_size_l_kwh": 0.08415, "fuel_work_l_kwh": 0.246,
    "generator_year_wh": 294_000,
    "loading_min_frac": 0.3, "depth_frac": 0.5,
}  # fmt: skip
CHARTS = {
    "diesel_chart_100kw": (100, [2.6, 4.1, 5.8, 7.4]),
    "diesel_second_100kw": (100, [3.4, 5.3, 7.2, 9.5]),
    "diesel_second_20kw": (20, [0.8, 1.2, 1.6, 2.1]),
}


@pytest.mark.parametrize("key", CHARTS)
def test_a_fuel_line_is_the_least_squares_line_of_its_chart(key):
    """GN013 to GN015: US gallons an hour at quarter loads, 3.785412 L each."""
    rated, gallons = CHARTS[key]
    slope, foot = np.polyfit(rated * np.array([0.25, 0.5, 0.75, 1]), 3.785412 * np.array(gallons), 1)
    row = data.fuel_curve(key)
    assert row.fuel_work_l_kwh == pytest.approx(slope, rel=5e-3)
    assert row.fuel_size_l_kwh == pytest.approx(foot / rated, rel=1e-2)


def test_a_generator_by_hand():
    solved = GENERATOR.solve(SET)
    assert solved["charge_most_a"] == 50
    assert solved["generator_run_h"] == pytest.approx(2.8)
    assert solved["charger_ac_w"] == pytest.approx(3266.67, rel=1e-5)  # 50 A × 58.8 V ÷ 0.9
    assert solved["generator_needed_va"] == pytest.approx(5083.33, rel=1e-5)  # ÷ 0.8 + 1000
    assert solved["generator_year_h"] == pytest.approx(100)  # 294 kWh at 2.94 kW
    assert solved["fuel_l_h"] == pytest.approx(1.22435, rel=1e-5)  # 5 kW × 0.08415 + 3.2667 kW × 0.246
    assert solved["fuel_year_l"] == pytest.approx(122.435, rel=1e-5)
    assert not any(solved.broken().values())


def test_watts_and_volt_amps_count_the_same_loads():
    """Charger and all AC loads together; loading and fuel go by the charger and what is said to run beside it."""
    alone, loaded = (GENERATOR.solve(SET | more) for more in ({"peak_w": 0, "peak_va": 0}, {}))
    assert alone["generator_together_margin_w"] - loaded["generator_together_margin_w"] == pytest.approx(700)
    assert alone["generator_margin_va"] - loaded["generator_margin_va"] == pytest.approx(1000)
    for name in ("generator_margin_w", "loading_frac", "fuel_l_h"):
        assert alone[name] == loaded[name]


@given(st.floats(-400, 5000), st.floats(-10, 50), st.floats(0, 800), st.floats(0, 10))
def test_height_and_heat_never_want_a_smaller_generator(height, heat, higher, hotter):
    here = GENERATOR.solve(SET | {"altitude_m": height, "air_hot_c": heat})
    there = GENERATOR.solve(SET | {"altitude_m": height + higher, "air_hot_c": heat + hotter})
    assert there["generator_needed_va"] >= here["generator_needed_va"] >= here["generator_load_va"]
    assert here["generator_kept_frac"] > 0


def test_below_the_sea_and_in_the_cool_nothing_is_credited():
    assert GENERATOR.solve(SET | {"altitude_m": -400, "air_hot_c": -10})["generator_kept_frac"] == 1


def test_a_loafing_engine_burns_more_for_each_kilowatt_hour_and_breaks_a_limit():
    sizes = np.array([4000.0, 8000, 12_000, 20_000])
    solved = GENERATOR.solve(SET | {"generator_rated_w": sizes})
    assert np.all(np.diff(solved["fuel_year_l"]) > 0)
    assert solved.broken()["loading_margin_frac"].tolist() == [False, False, True, True]


@pytest.mark.parametrize(
    ("changed", "limit"),
    [
        ({"generator_rated_va": 5083}, "generator_margin_va"),
        ({"generator_other_w": 1734}, "generator_margin_w"),
        ({"peak_w": 1734}, "generator_together_margin_w"),
        ({"generator_start_frac": 0.49}, "start_margin_frac"),
        ({"generator_stop_frac": 0.49}, "levels_margin_frac"),
    ],
)
def test_each_limit_breaks_alone(changed, limit):
    broken = GENERATOR.solve(SET | changed).broken()
    assert [name for name, is_broken in broken.items() if is_broken] == [limit]
