"""The workbench: a form that keeps a plan file as a person wrote it, saves what is a plan, and loses nothing else."""

import json
from dataclasses import replace

import ipywidgets as widgets
import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.lab import chain_panel, findings_table, keep_settings, my_site, plan_form, write_order, write_sheet
from offgrid_core.lab.form_words import in_words
from offgrid_core.quantities import Settings, settings
from offgrid_core.report.order import order_csv
from offgrid_core.system import draft_file, parse_plan, read_plan, size
from offgrid_core.system import drafting as draft

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
        with pytest.raises(OffgridError, match=r"twelve numbers are wanted, January first, .*; here stand 3"):
            draft.drafted(text, replace(form, site={**form.site, "sun_by_month_kwh_m2": "1 2 3"}), Settings())

    @pytest.mark.parametrize(
        ("between", "mark", "chosen"),
        [
            (", ", ".", Settings()),
            ("; ", ".", Settings()),
            (";", ",", US_COMMA),
            (" ", ",", Settings()),
            (" , ", ".", Settings()),
        ],
    )
    def test_twelve_months_as_they_are_pasted(self, between, mark, chosen, plans):
        text = (plans / "first_draft.toml").read_text(encoding="utf-8")
        form = draft.form_of(text, chosen)
        pasted = between.join(f"{x}.5".replace(".", mark) for x in range(1, 10)) + between + between.join("111")
        changed = draft.drafted(text, replace(form, site={**form.site, "sun_by_month_kwh_m2": pasted}), chosen)
        wanted = (1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5, 1, 1, 1)
        assert parse_plan(changed).site.sun_by_month_kwh_m2 == wanted

    @pytest.mark.parametrize("pasted", [",".join(["1.5"] * 12), " ".join(["1.5"] * 11 + ["x"]), "1,5, " * 12])
    def test_twelve_months_that_cannot_be_parted(self, pasted, plans):
        text = (plans / "first_draft.toml").read_text(encoding="utf-8")
        chosen = US_COMMA if ", " in pasted else Settings()
        form = draft.form_of(text, chosen)
        with pytest.raises(OffgridError, match="twelve numbers are wanted") as said:
            draft.drafted(text, replace(form, site={**form.site, "sun_by_month_kwh_m2": pasted}), chosen)
        assert len(str(said.value).split()) < 30

    def test_an_entry_with_its_unit_is_shown_and_left_as_it_is(self, text):
        text = text.replace("battery_temp_c = -8 ", 'battery_temp_c = "17.6 °F" ')
        text = text.replace("depth_frac = 0.5", "depth_frac = 0.5123456789")
        assert '"17.6 °F"' in text
        assert "0.5123456789" in text
        form = draft.form_of(text, Settings())
        assert form.choices["battery_temp_c"] == "−8"
        assert draft.drafted(text, form, Settings()) == text
        changed = draft.drafted(text, with_choice(form, autonomy_days="5"), Settings())
        assert '"17.6 °F"' in changed
        assert "0.5123456789" in changed

    def test_what_stands_beside_a_shipped_place_stays_until_another_is_chosen(self, plans):
        text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
        text = text.replace('name = "fell_hut"', 'name = "fell_hut"\nair_coldest_c = -45')
        form = draft.form_of(text, US_COMMA)
        assert parse_plan(draft.drafted(text, form, US_COMMA)).site.air_coldest_c == -45
        changed = draft.drafted(text, replace(form, site={**form.site, "place": "chicago"}), US_COMMA)
        assert parse_plan(changed).site.air_coldest_c is None

    def test_a_form_in_other_units_is_the_same_plan(self, text):
        form = with_choice(draft.form_of(text, Settings()), battery_temp_c="5", autonomy_days="2.5", depth_frac="half")
        again = draft.restated(form, Settings(), US_COMMA)
        assert again.choices["battery_temp_c"] == "41"
        assert again.choices["autonomy_days"] == "2,5"
        assert again.choices["depth_frac"] == "half"
        assert draft.restated(again, US_COMMA, Settings()) == form

    def test_a_row_added_to_a_list_that_goes_on_after_another_section(self, text):
        kettle = '\n[[load]] # by hand\nname = "kettle"\nbus = "AC"\npower_w = 1500\nhours_h = 0.1\n'
        text += f"\n[assume]\nrefill_days = 6\n{kettle}"
        form = draft.form_of(text, Settings())
        new = {"name": "drill", "bus": "AC", "power_w": "600", "hours_h": "0.2", "start_factor": "4"}
        changed = draft.drafted(text, replace(form, loads=(*form.loads, new), rows=(*form.rows, None)), Settings())
        assert [x.name for x in parse_plan(changed).load[-2:]] == ["kettle", "drill"]
        assert parse_plan(changed).load[-1].start_factor == 4
        assert parse_plan(changed).assume == {"refill_days": 6}
        assert "# by hand" in changed

    def test_a_shipped_place_takes_the_own_numbers_out(self, plans):
        text = (plans / "first_draft.toml").read_text(encoding="utf-8")
        form = draft.form_of(text, Settings())
        changed = draft.drafted(text, replace(form, site={**form.site, "place": "chicago"}), Settings())
        assert not parse_plan(changed).site.is_own

    @pytest.mark.parametrize(
        ("key", "typed", "said"),
        [
            ("autonomy_days", "many", r"\[choices\] autonomy_days: please re-enter"),
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
        bank = f"{design.system['bank_ah']:,.0f}".replace(",", "\u2009")
        assert f"a bank of {bank} Ah at {design.system['bank_voltage_v']:g} V" in form.status  # Ah say little without V

    def test_the_line_above_the_form_parts_no_number_at_its_end(self):
        form = plan_form()
        assert "\u2009" in form.status  # a space at which a browser may end the line
        assert "\u2009" not in form._status.value
        assert " Ah" not in form._status.value

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
        assert "Load 4, hours a day: the box is empty" in again.status
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
        form.put("place", "")
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

    def test_all_rows_taken_off_and_others_put_in(self, folder):
        form = plan_form()
        for _ in range(3):
            form.remove_row(0)
        assert form.status == "Not saved as a plan yet, but kept: The loads list: it is empty; at least one is wanted."
        form.add_row()
        form.put("name", "pump", load=0)
        form = plan_form()
        assert [load["name"] for load in form.form.loads] == ["pump"]
        form.put("power_w", "370", load=0)
        form.put("hours_h", "2", load=0)
        form.put("start_factor", "6", load=0)
        form.put("power_factor_ratio", "0.7", load=0)
        assert form.status.startswith("Saved in ")
        (pump,) = read_plan(folder / "my_site.toml").load
        assert (pump.name, pump.power_w, pump.start_factor, pump.power_factor_ratio) == ("pump", 370, 6, 0.7)

    def test_a_pump_sizes_an_inverter_for_its_start(self):
        form = plan_form()
        form.put("start_factor", "", load=0)
        form.put("power_w", "370", load=0)
        without = my_site().loads["start_extra_w"]
        form.put("start_factor", "6", load=0)
        assert (without, my_site().loads["start_extra_w"]) == (0, 370 * 5)

    def test_own_numbers_outlive_a_place_of_the_list(self, folder):
        form = plan_form()
        mine = " ".join(["2.5"] * 12)
        form.put("sun_by_month_kwh_m2", mine)
        form.put("name", "My hut")
        form.put("place", "fell_hut")
        assert form.status.startswith("Saved in ")
        assert not read_plan(folder / "my_site.toml").site.is_own
        again = plan_form()
        again.put("autonomy_days", "5")
        again = plan_form()
        assert again.form.site["place"] == "fell_hut"
        again.put("place", "")
        site = read_plan(folder / "my_site.toml").site
        assert (site.name, site.sun_by_month_kwh_m2, site.latitude_deg) == ("My hut", (2.5,) * 12, 44)
        assert not (folder / "my_site.draft.json").exists()

    def test_a_title(self, folder):
        form = plan_form()
        form.put("title", "The hut on the hill")
        assert read_plan(folder / "my_site.toml").title == "The hut on the hill"
        form.put("title", "")
        assert form.status.startswith("Not saved as a plan yet, but kept: Title of the sheet: it is missing")

    def test_it_says_how_many_limits_are_broken(self):
        form = plan_form()
        form.put("depth_frac", "90")
        design = my_site()
        broken = sum(not f.passed for f in design.findings)
        assert broken > 0
        assert f"Limits broken: {broken} of {len(design.findings)};" in form.status

    def test_a_design_without_a_broken_limit(self, folder, plans):
        folder.mkdir()
        (folder / "my_site.toml").write_text((plans / "fell_hut.toml").read_text(encoding="utf-8"), encoding="utf-8")
        assert all(f.passed for f in my_site().findings)
        assert plan_form().status.endswith("No limit is broken.")

    def test_a_plan_that_cannot_be_sized_is_saved_and_it_says_so(self, folder):
        form = plan_form()
        unit = next(key for label, key in form._owned["battery_unit"].options if key.startswith("flooded"))
        form.put("units_count", "8")
        form.put("battery_unit", unit)
        assert f'battery_unit = "{unit}"' in (folder / "my_site.toml").read_text(encoding="utf-8")
        assert form.status.startswith(f"Saved in {folder / 'my_site.toml'}, but it cannot be sized: ")
        assert "Already on hand, battery units: " in form.status
        assert not (folder / "my_site.draft.json").exists()

    def test_the_box_in_trouble_is_marked(self):
        form = plan_form()

        def marked():
            return [place for place, box in form._boxes() if "offgrid-wrong" in box._dom_classes]

        form.put("depth_frac", "half")
        assert marked() == [(None, "depth_frac")]
        form.put("depth_frac", "50")
        form.put("power_w", "-1", load=2)
        assert marked() == [(2, "power_w")]
        form.put("power_w", "1", load=2)
        assert marked() == []

    def test_what_is_said_stands_above_every_box(self):
        form = plan_form()
        boxes = [isinstance(child, widgets.Text | widgets.Dropdown) for child in form.children]
        assert form.children.index(form._status) < boxes.index(True)


class TestHandEdits:
    """What is written into the file by hand, or by another cell, while a form is open or a draft lies beside it."""

    @pytest.fixture
    def mine(self, folder):
        plan_form().put("autonomy_days", "4")
        return folder / "my_site.toml"

    @staticmethod
    def edit(mine, old, new):
        text = mine.read_text(encoding="utf-8")
        assert old in text
        mine.write_text(text.replace(old, new), encoding="utf-8")

    @staticmethod
    def append(mine, more):
        mine.write_text(mine.read_text(encoding="utf-8") + more, encoding="utf-8")

    GENERATOR = "\n[generator] # by hand\nrated_w = 3000\nrated_va = 3500\ncharger_a = 40\n"
    KETTLE = '\n[[load]]\nname = "kettle"\nbus = "AC"\npower_w = 1500\nhours_h = 0.2\nweek_days = 2\n'

    def test_a_section_added_by_hand_stays(self, mine):
        form = plan_form()
        self.append(mine, self.GENERATOR)
        form.put("autonomy_days", "5")
        plan = read_plan(mine)
        assert (plan.generator.rated_w, plan.choices.autonomy_days) == (3000, 5)
        assert "# by hand" in mine.read_text(encoding="utf-8")
        assert form.status.startswith("Saved in ")
        assert form.status.endswith("The file was changed elsewhere meanwhile and was read again.")
        form.put("autonomy_days", "6")
        assert "read again" not in form.status

    def test_settings_kept_from_the_sliders_stay_and_are_shown(self, mine):
        form = plan_form()
        panel = chain_panel(my_site())
        panel.set("depth_frac", 0.3)
        keep_settings(panel)
        form.put("autonomy_days", "5")
        assert (read_plan(mine).choices.depth_frac, form.form.choices["depth_frac"]) == (0.3, "30")
        assert read_plan(mine).choices.autonomy_days == 5

    def test_the_box_that_is_typed_in_counts(self, mine):
        form = plan_form()
        self.edit(mine, "autonomy_days = 4", "autonomy_days = 7")
        form.put("autonomy_days", "5")
        assert read_plan(mine).choices.autonomy_days == 5

    def test_a_row_of_the_file_comes_into_an_open_form(self, mine):
        form = plan_form()
        self.append(mine, self.KETTLE)
        form.put("power_w", "90", load=0)
        assert [(x.name, x.power_w) for x in read_plan(mine).load] == [
            ("fridge", 90),
            ("lamps", 7),
            ("laptop", 55),
            ("kettle", 1500),
        ]
        assert form.form.loads[3]["power_w"] == "1500"
        form.put("count", "2", load=3)
        assert (read_plan(mine).load[3].count, read_plan(mine).load[3].week_days) == (2, 2)

    def test_a_row_added_beside_a_kept_draft(self, mine):
        form = plan_form()
        form.put("depth_frac", "half")
        form.add_row()
        form.put("name", "drill", load=3)
        self.append(mine, self.KETTLE)
        again = plan_form()
        assert [load["name"] for load in again.form.loads] == ["fridge", "lamps", "laptop", "kettle", "drill"]
        assert again.form.choices["depth_frac"] == "half"
        assert "read again" in again.status
        again.put("depth_frac", "40")
        again.put("power_w", "600", load=4)
        again.put("hours_h", "0.5", load=4)
        assert again.status.startswith("Saved in ")
        plan = read_plan(mine)
        assert [x.name for x in plan.load] == ["fridge", "lamps", "laptop", "kettle", "drill"]
        assert (plan.load[3].week_days, plan.choices.depth_frac) == (2, 0.4)

    def test_an_older_draft_gives_way_where_both_were_changed_and_that_is_said(self, mine):
        form = plan_form()
        form.put("depth_frac", "half")
        form.put("autonomy_days", "6")
        self.edit(mine, "autonomy_days = 4", "autonomy_days = 9")
        again = plan_form()
        assert (again.form.choices["depth_frac"], again.form.choices["autonomy_days"]) == ("half", "9")
        assert again.status.endswith("Its entries replace what was typed here: days of autonomy (6).")
        self.edit(mine, "depth_frac = 0.5", "depth_frac = 0.3")
        again = plan_form()
        assert again.status.startswith("Saved in ")
        assert again.status.endswith("Its entries replace what was typed here: depth of discharge (half).")

    def test_rows_taken_off_on_one_side(self, mine):
        form = plan_form()
        text = mine.read_text(encoding="utf-8")
        lamps = text[text.index('[[load]]\nname = "lamps"') : text.index('[[load]]\nname = "laptop"')]
        mine.write_text(text.replace(lamps, ""), encoding="utf-8")
        form.put("power_w", "60", load=2)
        assert [(x.name, x.power_w) for x in read_plan(mine).load] == [("fridge", 80), ("laptop", 60)]
        self.edit(mine, "power_w = 80", "power_w = 81")
        form.remove_row(0)  # the row has another entry in the file now, so it stays
        assert [(x.name, x.power_w) for x in read_plan(mine).load] == [("fridge", 81), ("laptop", 60)]
        form.remove_row(0)
        assert [x.name for x in read_plan(mine).load] == ["laptop"]

    def test_a_row_typed_in_here_and_taken_off_there_stays(self, mine):
        form = plan_form()
        text = mine.read_text(encoding="utf-8")
        mine.write_text(text[: text.index('[[load]]\nname = "laptop"')], encoding="utf-8")
        form.put("power_w", "60", load=2)
        assert [x.name for x in read_plan(mine).load] == ["fridge", "lamps", "laptop"]

    def test_a_file_that_is_no_plan_any_more_is_left_alone(self, mine):
        form = plan_form()
        self.edit(mine, "autonomy_days = 4", "autonomy_days = 4,5")
        broken = mine.read_text(encoding="utf-8")
        form.put("depth_frac", "40")
        assert form.status.startswith("The file was changed elsewhere and is no plan now")
        assert "my_site.toml, line " in form.status
        assert mine.read_text(encoding="utf-8") == broken
        assert plan_form().form.choices["depth_frac"] == "40"
        self.edit(mine, "autonomy_days = 4,5", "autonomy_days = 4.5")
        again = plan_form()
        assert again.status.startswith("Saved in ")
        assert (read_plan(mine).choices.autonomy_days, read_plan(mine).choices.depth_frac) == (4.5, 0.4)

    def test_a_broken_plan_is_called_by_its_name(self, mine):
        self.edit(mine, "autonomy_days = 4", "autonomy_days = -4")
        with pytest.raises(OffgridError, match=r"^my_site\.toml, \[choices\] autonomy_days: "):
            plan_form()

    def test_a_file_taken_away_is_written_again(self, mine):
        form = plan_form()
        mine.unlink()
        form.put("depth_frac", "40")
        assert (read_plan(mine).choices.autonomy_days, read_plan(mine).choices.depth_frac) == (4, 0.4)

    def test_a_crash_between_the_plan_and_its_draft(self, mine, folder):
        form = plan_form()
        form.add_row()
        form.put("name", "drill", load=3)
        form.put("power_w", "600", load=3)
        draft = (folder / "my_site.draft.json").read_bytes()
        form.put("hours_h", "0.5", load=3)
        (folder / "my_site.draft.json").write_bytes(draft)
        again = plan_form()
        assert [x.name for x in read_plan(mine).load] == ["fridge", "lamps", "laptop", "drill"]
        assert [load["name"] for load in again.form.loads] == ["fridge", "lamps", "laptop", "drill"]
        assert again.form.loads[3]["hours_h"] == "0.5"

    def test_a_draft_in_other_units(self, mine):
        form = plan_form()
        form.put("battery_temp_c", "10")
        form.put("depth_frac", "half")
        form.put("battery_temp_c", "20")
        settings.remember(US_COMMA)
        again = plan_form()
        assert again.form.choices["battery_temp_c"] == "68"
        again.put("depth_frac", "50")
        assert read_plan(mine).choices.battery_temp_c == 20

    def test_a_damaged_plan_in_a_draft_is_put_aside(self, mine, folder):
        form = plan_form()
        form.put("depth_frac", "half")
        kept = draft_file.kept(mine)
        draft_file.keep(mine, replace(kept, plan="no plan"))
        assert plan_form().status.startswith("Saved in ")
        assert (folder / "my_site.draft.json.damaged-1").exists()


@pytest.mark.parametrize(
    ("complaint", "said", "box"),
    [
        ("title: it is missing", "Title of the sheet: it is missing", (None, "title")),
        (
            "[site] air_coldest_c −3 °C is warmer",
            "The place, coldest morning air −3 °C is warmer",
            (None, "air_coldest_c"),
        ),
        ("load 4 (kettle): one of hours_h and windows", "Load 4 (kettle): one of hours a day and windows", None),
        ("load 4 (my bus: a) bus: 'x'", "Load 4 (my bus: a), AC or DC: 'x'", (3, "bus")),
        ("[parts] battery_unit: 'x' is no unit", "[parts] battery_unit: 'x' is no unit", None),
        (
            "[owned] module: x, but [parts] asks for y",
            "Already on hand, modules: x, but [parts] asks for y",
            (None, "module"),
        ),
        ("main circuits: the controller is hot", "main circuits: the controller is hot", None),
        ("[choices] bus: nameless", "Choices, AC or DC: nameless", (None, "bus")),
    ],
)
def test_a_complaint_in_the_words_of_the_form(complaint, said, box):
    assert in_words(complaint) == (said, box)


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

    def test_a_cell_takes_the_plan_as_it_is_on_disk_when_it_runs(self, folder, plans):
        page = json.loads((plans.parent / "my_own_site.ipynb").read_text(encoding="utf-8"))
        codes = ["".join(cell["source"]) for cell in page["cells"] if cell["cell_type"] == "code"]
        names = {}

        def run(word):
            exec(next(code for code in codes if word in code), names)

        for word in ("import", "plan_form()", "chain_panel("):
            run(word)
        plan_form().put("title", "Another title")
        run("write_sheet(")
        assert "Another title" in (folder / "my_sheet.html").read_text(encoding="utf-8")
        plan_form().put("autonomy_days", "9")
        run("write_order(")
        assert (folder / "my_order.csv").read_bytes().decode() == order_csv(my_site(), Settings())

    def test_an_order_list_is_no_page_to_print(self):
        assert "spreadsheet" in write_order(my_site()).data
        assert "print" not in write_order(my_site()).data
        assert "print it from a browser" in write_sheet(my_site()).data

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
        assert json.loads((folder / "my_site.draft.json").read_text())["form"]["choices"]["autonomy_days"] == "soon"
