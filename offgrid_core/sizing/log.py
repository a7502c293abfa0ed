"""What the meters on the wall show, hour by hour, of a healthy system and of one with a fault.

Every fault is an input that says "nothing wrong" in a healthy system: no string open, no extra load, a meter that
reads true. The balance of an hour is the year's own; only "full" may come sooner, where the controller's set-point is
too low. The battery's voltage is a classroom approximation throughout: a resting voltage, less what the current drops,
and on charge risen towards the set-point by the share of the current that the bank can still take. Float, and the
losses in a bad joint, are left out.
"""

from offgrid_core.sizing.balance import FEEDS, HOUR, HOUR_WITH_GENERATOR, stepper
from offgrid_core.sizing.bank import kept_frac
from offgrid_core.sizing.charging import absorb_set_v
from offgrid_core.sizing.inverter import bank_resistance_ohm
from offgrid_core.sizing.protection import bank_full_v
from offgrid_core.worksheet import Sheet, Stepper, at_least, larger, line, smaller

_METER = "with the noise of the meter"


# ---- what a fault does to the feeds of an hour


@line("share lost to dirt since the last rain", standing="classroom approximation, no source", source="grows evenly")
def dirt_frac(dirt_per_h, dry_h):
    return smaller(1, dirt_per_h * dry_h)


@line("hours of full power that the hour brings", standing="physics", source="less what open strings, shade, dirt take")
def yield_h(clean_yield_h, open_count, array_strings_count, shaded_frac, dirt_frac):
    return clean_yield_h * larger(0, 1 - open_count / array_strings_count) * (1 - shaded_frac) * (1 - dirt_frac)


@line("power of a load that nobody listed", standing="physics", source="a share of the day's mean power")
def unlisted_w(unlisted_frac, energy_day_wh):
    return unlisted_frac * energy_day_wh / 24


@line(
    "extra power of an inverter that never sleeps", standing="physics", source="idle in the hours it was to be off too"
)
def sleepless_w(sleepless_frac, inverter_idle_w, inverter_on_h):
    return sleepless_frac * inverter_idle_w * (24 - inverter_on_h) / 24


@line("energy the loads want of the bank", standing="physics")
def wanted_wh(listed_wanted_wh, unlisted_w, sleepless_w):
    return listed_wanted_wh + unlisted_w + sleepless_w


@line("battery temperature now", standing="physics", source="a frozen spell takes it below the coldest for charging")
def bank_now_c(warm_now_c, frozen_frac, charge_temp_min_c, frozen_below_k):
    return warm_now_c + frozen_frac * (smaller(warm_now_c, charge_temp_min_c - frozen_below_k) - warm_now_c)


kept_now_frac = kept_frac.renamed(
    "kept_now_frac", "share of the label kept in the cold now", battery_temp_c="bank_now_c"
)


@line("whether the bank is warm enough to charge, 1 for yes", standing="maker's data wanted")
def may_charge_frac(bank_now_c, charge_temp_min_c):
    return at_least(bank_now_c, charge_temp_min_c)


@line("temperature that the sensor reports", standing="physics", source="a stuck sensor reports one value for ever")
def sensed_c(bank_now_c, stuck_frac, stuck_c):
    return bank_now_c + stuck_frac * (stuck_c - bank_now_c)


@line(
    "absorption voltage of one cell as typed in", standing="physics", source="low by a share of its height above rest"
)
def typed_cell_v(absorb_cell_v, typed_low_frac, bank_full_v, cells_count):
    return absorb_cell_v - typed_low_frac * (absorb_cell_v - bank_full_v / cells_count)


right_set_v = absorb_set_v.renamed(
    "right_set_v", "absorption set-point that the bank wants now", battery_temp_c="bank_now_c"
)
used_set_v = absorb_set_v.renamed(
    "used_set_v", "absorption set-point in use now", absorb_cell_v="typed_cell_v", battery_temp_c="sensed_c"
)


