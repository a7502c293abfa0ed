"""Two ideas about batteries to be probed, a page with a slip, and an inverter with its cable to be picked."""

from offgrid_core.practice.kinds import Choose, Option, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l02_words_more import WORDS
from offgrid_core.sizing import BANK_1013
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.voltage_teaching import IN_THE_CABLE, LOW_CURRENT, ONE_CABLE, STEP_UP
from offgrid_core.worksheet import Sheet

#: From the day and the inverter to the heat in its cable, now and at a higher voltage.
PAGE = (
    Sheet(BANK_1013["day_ah"])
    + LOW_CURRENT
    + Sheet(
        STEP_UP["cable_lost_w"].renamed("cable_lost_w", "power lost in the cable", cable_a="inverter_input_a"),
        STEP_UP["raised_lost_w"],
    )
)
_OFFER = LOW_CURRENT + Sheet(
    *(IN_THE_CABLE[n] for n in ("inverter_drop_v", "inverter_lost_frac")),
    *(INVERTER[n] for n in ("inverter_margin_w", "voltage_margin_a")),
    ONE_CABLE["inverter_drop_margin_frac"],
)
LINE = "What does this line begin from, and what should happen to it?"


def probes() -> tuple[Slot, ...]:
    """Return two questions about ideas that no number reveals."""
    return (
        Choose(
            id="L02-5",
            title="A second lamp",
            statement="One lamp draws 5 A from a charged bank. A second one, just like it, is switched on beside "
            "the first. What does the bank give now, and why?",
            hint="Who decides how much flows: the bank, or what is connected to it?",
            principle="A bank holds its volts nearly steady. How much current flows is up to what is connected to it.",
            options=(
                Option(
                    "10 A: the bank holds the volts, each lamp draws what it needs",
                    "The loads set the current; a bank has no current of its own.",
                    right=True,
                ),
                Option(
                    "5 A, half for each lamp: a bank always gives the same current",
                    "What would the bank give with no lamp on at all?",
                ),
                Option(
                    "10 A, at half the voltage: the lamps share the volts",
                    "Beside one another, which of the two do both lamps get: all the volts or a part?",
                ),
                Option(
                    "less than 10 A: the first lamp uses some of the current up",
                    "How much current comes back to the bank from one lamp, beside what went out to it?",
                ),
            ),
        ),
        Choose(
            id="L02-6",
            title="A spanner on the bank",
            statement="“It is only 12 V, nothing can happen”, says a helper, and lays a bare spanner across the two "
            "posts of a charged battery. What happens, and why?",
            hint="What is there between the two posts now, to hold the current back?",
            principle="Low voltage spares the heart, not the hand: what burns is current, and nothing but "
            "resistance limits it.",
            options=(
                Option(
                    "the steel glows and sprays: almost nothing holds the current back",
                    "A thousand amperes and more can flow. That is why tools are insulated and rings come off.",
                    right=True,
                ),
                Option(
                    "nothing: 12 V cannot be felt, so it can do no harm",
                    "Does what you feel tell how many amperes a piece of steel would carry?",
                ),
                Option(
                    "a small spark: a battery gives no more than its rated current",
                    "What is it that rates the current: the battery, or what is put across it?",
                ),
                Option(
                    "the inverter's fuse opens and ends it",
                    "Does the current through the spanner pass the inverter's cable?",
                ),
            ),
        ),
    )


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (
        Slip(
            id="L02-slip",
            title="Find the slip",
            statement="Somebody worked this page for a bank of {bank_voltage_v}: {energy_day_wh} a day, and an "
            "inverter of {inverter_rated_w}, efficiency {inverter_eff_frac}, for sockets of {outlet_v}. Low, the "
            "bank gives {low_12v_v} for each 12 V. The cable has {cable_loop_ohm}. The last line asks about "
            "{raised_voltage_v}. Find the first line that goes wrong, if there is one, and give its right value.",
            hint=LINE,
            principle="Amp-hours ask for the bank's voltage. The current asks for the power going in and the fewest "
            "volts. The loss asks for the current times itself.",
            sheet=PAGE,
            given={"outlet_v": 230},
            grids={
                "bank_voltage_v": (24,),
                "raised_voltage_v": (36, 48),
                "energy_day_wh": (1900, 2300, 2800, 3400),
                "inverter_rated_w": (1200, 1600, 2000),
                "inverter_eff_frac": (0.78, 0.81, 0.84),
                "low_12v_v": (10.6, 10.8, 11),
                "cable_loop_ohm": (0.0038, 0.0052, 0.007),
            },
            curated={
                "bank_voltage_v": 24,
                "raised_voltage_v": 48,
                "energy_day_wh": 2300,
                "inverter_rated_w": 1600,
                "inverter_eff_frac": 0.81,
                "low_12v_v": 10.8,
                "cable_loop_ohm": 0.0052,
            },
            mistakes=("BV-07", "BV-09", "BV-02", "BV-03", "BV-04", "BV-05", "BV-11"),
            words=WORDS,
        ),
        Pick(
            id="L02-pick",
            title="Pick an inverter with its cable",
            statement="A workshop is built beside Fell hut, with a bank of its own. It needs an inverter of at "
            "least {inverter_needed_w}. Each offer brings its pair of cables, cut to length, and asks for its own "
            "bank voltage. Low, a bank gives {low_12v_v} for each 12 V; every inverter here has {inverter_eff_frac} "
            "efficiency. At the inverter's full rated power the current may not pass {bank_current_max_a}, and the "
            "cable may keep {inverter_drop_frac} of 12, 24 or 48 V. Which offer is the cheapest that keeps all three? "
            "Prices are invented.",
            hint="What current does this offer draw from a low battery, and what does its cable keep of the volts?",
            principle="A higher bank voltage takes less current for the same watts; then a thinner cable keeps the "
            "same share.",
            sheet=_OFFER,
            grids={
                "inverter_needed_w": (1400, 1600, 1900),
                "low_12v_v": (10.5, 11),
                "inverter_eff_frac": (0.86, 0.9),
                "bank_current_max_a": (100, 120, 150),
                "inverter_drop_frac": (0.02, 0.03),
            },
            curated={
                "inverter_needed_w": 1600,
                "low_12v_v": 11,
                "inverter_eff_frac": 0.9,
                "bank_current_max_a": 120,
                "inverter_drop_frac": 0.03,
                "batch": 0,
            },
            parts={
                "bank_voltage_v": (12, 24, 24, 48, 48),
                "inverter_rated_w": (1200, 1500, 1800, 2000, 2400),
                "cable_loop_ohm": (0.0026, 0.0045, 0.0075, 0.013, 0.021),
                "inverter_cost": (310, 380, 450, 520, 590, 670, 760, 850),
            },
            cost="inverter_cost",
            questions={
                "inverter_margin_w": "Does this inverter carry what the workshop needs?",
                "voltage_margin_a": "When the battery is low, what current would this offer draw?",
                "inverter_drop_margin_frac": "Which share of its bank's volts would stay in this cable?",
            },
            words={"inverter_needed_w": "inverter watts needed", "inverter_cost": "price of the offer"},
        ),
    )
