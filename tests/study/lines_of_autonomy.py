"""Lines of lesson 03: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _days(v):
    """Read the days from what may be used, whatever the page has for it: the rest of the source's names cancels."""
    return {
        "Ah_bank": v["bank_usable_wh"] / v["depth_frac"],
        "V_bank": 1,
        "DoD": v["depth_frac"],
        "f_ret": 1,
        "E_day": v["energy_day_wh"],
    }


def _usable(v):
    return {"Ah_bank": v["bank_wh"], "V_bank": 1, "DoD": v["depth_frac"], "f_ret": v["kept_frac"], "E_day": 1}


def _amp_hours(v):
    return {"Ah_bank": v["bank_ah"], "V_bank": v["bank_voltage_v"], "DoD": v["depth_frac"], "E_day": v["energy_day_wh"]}


BY_LINE = {
    "spell_ah": Reading(lambda v: {"E_day": v["day_ah"], "N": v["autonomy_days"]}),
    "bank_usable_wh": Reading(_usable),
    "autonomy_given_days": Reading(_days),
}
BY_MISTAKE = {
    # whoever leaves the limit out, or takes the amp-hours for the energy, goes back to the label
    "AU-06": Reading(_days, again=("bank_usable_wh",)),
    "AU-07": Reading(_amp_hours, again=("bank_usable_wh", "bank_wh")),
}
