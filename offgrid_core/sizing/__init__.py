"""Every sizing rule of the package, each written once, as a line of a worksheet."""

from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.bank_1013 import BANK_1013
from offgrid_core.sizing.chain import BANK_METHODS, CONTROLLER_KINDS, chain
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.loads import LOADS
from offgrid_core.sizing.voltage import VOLTAGE, VOLTAGE_STEPS

__all__ = [
    "BANK",
    "BANK_1013",
    "BANK_METHODS",
    "CIRCUITS",
    "CONTROLLER_KINDS",
    "LOADS",
    "VOLTAGE",
    "VOLTAGE_STEPS",
    "chain",
]
