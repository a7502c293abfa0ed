"""Other templates of the exit quiz on cost: what is advised, and pages with a slip."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import (
    DELIVERED,
    FROM_LENDER,
    LINE,
    LIVED,
    PAGE_WORDS,
    THROUGH,
    WORDS,
)
from offgrid_core.worksheet import Sheet

_LIFE_AND_PRICE = Sheet(LIVED["cycle_life_years"], LIVED["bank_life_years"]) + THROUGH
_TARIFF = Sheet(*(DELIVERED[n] for n in ("recovery_factor", "year_cost", "kwh_cost")))


def _advice() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L13-exit-5",
            title="One year too many",
            statement="A comparison runs over twenty years. In it bank A is paid three times, bank B six times, and A "
            "wins narrowly. Somebody reckons with twenty-one years: now A loses by a thousand. What lies behind it?",
            hint="What was bought shortly before the end, and what is it worth then?",
            options=(
                Option(
                    "A is bought once more at the end of year 20, and stands there nearly unused",
                    "Credit what is left, or look at several horizons, before you advise.",
                    right=True,
                ),
                Option("one year more of interest lies on each of A's banks", mistake="CO-11"),
                Option("the first A was not counted as a replacement before", mistake="CO-05"),
                Option(
                    "A wore out faster in the last year",
                    "Does a bank know how long the sum runs?",
                ),
            ),
        ),
        Choose(
            id="L13-exit-5",
            title="A price in a leaflet",
            statement="A leaflet compares solar at Riverbend with a neighbour's engine. Solar costs 0.42 for each "
            "kilowatt-hour, it says: a year's cost over all that the modules could make. Half of that meets a full "
            "bank. What does the clinic really pay for each kilowatt-hour it uses?",
            hint="Which kilowatt-hours run the fridge?",
            options=(
                Option(
                    "about twice as much: only what is used may carry the cost",
                    "What is spilled helps nobody, so it pays for nothing.",
                    right=True,
                ),
                Option("0.42: what the modules make is what counts", mistake="CO-21"),
                Option("less than 0.42, once the interest is left out", mistake="CO-16"),
                Option("half of it: the other half is free", "Who pays for the modules that made the other half?"),
            ),
        ),
        Choose(
            id="L13-exit-5",
            title="Twice the bank for a hut that sleeps",
            statement="A forester's hut is lived in for six weeks. A dealer proposes a bank of double size: emptied "
            "half as deep, it would stand more than twice the cycles. It costs double. Your advice?",
            hint="What ends a bank that goes through forty cycles a year?",
            options=(
                Option(
                    "take the small one: both end by age, in the same year",
                    "There are years enough in its cycles; there are not in its calendar.",
                    right=True,
                ),
                Option("take the large one: it will last for a lifetime", mistake="CO-01"),
                Option("take the large one: each day empties it by half", mistake="CO-02"),
                Option(
                    "take the large one if inflation is high, for it lowers the rate",
                    "With equal lives, which of the two has the smaller bill in any year?",
                ),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L13-exit-6",
            title="A page about a used bank",
            statement="Before buying from a neighbour, someone noted: {cycles_count} cycles left, {cycles_year_count} "
            "needed a year, {calendar_life_years} until it is scrap. In line three each of {reference_cycles_count} "
            "cycles takes {reference_depth_frac} out of {bank_wh}; the neighbour asks {bank_cost}. Go through it from "
            "the top: is a line off, and how should it read?",
            hint=LINE,
            sheet=_LIFE_AND_PRICE,
            grids={
                "cycles_count": (850, 1000, 1200),
                "cycles_year_count": (120, 150, 180),
                "calendar_life_years": (3, 3.5, 4),
                "reference_cycles_count": (480, 560, 640),
                "reference_depth_frac": (0.3, 0.4, 0.6),
                "bank_wh": (7200, 9100, 11_500),
                "bank_cost": (560, 720, 940),
            },
            curated={
                "cycles_count": 1000,
                "cycles_year_count": 150,
                "calendar_life_years": 3.5,
                "reference_cycles_count": 560,
                "reference_depth_frac": 0.4,
                "bank_wh": 9100,
                "bank_cost": 720,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-07", "CO-10"),
            words=PAGE_WORDS | {n: WORDS[n] for n in ("bank_wh", "reference_cycles_count", "reference_depth_frac")},
        ),
        Slip(
            id="L13-exit-6",
            title="The tariff on the notice board",
            statement="How a tariff was found: {life_cycle_cost} for everything, {horizon_years}, "
            "{discount_rate_frac} above inflation, present worth factors adding up to {uniform_factor}; meters count "
            "{served_year_wh:kWh}, the modules' own display {array_year_wh:kWh}. One of these lines may be amiss. "
            "Name it and mend it.",
            hint=LINE,
            sheet=_TARIFF,
            given={"horizon_years": 20, "uniform_factor": 11.47, "discount_rate_frac": 0.06},
            grids={
                "life_cycle_cost": (13_500, 17_800, 24_000, 30_500),
                "served_year_wh": (820_000, 1_040_000, 1_330_000),
                "array_year_wh": (1_900_000, 2_500_000, 3_100_000),
            },
            curated={"life_cycle_cost": 17_800, "served_year_wh": 1_040_000, "array_year_wh": 2_500_000},
            mistakes=("CO-16", "CO-17", "CO-18", "CO-21"),
            words={n: WORDS[n] for n in ("life_cycle_cost", "uniform_factor", "array_year_wh")},
        ),
        Slip(
            id="L13-exit-6",
            title="What the treasurer wrote",
            statement="The treasurer of a boat club reckons a new battery, {bank_cost} then as today, after another "
            "{year_by_row_years}: savings bring {nominal_rate_frac}, shops raise prices by {inflation_frac}. "
            "Read the lines; tell which one breaks first, unless all hold, and give the number that fits.",
            hint=LINE,
            sheet=FROM_LENDER,
            given={"bank_replaced_by_row_count": 1.0},
            grids={
                "bank_cost": (420, 560, 710, 880),
                "year_by_row_years": (8, 9, 10, 11),
                "nominal_rate_frac": (0.08, 0.09, 0.1),
                "inflation_frac": (0.02, 0.025),
            },
            curated={
                "bank_cost": 560,
                "year_by_row_years": 9,
                "nominal_rate_frac": 0.09,
                "inflation_frac": 0.02,
            },
            mistakes=("CO-05", "CO-11", "CO-12", "CO-23"),
            words=PAGE_WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
JUDGED: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_advice(), _pages())}
