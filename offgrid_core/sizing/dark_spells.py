"""Dark spells: how far the sun falls behind the load before it has caught up again.

A spell begins on the first day on which the sun gives less than the load takes, with a full bank, and ends when the
bank is full again. It is as long as the most that was missing on the way, counted in days of load: a bank that can give
so many days of load carries it, and a smaller one does not. Bright days in between shorten it, as they fill the bank.
"""

import numpy as np

from offgrid_core.errors import WorksheetError


def dark_spells_days(short_by_day: np.ndarray) -> np.ndarray:
    """Return the length of every dark spell, on the day on which it ends.

    Parameters
    ----------
    short_by_day
        What each day falls short, in days of load: 1 where there was no sun at all, below 0 where there was more than
        the load took. Shape (years, days), each year by itself, beginning with a full bank.

    Returns
    -------
    numpy.ndarray
        Days of load, the same shape; 0 on every day on which no spell ends. A spell that still lasts at the end of a
        year ends there.

    Raises
    ------
    WorksheetError
        If there are not whole years of days, or a value is not finite.

    Notes
    -----
    The sequent-peak form of the mass curve (Rippl 1883, from memory), in which reservoirs have long been sized. The
    longest spell of a year is the largest sum of any run of successive days.
    """
    short = np.asarray(short_by_day, float)
    if short.ndim != 2 or short.size == 0 or not np.all(np.isfinite(short)):
        raise WorksheetError(f"days of load: numbers are wanted, a row a year, not an array of shape {short.shape}")
    missing, most = np.zeros(len(short)), np.zeros(len(short))
    ended = np.zeros(short.shape)
    for day in range(short.shape[1]):
        missing = np.maximum(missing + short[:, day], 0)
        full = missing == 0
        ended[full, day] = most[full]
        most = np.where(full, 0, np.maximum(most, missing))
    ended[:, -1] = np.maximum(ended[:, -1], most)
    return ended
