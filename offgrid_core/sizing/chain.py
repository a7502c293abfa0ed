"""The whole chain: from the months' load and sun to bank, strings, array, controller and inverter.

The bank feeds the array (it must be refilled and charged briskly), and the bank's size and depth set how far
the voltage falls while the inverter works. So one slider moves everything.
"""

from functools import lru_cache

from offgrid_core.sizing.array import (
    ARRAY_FOR_BANK,
    ARRAY_LAYOUT,
    ARRAY_NEED,
    COLD_VOLTAGE_TABLE,
    DIRECT_CONVERTER,
    DIRECT_HEAT,
    OWNED_MODULES,
)
from offgrid_core.sizing.bank import BANK
from offgrid_core.sizing.bank_1013 import BANK_1013
from offgrid_core.sizing.charging import CONTROLLER, DIRECT_CIRCUIT, DIRECT_CURRENT, EQUALIZE, SET_POINTS
from offgrid_core.sizing.efficiency import EFFICIENCY
from offgrid_core.sizing.inverter import INVERTER, rest_low_v
from offgrid_core.sizing.rate import CHARGE_LIMIT, RATE
from offgrid_core.sizing.state import FREEZING
from offgrid_core.sizing.strings import OWNED_STRINGS, STRINGS
from offgrid_core.sizing.temperature import ENCLOSURE
from offgrid_core.sizing.week import SPELL_OF_RUN
from offgrid_core.worksheet import Sheet, line

#: Ways to size the bank.
BANK_METHODS = {"short": BANK, "ieee1013": BANK_1013}
#: Kinds of charge controller.
CONTROLLER_KINDS = ("tracking", "direct")
#: What the sunless spell takes: the busiest day each day, or the busiest run of days.
SPELL_RULES = ("busiest_day", "busiest_run")


@line("current of the DC loads", standing="physics", source="at the resting voltage of the depth limit")
def dc_circuit_a(dc_peak_w, rest_low_v):
    return dc_peak_w / rest_low_v


@lru_cache
def chain(
    bank_method: str = "short",
    controller: str = "tracking",
    inverter: bool = True,
    *,
    spell_rule: str = "busiest_day",
    equalize: bool = False,
    cold_table: bool = False,
    acid: bool = False,
    enclosure: bool = False,
    owned_bank: bool = False,
    owned_array: bool = False,
) -> Sheet:
    """Put the worksheets together.

    Parameters
    ----------
    bank_method
        ``"short"`` for the trade form, ``"ieee1013"`` for the standard's.
    controller
        ``"tracking"`` or ``"direct"``: three lines are written otherwise for a direct controller.
    inverter
        False for a system with DC loads only.
    spell_rule
        One of :data:`SPELL_RULES`; three lines are written otherwise for the busiest run.
    equalize
        Whether the battery is of a kind that is equalized.
    cold_table
        Whether the code setting has a table of cold voltage that reaches the site's cold.
    acid
        Whether the battery has acid that can freeze.
    enclosure
        Whether the plan says where the battery stands, so that its temperature can be estimated.
    owned_bank, owned_array
        Whether units or modules are on hand: their strings are then counted, not worked out.
    """
    bank = BANK_METHODS[bank_method]
    sheet = bank + STRINGS + RATE
    if spell_rule == "busiest_run":
        sheet = sheet.replace(*SPELL_OF_RUN[bank_method])
    sheet = sheet + FREEZING if acid else sheet
    sheet = sheet + ENCLOSURE if enclosure else sheet
    sheet = sheet + SET_POINTS
    sheet = sheet + EQUALIZE if equalize else sheet
    sheet = sheet + Sheet(rest_low_v, dc_circuit_a) + ARRAY_NEED + ARRAY_FOR_BANK + ARRAY_LAYOUT
    sheet = sheet + COLD_VOLTAGE_TABLE if cold_table else sheet
    sheet = sheet + CONTROLLER + CHARGE_LIMIT
    sheet = sheet + INVERTER + EFFICIENCY if inverter else sheet
    if controller == "direct":
        sheet = sheet.replace(DIRECT_CONVERTER, DIRECT_HEAT, DIRECT_CURRENT, DIRECT_CIRCUIT)
    if owned_bank:
        sheet = sheet.replace(OWNED_STRINGS)
    if owned_array:
        sheet = sheet.replace(OWNED_MODULES)
    return sheet
