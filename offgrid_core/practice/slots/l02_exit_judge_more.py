"""Further templates of what is judged in the exit quiz on the bank's voltage: reasons, and pages with a slip."""

from offgrid_core.practice.kinds import Choose, Option, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l02_judge_more import LINE
from offgrid_core.practice.slots.l02_words_more import CHOICE, DAY_AH, RUNNING, WORDS
from offgrid_core.sizing import VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.voltage_teaching import LOW_CURRENT, STEP_UP


def why() -> tuple[Slot, ...]:
    """Return the choices about reasons."""
    return (
        Choose(
            id="L02-exit-5",
            title="Before sunrise",
            statement="Fell hut's inverter keeps giving 800 W from evening to sunrise, while the battery slowly "
            "sinks from 51 V to 44 V. What does the current from the battery do meanwhile?",
            hint="If the watts stay and the volts go down, what has to make up for it?",
            options=(
                Option("it rises", "The same watts from fewer volts are more amps.", right=True),
                Option("it stays: the bank is a 48 V bank", mistake="BV-05"),
                Option("it falls along with the volts", mistake="BV-06"),
                Option("it stays: a battery always gives the same current", "What would it give with nothing on?"),
            ),
        ),
        Choose(
            id="L02-exit-5",
            title="Two inverters",
            statement="Two inverters deliver the same watts from equal batteries. One is 80 % efficient, the other "
            "90 %. Which one needs the thicker input cable?",
            hint="Which of the two gets warmer, and who feeds that warmth?",
            options=(
                Option("the 80 % one", "It takes in more for the same watts out, so more amps.", right=True),
                Option("the 90 % one: it passes more through", mistake="BV-04"),
                Option("both alike: they deliver the same watts", mistake="BV-03"),
                Option("both alike: they make the same 230 V", mistake="BV-02"),
            ),
        ),
        Choose(
            id="L02-exit-5",
            title="A ring on a finger",
            statement="At Riverbend somebody tightens a post of the 24 V bank with a bare spanner and a ring on. "
            "“Under 50 volts there is no danger.” What do you answer?",
            hint="What limits the current if ring and steel close the way from post to post?",
            options=(
                Option(
                    "the ring can melt: so little resists that hundreds of amps flow",
                    "What burns is current; only resistance holds it back, and metal has almost none.",
                    right=True,
                ),
                Option(
                    "true: what cannot be felt cannot burn", "Does a welder work with many volts or with many amps?"
                ),
                Option("true while the loads are off", "Is it the loads that this current would flow through?"),
                Option(
                    "the bank's rated current is too small for that",
                    "Does that rating say what a bank can give, or what its maker wants it to give?",
                ),
            ),
        ),
    )


def pages() -> tuple[Slot, ...]:
    """Return the pages with a slip."""
    return (
        Slip(
            id="L02-exit-6",
            title="Which bank for the lake?",
            statement="Somebody chose a voltage for a workshop: {peak_w} on AC at {inverter_eff_frac}, {dc_peak_w} "
            "on DC, and {current_wanted_a} at most. Where does this first go astray, or is it sound? Put it right.",
            hint=LINE,
            sheet=VOLTAGE,
            given={"voltage_steps": VOLTAGE_STEPS, "current_wanted_a": 100},
            grids={
                "peak_w": (1300, 1350, 2700, 2750),
                "dc_peak_w": (190, 200, 210),
                "inverter_eff_frac": (0.78, 0.8, 0.84),
            },
            curated={"peak_w": 1350, "dc_peak_w": 200, "inverter_eff_frac": 0.8},
            mistakes=CHOICE,
            words=WORDS,
        ),
        Slip(
            id="L02-exit-6",
            title="Low before dawn",
            statement="For Fell hut a colleague has the day in amp-hours, then what the inverter draws before dawn: "
            "{energy_day_wh}; {bank_voltage_v}, of which each 12 V sinks to {low_12v_v}; {inverter_rated_w}; "
            "{inverter_eff_frac}; lamps on {outlet_v}. Is one of the lines wrong? Which is the first, and what "
            "belongs there?",
            hint=LINE,
            sheet=DAY_AH + LOW_CURRENT,
            given={"outlet_v": 230, "bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2100, 2500, 3000),
                "low_12v_v": (10.4, 10.7, 11),
                "inverter_rated_w": (900, 1200, 1800),
                "inverter_eff_frac": (0.78, 0.82, 0.84),
            },
            curated={"energy_day_wh": 2500, "low_12v_v": 10.7, "inverter_rated_w": 1200, "inverter_eff_frac": 0.82},
            mistakes=("BV-07", "BV-09", "BV-02", "BV-03", "BV-04", "BV-05"),
            words=WORDS,
        ),
        Slip(
            id="L02-exit-6",
            title="Half the loss?",
            statement="Riverbend's electrician wrote this about one pair of cables, {cable_a} and {cable_loop_ohm}, "
            "before and after {bank_voltage_v} become {raised_voltage_v}, and what {peak_w} of AC "
            "({inverter_eff_frac}) with {dc_peak_w} of DC take today. Point at the line that is off, unless all are "
            "sound, and correct it.",
            hint=LINE,
            sheet=STEP_UP + RUNNING,
            given={"bank_voltage_v": 24, "raised_voltage_v": 48},
            grids={
                "cable_a": (45, 62, 78),
                "cable_loop_ohm": (0.0055, 0.0075, 0.0095),
                "peak_w": (480, 640, 820),
                "inverter_eff_frac": (0.8, 0.84),
                "dc_peak_w": (110, 150, 190),
            },
            curated={
                "cable_a": 62,
                "cable_loop_ohm": 0.0075,
                "peak_w": 640,
                "inverter_eff_frac": 0.84,
                "dc_peak_w": 150,
            },
            mistakes=("BV-11", "BV-12", *CHOICE),
            words=WORDS,
        ),
    )
