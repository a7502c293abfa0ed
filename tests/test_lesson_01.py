"""Lesson 1: what is to be read from its panel is what the panel shows, and what its text says is so."""

import pytest

from offgrid_core.lab import loads_panel
from offgrid_core.practice import draw, slots
from offgrid_core.quantities import Settings
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore import one_day


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def test_the_panel_shows_both_ends_of_the_question(hut):
    panel, place = loads_panel(hut, "", Settings()), slots()["L01-explore"]
    ends = place.ends(draw(place))
    for idle_w, wanted in zip((12.0, 30.0), ends, strict=True):
        panel.set("inverter_idle_w", idle_w)
        assert panel.result.day["battery_day_wh"] == pytest.approx(wanted, rel=1e-12)
    assert dict(panel.parts.readouts(panel.result, panel.settings))["Out of the battery"] == "3\u2009060 Wh"


def test_the_free_minute_has_an_answer(hut):
    """Seventeen watts: from there on the inverter takes more than the lamps."""

    def leads(watts):
        energy = dict(one_day(hut, {"inverter_idle_w": float(watts)}).at_battery())
        return energy["inverter, only for being on"] > energy["lamps"]

    assert (leads(16), leads(17)) == (False, True)
