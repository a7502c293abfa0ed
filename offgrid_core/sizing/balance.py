"""One hour of the whole system: what the array brings, what the loads take, and what the bank does about it.

The loads are met first, the rest charges the bank, and what the bank cannot take is spilled. Charge is counted as
energy that the bank can still give, so all its losses are met while charging. Full is full in the cold as well; the
cold only brings the cut-off sooner. The lines are worked for every hour of a year by
:class:`offgrid_core.worksheet.Stepper`: the hour ends with the charge and the switch that the next hour begins with.
"""

from offgrid_core.worksheet import Sheet, Stepper, at_least, larger, line, smaller

_TAPER = "a bank nearly full takes a share of what it lacks each hour; real taper follows the charger's voltage"


@line("energy the array could pass on", standing="physics", source="an hour's mean watts are its watt-hours")
def array_offer_wh(array_w, yield_h):
    return array_w * yield_h


@line("energy from the array", standing="maker's data wanted", source="the controllers cut what is above their rating")
def array_in_wh(array_offer_wh, controller_hour_wh):
    return smaller(array_offer_wh, controller_hour_wh)


@line(
    "charge at which the loads are cut off",
    standing="classroom approximation, no source",
    source="the depth limit, sooner in the cold",
)
def floor_wh(bank_wh, depth_frac, kept_now_frac):
    return bank_wh * (1 - depth_frac * kept_now_frac)


@line("energy the connected loads ask for", standing="physics")
def demand_wh(wanted_wh, connected_frac):
    return wanted_wh * connected_frac


@line("share of the missing charge it takes in an hour", standing="classroom approximation, no source")
def taper_now_frac(taper_frac, may_charge_frac):
    return taper_frac * may_charge_frac


@line("charge missing from full", standing="physics")
def lack_wh(bank_wh, store_wh):
    return larger(0, bank_wh - store_wh)


@line("energy the bank can take", standing="classroom approximation, no source", source=_TAPER)
def room_wh(charge_most_wh, lack_wh, taper_now_frac):
    return smaller(charge_most_wh, lack_wh * taper_now_frac)


@line("energy from array and generator", standing="physics")
def supply_wh(array_in_wh):
    return array_in_wh


@line("supply less demand", standing="physics")
def net_wh(supply_wh, demand_wh):
    return supply_wh - demand_wh


@line("energy left after the loads", standing="physics")
def surplus_wh(net_wh):
    return larger(0, net_wh)


@line("energy the loads still ask for", standing="physics")
def deficit_wh(surplus_wh, net_wh):
    return surplus_wh - net_wh


@line("energy put into store", standing="physics")
def stored_wh(surplus_wh, charge_eff_frac, room_wh):
    return smaller(surplus_wh * charge_eff_frac, room_wh)


@line("energy the bank can give", standing="physics", source="down to the cut-off and no further")
def available_wh(store_wh, floor_wh):
    return larger(0, store_wh - floor_wh)


@line("energy drawn from the bank", standing="physics")
def drawn_wh(deficit_wh, available_wh):
    return smaller(deficit_wh, available_wh)


@line("charge left beside the new", standing="physics")
def left_wh(store_wh, drawn_wh):
    return store_wh - drawn_wh


@line("energy lost to self-discharge", standing="maker's data wanted")
def leak_wh(left_wh, leak_frac):
    return left_wh * leak_frac


@line("charge at the end of the hour", standing="physics")
def store_end_wh(left_wh, stored_wh, leak_wh):
    return left_wh + stored_wh - leak_wh


@line(
    "charge at which the loads come back",
    standing="maker's data wanted",
    source="a share of what the bank can give, above the cut-off: no chatter",
)
def reconnect_wh(bank_wh, depth_frac, kept_now_frac, reconnect_frac):
    return bank_wh * (1 - depth_frac * kept_now_frac * (1 - reconnect_frac))


@line("loads connected at the end of the hour, 1 for yes", standing="physics", source="cut off when they fell short")
def connected_end_frac(store_end_wh, reconnect_wh, connected_frac, drawn_wh, deficit_wh):
    return larger(at_least(store_end_wh, reconnect_wh), connected_frac * at_least(drawn_wh, deficit_wh))


@line("energy served", standing="physics")
def served_wh(demand_wh, deficit_wh, drawn_wh):
    return demand_wh - (deficit_wh - drawn_wh)


