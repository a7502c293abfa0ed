"""A design as plain values and rows of text: what the terminal sheet, the JSON and the lessons all print from."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np

from offgrid_core.data.models import INVENTED
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.report.markup import own
from offgrid_core.report.words import say
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.efficiency import EFFICIENCY
from offgrid_core.sizing.generator import GENERATOR, START_EARLIER_FRAC
from offgrid_core.sizing.hours import DAY_CURVE
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.loads import ROWS_AT_BATTERY
from offgrid_core.sizing.strings import STRINGS_COMPARED
from offgrid_core.sizing.temperature import ENCLOSURE
from offgrid_core.system import handover
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.system.beside import BACKUP
from offgrid_core.system.design import Design
from offgrid_core.system.explore import one_day
from offgrid_core.system.protection import BATTERY_ROWS
from offgrid_core.worksheet import Finding, Solved, Step, Table
from offgrid_core.worksheet.grammar import FORGIVEN, axis_of

#: Sections of a design sheet: title, and the line each begins with, in worked order. One bank form brings lines
#: early that the other brings late, so that some sections begin with the first of two.
SECTIONS = (
    ("Bank", ("energy_day_wh",)),
    ("Strings", ("units_in_series_count",)),
    ("Rate of discharge", ("day_ah", "load_hours_h")),
    ("Cold at the battery", ("charge_left_frac", "air_month_c")),
    ("Charging set-points", ("cells_count",)),
    ("Sun and array", ("peak_sun_by_month_h",)),
    ("Charge controller", ("charge_current_a",)),
    ("Inverter", ("inverter_needed_w",)),
    ("Inverter's losses", ("part_load_w",)),
)
PROTECTION = "Short circuits and fuses"
#: Of the loads worksheet, the lines that are totals.
LOAD_TOTALS = tuple(n for n in LOADS if "by_row" not in n)
#: On every sheet, whatever is designed.
CAUTIONS = ("caution.battery", "caution.dc", "caution.gas", "caution.lifting", "caution.design_exercise")
#: Enough to tell apart two numbers of which the difference counts.
_MORE_FIGURES = 8
#: Whether one person may lift a battery unit.
LIFTING = STRINGS_COMPARED.upto("lift_margin_kg")
CIRCUIT_COLUMNS = (
    "current_by_row_a",
    "design_current_by_row_a",
    "fuse_by_row_a",
    "cable_by_row_mm2",
    "cables_by_row_count",
    "ampacity_by_row_a",
    "length_by_row_m",
    "drop_by_row_frac",
)


def steps_of(solved: Solved, settings: Settings, figures: int = 4, word: Callable[[str], str] = label_of) -> list[Step]:
    """Return the lines of a solved worksheet as steps in the reader's units; ``word`` labels what was given to it."""
    shown, reckoned = (partial(show, settings=s, figures=figures) for s in (settings, settings.in_sums))
    steps = solved.steps(word, shown, reckoned)
    return [_as_known(solved, s) for s in steps]


def _as_known(solved: Solved, step: Step) -> Step:
    """Return a step; the capacity kept in the cold names no standard where the published rows have ended."""
    if step.name != "kept_frac" or "capacity_kept" not in solved.sheet[step.name].needs:
        return step
    temps = np.atleast_1d(solved["battery_temp_c"])
    if not any(solved["capacity_kept"].invented_at(x) for x in temps):
        return step
    return replace(step, standing=INVENTED, source=say("invented.kept"))


def standing_of(step: Step) -> str:
    """Return the standing of a step's rule, with its source where there is one."""
    return step.standing + (f" ({step.source})" if step.source else "")


def sections_of(design: Design, settings: Settings) -> list[tuple[str, list[Step]]]:
    """Return the steps of the chain in sections, then what stands beside it; limits are told apart, in the findings."""
    steps = {s.name: s for s in _no_limits(design.system, steps_of(design.system, settings))}
    cut = _cut(list(steps))
    ends = [start for _, start in cut[1:]] + [len(steps)]
    order = list(steps.values())
    made = [(title, order[start:end]) for (title, start), end in zip(cut, ends, strict=True)]
    word = words_of(design)
    beside = {**design.more, PROTECTION: design.protection.solved}
    for title, more in beside.items():
        own = [s for s in steps_of(more, settings, word=word) if s.name not in steps and "by_row" not in s.name]
        worked = _no_limits(more, own)
        made += [(title, worked)] if worked else []
    return made


