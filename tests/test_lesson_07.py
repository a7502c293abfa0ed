"""Lesson 07, array and design month: what its text says, what its panel shows, and its lines against hand sums."""

import json
from pathlib import Path

import numpy as np
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.figures import palette
from offgrid_core.lab import array_panel
from offgrid_core.practice import draw, slots
from offgrid_core.quantities import Settings, say
from offgrid_core.sizing.array_teaching import ON_THE_ROOF, SEASONS, SUN_READ
from offgrid_core.sizing.orientation import year_mean_kwh_m2
from offgrid_core.sizing.sky import plane_kwh_m2
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_array import DEMANDS, months, winter_half, winter_share

LESSON = Path(__file__).resolve().parents[1] / "lessons" / "07_array.ipynb"
#: The puzzle's table, as it stands in the lesson.
SUN = np.array([3.3, 4.1, 4.3, 4.1, 4.1, 4.1, 4.3, 4.3, 4.2, 3.7, 2.9, 2.8])
LOAD = np.array([400, 400, 450, 600, 800, 1000, 1500, 1550, 1400, 1400, 600, 450])
FOCUS = {f"AR-{n}" for n in ("01", "02", "03", "05", "06", "10", "14", "16", "18", "20", "21")}


@pytest.fixture(scope="module")
def places(plans):
    names = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
    return {name: size(read_plan(plans / f"{name}.toml")) for name in names}


@pytest.fixture(scope="module")
def cabin(places):
    return places["weekend_cabin"]


def shown(panel):
    return dict(panel.parts.readouts(panel.result, panel.settings))


class TestReadings:
    """What the slots ask to be read is what the real panel shows there."""

    def test_explore(self, cabin):
        slot = slots()["L07-explore"]
        problem = draw(slot)
        before, after = slot.ends(problem)
        panel = array_panel(cabin, "", Settings())
        assert panel.inputs["winter_share_frac"] == problem.given["winter_share_frac"] == round(winter_share(cabin), 2)
        assert shown(panel)["Array for the load"] == problem.shown("array_for_load_w", before, Settings(), 3) == "344 W"
        assert shown(panel)["Ruling month"] == "December"
        panel.set("winter_share_frac", problem.given["winter_share_after_frac"])
        assert shown(panel)["Array for the load"] == problem.shown("array_for_load_w", after, Settings(), 3) == "394 W"
        assert shown(panel)["Ruling month"] == "June"
        assert float(panel.result.point["array_for_load_w"]) == pytest.approx(after, rel=2e-4)
        assert (slot.direction(problem), slot.band(problem)) == ("up", 2)

    def test_guess_is_the_huts_december(self, places):
        problem = draw(slots()["L07-guess"])
        point = places["fell_hut"].system
        assert float(problem.key["array_by_month_w"]) == pytest.approx(float(point["array_for_load_w"]), rel=1e-3)

    def test_tilts_to_choose_from(self, cabin):
        given = slots()["L07-tilt"].given
        for which in ("flatter", "steep"):
            at = months(cabin, {"tilt_deg": given[f"{which}_deg"], "winter_share_frac": 0.5})
            assert round(float(np.mean(at.by_month("peak_sun_by_month_h"))), 2) == given[f"{which}_kwh_m2"]
            december = float(at.by_month("peak_sun_by_month_h")[11])
            assert round(december, 2) == given[f"{which}_december_kwh_m2"]
            assert at.ruling == 12

    def test_every_mistake_in_focus_is_in_several_slots(self):
        counts = dict.fromkeys(FOCUS, 0)
        for slot in slots().values():
            if slot.lesson == "L07":
                own = {i for t in slot.templates for i in (*t.mistakes, *t.tempting(draw(t)))}
                for id_ in FOCUS & own:
                    counts[id_] += 1
        assert min(counts.values()) >= 3, counts


