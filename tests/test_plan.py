"""Bad plan files: exit code 2 and one sentence that names the place, the value and what is allowed."""

import contextlib
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from offgrid_core.__main__ import main
from offgrid_core.errors import OffgridError, PlanError
from offgrid_core.system import changed_text, parse_plan, read_plan, save_text, size

GOOD = """\
title = "Cabin"

[site]
name = "chicago"

[choices]
autonomy_days = 3
depth_frac = 0.5
battery_temp_c = 10
chemistry = "flooded"
bank_voltage_v = 24

[[load]]
name = "lamp"
bus = "DC"
power_w = 60
hours_h = 5

[[load]]
name = "fridge"
bus = "AC"
power_w = 90
hours_h = 24

[parts]

[circuits]
array_m = 10

[assume]
soiling_frac = 0.05
"""
OWN = """name = "Ours"
latitude_deg = 45
sun_by_month_kwh_m2 = [1.5, 2.3, 3.5, 4.6, 5.5, 6.1, 6.3, 5.4, 4.1, 2.7, 1.7, 1.3]
air_temp_by_month_c = [-2, 0, 4, 9, 14, 18, 20, 20, 16, 10, 4, -1]
air_coldest_c = -15"""
MONTHS_11 = "[" + ", ".join(["1"] * 11) + "]"
MONTHS_13 = "[" + ", ".join(["1"] * 13) + "]"


def changed(old: str, new: str) -> str:
    assert old in GOOD
    return GOOD.replace(old, new, 1)


def lamp(line: str) -> str:
    """Return the good plan with one more line in its first load."""
    return changed("hours_h = 5\n", f"hours_h = 5\n{line}\n")


def hours(value: str) -> str:
    return changed("hours_h = 5", f"hours_h = {value}")


def own_site(old: str = "", new: str = "") -> str:
    assert old in OWN
    return changed('name = "chicago"', OWN.replace(old, new, 1))


def without(*lines: str) -> str:
    text = GOOD
    for line in lines:
        assert line in text
        text = text.replace(line, "", 1)
    return text


LOADS = GOOD[GOOD.index("[[load]]") : GOOD.index("[parts]")]

