"""Every battery unit of the catalogue as a bank: what would stand there, what it breaks, and a plain verdict.

The units of one chemistry lie on one axis, so that one solve judges them all; each chemistry brings tables of its own.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from offgrid_core import data
from offgrid_core.quantities import say, show
from offgrid_core.sizing.sharing import PLACEMENTS, SHARING, STRING_RESISTANCE, share_current
from offgrid_core.sizing.strings import STRINGS, STRINGS_COMPARED
from offgrid_core.system.givens import chemistry_givens
from offgrid_core.system.parts import UNIT_GIVENS, UNIT_LIMITS, columns
from offgrid_core.worksheet import Sheet, Solved

_GIVENS = UNIT_GIVENS | {"unit_cost": "cost"}
#: Shares that differ by less are equal.
_NOISE = 1e-12
_VERDICTS = {1: "strings.one", 2: "strings.two", 3: "strings.three"}


@dataclass(frozen=True)
class BankOption:
    """One kind of battery unit built into a bank.

    Attributes
    ----------
    unit
        The battery unit.
    whole
        Whether whole units in series make the bank voltage. If not, there is no such bank, and the counts, weight
        and cost are what the lines say of a part of a unit.
    verdict
        What to think of that many strings, in words.
    broken
        Labels of the limits it breaks, in worked order; lifting among them.
    fits
        Whether it breaks none of the limits that decide. A heavy unit fits: more hands lift it.
    units_in_series_count, strings_count, units_count
        Units in series, strings in parallel, units in all.
    bank_ah, bank_wh
        Capacity (Ah) and energy (Wh) on the label of the bank as built.
    overshoot_frac
        Amp-hours built beyond the need, as a share of it.
    autonomy_given_days
        Days the bank as built lasts.
    bank_mass_kg, unit_mass_kg
        Mass of all units, and of the one that has to be lifted, kg.
    lift_margin_kg
        What one person may lift less the mass of a unit, kg.
    units_cost
        Cost of all units.
    """

    unit: data.BatteryUnit
    whole: bool
    verdict: str
    broken: tuple[str, ...]
    fits: bool
    units_in_series_count: float
    strings_count: float
    units_count: float
    bank_ah: float
    bank_wh: float
    overshoot_frac: float
    autonomy_given_days: float
    bank_mass_kg: float
    unit_mass_kg: float
    lift_margin_kg: float
    units_cost: float


#: The numbers of an option; each is a line or a given of the worksheet.
NUMBERS = tuple(n for n in BankOption.__annotations__ if n in {*STRINGS, *STRINGS_COMPARED, *_GIVENS})


def bank_options(
    sheet: Sheet, given: Mapping[str, Any], chemistry: str | None = None, folder: Path | None = None
) -> tuple[BankOption, ...]:
    """Return every battery unit of the catalogue as a bank.

    Parameters
    ----------
    sheet
        A worksheet with the lines of strings in it; its limits among ``UNIT_LIMITS`` decide.
    given
        Its inputs, for one bank need. Values of the unit and of its chemistry are put in here.
    chemistry
        Only units of this chemistry; of every chemistry if not given.
    folder
        A person's own folder of data files.

    Returns
    -------
    tuple of BankOption
        First the fewest limits broken, so that what fits comes first; then the fewest strings, then the smallest
        bank: the order in which a design chooses. Lifting takes no part in it.

    Raises
    ------
    OffgridError
        If the chemistry is not known, an input is missing, or a value leaves the range of a table.
    """
    judged = [n for n in UNIT_LIMITS if n in sheet]
    deciding = sheet.upto("series_margin_count", *(n for n in NUMBERS if n in STRINGS), *judged)
    kinds = data.chemistries(folder) if chemistry is None else (data.chemistry(chemistry, folder),)
    ranked: list[tuple[tuple[float, ...], BankOption]] = []
    for kind in kinds:
        units = [u for u in data.battery_units(folder) if u.chemistry == kind.key]
        ranked += _judged(deciding, {**given, **chemistry_givens(kind, folder)}, units)
    return tuple(option for _, option in sorted(ranked, key=lambda pair: pair[0]))


def _judged(
    deciding: Sheet, given: Mapping[str, Any], units: Sequence[data.BatteryUnit]
) -> Iterable[tuple[tuple[float, ...], BankOption]]:
    """Yield each unit's rank and what its bank would be, from one solve."""
    solved = (deciding + STRINGS_COMPARED).solve({**given, **columns(units, _GIVENS)})
    row = (len(units),)
    numbers = {n: np.broadcast_to(solved[n], row).tolist() for n in NUMBERS}
    broken = {n: np.broadcast_to(b, row) for n, b in solved.broken().items()}
    against = np.sum([b for n, b in broken.items() if n in deciding], axis=0)
    for place, unit in enumerate(units):
        own = {n: values[place] for n, values in numbers.items()}
        whole = not broken["series_margin_count"][place]
        option = BankOption(
            unit=unit,
            whole=whole,
            verdict=_verdict(unit, whole, own["strings_count"], solved["bank_voltage_v"]),
            broken=tuple(solved.sheet[n].label for n in broken if broken[n][place]),
            fits=not against[place],
            **own,
        )
        yield (float(against[place]), own["strings_count"], own["bank_ah"]), option


def _verdict(unit: data.BatteryUnit, whole: bool, strings_count: float, bank_voltage_v: float) -> str:
    if not whole:
        return say("strings.not_whole", unit=show("unit_v", unit.unit_v), bank=show("unit_v", bank_voltage_v))
    many = _VERDICTS.get(int(strings_count))
    return say(many) if many else say("strings.more", count=show("strings_count", strings_count))


def sharing_of(system: Solved, current_a: float) -> dict[str, Solved]:
    """Return, by placement of the leads, how the strings of a bank share a current; nothing for a single string.

    Parameters
    ----------
    system
        The chain solved.
    current_a
        Current of the whole bank, A.
    """
    strings = int(system["strings_count"])
    if strings < 2:
        return {}
    each = STRING_RESISTANCE.solve({n: system[n] for n in STRING_RESISTANCE.inputs})["string_ohm"]
    shared = {}
    for placement in PLACEMENTS:
        found = share_current(placement, strings, current_a, each, link_ohm=system["link_ohm"])
        given = {n: system[n] for n in SHARING.inputs if n in system}
        shares = np.asarray(found.share_by_string_frac)
        if np.ptp(shares) < _NOISE:
            shares = np.full(strings, 1 / strings)
        shared[placement] = SHARING.solve({**given, "string_share_by_row_frac": shares})
    return shared
