"""The workbench: a form that keeps a plan file as a person wrote it, saves what is a plan, and loses nothing else."""

import json
from dataclasses import replace

import ipywidgets as widgets
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.lab import chain_panel, findings_table, keep_settings, my_site, plan_form, write_order, write_sheet
from offgrid_core.quantities import Settings, settings
from offgrid_core.system import drafting as draft
from offgrid_core.system import parse_plan, read_plan, size

DEMOS = ("first_draft", "fell_hut", "riverbend", "gull_mast", "weekend_cabin")
US_COMMA = Settings(temperature="°F", length="ft", decimal=",")


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch, plans):
    monkeypatch.chdir(plans.parent)
    monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "my-work"))
    return tmp_path / "my-work"


@pytest.fixture
def text(plans):
    return (plans / "fell_hut.toml").read_text(encoding="utf-8")


def with_choice(form, **choices):
    return replace(form, choices={**form.choices, **choices})


class TestDrafting:
    @pytest.mark.parametrize("demo", DEMOS)
    @pytest.mark.parametrize("chosen", [Settings(), US_COMMA], ids=["usual", "°F and comma"])
    def test_a_form_put_back_untouched_leaves_every_character(self, demo, chosen, plans):
        text = (plans / f"{demo}.toml").read_text(encoding="utf-8")
        assert draft.drafted(text, draft.form_of(text, chosen), chosen) == text

    def test_a_change_touches_its_line_alone(self, text):
        form = with_choice(draft.form_of(text, Settings()), autonomy_days="6", bank_voltage_v="24")
        changed = draft.drafted(text, form, Settings()).splitlines()
        assert [(a, b) for a, b in zip(text.splitlines(), changed, strict=True) if a != b] == [
            ("bank_voltage_v = 48", "bank_voltage_v = 24"),
            ("autonomy_days = 4", "autonomy_days = 6"),
        ]

    def test_boxes_are_read_in_the_readers_units(self, text):
        form = with_choice(draft.form_of(text, US_COMMA), battery_temp_c="14", depth_frac="62,5")
        plan = parse_plan(draft.drafted(text, form, US_COMMA))
        assert (plan.choices.battery_temp_c, plan.choices.depth_frac) == (-10, 0.625)

    def test_a_unit_may_stand_in_the_box(self, text):
        form = draft.form_of(text, Settings())
        loads = ({**form.loads[0], "power_w": "0.12 kW"}, *form.loads[1:])
        assert parse_plan(draft.drafted(text, replace(form, loads=loads), Settings())).load[0].power_w == 120

    def test_rows_come_and_go_and_the_others_keep_what_the_form_does_not_show(self, text):
        form = draft.form_of(text, Settings())
        new = {"name": "drill", "bus": "AC", "power_w": "600", "hours_h": "0.2"}
        changed = draft.drafted(
            text, replace(form, loads=(*form.loads[1:], new), rows=(*form.rows[1:], None)), Settings()
        )
        was, now = parse_plan(text), parse_plan(changed)
        assert now.load[:-1] == was.load[1:]
        assert (now.load[-1].name, now.load[-1].power_w, now.load[-1].hours_h) == ("drill", 600, 0.2)
        assert "# the warden never washes while the pump runs" in changed

    def test_twelve_months(self, plans):
        text = (plans / "first_draft.toml").read_text(encoding="utf-8")
        form = draft.form_of(text, Settings())
        months = " ".join(str(x) for x in range(1, 8)) + " 6 5 4 3; 2"
        changed = draft.drafted(text, replace(form, site={**form.site, "sun_by_month_kwh_m2": months}), Settings())
        assert parse_plan(changed).site.sun_by_month_kwh_m2 == (1, 2, 3, 4, 5, 6, 7, 6, 5, 4, 3, 2)
        with pytest.raises(OffgridError, match="3 numbers stand here; twelve are wanted"):
            draft.drafted(text, replace(form, site={**form.site, "sun_by_month_kwh_m2": "1 2 3"}), Settings())

    def test_a_shipped_place_takes_the_own_numbers_out(self, plans):
        text = (plans / "first_draft.toml").read_text(encoding="utf-8")
        form = draft.form_of(text, Settings())
        changed = draft.drafted(text, replace(form, site={"name": "chicago"}), Settings())
        assert not parse_plan(changed).site.is_own

    @pytest.mark.parametrize(
        ("key", "typed", "said"),
        [
            ("autonomy_days", "many", r"\[choices\] days of autonomy: please re-enter"),
            ("autonomy_days", "9**9", "please re-enter"),
            ("autonomy_days", "-3", "−3 days is not allowed; allowed is"),
            ("depth_frac", "250", "250 % is not allowed"),
            ("autonomy_days", "", "autonomy_days: it is missing"),
            ("battery_temp_c", "nan", "please re-enter"),
            ("chemistry", "soup", "soup"),
        ],
    )
    def test_what_makes_no_plan_is_said_in_one_sentence(self, text, key, typed, said):
        with pytest.raises(OffgridError, match=said):
            draft.drafted(text, with_choice(draft.form_of(text, Settings()), **{key: typed}), Settings())

    def test_no_row_left(self, text):
        form = replace(draft.form_of(text, Settings()), loads=(), rows=())
        with pytest.raises(OffgridError, match="load"):
            draft.drafted(text, form, Settings())


