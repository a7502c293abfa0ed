"""Predict, slide, record, say why: a card that takes a prediction, and a panel whose sliders wait for it."""

import ipywidgets as widgets

from offgrid_core.lab.card import Card, exercise
from offgrid_core.lab.panel import Panel


def explore(id_: str, panel: Panel) -> "Explorer":
    """Return a panel under the card of its question: ``explore("L05-explore", temperature_panel(hut))``.

    Parameters
    ----------
    id_
        A problem whose first fields lock.
    panel
        Its sliders move once these are locked.
    """
    return Explorer(exercise(id_), panel)


class Explorer(widgets.VBox):  # type: ignore[misc]
    """A card and its panel."""

    def __init__(self, card: Card, panel: Panel) -> None:
        self.card, self.panel = card, panel
        super().__init__([card, panel])
        card.on_check(self._follow)
        self._follow()

    def _follow(self) -> None:
        if self.card.is_held:
            self.panel.hold()
        else:
            self.panel.release()
