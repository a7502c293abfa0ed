import hashlib
import importlib.util
import math
import re
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest

from offgrid_core import data
from offgrid_core.data.models import INVENTED
from offgrid_core.errors import DataError

ROOT = Path(__file__).resolve().parents[1]
SHIPPED = ROOT / "datasets"
MANIFEST = tomllib.loads((SHIPPED / "MANIFEST.toml").read_text(encoding="utf-8"))["file"]
LEAD = ("flooded", "agm", "gel")
CHEMISTRIES = (*LEAD, "lfp")
FILLS = ("deep_cycle_1265", "motive_1280", "vehicle_1280")
# file -> a call that reads it
READS: dict[str, Callable[[Path | None], object]] = {
    "sites.csv": data.sites,
    "chemistries.csv": data.chemistries,
    "capacity_temperature.csv": lambda folder: [data.capacity_kept(c, folder) for c in CHEMISTRIES],
    "cell_voltage.csv": lambda folder: [data.cell_rest_voltage(c, folder) for c in CHEMISTRIES],
    "specific_gravity.csv": lambda folder: [data.gravity_of_charge(f, folder) for f in FILLS],
    "freezing_gravity.csv": data.freezing_of_gravity,
    "cycle_life.csv": lambda folder: [data.cycle_life(c, folder) for c in CHEMISTRIES],
    "conductors_us.csv": lambda folder: data.code_setting("us_style", folder),
    "conductors_iec.csv": lambda folder: data.code_setting("iec_style", folder),
    "ambient_us.csv": lambda folder: data.code_setting("us_style", folder),
    "ambient_iec.csv": lambda folder: data.code_setting("iec_style", folder),
    "grouping.csv": lambda folder: data.code_setting("iec_style", folder),
    "fuse_sizes.csv": lambda folder: data.code_setting("us_style", folder),
    "cold_voltage_us.csv": data.cold_voltage_us,
    "code_settings.csv": lambda folder: data.code_setting("us_style", folder),
    "battery_units.csv": data.battery_units,
    "protective_devices.csv": data.protective_devices,
    "gas_currents.csv": lambda folder: [data.gas_current(c, "boost", folder) for c in CHEMISTRIES],
    "fuel_curves.csv": lambda folder: data.fuel_curve("diesel_textbook", folder),
    "modules.csv": data.modules,
    "controllers.csv": data.controllers,
    "inverters.csv": data.inverters,
    "clearness_chains.csv": data.clearness_chains,
}


def cells(name: str) -> list[list[str]]:
    import csv

    with (SHIPPED / name).open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


# ---- the manifest


@pytest.mark.parametrize("entry", MANIFEST, ids=lambda entry: entry["name"])
def test_file_is_what_the_manifest_says(entry):
    path = SHIPPED / entry["name"]
    rows = cells(entry["name"])
    sha = hashlib.sha256(path.read_bytes()).hexdigest()
    assert sha == entry["sha256"], f"{path.name} was edited: its sha256 is now {sha}; write that in MANIFEST.toml"
    assert len(rows) - 1 == entry["rows"]
    assert [column["name"] for column in entry["columns"]] == rows[0]
    assert all(column["meaning"] for column in entry["columns"])
    assert all(entry[word] for word in ("title", "source", "licence", "standing"))


def test_manifest_names_every_file_and_every_file_has_a_loader():
    there = {path.name for path in SHIPPED.iterdir()} - {"MANIFEST.toml"}
    assert {entry["name"] for entry in MANIFEST} == there == set(READS)


def test_units_in_the_manifest_agree_with_the_column_names():
    ends = {"_ohm_ah": "ohm Ah", "_ma_ah": "mA/Ah", "_ohm_km": "ohm/km", "_mm2": "mm2", "_ah": "Ah", "_va": "VA"}
    ends |= {"_kg": "kg", "_v": "V", "_a": "A", "_w": "W", "_c": "degC", "_m": "m", "_deg": "deg", "_frac": ""}
    checked = 0
    for entry in MANIFEST:
        for column in entry["columns"]:
            unit = next((unit for end, unit in ends.items() if column["name"].endswith(end)), None)
            if unit is not None:
                assert column["unit"] == unit, f"{entry['name']} {column['name']}"
                checked += 1
    assert checked > 60


