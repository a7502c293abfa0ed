"""Practice of the loads lesson round its sums: their order, what moves them, backwards, roughly, what to save."""

from offgrid_core.practice.kinds import Backwards, Choose, Factor, Knob, Option, Order, Rough
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import LOADS
from offgrid_core.worksheet import Sheet

#: One row from its watts to the inverter, and on to the battery, where the DC energy is known.
_TO_INVERTER = Sheet(
    *(LOADS[n] for n in ("run_energy_by_row_wh", "standby_energy_by_row_wh", "day_energy_by_row_wh", "ac_day_wh")),
    *(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh")),
)
_TO_BATTERY = _TO_INVERTER + Sheet(LOADS["battery_day_wh"])
_BUS = Sheet(*(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")))
_ONE = {"count_by_row": 1, "duty_by_row_frac": 1, "season_by_row_frac": 1, "on_ac_by_row_frac": 1, "inverter_on_h": 24}
_NO_MORE = {"dc_wiring_eff_frac": 1, "growth_factor": 1}
_WORDS = {
    "power_by_row_w": "power while it runs",
    "hours_by_row_h": "hours it runs a day",
    "duty_by_row_frac": "share of the time it hums",
    "standby_by_row_w": "power while it waits",
    "dc_day_wh": "DC energy a day",
    "ac_day_wh": "energy at the sockets a day",
    "energy_day_wh": "what the bank may give a day",
    "battery_day_wh": "energy out of the battery a day",
    "inverter_day_wh": "energy into the inverter a day",
}
#: Common practice, no source: compressors of household fridges, and inverters over a whole day.
_FRIDGE = (
    Factor("power_by_row_w", 60, 140),
    Factor("duty_by_row_frac", 0.25, 0.45),
    Factor("inverter_eff_frac", 0.8, 0.93),
)


def round_the_sums() -> tuple[Slot, ...]:
    """Return the four problems of the practice."""
    return (_steps_of_a_list(), _which_moves(), _how_much(), _from_what_you_know())


def saving() -> Slot:
    """Return the choice of a saving."""
    return Choose(
        id="L01-saving",
        title="Which saving first?",
        statement="Fell hut's warden can do one thing this month. The inverter never sleeps; all loads are on AC. "
        "Which saving takes most watt-hours off the battery's day?",
        hint="For how many hours a day does each of them save its watts?",
        principle="A saving is counted in watt-hours a day, not in watts: a little power that never stops comes first.",
        options=(
            Option("an inverter that idles at 6 W in place of 12 W", "6 W for 24 hours are 144 Wh a day.", right=True),
            Option("a pump of 250 W in place of 370 W, half an hour a day", "For how long does it save those watts?"),
            Option("eight lamps of 5 W in place of 7 W, five hours a day", "What do all eight save in an evening?"),
            Option("a mains switch for what is plugged in: then the idle draw is gone too", mistake="LD-19"),
        ),
    )


def _steps_of_a_list() -> Slot:
    return Order(
        id="L01-7",
        title="From a visit to one number",
        statement="You visit a client, and come home with the watt-hours that must leave the battery in a day. Put "
        "the work in order.",
        hint="What does this card need that another one brings?",
        principle="See it, measure it, work each row, add up AC and DC apart, then take each along its own path.",
        cards={
            "walk": "go through all rooms, write down what draws",
            "watts": "read or measure the watts of each row",
            "hours": "ask for the hours and the days of each row",
            "rows": "work out the watt-hours of each row",
            "apart": "add up AC rows and DC rows, each apart",
            "divide": "take the AC sum through the inverter",
            "idle": "add what the inverter takes for being on",
            "dc": "add the DC sum, as it is",
        },
        before=(
            ("walk", "watts"),
            ("walk", "hours"),
            ("watts", "rows"),
            ("hours", "rows"),
            ("rows", "apart"),
            ("apart", "divide"),
            ("divide", "idle"),
            ("divide", "dc"),
            ("apart", "dc"),
        ),
        extra={"sum": "add up the watts of all rows", "both": "take the DC sum through the inverter too"},
    )


def _which_moves() -> Slot:
    return Knob(
        id="L01-8",
        title="Where would you look first?",
        statement="In Riverbend's office {count_by_row} computers draw {power_by_row_w} each for {hours_by_row_h} a "
        "day and {standby_by_row_w} each for the rest of it. The inverter passes on {inverter_eff_frac} and idles at "
        "{inverter_idle_w}, day and night. Lamps on DC take {dc_day_wh}. Which three of these move the energy out of "
        "the battery the most, and which way?",
        hint="How many watt-hours of the day hang on this one?",
        principle="What the most watt-hours hang on moves the day the most: first the efficiency, since all AC energy "
        "passes there.",
        sheet=_TO_BATTERY,
        given=_ONE | _NO_MORE,
        grids={
            "count_by_row": (2, 3),
            "power_by_row_w": (35, 45, 60),
            "hours_by_row_h": (5, 6, 7),
            "standby_by_row_w": (2, 4, 6),
            "inverter_eff_frac": (0.75, 0.8, 0.85),
            "inverter_idle_w": (6, 9, 14),
            "dc_day_wh": (250, 400, 600, 800),
        },
        curated={
            "count_by_row": 2,
            "power_by_row_w": 45,
            "hours_by_row_h": 6,
            "standby_by_row_w": 6,
            "inverter_eff_frac": 0.8,
            "inverter_idle_w": 6,
            "dc_day_wh": 400,
        },
        result="battery_day_wh",
        inputs=("power_by_row_w", "standby_by_row_w", "inverter_eff_frac", "inverter_idle_w", "dc_day_wh"),
        words=_WORDS,
    )


def _how_much() -> Slot:
    return Backwards(
        id="L01-9",
        title="What is left for the sockets?",
        statement="In the rains Riverbend's bank may give {energy_day_wh} a day and no more. Lamps and pump on DC take "
        "{dc_day_wh} of it. The inverter's efficiency is {inverter_eff_frac}; it idles at {inverter_idle_w} for "
        "{inverter_on_h}. How much may everything at the sockets take in a day?",
        hint="If the sockets give that much, what leaves the battery in the same day?",
        principle="Take off what is taken in any case. Of what is left, the efficiency's share reaches the sockets.",
        sheet=_BUS,
        given=_NO_MORE,
        grids={
            "energy_day_wh": (1700, 1900, 2300, 2600),
            "dc_day_wh": (450, 600, 750),
            "inverter_eff_frac": (0.7, 0.75, 0.8),
            "inverter_idle_w": (8, 11, 14),
            "inverter_on_h": (14, 24),
        },
        curated={
            "energy_day_wh": 2300,
            "dc_day_wh": 600,
            "inverter_eff_frac": 0.75,
            "inverter_idle_w": 11,
            "inverter_on_h": 24,
        },
        mistakes=("LD-13", "LD-14", "LD-15", "LD-18", "LD-19"),
        words=_WORDS,
        unknown="ac_day_wh",
        span=(10, 100_000),
        result="battery_day_wh",
        wanted="energy_day_wh",
    )


def _from_what_you_know() -> Slot:
    return Rough(
        id="L01-10",
        title="No label, no meter",
        statement="A household fridge of a recent make stands in a cool kitchen, with an inverter of its own that "
        "idles at {inverter_idle_w} for {inverter_on_h}. From what you know: its power while it hums, the share of "
        "the time it hums, the inverter's efficiency, and so what goes into the inverter in a day.",
        hint="How many hours of humming are in a day, and at how many watts?",
        principle="A few factors, each about right, give an energy that is about right.",
        sheet=_TO_INVERTER,
        given=_ONE | {"hours_by_row_h": 24, "standby_by_row_w": 0},
        grids={
            "power_by_row_w": (85, 95),
            "duty_by_row_frac": (0.32, 0.36),
            "inverter_eff_frac": (0.86, 0.9),
            "inverter_idle_w": (5, 8, 11),
        },
        curated={"power_by_row_w": 95, "duty_by_row_frac": 0.32, "inverter_eff_frac": 0.86, "inverter_idle_w": 8},
        factors=_FRIDGE,
        step=Step("inverter_day_wh"),
        words=_WORDS | {"power_by_row_w": "power while it hums"},
    )
