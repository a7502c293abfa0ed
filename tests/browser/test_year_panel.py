"""The year panel and the reliability panel in a real Chromium: by keyboard, on a small laptop, on light and dark."""

from collections.abc import Callable
from pathlib import Path

import nbformat
import pytest
from harness import Figure, Lesson

Open = Callable[[str], Lesson]
PANELS = {
    "year": 'year_panel(design_of("fell_hut"), "From how many days of autonomy is no load lost?")',
    "reliability": 'reliability_panel(design_of("fell_hut"), "What does the last per cent cost?", years=4)',
}
LAPTOP = {"width": 1366, "height": 768}
_THEME = "theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme: `JupyterLab ${theme}`})"
_FOLDED = "() => window.jupyterapp.shell.collapseLeft()"
#: How far anything of a panel stands out of it to the right, px.
_OUT = """() => { const panel = document.querySelector('.offgrid-panel').getBoundingClientRect();
    return Math.max(...[...document.querySelectorAll('.offgrid-panel .svg-container, .offgrid-panel .widget-html')]
        .map(e => e.getBoundingClientRect().right - panel.right)); }"""


@pytest.fixture
def opened(lesson: Open, lessons_folder: Path) -> Callable[[str], Lesson]:
    """Write a notebook with one panel beside the plans, open it and run it."""

    def open_panel(kind: str) -> Lesson:
        cells = ["from offgrid_core.lab import design_of, reliability_panel, year_panel", PANELS[kind]]
        notebook = nbformat.v4.new_notebook(
            cells=[nbformat.v4.new_code_cell(source) for source in cells],
            metadata={"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
        )
        nbformat.write(notebook, lessons_folder / f"panel_of_{kind}.ipynb")
        page = lesson(f"panel_of_{kind}.ipynb")
        page.page.set_viewport_size(LAPTOP)
        page.page.evaluate(_FOLDED)
        page.run_all()
        return page

    return open_panel


def _look(lesson: Lesson, name: str, dark: bool = False) -> None:
    """Keep a picture of the panel from its top, where pictures are kept."""
    lesson.page.evaluate(_THEME, "Dark" if dark else "Light")
    lesson.page.locator(".offgrid-panel").first.evaluate("panel => panel.scrollIntoView()")
    lesson.page.wait_for_timeout(1000)
    lesson.screenshot(name)
    lesson.page.evaluate(_THEME, "Light")


def _trace(figure: Figure, name: str) -> dict[str, object]:
    """Return one trace: comparing all would find them different for ever, as days without a mark are not numbers."""
    (found,) = (trace for trace in figure.traces if trace["name"] == name)
    return found


def _readouts(lesson: Lesson) -> str:
    return str(lesson.page.evaluate("() => document.querySelector('.offgrid-panel').innerText"))


def _readout(lesson: Lesson, label: str) -> str:
    lines = _readouts(lesson).splitlines()
    return lines[lines.index(label) + 1]


def _wait_for_another(lesson: Lesson, label: str, before: str) -> None:
    changed = """([label, before]) => {
        const lines = document.querySelector('.offgrid-panel').innerText.split('\\n');
        return lines[lines.indexOf(label) + 1] !== before; }"""
    lesson.page.wait_for_function(changed, arg=[label, before])


def test_a_year_follows_a_slider_and_its_numbers_unfold(opened: Callable[[str], Lesson]) -> None:
    page = opened("year")
    figure = page.figure()
    shapes, lost, worst = figure.shapes, _readout(page, "Load lost"), _trace(figure, "worst year")
    _look(page, "year_light")
    page.press(page.slider("Days of autonomy"), "ArrowLeft", 4)
    _wait_for_another(page, "Load lost", lost)
    page.page.wait_for_timeout(1500)
    assert float(_readout(page, "Load lost").split()[0]) > float(lost.split()[0])
    assert figure.shapes != shapes
    moved = _trace(figure, "worst year")
    assert moved != worst
    page.reload()
    assert _trace(page.figure(), "worst year") == moved
    assert page.page.evaluate(_OUT) <= 1
    page.page.get_by_text("The numbers behind the picture").click()
    page.page.get_by_role("cell", name="served to the loads", exact=True).wait_for()
    _look(page, "year_dark", dark=True)


def test_a_guess_opens_the_map_and_its_slider_moves_the_cheapest(opened: Callable[[str], Lesson]) -> None:
    page = opened("reliability")
    assert page.page.locator(".js-plotly-plot").count() == 0
    bank, array = (page.page.locator(".offgrid-guess-first input[type=text]").nth(i) for i in (0, 1))
    lock = page.page.get_by_role("button", name="Lock the guess and draw the map")
    lock.press("Enter")
    page.page.get_by_role("alert").get_by_text("Bank on the label").wait_for()
    bank.fill("15")
    array.fill("2 500")
    array.press("Tab")
    lock.press("Enter")
    figure = page.figure()
    assert not bank.is_enabled()
    best = _trace(figure, "cheapest")
    before = _readout(page, "Cheapest: array")
    _look(page, "reliability_light")
    page.press(page.slider("Loss of load allowed"), "ArrowRight", 30)
    _wait_for_another(page, "Cheapest: array", before)
    page.page.wait_for_timeout(1500)
    assert _trace(figure, "cheapest") != best
    assert page.page.evaluate(_OUT) <= 1
    _look(page, "reliability_dark", dark=True)
