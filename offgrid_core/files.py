"""Small files that a person keeps: written whole or not at all, and a damaged one put aside, never thrown away."""

import os
import secrets
from pathlib import Path


def write_whole(path: Path, text: str) -> None:
    """Write beside, then put in place in one step, so that a crash leaves the old file or the new one.

    Raises
    ------
    OSError
        If the folder cannot be written; the old file is still there.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}-{secrets.token_hex(6)}")
    try:
        with beside.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    finally:
        beside.unlink(missing_ok=True)


def put_aside(path: Path) -> Path | None:
    """Rename a damaged file so that nothing of it is lost; return its new place, or ``None`` if it must stay."""
    number = 1
    while (kept := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    try:
        return path.rename(kept)
    except OSError:
        return None
