"""From a plan to a whole sized system: every line solved, every part chosen, every limit looked at."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from offgrid_core import data
from offgrid_core.errors import PlanError, WorksheetError
from offgrid_core.quantities import show
from offgrid_core.sizing import VOLTAGE, VOLTAGE_STEPS, chain
from offgrid_core.sizing.inverter import INVERTER_CHOICE
from offgrid_core.sizing.orientation import Orientation, best_for_load
from offgrid_core.sizing.sky import plane_kwh_m2, towards_equator_deg
from offgrid_core.system import givens as give
from offgrid_core.system import loading
from offgrid_core.system import parts as pick
from offgrid_core.system.beside import beside
from offgrid_core.system.circuits import Wire, bank_leads_of, circuits_of
from offgrid_core.system.plan import Plan
from offgrid_core.system.protection import BATTERY_ROWS, Protection, protect
from offgrid_core.system.sections import SitePlan
from offgrid_core.worksheet import SEVERITIES, Finding, Sheet, Solved

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
    tilt_deg, azimuth_deg
        Tilt of the array from the flat, and where it faces, clockwise from north.
    parts
        The parts named in the plan or chosen.
    loads
        The loads list solved for the month of the hardest day, one value a row.
    hardest_month
        The month of the hardest day, 1 for January.
    curve
        Energy out of the battery, Wh: twelve months of 24 hours.
    given, system
        Every input of the chain, and the chain solved.
    circuits
        The circuits table solved; ``circuit_names`` names its rows.
    protection
        What a short circuit drives in each circuit, and the device that opens it.
    more
        What stands beside the chain, by title: the night, the life of the bank, ventilation, a generator.
    """

    plan: Plan
    site: data.Site
    tilt_deg: float
    azimuth_deg: float
    parts: PartsChosen
    loads: Solved
    hardest_month: int
    curve: np.ndarray
    given: Mapping[str, Any]
    system: Solved
    circuits: Solved
    circuit_names: tuple[str, ...]
    protection: Protection
    more: Mapping[str, Solved]

    @cached_property
    def bank_leads(self) -> Solved:
        """The leads of a battery string and the bank's main leads; a single string has the main leads alone."""
        return bank_leads_of(self.plan, data.code_setting(self.plan.circuits.code), self.circuits, self.protection)

    @property
    def wires(self) -> tuple[Wire, ...]:
        """Everything that takes cable: the main circuits, and the leads of the bank."""
        circuits = [Wire(name, self.circuits, i) for i, name in enumerate(self.circuit_names)]
        leads = [Wire(name, self.bank_leads, i) for i, name in enumerate(BATTERY_ROWS)]
        return (*circuits, *(leads if self.system["strings_count"] > 1 else leads[1:]))

    @cached_property
    def findings(self) -> list[Finding]:
        """What every limit says, in the usual units (see :meth:`findings_in`)."""
        return self.findings_in(show)

    def findings_in(self, shown: Callable[[str, Any], str]) -> list[Finding]:
        """Return what every limit says, broken ones and the worst first; ``shown`` is the text of a value.

        A limit with a value for each circuit is judged by its worst circuit, the bank's leads among them.
        """
        leads = {f.name: f for f in self.bank_leads.findings(shown, BATTERY_ROWS)}
        wires = self.circuits.findings(shown, self.circuit_names)
        found = self.system.findings(shown) + [min(f, leads.get(f.name, f), key=lambda x: x.margin) for f in wires]
        found += self.protection.findings(shown)
        found += [finding for solved in self.more.values() for finding in solved.findings(shown)]
        return sorted(found, key=lambda f: (f.passed, SEVERITIES.index(f.severity)))


