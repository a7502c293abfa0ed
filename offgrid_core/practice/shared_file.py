"""A small file that survives power cuts, damage, and two notebooks at once."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from offgrid_core import files
from offgrid_core.errors import OffgridError
from offgrid_core.practice.words import say

#: Seconds to wait for another notebook, and after which a lock is a crash's leftover.
_WAIT, _STALE = 5.0, 10.0


def write_whole(path: Path, text: str) -> None:
    """Write a file whole or not at all.

    Raises
    ------
    OffgridError
        If the folder cannot be written; the old file is still there.
    """
    try:
        files.write_whole(path, text)
    except OSError as e:
        raise OffgridError(say("record.unwritten", path=path.parent, reason=e.strerror)) from None


def set_aside(path: Path) -> str:
    """Put a damaged file aside, and say where it is kept."""
    kept = files.put_aside(path)
    return say("record.kept", path=kept.name) if kept else say("record.left")


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Keep other notebooks from writing a file for as long as this one reads and writes it.

    Raises
    ------
    OffgridError
        If another notebook holds the lock for longer than a few seconds, or the folder cannot be written.
    """
    lock = path.with_name(f".{path.name}.lock")
    until = time.monotonic() + _WAIT
    while not _taken(lock):
        if time.monotonic() > until:
            raise OffgridError(say("record.busy", path=path.name))
        time.sleep(0.01)
    try:
        yield
    finally:
        lock.unlink(missing_ok=True)


def _taken(lock: Path) -> bool:
    try:
        lock.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(lock, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
    except FileExistsError:
        _remove_stale(lock)
        return False
    except PermissionError as e:
        if lock.exists():  # on Windows: another notebook is just removing it
            return False
        raise OffgridError(say("record.unwritten", path=lock.parent, reason=e.strerror)) from None
    except OSError as e:
        raise OffgridError(say("record.unwritten", path=lock.parent, reason=e.strerror)) from None
    return True


def _remove_stale(lock: Path) -> None:
    try:
        if time.time() - lock.stat().st_mtime > _STALE:
            lock.unlink(missing_ok=True)
    except OSError:
        return
