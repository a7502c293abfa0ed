"""What a person types is read one way, or asked back; nothing is guessed and nothing is run."""

import ast
import contextlib
import inspect
import math
import time

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from offgrid_core.errors import OffgridError, ReadingError
from offgrid_core.quantities import numbers
from offgrid_core.quantities.numbers import read_number, read_quantity
from offgrid_core.quantities.settings import CHOICES, Settings
from offgrid_core.quantities.text import number, show
from offgrid_core.quantities.units import ENDINGS, MENUS, awg_to_mm2, menu

THIN, NARROW, FIXED = "\u2009", "\u202f", "\u00a0"
COMMA = Settings(decimal=",")
US = Settings(temperature="°F", length="ft", wire="AWG")

READ_UNDER_EITHER = [
    ("1 234,5", 1234.5),
    ("1,234.5", 1234.5),
    ("1.234,5", 1234.5),
    ("1234.5", 1234.5),
    ("1234,5", 1234.5),
    (f"1{THIN}234,5", 1234.5),
    (f"1{FIXED}234.5", 1234.5),
    (f"1{NARROW}234{NARROW}567,25", 1234567.25),
    ("1 234,567", 1234.567),
    ("1 234", 1234),
    ("1,234,567", 1234567),
    ("1.234.567", 1234567),
    ("1,234,567.25", 1234567.25),
    ("1234,567", 1234.567),
    ("0,841", 0.841),
    ("0.841", 0.841),
    ("0,5", 0.5),
    (".5", 0.5),
    (",5", 0.5),
    ("12,34", 12.34),
    ("−3", -3),
    ("-3", -3),
    ("+3", 3),
    ("  42 ", 42),
    ("007", 7),
    ("0", 0),
    ("-0", 0),
    ("1e3", 1000),
    ("1E+3", 1000),
    ("2,5e−3", 0.0025),
    ("123456789012", 123456789012),
    ("0.000000123456789012", 1.23456789012e-7),
]

HOSTILE = [
    "",
    " ",
    f"{THIN}{FIXED}",
    ".",
    ",",
    "-",
    "+",
    "e3",
    "1e",
    "1e+",
    "1e999",
    "1e-400",
    "1e1.5",
    "nan",
    "NaN",
    "inf",
    "-inf",
    "Infinity",
    "--3",
    "+-3",
    "- 3",
    "3-",
    "3 -",
    "5.",
    "5,",
    "1..2",
    "1,,234",
    "1.2.3",
    "1.234.567.8",
    "1,234,567,8",
    "1,23,456",
    "1,2345.6",
    "1 23",
    "12 34",
    "1  234",
    f"1 234{THIN}567.8.9",
    "1 234,567.8",
    "1,234.567,8",
    "0,841,000",
    "1.234 567",
    "1 2345",
    "1_000",
    "1'234",
    "0x10",
    "0b1",
    "1j",
    "=1+1",
    "1+1",
    "1*2",
    "1/2",
    "9**9**9",
    "(1)",
    "1;2",
    "$5",
    "5 Ah",
    "five",
    "1\n",
    "1\t234",
    "\x001",
    "1\x7f",
    "\u200e12",
    "12\u200f",
    "\u202e21",
    "1\u200d2",
    "\ufeff1",
    "\ud8001",
    "1\u2028",
    "１２",
    "١٢٣",
    "१२",
    "𝟏𝟐",
    "1²",
    "½",
    "Ⅻ",
    "五",
    "1\u30002",
    "1٫5",
    "1．5",
    "–3",
    "3–5",
    "1234567890123",
    "0.1234567890123",
    "1" * 65,
    "__import__('os').system('true')",
    "{number}",
    "%s%n",
    None,
    5,
    5.0,
    True,
    b"5",
    ["5"],
]


