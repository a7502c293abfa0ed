"""Units, settings, shown values and the catalogue of words."""

import json
import math
import re
import warnings
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants
from worksheet_cases import TABLES

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import names, settings, wording
from offgrid_core.quantities.settings import CHOICES, Settings
from offgrid_core.quantities.text import number, show, word
from offgrid_core.quantities.units import ENDINGS, MENUS, awg_label, awg_to_mm2, menu, mm2_to_awg, unit_of
from offgrid_core.quantities.wording import TEXT, say
from offgrid_core.worksheet import Table

US = Settings(temperature="°F", length="ft", wire="AWG")
COMMA = Settings(decimal=",")


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "my-work"


def unit_called(name, symbol):
    return next(u for u in menu(name) if u.symbol == symbol)


class TestUnits:
    @pytest.mark.parametrize(
        ("name", "symbol", "kind"),
        [
            ("energy_day_wh", "Wh", "energy"),
            ("peak_w", "W", "power"),
            ("peak_va", "VA", "apparent power"),
            ("bank_ah", "Ah", "capacity"),
            ("current_by_row_a", "A", "current"),
            ("bank_voltage_v", "V", "voltage"),
            ("hours_by_row_h", "h", "time"),
            ("autonomy_days", "days", "days"),
            ("depth_frac", "as a fraction", "fraction"),
            ("growth_factor", "", "number"),
            ("array_load_ratio", "", "number"),
            ("count_by_row", "", "count"),
            ("battery_temp_c", "°C", "temperature"),
            ("cell_rise_k", "K", "difference"),
            ("length_by_row_m", "m", "length"),
            ("pipe_mm", "mm", "thickness"),
            ("cable_by_row_mm2", "mm²", "area"),
            ("vent_cm2", "cm²", "opening"),
            ("air_m3_h", "m³/h", "air flow"),
            ("bank_resistance_ohm", "Ω", "resistance"),
            ("cell_mohm", "mΩ", "small resistance"),
            ("resistance_by_row_ohm_m", "Ω/m", "resistance of a length"),
            ("cell_resistance_ohm_ah", "Ω·Ah", "resistance of a capacity"),
            ("unit_mass_kg", "kg", "mass"),
            ("plane_by_month_kwh_m2", "kWh/m²", "sun"),
            ("full_sun_kw_m2", "kW/m²", "irradiance"),
            ("tilt_deg", "°", "angle"),
            ("voc_temp_per_k", "per K", "share per kelvin"),
            ("charge_rate_max_per_h", "per h", "rate"),
            ("compensation_mv_k", "mV/K", "cell slope"),
            ("design_month", "", "month"),
            ("bank_cost", "", "money"),
        ],
    )
    def test_longest_ending_is_the_unit(self, name, symbol, kind):
        assert (unit_of(name).symbol, unit_of(name).kind) == (symbol, kind)

    def test_every_ending_has_a_menu_with_one_canonical_unit(self):
        assert set(ENDINGS.values()) == set(MENUS)
        for units in MENUS.values():
            assert len([u for u in units if u.factor == 1 and u.offset == 0]) == 1

    def test_what_is_read_from_a_table_has_the_unit_of_its_column(self):
        """A fraction and a count are columns without a unit, or with a word."""
        in_words = {"as a fraction": ("", "lost"), "": ("", "cycles")}
        tables = {n for n, q in names.QUANTITIES.items() if q.is_table}
        assert tables - set(TABLES) == {"smaller_fuse", "thinner_cable", "nearest_cable"}
        for name in tables & set(TABLES):
            symbol = unit_of(name).symbol
            assert TABLES[name].y_unit in in_words.get(symbol, (symbol,)), name
        assert (unit_of("smaller_fuse").symbol, unit_of("thinner_cable").symbol) == ("A", "mm²")
        assert show("cell_rest_voltage", 2.03) == "2.03 V"
        assert show("capacity_kept", 0.6022) == "60.22 %"

    def test_every_numeric_input_has_a_unit(self):
        for q in names.QUANTITIES.values():
            if not q.is_table:
                assert unit_of(q.name)

    @pytest.mark.parametrize("name", ["", "bank", "wh_bank", "kept_capacity", "bank_AH", "a" * 10_000])
    def test_unknown_ending_is_refused(self, name):
        with pytest.raises(OffgridError, match="does not end in a unit") as told:
            unit_of(name)
        assert len(str(told.value)) < 500

    def test_a_temperature_is_not_a_difference(self):
        assert unit_of("battery_temp_c").kind != unit_of("cell_rise_k").kind
        assert unit_called("battery_temp_c", "°F").to_canonical(9.0) == pytest.approx(-12.778, abs=1e-3)
        assert unit_called("cell_rise_k", "°F steps").to_canonical(9.0) == pytest.approx(5.0)

    @pytest.mark.parametrize("fahrenheit", [-40.0, 0.0, 32.0, 62.0, 77.0, 212.0])
    def test_fahrenheit_against_scipy(self, fahrenheit):
        """Outside source: scipy.constants, whose conversions follow NIST SP 811."""
        wanted = constants.convert_temperature(fahrenheit, "Fahrenheit", "Celsius")
        assert unit_called("x_c", "°F").to_canonical(fahrenheit) == pytest.approx(wanted, abs=1e-9)

    def test_fixed_points_are_exact(self):
        """Ice and steam point, and where both scales meet: from memory."""
        f = unit_called("x_c", "°F")
        assert [f.to_canonical(x) for x in (32.0, 212.0, -40.0)] == [0.0, 100.0, -40.0]

    def test_factors_against_scipy(self):
        """Outside source: scipy.constants (NIST SP 811)."""
        assert unit_called("x_m", "ft").factor == pytest.approx(constants.foot, rel=1e-15)
        assert unit_called("x_kg", "lb").factor == pytest.approx(constants.pound, rel=1e-15)
        assert unit_called("x_wh", "MJ").factor == pytest.approx(constants.mega / constants.hour)
        assert unit_called("x_h", "min").factor == pytest.approx(constants.minute / constants.hour)
        assert unit_called("x_k", "°F steps").factor == pytest.approx(constants.degree_Fahrenheit)

    def test_25_feet(self):
        """OSHA 29 CFR 1926.441(a)(6): 25 ft is printed there as 7.62 m (seen)."""
        assert unit_called("x_m", "ft").to_canonical(25) == pytest.approx(7.62, abs=1e-9)

    @given(st.sampled_from([u for units in MENUS.values() for u in units]), st.floats(-1e9, 1e9))
    def test_there_and_back(self, unit, x):
        assert unit.from_canonical(unit.to_canonical(x)) == pytest.approx(x, rel=1e-12, abs=1e-12 * (1 + unit.offset))

    def test_arrays(self):
        got = unit_called("x_c", "°F").to_canonical(np.array([[32.0, 212.0]]))
        np.testing.assert_array_equal(got, [[0.0, 100.0]])


