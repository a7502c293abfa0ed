"""The wiring lesson: its reading is the panel's, its picture the sums, and the words say what burns first."""

import numpy as np
import pytest
from panel_checks import readout, set_to, trace

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.figures.wiring import make, tables
from offgrid_core.lab import wiring_panel
from offgrid_core.practice import Problem, draw, mistake, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.listing import Listing
from offgrid_core.practice.screens import clear_of_whole
from offgrid_core.practice.slots.l10_judge_more import judge
from offgrid_core.practice.slots.l10_tables_more import ARRAY_SIDE, BANK_FAULT, CABLE_FOR_DROP, GAUGED, together
from offgrid_core.quantities import Settings, label_of
from offgrid_core.sizing.fuse_teaching import COPPER, TERMINALS
from offgrid_core.system import read_plan, size
from offgrid_core.system.explore_wiring import circuit_inputs, one_circuit, sized_circuit
from offgrid_core.worksheet import Sheet

FOCUS = {
    *("WI-01", "WI-02", "WI-04", "WI-07", "WI-12", "WI-14", "WI-15", "WI-18", "WI-23"),
    *("OP-01", "OP-03", "OP-06", "OP-09", "OP-11", "OP-12", "OP-15", "OP-16"),
}
OWN_LINES = {*ARRAY_SIDE, *BANK_FAULT, *CABLE_FOR_DROP, *GAUGED} - {"bank_ah"}


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


@pytest.fixture(scope="module")
def clinic(plans):
    return size(read_plan(plans / "riverbend.toml"))


def panel_of(design, units=None, **moved):
    return set_to(wiring_panel(design, "", units or Settings()), **moved)


# ---- the reading, and what the prose says of the panel


def test_the_reading_asked_for_is_what_the_panel_shows(hut):
    problem = draw(slots()["L10-explore"])
    panel = panel_of(hut)
    for name in ("fuse_by_row_a", "cable_by_row_mm2", "length_by_row_m"):
        assert panel.inputs[name] == problem.given[name], "the panel opens where the question begins"
    assert readout(panel, "Heat in the cable, fuse's rating") == "22.2 W"
    panel.set("fuse_by_row_a", float(problem.given["fuse_after_by_row_a"]))
    answer = problem.slot.solution(problem, Settings())[READING]
    shown = readout(panel, "Heat in the cable, fuse's rating")
    assert shown == "56.7 W"
    assert f"{float(answer.text):.1f} {answer.unit}" == shown


@pytest.mark.parametrize(
    ("moved", "begins"),
    [
        ({}, "First to open: the fuse. Load 20.3 A, fuse 25 A, wire 27 A"),
        ({"fuse_by_row_a": 40.0}, "First to burn: the wire. It carries 27 A here, and the fuse holds 40 A"),
        ({"ambient_c": 45.0}, "First to burn: the wire. It carries 21.3 A here"),
        ({"circuits_together_count": 3.0}, "First to burn: the wire, with nothing wrong. The load of 20.3 A"),
        ({"fuse_by_row_a": 16.0}, "First to open: the fuse, with nothing wrong. It is 16 A, and 20.3 A"),
        ({"fuse_by_row_a": 32.0, "current_by_row_a": 40.0}, "First to open: the fuse, with nothing wrong."),
        ({"cable_by_row_mm2": 6.0}, "First to open: the fuse. Load 20.3 A, fuse 25 A, wire 46 A"),
    ],
    ids=str,
)
def test_the_words_say_what_opens_or_burns_first(hut, moved, begins):
    assert panel_of(hut, **moved).summary.startswith(begins)


def test_a_fuse_below_the_load_is_no_guard_if_it_is_also_above_the_wire(hut):
    said = panel_of(hut, fuse_by_row_a=32.0, current_by_row_a=40.0).summary
    assert "Nor does it guard the wire, which carries 27 A." in said
    assert "Nor does it guard" not in panel_of(hut, fuse_by_row_a=16.0).summary


