"""Strings of battery units and the array: the text formulas and the worksheets that they are about.

Every row of the source is in the catalogue.
"""

from mistakes.text_formulas import rows_beside
from offgrid_core.practice import mistake
from offgrid_core.sizing.array import ARRAY_FOR_BANK, ARRAY_LAYOUT, ARRAY_NEED
from offgrid_core.sizing.array_ah import ARRAY_BY_AH
from offgrid_core.sizing.array_teaching import SUN_READ
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.rate import CHARGE_LIMIT
from offgrid_core.sizing.sharing import STRING_RESISTANCE
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
LEFT_OUT: dict[str, str] = {}
#: In each month the same share of the sun's work arrives, so that months differ by load and sun alone.
_MONTHS = Sheet(
    *(
        ARRAY_NEED[n]
        for n in (
            "peak_sun_by_month_h",
            "load_sun_by_month_w",
            "array_by_month_w",
            "design_month",
            "design_sun_h",
            "design_delivered_frac",
            "design_load_wh",
            "array_for_load_w",
        )
    ),
    ARRAY_FOR_BANK["array_for_refill_w"],
)
_LAYOUT = Sheet(*(ARRAY_LAYOUT[n] for n in ("array_strings_count", "modules_count")))
_HEAT = Sheet(*(ARRAY_NEED[n] for n in ("cell_temp_by_month_c", "heat_kept_by_month_frac")))
_HOTTEST = Sheet(*(ARRAY_LAYOUT[n] for n in ("cell_hottest_c", "string_vmp_hot_v")))
_STRINGS = STRINGS.upto("units_count")
_BUILT = Sheet(STRINGS["units_count"], STRINGS["bank_ah"], STRINGS["bank_wh"])
#: Line → the worksheet it is worked in, and the result that is compared.
_SHEETS = {
    "units_in_series_count": (_STRINGS, "units_in_series_count"),
    "strings_count": (_STRINGS, "strings_count"),
    "units_count": (_STRINGS, "units_count"),
    "bank_ah": (_BUILT, "bank_ah"),
    "bank_wh": (_BUILT, "bank_wh"),
    "discharge_margin_a": (Sheet(INVERTER["discharge_margin_a"]), "discharge_margin_a"),
    "unit_charge_margin_a": (CHARGE_LIMIT, "unit_charge_margin_a"),
    "string_ohm": (Sheet(STRING_RESISTANCE["string_ohm"]), "string_ohm"),
    "peak_sun_by_month_h": (_MONTHS, "array_for_load_w"),
    "load_sun_by_month_w": (_MONTHS, "array_for_load_w"),
    "array_by_month_w": (_MONTHS, "array_for_load_w"),
    "array_for_load_w": (_MONTHS, "array_for_load_w"),
    "design_month": (_MONTHS, "array_for_refill_w"),
    "design_sun_h": (_MONTHS, "array_for_refill_w"),
    "array_for_refill_w": (_MONTHS, "array_for_refill_w"),
    "array_for_current_w": (Sheet(ARRAY_FOR_BANK["array_for_current_w"]), "array_for_current_w"),
    "strings_asked_ratio": (Sheet(ARRAY_BY_AH["strings_asked_ratio"]), "strings_asked_ratio"),
    "delivered_by_month_frac": (
        Sheet(*(ARRAY_NEED[n] for n in ("load_sun_by_month_w", "delivered_by_month_frac", "array_by_month_w"))),
        "array_by_month_w",
    ),
    "losses_kept_frac": (Sheet(ARRAY_NEED["losses_kept_frac"]), "losses_kept_frac"),
    "array_strings_count": (_LAYOUT, "modules_count"),
    "modules_count": (_LAYOUT, "modules_count"),
    "plane_by_month_kwh_m2": (SUN_READ, "plane_by_month_kwh_m2"),
    "cell_temp_by_month_c": (_HEAT, "heat_kept_by_month_frac"),
    "heat_kept_by_month_frac": (_HEAT, "heat_kept_by_month_frac"),
    "cell_hottest_c": (_HOTTEST, "string_vmp_hot_v"),
    "string_vmp_hot_v": (_HOTTEST, "string_vmp_hot_v"),
}


