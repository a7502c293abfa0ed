"""Published examples: loads, amp-hours, the bank and its temperature."""

from typing import Any

from published.case import FLOODED, IEEE_1562, PRACTICE, Case, typed

from offgrid_core.sizing import BANK, BANK_1013, LOADS
from offgrid_core.sizing.standby import STANDBY
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.temperature import FAHRENHEIT, cold_gives_ah
from offgrid_core.worksheet import Sheet

_1013 = "IEEE Std 1013"
_485 = "IEEE Std 485 Table 1, vented cells, 25 °C base"
_DUNLOP = "Dunlop, Photovoltaic Systems, stand-alone battery sizing equations"
_DOE = "US DOE Energy Saver, estimating appliance and home electronic energy use"
_PACIFIC = "Pacific Power Association off-grid PV design guidelines"


def _spell(day_ah: float, days: float, depth: float, **more: float) -> dict[str, float]:
    return {"day_ah": day_ah, "autonomy_days": days, "depth_frac": depth, **more}


def _flat(bank_wh: float, fahrenheit: str) -> dict[str, Any]:
    cold = typed("battery_temp_c", fahrenheit)
    return {"bank_warm_wh": bank_wh, "capacity_kept": FLOODED, "battery_temp_c": cold}


LOAD_CASES = [
    Case(
        "LD-002", "loads", LOADS, "day_energy_by_row_wh",
        {"count_by_row": 1, "power_by_row_w": 725, "hours_by_row_h": 24, "duty_by_row_frac": 1 / 3,
         "season_by_row_frac": 1, "standby_by_row_w": 0},
        5800, 1e-6, _DOE, "seen, computed", "refrigerator: runs a third of the time it is plugged in",
    ),
    Case(
        "BAT-006", "loads", STANDBY + LOADS, "standby_energy_by_row_wh",
        {"standby_by_row_a": 0.025, "supply_by_row_v": 3.7, "count_by_row": 1, "hours_by_row_h": 0},
        2.22, 1e-3, PRACTICE, "common practice", "radio repeater, 25 mA all day",
    ),
    Case(
        "LBNL", "loads", LOADS, "standby_energy_by_row_wh",
        {"count_by_row": 1, "standby_by_row_w": 67, "hours_by_row_h": 0},
        1610, 2e-3, "LBNL whole-house standby measurements: 67 W mean is 1.61 kWh a day", "from memory",
    ),
    Case(
        "AR048 energy", "loads", LOADS, "battery_day_wh",
        {"ac_day_wh": 1800, "inverter_eff_frac": 0.90, "inverter_idle_wh": 0, "dc_day_wh": 200,
         "dc_wiring_eff_frac": 1, "growth_factor": 1},
        2200, 1e-6, IEEE_1562 + ", ampere-hour method", "computed",
    ),
    Case(
        "BAT-042", "loads", LOADS, "battery_day_wh",
        {"inverter_day_wh": 10_000, "dc_day_wh": 0, "dc_wiring_eff_frac": 1, "growth_factor": 1.2},
        12_000, 1e-6, "USAID Powering Health, system design", "seen", "load growth of a clinic",
    ),
]  # fmt: skip

AMP_HOUR_CASES = [
    Case(
        "AR048", "amp-hours", BANK_1013, "day_ah", {"energy_day_wh": 2200, "bank_voltage_v": 24},
        91.667, 1e-4, IEEE_1562 + ", ampere-hour method", "computed",
    ),
    Case(
        "WX8", "amp-hours", BANK_1013, "day_ah", {"energy_day_wh": 2400, "bank_voltage_v": 24},
        100, 1e-6, _PACIFIC, "from memory", "low confidence on edition",
    ),
    Case(
        "BAT-009", "amp-hours", STRINGS, "bank_wh", {"bank_ah": 3.5, "bank_voltage_v": 3.7},
        12.95, 1e-4, "one 18650 cell, open text", "seen",
    ),
    Case(
        "BAT-011", "amp-hours", BANK_1013, "spell_ah", {"day_ah": typed("day_ah", "145 mAh"), "autonomy_days": 14},
        typed("day_ah", "2030 mAh"), 1e-4, PRACTICE, "common practice", "sensor node",
    ),
]  # fmt: skip

