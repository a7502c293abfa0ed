"""Choosing parts: solve the worksheets for every part of the catalogue at once and take the first that passes.

Each kind of part lies on an axis of its own, so one solve judges them all. Cost is shown elsewhere; it never
ranks first.
"""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from offgrid_core.data import BatteryUnit, Controller, Inverter, Module
from offgrid_core.worksheet import Sheet, Solved

#: Series counts tried for a module string.
SERIES = np.arange(1.0, 21.0)


def columns(parts: Sequence[Any], names: Mapping[str, str], shape: tuple[int, ...] = (-1,)) -> dict[str, np.ndarray]:
    """Return fields of parts as columns of givens: ``{given name: array}``."""
    return {given: np.array([getattr(p, field) for p in parts], float).reshape(shape) for given, field in names.items()}


CHEMISTRY_GIVENS = {
    "cells_12v_count": "cells_12v_count",
    "depth_daily_frac": "depth_daily_frac",
    "end_of_life_frac": "end_of_life_frac",
    "charge_eff_frac": "charge_eff_frac",
    "charge_rate_min_per_h": "charge_rate_min_per_h",
    "charge_rate_max_per_h": "charge_rate_max_per_h",
    "absorb_cell_v": "absorb_v_per_cell",
    "float_cell_v": "float_v_per_cell",
    "compensation_mv_k": "compensation_mv_per_k_cell",
    "charge_temp_min_c": "charge_temp_min_c",
    "discharge_temp_min_c": "discharge_temp_min_c",
    "depth_max_frac": "depth_max_frac",
    "cell_resistance_ohm_ah": "cell_resistance_ohm_ah",
    "peukert_exponent": "peukert_exponent",
}
UNIT_GIVENS = {
    "unit_v": "unit_v",
    "unit_ah": "unit_ah",
    "unit_mass_kg": "mass_kg",
    "unit_discharge_a": "discharge_limit_a",
    "unit_charge_a": "charge_limit_a",
    "capacity_hours_h": "capacity_hours",
}
#: Limits that judge a battery unit.
UNIT_LIMITS = (
    "series_margin_count",
    "strings_margin_count",
    "daily_depth_margin_frac",
    "cutoff_margin_v",
    "discharge_margin_a",
)
MODULE_GIVENS = {
    "module_w": "module_w",
    "module_voc_v": "voc_v",
    "module_vmp_v": "vmp_v",
    "module_isc_a": "isc_a",
    "module_imp_a": "imp_a",
    "voc_temp_per_k": "voc_temp_per_k",
    "power_temp_per_k": "power_temp_per_k",
    "noct_c": "noct_c",
}
CONTROLLER_GIVENS = {
    "controller_rated_a": "rated_a",
    "controller_voltage_max_v": "voltage_max_v",
    "controller_headroom_v": "pv_margin_v",
    "controller_eff_frac": "efficiency_frac",
}
INVERTER_GIVENS = {
    "inverter_rated_w": "rated_w",
    "inverter_rated_va": "rated_va",
    "inverter_surge_w": "surge_w",
    "inverter_idle_w": "idle_w",
    "inverter_eff_frac": "efficiency_frac",
    "inverter_cutoff_v": "cutoff_v",
    "inverter_temp_rated_c": "temp_rated_c",
    "inverter_part_eff_frac": "part_efficiency_frac",
    "inverter_full_eff_frac": "full_efficiency_frac",
}


def broken_limits(solved: Solved, shape: tuple[int, ...]) -> np.ndarray:
    """Count the limits each combination breaks."""
    return np.array(sum(np.broadcast_to(broken, shape).astype(int) for broken in solved.broken().values()))


def first_by(*keys: np.ndarray) -> tuple[int, ...]:
    """Return the place of the smallest, by the first key, then the next: fewest broken limits, fewest strings."""
    shape = np.broadcast_shapes(*(np.shape(k) for k in keys))
    flat = [np.broadcast_to(k, shape).ravel() for k in keys]
    return tuple(int(i) for i in np.unravel_index(np.lexsort(flat[::-1])[0], shape))


def pick_battery_unit(sheet: Sheet, given: Mapping[str, Any], units: Sequence[BatteryUnit]) -> BatteryUnit:
    """Return the unit that breaks the fewest limits, then with the fewest strings, then with the least to spare."""
    solved = sheet.solve({**given, **columns(units, UNIT_GIVENS)})
    broken = broken_limits(solved, (len(units),))
    return units[first_by(broken, solved["strings_count"], solved["bank_ah"])[0]]


def pick_inverter(
    sheet: Sheet, given: Mapping[str, Any], inverters: Sequence[Inverter], own: Mapping[str, float]
) -> Inverter:
    """Return the smallest inverter that carries the load, its volt-amps and its hardest start.

    ``own`` are values of the plan's, which stand whatever the part says.
    """
    solved = sheet.solve({**given, **columns(inverters, INVERTER_GIVENS), **own})
    broken = broken_limits(solved, (len(inverters),))
    return inverters[first_by(broken, solved["inverter_rated_w"])[0]]


def pick_array(
    sheet: Sheet,
    given: Mapping[str, Any],
    modules: Sequence[Module],
    controllers: Sequence[Controller],
    series: np.ndarray,
    own: Mapping[str, float],
) -> tuple[Module, Controller, float]:
    """Return module, controller and series count that break the fewest limits.

    Then the fewest controllers, the fewest modules, the smallest array, and the smallest controller. ``own`` are
    values of the plan's, which stand whatever the part says.
    """
    shape = (len(modules), len(controllers), len(series))
    axes = columns(modules, MODULE_GIVENS, (-1, 1, 1)) | columns(controllers, CONTROLLER_GIVENS, (-1, 1))
    solved = sheet.solve({**given, **axes, "modules_in_series_count": series, **own})
    broken = broken_limits(solved, shape)
    # Of modules on hand as many as possible are used; of modules to buy, as few.
    used = -solved["modules_count"] if "owned_modules_count" in given else solved["modules_count"]
    m, c, s = first_by(broken, solved["controllers_count"], used, solved["array_w"], solved["controller_rated_a"])
    return modules[m], controllers[c], float(series[s])
