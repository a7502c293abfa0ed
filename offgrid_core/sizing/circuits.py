"""Main circuits: fuse, conductor and voltage drop, one value a row of the circuits table (``by_row``).

The fuse protects the wire. So the fuse follows the current, and the wire follows the fuse *and* the allowed
drop, whichever asks for more copper. The drop is over the round trip, at the wire's working temperature.
What lies in series on the array's side shares one allowed drop. All factors and tables come from a named code setting.
Design exercise: local code and a licensed person decide.
"""

from offgrid_core.worksheet import Sheet, larger, limit, line, sum_of, up

_COPPER = "copper: resistance is proportional to 234.5 + temperature in °C"


@line("current to design for", standing="standard", source="continuous and bright-sun factors of the code setting")
def design_current_by_row_a(current_by_row_a, current_by_row_factor):
    return current_by_row_a * current_by_row_factor


@line(
    "grouping factor",
    standing="standard",
    source="grouping table of the code setting: US counts conductors that carry current, IEC counts circuits",
)
def grouping_frac(grouping_table, circuits_together_count, conductors_circuit_count):
    return grouping_table(circuits_together_count * conductors_circuit_count)


@line("way from the modules to the controller", standing="physics", source="module string and array cable in series")
def array_way_m(length_by_row_m, on_array_by_row_frac):
    return sum_of(length_by_row_m * on_array_by_row_frac)


@line("length of the whole way", standing="physics")
def way_by_row_m(on_array_by_row_frac, array_way_m, length_by_row_m):
    return on_array_by_row_frac * array_way_m + (1 - on_array_by_row_frac) * length_by_row_m


@line(
    "voltage drop allowed",
    standing="common practice, no source",
    source="cables in series share it by their lengths, which takes the least copper",
)
def drop_limit_by_row_frac(drop_way_by_row_frac, length_by_row_m, way_by_row_m):
    return drop_way_by_row_frac * length_by_row_m / way_by_row_m


@line("fuse or breaker", standing="standard", source="next standard size up of the code setting")
def fuse_by_row_a(next_fuse, design_current_by_row_a):
    return next_fuse(design_current_by_row_a)


@line("ampacity wanted from the tables", standing="standard", source="fuse ÷ (ambient factor × grouping factor)")
def ampacity_wanted_by_row_a(fuse_by_row_a, ambient_factor, ambient_c, grouping_frac):
    return fuse_by_row_a / (ambient_factor(ambient_c) * grouping_frac)


@line("round-trip resistance allowed, each metre", standing="physics")
def resistance_allowed_by_row_ohm_m(drop_limit_by_row_frac, voltage_by_row_v, length_by_row_m, current_by_row_a):
    return drop_limit_by_row_frac * voltage_by_row_v / (2 * length_by_row_m * current_by_row_a)


@line("the same at the temperature of the table", standing="physics", source=_COPPER)
def resistance_listed_by_row_ohm_m(resistance_allowed_by_row_ohm_m, table_temp_c, wire_temp_c):
    return resistance_allowed_by_row_ohm_m * (234.5 + table_temp_c) / (234.5 + wire_temp_c)


@line(
    "cables for each pole", standing="common practice, no source", source="when the largest single cable is not enough"
)
def cables_by_row_count(
    fuse_by_row_a, ampacity_wanted_by_row_a, ampacity_most_a, resistance_least_ohm_m, resistance_listed_by_row_ohm_m
):
    return larger(
        1,
        up(larger(fuse_by_row_a, ampacity_wanted_by_row_a) / ampacity_most_a),
        up(resistance_least_ohm_m / resistance_listed_by_row_ohm_m),
    )


@line("cable for the ampacity", standing="standard", source="ampacity table of the code setting")
def for_ampacity_by_row_mm2(cable_for_ampacity, ampacity_wanted_by_row_a, cables_by_row_count):
    return cable_for_ampacity(ampacity_wanted_by_row_a / cables_by_row_count)


@line("cable for the drop", standing="standard", source="resistance table of the code setting")
def for_drop_by_row_mm2(cable_for_conductance, resistance_listed_by_row_ohm_m, cables_by_row_count):
    return cable_for_conductance(1 / (resistance_listed_by_row_ohm_m * cables_by_row_count))


@line(
    "cable for the fuse",
    standing="standard",
    source="small conductors have fuse limits of their own, NEC 240.4(D); otherwise the ampacity",
)
def for_fuse_by_row_mm2(cable_for_fuse, fuse_by_row_a, cables_by_row_count):
    return cable_for_fuse(fuse_by_row_a / cables_by_row_count)


