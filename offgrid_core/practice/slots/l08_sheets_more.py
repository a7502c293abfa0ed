"""What the problems of the controller lesson share: worksheets, words, hints and ideas."""

from offgrid_core.sizing.array import ARRAY_LAYOUT, DIRECT_CONVERTER
from offgrid_core.sizing.charging import CONTROLLER, DIRECT_CURRENT, SET_POINTS
from offgrid_core.worksheet import Sheet

#: The coldest morning, and what is left below the controller's limit.
COLD = Sheet(ARRAY_LAYOUT["string_voc_cold_v"], ARRAY_LAYOUT["cold_voltage_margin_v"])
#: The hottest day, and what is left above the volts that charging needs.
HOT = Sheet(ARRAY_LAYOUT["string_vmp_hot_v"], ARRAY_LAYOUT["hot_voltage_margin_v"])
#: How many modules may stand in a row: at most, and at least.
SPAN = Sheet(SET_POINTS["start_voltage_v"], ARRAY_LAYOUT["series_most_count"], ARRAY_LAYOUT["series_fewest_count"])
#: The current of a tracking controller, and how many are needed for it.
TRACKING = CONTROLLER.upto("controllers_count")
#: The same from the modules on.
FROM_MODULES = Sheet(ARRAY_LAYOUT["modules_count"], ARRAY_LAYOUT["array_w"]) + TRACKING
#: What a direct controller passes on, and its current.
DIRECT = Sheet(DIRECT_CONVERTER, DIRECT_CURRENT, CONTROLLER["controller_needed_a"])
#: One page: from the watts to the controllers, from the set-point to the rows.
PAGE = Sheet(
    *TRACKING.values(),
    *(SET_POINTS[n] for n in ("absorb_set_v", "start_voltage_v")),
    *(ARRAY_LAYOUT[n] for n in ("series_fewest_count", "series_most_count", "string_voc_cold_v")),
)

WORDS = {
    "string_voc_cold_v": "open voltage, coldest morning, whole row",
    "cold_voltage_margin_v": "to spare below the limit (minus: above)",
    "string_vmp_hot_v": "working voltage, hottest day, whole row",
    "hot_voltage_margin_v": "volts to spare above what charging needs",
    "start_voltage_v": "array voltage that charging needs",
    "series_most_count": "most modules in a row",
    "series_fewest_count": "fewest modules in a row",
    "absorb_set_v": "absorption set-point",
    "cells_count": "cells in series",
    "array_w": "array as built",
    "charge_current_a": "charging current at full sun",
    "controller_needed_a": "controller amps needed",
    "controllers_count": "controllers side by side",
    "converter_kept_frac": "share the controller passes on",
    "array_strings_count": "rows side by side",
    "cell_hottest_c": "hottest cell",
}
#: Bright sun beyond the label, as the code settings have it.
BRIGHT = {"controller_factor": 1.25}
WHICH_VOLTS = "Which voltage does the controller meet before any current flows, and on which morning is it highest?"
WINDOW = "On the coldest morning and on the hottest day, does a row of so many still stay inside?"
SIDE = "On which side of the controller is the current that you were asked for?"
PASSES = "At what voltage are the modules held while such a controller charges?"
LINE = "What does this line begin from, and what should happen to it?"
COLD_IDEA = (
    "Cold cells give more volts. Take the open-circuit voltage of the whole row, raise it for every kelvin below "
    "25 °C, and hold it against the controller's limit."
)
WINDOW_IDEA = (
    "The cold morning sets the most modules, and a ceiling is rounded down. The hot day sets the fewest, and a floor "
    "is rounded up."
)
TRACKING_IDEA = (
    "A tracking controller turns spare volts into amps: the battery's side gets the array's watts at the battery's "
    "volts. Bright cloud edges call for room on top."
)
DIRECT_IDEA = (
    "A direct controller passes the modules' own current, row by row, and holds the modules at the battery's voltage. "
    "The volts above it do no work."
)
