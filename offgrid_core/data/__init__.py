"""Facts and the invented classroom catalogue, checked as they are read, offline.

Every loader takes ``folder``: a person's own folder, whose files of the same names and columns are read instead
of the shipped ones.
"""

from offgrid_core.data.catalogue import (
    battery_unit,
    battery_units,
    chemistries,
    chemistry,
    controller,
    controllers,
    inverter,
    inverters,
    module,
    modules,
    site,
    sites,
)
from offgrid_core.data.clearness import clearness_chains
from offgrid_core.data.codes import CodeSetting, code_setting
from offgrid_core.data.equipment import ProtectiveDevice, fuel_curve, gas_current, protective_devices
from offgrid_core.data.models import BatteryUnit, Chemistry, Controller, Inverter, Module, Site
from offgrid_core.data.reading import shipped_folder
from offgrid_core.data.tables import (
    capacity_kept,
    cell_rest_voltage,
    charge_of_gravity,
    charge_of_rest_voltage,
    cold_voltage_us,
    cycle_life,
    freezing_of_gravity,
    gravity_of_charge,
)

__all__ = [
    "BatteryUnit",
    "Chemistry",
    "CodeSetting",
    "Controller",
    "Inverter",
    "Module",
    "ProtectiveDevice",
    "Site",
    "battery_unit",
    "battery_units",
    "capacity_kept",
    "cell_rest_voltage",
    "charge_of_gravity",
    "charge_of_rest_voltage",
    "chemistries",
    "chemistry",
    "clearness_chains",
    "code_setting",
    "cold_voltage_us",
    "controller",
    "controllers",
    "cycle_life",
    "freezing_of_gravity",
    "fuel_curve",
    "gas_current",
    "gravity_of_charge",
    "inverter",
    "inverters",
    "module",
    "modules",
    "protective_devices",
    "shipped_folder",
    "site",
    "sites",
]