def test_the_drop_goes_with_the_length_and_is_held_against_its_limit(hut):
    short, far = panel_of(hut), panel_of(hut, length_by_row_m=4.0)
    assert readout(short, "Voltage drop") == "0.721 V"
    assert readout(far, "Voltage drop") == "1.44 V"
    assert "within the 2 % allowed" in short.summary
    assert "more than the 2 % allowed" in far.summary


def test_a_small_wire_may_not_have_a_fuse_that_its_code_keeps_from_it(plans, tmp_path):
    """NEC 240.4(D), from memory: gauge 10 may have 30 A, though its ampacity is 35 A."""
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8").replace("iec_style", "us_style")
    (tmp_path / "us.toml").write_text(text, encoding="utf-8")
    design = size(read_plan(tmp_path / "us.toml"))
    panel = panel_of(design, cable_by_row_mm2=5.261, fuse_by_row_a=35.0)
    assert panel.result.wire_first
    assert not panel_of(design, cable_by_row_mm2=5.261, fuse_by_row_a=30.0).result.wire_first


@pytest.mark.parametrize("units", [Settings(), Settings(temperature="°F")], ids=["usual", "°F"])
def test_copper_past_its_melting_point_is_said_in_words(hut, units):
    """Copper melts at 1085 °C (CRC Handbook, from memory): what a sum says beyond that is no temperature of a wire."""
    panel, words = panel_of(hut, units, fuse_by_row_a=630.0), "past copper's melting point"
    assert panel.result.solved["copper_at_fuse_by_row_c"] > 20_000
    assert "in an overload between the two nothing opens, and the copper melts." in panel.summary
    assert readout(panel, "Copper, fuse's rating") == words
    figure = make(panel.result, units)
    assert f"with the fuse's rating, <b>{words}</b>" in figure.layout.yaxis2.ticktext
    assert max(trace(figure, "with the fuse's rating").x) == pytest.approx(1085 if units == Settings() else 1985)
    assert words in str(tables(panel.result, units))
    assert words != readout(panel_of(hut, units, fuse_by_row_a=40.0), "Copper, fuse's rating")


def test_the_current_of_the_panel_fits_its_box(hut):
    for name in hut.circuit_names:
        current = wiring_panel(hut, "", Settings(), name).inputs["current_by_row_a"]
        assert len(f"{current}") <= 5
        assert current == pytest.approx(circuit_inputs(hut, name)["current_by_row_a"], rel=5e-4)


def test_the_panel_is_of_the_last_circuit_or_of_the_one_named(hut, clinic):
    assert panel_of(clinic).parts.title.endswith("bank to DC loads")
    assert wiring_panel(hut, "", Settings(), "controller to bank").result.circuit == "controller to bank"
    with pytest.raises(OffgridError, match="no circuit called attic; its circuits are module string"):
        wiring_panel(hut, "", Settings(), "attic")


def test_air_beyond_the_table_is_said_in_words(hut):
    panel = panel_of(hut)
    with pytest.raises(OffgridError, match="ambient factor"):
        one_circuit(hut, panel.inputs | {"ambient_c": 90})


# ---- the picture


def fields_of(figure):
    return [t for t in figure.data if getattr(t, "fill", None)]


def test_the_bars_are_the_lines_and_the_fields_begin_at_the_limits(hut):
    view = panel_of(hut, fuse_by_row_a=40.0, ambient_c=40.0).result
    figure, s = make(view, Settings()), view.solved
    bars = {t.name: t.x[0] for t in figure.data if t.type == "bar"}
    assert bars == {
        "load": s["current_by_row_a"],
        "fuse": 40,
        "wire as laid": pytest.approx(27 * 0.87),
        "with the load": s["copper_by_row_c"],
        "with the fuse's rating": s["copper_at_fuse_by_row_c"],
        "there and back": pytest.approx(100 * s["drop_by_row_frac"]),
    }
    fields = [t.x[0] for t in fields_of(figure)]
    assert fields == pytest.approx([27 * 0.87, 70, 2])
    assert all(max(t.x) > b for t, b in zip(fields_of(figure), (40, 128, 1.5), strict=True))
    assert "fuse, <b>40 A</b>" in figure.layout.yaxis.ticktext


