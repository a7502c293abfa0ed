"""The loads list by the clock and over the week: windows, peaks that really coincide, the night, a busy run of days."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_plan import GOOD, changed

from offgrid_core.errors import PlanError
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.hours import DAY_CURVE, NIGHT, dark_by_hour_frac
from offgrid_core.sizing.week import RUN_OF_DAYS
from offgrid_core.system import Design, parse_plan, read_plan, size
from offgrid_core.system.clock import clock_of, minutes_of
from offgrid_core.system.explore import one_day
from offgrid_core.system.loading import busiest_run, peaks_of, rows_of


@pytest.fixture(scope="module")
def cabin(plans) -> Design:
    return size(read_plan(plans / "weekend_cabin.toml"))


# ---- windows


@pytest.mark.parametrize(
    ("window", "hours"),
    [
        ("06:30-09:00", 2.5),
        ("22:00-05:00", 7),
        ("00:00-24:00", 24),
        ("6:00 - 6:15", 0.25),
        ("18:00–23:00", 5),
        ("23:59-00:00", 1 / 60),
    ],
)
def test_a_window_covers_its_minutes(window, hours):
    assert minutes_of(window).sum() / 60 == pytest.approx(hours)
    assert clock_of((window,)).sum() == pytest.approx(hours)


def test_a_window_past_midnight_covers_both_ends_of_the_day():
    clock = clock_of(("22:30-01:15",))
    assert clock[[22, 23, 0, 1]].tolist() == [0.5, 1, 1, 0.25]
    assert clock[2:22].sum() == 0


@pytest.mark.parametrize(
    ("windows", "said"),
    [
        ('["6-9"]', "not a window"),
        ('["25:00-26:00"]', "not a window"),
        ('["24:30-01:00"]', "not a window"),
        ('["06:61-09:00"]', "not a window"),
        ('["09:00-09:00"]', "not a window"),
        ('["06:00"]', "not a window"),
        ('["٠٦:٠٠-٠٩:٠٠"]', "not a window"),
        ('["06:00-09:00", "08:00-10:00"]', "runs into another"),
        ('["22:00-05:00", "04:00-06:00"]', "runs into another"),
        ("[]", "1 to 12"),
        ('["06:00-06:01"' + ', "07:00-07:01"' * 12 + "]", "1 to 12"),
        ('"06:00-09:00"', "not a list of windows"),
        ("[6, 9]", "not a list of windows"),
        ("true", "not a list of windows"),
    ],
)
def test_a_bad_window_is_refused_with_what_is_allowed(windows, said):
    with pytest.raises(PlanError) as refused:
        parse_plan(changed("hours_h = 5\n", f"windows = {windows}\n"))
    sentence = str(refused.value)
    assert "load 1 (lamp) windows" in sentence
    assert said in sentence
    assert "06:30-09:00" in sentence


def test_hours_and_windows_are_not_both_given():
    with pytest.raises(PlanError, match=r"load 1 \(lamp\): one of hours_h and windows"):
        parse_plan(changed("hours_h = 5\n", 'hours_h = 5\nwindows = ["06:00-11:00"]\n'))


def test_windows_give_the_same_energy_as_their_hours():
    by_hours, by_windows = (
        size(parse_plan(changed("hours_h = 5\n", text)))
        for text in ("hours_h = 5\n", 'windows = ["06:00-08:30", "20:00-22:30"]\n')
    )
    for name in ("energy_day_wh", "bank_needed_ah", "array_w"):
        assert by_windows.system[name] == pytest.approx(by_hours.system[name], rel=1e-12)


# ---- what runs together

TWO = """
[[load]]
name = "saw"
bus = "AC"
power_w = 800
hours_h = 1
start_factor = 3
power_factor_ratio = 0.8

