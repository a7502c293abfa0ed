"""Problems of the lesson on cost and battery life; choices, what is judged and what is mixed in stand beside it."""

from offgrid_core.practice.kinds import Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l13_judge_more import judge
from offgrid_core.practice.slots.l13_mixed_more import mixed
from offgrid_core.practice.slots.l13_open_more import open_ones
from offgrid_core.practice.slots.l13_ranges_more import ranges
from offgrid_core.practice.slots.l13_sheets_more import (
    DELIVERED,
    ENDS,
    EVERY_YEAR,
    FIRST_END,
    FROM_LENDER,
    LATE_MONEY,
    LATER,
    LATER_IDEA,
    LIFE_IDEA,
    LIFETIME,
    LIVED,
    THROUGH,
    THROUGH_IDEA,
    USED,
    USED_IDEA,
    WHEN,
    WORDS,
)
from offgrid_core.sizing.banks_teaching import BANK_AGAIN

_TWICE = {"bank_replaced_by_row_count": (1.0, 1.0)}
#: Price and life of the small bank of the lesson's panel.
_SMALL_BANK = {"bank_cost": 1650.64, "bank_life_years": 3.1321}
_LATER_TWO = ("first new bank", "second new bank")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    entry = entry_check("L13", *practice)
    return (*open_ones(), _guess(), *entry, _explore(), *_faded(), *practice, *ranges(), *mixed(), *judge())


def _guess() -> Slot:
    return Guess(
        id="L13-guess",
        title="Guess, then lock it",
        statement="A bank costs {bank_cost} and lasts {bank_life_years}. Prices only keep up with inflation, and money "
        "that is not spent earns {discount_rate_frac} a year above it. What do this bank and all later ones come to "
        "over {horizon_years}, in money of today?",
        hint=WHEN,
        principle=LATER_IDEA,
        sheet=BANK_AGAIN.upto("banks_cost"),
        given=EVERY_YEAR,
        curated=_SMALL_BANK | {"discount_rate_frac": 0.05, "horizon_years": 20},
        starts_curated=True,
        words=WORDS,
        step=Step("banks_cost"),
    )


