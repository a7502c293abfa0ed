"""A worksheet worked step after step: both ways of running it give what solving it step by step gives."""

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import settings
from hypothesis import strategies as st

from offgrid_core.errors import WorksheetError
from offgrid_core.sizing.balance import FEEDS, HOUR, HOUR_WITH_GENERATOR, stepper
from offgrid_core.sizing.feeds import warmth
from offgrid_core.worksheet import Sheet, Stepper, larger, line, smaller

STEADY = {
    "array_w": (0.0, 3000.0),
    "bank_wh": (500.0, 20_000.0),
    "depth_frac": (0.1, 1.0),
    "controller_hour_wh": (100.0, 3000.0),
    "charge_most_wh": (50.0, 4000.0),
    "taper_frac": (0.1, 1.0),
    "charge_eff_frac": (0.6, 1.0),
    "leak_frac": (0.0, 0.001),
    "reconnect_frac": (0.0, 0.8),
    "generator_start_frac": (0.1, 0.7),
    "generator_stop_frac": (0.71, 1.0),
    "charger_hour_wh": (50.0, 2000.0),
    "run_least_h": (0.0, 6.0),
}
STEPS, PATHS = 120, 5


def random_case(seed: int, sheet: Sheet):
    """Return givens, series and a start for several paths at once: sun by day, loads by night, cold weeks."""
    rng = np.random.default_rng(seed)
    given = {n: rng.uniform(*span, PATHS) for n, span in STEADY.items() if n in sheet.inputs}
    sun = np.clip(np.sin((np.arange(STEPS) % 24 - 6) / 12 * np.pi), 0, None)
    series = {
        "yield_h": sun[:, None] * rng.uniform(0, 1.1, (STEPS, PATHS)),
        "wanted_wh": rng.uniform(0, 600, (STEPS, PATHS)) * (rng.random((STEPS, PATHS)) < 0.8),
        "kept_now_frac": rng.uniform(0.5, 1, (STEPS, PATHS)),
        "may_charge_frac": (rng.random((STEPS, PATHS)) < 0.9) * 1.0,
    }
    start = {
        "store_wh": given["bank_wh"] * rng.uniform(0.2, 1, PATHS),
        "connected_frac": (rng.random(PATHS) < 0.7) * 1.0,
        "was_running_frac": np.zeros(PATHS),
        "run_h": np.zeros(PATHS),
    }
    return given, series, start


def one(values: dict, path: int) -> dict:
    return {n: float(x[path]) if np.ndim(x) else x for n, x in values.items()}


def by_hand(walk: Stepper, given: dict, series: dict, start: dict):
    """Solve the worksheet step by step: the slow way that needs no stepper."""
    carried, begun, lines = {n: start[n] for n in walk.carried}, [], []
    for step in range(STEPS):
        begun.append(dict(carried))
        solved = walk.sheet.solve({**given, **{n: float(series[n][step]) for n in FEEDS}, **carried})
        lines.append(solved)
        carried = {n: float(solved[end]) for n, end in walk.carried.items()}
    return begun, carried, lines


@pytest.mark.parametrize("sheet", [HOUR, HOUR_WITH_GENERATOR], ids=["plain", "generator"])
@pytest.mark.parametrize("seed", range(3))
def test_plain_floats_and_many_at_once_give_what_the_worksheet_gives(sheet, seed):
    walk = stepper(sheet)
    given, series, start = random_case(seed, sheet)
    wanted = [n for n in sheet if n in walk.moved]
    sums, ends = walk.totals(given, series, start, wanted, (PATHS,))
    for path in range(PATHS):
        steady, fed = one(given, path), {n: x[:, path] for n, x in series.items()}
        begun, carried, lines = by_hand(walk, steady, fed, one(start, path))
        walked, end = walk.path(steady, fed, one(start, path))
        scale = steady["bank_wh"]
        for n in walk.carried:
            hand = np.array([step[n] for step in begun])
            assert walked[n] == pytest.approx(hand, rel=1e-12, abs=1e-12 * scale)
            assert end[n] == pytest.approx(carried[n], rel=1e-12, abs=1e-12 * scale)
            assert float(ends[n][path]) == pytest.approx(carried[n], rel=1e-12, abs=1e-12 * scale)
        for n in wanted:
            added = sum(float(x[n]) for x in lines)
            assert float(sums[n][path]) == pytest.approx(added, rel=1e-9, abs=1e-9 * scale), n


