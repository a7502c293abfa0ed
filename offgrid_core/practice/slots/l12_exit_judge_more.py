"""Other choices and other pages with a slip, for the exit quiz of the year lesson."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l12_sheets_more import DAY, FIGURES, NIGHT, PAGE_LINE, WARM, WHOLE, WORDS
from offgrid_core.worksheet import Sheet

#: A cold night and the morning after it.
_COLD_NIGHT = Sheet(*NIGHT.values(), *(DAY[n] for n in ("dawn_wh", "early_room_wh", "early_stored_wh", "noon_wh")))


def _choices() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L12-exit-5",
            title="Two reports of one house",
            statement="Two people followed the same inn through the same year. One reports 1.6 % lost, the other 4.1 "
            "%. One counted hours, the other energy, and both counted rightly. How can that be?",
            hint=WHOLE,
            options=(
                Option(
                    "the hours that fell short were evening hours, in which much is asked for",
                    "An hour without the kitchen counts one hour, as does an hour without a night-light.",
                    right=True,
                ),
                Option("it cannot be: a share is a share", mistake="YS-10"),
                Option("one of them set hours against days", mistake="YS-07"),
                Option("one of them told what was served, not what was lost", mistake="YS-08"),
            ),
        ),
        Choose(
            id="L12-exit-5",
            title="Three quarters to waste",
            statement="A report on the mast says: 77 % of the array's energy was spilled, and no load was lost. The "
            "accountant wants to sell two of three modules. Which answer fits the report?",
            hint="Which days set the size of this array, and what is spilled on the others?",
            options=(
                Option(
                    "most days have sun to spare so that the darkest weeks have just enough",
                    "Spilled sun costs nothing. Follow the smaller array through the years before anything is sold.",
                    right=True,
                ),
                Option("77 % of the sun was used, so every module is needed", mistake="YS-16"),
                Option(
                    "sell them: what is spilled is never wanted",
                    "What do the darkest weeks bring with a third of the modules?",
                ),
                Option("a larger battery would use the 77 % up", mistake="YS-01"),
            ),
        ),
        Choose(
            id="L12-exit-5",
            title="The generator that stayed off",
            statement="In a log the charge falls to 50 %, the loads are cut off, and the generator, told to start at "
            "50 %, does not start for two days. The engine is sound, and so is the wiring. What is to be changed?",
            hint="Which of the two levels is met first, when both are the same?",
            options=(
                Option(
                    "the start level: it belongs well above the cut-off, so that the engine comes first",
                    "With the loads gone the charge hardly falls any more, and the start level is not reached.",
                    right=True,
                ),
                Option("the cut-off: take it away, the engine will start in time", mistake="YS-02"),
                Option("the bank: twice as large, it would never fall so far", mistake="YS-11"),
                Option(
                    "the charger: a larger one starts sooner", "What does the charger's size have to do with the start?"
                ),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L12-exit-6",
            title="A cold night and the morning after",
            statement="Found in a hut's notebook: a bank of {bank_wh}, of which {depth_frac} could be drawn if it were "
            "warm; this night the frost leaves {kept_now_frac} of that. {store_wh} at nightfall, {deficit_wh} asked "
            "for. Sun then brings {early_surplus_wh} more than is used; {charge_eff_frac} can be had back. Does every "
            "line follow? Mark the first that does not.",
            hint=PAGE_LINE,
            sheet=_COLD_NIGHT,
            grids={
                "bank_wh": (17_200, 19_600, 23_100),
                "depth_frac": (0.6, 0.7),
                "kept_now_frac": (0.74, 0.8),
                "store_wh": (13_300, 14_700, 16_200),
                "deficit_wh": (8200, 9300, 10_800),
                "early_surplus_wh": (2700, 3500, 4400),
                "charge_eff_frac": (0.76, 0.81),
            },
            curated={
                "bank_wh": 19_600,
                "depth_frac": 0.6,
                "kept_now_frac": 0.8,
                "store_wh": 14_700,
                "deficit_wh": 8200,
                "early_surplus_wh": 3500,
                "charge_eff_frac": 0.81,
            },
            mistakes=("YS-02", "YS-03", "YS-05"),
            words=WORDS,
        ),
        Slip(
            id="L12-exit-6",
            title="A report in four lines",
            statement="The last page of somebody's simulation of the cabin: {short_year_h} in trouble out of "
            "{hours_year_h}; {unserved_year_wh:kWh} refused out of {wanted_year_wh:kWh}, the rest delivered out of "
            "{came_year_wh:kWh} on offer. Are the lines right? Otherwise tell the first wrong one and what it should "
            "be.",
            hint=WHOLE,
            sheet=FIGURES,
            given={"hours_year_h": 8760},
            grids={
                "short_year_h": (90, 120, 160, 220),
                "wanted_year_wh": (210_000, 228_000, 251_000),
                "unserved_year_wh": (9000, 12_000, 15_000),
                "came_year_wh": (610_000, 680_000, 760_000),
            },
            curated={
                "short_year_h": 120,
                "wanted_year_wh": 228_000,
                "unserved_year_wh": 12_000,
                "came_year_wh": 680_000,
            },
            mistakes=("YS-07", "YS-10", "YS-16"),
            words=WORDS,
        ),
        Slip(
            id="L12-exit-6",
            title="The mast's quiet day",
            statement="An engineer wrote this about Gull mast without a pause: capacity {bank_wh}, share allowed "
            "{depth_frac}, temperature no matter, {store_wh} when the light went. Instruments: {deficit_wh} in the "
            "dark. Array minus instruments: {early_surplus_wh} early, {late_surplus_wh} late. Returned by the cells: "
            "{charge_eff_frac}. Which entry breaks the chain, if one does, and to what must it be put right?",
            hint=PAGE_LINE,
            sheet=DAY,
            given=WARM,
            grids={
                "bank_wh": (1100, 1350, 1600),
                "depth_frac": (0.6, 0.7),
                "store_wh": (760, 840, 930),
                "deficit_wh": (620, 740, 860),
                "early_surplus_wh": (210, 270, 340),
                "late_surplus_wh": (1250, 1480, 1720),
                "charge_eff_frac": (0.78, 0.83),
            },
            curated={
                "bank_wh": 1350,
                "depth_frac": 0.7,
                "store_wh": 840,
                "deficit_wh": 620,
                "early_surplus_wh": 270,
                "late_surplus_wh": 1480,
                "charge_eff_frac": 0.83,
            },
            mistakes=("YS-01", "YS-02", "YS-05"),
            words=WORDS,
        ),
    )


#: Id of a place -> its templates beside the first.
JUDGED: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_choices(), _pages())}
