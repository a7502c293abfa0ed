"""Wear of the bank: cycles counted as the standard counts them, Miner's rule, ripples, and the two ends of a life."""

import time

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published.wear_cases import SERIES

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.sizing.life import LIFE
from offgrid_core.sizing.wear import WEAR, WEAR_BY_ENERGY
from offgrid_core.worksheet import Table
from offgrid_core.year.cycles import DUST_FRAC, cycles_of, wear_of

FLOODED = data.cycle_life("flooded")
GIVEN = {
    "cycle_life": FLOODED,
    "air_temp_by_month_c": [20.0] * 12,
    "float_life_years": 12.0,
    "life_table_c": 25.0,
    "halving_k": 10.0,
}
ROWS = [(series, id_, depth, count) for series, (_, _, _, rows) in SERIES.items() for id_, depth, count in rows]
#: In steps of half a per cent, so that no swing is dust.
charges = st.lists(st.integers(0, 200).map(lambda n: n / 200), min_size=3, max_size=80)


def daily(depth, days=365, top=1.0):
    """Return a charge curve that goes down by a depth and comes back every day."""
    return np.append(
        np.tile([top, *np.linspace(top, top - depth, 13)[1:], *np.linspace(top - depth, top, 12)[:-1]], days), top
    )


# ---- counting


@pytest.mark.parametrize(("series", "id_", "depth", "count"), ROWS, ids=[f"{r[0]} {r[1]}" for r in ROWS])
def test_cycles_of_a_published_series(series, id_, depth, count):  # noqa: ARG001
    values, source, tag, _ = SERIES[series]
    depths, counts = cycles_of(values)
    assert counts[np.isclose(depths, depth)].sum() == count, f"{source} ({tag})"


@pytest.mark.parametrize("series", SERIES)
def test_no_other_cycles_are_counted(series):
    values, source, tag, rows = SERIES[series]
    assert cycles_of(values)[1].sum() == sum(count for _, _, count in rows), f"{source} ({tag})"


@given(charges)
def test_every_bit_of_the_way_belongs_to_one_cycle(curve):
    """A cycle goes its depth down and up again: all of them together are as long as the curve is."""
    depths, counts = cycles_of(curve)
    assert 2 * float(depths @ counts) == pytest.approx(np.abs(np.diff(curve)).sum(), abs=1e-9)


@given(charges)
def test_the_deepest_cycle_is_the_whole_span_of_the_curve(curve):
    depths, _ = cycles_of(curve)
    assert (depths.max() if depths.size else 0) == pytest.approx(max(curve) - min(curve))


def test_dust_is_left_out_and_takes_nothing_from_the_cycles():
    clean = daily(0.4, 10)
    dusty = clean + np.where(np.arange(clean.size) % 2, 0.45 * DUST_FRAC, -0.45 * DUST_FRAC)
    depths, counts = cycles_of(dusty)
    assert depths.min() >= DUST_FRAC
    assert counts.sum() == pytest.approx(cycles_of(clean)[1].sum())
    assert depths == pytest.approx(0.4, abs=DUST_FRAC)


def test_a_swing_of_just_the_threshold_counts():
    assert cycles_of([1, 1 - 1.001 * DUST_FRAC, 1])[1].sum() == 1
    assert cycles_of([1, 1 - 0.999 * DUST_FRAC, 1])[1].sum() == 0


def test_a_year_is_counted_in_milliseconds():
    dice = np.random.default_rng(4)
    curve = np.clip(daily(0.3, top=0.9) + np.cumsum(dice.normal(0, 0.004, 8761)), 0.2, 1)[:8760]
    took = []
    for _ in range(5):
        begun = time.perf_counter()
        wear_of(curve, GIVEN)
        took.append(time.perf_counter() - begun)
    assert min(took) < 0.03, "of the order of magnitude only: 4 ms on the machine it was written on"


# ---- Miner's rule


def test_the_published_damage_from_the_curve_to_the_last_digit():
    """BW020 (computed): SOC 1 .6 .9 .5 1 .8 .95 .3 1, N = 1500 (D ÷ 0.5)^−1.3, damage 0.00218167."""
    depths = (0.15, 0.30, 0.50, 0.70)
    formula = Table("cycles", depths, tuple(1500 * (d / 0.5) ** -1.3 for d in depths), "", "", between="log")
    solved = wear_of(SERIES["charge"][0], GIVEN | {"cycle_life": formula})
    assert f"{float(solved['wear_counted_frac']):.7f}" == "0.0021817"
    assert float(solved["wear_counted_frac"]) == pytest.approx(0.00218167, abs=5e-9)


def worn(depths, counts, table=FLOODED):
    given_ = {"cycle_depth_by_row_frac": depths, "cycle_by_row_count": counts, "cycle_life": table}
    given_["cycle_depth_least_frac"] = table.x[0]
    return float(WEAR.upto("wear_counted_frac").solve(given_)["wear_counted_frac"])


@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0, 400)), min_size=1, max_size=20), st.randoms())
def test_shares_add_up_in_any_order(rows, dice):
    apart = sum(worn([depth], [count]) for depth, count in rows)
    dice.shuffle(rows)
    assert worn(*zip(*rows, strict=True)) == pytest.approx(apart, rel=1e-9, abs=1e-15)


@given(st.floats(0.001, 1), st.floats(0.001, 1))
def test_a_deeper_cycle_wears_more(one, other):
    shallow, deep = sorted((one, other))
    assert worn([shallow], [1]) <= worn([deep], [1]) * (1 + 1e-9)


