"""A form of a whole design, judged: the rules as built, its numbers by one another, and what is asked about them."""

from collections.abc import Mapping, Sequence
from typing import Any

from offgrid_core.errors import OffgridError
from offgrid_core.practice.building import Brief, Built, Entry, built
from offgrid_core.practice.building_design import AS_WIRED, habit_in, mistaken, source
from offgrid_core.practice.building_rules import (
    AT_LEAST,
    AT_MOST,
    CHOSEN,
    ECONOMY,
    ENERGY,
    EQUIPMENT,
    FORM,
    PART,
    SAFETY,
    WORKED,
    Rule,
)
from offgrid_core.practice.building_sheet import entry_word
from offgrid_core.practice.diagnosis import lines_of, value_of
from offgrid_core.practice.entering import read, units_for
from offgrid_core.practice.feedback import about
from offgrid_core.practice.kinds.work import Work
from offgrid_core.practice.mistakes import Mistake, mistake
from offgrid_core.practice.problem import Problem
from offgrid_core.practice.slot import Answer, FieldMark, Marks, Slot
from offgrid_core.practice.tolerance import accepts, matches
from offgrid_core.practice.words import listed, say
from offgrid_core.quantities import QUANTITIES, Settings, show
from offgrid_core.worksheet import SEVERITIES, Sheet

#: What each group of rules counts; within it every rule counts alike.
SHARES = {SAFETY: 0.35, ENERGY: 0.3, EQUIPMENT: 0.25, ECONOMY: 0.1}
#: Largest count that a form may have.
_COUNT_MOST = 99
_VOLTS = (12.0, 24.0, 48.0)
#: How near a cable or fuse comes to a listed one to be it: sizes are read with two or three figures.
_LISTED = 0.005


