"""The design sheet in a real Chromium: offline, wide enough, and on paper as it was looked at."""

import re
from pathlib import Path

import pytest
from harness import ROOT
from playwright.sync_api import Browser

from offgrid_core.quantities import Settings
from offgrid_core.report.page import page_html
from offgrid_core.system import read_plan, size

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
#: A common small laptop, whole and at 200 %; a page as wide as its window does not scroll sideways.
WINDOWS = {"laptop": (1366, 768), "laptop at 200 %": (683, 384)}
#: Pages of each demo, A4 and Letter, when somebody looked at every one of them. Where a design has more to say, look
#: again and renew; a line more or less may move a count by one.
SEEN = {"fell_hut": (26, 28), "riverbend": (24, 27), "gull_mast": (23, 24), "weekend_cabin": (26, 27)}
_SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
_HIDDEN = """() => [...document.querySelectorAll('.wide')]
    .filter(box => box.scrollWidth > box.clientWidth + 1).map(box => box.querySelector('caption').textContent)"""
_CUT = """() => [...document.querySelectorAll('td, th, text')]
    .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
    .map(e => e.textContent)"""


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Write the sheet of each demo."""
    folder = tmp_path_factory.mktemp("sheets")
    for name in DEMOS:
        design = size(read_plan(ROOT / "lessons" / "plans" / f"{name}.toml"))
        (folder / f"{name}.html").write_text(page_html(design, Settings()), encoding="utf-8")
    return {name: folder / f"{name}.html" for name in DEMOS}


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("window", WINDOWS)
def test_the_sheet_opens_offline_and_does_not_scroll_sideways(
    browser: Browser, sheets: dict[str, Path], name: str, window: str
) -> None:
    width, height = WINDOWS[window]
    context = browser.new_context(viewport={"width": width, "height": height}, offline=True)
    page = context.new_page()
    asked: list[str] = []
    problems: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: problems.append(message.text))
    page.goto(sheets[name].as_uri())
    assert asked == [sheets[name].as_uri()], "a request left the page"
    assert problems == []
    assert page.evaluate(_SIDEWAYS) <= 0
    assert page.evaluate(_HIDDEN) == []
    assert page.evaluate(_CUT) == []
    context.close()


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_sheet_prints_on_as_many_pages_as_were_looked_at(
    browser: Browser, sheets: dict[str, Path], name: str, paper: str
) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(sheets[name].as_uri())
    printed = page.pdf(format=paper)
    pages = len(re.findall(rb"/Type\s*/Page\b(?!s)", printed))
    assert abs(pages - SEEN[name][paper == "Letter"]) <= 1
    context.close()


def test_a_request_and_a_wide_page_would_be_seen(browser: Browser, tmp_path: Path) -> None:
    bad = tmp_path / "bad.html"
    bad.write_text('<img src="other.png" alt=""><div style="width:3000px">x</div>', encoding="utf-8")
    context = browser.new_context(viewport={"width": 1366, "height": 768}, offline=True)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(bad.as_uri())
    assert len(asked) == 2
    assert page.evaluate(_SIDEWAYS) > 1000
    context.close()
