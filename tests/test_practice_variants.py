"""Variants: the same on every machine, screened, and curated where nothing passes."""

import re
from dataclasses import replace
from hashlib import sha256

import pytest

from offgrid_core.practice import Problem, Step, draw, slots
from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import picked
from offgrid_core.practice.screens import clear_of_whole, mistakes_in, steps_pass
from offgrid_core.practice.tolerance import apart, stands_clear
from offgrid_core.quantities import Settings
from offgrid_core.sizing import BANK_1013
from offgrid_core.system import read_plan
from offgrid_core.system.givens import site_of
from offgrid_core.worksheet import Sheet, Table, line, up

#: What kinds draw beside numbers for the learner: a batch of parts, a site, a fault and where its log begins.
NO_QUANTITIES = ("batch", "site", "fault", "day", "case")
#: Of every lesson's slots, three variants each. Changes only with the slots: then look at the numbers, and renew.
FROZEN = {
    "L00": "ff4e99c72852fe28",
    "L01": "c945e82c28a896c6",
    "L02": "41e7ee0e4117e154",
    "L03": "0fc9714948f20506",
    "L04": "449bf8de2ce58f00",
    "L05": "3dca84715bfde4f5",
    "L06": "276afc2c937486de",
    "L07": "ca7dd47308cc6a13",
    "L08": "6bf56bb63fa824b8",
    "L09": "f0abbcbe791794e1",
    "L10": "93c9cb1c8400dda9",
    "L11": "d4b1b33e4aed91f5",
    "L12": "1d5172c973ad3d65",
    "L13": "be667e4cfac1d94d",
    "L14": "d6146c069ddab754",
    "G1": "bc8c3225c7528ce7",
    "G2": "e9302fc9e7d8e289",
    "G3": "074ccebf90bf867b",
}


def numbers(problem):
    return {n: v for n, v in sorted(problem.given.items()) if not isinstance(v, Table)}


def digest(lesson):
    places = [(i, s) for i, s in slots().items() if s.lesson == lesson]
    told = [(i, n, repr(numbers(draw(s, n)))) for i, s in places for n in range(3)]
    return sha256(repr(told).encode()).hexdigest()[:16]


@pytest.mark.parametrize("lesson", dict.fromkeys(s.lesson for s in slots().values()))
def test_the_same_on_every_machine(lesson):
    assert digest(lesson) == FROZEN[lesson]


def test_hash_picks_by_hand():
    """The first 8 bytes of SHA-256 of 'abc' are ba7816bf8f01cfea (FIPS 180-2, example 1, from memory)."""
    assert picked("abc", 10**9) == int("ba7816bf8f01cfea", 16) % 10**9


@pytest.mark.parametrize("id_", [i for i, s in slots().items() if s.grids])
class TestEachSlot:
    def test_every_draw_passes_the_screens(self, id_):
        for attempt in range(10):
            problem = draw(slots()[id_], attempt)
            assert problem.slot.passes(problem)

    def test_curated_numbers_pass_them_too(self, id_):
        for slot in slots()[id_].templates:
            assert slot.passes(Problem(slot, {**slot.given, **slot.curated}, "curated"))

    def test_curated_numbers_are_complete(self, id_):
        for slot in slots()[id_].templates:
            assert set(slot.curated) == set(slot.grids)

    def test_there_are_several_variants(self, id_):
        slot = slots()[id_]
        assert len({repr(numbers(draw(slot, n))) for n in range(20)}) >= 4

    def test_learners_class_and_assignment_change_the_numbers(self, id_):
        slot = slots()[id_]
        drawn = {repr(numbers(draw(slot, 1, learner=f"a{n}", class_key="k", assignment="x"))) for n in range(12)}
        assert len(drawn) >= 3
        assert numbers(draw(slot, 1, "a1", "k", "x")) == numbers(draw(slot, 1, "a1", "k", "x"))


def two_currents(given):
    """Return working and short-circuit current, by plain arithmetic; nothing where a problem does not tell both."""
    short, working = given.get("module_isc_a"), given.get("module_imp_a")
    if working is None and short and "module_vmp_v" in given:
        of_array = given.get("array_w", 0) / given["array_strings_count"] / given["modules_in_series_count"]
        working = given.get("module_w", of_array) / given["module_vmp_v"]
    return (working, short) if working and short else ()


