"""The one table of inputs: name, words, short symbol, validity, and how its slider runs.

A line of a worksheet brings its own label; everything a line *needs* from outside stands here. The unit is the
ending of the name (see :mod:`offgrid_core.quantities.units`). Validity is hard: a value outside it is refused.
A slider covers the part that people explore.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from offgrid_core.errors import OffgridError


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
    _q("depth_daily_frac", "depth of discharge on an ordinary day", 0.05, 1),
    _q("end_of_life_frac", "capacity left at the end of life", 0.5, 1),
    _q("design_margin_factor", "design margin", 1, 2),
    _table("capacity_kept", "capacity kept"),
    # strings
    _q("unit_v", "voltage of one unit", 1, 100),
    _q("unit_ah", "capacity of one unit", 0.1, 10_000),
    _q("unit_mass_kg", "mass of one unit", 0, 5_000),
    _q("unit_discharge_a", "current one unit may give", 0.1, 10_000),
    _q("strings_max_count", "most strings wanted in parallel", 1, 20),
    # charging
    _q("cells_12v_count", "cells in 12 V of bank", 1, 12),
    _q("absorb_cell_v", "absorption voltage of one cell at 25 °C", 1, 5),
    _q("compensation_mv_k", "temperature compensation of one cell", -10, 0),
    _q("charge_temp_min_c", "coldest temperature for charging", -40, 30),
    _q("charge_rate_min_per_h", "least charging rate", 0, 1),
    _q("charge_rate_max_per_h", "most charging rate", 0.01, 5),
    _q("controller_headroom_v", "volts the controller needs above the battery", 0, 100),
    _q("controller_factor", "controller sizing factor", 1, 2),
    _q("controller_rated_a", "controller rating", 1, 1_000),
    _q("controller_voltage_max_v", "controller's highest array voltage", 10, 1_500),
    _q("controller_eff_frac", "controller efficiency", 0.5, 1),
    # sun and array
    _q("plane_by_month_kwh_m2", "sun on the tilted array a day", 0, 15),
    _q("flat_by_month_kwh_m2", "sun on the flat a day", 0.01, 12),
    _q("latitude_deg", "latitude, north positive", -66, 66),
    _q("tilt_deg", "tilt of the array", 0, 90, (0, 90, 5), "tilt"),
    _q("ground_by_month_frac", "sunlight the ground throws back", 0, 0.9),
    _q("shade_by_month_frac", "share left by shade", 0.05, 1),
    _q("full_sun_kw_m2", "full sun", 1, 1),
    _q("working_sun_kw_m2", "sunlight while the array does its work", 0.2, 1.2),
    _q("air_temp_by_month_c", "mean air temperature", -60, 50),
    _q("air_coldest_c", "coldest morning air", -70, 30, (-40, 20, 1), "T air"),
    _q("hot_day_rise_k", "how much a hot day passes the monthly mean", 0, 30),
    _q("cell_rise_k", "cells above air in strong sun", 0, 60),
    _q("noct_c", "nominal operating cell temperature", 30, 70),
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
    _q("module_isc_a", "module short-circuit current", 0.01, 100),
    _q("voc_temp_per_k", "open-circuit voltage change for each kelvin", -0.01, 0),
    _q("power_temp_per_k", "power change for each kelvin", -0.01, 0),
    # inverter
    _q("inverter_margin_factor", "inverter margin", 1, 3),
    _q("cell_resistance_ohm_ah", "resistance of one cell for each amp-hour of size", 0.001, 2),
    _table("cell_rest_voltage", "resting voltage of one cell"),
    _q("inverter_rated_w", "inverter rated power", 10, 1e6),
    _q("inverter_rated_va", "inverter rated volt-amps", 10, 1e6),
    _q("inverter_surge_w", "inverter surge power", 10, 1e7),
    _q("inverter_cutoff_v", "inverter low-voltage cut-off", 1, 1_000),
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
    _table("next_fuse", "next standard size"),
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
