"""Worksheets, words and ideas that the problems on depth of discharge share."""

from offgrid_core.sizing import BANK_1013
from offgrid_core.sizing.life import LIFE
from offgrid_core.worksheet import Sheet

LIMIT = "depth limit"
WORDS = {
    "energy_day_wh": "load a day",
    "spell_wh": "energy for the sunless days",
    "bank_warm_wh": "energy on the label",
    "bank_warm_ah": "amp-hours on the label",
    "day_ah": "load a day, in amp-hours",
    "spell_ah": "load of the sunless days, in amp-hours",
    "for_depth_ah": "amp-hours on the label",
    "bank_needed_ah": "bank needed",
    "bank_ah": "amp-hours on the label",
    "used_ah": "amp-hours taken out",
    "depth_frac": "depth of discharge",
    "charge_level_frac": "state of charge",
    "charge_left_frac": "state of charge at the limit",
    "depth_max_frac": LIMIT,
    "capacity_at_hours_ah": "capacity at the load's pace",
    "usable_ah": "amp-hours that may be used",
    "functional_hours_h": "hours in which the load empties it",
    "capacity_hours_ratio": "capacity in those hours, as a multiple of the label",
    "depth_counted_frac": "depth of each cycle",
    "cycles_count": "cycles it stands",
    "cycle_life_years": "years those cycles last",
    "calendar_life_years": "years until it is old",
    "bank_life_years": "life of the bank",
    "ac_day_wh": "AC energy a day, at the sockets",
    "dc_day_wh": "DC energy a day",
    "battery_day_wh": "energy out of the battery a day",
}
#: On a page to be checked the lines keep the labels that they have there; these are the inputs that no table names.
PAGE = {n: WORDS[n] for n in ("energy_day_wh", "bank_ah", "functional_hours_h")}
#: From the day's energy to the amp-hours on the label, before the cold.
LABEL = Sheet(*(BANK_1013[n] for n in ("day_ah", "spell_ah", "for_depth_ah")))
#: From the table of cycles to the life of the bank.
LIVED = Sheet(*(LIFE[n] for n in ("cycles_count", "cycle_life_years", "bank_life_years")))
DEEP = ("DD-01", "DD-02", "DD-03", "DD-05", "DD-06")
GO_BACK = "If the limit's share is taken out of your label, does it come to what the days need?"
TAKEN = "What went out, and out of how much?"
HOURS = "In how many hours is it emptied, and for how many is the label written?"
WHICH_END = "Which comes first: the last of its cycles, or old age?"
LABEL_IDEA = (
    "The days take so many amp-hours, and they may be no more than the limit's share of the label. So the label is "
    "the need divided by the limit; take the limit of it again to check."
)
FULL_IDEA = "Depth is what went out, as a share of the whole label; the state of charge is what stayed in."
HOURS_IDEA = "A battery gives less when it is emptied faster. First the capacity at the load's pace, then the limit."
LIFE_IDEA = "Cycles over cycles a year are years; a battery also grows old unused, and the earlier end counts."
