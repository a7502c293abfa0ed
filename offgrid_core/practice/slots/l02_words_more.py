"""What the problems of the lesson on the bank's voltage share: words of inputs, mistakes in focus, hints."""

from offgrid_core.sizing import BANK_1013
from offgrid_core.worksheet import Sheet

WORDS = {
    "energy_day_wh": "energy a day",
    "day_ah": "amp-hours a day",
    "inverter_low_v": "lowest working voltage",
    "inverter_input_a": "current into the inverter then",
    "outlet_v": "voltage of the sockets",
    "bank_cold_wh": "energy on the label",
    "bank_ah": "amp-hours that may be used",
    "cable_lost_w": "power lost in the cable",
    "raised_lost_w": "power lost at the higher voltage",
    "current_wanted_a": "most current wanted",
    "voltage_suggested_v": "bank voltage, of the three",
}
DAY_AH = Sheet(BANK_1013["day_ah"])
RUNNING = Sheet(BANK_1013["running_current_a"])
CURRENT = ("BV-02", "BV-03", "BV-04", "BV-05")
AMP_HOURS = ("BV-07", "BV-08", "BV-09", "BV-10")
LOSS = ("BV-11", "BV-12")
CHOICE = ("BV-03", "BV-04", "BV-13")
LOW = "On which side of the inverter is this current, and how low may the battery be by then?"
SAME_ENERGY = "If the volts are doubled, how many amp-hours hold the same energy?"
SQUARE = "What becomes of the current, and of the current times itself?"
TOGETHER = "Which power leaves the bank when all of it runs, and how many volts share it?"
