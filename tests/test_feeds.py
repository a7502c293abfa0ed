"""What feeds an hour and what a year adds up to: each line by hand."""

import numpy as np
import pytest

from offgrid_core import data
from offgrid_core.sizing.feeds import (
    BANK_FEED,
    CHARGER,
    DC_LOAD_FEED,
    DIRECT_SUN_FEED,
    ENCLOSED,
    LOAD_FEED,
    STATED_BANK_FEED,
    STEADY,
    SUN_FEED,
    TODAY,
)
from offgrid_core.sizing.scaling import ARRAY_SHARE, SCALED
from offgrid_core.sizing.year_totals import CHARGE, DC_YEAR, GENERATOR_YEAR, LOST, SWEPT_YEAR, YEAR

SUN = {
    "air_by_hour_c": np.array([20.0, -10.0, 30.0]),
    "plane_by_hour_kw_m2": np.array([0.8, 0.4, 0.0]),
    "noct_c": 46.0,
    "power_temp_per_k": -0.004,
    "full_sun_kw_m2": 1.0,
    "shade_by_hour_frac": np.array([1.0, 0.5, 1.0]),
    "losses_kept_frac": 0.9,
    "converter_kept_frac": 0.95,
}


def test_an_hour_of_sun_by_hand():
    """Cells 26 K above air at 0.8 kW/m²: 46 °C keep 91.6 %; at −10 °C and 0.4 they are at 3 °C and give 8.8 % more."""
    solved = SUN_FEED.solve(SUN)
    assert solved["cell_by_hour_c"].tolist() == [46, 3, 30]
    assert solved["heat_kept_by_hour_frac"] == pytest.approx([0.916, 1.088, 0.98])
    assert solved["yield_by_hour_h"] == pytest.approx([0.8 * 0.9 * 0.916 * 0.95, 0.4 * 0.5 * 0.9 * 1.088 * 0.95, 0])


def test_cells_too_hot_to_work_give_nothing_and_never_less():
    assert SUN_FEED.solve(SUN | {"air_by_hour_c": np.full(3, 300.0)})["heat_kept_by_hour_frac"].tolist() == [0, 0, 0]


def test_behind_a_direct_controller_heat_costs_only_what_its_voltage_lacks():
    """Held at 0.7 of the working voltage the modules lose nothing until the heat has taken the other 0.3."""
    solved = DIRECT_SUN_FEED.solve(SUN | {"converter_kept_frac": 0.7})
    assert solved["heat_kept_by_hour_frac"].tolist() == [1, 1, 1]
    hot = DIRECT_SUN_FEED.solve(SUN | {"converter_kept_frac": 0.95})
    assert hot["heat_kept_by_hour_frac"][0] == pytest.approx(0.916 / 0.95)


INVERTER = {
    "growth_factor": 1.1,
    "inverter_rated_w": 1000.0,
    "inverter_idle_w": 12.0,
    "inverter_on_h": 12.0,
    "share_loss_frac": 0.05,
    "square_loss_per_w": 1e-5,
    "dc_wiring_eff_frac": 0.98,
    "dc_asked_by_hour_w": np.array([49.0, 0.0]),
    "ac_asked_by_hour_w": np.array([500.0, 1000.0]),
}


def test_an_hour_of_loads_by_hand():
    """550 W lose 6 idle + 27.5 + 3.025; 1100 W are cut to the rating of 1000; 49 W of DC are 55 Wh at the bank."""
    solved = LOAD_FEED.solve(INVERTER)
    assert solved["ac_by_hour_w"].tolist() == [550, 1000]
    assert solved["ac_short_by_hour_w"] == pytest.approx([0, 100])
    assert solved["dc_by_hour_wh"] == pytest.approx([55, 0])
    assert solved["wanted_by_hour_wh"] == pytest.approx([550 + 6 + 27.5 + 3.025 + 55, 1000 + 6 + 50 + 10])
    assert DC_LOAD_FEED.solve(INVERTER)["wanted_by_hour_wh"] == pytest.approx([55, 0])


def test_the_days_of_use_come_together():
    """Two and a half days a week: the first two, and half of the third."""
    given = {
        "season_by_row_frac": np.array([[1.2]]),
        "week_by_row_days": np.array([2.5]),
        "weekday_days": np.arange(7.0),
    }
    assert TODAY.solve(given)["season_today_by_row_frac"].ravel() == pytest.approx([1.2, 1.2, 0.6, 0, 0, 0, 0])


def test_the_bank_s_surroundings_and_what_its_temperature_does():
    surround = ENCLOSED.solve(
        {"air_by_hour_c": np.array([-20.0, 25.0]), "room_leak_w_k": 3.0, "open_leak_w_k": 1.0, "room_temp_c": 12.0}
    )["surround_by_hour_c"]
    assert surround.tolist() == [4, 25]
    kept = data.capacity_kept("flooded")
    given = {
        "capacity_kept": kept,
        "table_coldest_c": kept.x[0],
        "table_warmest_c": kept.x[-1],
        "charge_temp_min_c": -2.0,
    }
    given |= {"warmth_by_hour_c": np.array([-80.0, -5.0, -2.0, 25.0, 90.0])}
    solved = BANK_FEED.solve(given)
    assert solved["battery_by_hour_c"].tolist() == [kept.x[0], -5, -2, 25, kept.x[-1]]
    assert solved["may_charge_by_hour_frac"].tolist() == [0, 0, 1, 1, 1]
    assert solved["kept_by_hour_frac"] == pytest.approx(
        [float(kept(t)) if t < 25 else 1 for t in solved["battery_by_hour_c"]]
    )
    stated = STATED_BANK_FEED.solve(given | {"battery_temp_c": -3.0})
    assert stated["battery_by_hour_c"].tolist() == [-3, -3, -2, 25, kept.x[-1]]