@pytest.mark.parametrize("name", READS)
def test_every_shipped_file_loads_and_every_row_has_a_standing(name):
    assert READS[name](None)
    header, *rows = cells(name)
    assert all(row[header.index("standing")] for row in rows)


# ---- bad rows: one sentence with the file, the line, the column, the value and what is allowed

BAD_CELLS = [
    ("modules.csv", "voc_v", "21,6", "a number with a decimal point"),
    ("modules.csv", "voc_v", "17", "above vmp_v"),
    ("modules.csv", "isc_a", "0.5", "above imp_a"),
    ("modules.csv", "voc_temp_per_k", "0.003", "-0.01 up to 0"),
    ("modules.csv", "noct_c", "nan", "from 30 up to 70"),
    ("modules.csv", "key", "Module 1", "small letters"),
    ("modules.csv", "label", "", "a text that is not empty"),
    ("battery_units.csv", "unit_ah", "-225", "above 0 up to 10000"),
    ("battery_units.csv", "unit_ah", "inf", "above 0 up to 10000"),
    ("battery_units.csv", "chemistry", "lead", "one of flooded, agm, gel, lfp"),
    ("battery_units.csv", "mass_kg", "", "above 0 up to 5000"),
    ("chemistries.csv", "depth_max_frac", "80", "above 0 up to 1"),
    ("chemistries.csv", "equalize_v_per_cell", "15.5", "above 1 up to 5 or nothing"),
    ("chemistries.csv", "compensation_mv_per_k_cell", "5", "from -10 up to 0"),
    ("chemistries.csv", "cells_12v_count", "6.5", "a whole number from 1 up to 12"),
    ("capacity_temperature.csv", "kept_frac", "33 %", "above 0 up to 1.5"),
    ("capacity_temperature.csv", "standing", "trust me", "one of standard, seen"),
    ("cell_voltage.csv", "rest_v", "12.6", "above 1 up to 5"),
    ("cycle_life.csv", "depth_frac", "0", "above 0 up to 1"),
    ("specific_gravity.csv", "gravity_ratio", "1265", "from 1 up to 1.4"),
    ("specific_gravity.csv", "fill", "boat", "one of deep_cycle_1265, motive_1280, vehicle_1280"),
    ("freezing_gravity.csv", "freezing_c", "27", "from -90 up to 0"),
    ("sites.csv", "ghi_apr", "4268", "from 0 up to 12"),
    ("sites.csv", "t_dec", "", "from -60 up to 50"),
    ("sites.csv", "latitude_deg", "64.8N", "from -66 up to 66"),
    ("sites.csv", "coldest_c", "10", "at most -19.3"),
    ("controllers.csv", "kind", "PWM", "one of direct, tracking"),
    ("controllers.csv", "banks_v", "12 20", "one of 12, 24, 48 for each"),
    ("controllers.csv", "banks_v", "", "one of 12, 24, 48 for each"),
    ("inverters.csv", "bank_v", "36", "one of 12, 24, 48"),
    ("inverters.csv", "surge_w", "100", "rated_w, 180, or more"),
    ("inverters.csv", "efficiency_frac", "88", "from 0.3 up to 1"),
    ("conductors_us.csv", "ampacity_75_a", "20 A", "above 0 up to 5000"),
    ("conductors_iec.csv", "area_mm2", "0", "above 0 up to 1000"),
    ("ambient_us.csv", "factor_75", "120", "above 0 up to 2 or nothing"),
    ("code_settings.csv", "family", "USA", "one of us, iec"),
    ("code_settings.csv", "insulation_c", "60", "one of 70, 75, 90"),
    ("fuse_sizes.csv", "size_a", "zero", "above 0 up to 5000"),
    ("protective_devices.csv", "kind", "switch", "one of fuse, breaker"),
    ("protective_devices.csv", "interrupting_a", "1 kA", "above 0 up to 1e+06"),
    ("protective_devices.csv", "size_to_a", "0.5", "size_from_a, 1, or more"),
    ("gas_currents.csv", "gas_ma_ah", "500", "from 0 up to 100"),
    ("gas_currents.csv", "mode", "fast", "one of float, boost"),
    ("fuel_curves.csv", "fuel_work_l_kwh", "0", "above 0 up to 2"),
    ("clearness_chains.csv", "to_3", "20.8", "from 0 up to 1"),
    ("clearness_chains.csv", "today_class", "11", "from 1 up to 10"),
    ("grouping.csv", "factor", "0", "above 0 up to 2"),
    ("cold_voltage_us.csv", "factor", "0.98", "from 1 up to 2"),
]


