"""The command line: the sheet, the JSON with its stable keys, and what happens when something is amiss."""

import json
import math
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from offgrid_core.__main__ import main
from offgrid_core.quantities import Settings, say, show
from offgrid_core.report.tables import CAUTIONS, LOAD_TOTALS, findings_of
from offgrid_core.report.terminal import WIDTH
from offgrid_core.sizing import LOADS
from offgrid_core.system import read_plan, size
from offgrid_core.worksheet import Table

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
COMMAND = [sys.executable, "-m", "offgrid_core"]
#: Other programs rely on these; a change here breaks them.
KEYS = [
    "title",
    "site",
    "latitude_deg",
    "tilt_deg",
    "azimuth_deg",
    "parts",
    "loads",
    "given",
    "lines",
    "more",
    "circuits",
    "bank_leads",
    "curve_wh",
    "protection",
    "sharing",
    "voltages",
    "gives_way",
    "bank_options",
    "set_points",
    "order",
    "pictures",
    "findings",
]
PART_KEYS = ["battery_unit", "module", "controller", "inverter"]
FINDING_KEYS = ["name", "label", "margin", "passed", "severity", "mend", "standing", "source"]
LINE_KEYS = """
energy_day_wh kept_frac spell_wh bank_warm_wh bank_cold_wh bank_needed_ah units_in_series_count strings_count
units_count bank_ah bank_wh bank_usable_wh autonomy_given_days spell_depth_frac bank_mass_kg bank_margin_ah
series_margin_count strings_margin_count depth_margin_frac use_temp_margin_k daily_depth_margin_frac day_ah
running_current_a functional_hours_h load_hours_h average_discharge_h runtime_h delivered_ah capacity_hours_ratio
capacity_at_hours_ah rate_margin_ah charge_left_frac gravity_left_ratio freezing_left_c freezing_margin_k cells_count
absorb_set_v float_set_v bank_compensation_mv_k start_voltage_v charge_temp_margin_k equalize_set_v rest_low_v
dc_circuit_a peak_sun_by_month_h load_sun_by_month_w cell_temp_by_month_c converter_kept_frac heat_kept_by_month_frac
losses_kept_frac delivered_by_month_frac array_by_month_w design_month design_sun_h design_delivered_frac
design_load_wh array_for_load_w array_for_refill_w charge_floor_a array_for_current_w array_needed_w
array_strings_count modules_count array_w array_day_wh array_given_ratio surplus_day_wh refill_given_days
string_voc_cold_v air_hot_c cell_hottest_c string_vmp_hot_v series_most_count series_fewest_count
cold_voltage_margin_v hot_voltage_margin_v array_margin_w charge_current_a controller_needed_a controllers_count
strings_each_count array_circuit_a controller_each_a controller_circuit_a controller_each_margin_a
controllers_margin_count charge_floor_margin_a charge_ceiling_margin_a unit_charge_margin_a inverter_needed_w
bank_resistance_ohm inverter_nominal_a inverter_low_v inverter_terminal_v inverter_input_a inverter_hot_w
inverter_margin_w
inverter_margin_va heat_margin_w surge_margin_w cutoff_margin_v discharge_margin_a voltage_margin_a part_load_w
part_loss_frac full_loss_frac square_loss_per_w share_loss_frac loss_by_hour_w curve_day_wh curve_eff_frac
curve_margin_wh
"""


def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([*COMMAND, *arguments], capture_output=True, check=False, env={**os.environ, **environment})


def printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(arguments) == 0
    told = capsys.readouterr()
    assert told.err == ""
    return told.out


def numbers_in(found: object) -> list[float]:
    if isinstance(found, dict | list):
        inside = found.values() if isinstance(found, dict) else found
        return [x for each in inside for x in numbers_in(each)]
    return [found] if isinstance(found, float) else []


@pytest.fixture(autouse=True)
def usual_settings(monkeypatch):
    monkeypatch.setattr("offgrid_core.quantities.settings.load", Settings)


