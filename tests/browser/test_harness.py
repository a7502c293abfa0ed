"""The harness itself, on a small notebook: a slider, a line of text and a live figure in a box."""

import re
from collections.abc import Callable
from pathlib import Path

import nbformat
import pytest
from harness import Figure, Lesson

CELLS = (
    "import ipywidgets as widgets\n"
    "import plotly.graph_objects as go\n"
    "from offgrid_core.lab.live_figure import LiveFigure",
    "slider = widgets.IntSlider(description='Days', min=0, max=10, value=2)\n"
    "told = widgets.HTML()\n"
    "figure = LiveFigure(go.Figure(go.Scatter(x=[0, 1, 2], y=[0, 2, 4], name='line'))\n"
    "                    .update_layout(height=300, yaxis_range=[0, 20]))\n"
    "def move(_):\n"
    "    told.value = f'{slider.value} days'\n"
    "    with figure.batch_update():\n"
    "        figure.data[0].y = [0, slider.value, 2 * slider.value]\n"
    "        figure.layout.title.text = f'{slider.value} days drawn'\n"
    "slider.observe(move, 'value')",
    "widgets.VBox([slider, told, figure])",
)


#: A picture that brings no curve, as one does that a slow page gave up on; and one that comes after all.
LATE = (
    "import ipywidgets as widgets\n"
    "import plotly.graph_objects as go\n"
    "from offgrid_core.lab.fit import Fit\n"
    "from offgrid_core.lab.live_figure import LiveFigure",
    "figure, late = LiveFigure(go.Figure()), widgets.Button(description='Bring it')\n"
    "late.on_click(lambda _: figure.add_scatter(x=[0, 1], y=[0, 1]))\n"
    "widgets.VBox([late, figure, Fit(patience_s=1)])",
)


@pytest.fixture
def small(lessons_folder: Path, request: pytest.FixtureRequest) -> str:
    """Write the small notebook into the served folder; return its name."""
    cells = getattr(request, "param", CELLS)
    notebook = nbformat.v4.new_notebook(
        cells=[nbformat.v4.new_code_cell(source) for source in cells],
        metadata={"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
    )
    name = f"{request.node.originalname}.ipynb"
    nbformat.write(notebook, lessons_folder / name)
    return name


def _rise_px(figure: Figure) -> float:
    """Tell how far the drawn line climbs: its axis is fixed, so that this follows the slider and nothing else."""
    (_, start), (_, end) = re.findall(r"([\d.]+),([\d.]+)", figure.shapes[0])
    return float(start) - float(end)


def test_slider_text_figure_and_reload(lesson: Callable[[str], Lesson], small: str) -> None:
    page = lesson(small)
    page.run_all()
    figure = page.figure()
    assert figure.traces[0]["y"] == [0, 2, 4]
    first_px = _rise_px(figure)

    page.press(page.slider("Days"), "ArrowRight", times=5)
    page.page.get_by_text("7 days", exact=True).wait_for()
    page.page.get_by_text("7 days drawn").wait_for()
    assert figure.traces[0]["y"] == [0, 7, 14]
    page.screenshot("harness_moved")

    page.reload()
    page.page.get_by_text("7 days", exact=True).wait_for()
    figure = page.figure()
    assert figure.traces[0]["y"] == [0, 7, 14]
    page.page.get_by_text("7 days drawn").wait_for()
    assert _rise_px(figure) == pytest.approx(7 / 2 * first_px, rel=0.1)

    page.press(page.slider("Days"), "ArrowLeft", times=3)
    page.page.get_by_text("4 days drawn").wait_for()
    assert figure.traces[0]["y"] == [0, 4, 8]
    page.screenshot("harness_reloaded")


def test_the_watch_sees_what_it_must(lesson: Callable[[str], Lesson], small: str) -> None:
    page = lesson(small)
    assert page.problems == []
    for script in (
        "fetch('https://elsewhere.invalid/x').catch(() => 0)",
        "void new WebSocket('wss://elsewhere.invalid/y')",
        "console.error('told')",
        "void setTimeout(() => { throw new Error('thrown') })",
    ):
        page.page.evaluate(script)
    page.page.wait_for_timeout(500)
    seen = set(page.problems)
    page.problems.clear()
    assert {"left the machine: https://elsewhere.invalid/x", "left the machine: wss://elsewhere.invalid/y"} < seen
    assert {"console: told", "page error: thrown"} < seen


def test_widgets_that_are_gone_are_told(lesson: Callable[[str], Lesson], small: str) -> None:
    page = lesson(small)
    page.run_all()
    page.page.evaluate("() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()")
    page.reload()
    assert any("widget model not found" in problem for problem in page.problems)
    page.problems.clear()


def test_a_cell_that_fails_is_told(lesson: Callable[[str], Lesson], small: str, lessons_folder: Path) -> None:
    notebook = nbformat.read(lessons_folder / small, as_version=4)
    notebook.cells = [nbformat.v4.new_code_cell("1 / 0")]
    nbformat.write(notebook, lessons_folder / small)
    page = lesson(small)
    with pytest.raises(AssertionError, match="ZeroDivisionError"):
        page.run_all()


@pytest.mark.parametrize("small", [LATE], ids=["late"], indirect=True)
def test_a_picture_that_does_not_come_is_missed(lesson: Callable[[str], Lesson], small: str) -> None:
    page = lesson(small)
    page.run_all()
    missed = page.page.get_by_role("alert").filter(has_text="run this cell once more")
    missed.wait_for()
    page.page.get_by_role("button", name="Bring it").click()
    missed.wait_for(state="hidden")
