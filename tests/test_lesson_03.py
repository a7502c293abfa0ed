"""The autonomy lesson: spells counted another way, gambler's ruin, and what panel, slots and prose say of them."""

import itertools

import numpy as np
import pytest
from panel_checks import marked, readout

from offgrid_core.errors import WorksheetError
from offgrid_core.figures import autonomy as picture
from offgrid_core.lab import autonomy_panel, sun_chart
from offgrid_core.practice import Problem, draw, slots
from offgrid_core.practice.kinds.rise import READING
from offgrid_core.practice.slots.l03_autonomy import LONGEST
from offgrid_core.quantities import Settings
from offgrid_core.sizing.autonomy_teaching import DAYS_OF_LOAD, LONGER
from offgrid_core.sizing.dark_spells import dark_spells_days
from offgrid_core.sizing.storage_rules import STORAGE_RULES
from offgrid_core.system import read_plan, size
from offgrid_core.year.explore_autonomy import autonomy_view, sun_of_days, sun_record

FOCUS = {"AU-01", "AU-02", "AU-05", "AU-06", "AU-09"}


@pytest.fixture(scope="module")
def designs(plans):
    return {name: size(read_plan(plans / f"{name}.toml")) for name in ("fell_hut", "riverbend", "gull_mast")}


@pytest.fixture(scope="module")
def hut(designs):
    return designs["fell_hut"]


@pytest.fixture(scope="module")
def record(hut):
    return sun_record(hut)


@pytest.fixture(scope="module")
def panel(hut):
    return autonomy_panel(hut, "", Settings())


def moved(panel, **settings):
    panel.reset()
    for name, value in settings.items():
        panel.set(name, value)
    assert panel.status == ""
    return panel


# ---- what a dark spell is


def longest_by_loop(short):
    """Return the largest sum of any run of successive days of one year; 0 if every day has sun enough."""
    return max((sum(short[i:j]) for i, j in itertools.combinations(range(len(short) + 1), 2)), default=0)


def runs_empty(short, days):
    """Take a full bank of so many days of load through a year, and say whether it ever cannot give what is asked."""
    store = days
    for x in short:
        store = min(days, store - x)
        if store < -1e-9:
            return True
    return False


class TestDarkSpells:
    def test_by_hand(self):
        short = [[0.5, 0.5, -0.4, 0.9, -3.0, 0.2, -0.1, -0.1, 1.0, 0.5]]
        wanted = [0, 0, 0, 0, 1.5, 0, 0, 0.2, 0, 1.5]
        np.testing.assert_allclose(dark_spells_days(short)[0], wanted, atol=1e-12)

    def test_a_spell_that_ends_on_the_last_day_and_days_with_enough(self):
        assert dark_spells_days([[1.0, -2.0]]).tolist() == [[0.0, 1.0]]
        assert not dark_spells_days([[-1.0, 0.0, -0.5]]).any()

    @pytest.mark.parametrize("seed", range(20))
    def test_longest_is_the_largest_sum_of_any_run_of_days(self, seed):
        dice = np.random.default_rng(seed)
        short = 1 - dice.gamma(1.2, 1.0, (4, 40))
        longest = dark_spells_days(short).max(axis=1)
        wanted = [max(0, longest_by_loop(year)) for year in short.tolist()]
        np.testing.assert_allclose(longest, wanted, atol=1e-12)

    def test_a_bank_runs_empty_in_just_the_years_whose_longest_spell_is_longer(self, record):
        short = record.days_of_load(1.2)["short_by_row_days"][:20]
        longest = dark_spells_days(short).max(axis=1)
        for days in (2.0, 4.0, 6.5, 8.0):
            assert [runs_empty(year, days) for year in short.tolist()] == (longest > days).tolist()

    def test_gamblers_ruin(self):
        """Days bring two loads with chance p, else none: of all spells, (r − 1) ÷ (r^n − 1) come to n days or more.

        Source: the gambler's ruin, r = p ÷ (1 − p) (Feller, An Introduction to Probability Theory, from memory).
        """
        p = 0.6
        days = np.random.default_rng(3).random((40, 20_000)) < p
        spells = dark_spells_days(np.where(days, -1.0, 1.0))
        spells, r = spells[spells > 0], p / (1 - p)
        assert spells.size > 100_000
        for n in (2, 3, 4, 6):
            assert np.mean(spells >= n) == pytest.approx((r - 1) / (r**n - 1), rel=0.04)

    @pytest.mark.parametrize("odd", [[1.0, 2.0], [[]], [[1.0, np.nan]], [[np.inf]]])
    def test_refusals(self, odd):
        with pytest.raises(WorksheetError, match="days of load: numbers are wanted"):
            dark_spells_days(odd)


