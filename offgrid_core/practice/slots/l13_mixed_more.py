"""Practice of the lesson on cost that is mixed in from the lessons before it: nothing in it says which one it is."""

from dataclasses import replace

from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots import l06_strings, l08_controller
from offgrid_core.practice.slots.l08_mixed_more import mixed as of_the_bank
from offgrid_core.practice.slots.l10_practice_more import practice as of_wires


def mixed() -> tuple[Slot, ...]:
    """Return the four problems, each from other lessons: strings, controller, bank and cold, wires."""
    return (
        replace(
            _named(l06_strings.slots(), "L06-3"),
            id="L13-2",
            title="What is to be paid for",
            statement="Before a price is asked, somebody counts what is wanted: {strings_count} strings of "
            "{bank_voltage_v}, from units marked {unit_v} and {unit_ah}. Give the units, and the amp-hours and "
            "watt-hours of it all.",
            grids={
                "strings_count": (2, 3, 4),
                "bank_voltage_v": (24, 48),
                "unit_v": (2, 6, 12),
                "unit_ah": (85, 130, 210, 380, 420),
            },
            curated={"strings_count": 3, "bank_voltage_v": 48, "unit_v": 12, "unit_ah": 130},
        ),
        replace(
            _named(l08_controller.slots(), "L08-4"),
            id="L13-5",
            title="How many of the dear boxes?",
            statement="The largest bill after the bank is for tracking controllers of {controller_rated_a}. There are "
            "{array_strings_count} rows of {modules_in_series_count} modules with {module_w}, {module_vmp_v} working "
            "and {module_isc_a} shorted, and a bank of {bank_voltage_v}. Allow {controller_factor} for bright sun. "
            "Find the array, the charging current, the amps to be bought, and the boxes.",
            grids={
                "array_strings_count": (3, 4, 6),
                "modules_in_series_count": (2, 3),
                "module_w": (250, 300, 345),
                "module_vmp_v": (30.5, 32.4, 33.8),
                "module_isc_a": (8.94, 9.71, 10.6),
                "controller_rated_a": (35, 45, 60, 80),
            },
            curated={
                "array_strings_count": 4,
                "modules_in_series_count": 2,
                "module_w": 300,
                "module_vmp_v": 32.4,
                "module_isc_a": 9.71,
                "controller_rated_a": 45,
            },
        ),
        replace(
            _named(of_the_bank(), "L08-5"),
            id="L13-8",
            title="Which label is the offer about?",
            statement="An offer has to name a label. The house takes {energy_day_wh} a day from {bank_voltage_v} and "
            "must come through {autonomy_days} without sun. Of the bank {depth_frac} may be used, and on the coldest "
            "day {kept_frac} of its label is there. How many amp-hours go into the offer?",
            grids={
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (1450, 1850, 2250, 2700),
                "autonomy_days": (3, 4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.64, 0.69, 0.74),
            },
            curated={
                "bank_voltage_v": 48,
                "energy_day_wh": 2250,
                "autonomy_days": 4,
                "depth_frac": 0.4,
                "kept_frac": 0.69,
            },
        ),
        replace(
            _named(of_wires(), "L10-1"),
            id="L13-11",
            title="Copper is money too",
            statement="A fan in the barn draws {current_by_row_a} from {voltage_by_row_v} DC, while the dairy has "
            "{ac_v} AC. From the bank it is {length_by_row_m} on the plan, and {drop_limit_by_row_frac} of the volts "
            "may get lost. With the copper of the table: what may a metre resist, which cable is bought, and how many "
            "volts does it take away, and which share of them?",
            grids={
                "current_by_row_a": (9, 12, 16, 19, 24),
                "voltage_by_row_v": (24, 48),
                "length_by_row_m": (6, 8, 11, 14),
                "drop_limit_by_row_frac": (0.02, 0.03, 0.04),
                "ac_v": (120, 230),
            },
        ),
    )


def _named(slots: tuple[Slot, ...], id_: str) -> Slot:
    return next(s for s in slots if s.id == id_)
