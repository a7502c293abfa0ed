"""Practice of the wiring lesson: drop, the way from load to wire, the array's side, a dead short, and two others."""

from offgrid_core.practice.kinds import Backwards, Order, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l10_tables_more import (
    ARRAY_IDEA,
    ARRAY_SIDE,
    BANK_FAULT,
    CABLE_FOR_DROP,
    CHAIN,
    DROP_IDEA,
    FAULT_IDEA,
    FEEDS,
    FULL_CELL,
    FUSE_IDEA,
    HOT,
    IEC,
    ON_ARRAY,
    THERE_AND_BACK,
    US,
    WORDS,
    air,
    cables,
    fuses,
    tables_of,
    together,
)


def practice() -> tuple[Slot, ...]:
    """Return the problems about wires and fuses, in order."""
    return (_drop(), _chain(), _order(), _array(), _fault(), _largest())


def _drop() -> Slot:
    return Work(
        id="L10-1",
        title="There and back",
        statement="A pump at the end of the yard takes {current_by_row_a} at {voltage_by_row_v} DC; the house beside "
        "it is on {ac_v} AC. The plan shows {length_by_row_m} from bank to pump. Of the voltage "
        "{drop_limit_by_row_frac} may be lost. Take the copper as the table has it. How much resistance may a metre of "
        "wire have, which cable is that, and what does it lose?",
        hint=THERE_AND_BACK,
        principle=DROP_IDEA,
        sheet=CABLE_FOR_DROP,
        given=tables_of(IEC) | {"wire_temp_c": IEC.table_temp_c},
        grids={
            "current_by_row_a": (11, 14, 17, 21, 26),
            "voltage_by_row_v": (24, 48),
            "length_by_row_m": (5, 7, 9, 12),
            "drop_limit_by_row_frac": (0.02, 0.03, 0.04),
            "ac_v": (120, 230),
        },
        curated={
            "current_by_row_a": 17,
            "voltage_by_row_v": 24,
            "length_by_row_m": 9,
            "drop_limit_by_row_frac": 0.03,
            "ac_v": 230,
        },
        mistakes=("WI-01", "WI-02", "WI-04", "WI-07"),
        words=WORDS,
        listed=(cables(IEC, carries=False, resists=True),),
        asked=tuple(
            map(
                Step,
                ("resistance_allowed_by_row_ohm_m", "for_drop_by_row_mm2", "drop_by_row_v", "drop_by_row_frac"),
            )
        ),
    )


def _chain() -> Slot:
    return Work(
        id="L10-3",
        title="From the load to the wire",
        statement="A circuit of Riverbend draws {current_by_row_a} for hours. The IEC-style setting asks for no margin "
        "on it (a factor of {current_by_row_factor}). The cable lies under a tin roof in air of {ambient_c}, in one "
        "bundle with others: {circuits_together_count} circuits in all. Which fuse, which rating from the table, and "
        "which cable?",
        hint=HOT,
        principle=FUSE_IDEA,
        sheet=CHAIN,
        given=tables_of(IEC) | {"current_by_row_factor": IEC.continuous_factor},
        grids={
            "current_by_row_a": (17, 22, 28, 35, 43, 54),
            "ambient_c": (40, 45, 50),
            "circuits_together_count": (2, 3, 4),
        },
        curated={"current_by_row_a": 28, "ambient_c": 45, "circuits_together_count": 3},
        mistakes=("OP-06", "WI-14", "WI-15", "WI-16"),
        words=WORDS,
        listed=(fuses(IEC), air(IEC), together(IEC), cables(IEC)),
        asked=tuple(map(Step, ("fuse_by_row_a", "ampacity_wanted_by_row_a", "for_ampacity_by_row_mm2"))),
    )


def _order() -> Slot:
    return Order(
        id="L10-4",
        title="Which comes first?",
        statement="A circuit is to be designed: from what the load takes to what is written on the order. Put the "
        "steps in order. Two of the cards belong to nobody's order.",
        hint="Does this step need a number that another card has yet to give?",
        principle=FUSE_IDEA,
        cards={
            "load": "find the current that flows for hours",
            "margin": "put the code's margin on it",
            "fuse": "take the next standard fuse size up",
            "wanted": "allow for heat and neighbours on the fuse",
            "wire": "find the thinnest wire with that rating",
            "drop": "check the drop there and back",
            "device": "check the device: DC volts, fault current",
        },
        before=(
            ("load", "margin"),
            ("load", "fuse"),
            ("margin", "fuse"),
            ("margin", "wanted"),
            ("fuse", "wanted"),
            ("wanted", "wire"),
            ("fuse", "wire"),
            ("wire", "drop"),
            ("fuse", "device"),
        ),
        extra={
            "bigger": "if the fuse blows, fit the next size",
            "load_wire": "choose the wire from the load alone",
        },
    )


