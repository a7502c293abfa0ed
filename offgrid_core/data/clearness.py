"""How clear one day is after another: the published chains of daily clearness, ten classes of a day each.

The chances are as printed, to three digits; who uses them divides each row by its sum, 0.997 to 1.003. One stored copy
of the chain for months of 0.45 to 0.50 has 0.530 where the sum of the row demands 0.000; here it is 0.000.
"""

from itertools import groupby
from pathlib import Path
from typing import Annotated, Self

from pydantic import Field, model_validator

from offgrid_core.data.models import Charge, Row, Standing, Text
from offgrid_core.data.reading import read_rows
from offgrid_core.errors import DataError

#: Classes of a day in each chain.
CLASSES = 10
NAME = "clearness_chains.csv"
#: The published chances have three digits, so those of a row may miss 1 by this much.
_ROUNDING = 0.005


class ClearnessClass(Row):
    """The chances of tomorrow's ten classes after a day of one class, in months of one clearness."""

    month_from_ratio: Charge
    month_to_ratio: Charge
    day_lowest_ratio: Charge
    day_highest_ratio: Charge
    today_class: Annotated[int, Field(ge=1, le=CLASSES)]
    to_1: Charge
    to_2: Charge
    to_3: Charge
    to_4: Charge
    to_5: Charge
    to_6: Charge
    to_7: Charge
    to_8: Charge
    to_9: Charge
    to_10: Charge
    source: Text
    standing: Standing

    @property
    def tomorrow(self) -> tuple[float, ...]:
        """The ten chances, dullest class first."""
        return tuple(getattr(self, f"to_{number}") for number in range(1, CLASSES + 1))

    @model_validator(mode="after")
    def _chances_sum_to_one(self) -> Self:
        if abs((total := sum(self.tomorrow)) - 1) > _ROUNDING:
            raise ValueError(f"columns to_1 to to_10: their sum is {total:.3f}; allowed is 1, to {_ROUNDING:g}")
        return self

    @model_validator(mode="after")
    def _spans_rise(self) -> Self:
        if self.month_to_ratio <= self.month_from_ratio or self.day_highest_ratio <= self.day_lowest_ratio:
            raise ValueError("a span of clearness ends below its start; allowed is a start below its end")
        return self


def clearness_chains(folder: Path | None = None) -> tuple[tuple[ClearnessClass, ...], ...]:
    """Return the chains, each as its ten rows in order of today's class, the dullest months first.

    Raises
    ------
    DataError
        For a damaged file, a chain that lacks a class, or months of a clearness that no chain or two chains are for.
    """
    rows = read_rows(NAME, ClearnessClass, folder)
    chains = tuple(tuple(chain) for _, chain in groupby(rows, lambda row: row.month_from_ratio))
    reached = 0.0
    for chain in chains:
        first = chain[0]
        if first.month_from_ratio != reached:
            raise DataError(f"{NAME}: a chain is for months from {first.month_from_ratio:g}; wanted is {reached:g}")
        if [row.today_class for row in chain] != list(range(1, CLASSES + 1)):
            raise DataError(
                f"{NAME}: the chain from {reached:g} has not the classes 1 to {CLASSES}, each once, in order"
            )
        if len({(row.month_to_ratio, row.day_lowest_ratio, row.day_highest_ratio) for row in chain}) > 1:
            raise DataError(f"{NAME}: the chain from {reached:g} has more than one span; all its rows want the same")
        reached = first.month_to_ratio
    if reached != 1:
        raise DataError(f"{NAME}: the last chain is for months up to {reached:g}; wanted is 1")
    return chains
