"""Lines of lesson 04: what the parameter names of the sources stand for in them."""

import math

from study.reading import Reading


def _label(v):
    """Read the load of the days as one lot; that of a single day stands on the page only where it was asked for."""
    return {"E_day": v["spell_ah"], "N": 1, "DoD": v["depth_frac"], "V_bank": 1}


def _at_hours(v):
    """The label's figure is the source's slow one; what is left of it at the load's pace is its quick one."""
    return {"DoD": 1, "C100": v["bank_ah"], "C20": v["bank_ah"] * min(1, v["capacity_hours_ratio"])}


def _usable(v):
    """Whatever the page has for the capacity at the load's pace, both writings begin from it."""
    held = v["capacity_at_hours_ah"]
    return {"DoD": v["depth_frac"], "C20": held, "Ah_bank": held, "V_bank": 1, "E_day": 1}


def _left(v):
    """Read a bank of 1 Ah; the limit stands on the page where somebody could take it for the whole."""
    return {"Ah_used": v["depth_frac"], "Ah_bank": 1, "DoD": v.get("depth_max_frac")}


def _cycles(v, calendar=math.inf):
    return {"cycles": v["cycles_count"], "cpd": v["cycles_year_count"] / 365, "cal_y": calendar}


def _life(v):
    """Read the years by cycles as so many cycles, one on each day of the year."""
    return {"cycles": 365 * v["cycle_life_years"], "cpd": 1, "cal_y": v["calendar_life_years"]}


BY_LINE = {
    "for_depth_ah": Reading(_label),
    "charge_left_frac": Reading(_left),
    "charge_level_frac": Reading(_left),
    "capacity_at_hours_ah": Reading(_at_hours),
    "usable_ah": Reading(_usable),
    "cycle_life_years": Reading(_cycles),
    "bank_life_years": Reading(_life),
}
BY_MISTAKE = {}
