"""Check the drawing: a system as numbered items, and for each rule whether it is kept; then one item put right."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import Any, ClassVar

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.practice.entering import read, units_for
from offgrid_core.practice.problem import Problem, Step, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings, label_of, menu, show
from offgrid_core.quantities.text import number
from offgrid_core.worksheet import Sheet, Table

KEPT, BROKEN, UNKNOWN = "kept", "broken", "unknown"
ITEM, VALUE, NONE = "item", "value", "none"
#: At most so many rules are broken in a drawing.
_MOST = 3
_FIGURES = 4
_BATCHES = range(400)


@dataclass(frozen=True, kw_only=True)
class Drawing(Slot):
    """A drawing to be checked: the limits of ``sheet`` are the rules, its inputs the numbers on the drawing.

    Attributes
    ----------
    design
        The worksheet that the sound drawing is solved from.
    changes
        Rule = the item that is changed to break it, and the values it is changed to. Rules and items are named as
        steps are: by their name, with the row after a dot where there are rows.
    left_out
        Item that may be missing on the drawing = a value at which it would break every rule that needs it.
    can_change
        Input, or item, that whoever draws can choose = its lowest and highest value that can be bought or built.
        Weather, labels and limits that were asked for are not there.
    unseen
        Inputs that steer the sums and stand on no drawing.
    """

    design: Sheet = field(default_factory=Sheet)
    changes: Mapping[str, tuple[str, Sequence[float]]]
    left_out: Mapping[str, float] = field(default_factory=dict)
    can_change: Mapping[str, tuple[float, float]]
    unseen: tuple[str, ...] = ()

    tells_stories: ClassVar[bool] = True

    def __post_init__(self) -> None:
        object.__setattr__(self, "grids", {**self.grids, "batch": _BATCHES})
        for item, values in self.changes.values():
            low, high = self.ends(Step(item)) or self.ends(Step(item.partition(".")[0])) or (0, 0)
            if not all(low <= v <= high for v in values):
                raise OffgridError(f"{self.id}: {item} is changed to {values}, and {low} to {high} can be chosen")

    @property
    def kind(self) -> str:
        """``"drawing"``."""
        return "drawing"

    def ends(self, item: Step) -> tuple[float, float] | None:
        """Return the lowest and highest value that an item can be changed to; nothing where it cannot be."""
        return self.can_change.get(item.id, self.can_change.get(item.line))

    def drawn(self, problem: Problem) -> "Drawn":
        """Return the drawing of this variant, judged."""
        return _drawn(problem)

    def story(self, problem: Problem) -> frozenset[str]:
        """Return which rules are broken, in whichever row."""
        return frozenset(r.partition(".")[0] for r in self.drawn(problem).broken)

    def passes(self, problem: Problem) -> bool:
        """Screen: sound before it was changed, with a danger rule that can be judged and a rule that is kept."""
        drawn = self.drawn(problem)
        dangers = {r.id for r in drawn.rules if drawn.is_danger(r)} - drawn.unknown
        clean = {r.id for r in drawn.rules} - drawn.broken - drawn.unknown
        mends = drawn.undone is not None or not drawn.planted
        return not broken_in(self.sheet, drawn.sound) and bool(dangers) and bool(clean) and mends

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the numbered items, then the numbered rules."""
        drawn = self.drawn(problem)
        items = [
            [str(i), self._words(s), say("drawing_blank") if s.id == drawn.hidden else _shown(s, drawn, settings)]
            for i, s in enumerate(drawn.items, 1)
        ]
        rules = [[str(i), self._words(s)] for i, s in enumerate(drawn.rules, 1)]
        return [(say("drawing_items"), items), (say("drawing_rules"), rules)]

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return one choice a rule, the item to change, and its new value."""
        drawn = self.drawn(problem)
        found = []
        for i, rule in enumerate(drawn.rules, 1):
            kept = tuple((k, say(f"drawing_{k}")) for k in (KEPT, BROKEN, UNKNOWN))
            found.append(Field(rule.id, say("drawing_rule", number=i), options=kept))
        chosen = [(i, s) for i, s in enumerate(drawn.items, 1) if self.ends(s) and s.id != drawn.hidden]
        items = [(s.id, f"{i}. {self._words(s)}") for i, s in chosen]
        units = tuple(dict.fromkeys(u for _, s in chosen for u in units_for(s.line, settings)[0]))
        item = Field(ITEM, say("drawing_item"), options=(*items, (NONE, say("drawing_none"))))
        return (*found, item, Field(VALUE, say("drawing_value"), units, units[0]))

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge every rule and the repair; a broken danger rule that is passed leaves no score."""
        drawn = self.drawn(problem)
        fields = {f.id: f for f in self.fields(problem, settings)}
        said = {r.id: _chosen(fields[r.id], answers) for r in drawn.rules}
        marks = [_judged(fields[r.id], said[r.id], said[r.id] == drawn.answer(r)) for r in drawn.rules]
        marks += self._repair(drawn, fields, answers, settings)
        passed = any(drawn.is_danger(r) and r.id in drawn.broken and said[r.id] == KEPT for r in drawn.rules)
        score = 0.0 if passed else _score(drawn, said)
        return self._told(drawn, tuple(marks), score)

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return what holds for every rule, and the first change undone that mends what has to be mended."""
        drawn = self.drawn(problem)
        found = {r.id: Answer(drawn.answer(r)) for r in drawn.rules}
        if drawn.undone is None:
            return {**found, ITEM: Answer(NONE)}
        item = drawn.undone
        unit = menu(item.line)[0]
        text = number(float(unit.from_canonical(item.value_in(drawn.sound))), _FIGURES, settings)
        return {**found, ITEM: Answer(item.id), VALUE: Answer(text, unit.symbol)}

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return each rule with its margin, or that it cannot be told; then the change that mends what has to be."""
        drawn = self.drawn(problem)
        solved = self.sheet.solve(drawn.values)
        rules = (
            (
                self._words(r),
                "" if r.id in drawn.unknown else show(r.line, r.value_in(solved), settings),
                say(f"drawing_{drawn.answer(r)}"),
            )
            for r in drawn.rules
        )
        change, value = say("drawing_none"), ""
        if item := drawn.undone:
            change, value = self._words(item), show(item.line, item.value_in(drawn.sound), settings, _FIGURES)
        return *rules, (say("drawing_item"), change, value)

    def _words(self, step: Step) -> str:
        name = step.line
        known = self.sheet if name in self.sheet else self.design
        word = self.words.get(name) or (known[name].label if name in known else label_of(name))
        return word if step.row is None else f"{self.rows[step.row]}: {word}"

    def _repair(
        self, drawn: "Drawn", fields: Mapping[str, Field], answers: Mapping[str, Answer], settings: Settings
    ) -> list[FieldMark]:
        item, value = fields[ITEM], fields[VALUE]
        chosen = _chosen(item, answers)
        if chosen in ("", NONE):
            sound = chosen == NONE and not drawn.broken
            blank = FieldMark(VALUE, value.label, "right" if sound else "unanswered", method=sound, accuracy=sound)
            return [_judged(item, chosen, sound), blank]
        step = next(s for s in drawn.items if s.id == chosen)
        answer = answers.get(VALUE)
        own = tuple(u.symbol for u in menu(step.line))
        reading = read(answer, step.line, own, settings)
        if reading.value is None:
            verdict = "unanswered" if reading.is_empty else "reenter"
            return [
                FieldMark(ITEM, item.label, "unanswered"),
                FieldMark(VALUE, value.label, verdict, reason=reading.reason),  # type: ignore[arg-type]
            ]
        shown = f"{answer.text} {answer.unit}".strip() if answer else ""
        low, high = self.ends(step) or (reading.value, reading.value)
        if not low <= reading.value <= high:
            ends = (show(step.line, low, settings), show(step.line, high, settings))
            told = say("drawing_range", low=ends[0], high=ends[1])
            return [_judged(item, chosen, False), FieldMark(VALUE, value.label, "unexplained", shown, reason=told)]
        right = drawn.mended_by(step, reading.value)
        return [_judged(item, chosen, right), _judged(value, shown, right)]

    def _told(self, drawn: "Drawn", marks: tuple[FieldMark, ...], score: float) -> Marks:
        if all(m.verdict == "right" for m in marks):
            return Marks(marks, (say("drawing_right"),), score, True)
        again = next((m for m in marks if m.verdict == "reenter"), None)
        unlike = [m for m in marks if m.verdict == "unexplained"]
        # the rules that can hurt somebody are asked about first
        dangers = {r.id for r in drawn.rules if drawn.is_danger(r)}
        unlike.sort(key=lambda m: m.id not in dangers)
        if again:
            question = say("reenter", quantity=again.label, reason=again.reason)
        elif unlike and unlike[0].id in (ITEM, VALUE):
            said = say("drawing_ask_danger" if dangers & drawn.broken else "drawing_ask_repair")
            question = unlike[-1].reason or said
        elif unlike:
            question = say("drawing_ask_rule", rule=unlike[0].label)
        elif all(m.verdict == "unanswered" for m in marks):
            return Marks(marks, (say("nothing", step=marks[0].label),), score, False)
        else:
            question = say("rest", steps="; ".join(m.label for m in marks if m.verdict == "unanswered"))
        return Marks(marks, (question,), score, False, question)