def test_what_holds_in_every_hour():
    given = {"controllers_count": 2, "controller_rated_a": 40, "bank_voltage_v": 48, "bank_wh": 20_000}
    solved = STEADY.solve(given | {"charge_rate_max_per_h": 0.13, "charge_eff_frac": 0.8, "self_discharge_frac": 0.05})
    assert solved["controller_hour_wh"] == 3840
    assert solved["charge_most_wh"] == pytest.approx(20_000 * 0.13 * 0.8)
    assert solved["leak_frac"] == pytest.approx(0.05 / 730)
    assert CHARGER.solve({"charger_dc_w": 1500})["charger_hour_wh"] == 1500


HOURS = {
    "wanted_by_hour_wh": np.array([100.0, 100.0, 50.0, 0.0]),
    "unserved_by_hour_wh": np.array([0.0, 40.0, 0.0005, 0.0]),
    "served_by_hour_wh": np.array([100.0, 60.0, 49.9995, 0.0]),
    "array_offer_by_hour_wh": np.array([0.0, 0.0, 300.0, 200.0]),
    "clipped_by_hour_wh": np.array([0.0, 0.0, 20.0, 0.0]),
    "spilled_by_hour_wh": np.array([0.0, 0.0, 10.0, 70.0]),
    "charge_loss_by_hour_wh": np.array([0.0, 0.0, 30.0, 20.0]),
    "leak_by_hour_wh": np.array([1.0, 1.0, 1.0, 1.0]),
    "drawn_by_hour_wh": np.array([100.0, 60.0, 0.0, 0.0]),
    "dc_by_hour_wh": np.array([20.0, 20.0, 0.0, 0.0]),
    "loss_by_hour_w": np.array([8.0, 8.0, 5.0, 5.0]),
    "ac_short_by_hour_w": np.array([0.0, 7.0, 0.0, 2.0]),
    "store_by_hour_wh": np.array([400.0, 300.0, 240.0, 330.0]),
    "store_end_by_hour_wh": np.array([300.0, 240.0, 330.0, 420.0]),
    "connected_by_hour_frac": np.array([1.0, 1.0, 0.0, 1.0]),
    "charge_by_hour_frac": np.array([1.0, 0.7, 0.55, 0.8]),
    "residual_by_hour_wh": np.array([1e-12, -3e-12, 0.0, 2e-12]),
    "dc_wiring_eff_frac": 0.95,
    "hours_year_h": 4.0,
}


def test_a_year_of_four_hours_by_hand():
    solved = YEAR.solve(HOURS)
    wanted = {
        "wanted_year_wh": 250, "unserved_year_wh": 40.0005, "met_year_wh": 209.9995, "array_year_wh": 500,
        "clipped_year_wh": 20, "spilled_year_wh": 80, "charge_loss_year_wh": 50, "leak_year_wh": 4,
        "drawn_year_wh": 160, "dc_lost_year_wh": 2, "inverter_lost_year_wh": 21, "served_year_wh": 186.9995,
        "loss_energy_frac": 40.0005 / 250, "short_year_h": 1, "loss_hours_frac": 0.25, "lowest_charge_frac": 0.55,
        "store_grown_year_wh": 20, "overload_year_wh": 9,
        "spilled_frac": 0.2, "through_day_wh": 750 * 6, "residual_frac": 3e-12 / 4500,
    }  # fmt: skip
    assert {n: float(solved[n]) for n in wanted} == pytest.approx(wanted)
    assert set(wanted) == set(YEAR)
    assert DC_YEAR.solve(HOURS)["served_year_wh"] == pytest.approx(207.9995)


def test_a_generator_s_year_by_hand():
    """3 h at 2 kW: 0.25 L for each rated kW and hour and 0.3 for each kWh made are 1.5 + 1.2 L."""
    given = {
        "running_by_hour_frac": np.array([1.0, 1, 1, 0]),
        "generator_in_by_hour_wh": np.array([1200.0, 1200, 1200, 0]),
    }
    fuel = {"fuel_size_l_kwh": 0.25, "generator_rated_w": 2000, "fuel_work_l_kwh": 0.3, "charger_eff_frac": 0.9}
    solved = GENERATOR_YEAR.solve(given | fuel)
    assert (solved["generator_ran_h"], solved["generator_year_wh"]) == (3, 3600)
    assert solved["generator_fuel_l"] == pytest.approx(2.7)


def test_sums_of_a_sweep_and_charge():
    given = {"unserved_year_wh": 30, "wanted_year_wh": 600, "surplus_year_wh": 500, "stored_year_wh": 240}
    solved = SWEPT_YEAR.solve(given | {"charge_eff_frac": 0.8})
    assert (solved["loss_energy_frac"], solved["spilled_sum_wh"], solved["met_sum_wh"]) == (0.05, 200, 570)
    assert LOST.solve(given)["loss_energy_frac"] == 0.05
    assert CHARGE.solve({"store_by_hour_wh": np.array([50.0]), "bank_wh": 200})["charge_by_hour_frac"].tolist() == [
        0.25
    ]


def test_designs_round_a_design():
    given = {"array_w": 400, "modules_count": 4, "controllers_count": 2, "bank_wh": 5000, "units_count": 8}
    solved = SCALED.solve(given | {"array_factor": 1.5, "bank_factor": 0.5})
    assert [float(solved[n]) for n in SCALED] == [600, 6, 3, 2500, 4]
    share = ARRAY_SHARE.solve({"controllers_count": 2, "array_for_load_w": 300, "array_w": 400})
    assert share["share_controllers_count"] == 1.5