class TestReadNumber:
    @pytest.mark.parametrize("decimal", [".", ","])
    @pytest.mark.parametrize(("typed", "wanted"), READ_UNDER_EITHER)
    def test_one_reading_only(self, typed, wanted, decimal):
        assert read_number(typed, decimal) == wanted

    @pytest.mark.parametrize(
        ("typed", "decimal", "wanted"),
        [("1.234", ".", 1.234), ("1,234", ",", 1.234), ("1.2345e3", ".", 1234.5), ("1,2345e3", ",", 1234.5)],
    )
    def test_the_class_decides_which_mark(self, typed, decimal, wanted):
        assert read_number(typed, decimal) == wanted

    @pytest.mark.parametrize(
        ("typed", "decimal", "whole", "parted"),
        [
            ("1,234", ".", "1234", "1.234"),
            ("1.234", ",", "1234", "1,234"),
            ("354,000", ".", "354000", "354.000"),
            ("−12,500", ".", "-12500", "-12.500"),
            ("1,234e3", ".", "1234e3", "1.234e3"),
        ],
    )
    def test_two_readings_are_asked_back(self, typed, decimal, whole, parted):
        with pytest.raises(ReadingError, match="please re-enter") as told:
            read_number(typed, decimal)
        assert str(told.value).endswith(f"two ways, as {whole} or as {parted}")
        assert read_number(whole, decimal) == pytest.approx(1000 * read_number(parted, decimal))

    @pytest.mark.parametrize("decimal", [".", ","])
    @pytest.mark.parametrize("typed", HOSTILE, ids=ascii)
    def test_hostile(self, typed, decimal):
        with pytest.raises(ReadingError, match=r"^please re-enter") as told:
            read_number(typed, decimal)
        message = str(told.value)
        assert len(message) < 500
        assert message.isprintable()

    def test_the_list_is_long_enough(self):
        assert len({ascii(x) for x in HOSTILE}) >= 40

    def test_what_is_allowed_is_said(self):
        with pytest.raises(
            ReadingError, match=r"not read as one number; allowed are digits and one decimal mark, such as 1234,5$"
        ):
            read_number("1+1", ",")
        with pytest.raises(ReadingError, match="at most 64 characters are read, and this has 65"):
            read_number("1" * 65)
        with pytest.raises(ReadingError, match="13 digits that count; at most 12"):
            read_number("1234567890123")

    def test_64_characters_are_still_read(self):
        assert read_number("0" * 62 + ".5") == 0.5

    @pytest.mark.parametrize("huge", ["9" * 10_000_000, "1 " * 5_000_000, "\u200f" * 10_000_000])
    def test_ten_megabytes_are_refused_at_once(self, huge):
        for read in (read_number, lambda text: read_quantity(text, "bank_ah")):
            began = time.perf_counter()
            with pytest.raises(ReadingError) as told:
                read(huge)
            assert time.perf_counter() - began < 0.05
            assert len(str(told.value)) < 200

    @pytest.mark.parametrize("decimal", ["", ";", ".,", None])
    def test_a_mark_that_is_none(self, decimal):
        with pytest.raises(OffgridError, match="decimal mark"):
            read_number("1", decimal)

    @given(st.text(max_size=80), st.sampled_from(".,"))
    def test_any_text_is_read_or_refused(self, text, decimal):
        with contextlib.suppress(ReadingError):
            assert math.isfinite(read_number(text, decimal))

    @given(st.text("0123456789.,eE+-− ", max_size=20))
    def test_what_is_read_under_both_marks_is_the_same(self, text):
        """Only a number that one mark asks back may be read under the other: no two silent readings."""
        read = []
        for decimal in ".,":
            try:
                read.append(read_number(text, decimal))
            except ReadingError:
                assume(False)
        assert read[0] == read[1]

    def test_nothing_is_evaluated(self):
        """The only conversion is of text that the grammar let through."""
        calls = [n for n in ast.walk(ast.parse(inspect.getsource(numbers))) if isinstance(n, ast.Call)]
        called = {n.func.id for n in calls if isinstance(n.func, ast.Name)}
        assert not called & {"eval", "exec", "compile", "literal_eval", "__import__"}
        floats = [ast.unparse(n) for n in calls if isinstance(n.func, ast.Name) and n.func.id == "float"]
        assert "float(text)" not in floats
        assert "float(typed)" not in floats