def test_the_random_cases_reach_every_corner():
    """Else the test above proves little: cut-off, reconnection, full bank, clipped array, a running generator."""
    seen: dict[str, float] = {}
    for sheet in (HOUR, HOUR_WITH_GENERATOR):
        for seed in range(3):
            walk = stepper(sheet)
            given, series, start = random_case(seed, sheet)
            for path in range(PATHS):
                fed = {n: x[:, path] for n, x in series.items()}
                _, _, lines = by_hand(walk, one(given, path), fed, one(start, path))
                for n in ("unserved_wh", "spilled_wh", "clipped_wh", "drawn_wh", "stored_wh", "generator_in_wh"):
                    seen[n] = seen.get(n, 0) + sum(float(x[n]) > 1 for x in lines if n in x)
                switched = [x["connected_end_frac"] - x["connected_frac"] for x in lines]
                seen["cut off"] = seen.get("cut off", 0) + switched.count(-1)
                seen["back"] = seen.get("back", 0) + switched.count(1)
    assert min(seen.values()) >= 10, seen


@settings(max_examples=60, deadline=None)
@for_all(st.data())
def test_any_small_worksheet_runs_alike_both_ways(data):
    """Random lines over the whole grammar of a step, so that no shortcut holds only for the balance of an hour."""
    names = ["x_wh", "y_wh", "k_frac", "f_wh"]
    lines = []
    for i in range(data.draw(st.integers(1, 5))):
        term = st.sampled_from([*names, "0", "1", "0.5"])
        shape = data.draw(
            st.sampled_from(
                [
                    "larger(0, {})",
                    "{} + {}",
                    "{} - {}",
                    "{} * k_frac",
                    "smaller({}, {})",
                    "larger({}, {}, {})",
                    "at_least({}, {}) * {}",
                    "{} / 2",
                    "-{} + f_wh",
                    "smaller(larger({}, 0), {})",
                ]
            )
        )
        text = shape.format(*(data.draw(term) for _ in range(shape.count("{}"))))
        if any(n in text for n in names):
            lines.append(_line(f"l{i}_wh", text))
            names.append(f"l{i}_wh")
    if not lines:
        return
    ends = [
        _line("x_end_wh", f"0.5 * {lines[-1].name} + 0.25 * x_wh"),
        _line("y_end_wh", f"{lines[0].name} - 0.5 * y_wh"),
    ]
    walk = Stepper(Sheet(*lines, *ends), {"x_wh": "x_end_wh", "y_wh": "y_end_wh"}, ["f_wh"])
    numbers = st.floats(-100, 100).map(lambda x: round(x, 3))
    series = {"f_wh": np.array(data.draw(st.lists(numbers, min_size=8, max_size=8)))}
    given = {"k_frac": data.draw(st.sampled_from([0.0, 0.3, 1.0]))}
    start = {"x_wh": data.draw(numbers), "y_wh": data.draw(numbers)}
    carried = dict(start)
    wanted = [x.name for x in lines if x.name not in walk.fixed]
    added = dict.fromkeys(wanted, 0.0)
    for f in series["f_wh"]:
        solved = walk.sheet.solve({**given, **carried, "f_wh": float(f)})
        carried = {n: float(solved[end]) for n, end in walk.carried.items()}
        added = {n: added[n] + float(solved[n]) for n in wanted}
    _, end = walk.path(given, series, start)
    many = {n: np.full((2, 3), x) for n, x in start.items()}
    sums, ends_many = walk.totals(given, {"f_wh": series["f_wh"][:, None, None]}, many, wanted, (2, 3))
    for n in carried:
        assert end[n] == pytest.approx(carried[n], rel=1e-9, abs=1e-9)
        assert ends_many[n] == pytest.approx(np.full((2, 3), carried[n]), rel=1e-9, abs=1e-9)
    for n in wanted:
        assert sums[n] == pytest.approx(np.full((2, 3), added[n]), rel=1e-9, abs=1e-9)


@line("a line to be written otherwise", standing="physics")
def any_wh(x_wh):
    return x_wh


def _line(name: str, text: str):
    return any_wh.with_expression(text).renamed(name, name)