def size(plan: Plan) -> Design:
    """Size the whole system of a plan.

    Where the plan leaves the bank voltage open, it is the lowest of the usual steps, from the one that the current
    suggests, at which the fewest limits are broken.

    Raises
    ------
    OffgridError
        If a part or site is unknown, or a value leaves the range of a table.
    """
    if plan.choices.bank_voltage_v is not None:
        return _at_voltage(plan, plan.choices.bank_voltage_v)
    given, refused = _begun(plan), list[PlanError]()
    least, tried = float(VOLTAGE.solve(given)["voltage_suggested_v"]), list[Design]()
    for volts in VOLTAGE_STEPS.y:
        if volts >= least:
            try:
                tried.append(_at_voltage(plan, volts))
            except PlanError as e:  # a part that the plan names is for another voltage
                refused.append(e)
    if not tried:
        raise refused[0]
    return min(tried, key=lambda design: sum(not f.passed for f in design.findings))


def _begun(plan: Plan) -> dict[str, Any]:
    """Return the givens that do not depend on the bank voltage."""
    site, code = give.site_of(plan.site), data.code_setting(plan.circuits.code)
    given = give.assumed(plan, code) | give.site_givens(plan.site, site) | loading.rows_of(plan)
    given |= loading.peaks_of(plan, given)
    if not given["peak_w"] and not given["dc_peak_w"]:
        raise PlanError("[[load]] power_w: no load has running power; at least one with power_w above 0 W is wanted")
    return given


def _at_voltage(plan: Plan, bank_voltage_v: float) -> Design:
    site, code = give.site_of(plan.site), data.code_setting(plan.circuits.code)
    given = _begun(plan) | {"bank_voltage_v": bank_voltage_v}
    inverter = _inverter(plan, given)
    given |= give.fields_of(inverter, pick.INVERTER_GIVENS) | plan.assume if inverter else {"inverter_on_h": 0.0}
    loads = loading.loads_of(given)
    given |= loads.givens
    if plan.choices.spell_rule == "busiest_run":
        given |= loading.busiest_run(given)
    given |= give.chemistry_givens(data.chemistry(plan.choices.chemistry))
    given |= give.cold_voltage_of(code, given["air_coldest_c"])
    sheet = chain_of(plan, given)
    unit = _battery_unit(plan, sheet, given)
    given |= give.fields_of(unit, pick.UNIT_GIVENS)
    plane = _plane(plan.site, site, given)
    given["plane_by_month_kwh_m2"] = plane.plane_by_month_kwh_m2
    module, controller, series = _array(plan, sheet, given)
    given |= give.fields_of(module, pick.MODULE_GIVENS) | give.fields_of(controller, pick.CONTROLLER_GIVENS)
    given |= plan.assume | {"modules_in_series_count": series}
    system = sheet.solve(given)
    names, circuits = circuits_of(plan, code, system)
    return Design(
        plan=plan,
        site=site,
        tilt_deg=plane.tilt_deg,
        azimuth_deg=plane.azimuth_deg,
        parts=PartsChosen(unit, module, controller, inverter),
        loads=loads.busiest,
        hardest_month=loads.hardest + 1,
        curve=np.broadcast_to(loads.curve["hour_battery_wh"], (12, 24)),
        given=given,
        system=system,
        circuits=circuits,
        circuit_names=names,
        protection=protect(circuits, names, data.protective_devices()),
        more=beside(plan, site, loads, system),
    )


def chain_of(plan: Plan, given: Mapping[str, Any], controller: str | None = None) -> Sheet:
    """Return the chain in the kinds that a plan, its chemistry and its code setting ask for.

    ``controller`` is the kind of charge controller, if not the plan's.
    """
    return chain(
        plan.choices.bank_method,
        controller or plan.choices.controller,
        plan.has_ac,
        spell_rule=plan.choices.spell_rule,
        equalize="equalize_cell_v" in given,
        cold_table="cold_voltage_factor" in given,
        acid="gravity_of_charge" in given,
        enclosure="room_leak_w_k" in given,
        owned_bank=plan.owned.battery_unit is not None,
        owned_array=plan.owned.module is not None,
    )


