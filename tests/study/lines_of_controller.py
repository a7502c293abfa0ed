"""Lines of lesson 08: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _row(v):
    """A row of modules on a morning or a day; what a page does not have is not spoken of there."""
    return {
        "n_s_pv": v.get("modules_in_series_count"),
        "n_p_pv": v.get("array_strings_count"),
        "Voc": v.get("module_voc_v"),
        "Vmp": v.get("module_vmp_v"),
        "beta_pct": 100 * v["voc_temp_per_k"],
        "T_min": v["air_coldest_c"],
        "V_lim": v.get("controller_voltage_max_v"),
    }


def _floor(v):
    return {
        "V_track": v["start_voltage_v"],
        "V_bank": v.get("bank_voltage_v"),
        "Vmp": v["module_vmp_v"],
        "gamma_pct": 100 * v["power_temp_per_k"],
        "T_cell": v["cell_hottest_c"],
    }


def _current(v):
    """Watts of the array at the bank's voltage, or amps of its rows; the controller's own loss cancels."""
    series, vmp = v.get("modules_in_series_count"), v.get("module_vmp_v")
    return {
        "P_arr": v.get("array_w"),
        "eta_c": 1,
        "V_chg_low": v["bank_voltage_v"],
        "Vmp_string": series * vmp if series and vmp else None,
        "n_s_pv": series,
        "n_p_pv": v.get("array_strings_count"),
        "Isc": v.get("module_isc_a"),
        "Imp": v.get("module_imp_a"),
    }


def _rating(_):
    return {"n_p_pv": 1, "Isc": 1}


def _side_by_side(v):
    return {"I_need": v["controller_needed_a"], "I_rated": v["controller_rated_a"]}


def _straight_through(v):
    return {
        "n_s_pv": v["modules_in_series_count"],
        "n_p_pv": 1,
        "Imp": 1,
        "Vmp": v["module_vmp_v"],
        "V_chg": v["bank_voltage_v"],
    }


BY_LINE = {
    "string_voc_cold_v": Reading(_row),
    "series_most_count": Reading(_row),
    "series_fewest_count": Reading(_floor),
    "charge_current_a": Reading(_current),
    "controller_needed_a": Reading(_rating),
    "controllers_count": Reading(_side_by_side),
    "converter_kept_frac": Reading(_straight_through),
}
BY_MISTAKE: dict[str, Reading] = {}
