"""Published examples: a bank and those that follow it, what is left of the last, and the life that decides."""

from published.case import PRACTICE, Case
from published.cost_cases import EXAMPLE

from offgrid_core.sizing.banks_teaching import BANK_AGAIN, BANK_PICKED, SAVED

_HANDBOOK = "present worth method, flows year by year in a financial library; residual value: NIST Handbook 135"
_YEARS = {n: EXAMPLE[n] for n in ("bank_life_years", "horizon_years", "year_by_row_years")}
_GIVEN = _YEARS | {n: EXAMPLE[n] for n in ("bank_cost", "discount_rate_frac")}
_MIN_RULE = "Spiers and Rasinkoski, Solar Energy 58 (1996) 147"

BANKS_CASES = [
    Case("LC065 with the first", "cost", BANK_AGAIN, "banks_cost", _GIVEN, 8155.72, 1e-5, _HANDBOOK, "computed"),
    Case(
        "LC065 bought", "cost", BANK_AGAIN, "bank_replaced_count", _YEARS,
        3, 1e-9, _HANDBOOK, "computed", "at the ends of years 6, 12 and 18",
    ),
    Case(
        "residual share", "cost", BANK_AGAIN, "bank_left_frac", _YEARS,
        4 / 6, 1e-9, _HANDBOOK, "from memory", "two of its six years are used up at year 20",
    ),
    Case(
        "residual worth", "cost", BANK_AGAIN, "bank_left_cost", _GIVEN,
        753.78, 1e-5, _HANDBOOK, "from memory, computed", "two thirds of 3000, times 0.376889 of 20 years at 5 %",
    ),
    Case(
        "residual none", "cost", BANK_AGAIN, "bank_left_frac", _YEARS | {"horizon_years": 18},
        0, 1e-9, _HANDBOOK, "from memory", "worn out on the last day, and not bought again",
    ),
    Case(
        "LC070 of the bank", "cost", BANK_AGAIN, "banks_year_cost", _GIVEN,
        654.436, 1e-5, _HANDBOOK, "computed", "8155.72 times 0.0802426, the payment of a loan of 20 years at 5 %",
    ),
    Case(
        "the dearer of two", "cost", SAVED, "saved_cost", {"first_banks_cost": 8000, "second_banks_cost": 7000},
        1000, 1e-9, PRACTICE, "common practice",
    ),
    Case(
        "LIF-008 kept long enough", "life", BANK_PICKED, "life_margin_years",
        {"cycles_count": 1500, "cycles_year_count": 365, "calendar_life_years": 5, "life_least_years": 4},
        0.1096, 1e-3, _MIN_RULE, "seen, computed", "4.11 years by cycles come before 5 by age",
    ),
]  # fmt: skip
