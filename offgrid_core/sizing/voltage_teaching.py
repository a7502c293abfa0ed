"""Why a bank is built at a higher voltage: what the same power loses in the same cable at one voltage and at another.

Twice the volts, half the amps, a quarter of the loss. The cables of a system are worked out in
:mod:`offgrid_core.sizing.circuits`; here one cable stays as it is and only the voltage changes.
"""

from offgrid_core.worksheet import Sheet, line


@line("power lost in the cable", standing="physics", source="Joule's law; the resistance is that of both conductors")
def cable_lost_w(cable_a, cable_loop_ohm):
    return cable_a**2 * cable_loop_ohm


@line(
    "power lost in the same cable at the higher voltage",
    standing="physics",
    source="the same power through the same copper: the current falls as the voltage rises, the loss with its square",
)
def raised_lost_w(cable_lost_w, bank_voltage_v, raised_voltage_v):
    return cable_lost_w * (bank_voltage_v / raised_voltage_v) ** 2


#: From one cable's current and resistance to its loss, and to its loss after a step up in voltage.
STEP_UP = Sheet(cable_lost_w, raised_lost_w)
