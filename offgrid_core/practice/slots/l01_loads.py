"""Problems of the loads lesson."""

from offgrid_core.practice.kinds import Choose, Guess, Option, Rise, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l01_loads_more import round_the_sums, saving
from offgrid_core.sizing import LOADS
from offgrid_core.sizing.standby import STANDBY
from offgrid_core.worksheet import Sheet

WORDS = {
    "run_energy_by_row_wh": "energy on a day it runs",
    "standby_energy_by_row_wh": "standby energy on that day",
    "day_energy_by_row_wh": "energy on the busiest day",
    "mean_energy_by_row_wh": "mean energy a day over the week",
    "standby_by_row_a": "current of the power supply",
    "supply_by_row_v": "voltage of the power supply",
    "ac_day_wh": "AC energy a day",
    "dc_day_wh": "DC energy a day",
}
#: A plain row: one of it, no cycling, no season, no standby.
PLAIN = {"count_by_row": 1, "duty_by_row_frac": 1, "season_by_row_frac": 1, "standby_by_row_w": 0}
RUN = LOADS.upto("run_energy_by_row_wh")
BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
PLAIN_BUS = {"dc_wiring_eff_frac": 1, "growth_factor": 1}
_ENERGY = "Energy is power for as long as it lasts: how many, how many watts, how many hours, what share of them."
_THROUGH = "Only AC energy passes the inverter: divide it by the efficiency, add the idle draw, then add the DC energy."
RATE = "Is the number a rate, or an amount for a whole day?"
PATH = "Which path does each load's energy take from the battery?"
_BUS_MISTAKES = ("LD-13", "LD-15", "LD-16", "LD-19", "LD-14", "LD-18")


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    by_id = {s.id: s for s in practice}
    known = entry_check("L01", *(by_id[f"L01-{n}"] for n in (1, 2, 4, 5)))
    begun = (*_recall(), *_guess_and_reason(), *known, *_faded())
    return (*begun, *practice, *_cabin(), *round_the_sums(), *_judge(), saving())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L01-recall-1",
            title="Before we start: watts",
            statement="A lamp says 7 W. What does that tell you?",
            hint="Does the figure change if the lamp burns longer?",
            options=(
                Option("how fast it takes energy while it is on", "Watts are a rate.", right=True),
                Option("how much energy it takes in a day", mistake="LD-04"),
                Option("how much energy it takes in a year", "Does the label know how often it is switched on?"),
                Option("how much current the battery can give", "Does the lamp's label know which battery feeds it?"),
            ),
        ),
        Choose(
            id="L01-recall-2",
            title="Before we start: watt-hours",
            statement="Which of these is an amount of energy?",
            hint="Which could you store in a battery?",
            options=(
                Option("600 Wh", "A rate times a time is an amount.", right=True),
                Option("600 W", mistake="LD-04"),
                Option("600 V", "Is that a push or an amount?"),
                Option("600 A", "Is that a flow or an amount?"),
            ),
        ),
        Choose(
            id="L01-recall-3",
            title="Before we start: the battery's side",
            statement="The sockets of a hut deliver 1000 Wh in a day through an inverter. What leaves the battery?",
            hint="What becomes of the energy that warms the inverter?",
            options=(
                Option("more than 1000 Wh", "The battery also supplies the inverter's own loss.", right=True),
                Option("exactly 1000 Wh", mistake="LD-15"),
                Option("less than 1000 Wh", mistake="LD-13"),
                Option("nothing while the sun shines", "Where does the energy of an evening come from?"),
            ),
        ),
    )


