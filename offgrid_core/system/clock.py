"""Windows of the day as a plan writes them: ``"06:30-09:00"``, or past midnight ``"22:00-05:00"``."""

import re
from typing import Any

import numpy as np
from pydantic import AfterValidator, BeforeValidator

from offgrid_core.system.fields import refused, shown

MOST_WINDOWS = 12
_WINDOW = re.compile(r"([01]?\d|2[0-4]):([0-5]\d)\s*[-–]\s*([01]?\d|2[0-4]):([0-5]\d)", re.ASCII)
_ALLOWED = 'allowed is a list such as ["06:30-09:00", "18:00-23:00"], from 00:00 to 24:00, each hour once'


def minutes_of(window: str) -> np.ndarray:
    """Return the minutes of the day inside one window, as 1440 truths; a window may pass midnight.

    Raises
    ------
    pydantic_core.PydanticCustomError
        With the window found and what is allowed.
    """
    found = _WINDOW.fullmatch(window.strip())
    if not found:
        raise refused(f"{shown(window)} is not a window; {_ALLOWED}")
    h1, m1, h2, m2 = map(int, found.groups())
    start, end = h1 * 60 + m1, h2 * 60 + m2
    if start > 1440 or end > 1440 or start == end:
        raise refused(f"{shown(window)} is not a window; {_ALLOWED}")
    minute = np.arange(1440)
    return (minute >= start) & (minute < end) if start < end else (minute >= start) | (minute < end)


def clock_of(windows: tuple[str, ...]) -> np.ndarray:
    """Return the share of each of the 24 hours that the windows cover."""
    return np.asarray(np.any([minutes_of(w) for w in windows], axis=0).reshape(24, 60).mean(axis=1))


def _listed(entry: Any) -> Any:
    if not isinstance(entry, list | tuple) or not all(isinstance(w, str) for w in entry):
        raise refused(f"{shown(entry)} is not a list of windows; {_ALLOWED}")
    if not 1 <= len(entry) <= MOST_WINDOWS:
        raise refused(f"{len(entry)} windows are not allowed; 1 to {MOST_WINDOWS} are; {_ALLOWED}")
    return tuple(entry)


def _apart(windows: tuple[str, ...]) -> tuple[str, ...]:
    taken = np.zeros(1440, bool)
    for window in windows:
        minutes = minutes_of(window)
        if np.any(taken & minutes):
            raise refused(f"{shown(window)} runs into another window of the list; {_ALLOWED}")
        taken |= minutes
    return windows


#: Reads a plan entry as a list of windows that do not overlap.
WINDOWS_OF = (BeforeValidator(_listed), AfterValidator(_apart))