class TestLines:
    def test_days_of_load_by_hand(self):
        """An array of 1.5 in a worst month of 2 h: a day of 4 h brings 3 days of load, one of 0.5 h brings 0.375."""
        given = {
            "plane_by_month_kwh_m2": [5, 4, 2, *[6] * 9],
            "shade_by_month_frac": 1,
            "full_sun_kw_m2": 1,
            "plane_by_row_kwh_m2": [4, 0.5],
            "shade_by_row_frac": 1,
            "array_load_ratio": 1.5,
        }
        solved = DAYS_OF_LOAD.solve(given)
        np.testing.assert_allclose(solved["sun_by_row_days"], [3, 0.375])
        np.testing.assert_allclose(solved["short_by_row_days"], [-2, 0.625])

    def test_counts_by_hand(self):
        given = {"longest_by_row_days": [3, 5, 7, 9], "spell_by_row_days": [1, 3, 5, 6, 7, 9], "record_years": 4}
        solved = LONGER.solve({**given, "autonomy_days": np.array([4.0, 6.5, 10.0])})
        np.testing.assert_allclose(solved["longer_years_frac"], [0.75, 0.5, 0])
        np.testing.assert_allclose(solved["longer_spells_ratio"], [1, 0.5, 0])


# ---- the record


class TestRecord:
    def test_the_array_brings_its_ratio_in_the_darkest_month_of_the_record(self, record):
        from offgrid_core.sizing.hourly_sun import MONTH_OF_DAY

        sun = np.roll(record.days_of_load(1.3)["sun_by_row_days"], record.first_day, axis=1)
        by_month = [sun[:, month == MONTH_OF_DAY].mean() for month in range(12)]
        assert min(by_month) == pytest.approx(1.3, rel=1e-9)
        assert int(np.argmax(by_month)) == MONTH_OF_DAY[record.first_day]

    def test_depends_on_the_seed_alone(self, hut, record):
        again, other = sun_record(hut), sun_record(hut, years=3, seed=2)
        np.testing.assert_array_equal(again.given["plane_by_row_kwh_m2"], record.given["plane_by_row_kwh_m2"])
        assert other.years == 3
        assert not np.array_equal(other.given["plane_by_row_kwh_m2"], record.given["plane_by_row_kwh_m2"][:3])

    def test_opening_days_are_of_the_record(self, hut, record):
        sun = sun_of_days(hut)
        of_year = np.roll(record.days_of_load(1.2)["sun_by_row_days"][0], record.first_day)
        assert len(sun) == 60
        np.testing.assert_allclose(sun, of_year[304:364], atol=0.005)

    def test_limits_are_said(self, record):
        assert any("monsoon" in limit for limit in record.limits)
        assert any("Beyond 50°" in limit for limit in record.limits)


# ---- the panel


def test_the_reading_asked_for_is_what_the_panel_shows(panel):
    problem = draw(slots()["L03-explore"])
    assert problem.given["autonomy_days"] == moved(panel).inputs["autonomy_days"], "it opens where the question begins"
    for attempt in range(6):
        problem = draw(slots()["L03-explore"], attempt)
        answer = problem.slot.solution(problem, Settings())[READING]
        moved(panel, autonomy_days=problem.given["autonomy_after_days"])
        assert readout(panel, "Share of dark years") == f"{answer.text} {answer.unit}"
    assert READING in {f.id for f in problem.slot.fields(problem, Settings())}


def test_the_record_of_the_slots_is_that_of_the_panel(panel):
    view = moved(panel).result
    np.testing.assert_allclose(LONGEST, view.longest, atol=0.005001)
    for days in np.arange(1, 10.5, 0.5):
        at = moved(panel, autonomy_days=float(days)).result
        place = slots()["L03-explore"]
        problem = Problem(place, {**place.given, "autonomy_days": float(days), "autonomy_after_days": 9}, "x")
        assert float(problem.key["longer_years_frac"]) == float(at.point["longer_years_frac"]), days


def test_the_guess_is_93_of_a_hundred(panel):
    place = slots()["L03-guess"]
    key = Problem(place, {**place.given, **place.curated}, "x").key
    assert float(key["longer_years_frac"]) == pytest.approx(0.93)
    assert readout(moved(panel), "Share of dark years") == "93 %"


