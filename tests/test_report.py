"""The design sheet as a page and the order list: whole, safe, in the reader's units, and the JSON's numbers."""

import csv
import html
import io
import json
import re
import sys
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise

import numpy as np
import pytest

from offgrid_core import data
from offgrid_core.__main__ import main
from offgrid_core.quantities import Settings, say, show, unit_of
from offgrid_core.report import checklist, side_tables, tables, words, writing
from offgrid_core.report.markup import own, table, tag, text, unbroken
from offgrid_core.report.order import order_csv, safe
from offgrid_core.report.page import page_html
from offgrid_core.report.terminal import sheet_text
from offgrid_core.system import parse_plan, read_plan, size
from offgrid_core.worksheet import Table
from offgrid_core.worksheet.grammar import axis_of

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
VOID = {"meta"}
#: Everything the page can be made to show otherwise.
FOREIGN = Settings(temperature="°F", length="ft", wire="AWG", decimal=",")


class Page(HTMLParser):
    """A page read strictly: every element closed in its turn, and the text of what has a mark."""

    def __init__(self, written):
        super().__init__()
        self.open, self.elements, self.headings, self.ids = [], [], [], []
        self.rows, self.texts = {}, []
        self.feed(written)
        self.close()
        assert self.open == [], "left open"

    def handle_starttag(self, name, attrs):
        self.elements.append((name, dict(attrs)))
        assert len(dict(attrs)) == len(attrs), "an attribute twice"
        if "id" in dict(attrs):
            self.ids.append(dict(attrs)["id"])
        if name not in VOID:
            self.open.append((name, dict(attrs), []))

    def handle_startendtag(self, name, attrs):
        """Take ``<path/>`` as opened and closed at once."""
        self.handle_starttag(name, attrs)
        self.handle_endtag(name)

    def handle_endtag(self, name):
        opened, attrs, said = self.open.pop()
        assert opened == name, f"{name} closes {opened}"
        inside = "".join(said)
        self.texts.append((name, attrs, inside))
        if name in {"h1", "h2", "h3", "h4"}:
            self.headings.append((int(name[1]), inside))
        if self.open and name not in {"style", "title", "head"}:
            self.open[-1][2].append(inside + ("\n" if name in {"td", "th", "span"} else ""))

    def handle_data(self, data):
        if self.open:
            self.open[-1][2].append(data)

    def named(self, name, **marks):
        return [said for n, attrs, said in self.texts if n == name and marks.items() <= attrs.items()]

    def rows_of(self, mark):
        return {attrs[mark]: said.split("\n") for n, attrs, said in self.texts if n == "tr" and mark in attrs}


