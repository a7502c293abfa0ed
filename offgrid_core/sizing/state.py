"""State of charge of a battery at rest: from its acid or from its voltage; when its acid freezes.

The fuller a lead-acid cell, the stronger its acid. How strong the acid of a *full* cell is comes first: at 1.220 a
vehicle battery is half charged and a deep-cycle battery nearly three quarters. A hydrometer is read with face
shield, apron and gloves on.
"""

from offgrid_core.worksheet import Sheet, largest_of, limit, line, smallest_of


@line(
    "specific gravity at the temperature of the table",
    standing="standard",
    source="US Navy NAVEDTRA 14344: 0.001 more for each 3 °F above, which is 0.0006 for each kelvin",
)
def gravity_ratio(gravity_read_ratio, acid_temp_c, gravity_table_c):
    return gravity_read_ratio + 0.0006 * (acid_temp_c - gravity_table_c)


@line(
    "state of charge by specific gravity",
    standing="standard",
    source="table of the filling: US Army technical manuals, or bands of practice",
)
def charge_by_gravity_frac(charge_of_gravity, gravity_ratio):
    return charge_of_gravity(gravity_ratio)


@line("resting voltage of a cell of that acid", standing="common practice, no source", source="textbook rule, in volts")
def cell_by_gravity_v(gravity_ratio):
    return gravity_ratio + 0.84


@line("resting voltage of a bank of that acid", standing="physics")
def rest_by_gravity_v(cells_count, cell_by_gravity_v):
    return cells_count * cell_by_gravity_v


@line(
    "state of charge by resting voltage",
    standing="common practice, no source",
    source="after hours of rest, near 25 °C; a flat curve, as of LFP, tells little in its middle",
)
def charge_by_voltage_frac(charge_of_rest_voltage, cell_read_v):
    return charge_of_rest_voltage(cell_read_v)


@line("spread of specific gravity between the cells", standing="physics")
def gravity_spread_ratio(gravity_by_row_ratio):
    return largest_of(gravity_by_row_ratio) - smallest_of(gravity_by_row_ratio)


@limit(
    "spread of specific gravity against the most allowed",
    severity="damage",
    mend="equalize as the maker says; a cell that stays behind is worn out",
    standing="standard",
    source="US Army TM 9-6140-200-14: 0.025 in a fully charged battery; TM 5-3740-214-14 says 0.050",
)
def gravity_spread_margin_ratio(gravity_spread_max_ratio, gravity_spread_ratio):
    return gravity_spread_max_ratio - gravity_spread_ratio


@line("charge left at the depth limit", standing="physics")
def charge_left_frac(depth_frac):
    return 1 - depth_frac


@line("specific gravity at the depth limit", standing="standard", source="table of the filling")
def gravity_left_ratio(gravity_of_charge, charge_left_frac):
    return gravity_of_charge(charge_left_frac)


@line(
    "freezing point at the depth limit",
    standing="standard",
    source="US Army TM 5-1185 and TM 10-6140-200-14, freezing point against specific gravity",
)
def freezing_left_c(freezing_of_gravity, gravity_left_ratio):
    return freezing_of_gravity(gravity_left_ratio)


@limit(
    "battery temperature against the freezing point of its acid",
    severity="damage",
    mend="use less depth, warm or insulate the bank, or choose a chemistry without acid: ice bursts the case",
    standing="physics",
)
def freezing_margin_k(battery_temp_c, freezing_left_c):
    return battery_temp_c - freezing_left_c


#: From a hydrometer, read at the temperature of the acid, to the state of charge.
BY_GRAVITY = Sheet(gravity_ratio, charge_by_gravity_frac, cell_by_gravity_v, rest_by_gravity_v)
#: From a voltmeter on a rested bank to the state of charge.
BY_VOLTAGE = Sheet(charge_by_voltage_frac)
#: One reading a cell: do they agree?
GRAVITY_SPREAD = Sheet(gravity_spread_ratio, gravity_spread_margin_ratio)
#: Lead-acid only: does a bank at its depth limit freeze?
FREEZING = Sheet(charge_left_frac, gravity_left_ratio, freezing_left_c, freezing_margin_k)
