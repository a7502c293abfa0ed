"""Generator and year: the text formulas and the worksheets that they are about.

The source speaks of a battery's day, through which all the sun passes. Here that day is two hours of the balance: the
loads in the dark and then the sun, or the other way round, which is the same sum wherever the order of floor and full
does not matter.
"""

import math

import numpy as np

from mistakes.text_formulas import rows_beside
from offgrid_core.practice import mistake
from offgrid_core.sizing.balance import HOUR, HOUR_WITH_GENERATOR, stepper
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.generator_teaching import RESTORE
from offgrid_core.sizing.hourly_sun import MONTH_DAYS
from offgrid_core.sizing.year_teaching import DAY, LOG, MONTHS_SHORT, YIELD
from offgrid_core.sizing.year_totals import CAME, GENERATOR_YEAR, YEAR
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
#: Rows of the source's topics that are not in the catalogue, and why.
LEFT_OUT: dict[str, str] = {}

#: The year works the energy lost before the hours that fell short; who takes one for the other has both before them.
_LOST = Sheet(*(YEAR[n] for n in ("wanted_year_wh", "unserved_year_wh", "short_year_h", "loss_energy_frac")))


class Day:
    """Two hours of the balance, one after the other, with the store at the end of them."""

    def __init__(self, sheet):
        self.sheet = sheet
        self._stepper = stepper(sheet)

    def written(self, **lines):
        return Day(self.sheet.written(**lines))

    def solve(self, given):
        steady, series, start = given
        _, end = self._stepper.path(steady, series, start)
        return end


_BALANCES = (Day(HOUR), Day(HOUR_WITH_GENERATOR))


def day(p, dark_first=True, store="S0", sun="E_pv_d"):
    """Return the steady inputs, the two hours, and what they begin with: charging neither tapered nor slowed."""
    steady = {
        "array_w": 1000,
        "controller_hour_wh": math.inf,
        "bank_wh": p["C_cap"],
        "depth_frac": p["DoD"],
        "taper_frac": 1,
        "charge_most_wh": math.inf,
        "charge_eff_frac": p["eta_b"],
        "leak_frac": 0,
        "reconnect_frac": 0.2,
        # the generator stands by and never starts
        "generator_start_frac": 0,
        "generator_stop_frac": 0.9,
        "run_least_h": 0,
        "charger_hour_wh": 1000,
    }
    order = slice(None, None, 1 if dark_first else -1)
    series = {
        "yield_h": [0, p[sun] / 1000][order],
        "wanted_wh": [p["E_ld_d"], 0][order],
        "kept_now_frac": [1, 1],
        "may_charge_frac": [1, 1],
    }
    return steady, series, {"store_wh": p[store], "connected_frac": 1, "was_running_frac": 0, "run_h": 0}


def engine(p):
    """Return what the generator's worksheets need, in watts; the charger is known by what it takes."""
    dc_w, ac_w = 1000 * p["P_chg"] * p["eta_chg"], 1000 * p["P_chg"]
    return {
        "charger_dc_w": dc_w,
        "charger_ac_w": ac_w,
        "charger_eff_frac": p["eta_chg"],
        "generator_rated_w": 1000 * p["P_gen"],
        "generator_year_wh": 1000 * p["E_def"],
        "restore_wh": 1000 * p["E_def"],
        "dc_running_w": 1000 * p["P_ld"],
        "charger_a": dc_w / p["V_bank"],
        "absorb_set_v": p["V_bank"],
        "generator_run_ah": 1000 * p["E_def"] / p["V_bank"],
        "charger_pf_ratio": p["pf_chg"],
        "peak_va": 1000 * p["P_l2"] / p["pf_l2"],
        "peak_w": 1000 * p["P_l2"],
        "generator_other_w": 1000 * p["P_l2"],
        "generator_kept_frac": p["f_alt"],
        "bank_wh": p["Ah_bank"] * p["V_bank"],
        "bank_ah": p["Ah_bank"],
        "charge_eff_frac": p["eta_b"],
        "generator_start_frac": p["S_start"],
        "generator_stop_frac": p["S_stop"],
        "charger_rated_a": p["I_rated"],
        "charge_most_a": p["I_most"],
    }


def fuel(p):
    return {
        "fuel_size_l_kwh": p["a0"],
        "fuel_work_l_kwh": p["a1"],
        "generator_rated_w": 1000 * p["P_gen"],
        "generator_load_w": 1000 * p["P_out"],
        "generator_run_h": p["hrs"],
        "charger_eff_frac": p["eta_chg"],
        "generator_ran_h": p["hrs"],
        "generator_year_wh": 1000 * p["P_out"] * p["hrs"] * p["eta_chg"],
    }


def lost(p):
    """Return a year, hour by hour, in which the load fell short in so many of them."""
    hours = np.zeros(8760)
    hours[: p["h_unmet"]] = 1000 * p["E_unmet"] / p["h_unmet"]
    return {"unserved_by_hour_wh": hours, "wanted_by_hour_wh": 1000 * p["E_load_y"] / 8760 * np.ones(8760)} | {
        "hours_year_h": 8760
    }


