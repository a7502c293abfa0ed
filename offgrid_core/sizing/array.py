"""The solar array: the month that decides, the watts it takes, and modules in whole strings.

The design month is the month that asks for the largest array. It is not always the darkest: a summer load can
move it. Losses multiply. The array must also refill the bank after a dull spell and push enough current
through it at noon; the largest of the three demands counts.
"""

from offgrid_core.worksheet import (
    Sheet,
    at_place,
    down,
    larger,
    largest_of,
    limit,
    line,
    place_of_largest,
    smaller,
    up,
)

_NOCT = "nominal-operating-temperature model (Ross); wind and mounting move it by several degrees"


@line("peak sun hours a day on the array", standing="physics", source="1 kWh/m² of sun is one hour of full sun")
def peak_sun_by_month_h(plane_by_month_kwh_m2, shade_by_month_frac, full_sun_kw_m2):
    return plane_by_month_kwh_m2 * shade_by_month_frac / full_sun_kw_m2


@line("load for each hour of full sun", standing="physics")
def load_sun_by_month_w(battery_mean_by_month_wh, peak_sun_by_month_h):
    return battery_mean_by_month_wh / peak_sun_by_month_h


@line("cell temperature in working sun", standing="physics", source=_NOCT)
def cell_temp_by_month_c(air_temp_by_month_c, noct_c, working_sun_kw_m2):
    return air_temp_by_month_c + (noct_c - 20) / 0.8 * working_sun_kw_m2


@line("share of module power kept in the heat", standing="physics", source="never credited when cool")
def heat_kept_by_month_frac(power_temp_per_k, cell_temp_by_month_c):
    return smaller(1, 1 + power_temp_per_k * (cell_temp_by_month_c - 25))


@line("share kept after dirt, wiring and mismatch", standing="physics", source="losses multiply, they do not add")
def losses_kept_frac(soiling_frac, wiring_loss_frac, mismatch_frac):
    return (1 - soiling_frac) * (1 - wiring_loss_frac) * (1 - mismatch_frac)


@line("share the controller passes on", standing="maker's data wanted")
def converter_kept_frac(controller_eff_frac):
    return controller_eff_frac


@line("share of the sun's work that reaches the load", standing="physics")
def delivered_by_month_frac(losses_kept_frac, heat_kept_by_month_frac, converter_kept_frac, charge_eff_frac):
    return losses_kept_frac * heat_kept_by_month_frac * converter_kept_frac * charge_eff_frac


@line("array each month asks for", standing="standard", source="array-to-load ratio after IEEE Std 1562, from memory")
def array_by_month_w(load_sun_by_month_w, array_load_ratio, delivered_by_month_frac):
    return load_sun_by_month_w * array_load_ratio / delivered_by_month_frac


@line("design month", standing="standard", source="IEEE Std 1562 idea, from memory: the largest ratio of load to sun")
def design_month(array_by_month_w):
    return place_of_largest(array_by_month_w)


@line("peak sun hours in the design month", standing="physics")
def design_sun_h(peak_sun_by_month_h, design_month):
    return at_place(peak_sun_by_month_h, design_month)


@line("share delivered in the design month", standing="physics")
def design_delivered_frac(delivered_by_month_frac, design_month):
    return at_place(delivered_by_month_frac, design_month)


@line("mean load in the design month", standing="physics")
def design_load_wh(battery_mean_by_month_wh, design_month):
    return at_place(battery_mean_by_month_wh, design_month)


@line("array for the load", standing="standard", source="IEEE Std 1562, from memory")
def array_for_load_w(array_by_month_w):
    return largest_of(array_by_month_w)


@line("array to refill the bank", standing="common practice, no source", source="carrying the load meanwhile")
def array_for_refill_w(bank_usable_wh, refill_days, design_load_wh, design_sun_h, design_delivered_frac):
    return (bank_usable_wh / refill_days + design_load_wh) / (design_sun_h * design_delivered_frac)


@line("least current that charges the bank well", standing="common practice, no source")
def charge_floor_a(bank_ah, charge_rate_min_per_h):
    return bank_ah * charge_rate_min_per_h


@line("array for that current at noon", standing="common practice, no source")
def array_for_current_w(charge_floor_a, bank_voltage_v, converter_kept_frac, losses_kept_frac):
    return charge_floor_a * bank_voltage_v / (converter_kept_frac * losses_kept_frac)


@line("array needed", standing="common practice, no source", source="the largest of the three demands")
def array_needed_w(array_for_load_w, array_for_refill_w, array_for_current_w):
    return larger(array_for_load_w, array_for_refill_w, array_for_current_w)


@line("module strings", standing="physics")
def array_strings_count(array_needed_w, modules_in_series_count, module_w):
    return larger(1, up(array_needed_w / (modules_in_series_count * module_w)))


@line("modules in all", standing="physics")
def modules_count(array_strings_count, modules_in_series_count):
    return array_strings_count * modules_in_series_count


@line("array as built", standing="physics")
def array_w(modules_count, module_w):
    return modules_count * module_w


@line("energy the array brings on a mean day of the design month", standing="physics")
def array_day_wh(array_w, design_sun_h, design_delivered_frac):
    return array_w * design_sun_h * design_delivered_frac


@line("array-to-load ratio of the array as built", standing="physics")
def array_given_ratio(array_day_wh, design_load_wh):
    return array_day_wh / design_load_wh