@dataclass(frozen=True, eq=False)
class Drawn:
    """A drawing, judged.

    Attributes
    ----------
    sheet
        The rules.
    sound, values
        The numbers before and after something was changed, by name.
    planted
        Items that were changed, in order.
    broken, unknown
        Rules that are broken, and rules that cannot be told as a number is missing.
    hidden
        The item that is missing; empty for none.
    unseen
        Inputs that stand on no drawing.
    """

    sheet: Sheet
    sound: Mapping[str, Any]
    values: Mapping[str, Any]
    planted: tuple[str, ...]
    broken: frozenset[str]
    hidden: str = ""
    unknown: frozenset[str] = frozenset()
    unseen: tuple[str, ...] = ()

    @cached_property
    def items(self) -> tuple[Step, ...]:
        """The numbers on the drawing."""
        numbers = {n: v for n, v in self.values.items() if not isinstance(v, Table) and n not in self.unseen}
        return tuple(s for n, v in numbers.items() for s in _steps(n, v))

    @cached_property
    def rules(self) -> tuple[Step, ...]:
        """The rules."""
        solved = self.sheet.solve(self.sound)
        return tuple(s for x in self.sheet.values() if x.severity for s in _steps(x.name, solved[x.name]))

    @cached_property
    def undone(self) -> Step | None:
        """The first item that mends what has to be mended once it is as it was."""
        changed = (s for i in self.planted for s in self.items if s.id == i)
        return next((s for s in changed if self.mended_by(s, s.value_in(self.sound))), None)

    def is_danger(self, rule: Step) -> bool:
        """Whether somebody is hurt where the rule is broken."""
        return self.sheet[rule.line].severity == "danger"

    def mended_by(self, item: Step, value: float) -> bool:
        """Whether a changed item mends a rule and breaks none; where somebody can be hurt, that has to be mended."""
        try:
            still = broken_in(self.sheet, with_item(self.values, item, value))
        except OffgridError:
            return False
        dangers = {r.id for r in self.rules if self.is_danger(r)} & self.broken
        return still < self.broken and not (dangers and dangers <= still)

    def answer(self, rule: Step) -> str:
        """Return what is right to say of a rule."""
        return UNKNOWN if rule.id in self.unknown else BROKEN if rule.id in self.broken else KEPT


