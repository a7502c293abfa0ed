"""A problem: a slot with its numbers drawn. Everything it shows or expects is solved from its worksheet."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, partial
from hashlib import sha256
from typing import Any

import numpy as np

from offgrid_core.practice.slot import Slot
from offgrid_core.quantities import Settings, label_of, menu, show
from offgrid_core.quantities.text import number
from offgrid_core.worksheet import Line, Solved, Table, value_at
from offgrid_core.worksheet.grammar import axis_of

#: Battery temperatures, °C, that a capacity curve is listed for in a problem.
_SHED_SPAN = (-20, 21.5)


@dataclass(frozen=True)
class Step:
    """One line asked for, or one row of it."""

    line: str
    row: int | None = None

    @property
    def id(self) -> str:
        """Its name in the answers."""
        return self.line if self.row is None else f"{self.line}.{self.row + 1}"

    def value_in(self, solved: Mapping[str, Any]) -> float:
        """Return its value in a solved worksheet; one that is the same in all rows may be a lone one there."""
        return float(value_at(solved, self.line, self.row or 0))


@dataclass(frozen=True, eq=False)
class Problem:
    """A variant.

    Attributes
    ----------
    slot
        What it is a variant of.
    given
        Every input of the worksheet, fixed and drawn.
    seed
        What the choices other than numbers (order of options, planted mistake) hang on.
    attempt
        0 for the first variant, then counting.
    """

    slot: Slot
    given: Mapping[str, Any]
    seed: str
    attempt: int = 0

    def __str__(self) -> str:
        return f"{self.slot.id}, variant {self.attempt + 1}"

    @cached_property
    def key(self) -> Solved:
        """The solved worksheet."""
        return self.slot.sheet.solve(self.given)

    def pick(self, what: str, count: int) -> int:
        """Choose one of ``count`` for this variant, the same on every machine."""
        return picked(f"{self.seed}|{what}", count)

    def shown(self, name: str, value: Any, settings: Settings, figures: int = 4) -> str:
        """Return a value with its unit."""
        if name in self.slot.marks:
            return number(float(value), figures, settings) + self.slot.marks[name]
        return show(name, value, settings, figures)

    def word(self, name: str) -> str:
        """Return the words for an input or a line."""
        if name in self.slot.words:
            return self.slot.words[name]
        return self.slot.sheet[name].label if name in self.slot.sheet else label_of(name)

    def label(self, step: Step) -> str:
        """Return the words for a step, with its row."""
        if step.row is None:
            return self.word(step.line)
        return f"{self.slot.rows[step.row]}: {self.word(step.line)}"

    def text(self, template: str, settings: Settings) -> str:
        """Put this variant's inputs, with units, into a text of the slot; a text cannot tell what is to be worked."""
        values = {n: _Shown(self, n, v, settings) for n, v in self.given.items()}
        return template.format_map(values)

    def tables(self, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return what the statement shows as tables: caption and rows, the first being the head."""
        kept = self.given.get("capacity_kept")
        found = [(kept.label, _kept_table(kept, settings))] if isinstance(kept, Table) else []
        return found + [each.shown(self.word, settings) for each in self.slot.listed] + self._rows_table(settings)

    def worked_step(self, step: Step, settings: Settings, by: Line | None = None) -> tuple[str, str, str]:
        """Return one step worked: its words, the sum with this variant's numbers, its value.

        ``by`` is the line that tells the sum where it is not the worksheet's own: one that was turned round.
        """
        shown, reckoned = (partial(self.shown, settings=s) for s in (settings, settings.in_sums))
        worked = self.key.worked(by or self.slot.sheet[step.line], shown, step.row, reckoned)
        return self.label(step), worked, shown(step.line, step.value_in(self.key))

    def steps_of(self, name: str) -> tuple[Step, ...]:
        """Return a line as steps: one for each row that has a name; of rows without names only the sums are told."""
        if axis_of(name) != "by_row" or np.size(self.key[name]) == 1:
            return (Step(name),)
        return tuple(Step(name, row) for row in range(len(self.slot.rows)))

    def worked_lines(self, names: Iterable[str], settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return lines worked, row by row."""
        return tuple(self.worked_step(step, settings) for n in names for step in self.steps_of(n))

    def _rows_table(self, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        count = len(self.slot.rows)
        columns = {
            n: self.given[n]
            for n in self.slot.sheet.inputs
            if axis_of(n) and np.shape(self.given.get(n, 0)) == (count,)
        }
        telling = {n: v for n, v in columns.items() if len(set(np.asarray(v).tolist())) > 1 or n == "power_by_row_w"}
        if not self.slot.rows or not telling:
            return []
        head = ["", *(self.word(n) for n in telling)]
        body = [
            [name, *(self.shown(n, v[i], settings) for n, v in telling.items())]
            for i, name in enumerate(self.slot.rows)
        ]
        return [("", [head, *body])]


def picked(seed: str, count: int) -> int:
    """Return a number below ``count`` from the SHA-256 digest of a text: no random generator, any machine."""
    return int.from_bytes(sha256(seed.encode()).digest()[:8], "big") % count


class _Shown:
    """A value that writes itself with its unit into a text: ``{hours_h}``, or ``{hours_h:min}`` for minutes."""

    def __init__(self, problem: Problem, name: str, value: Any, settings: Settings) -> None:
        self._how = (problem, name, value, settings)

    def __format__(self, unit: str) -> str:
        problem, name, value, settings = self._how
        if not unit:
            return problem.shown(name, value, settings)
        wanted = next(u for u in menu(name) if u.symbol == unit)
        return f"{number(float(wanted.from_canonical(value)), 4, settings)} {unit}"


def _kept_table(kept: Table, settings: Settings) -> list[list[str]]:
    """Return the part of a capacity curve that sheds are in, as two rows of numbers with their unit in front."""
    low, high = _SHED_SPAN
    points = [(x, y) for x, y in zip(kept.x, kept.y, strict=True) if low <= x <= high]
    rows = []
    for words, name, values in (("battery at", "battery_temp_c", 0), ("keeps", "kept_frac", 1)):
        unit = settings.unit_for(name)
        numbers = [number(float(unit.from_canonical(p[values])), 3, settings) for p in points]
        rows.append([f"{words}, {unit.symbol}", *numbers])
    return rows
