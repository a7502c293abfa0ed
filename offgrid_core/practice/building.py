"""A complete design as a form: what a client wants, what stands on the form, and the rules that judge it.

The rules are the limits of the worksheets, solved with the counts, fuses, cables and devices of the form; the year is
the year simulation of that same design. What the client wishes for beside them is compared with it and nothing more.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import islice
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.practice.building_design import chained, circuited, judged_by, source, wired
from offgrid_core.practice.building_rules import AT_LEAST, AT_MOST, FORM, PART, RULES, SAFETY, WORKED, Rule
from offgrid_core.practice.mistakes import Mistake
from offgrid_core.practice.problem import Step, picked
from offgrid_core.sizing.fitting import TOGETHER_AC, TOGETHER_DC
from offgrid_core.system import parse_plan, size
from offgrid_core.system.design import Design, PartsChosen
from offgrid_core.system.fit import ROLES, Catalogue, parts_that_fit
from offgrid_core.worksheet import Sheet, Solved
from offgrid_core.year.outcome import drawn_weather, follow
from offgrid_core.year.weather import Weather

#: Feasible designs that a brief must have, and combinations of parts looked at to find them, cheapest first.
WANTED, _MOST = 3, 24
#: Years simulated, and the seed of their weather.
_YEARS, _SEED = 1, 3
_ROUND = 100

Entries = Mapping[str, Any]


@dataclass(frozen=True)
class Entry:
    """One thing on the form: its part of the form, its name, how it is come by, and its circuit if it is of one."""

    section: str
    name: str
    sort: str
    circuit: str = ""
    place: int = 0

    @property
    def id(self) -> str:
        """Its name in the answers."""
        return f"{self.name}.{self.place}" if self.place else self.name

    def step_in(self, design: Design) -> Step:
        """Return it as a line of a worksheet, with the row of its circuit."""
        return Step(self.name, design.circuit_names.index(self.circuit) if self.place else None)

    def number_in(self, design: Design) -> float:
        """Return what it comes to in a design."""
        return self.step_in(design).value_in(source(design, self.name))


@dataclass(frozen=True, eq=False)
class Built:
    """A form as built.

    Attributes
    ----------
    brief
        What it is held to.
    entries
        Every part and every number that was chosen, by id.
    fitting
        Whether inverter and controller are made for the bank's voltage, and the price of the parts.
    design
        The whole design; nothing where they are not, as nothing else can then be judged.
    is_wired
        Whether its circuits are those of the form: not where one is beyond the tables of the code setting.
    """

    brief: "Brief"
    entries: Entries
    fitting: Solved
    design: Design | None
    is_wired: bool = False

    @cached_property
    def limits(self) -> dict[str, bool]:
        """Whether each limit is kept, by name; one with rows, by name and place of the circuit."""
        kept: dict[str, bool] = {}
        solved = (self.fitting, *(judged_by(self.design, self.is_wired) if self.design else ()))
        for name, broken in (pair for each in solved for pair in each.broken().items()):
            if "by_row" not in name:
                kept[name] = not np.any(broken)
            elif self.design:
                rows = [self.design.circuit_names.index(c) for c in self.brief.circuits]
                kept |= {f"{name}.{i}": not broken[row] for i, row in enumerate(rows, 1)}
        return kept

    @cached_property
    def outcome(self) -> dict[str, float]:
        """What the worst of the years, the wear and the prices come to; nothing where no year can be worked."""
        if self.design is None:
            return {}
        cost = {"parts_cost": float(self.fitting["parts_cost" if self.design.plan.has_ac else "dc_parts_cost"])}
        try:
            found = follow(self.design, self.brief.weather)
        except OffgridError:
            return cost
        totals = found.years.totals
        worst = {"loss_energy_frac": np.max, "lowest_charge_frac": np.min, "generator_ran_h": np.max}
        year = {n: float(of(totals[n])) for n, of in worst.items() if n in totals}
        return cost | year | {"bank_life_years": float(found.wear["bank_life_years"])}

    def meets(self, wishes: Mapping[str, float]) -> dict[str, bool]:
        """Return whether each of the wishes is met, by the name of the outcome."""
        most = {n: self.outcome[n] <= wishes[w] for n, w in AT_MOST.items() if w in wishes and n in self.outcome}
        least = {n: self.outcome[n] >= wishes[w] for n, w in AT_LEAST.items() if w in wishes and n in self.outcome}
        return most | least

    @property
    def is_feasible(self) -> bool:
        """Whether every limit and every wish but the budget is kept; the limits first, as a year takes longest."""
        wished = {n for n, wish in (AT_MOST | AT_LEAST).items() if wish in self.brief.wishes}
        limits = [i for i, r in self.brief.rules.items() if r.name not in AT_MOST | AT_LEAST and r.name != r.at]
        if not all(self.limits.get(i, False) for i in limits):
            return False
        met = self.meets(self.brief.wishes)
        return all(met.get(n, False) for n in wished)


@dataclass(frozen=True, eq=False)
class Brief:
    """What a client wants, and the parts on offer.

    Attributes
    ----------
    base
        The site and the loads, sized from the whole catalogue: what no entry of the form changes.
    weather
        The years that every design is followed through.
    catalogue, devices
        Parts on offer.
    circuits
        Names of the main circuits that are on the form.
    wishes
        By name: most of the load lost, least charge, most hours of the generator, least life of the bank.
    """

    base: Design
    weather: Weather
    catalogue: Catalogue
    devices: tuple[data.ProtectiveDevice, ...]
    circuits: tuple[str, ...]
    wishes: Mapping[str, float]

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """Everything on the form, in order; what the brief has no use for is left out."""
        has = {"inverter": self.base.plan.has_ac, "peak_w": self.base.plan.has_ac}
        has |= {"dc_peak_w": self.base.given["dc_peak_w"] > 0, "generator": self.base.plan.generator is not None}
        found: list[Entry] = []
        for section, named in FORM.items():
            kept = [(n, sort) for n, sort in named if has.get(section, True) and has.get(n, True)]
            if section == "wiring":
                rows = enumerate(self.circuits, 1)
                found += [Entry(section, n, sort, circuit, i) for i, circuit in rows for n, sort in kept]
            else:
                found += [Entry(section, n, sort) for n, sort in kept]
        return tuple(found)

    @cached_property
    def code(self) -> data.CodeSetting:
        """The code setting of the plan."""
        return data.code_setting(self.base.plan.circuits.code)

    @cached_property
    def fitting(self) -> Sheet:
        """What says whether parts go together, and what they cost."""
        return TOGETHER_DC + TOGETHER_AC if self.base.plan.has_ac else TOGETHER_DC

    @cached_property
    def rules(self) -> dict[str, Rule]:
        """Every rule that applies, by its id: its name, with the place of the circuit after a dot if it has rows."""
        known = {n for s in (self.fitting, *(s.sheet for s in judged_by(self.base))) for n in s if s[n].severity}
        known |= {e.name for e in self.entries if e.sort == WORKED} | {"parts_cost"}
        known |= {n for n, wish in (AT_MOST | AT_LEAST).items() if wish in self.wishes}
        if "module string" not in self.circuits:  # with the fuse that the core gives each string it cannot be broken
            known.discard("module_fuse_margin_a")
        places = range(1, len(self.circuits) + 1)
        applying = [r for r in RULES if r.name in known]
        return {f"{r.name}.{i}" if i else r.name: r for r in applying for i in (places if "by_row" in r.name else (0,))}

    def severity(self, rule: Rule) -> str:
        """Return how bad it is when a rule is broken: what its limit says, else danger in safety, else service."""
        sheets = [self.fitting, *(solved.sheet for solved in judged_by(self.base))]
        said = next((s[rule.name].severity for s in sheets if rule.name in s and s[rule.name].severity), "")
        return said or ("danger" if rule.group == SAFETY else "service")

    def offer(self, name: str) -> Sequence[Any]:
        """Return the parts on offer for an entry of the form."""
        return self.devices if name == "device" else getattr(self.catalogue, name)

    def part(self, name: str, key: str) -> Any:
        """Return a part on offer by its key."""
        return next(p for p in self.offer(name) if p.key == key)

    @cached_property
    def feasible(self) -> tuple[Built, ...]:
        """The cheapest designs that keep every rule, three at most; each is of other parts."""
        return tuple(islice(self._sound_ones(), WANTED))

    @cached_property
    def sound(self) -> Built:
        """The cheapest of them.

        Raises
        ------
        OffgridError
            If there is none.
        """
        first = next(self._sound_ones(), None)
        if first is None:
            raise OffgridError("no design of the parts on offer keeps every rule; another brief is wanted")
        return first

    def _sound_ones(self) -> Iterator[Built]:
        """Yield designs that keep every rule, the cheapest parts first."""
        fit = parts_that_fit(self.base, self.catalogue)
        volts = float(self.base.given["bank_voltage_v"])
        generator = {e.id: e.number_in(self.base) for e in self.entries if e.section == "generator"}
        for place in sorted(fit.passing, key=lambda at: float(fit.cost[at]))[:_MOST]:
            parts = {r: self.offer(r)[i].key for r, i in zip(ROLES, place, strict=True) if self.offer(r)}
            series = float(fit.counts["modules_in_series_count"][place])
            begun = {**parts, **generator, "bank_voltage_v": volts, "modules_in_series_count": series}
            try:
                tried = built(self, self.worked(begun))
            except OffgridError:  # a circuit of it is beyond the tables
                continue
            if tried.is_feasible:
                yield tried

    @cached_property
    def budget(self) -> float:
        """The price of the dearest of the feasible designs found, up to the next hundred."""
        dearest = max(b.outcome["parts_cost"] for b in (self.sound, *self.feasible))
        return math.ceil(dearest / _ROUND) * float(_ROUND)

    def worked(self, begun: Entries, made: Mistake | None = None) -> dict[str, Any]:
        """Return the whole form of somebody who has chosen the parts and works out the rest, perhaps with a mistake.

        Parameters
        ----------
        begun
            Parts, bank voltage, modules in series, and what is entered of a generator; more is not heeded.
        made
            A mistake, made wherever it can be.
        """
        design = circuited(chained(self.base, self.parts_of(begun), begun, made=made), made)
        found: dict[str, Any] = {}
        for e in self.entries:
            if e.name == "device":
                found[e.id] = design.protection.devices[design.circuit_names.index(e.circuit)].key
            else:
                found[e.id] = begun[e.id] if e.sort == PART else e.number_in(design)
        return found

    def parts_of(self, entries: Entries) -> PartsChosen:
        """Return the parts that a form names."""
        found = {role: self.part(role, entries[role]) if self.offer(role) else None for role in ROLES}
        return PartsChosen(**found)  # type: ignore[arg-type]


def brief_of(
    text: str, offered: Mapping[str, int], circuits: Sequence[str], wishes: Mapping[str, float], seed: str
) -> Brief:
    """Return the brief of a plan.

    Parameters
    ----------
    text
        Text of the plan: site, loads, choices; parts that it names are not heeded.
    offered
        How many parts of each role are on offer; all that there are, if not said.
    circuits, wishes
        See :class:`Brief`.
    seed
        What the choice of the parts on offer hangs on.

    Raises
    ------
    OffgridError
        If the text is no plan, or the design leaves the range of a table.
    """
    return _brief(text, tuple(offered.items()), tuple(circuits), tuple(wishes.items()), seed)


@lru_cache(maxsize=48)
def _brief(
    text: str,
    offered: tuple[tuple[str, int], ...],
    circuits: tuple[str, ...],
    wishes: tuple[tuple[str, float], ...],
    seed: str,
) -> Brief:
    plan = parse_plan(text)
    base = size(plan)
    if absent := [c for c in circuits if c not in base.circuit_names]:
        raise OffgridError(f"circuits: {absent[0]!r} is not one of {', '.join(base.circuit_names)}")
    every: dict[str, Sequence[Any]] = {
        "battery_unit": [u for u in data.battery_units() if u.chemistry == plan.choices.chemistry],
        "module": data.modules(),
        "controller": [c for c in data.controllers() if c.kind == plan.choices.controller],
        "inverter": data.inverters() if plan.has_ac else (),
    }
    counts = dict(offered)
    some = {role: _some(parts, counts.get(role, len(parts)), f"{seed}|{role}") for role, parts in every.items()}
    weather = drawn_weather(base, _YEARS, _SEED)
    return Brief(base, weather, Catalogue(**some), tuple(data.protective_devices()), circuits, dict(wishes))


def _some(parts: Sequence[Any], count: int, seed: str) -> tuple[Any, ...]:
    """Return so many of the parts, in the order of the catalogue."""
    kept = sorted(parts, key=lambda p: picked(f"{seed}|{p.key}", 2**32))[:count]
    return tuple(p for p in parts if p in kept)


def built(brief: Brief, entries: Entries) -> Built:
    """Return a form as built.

    Parameters
    ----------
    entries
        Every part and chosen number, by id; numbers that are worked are not heeded.

    Raises
    ------
    OffgridError
        If the parts go together but a value leaves the range of a table.
    """
    return _built(brief, tuple((e.id, entries[e.id]) for e in brief.entries if e.sort != WORKED))


@lru_cache(maxsize=256)
def _built(brief: Brief, entries: tuple[tuple[str, Any], ...]) -> Built:
    chosen = dict(entries)
    parts = brief.parts_of(chosen)
    volts, banks = chosen["bank_voltage_v"], parts.controller.banks_v
    given: dict[str, Any] = {"bank_voltage_v": volts, "controller_bank_v": volts if volts in banks else banks[0]}
    if parts.inverter:
        given |= {"inverter_bank_v": parts.inverter.bank_v, "inverter_cost": parts.inverter.cost}
    limits = [n for n, line in brief.fitting.items() if line.severity]
    alike = brief.fitting.upto(*limits).solve(given)
    if any(np.any(b) for b in alike.broken().values()):
        return Built(brief, chosen, alike, None)
    counts = {n: chosen[n] for n in ("strings_count", "array_strings_count", "controllers_count")}
    design = chained(brief.base, parts, chosen, counts)
    try:
        design, is_wired = _wired(brief, circuited(design), chosen), True
    except OffgridError:
        is_wired = False
    given |= {n: design.system[n] for n in ("units_count", "modules_count", "controllers_count")}
    given |= {"unit_cost": parts.battery_unit.cost, "module_cost": parts.module.cost}
    fitting = brief.fitting.solve(given | {"controller_cost": parts.controller.cost})
    return Built(brief, chosen, fitting, design, is_wired)


def _wired(brief: Brief, design: Design, chosen: Entries) -> Design:
    """Return a design with the circuits of the form as they stand there."""
    rows = {
        design.circuit_names.index(circuit): (
            chosen[f"fuse_by_row_a.{i}"],
            chosen[f"cable_by_row_mm2.{i}"],
            brief.part("device", chosen[f"device.{i}"]),
        )
        for i, circuit in enumerate(brief.circuits, 1)
    }
    return wired(design, rows)
