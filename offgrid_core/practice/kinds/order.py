"""Put in order: step cards get places; any order that keeps every required pair is right."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from offgrid_core.errors import OffgridError
from offgrid_core.practice.entering import Reading, read
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import listed, say
from offgrid_core.quantities import Settings
from offgrid_core.worksheet import Sheet

#: Cards that go in the order, and pairs of them whose order is required.
_CARDS, _LEAST_PAIRS = range(5, 9), 6
#: What fits beside a box on the card.
_MOST_CHARACTERS = 50

Pair = tuple[str, str]


def cards_of(sheet: Sheet) -> tuple[dict[str, str], tuple[Pair, ...]]:
    """Return the lines of a worksheet as cards, and every pair of which one is worked from the other.

    Parameters
    ----------
    sheet
        Of five to eight lines.

    Returns
    -------
    tuple
        Name and label of each line, and the pairs (earlier, later), also of lines with others between them.
    """
    return {n: x.label for n, x in sheet.items()}, tuple((n, later) for n in sheet for later in sheet.downstream(n))


@dataclass(frozen=True, kw_only=True)
class Order(Slot):
    """Cards to be put in order. It draws no numbers: another variant worked would give this one away.

    Attributes
    ----------
    cards
        Id = text of five to eight cards, declared in a right order.
    before
        Pairs of ids: the first has to stand before the second. At least six.
    extra
        Id = text of cards that belong nowhere and are to be left out.
    """

    cards: Mapping[str, str]
    before: tuple[Pair, ...]
    extra: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        every, place = self._every, {n: i for i, n in enumerate(self.cards)}
        if len(self.cards) not in _CARDS or len(every) != len(self.cards) + len(self.extra):
            raise OffgridError(f"{self.id}: 5 to 8 cards, each id once, not {len(self.cards)}")
        if len(set(self.before)) < _LEAST_PAIRS or len(set(self.before)) != len(self.before):
            raise OffgridError(f"{self.id}: at least {_LEAST_PAIRS} different required pairs, not {len(self.before)}")
        for one, other in self.before:
            if one not in place or other not in place or place[one] >= place[other]:
                raise OffgridError(f"{self.id}: the cards are declared with {one} not before {other}")
        if long := [text for text in every.values() if len(text) > _MOST_CHARACTERS]:
            raise OffgridError(f"{self.id}: a card has at most {_MOST_CHARACTERS} characters, not {long[0]!r}")
        if self.grids:
            raise OffgridError(f"{self.id}: an order has no numbers to draw")

    @property
    def kind(self) -> str:
        """``"order"``."""
        return "order"

    @property
    def _every(self) -> dict[str, str]:
        return {**self.cards, **self.extra}

    def on_screen(self, problem: Problem) -> list[str]:
        """Return the ids in this variant's order, which is never a right one."""
        mixed = sorted(self._every, key=lambda n: picked(f"{problem.seed}|card {n}", 2**32))
        places = {n: i + 1 for i, n in enumerate(mixed)}
        # a right order turned round breaks every pair
        return mixed if self.broken(places) else mixed[::-1]

    def broken(self, places: Mapping[str, int]) -> list[Pair]:
        """Return the required pairs that places do not keep; a card without one, or left out, keeps none of its own."""
        return [(a, b) for a, b in self.before if not 0 < places.get(a, 0) < places.get(b, 0)]

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return how to enter an order, after the slot's own tables."""
        how = say("order_leave_out" if self.extra else "order_all", most=len(self._every))
        return [*problem.tables(settings), ("", [[say("order_place"), how]])]

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:  # noqa: ARG002
        """Return a box for the place of each card."""
        unit = say("order_place")
        return tuple(Field(n, self._every[n], (unit,), unit) for n in self.on_screen(problem))

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the places: one less required pair for each that is broken, and for each card too many."""
        readings = {n: place_in(answers.get(n), 0, len(self._every), settings) for n in self.on_screen(problem)}
        places = {n: int(r.value) for n, r in readings.items() if r.value is not None}
        broken, used = self.broken(places), [n for n in self.extra if places.get(n, 0) > 0]
        marks = tuple(self._mark(n, r, broken, used) for n, r in readings.items())
        if all(r.is_empty for r in readings.values()):
            return Marks(marks, (say("order_first"),), 0.0, False)
        score = max(0.0, 1 - (len(broken) + len(used)) / len(self.before))
        if all(m.verdict == "right" for m in marks):
            return Marks(marks, (say("order_right"),), 1.0, True)
        return self._told(marks, places, broken, used, round(score, 10))

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:  # noqa: ARG002
        """Return the places of the order in which the cards are declared, and 0 for those to be left out."""
        places = {n: i + 1 for i, n in enumerate(self.cards)}
        return {n: Answer(str(places.get(n, 0)), say("order_place")) for n in self.on_screen(problem)}

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:  # noqa: ARG002
        """Return the cards in a right order, then those that are left out."""
        rows = [(str(i), "", text) for i, text in enumerate(self.cards.values(), 1)]
        return (*rows, *(("0", "", text) for text in self.extra.values()))

    def _mark(self, name: str, reading: Reading, broken: list[Pair], used: list[str]) -> FieldMark:
        label = self._every[name]
        if reading.value is None:
            verdict = "unanswered" if reading.is_empty else "reenter"
            return FieldMark(name, label, verdict, reason=reading.reason)  # type: ignore[arg-type]
        off = name in used or any(name in pair for pair in broken)
        shown = f"{reading.value:.0f}"
        return FieldMark(name, label, "unexplained" if off else "right", shown, method=not off, accuracy=not off)

    def _told(
        self, marks: tuple[FieldMark, ...], places: Mapping[str, int], broken: list[Pair], used: list[str], score: float
    ) -> Marks:
        right = [m.label for m in marks if m.verdict == "right"]
        said = [say("order_stands", cards=listed(right))] if right else []
        said += [say("reenter", quantity=m.label, reason=m.reason) for m in marks if m.verdict == "reenter"]
        # only pairs whose two cards have been placed are asked about: the others are not answered yet
        wrong = [(a, b) for a, b in broken if a in places and b in places]
        blank = [m.label for m in marks if m.verdict == "unanswered"]
        question = ""
        if wrong:
            left_out = next((n for pair in wrong for n in pair if places[n] == 0), "")
            which = left_out or wrong[0][1]
            question = say("order_left_out" if left_out else "order_needs", card=self.cards[which])
        elif used:
            question = say("order_extra")
        elif blank:
            said.append(say("rest", steps=listed(blank)))
        return Marks(marks, (*said, question) if question else tuple(said), score, False, question)


def place_in(answer: Answer | None, least: int, most: int, settings: Settings) -> Reading:
    """Read a place, a whole number from ``least`` to ``most``. Never raises, whatever was typed.

    The unit beside the box is not read: it is no unit of a number.
    """
    reading = read(Answer(answer.text) if answer else None, "place_count", ("",), settings)
    if reading.value is not None and (reading.value != int(reading.value) or not least <= reading.value <= most):
        return Reading(reason=say("order_range", least=least, most=most))
    return reading
