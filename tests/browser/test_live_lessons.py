"""Lessons in a real Chromium with no way out of this machine: sliders by keyboard, a reload, a wrong answer."""

from collections.abc import Callable

import pytest
from harness import Lesson

from offgrid_core.practice.mistakes import mistake

Open = Callable[[str], Lesson]
START = "00_start_here.ipynb"
HEADLINE = ("Days of autonomy", "Depth of discharge", "Coldest battery temperature")


def _said(lesson: Lesson) -> str:
    return lesson.page.locator(".offgrid-panel [role=status]").first.inner_text()


def _wait_for_another_sentence(lesson: Lesson, said: str) -> None:
    """Wait until the sentence has changed and then stood still, so that every key press has been worked out."""
    another = "([was]) => document.querySelector('.offgrid-panel [role=status]').innerText !== was"
    lesson.page.wait_for_function(another, arg=[said])
    for _ in range(20):
        now = _said(lesson)
        lesson.page.wait_for_timeout(700)
        if _said(lesson) == now:
            return
    raise AssertionError("the sentence never stood still")


def _readouts(lesson: Lesson) -> str:
    return lesson.page.locator(".offgrid-panel").first.locator(".widget-html").nth(1).inner_text()


@pytest.fixture
def start(lesson: Open) -> Lesson:
    opened = lesson(START)
    opened.run_all()
    return opened


def test_each_headline_slider_moves_picture_readouts_and_sentence(start: Lesson) -> None:
    for label in HEADLINE:
        figure = start.figure()
        traces, shapes, said, read = figure.traces, figure.shapes, _said(start), _readouts(start)
        start.press(start.slider(label), "ArrowRight", 3)
        _wait_for_another_sentence(start, said)
        assert figure.traces != traces, label
        assert figure.shapes != shapes, label
        assert _readouts(start) != read, label
    start.screenshot("start_moved")


def test_the_handles_of_the_sliders_are_whole(start: Lesson) -> None:
    start.figure()
    below = """() => [...document.querySelectorAll('.offgrid-slider')].filter(each => each.offsetParent).map(each =>
        each.querySelector('[role=slider]').getBoundingClientRect().bottom - each.getBoundingClientRect().bottom)"""
    rows = start.page.evaluate(below)
    assert len(rows) >= len(HEADLINE)
    assert max(rows) <= 0
    start.press(start.slider(HEADLINE[0]), "End")  # at its right end the number box is next to it
    over = """() => [...document.querySelectorAll('.offgrid-slider')].filter(each => each.offsetParent).map(each =>
        each.querySelector('[role=slider]').getBoundingClientRect().right
        - each.parentElement.querySelector('input[type=number], input[type=text]').getBoundingClientRect().left)"""
    assert max(start.page.evaluate(over)) <= 0


def test_a_reload_still_shows_the_present_picture(start: Lesson) -> None:
    start.figure()  # a slider moved while the first picture is still being painted may not be seen in it
    handle = start.slider(HEADLINE[0])
    first = float(handle.get_attribute("aria-valuenow") or 0)
    start.press(handle, "ArrowRight", 4)
    # the third trace is the mark of the setting
    drawn = """([handle, first]) => {
        const mark = document.querySelector('.js-plotly-plot')?._fullData?.[2]?.x[0];
        return mark > first && mark === Number(handle.getAttribute('aria-valuenow')); }"""
    start.page.wait_for_function(drawn, arg=[handle.element_handle(), first])
    start.page.wait_for_timeout(500)
    moved, said = start.figure().traces, _said(start)
    start.reload()
    assert start.figure().traces == moved
    assert _said(start) == said


def test_no_label_of_a_box_is_cut_off(lesson: Open) -> None:
    opened = lesson("10_wiring.ipynb")
    opened.page.set_viewport_size({"width": 1366, "height": 768})
    opened.run_all()
    opened.page.locator(".offgrid-card .widget-text").last.scroll_into_view_if_needed()
    measured = """() => [...document.querySelectorAll('.offgrid-card .widget-text > .widget-label')].map(each => [
        each.textContent, each.scrollWidth - each.clientWidth, each.scrollHeight - each.parentElement.clientHeight])"""
    labels = opened.page.evaluate(measured)
    assert any(len(words) > 45 for words, _, _ in labels)  # more than a line holds
    assert not [words for words, too_wide, too_high in labels if too_wide > 1 or too_high > 1]


def test_a_wrong_answer_is_named_in_the_temperature_lesson(lesson: Open) -> None:
    opened = lesson("05_temperature.ipynb")
    opened.run_all()
    card = opened.page.locator(".offgrid-card", has_text="L05-4")
    box = card.locator("input[type=text]").first
    box.click()
    opened.page.keyboard.type("125")  # 100 Ah with "a quarter is lost, so add a quarter"
    opened.page.keyboard.press("Enter")
    card.get_by_text(mistake("TE-02").question).first.wait_for()
    opened.screenshot("temperature_wrong")
    box.fill("133.3")
    opened.page.keyboard.press("Enter")
    card.get_by_text("133.3 Ah. Every step of this one stands").first.wait_for()
