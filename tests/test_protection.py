"""Fuses, cables and devices: never under-sized by rounding, in both code settings, hot or cold, alone or together."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.quantities import Settings, say, show
from offgrid_core.report.tables import circuit_rows
from offgrid_core.sizing.circuits import CIRCUITS, GROUPING
from offgrid_core.sizing.protection import DEVICES, NEVER_EQUALIZED, PROTECTION
from offgrid_core.system import read_plan, size
from offgrid_core.system.protection import BATTERY_ROWS, pick_devices, protect
from offgrid_core.worksheet import Sheet

CODES = {name: data.code_setting(name) for name in ("us_style", "iec_style")}
TABLE = GROUPING + CIRCUITS
DATASETS = Path(__file__).parents[1] / "datasets"


def rows_of(file, **wanted):
    """Return rows of a data file, read without the package."""
    with (DATASETS / file).open(encoding="utf-8", newline="") as lines:
        return [r for r in csv.DictReader(lines) if all(r[k] == v for k, v in wanted.items())]


def circuit(code, amps, metres=3.0, air=30.0, together=1.0):
    """Return one circuit's table solved, or a row for each of several currents."""
    amps = np.atleast_1d(amps)
    tables = {
        "next_fuse": code.fuse_size,
        "grouping_table": code.grouping_factor,
        "conductors_circuit_count": code.conductors_circuit_count,
        "ambient_factor": code.ambient_factor,
        "cable_for_ampacity": code.conductor_for_ampacity,
        "cable_for_conductance": code.conductor_for_conductance,
        "cable_for_fuse": code.conductor_for_fuse,
        "cable_fuse_limit": code.fuse_limit_of,
        "cable_resistance": code.resistance_of,
        "cable_ampacity": code.ampacity_of,
        "ampacity_most_a": max(code.ampacity_of.y),
        "resistance_least_ohm_m": min(code.resistance_of.y),
        "table_temp_c": code.table_temp_c,
        "wire_temp_c": code.insulation_c,
    }
    return TABLE.solve(
        tables
        | {
            "current_by_row_a": amps,
            "current_by_row_factor": code.continuous_factor,
            "voltage_by_row_v": 24,
            "length_by_row_m": metres,
            "drop_limit_by_row_frac": 0.03,
            "ambient_c": air,
            "circuits_together_count": together,
            "cables_max_count": 2,
        }
    )


currents = st.lists(st.floats(0.05, 300), min_size=2, max_size=8).map(sorted)
every_code = pytest.mark.parametrize("code", CODES.values(), ids=CODES)

# ---- cables and fuses


@every_code
@given(amps=currents, metres=st.floats(0.5, 15), air=st.floats(0, 50), together=st.integers(1, 4))
@settings(max_examples=60, deadline=None)
def test_nothing_is_under_sized_by_rounding(code, amps, metres, air, together):
    solved = circuit(code, amps, metres, air, together)
    family = {"us_style": "us", "iec_style": "iec"}[code.key]
    listed = [float(r["size_a"]) for r in rows_of("fuse_sizes.csv", family=family)]
    wires = {float(r["area_mm2"]): r for r in rows_of(f"conductors_{family}.csv")}
    bands = sorted((float(r["ambient_c"]), r) for r in rows_of(f"ambient_{family}.csv"))
    air_factor = next(float(r[f"factor_{code.insulation_c}"]) for top, r in bands if air <= top)
    counted = together * (2 if family == "us" else 1)
    groups = sorted((float(r["count"]), float(r["factor"])) for r in rows_of("grouping.csv", family=family))
    group_factor = next(factor for most, factor in groups if counted <= most)
    for row, design in enumerate(solved["design_current_by_row_a"]):
        fuse, side_by_side = solved["fuse_by_row_a"][row], solved["cables_by_row_count"][row]
        wire = wires[min(wires, key=lambda area: abs(area - solved["cable_by_row_mm2"][row]))]
        assert fuse in listed
        assert design <= fuse * (1 + 1e-9) + 1e-6
        assert not [size for size in listed if design + 1e-6 < size < fuse], "a smaller size would have carried it"
        amps_as_laid = float(wire[f"ampacity_{code.insulation_c}_a"]) * air_factor * group_factor * side_by_side
        assert amps_as_laid >= fuse * (1 - 1e-9)
        if family == "us" and wire["small_conductor_fuse_a"]:
            assert fuse <= float(wire["small_conductor_fuse_a"]) * side_by_side
    assert np.all(solved["drop_by_row_frac"] <= 0.03 + 1e-9)


