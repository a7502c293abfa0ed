"""The inverter's own curve of losses, what the heat and the cable leave, and the set-points beside absorption."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.sizing.array import COLD_VOLTAGE_TABLE, DIRECT_CONVERTER, DIRECT_HEAT, string_voc_cold_v
from offgrid_core.sizing.charging import EQUALIZE, SET_POINTS
from offgrid_core.sizing.efficiency import EFFICIENCY, LOSSES
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.worksheet import Sheet

CURVE = EFFICIENCY.upto("loss_by_hour_w")


def losses(ac_w, rated=1000.0, idle=15.0, part=0.92, full=0.90, on=24.0) -> np.ndarray:
    given = {
        "inverter_rated_w": rated, "inverter_idle_w": idle, "part_load_frac": 0.25, "inverter_on_h": on,
        "inverter_part_eff_frac": part, "inverter_full_eff_frac": full, "ac_by_hour_w": np.asarray(ac_w, float),
    }  # fmt: skip
    return np.asarray(CURVE.solve(given)["loss_by_hour_w"])


def test_the_input_current_says_which_voltage_and_which_efficiency_it_uses():
    """That of the bank before the cable's drop, and that of the day's energy, not the one at full load."""
    line = INVERTER["inverter_input_a"]
    assert set(line.needs) == {"inverter_rated_w", "inverter_eff_frac", "inverter_low_v"}
    assert line.label.endswith("at the bank's lowest working voltage")
    assert "before the drop in the cable" in line.source
    assert "the efficiency that the day's energy is counted with" in line.source


def test_the_curve_goes_through_both_points_and_through_idle():
    at = losses([0, 250, 1000])
    assert at[0] == 15
    assert 250 / (250 + at[1]) == pytest.approx(0.92, rel=1e-12)
    assert 1000 / (1000 + at[2]) == pytest.approx(0.90, rel=1e-12)


def test_the_curve_by_hand():
    # P_loss = 15 + b P + c P²: 250 W loses 250 (1/0.92 - 1) = 21.739 W, 1000 W loses 111.111 W.
    c = ((111.111111 - 15) / 1000 - (21.739130 - 15) / 250) / 750
    b = (21.739130 - 15) / 250 - c * 250
    assert losses([500.0])[0] == pytest.approx(15 + b * 500 + c * 500**2, rel=1e-6)


@pytest.mark.parametrize("inverter", data.inverters(), ids=lambda i: i.key)
def test_a_catalogue_inverter_loses_more_with_more_load_and_is_best_between_the_ends(inverter):
    loads = np.linspace(0, inverter.rated_w, 200)
    lost = losses(
        loads, inverter.rated_w, inverter.idle_w, inverter.part_efficiency_frac, inverter.full_efficiency_frac
    )
    assert np.all(np.diff(lost) > 0)
    efficiency = loads[1:] / (loads[1:] + lost[1:])
    assert 0 < np.argmax(efficiency) < len(efficiency) - 1
    assert efficiency[0] < 0.5, "an inverter that idles wastes most of what it takes"


def test_a_large_inverter_wastes_the_day_of_a_small_load():
    day = np.full(24, 20.0)
    base = {"part_load_frac": 0.25, "inverter_part_eff_frac": 0.94, "inverter_full_eff_frac": 0.92, "inverter_on_h": 24}
    sheet = EFFICIENCY.upto("curve_eff_frac")
    small = sheet.solve(base | {"inverter_rated_w": 300, "inverter_idle_w": 5, "ac_by_hour_w": day})
    large = sheet.solve(base | {"inverter_rated_w": 6000, "inverter_idle_w": 45, "ac_by_hour_w": day})
    assert small["curve_eff_frac"] > 0.75
    assert large["curve_eff_frac"] < 0.35


def test_the_flat_efficiency_is_judged_by_the_curve():
    given = {"ac_by_hour_w": np.full(24, 50.0), "loss_by_hour_w": np.full(24, 10.0)}
    sheet = Sheet(*(EFFICIENCY[n] for n in ("curve_day_wh", "curve_eff_frac", "curve_margin_wh")))
    assert sheet.solve(given | {"inverter_day_wh": 1500})["curve_margin_wh"] == pytest.approx(60)
    assert sheet.solve(given | {"inverter_day_wh": 1400})["curve_margin_wh"] == pytest.approx(-40)
    assert sheet.solve(given | {"inverter_day_wh": 1500})["curve_eff_frac"] == pytest.approx(50 / 60)


def test_an_inverter_switched_off_half_the_day_idles_half_as_much():
    assert losses([0.0], on=12)[0] == 7.5


@given(st.floats(0.02, 0.05), st.floats(0.85, 0.95), st.floats(0.0, 0.04))
def test_the_fit_gives_back_any_two_points(idle_share, part, less):
    fit = LOSSES.solve({
        "inverter_rated_w": 800.0, "inverter_idle_w": 800 * idle_share / 4, "part_load_frac": 0.25,
        "inverter_part_eff_frac": part, "inverter_full_eff_frac": part - less,
    })  # fmt: skip
    a, b, c = 800 * idle_share / 4, fit["share_loss_frac"], fit["square_loss_per_w"]
    for power, efficiency in ((200, part), (800, part - less)):
        assert power / (power + a + b * power + c * power**2) == pytest.approx(efficiency, rel=1e-9)


# ---- heat and cable


@pytest.mark.parametrize(("air", "left"), [(20, 1000), (40, 1000), (45, 900), (60, 600), (95, 0)])
def test_heat_takes_power_only_above_the_rating(air, left):
    given = {"inverter_rated_w": 1000, "inverter_derate_per_k": 0.02, "air_hot_c": air, "inverter_temp_rated_c": 40}
    assert INVERTER["inverter_hot_w"].work(*(given[n] for n in INVERTER["inverter_hot_w"].needs)) == pytest.approx(left)


def test_the_hottest_month_and_a_hot_day_heat_the_inverter():
    air = Sheet(INVERTER["air_hot_c"]).solve({"air_temp_by_month_c": [5] * 6 + [29] + [10] * 5, "hot_day_rise_k": 12})
    assert air["air_hot_c"] == 41


def test_the_cable_s_drop_counts_before_the_cut_off():
    sheet = Sheet(INVERTER["inverter_terminal_v"], INVERTER["cutoff_margin_v"])
    given = {"inverter_low_v": 22.0, "inverter_drop_frac": 0.02, "bank_voltage_v": 24.0, "inverter_cutoff_v": 21.6}
    solved = sheet.solve(given)
    assert solved["inverter_terminal_v"] == pytest.approx(21.52)
    assert solved["cutoff_margin_v"] < 0, "the bank alone would have passed"
    assert sheet.solve(given | {"inverter_drop_frac": 0.01})["cutoff_margin_v"] > 0


# ---- set-points


def test_float_and_equalizing_are_compensated_like_absorption():
    given = {
        "bank_voltage_v": 48, "cells_12v_count": 6,
        "absorb_cell_v": 2.45, "float_cell_v": 2.25, "equalize_cell_v": 2.58,
        "compensation_mv_k": -5, "battery_temp_c": 5, "controller_headroom_v": 2, "charge_temp_min_c": -20,
    }  # fmt: skip
    cold = (SET_POINTS + EQUALIZE).solve(given)
    assert cold["float_set_v"] == pytest.approx(24 * (2.25 + 0.1))
    assert cold["equalize_set_v"] == pytest.approx(24 * (2.58 + 0.1))
    assert cold["bank_compensation_mv_k"] == -120
    warm = (SET_POINTS + EQUALIZE).solve(given | {"battery_temp_c": 25})
    for name in ("absorb_set_v", "float_set_v", "equalize_set_v"):
        assert cold[name] - warm[name] == pytest.approx(-120 / 1000 * (5 - 25))
    assert warm["float_set_v"] < warm["absorb_set_v"] < warm["equalize_set_v"]


# ---- the cold by coefficient and by table


@pytest.mark.parametrize("coldest", range(-40, 21, 2))
def test_the_code_table_is_the_cautious_one(coldest):
    for module in data.modules():
        given = {
            "modules_in_series_count": 3, "module_voc_v": module.voc_v, "voc_temp_per_k": module.voc_temp_per_k,
            "air_coldest_c": coldest, "cold_voltage_factor": data.cold_voltage_us(),
        }  # fmt: skip
        both = (Sheet(string_voc_cold_v) + COLD_VOLTAGE_TABLE).solve(given)
        assert both["string_voc_table_v"] >= both["string_voc_cold_v"]


# ---- a direct controller in the heat


@pytest.mark.parametrize(("cell", "model"), [(25, 0.771), (45, 0.775), (60, 0.768)])
def test_a_direct_controller_is_not_charged_twice_for_heat(cell, model):
    """Share of the 25 °C power at 13 V, single-diode model of a generic 36-cell module: flat until the knee passes."""
    given_here = {
        "bank_voltage_v": 13, "modules_in_series_count": 1, "module_vmp_v": 17.94, "power_temp_per_k": -0.0044,
        "cell_temp_by_month_c": [cell] * 12,
    }  # fmt: skip
    solved = Sheet(DIRECT_CONVERTER, DIRECT_HEAT).solve(given_here)
    passed = np.min(solved["converter_kept_frac"] * solved["heat_kept_by_month_frac"])
    assert passed == pytest.approx(0.7246, rel=1e-3), "battery volts over working volts, at every temperature here"
    assert model * 0.93 < passed < model
    hotter = Sheet(DIRECT_CONVERTER, DIRECT_HEAT).solve(given_here | {"cell_temp_by_month_c": [95] * 12})
    assert np.min(hotter["converter_kept_frac"] * hotter["heat_kept_by_month_frac"]) == pytest.approx(1 - 0.0044 * 70)
