"""Standby power from what a small power supply's label says: current and voltage."""

from offgrid_core.worksheet import Sheet, line


@line("standby power", standing="physics")
def standby_by_row_w(standby_by_row_a, supply_by_row_v):
    return standby_by_row_a * supply_by_row_v


#: From the label of a power supply to its standby power.
STANDBY = Sheet(standby_by_row_w)