@line("what is left of it for the bank", standing="physics")
def surplus_day_wh(array_day_wh, design_load_wh):
    return array_day_wh - design_load_wh


@line(
    "days to refill the bank as built",
    standing="common practice, no source",
    source="carrying the load meanwhile; 999 stands for never",
)
def refill_given_days(bank_usable_wh, surplus_day_wh):
    return bank_usable_wh / larger(surplus_day_wh, bank_usable_wh / 999)


@line("open-circuit voltage of a string on the coldest morning", standing="physics")
def string_voc_cold_v(modules_in_series_count, module_voc_v, voc_temp_per_k, air_coldest_c):
    return modules_in_series_count * module_voc_v * (1 + voc_temp_per_k * (air_coldest_c - 25))


@line(
    "the same by the code table",
    standing="standard",
    source="NEC Table 690.7(A), silicon modules without a coefficient: the more cautious of the two",
)
def string_voc_table_v(modules_in_series_count, module_voc_v, cold_voltage_factor, air_coldest_c):
    return modules_in_series_count * module_voc_v * cold_voltage_factor(25 - air_coldest_c)


@line("hottest air", standing="common practice, no source", source="hottest month's mean, and a hot day")
def air_hot_c(air_temp_by_month_c, hot_day_rise_k):
    return largest_of(air_temp_by_month_c) + hot_day_rise_k


@line("hottest cell", standing="common practice, no source", source="hottest air, and sun on the glass")
def cell_hottest_c(air_hot_c, cell_rise_k):
    return air_hot_c + cell_rise_k


@line("working voltage of a string on the hottest day", standing="physics")
def string_vmp_hot_v(modules_in_series_count, module_vmp_v, power_temp_per_k, cell_hottest_c):
    return modules_in_series_count * module_vmp_v * (1 + power_temp_per_k * (cell_hottest_c - 25))


@line("most modules in series", standing="physics", source="a ceiling: rounded down")
def series_most_count(controller_voltage_max_v, module_voc_v, voc_temp_per_k, air_coldest_c):
    return down(controller_voltage_max_v / (module_voc_v * (1 + voc_temp_per_k * (air_coldest_c - 25))))


@line("fewest modules in series", standing="physics", source="a floor: rounded up")
def series_fewest_count(start_voltage_v, module_vmp_v, power_temp_per_k, cell_hottest_c):
    return up(start_voltage_v / (module_vmp_v * (1 + power_temp_per_k * (cell_hottest_c - 25))))


@limit(
    "cold-morning voltage against the controller's highest",
    severity="danger",
    mend="put fewer modules in series or choose a controller for a higher voltage",
    standing="standard",
    source="NEC 690.7: module coefficient at the lowest expected temperature",
)
def cold_voltage_margin_v(controller_voltage_max_v, string_voc_cold_v):
    return controller_voltage_max_v - string_voc_cold_v


@limit(
    "hot-day voltage against what charging needs",
    severity="service",
    mend="put more modules in series",
    standing="physics",
)
def hot_voltage_margin_v(string_vmp_hot_v, start_voltage_v):
    return string_vmp_hot_v - start_voltage_v


@limit(
    "array as built against the array needed",
    severity="service",
    mend="add module strings",
    standing="common practice, no source",
)
def array_margin_w(array_w, array_needed_w):
    return array_w - array_needed_w


#: From the months' sun and load to the watts needed.
ARRAY_NEED = Sheet(
    peak_sun_by_month_h,
    load_sun_by_month_w,
    cell_temp_by_month_c,
    converter_kept_frac,
    heat_kept_by_month_frac,
    losses_kept_frac,
    delivered_by_month_frac,
    array_by_month_w,
    design_month,
    design_sun_h,
    design_delivered_frac,
    design_load_wh,
    array_for_load_w,
)
#: The bank's two demands on the array, and the largest of the three.
ARRAY_FOR_BANK = Sheet(array_for_refill_w, charge_floor_a, array_for_current_w, array_needed_w)
#: Modules in whole strings, between the coldest and the hottest day.
ARRAY_LAYOUT = Sheet(
    array_strings_count,
    modules_count,
    array_w,
    array_day_wh,
    array_given_ratio,
    surplus_day_wh,
    refill_given_days,
    string_voc_cold_v,
    air_hot_c,
    cell_hottest_c,
    string_vmp_hot_v,
    series_most_count,
    series_fewest_count,
    cold_voltage_margin_v,
    hot_voltage_margin_v,
    array_margin_w,
)
#: The cautious table beside the coefficient, where the code setting has one and it reaches that cold.
COLD_VOLTAGE_TABLE = Sheet(string_voc_table_v)
#: A direct (pulse-width) controller holds the modules at battery voltage: what they could do above it is lost.
DIRECT_CONVERTER = converter_kept_frac.with_expression(
    "smaller(1, bank_voltage_v / (modules_in_series_count * module_vmp_v))"
)
#: Held below its working voltage a module hardly loses in the heat, until the heat brings that voltage down to it.
DIRECT_HEAT = heat_kept_by_month_frac.with_expression(
    "smaller(1, (1 + power_temp_per_k * (cell_temp_by_month_c - 25)) / converter_kept_frac)"
)
#: With an array already on hand the module strings are counted, not worked out.
OWNED_MODULES = array_strings_count.with_expression("down(owned_modules_count / modules_in_series_count)")
