"""The controller for the lessons: how hard a bank is charged, and the rules of a drawing of array and controller.

A charging rate is the current as a share of the amp-hours, each hour, as the trade says it.
"""

from offgrid_core.sizing.array import ARRAY_LAYOUT
from offgrid_core.sizing.charging import CONTROLLER
from offgrid_core.worksheet import Sheet, larger, limit, line, smaller


@line(
    "charging rate of the bank as built",
    standing="common practice, no source",
    source="0.1 per h is a tenth of the amp-hours as amps, and would take about ten hours",
)
def charge_rate_per_h(charge_current_a, bank_ah):
    return charge_current_a / bank_ah


# ---- the rules of a drawing of array and controller; one row a module string


@limit(
    "DC volts of the array's disconnect against the cold-morning voltage",
    severity="danger",
    mend="choose a disconnect made for this DC voltage: one that is not goes on burning after it opens",
    standing="standard",
    source="voltage rating not below the circuit's, NEC 690.9(C) and IEC 60947-2, from memory",
)
def disconnect_margin_v(disconnect_dc_v, string_voc_cold_v):
    return disconnect_dc_v - string_voc_cold_v


@limit(
    "modules in the string against those of the others",
    severity="damage",
    mend="make every string equally long: a short one pulls the others down to its volts",
    standing="physics",
)
def string_length_margin_by_row_count(modules_by_row_count, modules_in_series_count):
    return smaller(modules_by_row_count, modules_in_series_count) - larger(
        modules_by_row_count, modules_in_series_count
    )


#: From the charging current to the rate that makers give limits for.
CHARGE_RATE = Sheet(charge_rate_per_h)
#: What a drawing of array and controller is checked by.
CONTROLLER_RULES = Sheet(
    *(ARRAY_LAYOUT[n] for n in ("string_voc_cold_v", "string_vmp_hot_v", "cold_voltage_margin_v")),
    disconnect_margin_v,
    ARRAY_LAYOUT["hot_voltage_margin_v"],
    string_length_margin_by_row_count,
    *(CONTROLLER[n] for n in ("controller_each_margin_a", "charge_ceiling_margin_a")),
)
