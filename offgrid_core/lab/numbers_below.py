"""A panel with the numbers behind its picture folded below it."""

from collections.abc import Callable, Sequence
from typing import Any

import ipywidgets as widgets

from offgrid_core.figures.data_table import DataTable
from offgrid_core.lab.panel import Panel, PanelParts
from offgrid_core.lab.sheet_of_paper import table
from offgrid_core.quantities import Settings

TITLE = "The numbers behind the picture"


class PanelWithNumbers(Panel):
    """A live panel with tables of its picture's data, which are written out only while they are unfolded.

    Parameters
    ----------
    parts, settings
        As of :class:`Panel`.
    tables
        A result → the tables of its picture.
    """

    def __init__(
        self, parts: PanelParts, settings: Settings, tables: Callable[[Any, Settings], Sequence[DataTable]]
    ) -> None:
        self._tables = tables
        self._written = widgets.HTML()
        self.numbers = widgets.Accordion([self._written], selected_index=None)
        self.numbers.set_title(0, TITLE)
        super().__init__(parts, settings)
        self.numbers.observe(lambda _: self._write_numbers(), names="selected_index")

    @property
    def tables(self) -> Sequence[DataTable]:
        """The numbers behind the present picture."""
        return self._tables(self.result, self.settings)

    def _body(self) -> widgets.Widget:
        return widgets.VBox([super()._body(), self.numbers])

    def _write(self) -> None:
        super()._write()
        self._write_numbers()

    def _write_numbers(self) -> None:
        if self.numbers.selected_index is None:
            return
        written = "".join(table(each.rows(self.settings), each.caption) for each in self.tables)
        self._written.value = f"<div tabindex='0' style='max-height:340px;overflow:auto'>{written}</div>"
