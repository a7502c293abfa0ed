"""Other templates of the exit quiz on cost: how long a bank lasts, and the price of what comes out of it."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l13_sheets_more import ENDS, FIRST_END, LIFETIME, LIVED, THROUGH, WORDS
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

_TWO_ENDS = Sheet(*(LIVED[n] for n in ("cycle_life_years", "bank_life_years")))
_FROM_AH = Sheet(STRINGS["bank_wh"]) + THROUGH


def _lives() -> tuple[Slot, ...]:
    return (
        Work(
            id="L13-exit-1",
            title="A bank for weekends",
            statement="At Pine lake people come on some days only, so {cycles_year_count} times a year the bank is "
            "emptied and filled. A table says {cycles_count}. The plant room is cool, and age alone would end it in "
            "{calendar_life_years}. For how many years are there cycles, and when is a new bank due?",
            hint=FIRST_END,
            sheet=_TWO_ENDS,
            grids={
                "cycles_year_count": (85, 105, 120, 140),
                "cycles_count": (1500, 1800, 2200, 2700),
                "calendar_life_years": (8, 9, 10, 11),
            },
            curated={"cycles_year_count": 105, "cycles_count": 1800, "calendar_life_years": 10},
            mistakes=("CO-01", "CO-02", "CO-03", "CO-04"),
            words=WORDS,
            asked=tuple(map(Step, ENDS)),
        ),
        Work(
            id="L13-exit-1",
            title="Under a tin roof",
            statement="Beneath the tin roof of a health post it is {life_temp_c} from January to December. The "
            "leaflet was written for {life_table_c} and says: {float_life_years} in standby service. Every {halving_k} "
            "hotter cost half. There are {cycles_count} cycles in it, and {cycles_year_count} leave it each year. "
            "After how long does somebody carry a new one in?",
            hint=FIRST_END,
            sheet=LIVED,
            given={"life_table_c": 25},
            grids={
                "life_temp_c": (29, 31, 33, 35),
                "float_life_years": (9, 10, 12),
                "halving_k": (8, 10),
                "cycles_count": (1600, 1900, 2400),
                "cycles_year_count": (120, 150, 180),
            },
            curated={
                "life_temp_c": 31,
                "float_life_years": 10,
                "halving_k": 10,
                "cycles_count": 1900,
                "cycles_year_count": 150,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-25"),
            words=WORDS,
            asked=(Step("bank_life_years"),),
        ),
        Work(
            id="L13-exit-1",
            title="What a data sheet leaves out",
            statement="On a data sheet: “{cycles_count} cycles at your depth”. Your log counted {cycles_year_count} of "
            "them last year. Small print: “design life {float_life_years} at {life_table_c}, halving per {halving_k}”. "
            "Your logger's mean is {life_temp_c}. Put down what your log makes of the cycles, then, the small print "
            "read as well, the years to plan with.",
            hint=FIRST_END,
            sheet=LIVED,
            given={"life_table_c": 20},
            grids={
                "cycles_count": (1400, 1700, 2050, 2500),
                "cycles_year_count": (100, 120, 145, 170),
                "float_life_years": (8, 10, 11),
                "halving_k": (8, 10),
                "life_temp_c": (25, 27, 29),
            },
            curated={
                "cycles_count": 2050,
                "cycles_year_count": 120,
                "float_life_years": 10,
                "halving_k": 10,
                "life_temp_c": 27,
            },
            mistakes=("CO-01", "CO-02", "CO-03", "CO-04", "CO-25"),
            words=WORDS,
            asked=tuple(map(Step, ENDS)),
        ),
    )


def _prices() -> tuple[Slot, ...]:
    return (
        Backwards(
            id="L13-exit-2",
            title="What may be asked for it?",
            statement="A farmer will not pay more than {most_kwh_cost} for a kilowatt-hour out of a battery. One with "
            "{bank_wh} is for sale; {reference_depth_frac} of it can be had at a time, over {reference_cycles_count} "
            "cycles. At which asking price does he walk away?",
            hint="Spread over its whole life, does your price come to what he will pay?",
            sheet=THROUGH,
            grids={
                "most_kwh_cost": (0.35, 0.45, 0.6, 0.75),
                "bank_wh": (5200, 7700, 9800),
                "reference_depth_frac": (0.3, 0.4, 0.6, 0.7),
                "reference_cycles_count": (380, 620, 900),
            },
            curated={
                "most_kwh_cost": 0.45,
                "bank_wh": 7700,
                "reference_depth_frac": 0.6,
                "reference_cycles_count": 620,
            },
            mistakes=("CO-07", "CO-09", "CO-10"),
            words=WORDS | {"most_kwh_cost": "most for a kWh"},
            unknown="bank_cost",
            span=(0.01, 1_000_000),
            result="stored_kwh_cost",
            wanted="most_kwh_cost",
        ),
        Work(
            id="L13-exit-2",
            title="From a label in amp-hours",
            statement="Twenty-four volts are no energy yet: a label shows {bank_ah} at {bank_voltage_v}. A workshop "
            "draws it down by {reference_depth_frac} whenever it runs, and can do so {reference_cycles_count} times. "
            "The invoice says {bank_cost}. Turn the label into watt-hours, add up all that will ever come out, and "
            "spread the invoice over it.",
            hint=LIFETIME,
            sheet=_FROM_AH,
            given={"bank_voltage_v": 24},
            grids={
                "bank_ah": (260, 340, 450, 620),
                "reference_depth_frac": (0.3, 0.4, 0.6),
                "reference_cycles_count": (540, 760, 1100),
                "bank_cost": (1250, 1700, 2350, 3100),
            },
            curated={
                "bank_ah": 450,
                "reference_depth_frac": 0.4,
                "reference_cycles_count": 1100,
                "bank_cost": 2350,
            },
            mistakes=("CO-07", "CO-09", "CO-10"),
            words=WORDS,
            asked=tuple(map(Step, _FROM_AH)),
        ),
        Work(
            id="L13-exit-2",
            title="One number for the committee",
            statement="The village committee asks for a single figure: the share of the battery in a kilowatt-hour. "
            "You know {bank_cost} (paid), {bank_wh} (printed), {reference_cycles_count} (promised) and "
            "{reference_depth_frac} (the part that is emptied). Interest stays out of it. Which figure do you write "
            "down?",
            hint=LIFETIME,
            sheet=THROUGH,
            grids={
                "bank_cost": (4800, 6100, 7500, 9200),
                "bank_wh": (24_000, 31_000, 40_000),
                "reference_cycles_count": (700, 1000, 1500),
                "reference_depth_frac": (0.3, 0.4, 0.6, 0.7),
            },
            curated={
                "bank_cost": 6100,
                "bank_wh": 31_000,
                "reference_cycles_count": 1000,
                "reference_depth_frac": 0.4,
            },
            mistakes=("CO-07", "CO-09", "CO-10"),
            words=WORDS,
            asked=(Step("stored_kwh_cost"),),
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_lives(), _prices())}
