"""Make the README's picture: the whole-chain panel as a reader sees it, one setting pinned and another shown.

.venv/bin/python tests/browser/picture.py
"""

import shutil
import tempfile
from pathlib import Path

from harness import ROOT, Lesson, chromium, jupyterlab
from playwright.sync_api import sync_playwright

PICTURE = ROOT / "lessons" / "pictures" / "whole_chain.png"


def main() -> None:
    folder = Path(tempfile.mkdtemp())
    shutil.copytree(ROOT / "lessons", folder / "lessons")
    with (
        jupyterlab(folder / "lessons", folder / "home") as address,
        sync_playwright() as playwright,
        chromium(playwright) as browser,
    ):
        page = browser.new_page(viewport={"width": 1700, "height": 1100})
        lesson = Lesson(page, address, "00_start_here.ipynb")
        lesson.run_all()
        lesson.figure()
        page.get_by_role("button", name="Pin this setting").first.click()
        lesson.press(lesson.slider("Depth of discharge"), "ArrowLeft", 3)
        page.wait_for_timeout(3000)
        PICTURE.parent.mkdir(exist_ok=True)
        page.locator(".offgrid-panel").first.screenshot(path=PICTURE)
        lesson.close()


if __name__ == "__main__":
    main()