@line("cable", standing="physics", source="whichever asks for more copper")
def cable_by_row_mm2(for_ampacity_by_row_mm2, for_drop_by_row_mm2, for_fuse_by_row_mm2):
    return larger(for_ampacity_by_row_mm2, for_drop_by_row_mm2, for_fuse_by_row_mm2)


@line("resistance of that cable at its working temperature, each metre", standing="physics", source=_COPPER)
def resistance_by_row_ohm_m(cable_resistance, cable_by_row_mm2, wire_temp_c, table_temp_c):
    return cable_resistance(cable_by_row_mm2) * (234.5 + wire_temp_c) / (234.5 + table_temp_c)


@line("voltage drop there and back", standing="physics")
def drop_by_row_v(length_by_row_m, current_by_row_a, resistance_by_row_ohm_m, cables_by_row_count):
    return 2 * length_by_row_m * current_by_row_a * resistance_by_row_ohm_m / cables_by_row_count


@line("voltage drop as a share", standing="physics")
def drop_by_row_frac(drop_by_row_v, voltage_by_row_v):
    return drop_by_row_v / voltage_by_row_v


@line("ampacity of the cable as laid", standing="standard", source="table × ambient factor × grouping factor")
def ampacity_by_row_a(cable_ampacity, cable_by_row_mm2, ambient_factor, ambient_c, grouping_frac, cables_by_row_count):
    return cable_ampacity(cable_by_row_mm2) * ambient_factor(ambient_c) * grouping_frac * cables_by_row_count


@limit(
    "fuse against the cable",
    severity="danger",
    mend="choose a thicker cable: a fuse above the cable's ampacity lets the cable burn first",
    standing="standard",
    source="overcurrent protection not above ampacity",
)
def fuse_margin_by_row_a(ampacity_by_row_a, fuse_by_row_a):
    return ampacity_by_row_a - fuse_by_row_a


@limit(
    "fuse against the largest this cable may have",
    severity="danger",
    mend="choose a thicker cable",
    standing="standard",
    source="NEC 240.4(D) for small conductors; otherwise the ampacity",
)
def fuse_limit_margin_by_row_a(cable_fuse_limit, cable_by_row_mm2, cables_by_row_count, fuse_by_row_a):
    return cable_fuse_limit(cable_by_row_mm2) * cables_by_row_count - fuse_by_row_a


@limit(
    "voltage drop against its limit",
    severity="service",
    mend="choose a thicker cable, a shorter run or a higher voltage",
    standing="common practice, no source",
)
def drop_margin_by_row_frac(drop_limit_by_row_frac, drop_by_row_frac):
    return drop_limit_by_row_frac - drop_by_row_frac


@limit(
    "cables side by side",
    severity="service",
    mend="choose a higher bank voltage or move the parts closer together",
    standing="common practice, no source",
    source="more than two cables a pole seldom share the current evenly",
)
def cables_margin_by_row_count(cables_max_count, cables_by_row_count):
    return cables_max_count - cables_by_row_count


@limit(
    "voltage drop of module string and array cable together against its limit",
    severity="service",
    mend="choose a thicker cable for either, a shorter run or more modules in series",
    standing="common practice, no source",
)
def array_drop_margin_frac(array_drop_max_frac, drop_by_row_frac, on_array_by_row_frac):
    return array_drop_max_frac - sum_of(drop_by_row_frac * on_array_by_row_frac)


#: Circuits laid together warm one another; solved before the circuits.
GROUPING = Sheet(grouping_frac)
#: From the current and length of each circuit to fuse, cable and drop.
CIRCUITS = Sheet(
    design_current_by_row_a,
    fuse_by_row_a,
    ampacity_wanted_by_row_a,
    resistance_allowed_by_row_ohm_m,
    resistance_listed_by_row_ohm_m,
    cables_by_row_count,
    for_ampacity_by_row_mm2,
    for_drop_by_row_mm2,
    for_fuse_by_row_mm2,
    cable_by_row_mm2,
    resistance_by_row_ohm_m,
    drop_by_row_v,
    drop_by_row_frac,
    ampacity_by_row_a,
    fuse_margin_by_row_a,
    fuse_limit_margin_by_row_a,
    drop_margin_by_row_frac,
    cables_margin_by_row_count,
)
#: The main circuits of a system: those in series share an allowed drop, and are held to it together.
MAIN_CIRCUITS = (
    GROUPING + Sheet(array_way_m, way_by_row_m, drop_limit_by_row_frac) + CIRCUITS + Sheet(array_drop_margin_frac)
)
#: The leads of the bank itself: their fuses are chosen already, the rest is worked as for any circuit.
BANK_LEADS = CIRCUITS.replace(fuse_by_row_a.with_expression("lead_fuse_by_row_a"))
