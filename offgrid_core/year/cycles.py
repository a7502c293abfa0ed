"""Cycles counted in a charge curve by rainflow, and the wear they make."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import rainflow

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.wear import WEAR
from offgrid_core.worksheet import Solved

#: Swings of charge below this are dust: the controller's own ripple and rounding, not cycles of the plates.
DUST_FRAC = 0.001


def cycles_of(charge_frac: Sequence[float] | np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Count the cycles of a charge curve; swings below :data:`DUST_FRAC` are left out.

    Parameters
    ----------
    charge_frac
        State of charge as a share of the bank's label, one value an hour (or any other even step); at least three.

    Returns
    -------
    depths, counts : ndarray
        Depth of each cycle as a share of the label, rising, and how many there were of that depth; a swing that was
        not made good, such as the way from summer into winter, is half a cycle and counts 0.5.

    Raises
    ------
    OffgridError
        If the curve is no row of at least three numbers.

    Notes
    -----
    ASTM E1049-85, section 5.4.4, by the ``rainflow`` library. Only turning points matter, so neither a constant
    added nor the time a swing takes changes the count.

    Examples
    --------
    >>> depths, counts = cycles_of([1, 0.6, 1, 0.5, 1])
    >>> depths.round(3).tolist(), counts.tolist()
    ([0.4, 0.5], [1.0, 1.0])
    """
    curve = np.asarray(charge_frac, float)
    if curve.ndim != 1 or curve.size < 3 or not np.all(np.isfinite(curve)):
        raise OffgridError(
            f"charge curve: a row of at least 3 numbers is wanted, not an array of shape {curve.shape} with "
            f"{np.count_nonzero(~np.isfinite(curve))} values that are no numbers"
        )
    found = np.array(rainflow.count_cycles(curve.tolist()), float).reshape(-1, 2)
    depths, counts = found[found[:, 0] >= DUST_FRAC].T
    return depths, counts


def wear_of(charge_by_hour_frac: Sequence[float] | np.ndarray, given: Mapping[str, Any]) -> Solved:
    """Return the wear of a bank from its charge, hour by hour, and the years until it is worn out.

    Parameters
    ----------
    charge_by_hour_frac
        State of charge as a share of the bank's label, one value for every hour counted: a year, or many.
    given
        The table ``cycle_life`` of the chemistry, and what the life by the calendar reads: ``air_temp_by_month_c``,
        ``float_life_years``, ``life_table_c``, ``halving_k``. Whatever else is in it is left aside.

    Returns
    -------
    Solved
        The worksheet :data:`offgrid_core.sizing.wear.WEAR`, one row a depth of cycle; ``bank_life_years`` is the
        earlier of the two ends.

    Raises
    ------
    OffgridError
        If the charge is no row of numbers, a given is missing, or a swing is deeper than the table goes.
    """
    depths, counts = cycles_of(charge_by_hour_frac)
    known = {name: given[name] for name in WEAR.inputs if name in given}
    if "cycle_life" in given:
        known["cycle_depth_least_frac"] = given["cycle_life"].x[0]
    counted = {
        "cycle_depth_by_row_frac": depths,
        "cycle_by_row_count": counts,
        "counted_h": len(charge_by_hour_frac),
    }
    return WEAR.solve(known | counted)
