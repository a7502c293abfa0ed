"""A small file that survives power cuts, damage, and two notebooks at once."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from offgrid_core import files
from offgrid_core.errors import OffgridError
from offgrid_core.practice.words import say

#: Seconds to wait for another notebook.
_WAIT = 5.0


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

    The lock is the operating system's, so it goes with the process that held it, however that ended.

    Raises
    ------
    OffgridError
        If another notebook holds the lock for longer than a few seconds, or the folder cannot be written.
    """
    lock = path.with_name(f".{path.name}.lock")
    try:
        lock.parent.mkdir(parents=True, exist_ok=True)
        held = FileLock(lock).acquire(timeout=_WAIT, poll_interval=0.01)
    except Timeout:
        raise OffgridError(say("record.busy", path=path.name)) from None
    except OSError as e:
        raise OffgridError(say("record.unwritten", path=lock.parent, reason=e.strerror)) from None
    with held:
        yield
