"""What stands beside the chain: the bank by both forms, the night, critical loads, life, ventilation, a generator.

None of it feeds back into the chain; each is a worksheet of its own that reads what the chain has worked out.
"""

from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.array_ah import ARRAY_BY_AH
from offgrid_core.sizing.forms import FORMS
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.hours import CRITICAL, NIGHT, dark_by_hour_frac
from offgrid_core.sizing.life import LIFE_AT_SITE
from offgrid_core.sizing.loads import ROWS_AT_BATTERY
from offgrid_core.sizing.ventilation import VENTILATION
from offgrid_core.sizing.week import SPELL_OF_RUN
from offgrid_core.system.loading import LoadsWorked
from offgrid_core.system.plan import Plan
from offgrid_core.worksheet import Solved

#: Title of the worksheet of the generator.
BACKUP = "Backup generator"


def beside(plan: Plan, site: data.Site, loads: LoadsWorked, system: Solved) -> dict[str, Solved]:
    """Return the worksheets beside the chain that a plan asks for, solved, by title."""
    made = {
        "The bank by both forms": _both_forms(system),
        "The array by amp-hours": _by_amp_hours(plan, system),
        "Day and night": _night(site, loads),
        "Loads that must not fail": _critical(plan, loads, system),
        "Life of the bank": _life(plan, system),
        "Ventilation": _ventilation(plan, system),
        BACKUP: _generator(plan, site, system),
    }
    return {title: solved for title, solved in made.items() if solved is not None}


def _both_forms(system: Solved) -> Solved:
    given = {n: system[n] for n in FORMS.inputs}
    if "busiest_run" in system:
        return FORMS.replace(SPELL_OF_RUN["ieee1013"][0]).solve(given | {"busiest_run": system["busiest_run"]})
    return FORMS.solve(given)


def _by_amp_hours(plan: Plan, system: Solved) -> Solved | None:
    """Return the form for direct controllers, beside the watts."""
    return ARRAY_BY_AH.solve(dict(system)) if plan.choices.controller == "direct" else None


def _night(site: data.Site, loads: LoadsWorked) -> Solved:
    dark = dark_by_hour_frac(site.latitude_deg, loads.hardest + 1)
    curve = np.broadcast_to(loads.curve["hour_battery_wh"], (12, 24))[loads.hardest]
    return NIGHT.solve({"load_by_hour_wh": curve, "dark_by_hour_frac": dark})


def _critical(plan: Plan, loads: LoadsWorked, system: Solved) -> Solved | None:
    if not any(row.critical and row.power_w for row in plan.load):
        return None
    at_battery = ROWS_AT_BATTERY.solve({n: loads.busiest[n] for n in ROWS_AT_BATTERY.inputs})
    solved = CRITICAL.upto("critical_day_wh").solve({**loads.busiest, **at_battery})
    return CRITICAL.solve({**system, **loads.busiest, **at_battery}) if solved["critical_day_wh"] else None


def _life(plan: Plan, system: Solved) -> Solved | None:
    """Return the life of the bank, or nothing for a bank that an ordinary day would empty."""
    cycles = data.cycle_life(plan.choices.chemistry)
    given: dict[str, Any] = {**system, "cycle_life": cycles, "cycle_depth_least_frac": cycles.x[0]}
    day = LIFE_AT_SITE.upto("depth_day_frac").solve(given)["depth_day_frac"]
    return LIFE_AT_SITE.solve(given) if day <= cycles.x[-1] else None


def _ventilation(plan: Plan, system: Solved) -> Solved | None:
    gas = data.gas_current(plan.choices.chemistry, "boost").gas_ma_ah
    if not gas:
        return None
    given: dict[str, Any] = {**system, "gas_ma_ah": gas}
    if plan.room is None:
        return VENTILATION.upto("opening_needed_cm2", "spark_free_mm").solve(given)
    return VENTILATION.solve(given | {"room_m3": plan.room.room_m3, "opening_cm2": plan.room.opening_cm2})


def _generator(plan: Plan, site: data.Site, system: Solved) -> Solved | None:
    if plan.generator is None:
        return None
    fuel = data.fuel_curve(plan.generator.fuel)
    given: dict[str, Any] = {
        **system,
        "fuel_size_l_kwh": fuel.fuel_size_l_kwh,
        "fuel_work_l_kwh": fuel.fuel_work_l_kwh,
        "altitude_m": site.elevation_m,
        "generator_rated_w": plan.generator.rated_w,
        "generator_rated_va": plan.generator.rated_va,
        "charger_rated_a": plan.generator.charger_a,
    }
    if plan.generator.year_wh is None:
        yearly = GENERATOR.downstream("generator_year_wh")
        return GENERATOR.upto(*(n for n in GENERATOR if n not in yearly)).solve(given)
    return GENERATOR.solve(given | {"generator_year_wh": plan.generator.year_wh})
