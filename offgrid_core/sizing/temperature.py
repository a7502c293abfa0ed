"""Temperatures at the battery: from one scale to the other, and what a bank gives in the cold.

A temperature and a *difference* of temperatures are converted differently: only a temperature has an offset.
"""

from offgrid_core.worksheet import Sheet, line


@line("coldest battery temperature", standing="physics", source="0 °C is 32 °F, and 5 K are 9 °F steps")
def battery_temp_c(reading_fahrenheit):
    return (reading_fahrenheit - 32) * 5 / 9


@line("temperature difference", standing="physics", source="5 K are 9 °F steps; a difference has no offset")
def temp_rise_k(swing_fahrenheit):
    return swing_fahrenheit * 5 / 9


@line("what the bank gives in the cold", standing="physics")
def cold_gives_ah(bank_ah, kept_frac):
    return bank_ah * kept_frac


#: From degrees Fahrenheit, as read on a thermometer, to what the worksheets use.
FAHRENHEIT = Sheet(battery_temp_c, temp_rise_k)
