"""The loads list of a plan, worked: rows as columns, the day by the clock, peaks, months, and the busiest run."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import PlanError
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.hours import DAY_CURVE, EVEN, LOADS_BY_HOUR, TOGETHER, WINDOWS
from offgrid_core.sizing.week import RUN_OF_DAYS
from offgrid_core.system.clock import clock_of
from offgrid_core.system.plan import Plan
from offgrid_core.worksheet import Solved, Table

#: The peaks that the rest of the system is sized for.
PEAKS = ("peak_w", "peak_va", "surge_w", "dc_peak_w")
_BY_HOUR = {
    "running_by_hour_w": "peak_w",
    "running_by_hour_va": "peak_va",
    "surging_by_hour_w": "surge_w",
    "running_dc_by_hour_w": "dc_peak_w",
}
_ROWS = {
    "count_by_row": "count",
    "power_by_row_w": "power_w",
    "duty_by_row_frac": "duty_frac",
    "standby_by_row_w": "standby_w",
    "week_by_row_days": "week_days",
    "coincidence_by_row_frac": "coincidence_frac",
    "power_factor_by_row_ratio": "power_factor_ratio",
    "start_by_row_factor": "start_factor",
    "critical_by_row_frac": "critical",
}
#: Longest run of days in the table of the busiest run.
_MOST_DAYS = 60


def rows_of(plan: Plan) -> dict[str, Any]:
    """Return the loads list as columns by the worksheets' names; the season has one row of values for each month."""
    rows: dict[str, Any] = {given: [float(getattr(row, key)) for row in plan.load] for given, key in _ROWS.items()}
    clock = [None if row.windows is None else clock_of(row.windows) for row in plan.load]
    hours = [_hours(row.hours_h, on) for row, on in zip(plan.load, clock, strict=True)]
    curves = [_even(h) if on is None else on for h, on in zip(hours, clock, strict=True)]
    return rows | {
        "hours_by_row_h": hours,
        "on_ac_by_row_frac": [1.0 if row.bus == "AC" else 0.0 for row in plan.load],
        "season_by_row_frac": np.array([row.season_frac for row in plan.load]).T,
        "clock_by_row_frac": np.array(curves).T,
        "touched_by_row_frac": np.array([np.ones(24) if on is None else np.sign(on) for on in clock]).T,
    }


def _hours(stated: float | None, on: np.ndarray | None) -> float:
    return float(WINDOWS.solve({"window_by_hour_frac": on})["window_h"]) if on is not None else float(stated or 0)


def _even(hours: float) -> np.ndarray:
    return np.full(24, EVEN.solve({"day_hours_h": hours})["even_frac"])


def peaks_of(plan: Plan, given: Mapping[str, Any]) -> dict[str, Any]:
    """Return the four peaks, and with windows also the hour by hour values that they are the largest of."""
    given, sheet, hourly = _inputs(given), LOADS, {}
    if any(row.windows for row in plan.load):
        running = LOADS.upto(*PEAKS).solve({**given, "power_by_row_w": TOGETHER.solve(given)["open_by_row_w"]})
        sheet, hourly = LOADS_BY_HOUR, {name: running[peak] for name, peak in _BY_HOUR.items()}
    solved = sheet.upto(*PEAKS).solve({**given, **hourly})
    return {name: float(solved[name]) for name in PEAKS} | hourly


@dataclass(frozen=True)
class LoadsWorked:
    """The loads list solved with an inverter's numbers.

    Attributes
    ----------
    busiest
        The loads worksheet in the month of the hardest day, one value a row.
    by_month
        The same for twelve months: arrays of (12, rows), totals of 12.
    curve
        The day's curve of every month: totals of (12, 24).
    hardest
        Place of the hardest month, 0 for January.
    """

    busiest: Solved
    by_month: Solved
    curve: Solved
    hardest: int

    @property
    def givens(self) -> dict[str, Any]:
        """What the chain needs of the loads."""
        return {
            "battery_day_by_month_wh": self.by_month["battery_day_wh"],
            "battery_mean_by_month_wh": self.by_month["battery_mean_wh"],
            "inverter_day_wh": float(self.busiest["inverter_day_wh"]),
            "ac_by_hour_w": np.broadcast_to(self.curve["hour_ac_wh"], (12, 24))[self.hardest],
        }


def loads_of(given: Mapping[str, Any]) -> LoadsWorked:
    """Work out the loads list for every month and by the clock; ``given`` holds rows, peaks and the inverter's numbers.

    Raises
    ------
    PlanError
        If no load uses any energy.
    """
    by_month = LOADS.solve(_inputs(given))
    if not np.any(by_month["ac_day_wh"]) and not np.any(by_month["dc_day_wh"]):
        raise PlanError("[[load]]: no load uses any energy; at least one with power and hours above 0 is wanted")
    hardest = int(np.argmax(by_month["battery_day_wh"]))
    season = np.asarray(given["season_by_row_frac"])
    sheet = LOADS_BY_HOUR if "running_by_hour_w" in given else LOADS
    busiest = sheet.solve({**_inputs(given), "season_by_row_frac": season[hardest]})
    curve = DAY_CURVE.solve({**given, "season_by_row_frac": season[:, None, :]})
    return LoadsWorked(busiest, by_month, curve, hardest)


def _inputs(given: Mapping[str, Any]) -> dict[str, Any]:
    """Return the givens without what the loads worksheet works out itself, such as the peaks."""
    return {n: v for n, v in given.items() if n not in LOADS}


def busiest_run(given: Mapping[str, Any]) -> dict[str, Table]:
    """Return the energy of the busiest run against its length in days, the largest of the months; and the reverse."""
    days = np.arange(_MOST_DAYS + 1.0)
    rows = {n: v for n, v in given.items() if n in RUN_OF_DAYS.inputs}
    run = RUN_OF_DAYS.solve(rows | {"autonomy_days": days[:, None]})["battery_spell_wh"]
    energy = np.max(run, axis=-1)
    # Quiet days may add nothing; a table that rises by a hair there can be read both ways. It ends at sixty days.
    rising, ends = energy + 1e-6 * days, [1e12]
    back = (*rising.tolist(), *ends), (*days.tolist(), float(_MOST_DAYS))
    source = "the loads list of the plan"
    return {
        "busiest_run": Table("busiest run", tuple(days.tolist()), tuple(energy.tolist()), "days", "Wh", source),
        "days_of_run": Table("busiest run that lasts", *back, "Wh", "days", source),
    }
