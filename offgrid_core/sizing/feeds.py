"""What every hour of a year feeds into the balance: sun through array and controller, loads through the inverter.

The monthly rules of the array are said again of the hour, where they are the same rule; only what the monthly form
leaves out on purpose is written anew: an hour is credited for cool cells, a month is not.
"""

from offgrid_core.sizing.array import cell_temp_by_month_c
from offgrid_core.sizing.bank import kept_frac
from offgrid_core.sizing.efficiency import loss_by_hour_w
from offgrid_core.sizing.temperature import room_share_frac
from offgrid_core.worksheet import Sheet, Stepper, at_least, larger, line, smaller

_STORE = "one store of heat that follows its surroundings; the bank's own warmth is left out"

cell_by_hour_c = cell_temp_by_month_c.renamed(
    "cell_by_hour_c",
    "cell temperature, hour by hour",
    air_temp_by_month_c="air_by_hour_c",
    working_sun_kw_m2="plane_by_hour_kw_m2",
)


@line("share of module power kept in the heat, hour by hour", standing="physics", source="above 1 when cool")
def heat_kept_by_hour_frac(power_temp_per_k, cell_by_hour_c):
    return larger(0, 1 + power_temp_per_k * (cell_by_hour_c - 25))


@line("hours of full power that an hour brings, after all losses", standing="physics")
def yield_by_hour_h(
    plane_by_hour_kw_m2,
    full_sun_kw_m2,
    shade_by_hour_frac,
    losses_kept_frac,
    heat_kept_by_hour_frac,
    converter_kept_frac,
):
    return (
        plane_by_hour_kw_m2
        / full_sun_kw_m2
        * shade_by_hour_frac
        * losses_kept_frac
        * heat_kept_by_hour_frac
        * converter_kept_frac
    )


@line(
    "share of the season's use on this day of the week",
    standing="classroom approximation, no source",
    source="the days of use come together, as in the busiest run",
)
def season_today_by_row_frac(season_by_row_frac, week_by_row_days, weekday_days):
    return season_by_row_frac * smaller(1, larger(0, week_by_row_days - weekday_days))


@line(
    "mean AC power, hour by hour", standing="maker's data wanted", source="the inverter gives no more than its rating"
)
def ac_by_hour_w(ac_asked_by_hour_w, growth_factor, inverter_rated_w):
    return smaller(ac_asked_by_hour_w * growth_factor, inverter_rated_w)


@line("AC power beyond the inverter's rating, hour by hour", standing="physics")
def ac_short_by_hour_w(ac_asked_by_hour_w, growth_factor, ac_by_hour_w):
    return ac_asked_by_hour_w * growth_factor - ac_by_hour_w


@line("DC energy at the bank, hour by hour", standing="physics")
def dc_by_hour_wh(dc_asked_by_hour_w, growth_factor, dc_wiring_eff_frac):
    return dc_asked_by_hour_w * growth_factor / dc_wiring_eff_frac


@line(
    "energy the loads want of the bank, hour by hour", standing="physics", source="AC through the inverter's own curve"
)
def wanted_by_hour_wh(ac_by_hour_w, loss_by_hour_w, dc_by_hour_wh):
    return ac_by_hour_w + loss_by_hour_w + dc_by_hour_wh


@line(
    "surroundings of the bank, hour by hour",
    standing="classroom approximation, no source",
    source="the room beside it is never colder than stated, and as warm as the air in summer",
)
def surround_by_hour_c(air_by_hour_c, room_share_frac, room_temp_c):
    return air_by_hour_c + room_share_frac * larger(0, room_temp_c - air_by_hour_c)


@line("bank an hour later", standing="physics", source=_STORE)
def warmth_end_c(warmth_c, surround_c, battery_lag_h):
    return warmth_c + (surround_c - warmth_c) / (battery_lag_h + 1)


@line(
    "battery temperature, hour by hour",
    standing="classroom approximation, no source",
    source="within the table of capacity",
)
def battery_by_hour_c(warmth_by_hour_c, table_coldest_c, table_warmest_c):
    return larger(table_coldest_c, smaller(warmth_by_hour_c, table_warmest_c))


kept_by_hour_frac = kept_frac.renamed(
    "kept_by_hour_frac", "share of the label kept in the cold, hour by hour", battery_temp_c="battery_by_hour_c"
)


@line("whether the bank is warm enough to charge, hour by hour, 1 for yes", standing="maker's data wanted")
def may_charge_by_hour_frac(battery_by_hour_c, charge_temp_min_c):
    return at_least(battery_by_hour_c, charge_temp_min_c)


@line("most energy the controllers pass in an hour", standing="maker's data wanted")
def controller_hour_wh(controllers_count, controller_rated_a, bank_voltage_v):
    return controllers_count * controller_rated_a * bank_voltage_v


@line("most energy put into store in an hour", standing="maker's data wanted")
def charge_most_wh(bank_wh, charge_rate_max_per_h, charge_eff_frac):
    return bank_wh * charge_rate_max_per_h * charge_eff_frac


@line("self-discharge in an hour", standing="maker's data wanted", source="730 hours in a month")
def leak_frac(self_discharge_frac):
    return self_discharge_frac / 730


@line("most energy the generator's charger brings in an hour", standing="physics")
def charger_hour_wh(charger_dc_w):
    return charger_dc_w


#: What each watt of array brings, hour by hour.
SUN_FEED = Sheet(cell_by_hour_c, heat_kept_by_hour_frac, yield_by_hour_h)
#: The same behind a direct controller, which holds the modules at the voltage of the bank.
DIRECT_SUN_FEED = SUN_FEED.written(
    heat_kept_by_hour_frac="smaller(1, larger(0, 1 + power_temp_per_k * (cell_by_hour_c - 25)) / converter_kept_frac)"
)
#: What of the loads list runs on a day of the week, counted from 0.
TODAY = Sheet(season_today_by_row_frac)
#: What the loads want, AC and DC; and DC alone.
LOAD_FEED = Sheet(ac_by_hour_w, ac_short_by_hour_w, loss_by_hour_w, dc_by_hour_wh, wanted_by_hour_wh)
DC_LOAD_FEED = Sheet(dc_by_hour_wh, wanted_by_hour_wh.with_expression("dc_by_hour_wh"))
#: Surroundings of a bank in an enclosure; without one it stands in the open air.
ENCLOSED = Sheet(room_share_frac, surround_by_hour_c)
#: What the temperature of the bank does to it. A plan without an enclosure says itself how cold the bank gets at most.
BANK_FEED = Sheet(battery_by_hour_c, kept_by_hour_frac, may_charge_by_hour_frac)
STATED_BANK_FEED = BANK_FEED.written(
    battery_by_hour_c="larger(battery_temp_c, table_coldest_c, smaller(warmth_by_hour_c, table_warmest_c))"
)
#: What holds in every hour.
STEADY = Sheet(controller_hour_wh, charge_most_wh, leak_frac)
#: Where a generator charges too.
CHARGER = Sheet(charger_hour_wh)
#: The warmth of the bank from one hour to the next.
WARMTH = Sheet(warmth_end_c)


def warmth() -> Stepper:
    """Return what carries the warmth of the bank from hour to hour."""
    return Stepper(WARMTH, {"warmth_c": "warmth_end_c"}, ["surround_c"])