class TestReadQuantity:
    @pytest.mark.parametrize(
        ("typed", "name", "wanted"),
        [
            ("354 Ah", "bank_ah", 354),
            ("354Ah", "bank_ah", 354),
            ("354 ah", "bank_ah", 354),
            ("354", "bank_ah", 354),
            ("354000 mAh", "bank_ah", 354),
            ("1,2 kWh", "energy_day_wh", 1200),
            ("1,234.5 Wh", "energy_day_wh", 1234.5),
            ("3.6 MJ", "energy_day_wh", 1000),
            ("5e3 Wh", "energy_day_wh", 5000),
            ("62 °F", "battery_temp_c", 50 / 3),
            ("62F", "battery_temp_c", 50 / 3),
            ("62 ºF", "battery_temp_c", 50 / 3),
            ("62 ℉", "battery_temp_c", 50 / 3),
            ("−8 °C", "battery_temp_c", -8),
            ("-8c", "battery_temp_c", -8),
            ("-8", "battery_temp_c", -8),
            ("9 °F steps", "cell_rise_k", 5),
            ("9 K", "cell_rise_k", 9),
            ("9 °C steps", "cell_rise_k", 9),
            ("50 %", "depth_frac", 0.5),
            ("50%", "depth_frac", 0.5),
            ("50 percent", "depth_frac", 0.5),
            ("0.5", "depth_frac", 0.5),
            ("0.5 %", "depth_frac", 0.005),
            ("0.5 as a fraction", "depth_frac", 0.5),
            ("-0.3 %/K", "voc_temp_per_k", -0.003),
            ("-0.3 %/°C", "voc_temp_per_k", -0.003),
            ("-0.003", "voc_temp_per_k", -0.003),
            ("25 ft", "length_m", 7.62),
            ("25 feet", "length_m", 7.62),
            ("35 mm2", "cable_mm2", 35),
            ("35 mm²", "cable_mm2", 35),
            ("4.5 kWh/m2", "sun_kwh_m2", 4.5),
            ("12 m3/h", "air_m3_h", 12),
            ("3 ohm", "bank_resistance_ohm", 3),
            ("3 \u2126", "bank_resistance_ohm", 3),
            ("90 min", "inverter_on_h", 1.5),
            ("2 minutes", "inverter_on_h", 1 / 30),
            ("10 lb", "unit_mass_kg", 4.5359237),
            ("30°", "tilt_deg", 30),
            ("1.25", "growth_factor", 1.25),
            ("12", "design_month", 12),
            ("December", "design_month", 12),
            ("december", "design_month", 12),
            ("2 AWG", "cable_mm2", 33.631),
            ("1/0 AWG", "cable_mm2", 53.475),
            ("0awg", "cable_mm2", 53.475),
            ("4/0 AWG", "cable_mm2", 107.22),
        ],
    )
    def test_read(self, typed, name, wanted):
        assert read_quantity(typed, name) == pytest.approx(wanted, rel=3e-4 if "awg" in typed.lower() else 1e-12)

    @pytest.mark.parametrize(
        ("typed", "name", "unit", "wanted"),
        [
            ("0.5", "depth_frac", "%", 0.005),
            ("50", "depth_frac", "%", 0.5),
            ("0.5", "depth_frac", "as a fraction", 0.5),
            ("32", "battery_temp_c", "°F", 0),
            ("1,5", "energy_day_wh", "kWh", 1500),
            ("1.5 kWh", "energy_day_wh", "kWh", 1500),
            ("1/0", "cable_mm2", "AWG", float(awg_to_mm2(0))),
            ("2", "cable_mm2", "AWG", float(awg_to_mm2(2))),
            ("2 AWG", "cable_mm2", "AWG", float(awg_to_mm2(2))),
        ],
    )
    def test_the_menu_beside_the_box(self, typed, name, unit, wanted):
        assert read_quantity(typed, name, unit=unit) == pytest.approx(wanted)

    def test_a_number_alone_is_in_the_unit_shown(self):
        assert read_quantity("32", "battery_temp_c", US) == 0
        assert read_quantity("25", "length_m", US) == pytest.approx(7.62)
        assert read_quantity("0.5", "depth_frac", US) == 0.5

    @pytest.mark.parametrize(
        ("typed", "name", "allowed"),
        [
            ("354 V", "bank_ah", "allowed: Ah, mAh"),
            ("354 MAh", "bank_ah", "allowed: Ah, mAh"),
            ("5 mJ", "energy_day_wh", "allowed: Wh, kWh, MJ"),
            ("5 K", "battery_temp_c", "allowed: °C, °F"),
            ("5 °", "battery_temp_c", "allowed: °C, °F"),
            ("5 °C", "cell_rise_k", "allowed: K, °F steps"),
            ("5 °F", "cell_rise_k", "allowed: K, °F steps"),
            ("5 in", "length_m", "allowed: m, ft, cm"),
            ("5 M", "length_m", "allowed: m, ft, cm"),
            ("5 Ah Ah", "bank_ah", "allowed: Ah, mAh"),
            ("9**9**9", "bank_ah", "allowed: Ah, mAh"),
            ("5 sq in", "cable_mm2", "allowed: mm², AWG"),
            ("1.2 A", "growth_factor", "plain number"),
            ("00 AWG", "cable_mm2", "4/0, 3/0, 2/0, 1/0 and 1 to 40"),
            ("5/0 AWG", "cable_mm2", "1 to 40"),
            ("41 AWG", "cable_mm2", "1 to 40"),
            ("2.5 AWG", "cable_mm2", "1 to 40"),
            ("-1 AWG", "cable_mm2", "1 to 40"),
            ("AWG", "cable_mm2", "1 to 40"),
            ("Ah", "bank_ah", "allowed are digits"),
            ("=A1", "bank_ah", "allowed are digits"),
            ("Juni", "design_month", "allowed are digits"),
            ("1,234 Wh", "energy_day_wh", "as 1234 or as 1.234"),
            ("5 kWh\u200f", "energy_day_wh", "hidden character"),
            ("٥ kWh", "energy_day_wh", "another script"),
            ("", "bank_ah", "empty"),
            (None, "bank_ah", "text"),
            (5, "bank_ah", "text"),
        ],
    )
    def test_refused(self, typed, name, allowed):
        with pytest.raises(ReadingError, match=r"^please re-enter") as told:
            read_quantity(typed, name)
        assert allowed in str(told.value)

    def test_menu_and_text_disagree(self):
        with pytest.raises(ReadingError, match="menu says Wh and the number says kWh"):
            read_quantity("5 kWh", "energy_day_wh", unit="Wh")

    def test_a_unit_chosen_that_is_not_on_the_menu(self):
        with pytest.raises(ReadingError, match="allowed: Ah, mAh"):
            read_quantity("5", "bank_ah", unit="V")

    @pytest.mark.parametrize("currency", ["€", "kr.", "EUR", "F", "US $"])
    def test_money(self, currency):
        assert read_quantity(f"1 250,5 {currency}", "bank_cost", Settings(decimal=",", currency=currency)) == 1250.5

    @pytest.mark.parametrize("hostile", [x for x in HOSTILE if x != "5 Ah"], ids=ascii)
    def test_hostile(self, hostile):
        with pytest.raises(ReadingError, match=r"^please re-enter"):
            read_quantity(hostile, "bank_ah")