def thinner_where_one_cable(solved_or_pair):
    """Return whether a later row, with as many cables, has a thinner one."""
    area, count = solved_or_pair
    return any(
        count[j] == count[i] and area[j] < area[i] - 1e-9 for i in range(len(area)) for j in range(i + 1, len(area))
    )


def laid(solved):
    return solved["cable_by_row_mm2"], solved["cables_by_row_count"]


@every_code
@given(amps=currents, metres=st.floats(0.5, 15), air=st.floats(0, 50), together=st.integers(1, 4))
@settings(max_examples=60, deadline=None)
def test_a_larger_current_never_gives_a_thinner_cable_or_a_smaller_fuse(code, amps, metres, air, together):
    solved = circuit(code, amps, metres, air, together)
    assert not thinner_where_one_cable(laid(solved))
    assert np.all(np.diff(solved["fuse_by_row_a"]) >= 0)
    assert np.all(np.diff(solved["cables_by_row_count"]) >= 0)


@every_code
@given(amps=st.floats(0.5, 150), airs=st.lists(st.floats(0, 50), min_size=2, max_size=5).map(sorted))
@settings(max_examples=40, deadline=None)
def test_hotter_air_and_more_company_never_give_a_thinner_cable(code, amps, airs):
    hot = [laid(circuit(code, amps, air=air)) for air in airs]
    assert not thinner_where_one_cable([np.ravel(column) for column in zip(*hot, strict=True)])
    crowd = [laid(circuit(code, amps, together=n)) for n in (1, 2, 3, 4, 6)]
    assert not thinner_where_one_cable([np.ravel(column) for column in zip(*crowd, strict=True)])


@every_code
def test_heat_and_company_ask_for_a_thicker_cable_where_the_ampacity_rules(code):
    alone = circuit(code, 60, metres=0.5)["cable_by_row_mm2"][0]
    assert circuit(code, 60, metres=0.5, air=50)["cable_by_row_mm2"][0] > alone
    assert circuit(code, 60, metres=0.5, together=6)["cable_by_row_mm2"][0] > alone


def test_us_counts_conductors_and_iec_counts_circuits():
    factors = {
        name: [circuit(code, 10, together=n)["grouping_frac"] for n in (1, 2, 3)] for name, code in CODES.items()
    }
    assert factors == {"us_style": [1.0, 0.8, 0.8], "iec_style": [1.0, 0.8, 0.7]}


def test_a_cable_is_named_in_both_systems(plans):
    us, iec = (size(read_plan(plans / f"{name}.toml")) for name in ("weekend_cabin", "fell_hut"))
    labels = {f"({label})" for label in CODES["us_style"].size_labels.values()}
    column = [row[4] for row in circuit_rows(us, Settings())[1:]]
    assert all(" mm² " in cell and any(label in cell for label in labels) for cell in column), column
    assert "16 mm² (between 6 AWG and 5 AWG)" in [row[4] for row in circuit_rows(iec, Settings())]


# ---- fault current, and what opens it

#: A bank of two strings in 48 V and an array of two strings, with fuses of five circuits.
GIVEN = {
    "absorb_set_v": 58.8,
    "equalize_set_v": 61.2,
    "on_array_by_row_frac": [1, 1, 0, 0, 0],
    "string_voc_cold_v": 140,
    "cells_count": 24,
    "cell_rest_voltage": data.cell_rest_voltage("flooded"),
    "cell_resistance_ohm_ah": 0.08,
    "bank_ah": 450,
    "strings_count": 2,
    "strings_each_count": 2,
    "module_isc_a": 9.5,
    "bright_sun_factor": 1.25,
    "backfeed_frac": 1,
    "next_fuse": CODES["us_style"].fuse_size,
    "fuse_most_a": 800,
    "fuse_by_row_a": [15, 30, 60, 125, 20],
    "design_current_by_row_a": [14.8, 29.7, 55, 112, 18],
    "selective_ratio": 1.6,
    "drop_by_row_v": [1, 1, 0.5, 0.4, 0.3],
    "current_by_row_a": [9.5, 19, 40, 90, 15],
    "wire_temp_c": 75,
    "circuits_by_row_count": 1,
}
NAMES = ("module string", "array to controller", "controller to bank", "bank to inverter", "bank to DC loads")
DEVICE_ROWS = rows_of("protective_devices.csv")


