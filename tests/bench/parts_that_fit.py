"""How long it takes to judge every combination of the catalogue, and of one 4 and 16 times as large.

Run: ``python tests/bench/parts_that_fit.py [PLAN]``. One core: numpy's element-wise work is not spread over cores.
"""

import sys
import time
import tracemalloc
from pathlib import Path

import numpy as np

from offgrid_core.system import read_plan, size
from offgrid_core.system.fit import Catalogue, parts_that_fit, shipped
from offgrid_core.system.parts import SERIES

PLAN = Path(__file__).parents[2] / "lessons" / "plans" / "fell_hut.toml"
#: How often units, modules, controllers and inverters are taken.
TIMES = {1: (1, 1, 1, 1), 4: (2, 2, 1, 1), 16: (2, 2, 2, 2)}


def many(times: tuple[int, ...]) -> Catalogue:
    parts = shipped()
    lists = (parts.battery_unit, parts.module, parts.controller, parts.inverter)
    return Catalogue(*(list(each) * n for each, n in zip(lists, times, strict=True)))


def main() -> None:
    design = size(read_plan(sys.argv[1] if len(sys.argv) > 1 else PLAN))
    parts_that_fit(design)
    heads = ("catalogue", "combinations", "with series", "best of 5", "a million", "peak memory")
    print(" ".join(f"{head:>13}" for head in heads))
    for factor, times in TIMES.items():
        catalogue = many(times)
        took = []
        for _ in range(5):
            began = time.perf_counter()
            fit = parts_that_fit(design, catalogue)
            took.append(time.perf_counter() - began)
        tracemalloc.start()
        parts_that_fit(design, catalogue)
        peak = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        cells = fit.broken.size * len(SERIES)
        best = float(np.min(took))
        row = (f"{factor} ×", f"{fit.broken.size:,}", f"{cells:,}", f"{best:.2f} s", f"{best / cells * 1e6:.3f} s")
        print(" ".join(f"{cell:>13}" for cell in (*row, f"{peak / 1e6:.0f} MB")))


if __name__ == "__main__":
    main()
