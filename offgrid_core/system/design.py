"""From a plan to a whole sized system: every line solved, every part chosen, every limit looked at."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.errors import PlanError
from offgrid_core.quantities import show
from offgrid_core.sizing import CIRCUITS, LOADS, VOLTAGE, VOLTAGE_STEPS, chain
from offgrid_core.sizing.inverter import INVERTER_CHOICE
from offgrid_core.sizing.sun import plane_kwh_m2
from offgrid_core.system import parts as pick
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.system.plan import Plan, SitePlan
from offgrid_core.worksheet import Finding, Sheet, Solved

PEAKS = ("peak_w", "peak_va", "surge_w", "dc_peak_w")
_ROWS = {
    "count_by_row": "count",
    "power_by_row_w": "power_w",
    "hours_by_row_h": "hours_h",
    "duty_by_row_frac": "duty_frac",
    "standby_by_row_w": "standby_w",
    "week_by_row_days": "week_days",
    "coincidence_by_row_frac": "coincidence_frac",
    "power_factor_by_row_ratio": "power_factor_ratio",
    "start_by_row_factor": "start_factor",
}


@dataclass(frozen=True)
class PartsChosen:
    """The parts of a design; there is no inverter where there are only DC loads."""

    battery_unit: data.BatteryUnit
    module: data.Module
    controller: data.Controller
    inverter: data.Inverter | None


@dataclass(frozen=True)
class Design:
    """A whole sized system.

    Attributes
    ----------
    plan
        What it was made from.
    parts
        The parts named in the plan or chosen.
    loads
        The loads list solved for the month of the hardest day, one value a row.
    given, system
        Every input of the chain, and the chain solved.
    circuits
        The circuits table solved; ``circuit_names`` names its rows.
    """

    plan: Plan
    site: data.Site
    tilt_deg: float
    parts: PartsChosen
    loads: Solved
    hardest_month: int
    given: Mapping[str, Any]
    system: Solved
    circuits: Solved
    circuit_names: tuple[str, ...]

    @cached_property
    def findings(self) -> list[Finding]:
        """What every limit says, broken ones first."""
        found = self.system.findings(show) + self.circuits.findings(show)
        return sorted(found, key=lambda f: f.passed)


def size(plan: Plan) -> Design:
    """Size the whole system of a plan.

    Raises
    ------
    OffgridError
        If a part or site is unknown, or a value leaves the range of a table.
    """
    site = site_of(plan.site)
    code = data.code_setting(plan.circuits.code)
    given = _assumed(plan, code)
    rows = _row_givens(plan)
    running = LOADS.upto(*PEAKS).solve(given | rows)
    peaks = {name: float(running[name]) for name in PEAKS}
    suggested = VOLTAGE.solve(given | peaks)
    given["bank_voltage_v"] = plan.choices.bank_voltage_v or float(suggested["voltage_suggested_v"])
    inverter = _inverter(plan, given | peaks)
    given |= _fields(inverter, pick.INVERTER_GIVENS) if inverter else {"inverter_on_h": 0.0}
    given |= {name: plan.assume[name] for name in pick.INVERTER_GIVENS if name in plan.assume}
    by_month = LOADS.solve(given | rows)
    hardest = int(np.argmax(by_month["battery_day_wh"]))
    loads = LOADS.solve(given | rows | {"season_by_row_frac": rows["season_by_row_frac"][hardest]})
    given |= peaks
    given["battery_day_by_month_wh"] = by_month["battery_day_wh"]
    given["battery_mean_by_month_wh"] = by_month["battery_mean_wh"]
    given |= _chemistry_givens(plan) | _site_givens(plan, site)
    sheet = chain(plan.choices.bank_method, plan.choices.controller, inverter is not None)
    unit = _battery_unit(plan, sheet, given)
    given |= _fields(unit, pick.UNIT_GIVENS)
    given["plane_by_month_kwh_m2"], tilt_deg = _plane(plan.site, site, sheet, given)
    module, controller, series = _array(plan, sheet, given)
    given |= _fields(module, pick.MODULE_GIVENS) | _fields(controller, pick.CONTROLLER_GIVENS)
    given["modules_in_series_count"] = series
    system = sheet.solve(given)
    names, circuits = _circuits(plan, code, system)
    return Design(
        plan=plan,
        site=site,
        tilt_deg=tilt_deg,
        parts=PartsChosen(unit, module, controller, inverter),
        loads=loads,
        hardest_month=hardest + 1,
        given=given,
        system=system,
        circuits=circuits,
        circuit_names=names,
    )


def site_of(place: SitePlan) -> data.Site:
    """Return the shipped site a plan names, or a site made of its own numbers."""
    if not place.is_own:
        return data.site(place.name)
    air = place.air_temp_by_month_c or ()
    return data.Site(
        key="my_site",
        name=place.name,
        country="-",
        latitude_deg=place.latitude_deg or 0.0,
        longitude_deg=0.0,
        elevation_m=0.0,
        ghi_by_month_kwh_m2=place.sun_by_month_kwh_m2 or (),
        air_temp_by_month_c=air,
        coldest_c=min(air) if place.air_coldest_c is None else place.air_coldest_c,
        coldest_note="as given in the plan" if place.air_coldest_c is not None else "coldest monthly mean: too mild",
        source="the plan",
        licence="the plan",
        standing="given in the plan",
    )


def _assumed(plan: Plan, code: data.CodeSetting) -> dict[str, Any]:
    """Return the givens that do not depend on parts: assumptions, choices and the code setting's tables."""
    given: dict[str, Any] = {a.name: a.value for a in ASSUMPTIONS.values()} | dict(plan.assume)
    given |= {
        "autonomy_days": plan.choices.autonomy_days,
        "depth_frac": plan.choices.depth_frac,
        "battery_temp_c": plan.choices.battery_temp_c,
        "voltage_steps": VOLTAGE_STEPS,
    }
    return given | _code_givens(code)


