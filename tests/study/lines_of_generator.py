"""Lines of lesson 11: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _energy(v):
    """The change of charge of a label; the amp-hours are those at its voltage."""
    start, stop = v["generator_start_frac"], v["generator_stop_frac"]
    label = v.get("bank_ah", 1)
    volts = v["bank_wh"] / label if "bank_wh" in v else 1
    return {
        "Ah_bank": label,
        "V_bank": volts,
        "S_start": start,
        "S_stop": stop,
        "dSOC": stop - start,
        "eta_b": v.get("charge_eff_frac", 1),
    }


def _left_for_the_bank(v):
    """Power is what the text divides by; the charger is known by what it gives."""
    eff = v.get("charger_eff_frac", 1)
    return {
        "E_def": 1000,
        "P_chg": v["charger_dc_w"] / eff,
        "eta_chg": eff,
        "P_gen": v.get("generator_rated_w"),
        "P_ld": v["dc_running_w"],
    }


def _rated_alone(v):
    """The text that takes the label for the charger speaks of no loads; here it is what is left after them."""
    eff = v["charger_eff_frac"]
    left = v["charger_dc_w"] - v["dc_running_w"]
    return {
        "E_def": 1000,
        "P_chg": left / eff,
        "eta_chg": eff,
        "P_gen": (v["generator_rated_w"] * eff - v["dc_running_w"]) / eff,
    }


def _given(v):
    """What the charger gives, or the label, or the label through the charger; the loads come later."""
    eff = v["charger_eff_frac"]
    return {"E_def": 1000, "P_chg": v["charger_dc_w"] / eff, "eta_chg": eff, "P_gen": v["generator_rated_w"]}


def _intake(v):
    """What a charger takes for what it gives; nothing runs meanwhile."""
    return {"E_def": 1, "P_chg": 1, "eta_chg": v["charger_eff_frac"], "P_gen": 1}


def _hours(v):
    return {"E_def": v["generator_run_ah"], "P_chg": v["charger_a"], "eta_chg": 1}


def _pushed(v):
    return {"I_rated": v["charger_rated_a"], "I_most": v["charge_most_a"]}


def _carried(v):
    return {"P_chg": v["charger_ac_w"], "P_l2": v["generator_other_w"]}


def _burnt(v):
    return {
        "hrs": 1,
        "a0": v["fuel_size_l_kwh"],
        "P_gen": v["generator_rated_w"],
        "a1": v["fuel_work_l_kwh"],
        "P_out": v["generator_load_w"],
    }


def _apparent(v):
    """Volt-amps asked; what height and heat leave comes later and cancels."""
    return {
        "P_chg": v["charger_ac_w"],
        "pf_chg": v["charger_pf_ratio"],
        "P_l2": v["peak_w"],
        "pf_l2": v["peak_w"] / v["peak_va"],
        "f_alt": 1,
    }


def _label(v):
    return {"P_chg": v["generator_load_va"], "pf_chg": 1, "P_l2": 0, "pf_l2": 1, "f_alt": v["generator_kept_frac"]}


BY_LINE = {
    "restore_wh": Reading(_energy),
    "generator_run_ah": Reading(_energy),
    "charger_dc_w": Reading(_given, upside_down=True),
    "charger_spare_w": Reading(_left_for_the_bank, upside_down=True),
    "charger_ac_w": Reading(_intake),
    "generator_run_h": Reading(_hours),
    "charger_a": Reading(_pushed),
    "generator_load_w": Reading(_carried),
    "fuel_l_h": Reading(_burnt),
    "generator_load_va": Reading(_apparent),
    "generator_needed_va": Reading(_label),
}
BY_MISTAKE = {("GE-03", "charger_spare_w"): Reading(_rated_alone, upside_down=True)}
