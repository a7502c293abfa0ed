"""Years of whole designs: they close, both ways of running them agree, and nothing depends on how they are worked."""

from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace

import numpy as np
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.sizing.year_totals import SWEPT, SWEPT_WITH_GENERATOR
from offgrid_core.system import parse_plan, read_plan, size
from offgrid_core.year.hours import hours_of
from offgrid_core.year.judging import judge_storage
from offgrid_core.year.outcome import drawn_weather, follow
from offgrid_core.year.reliability import reliability_map
from offgrid_core.year.simulate import simulate
from offgrid_core.year.sweep import COLUMNS, sweep

PLANS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
YEARS = 4


@pytest.fixture(scope="module")
def designs(plans):
    return {name: size(read_plan(plans / f"{name}.toml")) for name in PLANS}


@pytest.fixture(scope="module")
def all_hours(designs):
    return {name: hours_of(design, drawn_weather(design, YEARS, seed=3)) for name, design in designs.items()}


@pytest.fixture(scope="module")
def all_years(all_hours):
    return {name: simulate(hours) for name, hours in all_hours.items()}


@pytest.mark.parametrize("name", PLANS)
def test_every_hour_of_every_year_closes(all_years, name):
    assert np.all(all_years[name].totals["residual_frac"] <= 1e-9)


@pytest.mark.parametrize("name", PLANS)
def test_the_year_is_the_sum_of_its_places(all_years, name):
    """What the array could pass on, and the generator brought: served, lost by place, or in store."""
    years = all_years[name]
    total = {n: np.asarray(years.totals[n]) for n in years.totals.sheet}
    for year in range(YEARS):
        solved = years.hour_by_hour(year)
        grown = float(np.sum(solved["store_end_wh"] - solved["store_wh"]))
        came = total["array_year_wh"][year] + total.get("generator_year_wh", np.zeros(YEARS))[year]
        went = sum(
            total[n][year]
            for n in ("met_year_wh", "clipped_year_wh", "spilled_year_wh", "charge_loss_year_wh", "leak_year_wh")
        )
        assert came == pytest.approx(went + grown, rel=1e-9)


@pytest.mark.parametrize("name", PLANS)
def test_what_the_loads_want_is_the_loads_list(designs, all_hours, name):
    """The mean day's watt-hours at the socket, month by month, times the days: before any loss."""
    design, hours = designs[name], all_hours[name]
    month_days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    rows = {
        n: np.array([getattr(row, n) for row in design.plan.load], float) for n in ("count", "power_w", "duty_frac")
    }
    run_h = np.array([row.hours_h or sum(_window_h(w) for w in row.windows or ()) for row in design.plan.load])
    season = np.array([row.season_frac for row in design.plan.load]).T
    share = np.array([row.week_days for row in design.plan.load]) / 7
    running = season * rows["count"] * rows["power_w"] * rows["duty_frac"] * run_h * share
    asked = hours.by_hour["dc_asked_by_hour_w"][0] + hours.by_hour.get("ac_asked_by_hour_w", np.zeros((1, 8760)))[0]
    standby = sum(row.count * row.standby_w * (24 - h) for row, h in zip(design.plan.load, run_h, strict=True))
    by_list = float(np.sum(running.sum(axis=1) * month_days)) + 365 * standby
    # a year is 52 weeks and a day, and a month no whole number of weeks
    assert asked.sum() == pytest.approx(by_list, rel=0.02)


def _window_h(window: str) -> float:
    (h1, m1), (h2, m2) = (map(int, side.split(":")) for side in window.split("-"))
    return (h2 - h1 + (m2 - m1) / 60) % 24


@pytest.mark.parametrize("name", PLANS)
def test_many_designs_at_once_are_what_one_by_one_gives(all_hours, all_years, name):
    hours, years = all_hours[name], all_years[name]
    columns = {n: np.array([hours.given[n] * f for f in (1.0, 0.6)]) for n in COLUMNS}
    sums = sweep(hours, columns)
    smaller = simulate(replace(hours, given={**hours.given, **{n: float(x[1]) for n, x in columns.items()}}))
    for place, each in enumerate((years, smaller)):
        solved = [each.hour_by_hour(year) for year in range(YEARS)]
        wanted = SWEPT_WITH_GENERATOR if "running_frac" in hours.sheet else SWEPT
        for of_hour, of_year in wanted.items():
            by_one = np.array([np.sum(x[of_hour]) for x in solved])
            assert sums[of_year][:, place] == pytest.approx(by_one, rel=1e-9, abs=1e-9 * hours.given["bank_wh"])


@pytest.fixture(scope="module")
def crowd(all_hours):
    """Twelve designs of random sizes in the one plan with a generator."""
    hours = all_hours["fell_hut"]
    rng = np.random.default_rng(8)
    return hours, {n: hours.given[n] * rng.uniform(0.2, 1.5, 12) for n in COLUMNS}


