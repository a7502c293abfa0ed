"""Lesson 5: what is to be read from its panel is what the panel shows, and what its text says is so."""

import pytest

from offgrid_core.lab import temperature_panel
from offgrid_core.practice import draw, slots
from offgrid_core.quantities import Settings
from offgrid_core.system import read_plan, size, whole_chain


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def test_the_panel_shows_both_ends_of_the_question(hut):
    panel, place = temperature_panel(hut, "", Settings()), slots()["L05-explore"]
    given = place.given
    assert (given["unit_v"], given["unit_ah"]) == (hut.parts.battery_unit.unit_v, hut.parts.battery_unit.unit_ah)
    assert given["bank_warm_wh"] == pytest.approx(hut.system["bank_warm_wh"], rel=1e-6)
    for temp_c, count in zip((-8.0, -12.0), place.ends(draw(place)), strict=True):
        panel.set("battery_temp_c", temp_c)
        assert panel.result.at("units_count") == count
    assert dict(panel.parts.readouts(panel.result, panel.settings))["Battery units"] == "24"


def test_the_third_string_comes_below_nine_degrees_of_frost(hut):
    strings = {t: whole_chain(hut, {"battery_temp_c": float(t)}).at("strings_count") for t in range(-20, 1)}
    assert min(t for t, n in strings.items() if n == 2) == -9
    assert strings[-10] == 3


def test_temperatures_of_the_text(hut):
    """40 °F is 4.4 °C; the label holds at 25 °C; the shed at −8 °C is 33 K below it."""
    assert round((40 - 32) / 1.8, 1) == 4.4
    assert 25 - hut.given["battery_temp_c"] == 33
    at_label = hut.system.sheet.solve({**hut.given, "battery_temp_c": 25.0})
    assert at_label["absorb_set_v"] == at_label["cells_count"] * at_label["absorb_cell_v"]
