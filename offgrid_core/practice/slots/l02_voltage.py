"""Problems of the lesson on the bank's voltage; the probes and what is judged stand beside it."""

from dataclasses import replace

from offgrid_core.data import code_setting
from offgrid_core.practice.kinds import Choose, Guess, Knob, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l02_judge_more import judge, probes
from offgrid_core.practice.slots.l02_words_more import (
    AMP_HOURS,
    CHOICE,
    CURRENT,
    DAY_AH,
    LOSS,
    LOW,
    RUNNING,
    SAME_ENERGY,
    SQUARE,
    TOGETHER,
    WORDS,
)
from offgrid_core.sizing import BANK_1013, VOLTAGE, VOLTAGE_STEPS
from offgrid_core.sizing.voltage_teaching import IN_THE_CABLE, LOW_CURRENT, MAIN_CABLE, ONE_CABLE, STEP_UP
from offgrid_core.worksheet import Sheet

#: From everything that runs together to the heat in its cable, now and at a higher voltage.
_LOADS_TO_HEAT = RUNNING + Sheet(
    STEP_UP["cable_lost_w"].renamed("cable_lost_w", "power lost in the cable", cable_a="running_current_a"),
    STEP_UP["raised_lost_w"],
)
_LOW_IDEA = (
    "The power that goes in is what comes out, divided by the efficiency. "
    "The fewer volts are left, the more amps carry it."
)
_AH_IDEA = "Volts times amp-hours are watt-hours: the same energy is fewer amp-hours at a higher voltage."
_SQUARE_IDEA = (
    "The same power at twice the volts is half the amps. The loss goes with the amps times themselves: a quarter."
)
_STEP_IDEA = (
    "Work the watts that leave the bank together, see which voltage keeps the amps in bounds, and take the step above."
)


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    choosing = _faded_choice()
    known = replace(choosing, title="Which bank voltage?", filled=())
    numbers = _numbers()
    return (
        *_recall(),
        *_guess_and_reason(),
        *entry_check("L02", *numbers, known),
        _explore(),
        _faded_current(),
        choosing,
        *numbers,
        _knob(),
        *probes(),
        *judge(),
    )


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L02-recall-1",
            title="From the lesson on loads",
            statement="A kettle draws 2000 W for six minutes a day. A router draws 8 W all day and all night. They "
            "take nearly the same energy. Which of them decides how much the cables must carry?",
            hint="How much flows in the cable at one moment?",
            options=(
                Option(
                    "the kettle: its power is large while it is on", "What flows now hangs on the watts.", right=True
                ),
                Option("neither: they take the same energy", mistake="LD-04"),
                Option("the router: it never stops", "How much flows in the cable while only the router is on?"),
                Option("the one that runs on more days", "Does a cable count days, or what flows now?"),
            ),
        ),
        Choose(
            id="L02-recall-2",
            title="The inverter in between",
            statement="An inverter is handing 900 W to the sockets. What is it drawing from the battery meanwhile?",
            hint="What keeps the inverter warm?",
            options=(
                Option("more than 900 W", "The heat of the inverter comes out of the battery too.", right=True),
                Option("900 W, neither more nor less", mistake="LD-15"),
                Option("less than 900 W", mistake="LD-13"),
                Option("900 Wh", mistake="LD-04"),
            ),
        ),
        Choose(
            id="L02-recall-3",
            title="From the start page",
            statement="The day's energy is known in watt-hours. What else must be known to say it in amp-hours?",
            hint="What do volts and amp-hours make together?",
            options=(
                Option("the bank's voltage", "Watt-hours are volts times amp-hours.", right=True),
                Option("nothing: the two are the same", mistake="BV-07"),
                Option("nothing: a battery has 12 V", mistake="BV-09"),
                Option("how many hours the loads run", "Are those hours not in the watt-hours already?"),
            ),
        ),
    )


def _guess_and_reason() -> tuple[Slot, ...]:
    return (
        Guess(
            id="L02-guess",
            title="Guess, then lock it",
            statement="A truck's inverter of {inverter_rated_w} stands at Fell hut, at full power. Its efficiency "
            "is {inverter_eff_frac}. The {bank_voltage_v} battery has sunk to {inverter_low_v}. How many amperes "
            "flow in the cable between them?",
            hint="More or less than fifty?",
            principle=_LOW_IDEA,
            sheet=Sheet(LOW_CURRENT["inverter_input_a"]),
            curated={
                "inverter_rated_w": 2000,
                "inverter_eff_frac": 0.9,
                "bank_voltage_v": 12,
                "inverter_low_v": 10.8,
            },
            starts_curated=True,
            words=WORDS,
            step=Step("inverter_input_a"),
        ),
        Choose(
            id="L02-reason",
            title="Say why",
            statement="The bank is called 24 V. Why was the inverter's current not worked with 24 V?",
            hint="Which voltage does the inverter find when the battery is well down?",
            principle=_LOW_IDEA,
            options=(
                Option(
                    "the fewest volts bring the most amps, and the cable must carry those",
                    "The power stays, so what the volts lose the amps gain.",
                    right=True,
                ),
                Option("it makes no difference: the name of a bank is its voltage", mistake="BV-05"),
                Option("the sockets have 230 V, so the cable has to be worked with that", mistake="BV-02"),
                Option("a lower voltage stands for the loss of the inverter", mistake="BV-03"),
            ),
        ),
    )


