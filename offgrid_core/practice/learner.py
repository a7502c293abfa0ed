"""What a learner's record says about the learner: skills, habits and safety rules, and what to practise next.

Skills and habits are traced by Bayesian knowledge tracing (Corbett and Anderson 1995, from memory) with fixed numbers
for each form of answer; they are never fitted to a class. Only the first try of each variant counts as evidence: later
tries have been helped by what was said. Which problem comes next is chosen by an Elo estimate of the learner, aiming
at a chance of about 0.7. A safety rule is no average: its last two encounters, on different variants, must be right.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from offgrid_core.practice.kinds import Backwards, Choose, Slip, Work
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.record import Check, Entry
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.variants import template_of

#: Level at which a skill counts as known (customary).
MASTERY = 0.95
#: Numbers alone reach that in two answers: so many tries and variants are wanted besides, and days for a unit gate.
LEAST_TRIES, LEAST_VARIANTS, LEAST_DAYS = 3, 2, 2
#: Chance of success to aim at, and what makes an Elo estimate settle.
AIM = 0.7
_SETTLES = 0.05
#: Verdicts of a step that was worked rightly, from whatever stood before it.
_STANDS = ("right", "carried", "senseless")
#: Share right of an exit quiz and of a unit gate.
EXIT_SHARE, UNIT_SHARE = 5 / 6, 0.80


@dataclass(frozen=True)
class Form:
    """How a form of answer informs: prior, learning at each opportunity, slip and guess."""

    prior: float = 0.20
    learns: float = 0.15
    slip: float = 0.10
    guess: float = 0.05

    def after(self, level: float, right: bool) -> float:
        """Return the level after one answer."""
        known, unknown = (1 - self.slip, self.guess) if right else (self.slip, 1 - self.guess)
        seen = level * known / (level * known + (1 - level) * unknown)
        return seen + (1 - seen) * self.learns

    def chance(self, level: float) -> float:
        """Return the chance that the next answer is right."""
        return level * (1 - self.slip) + (1 - level) * self.guess


NUMBER, STEP, ONE_OF_FOUR, ONE_OF_TWO = Form(guess=0.02), Form(), Form(guess=0.25), Form(guess=0.45)


@dataclass(frozen=True)
class Evidence:
    """One first try: of a skill, a habit or a safety rule.

    Attributes
    ----------
    node
        ``"skill:…"``, ``"habit:…"`` or ``"safety:…"``.
    form
        The form of the answer.
    right
        How it went: for a habit or a rule, whether the mistake was not made.
    variant, day
        Slot and attempt, and the ISO date.
    """

    node: str
    form: Form
    right: bool
    variant: str
    day: str


@dataclass(frozen=True)
class Known:
    """What is known of one node: its level, and the tries, variants and days that it rests on."""

    level: float
    tries: int
    variants: int
    days: int

    def mastered(self, unit_gate: bool = False) -> bool:
        """Whether it counts as known; a unit gate wants it on two days."""
        enough = self.tries >= LEAST_TRIES and self.variants >= LEAST_VARIANTS
        return self.level >= MASTERY and enough and (not unit_gate or self.days >= LEAST_DAYS)


def evidence_of(entries: Mapping[str, Entry], slots: Iterable[Slot]) -> list[Evidence]:
    """Return the evidence of a record, by day; what a variant shown worked was answered with counts as not yet."""
    found: list[tuple[str, Evidence]] = []
    for slot in slots:
        for check in first_tries(entries.get(slot.id, Entry())):
            found += [(check.day, e) for e in _of_check(template_of(slot, check.attempt), check)]
    return [e for _, e in sorted(found, key=lambda pair: pair[0])]


def first_tries(entry: Entry) -> list[Check]:
    """Return the first check of every variant."""
    first: dict[int, Check] = {}
    for check in entry.checks:
        if not set(check.verdicts.values()) <= {"locked", "unanswered"}:  # a prediction is no evidence
            first.setdefault(check.attempt, check)
    return list(first.values())


def known_from(evidence: Iterable[Evidence]) -> dict[str, Known]:
    """Return what is known of each skill and habit."""
    levels: dict[str, float] = {}
    seen: dict[str, list[Evidence]] = {}
    for e in evidence:
        if e.node.startswith("safety:"):
            continue
        levels[e.node] = e.form.after(levels.get(e.node, e.form.prior), e.right)
        seen.setdefault(e.node, []).append(e)
    return {
        node: Known(level, len(seen[node]), len({e.variant for e in seen[node]}), len({e.day for e in seen[node]}))
        for node, level in levels.items()
    }


def safe(evidence: Iterable[Evidence]) -> dict[str, bool]:
    """Return, for each safety rule met, whether its last two encounters on different variants were both right."""
    last: dict[str, dict[str, bool]] = {}
    for e in evidence:
        if e.node.startswith("safety:"):
            of_rule = last.setdefault(e.node, {})
            of_rule.pop(e.variant, None)
            of_rule[e.variant] = e.right
    return {node: len(tries) >= 2 and all(list(tries.values())[-2:]) for node, tries in last.items()}


def next_slot(entries: Mapping[str, Entry], slots: Sequence[Slot]) -> str:
    """Return the problem to take next: of those not done, the one nearest to the chance aimed at.

    Parameters
    ----------
    entries
        The record.
    slots
        The problems to choose from, in their order; not empty.

    Returns
    -------
    str
        Id of a slot. If all are done, that of the one least sure, for another variant.
    """
    learner, difficulty = elo(entries, slots)
    waiting = [s for s in slots if not _done(entries.get(s.id, Entry()))] or list(slots)
    chances = [_expected(learner, difficulty[s.id], s) for s in waiting]
    best = min(range(len(waiting)), key=lambda i: abs(chances[i] - AIM))
    return waiting[best].id


def elo(entries: Mapping[str, Entry], slots: Iterable[Slot]) -> tuple[float, dict[str, float]]:
    """Return the learner's estimate and each problem's difficulty, from first tries in the order of their days."""
    slots = list(slots)
    learner, answered = 0.0, 0
    difficulty, asked = {s.id: 0.0 for s in slots}, {s.id: 0 for s in slots}
    tries = [(c.day, s, c) for s in slots for c in first_tries(entries.get(s.id, Entry()))]
    for _, slot, check in sorted(tries, key=lambda t: t[0]):
        surprise = check.score - _expected(learner, difficulty[slot.id], slot)
        learner += surprise / (1 + _SETTLES * answered)
        difficulty[slot.id] -= surprise / (1 + _SETTLES * asked[slot.id])
        answered, asked[slot.id] = answered + 1, asked[slot.id] + 1
    return learner, difficulty


def newest(entries: Mapping[str, Entry], quiz: Sequence[Slot]) -> list[Check]:
    """Return, of each problem of a quiz that was answered, the first try of its newest variant: the one that counts."""
    return [tries[-1] for s in quiz if (tries := first_tries(entries.get(s.id, Entry())))]


def quiz_passed(entries: Mapping[str, Entry], exit_slots: Sequence[Slot]) -> bool:
    """Whether an exit quiz is passed: five of six."""
    return sum(c.finished for c in newest(entries, exit_slots)) >= round(EXIT_SHARE * len(exit_slots))


def unit_passed(entries: Mapping[str, Entry], gate_slots: Sequence[Slot], unit_slots: Sequence[Slot]) -> bool:
    """Whether a unit gate is passed: four fifths overall, and every safety rule of the unit kept.

    Parameters
    ----------
    entries
        The record.
    gate_slots
        The problems of the gate.
    unit_slots
        Every problem in which the unit's safety rules are met, the gate's among them.
    """
    return sum(c.score for c in newest(entries, gate_slots)) >= UNIT_SHARE * len(gate_slots) and not rules_open(
        entries, unit_slots
    )


def rules_open(entries: Mapping[str, Entry], unit_slots: Sequence[Slot]) -> list[str]:
    """Return the mistakes of danger that were not kept out in their last two encounters, by id."""
    kept = safe(evidence_of(entries, unit_slots))
    wanted = dict.fromkeys(i for s in unit_slots for i in s.mistakes if mistake(i).severity == "danger")
    return [i for i in wanted if not kept.get(f"safety:{i}", False)]


def form_of(slot: Slot) -> Form:
    """Return the form of a problem's answers."""
    if isinstance(slot, Choose):
        return ONE_OF_TWO if len(slot.options) == 2 else ONE_OF_FOUR
    if isinstance(slot, Work):
        return NUMBER if len(slot.asked) == 1 else STEP
    return NUMBER if isinstance(slot, Backwards) else STEP


