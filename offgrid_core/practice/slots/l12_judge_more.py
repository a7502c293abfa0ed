"""Judgement items of the year lesson: a page with a slip, and three logs in which something has failed."""

from offgrid_core.practice.kinds import Failed, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l12_sheets_more import DAY, PAGE_LINE, STEP_IDEA, WARM, WORDS

_ASK = "What failed? Point to two stretches of rows that show it; then say how you would make sure, and what mends it."
_PRINCIPLE = (
    "First think of what could do this, then look in the log for what only that would do. Then choose the test that "
    "comes out differently for your first guess and your second."
)
#: A lodge: battery that likes to be charged warm, an inverter that sleeps at night, no generator.
LODGE = """
title = "Ski lodge"
[site]
name = "Ski lodge"
latitude_deg = 45.2
sun_by_month_kwh_m2 = [1.6, 2.5, 3.6, 4.6, 5.5, 6.0, 6.1, 5.2, 4.0, 2.6, 1.6, 1.3]
air_temp_by_month_c = [-7, -5, 0, 7, 13, 18, 21, 20, 15, 9, 2, -4]
air_coldest_c = -27
[choices]
autonomy_days = 3
depth_frac = 0.5
battery_temp_c = 5
chemistry = "agm"
[[load]]
name = "fridge"
bus = "DC"
power_w = 45
hours_h = 24
duty_frac = 0.35
[[load]]
name = "lamps"
bus = "DC"
count = 6
power_w = 6
windows = ["06:30-08:00", "18:00-23:00"]
[[load]]
name = "kitchen sockets"
bus = "AC"
power_w = 600
windows = ["07:00-07:30", "18:30-19:00"]
[assume]
inverter_on_h = 12
"""
#: A hut with a generator.
HUT = """
title = "Fell hut"
[site]
name = "fell_hut"
tilt_deg = 65
[choices]
bank_voltage_v = 48
autonomy_days = 3
depth_frac = 0.5
battery_temp_c = -8
chemistry = "flooded"
[[load]]
name = "fridge and lamps"
bus = "AC"
power_w = 70
hours_h = 24
[[load]]
name = "water pump"
bus = "AC"
power_w = 370
windows = ["08:00-09:00"]
[generator]
rated_w = 3000
rated_va = 3500
charger_a = 30
"""
#: A mast that nobody visits: DC only.
MAST = """
title = "Gull mast"
[site]
name = "gull_mast"
tilt_deg = 60
[choices]
bank_voltage_v = 12
autonomy_days = 8
depth_frac = 0.6
battery_temp_c = -5
chemistry = "agm"
[[load]]
name = "instruments"
bus = "DC"
power_w = 6
hours_h = 24
[[load]]
name = "radio, sending"
bus = "DC"
power_w = 60
windows = ["06:00-06:30", "18:00-18:30"]
"""


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (_slip(), *_failed())


def _slip() -> Slot:
    return Slip(
        id="L12-slip",
        title="Find the slip",
        statement="Somebody followed a bank through a day: {bank_wh} on the label, {depth_frac} of it usable, nothing "
        "lost to the cold, {store_wh} at dusk. The night asks for {deficit_wh}; the morning leaves {early_surplus_wh} "
        "over, the afternoon {late_surplus_wh}, and {charge_eff_frac} of what goes in comes out again. Find the first "
        "line that goes wrong, if there is one, and give its right value.",
        hint=PAGE_LINE,
        principle=STEP_IDEA,
        sheet=DAY,
        given=WARM,
        grids={
            "bank_wh": (9800, 12_200, 14_600),
            "depth_frac": (0.6, 0.7),
            "store_wh": (6600, 7500, 8800),
            "deficit_wh": (4800, 5700, 6900),
            "early_surplus_wh": (1800, 2400, 3200),
            "late_surplus_wh": (9700, 11_300, 13_600),
            "charge_eff_frac": (0.77, 0.81, 0.85),
        },
        curated={
            "bank_wh": 12_200,
            "depth_frac": 0.7,
            "store_wh": 7500,
            "deficit_wh": 5700,
            "early_surplus_wh": 2400,
            "late_surplus_wh": 11_300,
            "charge_eff_frac": 0.81,
        },
        mistakes=("YS-01", "YS-02", "YS-03", "YS-05", "YS-19"),
        words=WORDS,
    )


def _failed() -> tuple[Slot, ...]:
    return (
        Failed(
            id="L12-failed",
            title="What failed at the lodge?",
            statement="Three days from the meters of a ski lodge, every second hour. The owners say that the "
            "bank has not been itself of late. " + _ASK,
            hint="Which reading could not be so in a sound system, with that sun and that load?",
            principle=_PRINCIPLE,
            plan=LODGE,
            faults=("always_on_load", "inverter_awake", "meter_by_ten", "loose_lug", "string_open"),
            days=(20, 160, 300),
            curated={"fault": "always_on_load", "day": 160, "case": 0},
        ),
        Failed(
            id="L12-failed-2",
            title="What failed at the hut?",
            statement="Three days from the wall of Fell hut, every second hour. A generator stands by. Something "
            "is not as it was, says the warden. " + _ASK,
            hint="At which charge and which voltage does something switch, and should it have?",
            principle=_PRINCIPLE,
            plan=HUT,
            faults=("disconnect_high", "generator_late", "set_point_low", "weak_unit", "frozen_week"),
            days=(5, 12, 330, 345, 355),
            curated={"fault": "set_point_low", "day": 5, "case": 0},
        ),
        Failed(
            id="L12-failed-3",
            title="What failed at the mast?",
            statement="Three days from Gull mast, every second hour, sent by its own radio. Nobody can be there before "
            "next month, so whoever goes should carry the right part. " + _ASK,
            hint="Which of the meters agree with each other, and which one does not?",
            principle=_PRINCIPLE,
            plan=MAST,
            faults=("sensor_stuck", "partial_shade", "soiling_ramp", "clock_shifted", "meter_by_ten"),
            days=(100, 130, 160, 200, 230),
            curated={"fault": "clock_shifted", "day": 160, "case": 0},
        ),
    )
