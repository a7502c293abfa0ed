"""Why a bank is built at a higher voltage: what the same power takes and loses in the same cable at another voltage.

Twice the volts, half the amps, a quarter of the loss. The cables of a system, with fuse, heat and sizes as sold, are
worked out in :mod:`offgrid_core.sizing.circuits`; here one cable stays as it is and only the voltage changes. Its
rules are that module's, said of one cable.
"""

from offgrid_core.sizing.bank_1013 import BANK_1013
from offgrid_core.sizing.circuits import CIRCUITS
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.worksheet import Sheet, limit, line


@line(
    "lowest voltage while the inverter works",
    standing="common practice, no source",
    source="a battery well down, with the inverter at work: 10.5 to 11 V for each 12 V",
)
def inverter_low_v(bank_voltage_v, low_12v_v):
    return bank_voltage_v / 12 * low_12v_v


# ---- one cable, its loss, and its loss after a step up


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


# ---- the cable between bank and inverter

inverter_input_a = INVERTER["inverter_input_a"]
_IS_CABLE = {"cable_by_row_mm2": "cable_mm2"}

#: The resistance of a cable as sold, at the temperature that a working conductor may reach.
cable_ohm_m = CIRCUITS["resistance_by_row_ohm_m"].renamed(
    "cable_ohm_m", "resistance of the cable at its working temperature, each metre", **_IS_CABLE
)


@line("resistance of the cable, there and back", standing="physics", source="the current passes both conductors")
def cable_loop_ohm(cable_run_m, cable_ohm_m):
    return 2 * cable_run_m * cable_ohm_m


@line("volts lost there and back", standing="physics", source="Ohm's law")
def inverter_drop_v(inverter_input_a, cable_loop_ohm):
    return inverter_input_a * cable_loop_ohm


@line("volts lost, as a share of the bank voltage", standing="physics")
def inverter_lost_frac(inverter_drop_v, bank_voltage_v):
    return inverter_drop_v / bank_voltage_v


inverter_lost_w = cable_lost_w.renamed(
    "inverter_lost_w", "power lost in the inverter's cable", cable_a="inverter_input_a"
)


@line(
    "power lost at the drop allowed",
    standing="physics",
    source="the same at every voltage: so many per cent of the watts",
)
def lost_allowed_w(inverter_input_a, inverter_drop_frac, bank_voltage_v):
    return inverter_input_a * inverter_drop_frac * bank_voltage_v


@line(
    "copper that keeps the drop",
    standing="physics",
    source="twice the copper, half the resistance; sizes as sold differ from this by a few per cent",
)
def copper_wanted_mm2(cable_mm2, inverter_lost_frac, inverter_drop_frac):
    return cable_mm2 * inverter_lost_frac / inverter_drop_frac


@limit(
    "current against what the cable may carry",
    severity="danger",
    mend="choose a higher bank voltage or a thicker cable: this one overheats",
    standing="standard",
    source="ampacity table of the code setting, in 30 °C air, with no other cable beside it",
)
def cable_margin_a(cable_ampacity, cable_mm2, inverter_input_a):
    return cable_ampacity(cable_mm2) - inverter_input_a


@limit(
    "volts lost against the share allowed",
    severity="service",
    mend="choose a higher bank voltage, a shorter run or a thicker cable",
    standing="common practice, no source",
)
def inverter_drop_margin_frac(inverter_drop_frac, inverter_lost_frac):
    return inverter_drop_frac - inverter_lost_frac


# ---- the main cable, which everything runs through


@line(
    "power lost in the main cable, its joints and its fuse",
    standing="physics",
    source="Joule's law; lugs, terminals and the fuse stand in the way of the current as well",
)
def main_lost_w(running_current_a, cable_loop_ohm, joints_ohm, fuse_ohm):
    return running_current_a**2 * (cable_loop_ohm + joints_ohm + fuse_ohm)


#: From one cable's current and resistance to its loss, and to its loss after a step up in voltage.
STEP_UP = Sheet(cable_lost_w, raised_lost_w)
#: From the bank voltage to the current of an inverter whose battery is low.
LOW_CURRENT = Sheet(inverter_low_v, inverter_input_a)
#: Volts and watts that the current leaves in a cable of known resistance.
IN_THE_CABLE = Sheet(cable_loop_ohm, inverter_drop_v, inverter_lost_frac, inverter_lost_w)
#: One inverter on one cable: current, loss, and the copper that the drop allowed would take.
ONE_CABLE = (
    LOW_CURRENT
    + Sheet(cable_ohm_m)
    + IN_THE_CABLE
    + Sheet(lost_allowed_w, copper_wanted_mm2, cable_margin_a, inverter_drop_margin_frac, INVERTER["voltage_margin_a"])
)
#: From everything that runs together to what its cable turns into heat.
MAIN_CABLE = Sheet(BANK_1013["running_current_a"], cable_loop_ohm, main_lost_w)
