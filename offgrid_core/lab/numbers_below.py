"""The numbers behind a picture, folded below it."""

from collections.abc import Callable, Sequence

import ipywidgets as widgets

from offgrid_core.figures.data_table import DataTable
from offgrid_core.lab.sheet_of_paper import table
from offgrid_core.quantities import Settings


class NumbersBelow(widgets.Accordion):  # type: ignore[misc]
    """Tables of a picture's data, written out only while they are unfolded.

    Parameters
    ----------
    tables
        Gives the tables of the present picture.
    settings
        Decimal mark and grouping.
    """

    def __init__(self, tables: Callable[[], Sequence[DataTable]], settings: Settings) -> None:
        self._tables = tables
        self._settings = settings
        self._written = widgets.HTML()
        super().__init__([self._written], selected_index=None)
        self.set_title(0, "The numbers behind the picture")
        self.observe(lambda _: self.write(), names="selected_index")

    def write(self) -> None:
        """Write the tables anew where they are looked at."""
        if self.selected_index is None:
            return
        written = "".join(table(each.rows(self._settings), each.caption, has_head=True) for each in self._tables())
        self._written.value = f"<div tabindex='0' style='max-height:340px;overflow:auto'>{written}</div>"
