"""Other templates of the loads lesson's exit quiz: other places, and other lines asked."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l01_loads import BUS, PATH, PLAIN, PLAIN_BUS, RATE, RUN, WORDS
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.standby import STANDBY
from offgrid_core.worksheet import Sheet

_WEEK = Sheet(*(LOADS[n] for n in ("run_energy_by_row_wh", "mean_energy_by_row_wh")))
_ASLEEP = Sheet(*(LOADS[n] for n in ("run_energy_by_row_wh", "standby_energy_by_row_wh", "day_energy_by_row_wh")))
_TO_INVERTER = _ASLEEP + Sheet(*(LOADS[n] for n in ("ac_day_wh", "inverter_idle_wh", "inverter_day_wh")))
_LINE = "What does this line begin from, and what should happen to it?"


def _week() -> tuple[Slot, ...]:
    return (
        Work(
            id="L01-exit-1",
            title="A fridge that has the week off",
            statement="The weekend cabin's fridge draws {power_by_row_w} while it hums, {duty_by_row_frac} of the "
            "{hours_by_row_h} of a day. It is on for {week_by_row_days} of the week. How much on a day it runs, and "
            "how much a day over the week?",
            hint="Does the compressor hum all day, and every day?",
            sheet=_WEEK,
            given=PLAIN | {"hours_by_row_h": 24},
            grids={
                "power_by_row_w": (40, 45, 55, 60),
                "duty_by_row_frac": (0.25, 0.3, 0.4),
                "week_by_row_days": (2, 3, 4),
            },
            curated={"power_by_row_w": 45, "duty_by_row_frac": 0.3, "week_by_row_days": 2},
            mistakes=("LD-02", "LD-04", "LD-05", "LD-08", "LD-09"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"), Step("mean_energy_by_row_wh")),
        ),
        Work(
            id="L01-exit-1",
            title="On the air for minutes",
            statement="Gull mast's radio takes {power_by_row_w} while it sends, for {hours_by_row_h:min} a day. What "
            "is that in energy a day?",
            hint="How much of an hour is it on the air?",
            sheet=RUN,
            given=PLAIN,
            grids={"power_by_row_w": (28, 35, 42, 50), "hours_by_row_h": (0.3, 0.4, 0.5, 0.6, 0.7)},
            curated={"power_by_row_w": 35, "hours_by_row_h": 0.5},
            mistakes=("LD-03", "LD-04", "LD-06", "LD-07"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"),),
        ),
        Work(
            id="L01-exit-1",
            title="Fans in the waiting room",
            statement="Riverbend's waiting room has {count_by_row} fans of {power_by_row_w}. They turn for "
            "{hours_by_row_h} when it is open, on {week_by_row_days} of the week. What do they take a day, as a mean "
            "over the week?",
            hint="How much do all of them take on one open day, and how many open days has a week?",
            sheet=_WEEK,
            given=PLAIN,
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (20, 24, 30),
                "hours_by_row_h": (6, 7, 9),
                "week_by_row_days": (4, 5),
            },
            curated={"count_by_row": 2, "power_by_row_w": 24, "hours_by_row_h": 7, "week_by_row_days": 5},
            mistakes=("LD-01", "LD-02", "LD-04", "LD-05"),
            words=WORDS,
            asked=(Step("mean_energy_by_row_wh"),),
        ),
    )


def _rates() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L01-exit-2",
            title="Ready for the list",
            statement="Four notes about the pump at Fell hut. From which one alone can its energy a day be written "
            "down?",
            hint=RATE,
            options=(
                Option("“185 Wh each day”", "Watt-hours are an amount, and the note says for which time.", right=True),
                Option("“370 W”", mistake="LD-04"),
                Option("“half an hour each day”", "How fast does it take energy in that half hour?"),
                Option("“8 A when it starts”", "For how long does a start last?"),
            ),
        ),
        Choose(
            id="L01-exit-2",
            title="Kettle or alarm?",
            statement="A kettle of 900 W at the weekend cabin is on for 4 minutes a day. The alarm takes 3 W and never "
            "sleeps. Which takes more energy in a day?",
            hint="For how many hours does each of them draw?",
            options=(
                Option("the alarm", "3 W for 24 h are 72 Wh; 900 W for 4 minutes are 60 Wh.", right=True),
                Option("the kettle: 900 W is far more than 3 W", mistake="LD-04"),
                Option("the kettle: an alarm at rest need not be on the list", mistake="LD-12"),
                Option("the kettle: 900 W and 4 minutes are 3600 Wh", mistake="LD-06"),
            ),
        ),
        Choose(
            id="L01-exit-2",
            title="The same amount",
            statement="The logger at Gull mast takes 48 Wh a day. What else takes just as much in a day?",
            hint="How long does each of them draw?",
            options=(
                Option("2 W from midnight to midnight", "2 W for 24 h are 48 Wh.", right=True),
                Option("48 W from midnight to midnight", mistake="LD-04"),
                Option("2 W for one hour", mistake="LD-09"),
                Option("48 W for half an hour", "How much would 48 W take in a whole hour?"),
            ),
        ),
    )


def _through() -> tuple[Slot, ...]:
    return (
        Work(
            id="L01-exit-3",
            title="Saturday at the cabin",
            statement="On a Saturday the weekend cabin's kettle and tools take {ac_day_wh} from the inverter; lamps, "
            "fridge and pump take {dc_day_wh} from the battery directly. The inverter's efficiency is "
            "{inverter_eff_frac}; it idles at {inverter_idle_w} for {inverter_on_h}. What leaves the battery?",
            hint=PATH,
            sheet=BUS,
            given=PLAIN_BUS,
            grids={
                "ac_day_wh": (900, 1000, 1200, 1400),
                "dc_day_wh": (550, 650, 750),
                "inverter_eff_frac": (0.7, 0.75, 0.8),
                "inverter_idle_w": (8, 10, 13),
                "inverter_on_h": (12, 15),
            },
            curated={
                "ac_day_wh": 900,
                "dc_day_wh": 650,
                "inverter_eff_frac": 0.75,
                "inverter_idle_w": 10,
                "inverter_on_h": 12,
            },
            mistakes=("LD-13", "LD-14", "LD-15", "LD-16", "LD-18", "LD-19"),
            words=WORDS,
            asked=tuple(map(Step, BUS)),
        ),
        Work(
            id="L01-exit-3",
            title="From the label to the inverter",
            statement="On Sundays Riverbend's fridge is the only AC load: {power_by_row_w} while it hums, "
            "{duty_by_row_frac} of {hours_by_row_h}. The inverter's efficiency is {inverter_eff_frac}; it idles at "
            "{inverter_idle_w}, day and night. What does the fridge take, and what goes into the inverter?",
            hint=PATH,
            sheet=_TO_INVERTER,
            given=PLAIN | {"hours_by_row_h": 24, "on_ac_by_row_frac": 1, "inverter_on_h": 24},
            grids={
                "power_by_row_w": (130, 150, 170),
                "duty_by_row_frac": (0.35, 0.4, 0.45),
                "inverter_eff_frac": (0.72, 0.76, 0.8),
                "inverter_idle_w": (9, 11, 14),
            },
            curated={"power_by_row_w": 130, "duty_by_row_frac": 0.35, "inverter_eff_frac": 0.72, "inverter_idle_w": 9},
            mistakes=("LD-08", "LD-13", "LD-15", "LD-16", "LD-19"),
            words=WORDS,
            asked=(Step("day_energy_by_row_wh"), Step("inverter_idle_wh"), Step("inverter_day_wh")),
        ),
        Backwards(
            id="L01-exit-3",
            title="How much for the sockets?",
            statement="Fell hut's bank may give the inverter {energy_day_wh} a day. The inverter's efficiency is "
            "{inverter_eff_frac}; it idles at {inverter_idle_w} for {inverter_on_h}. How much AC energy is left for "
            "the sockets?",
            hint="What does the inverter take before the first socket gets anything?",
            sheet=BUS.upto("inverter_day_wh"),
            grids={
                "energy_day_wh": (1800, 2100, 2400),
                "inverter_eff_frac": (0.74, 0.78, 0.82),
                "inverter_idle_w": (14, 18, 22),
                "inverter_on_h": (16, 20, 24),
            },
            curated={"energy_day_wh": 2100, "inverter_eff_frac": 0.78, "inverter_idle_w": 18, "inverter_on_h": 24},
            mistakes=("LD-13", "LD-15", "LD-16", "LD-19"),
            words=WORDS | {"energy_day_wh": "energy that the bank may give a day"},
            unknown="ac_day_wh",
            span=(100, 6000),
            result="inverter_day_wh",
            wanted="energy_day_wh",
        ),
    )


def _idle() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L01-exit-4",
            title="Five empty days",
            statement="The weekend cabin is empty for 5 days. Its inverter idles at 10 W and nobody switched it off. "
            "What has it taken when the first guest comes back?",
            hint="For how many hours was it on?",
            options=(
                Option("1200 Wh", "10 W for 5 days of 24 h, with nothing plugged in.", right=True),
                Option("10 Wh", mistake="LD-04"),
                Option("240 Wh", "How many days was it on?"),
                Option("nothing: nothing was plugged in", mistake="LD-19"),
            ),
        ),
        Choose(
            id="L01-exit-4",
            title="A better number on the label",
            statement="Riverbend is offered an inverter that passes a little more of its load on, but idles at three "
            "times the power. It stays on day and night for one small fridge. What may it do to the day's energy?",
            hint="What is paid every hour, and what only while the fridge hums?",
            options=(
                Option(
                    "raise it: the idle draw counts for all 24 hours",
                    "With a small load, being on costs more than the loss on the load.",
                    right=True,
                ),
                Option("lower it for sure: the loss on the load is all there is", mistake="LD-19"),
                Option("nothing: the sockets still get the same", mistake="LD-15"),
                Option("raise only what the DC lights take", mistake="LD-17"),
            ),
        ),
        Choose(
            id="L01-exit-4",
            title="Warm at night",
            statement="At three in the morning Riverbend's fridge rests and no AC load runs. The inverter's case is "
            "still warm. Where does that heat come from?",
            hint="Which of the things around the inverter has energy to give at night?",
            options=(
                Option(
                    "from the battery, for the inverter being on", "That is the idle draw, hour by hour.", right=True
                ),
                Option("from no load at all: at rest nothing is drawn", mistake="LD-12"),
                Option("from the DC night lights, which pass it too", mistake="LD-14"),
                Option("from the fridge, which gives back its cold", "Does a fridge at rest send energy anywhere?"),
            ),
        ),
    )


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L01-exit-5",
            title="A page about the cabin",
            statement="Before a freezer is carried up to the weekend cabin, its week is worked out: {power_by_row_w} "
            "while it hums, {duty_by_row_frac} of {hours_by_row_h}, on {week_by_row_days} of the week. Which line is "
            "the first that goes wrong, if one does, and what should it be?",
            hint=_LINE,
            sheet=_WEEK,
            given=PLAIN | {"hours_by_row_h": 24},
            grids={
                "power_by_row_w": (70, 80, 95, 110),
                "duty_by_row_frac": (0.3, 0.35, 0.4),
                "week_by_row_days": (3, 4, 5),
            },
            curated={"power_by_row_w": 80, "duty_by_row_frac": 0.35, "week_by_row_days": 3},
            mistakes=("LD-02", "LD-04", "LD-05", "LD-08", "LD-09"),
            words=WORDS,
        ),
        Slip(
            id="L01-exit-5",
            title="A page about screens",
            statement="{count_by_row} screens at Fell hut take {power_by_row_w} each for {hours_by_row_h} and "
            "{standby_by_row_w} each while they sleep. The inverter's efficiency is {inverter_eff_frac}; it idles at "
            "{inverter_idle_w} for {inverter_on_h}. A friend of the warden sends this page. Where is its first slip, "
            "if there is one, and what should stand there?",
            hint=_LINE,
            sheet=_TO_INVERTER,
            given={"duty_by_row_frac": 1, "season_by_row_frac": 1, "on_ac_by_row_frac": 1, "inverter_on_h": 24},
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (25, 30, 40),
                "hours_by_row_h": (4, 5, 6),
                "standby_by_row_w": (2, 3, 4),
                "inverter_eff_frac": (0.75, 0.8),
                "inverter_idle_w": (9, 12),
            },
            curated={
                "count_by_row": 2,
                "power_by_row_w": 30,
                "hours_by_row_h": 5,
                "standby_by_row_w": 3,
                "inverter_eff_frac": 0.8,
                "inverter_idle_w": 9,
            },
            mistakes=("LD-01", "LD-12", "LD-13", "LD-15", "LD-19"),
            words=WORDS,
        ),
        Slip(
            id="L01-exit-5",
            title="A page about a radio",
            statement="Gull mast's radio takes {power_by_row_w} for {hours_by_row_h} a day. For the rest of it a meter "
            "in its lead shows {supply_by_row_v} and {standby_by_row_a:mA}. Check this page from the top. Which line "
            "is the first that goes wrong, if one does, and what should it be?",
            hint=_LINE,
            sheet=STANDBY + _ASLEEP,
            given={"count_by_row": 1, "duty_by_row_frac": 1, "season_by_row_frac": 1},
            grids={
                "power_by_row_w": (28, 35, 42),
                "hours_by_row_h": (0.5, 1.5, 2),
                "supply_by_row_v": (5, 9, 12),
                "standby_by_row_a": (0.15, 0.2, 0.3),
            },
            curated={"power_by_row_w": 35, "hours_by_row_h": 1.5, "supply_by_row_v": 12, "standby_by_row_a": 0.2},
            mistakes=("LD-04", "LD-10", "LD-11", "LD-12"),
            words=WORDS,
        ),
    )


def _asleep() -> tuple[Slot, ...]:
    return (
        Work(
            id="L01-exit-6",
            title="A charger that waits",
            statement="A lantern charger at Riverbend takes {power_by_row_w} for {hours_by_row_h} a day. For the rest "
            "of it a meter in its lead shows {standby_by_row_a:mA} at {supply_by_row_v}. What is its standby power, "
            "and how much energy does it take in a day?",
            hint="Which two things on the meter make a power?",
            sheet=STANDBY + _ASLEEP,
            given={"count_by_row": 1, "duty_by_row_frac": 1, "season_by_row_frac": 1},
            grids={
                "power_by_row_w": (15, 20, 25),
                "hours_by_row_h": (3, 4, 5),
                "supply_by_row_v": (9, 12),
                "standby_by_row_a": (0.1, 0.15, 0.2, 0.25),
            },
            curated={"power_by_row_w": 20, "hours_by_row_h": 4, "supply_by_row_v": 12, "standby_by_row_a": 0.15},
            mistakes=("LD-04", "LD-10", "LD-11", "LD-12"),
            words=WORDS,
            asked=tuple(map(Step, STANDBY + _ASLEEP)),
        ),
        Work(
            id="L01-exit-6",
            title="Asleep for most of the week",
            statement="{count_by_row} game consoles at the weekend cabin draw {power_by_row_w} each for "
            "{hours_by_row_h} on {week_by_row_days} of the week. In all other hours, on all seven days, each draws "
            "{standby_by_row_w}. How much on a day they run, without the sleep, and how much a day over the week with "
            "it?",
            hint="What do they draw on a day when nobody is there?",
            sheet=_WEEK,
            given={"duty_by_row_frac": 1, "season_by_row_frac": 1},
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (65, 80, 95),
                "hours_by_row_h": (4, 5, 6),
                "week_by_row_days": (2, 3),
                "standby_by_row_w": (2, 3),
            },
            curated={
                "count_by_row": 2,
                "power_by_row_w": 80,
                "hours_by_row_h": 5,
                "week_by_row_days": 2,
                "standby_by_row_w": 2,
            },
            mistakes=("LD-01", "LD-02", "LD-04", "LD-05"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"), Step("mean_energy_by_row_wh")),
        ),
        Work(
            id="L01-exit-6",
            title="Two rows that sleep",
            statement="Gull mast has a radio, which listens when it does not send, and a set of beacons. Everything is "
            "on DC. How much does each row take in a day, and how much is it together?",
            hint="What do they draw at three in the morning?",
            sheet=_ASLEEP + Sheet(LOADS["dc_day_wh"]),
            given={"duty_by_row_frac": (1.0, 1.0), "season_by_row_frac": (1.0, 1.0), "on_ac_by_row_frac": (0.0, 0.0)},
            grids={
                "count_by_row": ((1, 3), (1, 4), (1, 2)),
                "power_by_row_w": ((35, 5), (30, 4), (40, 6)),
                "hours_by_row_h": ((2, 10), (3, 12), (1.5, 9)),
                "standby_by_row_w": ((0.5, 0.3), (0.8, 0.4), (0.6, 0.5)),
            },
            curated={
                "count_by_row": (1, 3),
                "power_by_row_w": (35, 5),
                "hours_by_row_h": (2, 10),
                "standby_by_row_w": (0.8, 0.4),
            },
            mistakes=("LD-01", "LD-04", "LD-12"),
            words=WORDS,
            rows=("radio", "beacons"),
            asked=(Step("day_energy_by_row_wh", 0), Step("day_energy_by_row_wh", 1), Step("dc_day_wh")),
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {
    group[0].id: group for group in (_week(), _rates(), _through(), _idle(), _pages(), _asleep())
}
