"""Every battery unit as a bank: against a plain loop over the file, and against the choice that a design makes."""

import csv
import math
import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.sizing import BANK
from offgrid_core.sizing.strings import STRINGS, STRINGS_COMPARED
from offgrid_core.system import read_plan, size
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.system.banks import bank_options, sharing_of
from offgrid_core.system.parts import UNIT_LIMITS

DATASETS = Path(__file__).parents[1] / "datasets"
NEED = {
    "bank_needed_ah": 700,
    "bank_voltage_v": 48,
    "depth_frac": 0.5,
    "kept_frac": 0.8,
    "energy_day_wh": 3600,
    "strings_max_count": 3,
    "lift_max_kg": 25,
}
VERDICTS = {1: "best", 2: "usual", 3: "at a pinch"}


def rows(file: str) -> list[dict[str, str]]:
    with (DATASETS / file).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def by_hand(need: dict[str, float], row: dict[str, str], daily: dict[str, float]) -> dict[str, object]:
    """Work out one unit's bank from its row of the file, without the package."""
    unit_v, unit_ah, mass, cost = (float(row[k]) for k in ("unit_v", "unit_ah", "mass_kg", "cost"))
    series = need["bank_voltage_v"] / unit_v
    strings = max(1, math.ceil(need["bank_needed_ah"] / unit_ah))
    ah, whole = strings * unit_ah, series == int(series)
    wh = ah * need["bank_voltage_v"]
    fits = {
        "whole units in series": whole,
        "strings in parallel against the most wanted": strings <= need["strings_max_count"],
        "depth of discharge of an ordinary day": need["energy_day_wh"] / wh / need["kept_frac"]
        <= daily[row["chemistry"]] + 1e-9,
    }
    return {
        "whole": whole,
        "fits": all(fits.values()),
        "broken": {*(label for label, kept in fits.items() if not kept), *([LIFTED] if mass > 25 else [])},
        "deciding": sum(not kept for kept in fits.values()),
        "units_in_series_count": series,
        "strings_count": strings,
        "units_count": series * strings,
        "bank_ah": ah,
        "bank_wh": wh,
        "overshoot_frac": (ah - need["bank_needed_ah"]) / need["bank_needed_ah"],
        "autonomy_given_days": wh * need["depth_frac"] * need["kept_frac"] / need["energy_day_wh"],
        "bank_mass_kg": series * strings * mass,
        "unit_mass_kg": mass,
        "lift_margin_kg": 25 - mass,
        "units_cost": series * strings * cost,
    }


LIFTED = "one unit against what one person may lift"


@given(
    needed=st.integers(1, 20_000),
    voltage=st.sampled_from([12, 24, 36, 48]),
    depth=st.floats(0.1, 0.9),
    kept=st.floats(0.4, 1),
    energy=st.floats(100, 40_000),
    most=st.integers(1, 6),
)
def test_every_unit_is_as_a_plain_loop_finds_it(needed, voltage, depth, kept, energy, most):
    need = dict(zip(NEED, (needed, voltage, depth, kept, energy, most, 25), strict=True))
    daily = {r["key"]: float(r["depth_daily_frac"]) for r in rows("chemistries.csv")}
    expected = {r["key"]: by_hand(need, r, daily) for r in rows("battery_units.csv")}
    options = bank_options(STRINGS, need)
    assert sorted(o.unit.key for o in options) == sorted(expected)
    for option in options:
        own = expected[option.unit.key]
        assert (option.whole, option.fits, set(option.broken)) == (own["whole"], own["fits"], own["broken"])
        for name in set(own) - {"whole", "fits", "broken", "deciding"}:
            assert getattr(option, name) == pytest.approx(own[name], rel=1e-9, abs=1e-9), f"{option.unit.key} {name}"
        said = VERDICTS.get(own["strings_count"], f"{own['strings_count']:,} ".replace(",", "\u2009"))
        assert (said if own["whole"] else "do not make") in option.verdict
    ranks = [[expected[o.unit.key][k] for k in ("deciding", "strings_count", "bank_ah")] for o in options]
    assert ranks == sorted(ranks), "what fits first, then the fewest strings, then the smallest bank"


