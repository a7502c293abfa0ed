"""Problems of the lesson on cost that are worked from the other end, ranked, or guessed from factors."""

from offgrid_core.practice.kinds import Backwards, Factor, Knob, Rough
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import (
    EVERY_YEAR,
    LATER,
    LATER_IDEA,
    USED_IDEA,
    WORDS,
)
from offgrid_core.sizing.cost import COST
from offgrid_core.worksheet import Sheet

_RATED = ("present_by_row_factor", "within_by_row_factor", "uniform_factor")
#: From what is bought and burnt to the life-cycle cost.
_WHOLE_LIFE = Sheet(
    *(COST[n] for n in (*_RATED, "horizon_factor")),
    *(COST[n] for n in ("bank_replaced_by_row_count", "bank_replaced_cost", "first_cost", "upkeep_year_cost")),
    *(COST[n] for n in ("upkeep_cost", "fuel_price_by_row_factor", "fuel_factor", "fuel_cost", "salvage_cost")),
    COST["life_cycle_cost"].renamed(
        "life_cycle_cost", COST["life_cycle_cost"].label, replaced_cost="bank_replaced_cost"
    ),
)
#: The same from the sums, and on to the kilowatt-hour.
_EACH_KWH = Sheet(
    *(COST[n] for n in (*_RATED, "recovery_factor", "upkeep_cost", "life_cycle_cost", "year_cost", "kwh_cost"))
)
_UPKEEP = Sheet(*(COST[n] for n in (*_RATED, "upkeep_year_cost", "upkeep_cost")))


def ranges() -> tuple[Slot, ...]:
    """Return the four problems, in order."""
    return _backwards(), _each_kwh(), _whole_life(), _rough()


def _backwards() -> Slot:
    return Backwards(
        id="L13-6",
        title="Up to which price is it the cheaper one?",
        statement="For Riverbend there are two offers. A bank that outlives the horizon comes to {rival_cost}, once "
        "and for all. A short-lived one would be bought now and again, at today's price, in the two years of the "
        "table; the discount rate is {discount_rate_frac} above inflation. Up to which price is the short-lived bank "
        "the cheaper one?",
        hint="With that price, do all three short-lived banks together come to the price of the other?",
        principle=f"{LATER_IDEA} At the price found, the choice turns.",
        sheet=LATER,
        rows=("first new bank", "second new bank"),
        given={"bank_replaced_by_row_count": (1.0, 1.0)},
        grids={
            "rival_cost": (5200, 6400, 7800, 9100),
            "discount_rate_frac": (0.06, 0.07, 0.08, 0.09),
            "year_by_row_years": ((5, 10), (6, 12), (7, 14), (8, 15)),
        },
        curated={"rival_cost": 6400, "discount_rate_frac": 0.07, "year_by_row_years": (6, 12)},
        mistakes=("CO-05", "CO-11", "CO-12", "CO-13"),
        words=WORDS,
        unknown="bank_cost",
        span=(1, 100_000),
        result="banks_cost",
        wanted="rival_cost",
    )


def _each_kwh() -> Slot:
    return Knob(
        id="L13-9",
        title="Which knob moves the price of a kilowatt-hour?",
        statement="The inn bought its system for {first_cost}. Later parts come to {replaced_cost} in today's money, "
        "upkeep takes {upkeep_year_cost} a year, and {served_year_wh:kWh} are used in a year, over {horizon_years}. "
        "Somebody turns one of these knobs by a tenth. Which three move the cost of a kilowatt-hour most?",
        hint="Which knob acts on all of the cost, and which only on a part of it?",
        principle=f"{USED_IDEA} What the whole cost is spread over moves it in full; a part moves it by its share.",
        sheet=_EACH_KWH,
        given=EVERY_YEAR | {"fuel_cost": 0, "salvage_cost": 0},
        grids={
            "first_cost": (9000, 10_500, 12_000),
            "replaced_cost": (2600, 3400, 4200),
            "upkeep_year_cost": (70, 90, 110),
            "served_year_wh": (950_000, 1_200_000, 1_600_000),
            "discount_rate_frac": (0.04, 0.05, 0.06),
            "horizon_years": (20, 25),
        },
        curated={
            "first_cost": 10_500,
            "replaced_cost": 2600,
            "upkeep_year_cost": 70,
            "served_year_wh": 1_200_000,
            "discount_rate_frac": 0.06,
            "horizon_years": 20,
        },
        words=WORDS
        | {"first_cost": "first cost", "replaced_cost": "later parts, in today's money"}
        | {"upkeep_year_cost": "upkeep in a year"},
        result="kwh_cost",
        inputs=("first_cost", "replaced_cost", "upkeep_year_cost", "served_year_wh", "discount_rate_frac"),
    )


