"""How hard a bank is charged, as the trade says it: the current as a share of the amp-hours, each hour."""

from offgrid_core.worksheet import Sheet, line


@line(
    "charging rate of the bank as built",
    standing="common practice, no source",
    source="0.1 per h is a tenth of the amp-hours as amps, and would take about ten hours",
)
def charge_rate_per_h(charge_current_a, bank_ah):
    return charge_current_a / bank_ah


#: From the charging current to the rate that makers give limits for.
CHARGE_RATE = Sheet(charge_rate_per_h)
