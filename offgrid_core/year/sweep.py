"""Many designs through the same years: arrays against banks, as loss of load, wear and cost.

Each design is one path of the balance, and thousands of paths are worked at once. They are cut into parts of a size
that the processor's cache likes; the parts may go to any executor, a pool of processes or a cluster's own. No result
depends on how they are cut or who works them.
"""

from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.balance import FEEDS, HOUR, HOUR_WITH_GENERATOR, stepper
from offgrid_core.sizing.year_totals import SWEPT, SWEPT_WITH_GENERATOR
from offgrid_core.year.hours import Hours
from offgrid_core.year.simulate import FED, full_bank

#: Paths worked together: more no longer fit the cache, fewer cost more in calls than in sums.
PATHS = 18_000
#: Columns of a design that a balance reads.
COLUMNS = ("array_w", "bank_wh", "controller_hour_wh", "charge_most_wh")
#: More designs than this for each call are a slip.
MOST_DESIGNS = 1_000_000


@dataclass(frozen=True)
class Part:
    """The work of one part of the designs: all that a worker needs, and nothing that cannot be sent to it."""

    has_generator: bool
    given: Mapping[str, float]
    feeds: Mapping[str, np.ndarray]
    columns: Mapping[str, np.ndarray]


def sweep(
    hours: Hours,
    columns: Mapping[str, np.ndarray],
    *,
    executor: Executor | None = None,
    paths: int = PATHS,
    told: Callable[[int, int], None] | None = None,
) -> dict[str, np.ndarray]:
    """Run many designs through the same years.

    Parameters
    ----------
    hours
        What every hour is given; the sheet is the shared one, with or without a generator.
    columns
        :data:`COLUMNS`, one value a design.
    executor
        Any :class:`concurrent.futures.Executor`; without one the parts are worked one after another.
    paths
        Designs × years worked together.
    told
        Called after every part with the designs done and the designs wanted.

    Returns
    -------
    dict
        Sums over the year by the names of :mod:`offgrid_core.sizing.year_totals`, arrays of (years, designs), Wh or h.

    Raises
    ------
    OffgridError
        If a column is missing or has another length, or a line of the hour has been written otherwise.
    """
    has_generator = hours.sheet is HOUR_WITH_GENERATOR
    if hours.sheet not in (HOUR, HOUR_WITH_GENERATOR):
        raise OffgridError("a sweep works the shared worksheet of an hour; run one design with a line of your own")
    whole = _checked(columns)
    count = len(whole["array_w"])
    given = {n: float(hours.given[n]) for n in hours.sheet.inputs if n in hours.given and n not in COLUMNS}
    feeds = {n: np.roll(hours.by_hour[FED[n]], -hours.first_hour, axis=1).T[:, :, None] for n in FEEDS}
    each = max(1, paths // hours.years)
    parts = [
        Part(has_generator, given, feeds, {n: x[i : i + each] for n, x in whole.items()}) for i in range(0, count, each)
    ]
    done: list[dict[str, np.ndarray]] = []
    worked: Iterable[dict[str, np.ndarray]] = executor.map(work, parts) if executor else map(work, parts)
    for sums in worked:
        done.append(sums)
        if told:
            told(min(len(done) * each, count), count)
    return {n: np.concatenate([sums[n] for sums in done], axis=1) for n in done[0]}


def work(part: Part) -> dict[str, np.ndarray]:
    """Work one part: sums over the year, arrays of (years, designs)."""
    sheet, wanted = (HOUR_WITH_GENERATOR, SWEPT_WITH_GENERATOR) if part.has_generator else (HOUR, SWEPT)
    shape = (next(iter(part.feeds.values())).shape[1], len(part.columns["array_w"]))
    given: dict[str, Any] = {**part.given, **part.columns}
    sums, _ = stepper(sheet).totals(given, part.feeds, full_bank(given), list(wanted), shape)
    return {year: sums[hour] for hour, year in wanted.items()}


def _checked(columns: Mapping[str, np.ndarray]) -> dict[str, np.ndarray]:
    if lack := [n for n in COLUMNS if n not in columns]:
        raise OffgridError(f"a sweep wants a column for each of {', '.join(COLUMNS)}; there is none of {lack[0]}")
    whole = {n: np.atleast_1d(np.asarray(columns[n], float)) for n in COLUMNS}
    lengths = {len(x) for x in whole.values()}
    if len(lengths) > 1 or not 1 <= min(lengths) <= MOST_DESIGNS:
        raise OffgridError(f"a sweep wants columns of one length, 1 to {MOST_DESIGNS}, not {sorted(lengths)}")
    return whole
