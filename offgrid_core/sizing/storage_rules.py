"""Days of storage by published rules of thumb: straight lines and curves through many simulated years.

They know one number of a site, the peak sun hours of its worst month, and presume an array a little above the load of
that month. The simulated years of one's own site judge them.
"""

from offgrid_core.worksheet import Sheet, line, smallest_of

_MESSENGER = "Messenger and Ventre, Photovoltaic Systems Engineering, from memory; a line through Sandia's curves"
_MASTERS = "Masters, Renewable and Efficient Electric Power Systems (2004), from memory; after the Sandia handbook"


@line("peak sun hours a day in the worst month", standing="physics")
def worst_sun_h(peak_sun_by_month_h):
    return smallest_of(peak_sun_by_month_h)


@line(
    "days of storage for a load that must not fail, straight rule",
    standing="common practice, no source",
    source=_MESSENGER,
)
def critical_straight_days(worst_sun_h):
    return 18.3 - 1.9 * worst_sun_h


@line("days of storage for an ordinary load, straight rule", standing="common practice, no source", source=_MESSENGER)
def ordinary_straight_days(worst_sun_h):
    return 4.58 - 0.48 * worst_sun_h


@line(
    "days of storage for a load that must not fail, curved rule", standing="common practice, no source", source=_MASTERS
)
def critical_curved_days(worst_sun_h):
    return 24 - 4.73 * worst_sun_h + 0.3 * worst_sun_h**2


@line("days of storage for an ordinary load, curved rule", standing="common practice, no source", source=_MASTERS)
def ordinary_curved_days(worst_sun_h):
    return 9.43 - 1.9 * worst_sun_h + 0.11 * worst_sun_h**2


#: What the rules know of a site.
WORST_SUN = Sheet(worst_sun_h)
#: For 99 % and for 95 % of the load, by two published rules.
STORAGE_RULES = Sheet(critical_straight_days, ordinary_straight_days, critical_curved_days, ordinary_curved_days)