@line(
    "share of the label at which charging ends",
    standing="classroom approximation, no source",
    source="as far below full as the set-point is too low, measured from rest to absorption; never below a third",
)
def ends_at_frac(right_set_v, used_set_v, cells_count, absorb_cell_v, bank_full_v):
    return larger(1 / 3, smaller(1, 1 - (right_set_v - used_set_v) / (cells_count * absorb_cell_v - bank_full_v)))


# ---- a weak unit, and what the stretch begins with


@line(
    "energy on the label left by a weak unit",
    standing="classroom approximation, no source",
    source="a string is as large as its weakest unit",
)
def left_bank_wh(bank_wh, weak_frac, strings_count):
    return bank_wh * (1 - weak_frac / strings_count)


@line("capacity left by a weak unit", standing="physics")
def left_bank_ah(left_bank_wh, bank_voltage_v):
    return left_bank_wh / bank_voltage_v


@line("charge that the log begins with", standing="physics", source="the same share of what is left")
def begun_wh(store_wh, bank_wh, left_bank_wh):
    return store_wh / bank_wh * left_bank_wh


# ---- what the meters would show without noise


@line("charge in the middle of the hour", standing="physics")
def charge_now_frac(store_wh, store_end_wh, bank_wh):
    return larger(0, smaller(1, (store_wh + store_end_wh) / 2 / bank_wh))


@line("resting voltage at that charge", standing="common practice, no source")
def rest_now_v(cells_count, cell_rest_voltage, charge_now_frac):
    return cells_count * cell_rest_voltage(charge_now_frac)


@line(
    "share of the current the bank can take that it gets",
    standing="classroom approximation, no source",
    source="at 1 the controller holds the set-point",
)
def push_frac(surplus_wh, charge_eff_frac, room_wh):
    return smaller(1, surplus_wh * charge_eff_frac / larger(0.001, room_wh))


resistance_now_ohm = bank_resistance_ohm.renamed(
    "resistance_now_ohm", "resistance of the bank now", kept_frac="kept_now_frac", bank_ah="left_bank_ah"
)


@line("energy into the bank's terminals", standing="physics", source="negative while it gives")
def terminals_wh(stored_wh, charge_eff_frac, drawn_wh):
    return stored_wh / charge_eff_frac - drawn_wh


@line(
    "voltage at the bank's own terminals",
    standing="classroom approximation, no source",
    source="on charge between rest and the set-point, by the share of the current it can take",
)
def bank_now_v(rest_now_v, push_frac, used_set_v, drawn_wh, bank_voltage_v, resistance_now_ohm):
    return rest_now_v + push_frac * larger(0, used_set_v - rest_now_v) - drawn_wh / bank_voltage_v * resistance_now_ohm


@line(
    "voltage at the controllers and the loads",
    standing="classroom approximation, no source",
    source="beyond a loose lug; the controllers hold their own terminals to the set-point",
)
def bus_now_v(bank_now_v, used_set_v, terminals_wh, bank_voltage_v, lug_ohm):
    return smaller(larger(bank_now_v, used_set_v), bank_now_v + terminals_wh / bank_voltage_v * lug_ohm)


@line("current from the controllers", standing="physics", source="less what they hold back, the bank being full")
def array_now_a(array_in_wh, spilled_wh, bus_now_v):
    return (array_in_wh - spilled_wh) / bus_now_v


@line("current to the loads", standing="physics")
def load_now_a(served_wh, bus_now_v):
    return served_wh / bus_now_v


@line("current into the battery", standing="physics", source="negative while it gives")
def battery_now_a(terminals_wh, bus_now_v):
    return terminals_wh / bus_now_v


# ---- what the meters read


@line("sun on the reference cell", standing="physics", source=_METER)
def sun_read_kw_m2(plane_now_kw_m2, sun_noise_kw_m2):
    return plane_now_kw_m2 + sun_noise_kw_m2


