"""Other templates of the generator lesson's exit quiz: hours, levels, and the rules that keep people alive."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Backwards, Choose, Option, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import (
    BACK,
    BEGINS,
    LEVELS,
    RUN,
    WORDS,
)
from offgrid_core.sizing.generator_teaching import RESTORE
from offgrid_core.worksheet import Sheet

_HOURS = RESTORE.upto("restore_h")
#: The hours for an energy that is known.
_PACE = Sheet(*(RUN[n] for n in ("charger_dc_w", "charger_spare_w", "restore_h")))


def _hours() -> tuple[Slot, ...]:
    return (
        Work(
            id="L11-exit-1",
            title="The ferry office",
            statement="Behind the ferry office hums an engine of {generator_rated_w}. From {charger_a} at "
            "{absorb_set_v} ({charger_eff_frac} of the charger's intake) the ticket printer and the signal lamp, both "
            "on DC, swallow {dc_running_w}. Work out what the charger sends, what remains for storage, and the time "
            "needed for {restore_wh} that are missing.",
            hint=BEGINS,
            sheet=_PACE,
            grids={
                "generator_rated_w": (2600, 3200, 3900),
                "charger_a": (40, 48, 60),
                "absorb_set_v": (28.6, 29.1),
                "charger_eff_frac": (0.84, 0.88),
                "dc_running_w": (170, 230, 290),
                "restore_wh": (5200, 6400, 7700),
            },
            curated={
                "generator_rated_w": 3900,
                "charger_a": 48,
                "absorb_set_v": 28.6,
                "charger_eff_frac": 0.84,
                "dc_running_w": 290,
                "restore_wh": 7700,
            },
            mistakes=("GE-03", "GE-06", "GE-07"),
            words=WORDS,
            asked=tuple(map(Step, ("charger_dc_w", "charger_spare_w", "restore_h"))),
        ),
        Backwards(
            id="L11-exit-1",
            title="Quiet after nine",
            statement="Guests of a lodge want silence. From {generator_start_frac} to {generator_stop_frac} of a store "
            "labelled {bank_wh} the motor may be heard for {load_h} at most; {charge_eff_frac} of the charge is "
            "retained, and hallway lights on the DC side use {dc_running_w}. How many watts must the charger send?",
            hint=BACK,
            sheet=_HOURS,
            grids={
                "generator_start_frac": (0.4, 0.45, 0.5),
                "generator_stop_frac": (0.8, 0.85),
                "bank_wh": (12_800, 15_400, 18_600, 22_000),
                "load_h": (2.5, 3, 3.5),
                "charge_eff_frac": (0.79, 0.83),
                "dc_running_w": (230, 300, 380),
            },
            curated={
                "generator_start_frac": 0.5,
                "generator_stop_frac": 0.85,
                "bank_wh": 15400,
                "load_h": 2.5,
                "charge_eff_frac": 0.83,
                "dc_running_w": 380,
            },
            mistakes=("GE-06", "GE-07", "GE-08"),
            words=WORDS | {"load_h": "hours that it may be heard"},
            unknown="charger_dc_w",
            span=(400, 20_000),
            result="restore_h",
            wanted="load_h",
        ),
        Work(
            id="L11-exit-1",
            title="Harvest on the farm",
            statement="Cattle fences and a router hang on the DC bus of a farm, {dc_running_w} in all. A "
            "tractor-driven set ({generator_rated_w}) feeds a charger of {charger_a}, {absorb_set_v}, "
            "{charger_eff_frac} efficient. Storage: {bank_ah}, {bank_voltage_v}; retained {charge_eff_frac}. It shall "
            "climb out of {generator_start_frac} up to {generator_stop_frac}. State the energy to bring and the time.",
            hint=BEGINS,
            sheet=RUN,
            given={"bank_voltage_v": 24},
            grids={
                "dc_running_w": (260, 320, 380),
                "generator_rated_w": (5200, 6000, 7200),
                "charger_a": (70, 80, 90),
                "absorb_set_v": (28.7, 29.5),
                "charger_eff_frac": (0.84, 0.88),
                "bank_ah": (840, 980, 1150),
                "charge_eff_frac": (0.79, 0.83),
                "generator_start_frac": (0.4, 0.45),
                "generator_stop_frac": (0.8, 0.9),
            },
            curated={
                "dc_running_w": 380,
                "generator_rated_w": 7200,
                "charger_a": 80,
                "absorb_set_v": 28.7,
                "charger_eff_frac": 0.84,
                "bank_ah": 980,
                "charge_eff_frac": 0.83,
                "generator_start_frac": 0.4,
                "generator_stop_frac": 0.9,
            },
            mistakes=("GE-03", "GE-06", "GE-07", "GE-09"),
            words=WORDS,
            asked=tuple(map(Step, ("restore_wh", "restore_h"))),
        ),
    )


def _levels() -> tuple[Slot, ...]:
    return (
        Work(
            id="L11-exit-4",
            title="The engine that went on",
            statement="Riverbend's engine is left on from {generator_start_frac} until {generator_stop_frac} of "
            "{bank_ah}. Its charger can push {charger_rated_a}, while gel cells accept a rate of "
            "{charge_rate_max_per_h} and no more. State the amp-hours, then the current that really flows, then the "
            "time. The fan is off.",
            hint=BEGINS,
            sheet=LEVELS,
            grids={
                "generator_start_frac": (0.35, 0.4, 0.45),
                "generator_stop_frac": (0.75, 0.8),
                "bank_ah": (490, 590, 680),
                "charger_rated_a": (90, 100, 120),
                "charge_rate_max_per_h": (0.11, 0.12, 0.13),
            },
            curated={
                "generator_start_frac": 0.45,
                "generator_stop_frac": 0.8,
                "bank_ah": 590,
                "charger_rated_a": 120,
                "charge_rate_max_per_h": 0.12,
            },
            mistakes=("GE-05", "GE-10", "GE-17", "GE-18"),
            words=WORDS,
            asked=tuple(map(Step, ("generator_run_ah", "charger_a", "generator_run_h"))),
        ),
        Backwards(
            id="L11-exit-4",
            title="A level for the caretaker",
            statement="A caretaker visits once a day and can wait for {load_h}. Stopping is set to "
            "{generator_stop_frac}; the storage is {bank_ah} and takes a rate of {charge_rate_max_per_h}, less than "
            "the {charger_rated_a} of the box on the wall. Nothing runs on DC. To what charge may it sink before each "
            "visit?",
            hint="From such a level, how many amp-hours are missing, and how fast do they come?",
            sheet=LEVELS,
            grids={
                "load_h": (2, 2.5, 3),
                "generator_stop_frac": (0.8, 0.85, 0.9),
                "bank_ah": (380, 460, 540),
                "charge_rate_max_per_h": (0.12, 0.13, 0.14),
                "charger_rated_a": (80, 90, 110),
            },
            curated={
                "load_h": 2,
                "generator_stop_frac": 0.85,
                "bank_ah": 460,
                "charge_rate_max_per_h": 0.13,
                "charger_rated_a": 110,
            },
            mistakes=("GE-17", "GE-18"),
            words=WORDS | {"load_h": "hours that the caretaker waits", "generator_start_frac": "charge at the start"},
            unknown="generator_start_frac",
            span=(0.05, 0.79),
            result="generator_run_h",
            wanted="load_h",
        ),
        Work(
            id="L11-exit-4",
            title="Two settings on a dial",
            statement="On a dial somebody has turned the upper mark to {generator_stop_frac}, the lower to "
            "{generator_start_frac}. Cells: {bank_ah}. Charger: {charger_rated_a}. Limit by the cells' maker: "
            "{charge_rate_max_per_h}. No consumer is switched on. How many amp-hours lie between both marks, and after "
            "how many hours will the motor fall silent?",
            hint=BEGINS,
            sheet=LEVELS,
            grids={
                "generator_stop_frac": (0.8, 0.85, 0.9),
                "generator_start_frac": (0.5, 0.55, 0.6),
                "bank_ah": (310, 420, 560),
                "charger_rated_a": (75, 95, 115),
                "charge_rate_max_per_h": (0.11, 0.13),
            },
            curated={
                "generator_stop_frac": 0.85,
                "generator_start_frac": 0.6,
                "bank_ah": 420,
                "charger_rated_a": 115,
                "charge_rate_max_per_h": 0.11,
            },
            mistakes=("GE-05", "GE-10", "GE-17", "GE-18"),
            words=WORDS,
            asked=tuple(map(Step, ("generator_run_ah", "generator_run_h"))),
        ),
    )


def _hazards() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L11-exit-5",
            title="A plug with two ends",
            statement="The inverter of a cabin has died. A neighbour offers a cord with a plug at both ends: one end "
            "into the generator, the other into a socket of the kitchen. All lights would be back. Your answer?",
            hint="Where else do the wires of that kitchen lead, and what do the free pins of such a plug carry?",
            options=(
                Option(
                    "no: a licensed person fits a changeover switch, so that only one source can feed the wires",
                    "Bare pins carry full voltage, and whoever works on the wires elsewhere can be killed.",
                    right=True,
                ),
                Option("yes, if the main switch is off", "Who sees to it that nobody turns that switch meanwhile?"),
                Option("yes: sockets and plugs are alike, so it fits", "What do the pins carry before they are in?"),
                Option("yes, for one evening", "How long does it take for a hand to touch a bare pin?"),
            ),
        ),
        Choose(
            id="L11-exit-5",
            title="An empty tank",
            statement="After five hours the engine coughs: its tank is nearly empty. Snow is falling, the can stands "
            "ready, and the funnel too. What comes first?",
            hint="How hot is the exhaust after five hours, and what do fumes of fuel do there?",
            options=(
                Option(
                    "stop the engine and let it cool, then fill it, with no flame near",
                    "Fumes of fuel catch fire at a hot exhaust. The can is kept away from the engine.",
                    right=True,
                ),
                Option(
                    "fill it while it runs, so the charge is not interrupted", "What is a handbreadth from the cap?"
                ),
                Option("stop it, fill it at once, and start again", "How fast does an exhaust cool down?"),
                Option("carry it inside, out of the snow, and fill it there", "Where do the fumes go in a room?"),
            ),
        ),
        Choose(
            id="L11-exit-5",
            title="Bubbles in the battery room",
            statement="Late in a long generator run, the cells of a flooded bank are bubbling. The fan of the battery "
            "room is out of order, and its two gratings are blocked by snow. What is to be done?",
            hint="What is in the bubbles, and what would set it off?",
            options=(
                Option(
                    "stop charging, no switch or flame in there, and clear the gratings first",
                    "The bubbles hold hydrogen. Air that moves from low to high carries it out.",
                    right=True,
                ),
                Option("go on: bubbles show that the charge is nearly done", "Where does the gas go that rises there?"),
                Option("go in and switch on the lamp to have a look", "What does a switch make when it closes?"),
                Option("go on, with the door of the room shut", "What becomes of the share of gas in a closed room?"),
            ),
        ),
    )


#: Id of a place -> its templates beside the first.
OTHERS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_hours(), _levels(), _hazards())}
