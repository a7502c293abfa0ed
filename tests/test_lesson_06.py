"""The strings lesson: its reading is the panel's, its picture the sums, its new lines are held to sums by hand."""

import numpy as np
import pytest
from panel_checks import readout, set_to

from offgrid_core import data
from offgrid_core.figures.strings import make
from offgrid_core.lab import strings_panel
from offgrid_core.practice import Problem, draw, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.slots.l06_exit import slots as exit_slots
from offgrid_core.practice.slots.l06_judge_more import judge
from offgrid_core.quantities import Settings
from offgrid_core.sizing.sharing import share_current
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.strings_teaching import AS_WIRED, STRING_RULES, WHOLE_ROW
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_strings import units_in_rows

FOCUS = {"ST-02", "ST-03", "ST-04", "ST-05", "ST-08", "ST-09", "ST-11"}


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def clinic(plans):
    return size(read_plan(plans / "riverbend.toml"))


def panel_of(design, **moved):
    return set_to(strings_panel(design, "", Settings()), **moved)


# ---- the reading, and what the prose says of the panel


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L06-explore"])
    panel = panel_of(hut)
    before = {n: problem.given[n] for n in ("owned_units_count", "units_in_series_count")}
    assert before == {n: panel.inputs[n] for n in before}, "the panel opens where the question begins"
    assert panel.result.unit.unit_ah == problem.given["unit_ah"]
    panel.set("units_in_series_count", problem.given["units_in_series_after_count"])
    answer = problem.slot.solution(problem, Settings())[READING]
    assert readout(panel, "Capacity") == f"{answer.text} {answer.unit}" == "1\u2009520 Ah"


def test_moving_rows_keeps_the_energy_and_a_length_that_does_not_divide_leaves_units_over(hut):
    energies = {readout(panel_of(hut, units_in_series_count=n), "Energy on the label") for n in (1, 2, 4, 8, 16)}
    assert len(energies) == 1
    odd = panel_of(hut, units_in_series_count=5)
    assert readout(odd, "Left over") == "1"
    assert "Left over, in no string: 1." in odd.summary
    assert "the system is for 48 V" in odd.summary
    assert "no bank stands here" in panel_of(hut, units_in_series_count=17).summary
    assert "Nothing of this system" not in panel_of(hut).summary


def test_only_strings_have_numbers(hut):
    def numbers(**moved):
        axes = panel_of(hut, **moved).static().layout
        assert list(axes.yaxis.tickvals) == list(axes.yaxis2.tickvals)
        return list(axes.yaxis.tickvals)

    assert numbers(units_in_series_count=5) == [1, 2, 3], "a fourth row holds what is left over"
    assert numbers(units_in_series_count=17) == []
    assert numbers(owned_units_count=18, units_in_series_count=1) == [1, 5, 9, 13, 17]
    pinned = panel_of(hut, units_in_series_count=4)
    pinned.pin()
    pinned.set("units_in_series_count", 16)
    assert list(pinned.static().layout.yaxis.tickvals) == [1, 2, 3, 4]


def test_one_unit_alone_is_told_as_one(hut):
    assert panel_of(hut, owned_units_count=1).summary.endswith("and it may not be connected to the system.")
    assert panel_of(hut, owned_units_count=7).summary.endswith("and none of them may be connected to the system.")


def test_opposite_corners_even_the_clinics_strings_out(clinic):
    same, corners, bars = (panel_of(clinic, placement=p) for p in ("same end", "diagonal", "bus bars"))
    assert [readout(p, "Over an equal share") for p in (same, corners, bars)] == ["77.2 %", "10.5 %", "0 %"]
    assert "With both main leads at string 1, the hardest-worked string carries 77.2 % more" in same.summary


def test_thicker_links_even_out_as_well(clinic):
    extra = [float(readout(panel_of(clinic, link_ohm=x), "Over an equal share")[:-2]) for x in (0.0001, 0.0005, 0.002)]
    assert extra == sorted(extra)


def test_the_shares_of_the_panel_are_those_of_the_network(clinic):
    view = units_in_rows(clinic, panel_of(clinic, placement="diagonal").inputs)
    ohm = view.wired["unit_v"] / 12 * 6 * clinic.given["cell_resistance_ohm_ah"]
    ohm *= 12 / (490 * clinic.system["kept_frac"])
    wanted = share_current("diagonal", 3, 1.0, ohm, link_ohm=clinic.system["link_ohm"])
    assert view.shares == pytest.approx(wanted.share_by_string_frac)