class TestWireGauge:
    """AWG by ASTM B258 geometry."""

    @pytest.mark.parametrize(
        ("gauge", "mm2"),
        [(14, 2.0809), (10, 5.2612), (6, 13.302), (2, 33.631), (0, 53.475), (-1, 67.431), (-3, 107.22)],
    )
    def test_areas(self, gauge, mm2):
        """AWG-002 … AWG-014: areas worked by hand from ASTM B258 (seen); within 0.03 %."""
        assert awg_to_mm2(gauge) == pytest.approx(mm2, rel=3e-4)

    @pytest.mark.parametrize(
        ("gauge", "cmil"),
        [(14, 4107), (10, 10380), (6, 26250), (2, 66370), (0, 105500), (-1, 133100), (-3, 211600)],
    )
    def test_circular_mils_of_a_printed_table(self, gauge, cmil):
        """Lessons in Electric Circuits vol. 5, wire table (seen, four figures); a circular mil is π/4 of a mil²."""
        assert awg_to_mm2(gauge) == pytest.approx(cmil * math.pi / 4 * 0.0254**2, rel=6e-4)

    def test_the_two_sizes_that_define_the_scale(self):
        """ASTM B258: 36 AWG is 0.005 in across and 4/0 is 0.46 in."""
        assert awg_to_mm2(np.array([36, -3])) == pytest.approx(math.pi / 4 * (np.array([0.005, 0.46]) * 25.4) ** 2)

    @given(st.integers(-3, 40))
    def test_there_and_back(self, gauge):
        assert mm2_to_awg(awg_to_mm2(gauge)) == pytest.approx(gauge, abs=1e-9)

    def test_bigger_number_is_thinner(self):
        assert np.all(np.diff(awg_to_mm2(np.arange(-3, 41))) < 0)
        assert say("wire.gauge_note") == "bigger number = thinner wire"

    @pytest.mark.parametrize(("gauge", "said"), [(4, "4 AWG"), (0, "1/0 AWG"), (-1, "2/0 AWG"), (-3, "4/0 AWG")])
    def test_labels(self, gauge, said):
        assert awg_label(gauge) == said

    @pytest.mark.parametrize("gauge", [-4, 41])
    def test_gauges_that_do_not_exist(self, gauge):
        with pytest.raises(OffgridError, match="from -3"):
            awg_label(gauge)

    @pytest.mark.parametrize("area", [0, -1, math.nan, [4, 0]])
    def test_areas_that_do_not_exist(self, area):
        with pytest.raises(OffgridError, match="above 0"):
            mm2_to_awg(area)


