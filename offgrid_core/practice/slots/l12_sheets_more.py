"""What the problems of the year lesson share: worksheets, words, hints and ideas."""

from offgrid_core.sizing.year_teaching import (
    DAY,
    DULL_DAYS,
    LOGGED_NIGHT,
    LOSS_READ,
    MONTHS_IN_DAYS,
    MONTHS_SHORT,
    NIGHT,
    SPILL,
    YIELD,
)
from offgrid_core.sizing.year_totals import CAME, YEAR, met_sum_wh
from offgrid_core.worksheet import Sheet, Table

#: The share of the sun that was used, and of it what reached the loads: all that they wanted and that was not missing.
USED = Sheet(
    met_sum_wh.renamed("place_by_row_wh", "energy that reached the loads"),
    CAME["place_by_row_frac"],
)
#: What a year is told in: hours short, load lost, and the share of the sun that was used.
FIGURES = Sheet(YEAR["loss_hours_frac"], YEAR["loss_energy_frac"], *USED.values())
#: The same, and what spilled.
SPILLED = Sheet(YEAR["loss_energy_frac"], YEAR["spilled_frac"])
#: A day up to noon, for the question turned round.
UP_TO_NOON = DAY.upto("noon_wh")
#: The day with what it spills, and the night with what it misses.
SPILLING = DAY + SPILL
#: From the sun of twelve months to what is missing in them.
SHORT = Sheet(YIELD["yield_by_month_wh"]) + MONTHS_SHORT
#: Steps of a day that are asked for, in order.
STEPS = ("drawn_wh", "dawn_wh", "early_stored_wh", "noon_wh", "late_stored_wh", "dusk_wh")
#: Load lost at Fell hut with half its array and no generator, by the size of the bank: read off its panel.
LOST_OF_BANK = Table("load lost", (1.0, 2.0), (0.08925, 0.07841), "banks", "of the load", between="exact")

__all__ = [
    "DAY",
    "DULL_DAYS",
    "FIGURES",
    "LOGGED_NIGHT",
    "LOSS_READ",
    "MONTHS_IN_DAYS",
    "MONTHS_SHORT",
    "NIGHT",
    "SHORT",
    "SPILLED",
    "SPILLING",
    "USED",
    "YIELD",
]

#: Warm enough that the cold takes nothing.
WARM = {"kept_now_frac": 1}
WORDS = {
    "store_wh": "charge in the evening",
    "deficit_wh": "loads of the night",
    "floor_wh": "charge at which the loads are cut off",
    "available_wh": "energy the bank can give",
    "drawn_wh": "energy drawn from the bank",
    "missed_wh": "energy missing in the night",
    "bank_wh": "bank on the label",
    "noon_goal_wh": "charge at which the loads come back",
    "short_year_h": "hours in which the load fell short",
    "unserved_year_wh": "energy not served",
    "wanted_year_wh": "energy the loads wanted",
    "came_year_wh": "energy on offer from the array",
    "array_year_wh": "energy on offer from the array",
    "place_by_row_wh": "energy that reached the loads",
    "place_by_row_frac": "share of the energy on offer that was used",
    "loss_hours_frac": "share of the hours that fell short",
    "loss_energy_frac": "share of the load lost, by energy",
    "spilled_frac": "share of the array's energy spilled or cut",
    "yield_by_month_wh": "energy the array brings",
    "wanted_by_month_wh": "energy the loads want",
    "short_by_month_wh": "energy missing in the month",
    "short_year_wh": "energy missing in the year, month by month",
    "least_lost_frac": "share of the load lost, at the least",
    "logged_by_row_w": "power read",
    "logged_wh": "energy of the log",
    "peak_sun_by_month_h": "peak sun hours a day",
    "delivered_by_month_frac": "share that reaches the loads",
    "loss_read_frac": "load lost",
    "bank_factor": "bank's slider",
}
STEP_BY_STEP = "Where does this step begin, and what may it not pass?"
WHOLE = "Which two numbers does this share compare, and are both in the same measure?"
EACH_MONTH = "Which months can help each other out, with a bank that carries days?"
HOW_LONG = "For how long does each reading stand?"
PAGE_LINE = "What does this line begin from, and where does the bank say stop?"
STEP_IDEA = (
    "Each step begins with the charge that the last one left. The night draws down to the cut-off and no further. Of "
    "what the sun leaves over, the charging loss goes off first, and a full bank takes no more."
)
FIGURES_IDEA = (
    "Hours are set against all hours of the year, energy against all energy wanted. What was used is what reached the "
    "loads, out of all that was on offer."
)
MONTH_IDEA = (
    "A bank carries days, so no month pays for another. What each month misses is added up; what it has to spare is "
    "spilled."
)
LOG_IDEA = "A reading of power stands until the next one. Energy is power times that time, added up."