def test_picture_shows_every_year_once_on_its_side_of_the_line(panel):
    figure = moved(panel, autonomy_days=6.0).static()
    dark, carried = figure.data[3:5]
    assert len(dark.y) == 67
    assert len(dark.y) + len(carried.y) == 100
    assert min(dark.y) >= 6 > max(carried.y)
    assert sorted([*dark.x, *carried.x]) == [*dark.x, *carried.x], "the darkest first"
    times, now = figure.data[7:9]
    view = panel.result
    assert now.y[0] == pytest.approx(np.interp(6.0, times.x, times.y), abs=0.05)
    assert now.y[0] == pytest.approx(sum(view.spells >= 6) / 100)


def test_depth_changes_the_label_and_not_the_storage(panel):
    stored = readout(moved(panel), "Usable storage")
    label = readout(panel, "On the label, if warm")
    moved(panel, depth_frac=0.8)
    assert readout(panel, "Usable storage") == stored == "10\u2009500 Wh"
    assert readout(panel, "On the label, if warm") != label
    assert readout(moved(panel, autonomy_days=8.0), "Usable storage") == "21\u2009000 Wh"


def test_a_larger_array_takes_away_most_of_the_trouble_but_not_all(panel):
    assert readout(moved(panel, array_load_ratio=2.0), "Share of dark years") == "12 %"


def test_a_place_with_no_longer_spell_says_so(designs):
    panel = moved(autonomy_panel(designs["riverbend"], "", Settings()), autonomy_days=6.0)
    assert "In none of 100 drawn years does a dark spell outlast it: 0 times a year on average" in panel.summary


def test_tables_hold_the_picture(panel):
    along, years = moved(panel).tables
    assert list(along.columns["years with a longer one (%)"])[-1] == pytest.approx(15)
    np.testing.assert_array_equal(years.columns["longest (days of load)"], panel.result.longest)


def test_the_heater_that_changes_nothing_is_asked_what_each_day_takes():
    ward = next(t for t in slots()["L03-exit-2"].templates if t.title == "A heater in the ward")
    five = next(o for o in ward.options if o.text.startswith("it is five days"))
    assert not five.mistake
    assert "load" in five.question


def test_the_sentence_tells_what_each_slider_moves(panel):
    before = moved(panel, autonomy_days=1.0).summary
    assert before.startswith("1 day of autonomy takes ")
    assert " on the label of a warm bank" in before
    assert moved(panel, autonomy_days=1.0, depth_frac=0.8).summary != before
    assert moved(panel).summary.startswith("4 days of autonomy take ")


def test_each_pin_has_a_mark_of_its_own(panel):
    for days in (2.0, 6.0, 9.0):
        moved(panel, autonomy_days=days)
        panel.pin()
    pins = panel.static().data[9:12]
    assert all(ghost.visible for ghost in pins)
    assert len({ghost.marker.symbol for ghost in pins}) == 3
    panel.unpin()


def test_pins_stay_as_ghosts_of_the_second_picture(panel):
    moved(panel, array_load_ratio=1.5)
    panel.pin()
    moved(panel)
    ghost = panel.static().data[9]
    assert ghost.visible
    assert ghost.name == "4 days · 50 % deep · array 1.5 times the load"
    assert marked(ghost) == [(4.0, float(panel.pins[0][1].point["longer_spells_ratio"]))]
    assert ghost.y[0] < panel.static().data[7].y[0]
    panel.unpin()
    assert not panel.static().data[9].visible


def test_a_move_is_worked_out_fast_enough(hut, record):
    """The weather is drawn once; a move takes the spells and two counts."""
    from time import perf_counter

    autonomy_view(hut, record, {})
    begun = perf_counter()
    for days in (2.0, 5.0, 9.0):
        autonomy_view(hut, record, {"autonomy_days": days, "array_load_ratio": 1.0 + days / 10})
    assert perf_counter() - begun < 3 * 0.3


def test_chart_of_days_says_and_shows_what_is_in_the_list():
    sun = [0.5, 2.0, 0.1, 1.0]
    said = picture.said_of_days(sun, Settings())
    assert said == (
        "Of 4 days, 2 bring less than the loads take. The dullest, day 3, brings 0.1 days of load; the mean day brings "
        "0.9 days."
    )
    enough, short, line = picture.days_of_sun(sun, Settings()).data
    assert [*enough.x, *short.x] == [2, 4, 1, 3]
    assert [*enough.y, *short.y] == [2.0, 1.0, 0.5, 0.1]
    assert set(line.y) == {1.0}
    assert enough.marker.pattern.shape != short.marker.pattern.shape
    assert len(sun_chart(sun).children) == 4


