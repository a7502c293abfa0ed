"""Other templates of the year lesson's exit quiz: days, years, months and logs of other places, or asked otherwise."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import TWELVE
from offgrid_core.practice.slots.l12_sheets_more import (
    DAY,
    EACH_MONTH,
    FIGURES,
    HOW_LONG,
    LOGGED_NIGHT,
    MONTHS_SHORT,
    SHORT,
    SPILLED,
    SPILLING,
    STEP_BY_STEP,
    UP_TO_NOON,
    USED,
    WARM,
    WHOLE,
    WORDS,
)
from offgrid_core.worksheet import Sheet

_HOURS_AND_LOAD = Sheet(FIGURES["loss_hours_frac"], FIGURES["loss_energy_frac"])
_LOAD_AND_SUN = Sheet(FIGURES["loss_energy_frac"], *USED.values())
_BROUGHT = (
    (24_000, 43_000, 76_000, 109_000, 128_000, 131_000, 133_000, 119_000, 87_000, 56_000, 29_000, 18_000),
    (32_000, 47_000, 69_000, 98_000, 111_000, 117_000, 118_000, 106_000, 82_000, 61_000, 36_000, 27_000),
    (28_000, 39_000, 73_000, 103_000, 122_000, 126_000, 124_000, 112_000, 91_000, 53_000, 31_000, 22_000),
)
_LOADS = (
    (95_000, 87_000, 92_000, 88_000, 86_000, 83_000, 84_000, 85_000, 88_000, 92_000, 94_000, 97_000),
    (104_000, 94_000, 98_000, 89_000, 81_000, 77_000, 76_000, 79_000, 86_000, 96_000, 102_000, 106_000),
    (83_000, 78_000, 84_000, 89_000, 96_000, 101_000, 104_000, 102_000, 93_000, 87_000, 82_000, 85_000),
    (98_000, 89_000, 95_000, 91_000, 92_000, 89_000, 91_000, 92_000, 91_000, 97_000, 96_000, 99_000),
)


def _days() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-exit-1",
            title="A radio relay after a storm",
            statement="On a hill a relay has {store_wh} in its bank ({bank_wh} on the label, {depth_frac} to be used, "
            "mild weather). All night the transmitter wants {deficit_wh}. Before noon {early_surplus_wh} come in "
            "beyond the load, later {late_surplus_wh}; the battery gives back {charge_eff_frac}. Find the charge at "
            "sunrise, then what the morning and what the rest of the day put in.",
            hint=STEP_BY_STEP,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (4200, 5100, 6300),
                "depth_frac": (0.6, 0.7),
                "store_wh": (2900, 3300, 3800),
                "deficit_wh": (2600, 3100, 3500),
                "early_surplus_wh": (800, 1050, 1300),
                "late_surplus_wh": (4400, 5200, 6100),
                "charge_eff_frac": (0.78, 0.82, 0.87),
            },
            curated={
                "bank_wh": 5100,
                "depth_frac": 0.6,
                "store_wh": 3300,
                "deficit_wh": 2600,
                "early_surplus_wh": 1050,
                "late_surplus_wh": 5200,
                "charge_eff_frac": 0.82,
            },
            mistakes=("YS-01", "YS-02", "YS-03"),
            words=WORDS,
            asked=tuple(map(Step, ("drawn_wh", "dawn_wh", "early_stored_wh", "late_stored_wh"))),
        ),
        Work(
            id="L12-exit-1",
            title="How much is spilled?",
            statement="Riverbend's bank says {bank_wh}; {depth_frac} of that may go. Lights and fridge begin the night "
            "at {store_wh} and ask for {deficit_wh}. A bright day follows: {early_surplus_wh} spare by noon, "
            "{late_surplus_wh} spare afterwards, with {charge_eff_frac} of each charge kept. What do night, morning "
            "and afternoon move, and how much sun is spilled at the end?",
            hint="How much of the afternoon can the bank still take?",
            sheet=SPILLING,
            given=WARM,
            grids={
                "bank_wh": (8800, 10_500, 12_600),
                "depth_frac": (0.6, 0.7),
                "store_wh": (5900, 6700, 7600),
                "deficit_wh": (4500, 5300, 6100),
                "early_surplus_wh": (1600, 2100, 2700),
                "late_surplus_wh": (10_200, 12_400, 14_300),
                "charge_eff_frac": (0.79, 0.83, 0.88),
            },
            curated={
                "bank_wh": 10_500,
                "depth_frac": 0.6,
                "store_wh": 6700,
                "deficit_wh": 4500,
                "early_surplus_wh": 2100,
                "late_surplus_wh": 12_400,
                "charge_eff_frac": 0.83,
            },
            mistakes=("YS-02", "YS-03"),
            words=WORDS,
            asked=tuple(
                map(Step, ("drawn_wh", "dawn_wh", "early_stored_wh", "noon_wh", "late_stored_wh", "late_spilled_wh"))
            ),
        ),
        Work(
            id="L12-exit-1",
            title="Begin with the cut-off",
            statement="An alpine shelter's label reads {bank_wh}; no more than {depth_frac} shall leave it. Twilight "
            "finds {store_wh} inside. Stoves and lamps would like {deficit_wh} before dawn. Sun to spare: "
            "{early_surplus_wh}, then {late_surplus_wh}. Kept per charge: {charge_eff_frac}. State the cut-off first, "
            "next what the night really draws, and finally both charges.",
            hint=STEP_BY_STEP,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (13_400, 14_600, 15_800),
                "depth_frac": (0.58, 0.62),
                "store_wh": (10_400, 11_200, 12_100),
                "deficit_wh": (8200, 9100, 9900),
                "early_surplus_wh": (2400, 3100, 3900),
                "late_surplus_wh": (14_100, 16_300, 18_700),
                "charge_eff_frac": (0.75, 0.79, 0.83),
            },
            curated={
                "bank_wh": 14_600,
                "depth_frac": 0.62,
                "store_wh": 11_200,
                "deficit_wh": 9100,
                "early_surplus_wh": 3100,
                "late_surplus_wh": 16_300,
                "charge_eff_frac": 0.79,
            },
            mistakes=("YS-01", "YS-02", "YS-19"),
            words=WORDS,
            asked=tuple(map(Step, ("floor_wh", "drawn_wh", "early_stored_wh", "late_stored_wh"))),
        ),
    )


def _years() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-exit-2",
            title="While the alarm was on",
            statement="Somebody counts at Riverbend: in {short_year_h} out of {hours_year_h} the fridge's alarm was "
            "on. That was {unserved_year_wh:kWh} short of {wanted_year_wh:kWh}. Which share of the time, and which "
            "share of the energy?",
            hint=WHOLE,
            sheet=_HOURS_AND_LOAD,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (70, 95, 125, 160),
                "wanted_year_wh": (640_000, 720_000, 830_000),
                "unserved_year_wh": (22_000, 31_000, 39_000),
            },
            curated={"short_year_h": 95, "wanted_year_wh": 720_000, "unserved_year_wh": 31_000},
            mistakes=("YS-07", "YS-10"),
            words=WORDS,
            asked=tuple(map(Step, _HOURS_AND_LOAD)),
        ),
        Work(
            id="L12-exit-2",
            title="Is the array busy?",
            statement="Modules at a school were able to give {came_year_wh:kWh}. Its classrooms asked for "
            "{wanted_year_wh:kWh} and went without {unserved_year_wh:kWh} of it, during {short_year_h} of "
            "{hours_year_h}. How large a part of the wish was lost? What did the classrooms receive, and how large a "
            "part of the sun found a use?",
            hint=WHOLE,
            sheet=_LOAD_AND_SUN,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (140, 180, 230),
                "came_year_wh": (1_600_000, 1_950_000, 2_350_000),
                "wanted_year_wh": (590_000, 660_000, 750_000),
                "unserved_year_wh": (29_000, 38_000, 46_000),
            },
            curated={
                "short_year_h": 180,
                "came_year_wh": 1_950_000,
                "wanted_year_wh": 660_000,
                "unserved_year_wh": 38_000,
            },
            mistakes=("YS-10", "YS-16"),
            words=WORDS,
            asked=tuple(map(Step, _LOAD_AND_SUN)),
        ),
        Work(
            id="L12-exit-2",
            title="Spilled and lost",
            statement="On the mast's record stand {array_year_wh:kWh} on offer, {spilled_year_wh:kWh} spilled by a "
            "full battery and {clipped_year_wh:kWh} cut by its controller; {wanted_year_wh:kWh} wanted by the "
            "instruments, {unserved_year_wh:kWh} refused, in {short_year_h} out of {hours_year_h}. Give the loss of "
            "load by energy, then the part of the offer that came to nothing.",
            hint=WHOLE,
            sheet=SPILLED,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (210, 260, 330),
                "array_year_wh": (205_000, 212_000, 220_000),
                "spilled_year_wh": (133_000, 138_000, 142_000),
                "clipped_year_wh": (4000, 7000),
                "wanted_year_wh": (48_000, 51_000, 54_000),
                "unserved_year_wh": (2500, 3400, 4300),
            },
            curated={
                "short_year_h": 260,
                "array_year_wh": 212_000,
                "spilled_year_wh": 133_000,
                "clipped_year_wh": 7000,
                "wanted_year_wh": 48_000,
                "unserved_year_wh": 3400,
            },
            mistakes=("YS-10", "YS-17"),
            words=WORDS | {"spilled_year_wh": "energy spilled", "clipped_year_wh": "energy cut by the controller"},
            asked=tuple(map(Step, SPILLED)),
        ),
    )


def _table(title: str, statement: str, months: tuple[int, ...]) -> Slot:
    """Return twelve months side by side, of which some are asked for by themselves."""
    return Work(
        id="L12-exit-3",
        title=title,
        statement=statement,
        hint=EACH_MONTH,
        sheet=MONTHS_SHORT,
        grids={"yield_by_month_wh": _BROUGHT, "wanted_by_month_wh": _LOADS},
        curated={"yield_by_month_wh": _BROUGHT[0], "wanted_by_month_wh": _LOADS[0]},
        mistakes=("YS-08", "YS-11"),
        words=WORDS,
        rows=TWELVE,
        asked=(*(Step("short_by_month_wh", m) for m in months), Step("short_year_wh"), Step("least_lost_frac")),
    )


def _months() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-exit-3",
            title="From the sun to the gap",
            statement="In December the inn's modules, {array_w} in all, see {peak_sun_by_month_h} a day for "
            "{days_by_month_days}; {delivered_by_month_frac} of their work gets through. The guests want "
            "{wanted_by_month_wh:kWh} in that month. What comes in, and how large is the gap?",
            hint="For how many days does this sun shine, and what is lost between label and battery?",
            sheet=SHORT.upto("short_by_month_wh"),
            given={"days_by_month_days": 31},
            grids={
                "array_w": (1800, 2100, 2400, 2800),
                "peak_sun_by_month_h": (0.9, 1.1, 1.3),
                "delivered_by_month_frac": (0.58, 0.63, 0.67),
                "wanted_by_month_wh": (88_000, 104_000, 121_000),
            },
            curated={
                "array_w": 2100,
                "peak_sun_by_month_h": 1.1,
                "delivered_by_month_frac": 0.63,
                "wanted_by_month_wh": 88_000,
            },
            mistakes=("YS-12", "YS-14"),
            words=WORDS,
            asked=(Step("yield_by_month_wh"), Step("short_by_month_wh")),
        ),
        _table(
            "The first two rows",
            "Before a northern workshop buys anything, somebody lists what modules would bring and what its machines "
            "take. Fill in the shortfall of the first two rows, then the sum of all that is wanting and its share.",
            (0, 1),
        ),
        _table(
            "No month lends to another",
            "A relay station keeps two columns for each calendar month. Its battery bridges a week at most. By how "
            "much is December short, and how much never gets served from January to New Year, as energy and as a part "
            "of the wish?",
            (11,),
        ),
    )


def _logs() -> tuple[Slot, ...]:
    return (
        Work(
            id="L12-exit-4",
            title="One hour of the pump",
            statement="While Fell hut's pump ran on a small reserve bank, its wattmeter was read four times, "
            "{sample_h:min} apart; a value holds good until its successor. The bank's label says {bank_wh}, and "
            "{depth_frac} of that may be used; {store_wh} are in it. Add up the watt-hours the pump wanted, then say "
            "what it really got.",
            hint=HOW_LONG,
            sheet=LOGGED_NIGHT,
            given={"sample_h": 0.25, **WARM},
            grids={
                "logged_by_row_w": (
                    (370, 410, 385, 60),
                    (55, 395, 420, 375),
                    (380, 265, 400, 390),
                    (415, 405, 250, 445),
                    (360, 70, 430, 360),
                    (365, 380, 375, 390),
                    (340, 425, 455, 410),
                    (350, 355, 435, 50),
                ),
                "bank_wh": (340, 390),
                "depth_frac": (0.6, 0.7),
                "store_wh": (225, 250, 270),
            },
            curated={"logged_by_row_w": (370, 410, 385, 60), "bank_wh": 390, "depth_frac": 0.7, "store_wh": 250},
            mistakes=("YS-02", "YS-15"),
            words=WORDS | {"store_wh": "charge at the start", "drawn_wh": "energy the bank gave"},
            rows=("first", "second", "third", "fourth"),
            asked=(Step("logged_wh"), Step("drawn_wh")),
        ),
        Work(
            id="L12-exit-4",
            title="A long evening",
            statement="In a mountain inn's shed it is mild now; the cold takes nothing from the {depth_frac} that may "
            "be used of {bank_wh}. At nightfall {store_wh} are stored. Guests would use {deficit_wh}. Sunrise brings "
            "{early_surplus_wh} to spare, of which {charge_eff_frac} can be had back. What can be drawn, and what does "
            "the morning put in?",
            hint=STEP_BY_STEP,
            sheet=UP_TO_NOON,
            given=WARM,
            grids={
                "depth_frac": (0.5, 0.6),
                "bank_wh": (16_500, 19_000, 22_500),
                "store_wh": (12_400, 13_600, 14_900),
                "deficit_wh": (8400, 9600, 10_900),
                "early_surplus_wh": (2800, 3500, 4200),
                "charge_eff_frac": (0.78, 0.83),
            },
            curated={
                "depth_frac": 0.6,
                "bank_wh": 19_000,
                "store_wh": 12_400,
                "deficit_wh": 8400,
                "early_surplus_wh": 3500,
                "charge_eff_frac": 0.78,
            },
            mistakes=("YS-02", "YS-03"),
            words=WORDS,
            asked=(Step("drawn_wh"), Step("early_stored_wh")),
        ),
        Backwards(
            id="L12-exit-4",
            title="Until the fridge starts again",
            statement="The clinic's loads went off at the cut-off during a night that asked for {deficit_wh}: label "
            "{bank_wh}, {depth_frac} of it usable, {store_wh} there at sundown. Their switch closes at {noon_goal_wh}. "
            "With {charge_eff_frac} kept of what is put in, which surplus before noon closes it?",
            hint="With so much to spare, where does the charge stand at noon?",
            sheet=UP_TO_NOON,
            given=WARM,
            grids={
                "deficit_wh": (5400, 6300, 7200),
                "bank_wh": (10_800, 12_600, 14_900),
                "depth_frac": (0.6, 0.7),
                "store_wh": (6900, 7800, 8800),
                "noon_goal_wh": (8300, 9100, 9700),
                "charge_eff_frac": (0.77, 0.82),
            },
            curated={
                "deficit_wh": 6300,
                "bank_wh": 12_600,
                "depth_frac": 0.6,
                "store_wh": 7800,
                "noon_goal_wh": 9100,
                "charge_eff_frac": 0.77,
            },
            mistakes=("YS-02", "YS-03"),
            words=WORDS,
            unknown="early_surplus_wh",
            span=(0, 40_000),
            result="noon_wh",
            wanted="noon_goal_wh",
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_days(), _years(), _months(), _logs())}