def _cut(names: list[str]) -> list[tuple[str, int]]:
    """Return where each section begins: its first line after the beginning of the section before."""
    cut: list[tuple[str, int]] = []
    for title, firsts in SECTIONS:
        after = cut[-1][1] if cut else -1
        places = [names.index(n) for n in firsts if n in names and names.index(n) > after]
        cut += [(title, places[0])] if places else []
    return cut


def words_of(design: Design) -> Callable[[str], str]:
    """Return what labels a name in any worksheet of a design, where one uses the lines of another."""
    sheets = (design.loads.sheet, ROWS_AT_BATTERY, DAY_CURVE, design.system.sheet, design.circuits.sheet)
    labels = {n: line.label for sheet in sheets for n, line in sheet.items()}
    return lambda name: labels.get(name) or label_of(name)


def findings_of(design: Design, settings: Settings) -> list[Finding]:
    """Return the findings of a design, their numbers in the reader's units.

    Where rounding makes two numbers look alike that are not, both are shown with more figures.
    """

    def finer(name: str, value: Any) -> str:
        return show(name, value, settings, _MORE_FIGURES)

    found = design.findings_in(lambda name, value: show(name, value, settings))
    return [replace(f, worked=f.worked_in(finer)) if _looks_alike(f) else f for f in found]


def _looks_alike(finding: Finding) -> bool:
    left, _, right = finding.worked.partition(" − ")
    return left == right and abs(finding.margin) > FORGIVEN


def cautions(design: Design, settings: Settings) -> list[str]:
    """Return the cautions of every sheet, and how a unit of this one is lifted."""
    return [*map(say_shared, CAUTIONS), *lifting_said(design, settings)]


def lifting_said(design: Design, settings: Settings) -> list[str]:
    """Return who lifts one battery unit; nothing where one person may."""
    judged = LIFTING.solve({n: design.given[n] for n in LIFTING.inputs})
    heavy = judged.broken()["lift_margin_kg"]
    return [say("do.lift", mass=show("unit_mass_kg", judged["unit_mass_kg"], settings))] if heavy else []


def generator_late_said(design: Design, settings: Settings) -> list[str]:
    """Return that a generator starts hardly before the loads are cut; nothing where it is early, or a limit says so."""
    backup = design.more.get(BACKUP)
    if backup is None or backup.broken()["start_margin_frac"] or backup["start_margin_frac"] >= START_EARLIER_FRAC:
        return []
    spare, wanted = (show("start_margin_frac", x, settings) for x in (backup["start_margin_frac"], START_EARLIER_FRAC))
    return [say("generator_late", spare=spare, wanted=wanted)]


def _no_limits(solved: Solved, steps: list[Step]) -> list[Step]:
    return [s for s in steps if not solved.sheet[s.name].severity]


def site_source(design: Design) -> str:
    """Return where the site's sun and temperature come from."""
    if design.plan.site.is_own:
        return say("site_own")
    return say("site_source", source=own(design.site.source), standing=design.site.standing)


def site_text(design: Design, settings: Settings, name: str) -> str:
    """Return where the system stands and how its array is set; ``name`` is the site's, made fit for the medium."""
    return say(
        "site",
        name=name,
        latitude=show("latitude_deg", design.site.latitude_deg, settings),
        tilt=show("tilt_deg", design.tilt_deg, settings),
        azimuth=show("azimuth_deg", design.azimuth_deg, settings),
    )


def load_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the loads list as text, one row a load, with its energy on the busiest day."""
    rows = [["load", "bus", "how many", "power", "hours a day", "energy on the busiest day"]]
    energy = np.broadcast_to(design.loads["day_energy_by_row_wh"], (len(design.plan.load),))
    hours = np.broadcast_to(design.loads["hours_by_row_h"], energy.shape)
    for load, h, wh in zip(design.plan.load, hours, energy, strict=True):
        rows.append(
            [
                load.name,
                load.bus,
                show("count_by_row", load.count, settings),
                show("power_by_row_w", load.power_w, settings),
                show("hours_by_row_h", h, settings),
                show("day_energy_by_row_wh", wh, settings),
            ]
        )
    return rows


def circuit_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the circuits table as text, one row a circuit."""
    heads = ["working current", "designed for", "fuse", "cable", "cables a pole", "ampacity", "one way", "drop"]
    rows = [["circuit", *heads]]
    both = replace(settings, wire="AWG")  # the area in mm² and the gauge beside it, whichever the reader is used to
    return rows + [[wire.name, *(show(n, wire[n], both, 3) for n in CIRCUIT_COLUMNS)] for wire in design.wires]