BANK_CASES = [
    Case(
        "BAT-007", "bank", BANK, "bank_warm_wh", {"energy_day_wh": 2.22, "autonomy_days": 3, "depth_frac": 0.80},
        8.33, 2e-3, "the same open text as BAT-009", "seen", "exact 8.325; the source prints 8.33",
    ),
    Case(
        "BAT-010", "bank", BANK, "bank_needed_ah",
        {"energy_day_wh": 300, "autonomy_days": 2, "depth_frac": 0.8, "kept_frac": 1, "bank_voltage_v": 12},
        62.5, 1e-4, PRACTICE, "common practice",
    ),
    Case(
        "WX11 out", "bank", BANK_1013, "spell_ah", {"energy_day_wh": 2400, "bank_voltage_v": 24, "autonomy_days": 3},
        300, 1e-6, _DUNLOP, "seen, computed",
    ),
    Case(
        "BAT-003", "bank", BANK, "bank_needed_ah",
        {"energy_day_wh": 2400, "autonomy_days": 3, "depth_frac": 0.6, "kept_frac": 0.9, "bank_voltage_v": 24},
        555.56, 1e-4, _DUNLOP, "seen, computed",
    ),
    Case(
        "BAT-002", "bank", BANK_1013, "functional_hours_h",
        {"energy_day_wh": 600, "bank_voltage_v": 24, "autonomy_days": 3, "depth_frac": 0.6, "depth_daily_frac": 1,
         "end_of_life_frac": 1, "kept_frac": 1, "design_margin_factor": 1, "peak_w": 0, "inverter_eff_frac": 1,
         "dc_peak_w": 100},
        30, 1e-6, _DUNLOP, "seen, computed", "average discharge time: 100 W for 6 h a day, 3 days, to 0.6",
    ),
    Case(
        "BAT-026", "bank", BANK, "bank_needed_ah",
        {"energy_day_wh": 2400, "autonomy_days": 5, "depth_frac": 0.70, "kept_frac": 1, "bank_voltage_v": 24},
        714.3, 2e-3, _PACIFIC, "from memory",
        "low confidence on edition, the arithmetic is certain",
    ),
    Case(
        "BAT-047", "bank", BANK, "bank_needed_ah",
        {"energy_day_wh": 5000, "autonomy_days": 4, "depth_frac": 0.70, "kept_frac": 1, "bank_voltage_v": 48},
        595.24, 1e-4, "AS/NZS 4509.2 battery clause", "from memory, computed",
    ),
    Case(
        "BAT-030", "bank", BANK_1013, "spell_ah", {"day_ah": 100, "autonomy_days": 5},
        500, 1e-6, _1013 + " cl. 6.1", "from memory",
    ),
    Case(
        "BAT-031", "bank", BANK_1013, "for_depth_ah", _spell(100, 5, 0.8),
        625, 1e-6, _1013 + " cl. 6.3", "from memory",
    ),
    Case(
        "BAT-032", "bank", BANK_1013, "for_daily_depth_ah", {"day_ah": 100, "depth_daily_frac": 0.20},
        500, 1e-6, _1013 + " cl. 6.3", "from memory",
    ),
    Case(
        "BAT-033", "bank", BANK_1013, "for_all_three_ah",
        _spell(100, 5, 0.8, depth_daily_frac=0.20, end_of_life_frac=0.80),
        625, 1e-6, _1013 + " cl. 6.3", "from memory", "the largest of the three, not their product (781)",
    ),
    Case(
        "BAT-033 end of life", "bank", BANK_1013, "for_all_three_ah",
        {"for_depth_ah": 500, "for_daily_depth_ah": 500, "for_end_of_life_ah": 625},
        625, 1e-6, _1013 + " cl. 6.3", "from memory", "the end of life decides",
    ),
    Case(
        "BAT-032 daily", "bank", BANK_1013, "for_all_three_ah",
        _spell(100, 2, 0.8, depth_daily_frac=0.20, end_of_life_frac=0.80),
        500, 1e-6, _1013 + " cl. 6.3", "from memory, computed", "with two sunless days the daily depth decides",
    ),
    Case(
        "BAT-034", "bank", BANK_1013, "bank_needed_ah",
        _spell(100, 5, 0.8, depth_daily_frac=0.20, end_of_life_frac=0.80, battery_temp_c=10, design_margin_factor=1.10)
        | {"capacity_kept": FLOODED},
        818.13, 1e-4, _1013 + " cl. 6.3 with the " + _485 + " factor", "from memory, computed",
    ),
    Case(
        "BAT-035", "bank", BANK_1013, "functional_hours_h", {"bank_needed_ah": 818.1, "running_current_a": 10},
        81.81, 1e-3, _1013 + " cl. 6.4", "from memory",
    ),
    Case(
        "BAT-040", "bank", BANK_1013, "for_end_of_life_ah", {"spell_ah": 100, "end_of_life_frac": 0.80},
        125, 1e-6, "DOE-SPEC-3019-96: aging factor 1.25", "seen",
    ),
    Case(
        "AR049 whole", "bank", BANK_1013, "for_cold_ah",
        {"energy_day_wh": 2200, "bank_voltage_v": 24, "autonomy_days": 5, "depth_frac": 0.8, "depth_daily_frac": 1,
         "end_of_life_frac": 1, "battery_temp_c": 4.4, "capacity_kept": FLOODED},
        744.8, 1e-4, IEEE_1562 + ", " + _485 + ", from the day's energy on", "computed",
    ),
    Case(
        "AR049", "bank", BANK_1013, "for_cold_ah",
        _spell(91.667, 5, 0.8, depth_daily_frac=1, end_of_life_frac=1, battery_temp_c=4.4) | {"capacity_kept": FLOODED},
        744.79, 1e-4, IEEE_1562 + ", " + _485, "computed",
    ),
]  # fmt: skip