# ---- the picture


def test_every_unit_is_drawn_once_and_the_left_over_ones_apart(hut):
    view = panel_of(hut, owned_units_count=29.0, units_in_series_count=8.0).result
    figure = make(view, Settings())
    units, loose = (next(t for t in figure.data if t.name.startswith(n)) for n in ("battery unit", "left over"))
    places = set(zip(units.x, units.y, strict=True))
    assert len(places) == len(units.x) == 24
    assert places == {(i, j) for i in range(1, 9) for j in range(1, 4)}
    assert len(loose.x) == 5
    assert min(loose.y) > max(units.y)


def test_where_no_string_stands_there_are_no_volts(hut):
    panel = panel_of(hut, owned_units_count=1, units_in_series_count=24)
    assert "1 unit makes no whole string" in panel.summary
    assert list(dict(panel.parts.readouts(panel.result, panel.settings))) == ["Strings", "Left over"]
    assert "2 units make no" in panel_of(hut, owned_units_count=2, units_in_series_count=24).summary


def test_bars_are_written_on_while_they_are_tall_enough(hut):
    for strings, written in ((12, 12), (13, 0)):
        panel = panel_of(hut, owned_units_count=strings, units_in_series_count=1)
        bars = next(t for t in make(panel.result, Settings()).data if t.name.startswith("share of a string"))
        assert len(bars.text or ()) == written


@pytest.mark.parametrize(
    ("placement", "rows"), [("same end", (1, 1)), ("diagonal", (4, 1)), ("bus bars", (2.5, 2.5))], ids=str
)
def test_main_leads_are_drawn_where_they_are_taken(hut, placement, rows):
    view = panel_of(hut, owned_units_count=32.0, placement=placement).result
    leads = next(t for t in make(view, Settings()).data if t.name == "main leads")
    assert tuple(leads.y) == rows
    assert leads.x[0] < 1 < 8 < leads.x[1]


def test_bars_show_the_shares_and_cross_out_those_above_what_is_accepted(clinic):
    for placement in ("same end", "diagonal"):
        view = panel_of(clinic, placement=placement).result
        bars = next(t for t in make(view, Settings()).data if t.name.startswith("share"))
        assert bars.x == pytest.approx(100 * np.array(view.shares))
        most = 1.1 / 3
        assert bars.marker.pattern.shape == tuple("+" if share > most else "" for share in view.shares)


def test_pins_mark_the_shares_of_another_setting(clinic):
    panel = panel_of(clinic)
    panel.pin()
    panel.set("placement", "bus bars")
    mark = panel.static().data[-3]
    assert (mark.visible, mark.name) == (True, "3 × 12, same end")
    assert mark.x == pytest.approx([59.06, 26.32, 14.63], abs=0.01)


def test_a_panel_opens_with_the_units_of_its_own_chemistry(clinic):
    (menu,) = [c for c in strings_panel(clinic).parts.controls if c.name == "unit"]
    kinds = {u.key: u.chemistry for u in data.battery_units()}
    assert {kinds[key] for _, key in menu.menu.options} == {"gel"}


# ---- new lines


def test_units_in_rows_by_hand():
    """29 units of 6 V 225 Ah in strings of 8: three strings, 48 V, 675 Ah, 32 400 Wh, five left over."""
    given = {"owned_units_count": 29, "units_in_series_count": 8, "unit_v": 6, "unit_ah": 225, "bank_voltage_v": 48}
    solved = AS_WIRED.solve(given)
    names = ("strings_count", "wired_voltage_v", "bank_ah", "wired_wh", "left_over_count", "wired_margin_v")
    assert [float(solved[n]) for n in names] == [3, 48, 675, 32_400, 5, 0]
    assert AS_WIRED.solve({**given, "units_in_series_count": 7})["wired_margin_v"] == -6
    assert AS_WIRED.solve({**given, "units_in_series_count": 9})["wired_margin_v"] == -6


def test_rows_of_other_blocks_by_hand():
    """24 V from 16 V blocks: one fits, 16 V, and the inverter that stops at 20 V does not start."""
    short = WHOLE_ROW.solve({"bank_voltage_v": 24, "unit_v": 16, "inverter_cutoff_v": 20})
    assert (short["whole_row_v"], short["whole_row_margin_v"]) == (16, -4)
    whole = WHOLE_ROW.solve({"bank_voltage_v": 24, "unit_v": 8, "inverter_cutoff_v": 20})
    assert (whole["whole_row_v"], whole["whole_row_margin_v"]) == (24, 4)