class TestNumber:
    @pytest.mark.parametrize(
        ("x", "said"),
        [
            (0, "0"),
            (-0.0, "0"),
            (300.0, "300"),
            (0.84037, "0.8404"),
            (1234.5, "1_234"),
            (1235.5, "1_236"),
            (999.96, "1_000"),
            (123456.0, "123_500"),
            (1234567.0, "1_235_000"),
            (-8.0, "−8"),
            (-1234.56, "−1_235"),
            (0.1 + 0.2, "0.3"),
            (4.0000000001, "4"),
            (0.000325, "0.000325"),
            (1.2e-7, "1.2e−7"),
            (2.5e13, "2.5e13"),
            (-2e-9, "−2e−9"),
            (math.nan, "not a number"),
            (math.inf, "∞"),
            (-math.inf, "−∞"),
        ],
    )
    def test_four_figures(self, x, said):
        assert number(x) == said.replace("_", "\u2009")

    def test_three_figures(self):
        assert [number(x, 3) for x in (354.4, 0.8404, 12345)] == ["354", "0.84", "12\u2009300"]

    def test_decimal_comma(self):
        assert number(1234567.8, 8, COMMA) == "1\u2009234\u2009567,8"
        assert number(1.5e-8, 4, COMMA) == "1,5e−8"


class TestShow:
    @pytest.mark.parametrize(
        ("name", "value", "said"),
        [
            ("bank_ah", 300.0, "300 Ah"),
            ("bank_ah", 300, "300 Ah"),
            ("bank_ah", np.float64(354.2), "354.2 Ah"),
            ("bank_ah", np.array(354.2), "354.2 Ah"),
            ("bank_ah", [354.2], "354.2 Ah"),
            ("kept_frac", 0.8404, "84.04 %"),
            ("kept_frac", 1.0, "100 %"),
            ("battery_temp_c", -8, "−8 °C"),
            ("cell_rise_k", 25, "25 K"),
            ("tilt_deg", 30, "30°"),
            ("cable_by_row_mm2", 21.15, "21.15 mm²"),
            ("voc_temp_per_k", -0.003, "−0.3 %/K"),
            ("array_load_ratio", 1.25, "1.25"),
            ("strings_count", 4.0, "4"),
            ("strings_count", 12345, "12\u2009345"),
            ("strings_count", 3.5, "3.5"),
            ("strings_count", math.nan, "not a number"),
            ("strings_count", math.inf, "∞"),
            ("design_month", 1, "January"),
            ("design_month", 12.0, "December"),
            ("design_month", 13, "13"),
            ("bank_cost", 1200, "1\u2009200"),
            ("bank_ah", math.nan, "not a number"),
            ("bank_ah", None, "not given"),
            ("bank_ah", True, "yes"),
            ("bank_ah", np.False_, "no"),
            ("code", "plain words", "plain words"),
            ("bank_ah", [], "no values"),
            ("bank_ah", np.linspace(1, 2, 65), "1 … 2 Ah (65 values)"),
            ("bank_ah", [[1, 2], [3, 4]], "1 … 4 Ah (4 values)"),
            ("sun_by_month_kwh_m2", range(1, 13), "1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 kWh/m²"),
            ("sun_by_month_kwh_m2", [1, 2, 3], "1 … 3 kWh/m² (3 values)"),
            ("power_by_row_w", range(1, 13), "1 … 12 W (12 values)"),
        ],
    )
    def test_usual_settings(self, name, value, said):
        assert show(name, value) == said

    @pytest.mark.parametrize(
        ("name", "value", "said"),
        [
            ("battery_temp_c", 0, "32 °F"),
            ("battery_temp_c", -40, "−40 °F"),
            ("cell_rise_k", 25, "45 °F steps"),
            ("length_by_row_m", 7.62, "25 ft"),
            ("cable_by_row_mm2", 21.15, "21.15 mm² (4 AWG)"),
            ("cable_by_row_mm2", 53.48, "53.48 mm² (1/0 AWG)"),
            ("cable_by_row_mm2", 35, "35 mm² (between 2 AWG and 1 AWG)"),
            ("cable_by_row_mm2", 60, "60 mm² (between 1/0 AWG and 2/0 AWG)"),
            ("cable_by_row_mm2", 240, "240 mm²"),
            ("cable_by_row_mm2", 0, "0 mm²"),
            ("cable_by_row_mm2", -1, "−1 mm²"),
            ("cable_by_row_mm2", math.inf, "∞ mm²"),
            ("vent_cm2", 35, "35 cm²"),
        ],
    )
    def test_other_settings(self, name, value, said):
        assert show(name, value, US) == said

    def test_one_day_and_one_year(self):
        assert show("autonomy_days", 1.0) == "1 day"
        assert show("age_spread_max_years", 1.0) == "1 year"
        assert (show("autonomy_days", 1.5), show("autonomy_days", 0.0)) == ("1.5 days", "0 days")
        assert show("bank_ah", 1.0) == "1 Ah"

    def test_currency_and_comma(self):
        chosen = Settings(decimal=",", currency="kr.")
        assert show("bank_cost", 1250.5, chosen, 6) == "1\u2009250,5 kr."
        assert show("sun_by_month_kwh_m2", [1.5] * 12, chosen) == "; ".join(["1,5"] * 12) + " kWh/m²"

    def test_table(self):
        assert show("capacity_kept", Table("capacity kept", (0.0,), (1.0,), "°C", "")) == "capacity kept"

    def test_a_number_without_a_unit_in_its_name(self):
        with pytest.raises(OffgridError, match="kept_capacity"):
            show("kept_capacity", 0.8)

    def test_figures(self):
        assert show("bank_ah", 354.24, figures=3) == "354 Ah"

    def test_word(self):
        assert word("autonomy_days") == names.label_of("autonomy_days")
        assert word("x", {"x": "a line's label"}.__getitem__) == "a line's label"