# ---- what the prose says


def times_a_year(view):
    return float(view.point["longer_spells_ratio"])


class TestProse:
    def test_a_bank_with_enough_for_the_mean_spell_fails_in_every_year(self, hut, record):
        view = autonomy_view(hut, record, {"autonomy_days": 1.1})
        assert 1.0 < view.mean_spell < 1.1
        assert view.outlasted.all()
        assert round(view.spells.size / view.years) == 28
        assert np.mean(view.spells < 1) > 0.7, "most of them shorter than a day"

    def test_each_further_day_buys_less(self, hut, record):
        times = [times_a_year(autonomy_view(hut, record, {"autonomy_days": float(n)})) for n in range(1, 11)]
        saved = -np.diff(times)
        assert np.all(saved > 0)
        assert saved[0] == pytest.approx(3.84)
        assert saved[-1] == pytest.approx(0.11)
        assert np.all(np.diff(saved[:6]) < 0)
        assert max(saved[6:]) < saved[4]

    def test_four_days_with_the_larger_array(self, hut, record):
        view = autonomy_view(hut, record, {"array_load_ratio": 2.0})
        assert int(view.outlasted.sum()) == 12

    def test_rules_that_promise_the_same_differ_nearly_by_half(self, hut):
        worst = min(hut.given["plane_by_month_kwh_m2"])
        asked = STORAGE_RULES.solve({"worst_sun_h": worst})
        assert 1.0 < worst < 1.1
        assert 0.5 < asked["ordinary_straight_days"] / asked["ordinary_curved_days"] < 0.6

    def test_rules_hold_on_the_hut_s_record(self, hut, record):
        """The rules promise 95 % and 99 % of the energy: a bank by either serves at least that of the drawn years.

        Source: the rules are from memory (Messenger and Ventre; Masters); beside long daily records they gave 96 to
        99.7 % and 98.4 to 100 %, computed.
        """
        short = record.days_of_load(1.2)["short_by_row_days"]
        asked = STORAGE_RULES.solve({"worst_sun_h": min(hut.given["plane_by_month_kwh_m2"])})
        for name, days in ((n, float(asked[n])) for n in STORAGE_RULES):
            missing, store = np.zeros(record.years), np.full(record.years, days)
            for day in short.T:
                store = np.minimum(days, store - day)
                missing += np.maximum(-store, 0)
                store = np.maximum(store, 0)
            served = 1 - missing.sum() / short.size
            assert served >= (0.99 if name.startswith("critical") else 0.95), name

    @pytest.mark.parametrize(
        ("place", "id_", "counts"),
        [
            ("gull_mast", "L03-request", {3: 70, 5: 24, 7: 7, 10: 1}),
            ("riverbend", "L03-exit-5", {2: 57, 3: 17, 4: 4}),
        ],
    )
    def test_records_in_the_questions(self, designs, place, id_, counts):
        view = autonomy_view(designs[place], sun_record(designs[place]), {})
        assert {days: int(np.sum(view.longest > days)) for days in counts} == counts
        said = " ".join(t.statement for t in slots()[id_].templates)
        assert all(f"{days}" in said and f" {count}" in said for days, count in counts.items())
        if place == "riverbend":
            assert not np.any(view.longest > 5)
            assert np.mean(view.spells < 1) > 0.8, "most dark spells last less than one day"
        else:
            assert view.mean_spell < 1, "the mean dark spell is not even one day"

    def test_generator_argument(self, hut, record):
        with_four, with_ten = (times_a_year(autonomy_view(hut, record, {"autonomy_days": n})) for n in (4.0, 10.0))
        assert 0.9 < with_four < 1.5, "about once a year"
        assert 6 < 1 / with_ten < 8, "about once in seven years"

    def test_ten_winters(self):
        place = slots()["L03-exit-5"]
        winters = [3.1, 4.0, 4.4, 5.2, 5.9, 6.3, 7.0, 7.7, 9.5, 14.8]
        assert all(str(w) in place.statement for w in winters)
        assert sum(w > 10 for w in winters) == 1
        assert sum(w > 9 for w in winters) == 2
        assert 6.5 < np.mean(winters) < 7.4, "7 days: the mean of the ten"


def test_mistakes_in_focus_are_in_several_places():
    for id_ in FOCUS:
        places = [i for i, s in slots().items() if s.lesson == "L03" and any(id_ in t.mistakes for t in s.templates)]
        assert len(places) >= 3, id_