#: What is wrong -> the text of the plan, and words that its sentence must hold: place, value, what is allowed.
BAD: dict[str, tuple[str, tuple[str, ...]]] = {
    "NaN": (hours("nan"), ("load 1 (lamp) hours_h", "nan", "0 h to 24 h")),
    "infinite power": (changed("= 60", "= inf"), ("load 1 (lamp) power_w", "inf", "0 W to")),
    "negative infinity": (changed("= 60", "= -inf"), ("load 1 (lamp) power_w", "-inf", "0 W to")),
    "negative hours": (hours("-3"), ("load 1 (lamp) hours_h", "−3 h", "0 h to 24 h")),
    "25 hours a day": (hours("25"), ("load 1 (lamp) hours_h", "25 h", "0 h to 24 h")),
    "8 days a week": (lamp("week_days = 8"), ("load 1 (lamp) week_days", "8 days", "0 days to 7 days")),
    "duty above one": (lamp("duty_frac = 1.2"), ("load 1 (lamp) duty_frac", "120 %", "0 % to 100 %")),
    "duty below nothing": (lamp("duty_frac = -0.1"), ("load 1 (lamp) duty_frac", "−10 %", "0 % to 100 %")),
    "start below running": (lamp("start_factor = 0.5"), ("load 1 (lamp) start_factor", "0.5", "1 to 12")),
    "power factor of nothing": (lamp("power_factor_ratio = 0"), ("power_factor_ratio", "0 is", "0.1 to 1")),
    "half a million watts": (changed("= 60", "= 5e5"), ("load 1 (lamp) power_w", "500", "0 W to 100")),
    "a number beyond all": (hours("1e400"), ("load 1 (lamp) hours_h", "inf", "0 h to 24 h")),
    "a whole number without end": (hours("9" * 400), ("load 1 (lamp) hours_h", "18 digits", "0 h to 24 h")),
    "a hexadecimal one": (hours("0x" + "f" * 9000), ("load 1 (lamp) hours_h", "18 digits", "0 h to 24 h")),
    "5000 digits": (hours("9" * 5000), ("a number", "thousands of digits", "at most 18")),
    "unknown site": (changed('"chicago"', '"chicagoo"'), ("[site]", "chicagoo", "nearest: chicago")),
    "unknown key": (lamp("hours = 3"), ("load 1 (lamp) hours", "no such key", "nearest: hours_h")),
    "misspelt key": (changed("power_w =", "powr_w ="), ("load 1 (lamp) powr_w", "nearest: power_w")),
    "unknown section": (changed("[choices]", "[choises]"), ("choises", "no such key", "nearest: choices")),
    "assumptions that are no section": (
        changed("[assume]\nsoiling_frac = 0.05", "").replace("title", "assume = 3\ntitle", 1),
        ("[assume]", "a section with keys", "not 3"),
    ),
    "title in a section": (changed('= "chicago"', '= "chicago"\ntitle = "x"'), ("[site] title", "no such key")),
    "a line in choices": (
        changed("[choices]", "[choices]\nbank_needed_ah = 300"),
        ("[choices] bank_needed_ah", "worked out by the worksheet"),
    ),
    "a line in assume": (
        changed("[assume]", "[assume]\narray_w = 900"),
        ("[assume]", "array_w", "worked out by the worksheet"),
    ),
    "a line in a load": (
        lamp("day_energy_by_row_wh = 9"),
        ("load 1 (lamp) day_energy_by_row_wh", "worked out by the worksheet"),
    ),
    "unknown assumption": (
        changed("soiling_frac", "soilin_frac"),
        ("[assume]", "soilin_frac", "nearest: soiling_frac"),
    ),
    "assumption out of range": (changed("= 0.05", "= 0.9"), ("[assume] soiling_frac", "90 %", "0 % to 50 %")),
    "assumption as text": (changed("= 0.05", '= "dirty"'), ("[assume] soiling_frac", "dirty", "0 % to 50 %")),
    "text for a number": (hours('"five"'), ("load 1 (lamp) hours_h", "five", "0 h to 24 h")),
    "true for a number": (hours("true"), ("load 1 (lamp) hours_h", "true or false", "0 h to 24 h")),
    "a list for a number": (hours("[5]"), ("load 1 (lamp) hours_h", "a list", "0 h to 24 h")),
    "a table for a number": (hours("{a = 1}"), ("load 1 (lamp) hours_h", "a table", "0 h to 24 h")),
    "a date for a number": (hours("2024-05-01"), ("load 1 (lamp) hours_h", "a date", "0 h to 24 h")),
    "a number for a name": (changed('"lamp"', "7"), ("load 1 name", "text in quotes", "7")),
    "a list for a choice": (changed('"flooded"', '["agm"]'), ("[choices] chemistry", "a list", "'lfp'")),
    "wrong unit": (changed("= 60", '= "60 Wh"'), ("load 1 (lamp) power_w", "60 Wh", "W or kW")),
    "a sum": (changed("= 60", '= "6*10"'), ("load 1 (lamp) power_w", "6*10", "0 W to")),
    "decimal comma": (hours("3,5"), ("line 17", "hours_h = 3,5", "decimal point")),
    "decimal comma in text": (hours('"3,5"'), ("load 1 (lamp) hours_h", "'3,5'", "decimal point")),
    "unknown bus": (changed('"DC"', '"dc"'), ("load 1 (lamp) bus", "'dc'", "'AC' or 'DC'")),
    "no loads": (changed(LOADS, ""), ("[[load]]", "missing")),
    "an empty list of loads": (changed(LOADS, "").replace("title", "load = []\ntitle", 1), ("[[load]]", "empty")),
    "loads as a table": (
        changed(LOADS, '[load]\nname = "lamp"\nbus = "DC"\npower_w = 60\nhours_h = 5\n'),
        ("[[load]]", "a section of its own"),
    ),
    "loads as numbers": (changed(LOADS, "").replace("title", "load = [1]\ntitle", 1), ("load 1", "keys", "not 1")),
    "no load uses energy": (
        changed("hours_h = 5", "hours_h = 0").replace("hours_h = 24", "hours_h = 0"),
        ("[[load]]", "above 0"),
    ),
    "no choices": (
        GOOD[: GOOD.index("[choices]")] + GOOD[GOOD.index("[[load]]") :],
        ("[choices]", "missing"),
    ),
    "site as text": (
        without('[site]\nname = "chicago"').replace("title", 'site = "chicago"\ntitle', 1),
        ("[site]", "keys", "'chicago'"),
    ),
    "no hours": (changed("hours_h = 5\n", ""), ("load 1 (lamp)", "one of hours_h and windows is wanted")),
    "no title": (changed('title = "Cabin"', ""), ("title", "missing")),
    "empty title": (changed('"Cabin"', '""'), ("title", "empty")),
    "blank title": (changed('"Cabin"', '"  "'), ("title", "blanks")),
    "empty file": ("", ("title", "missing")),
    "a long name": (changed('"lamp"', '"' + "l" * 5000 + '"'), ("load 1", "lll", "at most 60")),
    "a hidden character": (changed('"lamp"', '"la\\u001b[31mmp"'), ("load 1 name", "hidden character")),
    "a name of two lines": (changed('"lamp"', '"""la\nmp"""'), ("load 1 name", "hidden character")),
    "a hidden key": (lamp('"a\\u001bb\\nc" = 1'), ("load 1 (lamp)", "\\x1b", "no such key")),
    "a raw control character": (changed('"lamp"', '"la\x07mp"'), ("line 14", "la\\x07mp", "cannot be read")),
    "11 months": (lamp(f"season_frac = {MONTHS_11}"), ("season_frac", "11 values", "twelve")),
    "13 months": (lamp(f"season_frac = {MONTHS_13}"), ("season_frac", "13 values", "twelve")),
    "a bad month": (own_site("[-2, 0, 4", "[-2, 0, 80"), ("[site] air_temp", "March", "80 °C", "to 50 °C")),
    "own site without latitude": (own_site("latitude_deg = 45"), ("[site]", "latitude_deg", "needs all of")),
    "own site without the cold": (own_site("air_coldest_c = -15"), ("[site]", "air_coldest_c", "needs all of")),
    "own site too mild": (own_site("= -15", "= 9"), ("[site]", "air_coldest_c 9 °C", "at most −2 °C")),
    "sun above the sky": (own_site("1.7, 1.3]", "1.7, 9.5]"), ("[site]", "9.5 kWh/m²", "month 12", "between 0 and")),
    "sun of 40 kWh": (own_site("[1.5", "[40"), ("[site] sun_by_month", "January", "40 kWh/m²", "12 kWh/m²")),
    "latitude 95": (own_site("= 45", "= 95"), ("[site] latitude_deg", "95°", "−66° to 66°")),
    "tilt 120": (own_site("air_coldest", "tilt_deg = 120\nair_coldest"), ("[site] tilt_deg", "120°", "0° to 90°")),
    "unknown part": (
        changed("[parts]", '[parts]\nbattery_unit = "flooded_6v_380"'),
        ("[parts] battery_unit", "flooded_6v_380", "nearest: flooded_6v_380ah"),
    ),
    "a part that is a number": (changed("[parts]", "[parts]\nmodule = 3"), ("[parts] module", "text", "3")),
    "a battery of another chemistry": (
        changed("[parts]", '[parts]\nbattery_unit = "agm_6v_210ah"'),
        ("[parts] battery_unit", "agm_6v_210ah", "flooded", "flooded_6v_380ah"),
    ),
    "an inverter of another voltage": (
        changed("[parts]", '[parts]\ninverter = "INVERTER_48"'),
        ("[parts] inverter", "INVERTER_48", "an inverter for 24 V"),
    ),
    "a controller of another kind": (
        changed("[parts]", '[parts]\ncontroller = "DIRECT"'),
        ("[parts] controller", "DIRECT", "a tracking controller for 24 V"),
    ),
    "modules 2.5": (changed("[parts]", "[parts]\nmodules_in_series_count = 2.5"), ("[parts] modules", "2.5", "whole")),
    "modules 0": (changed("[parts]", "[parts]\nmodules_in_series_count = 0"), ("[parts] modules", "0 is", "1 to 40")),
    "a 36 V bank": (changed("voltage_v = 24", "voltage_v = 36"), ("[choices] bank_voltage_v", "36 V", "12, 24 or 48")),
    "depth 0": (changed("depth_frac = 0.5", "depth_frac = 0"), ("[choices] depth_frac", "0 %", "5 % to 100 %")),
    "depth 50": (changed("depth_frac = 0.5", "depth_frac = 50"), ("[choices] depth_frac", "5", "5 % to 100 %")),
    "autonomy 0": (changed("days = 3", "days = 0"), ("[choices] autonomy_days", "0 days", "to 60 days")),
    "below absolute zero": (changed("= 10\n", "= -300\n"), ("[choices] battery_temp_c", "−300 °C", "−40 °C to")),
    "colder than the table": (changed("= 10\n", "= -35\n"), ("[choices]", "battery_temp_c −35 °C", "from −30 °C to")),
    "unknown code": (changed("[circuits]", '[circuits]\ncode = "mine"'), ("[circuits] code", "'mine'", "'us_style'")),
    "a cable of no length": (changed("array_m = 10", "array_m = 0"), ("[circuits] array_m", "0 m", "0.01 m to")),
    "air hotter than the tables": (
        changed("[assume]", "[assume]\nambient_c = 80"),
        ("main circuits", "80 °C", "covers"),
    ),
    "a load too large for any fuse": (
        changed("= 60", "= 50000"),
        ("main circuits", "fuse", "outside the table", "up to"),
    ),
    "the same key twice": (lamp("hours_h = 6"), ("line 18", "hours_h = 6", "allowed once")),
    "the same section twice": (GOOD + '\n[site]\nname = "tampa"\n', ("[site]", "allowed once")),
    "no quotes": (changed('"lamp"', "lamp"), ("line 14", "name = lamp", "text in quotes")),
    "a quotation mark left open": (GOOD + '\nnote = """never', ("ends too soon", "closing")),
    "an array left open": (GOOD + "\nrefill = [1, 2", ("ends too soon", "closing")),
    "lists in lists": (lamp("a = " + "[" * 30_000 + "]" * 30_000), ("too deep", "lists of twelve")),
    "keys in keys": (lamp(".".join("a" * 30_000) + " = 1"), ("line 18", "a.a.a", "100 points", "one key")),
    "keys in a key": (lamp(".".join("a" * 90) + " = 1"), ("load 1 (lamp) a", "no such key")),
    "not TOML at all": ("<html>", ("line 1", "<html>", "a plan has lines")),
    "501 loads": (GOOD + '[[load]]\nname = "x"\nbus = "DC"\npower_w = 1\nhours_h = 1\n' * 501, ("[[load]]", "500")),
}


