# ruff: noqa: E501, SIM117
"""Slider to repainted picture, and run-all to first painted picture, against the bare minimum, in the same run.

    .venv/bin/python tests/bench/panel_latency.py [moves]

A benchmark, not a test: it prints medians and their ratios. The bare notebook has one slider and one live figure
with as many traces and points as the whole-chain panel; its slider only puts new data into them.
"""

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

import nbformat
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))
from harness import ROOT, Lesson, chromium, jupyterlab

IMPORTS = "import numpy as np, ipywidgets as widgets\nfrom offgrid_core.lab import chain_panel, design_of\n"
PANEL = IMPORTS + "chain_panel(design_of('fell_hut'))"
BARE = (
    IMPORTS
    + """
from offgrid_core.lab.live_figure import LiveFigure
shape = chain_panel.__globals__['chain'].make
from offgrid_core.quantities import Settings
from offgrid_core.system import whole_chain
figure = LiveFigure(shape(whole_chain(design_of('fell_hut'), {}), Settings()))
slider = widgets.FloatSlider(value=4, min=1, max=10, step=0.5, description='Days of autonomy')
held = [(t, None if t.y is None else np.array(t.y)) for t in figure.data]
def move(change):
    with figure.batch_update():
        for i, (trace, y) in enumerate(held):
            if y is not None and y.dtype != object:
                trace.y = y * (1 + i * change['new'] / 100)
slider.observe(move, names='value')
widgets.VBox([slider, figure])"""
)
# Armed before a key is pressed: from the key to two frames after the drawn outlines change, when they are on the screen.
_ARM = """([gd]) => {
    const outline = () => [...gd.querySelectorAll('.overplot path')]
        .map(p => p.getAttribute('d') + p.getAttribute('transform')).join();
    const before = outline();
    window.moved = new Promise(done => document.addEventListener('keydown', () => {
        const start = performance.now();
        const look = () => {
            if (outline() === before && performance.now() - start < 3000) return requestAnimationFrame(look);
            requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now() - start)));
        };
        look();
    }, {capture: true, once: true}));
}"""


def measure(lesson: Lesson, moves: int) -> tuple[float, list[float]]:
    """Return seconds from run-all to the painted picture, and milliseconds of each slider move."""
    start = time.monotonic()
    lesson.run_all()
    figure = lesson.figure()
    opened = time.monotonic() - start
    handle = lesson.slider("Days of autonomy")
    handle.focus()
    keys = (["ArrowRight"] * 5 + ["ArrowLeft"] * 5) * (moves // 10 + 1)
    times = []
    for key in keys[:moves]:
        lesson.page.evaluate(_ARM, [figure.element.element_handle()])
        lesson.page.keyboard.press(key)
        times.append(lesson.page.evaluate("() => window.moved"))
    return opened, times


def main() -> None:
    moves = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    folder = Path(tempfile.mkdtemp())
    shutil.copytree(ROOT / "lessons", folder / "lessons")
    for name, source in (("panel", PANEL), ("bare", BARE)):
        notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(source)])
        notebook.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
        nbformat.write(notebook, folder / "lessons" / f"bench_{name}.ipynb")
    found: dict[str, list[tuple[float, float]]] = {"panel": [], "bare": []}
    with jupyterlab(folder / "lessons", folder / "home") as address, sync_playwright() as playwright:
        with chromium(playwright) as browser:
            for turn in range(4):  # the first turn warms both up and is not counted
                for name in found:
                    lesson = Lesson(browser.new_page(), address, f"bench_{name}.ipynb")
                    opened, times = measure(lesson, moves)
                    lesson.close()
                    if turn:
                        found[name].append((opened, statistics.median(times)))
    opened = {name: statistics.median(o for o, _ in runs) for name, runs in found.items()}
    moved = {name: statistics.median(m for _, m in runs) for name, runs in found.items()}
    print(
        f"run-all to painted: panel {opened['panel']:.2f} s, bare {opened['bare']:.2f} s, ratio {opened['panel'] / opened['bare']:.2f}"
    )
    print(
        f"slider to painted: panel {moved['panel']:.0f} ms, bare {moved['bare']:.0f} ms, ratio {moved['panel'] / moved['bare']:.2f}"
    )


if __name__ == "__main__":
    main()
