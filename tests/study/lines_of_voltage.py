"""Lines of lesson 02: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _input(v):
    return {
        "P_ac": v["inverter_rated_w"],
        "eta_inv": v["inverter_eff_frac"],
        "V_low": v["inverter_low_v"],
        "V_bank": v.get("bank_voltage_v"),
        "V_ac": v.get("outlet_v"),
    }


def _through_the_inverter(v):
    """The loads on DC pass no inverter, so these texts do not speak of them; what they are shared by cancels."""
    return {"P_ac": v["peak_w"], "eta_inv": v["inverter_eff_frac"], "V_low": 1}


def _together(v):
    return {"P_ac": v["peak_w"], "eta_inv": v["inverter_eff_frac"], "P_dc": v["dc_peak_w"], "V_bank": 1}


def _stepped_up(v):
    """Whatever current and resistance made the loss: 1 A through as many ohms makes the same."""
    return {"I1": 1, "R_loop": v["cable_lost_w"], "V1": v["bank_voltage_v"], "V2": v["raised_voltage_v"]}


BY_LINE = {
    "inverter_input_a": Reading(_input),
    "raised_lost_w": Reading(_stepped_up),
    "voltage_least_v": Reading(_through_the_inverter, beside=lambda v: v["dc_peak_w"] / v["current_wanted_a"]),
    "running_current_a": Reading(_through_the_inverter, beside=lambda v: v["dc_peak_w"] / v["bank_voltage_v"]),
}
BY_MISTAKE = {"BV-13": Reading(_together)}
