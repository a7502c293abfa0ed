"""Controls of a panel: a slider with a number box beside it, in the reader's own unit.

Both show the same value. The slider takes the arrow keys, the box takes typing; nothing needs a mouse.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import Settings, quantity
from offgrid_core.quantities.text import capital
from offgrid_core.quantities.units import Unit

#: A slider's own label stands above it, whole, instead of being squeezed beside it. Its handle reaches below the track,
#: and at the right end beyond it: the track stops short of the number box, which would hide half of it.
STYLE = """<style>
.offgrid-slider { flex-flow: column; align-items: stretch; height: auto; padding-bottom: 7px; }
.offgrid-slider > .widget-label { width: 300px; text-align: left; overflow: visible; align-self: flex-start; }
.offgrid-slider > .slider-container { width: calc(100% - 10px); flex: 0 0 auto; }
</style>"""

#: Shorter words where a label would run under the number box: about thirty letters have room above a slider.
_SHORT = {
    "charge_eff_frac": "Battery efficiency",
    "depth_large_frac": "Depth of the large bank",
    "link_ohm": "Resistance of a link",
    "wiring_loss_frac": "Loss in wiring and joints",
}


class SliderControl:
    """A slider and a number box for one quantity.

    Attributes
    ----------
    name
        The quantity.
    widget
        What to put on the screen.
    value
        The present value in the unit of the name.
    """

    def __init__(self, name: str, value: float, settings: Settings) -> None:
        wanted = quantity(name)
        if wanted.slider is None:
            raise OffgridError(f"{wanted.label} has no slider")
        self.name = name
        self.start = value
        self._react: Callable[[], None] = lambda: None
        self._unit = settings.unit_for(name)
        low, high, step = _in_unit(wanted.slider, self._unit)
        shown = self._shown = round(float(self._unit.from_canonical(value)), 6)
        label = _SHORT.get(name, capital(wanted.label))
        self.slider = widgets.FloatSlider(
            value=shown,
            min=min(low, shown),
            max=max(high, shown),
            step=step,
            readout=False,
            description=label,
            layout={"width": "190px", "min_width": "0", "margin": "2px 6px 2px 2px"},
        )
        self.box = widgets.BoundedFloatText(
            value=shown,
            min=self.slider.min,
            max=self.slider.max,
            step=step,
            layout={"width": "76px", "flex": "0 0 76px"},
        )
        self.slider.add_class("offgrid-slider")
        self.slider.tooltip = self.box.tooltip = f"{label}, {self._unit.symbol}".rstrip(", ")
        self.slider.observe(lambda _: self._slid(self.slider.value), names="value")
        self.box.observe(lambda _: self._follow(self.box.value), names="value")
        unit = widgets.Label(self._unit.symbol, layout={"flex": "0 0 auto"})
        self.widget = widgets.HBox([self.slider, self.box, unit], layout={"align_items": "flex-end"})

    @property
    def value(self) -> float:
        """The present value in the unit of the name."""
        return float(self._unit.to_canonical(self._shown))

    @value.setter
    def value(self, value: float) -> None:
        self._follow(float(self._unit.from_canonical(value)))

    def enable(self, can_move: bool) -> None:
        """Let it be moved, or hold it where it is."""
        self.slider.disabled = self.box.disabled = not can_move

    def on_change(self, react: Callable[[], None]) -> None:
        """Call ``react`` whenever the value changes."""
        self._react = react

    def _slid(self, moved: float) -> None:
        """Take what the slider was moved to; a page puts a value between two steps on one of them: that is no move."""
        if abs(moved - self._shown) > self.slider.step * 0.5000001:
            self._follow(moved)

    def _follow(self, moved: float) -> None:
        """Take a value from the slider or the box and show it in both; pages send 3.999 999 for 4."""
        shown = min(max(round(moved, 6), self.slider.min), self.slider.max)
        if shown == self._shown:
            return
        self._shown = shown
        self.slider.value = self.box.value = shown
        self._react()


def sliders(names: Iterable[str], start: Mapping[str, Any], settings: Settings) -> list[SliderControl]:
    """Return a slider for each quantity, beginning at its value in ``start``."""
    return [SliderControl(n, float(start[n]), settings) for n in names]


class ChoiceControl:
    """A menu of a few choices, for what is not a number."""

    def __init__(self, name: str, label: str, options: dict[str, Any], value: Any) -> None:
        self.name = name
        self.start = value
        self.menu = widgets.Dropdown(
            options=list(options.items()), value=value, layout={"width": "260px"}, tooltip=label
        )
        self.widget = widgets.VBox([widgets.Label(label, layout={"margin": "6px 0 -6px 2px"}), self.menu])

    @property
    def value(self) -> Any:
        """The present choice."""
        return self.menu.value

    @value.setter
    def value(self, value: Any) -> None:
        self.menu.value = value

    def enable(self, can_move: bool) -> None:
        """Let it be moved, or hold it where it is."""
        self.menu.disabled = not can_move

    def on_change(self, react: Callable[[], None]) -> None:
        """Call ``react`` whenever the choice changes."""
        self.menu.observe(lambda _: react(), names="value")


Control = SliderControl | ChoiceControl


def _in_unit(slider: tuple[float, float, float], unit: Unit) -> tuple[float, float, float]:
    """Convert a slider's span, keeping a whole number of steps and a step that reads well."""
    low, high, step = slider
    shown_low, shown_high = float(unit.from_canonical(low)), float(unit.from_canonical(high))
    shown_step = float(unit.from_canonical(low + step)) - shown_low
    if unit.offset:
        shown_step = 1.0
    return round(shown_low, 9), round(shown_high, 9), round(shown_step, 9)
