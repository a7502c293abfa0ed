"""What the problems of the generator lesson share: worksheets, words, hints and ideas."""

from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.generator_teaching import LABEL, RESTORE, RESTORE_FUEL
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

#: One run: the energy that is missing, what is left of the charger for the bank, and the hours.
RUN = Sheet(
    STRINGS["bank_wh"],
    RESTORE["restore_wh"],
    GENERATOR["charger_dc_w"],
    *(RESTORE[n] for n in ("charger_spare_w", "restore_h")),
)
#: The engine's load and its fuel.
FUEL = Sheet(*(GENERATOR[n] for n in ("charger_ac_w", "generator_load_w", "fuel_l_h")))
#: The size of the label.
SIZE = Sheet(
    *(GENERATOR[n] for n in ("charger_ac_w", "generator_load_va", "generator_kept_frac", "generator_needed_va"))
)
#: From the levels to the hours, by amp-hours.
LEVELS = Sheet(*(GENERATOR[n] for n in ("generator_run_ah", "charge_most_a", "charger_a", "generator_run_h")))
#: The run with its fuel. What the charger takes stands before what is left of it: some pages begin from the wrong one.
BURNT = (
    RUN.upto("charger_dc_w", "restore_wh")
    + FUEL.upto("charger_ac_w")
    + Sheet(*(RUN[n] for n in ("charger_spare_w", "restore_h")))
    + Sheet(*(FUEL[n] for n in ("generator_load_w", "fuel_l_h")))
    + RESTORE_FUEL
)
#: One page: from the levels to the hours and litres of a run, then the label.
PAGE = BURNT + SIZE
#: One generator of a table, judged: volt-amps, watts, and how hard it is loaded.
JUDGED = (
    LABEL
    + FUEL.upto("generator_load_w")
    + SIZE
    + Sheet(*(GENERATOR[n] for n in ("loading_frac", "generator_margin_va", "generator_margin_w")))
    + Sheet(GENERATOR["loading_margin_frac"])
)

#: What the trade has where no maker's sheet says otherwise: height, heat, the least a diesel likes.
SITE = {"derate_altitude_frac": 0.035, "derate_heat_frac": 0.02}
LEAST = {"loading_min_frac": 0.3}
WORDS = {
    "restore_wh": "energy to bring the bank from start to stop",
    "charger_dc_w": "charger power into the bank",
    "charger_spare_w": "charger power left for the bank",
    "restore_h": "hours of the run",
    "restore_l": "fuel of the run",
    "charger_ac_w": "charger power from the generator",
    "generator_load_w": "load on the generator",
    "fuel_l_h": "fuel an hour",
    "generator_load_va": "volt-amps asked of the generator",
    "generator_kept_frac": "share of the label left up there",
    "generator_needed_va": "volt-amps wanted on the label",
    "generator_run_ah": "amp-hours put back in one run",
    "charge_most_a": "most current the bank takes",
    "charger_a": "current of the charger",
    "generator_run_h": "hours of the run",
    "bank_wh": "bank on the label",
    "bank_ah": "bank as built",
    "absorb_set_v": "absorption set-point",
    "generator_rated_w": "generator's rating",
}
PACE_ASKS = "What sets the pace at which the bank fills?"
BEGINS = "What does this line begin from, and should it come out larger or smaller than that?"
BACK = "At that power, is the missing energy in the bank after so many hours, with the loads taking their part?"
BURNS = "Which part of the fuel goes with the size of the engine, and which with its work?"
UP_THERE = "Take your label up to the site: does what is left of it still carry the load?"
LINE = "What does this line begin from, and what should happen to it?"
PACE_IDEA = (
    "The charger sets the pace, not the engine. What the DC loads take meanwhile comes off first; the rest fills the "
    "bank. A bank keeps less than it is given."
)
FUEL_IDEA = "An engine burns one part of its fuel just to turn over, by its size, and the rest for the work it does."
SIZE_IDEA = (
    "The alternator feels volt-amps: watts by the power factor. Height and heat leave a share of the label, so the "
    "label must be the larger one."
)
LEVELS_IDEA = (
    "Start before the bank is cut off, and stop where the current begins to taper. The sun finishes the charge "
    "for nothing."
)
