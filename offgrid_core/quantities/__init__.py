"""Names, units, numbers and words: everything between a quantity and the person who types or reads it."""

from offgrid_core.quantities.names import QUANTITIES, label_of, quantity
from offgrid_core.quantities.numbers import read_number, read_quantity
from offgrid_core.quantities.quantity import Quantity
from offgrid_core.quantities.settings import Settings
from offgrid_core.quantities.text import show, word
from offgrid_core.quantities.units import Unit, menu, unit_of
from offgrid_core.quantities.wording import say

__all__ = [
    "QUANTITIES",
    "Quantity",
    "Settings",
    "Unit",
    "label_of",
    "menu",
    "quantity",
    "read_number",
    "read_quantity",
    "say",
    "show",
    "unit_of",
    "word",
]
