"""One hour of the balance: against exact chains, by hand, and in its corners."""

import numpy as np
import pytest
from hypothesis import given as for_all
from hypothesis import settings
from hypothesis import strategies as st

from offgrid_core.sizing.balance import HOUR, HOUR_WITH_GENERATOR, stepper

#: A loss-free tank: what comes in less what goes out, between empty and full, and nothing else.
TANK = {
    "array_w": 2.0,
    "controller_hour_wh": 9.0,
    "depth_frac": 1.0,
    "charge_most_wh": 9.0,
    "taper_frac": 1.0,
    "charge_eff_frac": 1.0,
    "leak_frac": 0.0,
    "reconnect_frac": 0.0,
}
EVERY_STEP = {"wanted_wh": 1.0, "kept_now_frac": 1.0, "may_charge_frac": 1.0}


def one_day(store: np.ndarray, sun: float, days: float) -> tuple[np.ndarray, np.ndarray]:
    """Return the store after a day and what was not served, for a row of stores: a call of the stepping code."""
    feeds = {n: np.array([[x]]) for n, x in {**EVERY_STEP, "yield_h": sun}.items()}
    start = {"store_wh": store, "connected_frac": 1.0}
    sums, end = stepper().totals({**TANK, "bank_wh": days}, feeds, start, ["unserved_wh"], store.shape)
    return end["store_wh"], sums["unserved_wh"]


def exact_loss(good_after_good: float, good_after_bad: float, days: int) -> float:
    """Return the share of the load lost, from the stationary state of weather and store together."""
    stores = np.arange(days + 1.0)
    states = [(weather, place) for weather in (1, 0) for place in range(days + 1)]
    move = np.zeros((len(states), len(states)))
    lost = np.zeros(len(states))
    for weather, sun in ((1, 1.0), (0, 0.0)):
        end, unserved = one_day(stores, sun, float(days))
        for place in range(days + 1):
            here = states.index((weather, place))
            lost[here] = unserved[place]
            then = int(end[place])
            assert then == end[place], "a whole number of loads stays one"
            good = good_after_good if weather else good_after_bad
            move[here, states.index((1, then))] += good
            move[here, states.index((0, then))] += 1 - good
    # the stationary row: it is itself after a step, and its shares are one
    equations = np.vstack([move.T - np.eye(len(states)), np.ones(len(states))])
    share = np.linalg.lstsq(equations, np.append(np.zeros(len(states)), 1.0), rcond=None)[0]
    assert share @ move == pytest.approx(share, abs=1e-12)
    return float(share @ lost)


#: Id, probability of a good day after a good and a bad one, days of store, share lost as printed. Independent days:
#: q / sum of (p/q)^k, k = 0 to N; chains: stationary vector of weather and store, computed outside this project.
CHAINS = [
    ("LL005", 0.6, 0.6, 10, "0.0023392481"),
    ("LL006", 0.55, 0.55, 5, "0.042853998"),
    ("LL008", 0.5, 0.5, 5, "0.0833333333"),
    ("LL009", 0.600, 0.600, 3, "0.049231"),
    ("LL010", 0.600, 0.600, 5, "0.019248"),
    ("LL011", 0.600, 0.600, 10, "0.00233925"),
    ("LL012", 0.660, 0.510, 3, "0.075032"),
    ("LL013", 0.660, 0.510, 5, "0.035397"),
    ("LL014", 0.660, 0.510, 10, "0.007022"),
    ("LL015", 0.716, 0.426, 3, "0.104638"),
    ("LL016", 0.716, 0.426, 5, "0.056657"),
    ("LL017", 0.716, 0.426, 10, "0.015772"),
]


@pytest.mark.parametrize(("good_after_good", "good_after_bad", "days", "printed"), [c[1:] for c in CHAINS])
def test_loss_of_load_of_two_weather_chains_is_exact(good_after_good, good_after_bad, days, printed):
    digits = len(printed.split(".")[1])
    assert f"{exact_loss(good_after_good, good_after_bad, days):.{digits}f}" == printed


