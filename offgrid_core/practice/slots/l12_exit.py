"""Exit quiz of the year lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import TWELVE
from offgrid_core.practice.slots.l12_exit_judge_more import JUDGED
from offgrid_core.practice.slots.l12_exit_more import OTHERS
from offgrid_core.practice.slots.l12_sheets_more import (
    DAY,
    EACH_MONTH,
    FIGURES,
    HOW_LONG,
    LOGGED_NIGHT,
    MONTHS_SHORT,
    PAGE_LINE,
    STEP_BY_STEP,
    STEPS,
    WARM,
    WHOLE,
    WORDS,
)

_OTHERS = {**OTHERS, **JUDGED}
_CAME = (
    (28_000, 51_000, 79_000, 112_000, 126_000, 124_000, 129_000, 117_000, 88_000, 61_000, 33_000, 24_000),
    (33_000, 46_000, 72_000, 104_000, 119_000, 128_000, 125_000, 108_000, 84_000, 57_000, 38_000, 29_000),
    (19_000, 41_000, 74_000, 109_000, 133_000, 136_000, 131_000, 113_000, 81_000, 52_000, 26_000, 15_000),
)
_WANTED = (
    (92_000, 84_000, 90_000, 86_000, 84_000, 81_000, 83_000, 84_000, 86_000, 90_000, 91_000, 93_000),
    (101_000, 92_000, 96_000, 88_000, 82_000, 78_000, 77_000, 79_000, 86_000, 95_000, 99_000, 102_000),
    (81_000, 76_000, 83_000, 89_000, 97_000, 104_000, 107_000, 105_000, 96_000, 85_000, 80_000, 79_000),
    (97_000, 88_000, 93_000, 90_000, 89_000, 86_000, 88_000, 89_000, 90_000, 95_000, 96_000, 98_000),
)
_READINGS = (
    (130, 145, 590, 560, 210, 170),
    (85, 95, 100, 840, 790, 120),
    (320, 335, 355, 280, 250, 680),
    (55, 70, 465, 440, 425, 65),
    (215, 195, 180, 620, 635, 205),
    (40, 55, 45, 1090, 1050, 50),
    (250, 245, 405, 420, 235, 230),
    (115, 110, 125, 130, 740, 140),
    (340, 350, 325, 315, 300, 860),
    (75, 80, 375, 395, 370, 360),
    (160, 155, 700, 165, 150, 725),
    (225, 220, 235, 545, 555, 540),
)


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L12-exit-1",
            others=_OTHERS["L12-exit-1"],
            title="A day at the hut",
            statement="Fell hut in April: a bank of {bank_wh}, {depth_frac} of it usable, not cold. It holds "
            "{store_wh} in the evening. {deficit_wh} are asked for until sunrise. Then {early_surplus_wh} are left "
            "over by noon, and {late_surplus_wh} after that; {charge_eff_frac} of what is put in can be had again. "
            "What is drawn, put in and left, at dawn, noon and dusk?",
            hint=STEP_BY_STEP,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (15_000, 18_000, 21_000),
                "depth_frac": (0.4, 0.6),
                "store_wh": (13_400, 14_100, 14_600),
                "deficit_wh": (7900, 9200, 10_700),
                "early_surplus_wh": (2500, 3300, 4100),
                "late_surplus_wh": (13_500, 15_800, 18_200),
                "charge_eff_frac": (0.77, 0.81, 0.85),
            },
            curated={
                "bank_wh": 18_000,
                "depth_frac": 0.4,
                "store_wh": 13_400,
                "deficit_wh": 7900,
                "early_surplus_wh": 3300,
                "late_surplus_wh": 15_800,
                "charge_eff_frac": 0.81,
            },
            mistakes=("YS-01", "YS-02", "YS-03"),
            words=WORDS,
            asked=tuple(map(Step, STEPS)),
        ),
        Work(
            id="L12-exit-2",
            others=_OTHERS["L12-exit-2"],
            title="The inn's year",
            statement="A mountain inn was followed through {hours_year_h}. Its guests sat in the dark for "
            "{short_year_h}. {unserved_year_wh:kWh} of the {wanted_year_wh:kWh} that were wanted never came, the rest "
            "did. The modules could give {came_year_wh:kWh}. State the share of the hours, the share of the load that "
            "was lost, the energy that arrived, and the share of the sun that this is.",
            hint=WHOLE,
            sheet=FIGURES,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (110, 150, 190, 240),
                "wanted_year_wh": (1_250_000, 1_480_000, 1_730_000),
                "unserved_year_wh": (71_000, 88_000, 104_000),
                "came_year_wh": (3_300_000, 4_100_000, 4_900_000),
            },
            curated={
                "short_year_h": 150,
                "wanted_year_wh": 1_480_000,
                "unserved_year_wh": 88_000,
                "came_year_wh": 4_100_000,
            },
            mistakes=("YS-07", "YS-10", "YS-16"),
            words=WORDS,
            asked=tuple(map(Step, FIGURES)),
        ),
        Work(
            id="L12-exit-3",
            others=_OTHERS["L12-exit-3"],
            title="A dealer's table",
            statement="A dealer shows Fell hut a table of twelve months and says that the year brings more than it "
            "takes. Work out what November misses, and what the year misses if no month pays for another.",
            hint=EACH_MONTH,
            sheet=MONTHS_SHORT,
            grids={"yield_by_month_wh": _CAME, "wanted_by_month_wh": _WANTED},
            curated={"yield_by_month_wh": _CAME[0], "wanted_by_month_wh": _WANTED[0]},
            mistakes=("YS-08", "YS-11"),
            words=WORDS,
            rows=TWELVE,
            asked=(Step("short_by_month_wh", 10), Step("short_year_wh"), Step("least_lost_frac")),
        ),
        Work(
            id="L12-exit-4",
            others=_OTHERS["L12-exit-4"],
            title="A quarter-hour log",
            statement="A logger at Riverbend keeps one reading of the loads for every {sample_h:min}. A spare battery "
            "of {bank_wh}, {depth_frac} of it usable, began with {store_wh} and fed them alone. How much energy was "
            "asked for while these were written, and how much did the battery give?",
            hint=HOW_LONG,
            sheet=LOGGED_NIGHT,
            given={"sample_h": 0.25, **WARM},
            grids={
                "logged_by_row_w": _READINGS,
                "bank_wh": (420, 510, 590),
                "store_wh": (290, 330, 370),
                "depth_frac": (0.6, 0.7),
            },
            curated={"logged_by_row_w": _READINGS[0], "bank_wh": 510, "store_wh": 330, "depth_frac": 0.7},
            mistakes=("YS-02", "YS-15"),
            words=WORDS | {"store_wh": "charge at the start", "drawn_wh": "energy the bank gave"},
            rows=("07:00", "07:15", "07:30", "07:45", "08:00", "08:15"),
            asked=(Step("logged_wh"), Step("drawn_wh")),
        ),
        Choose(
            id="L12-exit-5",
            others=_OTHERS["L12-exit-5"],
            title="Twice the loads",
            statement="“Your array makes twice what your loads take in a year”, says an offer for a house far in the "
            "north without a generator. What does that tell you of January?",
            hint=EACH_MONTH,
            options=(
                Option(
                    "nothing yet: the sun of July cannot be kept until then",
                    "A bank carries days. January stands by itself, and is followed hour by hour.",
                    right=True,
                ),
                Option("that January is covered twice over", mistake="YS-11"),
                Option(
                    "that a full bank on New Year's Eve carries the month", "How many days of load are in such a bank?"
                ),
                Option("that half of the array could be left out", mistake="YS-13"),
            ),
        ),
        Slip(
            id="L12-exit-6",
            others=_OTHERS["L12-exit-6"],
            title="The school's bank",
            statement="A page about a school, warm: label {bank_wh}, usable part {depth_frac}, {store_wh} in it at "
            "dusk, {deficit_wh} wanted overnight, {early_surplus_wh} left over before noon and {late_surplus_wh} "
            "after, {charge_eff_frac} kept of each charge. Which line is the first to go wrong, if any does, and what "
            "should stand there?",
            hint=PAGE_LINE,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (10_200, 12_800, 15_300),
                "depth_frac": (0.6, 0.7),
                "store_wh": (6800, 7700, 9100),
                "deficit_wh": (5100, 6200, 7300),
                "early_surplus_wh": (1900, 2600, 3300),
                "late_surplus_wh": (10_400, 12_100, 14_200),
                "charge_eff_frac": (0.76, 0.8, 0.84),
            },
            curated={
                "bank_wh": 12_800,
                "depth_frac": 0.7,
                "store_wh": 7700,
                "deficit_wh": 6200,
                "early_surplus_wh": 2600,
                "late_surplus_wh": 12_100,
                "charge_eff_frac": 0.8,
            },
            mistakes=("YS-01", "YS-02", "YS-03", "YS-19"),
            words=WORDS,
        ),
    )