def test_what_a_step_cannot_hold_is_refused_in_words():
    bad = Stepper(Sheet(_line("x_end_wh", "up(x_wh) + f_wh")), {"x_wh": "x_end_wh"}, ["f_wh"])
    with pytest.raises(WorksheetError, match="a step has only sums, products, larger, smaller and at_least"):
        bad.path({}, {"f_wh": [1.0]}, {"x_wh": 1.0})
    with pytest.raises(WorksheetError, match="a step has only sums"):
        bad.totals({}, {"f_wh": np.ones((1, 1))}, {"x_wh": np.ones(2)}, [], (2,))


def test_a_line_that_never_changes_does_not_add_up():
    walk = Stepper(
        Sheet(_line("steady_wh", "k_frac * 2"), _line("x_end_wh", "x_wh + f_wh")), {"x_wh": "x_end_wh"}, ["f_wh"]
    )
    with pytest.raises(WorksheetError, match="steady_wh is no line that changes"):
        walk.totals({"k_frac": 1.0}, {"f_wh": np.ones((1, 1))}, {"x_wh": np.ones(2)}, ["steady_wh"], (2,))


def test_a_division_by_nothing_is_refused_in_words():
    bad = Stepper(Sheet(_line("x_end_wh", "f_wh / x_wh")), {"x_wh": "x_end_wh"}, ["f_wh"])
    with pytest.raises(WorksheetError, match="a step cannot be worked"):
        bad.path({}, {"f_wh": [1.0, 1.0]}, {"x_wh": 0.0})
    with pytest.raises(WorksheetError, match="a step cannot be worked"):
        bad.totals({}, {"f_wh": np.ones((1, 1))}, {"x_wh": np.zeros(2)}, [], (2,))


def test_a_line_written_otherwise_is_stepped_otherwise():
    """A catalogued mistake is a replaced line: here, losses of charging forgotten."""
    given, series, start = random_case(3, HOUR)
    steady, fed = one(given, 0), {n: x[:, 0] for n, x in series.items()}
    right, _ = stepper().path(steady, fed, one(start, 0))
    wrong, _ = stepper(HOUR.written(stored_wh="smaller(surplus_wh, room_wh)")).path(steady, fed, one(start, 0))
    assert np.all(wrong["store_wh"] >= right["store_wh"] - 1e-9)
    assert np.max(wrong["store_wh"] - right["store_wh"]) > 1


def test_a_bank_s_warmth_follows_the_air_and_lags():
    """After a step of the air the store of heat is e-fold nearer after about its lag: one store, backward Euler."""
    air = np.full(400, -10.0)
    path, end = warmth().path({"battery_lag_h": 48.0}, {"surround_c": air}, {"warmth_c": 20.0})
    assert path["warmth_c"][0] == 20
    assert path["warmth_c"][48] == pytest.approx(-10 + 30 / np.e, abs=0.3)
    assert end["warmth_c"] == pytest.approx(-10, abs=0.01)
    still, _ = warmth().path({"battery_lag_h": 0.0}, {"surround_c": air}, {"warmth_c": 20.0})
    assert still["warmth_c"][1] == -10


def test_larger_and_smaller_of_three_and_a_bare_number():
    @line("most", standing="physics")
    def x_end_wh(x_wh, f_wh):
        return smaller(larger(x_wh, f_wh, 2), 5, f_wh + 3)

    walk = Stepper(Sheet(x_end_wh), {"x_wh": "x_end_wh"}, ["f_wh"])
    path, end = walk.path({}, {"f_wh": [1.0, 4.0, 9.0]}, {"x_wh": 0.0})
    assert path["x_wh"].tolist() == [0, 2, 4]
    assert end["x_wh"] == 5


@pytest.mark.parametrize("below", ["k_frac", "f_wh - 7", "-l0_wh"])
def test_the_smaller_of_nothing_and_less_than_nothing_is_less_than_nothing(below):
    """Where one quantity is known to be 0 the smaller of it and another is 0 only if that other is never below."""
    lines = [
        _line("l0_wh", "larger(0, f_wh)"),
        _line("l1_wh", below),
        _line("x_end_wh", "smaller(l0_wh, l1_wh) + 0 * x_wh"),
    ]
    walk = Stepper(Sheet(*lines), {"x_wh": "x_end_wh"}, ["f_wh"])
    for f in (-3.0, 0.0, 4.0):
        path, end = walk.path({"k_frac": -0.5}, {"f_wh": [f]}, {"x_wh": 1.0})
        assert path["x_wh"].tolist() == [1.0]
        hand = walk.sheet.solve({"k_frac": -0.5, "f_wh": f, "x_wh": 1.0})["x_end_wh"]
        assert end["x_wh"] == hand
