"""Temperatures at the battery: from one scale to the other, what a bank gives in the cold, how cold it gets.

A temperature and a *difference* of temperatures are converted differently: only a temperature has an offset.

Battery temperature is not air temperature. The estimate is one store of heat between two airs: heat leaks to the
room and to the open, and the mass of the bank smooths a cold snap. The bank's own warmth is left out: in the sunless
days that size it nothing charges, and hardly anything warms it.
"""

from offgrid_core.worksheet import Sheet, limit, line, smallest_of

_STORE = "one store of heat between two airs, and a cold snap as a sine wave"


@line("coldest battery temperature", standing="physics", source="0 °C is 32 °F, and 5 K are 9 °F steps")
def battery_temp_c(reading_fahrenheit):
    return (reading_fahrenheit - 32) * 5 / 9


@line("temperature difference", standing="physics", source="5 K are 9 °F steps; a difference has no offset")
def temp_rise_k(swing_fahrenheit):
    return swing_fahrenheit * 5 / 9


@line("what the bank gives in the cold", standing="physics")
def cold_gives_ah(bank_ah, kept_frac):
    return bank_ah * kept_frac


@line("mean air of the coldest month", standing="physics")
def air_month_c(air_temp_by_month_c):
    return smallest_of(air_temp_by_month_c)


@line("share of the battery's warmth that comes from the room", standing="physics", source=_STORE)
def room_share_frac(room_leak_w_k, open_leak_w_k):
    return room_leak_w_k / (room_leak_w_k + open_leak_w_k)


@line("hours the battery lags behind the air", standing="physics", source=_STORE)
def battery_lag_h(bank_mass_kg, bank_heat_wh_kg_k, room_leak_w_k, open_leak_w_k):
    return bank_mass_kg * bank_heat_wh_kg_k / (room_leak_w_k + open_leak_w_k)


@line("share of a cold snap that the battery feels", standing="physics", source=_STORE + "; 6.2832 is a full turn")
def snap_felt_frac(battery_lag_h, cold_snap_h):
    return 1 / (1 + (6.2832 * battery_lag_h / cold_snap_h) ** 2) ** 0.5


@line("air of the coldest spell as the battery feels it", standing="classroom approximation, no source")
def air_felt_c(air_month_c, snap_felt_frac, air_coldest_c):
    return air_month_c - snap_felt_frac * (air_month_c - air_coldest_c)


@line("coldest battery temperature estimated", standing="classroom approximation, no source", source=_STORE)
def battery_temp_est_c(air_felt_c, room_share_frac, room_temp_c):
    return air_felt_c + room_share_frac * (room_temp_c - air_felt_c)


@limit(
    "battery temperature estimated against the one assumed",
    severity="service",
    mend="assume a colder battery, insulate its box, or move it nearer to the warm room",
    standing="classroom approximation, no source",
)
def temp_assumed_margin_k(battery_temp_est_c, battery_temp_c):
    return battery_temp_est_c - battery_temp_c


#: From degrees Fahrenheit, as read on a thermometer, to what the worksheets use.
FAHRENHEIT = Sheet(battery_temp_c, temp_rise_k)
#: From air, enclosure and the mass of the bank to the temperature that was assumed when it was sized.
ENCLOSURE = Sheet(
    air_month_c,
    room_share_frac,
    battery_lag_h,
    snap_felt_frac,
    air_felt_c,
    battery_temp_est_c,
    temp_assumed_margin_k,
)
