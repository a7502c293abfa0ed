"""Practice of the inverter lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from dataclasses import replace

from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l02_exit import slots as of_voltage
from offgrid_core.practice.slots.l08_exit import slots as of_controllers
from offgrid_core.practice.slots.l08_mixed_more import mixed as of_banks


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each a place of an earlier lesson in another situation."""
    current, amps = of_voltage()[0], of_controllers()[2]
    return (
        replace(
            current,
            id="L09-2",
            others=(),
            title="At the posts of the workshop",
            statement="The workshop's inverter gives {inverter_rated_w} at {outlet_v}, and gets {inverter_eff_frac} of "
            "what it takes out again. Its bank is called {bank_voltage_v}; at the end of a long day it is down to "
            "{inverter_low_v}. What current flows at the battery's posts then?",
            grids={
                "inverter_rated_w": (1600, 1900, 2400, 2900),
                "inverter_eff_frac": (0.79, 0.82, 0.85),
                "inverter_low_v": (20.9, 21.3, 21.8),
            },
            curated={"inverter_rated_w": 2400, "inverter_eff_frac": 0.82, "inverter_low_v": 21.3},
        ),
        replace(
            amps,
            id="L09-5",
            others=(),
            title="Before the roof is covered",
            statement="The cooperative's store wants {array_strings_count} rows of {modules_in_series_count} modules, "
            "{module_w} each ({module_vmp_v} working, {module_isc_a} short-circuit current). They charge "
            "{bank_voltage_v} through tracking controllers of {controller_rated_a}; {controller_factor} is the room "
            "for bright sun. From the array to the number of controllers: work each line.",
            grids={
                "array_strings_count": (3, 4, 7),
                "modules_in_series_count": (2, 3),
                "module_w": (310, 355, 410),
                "module_vmp_v": (32.1, 34.6, 37.9),
                "module_isc_a": (9.87, 10.9, 11.9),
                "controller_rated_a": (45, 60, 75),
            },
            curated={
                "array_strings_count": 4,
                "modules_in_series_count": 2,
                "module_w": 355,
                "module_vmp_v": 34.6,
                "module_isc_a": 10.9,
                "controller_rated_a": 45,
            },
        ),
        replace(
            of_banks()[1],
            id="L09-8",
            title="Dark days at the store",
            statement="The same store takes {energy_day_wh} on its hardest day and must last {autonomy_days}. The "
            "maker allows {depth_frac} of the label to be taken, and the cellar's cold leaves {kept_frac} of it. For "
            "{bank_voltage_v}, what does that make in amp-hours on the label?",
            grids={
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (1850, 2250, 2650, 3150),
                "autonomy_days": (3, 4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.63, 0.68, 0.73),
            },
            curated={
                "bank_voltage_v": 48,
                "energy_day_wh": 2250,
                "autonomy_days": 5,
                "depth_frac": 0.6,
                "kept_frac": 0.68,
            },
        ),
    )
