"""Rate and capacity: amp-hours depend on the hours in which they are drawn, so neither is said without the other.

Peukert's law stands here in the form *referred to the label*: at the label's hours it gives the label back, whatever
the exponent. The form ``t = C ÷ I^k`` does so only if ``C`` is the capacity of one hour.

Nothing here goes round in a circle: the bank is sized, and a limit verifies it afterwards at the rate really drawn.
"""

from offgrid_core.sizing.bank_1013 import day_ah, functional_hours_h, running_current_a
from offgrid_core.worksheet import Sheet, limit, line, smaller

_PEUKERT = "Peukert 1897, referred to the label, from memory: a fit to lead-acid cells near 25 °C, not a law of nature"


@line("hours a day at the running current", standing="physics")
def load_hours_h(day_ah, running_current_a):
    return day_ah / running_current_a


@line(
    "average discharge hours",
    standing="physics",
    source="Dunlop, Photovoltaic Systems: tells which column of a data sheet to read",
)
def average_discharge_h(load_hours_h, autonomy_days, depth_frac):
    return load_hours_h * autonomy_days / depth_frac


@line("hours the full bank lasts at the running current", standing="physics", source=_PEUKERT)
def runtime_h(capacity_hours_h, bank_ah, running_current_a, peukert_exponent):
    return capacity_hours_h * (bank_ah / (running_current_a * capacity_hours_h)) ** peukert_exponent


@line("capacity at the running current", standing="physics")
def delivered_ah(running_current_a, runtime_h):
    return running_current_a * runtime_h


@line("capacity at the hours drawn as a share of the label's", standing="physics", source=_PEUKERT)
def capacity_hours_ratio(functional_hours_h, capacity_hours_h, peukert_exponent):
    return (functional_hours_h / capacity_hours_h) ** (1 - 1 / peukert_exponent)


@line(
    "capacity at the hours drawn",
    standing="common practice, no source",
    source="slower than the label's hours is not credited: real batteries gain less than the law says",
)
def capacity_at_hours_ah(bank_ah, capacity_hours_ratio):
    return bank_ah * smaller(1, capacity_hours_ratio)


@limit(
    "capacity at the hours drawn against the bank needed",
    severity="service",
    mend="build a larger bank, or keep large loads from running together",
    standing="standard",
    source="IEEE Std 1013, from memory: the capacity at the functional hour rate is what counts",
)
def rate_margin_ah(capacity_at_hours_ah, bank_needed_ah):
    return capacity_at_hours_ah - bank_needed_ah


@line(
    "share of the label given in a test",
    standing="standard",
    source="US Navy NAVEDTRA 14344: hours achieved over hours rated, at the rated current",
)
def tested_frac(test_hours_h, capacity_hours_h):
    return test_hours_h / capacity_hours_h


@limit(
    "charging current against what the units may take",
    severity="damage",
    mend="limit the controller's current, or add strings: a management system would cut the charge off",
    standing="maker's data wanted",
)
def unit_charge_margin_a(strings_count, unit_charge_a, charge_current_a):
    return strings_count * unit_charge_a - charge_current_a


#: From the load and the bank as built to the amp-hours it gives at the rate really drawn.
RATE = Sheet(
    day_ah,
    running_current_a,
    functional_hours_h,
    load_hours_h,
    average_discharge_h,
    runtime_h,
    delivered_ah,
    capacity_hours_ratio,
    capacity_at_hours_ah,
    rate_margin_ah,
)
#: What a discharge test says of an old battery.
CAPACITY_TEST = Sheet(tested_frac)
#: The charging current that the units allow, beside the rate that their chemistry likes.
CHARGE_LIMIT = Sheet(unit_charge_margin_a)