def _code_givens(code: data.CodeSetting) -> dict[str, Any]:
    """Return the tables of a code setting under the names that the circuit lines use."""
    return {
        "next_fuse": code.fuse_size,
        "ambient_factor": code.ambient_factor,
        "cable_for_ampacity": code.conductor_for_ampacity,
        "cable_for_conductance": code.conductor_for_conductance,
        "cable_resistance": code.resistance_of,
        "cable_ampacity": code.ampacity_of,
        "ampacity_most_a": max(code.ampacity_of.y),
        "resistance_least_ohm_m": min(code.resistance_of.y),
        "table_temp_c": code.table_temp_c,
        "wire_temp_c": float(code.insulation_c),
    }


def _row_givens(plan: Plan) -> dict[str, Any]:
    """Return the loads list as columns; the season has one row of values for each month."""
    rows: dict[str, Any] = {given: [getattr(row, key) for row in plan.load] for given, key in _ROWS.items()}
    rows["on_ac_by_row_frac"] = [1.0 if row.bus == "AC" else 0.0 for row in plan.load]
    rows["season_by_row_frac"] = np.array([row.season_frac for row in plan.load]).T
    return rows


def _fields(part: Any, names: Mapping[str, str]) -> dict[str, Any]:
    return {given: float(getattr(part, field)) for given, field in names.items()}


def _chemistry_givens(plan: Plan) -> dict[str, Any]:
    kind = data.chemistry(plan.choices.chemistry)
    return _fields(kind, pick.CHEMISTRY_GIVENS) | {
        "capacity_kept": data.capacity_kept(kind.key),
        "cell_rest_voltage": data.cell_rest_voltage(kind.key),
    }


def _site_givens(plan: Plan, site: data.Site) -> dict[str, Any]:
    coldest = plan.site.air_coldest_c
    return {
        "air_temp_by_month_c": site.air_temp_by_month_c,
        "air_coldest_c": site.coldest_c if coldest is None else coldest,
        "shade_by_month_frac": plan.site.shade_by_month_frac,
    }


def _inverter(plan: Plan, given: Mapping[str, Any]) -> data.Inverter | None:
    if not plan.has_ac:
        return None
    fitting = [x for x in data.inverters() if x.bank_v == given["bank_voltage_v"]]
    if key := plan.parts.inverter:
        return _named(data.inverter(key), fitting, f"an inverter for {given['bank_voltage_v']:g} V")
    return pick.pick_inverter(INVERTER_CHOICE, given, fitting)


