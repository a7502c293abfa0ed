"""Two to four designs through the same years, side by side, and what would reverse the choice between them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from offgrid_core.quantities import QUANTITIES, Settings, label_of, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.quantities.text import capital
from offgrid_core.report.terminal import grid, heading
from offgrid_core.report.year_run import Run
from offgrid_core.report.year_tables import Rows, energy, money, told
from offgrid_core.report.year_text import bullets, wrapped
from offgrid_core.report.year_words import say
from offgrid_core.sizing.cost import COST
from offgrid_core.sizing.year_totals import SERVED_ALIKE, SERVED_LEAST_FRAC
from offgrid_core.year.costing import RESULT, Bar, Compared, reverses, side_by_side, tornado

#: Inputs of which it is asked whether they reverse the choice.
MOVED = ("discount_rate_frac", "horizon_years", "battery_price_factor", "fuel_litre_cost")
#: Row = quantity, and what is taken of its years.
_JUDGED: dict[str, tuple[str, Callable[..., Any]]] = {
    "mean_lost": ("loss_energy_frac", np.mean),
    "worst_lost": ("loss_energy_frac", np.max),
    "mean_short": ("short_year_h", np.mean),
    "outage": ("longest_outage_h", np.max),
    "lowest": ("lowest_charge_frac", np.min),
    "spilled": ("spilled_frac", np.mean),
    "ran": ("generator_ran_h", np.mean),
    "fuel": ("generator_fuel_l", np.mean),
}
_WEAR = {"wear": "wear_year_frac", "life": "bank_life_years"}


@dataclass(frozen=True)
class Turned:
    """Whether an input reverses the choice between the cheapest design and another one.

    Attributes
    ----------
    other, moved
        The other design, and the input.
    differs
        Whether the two plans have different values of it, so that it was not moved.
    now, value
        The present value, and the nearest at which the other one is cheaper; ``None`` where there is none.
    """

    other: str
    moved: str
    differs: bool
    now: float
    value: float | None


@dataclass(frozen=True, eq=False)
class Comparison:
    """Designs by name, each followed through as many years with one seed."""

    runs: dict[str, Run]

    @property
    def names(self) -> list[str]:
        """What the designs are called here."""
        return list(self.runs)

    @cached_property
    def given(self) -> dict[str, dict[str, Any]]:
        """Inputs of the cost worksheet of each."""
        return {name: {n: run.outcome.cost[n] for n in COST.inputs} for name, run in self.runs.items()}

    @cached_property
    def costs(self) -> list[Compared]:
        """The costs, side by side."""
        return side_by_side(list(self.given.items()))

    @cached_property
    def judged(self) -> dict[str, list[float | None]]:
        """What the years came to, by row, one value a design; ``None`` where it has no such thing."""
        found: dict[str, list[float | None]] = {}
        for key, (name, pick) in _JUDGED.items():
            columns = [run.by_year.get(name) for run in self.runs.values()]
            if any(column is not None for column in columns):
                found[key] = [None if column is None else float(pick(column)) for column in columns]
        for key, name in _WEAR.items():
            found[key] = [float(run.outcome.wear[name]) for run in self.runs.values()]
        return found

    @cached_property
    def alike(self) -> bool:
        """Whether they serve about the same energy: only then is the cheaper one the better bargain."""
        served = [given["served_year_wh"] for given in self.given.values()]
        return bool(SERVED_ALIKE.solve({"served_by_row_wh": served})["served_least_frac"] >= SERVED_LEAST_FRAC)

    @cached_property
    def cheapest(self) -> str:
        """The design of the least life-cycle cost; the first of several."""
        return min(self.names, key=lambda name: float(self.runs[name].outcome.cost[RESULT]))

    @cached_property
    def equal(self) -> list[str]:
        """The designs that cost as much as the cheapest."""
        costs = {name: float(run.outcome.cost[RESULT]) for name, run in self.runs.items()}
        return [name for name in costs if name != self.cheapest and costs[name] == costs[self.cheapest]]

    @cached_property
    def turned(self) -> list[Turned]:
        """What reverses the choice between the cheapest and each other one; without fuel its price is left out."""
        return list(self._turned())

    def _turned(self) -> Iterator[Turned]:
        best = self.given[self.cheapest]
        for other in (name for name in self.names if name not in (self.cheapest, *self.equal)):
            mine = self.given[other]
            for moved in MOVED:
                if moved.startswith("fuel") and not (best["fuel_year_l"] or mine["fuel_year_l"]):
                    continue
                differs, now = bool(best[moved] != mine[moved]), float(best[moved])
                yield Turned(other, moved, differs, now, None if differs else reverses(best, mine, moved))

    @cached_property
    def bars(self) -> list[Bar]:
        """What moves the cost of the cheapest, the most first; what does not move it is left out."""
        return [bar for bar in tornado(self.given[self.cheapest]) if bar.swing.size > 0]

    @property
    def currency(self) -> str:
        """The currency of the plans, if they agree."""
        found = {run.design.plan.currency for run in self.runs.values()}
        return found.pop() if len(found) == 1 else ""


def compare_text(made: Comparison, settings: Settings) -> str:
    """Return the comparison for a terminal."""
    weather = next(iter(made.runs.values())).outcome.weather
    said = [
        heading(say("compare.title", names=", ".join(made.names))),
        *wrapped(say("compare.through", weather=weather.name), say_shared("caution.design_exercise"), ""),
        grid(side_rows(made, settings)),
        *wrapped(say("compare.same"), say("note.cost")),
        *(_ranked(made, settings) if made.alike else wrapped(_unlike(made, settings))),
    ]
    limits = dict.fromkeys(limit for run in made.runs.values() for limit in run.outcome.weather.limits)
    return "\n".join([*said, heading(say("limits")), *bullets(list(limits)), ""])


def _ranked(made: Comparison, settings: Settings) -> list[str]:
    """Return which design costs the least, what would reverse that, and what moves its cost."""
    horizon = show("horizon_years", made.runs[made.cheapest].outcome.cost["horizon_years"], settings)
    said = [
        heading(say("compare.reverses")),
        *wrapped(say("compare.cheapest", cheapest=made.cheapest, horizon=horizon)),
        *bullets([say("compare.equal", one=made.cheapest, other=other) for other in made.equal]),
        *bullets([turned_said(made, turned, settings) for turned in made.turned]),
        heading(say("compare.tornado", name=made.cheapest)),
        grid(tornado_rows(made, settings)),
    ]
    stepped = [label_of(bar.swing.name) for bar in made.bars if bar.in_steps]
    return said + (wrapped(say("compare.steps", listed="; ".join(stepped))) if stepped else [])


def _unlike(made: Comparison, settings: Settings) -> str:
    """Return why there is no cheapest among designs for different loads."""
    served = [float(given["served_year_wh"]) for given in made.given.values()]
    least, most = (energy(wh, settings, max(served)) for wh in (min(served), max(served)))
    return say("compare.unlike", least=least, most=most)


def side_rows(made: Comparison, settings: Settings) -> Rows:
    """Return the designs side by side: what they are, what the years made of them, what they cost."""
    rows = [[say("compare.head"), *made.names]]
    systems = [run.design.system for run in made.runs.values()]
    rows.append([capital(say("compare.title_row")), *(run.design.plan.title for run in made.runs.values())])
    for key, name in (("bank", "bank_wh"), ("array", "array_w")):
        rows.append([capital(say(f"compare.{key}")), *(show(name, system[name], settings) for system in systems)])
    for key, values in made.judged.items():
        name = _WEAR.get(key) or _JUDGED[key][0]
        rows.append([capital(say(f"compare.{key}")), *("–" if v is None else told(name, v, settings) for v in values)])
    for row in made.costs:
        rows.append([capital(row.label), *(_shown(row, value, made, settings) for value in row.values)])
    return rows


def _shown(row: Compared, value: float, made: Comparison, settings: Settings) -> str:
    if row.name.endswith("_cost"):
        return money(row.name, value, made.currency, settings)
    return energy(value, settings, max(row.values)) if row.name.endswith("_wh") else show(row.name, value, settings)


def turned_said(made: Comparison, turned: Turned, settings: Settings) -> str:
    """Return in a sentence whether an input reverses the choice, and where."""
    words = {"other": turned.other, "cheapest": made.cheapest, "moved": label_of(turned.moved)}
    if turned.differs:
        return say("compare.differ", **words)
    if turned.value is None:
        slider = QUANTITIES[turned.moved].slider or (0.0, 0.0, 0.0)
        low, high = (_amount(turned.moved, x, made, settings) for x in slider[:2])
        return say("compare.never", **words, low=low, high=high)
    now, value = (_amount(turned.moved, x, made, settings) for x in (turned.now, turned.value))
    return say("compare.turned", **words, value=value, now=now)


def _amount(name: str, value: float, made: Comparison, settings: Settings) -> str:
    return money(name, value, made.currency, settings) if name.endswith("_cost") else show(name, value, settings, 3)


def tornado_rows(made: Comparison, settings: Settings) -> Rows:
    """Return what the cheapest design costs with each input at its low and at its high end."""
    heads = ("input", "from", "costs", "to", "costs")
    rows = [[say(f"compare.{key}") for key in heads]]
    for swing in (bar.swing for bar in made.bars):
        cells = [
            text
            for value, cost in ((swing.low, swing.result_low), (swing.high, swing.result_high))
            for text in (_amount(swing.name, value, made, settings), money(RESULT, cost, made.currency, settings))
        ]
        rows.append([label_of(swing.name), *cells])
    return rows


def compare_json(made: Comparison) -> dict[str, Any]:
    """Return the comparison as plain values, with stable keys, in the units of the names.

    Designs that serve different loads are not ranked: ``cheapest`` is then ``None``, and nothing reverses it.
    """
    runs: Sequence[Run] = list(made.runs.values())
    ranked = made.alike
    return {
        "plans": made.names,
        "titles": [run.design.plan.title for run in runs],
        "years": runs[0].count,
        "seed": runs[0].seed,
        "bank_wh": [float(run.design.system["bank_wh"]) for run in runs],
        "array_w": [float(run.design.system["array_w"]) for run in runs],
        "judged": {
            key: {"name": _WEAR.get(key) or _JUDGED[key][0], "values": values} for key, values in made.judged.items()
        },
        "cost": {row.name: list(row.values) for row in made.costs},
        "cheapest": made.cheapest if ranked else None,
        "reverses": [vars(turned) for turned in made.turned] if ranked else [],
        "tornado": [
            {
                "name": bar.swing.name,
                "low": float(bar.swing.low),
                "high": float(bar.swing.high),
                "result_low": bar.swing.result_low,
                "result_high": bar.swing.result_high,
                "in_steps": bar.in_steps,
            }
            for bar in (made.bars if ranked else ())
        ],
    }
