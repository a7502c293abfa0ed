"""The whole chain: from the months' load and sun to bank, strings, array, controller and inverter.

The bank feeds the array (it must be refilled and charged briskly), and the bank's size and depth set how far
the voltage falls while the inverter works. So one slider moves everything.
"""

from functools import lru_cache

from offgrid_core.sizing.array import ARRAY_FOR_BANK, ARRAY_LAYOUT, ARRAY_NEED, DIRECT_CONVERTER
from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.bank_1013 import BANK_1013
from offgrid_core.sizing.charging import CONTROLLER, DIRECT_CURRENT, SET_POINTS
from offgrid_core.sizing.inverter import INVERTER, rest_low_v
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet, line

#: Ways to size the bank.
BANK_METHODS = {"short": BANK, "ieee1013": BANK_1013}
#: Kinds of charge controller.
CONTROLLER_KINDS = ("tracking", "direct")


@line("current of the DC loads", standing="physics", source="at the resting voltage of the depth limit")
def dc_circuit_a(dc_peak_w, rest_low_v):
    return dc_peak_w / rest_low_v


@lru_cache
def chain(bank_method: str = "short", controller: str = "tracking", inverter: bool = True) -> Sheet:
    """Put the worksheets together.

    Parameters
    ----------
    bank_method
        ``"short"`` for the trade form, ``"ieee1013"`` for the standard's.
    controller
        ``"tracking"`` or ``"direct"``: two lines are written otherwise for a direct controller.
    inverter
        False for a system with DC loads only.
    """
    sheet = BANK_METHODS[bank_method] + STRINGS + SET_POINTS + Sheet(rest_low_v, dc_circuit_a)
    sheet = sheet + ARRAY_NEED + ARRAY_FOR_BANK + ARRAY_LAYOUT + CONTROLLER
    if inverter:
        sheet = sheet + INVERTER
    if controller == "direct":
        sheet = sheet.replace(DIRECT_CONVERTER, DIRECT_CURRENT)
    return sheet