def _explore() -> Slot:
    return Rise(
        id="L13-explore",
        title="Predict, then slide",
        statement="Fell hut's small bank costs {bank_cost} and is worn out by its cycles after {bank_life_years}. Over "
        "{horizon_years} it is bought again and again. So far nobody asked for interest: the discount rate is "
        "{discount_rate_frac}. Now it is {discount_rate_after_frac}. What becomes of the small bank and all later "
        "ones, in money of today?",
        hint="What must lie aside today to pay a bill of later years?",
        principle=LATER_IDEA,
        sheet=BANK_AGAIN.upto("banks_cost"),
        given=EVERY_YEAR | _SMALL_BANK | {"horizon_years": 20},
        curated={"discount_rate_frac": 0, "discount_rate_after_frac": 0.1},
        starts_curated=True,
        words=WORDS | {"banks_cost": "small bank's cost"},
        result="banks_cost",
        moved="discount_rate_frac",
        after="discount_rate_after_frac",
        reasons=(
            Option(
                "later banks count for less: a smaller sum put aside today grows until it pays for them",
                "Only the first bank is paid today, in full. The later it is, the less a payment weighs.",
                right=True,
            ),
            Option("interest is put on every later bank, so each grows dearer", mistake="CO-11"),
            Option("seven banks are seven banks, whatever the rate", mistake="CO-13"),
            Option(
                "the rate makes the banks last longer",
                "What in the bank knows of interest?",
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L13-faded-1",
            title="Faded: the first two lines are yours",
            statement="A hotel's bank stands {cycles_count} cycles of the depth that its days reach, and goes "
            "through {cycles_year_count} in a year. On float, at {life_table_c}, its maker gives it "
            "{float_life_years}; each {halving_k} above that halve them. Its room is at {life_temp_c} on average.",
            hint=FIRST_END,
            principle=LIFE_IDEA,
            sheet=LIVED,
            given={"life_table_c": 20},
            grids={
                "cycles_count": (2150, 2400, 2700, 2950),
                "cycles_year_count": (150, 170, 190, 210),
                "float_life_years": (9, 10, 12),
                "life_temp_c": (23, 25, 27),
                "halving_k": (8, 10),
            },
            curated={
                "cycles_count": 2400,
                "cycles_year_count": 170,
                "float_life_years": 10,
                "life_temp_c": 25,
                "halving_k": 10,
            },
            mistakes=("CO-02", "CO-03", "CO-04", "CO-25"),
            words=WORDS,
            asked=(Step("cycle_life_years"), Step("calendar_life_years")),
            filled=(Step("bank_life_years"),),
        ),
        Work(
            id="L13-faded-2",
            title="Faded: all but the last line are yours",
            statement="Riverbend's bank costs {bank_cost} and must be bought again twice before the horizon, in the "
            "years of the table. The clinic's money would earn {discount_rate_frac} a year above inflation.",
            hint=LATE_MONEY,
            principle=LATER_IDEA,
            sheet=LATER,
            given=_TWICE,
            grids={
                "bank_cost": (2600, 3150, 3700, 4300),
                "discount_rate_frac": (0.06, 0.07, 0.08, 0.09),
                "year_by_row_years": ((5, 10), (6, 12), (7, 14), (8, 16)),
            },
            curated={"bank_cost": 3150, "discount_rate_frac": 0.07, "year_by_row_years": (6, 12)},
            mistakes=("CO-05", "CO-11", "CO-12", "CO-14"),
            words=WORDS,
            rows=_LATER_TWO,
            asked=(Step("present_by_row_factor", 0), Step("present_by_row_factor", 1), Step("bank_replaced_cost")),
            filled=(Step("banks_cost"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L13-1",
            title="Worn out, or only old?",
            statement="At a school in the hills the batteries stand {cycles_count} cycles of the depth in question, of "
            "which a year takes {cycles_year_count}. A data sheet promises {float_life_years} on float at "
            "{life_table_c}, and half of it for each {halving_k} more. The store room has {life_temp_c} on average. "
            "How long do the cycles last, and how long does the bank, once its calendar is looked at too?",
            hint=FIRST_END,
            principle=LIFE_IDEA,
            sheet=LIVED,
            given={"life_table_c": 25},
            grids={
                "cycles_count": (1500, 1800, 2100, 2500),
                "cycles_year_count": (110, 130, 160, 200),
                "float_life_years": (8, 9, 11),
                "life_temp_c": (28, 30, 32, 34),
                "halving_k": (8, 10),
            },
            curated={
                "cycles_count": 1800,
                "cycles_year_count": 130,
                "float_life_years": 9,
                "life_temp_c": 30,
                "halving_k": 10,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-04", "CO-25"),
            words=WORDS,
            asked=tuple(map(Step, ENDS)),
        ),
        Work(
            id="L13-3",
            title="Price of what comes out",
            statement="A dealer wants {bank_cost} for a bank with {bank_wh} on its label. It stands "
            "{reference_cycles_count} cycles in which {reference_depth_frac} of the label goes out. How much energy "
            "does it give before it is worn out, and what does each kilowatt-hour of that cost, interest left aside?",
            hint=LIFETIME,
            principle=THROUGH_IDEA,
            sheet=THROUGH,
            grids={
                "bank_cost": (1350, 1800, 2450, 3200),
                "bank_wh": (6200, 8400, 10_600, 13_500),
                "reference_cycles_count": (480, 700, 850, 1280),
                "reference_depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={
                "bank_cost": 1800,
                "bank_wh": 8400,
                "reference_cycles_count": 700,
                "reference_depth_frac": 0.6,
            },
            mistakes=("CO-07", "CO-09", "CO-10"),
            words=WORDS,
            asked=tuple(map(Step, THROUGH)),
        ),
        Work(
            id="L13-4",
            title="Two banks still to come",
            statement="The cabin's owners pay {bank_cost} for a bank now and the same, in today's prices, in the two "
            "years of the table. A lender asks {nominal_rate_frac} a year, and prices rise by {inflation_frac}. Find "
            "the rate above inflation, the factor of each later year, what the later banks are worth today, and what "
            "all three come to.",
            hint=LATE_MONEY,
            principle=LATER_IDEA,
            sheet=FROM_LENDER,
            given=_TWICE,
            grids={
                "bank_cost": (1150, 1400, 1850, 2300),
                "nominal_rate_frac": (0.09, 0.1, 0.11, 0.12),
                "inflation_frac": (0.02, 0.025, 0.03),
                "year_by_row_years": ((5, 10), (6, 12), (7, 14), (6, 11)),
            },
            curated={
                "bank_cost": 1850,
                "nominal_rate_frac": 0.09,
                "inflation_frac": 0.025,
                "year_by_row_years": (5, 10),
            },
            mistakes=("CO-05", "CO-11", "CO-12", "CO-23", "CO-24"),
            words=WORDS,
            rows=_LATER_TWO,
            asked=(
                Step("discount_rate_frac"),
                Step("present_by_row_factor", 0),
                Step("present_by_row_factor", 1),
                Step("bank_replaced_cost"),
                Step("banks_cost"),
            ),
        ),
        Work(
            id="L13-7",
            title="What a kilowatt-hour has to cost",
            statement="Everything that the inn's system will ever cost comes to {life_cycle_cost} in today's money, "
            "over {horizon_years} at {discount_rate_frac} above inflation. Its array can make {array_year_wh:kWh} a "
            "year, of which the guests use {served_year_wh:kWh}. Find the factor of a payment every year, the share "
            "that falls on one year, the cost a year, and that of a kilowatt-hour.",
            hint=USED,
            principle=USED_IDEA,
            sheet=DELIVERED,
            given=EVERY_YEAR,
            grids={
                "life_cycle_cost": (14_500, 18_200, 23_600, 31_000),
                "horizon_years": (15, 18, 20, 25),
                "discount_rate_frac": (0.04, 0.05, 0.06, 0.08),
                "array_year_wh": (2_900_000, 3_400_000, 4_100_000),
                "served_year_wh": (1_350_000, 1_700_000, 2_150_000),
            },
            curated={
                "life_cycle_cost": 31_000,
                "horizon_years": 18,
                "discount_rate_frac": 0.06,
                "array_year_wh": 2_900_000,
                "served_year_wh": 1_700_000,
            },
            mistakes=("CO-16", "CO-17", "CO-21"),
            words=WORDS,
            asked=tuple(map(Step, ("uniform_factor", "recovery_factor", "year_cost", "kwh_cost"))),
        ),
    )