TEMPERATURE_CASES = [
    Case(
        "AR059", "temperature", BANK, "bank_cold_wh",
        {"energy_day_wh": 1000, "autonomy_days": 2.5, "depth_frac": 0.5, "capacity_kept": FLOODED,
         "battery_temp_c": typed("battery_temp_c", "40 °F")},
        6500, 1e-3, "rule-of-thumb form of the IEEE method, factor 1.30 at 40 °F", "seen",
    ),
    Case(
        "TMP-032", "temperature", BANK, "bank_cold_wh", _flat(1000, "32 °F"),
        1398, 2e-3, _485 + ", read between 30 and 35 °F", "from memory",
    ),
    Case(
        "TMP-024", "temperature", BANK, "bank_cold_wh", _flat(625, "50 °F"),
        743.75, 1e-3, "trade multiplier 1.19 at 50 °F, as in WX10", "common practice",
    ),
    Case(
        "TMP-008", "temperature", BANK, "bank_cold_wh", _flat(100, "60 °F"),
        111, 1e-3, _485 + ": 1.11 at 60 °F", "seen",
    ),
    Case(
        "BAT-041", "temperature", BANK, "kept_frac",
        {"capacity_kept": FLOODED, "battery_temp_c": typed("battery_temp_c", "80 °F")},
        1.0, 1e-6, "DOE-SPEC-3019-96: no correction factor below 1.0", "seen", "although the table says 0.98",
    ),
    Case(
        "TMP-001", "temperature", BANK.upto("kept_frac") + Sheet(cold_gives_ah), "cold_gives_ah",
        {"bank_ah": 100, "capacity_kept": FLOODED, "battery_temp_c": typed("battery_temp_c", "25 °F")},
        65.8, 1e-3, _485 + ": retained 65.8 % at 25 °F", "from memory",
    ),
    Case(
        "SG-001", "temperature", FAHRENHEIT, "battery_temp_c", {"reading_fahrenheit": -95},
        -71, 8e-3, "US Army TM 10-6140-200-14: freezing at −95 °F (−71 °C)", "seen", "printed to a whole degree",
    ),
    Case(
        "CHG-018", "temperature", FAHRENHEIT, "battery_temp_c", {"reading_fahrenheit": 125},
        51.7, 1e-3, "US Navy NAVEDTRA 14113: 125 °F electrolyte limit (51.7 °C)", "seen",
    ),
    Case(
        "LIF-006", "temperature", FAHRENHEIT, "temp_rise_k", {"swing_fahrenheit": 15},
        8.3, 1e-2, "IEEE Std 450 annex: 15 °F (8.3 °C) for half the life", "from memory",
    ),
]  # fmt: skip
