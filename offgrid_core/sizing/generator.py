"""Backup generator: hours set by the charger, size set by air and height, fuel set by how hard it is loaded.

The charger fills the bank no faster than the bank allows, so the hours follow the bank and not the generator. It
stops well before full: above about 85 % the current tapers and the generator burns fuel for little. Energy of the
year is what the generator must bring to the bank's terminals; it comes from a simulated year or a plain estimate.
"""

from offgrid_core.sizing.set_points import charge_most_a
from offgrid_core.worksheet import Sheet, larger, limit, line, smaller

#: A start level closer than this to the charge at which the loads are cut helps too late; common practice, no source.
START_EARLIER_FRAC = 0.05
_DERATE = "a usual figure for engines without a turbocharger; the maker's sheet decides"
_FUEL = "a straight line: a part for the size of the engine and a part for its work"


@line("amp-hours put back in one run", standing="physics")
def generator_run_ah(generator_stop_frac, generator_start_frac, bank_ah):
    return (generator_stop_frac - generator_start_frac) * bank_ah


@line(
    "charging current of the charger",
    standing="maker's data wanted",
    source="its rating, and never more than the bank takes",
)
def charger_a(charger_rated_a, charge_most_a):
    return smaller(charger_rated_a, charge_most_a)


@line("hours of one run", standing="common practice, no source", source="the charger sets the pace")
def generator_run_h(generator_run_ah, charger_a):
    return generator_run_ah / charger_a


@line("charger power into the bank", standing="physics", source="at the absorption set-point: a ceiling")
def charger_dc_w(charger_a, absorb_set_v):
    return charger_a * absorb_set_v


@line("charger power from the generator", standing="physics")
def charger_ac_w(charger_dc_w, charger_eff_frac):
    return charger_dc_w / charger_eff_frac


@line("load of the generator while it charges", standing="physics")
def generator_load_w(charger_ac_w, generator_other_w):
    return charger_ac_w + generator_other_w


@line(
    "volt-amps asked of the generator",
    standing="common practice, no source",
    source="as if all AC loads that run together ran from it meanwhile; volt-amps are added plainly, a ceiling",
)
def generator_load_va(charger_ac_w, charger_pf_ratio, peak_va):
    return charger_ac_w / charger_pf_ratio + peak_va


@line("share of the rating left by height and heat", standing="common practice, no source", source=_DERATE)
def generator_kept_frac(derate_altitude_frac, altitude_m, derate_heat_frac, air_hot_c):
    return (1 - derate_altitude_frac * larger(0, altitude_m) / 300) * (
        1 - derate_heat_frac * larger(0, air_hot_c - 25) / 10
    )


@line("generator volt-amps needed", standing="common practice, no source")
def generator_needed_va(generator_load_va, generator_kept_frac):
    return generator_load_va / generator_kept_frac


@line("loading of the generator while it charges", standing="physics")
def loading_frac(generator_load_w, generator_rated_w):
    return generator_load_w / generator_rated_w


@line("fuel", standing="maker's data wanted", source=_FUEL)
def fuel_l_h(fuel_size_l_kwh, generator_rated_w, fuel_work_l_kwh, generator_load_w):
    return (fuel_size_l_kwh * generator_rated_w + fuel_work_l_kwh * generator_load_w) / 1000


@line("fuel of one run", standing="physics")
def fuel_run_l(fuel_l_h, generator_run_h):
    return fuel_l_h * generator_run_h


@line("hours in a year", standing="common practice, no source", source="energy to be put back ÷ charger power")
def generator_year_h(generator_year_wh, charger_dc_w):
    return generator_year_wh / charger_dc_w


@line("fuel in a year", standing="physics")
def fuel_year_l(fuel_l_h, generator_year_h):
    return fuel_l_h * generator_year_h


@limit(
    "generator volt-amps against what is needed",
    severity="service",
    mend="choose a larger generator, a charger with a better power factor, or keep large loads off meanwhile",
    standing="common practice, no source",
)
def generator_margin_va(generator_rated_va, generator_needed_va):
    return generator_rated_va - generator_needed_va


@limit(
    "generator watts left against the load",
    severity="service",
    mend="choose a larger generator, or charge with less current",
    standing="common practice, no source",
    source="charger and other load: what hangs on it for hours, and sets loading and fuel",
)
def generator_margin_w(generator_rated_w, generator_kept_frac, generator_load_w):
    return generator_rated_w * generator_kept_frac - generator_load_w


@limit(
    "generator watts left against charger and AC loads together",
    severity="service",
    mend="choose a larger generator, charge with less current, or keep large loads off meanwhile",
    standing="common practice, no source",
    source="counts what the volt-amps count: as if all AC loads that run together ran from it meanwhile",
)
def generator_together_margin_w(generator_rated_w, generator_kept_frac, charger_ac_w, peak_w):
    return generator_rated_w * generator_kept_frac - (charger_ac_w + peak_w)


@limit(
    "loading against the least a diesel likes",
    severity="damage",
    mend="choose a smaller generator or a larger charger: an engine that loafs soots up",
    standing="common practice, no source",
)
def loading_margin_frac(loading_frac, loading_min_frac):
    return loading_frac - loading_min_frac


@limit(
    "start level against the depth limit",
    severity="damage",
    mend="start earlier: the bank passes its depth of discharge before the generator helps",
    standing="common practice, no source",
)
def start_margin_frac(generator_start_frac, depth_frac):
    return generator_start_frac - (1 - depth_frac)


@limit(
    "stop level against the start level",
    severity="service",
    mend="stop at a higher charge than the start, well before full",
    standing="physics",
)
def levels_margin_frac(generator_stop_frac, generator_start_frac):
    return generator_stop_frac - generator_start_frac


#: From the bank's charging ceiling to hours, size and fuel of a generator.
GENERATOR = Sheet(
    generator_run_ah,
    charge_most_a,
    charger_a,
    generator_run_h,
    charger_dc_w,
    charger_ac_w,
    generator_load_w,
    generator_load_va,
    generator_kept_frac,
    generator_needed_va,
    loading_frac,
    fuel_l_h,
    fuel_run_l,
    generator_year_h,
    fuel_year_l,
    generator_margin_va,
    generator_margin_w,
    generator_together_margin_w,
    loading_margin_frac,
    start_margin_frac,
    levels_margin_frac,
)
