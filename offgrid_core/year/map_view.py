"""What the picture of reliability shows, worked out: the map part by part, and the designs on it that matter."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from offgrid_core.system.design import Design
from offgrid_core.year.hours import Hours
from offgrid_core.year.reliability import ReliabilityMap, reliability_map

#: Arrays and banks of the picture, as multiples of the hand method's, which is one of them.
FACTORS = tuple(float(x) for x in np.linspace(0.1, 1.5, 29).round(6))
#: Banks worked together; each part takes a second at most, so that a page hears something meanwhile.
PART = 5


def map_in_parts(
    design: Design, hours: Hours, factors: Sequence[float] = FACTORS, part: int = PART
) -> Iterator[ReliabilityMap]:
    """Yield a map of designs a few banks at a time; :func:`joined` puts the parts together.

    Parameters
    ----------
    design, hours
        As of :func:`offgrid_core.year.reliability.reliability_map`.
    factors
        Multiples of its array and of its bank.
    part
        How many banks at a time.
    """
    for first in range(0, len(factors), part):
        yield reliability_map(design, hours, factors, factors[first : first + part])


def joined(parts: Sequence[ReliabilityMap]) -> ReliabilityMap:
    """Return the map whose rows are those of its parts."""
    return replace(
        parts[0],
        bank_wh=np.concatenate([each.bank_wh for each in parts]),
        loss_frac=np.concatenate([each.loss_frac for each in parts]),
        worst_frac=np.concatenate([each.worst_frac for each in parts]),
        life_cycle_cost=np.concatenate([each.life_cycle_cost for each in parts]),
        spilled_wh=np.concatenate([each.spilled_wh for each in parts]),
    )


@dataclass(frozen=True)
class Spot:
    """One design on the map: its array (W) and bank (Wh), the load it loses, mean and worst year, and its cost."""

    array_w: float
    bank_wh: float
    loss_frac: float
    worst_frac: float
    life_cycle_cost: float


@dataclass(frozen=True, eq=False)
class MapView:
    """A map, the loss of load that is allowed, and a guess.

    Attributes
    ----------
    map
        The designs.
    loss_most_frac
        Share of the load that may be lost in a mean year.
    guess
        Array (W) and bank (Wh) that somebody guessed, or ``None``.
    """

    map: ReliabilityMap
    loss_most_frac: float
    guess: tuple[float, float] | None = None

    @property
    def cheapest(self) -> Spot | None:
        """The cheapest design that loses no more than allowed; ``None`` where none does."""
        found = self.map.cheapest(self.loss_most_frac)
        return None if found is None else self._spot(*found)

    @cached_property
    def hand(self) -> Spot:
        """The hand method's design, as the nearest on the map."""
        return self._nearest(self.map.hand_array_w, self.map.hand_bank_wh)

    @cached_property
    def as_good(self) -> Spot:
        """The cheapest design that loses no more than the hand method's."""
        found = self.map.cheapest(self.hand.loss_frac)
        return self.hand if found is None else self._spot(*found)

    @property
    def guessed(self) -> Spot | None:
        """The design on the map nearest to the guess; ``None`` without one, or where it lies beside the map."""
        if self.guess is None:
            return None
        array, bank = self.guess
        arrays, banks = self.map.array_w, self.map.bank_wh
        on_it = arrays[0] <= array <= arrays[-1] and banks[0] <= bank <= banks[-1]
        return self._nearest(array, bank) if on_it else None

    @property
    def too_much(self) -> np.ndarray:
        """Whether each design loses more than allowed, (banks, arrays)."""
        return self.map.loss_frac > self.loss_most_frac

    def _nearest(self, array: float, bank: float) -> Spot:
        row, column = (
            int(np.rint(np.interp(x, axis, np.arange(len(axis)))))
            for x, axis in ((bank, self.map.bank_wh), (array, self.map.array_w))
        )
        return self._spot(row, column)

    def _spot(self, row: int, column: int) -> Spot:
        each = self.map
        values = (each.array_w[column], each.bank_wh[row])
        there = (each.loss_frac, each.worst_frac, each.life_cycle_cost)
        return Spot(*map(float, values), *(float(x[row, column]) for x in there))
