"""The depth lesson: its reading is the panel's, its picture the sums, its new lines are held to sums by hand."""

import numpy as np
import pytest
from panel_checks import set_to

from offgrid_core.data import cycle_life, freezing_of_gravity, gravity_of_charge
from offgrid_core.figures.depth import make, tables
from offgrid_core.lab import depth_panel
from offgrid_core.practice import draw, slots
from offgrid_core.practice.kinds import Choose
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.quantities import Settings
from offgrid_core.sizing.depth_teaching import AT_HOURS, BY_PEUKERT, DEPTH_LIFE, HOW_FULL, LABEL_HOURS, WARM
from offgrid_core.sizing.life import LIFE
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_depth import depth_view

FOCUS = ("DD-01", "DD-02", "DD-03", "DD-05", "DD-06", "DD-10", "DD-12")


@pytest.fixture(scope="module")
def places(plans):
    return {n: size(read_plan(plans / f"{n}.toml")) for n in ("fell_hut", "riverbend", "gull_mast")}


@pytest.fixture(scope="module")
def hut(places):
    return places["fell_hut"]


def panel_of(design, **moved):
    return set_to(depth_panel(design, "", Settings()), **moved)


def readouts(panel):
    return dict(panel.parts.readouts(panel.result, panel.settings))


# ---- the reading, and what the prose says of the panel


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L04-explore"])
    panel = panel_of(hut, depth_frac=problem.given["depth_frac"])
    assert readouts(panel)["Bank needed"] == "455 Ah"
    panel.set("depth_frac", problem.given["depth_after_frac"])
    answer = problem.slot.solution(problem, Settings())[READING]
    assert readouts(panel)["Bank needed"] == f"{float(answer.text):.3g} {answer.unit}" == "909 Ah"


def test_given_of_the_question_is_the_hut_as_its_panel_opens(hut):
    given = slots()["L04-explore"].given
    for name in ("energy_day_wh", "autonomy_days", "kept_frac", "bank_voltage_v"):
        assert given[name] == pytest.approx(float(hut.system[name]), rel=3e-4), name


def test_a_deep_limit_saves_lead_and_buys_it_again(hut):
    """At 80 % the hut buys 455 Ah for 6.5 years, at 55 % 661 Ah for 9.6; a kWh costs 0.53 and 0.52, at 40 % 0.69."""
    deep, middle, shallow = (readouts(panel_of(hut, depth_frac=d)) for d in (0.8, 0.55, 0.4))
    assert [r["Bank needed"] for r in (deep, middle, shallow)] == ["455 Ah", "661 Ah", "909 Ah"]
    assert [r["Life"] for r in (deep, middle, shallow)] == ["6.54 years", "9.6 years", "10 years"]
    assert [r["Price of a kWh"] for r in (deep, middle, shallow)] == ["0.527", "0.522", "0.688"]


def test_the_price_is_much_flatter_than_the_cycles():
    """Of a flooded bank the cycles fall to an eleventh at 80 %, what comes out in all from 290 to 208 labels."""
    for chemistry in ("flooded", "agm", "gel", "lfp"):
        table = cycle_life(chemistry)
        cycles = np.array([float(table(d)) for d in (0.1, 0.8)])
        through = cycles * (0.1, 0.8)
        assert cycles[0] / cycles[1] > 9
        assert 1 < through[0] / through[1] < 1.5
        if chemistry == "flooded":
            assert round(cycles[0] / cycles[1]) == 11
            assert [round(x) for x in through] == [290, 208]


def test_every_night_to_the_limit_wears_a_bank_out_in_a_year(hut):
    panel = panel_of(hut, autonomy_days=1.0, battery_temp_c=25.0, depth_frac=0.8)
    assert readouts(panel)["Hardest day takes"] == "80 %"
    assert readouts(panel)["Life"] == "0.712 years"
    assert "Cycles end it after 0.712 years" in panel.summary


def test_the_warmth_of_a_life_starts_at_a_number_that_can_be_read(hut):
    (warmth,) = (c for c in depth_panel(hut, "", Settings()).parts.more if c.name == "life_temp_c")
    assert warmth.box.value == 5.7
    assert len(warmth.slider.description) <= 30


def test_a_bank_emptied_to_its_limit_every_night_pays_for_half_the_lead(hut):
    """At 80 % a night it stands 260 cycles in place of 632; a kWh through it costs about a fifth more."""
    shallow, deep = (readouts(panel_of(hut, autonomy_days=1.0, battery_temp_c=25.0, depth_frac=d)) for d in (0.4, 0.8))
    assert (shallow["Hardest day takes"], deep["Hardest day takes"]) == ("40 %", "80 %")
    assert (shallow["Cycles of that depth"], deep["Cycles of that depth"]) == ("632", "260")
    assert 632 / 260 > 2
    assert float(deep["Price of a kWh"]) / float(shallow["Price of a kWh"]) == pytest.approx(1.2, abs=0.02)
    place = slots()["L04-deeper"]
    (right,) = (o for o in place.options if o.right)
    assert "every night" in place.statement
    assert "more than twice as soon" in right.text
    assert "260 cycles in place of 632" in right.because
    assert "a fifth more" in right.because


