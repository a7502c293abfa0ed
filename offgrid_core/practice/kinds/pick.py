"""Pick a part: the cheapest of a table that keeps every limit, the limit that binds it, and the margin left."""

import ast
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

import numpy as np

from offgrid_core.practice.entering import read
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings, menu
from offgrid_core.quantities.text import number
from offgrid_core.worksheet import SEVERITIES, Line, Sheet
from offgrid_core.worksheet.grammar import compiled, names_in

PART, BINDS, MARGIN = "part", "binds", "margin"
_NAMES = "ABCDEFGHIJKL"
#: How much dearer than the cheapest a part may be and still be a good pick.
_NEAR = 1.10
_MARGIN_ROOM = 0.02
_BATCHES = range(400)


@dataclass(frozen=True, kw_only=True)
class Pick(Slot):
    """A table of unnamed parts, one of which is to be picked.

    Attributes
    ----------
    parts
        Given = the values that a part's is drawn from.
    count
        How many parts stand in the table, 8 to 12.
    cost
        The line or given that is to be low.
    made
        Lines that make a given of a part from what was drawn for it, such as its price from its size; what only they
        need is not shown.
    questions
        Limit = the question asked when a part that breaks it is picked; a limit without one asks the slot's hint.
    """

    parts: Mapping[str, Sequence[float]]
    count: int = 10
    cost: str
    made: Sheet = field(default_factory=Sheet)
    questions: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        object.__setattr__(self, "grids", {**self.grids, "batch": _BATCHES})

    @property
    def kind(self) -> str:
        """``"pick"``."""
        return "pick"

    @property
    def limits(self) -> tuple[Line, ...]:
        """The limits that judge a part."""
        return tuple(x for x in self.sheet.values() if x.severity)

    def table(self, problem: Problem) -> dict[str, np.ndarray]:
        """Return the parts of this variant: one array a field."""
        batch = f"{problem.seed}|{problem.given.get('batch', 0)}"
        drawn = {
            n: np.array([grid[picked(f"{batch}|{n}|{i}", len(grid))] for i in range(self.count)], float)
            for n, grid in self.parts.items()
        }
        solved = self.made.solve(drawn)
        own = {n: v for n, v in drawn.items() if n not in self.made.inputs or n in self.sheet.inputs}
        return own | {n: np.asarray(solved[n], float) for n in self.made}

    def judged(self, problem: Problem) -> "Judged":
        """Return every part of the table judged by every limit."""
        return _judged(problem)

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the table of parts after the slot's own."""
        parts = self.table(problem)
        head = [say("pick_part"), *(problem.word(n) for n in parts)]
        body = [
            [_NAMES[i], *(problem.shown(n, float(v[i]), settings) for n, v in parts.items())] for i in range(self.count)
        ]
        return [*problem.tables(settings), ("", [head, *body])]

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:  # noqa: ARG002
        """Return the part, the limit that binds it, and the margin to that limit."""
        units = tuple(dict.fromkeys(u.symbol for x in self.limits for u in menu(x.name)))
        return (
            Field(PART, say("pick_part"), options=tuple((n, n) for n in _NAMES[: self.count])),
            Field(BINDS, say("pick_binds"), options=tuple((x.name, x.label) for x in self.limits)),
            Field(MARGIN, say("pick_margin"), units, units[0]),
        )

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the part, then the limit and the margin of the part that was picked."""
        fields = {f.id: f for f in self.fields(problem, settings)}
        place = _NAMES[: self.count].find(answers.get(PART, Answer()).text or "-")
        if place < 0:
            blank = tuple(FieldMark(f.id, f.label, "unanswered") for f in fields.values())
            return Marks(blank, (say("nothing", step=fields[PART].label),), 0.0, False)
        judged = self.judged(problem)
        broken = judged.broken_of(place)
        name = _NAMES[place]
        if broken:
            question = self.questions.get(broken[0].name, self.hint)
            marks = self._with(fields, FieldMark(PART, fields[PART].label, "unexplained", name))
            return Marks(marks, (say("pick_breaks", part=name), question), 0.0, False, question)
        near = judged.cost[place] <= _NEAR * judged.cheapest
        part = FieldMark(PART, fields[PART].label, "right" if near else "unexplained", name, method=True, accuracy=near)
        binds = self._binds(fields[BINDS], judged, place, answers.get(BINDS, Answer()))
        margin = self._margin(fields[MARGIN], judged, place, answers.get(MARGIN), settings)
        score = (0.7 if near else 0.5) + 0.2 * (binds.verdict == "right") + 0.1 * (margin.verdict == "right")
        return self._told((part, binds, margin), score, name)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the cheapest part that keeps every limit, its binding limit and the margin."""
        judged = self.judged(problem)
        place = judged.best
        limit = judged.binding(place)
        unit = menu(limit.name)[0]
        value = number(float(unit.from_canonical(judged.margin[limit.name][place])), 4, settings)
        return {PART: Answer(_NAMES[place]), BINDS: Answer(limit.name), MARGIN: Answer(value, unit.symbol)}

    def passes(self, problem: Problem) -> bool:
        """Screen: one or two good picks, three parts broken by different limits, each danger shown, no near tie."""
        judged = self.judged(problem)
        if not judged.feasible.any():
            return False
        good = judged.feasible & (judged.cost <= _NEAR * judged.cheapest)
        first = {judged.broken_of(i)[0].name for i in range(self.count) if not judged.feasible[i]}
        dangers = {x.name for x in self.limits if x.severity == "danger"}
        shown = {x.name for i in range(self.count) for x in judged.broken_of(i)}
        several = min(3, sum(np.ptp(m) > 0 for m in judged.margin.values()))
        return 1 <= good.sum() <= 2 and len(first) >= several and dangers <= shown and judged.plain()

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the best part, the limit with the smallest share to spare, and each limit with its margin."""
        judged, best = self.judged(problem), Problem(self, {**problem.given}, problem.seed)
        margins = judged.margin
        return (
            (say("pick_part"), "", _NAMES[judged.best]),
            (say("pick_binds"), "", judged.binding(judged.best).label),
            *((x.label, "", best.shown(x.name, margins[x.name][judged.best], settings)) for x in self.limits),
        )

    def _with(self, fields: Mapping[str, Field], part: FieldMark) -> tuple[FieldMark, ...]:
        return (part, *(FieldMark(f.id, f.label, "unanswered") for f in fields.values() if f.id != PART))

    def _binds(self, asked: Field, judged: "Judged", place: int, answer: Answer) -> FieldMark:
        labels = dict(asked.options)
        if answer.text not in labels:
            return FieldMark(BINDS, asked.label, "unanswered")
        right = answer.text == judged.binding(place).name
        shown = labels[answer.text]
        return FieldMark(BINDS, asked.label, "right" if right else "unexplained", shown, method=right, accuracy=right)

    def _margin(
        self, asked: Field, judged: "Judged", place: int, answer: Answer | None, settings: Settings
    ) -> FieldMark:
        limit = judged.binding(place)
        own = tuple(u.symbol for u in menu(limit.name))
        # a unit of another limit can be no right answer: the number is then read in the unit shown first
        name = next(
            (x.name for x in self.limits if answer and answer.unit in {u.symbol for u in menu(x.name)}), limit.name
        )
        reading = read(answer, name, asked.units, settings)
        if reading.value is None:
            verdict = "unanswered" if reading.is_empty else "reenter"
            return FieldMark(MARGIN, asked.label, verdict, reason=reading.reason)  # type: ignore[arg-type]
        wanted = float(judged.margin[limit.name][place])
        right = (not answer or answer.unit in own) and abs(reading.value - wanted) <= _MARGIN_ROOM * abs(wanted) + 1e-9
        shown = f"{answer.text} {answer.unit}".strip() if answer else ""
        return FieldMark(MARGIN, asked.label, "right" if right else "unexplained", shown, method=right, accuracy=right)

    def _told(self, marks: tuple[FieldMark, ...], score: float, name: str) -> Marks:
        part, binds, margin = marks
        finished = all(m.verdict == "right" for m in marks)
        if finished:
            return Marks(marks, (say("pick_right", part=name, limit=binds.shown),), round(score, 10), True)
        said = [say("pick_keeps", part=name)]
        if part.verdict != "right":
            question = say("pick_dear")
        elif binds.verdict != "right":
            question = say("pick_which") if binds.verdict == "unexplained" else say("rest", steps=binds.label)
        elif margin.verdict == "reenter":
            question = say("reenter", quantity=margin.label, reason=margin.reason)
        else:
            question = say("pick_how_far")
        return Marks(marks, (*said, question), round(score, 10), False, question)


@dataclass(frozen=True, eq=False)
class Judged:
    """Every part of a table, judged.

    Attributes
    ----------
    limits
        The limits.
    margin, share
        By limit: the margin of every part, and the margin as a share of the larger side of its comparison.
    cost
        Of every part.
    """

    limits: tuple[Line, ...]
    margin: Mapping[str, np.ndarray]
    share: Mapping[str, np.ndarray]
    cost: np.ndarray

    @property
    def feasible(self) -> np.ndarray:
        """Which parts keep every limit."""
        return np.asarray(np.all([m >= 0 for m in self.margin.values()], axis=0))

    @property
    def cheapest(self) -> float:
        """Cost of the cheapest part that keeps every limit."""
        return float(self.cost[self.feasible].min())

    @property
    def best(self) -> int:
        """Place of that part."""
        return int(np.argmin(np.where(self.feasible, self.cost, np.inf)))

    def broken_of(self, place: int) -> list[Line]:
        """Return the limits that a part breaks, the worst first."""
        found = [x for x in self.limits if self.margin[x.name][place] < 0]
        return sorted(found, key=lambda x: SEVERITIES.index(x.severity))

    def binding(self, place: int) -> Line:
        """Return the limit with the least to spare, as a share of what is compared."""
        return min(self.limits, key=lambda x: float(self.share[x.name][place]))

    def plain(self) -> bool:
        """Whether no margin is a hair's breadth from its limit, and the best part's binding limit is clearly one."""
        shares = np.array([self.share[x.name] for x in self.limits])
        ordered = np.sort(shares[:, self.best])
        clear = len(ordered) < 2 or ordered[1] - ordered[0] > 0.02
        return bool(np.all(np.abs(shares) > 0.01) and clear)


@lru_cache(maxsize=64)
def _judged(problem: Problem) -> Judged:
    slot = problem.slot
    assert isinstance(slot, Pick)
    solved = slot.sheet.solve({**problem.given, **slot.table(problem)})
    every = np.ones(slot.count)
    margin = {x.name: np.asarray(solved[x.name], float) * every for x in slot.limits}
    share = {x.name: margin[x.name] / _size(x, solved, every) for x in slot.limits}
    return Judged(slot.limits, margin, share, np.asarray(solved[slot.cost], float) * every)


def _size(limit: Line, solved: Mapping[str, Any], every: np.ndarray) -> np.ndarray:
    """Return the larger side of what a limit compares: a margin of 2 V means something else at 12 than at 400."""
    sides = [limit.tree.left, limit.tree.right] if isinstance(limit.tree, ast.BinOp) else [limit.tree]
    values = []
    for side in sides:
        needs = tuple(dict.fromkeys(names_in(side)))
        values.append(np.abs(np.asarray(compiled(side, needs)(*(solved[n] for n in needs)), float)) * every)
    return np.asarray(np.maximum(np.max(values, axis=0), 1e-12))