def broken_in(sheet: Sheet, values: Mapping[str, Any]) -> frozenset[str]:
    """Return the rules of a worksheet that a drawing breaks; one whose margin is no number is broken."""
    solved = sheet.solve(values)
    rules = [s for x in sheet.values() if x.severity for s in _steps(x.name, solved[x.name])]
    return frozenset(r.id for r in rules if not r.value_in(solved) >= 0)


def with_item(values: Mapping[str, Any], item: Step, value: float) -> dict[str, Any]:
    """Return the numbers of a drawing with one item changed."""
    if item.row is None:
        return {**values, item.line: value}
    row = np.array(values[item.line], float)
    row[item.row] = value
    return {**values, item.line: row}


@lru_cache(maxsize=64)
def _drawn(problem: Problem) -> Drawn:
    slot = problem.slot
    assert isinstance(slot, Drawing)
    solved = {**problem.given, **slot.design.solve(problem.given)}
    sound = {n: _rounded(solved[n]) for n in slot.sheet.inputs}
    items = {s.id: s for n, v in sound.items() if not isinstance(v, Table) for s in _steps(n, v)}
    seed = f"{problem.seed}|{problem.given.get('batch', 0)}"
    values: Mapping[str, Any] = sound
    planted: tuple[str, ...] = ()
    broken = frozenset[str]()
    wanted = picked(f"{seed}|count", _MOST + 1)
    for rule in _mixed(slot.changes, seed):
        item, others = slot.changes[rule]
        for other in _mixed([str(x) for x in others], f"{seed}|{rule}"):
            tried = with_item(values, items[item], float(other))
            if len(planted) < wanted and item not in planted and broken_in(slot.sheet, tried) == broken | {rule}:
                values, planted, broken = tried, (*planted, item), broken | {rule}
                break
    drawn = Drawn(slot.sheet, sound, values, planted, broken, unseen=slot.unseen)
    return _with_gap(drawn, slot.left_out, items, seed)


