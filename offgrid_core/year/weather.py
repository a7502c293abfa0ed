"""The weather of one or many years, hour by hour, as a simulation takes it."""

from dataclasses import dataclass

import numpy as np

from offgrid_core.errors import WorksheetError
from offgrid_core.sizing.hourly_sun import month_means_kwh_m2

HOURS = 8760
#: What each array is called in a sentence, its unit, and the span that is allowed.
_SPANS = {
    "plane_w_m2": ("sun on the array", "W/m²", 0.0, 2000.0),
    "flat_w_m2": ("sun on the flat", "W/m²", 0.0, 2000.0),
    "air_c": ("air", "°C", -70.0, 60.0),
}


@dataclass(frozen=True, eq=False)
class Weather:
    """Years of hours at one place, on one plane.

    Attributes
    ----------
    name
        To show.
    source
        One sentence: where the hours are from.
    limits
        Sentences: what the method cannot do, to be shown wherever the weather is used.
    plane_w_m2
        Sun on the array, mean of each hour, W/m², 0 to 2000. Shape (years, 8760): the first hour is that from 00:00 to
        01:00 of 1 January, in the place's standard or solar time, the same through the year; there is no 29 February.
    air_c
        Air temperature, mean of each hour, °C, −70 to 60; the same shape.
    flat_w_m2
        Sun on the flat; as ``plane_w_m2``.

    Raises
    ------
    WorksheetError
        If shapes differ, or a value is not finite or not in its span.
    """

    name: str
    source: str
    limits: tuple[str, ...]
    plane_w_m2: np.ndarray
    air_c: np.ndarray
    flat_w_m2: np.ndarray

    def __post_init__(self) -> None:
        for field, (label, unit, low, high) in _SPANS.items():
            values = np.asarray(getattr(self, field))
            if values.ndim != 2 or values.shape[1] != HOURS or len(values) == 0:
                raise WorksheetError(
                    f"weather, {label}: the shape is {_shown(values.shape)}; whole years of {HOURS} hours are wanted"
                )
            if len(values) != self.years:
                raise WorksheetError(
                    f"weather, {label}: there are {len(values)} years but {self.years} of sun on the array; "
                    "as many are wanted"
                )
            outside = ~((values >= low) & (values <= high))
            if np.any(outside):
                year, hour = np.unravel_index(np.argmax(outside), values.shape)
                raise WorksheetError(
                    f"weather, {label}, year {year + 1}, hour {hour + 1}: {values[year, hour]:g} {unit} is not between "
                    f"{low:g} and {high:g} {unit}"
                )

    @property
    def years(self) -> int:
        """How many years there are."""
        return len(self.plane_w_m2)

    @property
    def monthly_plane_kwh_m2(self) -> np.ndarray:
        """Monthly means of the sun on the array, kWh/m² a day, shape (years, 12)."""
        return month_means_kwh_m2(self.plane_w_m2)


def _shown(shape: tuple[int, ...]) -> str:
    return " × ".join(map(str, shape)) or "a single value"
