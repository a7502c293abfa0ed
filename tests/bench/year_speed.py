"""Speed of the simulated year: one design for a slider, and grids of designs against a compiled loop of the same model.

``python tests/bench/year_speed.py [--large]`` prints a table; ``--large`` adds a hundred times the grid. The compiled
loop wants ``numba``, which is used here and nowhere else; without it the ratio is left out.
"""

import sys
import time
from pathlib import Path

import numpy as np

from offgrid_core.sizing.balance import FEEDS, stepper
from offgrid_core.system import read_plan, size
from offgrid_core.year.hours import hours_of
from offgrid_core.year.outcome import drawn_weather
from offgrid_core.year.simulate import FED, full_bank, simulate
from offgrid_core.year.sweep import COLUMNS, sweep

PLAN = Path(__file__).resolve().parents[2] / "lessons" / "plans" / "riverbend.toml"
SUMS = ("unserved_year_wh", "drawn_year_wh", "surplus_year_wh", "stored_year_wh")


def main() -> None:
    t0 = time.perf_counter()
    design = size(read_plan(PLAN))
    t1 = time.perf_counter()
    weather = drawn_weather(design, 10, seed=1)
    t2 = time.perf_counter()
    hours = hours_of(design, weather)
    t3 = time.perf_counter()
    print(f"size {t1 - t0:.2f} s, ten years of weather {t2 - t1:.2f} s, what the hours are given {t3 - t2:.2f} s")
    one_design(hours)
    grids(hours, [1, 10, 100] if "--large" in sys.argv[1:] else [1, 10])


def one_design(hours) -> None:
    walk, start = stepper(hours.sheet), full_bank(hours.given)
    feeds = {n: hours.by_hour[FED[n]][0] for n in FEEDS}
    path = best(lambda: walk.path(hours.given, feeds, start), 40)
    whole = best(lambda: simulate(hours), 3) / hours.years
    print(f"one design-year: charge of every hour {1e3 * path:.2f} ms; with every total {1e3 * whole:.2f} ms")


def grids(hours, sizes) -> None:
    compiled = compiled_loop()
    print("  designs × years    NumPy s   ns a design-hour   compiled s   ratio   peak MB")
    for factor in sizes:
        rng = np.random.default_rng(1)
        count = 900 * factor
        array, bank = rng.uniform(0.1, 1.5, count), rng.uniform(0.1, 1.5, count)
        shares = {"array_w": array, "controller_hour_wh": array, "bank_wh": bank, "charge_most_wh": bank}
        columns = {n: hours.given[n] * shares[n] for n in COLUMNS}
        runs = 3 if factor == 1 else 1
        seconds = best(lambda columns=columns: sweep(hours, columns), runs)
        row = f"{count:9} × {hours.years:<5} {seconds:10.2f} {1e9 * seconds / count / hours.years / 8760:18.1f}"
        if compiled:
            ours, theirs = sweep(hours, columns), compiled(hours, columns)
            for n, x in theirs.items():
                assert np.allclose(ours[n], x, rtol=1e-9, atol=1e-6), n
            base = best(lambda columns=columns: compiled(hours, columns), runs)
            row += f" {base:12.2f} {base / seconds:7.2f}"
        print(row + f" {peak_mb():9.0f}", flush=True)


def compiled_loop():
    """Return the same balance written by hand as a scalar loop and compiled, or None without the compiler."""
    try:
        from numba import njit
    except ImportError:
        print("(numba is not installed: no compiled loop to compare with)")
        return None

    @njit
    def run(
        sun, wanted, kept, may, array, bank, most, passed, depth, taper, efficiency, leak, back, out
    ):  # pragma: no cover
        for year in range(sun.shape[1]):
            for design in range(array.size):
                store, on = bank[design], 1.0
                lost = drawn_all = left_all = stored_all = 0.0
                for hour in range(sun.shape[0]):
                    supply = min(array[design] * sun[hour, year], passed[design])
                    floor = bank[design] * (1 - depth * kept[hour, year])
                    demand = wanted[hour, year] * on
                    surplus = max(0.0, supply - demand)
                    deficit = surplus - (supply - demand)
                    room = min(most[design], max(0.0, bank[design] - store) * (taper * may[hour, year]))
                    stored = min(surplus * efficiency, room)
                    drawn = min(deficit, max(0.0, store - floor))
                    left = store - drawn
                    store = left + stored - left * leak
                    again = bank[design] * (1 - depth * kept[hour, year] * (1 - back))
                    lost += wanted[hour, year] - (demand - (deficit - drawn))
                    on = max(1.0 if store >= again else 0.0, on * (1.0 if drawn >= deficit else 0.0))
                    drawn_all += drawn
                    left_all += surplus
                    stored_all += stored
                out[0, year, design], out[1, year, design] = lost, drawn_all
                out[2, year, design], out[3, year, design] = left_all, stored_all

    def call(hours, columns):
        feeds = [np.ascontiguousarray(np.roll(hours.by_hour[FED[n]], -hours.first_hour, axis=1).T) for n in FEEDS]
        names = ("depth_frac", "taper_frac", "charge_eff_frac", "leak_frac", "reconnect_frac")
        sized = [columns[n] for n in ("array_w", "bank_wh", "charge_most_wh", "controller_hour_wh")]
        out = np.zeros((4, hours.years, len(columns["array_w"])))
        run(*feeds, *sized, *(float(hours.given[n]) for n in names), out)
        return dict(zip(SUMS, out, strict=True))

    return call


def best(work, runs: int) -> float:
    """Return the quickest of several runs, in seconds of this process."""
    seconds = []
    for _ in range(runs):
        begun = time.process_time()
        work()
        seconds.append(time.process_time() - begun)
    return min(seconds)


def peak_mb() -> float:
    import resource

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


if __name__ == "__main__":
    main()
