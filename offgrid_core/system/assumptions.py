"""What is assumed unless a plan says otherwise: each value with its standing, shown on every design sheet."""

from dataclasses import dataclass

_PRACTICE = "common practice, no source"
_CLASSROOM = "classroom approximation, no source"
_INVENTED = "invented classroom data"


@dataclass(frozen=True)
class Assumption:
    """One value taken when nobody gives one."""

    name: str
    value: float
    standing: str
    source: str = ""


_ALL = (
    Assumption("inverter_eff_frac", 0.90, _PRACTICE, "an average over the day, below the peak on the label"),
    Assumption("inverter_idle_w", 0.0, "maker's data wanted", "taken from the inverter chosen"),
    Assumption("inverter_on_h", 24.0, _PRACTICE, "left on day and night"),
    Assumption("dc_wiring_eff_frac", 0.98, _PRACTICE, "Sandia worksheets use 0.98 for wiring, from memory"),
    Assumption("growth_factor", 1.0, _PRACTICE, "1.1 to 1.2 where loads will grow (USAID, UFC 3-520-01)"),
    Assumption("current_wanted_a", 100.0, _PRACTICE, "more than 100 A wants a higher bank voltage"),
    Assumption("bank_current_max_a", 200.0, _PRACTICE, "cables and fuses above 200 A are work for a specialist"),
    Assumption("design_margin_factor", 1.10, "standard", "1.10 to 1.15, DOE-SPEC-3019-96"),
    Assumption("strings_max_count", 3.0, _PRACTICE, "one best, two good, three the usual limit"),
    Assumption("controller_headroom_v", 5.0, "maker's data wanted", "taken from the controller chosen"),
    Assumption("controller_factor", 1.25, "standard", "NEC 690.8(A): sun brighter than full sun, from memory"),
    Assumption("controllers_max_count", 4.0, _PRACTICE, "each must be set alike and fused by itself"),
    Assumption("full_sun_kw_m2", 1.0, "physics", "the definition of a peak sun hour"),
    Assumption("working_sun_kw_m2", 0.8, _PRACTICE, "the sunlight at which most energy arrives"),
    Assumption("tilt_least_deg", 10.0, _PRACTICE, "flatter, and rain does not wash the dust off"),
    Assumption("hot_day_rise_k", 12.0, _PRACTICE, "a hot afternoon above the hottest month's mean"),
    Assumption("cell_rise_k", 32.0, _PRACTICE, "30 to 35 K above air"),
    Assumption("soiling_frac", 0.03, _PRACTICE, "dirt between rains"),
    Assumption("wiring_loss_frac", 0.03, _PRACTICE, "a mean over the day; at full current the cables may lose more"),
    Assumption("mismatch_frac", 0.02, _PRACTICE, "modules are never quite alike"),
    Assumption(
        "array_load_ratio", 1.2, "standard", "1.1 to 1.2, critical loads 1.3 to 1.4 (IEEE Std 1562, from memory)"
    ),
    Assumption("refill_days", 14.0, _PRACTICE, "bank full again two weeks after the longest spell"),
    Assumption("inverter_margin_factor", 1.25, _PRACTICE, "25 to 30 % over the running load"),
    Assumption("inverter_derate_per_k", 0.02, "maker's data wanted", "about 2 % for each kelvin above the rating"),
    Assumption("part_load_frac", 0.25, "maker's data wanted", "the catalogue gives the efficiency at a quarter load"),
    Assumption("bank_heat_wh_kg_k", 0.25, _CLASSROOM, "about 0.9 kJ for each kilogram and kelvin, from memory"),
    Assumption("cold_snap_h", 96.0, _CLASSROOM, "four days from mild to mild"),
    Assumption("cycles_year_count", 365.0, _PRACTICE, "one cycle a day"),
    Assumption("float_life_years", 10.0, "maker's data wanted", "a bank that is hardly ever cycled"),
    Assumption("life_table_c", 25.0, _PRACTICE, "makers' tables are for 25 °C; European ones for 20 °C"),
    Assumption("halving_k", 10.0, _PRACTICE, "8, 8.3 and 10 K circulate: the same bank gives 2.5, 2.6 or 3.3 years"),
    Assumption("lift_max_kg", 25.0, _PRACTICE, "one person, close to the body, now and then"),
    Assumption("extra_max_frac", 0.10, _PRACTICE, "a string that works harder ages faster and drags the others along"),
    Assumption("link_ohm", 0.0005, _CLASSROOM, "half a metre of 35 mm² and two lugs"),
    Assumption("ambient_c", 30.0, _PRACTICE, "the temperature the ampacity tables are made for"),
    Assumption("circuits_together_count", 1.0, _PRACTICE, "cables laid apart"),
    Assumption("backfeed_frac", 1.0, _PRACTICE, "a failed controller passes the bank's current back"),
    Assumption("selective_ratio", 1.6, _PRACTICE, "fuse before fuse; the makers' curves decide"),
    Assumption("generator_start_frac", 0.5, _PRACTICE, "not below what the depth limit leaves"),
    Assumption("generator_stop_frac", 0.85, _PRACTICE, "above it the current tapers and fuel is burnt for little"),
    Assumption("charger_eff_frac", 0.9, "maker's data wanted"),
    Assumption("charger_pf_ratio", 0.8, "maker's data wanted"),
    Assumption("generator_other_w", 0.0, _PRACTICE, "for loading and fuel: nothing else hangs on it for hours"),
    Assumption("derate_altitude_frac", 0.035, _PRACTICE, "3.5 % for each 300 m"),
    Assumption("derate_heat_frac", 0.02, _PRACTICE, "2 % for each 10 K above 25 °C"),
    Assumption("loading_min_frac", 0.3, _PRACTICE, "a diesel that loafs soots up"),
    Assumption("cables_max_count", 2.0, _PRACTICE, "more cables in parallel seldom share evenly"),
)

