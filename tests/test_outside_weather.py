"""Drawn years against recorded ones: the loss of load of a real hourly year lies among those of the years drawn.

The records are the typical years that ship with pvlib (public domain, US National Renewable Energy Laboratory). Drawn
years know nothing of them but twelve monthly means of sun and air.
"""

import numpy as np
import pytest

from offgrid_core.sizing.hourly_sun import MONTH_DAYS, MONTH_OF_HOUR
from offgrid_core.system import read_plan, size
from offgrid_core.year.hours import hours_of
from offgrid_core.year.records import shipped_hours, weather_of
from offgrid_core.year.sequence import generated
from offgrid_core.year.sweep import COLUMNS, sweep

YEARS = 60
#: Arrays and banks as shares of the plan's design: from a loss of a tenth to one in a thousand.
DESIGNS = np.array([(0.25, 0.3), (0.3, 0.3), (0.4, 0.15), (0.4, 0.3), (0.6, 0.3)])


def lost(design, weather) -> np.ndarray:
    """Return the share of the load lost by energy, (years, designs)."""
    hours = hours_of(design, weather)
    shares = dict(zip(COLUMNS, DESIGNS.T[[0, 1, 0, 1]], strict=True))
    assert COLUMNS[::2] == ("array_w", "controller_hour_wh")
    sums = sweep(hours, {n: hours.given[n] * shares[n] for n in COLUMNS})
    return sums["unserved_year_wh"] / hours.by_hour["wanted_by_hour_wh"].sum(axis=1)[:, None]


def both(plans, key: str) -> tuple[np.ndarray, np.ndarray]:
    design, record = size(read_plan(plans / "riverbend.toml")), shipped_hours(key)
    tilt = record.latitude_deg + 10
    real = weather_of(record, tilt, 180, 0.2)
    flat = np.bincount(MONTH_OF_HOUR, real.flat_w_m2[0]) / MONTH_DAYS / 1000
    air = np.bincount(MONTH_OF_HOUR, real.air_c[0]) / MONTH_DAYS / 24
    drawn = generated(flat, air, record.latitude_deg, tilt, 180, 0.2, YEARS, seed=7)
    return lost(design, real)[0], lost(design, drawn)


def test_at_36_degrees_the_real_year_is_one_of_the_drawn(plans):
    """From 10 % to 0.1 % lost, every design lies within the middle nine tenths of the drawn years, near their mean."""
    real, drawn = both(plans, "hourly_36n")
    low, high = np.quantile(drawn, [0.05, 0.95], axis=0)
    assert np.all((low <= real) & (real <= high))
    assert real[:4] == pytest.approx(drawn.mean(axis=0)[:4], rel=0.25)
    assert real[0] > 0.05
    assert 0 < real[-1] < 0.005


def test_at_26_degrees_the_typical_year_is_kinder_than_the_drawn(plans):
    """A typical year is put together from typical months: without a bad one, designs that lose little lose nothing."""
    real, drawn = both(plans, "hourly_26n")
    assert np.all(real <= drawn.max(axis=0))
    assert np.all(real[1:] <= drawn.mean(axis=0)[1:])
    assert real[0] >= drawn[:, 0].min()


def test_at_55_degrees_drawn_years_are_on_the_cautious_side(plans):
    """Low sun: the mean split into beam and diffuse gives the tilted array too little, so the drawn years lose more."""
    real, drawn = both(plans, "hourly_55n")
    mean = drawn.mean(axis=0)
    assert np.all(real <= mean)
    assert np.all(mean <= real + 0.07)
