"""Whether parts go together at all, and what they cost: for judging every combination of a catalogue."""

from offgrid_core.worksheet import Sheet, limit, line, smaller


@limit(
    "bank voltage the inverter is made for",
    severity="danger",
    mend="choose an inverter made for this bank voltage",
    standing="maker's data wanted",
)
def inverter_bank_margin_v(inverter_bank_v, bank_voltage_v):
    return smaller(inverter_bank_v - bank_voltage_v, bank_voltage_v - inverter_bank_v)


@limit(
    "bank voltage the controller is made for",
    severity="danger",
    mend="choose a controller made for this bank voltage",
    standing="maker's data wanted",
)
def controller_bank_margin_v(controller_bank_v, bank_voltage_v):
    return smaller(controller_bank_v - bank_voltage_v, bank_voltage_v - controller_bank_v)


@line("cost of bank, array and controllers", standing="physics", source="prices of the catalogue are invented")
def dc_parts_cost(units_count, unit_cost, modules_count, module_cost, controllers_count, controller_cost):
    return units_count * unit_cost + modules_count * module_cost + controllers_count * controller_cost


@line("cost of all four kinds of part", standing="physics", source="prices of the catalogue are invented")
def parts_cost(dc_parts_cost, inverter_cost):
    return dc_parts_cost + inverter_cost


#: For every combination.
TOGETHER_DC = Sheet(controller_bank_margin_v, dc_parts_cost)
#: For combinations with an inverter.
TOGETHER_AC = Sheet(inverter_bank_margin_v, parts_cost)