def part_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return the parts and their counts as text."""
    count = {n: show(n, design.system[n], settings) for n in ("units_count", "modules_count", "controllers_count")}
    rows = [
        ["part", "how many"],
        [design.parts.battery_unit.label, count["units_count"]],
        [design.parts.module.label, count["modules_count"]],
        [design.parts.controller.label, count["controllers_count"]],
    ]
    return rows + ([[design.parts.inverter.label, "1"]] if design.parts.inverter else [])


def assumption_rows(design: Design, settings: Settings) -> list[list[str]]:
    """Return what was assumed, with its standing; what the plan or a part decided instead is said to be so."""
    rows = [["assumed", "value", "standing"]]
    for name, a in ASSUMPTIONS.items():
        if name in _unused(design):
            continue
        standing = " · ".join(filter(None, (a.standing, a.source)))
        if name in design.plan.assume:
            standing = say("assumed.plan")
        elif design.given[name] != a.value:
            standing = say("assumed.critical" if name == "array_load_ratio" else "assumed.part")
        rows.append([label_of(name), show(name, design.given[name], settings), standing])
    return rows


def _unused(design: Design) -> set[str]:
    """Return the assumptions that only an inverter, a generator or an enclosure asks for, where there is none."""
    unused = set() if design.plan.generator else set(GENERATOR.inputs)
    unused |= set() if design.plan.enclosure else set(ENCLOSURE.inputs)
    return unused if design.parts.inverter else unused | set((INVERTER + EFFICIENCY).inputs) - {"hot_day_rise_k"}


def as_json(design: Design) -> dict[str, Any]:
    """Return every line and input by name, with stable keys; values unrounded, in the units of the names."""
    typed, solved = handover.set_points(design)
    temps, days = handover.autonomy_by_temperature(design)
    from offgrid_core.report import side_tables

    return {
        "title": design.plan.title,
        "site": design.site.name,
        "latitude_deg": design.site.latitude_deg,
        "tilt_deg": design.tilt_deg,
        "azimuth_deg": design.azimuth_deg,
        "parts": {k: getattr(v, "key", None) for k, v in vars(design.parts).items()},
        "loads": {"rows": [x.name for x in design.plan.load], **_with_rows(design.loads)},
        "given": _plain(design.given, sorted(n for n, v in design.given.items() if not isinstance(v, Table))),
        "lines": _plain(design.system, list(design.system.sheet)),
        "more": {title: _plain(more, list(more.sheet)) for title, more in design.more.items()},
        "circuits": {"rows": list(design.circuit_names), **_with_rows(design.circuits)},
        "bank_leads": {"rows": list(BATTERY_ROWS), **_with_rows(design.bank_leads)},
        "curve_wh": design.curve.tolist(),
        **side_tables.as_json(design),
        "set_points": _plain(solved, typed),
        "order": _order(handover.order(design), [wire.name for wire in design.wires]),
        "pictures": {
            "at_battery": [{"load": name, "energy_wh": wh} for name, wh in one_day(design, {}).at_battery()],
            "autonomy": {"battery_temp_c": temps.tolist(), "autonomy_given_days": days.tolist()},
        },
        "findings": [_finding(f) for f in design.findings],
    }


def _with_rows(solved: Solved) -> dict[str, Any]:
    """Return the columns that a list was given, then its lines."""
    return _plain(solved, [n for n in solved.sheet.inputs if axis_of(n) == "by_row"] + list(solved.sheet))


def _order(order: handover.Order, circuits: Sequence[str]) -> dict[str, Any]:
    priced = ("count_by_row", "unit_by_row_cost", "cost_by_row_cost", "order_cost")
    return {
        "rows": [" · ".join(filter(None, (item.part.label, item.circuit))) for item in order.items],
        "on_hand": [item.on_hand for item in order.items],
        **_plain(order.priced, priced),
        "circuits": list(circuits),
        **_plain(order.cables, ("circuits_by_row_count", "cable_by_row_m")),
    }


def _plain(values: Any, names: Sequence[str]) -> dict[str, Any]:
    return {n: np.asarray(values[n], float).tolist() for n in names}


def _finding(f: Finding) -> dict[str, Any]:
    return {
        "name": f.name,
        "label": f.label,
        "margin": f.margin,
        "passed": f.passed,
        "severity": f.severity,
        "mend": f.mend,
        "standing": f.standing,
        "source": f.source,
    }
