"""Build it: a whole design entered as a form, judged by every rule, by its own numbers and by its own year."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from string import Template
from typing import Any, ClassVar

from offgrid_core.errors import OffgridError
from offgrid_core.practice.building import WANTED, Brief, brief_of
from offgrid_core.practice.building_design import source
from offgrid_core.practice.building_plan import plan_of
from offgrid_core.practice.building_rules import AT_LEAST, AT_MOST, PART
from offgrid_core.practice.building_sheet import entry_word, sheet_of
from offgrid_core.practice.entering import number_field, written
from offgrid_core.practice.kinds.build_marks import Marking, sheet_slot
from offgrid_core.practice.mistakes import mistake
from offgrid_core.practice.problem import Problem
from offgrid_core.practice.screens import clear_of_whole
from offgrid_core.practice.slot import Answer, Field, Marks, Slot
from offgrid_core.practice.tolerance import accepts
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings, show

_BATCHES = range(400)


@dataclass(frozen=True, kw_only=True)
class Build(Slot):
    """A brief that is answered by a complete design.

    Attributes
    ----------
    plan
        Text of a plan, in which ``$name`` is replaced by what is drawn: site, loads and choices of the client.
    circuits
        Names of the main circuits on the form.
    offered
        Role = how many parts of it are on offer in a variant.
    wishes
        What the client wants of the year, the life of the bank and the generator: names among the inputs drawn.
    """

    plan: str
    circuits: tuple[str, ...] = ("array to controller", "bank to inverter")
    offered: Mapping[str, int] = field(default_factory=dict)
    wishes: tuple[str, ...] = ()
    siblings: ClassVar[int] = 1

    def __post_init__(self) -> None:
        known = {*AT_MOST.values(), *AT_LEAST.values()} - {"budget_cost"}
        if unknown := set(self.wishes) - known:
            raise OffgridError(f"{self.id}: {', '.join(sorted(unknown))} is no wish that a design is held to")
        object.__setattr__(self, "grids", {**self.grids, "batch": _BATCHES})

    @property
    def kind(self) -> str:
        """``"build"``."""
        return "build"

    def brief(self, problem: Problem) -> Brief:
        """Return what the client of this variant wants.

        Raises
        ------
        OffgridError
            If the plan lacks something that was not drawn, or is no plan.
        """
        try:
            text = self._text(problem)
            wishes = {n: float(problem.given[n]) for n in self.wishes}
        except (KeyError, ValueError) as e:
            raise OffgridError(f"{self.id}: the plan cannot be filled in, {e}") from None
        return brief_of(text, self.offered, self.circuits, wishes, f"{problem.seed}|{problem.given.get('batch', 0)}")

    def plan_made(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> str:
        """Return the design of a form as the text of a plan; empty as long as it lacks a choice or cannot be built."""
        form = Marking(self, self.brief(problem), answers, settings)
        made = form.built if form.is_whole else None
        return plan_of(self._text(problem), made) if made and made.design else ""

    def passes(self, problem: Problem) -> bool:
        """Screen: three designs keep every rule; of the first, no size is near the next, and each mistake is named."""
        brief = self.brief(problem)
        sound = brief.worked(brief.sound.entries)
        shows = all(self._shows(sound, brief.worked(sound, mistake(i))) for i in self.mistakes)
        # the cheapest to find out comes first, as most draws fail
        return shows and self._stands_clear(brief) and len(brief.feasible) == WANTED and self._named(problem)

    def tables(self, problem: Problem, settings: Settings) -> list[tuple[str, list[list[str]]]]:
        """Return the wishes, the site, the loads, the parts on offer and what is assumed."""
        return sheet_of(self.brief(problem), settings)

    def fields(self, problem: Problem, settings: Settings) -> tuple[Field, ...]:
        """Return the form: parts as choices, all else as numbers."""
        brief = self.brief(problem)
        found = []
        for e in brief.entries:
            label = entry_word(brief, e)
            if e.sort == PART:
                found.append(Field(e.id, label, options=tuple((p.key, p.label) for p in brief.offer(e.name))))
            else:
                found.append(number_field(e.id, label, e.name, settings))
        return tuple(found)

    def mark(self, problem: Problem, answers: Mapping[str, Answer], settings: Settings) -> Marks:
        """Judge the design as built, the numbers of the form by one another, and the year of the design."""
        return Marking(self, self.brief(problem), answers, settings).marks()

    def solution(self, problem: Problem, settings: Settings) -> dict[str, Answer]:
        """Return the cheapest design found that keeps every rule."""
        brief = self.brief(problem)
        return self._typed(problem, brief.worked(brief.sound.entries), settings)

    def tempting(self, problem: Problem) -> tuple[str, ...]:  # noqa: ARG002
        """Return every mistake in focus."""
        return self.mistakes

    def slipped(self, problem: Problem, mistake_id: str, settings: Settings) -> dict[str, Answer]:
        """Return the form of somebody who has the same parts, makes one mistake and works on from it."""
        brief = self.brief(problem)
        return self._typed(problem, brief.worked(brief.worked(brief.sound.entries), mistake(mistake_id)), settings)

    def worked(self, problem: Problem, settings: Settings) -> tuple[tuple[str, str, str], ...]:
        """Return each entry of that design with how it comes about, then what its year comes to."""
        brief = self.brief(problem)
        first = brief.sound
        assert first.design is not None
        rows = []
        for e in brief.entries:
            if e.sort == PART:
                rows.append((entry_word(brief, e), "", brief.part(e.name, first.entries[e.id]).label))
                continue
            solved, step = source(first.design, e.name), e.step_in(first.design)
            given = {n: v for n, v in solved.items() if n not in solved.sheet}
            on_sheet = Problem(sheet_slot(solved.sheet, first.design.circuit_names), given, problem.seed)
            how = on_sheet.worked_step(step, settings)[1] if e.name in solved.sheet else ""
            rows.append((entry_word(brief, e), how, show(e.name, e.number_in(first.design), settings)))
        return (*rows, *((say(f"build_year.{n}"), "", show(n, v, settings)) for n, v in first.outcome.items()))

    def _text(self, problem: Problem) -> str:
        return Template(self.plan).substitute(problem.given)

    def _stands_clear(self, brief: Brief) -> bool:
        """Whether honest rounding changes neither a count nor a fuse of the first design."""
        design = brief.sound.design
        assert design is not None
        given = {n: v for n, v in design.system.items() if n not in design.system.sheet}
        rows = [design.circuit_names.index(c) for c in brief.circuits]
        sizes, currents = (design.circuits[n] for n in ("fuse_by_row_a", "design_current_by_row_a"))
        near = any(accepts("fuse_by_row_a", float(currents[i]), float(sizes[i])) for i in rows)
        system = design.system.sheet.upto("strings_count", "array_strings_count", "controllers_count")
        return not near and clear_of_whole(system, Problem(sheet_slot(system), given, ""))

    def _named(self, problem: Problem) -> bool:
        """Whether each mistake in focus is named alone: two may lead to the same device."""
        usual = Settings()
        return all(self.mark(problem, self.slipped(problem, i, usual), usual).mistakes == (i,) for i in self.mistakes)

    def _shows(self, sound: Mapping[str, Any], slipped: Mapping[str, Any]) -> bool:
        """Whether a form differs from the sound one in more than rounding."""
        return any(
            slipped[n] != v if isinstance(v, str) else not accepts(n.partition(".")[0], slipped[n], v, hidden=True)
            for n, v in sound.items()
        )

    def _typed(self, problem: Problem, entries: Mapping[str, Any], settings: Settings) -> dict[str, Answer]:
        fields = self.fields(problem, settings)
        return {
            f.id: Answer(entries[f.id]) if f.options else written(f.id.partition(".")[0], entries[f.id], f, settings)
            for f in fields
        }
