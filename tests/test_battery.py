"""The bank's physics: rate, state of charge, freezing, warmth and life behave as batteries do, whatever the numbers."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.errors import DataError, WorksheetError
from offgrid_core.quantities import show
from offgrid_core.sizing.inverter import rest_low_v
from offgrid_core.sizing.life import LIFE
from offgrid_core.sizing.rate import CHARGE_LIMIT, RATE
from offgrid_core.sizing.state import BY_GRAVITY, BY_VOLTAGE, FREEZING, GRAVITY_SPREAD
from offgrid_core.sizing.temperature import ENCLOSURE
from offgrid_core.worksheet import Sheet

CHEMISTRIES = ("flooded", "agm", "gel", "lfp")
FILLS = ("deep_cycle_1265", "motive_1280", "vehicle_1280")
PEUKERT = {k: data.chemistry(k).peukert_exponent for k in CHEMISTRIES}

amps = st.floats(0.1, 2000)
amp_hours = st.floats(10, 5000)
hours = st.floats(1, 240)
exponents = st.floats(1, 1.6)
charges = st.floats(0, 1)
celsius = st.floats(-40, 60)
shares = st.floats(0.05, 1)


def solved(sheet, wanted, **given_):
    return float(sheet.upto(wanted).solve(given_)[wanted])


def drawn(wanted, bank_ah, label_h, current, exponent):
    part = Sheet(RATE["runtime_h"], RATE["delivered_ah"])
    return solved(
        part, wanted, bank_ah=bank_ah, capacity_hours_h=label_h, running_current_a=current, peukert_exponent=exponent
    )


def at_hours(bank_ah, label_h, drawn_h, exponent):
    part = Sheet(RATE["capacity_hours_ratio"], RATE["capacity_at_hours_ah"])
    given_ = {"bank_ah": bank_ah, "capacity_hours_h": label_h, "functional_hours_h": drawn_h}
    return solved(part, "capacity_at_hours_ah", peukert_exponent=exponent, **given_)


# ---- rate


@given(amp_hours, hours, exponents)
def test_the_label_comes_back_at_the_label_s_own_rate(bank_ah, label_h, exponent):
    label_a = bank_ah / label_h
    assert drawn("runtime_h", bank_ah, label_h, label_a, exponent) == pytest.approx(label_h)
    assert drawn("delivered_ah", bank_ah, label_h, label_a, exponent) == pytest.approx(bank_ah)
    assert at_hours(bank_ah, label_h, label_h, exponent) == pytest.approx(bank_ah)


@given(amp_hours, hours, exponents, amps, st.floats(1, 50))
def test_capacity_never_rises_with_the_current(bank_ah, label_h, exponent, current, times):
    slow = drawn("delivered_ah", bank_ah, label_h, current, exponent)
    fast = drawn("delivered_ah", bank_ah, label_h, current * times, exponent)
    assert fast <= slow * (1 + 1e-9)
    assert drawn("runtime_h", bank_ah, label_h, current * times, exponent) <= drawn(
        "runtime_h", bank_ah, label_h, current, exponent
    )


@given(amp_hours, hours, hours, exponents)
def test_no_more_than_the_label_is_ever_credited(bank_ah, label_h, drawn_h, exponent):
    gives = at_hours(bank_ah, label_h, drawn_h, exponent)
    assert gives <= bank_ah * (1 + 1e-9)
    assert drawn_h < label_h or gives == pytest.approx(bank_ah)


@given(amp_hours, st.floats(10, 5000), hours, amps, exponents)
def test_the_limit_says_what_drawing_the_current_would_show(bank_ah, needed_ah, label_h, current, exponent):
    """Functional hours are needed ÷ current: enough at those hours is enough at that current, and the reverse."""
    part = RATE.upto("rate_margin_ah")
    held = {"running_current_a": current}
    given_ = {"bank_ah": bank_ah, "bank_needed_ah": needed_ah, "capacity_hours_h": label_h}
    given_ |= {"peak_w": 0.0, "dc_peak_w": 0.0, "inverter_eff_frac": 1.0, "bank_voltage_v": 24.0}
    margin = float(part.solve(given_ | {"peukert_exponent": exponent}, held)["rate_margin_ah"])
    gives = min(drawn("delivered_ah", bank_ah, label_h, current, exponent), bank_ah)
    assume(abs(gives - needed_ah) > 1e-6 * needed_ah)
    assert (margin > 0) == (gives > needed_ah)


def test_drawn_in_a_few_hours_a_flooded_bank_is_too_small_and_an_lfp_bank_is_not():
    given_ = {"bank_ah": 450.0, "bank_needed_ah": 400.0, "capacity_hours_h": 20.0, "dc_peak_w": 0.0}
    given_ |= {"inverter_eff_frac": 0.9, "bank_voltage_v": 24.0}
    part = RATE.upto("rate_margin_ah")
    for chemistry, peak_w, passes in (("flooded", 2000.0, False), ("lfp", 2000.0, True), ("flooded", 300.0, True)):
        found = part.solve(given_ | {"peak_w": peak_w, "peukert_exponent": PEUKERT[chemistry]}).findings(show)
        assert [f.passed for f in found] == [passes], chemistry


@given(st.floats(1, 6), st.floats(1, 200), st.floats(1, 600))
def test_more_strings_take_more_charge(strings, unit_a, current):
    margin = solved(
        CHARGE_LIMIT, "unit_charge_margin_a", strings_count=strings, unit_charge_a=unit_a, charge_current_a=current
    )
    more = solved(
        CHARGE_LIMIT, "unit_charge_margin_a", strings_count=strings + 1, unit_charge_a=unit_a, charge_current_a=current
    )
    assert (margin < 0) == (current > strings * unit_a)
    assert more == pytest.approx(margin + unit_a)


# ---- state of charge


@given(st.sampled_from(CHEMISTRIES), st.floats(0.05, 1))
def test_charge_to_voltage_and_back(chemistry, depth):
    cell_v = solved(
        Sheet(rest_low_v), "rest_low_v", cells_count=1.0, depth_frac=depth,
        cell_rest_voltage=data.cell_rest_voltage(chemistry),
    )  # fmt: skip
    back = solved(
        BY_VOLTAGE, "charge_by_voltage_frac", cell_read_v=cell_v,
        charge_of_rest_voltage=data.charge_of_rest_voltage(chemistry),
    )  # fmt: skip
    assert back == pytest.approx(solved(FREEZING, "charge_left_frac", depth_frac=depth), abs=1e-9)


@given(st.sampled_from(FILLS), charges)
def test_charge_to_gravity_and_back(fill, charge):
    left = FREEZING.upto("gravity_left_ratio")
    gravity = solved(left, "gravity_left_ratio", depth_frac=1 - charge, gravity_of_charge=data.gravity_of_charge(fill))
    part = Sheet(BY_GRAVITY["charge_by_gravity_frac"])
    back = solved(part, "charge_by_gravity_frac", gravity_ratio=gravity, charge_of_gravity=data.charge_of_gravity(fill))
    assert back == pytest.approx(charge, abs=1e-9)


@given(charges)
def test_the_flooded_cell_s_voltage_is_its_acid_s(charge):
    """Two data files, one rule: a cell filled to 1.265 rests at its specific gravity + 0.84."""
    gravity = float(data.gravity_of_charge("deep_cycle_1265")(charge))
    cell_v = solved(Sheet(BY_GRAVITY["cell_by_gravity_v"]), "cell_by_gravity_v", gravity_ratio=gravity)
    assert cell_v == pytest.approx(float(data.cell_rest_voltage("flooded")(charge)), abs=1e-9)


@given(st.floats(1.1, 1.3), celsius, st.floats(0.5, 30))
def test_the_same_reading_on_warmer_acid_is_a_fuller_cell(read, acid_c, warmer_k):
    def corrected(temp_c):
        return solved(BY_GRAVITY, "gravity_ratio", gravity_read_ratio=read, acid_temp_c=temp_c, gravity_table_c=25.0)

    assert corrected(25.0) == pytest.approx(read)
    assert corrected(acid_c + warmer_k) > corrected(acid_c)
    assert corrected(acid_c + 5) - corrected(acid_c) == pytest.approx(0.003)  # 9 °F steps, a thousandth each three


@given(st.lists(st.floats(1.05, 1.29), min_size=2, max_size=24))
def test_the_spread_is_between_the_best_and_the_worst_cell(cells):
    spread = GRAVITY_SPREAD.solve({"gravity_by_row_ratio": cells, "gravity_spread_max_ratio": 0.025})
    assert float(spread["gravity_spread_ratio"]) == pytest.approx(max(cells) - min(cells))
    assert bool(spread.broken()["gravity_spread_margin_ratio"]) == (float(spread["gravity_spread_margin_ratio"]) < 0)


# ---- freezing


def freezing(depth, temp_c, fill="deep_cycle_1265"):
    tables = {"gravity_of_charge": data.gravity_of_charge(fill), "freezing_of_gravity": data.freezing_of_gravity()}
    return FREEZING.solve({"depth_frac": depth, "battery_temp_c": temp_c} | tables)


@given(st.sampled_from(FILLS), shares, celsius)
def test_the_margin_is_negative_just_when_the_acid_is_colder_than_its_freezing_point(fill, depth, temp_c):
    found = freezing(depth, temp_c, fill)
    margin = float(found["freezing_margin_k"])
    assert (margin < 0) == (temp_c < float(found["freezing_left_c"]))
    assert freezing(depth, temp_c + 1, fill)["freezing_margin_k"] == pytest.approx(margin + 1)


@given(st.sampled_from(FILLS), shares, shares)
def test_a_flatter_battery_freezes_sooner(fill, one, other):
    shallow, deep = sorted((one, other))
    assert freezing(deep, 0.0, fill)["freezing_margin_k"] <= freezing(shallow, 0.0, fill)["freezing_margin_k"] + 1e-9


def test_a_flat_battery_in_a_cold_shed():
    found = {temp: freezing(0.8, temp).findings(show)[0] for temp in (-10.0, -20.0)}
    assert [f.passed for f in found.values()] == [True, False]
    assert found[-20.0].severity == "damage"


def test_the_weaker_filling_freezes_sooner_at_the_same_charge():
    """A table made for 1.280 would promise a half-charged deep-cycle cell more than ten kelvin too much."""
    weak, strong = (float(freezing(0.5, 0.0, fill)["freezing_left_c"]) for fill in ("deep_cycle_1265", "motive_1280"))
    assert weak > strong + 10


# ---- temperature of the battery


SHED = {
    "air_temp_by_month_c": [2.0] + [10.0] * 11, "air_coldest_c": -18.0, "bank_mass_kg": 240.0,
    "bank_heat_wh_kg_k": 0.25, "cold_snap_h": 96.0, "room_temp_c": 15.0, "battery_temp_c": 0.0,
}  # fmt: skip


def estimated(to_room, to_open, **more):
    leaks = {"room_leak_w_k": to_room, "open_leak_w_k": to_open}
    return float(ENCLOSURE.solve(SHED | leaks | more)["battery_temp_est_c"])


def test_the_kinds_of_enclosure_stand_in_their_order():
    shed, box, room = estimated(0.0, 20.0), estimated(0.0, 2.0), estimated(20.0, 0.5)
    assert SHED["air_coldest_c"] < shed < box < 2.0 < room < SHED["room_temp_c"]


@given(st.floats(0, 1000), st.floats(0.01, 1000), st.floats(1, 2000), st.floats(12, 1000))
def test_the_estimate_lies_between_the_coldest_air_and_the_room(to_room, to_open, mass, snap):
    est = estimated(to_room, to_open, bank_mass_kg=mass, cold_snap_h=snap)
    assert SHED["air_coldest_c"] - 1e-9 <= est <= SHED["room_temp_c"] + 1e-9
    assert estimated(to_room, to_open, bank_mass_kg=2 * mass, cold_snap_h=snap) >= est - 1e-9, "mass smooths"
    assert estimated(to_room + 1, to_open, bank_mass_kg=mass, cold_snap_h=snap) >= est - 1e-9, "the room warms"


def test_the_two_ends_of_mass():
    """Far from the room, a bank of great mass stays at the mean of the coldest month, a weightless one at the air."""
    assert estimated(0.0, 5.0, bank_mass_kg=1e7) == pytest.approx(min(SHED["air_temp_by_month_c"]), abs=0.01)
    assert estimated(0.0, 5.0, bank_mass_kg=1e-6) == pytest.approx(SHED["air_coldest_c"], abs=0.01)


def test_the_damping_is_that_of_a_first_order_lag():
    """Outside check: the balance itself, stepped through a hundred periods of a sine."""
    lag, snap, step = 30.0, 96.0, 0.05
    battery, times = 0.0, np.arange(0, 20 * snap, step)
    seen = []
    for air in np.sin(2 * math.pi * times / snap):
        battery += (air - battery) * step / lag
        seen.append(battery)
    felt = solved(Sheet(ENCLOSURE["snap_felt_frac"]), "snap_felt_frac", battery_lag_h=lag, cold_snap_h=snap)
    assert felt == pytest.approx(max(seen[len(seen) // 2 :]), rel=2e-3)


def test_assuming_a_warm_battery_in_a_shed_is_a_finding():
    leaks = {"room_leak_w_k": 0.0, "open_leak_w_k": 20.0}
    warm, cold = (ENCLOSURE.solve(SHED | leaks | {"battery_temp_c": t}).findings(show)[0] for t in (10.0, -20.0))
    assert (warm.passed, cold.passed) == (False, True)


# ---- life


def life(depth=0.2, temp_c=25.0, chemistry="flooded", halving=10.0, a_year=365.0):
    table = data.cycle_life(chemistry)
    given_ = {"energy_day_wh": depth * 10_000, "bank_wh": 10_000.0, "cycle_life": table}
    given_ |= {"cycle_depth_least_frac": table.x[0], "cycles_year_count": a_year, "float_life_years": 12.0}
    return LIFE.solve(given_ | {"life_temp_c": temp_c, "life_table_c": 25.0, "halving_k": halving})


@given(st.sampled_from(CHEMISTRIES), st.floats(0.01, 1), st.floats(0.01, 1), celsius, celsius, st.floats(5, 20))
def test_life_never_rises_with_depth_or_warmth(chemistry, one, other, cool, warm, halving):
    (shallow, deep), (cool, warm) = sorted((one, other)), sorted((cool, warm))
    best = life(shallow, cool, chemistry, halving)["bank_life_years"]
    assert life(deep, cool, chemistry, halving)["bank_life_years"] <= best * (1 + 1e-9)
    assert life(shallow, warm, chemistry, halving)["bank_life_years"] <= best * (1 + 1e-9)


@given(st.floats(0.01, 1), celsius)
def test_the_life_is_the_earlier_end(depth, temp_c):
    found = life(depth, temp_c)
    assert found["bank_life_years"] == min(found["cycle_life_years"], found["calendar_life_years"])
    assert found["calendar_life_years"] <= 12.0


def test_one_halving_is_a_half():
    for halving in (8.0, 10.0):
        assert float(life(temp_c=25 + halving, halving=halving)["calendar_life_years"]) == pytest.approx(6.0)


@pytest.mark.parametrize("chemistry", CHEMISTRIES)
def test_between_rows_the_table_is_straight_on_log_log_paper(chemistry):
    table = data.cycle_life(chemistry)
    for (x1, x2), (y1, y2) in zip(
        zip(table.x, table.x[1:], strict=False), zip(table.y, table.y[1:], strict=False), strict=True
    ):
        assert float(life(math.sqrt(x1 * x2), chemistry=chemistry)["cycles_count"]) == pytest.approx(math.sqrt(y1 * y2))


# ---- refusals: one sentence that names the place


def _gravity(read, table):
    return lambda: BY_GRAVITY.upto("charge_by_gravity_frac").solve(
        {"gravity_read_ratio": read, "acid_temp_c": 25.0, "gravity_table_c": 25.0, "charge_of_gravity": table}
    )


TROUBLE = {
    "a battery filled stronger than its table": (
        _gravity(1.28, data.charge_of_gravity("deep_cycle_1265")),
        "state of charge by specific gravity: charge by specific gravity, deep_cycle_1265: "
        "1.28 is outside the table, which covers 1.12 to 1.265",
    ),
    "a voltage of the whole bank": (
        lambda: BY_VOLTAGE.solve({"cell_read_v": 12.6, "charge_of_rest_voltage": data.charge_of_rest_voltage("agm")}),
        "state of charge by resting voltage: charge by the resting voltage of one cell, AGM: "
        "12.6 V is outside the table, which covers 1.97 to 2.14 V",
    ),
    "deeper than empty": (
        lambda: freezing(1.2, 0.0),
        "specific gravity at the depth limit: specific gravity, deep_cycle_1265: -0.2 is outside the table",
    ),
    "a day that empties the bank more than once": (
        lambda: life(1.5),
        "cycles to the end of life: cycles to the end of life, flooded: 1.5 is outside the table, which covers 0.1",
    ),
    "nothing runs": (
        lambda: Sheet(RATE["runtime_h"]).solve(
            {"bank_ah": 100, "capacity_hours_h": 20, "running_current_a": 0.0, "peukert_exponent": 1.2}
        ),
        "hours the full bank lasts at the running current (runtime_h): division by zero in ",
    ),
    "no units missing": (
        lambda: CHARGE_LIMIT.solve({"strings_count": 2, "charge_current_a": 10}),
        "charging current against what the units may take (unit_charge_margin_a) needs unit_charge_a",
    ),
}


@pytest.mark.parametrize(("work", "said"), TROUBLE.values(), ids=TROUBLE)
def test_what_cannot_be_worked_is_refused_in_one_sentence(work, said):
    with pytest.raises(WorksheetError) as refusal:
        work()
    assert " ".join(str(refusal.value).split()).startswith(said)
    assert "\n" not in str(refusal.value)


def test_an_unknown_filling_is_refused_with_the_known_ones():
    with pytest.raises(DataError, match=r"no filling 'deep_cycle'; nearest: deep_cycle_1265"):
        data.gravity_of_charge("deep_cycle")