def write(folder: Path, name: str, rows: list[list[str]]) -> None:
    import csv

    with (folder / name).open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)


@pytest.mark.parametrize(("name", "column", "value", "allowed"), BAD_CELLS)
def test_a_bad_cell_is_named(tmp_path, name, column, value, allowed):
    rows = cells(name)
    rows[1][rows[0].index(column)] = value
    write(tmp_path, name, rows)
    with pytest.raises(DataError) as caught:
        READS[name](tmp_path)
    message = str(caught.value)
    assert message.startswith(f"{name}, line 2, column {column}: ")
    assert allowed in message
    assert "\n" not in message
    assert (value or "an empty value") in message


def test_the_line_is_the_line_of_the_file(tmp_path):
    rows = cells("modules.csv")
    rows[7][rows[0].index("cost")] = "a lot"
    write(tmp_path, "modules.csv", rows)
    with pytest.raises(DataError, match=r"modules\.csv, line 8, column cost: 'a lot'"):
        data.modules(tmp_path)


def replaced(old: str, new: str, count: int = -1) -> Callable[[str], str]:
    return lambda text: text.replace(old, new, count)


BAD_FILES = [
    (lambda text: text.replace(",", ";"), "separated by semicolons"),
    (replaced("voc_v", "voc"), "has no column voc_v"),
    (lambda text: "\n".join(line + ",x" for line in text.splitlines()), "column 'x' that is not known"),
    (replaced("17.9", "17,9", 1), "line 3: 14 values where the header has 13 columns"),
    (replaced("module_50w_36cell", "module_20w_36cell"), "the key 'module_20w_36cell' twice"),
    (lambda text: text.splitlines()[0] + "\n", "has no rows"),
    (lambda _: "", "has no column key, label"),
    (lambda text: text + '"unclosed', "not a plain CSV file"),
    (replaced("key,label,", "key,label,cost,", 1), "names a column twice"),
]


@pytest.mark.parametrize(("damage", "message"), BAD_FILES)
def test_a_bad_file_is_named(tmp_path, damage, message):
    text = (SHIPPED / "modules.csv").read_text(encoding="utf-8")
    (tmp_path / "modules.csv").write_text(damage(text), encoding="utf-8")
    with pytest.raises(DataError, match=r"^modules\.csv") as caught:
        data.modules(tmp_path)
    assert message in str(caught.value)


def test_a_file_that_is_not_utf8(tmp_path):
    (tmp_path / "modules.csv").write_bytes("key,label\nmodul_ü,x\n".encode("latin-1"))
    with pytest.raises(DataError, match=r"modules\.csv is not a UTF-8 text file"):
        data.modules(tmp_path)


def test_curves_must_rise_in_x(tmp_path):
    rows = cells("cycle_life.csv")
    rows[1], rows[2] = rows[2], rows[1]
    write(tmp_path, "cycle_life.csv", rows)
    with pytest.raises(DataError, match=r"cycle_life\.csv: cycles to the end of life, flooded: the x column"):
        data.cycle_life("flooded", tmp_path)


def test_a_chemistry_without_rows_is_refused(tmp_path):
    write(tmp_path, "cycle_life.csv", [row for row in cells("cycle_life.csv") if row[0] != "gel"])
    with pytest.raises(DataError, match=r"cycle_life\.csv has no row for the chemistry 'gel'"):
        data.cycle_life("gel", tmp_path)