#: One name for each kind, and what can be read back: a month is a whole number from 1 to 12.
KINDS = {kind: f"thing_{ending}" for ending, kind in ENDINGS.items()}
ALL_SETTINGS = [
    Settings(temperature=t, length=m, decimal=d, currency=c)
    for t in CHOICES["temperature"]
    for m in CHOICES["length"]
    for d in CHOICES["decimal"]
    for c in ("", "€", "kr.")
]
FINITE = st.floats(-1e9, 1e9).filter(lambda x: x == 0 or abs(x) > 1e-30)


class TestThereAndBack:
    @given(FINITE, st.integers(2, 12), st.sampled_from(".,"))
    def test_numbers(self, x, figures, decimal):
        shown = number(x, figures, Settings(decimal=decimal))
        assert read_number(shown, decimal) == pytest.approx(x, rel=0.5001 * 10.0 ** (1 - figures), abs=0)

    @given(FINITE, st.sampled_from([k for k in KINDS if k != "month"]), st.sampled_from(ALL_SETTINGS))
    def test_quantities(self, x, kind, chosen):
        name = KINDS[kind]
        unit = chosen.unit_for(name)
        back = read_quantity(show(name, unit.to_canonical(x), chosen), name, chosen)
        # within the figures shown, or within what float noise leaves of an offset
        assert unit.from_canonical(back) == pytest.approx(x, rel=5.01e-4, abs=1e-12 * unit.offset)

    @given(FINITE, st.sampled_from(list(KINDS)), st.data(), st.sampled_from(".,"))
    def test_every_unit_of_every_menu(self, x, kind, data, decimal):
        unit = data.draw(st.sampled_from(MENUS[kind]))
        typed = f"{number(x, 10, Settings(decimal=decimal))} {unit.symbol}"
        name = KINDS[kind]
        if unit.symbol:
            assert unit in menu(name)
            got = read_quantity(typed, name, Settings(decimal=decimal))
            assert unit.from_canonical(got) == pytest.approx(x, rel=1e-9, abs=1e-12 * (1 + unit.offset))

    @pytest.mark.parametrize("month", range(1, 13))
    def test_months(self, month):
        assert read_quantity(show("design_month", month), "design_month") == month

    @given(st.integers(-3, 40))
    def test_gauges(self, gauge):
        said = show("cable_mm2", float(awg_to_mm2(gauge)), US)
        assert read_quantity(said[said.index("(") + 1 : -1], "cable_mm2") == pytest.approx(float(awg_to_mm2(gauge)))