def _array() -> Slot:
    return Work(
        id="L10-5",
        title="One string among others",
        statement="On a roof {strings_each_count} equal module strings meet in one box. A module: {module_isc_a} in a "
        "short, {module_voc_v} open at 25 °C, {voc_temp_per_k}. In a string stand {modules_in_series_count} of them; "
        "the coldest morning has {air_coldest_c}. The bank is {bank_voltage_v}, the sockets have {ac_v}. The US-style "
        "setting asks for {bright_sun_factor} for bright sun, and {steady_factor} for long hours. For one string: "
        "current to design for, fuse, what the others push back into it, and its highest voltage?",
        hint=FEEDS,
        principle=ARRAY_IDEA,
        sheet=ARRAY_SIDE,
        given=tables_of(US) | ON_ARRAY,
        grids={
            "strings_each_count": (3, 4, 5),
            "module_isc_a": (8.3, 9.1, 10.4, 11.9, 13.7),
            "module_voc_v": (37.5, 41.2, 49.4),
            "voc_temp_per_k": (-0.0027, -0.0031),
            "modules_in_series_count": (2, 3),
            "air_coldest_c": (-22, -15, -8),
            "bank_voltage_v": (24, 48),
            "ac_v": (230,),
        },
        curated={
            "strings_each_count": 4,
            "module_isc_a": 10.4,
            "module_voc_v": 41.2,
            "voc_temp_per_k": -0.0027,
            "modules_in_series_count": 2,
            "air_coldest_c": -15,
            "bank_voltage_v": 48,
            "ac_v": 230,
        },
        mistakes=("OP-09", "OP-15", "OP-16", "OP-17", "WI-18"),
        words=WORDS,
        listed=(fuses(US),),
        asked=tuple(
            map(Step, ("design_current_by_row_a", "fuse_by_row_a", "array_backfeed_a", "voltage_most_by_row_v"))
        ),
    )


def _fault() -> Slot:
    return Work(
        id="L10-7",
        title="Into a dead short",
        statement="A full flooded bank has {strings_count} strings of {cells_count} cells, {unit_ah} each. A full cell "
        "rests at 2.105 V. Warm, a cell resists {cell_resistance_ohm_ah}: so much divided by its amp-hours. What does "
        "the whole bank resist, and what does it drive into a short right at its posts?",
        hint=FEEDS,
        principle=FAULT_IDEA,
        sheet=BANK_FAULT,
        given=FULL_CELL,
        grids={
            "strings_count": (2, 3, 4),
            "cells_count": (12, 24),
            "unit_ah": (190, 225, 260, 310, 380),
            "cell_resistance_ohm_ah": (0.06, 0.07, 0.08, 0.09),
        },
        curated={"strings_count": 2, "cells_count": 24, "unit_ah": 380, "cell_resistance_ohm_ah": 0.08},
        mistakes=("OP-11", "OP-12", "OP-13"),
        words=WORDS,
        asked=(Step("bank_warm_resistance_ohm"), Step("bank_fault_a")),
    )


def _largest() -> Slot:
    return Backwards(
        id="L10-8",
        title="How large may the units be?",
        statement="A breaker is on hand that can stop {breaker_stops_a}. It is to stand right at a full flooded bank "
        "of {strings_count} strings with {cells_count} cells in each; a full cell rests at 2.105 V and resists, warm, "
        "{cell_resistance_ohm_ah} divided by its amp-hours. How many amp-hours may each unit have at most, so that the "
        "breaker can still stop a dead short?",
        hint=FEEDS,
        principle=FAULT_IDEA,
        sheet=BANK_FAULT,
        given=FULL_CELL,
        grids={
            "breaker_stops_a": (5000, 6000, 10_000, 16_000),
            "strings_count": (2, 3, 4),
            "cells_count": (6, 12, 24),
            "cell_resistance_ohm_ah": (0.06, 0.07, 0.08, 0.09),
        },
        curated={"breaker_stops_a": 10_000, "strings_count": 2, "cells_count": 24, "cell_resistance_ohm_ah": 0.08},
        mistakes=("OP-11", "OP-12"),
        words=WORDS | {"unit_ah": "amp-hours of a unit"},
        unknown="unit_ah",
        span=(1, 9000),
        result="bank_fault_a",
        wanted="breaker_stops_a",
    )