@pytest.mark.parametrize(
    ("ask", "message"),
    [
        (lambda: data.site("fellhut"), "nearest: fell_hut"),
        (lambda: data.chemistry("fooded"), "nearest: flooded"),
        (lambda: data.capacity_kept("zinc"), "known: flooded, agm, gel, lfp"),
        (lambda: data.battery_unit("flooded_6v_225"), "nearest: flooded_6v_225ah"),
        (lambda: data.module("module_100w"), "module_100w_36cell"),
        (lambda: data.controller("tracking_40a"), "tracking_40a_140v"),
        (lambda: data.inverter("inverter_48v_1800"), "inverter_48v_1800w"),
        (lambda: data.code_setting("us"), "us_style"),
        (lambda: data.gas_current("flooded", "bost"), "nearest: flooded boost"),
        (lambda: data.fuel_curve("diesel_text"), "nearest: diesel_textbook"),
        (lambda: data.code_setting("us_style", insulation_c=70), "70 °C insulation; allowed are factor_75, factor_90"),
        (lambda: data.code_setting("iec_style", insulation_c=0), "0 °C insulation"),
        (lambda: data.code_setting("iec_style").size_label(5.0), "no conductor of 5 mm²"),
    ],
)
def test_unknown_names_get_the_known_ones(ask, message):
    with pytest.raises(DataError) as caught:
        ask()
    assert message in str(caught.value)


# ---- a person's own folder


def test_own_file_is_laid_over_the_shipped_one(tmp_path):
    rows = cells("battery_units.csv")[:2]
    rows[1][0], rows[1][rows[0].index("unit_ah")] = "my_own", "123.5"
    write(tmp_path, "battery_units.csv", rows)
    assert [(unit.key, unit.unit_ah) for unit in data.battery_units(tmp_path)] == [("my_own", 123.5)]
    assert data.modules(tmp_path) == data.modules()
    assert len(data.battery_units()) >= 18, "the shipped file is still read without a folder"


def test_an_edited_own_file_is_read_afresh(tmp_path):
    import os

    rows = cells("modules.csv")[:2]
    write(tmp_path, "modules.csv", rows)
    assert data.modules(tmp_path)[0].cost == 38
    rows[1][rows[0].index("cost")] = "41"
    write(tmp_path, "modules.csv", rows)
    os.utime(tmp_path / "modules.csv", ns=(1, 1))
    assert data.modules(tmp_path)[0].cost == 41


def test_own_file_may_start_with_a_byte_order_mark_and_shuffle_its_columns(tmp_path):
    rows = [list(reversed(row)) for row in cells("inverters.csv")]
    write(tmp_path, "inverters.csv", rows)
    text = (tmp_path / "inverters.csv").read_text(encoding="utf-8")
    (tmp_path / "inverters.csv").write_text(text, encoding="utf-8-sig")
    assert data.inverters(tmp_path) == data.inverters()


def test_a_folder_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(DataError, match="there is no folder"):
        data.sites(tmp_path / "nowhere")


def test_rows_cannot_be_changed():
    with pytest.raises(ValueError, match="frozen"):
        data.modules()[0].voc_v = 1.0


# ---- plain words only


def test_labels_are_plain_words_numbers_and_units():
    words = (
        r"Flooded|AGM|LFP|Gel|Module|Direct|Tracking|controller|Inverter|cells|AWG|mm²|Ah|A|V|W|\d+(?:\.\d+)?(?:/0)?"
    )
    plain = re.compile(rf"(?:(?:{words}),? ?)+")
    parts = [*data.battery_units(), *data.modules(), *data.controllers(), *data.inverters()]
    labels = [part.label for part in parts]
    labels += [size for name in ("us_style", "iec_style") for size in data.code_setting(name).size_labels.values()]
    assert [label for label in labels if not plain.fullmatch(label)] == []
    # keys repeat the label, so that no code can hide in one
    allowed = {"flooded", "agm", "gel", "lfp", "module", "direct", "tracking", "inverter"}
    for part in parts:
        head, *rest = part.key.split("_")
        assert head in allowed
        assert all(re.fullmatch(r"\d+(v|ah|w|a|cell)", word) for word in rest), part.key
        numbers = re.findall(r"\d+", part.key)
        assert sorted(numbers) == sorted(re.findall(r"\d+", part.label)), part.key


def test_invented_things_say_so():
    for part in (*data.battery_units(), *data.modules(), *data.controllers(), *data.inverters()):
        assert part.standing == INVENTED
    for key in ("fell_hut", "riverbend", "gull_mast"):
        assert data.site(key).standing == INVENTED
        assert "invented" in data.site(key).country
    assert sum(place.standing == INVENTED for place in data.sites()) == 3


