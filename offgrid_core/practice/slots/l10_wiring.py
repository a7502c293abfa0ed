"""Problems of the wiring lesson: recall, explore, the worked example's reason, and the two with a start.

Practice, what is judged and what is mixed in from earlier lessons stand in the modules beside it.
"""

from offgrid_core.practice.kinds import Choose, Guess, Option, Rise, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l10_judge_more import judge
from offgrid_core.practice.slots.l10_mixed_more import mixed
from offgrid_core.practice.slots.l10_practice_more import practice
from offgrid_core.practice.slots.l10_tables_more import (
    BANK_FAULT,
    FAULT_IDEA,
    FULL_CELL,
    FUSE_IDEA,
    GAUGED,
    GAUGES,
    HOT,
    IEC,
    IN_PLACE,
    OPENS,
    US,
    WORDS,
    air,
    cables,
    fuses,
    tables_of,
    together,
)
from offgrid_core.sizing.fuse_teaching import COPPER


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    own = practice()
    numbers = [s for s in own if s.kind == "work"]
    every = sorted((*own, *mixed()), key=lambda s: int(s.id.partition("-")[2]))
    return (*_recall(), _guess(), *entry_check("L10", *numbers), *_explore(), *_faded(), *every, *judge())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L10-recall-1",
            title="From the lesson on the inverter",
            statement="The cable to an inverter is sized for its input current. At which state of the bank is that "
            "current worked out, and why?",
            hint="The watts at the sockets stay; what becomes of the volts?",
            options=(
                Option(
                    "at the lowest working voltage: the same watts from fewer volts take more amperes",
                    "So the current is largest just before the inverter gives up.",
                    right=True,
                ),
                Option(
                    "at the full bank: the most volts push the most amperes",
                    "The inverter asks for watts: with more volts, does it need more or fewer amperes?",
                ),
                Option("at the AC voltage: the loads are on that side", mistake="BV-02"),
                Option(
                    "at any: an inverter draws the same current all the time",
                    "If the volts sag while the watts stay, what has to give?",
                ),
            ),
        ),
        Choose(
            id="L10-recall-2",
            title="From the lesson on the charge controller",
            statement="A breaker stands between a module string and the controller. Under which condition does it see "
            "its highest voltage?",
            hint="What does cold do to the volts of a module, and what does a load do to them?",
            options=(
                Option(
                    "on the coldest bright morning, before any current flows",
                    "Cold lifts the open-circuit voltage, and no current pulls it down yet.",
                    right=True,
                ),
                Option("on the hottest afternoon, in full sun", mistake="CC-02"),
                Option("at 25 °C, as the label says", mistake="CC-03"),
                Option("while it charges hard: working voltage is the highest there is", mistake="CC-04"),
            ),
        ),
        Choose(
            id="L10-recall-3",
            title="From the lesson on strings",
            statement="Two strings of a bank stand side by side. A cell in one of them shorts. Every load is off and "
            "the sun is down. Why may there be a large current?",
            hint="Between the two strings, what is there besides copper?",
            options=(
                Option(
                    "the whole string pours itself into the weak one",
                    "Unlike volts, joined by copper: this is why each string has a fuse.",
                    right=True,
                ),
                Option(
                    "no current can flow with the loads off",
                    "Is there a closed way round through the two strings themselves?",
                ),
                Option("the amp-hours of the row add up and have to go somewhere", mistake="ST-11"),
                Option(
                    "the controller is still charging",
                    "Where would it take the current from after sunset?",
                ),
            ),
        ),
    )


def _guess() -> Slot:
    return Guess(
        id="L10-guess",
        title="Guess, then lock it",
        statement="Fell hut's bank is full: {strings_count} strings of {cells_count} cells, {unit_ah} each. A spanner "
        "slips and lies across the two main leads. How many amperes flow?",
        hint="Is a battery's own resistance nearer to that of a kettle or to that of a copper bar?",
        principle=FAULT_IDEA,
        sheet=BANK_FAULT,
        given=FULL_CELL,
        curated={"strings_count": 2, "cells_count": 24, "unit_ah": 380, "cell_resistance_ohm_ah": 0.08},
        starts_curated=True,
        words=WORDS,
        step=Step("bank_fault_a"),
    )


