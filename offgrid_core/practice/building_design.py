"""From the parts and numbers of a form to the design that they make, as built or with a mistake in its working."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.practice.mistakes import Mistake
from offgrid_core.sizing.protection import DEVICES
from offgrid_core.system import givens as give
from offgrid_core.system import loading
from offgrid_core.system import parts as pick
from offgrid_core.system.beside import BACKUP
from offgrid_core.system.circuits import circuits_of
from offgrid_core.system.design import Design, PartsChosen
from offgrid_core.system.protection import DEVICE_GIVENS, Protection, pick_devices, protect
from offgrid_core.worksheet import Sheet, Solved

#: What is entered of a generator, and where it stands in a plan.
GENERATOR_FIELDS = {"generator_rated_w": "rated_w", "generator_rated_va": "rated_va", "charger_rated_a": "charger_a"}
#: Lines of the circuits table that are held as wired, and those that a cable was worked from.
AS_WIRED = ("fuse_by_row_a", "cable_by_row_mm2", "cables_by_row_count")
_LED_TO_CABLE = ("for_ampacity_by_row_mm2", "for_drop_by_row_mm2", "for_fuse_by_row_mm2")


def chained(
    base: Design,
    parts: PartsChosen,
    numbers: Mapping[str, float],
    held: Mapping[str, float] | None = None,
    made: Mistake | None = None,
) -> Design:
    """Return the design that follows from parts and numbers; its circuits are still those of ``base``.

    Parameters
    ----------
    base
        Its site, loads, tilt and assumptions are kept.
    numbers
        The bank voltage, the modules in series and what is entered of a generator.
    held
        Counts as built; worked out where they are not given.
    made
        A mistake, made wherever it can be: in each line of the worksheets that it is known in.

    Raises
    ------
    OffgridError
        If a value leaves the range of a table.
    """
    given = _given(base, parts, numbers)
    loads = loading.loads_of(given)
    given |= loads.givens
    if base.plan.choices.spell_rule == "busiest_run":
        given |= loading.busiest_run(given)
    system = _habit(base.system.sheet, made).solve(given, held)
    plan, more = base.plan, dict(base.more)
    if plan.generator:
        own = {n: numbers[n] for n in GENERATOR_FIELDS}
        update = {key: own[n] for n, key in GENERATOR_FIELDS.items()}
        plan = plan.model_copy(update={"generator": plan.generator.model_copy(update=update)})
        sheet, before = _habit(more[BACKUP].sheet, made), more[BACKUP]
        more[BACKUP] = sheet.solve({n: system.get(n, before.get(n)) for n in sheet.inputs} | own)
    return replace(
        base,
        plan=plan,
        parts=parts,
        given=given,
        system=system,
        more=more,
        loads=_again(loads.busiest, made),
        hardest_month=loads.hardest + 1,
        curve=np.broadcast_to(loads.curve["hour_battery_wh"], (12, 24)),
    )


def circuited(design: Design, made: Mistake | None = None) -> Design:
    """Return a design with its own circuits, fuses, cables and devices, worked perhaps with a mistake.

    Raises
    ------
    OffgridError
        If a circuit is beyond the tables of the code setting.
    """
    names, circuits = circuits_of(design.plan, data.code_setting(design.plan.circuits.code), design.system)
    circuits = _again(circuits, made) if made else circuits
    guard = protect(circuits, names, data.protective_devices())
    design = replace(design, circuits=circuits, circuit_names=names, protection=guard)
    return replace(design, protection=mistaken(design, made)) if made else design


def wired(design: Design, rows: Mapping[int, tuple[float, float, data.ProtectiveDevice]]) -> Design:
    """Return a design with some of its circuits as built, one cable for each pole.

    Parameters
    ----------
    rows
        By row of the circuits table: fuse, A; cable, mm²; device.
    """
    held = {n: np.array(design.circuits[n]) for n in (*AS_WIRED, *_LED_TO_CABLE)}
    for row, (fuse, cable, _) in rows.items():
        held["fuse_by_row_a"][row], held["cable_by_row_mm2"][row], held["cables_by_row_count"][row] = fuse, cable, 1
    circuits = _again(design.circuits, None, held)
    guard = protect(circuits, design.circuit_names, data.protective_devices())
    devices = [rows[i][2] if i in rows else device for i, device in enumerate(guard.devices)]
    rated = DEVICES.solve({n: guard.rated[n] for n in DEVICES.inputs} | pick.columns(devices, DEVICE_GIVENS))
    return replace(design, circuits=circuits, protection=replace(guard, rated=rated, devices=tuple(devices)))


def mistaken(design: Design, made: Mistake | None) -> Protection:
    """Return the devices of somebody who may make a mistake about the voltage or the current that they must stand."""
    guard = design.protection
    wrong = _again(guard.solved, made)
    rows = {n: np.array(guard.rated[n]) for n in DEVICES.inputs if n not in DEVICE_GIVENS}
    for name in ("voltage_most_by_row_v", "fault_by_row_a"):
        rows[name][: len(design.circuit_names)] = wrong[name]
    return replace(guard, devices=pick_devices(rows, data.protective_devices()))


def source(design: Design, name: str) -> Solved:
    """Return the solved worksheet that a number of the form stands in."""
    if name in design.loads.sheet:
        return design.loads
    if name in design.circuits.sheet:
        return design.circuits
    return design.system if name in design.system else design.more[BACKUP]


def judged_by(design: Design, is_wired: bool = True) -> tuple[Solved, ...]:
    """Return the worksheets whose limits judge a design, those of its circuits only where they are its own."""
    more = [design.more[BACKUP]] if design.plan.generator else []
    wires = [design.circuits, design.protection.solved, design.protection.rated] if is_wired else []
    return design.system, *wires, *more


def habit_in(sheet: Sheet, made: Mistake) -> list[tuple[Mistake, str]]:
    """Return the lines of a worksheet that a mistake is made in, all of them at once."""
    return [(made, n) for n in made.lines if n in sheet]


def _given(base: Design, parts: PartsChosen, numbers: Mapping[str, float]) -> dict[str, Any]:
    given = {**base.given, **{n: numbers[n] for n in ("bank_voltage_v", "modules_in_series_count")}}
    for part, names in (
        (parts.inverter, pick.INVERTER_GIVENS),
        (parts.battery_unit, pick.UNIT_GIVENS),
        (parts.module, pick.MODULE_GIVENS),
        (parts.controller, pick.CONTROLLER_GIVENS),
    ):
        given |= give.fields_of(part, names) if part else {}
    return given | base.plan.assume


def _habit(sheet: Sheet, made: Mistake | None) -> Sheet:
    wrong = habit_in(sheet, made) if made else []
    return sheet.written(**{n: m.lines[n] for m, n in wrong}) if wrong else sheet


def _again(solved: Solved, made: Mistake | None, held: Mapping[str, Any] | None = None) -> Solved:
    """Solve a worksheet once more, with a mistake in it or with lines held."""
    sheet = _habit(solved.sheet, made)
    return sheet.solve({n: v for n, v in solved.items() if n not in sheet}, held)
