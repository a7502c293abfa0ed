"""The form of one's own plan: what is said of an entry is in sight while one types, wherever in the form that is."""

from collections.abc import Callable

from harness import Lesson

Open = Callable[[str], Lesson]


def test_what_is_said_stays_in_sight_and_the_box_is_marked(lesson: Open) -> None:
    opened = lesson("my_own_site.ipynb")
    opened.page.set_viewport_size({"width": 1366, "height": 768})
    opened.run_all()
    box = opened.page.get_by_label("Modules on hand").first
    told = opened.page.locator(".offgrid-form-told").first
    box.scroll_into_view_if_needed()
    box.fill("many")
    opened.page.keyboard.press("Enter")
    told.get_by_text("Already on hand, modules on hand: please re-enter").wait_for()
    opened.screenshot("own_site_wrong")
    notebook = opened.page.locator(".jp-WindowedPanel-outer").first.bounding_box()
    seen, form = told.bounding_box(), opened.page.locator(".offgrid-form").first.bounding_box()
    assert notebook
    assert seen
    assert form
    assert form["y"] < notebook["y"]  # the top of the form is above the window
    assert notebook["y"] - 1 <= seen["y"] < notebook["y"] + 20
    assert opened.page.locator(".offgrid-wrong").count() == 1
