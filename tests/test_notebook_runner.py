"""The notebook runner can fail: a notebook built to fail does, cell by cell, with the suite's own options."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).resolve().parent
NOTEBOOK = "built_to_fail.ipynb"


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Run the notebook built to fail outside the suite; return what pytest printed of each cell."""
    folder = tmp_path_factory.mktemp("built_to_fail")
    shutil.copy(HERE / "notebooks" / NOTEBOOK, folder)
    command = [sys.executable, "-m", "pytest", "-c", HERE.parent / "pyproject.toml", "--rootdir", folder, "-rA"]
    done = subprocess.run(
        [str(c) for c in (*command, "-n0", folder / NOTEBOOK)],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 1, done.stdout + done.stderr
    return done.stdout


@pytest.mark.parametrize(
    ("cell", "verdict"),
    [
        (0, "PASSED"),  # a cell that is right
        (1, "FAILED"),  # a cell that raises
        (2, "FAILED"),  # a cell whose stored output is not what it prints, and that asks to be compared
        (3, "FAILED"),  # a slider's callback that raises
        (4, "FAILED"),  # the same inside an Output widget
        (5, "PASSED"),  # the kernel goes on after all that
    ],
)
def test_verdict_on_each_cell(told: str, cell: int, verdict: str) -> None:
    assert f"{verdict} {NOTEBOOK}::Cell {cell}" in told


def test_it_is_not_part_of_the_suite() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "--collect-only", "-q", "-n0", "tests/notebooks"],
        cwd=HERE.parent,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert "no tests collected" in done.stdout
