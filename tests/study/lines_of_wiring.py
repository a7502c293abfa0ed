"""Lines of lesson 10: what the parameter names of the sources stand for in them.

Sizes are read here from the published columns, not through the package's tables.
"""

import csv
from bisect import bisect_left, bisect_right
from pathlib import Path

from study.reading import Reading

_FOLDER = Path(__file__).parents[2] / "datasets"


def _column(name, *fields, **only):
    with (_FOLDER / name).open(encoding="utf-8") as source:
        rows = [r for r in csv.DictReader(source) if all(r[k] == v for k, v in only.items())]
    return [[float(r[f]) for r in rows] for f in fields]


_FUSES = {family: _column("fuse_sizes.csv", "size_a", family=family)[0] for family in ("us", "iec")}
_AREAS = dict(zip(("A", "mm2"), _column("conductors_us.csv", "ampacity_75_a", "area_mm2"), strict=True))


def _next(sizes):
    return lambda amperes: sizes[bisect_left(sizes, amperes)]


def _below(sizes):
    return lambda amperes: sizes[bisect_right(sizes, amperes) - 1]


def _enough(amperes):
    return _AREAS["mm2"][bisect_left(_AREAS["A"], amperes)]


def _thinner(amperes):
    return _AREAS["mm2"][bisect_left(_AREAS["A"], amperes) - 1]


def _family(v):
    """Tell the code setting of a page by a factor that only one of them has."""
    return "iec" if v.get("steady_factor", v["current_by_row_factor"]) == 1 else "us"


def _run(v):
    """Read a run of cable; what the drop is a share of cancels where the line is volts."""
    volts = v.get("voltage_by_row_v", 1)
    run = {"L_m": v["length_by_row_m"], "I_c": v["current_by_row_a"], "r_km": 1000 * v["resistance_by_row_ohm_m"]}
    return run | {"V_sys": volts, "V_ac": v.get("ac_v")}


def _share(v):
    """A share of so many volts: a metre of 1 A, whose wire drops half of them each way."""
    return {"L_m": 1, "I_c": 1, "r_km": 500 * v["drop_by_row_v"], "V_sys": v["voltage_by_row_v"], "V_ac": v["ac_v"]}


def _area(v):
    return {
        "L_m": v["length_by_row_m"],
        "I_c": v["current_by_row_a"],
        "rho": 1,
        "dv": v["drop_limit_by_row_frac"],
        "V_sys": v["voltage_by_row_v"],
    }


def _hot(v):
    """The source's copper is listed at 20 °C; its resistance goes with what it is warmed by."""
    return {"L_m": 1, "I_c": 1, "rho": 1, "dv": 1, "V_sys": 1, "T_w": v["wire_temp_c"]}


def _margins(v):
    """Read a factor, or a current with its factor: one string of so many amperes."""
    amperes = v.get("current_by_row_a", v.get("module_isc_a", 1)) if "current_by_row_factor" in v else 1
    return {"n_p_pv": 1, "Isc": amperes, "I_cont": amperes, "std_up": float}


def _fuse(v):
    """Read the fuse from the current to design for, of which the source knows only one margin."""
    sizes = _FUSES[_family(v)]
    return {
        "I_cont": v["design_current_by_row_a"] / 1.25,
        "std_up": _next(sizes),
        "std_down": _below(sizes),
        "I_wire": v.get("ampacity_by_row_a"),
    }


def _wanted(v):
    """Read the rating looked for; the fuse of the page is what the source rounds its current up to."""
    return {
        "I_des": v["fuse_by_row_a"],
        "f_temp": float(v["ambient_factor"](v["ambient_c"])),
        "f_grp": v["grouping_frac"],
        "I_cont": v["current_by_row_a"],
        "std_up": lambda _: v["fuse_by_row_a"],
    }


def _laid(v):
    """Read a cable in place; what the table says of it cancels."""
    return {"I_tab": 1, "f_temp": float(v["ambient_factor"](v["ambient_c"])), "f_grp": v["grouping_frac"]}


def _voltage(v):
    """The string's voltage on the coldest morning stands for one module, a kelvin away from its label."""
    cold, label = v["string_voc_cold_v"], v["modules_in_series_count"] * v["module_voc_v"]
    return {
        "n_s_pv": 1,
        "Voc": label,
        "beta_pct": 100 * (cold / label - 1),
        "T_min": 26,
        "V_ac": v["ac_v"],
        "V_bank": v["bank_voltage_v"],
    }


def _inside(v):
    return {"n_p_b": v["strings_count"], "V_bank": 1, "n_s_b": 1, "R_mohm": 1000}


def _short(v):
    return {
        "n_p_b": 1,
        "V_bank": v["bank_full_v"],
        "n_s_b": 1,
        "R_mohm": 1000 * v["bank_warm_resistance_ohm"],
        "Ah_bank": v["bank_ah"],
    }


BY_LINE = {
    "length_by_row_m": Reading(lambda v: {"L_ft": v["feet_by_row_count"]}),
    "resistance_allowed_by_row_ohm_m": Reading(_area, upside_down=True),
    "resistance_by_row_ohm_m": Reading(_hot),
    "drop_by_row_v": Reading(_run),
    "drop_by_row_frac": Reading(_share),
    "current_by_row_factor": Reading(_margins),
    "design_current_by_row_a": Reading(_margins),
    "fuse_by_row_a": Reading(_fuse),
    "ampacity_wanted_by_row_a": Reading(_wanted),
    "for_ampacity_by_row_mm2": Reading(
        lambda v: {"I_des": v["ampacity_wanted_by_row_a"], "awg_enough": _enough, "awg_thinner": _thinner}
    ),
    "ampacity_by_row_a": Reading(_laid),
    "gauge_mm2": Reading(lambda v: {"pi": 3.141592653589793, "G": v["gauge_count"]}),
    "array_backfeed_a": Reading(lambda v: {"n_p3": v["strings_each_count"], "Isc": v["module_isc_a"]}),
    "voltage_most_by_row_v": Reading(_voltage),
    "bank_warm_resistance_ohm": Reading(_inside, upside_down=True),
    "bank_fault_a": Reading(_short),
}
BY_MISTAKE = {}
