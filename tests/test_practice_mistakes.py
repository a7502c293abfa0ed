"""The catalogue of mistakes against the text formulas it comes from: two independent writings of each wrong path.

``test_practice_catalogue.csv`` holds the source's text formulas, which are read here by a small evaluator of
their own; the package's side is the worksheet with a line replaced.
"""

import ast
import csv
import math
import operator
import random
import re
from pathlib import Path

import pytest

from offgrid_core.data import capacity_kept
from offgrid_core.errors import DataError
from offgrid_core.practice import catalogue, mistake, slots
from offgrid_core.practice.kinds import Choose
from offgrid_core.practice.mistakes import _made, worst_first
from offgrid_core.practice.words import TEXT
from offgrid_core.sizing import BANK, BANK_1013, LOADS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.standby import STANDBY
from offgrid_core.sizing.temperature import FAHRENHEIT
from offgrid_core.worksheet import Sheet

ROWS = {r["id"]: r for r in csv.DictReader(Path(__file__).with_name("test_practice_catalogue.csv").open())}
SETS = 40

_OPS = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


def evaluate(text, values):
    """Work a text formula: names, numbers, + - * / **, brackets, and a call of a given function; nothing else."""

    def work(node):
        match node:
            case ast.Constant(value=int() | float() as number):
                return number
            case ast.Name(id=name):
                return values[name]
            case ast.BinOp(left=left, op=op, right=right):
                return _OPS[type(op)](work(left), work(right))
            case ast.UnaryOp(op=ast.USub(), operand=inner):
                return -work(inner)
            case ast.Call(func=ast.Name(id=name), args=[argument]):
                return values[name](work(argument))
        raise AssertionError(f"not a formula: {text}")

    return work(ast.parse(text, mode="eval").body)


_SHORT = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah")))
#: The standard's form up to its first demand (a larger one would hide a mistake), and its correction for cold.
_LONG = Sheet(*(BANK_1013[n] for n in ("day_ah", "spell_ah", "for_depth_ah")))
_LONG_COLD = Sheet(BANK_1013["for_cold_ah"])
_ROW = {"duty_by_row_frac": 1, "season_by_row_frac": 1, "standby_by_row_w": 0}
_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_BUS_MEAN = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_mean_wh", "battery_mean_wh")))


def bank(p):
    """Return what both bank worksheets need, from the source's names; what a row leaves out does nothing."""
    return {
        "energy_day_wh": p["E_day"],
        "for_all_three_ah": p["Ah_25"],
        "autonomy_days": p["N"],
        "depth_frac": p["DoD"],
        "bank_voltage_v": p["V_bank"],
        "kept_frac": p["f_ret"],
    }


def bus(p, mean=False, idle=True):
    kind = "mean" if mean else "day"
    return {
        f"ac_{kind}_wh": p["E_ac"],
        f"dc_{kind}_wh": p["E_dc"],
        "inverter_eff_frac": p["eta_inv"],
        "inverter_idle_w": p["P_idle"] if idle else 0,
        "inverter_on_h": p["h_on"],
        "dc_wiring_eff_frac": 1,
        "growth_factor": 1,
    }


def row(p, minutes=False):
    return _ROW | {
        "count_by_row": p["n"],
        "power_by_row_w": p["P_W"],
        "hours_by_row_h": p["mins"] / 60 if minutes else p["h"],
        "week_by_row_days": p["d_wk"],
    }


def cycling(p):
    return row(p) | {
        "count_by_row": 1,
        "power_by_row_w": p["P_np"],
        "hours_by_row_h": 24,
        "duty_by_row_frac": p["duty"],
        "week_by_row_days": 7,
    }


def with_standby(p):
    return {
        "run_energy_by_row_wh": p["E_ac"],
        "count_by_row": p["n_sb"],
        "standby_by_row_w": p["P_sb"],
        "hours_by_row_h": 0,
    }


def power_factor(p):
    return {"day_energy_by_row_wh": p["E_ac"], "mean_energy_by_row_wh": p["E_ac"], "on_ac_by_row_frac": 1} | {
        "power_factor_by_row_ratio": p["pf"]
    }


def cold(p):
    return {"capacity_kept": p["fT"], "battery_temp_c": p["T_bank_C"], "bank_warm_wh": p["Ah_25"]} | {
        "mean_temp_c": p["T_mean_C"],
        "air_coldest_c": p["T_air_min_C"],
    }


def set_point(p):
    return {
        "bank_voltage_v": p["V_bank"],
        "cells_12v_count": 6,
        "absorb_cell_v": p["V_abs25"] / p["n_cells"],
        "compensation_mv_k": -p["mV_c"],
        "battery_temp_c": p["T_bank_C"],
    }


def thermometer(p):
    return {"reading_fahrenheit": p["T_F"], "swing_fahrenheit": p["dT_F"]}


