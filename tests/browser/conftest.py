import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from harness import ROOT, Lesson, chromium, jupyterlab
from playwright.sync_api import Browser, sync_playwright


@pytest.fixture(scope="session")
def lessons_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Copy the lessons, so that running them changes nothing in the checkout."""
    folder = tmp_path_factory.mktemp("served") / "lessons"
    if (ROOT / "lessons").exists():
        shutil.copytree(ROOT / "lessons", folder)
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture(scope="session")
def address(lessons_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with jupyterlab(lessons_folder, tmp_path_factory.mktemp("home")) as at:
        yield at


# Not for the whole session: while playwright runs, its event loop is in the way of the notebook tests' kernels.
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    if shutil.which("chromium") is None:
        if os.environ.get("OFFGRID_BROWSER") == "required":
            pytest.fail("OFFGRID_BROWSER=required, but there is no chromium on this machine")
        pytest.skip("no chromium on this machine")
    with sync_playwright() as playwright, chromium(playwright) as started:
        yield started


@pytest.fixture
def lesson(browser: Browser, address: str) -> Iterator[Callable[[str], Lesson]]:
    """Open a notebook by name. At the end, no page may have reported an error or asked beyond this machine."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened: list[Lesson] = []

    def open_lesson(name: str) -> Lesson:
        opened.append(Lesson(context.new_page(), address, name))
        return opened[-1]

    yield open_lesson
    problems = [f"{one.name}: {problem}" for one in opened for problem in one.problems]
    for one in opened:
        one.close()
    context.close()
    assert not problems, "\n".join(problems)
