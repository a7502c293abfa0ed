"""Set up this checkout, then open the lessons or run the tests. Needs Python 3.11 or later and nothing else.

    python3 binder/go.py lessons [JupyterLab options, such as --no-browser]
    python3 binder/go.py test [pytest options, such as -k bank]
    python3 binder/go.py settings

The first use makes `.venv` and puts the pinned packages of `binder/requirements.txt` into it; later uses are quick.
`settings` is for hosted sessions: it only gives JupyterLab, in the Python that runs this, the lessons' settings.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import venv
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "binder" / "requirements.txt"
OVERRIDES = ROOT / "binder" / "overrides.json"
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
STAMP = VENV / "installed.sha256"


def run(*command: str | Path) -> int:
    """Run one command at the top of the checkout, seen by the person; return its exit code."""
    with subprocess.Popen([str(c) for c in command], cwd=ROOT) as process:
        while True:
            try:
                return process.wait()
            except KeyboardInterrupt:  # the command got it too, and ends or asks back in its own way
                continue


def must(*command: str | Path) -> None:
    """Run one command; stop here, with its exit code, if it fails."""
    code = run(*command)
    if code:
        print(f"Stopped: this failed with exit code {code}: {' '.join(map(str, command))}", file=sys.stderr)
        sys.exit(code)


def prepare() -> None:
    """Make `.venv` hold exactly the lock, and the project; do nothing when it does."""
    wanted = hashlib.sha256(LOCK.read_bytes()).hexdigest()
    if PYTHON.exists() and STAMP.exists() and STAMP.read_text() == wanted:
        return
    print("Installing the pinned packages into .venv: about 900 MB, a few minutes, once.", flush=True)
    try:
        venv.create(VENV, with_pip=True, clear=True)
    except subprocess.CalledProcessError:
        sys.exit("This Python cannot make virtual environments. On Debian: apt-get install python3-venv")
    install = (PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "--quiet")
    must(*install, "--require-hashes", "--requirement", LOCK)
    must(*install, "--no-deps", "--no-build-isolation", "--editable", ROOT)
    must(PYTHON, __file__, "settings")
    STAMP.write_text(wanted)


def settings(_: list[str]) -> int:
    """Give JupyterLab the lessons' settings: no question about fetching news from the net."""
    place = Path(sys.prefix) / "share" / "jupyter" / "lab" / "settings"
    place.mkdir(parents=True, exist_ok=True)
    shutil.copy(OVERRIDES, place / "overrides.json")
    return 0


def lessons(options: list[str]) -> int:
    """Size the demo plan in the terminal, then open JupyterLab on the first lesson."""
    prepare()
    plan = Path("lessons") / "plans" / "fell_hut.toml"
    code = run(PYTHON, "-m", "offgrid_core", "size", plan)
    if code > 1:  # 1 says that the plan breaks a limit: that is a result
        print(f"The demo plan {plan} could not be sized (exit code {code}); opening the lessons.", file=sys.stderr)
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return run(
        *(PYTHON, "-m", "jupyterlab", "--ServerApp.ip=127.0.0.1", *(["--allow-root"] if root else [])),
        *(f"--ServerApp.root_dir={ROOT / 'lessons'}", "--LabApp.default_url=/lab/tree/00_start_here.ipynb"),
        *options,
    )


def test(options: list[str]) -> int:
    """Run every check, the whole test suite last; all of them even when one fails."""
    prepare()
    checks = {
        "ruff check": ("ruff", "check", "."),
        "ruff format": ("ruff", "format", "--check", "."),
        "mypy": ("mypy",),
        "pytest": ("pytest", "-n", "2", *options),
    }
    failed = []
    for name, command in checks.items():
        print(f"== {name}", flush=True)
        if run(PYTHON, "-m", *command):
            failed.append(name)
    if failed:
        print(f"Failed: {', '.join(failed)}", file=sys.stderr)
    return bool(failed)


def main() -> int:
    """Do what the command line asks."""
    tasks: dict[str, Callable[[list[str]], int]] = {"lessons": lessons, "test": test, "settings": settings}
    if sys.version_info < (3, 11):  # noqa: UP036 - run by whatever python3 the machine has
        sys.exit(f"Python 3.11 or later is needed; this is {sys.version.split()[0]}.")
    if len(sys.argv) < 2 or sys.argv[1] not in tasks:
        sys.exit(__doc__)
    return tasks[sys.argv[1]](sys.argv[2:])


if __name__ == "__main__":
    sys.exit(main())
