"""Problems of the generator lesson; what is judged, chosen and mixed in from earlier lessons stands beside it."""

from offgrid_core.practice.kinds import Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l11_judge_more import judge
from offgrid_core.practice.slots.l11_mixed_more import mixed
from offgrid_core.practice.slots.l11_open_more import open_ones
from offgrid_core.practice.slots.l11_practice_more import practice
from offgrid_core.practice.slots.l11_sheets_more import (
    BEGINS,
    BURNS,
    BURNT,
    FUEL_IDEA,
    PACE_ASKS,
    PACE_IDEA,
    RUN,
    SITE,
    SIZE,
    SIZE_IDEA,
    WORDS,
)

#: The generator of Fell hut, as its plan and its bank have it.
_HUT = {
    "bank_ah": 760,
    "bank_voltage_v": 48,
    "charger_a": 30,
    "absorb_set_v": 62.76,
    "charge_eff_frac": 0.8,
    "dc_running_w": 0,
    "charger_eff_frac": 0.9,
    "generator_other_w": 0,
    "fuel_size_l_kwh": 0.08415,
    "fuel_work_l_kwh": 0.246,
    "generator_start_frac": 0.5,
    "generator_stop_frac": 0.85,
}


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    own = practice()
    numbers = [s for s in own if s.kind in ("work", "backwards")]
    every = sorted((*own, *mixed()), key=lambda s: int(s.id.partition("-")[2]))
    return (*open_ones(), _guess(), *entry_check("L11", *numbers), _explore(), *_faded(), *every, *judge())


def _guess() -> Slot:
    return Guess(
        id="L11-guess",
        title="Guess, then lock it",
        statement="A dull week at Fell hut: the bank of {bank_ah} at {bank_voltage_v} is down to "
        "{generator_start_frac}. The warden starts the generator, {generator_rated_w}; its charger gives {charger_a}. "
        "The engine is to stop at {generator_stop_frac}. How long will it run?",
        hint=PACE_ASKS,
        principle=PACE_IDEA,
        sheet=RUN,
        given={n: v for n, v in _HUT.items() if n in RUN.inputs},
        curated={"generator_rated_w": 3000},
        starts_curated=True,
        words=WORDS,
        step=Step("restore_h"),
    )


def _explore() -> Slot:
    return Rise(
        id="L11-explore",
        title="Predict, then slide",
        statement="Fell hut's charger gives {charger_a}, from a generator of {generator_rated_w}. To have it over "
        "sooner, the warden wants a generator of {generator_rated_after_w}. The charger and the two levels, "
        "{generator_start_frac} and {generator_stop_frac}, stay as they are. What becomes of the fuel of one run?",
        hint=f"{BURNS}",
        principle=f"{PACE_IDEA} {FUEL_IDEA}",
        sheet=BURNT,
        given=_HUT,
        curated={"generator_rated_w": 3000, "generator_rated_after_w": 6000},
        starts_curated=True,
        words=WORDS,
        result="restore_l",
        moved="generator_rated_w",
        after="generator_rated_after_w",
        reasons=(
            Option(
                "the charger sets the hours, so they stay; and the larger engine burns more just to turn over",
                "As many hours, the same work, and twice as much engine to keep turning.",
                right=True,
            ),
            Option("twice the engine fills the bank in half the time", mistake="GE-03"),
            Option("the work is the same, and fuel goes by the work alone", mistake="GE-11"),
            Option("an engine burns by its label, and the label is twice as large", mistake="GE-12"),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L11-faded-1",
            title="Faded: the first three lines are yours",
            statement="A school in the hills: a bank of {bank_ah} at {bank_voltage_v}, started at "
            "{generator_start_frac}, stopped at {generator_stop_frac}; of what it is given it keeps {charge_eff_frac}. "
            "The generator could give {generator_rated_w}. The charger gives {charger_a} at {absorb_set_v}; "
            "{charger_eff_frac} of what it takes comes out. DC lamps go on burning, {dc_running_w} together.",
            hint=BEGINS,
            principle=PACE_IDEA,
            sheet=RUN,
            given={"bank_voltage_v": 24, "charger_eff_frac": 0.9},
            grids={
                "bank_ah": (420, 490, 560, 630),
                "generator_start_frac": (0.35, 0.4, 0.45),
                "generator_stop_frac": (0.8, 0.85),
                "charge_eff_frac": (0.78, 0.82, 0.86),
                "generator_rated_w": (3500, 4200, 5000),
                "charger_a": (40, 45, 55),
                "absorb_set_v": (28.8, 29.4),
                "dc_running_w": (170, 220, 280),
            },
            curated={
                "bank_ah": 630,
                "generator_start_frac": 0.45,
                "generator_stop_frac": 0.8,
                "charge_eff_frac": 0.86,
                "generator_rated_w": 3500,
                "charger_a": 55,
                "absorb_set_v": 29.4,
                "dc_running_w": 220,
            },
            mistakes=("GE-06", "GE-07", "GE-08", "GE-09", "GE-17"),
            words=WORDS,
            asked=(Step("restore_wh"), Step("charger_dc_w"), Step("charger_spare_w")),
            filled=(Step("restore_h"),),
        ),
        Work(
            id="L11-faded-2",
            title="Faded: all but the last line are yours",
            statement="A workshop stands at {altitude_m:m}, and its air reaches {air_hot_c:°C}. Its charger gives the "
            "bank {charger_dc_w}, {charger_eff_frac} of what it takes, at a power factor of {charger_pf_ratio}. "
            "Meanwhile tools run on AC: {peak_w}, which are {peak_va}. Height takes {derate_altitude_frac} of a label "
            "for each 300 m, heat {derate_heat_frac} for each 10 K above 25 °C.",
            hint=BEGINS,
            principle=SIZE_IDEA,
            sheet=SIZE,
            given=SITE,
            grids={
                "altitude_m": (1500, 1900, 2300, 2700),
                "air_hot_c": (31, 34, 38),
                "charger_dc_w": (1350, 1700, 2100),
                "charger_eff_frac": (0.85, 0.88),
                "charger_pf_ratio": (0.7, 0.75, 0.8),
                "peak_w": (750, 820, 900),
                "peak_va": (980, 1100, 1250),
            },
            curated={
                "altitude_m": 1500,
                "air_hot_c": 38,
                "charger_dc_w": 1350,
                "charger_eff_frac": 0.88,
                "charger_pf_ratio": 0.7,
                "peak_w": 750,
                "peak_va": 980,
            },
            mistakes=("GE-01", "GE-02", "GE-13"),
            words=WORDS,
            asked=(Step("charger_ac_w"), Step("generator_load_va"), Step("generator_kept_frac")),
            filled=(Step("generator_needed_va"),),
        ),
    )