@line("array current read", standing="physics", source=_METER)
def array_read_a(array_now_a, array_meter_factor, array_noise_a):
    return array_now_a * array_meter_factor + array_noise_a


@line("battery voltage read", standing="physics", source=_METER)
def battery_read_v(bus_now_v, voltage_noise_v):
    return bus_now_v + voltage_noise_v


load_read_a = array_read_a.renamed(
    "load_read_a",
    "load current read",
    array_now_a="load_now_a",
    array_meter_factor="load_meter_factor",
    array_noise_a="load_noise_a",
)
battery_read_a = array_read_a.renamed(
    "battery_read_a",
    "battery current read",
    array_now_a="battery_now_a",
    array_meter_factor="battery_meter_factor",
    array_noise_a="battery_noise_a",
)


@line("battery temperature read", standing="physics", source=_METER)
def battery_read_c(sensed_c, sensor_noise_k):
    return sensed_c + sensor_noise_k


@line("loads fed now, 1 for yes", standing="physics", source="while the generator runs it feeds them, cut off or not")
def fed_frac(connected_frac, running_frac):
    return larger(connected_frac, running_frac)


# ---- how wide the noise of each meter is: one standard deviation


@line("noise of the reference cell", standing="classroom approximation, no source")
def sun_width_kw_m2(full_sun_kw_m2):
    return 0.005 * full_sun_kw_m2


@line("noise of the ammeters of array and battery", standing="classroom approximation, no source")
def charge_width_a(charge_current_a):
    return 0.002 * charge_current_a


@line("noise of the voltmeter", standing="classroom approximation, no source")
def voltage_width_v(bank_voltage_v):
    return 0.001 * bank_voltage_v


@line("noise of the ammeter of the loads", standing="classroom approximation, no source")
def load_width_a(energy_day_wh, bank_voltage_v):
    return 0.01 * energy_day_wh / 24 / bank_voltage_v


@line(
    "ohms of a loose lug", standing="classroom approximation, no source", source="by its drop at the charging current"
)
def lug_ohm(lug_drop_frac, bank_voltage_v, charge_current_a):
    return lug_drop_frac * bank_voltage_v / charge_current_a


#: What does not change while a log is kept.
STEADY = Sheet(bank_full_v, typed_cell_v, left_bank_wh, left_bank_ah, begun_wh, lug_ohm)
#: The width of each meter's noise.
WIDTHS = Sheet(sun_width_kw_m2, charge_width_a, voltage_width_v, load_width_a)
#: What each hour of the balance is given, fault and all.
FED = Sheet(
    dirt_frac,
    yield_h,
    unlisted_w,
    sleepless_w,
    wanted_wh,
    bank_now_c,
    kept_now_frac,
    may_charge_frac,
    sensed_c,
    right_set_v,
    used_set_v,
    ends_at_frac,
)
_LACK = {"lack_wh": "larger(0, bank_wh * ends_at_frac - store_wh)"}
#: The balance of an hour in which full may come sooner; without and with a generator.
LOGGED = HOUR.written(**_LACK)
LOGGED_WITH_GENERATOR = HOUR_WITH_GENERATOR.written(**_LACK)
#: What stands on the wall.
READ = Sheet(
    charge_now_frac,
    rest_now_v,
    push_frac,
    resistance_now_ohm,
    terminals_wh,
    bank_now_v,
    bus_now_v,
    array_now_a,
    load_now_a,
    battery_now_a,
    sun_read_kw_m2,
    array_read_a,
    battery_read_v,
    load_read_a,
    battery_read_a,
    battery_read_c,
)
#: The same with a generator.
READ_WITH_GENERATOR = READ + Sheet(fed_frac)
#: What the balance of an hour is given anew.
LOG_FEEDS = (*FEEDS, "ends_at_frac")


def log_stepper(sheet: Sheet) -> Stepper:
    """Return what carries the balance of an hour through a log."""
    return Stepper(sheet, stepper(sheet).carried, LOG_FEEDS)