[[load]]
name = "oven"
bus = "AC"
power_w = 1500
hours_h = 1
"""


def peaks(saw: str, oven: str) -> dict[str, float]:
    text = GOOD[: GOOD.index("[[load]]")] + TWO
    text = text.replace("hours_h = 1\nstart", f"{saw}\nstart").replace("hours_h = 1\n", f"{oven}\n")
    plan = parse_plan(text)
    return peaks_of(plan, rows_of(plan))


def test_loads_with_windows_apart_do_not_add_up():
    apart = peaks('windows = ["09:00-10:00"]', 'windows = ["18:00-19:00"]')
    assert apart["peak_w"] == 1500
    assert apart["peak_va"] == 1500
    assert apart["surge_w"] == 800 * 3
    together = peaks('windows = ["18:30-19:30"]', 'windows = ["18:00-19:00"]')
    assert together["peak_w"] == 2300
    assert together["peak_va"] == 2500
    assert together["surge_w"] == 1500 + 800 * 3


def test_a_load_without_a_window_may_meet_any_other():
    assert peaks("hours_h = 1", 'windows = ["18:00-19:00"]')["peak_w"] == 2300
    assert peaks("hours_h = 1", "hours_h = 1")["surge_w"] == 2300 + 1600


def test_the_cabin_s_peak_is_its_kettle_not_the_sum_of_everything(cabin):
    assert cabin.given["peak_w"] == 900
    assert cabin.given["surge_w"] == 600 * 3  # the kettle is off when the tools start
    assert cabin.loads["surge_w"] == cabin.given["surge_w"]


# ---- the day's curve


def test_the_curve_of_every_month_adds_up_to_the_day(plans):
    for path in sorted(plans.glob("*.toml")):
        d = size(read_plan(path))
        assert d.curve.shape == (12, 24)
        assert d.curve.sum(axis=1) == pytest.approx(d.given["battery_day_by_month_wh"], rel=1e-9), path.name


@given(st.integers(0, 2**32 - 1))
def test_any_list_s_curve_adds_up(seed):
    dice = np.random.default_rng(seed)
    rows = {name: dice.random(4) for name in LOADS.inputs if "by_row" in name}
    rows |= {"power_by_row_w": dice.random(4) * 900, "power_factor_by_row_ratio": np.full(4, 0.9)}
    clock = dice.random((24, 4))
    rows["clock_by_row_frac"], rows["hours_by_row_h"] = clock, clock.sum(axis=0)
    rows |= {"inverter_eff_frac": 0.9, "inverter_idle_w": 9.0, "inverter_on_h": 14.0}
    rows |= {"dc_wiring_eff_frac": 0.97, "growth_factor": 1.2}
    day = LOADS.upto("battery_day_wh").solve(rows)["battery_day_wh"]
    assert DAY_CURVE.solve(rows)["hour_battery_wh"].sum() == pytest.approx(day, rel=1e-9)


def test_the_night_by_hand():
    # On the equator at the equinox the sun is down from 18 to 6.
    dark = dark_by_hour_frac(0.0, 3)
    assert dark[:6] == pytest.approx(1, abs=0.01)
    assert dark[6:18] == pytest.approx(0, abs=0.01)
    curve = np.zeros(24)
    curve[20], curve[12] = 300, 100
    assert NIGHT.solve({"load_by_hour_wh": curve, "dark_by_hour_frac": dark})["night_share_frac"] == 0.75


@pytest.mark.parametrize("latitude", [-60, -35, 0, 20, 55, 66])
def test_nights_are_long_in_winter_and_the_seasons_swap_over_the_equator(latitude):
    lengths = [dark_by_hour_frac(latitude, m).sum() for m in range(1, 13)]
    mirrored = [dark_by_hour_frac(-latitude, m).sum() for m in range(1, 13)]
    assert np.array(lengths) + np.array(mirrored) == pytest.approx(24, abs=1e-9)
    longest = int(np.argmax(lengths)) + 1
    assert latitude == 0 or longest == (12 if latitude > 0 else 6)


# ---- a busy run of days


def run_wh(days: float, week: float, power: float = 100.0, standby: float = 0.0) -> float:
    given = {
        "count_by_row": [1], "power_by_row_w": [power], "hours_by_row_h": [5], "duty_by_row_frac": [1],
        "season_by_row_frac": [1], "standby_by_row_w": [standby], "week_by_row_days": [week], "on_ac_by_row_frac": [0],
        "inverter_eff_frac": 0.9, "inverter_idle_w": 0, "inverter_on_h": 0, "dc_wiring_eff_frac": 1, "growth_factor": 1,
        "autonomy_days": days,
    }  # fmt: skip
    return float(RUN_OF_DAYS.solve(given)["battery_spell_wh"])


@pytest.mark.parametrize(
    ("days", "week", "busy"),
    [
        (1, 2, 1), (2, 2, 2), (3, 2, 2), (7, 2, 2), (8, 2, 3), (9, 2, 4), (14, 2, 4), (16, 2, 6),
        (4, 3, 3), (5, 7, 5), (10, 7, 10), (1, 0.5, 1), (14, 0.5, 1), (4, 0, 0), (1.5, 2, 1.5),
    ],
)  # fmt: skip
def test_the_busiest_run_counts_the_days_a_load_can_run(days, week, busy):
    assert run_wh(days, week) == pytest.approx(busy * 500)


def test_standby_goes_on_in_the_quiet_days():
    assert run_wh(5, 2, standby=2) == pytest.approx(2 * 500 + 2 * (5 * 24 - 2 * 5))


def by_brute_force(days: int, week: int) -> int:
    """Return the most busy days in any run of so many, when the busy days of a week come together."""
    calendar = ([1] * week + [0] * (7 - week)) * 12
    return max(sum(calendar[first : first + days]) for first in range(7, 14))


@pytest.mark.parametrize("week", range(8))
@pytest.mark.parametrize("days", range(1, 31))
def test_the_busiest_run_is_that_of_a_calendar(days, week):
    assert run_wh(days, week) == pytest.approx(by_brute_force(days, week) * 500)


def test_the_table_of_the_busiest_run_agrees_with_the_lines(cabin):
    table, back = busiest_run(cabin.given).values()
    for days in (0.5, 1.0, 2.0, 3.0, 8.0):
        assert back(table(days)) == pytest.approx(days, rel=1e-3)
    assert cabin.system["spell_wh"] == pytest.approx(float(table(3.0)))
    hardest = cabin.loads
    rows = {n: hardest[n] for n in RUN_OF_DAYS.inputs if n != "autonomy_days"}
    for days in (1.0, 2.0, 2.5, 7.0, 20.0):
        assert RUN_OF_DAYS.solve(rows | {"autonomy_days": days})["battery_spell_wh"] <= table(days) * (1 + 1e-9)


def test_the_busiest_run_asks_for_less_than_busiest_days_one_after_another(plans):
    text = (plans / "weekend_cabin.toml").read_text(encoding="utf-8")
    text = text.replace("[choices]\n", "[choices]\nbank_voltage_v = 12\n")
    run = size(parse_plan(text))
    days = size(parse_plan(text.replace('spell_rule = "busiest_run"', 'spell_rule = "busiest_day"')))
    assert run.system["spell_wh"] < days.system["spell_wh"]
    assert math.isclose(days.system["spell_wh"], 3 * days.system["energy_day_wh"])
    assert run.given["battery_mean_by_month_wh"] == pytest.approx(days.given["battery_mean_by_month_wh"])


def test_the_standard_s_form_takes_the_busiest_run_too(plans):
    text = (plans / "weekend_cabin.toml").read_text(encoding="utf-8")
    both = text.replace('chemistry = "lfp"', 'chemistry = "lfp"\nbank_method = "ieee1013"')
    d = size(parse_plan(both))
    assert d.system["spell_ah"] * d.system["bank_voltage_v"] == pytest.approx(
        float(busiest_run(d.given)["busiest_run"](3.0))
    )


# ---- loads that must not fail


def test_a_load_that_must_not_fail_raises_the_array_and_has_its_own_autonomy(cabin):
    assert cabin.given["array_load_ratio"] == 1.3
    critical = cabin.more["Loads that must not fail"]
    assert critical["critical_day_wh"] == pytest.approx(3 * 24 / 0.98)
    assert critical["critical_autonomy_days"] == pytest.approx(cabin.system["bank_usable_wh"] / (3 * 24 / 0.98))
    assert "Loads that must not fail" not in size(parse_plan(GOOD)).more


def test_loads_that_must_not_fail_grow_with_the_rest():
    """The same load is the same energy there and in the picture of where the day's energy goes."""
    text = changed("hours_h = 24", "hours_h = 24\ncritical = true").replace("[assume]", "[assume]\ngrowth_factor = 1.2")
    plain, grown = (size(parse_plan(t)) for t in (text.replace("1.2", "1"), text))
    before, after = (d.more["Loads that must not fail"]["critical_day_wh"] for d in (plain, grown))
    assert after == pytest.approx(1.2 * before)
    (name,) = (load.name for load in grown.plan.load if load.critical)
    assert dict(one_day(grown, {}).at_battery())[name] == pytest.approx(after)


def test_the_plan_s_own_ratio_stands_before_the_critical_one():
    text = changed("hours_h = 24", "hours_h = 24\ncritical = true").replace(
        "[assume]", "[assume]\narray_load_ratio = 1.5"
    )
    assert size(parse_plan(text)).given["array_load_ratio"] == 1.5


def test_what_the_bank_lasts_is_a_run_of_busy_and_quiet_days(cabin):
    s = cabin.system
    assert s["autonomy_given_days"] >= 3, "all three days that were asked for"
    last = busiest_run(cabin.given)["busiest_run"](s["autonomy_given_days"])
    assert last == pytest.approx(s["bank_usable_wh"], rel=1e-6)
    assert s["spell_depth_frac"] == pytest.approx(s["spell_wh"] / (s["bank_wh"] * s["kept_frac"]))
    assert s["spell_depth_frac"] <= 0.85