def _explore() -> Slot:
    code = code_setting("iec_style")
    return Rise(
        id="L02-explore",
        title="Predict, then slide",
        statement="Fell hut is offered a cheap inverter from a truck: {inverter_rated_w} on {bank_voltage_v}. It "
        "would stand at the end of {cable_run_m} of {cable_mm2} cable. Suppose the bank had {raised_voltage_v} "
        "instead: the same power through the same cable. What becomes of the power lost in the cable?",
        hint=SQUARE,
        principle=_SQUARE_IDEA,
        sheet=ONE_CABLE.upto("inverter_lost_w"),
        given={
            "cable_resistance": code.resistance_of,
            "table_temp_c": code.table_temp_c,
            "wire_temp_c": code.insulation_c,
        },
        curated={
            "inverter_rated_w": 2000,
            "inverter_eff_frac": 0.91,
            "bank_voltage_v": 12,
            "raised_voltage_v": 24,
            "low_12v_v": 11,
            "cable_run_m": 5,
            "cable_mm2": 70,
        },
        starts_curated=True,
        words=WORDS | {"inverter_lost_w": "power lost in the cable"},
        result="inverter_lost_w",
        moved="bank_voltage_v",
        after="raised_voltage_v",
        reasons=(
            Option(
                "half the current, and the loss goes with the current times itself",
                "Half of the amps meet half of the volts lost: a half of a half is a quarter.",
                right=True,
            ),
            Option("half the current, so half the loss", mistake="BV-11"),
            Option("twice the volts push twice as hard, so more is lost", mistake="BV-12"),
            Option("the cable has less resistance at a higher voltage", "Which part of the cable was changed?"),
        ),
    )


def _faded_current() -> Slot:
    return Work(
        id="L02-faded-1",
        title="Faded: the first two lines are yours",
        statement="A dairy farm gets an inverter of {inverter_rated_w} for a steriliser. The bank is {bank_voltage_v}; "
        "when it is low, each 12 V of it gives {low_12v_v}. The inverter's efficiency is {inverter_eff_frac}, its "
        "sockets have {outlet_v}, and its cable has {cable_loop_ohm}, there and back.",
        hint=LOW,
        principle=f"{_LOW_IDEA} {_SQUARE_IDEA}",
        sheet=LOW_CURRENT + Sheet(*(IN_THE_CABLE[n] for n in ("inverter_drop_v", "inverter_lost_w"))),
        given={"outlet_v": 230},
        grids={
            "inverter_rated_w": (1200, 1500, 1800, 2200),
            "bank_voltage_v": (24, 48),
            "low_12v_v": (10.4, 10.6, 10.8),
            "inverter_eff_frac": (0.82, 0.84, 0.86),
            "cable_loop_ohm": (0.0032, 0.0045, 0.0062),
        },
        curated={
            "inverter_rated_w": 1500,
            "bank_voltage_v": 24,
            "low_12v_v": 10.6,
            "inverter_eff_frac": 0.84,
            "cable_loop_ohm": 0.0045,
        },
        mistakes=CURRENT,
        words=WORDS,
        asked=(Step("inverter_low_v"), Step("inverter_input_a")),
        filled=(Step("inverter_drop_v"), Step("inverter_lost_w")),
    )


def _faded_choice() -> Work:
    return Work(
        id="L02-faded-2",
        title="Faded: all but the last line are yours",
        statement="At a forest lodge {peak_w} of AC run together, through an inverter of {inverter_eff_frac} "
        "efficiency, and {dc_peak_w} of DC beside it. The owner wants no more than {current_wanted_a} out of the bank. "
        "Banks are built at 12, 24 and 48 V. At which voltage would the current be just so much, and which of the "
        "three is it to be?",
        hint=TOGETHER,
        principle=_STEP_IDEA,
        sheet=VOLTAGE + Sheet(BANK_1013["running_current_a"].renamed(
            "chosen_current_a", "current at the voltage chosen", bank_voltage_v="voltage_suggested_v"
        )),
        given={"voltage_steps": VOLTAGE_STEPS, "current_wanted_a": 100},
        grids={
            "peak_w": (650, 1300, 1350, 2700, 2900),
            "dc_peak_w": (180, 250, 320),
            "inverter_eff_frac": (0.8, 0.84, 0.88),
        },
        curated={"peak_w": 1350, "dc_peak_w": 180, "inverter_eff_frac": 0.84},
        mistakes=CHOICE,
        words=WORDS,
        asked=(Step("voltage_least_v"), Step("voltage_suggested_v")),
        filled=(Step("chosen_current_a"),),
    )  # fmt: skip


