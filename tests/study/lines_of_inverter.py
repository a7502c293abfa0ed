"""Lines of lesson 09: what the parameter names of the sources stand for in them.

The sources speak of three loads that run together and a fourth that does not, and of one load with one power factor. A
list has rows, each with its own factor: what a text does to a power it does to every row, and the rows are added up.
"""

import numpy as np

from study.reading import Reading


class _Rows:
    """The power of several rows: whatever is done to it is done row by row, and added up."""

    def __init__(self, rows):
        self._rows = np.asarray(rows, float)

    def __mul__(self, other):
        return float(np.sum(self._rows * other))

    def __truediv__(self, other):
        return float(np.sum(self._rows / other))


def _list(v):
    """Return count, power and share together of each row, all of one length."""
    names = ("count_by_row", "power_by_row_w", "coincidence_by_row_frac")
    return np.broadcast_arrays(*(np.asarray(v[n], float) for n in names))


def _loads(v, power):
    """Read three loads that run together, and whatever never does; so many of one kind are one load."""
    count, _, together = _list(v)
    first, second, third = [*(count * power)[together == 1], 0, 0][:3]
    hours = np.broadcast_to(np.asarray(v.get("hours_by_row_h", 1), float), count.shape)[together == 1]
    h1, h2, h3 = [*hours, 0, 0][:3]
    return {
        "P1": first,
        "P2": second,
        "P3": third,
        "P4": float(np.sum((count * power)[together == 0])),
        "m": 0,
        "h1": h1,
        "h2": h2,
        "h3": h3,
    }


def _watts(v):
    return _loads(v, _list(v)[1])


def _volt_amps(v):
    count, power, together = _list(v)
    factor = np.asarray(v["power_factor_by_row_ratio"], float)
    return {**_loads(v, power / factor), "P_real": _Rows(count * power * together), "pf": factor}


def _one_of_each(v):
    """Read all kinds as one of which there are so many, on average by their watts."""
    count, power, together = _list(v)
    one = float(np.sum(power * together))
    return {"n1": float(np.sum(count * power * together)) / one, "P1": one, "P2": 0, "P3": 0}


def _hardest(v):
    """Return power and multiple of the motor that starts hardest."""
    power, multiple = np.broadcast_arrays(
        np.asarray(v["power_by_row_w"], float), np.asarray(v["start_by_row_factor"], float)
    )
    place = int(np.argmax(power * (multiple - 1)))
    return {"k_s": float(multiple[place]), "P_motor": float(power[place])}


def _surge(v):
    """Read the start by the largest multiple of the list, whichever motor it belongs to."""
    multiple = float(np.max(v["start_by_row_factor"]))
    motor = v["start_extra_w"] / (multiple - 1)
    return {"k_s": multiple, "P_motor": motor, "P_other": v["peak_w"] - motor}


def _start_on_running(v):
    motor = _hardest(v)
    return motor | {"P_other": v["peak_w"] + v["start_extra_w"] - motor["k_s"] * motor["P_motor"]}


def _start_alone(v):
    """What a start adds is the motor's start without its own running power, which the sources have in the rest."""
    motor = _hardest(v)
    return motor | {"P_other": -motor["P_motor"]}


def _hot(v):
    return {
        "P_rated": v["inverter_rated_w"],
        "d_hot": v["inverter_derate_per_k"],
        "T_hot": v["air_hot_c"],
        "T_rated": v["inverter_temp_rated_c"],
    }


BY_LINE = {
    "peak_w": Reading(_watts),
    "peak_va": Reading(_volt_amps),
    "inverter_needed_w": Reading(lambda v: {"P1": v["peak_w"], "P2": 0, "P3": 0, "m": v["inverter_margin_factor"] - 1}),
    "surge_w": Reading(_surge),
    "start_extra_w": Reading(_start_alone),
    "motor_input_w": Reading(lambda v: {"hp": v["shaft_hp"], "eta_m": v["motor_eff_frac"]}),
    "inverter_hot_w": Reading(_hot),
    "inverter_for_heat_w": Reading(lambda v: {"P_real": v["peak_w"], "f_hot": v["inverter_heat_frac"]}),
}
BY_MISTAKE = {"IN-08": Reading(_start_on_running), "IN-21": Reading(_one_of_each)}
