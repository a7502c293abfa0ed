"""Other templates of the wiring lesson's exit quiz, those that judge: pages with a slip, and choices about safety."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l10_tables_more import (
    BANK_FAULT,
    CABLE_FOR_DROP,
    FULL_CELL,
    IEC,
    LAID,
    OPENS,
    WORDS,
    air,
    cables,
    fuses,
    tables_of,
)
from offgrid_core.sizing.protection import PROTECTION
from offgrid_core.worksheet import Sheet

_PAGE = "What does this line begin from, and what should happen to it?"
_FAULT_PAGE = BANK_FAULT + Sheet(PROTECTION["array_backfeed_a"])


def _slips() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L10-exit-5",
            title="A fuse for an old cable",
            statement="Under Riverbend's floor lies an old cable of {cable_by_row_mm2}, {ambient_c} round it, "
            "{grouping_frac} left by its neighbours. A fan of {current_by_row_a} is to hang on it (IEC style, factor "
            "{current_by_row_factor}). Here is how a helper picked the fuse. Which line is the first to be wrong, or "
            "is none?",
            hint=_PAGE,
            sheet=LAID,
            given=tables_of(IEC) | {"current_by_row_factor": IEC.continuous_factor},
            grids={
                "cable_by_row_mm2": (16, 25, 35),
                "ambient_c": (40, 45, 50),
                "grouping_frac": (0.7, 0.8),
                "current_by_row_a": (14, 18, 22, 28),
            },
            curated={"cable_by_row_mm2": 16, "ambient_c": 40, "grouping_frac": 0.8, "current_by_row_a": 18},
            mistakes=("OP-03", "WI-24", "WI-25"),
            words=WORDS,
            listed=(fuses(IEC), air(IEC), cables(IEC)),
        ),
        Slip(
            id="L10-exit-5",
            title="A long run for the pier",
            statement="A sheet says how thick the lead to the pier's lamp must be: {current_by_row_a} at "
            "{voltage_by_row_v}, {length_by_row_m} along the jetty, no more than {drop_limit_by_row_frac} lost, copper "
            "as the table has it; on shore they have {ac_v}. Look for a mistake; it may be a clean sheet.",
            hint=_PAGE,
            sheet=CABLE_FOR_DROP,
            given=tables_of(IEC) | {"wire_temp_c": IEC.table_temp_c, "voltage_by_row_v": 24, "ac_v": 230},
            grids={
                "current_by_row_a": (6, 8.5, 10.5),
                "length_by_row_m": (14, 17, 21),
                "drop_limit_by_row_frac": (0.03, 0.04, 0.05),
            },
            curated={"current_by_row_a": 8.5, "length_by_row_m": 17, "drop_limit_by_row_frac": 0.04},
            mistakes=("WI-01", "WI-04", "WI-07"),
            words=WORDS,
            listed=(cables(IEC, carries=False, resists=True),),
        ),
        Slip(
            id="L10-exit-5",
            title="Fault currents, worked by a friend",
            statement="Checked for a friend with a cabin: the short of a bank with {strings_count} strings, "
            "{cells_count} cells by {unit_ah}, {cell_resistance_ohm_ah} divided by size for a warm cell; then the feed "
            "into one bad roof string out of {strings_each_count}, each {module_isc_a}, sun factor "
            "{bright_sun_factor}. Where does it first go astray, and what should stand there?",
            hint=_PAGE,
            sheet=_FAULT_PAGE,
            given=tables_of(IEC) | FULL_CELL | {"cells_count": 12},
            grids={
                "strings_count": (2, 3, 4),
                "unit_ah": (180, 240, 300),
                "cell_resistance_ohm_ah": (0.06, 0.08),
                "strings_each_count": (3, 4, 5),
                "module_isc_a": (8.8, 10.7, 12.2),
            },
            curated={
                "strings_count": 3,
                "unit_ah": 240,
                "cell_resistance_ohm_ah": 0.08,
                "strings_each_count": 4,
                "module_isc_a": 10.7,
            },
            mistakes=("OP-09", "OP-11", "OP-12", "OP-14"),
            words=WORDS,
        ),
    )


def _choices() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L10-exit-6",
            title="What is it for?",
            statement="An apprentice asks what the fuse at the battery end of a long cable protects. Which answer "
            "would you stand by?",
            hint=OPENS,
            options=(
                Option(
                    "the cable: the fuse opens before the copper grows too hot",
                    "So it stands close to the battery, and is never above what the cable carries.",
                    right=True,
                ),
                Option("the battery: the larger the fuse, the safer it is", mistake="OP-03"),
                Option("the appliance: a cable that carries the appliance needs no more", mistake="OP-06"),
                Option(
                    "the person: it opens when somebody touches a wire",
                    "Is the current through a hand anywhere near the rating of such a fuse?",
                ),
            ),
        ),
        Choose(
            id="L10-exit-6",
            title="Hot roof, same fuse",
            statement="A line was sound when it was laid: load 20 A, fuse 25 A, conductor 27 A. Now two more lines "
            "share its pipe and the roof space has grown warm, so that the conductor is down to 19 A. Nobody touched "
            "the fuse. What holds?",
            hint="Which of the three numbers has changed, and past which of the others did it go?",
            options=(
                Option(
                    "nothing guards it any more: fuse and load are both above what it carries",
                    "A fuse knows nothing of heat and neighbours; the conductor must be replaced, or the pipe emptied.",
                    right=True,
                ),
                Option("it is still sound: what the table says of a conductor stays", mistake="WI-15"),
                Option("a fuse chosen from the old 27 A, 32 A, would make up for it", mistake="OP-03"),
                Option("it is sound up to the load: only what flows for hours matters", mistake="OP-06"),
            ),
        ),
        Choose(
            id="L10-exit-6",
            title="The breaker that fits",
            statement="A breaker out of a house panel clicks neatly onto the rail beside the module strings: 16 A, "
            "230 V AC. The strings reach 109 V DC on a frosty dawn. May it stay there?",
            hint="What makes an arc go out, and how often does that come about on each side of the inverter?",
            options=(
                Option(
                    "no: without a DC rating above 109 V its arc may burn on after it has opened",
                    "AC passes through zero many times a second; DC never does, and the sun does not switch off.",
                    right=True,
                ),
                Option("yes: 230 V is more than twice what the strings give", mistake="OP-15"),
                Option("yes: behind the controller there are only 48 V", mistake="OP-16"),
                Option("yes, if it is swapped for 32 A so that it never has to open", mistake="OP-03"),
            ),
        ),
    )


#: By place, the templates beside the first.
JUDGED: Mapping[str, tuple[Slot, ...]] = {"L10-exit-5": _slips(), "L10-exit-6": _choices()}