def refusal(capsys: pytest.CaptureFixture[str], path: Path) -> str:
    """Return the one sentence with which the command line refuses a file."""
    capsys.readouterr()
    assert main(["size", str(path)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "Traceback" not in told.err
    assert told.err.endswith("\n")
    sentence = told.err[:-1]
    assert "\n" not in sentence
    assert 20 < len(sentence) < 900
    assert not any(ord(c) < 32 for c in sentence)
    assert path.name in sentence or len(path.name) > 60
    return sentence


@pytest.fixture(scope="module")
def stand_ins() -> dict[str, str]:
    """Real parts that do not fit the good plan, whatever the catalogue calls them."""
    from offgrid_core import data

    return {
        "INVERTER_48": next(x.key for x in data.inverters() if x.bank_v == 48),
        "DIRECT": next(x.key for x in data.controllers() if x.kind == "direct"),
    }


def test_the_plan_that_all_are_made_from_is_good():
    design = size(parse_plan(GOOD))
    assert design.plan.load[0].power_w == 60.0
    assert design.given["soiling_frac"] == 0.05
    assert len(BAD) >= 45


@pytest.mark.parametrize("case", BAD)
def test_a_bad_plan_is_refused_in_one_sentence(case, tmp_path, capsys, stand_ins):
    text, wanted = BAD[case]
    for word, key in stand_ins.items():
        text, wanted = text.replace(word, key), tuple(w.replace(word, key) for w in wanted)
    path = tmp_path / "bad.toml"
    path.write_text(text, encoding="utf-8")
    sentence = refusal(capsys, path)
    missing = [words for words in wanted if words not in sentence]
    assert not missing, sentence


def test_files_that_are_no_text_are_refused(tmp_path, capsys):
    latin = tmp_path / "latin.toml"
    latin.write_bytes(GOOD.replace("Cabin", "Hütte").encode("latin-1"))
    sixteen = tmp_path / "sixteen.toml"
    sixteen.write_text(GOOD, encoding="utf-16")
    assert "not UTF-8" in refusal(capsys, latin)
    assert "not UTF-8" in refusal(capsys, sixteen)
    assert "this is a folder" in refusal(capsys, tmp_path)
    assert refusal(capsys, Path()).startswith(".: this is a folder")
    assert "no such file" in refusal(capsys, tmp_path / "nowhere.toml")
    assert "cannot be read" in refusal(capsys, tmp_path / ("x" * 400))
    assert "cannot be read" in refusal(capsys, latin / "inside.toml")


@pytest.mark.parametrize("row", ["[[load]]\n", '[[load]]\nname = "x"\nbus = "DC"\npower_w = 1\nhours_h = 1\n'])
def test_100_000_rows_are_refused_at_once(row, tmp_path, capsys):
    path = tmp_path / "long.toml"
    path.write_text(GOOD + row * 100_000, encoding="utf-8")
    start = time.perf_counter()
    sentence = refusal(capsys, path)
    assert time.perf_counter() - start < 1
    assert "500 loads" in sentence


@pytest.mark.parametrize("row", ["[[load]]\n", ".".join("a" * 101) + " = 1\n", "[" + ".".join("a" * 101) + "]\n"])
def test_the_largest_file_that_is_read_is_refused_quickly(row, tmp_path, capsys):
    path = tmp_path / "rows.toml"
    path.write_text(GOOD + row * (250_000 // len(row)), encoding="utf-8")
    start = time.perf_counter()
    refusal(capsys, path)
    assert time.perf_counter() - start < 4


@pytest.mark.parametrize("pad", ["", "#", "##"])
def test_a_long_file_is_told_to_be_long_even_where_it_is_cut_within_a_letter(pad, tmp_path, capsys):
    path = tmp_path / "long.toml"
    path.write_text("#" + pad + "€" * 100_000, encoding="utf-8")
    assert "too long" in refusal(capsys, path)


@pytest.mark.parametrize("case", ["NaN", "unknown site", "decimal comma"])
def test_a_real_process_says_the_same(case, tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(BAD[case][0], encoding="utf-8")
    ran = subprocess.run([sys.executable, "-m", "offgrid_core", "size", str(path)], capture_output=True, check=False)
    assert ran.returncode == 2
    assert ran.stdout == b""
    assert ran.stderr.decode().count("\n") == 1
    assert all(words in ran.stderr.decode() for words in BAD[case][1])


@pytest.mark.parametrize(("written", "hours_h"), [("5", 5), ("5.5", 5.5), ('"90 min"', 1.5), ('"2.5 h"', 2.5)])
def test_numbers_may_be_whole_broken_or_carry_their_unit(written, hours_h):
    assert parse_plan(hours(written)).load[0].hours_h == hours_h


def test_a_byte_order_mark_and_windows_line_ends_are_read(tmp_path):
    path = tmp_path / "windows.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_plan(path) == parse_plan(GOOD)


def test_saving_writes_the_whole_file_or_leaves_the_old_one(tmp_path, monkeypatch):
    path = tmp_path / "mine.toml"
    save_text(path, GOOD)
    assert path.read_text(encoding="utf-8") == GOOD
    monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError("disk full")))
    with pytest.raises(OSError, match="disk full"):
        save_text(path, "half")
    assert path.read_text(encoding="utf-8") == GOOD
    assert [p.name for p in tmp_path.iterdir()] == ["mine.toml"]


def test_changing_an_entry_keeps_comments_and_order(plans):
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    new = changed_text(text, "choices", autonomy_days=5.5, depth_frac=0.4)
    differ = [(a, b) for a, b in zip(text.splitlines(), new.splitlines(), strict=True) if a != b]
    assert differ == [("autonomy_days = 4", "autonomy_days = 5.5"), ("depth_frac = 0.5", "depth_frac = 0.4")]
    assert parse_plan(new).choices.autonomy_days == 5.5


def test_changing_can_add_a_section(plans):
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    assert dict(parse_plan(changed_text(text, "assume", soiling_frac=0.1)).assume) == {"soiling_frac": 0.1}


@pytest.mark.parametrize(
    ("section", "entries"),
    [("choices", {"autonomy_days": 0}), ("choices", {"autonomi": 3}), ("load", {"power_w": 3}), ("title", {"a": 1})],
)
def test_a_change_that_makes_no_plan_is_refused(section, entries):
    with pytest.raises(PlanError):
        changed_text(GOOD, section, **entries)


#: Every key that a plan can have.
FULL = """\
title = "Cabin"
note = "A note."
currency = "x"

[site]
name = "chicago"
tilt_deg = 40
azimuth_deg = 190
shade_by_month_frac = 0.9
ground_by_month_frac = 0.3
air_coldest_c = -25

[choices]
autonomy_days = 3
depth_frac = 0.5
battery_temp_c = 10
chemistry = "flooded"
bank_voltage_v = 24
bank_method = "ieee1013"
spell_rule = "busiest_run"
controller = "tracking"

[[load]]
name = "lamp"
bus = "DC"
power_w = 60
windows = ["06:00-08:00", "19:00-22:00"]
count = 2
duty_frac = 0.9
week_days = 5
season_frac = 1
standby_w = 1
coincidence_frac = 0.5
power_factor_ratio = 0.9
start_factor = 2
critical = true

[[load]]
name = "fridge"
bus = "AC"
power_w = 90
hours_h = 24

[parts]
modules_in_series_count = 2

[circuits]
array_m = 10
code = "us_style"
controller_m = 2
inverter_m = 2
dc_m = 4

[assume]
soiling_frac = 0.05
[owned]
battery_unit = "flooded_6v_380ah"
units_count = 8
module = "module_280w_60cell"
modules_count = 6

[enclosure]
kind = "insulated_box"
room_temp_c = 10

[room]
room_m3 = 10
opening_cm2 = 300

[generator]
rated_w = 3000
rated_va = 3600
charger_a = 40
fuel = "diesel_textbook"
year_wh = 100000
"""


ENTRY = st.one_of(
    st.floats(),
    st.integers(),
    st.booleans(),
    st.text(max_size=8),
    st.lists(st.floats(), max_size=13),
    st.sampled_from(["AC", "DC", "lfp", "gel", "direct", "ieee1013", "us_style", "60 W", "1e9", "nan", "busiest_day"]),
    st.lists(st.sampled_from(["06:00-08:00", "22:00-05:00", "7-8", "00:00-24:00", "24:00-24:00"]), max_size=3),
)


def _toml(entry: object) -> str:
    import tomlkit

    return tomlkit.item(entry).as_string()


def test_the_plan_with_every_key_is_sized():
    assert size(parse_plan(FULL)).more.keys() >= {"Backup generator", "Ventilation", "Loads that must not fail"}


@settings(max_examples=2000, deadline=None)
@given(data=st.data())
def test_whatever_is_entered_only_our_own_error_comes_back(data):
    lines = FULL.splitlines()
    places = [i for i, x in enumerate(lines) if "=" in x]
    for i in data.draw(st.lists(st.sampled_from(places), min_size=1, max_size=3)):
        lines[i] = f"{lines[i].split('=')[0]}= {_toml(data.draw(ENTRY))}"
    _size_or_refuse("\n".join(lines))


NUMBER = {
    "power_w = 60": st.floats(0, 1e5),
    "hours_h = 5": st.floats(0, 24),
    "autonomy_days = 3": st.floats(0.25, 60),
    "depth_frac = 0.5": st.floats(0.05, 1),
    "battery_temp_c = 10": st.floats(-30, 50),
    "bank_voltage_v = 24": st.sampled_from([12, 24, 48]),
    "array_m = 10": st.floats(0.01, 1000),
    "soiling_frac = 0.05": st.floats(0, 0.5),
}


@settings(max_examples=300, deadline=None)
@given(data=st.data())
def test_any_allowed_numbers_are_sized_or_refused(data):
    text = GOOD
    for line in data.draw(st.lists(st.sampled_from(sorted(NUMBER)), unique=True)):
        text = text.replace(line, f"{line.split('=')[0]}= {data.draw(NUMBER[line])}")
    _size_or_refuse(text)


@settings(max_examples=100)
@given(st.text(max_size=60))
def test_any_text_is_refused_in_one_line(text):
    with pytest.raises(PlanError) as told:
        parse_plan(text)
    assert "\n" not in str(told.value)


def _size_or_refuse(text: str) -> None:
    """Any error but our own makes the test fail by itself."""
    tomllib.loads(text)
    with contextlib.suppress(OffgridError):
        size(parse_plan(text))
