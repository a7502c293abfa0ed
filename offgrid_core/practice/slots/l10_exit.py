"""Exit quiz of the wiring lesson: six problems, feedback when all are answered; four of them are about safety."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l10_exit_judge_more import JUDGED
from offgrid_core.practice.slots.l10_exit_more import ARRAY, DROPPED, FAULTS, GAUGE_DANGERS, OTHERS
from offgrid_core.practice.slots.l10_tables_more import (
    ARRAY_SIDE,
    BANK_FAULT,
    CHAIN,
    DROP,
    FEEDS,
    FULL_CELL,
    GAUGED,
    GAUGES,
    HOT,
    IEC,
    LINE,
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


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (*_worked(), *_judged())


def _worked() -> tuple[Slot, ...]:
    return (
        Work(
            id="L10-exit-1",
            others=OTHERS["L10-exit-1"],
            title="A pump house",
            statement="A vineyard's new pump house takes {current_by_row_a} for hours. By the US-style setting the "
            "factor is {current_by_row_factor}; the duct is in air of {ambient_c}, with {circuits_together_count} "
            "circuits together. In the shed hangs wire of gauge {gauge_count}. Give fuse, rating to look for, copper "
            "wanted, and copper in the shed.",
            hint=HOT,
            sheet=GAUGED,
            given=tables_of(US) | GAUGES | {"current_by_row_factor": US.continuous_factor},
            grids={
                "current_by_row_a": (31, 35, 43, 52),
                "ambient_c": (40, 45, 50),
                "circuits_together_count": (2, 3, 4),
                "gauge_count": (1, 8, 10),
            },
            curated={"current_by_row_a": 35, "ambient_c": 40, "circuits_together_count": 3, "gauge_count": 10},
            mistakes=("OP-01", *GAUGE_DANGERS),
            words=WORDS,
            listed=(fuses(US), air(US), together(US), cables(US)),
            asked=tuple(
                map(Step, ("fuse_by_row_a", "ampacity_wanted_by_row_a", "for_ampacity_by_row_mm2", "gauge_mm2"))
            ),
        ),
        Work(
            id="L10-exit-2",
            others=OTHERS["L10-exit-2"],
            title="Lamps at the gate",
            statement="Riverbend's gate lamps take {current_by_row_a} from the bank at {voltage_by_row_v}, through a "
            "cable of {cable_by_row_mm2} that is {length_by_row_m} long; its copper works at {wire_temp_c}. The gate "
            "also has a socket on {ac_v}. What does a metre of that cable resist, how many volts are lost, and which "
            "share?",
            hint=THERE_AND_BACK,
            sheet=DROP,
            given=tables_of(IEC) | {"voltage_by_row_v": 24},
            grids={
                "current_by_row_a": (5.5, 7, 8.5, 11),
                "cable_by_row_mm2": (4, 6, 10),
                "length_by_row_m": (13, 18, 22),
                "wire_temp_c": (50, 60, 70),
                "ac_v": (120, 230),
            },
            curated={
                "current_by_row_a": 7,
                "cable_by_row_mm2": 6,
                "length_by_row_m": 18,
                "wire_temp_c": 60,
                "ac_v": 230,
            },
            mistakes=("WI-02", "WI-11", *DROPPED),
            words=WORDS,
            listed=(cables(IEC, carries=False, resists=True),),
            asked=tuple(map(Step, DROP)),
        ),
        Work(
            id="L10-exit-3",
            others=OTHERS["L10-exit-3"],
            title="A spanner across the posts",
            statement="Fell hut's full bank: {strings_count} strings, {cells_count} cells in each, {unit_ah}. A full "
            "cell of it rests at 2.105 V; its resistance, warm, is {cell_resistance_ohm_ah} over its amp-hours. Which "
            "resistance has the bank, and which current flows through a spanner laid across its posts?",
            hint=FEEDS,
            sheet=BANK_FAULT,
            given=FULL_CELL | {"cells_count": 24},
            grids={
                "strings_count": (2, 3),
                "unit_ah": (185, 230, 290, 365),
                "cell_resistance_ohm_ah": (0.065, 0.075, 0.085),
            },
            curated={"strings_count": 2, "unit_ah": 365, "cell_resistance_ohm_ah": 0.085},
            mistakes=FAULTS,
            words=WORDS,
            asked=(Step("bank_warm_resistance_ohm"), Step("bank_fault_a")),
        ),
        Work(
            id="L10-exit-4",
            others=OTHERS["L10-exit-4"],
            title="A box on the school's roof",
            statement="On a ski school's roof {strings_each_count} strings meet, {modules_in_series_count} modules in "
            "each: {module_isc_a} shorted, {module_voc_v} open, {voc_temp_per_k}. The bright-sun factor is "
            "{bright_sun_factor}. The coldest morning has {air_coldest_c}; the bank is {bank_voltage_v}, the house "
            "{ac_v}. What flows back into one shorted string, and for which voltage is its fuse holder chosen?",
            hint=FEEDS,
            sheet=ARRAY_SIDE.upto("array_backfeed_a", "voltage_most_by_row_v"),
            given=tables_of(IEC) | ON_ARRAY | {"bank_voltage_v": 48, "ac_v": 230},
            grids={
                "strings_each_count": (3, 4, 5),
                "modules_in_series_count": (2, 3),
                "module_isc_a": (9.4, 11.3, 12.6),
                "module_voc_v": (39.8, 49.4),
                "voc_temp_per_k": (-0.0026, -0.0029),
                "air_coldest_c": (-20, -15),
            },
            curated={
                "strings_each_count": 3,
                "modules_in_series_count": 2,
                "module_isc_a": 11.3,
                "module_voc_v": 49.4,
                "voc_temp_per_k": -0.0026,
                "air_coldest_c": -15,
            },
            mistakes=ARRAY,
            words=WORDS,
            asked=(Step("array_backfeed_a"), Step("voltage_most_by_row_v")),
        ),
    )


def _judged() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L10-exit-5",
            others=JUDGED["L10-exit-5"],
            title="A page for the foundry",
            statement="Somebody chose fuse and cable for a foundry by the IEC-style setting, factor "
            "{current_by_row_factor}: {current_by_row_a} for hours, air of {ambient_c}, {circuits_together_count} "
            "circuits in the bundle. Find the first line that goes wrong, if there is one, and mend it.",
            hint=LINE,
            sheet=CHAIN,
            given=tables_of(IEC) | {"current_by_row_factor": IEC.continuous_factor},
            grids={
                "current_by_row_a": (18, 23, 29, 36, 44),
                "ambient_c": (40, 45, 50),
                "circuits_together_count": (2, 3, 4),
            },
            curated={"current_by_row_a": 29, "ambient_c": 45, "circuits_together_count": 3},
            mistakes=("OP-06", "WI-14", "WI-15"),
            words=WORDS,
            listed=(fuses(IEC), air(IEC), together(IEC), cables(IEC)),
        ),
        Choose(
            id="L10-exit-6",
            others=JUDGED["L10-exit-6"],
            title="The fuse that keeps blowing",
            statement="In a hot cupboard of the clinic a 16 A fuse blows each time the autoclave has run for half an "
            "hour. The autoclave takes 15 A; the wire, where it lies, carries 19 A. What is to be done?",
            hint=OPENS,
            options=(
                Option(
                    "a thicker wire first, then a fuse that its 15 A do not warm all day",
                    "The next size, 20 A, is above this wire. First the wire, then the fuse.",
                    right=True,
                ),
                Option("a 25 A fuse: it will hold, and holding is what it is for", mistake="OP-03"),
                Option("a 20 A fuse: the wire carries more than the 15 A of the load", mistake="OP-06"),
                Option(
                    "two 16 A fuses side by side: each has only half to carry",
                    "What may flow in the one wire before both of them open?",
                ),
            ),
        ),
    )
