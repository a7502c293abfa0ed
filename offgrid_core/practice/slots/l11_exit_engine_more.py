"""Other templates of the generator lesson's exit quiz: the engine's fuel, and the label it needs."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import (
    BEGINS,
    BURNS,
    FUEL,
    SITE,
    SIZE,
    UP_THERE,
    WORDS,
)
from offgrid_core.sizing.generator_teaching import RESTORE_FUEL
from offgrid_core.worksheet import Sheet

#: The fuel of a run whose load is known.
_OF_LOAD = Sheet(FUEL["fuel_l_h"]) + RESTORE_FUEL
#: The label for a load whose volt-amps are known.
_LABEL = Sheet(*(SIZE[n] for n in ("generator_kept_frac", "generator_needed_va")))


def _fuel() -> tuple[Slot, ...]:
    return (
        Work(
            id="L11-exit-2",
            title="Cans for a search party",
            statement="A search party plans {restore_h} of generator a night. On average {generator_load_w} hang on "
            "it; the plate reads {generator_rated_w}. Turning over costs {fuel_size_l_kwh}, the power itself "
            "{fuel_work_l_kwh}. Give the litres an hour, and those of one night.",
            hint=BURNS,
            sheet=_OF_LOAD,
            grids={
                "restore_h": (6.5, 7.5, 9, 10.5),
                "generator_load_w": (900, 1150, 1400),
                "generator_rated_w": (2800, 3500, 4300),
                "fuel_size_l_kwh": (0.07, 0.085, 0.1),
                "fuel_work_l_kwh": (0.24, 0.27, 0.31),
            },
            curated={
                "restore_h": 10.5,
                "generator_load_w": 1400,
                "generator_rated_w": 3500,
                "fuel_size_l_kwh": 0.1,
                "fuel_work_l_kwh": 0.27,
            },
            mistakes=("GE-11", "GE-12"),
            words=WORDS,
            asked=tuple(map(Step, _OF_LOAD)),
        ),
        Work(
            id="L11-exit-2",
            title="One hour at the lighthouse",
            statement="A lighthouse charges through an old box: {charger_dc_w} arrive in the cells, an efficiency of "
            "{charger_eff_frac}. The fog horn adds {generator_other_w}. From the engine book: {fuel_work_l_kwh} per "
            "unit of work, plus {fuel_size_l_kwh} per rated kilowatt, of which there are {generator_rated_w}. "
            "How much has gone from the tank after one hour?",
            hint=BEGINS,
            sheet=FUEL,
            grids={
                "charger_dc_w": (750, 950, 1200, 1450),
                "charger_eff_frac": (0.74, 0.79),
                "generator_other_w": (400, 550, 700),
                "fuel_work_l_kwh": (0.26, 0.29, 0.33),
                "fuel_size_l_kwh": (0.06, 0.075, 0.09),
                "generator_rated_w": (3300, 4000, 4800),
            },
            curated={
                "charger_dc_w": 1450,
                "charger_eff_frac": 0.74,
                "generator_other_w": 550,
                "fuel_work_l_kwh": 0.29,
                "fuel_size_l_kwh": 0.09,
                "generator_rated_w": 4000,
            },
            mistakes=("GE-01", "GE-02", "GE-11", "GE-19"),
            words=WORDS,
            asked=(Step("charger_ac_w"), Step("fuel_l_h")),
        ),
        Backwards(
            id="L11-exit-2",
            title="How much may hang on it?",
            statement="The post has {fuel_most_l_h} to burn, no more, as the road is closed till spring. Its diesel, "
            "{generator_rated_w}, needs {fuel_size_l_kwh} for every rated kilowatt and {fuel_work_l_kwh} for each "
            "kilowatt-hour. What load can it carry on that?",
            hint="With so many watts on it, what does the engine burn for its size, and what for the work?",
            sheet=Sheet(FUEL["fuel_l_h"]),
            grids={
                "fuel_most_l_h": (0.85, 0.95, 1.05, 1.15),
                "generator_rated_w": (4000, 4300, 4600),
                "fuel_size_l_kwh": (0.065, 0.08),
                "fuel_work_l_kwh": (0.25, 0.28, 0.32),
            },
            curated={
                "fuel_most_l_h": 1.05,
                "generator_rated_w": 4300,
                "fuel_size_l_kwh": 0.065,
                "fuel_work_l_kwh": 0.28,
            },
            mistakes=("GE-11",),
            words=WORDS | {"fuel_most_l_h": "fuel that there is for an hour"},
            unknown="generator_load_w",
            span=(1, 20_000),
            result="fuel_l_h",
            wanted="fuel_most_l_h",
        ),
    )


def _size() -> tuple[Slot, ...]:
    return (
        Work(
            id="L11-exit-3",
            title="The observatory",
            statement="An observatory at {altitude_m:m} ({air_hot_c:°C} by day) needs {generator_load_va} while its "
            "batteries charge. A plate is worth {derate_altitude_frac} less for each 300 m, and "
            "{derate_heat_frac} less for each 10 K beyond 25 °C. Which share of a plate is left, and what should the "
            "plate say?",
            hint=UP_THERE,
            sheet=_LABEL,
            given=SITE,
            grids={
                "altitude_m": (2300, 2600, 2900, 3200),
                "air_hot_c": (27, 29, 32),
                "generator_load_va": (3200, 4100, 5300, 6400),
            },
            curated={"altitude_m": 2300, "air_hot_c": 27, "generator_load_va": 4100},
            mistakes=("GE-14", "GE-15", "GE-16"),
            words=WORDS,
            asked=tuple(map(Step, _LABEL)),
        ),
        Work(
            id="L11-exit-3",
            title="A camp in the desert",
            statement="Desert camp, {altitude_m:m} up, {air_hot_c:°C} at noon. Charger: {charger_dc_w} out, "
            "{charger_eff_frac} efficient, power factor {charger_pf_ratio}. Cooling for the cooks: {peak_w} or "
            "{peak_va}, whichever you need. Losses of rating: {derate_heat_frac} a step of 10 K above 25 °C, "
            "{derate_altitude_frac} a step of 300 m. Find the charger's intake, the volt-amps asked, and the rating to "
            "order.",
            hint=BEGINS,
            sheet=SIZE,
            given={"derate_altitude_frac": 0.035, "derate_heat_frac": 0.03},
            grids={
                "altitude_m": (900, 1200, 1500),
                "air_hot_c": (43, 46, 49),
                "charger_dc_w": (1150, 1450, 1750),
                "charger_eff_frac": (0.83, 0.87),
                "charger_pf_ratio": (0.66, 0.72),
                "peak_w": (1100, 1300, 1500),
                "peak_va": (1700, 1950, 2200),
            },
            curated={
                "altitude_m": 900,
                "air_hot_c": 43,
                "charger_dc_w": 1450,
                "charger_eff_frac": 0.83,
                "charger_pf_ratio": 0.66,
                "peak_w": 1500,
                "peak_va": 1950,
            },
            mistakes=("GE-01", "GE-13", "GE-14"),
            words=WORDS,
            asked=tuple(map(Step, ("charger_ac_w", "generator_load_va", "generator_needed_va"))),
        ),
        Backwards(
            id="L11-exit-3",
            title="Bought already",
            statement="A monastery at {altitude_m:m} owns a machine of {generator_rated_va}; its courtyard gets "
            "{air_hot_c:°C}. Knowing that each 300 m costs {derate_altitude_frac} and each 10 K over 25 °C "
            "{derate_heat_frac}, how many volt-amps may be hung on it up there, and not one more?",
            hint="For a load of that size, which label would you have to buy up there?",
            sheet=_LABEL,
            given=SITE,
            grids={
                "altitude_m": (2200, 2700, 3100, 3500),
                "generator_rated_va": (3500, 4400, 5500, 7000),
                "air_hot_c": (26, 30, 33),
            },
            curated={"altitude_m": 2200, "generator_rated_va": 5500, "air_hot_c": 26},
            mistakes=("GE-14", "GE-15", "GE-16"),
            words=WORDS | {"generator_rated_va": "label that there is", "generator_load_va": "volt-amps hung on it"},
            unknown="generator_load_va",
            span=(100, 50_000),
            result="generator_needed_va",
            wanted="generator_rated_va",
        ),
    )


#: Id of a place -> its templates beside the first.
ENGINES: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_fuel(), _size())}
