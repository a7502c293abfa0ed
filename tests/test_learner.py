"""The learner model against published arithmetic and by hand; confidence in a mistake across problems."""

from dataclasses import replace
from math import comb

import pytest

from offgrid_core.practice import catalogue, slot, slots
from offgrid_core.practice.confidence import held, times_shown
from offgrid_core.practice.learner import (
    MASTERY,
    NUMBER,
    ONE_OF_FOUR,
    ONE_OF_TWO,
    STEP,
    Known,
    elo,
    evidence_of,
    known_from,
    next_slot,
    quiz_passed,
    safe,
    unit_passed,
)
from offgrid_core.practice.record import Check, Entry

LESSON = [s for s in slots().values() if s.lesson == "L05" and not s.quiz]
EXIT = [s for s in slots().values() if s.lesson == "L05" and s.quiz == "exit"]


def tried(slot_id: str, *tries, rung: int = 0) -> Entry:
    """Return an entry with one first try a variant: (right, mistakes made, day)."""
    checks = []
    for attempt, (right, made, day) in enumerate(tries):
        fields = getattr(slot(slot_id), "asked", ())
        ids = [s.id for s in fields] or ["answer"]
        verdicts = dict.fromkeys(ids, "right") if right else dict.fromkeys(ids, "mistake" if made else "unexplained")
        checks.append(Check(attempt, rung, 1.0 if right else 0.0, right, verdicts, tuple(made), day))
    return Entry(attempt=len(tries), checks=tuple(checks))


def test_tracing_gives_the_worked_sequence():
    """Right, right, wrong, right, right on a step of a chain: computed beside this project."""
    level, levels = STEP.prior, []
    for right in (True, True, False, True, True):
        level = STEP.after(level, right)
        levels.append(round(level, 3))
    assert levels == [0.845, 0.991, 0.936, 0.997, 1.000]


@pytest.mark.parametrize(("form", "wanted"), [(NUMBER, 2), (STEP, 2), (ONE_OF_FOUR, 3), (ONE_OF_TWO, 5)])
def test_right_answers_in_a_row_to_mastery(form, wanted):
    level, count = form.prior, 0
    while level < MASTERY:
        level, count = form.after(level, True), count + 1
    assert count == wanted


@pytest.mark.parametrize("form", [NUMBER, STEP, ONE_OF_FOUR, ONE_OF_TWO])
def test_the_chance_is_between_guess_and_no_slip(form):
    assert form.chance(0) == form.guess
    assert form.chance(1) == pytest.approx(1 - form.slip)
    assert form.guess < 0.5
    assert form.guess + form.slip < 1


def test_a_high_level_alone_is_no_mastery():
    assert Known(0.99, 3, 2, 1).mastered()
    assert not Known(0.99, 2, 2, 2).mastered()
    assert not Known(0.99, 3, 1, 2).mastered()
    assert not Known(0.94, 9, 9, 9).mastered()
    assert not Known(0.99, 3, 2, 1).mastered(unit_gate=True)
    assert Known(0.99, 3, 2, 2).mastered(unit_gate=True)


def test_only_the_first_try_of_a_variant_is_evidence():
    entry = tried("L05-3", (False, ("TE-02",), "2026-01-02"))
    again = replace(entry, checks=(*entry.checks, replace(entry.checks[0], finished=True, score=1.0, mistakes=())))
    assert evidence_of({"L05-3": again}, LESSON) == evidence_of({"L05-3": entry}, LESSON)


def test_skills_habits_and_rules_are_three_kinds_of_nodes():
    found = evidence_of({"L05-3": tried("L05-3", (False, ("TE-02",), "2026-01-02"))}, LESSON)
    nodes = {e.node: e.right for e in found}
    assert nodes["skill:bank_cold_wh"] is False
    family = catalogue()["TE-02"].family
    assert nodes[f"habit:{family}"] is False
    others = [n for n in nodes if n.startswith("habit:") and n != f"habit:{family}"]
    assert others
    assert all(nodes[n] for n in others)


def test_a_variant_shown_worked_counts_as_not_yet():
    right = ((True, (), "2026-01-02"),)
    free, shown = (evidence_of({"L05-3": tried("L05-3", *right, rung=rung)}, LESSON) for rung in (0, 3))
    assert all(e.right for e in free if e.node.startswith("skill:"))
    assert not any(e.right for e in shown if e.node.startswith("skill:"))


def test_levels_rise_with_right_answers_and_rest_on_days():
    entries = {"L05-3": tried("L05-3", *[(True, (), f"2026-01-0{n}") for n in (2, 3, 4)])}
    known = known_from(evidence_of(entries, LESSON))["skill:bank_cold_wh"]
    assert (known.tries, known.variants, known.days) == (3, 3, 3)
    assert known.mastered(unit_gate=True)
    worse = {"L05-3": tried("L05-3", *[(n != 4, (), f"2026-01-0{n}") for n in (2, 3, 4)])}
    assert known_from(evidence_of(worse, LESSON))["skill:bank_cold_wh"].level < known.level


