"""Which knob? The three inputs that move a result most, in order, and which way each moves it."""

import ast
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, pairwise
from string import Formatter

from offgrid_core.errors import OffgridError
from offgrid_core.practice.entering import Reading
from offgrid_core.practice.kinds.order import place_in
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import listed, say
from offgrid_core.quantities import Settings, unit_of
from offgrid_core.worksheet import Swing, sensitivity

_INPUTS, _TOP = range(5, 7), 3
_LESS, _MORE = 0.9, 1.1
#: Each of the first four moves the result at least so much more than the next.
_APART = 1.25
#: Stairs have no slope to compare.
_STAIRS = {"up", "down", "at_least"}
_OF_TOP, _OF_PAIRS, _OF_DIRECTIONS = 0.4, 0.3, 0.3


@dataclass(frozen=True, kw_only=True)
class Knob(Slot):
    """Inputs to be ranked by their effect.

    Attributes
    ----------
    result
        The line that is watched.
    inputs
        Five or six inputs that the ranking is chosen from.
    """

    result: str
    inputs: tuple[str, ...]

    def __post_init__(self) -> None:
        if len(set(self.inputs)) not in _INPUTS or len(set(self.inputs)) != len(self.inputs):
            raise OffgridError(f"{self.id}: 5 or 6 different inputs, not {len(self.inputs)}")
        if strange := [n for n in self.inputs if n not in self.sheet.inputs]:
            raise OffgridError(f"{self.id}: {strange[0]} is no input of the worksheet")
        if warm := [n for n in self.inputs if unit_of(n).kind == "temperature"]:
            raise OffgridError(f"{self.id}: a tenth more of {warm[0]}, a temperature, means nothing")

    @property
    def kind(self) -> str:
        """``"knob"``."""
        return "knob"

    def elasticity(self, problem: Problem) -> dict[str, float]:
        """Return, by input, per cent of the result for each per cent of the input: the central difference over ±10 %.

        Raises
        ------
        OffgridError
            If the worksheet cannot be solved there, or the result is not above zero.
        """
        found = self._swings(problem)
        if any(s.result_low <= 0 or s.result_high <= 0 for s in found.values()):
            raise OffgridError(f"{self.id}: {self.result} is not above zero")
        step = math.log(_MORE) - math.log(_LESS)
        return {n: (math.log(found[n].result_high) - math.log(found[n].result_low)) / step for n in self.inputs}

    def ranked(self, problem: Problem) -> list[str]:
        """Return the inputs, the one with the most effect first."""
        effect = self.elasticity(problem)
        return sorted(effect, key=lambda n: -abs(effect[n]))

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the inputs with their values and how to enter a ranking, after the slot's own tables."""
        values = [[problem.word(n), self._value(problem, n, settings)] for n in self._mixed(problem)]
        how = say("knob_how", result=problem.word(self.result))
        return [*problem.tables(settings), ("", values), ("", [[say("order_place"), how]])]

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:  # noqa: ARG002
        """Return, for each input, a box for its place with a menu of directions beside it."""
        ways = ("", say("knob_raises"), say("knob_lowers"))
        return tuple(Field(n, problem.word(n), ways, "") for n in self._mixed(problem))

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the ranking: 0.4 for the first, 0.3 for pairs in their right order, 0.3 for directions.

        A pair counts where both of its inputs are of the three; so only the right three in their order score 1.
        """
        mixed = self._mixed(problem)
        readings = {n: place_in(answers.get(n), 1, _TOP, settings) for n in mixed}
        words = (say("knob_raises"), say("knob_lowers"))
        ways = {n: way for n in mixed if (way := answers.get(n, Answer()).unit) in words}
        given = _Ranking(readings, ways, self.elasticity(problem))
        marks = tuple(given.mark(n, problem.word(n)) for n in mixed)
        if all(r.is_empty for r in readings.values()):
            return Marks(marks, (say("nothing", step=say("knob_first")),), 0.0, False)
        if given.finished:
            return Marks(marks, (say("knob_right", inputs=listed([problem.word(n) for n in given.top])),), 1.0, True)
        return self._told(problem, marks, given)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:  # noqa: ARG002
        """Return the three places, each with its direction."""
        effect = self.elasticity(problem)
        return {n: Answer(str(i), _way(effect[n])) for i, n in enumerate(self.ranked(problem)[:_TOP], 1)}

    def passes(self, problem: Problem) -> bool:
        """Screen: the first four are plainly apart, and nothing between an input and the result is a stair."""
        if self._on_stairs():
            return False
        try:
            sizes = sorted((abs(e) for e in self.elasticity(problem).values()), reverse=True)
        except OffgridError:
            return False
        return sizes[_TOP - 1] > 0 and all(a >= _APART * b for a, b in pairwise(sizes[: _TOP + 1]))

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return the inputs in order, each with the result at a tenth less and a tenth more."""
        effect = self.elasticity(problem)
        found = self._swings(problem)
        rows = []
        for i, n in enumerate(self.ranked(problem), 1):
            ends = (problem.shown(self.result, y, settings) for y in (found[n].result_low, found[n].result_high))
            how = say("knob_ends", result=problem.word(self.result), less=next(ends), more=next(ends))
            rows.append((str(i), how, say("knob_place", place=i, input=problem.word(n), way=_way(effect[n]))))
        return tuple(rows)

    def _value(self, problem: Problem, name: str, settings: Settings) -> str:
        """Return an input's value, in the unit that the statement tells it in."""
        units = {told: unit for _, told, unit, _ in Formatter().parse(self.statement) if told}
        return problem.text(f"{{{name}:{units.get(name, '')}}}", settings)

    def _swings(self, problem: Problem) -> dict[str, Swing]:
        spans = {n: (problem.given[n] * _LESS, problem.given[n] * _MORE) for n in self.inputs}
        return {s.name: s for s in sensitivity(self.sheet, self.result, problem.given, spans)}

    def _mixed(self, problem: Problem) -> list[str]:
        return sorted(self.inputs, key=lambda n: picked(f"{problem.seed}|input {n}", 2**32))

    def _on_stairs(self) -> bool:
        """Whether a line between one of the inputs and the result is rounded, or a switch."""
        within = self.sheet.upto(self.result)
        moved = {n for name in self.inputs for n in within.downstream(name)}
        calls = (node.func for n in moved for node in ast.walk(within[n].tree) if isinstance(node, ast.Call))
        return any(isinstance(called, ast.Name) and called.id in _STAIRS for called in calls)

    def _told(self, problem: Problem, marks: tuple[FieldMark, ...], given: "_Ranking") -> Marks:
        right = [f"{m.label}, {m.shown}" for m in marks if m.verdict == "right"]
        said = [say("credit", steps=listed(right))] if right else []
        said += [say("reenter", quantity=m.label, reason=m.reason) for m in marks if m.verdict == "reenter"]
        turned = [n for n in given.ways if n in given.placed.values() and n not in given.same_way]
        misplaced = [n for n in given.placed.values() if n not in given.at_its_place]
        question, result = "", problem.word(self.result)
        if turned:
            question = say("knob_which_way", input=problem.word(turned[0]), result=result)
        elif misplaced:
            question = say("knob_compare", input=problem.word(misplaced[0]), result=result)
        elif len(given.placed) < _TOP:
            said.append(say("rest", steps=say("knob_places")))
        else:
            blank = [problem.word(n) for n in given.placed.values() if n not in given.ways]
            said.append(say("rest", steps=say("knob_way_of", inputs=listed(blank))))
        return Marks(marks, (*said, question) if question else tuple(said), round(given.score, 10), False, question)