def test_every_bar_has_a_pattern_and_every_field_a_word(hut):
    figure = make(panel_of(hut).result, Settings())
    own = [t.marker.pattern.shape for t in figure.data if t.type == "bar"]
    assert len(set(own[:3])) == 3
    assert all(own)
    words = [t.text[0] for t in figure.data if t.type == "scatter" and t.mode == "text"]
    assert len(words) == 3
    assert all(t.fillpattern.shape for t in fields_of(figure))


def test_a_word_stays_inside_the_picture(hut):
    near, far = (make(panel_of(hut, **m).result, Settings()) for m in ({"fuse_by_row_a": 160.0}, {}))
    places = [next(t for t in f.data if t.type == "scatter" and t.mode == "text").textposition for f in (near, far)]
    assert places == ["middle right", "middle left"]


def test_fahrenheit_moves_the_copper_and_its_limit_alike(hut):
    figure = make(panel_of(hut, Settings(temperature="°F")).result, Settings(temperature="°F"))
    copper = next(t for t in figure.data if t.name == "with the load")
    assert copper.x[0] == pytest.approx(52.69 * 1.8 + 32, abs=0.02)
    assert fields_of(figure)[1].x[0] == pytest.approx(158)


def test_pins_mark_another_setting(hut):
    panel = panel_of(hut)
    panel.pin()
    panel.set("fuse_by_row_a", 63.0)
    marks = [t for t in panel.static().data if t.type == "scatter" and t.mode == "markers" and t.visible]
    assert [t.name for t in marks] == ["fuse 25 A · cable 2.5 mm² · air 30 °C"] * 3
    assert marks[0].x == pytest.approx([20.34, 25, 27], abs=0.001)


# ---- lines


def test_the_start_of_a_panel_is_the_design(hut):
    start = circuit_inputs(hut, "array to controller")
    assert (start["fuse_by_row_a"], start["cable_by_row_mm2"], start["length_by_row_m"]) == (50, 16, 20)
    view = one_circuit(hut, {}, "array to controller").solved
    row = hut.circuit_names.index("array to controller")
    for line in ("drop_by_row_v", "ampacity_by_row_a", "design_current_by_row_a"):
        assert view[line] == pytest.approx(hut.circuits[line][row])


def test_one_circuit_sized_by_itself_is_its_row_of_the_design(hut):
    for row, name in enumerate(hut.circuit_names):
        alone = sized_circuit(hut, name)
        for line in ("fuse_by_row_a", "cable_by_row_mm2", "drop_by_row_frac"):
            assert alone[line] == pytest.approx(hut.circuits[line][row])
    warm = sized_circuit(hut, "controller to bank", ambient_c=40, circuits_together_count=2)
    assert float(warm["ampacity_wanted_by_row_a"]) == pytest.approx(80 / (0.87 * 0.8))
    assert float(warm["cable_by_row_mm2"]) == 35


@pytest.mark.parametrize("name", ["us_style", "iec_style"])
def test_copper_at_the_ampacity_of_a_code_comes_to_what_its_insulation_stands(name):
    """Every ambient factor of both codes, within 2 K: they follow from the same law, rounded to two figures."""
    code = data.code_setting(name)
    area = code.ampacity_of.x[3]
    for air_c, factor in zip(code.ambient_factor.x, code.ambient_factor.y, strict=True):
        if air_c < 20:
            continue
        given = {
            "ambient_c": air_c, "wire_temp_c": float(code.insulation_c), "cable_ampacity": code.ampacity_of,
            "current_by_row_a": float(code.ampacity_of(area)) * factor, "cable_by_row_mm2": area, "grouping_frac": 1,
            "cables_by_row_count": 1,
        }  # fmt: skip
        assert COPPER.upto("copper_by_row_c").solve(given)["copper_by_row_c"] == pytest.approx(code.insulation_c, abs=2)


