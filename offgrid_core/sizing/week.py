"""A busy run of days: what loads that do not run every day take out of the bank over a sunless spell.

A weekend cabin's bank carries two busy days and then quiet ones. The trade multiplies the busiest day by the
days of autonomy, which is cautious; the busiest *run* of days counts each load on the days it can really run.
The array is sized from the weekly mean either way.
"""

from offgrid_core.sizing.bank import spell_wh
from offgrid_core.sizing.bank_1013 import spell_ah
from offgrid_core.sizing.loads import inverter_idle_wh, run_energy_by_row_wh
from offgrid_core.sizing.strings import autonomy_given_days, spell_depth_frac
from offgrid_core.worksheet import Sheet, down, line, smaller, sum_of, up


@line(
    "days of the run on which the row runs",
    standing="physics",
    source="whole weeks, and what the rest of a week can hold when its busy days come together",
)
def busy_by_row_days(autonomy_days, week_by_row_days):
    return down(autonomy_days / 7) * week_by_row_days + smaller(
        up(week_by_row_days), autonomy_days - 7 * down(autonomy_days / 7)
    )


@line("energy of the row over the run", standing="physics")
def run_spell_by_row_wh(
    run_energy_by_row_wh, busy_by_row_days, count_by_row, standby_by_row_w, hours_by_row_h, autonomy_days
):
    return run_energy_by_row_wh * busy_by_row_days + count_by_row * standby_by_row_w * (
        24 * autonomy_days - hours_by_row_h * busy_by_row_days
    )


@line("AC energy over the run", standing="physics")
def ac_spell_wh(run_spell_by_row_wh, on_ac_by_row_frac):
    return sum_of(run_spell_by_row_wh * on_ac_by_row_frac)


@line("DC energy over the run", standing="physics")
def dc_spell_wh(run_spell_by_row_wh, on_ac_by_row_frac):
    return sum_of(run_spell_by_row_wh * (1 - on_ac_by_row_frac))


@line("energy out of the battery over the run", standing="physics")
def battery_spell_wh(
    ac_spell_wh,
    inverter_eff_frac,
    inverter_idle_wh,
    autonomy_days,
    dc_spell_wh,
    dc_wiring_eff_frac,
    growth_factor,
):
    return (
        ac_spell_wh / inverter_eff_frac + inverter_idle_wh * autonomy_days + dc_spell_wh / dc_wiring_eff_frac
    ) * growth_factor


#: From the rows of a loads list to the energy of the busiest run of so many days.
RUN_OF_DAYS = Sheet(
    run_energy_by_row_wh,
    inverter_idle_wh,
    busy_by_row_days,
    run_spell_by_row_wh,
    ac_spell_wh,
    dc_spell_wh,
    battery_spell_wh,
)
_RUN_DEPTH = spell_depth_frac.with_expression("busiest_run(autonomy_days) / (bank_wh * kept_frac)")
_RUN_AUTONOMY = autonomy_given_days.with_expression("days_of_run(bank_usable_wh)")
#: Both bank forms read the energy of the busiest run from a table made of these lines, whatever the autonomy; and
#: what a bank as built lasts, from the same table the other way round.
SPELL_OF_RUN = {
    "short": (spell_wh.with_expression("busiest_run(autonomy_days)"), _RUN_DEPTH, _RUN_AUTONOMY),
    "ieee1013": (spell_ah.with_expression("busiest_run(autonomy_days) / bank_voltage_v"), _RUN_DEPTH, _RUN_AUTONOMY),
}
#: The same for one autonomy, with the run worked out beforehand; what the bank lasts is then that of busiest days.
SPELL_OF_THAT_RUN = {
    "short": (spell_wh.with_expression("battery_spell_wh"), spell_depth_frac, autonomy_given_days),
    "ieee1013": (spell_ah.with_expression("battery_spell_wh / bank_voltage_v"), spell_depth_frac, autonomy_given_days),
}
