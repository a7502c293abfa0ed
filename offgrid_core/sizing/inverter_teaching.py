"""Two choices round an inverter: what a motor takes at the plug, and the label rating that carries a load in the heat.

The power on a motor's nameplate is what comes out at the shaft. The rating on an inverter's label holds up to an air
temperature; the share kept above it is the core's own rule, turned round here to choose by.
"""

from offgrid_core.worksheet import Sheet, line


@line(
    "power the motor takes while it runs",
    standing="physics",
    source="1 horsepower at the shaft is 746 W, as nameplates of electric motors count it, from memory",
)
def motor_input_w(shaft_hp, motor_eff_frac):
    return shaft_hp * 746 / motor_eff_frac


@line("share of the inverter's rating kept in that heat", standing="maker's data wanted")
def inverter_heat_frac(inverter_hot_w, inverter_rated_w):
    return inverter_hot_w / inverter_rated_w


@line("inverter watts wanted for that heat", standing="maker's data wanted", source="on the label")
def inverter_for_heat_w(peak_w, inverter_heat_frac):
    return peak_w / inverter_heat_frac


#: From a motor's nameplate to its running power.
MOTOR = Sheet(motor_input_w)
#: From an inverter in the heat to the label rating that carries the load there.
IN_HEAT = Sheet(inverter_heat_frac, inverter_for_heat_w)