def _explore() -> tuple[Slot, ...]:
    return (
        Rise(
            id="L10-explore",
            title="Predict, then slide",
            statement="The cable from Fell hut's bank to its inverter is {cable_by_row_mm2}, {length_by_row_m} long, "
            "with a fuse of {fuse_by_row_a}. Somebody puts in {fuse_after_by_row_a}, “to be on the safe side”. A fuse "
            "carries its own rating for hours. What becomes of the heat that the cable may have to stand?",
            hint="Which current may now flow for hours without anything opening?",
            principle=FUSE_IDEA,
            sheet=COPPER.upto("heat_at_fuse_by_row_w"),
            given=tables_of(IEC),
            curated={"cable_by_row_mm2": 2.5, "length_by_row_m": 2, "fuse_by_row_a": 25, "fuse_after_by_row_a": 40},
            starts_curated=True,
            words=WORDS | {"heat_at_fuse_by_row_w": "heat at the fuse's rating"},
            result="heat_at_fuse_by_row_w",
            moved="fuse_by_row_a",
            after="fuse_after_by_row_a",
            reasons=(
                Option(
                    "more current may flow, and heat goes with the square of the current",
                    "The fuse is no guard of its own: it only sets how much the wire must stand.",
                    right=True,
                ),
                Option("a bigger fuse guards the cable better, whatever the cable carries", mistake="OP-03"),
                Option("the load decides what flows, so the cable only has to stand the load", mistake="OP-06"),
                Option(
                    "more current may flow, and heat goes up by the same share",
                    "If the current doubles, the drop along the wire doubles as well: what becomes of their product?",
                ),
            ),
        ),
        Choose(
            id="L10-reason",
            title="Say why",
            statement="A load of 34 A has a fuse of 50 A. Heat and neighbours leave 70 % of a wire's rating. Which "
            "rating is looked for in the table, and why?",
            hint=OPENS,
            principle=FUSE_IDEA,
            options=(
                Option(
                    "50 A ÷ 0.70: after heat and neighbours the wire must still stand the fuse",
                    "Then 70 % of the table's rating is no less than the 50 A that the fuse lets through.",
                    right=True,
                ),
                Option("34 A ÷ 0.70: no more than the load ever flows", mistake="OP-06"),
                Option("50 A × 0.70: heat takes that much away", mistake="WI-14"),
                Option("50 A: the table has heat in it already", mistake="WI-15"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L10-faded-1",
            title="Faded: the first two lines are yours",
            statement="In a boatyard's workshop a cable lies in a wall. Where it lies it carries {ampacity_by_row_a}. "
            "A DC motor is to be fed through it, {current_by_row_a} for hours. The US-style setting asks for a factor "
            "of {current_by_row_factor}. Which fuse goes in, and is the cable then guarded?",
            hint="What is the fuse chosen from, and what is it then held against?",
            principle=FUSE_IDEA,
            sheet=IN_PLACE,
            given=tables_of(US) | {"current_by_row_factor": US.continuous_factor},
            grids={
                "current_by_row_a": (17, 18.5, 22, 26, 30.5, 33),
                "ampacity_by_row_a": (52, 57, 64, 68, 76),
            },
            curated={"current_by_row_a": 22, "ampacity_by_row_a": 64},
            mistakes=("OP-02", "OP-03"),
            words=WORDS,
            listed=(fuses(US),),
            asked=(Step("design_current_by_row_a"), Step("fuse_by_row_a")),
            filled=(Step("fuse_margin_by_row_a"),),
        ),
        Work(
            id="L10-faded-2",
            title="Faded: all but the last line are yours",
            statement="A quarry's siren takes {current_by_row_a} for hours, at a factor of "
            "{current_by_row_factor}. Its wire shares a duct in air of {ambient_c} with others: "
            "{circuits_together_count} circuits together. In the store lies a drum marked gauge {gauge_count}. Which "
            "fuse, which rating and how much copper are wanted, and how much copper has the drum?",
            hint=HOT,
            principle=f"{FUSE_IDEA} The higher the gauge number, the thinner the wire.",
            sheet=GAUGED,
            given=tables_of(US) | GAUGES | {"current_by_row_factor": US.continuous_factor},
            grids={
                "current_by_row_a": (30, 34, 41, 46, 53),
                "ambient_c": (40, 45, 50),
                "circuits_together_count": (2, 3, 4),
                "gauge_count": (1, 8, 10, 12),
            },
            curated={"current_by_row_a": 34, "ambient_c": 45, "circuits_together_count": 2, "gauge_count": 8},
            mistakes=("OP-01", "OP-06", "WI-12", "WI-14", "WI-15", "WI-23"),
            words=WORDS,
            listed=(fuses(US), air(US), together(US), cables(US)),
            asked=tuple(
                map(
                    Step,
                    ("fuse_by_row_a", "ampacity_wanted_by_row_a", "for_ampacity_by_row_mm2", "gauge_mm2"),
                )
            ),
            filled=(Step("gauge_margin_by_row_mm2"),),
        ),
    )