@pytest.mark.parametrize("name", ["fell_hut", "riverbend", "gull_mast"])
def test_the_first_of_its_chemistry_is_the_unit_a_design_chooses(plans, name):
    plan = read_plan(plans / f"{name}.toml")
    open_parts = plan.parts.model_copy(update={"battery_unit": None})
    d = size(plan.model_copy(update={"parts": open_parts}))
    options = bank_options(d.system.sheet, d.given, plan.choices.chemistry)
    assert options[0].unit == d.parts.battery_unit
    assert {o.unit.chemistry for o in options} == {plan.choices.chemistry}
    for shown in ("units_count", "bank_wh", "autonomy_given_days", "bank_mass_kg"):
        assert getattr(options[0], shown) == d.system[shown]
    assert set(options[0].broken) <= {LIFTED}
    everything = bank_options(d.system.sheet, d.given)
    assert len(everything) == len(data.battery_units())
    assert [o for o in everything if o.unit.chemistry == plan.choices.chemistry] == list(options)


def test_each_chemistry_keeps_its_own_capacity_in_the_cold():
    need = {"battery_day_by_month_wh": [2400] * 12, "autonomy_days": 3, "depth_frac": 0.5, "bank_voltage_v": 24}
    need |= {"battery_temp_c": -10, "strings_max_count": 3, "lift_max_kg": 25}
    for option in bank_options(BANK + STRINGS, need):
        kept = data.capacity_kept(option.unit.chemistry)(-10)
        assert option.autonomy_given_days == pytest.approx(option.bank_wh * 0.5 * kept / 2400)
        assert option.overshoot_frac == pytest.approx(option.bank_ah * 24 * 0.5 * kept / (2400 * 3) - 1)


def test_lifting_is_told_and_does_not_decide():
    by_key = {o.unit.key: o for o in bank_options(STRINGS, NEED)}
    heavy = by_key["flooded_2v_800ah"]
    assert heavy.fits
    assert heavy.broken == (LIFTED,)
    limit = STRINGS_COMPARED["lift_margin_kg"]
    assert (limit.mend, limit.severity, limit.standing) == (
        "two people or a hoist",
        "service",
        "common practice, no source",
    )
    assert LIFTED not in by_key["lfp_12v_210ah"].broken, "25 kg is just allowed"
    assert ASSUMPTIONS["lift_max_kg"].value == 25
    two = {o.unit.key: o for o in bank_options(STRINGS, NEED | {"lift_max_kg": 50})}
    assert two["flooded_2v_800ah"].broken == ()


def test_a_unit_that_does_not_divide_the_voltage():
    option = next(o for o in bank_options(STRINGS, NEED | {"bank_voltage_v": 24}, "lfp") if o.unit.unit_v == 48)
    assert not option.whole
    assert not option.fits
    assert option.verdict == "Not a bank: whole units of 48 V in series do not make 24 V."


def test_a_catalogue_of_one_s_own(tmp_path):
    folder = shutil.copytree(DATASETS, tmp_path / "own")
    head, *lines = (folder / "battery_units.csv").read_text(encoding="utf-8").splitlines()
    own = [head, *(x.replace(",27,210,", ",24,210,") for x in lines if x.startswith("flooded_2v"))]
    (folder / "battery_units.csv").write_text("\n".join(own) + "\n", encoding="utf-8")
    options = bank_options(STRINGS, NEED, folder=folder)
    assert {o.unit.key: o.unit_mass_kg for o in options}["flooded_2v_420ah"] == 24
    assert len(options) == 3
    assert bank_options(STRINGS, NEED, "gel", folder) == ()


def test_what_is_refused():
    with pytest.raises(OffgridError, match=r"floded.*flooded"):
        bank_options(STRINGS, NEED, "floded")
    with pytest.raises(OffgridError, match=r"strings in parallel .* needs bank_needed_ah"):
        bank_options(STRINGS, {k: v for k, v in NEED.items() if k != "bank_needed_ah"})
    with pytest.raises(OffgridError, match="there is no line"):
        bank_options(BANK, NEED)


def test_the_limits_that_decide_are_those_of_a_design():
    assert "series_margin_count" in UNIT_LIMITS
    assert not set(STRINGS_COMPARED) & set(UNIT_LIMITS)


def test_strings_with_equal_leads_share_alike_without_float_noise(plans):
    d = size(read_plan(plans / "riverbend.toml"))
    shared = sharing_of(d.system, 20.0)
    assert d.system["strings_count"] == 3
    assert shared["bus bars"]["extra_share_frac"] == 0
    assert shared["same end"]["extra_share_frac"] > shared["diagonal"]["extra_share_frac"] > 0.05
    single = size(read_plan(plans / "gull_mast.toml"))
    assert single.system["strings_count"] != 1 or sharing_of(single.system, 20.0) == {}