class TestText:
    """Claims of the prose that no cell of the lesson asserts."""

    def test_the_puzzle(self):
        asked = LOAD / SUN
        assert np.argmax(asked) == 9
        assert np.argmin(SUN) == 11
        assert np.argmax(LOAD) == 7
        assert set(np.flatnonzero(450 / 2.8 * SUN < LOAD - 1)) == {4, 5, 6, 7, 8, 9, 10}
        assert set(np.flatnonzero(1550 / 4.3 * SUN < LOAD - 1)) == {9}
        assert not np.any(1550 / 2.8 * SUN < LOAD - 1)
        source = json.loads(LESSON.read_text(encoding="utf-8"))["cells"]
        cells = "\n".join("".join(c["source"]) for c in source)
        assert str(SUN.tolist()) in cells
        assert str(LOAD.tolist()) in cells

    def test_the_largest_of_three_is_never_the_load(self, places):
        decides = {n: max(DEMANDS, key=lambda d: float(places[n].system[d])) for n in places if n != "weekend_cabin"}
        refill = "array_for_refill_w"
        assert decides == {"fell_hut": refill, "riverbend": "array_for_current_w", "gull_mast": refill}
        clinic = places["riverbend"].system
        assert clinic["array_for_current_w"] > 2 * clinic["array_for_load_w"]

    def test_steeper_is_better_for_december_and_not_for_the_year(self, cabin):
        at = {t: months(cabin, {"tilt_deg": t, "winter_share_frac": 0.5}) for t in (30, 68)}
        year = {t: float(year_mean_kwh_m2(v.by_month("peak_sun_by_month_h"))) for t, v in at.items()}
        asked = {t: float(v.point["array_for_load_w"]) for t, v in at.items()}
        assert year[30] > 1.1 * year[68]
        assert 0.81 < asked[68] / asked[30] < 0.82

    def test_in_the_tropics_it_is_the_other_way_round(self, places):
        clinic = places["riverbend"]
        asked = [
            float(months(clinic, {"tilt_deg": t, "winter_share_frac": 0.5}).point["array_for_load_w"])
            for t in (0, 30, 60)
        ]
        assert asked == sorted(asked)

    def test_dirt_moves_every_month_alike_and_not_the_ruling_one(self, cabin):
        own = {"tilt_deg": 68.0, "winter_share_frac": 0.5}
        clean, dirty = (months(cabin, {**own, "soiling_frac": x}) for x in (0.0, 0.2))
        ratio = dirty.by_month("array_by_month_w") / clean.by_month("array_by_month_w")
        np.testing.assert_allclose(ratio, 1 / 0.8)
        assert clean.ruling == dirty.ruling


class TestPanel:
    def test_at_its_first_setting_it_is_the_design(self, places):
        for design in places.values():
            panel = array_panel(design, "", Settings())
            for line in (*DEMANDS, "array_needed_w", "design_month"):
                assert float(panel.result.point[line]) == pytest.approx(float(design.system[line]), rel=5e-3), line

    def test_every_slider_opens_on_a_step_of_its_own(self, places):
        """A page moves a slider that stands between two steps, and with it the reading."""
        for design in places.values():
            for control in (c for p in [array_panel(design, "", Settings()).parts] for c in (*p.controls, *p.more)):
                steps = (control.slider.value - control.slider.min) / control.slider.step
                assert steps == pytest.approx(round(steps), abs=1e-6), (design.plan.title, control.name)

    def test_picture_is_the_computation_and_marks_the_month_that_rules(self, cabin):
        panel = array_panel(cabin, "", Settings())
        panel.set("winter_share_frac", 0.2)
        panel.set("tilt_deg", 45.0)
        figure = panel.static()
        load, sun, asked, refill, current = figure.data[:5]
        point = panel.result.point
        np.testing.assert_array_equal(load.y, point["battery_mean_by_month_wh"])
        np.testing.assert_array_equal(sun.y, point["peak_sun_by_month_h"])
        np.testing.assert_array_equal(asked.y, point["array_by_month_w"])
        assert set(refill.y) == {float(point["array_for_refill_w"])}
        assert not current.visible, "an iron phosphate bank asks for no least current"
        marked = [i + 1 for i, word in enumerate(figure.layout.xaxis3.ticktext) if "rules" in word]
        assert marked == [panel.result.ruling] == [9]
        assert [i + 1 for i, shape in enumerate(asked.marker.pattern.shape) if shape] == marked
        assert list(panel._figure.data[2].y) == list(asked.y)

    def test_pins_are_dashed_and_named(self, cabin):
        panel = array_panel(cabin, "", Settings())
        panel.pin()
        panel.set("tilt_deg", 20.0)
        ghosts = panel.static().data[5:]
        assert [g.visible for g in ghosts] == [True, False, False]
        assert ghosts[0].name.startswith("tilt 68°")
        assert ghosts[0].line.dash in palette.GHOST_DASHES
        assert max(ghosts[0].y) < max(panel.result.by_month("array_by_month_w"))

    def test_sentence_names_the_months_and_what_decides(self, places):
        said = array_panel(places["riverbend"], "", Settings()).summary
        assert said.startswith("August rules")
        assert "largest load comes in March" in said
        assert "decided by the current that charges the bank well" in said
        assert "midwinter" not in said
        assert "midwinter sun" in array_panel(places["fell_hut"], "", Settings()).summary

    def test_numbers_stand_below_it(self, cabin):
        (table,) = array_panel(cabin, "", Settings()).tables
        rows = table.rows(Settings())
        assert len(rows) == 13
        assert rows[12][0] == "December"
        assert rows[12][-1] == "344"

    def test_winter_is_where_the_sun_is_not(self):
        north, south = winter_half(45.0), winter_half(-45.0)
        assert [say(f"month.{i + 1}") for i, x in enumerate(north) if x][:3] == ["January", "February", "March"]
        assert sum(north) == sum(south) == 6
        assert all(a + b == 1 for a, b in zip(north, south, strict=True))

    def test_nothing_to_move_is_said_in_words(self, cabin):
        with pytest.raises(OffgridError, match="winter"):
            months(cabin, {"tilt_deg": 30.0, "winter_share_frac": 0.5, "listed_by_month_wh": np.zeros(12)})


