"""The figures of the study: how many papers of each population were judged well, in all and slot by slot."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from offgrid_core.practice import Marks, Problem, Slot, draw, mark, slots
from offgrid_core.practice.kinds import Backwards, Work
from study.papers import POPULATIONS, Case, papers

#: Share of papers, in per cent, that must be judged well.
WANTED = {
    "one mistake": 99.5,
    "one, end alone": 96,
    "two mistakes": 99,
    "slip": 97,
    "right": 100,
    "right, inconsistent": 100,
}


@dataclass
class Figures:
    """Counts of papers and of those judged well, by population and slot; and the ones that were not."""

    papers: Counter = field(default_factory=Counter)
    well: Counter = field(default_factory=Counter)
    not_well: list[tuple[Case, Marks]] = field(default_factory=list)

    def take(self, case: Case, marks: Marks) -> None:
        """Count one paper. A slip that left a number within the tolerance is no wrong number, and is not counted."""
        if case.population == "slip" and marks.of(case.at).verdict == "right":
            return
        where = case.population, case.problem.slot.id
        self.papers[where] += 1
        if case.is_judged_well(marks):
            self.well[where] += 1
        else:
            self.not_well.append((case, marks))

    def count(self, population: str) -> int:
        """Return the number of papers of a population."""
        return sum(n for (p, _), n in self.papers.items() if p == population)

    def share(self, population: str) -> float:
        """Return the share of a population's papers that was judged well, in per cent."""
        return 100 * sum(n for (p, _), n in self.well.items() if p == population) / max(self.count(population), 1)

    def red(self) -> list[str]:
        """Return the populations whose figure is not reached."""
        return [p for p in POPULATIONS if self.count(p) and self.share(p) < WANTED[p]]

    def table(self) -> str:
        """Return the figures as lines of text, and under each the slots that are not whole."""
        told = [f"{'population':22} {'papers':>7} {'judged well':>12} {'wanted':>8}"]
        for p in POPULATIONS:
            told.append(f"{p:22} {self.count(p):7,} {self.share(p):10.2f} % {WANTED[p]:6g} %")
            told += [
                f"    {slot}: {self.well[p, slot]} of {n}"
                for (population, slot), n in self.papers.items()
                if population == p and self.well[p, slot] < n
            ]
        return "\n".join(told)


def studied() -> list[Slot]:
    """Return every slot whose numbers a learner works: with steps, or backwards."""
    return [s for s in slots().values() if isinstance(s, Work | Backwards)]


def variants(slot: Slot, count: int) -> list[Problem]:
    """Return variants as drawn by the screens; one that fell back to the curated numbers lacks its inputs."""
    bare = replace(slot, curated={}, starts_curated=False, others=tuple(_bare(s) for s in slot.others))
    return [draw(bare, n, learner="study") for n in range(count)]


def figures_of(problems: Iterable[Problem]) -> Figures:
    """Return the figures of the papers of some variants."""
    found = Figures()
    for problem in problems:
        for case in papers(problem):
            found.take(case, mark(problem, case.answers))
    return found


def _bare(slot: Slot) -> Slot:
    return replace(slot, curated={}, starts_curated=False)
