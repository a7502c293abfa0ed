"""What stands on the form of a complete design, and the rules it is judged by, in four groups.

The rules are named here and nothing more: each is a limit of a worksheet, a wish of the client, or a number of the form
that has to follow from the rest of it.
"""

from dataclasses import dataclass

PART, CHOSEN, WORKED = "part", "chosen", "worked"
SAFETY, ENERGY, EQUIPMENT, ECONOMY = "safety", "energy", "equipment", "economy"
#: Parts of the form, and what is entered in each: a part of the catalogue, a number that is chosen, a number worked
#: from the others. What stands under wiring is entered once a circuit.
FORM: dict[str, tuple[tuple[str, str], ...]] = {
    "loads": (("peak_w", WORKED), ("dc_peak_w", WORKED), ("energy_day_wh", WORKED)),
    "bank": (
        ("bank_voltage_v", CHOSEN),
        ("battery_unit", PART),
        ("units_in_series_count", WORKED),
        ("bank_needed_ah", WORKED),
        ("strings_count", CHOSEN),
        ("bank_ah", WORKED),
        ("absorb_set_v", WORKED),
    ),
    "array": (
        ("module", PART),
        ("modules_in_series_count", CHOSEN),
        ("array_needed_w", WORKED),
        ("array_strings_count", CHOSEN),
        ("array_w", WORKED),
        ("string_voc_cold_v", WORKED),
    ),
    "controller": (("controller", PART), ("controllers_count", CHOSEN), ("charge_current_a", WORKED)),
    "inverter": (("inverter", PART), ("inverter_input_a", WORKED)),
    "wiring": (("fuse_by_row_a", CHOSEN), ("cable_by_row_mm2", CHOSEN), ("device", PART)),
    "generator": (("generator_rated_w", CHOSEN), ("generator_rated_va", CHOSEN), ("charger_rated_a", CHOSEN)),
}
#: What the worst year, the wear and the catalogue's prices say, and the wish that each is held to.
AT_MOST = {"loss_energy_frac": "loss_most_frac", "generator_ran_h": "generator_most_h", "parts_cost": "budget_cost"}
AT_LEAST = {"lowest_charge_frac": "lowest_wanted_frac", "bank_life_years": "life_wanted_years"}


@dataclass(frozen=True)
class Rule:
    """A rule: a limit, a wish, or a number that has to follow from the rest of the form.

    Attributes
    ----------
    name
        Of the limit, the outcome or the number.
    group
        One of the four groups.
    at
        The entry that a learner looks at first where it is broken.
    needs
        Parts of the form without which it cannot be judged; ``"wiring"`` is that of its own circuit.
    """

    name: str
    group: str
    at: str
    needs: tuple[str, ...]


def _rules(group: str, *rows: str) -> tuple[Rule, ...]:
    """Return rules from rows of a name, the entry looked at and the parts of the form needed."""
    split = [row.split() for row in rows]
    return tuple(Rule(name, group, at, tuple(needs)) for name, at, *needs in split)


_ALL = "bank array controller inverter circuits generator"
RULES = (
    *_rules(
        SAFETY,
        "inverter_bank_margin_v inverter bank inverter",
        "controller_bank_margin_v controller bank controller",
        "series_margin_count battery_unit bank",
        "units_in_series_count units_in_series_count bank",
        "cold_voltage_margin_v modules_in_series_count array controller",
        "module_fuse_margin_a array_strings_count bank array controller circuits",
        "fuse_margin_by_row_a cable_by_row_mm2 wiring",
        "fuse_limit_margin_by_row_a cable_by_row_mm2 wiring",
        "device_voltage_margin_by_row_v device bank array wiring",
        "device_interrupting_margin_by_row_a device bank array controller inverter circuits",
    ),
    *_rules(
        ENERGY,
        "peak_w peak_w loads",
        "dc_peak_w dc_peak_w loads",
        "energy_day_wh energy_day_wh inverter",
        "bank_needed_ah bank_needed_ah bank inverter",
        "bank_ah bank_ah bank",
        "array_needed_w array_needed_w bank array controller inverter",
        "array_w array_w array",
        "bank_margin_ah strings_count bank inverter",
        "rate_margin_ah strings_count bank inverter",
        "array_margin_w array_strings_count bank array controller inverter",
        "drop_margin_by_row_frac cable_by_row_mm2 bank array controller inverter wiring",
        f"loss_energy_frac array_strings_count {_ALL}",
        f"lowest_charge_frac strings_count {_ALL}",
        f"generator_ran_h charger_rated_a {_ALL}",
    ),
    *_rules(
        EQUIPMENT,
        "absorb_set_v absorb_set_v bank",
        "daily_depth_margin_frac strings_count bank inverter",
        "discharge_margin_a strings_count bank inverter",
        "string_voc_cold_v string_voc_cold_v array",
        "hot_voltage_margin_v modules_in_series_count bank array controller",
        "charge_floor_margin_a array_strings_count bank array controller",
        "charge_ceiling_margin_a array_strings_count bank array controller",
        "unit_charge_margin_a array_strings_count bank array controller",
        "charge_current_a charge_current_a bank array",
        "controller_each_margin_a controllers_count bank array controller",
        "inverter_margin_w inverter inverter",
        "inverter_margin_va inverter inverter",
        "heat_margin_w inverter inverter",
        "surge_margin_w inverter inverter",
        "cutoff_margin_v inverter bank inverter",
        "inverter_input_a inverter_input_a bank inverter",
        "voltage_margin_a bank_voltage_v bank inverter",
        "fuse_current_margin_by_row_a fuse_by_row_a bank array controller inverter wiring",
        "device_size_margin_by_row_a device wiring",
        "generator_margin_va generator_rated_va bank inverter generator",
        "generator_margin_w generator_rated_w bank inverter generator",
        "loading_margin_frac generator_rated_w bank inverter generator",
    ),
    *_rules(
        ECONOMY,
        "strings_margin_count strings_count bank",
        "controllers_margin_count controllers_count controller",
        "parts_cost module bank array controller inverter",
        f"bank_life_years battery_unit {_ALL}",
    ),
)
