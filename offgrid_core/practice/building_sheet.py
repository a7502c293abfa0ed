"""What is handed to somebody who designs a whole system: wishes, site, loads, parts, and what is assumed."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from offgrid_core.practice.building import Brief, Entry
from offgrid_core.practice.building_design import judged_by
from offgrid_core.practice.building_rules import WORKED
from offgrid_core.practice.words import TEXT, say
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities import say as word
from offgrid_core.quantities.text import number
from offgrid_core.system import parts as pick
from offgrid_core.system.protection import DEVICE_GIVENS
from offgrid_core.worksheet import Table
from offgrid_core.worksheet.grammar import axis_of

Rows = list[list[str]]
#: Role = what is told of each part, by the name it has in the worksheets.
_TOLD = {
    "battery_unit": pick.UNIT_GIVENS | {"unit_cost": "cost"},
    "module": pick.MODULE_GIVENS | {"module_cost": "cost"},
    "controller": pick.CONTROLLER_GIVENS | {"controller_cost": "cost"},
    "inverter": {"inverter_bank_v": "bank_v"} | pick.INVERTER_GIVENS | {"inverter_cost": "cost"},
    "device": DEVICE_GIVENS,
}
#: Columns of the loads list.
_LOADS = (
    "count_by_row",
    "power_by_row_w",
    "hours_by_row_h",
    "duty_by_row_frac",
    "standby_by_row_w",
    "week_by_row_days",
    "on_ac_by_row_frac",
    "coincidence_by_row_frac",
    "start_by_row_factor",
    "power_factor_by_row_ratio",
)
#: What stands among the wishes, and so not among the assumptions.
_STATED = ("autonomy_days", "depth_frac", "battery_temp_c", "air_coldest_c")


def entry_word(brief: Brief, entry: Entry) -> str:
    """Return the words for an entry of the form: its part of the form or its circuit, then what it is."""
    name = entry.name
    lines = [s.sheet[name].label for s in (brief.base.loads, *judged_by(brief.base)) if name in s.sheet]
    key = f"build_choose.{name}"
    said = say(key) if key in TEXT else lines[0] if lines else label_of(name)
    return say("build_entry", part=entry.circuit or say(f"build_part.{entry.section}"), entry=said)


def sheet_of(brief: Brief, settings: Settings) -> list[tuple[str, Rows]]:
    """Return every table of a brief: caption and rows, the first being the head where its first cell is empty."""
    offered = [role for role in _TOLD if brief.offer(role)]
    parts = [(say(f"build_offer.{role}"), _parts(brief.offer(role), _TOLD[role], settings)) for role in offered]
    return [
        (say("build_wishes"), _wishes(brief, settings)),
        (say("build_loads"), _loads(brief, settings)),
        (say("build_months"), _months(brief, settings)),
        *parts,
        (say("build_cables"), _cables(brief, settings)),
        *((table.label, _table(table, settings)) for table in _tables_read(brief)),
        (say("build_assumed"), _assumed(brief, settings)),
    ]


def _wishes(brief: Brief, settings: Settings) -> Rows:
    base = brief.base
    wished = {**brief.wishes, "budget_cost": brief.budget}
    of_circuit = [
        [say(f"build_circuit.{n}", circuit=c), show(n, x, settings)]
        for n in ("length_by_row_m", "drop_limit_by_row_frac", "current_by_row_factor")
        for c, x in zip(base.circuit_names, base.circuits[n], strict=True)
    ]
    return [
        [say("build_place"), base.site.name],
        [label_of("latitude_deg"), show("latitude_deg", base.site.latitude_deg, settings)],
        [label_of("tilt_deg"), show("tilt_deg", base.tilt_deg, settings)],
        [say("build_chemistry"), base.plan.choices.chemistry],
        *([label_of(n), show(n, base.given[n], settings)] for n in _STATED),
        *([say(f"build_wish.{n}"), show(n, v, settings)] for n, v in wished.items()),
        [say("build_code"), brief.code.label],
        *of_circuit,
    ]


def _loads(brief: Brief, settings: Settings) -> Rows:
    names, given = [row.name for row in brief.base.plan.load], brief.base.given
    columns = {n: np.broadcast_to(np.asarray(given[n], float), (len(names),)) for n in _LOADS}
    telling = {n: v for n, v in columns.items() if len(set(v.tolist())) > 1 or n in _LOADS[:3]}
    head = ["", *(label_of(n) for n in telling)]
    return [
        head,
        *([name, *(show(n, float(v[i]), settings) for n, v in telling.items())] for i, name in enumerate(names)),
    ]


def _months(brief: Brief, settings: Settings) -> Rows:
    given, names = brief.base.given, [row.name for row in brief.base.plan.load]
    columns = {n: np.broadcast_to(given[n], 12) for n in ("plane_by_month_kwh_m2", "air_temp_by_month_c")}
    season = np.broadcast_to(given["season_by_row_frac"], (12, len(names)))
    varying = [i for i in range(len(names)) if len(set(season[:, i].tolist())) > 1]
    head = ["", *(label_of(n) for n in columns), *(say("build_season", load=names[i]) for i in varying)]
    return [head] + [
        [
            word(f"month.{m + 1}"),
            *(show(n, float(v[m]), settings) for n, v in columns.items()),
            *(show("season_by_row_frac", float(season[m, i]), settings) for i in varying),
        ]
        for m in range(12)
    ]


def _parts(parts: Sequence[Any], told: Mapping[str, str], settings: Settings) -> Rows:
    head = ["", *(label_of(n) for n in told)]
    body = [[p.label, *(show(n, getattr(p, key), settings) for n, key in told.items())] for p in parts]
    if not hasattr(parts[0], "banks_v"):
        return [head, *body]
    banks = [", ".join(show("bank_voltage_v", v, settings) for v in p.banks_v) for p in parts]
    return [[*head, label_of("controller_bank_v")], *([*row, b] for row, b in zip(body, banks, strict=True))]


def _cables(brief: Brief, settings: Settings) -> Rows:
    code = brief.code
    rows = [
        [label, show("cable_ampacity_a", code.ampacity_of(area), settings), ohm]
        for area, label in code.size_labels.items()
        for ohm in [show("cable_resistance_ohm_m", code.resistance_of(area), settings)]
    ]
    ambient = show("ratio", float(code.ambient_factor(brief.base.given["ambient_c"])), settings)
    fuses = ", ".join(show("fuse_a", size, settings) for size in code.fuse_size.y)
    return [
        ["", say("build_ampacity"), say("build_resistance")],
        *rows,
        [say("build_fuses"), fuses, ""],
        [say("build_ambient"), ambient, ""],
    ]


def _tables_read(brief: Brief) -> list[Table]:
    """Return the tables by temperature and charge that the numbers of the form are read from."""
    return [v for n, v in _needed(brief).items() if isinstance(v, Table)]


def _table(table: Table, settings: Settings) -> Rows:
    columns = ((table.x_unit, table.x), (table.y_unit, table.y))
    return [[unit or "–", *(number(float(v), 4, settings) for v in values)] for unit, values in columns]


def _assumed(brief: Brief, settings: Settings) -> Rows:
    """Return every single number that the form is worked with, and that neither the client nor a part says."""
    of_parts = {n for told in _TOLD.values() for n in told} | {e.name for e in brief.entries} | set(_STATED)
    of_parts |= {"peak_w", "peak_va", "surge_w", "dc_peak_w"}
    told = {n: v for n, v in _needed(brief).items() if n not in of_parts and np.ndim(v) == 0}
    return [[label_of(n), show(n, float(v), settings)] for n, v in told.items() if not isinstance(v, Table)]


def _needed(brief: Brief) -> dict[str, Any]:
    """Return the inputs of the chain that the numbers of the form and its limits hang on."""
    solved, names = brief.base.system, {r.name for r in brief.rules.values()}
    names |= {e.name for e in brief.entries if e.sort == WORKED}
    inputs = (*brief.base.loads.sheet.inputs, *solved.sheet.upto(*(names & set(solved.sheet))).inputs)
    found = {n: solved[n] for n in inputs if not axis_of(n)}
    return found | {n: brief.base.circuits[n] for n in ("ambient_c", "wire_temp_c", "table_temp_c")}
