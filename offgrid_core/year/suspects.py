"""Which hours of a log give a fault away, and which fault explains a log best.

Likelihoods are those of normal noise of the stated width in every column, each hour by itself. Every fault is tried at
all its places and at the size that suits the log best, so a fault is never beaten for being drawn small or large.

Some faults hide. While the bank is full by mid-morning the controllers hold back anyway, so shade, dirt and a weak unit
leave almost no trace; and a disconnect or a generator start that is set wrongly shows only when the charge falls that
far. Such a log is explained as well by no fault, and is no exercise.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from offgrid_core.year.faults import Case, Fault, applicable
from offgrid_core.year.log import Log, Stretch, log_of

#: Hours that differ by more than so many widths of noise give a fault away.
TELLING_WIDTHS = 3.0
#: The next best explanation may be at most so likely beside the best, where one fault is to be the answer.
RIVAL_MOST = 0.2
#: The places that look likeliest with a fault of middle size, and how many sizes are tried there.
_PLACES = 2
_SIZES = 5
_REFINED = 3
#: The same of a fault whose log jumps with its size, as a switch that falls an hour sooner does.
_SIZES_OF_JUMPS = 17
_HALVED = 5


@dataclass(frozen=True)
class Suspect:
    """How well a fault, or no fault, explains a log.

    Attributes
    ----------
    case
        The fault with the size and place that suit the log best; ``None`` for a sound system.
    misfit
        Sum of the squared differences in widths of noise; about one for each reading where the explanation is right.
    likelihood
        Beside the best of all explanations, which has 1.
    """

    case: Case | None
    misfit: float
    likelihood: float


def pair(case: Case, stretch: Stretch, seed: int) -> tuple[Log, Log]:
    """Return the logs of the sound system and of the one with the fault: the same days, the same noise."""
    return log_of(stretch, seed), log_of(stretch, seed, case.wrong(stretch))


def informative(healthy: Log, faulty: Log) -> dict[str, tuple[range, ...]]:
    """Return by column the rows that give a fault away, as ranges of row numbers from 1.

    In these hours the two logs differ by more than :data:`TELLING_WIDTHS` of the column's noise. Two logs of a sound
    system with the same noise never differ; with noise of their own 3.4 % of the hours do.
    """
    widths = healthy.stretch.widths
    return {
        name: _runs(np.abs(faulty.readings[name] - healthy.readings[name]) > TELLING_WIDTHS * widths[name])
        for name in healthy.stretch.columns
    }


def explains(log: Log) -> dict[str, Suspect]:
    """Return how well each fault that the system can have explains a log, the best first; ``""`` is no fault."""
    stretch = log.stretch
    seen = _in_widths(log)
    sound = np.asarray(seen - _in_widths(log_of(stretch)))
    tried: dict[str, tuple[Case | None, float]] = {"": (None, _squared(sound))}
    for fault in applicable(stretch):
        tried[fault.key] = _fitted(fault, stretch, seen, sound)
    best = min(misfit for _, misfit in tried.values())
    ranked = sorted(tried.items(), key=lambda item: item[1][1])
    return {key: Suspect(case, misfit, float(np.exp((best - misfit) / 2))) for key, (case, misfit) in ranked}


def unique_answer(suspects: Mapping[str, Suspect]) -> str:
    """Return the key of the fault that alone explains a log; empty where there is none, or a likely rival."""
    first, second, *_ = suspects
    return first if suspects[second].likelihood <= RIVAL_MOST else ""


def _fitted(fault: Fault, stretch: Stretch, seen: np.ndarray, sound: np.ndarray) -> tuple[Case, float]:
    """Return the case of a fault that suits a log best, and its misfit; ``sound`` is how far off no fault is."""
    low, high = fault.sizes
    sizes = np.unique(np.linspace(low, high, _SIZES_OF_JUMPS if fault.jumps else _SIZES))

    def off(size: float, place: int) -> np.ndarray:
        return np.asarray(seen - _in_widths(log_of(stretch, wrong=Case(fault, size, place).wrong(stretch))))

    middle = float(sizes[len(sizes) // 2])
    tried = {(middle, place): off(middle, place) for place in fault.places}
    grown = low / middle, high / middle
    likely = sorted(fault.places, key=lambda place: _scaled(sound, tried[middle, place], grown))[:_PLACES]
    for place in likely if len(sizes) > 1 else ():
        here = {(float(size), place): off(float(size), place) for size in sizes if size != middle}
        here[middle, place] = tried[middle, place]
        if fault.jumps:
            _close_in(here, place, off)
        else:
            _refine(here, place, fault.sizes, off)
        tried |= here
    size, place = min(tried, key=lambda at: _squared(tried[at]))
    return Case(fault, size, place), _squared(tried[size, place])


def _scaled(sound: np.ndarray, off: np.ndarray, grown: tuple[float, float]) -> float:
    """Return the least misfit of a fault if all it does grew with its size, between so many times the size tried."""
    done = sound - off
    whole = _squared(done)
    times = np.clip(np.sum(sound * done) / whole, *grown) if whole else 1.0
    return _squared(sound - times * done)


def _refine(
    tried: dict[tuple[float, int], np.ndarray],
    place: int,
    span: tuple[float, float],
    off: Callable[[float, int], np.ndarray],
) -> None:
    """Try sizes at which the differences, straight between the two best tried so far, would be least."""
    for _ in range(_REFINED):
        best, other = sorted(tried, key=lambda at: _squared(tried[at]))[:2]
        slope = (tried[other] - tried[best]) / (other[0] - best[0])
        steep = _squared(slope)
        if not steep:
            return
        size = float(np.clip(best[0] - np.sum(slope * tried[best]) / steep, *span))
        if (size, place) in tried:
            return
        tried[size, place] = off(size, place)


def _close_in(tried: dict[tuple[float, int], np.ndarray], place: int, off: Callable[[float, int], np.ndarray]) -> None:
    """Try sizes halfway from the best so far to those next to it, again and again."""
    for _ in range(_HALVED):
        best = min(tried, key=lambda at: _squared(tried[at]))[0]
        beside = [
            max((s for s, _ in tried if s < best), default=best),
            min((s for s, _ in tried if s > best), default=best),
        ]
        for size in {(best + s) / 2 for s in beside} - {best}:
            tried[size, place] = off(size, place)


def _in_widths(log: Log) -> np.ndarray:
    """Return the readings in widths of their noise: one row a column."""
    widths = log.stretch.widths
    return np.array([log.readings[name] / widths[name] for name in log.stretch.columns])


def _squared(off: np.ndarray) -> float:
    return float(np.sum(off * off))


def _runs(telling: np.ndarray) -> tuple[range, ...]:
    edges = np.flatnonzero(np.diff(np.concatenate(([0], telling.astype(np.int8), [0])))) + 1
    return tuple(range(int(first), int(end)) for first, end in edges.reshape(-1, 2))
