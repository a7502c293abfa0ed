"""Other templates of the exit quiz on cost: later banks in today's money, and the cost of energy that is used."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import (
    DELIVERED,
    EVERY_YEAR,
    FROM_LENDER,
    HOW_MANY,
    LATE_MONEY,
    LATER,
    USED,
    WHEN,
    WORDS,
)
from offgrid_core.worksheet import Sheet

_COUNTED = HOW_MANY + LATER.upto("bank_replaced_cost")
_SHARED = Sheet(*(DELIVERED[n] for n in ("recovery_factor", "year_cost", "kwh_cost")))
_YEARLY = DELIVERED.upto("year_cost")


def _later() -> tuple[Slot, ...]:
    return (
        Work(
            id="L13-exit-3",
            title="One bank, a long time from now",
            statement="The lighthouse board will need one more battery like today's, priced {bank_cost}; the bill is "
            "expected after {year_by_row_years}. It lends at {nominal_rate_frac}, with everything growing "
            "dearer by {inflation_frac}. After the real rate and the factor, say what that bill weighs now, and what "
            "both batteries weigh together.",
            hint=LATE_MONEY,
            sheet=FROM_LENDER,
            given={"bank_replaced_by_row_count": 1.0},
            grids={
                "bank_cost": (640, 780, 950, 1150),
                "year_by_row_years": (7, 8, 9, 10),
                "nominal_rate_frac": (0.08, 0.09, 0.1),
                "inflation_frac": (0.02, 0.03),
            },
            curated={
                "bank_cost": 780,
                "year_by_row_years": 9,
                "nominal_rate_frac": 0.09,
                "inflation_frac": 0.02,
            },
            mistakes=("CO-05", "CO-11", "CO-12", "CO-23"),
            words=WORDS,
            asked=tuple(map(Step, FROM_LENDER)),
        ),
        Work(
            id="L13-exit-3",
            title="Count them first",
            statement="Each {bank_life_years} a school buys itself new batteries, always {bank_cost} at present "
            "prices, and always when the year in which the old ones fail has ended. Nothing is bought when the plan "
            "of {horizon_years} is over. Count the later sets, then bring them to today with {discount_rate_frac} "
            "above inflation.",
            hint=WHEN,
            sheet=_COUNTED,
            given=EVERY_YEAR,
            grids={
                "bank_life_years": (6, 7, 8),
                "bank_cost": (1350, 1900, 2600, 3400),
                "horizon_years": (20, 22, 23),
                "discount_rate_frac": (0.05, 0.06, 0.08),
            },
            curated={"bank_life_years": 7, "bank_cost": 1900, "horizon_years": 20, "discount_rate_frac": 0.06},
            mistakes=("CO-05", "CO-11", "CO-12"),
            words=WORDS,
            asked=(Step("bank_replaced_count"), Step("bank_replaced_cost")),
        ),
        Backwards(
            id="L13-exit-3",
            title="How dear may a short life be?",
            statement="{rival_cost} would buy Gull mast a battery for good. A plain one has to be fetched again in "
            "the years listed, each time for the same money, and the owner's capital brings {discount_rate_frac} above "
            "inflation. Below which price tag does the plain kind win?",
            hint="With such a price tag, what do the plain ones weigh altogether?",
            sheet=LATER,
            given={"bank_replaced_by_row_count": (1.0, 1.0)},
            rows=("second trip", "third trip"),
            grids={
                "rival_cost": (1150, 1500, 1900, 2300),
                "discount_rate_frac": (0.06, 0.07, 0.08),
                "year_by_row_years": ((5, 9), (6, 11), (7, 13), (8, 16)),
            },
            curated={"rival_cost": 1500, "discount_rate_frac": 0.07, "year_by_row_years": (6, 11)},
            mistakes=("CO-05", "CO-11", "CO-12"),
            words=WORDS,
            unknown="bank_cost",
            span=(1, 100_000),
            result="banks_cost",
            wanted="rival_cost",
        ),
    )


def _energy() -> tuple[Slot, ...]:
    return (
        Work(
            id="L13-exit-4",
            title="Every year the same sum",
            statement="A cooperative spreads {life_cycle_cost} evenly, so that each of {horizon_years} carries the "
            "same, with {discount_rate_frac} interest above inflation. First add up the present worth factors of those "
            "years, then turn that over, then state the yearly sum.",
            hint="Would a lender who is paid that sum each year get everything back?",
            sheet=_YEARLY,
            given=EVERY_YEAR,
            grids={
                "life_cycle_cost": (9500, 12_800, 17_400, 22_600),
                "horizon_years": (12, 15, 18, 22),
                "discount_rate_frac": (0.04, 0.06, 0.07),
            },
            curated={"life_cycle_cost": 12_800, "horizon_years": 15, "discount_rate_frac": 0.06},
            mistakes=("CO-16", "CO-17"),
            words=WORDS,
            asked=tuple(map(Step, ("uniform_factor", "recovery_factor", "year_cost"))),
        ),
        Work(
            id="L13-exit-4",
            title="More made than used",
            statement="From a report about the cabin: life-cycle cost {life_cycle_cost}; horizon {horizon_years}; "
            "rate {discount_rate_frac}; sum of its present worth factors {uniform_factor}; sunshine turned into "
            "{array_year_wh:kWh}, taken by lamps and fridge {served_year_wh:kWh}. The last page is missing. Restore "
            "it: a year's share, a year's cost, the cost of one kilowatt-hour.",
            hint=USED,
            sheet=_SHARED,
            given={"horizon_years": 20, "discount_rate_frac": 0.06, "uniform_factor": 11.47},
            grids={
                "life_cycle_cost": (7200, 9100, 11_400, 14_600),
                "array_year_wh": (880_000, 1_050_000, 1_300_000),
                "served_year_wh": (290_000, 370_000, 450_000),
            },
            curated={"life_cycle_cost": 9100, "array_year_wh": 1_050_000, "served_year_wh": 370_000},
            mistakes=("CO-16", "CO-18", "CO-21"),
            words=WORDS,
            asked=tuple(map(Step, _SHARED)),
        ),
        Backwards(
            id="L13-exit-4",
            title="What may it all cost?",
            statement="In a valley people can pay {most_kwh_cost} per kilowatt-hour. They would use "
            "{served_year_wh:kWh} yearly out of the {array_year_wh:kWh} that modules would yield, during "
            "{horizon_years}, with money at {discount_rate_frac} above inflation. To how much may a system come, from "
            "first day to last, in present money?",
            hint="If it comes to that, what must each kilowatt-hour that is used bring in?",
            sheet=DELIVERED,
            given=EVERY_YEAR,
            grids={
                "most_kwh_cost": (0.65, 0.8, 1.1, 1.3),
                "served_year_wh": (1_200_000, 1_600_000, 2_100_000),
                "array_year_wh": (2_600_000, 3_300_000, 4_200_000),
                "horizon_years": (15, 20, 25),
                "discount_rate_frac": (0.04, 0.05, 0.07),
            },
            curated={
                "most_kwh_cost": 0.8,
                "served_year_wh": 1_600_000,
                "array_year_wh": 3_300_000,
                "horizon_years": 20,
                "discount_rate_frac": 0.07,
            },
            mistakes=("CO-16", "CO-17", "CO-21"),
            words=WORDS | {"most_kwh_cost": "most for a kWh"},
            unknown="life_cycle_cost",
            span=(1, 10_000_000),
            result="kwh_cost",
            wanted="most_kwh_cost",
        ),
    )


#: Id of a place -> its templates beside the first.
LATER_ONES: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_later(), _energy())}
