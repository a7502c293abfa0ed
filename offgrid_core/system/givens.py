"""What a plan, its site, its code setting and its chemistry give to the worksheets, by the worksheets' names."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from offgrid_core import data
from offgrid_core.sizing import VOLTAGE_STEPS
from offgrid_core.system import parts as pick
from offgrid_core.system.assumptions import ASSUMPTIONS, CRITICAL_RATIO, ENCLOSURES
from offgrid_core.system.plan import Plan
from offgrid_core.system.sections import SitePlan

#: Coldest and warmest site that the table of cold voltage covers, °C.
_FILLING = "deep_cycle_1265"
COLD_TABLE_C = (-40.0, 20.0)


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


def assumed(plan: Plan, code: data.CodeSetting) -> dict[str, Any]:
    """Return the givens that do not depend on parts: assumptions, choices and the code setting's tables."""
    given: dict[str, Any] = {a.name: a.value for a in ASSUMPTIONS.values()}
    if any(row.critical for row in plan.load):
        given["array_load_ratio"] = CRITICAL_RATIO
    given |= plan.assume
    given |= {
        "autonomy_days": plan.choices.autonomy_days,
        "depth_frac": plan.choices.depth_frac,
        "battery_temp_c": plan.choices.battery_temp_c,
        "voltage_steps": VOLTAGE_STEPS,
    }
    return given | owned(plan) | enclosure(plan) | code_givens(code)


def owned(plan: Plan) -> dict[str, float]:
    """Return the counts of what is on hand."""
    counts = {"owned_units_count": plan.owned.units_count, "owned_modules_count": plan.owned.modules_count}
    return {name: count for name, count in counts.items() if count is not None}


def enclosure(plan: Plan) -> dict[str, float]:
    """Return the leaks of heat of the place where the battery stands."""
    place = plan.enclosure
    return {} if place is None else ENCLOSURES[place.kind] | {"room_temp_c": place.room_temp_c}


def code_givens(code: data.CodeSetting) -> dict[str, Any]:
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
        "grouping_table": code.grouping_factor,
        "conductors_circuit_count": code.conductors_circuit_count,
        "fuse_most_a": max(code.fuse_size.y),
        "bright_sun_factor": code.pv_current_factor,
        "inverter_drop_frac": code.drop_inverter_frac,
    }


def fields_of(part: Any, names: Mapping[str, str]) -> dict[str, Any]:
    """Return fields of one part under the worksheets' names."""
    return {given: float(getattr(part, field)) for given, field in names.items()}


def chemistry_givens(kind: data.Chemistry, folder: Path | None = None) -> dict[str, Any]:
    """Return a chemistry's limits, voltages and tables; ``folder`` is a person's own folder of data files."""
    more: dict[str, Any] = {} if kind.equalize_v_per_cell is None else {"equalize_cell_v": kind.equalize_v_per_cell}
    if kind.key != "lfp":
        # The weaker of the two fillings freezes first; sealed cells are not opened to be measured.
        more |= {
            "gravity_of_charge": data.gravity_of_charge(_FILLING, folder),
            "freezing_of_gravity": data.freezing_of_gravity(folder),
        }
    return (
        fields_of(kind, pick.CHEMISTRY_GIVENS)
        | more
        | {
            "capacity_kept": data.capacity_kept(kind.key, folder),
            "cell_rest_voltage": data.cell_rest_voltage(kind.key, folder),
        }
    )


def site_givens(place: SitePlan, site: data.Site) -> dict[str, Any]:
    """Return the site's temperatures and the plan's shade."""
    coldest = place.air_coldest_c
    return {
        "air_temp_by_month_c": site.air_temp_by_month_c,
        "air_coldest_c": site.coldest_c if coldest is None else coldest,
        "shade_by_month_frac": place.shade_by_month_frac,
    }


def cold_voltage_of(code: data.CodeSetting, air_coldest_c: float) -> dict[str, Any]:
    """Return the code setting's table of cold voltage, or nothing where it has none or the site is outside it."""
    table = code.cold_voltage
    if table is None or not COLD_TABLE_C[0] <= air_coldest_c <= COLD_TABLE_C[1]:
        return {}
    return {"cold_voltage_factor": table}
