"""Bank voltage: the lowest of the usual steps at which the current stays reasonable."""

from offgrid_core.worksheet import Sheet, Table, line, smaller

#: The voltages banks are built at.
VOLTAGE_STEPS = Table(
    "next bank voltage", (12.0, 24.0, 48.0), (12.0, 24.0, 48.0), "V", "V", "common practice, no source", between="next"
)


@line("voltage at which the current would be at its limit", standing="physics")
def voltage_least_v(peak_w, dc_peak_w, inverter_eff_frac, current_wanted_a):
    return (peak_w / inverter_eff_frac + dc_peak_w) / current_wanted_a


@line(
    "bank voltage suggested", standing="common practice, no source", source="12, 24, 48 V; above 48 V is another trade"
)
def voltage_suggested_v(voltage_steps, voltage_least_v):
    return voltage_steps(smaller(48, voltage_least_v))


#: From the power running together to 12, 24 or 48 V.
VOLTAGE = Sheet(voltage_least_v, voltage_suggested_v)