def _battery_unit(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> data.BatteryUnit:
    fitting = [x for x in data.battery_units() if x.chemistry == plan.choices.chemistry]
    if key := plan.parts.battery_unit:
        return _named(data.battery_unit(key), fitting, f"a {plan.choices.chemistry} battery unit")
    judged = [n for n in pick.UNIT_LIMITS if n in sheet]
    return pick.pick_battery_unit(sheet.upto("strings_count", "bank_ah", *judged), given, fitting)


def _plane(
    place: SitePlan, site: data.Site, sheet: Sheet, given: Mapping[str, Any]
) -> tuple[np.ndarray, float]:
    """Return the sun on the array, and its tilt: the plan's, or the one that needs the smallest array."""

    def plane(tilt: float) -> np.ndarray:
        return plane_kwh_m2(site.ghi_by_month_kwh_m2, site.latitude_deg, tilt, place.ground_by_month_frac)

    if place.tilt_deg is not None:
        return plane(place.tilt_deg), place.tilt_deg
    tilts = np.arange(0.0, 91.0, 5.0)
    planes = np.array([plane(t) for t in tilts])
    neutral = {"noct_c": 45.0, "power_temp_per_k": 0.0, "converter_kept_frac": 1.0}
    load_ratio = sheet.upto("load_sun_by_month_w").solve({**given, **neutral, "plane_by_month_kwh_m2": planes})
    best = int(np.argmin(np.max(load_ratio["load_sun_by_month_w"], axis=-1)))
    return planes[best], float(tilts[best])


def _array(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> tuple[data.Module, data.Controller, float]:
    kind, voltage = plan.choices.controller, given["bank_voltage_v"]
    controllers = [c for c in data.controllers() if c.kind == kind and voltage in c.banks_v]
    modules = list(data.modules())
    if key := plan.parts.controller:
        controllers = [_named(data.controller(key), controllers, f"a {kind} controller for {voltage:g} V")]
    if key := plan.parts.module:
        modules = [data.module(key)]
    wanted = plan.parts.modules_in_series_count
    series = pick.SERIES if wanted is None else np.array([wanted])
    return pick.pick_array(sheet, given, modules, controllers, series)


def _named(part: Any, fitting: list[Any], wanted: str) -> Any:
    """Return the part a plan names, if it fits."""
    if part not in fitting:
        raise PlanError(f"[parts] {part.key}: it is not {wanted}; those are {', '.join(x.key for x in fitting[:8])}")
    return part


def _circuits(plan: Plan, code: data.CodeSetting, system: Solved) -> tuple[tuple[str, ...], Solved]:
    """Return the rows of the circuits table and the table solved."""
    lengths, sun, steady = plan.circuits, code.pv_current_factor, code.continuous_factor
    bank_v = system["bank_voltage_v"]
    rows = [
        ("module string", system["module_isc_a"], sun, system["string_vmp_hot_v"], lengths.array_m, code.drop_array_frac),
        ("array to controller", system["array_circuit_a"], sun, system["string_vmp_hot_v"], lengths.array_m, code.drop_array_frac),
        ("controller to bank", system["charge_current_a"], steady, bank_v, lengths.controller_m, code.drop_controller_frac),
    ]
    if "inverter_input_a" in system:
        rows.append(("bank to inverter", system["inverter_input_a"], steady, bank_v, lengths.inverter_m, code.drop_inverter_frac))
    if system["dc_peak_w"] > 0:
        rows.append(("bank to DC loads", system["dc_circuit_a"], steady, bank_v, lengths.dc_m, code.drop_load_frac))
    names, *columns = zip(*rows, strict=True)
    keys = ("current_by_row_a", "current_by_row_factor", "voltage_by_row_v", "length_by_row_m", "drop_limit_by_row_frac")
    given = {key: np.array(column, float) for key, column in zip(keys, columns, strict=True)}
    return tuple(names), CIRCUITS.solve(dict(system) | given)
