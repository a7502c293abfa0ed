"""Published examples: present worth factors, capital recovery, growing fuel, and a whole life-cycle cost.

Left out, as no line is in question: the sinking fund factor (nobody here saves up for a replacement), and net present
value and rate of return of arbitrary flows (the first checks the plain reckoning that the tests compare with).
"""

from typing import Any

from published.case import Case

from offgrid_core.sizing.cost import COST, YEARS

_SPV = "NIST Handbook 135 (1995) and ASTM E917: 1 ÷ (1 + d)^n"
_UPV = "NIST Handbook 135: ((1 + d)^n − 1) ÷ (d (1 + d)^n)"
_RIGGS = "Riggs, Bedworth and Randhawa, Engineering Economics, 4th ed. 1996 (quoted)"

#: Discount rate, years: id and single present value, id and uniform present value. An id of "" is a row we lack.
_TABLES: tuple[tuple[float, int, str, float, str, float], ...] = (
    (0.03, 1, "LC001", 0.9709, "LC002", 0.9709),
    (0.03, 5, "LC003", 0.8626, "LC004", 4.5797),
    (0.03, 10, "LC005", 0.7441, "LC006", 8.5302),
    (0.03, 15, "LC007", 0.6419, "LC008", 11.9379),
    (0.03, 20, "LC009", 0.5537, "LC010", 14.8775),
    (0.03, 25, "LC011", 0.4776, "LC012", 17.4131),
    (0.03, 30, "LC013", 0.4120, "LC014", 19.6004),
    (0.05, 1, "LC015", 0.9524, "LC016", 0.9524),
    (0.05, 5, "", 0, "LC018", 4.3295),
    (0.05, 10, "LC019", 0.6139, "LC020", 7.7217),
    (0.05, 15, "LC021", 0.4810, "LC022", 10.3797),
    (0.05, 20, "LC023", 0.3769, "LC024", 12.4622),
    (0.05, 25, "LC025", 0.2953, "LC026", 14.0939),
    (0.05, 30, "LC027", 0.2314, "", 0),
    (0.07, 1, "LC029", 0.9346, "LC030", 0.9346),
    (0.07, 5, "LC031", 0.7130, "LC032", 4.1002),
    (0.07, 10, "LC033", 0.5083, "LC034", 7.0236),
    (0.07, 15, "", 0, "LC036", 9.1079),
    (0.07, 20, "LC037", 0.2584, "LC038", 10.594),
    (0.07, 25, "LC039", 0.184249, "LC040", 11.6536),
    (0.07, 30, "LC041", 0.131367, "LC042", 12.409),
    (0.10, 1, "LC043", 0.9091, "LC044", 0.9091),
    (0.10, 5, "LC045", 0.6209, "LC046", 3.7908),
    (0.10, 10, "LC047", 0.3855, "LC048", 6.1446),
    (0.10, 15, "LC049", 0.2394, "LC050", 7.6061),
    (0.10, 20, "LC051", 0.148644, "LC052", 8.5136),
    (0.10, 25, "LC053", 0.0923, "LC054", 9.077),
    (0.10, 30, "LC055", 0.0573086, "LC056", 9.4269),
)


def _single(id_: str, rate: float, years: float, factor: float, tol: float, source: str, tag: str) -> Case:
    given = {"discount_rate_frac": rate, "horizon_years": years}
    return Case(id_, "cost", COST, "horizon_factor", given, factor, tol, source, tag)


def _every(id_: str, result: str, rate: float, years: float, factor: float, tol: float, source: str, tag: str) -> Case:
    given = {"discount_rate_frac": rate, "horizon_years": years, "year_by_row_years": YEARS}
    return Case(id_, "cost", COST, result, given, factor, tol, source, tag)


_GROWING = {"discount_rate_frac": 0.05, "horizon_years": 20, "year_by_row_years": YEARS, "fuel_growth_frac": 0.02}

FACTOR_CASES = [
    *(_single(id_, d, n, spv, 2e-4, _SPV, "computed") for d, n, id_, spv, _, _ in _TABLES if id_),
    *(_every(id_, "uniform_factor", d, n, upv, 2e-4, _UPV, "computed") for d, n, _, _, id_, upv in _TABLES if id_),
    _single("LC057", 0.10, 5, 0.62092, 1e-4, _RIGGS, "seen"),
    _every("LC058", "uniform_factor", 0.10, 5, 3.7908, 1e-4, _RIGGS, "seen"),
    _every("LC059", "recovery_factor", 0.10, 5, 0.2638, 1e-4, _RIGGS, "seen"),
    _every("LC064", "recovery_factor", 0.08, 20, 0.1018522, 1e-6, "numpy-financial, payment of a loan", "computed"),
    Case(
        "LC061", "cost", COST, "fuel_factor", _GROWING,
        14.9587, 1e-5, "NIST Handbook 135: (1 + e) ÷ (d − e) [1 − ((1 + e) ÷ (1 + d))^n]", "seen, computed",
    ),
    Case(
        "LC061 note", "cost", COST, "fuel_factor", _GROWING | {"fuel_growth_frac": 0.05},
        20, 1e-9, "NIST Handbook 135: n where growth and discount rate are alike", "seen",
    ),
]  # fmt: skip

_HANDBOOK = "present worth method, life-cycle cost = C + M + E + R − S; the flows year by year in a financial library"
#: Battery 3000 at years 6, 12 and 18; 1500 at year 10; 12 000 in all at first; 150 a year; a fifth left at year 20.
EXAMPLE: dict[str, Any] = {
    "bank_cost": 3000,
    "array_cost": 7500,
    "controllers_cost": 1500,
    "inverter_cost": 0,
    "generator_cost": 0,
    "balance_frac": 0,
    "discount_rate_frac": 0.05,
    "horizon_years": 20,
    "year_by_row_years": YEARS,
    "bank_life_years": 6,
    "controller_life_years": 10,
    "inverter_life_years": 10,
    "generator_life_years": 10,
    "array_life_years": 25,
    "upkeep_year_cost": 150,
    "fuel_year_l": 0,
    "fuel_litre_cost": 0,
    "fuel_growth_frac": 0,
    "salvage_frac": 0.20,
    "served_year_wh": 1_825_000,
}


def _example(id_: str, result: str, expected: float, note: str = "") -> Case:
    needed = {result}
    for name in reversed(list(COST)):
        if name in needed and name not in EXAMPLE:
            needed |= set(COST[name].needs)
    given = {name: value for name, value in EXAMPLE.items() if name in needed}
    return Case(id_, "cost", COST, result, given, expected, 1e-5, _HANDBOOK, "computed", note)


EXAMPLE_CASES = [
    _example("LC065", "bank_replaced_cost", 5155.72),
    _example("LC066", "upkeep_cost", 1869.33),
    _example("LC067", "controllers_replaced_cost", 920.87),
    _example("LC068", "salvage_cost", 904.53, "the record has it negative; here it is taken off"),
    _example("LC069", "life_cycle_cost", 19041.387),
    _example("LC070", "year_cost", 1527.93),
    _example("LC071", "kwh_cost", 0.83722),
]
