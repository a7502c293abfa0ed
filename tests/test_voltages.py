"""The bank voltage: left open it is chosen by what the limits say; given or not, all three are compared."""

import pytest
from test_plan import GOOD, changed

from offgrid_core.errors import PlanError
from offgrid_core.quantities import Settings
from offgrid_core.report.side_tables import voltage_rows
from offgrid_core.sizing import VOLTAGE
from offgrid_core.system import parse_plan, read_plan, size
from offgrid_core.system.voltages import at_each_voltage

OPEN = changed("bank_voltage_v = 24\n", "")
PUMP = OPEN.replace('name = "fridge"\nbus = "AC"\npower_w = 90\nhours_h = 24', (
    'name = "pump"\nbus = "AC"\npower_w = 800\nhours_h = 3\nstart_factor = 4'
))  # fmt: skip


def test_a_small_load_stays_at_the_voltage_that_its_current_suggests():
    d = size(parse_plan(OPEN))
    assert VOLTAGE.solve(d.given)["voltage_suggested_v"] == d.system["bank_voltage_v"] == 12
    assert all(f.passed for f in d.findings)


def test_a_hard_start_lifts_the_voltage_although_the_running_current_would_not():
    d = size(parse_plan(PUMP))
    tried = {at.bank_voltage_v: len(at.broken) for at in at_each_voltage(d.plan)}
    assert VOLTAGE.solve(d.given)["voltage_suggested_v"] == 12
    assert "inverter surge against the hardest start" in at_each_voltage(d.plan)[0].broken
    chosen = float(d.system["bank_voltage_v"])
    assert chosen > 12
    assert tried[chosen] == min(tried.values())
    assert all(tried[v] > tried[chosen] for v in tried if v < chosen), "the lowest of the best"


def test_a_voltage_given_is_kept_whatever_the_limits_say():
    d = size(parse_plan(PUMP.replace('chemistry = "flooded"', 'chemistry = "flooded"\nbank_voltage_v = 12')))
    assert d.system["bank_voltage_v"] == 12
    assert any(not f.passed for f in d.findings)


def test_twice_the_volts_are_half_the_amperes(plans):
    plan = read_plan(plans / "fell_hut.toml")
    designs = {at.bank_voltage_v: at.design for at in at_each_voltage(plan)}
    amperes = {v: d.loads["peak_w"] / d.given["inverter_eff_frac"] / v for v, d in designs.items()}
    for volts, d in designs.items():
        assert d.system["running_current_a"] == pytest.approx(amperes[volts], rel=1e-9)
    assert (
        designs[12].system["strings_count"] > designs[24].system["strings_count"] > designs[48].system["strings_count"]
    )


def test_a_part_named_for_one_voltage_leaves_only_that_one():
    plan = parse_plan(OPEN.replace("[parts]\n", '[parts]\ninverter = "inverter_24v_900w"\n'))
    assert size(plan).system["bank_voltage_v"] == 24
    tried = {at.bank_voltage_v: at for at in at_each_voltage(plan)}
    assert [v for v, at in tried.items() if at.design] == [24]
    assert "is not an inverter for 12 V" in tried[12].reason
    rows = voltage_rows(size(plan), Settings())
    assert rows[2][0] == "24 V, this design"
    assert "is not an inverter for 48 V" in rows[3][-1]


def test_where_no_voltage_will_do_the_first_reason_is_given():
    with pytest.raises(PlanError, match="is not a tracking controller for"):
        size(parse_plan(OPEN.replace("[parts]\n", '[parts]\ncontroller = "direct_6a_30v"\n')))


def test_the_good_plan_of_these_tests_is_as_it_was():
    assert size(parse_plan(GOOD)).system["bank_voltage_v"] == 24