def test_no_addresses_in_the_files():
    for path in SHIPPED.iterdir():
        assert not re.search(r"https?:|www\.|\.com\b|\.org\b", path.read_text(encoding="utf-8")), path.name


# ---- physics across the files


def daily_extraterrestrial_kwh_m2(latitude_deg: float, month: int) -> float:
    """Mean of the month, by summing the sun's height minute by minute (Spencer's series; no closed form)."""
    total = 0.0
    days = [15 + 365 * month / 12 + step for step in (-15, -7.5, 0, 7.5, 15)]
    for day in days:
        g = 2 * math.pi * (day - 1) / 365
        declination = (
            0.006918 - 0.399912 * math.cos(g) + 0.070257 * math.sin(g) - 0.006758 * math.cos(2 * g)
            + 0.000907 * math.sin(2 * g) - 0.002697 * math.cos(3 * g) + 0.00148 * math.sin(3 * g)
        )  # fmt: skip
        distance = 1.000110 + 0.034221 * math.cos(g) + 0.001280 * math.sin(g) + 0.000719 * math.cos(2 * g)
        latitude = math.radians(latitude_deg)
        for quarter in range(96):
            hour_angle = math.radians((quarter + 0.5) * 3.75 - 180)
            height = math.sin(latitude) * math.sin(declination) + math.cos(latitude) * math.cos(declination) * math.cos(
                hour_angle
            )
            total += 1.361 * distance * max(0.0, height) * 0.25
    return total / len(days)


@pytest.mark.parametrize("place", data.sites(), ids=lambda place: place.key)
def test_sun_on_the_ground_is_below_the_sun_above_the_air(place):
    for month, ghi in enumerate(place.ghi_by_month_kwh_m2):
        clearness = ghi / daily_extraterrestrial_kwh_m2(place.latitude_deg, month)
        assert 0.1 < clearness < 0.8, f"month {month + 1}: clearness {clearness:.2f}"
        if place.standing == INVENTED:
            assert 0.28 < clearness < 0.62, f"month {month + 1}: clearness {clearness:.2f}"


def test_places_lie_all_round_the_world():
    real = [place for place in data.sites() if place.standing != INVENTED]
    assert len(real) >= 24
    assert sum(place.latitude_deg < 0 for place in real) >= 4
    assert sum(abs(place.latitude_deg) < 23.4 for place in real) >= 6
    assert sum(abs(place.latitude_deg) > 50 for place in real) >= 4
    licences = [place.licence.startswith("public domain") for place in real]
    assert licences == sorted(licences, reverse=True), "public-domain rows come first"
    assert "chernihiv" not in {place.key for place in real}


def test_seasons_fit_the_hemisphere():
    for place in data.sites():
        if abs(place.latitude_deg) < 30:
            continue
        temps, sun = place.air_temp_by_month_c, place.ghi_by_month_kwh_m2
        june, january = (temps[6], sun[5]), (temps[0], sun[11])
        warm, cold = (june, january) if place.latitude_deg > 0 else (january, june)
        assert warm > cold
        assert warm[1] > cold[1]


def test_invented_places_are_unlike_any_real_one():
    real = [place for place in data.sites() if place.standing != INVENTED]
    for key in ("fell_hut", "riverbend", "gull_mast"):
        own = data.site(key).ghi_by_month_kwh_m2
        for place in real:
            same = sum(math.isclose(a, b, rel_tol=0.01) for a, b in zip(own, place.ghi_by_month_kwh_m2, strict=True))
            assert same < 6, f"{key} looks like {place.key}"


@pytest.mark.parametrize(("name", "table_temp_c"), [("us_style", 75), ("iec_style", 20)])
def test_conductor_resistance_is_that_of_copper(name, table_temp_c):
    # 17.241 nΩ m at 20 °C and 0.00393 /K (IEC 60028); stranding and drawing add a few per cent
    setting = data.code_setting(name)
    rho = 17.241e-9 * (1 + 0.00393 * (table_temp_c - 20))
    for area, ohm_m in zip(setting.resistance_of.x, setting.resistance_of.y, strict=True):
        assert 1.0 <= ohm_m / (rho / (area * 1e-6)) < 1.13, f"{area} mm²"


