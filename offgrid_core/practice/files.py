"""A small file that survives power cuts, damage, and two notebooks at once."""

import os
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from offgrid_core.errors import OffgridError
from offgrid_core.practice.words import say

#: Seconds to wait for another notebook, and after which a lock is a crash's leftover.
_WAIT, _STALE = 5.0, 10.0


def write_whole(path: Path, text: str) -> None:
    """Write beside, then put in place in one step, so that a crash leaves the old file or the new one.

    Raises
    ------
    OffgridError
        If the folder cannot be written; the old file is still there.
    """
    beside = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    except OSError as e:
        raise OffgridError(say("record.unwritten", path=path.parent, reason=e.strerror)) from None
    finally:
        if beside:
            Path(beside).unlink(missing_ok=True)


def set_aside(path: Path) -> str:
    """Rename a damaged file so that nothing of it is lost, and say where it is kept."""
    number = 1
    while (kept := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    try:
        path.rename(kept)
    except OSError:
        return say("record.left")
    return say("record.kept", path=kept.name)


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
