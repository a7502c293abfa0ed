"""What stands before the circuits table on paper: the two margins on a current, a plan in feet, a gauge's area.

The margins are those of a named code setting, each with its own reason: bright sun, which acts on the array only, and
hours on end. Where a code does not ask for one of them it is 1.
"""

from offgrid_core.worksheet import Sheet, line


@line(
    "current factor of the code setting",
    standing="standard",
    source="NEC 690.8(A) and (B): on the array both factors count, elsewhere only the one for hours on end",
)
def current_by_row_factor(on_array_by_row_frac, bright_sun_factor, steady_factor):
    return steady_factor * (1 + on_array_by_row_frac * (bright_sun_factor - 1))


@line("length one way", standing="physics", source="1 ft is 0.3048 m")
def length_by_row_m(feet_by_row_count):
    return feet_by_row_count * 0.3048


@line("area of the wire", standing="standard", source="the gauge table of the code setting; ASTM B258")
def gauge_mm2(area_of_gauge, gauge_count):
    return area_of_gauge(gauge_count)


#: From the two margins of a code setting to the factor on a circuit's current.
CURRENT_FACTOR = Sheet(current_by_row_factor)
#: From a plan drawn in feet.
PLAN_IN_FEET = Sheet(length_by_row_m)
#: From a gauge number to copper.
GAUGE = Sheet(gauge_mm2)
