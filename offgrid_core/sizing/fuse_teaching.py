"""What a fuse lets through: how hot the copper becomes, the heat in the cable, and whether a wire on hand will do.

A fuse carries its own rating for hours and opens only above it, so the wire has to stand that rating. Design exercise:
local code and a licensed person decide.
"""

from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.wire_teaching import GAUGE
from offgrid_core.worksheet import Sheet, limit, line


@line(
    "temperature of the copper with the load",
    standing="classroom approximation, no source",
    source="above the air it rises with the square of the current; tables are for air of 30 °C, and their factors for "
    "other air follow from the same law",
)
def copper_by_row_c(
    ambient_c, wire_temp_c, current_by_row_a, cable_ampacity, cable_by_row_mm2, grouping_frac, cables_by_row_count
):
    return (
        ambient_c
        + (wire_temp_c - 30)
        * (current_by_row_a / (cable_ampacity(cable_by_row_mm2) * grouping_frac * cables_by_row_count)) ** 2
    )


#: The same where the fuse's own rating flows, which it carries for hours.
copper_at_fuse_by_row_c = copper_by_row_c.renamed(
    "copper_at_fuse_by_row_c", "temperature of the copper with the fuse's rating", current_by_row_a="fuse_by_row_a"
)


@line("heat in the cable, there and back, with the fuse's rating", standing="physics", source="Joule's law")
def heat_at_fuse_by_row_w(fuse_by_row_a, length_by_row_m, resistance_by_row_ohm_m, cables_by_row_count):
    return fuse_by_row_a**2 * 2 * length_by_row_m * resistance_by_row_ohm_m / cables_by_row_count


@limit(
    "area of the wire on hand against the area wanted",
    severity="danger",
    mend="take a thicker wire: a lower gauge number",
    standing="standard",
    source="ampacity table of the code setting",
)
def gauge_margin_by_row_mm2(gauge_mm2, for_ampacity_by_row_mm2):
    return gauge_mm2 - for_ampacity_by_row_mm2


@limit(
    "thickness of the wire against what the terminals take",
    severity="service",
    mend="choose terminals for this wire, or two wires for each pole",
    standing="maker's data wanted",
)
def terminal_margin_by_row_mm2(terminal_most_mm2, cable_by_row_mm2):
    return terminal_most_mm2 - cable_by_row_mm2


#: How hot the copper becomes with the load and with the fuse's rating, and the heat of the latter.
COPPER = Sheet(copper_by_row_c, copper_at_fuse_by_row_c, CIRCUITS["resistance_by_row_ohm_m"], heat_at_fuse_by_row_w)
#: A wire on hand, told by its gauge number, against what the fuse asks for.
GAUGE_ON_HAND = Sheet(
    CIRCUITS["ampacity_wanted_by_row_a"],
    CIRCUITS["for_ampacity_by_row_mm2"],
    GAUGE["gauge_mm2"],
    gauge_margin_by_row_mm2,
)
#: Whether the terminals take a wire.
TERMINALS = Sheet(terminal_margin_by_row_mm2)
