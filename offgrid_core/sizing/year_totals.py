"""What a year comes to: sums over its hours, the share of the load that was lost, and where the energy went."""

from typing import Any

import numpy as np

from offgrid_core.sizing.hourly_sun import MONTH_DAYS
from offgrid_core.worksheet import Line, Sheet, at_least, larger, largest_of, line, smallest_of, sum_of


def _sum(name: str, label: str, of: str) -> Line:
    """Return the line that adds up one quantity over the hours."""
    return wanted_year_wh.renamed(name, label, wanted_by_hour_wh=of)


@line("energy the loads wanted of the bank in the year", standing="physics")
def wanted_year_wh(wanted_by_hour_wh):
    return sum_of(wanted_by_hour_wh)


unserved_year_wh = _sum("unserved_year_wh", "energy not served in the year", "unserved_by_hour_wh")
met_year_wh = _sum("met_year_wh", "energy the bank's side gave the loads in the year", "served_by_hour_wh")
array_year_wh = _sum("array_year_wh", "energy the array could pass on in the year", "array_offer_by_hour_wh")
clipped_year_wh = _sum("clipped_year_wh", "energy cut by the controllers in the year", "clipped_by_hour_wh")
spilled_year_wh = _sum("spilled_year_wh", "energy spilled in the year", "spilled_by_hour_wh")
charge_loss_year_wh = _sum("charge_loss_year_wh", "energy lost in charging in the year", "charge_loss_by_hour_wh")
leak_year_wh = _sum("leak_year_wh", "energy lost to self-discharge in the year", "leak_by_hour_wh")
drawn_year_wh = _sum("drawn_year_wh", "energy drawn from the bank in the year", "drawn_by_hour_wh")
stored_year_wh = _sum("stored_year_wh", "energy put into store in the year", "stored_by_hour_wh")
surplus_year_wh = _sum("surplus_year_wh", "energy left after the loads in the year", "surplus_by_hour_wh")


@line("energy lost in the inverter in the year", standing="physics", source="while the loads are connected")
def inverter_lost_year_wh(loss_by_hour_w, connected_by_hour_frac):
    return sum_of(loss_by_hour_w * connected_by_hour_frac)


@line("energy lost in the wiring of the DC loads in the year", standing="common practice, no source")
def dc_lost_year_wh(dc_by_hour_wh, connected_by_hour_frac, dc_wiring_eff_frac):
    return sum_of(dc_by_hour_wh * connected_by_hour_frac) * (1 - dc_wiring_eff_frac)


@line("energy served in the year", standing="physics", source="after inverter and wiring")
def served_year_wh(met_year_wh, inverter_lost_year_wh, dc_lost_year_wh):
    return met_year_wh - inverter_lost_year_wh - dc_lost_year_wh


@line("least energy served by any design, as a share of the most", standing="physics")
def served_least_frac(served_by_row_wh):
    return smallest_of(served_by_row_wh) / larger(1, largest_of(served_by_row_wh))


overload_year_wh = _sum(
    "overload_year_wh", "AC energy asked for beyond the inverter's rating in the year", "ac_short_by_hour_w"
)


@line(
    "share of the load lost, by energy", standing="standard", source="loss-of-load probability, Egido and Lorenzo 1992"
)
def loss_energy_frac(unserved_year_wh, wanted_year_wh):
    return unserved_year_wh / wanted_year_wh


@line("hours in which the load fell short", standing="physics", source="a thousandth of a watt-hour is not counted")
def short_year_h(unserved_by_hour_wh):
    return sum_of(at_least(unserved_by_hour_wh, 0.001))


@line("share of the hours in which the load fell short", standing="physics")
def loss_hours_frac(short_year_h, hours_year_h):
    return short_year_h / hours_year_h


@line("charge as a share of the label, hour by hour", standing="physics")
def charge_by_hour_frac(store_by_hour_wh, bank_wh):
    return store_by_hour_wh / bank_wh


@line("lowest charge of the year", standing="physics")
def lowest_charge_frac(charge_by_hour_frac):
    return smallest_of(charge_by_hour_frac)


@line("share of the array's energy spilled or cut", standing="physics")
def spilled_frac(spilled_year_wh, clipped_year_wh, array_year_wh):
    return (spilled_year_wh + clipped_year_wh) / array_year_wh


@line("energy through the system on a mean day", standing="physics")
def through_day_wh(array_year_wh, wanted_year_wh, hours_year_h):
    return (array_year_wh + wanted_year_wh) * 24 / hours_year_h


@line(
    "energy of the worst hour that does not add up, as a share of a day's",
    standing="physics",
    source="nothing but rounding: what comes in goes out, is lost or is stored",
)
def residual_frac(residual_by_hour_wh, through_day_wh):
    return larger(largest_of(residual_by_hour_wh), -smallest_of(residual_by_hour_wh)) / through_day_wh


@line("energy of a year spilled, from its sums", standing="physics")
def spilled_sum_wh(surplus_year_wh, stored_year_wh, charge_eff_frac):
    return surplus_year_wh - stored_year_wh / charge_eff_frac


