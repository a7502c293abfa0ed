"""Published examples: strings of batteries and modules, the array, and module voltage in the cold."""

from published.case import IEEE_1562, PRACTICE, Case

from offgrid_core.sizing.array import ARRAY_FOR_BANK, ARRAY_LAYOUT, ARRAY_NEED
from offgrid_core.sizing.array_ah import ARRAY_BY_AH
from offgrid_core.sizing.strings import STRINGS

_ROSS = "nominal-operating-temperature model (Ross 1980; SAND2004-3535)"
_VOC = "Voc(T) = Voc [1 + b (T − 25)], lowest temperature from the ASHRAE Handbook design conditions"


def _sixty_cell(cold: float, limit_v: float = 150) -> dict[str, float]:
    return {"module_voc_v": 38.0, "voc_temp_per_k": -0.0030, "air_coldest_c": cold, "controller_voltage_max_v": limit_v}


STRING_CASES = [
    Case(
        "BAT-013 series", "strings", STRINGS, "units_in_series_count", {"bank_voltage_v": 24, "unit_v": 6},
        4, 1e-6, PRACTICE, "common practice", "three strings of four 6 V 225 Ah",
    ),
    Case(
        "BAT-013 amp-hours", "strings", STRINGS, "bank_ah", {"bank_needed_ah": 675, "unit_ah": 225},
        675, 1e-6, PRACTICE, "common practice",
    ),
    Case(
        "BAT-013 energy", "strings", STRINGS, "bank_wh", {"strings_count": 3, "unit_ah": 225, "bank_voltage_v": 24},
        16_200, 1e-6, PRACTICE, "common practice, computed",
    ),
    Case(
        "Chicago 150 V", "strings", ARRAY_LAYOUT, "series_most_count", _sixty_cell(-23.7),
        3, 0, _VOC, "seen, computed", "generic 60-cell module",
    ),
    Case(
        "Chicago 250 V", "strings", ARRAY_LAYOUT, "series_most_count", _sixty_cell(-23.7, 250),
        5, 0, _VOC, "seen, computed",
    ),
    Case(
        "Fairbanks 150 V", "strings", ARRAY_LAYOUT, "series_most_count", _sixty_cell(-42.7),
        3, 0, _VOC, "seen, computed",
    ),
    Case(
        "Tampa 250 V", "strings", ARRAY_LAYOUT, "series_most_count", _sixty_cell(-0.7, 250),
        6, 0, _VOC, "seen, computed",
    ),
    Case(
        "ST029 fewest", "strings", ARRAY_LAYOUT, "series_fewest_count",
        {"start_voltage_v": 60, "module_vmp_v": 31.5, "power_temp_per_k": -0.0038, "cell_hottest_c": 70},
        3, 0, "generic 60-cell module at 70 °C: three in series to hold 60 V on a 48 V battery", "computed",
    ),
]  # fmt: skip


def _ross(watts_m2: float, air: float, noct: float) -> dict[str, float]:
    return {"working_sun_kw_m2": watts_m2 / 1000, "air_temp_by_month_c": air, "noct_c": noct}


_ENERGY = {
    "battery_mean_by_month_wh": 2200, "plane_by_month_kwh_m2": 3.35, "shade_by_month_frac": 1, "full_sun_kw_m2": 1,
    "mismatch_frac": 0, "wiring_loss_frac": 0, "heat_kept_by_month_frac": 1,
}  # fmt: skip

