"""A bank to pick for a cold shed; and practice mixed in from earlier lessons, which does not say from where."""

from offgrid_core.practice.kinds import Backwards, Pick, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK, LOADS
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.worksheet import Sheet

_OFFERS = Sheet(
    *(BANK[n] for n in ("bank_cold_wh", "bank_needed_ah")),
    STRINGS["bank_margin_ah"],
    SET_POINTS["charge_temp_margin_k"],
    INVERTER["discharge_margin_a"],
)
_ROW = Sheet(
    *(LOADS[n] for n in ("run_energy_by_row_wh", "standby_energy_by_row_wh", "day_energy_by_row_wh", "ac_day_wh")),
    *(LOADS[n] for n in ("inverter_idle_wh", "inverter_day_wh", "battery_day_wh")),
)
_WARM = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh")))
_CURRENT = Sheet(INVERTER["inverter_input_a"])


def offers() -> Slot:
    """Return the choice of a bank among ten."""
    return Pick(
        id="L05-pick-2",
        title="Pick a bank for the shed",
        statement="Fell hut's shed falls to {battery_temp_c}. A bank that stayed warm would have to be {bank_warm_wh}, "
        "at {bank_voltage_v}. Ten banks are on offer; each is one string, and its maker says what it keeps and gives "
        "in that cold. The inverter draws up to {inverter_input_a}. Nobody heats the shed, and on the coldest morning "
        "the sun has to charge the bank as well. Which bank keeps every limit at least cost? All figures are invented.",
        hint="What does this bank give on the coldest day, and what may be done with it there?",
        principle="A good share kept is no leave to charge: each maker names the cold below which a bank may not be "
        "charged.",
        sheet=_OFFERS,
        given={"bank_voltage_v": 48, "strings_count": 1},
        grids={
            "bank_warm_wh": (18000, 20000, 22000),
            "battery_temp_c": (-12, -9),
            "inverter_input_a": (52, 66),
        },
        curated={"bank_warm_wh": 20000, "battery_temp_c": -9, "inverter_input_a": 66, "batch": 52},
        parts={
            "bank_ah": (450, 520, 600, 760, 900, 1050),
            "kept_frac": (0.52, 0.6, 0.7, 0.8, 0.9),
            "charge_temp_min_c": (-20, -20, -15, 0),
            "unit_discharge_a": (40, 60, 80, 120),
            "unit_cost": (3100, 3600, 4300, 5200, 6400),
        },
        cost="unit_cost",
        questions={
            "bank_margin_ah": "What is left of this label on the coldest day, and is it what was asked for?",
            "charge_temp_margin_k": "May this bank be charged on the coldest morning?",
            "discharge_margin_a": "May this bank give in the cold what the inverter draws at its most?",
        },
        words={
            "bank_ah": "amp-hours on the label",
            "kept_frac": "share kept in that cold",
            "unit_discharge_a": "most it may give in that cold",
            "unit_cost": "cost of the bank",
        },
    )


def mixed() -> tuple[Slot, ...]:
    """Return the three problems, each from other lessons."""
    return (
        Work(
            id="L05-7",
            title="The office at Riverbend",
            statement="There, {count_by_row} computers draw {power_by_row_w} each for {hours_by_row_h} a day and "
            "{standby_by_row_w} each for the rest of it. They hang on an inverter that passes on {inverter_eff_frac} "
            "and idles at {inverter_idle_w}, day and night. Lamps on DC take {dc_day_wh}. How much do the computers "
            "take while they run, how much in the whole day, what goes into the inverter, and what leaves the battery?",
            hint="What does each load draw in each hour of the day, and which way does that come from the battery?",
            principle="Count every hour of the day, running or waiting. Only what passes the inverter pays its loss.",
            sheet=_ROW,
            given={
                "duty_by_row_frac": 1,
                "season_by_row_frac": 1,
                "on_ac_by_row_frac": 1,
                "inverter_on_h": 24,
                "dc_wiring_eff_frac": 1,
                "growth_factor": 1,
            },
            grids={
                "count_by_row": (2, 3, 4),
                "power_by_row_w": (45, 60, 75),
                "hours_by_row_h": (5, 6, 7),
                "standby_by_row_w": (2, 3, 4),
                "inverter_eff_frac": (0.72, 0.76, 0.8),
                "inverter_idle_w": (8, 11),
                "dc_day_wh": (450, 700, 950),
            },
            curated={
                "count_by_row": 3,
                "power_by_row_w": 60,
                "hours_by_row_h": 6,
                "standby_by_row_w": 4,
                "inverter_eff_frac": 0.72,
                "inverter_idle_w": 11,
                "dc_day_wh": 700,
            },
            mistakes=("LD-01", "LD-12", "LD-13", "LD-16", "LD-18"),
            words={
                "run_energy_by_row_wh": "computers, while they run",
                "day_energy_by_row_wh": "computers, in the whole day",
            },
            asked=tuple(
                map(Step, ("run_energy_by_row_wh", "day_energy_by_row_wh", "inverter_day_wh", "battery_day_wh"))
            ),
        ),
        Work(
            id="L05-8",
            title="At the end of the night",
            statement="An inverter gives {inverter_rated_w} at the sockets, as much as it can, and passes on "
            "{inverter_eff_frac}. The bank is {bank_voltage_v} by name; by dawn it has fallen to {inverter_low_v}. "
            "What does the cable between them carry then?",
            hint="At which moment of the night do the most amps flow, and why then?",
            principle="What goes in is what comes out, divided by the efficiency. The fewer volts, the more amps.",
            sheet=_CURRENT,
            given={"bank_voltage_v": 48},
            grids={
                "inverter_rated_w": (900, 1200, 1600, 2000),
                "inverter_eff_frac": (0.84, 0.86, 0.88),
                "inverter_low_v": (40.5, 41, 42, 43),
            },
            curated={
                "inverter_rated_w": 1600,
                "inverter_eff_frac": 0.86,
                "inverter_low_v": 42,
            },
            mistakes=("BV-03", "BV-04", "BV-05"),
            words={"inverter_input_a": "current in the cable"},
            asked=(Step("inverter_input_a"),),
        ),
        Backwards(
            id="L05-9",
            title="How long does it last?",
            statement="In a warm room stands a bank with {bank_wh} on its label. {depth_frac} of it may be taken out. "
            "The house takes {energy_day_wh} a day. For how many days without any sun does that do?",
            hint="If the house lives on the bank for so many days, how far down is it then?",
            principle="What may be taken out, shared among the days.",
            sheet=_WARM,
            grids={
                "bank_wh": (14400, 18200, 21600, 27000),
                "depth_frac": (0.4, 0.6, 0.7),
                "energy_day_wh": (1500, 1700, 2100, 2600),
            },
            curated={"bank_wh": 21600, "depth_frac": 0.4, "energy_day_wh": 2100},
            mistakes=("AU-04", "DD-01", "DD-02", "DD-03"),
            words={"bank_wh": "label of the bank", "energy_day_wh": "load a day", "bank_warm_wh": "label wanted"},
            unknown="autonomy_days",
            span=(0.3, 59),
            result="bank_warm_wh",
            wanted="bank_wh",
        ),
    )
