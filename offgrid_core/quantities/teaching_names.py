"""Rows of the one table of inputs: what stands on paper before a worksheet of the design, and what a hand slips to.

They are part of :mod:`offgrid_core.quantities.names`, and stand apart only because that table is long.
"""

from math import nan

_Row = tuple[str, str, float, float] | tuple[str, str, float, float, tuple[float, float, float]]

#: Name, words, and validity in the unit of the name, of a table none; then how its slider runs, if it has one.
TEACHING_NAMES: tuple[_Row, ...] = (
    # voltage: one cable at two voltages
    ("cable_a", "current in the cable", 0.1, 2_000),
    ("cable_loop_ohm", "resistance of the cable, there and back", 1e-6, 10),
    ("raised_voltage_v", "higher bank voltage", 2, 1_000),
    ("low_12v_v", "volts left of each 12 V", 9, 13, (10, 12.5, 0.1)),
    ("cable_run_m", "cable length, one way", 0.1, 200, (0.5, 20, 0.5)),
    ("cable_mm2", "copper of the cable", 0.1, 1_000),
    ("cable_ohm_m", "resistance of the cable at its working temperature, each metre", 1e-6, 1),
    ("joints_ohm", "resistance of its lugs and joints", 0, 1),
    ("fuse_ohm", "resistance of its fuse and holder", 0, 1),
    # a motor at the inverter
    ("shaft_hp", "power at the motor's shaft", 0.01, 1_000),
    ("motor_eff_frac", "efficiency of the motor", 0.1, 1),
    # a day of appliances at the inverter
    ("others_w", "power of what else runs", 0, 100_000),
    ("moment_h", "time of day", 0, 24),
    ("start_by_row_h", "time it is switched on", 0, 24),
    ("label_by_row_w", "power on the label", 0, 100_000),
    ("pump_start_h", "water pump starts at", 0, 24, (0, 22, 0.5)),
    ("washing_start_h", "washing machine starts at", 0, 24, (0, 22, 0.5)),
    ("kettle_start_h", "kettle starts at", 0, 24, (0, 22, 0.5)),
    ("idle_most_wh", "idle energy that may be spent in a day", 0, 100_000),
    # a drawing of battery strings
    ("units_by_row_count", "units in the string", 0, 100),
    ("unit_by_row_ah", "capacity of each of its units", 0.1, 10_000),
    ("age_by_row_years", "age of its units", 0, 40),
    ("age_spread_max_years", "most difference in age", 0, 40),
    ("unit_kwh_cost", "price of a battery unit for each kilowatt-hour on its label", 0, 1e5),
    ("plus_lead_count", "string at which the main lead to plus is taken", 1, 100),
    ("minus_lead_count", "string at which the main lead to minus is taken", 1, 100),
    ("string_fuses_count", "strings with a fuse of their own", 0, 100),
    # a drawing of array and controller
    ("modules_by_row_count", "modules in the string", 1, 40),
    ("disconnect_dc_v", "DC voltage rating of the array's disconnect", 1, 2_000),
    # modules for one roof
    ("module_mass_kg", "weight of one module", 0.1, 100),
    ("roof_mass_max_kg", "weight that the roof carries", 1, 100_000),
    ("roof_places_count", "places for modules on the roof", 1, 1_000),
    # before the circuits table: the two margins of a current, a plan in feet, a gauge
    ("steady_factor", "factor of the code setting for hours on end", 1, 2),
    ("feet_by_row_count", "feet on the plan, one way", 0.1, 3_000),
    ("gauge_count", "gauge number", -3, 40),
    ("area_of_gauge", "area in the gauge table", nan, nan),
    # wiring: what the terminals take
    ("terminal_most_mm2", "thickest wire that the terminals take", 0.5, 500),
    # what a hand slips to in a table of sizes
    ("smaller_fuse", "standard size below", nan, nan),
    ("thinner_cable", "cable one size thinner", nan, nan),
    ("nearest_cable", "cable of the nearest ampacity", nan, nan),
    # two banks over the years, and one of several
    ("depth_large_frac", "depth of discharge of the large bank", 0.05, 1, (0.2, 0.9, 0.05)),
    ("first_banks_cost", "what the first bank comes to", 0, 1e9),
    ("second_banks_cost", "what the second bank comes to", 0, 1e9),
    ("life_least_years", "years until somebody comes to change the bank", 0, 40),
    ("budget_cost", "budget for the bank", 0, 1e9),
    # how full a bank is after a load
    ("load_a", "current of the load", 0.001, 10_000),
    ("load_h", "hours it runs", 0, 1_000),
    # the year by hand
    ("bank_wh", "energy on the label of the bank as built", 0, 1e9),
    ("deficit_wh", "energy the loads still ask for", 0, 1e7),
    ("charge_before_frac", "charge before the dull days", 0, 1),
    ("dull_wanted_wh", "energy the loads want over the dull days", 0, 1e7),
    ("dull_came_wh", "energy the array brings over the dull days", 0, 1e7),
    ("early_surplus_wh", "energy left after the loads in the morning", 0, 1e7),
    ("late_surplus_wh", "energy left after the loads in the afternoon", 0, 1e7),
    ("wanted_by_month_wh", "energy the loads want in the month", 0, 1e8),
    ("lost_of_bank", "load lost with a bank of that size", nan, nan),
)
