"""Practice of the array lesson that is mixed in from the lessons before it: nothing in it says which one it is."""

from offgrid_core.practice.kinds import Choose, Option, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK, LOADS
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_COLD = Sheet(*(BANK[n] for n in ("bank_warm_wh", "bank_cold_wh", "bank_needed_ah")))
_COUNTS = STRINGS.upto("units_count") + Sheet(STRINGS["bank_ah"])
_WORDS = {
    "ac_day_wh": "AC energy a day",
    "dc_day_wh": "DC energy a day",
    "spell_wh": "energy of the sunless days",
    "bank_warm_wh": "bank, if it stayed warm",
    "kept_frac": "share kept in the cold",
    "bank_needed_ah": "bank needed",
    "bank_ah": "capacity of the bank as built",
}


def mixed() -> tuple[Slot, ...]:
    """Return the four problems, each from other lessons."""
    return (
        Work(
            id="L07-5",
            title="What has to be brought back",
            statement="Whatever leaves the cabin's battery must be made on its roof. A day takes {ac_day_wh} at the "
            "sockets and {dc_day_wh} on DC. The inverter passes on {inverter_eff_frac} and idles at {inverter_idle_w} "
            "for {inverter_on_h}. How much leaves the battery?",
            hint="Which path does each load's energy take from the battery?",
            principle="Only what passes the inverter pays its loss; what it takes for being on comes on top.",
            sheet=_BUS,
            given={"dc_wiring_eff_frac": 1, "growth_factor": 1},
            grids={
                "ac_day_wh": (260, 340, 430, 520),
                "dc_day_wh": (180, 240, 310, 370),
                "inverter_eff_frac": (0.7, 0.74, 0.78),
                "inverter_idle_w": (6, 9, 12),
                "inverter_on_h": (10, 12, 16),
            },
            curated={
                "ac_day_wh": 340,
                "dc_day_wh": 240,
                "inverter_eff_frac": 0.74,
                "inverter_idle_w": 9,
                "inverter_on_h": 12,
            },
            mistakes=("LD-13", "LD-14", "LD-15", "LD-16", "LD-19"),
            words=_WORDS,
            asked=tuple(map(Step, _BUS)),
        ),
        Work(
            id="L07-9",
            title="Behind the array",
            statement="The dull days at a mountain farm take {spell_wh} in all. {depth_frac} of the label may be taken "
            "out, and on the coldest day the bank keeps {kept_frac} of it, at {bank_voltage_v}. What does its label "
            "say, in watt-hours and in amp-hours?",
            hint="Which earlier line does this one begin from?",
            principle="First the depth, then the cold, then the voltage; each line begins from the one before.",
            sheet=_COLD,
            grids={
                "spell_wh": (7800, 9200, 10400, 11600),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.62, 0.66, 0.72),
                "bank_voltage_v": (24, 48),
            },
            curated={"spell_wh": 9200, "depth_frac": 0.6, "kept_frac": 0.66, "bank_voltage_v": 48},
            mistakes=("DD-01", "DD-03", "TE-01", "TE-02", "BV-07", "BV-09"),
            words=_WORDS,
            asked=tuple(map(Step, _COLD)),
        ),
        Work(
            id="L07-10",
            title="On the lorry",
            statement="Together with the modules, a bank of {bank_voltage_v} is ordered for {bank_needed_ah}. One unit "
            "has {unit_v} and {unit_ah}. How many make one string, how many strings are there, how many units come on "
            "the lorry, and what capacity do they make?",
            hint="Which connection stacks volts, and which adds amp-hours?",
            principle="In a row the volts add up; rows side by side add their amp-hours. Only whole rows count.",
            sheet=_COUNTS,
            grids={
                "bank_needed_ah": (560, 640, 720, 830, 970, 1130),
                "bank_voltage_v": (24, 48),
                "unit_v": (2, 6),
                "unit_ah": (225, 310, 380),
            },
            curated={"bank_needed_ah": 830, "bank_voltage_v": 48, "unit_v": 6, "unit_ah": 380},
            mistakes=("ST-02", "ST-03", "ST-05", "ST-08"),
            words=_WORDS,
            asked=tuple(map(Step, _COUNTS)),
        ),
        Choose(
            id="L07-11",
            title="Twice the volts",
            statement="The load stays as it is, but the whole system goes from 24 V to 48 V. What becomes of the loss "
            "in one and the same cable?",
            hint="What becomes of the current, and how does the loss follow it?",
            options=(
                Option(
                    "it falls to a quarter",
                    "Half the current, and the loss goes with its square.",
                    right=True,
                ),
                Option("it falls to a half", "If the current halves, what becomes of current times current?"),
                Option("it doubles, with the volts", "Is it volts or amps that heat a cable?"),
                Option("it stays: the watts are the same", "Do the same watts at more volts take as many amps?"),
            ),
        ),
    )