def _whole_life() -> Slot:
    return Knob(
        id="L13-10",
        title="Which knob moves the whole life's cost?",
        statement="A farm with an engine: bank {bank_cost}, bought again every {bank_life_years}; array {array_cost}; "
        "{fuel_year_l} of fuel a year at {fuel_litre_cost} each litre; all other parts 5\u2009400; upkeep "
        "{upkeep_frac} of the first cost a year, and {salvage_frac} of it left at the end of {horizon_years}. Money is "
        "at {discount_rate_frac} above inflation, fuel at {fuel_growth_frac}. Turn one knob by a tenth. Which three "
        "move the life-cycle cost most?",
        hint="Which of these is paid every year, which now and then, and which only once?",
        principle="What is paid every year adds up, even discounted. What comes at the very end weighs little.",
        sheet=_WHOLE_LIFE,
        given=EVERY_YEAR
        | {"controllers_cost": 900, "inverter_cost": 1200, "generator_cost": 1500, "balance_cost": 1800}
        | {"fuel_growth_frac": 0.02},
        grids={
            "bank_cost": (2400, 3000, 3600),
            "bank_life_years": (6, 7, 8),
            "array_cost": (1600, 2000, 2400),
            "fuel_year_l": (300, 450, 600),
            "fuel_litre_cost": (1.5, 1.8),
            "upkeep_frac": (0.01, 0.015),
            "salvage_frac": (0.05, 0.1),
            "discount_rate_frac": (0.05, 0.06),
            "horizon_years": (20, 25),
        },
        curated={
            "bank_cost": 2400,
            "bank_life_years": 6,
            "array_cost": 2400,
            "fuel_year_l": 600,
            "fuel_litre_cost": 1.5,
            "upkeep_frac": 0.01,
            "salvage_frac": 0.05,
            "discount_rate_frac": 0.06,
            "horizon_years": 20,
        },
        words=WORDS | {"array_cost": "price of the array"},
        result="life_cycle_cost",
        inputs=("bank_cost", "array_cost", "fuel_year_l", "upkeep_frac", "salvage_frac"),
    )


def _rough() -> Slot:
    return Rough(
        id="L13-rough",
        title="Roughly, what does upkeep come to?",
        statement="A system costs {first_cost} to build. Nobody has told you how long it will be reckoned with, what a "
        "year of water, visits and fuses takes, or what money is worth. Take what is usual for each. What does all "
        "upkeep come to, in money of today?",
        hint="How many times a year's upkeep is that, and over how many years is it paid?",
        principle="A share of the first cost each year for a score of years, the later ones counting for less: about "
        "a fifth of the first cost.",
        sheet=_UPKEEP,
        given=EVERY_YEAR,
        grids={
            "first_cost": (9000, 12_000, 15_000, 21_000),
            "upkeep_frac": (0.0125, 0.015, 0.0175),
            "horizon_years": (20, 22, 25),
            "discount_rate_frac": (0.05, 0.06, 0.07),
        },
        curated={"first_cost": 12_000, "upkeep_frac": 0.015, "horizon_years": 22, "discount_rate_frac": 0.05},
        factors=(
            Factor("upkeep_frac", 0.01, 0.02),
            Factor("horizon_years", 20, 25),
            Factor("discount_rate_frac", 0.03, 0.1),
        ),
        step=Step("upkeep_cost"),
        words=WORDS | {"upkeep_frac": "upkeep a year, as a share of the first cost"},
    )