def test_two_cables_a_pole_halve_the_heat_and_terminals_have_a_limit():
    given = {"fuse_by_row_a": 100, "length_by_row_m": 3, "cables_by_row_count": 2}
    alone = Sheet(COPPER["heat_at_fuse_by_row_w"])
    assert alone.solve(given | {"resistance_by_row_ohm_m": 0.001})["heat_at_fuse_by_row_w"] == pytest.approx(30)
    solved = TERMINALS.solve({"terminal_most_mm2": 35, "cable_by_row_mm2": [25, 50]})
    assert solved["terminal_margin_by_row_mm2"].tolist() == [10, -15]


# ---- reference tables beside a problem


def test_a_listing_shows_units_of_the_reader_and_one_that_is_named():
    rows = (("air", "ambient_c", (30, 50)), ("", "resistance_by_row_ohm_m:Ω/km", (0.00308, 0.0121)))
    shown = Listing("x", (*rows, ("gauge", "gauge_count", ("8", "1/0")))).shown(
        lambda n: "ohms" if n.startswith("resistance") else label_of(n), Settings(temperature="°F", decimal=",")
    )
    assert shown == (
        "x",
        [["air, °F", "86", "122"], ["ohms, Ω/km", "3,08", "12,1"], ["gauge", "8", "1/0"]],
    )


@pytest.mark.parametrize(("name", "counts"), [("us_style", ": a circuit counts as 2 wires"), ("iec_style", "")])
def test_a_table_of_neighbours_says_what_its_code_counts(name, counts):
    """A worked step goes into the code's table at twice the circuits: wires by the US, circuits by the IEC."""
    code = data.code_setting(name)
    assert together(code).caption == f"Neighbours, {code.label}{counts}"


@pytest.mark.parametrize(("amperes", "clear"), [(33, True), (32.1, False), (31.8, False), (32, False)])
def test_no_current_is_drawn_that_rounding_could_send_to_another_size(amperes, clear):
    """Times 1.25, near the size of 40 A; a temperature that stands right on its row of a table is as given."""
    place = slots()["L10-faded-2"]
    given = {**place.given, **place.curated, "current_by_row_a": amperes}
    assert clear_of_whole(place.sheet.upto("ampacity_wanted_by_row_a"), Problem(place, given, "by hand")) is clear


def test_every_wanted_table_stands_on_the_card():
    """Whatever a problem looks up and does not say in words is listed under it."""
    needs = {"next_fuse": "Fuses", "ambient_factor": "Heat", "grouping_table": "Neighbours", "cable": "Copper wire"}
    for place in (s for s in slots().values() if s.lesson == "L10" and s.grids):
        for template in place.templates:
            captions = " ".join(listing.caption for listing in template.listed)
            for name, word in needs.items():
                used = [
                    n for n in template.sheet.inputs if n.startswith(name) and "table" in label_of_kind(template, n)
                ]
                assert not used or word in captions, (template.id, template.title, used)


def label_of_kind(template, name):
    return "table" if callable(template.given.get(name)) else "number"


# ---- problems


def test_every_bug_in_focus_is_in_several_slots():
    own = [s for s in slots().values() if s.lesson == "L10"]
    for id_ in FOCUS:
        places = {s.id for s in own for t in s.templates if id_ in t.mistakes or id_ in options_of(t)}
        assert len(places) >= 3, (id_, places)


def options_of(slot):
    return [o.mistake for o in (*getattr(slot, "options", ()), *getattr(slot, "reasons", ()))]


