"""The panel of strings: units on hand put in rows, the volts and amp-hours they make, and who carries the current."""

from collections.abc import Sequence

from offgrid_core import data
from offgrid_core.figures import strings as picture
from offgrid_core.lab.controls import ChoiceControl, SliderControl, sliders
from offgrid_core.lab.panel import Panel, PanelParts, readings
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.system.explore_strings import StringsView, units_in_rows

_PLACES = {
    "both at string 1": "same end",
    "at opposite corners": "diagonal",
    "bus bars: equal leads for each string": "bus bars",
}
_SAID = {
    "same end": "With both main leads at string 1",
    "diagonal": "With the main leads at opposite corners",
    "bus bars": "With bus bars and equal leads",
}


def strings_panel(design: Design, question: str = "", units: Settings | None = None) -> Panel:
    """Return the panel in which the battery units of a sized system are put in rows.

    Parameters
    ----------
    design
        Its units, their number and their rows are where the controls start.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    """
    settings = units or load()
    own = design.parts.battery_unit
    kinds = {u.label: u.key for u in data.battery_units() if u.chemistry == own.chemistry}
    return Panel(
        PanelParts(
            title=f"Units in rows at {design.plan.title}",
            question=question,
            controls=[
                SliderControl("owned_units_count", float(design.system["units_count"]), settings),
                *sliders(("units_in_series_count",), design.system, settings),
                ChoiceControl("unit", "Battery unit", kinds, own.key),
                ChoiceControl("placement", "Where the two main leads are taken", _PLACES, "same end"),
            ],
            more=sliders(("link_ohm",), design.system, settings),
            compute=lambda inputs: units_in_rows(design, inputs),
            picture=picture,
            readouts=readouts,
            sentence=sentence,
            legend=legend,
        ),
        settings,
    )


_WIRED = {
    "strings_count": "Strings",
    "wired_voltage_v": "Voltage",
    "bank_ah": "Capacity",
    "wired_wh": "Energy on the label",
    "left_over_count": "Left over",
}
_SHARED = {"extra_share_frac": "Over an equal share"}


def readouts(view: StringsView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the picture; where no string stands there are no volts and no amp-hours."""
    if not view.strings:
        return readings({n: _WIRED[n] for n in ("strings_count", "left_over_count")}, view.wired, settings)
    return readings(_WIRED, view.wired, settings) + (readings(_SHARED, view.sharing, settings) if view.sharing else [])


def sentence(view: StringsView, settings: Settings) -> str:
    """Say what the picture says."""
    wired = {n: show(n, view.wired[n], settings, 3) for n in (*view.wired.sheet, *view.wired.sheet.inputs)}
    if not view.strings:
        one = view.left_over == 1
        owned = "1 unit makes" if one else f"{wired['owned_units_count']} units make"
        return (
            f"{owned} no whole string of {wired['units_in_series_count']}: no bank stands here, and "
            f"{'it may not' if one else 'none of them may'} be connected to the system."
        )
    rows = "1 string" if view.strings == 1 else f"{view.strings} strings"
    said = (
        f"{wired['owned_units_count']} units stand in {rows} of {wired['units_in_series_count']}: "
        f"{wired['wired_voltage_v']}, {wired['bank_ah']} and {wired['wired_wh']} on the label. "
        f"Left over, in no string: {wired['left_over_count'] if view.left_over else 'none'}."
    )
    if not view.fits:
        said += f" Nothing of this system may be connected to it: the system is for {wired['bank_voltage_v']}."
    return f"{said} {_shared(view, settings)}"


def _shared(view: StringsView, settings: Settings) -> str:
    if view.sharing is None:
        return "A single string carries all of the current; there is nothing to share."
    extra = show("extra_share_frac", view.sharing["extra_share_frac"], settings, 3)
    most = show("extra_max_frac", view.sharing["extra_max_frac"], settings, 3)
    judged = "above" if view.sharing.broken()["sharing_margin_frac"] else "within"
    return (
        f"{_SAID[view.placement]}, the hardest-worked string carries {extra} more than an equal share: "
        f"{judged} the {most} usually accepted."
    )


def legend(view: StringsView, settings: Settings) -> str:
    """Return a short legend of a setting."""
    counts = (show(n, view.wired[n], settings) for n in ("strings_count", "units_in_series_count"))
    return f"{' × '.join(counts)}, {view.placement}"
