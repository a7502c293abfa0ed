"""Exit quiz of the inverter lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l09_exit_judge_more import JUDGED
from offgrid_core.practice.slots.l09_exit_more import OTHERS
from offgrid_core.practice.slots.l09_sheets_more import (
    HEAT,
    HOT,
    LINE,
    MARGIN,
    PLAIN,
    RATINGS,
    SIDE_VA,
    START,
    SURGE,
    THREE_OF_FOUR,
    TOGETHER,
    VOLT_AMPS,
    WITH_HOURS,
    WORDS,
)

_OTHERS = {**OTHERS, **JUDGED}


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L09-exit-1",
            others=_OTHERS["L09-exit-1"],
            title="Breakfast at the hut",
            statement="At breakfast the first three are on at once; the warden leaves the hoover for the afternoon. "
            "How many watts run together, and how many are wanted on the label with {inverter_margin_factor} as the "
            "margin?",
            hint=TOGETHER,
            sheet=WITH_HOURS,
            rows=("kettle", "toaster", "fridge", "hoover"),
            given=PLAIN | MARGIN | THREE_OF_FOUR,
            grids={
                "power_by_row_w": ((1050, 650, 90, 700), (900, 750, 110, 600), (1200, 550, 80, 800)),
                "hours_by_row_h": ((0.5, 0.5, 8, 1), (0.25, 0.5, 7, 0.5), (0.5, 0.25, 9, 1), (0.25, 0.25, 8, 1)),
            },
            curated={"power_by_row_w": (1050, 650, 90, 700), "hours_by_row_h": (0.5, 0.5, 8, 1)},
            mistakes=("IN-01", "IN-02", "IN-03", "IN-04"),
            words=WORDS,
            asked=(Step("peak_w"), Step("inverter_needed_w")),
        ),
        Work(
            id="L09-exit-2",
            others=_OTHERS["L09-exit-2"],
            title="The clinic's water",
            statement="At Riverbend the borehole pump starts while fridge and steriliser are on. What runs together "
            "once it turns, which extra does the hardest start bring, and what does the inverter have to give in that "
            "moment?",
            hint=START,
            sheet=SURGE,
            rows=("borehole pump", "vaccine fridge", "steriliser"),
            given=PLAIN | {"coincidence_by_row_frac": 1},
            grids={
                "power_by_row_w": ((420, 110, 700), (510, 120, 550), (380, 95, 800), (460, 130, 620)),
                "start_by_row_factor": ((4, 5, 1), (5, 4, 1), (3.5, 3, 1), (6, 4, 1)),
            },
            curated={"power_by_row_w": (420, 110, 700), "start_by_row_factor": (5, 4, 1)},
            mistakes=("IN-06", "IN-07", "IN-08", "IN-09"),
            words=WORDS,
            asked=tuple(map(Step, SURGE)),
        ),
        Work(
            id="L09-exit-3",
            others=_OTHERS["L09-exit-3"],
            title="A carpenter moves in",
            statement="Beside the hut a carpenter runs three machines at the same time, a fourth only by itself. How "
            "many watts does he take, and to how many volt-amps do they come?",
            hint=SIDE_VA,
            sheet=VOLT_AMPS,
            rows=("planer", "dust fan", "lamps", "router table"),
            given=PLAIN | THREE_OF_FOUR,
            grids={
                "power_by_row_w": (
                    (750, 370, 80, 600),
                    (900, 250, 120, 700),
                    (680, 310, 60, 500),
                    (820, 340, 100, 640),
                ),
                "power_factor_by_row_ratio": (
                    *((0.75, 0.7, 1, 0.8), (0.65, 0.8, 0.9, 0.8)),
                    *((0.7, 0.6, 0.95, 0.75), (0.8, 0.55, 1, 0.7)),
                ),
            },
            curated={"power_by_row_w": (750, 370, 80, 600), "power_factor_by_row_ratio": (0.75, 0.7, 1, 0.8)},
            mistakes=("IN-01", "IN-10", "IN-11"),
            words=WORDS,
            asked=tuple(map(Step, VOLT_AMPS)),
        ),
        Work(
            id="L09-exit-4",
            others=_OTHERS["L09-exit-4"],
            title="The pump house in August",
            statement="In the pump house it gets {air_hot_c} in August, and {peak_w} have to run. The inverters that "
            "one can get there are good for their label up to {inverter_temp_rated_c} and lose "
            "{inverter_derate_per_k} beyond it. Of {inverter_rated_w} on a label, what is left, which share is that, "
            "and what has to be on the label?",
            hint=HOT,
            sheet=HEAT,
            grids={
                "air_hot_c": (51, 54, 57),
                "peak_w": (640, 870, 1130, 1380),
                "inverter_temp_rated_c": (35, 40),
                "inverter_derate_per_k": (0.014, 0.017),
                "inverter_rated_w": (900, 1600, 2400),
            },
            curated={
                "air_hot_c": 54,
                "peak_w": 1380,
                "inverter_temp_rated_c": 40,
                "inverter_derate_per_k": 0.017,
                "inverter_rated_w": 2400,
            },
            mistakes=("IN-16", "IN-17", "IN-18", "IN-20"),
            words=WORDS,
            asked=tuple(map(Step, HEAT)),
        ),
        Choose(
            id="L09-exit-5",
            others=_OTHERS["L09-exit-5"],
            title="One that is sure to be enough",
            statement="The hut needs 1400 W on its label. The dealer's words: take the one of 6500 W, then you never "
            "have to think again. It idles at 45 W, the small one at 17 W. What do you answer?",
            hint="For how many hours a day does an inverter idle?",
            options=(
                Option(
                    "the large one takes 28 W more, day and night: about a quarter of what the hut uses",
                    "28 W for 24 hours are 672 Wh, beside a day of some 2600 Wh.",
                    right=True,
                ),
                Option("take it: with nothing plugged in an inverter takes nothing", mistake="LD-19"),
                Option(
                    "take it: a large one works more easily, so it loses less",
                    "What does it take in the hours in which only the fridge hums?",
                ),
                Option(
                    "take it: 45 W is a small share of 6500 W", "Of which is it a share: the label, or the day's use?"
                ),
            ),
        ),
        Slip(
            id="L09-exit-6",
            others=_OTHERS["L09-exit-6"],
            title="A page for the dairy",
            statement="From a dairy: milking machine, cooler and lamps go together, the washer waits its turn; "
            "{inverter_margin_factor} for the margin. Read the page from the top. Which line goes wrong first, if one "
            "does, and what should stand there?",
            hint=LINE,
            sheet=RATINGS,
            rows=("milking machine", "cooler", "lamps", "washer"),
            given=PLAIN | MARGIN | THREE_OF_FOUR,
            grids={
                "power_by_row_w": ((550, 480, 90, 400), (620, 390, 120, 450), (510, 430, 70, 380)),
                "power_factor_by_row_ratio": ((0.75, 0.7, 0.9, 0.8), (0.7, 0.65, 0.9, 0.75)),
                "start_by_row_factor": ((3, 5, 1, 2), (2.5, 4.5, 1, 3)),
            },
            curated={
                "power_by_row_w": (550, 480, 90, 400),
                "power_factor_by_row_ratio": (0.75, 0.7, 0.9, 0.8),
                "start_by_row_factor": (3, 5, 1, 2),
            },
            mistakes=("IN-01", "IN-02", "IN-04", "IN-06", "IN-07", "IN-10", "IN-11"),
            words=WORDS,
        ),
    )
