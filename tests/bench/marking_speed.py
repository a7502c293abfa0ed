"""How many step answers a second are judged on one core, diagnosis included, by what the learners of the study do.

Run: ``python tests/bench/marking_speed.py``. Each variant is marked for the first time, as when a class hands in;
only what belongs to a slot, whoever answers it, is worked out before. Processor time of one process: what else the
machine does is left out. The last line is the whole sample; the target is 5,000 a second.
"""

import sys
import time
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from study.figures import studied, variants
from study.papers import POPULATIONS, papers

from offgrid_core.practice import mark

VARIANTS, ROUNDS = 12, 7
TARGET = 5000


def seconds(cases: list) -> float:
    """Return the least processor time of some rounds, each on variants of which nothing is known yet."""
    took = []
    for _ in range(ROUNDS):
        fresh = [(replace(case.problem), case.answers) for case in cases]
        began = time.process_time()
        for problem, answers in fresh:
            mark(problem, answers)
        took.append(time.process_time() - began)
    return min(took)


def main() -> None:
    cases = [case for slot in studied() for problem in variants(slot, VARIANTS) for case in papers(problem)]
    print(f"{'papers':22} {'step answers':>13} {'a second':>10}")
    number, spent = 0, 0.0
    for population in POPULATIONS:
        own = [case for case in cases if case.population == population]
        count, took = sum(len(case.answers) for case in own), seconds(own)
        number, spent = number + count, spent + took
        print(f"{population:22} {count:13,} {count / took:10,.0f}")
    print(f"{'all':22} {number:13,} {number / spent:10,.0f}  (target {TARGET:,})")


if __name__ == "__main__":
    main()
