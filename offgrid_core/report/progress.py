"""A bar for work that takes long: on a terminal only, after two seconds only, and gone when the work is done."""

import time
from collections.abc import Callable
from types import TracebackType
from typing import TextIO

from offgrid_core.report.year_words import say

#: Work shorter than this needs no bar, s.
AFTER_S = 2.0
_CELLS = 30


class Progress:
    """Shows how far the work is; to be used in a ``with``, and called with what is done and what is wanted.

    Parameters
    ----------
    stream
        Where to draw, if it is a terminal.
    clock
        Seconds that only go forward.

    Examples
    --------
    >>> import io
    >>> with Progress(io.StringIO()) as told:
    ...     told(1, 20)
    """

    def __init__(self, stream: TextIO, clock: Callable[[], float] = time.monotonic) -> None:
        self._stream, self._clock, self._begun = stream, clock, clock()
        self._drawn = 0

    def __call__(self, done: int, wanted: int) -> None:
        """Draw the bar over the one before, if it is time."""
        if not self._stream.isatty() or self._clock() - self._begun < AFTER_S:
            return
        full = _CELLS * done // wanted
        said = f"[{'#' * full}{'.' * (_CELLS - full)}] {say('told.years', done=done, wanted=wanted)}"
        self._draw(said)

    def __enter__(self) -> "Progress":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Take the bar away, however the work ended."""
        if self._drawn:
            self._draw("")
            self._stream.write("\r")
            self._stream.flush()

    def _draw(self, said: str) -> None:
        self._stream.write("\r" + said.ljust(self._drawn))
        self._stream.flush()
        self._drawn = max(self._drawn, len(said))
