"""The panel of wiring: one circuit with a fuse and a cable chosen by hand, and what opens, or burns, first."""

from collections.abc import Sequence

from offgrid_core.figures import wiring as picture
from offgrid_core.lab.controls import ChoiceControl, SliderControl
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_wiring import WiringView, circuit_inputs, one_circuit

_SLIDERS = ("current_by_row_a", "length_by_row_m", "ambient_c", "circuits_together_count")
_READ = {
    "design_current_by_row_a": "Current to design for",
    "fuse_by_row_a": "Fuse",
    "ampacity_by_row_a": "Wire as laid",
    "drop_by_row_v": "Voltage drop",
    "heat_at_fuse_by_row_w": "Heat in the cable, fuse's rating",
    "copper_at_fuse_by_row_c": "Copper, fuse's rating",
}
_SYMBOLS = {"fuse_by_row_a": "fuse", "cable_by_row_mm2": "cable", "ambient_c": "air"}


def wiring_panel(design: Design, question: str = "", units: Settings | None = None, circuit: str = "") -> Panel:
    """Return the panel in which a fuse and a cable of a sized system are chosen by hand.

    Parameters
    ----------
    design
        Its current, length, fuse and cable are where the controls start; its code setting gives the tables.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    circuit
        Name of the main circuit; the last one of the design by default.
    """
    settings = units or load()
    start, name = circuit_inputs(design, circuit), circuit or design.circuit_names[-1]
    sizes, areas = design.given["next_fuse"].y, design.given["cable_ampacity"].x
    fuses = {show("fuse_by_row_a", size, settings): size for size in sizes}
    cables = {show("cable_by_row_mm2", area, settings): area for area in areas}
    return Panel(
        PanelParts(
            title=f"{design.plan.title}: {name}",
            question=question,
            controls=[
                ChoiceControl("fuse_by_row_a", "Fuse", fuses, start["fuse_by_row_a"]),
                ChoiceControl("cable_by_row_mm2", "Cable", cables, start["cable_by_row_mm2"]),
                *(SliderControl(n, float(f"{start[n]:.4g}"), settings) for n in _SLIDERS),  # as wide as a box
            ],
            more=[],
            compute=lambda inputs: one_circuit(design, inputs, name),
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


def readouts(view: WiringView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture."""
    return [(label, picture.told(n, view.solved[n], settings)) for n, label in _READ.items()]


def sentence(view: WiringView, settings: Settings) -> str:
    """Say what opens, or burns, first, and what becomes of the voltage."""
    s = view.solved
    told = {n: picture.told(n, s[n], settings) for n in (*s.sheet, *s.sheet.inputs)}
    drop = "more than" if view.is_broken["drop_margin_by_row_frac"] else "within"
    return (
        f"{_first(view, told)} On the way there and back {told['drop_by_row_v']} are lost, "
        f"{told['drop_by_row_frac']} of the voltage: {drop} the {told['drop_limit_by_row_frac']} allowed."
    )


def _first(view: WiringView, told: dict[str, str]) -> str:
    load, fuse, wire = (told[n] for n in ("current_by_row_a", "fuse_by_row_a", "ampacity_by_row_a"))
    if view.opens_in_use:
        wanted = told["design_current_by_row_a"]
        said = f"First to open: the fuse, with nothing wrong. It is {fuse}, and {wanted} is to be designed for."
        return f"{said} Nor does it guard the wire, which carries {wire}." if view.wire_first else said
    if view.too_hot_now:
        return (
            f"First to burn: the wire, with nothing wrong. The load of {load} is more than the {wire} it carries here, "
            f"and the {fuse} fuse does not notice."
        )
    if view.wire_first:
        hot = told["copper_at_fuse_by_row_c"]
        comes = "melts" if hot == picture.MELTED else f"comes to {hot}, where {told['wire_temp_c']} is the most"
        return (
            f"First to burn: the wire. It carries {wire} here, and the fuse holds {fuse}: in an overload between the "
            f"two nothing opens, and the copper {comes}."
        )
    return f"First to open: the fuse. Load {load}, fuse {fuse}, wire {wire}: each is no more than the next."


def legend(view: WiringView, settings: Settings) -> str:
    """Return a short legend of a setting."""
    return " · ".join(f"{word} {show(n, view.solved[n], settings, 3)}" for n, word in _SYMBOLS.items())