def units(p):
    return {
        "bank_voltage_v": p["V_bank"],
        "unit_v": p["V_unit"],
        "bank_needed_ah": p["Ah_need"],
        "unit_ah": p["Ah_unit"],
    }


def built(p):
    return units(p) | {"units_in_series_count": p["n_s_b"], "strings_count": p["n_p_b"]}


def limited(p):
    """Return what currents of units are judged by: taken out by the inverter, or put in by the controllers."""
    return {
        "strings_count": p["n_p_b"],
        "units_count": p["n_s_b"] * p["n_p_b"],
        "unit_discharge_a": p["I_unit"],
        "unit_charge_a": p["I_unit"],
        "inverter_input_a": p["I_dc"],
        "charge_current_a": p["I_dc"],
    }


def resistance(p):
    return {"units_in_series_count": p["n_s_b"], "unit_ohm": p["R_unit"]}


def months(p):
    """Return an even load under the year's sun, with nothing to refill; the losses are the same in every month."""
    return {
        "battery_mean_by_month_wh": p["E_day"],
        "plane_by_month_kwh_m2": p["H_m"],
        "flat_by_month_kwh_m2": [h * p["flat_share"] for h in p["H_m"]],
        "daylight_by_month_h": p["H_daylight"],
        "shade_by_month_frac": 1,
        "full_sun_kw_m2": 1,
        "array_load_ratio": 1,
        "delivered_by_month_frac": p["derate"],
        "autonomy_days": p["N"],
        "bank_usable_wh": 0,
        "refill_days": 1,
    }


def one_month(p):
    return months(p) | {"plane_by_month_kwh_m2": p["PSH_des"]}


def uneven_months(p):
    """Return a load that has its own seasons, and no losses."""
    return months(p) | {"battery_mean_by_month_wh": p["E_m"], "delivered_by_month_frac": 1}


def refill(p):
    return months(p) | {"bank_usable_wh": p["E_low"], "refill_days": p["R_days"]}


def by_amp_hours(p):
    return {
        "design_load_ah": p["E_day"],
        "design_sun_h": p["PSH_des"],
        "losses_kept_frac": p["derate"],
        "array_load_ratio": 1,
        "autonomy_days": p["N"],
        "module_imp_a": 1,
    }


def at_noon(p):
    return {
        "charge_floor_a": p["E_day"],
        "bank_voltage_v": 1,
        "converter_kept_frac": 1,
        "losses_kept_frac": p["derate"],
    }


def losses(p):
    return {"soiling_frac": p["l1"], "wiring_loss_frac": p["l2"], "mismatch_frac": p["l3"]}


def delivered(p):
    return {
        "battery_mean_by_month_wh": p["E_day"],
        "peak_sun_by_month_h": p["PSH_des"],
        "array_load_ratio": 1,
        "losses_kept_frac": p["derate"],
        "heat_kept_by_month_frac": 1,
        "converter_kept_frac": 1,
        "charge_eff_frac": p["eta_b"],
    }


def modules(p):
    return {
        "array_needed_w": p["W_need"],
        "module_w": p["P_mod"],
        "modules_in_series_count": p["n_s_pv"],
    }


def megajoules(p):
    return {"plane_by_month_mj_m2": p["MJ"]}


def heat(p):
    """Return a module whose cells are a stated rise above the air, by either worksheet."""
    return {
        "air_temp_by_month_c": p["T_amb"],
        "noct_c": 20 + 0.8 * p["rise"],
        "working_sun_kw_m2": 1,
        "power_temp_per_k": p["gamma_pct"] / 100,
        "air_hot_c": p["T_amb"],
        "cell_rise_k": p["rise"],
        "modules_in_series_count": 1,
        "module_vmp_v": p["P_mod"],
    }


