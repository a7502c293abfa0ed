"""Problems of the year lesson; what is judged, chosen, and mixed in from earlier lessons stands beside it."""

from offgrid_core.practice.kinds import Backwards, Guess, Knob, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l07_sheets_more import TWELVE
from offgrid_core.practice.slots.l12_judge_more import judge
from offgrid_core.practice.slots.l12_mixed_more import mixed
from offgrid_core.practice.slots.l12_open_more import open_ones
from offgrid_core.practice.slots.l12_sheets_more import (
    DAY,
    DULL_DAYS,
    EACH_MONTH,
    FIGURES,
    FIGURES_IDEA,
    HOW_LONG,
    LOG_IDEA,
    LOGGED_NIGHT,
    LOSS_READ,
    LOST_OF_BANK,
    MONTH_IDEA,
    MONTHS_IN_DAYS,
    SPILLING,
    STEP_BY_STEP,
    STEP_IDEA,
    STEPS,
    UP_TO_NOON,
    USED,
    WARM,
    WHOLE,
    WORDS,
)
from offgrid_core.worksheet import Sheet

#: Twelve months of a place: what its array brings, and what its loads want; each list is another house.
CAME = (
    (31_000, 48_000, 77_000, 118_000, 131_000, 127_000, 134_000, 115_000, 93_000, 66_000, 37_000, 26_000),
    (44_000, 52_000, 71_000, 83_000, 96_000, 99_000, 104_000, 97_000, 82_000, 63_000, 47_000, 41_000),
    (21_000, 39_000, 68_000, 97_000, 121_000, 133_000, 128_000, 103_000, 76_000, 49_000, 27_000, 18_000),
    (36_000, 43_000, 62_000, 88_000, 112_000, 118_000, 121_000, 109_000, 79_000, 58_000, 39_000, 33_000),
)
WANTED = (
    (96_000, 86_000, 91_000, 87_000, 85_000, 82_000, 84_000, 85_000, 86_000, 91_000, 94_000, 98_000),
    (103_000, 95_000, 98_000, 89_000, 81_000, 76_000, 75_000, 77_000, 85_000, 94_000, 101_000, 105_000),
    (84_000, 78_000, 84_000, 90_000, 98_000, 103_000, 106_000, 104_000, 95_000, 87_000, 83_000, 82_000),
    (99_000, 90_000, 97_000, 93_000, 94_000, 91_000, 93_000, 94_000, 93_000, 98_000, 97_000, 101_000),
)
#: Eight readings of a wall meter, a quarter of an hour apart.
READINGS = (
    (140, 155, 610, 585, 220, 180, 175, 160),
    (90, 95, 110, 870, 820, 130, 105, 85),
    (310, 340, 365, 290, 260, 710, 330, 280),
    (60, 75, 480, 455, 430, 70, 65, 55),
    (205, 190, 185, 640, 655, 210, 195, 170),
    (45, 50, 40, 1120, 1080, 60, 55, 50),
    (260, 250, 415, 430, 245, 240, 520, 255),
    (120, 115, 130, 125, 760, 135, 110, 105),
    (330, 345, 320, 310, 305, 890, 870, 315),
    (80, 85, 390, 410, 380, 370, 90, 75),
    (165, 150, 720, 170, 160, 740, 155, 145),
    (230, 225, 240, 560, 575, 550, 235, 220),
)
QUARTERS = ("18:00", "18:15", "18:30", "18:45", "19:00", "19:15", "19:30", "19:45")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    entry = entry_check("L12", *practice[:4])
    return (*open_ones(), _guess(), *entry, _explore(), *_faded(), *practice, *mixed(), *judge())


def _guess() -> Slot:
    return Guess(
        id="L12-guess",
        title="Guess, then lock it",
        statement="Fell hut as it was sized loses next to nothing of its load. In a mean year its array and generator "
        "have {came_year_wh:kWh} to offer. Which share of that reaches the warden's lamps, fridge and pump?",
        hint="In how many months of the year is the bank full by noon?",
        principle=FIGURES_IDEA,
        sheet=Sheet(USED["place_by_row_frac"]),
        curated={"came_year_wh": 3_512_000, "place_by_row_wh": 673_500},
        starts_curated=True,
        words=WORDS,
        step=Step("place_by_row_frac"),
    )