def _guess_and_reason() -> tuple[Slot, ...]:
    return (
        Guess(
            id="L01-guess",
            title="Guess, then lock it",
            statement="Fell hut's fridge draws {power_by_row_w} while its compressor hums, and it hums "
            "{duty_by_row_frac} of the time. How much energy does it take in a day?",
            hint="More or less than a kilowatt-hour?",
            principle=_ENERGY,
            sheet=RUN,
            given=PLAIN,
            curated={"power_by_row_w": 90, "duty_by_row_frac": 0.35, "hours_by_row_h": 24},
            starts_curated=True,
            words=WORDS,
            step=Step("run_energy_by_row_wh"),
        ),
        Rise(
            id="L01-explore",
            title="What does it take only for being on?",
            statement="Fell hut as the panel opens: its AC loads take {ac_day_wh} a day, and the inverter idles at "
            "{inverter_idle_w} for {inverter_on_h}. Another one idles at {other_idle_w}. What becomes of the energy "
            "taken out of the battery in a day?",
            hint="How many watt-hours a day is one watt that never stops?",
            sheet=BUS,
            given=PLAIN_BUS
            | {
                "ac_day_wh": 2129,
                "dc_day_wh": 0,
                "inverter_eff_frac": 0.91,
                "inverter_on_h": 24,
                "inverter_idle_w": 12,
                "other_idle_w": 30,
            },
            words={**WORDS, "inverter_idle_w": "inverter idle draw", "battery_day_wh": "energy taken out"},
            result="battery_day_wh",
            moved="inverter_idle_w",
            after="other_idle_w",
            reasons=(
                Option(
                    "the idle draw runs all day, whatever is plugged in, and is added once",
                    "18 W more for 24 hours: a small number that never sleeps.",
                    right=True,
                ),
                Option("the idle draw only counts while something runs", mistake="LD-19"),
                Option(
                    "the idle draw makes the efficiency worse", "Which bar of the panel does the efficiency stretch?"
                ),
                Option("a number of watts stays a number of watts", mistake="LD-04"),
            ),
        ),
        Choose(
            id="L01-reason",
            title="Say why",
            statement="Why is the AC energy divided by the inverter's efficiency, and not multiplied?",
            hint="If the inverter passes that share of your figure on, do the sockets get what they gave?",
            principle=_THROUGH,
            options=(
                Option(
                    "what goes in, times the efficiency, must give what comes out",
                    "So what goes in is what comes out, divided by it.",
                    right=True,
                ),
                Option("the inverter saves the battery some of the load", mistake="LD-13"),
                Option("the loss is a share of what comes out, so that share is added", mistake="LD-16"),
                Option("every load has to pay for the inverter", mistake="LD-14"),
            ),
        ),
    )


def _steps(line: str, count: int) -> tuple[Step, ...]:
    return tuple(Step(line, row) for row in range(count))