@pytest.fixture(scope="module")
def at_once(crowd):
    return sweep(*crowd)


def same(one, other):
    return one.keys() == other.keys() and all(np.array_equal(one[n], other[n]) for n in one)


@pytest.mark.parametrize("paths", [YEARS, 5 * YEARS, 7 * YEARS + 1])
def test_a_sweep_does_not_depend_on_how_it_is_cut(crowd, at_once, paths):
    assert same(sweep(*crowd, paths=paths), at_once)


def test_a_sweep_may_go_to_any_executor(crowd, at_once):
    with ThreadPoolExecutor(2) as threads:
        assert same(sweep(*crowd, executor=threads, paths=20), at_once)
    with ProcessPoolExecutor(2) as processes:
        assert same(sweep(*crowd, executor=processes, paths=16), at_once)


@pytest.mark.cluster
def test_a_sweep_may_go_to_a_cluster(crowd, at_once):
    """The executor of dask's own client, on this machine; dask is no dependency and the test is skipped without it."""
    distributed = pytest.importorskip("distributed")
    with (
        distributed.LocalCluster(n_workers=2, threads_per_worker=1, host="127.0.0.1", dashboard_address=None) as here,
        distributed.Client(here) as client,
    ):
        assert same(sweep(*crowd, executor=client.get_executor(), paths=16), at_once)


def test_progress_is_told_and_ends_with_the_whole(crowd):
    told = []
    sweep(*crowd, paths=5 * YEARS, told=lambda done, whole: told.append((done, whole)))
    assert told == [(5, 12), (10, 12), (12, 12)]


def test_one_seed_repeats_bit_for_bit_and_two_differ(designs):
    design = designs["gull_mast"]
    one, again, other = (simulate(hours_of(design, drawn_weather(design, 2, seed))) for seed in (5, 5, 6))
    assert np.array_equal(one.store_wh, again.store_wh)
    assert not np.array_equal(one.store_wh, other.store_wh)


def test_the_year_begins_full_in_the_sunniest_month(all_hours, all_years):
    for name in PLANS:
        hours, years = all_hours[name], all_years[name]
        assert np.all(years.charge_frac[:, hours.first_hour] == 1)
        by_month = np.add.reduceat(
            hours.by_hour["plane_by_hour_kw_m2"].mean(axis=0),
            np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30]) * 24,
        )
        assert hours.first_hour <= 24 * 334
        assert by_month.max() > 1.2 * by_month.min()


def test_more_of_anything_never_loses_more(all_hours):
    """A larger bank or array may spill more, but never serves less over the years (common sense, held to 1 %)."""
    hours = all_hours["weekend_cabin"]
    factors = np.array([0.1, 0.2, 0.3, 0.5, 0.8])
    for moved in (("array_w", "controller_hour_wh"), ("bank_wh", "charge_most_wh")):
        columns = {n: hours.given[n] * (factors if n in moved else np.full(5, 0.3)) for n in COLUMNS}
        lost = sweep(hours, columns)["unserved_year_wh"].sum(axis=0)
        assert lost[0] > 0
        assert np.all(np.diff(lost) <= 0.01 * lost[:-1])


def test_the_outcome_has_wear_and_cost(designs):
    outcome = follow(designs["fell_hut"], drawn_weather(designs["fell_hut"], 2))
    assert 0 < outcome.wear["wear_year_frac"] < 1
    assert outcome.cost["life_cycle_cost"] > outcome.cost["first_cost"]
    assert outcome.mean("loss_energy_frac") == pytest.approx(np.mean(outcome.years.totals["loss_energy_frac"]))


def test_the_longest_outage_is_counted_hour_by_hour(all_years):
    years = all_years["weekend_cabin"]
    for row, longest in zip(years.unserved_wh, years.longest_outage_h, strict=True):
        run = best = 0
        for lost in row:
            run = run + 1 if lost > 0.001 else 0
            best = max(best, run)
        assert longest == best


@pytest.fixture(scope="module")
def small_map(designs, all_hours):
    return reliability_map(designs["riverbend"], all_hours["riverbend"], ARRAYS, BANKS)


ARRAYS, BANKS = (0.1, 0.15, 0.2, 0.3, 0.5, 1.0), (0.1, 0.2, 0.3, 0.5, 1.0)


def test_a_map_is_each_design_by_itself(designs, all_hours, small_map):
    """Rows are banks, columns arrays; the mean and the worst of the years, from the simulation of one design."""
    hours = all_hours["riverbend"]
    for row, column in ((0, 0), (1, 3), (3, 2), (4, 5)):
        grown = {
            "array_w": ARRAYS[column],
            "controller_hour_wh": ARRAYS[column],
            "bank_wh": BANKS[row],
            "charge_most_wh": BANKS[row],
        }
        given = {**hours.given, **{n: hours.given[n] * factor for n, factor in grown.items()}}
        lost = simulate(replace(hours, given=given)).totals["loss_energy_frac"]
        assert small_map.loss_frac[row, column] == pytest.approx(lost.mean(), abs=1e-12)
        assert small_map.worst_frac[row, column] == pytest.approx(lost.max(), abs=1e-12)
    assert small_map.worst_frac.max() > 1.01 * small_map.loss_frac.max()
    assert small_map.array_w[-1] == small_map.hand_array_w == pytest.approx(designs["riverbend"].system["array_w"])
    assert small_map.bank_wh[-1] == small_map.hand_bank_wh


