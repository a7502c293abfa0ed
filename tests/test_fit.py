"""Parts that fit, against a plain loop; what is already owned; what gives way first as the load grows."""

import numpy as np
import pytest
from test_plan import GOOD, changed

from offgrid_core import data
from offgrid_core.errors import PlanError
from offgrid_core.sizing import chain
from offgrid_core.sizing.fitting import TOGETHER_AC, TOGETHER_DC
from offgrid_core.system import Design, parse_plan, read_plan, size
from offgrid_core.system import givens as give
from offgrid_core.system import parts as pick
from offgrid_core.system.audit import gives_way, with_load
from offgrid_core.system.fit import ROLES, Catalogue, parts_that_fit, shipped
from offgrid_core.system.loading import loads_of

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")


@pytest.fixture(scope="module")
def designs(plans) -> dict[str, Design]:
    return {name: size(read_plan(plans / f"{name}.toml")) for name in DEMOS}


def one_by_one(d: Design, unit, module, controller, inverter) -> tuple[int, set[str]]:
    """Return series count and broken limits of the best layout of one combination, solved one at a time."""
    given = {n: v for n, v in d.given.items() if n not in ("equalize_cell_v", "gravity_of_charge")}
    for part, names in (
        (unit, pick.UNIT_GIVENS | {"unit_cost": "cost"}),
        (module, pick.MODULE_GIVENS | {"module_cost": "cost"}),
        (controller, pick.CONTROLLER_GIVENS | {"controller_cost": "cost"}),
        (inverter, pick.INVERTER_GIVENS | {"inverter_bank_v": "bank_v", "inverter_cost": "cost"}),
    ):
        if part is not None:
            given |= give.fields_of(part, names)
    given |= give.chemistry_givens(data.chemistry(unit.chemistry)) | d.plan.assume
    given["controller_bank_v"] = given["bank_voltage_v"] if given["bank_voltage_v"] in controller.banks_v else 1.0
    if inverter is not None:
        given |= loads_of(given).givens
    choices = d.plan.choices
    sheet = chain(
        choices.bank_method, controller.kind, inverter is not None, spell_rule=choices.spell_rule,
        equalize="equalize_cell_v" in given, cold_table="cold_voltage_factor" in given,
        acid="gravity_of_charge" in given,
    ) + TOGETHER_DC  # fmt: skip
    sheet = sheet + TOGETHER_AC if inverter is not None else sheet
    ranked = []
    for series in pick.SERIES:
        solved = sheet.solve(given | {"modules_in_series_count": series})
        broken = {sheet[n].label for n, b in solved.broken().items() if b}
        ranked.append((len(broken), float(solved["modules_count"]), int(series), broken))
    _, _, series, broken = min(ranked, key=lambda r: r[:3])
    return series, broken


@pytest.mark.parametrize("name", ["fell_hut", "riverbend", "gull_mast"])
def test_every_combination_is_judged_as_one_by_one(designs, name):
    d = designs[name]
    fit = parts_that_fit(d)
    assert fit.broken.size == 25 * 12 * 14 * (14 if d.plan.has_ac else 1)
    dice = np.random.default_rng(7)
    some = [tuple(dice.integers(0, n) for n in fit.broken.shape) for _ in range(60)] + fit.passing[:20]
    seen = set()
    for place in some:
        parts = [
            getattr(fit.catalogue, r)[i] for r, i in zip(ROLES, place, strict=True) if r != "inverter" or d.plan.has_ac
        ]
        series, broken = one_by_one(d, *parts, *([] if d.plan.has_ac else [None]))
        said = {label for bit, label in enumerate(fit.limits) if int(fit.broken[place]) >> bit & 1}
        assert said == broken, parts
        assert fit.counts["modules_in_series_count"][place] == series
        seen.add(bool(broken))
    assert seen == {True, False}


def test_the_design_s_own_parts_are_among_those_that_fit(designs):
    for name, d in designs.items():
        fit = parts_that_fit(d)
        place = tuple(
            [p.key for p in getattr(fit.catalogue, r)].index(getattr(d.parts, r).key) if getattr(d.parts, r) else 0
            for r in ROLES
        )
        assert place in fit.passing, name
        assert fit.counts["units_count"][place] == d.system["units_count"]
        assert fit.counts["modules_count"][place] <= d.system["modules_count"]


def test_costs_are_added_up_and_do_not_rank_first(designs):
    fit = parts_that_fit(designs["fell_hut"])
    for place in fit.passing[:5]:
        u, m, c, i = (getattr(fit.catalogue, r)[n] for r, n in zip(ROLES, place, strict=True))
        n = {k: v[place] for k, v in fit.counts.items()}
        by_hand = n["units_count"] * u.cost + n["modules_count"] * m.cost + n["controllers_count"] * c.cost + i.cost
        assert fit.cost[place] == by_hand
    strings = [fit.counts["strings_count"][p] for p in fit.passing]
    assert strings == sorted(strings)
    costs = [fit.cost[p] for p in fit.passing]
    assert costs != sorted(costs)