def cases(id_):
    """Return (line, worksheet, result, givens) for each line that the mistake is written for."""
    lines = mistake(id_).lines
    if id_ == "LD-12":
        sheet = Sheet(LOADS["standby_energy_by_row_wh"], LOADS["day_energy_by_row_wh"])
        return [("day_energy_by_row_wh", sheet, "day_energy_by_row_wh", with_standby)]
    if id_ in ("LD-10", "LD-11"):
        sheet = STANDBY + Sheet(LOADS["standby_energy_by_row_wh"])

        def supply(p):
            return {"standby_by_row_a": p["I_mA"] / 1000, "supply_by_row_v": p["V_sb"]} | {
                "count_by_row": 1,
                "hours_by_row_h": 0,
            }

        return [("standby_by_row_w", sheet, "standby_energy_by_row_wh", supply)]
    if id_ in ("LD-06", "LD-07"):
        sheet = LOADS.upto("run_energy_by_row_wh")
        return [("run_energy_by_row_wh", sheet, "run_energy_by_row_wh", lambda p: row(p, minutes=True))]
    if id_ in ("LD-08", "LD-09"):
        return [("run_energy_by_row_wh", LOADS.upto("run_energy_by_row_wh"), "run_energy_by_row_wh", cycling)]
    if "run_energy_by_row_wh" in lines or "mean_energy_by_row_wh" in lines:
        sheet = Sheet(LOADS["run_energy_by_row_wh"], LOADS["mean_energy_by_row_wh"])
        return [(n, sheet, "mean_energy_by_row_wh", row) for n in lines]
    if id_.startswith("LD"):
        idle = id_ == "LD-19"
        found = []
        for n in lines:
            kind = "mean" if "mean" in n else "day"
            sheet = _BUS_MEAN if kind == "mean" else _BUS

            def given(p, kind=kind):
                return bus(p, kind == "mean", idle) | (power_factor(p) if id_ == "LD-20" else {})

            found.append((n, sheet, f"battery_{kind}_wh", given))
        return found
    if id_ in ("TE-07", "TE-08", "TE-09"):
        return [("kept_frac", Sheet(BANK["kept_frac"], BANK["bank_cold_wh"]), "bank_cold_wh", cold)]
    if id_ in ("TE-10", "TE-11", "TE-12"):
        return [("battery_temp_c", FAHRENHEIT, "battery_temp_c", thermometer)]
    if id_ == "TE-13":
        return [("temp_rise_k", FAHRENHEIT, "temp_rise_k", thermometer)]
    if id_ in ("TE-14", "TE-15", "TE-16", "TE-17"):
        return [("absorb_set_v", SET_POINTS.upto("absorb_set_v"), "absorb_set_v", set_point)]

    def held_depth(p):
        """Rows that do not speak of depth or cold: everything else at one."""
        wanted = ROWS[id_]["correct_formula"]
        quiet = {n: 1 for n in ("N", "DoD", "f_ret", "V_bank") if n not in wanted}
        if "Ah_25" in wanted:
            quiet["E_day"] = p["Ah_25"]
        return bank(p | quiet)

    sheets = [next(s for s in (_SHORT, _LONG, _LONG_COLD) if n in s) for n in lines]
    return [(n, sheet, list(sheet)[-1], held_depth) for n, sheet in zip(lines, sheets, strict=True)]


def drawn(rng):
    """Draw one set of the source's parameters, over the spans a workshop meets."""
    v = rng.choice([12, 24, 48])
    curve = capacity_kept("flooded")
    return {
        "P_W": rng.uniform(5, 800),
        "n": rng.randint(2, 8),
        "h": rng.uniform(1.2, 12),
        "d_wk": rng.randint(2, 6),
        "mins": rng.choice([10, 20, 30, 45]),
        "P_np": rng.uniform(60, 200),
        "duty": rng.uniform(0.2, 0.5),
        "I_mA": rng.uniform(50, 900),
        "V_sb": rng.choice([5, 9, 12]),
        "E_ac": rng.uniform(1600, 4000),
        "n_sb": rng.randint(1, 5),
        "P_sb": rng.uniform(1, 8),
        "eta_inv": rng.uniform(0.7, 0.93),
        "E_dc": rng.uniform(100, 1500),
        "P_idle": rng.uniform(5, 30),
        "h_on": rng.uniform(6, 24),
        "pf": rng.uniform(0.6, 0.95),
        "E_day": rng.uniform(500, 6000),
        "V_bank": v,
        "N": rng.randint(2, 8),
        "DoD": rng.uniform(0.25, 0.85),
        "f_ret": rng.uniform(0.55, 0.95),
        "Ah_25": rng.uniform(100, 900),
        "fT": lambda t: min(1.0, float(curve(t))),
        "T_bank_C": rng.uniform(-9, 9),
        "T_mean_C": rng.uniform(11, 19),
        "T_air_min_C": rng.uniform(-25, -11),
        "T_F": rng.uniform(5, 100),
        "dT_F": rng.uniform(5, 50),
        "V_abs25": v / 2 * rng.uniform(2.35, 2.47),
        "mV_c": rng.uniform(3, 5.5),
        "n_cells": v // 2,
    }