class TestModules:
    """A module at work gives some 0.92 to 0.95 of its short-circuit current (common practice, no source)."""

    TELLING = tuple(i for i, s in slots().items() if two_currents({**s.given, **s.curated}))

    def test_slots_that_tell_both_currents(self):
        assert {"L08-4", "L08-7", "L08-entry-3", "L08-exit-3", "L08-exit-4", "L09-5", "G2-gate-11"} <= {*self.TELLING}

    @pytest.mark.parametrize("id_", TELLING)
    def test_a_module_could_be_real(self, id_):
        slot = slots()[id_]
        curated = [{**t.given, **t.curated} for t in slot.templates]
        for given in (*curated, *(draw(slot, n).given for n in range(24))):
            if found := two_currents(given):
                working, short = found
                assert 0.88 * short <= working < 0.96 * short


class TestScreens:
    def work(self, mistakes, **grids):
        """Return the slot of one line, with other mistakes and numbers."""
        slot = slots()["L05-4"]
        curated = {"for_all_three_ah": 100, "kept_frac": 0.75}
        return replace(slot, mistakes=mistakes, grids=grids, curated=curated, starts_curated=False)

    def problem(self, slot, **given):
        return Problem(slot, {**slot.given, **given}, "screen")

    def test_one_plus_shortfall_is_invisible_near_one(self):
        """1 ÷ f and 2 − f differ by (1 − f)²: 0.25 % at 0.95, 4 % at 0.80."""
        slot = self.work(("TE-02",))
        assert not steps_pass(self.problem(slot, for_all_three_ah=100, kept_frac=0.95), slot.asked)
        assert steps_pass(self.problem(slot, for_all_three_ah=100, kept_frac=0.80), slot.asked)

    def test_lost_for_kept_is_invisible_at_one_half(self):
        slot = self.work(("TE-06",))
        assert not steps_pass(self.problem(slot, for_all_three_ah=100, kept_frac=0.5), slot.asked)

    def test_two_mistakes_alike_are_refused(self):
        """k ÷ (1 − k) = 1 ÷ k at 0.618: the lost share and the correction made twice give one number."""
        one, both = self.work(("TE-04",)), self.work(("TE-04", "TE-06"))
        given = {"for_all_three_ah": 100, "kept_frac": 0.618}
        assert steps_pass(self.problem(one, **given), one.asked)
        assert not steps_pass(self.problem(both, **given), both.asked)

    def test_a_mistake_that_cannot_show_is_refused(self):
        slot = self.work(("TE-04", "LD-13"))
        assert not steps_pass(self.problem(slot, for_all_three_ah=100, kept_frac=0.7), slot.asked)

    def test_12_volts_assumed_on_12_volts(self):
        slot = slots()["L00-try-1"]
        assert not slot.passes(self.problem(slot, energy_day_wh=2400, bank_voltage_v=12))
        assert slot.passes(self.problem(slot, energy_day_wh=2400, bank_voltage_v=24))

    def test_numbers_that_cannot_be_worked_are_refused(self):
        slot = self.work(("TE-01",))
        assert not steps_pass(self.problem(slot, for_all_three_ah=100, kept_frac=0), slot.asked)

    def test_fallback_after_the_cap(self):
        slot = self.work(("TE-02",), for_all_three_ah=(100,), kept_frac=(0.95, 0.96))
        assert draw(slot, 3).given["kept_frac"] == 0.75

    def test_values_of_the_mistakes(self):
        slot = self.work(("TE-01", "TE-02"))
        found = mistakes_in(self.problem(slot, for_all_three_ah=100, kept_frac=0.75), slot.asked[0], slot.asked)
        assert found == pytest.approx({"TE-01": 75, "TE-02": 125})

    def test_apart(self):
        assert apart("spell_wh", 1000, 1013)
        assert not apart("spell_wh", 1000, 1009)
        assert apart("cells_count", 24, 25)
        assert not apart("battery_temp_c", 4.0, 4.4)
        assert stands_clear("spell_wh", 1017, 1000)
        assert not stands_clear("spell_wh", 1015, 1000)
        assert not stands_clear("spell_wh", 1017, 1000, hidden=True)

    @pytest.mark.parametrize(("ah", "clear"), [(100, False), (100.5, False), (150, True), (199.5, False), (205, True)])
    def test_counts_keep_away_from_whole_numbers(self, ah, clear):
        @line("strings in parallel", standing="physics")
        def strings_count(bank_needed_ah, unit_ah):
            return up(bank_needed_ah / unit_ah)

        sheet = Sheet(strings_count)
        slot = Work(id="L06-x", title="", statement="", hint="?", sheet=sheet, asked=(Step("strings_count"),))
        assert clear_of_whole(sheet, Problem(slot, {"bank_needed_ah": ah, "unit_ah": 100}, "x")) is clear


