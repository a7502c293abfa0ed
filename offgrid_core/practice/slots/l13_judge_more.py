"""Judgement items of the lesson on cost: a page with a slip, and a bank to pick."""

from offgrid_core.practice.kinds import Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import (
    LATER_IDEA,
    LIFE_IDEA,
    LINE,
    PAGE,
    PAGE_WORDS,
    THROUGH_IDEA,
    WORDS,
)
from offgrid_core.sizing.banks_teaching import BANK_PICKED


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return _slip(), _pick()


def _slip() -> Slot:
    return Slip(
        id="L13-slip",
        title="Find the slip",
        statement="A page for Fell hut: {cycles_count} cycles, {cycles_year_count} a year, old after "
        "{calendar_life_years}; price {bank_cost}. A lender asks {nominal_rate_frac}, prices rise by {inflation_frac}. "
        "The one new bank before the horizon is paid after {year_by_row_years}. Find the first line that "
        "goes wrong, if there is one, and give its right value.",
        hint=LINE,
        principle=f"{LIFE_IDEA} {LATER_IDEA}",
        sheet=PAGE,
        given={"bank_replaced_by_row_count": 1, "year_by_row_years": 8},
        grids={
            "cycles_count": (2100, 2500, 2900),
            "cycles_year_count": (150, 180, 210),
            "calendar_life_years": (7.3, 7.5, 7.8),
            "bank_cost": (1900, 2600, 3400, 4200),
            "nominal_rate_frac": (0.08, 0.09, 0.1),
            "inflation_frac": (0.02, 0.03),
        },
        curated={
            "cycles_count": 2500,
            "cycles_year_count": 180,
            "calendar_life_years": 7.5,
            "bank_cost": 2600,
            "nominal_rate_frac": 0.09,
            "inflation_frac": 0.03,
        },
        mistakes=("CO-01", "CO-02", "CO-03", "CO-04", "CO-05", "CO-11", "CO-12", "CO-23"),
        words=PAGE_WORDS,
    )


def _pick() -> Slot:
    return Pick(
        id="L13-pick",
        title="Pick a bank",
        statement="Riverbend wants a bank that gives {spell_wh} over its sunless days. It goes through "
        "{cycles_year_count} cycles a year, {through_year_wh:kWh} in all. A technician comes by boat: no bank may end "
        "before {life_least_years}. There is {budget_cost} to spend. Each offer has its label, the depth it may be "
        "emptied to, its cycles at such use, and its years on the calendar there. Which keeps every limit and gives "
        "the cheapest kilowatt-hour? Costs are invented.",
        hint="Which of the two ends comes first, and what has gone through it by then?",
        principle=f"{LIFE_IDEA} {THROUGH_IDEA}",
        sheet=BANK_PICKED,
        given={"cycles_year_count": 330},
        grids={
            "spell_wh": (4600, 5200, 5800),
            "through_year_wh": (520_000, 610_000, 700_000),
            "life_least_years": (4.5, 5.5),
            "budget_cost": (3700, 4300, 4900),
        },
        curated={
            "spell_wh": 5200,
            "through_year_wh": 610_000,
            "life_least_years": 4.5,
            "budget_cost": 4300,
            "batch": 0,
        },
        parts={
            "bank_wh": (7200, 9600, 12_000, 14_400),
            "depth_frac": (0.4, 0.6, 0.8),
            "cycles_count": (1250, 1700, 2300, 3100),
            "calendar_life_years": (5, 6, 8, 10),
            "bank_cost": (1900, 2600, 3300, 4000, 5200),
        },
        cost="stored_kwh_cost",
        questions={
            "usable_margin_wh": "Emptied as deep as it may be, what does this bank give?",
            "life_margin_years": "Which end comes first here, and is that before the boat?",
            "budget_margin_cost": "What does it cost on the day it is bought?",
        },
        words={n: WORDS[n] for n in ("cycles_count", "calendar_life_years", "bank_wh", "bank_cost")}
        | {
            "depth_frac": "may be emptied by",
            "spell_wh": "energy of the sunless days",
            "through_year_wh": "energy through it in a year",
        },
    )
