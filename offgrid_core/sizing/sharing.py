"""How parallel strings share the current: the resistor network of strings, links and leads, solved.

Each string is a voltage behind a resistance. Which way the current reaches the strings decides how evenly they
work: the string with the least copper in its way gives and takes the most, and ages first.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from offgrid_core.errors import OffgridError
from offgrid_core.worksheet import Sheet, largest_of, limit, line

#: Where the two leads of the bank are taken.
PLACEMENTS = ("same end", "diagonal", "bus bars")
MOST_STRINGS = 200
#: Below this share of the largest resistance, a loop of strings and copper counts as bare of any.
_BARE = 1e-12
Floats = NDArray[np.float64]
#: From node, to node, resistance (Ω), voltage that drives current that way (V).
Branch = tuple[int, int, float, float]


@line(
    "resistance of one unit",
    standing="classroom approximation, no source",
    source="rises as the cold takes capacity",
)
def unit_ohm(cells_12v_count, unit_v, cell_resistance_ohm_ah, unit_ah, kept_frac):
    return cells_12v_count * unit_v / 12 * cell_resistance_ohm_ah / (unit_ah * kept_frac)


@line("resistance of one string", standing="physics", source="the links inside a string left out")
def string_ohm(units_in_series_count, unit_ohm):
    return units_in_series_count * unit_ohm


@line("share of the hardest-worked string", standing="physics")
def hardest_share_frac(string_share_by_row_frac):
    return largest_of(string_share_by_row_frac)


@line("extra current in the hardest-worked string", standing="physics", source="over an equal share")
def extra_share_frac(hardest_share_frac, strings_count):
    return hardest_share_frac * strings_count - 1


@limit(
    "evenness of the strings",
    severity="damage",
    mend="use bus bars with equal leads, shorter and thicker links, leads at opposite corners, or fewer strings",
    standing="common practice, no source",
    source="a tenth over an equal share is usually accepted",
)
def sharing_margin_frac(extra_max_frac, extra_share_frac):
    return extra_max_frac - extra_share_frac


#: From a cell's resistance to a string's.
STRING_RESISTANCE = Sheet(unit_ohm, string_ohm)
#: From the shares of the solved network to how uneven they are.
SHARING = Sheet(hardest_share_frac, extra_share_frac, sharing_margin_frac)


@dataclass(frozen=True)
class Sharing:
    """Currents of parallel strings.

    Attributes
    ----------
    placement
        Where the leads are, one of :data:`PLACEMENTS`.
    current_by_string_a
        Current of each string, A: above zero where the string discharges.
    share_by_string_frac
        Current of each string over the total; ``nan`` where the total is zero.
    hardest_string
        Number, from 1, of the string with the most current, in or out; of equal ones the first.
    residual_a
        By how much the currents at the worst node fail to add up, A: float noise, or the solution is not one.
    """

    placement: str
    current_by_string_a: tuple[float, ...]
    share_by_string_frac: tuple[float, ...]
    hardest_string: int
    residual_a: float


def _copper(placement: str, strings: int, link_ohm: float, lead_ohm: float) -> tuple[list[Branch], int, int]:
    """Return links or leads, and the nodes at which the current leaves the bank and comes back.

    String i, from 0, has its plus end at node i and its minus end at node ``strings`` + i.
    """
    if placement == "bus bars":
        plus, minus = 2 * strings, 2 * strings + 1
        leads = [(i, plus, lead_ohm, 0.0) for i in range(strings)]
        return leads + [(minus, strings + i, lead_ohm, 0.0) for i in range(strings)], plus, minus
    links = [(rail + i, rail + i + 1, link_ohm, 0.0) for rail in (0, strings) for i in range(strings - 1)]
    return links, 0, strings if placement == "same end" else 2 * strings - 1


def share_current(
    placement: str,
    strings: int,
    total_a: float,
    string_ohm: ArrayLike,
    *,
    link_ohm: float = 0.0,
    lead_ohm: float = 0.0,
    string_v: ArrayLike = 0.0,
) -> Sharing:
    """Work out how parallel strings share a current.

    Parameters
    ----------
    placement
        ``"same end"``: both leads at string 1. ``"diagonal"``: plus at string 1, minus at the last string.
        ``"bus bars"``: every string has leads of its own to two bars.
    strings
        How many strings, 1 to :data:`MOST_STRINGS`.
    total_a
        Current of the bank, A; above zero for discharge, below for charge. With zero, what the strings give
        each other at rest.
    string_ohm
        Resistance of each string, Ω; one for all, or one each.
    link_ohm
        Resistance between the same posts of two neighbours, Ω, on either rail; the bus bars have none.
    lead_ohm
        Resistance of one lead from a string's end to its bus bar, Ω.
    string_v
        Open-circuit voltage of each string, V; one for all, or one each. Only differences count.

    Raises
    ------
    OffgridError
        If a value is out of its range, the placement is unknown, or a loop has no resistance at all.

    Notes
    -----
    Kirchhoff's two laws as one set of linear equations: at every node the currents add up to zero, and along every
    branch the voltage falls by its resistance times its current. A steady state: voltages do not move with charge.

    Examples
    --------
    >>> [round(a, 1) for a in share_current("diagonal", 3, 100, 0.020, link_ohm=0.0015).current_by_string_a]
    [34.1, 31.7, 34.1]
    """
    _check_placement(placement)
    if strings not in range(1, MOST_STRINGS + 1):
        raise OffgridError(f"strings in parallel: {strings} is not allowed; allowed is 1 to {MOST_STRINGS}, whole")
    strings = int(strings)
    ohms = _one_each("resistance of a string", string_ohm, strings, low=0.0)
    volts = _one_each("open-circuit voltage of a string", string_v, strings)
    (total,) = _one_each("current of the bank", total_a, 1)
    (link,) = _one_each("resistance of a link", link_ohm, 1, low=0.0)
    (lead,) = _one_each("resistance of a lead", lead_ohm, 1, low=0.0)
    copper, plus, minus = _copper(placement, strings, link, lead)
    branches = [(strings + i, i, ohms[i], volts[i]) for i in range(strings)] + copper
    currents, residual = _solved(branches, plus, minus, total)
    each = currents[:strings].tolist()
    return Sharing(
        placement=placement,
        current_by_string_a=tuple(each),
        share_by_string_frac=tuple(amps / float(total) if total else np.nan for amps in each),
        hardest_string=_first_largest(np.abs(currents[:strings])) + 1,
        residual_a=residual,
    )


def _check_placement(placement: str) -> None:
    if placement not in PLACEMENTS:
        from difflib import get_close_matches

        near = get_close_matches(str(placement), PLACEMENTS, 3, 0.3) or PLACEMENTS
        raise OffgridError(f"placement of the leads: {placement!r} is not known; nearest: {', '.join(near)}")


def _one_each(label: str, value: ArrayLike, count: int, low: float = -np.inf) -> Floats:
    """Return one finite value for each of ``count``, or say what is allowed."""
    try:
        values = np.asarray(value, float)
    except (TypeError, ValueError):
        raise OffgridError(f"{label}: {str(value)[:40]!r} is not a number") from None
    if values.shape not in ((), (1,), (count,)):
        raise OffgridError(f"{label}: {values.size} values are given; allowed is one for all, or one each for {count}")
    if np.any(bad := ~(np.isfinite(values) & (values >= low))):
        allowed = "any number" if np.isinf(low) else f"{low:g} or more"
        raise OffgridError(f"{label}: {values[bad].flat[0]:g} is not allowed; allowed is {allowed}")
    return np.broadcast_to(values, (count,))


def _solved(branches: Sequence[Branch], plus: int, minus: int, total_a: float) -> tuple[Floats, float]:
    """Return the current of every branch, A, and by how much the worst node's currents fail to add up, A."""
    start, end = (np.array([b[k] for b in branches]) for k in (0, 1))
    ohms, volts = (np.array([b[k] for b in branches], float) for k in (2, 3))
    nodes, count = int(max(start.max(), end.max())) + 1, len(branches)
    leaves = np.zeros((nodes, count))
    leaves[start, np.arange(count)] += 1
    leaves[end, np.arange(count)] -= 1
    bare = leaves[:, ohms <= _BARE * ohms.max()]
    if not ohms.any() or np.linalg.matrix_rank(bare) < bare.shape[1]:
        raise OffgridError("strings and copper: a loop has no resistance; allowed is more than 0 Ω in every loop")
    fed = np.zeros(nodes)
    fed[plus] -= total_a
    fed[minus] += total_a
    scale = ohms.max()  # potentials in amperes through the largest resistance: all unknowns of one size
    known = np.delete(np.arange(nodes), minus)  # the minus node is the zero of potential
    equations = np.block(
        [[leaves[known], np.zeros((nodes - 1, nodes - 1))], [np.diag(ohms / scale), -leaves[known].T]],
    )
    currents = np.linalg.solve(equations, np.concatenate([fed[known], volts / scale]))[:count]
    return currents, float(np.abs(leaves @ currents - fed).max())


def _first_largest(values: Floats) -> int:
    """Return the place of the largest value; of those equal but for float noise, the first."""
    return int(np.flatnonzero(values >= values.max() * (1 - 1e-9))[0])
