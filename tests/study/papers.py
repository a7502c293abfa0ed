"""The papers of the study: seeded, of every slot and many variants, each with what its learner did."""

import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from offgrid_core.errors import OffgridError
from offgrid_core.practice import Answer, Marks, Problem, Step, catalogue
from offgrid_core.practice.kinds import Backwards
from offgrid_core.practice.screens import steps_pass
from offgrid_core.quantities import menu
from study.learners import Paper, Place, as_written, mistaken, places, right

POPULATIONS = ("one mistake", "one, end alone", "two mistakes", "slip", "right", "right, inconsistent")
#: A result that does not follow from the steps above it is at least this far from the one that does.
_PLAINLY = 0.03


@dataclass(frozen=True)
class Case:
    """One paper: what was written, by whom, and what a judge should say of it."""

    population: str
    problem: Problem
    answers: Mapping[str, Answer]
    wrong: tuple[Place, ...] = ()
    at: str = ""

    def is_judged_well(self, marks: Marks) -> bool:
        """Whether the marks say what this learner did, where, and nothing else."""
        said = {f.id: f for f in marks.fields}
        match self.population:
            case "right":
                return marks.finished and all(f.verdict == "right" for f in marks.fields)
            case "right, inconsistent":
                return said[self.at].verdict == "inconsistent"
            case "slip":
                return not marks.mistakes
            case "one, end alone":
                return said[self.at].explanations == ((self.wrong[0].id,),)
        named = all(said[place.step.id].explanations == ((place.id,),) for place in self.wrong)
        elsewhere = {f.verdict for f in marks.fields} - {"mistake", "right", "carried", "senseless", "moot"}
        return named and set(marks.mistakes) == {place.id for place in self.wrong} and not elsewhere


def papers(problem: Problem) -> Iterator[Case]:
    """Return one paper of each population that a variant allows."""
    rng = random.Random(problem.seed)
    if isinstance(problem.slot, Backwards):
        yield from _backwards(problem, rng)
        return
    where = places(problem)
    yield Case("right", problem, Paper(problem, rng).answers)
    habit = _habit(where, rng)
    one = habit if rng.random() < 0.5 else (rng.choice(habit),)
    yield Case("one mistake", problem, Paper(problem, rng, one).answers, one)
    if case := _end_alone(problem, where, rng):
        yield case
    if case := _two(problem, where, rng):
        yield case
    yield _slipped(problem, rng)
    if case := _inconsistent(problem, where, rng):
        yield case


def _habit(where: list[Place], rng: random.Random) -> tuple[Place, ...]:
    """Choose a mistake, in every row where it shows."""
    id_ = rng.choice(sorted({place.id for place in where}))
    return tuple(place for place in where if place.id == id_)


def _end_alone(problem: Problem, where: list[Place], rng: random.Random) -> Case | None:
    """One mistake, and only the last result is written; of variants whose results tell the mistakes apart."""
    end = problem.slot.asked[-1]
    if not steps_pass(problem, (end,)):
        return None
    habit = _habit(where, rng)
    answers = {end.id: Paper(problem, rng, habit).answers[end.id]}
    return Case("one, end alone", problem, answers, habit, end.id)


def _two(problem: Problem, where: list[Place], rng: random.Random) -> Case | None:
    """Two mistakes in two steps, of which the first has not taken away what the second is about."""
    pairs = [(a, b) for a in where for b in where if a.id != b.id and _before(problem, a, b)]
    rng.shuffle(pairs)
    for two in pairs:
        try:
            paper = Paper(problem, rng, two)
        except (ZeroDivisionError, OffgridError):
            continue  # "what is lost" of a share read as the whole: nothing to divide by
        if all(place.step.id in paper.shows for place in two):
            return Case("two mistakes", problem, paper.answers, two)
    return None


def _before(problem: Problem, one: Place, other: Place) -> bool:
    ids = [s.id for s in problem.slot.asked]
    return ids.index(one.step.id) < ids.index(other.step.id)


def _backwards(problem: Problem, rng: random.Random) -> Iterator[Case]:
    """Look for the input, by trying: rightly, with each mistake, and with a slip of the pen."""
    name = problem.slot.unknown
    found = _text_of(problem, _tried(problem))
    yield Case("right", problem, {name: found})
    id_ = rng.choice(problem.slot.mistakes)
    line = next(n for n in problem.slot.sheet if n in catalogue()[id_].lines)
    place = Place(id_, line, Step(problem.slot.result))
    yield Case("one, end alone", problem, {name: _text_of(problem, _tried(problem, place))}, (place,), name)
    yield Case("slip", problem, {name: Answer(_slip(found.text, rng), found.unit)}, at=name)


def _tried(problem: Problem, place: Place | None = None) -> float:
    """Halve the span until the result is what is wanted; it falls as the input rises, or the other way."""
    slot, end = problem.slot, Step(problem.slot.result)
    low, high = slot.span

    def above(x: float) -> bool:
        tried = Problem(slot, {**problem.given, slot.unknown: x}, problem.seed)
        result = mistaken(tried, end, {}, place) if place else right(tried, end, {})
        return result > problem.given[slot.wanted]

    rises = above(high)
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if above(middle) == rises else (middle, high)
    return high


def _text_of(problem: Problem, value: float) -> Answer:
    unit = menu(problem.slot.unknown)[0]
    return Answer(as_written(problem.slot.unknown, float(unit.from_canonical(value))), unit.symbol)


def _slipped(problem: Problem, rng: random.Random) -> Case:
    """A right paper but for one number, which is written down wrongly and worked on from."""
    while True:
        step = rng.choice(problem.slot.asked)
        try:
            made = Paper(problem, rng, tamper={step.id: lambda text: _slip(text, rng)})
        except OffgridError:
            continue  # a temperature that the learner's curve does not have cannot be worked on from
        return Case("slip", problem, made.answers, at=step.id)


def _slip(text: str, rng: random.Random) -> str:
    """Swap two digits side by side, write another digit, or be out by ten; whatever it is, the number is another."""
    while True:
        kind, i = rng.choice(("swap", "digit", "ten")), rng.choice([i for i, c in enumerate(text) if c.isdigit()])
        made = list(text)
        if kind == "ten":
            return f"{float(text) * rng.choice((0.1, 10)):.10g}"
        if kind == "digit":
            made[i] = rng.choice("0123456789")
        elif text[i + 1 : i + 2].isdigit():
            made[i : i + 2] = reversed(made[i : i + 2])
        if abs(float("".join(made)) - float(text)) > _PLAINLY * abs(float(text)):
            return "".join(made)


def _inconsistent(problem: Problem, where: list[Place], rng: random.Random) -> Case | None:
    """A mistake above, carried on; and at the end the right result, which does not follow from it."""
    end = problem.slot.asked[-1]
    key = end.value_in(problem.key)
    above = [place for place in where if place.step.line != end.line]
    rng.shuffle(above)
    for place in above:
        paper = Paper(problem, rng, (place,))
        if abs(paper.exact[end.id] - key) > _PLAINLY * abs(key):
            unit = next(u for u in menu(end.line) if u.symbol == paper.answers[end.id].unit)
            result = Answer(as_written(end.line, float(unit.from_canonical(key))), unit.symbol)
            return Case("right, inconsistent", problem, paper.answers | {end.id: result}, (place,), end.id)
    return None