def _explore() -> Slot:
    return Rise(
        id="L12-explore",
        title="Predict, then slide",
        statement="Fell hut stands with half its array, and its generator stands still. Over the year the array brings "
        "more than twice what the loads take, and yet load is lost in winter. Somebody says: then store it. What "
        "becomes of the load lost, if the bank is made {bank_after_factor} times as large, with the same array?",
        hint="In December, does the array bring more than the loads take, or less?",
        principle=MONTH_IDEA,
        sheet=LOSS_READ,
        given={"lost_of_bank": LOST_OF_BANK},
        curated={"bank_factor": 1, "bank_after_factor": 2},
        starts_curated=True,
        words=WORDS,
        result="loss_read_frac",
        moved="bank_factor",
        after="bank_after_factor",
        reasons=(
            Option(
                "in the dark months less comes in than goes out, and a larger bank cannot be filled either",
                "It carries a few days more into the dark; then it stands as empty as the small one.",
                right=True,
            ),
            Option("a larger bank takes the summer's sun into the winter", mistake="YS-11"),
            Option(
                "with more room nothing is spilled any more, so nothing is lost",
                "How long is December's deficit, and how long does the bank reach?",
            ),
            Option("a bank twice as large is filled every day as well, as the sun of July shows", mistake="YS-13"),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-faded-1",
            title="Faded: the night and the morning are yours",
            statement="Fell hut in March, warm enough that the cold takes nothing. The bank is {bank_wh}, of which "
            "{depth_frac} may be used; at dusk {store_wh} are in it. The night takes {deficit_wh}. In the morning "
            "{early_surplus_wh} are left after the loads, in the afternoon {late_surplus_wh}. Of what goes in "
            "{charge_eff_frac} can be had again.",
            hint=STEP_BY_STEP,
            principle=STEP_IDEA,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (16_000, 19_000, 22_000),
                "depth_frac": (0.4, 0.6),
                "store_wh": (14_200, 15_100, 15_900),
                "deficit_wh": (8300, 9600, 11_000),
                "early_surplus_wh": (2600, 3400, 4300),
                "late_surplus_wh": (12_800, 15_200, 18_400),
                "charge_eff_frac": (0.78, 0.82, 0.86),
            },
            curated={
                "bank_wh": 19_000,
                "depth_frac": 0.4,
                "store_wh": 14_200,
                "deficit_wh": 8300,
                "early_surplus_wh": 3400,
                "late_surplus_wh": 15_200,
                "charge_eff_frac": 0.82,
            },
            mistakes=("YS-02", "YS-03", "YS-05"),
            words=WORDS,
            asked=tuple(map(Step, ("floor_wh", *STEPS[:4]))),
            filled=(Step("late_stored_wh"), Step("dusk_wh")),
        ),
        Work(
            id="L12-faded-2",
            title="Faded: the first month and the sums are yours",
            statement="A hut's array and loads, month by month, stand below. Over the year they seem to match but for "
            "a few per cent. The bank carries days, not months. What is missing in January, and in the whole year? "
            "Which share of the load is that? How many days of load it comes to stands there already.",
            hint=EACH_MONTH,
            principle=MONTH_IDEA,
            sheet=MONTHS_IN_DAYS,
            grids={"yield_by_month_wh": CAME, "wanted_by_month_wh": WANTED},
            curated={"yield_by_month_wh": CAME[0], "wanted_by_month_wh": WANTED[0]},
            mistakes=("YS-08", "YS-11"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("short_by_month_wh", 0), Step("short_year_wh"), Step("least_lost_frac")),
            filled=(Step("short_year_days"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-1",
            title="A day in three steps",
            statement="A bank of {bank_wh} on the label may be emptied by {depth_frac}; nothing is lost to the cold. "
            "At dusk it holds {store_wh}. The loads of the night ask for {deficit_wh}. The morning leaves "
            "{early_surplus_wh} over, the afternoon {late_surplus_wh}; {charge_eff_frac} of what is put in comes out "
            "again. Follow the charge: dawn, noon, dusk.",
            hint=STEP_BY_STEP,
            principle=STEP_IDEA,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (9600, 12_000, 14_400),
                "depth_frac": (0.6, 0.7),
                "store_wh": (6300, 7400, 8700),
                "deficit_wh": (4700, 5900, 6800),
                "early_surplus_wh": (1700, 2300, 3100),
                "late_surplus_wh": (9500, 11_500, 13_500),
                "charge_eff_frac": (0.76, 0.8, 0.84),
            },
            curated={
                "bank_wh": 12_000,
                "depth_frac": 0.6,
                "store_wh": 8700,
                "deficit_wh": 5900,
                "early_surplus_wh": 2300,
                "late_surplus_wh": 11_500,
                "charge_eff_frac": 0.8,
            },
            mistakes=("YS-01", "YS-02", "YS-03", "YS-05"),
            words=WORDS,
            asked=tuple(map(Step, STEPS)),
        ),
        Work(
            id="L12-2",
            title="A year in three figures",
            statement="A house was followed for {hours_year_h}. In {short_year_h} of them its load fell short. The "
            "loads wanted {wanted_year_wh:kWh} and did not get {unserved_year_wh:kWh}. The array had "
            "{came_year_wh:kWh} to offer. Which share of the hours fell short, and which share of the load was lost "
            "by energy? How much reached the loads, and which share of what was on offer is that?",
            hint=WHOLE,
            principle=FIGURES_IDEA,
            sheet=FIGURES,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (130, 170, 210, 260),
                "wanted_year_wh": (690_000, 810_000, 940_000),
                "unserved_year_wh": (33_000, 47_000, 61_000),
                "came_year_wh": (1_850_000, 2_300_000, 2_900_000),
            },
            curated={
                "short_year_h": 170,
                "wanted_year_wh": 810_000,
                "unserved_year_wh": 47_000,
                "came_year_wh": 2_300_000,
            },
            mistakes=("YS-07", "YS-10", "YS-16"),
            words=WORDS,
            asked=tuple(map(Step, FIGURES)),
        ),
        Work(
            id="L12-5",
            title="Two hours of a wall meter",
            statement="At the cabin a meter writes down the power of the loads every {sample_h:min}; each reading "
            "stands until the next. At dusk the small bank of {bank_wh} held {store_wh}; {depth_frac} of the label may "
            "be used, and it was warm. What energy did the loads ask for in these two hours, and how much of it could "
            "the bank give?",
            hint=HOW_LONG,
            principle=f"{LOG_IDEA} The bank gives down to its cut-off and no further.",
            sheet=LOGGED_NIGHT,
            given={"sample_h": 0.25, **WARM},
            grids={
                "logged_by_row_w": READINGS,
                "bank_wh": (620, 710, 830),
                "store_wh": (430, 480, 540),
                "depth_frac": (0.6, 0.7),
            },
            curated={"logged_by_row_w": READINGS[0], "bank_wh": 710, "store_wh": 480, "depth_frac": 0.7},
            mistakes=("YS-02", "YS-15"),
            words=WORDS | {"store_wh": "charge at dusk", "drawn_wh": "energy the bank gave"},
            rows=QUARTERS,
            asked=(Step("logged_wh"), Step("drawn_wh")),
        ),
        Backwards(
            id="L12-4",
            title="When do the lamps come back?",
            statement="In the evening {store_wh} are in a bank of {bank_wh}, of which {depth_frac} may be used. The "
            "night asks for {deficit_wh}; at the cut-off the lamps go out. They come back when the charge has risen to "
            "{noon_goal_wh}. {charge_eff_frac} of what is put in comes out again. How much must the morning leave "
            "over, so that they are back at noon?",
            hint="With so much left over, what is the charge at noon?",
            principle=STEP_IDEA,
            sheet=UP_TO_NOON,
            given=WARM,
            grids={
                "bank_wh": (9600, 12_000, 14_400),
                "depth_frac": (0.6, 0.7),
                "store_wh": (6300, 7400, 8700),
                "deficit_wh": (4700, 5900, 6800),
                "noon_goal_wh": (7600, 8400, 9200),
                "charge_eff_frac": (0.76, 0.8, 0.84),
            },
            curated={
                "bank_wh": 12_000,
                "depth_frac": 0.6,
                "store_wh": 7400,
                "deficit_wh": 5900,
                "noon_goal_wh": 8400,
                "charge_eff_frac": 0.8,
            },
            mistakes=("YS-02", "YS-03", "YS-05"),
            words=WORDS,
            unknown="early_surplus_wh",
            span=(0, 40_000),
            result="noon_wh",
            wanted="noon_goal_wh",
        ),
        Knob(
            id="L12-7",
            title="Which knob keeps the lamps on?",
            statement="Before three dull days a bank of {bank_wh} is charged to {charge_before_frac}; {depth_frac} of "
            "it may be used, and the cold leaves {kept_now_frac} of that. Over the three days the loads ask for "
            "{dull_wanted_wh} and the array brings {dull_came_wh}; some energy will be missing. A tenth more or less "
            "of each: which three move the missing energy most?",
            hint="What of the bank does not count as long as it must stay in?",
            principle="The bank gives only what lies between its charge and its cut-off. A tenth of the charge is a "
            "tenth of all that is in the bank. A tenth of the bank is only a tenth of what it can give.",
            sheet=DULL_DAYS,
            given={"kept_now_frac": 0.8},
            grids={
                "bank_wh": (22_000, 24_000, 27_000),
                "charge_before_frac": (0.8, 0.85, 0.9),
                "depth_frac": (0.5, 0.55, 0.6),
                "dull_wanted_wh": (13_200, 14_600, 15_900, 17_300),
                "dull_came_wh": (2400, 3200, 4000),
            },
            curated={
                "bank_wh": 24_000,
                "charge_before_frac": 0.85,
                "depth_frac": 0.5,
                "dull_wanted_wh": 14_600,
                "dull_came_wh": 2400,
            },
            words=WORDS
            | {
                "dull_wanted_wh": "loads of the three days",
                "dull_came_wh": "energy from the array in the three days",
                "missed_wh": "missing energy",
            },
            result="missed_wh",
            inputs=("bank_wh", "charge_before_frac", "depth_frac", "dull_wanted_wh", "dull_came_wh"),
        ),
        Knob(
            id="L12-8",
            title="Which knob spills the sun?",
            statement="A bank of {bank_wh} holds {store_wh} at dusk. The night takes {deficit_wh}, the morning leaves "
            "{early_surplus_wh} over and the afternoon {late_surplus_wh}, of which a part is spilled; "
            "{charge_eff_frac} of what goes in comes out again. A tenth more or less of each: which three move the "
            "spilled energy most?",
            hint="Which of these numbers makes room in the bank, and which one fills it?",
            principle="Sun is spilled when it meets a full bank: room and surplus both count, the larger number more.",
            sheet=SPILLING,
            given=WARM | {"depth_frac": 0.7},
            grids={
                "bank_wh": (12_800, 14_600, 16_400),
                "store_wh": (9200, 9800, 10_400),
                "deficit_wh": (1200, 1600, 2100),
                "early_surplus_wh": (1300, 1900, 2400),
                "late_surplus_wh": (7900, 9600, 11_400, 13_200),
                "charge_eff_frac": (0.78, 0.84),
            },
            curated={
                "bank_wh": 12_800,
                "store_wh": 9800,
                "deficit_wh": 1200,
                "early_surplus_wh": 1300,
                "late_surplus_wh": 9600,
                "charge_eff_frac": 0.78,
            },
            words=WORDS,
            result="late_spilled_wh",
            inputs=(
                *("bank_wh", "store_wh", "deficit_wh"),
                *("early_surplus_wh", "late_surplus_wh", "charge_eff_frac"),
            ),
        ),
    )