@pytest.mark.parametrize("place", range(len(FLOODED.x)))
def test_as_many_cycles_as_the_table_says_are_one_life(place):
    assert worn([FLOODED.x[place]], [FLOODED.y[place]]) == pytest.approx(1)


@given(st.floats(0.001, 1))
def test_below_the_table_the_energy_of_a_life_stays_the_same(share):
    depth, least, cycles = share * FLOODED.x[0], FLOODED.x[0], FLOODED.y[0]
    assert worn([depth], [cycles * least / depth]) == pytest.approx(1)


def test_ripples_do_not_count_as_whole_cycles():
    """Hourly ripples of half a per cent take 0.15 of a life in a year; as whole cycles of a tenth they would take 3."""
    assert worn([0.005], [24 * 365]) == pytest.approx(24 * 365 * 0.05 / 2900)
    assert worn([0.005], [24 * 365]) < 24 * 365 / 2900 / 10


# ---- years


@pytest.mark.parametrize("depth", [0.2, 0.5, 0.8])
def test_one_even_cycle_a_day_is_as_the_life_sheet_has_it(depth):
    table = {"cycle_life": FLOODED, "cycle_depth_least_frac": FLOODED.x[0], "cycles_year_count": 365}
    plain = LIFE.upto("cycle_life_years").solve({"energy_day_wh": depth * 1000, "bank_wh": 1000, **table})
    counted = wear_of(daily(depth)[:-1], GIVEN)
    assert counted["counted_years"] == 1
    assert float(counted["cycle_life_years"]) == pytest.approx(float(plain["cycle_life_years"]), rel=3e-3)


def test_two_years_alike_wear_as_one_does():
    one, two = wear_of(daily(0.4)[:-1], GIVEN), wear_of(daily(0.4, 730)[:-1], GIVEN)
    assert two["counted_years"] == 2
    assert float(two["wear_counted_frac"]) == pytest.approx(2 * float(one["wear_counted_frac"]), rel=3e-3)
    assert float(two["wear_year_frac"]) == pytest.approx(float(one["wear_year_frac"]), rel=3e-3)


def test_a_bank_that_stands_full_is_left_to_the_calendar():
    solved = wear_of(np.ones(8760), GIVEN)
    assert solved["wear_year_frac"] == 0
    assert solved["bank_life_years"] == solved["calendar_life_years"] == 12


@given(st.floats(0.05, 1), st.floats(-20, 45))
def test_the_life_is_the_earlier_end_and_warmth_and_depth_shorten_it(depth, warmth):
    solved = wear_of(daily(depth, 30), GIVEN | {"air_temp_by_month_c": [warmth] * 12})
    assert solved["bank_life_years"] == min(solved["cycle_life_years"], solved["calendar_life_years"])
    warmer = wear_of(daily(depth, 30), GIVEN | {"air_temp_by_month_c": [warmth + 5] * 12})
    assert warmer["bank_life_years"] <= solved["bank_life_years"]


# ---- by the energy drawn


@given(st.floats(0.1, 1))
def test_at_the_reference_depth_both_ways_agree(depth):
    drawn = {"reference_depth_frac": depth, "bank_wh": 5000.0, "drawn_year_wh": 365 * depth * 5000}
    by_energy = WEAR_BY_ENERGY.solve(GIVEN | drawn)
    counted = worn([depth], [365])
    assert float(by_energy["drawn_wear_frac"]) == pytest.approx(counted)
    assert float(by_energy["cycle_life_years"]) == pytest.approx(1 / counted)


def test_by_energy_a_whole_surface_at_once():
    drawn, banks = np.linspace(1e5, 9e5, 7)[:, None], np.linspace(2000, 20_000, 5)
    solved = WEAR_BY_ENERGY.solve(GIVEN | {"reference_depth_frac": 0.5, "bank_wh": banks, "drawn_year_wh": drawn})
    life = np.broadcast_to(solved["bank_life_years"], (7, 5))
    assert np.all(np.diff(life, axis=0) <= 0), "more energy drawn never lengthens the life"
    assert np.all(np.diff(life, axis=1) >= 0), "a larger bank never shortens it"
    assert life.min() < 1 < life.max() == 12


# ---- refusals

TROUBLE = {
    "two values": (
        lambda: cycles_of([1, 0]),
        "charge curve: a row of at least 3 numbers is wanted, not an array of shape",
    ),
    "a table": (
        lambda: cycles_of(np.ones((3, 3))),
        "charge curve: a row of at least 3 numbers is wanted, not an array of",
    ),
    "not a number": (
        lambda: wear_of([1, 0.5, float("nan"), 1], GIVEN),
        "charge curve: a row of at least 3 numbers is wanted, not an array of shape (4,) with 1 values that are no",
    ),
    "no table": (
        lambda: wear_of([1, 0.5, 1], {n: v for n, v in GIVEN.items() if n != "cycle_life"}),
        "depth at which the cycle is looked up (depth_counted_by_row_frac) needs cycle_depth_least_frac",
    ),
    "deeper than the table": (
        lambda: wear_of([1.5, 0.2, 1.5], GIVEN),
        "cycles of that depth to the end of life: cycles to the end of life, flooded: 1.3 is outside the table",
    ),
}


@pytest.mark.parametrize(("work", "said"), TROUBLE.values(), ids=TROUBLE)
def test_what_cannot_be_worked_is_refused_in_one_sentence(work, said):
    with pytest.raises(OffgridError) as refusal:
        work()
    assert " ".join(str(refusal.value).split()).startswith(said)
    assert "\n" not in str(refusal.value)