@line("energy not served", standing="physics")
def unserved_wh(wanted_wh, served_wh):
    return wanted_wh - served_wh


@line("energy cut by the controllers", standing="physics")
def clipped_wh(array_offer_wh, array_in_wh):
    return array_offer_wh - array_in_wh


@line("energy spilled, the bank being full", standing="physics")
def spilled_wh(surplus_wh, stored_wh, charge_eff_frac):
    return surplus_wh - stored_wh / charge_eff_frac


@line("energy lost in charging", standing="physics")
def charge_loss_wh(stored_wh, charge_eff_frac):
    return stored_wh / charge_eff_frac - stored_wh


@line("energy gone after the loads", standing="physics")
def gone_wh(spilled_wh, charge_loss_wh, leak_wh):
    return spilled_wh + charge_loss_wh + leak_wh


@line("energy that does not add up", standing="physics", source="nothing: what comes in goes out, is lost or is stored")
def residual_wh(supply_wh, served_wh, gone_wh, store_end_wh, store_wh):
    return supply_wh - served_wh - gone_wh - (store_end_wh - store_wh)


@line(
    "generator running, 1 for yes",
    standing="common practice, no source",
    source="from the start level to the stop level, and never for less than the least run",
)
def running_frac(store_wh, generator_start_wh, generator_stop_wh, was_running_frac, run_h, run_least_h):
    return larger(
        at_least(generator_start_wh, store_wh),
        was_running_frac * larger(1 - at_least(store_wh, generator_stop_wh), 1 - at_least(run_h, run_least_h)),
    )


@line("hours of this run at the end of the hour", standing="physics")
def run_end_h(running_frac, run_h):
    return running_frac * (run_h + 1)


@line(
    "energy in store at which the generator starts",
    standing="classroom approximation, no source",
    source="sooner in the cold, as the cut-off is: both go by voltage",
)
def generator_start_wh(bank_wh, generator_start_frac, kept_now_frac):
    return bank_wh * (1 - (1 - generator_start_frac) * kept_now_frac)


@line("energy in store at which the generator stops", standing="common practice, no source")
def generator_stop_wh(bank_wh, generator_stop_frac):
    return bank_wh * generator_stop_frac


@line(
    "energy from the generator's charger",
    standing="physics",
    source="what its charger can bring, and no more than loads and bank take beside the array",
)
def generator_in_wh(running_frac, charger_hour_wh, demand_wh, room_wh, charge_eff_frac, array_in_wh):
    return running_frac * smaller(charger_hour_wh, larger(0, demand_wh + room_wh / charge_eff_frac - array_in_wh))


_ARRAY = Sheet(array_offer_wh, array_in_wh, floor_wh)
_ROOM = Sheet(taper_now_frac, lack_wh, room_wh)
_AFTER = Sheet(
    net_wh,
    surplus_wh,
    deficit_wh,
    stored_wh,
    available_wh,
    drawn_wh,
    left_wh,
    leak_wh,
    store_end_wh,
    reconnect_wh,
    connected_end_frac,
    served_wh,
    unserved_wh,
    clipped_wh,
    spilled_wh,
    charge_loss_wh,
    gone_wh,
    residual_wh,
)
#: One hour without a generator.
HOUR = _ARRAY + Sheet(demand_wh) + _ROOM + Sheet(supply_wh) + _AFTER
#: One hour with a generator. While it runs the loads are fed, whatever the bank's cut-off says.
HOUR_WITH_GENERATOR = (
    _ARRAY
    + Sheet(generator_start_wh, generator_stop_wh, running_frac, run_end_h)
    + Sheet(demand_wh.with_expression("wanted_wh * larger(connected_frac, running_frac)"))
    + _ROOM
    + Sheet(generator_in_wh, supply_wh.with_expression("array_in_wh + generator_in_wh"))
    + _AFTER
)
#: What every hour is given anew.
FEEDS = ("yield_h", "wanted_wh", "kept_now_frac", "may_charge_frac")
_CARRIED = {"store_wh": "store_end_wh", "connected_frac": "connected_end_frac"}


def stepper(sheet: Sheet = HOUR) -> Stepper:
    """Return what works an hour's worksheet hour after hour: a shared one, or one with a line written otherwise."""
    generator = {"was_running_frac": "running_frac", "run_h": "run_end_h"} if "running_frac" in sheet else {}
    return Stepper(sheet, {**_CARRIED, **generator}, FEEDS)
