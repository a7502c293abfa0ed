"""The array by amp-hours: strings of modules whose *current* must bring the day's charge.

The older of the two forms, and the one for direct controllers, which hold a module at the battery's voltage: what
counts there is the module's working current and not its watts.
"""

from offgrid_core.worksheet import Sheet, larger, line, up

_1562 = "IEEE Std 1562 ampere-hour form, from memory"


@line("load in the design month, in amp-hours", standing="physics")
def design_load_ah(design_load_wh, bank_voltage_v):
    return design_load_wh / bank_voltage_v


@line("module strings that the amp-hours ask for, before rounding", standing="standard", source=_1562)
def strings_asked_ratio(design_load_ah, array_load_ratio, losses_kept_frac, design_sun_h, module_imp_a):
    return design_load_ah * array_load_ratio / (losses_kept_frac * design_sun_h * module_imp_a)


@line("module strings by amp-hours", standing="standard", source=_1562)
def strings_by_ah_count(strings_asked_ratio):
    return larger(1, up(strings_asked_ratio))


@line(
    "power by a tracking controller over that by a direct one",
    standing="physics",
    source="held below its working voltage a module gives nearly its short-circuit current; before the converter's "
    "own loss, cells at 25 °C, battery at its nominal volts",
)
def tracking_gain_ratio(module_w, modules_in_series_count, bank_voltage_v, module_isc_a):
    return larger(1, module_w * modules_in_series_count / (bank_voltage_v * module_isc_a))


#: From the design month's load and sun to the strings that a direct controller needs, and what tracking would gain.
ARRAY_BY_AH = Sheet(design_load_ah, strings_asked_ratio, strings_by_ah_count, tracking_gain_ratio)