def protected(**changed):
    return protect(GIVEN | changed, NAMES, data.protective_devices())


def test_the_bank_s_fault_current_is_that_of_the_warm_bank_and_grows_with_its_strings():
    needed = PROTECTION.upto("bank_fault_a").inputs
    assert not {"kept_frac", "battery_temp_c", "bank_resistance_ohm"} & set(needed)
    one = protected().solved["bank_fault_a"]
    # 24 cells of 2.105 V; each 0.08 ohm Ah over 450 Ah, 4.27 milliohm together
    assert one == pytest.approx(24 * data.cell_rest_voltage("flooded")(1) / (24 * 0.08 / 450))
    assert 11_500 < one < 12_200
    assert protected(bank_ah=900).solved["bank_fault_a"] == pytest.approx(2 * one)


def test_the_array_s_devices_face_the_other_strings_and_the_bank_through_the_controller():
    bank = protected().solved["bank_fault_a"]
    full = 24 * data.cell_rest_voltage("flooded")(1)
    back = full / (full / bank + 0.5 / 40 * 254.5 / 309.5)  # the cable is cold when the fault comes
    assert back < bank / 2
    assert protected().solved["fault_by_row_a"] == pytest.approx([back + 11.875] * 2 + [bank] * 3)
    assert protected(backfeed_frac=0).solved["fault_by_row_a"] == pytest.approx([11.875] * 2 + [bank] * 3)
    assert protected().solved["voltage_most_by_row_v"] == pytest.approx([140] * 2 + [61.2] * 3)


def test_a_bank_that_is_never_equalized_reads_the_absorption_voltage():
    given = {n: v for n, v in GIVEN.items() if n != "equalize_set_v"}
    assert protect(given, NAMES, data.protective_devices()).solved["charge_most_v"] == 58.8
    assert PROTECTION.replace(NEVER_EQUALIZED)["charge_most_v"].needs == ("absorb_set_v",)


@pytest.mark.parametrize(("ah", "volts", "backfeed"), [(60, 22, 0), (105, 60, 1), (450, 140, 1), (900, 400, 0.5)])
def test_each_device_is_the_first_of_the_file_that_stands_voltage_fault_and_size(ah, volts, backfeed):
    found = protected(bank_ah=ah, string_voc_cold_v=volts, backfeed_frac=backfeed)
    assert found.names == (*NAMES, *BATTERY_ROWS)
    wanted = [
        (*row,)
        for row in zip(
            [*found.solved["voltage_most_by_row_v"], *[found.solved["charge_most_v"]] * 2],
            [*found.solved["fault_by_row_a"], *[found.solved["bank_fault_a"]] * 2],
            [*found.solved["fuse_by_row_a"], *(found.solved[n] for n in ("battery_string_fuse_a", "bank_main_fuse_a"))],
            strict=True,
        )
    ]
    for (voltage, fault, amps), device in zip(wanted, found.devices, strict=True):
        first = next(
            r
            for r in DEVICE_ROWS
            if float(r["dc_voltage_v"]) >= voltage
            and float(r["interrupting_a"]) >= fault
            and float(r["size_from_a"]) <= amps <= float(r["size_to_a"])
        )
        assert device.key == first["key"]
    assert [f.label for f in found.findings(show) if not f.passed] == []


def test_a_device_that_endangers_is_the_last_to_be_taken():
    low, small = data.protective_devices()[1], data.protective_devices()[4]
    assert (low.interrupting_a, small.size_to_a) == (5000, 600)
    rows = {"fuse_by_row_a": [700.0], "voltage_most_by_row_v": [61.2], "fault_by_row_a": [12_000.0]}
    assert pick_devices(rows, [low, small]) == (small,), "a size that is not made, rather than a burst"
    none = {"fuse_by_row_a": [60.0], "voltage_most_by_row_v": [61.2], "fault_by_row_a": [900_000.0]}
    (nearest,) = pick_devices(none, data.protective_devices())
    assert nearest.interrupting_a == max(device.interrupting_a for device in data.protective_devices())


