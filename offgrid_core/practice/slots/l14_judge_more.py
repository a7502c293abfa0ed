"""Judgement items of the last lesson: what binds a part, another's drawing, a fault, the words of handing over."""

from dataclasses import replace

from offgrid_core.practice.kinds import Choose, Drawing, Failed, Option
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_judge_more import judge as of_controllers
from offgrid_core.practice.slots.l14_briefs_more import SOUND_FARM
from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.protection import DEVICES, PROTECTION
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

#: A whole system on one sheet: the bank, the cold morning, two circuits and what opens them.
_WHOLE = Sheet(
    STRINGS["bank_ah"],
    STRINGS["bank_margin_ah"],
    ARRAY_LAYOUT["string_voc_cold_v"],
    ARRAY_LAYOUT["cold_voltage_margin_v"],
    CIRCUITS["fuse_margin_by_row_a"],
    PROTECTION["fuse_current_margin_by_row_a"],
    DEVICES["device_voltage_margin_by_row_v"],
    DEVICES["device_interrupting_margin_by_row_a"],
)


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (_binding(), _limit(), _year(), _drawing(), _own(), _handover())


def _binding() -> Slot:
    """Return a controller again, since no part has more limits; other numbers, another place."""
    pick = next(s for s in of_controllers() if s.id == "L08-pick")
    return replace(
        pick,
        id="L14-binding",
        title="Pick a part, and know what binds it",
        statement="The inn's bank of {bank_voltage_v} is charged up to {absorb_set_v}. On the roof lie {array_w}: "
        "{array_strings_count} rows of {modules_in_series_count}, each module {module_voc_v} open and {module_vmp_v} "
        "working, {voc_temp_per_k} and {power_temp_per_k} with the heat. The coldest dawn has {air_coldest_c}, a cell "
        "in summer {cell_hottest_c}; cloud edges want {controller_factor}. Find the cheapest tracking controller that "
        "keeps every limit. Costs are invented.",
        hint="Which of its numbers is the one that leaves least to spare here?",
    )


def _limit() -> Slot:
    return Choose(
        id="L14-limit",
        title="What decided the size?",
        statement="A client asks why the school got three module strings and not two. Two strings would have made more "
        "than the whole year's energy. Which sentence gives the reason?",
        hint="In which month is least left over between what is made and what is used?",
        principle="A part is as large as its binding limit asks; every other limit is kept with room to spare.",
        options=(
            Option(
                "in the month that has least sun for its load, two strings fall short; that month decides",
                "The year's total was never the limit. One month was, and it is the one to show the client.",
                right=True,
            ),
            Option("over the year two strings are just as good, the third is for growth", mistake="YS-11"),
            Option("the best month of the year needs the third string", mistake="YS-13"),
            Option(
                "three is what one does for a bank of 24 V",
                because="Which line of the sheet would change if the load in the hardest month were halved?",
            ),
        ),
    )


def _year() -> Slot:
    return Choose(
        id="L14-year",
        title="What the year has shown",
        statement="Twenty drawn years of a design are done. In the worst of them a hundredth of the energy was "
        "missing, all of it in seventy hours of two weeks in winter. The client had asked for a fiftieth at the most. "
        "What may be said to the client?",
        hint="What was asked for, and what exactly was counted?",
        principle="A drawn year is like weather that could come, not like weather that will. Say what was counted and "
        "how many years were tried.",
        options=(
            Option(
                "in twenty years like those of the past, the wish was kept; a worse year can still come",
                "It names what was tried, what came out, and what nobody can promise.",
                right=True,
            ),
            Option("ninety-nine of a hundred parts of the energy are missing", mistake="YS-08"),
            Option("the year as a whole has more sun than load, so nothing can be missing", mistake="YS-11"),
            Option(
                "seventy of the year's 8\u2009760 hours were dark, and that is the share of the energy", mistake="YS-10"
            ),
        ),
    )