def test_each_part_that_fits_nowhere_has_the_limit_that_stops_it(designs):
    verdicts = {v.part.key: v for v in parts_that_fit(designs["fell_hut"]).verdicts}
    assert len(verdicts) == 25 + 12 + 14 + 14
    assert verdicts["inverter_24v_1600w"].stopped_by == ("bank voltage the inverter is made for",)
    assert verdicts["lfp_48v_105ah"].stopped_by[-1] == "battery temperature against the coldest it may be charged at"
    assert "strings in parallel against the most wanted" in verdicts["flooded_12v_85ah"].stopped_by
    for v in verdicts.values():
        assert (v.fits > 0) == (v.stopped_by == ())


def test_a_larger_catalogue_only_adds(designs):
    all_parts = shipped()
    few = Catalogue(all_parts.battery_unit[:6], all_parts.module[:5], all_parts.controller[6:], all_parts.inverter)
    small, whole = (parts_that_fit(designs["fell_hut"], c) for c in (few, all_parts))
    assert small.broken == pytest.approx(whole.broken[:6, :5, 6:])


# ---- already owned

_HUT_OWNED = """
[owned]
battery_unit = "flooded_6v_380ah"
units_count = {units}
module = "module_280w_60cell"
modules_count = {modules}
"""


def owning(plans, units=8, modules=6) -> Design:
    text = (plans / "fell_hut.toml").read_text(encoding="utf-8")
    return size(parse_plan(text + _HUT_OWNED.format(units=units, modules=modules)))


def test_what_a_bank_and_an_array_on_hand_give(plans):
    d = owning(plans)
    assert d.system["strings_count"] == 1
    assert d.system["bank_ah"] == 380
    assert d.system["autonomy_given_days"] == pytest.approx(
        380 * 48 * 0.5 * d.system["kept_frac"] / d.system["energy_day_wh"]
    )
    assert d.system["spell_depth_frac"] == pytest.approx(
        4 * d.system["energy_day_wh"] / (380 * 48 * d.system["kept_frac"])
    )
    assert d.system["modules_count"] == 6, "as many as can be used"
    broken = [f.name for f in d.findings if not f.passed]
    assert {"bank_margin_ah", "array_margin_w"} <= set(broken)


def test_units_that_make_no_whole_string_are_left_over(plans):
    assert owning(plans, units=15).system["strings_count"] == 1
    assert owning(plans, units=16).system["strings_count"] == 2
    assert owning(plans, modules=7).system["modules_count"] <= 7


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ('battery_unit = "flooded_6v_225ah"\nunits_count = 3', "3 is not one whole string"),
        ('battery_unit = "flooded_6v_225ah"', "battery_unit and units_count go together"),
        ("units_count = 4", "battery_unit and units_count go together"),
        ('module = "module_280w_60cell"', "module and modules_count go together"),
        ('battery_unit = "flooded_6v_225ah"\nunits_count = 4.5', "a whole number is wanted"),
        ('battery_unit = "flooded_6v_225ah"\nunits_count = -4', "allowed is 1 to 1\u2009000"),
        ('battery_unit = "flooded_6v_999ah"\nunits_count = 4', "not in the catalogue"),
        ('battery_unit = "agm_12v_60ah"\nunits_count = 4', "is not a battery unit of chemistry flooded"),
        ('colour = "red"', "there is no such key"),
    ],
)
def test_bad_entries_of_what_is_owned_are_refused(lines, said):
    with pytest.raises(PlanError, match=said):
        size(parse_plan(GOOD + f"\n[owned]\n{lines}\n"))


def test_the_part_on_hand_and_the_part_named_must_be_one():
    text = changed("[parts]\n", '[parts]\nbattery_unit = "flooded_6v_225ah"\n')
    with pytest.raises(PlanError, match="is on hand, but"):
        parse_plan(text + '\n[owned]\nbattery_unit = "flooded_6v_310ah"\nunits_count = 8\n')


# ---- what gives way first


def test_limits_give_way_where_a_plan_with_that_load_breaks_them(designs):
    for d in designs.values():
        found = gives_way(d)
        loads = [g.at_load_factor for g in found if g.at_load_factor is not None]
        assert loads == sorted(loads)
        assert loads[0] > 1, "a demo plan stands its own load"
        first = found[0]
        before, at = (with_load(d, f) for f in (first.at_load_factor - 0.02, first.at_load_factor))
        assert not np.any(list(before.broken().values()))
        assert at.broken()[first.name]


def test_at_its_own_load_the_design_is_itself(designs):
    for d in designs.values():
        same = with_load(d, 1.0)
        for name in d.system.sheet:
            assert np.allclose(same[name], d.system[name], rtol=1e-12), name


def test_a_bank_too_small_gives_way_below_the_plan_s_load(plans):
    found = {g.name: g.at_load_factor for g in gives_way(owning(plans))}
    assert found["bank_margin_ah"] < 1
    assert found["array_margin_w"] < 1
    assert found["inverter_margin_w"] > 1