SOUND = {
    "units_by_row_count": [8, 8, 8], "unit_v": 6, "bank_voltage_v": 48, "string_fuses_count": 3, "strings_count": 3,
    "plus_lead_count": 1, "minus_lead_count": 3, "unit_by_row_ah": [225, 225, 225], "age_by_row_years": [1, 1, 2],
    "age_spread_max_years": 1, "strings_max_count": 3, "bank_needed_ah": 660,
}  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "broken"),
    [
        ({}, set()),
        ({"units_by_row_count": [8, 7, 8]}, {"string_voltage_margin_by_row_v"}),
        ({"units_by_row_count": [8, 8, 9]}, {"string_voltage_margin_by_row_v"}),
        ({"string_fuses_count": 1}, {"string_fuses_margin_count"}),
        ({"minus_lead_count": 1}, {"corner_margin_count"}),
        ({"plus_lead_count": 3, "minus_lead_count": 1}, set()),
        ({"unit_by_row_ah": [225, 225, 310]}, {"alike_margin_ah"}),
        ({"age_by_row_years": [1, 1, 3]}, {"age_margin_years"}),
        ({"bank_needed_ah": 680}, {"drawn_margin_ah"}),
        ({"strings_max_count": 2}, {"strings_margin_count"}),
    ],
    ids=str,
)
def test_each_rule_of_a_drawing_is_broken_by_what_it_is_about(changed, broken):
    solved = STRING_RULES.solve({**SOUND, **changed})
    assert {n for n, bad in solved.broken().items() if np.any(bad)} == broken


# ---- problems


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L06"]
    for id_ in FOCUS:
        places = {s.id for s in own for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}
        assert len(places) >= 3, id_


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L06" and s.id[4:].isdigit()]
    mixed = [s for s in practice if not set(s.sheet) & {*STRINGS, *AS_WIRED} and s.sheet]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_the_page_with_a_slip_goes_back_to_earlier_lessons_too():
    (slip,) = [s for s in judge() if s.kind == "slip"]
    assert {id_[:2] for id_ in slip.mistakes} == {"AU", "DD", "TE", "ST"}


def test_the_safety_rules_of_strings_are_gated_in_the_exit():
    dangers = [i for s in exit_slots() for t in s.templates for i in t.mistakes if i in ("ST-02", "ST-09")]
    assert {"ST-02", "ST-09"} <= set(dangers)


def test_the_drawing_can_break_every_rule_that_hurts_and_the_picture_of_it_is_sound_before():
    (drawing,) = [s for s in judge() if s.kind == "drawing"]
    drawn = [drawing.drawn(draw(drawing, n)) for n in range(30)]
    dangers = {r.id for r in drawn[0].rules if drawn[0].is_danger(r)}
    assert dangers <= {r for d in drawn for r in d.broken}
    assert {len(d.planted) for d in drawn} == {0, 1, 2, 3}


def test_a_unit_costs_by_its_size():
    """A unit of 6 V and 900 Ah once cost as much as one of 225 Ah. Prices of a kWh on the label: invented."""
    (pick,) = [s for s in judge() if s.kind == "pick"]
    for n in range(12):
        parts = pick.table(draw(pick, n))
        kwh = parts["unit_v"] * parts["unit_ah"] / 1000
        assert (parts["unit_cost"] >= 120 * kwh).all()
        assert (parts["unit_cost"] < 290 * kwh + 10).all()
        assert (parts["unit_cost"] % 10 == 0).all()
        assert "unit_kwh_cost" not in parts


def test_the_cheapest_unit_may_be_bound_by_more_than_one_limit():
    (pick,) = [s for s in judge() if s.kind == "pick"]
    problems = [draw(pick, n) for n in range(12)]
    assert {p.slot.judged(p).binding(p.slot.judged(p).best).name for p in problems} == {
        "whole_row_margin_v",
        "discharge_margin_a",
    }
    table = pick.judged(Problem(pick, problems[0].given, problems[0].seed))
    assert (table.margin["whole_row_margin_v"] < 0).any(), "a row that does not come out whole is among them"