def _of_check(slot: Slot, check: Check) -> list[Evidence]:
    form, variant = form_of(slot), f"{slot.id}|{check.attempt}"
    made = set(check.mistakes)
    skills: dict[str, bool] = {}
    for field_id, verdict in check.verdicts.items():
        if verdict not in ("moot", "locked"):
            skill = field_id.partition(".")[0] if isinstance(slot, Work) else slot.id
            skills[skill] = skills.get(skill, True) and verdict in _STANDS
    found = [Evidence(f"skill:{n}", form, right and check.rung < 3, variant, check.day) for n, right in skills.items()]
    if isinstance(slot, Slip):
        return found
    families: dict[str, set[str]] = {}
    for id_ in slot.mistakes:
        families.setdefault(mistake(id_).family, set()).add(id_)
        if mistake(id_).severity == "danger":
            found.append(Evidence(f"safety:{id_}", form, check.finished and id_ not in made, variant, check.day))
    answered = any(v not in ("unanswered", "reenter") for v in check.verdicts.values())
    if answered:
        found += [Evidence(f"habit:{f}", form, not (ids & made), variant, check.day) for f, ids in families.items()]
    return found


def _expected(learner: float, difficulty: float, slot: Slot) -> float:
    """Return the chance of success; choosing among few has a floor."""
    plain = 1 / (1 + math.exp(difficulty - learner))
    return plain if not isinstance(slot, Choose) else 1 / len(slot.options) + (1 - 1 / len(slot.options)) * plain


def _done(entry: Entry) -> bool:
    return any(c.finished and c.rung < 3 for c in entry.checks)