@pytest.mark.parametrize("name", ["us_style", "iec_style"])
def test_thicker_is_always_better(name):
    setting = data.code_setting(name)
    assert list(setting.ampacity_of.y) == sorted(set(setting.ampacity_of.y))
    assert list(setting.resistance_of.y) == sorted(set(setting.resistance_of.y), reverse=True)
    for area, amps in zip(setting.fuse_limit_of.x, setting.fuse_limit_of.y, strict=True):
        assert amps <= float(setting.ampacity_of(area))


@pytest.mark.parametrize("name", ["us_style", "iec_style"])
def test_conductor_for_the_resistance_is_the_thinnest_that_will_do(name):
    setting = data.code_setting(name)
    listed = setting.resistance_of.x
    for wanted in (9e-3, 3.1e-3, 1e-3, 2.1e-4):
        chosen = float(setting.conductor_for_conductance(1 / wanted))
        good = [area for area in listed if float(setting.resistance_of(area)) <= wanted]
        assert chosen == min(good)


@pytest.mark.parametrize("chemistry", CHEMISTRIES)
def test_curves_are_monotone_and_cover_their_span(chemistry):
    kept = data.capacity_kept(chemistry)
    assert (kept.x[0], kept.x[-1]) == (-30, 50)
    assert list(kept.y) == sorted(set(kept.y))
    assert float(kept(25.0)) == 1.0
    volts = data.cell_rest_voltage(chemistry)
    assert (volts.x[0], volts.x[-1]) == (0, 1)
    assert list(volts.y) == sorted(set(volts.y))
    cycles = data.cycle_life(chemistry)
    assert cycles.between == "log"
    assert list(cycles.y) == sorted(set(cycles.y), reverse=True)
    freezing = data.freezing_of_gravity()
    assert list(freezing.y) == sorted(set(freezing.y), reverse=True)


def test_abbreviated_chemistries_are_written_in_capitals():
    """Learners read "capacity kept, agm" under a table."""
    assert data.capacity_kept("agm").label == "capacity kept, AGM"
    assert data.cycle_life("lfp").label == "cycles to the end of life, LFP"
    assert data.cell_rest_voltage("gel").label == "resting voltage of one cell, gel"


def test_invented_spans_are_marked():
    assert data.capacity_kept("flooded").invented_at(-10)
    assert not data.capacity_kept("flooded").invented_at(0)
    for chemistry in ("agm", "gel", "lfp"):
        assert data.capacity_kept(chemistry).invented_at(20)
        assert data.cycle_life(chemistry).invented_at(0.5)
    flooded = [row for row in cells("capacity_temperature.csv")[1:] if row[0] == "flooded"]
    assert all((row[3] == "") == (row[-1] == INVENTED) for row in flooded), "a multiplier only where one is published"


def test_cycle_life_lies_in_the_bands_of_practice():
    # common practice, no source: 300-500, 400-1000, 500-1200 cycles at half depth; LFP 2000-6000 at 0.8
    for chemistry, depth, low, high in (
        ("flooded", 0.5, 300, 500),
        ("agm", 0.5, 400, 1000),
        ("gel", 0.5, 500, 1200),
        ("lfp", 0.8, 2000, 6000),
    ):
        assert low <= float(data.cycle_life(chemistry)(depth)) <= high


def test_charging_voltages_lie_in_the_bands_of_practice():
    # common practice, no source, volts a cell at 25 °C
    bands = {
        "flooded": ((2.40, 2.47), (2.20, 2.25), (1.15, 1.30)),
        "agm": ((2.38, 2.45), (2.25, 2.30), (1.05, 1.15)),
        "gel": ((2.35, 2.40), (2.25, 2.30), (1.10, 1.25)),
        "lfp": ((3.45, 3.60), (3.35, 3.40), (1.00, 1.05)),
    }
    for chemistry in data.chemistries():
        absorb, hold, exponent = bands[chemistry.key]
        assert absorb[0] <= chemistry.absorb_v_per_cell <= absorb[1]
        assert hold[0] <= chemistry.float_v_per_cell <= hold[1]
        assert exponent[0] <= chemistry.peukert_exponent <= exponent[1]
        assert (chemistry.equalize_v_per_cell is not None) == (chemistry.key == "flooded")
        assert chemistry.depth_daily_frac <= chemistry.depth_max_frac
        assert chemistry.charge_rate_min_per_h < chemistry.charge_rate_max_per_h
    assert data.chemistry("lfp").charge_temp_min_c == 0, "no charging of LFP below 0 °C"
    assert data.chemistry("lfp").compensation_mv_per_k_cell == 0