class TestSettings:
    def test_usual(self):
        assert Settings() == Settings("°C", "m", "mm²", ".", "")

    @pytest.mark.parametrize("field", CHOICES)
    @pytest.mark.parametrize("value", ["", "K", None, 3, ["m"], "x" * 10_000])
    def test_a_value_that_is_no_choice(self, field, value):
        with pytest.raises(OffgridError, match=field) as told:
            Settings(**{field: value})
        assert all(c in str(told.value) for c in CHOICES[field])
        assert len(str(told.value)) < 200

    @pytest.mark.parametrize(
        "label", [None, 3, "a" * 9, " €", "€ ", "a1", "<b>", "a&b", "\u202e$", "a\nb", ".", ",x", "-", "−", "+", "'"]
    )
    def test_a_currency_that_is_no_label(self, label):
        with pytest.raises(OffgridError, match="currency"):
            Settings(currency=label)

    @pytest.mark.parametrize("label", ["", "$", "€", "EUR", "kr.", "Rs", "ريال", "US $"])
    def test_a_currency_label(self, label):
        assert Settings(currency=label).unit_for("bank_cost").symbol == label

    def test_unit_for(self):
        assert [US.unit_for(n).symbol for n in ("x_c", "x_k", "x_m", "x_mm2", "x_frac", "x_wh")] == [
            "°F",
            "°F steps",
            "ft",
            "mm²",
            "%",
            "Wh",
        ]
        assert [Settings().unit_for(n).symbol for n in ("x_c", "x_k", "x_m")] == ["°C", "K", "m"]

    def test_remembered(self, folder):
        chosen = Settings("°F", "ft", "AWG", ",", "€")
        assert settings.remember(chosen, folder) == folder / "settings.json"
        assert settings.load(folder) == chosen
        settings.remember(Settings(), folder)
        assert settings.load(folder) == Settings()
        assert [p.name for p in folder.iterdir()] == ["settings.json"]

    def test_nothing_remembered(self, folder):
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            assert settings.load(folder) == Settings()
        assert not folder.exists()

    def test_the_learners_folder(self, tmp_path, monkeypatch):
        monkeypatch.chdir(tmp_path)
        monkeypatch.delenv("OFFGRID_FOLDER", raising=False)
        settings.remember(COMMA)
        assert (tmp_path / "my-work" / "settings.json").exists()
        monkeypatch.setenv("OFFGRID_FOLDER", str(tmp_path / "other"))
        assert settings.load() == Settings()
        monkeypatch.delenv("OFFGRID_FOLDER")
        assert settings.load() == COMMA

    def test_an_editors_byte_order_mark(self, folder):
        folder.mkdir()
        (folder / "settings.json").write_text('{"decimal": ","}', encoding="utf-8-sig")
        assert settings.load(folder) == COMMA

    @pytest.mark.parametrize(
        "damage",
        [
            b"",
            b"{",
            b"\xff\xfe\x00",
            b"[]",
            b"null",
            b'{"decimal": ";"}',
            b'{"decimal": {"a": 1}}',
            b'{"speed": 1}',
            b"[" * 9_000,
            b'{"decimal": ","}' + b" " * 20_000,
        ],
    )
    def test_damage_is_set_aside(self, folder, damage):
        folder.mkdir()
        for number_ in (1, 2):
            (folder / "settings.json").write_bytes(damage)
            with pytest.warns(UserWarning, match=rf"settings\.json\.damaged-{number_}"):
                assert settings.load(folder) == Settings()
            assert (folder / f"settings.json.damaged-{number_}").read_bytes() == damage
        assert settings.load(folder) == Settings()

    def test_remembering_over_damage_loses_nothing(self, folder):
        folder.mkdir()
        (folder / "settings.json").write_text("{half")
        with pytest.warns(UserWarning, match="damaged-1"):
            settings.remember(COMMA, folder)
        assert settings.load(folder) == COMMA
        assert (folder / "settings.json.damaged-1").read_text() == "{half"

    def test_a_crash_while_writing_keeps_the_old(self, folder, monkeypatch):
        settings.remember(COMMA, folder)

        def crash(*_):
            raise OSError(28, "No space left on device")

        monkeypatch.setattr("os.replace", crash)
        with pytest.raises(OffgridError, match="No space left"):
            settings.remember(US, folder)
        assert settings.load(folder) == COMMA
        assert [p.name for p in folder.iterdir()] == ["settings.json"]

    def test_a_file_that_cannot_be_opened_stays(self, folder):
        (folder / "settings.json").mkdir(parents=True)
        with pytest.warns(UserWarning, match="left where it is"):
            assert settings.load(folder) == Settings()
        assert (folder / "settings.json").is_dir()

    def test_written_plainly(self, folder):
        text = settings.remember(Settings(currency="€"), folder).read_text(encoding="utf-8")
        assert json.loads(text)["currency"] == "€"
        assert "°C" in text


