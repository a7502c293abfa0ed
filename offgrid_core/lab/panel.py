"""One explorer panel: controls on the left, picture on the right, worked out by a pure function in between.

A lesson's panel is a declaration (:class:`PanelParts`). This class does the wiring for all of them: redraw in
place, readouts, a sentence that says what the picture says, the numbers behind it folded below, pins, reset, a plain
figure for print, and trouble said in words while the last good picture stays.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any, Protocol

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.figures.data_table import DataTable
from offgrid_core.figures.parts import GHOSTS
from offgrid_core.lab.controls import STYLE, Control
from offgrid_core.lab.fit import Fit
from offgrid_core.lab.keys import Keys
from offgrid_core.lab.live_figure import LiveFigure
from offgrid_core.lab.numbers_below import NumbersBelow
from offgrid_core.quantities import Settings, say, show
from offgrid_core.quantities.text import kept_together
from offgrid_core.worksheet import Solved


class Picture(Protocol):
    """What a module of :mod:`offgrid_core.figures` gives a panel."""

    def make(self, view: Any, settings: Settings, /) -> Any:
        """Return the complete picture of a result, for a first view."""

    def draw(self, figure: Any, view: Any, pins: Sequence[tuple[str, Any]], settings: Settings, /) -> None:
        """Put a result and its pins into a picture that was made."""

    def tables(self, view: Any, settings: Settings, /) -> Sequence[DataTable]:
        """Return the numbers behind the picture."""


@dataclass(frozen=True)
class PanelParts:
    """What makes one panel differ from another.

    Attributes
    ----------
    title
        Its name on the screen.
    question
        The one question it is there for; empty in a workbench.
    controls, more
        Visible controls (at most four sliders) and those under "More inputs".
    compute
        Settings by name → result. Pure; raises :class:`OffgridError` when it cannot.
    picture
        The module that draws a result.
    readouts
        Label and value-with-unit pairs for the line above the picture.
    sentence
        What the picture says, in words.
    legend
        Short legend of a result, for its pin.
    """

    title: str
    question: str
    controls: Sequence[Control]
    more: Sequence[Control]
    compute: Callable[[Mapping[str, Any]], Any]
    picture: Picture
    readouts: Callable[[Any, Settings], Sequence[tuple[str, str]]]
    sentence: Callable[[Any, Settings], str]
    legend: Callable[[Any, Settings], str]


def readings(names: Mapping[str, str], solved: Solved, settings: Settings) -> list[tuple[str, str]]:
    """Return label and value-with-unit of those lines, given as label by line, that the worksheet has."""
    return [(label, show(n, solved[n], settings, 3)) for n, label in names.items() if n in solved]


class Panel(widgets.VBox):  # type: ignore[misc]
    """A live panel; as the last value of a cell it shows itself."""

    def __init__(self, parts: PanelParts, settings: Settings) -> None:
        self.parts = parts
        self.settings = settings
        self._controls = (*parts.controls, *parts.more)
        self._together = False
        self.pins: list[tuple[str, Any]] = []
        self.result = parts.compute(self.inputs)
        self._figure = LiveFigure(parts.picture.make(self.result, settings))
        self.numbers = NumbersBelow(lambda: self.tables, settings)
        self._readouts = widgets.HTML()
        self._sentence = widgets.HTML()
        self._status = widgets.HTML()
        self._write()
        super().__init__(children=[self._head(), self._body(), self.numbers])
        self.add_class("offgrid-panel")
        for control in self._controls:
            control.on_change(self.refresh)

    @property
    def inputs(self) -> dict[str, Any]:
        """Present settings by name, in the units of the names."""
        return {c.name: c.value for c in self._controls}

    @property
    def summary(self) -> str:
        """The sentence under the picture."""
        return self.parts.sentence(self.result, self.settings)

    @property
    def tables(self) -> Sequence[DataTable]:
        """The numbers behind the present picture."""
        return self.parts.picture.tables(self.result, self.settings)

    @property
    def status(self) -> str:
        """The status line as text; empty when all is well."""
        return self._trouble

    def set(self, name: str, value: Any) -> None:
        """Move one control, as a hand would; ``value`` is in the unit of the name."""
        control = next((c for c in self._controls if c.name == name), None)
        if control is None:
            raise OffgridError(f"this panel has no control called {name}")
        control.value = value

    def refresh(self) -> None:
        """Work out the present setting and redraw; say in words what cannot be worked out."""
        if self._together:
            return
        try:
            self.result = self.parts.compute(self.inputs)
        except OffgridError as e:
            self._say_trouble(str(e))
            return
        with self._figure.batch_update():
            self.parts.picture.draw(self._figure, self.result, self.pins, self.settings)
        self._write()

    def hold(self) -> None:
        """Keep every control where it is until :meth:`release`, and say what is waited for."""
        for control in self._controls:
            control.enable(False)
        self._status.value = f"<div role='note'>{escape(say('panel.held'))}</div>"

    def release(self) -> None:
        """Let the controls be moved."""
        for control in self._controls:
            control.enable(True)
        self._status.value = ""

    def pin(self) -> None:
        """Keep the present curve as a dashed ghost; of four pins the oldest goes."""
        self.pins = [*self.pins, (self.parts.legend(self.result, self.settings), self.result)][-GHOSTS:]
        self.refresh()

    def unpin(self) -> None:
        """Take all ghosts away."""
        self.pins = []
        self.refresh()

    def reset(self) -> None:
        """Put every control back to where it started, with one redraw at the end; pins stay."""
        self._together = True
        for control in self._controls:
            control.value = control.start
        self._together = False
        self.refresh()

    def static(self) -> Any:
        """Return the present picture as a plain figure, for print."""
        figure = self.parts.picture.make(self.result, self.settings)
        self.parts.picture.draw(figure, self.result, self.pins, self.settings)
        return figure

    def _head(self) -> widgets.Widget:
        question = f"<br><i>{escape(self.parts.question)}</i>" if self.parts.question else ""
        return widgets.HTML(f"{STYLE}<div style='font-size:1.1em'><b>{escape(self.parts.title)}</b>{question}</div>")

    def _body(self) -> widgets.Widget:
        column = widgets.VBox(
            [*(c.widget for c in self.parts.controls), *self._more(), self._buttons()],
            layout={"flex": "0 0 320px", "width": "320px"},
        )
        picture = widgets.VBox(
            [self._readouts, self._figure, Fit(), Keys(), self._sentence, self._status],
            layout={"flex": "1 1 420px", "min_width": "300px", "overflow": "hidden"},
        )
        return widgets.Box([column, picture], layout={"display": "flex", "flex_flow": "row wrap", "width": "100%"})

    def _more(self) -> list[widgets.Widget]:
        if not self.parts.more:
            return []
        folded = widgets.Accordion([widgets.VBox([c.widget for c in self.parts.more])])
        folded.set_title(0, say("panel.more"))
        folded.selected_index = None
        return [folded]

    def _buttons(self) -> widgets.Widget:
        made = []
        for key, act in (("panel.pin", self.pin), ("panel.unpin", self.unpin), ("panel.reset", self.reset)):
            button = widgets.Button(description=say(key), layout={"width": "auto", "flex": "0 0 auto"})
            button.on_click(lambda _, act=act: act())
            made.append(button)
        return widgets.Box(made, layout={"display": "flex", "flex_flow": "row wrap", "margin": "10px 0"})

    def _write(self) -> None:
        self._trouble = ""
        cells = "".join(
            f"<div style='margin:0 18px 4px 0'><span style='font-size:.85em'>{escape(kept_together(label))}</span><br>"
            f"<b style='font-size:1.15em'>{escape(kept_together(value))}</b></div>"
            for label, value in self.parts.readouts(self.result, self.settings)
        )
        self._readouts.value = f"<div style='display:flex;flex-wrap:wrap'>{cells}</div>"
        self._sentence.value = f"<div role='status' aria-live='polite'>{escape(kept_together(self.summary))}</div>"
        self._status.value = ""
        self.numbers.write()

    def _say_trouble(self, trouble: str) -> None:
        self._trouble = trouble
        said = escape(say("panel.problem", reason=trouble))
        self._status.value = f"<div role='alert' style='border-left:4px solid #B23C00;padding:2px 8px'>{said}</div>"
