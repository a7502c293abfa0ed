"""From a plan to a whole sized system: every line solved, every part chosen, every limit looked at."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from offgrid_core import data
from offgrid_core.errors import PlanError, WorksheetError
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
_CIRCUIT_GIVENS = (
    "current_by_row_a",
    "current_by_row_factor",
    "voltage_by_row_v",
    "length_by_row_m",
    "drop_limit_by_row_frac",
)
P = TypeVar("P", data.BatteryUnit, data.Module, data.Controller, data.Inverter)


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
    given: Mapping[str, Any]
    system: Solved
    circuits: Solved
    circuit_names: tuple[str, ...]

    @cached_property
    def findings(self) -> list[Finding]:
        """What every limit says, broken ones first; a limit of the circuits, of its worst circuit."""
        found = self.system.findings(show) + self.circuits.findings(show, self.circuit_names)
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
    given |= _fields(inverter, pick.INVERTER_GIVENS) | plan.assume if inverter else {"inverter_on_h": 0.0}
    by_month = LOADS.solve(given | rows)
    if not np.any(by_month["ac_day_wh"]) and not np.any(by_month["dc_day_wh"]):
        raise PlanError("[[load]]: no load uses any energy; at least one with power and hours above 0 is wanted")
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
    given |= _fields(module, pick.MODULE_GIVENS) | _fields(controller, pick.CONTROLLER_GIVENS) | plan.assume
    given["modules_in_series_count"] = series
    system = sheet.solve(given)
    names, circuits = _circuits(plan, code, system)
    return Design(
        plan=plan,
        site=site,
        tilt_deg=tilt_deg,
        parts=PartsChosen(unit, module, controller, inverter),
        loads=loads,
        given=given,
        system=system,
        circuits=circuits,
        circuit_names=names,
    )


def site_of(place: SitePlan) -> data.Site:
    """Return the shipped site a plan names, or a site made of its own numbers."""
    if not place.is_own:
        return data.site(place.name)
    return data.Site(
        key="my_site",
        name=place.name,
        country="-",
        latitude_deg=place.latitude_deg or 0.0,
        longitude_deg=0.0,
        elevation_m=0.0,
        ghi_by_month_kwh_m2=place.sun_by_month_kwh_m2 or (),
        air_temp_by_month_c=place.air_temp_by_month_c or (),
        coldest_c=place.air_coldest_c or 0.0,
        coldest_note="as given in the plan",
        source="given in the plan",
        licence="the plan's",
        standing="common practice, no source",
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
        "cable_for_fuse": code.conductor_for_fuse,
        "cable_fuse_limit": code.fuse_limit_of,
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
    wanted = f"an inverter for {given['bank_voltage_v']:g} V"
    fitting = [x for x in data.inverters() if x.bank_v == given["bank_voltage_v"]]
    fitting = _only_named("inverter", plan.parts.inverter, fitting, wanted)
    return pick.pick_inverter(INVERTER_CHOICE, given, fitting, plan.assume)


def _battery_unit(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> data.BatteryUnit:
    kind = plan.choices.chemistry
    fitting = [x for x in data.battery_units() if x.chemistry == kind]
    fitting = _only_named("battery_unit", plan.parts.battery_unit, fitting, f"a battery unit of chemistry {kind}")
    judged = [n for n in pick.UNIT_LIMITS if n in sheet]
    return pick.pick_battery_unit(sheet.upto("strings_count", "bank_ah", *judged), given, fitting)


def _plane(place: SitePlan, site: data.Site, sheet: Sheet, given: Mapping[str, Any]) -> tuple[np.ndarray, float]:
    """Return the sun on the array, and its tilt: the plan's, or the one that needs the smallest array."""

    def plane(tilt: float) -> np.ndarray:
        return plane_kwh_m2(site.ghi_by_month_kwh_m2, site.latitude_deg, tilt, place.ground_by_month_frac)

    tilts = np.arange(0.0, 91.0, 5.0) if place.tilt_deg is None else [place.tilt_deg]
    try:
        planes = np.array([plane(t) for t in tilts])
    except WorksheetError as e:
        raise PlanError(f"[site] {e}") from None
    load_ratio = sheet.upto("load_sun_by_month_w").solve({**given, "plane_by_month_kwh_m2": planes})
    best = int(np.argmin(np.max(load_ratio["load_sun_by_month_w"], axis=-1)))
    return planes[best], float(tilts[best])


def _array(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> tuple[data.Module, data.Controller, float]:
    kind, voltage, wanted = plan.choices.controller, given["bank_voltage_v"], plan.parts.modules_in_series_count
    controllers = [c for c in data.controllers() if c.kind == kind and voltage in c.banks_v]
    controllers = _only_named(
        "controller", plan.parts.controller, controllers, f"a {kind} controller for {voltage:g} V"
    )
    modules = _only_named("module", plan.parts.module, list(data.modules()), "a module")
    series = pick.SERIES if wanted is None else np.array([wanted])
    return pick.pick_array(sheet, given, modules, controllers, series, plan.assume)


def _only_named(role: str, key: str | None, fitting: list[P], wanted: str) -> list[P]:
    """Return just the part a plan names, if it fits; all that fit if it names none."""
    named = [part for part in fitting if key in (None, part.key)]
    if not named:
        raise PlanError(f"[parts] {role}: {key!r} is not {wanted}; those are {', '.join(x.key for x in fitting)}")
    return named


def _circuits(plan: Plan, code: data.CodeSetting, system: Solved) -> tuple[tuple[str, ...], Solved]:
    """Return the rows of the circuits table and the table solved."""
    # Brighter sun and hours of it are two reasons, so on the array both factors count (NEC 690.8(A) and (B)).
    lengths, steady, sun = plan.circuits, code.continuous_factor, code.pv_current_factor * code.continuous_factor
    bank_v = system["bank_voltage_v"]
    sun_v, array_m = system["string_vmp_hot_v"], lengths.array_m
    charge_drop, inverter_drop = code.drop_controller_frac, code.drop_inverter_frac
    rows = [
        ("module string", system["module_isc_a"], sun, sun_v, array_m, code.drop_array_frac),
        ("array to controller", system["array_circuit_a"], sun, sun_v, array_m, code.drop_array_frac),
        ("controller to bank", system["charge_current_a"], steady, bank_v, lengths.controller_m, charge_drop),
    ]
    if system.get("inverter_input_a", 0) > 0:
        rows.append(("bank to inverter", system["inverter_input_a"], steady, bank_v, lengths.inverter_m, inverter_drop))
    if system["dc_peak_w"] > 0:
        rows.append(("bank to DC loads", system["dc_circuit_a"], steady, bank_v, lengths.dc_m, code.drop_load_frac))
    names, *columns = zip(*rows, strict=True)
    given = {key: np.array(column, float) for key, column in zip(_CIRCUIT_GIVENS, columns, strict=True)}
    try:
        return tuple(names), CIRCUITS.solve(dict(system) | given)
    except WorksheetError as e:
        raise PlanError(f"main circuits: {e}; change the load, the bank voltage or what is assumed") from None
