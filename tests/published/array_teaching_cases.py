"""Published examples: sun in megajoules, and modules on one roof."""

from published.case import PRACTICE, Case

from offgrid_core.sizing.array import ARRAY_NEED
from offgrid_core.sizing.array_teaching import MODULE_CURRENTS, ON_THE_ROOF, SUN_READ

_MADISON = "Duffie & Beckman, Solar Engineering of Thermal Processes, example 2.19.1: Madison on 60°"
_SIX = {"module_mass_kg": 21.6, "roof_mass_max_kg": 122, "modules_count": 6}

ARRAY_TEACHING_CASES = [
    Case(
        "megajoules December", "sun", SUN_READ, "plane_by_month_kwh_m2", {"plane_by_month_mj_m2": 12.7},
        3.528, 1e-3, _MADISON, "seen, computed", "12.7 MJ/m² in the book; 1 kWh is 3.6 MJ",
    ),
    Case(
        "megajoules to peak sun hours", "sun", SUN_READ + ARRAY_NEED.upto("peak_sun_by_month_h"), "peak_sun_by_month_h",
        {"plane_by_month_mj_m2": 13.7, "shade_by_month_frac": 1, "full_sun_kw_m2": 1},
        3.806, 1e-3, _MADISON, "seen, computed", "January",
    ),
    Case(
        "working current of a module", "array", MODULE_CURRENTS, "module_imp_frac",
        {"array_w": 1800, "array_strings_count": 2, "modules_in_series_count": 3, "module_vmp_v": 31.25,
         "module_isc_a": 10.24},
        0.9375, 1e-9, "watts are volts times amps", "common practice, computed", "six modules of 300 W, 9.6 A each",
    ),
    Case(
        "weight on a roof", "array", ON_THE_ROOF, "roof_mass_margin_kg", _SIX,
        -7.6, 1e-6, PRACTICE, "common practice, computed", "six modules of 21.6 kg are 129.6 kg",
    ),
]  # fmt: skip
