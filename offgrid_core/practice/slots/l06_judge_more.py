"""Judgement items of the strings lesson: a page with a slip, a drawing to check, a unit to pick."""

from offgrid_core.practice.kinds import Drawing, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.strings import STRINGS, STRINGS_COMPARED
from offgrid_core.sizing.strings_teaching import STRING_RULES, WHOLE_ROW, unit_cost
from offgrid_core.worksheet import Sheet

_PAGE = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "bank_cold_wh", "bank_needed_ah"))) + STRINGS.upto(
    "units_count"
)
_PARTS = WHOLE_ROW + Sheet(
    *(STRINGS[n] for n in ("units_in_series_count", "strings_count", "units_count", "strings_margin_count")),
    INVERTER["discharge_margin_a"],
    STRINGS_COMPARED["units_cost"],
)
_WHOLE = "Do whole units in one row reach the volts that the inverter works at?"


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (
        Slip(
            id="L06-slip",
            title="Find the slip",
            statement="Somebody worked Fell hut's order from the day to the lorry: {energy_day_wh} a day, "
            "{autonomy_days}, depth {depth_frac}, {kept_frac} kept in the cold, {bank_voltage_v}, units of {unit_v} "
            "and {unit_ah}. Find the first line that goes wrong, if there is one, and give its right value.",
            hint="What does this line begin from, and what should happen to it?",
            principle="Each line asks one thing; the last three ask for volts, for amp-hours, and for whole strings.",
            sheet=_PAGE,
            given={"bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2100, 2400, 2700),
                "autonomy_days": (4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "kept_frac": (0.6, 0.66, 0.72),
                "unit_v": (6, 12),
                "unit_ah": (130, 190, 225),
            },
            curated={
                "energy_day_wh": 2400,
                "autonomy_days": 4,
                "depth_frac": 0.6,
                "kept_frac": 0.6,
                "unit_v": 6,
                "unit_ah": 225,
            },
            mistakes=("AU-05", "DD-03", "TE-02", "ST-02", "ST-03", "ST-09"),
            words={
                "bank_needed_ah": "bank needed",
                "energy_day_wh": "energy a day",
                "bank_warm_wh": "bank, if it stayed warm",
                "kept_frac": "share kept in the cold",
            },
        ),
        _drawing(),
        Pick(
            id="L06-pick",
            title="Pick a battery unit",
            statement="Riverbend's gel bank is {bank_voltage_v} and must hold {bank_needed_ah}. The client wants at "
            "most {strings_max_count} strings. The inverter draws up to {inverter_input_a} and stops below "
            "{inverter_cutoff_v}. Which unit makes the cheapest bank that keeps every limit? Costs are invented.",
            hint="What does a whole string of this unit make, and how many of them does it take?",
            principle="A row that does not come out whole is no bank at all. Few strings of large units share the "
            "current more evenly than many of small ones.",
            sheet=_PARTS,
            given={"bank_voltage_v": 24, "strings_max_count": 2, "inverter_cutoff_v": 20},
            grids={"bank_needed_ah": (640, 700, 760), "inverter_input_a": (85, 105, 125)},
            curated={"bank_needed_ah": 700, "inverter_input_a": 105, "batch": 1},
            parts={
                "unit_v": (2, 6, 6, 8, 16),
                "unit_ah": (190, 225, 265, 800, 900, 1000),
                "unit_discharge_a": (45, 60, 92, 112, 134),
                "unit_kwh_cost": (120, 150, 180, 230, 290),
            },
            cost="units_cost",
            made=Sheet(unit_cost),
            questions={
                "whole_row_margin_v": _WHOLE,
                "strings_margin_count": "How many whole strings of this unit does the bank take?",
                "discharge_margin_a": "When the inverter draws its most, how much of it falls on one string?",
            },
            words={"bank_needed_ah": "bank needed", "unit_cost": "cost of one unit"},
        ),
    )


def _drawing() -> Slot:
    return Drawing(
        id="L06-drawing",
        title="Check the drawing",
        statement="A colleague drew a bank of three strings side by side, + to + and − to −. Judge each rule by "
        "what stands on the drawing; where a number is missing, say so. Then change one thing for the better.",
        hint="Which numbers does the rule compare, and are all of them on the drawing?",
        principle="Whole strings only, of units alike in size and age, a fuse in each string, main leads at opposite "
        "corners.",
        sheet=STRING_RULES,
        rows=("string 1", "string 2", "string 3"),
        given={
            "strings_count": 3,
            "strings_max_count": 3,
            "string_fuses_count": 3,
            "plus_lead_count": 1,
            "minus_lead_count": 3,
            "age_spread_max_years": 1,
        },
        grids={
            "bank_voltage_v": (24, 48),
            "unit_v": (6, 12),
            "units_by_row_count": ((2, 2, 2), (4, 4, 4), (8, 8, 8)),
            "unit_by_row_ah": ((190, 190, 190), (225, 225, 225), (310, 310, 310)),
            "age_by_row_years": ((0, 0, 0), (1, 1, 1)),
            "bank_needed_ah": (480, 520, 550),
        },
        curated={
            "bank_voltage_v": 48,
            "unit_v": 6,
            "units_by_row_count": (8, 8, 8),
            "unit_by_row_ah": (225, 225, 225),
            "age_by_row_years": (0, 0, 0),
            "bank_needed_ah": 550,
            "batch": 0,
        },
        changes={
            "string_voltage_margin_by_row_v.1": ("units_by_row_count.1", (1, 3, 7)),
            "string_voltage_margin_by_row_v.2": ("units_by_row_count.2", (3, 5, 7)),
            "string_voltage_margin_by_row_v.3": ("units_by_row_count.3", (1, 3, 9)),
            "string_fuses_margin_count": ("string_fuses_count", (1, 2)),
            "corner_margin_count": ("minus_lead_count", (1, 2)),
            "alike_margin_ah": ("unit_by_row_ah.2", (265, 380)),
            "age_margin_years": ("age_by_row_years.3", (4, 6)),
        },
        left_out={"string_fuses_count": 1, "age_by_row_years.2": 9, "minus_lead_count": 1, "bank_needed_ah": 2000},
        can_change={
            "units_by_row_count": (1, 24),
            "unit_by_row_ah": (50, 1000),
            "age_by_row_years": (0, 10),
            "string_fuses_count": (0, 3),
            "plus_lead_count": (1, 3),
            "minus_lead_count": (1, 3),
        },
        words={"bank_needed_ah": "bank needed", "strings_count": "strings drawn"},
    )
