"""What importing the core costs, against importing numpy and pydantic, in fresh interpreters of the same run.

    .venv/bin/python tests/bench/import_time.py [rounds]

A benchmark, not a test: it prints medians and their ratio. The rounds alternate, so that a busy machine slows both.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BARE = "import numpy, pydantic"
SUBJECTS = [
    "import offgrid_core",
    "import offgrid_core.sizing",
    "import offgrid_core.quantities",
    "import offgrid_core.system",
]


def seconds(code: str) -> float:
    """Return how long a fresh interpreter takes to run one line."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True)
    return time.perf_counter() - begun


def main(rounds: int) -> None:
    """Print the median of each subject and its ratio to the bare imports."""
    subjects = [BARE, *SUBJECTS]
    for code in subjects:
        seconds(code)  # fills the file cache and the compiled files
    taken: dict[str, list[float]] = {code: [] for code in subjects}
    for _ in range(rounds):
        for code in subjects:
            taken[code].append(seconds(code))
    bare = statistics.median(taken[BARE])
    for code in subjects:
        median = statistics.median(taken[code])
        print(f"{code:32} {median * 1000:7.0f} ms   ratio {median / bare:.2f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
