"""Lines of lesson 07: what the parameter names of the sources stand for in them."""

import numpy as np

from study.reading import Reading


def _hours(v):
    """The source's array goes with 1 ÷ the hours of full sun."""
    hours = v["peak_sun_by_month_h"]
    flat = v["flat_by_month_kwh_m2"] * v["shade_by_month_frac"] if "flat_by_month_kwh_m2" in v else None
    return {"E_day": 1, "PSH_des": hours, "derate": 1, "H_daylight": v.get("daylight_by_month_h"), "PSH_ghi": flat}


def _beside_the_sun(v):
    return {"E_day": v["battery_mean_by_month_wh"], "PSH_des": v["peak_sun_by_month_h"], "derate": 1}


def _array(v):
    """Load and sun of the source stand together in the load for each hour of full sun."""
    return {"E_day": 1, "PSH_des": 1, "derate": v["delivered_by_month_frac"], "N": v.get("autonomy_days")}


def _losses(v):
    return {"l1": v["soiling_frac"], "l2": v["wiring_loss_frac"], "l3": v["mismatch_frac"]}


def _delivered(v):
    before_battery = v["delivered_by_month_frac"] / v["charge_eff_frac"]
    return {"E_day": 1, "PSH_des": 1, "derate": before_battery, "eta_b": v["charge_eff_frac"]}


def _months(v):
    """Twelve months of load and of sun; the design month's and the darkest month's among them."""
    load, sun = np.asarray(v["battery_mean_by_month_wh"]), np.asarray(v["peak_sun_by_month_h"])
    rules, darkest = int(np.argmax(load / sun)), int(np.argmin(sun))
    return {
        "E_m": load.tolist(),
        "H_m": sun.tolist(),
        "E_dark": load[darkest],
        "H_dark": sun[darkest],
        "E_day": load[rules],
        "PSH_des": sun[rules],
        "PSH_avg": sum(sun) / 12,
        "derate": 1,
    }


def _refill(v):
    return {
        "E_low": v["bank_usable_wh"],
        "R_days": v["refill_days"],
        "E_day": v["design_load_wh"],
        "PSH_des": v["design_sun_h"],
        "derate": v["design_delivered_frac"],
    }


def _refill_as_a_load(v):
    """Whatever the array has to bring in a day, load and refill together, is the source's day's energy."""
    return {"E_day": 1, "PSH_des": 1, "derate": v["design_delivered_frac"]}


def _modules(v):
    """What is needed is the largest of three demands where it does not stand on the page itself."""
    demands = ("array_for_load_w", "array_for_refill_w", "array_for_current_w")
    needed = v["array_needed_w"] if "array_needed_w" in v else max(v[n] for n in demands)
    return {"W_need": needed, "P_mod": v["module_w"], "n_s_pv": v["modules_in_series_count"]}


#: Lines above that somebody who takes other months, or other counts, does not begin from.
_MONTHS_AGAIN = ("load_sun_by_month_w", "array_by_month_w")
_COUNTS_AGAIN = ("array_strings_count",)
BY_LINE = {
    "plane_by_month_kwh_m2": Reading(lambda v: {"MJ": v["plane_by_month_mj_m2"]}),
    "peak_sun_by_month_h": Reading(_hours, upside_down=True),
    "load_sun_by_month_w": Reading(_beside_the_sun),
    "array_by_month_w": Reading(_array),
    "losses_kept_frac": Reading(_losses),
    "delivered_by_month_frac": Reading(_delivered, upside_down=True),
    "array_for_refill_w": Reading(_refill_as_a_load),
    "array_strings_count": Reading(_modules),
}
BY_MISTAKE = {
    "AR-03": Reading(_months, again=_MONTHS_AGAIN),
    "AR-17": Reading(_modules, again=_COUNTS_AGAIN),
    "AR-18": Reading(_months, again=_MONTHS_AGAIN),
    "AR-20": Reading(_months, again=_MONTHS_AGAIN),
    "AR-27": Reading(_months, again=_MONTHS_AGAIN),
    "AR-28": Reading(_refill),
}