@pytest.mark.parametrize("days", [1, 2, 5, 12])
@pytest.mark.parametrize("good", [0.45, 0.5, 0.62])
def test_independent_days_follow_the_closed_form(good, days):
    bad = 1 - good
    assert exact_loss(good, good, days) == pytest.approx(
        bad / sum((good / bad) ** k for k in range(days + 1)), rel=1e-9
    )


def test_a_long_seeded_run_agrees_with_the_exact_chain():
    """LL016 again, walked: 4000 paths of 1000 days. The spread of such a run was 0.5 % over twenty seeds."""
    rng = np.random.default_rng(4)
    paths, days = 4000, 1000
    good = rng.random(paths) < 0.6
    sun = np.empty((days, paths))
    for day in range(days):
        sun[day] = good
        good = rng.random(paths) < np.where(good, 0.716, 0.426)
    feeds = {n: np.full((days, 1), x) for n, x in EVERY_STEP.items()} | {"yield_h": sun}
    begun = {"store_wh": rng.integers(0, 6, paths) * 1.0, "connected_frac": 1.0}
    sums, _ = stepper().totals({**TANK, "bank_wh": 5.0}, feeds, begun, ["unserved_wh"], (paths,))
    assert sums["unserved_wh"].sum() / (paths * days) == pytest.approx(0.056657, rel=0.02)


#: A bank of 1000 Wh, half of it usable, behind a charging efficiency of 0.8.
BANK = {
    "array_w": 400.0,
    "controller_hour_wh": 300.0,
    "bank_wh": 1000.0,
    "depth_frac": 0.5,
    "charge_most_wh": 200.0,
    "taper_frac": 0.5,
    "charge_eff_frac": 0.8,
    "leak_frac": 0.001,
    "reconnect_frac": 0.4,
}
CALM = {"yield_h": 0.0, "wanted_wh": 0.0, "kept_now_frac": 1.0, "may_charge_frac": 1.0}


def hour(store_wh: float, connected_frac: float = 1.0, **changes: float):
    return HOUR.solve({**BANK, **CALM, "store_wh": store_wh, "connected_frac": connected_frac, **changes})


def test_an_hour_of_charging_by_hand():
    """400 W at 0.9 h offer 360 Wh, the controller passes 300; 100 go to the loads, 200 × 0.8 = 160 would be stored."""
    solved = hour(600, yield_h=0.9, wanted_wh=100)
    assert (solved["array_in_wh"], solved["clipped_wh"], solved["surplus_wh"]) == (300, pytest.approx(60), 200)
    assert (solved["stored_wh"], solved["charge_loss_wh"], solved["spilled_wh"]) == (160, pytest.approx(40), 0)
    assert solved["store_end_wh"] == pytest.approx(600 + 160 - 0.6)
    assert (solved["unserved_wh"], solved["connected_end_frac"]) == (0, 1)


def test_near_full_the_bank_takes_a_share_of_what_it_lacks():
    solved = hour(900, yield_h=0.75)
    assert solved["stored_wh"] == 50
    assert solved["spilled_wh"] == pytest.approx(300 - 50 / 0.8)


def test_the_bank_s_own_ceiling_holds():
    assert hour(500, yield_h=1, array_w=900, controller_hour_wh=900)["stored_wh"] == 200


def test_too_cold_to_charge_everything_is_spilled():
    solved = hour(600, yield_h=0.5, may_charge_frac=0)
    assert (solved["stored_wh"], solved["spilled_wh"]) == (0, 200)


def test_an_hour_that_falls_short_by_hand():
    """550 Wh with the cut-off at 500: 50 of 80 are served, and the loads are cut off."""
    solved = hour(550, wanted_wh=80)
    assert (solved["drawn_wh"], solved["unserved_wh"], solved["connected_end_frac"]) == (50, 30, 0)


def test_cold_brings_the_cut_off_sooner():
    assert hour(700, wanted_wh=300)["unserved_wh"] == 100
    assert hour(700, wanted_wh=300, kept_now_frac=0.7)["unserved_wh"] == pytest.approx(250)


