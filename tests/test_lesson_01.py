"""Lesson 1: what is to be read from its panel is what the panel shows, and what its text says is so."""

import re

import numpy as np
import pytest

from offgrid_core.lab import loads_panel, loads_table
from offgrid_core.practice import Answer, Problem, draw, mark, slots
from offgrid_core.practice.kinds import Backwards, Knob, Order, Rough
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.quantities import Settings, show
from offgrid_core.sizing import LOADS
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
    read = dict(panel.parts.readouts(panel.result, panel.settings))["Out of the battery"]
    assert read == "3\u2009060 Wh"
    answers = {**place.solution(draw(place), Settings()), READING: Answer(*read.rsplit(" ", 1))}
    assert mark(draw(place), answers).finished


def test_the_free_minute_has_an_answer(hut):
    """Seventeen watts: from there on the inverter takes more than the lamps."""

    def leads(watts):
        energy = dict(one_day(hut, {"inverter_idle_w": float(watts)}).at_battery())
        return energy["inverter, only for being on"] > energy["lamps"]

    assert (leads(16), leads(17)) == (False, True)


@pytest.mark.parametrize("growth", [1.0, 1.25, 1.5])
def test_the_bars_add_up_to_what_the_battery_gives(hut, growth):
    panel = loads_panel(hut, "", Settings())
    panel.set("growth_factor", growth)
    bars = panel.result.at_battery()
    assert sum(wh for _, wh in bars) == pytest.approx(float(panel.result.day["battery_day_wh"]), rel=1e-12)
    idle = dict(bars)["inverter, only for being on"]
    assert f"the inverter takes {idle:.0f} Wh only for being on" in panel.summary
    assert dict(panel.parts.readouts(panel.result, panel.settings))["Inverter idle"] == f"{idle:.0f} Wh"


def test_the_sentence_quotes_the_name_of_the_largest_row(hut):
    assert "The largest part goes to “fridge”: 831 Wh" in loads_panel(hut, "", Settings()).summary


@pytest.mark.parametrize("place", ["riverbend", "fell_hut", "gull_mast"])
def test_each_row_of_the_list_can_be_worked_again_from_the_table(plans, place):
    design = size(read_plan(plans / f"{place}.toml"))
    head, *rows = rows_of(loads_table(design).value)
    assert head[-5:] == [
        "hours a day",
        "share of those hours",
        f"use in {show('design_month', design.hardest_month)} against the usual",
        "while it waits",
        "energy on the busiest day",
    ]
    for row in rows:
        count, watts, hours, share, season, waits, energy = (figure(cell) for cell in row[2:])
        sleeps = count * waits * (24 - hours)
        assert count * watts * hours * share / 100 * season / 100 + sleeps == pytest.approx(energy, rel=1e-3), row[0]


def rows_of(page):
    return [re.findall(r"<t[hd][^>]*>([^<]*)<", row) for row in page.split("<tr>")[1:]]


def figure(cell):
    return float(re.match(r"[\d.]+", re.sub(r"[\u2009\u202f]|&nbsp;", "", cell))[0])


def test_of_a_line_that_is_right_by_itself_nothing_else_is_said():
    """Of the first line no earlier one is asked; on a page without a slip no line is said to follow from another."""
    place = slots()["L01-slip"]
    for problem in (draw(place, n) for n in range(12)):
        planted = place.planted(problem)
        lines = list(place.sheet)
        for i, line in enumerate(lines):
            if planted and line == planted[1]:
                continue
            (said,) = mark(problem, {"which": Answer(line)}).feedback
            assert "agrees with its own inputs" in said
            if planted is None:
                assert said.endswith("Does every other line?")
            else:
                assert ("earlier" in said) == (i > lines.index(planted[1]))
    assert len({place.planted(draw(place, n)) is None for n in range(12)}) == 2


def saved(hut, **moved):
    """Return the watt-hours that one change takes off the battery's day."""
    given = {n: hut.loads[n] for n in LOADS.upto("battery_day_wh").inputs}
    names = [row.name for row in hut.plan.load]
    after = dict(given)
    for name, (row, value) in moved.items():
        after[name] = np.array(np.broadcast_to(given[name], len(names)), float)
        after[name][names.index(row)] = value
    return float(hut.loads["battery_day_wh"] - LOADS.upto("battery_day_wh").solve(after)["battery_day_wh"])


def test_the_saving_that_is_worth_most_is_the_one_that_never_sleeps(hut):
    place = slots()["L01-saving"]
    idle = float(hut.loads["battery_day_wh"]) - one_day(hut, {"inverter_idle_w": 6.0}).day["battery_day_wh"]
    assert idle == pytest.approx(144)
    assert "144 Wh" in next(o.because for o in place.options if o.right)
    pump = saved(hut, power_by_row_w=("water pump", 250))
    lamps = saved(hut, power_by_row_w=("lamps", 5))
    assert 0 < pump < lamps < idle


def test_every_kind_of_its_block_is_there():
    """Worked sums, an order, a ranking, one backwards, one roughly, a page with a slip."""
    own = [s for s in slots().values() if s.lesson == "L01" and not s.quiz]
    assert {"order", "knob", "backwards", "rough", "slip", "guess", "rise", "work", "faded", "choose"} == {
        s.kind for s in own
    }


def test_two_orders_are_right_and_dividing_the_dc_sum_is_not():
    (place,) = [s for s in slots().values() if s.lesson == "L01" and isinstance(s, Order)]
    solution = place.solution(draw(place), Settings())
    swapped = {**solution, "idle": solution["dc"], "dc": solution["idle"]}
    assert mark(draw(place), swapped).finished
    assert not mark(draw(place), {**solution, "both": Answer("6")}).finished


def test_the_ranking_follows_the_watt_hours_that_hang_on_each():
    (place,) = [s for s in slots().values() if s.lesson == "L01" and isinstance(s, Knob)]
    problem = Problem(place, {**place.given, **place.curated}, "by hand")
    first, *_ = place.ranked(problem)
    assert first == "inverter_eff_frac"
    assert place.elasticity(problem)["standby_by_row_w"] > place.elasticity(problem)["inverter_idle_w"]


def test_what_is_left_for_the_sockets_by_hand():
    """2300 Wh − 600 Wh DC − 11 W × 24 h = 1436 Wh into the inverter; 75 % of it is 1077 Wh."""
    (place,) = [s for s in slots().values() if s.lesson == "L01" and isinstance(s, Backwards) and not s.quiz]
    problem = Problem(place, {**place.given, **place.curated}, "by hand")
    assert mark(problem, {"ac_day_wh": Answer("1077", "Wh")}).finished
    assert not mark(problem, {"ac_day_wh": Answer("1436", "Wh")}).finished


def test_a_fridge_from_what_one_knows_comes_near_the_one_of_the_plan(hut):
    (place,) = [s for s in slots().values() if s.lesson == "L01" and isinstance(s, Rough)]
    fridge = next(row for row in hut.plan.load if row.name == "fridge")
    bands = {f.name: f for f in place.factors}
    assert bands["power_by_row_w"].holds(fridge.power_w)
    assert bands["duty_by_row_frac"].holds(fridge.duty_frac)
    assert bands["inverter_eff_frac"].holds(hut.loads["inverter_eff_frac"])


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L01" and s.quiz != "entry"]
    for id_ in ("LD-04", "LD-08", "LD-13", "LD-14", "LD-15", "LD-16", "LD-19"):
        assert len({s.id for s in own for t in s.templates if id_ in mistakes_of(t)}) >= 3, id_


def mistakes_of(slot):
    return {*slot.mistakes, *(o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ())))}
