"""What a design and its weather give to every hour of the balance."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.balance import HOUR, HOUR_WITH_GENERATOR
from offgrid_core.sizing.efficiency import LOSSES
from offgrid_core.sizing.feeds import (
    BANK_FEED,
    CHARGER,
    DC_LOAD_FEED,
    DIRECT_SUN_FEED,
    ENCLOSED,
    LOAD_FEED,
    STATED_BANK_FEED,
    STEADY,
    SUN_FEED,
    TODAY,
    warmth,
)
from offgrid_core.sizing.hourly_sun import MONTH_OF_HOUR
from offgrid_core.sizing.hours import DAY_CURVE
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS
from offgrid_core.system.beside import BACKUP
from offgrid_core.system.design import Design
from offgrid_core.system.loading import rows_of
from offgrid_core.worksheet import Sheet
from offgrid_core.year.weather import Weather


@dataclass(frozen=True, eq=False)
class Hours:
    """Everything that the balance of an hour is given.

    Attributes
    ----------
    sheet
        The worksheet of an hour.
    given
        What stays the same, by the worksheets' names.
    by_hour
        What has a value for every hour, by names with ``by_hour``: arrays of (years, 8760).
    first_hour
        Hour of the year at which the simulation begins, with a full bank: the first of the sunniest month, when the
        beginning matters least.
    has_inverter
        Whether there are AC loads.
    """

    sheet: Sheet
    given: Mapping[str, Any]
    by_hour: Mapping[str, np.ndarray]
    first_hour: int
    has_inverter: bool

    @property
    def years(self) -> int:
        """How many years there are."""
        return len(self.by_hour["yield_by_hour_h"])


def hours_of(design: Design, weather: Weather) -> Hours:
    """Return what every hour is given, from a design and its weather.

    Raises
    ------
    OffgridError
        If a value leaves the range of a table.
    """
    given = {a.name: a.value for a in YEARS_ASSUMPTIONS.values()} | dict(design.system) | design.plan.assume
    chemistry = data.chemistry(design.plan.choices.chemistry)
    given |= {"self_discharge_frac": chemistry.self_discharge_frac, "taper_frac": chemistry.taper_frac}
    given |= STEADY.solve(given)
    sheet = HOUR
    if design.plan.generator is not None:
        given |= design.more[BACKUP]
        given |= CHARGER.solve(given)
        sheet = HOUR_WITH_GENERATOR
    by_hour = {"air_by_hour_c": weather.air_c, "plane_by_hour_kw_m2": weather.plane_w_m2 / 1000}
    by_hour |= _sun(design, given, by_hour) | _loads(design, given) | _bank(design, given, by_hour)
    shape = weather.plane_w_m2.shape
    whole = {n: np.broadcast_to(x, shape) for n, x in by_hour.items()}
    sunniest = int(np.argmax(weather.monthly_plane_kwh_m2.mean(axis=0)))
    return Hours(sheet, given, whole, int(np.argmax(sunniest == MONTH_OF_HOUR)), design.parts.inverter is not None)


def _sun(design: Design, given: Mapping[str, Any], by_hour: Mapping[str, np.ndarray]) -> dict[str, np.ndarray]:
    shade = np.broadcast_to(given["shade_by_month_frac"], 12)[MONTH_OF_HOUR]
    sheet = DIRECT_SUN_FEED if design.plan.choices.controller == "direct" else SUN_FEED
    solved = sheet.solve({**given, **by_hour, "shade_by_hour_frac": shade})
    return {"shade_by_hour_frac": shade, **{n: solved[n] for n in sheet}}


def _loads(design: Design, given: Mapping[str, Any]) -> dict[str, np.ndarray]:
    """Return the loads of every hour: each day goes by the curve of its month and of its day of the week."""
    rows = rows_of(design.plan)
    season = np.asarray(rows["season_by_row_frac"])[:, None, :]
    weekdays = np.arange(7.0)[None, :]
    today = TODAY.solve({**rows, "season_by_row_frac": season, "weekday_days": weekdays})
    season = today["season_today_by_row_frac"][:, :, None, :]
    curve = DAY_CURVE.upto("hour_ac_wh", "hour_dc_wh").solve({**rows, "season_by_row_frac": season})
    hour = np.arange(len(MONTH_OF_HOUR))
    place = MONTH_OF_HOUR, hour // 24 % 7, hour % 24
    ac, dc = (np.broadcast_to(curve[n], (12, 7, 24))[place] for n in ("hour_ac_wh", "hour_dc_wh"))
    asked = {"dc_asked_by_hour_w": dc}
    sheet, losses = DC_LOAD_FEED, {}
    if design.parts.inverter is not None:
        asked["ac_asked_by_hour_w"] = ac
        sheet, losses = LOAD_FEED, dict(LOSSES.solve(given_without(given, LOSSES)))
    solved = sheet.solve(given_without({**given, **losses}, sheet) | asked)
    return asked | {n: solved[n] for n in sheet}


def given_without(given: Mapping[str, Any], sheet: Sheet) -> dict[str, Any]:
    """Return the givens without what the worksheet works out itself."""
    return {n: v for n, v in given.items() if n not in sheet}


def _bank(design: Design, given: Mapping[str, Any], by_hour: Mapping[str, np.ndarray]) -> dict[str, np.ndarray]:
    table = given["capacity_kept"]
    given = {**given, "table_coldest_c": table.x[0], "table_warmest_c": table.x[-1]}
    surround = by_hour["air_by_hour_c"]
    if design.plan.enclosure is not None:
        surround = ENCLOSED.solve(given_without({**given, **by_hour}, ENCLOSED))["surround_by_hour_c"]
    # The bank begins as warm as the last day of the year leaves it, not at a temperature from nowhere.
    given.setdefault("battery_lag_h", given["bank_lag_h"])
    stepper, bank = warmth(), np.empty_like(surround)
    for year, air in enumerate(surround):
        begun = {"warmth_c": float(air[-24:].mean())}
        bank[year] = stepper.path(given, {"surround_c": air}, begun)[0]["warmth_c"]
    sheet = BANK_FEED if design.plan.enclosure is not None else STATED_BANK_FEED
    solved = sheet.solve(given_without({**given, "warmth_by_hour_c": bank}, sheet))
    return {"surround_by_hour_c": surround, "warmth_by_hour_c": bank, **{n: solved[n] for n in sheet}}
