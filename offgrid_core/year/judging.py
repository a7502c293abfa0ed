"""Rules of thumb for days of storage, judged by the years of one's own site."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.feeds import STEADY
from offgrid_core.sizing.scaling import ARRAY_SHARE
from offgrid_core.sizing.storage_rules import STORAGE_RULES, WORST_SUN
from offgrid_core.sizing.year_totals import LOST
from offgrid_core.system.design import Design
from offgrid_core.year.hours import Hours, given_without
from offgrid_core.year.sweep import sweep

#: What each rule promises: the share of the load that is served.
PROMISED = {
    "ordinary_straight_days": 0.95,
    "ordinary_curved_days": 0.95,
    "critical_straight_days": 0.99,
    "critical_curved_days": 0.99,
}
#: Array-to-load ratio of the worst month that the rules presume (computed beside long daily records: with 1.0 some of
#: them fall short).
PRESUMED_RATIO = 1.1
#: Days of storage of the curve.
DAYS = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 7.0, 10.0, 14.0, 20.0)


@dataclass(frozen=True)
class JudgedRule:
    """One rule: the days it asks for, the share of the load it promises, and the share lost in the simulated years."""

    name: str
    label: str
    days: float
    promised_frac: float
    lost_frac: float


@dataclass(frozen=True, eq=False)
class Storage:
    """Days of storage against the share of the load lost.

    Attributes
    ----------
    days, lost_frac
        The curve, with the array that the rules presume; mean of the years.
    rules
        The published rules on it.
    hand_days, hand_lost_frac
        The plan's days of autonomy, with the same array.
    array_w
        That array.
    """

    days: np.ndarray
    lost_frac: np.ndarray
    rules: tuple[JudgedRule, ...]
    hand_days: float
    hand_lost_frac: float
    array_w: float


def judge_storage(design: Design, hours: Hours, days: Sequence[float] = DAYS) -> Storage:
    """Return the curve of loss against days of storage for a design's loads and site, and the rules on it.

    Parameters
    ----------
    design, hours
        A sized design, and what its hours are given.
    days
        Days of storage of the curve, above 0.
    """
    system: dict[str, Any] = dict(design.system)
    rules = STORAGE_RULES.solve(WORST_SUN.solve({"peak_sun_by_month_h": system["peak_sun_by_month_h"]}))
    asked = {n: float(rules[n]) for n in PROMISED}
    whole = np.array([*days, *asked.values(), system["autonomy_days"]])
    sheet = design.system.sheet.upto("array_for_load_w")
    need = sheet.solve({**design.given, "array_load_ratio": PRESUMED_RATIO})
    banks = BANK.upto("bank_cold_wh").solve({**given_without(system, BANK), "autonomy_days": whole})["bank_cold_wh"]
    share = ARRAY_SHARE.solve({**system, "array_for_load_w": need["array_for_load_w"]})
    made = {
        "array_w": need["array_for_load_w"],
        "bank_wh": banks,
        "controllers_count": share["share_controllers_count"],
    }
    steady = STEADY.solve(given_without(hours.given, STEADY) | made)
    columns = {
        n: made[n] if n in made else steady[n] for n in ("array_w", "bank_wh", "controller_hour_wh", "charge_most_wh")
    }
    sums = sweep(hours, {n: np.broadcast_to(x, whole.shape) for n, x in columns.items()})
    wanted = hours.by_hour["wanted_by_hour_wh"].sum(axis=1)[:, None]
    lost = LOST.solve({"unserved_year_wh": sums["unserved_year_wh"], "wanted_year_wh": wanted})
    mean = lost["loss_energy_frac"].mean(axis=0)
    judged = zip(PROMISED, mean[len(days) :], strict=False)
    return Storage(
        days=np.array(days, float),
        lost_frac=mean[: len(days)],
        rules=tuple(JudgedRule(n, STORAGE_RULES[n].label, asked[n], PROMISED[n], float(value)) for n, value in judged),
        hand_days=float(system["autonomy_days"]),
        hand_lost_frac=float(mean[-1]),
        array_w=float(need["array_for_load_w"]),
    )