def test_the_hours_of_the_label_move_the_label_and_not_the_bank(hut):
    before, after = (readouts(panel_of(hut, capacity_hours_h=h)) for h in (20.0, 100.0))
    assert before["Bank needed"] == after["Bank needed"] == "727 Ah"
    assert before["On a label of 20 h"] == "727 Ah"
    assert after["On a label of 100 h"] == "802 Ah"
    assert before["Life"] == after["Life"]


def test_slower_than_the_label_is_not_credited(hut):
    view = depth_view(hut, {**panel_of(hut).inputs})
    assert view.label["capacity_hours_ratio"] == pytest.approx(1.186, abs=5e-4)
    assert view.label["label_at_hours_ah"] == view.chain["bank_needed_ah"]
    assert "no faster than its label" in panel_of(hut).summary


def test_what_the_cold_takes_and_slow_discharge_gives_back(hut):
    """The cold takes 40 % of the label; a fifth comes back where 56 h empty the bank."""
    assert float(hut.system["kept_frac"]) == pytest.approx(0.60, abs=5e-3)
    assert float(hut.system["functional_hours_h"]) == pytest.approx(56, abs=0.5)
    assert (56 / 20) ** (1 - 1 / hut.given["peukert_exponent"]) == pytest.approx(1.19, abs=5e-3)


def test_acid_of_an_emptied_bank_freezes_sooner():
    """Source: US Army TM 5-1185 and TM 10-6140-200-14, by the tables of the data folder."""
    gravity, freezes = gravity_of_charge("deep_cycle_1265"), freezing_of_gravity()
    full, half, flat = (float(freezes(float(gravity(1 - d)))) for d in (0, 0.5, 0.8))
    assert full < -50 < half < -20 < flat < -10


# ---- the picture and the sentence


def test_too_deep_is_marked_and_said(hut):
    panel = panel_of(hut, depth_frac=0.9)
    assert panel.summary.startswith("Too deep for this chemistry.")
    region = panel.static().data[0]
    assert min(region.x) == pytest.approx(80)
    assert region.fillpattern.shape
    assert "too" in region.text[0]
    assert not panel_of(hut, depth_frac=0.8).summary.startswith("Too deep")


def test_the_drawn_curves_are_the_computed_ones(places):
    for design in places.values():
        view = panel_of(design, capacity_hours_h=100.0).result
        drawn = {t.name: t for t in make(view, Settings()).data if t.mode == "lines" and t.x is not None}
        for name, line in {
            "bank needed": "bank_needed_ah",
            "as written on a label of 100 hours": "label_at_hours_ah",
            "worn out by cycles": "cycle_life_years",
            "worn out by age": "calendar_life_years",
            "whichever comes first": "bank_life_years",
            "price of a kWh": "through_kwh_cost",
        }.items():
            np.testing.assert_array_equal(drawn[name].y, view.along(line), err_msg=name)
        rows = tables(view, Settings())[0].rows(Settings())
        assert len(rows) == 1 + len(view.depths)


def test_one_point_of_the_curves_is_the_setting_there(hut):
    view = panel_of(hut).result
    for i in (0, 35, 70):
        alone = depth_view(hut, {**panel_of(hut).inputs, "depth_frac": float(view.depths[i])})
        for name in ("bank_life_years", "through_kwh_cost"):
            assert view.along(name)[i] == pytest.approx(float(alone.life[name]), rel=1e-12)
        assert view.along("label_at_hours_ah")[i] == pytest.approx(float(alone.label["label_at_hours_ah"]), rel=1e-12)


def test_pins_stay_in_all_three_pictures(hut):
    panel = panel_of(hut)
    panel.pin()
    panel.set("autonomy_days", 2.0)
    pinned = [t for t in panel.static().data if t.name.startswith("4 days") and t.visible]
    assert len(pinned) == 3
    assert [t.showlegend for t in pinned] == [True, False, False]


# ---- the new lines, against sums by hand and the lines they are made of


def test_how_full_by_hand():
    """23 A for 8 h out of 640 Ah: 184 Ah, 28.75 % deep, 71.25 % left."""
    solved = HOW_FULL.solve({"load_a": 23, "load_h": 8, "bank_ah": 640})
    assert [float(solved[n]) for n in HOW_FULL] == pytest.approx([184, 0.2875, 0.7125])


def test_label_in_watt_hours_by_hand():
    """118 Wh for 10 days, 0.8 of 12 V: 1180 Wh, 1475 Wh, 122.9 Ah."""
    given = {"energy_day_wh": 118, "autonomy_days": 10, "depth_frac": 0.8, "bank_voltage_v": 12}
    assert [float(WARM.solve(given)[n]) for n in WARM] == pytest.approx([1180, 1475, 122.92], rel=1e-4)


