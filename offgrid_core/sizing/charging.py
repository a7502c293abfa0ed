"""The charge controller: how many amps, how many controllers, what the bank likes, and the set-points."""

from offgrid_core.worksheet import Sheet, larger, limit, line, up


@line("cells in series", standing="physics")
def cells_count(bank_voltage_v, cells_12v_count):
    return bank_voltage_v / 12 * cells_12v_count


@line(
    "absorption set-point at the battery's temperature",
    standing="common practice, no source",
    source="charge firmer when cold: the compensation is negative, per cell and kelvin from 25 °C",
)
def absorb_set_v(cells_count, absorb_cell_v, compensation_mv_k, battery_temp_c):
    return cells_count * (absorb_cell_v + compensation_mv_k / 1000 * (battery_temp_c - 25))


@line(
    "float set-point at the battery's temperature",
    standing="common practice, no source",
    source="compensated like the absorption set-point",
)
def float_set_v(cells_count, float_cell_v, compensation_mv_k, battery_temp_c):
    return cells_count * (float_cell_v + compensation_mv_k / 1000 * (battery_temp_c - 25))


@line(
    "equalizing set-point at the battery's temperature",
    standing="maker's data wanted",
    source="vented cells only, now and then, watched, and with the air moving",
)
def equalize_set_v(cells_count, equalize_cell_v, compensation_mv_k, battery_temp_c):
    return cells_count * (equalize_cell_v + compensation_mv_k / 1000 * (battery_temp_c - 25))


@line("compensation of the whole bank", standing="common practice, no source", source="negative: firmer when cold")
def bank_compensation_mv_k(cells_count, compensation_mv_k):
    return cells_count * compensation_mv_k


@line("array voltage that charging needs", standing="maker's data wanted")
def start_voltage_v(absorb_set_v, controller_headroom_v):
    return absorb_set_v + controller_headroom_v


@line("charging current at full sun", standing="common practice, no source", source="array watts ÷ bank voltage")
def charge_current_a(array_w, bank_voltage_v):
    return array_w / bank_voltage_v


@line(
    "controller amps needed", standing="common practice, no source", source="with room for sun brighter than full sun"
)
def controller_needed_a(charge_current_a, controller_factor):
    return charge_current_a * controller_factor


@line("controllers side by side", standing="physics")
def controllers_count(controller_needed_a, controller_rated_a):
    return larger(1, up(controller_needed_a / controller_rated_a))


@line("module strings on one controller", standing="physics", source="where they do not divide evenly, the most")
def strings_each_count(array_strings_count, controllers_count):
    return up(array_strings_count / controllers_count)


@line("current of the array circuit of one controller", standing="physics")
def array_circuit_a(strings_each_count, module_isc_a):
    return strings_each_count * module_isc_a


@line("charging current of one controller", standing="physics")
def controller_each_a(charge_current_a, strings_each_count, array_strings_count):
    return charge_current_a * strings_each_count / array_strings_count


@line(
    "current of the circuit from one controller to the bank",
    standing="standard",
    source="tracking: all of its rating may flow, NEC 690.8(A) on converter outputs, from memory; direct: the modules'",
)
def controller_circuit_a(controller_rated_a):
    return controller_rated_a


@limit(
    "rating of one controller against its share of the strings",
    severity="damage",
    mend="choose a number of strings that the controllers divide evenly, or controllers with more amps",
    standing="common practice, no source",
)
def controller_each_margin_a(controller_rated_a, controller_each_a, controller_factor):
    return controller_rated_a - controller_each_a * controller_factor


@limit(
    "controllers side by side against the most wanted",
    severity="service",
    mend="choose a controller with more amps, or a higher bank voltage",
    standing="common practice, no source",
    source="each one must be set alike and fused by itself",
)
def controllers_margin_count(controllers_max_count, controllers_count):
    return controllers_max_count - controllers_count


@limit(
    "charging current against the least the bank wants",
    severity="damage",
    mend="add modules: a bank that is never pushed keeps its acid in layers",
    standing="common practice, no source",
)
def charge_floor_margin_a(charge_current_a, charge_floor_a):
    return charge_current_a - charge_floor_a


@limit(
    "charging current against the most the bank stands",
    severity="damage",
    mend="limit the controller's current, or build a larger bank",
    standing="maker's data wanted",
)
def charge_ceiling_margin_a(bank_ah, charge_rate_max_per_h, charge_current_a):
    return bank_ah * charge_rate_max_per_h - charge_current_a


@limit(
    "battery temperature against the coldest it may be charged at",
    severity="damage",
    mend="warm the battery or stop charging below the limit",
    standing="maker's data wanted",
)
def charge_temp_margin_k(battery_temp_c, charge_temp_min_c):
    return battery_temp_c - charge_temp_min_c


#: Cells and set-points: wanted before the array is laid out.
SET_POINTS = Sheet(
    cells_count, absorb_set_v, float_set_v, bank_compensation_mv_k, start_voltage_v, charge_temp_margin_k
)
#: For chemistries that are equalized.
EQUALIZE = Sheet(equalize_set_v)
#: From the array as built to controllers and to the current the bank sees.
CONTROLLER = Sheet(
    charge_current_a,
    controller_needed_a,
    controllers_count,
    strings_each_count,
    array_circuit_a,
    controller_each_a,
    controller_circuit_a,
    controller_each_margin_a,
    controllers_margin_count,
    charge_floor_margin_a,
    charge_ceiling_margin_a,
)
#: With a direct (pulse-width) controller the battery sees the modules' own current.
DIRECT_CURRENT = charge_current_a.with_expression("array_strings_count * module_isc_a")
#: So do its cables, in bright sun too.
DIRECT_CIRCUIT = controller_circuit_a.with_expression("controller_each_a")
