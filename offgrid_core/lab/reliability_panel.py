"""The reliability panel: first a guess, then the map of arrays against banks, and the cheapest for a loss allowed."""

import asyncio
from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.figures import reliability as picture
from offgrid_core.figures.data_table import in_kwh
from offgrid_core.lab.controls import SliderControl
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.quantities import Settings, quantity, read_quantity, show
from offgrid_core.quantities.settings import load
from offgrid_core.system.design import Design
from offgrid_core.year.hours import Hours, hours_of
from offgrid_core.year.map_view import FACTORS, PART, MapView, Spot, joined, map_in_parts
from offgrid_core.year.outcome import drawn_weather
from offgrid_core.year.reliability import ReliabilityMap

YEARS = 10
ALLOWED = "loss_most_frac"
#: Where the slider of the loss allowed begins.
_START_FRAC = 0.01
#: Between two parts the kernel hears what else the page has to say.
_LISTEN_S = 0.01
_GUESSED = (("bank_wh", "Bank on the label", "kWh"), ("array_w", "Array", "W"))


def reliability_panel(
    design: Design, question: str = "", units: Settings | None = None, *, years: int = YEARS, seed: int = 1
) -> "ReliabilityPanel":
    """Return the panel of what designs round a sized system lose and cost.

    Parameters
    ----------
    design
        The hand method's design.
    question
        The one question a lesson asks of it.
    units
        Units and decimal mark; the reader's own by default.
    years, seed
        How many years are drawn from the monthly means of its site, and from which seed.

    Raises
    ------
    OffgridError
        If the number of years, the seed or a value of the site is out of range.
    """
    hours = hours_of(design, drawn_weather(design, years, seed))
    return ReliabilityPanel(design, hours, question, units or load())


