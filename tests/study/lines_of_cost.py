"""Lines of lesson 13: what the parameter names of the sources stand for in them."""

import numpy as np

from study.reading import Reading


def _calendar(v):
    return {
        "cal_y": v["float_life_years"],
        "T_mean": v["life_temp_c"],
        "T_table": v["life_table_c"],
        "dT_half": v["halving_k"],
    }


def _given(v):
    """Read the price as 1: what the source divides by is the line. A label's capacity is measured as it comes out."""
    return {
        "price": 1,
        "cycles": v["reference_cycles_count"],
        "C_kWh": v["bank_wh"] / 1000,
        "DoD": v["reference_depth_frac"],
        "eta_b": 1,
    }


def _real(v):
    return {"r_nom": v["nominal_rate_frac"], "infl": v["inflation_frac"]}


def _in_a_year(v):
    return {"cost": 1, "r": v["discount_rate_frac"], "y": v["year_by_row_years"]}


def _times(v):
    """Return how many new banks are paid for."""
    return float(np.sum(v["bank_replaced_by_row_count"]))


def _bought(v):
    """Read lives of one year and a horizon half a year after the last: as many new banks as stand on the page."""
    return {"horizon": _times(v) + 0.5, "life": 1}


def _undiscounted(v):
    """The source counts banks at today's price: all beyond that is what the discount has taken off."""
    return v["bank_replaced_cost"] - v["bank_cost"] * _times(v)


def _count(v):
    return {"horizon": v["horizon_years"], "life": v["bank_life_years"]}


def _one_year(v):
    return {"r": v["discount_rate_frac"], "y": v["horizon_years"]}


def _used(v):
    return {"crf": 1, "capex": 1, "opex": 0, "E_use": v["served_year_wh"], "E_gen": v["array_year_wh"]}


BY_LINE = {
    "calendar_life_years": Reading(_calendar),
    "life_drawn_wh": Reading(_given, upside_down=True),
    "discount_rate_frac": Reading(_real),
    "present_by_row_factor": Reading(_in_a_year),
    "bank_replaced_cost": Reading(_bought, beside=_undiscounted),
    "bank_replaced_count": Reading(_count),
    "recovery_factor": Reading(_one_year),
    "kwh_cost": Reading(_used),
}
BY_MISTAKE: dict[str, Reading] = {}