ARRAY_CASES = [
    Case(
        "AR051", "array", ARRAY_NEED, "array_for_load_w",
        _ENERGY | {"charge_eff_frac": 0.80, "soiling_frac": 0.14, "controller_eff_frac": 0.95, "array_load_ratio": 1},
        1004.77, 1e-4, "textbook energy balance: 2200 Wh, 3.35 h, 0.80 × 0.86 × 0.95", "computed",
    ),
    Case(
        "AR050", "array", ARRAY_NEED + ARRAY_FOR_BANK + ARRAY_LAYOUT, "array_strings_count",
        _ENERGY | {"charge_eff_frac": 1, "soiling_frac": 0.15, "controller_eff_frac": 1, "array_load_ratio": 1.3,
                   "array_for_refill_w": 0, "array_for_current_w": 0, "modules_in_series_count": 1, "module_w": 132},
        8, 0, IEEE_1562 + " sec. 9.4: 7.609 strings, so 8", "computed", "strings of 5.5 A, which are 132 W at 24 V",
    ),
    Case(
        "AR050 asked", "array", ARRAY_BY_AH, "strings_asked_ratio",
        {"design_load_ah": 91.667, "array_load_ratio": 1.3, "losses_kept_frac": 0.85, "design_sun_h": 3.35,
         "module_imp_a": 5.5},
        7.609, 1e-3, IEEE_1562 + " sec. 9.4, amp-hours: n = L × A:L ÷ ((1 − SL) × SH × Imp)", "computed",
    ),
    Case(
        "AR050 strings", "array", ARRAY_BY_AH, "strings_by_ah_count",
        {"design_load_wh": 2200, "bank_voltage_v": 24, "array_load_ratio": 1.3, "losses_kept_frac": 0.85,
         "design_sun_h": 3.35, "module_imp_a": 5.5},
        8, 0, IEEE_1562 + " sec. 9.4: 7.609 strings, so 8", "computed",
    ),
    Case(
        "BAT-008", "array", ARRAY_NEED, "array_for_load_w",
        _ENERGY | {"battery_mean_by_month_wh": 2.22, "plane_by_month_kwh_m2": 2.5, "charge_eff_frac": 1,
                   "soiling_frac": 0.30, "controller_eff_frac": 1, "array_load_ratio": 1},
        1.27, 3e-3, "the same open text as BAT-009", "seen", "exact 1.2686",
    ),
    Case("AR015", "array", ARRAY_NEED, "cell_temp_by_month_c", _ross(1000, 30, 50), 67.5, 1e-3, _ROSS, "seen"),
    Case("AR016", "array", ARRAY_NEED, "cell_temp_by_month_c", _ross(1000, 25, 45), 56.25, 1e-3, _ROSS, "computed"),
    Case("AR017", "array", ARRAY_NEED, "cell_temp_by_month_c", _ross(800, 20, 45), 45, 1e-3, _ROSS, "computed"),
    Case(
        "AR005", "array", ARRAY_NEED, "heat_kept_by_month_frac",
        {"power_temp_per_k": -0.004, "cell_temp_by_month_c": 50},
        0.900, 1e-6, "linear power-temperature model: 810 W of 900 W at 50 °C, −0.4 %/K", "computed",
    ),
]  # fmt: skip


def _cold(voc: float, per_k: float, cold: float, series: int = 1) -> dict[str, float]:
    return {"modules_in_series_count": series, "module_voc_v": voc, "voc_temp_per_k": per_k, "air_coldest_c": cold}


COLD_CASES = [
    Case(id_, "cold voltage", ARRAY_LAYOUT, "string_voc_cold_v", _cold(voc, per_k, cold), volts, tol, source, tag)
    for id_, voc, per_k, cold, volts, tol, source, tag in [
        ("ST024 Fairbanks", 38.0, -0.0030, -42.7, 45.718, 1e-4, _VOC, "seen, computed"),
        ("Chicago", 38.0, -0.0030, -23.7, 43.55, 2e-4, _VOC, "seen, computed"),
        ("ST026 Golden", 38.0, -0.0030, -22.9, 43.461, 1e-4, _VOC, "seen, computed"),
        ("ST027 Sterling", 38.0, -0.0030, -17.2, 42.811, 1e-4, _VOC, "seen, computed"),
        ("ST028 Tampa", 38.0, -0.0030, -0.7, 40.93, 1e-4, _VOC, "seen, computed"),
        ("NPV-016", 45.0, -0.0027, -26, 51.2, 1e-3, "open test case for NEC 690.7(A)(1)", "seen"),
    ]
] + [
    Case(
        "ST029", "cold voltage", ARRAY_LAYOUT, "string_vmp_hot_v",
        {"modules_in_series_count": 1, "module_vmp_v": 31.5, "power_temp_per_k": -0.0038, "cell_hottest_c": 70},
        26.114, 1e-4, "the same at the hot end: Vmp (1 + c (T − 25))", "computed",
    ),
]  # fmt: skip
