"""What is assumed unless a plan says otherwise: each value with its standing, shown on every design sheet."""

from dataclasses import dataclass

_PRACTICE = "common practice, no source"


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
    Assumption("full_sun_kw_m2", 1.0, "physics", "the definition of a peak sun hour"),
    Assumption("working_sun_kw_m2", 0.8, _PRACTICE, "the sunlight at which most energy arrives"),
    Assumption("hot_day_rise_k", 12.0, _PRACTICE, "a hot afternoon above the hottest month's mean"),
    Assumption("cell_rise_k", 32.0, _PRACTICE, "30 to 35 K above air"),
    Assumption("soiling_frac", 0.03, _PRACTICE, "dirt between rains"),
    Assumption("wiring_loss_frac", 0.03, _PRACTICE, "the drop allowed in array and controller cables"),
    Assumption("mismatch_frac", 0.02, _PRACTICE, "modules are never quite alike"),
    Assumption(
        "array_load_ratio", 1.2, "standard", "1.1 to 1.2, critical loads 1.3 to 1.4 (IEEE Std 1562, from memory)"
    ),
    Assumption("refill_days", 14.0, _PRACTICE, "bank full again two weeks after the longest spell"),
    Assumption("inverter_margin_factor", 1.25, _PRACTICE, "25 to 30 % over the running load"),
    Assumption("ambient_c", 30.0, _PRACTICE, "the temperature the ampacity tables are made for"),
    Assumption("grouping_frac", 1.0, _PRACTICE, "cables laid apart"),
    Assumption("cables_max_count", 2.0, _PRACTICE, "more cables in parallel seldom share evenly"),
)

#: Every assumption by name.
ASSUMPTIONS: dict[str, Assumption] = {a.name: a for a in _ALL}