def _with_gap(drawn: Drawn, left_out: Mapping[str, float], items: Mapping[str, Step], seed: str) -> Drawn:
    """Leave an item out in two drawings of three, if a rule hangs on it and none of those is broken."""
    if not left_out or not picked(f"{seed}|gap", 3):
        return drawn
    hidden = _mixed(left_out, f"{seed}|left out")[0]
    turned = broken_in(drawn.sheet, with_item(drawn.values, items[hidden], left_out[hidden]))
    unknown = turned - drawn.broken
    if not unknown or hidden in drawn.planted or _needing(drawn, items[hidden]) != unknown:
        return drawn
    return replace(drawn, hidden=hidden, unknown=unknown)


def _needing(drawn: Drawn, item: Step) -> frozenset[str]:
    """Return the rules that need an item; one with rows, those of its own row and those without."""
    return frozenset(
        r.id
        for r in drawn.rules
        if item.line in drawn.sheet.upto(r.line).inputs and (None in (r.row, item.row) or r.row == item.row)
    )


def _score(drawn: Drawn, said: Mapping[str, str]) -> float:
    """Return the mean of the shares right of the broken rules and of the others; of the others, if none is broken."""
    shares = []
    for rules in (
        [r for r in drawn.rules if r.id in drawn.broken],
        [r for r in drawn.rules if r.id not in drawn.broken],
    ):
        if rules:
            shares.append(sum(said[r.id] == drawn.answer(r) for r in rules) / len(rules))
    return round(sum(shares) / len(shares), 10)


def _steps(name: str, value: Any) -> list[Step]:
    return [Step(name)] if np.ndim(value) == 0 else [Step(name, i) for i in range(len(value))]


def _rounded(value: Any) -> Any:
    """Return a number as it stands on the drawing, with four figures."""
    if isinstance(value, Table):
        return value
    found = np.array([float(f"{x:.{_FIGURES}g}") for x in np.atleast_1d(np.asarray(value, float))])
    return found if np.ndim(value) else float(found[0])


def _shown(item: Step, drawn: Drawn, settings: Settings) -> str:
    return show(item.line, item.value_in(drawn.values), settings, _FIGURES)


def _mixed(keys: Any, seed: str) -> list[str]:
    return sorted(keys, key=lambda k: picked(f"{seed}|{k}", 2**32))


def _chosen(field: Field, answers: Mapping[str, Answer]) -> str:
    text = answers.get(field.id, Answer()).text
    return text if isinstance(text, str) and text in dict(field.options) else ""


def _judged(field: Field, answer: str, right: bool) -> FieldMark:
    if not answer:
        return FieldMark(field.id, field.label, "unanswered")
    shown = dict(field.options)[answer] if field.options else answer
    return FieldMark(field.id, field.label, "right" if right else "unexplained", shown, method=right, accuracy=right)
