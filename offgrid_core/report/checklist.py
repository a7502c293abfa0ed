"""The set-points of the controller, and the steps of connecting, in the order in which they are safe."""

from collections.abc import Iterator
from dataclasses import dataclass

from offgrid_core import data
from offgrid_core.quantities import Settings, label_of, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.quantities.text import capital
from offgrid_core.report import tables
from offgrid_core.report.markup import Markup, join, row, table, tag
from offgrid_core.report.steps import note, plain_lines
from offgrid_core.report.words import say
from offgrid_core.system.design import Design
from offgrid_core.system.handover import set_points
from offgrid_core.worksheet import Step

#: Endings of the lines that are set-points of the controller, and lines that stand beside them.
_SET = "_set_v"
_BESIDE = ("bank_compensation_mv_k", "rest_low_v")

#: Thickest cable that the plugs of most modules take, mm² (common practice, no source).
PLUG_MOST_MM2 = 6.0


@dataclass(frozen=True)
class Task:
    """One step to tick: what to do, what should be seen, and whether a value is written down."""

    what: str
    expected: str = ""
    measured: bool = False


def set_point_section(design: Design, settings: Settings) -> Markup:
    """Return the set-points: typed in at 25 °C, and what they come to at the battery's temperature."""
    return join(
        [
            tag("p", say("set_points_note")),
            plain_lines(say("table.set_points"), set_point_steps(design, settings)),
            note("set_points_rank"),
        ]
    )


def set_point_steps(design: Design, settings: Settings) -> list[Step]:
    """Return the lines of the set-points, those to type in first."""
    chain = design.system.sheet
    beside = [n for n in chain if n.endswith(_SET) or n in _BESIDE]
    typed, solved = set_points(design)
    found = [s for s in tables.steps_of(solved, settings) if s.name in typed]
    return found + [s for s in tables.steps_of(design.system, settings) if s.name in beside]


def checklist_section(design: Design, settings: Settings) -> Markup:
    """Return the steps of connecting as one table to tick."""
    heads = [say(f"head.{key}") for key in ("number", "task", "expected", "measured", "done")]
    rows, number = [], 0
    for stage, tasks in stages(design, settings):
        rows.append(tag("tr", tag("th", stage, colspan=str(len(heads)), scope="colgroup"), class_="stage"))
        for task in tasks:
            number += 1
            blank = tag("span", class_="blank") if task.measured else ""
            rows.append(row([str(number), task.what, task.expected, blank, tag("span", class_="box")]))
    return join([table(say("table.checklist"), heads, rows, "ticked"), _signature()])


def stages(design: Design, settings: Settings) -> list[tuple[str, list[Task]]]:
    """Return the stages of connecting, each with its steps."""
    made = {
        "before": _before,
        "connect": _connect,
        "set": _set,
        "charge": _charge,
        "measure": _measure,
        "hand": _hand,
    }
    return [(say(f"stage.{key}"), list(of(_Shown(design, settings)))) for key, of in made.items()]


class _Shown:
    """Values of a design as text."""

    def __init__(self, design: Design, settings: Settings) -> None:
        self.design = design
        self.settings = settings

    def __call__(self, name: str) -> str:
        return show(name, self.design.system[name], self.settings)

    def circuits(self, *names: str) -> Iterator[tuple[str, list[str]]]:
        """Yield each circuit, the bank's own leads among them, with some of its values."""
        for wire in self.design.wires:
            yield capital(wire.name), [show(n, wire[n], self.settings, 3) for n in names]


def _before(shown: _Shown) -> Iterator[Task]:
    yield Task(say_shared("caution.battery"))
    yield Task(say("do.papers"))
    yield Task(say("do.open"), say("see.zero"), measured=True)
    yield Task(f"{say('do.room')} {say_shared('caution.gas')}")
    units, series, strings = map(shown, ("units_count", "units_in_series_count", "strings_count"))
    yield Task(say("do.units"), say("see.units", units=units, series=series, strings=strings))
    yield from map(Task, tables.lifting_said(shown.design, shown.settings))
    yield Task(say("do.unit_volts"), say("see.alike"), measured=True)
    for circuit, (fuse, cables, cable) in shown.circuits("fuse_by_row_a", "cables_by_row_count", "cable_by_row_mm2"):
        yield Task(say("do.circuit", circuit=circuit), say("see.fuse", fuse=fuse, cables=cables, cable=cable))
    yield from _plugs(shown)
    yield Task(say("do.torque"), say("see.manual"))
    yield Task(say("do.polarity"), say("see.plus"))
    yield Task(say("do.insulation"), say("see.insulation"), measured=True)
    cold, most = shown("string_voc_cold_v"), shown("controller_voltage_max_v")
    yield Task(say("do.open_volts"), say("see.under", cold=cold, most=most), measured=True)
    yield _highest(shown)


