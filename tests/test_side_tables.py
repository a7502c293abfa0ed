"""Tables beside the worked lines: each row is the design's own, and the JSON has the same numbers."""

import json

import pytest

from offgrid_core import data
from offgrid_core.quantities import Settings, show
from offgrid_core.report import side_tables
from offgrid_core.report.tables import as_json
from offgrid_core.system import Design, parse_plan, read_plan, size
from offgrid_core.system.audit import gives_way

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
every_demo = pytest.mark.parametrize("name", DEMOS)


@pytest.fixture(scope="module")
def designs(plans) -> dict[str, Design]:
    return {name: size(read_plan(plans / f"{name}.toml")) for name in DEMOS}


@pytest.fixture(scope="module")
def read(designs) -> dict[str, dict]:
    return {name: json.loads(json.dumps(as_json(d), allow_nan=False)) for name, d in designs.items()}


@every_demo
def test_every_circuit_has_a_device_that_stands_it(designs, read, name):
    design, said = designs[name], read[name]["protection"]
    heads, *rows = side_tables.protection_rows(design, Settings())
    assert [row[0] for row in rows] == [*design.circuit_names, "battery string", "bank, main leads"] == said["rows"]
    devices = {d.key: d for d in data.protective_devices()}
    for i, row in enumerate(rows):
        device = devices[said["devices"][i]]
        assert row[-1] == device.label
        assert device.dc_voltage_v >= said["voltage_most_by_row_v"][i]
        assert device.interrupting_a >= said["fault_by_row_a"][i]
        assert device.size_from_a <= said["fuse_by_row_a"][i] <= device.size_to_a
        assert row[1] == show("fuse_by_row_a", said["fuse_by_row_a"][i], figures=3)
        assert row[4] == show("fault_by_row_a", said["fault_by_row_a"][i], figures=3)
        assert len(row) == len(heads)


@every_demo
def test_what_gives_way_is_listed_first_one_first(designs, read, name):
    found = [g for g in gives_way(designs[name]) if g.at_load_factor is not None]
    _, *rows = side_tables.growth_rows(designs[name], Settings())
    assert [row[0].lower() for row in rows] == [g.label.lower() for g in found]
    assert [g["at_load_factor"] for g in read[name]["gives_way"]][: len(found)] == [g.at_load_factor for g in found]
    assert all("× the load" in row[1] for row in rows)


@every_demo
def test_every_unit_of_the_chemistry_is_compared_the_design_s_own_among_them(designs, read, name):
    design = designs[name]
    _, *rows = side_tables.bank_rows(design, Settings())
    units = [u.label for u in data.battery_units() if u.chemistry == design.plan.choices.chemistry]
    assert sorted(row[0] for row in rows) == sorted(units)
    own = next(row for row in rows if row[0] == design.parts.battery_unit.label)
    assert own[2] == show("bank_ah", design.system["bank_ah"], figures=3)
    assert own[3] == show("autonomy_given_days", design.system["autonomy_given_days"], figures=3)
    assert {o["unit"] for o in read[name]["bank_options"]} == {
        u.key for u in data.battery_units() if u.chemistry == design.plan.choices.chemistry
    }


@every_demo
def test_three_placements_of_leads_where_there_is_more_than_one_string(designs, read, name):
    design = designs[name]
    _, *rows = side_tables.sharing_rows(design, Settings())
    assert len(rows) == len(read[name]["sharing"]) == (3 if design.system["strings_count"] > 1 else 0)
    for placement, numbers in read[name]["sharing"].items():
        assert numbers["hardest_share_frac"] >= 1 / design.system["strings_count"] - 1e-12
        assert placement != "bus bars" or numbers["extra_share_frac"] == pytest.approx(0, abs=1e-12)


@every_demo
def test_the_curve_of_the_json_adds_up_to_its_months(read, name):
    for hours, day in zip(read[name]["curve_wh"], read[name]["given"]["battery_day_by_month_wh"], strict=True):
        assert sum(hours) == pytest.approx(day, rel=1e-9)


def test_the_amp_hour_form_stands_beside_the_watts_of_a_direct_controller(designs):
    assert [name for name, d in designs.items() if "The array by amp-hours" in d.more] == ["gull_mast"]
    solved = designs["gull_mast"].more["The array by amp-hours"]
    assert solved["design_load_ah"] == pytest.approx(designs["gull_mast"].system["design_load_wh"] / 12)


def test_a_bank_on_hand_is_compared_with_what_its_need_would_take(plans):
    """Its own count of units is no need: another unit is counted for the same amp-hours."""
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    bought = size(parse_plan(text))
    unit = bought.parts.battery_unit
    on_hand = f'[owned]\nbattery_unit = "{unit.key}"\nunits_count = {int(3 * bought.system["units_count"])}\n'
    design = size(parse_plan(f"{text}\n{on_hand}"))
    assert design.system["bank_ah"] == 3 * bought.system["bank_ah"]
    assert side_tables.bank_rows(design, Settings()) == side_tables.bank_rows(bought, Settings())
    assert json.dumps(as_json(design), allow_nan=False)
