import os
import shutil
from pathlib import Path

import pytest
from hypothesis import settings

#: A notebook that must fail; test_notebook_runner.py runs it on purpose.
collect_ignore = ["notebooks/built_to_fail.ipynb"]

settings.register_profile("shared machine", deadline=None)
settings.load_profile("shared machine")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say loudly what a run without Chromium has not shown."""
    if shutil.which("chromium") is None and os.environ.get("OFFGRID_BROWSER") != "required":
        terminalreporter.section("NO CHROMIUM: THE BROWSER TESTS WERE SKIPPED", red=True, bold=True)
        terminalreporter.write_line("Nobody has looked at a lesson in a browser. On Debian: apt-get install chromium")


@pytest.fixture(scope="session")
def plans() -> Path:
    """Folder of the demo plans."""
    return Path(__file__).resolve().parents[1] / "lessons" / "plans"
