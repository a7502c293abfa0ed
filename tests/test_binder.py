"""The lock, the two commands of the README and the script behind them."""

import importlib.util
import re
import tomllib
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[1]
LOCK = (ROOT / "binder" / "requirements.txt").read_text()
PIN = re.compile(r"^([a-z0-9-]+)==(\S+)(?: ; (.+?))? \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", re.MULTILINE)


def wanted() -> list[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    return sum(project["optional-dependencies"].values(), list(project["dependencies"]))


@pytest.mark.parametrize("text", wanted())
def test_the_lock_holds_what_the_project_asks_for(text: str) -> None:
    requirement = Requirement(text)
    pinned = [version for name, version, _, _ in PIN.findall(LOCK) if name == requirement.name]
    assert pinned, f"{text} is in pyproject.toml but not in the lock: make it again with the command at its top"
    assert all(requirement.specifier.contains(version) for version in pinned)


def test_every_pin_has_its_hashes_and_no_address() -> None:
    lines = [line for line in LOCK.splitlines() if line and not line.startswith((" ", "#"))]
    assert lines[0] == "--only-binary :all:"  # nothing is built here from parts that no hash covers
    assert len(PIN.findall(LOCK)) == len(lines) - 1
    assert not re.search(r"://|index-url|find-links", LOCK)


@pytest.fixture
def go(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Load binder/go.py with a checkout of its own and with commands written down instead of run."""
    spec = importlib.util.spec_from_file_location("go", ROOT / "binder" / "go.py")
    assert spec is not None
    assert spec.loader is not None
    module: Any = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    (tmp_path / "lock.txt").write_text("a==1")
    home = tmp_path / ".venv"
    for name, place in {
        "ROOT": tmp_path,
        "LOCK": tmp_path / "lock.txt",
        "VENV": home,
        "PYTHON": home / "python",
        "STAMP": home / "stamp",
    }.items():
        monkeypatch.setattr(module, name, place)

    def create(where: Path, **_: object) -> None:
        where.mkdir(exist_ok=True)
        (where / "python").touch()

    module.said, module.failing = [], ()
    monkeypatch.setattr(module.venv, "create", create)

    def run(*command: object) -> int:
        module.said.append(" ".join(str(word) for word in command))
        return int(any(word in module.said[-1] for word in module.failing))

    monkeypatch.setattr(module, "run", run)
    return module


def test_packages_are_installed_once_by_hash_and_again_when_the_lock_changes(go: Any) -> None:
    go.prepare()
    assert "--require-hashes" in go.said[0]
    assert "--no-build-isolation" in go.said[1]
    go.said.clear()
    go.prepare()
    assert go.said == []
    go.LOCK.write_text("a==2")
    go.prepare()
    assert "--require-hashes" in go.said[0]


def test_a_failed_install_stops_and_is_tried_again(go: Any) -> None:
    go.failing = ("--require-hashes",)
    with pytest.raises(SystemExit):
        go.prepare()
    assert not go.STAMP.exists()


def test_one_failed_check_fails_the_test_command_and_hides_no_other(go: Any) -> None:
    go.failing = ("mypy",)
    assert go.test(["-k", "bank"]) == 1
    assert [said.split(" -m ")[1] for said in go.said[-4:]] == [
        "ruff check .",
        "ruff format --check .",
        "mypy",
        "pytest -n 2 -k bank",
    ]
    go.failing = ()
    assert go.test([]) == 0


def test_lessons_are_served_to_this_machine_only_after_the_sized_demo(go: Any) -> None:
    assert go.lessons(["--no-browser"]) == 0
    sized, served = go.said[-2:]
    assert sized.endswith("-m offgrid_core size lessons/plans/fell_hut.toml")
    assert "--ServerApp.ip=127.0.0.1" in served
    assert served.endswith("--no-browser")


def test_readme_and_ci_use_the_same_commands() -> None:
    readme = (ROOT / "README.md").read_text()
    for task in ("lessons", "test"):
        assert re.search(rf"^\s*python3 binder/go.py {task}$", readme, re.MULTILINE)
    assert (ROOT / ".ci" / "run").read_text().rstrip().endswith("exec python3 binder/go.py test")