@pytest.mark.parametrize("name", DEMOS)
def test_json_has_every_line_by_name_and_no_nan(plans, capsys, name):
    read = json.loads(printed(capsys, "size", str(plans / f"{name}.toml"), "--json"))
    design = size(read_plan(plans / f"{name}.toml"))
    assert list(read) == KEYS
    assert list(read["parts"]) == PART_KEYS
    assert all(list(f) == FINDING_KEYS for f in read["findings"])
    assert list(read["lines"]) == list(design.system.sheet)
    circuits, loads = design.circuits.sheet, design.loads.sheet
    assert list(read["loads"]) == ["rows", *(n for n in loads.inputs if "by_row" in n), *LOADS]
    assert list(read["circuits"]) == ["rows", *(n for n in circuits.inputs if "by_row" in n), *circuits]
    assert list(read["more"]) == list(design.more)
    tables = {n for n in design.system.sheet.inputs if isinstance(design.system[n], Table)}
    assert set(design.system.sheet.inputs) - set(read["given"]) == tables
    values = numbers_in(read)
    assert len(values) > 150
    assert all(math.isfinite(x) for x in values)
    for line in design.system.sheet:
        assert read["lines"][line] == pytest.approx(design.system[line], rel=1e-12)


def test_the_keys_of_the_json_stay_as_they_are(plans, capsys):
    read = json.loads(printed(capsys, "size", str(plans / "fell_hut.toml"), "--json"))
    assert list(read["lines"]) == LINE_KEYS.split()


def test_json_says_null_where_there_is_no_inverter(plans, capsys):
    read = json.loads(printed(capsys, "size", str(plans / "gull_mast.toml"), "--json"))
    assert read["parts"]["inverter"] is None


def plain(text: str) -> str:
    """Return text with every run of blanks and line ends as one blank, so that wrapping does not matter."""
    return re.sub(r"[ \n]+", " ", text)


@pytest.mark.parametrize("name", DEMOS)
def test_the_sheet_shows_every_line_finding_and_caution(plans, capsys, name):
    sheet = printed(capsys, "size", str(plans / f"{name}.toml"))
    design = size(read_plan(plans / f"{name}.toml"))
    lines, told = sheet.splitlines(), plain(sheet)
    for solved, names in ((design.system, design.system.sheet), (design.loads, LOAD_TOTALS)):
        for n in names:
            line = solved.sheet[n]
            if not line.severity:
                assert plain(f"{line.label[:1].upper()}{line.label[1:]} = {show(n, solved[n])}") in told
    for f in findings_of(design, Settings()):
        assert plain(f"{f.label[1:]}: {f.worked} = {f.shown} to spare") in told
    assert f"All {len(design.findings)} limits are met." in told
    for key in CAUTIONS:
        assert plain(say(key)) in told
    for row in (*(x.name for x in design.plan.load), *design.circuit_names):
        assert any(line.startswith(row) for line in lines)
    for chosen in (design.parts.battery_unit, design.parts.module, design.parts.controller, design.parts.inverter):
        assert chosen is None or chosen.label in told


@pytest.mark.parametrize("name", DEMOS)
def test_the_sheet_fits_its_width(plans, capsys, name):
    sheet = printed(capsys, "size", str(plans / f"{name}.toml"))
    assert max(map(len, sheet.splitlines())) <= WIDTH
    assert "values)" not in sheet[sheet.index("\nFindings\n") :]


def test_a_broken_limit_is_on_the_sheet_with_what_would_mend_it(plans, tmp_path, capsys):
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    path = tmp_path / "long_strings.toml"
    path.write_text(text.replace("[parts]", "[parts]\nmodules_in_series_count = 20"), encoding="utf-8")
    sheet = printed(capsys, "size", str(path))
    assert "BROKEN (danger) Cold-morning voltage" in sheet
    assert re.search(r"\d of 43 limits broken\.", sheet)
    assert "    mend: " in sheet