class ReliabilityPanel(widgets.VBox):  # type: ignore[misc]
    """A guess, a button, and after it the map as a live panel; as the last value of a cell it shows itself.

    Parameters
    ----------
    design, hours
        The hand method's design, and what its hours are given.
    question
        The one question a lesson asks of it.
    settings
        Units and decimal mark.
    """

    def __init__(self, design: Design, hours: Hours, question: str, settings: Settings) -> None:
        self.design = design
        self.settings = settings
        self.panel: Panel | None = None
        self._hours = hours
        self._map: ReliabilityMap | None = None
        self._task: asyncio.Task[None] | None = None
        self._place = widgets.VBox()
        self.boxes = {name: _box(label, unit) for name, label, unit in _GUESSED}
        self.button = widgets.Button(description="Lock the guess and draw the map", layout={"width": "auto"})
        self.button.on_click(lambda _: self.lock())
        self.progress = widgets.IntProgress(0, 0, -(-len(FACTORS) // PART), layout={"display": "none"})
        self._said = ""
        self._status = widgets.HTML()
        asked = f"<br><i>{escape(question)}</i>" if question else ""
        title = f"<b>{escape(f'Reliability and cost at {design.plan.title}')}</b>{asked}"
        told = (
            f"First guess the cheapest array and bank that lose at most {show(ALLOWED, _START_FRAC, settings)} of the "
            "load. A guess costs nothing."
        )
        super().__init__(
            [
                widgets.HTML(f"<div style='font-size:1.1em'>{title}</div>{escape(told)}"),
                widgets.Box([*self.boxes.values(), self.button], layout={"flex_flow": "row wrap"}),
                self.progress,
                self._status,
                self._place,
            ]
        )
        self.add_class("offgrid-guess-first")

    @property
    def status(self) -> str:
        """The status line as text."""
        return self._said

    def lock(self) -> None:
        """Take the guess, lock it, and work out the map, part by part where a page is listening."""
        try:
            guess = self._guess()
        except OffgridError as e:
            return self._say(str(e), "alert")
        self._open(False)
        try:
            listening = asyncio.get_running_loop()
        except RuntimeError:
            return asyncio.run(self._work(guess))
        self._task = listening.create_task(self._work(guess))
        return self._task.add_done_callback(asyncio.Task.result)  # an error nobody expected is told, not swallowed

    def static(self) -> Any:
        """Return the map as a plain figure, for print; it is worked out first where nobody has yet."""
        if self.panel is not None:
            return self.panel.static()
        whole = joined(list(map_in_parts(self.design, self._hours)))
        return picture.make(MapView(whole, _START_FRAC), self.settings)

    def _guess(self) -> tuple[float, float]:
        """Return array and bank as typed, W and Wh."""
        read = {}
        for name, label, unit in _GUESSED:
            try:
                read[name] = read_quantity(self.boxes[name].value, name, self.settings, unit)
            except OffgridError as e:
                raise OffgridError(f"{label}: {e}") from None
            if read[name] <= 0:
                raise OffgridError(f"{label}: {self.boxes[name].value} is not above 0 {unit}, which is wanted")
        return read["array_w"], read["bank_wh"]

    async def _work(self, guess: tuple[float, float]) -> None:
        done: list[ReliabilityMap] = []
        self.progress.layout.display = ""
        try:
            for part in map_in_parts(self.design, self._hours):
                done.append(part)
                self.progress.value = len(done)
                self._say(f"Worked out: part {len(done)} of {self.progress.max}.")
                await asyncio.sleep(_LISTEN_S)
        except OffgridError as e:
            self._open(True)
            self._say(str(e), "alert")
        else:
            self._show(joined(done), guess)
            self._say("")
        self.progress.layout.display = "none"

    def _show(self, whole: ReliabilityMap, guess: tuple[float, float]) -> None:
        def compute(inputs: Mapping[str, Any]) -> MapView:
            return MapView(whole, inputs[ALLOWED], guess)

        self.panel = Panel(
            PanelParts(
                title="What each array and bank would lose and cost",
                question="",
                controls=[SliderControl(ALLOWED, _START_FRAC, self.settings)],
                more=[],
                compute=compute,
                picture=picture,
                readouts=readouts,
                sentence=picture.sentence,
                legend=legend,
            ),
            self.settings,
        )
        self._place.children = [self.panel]

    def _open(self, is_open: bool) -> None:
        for each in (*self.boxes.values(), self.button):
            each.disabled = not is_open

    def _say(self, words: str, role: str = "status") -> None:
        self._said = words
        rule = "border-left:4px solid #B23C00;padding:2px 8px" if role == "alert" else ""
        self._status.value = f"<div role='{role}' aria-live='polite' style='{rule}'>{escape(words)}</div>"


def _box(label: str, unit: str) -> widgets.Text:
    return widgets.Text(
        description=f"{label} ({unit})",
        style={"description_width": "initial"},
        layout={"width": "250px", "margin": "2px 12px 2px 2px"},
    )


def legend(view: MapView, settings: Settings) -> str:
    """Return a short legend of a setting."""
    return f"{quantity(ALLOWED).symbol} {show(ALLOWED, view.loss_most_frac, settings, 3)}"


def readouts(view: MapView, settings: Settings) -> Sequence[tuple[str, str]]:
    """Return what stands above the map: the cheapest design for the loss allowed, and the hand method's."""
    best = view.cheapest
    cheapest = _told("Cheapest", best, settings) if best else [("Cheapest", "none on the map")]
    return [*cheapest, *_told("Hand", view.hand, settings)]


def _told(whose: str, spot: Spot, settings: Settings) -> list[tuple[str, str]]:
    return [
        (f"{whose}: bank", in_kwh(spot.bank_wh, settings)),
        (f"{whose}: array", show("array_w", spot.array_w, settings, 3)),
        (f"{whose}: load lost", show("loss_energy_frac", spot.loss_frac, settings, 2)),
        (f"{whose}: cost", show("life_cycle_cost", spot.life_cycle_cost, settings, 3)),
    ]