def designed(plans, name="fell_hut", **changes):
    """Return a demo design, with pieces of its plan's text changed."""
    plan = (plans / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes.values():
        assert old in plan
        plan = plan.replace(old, new, 1)
    return size(parse_plan(plan))


@pytest.fixture(scope="module")
def designs(plans):
    return {name: size(read_plan(plans / f"{name}.toml")) for name in DEMOS}


@pytest.fixture(scope="module")
def broken(plans):
    return designed(plans, parts=("[parts]", "[parts]\nmodules_in_series_count = 20"))


@pytest.fixture(autouse=True)
def usual_settings(monkeypatch):
    monkeypatch.setattr("offgrid_core.quantities.settings.load", Settings)


every_demo = pytest.mark.parametrize("name", DEMOS)
in_both_settings = pytest.mark.parametrize("settings", [Settings(), FOREIGN], ids=["usual", "foreign"])

# ---- the page is whole, and stands alone


@every_demo
@in_both_settings
def test_the_page_is_well_formed_and_in_order(designs, name, settings):
    written = page_html(designs[name], settings)
    assert written.startswith("<!DOCTYPE html>\n<html")
    page = Page(written)
    assert page.elements[0] == ("html", {"lang": "en"})
    levels = [level for level, _ in page.headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later <= earlier + 1 for earlier, later in pairwise(levels))
    assert len(page.ids) == len(set(page.ids)), "an id twice"
    assert page.named("title")[0] == f"Design sheet: {designs[name].plan.title}"


@every_demo
def test_nothing_comes_from_outside(designs, name):
    written = page_html(designs[name], Settings())
    assert "http" not in written.lower()
    assert not re.search(r"//|@import|url\((?!#)|javascript:", re.sub(r"</", "<", written))
    for element, attrs in Page(written).elements:
        assert element not in {"script", "link", "img", "iframe", "object", "embed", "base", "form", "image", "use"}
        assert not any(a.startswith("on") or a in {"src", "srcset", "action", "data"} for a in attrs)
        assert all(v.startswith("#") for a, v in attrs.items() if a.endswith("href"))


@every_demo
def test_links_and_labels_point_to_what_is_there(designs, name):
    page = Page(page_html(designs[name], Settings()))
    wanted = [attrs["href"][1:] for _, attrs in page.elements if "href" in attrs]
    wanted += [
        i
        for _, attrs in page.elements
        for a in ("aria-labelledby", "aria-describedby")
        for i in attrs.get(a, "").split()
    ]
    wanted += [v[5:-1] for _, attrs in page.elements for v in attrs.values() if v and v.startswith("url(#")]
    assert len(wanted) > 20
    assert set(wanted) <= set(page.ids)


@every_demo
def test_every_table_has_a_caption_and_every_head_a_scope(designs, name):
    page = Page(page_html(designs[name], Settings()))
    tables_there = [said for n, _, said in page.texts if n == "table"]
    captions = page.named("caption")
    assert len(captions) == len(tables_there) == len(set(captions))
    assert all(attrs.get("scope") in {"row", "col", "colgroup"} for n, attrs in page.elements if n == "th")


@every_demo
def test_every_picture_has_a_name_and_a_sentence(designs, name):
    page = Page(page_html(designs[name], Settings()))
    pictures = [attrs for n, attrs in page.elements if n == "svg"]
    assert len(pictures) == 5
    assert all(attrs["role"] == "img" and attrs["aria-labelledby"] for attrs in pictures)
    sentences = page.named("figcaption")
    assert len(sentences) == 5
    assert all(said.endswith(".") and len(said) > 40 for said in sentences)


def test_a_page_that_is_not_well_formed_is_seen():
    for bad in ("<p><b>x</p></b>", "<p>", '<p id="a" id="b"></p>'):
        with pytest.raises(AssertionError):
            Page(bad)


# ---- nothing a person writes becomes markup

HOSTILE = '<script>alert(1)</script> "q" \' & </title></style>-->'


def test_hostile_names_stay_text(plans):
    literal = json.dumps(HOSTILE)
    design = designed(
        plans,
        title=('title = "Fell hut"', f"title = {literal}"),
        note=('note = "', 'note = "<img src=x> '),
        load=('name = "fridge"', f"name = {literal}"),
    )
    for written in (page_html(design, Settings()), page_html(design, FOREIGN)):
        page = Page(written)
        assert "<script" not in written
        assert "<img" not in written
        assert page.named("title")[0] == f"Design sheet: {HOSTILE}"
        assert HOSTILE in page.headings[0][1]
        assert any(HOSTILE in said for said in page.named("th", scope="row"))


def test_letters_from_right_to_left_turn_nothing_else(plans):
    design = designed(plans, title=('title = "Fell hut"', 'title = "בקתה"'))
    assert "Design sheet: \u2068בקתה\u2069" in page_html(design, Settings())
    assert own("a\u202eb\u2069c\u200f") == "\u2068abc\u2069"


def test_text_is_escaped_and_markup_is_kept():
    assert text("a<b>\x00\x1b\n\"'") == "a&lt;b&gt; &quot;&#x27;"
    assert tag("p", "<", tag("b", "x"), data_line='"') == '<p data-line="&quot;">&lt;<b>x</b></p>'
    assert "<td>&lt;</td>" in table("c", ["h"], [tag("tr", tag("td", "<"))])


# ---- the same numbers as the JSON


def at(value, place):
    value = np.asarray(value)
    return value if not value.ndim else value[min(place, value.size - 1)]


@every_demo
@in_both_settings
def test_every_step_shows_the_number_of_the_json(designs, name, settings):
    design = designs[name]
    read = json.loads(json.dumps(tables.as_json(design), allow_nan=False))
    page = Page(page_html(design, settings))
    rows = page.rows_of("data-line")
    beside = {n: v for lines in read["more"].values() for n, v in lines.items()}
    single = read["lines"] | read["set_points"] | beside | read["protection"]
    seen = 0
    for line, cells in rows.items():
        if line in read["circuits"]:
            for i, _ in enumerate(read["circuits"]["rows"]):
                assert show(line, at(read["circuits"][line], i), settings, 3) in cells
        elif line in read["loads"]:
            values = read["loads"][line]
            value = max(values) if axis_of(line) == "by_row" and isinstance(values, list) else values
            assert show(line, value, settings) in cells
        else:
            value = single[line]
            if axis_of(line) == "by_month":
                value = at(value, int(read["lines"]["design_month"]) - 1)
            assert show(line, value, settings) in cells, line
        seen += 1
    wanted = {s.name for _, steps in tables.sections_of(design, settings) for s in steps}
    wanted |= set(design.loads.sheet) | set(read["set_points"])
    solved = (design.system, design.circuits, *design.more.values())
    wanted |= {n for each in solved for n, line in each.sheet.items() if not line.severity}
    assert wanted <= set(rows)
    assert seen > 80
    leads = page.rows_of("data-lead")
    assert {n for n, line in design.bank_leads.sheet.items() if not line.severity} <= set(leads)
    for line, cells in leads.items():
        assert {show(line, at(read["bank_leads"][line], i), settings, 3) for i in (0, 1)} <= set(cells)


@every_demo
def test_every_month_and_every_load_stands_in_its_table(designs, name):
    design = designs[name]
    read = tables.as_json(design)
    page = Page(page_html(design, Settings()))
    said = ["\n".join(r) for r in (x.split("\n") for n, attrs, x in page.texts if n == "tr" and "data-row" in attrs)]
    monthly = [n for n in read["lines"] if axis_of(n) == "by_month"]
    assert len(monthly) >= 6
    for n in monthly:
        for i in range(12):
            assert any(show(n, read["lines"][n][i]) in x.split("\n") for x in said)
    for i, load in enumerate(read["loads"]["rows"]):
        row = next(x.split("\n") for x in said if load in x)
        for n in read["loads"]:
            if axis_of(n) == "by_row" and n not in design.loads.sheet.inputs:
                assert show(n, at(read["loads"][n], i)) in row


@every_demo
@in_both_settings
def test_every_number_has_a_unit(designs, name, settings):
    """Of every quantity that has one: the unit of the settings stands after each number of each row."""
    page = Page(page_html(designs[name], settings))
    for line, cells in page.rows_of("data-line").items():
        unit = settings.unit_for(line).symbol
        if unit:
            assert any(re.search(rf"\d[^\n]*{re.escape(unit)}", cell) for cell in cells), line
    for key in ("key.bank", "key.array", "key.autonomy"):
        row = next(x for n, _, x in page.texts if n == "tr" and x.startswith(words.say(key)))
        assert re.search(r"\d (Ah|Wh|W|days)", row.replace("\u2009", ""))


def test_the_pictures_say_the_numbers_of_the_json(designs):
    design = designs["fell_hut"]
    read = tables.as_json(design)
    said = " ".join(Page(page_html(design, Settings())).named("figcaption"))
    largest = max(read["pictures"]["at_battery"], key=lambda row: row["energy_wh"])
    assert largest["load"] in said
    assert show("energy_wh", largest["energy_wh"], figures=3) in said
    curve = dict(zip(*read["pictures"]["autonomy"].values(), strict=True))
    assert curve[-8.0] == pytest.approx(read["lines"]["autonomy_given_days"], rel=1e-12)
    assert show("autonomy_given_days", curve[-8.0], figures=3) in said
    assert show("array_w", read["lines"]["array_w"], figures=3) in said
    assert list(curve.values()) == sorted(curve.values()), "a bank gives no less when it is warmer"


# ---- settings, findings, DC only


def test_settings_are_obeyed(designs):
    usual, foreign = (page_html(designs["fell_hut"], s).replace("\u00a0", " ") for s in (Settings(), FOREIGN))
    for sign in ("°F", " ft"):
        assert sign in foreign
    # The circuits table names both; only a reader of gauges finds them everywhere, and the note about them.
    assert foreign.count(" AWG") > usual.count(" AWG") > 0
    assert say("wire.gauge_note") in foreign
    assert "17,6 °F" in foreign
    assert "60,22 %" in foreign
    assert "60.22" not in foreign
    assert not re.search(r"\d °C|\d m\b(?!m)", Page(foreign).rows_of("data-line")["bank_cold_wh"][1])
    for sign in ("°F", " ft", "60,22"):
        assert sign not in usual


def test_findings_are_told_in_the_readers_units(designs):
    found = {f.name: f for f in tables.findings_of(designs["fell_hut"], FOREIGN)}
    assert [f.name for f in designs["fell_hut"].findings] == list(found)
    assert found["charge_temp_margin_k"].shown == "21,6 °F steps"


def test_broken_limits_come_first(broken):
    page = Page(page_html(broken, Settings()))
    rows = [cells for n, attrs, x in page.texts if n == "tr" and "data-finding" in attrs for cells in [x.split("\n")]]
    statuses = [cells[0] for cells in rows]
    drawn = [attrs["class"] for n, attrs, _ in page.texts if n == "tr" and "data-finding" in attrs]
    assert [mark == "broken" for mark in drawn] == [status == "BROKEN" for status in statuses]
    count = sum(not f.passed for f in broken.findings)
    assert count >= 1
    assert statuses == ["BROKEN"] * count + ["met"] * (len(broken.findings) - count)
    for cells, f in zip(rows, broken.findings, strict=True):
        said = " ".join(cells)
        assert f.label[1:] in said
        assert f.shown in cells
        assert words.say(f"severity.{f.severity}") in said
        assert f.standing in said
        assert (f"mend: {f.mend}" in said) is not f.passed
    limits = next(x for n, _, x in page.texts if n == "tr" and x.startswith(words.say("key.limits")))
    assert f"{count} of {len(broken.findings)} limits broken" in limits
    assert broken.findings[0].label in limits


@every_demo
def test_a_sound_plan_says_so(designs, name):
    written = page_html(designs[name], Settings())
    if all(f.passed for f in designs[name].findings):
        assert written.count(f"All {len(designs[name].findings)} limits are met.") == 2
        assert "BROKEN" not in written


def test_without_an_inverter(designs):
    assert designs["gull_mast"].parts.inverter is None
    page = Page(page_html(designs["gull_mast"], Settings()))
    assert any(words.say("no_inverter") in x for x in page.named("tr"))
    said = " ".join(x.what for _, tasks in checklist.stages(designs["gull_mast"], Settings()) for x in tasks)
    assert words.say("do.inverter") not in said
    assert words.say("do.dc") in said


def test_more_loads_than_a_picture_holds(plans):
    row = '\n[[load]]\nname = "lamp {}"\nbus = "AC"\npower_w = {}\nhours_h = 2\n'
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    many = text.replace("[parts]", "".join(row.format(i, i + 1) for i in range(30)) + "\n[parts]", 1)
    written = page_html(size(parse_plan(many)), Settings())
    Page(written)
    assert words.say("picture.rows_more", count=30 + 6 - 14) in written


def test_a_bank_too_large_to_draw_is_told(plans):
    smallest = min((u for u in data.battery_units() if u.chemistry == "flooded"), key=lambda u: u.unit_ah)
    design = designed(plans, unit=("flooded_6v_380ah", smallest.key))
    assert design.system["strings_count"] > 6
    page = Page(page_html(design, Settings()))
    assert any("The bank is not drawn: " in x for x in page.named("p"))


# ---- connecting, in the safe order


@every_demo
def test_the_bank_is_joined_before_the_array_and_parted_after_it(designs, name):
    stages = dict(checklist.stages(designs[name], Settings()))
    assert list(stages) == [words.say(f"stage.{k}") for k in ("before", "connect", "set", "charge", "measure", "hand")]
    order = [task.what for task in stages[words.say("stage.connect")]]
    joined = [order.index(words.say(f"do.{key}")) for key in ("strings", "controller", "array", "apart")]
    assert joined == sorted(joined)
    before = [task.what for task in stages[words.say("stage.before")]]
    for key in ("open", "torque", "polarity", "insulation", "open_volts"):
        assert words.say(f"do.{key}") in before


@pytest.mark.parametrize(("name", "thick"), [("fell_hut", False), ("riverbend", True)])  # 6 mm² and 10 mm²
def test_a_cable_that_plugs_do_not_take_is_told(designs, name, thick):
    told = [task.what for task in dict(checklist.stages(designs[name], Settings()))[words.say("stage.before")]]
    most, cable = (show("cable_by_row_mm2", area) for area in (6.0, 10.0))
    assert (words.say("do.plugs", most=most, cable=cable) in told) == thick


@every_demo
def test_set_points_are_ticked_with_their_volts(designs, name):
    design = designs[name]
    typed = tables.as_json(design)["set_points"]
    tasks = dict(checklist.stages(design, Settings()))[words.say("stage.set")]
    expected = {task.expected for task in tasks if task.measured}
    volts = [n for n in typed if unit_of(n).kind == "voltage"]
    assert len(volts) >= 2
    assert {show(n, typed[n]) for n in volts} <= expected
    assert ("equalize_25_set_v" in typed) == (name == "fell_hut"), "only vented cells are equalized"


@every_demo
def test_every_circuit_is_looked_at_and_measured(designs, name):
    design = designs[name]
    stages = dict(checklist.stages(design, Settings()))
    for i, circuit in enumerate(design.circuit_names):
        fuse = show("fuse_by_row_a", design.circuits["fuse_by_row_a"][i], figures=3)
        drop, current = (show(n, design.circuits[n][i], figures=3) for n in ("drop_by_row_v", "current_by_row_a"))
        begin = circuit[:1].upper() + circuit[1:] + ":"
        assert any(t.what.startswith(begin) and fuse in t.expected for t in stages[words.say("stage.before")])
        measured = [t for t in stages[words.say("stage.measure")] if t.what.startswith(begin)]
        assert [(t.measured, t.expected) for t in measured] == [(True, f"at most {drop} lost at {current}")]


@every_demo
def test_labels_of_what_the_bank_feeds_are_read_against_the_highest_charging_voltage(designs, name):
    design = designs[name]
    volts = show("charge_most_v", design.protection.solved["charge_most_v"])
    before = dict(checklist.stages(design, Settings()))[words.say("stage.before")]
    task = next(t for t in before if volts in t.what)
    assert (task.expected, task.measured) == (f"above {volts} on each label", True)
    assert ("inverter" in task.what) == bool(design.parts.inverter)
    assert ("DC load" in task.what) == (design.system["dc_peak_w"] > 0)


def test_the_highest_charging_voltage_of_a_48_v_bank_is_far_above_48_v(designs):
    said = page_html(designs["fell_hut"], Settings())
    assert "Charging in the cold brings the bank to 65.16 V, its highest." in said


@every_demo
def test_a_heavy_unit_is_lifted_by_two(designs, name):
    """On the checklist and among the cautions; and no unit is said to break a limit by its mass alone."""
    design, most = designs[name], designs[name].given["lift_max_kg"]
    said = words.say("do.lift", mass=show("unit_mass_kg", design.parts.battery_unit.mass_kg))
    heavy = design.parts.battery_unit.mass_kg > most
    page = Page(page_html(design, Settings()))
    before = dict(checklist.stages(design, Settings()))[words.say("stage.before")]
    assert (said in [t.what for t in before]) == heavy
    assert (said in page.named("li")) == heavy
    assert "one person may lift" not in page_html(design, Settings())
    for row in side_tables.bank_rows(design, Settings())[1:]:
        unit = next(u for u in data.battery_units() if u.label == row[0])
        assert (words.say("bank.heavy") in row[-1]) == (unit.mass_kg > most)


def test_one_demo_has_a_heavy_unit_and_one_has_not(designs):
    heavy = {n: d.parts.battery_unit.mass_kg > d.given["lift_max_kg"] for n, d in designs.items()}
    assert heavy["fell_hut"]
    assert not all(heavy.values())


@pytest.mark.parametrize(("start", "spare"), [(0.5, "0 %"), (0.54, "4 %"), (0.55, None), (0.7, None), (0.4, None)])
def test_a_generator_that_starts_as_the_loads_are_cut_is_told(plans, start, spare):
    """Below the cut-off a broken limit says so; from 5 % of charge above it nothing is said."""
    design = designed(plans, start=("[circuits]", f"[assume]\ngenerator_start_frac = {start}\n\n[circuits]"))
    said = tables.generator_late_said(design, Settings())
    assert said == ([] if spare is None else [words.say("generator_late", spare=spare, wanted="5 %")])
    assert next(f for f in design.findings if f.name == "start_margin_frac").passed == (start >= 0.5)
    page = Page(page_html(design, Settings()))
    assert all(x in page.named("p") for x in said)
    assert ("The generator starts only" in sheet_text(design, Settings())) == bool(said)


def test_without_a_generator_nothing_is_said_of_it(designs):
    assert tables.generator_late_said(designs["gull_mast"], Settings()) == []


@pytest.mark.parametrize(("celsius", "invented"), [(-8, True), (-3, False), (10, False)])
def test_the_capacity_kept_names_a_standard_only_where_it_has_published_rows(plans, celsius, invented):
    design = designed(plans, cold=("battery_temp_c = -8", f"battery_temp_c = {celsius}"))
    step = next(s for s in tables.steps_of(design.system, Settings()) if s.name == "kept_frac")
    assert (step.standing == "invented classroom data") == invented
    assert ("IEEE Std 485" in tables.standing_of(step)) != invented
    row = "\n".join(Page(page_html(design, Settings())).rows_of("data-line")["kept_frac"])
    assert ("invented classroom data" in row) == invented


def test_numbers_that_round_alike_are_shown_with_more_figures(designs):
    """20 000 A less 20 000 A is not 2.5 A."""
    for design in designs.values():
        for f in tables.findings_of(design, Settings()):
            left, minus, right = f.worked.partition(" − ")
            assert not minus or left != right or f.margin == 0
    found = {f.name: f for f in tables.findings_of(designs["fell_hut"], Settings())}
    assert found["device_interrupting_margin_by_row_a"].worked.replace("\u2009", " ") == "20 000 A − 19 997.5 A"


def test_no_flag_is_shown_as_a_run_of_per_cents(designs):
    """The largest fuse after the strings is picked from fuses, and a limit names what its table gives."""
    for design in designs.values():
        steps = tables.steps_of(design.protection.solved, Settings(), word=tables.words_of(design))
        fuse = next(s for s in steps if s.name == "bank_fuse_most_a")
        on_bank = design.protection.solved["fuse_by_row_a"][2:]
        assert fuse.worked == f"largest of ({'; '.join(show('a', x) for x in on_bank)})"
        assert "for yes" not in page_html(design, Settings())
        limits = {f.name: f.worked for f in tables.findings_of(design, Settings())}
        assert not any("values)" in worked for worked in limits.values())
        assert re.search(r"at \([^)]+ mm²\) = [\d.]+ A\) × ", limits["fuse_limit_margin_by_row_a"])


def test_where_the_sun_is_from(designs):
    own_site, shipped = (page_html(designs[name], Settings()) for name in ("weekend_cabin", "fell_hut"))
    assert words.say("site_own") in own_site
    assert "given in the plan (common practice" not in own_site
    assert designs["fell_hut"].site.standing in shipped


def test_no_number_is_parted_from_its_unit_in_the_tables_of_parts_and_circuits():
    assert unbroken([["a 6 V", "160 A", "1\u2009150 Ah", "2.27 %", "6 mm² (10 AWG)"]]) == [
        ["a 6 V", "160\u00a0A", "1\u202f150\u00a0Ah", "2.27\u00a0%", "6\u00a0mm² (10\u00a0AWG)"]
    ]


def test_the_tables_of_a_page_keep_numbers_and_units_together(designs):
    written = page_html(designs["fell_hut"], Settings())
    assert "200\u00a0A" in written
    drop = show("drop_by_row_frac", designs["fell_hut"].circuits["drop_by_row_frac"][1], Settings(), 3)
    assert drop.replace(" ", "\u00a0") in written
    assert "20\u202f000\u00a0A" in written
    sums = re.findall(r"= [^<]+", written)
    assert len(sums) > 100
    assert [x for x in sums if re.search(r"\d (?:V|A|Wh|Ah|%|m|W)\b", x)] == []


@every_demo
def test_cautions_and_what_was_not_checked(designs, name):
    listed = Page(page_html(designs[name], Settings())).named("li")
    for key in tables.CAUTIONS:
        assert say(key) in listed
    unchecked = [k for k in words.TEXT if k.startswith("unchecked.") and k != "unchecked.why"]
    assert len(unchecked) >= 10
    assert all(words.say(k) in listed for k in unchecked)


# ---- words


def test_every_sentence_is_used_and_short():
    for key, said in words.TEXT.items():
        assert said == said.strip() or key == "signed"
        longest = max(len(s.split()) for s in re.split(r"[.;:]", said))
        assert longest <= 24, key


def test_every_rule_of_the_words_is_seen_on_a_page(designs, broken):
    """What the catalogue holds is on some page or list: nothing is written for nobody."""
    pages = " ".join(page_html(d, Settings()) for d in (*designs.values(), broken))
    lists = " ".join(order_csv(d, Settings()) for d in designs.values())
    told = html.unescape(pages) + lists
    elsewhere = {"order.on_hand", "not_drawn", "picture.rows_more", "written", "bank.none", "voltage.more"}
    for key, said in words.TEXT.items():
        if key in elsewhere or key.startswith(("place.", "fit.")):
            continue
        pieces = [p for p in re.split(r"\{\w+\}", said) if p.strip()]
        assert all(p in told for p in pieces), key


# ---- the order list


def rows_of(design, settings=None):
    return list(csv.reader(io.StringIO(order_csv(design, settings or Settings()), newline="")))


@every_demo
def test_the_order_list_has_the_counts_of_the_design(designs, name):
    design = designs[name]
    head, *rows = rows_of(design)
    assert head[:3] == ["part", "how many", "unit"]
    assert all(len(row) == len(head) for row in rows)
    counts = {row[0]: float(row[1]) for row in rows if row[1]}
    for part, line in (
        ("battery_unit", "units_count"),
        ("module", "modules_count"),
        ("controller", "controllers_count"),
    ):
        assert counts[getattr(design.parts, part).label] == design.system[line]
    assert sum(row[0].startswith("Inverter") for row in rows) == bool(design.parts.inverter)
    priced = [row for row in rows if row[3]]
    assert all("invented" in row[5] for row in priced)
    assert float(rows[-1][4]) == pytest.approx(sum(float(row[1]) * float(row[3]) for row in priced))
    assert float(rows[-1][4]) == tables.as_json(design)["order"]["order_cost"]


@pytest.mark.parametrize("role", ["battery_unit", "module"])
def test_what_is_on_hand_is_listed_and_not_bought(plans, role):
    bought = designed(plans)
    part, line = getattr(bought.parts, role), {"battery_unit": "units_count", "module": "modules_count"}[role]
    count = int(bought.system[line])
    own_part = f'[owned]\n{role} = "{part.key}"\n{line} = {count}\n\n[room]'
    design = designed(plans, owned=("[room]", own_part))
    rows = {row[0]: row for row in rows_of(design)}
    assert rows[part.label][1:] == [str(count), "piece", "", "", words.say("order.on_hand")]
    total, whole = float(rows[words.say("order.total")][4]), float(rows_of(bought)[-1][4])
    assert total == pytest.approx(whole - count * part.cost)
    listed = tables.as_json(design)["order"]
    assert [row for row, there in zip(listed["rows"], listed["on_hand"], strict=True) if there] == [part.label]
    assert words.say("order.on_hand") not in order_csv(bought, Settings())


def test_cable_is_bought_there_and_back_for_every_string(designs):
    design = designs["fell_hut"]
    strings, controllers = design.system["array_strings_count"], design.system["controllers_count"]
    assert strings > controllers > 1
    rows = {row[0]: row for row in rows_of(design)}
    cables = [row for name, row in rows.items() if name.startswith("cable ")]
    assert [row[2] for row in cables] == ["m"] * 6
    # one way 3 m for each string, 20 m and 3 m for each controller, 2 m, and 1 m for each lead; all one cable a pole
    rows_of_leads = [2 * design.system["strings_count"], 2]
    assert [float(row[1]) for row in cables] == [6 * strings, 40 * controllers, 6 * controllers, 4, *rows_of_leads]
    fuses = [float(row[1]) for name, row in rows.items() if name.startswith(("Fuse ", "Breaker "))]
    # one for each module string, two for each controller, the inverter's, one for each battery string, the main fuse
    assert fuses == [strings, controllers, controllers, 1, design.system["strings_count"], 1]


def test_the_order_list_is_for_programs_whatever_the_settings(designs, plans):
    lines = order_csv(designs["fell_hut"], FOREIGN).split("\r\n")
    assert lines[-1] == ""
    assert any("AWG" in line for line in lines)
    numbers = [row[1] for row in rows_of(designs["fell_hut"], FOREIGN)[1:] if row[1]]
    assert [float(x) for x in numbers] == [float(row[1]) for row in rows_of(designs["fell_hut"])[1:] if row[1]]
    assert order_csv(designs["fell_hut"], replace(FOREIGN, wire="mm²")) == order_csv(designs["fell_hut"], Settings())
    own_money = designed(plans, money=('note = "', 'currency = "=1+1"\nnote = "'))
    assert rows_of(own_money)[0][3:5] == ["cost of one (=1+1)", "cost (=1+1)"]


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\t=1", " =1", "＝1", "\u00a0+1"])
def test_no_cell_is_a_formula(cell):
    assert safe(cell) == "'" + cell


@pytest.mark.parametrize(("cell", "said"), [("a=b", "a=b"), ("", ""), (3.0, "3"), (0.1, "0.1"), (-2.5, "-2.5")])
def test_other_cells_stay(cell, said):
    assert safe(cell) == said


# ---- the command


def told(capsys, *arguments):
    code = main(arguments)
    said = capsys.readouterr()
    return code, said.out, said.err


def test_sheet_and_list_are_written_and_said(plans, tmp_path, capsys):
    plan, sheet, order = plans / "riverbend.toml", tmp_path / "sheet.html", tmp_path / "order.CSV"
    code, out, err = told(capsys, "size", str(plan), "--report", str(sheet), "--order", str(order))
    assert (code, err) == (0, "")
    assert out == f"Written: {sheet}\nWritten: {order}\n"
    design = size(read_plan(plan))
    assert sheet.read_bytes() == page_html(design, Settings()).encode()
    assert order.read_bytes() == order_csv(design, Settings()).encode()
    assert sorted(p.name for p in tmp_path.iterdir()) == ["order.CSV", "sheet.html"]


def test_with_json_standard_output_is_json_alone(plans, tmp_path, capsys):
    code, out, err = told(capsys, "size", str(plans / "gull_mast.toml"), "--json", "--report", str(tmp_path / "s.html"))
    assert code == 0
    assert json.loads(out)["title"] == "Gull mast"
    assert err == f"Written: {tmp_path / 's.html'}\n"
    assert (tmp_path / "s.html").exists()
    assert told(capsys, "size", str(plans / "gull_mast.toml"), "--json")[2] == ""


@pytest.mark.parametrize(
    ("option", "name", "said"),
    [
        ("--report", "sheet.htm", "ends in .html"),
        ("--report", "sheet.csv", "ends in .html"),
        ("--report", ".html", "ends in .html"),
        ("--report", "", "ends in .html"),
        ("--order", "order.html", "ends in .csv"),
        ("--report", "folder.html", "this is a folder"),
        ("--order", "folder.csv", "this is a folder"),
        ("--report", "nowhere/sheet.html", "there is no folder"),
        ("--report", "file.txt/sheet.html", "there is no folder"),
    ],
)
def test_a_place_that_is_none_is_refused(plans, tmp_path, capsys, monkeypatch, option, name, said):
    monkeypatch.chdir(tmp_path)
    for folder in ("folder.html", "folder.csv"):
        (tmp_path / folder).mkdir()
    (tmp_path / "file.txt").touch()
    before = sorted(tmp_path.rglob("*"))
    other = ["--order", "good.csv"] if option == "--report" else ["--report", "good.html"]
    code, out, err = told(capsys, "size", str(plans / "fell_hut.toml"), *other, option, name)
    assert code == 2
    assert out == ""
    assert said in err
    assert len(err.splitlines()) == 1
    assert sorted(tmp_path.rglob("*")) == before


@pytest.mark.skipif(sys.platform != "linux", reason="a folder that even the owner of the machine cannot write")
def test_a_folder_that_cannot_be_written_is_refused(plans, capsys):
    code, out, err = told(capsys, "size", str(plans / "fell_hut.toml"), "--report", "/proc/sheet.html")
    assert (code, out) == (2, "")
    assert re.fullmatch(r"/proc/sheet\.html: the design sheet cannot be written there \(.+\)\n", err)


def test_a_write_that_fails_leaves_the_old_sheet(plans, tmp_path, capsys, monkeypatch):
    sheet = tmp_path / "sheet.html"
    sheet.write_text("old", encoding="utf-8")

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("offgrid_core.files.os.replace", full)
    code, out, err = told(capsys, "size", str(plans / "fell_hut.toml"), "--report", str(sheet))
    assert (code, out) == (2, "")
    assert "No space left on device" in err
    assert sheet.read_text(encoding="utf-8") == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["sheet.html"]


def test_a_plan_that_cannot_be_sized_writes_nothing(tmp_path, capsys):
    plan = tmp_path / "bad.toml"
    plan.write_text("title = 3", encoding="utf-8")
    code, out, err = told(capsys, "size", str(plan), "--report", str(tmp_path / "s.html"))
    assert (code, out) == (2, "")
    assert "bad.toml" in err
    assert [p.name for p in tmp_path.iterdir()] == ["bad.toml"]


def test_the_kinds_of_file_are_the_options(capsys):
    with pytest.raises(SystemExit):
        main(["size", "--help"])
    said = capsys.readouterr().out
    assert all(f"--{key}" in said for key in writing.KINDS)


def test_no_table_is_shown_as_a_number(designs):
    assert not any(isinstance(v, Table) for v in tables.as_json(designs["fell_hut"])["given"].values())


def test_the_windows_of_the_loads_are_on_the_sheet(designs):
    page = html.unescape(page_html(designs["weekend_cabin"], Settings()))
    for load in designs["weekend_cabin"].plan.load:
        for window in load.windows or ():
            assert window in page
    assert words.say("head.windows") not in page_html(designs["fell_hut"], Settings())