@pytest.mark.parametrize("id_", sorted(catalogue()))
def test_each_replaced_line_gives_what_its_text_formula_gives(id_):
    """Source: the catalogue of wrong solution paths, expert-made; wrong ÷ right must agree to 1e-9 on each set."""
    rng = random.Random(f"practice {id_}")
    for p in (drawn(rng) for _ in range(SETS)):
        if id_ == "LD-04":
            p["d_wk"] = 7  # the source writes this row for the week, the worksheet for the day it runs
        right_text, wrong_text = (evaluate(ROWS[id_][f"{w}_formula"], p) for w in ("correct", "wrong"))
        for line, sheet, result, given in cases(id_):
            right = float(sheet.solve(given(p))[result])
            wrong = float(mistake(id_).in_sheet(sheet, line).solve(given(p))[result])
            # A quantity that both writings start from in another unit or shape cancels in the ratio.
            assert wrong / right == pytest.approx(wrong_text / right_text, rel=1e-9, abs=1e-12), (line, p)


@pytest.mark.parametrize("id_", sorted(catalogue()))
def test_stated_direction(id_):
    """Source: the catalogue's ``effect`` column."""
    rng = random.Random(f"direction {id_}")
    signs = set()
    for p in (drawn(rng) for _ in range(SETS)):
        for line, sheet, result, given in cases(id_):
            right = float(sheet.solve(given(p))[result])
            wrong = float(mistake(id_).in_sheet(sheet, line).solve(given(p))[result])
            if wrong == right:
                continue  # 12 V assumed on a 12 V bank
            larger = abs(wrong) > abs(right) if id_ in ("TE-11", "TE-12") else wrong > right
            signs.add(larger)
    wanted = {"understates": {False}, "overstates": {True}, "either": {True, False}}[ROWS[id_]["direction"]]
    assert signs
    assert signs <= wanted


def test_every_loads_and_temperature_row_is_there_and_nothing_unknown():
    assert set(ROWS) == set(catalogue())
    assert {f"LD-{n:02}" for n in range(1, 21)} | {f"TE-{n:02}" for n in range(1, 18)} <= set(catalogue())


def test_every_line_named_is_a_line_of_the_core():
    known = {*LOADS, *BANK, *BANK_1013, *STANDBY, *FAHRENHEIT, *SET_POINTS}
    for m in catalogue().values():
        assert set(m.lines) <= known, m.id


BANNED = re.compile(
    r"\b(divide|multiply|subtract|formula|wrong|mistake|careless|silly|bad|good|well done|sorry|obvious\w*)\b", re.I
)


def lint(question):
    """Return what is amiss with a question: one question mark, at most 30 words, no operation, no judgement."""
    found = []
    if question.count("?") != 1:
        found.append("not exactly one question")
    if len(question.split()) > 30:
        found.append("more than 30 words")
    if BANNED.search(question):
        found.append(f"says {BANNED.search(question)[0]!r}")
    return found


class TestQuestions:
    def test_lint_can_fail(self):
        assert lint("Divide by 0.75.") == ["not exactly one question", "says 'Divide'"]
        assert lint("Why? And why?") == ["not exactly one question"]
        assert lint("word " * 31 + "?") == ["more than 30 words"]

    @pytest.mark.parametrize("id_", sorted(catalogue()))
    def test_of_each_mistake(self, id_):
        assert lint(mistake(id_).question) == []

    @pytest.mark.parametrize("id_", sorted(catalogue()))
    def test_never_holds_the_answer(self, id_):
        """No line of a worksheet, by its label or its formula, stands in a question."""
        for line in mistake(id_).lines:
            assert line not in mistake(id_).question

    @pytest.mark.parametrize("id_", list(slots()))
    def test_of_each_slot(self, id_):
        slot = slots()[id_]
        assert lint(slot.hint) == []
        if isinstance(slot, Choose):
            for option in slot.options:
                if not option.right:
                    assert lint(option.question) == [], option.text

    def test_unit_question(self):
        assert lint(TEXT["unit"]) == []


class TestCatalogue:
    def test_unknown_id_is_refused(self):
        with pytest.raises(DataError, match="has no XX-01"):
            mistake("XX-01")

    def test_bad_rows_are_refused(self):
        row_ = {"name": "", "family": "", "severity": "S3", "question": "?", "consequence": "", "lines": {}}
        with pytest.raises(DataError, match="severity is one of danger, damage, service, not 'S3'"):
            _made("XX-01", row_)
        with pytest.raises(DataError, match="XX-01"):
            _made("XX-01", {"name": "only"})

    def test_worst_first(self):
        assert [m.id for m in worst_first(["LD-03", "TE-02", "TE-14"])] == ["TE-14", "TE-02", "LD-03"]

    def test_text_evaluator_refuses_the_rest(self):
        with pytest.raises(AssertionError):
            evaluate("[].append", {})
        assert math.isclose(evaluate("2*(3-1)**2/4", {}), 2)
