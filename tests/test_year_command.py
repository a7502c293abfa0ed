"""The years on the command line: one truth in text, JSON and page; bad input; progress; what an interrupt leaves."""

import html
import io
import json
import math
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pvlib
import pytest
from test_report import FOREIGN, Page

from offgrid_core import data
from offgrid_core.__main__ import INTERRUPTED, main
from offgrid_core.quantities import Settings, say, show
from offgrid_core.report import year_tables as rows
from offgrid_core.report.progress import AFTER_S, Progress
from offgrid_core.report.terminal import WIDTH
from offgrid_core.report.year_compare import Comparison, compare_text
from offgrid_core.report.year_page import year_html
from offgrid_core.report.year_pictures import MOST_ROWS, SHADES
from offgrid_core.report.year_run import JUDGED, PLACES, Run, as_json
from offgrid_core.report.year_text import year_text
from offgrid_core.report.year_words import TEXT
from offgrid_core.report.year_words import say as say_year
from offgrid_core.sizing.year_totals import SERVED_ALIKE, SERVED_LEAST_FRAC
from offgrid_core.system import parse_plan, read_plan, size
from offgrid_core.year.outcome import drawn_weather, follow
from offgrid_core.year.simulate import simulate

DEMOS = ("fell_hut", "riverbend", "gull_mast", "weekend_cabin")
COMMAND = [sys.executable, "-m", "offgrid_core"]
YEARS, SEED = 4, 1
TMY3 = Path(pvlib.__file__).parent / "data" / "703165TY.csv"
#: Other programs rely on these; a change here breaks them.
KEYS = """
title site latitude_deg tilt_deg azimuth_deg years seed weather lost lowest by_year spread places by_month wear cost
hand assumed daily_lowest_frac
"""
COMPARED_KEYS = "plans titles years seed bank_wh array_w judged cost cheapest reverses tornado"

every_demo = pytest.mark.parametrize("name", DEMOS)