def _drawing() -> Slot:
    return Drawing(
        id="L14-drawing",
        title="Check what somebody else designed",
        statement="Another learner handed in this design of a hut at {bank_voltage_v}. It is a neat sheet. Judge each "
        "rule by what stands on it; where a number is missing, say so. Then change one thing for the better.",
        hint="Which numbers does the rule compare, and are all of them on the sheet?",
        principle="A neat sheet is not a sound one. Each rule is looked at by itself, the dangerous ones first.",
        sheet=_WHOLE,
        rows=("array to controller", "bank to inverter"),
        given={"bank_voltage_v": 48, "modules_in_series_count": 3, "controller_voltage_max_v": 190},
        grids={
            "unit_ah": (210, 260),
            "strings_count": (2,),
            "bank_needed_ah": (340, 395),
            "module_voc_v": (38.4, 41.2),
            "voc_temp_per_k": (-0.0028, -0.0031),
            "air_coldest_c": (-12, -18, -24),
            "design_current_by_row_a": ([17.2, 52], [21.4, 61]),
            "fuse_by_row_a": ([25, 63], [25, 80]),
            "ampacity_by_row_a": ([36, 95], [46, 120]),
            "voltage_most_by_row_v": ([142, 62.4], [151, 64.8]),
            "device_dc_by_row_v": ([250, 80], [160, 125]),
            "fault_by_row_a": ([31, 8200], [34, 11_500]),
            "device_interrupting_by_row_a": ([1500, 20_000], [3000, 20_000]),
        },
        curated={
            "unit_ah": 210,
            "strings_count": 2,
            "bank_needed_ah": 395,
            "module_voc_v": 41.2,
            "voc_temp_per_k": -0.0028,
            "air_coldest_c": -18,
            "design_current_by_row_a": [21.4, 61],
            "fuse_by_row_a": [25, 80],
            "ampacity_by_row_a": [36, 95],
            "voltage_most_by_row_v": [151, 64.8],
            "device_dc_by_row_v": [250, 80],
            "fault_by_row_a": [34, 11_500],
            "device_interrupting_by_row_a": [1500, 20_000],
            "batch": 0,
        },
        changes={
            "bank_margin_ah": ("strings_count", (1,)),
            "cold_voltage_margin_v": ("controller_voltage_max_v", (90, 110)),
            "fuse_margin_by_row_a.2": ("ampacity_by_row_a.2", (40, 50)),
            "fuse_current_margin_by_row_a.2": ("fuse_by_row_a.2", (32, 40)),
            "device_voltage_margin_by_row_v.1": ("device_dc_by_row_v.1", (48, 80)),
            "device_voltage_margin_by_row_v.2": ("device_dc_by_row_v.2", (32, 58)),
            "device_interrupting_margin_by_row_a.2": ("device_interrupting_by_row_a.2", (1500, 6000)),
        },
        can_change={
            "strings_count": (1, 4),
            "controller_voltage_max_v": (50, 1000),
            "fuse_by_row_a": (5, 250),
            "ampacity_by_row_a": (10, 400),
            "device_dc_by_row_v": (12, 1000),
            "device_interrupting_by_row_a": (500, 50_000),
        },
        left_out={
            "ampacity_by_row_a.2": 40,
            "device_interrupting_by_row_a.2": 1000,
            "device_dc_by_row_v.1": 48,
            "air_coldest_c": -90,
        },
        words={
            "bank_needed_ah": "bank needed",
            "unit_ah": "label of a battery unit",
            "strings_count": "strings of the bank",
            "design_current_by_row_a": "design current",
            "fuse_by_row_a": "fuse",
            "ampacity_by_row_a": "what the cable carries where it lies",
            "voltage_most_by_row_v": "highest voltage",
            "fault_by_row_a": "current into a dead short",
        },
    )


def _own() -> Slot:
    return Failed(
        id="L14-own",
        title="A fault in the design",
        statement="One winter later the owner sends three days copied from the meters. Something has changed since the "
        "system was handed over. What, and which rows show it?",
        hint="Which reading could not be so in a sound system?",
        principle="Compare each reading with what the sheet says it should be, then look for the one change that "
        "explains them all.",
        plan=SOUND_FARM,
        curated={"fault": "always_on_load", "day": 160, "case": 271},
    )


def _handover() -> Slot:
    return Choose(
        id="L14-handover",
        title="In plain words",
        statement="The family will live with the system, not with the sheet. Which sentence belongs on the card beside "
        "the switch?",
        hint="What can the reader see and do, without knowing a word of the trade?",
        principle="A handover says what to look at, what to do then, and whom to call before a cover is opened.",
        options=(
            Option(
                "when the meter shows the orange mark, leave the pump and the iron off until it is green; call us "
                "before you open any cover",
                "It says what to see, what to do, and where to stop.",
                right=True,
            ),
            Option(
                "keep the depth of discharge above its set-point in the design month",
                because="Which of these words would somebody know who has never sized a bank?",
            ),
            Option(
                "the system was sized by the rules and needs no attention",
                because="What would the family notice first in a dark week, and what would they do?",
            ),
            Option(
                "if the lights go out, put a larger fuse in until the installer comes",
                mistake="OP-03",
            ),
        ),
    )