def test_modules_hang_together():
    assert len(data.modules()) >= 10
    for module in data.modules():
        assert module.vmp_v * module.imp_a == pytest.approx(module.module_w, rel=0.01)
        cells_count = int(re.findall(r"(\d+)cell", module.key)[0])
        assert 0.55 < module.voc_v / cells_count < 0.72, "open-circuit volts of one silicon cell"
        assert 0.65 < module.module_w / (module.voc_v * module.isc_a) < 0.85, "fill factor of crystalline silicon"
        assert module.nominal_v == {36: 12, 72: 24 if module.vmp_v < 40 else 0, 60: 0}[cells_count]


def test_batteries_hang_together():
    units = data.battery_units()
    assert len(units) >= 18
    assert {(unit.unit_v, unit.chemistry == "lfp") for unit in units} == {
        (2, False), (6, False), (12, False), (12, True), (24, True), (48, True)
    }  # fmt: skip
    for unit in units:
        wh_kg = unit.unit_v * unit.unit_ah / unit.mass_kg
        assert (80 < wh_kg < 130) if unit.chemistry == "lfp" else (28 < wh_kg < 52), unit.key
        assert unit.charge_limit_a <= data.chemistry(unit.chemistry).charge_rate_max_per_h * unit.unit_ah + 0.5
    # one 6 V 225 Ah flooded unit weighs 28 to 30 kg (common practice, no source)
    assert 28 <= data.battery_unit("flooded_6v_225ah").mass_kg <= 30


def test_controllers_and_inverters_hang_together():
    kinds = [controller.kind for controller in data.controllers()]
    assert len(kinds) >= 12
    assert set(kinds) == {"direct", "tracking"}
    for controller in data.controllers():
        assert controller.voltage_max_v > max(controller.banks_v) * 1.25, controller.key
    assert len(data.inverters()) >= 12
    for inverter in data.inverters():
        assert inverter.rated_w <= inverter.rated_va
        # common practice, no source: surge about twice the rating
        assert 1.5 <= inverter.surge_w / inverter.rated_w <= 3
        assert inverter.bank_v * 0.85 < inverter.cutoff_v < inverter.bank_v
    assert {inverter.bank_v for inverter in data.inverters()} == {12, 24, 48}


# ---- where it runs


def test_loading_needs_none_of_the_heavy_libraries():
    code = (
        "import sys, offgrid_core.data as d; d.sites(); d.code_setting('us_style');"
        "print([m for m in ('pandas', 'plotly', 'pvlib', 'ipywidgets', 'scipy') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.slow
def test_an_installed_wheel_loads_the_same_data(tmp_path):
    if importlib.util.find_spec("hatchling") is None:
        pytest.skip("hatchling, which builds the wheel, is not installed")
    source = tmp_path / "source"
    source.mkdir()
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source)
    for name in ("offgrid_core", "datasets"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check"]
    build = [*pip, "wheel", "--no-deps", "--no-build-isolation", "--no-index", "-w", str(tmp_path), str(source)]
    subprocess.run(build, check=True, capture_output=True, text=True)
    (wheel,) = tmp_path.glob("*.whl")
    target = tmp_path / "target"
    subprocess.run(
        [*pip, "install", "--no-deps", "--no-index", "--target", str(target), str(wheel)],
        check=True,
        capture_output=True,
        text=True,
    )
    code = (
        "import offgrid_core.data as d; print(d.shipped_folder());"
        "print(len(d.sites()), len(d.modules()), d.code_setting('us_style').size_label(13.302),"
        "d.capacity_kept('flooded')(10.0))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env={"PYTHONPATH": str(target), "PATH": ""},
        check=True,
        capture_output=True,
        text=True,
    )
    folder, numbers = done.stdout.strip().splitlines()
    assert Path(folder) == target / "offgrid_core" / "datasets"
    assert numbers == f"{len(data.sites())} {len(data.modules())} 6 AWG {data.capacity_kept('flooded')(10.0)}"