def designed(plans, name, *changes):
    plan = (plans / f"{name}.toml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in plan
        plan = plan.replace(old, new, 1)
    return plan


def run_of(design, years=YEARS, seed=SEED):
    return Run(follow(design, drawn_weather(design, years, seed)), seed)


@pytest.fixture(scope="module")
def runs(plans):
    return {name: run_of(size(read_plan(plans / f"{name}.toml"))) for name in DEMOS}


@pytest.fixture(scope="module")
def short(plans):
    """A hut whose bank is far too small, without a generator: it falls short every winter."""
    plan = re.sub(r"\[(generator|parts)\][^\[]*", "", designed(plans, "fell_hut"))
    owned = '[owned]\nbattery_unit = "flooded_6v_380ah"\nunits_count = 8\n'
    module = data.modules()[0]
    return run_of(
        size(
            parse_plan(
                f'{plan}\n{owned}module = "{module.key}"\nmodules_count = 6\n[assume]\ndiscount_rate_frac = 0.03\n'
            )
        )
    )


@pytest.fixture(autouse=True)
def usual_settings(monkeypatch):
    monkeypatch.setattr("offgrid_core.quantities.settings.load", Settings)


def told(capsys, *arguments):
    code = main(list(map(str, arguments)))
    said = capsys.readouterr()
    return code, said.out, said.err


def printed(capsys, *arguments):
    code, out, err = told(capsys, *arguments)
    assert (code, err) == (0, "")
    return out


def plain(text):
    return re.sub(r"[ \n]+", " ", text)


def numbers_in(found):
    if isinstance(found, dict | list):
        inside = found.values() if isinstance(found, dict) else found
        return [x for each in inside for x in numbers_in(each)]
    return [found] if isinstance(found, float) else []


def cells(table):
    return [cell for row in table for cell in row]


# ---- one truth


@every_demo
def test_the_json_is_the_outcome_by_the_names_of_the_lines(plans, capsys, runs, name):
    path = plans / f"{name}.toml"
    read = json.loads(printed(capsys, "year", path, "--years", YEARS, "--seed", SEED, "--json"))
    outcome = runs[name].outcome
    assert list(read) == KEYS.split()
    assert (read["years"], read["seed"]) == (YEARS, SEED)
    values = numbers_in(read)
    assert len(values) > YEARS * 365
    assert all(math.isfinite(x) for x in values)
    for n in outcome.years.totals.sheet:
        assert read["by_year"][n] == outcome.years.totals[n].tolist()
    assert read["by_year"]["longest_outage_h"] == outcome.years.longest_outage_h.tolist()
    assert read["wear"]["bank_life_years"] == outcome.wear["bank_life_years"]
    assert read["cost"]["life_cycle_cost"] == outcome.cost["life_cycle_cost"]
    assert read["lost"]["loss_energy_frac"] == outcome.mean("loss_energy_frac")
    assert read["daily_lowest_frac"] == outcome.years.daily_lowest_frac.tolist()
    assert read["weather"]["limits"] == list(outcome.weather.limits)


@every_demo
def test_text_and_page_show_the_numbers_of_the_json(plans, capsys, runs, name):
    text = plain(printed(capsys, "year", plans / f"{name}.toml", "--years", YEARS, "--seed", SEED))
    page = Page(year_html(runs[name], Settings()))
    shown = [x.split("\n") for n, _, x in page.texts if n == "tr"]
    read = as_json(runs[name])
    for n, found in read["spread"].items():
        label = say_year(f"short.{n}")
        wanted = [
            rows.energy(x, Settings(), found["most"]) if n.endswith("_wh") else show(n, x, figures=3)
            for x in found.values()
        ]
        assert plain(" ".join([label[1:], *wanted])) in text
        assert any(label[1:] in row[0] and row[1:4] == wanted for row in shown), n
    for n, wh, share in zip(
        *(read["places"][k] for k in ("rows", "place_by_row_wh", "place_by_row_frac")), strict=True
    ):
        wanted = [rows.energy(wh, Settings(), read["places"]["came_year_wh"]), show("place_frac", share, figures=3)]
        assert any(say_year(f"place.{n}")[1:] in row[0] and row[1:3] == wanted for row in shown), n
        assert all(cell in text for cell in wanted)
    for n in ("life_cycle_cost", "year_cost", "kwh_cost", "first_cost"):
        assert any(row[1:2] == [show(n, read["cost"][n])] for row in shown), n
        assert show(n, read["cost"][n]) in text
    for n in rows.WEAR:
        assert any(row[1:2] == [show(n, read["wear"][n], figures=3)] for row in shown), n
        assert show(n, read["wear"][n], figures=3) in text
    for year in range(YEARS):
        month, day = read["by_year"]["lowest_date"][year]
        row = next(x for x in shown if x[0] == str(year + 1))
        assert f"{day} {show('design_month', month)}" in row
        assert show("lowest_charge_frac", read["by_year"]["lowest_charge_frac"][year], figures=3) in row
    verdict = rows.verdict(runs[name], Settings())
    assert verdict in text
    assert verdict in html.unescape(year_html(runs[name], Settings()))


@pytest.mark.parametrize("name", [*DEMOS, "short"])
def test_where_the_energy_went_adds_up(runs, short, name):
    """The places of a mean year are what came in; each share, its part of the whole."""
    run = short if name == "short" else runs[name]
    places = as_json(run)["places"]
    assert sum(places["place_by_row_wh"]) == pytest.approx(places["came_year_wh"], rel=1e-9)
    assert sum(places["place_by_row_frac"]) == pytest.approx(1, rel=1e-9)
    assert set(places["rows"]) <= set(PLACES)
    months = as_json(run)["by_month"]
    for n, of_year in (("array_offer", "array"), ("met", "met"), ("spilled", "spilled"), ("unserved", "unserved")):
        total = run.outcome.mean(f"{of_year}_year_wh")
        assert sum(months[f"{n}_by_month_wh"]) == pytest.approx(total, rel=1e-9, abs=1e-6)


def test_the_cycles_by_depth_are_all_cycles(runs):
    for run in runs.values():
        wear = run.outcome.wear
        assert sum(as_json(run)["wear"]["wear_year_by_row_frac"]) == pytest.approx(wear["wear_year_frac"], rel=1e-9)
        counted = np.sum(wear["cycle_by_row_count"]) / YEARS
        assert sum(as_json(run)["wear"]["cycle_year_by_row_count"]) == pytest.approx(counted, rel=1e-9)


def test_what_the_bank_gave_is_its_swing_in_the_hand_method_s_days(short):
    """From full to the lowest charge, over the energy of the hardest day: by hand from the design's own numbers."""
    system = short.design.system
    lowest = np.min(short.outcome.years.store_wh)
    by_hand = (system["bank_wh"] - lowest) / system["energy_day_wh"]
    assert max(as_json(short)["by_year"]["autonomy_used_days"]) == pytest.approx(by_hand, rel=1e-12)


@every_demo
def test_the_date_of_the_lowest_charge(runs, name):
    run = runs[name]
    for year, (month, day) in enumerate(run.dates):
        hour = int(np.argmin(run.outcome.years.store_wh[year]))
        assert datetime(2001, 1, 1) + timedelta(hours=hour - hour % 24) == datetime(2001, month, day)


# ---- the verdict


def test_a_system_that_falls_short_is_told_with_its_worst_year(short):
    years = short.outcome.years
    said = rows.verdict(short, Settings())
    lost = years.totals["loss_energy_frac"]
    assert np.mean(lost) > 0.01
    year = years.lowest_hour[0]
    assert said == (
        f"In 4 drawn years {show('x_frac', np.mean(lost), figures=2)} of the load was lost; the worst year lost "
        f"{show('x_frac', np.max(lost), figures=2)}; the longest outage was {max(years.longest_outage_h)} h; the "
        f"lowest charge, {show('x_frac', np.min(years.charge_frac), figures=2)}, came on {rows.date(short, year)} of "
        f"year {year + 1}."
    )
    assert TEXT["hand.cut"] in rows.hand_said(short, Settings())


def test_a_system_that_never_falls_short_is_told_so(runs):
    said = rows.verdict(runs["riverbend"], Settings())
    assert said.startswith("In 4 drawn years no load was lost; the lowest charge, ")
    assert "outage" not in said
    assert TEXT["hand.cut"] not in rows.hand_said(runs["riverbend"], Settings())


def test_a_bank_that_gave_more_than_by_hand_was_warmer(runs):
    run = runs["fell_hut"]
    assert np.max(run.autonomy_used_days) > run.design.system["autonomy_given_days"]
    at = run.outcome.years.lowest_hour
    assert run.outcome.hours.by_hour["battery_by_hour_c"][at] > run.design.system["battery_temp_c"]
    assert TEXT["hand.warmer"] in rows.hand_said(run, Settings())
    assert TEXT["hand.warmer"] not in rows.hand_said(runs["riverbend"], Settings())


def test_a_start_level_that_moved_up_in_the_cold_is_told(runs):
    run = runs["fell_hut"]
    lowest, start = np.min(run.by_year["lowest_charge_frac"]), run.design.given["generator_start_frac"]
    assert np.any(run.by_year["generator_ran_h"] > 0)
    assert lowest > start, "or the sentence has nothing to explain"
    told = rows.generator_said(run, Settings())
    assert len(told) == 2
    assert told[1].startswith("Its start level of 50 % is that of a warm bank: in the cold it moves up")
    assert show("x_frac", lowest, figures=2) in told[1]
    high = {**run.design.given, "generator_start_frac": lowest}
    other = replace(run, outcome=replace(run.outcome, design=replace(run.design, given=high)))
    assert rows.generator_said(other, Settings()) == told[:1]


def test_rounding_is_told_in_words_and_anything_more_as_a_number(runs):
    run = runs["riverbend"]
    assert "adds up: less than a millionth of a day's energy is missing" in rows.closes(run, Settings())
    years = run.outcome.years
    lost = SimpleNamespace(totals={"residual_frac": np.array([0.002])})
    assert years.totals["residual_frac"].max() < 1e-6
    more = replace(run, outcome=replace(run.outcome, years=lost))
    assert "adds up: at most 0.002 of a day's energy is missing" in rows.closes(more, Settings())


def test_a_load_beyond_the_inverter_is_told(runs):
    """No bank can serve it, so it is no load lost: said in a sentence of its own. The hours are made so by hand."""
    run = runs["riverbend"]
    assert "beyond its rating" not in rows.hand_said(run, Settings())
    hours = run.outcome.hours
    short = np.zeros((hours.years, 8760))
    short[:, :10] = 120.0
    years = simulate(replace(hours, by_hour={**hours.by_hour, "ac_short_by_hour_w": short}))
    assert years.totals["overload_year_wh"].tolist() == [1200.0] * hours.years
    beyond = replace(run, outcome=replace(run.outcome, years=years))
    assert "1 200 Wh a year beyond its rating" in rows.hand_said(beyond, Settings()).replace("\u2009", " ")


def test_the_generator_is_told_where_there_is_one(runs):
    for name, run in runs.items():
        has = name == "fell_hut"
        assert bool(rows.generator_said(run, Settings())) == has
        assert ("generator_ran_h" in as_json(run)["spread"]) == has
        assert any("fuel" in cell for cell in cells(rows.assumption_rows(run, Settings()))) == has


def test_what_the_plan_assumes_is_told_and_used(runs, short):
    assert [show("discount_rate_frac", 0.03), TEXT["assumed.plan"]] in [
        r[1:] for r in rows.assumption_rows(short, Settings())
    ]
    assert as_json(short)["assumed"]["discount_rate_frac"] == short.outcome.cost["discount_rate_frac"] == 0.03
    assert TEXT["assumed.plan"] not in cells(rows.assumption_rows(runs["fell_hut"], Settings()))


def test_what_ends_the_bank_and_how_often_it_is_bought(runs, short):
    for run in (*runs.values(), short):
        wear, said = run.outcome.wear, rows.ended_by(run, Settings())
        by_cycles = wear["cycle_life_years"] < wear["calendar_life_years"]
        assert said.startswith("The cycles wear" if by_cycles else "Its years end")
        # at the horizon itself none is bought
        count = math.ceil(20 / wear["bank_life_years"] - 1e-9) - 1
        named = {0: "no new bank", 1: "one new bank"}.get(count, f"{count} new banks")
        assert said.endswith(f"Within 20 years that is {named}.")


# ---- text and page


@pytest.mark.parametrize("name", [*DEMOS, "short"])
@pytest.mark.parametrize("settings", [Settings(), FOREIGN], ids=["usual", "foreign"])
def test_the_text_fits_its_width_and_says_what_to_doubt(runs, short, name, settings):
    run = short if name == "short" else runs[name]
    text = year_text(run, settings)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert "nan" not in text
    # the noise of a sum that comes to nothing is no number; only how well the hours close is that small
    assert not re.search(r"\de−\d", text), "noise is no number"
    told = plain(text)
    for limit in run.outcome.weather.limits:
        assert plain(limit) in told
    assert say("caution.design_exercise") in told
    assert TEXT["note.cost"] in told
    assert "invented classroom data" in told


def test_the_ribbon_of_the_text_is_the_lowest_of_each_week(short):
    text = year_text(short, Settings())
    line = next(x for x in text.splitlines() if x.startswith(TEXT["ribbon.worst"])).split()[-1]
    assert len(line) == 52
    lowest = short.outcome.years.daily_lowest_frac.min(axis=0)
    for week, block in enumerate(line):
        share = lowest[7 * week : 7 * week + (8 if week == 51 else 7)].min()
        assert (ord(block) - ord("▁")) / 8 < share <= (ord(block) - ord("▁") + 1) / 8


@pytest.mark.parametrize("name", [*DEMOS, "short"])
def test_the_page_is_whole_and_calls_nobody(runs, short, name):
    run = short if name == "short" else runs[name]
    written = year_html(run, Settings())
    page = Page(written)
    assert len(page.ids) == len(set(page.ids))
    assert not {"script", "link", "img", "iframe", "object"} & {n for n, _ in page.elements}
    assert "http" not in written
    assert "nan" not in html.unescape(re.sub(r"<style>.*?</style>", "", written, flags=re.S)).lower().split()
    links = [attrs["href"] for n, attrs in page.elements if n == "a"]
    assert all(link[1:] in page.ids for link in links)
    assert [level for level, _ in page.headings][:2] == [1, 2]
    for n, attrs in page.elements:
        if n == "svg":
            assert set(attrs["aria-labelledby"].split()) <= set(page.ids)
    captions = page.named("figcaption")
    assert len(captions) == 3
    bands = {
        key
        for key in ("offer", "met", "spilled", "unserved")
        if say_year(f"picture.{key}", unit="kWh") in page.named("text")
        or say_year(f"picture.{key}", unit="Wh") in page.named("text")
    }
    months = as_json(run)["by_month"]
    whole = max(map(max, months.values()))
    assert bands == {
        k for k, n in zip(("offer", "met", "spilled", "unserved"), months, strict=True) if max(months[n]) > 1e-9 * whole
    }
    assert not re.search(r"\de−\d", written), "noise is no number"
    limits = page.named("li")
    assert all(limit in limits for limit in run.outcome.weather.limits)


def test_the_page_keeps_a_title_from_becoming_markup(plans):
    plan = designed(plans, "gull_mast", ('title = "Gull mast"', 'title = "<script>alert(1)</script>"'))
    written = year_html(run_of(size(parse_plan(plan)), 1), Settings())
    Page(written)
    assert "<script>" not in written


def test_the_cells_of_the_ribbon_are_the_days(short):
    """Each shade's path, read back: every day of every year once, in the shade of its charge."""
    page = Page(year_html(short, Settings()))
    paths = {a["fill"]: a["d"] for n, a in page.elements if n == "path" and a.get("fill") in SHADES}
    charge = short.outcome.years.daily_lowest_frac
    found = np.full(charge.shape, -1)
    for fill, path in paths.items():
        for start, y, end in re.findall(r"M([\d.]+) (\d+)H([\d.]+)v", path):
            first, last = (round((float(x) - 40) / 600 * 365) for x in (start, end))
            found[(int(y) - 40) // 14, first:last] = SHADES.index(fill)
    assert np.array_equal(found, np.minimum(np.floor(charge * 10), 9))
    said = next(x for x in page.named("figcaption") if "One row a year" in x)
    below = int(np.sum(charge < 0.5))
    assert f"{show('x_count', below)} of {show('x_count', charge.size)} days" in said


def test_more_years_than_paper_are_said_to_be_more(plans):
    run = run_of(size(read_plan(plans / "gull_mast.toml")), rows.MOST_LISTED + 1)
    page = Page(year_html(run, Settings()))
    assert say_year("note.more_years", most=rows.MOST_LISTED) in page.named("p")
    assert say_year("note.more_years", most=rows.MOST_LISTED) in plain(year_text(run, Settings()))
    assert any(say_year("picture.first_years", count=MOST_ROWS) in x for x in page.named("figcaption"))
    assert not any(caption == TEXT["table.years"] for caption in page.named("caption"))
    assert len(as_json(run)["by_year"]["loss_energy_frac"]) == rows.MOST_LISTED + 1


def test_every_sentence_is_written_for_somebody(runs, short, plans):
    texts = [year_text(run, Settings()) + html.unescape(year_html(run, Settings())) for run in (*runs.values(), short)]
    texts.append(year_text(run_of(size(read_plan(plans / "gull_mast.toml")), 1), Settings()))
    texts.append(compare_text(Comparison({"a": runs["fell_hut"], "b": runs["gull_mast"]}), Settings()))
    said = plain(" ".join(texts))
    elsewhere = (
        "typed.",
        "stopped",
        "told.",
        "verdict.hours",
        "weather.place",
        "note.more_years",
        "picture.first",
        "compare.",
    )
    elsewhere += ("closes.most", "wear.cycles", "wear.replaced_none", "verdict.drawn_one", "hand.overload")
    for key, sentence in TEXT.items():
        if not key.startswith(elsewhere):
            begun = sentence[:1].upper() + sentence[1:]
            ways = ([p for p in re.split(r"\{\w+\}", s) if p.strip()] for s in (sentence, begun))
            assert any(all(plain(p) in said for p in pieces) for pieces in ways), key
        assert max(len(s.split()) for s in re.split(r"[.;:]", sentence)) <= 24, key


# ---- drawn years


def test_one_seed_repeats_byte_for_byte_and_two_differ(plans, capsys, tmp_path):
    path = plans / "weekend_cabin.toml"
    for option in ([], ["--json"]):
        one, again, other = (printed(capsys, "year", path, "--years", 2, "--seed", s, *option) for s in (5, 5, 6))
        assert one == again
        assert one != other
    pages = [tmp_path / f"{n}.html" for n in range(2)]
    for page in pages:
        assert printed(capsys, "year", path, "--years", 2, "--report", page) == f"Written: {page}\n"
    assert pages[0].read_bytes() == pages[1].read_bytes()
    assert pages[0].read_bytes() == year_html(run_of(size(read_plan(path)), 2), Settings()).encode()


def test_twenty_years_of_seed_one_unless_said(plans, capsys):
    read = json.loads(printed(capsys, "year", plans / "gull_mast.toml", "--json"))
    assert (read["years"], read["seed"]) == (20, 1)


# ---- hours of a file


@pytest.fixture(scope="module")
def hours_csv(tmp_path_factory):
    """A year of a plain file: the same day 365 times, in the clock of its place."""
    path = tmp_path_factory.mktemp("hours") / "my hours.csv"
    begun, lines = datetime(2021, 1, 1, tzinfo=timezone(timedelta(hours=1))), ["hour_starts,ghi_w_m2,air_c"]
    for hour in range(8760):
        sun = max(0.0, 300 * math.sin((hour % 24 - 9) / 6 * math.pi)) if 9 <= hour % 24 < 15 else 0.0
        lines.append(f"{(begun + timedelta(hours=hour)).isoformat()},{sun:.1f},8")
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def test_hours_of_a_file_are_followed(plans, capsys, hours_csv):
    where = ["--hours", hours_csv, "--latitude", "46.5", "--longitude", "8"]
    text = plain(printed(capsys, "year", plans / "weekend_cabin.toml", *where))
    assert "In one year of hours, my hours," in text
    assert "The hours are of 46.5°; the site of the plan lies at 45.2°." in text
    assert "drawn" not in text
    read = json.loads(printed(capsys, "year", plans / "weekend_cabin.toml", *where, "--json"))
    assert (read["years"], read["seed"]) == (1, None)
    assert read["weather"]["source"].startswith("The hours in my hours.csv")
    assert "air_swing_k" not in read["assumed"]


def test_a_file_that_says_where_it_is_from(plans, capsys, tmp_path):
    page = tmp_path / "years.html"
    assert told(capsys, "year", plans / "gull_mast.toml", "--hours", TMY3, "--report", page)[0] == 0
    assert "The hours are of 55.3°; the site of the plan lies at −46°." in page.read_text("utf-8")


# ---- side by side


@pytest.fixture
def pair(plans, tmp_path):
    """One hut, and the same with a cheaper bank that is used up sooner."""
    for name, change in (("deep", ("depth_frac = 0.5", "depth_frac = 0.8")), ("usual", ("", ""))):
        (tmp_path / f"{name}.toml").write_text(designed(plans, "fell_hut", change), encoding="utf-8")
    return [tmp_path / "usual.toml", tmp_path / "deep.toml"]


def test_designs_side_by_side(capsys, pair):
    text = printed(capsys, "compare", *pair, "--years", 2)
    read = json.loads(printed(capsys, "compare", *pair, "--years", 2, "--json"))
    assert max(map(len, text.splitlines())) <= WIDTH
    assert list(read) == COMPARED_KEYS.split()
    assert all(math.isfinite(x) for x in numbers_in(read))
    assert (read["plans"], read["years"], read["seed"]) == (["usual", "deep"], 2, 1)
    outcomes = [follow(d, drawn_weather(d, 2, 1)) for d in (size(read_plan(path)) for path in pair)]
    assert read["cost"]["life_cycle_cost"] == [float(x.cost["life_cycle_cost"]) for x in outcomes]
    assert read["judged"]["mean_lost"]["values"] == [x.mean("loss_energy_frac") for x in outcomes]
    assert read["judged"]["ran"]["values"] == [x.mean("generator_ran_h") for x in outcomes]
    costs = read["cost"]["life_cycle_cost"]
    assert read["cheapest"] == read["plans"][costs.index(min(costs))]
    for n in ("first_cost", "life_cycle_cost", "kwh_cost"):
        assert re.search(r" +".join(map(re.escape, (show(n, x) for x in read["cost"][n]))), text), n
    moved = [row["moved"] for row in read["reverses"]]
    assert moved == ["discount_rate_frac", "horizon_years", "battery_price_factor", "fuel_litre_cost"]
    assert f"{read['cheapest']} costs the least over 20 years." in text
    bars = read["tornado"]
    sizes = [abs(bar["result_high"] - bar["result_low"]) for bar in bars]
    assert len(sizes) > 5
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[-1] > 0
    assert all(show("x_cost", bar["result_low"]) in text for bar in bars)


def test_what_reverses_the_choice_does(capsys, tmp_path, plans):
    """A small bank with a generator against a large one without: where bank prices fall, the large bank is cheaper."""
    large = re.sub(r"\[generator\][^\[]*", "", designed(plans, "fell_hut"))
    small = designed(plans, "fell_hut", ("autonomy_days = 4", "autonomy_days = 1.9"))
    paths = [tmp_path / "large.toml", tmp_path / "small.toml"]
    for path, plan in zip(paths, (large, small), strict=True):
        path.write_text(plan, encoding="utf-8")
    read = json.loads(printed(capsys, "compare", *paths, "--years", 2, "--json"))
    text = plain(printed(capsys, "compare", *paths, "--years", 2))
    assert read["cheapest"] == "small"
    row = next(row for row in read["reverses"] if row["moved"] == "battery_price_factor")
    assert 0.2 < row["value"] < 1
    value = show("battery_price_factor", row["value"], figures=3)
    assert (
        f"large gets cheaper than small with battery price as a multiple of the catalogue's at {value}; it is 1 now"
        in text
    )
    for factor, cheaper in ((row["value"] + 0.001, "small"), (row["value"] - 0.001, "large")):
        costs = {}
        for path in paths:
            design = size(parse_plan(path.read_text("utf-8") + f"\n[assume]\nbattery_price_factor = {factor}\n"))
            costs[path.stem] = follow(design, drawn_weather(design, 2, 1)).cost["life_cycle_cost"]
        assert min(costs, key=costs.get) == cheaper


def test_plans_of_one_name_are_called_by_their_places(plans, tmp_path, capsys):
    (tmp_path / "gull_mast.toml").write_bytes((plans / "gull_mast.toml").read_bytes())
    paths = [plans / "gull_mast.toml", tmp_path / "gull_mast.toml"]
    read = json.loads(printed(capsys, "compare", *paths, "--years", 1, "--json"))
    assert read["plans"] == list(map(str, paths))
    assert read["reverses"] == []
    assert "cost the same" in plain(printed(capsys, "compare", *paths, "--years", 1))


def test_designs_for_different_loads_are_not_ranked(plans, capsys):
    paths = [plans / "fell_hut.toml", plans / "gull_mast.toml"]
    read = json.loads(printed(capsys, "compare", *paths, "--years", 1, "--json"))
    assert list(read) == COMPARED_KEYS.split()
    assert (read["cheapest"], read["reverses"], read["tornado"]) == (None, [], [])
    text = plain(printed(capsys, "compare", *paths, "--years", 1))
    assert "costs the least" not in text
    assert TEXT["compare.reverses"] not in text
    most, least = read["cost"]["served_year_wh"]
    assert least < 0.1 * most
    assert f"serve different loads, from {rows.energy(least, Settings(), most)} to" in text


@pytest.mark.parametrize(("other", "alike"), [(1000, True), (900, True), (899, False), (0, False)])
def test_about_the_same_energy_is_nine_tenths_of_it(other, alike):
    share = SERVED_ALIKE.solve({"served_by_row_wh": [1000, other]})["served_least_frac"]
    assert (share >= SERVED_LEAST_FRAC) == alike


def test_four_plans_fit_the_width(plans, capsys):
    text = printed(capsys, "compare", *(plans / f"{n}.toml" for n in DEMOS), "--years", 1)
    assert max(map(len, text.splitlines())) <= WIDTH


# ---- bad input


def refused(capsys, *arguments):
    code, out, err = told(capsys, *arguments)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err


@pytest.mark.parametrize("command", ["year", "compare"])
@pytest.mark.parametrize(
    ("option", "typed"),
    [("--years", x) for x in ("0", "-1", "1001", "ten", "", "2.5", "1e2", "٣", "9" * 400)]
    + [("--seed", x) for x in ("-1", "x", "1.0", str(2**63), "")],
)
def test_a_count_that_is_none_is_refused(plans, capsys, command, option, typed):
    others = [plans / "fell_hut.toml"] if command == "compare" else []
    said = refused(capsys, command, plans / "gull_mast.toml", *others, option, typed)
    allowed = "from 1 to 1000" if option == "--years" else "from 0 to 9223372036854775807"
    assert f"{option} {typed[:40]!a}: a whole number {allowed} is allowed" in said
    assert len(said) < 150


def test_other_slips_are_refused_in_one_sentence(plans, capsys, tmp_path, hours_csv):
    plan, lines = plans / "gull_mast.toml", hours_csv.read_text("utf-8").splitlines()
    gap, columns = tmp_path / "gap.csv", tmp_path / "columns.csv"
    gap.write_text("\n".join(lines[:4000] + lines[4001:]), encoding="utf-8")
    columns.write_text("\n".join(["hour_starts,sun,air_c", *lines[1:]]), encoding="utf-8")
    where, before = ["--latitude", "46.5", "--longitude", "8"], sorted(tmp_path.iterdir())
    page = tmp_path / "years.html"
    for arguments, wanted in [
        (["year", tmp_path / "none.toml"], "there is no such file"),
        (["year", plan, "--hours", tmp_path / "none.csv", *where], "there is no file"),
        (["year", plan, "--hours", gap, *where], "is missing or out of order; whole years are wanted"),
        (["year", plan, "--hours", columns, *where], "the columns are hour_starts, sun, air_c; wanted are"),
        (["year", plan, "--hours", hours_csv], "give a latitude and a longitude"),
        (
            ["year", plan, "--hours", hours_csv, "--latitude", "north", "--longitude", "8"],
            "--latitude 'north': a number",
        ),
        (
            ["year", plan, "--hours", hours_csv, "--latitude", "95", "--longitude", "8"],
            "the latitude 95° is not between",
        ),
        (["year", plan, "--hours", TMY3, *where], "a latitude and longitude are for plain CSV only"),
        (["year", plan, *where], "a place is allowed only with --hours"),
        (["year", plan, "--hours", TMY3, "--years", "3"], "leave --years out"),
        (["year", plan, "--hours", TMY3, "--seed", "3"], "leave --seed out"),
        (["year", plan, "--json", "--report", page], "one of the two is allowed, not both"),
        (["year", plan, "--report", tmp_path / "years.htm"], "ends in .html"),
        (["year", plan, "--report", tmp_path / "nowhere" / "years.html"], "there is no folder"),
        (["compare", plan], "2 to 4 plan files are allowed, not 1"),
        (["compare", *[plan] * 5], "2 to 4 plan files are allowed, not 5"),
        (["compare", plan, plans / ".." / "plans" / "gull_mast.toml"], "is there twice"),
        (["compare", plan, tmp_path / "none.toml"], "there is no such file"),
    ]:
        assert wanted in refused(capsys, *arguments), arguments
    assert sorted(tmp_path.iterdir()) == before


# ---- progress


class Terminal(io.StringIO):
    def __init__(self, is_terminal=True):
        super().__init__()
        self.is_terminal = is_terminal

    def isatty(self):
        return self.is_terminal

    @property
    def shown(self):
        """What is left on the line, as a terminal shows it."""
        line = []
        place = 0
        for sign in self.getvalue():
            if sign == "\r":
                place = 0
                continue
            line[place : place + 1] = [sign]
            place += 1
        return "".join(line).rstrip(" ")


class Clock:
    now = 100.0

    def __call__(self):
        return self.now


def test_the_bar_comes_after_two_seconds_and_goes():
    terminal, clock = Terminal(), Clock()
    with Progress(terminal, clock) as told:
        for year in range(1, 5):
            told(year, 20)
            clock.now += 0.499
        assert terminal.getvalue() == ""
        clock.now = 100 + AFTER_S
        told(5, 20)
        assert terminal.shown == "[#######.......................] 5 of 20 years"
        told(20, 20)
        assert terminal.shown == f"[{'#' * 30}] 20 of 20 years"
        told(9, 20)
        assert terminal.shown == f"[{'#' * 13}{'.' * 17}] 9 of 20 years", "nothing of a longer bar is left"
    assert terminal.shown == ""


def test_no_bar_where_nobody_looks_or_the_work_is_short():
    stream, clock = Terminal(is_terminal=False), Clock()
    with Progress(stream, clock) as told:
        clock.now += 60
        told(1, 2)
    assert stream.getvalue() == ""
    terminal = Terminal()
    with Progress(terminal, Clock()) as told:
        told(1, 2)
    assert terminal.getvalue() == ""


def test_the_bar_goes_when_the_work_is_interrupted():
    terminal, clock = Terminal(), Clock()

    def work():
        with Progress(terminal, clock) as told:
            clock.now += 3
            told(1, 2)
            assert terminal.shown.startswith("[###")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        work()
    assert terminal.shown == ""


@pytest.mark.parametrize("command", ["year", "compare"])
def test_the_command_tells_its_progress(plans, capsys, monkeypatch, command):
    """The clock runs a second a look: the bar comes, counts every year of every plan, and is gone."""
    terminal, clock = Terminal(), Clock()

    def ticking():
        clock.now += 1
        return clock.now

    monkeypatch.setattr("offgrid_core.report.progress.Progress.__init__.__defaults__", (ticking,))
    monkeypatch.setattr(sys, "stderr", terminal)
    paths = [plans / "gull_mast.toml", plans / "riverbend.toml"][: 2 if command == "compare" else 1]
    assert main([command, *map(str, paths), "--years", "4", "--json"]) == 0
    json.loads(capsys.readouterr().out)
    counts = re.findall(r"(\d+) of (\d+) years", terminal.getvalue())
    wanted = 4 * len(paths)
    assert counts == [(str(n), str(wanted)) for n in range(2, wanted + 1)]
    assert terminal.shown == ""


# ---- an interrupt


def test_an_interrupt_is_one_short_sentence(plans, capsys, monkeypatch, tmp_path):
    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("offgrid_core.year.outcome.simulate", interrupted)
    for arguments in (
        ["year", plans / "gull_mast.toml", "--report", tmp_path / "y.html"],
        ["year", plans / "gull_mast.toml"],
    ):
        assert told(capsys, *arguments) == (INTERRUPTED, "", "Stopped; no file was left half written.\n")
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_while_writing_leaves_the_old_page(plans, capsys, monkeypatch, tmp_path):
    page = tmp_path / "y.html"
    page.write_text("old", encoding="utf-8")

    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("offgrid_core.files.os.fsync", interrupted)
    code, out, _ = told(capsys, "year", plans / "gull_mast.toml", "--years", 1, "--report", page)
    assert (code, out) == (INTERRUPTED, "")
    assert page.read_text("utf-8") == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["y.html"]


@pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")
@pytest.mark.parametrize("option", ["--report", "--json"])
def test_a_real_interrupt_at_a_random_moment_leaves_nothing(plans, tmp_path, option):
    """Many more years than the wait is long; the moment differs from run to run."""
    more = [option, str(tmp_path / "y.html")] if option == "--report" else [option]
    working = subprocess.Popen(
        [*COMMAND, "year", str(plans / "gull_mast.toml"), "--years", "1000", *more],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # a shell may have it ignored
    )
    time.sleep(2 + 3 * random.random())
    working.send_signal(signal.SIGINT)
    out, err = working.communicate(timeout=60)
    # interrupted in an import, Python may end by the signal itself, after all is tidied; a shell says 130 to that too
    assert working.returncode in (INTERRUPTED, -signal.SIGINT)
    assert out == b""
    assert err.decode() == "Stopped; no file was left half written.\n"
    assert list(tmp_path.iterdir()) == []


# ---- the real command


@pytest.mark.skipif(shutil.which("script") is None, reason="needs script, which gives a program a terminal")
def test_on_a_real_terminal_nothing_is_left_of_the_bar(plans):
    asked = f"{sys.executable} -m offgrid_core year {plans / 'gull_mast.toml'} --years 90 --json > {os.devnull}"
    ran = subprocess.run(
        ["script", "-qec", asked, os.devnull], capture_output=True, check=False, stdin=subprocess.DEVNULL
    )
    terminal = Terminal()
    terminal.write(ran.stdout.decode())
    assert (ran.returncode, terminal.shown) == (0, "")


def test_the_options_are_in_the_help(capsys):
    with pytest.raises(SystemExit):
        main(["year", "--help"])
    said = capsys.readouterr().out
    assert all(f"--{key}" in said for key in ("years", "seed", "hours", "latitude", "longitude", "json", "report"))


def test_what_a_year_is_judged_by_has_words():
    assert all(f"short.{n}" in TEXT for n in JUDGED)
    assert all(f"place.{n}" in TEXT for n in PLACES)
