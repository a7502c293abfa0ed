"""The widget state of a live figure is its present picture. (In a browser: tests/browser/test_harness.py.)"""

import subprocess
import sys

import numpy as np
import plotly.graph_objects as go
import pytest

from offgrid_core.lab.live_figure import LiveFigure


@pytest.fixture
def figure() -> LiveFigure:
    return LiveFigure(go.Figure(go.Scatter(x=[0, 1], y=[0, 1], name="first")).update_layout(title="before"))


def test_state_follows_traces_and_layout(figure: LiveFigure) -> None:
    with figure.batch_update():
        figure.data[0].y = [5, 6]
        figure.layout.title.text = "after"
    state = figure.get_state()
    assert list(state["_widget_data"][0]["y"]) == [5, 6]
    assert state["_widget_layout"]["title"]["text"] == "after"


def test_state_has_traces_added_after_construction(figure: LiveFigure) -> None:
    figure.add_scatter(y=[1, 2], name="second")
    assert [trace["name"] for trace in figure.get_state()["_widget_data"]] == ["first", "second"]


def test_arrays_travel_as_plotly_sends_them(figure: LiveFigure) -> None:
    figure.data[0].y = np.array([0.5, 1.5])
    sent = figure.get_state("_widget_data")["_widget_data"][0]["y"]
    assert sent["dtype"] == "float64"
    assert np.frombuffer(sent["buffer"]).tolist() == [0.5, 1.5]


def test_only_what_is_asked_for(figure: LiveFigure) -> None:
    assert set(figure.get_state(["_view_count", "_widget_layout"])) == {"_view_count", "_widget_layout"}


def test_state_is_a_copy(figure: LiveFigure) -> None:
    figure.get_state()["_widget_layout"]["title"]["text"] = "changed outside"
    assert figure.layout.title.text == "before"


def test_a_live_figure_does_not_load_the_slow_grammar() -> None:
    tell = "print(sys.modules.get('rfc3987_syntax'), 'jsonschema' in sys.modules)"
    asked = f"import sys, offgrid_core.lab.live_figure; {tell}"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.split() == ["None", "True"]