#: Every assumption by name.
ASSUMPTIONS: dict[str, Assumption] = {a.name: a for a in _ALL}
#: What is taken where a design is followed over the years, its wear and its cost: no part of sizing.
YEARS_ASSUMPTIONS: dict[str, Assumption] = {
    a.name: a
    for a in (
        Assumption("reference_depth_frac", 0.5, _PRACTICE, "the depth that makers most often state cycles for"),
        Assumption("reconnect_frac", 0.3, _PRACTICE, "the loads come back when the bank has recovered well"),
        Assumption("run_least_h", 2.0, _PRACTICE, "a cold start for less wears the engine"),
        Assumption("bank_lag_h", 24.0, _CLASSROOM, "a day, where no enclosure is stated"),
        Assumption("air_swing_k", 8.0, _CLASSROOM, "from the coldest to the warmest hour of a day"),
        Assumption("discount_rate_frac", 0.05, _PRACTICE, "3 to 10 % above inflation are in use; it is a choice"),
        Assumption("horizon_years", 20.0, _PRACTICE, "20 to 25 years, about what an array lasts"),
        Assumption("battery_price_factor", 1.0, _INVENTED, "the price in the catalogue"),
        Assumption("generator_kw_cost", 500.0, _INVENTED),
        Assumption("balance_frac", 0.40, _INVENTED, "mounts, cable, protection and work"),
        Assumption("controller_life_years", 10.0, _PRACTICE, "10 to 15 years"),
        Assumption("inverter_life_years", 10.0, _PRACTICE, "10 to 15 years"),
        Assumption("generator_life_years", 10.0, _PRACTICE, "hours of running decide, and care"),
        Assumption("array_life_years", 25.0, _PRACTICE, "25 to 30 years"),
        Assumption("upkeep_frac", 0.01, _PRACTICE, "1 to 2 % of the first cost"),
        Assumption("fuel_litre_cost", 1.5, _INVENTED, "delivered to the site"),
        Assumption("fuel_growth_frac", 0.02, _INVENTED),
        Assumption("salvage_frac", 0.10, _PRACTICE, "scrap and second-hand value; 0 to 20 %"),
    )
}
#: Array-to-load ratio assumed instead where a load of the plan must not fail: 1.3 to 1.4, IEEE Std 1562, from memory.
CRITICAL_RATIO = 1.3
#: Heat that leaks between the battery and the room, and the battery and the open, W/K, by where it stands; a classroom
#: approximation, no source.
ENCLOSURES: dict[str, dict[str, float]] = {
    "open_shed": {"room_leak_w_k": 0.0, "open_leak_w_k": 20.0},
    "insulated_box": {"room_leak_w_k": 0.0, "open_leak_w_k": 2.0},
    "box_on_warm_wall": {"room_leak_w_k": 5.0, "open_leak_w_k": 2.0},
    "heated_room": {"room_leak_w_k": 20.0, "open_leak_w_k": 0.5},
}