class TestLines:
    """By hand; a share moved between the halves of the year is arithmetic, the rest is in the published cases."""

    def test_share_is_what_is_asked_for_and_the_year_keeps_its_sum(self):
        listed, half = np.array([4.0, 2, 1, 3, 5, 5, 6, 4, 2, 3, 3, 2]), np.array(winter_half(50.0))
        assert listed.sum() == 40
        assert (listed * half).sum() == 15
        for share in (0.2, 0.375, 0.9):
            given = {"listed_by_month_wh": listed, "winter_half_by_month_frac": half, "winter_share_frac": share}
            solved = SEASONS.solve(given)
            moved = solved["battery_mean_by_month_wh"]
            assert float(solved["winter_listed_frac"]) == pytest.approx(15 / 40)
            assert moved.sum() == pytest.approx(40)
            assert (moved * half).sum() / 40 == pytest.approx(share)
        np.testing.assert_allclose(
            SEASONS.solve(given | {"winter_share_frac": 0.375})["battery_mean_by_month_wh"], listed
        )

    def test_megajoules_of_the_published_example(self):
        """Duffie & Beckman, example 2.19.1 (seen): Madison in December, 12.7 MJ/m² on 60°; 12.7 ÷ 3.6 = 3.53."""
        assert float(SUN_READ.solve({"plane_by_month_mj_m2": 12.7})["plane_by_month_kwh_m2"]) == pytest.approx(
            3.528, rel=1e-3
        )

    def test_roof(self):
        """Six modules of 21.6 kg are 129.6 kg: 7.6 kg over 122; one is 3.4 kg under 25; seven places leave one free."""
        given = {"lift_max_kg": 25, "module_mass_kg": 21.6, "roof_mass_max_kg": 122, "modules_count": 6}
        solved = ON_THE_ROOF.solve(given | {"roof_places_count": 7})
        margins = [float(solved[n]) for n in ON_THE_ROOF]
        assert margins == pytest.approx([3.4, -7.6, 1])
        assert {n for n, broken in solved.broken().items() if broken} == {"roof_mass_margin_kg"}

    def test_design_month_of_the_published_rule_is_the_panels(self, places):
        """IEEE Std 1562 (from memory): the month with the largest ratio of load to sun; heat moves none of these."""
        for design in places.values():
            flat, ground = design.site.ghi_by_month_kwh_m2, design.plan.site.ground_by_month_frac
            sun = plane_kwh_m2(flat, design.site.latitude_deg, design.tilt_deg, design.azimuth_deg, ground)
            by_hand = int(np.argmax(np.asarray(design.given["battery_mean_by_month_wh"]) / sun)) + 1
            assert by_hand == int(design.system["design_month"])