class Marking:
    """One form, judged; whatever is blank stands as in a sound design, and what hangs on it is not judged."""

    def __init__(self, slot: Slot, brief: Brief, answers: Mapping[str, Answer], settings: Settings) -> None:
        self.slot, self.brief, self.settings = slot, brief, settings
        self.own: dict[str, Any] = {}
        self.shown: dict[str, str] = {}
        self.refused: dict[str, str] = {}
        for entry in brief.entries:
            self._read(entry, answers.get(entry.id, Answer()))
        self.full = {**brief.sound.entries, **self.own}
        self.built = self._as_built()
        self.figures = {e.name: self._figure(e) for e in brief.entries if e.sort == WORKED}
        self.rules = {id_: self._kept(id_, rule) for id_, rule in brief.rules.items()}

    def marks(self) -> Marks:
        """Return the marks and what is said of them."""
        entries = self.brief.entries
        marks = tuple(self._mark(e) for e in entries)
        if all(m.verdict == "right" for m in marks):  # an entry is right only if every rule that points at it is kept
            return Marks(marks, self._all_right(), 1.0, True)
        if all(m.verdict == "unanswered" for m in marks):
            return Marks(marks, (say("nothing", step=marks[0].label),), 0.0, False)
        said = self._credit(marks)
        question, told = self._asked(marks)
        return Marks(marks, (*said, *told), self._score(), False, question)

    @property
    def is_whole(self) -> bool:
        """Whether every part and every number that is chosen stands on the form."""
        return all(e.id in self.own for e in self.brief.entries if e.sort != WORKED)

    def _read(self, entry: Entry, answer: Answer) -> None:
        """Take an entry as typed: a value, or the reason why it is to be entered again."""
        if entry.sort == PART:
            parts = {p.key: p.label for p in self.brief.offer(entry.name)}
            if isinstance(answer.text, str) and answer.text in parts:
                self.own[entry.id], self.shown[entry.id] = answer.text, parts[answer.text]
            return
        reading = read(answer, entry.name, units_for(entry.name, self.settings)[0], self.settings)
        value = reading.value
        if value is not None:
            value, reason = self._allowed(entry, value)
        else:
            reason = reading.reason
        if value is not None:
            self.own[entry.id], self.shown[entry.id] = value, show(entry.name, value, self.settings)
        elif reason:
            self.refused[entry.id] = reason

    def _allowed(self, entry: Entry, value: float) -> tuple[float | None, str]:
        """Return what an entry is built with; nothing, and why, where it cannot be built."""
        if entry.name.endswith("_count"):
            whole = entry.sort == WORKED or (value == int(value) and 1 <= value <= _COUNT_MOST)
            return (value, "") if whole else (None, say("build_whole", most=_COUNT_MOST))
        code = self.brief.code
        sizes: Sequence[float] = {
            "bank_voltage_v": _VOLTS,
            "fuse_by_row_a": code.fuse_size.y,
            "cable_by_row_mm2": tuple(code.size_labels),
        }.get(entry.name, ())
        listed_size = next((s for s in sizes if abs(value - s) <= _LISTED * s), None)
        if sizes and listed_size is None:
            return None, say(f"build_listed.{entry.name}")
        known = QUANTITIES.get(entry.name)
        if known and entry.sort == CHOSEN and not known.low <= value <= known.high:
            low, high = (show(entry.name, end, self.settings) for end in (known.low, known.high))
            return None, say("build_span", low=low, high=high)
        return (value if listed_size is None else listed_size), ""

    def _as_built(self) -> Built | None:
        try:
            return built(self.brief, self.full)
        except OffgridError:  # beyond the tables of the code setting: nothing can be said of it
            return None

    def _has(self, needs: Sequence[str], place: int = 0) -> bool:
        """Whether every part and chosen number of some parts of the form stands there."""
        return all(
            e.id in self.own
            for e in self.brief.entries
            if e.sort != WORKED
            and (e.section in needs or (e.section == "wiring" and "circuits" in needs))
            and (e.section != "wiring" or "circuits" in needs or e.place == place)
        )

    def _kept(self, id_: str, rule: Rule) -> bool | None:
        """Whether a rule is kept; nothing where it cannot be judged yet."""
        if rule.name in self.figures:
            verdict = self.figures[rule.name].verdict
            return None if verdict in ("unanswered", "reenter", "moot") else verdict == "right"
        if self.built is None or not self._has(rule.needs, int(id_.partition(".")[2] or 0)):
            return None
        if rule.name in AT_MOST | AT_LEAST:
            return self.built.meets({**self.brief.wishes, "budget_cost": self.brief.budget}).get(rule.name)
        return self.built.limits.get(id_)

    def _figure(self, entry: Entry) -> FieldMark:
        """Judge a number by what the rest of the form makes of it."""
        label = entry_word(self.brief, entry)
        if entry.id not in self.own:
            return self._blank(entry)
        rule = self.brief.rules[entry.id]
        value, shown = self.own[entry.id], self.shown[entry.id]
        design = self.built.design if self.built else None
        expected = self._worked(entry) if self._has(rule.needs) else None
        if expected is None or design is None:
            return FieldMark(entry.id, label, "moot", shown)
        step, solved = entry.step_in(design), source(design, entry.name)
        hidden = len(lines_of(solved.sheet, step, self._held(entry))) > 1
        if accepts(entry.name, value, expected, hidden):
            return FieldMark(entry.id, label, "right", shown, method=True, accuracy=True)
        if found := self._explained(entry, expected):
            return FieldMark(entry.id, label, "mistake", shown, found)
        copied = accepts(entry.name, value, entry.number_in(design), hidden)
        return FieldMark(entry.id, label, "inconsistent" if copied else "unexplained", shown, accuracy=copied)

    def _held(self, entry: Entry) -> dict[str, Any]:
        """Return the other numbers of the form that stand in the same worksheet as an entry."""
        assert self.built is not None
        assert self.built.design is not None
        solved = source(self.built.design, entry.name)
        if solved is self.built.design.circuits:
            return {n: solved[n] for n in AS_WIRED}
        return {
            e.name: self.full[e.id]
            for e in self.brief.entries
            if e.name in solved.sheet and e.id in (self.full if e.sort == CHOSEN else self.own) and e.id != entry.id
        }

    def _worked(self, entry: Entry, made: Mistake | None = None) -> float | None:
        """Return what an entry comes to, worked from the rest of the form, perhaps with a mistake."""
        if self.built is None or self.built.design is None:
            return None
        solved, step = source(self.built.design, entry.name), entry.step_in(self.built.design)
        if entry.name not in solved.sheet:  # an input, such as the modules in series: it follows from nothing
            return None
        held = self._held(entry)
        wrong = habit_in(solved.sheet, made) if made else []
        if made and not {n for _, n in wrong} & set(lines_of(solved.sheet, step, held)):
            return None
        return value_of(Problem(sheet_slot(solved.sheet), solved, ""), step, held, wrong)

    def _explained(self, entry: Entry, expected: float | None) -> tuple[tuple[str, ...], ...]:
        """Return the mistakes in focus that give an entry and not what it should be."""
        found = []
        for id_ in self.slot.mistakes:
            value = self._worked(entry, mistake(id_))
            if value is not None and matches(entry.name, self.own[entry.id], value) and value != expected:
                found.append((id_,))
        return tuple(found)

    def _device_of(self, entry: Entry) -> tuple[tuple[str, ...], ...]:
        """Return the mistakes in focus that lead to the device chosen."""
        if self.built is None or self.built.design is None or not self.built.is_wired:
            return ()
        design = self.built.design
        row = design.circuit_names.index(entry.circuit)
        sound = mistaken(design, None).devices[row].key
        keys = {i: mistaken(design, mistake(i)).devices[row].key for i in self.slot.mistakes}
        return tuple((i,) for i, key in keys.items() if key == self.own[entry.id] != sound)

    def _blank(self, entry: Entry) -> FieldMark:
        reason = self.refused.get(entry.id, "")
        verdict = "reenter" if reason else "unanswered"
        return FieldMark(entry.id, entry_word(self.brief, entry), verdict, reason=reason)  # type: ignore[arg-type]

    def _mark(self, entry: Entry) -> FieldMark:
        if entry.sort == WORKED:
            return self.figures[entry.name]
        if entry.id not in self.own:
            return self._blank(entry)
        label, shown = entry_word(self.brief, entry), self.shown[entry.id]
        here = [kept for id_, kept in self.rules.items() if self._at(id_) == entry.id]
        if False in here:
            found = self._device_of(entry) if entry.name == "device" else self._count_of(entry)
            return FieldMark(entry.id, label, "mistake" if found else "unexplained", shown, found)
        if None in here:
            return FieldMark(entry.id, label, "moot", shown)
        return FieldMark(entry.id, label, "right", shown, method=True, accuracy=True)

    def _count_of(self, entry: Entry) -> tuple[tuple[str, ...], ...]:
        return () if entry.sort == PART else self._explained(entry, self._worked(entry))

    def _at(self, rule_id: str) -> str:
        """Return the entry that is looked at first where a rule is broken."""
        rule, place = self.brief.rules[rule_id], rule_id.partition(".")[2]
        return f"{rule.at}.{place}" if place else rule.at

    def _score(self) -> float:
        """Return the share of the rules kept in each group, weighed; nothing where a rule of safety is broken."""
        groups = {id_: rule.group for id_, rule in self.brief.rules.items()}
        if any(self.rules[i] is False for i, group in groups.items() if group == SAFETY):
            return 0.0
        score = 0.0
        for group, share in SHARES.items():
            kept = [self.rules[i] is True for i, g in groups.items() if g == group]
            score += share * sum(kept) / len(kept)
        return round(score, 10)

    def _credit(self, marks: Sequence[FieldMark]) -> list[str]:
        """Say which parts of the form stand, and how many rules are kept."""
        verdicts: dict[str, set[str]] = {}
        for entry, mark in zip(self.brief.entries, marks, strict=True):
            verdicts.setdefault(entry.section, set()).add(mark.verdict)
        whole = [say(f"build_part.{section}") for section in FORM if verdicts.get(section) == {"right"}]
        kept = sum(kept is True for kept in self.rules.values())
        said = [say("credit", steps=listed(whole))] if whole else []
        return [*said, say("build_kept", kept=kept, count=len(self.rules))] if kept else said

    def _asked(self, marks: Sequence[FieldMark]) -> tuple[str, list[str]]:
        """Return the one question and the sentences round it: what is worst first, a number before what follows."""
        of = {m.id: m for m in marks}
        if again := [m for m in marks if m.verdict == "reenter"]:
            question = say("reenter", quantity=again[0].label, reason=again[0].reason)
            return question, [question]
        worst: list[tuple[int, int, str, list[str]]] = []
        for id_, rule in self.brief.rules.items():
            if self.rules[id_] is False:
                worst.append(self._issue(id_, rule, of[self._at(id_)]))
        if worst:
            _, _, question, told = min(worst, key=lambda issue: issue[:2])
            return question, told
        waiting = {e.section for e in self.brief.entries if of[e.id].verdict in ("unanswered", "moot")}
        if any(m.verdict == "unanswered" for m in marks):
            return "", [say("rest", steps=listed([say(f"build_part.{s}") for s in FORM if s in waiting]))]
        return self.slot.hint, [self.slot.hint]

    def _issue(self, id_: str, rule: Rule, mark: FieldMark) -> tuple[int, int, str, list[str]]:
        """Return how bad a broken rule is, whether it may follow from another, and what is asked about it."""
        severity, follows = self.brief.severity(rule), rule.name not in self.figures
        if mark.explanations:
            found = mistake(mark.explanations[0][0])
            worst = min(severity, found.severity, key=SEVERITIES.index)
            return SEVERITIES.index(worst), follows, found.question, about(mark, found)
        if mark.verdict == "inconsistent":
            question = say("inconsistent", quantity=mark.label, value=mark.shown)
        elif not follows:
            question = say("build_follows", quantity=mark.label, value=mark.shown)
        else:
            circuit = next((e.circuit for e in self.brief.entries if e.id == self._at(id_)), "")
            question = say(f"build_ask.{rule.name}", circuit=circuit, **self._told_year(rule.name))
        return SEVERITIES.index(severity), follows, question, [question]

    def _told_year(self, name: str) -> dict[str, str]:
        value = self.built.outcome.get(name) if self.built else None
        return {} if value is None else {"value": show(name, value, self.settings, 3)}

    def _all_right(self) -> tuple[str, ...]:
        assert self.built is not None
        year = [f"{say(f'build_year.{n}')} {show(n, v, self.settings, 3)}" for n, v in self.built.outcome.items()]
        return say("build_right", count=len(self.rules)), say("build_came", year=listed(year))


def sheet_slot(sheet: Sheet, rows: tuple[str, ...] = ()) -> Work:
    """Return a worksheet as a problem's slot, for what works on one; ``rows`` are the names of its rows."""
    return Work(id="", title="", statement="", hint="", sheet=sheet, rows=rows, asked=())
