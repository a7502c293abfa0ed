"""Practice of the array lesson round a sum: which input moves it, what comes out backwards, how large roughly."""

from offgrid_core.practice.kinds import Backwards, Factor, Knob, Rough
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import BACK, FULL_SUN, LOSS_IDEA, MONTH, REFILL, WORDS
from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.worksheet import Sheet

_REFILL_CHAIN = (
    Sheet(*(ARRAY_NEED[n] for n in ("losses_kept_frac", "delivered_by_month_frac", "design_delivered_frac"))) + REFILL
)
#: Common practice, no source: a cabin with lamps and a small fridge; a winter month between 40° and 50°; usual losses.
_BANDS = (
    Factor("battery_mean_by_month_wh", 400, 1200),
    Factor("plane_by_month_kwh_m2", 1.5, 3.5),
    Factor("delivered_by_month_frac", 0.55, 0.8),
)


def ranges() -> tuple[Slot, ...]:
    """Return the three problems."""
    return (
        Knob(
            id="L07-6",
            title="Which of them moves it most?",
            statement="After a dull spell {bank_usable_wh} are missing from the bank. They are to be back in "
            "{refill_days}, while the load goes on. Which three of these move the array for that the most, and which "
            "way?",
            hint="What does the array have to make in one day, and what is that day's sun?",
            principle="Sun stands for the whole of the sum; what is missing and the load share the rest. A loss that "
            "is small moves little.",
            sheet=_REFILL_CHAIN,
            given={
                "heat_kept_by_month_frac": 1,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.8,
                "design_month": 12,
                "mismatch_frac": 0.02,
            },
            grids={
                "bank_usable_wh": (9800, 11000, 12600),
                "refill_days": (5, 7, 8),
                "design_load_wh": (850, 1000, 1150),
                "design_sun_h": (1.1, 1.6, 2.1),
                "soiling_frac": (0.03, 0.05, 0.12, 0.16),
                "wiring_loss_frac": (0.03, 0.05, 0.12, 0.16),
            },
            curated={
                "bank_usable_wh": 11000,
                "refill_days": 7,
                "design_load_wh": 1000,
                "design_sun_h": 1.6,
                "soiling_frac": 0.16,
                "wiring_loss_frac": 0.05,
            },
            result="array_for_refill_w",
            inputs=("bank_usable_wh", "design_load_wh", "design_sun_h", "soiling_frac", "wiring_loss_frac"),
            words=WORDS,
        ),
        Backwards(
            id="L07-7",
            title="What may go on meanwhile?",
            statement="On a roof at Riverbend stand {array_w} of modules. In the month that rules they get "
            "{design_sun_h} of full sun, and {design_delivered_frac} of their work reaches the load. After a dull "
            "spell {bank_usable_wh} are missing from the bank, and are to be back in {refill_days}. How large may the "
            "load a day be meanwhile?",
            hint=BACK,
            principle=f"{LOSS_IDEA} What the array makes in a day feeds the load and fills the bank.",
            sheet=REFILL,
            grids={
                "array_w": (1050, 1320, 1580, 1760),
                "design_sun_h": (3.7, 4.2, 4.6),
                "design_delivered_frac": (0.58, 0.63, 0.68),
                "bank_usable_wh": (7800, 9600, 11200),
                "refill_days": (7, 10, 12),
            },
            curated={
                "array_w": 1320,
                "design_sun_h": 4.2,
                "design_delivered_frac": 0.68,
                "bank_usable_wh": 9600,
                "refill_days": 7,
            },
            mistakes=("AR-01", "AR-02", "AR-10"),
            words=WORDS | {"array_w": "array on the roof"},
            unknown="design_load_wh",
            span=(10, 100_000),
            result="array_for_refill_w",
            wanted="array_w",
        ),
        Rough(
            id="L07-8",
            title="Without a table",
            statement="A cabin with lamps, a radio and a small fridge, in use all winter, 45° north, its array set "
            "steep. The array-to-load ratio is {array_load_ratio}. From what you know: its load a day, the sun of its "
            "dullest month, the share that reaches the load, and so the array.",
            hint="Would that array fit on a cabin's roof, at about 200 W for each square metre?",
            principle="A few factors, each about right, give a size that is about right.",
            sheet=MONTH,
            given=FULL_SUN | {"shade_by_month_frac": 1},
            grids={
                "battery_mean_by_month_wh": (550, 700, 850),
                "plane_by_month_kwh_m2": (2.2, 2.5, 2.8),
                "delivered_by_month_frac": (0.62, 0.68, 0.74),
                "array_load_ratio": (1.2, 1.3),
            },
            curated={
                "battery_mean_by_month_wh": 700,
                "plane_by_month_kwh_m2": 2.5,
                "delivered_by_month_frac": 0.68,
                "array_load_ratio": 1.2,
            },
            factors=_BANDS,
            step=Step("array_by_month_w"),
            words=WORDS,
        ),
    )