_CLINIC = ("vaccine fridge", "ward lights")
_CLINIC_GIVEN = {
    "duty_by_row_frac": (0.3, 1.0),
    "season_by_row_frac": (1.0, 1.0),
    "standby_by_row_w": (0.0, 0.0),
    "on_ac_by_row_frac": (1.0, 0.0),
    **PLAIN_BUS,
}
_CLINIC_GRIDS = {
    "count_by_row": ((1, 8), (1, 10), (1, 12)),
    "power_by_row_w": ((110, 6), (120, 9), (95, 8)),
    "hours_by_row_h": ((24, 5), (24, 6), (24, 4)),
    "inverter_eff_frac": (0.72, 0.76, 0.8),
    "inverter_idle_w": (6, 8, 11),
    "inverter_on_h": (24,),
}
_CLINIC_CURATED = {n: grid[0] for n, grid in _CLINIC_GRIDS.items()}
_CLINIC_SHEET = LOADS.upto("battery_day_wh")
_TOTALS = tuple(map(Step, ("ac_day_wh", "dc_day_wh", "inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))


def _faded() -> tuple[Slot, ...]:
    statement = (
        "Riverbend clinic runs a vaccine fridge on AC, which hums 30 % of the time, and ward lights on DC. "
        "The inverter's efficiency is {inverter_eff_frac}; it idles at {inverter_idle_w} for {inverter_on_h}."
    )
    return tuple(
        Work(
            id=id_,
            title=title,
            statement=statement,
            hint=RATE if id_ == "L01-faded-1" else PATH,
            principle=_ENERGY if id_ == "L01-faded-1" else _THROUGH,
            sheet=_CLINIC_SHEET,
            given=_CLINIC_GIVEN,
            grids=_CLINIC_GRIDS,
            curated=_CLINIC_CURATED,
            mistakes=mistakes,
            words=WORDS,
            rows=_CLINIC,
            asked=asked,
            filled=filled,
        )
        for id_, title, asked, filled, mistakes in (
            (
                "L01-faded-1",
                "Faded: the first two lines are yours",
                _steps("day_energy_by_row_wh", 2),
                _TOTALS,
                ("LD-01", "LD-04", "LD-08"),
            ),
            (
                "L01-faded-2",
                "Faded: all but the last line are yours",
                (*_steps("day_energy_by_row_wh", 2), *_TOTALS[:4]),
                _TOTALS[4:],
                ("LD-01", "LD-04", "LD-08", "LD-13", "LD-15", "LD-16", "LD-19"),
            ),
        )
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L01-1",
            title="Not every day",
            statement="At a camp site {count_by_row} washing machines draw {power_by_row_w} each for {hours_by_row_h} "
            "a day, on {week_by_row_days} of the week. How much on a day they run, and how much a day over the week?",
            hint=RATE,
            principle=f"{_ENERGY} A week's energy is spread over seven days.",
            sheet=Sheet(*(LOADS[n] for n in ("run_energy_by_row_wh", "mean_energy_by_row_wh"))),
            given=PLAIN,
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (320, 350, 380),
                "hours_by_row_h": (1.5, 2.5, 3),
                "week_by_row_days": (2, 3, 4, 5),
            },
            curated={"count_by_row": 2, "power_by_row_w": 350, "hours_by_row_h": 1.5, "week_by_row_days": 3},
            mistakes=("LD-01", "LD-02", "LD-03", "LD-04", "LD-05"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"), Step("mean_energy_by_row_wh")),
        ),
        Work(
            id="L01-2",
            title="It hums, it rests",
            statement="A vaccine fridge at Riverbend draws {power_by_row_w} while its compressor hums, "
            "{duty_by_row_frac} of the {hours_by_row_h} of a day. How much energy does it take in a day?",
            hint="Does the compressor hum all day?",
            principle=_ENERGY,
            sheet=RUN,
            given=PLAIN | {"hours_by_row_h": 24},
            grids={"power_by_row_w": (85, 95, 110, 125, 140), "duty_by_row_frac": (0.25, 0.3, 0.35, 0.4, 0.45)},
            curated={"power_by_row_w": 110, "duty_by_row_frac": 0.3},
            mistakes=("LD-03", "LD-04", "LD-08", "LD-09"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"),),
        ),
        Work(
            id="L01-3",
            title="What draws at three in the morning",
            statement="The router at Fell hut is never switched off. A meter in its lead shows {supply_by_row_v} and "
            "{standby_by_row_a:mA}. How much power is that, and how much energy in a day?",
            hint="Which two things on the meter make a power?",
            principle="Volts times amps are watts; a small power that never stops is a day of energy.",
            sheet=STANDBY + Sheet(LOADS["standby_energy_by_row_wh"]),
            given={"count_by_row": 1, "hours_by_row_h": 0},
            grids={"supply_by_row_v": (5, 9, 12), "standby_by_row_a": (0.25, 0.35, 0.45, 0.6, 0.7)},
            curated={"supply_by_row_v": 12, "standby_by_row_a": 0.6},
            mistakes=("LD-10", "LD-11"),
            words=WORDS | {"standby_by_row_w": "power of the router", "standby_energy_by_row_wh": "its energy a day"},
            asked=(Step("standby_by_row_w"), Step("standby_energy_by_row_wh")),
        ),
        Work(
            id="L01-4",
            title="At the battery",
            statement="A workshop's AC loads take {ac_day_wh} a day through an inverter of {inverter_eff_frac} "
            "efficiency that idles at {inverter_idle_w} for {inverter_on_h}; its DC loads take {dc_day_wh}. "
            "What leaves the battery in a day?",
            hint=PATH,
            principle=_THROUGH,
            sheet=BUS,
            given=PLAIN_BUS,
            grids={
                "ac_day_wh": (800, 900, 1100, 1300),
                "dc_day_wh": (500, 600, 700, 850),
                "inverter_eff_frac": (0.7, 0.75, 0.8),
                "inverter_idle_w": (7, 9, 12),
                "inverter_on_h": (10, 14, 24),
            },
            curated={
                "ac_day_wh": 900,
                "dc_day_wh": 600,
                "inverter_eff_frac": 0.75,
                "inverter_idle_w": 9,
                "inverter_on_h": 14,
            },
            mistakes=_BUS_MISTAKES,
            words=WORDS,
            asked=tuple(map(Step, BUS)),
        ),
        Work(
            id="L01-5",
            title="Short and strong",
            statement="At a market garden {count_by_row} pumps of {power_by_row_w} run for {hours_by_row_h:min} a day. "
            "How much energy is that?",
            hint="How much of an hour is that?",
            principle=_ENERGY,
            sheet=RUN,
            given=PLAIN,
            grids={
                "count_by_row": (2, 3),
                "power_by_row_w": (280, 370, 450),
                "hours_by_row_h": (0.2, 0.25, 0.4, 0.5, 0.75),
            },
            curated={"count_by_row": 2, "power_by_row_w": 370, "hours_by_row_h": 0.5},
            mistakes=("LD-01", "LD-03", "LD-04", "LD-06", "LD-07"),
            words=WORDS,
            asked=(Step("run_energy_by_row_wh"),),
        ),
    )


def _cabin() -> tuple[Slot, ...]:
    return (
        Work(
            id="L01-6",
            title="A whole loads list",
            statement="Work Riverbend's list from the rows to the battery. The inverter's efficiency is "
            "{inverter_eff_frac}; it idles at {inverter_idle_w} for {inverter_on_h}.",
            hint=PATH,
            principle=f"{_ENERGY} {_THROUGH}",
            sheet=_CLINIC_SHEET,
            given={
                "season_by_row_frac": (1.0,) * 4,
                "on_ac_by_row_frac": (1.0, 1.0, 0.0, 0.0),
                "duty_by_row_frac": (0.3, 1.0, 1.0, 1.0),
                "standby_by_row_w": (0.0, 0.0, 0.0, 3.0),
                **PLAIN_BUS,
            },
            grids={
                "count_by_row": ((1, 2, 14, 1), (1, 3, 12, 1)),
                "power_by_row_w": ((110, 45, 6, 30), (120, 45, 7, 30), (140, 45, 8, 30), (140, 40, 9, 30)),
                "hours_by_row_h": ((24, 5, 6, 3), (24, 4, 6, 3), (24, 5, 5, 2)),
                "inverter_eff_frac": (0.7, 0.72, 0.8),
                "inverter_idle_w": (11, 14, 16),
                "inverter_on_h": (24,),
            },
            curated={
                "count_by_row": (1, 2, 14, 1),
                "power_by_row_w": (110, 45, 6, 30),
                "hours_by_row_h": (24, 5, 5, 2),
                "inverter_eff_frac": 0.72,
                "inverter_idle_w": 11,
                "inverter_on_h": 24,
            },
            mistakes=("LD-01", "LD-04", "LD-08", "LD-12", *_BUS_MISTAKES),
            words=WORDS,
            rows=("vaccine fridge", "microscopes", "ward lights", "radio"),
            asked=(*_steps("day_energy_by_row_wh", 4), *_TOTALS),
        ),
    )


def _judge() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L01-slip",
            title="Find the slip",
            statement="Someone worked Fell hut's fridge to the battery: {power_by_row_w}, humming "
            "{duty_by_row_frac} of {hours_by_row_h}, inverter efficiency {inverter_eff_frac}, idle "
            "{inverter_idle_w} for {inverter_on_h}. Find the first line that goes wrong, if there is one, and give "
            "its right value.",
            hint="What does this line begin from, and what should happen to it?",
            principle=f"{_ENERGY} {_THROUGH}",
            sheet=Sheet(
                *(LOADS[n] for n in ("run_energy_by_row_wh", "standby_energy_by_row_wh", "day_energy_by_row_wh")),
                *(LOADS[n] for n in ("ac_day_wh", "inverter_idle_wh", "inverter_day_wh")),
            ),
            given=PLAIN | {"hours_by_row_h": 24, "on_ac_by_row_frac": 1, "inverter_on_h": 24},
            grids={
                "power_by_row_w": (80, 90, 110, 130),
                "duty_by_row_frac": (0.3, 0.35, 0.4),
                "inverter_eff_frac": (0.72, 0.75, 0.78),
                "inverter_idle_w": (8, 10, 12),
            },
            curated={
                "power_by_row_w": 90,
                "duty_by_row_frac": 0.35,
                "inverter_eff_frac": 0.75,
                "inverter_idle_w": 10,
            },
            mistakes=("LD-08", "LD-09", "LD-13", "LD-15", "LD-19"),
            words=WORDS,
        ),
    )