def test_cut_off_loads_stay_off_until_the_bank_has_recovered():
    """Reconnection at 500 + 0.4 × 500 = 700 Wh."""
    off = hour(600, 0.0, wanted_wh=50, yield_h=0.1)
    assert (off["served_wh"], off["unserved_wh"], off["connected_end_frac"]) == (0, 50, 0)
    assert hour(690, 0.0, yield_h=0.1)["connected_end_frac"] == 1
    assert hour(690, 1.0)["connected_end_frac"] == 1


def test_self_discharge_empties_a_bank_left_alone():
    walk = stepper()
    feeds = {n: np.full(720, x) for n, x in CALM.items()}
    _, end = walk.path(BANK, feeds, {"store_wh": 1000.0, "connected_frac": 1.0})
    assert end["store_wh"] == pytest.approx(1000 * 0.999**720)


GENERATOR = {"generator_start_frac": 0.5, "generator_stop_frac": 0.8, "charger_hour_wh": 120.0, "run_least_h": 3.0}


def run(store_wh: float, hours: int, **changes: float):
    walk = stepper(HOUR_WITH_GENERATOR)
    feeds = {n: np.full(hours, changes.pop(n, x)) for n, x in CALM.items()}
    begun = {"store_wh": store_wh, "connected_frac": 1.0, "was_running_frac": 0.0, "run_h": 0.0}
    given = {**BANK, **GENERATOR, **changes}
    path, _ = walk.path(given, feeds, begun)
    return walk.sheet.solve({**given, **feeds, **path})


def test_the_generator_runs_from_its_start_level_to_its_stop_level():
    """96 Wh stored an hour: from 500 Wh it passes 800 in the fourth hour, and does not start again."""
    solved = run(500, 12)
    assert solved["running_frac"].tolist() == [1, 1, 1, 1] + [0] * 8
    assert solved["store_wh"][4] == pytest.approx(500 + 4 * 96, abs=3)


def test_the_generator_does_not_start_above_its_level():
    assert run(520, 12)["running_frac"].sum() == 0


def test_the_least_run_is_kept_although_the_stop_level_is_passed():
    solved = run(500, 8, generator_stop_frac=0.55, run_least_h=5.0)
    assert solved["running_frac"].tolist() == [1] * 5 + [0] * 3


def test_while_it_runs_the_loads_are_fed_and_its_charger_tapers():
    solved = run(500, 4, wanted_wh=60.0)
    assert solved["unserved_wh"].sum() == 0
    nearly_full = run(500, 40, generator_stop_frac=1.0)
    assert nearly_full["generator_in_wh"][-1] < 0.2 * nearly_full["generator_in_wh"][0]
    assert nearly_full["spilled_wh"].max() == pytest.approx(0, abs=1e-9)


@settings(max_examples=200, deadline=None)
@for_all(
    store=st.floats(0, 1000),
    connected=st.sampled_from([0.0, 1.0]),
    sun=st.floats(0, 1.2),
    wanted=st.floats(0, 900),
    kept=st.floats(0.3, 1),
    may=st.sampled_from([0.0, 1.0]),
    running=st.sampled_from([0.0, 1.0]),
)
def test_every_hour_closes_and_stays_within_the_bank(store, connected, sun, wanted, kept, may, running):
    feeds = {"yield_h": sun, "wanted_wh": wanted, "kept_now_frac": kept, "may_charge_frac": may}
    begun = {"store_wh": store, "connected_frac": connected, "was_running_frac": running, "run_h": 1.0}
    for sheet in (HOUR, HOUR_WITH_GENERATOR):
        solved = sheet.solve({**BANK, **GENERATOR, **feeds, **begun})
        assert abs(solved["residual_wh"]) <= 1e-9 * 24 * 1000
        assert -1e-9 <= solved["store_end_wh"] <= 1000 + 1e-9
        assert 0 <= solved["unserved_wh"] <= wanted + 1e-9
        for n in ("spilled_wh", "charge_loss_wh", "leak_wh", "clipped_wh", "drawn_wh", "stored_wh"):
            assert solved[n] >= -1e-9, n
        if solved["drawn_wh"] > 0:
            assert solved["store_end_wh"] >= min(store, float(solved["floor_wh"])) * (1 - 0.0011)
