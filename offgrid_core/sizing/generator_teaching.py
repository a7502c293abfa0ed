"""How long a generator runs to bring a bank from one charge to another while DC loads go on drawing.

The plan's own run (:mod:`offgrid_core.sizing.generator`) counts amp-hours and leaves the loads aside; this is the sum
that is done on the back of an envelope beside a running engine, in watts. AC loads that an inverter-charger passes
through do not count: they never touch the bank. An engine runs outdoors, well away from doors and windows.
"""

from offgrid_core.sizing.generator import fuel_run_l, generator_year_h
from offgrid_core.worksheet import Sheet, limit, line, sum_of


@line(
    "energy to bring the bank from start to stop",
    standing="common practice, no source",
    source="from the label, warm; the battery's loss is met while charging",
)
def restore_wh(bank_wh, generator_stop_frac, generator_start_frac, charge_eff_frac):
    return bank_wh * (generator_stop_frac - generator_start_frac) / charge_eff_frac


@line("charger power left for the bank", standing="physics", source="the DC loads that run meanwhile come first")
def charger_spare_w(charger_dc_w, dc_running_w):
    return charger_dc_w - dc_running_w


restore_h = generator_year_h.renamed(
    "restore_h",
    "hours to bring the bank from start to stop",
    generator_year_wh="restore_wh",
    charger_dc_w="charger_spare_w",
)

restore_l = fuel_run_l.renamed("restore_l", "fuel from start to stop", generator_run_h="restore_h")


@line("generator rated power", standing="physics", source="its volt-amps times its power factor")
def generator_rated_w(generator_rated_va, generator_pf_ratio):
    return generator_rated_va * generator_pf_ratio


@line("starts of the generator in the year", standing="physics", source="hours in which it runs and did not before")
def starts_year_count(running_by_hour_frac, was_running_by_hour_frac):
    return sum_of(running_by_hour_frac * (1 - was_running_by_hour_frac))


@limit(
    "charger power against the DC loads that run meanwhile",
    severity="service",
    mend="switch loads off while the generator runs, or choose a larger charger: the bank never fills",
    standing="physics",
)
def charger_spare_margin_w(charger_spare_w):
    return charger_spare_w


#: From the two levels of charge to the hours of the engine, loads included.
RESTORE = Sheet(restore_wh, charger_spare_w, restore_h, charger_spare_margin_w)
#: Its fuel, once the fuel of an hour is known.
RESTORE_FUEL = Sheet(restore_l)
#: A label that gives volt-amps and a power factor.
LABEL = Sheet(generator_rated_w)
#: How often the engine starts in a year that was followed hour by hour.
STARTS = Sheet(starts_year_count)