def test_a_device_too_weak_is_a_danger_and_names_its_circuit():
    strong = protected(cell_resistance_ohm_ah=0.004)  # a bank of a quarter of a million amperes
    (burst,) = [f for f in strong.findings(show) if f.name == "device_interrupting_margin_by_row_a"]
    assert not burst.passed
    assert burst.severity == "danger"
    assert burst.label.endswith(", controller to bank")


# ---- module strings


@pytest.mark.parametrize(("strings", "needs"), [(1, False), (2, False), (3, True), (5, True)])
def test_three_strings_want_a_fuse_each(strings, needs):
    found = protected(strings_each_count=strings)
    assert (found.solved["unfused_spare_a"] < 0) == needs
    assert ("needs a fuse" in found.verdicts()[1]) == needs
    assert found.solved["module_fuse_margin_a"] >= 0, "the fuse of the string keeps it below"


def test_a_string_fuse_above_the_module_s_largest_is_a_danger():
    found = protected(strings_each_count=4, fuse_by_row_a=[25, 60, 60, 125, 20])
    (finding,) = [f for f in found.findings(show) if f.name == "module_fuse_margin_a"]
    assert (finding.passed, finding.severity) == (False, "danger")
    assert found.solved["module_fuse_max_a"] == 15  # 1.56 × 9.5 = 14.8 A


# ---- what opens first


def test_the_battery_string_fuse_leaves_a_fault_after_it_to_the_fuse_there():
    found = protected()
    assert found.solved["battery_string_fuse_a"] == 100  # 1.6 × 125 A shared by two strings
    assert found.solved["selective_margin_ratio"] == pytest.approx(0)
    assert found.verdicts()[0] == say("protection.selective", ratio="1.6")


@pytest.mark.parametrize(("changed", "fuse"), [({"strings_count": 1}, 200), ({"strings_count": 3}, 70)])
def test_fewer_strings_carry_more_each(changed, fuse):
    assert protected(**changed).solved["battery_string_fuse_a"] == fuse


def test_string_fuses_carry_all_circuits_of_the_bank():
    many = [15, 30, 60, 60, 60], [14.8, 29.7, 60, 60, 60]
    found = protected(fuse_by_row_a=many[0], design_current_by_row_a=many[1])
    assert found.solved["battery_string_fuse_a"] * 2 >= 180


def test_a_string_fuse_held_too_small_is_told():
    held = PROTECTION.solve(GIVEN, held={"battery_string_fuse_a": 60})
    assert held["selective_margin_ratio"] < 0
    assert held["selective_given_ratio"] == pytest.approx(0.96)
    limited = protected(strings_count=1, fuse_most_a=150)
    assert limited.solved["selective_margin_ratio"] < 0
    assert "nobody can say" in limited.verdicts()[0]


# ---- whole designs


@pytest.mark.parametrize("name", ["fell_hut", "riverbend", "gull_mast"])
def test_a_demo_design_can_be_protected(plans, name):
    design = size(read_plan(plans / f"{name}.toml"))
    code = data.code_setting(design.plan.circuits.code)
    known = {**design.system, **design.circuits}
    given = {n: known[n] for n in PROTECTION.inputs if n in known} | {
        "on_array_by_row_frac": [float(n in NAMES[:2]) for n in design.circuit_names],
        "bright_sun_factor": code.pv_current_factor,
        "backfeed_frac": 1.0,
        "selective_ratio": 1.6,
        "fuse_most_a": max(code.fuse_size.y),
    }
    found = protect(given, design.circuit_names, data.protective_devices())
    assert [f.label for f in found.findings(show) if not f.passed] == []
    assert len(found.verdicts()) == 2


def test_devices_are_invented_and_say_so():
    assert {device.standing for device in data.protective_devices()} == {"invented classroom data"}
    assert {device.kind for device in data.protective_devices()} == {"fuse", "breaker"}


def test_the_cautions_are_there():
    for key, words in [
        ("fault", "short-circuit"),
        ("dc", "arc"),
        ("gas", "hydrogen"),
        ("lfp", "no gas in normal use"),
        ("generator", "Exhaust"),
    ]:
        assert words in say(f"caution.{key}")


def test_every_danger_is_one():
    severe = {n for sheet in (PROTECTION, DEVICES) for n, x in sheet.items() if x.severity == "danger"}
    assert severe == {
        "module_fuse_margin_a",
        "device_voltage_margin_by_row_v",
        "device_interrupting_margin_by_row_a",
    }
    assert isinstance(TABLE, Sheet)
