"""Judgement items of the array lesson: a page with a slip, modules to pick for a roof, a tilt to choose."""

from offgrid_core.practice.kinds import Choose, Option, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l07_sheets_more import FULL_SUN, LOSS_IDEA, MONTH_IDEA, STRING_IDEA, WORDS
from offgrid_core.sizing.array import ARRAY_LAYOUT, ARRAY_NEED
from offgrid_core.sizing.array_teaching import ON_THE_ROOF
from offgrid_core.sizing.cost import array_cost
from offgrid_core.worksheet import Sheet

#: One month's page, from its sun to its array.
PAGE = Sheet(
    *(
        ARRAY_NEED[n]
        for n in (
            *("peak_sun_by_month_h", "load_sun_by_month_w", "losses_kept_frac", "delivered_by_month_frac"),
            "array_by_month_w",
        )
    )
)
PAGE_HINT = "What does this line begin from, and what should happen to it?"
_KIT = Sheet(ARRAY_LAYOUT["array_w"], *ON_THE_ROOF.values(), ARRAY_LAYOUT["array_margin_w"], array_cost)


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (
        Slip(
            id="L07-slip",
            title="Find the slip",
            statement="Somebody worked the cabin's dullest month: {plane_by_month_kwh_m2} a day on the array, "
            "{shade_by_month_frac} left by the trees, days {daylight_by_month_h} long, a load of "
            "{battery_mean_by_month_wh} a day. Dirt takes {soiling_frac}, wiring {wiring_loss_frac}, mismatch "
            "{mismatch_frac}; the controller passes on {converter_kept_frac}, the battery gives back "
            "{charge_eff_frac}; the array-to-load ratio is {array_load_ratio}. Find the first line that goes wrong, if "
            "there is one, and give its right value.",
            hint=PAGE_HINT,
            principle=f"{MONTH_IDEA} {LOSS_IDEA}",
            sheet=PAGE,
            given=FULL_SUN | {"heat_kept_by_month_frac": 1},
            grids={
                "plane_by_month_kwh_m2": (2.3, 2.6, 2.9),
                "shade_by_month_frac": (0.8, 0.9),
                "daylight_by_month_h": (8.6, 9.1),
                "battery_mean_by_month_wh": (520, 630, 760),
                "soiling_frac": (0.1, 0.14),
                "wiring_loss_frac": (0.06, 0.08),
                "mismatch_frac": (0.04, 0.06),
                "converter_kept_frac": (0.94, 0.97),
                "charge_eff_frac": (0.75, 0.8),
                "array_load_ratio": (1.2, 1.3),
            },
            curated={
                "plane_by_month_kwh_m2": 2.6,
                "shade_by_month_frac": 0.9,
                "daylight_by_month_h": 9.1,
                "battery_mean_by_month_wh": 630,
                "soiling_frac": 0.1,
                "wiring_loss_frac": 0.06,
                "mismatch_frac": 0.04,
                "converter_kept_frac": 0.97,
                "charge_eff_frac": 0.8,
                "array_load_ratio": 1.2,
            },
            mistakes=("AR-01", "AR-02", "AR-06", "AR-10", "AR-14", "AR-15", "AR-26"),
            words=WORDS,
        ),
        Pick(
            id="L07-pick",
            title="Modules for a cabin roof",
            statement="The cabin needs an array of {array_needed_w}. Its roof has {roof_places_count} places and "
            "carries {roof_mass_max_kg}; the hoist takes {lift_max_kg}, one module at a time. The dealer "
            "offers whole sets. Which is the cheapest that keeps every limit? Costs are invented.",
            hint="How many watts come up on that roof, and how many kilograms?",
            principle=f"{STRING_IDEA} What a roof and a pair of hands can take is a limit like any other.",
            sheet=_KIT,
            given={"lift_max_kg": 25},
            grids={
                "array_needed_w": (1080, 1190, 1260),
                "roof_places_count": (5, 7),
                "roof_mass_max_kg": (84, 92, 101),
            },
            curated={"array_needed_w": 1190, "roof_places_count": 5, "roof_mass_max_kg": 92, "batch": 0},
            parts={
                "module_w": (320, 345, 375, 410, 440),
                "modules_count": (2, 3, 4, 6),
                "module_mass_kg": (17.8, 19.4, 21.6, 23.5, 27.5),
                "module_cost": (110, 130, 160, 190, 220),
            },
            cost="array_cost",
            questions={
                "array_margin_w": "How many watts do all modules of this set come to?",
                "module_lift_margin_kg": "Can the hoist take one of these modules?",
                "roof_mass_margin_kg": "What do all modules of this set weigh on the roof?",
                "roof_places_margin_count": "How many of these modules find a place?",
            },
            words={"array_needed_w": "array needed", "modules_count": "modules in the set"},
        ),
        Choose(
            id="L07-tilt",
            title="Which tilt?",
            statement="For a place at 45° north, with an even load all year, two tilts were worked out. At "
            "{flatter_deg} the mean sun of the year is {flatter_kwh_m2} a day and December's is "
            "{flatter_december_kwh_m2}; at {steep_deg} they are {steep_kwh_m2} and {steep_december_kwh_m2}. Nothing "
            "else feeds this house. Which one?",
            hint="Which month is the array there for, and on which tilt is that month's sun larger?",
            principle=MONTH_IDEA,
            given={
                "flatter_kwh_m2": 4.30,
                "flatter_deg": 30,
                "flatter_december_kwh_m2": 2.29,
                "steep_kwh_m2": 3.86,
                "steep_deg": 68,
                "steep_december_kwh_m2": 2.80,
            },
            options=(
                Option(
                    "{steep_deg}: the month that rules gets more sun there",
                    "December rules, so a smaller array will do; the sun that July loses is sun nobody needed.",
                    right=True,
                ),
                Option("{flatter_deg}: it has the most sun over the year", mistake="AR-18"),
                Option("either: the mean sun decides, and the two are nearly alike", mistake="AR-03"),
                Option("flat: no tilt at all takes the most from a dull sky", "How high is December's sun at noon?"),
            ),
        ),
    )