class TestForm:
    def test_begins_from_a_draft_and_saves_with_the_first_change(self, folder):
        form = plan_form()
        assert form.status.startswith("A first draft; the first change saves it")
        assert not folder.exists()
        form.put("autonomy_days", "5")
        assert form.status.startswith("Saved in ")
        assert "Wh on the hardest day, a bank of" in form.status
        assert read_plan(folder / "my_site.toml").choices.autonomy_days == 5
        assert my_site().plan.choices.autonomy_days == 5

    def test_what_it_comes_to_is_what_the_plan_sizes_to(self):
        form = plan_form()
        design = my_site()
        assert f"{design.system['bank_ah']:,.0f}".replace(",", "\u2009") in form.status

    def test_nothing_typed_is_lost_when_it_is_no_plan_yet(self, folder):
        form = plan_form()
        form.put("autonomy_days", "5")
        saved = (folder / "my_site.toml").read_text(encoding="utf-8")
        form.put("depth_frac", "half of it")
        form.add_row()
        form.put("name", "drill", load=3)
        assert form.status.startswith("Not saved as a plan yet, but kept: ")
        assert (folder / "my_site.toml").read_text(encoding="utf-8") == saved
        again = plan_form()
        assert again.form == form.form
        again.put("depth_frac", "50")
        again.put("power_w", "600", load=3)
        assert "hours_h" in again.status
        again.put("hours_h", "0.5", load=3)
        assert again.status.startswith("Saved in ")
        assert not (folder / "my_site.draft.json").exists()
        assert [x.name for x in read_plan(folder / "my_site.toml").load] == ["fridge", "lamps", "laptop", "drill"]

    def test_rows_go(self, folder):
        form = plan_form()
        form.remove_row(1)
        assert [x.name for x in read_plan(folder / "my_site.toml").load] == ["fridge", "laptop"]
        form.put("name", "computer", load=1)
        assert [x.name for x in read_plan(folder / "my_site.toml").load] == ["fridge", "computer"]

    def test_a_place_of_the_list_and_back(self, folder):
        form = plan_form()
        form.put("place", "chicago")
        assert read_plan(folder / "my_site.toml").site.name == "chicago"
        hidden = [box.layout.display for key, box in form._site.items() if key != "place"]
        assert set(hidden) == {"none"}
        form.put("place", "own")
        assert read_plan(folder / "my_site.toml").site.latitude_deg == 44

    def test_parts_on_hand(self, folder):
        form = plan_form()
        form.put("module", form._owned["module"].options[1][1])
        assert "go together" in form.status
        form.put("modules_count", "8")
        assert read_plan(folder / "my_site.toml").owned.modules_count == 8

    def test_readers_units(self, folder):
        settings.remember(US_COMMA)
        form = plan_form()
        assert form.form.choices["battery_temp_c"] == "41"
        form.put("battery_temp_c", "23")
        assert read_plan(folder / "my_site.toml").choices.battery_temp_c == -5

    def test_a_damaged_draft_is_put_aside(self, folder):
        folder.mkdir()
        (folder / "my_site.draft.json").write_text("{", encoding="utf-8")
        assert plan_form().status.startswith("A first draft")
        assert (folder / "my_site.draft.json.damaged-1").exists()

    def test_a_folder_that_cannot_be_written_is_said(self, folder):
        form = plan_form()
        folder.write_text("a file in the way", encoding="utf-8")
        form.put("autonomy_days", "5")
        assert form.status.startswith("Nothing could be saved in ")
        assert form.form.choices["autonomy_days"] == "5"

    def test_every_box_says_what_it_is(self):
        def under(widget):
            yield widget
            for child in getattr(widget, "children", ()):
                yield from under(child)

        boxes = [w for w in under(plan_form()) if isinstance(w, widgets.Text | widgets.Dropdown)]
        assert len(boxes) > 30
        assert all(w.description or w.tooltip for w in boxes)

    def test_hostile_text_stays_text(self, folder):
        form = plan_form()
        for text in ("<script>alert(1)</script>", "__import__('os')", '"]\n[site]\nname="x"', "\u202e12", "9" * 10_000):
            form.put("name", text, load=0)
            form.put("power_w", text, load=1)
            assert "<script>" not in form._status.value
        form.put("name", "fridge", load=0)
        form.put("power_w", "7", load=1)
        assert form.status.startswith("Saved in ")
        assert len(read_plan(folder / "my_site.toml").load) == 3


class TestKeep:
    def test_the_sliders_go_into_the_plan(self, folder):
        with pytest.raises(OffgridError, match="Nothing was saved as your own plan yet"):
            keep_settings(chain_panel(my_site()))
        plan_form().put("autonomy_days", "5")
        panel = chain_panel(my_site())
        panel.set("depth_frac", 0.6)
        panel.set("refill_days", 6.0)
        told = keep_settings(panel).data
        assert "depth of discharge 60 %" in told
        plan = read_plan(folder / "my_site.toml")
        assert (plan.choices.depth_frac, plan.choices.autonomy_days, plan.assume) == (0.6, 5, {"refill_days": 6})

    def test_sheet_and_order_are_written(self, folder):
        assert "my_sheet.html" in write_sheet(my_site()).data
        assert "my_order.csv" in write_order(my_site()).data
        assert (folder / "my_sheet.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
        assert (folder / "my_order.csv").read_text(encoding="utf-8").startswith("part,")

    def test_every_limit_is_in_the_table_broken_ones_first(self, plans):
        design = size(read_plan(plans / "gull_mast.toml"))
        told = findings_table(design).value
        assert told.count("<tr>") == len(design.findings) + 1
        broken = sum(not f.passed for f in design.findings)
        assert f"{broken} of {len(design.findings)} broken" in told
        assert told.count("BROKEN") == broken

    def test_the_kept_form_is_plain_json(self, folder):
        form = plan_form()
        form.put("autonomy_days", "soon")
        assert json.loads((folder / "my_site.draft.json").read_text())["choices"]["autonomy_days"] == "soon"