@pytest.mark.parametrize(("exponent", "share"), [(1.1, 0.8816), (1.2, 0.7937), (1.3, 0.7262)])
def test_usable_at_hours(exponent, share):
    """Source: Peukert's law, C5/C20 (PEU-009, 011, 013; from memory, computed there); half of it may be used."""
    given = {"functional_hours_h": 5, "capacity_hours_h": 20, "peukert_exponent": exponent, "bank_ah": 100}
    solved = BY_PEUKERT.solve({**given, "depth_frac": 0.5})
    assert float(solved["usable_ah"]) == pytest.approx(50 * share, rel=1e-4)
    assert list(AT_HOURS) == list(BY_PEUKERT)[1:]


@pytest.mark.parametrize(("exponent", "share"), [(1.1, 1.158), (1.2, 1.308), (1.3, 1.450)])
def test_a_label_of_a_hundred_hours_by_the_published_ratio(exponent, share):
    """Source: C100/C20 (PEU-010, 012, 014; from memory, computed there): 100 Ah wanted in 20 h want that much on it."""
    given = {"bank_needed_ah": 100, "running_current_a": 5, "capacity_hours_h": 100, "peukert_exponent": exponent}
    assert float(LABEL_HOURS.solve(given)["label_at_hours_ah"]) == pytest.approx(100 * share, rel=1e-3)


def life(**changed):
    given = {
        "bank_needed_ah": 100,
        "bank_voltage_v": 10,
        "energy_day_wh": 500,
        "cycle_life": cycle_life("flooded"),
        "cycle_depth_least_frac": 0.1,
        "cycles_year_count": 365,
        "float_life_years": 10,
        "life_temp_c": 25,
        "life_table_c": 25,
        "halving_k": 10,
        "unit_cost": 200,
        "unit_v": 10,
        "unit_ah": 100,
    }
    return DEPTH_LIFE.solve(given | changed)


def test_life_and_price_by_hand():
    """1000 Wh, half of it a day: 480 cycles, 1.315 years, 240 kWh in all for 200: 0.833 a kWh."""
    solved = life()
    assert float(solved["bank_life_years"]) == pytest.approx(480 / 365)
    assert float(solved["through_kwh_cost"]) == pytest.approx(200 / 240)


def test_life_is_the_worksheets_own_where_the_table_reaches():
    solved = life()
    of_bank = {n: solved[n] for n in LIFE.inputs if n != "bank_wh"}
    by_year = LIFE.solve(of_bank | {"bank_wh": float(solved["label_wh"])})
    assert float(solved["bank_life_years"]) == pytest.approx(float(by_year["bank_life_years"]))


def test_shallower_than_the_table_gives_no_more_energy_than_its_shallowest_depth():
    """50 Wh of 1000 Wh a day: 2900 cycles of 100 Wh are 5800 of 50 Wh, and age comes first."""
    solved = life(energy_day_wh=50)
    assert float(solved["cycle_life_years"]) == pytest.approx(5800 / 365)
    assert float(solved["bank_life_years"]) == 10


def test_warmth_brings_age_forward():
    """Halving for each 10 K (LIF-003, from memory): 10 years at 25 °C are 5 at 35 °C."""
    assert float(life(energy_day_wh=50, life_temp_c=35)["bank_life_years"]) == pytest.approx(5)


# ---- the problems


@pytest.mark.parametrize("id_", FOCUS)
def test_each_mistake_in_focus_is_met_several_times(id_):
    def meets(slot):
        wrong = {o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))}
        return id_ in slot.mistakes or id_ in wrong

    own = [t for s in slots().values() if s.lesson == "L04" for t in s.templates]
    assert sum(map(meets, own)) >= 5


def test_the_prose_of_the_choices():
    """700 cycles at 100 a year are 7 years; over 365, or the other way up, they are what the wrong ones say."""
    place = slots()["L04-exit-4"]
    weekend = next(t for t in place.templates if t.title == "Weekends only")
    assert isinstance(weekend, Choose)
    assert [round(x, 1) for x in (700 / 100, 700 / 365, 700 / (100 / 365))] == [7.0, 1.9, 2555.0]
    assert [o.text[:4] for o in weekend.options] == ["7 ye", "1.9 ", "half", "2555"]
    half_a_year = 700 / 365 * (100 / 365)
    assert half_a_year == pytest.approx(0.5, abs=0.03)


def test_the_numbers_of_the_trade_in_the_last_table(hut):
    """Lead-acid 80 %, iron phosphate 85 %; 10 years until old: as the data folder has them."""
    assert hut.given["depth_max_frac"] == 0.8
    assert hut.given["float_life_years"] == 10