def _inverter(plan: Plan, given: Mapping[str, Any]) -> data.Inverter | None:
    if not plan.has_ac:
        return None
    wanted = f"an inverter for {given['bank_voltage_v']:g} V"
    fitting = [x for x in data.inverters() if x.bank_v == given["bank_voltage_v"]]
    fitting = _only_named("[parts] inverter", plan.parts.inverter, fitting, wanted)
    return pick.pick_inverter(INVERTER_CHOICE, given, fitting, plan.assume)


def _battery_unit(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> data.BatteryUnit:
    kind, named = plan.choices.chemistry, plan.owned.battery_unit or plan.parts.battery_unit
    fitting = [x for x in data.battery_units() if x.chemistry == kind]
    place = "[owned] battery_unit" if plan.owned.battery_unit else "[parts] battery_unit"
    fitting = _only_named(place, named, fitting, f"a battery unit of chemistry {kind}")
    if plan.owned.battery_unit:
        _check_one_string(plan, sheet, given, fitting[0])
    judged = [n for n in pick.UNIT_LIMITS if n in sheet]
    return pick.pick_battery_unit(sheet.upto("strings_count", "bank_ah", *judged), given, fitting)


def _check_one_string(plan: Plan, sheet: Sheet, given: Mapping[str, Any], unit: data.BatteryUnit) -> None:
    strings = sheet.upto("strings_count").solve({**given, **give.fields_of(unit, pick.UNIT_GIVENS)})
    if strings["strings_count"] < 1:
        whole = show("units_in_series_count", strings["units_in_series_count"])
        raise PlanError(
            f"[owned] units_count: {plan.owned.units_count:g} is not one whole string; a string of {unit.label} "
            f"at {given['bank_voltage_v']:g} V has {whole}, so at least {whole} are wanted"
        )


def _plane(place: SitePlan, site: data.Site, given: Mapping[str, Any]) -> Orientation:
    """Return the plane of the array: the plan's, or the one that needs the smallest array."""
    flat, latitude, ground = site.ghi_by_month_kwh_m2, site.latitude_deg, place.ground_by_month_frac
    facing = towards_equator_deg(latitude) if place.azimuth_deg is None else place.azimuth_deg
    try:
        if place.tilt_deg is not None:
            sun = plane_kwh_m2(flat, latitude, place.tilt_deg, facing, ground)
            return Orientation(place.tilt_deg, facing, sun)
        load, shade = given["battery_mean_by_month_wh"], place.shade_by_month_frac
        return best_for_load(flat, latitude, load, shade, ground, [facing], given["tilt_least_deg"])
    except WorksheetError as e:
        raise PlanError(f"[site] {e}") from None


def _array(plan: Plan, sheet: Sheet, given: Mapping[str, Any]) -> tuple[data.Module, data.Controller, float]:
    kind, voltage, wanted = plan.choices.controller, given["bank_voltage_v"], plan.parts.modules_in_series_count
    controllers = [c for c in data.controllers() if c.kind == kind and voltage in c.banks_v]
    controllers = _only_named(
        "[parts] controller", plan.parts.controller, controllers, f"a {kind} controller for {voltage:g} V"
    )
    modules = _only_named("[parts] module", plan.owned.module or plan.parts.module, list(data.modules()), "a module")
    series = pick.SERIES if wanted is None else np.array([wanted])
    if plan.owned.modules_count:
        series = series[series <= plan.owned.modules_count]
    if not series.size:
        raise PlanError(
            f"[owned] modules_count: {plan.owned.modules_count:g} modules make no string of {wanted:g} in series; "
            "own more, or ask for fewer in series"
        )
    return pick.pick_array(sheet, given, modules, controllers, series, plan.assume)


def _only_named(place: str, key: str | None, fitting: list[P], wanted: str) -> list[P]:
    """Return just the part a plan names, if it fits; all that fit if it names none."""
    named = [part for part in fitting if key in (None, part.key)]
    if not named:
        raise PlanError(f"{place}: {key!r} is not {wanted}; those are {', '.join(x.key for x in fitting)}")
    return named
