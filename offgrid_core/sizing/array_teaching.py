"""The array for the lessons: sun in megajoules, a load moved between the halves of a year, modules and their roof."""

from offgrid_core.worksheet import Sheet, limit, line, sum_of

_RULE = "common practice, no source"


@line("sun on the tilted array a day", standing="physics", source="1 kWh is 3.6 MJ, exactly")
def plane_by_month_kwh_m2(plane_by_month_mj_m2):
    return plane_by_month_mj_m2 / 3.6


# ---- the same energy in the year, more of it in one half


@line("winter's share of the energy, as the loads list has it", standing="physics")
def winter_listed_frac(listed_by_month_wh, winter_half_by_month_frac):
    return sum_of(listed_by_month_wh * winter_half_by_month_frac) / sum_of(listed_by_month_wh)


@line(
    "mean energy out of the battery a day",
    standing="physics",
    source="twelve months counted alike; what one half of the year gains, the other loses",
)
def battery_mean_by_month_wh(listed_by_month_wh, winter_half_by_month_frac, winter_share_frac, winter_listed_frac):
    return listed_by_month_wh * (
        winter_half_by_month_frac * winter_share_frac / winter_listed_frac
        + (1 - winter_half_by_month_frac) * (1 - winter_share_frac) / (1 - winter_listed_frac)
    )


# ---- the two currents of a module's label


@line("module working current", standing="physics")
def module_imp_a(array_w, array_strings_count, modules_in_series_count, module_vmp_v):
    return array_w / (array_strings_count * modules_in_series_count * module_vmp_v)


@line("working current as a share of the short-circuit current", standing="physics")
def module_imp_frac(module_imp_a, module_isc_a):
    return module_imp_a / module_isc_a


# ---- modules carried up to a roof


@limit(
    "weight of one module against what the hoist takes",
    severity="danger",
    mend="choose a lighter module, or a stronger hoist",
    standing=_RULE,
    source="the hoist, its fixing and local rules decide",
)
def module_lift_margin_kg(lift_max_kg, module_mass_kg):
    return lift_max_kg - module_mass_kg


@limit(
    "weight of all modules against what the roof carries",
    severity="danger",
    mend="choose fewer or lighter modules, or stand them on the ground",
    standing=_RULE,
    source="what a roof carries, with snow and wind on it, is for a builder to say",
)
def roof_mass_margin_kg(roof_mass_max_kg, modules_count, module_mass_kg):
    return roof_mass_max_kg - modules_count * module_mass_kg


@limit("places on the roof against the modules", severity="service", mend="choose stronger modules", standing="physics")
def roof_places_margin_count(roof_places_count, modules_count):
    return roof_places_count - modules_count


#: From megajoules, as read in a table of sun, to what the worksheets use.
SUN_READ = Sheet(plane_by_month_kwh_m2)
#: The loads list with more or less of its energy in the winter half of the year.
SEASONS = Sheet(winter_listed_frac, battery_mean_by_month_wh)
#: The two currents of a module's label, one against the other.
MODULE_CURRENTS = Sheet(module_imp_a, module_imp_frac)
#: What a roof and the people who climb it say of the modules.
ON_THE_ROOF = Sheet(module_lift_margin_kg, roof_mass_margin_kg, roof_places_margin_count)
