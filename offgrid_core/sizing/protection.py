"""Protection of the main circuits: what a short circuit drives, and what a fuse or breaker must stand and open.

Three questions, each with its own lines. How much current flows into a dead short: the bank's is its voltage over
its *warm* resistance, as the cold one would understate it, and only what it sends back to the array passes a cable.
Can a device open that at the circuit's highest voltage. And does the device nearest the fault open first. Rows are
those of the circuits table, the module string first. Design exercise: local code and a licensed person decide.
"""

from offgrid_core.worksheet import Sheet, at_place, larger, largest_of, limit, line, smaller, sum_of

_FAULT = "Ohm's law; resistance of cables and joints left out, which is the cautious side"


@line(
    "highest charging voltage of the bank",
    standing="maker's data wanted",
    source="absorbing or equalizing, at the coldest battery, when charging is firmest",
)
def charge_most_v(absorb_set_v, equalize_set_v):
    return larger(absorb_set_v, equalize_set_v)


@line(
    "highest voltage of the circuit",
    standing="physics",
    source="array: open circuit on the coldest morning; bank: while charging",
)
def voltage_most_by_row_v(on_array_by_row_frac, string_voc_cold_v, charge_most_v):
    return on_array_by_row_frac * string_voc_cold_v + (1 - on_array_by_row_frac) * charge_most_v


@line("resting voltage of the full bank", standing="common practice, no source")
def bank_full_v(cells_count, cell_rest_voltage):
    return cells_count * cell_rest_voltage(1)


@line(
    "resistance of the warm bank",
    standing="classroom approximation, no source",
    source="all strings side by side; warm, because the cold one would understate the fault current",
)
def bank_warm_resistance_ohm(cells_count, cell_resistance_ohm_ah, bank_ah):
    return cells_count * cell_resistance_ohm_ah / bank_ah


@line("short-circuit current of the bank", standing="physics", source=_FAULT)
def bank_fault_a(bank_full_v, bank_warm_resistance_ohm):
    return bank_full_v / bank_warm_resistance_ohm


@line(
    "current that the other module strings push back into a faulty one",
    standing="standard",
    source="NEC 690.9(A) idea, from memory: the short-circuit current of the others, in bright sun",
)
def array_backfeed_a(strings_each_count, module_isc_a, bright_sun_factor):
    return (strings_each_count - 1) * module_isc_a * bright_sun_factor


@line(
    "resistance of the controller's cables, there and back, at 20 °C",
    standing="physics",
    source="third row of the circuits table; copper is proportional to 234.5 + temperature in °C",
)
def controller_loop_ohm(drop_by_row_v, current_by_row_a, wire_temp_c):
    return at_place(drop_by_row_v, 3) / at_place(current_by_row_a, 3) * (234.5 + 20) / (234.5 + wire_temp_c)


@line(
    "current that the bank sends back through a failed controller",
    standing="physics",
    source="Ohm's law, through the controller's cables; those of the array left out",
)
def through_controller_a(bank_full_v, bank_warm_resistance_ohm, controller_loop_ohm):
    return bank_full_v / (bank_warm_resistance_ohm + controller_loop_ohm)


@line(
    "short-circuit current to be opened",
    standing="common practice, no source",
    source="array: the other strings, and what the bank sends back through the controller; elsewhere the bank",
)
def fault_by_row_a(on_array_by_row_frac, array_backfeed_a, backfeed_frac, through_controller_a, bank_fault_a):
    return on_array_by_row_frac * (array_backfeed_a + backfeed_frac * through_controller_a) + (
        (1 - on_array_by_row_frac) * bank_fault_a
    )


@line(
    "largest series fuse of the module",
    standing="maker's data wanted",
    source="printed on the module; until it is known, the next size up of 1.56 × short-circuit current",
)
def module_fuse_max_a(next_fuse, module_isc_a):
    return next_fuse(1.5625 * module_isc_a)


@line(
    "what a module stands beyond that current",
    standing="standard",
    source="NEC 690.9(A), from memory: below zero every string needs a fuse, mostly from three strings on",
)
def unfused_spare_a(module_fuse_max_a, array_backfeed_a):
    return module_fuse_max_a - array_backfeed_a


@line("fuse of the module string", standing="physics", source="the first row of the circuits table")
def module_string_fuse_a(fuse_by_row_a):
    return at_place(fuse_by_row_a, 1)


@limit(
    "current into a faulty module string against the largest series fuse",
    severity="danger",
    mend="put a fuse into every string, none above the largest series fuse on the module's label",
    standing="maker's data wanted",
)
def module_fuse_margin_a(module_fuse_max_a, array_backfeed_a, module_string_fuse_a):
    return module_fuse_max_a - smaller(array_backfeed_a, module_string_fuse_a)


