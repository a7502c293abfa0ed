"""What the problems of the array lesson share: worksheets, words, hints, and twelve months of invented sun and load."""

from offgrid_core.quantities import say
from offgrid_core.sizing.array import ARRAY_FOR_BANK, ARRAY_LAYOUT, ARRAY_NEED
from offgrid_core.sizing.array_teaching import SUN_READ
from offgrid_core.worksheet import Sheet

#: From megajoules to the hours of full sun on the array.
SUN = SUN_READ + Sheet(ARRAY_NEED["peak_sun_by_month_h"])
#: One month: from its sun and load to the array it asks for.
MONTH = Sheet(*(ARRAY_NEED[n] for n in ("peak_sun_by_month_h", "load_sun_by_month_w", "array_by_month_w")))
#: The chain of losses, and the array that it takes.
LOSSES = Sheet(*(ARRAY_NEED[n] for n in ("losses_kept_frac", "delivered_by_month_frac", "array_by_month_w")))
#: Twelve months side by side, and the array for the one that rules.
MONTHS = Sheet(
    *(
        ARRAY_NEED[n]
        for n in (
            *("load_sun_by_month_w", "array_by_month_w", "design_month", "design_delivered_frac", "design_load_wh"),
            "array_for_load_w",
        )
    )
)
#: From the three demands to modules in whole strings.
MODULES = Sheet(
    ARRAY_FOR_BANK["array_needed_w"], *(ARRAY_LAYOUT[n] for n in ("array_strings_count", "modules_count", "array_w"))
)
#: The array that refills a bank.
REFILL = Sheet(ARRAY_FOR_BANK["array_for_refill_w"])
#: The array that gives a bank the current it wants.
BRISK = Sheet(ARRAY_FOR_BANK["charge_floor_a"], ARRAY_FOR_BANK["array_for_current_w"])

TWELVE = tuple(say(f"month.{m}") for m in range(1, 13))
FULL_SUN = {"full_sun_kw_m2": 1}
WORDS = {
    "plane_by_month_mj_m2": "sun on the array a day, in megajoules",
    "plane_by_month_kwh_m2": "sun on the array a day",
    "peak_sun_by_month_h": "peak sun hours a day",
    "daylight_by_month_h": "hours from sunrise to sunset",
    "battery_mean_by_month_wh": "load a day",
    "heat_kept_by_month_frac": "share of module power kept in the heat",
    "losses_kept_frac": "share kept after dirt, wiring and mismatch",
    "converter_kept_frac": "share the controller passes on",
    "delivered_by_month_frac": "share that reaches the load",
    "design_delivered_frac": "share that reaches the load",
    "load_sun_by_month_w": "load for each hour of full sun",
    "array_by_month_w": "array the month asks for",
    "array_for_load_w": "array for the load",
    "array_for_refill_w": "array to refill the bank",
    "array_for_current_w": "array for the charging current",
    "array_needed_w": "array needed",
    "bank_usable_wh": "energy missing from the bank",
    "design_load_wh": "load of the design month",
    "design_sun_h": "peak sun hours of the design month",
    "bank_ah": "bank as built",
}
NAMES_HINT = "Is a kilowatt-hour a larger or a smaller piece of sun than a megajoule?"
BACK = "If your array works through all its losses, how much of it is left for the load?"
WHICH = "Which month has the most load beside its own sun?"
ENOUGH = "With so many whole strings, does the array reach what is needed?"
SUN_IDEA = "Sun comes under three names. One kWh/m² is 3.6 MJ/m², and it is one hour of full sun."
LOSS_IDEA = (
    "Each loss takes its share of what the one before it left: the shares that are kept multiply. Divide by what is "
    "left, then go back to check."
)
MONTH_IDEA = "Set each month's load beside its own sun. The month with the most load for each hour of sun rules."
STRING_IDEA = (
    "The largest of the three demands decides. Modules come in whole strings, and the number of strings is rounded up."
)

