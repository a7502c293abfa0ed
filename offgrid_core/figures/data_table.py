"""The numbers behind a picture, as a table; and dates and energies as a person reads them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import numpy as np

from offgrid_core.quantities import Settings, Unit, menu, say
from offgrid_core.quantities.text import number

KWH: Unit = next(unit for unit in menu("bank_wh") if unit.symbol == "kWh")
#: Columns of equal length by their headings.
Columns = Mapping[str, Sequence[str] | np.ndarray]
_NEW_YEAR = datetime(1990, 1, 1)  # any year without 29 February


@dataclass(frozen=True, eq=False)
class DataTable:
    """Columns of equal length under their headings; numbers in full, in the unit that the heading says."""

    caption: str
    columns: Columns

    def rows(self, settings: Settings) -> list[list[str]]:
        """Return it as rows of text, the first being the head."""
        body = zip(*self.columns.values(), strict=True)
        return [list(self.columns), *([_cell(x, settings) for x in row] for row in body)]


def _cell(x: Any, settings: Settings) -> str:
    return x if isinstance(x, str) else number(float(x), 3, settings)


def date(hour: int) -> str:
    """Return the day of an hour of the year, counted from 0: "14 January"."""
    day = _NEW_YEAR + timedelta(hours=hour)
    return f"{day.day} {say(f'month.{day.month}')}"


def short_date(hour: int) -> str:
    """Return the same where there is little room: "14 Jan"."""
    day, month = date(hour).split()
    return f"{day} {month[:3]}"


def in_kwh(wh: float, settings: Settings, figures: int = 3) -> str:
    """Return an energy in kilowatt-hours, with the unit; less than a milliwatt-hour is the dust of rounding, and 0."""
    return f"{number(round(float(KWH.from_canonical(wh)), 6), figures, settings)} {KWH.symbol}"
