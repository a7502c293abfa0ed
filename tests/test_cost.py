"""Cost over the years: against a plain reckoning year by year, and what it does to a choice between designs."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published.cost_cases import EXAMPLE

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import QUANTITIES
from offgrid_core.sizing.cost import COST, YEARS
from offgrid_core.system import handover, read_plan, size
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS
from offgrid_core.worksheet import STANDINGS, Sheet
from offgrid_core.year.costing import COMPARED, SPANS, cost_of, givens_of, reverses, side_by_side, tornado

PLAIN = {
    "year_by_row_years": YEARS,
    "discount_rate_frac": 0.05,
    "horizon_years": 20.0,
    "units_count": 8.0,
    "unit_cost": 250.0,
    "battery_price_factor": 1.0,
    "modules_count": 6.0,
    "module_cost": 180.0,
    "controllers_count": 1.0,
    "controller_cost": 300.0,
    "inverter_cost": 900.0,
    "generator_kw_cost": 500.0,
    "generator_rated_w": 3000.0,
    "balance_frac": 0.4,
    "bank_life_years": 7.5,
    "controller_life_years": 12.0,
    "inverter_life_years": 10.0,
    "generator_life_years": 9.0,
    "array_life_years": 25.0,
    "upkeep_frac": 0.01,
    "fuel_year_l": 120.0,
    "fuel_litre_cost": 1.5,
    "fuel_growth_frac": 0.02,
    "salvage_frac": 0.1,
    "served_year_wh": 1_500_000.0,
}
LIVES = ("bank", "controller", "inverter", "generator", "array")

# ---- a plain reckoning: what is paid, year by year


def worth(rate, flows):
    """Return what flows at the ends of the years 0, 1, 2 … are worth today."""
    return sum(paid / (1 + rate) ** year for year, paid in enumerate(flows))


def flows_of(g):
    """Return what is paid in each year, the first cost in year 0; money that comes back is negative."""
    costs = {
        "bank": g["units_count"] * g["unit_cost"] * g["battery_price_factor"],
        "controller": g["controllers_count"] * g["controller_cost"],
        "inverter": g["inverter_cost"],
        "generator": g["generator_kw_cost"] * g["generator_rated_w"] / 1000,
        "array": g["modules_count"] * g["module_cost"],
    }
    round_them = g["balance_frac"] * (costs["array"] + costs["controller"] + costs["inverter"])
    first, years = sum(costs.values()) + round_them, int(g["horizon_years"])
    paid = [first] + [0.0] * years
    for year in range(1, years + 1):
        fuel = g["fuel_year_l"] * g["fuel_litre_cost"] * (1 + g["fuel_growth_frac"]) ** year
        paid[year] += g["upkeep_frac"] * first + fuel
    for part, cost in costs.items():
        bought = 1
        while (due := bought * g[f"{part}_life_years"]) < years - 1e-6:
            paid[math.ceil(due - 1e-6)] += cost
            bought += 1
    paid[years] -= g["salvage_frac"] * first
    return paid


def test_the_plain_reckoning_against_a_published_net_present_value():
    """LC062 (computed): the worked example of a financial library."""
    assert worth(0.08, [-40000, 5000, 8000, 12000, 30000]) == pytest.approx(3065.22267, rel=1e-7)


tenths = st.integers(10, 300).map(lambda n: n / 10)
shares = st.floats(0, 0.3)


@given(st.fixed_dictionaries({f"{part}_life_years": tenths for part in LIVES}), st.integers(1, 60), shares, shares)
def test_the_life_cycle_cost_is_that_of_the_plain_reckoning(lives, horizon, rate, growth):
    g = PLAIN | lives | {"horizon_years": horizon, "discount_rate_frac": rate, "fuel_growth_frac": growth / 2}
    solved, flows = COST.solve(g), flows_of(g)
    assert solved["first_cost"] == pytest.approx(flows[0])
    assert solved["life_cycle_cost"] == pytest.approx(worth(rate, flows), rel=1e-9)
    energy = worth(rate, [0.0] + [g["served_year_wh"] / 1000] * horizon)
    assert solved["kwh_cost"] == pytest.approx(worth(rate, flows) / energy, rel=1e-9), (
        "LC076: levelised cost, from memory"
    )
    assert worth(rate, [0.0] + [float(solved["year_cost"])] * horizon) == pytest.approx(worth(rate, flows), rel=1e-9)


def test_the_published_example_to_the_cent():
    """LC065 to LC071 (computed): present worth method."""
    lines = Sheet(*(x for n, x in COST.items() if n not in EXAMPLE and n != "units_cost"))
    solved = lines.solve(EXAMPLE)
    assert np.flatnonzero(solved["bank_replaced_by_row_count"]).tolist() == [5, 11, 17]
    assert np.flatnonzero(solved["controllers_replaced_by_row_count"]).tolist() == [9]
    assert f"{float(solved['life_cycle_cost']):.2f}" == "19041.39"
    assert f"{float(solved['year_cost']):.2f}" == "1527.93"
    assert f"{float(solved['kwh_cost']):.4f}" == "0.8372"


# ---- behaviour


def test_at_no_discount_money_is_just_added_up():
    g = PLAIN | {"discount_rate_frac": 0.0}
    solved = COST.solve(g)
    assert solved["uniform_factor"] == 20
    assert solved["recovery_factor"] == 1 / 20
    assert solved["life_cycle_cost"] == pytest.approx(sum(flows_of(g)))


@given(st.floats(0, 0.2), st.integers(1, 60))
def test_fuel_that_grows_as_the_discount_rate_costs_the_same_every_year(rate, years):
    solved = COST.solve(PLAIN | {"discount_rate_frac": rate, "fuel_growth_frac": rate, "horizon_years": years})
    assert solved["fuel_factor"] == pytest.approx(years)


@given(st.integers(1, 60), st.integers(1, 60))
def test_whole_lives_are_bought_again_when_they_end_and_not_at_the_horizon(life, horizon):
    solved = COST.solve(PLAIN | {"bank_life_years": life, "horizon_years": horizon})
    years = (np.flatnonzero(solved["bank_replaced_by_row_count"]) + 1).tolist()
    assert years == list(range(life, horizon, life))
    assert solved["bank_replaced_count"] == len(years)


@pytest.mark.parametrize(("life", "years"), [(6.54, [7, 14, 20]), (9.6, [10, 20]), (20 / 3, [7, 14]), (6.7, [7, 14])])
def test_a_bank_that_ends_within_the_last_year_is_bought_again_at_its_end(life, years):
    """Over 20 years: 3 × 6.54 = 19.6 years is before the horizon, three lives of a third of it end on the last day."""
    solved = COST.solve(PLAIN | {"bank_life_years": life})
    assert (np.flatnonzero(solved["bank_replaced_by_row_count"]) + 1).tolist() == years
    assert solved["bank_replaced_count"] == len(years)


def test_a_bank_that_lasts_less_than_a_year_is_bought_twice_in_some_years():
    solved = COST.solve(PLAIN | {"bank_life_years": 0.4, "horizon_years": 3})
    assert solved["bank_replaced_by_row_count"][:4].tolist() == [2, 3, 2, 0]


@given(st.sampled_from([f"{part}_life_years" for part in LIVES]), tenths, tenths)
def test_what_lasts_longer_never_costs_more(name, one, other):
    short, long = sorted((one, other))
    lasting, worn = (COST.solve(PLAIN | {name: x})["life_cycle_cost"] for x in (long, short))
    assert lasting <= worn * (1 + 1e-12)


@given(st.sampled_from(["battery_price_factor", "fuel_litre_cost", "fuel_growth_frac", "upkeep_frac", "balance_frac"]))
def test_dearer_is_dearer_and_what_is_left_is_taken_off(name):
    more = COST.solve(PLAIN | {name: PLAIN[name] * 1.1})["life_cycle_cost"]
    assert more > COST.solve(PLAIN)["life_cycle_cost"] > COST.solve(PLAIN | {"salvage_frac": 0.2})["life_cycle_cost"]


def test_a_cheaper_battery_lowers_the_bank_and_its_replacements_and_no_other_price():
    bare = PLAIN | {"upkeep_frac": 0, "salvage_frac": 0}
    dear, cheap = COST.solve(bare), COST.solve(bare | {"battery_price_factor": 0.5})
    changed = {n for n in COST if not np.array_equal(dear[n], cheap[n])}
    assert changed == {
        "bank_cost", "first_cost", "bank_replaced_cost", "replaced_cost", "life_cycle_cost", "year_cost", "kwh_cost",
    }  # fmt: skip
    assert cheap["bank_replaced_cost"] == pytest.approx(dear["bank_replaced_cost"] / 2)


def test_every_assumption_of_the_cost_is_valid_and_has_a_standing():
    of_cost = {n: a for n, a in YEARS_ASSUMPTIONS.items() if n in COST.inputs}
    assert len(of_cost) == 13
    for name, a in of_cost.items():
        assert a.name == name
        assert QUANTITIES[name].low <= a.value <= QUANTITIES[name].high
        assert a.standing in (*STANDINGS, "invented classroom data")
    invented = {n for n, a in YEARS_ASSUMPTIONS.items() if a.standing == "invented classroom data"}
    assert {"fuel_litre_cost", "fuel_growth_frac", "generator_kw_cost", "balance_frac"} <= invented


# ---- from a design


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def test_a_design_costs_what_its_order_list_says_and_what_goes_round_it(hut):
    solved = cost_of(hut, 600_000, 6.5, 40)
    rows = handover.order(hut)
    parts = sum(
        float(cost)
        for item, cost in zip(rows.items, rows.priced["cost_by_row_cost"], strict=True)
        if item.fuse_a is None
    )
    bought = ("bank_cost", "array_cost", "controllers_cost", "inverter_cost")
    assert sum(float(solved[n]) for n in bought) == pytest.approx(parts)
    assert solved["first_cost"] == pytest.approx(parts + solved["balance_cost"] + solved["generator_cost"])
    assert (solved["bank_life_years"], solved["fuel_year_l"], solved["served_year_wh"]) == (6.5, 40, 600_000)
    assert solved["life_cycle_cost"] == pytest.approx(worth(0.05, flows_of(dict(solved))))


def test_without_generator_or_inverter_neither_is_paid(plans):
    designs = [size(read_plan(path)) for path in sorted(plans.glob("*.toml"))]
    without = {"generator": 0, "inverter": 0}
    for design in designs:
        solved = cost_of(design, 1e6, 8)
        assert set(givens_of(design, 1e6, 8)) == set(COST.inputs)
        if design.plan.generator is None:
            without["generator"] += 1
            assert solved["generator_cost"] == solved["generator_replaced_cost"] == 0
        else:
            assert solved["generator_cost"] == pytest.approx(0.5 * design.plan.generator.rated_w)
        if design.parts.inverter is None:
            without["inverter"] += 1
            assert solved["inverter_cost"] == solved["inverter_replaced_cost"] == 0
    assert all(without.values()), "the demo plans have one of each"


# ---- side by side

LEAD = PLAIN | {"unit_cost": 150.0, "bank_life_years": 5.0, "generator_rated_w": 0.0, "fuel_year_l": 0.0}
LITHIUM = LEAD | {"unit_cost": 300.0, "bank_life_years": 15.0, "modules_count": 5.0}


def test_side_by_side_says_of_each_design_what_its_own_worksheet_says():
    rows = side_by_side([("lead", LEAD), ("lithium", LITHIUM)])
    assert [row.name for row in rows] == list(COMPARED)
    for row in rows:
        assert row.values == tuple(float(COST.solve(g)[row.name]) for g in (LEAD, LITHIUM))
        assert row.label == (COST[row.name].label if row.name in COST else QUANTITIES[row.name].label)
    by_name = {row.name: row.values for row in rows}
    assert by_name["bank_replaced_count"] == (3, 1)
    first, *added, left = (
        by_name[n] for n in ("first_cost", "replaced_cost", "upkeep_cost", "fuel_cost", "salvage_cost")
    )
    for i in range(2):
        whole = first[i] + sum(column[i] for column in added) - left[i]
        assert whole == pytest.approx(by_name["life_cycle_cost"][i])
        kilowatt_hours = by_name["served_year_wh"][i] / 1000
        assert by_name["kwh_cost"][i] == pytest.approx(by_name["year_cost"][i] / kilowatt_hours)


@pytest.mark.parametrize(
    "designs", [[], [("a", PLAIN)], [("a", PLAIN), ("a", LEAD)], [(str(i), PLAIN) for i in range(5)]]
)
def test_one_design_or_five_or_two_of_one_name_are_refused(designs):
    with pytest.raises(OffgridError, match=r"^side by side: two to four designs of different names are wanted, not \["):
        side_by_side(designs)


# ---- what reverses a choice


def dearer(one, other, moved, value):
    mine, yours = (float(COST.solve({**g, moved: value})["life_cycle_cost"]) for g in (one, other))
    return mine > yours


@pytest.mark.parametrize("moved", ["discount_rate_frac", "horizon_years", "battery_price_factor"])
def test_at_the_value_found_the_choice_is_the_other_s_and_just_before_it_is_not(moved):
    found = reverses(LEAD, LITHIUM, moved)
    assert found is not None
    assert found == reverses(LITHIUM, LEAD, moved)
    now, back = LEAD[moved], 1 if moved == "horizon_years" else 1e-9
    just_before = found - back if found > now else found + back
    assert dearer(LEAD, LITHIUM, moved, now) == dearer(LEAD, LITHIUM, moved, just_before)
    assert dearer(LEAD, LITHIUM, moved, now) != dearer(LEAD, LITHIUM, moved, found)


SOLAR = PLAIN | dict.fromkeys(("upkeep_frac", "salvage_frac", "balance_frac", "fuel_growth_frac", "inverter_cost"), 0.0)
SOLAR |= {f"{part}_life_years": 60.0 for part in LIVES} | {"generator_rated_w": 0.0, "fuel_year_l": 0.0}
SOLAR |= {"units_count": 0.0, "controllers_count": 0.0, "modules_count": 10.0, "module_cost": 100.0}
ENGINE = SOLAR | {"modules_count": 0.0, "fuel_litre_cost": 1.0}


@pytest.mark.parametrize(
    ("recovery", "rate", "years", "figures"),
    [(0.1018522, 0.08, 20, 1e-6), (0.2638, 0.10, 5, 2e-4)],
    ids=["LC064 (computed)", "LC059 (seen)"],
)
def test_a_thousand_more_at_first_pays_up_to_the_rate_of_the_capital_recovery_factor(recovery, rate, years, figures):
    """A published factor read backwards: a thousand lent is paid back by so much a year at that rate."""
    shared = {"horizon_years": years, "fuel_litre_cost": 1.0}
    found = reverses(SOLAR | shared, ENGINE | shared | {"fuel_year_l": 1000 * recovery}, "discount_rate_frac")
    assert found == pytest.approx(rate, rel=3 * figures)


def test_the_fuel_price_that_reverses_a_choice():
    """LC024 (computed): a litre for 20 years at 5 % is worth 12.4622 litres today."""
    found = reverses(
        SOLAR | {"fuel_litre_cost": 0.1}, ENGINE | {"fuel_year_l": 100, "fuel_litre_cost": 0.1}, "fuel_litre_cost"
    )
    assert found == pytest.approx(1000 / 100 / 12.4622, rel=1e-5)


def test_the_horizon_that_reverses_a_choice_is_whole_years():
    """At 100 a year and no discount, a thousand is paid back in 10 years, and the eleventh is gain."""
    free = {"discount_rate_frac": 0.0, "horizon_years": 5}
    found = reverses(SOLAR | free, ENGINE | free | {"fuel_year_l": 100}, "horizon_years")
    assert found == 11


def test_of_two_reversals_the_nearer_one():
    """Two banks against one, over the horizon: the choice goes to and fro as replacements come in."""
    xs = np.arange(5, 41)
    brief = LEAD | {"bank_life_years": 6.0, "upkeep_frac": 0.0, "salvage_frac": 0.0}
    lasting = brief | {"bank_life_years": 18.0, "unit_cost": 2.1 * LEAD["unit_cost"]}
    mine, yours = (COST.solve({**g, "horizon_years": xs})["life_cycle_cost"] for g in (brief, lasting))
    assert np.count_nonzero(np.diff(mine > yours)) == 3
    for now in xs:
        at = {"horizon_years": float(now)}
        other = xs[(mine > yours) != (mine > yours)[now - 5]]
        found = reverses(brief | at, lasting | at, "horizon_years")
        assert abs(found - now) == np.min(np.abs(other - now))
        assert found in other


def test_no_reversal_where_one_is_always_dearer_or_both_cost_the_same():
    assert reverses(PLAIN, PLAIN | {"unit_cost": 500.0}, "discount_rate_frac") is None
    assert reverses(PLAIN, dict(PLAIN), "fuel_litre_cost") is None


def test_questions_that_cannot_be_asked():
    with pytest.raises(
        OffgridError, match="the choice cannot be asked about unit_cost; it can about battery_price_factor"
    ):
        reverses(PLAIN, LEAD, "unit_cost")
    with pytest.raises(OffgridError, match="cannot be asked about tilt_deg"):
        reverses(PLAIN, LEAD, "tilt_deg")
    with pytest.raises(OffgridError, match="the two designs have different values of horizon_years: 20 and 25"):
        reverses(PLAIN, LEAD | {"horizon_years": 25.0}, "horizon_years")


# ---- tornado


def test_a_tornado_has_the_farthest_first_and_each_end_is_solved_by_itself():
    bars = tornado(PLAIN)
    assert {bar.swing.name for bar in bars} == set(SPANS)
    sizes = [abs(bar.swing.result_high - bar.swing.result_low) for bar in bars]
    assert sizes == sorted(sizes, reverse=True)
    for bar in bars:
        for end, result in ((bar.swing.low, bar.swing.result_low), (bar.swing.high, bar.swing.result_high)):
            assert result == pytest.approx(float(COST.solve({**PLAIN, bar.swing.name: end})["life_cycle_cost"]))


def test_inputs_that_move_replacements_are_said_to_move_in_steps():
    bars = tornado(PLAIN, SPANS | {"bank_life_years": (4, 12)})
    assert {bar.swing.name for bar in bars if bar.in_steps} == {
        "horizon_years", "controller_life_years", "inverter_life_years", "bank_life_years",
    }  # fmt: skip


def test_the_usual_spans_hold_the_assumption_and_are_valid():
    for name, (low, high) in SPANS.items():
        assert QUANTITIES[name].low <= low < YEARS_ASSUMPTIONS[name].value < high <= QUANTITIES[name].high


def test_an_input_that_is_none_is_refused():
    with pytest.raises(OffgridError, match="tornado: tilt_deg is no input of the cost worksheet"):
        tornado(PLAIN, {"tilt_deg": (0, 90)})


@pytest.mark.parametrize(
    ("broken", "said"),
    [
        ({"served_year_wh": 0.0}, "cost of a kilowatt-hour delivered"),
        ({"bank_life_years": 0.0}, "replacements of the bank in the year"),
    ],
)
def test_what_cannot_be_worked_is_refused_by_the_line(broken, said):
    with pytest.raises(OffgridError) as refusal:
        COST.solve(PLAIN | broken)
    assert str(refusal.value).startswith(said)
