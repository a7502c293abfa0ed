"""What the problems of the inverter lesson share: worksheets, words, hints and ideas."""

from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_day_teaching import ONE_MOTOR
from offgrid_core.sizing.inverter_teaching import IN_HEAT
from offgrid_core.sizing.loads import LOADS
from offgrid_core.worksheet import Sheet

#: The watts that run together, and the label that carries them with a margin.
WATTS = Sheet(LOADS["peak_w"], INVERTER["inverter_needed_w"])
#: The same list with its energy beside it, so that its hours stand in the table.
WITH_HOURS = Sheet(LOADS["run_energy_by_row_wh"]) + WATTS
#: Watts and volt-amps of the same list.
VOLT_AMPS = Sheet(LOADS["peak_w"], LOADS["peak_va"])
#: The hardest start on top of what runs.
SURGE = Sheet(*(LOADS[n] for n in ("peak_w", "start_extra_w", "surge_w")))
#: All ratings of an inverter from one list.
RATINGS = Sheet(*WATTS.values(), *(LOADS[n] for n in ("peak_va", "start_extra_w", "surge_w")))
#: What the heat leaves of a label, and the label that carries the watts there.
HEAT = Sheet(INVERTER["inverter_hot_w"]) + IN_HEAT
#: A motor by its nameplate: what it takes, and what its start asks for.
NAMEPLATE = ONE_MOTOR

WORDS = {
    "count_by_row": "how many",
    "power_by_row_w": "power",
    "hours_by_row_h": "hours a day",
    "power_factor_by_row_ratio": "power factor",
    "start_by_row_factor": "start, as a multiple",
    "coincidence_by_row_frac": "runs together with the rest",
    "peak_w": "watts running together",
    "peak_va": "volt-amps running together",
    "inverter_needed_w": "watts wanted on the label, with the margin",
    "start_extra_w": "extra watts of the hardest start",
    "surge_w": "watts while that motor starts",
    "inverter_hot_w": "watts it gives in that heat",
    "inverter_heat_frac": "share of the label left in that heat",
    "inverter_for_heat_w": "watts wanted on the label for that heat",
    "motor_input_w": "watts the motor takes while it runs",
    "air_hot_c": "hottest air round the inverter",
    "inverter_rated_w": "watts on the label",
    "inverter_derate_per_k": "share of the label lost for each kelvin above that",
}
#: Columns of a list whose every row is one of a kind on AC, and runs whenever it likes.
PLAIN = {
    "count_by_row": 1,
    "power_factor_by_row_ratio": 1,
    "start_by_row_factor": 1,
    "on_ac_by_row_frac": 1,
    "duty_by_row_frac": 1,
    "season_by_row_frac": 1,
}
#: The last of four rows never runs with the other three.
THREE_OF_FOUR = {"coincidence_by_row_frac": (1, 1, 1, 0)}
MARGIN = {"inverter_margin_factor": 1.25}

TOGETHER = "Which of these are switched on in the same minute, and is anything counted that is not?"
START = "What is switched on already when the motor starts, and which of them starts with a jerk?"
SIDE_VA = "For the same watts, does a poor power factor ask for more amps or for fewer?"
HOT = "In that heat, what does an inverter of your label still give?"
PLATE = "Does a motor's nameplate speak of the shaft or of the plug?"
LINE = "What does this line begin from, and what should happen to it?"
TOGETHER_IDEA = (
    "An inverter carries what runs in the same minute: watts, not watt-hours, and not every label of the house. "
    "The margin comes on top of that."
)
START_IDEA = (
    "One motor starts at a time, on top of everything that runs. Lamps and kettles have no start; the hardest of the "
    "motors decides."
)
VA_IDEA = "Amps come from volt-amps: the watts of each load divided by its own power factor, then added up."
HEAT_IDEA = "Heat leaves a share of the label. Divide the load by that share, then multiply back to see it covered."
PLATE_IDEA = "A motor's nameplate tells what leaves its shaft. More goes in at the plug: divide by the efficiency."