class TestWording:
    def test_every_sentence_has_a_caller(self):
        """A key stands in some module of the package, whole or built from its beginning (a month, a caution)."""
        core = Path(wording.__file__).parents[1]
        written = "".join(p.read_text(encoding="utf-8") for p in core.rglob("*.py") if p.name != "wording.py")
        written = written.replace("'", '"')
        dead = [k for k in TEXT if f'"{k}"' not in written and f'"{k.partition(".")[0]}.{{' not in written]
        assert dead == []

    @pytest.mark.parametrize("key", TEXT)
    def test_every_sentence_can_be_said(self, key):
        said = say(key, **dict.fromkeys(wording.places(key), "{x}"))
        assert said
        assert said.count("{x}") == len(re.findall(r"\{\w+\}", TEXT[key]))
        assert said == said.strip()

    @pytest.mark.parametrize(
        ("key", "values"),
        [
            ("panel.pim", {}),
            ("", {}),
            ("panel.pin", {"number": 1}),
            ("panel.problem", {"number": 1}),
            ("panel.problem", {}),
        ],
    )
    def test_what_cannot_be_said(self, key, values):
        with pytest.raises(OffgridError, match="wording"):
            say(key, **values)

    def test_the_sentence_on_every_sheet(self):
        assert say("caution.design_exercise") == "Design exercise. Local code and a licensed person decide."

    def test_neither_praise_nor_blame(self):
        judging = re.compile(
            r"\b(well done|good|great|bravo|excellent|clever|correct|wrong|mistake|fail\w*|sorry|you|your|poor|bad|"
            r"silly|careless|unfortunately|oops|please try)\b",
            re.IGNORECASE,
        )
        spoken = {k: t for k, t in TEXT.items() if k.startswith(("card.", "panel.", "reading.", "value."))}
        assert {k: judging.findall(t) for k, t in spoken.items() if judging.search(t)} == {}

    def test_short_sentences(self):
        """At most 24 words between stops, so that a twelve-year-old can follow."""
        for key, text in TEXT.items():
            longest = max(len(s.split()) for s in re.split(r"[.;:]", text))
            assert longest <= 24, key