def test_values_of_the_plan_and_of_parts_are_told_from_assumptions(plans, capsys):
    sheet = printed(capsys, "size", str(plans / "riverbend.toml"))
    assert re.search(r"loss to dirt +5 % +given in the plan", sheet)
    assert re.search(r"inverter idle power .*maker's data\s+of the part", sheet)
    assert "inverter efficiency" not in printed(capsys, "size", str(plans / "gull_mast.toml")).split("\nAssumed\n")[1]


def test_nothing_asked_prints_the_help_and_fails():
    ran = run()
    assert ran.returncode == 2
    assert ran.stdout == b""
    assert b"usage: python -m offgrid_core" in ran.stderr
    assert b"size" in ran.stderr


@pytest.mark.parametrize("arguments", [["size"], ["seize", "x"], ["size", "a", "b"]])
def test_a_command_that_is_none_fails_without_a_traceback(arguments):
    ran = run(*arguments)
    assert ran.returncode == 2
    assert b"Traceback" not in ran.stderr
    assert b"error:" in ran.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX pipe")
def test_a_reader_that_goes_away_is_no_error(plans):
    reading, writing = os.pipe()
    os.close(reading)
    try:
        ran = subprocess.run(
            [*COMMAND, "size", str(plans / "fell_hut.toml")], stdout=writing, stderr=subprocess.PIPE, check=False
        )
    finally:
        os.close(writing)
    assert ran.returncode == 0
    assert ran.stderr == b""


def test_a_terminal_without_our_signs_still_gets_the_sheet(plans):
    ran = run("size", str(plans / "fell_hut.toml"), PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert ran.returncode == 0
    assert b"Bank needed = 727.2 Ah" in ran.stdout


def test_the_real_command_prints_what_main_prints(plans, capsys):
    path = Path(plans / "gull_mast.toml")
    ran = run("size", str(path), "--json", PYTHONIOENCODING="utf-8")
    assert ran.returncode == 0
    assert json.loads(ran.stdout) == json.loads(printed(capsys, "size", str(path), "--json"))


# ---- parts that fit


@pytest.mark.parametrize("name", DEMOS)
def test_the_parts_that_fit_are_listed_with_what_stops_the_others(plans, capsys, name):
    path = plans / f"{name}.toml"
    sheet = printed(capsys, "fit", str(path))
    read = json.loads(printed(capsys, "fit", str(path), "--json"))
    assert list(read) == ["title", "tried", "limits", "passing", "parts"]
    assert f"{len(read['passing']):,}".replace(",", "\u2009") in sheet
    assert max(map(len, sheet.splitlines())) <= WIDTH
    told, chosen = plain(sheet), size(read_plan(path)).parts
    for part in read["parts"]:
        assert (part["fits"] > 0) != bool(part["stopped_by"])
        for limit in part["stopped_by"]:
            assert limit in read["limits"]
            assert limit[1:] in told
    first = read["passing"][0]
    assert first["strings_count"] == min(p["strings_count"] for p in read["passing"])
    assert any(p["battery_unit"] == chosen.battery_unit.key for p in read["passing"])
    assert ("inverter" in first) == (chosen.inverter is not None)
    assert ("The first 12 of them:" in told) == (len(read["passing"]) > 12)
    assert say("caution.design_exercise") in told


def test_where_no_combination_passes_the_sheet_says_so(plans, tmp_path, capsys):
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8").replace("battery_temp_c = -8", "battery_temp_c = -26")
    path = tmp_path / "cold.toml"
    path.write_text(text, encoding="utf-8")
    sheet = printed(capsys, "fit", str(path))
    assert "0 of 58\u2009800 combinations" in sheet
    assert "The first" not in sheet
    assert json.loads(printed(capsys, "fit", str(path), "--json"))["passing"] == []


@pytest.mark.parametrize("command", ["size", "fit"])
def test_a_plan_that_is_none_is_one_sentence_for_every_command(tmp_path, command):
    ran = run(command, str(tmp_path / "none.toml"))
    assert (ran.returncode, ran.stdout) == (2, b"")
    assert ran.stderr.decode().count("\n") == 1
    assert b"there is no such file" in ran.stderr