def lost_alike(p):
    """Return sums in which the energy lost is the same share as the hours."""
    return {"unserved_year_wh": p["h_unmet"], "wanted_year_wh": 8760}


def three_steps(sun, early=True, store="S0"):
    """Return what the day by hand begins from: a night of all the loads, then all the sun, early or late."""

    def given(p):
        steady, series, _ = day(p)
        night = {"deficit_wh": max(series["wanted_wh"]), "store_wh": p[store], "kept_now_frac": 1}
        bright = {"early_surplus_wh": p[sun] if early else 0, "late_surplus_wh": 0 if early else p[sun]}
        return {n: steady[n] for n in ("bank_wh", "depth_frac", "charge_eff_frac")} | night | bright

    return given


def months_alone(p):
    return {"wanted_by_month_wh": 1000 * np.array(p["Ld_m"]), "yield_by_month_wh": 1000 * np.array(p["G_m"])}


def months_short(p):
    """Return a year in which as many watt-hours are missing as hours fell short, out of 8760."""
    return {"wanted_by_month_wh": np.full(12, 730.0), "yield_by_month_wh": np.full(12, 730 - p["h_unmet"] / 12)}


def months_apart(p):
    """Return twelve months, each a step that neither gets nor leaves anything in store."""
    steady, _, start = day(p)
    load, sun = 1000 * np.array(p["Ld_m"]), 1000 * np.array(p["G_m"])
    step = {"yield_h": sun / 1000, "wanted_wh": load, "kept_now_frac": 1, "may_charge_frac": 1}
    solved = HOUR.solve(steady | start | step | {"store_wh": 0})
    return {
        "wanted_by_hour_wh": load,
        "unserved_by_hour_wh": solved["unserved_wh"],
        "array_offer_by_hour_wh": solved["array_offer_wh"],
    }


def months(p):
    return {
        "array_w": p["P_arr"],
        "peak_sun_by_month_h": np.array(p["H_m"]),
        "days_by_month_days": np.array(p["DAYS"]),
        "delivered_by_month_frac": np.full(12, p["derate"]),
    }


def went(p):
    return {
        "array_year_wh": p["E_gen"],
        "place_by_row_wh": p["E_gen"] - p["E_dump"],
        "spilled_year_wh": 0.8 * p["E_dump"],
        "clipped_year_wh": 0.2 * p["E_dump"],
    }


def one_hour(p):
    steady, _, start = day(p)
    sun = {"yield_h": p["E_pv_d"] / 1000, "controller_hour_wh": p["E_ctl"]}
    return steady | start | sun | {"wanted_wh": 0, "kept_now_frac": 1, "may_charge_frac": 1}


def _alone(sheet, *names):
    return Sheet(*(sheet[n] for n in names))


def _for(sheet, given):
    """Return givens without what the worksheet works out itself."""
    return lambda p: {n: v for n, v in given(p).items() if n not in sheet}


#: Line → worksheet, result, givens; for the lines that one worksheet is enough for.
_PLACES = {
    "charger_ac_w": (_alone(GENERATOR, "charger_ac_w"), "charger_ac_w", engine),
    "charger_dc_w": (
        _alone(GENERATOR, "charger_dc_w") + _alone(RESTORE, "charger_spare_w", "restore_h"),
        "restore_h",
        engine,
    ),
    "charger_spare_w": (_alone(RESTORE, "charger_spare_w", "restore_h"), "restore_h", engine),
    "restore_h": (_alone(RESTORE, "charger_spare_w", "restore_h"), "restore_h", engine),
    "generator_year_h": (_alone(GENERATOR, "generator_year_h"), "generator_year_h", engine),
    "generator_run_h": (_alone(GENERATOR, "generator_run_h"), "generator_run_h", engine),
    "generator_run_ah": (_alone(GENERATOR, "generator_run_ah"), "generator_run_ah", engine),
    "restore_wh": (_alone(RESTORE, "restore_wh"), "restore_wh", engine),
    "charger_a": (_alone(GENERATOR, "charger_a"), "charger_a", engine),
    "generator_load_w": (_alone(GENERATOR, "generator_load_w"), "generator_load_w", engine),
    "generator_load_va": (
        _alone(GENERATOR, "generator_load_va", "generator_needed_va"),
        "generator_needed_va",
        engine,
    ),
    "generator_needed_va": (
        _alone(GENERATOR, "generator_load_va", "generator_needed_va"),
        "generator_needed_va",
        engine,
    ),
    "fuel_l_h": (_alone(GENERATOR, "fuel_l_h", "fuel_run_l"), "fuel_run_l", fuel),
    "generator_fuel_l": (_alone(GENERATOR_YEAR, "generator_fuel_l"), "generator_fuel_l", fuel),
    "loss_hours_frac": (_alone(YEAR, "short_year_h", "loss_hours_frac"), "loss_hours_frac", lost),
    "loss_energy_frac": (_alone(YEAR, "loss_energy_frac"), "loss_energy_frac", lost_alike),
    "early_stored_wh": (DAY, "dusk_wh", three_steps("E_pv_d")),
    "late_stored_wh": (DAY, "dusk_wh", three_steps("E_pv_hi", early=False, store="S_hi")),
    "least_lost_frac": (MONTHS_SHORT, "least_lost_frac", months_short),
    "short_year_wh": (MONTHS_SHORT, "short_year_wh", months_alone),
    "unserved_year_wh": (_alone(YEAR, "wanted_year_wh", "unserved_year_wh"), "unserved_year_wh", months_apart),
    "yield_by_month_wh": (YIELD, "yield_year_wh", months),
    "yield_year_wh": (YIELD, "yield_year_wh", months),
    "logged_wh": (
        LOG,
        "logged_wh",
        lambda p: {"logged_by_row_w": np.full(4, p["sumP_15"] / 4), "sample_h": 0.25},
    ),
    "place_by_row_frac": (CAME, "place_by_row_frac", went),
    "spilled_frac": (_alone(YEAR, "spilled_frac"), "spilled_frac", went),
    "array_in_wh": (HOUR, "array_in_wh", one_hour),
    "floor_wh": (HOUR, "floor_wh", one_hour),
}
#: How the source's day is stepped, by its row: sun and load of a bright day, of a dull one, of any.
_DAYS = {
    "YS-01": lambda p: day(p, store="S_hi", sun="E_pv_hi"),
    "YS-02": lambda p: day(p, dark_first=False, store="S_lo", sun="E_pv_lo"),
} | dict.fromkeys(("YS-03", "YS-04", "YS-05", "YS-06"), day)


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    lines = mistake(id_).lines
    if id_ in _DAYS:
        hours = [(n, each, "store_wh", _DAYS[id_]) for n in lines if n in HOUR for each in _BALANCES]
        return hours + [(n, *_PLACES[n]) for n in lines if n not in HOUR]
    if id_ == "YS-10":
        return [("loss_energy_frac", _LOST, "loss_energy_frac", lost)]
    return [(n, sheet, result, _for(sheet, given)) for n in lines for sheet, result, given in [_PLACES[n]]]


