"""Other templates of the wiring lesson's exit quiz, those with numbers: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l10_tables_more import (
    ARRAY_SIDE,
    BANK_FAULT,
    DROP,
    FAULT_AT_DEVICE,
    FEEDS,
    FULL_CELL,
    GAUGED,
    GAUGES,
    HOT,
    IEC,
    ON_ARRAY,
    OPENS,
    THERE_AND_BACK,
    US,
    WORDS,
    air,
    cables,
    fuses,
    tables_of,
    together,
)
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.sizing.wire_teaching import PLAN_IN_FEET
from offgrid_core.worksheet import Sheet

#: What every template of a place has in focus, since somebody is hurt by it.
GAUGE_DANGERS = ("OP-06", "WI-12", "WI-14", "WI-23")
DROPPED = ("WI-01", "WI-04")
FAULTS = ("OP-11", "OP-12")
ARRAY = ("OP-09", "OP-15", "OP-16")
_US_CHAIN = tables_of(US) | GAUGES | {"current_by_row_factor": US.continuous_factor}
_HEAT = (air(US), together(US), cables(US))
_FOR_FUSE = Sheet(*(GAUGED[n] for n in ("grouping_frac", "ampacity_wanted_by_row_a", "for_ampacity_by_row_mm2")))
_ON_HAND = Sheet(GAUGED["gauge_mm2"], GAUGED["gauge_margin_by_row_mm2"])


def _gauges() -> tuple[Slot, ...]:
    return (
        Work(
            id="L10-exit-1",
            title="Behind a fuse that is there",
            statement="At a dairy a holder with a {fuse_by_row_a} fuse feeds a freezer that draws "
            "{current_by_row_a}. Its conduit crosses a boiler room, {ambient_c}, where {circuits_together_count} "
            "circuits lie side by side. Work the table's ampacity, the least area, and what a coil stamped gauge "
            "{gauge_count} would have.",
            hint=OPENS,
            sheet=_FOR_FUSE + Sheet(GAUGED["gauge_mm2"]),
            given=tables_of(US) | GAUGES,
            grids={
                "fuse_by_row_a": (45, 50, 60),
                "current_by_row_a": (24, 28, 33),
                "ambient_c": (45, 50, 55),
                "circuits_together_count": (2, 3, 4),
                "gauge_count": (8, 10, 12),
            },
            curated={
                "fuse_by_row_a": 50,
                "current_by_row_a": 28,
                "ambient_c": 50,
                "circuits_together_count": 2,
                "gauge_count": 10,
            },
            mistakes=GAUGE_DANGERS,
            words=WORDS,
            listed=_HEAT,
            asked=tuple(map(Step, ("ampacity_wanted_by_row_a", "for_ampacity_by_row_mm2", "gauge_mm2"))),
        ),
        Work(
            id="L10-exit-1",
            title="What was left in the boat",
            statement="The ferry's winch pulls {current_by_row_a}, counted as lasting: factor {current_by_row_factor}, "
            "US style. Cable tray: {circuits_together_count} circuits, {ambient_c}. First the current to design for, "
            "then the breaker; how thick must the conductor be, and how thick is the leftover reel, gauge "
            "{gauge_count}?",
            hint=HOT,
            sheet=GAUGED,
            given=_US_CHAIN,
            grids={
                "current_by_row_a": (31, 33, 34.5, 37, 41, 42.5, 46, 51, 54),
                "circuits_together_count": (2, 3, 4),
                "ambient_c": (35, 40, 45, 50),
                "gauge_count": (8, 10, 12),
            },
            curated={"current_by_row_a": 41, "circuits_together_count": 2, "ambient_c": 45, "gauge_count": 8},
            mistakes=GAUGE_DANGERS,
            words=WORDS,
            listed=(fuses(US), *_HEAT),
            asked=tuple(
                map(Step, ("design_current_by_row_a", "fuse_by_row_a", "for_ampacity_by_row_mm2", "gauge_mm2"))
            ),
        ),
        Work(
            id="L10-exit-1",
            title="Thick enough or not",
            statement="Under the weekend cabin's roof it reaches {ambient_c}. One bundle, {circuits_together_count} "
            "circuits. A {fuse_by_row_a} breaker guards the line to a heater of {current_by_row_a}; an uncle offers "
            "some number-{gauge_count} wire. Find the square millimetres needed, those of his wire, and how far apart "
            "the two are.",
            hint=OPENS,
            sheet=_FOR_FUSE + _ON_HAND,
            given=tables_of(US) | GAUGES,
            grids={
                "ambient_c": (40, 50, 55),
                "circuits_together_count": (2, 3),
                "fuse_by_row_a": (40, 50, 60),
                "current_by_row_a": (21, 26, 29),
                "gauge_count": (1, 8, 10),
            },
            curated={
                "ambient_c": 50,
                "circuits_together_count": 3,
                "fuse_by_row_a": 40,
                "current_by_row_a": 26,
                "gauge_count": 1,
            },
            mistakes=GAUGE_DANGERS,
            words=WORDS,
            listed=_HEAT,
            asked=tuple(map(Step, ("for_ampacity_by_row_mm2", "gauge_mm2", "gauge_margin_by_row_mm2"))),
        ),
    )


def _drops() -> tuple[Slot, ...]:
    both = Sheet(*(CIRCUITS[n] for n in ("drop_by_row_v", "drop_by_row_frac")))
    return (
        Work(
            id="L10-exit-2",
            title="A plan in feet",
            statement="The weekend cabin's plan is drawn in feet: {feet_by_row_count} from the box to the fridge. At "
            "DC {voltage_by_row_v} it draws {current_by_row_a}; each metre of the wire has "
            "{resistance_by_row_ohm_m:Ω/km}. (The neighbour has {ac_v} from the grid.) Turn the length into metres, "
            "then find the volts lost and their share.",
            hint=THERE_AND_BACK,
            sheet=PLAN_IN_FEET + both,
            given={"cables_by_row_count": 1},
            grids={
                "feet_by_row_count": (22, 31, 38, 45),
                "voltage_by_row_v": (12, 24),
                "current_by_row_a": (4.5, 6.2, 7.8),
                "resistance_by_row_ohm_m": (0.0022, 0.0037, 0.0046),
                "ac_v": (120, 230),
            },
            curated={
                "feet_by_row_count": 31,
                "voltage_by_row_v": 24,
                "current_by_row_a": 6.2,
                "resistance_by_row_ohm_m": 0.0037,
                "ac_v": 120,
            },
            mistakes=("WI-21", "WI-22", *DROPPED),
            words=WORDS,
            marks={"feet_by_row_count": " ft"},
            asked=tuple(map(Step, ("length_by_row_m", "drop_by_row_v", "drop_by_row_frac"))),
        ),
        Work(
            id="L10-exit-2",
            title="Two cables to a pole",
            statement="Between Fell hut's bank and its inverter run {cables_by_row_count} equal cables for each pole, "
            "{length_by_row_m} long, {resistance_by_row_ohm_m:Ω/km} warm. Full power means "
            "{current_by_row_a} at {voltage_by_row_v}; out come {ac_v} AC. How many volts does the inverter miss, and "
            "how much is that in per cent?",
            hint=THERE_AND_BACK,
            sheet=both,
            given={"voltage_by_row_v": 48, "cables_by_row_count": 2, "ac_v": 230},
            grids={
                "length_by_row_m": (2.5, 3.5, 4.5, 6),
                "resistance_by_row_ohm_m": (0.00046, 0.00063, 0.00087),
                "current_by_row_a": (75, 95, 120, 140),
            },
            curated={"length_by_row_m": 3.5, "resistance_by_row_ohm_m": 0.00063, "current_by_row_a": 120},
            mistakes=("WI-03", *DROPPED),
            words=WORDS,
            asked=tuple(map(Step, both)),
        ),
        Work(
            id="L10-exit-2",
            title="Is it within what was promised?",
            statement="Gull mast's radio sits {length_by_row_m} up the tower on a {cable_by_row_mm2} lead, copper at "
            "{wire_temp_c}. Sending takes {current_by_row_a} of {voltage_by_row_v} DC; ashore it would have been "
            "{ac_v}. The client was promised no more than {drop_limit_by_row_frac}. State the loss as a share, and how "
            "far inside or beyond the promise it lies.",
            hint=THERE_AND_BACK,
            sheet=DROP + Sheet(CIRCUITS["drop_margin_by_row_frac"]),
            given=tables_of(IEC) | {"voltage_by_row_v": 12, "ac_v": 230, "drop_limit_by_row_frac": 0.08},
            grids={
                "length_by_row_m": (7, 9, 11),
                "cable_by_row_mm2": (4, 6, 10),
                "wire_temp_c": (20, 40),
                "current_by_row_a": (3.1, 4.4, 5.6, 6.3),
            },
            curated={"length_by_row_m": 9, "cable_by_row_mm2": 6, "wire_temp_c": 20, "current_by_row_a": 5.6},
            mistakes=DROPPED,
            words=WORDS,
            listed=(cables(IEC, carries=False, resists=True),),
            asked=(Step("drop_by_row_frac"), Step("drop_margin_by_row_frac")),
        ),
    )


def _faults() -> tuple[Slot, ...]:
    return (
        Work(
            id="L10-exit-3",
            title="From the stickers to the short",
            statement="At Riverbend each battery's sticker says {unit_ah}. {cells_count} cells stand one behind the "
            "other, {strings_count} such rows side by side; charged, a cell shows 2.105 V. Amp-hours times ohms of one "
            "warm cell: {cell_resistance_ohm_ah}. Work the amp-hours of the bank and the amperes into a dead short.",
            hint=FEEDS,
            sheet=BANK_FAULT,
            given=FULL_CELL | {"cells_count": 12},
            grids={
                "unit_ah": (210, 330, 490),
                "strings_count": (2, 3, 4),
                "cell_resistance_ohm_ah": (0.055, 0.065, 0.08),
            },
            curated={"unit_ah": 490, "strings_count": 3, "cell_resistance_ohm_ah": 0.065},
            mistakes=FAULTS,
            words=WORDS,
            asked=(Step("bank_ah"), Step("bank_fault_a")),
        ),
        Work(
            id="L10-exit-3",
            title="Small, but not harmless",
            statement="“It is only 12 V”, says the boatman at Gull mast: {strings_count} blocks in parallel, {unit_ah} "
            "and {cells_count} cells each. Take 2.105 V a cell, and {cell_resistance_ohm_ah} as the product of a "
            "cell's resistance and its size. Give the resting voltage, the inner resistance, and what a dropped wrench "
            "draws.",
            hint=FEEDS,
            sheet=BANK_FAULT,
            given=FULL_CELL | {"cells_count": 6},
            grids={
                "strings_count": (2, 3, 4),
                "unit_ah": (70, 85, 105, 140),
                "cell_resistance_ohm_ah": (0.05, 0.06, 0.07),
            },
            curated={"strings_count": 2, "unit_ah": 105, "cell_resistance_ohm_ah": 0.06},
            mistakes=FAULTS,
            words=WORDS,
            asked=tuple(map(Step, ("bank_full_v", "bank_warm_resistance_ohm", "bank_fault_a"))),
        ),
        Work(
            id="L10-exit-3",
            title="Can this breaker stop it?",
            statement="A breaker marked “stops {device_interrupting_by_row_a}” was bought for the weekend cabin. "
            "There: {strings_count} parallel rows, every unit {unit_ah}, {cells_count} cells to a row at 2.105 V full; "
            "one cell has {cell_resistance_ohm_ah} shared over its capacity. Calculate what a short at the terminals "
            "gives, and what the breaker has to spare (less than nothing if it falls short).",
            hint=FEEDS,
            sheet=FAULT_AT_DEVICE,
            given=FULL_CELL,
            grids={
                "device_interrupting_by_row_a": (3000, 5000, 10_000),
                "strings_count": (2, 3),
                "unit_ah": (190, 250, 300),
                "cells_count": (12, 24),
                "cell_resistance_ohm_ah": (0.07, 0.08, 0.09),
            },
            curated={
                "device_interrupting_by_row_a": 5000,
                "strings_count": 2,
                "unit_ah": 250,
                "cells_count": 12,
                "cell_resistance_ohm_ah": 0.08,
            },
            mistakes=FAULTS,
            words=WORDS,
            asked=(Step("bank_fault_a"), Step("device_interrupting_margin_by_row_a")),
        ),
    )


def _arrays() -> tuple[Slot, ...]:
    rated = DEVICES["device_voltage_margin_by_row_v"]
    given = tables_of(IEC) | ON_ARRAY | {"ac_v": 230}
    return (
        Work(
            id="L10-exit-4",
            title="Does each string need its fuse?",
            statement="A village school's combiner joins {strings_each_count} rows of {modules_in_series_count}. "
            "Labels: Isc {module_isc_a}, Voc {module_voc_v}, {voc_temp_per_k}, largest series fuse "
            "{module_fuse_max_a}; sun margin {bright_sun_factor}. Lowest temperature {air_coldest_c}, battery "
            "{bank_voltage_v}, mains {ac_v}. Give the reverse current in a fault, what the module "
            "can stand beyond it, and the highest voltage.",
            hint=FEEDS,
            sheet=ARRAY_SIDE.upto("array_backfeed_a", "voltage_most_by_row_v") + Sheet(PROTECTION["unfused_spare_a"]),
            given=given | {"bank_voltage_v": 24},
            grids={
                "strings_each_count": (3, 4, 5),
                "modules_in_series_count": (2, 3),
                "module_isc_a": (8.5, 9.8, 11.6),
                "module_voc_v": (38.1, 46.2),
                "voc_temp_per_k": (-0.0027, -0.003),
                "module_fuse_max_a": (15, 16),
                "air_coldest_c": (8, 13),
            },
            curated={
                "strings_each_count": 4,
                "modules_in_series_count": 2,
                "module_isc_a": 9.8,
                "module_voc_v": 46.2,
                "voc_temp_per_k": -0.0027,
                "module_fuse_max_a": 15,
                "air_coldest_c": 13,
            },
            mistakes=ARRAY,
            words=WORDS,
            asked=tuple(map(Step, ("array_backfeed_a", "unfused_spare_a", "voltage_most_by_row_v"))),
        ),
        Work(
            id="L10-exit-4",
            title="A breaker from the drawer",
            statement="For a mast with {modules_in_series_count} modules per row and {strings_each_count} rows there "
            "is a breaker whose DC rating is {device_dc_by_row_v}. One module gives {module_voc_v} at 25 °C "
            "({voc_temp_per_k}) and {module_isc_a} into a short, times {bright_sun_factor} beneath bright clouds. "
            "Frost: {air_coldest_c}. Bank {bank_voltage_v}; inverter {ac_v}. How much do the sound rows feed into a "
            "bad one, and by how many volts is the breaker above, or below, what comes?",
            hint=FEEDS,
            sheet=ARRAY_SIDE.upto("array_backfeed_a", "voltage_most_by_row_v") + Sheet(rated),
            given=given | {"bank_voltage_v": 12, "device_dc_by_row_v": 80},
            grids={
                "modules_in_series_count": (2, 3),
                "strings_each_count": (3, 4),
                "module_voc_v": (22.4, 24.1, 31.5),
                "voc_temp_per_k": (-0.0028, -0.0031),
                "module_isc_a": (5.6, 7.3, 8.64),
                "air_coldest_c": (-12, -4),
            },
            curated={
                "modules_in_series_count": 2,
                "strings_each_count": 3,
                "module_voc_v": 22.4,
                "voc_temp_per_k": -0.0028,
                "module_isc_a": 8.64,
                "air_coldest_c": -4,
            },
            mistakes=ARRAY,
            words=WORDS,
            asked=(Step("array_backfeed_a"), Step("device_voltage_margin_by_row_v")),
        ),
        Work(
            id="L10-exit-4",
            title="First the cold, then the fault",
            statement="The weekend cabin's {strings_each_count} parallel strings are {modules_in_series_count} long. "
            "Sheet of the maker: open circuit {module_voc_v}, change {voc_temp_per_k}, short circuit {module_isc_a}. "
            "The record low is {air_coldest_c}. Cloud edges add a factor of {bright_sun_factor}. Batteries at "
            "{bank_voltage_v}, wall outlets at {ac_v}. Which voltage must a string's breaker stand, and which current "
            "do its sisters drive through it if it fails?",
            hint="On which side of the controller does this breaker stand, and which strings are still in the sun?",
            sheet=ARRAY_SIDE.upto("array_backfeed_a", "voltage_most_by_row_v"),
            given=given | {"bank_voltage_v": 24},
            grids={
                "strings_each_count": (3, 4, 6),
                "modules_in_series_count": (2, 3),
                "module_voc_v": (36.9, 40.3, 44.7),
                "voc_temp_per_k": (-0.0027, -0.0032),
                "module_isc_a": (8.1, 10.1, 13.4),
                "air_coldest_c": (-25, -17),
            },
            curated={
                "strings_each_count": 3,
                "modules_in_series_count": 3,
                "module_voc_v": 40.3,
                "voc_temp_per_k": -0.0027,
                "module_isc_a": 10.1,
                "air_coldest_c": -17,
            },
            mistakes=ARRAY,
            words=WORDS,
            asked=(Step("voltage_most_by_row_v"), Step("array_backfeed_a")),
        ),
    )


#: By place, the templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    "L10-exit-1": _gauges(),
    "L10-exit-2": _drops(),
    "L10-exit-3": _faults(),
    "L10-exit-4": _arrays(),
}