def _numbers() -> tuple[Slot, ...]:
    return (
        Work(
            id="L02-1",
            title="When the battery is low",
            statement="An inverter of {inverter_rated_w}, efficiency {inverter_eff_frac}, is to feed sockets of "
            "{outlet_v} from a {bank_voltage_v} bank. With the battery well down and the inverter at work, each 12 "
            "V of the bank gives {low_12v_v}. What is the lowest working voltage, and what current does the "
            "inverter draw then?",
            hint=LOW,
            principle=_LOW_IDEA,
            sheet=LOW_CURRENT,
            given={"outlet_v": 230},
            grids={
                "inverter_rated_w": (800, 1400, 2000, 2400, 3000),
                "inverter_eff_frac": (0.81, 0.83, 0.85, 0.87),
                "bank_voltage_v": (24, 48),
                "low_12v_v": (10.5, 10.7, 11),
            },
            curated={
                "inverter_rated_w": 2000,
                "inverter_eff_frac": 0.85,
                "bank_voltage_v": 24,
                "low_12v_v": 10.5,
            },
            mistakes=("BV-01", *CURRENT),
            words=WORDS,
            asked=(Step("inverter_low_v"), Step("inverter_input_a")),
        ),
        Work(
            id="L02-2",
            title="From the bill to the bank",
            statement="A weekend guest counts in kilowatt-hours: {energy_day_wh:kWh} a day. The bank is "
            "{bank_voltage_v}. How many amp-hours is that?",
            hint=SAME_ENERGY,
            principle=_AH_IDEA,
            sheet=DAY_AH,
            grids={
                "energy_day_wh": (1300, 1700, 2200, 2600, 3100, 3700),
                "bank_voltage_v": (24, 36, 48),
            },
            curated={"energy_day_wh": 2200, "bank_voltage_v": 48},
            mistakes=AMP_HOURS,
            words=WORDS,
            asked=(Step("day_ah"),),
        ),
        Work(
            id="L02-3",
            title="The same cable at another voltage",
            statement="{peak_w} of AC, through an inverter of {inverter_eff_frac}, and {dc_peak_w} of DC run "
            "together. All of it leaves a {bank_voltage_v} bank by one cable that has {cable_loop_ohm}, there and "
            "back. How many amperes is that, and how much power does the cable turn into heat? The bank is rebuilt "
            "for {raised_voltage_v}; watts and cable stay. How much is it then?",
            hint=SQUARE,
            principle=_SQUARE_IDEA,
            sheet=_LOADS_TO_HEAT,
            grids={
                "peak_w": (450, 700, 950, 1300),
                "inverter_eff_frac": (0.78, 0.81, 0.84),
                "dc_peak_w": (160, 240, 330),
                "cable_loop_ohm": (0.0042, 0.006, 0.0085, 0.012),
                "bank_voltage_v": (12, 24),
                "raised_voltage_v": (36, 48),
            },
            curated={
                "peak_w": 950,
                "inverter_eff_frac": 0.78,
                "dc_peak_w": 160,
                "cable_loop_ohm": 0.006,
                "bank_voltage_v": 24,
                "raised_voltage_v": 48,
            },
            mistakes=(*CHOICE, *LOSS),
            words=WORDS,
            asked=tuple(map(Step, _LOADS_TO_HEAT)),
        ),
    )


def _knob() -> Slot:
    return Knob(
        id="L02-4",
        title="Which knob cools the cable?",
        statement="Everything on a farm runs at once, through one main cable with its fuse, cable ends and joints. One "
        "of these is to be changed a little. Which changes the heat in the cable most, which next, which third, and "
        "which way?",
        hint="For the same power, what does a little more of it do to the current, and that to the heat?",
        principle="The heat goes with the current times itself. A longer cable or a looser joint counts once, volts "
        "and watts count twice.",
        sheet=MAIN_CABLE,
        given={"inverter_eff_frac": 0.9},
        grids={
            "bank_voltage_v": (12, 24, 48),
            "peak_w": (1100, 1300, 1500, 1800),
            "dc_peak_w": (350, 450, 550),
            "cable_run_m": (4, 5, 6, 8),
            "cable_ohm_m": (0.0003, 0.0004, 0.0006),
            "joints_ohm": (0.0003, 0.0005, 0.0007),
            "fuse_ohm": (0.0003, 0.0004, 0.0006),
        },
        curated={
            "bank_voltage_v": 24,
            "peak_w": 1300,
            "dc_peak_w": 450,
            "cable_run_m": 6,
            "cable_ohm_m": 0.0004,
            "joints_ohm": 0.0007,
            "fuse_ohm": 0.0003,
        },
        words={"cable_run_m": "length of the cable", "main_lost_w": "heat in the main cable"},
        result="main_lost_w",
        inputs=("bank_voltage_v", "peak_w", "dc_peak_w", "cable_run_m", "joints_ohm", "fuse_ohm"),
    )
