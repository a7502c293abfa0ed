"""Lines of lesson 12: what the parameter names of the sources stand for in them.

The sources write the charge at the end of a day, between floor and full. A line here is a part of that day, so the
level it begins from is 0 in them, and what it may not pass is their floor or their capacity.
"""

from study.reading import Reading


def _night(v):
    """Read what is drawn as a charge that falls from 0 to as far below it as the bank can give."""
    return {
        "C_cap": -v["available_wh"],
        "DoD": 0,
        "S_lo": 0,
        "eta_b": 1,
        "E_pv_lo": 0,
        "E_ld_d": v["deficit_wh"],
    }


def _charge(surplus, room):
    """Return how what is put into store reads, from the names of its surplus and of the room for it."""
    return lambda v: {
        "C_cap": v[room],
        "DoD": 1,
        "S0": 0,
        "S_hi": 0,
        "eta_b": v["charge_eff_frac"],
        "E_pv_d": v[surplus],
        "E_pv_hi": v[surplus],
        "E_ld_d": 0,
    }


def _lost(v):
    """Energies in kWh; what a page does not have is not spoken of there."""
    return {
        "h_unmet": v.get("short_year_h"),
        "E_unmet": v.get("unserved_year_wh"),
        "E_load_y": v.get("wanted_year_wh"),
    }


BY_LINE = {
    "floor_wh": Reading(lambda v: {"C_cap": v["bank_wh"], "DoD": v["depth_frac"]}),
    "drawn_wh": Reading(_night),
    "early_stored_wh": Reading(_charge("early_surplus_wh", "early_room_wh")),
    "late_stored_wh": Reading(_charge("late_surplus_wh", "late_room_wh")),
    "loss_hours_frac": Reading(_lost),
    "loss_energy_frac": Reading(_lost),
    "place_by_row_frac": Reading(
        lambda v: {"E_gen": v["came_year_wh"], "E_dump": v["came_year_wh"] - v["place_by_row_wh"]}
    ),
    "spilled_frac": Reading(
        lambda v: {"E_gen": v["array_year_wh"], "E_dump": v["spilled_year_wh"] + v["clipped_year_wh"]}
    ),
    "short_year_wh": Reading(lambda v: {"Ld_m": v["wanted_by_month_wh"], "G_m": v["yield_by_month_wh"]}),
    "least_lost_frac": Reading(lambda v: {"h_unmet": 8760 * v["short_year_wh"] / sum(v["wanted_by_month_wh"])}),
    "yield_by_month_wh": Reading(
        lambda v: {
            "H_m": [v["peak_sun_by_month_h"]],
            "DAYS": [v["days_by_month_days"]],
            "P_arr": v["array_w"],
            "derate": v["delivered_by_month_frac"],
        }
    ),
    "logged_wh": Reading(lambda v: {"sumP_15": sum(v["logged_by_row_w"])}),
}

BY_MISTAKE: dict[str, Reading] = {}
