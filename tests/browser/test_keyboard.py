"""A lesson by keyboard alone: keys that belong to a control do nothing else in JupyterLab."""

from collections.abc import Callable

from harness import Lesson

Open = Callable[[str], Lesson]
_CELLS = "() => window.jupyterapp.shell.currentWidget.content.model.cells.length"


def test_letters_and_arrows_on_a_menu_stay_with_it(lesson: Open) -> None:
    opened = lesson("my_own_site.ipynb")
    opened.run_all()
    cells = opened.page.evaluate(_CELLS)
    menu = opened.page.locator(".offgrid-form select").first
    menu.scroll_into_view_if_needed()
    menu.focus()
    before = menu.input_value()
    opened.page.keyboard.press("ArrowDown")
    opened.page.keyboard.press("b")
    opened.page.keyboard.press("a")
    opened.page.wait_for_timeout(300)
    assert opened.page.evaluate(_CELLS) == cells
    assert menu.evaluate("m => m === document.activeElement")
    assert menu.input_value() != before