def adjusted(id_, p):
    """Return a draw as one row means it."""
    if id_ in ("GE-01", "GE-02", "GE-03", "GE-04", "GE-05", "GE-20"):
        return p | {"P_ld": 0}  # nothing runs meanwhile
    if id_ == "YS-06":
        return p | {"eta_b": 1}  # the source's swapped sum has no charging loss in it
    return p


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    capacity, depth, start = rng.uniform(2000, 20_000), rng.uniform(0.5, 0.8), rng.uniform(0.25, 0.5)
    stop = rng.uniform(0.75, 0.92)
    year, energy = rng.randint(40, 800), rng.uniform(1000, 9000)
    return {
        "E_def": rng.uniform(3, 20),
        "P_chg": rng.uniform(0.6, 2),
        "eta_chg": rng.uniform(0.8, 0.93),
        "P_gen": rng.uniform(2.2, 6),
        "P_ld": rng.uniform(0.05, 0.35),
        "V_bank": rng.choice([12, 24, 48]),
        "Ah_bank": rng.uniform(100, 900),
        "S_start": start,
        "S_stop": stop,
        "dSOC": stop - start,
        "eta_b": rng.uniform(0.78, 0.95),
        "I_rated": rng.uniform(30, 120),
        "I_most": rng.uniform(30, 120),
        "hrs": rng.uniform(1, 9),
        "a0": rng.uniform(0.06, 0.12),
        "a1": rng.uniform(0.2, 0.3),
        "P_out": rng.uniform(0.6, 2),
        "P_l2": rng.uniform(0.3, 1.5),
        "pf_chg": rng.uniform(0.6, 0.9),
        "pf_l2": rng.uniform(0.7, 0.97),
        "f_alt": rng.uniform(0.69, 0.95),
        "C_cap": capacity,
        "DoD": depth,
        "S0": capacity * rng.uniform(0.72, 0.8),
        "S_hi": capacity * rng.uniform(0.85, 0.99),
        "S_lo": capacity * (1 - depth + rng.uniform(0, 0.1)),
        "E_ld_d": capacity * rng.uniform(0.06, 0.19),
        "E_pv_d": capacity * rng.uniform(0.05, 0.25),
        "E_pv_hi": capacity * rng.uniform(0.3, 0.6),
        "E_pv_lo": capacity * rng.uniform(0.005, 0.03),
        "E_ctl": capacity * rng.uniform(0.05, 0.25),
        "h_unmet": year,
        "E_unmet": year * rng.uniform(0.05, 0.9),
        "E_load_y": rng.uniform(1500, 5000),
        "Ld_m": [rng.uniform(80, 120) for _ in range(12)],
        "G_m": [rng.uniform(60, 125) for _ in range(12)],
        "H_m": [rng.uniform(2, 6.5) for _ in range(12)],
        "DAYS": MONTH_DAYS.tolist(),
        "P_arr": rng.uniform(300, 4000),
        "derate": rng.uniform(0.55, 0.82),
        "sumP_15": rng.uniform(2000, 40_000),
        "E_gen": energy,
        "E_dump": energy * rng.uniform(0.1, 0.6),
    }