def test_a_third_of_the_practice_is_mixed_in_and_does_not_say_from_where():
    practice = [s for s in slots().values() if s.lesson == "L10" and s.id[4:].isdigit()]
    mixed = [s for s in practice if s.sheet and not set(s.sheet) & OWN_LINES]
    assert 3 * len(mixed) >= len(practice)
    assert not any("lesson" in s.title + s.statement for s in mixed)


def test_four_places_of_the_exit_quiz_are_about_danger():
    places = [s for s in slots().values() if s.lesson == "L10" and s.quiz == "exit"]

    def dangers(template):
        return {i for i in (*template.mistakes, *options_of(template)) if i and mistake(i).severity == "danger"}

    assert sum(all(len(dangers(t)) >= 2 for t in s.templates) for s in places) >= 4


def test_both_drawings_break_every_rule_that_hurts_somewhere():
    for drawing in (s for s in judge() if s.kind == "drawing"):
        drawn = [drawing.drawn(draw(drawing, n)) for n in range(60)]
        dangers = {r.id for r in drawn[0].rules if drawn[0].is_danger(r)}
        assert dangers <= {r for d in drawn for r in d.broken}
        assert {len(d.planted) for d in drawn} == {0, 1, 2, 3}
        assert {bool(d.hidden) for d in drawn} == {True, False}


def test_the_picks_are_bound_by_more_than_one_limit():
    for pick in (s for s in judge() if s.kind == "pick"):
        problems = [draw(pick, n) for n in range(16)]
        assert len({p.slot.judged(p).binding(p.slot.judged(p).best).name for p in problems}) >= 2


def test_an_ac_rating_in_the_table_of_devices_is_of_no_use():
    (pick,) = [s for s in judge() if s.id == "L10-pick-2"]
    problem = draw(pick)
    judged, table = pick.judged(problem), pick.table(problem)
    weak = judged.margin["device_voltage_margin_by_row_v"] < 0
    assert weak.any()
    assert np.all(table["device_ac_v"][weak] > problem.given["voltage_most_by_row_v"]), "each looks strong enough by AC"


# ---- what the prose says


def test_numbers_of_the_prose(plans, hut, clinic):
    mast = size(read_plan(plans / "gull_mast.toml"))
    faults = [round(float(d.protection.solved["bank_fault_a"]), -2) for d in (hut, clinic, mast)]
    assert faults == [20_000, 62_600, 11_200]
    assert float(hut.protection.solved["array_backfeed_a"]) == pytest.approx(2 * 11.27 * 1.25)
    assert [data.code_setting("us_style").fuse_limit_of(a) for a in (2.081, 3.309, 5.261)] == [15, 20, 30]
    assert hut.given["bank_voltage_v"] == 48
    assert mast.given["bank_voltage_v"] == 12
    assert hut.protection.solved["bank_fault_a"] > 1000
    wire_as_designed = float(one_circuit(hut, {}).solved["ampacity_by_row_a"])
    assert wire_as_designed == 27
    assert float(one_circuit(hut, {"ambient_c": 45}).solved["ampacity_by_row_a"]) == pytest.approx(27 * 0.79)
    worked = sized_circuit(hut, "controller to bank", ambient_c=40, circuits_together_count=2)
    assert worked["for_ampacity_by_row_mm2"] > worked["for_drop_by_row_mm2"]
    # 240.4(B) of the prose, and the 2 or 3 % of drop: the code setting's own
    assert {data.code_setting("iec_style").drop_inverter_frac, data.code_setting("iec_style").drop_load_frac} == {
        0.02,
        0.03,
    }


def test_feet_on_a_plan_stand_with_their_unit():
    slot = next(t for t in slots()["L10-exit-2"].templates if t.title == "A plan in feet")
    problem = Problem(slot, {**slot.given, **slot.curated}, "by hand")
    assert "drawn in feet: 31 ft from the box" in problem.text(slot.statement, Settings())
    assert ("length one way", "31 ft × 0.3048", "9.449 m") in slot.worked(problem, Settings())
