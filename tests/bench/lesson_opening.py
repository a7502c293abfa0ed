"""Every lesson from an empty tab to its painted panel, against a bare notebook with one figure and one slider.

    .venv/bin/python tests/bench/lesson_opening.py [rounds]

A benchmark, not a test: it prints medians in seconds and ratios. Time runs from going to the page of the notebook, in a
JupyterLab that runs already, over running every cell down to the panel (as a learner does, from the top), to the first
painted figure. The bare notebook imports numpy, ipywidgets and plotly, and shows one figure and a slider for it.
"""

import re
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

import nbformat
from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))
from harness import ROOT, Lesson, chromium, jupyterlab

BARE = "bare.ipynb"
# JupyterLab paints what is near the screen: go to the cell with the panel, then run all above it, and it.
RUN_AND_GO = """async () => {
    const notebook = window.jupyterapp.shell.currentWidget.content;
    const cells = [...notebook.model.cells].map(cell => cell.sharedModel.getSource());
    notebook.activeCellIndex = Math.max(0, cells.findIndex(source => source.includes('_panel(')));
    window.jupyterapp.commands.execute('notebook:run-all-above');
    window.jupyterapp.commands.execute('notebook:run-cell');
    await notebook.scrollToItem(notebook.activeCellIndex, 'start');
}"""
SOURCE = """import ipywidgets as widgets
import numpy as np
import plotly.graph_objects as go

xs = np.linspace(1, 10, 71)
figure = go.FigureWidget([go.Scatter(x=xs, y=xs)])
slider = widgets.FloatSlider(value=4, min=1, max=10, step=0.5)


def move(change):
    figure.data[0].y = xs * change["new"]


slider.observe(move, names="value")
widgets.VBox([slider, figure])"""


def seconds_to_paint(browser: Browser, address: str, name: str) -> float:
    """Return the seconds from the page's address to its first painted figure."""
    page = browser.new_page(viewport={"width": 1366, "height": 768})
    start = time.monotonic()
    lesson = Lesson(page, address, name)
    page.evaluate(RUN_AND_GO)
    lesson.figure()
    took = time.monotonic() - start
    lesson.close()
    return took


def main() -> None:
    """Open each notebook so many times, in turn, and print what it took."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    folder = Path(tempfile.mkdtemp())
    shutil.copytree(ROOT / "lessons", folder / "lessons")
    bare = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(SOURCE)])
    bare.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    nbformat.write(bare, folder / "lessons" / BARE)
    with_panel = [p.name for p in sorted((folder / "lessons").glob("*.ipynb")) if re.search(r"_panel\(", p.read_text())]
    names = [BARE, *with_panel]
    times: dict[str, list[float]] = {name: [] for name in names}
    with jupyterlab(folder / "lessons", folder / "home") as address, sync_playwright() as p, chromium(p) as browser:
        seconds_to_paint(browser, address, BARE)  # the first page of all also fills the browser's cache
        for _ in range(rounds):
            for name in names:
                times[name].append(seconds_to_paint(browser, address, name))
    least = statistics.median(times[BARE])
    for name, taken in times.items():
        print(f"{name:28} {statistics.median(taken):6.2f} s   {statistics.median(taken) / least:5.2f} × bare")


if __name__ == "__main__":
    main()
