"""Lesson 5: what is to be read from its panel is what the panel shows, and what its text says is so."""

import pytest

from offgrid_core.lab import temperature_panel
from offgrid_core.practice import Answer, draw, mark, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.slots.l05_temperature_more import mixed, offers
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
    read = dict(panel.parts.readouts(panel.result, panel.settings))["Battery units"]
    assert read == "24"
    assert mark(draw(place), {**place.solution(draw(place), Settings()), READING: Answer(read)}).finished


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


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L05" and s.id[4:].isdigit()]
    others = {s.id for s in mixed()}
    assert others <= {s.id for s in practice}
    assert 3 * len(others) >= len(practice)
    cold = {"kept_frac", "bank_cold_wh", "for_cold_ah", "battery_temp_c", "absorb_set_v"}
    assert not any(cold & {*s.sheet} for s in mixed())
    assert not any("lesson" in s.title + s.statement for s in mixed())


def test_the_cheapest_bank_is_not_always_bound_by_the_same_limit_and_charging_in_the_cold_rules_some_out():
    pick = offers()
    judged = [p.slot.judged(p) for p in (draw(pick, n) for n in range(12))]
    assert len({j.binding(j.best).name for j in judged}) >= 2
    assert all((j.margin["charge_temp_margin_k"] < 0).any() for j in judged)


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L05" and s.quiz != "entry"]
    for id_ in ("TE-01", "TE-02", "TE-07", "TE-08", "TE-09", "TE-13", "TE-14", "TE-16"):
        assert len({s.id for s in own for t in s.templates if id_ in mistakes_of(t)}) >= 2, id_


def mistakes_of(slot):
    return {*slot.mistakes, *(o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ())))}