def test_givens_are_shown_exactly():
    """What a learner reads in the statement is the number that the key is worked from, in both settings."""
    from offgrid_core.quantities import Settings, read_quantity, show
    from offgrid_core.quantities.units import unit_of

    for slot in (template for place in slots().values() for template in place.templates):
        for n, grid in slot.grids.items():
            if n in slot.marks or n in NO_QUANTITIES or "by_row" in n or isinstance(grid[0], tuple):
                continue
            for value in grid:
                for settings in (Settings(), Settings(temperature="°F", decimal=",")):
                    told = show(n, value, settings)
                    assert read_quantity(told, n, settings) == pytest.approx(value, rel=1e-9, abs=1e-9), (n, unit_of(n))


def test_line_of_the_standards_form_is_the_cores_own():
    assert slots()["L05-4"].sheet["for_cold_ah"] is BANK_1013["for_cold_ah"]


#: How the course's places are called in a story, and the plan that holds what is so there whatever is asked.
PLACES = {
    "Fell hut": "fell_hut",
    "Riverbend": "riverbend",
    "Gull mast": "gull_mast",
    "weekend cabin": "weekend_cabin",
    "Pine lake": "weekend_cabin",
}
#: Chemistries as a story names them, and as a plan does.
CHEMISTRIES = {"flooded": "flooded", "gel": "gel", "AGM": "agm", "lithium": "lfp", "lead-acid": "lead"}


def told_at(place):
    """Return every template whose story names a place, with each value that it may tell there."""
    for slot in slots().values():
        for each in slot.templates:
            if place.lower() in f"{each.title} {each.statement}".lower():
                yield each, {**{n: (v,) for n, v in each.given.items()}, **each.grids}


@pytest.mark.parametrize("place", PLACES)
class TestPlaces:
    """One place, one truth: what is wired or grows cold otherwise stands somewhere else."""

    def plan(self, place, plans):
        return read_plan(plans / f"{PLACES[place]}.toml")

    def test_has_one_voltage(self, place, plans):
        voltage = self.plan(place, plans).choices.bank_voltage_v
        names = ("bank_voltage_v", "voltage_by_row_v")
        told = {f"{t.id}, {t.title}": {*v[n]} for t, v in told_at(place) for n in names if n in v}
        told |= {t.title: {"any of three"} for t, v in told_at(place) if "voltage_steps" in v}
        assert told or place == "Pine lake"
        assert voltage is None or {i: v for i, v in told.items() if v != {voltage}} == {}

    def test_is_never_colder_than_it_was_known_to_be(self, place, plans):
        plan = self.plan(place, plans)
        air = site_of(plan.site).coldest_c
        battery = min(air, plan.choices.battery_temp_c)
        for each, values in told_at(place):
            assert min(values.get("air_coldest_c", (air,))) >= air, each.title
            assert min(values.get("battery_temp_c", (battery,))) >= battery, each.title

    def test_is_not_warmer_all_year_than_its_warmest_month(self, place, plans):
        warmest = max(site_of(self.plan(place, plans).site).air_temp_by_month_c)
        for each, values in told_at(place):
            for name in ("mean_temp_c", "life_temp_c"):
                assert max(values.get(name, (warmest,))) <= warmest, each.title

    def test_keeps_to_one_code_setting(self, place, plans):
        other = {"us_style": "IEC", "iec_style": "US"}[self.plan(place, plans).circuits.code]
        for each, _ in told_at(place):
            captions = [caption for caption, _ in each.tables(draw(replace(each, others=())), Settings())]
            assert not re.search(rf"\b{other}\b.style", " ".join([each.statement, *captions])), each.title

    def test_has_one_chemistry(self, place, plans):
        own = {self.plan(place, plans).choices.chemistry}
        for each, _ in told_at(place):
            named = {kind for word, kind in CHEMISTRIES.items() if re.search(rf"\b{word}\b", each.statement)}
            assert named <= (own if own == {"lfp"} else own | {"lead"}), each.title
