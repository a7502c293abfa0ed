"""Exit quiz of the lesson on cost and battery life: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_exit_judge_more import JUDGED
from offgrid_core.practice.slots.l13_exit_later_more import LATER_ONES
from offgrid_core.practice.slots.l13_exit_more import OTHERS
from offgrid_core.practice.slots.l13_sheets_more import (
    DELIVERED,
    ENDS,
    EVERY_YEAR,
    FIRST_END,
    FROM_LENDER,
    LATE_MONEY,
    LIFETIME,
    LINE,
    LIVED,
    PAGE,
    PAGE_WORDS,
    THROUGH,
    USED,
    WORDS,
)

_OTHERS = {**OTHERS, **LATER_ONES, **JUDGED}


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L13-exit-1",
            others=_OTHERS["L13-exit-1"],
            title="How long will the mast's battery last?",
            statement="A desert mast's battery is hardly asked for anything: {cycles_year_count} cycles a year, of "
            "{cycles_count} that it stands at that depth. Its maker gives it {float_life_years} of float at "
            "{life_table_c}, halved by each {halving_k}; in its dark box the mean is {life_temp_c}. For how many "
            "years has it cycles, and after how many is it replaced?",
            hint=FIRST_END,
            sheet=LIVED,
            given={"life_table_c": 20},
            grids={
                "cycles_year_count": (80, 95, 110, 130),
                "cycles_count": (1250, 1400, 1700, 2000),
                "float_life_years": (7, 8, 10),
                "life_temp_c": (24, 26, 28),
                "halving_k": (8, 10),
            },
            curated={
                "cycles_year_count": 95,
                "cycles_count": 1700,
                "float_life_years": 8,
                "life_temp_c": 26,
                "halving_k": 10,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-04", "CO-25"),
            words=WORDS,
            asked=tuple(map(Step, ENDS)),
        ),
        Work(
            id="L13-exit-2",
            others=_OTHERS["L13-exit-2"],
            title="An offer for the hut",
            statement="For {bank_cost} Fell hut is offered a bank of {bank_wh}. Of each cycle {reference_depth_frac} "
            "of that comes out, {reference_cycles_count} times. State the energy of its whole life and its price for "
            "every kilowatt-hour of it, without interest.",
            hint=LIFETIME,
            sheet=THROUGH,
            grids={
                "bank_cost": (2900, 3600, 4400, 5300),
                "bank_wh": (14_500, 18_200, 22_000),
                "reference_depth_frac": (0.3, 0.4, 0.6),
                "reference_cycles_count": (420, 560, 900, 1280),
            },
            curated={
                "bank_cost": 3600,
                "bank_wh": 18_200,
                "reference_depth_frac": 0.4,
                "reference_cycles_count": 900,
            },
            mistakes=("CO-07", "CO-09", "CO-10"),
            words=WORDS,
            asked=tuple(map(Step, THROUGH)),
        ),
        Work(
            id="L13-exit-3",
            others=_OTHERS["L13-exit-3"],
            title="A fund for the clinic",
            statement="Riverbend pays {bank_cost} for its bank today, and as much again, at today's prices, in the two "
            "years of the table. The bank in town gives {nominal_rate_frac} on savings while all prices grow by "
            "{inflation_frac}. Give the rate above inflation, both factors, and what has to be put aside today for "
            "the later banks.",
            hint=LATE_MONEY,
            sheet=FROM_LENDER.upto("bank_replaced_cost"),
            given={"bank_replaced_by_row_count": (1.0, 1.0)},
            rows=("first new bank", "second new bank"),
            grids={
                "bank_cost": (2900, 3500, 4100, 5200),
                "nominal_rate_frac": (0.09, 0.1, 0.11, 0.12),
                "inflation_frac": (0.02, 0.03),
                "year_by_row_years": ((5, 9), (6, 12), (7, 14), (8, 15)),
            },
            curated={
                "bank_cost": 5200,
                "nominal_rate_frac": 0.1,
                "inflation_frac": 0.02,
                "year_by_row_years": (8, 15),
            },
            mistakes=("CO-05", "CO-11", "CO-12", "CO-23"),
            words=WORDS,
            asked=(
                Step("discount_rate_frac"),
                Step("present_by_row_factor", 0),
                Step("present_by_row_factor", 1),
                Step("bank_replaced_cost"),
            ),
        ),
        Work(
            id="L13-exit-4",
            others=_OTHERS["L13-exit-4"],
            title="A fair price at the hut",
            statement="Guests of Fell hut are to pay for what they use, and no more. All of the system comes to "
            "{life_cycle_cost} in money of today, for {horizon_years} at {discount_rate_frac} above inflation. "
            "{served_year_wh:kWh} a year are used; {array_year_wh:kWh} could be made. Find the factor of a payment "
            "every year, one year's share, one year's cost, and the price.",
            hint=USED,
            sheet=DELIVERED,
            given=EVERY_YEAR,
            grids={
                "life_cycle_cost": (16_500, 21_000, 26_500, 33_000),
                "horizon_years": (16, 20, 24),
                "discount_rate_frac": (0.04, 0.05, 0.07),
                "served_year_wh": (780_000, 960_000, 1_150_000),
                "array_year_wh": (1_900_000, 2_300_000, 2_800_000),
            },
            curated={
                "life_cycle_cost": 16_500,
                "horizon_years": 24,
                "discount_rate_frac": 0.04,
                "served_year_wh": 960_000,
                "array_year_wh": 1_900_000,
            },
            mistakes=("CO-16", "CO-17", "CO-21"),
            words=WORDS,
            asked=tuple(map(Step, ("uniform_factor", "recovery_factor", "year_cost", "kwh_cost"))),
        ),
        Choose(
            id="L13-exit-5",
            others=_OTHERS["L13-exit-5"],
            title="Two designs, one advice",
            statement="Over twenty years at 2 % above inflation a large bank, bought twice, is cheaper than a small "
            "one, bought six times. The client borrows at 9 % above inflation instead. What becomes of the advice?",
            hint="Which of the two is paid mostly on the first day?",
            options=(
                Option(
                    "it may turn to the small bank: its later purchases now weigh much less",
                    "The dearer money is, the more it pays to put payments off.",
                    right=True,
                ),
                Option("it stands all the firmer: interest makes each later bank dearer", mistake="CO-11"),
                Option("it turns, as the first small bank counts as one of the six to come", mistake="CO-05"),
                Option(
                    "it stands: the rate is the same for both",
                    "The rate is the same, but are the years of payment?",
                ),
            ),
        ),
        Slip(
            id="L13-exit-6",
            others=_OTHERS["L13-exit-6"],
            title="A page for a mountain inn",
            statement="A bank that stands {cycles_count} cycles and goes through {cycles_year_count} a year; too old "
            "after {calendar_life_years}; {bank_cost} to buy. Interest {nominal_rate_frac}, inflation "
            "{inflation_frac}. The only later bank falls due after {year_by_row_years}. Which line is the "
            "first to go wrong, if any, and what belongs there?",
            hint=LINE,
            sheet=PAGE,
            given={"bank_replaced_by_row_count": 1, "year_by_row_years": 9},
            grids={
                "cycles_count": (2300, 2600, 3000),
                "cycles_year_count": (140, 170, 200),
                "calendar_life_years": (8.2, 8.5, 8.8),
                "bank_cost": (2100, 2800, 3700),
                "nominal_rate_frac": (0.08, 0.09, 0.11),
                "inflation_frac": (0.02, 0.03),
            },
            curated={
                "cycles_count": 2600,
                "cycles_year_count": 170,
                "calendar_life_years": 8.5,
                "bank_cost": 2800,
                "nominal_rate_frac": 0.09,
                "inflation_frac": 0.02,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-05", "CO-11", "CO-23"),
            words=PAGE_WORDS,
        ),
    )
