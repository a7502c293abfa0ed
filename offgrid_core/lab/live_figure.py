"""The live picture of a panel: a plotly figure that survives a page reload."""

import sys
from collections.abc import Iterable
from copy import deepcopy
from typing import Any

import plotly.graph_objects as go
from plotly.serializers import custom_serializers

# The next line makes a lesson's first picture some three seconds quicker. A live figure pulls in plotly's display code,
# that nbformat, that jsonschema, and that this package, whose import builds a large grammar. jsonschema does without it
# when it is not there, at the price of its checks of international web addresses, which no notebook here needs.
sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]


class LiveFigure(go.FigureWidget):  # type: ignore[misc]
    """A figure drawn in place, whose saved state is always its present picture.

    Plotly sends each change to the page as a message and leaves the widget state that pages start from as it was
    when the figure was made. A figure shown as a cell's own result is refreshed when the cell runs; one inside a
    box is not, so after a page reload the sliders stood at their present values beside the first picture. Here the
    state is read from the figure at the moment a page asks for it.

    Build the figure completely, then wrap it: ``LiveFigure(figure)``. Change it inside ``batch_update()``.
    """

    def __init__(self, figure: go.Figure) -> None:
        """Wrap a complete figure; it fills the width it is given and shows no tool bar."""
        super().__init__(figure)
        self._config = {"responsive": True, "displayModeBar": False}

    def get_state(self, key: str | Iterable[str] | None = None, drop_defaults: bool = False) -> dict[str, Any]:
        """Return the widget state by name, with traces and layout as they are now.

        Parameters
        ----------
        key
            One name or several; all when ``None``.
        drop_defaults
            Leave out what equals its default.
        """
        state: dict[str, Any] = super().get_state(key=key, drop_defaults=drop_defaults)
        if self.__dict__.get("_layout_obj") is None:  # asked while still being made: nothing drawn yet
            return state
        present = {"_widget_data": self._data, "_widget_layout": self._layout_obj._props}
        to_json = custom_serializers["to_json"]
        if key is None:  # the whole state, for a page that starts: the last change is in the picture already, and done
            state |= {
                name: None for name in state if name.startswith("_py2js_")
            }  # twice it would empty what it left out
        return state | {name: to_json(deepcopy(drawn), self) for name, drawn in present.items() if name in state}

    @staticmethod
    def _remove_overlapping_props(*_: Any) -> list[Any]:
        """Forget nothing that was set.

        When several traces change at once, each in other properties, the page reports what a trace was *not* sent as
        if it were a default, and plotly then drops it from the figure here: after a reload lines had lost their x.
        """
        return []
