"""Exit quiz of the loads lesson: six problems, feedback when all are answered."""

from offgrid_core.practice.kinds import Choose, Option, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l01_exit_more import OTHERS
from offgrid_core.practice.slots.l01_loads import BUS, PATH, PLAIN, PLAIN_BUS, RATE, WORDS
from offgrid_core.sizing import LOADS
from offgrid_core.worksheet import Sheet


def slots() -> tuple[Slot, ...]:
    """Return the six slots of the exit quiz."""
    return (
        Work(
            id="L01-exit-1",
            others=OTHERS["L01-exit-1"],
            title="Classroom lamps",
            statement="A classroom at Riverbend has {count_by_row} lamps of {power_by_row_w} that burn "
            "{hours_by_row_h} on {week_by_row_days} of the week. What is their mean energy a day?",
            hint=RATE,
            sheet=Sheet(*(LOADS[n] for n in ("run_energy_by_row_wh", "mean_energy_by_row_wh"))),
            given=PLAIN,
            grids={
                "count_by_row": (6, 8),
                "power_by_row_w": (9, 12, 15),
                "hours_by_row_h": (3, 4, 5),
                "week_by_row_days": (4, 5),
            },
            curated={"count_by_row": 6, "power_by_row_w": 12, "hours_by_row_h": 4, "week_by_row_days": 5},
            mistakes=("LD-01", "LD-02", "LD-04", "LD-05"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"), Step("mean_energy_by_row_wh")),
        ),
        Choose(
            id="L01-exit-2",
            others=OTHERS["L01-exit-2"],
            title="A client's words",
            statement="“My kettle only uses two kilowatts a day.” What do you ask the client?",
            hint=RATE,
            options=(
                Option(
                    "for how many minutes a day it is on", "Two kilowatts is a rate; the time is missing.", right=True
                ),
                Option("nothing: two kilowatts a day is an amount", mistake="LD-04"),
                Option("whether the two kilowatts are for a week", "Would that turn a rate into an amount?"),
                Option("which voltage it runs on", "Would the voltage tell how long it boils?"),
            ),
        ),
        Work(
            id="L01-exit-3",
            others=OTHERS["L01-exit-3"],
            title="All on AC",
            statement="Everything at a toll house is on AC: {ac_day_wh} a day. The inverter's efficiency is "
            "{inverter_eff_frac}, and it idles at {inverter_idle_w} for {inverter_on_h}. What goes into the inverter?",
            hint=PATH,
            sheet=BUS.upto("inverter_day_wh"),
            grids={
                "ac_day_wh": (1400, 1600, 1900, 2200),
                "inverter_eff_frac": (0.74, 0.78, 0.8),
                "inverter_idle_w": (15, 18, 22),
                "inverter_on_h": (16, 20, 24),
            },
            curated={"ac_day_wh": 1600, "inverter_eff_frac": 0.74, "inverter_idle_w": 18, "inverter_on_h": 24},
            mistakes=("LD-13", "LD-15", "LD-16", "LD-19"),
            words=WORDS,
            asked=(Step("inverter_idle_wh"), Step("inverter_day_wh")),
        ),
        Choose(
            id="L01-exit-4",
            others=OTHERS["L01-exit-4"],
            title="Nothing is plugged in",
            statement="In a summer house the inverter is left on all winter with nothing plugged in. "
            "What happens to the bank?",
            hint="Is the inverter warm to the touch?",
            options=(
                Option(
                    "it is drained a little every hour", "The idle draw counts for every hour it is on.", right=True
                ),
                Option("nothing: no load, no draw", mistake="LD-19"),
                Option("it is drained only by the inverter's loss on the load", mistake="LD-12"),
                Option("it charges, because the inverter works both ways", "Where would that energy come from?"),
            ),
        ),
        Slip(
            id="L01-exit-5",
            others=OTHERS["L01-exit-5"],
            title="One more page",
            statement="This page was worked for Riverbend: {ac_day_wh} on AC, {dc_day_wh} on DC, inverter efficiency "
            "{inverter_eff_frac}, idle {inverter_idle_w} for {inverter_on_h}. Find the first line that goes wrong, "
            "if there is one, and mend it.",
            hint=PATH,
            sheet=BUS,
            given=PLAIN_BUS | {"inverter_on_h": 24},
            grids={
                "ac_day_wh": (900, 1100, 1300),
                "dc_day_wh": (800, 1000, 1200),
                "inverter_eff_frac": (0.7, 0.74),
                "inverter_idle_w": (8, 10, 12),
            },
            curated={"ac_day_wh": 1100, "dc_day_wh": 1000, "inverter_eff_frac": 0.72, "inverter_idle_w": 10},
            mistakes=("LD-13", "LD-14", "LD-15", "LD-18", "LD-19"),
            words=WORDS,
        ),
        Work(
            id="L01-exit-6",
            others=OTHERS["L01-exit-6"],
            title="On, and then asleep",
            statement="{count_by_row} laptops at a sailing school draw {power_by_row_w} each for {hours_by_row_h} a "
            "day and {standby_by_row_w} each for the rest of it. How much energy is that in a day?",
            hint="What do they draw at three in the morning?",
            sheet=LOADS.upto("day_energy_by_row_wh"),
            given={"duty_by_row_frac": 1, "season_by_row_frac": 1},
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (45, 55, 65),
                "hours_by_row_h": (4, 5, 6),
                "standby_by_row_w": (3, 4, 6),
            },
            curated={"count_by_row": 2, "power_by_row_w": 55, "hours_by_row_h": 6, "standby_by_row_w": 4},
            mistakes=("LD-01", "LD-04", "LD-12"),
            words=WORDS,
            asked=tuple(map(Step, ("run_energy_by_row_wh", "standby_energy_by_row_wh", "day_energy_by_row_wh"))),
        ),
    )