#: Invented classroom data, peak sun hours on a tilted array and Wh a day, January first.
SUN_NORTH = (
    (3.3, 4.1, 4.4, 4.4, 4.5, 4.6, 4.8, 4.7, 4.4, 3.8, 2.9, 2.8),
    (2.4, 3.2, 3.9, 4.3, 4.6, 4.7, 4.8, 4.6, 4.2, 3.3, 2.5, 2.1),
    (2.9, 3.5, 4.2, 4.7, 5.1, 5.3, 5.4, 5.1, 4.6, 3.7, 3.0, 2.6),
)
SUMMER_LOADS = (
    (700, 700, 750, 900, 1300, 1700, 2000, 1800, 1300, 900, 750, 700),
    (800, 780, 800, 950, 1500, 2200, 2600, 2300, 1600, 1000, 850, 820),
    (600, 620, 700, 1000, 1700, 2200, 2450, 2100, 1500, 900, 650, 640),
)
#: The darkest month rules, but the largest load comes in another.
SUN_WINTER = (
    (1.2, 1.8, 2.5, 3.4, 3.8, 3.8, 3.7, 3.5, 2.8, 2.1, 1.3, 1.1),
    (1.3, 2.0, 2.6, 3.2, 3.6, 3.7, 3.6, 3.3, 2.7, 2.0, 1.5, 1.2),
    (1.7, 2.4, 3.0, 3.6, 4.1, 4.2, 4.1, 3.8, 3.2, 2.5, 1.8, 1.5),
)
WINTER_LOADS = (
    (2410, 2380, 2320, 2280, 2250, 2300, 2600, 3100, 2400, 2350, 2380, 2410),
    (1900, 1850, 1800, 1750, 1800, 2100, 2500, 2700, 2000, 1850, 1880, 1920),
    (1500, 1480, 1450, 1400, 1500, 1700, 1950, 2100, 1600, 1480, 1500, 1530),
)
#: South of the equator the dark months are June and July; guests come at the turn of the year.
SUN_SOUTH = (
    (4.6, 4.3, 3.8, 3.1, 2.3, 1.8, 2.0, 2.7, 3.4, 4.0, 4.4, 4.6),
    (5.0, 4.7, 4.1, 3.2, 2.4, 1.9, 2.1, 2.8, 3.6, 4.3, 4.8, 5.1),
    (4.2, 4.0, 3.5, 2.8, 2.0, 1.6, 1.7, 2.4, 3.1, 3.7, 4.1, 4.3),
)
SOUTH_LOADS = (
    (165, 150, 130, 120, 118, 118, 118, 118, 120, 125, 135, 160),
    (190, 170, 140, 130, 126, 125, 126, 126, 128, 135, 150, 180),
    (150, 140, 125, 112, 108, 107, 108, 108, 110, 118, 130, 145),
)
#: In the tropics the rains bring the dark months, and the heat comes before them.
SUN_TROPICS = (
    (5.7, 6.0, 6.0, 5.7, 5.2, 4.7, 4.3, 4.2, 4.7, 5.3, 5.7, 5.6),
    (5.4, 5.8, 5.9, 5.5, 4.9, 4.4, 3.9, 3.7, 4.4, 5.0, 5.3, 5.2),
    (6.0, 6.3, 6.2, 5.8, 5.2, 4.8, 4.5, 4.4, 4.9, 5.5, 5.9, 5.8),
)
TROPICS_LOADS = (
    (1950, 2100, 2350, 2450, 2250, 2050, 1980, 1980, 2000, 2050, 2000, 1950),
    (1450, 1600, 1850, 1950, 1750, 1550, 1500, 1500, 1520, 1560, 1500, 1450),
    (2600, 2800, 3050, 3150, 2900, 2700, 2650, 2650, 2670, 2720, 2650, 2600),
)
#: Neither the darkest month nor that of the largest load rules: in October both are bad enough.
SUN_AUTUMN = (
    (3.3, 4.1, 4.3, 4.1, 4.1, 4.1, 4.3, 4.3, 4.2, 3.4, 2.9, 2.8),
    (2.9, 3.6, 4.0, 4.2, 4.3, 4.4, 4.6, 4.5, 4.1, 3.2, 2.6, 2.4),
    (3.0, 3.8, 4.2, 4.4, 4.6, 4.7, 4.9, 4.8, 4.4, 3.3, 2.7, 2.5),
)
AUTUMN_LOADS = (
    (400, 400, 450, 600, 800, 1000, 1500, 1550, 1400, 1350, 600, 450),
    (500, 500, 520, 640, 900, 1150, 1650, 1700, 1500, 1480, 750, 560),
    (350, 350, 380, 500, 700, 900, 1300, 1350, 1200, 1180, 550, 400),
)