@dataclass(frozen=True)
class _Ranking:
    """What was entered, beside the effects that it is judged by.

    Attributes
    ----------
    readings, ways
        By input: the place as read, and the direction where one was chosen.
    effect
        By input: its elasticity.
    """

    readings: Mapping[str, Reading]
    ways: Mapping[str, str]
    effect: Mapping[str, float]

    @cached_property
    def top(self) -> list[str]:
        """The three inputs with the most effect, in order."""
        return sorted(self.effect, key=lambda n: -abs(self.effect[n]))[:_TOP]

    @cached_property
    def placed(self) -> dict[int, str]:
        """By place: the input, of places that are given once."""
        every = [(int(r.value), n) for n, r in self.readings.items() if r.value is not None]
        return {p: n for p, n in sorted(every) if [q for q, _ in every].count(p) == 1}

    @cached_property
    def at_its_place(self) -> set[str]:
        """Inputs that stand where they should."""
        return {n for p, n in self.placed.items() if n == self.top[p - 1]}

    @cached_property
    def same_way(self) -> set[str]:
        """Placed inputs whose direction is right."""
        return {n for n in self.placed.values() if n in self.ways and self.ways[n] == _way(self.effect[n])}

    @property
    def finished(self) -> bool:
        """Whether the three stand in order, each with its direction."""
        return len(self.at_its_place & self.same_way) == _TOP

    @property
    def score(self) -> float:
        """0 to 1, and 1 only where it is finished."""
        rank = {n: i for i, n in enumerate(self.top)}
        listed_pairs = combinations([self.placed[p] for p in sorted(self.placed)], 2)
        pairs = sum(a in rank and b in rank and rank[a] < rank[b] for a, b in listed_pairs)
        first = self.placed.get(1) == self.top[0]
        return _OF_TOP * first + _OF_PAIRS * pairs / _TOP + _OF_DIRECTIONS * len(self.same_way) / _TOP

    def mark(self, name: str, label: str) -> FieldMark:
        """Return the mark of one input."""
        reading = self.readings[name]
        if reading.is_empty:
            # with three placed, the others are left blank on purpose and nothing is said of them
            return FieldMark(name, label, "moot" if len(self.placed) == _TOP else "unanswered")
        if reading.value is None:
            return FieldMark(name, label, "reenter", reason=reading.reason)
        if name not in self.placed.values():
            return FieldMark(name, label, "reenter", reason=say("knob_twice", place=int(reading.value)))
        right = name in self.at_its_place & self.same_way
        shown = f"{reading.value:.0f} {self.ways.get(name, '')}".strip()
        return FieldMark(name, label, "right" if right else "unexplained", shown, method=right, accuracy=right)


def _way(effect: float) -> str:
    """Return the words for a direction; none where the input moves nothing."""
    return say("knob_raises" if effect > 0 else "knob_lowers") if effect else ""