def test_a_map_finds_the_cheapest_design_good_enough(small_map):
    """Every threshold that some design just meets, and just misses."""
    for allowed in np.unique(small_map.loss_frac):
        for most in (allowed, allowed * (1 - 1e-9)):
            good = small_map.loss_frac <= most
            found = small_map.cheapest(most)
            if not good.any():
                assert found is None
                continue
            assert good[found]
            assert small_map.life_cycle_cost[found] == small_map.life_cycle_cost[good].min()


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda c: {n: x for n, x in c.items() if n != "bank_wh"}, "there is none of bank_wh"),
        (lambda c: {**c, "array_w": c["array_w"][:3]}, "columns of one length"),
        (lambda c: {n: x[:0] for n, x in c.items()}, "columns of one length"),
    ],
)
def test_a_bad_sweep_is_refused_in_words(crowd, spoil, says):
    with pytest.raises(OffgridError, match=says):
        sweep(crowd[0], spoil(crowd[1]))


def test_a_balance_that_does_not_close_is_refused(crowd):
    """Self-discharge that leaves the store but is written nowhere as lost: caught in the first year."""
    hours = replace(crowd[0], sheet=crowd[0].sheet.written(gone_wh="spilled_wh + charge_loss_wh"))
    with pytest.raises(OffgridError, match="does not close"):
        simulate(hours)


def test_a_line_written_otherwise_is_no_sweep(crowd):
    hours = replace(crowd[0], sheet=crowd[0].sheet.written(leak_wh="left_wh * leak_frac * 2"))
    with pytest.raises(OffgridError, match="shared worksheet"):
        sweep(hours, crowd[1])


@pytest.mark.parametrize("factors", [(), (0.0, 1.0), (1.0, 1.0), (2.0, 1.0), (float("nan"),)])
def test_a_bad_grid_is_refused_in_words(designs, all_hours, factors):
    with pytest.raises(OffgridError, match="numbers above 0, each larger"):
        reliability_map(designs["riverbend"], all_hours["riverbend"], factors, (1.0,))


def test_a_plan_of_every_kind_runs_its_year(plans):
    """Direct controller and inverter, an enclosure, gel, no AC, and a site south of the equator."""
    text = (plans / "riverbend.toml").read_text(encoding="utf-8")
    assert 'controller = "direct"' not in text
    direct = parse_plan(text.replace("[choices]", '[choices]\ncontroller = "direct"', 1))
    years = simulate(hours_of(size(direct), drawn_weather(size(direct), 1)))
    assert years.totals["residual_frac"][0] <= 1e-9
    tracking = size(parse_plan(text))
    assert years.totals["array_year_wh"][0] < simulate(hours_of(tracking, drawn_weather(tracking, 1))).totals[
        "array_year_wh"
    ][0] * float(size(direct).system["array_w"] / tracking.system["array_w"])


def test_rules_of_thumb_are_judged_on_the_curve_of_the_site(designs, all_hours):
    """Loss falls with days of storage; a rule lies between its neighbours on the curve, and keeps what it promises."""
    judged = judge_storage(designs["riverbend"], all_hours["riverbend"])
    assert np.all(np.diff(judged.lost_frac) <= 1e-12)
    assert judged.lost_frac[0] > 0.02
    for rule in judged.rules:
        place = np.searchsorted(judged.days, rule.days)
        assert judged.lost_frac[place] - 1e-12 <= rule.lost_frac <= judged.lost_frac[place - 1] + 1e-12
        assert rule.lost_frac <= 1 - rule.promised_frac
    again = judge_storage(designs["riverbend"], all_hours["riverbend"], [rule.days for rule in judged.rules])
    assert again.lost_frac.tolist() == [rule.lost_frac for rule in judged.rules]
    assert judge_storage(designs["riverbend"], all_hours["riverbend"], [5.0]).lost_frac[0] == judged.hand_lost_frac
    worst = designs["riverbend"].system["peak_sun_by_month_h"].min()
    assert judged.rules[2].days == pytest.approx(18.3 - 1.9 * worst)
    assert judged.hand_days == 5


def test_a_direct_controller_is_judged_with_its_own_array(designs, all_hours):
    """Its array is larger: what the modules could do above the bank's voltage is lost."""
    design = designs["gull_mast"]
    judged = judge_storage(design, all_hours["gull_mast"])
    assert judged.array_w == pytest.approx(design.system["array_for_load_w"] * 1.1 / design.system["array_load_ratio"])
