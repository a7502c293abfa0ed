"""Cost and life: the text formulas and the worksheets that they are about."""

from mistakes.text_formulas import evaluate, rows_beside
from offgrid_core.practice import mistake
from offgrid_core.sizing.cost import COST, YEARS
from offgrid_core.sizing.cost_teaching import REAL_RATE, STORED
from offgrid_core.sizing.life import LIFE
from offgrid_core.worksheet import Sheet

ROWS = rows_beside(__file__)
#: Rows of the source's topics that are not in the catalogue, and why.
LEFT_OUT = {
    "CO-08": "disputed: a label's capacity is measured as it comes out, so the loss is met while charging; putting "
    "it into the energy given as well would count it twice",
}

_CYCLES = Sheet(LIFE["cycle_life_years"], LIFE["bank_life_years"])
_AGAIN = COST.upto("bank_replaced_count", "bank_replaced_cost")
_GIVEN = Sheet(STORED["life_drawn_wh"], STORED["stored_kwh_cost"])
#: What a year costs where nothing is bought again, burnt or left over; first cost and a year's upkeep are known.
_YEARLY = Sheet(
    *(
        COST[n]
        for n in (
            "present_by_row_factor",
            "within_by_row_factor",
            "uniform_factor",
            "recovery_factor",
            "upkeep_cost",
            "life_cycle_cost",
            "year_cost",
            "kwh_cost",
        )
    )
)


def life(p):
    return {"cycles_count": p["cycles"], "cycles_year_count": 365 * p["cpd"], "calendar_life_years": p["cal_y"]}


def again(p):
    """Return what replacing needs at a rate of nothing, at which worth today and number of banks go together."""
    return {
        "year_by_row_years": YEARS,
        "horizon_years": p["horizon"],
        "bank_life_years": p["life"],
        "discount_rate_frac": 0,
        "units_count": 4,
        "unit_cost": p["price"] / 4,
        "battery_price_factor": 1,
    }


def stored(p):
    return {
        "reference_cycles_count": p["cycles"],
        "reference_depth_frac": p["DoD"],
        "bank_wh": 1000 * p["C_kWh"],
        "bank_cost": p["price"],
    }


def yearly(p):
    return {
        "year_by_row_years": YEARS,
        "horizon_years": p["y"],
        "discount_rate_frac": p["r"],
        "first_cost": p["capex"],
        "upkeep_year_cost": p["opex"],
        "replaced_cost": 0,
        "fuel_cost": 0,
        "salvage_cost": 0,
        "served_year_wh": 1000 * p["E_use"],
        "array_year_wh": 1000 * p["E_gen"],
    }


def one_year(p):
    """Return what the worth of a payment in one year needs, that year being the only one looked at."""
    return {
        "year_by_row_years": p["y"],
        "horizon_years": p["y"],
        "discount_rate_frac": p["r"],
        "salvage_frac": p["left"],
        "first_cost": p["capex"],
    }


def rate(p):
    return {"nominal_rate_frac": p["r_nom"], "inflation_frac": p["infl"]}


def warmth(p):
    return {
        "float_life_years": p["cal_y"],
        "life_temp_c": p["T_mean"],
        "life_table_c": p["T_table"],
        "halving_k": p["dT_half"],
    }


#: Line → worksheet, result, givens.
_PLACES = {
    "bank_life_years": (_CYCLES, "bank_life_years", life),
    "cycle_life_years": (_CYCLES, "bank_life_years", life),
    "bank_replaced_count": (_AGAIN, "bank_replaced_count", again),
    "bank_replaced_cost": (_AGAIN, "bank_replaced_cost", again),
    "bank_replaced_by_row_count": (_AGAIN, "bank_replaced_count", again),
    "life_drawn_wh": (_GIVEN, "stored_kwh_cost", stored),
    "present_by_row_factor": (Sheet(COST["present_by_row_factor"]), "present_by_row_factor", one_year),
    "horizon_factor": (Sheet(COST["horizon_factor"], COST["salvage_cost"]), "salvage_cost", one_year),
    "recovery_factor": (_YEARLY, "recovery_factor", yearly),
    "year_cost": (_YEARLY, "kwh_cost", yearly),
    "kwh_cost": (_YEARLY, "kwh_cost", yearly),
    "life_cycle_cost": (_YEARLY, "kwh_cost", yearly),
    "discount_rate_frac": (REAL_RATE, "discount_rate_frac", rate),
    "calendar_life_years": (Sheet(LIFE["calendar_life_years"]), "calendar_life_years", warmth),
    "upkeep_cost": (_YEARLY, "upkeep_cost", yearly),
    "salvage_cost": (Sheet(COST["horizon_factor"], COST["salvage_cost"]), "salvage_cost", one_year),
}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    return [(n, *_PLACES[n]) for n in mistake(id_).lines]


def adjusted(id_, p):
    """Return a draw as one row means it."""
    if id_ == "CO-04":
        return p | {"cal_y": 1e6}  # the source's slip leaves the calendar aside as well
    if id_ in ("CO-07", "CO-09", "CO-10"):
        return p | {"eta_b": 1}  # see CO-08 in LEFT_OUT
    if id_ == "CO-06":
        return p | {"horizon": p["life"] * (p["horizon"] // p["life"])}  # the bank dies on the project's last day
    return p


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets; lives and horizons are whole years."""
    life_years, real = rng.randint(3, 8), rng.uniform(0.03, 0.1)
    years, inflation, used = rng.randint(2, 25), rng.uniform(0.01, 0.06), rng.uniform(500, 4000)
    return {
        "cal_y": rng.uniform(5, 18),
        "cycles": rng.randint(500, 6000),
        "cpd": rng.uniform(0.2, 0.9),
        "life": life_years,
        "horizon": life_years * rng.randint(2, 4) + rng.randint(0, life_years - 1),
        "price": rng.uniform(500, 12_000),
        "C_kWh": rng.uniform(2, 30),
        "DoD": rng.uniform(0.3, 0.9),
        "eta_b": rng.uniform(0.78, 0.95),
        "cost": rng.uniform(300, 6000),
        "r": real,
        "y": years,
        "capex": rng.uniform(3000, 30_000),
        "opex": rng.uniform(60, 900),
        "crf": evaluate(ROWS["CO-16"]["correct_formula"], {"r": real, "y": years}),
        "E_use": used,
        "E_gen": used / rng.uniform(0.42, 0.9),
        "r_nom": inflation + real,
        "infl": inflation,
        "T_mean": rng.uniform(15, 35),
        "T_table": rng.choice([20, 25]),
        "dT_half": rng.uniform(8, 10),
        "left": rng.uniform(0.05, 0.3),
    }
