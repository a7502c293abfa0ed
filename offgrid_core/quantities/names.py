"""The one table of inputs: name, words, short symbol, validity, and how its slider runs.

A line of a worksheet brings its own label; everything a line *needs* from outside stands here. The unit is the
ending of the name (see :mod:`offgrid_core.quantities.units`). Validity is hard: a value outside it is refused.
A slider covers the part that people explore.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from offgrid_core.errors import OffgridError
from offgrid_core.quantities.log_names import LOG_NAMES
from offgrid_core.quantities.teaching_names import TEACHING_NAMES


@dataclass(frozen=True)
class Quantity:
    """One input.

    Attributes
    ----------
    name, label, symbol
        Name with its unit ending; trade words; the short sign used in picture legends.
    low, high
        Validity, in the unit of the name. Both are ``nan`` for a table.
    slider
        Lowest, highest and step of its slider, or ``None`` when nobody slides it.
    """

    name: str
    label: str
    symbol: str
    low: float
    high: float
    slider: tuple[float, float, float] | None = None

    @property
    def is_table(self) -> bool:
        """Whether the input is a table read by lines, not a number."""
        return self.low != self.low


def _q(
    name: str, label: str, low: float, high: float, slider: tuple[float, float, float] | None = None, symbol: str = ""
) -> Quantity:
    return Quantity(name, label, symbol or label, low, high, slider)


def _table(name: str, label: str) -> Quantity:
    return Quantity(name, label, label, float("nan"), float("nan"))


_ALL: Iterable[Quantity] = (
    # the loads list, one value a row
    _q("count_by_row", "how many", 0, 10_000),
    _q("power_by_row_w", "running power", 0, 100_000),
    _q("hours_by_row_h", "hours a day", 0, 24),
    _q("duty_by_row_frac", "share of those hours it really runs", 0, 1),
    _q("season_by_row_frac", "share of the season's use", 0, 10),
    _q("standby_by_row_w", "standby power", 0, 10_000),
    _q("standby_by_row_a", "standby current on the label", 0, 100),
    _q("supply_by_row_v", "voltage on the label", 0, 1_000),
    _q("week_by_row_days", "days a week", 0, 7),
    _q("on_ac_by_row_frac", "share fed through the inverter", 0, 1),
    _q("coincidence_by_row_frac", "share that runs together with the rest", 0, 1),
    _q("power_factor_by_row_ratio", "power factor", 0.1, 1),
    _q("start_by_row_factor", "starting power as a multiple of running power", 1, 12),
    _q("load_factor", "load as a multiple of the plan's", 0.05, 10),
    _q("critical_by_row_frac", "share that must not fail", 0, 1),
    # the loads list by the clock
    _q("window_by_hour_frac", "share of each hour inside the windows", 0, 1),
    _q("day_hours_h", "hours it runs, at any time of day", 0, 24),
    _q("touched_by_row_frac", "share of the hour open to the row", 0, 1),
    _q("clock_by_row_frac", "share of the hour in which the row runs", 0, 1),
    _q("running_by_hour_w", "AC power running together, hour by hour", 0, 1e6),
    _q("running_by_hour_va", "AC volt-amps running together, hour by hour", 0, 1e6),
    _q("surging_by_hour_w", "surge while the rest runs, hour by hour", 0, 1e7),
    _q("running_dc_by_hour_w", "DC power running together, hour by hour", 0, 1e6),
    _q("ac_by_hour_w", "mean AC power, hour by hour", 0, 1e6),
    _q("load_by_hour_wh", "energy out of the battery, hour by hour", 0, 1e7),
    _q("dark_by_hour_frac", "share of each hour with the sun down", 0, 1),
    _table("busiest_run", "energy of the busiest run of days"),
    _table("days_of_run", "days of the busiest run"),
    _q("inverter_day_wh", "energy into the inverter a day", 0, 1e8),
    # energy at the battery
    _q("inverter_eff_frac", "inverter efficiency", 0.3, 1, (0.70, 0.98, 0.01), "η"),
    _q("inverter_idle_w", "inverter idle power", 0, 1_000, (0, 60, 1), "idle"),
    _q("inverter_on_h", "hours the inverter is on", 0, 24, (0, 24, 1), "on"),
    _q("dc_wiring_eff_frac", "efficiency of the DC wiring", 0.5, 1),
    _q("growth_factor", "load growth factor", 1, 3, (1, 1.5, 0.05), "growth"),
    _q("battery_day_by_month_wh", "energy out of the battery on the busiest day", 0, 1e8),
    _q("battery_mean_by_month_wh", "mean energy out of the battery a day", 0, 1e8),
    # voltage
    _q("peak_w", "AC power running together", 0, 1e6),
    _q("peak_va", "AC volt-amps running together", 0, 1e6),
    _q("surge_w", "surge while the rest runs", 0, 1e7),
    _q("dc_peak_w", "DC power running together", 0, 1e6),
    _q("current_wanted_a", "current not to be passed", 10, 1_000, symbol="I max"),
    _q("bank_current_max_a", "current wires and fuses like", 10, 1_000),
    _table("voltage_steps", "next bank voltage"),
    # bank
    _q("bank_voltage_v", "bank voltage", 2, 1_000, symbol="V"),
    _q("autonomy_days", "days of autonomy", 0.25, 60, (1, 10, 0.5), "N"),
    _q("depth_frac", "depth of discharge", 0.05, 1, (0.20, 0.90, 0.05), "D"),
    _q("battery_temp_c", "coldest battery temperature", -40, 60, (-20, 30, 1), "T"),
    _q("depth_max_frac", "most depth of discharge of the chemistry", 0.05, 1),
    _q("discharge_temp_min_c", "coldest temperature for use", -60, 30),
    _q("depth_daily_frac", "depth of discharge on an ordinary day", 0.05, 1),
    _q("end_of_life_frac", "capacity left at the end of life", 0.5, 1),
    _q("design_margin_factor", "design margin", 1, 2),
    _table("capacity_kept", "capacity kept"),
    # strings
    _q("unit_v", "voltage of one unit", 1, 100),
    _q("unit_ah", "capacity of one unit", 0.1, 10_000),
    _q("unit_mass_kg", "mass of one unit", 0, 5_000),
    _q("unit_discharge_a", "current one unit may give", 0.1, 10_000),
    _q("unit_charge_a", "current one unit may take", 0.1, 10_000),
    _q("strings_max_count", "most strings wanted in parallel", 1, 20),
    # strings compared, and how they share the current
    _q("unit_cost", "cost of one battery unit", 0, 1e7),
    _q("lift_max_kg", "most for one person to lift", 1, 200),
    _q("string_share_by_row_frac", "share of the current in one string", -10, 10),
    _q("link_ohm", "resistance of a link between two strings", 0, 1),
    _q("extra_max_frac", "extra current usually accepted in one string", 0, 1),
    _q("owned_units_count", "battery units on hand", 1, 1_000),
    _q("owned_modules_count", "modules on hand", 1, 1_000),
    # rate
    _q("capacity_hours_h", "hours of the label's capacity", 1, 240),
    _q("peukert_exponent", "exponent of Peukert's law", 1, 2, (1, 1.4, 0.01), "k"),
    _q("test_hours_h", "hours achieved in a discharge test", 0, 240),
    # state of charge
    _q("gravity_read_ratio", "specific gravity as read", 1, 1.4, (1.10, 1.29, 0.005), "gravity"),
    _q("acid_temp_c", "temperature of the acid", -40, 60, (-20, 50, 1), "T acid"),
    _q("gravity_table_c", "temperature of the table of gravities", 15, 30),
    _q("cell_read_v", "resting voltage of a cell as read", 1, 5),
    _q("gravity_by_row_ratio", "specific gravity of each cell", 1, 1.4),
    _q("gravity_spread_max_ratio", "most spread of specific gravity", 0.001, 0.1),
    _table("charge_of_gravity", "charge by specific gravity"),
    _table("charge_of_rest_voltage", "charge by the resting voltage of a cell"),
    _table("gravity_of_charge", "specific gravity by charge"),
    _table("freezing_of_gravity", "freezing point of acid"),
    # battery temperature from air and enclosure
    _q("room_leak_w_k", "heat leak between battery and room", 0, 1_000, (0, 20, 0.5), "to room"),
    _q("open_leak_w_k", "heat leak between battery and open air", 0.01, 1_000, (0.5, 20, 0.5), "to open"),
    _q("room_temp_c", "coldest temperature of the room beside it", -40, 40, (-20, 25, 1), "T room"),
    _q("bank_heat_wh_kg_k", "heat a kilogram of battery holds", 0.1, 1),
    _q("cold_snap_h", "length of a cold snap from mild to mild", 12, 1_000, (24, 240, 12), "snap"),
    # life
    _q("cycle_depth_least_frac", "shallowest depth in the table of cycles", 0.01, 1),
    _q("cycles_year_count", "cycles a year", 1, 1_000),
    _q("float_life_years", "life on float at the temperature of the table", 0.5, 40),
    _q("life_temp_c", "mean battery temperature over its life", -30, 60, (10, 45, 1), "T life"),
    _q("life_table_c", "temperature of the table of life", 15, 30),
    _q("halving_k", "warmth that halves the life", 5, 20, (8, 10, 0.5), "halving"),
    _table("cycle_life", "cycles by depth"),
    # wear: cycles counted in a charge curve, one row a depth, or the energy drawn
    _q("cycle_depth_by_row_frac", "depth of the cycle counted", 0, 1),
    _q("cycle_by_row_count", "cycles counted of that depth, a half for half a cycle", 0, 100_000),
    _q("counted_h", "hours of the charge curve", 3, 1_000_000),
    _q("reference_depth_frac", "reference depth in the table of cycles", 0.1, 1),
    _q("drawn_year_wh", "energy drawn from the bank in the year", 0, 1e9),
    # charging
    _q("cells_12v_count", "cells in 12 V of bank", 1, 12),
    _q("absorb_cell_v", "absorption voltage of one cell at 25 °C", 1, 5),
    _q("float_cell_v", "float voltage of one cell at 25 °C", 1, 5),
    _q("equalize_cell_v", "equalizing voltage of one cell at 25 °C", 1, 5),
    _q("compensation_mv_k", "temperature compensation of one cell", -10, 0),
    _q("charge_temp_min_c", "coldest temperature for charging", -40, 30),
    _q("charge_rate_min_per_h", "least charging rate", 0, 1),
    _q("charge_rate_max_per_h", "most charging rate", 0.01, 5),
    _q("controller_headroom_v", "volts the controller needs above the battery", 0, 100),
    _q("controller_factor", "controller sizing factor", 1, 2),
    _q("controllers_max_count", "most controllers wanted side by side", 1, 50),
    _q("controller_rated_a", "controller rating", 1, 1_000),
    _q("controller_voltage_max_v", "controller's highest array voltage", 10, 1_500),
    _q("controller_eff_frac", "controller efficiency", 0.5, 1),
    # sun and array
    _q("plane_by_month_kwh_m2", "sun on the tilted array a day", 0, 15),
    _q("flat_by_month_kwh_m2", "sun on the flat a day", 0.01, 12),
    _q("plane_by_month_mj_m2", "sun on the tilted array a day, in megajoules", 0, 54),
    _q("latitude_deg", "latitude, north positive", -66, 66),
    _q("tilt_deg", "tilt of the array", 0, 90, (0, 90, 5), "tilt"),
    _q("azimuth_deg", "azimuth of the array, clockwise from north", 0, 360, (0, 355, 5), "azimuth"),
    _q("tilt_least_deg", "flattest tilt wanted", 0, 80),
    _q("ground_by_month_frac", "sunlight the ground throws back", 0, 0.9),
    _q("shade_by_month_frac", "share left by shade", 0.05, 1),
    _q("full_sun_kw_m2", "full sun", 1, 1),
    _q("working_sun_kw_m2", "sunlight while the array does its work", 0.2, 1.2),
    _q("air_temp_by_month_c", "mean air temperature", -60, 50),
    _q("air_coldest_c", "coldest morning air", -70, 30, (-40, 20, 1), "T air"),
    _q("hot_day_rise_k", "how much a hot day passes the monthly mean", 0, 30),
    _q("cell_rise_k", "cells above air in strong sun", 0, 60),
    _q("noct_c", "nominal operating cell temperature", 30, 70),
    # cell temperature by the wind
    _q("wind_m_s", "wind at the modules", 0, 40, (0, 15, 0.5), "wind"),
    _q("shed_still_w_m2_k", "heat the modules shed in still air", 5, 60),
    _q("shed_wind_ws_m3_k", "heat shed beside it for each metre a second of wind", 0, 20),
    _q("mount_exponent", "exponent of the mounting in still air", -5, -1),
    _q("mount_wind_exponent", "exponent of the mounting for each metre a second of wind", -0.2, 0),
    _q("cell_over_back_k", "cell above the back of the module in full sun", 0, 10),
    _q("soiling_frac", "loss to dirt", 0, 0.5, (0, 0.20, 0.01), "dirt"),
    _q("wiring_loss_frac", "loss in wiring and connections", 0, 0.5, (0, 0.10, 0.01), "wiring"),
    _q("mismatch_frac", "loss to mismatch", 0, 0.5, (0, 0.10, 0.01), "mismatch"),
    _q("charge_eff_frac", "energy efficiency of the battery", 0.4, 1, (0.60, 0.98, 0.01), "η batt"),
    _q("array_load_ratio", "array-to-load ratio", 1, 3, (1, 2, 0.05), "A:L"),
    _q("refill_days", "days to refill the bank", 1, 60, (3, 30, 1), "refill"),
    _q("modules_in_series_count", "modules in series", 1, 40),
    _q("module_w", "module power", 1, 2_000),
    _q("module_voc_v", "module open-circuit voltage", 1, 500),
    _q("module_vmp_v", "module working voltage", 1, 500),
    _q("module_imp_a", "module working current", 0.01, 100),
    _q("module_isc_a", "module short-circuit current", 0.01, 100),
    _q("voc_temp_per_k", "open-circuit voltage change for each kelvin", -0.01, 0),
    _table("cold_voltage_factor", "cold open-circuit voltage factor"),
    _q("power_temp_per_k", "power change for each kelvin", -0.01, 0),
    # inverter
    _q("inverter_margin_factor", "inverter margin", 1, 3),
    _q("cell_resistance_ohm_ah", "resistance of one cell for each amp-hour of size", 0.001, 2),
    _table("cell_rest_voltage", "resting voltage of one cell"),
    _q("inverter_rated_w", "inverter rated power", 10, 1e6),
    _q("inverter_rated_va", "inverter rated volt-amps", 10, 1e6),
    _q("inverter_surge_w", "inverter surge power", 10, 1e7),
    _q("inverter_cutoff_v", "inverter low-voltage cut-off", 1, 1_000),
    _q("inverter_drop_frac", "voltage drop allowed between bank and inverter", 0, 0.2),
    _q("inverter_temp_rated_c", "air temperature of the inverter's rating", 0, 70),
    _q("inverter_derate_per_k", "inverter power lost for each kelvin above it", 0, 0.1),
    _q("part_load_frac", "part-load point as a share of rated power", 0.05, 0.9),
    _q("inverter_part_eff_frac", "inverter efficiency at part load", 0.3, 1),
    _q("inverter_full_eff_frac", "inverter efficiency at full load", 0.3, 1),
    # parts that go together
    _q("inverter_bank_v", "bank voltage on the inverter's label", 1, 1_000),
    _q("controller_bank_v", "bank voltage the controller can be set to", 1, 1_000),
    _q("module_cost", "price of one module", 0, 1e7),
    _q("controller_cost", "price of one controller", 0, 1e7),
    _q("inverter_cost", "price of the inverter", 0, 1e7),
    # circuits, one value a row of the circuits table
    _q("current_by_row_a", "working current", 0.001, 10_000),
    _q("current_by_row_factor", "current factor of the code setting", 1, 3),
    _q("voltage_by_row_v", "voltage of the circuit", 1, 1_500),
    _q("length_by_row_m", "length one way", 0.01, 1_000),
    _q("drop_limit_by_row_frac", "voltage drop allowed", 0.001, 0.2),
    _q("ambient_c", "air temperature round the cable", -40, 80),
    _q("grouping_frac", "grouping factor", 0.2, 1),
    _q("wire_temp_c", "working temperature of the copper", -40, 120),
    _q("table_temp_c", "temperature of the resistance table", 0, 100),
    _q("ampacity_most_a", "ampacity of the largest cable listed", 1, 5_000),
    _q("resistance_least_ohm_m", "resistance of the largest cable listed", 1e-6, 1),
    _q("cables_max_count", "most cables for each pole", 1, 10),
    # the order list
    _q("circuits_by_row_count", "circuits of this kind", 1, 1_000),
    _q("unit_by_row_cost", "cost of one", 0, 1e7),
    _table("next_fuse", "next standard size"),
    # cables laid together
    _q("circuits_together_count", "circuits laid together", 1, 20),
    _q("conductors_circuit_count", "what the code setting counts for each circuit", 1, 2),
    _table("grouping_table", "factor for cables together"),
    # protection of the circuits
    _q("on_array_by_row_frac", "whether the circuit is the array's, 1 for yes", 0, 1),
    _q("bright_sun_factor", "bright-sun factor of the code setting", 1, 2),
    _q("backfeed_frac", "share of the bank's fault current that may come back through the controller", 0, 1),
    _q("selective_ratio", "ratio at which the fuse after opens first", 1, 5),
    _q("fuse_most_a", "largest standard size listed", 10, 10_000),
    _q("device_dc_by_row_v", "DC voltage rating of the device", 1, 2_000),
    _q("device_interrupting_by_row_a", "interrupting rating of the device", 1, 1e6),
    _q("device_smallest_by_row_a", "smallest size the device is made in", 0.1, 10_000),
    _q("device_largest_by_row_a", "largest size the device is made in", 0.1, 10_000),
    # ventilation
    _q("gas_ma_ah", "gassing current for each amp-hour of size", 0, 100),
    _q("gas_temp_c", "temperature of the gas", -40, 60),
    _q("dilution_ratio", "volumes of air for each of hydrogen", 1, 200),
    _q("gas_safety_factor", "safety factor of the standard", 1, 10),
    _q("battery_hot_c", "hottest battery temperature", -40, 70, (0, 50, 1), "T hot"),
    _q("gas_doubling_k", "rise that doubles the gassing current", 5, 15),
    _q("hydrogen_limit_frac", "most hydrogen in the air", 0.001, 0.04),
    _q("banks_count", "banks in the room", 1, 100),
    _q("ventilation_factor", "safety factor on the air", 1, 10),
    _q("room_m3", "volume of the room", 0.1, 1e5),
    _q("opening_cm2", "free opening provided, low and again high", 0, 1e6, (0, 1000, 10), "opening"),
    # backup generator
    _q("generator_start_frac", "charge at which the generator starts", 0, 1, (0.1, 0.7, 0.05), "start"),
    _q("generator_stop_frac", "charge at which the generator stops", 0, 1, (0.5, 1, 0.05), "stop"),
    _q("generator_other_w", "other load while the generator charges", 0, 1e6),
    _q("generator_rated_w", "generator rated power", 100, 1e7),
    _q("generator_rated_va", "generator rated volt-amps", 100, 1e7),
    _q("generator_year_wh", "energy the generator brings to the bank in a year", 0, 1e9),
    _q("charger_rated_a", "battery charger's rating", 0.5, 2_000),
    _q("charger_eff_frac", "charger efficiency", 0.5, 1),
    _q("charger_pf_ratio", "power factor of the charger", 0.3, 1),
    _q("altitude_m", "height above the sea", -450, 6_000, (0, 4000, 100), "height"),
    _q("air_hot_c", "hottest air", -20, 60, (0, 50, 1), "T air"),
    _q("derate_altitude_frac", "rating lost for each 300 m of height", 0, 0.045),
    _q("derate_heat_frac", "rating lost for each 10 K above 25 °C", 0, 0.1),
    _q("loading_min_frac", "least loading a diesel likes", 0, 1),
    _q("fuel_size_l_kwh", "fuel for each rated kilowatt and hour", 0, 1),
    _q("fuel_work_l_kwh", "fuel for each kilowatt-hour made", 0.05, 2),
    _q("dc_running_w", "mean power of the DC loads meanwhile", 0, 1e6),
    # cost over the years
    _q("year_by_row_years", "year counted from the start", 1, 60),
    _q("discount_rate_frac", "discount rate above inflation", 0, 0.30, (0, 0.15, 0.005), "discount"),
    _q("horizon_years", "horizon", 1, 60, (5, 40, 1), "horizon"),
    _q("battery_price_factor", "battery price as a multiple of the catalogue's", 0, 10, (0.2, 2, 0.05), "bank price"),
    _q("generator_kw_cost", "price of a generator for each kilowatt", 0, 1e5, (100, 1500, 50), "generator"),
    _q("balance_frac", "everything round the parts as a share of array, controllers and inverter", 0, 5, (0, 1, 0.05)),
    _q("bank_life_years", "life of the bank", 0.1, 60, (1, 25, 0.5)),
    _q("controller_life_years", "life of the controllers", 1, 60, (5, 25, 1)),
    _q("inverter_life_years", "life of the inverter", 1, 60, (5, 25, 1)),
    _q("generator_life_years", "life of the generator", 1, 60, (2, 25, 1)),
    _q("array_life_years", "life of the array", 1, 100, (10, 40, 1)),
    _q("upkeep_frac", "upkeep in a year as a share of the first cost", 0, 0.5, (0, 0.05, 0.0025), "upkeep"),
    _q("fuel_year_l", "fuel in a year", 0, 1e6, (0, 2000, 10), "fuel"),
    _q("fuel_litre_cost", "price of a litre of fuel", 0, 1_000, (0, 4, 0.1), "fuel price"),
    _q("fuel_growth_frac", "growth of the fuel price a year above inflation", -0.1, 0.2, (0, 0.1, 0.005), "growth"),
    _q("salvage_frac", "share of the first cost left at the horizon", 0, 1, (0, 0.4, 0.05), "left over"),
    _q("served_year_wh", "energy served in the year", 1, 1e9),
    # cost and year by hand
    _q("nominal_rate_frac", "discount rate with inflation in it", 0, 0.5),
    _q("inflation_frac", "inflation a year", -0.1, 0.5),
    _q("days_by_month_days", "days of the month", 28, 31),
    _q("logged_by_row_w", "power of the sample", 0, 1e6),
    _q("sample_h", "time that each sample stands for", 0.001, 24),
    # the year, hour by hour
    _q("air_swing_k", "from the coldest to the warmest hour of a day", 0, 30, (0, 20, 1), "swing"),
    _q("plane_by_hour_kw_m2", "sun on the array, hour by hour", 0, 2),
    _q("air_by_hour_c", "air temperature, hour by hour", -70, 60),
    _q("shade_by_hour_frac", "share left by shade, hour by hour", 0, 1),
    _q("ac_asked_by_hour_w", "mean AC power the loads ask for, hour by hour", 0, 1e6),
    _q("dc_asked_by_hour_w", "mean DC power the loads ask for, hour by hour", 0, 1e6),
    _q("weekday_days", "day of the week, counted from 0", 0, 6),
    _q("surround_c", "surroundings of the bank", -70, 60),
    _q("warmth_c", "bank at the start of the hour", -70, 60),
    _q("warmth_by_hour_c", "warmth of the bank, hour by hour", -70, 60),
    _q("bank_lag_h", "hours the bank lags behind the air where no enclosure is stated", 0, 1_000),
    _q("table_coldest_c", "coldest temperature in the table of capacity", -60, 60),
    _q("table_warmest_c", "warmest temperature in the table of capacity", -60, 90),
    _q("self_discharge_frac", "self-discharge in a month", 0, 0.5),
    _q("taper_frac", "share of the missing charge a bank takes in an hour", 0.05, 1),
    _q("reconnect_frac", "share of what the bank can give at which the loads come back", 0, 1, (0, 0.8, 0.05)),
    _q("yield_h", "hours of full power that the hour brings", 0, 2),
    _q("wanted_wh", "energy the loads want of the bank", 0, 1e7),
    _q("kept_now_frac", "share of the label kept in the cold now", 0.05, 1),
    _q("may_charge_frac", "whether the bank is warm enough to charge, 1 for yes", 0, 1),
    _q("store_wh", "charge at the start of the hour", 0, 1e9),
    _q("connected_frac", "loads connected at the start of the hour, 1 for yes", 0, 1),
    _q("was_running_frac", "generator running before, 1 for yes", 0, 1),
    _q("run_h", "hours of this run so far", 0, 1e5),
    _q("run_least_h", "least hours of a run of the generator", 0, 24, (0, 8, 1), "run"),
    _q("array_factor", "array as a multiple of the design's", 0.01, 100, (0.2, 3, 0.1), "array"),
    _q("bank_factor", "bank as a multiple of the design's", 0.01, 100, (0.2, 3, 0.1), "bank"),
    _q("loss_most_frac", "loss of load allowed", 0, 1, (0.001, 0.10, 0.001), "lost"),
    _q("hours_year_h", "hours simulated", 1, 1e6),
    _q("residual_by_hour_wh", "energy that does not add up, hour by hour", -1, 1),
    _q("unserved_by_hour_wh", "energy not served, hour by hour", 0, 1e9),
    _q("served_by_hour_wh", "energy served, hour by hour", 0, 1e9),
    _q("array_offer_by_hour_wh", "energy the array could pass on, hour by hour", 0, 1e9),
    _q("clipped_by_hour_wh", "energy cut by the controllers, hour by hour", 0, 1e9),
    _q("spilled_by_hour_wh", "energy spilled, the bank being full, hour by hour", 0, 1e9),
    _q("charge_loss_by_hour_wh", "energy lost in charging, hour by hour", 0, 1e9),
    _q("leak_by_hour_wh", "energy lost to self-discharge, hour by hour", 0, 1e9),
    _q("drawn_by_hour_wh", "energy drawn from the bank, hour by hour", 0, 1e9),
    _q("stored_by_hour_wh", "energy put into store, hour by hour", 0, 1e9),
    _q("surplus_by_hour_wh", "energy left after the loads, hour by hour", 0, 1e9),
    _q("store_by_hour_wh", "charge at the start of the hour, hour by hour", 0, 1e9),
    _q("store_end_by_hour_wh", "charge at the end of the hour, hour by hour", 0, 1e9),
    _q("place_by_row_wh", "energy of the year that went to a place", -1e9, 1e9),
    _q("generator_in_by_hour_wh", "energy from the generator's charger, hour by hour", 0, 1e9),
    _q("connected_by_hour_frac", "loads connected, hour by hour, 1 for yes", 0, 1),
    _q("running_by_hour_frac", "generator running, hour by hour, 1 for yes", 0, 1),
    _q("wanted_year_wh", "energy the loads wanted of the bank in the year", 0, 1e9),
    _q("unserved_year_wh", "energy not served in the year", 0, 1e9),
    _q("surplus_year_wh", "energy left after the loads in the year", 0, 1e9),
    _q("stored_year_wh", "energy put into store in the year", 0, 1e9),
    *(_q(*row) for row in (*LOG_NAMES, *TEACHING_NAMES)),
    _table("ambient_factor", "ambient factor"),
    _table("cable_for_ampacity", "thinnest cable for the ampacity"),
    _table("cable_for_conductance", "thinnest cable for the resistance"),
    _table("cable_for_fuse", "thinnest cable that may have the fuse"),
    _table("cable_fuse_limit", "largest fuse the cable may have"),
    _table("cable_resistance", "resistance from the table"),
    _table("cable_ampacity", "ampacity from the table"),
)

#: Every input by name.
QUANTITIES: dict[str, Quantity] = {q.name: q for q in _ALL}


def quantity(name: str) -> Quantity:
    """Return the input of that name, or refuse with the nearest names."""
    if name not in QUANTITIES:
        from difflib import get_close_matches

        near = ", ".join(get_close_matches(name, QUANTITIES, 3)) or "see offgrid_core.quantities.names"
        raise OffgridError(f"there is no input called {name}; nearest: {near}")
    return QUANTITIES[name]


def label_of(name: str) -> str:
    """Return the words for an input."""
    return quantity(name).label
