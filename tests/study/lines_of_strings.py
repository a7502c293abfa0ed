"""Lines of lesson 06: what the parameter names of the sources stand for in them."""

from study.reading import Reading


def _need(v):
    """The amp-hours needed follow from the watt-hours where a page begins with these."""
    needed = v["bank_needed_ah"] if "bank_needed_ah" in v else v["bank_cold_wh"] / v["bank_voltage_v"]
    return {
        "V_bank": v["bank_voltage_v"],
        "V_unit": v["unit_v"],
        "Ah_need": needed,
        "Ah_unit": v["unit_ah"],
    }


def _counts(v):
    """Read both counts off the page: so many volts of 1 V each, and so many amp-hours of 1 Ah each."""
    return {"V_bank": v["units_in_series_count"], "V_unit": 1, "Ah_need": v["strings_count"], "Ah_unit": 1}


def _built(v):
    """Read the units of a string off the voltages, or off the page where they are given."""
    series = v["bank_voltage_v"] / v["unit_v"] if "bank_voltage_v" in v else v["units_in_series_count"]
    return {"n_p_b": v["strings_count"], "n_s_b": series, "Ah_unit": v["unit_ah"]}


def _energy(v):
    """The amp-hours of the page stand for so many strings of 1 Ah."""
    return {
        "n_p_b": v["bank_ah"],
        "n_s_b": v["bank_voltage_v"] / v["unit_v"],
        "Ah_unit": 1,
        "V_unit": v["unit_v"],
        "V_bank": v["bank_voltage_v"],
    }


BY_LINE = {
    "units_in_series_count": Reading(_need),
    "strings_count": Reading(_need),
    "units_count": Reading(_counts),
    "bank_ah": Reading(_built),
    "bank_wh": Reading(_energy),
}
BY_MISTAKE = {
    "ST-09": Reading(_need, again=("units_in_series_count", "strings_count")),
}
