"""Tables beside the worked lines: protection, other placements of leads, other units, and what gives way first."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.text import capital
from offgrid_core.report.words import say
from offgrid_core.sizing.strings import STRINGS, STRINGS_COMPARED
from offgrid_core.system.audit import LOADS_TRIED, gives_way
from offgrid_core.system.banks import NUMBERS, BankOption, bank_options, sharing_of
from offgrid_core.system.design import Design
from offgrid_core.system.voltages import at_each_voltage
from offgrid_core.worksheet import Solved

Rows = list[list[str]]
_PROTECTION = (
    "fuse_by_row_a",
    "voltage_most_by_row_v",
    "device_dc_by_row_v",
    "fault_by_row_a",
    "device_interrupting_by_row_a",
)
_SHARING = ("hardest_share_frac", "extra_share_frac", "sharing_margin_frac")


def protection_rows(design: Design, settings: Settings) -> Rows:
    """Return the device of each circuit, and what it must stand and open."""
    found = design.protection
    rows = [[say(f"protection.{key}") for key in ("circuit", "fuse", "volts", "rated", "fault", "opens", "device")]]
    for i, (name, device) in enumerate(zip(found.names, found.devices, strict=True)):
        cells = [show(n, np.broadcast_to(found.rated[n], len(found.names))[i], settings, 3) for n in _PROTECTION]
        rows.append([name, *cells, device.label])
    return rows


def voltage_rows(design: Design, settings: Settings) -> Rows:
    """Return what each of the usual bank voltages does to the plan, the design's own marked."""
    rows = [[say(f"voltage.{key}") for key in ("bank", "current", "strings", "controllers", "cable", "limits")]]
    for at in at_each_voltage(design.plan):
        volts = show("bank_voltage_v", at.bank_voltage_v, settings)
        if at.design is None:
            rows.append([volts, "", "", "", "", at.reason])
            continue
        own = at.bank_voltage_v == design.system["bank_voltage_v"]
        system, circuits = at.design.system, at.design.circuits
        thickest = int(np.argmax(circuits["cable_by_row_mm2"]))
        rows.append(
            [
                say("voltage.chosen", volts=volts) if own else volts,
                show("running_current_a", system["running_current_a"], settings, 3),
                show("strings_count", system["strings_count"], settings),
                show("controllers_count", system["controllers_count"], settings),
                say(
                    "voltage.cable_said",
                    size=show("cable_mm2", circuits["cable_by_row_mm2"][thickest], settings, 3),
                    circuit=at.design.circuit_names[thickest],
                ),
                _first_few(at.broken),
            ]
        )
    return rows


def _first_few(broken: Sequence[str], most: int = 3) -> str:
    """Return the first few broken limits, worst first, and how many more there are."""
    if not broken:
        return say("voltage.none_broken")
    listed = "; ".join(map(capital, broken[:most]))
    more = len(broken) - most
    return say("voltage.more", listed=listed, count=more) if more > 0 else listed


def sharing_rows(design: Design, settings: Settings) -> Rows:
    """Return how unevenly the strings would share the bank's hardest current, by placement of the leads; or nothing."""
    shared = sharing(design)
    heads = [say("sharing.placement"), *(line.label for line in _lines(shared))]
    return [[heads[0], *map(capital, heads[1:])]] + [
        [placement, *(show(n, solved[n], settings, 3) for n in _SHARING)] for placement, solved in shared.items()
    ]


def sharing(design: Design) -> dict[str, Solved]:
    """Return the shares of the strings at the bank's hardest current, by placement; nothing for one string."""
    return sharing_of(design.system, hardest_a(design))


def hardest_a(design: Design) -> float:
    """Return the most current the bank is asked for, A."""
    return float(design.system["inverter_input_a" if design.parts.inverter else "dc_circuit_a"])


