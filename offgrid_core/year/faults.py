"""Fourteen things that go wrong with a stand-alone system: what each shows on the wall, the test and the repair.

A fault is another value of an input that says "nothing wrong" in a sound system; how the values act stands in
:mod:`offgrid_core.sizing.log`. How large a fault is, and where or when it sits, is drawn from a seed in stated ranges.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from offgrid_core.errors import OffgridError
from offgrid_core.year.log import Stretch, Wrong

_DC = "Work on batteries and DC strings is for licensed people: open the disconnects, check for no voltage, and then "
_ONE = (1.0, 1.0)
_DAY = 24


@dataclass(frozen=True)
class Fault:
    """One kind of fault.

    Attributes
    ----------
    key, label
        Name for programs, and the trade's words.
    seen
        What a person at the wall would see.
    next_test
        The test that would tell it from the others.
    repair
        What mends it, with the caution where it can hurt.
    shows
        Columns of the log in which it shows: 1 where they nearly always read higher than they should while no
        controller holds back, -1 lower, 0 either. With a full bank nothing is missed.
    jumps
        Whether the log jumps with the size, as a switch falls an hour sooner or later.
    sizes
        Smallest and largest size drawn; the same where it has only one.
    size_is
        What the size counts.
    places
        Where or when it may sit, whole numbers; drawn evenly.
    place_is
        What the place counts; empty where there is only one.
    values
        From the rows of a log (from 0), size and place to the inputs that are not as in a sound system.
    refused
        From a stretch of days to one sentence why its system cannot have this fault, empty where it can; ``None`` where
        every system can.
    """

    key: str
    label: str
    seen: str
    next_test: str
    repair: str
    shows: Mapping[str, int]
    values: Callable[[np.ndarray, float, int], Mapping[str, Any]]
    jumps: bool = False
    sizes: tuple[float, float] = _ONE
    size_is: str = ""
    places: tuple[int, ...] = (0,)
    place_is: str = ""
    refused: Callable[[Stretch], str] | None = None


@dataclass(frozen=True)
class Case:
    """A fault of one size at one place."""

    fault: Fault
    size: float
    place: int

    def wrong(self, stretch: Stretch) -> Wrong:
        """Return what is wrong in a stretch of days."""
        if self.fault.key == "clock_shifted":
            return Wrong(clock_h=self.place)
        return Wrong(self.fault.values(stretch.rows, self.size, self.place))


def drawn(fault: Fault, seed: int) -> Case:
    """Return a case of a fault, its size and place drawn from the seed (a whole number of 0 or more)."""
    dice = np.random.default_rng([seed, *fault.key.encode()])
    return Case(fault, float(dice.uniform(*fault.sizes)), int(dice.choice(fault.places)))


def why_not(fault: Fault, stretch: Stretch) -> str:
    """Return one sentence why the system of a stretch cannot have a fault; empty where it can."""
    return fault.refused(stretch) if fault.refused else ""


def applicable(stretch: Stretch) -> tuple[Fault, ...]:
    """Return the faults that the system of a stretch can have."""
    return tuple(fault for fault in FAULTS.values() if not why_not(fault, stretch))


def fault_named(key: str) -> Fault:
    """Return the fault of that key, or refuse with the known ones."""
    if key not in FAULTS:
        raise OffgridError(f"there is no fault called {key!r}; known are {', '.join(FAULTS)}")
    return FAULTS[key]


def _from_day(rows: np.ndarray, day: int, value: float) -> np.ndarray:
    """Return nothing before a day of the log (from 0), and the value from then on."""
    return np.where(rows >= day * _DAY, value, 0.0)


def _shadow(rows: np.ndarray, size: float, place: int) -> Mapping[str, Any]:
    hour = rows % _DAY
    return {"shaded_frac": np.where((hour >= place) & (hour < place + 3), size, 0.0)}


def _dirt(rows: np.ndarray, size: float, place: int) -> Mapping[str, Any]:
    return {"dirt_per_h": size, "dry_h": np.where(rows < place * _DAY, rows, rows - place * _DAY)}


def _meter(rows: np.ndarray, size: float, place: int) -> Mapping[str, Any]:  # noqa: ARG001
    name, factor = _METERS_WRONG[place]
    return {name: factor}


def _frozen(rows: np.ndarray, size: float, place: int) -> Mapping[str, Any]:
    cold = np.interp(rows / _DAY, (place - 1, place, place + 7, place + 8), (0, 1, 1, 0))  # a bank is slow to cool
    return {"frozen_frac": cold, "frozen_below_k": size}


def _always(name: str) -> Callable[[np.ndarray, float, int], Mapping[str, Any]]:
    """Return what sets one input to the size of the fault, from the first row on."""
    return lambda rows, size, place: {name: size}  # noqa: ARG005


def _without_strings(stretch: Stretch) -> str:
    return (
        ""
        if stretch.given["array_strings_count"] >= 2
        else "The array is one string: open, it would bring nothing at all."
    )


def _without_sleep(stretch: Stretch) -> str:
    if not stretch.given["inverter_idle_w"]:
        return "There is no inverter."
    return (
        "" if stretch.given["inverter_on_h"] < _DAY else "The plan counts the inverter as awake day and night already."
    )


def _without_generator(stretch: Stretch) -> str:
    return "" if stretch.has_generator else "There is no generator."


def _without_frost(stretch: Stretch) -> str:
    return "" if stretch.given["air_coldest_c"] <= -10 else "The coldest air of this place is far from freezing a bank."


_METERS_WRONG = tuple(
    (name, factor)
    for name in ("array_meter_factor", "load_meter_factor", "battery_meter_factor")
    for factor in (10.0, 0.1)
)
_ALL = (
    Fault(
        "string_open",
        "one module string open",
        "From one day on the array current is lower by one string's share for its sun, until the bank is nearly full.",
        "Measure the current of each string with a clamp meter, in steady sun: one reads nothing.",
        _DC
        + "renew the blown fuse or the burnt connector. Never part a connector under load: a DC arc does not go out.",
        {"array_read_a": -1, "battery_read_a": -1},
        lambda rows, size, place: {"open_count": _from_day(rows, place, size)},
        places=tuple(range(1, 7)),
        place_is="days from the start of the log until the string opens",
        refused=_without_strings,
    ),
    Fault(
        "partial_shade",
        "a shadow at fixed hours",
        "Every day the array current falls short in the same three hours, if the bank is not full by then.",
        "Stand at the array at that hour and look along its face towards the sun.",
        "Cut the branch or move the mast. Nobody climbs a roof without protection against a fall.",
        {"array_read_a": -1, "battery_read_a": -1},
        _shadow,
        sizes=(0.25, 0.7),
        size_is="share lost in those hours",
        places=(8, 9, 10, 13, 14),
        place_is="hour at which the shadow begins",
    ),
    Fault(
        "soiling_ramp",
        "dirt that builds up until it rains",
        "In the same sun the array current falls a little every day, until one day of rain brings all of it back.",
        "Wash one module and compare its current with its neighbour's.",
        "Wash the array in the cool of the morning, from the ground; find what throws the dust.",
        {"array_read_a": -1, "battery_read_a": -1},
        _dirt,
        sizes=(0.0006, 0.0015),
        size_is="share lost for each dry hour, 1.4 to 3.6 % a day: a dust road or harvest time",
        places=(7, 8, 9, 10),
        place_is="days from the start of the log until it rains",
    ),
    Fault(
        "set_point_low",
        "controller voltage set too low",
        "The current tapers off while the voltage is still below the absorption set-point; the bank never fills.",
        "Compare the set-points in the controller with the design sheet, at the battery's temperature.",
        "Set the absorption voltage to the battery maker's value; watch one whole charge.",
        {"battery_read_v": 0},
        _always("typed_low_frac"),
        sizes=(0.25, 0.6),
        size_is="how much too low, of the height of the absorption voltage above rest",
    ),
    Fault(
        "sensor_stuck",
        "battery temperature sensor stuck",
        "The battery temperature is one warm value day and night; a set-point that follows it ends charging too soon.",
        "Hold a thermometer to a battery case, or warm the sensor in the hand: the reading does not move.",
        "Fit a new sensor to the side of a unit; mind the open terminals beside it, and use insulated tools.",
        {"battery_read_c": 1},
        lambda rows, size, place: {"stuck_frac": 1.0, "stuck_c": size},  # noqa: ARG005
        sizes=(38.0, 50.0),
        size_is="temperature reported, °C",
    ),
    Fault(
        "disconnect_high",
        "low-voltage disconnect set too high",
        "The loads are cut off while the battery is still well charged, and come back with the sun.",
        "Read the voltage at the moment the loads drop, and compare it with the set-point of the design.",
        "Set the disconnect to the design's value; it is there to guard the bank, so never bridge it.",
        {"connected_frac": -1, "load_read_a": -1},
        _always("depth_frac"),
        jumps=True,
        sizes=(0.02, 0.10),
        size_is="depth of discharge at which it cuts off",
    ),
    Fault(
        "weak_unit",
        "a weak unit in one string",
        "The voltage sags early in the night and rises early in the morning, with the usual current and charge.",
        "Measure every unit's voltage under load, and the gravity of every cell where there is acid.",
        _DC + "take the string out and renew the unit. Lift with two; acid burns and a wrench across terminals melts.",
        {"battery_read_v": 0},
        _always("weak_frac"),
        sizes=(0.3, 0.6),
        size_is="share of its capacity that the unit has lost",
    ),
    Fault(
        "always_on_load",
        "a new load that is always on",
        "From one day on the load current is higher by the same amount in every hour, also in the dead of night.",
        "Pull the fuses of the load circuits one after the other at night and watch the load current.",
        "Find the owner and switch it off, or put it on the loads list and size again.",
        {"load_read_a": 1},
        lambda rows, size, place: {"unlisted_frac": _from_day(rows, place, size)},
        sizes=(0.15, 0.5),
        size_is="share of the mean load of the hardest day",
        places=tuple(range(1, 7)),
        place_is="days from the start of the log until it is switched on",
    ),
    Fault(
        "inverter_awake",
        "inverter left without its sleep mode",
        "All through the log the load current is higher by the inverter's idle draw, also when nothing on AC runs.",
        "Switch off every AC load and read the current into the inverter: asleep it is nearly nothing.",
        "Set the inverter's search mode again, and see that the smallest load still wakes it.",
        {"load_read_a": 1},
        _always("sleepless_frac"),
        refused=_without_sleep,
    ),
    Fault(
        "loose_lug",
        "a loose lug at the battery",
        "The voltage falls with the load and jumps up with the charge, the more the greater the current.",
        "With a load on, measure millivolts across each joint, lug to post; a warm joint gives itself away too.",
        _DC + "clean and tighten the joint to the maker's torque. A loose lug gets hot enough to start a fire.",
        {"battery_read_v": 0},
        _always("lug_drop_frac"),
        sizes=(0.02, 0.06),
        size_is="share of the bank voltage lost at the charging current",
    ),
    Fault(
        "clock_shifted",
        "clock of the log set wrong",
        "The sun is highest hours before or after noon on the log, and the evening loads have moved as far.",
        "Compare the clock of the log with a watch.",
        "Set the clock, and the date, and note in the log when that was done.",
        {"sun_read_kw_m2": 0},
        lambda rows, size, place: {},  # noqa: ARG005
        places=(-5, -4, -3, -2, 2, 3, 4, 5),
        place_is="hours by which the clock is fast",
    ),
    Fault(
        "generator_late",
        "generator start set-point too low",
        "The generator stays off in a dull spell in which it should have run, and the bank goes on falling.",
        "Read the start level in the generator's control, and compare it with the design.",
        "Set the start level to the design's. The engine may start by itself: isolate it before any hand goes near.",
        {"running_frac": -1},
        _always("generator_start_frac"),
        jumps=True,
        sizes=(0.1, 0.35),
        size_is="charge at which it starts",
        refused=_without_generator,
    ),
    Fault(
        "meter_by_ten",
        "an ammeter wrong by ten",
        "One ammeter shows ten times, or a tenth of, what the other two and the voltage agree on.",
        "Hold a clamp meter to the same cable.",
        "Set the ratio of the shunt in the meter to what stands on the shunt.",
        {"array_read_a": 0, "load_read_a": 0, "battery_read_a": 0},
        _meter,
        places=tuple(range(len(_METERS_WRONG))),
        place_is="which meter, and whether too much or too little",
    ),
    Fault(
        "frozen_week",
        "the bank freezes for a week",
        "Within a day the battery gets far below zero, and for a week it stays there: the voltage jumps to the "
        "set-point with the first sun and no charge goes in.",
        "Read a thermometer between the units; look for bulged cases before anything else.",
        "Do not charge: a frozen battery can burst. Let it thaw slowly, have it checked, and mend the enclosure.",
        {"battery_read_c": -1},
        _frozen,
        sizes=(1.0, 5.0),
        size_is="kelvin below the coldest temperature for charging",
        places=(2, 3, 4, 5, 6),
        place_is="days from the start of the log until it freezes",
        refused=_without_frost,
    ),
)

#: Every fault by key.
FAULTS: dict[str, Fault] = {fault.key: fault for fault in _ALL}