@limit(
    "fuse against the current to design for",
    severity="service",
    mend="choose the next size up: a fuse below the current opens with nothing wrong",
    standing="standard",
    source="rating not below the design current, NEC 690.9(B) and IEC 60364-4-43, from memory",
)
def fuse_current_margin_by_row_a(fuse_by_row_a, design_current_by_row_a):
    return fuse_by_row_a - design_current_by_row_a


@line("largest fuse after the battery strings", standing="physics")
def bank_fuse_most_a(on_array_by_row_frac, fuse_by_row_a):
    return largest_of((1 - on_array_by_row_frac) * fuse_by_row_a)


@line("all circuits of the bank at once", standing="common practice, no source", source="a ceiling: they seldom add up")
def bank_circuits_a(on_array_by_row_frac, design_current_by_row_a, circuits_by_row_count):
    return sum_of((1 - on_array_by_row_frac) * design_current_by_row_a * circuits_by_row_count)


@line("a battery string's share of them", standing="physics", source="strings that are alike")
def string_circuits_a(bank_circuits_a, strings_count):
    return bank_circuits_a / strings_count


@line(
    "fuse of each battery string",
    standing="common practice, no source",
    source="carries its share of all circuits, and leaves a fault after it to the fuse there",
)
def battery_string_fuse_a(next_fuse, selective_ratio, bank_fuse_most_a, bank_circuits_a, strings_count, fuse_most_a):
    return next_fuse(smaller(fuse_most_a, larger(selective_ratio * bank_fuse_most_a, bank_circuits_a) / strings_count))


@line(
    "main fuse of the bank",
    standing="common practice, no source",
    source="close to the bank, before the bar from which the circuits leave",
)
def bank_main_fuse_a(next_fuse, selective_ratio, bank_fuse_most_a, bank_circuits_a, fuse_most_a):
    return next_fuse(smaller(fuse_most_a, larger(selective_ratio * bank_fuse_most_a, bank_circuits_a)))


@line("string fuses together over the largest fuse after them", standing="physics", source="strings share a fault")
def selective_given_ratio(strings_count, battery_string_fuse_a, bank_fuse_most_a):
    return strings_count * battery_string_fuse_a / bank_fuse_most_a


@limit(
    "string fuses against the fuse that should open first",
    severity="service",
    mend="choose a larger string fuse with a lead to match, or more but smaller circuits",
    standing="common practice, no source",
    source="the maker's melting curves decide",
)
def selective_margin_ratio(selective_given_ratio, selective_ratio):
    return selective_given_ratio - selective_ratio


@limit(
    "device's DC voltage rating against the circuit's highest voltage",
    severity="danger",
    mend="choose a device made for this DC voltage: one that is not goes on burning after it opens",
    standing="standard",
    source="voltage rating not below the circuit's, NEC 690.9(C) and IEC 60947-2, from memory",
)
def device_voltage_margin_by_row_v(device_dc_by_row_v, voltage_most_by_row_v):
    return device_dc_by_row_v - voltage_most_by_row_v


@limit(
    "device's interrupting rating against the short-circuit current",
    severity="danger",
    mend="choose a device that opens this current, or put one that does before it: a lesser one can burst",
    standing="standard",
    source="NEC 110.9 and IEC 60364-4-43: not below the prospective fault current, from memory",
)
def device_interrupting_margin_by_row_a(device_interrupting_by_row_a, fault_by_row_a):
    return device_interrupting_by_row_a - fault_by_row_a


@limit(
    "fuse size inside the sizes the device is made in",
    severity="service",
    mend="choose a device that is made in this size",
    standing="maker's data wanted",
)
def device_size_margin_by_row_a(fuse_by_row_a, device_smallest_by_row_a, device_largest_by_row_a):
    return smaller(fuse_by_row_a - device_smallest_by_row_a, device_largest_by_row_a - fuse_by_row_a)


#: From the solved circuits table to fault currents, highest voltages and the order in which fuses open.
PROTECTION = Sheet(
    charge_most_v,
    voltage_most_by_row_v,
    bank_full_v,
    bank_warm_resistance_ohm,
    bank_fault_a,
    array_backfeed_a,
    controller_loop_ohm,
    through_controller_a,
    fault_by_row_a,
    module_fuse_max_a,
    unfused_spare_a,
    module_string_fuse_a,
    bank_fuse_most_a,
    bank_circuits_a,
    string_circuits_a,
    battery_string_fuse_a,
    bank_main_fuse_a,
    selective_given_ratio,
    fuse_current_margin_by_row_a,
    module_fuse_margin_a,
    selective_margin_ratio,
)
#: For chemistries that are never equalized.
NEVER_EQUALIZED = charge_most_v.with_expression("absorb_set_v")
#: What judges a device for each row.
DEVICES = Sheet(device_voltage_margin_by_row_v, device_interrupting_margin_by_row_a, device_size_margin_by_row_a)