#: Line → how the source's parameters become its givens; most lines of the months have the even load.
_GIVENS = {
    "units_in_series_count": units,
    "strings_count": units,
    "units_count": units,
    "bank_ah": built,
    "bank_wh": built,
    "discharge_margin_a": limited,
    "unit_charge_margin_a": limited,
    "string_ohm": resistance,
    "array_for_current_w": at_noon,
    "strings_asked_ratio": by_amp_hours,
    "delivered_by_month_frac": delivered,
    "losses_kept_frac": losses,
    "array_strings_count": modules,
    "modules_count": modules,
    "plane_by_month_kwh_m2": megajoules,
    "cell_temp_by_month_c": heat,
    "heat_kept_by_month_frac": heat,
    "cell_hottest_c": heat,
    "string_vmp_hot_v": heat,
}
#: Rows that mean one month, a load with seasons of its own, or a bank to refill.
_ROW_GIVENS = {
    "AR-18": uneven_months,
    "AR-19": uneven_months,
    "AR-20": uneven_months,
    "AR-27": uneven_months,
    "AR-28": refill,
}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    found = []
    for line in mistake(id_).lines:
        given = _ROW_GIVENS.get(id_) or _GIVENS.get(line, months)
        if (id_, line) == ("AR-07", "load_sun_by_month_w"):
            given = one_month  # the source knows one month only; over a year the sunniest would decide
        found.append((line, *_SHEETS[line], given))
    return found


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets.

    Counts are drawn so that rounding shows: never a whole number of strings, at least two in series and side by side.
    """
    v_unit, n_s = rng.choice([(2, 6), (2, 12), (6, 2), (6, 4), (6, 8), (12, 2), (12, 4)])
    ah_unit, p_mod, n_s_pv = rng.uniform(80, 400), rng.uniform(100, 450), rng.randint(2, 4)
    sun = [rng.uniform(1.2, 7) for _ in range(12)]
    load = [rng.uniform(600, 4000) for _ in range(12)]
    dark = sun.index(min(sun))
    t_amb, rise = rng.uniform(26, 40), rng.uniform(20, 30)
    return {
        "V_unit": v_unit,
        "V_bank": v_unit * n_s,
        "Ah_unit": ah_unit,
        "Ah_need": ah_unit * (rng.randint(1, 3) + rng.uniform(0.05, 0.95)),
        "n_s_b": n_s,
        "n_p_b": rng.randint(2, 4),
        "I_unit": rng.uniform(20, 120),
        "I_dc": rng.uniform(20, 300),
        "R_unit": rng.uniform(0.001, 0.02),
        "E_day": rng.uniform(500, 6000),
        "N": rng.randint(2, 5),
        "H_m": sun,
        "E_m": load,
        "H_dark": sun[dark],
        "E_dark": load[dark],
        "PSH_des": min(sun),
        "PSH_max": max(sun),
        "PSH_avg": sum(sun) / 12,
        "flat_share": (flat_share := rng.uniform(0.6, 0.95)),
        "PSH_ghi": min(sun) * flat_share,
        "H_daylight": rng.uniform(7.5, 16),
        "derate": rng.uniform(0.55, 0.82),
        "eta_b": rng.uniform(0.75, 0.95),
        "E_low": rng.uniform(2000, 20_000),
        "R_days": rng.randint(4, 20),
        "l1": rng.uniform(0.02, 0.2),
        "l2": rng.uniform(0.02, 0.1),
        "l3": rng.uniform(0.02, 0.1),
        "P_mod": p_mod,
        "n_s_pv": n_s_pv,
        "W_need": p_mod * n_s_pv * (rng.randint(1, 5) + rng.uniform(0.05, 0.95)),
        "MJ": rng.uniform(3, 28),
        "gamma_pct": -rng.uniform(0.28, 0.5),
        "T_amb": t_amb,
        "rise": rise,
        "T_cell": t_amb + rise,
    }
