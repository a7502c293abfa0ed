"""Further templates of the exit quiz of the inverter lesson: choices, and pages with a slip."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l09_sheets_more import (
    HEAT,
    LINE,
    MARGIN,
    NAMEPLATE,
    PLAIN,
    RATINGS,
    SURGE,
    TOGETHER,
    WITH_HOURS,
    WORDS,
)
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.worksheet import Sheet

_ALL = PLAIN | {"coincidence_by_row_frac": 1}


def _choices() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L09-exit-5",
            title="Every label of the house",
            statement="A family adds up all its labels: 4100 W. In its fullest minute 1300 W run. Somebody wants an "
            "inverter for the 4100 W, to be on the safe side. Which answer is sound?",
            hint=TOGETHER,
            options=(
                Option(
                    "1300 W with a margin, and the hardest start on top of what runs",
                    "The rest of the labels never meet. A larger inverter would only idle more.",
                    right=True,
                ),
                Option("4100 W: each label may be on some day", mistake="IN-02"),
                Option("the largest single label is enough", mistake="IN-01"),
                Option("neither: the watt-hours of the day decide the size", mistake="IN-03"),
            ),
        ),
        Choose(
            id="L09-exit-5",
            title="Asleep and awake",
            statement="Nothing is plugged in at the cabin from Sunday to Friday. Its inverter, left on, takes 14 W. "
            "What happens to the battery in these five days, if no sun comes?",
            hint="What warms an inverter that feeds nothing?",
            options=(
                Option(
                    "about 1.7 kWh leave it, nearly what a busy day of the cabin takes",
                    "14 W for 120 hours. Switched off, or asleep, it would take next to nothing.",
                    right=True,
                ),
                Option("nothing leaves it: no load, no draw", mistake="LD-19"),
                Option("14 Wh leave it, one for each watt", "For how many hours do the 14 W flow?"),
                Option(
                    "it depends on the inverter's efficiency alone", "Of what energy is an efficiency a share, here?"
                ),
            ),
        ),
        Choose(
            id="L09-exit-5",
            title="The pump trips it at noon",
            statement="An inverter carries every load by itself. At noon, with the iron on, it trips whenever the pump "
            "starts; at night the same pump starts well. What is to be said?",
            hint="In which minute does the pump start, and on top of what?",
            options=(
                Option(
                    "the start comes on top of the iron: iron at another time, or more surge",
                    "A rule in the house costs nothing, a larger inverter idles all year.",
                    right=True,
                ),
                Option("the iron starts with several times its watts too", mistake="IN-07"),
                Option("the pump is broken: it takes no more to start than to run", mistake="IN-06"),
                Option("the pump's start alone is too much for it", mistake="IN-08"),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L09-exit-6",
            title="Shaft, plug and heat",
            statement="An offer for a mill: nameplate {shaft_hp}, efficiency {motor_eff_frac}, lights {others_w}. "
            "Air {air_hot_c}; the label ({inverter_rated_w}) is quoted at {inverter_temp_rated_c} with "
            "{inverter_derate_per_k}. Someone's arithmetic is below. Say where it leaves the road, unless it does not, "
            "and put it back on.",
            hint=LINE,
            sheet=Sheet(NAMEPLATE["motor_input_w"], NAMEPLATE["peak_w"]) + HEAT,
            grids={
                "shaft_hp": (0.75, 1, 1.5),
                "motor_eff_frac": (0.62, 0.68, 0.74),
                "others_w": (90, 130),
                "air_hot_c": (52, 56),
                "inverter_temp_rated_c": (30, 40),
                "inverter_derate_per_k": (0.014, 0.017),
                "inverter_rated_w": (1600, 2600),
            },
            curated={
                "shaft_hp": 1,
                "motor_eff_frac": 0.74,
                "others_w": 90,
                "air_hot_c": 52,
                "inverter_temp_rated_c": 30,
                "inverter_derate_per_k": 0.017,
                "inverter_rated_w": 2600,
            },
            mistakes=("IN-13", "IN-14", "IN-15", "IN-16", "IN-17", "IN-20"),
            words=WORDS,
        ),
        Slip(
            id="L09-exit-6",
            title="A baker's list with hours",
            statement="Mixer, oven fan and lamps of a bakery all work before dawn. The clerk took the table and "
            "{inverter_margin_factor}, and wrote this. Is there a false line; which is the first; and its true figure?",
            hint=LINE,
            sheet=WITH_HOURS.upto("inverter_needed_w") + Sheet(INVERTER["inverter_hot_w"]),
            rows=("mixer", "oven fan", "lamps"),
            given=_ALL | MARGIN | {"inverter_temp_rated_c": 25, "inverter_derate_per_k": 0.015},
            grids={
                "power_by_row_w": ((750, 180, 90), (620, 240, 70), (880, 150, 110)),
                "hours_by_row_h": ((2, 3, 4), (1.5, 4, 3), (3, 2, 5)),
                "inverter_rated_w": (1600, 2400),
                "air_hot_c": (44, 48),
            },
            curated={
                "power_by_row_w": (750, 180, 90),
                "hours_by_row_h": (2, 3, 4),
                "inverter_rated_w": 1600,
                "air_hot_c": 44,
            },
            mistakes=("IN-01", "IN-03", "IN-04", "IN-19"),
            words=WORDS,
        ),
        Slip(
            id="L09-exit-6",
            title="Before the irrigation is ordered",
            statement="Two pumps and a control box, everything at once, as the supplier reckoned it: volt-amps, then "
            "the start. Your signature is wanted. Go down the lines; name the first that is off, or none, with the "
            "number that belongs to it.",
            hint=LINE,
            sheet=Sheet(SURGE["peak_w"], RATINGS["peak_va"], SURGE["start_extra_w"], SURGE["surge_w"]),
            rows=("deep pump", "booster pump", "control box"),
            given=_ALL,
            grids={
                "power_by_row_w": ((680, 290, 60), (750, 340, 45), (590, 380, 80)),
                "power_factor_by_row_ratio": ((0.75, 0.7, 0.6), (0.8, 0.65, 0.55)),
                "start_by_row_factor": ((4, 3, 1), (5, 3.5, 1), (3.5, 3, 1)),
            },
            curated={
                "power_by_row_w": (680, 290, 60),
                "power_factor_by_row_ratio": (0.75, 0.7, 0.6),
                "start_by_row_factor": (4, 3, 1),
            },
            mistakes=("IN-01", "IN-06", "IN-07", "IN-10", "IN-11", "IN-12"),
            words=WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
JUDGED: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_choices(), _pages())}