def growth_rows(design: Design, settings: Settings) -> Rows:
    """Return the limits that give way as the load grows, the first one first."""
    rows = [[say(f"growth.{key}") for key in ("limit", "load", "severity", "mend")]]
    for g in gives_way(design):
        if g.at_load_factor is not None:
            load = say("growth.times", load=show("load_factor", g.at_load_factor, settings, 3))
            rows.append([capital(g.label), load, g.severity, g.mend])
    return rows


def growth_note(settings: Settings) -> str:
    """Return what the table of growth holds fast, and how far it looks."""
    ends = {"low": LOADS_TRIED[0], "high": LOADS_TRIED[-1]}
    return say("growth.note", **{end: show("load_factor", x, settings, 3) for end, x in ends.items()})


def bank_rows(design: Design, settings: Settings) -> Rows:
    """Return every unit of the chemistry built into this bank, in the order in which a design chooses."""
    keys = ("unit", "built", "capacity", "autonomy", "one", "all", "cost", "verdict")
    rows = [[say(f"bank.{key}") for key in keys]]
    for option in options(design):
        n = {name: show(name, getattr(option, name), settings, 3) for name in NUMBERS}
        built = say("bank.counts", series=n["units_in_series_count"], strings=n["strings_count"])
        rows.append(
            [
                option.unit.label,
                built if option.whole else say("bank.none"),
                n["bank_ah"],
                n["autonomy_given_days"],
                n["unit_mass_kg"],
                n["bank_mass_kg"],
                f"{show('units_cost', option.units_cost, settings, 6)} {design.plan.currency}".strip(),
                " ".join([option.verdict, *map(_against, option.broken)]),
            ]
        )
    return rows


def _against(limit: str) -> str:
    """Return what a broken limit says of a unit; a heavy one wants more hands, and is no worse for it."""
    heavy = limit == STRINGS_COMPARED["lift_margin_kg"].label
    return say("bank.heavy") if heavy else say("bank.broken", limit=limit)


def options(design: Design) -> tuple[BankOption, ...]:
    """Return every unit of the design's chemistry as a bank for its need, whatever is on hand."""
    sheet = design.system.sheet
    if design.plan.owned.battery_unit:
        sheet = sheet.replace(STRINGS["strings_count"])
    return bank_options(sheet, design.given, design.plan.choices.chemistry)


def as_json(design: Design) -> dict[str, Any]:
    """Return the same tables as plain values."""
    rated = design.protection.rated
    return {
        "protection": {
            "rows": list(design.protection.names),
            "devices": [d.key for d in design.protection.devices],
            "verdicts": list(design.protection.verdicts()),
            **{n: np.asarray(design.protection.solved[n], float).tolist() for n in design.protection.solved.sheet},
            **{n: np.asarray(rated[n], float).tolist() for n in (*_PROTECTION, *rated.sheet)},
        },
        "sharing": {placement: {n: float(s[n]) for n in _SHARING} for placement, s in sharing(design).items()},
        "voltages": [
            {
                "bank_voltage_v": at.bank_voltage_v,
                "reason": at.reason,
                "broken": list(at.broken),
                **({} if at.design is None else _plain_voltage(at.design)),
            }
            for at in at_each_voltage(design.plan)
        ],
        "gives_way": [vars(g) for g in gives_way(design)],
        "bank_options": [
            {
                "unit": o.unit.key,
                "whole": bool(o.whole),
                "fits": bool(o.fits),
                "verdict": o.verdict,
                "broken": list(o.broken),
                **{n: float(getattr(o, n)) for n in NUMBERS},
            }
            for o in options(design)
        ],
    }


def _plain_voltage(design: Design) -> dict[str, float]:
    names = ("running_current_a", "strings_count", "controllers_count")
    return {n: float(design.system[n]) for n in names} | {
        "cable_mm2": float(np.max(design.circuits["cable_by_row_mm2"])),
    }


def _lines(shared: dict[str, Solved]) -> Sequence[Any]:
    return [next(iter(shared.values())).sheet[n] for n in _SHARING] if shared else []
