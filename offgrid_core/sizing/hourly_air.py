"""Air temperature of every hour of a year from twelve monthly means: a smooth course with the same swing every day."""

from collections.abc import Sequence

import numpy as np

from offgrid_core.sizing.hourly_sun import DAYS, MONTH_DAYS, MONTH_OF_DAY
from offgrid_core.sizing.sky import by_month

#: Hour of the day when the air is warmest (common practice, no source).
WARMEST_H = 15.0


def air_of_hours_c(air_by_month_c: float | Sequence[float], swing_k: float) -> np.ndarray:
    """Return the air of the 8760 hours of a year.

    Parameters
    ----------
    air_by_month_c
        Twelve monthly means, or one value, °C, January first.
    swing_k
        From the coldest to the warmest hour of a day, K.

    Returns
    -------
    numpy.ndarray
        °C. Straight from one mid-month to the next, from December to January too, by the values that give back every
        monthly mean; over it a cosine, warmest at :data:`WARMEST_H`, coldest twelve hours away.

    Raises
    ------
    WorksheetError
        If a mean is out of range or there are neither one nor twelve.
    """
    weights = _mid_month_weights()
    mean_weights = np.add.reduceat(weights, np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]])) / MONTH_DAYS[:, None]
    mid_month = np.linalg.solve(mean_weights, by_month("air_temp_by_month_c", air_by_month_c))
    day = swing_k / 2 * np.cos(2 * np.pi * (np.arange(24) + 0.5 - WARMEST_H) / 24)
    return np.asarray(((weights @ mid_month)[:, None] + day).ravel())


def _mid_month_weights() -> np.ndarray:
    """Return how much each mid-month counts on each day, 365 × 12."""
    middles = np.cumsum(MONTH_DAYS) - MONTH_DAYS / 2
    middle_of_day = DAYS - 0.5
    return np.stack(
        [np.interp(middle_of_day, middles, own, period=len(MONTH_OF_DAY)) for own in np.eye(len(MONTH_DAYS))], axis=1
    )
