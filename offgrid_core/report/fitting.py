"""Parts that fit, as rows of text, as plain values, and as a sheet for a terminal."""

from collections.abc import Sequence
from typing import Any

from offgrid_core.quantities import Settings, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.quantities.text import capital, number
from offgrid_core.report.terminal import grid, heading
from offgrid_core.report.words import say
from offgrid_core.system.design import Design
from offgrid_core.system.fit import ROLES, Fit

#: Combinations on the terminal sheet; all of them are in the JSON.
SHOWN = 12


def fit_text(design: Design, fit: Fit, settings: Settings) -> str:
    """Return the sheet: the first combinations that pass, and what stops each part that fits nowhere."""
    passing = fit.passing
    counts = {"passing": number(len(passing), 9, settings), "tried": number(fit.broken.size, 9, settings)}
    said = [heading(say("fit.title", plan=design.plan.title)), say("fit.count", **counts), say("fit.order"), ""]
    if len(passing) > SHOWN:
        said += [say("fit.first", count=SHOWN)]
    if passing:
        said += [grid(passing_rows(design, fit, settings, SHOWN)), ""]
    said += [heading(say("fit.stopped")), grid(stopped_rows(fit)), ""]
    said += [heading(say("fit.fits")), grid(fitting_rows(fit, settings)), "", say("fit.not_judged")]
    return "\n".join([*said, say_shared("caution.design_exercise"), ""])


def passing_rows(design: Design, fit: Fit, settings: Settings, most: int | None = None) -> list[list[str]]:
    """Return the combinations that pass, the first ones first, as text; ``most`` of them, or all."""
    rows = [["strings", "battery units", "modules, in series", "controllers", "inverter", "invented cost"]]
    for place in fit.passing[:most]:
        labels = _labels(fit, place)
        n = {name: show(name, values[place], settings) for name, values in fit.counts.items()}
        rows.append(
            [
                n["strings_count"],
                f"{n['units_count']} × {labels[0]}",
                f"{n['modules_count']} × {labels[1]}, {n['modules_in_series_count']}",
                f"{n['controllers_count']} × {labels[2]}",
                labels[3] if len(labels) > 3 else say("fit.no_inverter"),
                f"{show('parts_cost', fit.cost[place], settings, 6)} {design.plan.currency}".strip(),
            ]
        )
    return rows


def stopped_rows(fit: Fit) -> list[list[str]]:
    """Return the parts that fit in no combination, with the limits that stop them where they do best."""
    stopped = [v for v in fit.verdicts if not v.fits]
    return [["part", "stopped by"]] + [[v.part.label, capital("; ".join(v.stopped_by))] for v in stopped]


def fitting_rows(fit: Fit, settings: Settings) -> list[list[str]]:
    """Return the parts that fit, with the number of combinations in which they do."""
    fits = [v for v in fit.verdicts if v.fits]
    return [["part", "passes in"]] + [[v.part.label, say("fit.times", count=number(v.fits, 9, settings))] for v in fits]


def fit_json(design: Design, fit: Fit) -> dict[str, Any]:
    """Return the verdicts and every combination that passes, with stable keys."""
    return {
        "title": design.plan.title,
        "tried": fit.broken.size,
        "limits": list(fit.limits),
        "passing": [
            {
                **dict(zip(ROLES, _keys(fit, place), strict=False)),
                **{name: float(values[place]) for name, values in fit.counts.items()},
                "parts_cost": float(fit.cost[place]),
            }
            for place in fit.passing
        ],
        "parts": [
            {"role": v.role, "part": v.part.key, "fits": v.fits, "stopped_by": list(v.stopped_by)} for v in fit.verdicts
        ],
    }


def _parts(fit: Fit, place: Sequence[int]) -> list[Any]:
    lists = [getattr(fit.catalogue, role) for role in ROLES]
    return [parts[i] for parts, i in zip(lists, place, strict=True) if parts]


def _labels(fit: Fit, place: Sequence[int]) -> list[str]:
    return [part.label for part in _parts(fit, place)]


def _keys(fit: Fit, place: Sequence[int]) -> list[str]:
    return [part.key for part in _parts(fit, place)]