def _plugs(shown: _Shown) -> Iterator[Task]:
    """Yield what to do about a cable for a low voltage drop that the plugs of most modules do not take."""
    cable = shown.design.wires[0]["cable_by_row_mm2"]
    if cable > PLUG_MOST_MM2:
        told = {"cable": cable, "most": PLUG_MOST_MM2}
        yield Task(say("do.plugs", **{n: show("cable_by_row_mm2", x, shown.settings) for n, x in told.items()}))


def _highest(shown: _Shown) -> Task:
    """Return the look at the labels of what the bank feeds: charging brings it far above its nominal voltage."""
    volts = show("charge_most_v", shown.design.protection.solved["charge_most_v"], shown.settings)
    feeds_dc = shown.design.system["dc_peak_w"] > 0
    fed = ("both" if feeds_dc else "inverter") if shown.design.parts.inverter else "dc"
    return Task(
        say("do.highest", volts=volts, whose=say(f"do.highest.{fed}")), say("see.above", value=volts), measured=True
    )


def _connect(shown: _Shown) -> Iterator[Task]:
    yield Task(say_shared("caution.dc"))
    yield Task(say("do.strings"), say("see.at_least", value=shown("rest_low_v")), measured=True)
    kind = data.chemistry(shown.design.plan.choices.chemistry).label
    setting = say("see.setting", volts=shown("bank_voltage_v"), chemistry=kind)
    yield Task(say("do.settings"), setting)
    yield Task(say("do.controller"), say("see.plus"))
    yield Task(say("do.wakes"), say("see.bank"), measured=True)
    yield Task(say("do.array"), say("see.plus"))
    if shown.design.parts.inverter:
        yield Task(say("do.inverter"), say("see.manual"))
    if shown.design.system["dc_peak_w"] > 0:
        yield Task(say("do.dc"), say("see.plus"))
    yield Task(say("do.apart"))


def _set(shown: _Shown) -> Iterator[Task]:
    yield Task(say("do.set"), say("see.table"))
    for step in set_point_steps(shown.design, shown.settings):
        if step.name.endswith(_SET) and "_25_" in step.name:
            yield Task(capital(step.label), step.shown, measured=True)
    yield Task(capital(label_of("compensation_mv_k")), shown("compensation_mv_k"), measured=True)
    yield Task(say("do.probe"), measured=True)
    if shown.design.parts.inverter:
        yield Task(say("do.cutoff"), shown("inverter_cutoff_v"), measured=True)


def _charge(shown: _Shown) -> Iterator[Task]:
    yield Task(
        f"{say('do.cold')} {say_shared('caution.cold')}",
        say("see.at_least", value=shown("charge_temp_min_c")),
        measured=True,
    )
    if shown.design.plan.choices.chemistry == "flooded":
        yield Task(say("do.acid"))
    yield Task(say("do.charge"), say("see.table"), measured=True)
    yield Task(say("do.current"), say("see.about", value=shown("charge_current_a")), measured=True)
    most = show("charge_most_a", set_points(shown.design)[1]["charge_most_a"], shown.settings)
    yield Task(say("do.most"), say("see.at_most", value=most), measured=True)


def _measure(shown: _Shown) -> Iterator[Task]:
    for circuit, (drop, current) in shown.circuits("drop_by_row_v", "current_by_row_a"):
        yield Task(say("do.drop", circuit=circuit), say("see.drop", drop=drop, current=current), measured=True)
    if shown.design.parts.inverter:
        yield Task(say("do.start"), say("see.at_least", value=shown("inverter_cutoff_v")), measured=True)
    yield Task(say("do.warm"))
    yield Task(say("do.stops"), say("see.zero"), measured=True)


def _hand(_: _Shown) -> Iterator[Task]:
    for key in ("shown", "known", "log", "papers_left"):
        yield Task(say(f"do.{key}"))


def _signature() -> Markup:
    return tag("p", say("signed"), tag("span", "\u00a0"), class_="signed")