@line("energy of a year given to the loads, from its sums", standing="physics")
def met_sum_wh(wanted_year_wh, unserved_year_wh):
    return wanted_year_wh - unserved_year_wh


@line("hours the generator ran in the year", standing="physics")
def generator_ran_h(running_by_hour_frac):
    return sum_of(running_by_hour_frac)


generator_year_wh = _sum(
    "generator_year_wh", "energy the generator brings to the bank in a year", "generator_in_by_hour_wh"
)


@line("fuel of the simulated year", standing="maker's data wanted", source="a part for every hour, a part for the work")
def generator_fuel_l(
    fuel_size_l_kwh, generator_rated_w, generator_ran_h, fuel_work_l_kwh, generator_year_wh, charger_eff_frac
):
    return (
        fuel_size_l_kwh * generator_rated_w * generator_ran_h + fuel_work_l_kwh * generator_year_wh / charger_eff_frac
    ) / 1000


@line("energy that the store grew by in the year", standing="physics", source="below 0 where it ended emptier")
def store_grown_year_wh(store_end_by_hour_wh, store_by_hour_wh):
    return sum_of(store_end_by_hour_wh - store_by_hour_wh)


@line("energy that came in in the year", standing="physics", source="from the array")
def came_year_wh(array_year_wh):
    return array_year_wh


@line("share of the energy that came in", standing="physics")
def place_by_row_frac(place_by_row_wh, came_year_wh):
    return place_by_row_wh / came_year_wh


@line(
    "days of the hardest day's energy that the bank gave at most",
    standing="physics",
    source="the lowest charge of the year against the hand method's day",
)
def autonomy_used_days(bank_wh, lowest_charge_frac, energy_day_wh):
    return bank_wh * (1 - lowest_charge_frac) / energy_day_wh


def month_sums_wh(by_hour_wh: Any) -> np.ndarray:
    """Return the sums of the twelve months, Wh, shape (…, 12), from 8760 hours of Wh along the last axis."""
    starts = np.concatenate([[0], np.cumsum(MONTH_DAYS)[:-1]]) * 24
    return np.asarray(np.add.reduceat(by_hour_wh, starts, axis=-1))


def a_year_by_depth(depths_frac: Any, amounts: Any, counted_years: float, edges_frac: Any) -> np.ndarray:
    """Return what counted cycles come to in a year, by their depth.

    Parameters
    ----------
    depths_frac, amounts
        Depth of each cycle, and what is added up: how many of it there were, or the share of the life it cost.
    counted_years
        Years in which they were counted.
    edges_frac
        Depths between which the cycles are put together, rising; the last one belongs to the last group.
    """
    return np.asarray(np.histogram(depths_frac, edges_frac, weights=amounts)[0] / counted_years)


#: Charge of the hours.
CHARGE = Sheet(charge_by_hour_frac)
#: Whether designs serve about the same energy; below this share of the most their costs are not ranked (our choice).
SERVED_ALIKE, SERVED_LEAST_FRAC = Sheet(served_least_frac), 0.9
_ENERGY = Sheet(wanted_year_wh, unserved_year_wh, met_year_wh, array_year_wh, clipped_year_wh, spilled_year_wh)
_LOST = Sheet(charge_loss_year_wh, leak_year_wh, drawn_year_wh, store_grown_year_wh)
_JUDGED = Sheet(
    short_year_h, loss_hours_frac, loss_energy_frac, lowest_charge_frac, spilled_frac, through_day_wh, residual_frac
)
#: A year with an inverter; without one; and what a generator adds.
YEAR = _ENERGY + _LOST + Sheet(dc_lost_year_wh, inverter_lost_year_wh, served_year_wh, overload_year_wh) + _JUDGED
DC_YEAR = (
    _ENERGY + _LOST + Sheet(dc_lost_year_wh, served_year_wh.with_expression("met_year_wh - dc_lost_year_wh")) + _JUDGED
)
GENERATOR_YEAR = Sheet(generator_ran_h, generator_year_wh, generator_fuel_l)
#: What came in, from the array alone or from the generator too; and where of it each part went.
CAME = Sheet(came_year_wh, place_by_row_frac)
CAME_WITH_GENERATOR = CAME.written(came_year_wh="array_year_wh + generator_year_wh")
#: The dull spells of the years in the hand method's measure.
BESIDE_AUTONOMY = Sheet(autonomy_used_days)
#: What a sweep of many designs adds up, by line of the hour.
SWEPT = {
    "unserved_wh": "unserved_year_wh",
    "drawn_wh": "drawn_year_wh",
    "surplus_wh": "surplus_year_wh",
    "stored_wh": "stored_year_wh",
}
SWEPT_WITH_GENERATOR = {**SWEPT, "running_frac": "generator_ran_h", "generator_in_wh": "generator_year_wh"}
#: The share lost, alone.
LOST = Sheet(loss_energy_frac)
#: What its sums come to.
SWEPT_YEAR = Sheet(loss_energy_frac, spilled_sum_wh, met_sum_wh)
SWEPT_GENERATOR_YEAR = Sheet(generator_fuel_l)
