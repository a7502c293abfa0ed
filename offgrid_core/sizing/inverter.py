"""The inverter: watts, volt-amps and surge, and the current it draws when the battery is low, cold and worked hard."""

from offgrid_core.sizing.array import air_hot_c
from offgrid_core.worksheet import Sheet, larger, limit, line


@line("inverter watts needed", standing="common practice, no source")
def inverter_needed_w(peak_w, inverter_margin_factor):
    return peak_w * inverter_margin_factor


@line(
    "resistance of the bank", standing="classroom approximation, no source", source="rises as the cold takes capacity"
)
def bank_resistance_ohm(cells_count, cell_resistance_ohm_ah, bank_ah, kept_frac):
    return cells_count * cell_resistance_ohm_ah / (bank_ah * kept_frac)


@line("resting voltage at the depth limit", standing="common practice, no source")
def rest_low_v(cells_count, cell_rest_voltage, depth_frac):
    return cells_count * cell_rest_voltage(1 - depth_frac)


@line("inverter current at the nominal voltage", standing="physics")
def inverter_nominal_a(inverter_rated_w, inverter_eff_frac, bank_voltage_v):
    return inverter_rated_w / (inverter_eff_frac * bank_voltage_v)


@line(
    "lowest voltage while the inverter works", standing="physics", source="resting voltage less what the current drops"
)
def inverter_low_v(rest_low_v, inverter_nominal_a, bank_resistance_ohm):
    return rest_low_v - inverter_nominal_a * bank_resistance_ohm


@line(
    "voltage at the inverter's terminals",
    standing="common practice, no source",
    source="less the drop allowed in the cable, over the current at the nominal voltage",
)
def inverter_terminal_v(inverter_low_v, inverter_drop_frac, bank_voltage_v):
    return inverter_low_v - inverter_drop_frac * bank_voltage_v


@line("inverter watts in that heat", standing="maker's data wanted", source="a fixed share less for each kelvin")
def inverter_hot_w(inverter_rated_w, inverter_derate_per_k, air_hot_c, inverter_temp_rated_c):
    return inverter_rated_w * larger(0, 1 - inverter_derate_per_k * larger(0, air_hot_c - inverter_temp_rated_c))


@line(
    "inverter input current at the bank's lowest working voltage",
    standing="standard",
    source="after NEC 690.8(A), stand-alone inverter input, from memory: rated watts at the lowest voltage; here the "
    "bank's, before the drop in the cable, and the efficiency that the day's energy is counted with",
)
def inverter_input_a(inverter_rated_w, inverter_eff_frac, inverter_low_v):
    return inverter_rated_w / (inverter_eff_frac * inverter_low_v)


@limit(
    "inverter watts against the load",
    severity="service",
    mend="choose a larger inverter, or keep large loads from running together",
    standing="common practice, no source",
)
def inverter_margin_w(inverter_rated_w, inverter_needed_w):
    return inverter_rated_w - inverter_needed_w


@limit(
    "inverter volt-amps against the load",
    severity="service",
    mend="choose a larger inverter: poor power factor asks for amps",
    standing="physics",
)
def inverter_margin_va(inverter_rated_va, peak_va):
    return inverter_rated_va - peak_va


@limit(
    "inverter surge against the hardest start",
    severity="service",
    mend="choose an inverter with more surge, or a load that starts softly",
    standing="maker's data wanted",
)
def surge_margin_w(inverter_surge_w, surge_w):
    return inverter_surge_w - surge_w


@limit(
    "lowest voltage at the inverter against its cut-off",
    severity="service",
    mend="use less depth, build more amp-hours, thicken the cable, or lower the cut-off if the maker allows it",
    standing="physics",
)
def cutoff_margin_v(inverter_terminal_v, inverter_cutoff_v):
    return inverter_terminal_v - inverter_cutoff_v


@limit(
    "inverter watts in the heat against the load",
    severity="service",
    mend="choose a larger inverter, or move it out of the heat",
    standing="maker's data wanted",
)
def heat_margin_w(inverter_hot_w, peak_w):
    return inverter_hot_w - peak_w


@limit(
    "inverter current against what the bank may give",
    severity="damage",
    mend="add strings or choose units that may give more",
    standing="maker's data wanted",
)
def discharge_margin_a(strings_count, unit_discharge_a, inverter_input_a):
    return strings_count * unit_discharge_a - inverter_input_a


@limit(
    "inverter current against what wires and fuses like",
    severity="service",
    mend="choose a higher bank voltage: twice the volts, half the amps",
    standing="common practice, no source",
    source="above 100 to 200 A a higher voltage is wanted",
)
def voltage_margin_a(bank_current_max_a, inverter_input_a):
    return bank_current_max_a - inverter_input_a


#: From the loads that run together to the inverter and its battery current.
INVERTER = Sheet(
    inverter_needed_w,
    bank_resistance_ohm,
    inverter_nominal_a,
    inverter_low_v,
    inverter_terminal_v,
    inverter_input_a,
    air_hot_c,
    inverter_hot_w,
    inverter_margin_w,
    inverter_margin_va,
    heat_margin_w,
    surge_margin_w,
    cutoff_margin_v,
    discharge_margin_a,
    voltage_margin_a,
)
#: What decides whether an inverter is large enough, without the bank.
INVERTER_CHOICE = INVERTER.upto("inverter_margin_w", "inverter_margin_va", "heat_margin_w", "surge_margin_w")