def test_a_safety_rule_wants_its_last_two_encounters_right():
    danger = next(s for s in slots().values() if any(catalogue()[i].severity == "danger" for i in s.mistakes))
    rule = next(i for i in danger.mistakes if catalogue()[i].severity == "danger")

    def verdict(*rights):
        tries = [(right, () if right else (rule,), f"2026-01-{day:02}") for day, right in enumerate(rights, 1)]
        return safe(evidence_of({danger.id: tried(danger.id, *tries)}, [danger]))[f"safety:{rule}"]

    assert not verdict(True)
    assert verdict(True, True)
    assert not verdict(True, True, True, False)
    assert not verdict(False, True)
    assert verdict(False, True, True)


@pytest.mark.parametrize(("rate", "share"), [(0.6, 0.23), (0.8, 0.66), (0.95, 0.97)])
def test_who_passes_an_exit_quiz(rate, share):
    """Binomial: how often somebody with that true rate gets five of six."""
    assert sum(comb(6, k) * rate**k * (1 - rate) ** (6 - k) for k in (5, 6)) == pytest.approx(share, abs=0.005)


def test_an_exit_quiz_is_passed_with_five_of_six():
    def entries(rights):
        return {s.id: tried(s.id, (right, (), "2026-01-02")) for s, right in zip(EXIT, rights, strict=True)}

    assert len(EXIT) == 6
    assert quiz_passed(entries([True] * 5 + [False]), EXIT)
    assert not quiz_passed(entries([True] * 4 + [False] * 2), EXIT)
    assert not quiz_passed({}, EXIT)
    renewed = entries([True] * 4 + [False] * 2)
    renewed[EXIT[4].id] = tried(EXIT[4].id, (False, (), "2026-01-02"), (True, (), "2026-01-03"))
    assert quiz_passed(renewed, EXIT)


def test_a_unit_gate_wants_four_fifths_and_every_safety_rule():
    gate = [*EXIT, *LESSON]
    dangers = {i for s in gate for i in s.mistakes if catalogue()[i].severity == "danger"}

    def entries(wrong=()):
        return {s.id: tried(s.id, (True, (), "2026-01-02"), (s.id not in wrong, (), "2026-01-03")) for s in gate}

    assert unit_passed(entries(), gate, gate)
    assert not unit_passed(entries([s.id for s in gate[: len(gate) // 2]]), gate, gate)
    holding = next((s.id for s in gate if dangers & set(s.mistakes)), None)
    if holding:
        assert not unit_passed(entries([holding]), gate, gate)


def test_elo_gains_shrink():
    """Steps of 1, 0.80, 0.67 and 0.50 after 0, 5, 10 and 20 answers (Pelánek 2016, from memory)."""
    assert [round(1 / (1 + 0.05 * n), 2) for n in (0, 5, 10, 20, 40)] == [1, 0.8, 0.67, 0.5, 0.33]
    one = {LESSON[0].id: tried(LESSON[0].id, (True, (), "2026-01-02"))}
    learner, difficulty = elo(one, LESSON)
    assert learner > 0 > difficulty[LESSON[0].id]
    assert learner == pytest.approx(-difficulty[LESSON[0].id])


def test_the_next_problem_is_one_not_done_near_the_chance_aimed_at():
    assert next_slot({}, LESSON) in {s.id for s in LESSON}
    done = {s.id: tried(s.id, (True, (), "2026-01-02")) for s in LESSON[:-1]}
    assert next_slot(done, LESSON) == LESSON[-1].id
    everything = {s.id: tried(s.id, (True, (), "2026-01-02")) for s in LESSON}
    assert next_slot(everything, LESSON) in {s.id for s in LESSON}
    assert next_slot(everything, LESSON) == next_slot(dict(reversed(everything.items())), LESSON)


HIT, MISS, AGAIN = (False, ("TE-02",), "2026-01-02"), (True, (), "2026-01-03"), (False, ("TE-02",), "2026-01-04")


@pytest.mark.parametrize(("tries", "wanted"), [((HIT,), 0.82), ((HIT, HIT), 0.997)])
def test_one_match_is_a_guess_and_two_are_a_habit(tries, wanted):
    assert held("TE-02", {"L05-3": tried("L05-3", *tries)}) == pytest.approx(wanted, abs=0.005)


def test_two_clean_chances_end_a_habit():
    assert times_shown("TE-02", {"L05-3": tried("L05-3", HIT, HIT)}) == 2
    assert times_shown("TE-02", {"L05-3": tried("L05-3", HIT, MISS, AGAIN)}) == 2
    assert times_shown("TE-02", {"L05-3": tried("L05-3", HIT, HIT, MISS, MISS)}) == 0
    assert times_shown("TE-02", {"L05-3": tried("L05-3", HIT, HIT, MISS, MISS, AGAIN)}) == 1
    assert times_shown("TE-02", {}) == 0
