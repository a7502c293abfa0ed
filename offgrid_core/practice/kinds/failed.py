"""What failed? A log with one fault in it: the fault, two stretches of rows that show it, the next test, the repair."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from offgrid_core.errors import OffgridError
from offgrid_core.practice.failing import DAYS, LEAST_ROWS, ROWS, Failing, failing
from offgrid_core.practice.problem import Problem, picked
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.text import number
from offgrid_core.sizing.log import READ
from offgrid_core.year.faults import FAULTS

FAULT, TEST, REPAIR = "fault", "test", "repair"
#: Rows and column of each of the two pieces of evidence.
EVIDENCE = (("first_rows", "first_column"), ("second_rows", "second_column"))
#: How many faults, tests and repairs there are to choose from.
_FAULTS, _TESTS, _REPAIRS = 8, 6, 5
#: What each part counts; each piece of evidence counts half of its part.
_SCORES = {FAULT: 0.4, "evidence": 0.3, TEST: 0.2, REPAIR: 0.1}
#: Rows in common ÷ rows in either, from which a stretch of rows counts as the one that shows the fault.
_OVERLAP = 0.5
_ROWS = re.compile(r"\s*([0-9]{1,2})(?:\s*[-–−]\s*([0-9]{1,2}))?\s*")
_DRAWS = range(400)
#: What of the sound system stands above the log, where it has it; the last, where there is a generator.
_FACTS = (
    "bank_voltage_v",
    "array_w",
    "array_strings_count",
    "energy_day_wh",
    "absorb_cell_v",
    "cells_count",
    "depth_frac",
    "inverter_idle_w",
    "generator_start_frac",
)


@dataclass(frozen=True, kw_only=True)
class Failed(Slot):
    """A log of three days in which one fault is to be found.

    Attributes
    ----------
    plan
        Text of the plan of the system; its design is made once.
    faults
        Keys of the faults drawn from; those that the system cannot have, or that do not show, are never drawn.
    days
        Days of the year, 1 to 365, at which the log may begin.
    """

    plan: str
    faults: Sequence[str] = tuple(FAULTS)
    days: Sequence[int] = (10, 60, 110, 160, 210, 260, 310, 345)

    def __post_init__(self) -> None:
        object.__setattr__(
            self, "grids", {**self.grids, "fault": tuple(self.faults), "day": tuple(self.days), "case": _DRAWS}
        )

    @property
    def kind(self) -> str:
        """``"failed"``."""
        return "failed"

    def log(self, problem: Problem) -> Failing:
        """Return the log of this variant, with the fault that is in it.

        Raises
        ------
        OffgridError
            If no draw of the slot showed its fault and the slot has no curated one.
        """
        drawn = problem.given
        if "fault" not in drawn:
            raise OffgridError(f"{self.id}: none of its faults shows in its logs; other days or faults are wanted")
        return failing(self.plan, drawn["day"], drawn["fault"], drawn["case"])

    def passes(self, problem: Problem) -> bool:
        """Screen: the fault alone explains what is on the page, at least two stretches of rows show it."""
        return self.log(problem).is_plain()

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the sound system in a few numbers, then the log with its rows numbered."""
        stretch = self.log(problem).log.stretch
        told = _FACTS if stretch.has_generator else _FACTS[:-1]
        given = stretch.hours.given
        facts = [[say(f"failed_fact.{n}"), show(n, given[n], settings)] for n in told if given.get(n)]
        return [(say("failed_sound"), facts), (say("failed_log", days=DAYS), self._log_rows(problem, settings))]

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:  # noqa: ARG002
        """Return the fault, twice the rows and the column that show it, the next test and the repair."""
        log, key = self.log(problem), problem.seed
        near = (log.case.fault.key, *(k for k in log.ranked if k != log.case.fault.key))
        columns = [(n, _label(n)) for n in log.log.stretch.columns]
        found = [_choice(FAULT, [(k, FAULTS[k].label) for k in _mixed(near[:_FAULTS], f"{key}|{FAULT}")])]
        for rows, column in EVIDENCE:
            found += [Field(rows, say(f"failed_{rows}")), _choice(column, columns)]
        tests = [(k, FAULTS[k].next_test) for k in _mixed(near[:_TESTS], f"{key}|{TEST}")]
        repairs = [(k, FAULTS[k].repair) for k in _mixed(near[:_REPAIRS], f"{key}|{REPAIR}")]
        return (*found, _choice(TEST, tests), _choice(REPAIR, repairs))

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the fault, the evidence, the test (by the fault that was named) and the repair."""
        log = self.log(problem)
        fields = {f.id: f for f in self.fields(problem, settings)}
        chosen = {f.id: _chosen(f, answers) for f in fields.values() if f.options}
        fault, true = chosen[FAULT], log.case.fault.key
        right: dict[str, bool] = {
            FAULT: fault == true,
            TEST: bool(fault) and _tells(chosen[TEST], fault, log.rival(fault)),
            REPAIR: chosen[REPAIR] == true,
        }
        marks = {k: _judged(fields[k], chosen[k], ok) for k, ok in right.items()}
        if chosen[TEST] and not fault:
            marks[TEST] = FieldMark(TEST, fields[TEST].label, "moot", FAULTS[chosen[TEST]].next_test)
        marks |= self._evidence(log, fields, chosen, answers)
        ordered = tuple(marks[i] for i in fields)
        score = sum(_SCORES[k] for k, ok in right.items() if ok)
        score += sum(_SCORES["evidence"] / len(EVIDENCE) for rows, _ in EVIDENCE if marks[rows].verdict == "right")
        return self._told(ordered, round(score, 10))

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:  # noqa: ARG002
        """Return the fault, the two longest stretches that show it, its own test and its repair."""
        log = self.log(problem)
        true = Answer(log.case.fault.key)
        found = {FAULT: true, TEST: true, REPAIR: true}
        for (rows, column), (name, window) in zip(EVIDENCE, _longest(log), strict=True):
            found |= {rows: Answer(f"{window[0]}-{window[-1]}"), column: Answer(name)}
        return found

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:  # noqa: ARG002
        """Return the fault and what it does, where it shows, its test and its repair."""
        log = self.log(problem)
        fault = log.case.fault
        shows = tuple((_label(n), "", f"{w[0]}–{w[-1]}") for n, w in _longest(log))
        return (
            (say("failed_fault"), fault.seen, fault.label),
            *shows,
            (say("failed_test"), "", fault.next_test),
            (say("failed_repair"), "", fault.repair),
        )

    def _log_rows(self, problem: Problem, settings: Settings) -> list[list[str]]:
        log = self.log(problem)
        units = {n: settings.unit_for(n) for n in log.log.stretch.columns}
        found = [["", say("failed_when"), *(f"{_label(n)}, {u.symbol}" for n, u in units.items())]]
        for row, (hour, read) in enumerate(log.page(), 1):
            cells = [number(float(u.from_canonical(read[n])), 4, settings) for n, u in units.items()]
            when = say("failed_hour", day=hour // 24 + 1, hour=hour % 24).replace(" ", "\u00a0")  # a row is one line
            found.append([str(row), when, *cells])
        return found

    def _evidence(
        self, log: Failing, fields: Mapping[str, Field], chosen: Mapping[str, str], answers: Mapping[str, Answer]
    ) -> dict[str, FieldMark]:
        """Judge both pieces of evidence; the same stretch twice is one piece."""
        marks: dict[str, FieldMark] = {}
        pointed: set[tuple[str, range]] = set()
        for rows, column in EVIDENCE:
            text = _text(answers, rows)
            window, name = _window(text), chosen[column]
            if window is None and text:
                reason = say("failed_reenter", most=ROWS)
                marks[rows] = FieldMark(rows, fields[rows].label, "reenter", reason=reason)
                marks[column] = FieldMark(column, fields[column].label, "unanswered")
                continue
            met = {(name, w) for w in log.windows.get(name, ()) if window and _overlap(window, w) >= _OVERLAP}
            right = bool(met - pointed)
            pointed |= met
            both = bool(window) and bool(name)
            marks[rows] = _judged(fields[rows], text if both else "", right)
            marks[column] = _judged(fields[column], name if both else "", right)
        return marks

    def _told(self, marks: tuple[FieldMark, ...], score: float) -> Marks:
        of = {m.id: m for m in marks}
        if all(m.verdict == "right" for m in marks):
            return Marks(marks, (say("failed_right"),), score, True)
        again = [m for m in marks if m.verdict == "reenter"]
        if again:
            question = say("reenter", quantity=again[0].label, reason=again[0].reason)
            return Marks(marks, (question,), score, False, question)
        if all(m.verdict == "unanswered" for m in marks):
            return Marks(marks, (say("nothing", step=of[FAULT].label),), score, False)
        question = self._question(of)
        standing = [m.label for m in marks if m.verdict == "right"]
        return Marks(marks, (*_credit(standing), question), score, False, question)

    def _question(self, of: Mapping[str, FieldMark]) -> str:
        """Return the question about the first thing that does not stand; then what is not answered yet."""
        if of[FAULT].verdict == "unexplained":
            return say("failed_ask_fault")
        for rows, column in EVIDENCE:
            if of[rows].verdict == "unexplained":
                return say("failed_ask_rows", rows=of[rows].shown, column=of[column].shown)
        for asked in (TEST, REPAIR):
            if of[asked].verdict == "unexplained":
                return say(f"failed_ask_{asked}")
        return say("rest", steps="; ".join(m.label for m in of.values() if m.verdict in ("unanswered", "moot")))


def _label(column: str) -> str:
    """Return the words for a column of the log."""
    return READ[column].label if column in READ else say(f"failed_switch.{column}")


def _choice(field_id: str, options: Sequence[tuple[str, str]]) -> Field:
    return Field(field_id, say(f"failed_{field_id}"), options=tuple(options))


def _mixed(keys: Sequence[str], seed: str) -> list[str]:
    return sorted(keys, key=lambda k: picked(f"{seed}|{k}", 2**32))


def _text(answers: Mapping[str, Answer], field_id: str) -> str:
    text = answers.get(field_id, Answer()).text
    return text if isinstance(text, str) and not text[:65].isspace() else ""


def _chosen(field: Field, answers: Mapping[str, Answer]) -> str:
    """Return the key that was chosen; empty for none, and for what is no option."""
    text = _text(answers, field.id)
    return text if text in dict(field.options) else ""


def _judged(field: Field, answer: str, right: bool) -> FieldMark:
    if not answer:
        return FieldMark(field.id, field.label, "unanswered")
    shown = dict(field.options)[answer] if field.options else answer
    return FieldMark(field.id, field.label, "right" if right else "unexplained", shown, method=right, accuracy=right)


def _tells(test: str, one: str, other: str) -> bool:
    """Whether a test tells two faults apart.

    A test is that of one fault: it comes out one way with that fault and the other way with every other. Between two
    faults it informs just where it comes out differently.
    """
    return (test == one) != (test == other)


def _window(text: str) -> range | None:
    """Return the rows that a text such as 4-9 names; nothing where it names none on the page."""
    found = _ROWS.fullmatch(text) if len(text) <= 20 else None
    if not found:
        return None
    first, last = int(found[1]), int(found[2] or found[1])
    return range(first, last + 1) if 1 <= first <= last <= ROWS else None


def _overlap(one: range, other: range) -> float:
    return len(set(one) & set(other)) / len(set(one) | set(other))


def _longest(log: Failing) -> list[tuple[str, range]]:
    """Return the two longest stretches that show the fault, in the order of the log's columns."""
    every = [(n, w) for n, runs in log.windows.items() for w in runs if len(w) >= LEAST_ROWS]
    return sorted(every, key=lambda found: -len(found[1]))[: len(EVIDENCE)]


def _credit(standing: list[str]) -> list[str]:
    return [say("credit", steps="; ".join(standing))] if standing else []
