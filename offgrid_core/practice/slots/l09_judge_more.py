"""Judgement items of the inverter lesson: a page with a slip, an inverter to pick, and the work put in order."""

from offgrid_core.practice.kinds import Order, Pick, Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l09_sheets_more import (
    HEAT,
    HEAT_IDEA,
    LINE,
    MARGIN,
    PLAIN,
    RATINGS,
    START_IDEA,
    THREE_OF_FOUR,
    TOGETHER,
    TOGETHER_IDEA,
    VA_IDEA,
    WORDS,
)
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_day_teaching import IDLE, idle_margin_wh
from offgrid_core.worksheet import Sheet

_LIMITS = ("inverter_margin_w", "inverter_margin_va", "surge_margin_w", "heat_margin_w")
#: One inverter of a table, judged: watts with their margin, volt-amps, the start, the heat, and what idling may take.
_INVERTERS = Sheet(
    INVERTER["inverter_needed_w"],
    INVERTER["inverter_hot_w"],
    IDLE["inverter_idle_wh"],
    *(INVERTER[n] for n in _LIMITS),
    idle_margin_wh,
)


def judge() -> tuple[Slot, ...]:
    """Return the judgement items, in order."""
    return (_slip(), _order(), _pick())


def _slip() -> Slot:
    return Slip(
        id="L09-slip",
        title="Find the slip",
        statement="Somebody worked an inverter for a smithy. The first three run together, the last one waits. "
        "{inverter_margin_factor} is the margin; the shop gets {air_hot_c}, a label of {inverter_rated_w} is good up "
        "to {inverter_temp_rated_c} and loses {inverter_derate_per_k} above that. Find the first line that goes wrong, "
        "if there is one, and give its right value.",
        hint=LINE,
        principle=f"{TOGETHER_IDEA} {VA_IDEA} {START_IDEA} {HEAT_IDEA}",
        sheet=RATINGS + HEAT,
        rows=("blower", "lamps", "hammer", "polisher"),
        given=PLAIN | MARGIN | THREE_OF_FOUR | {"inverter_temp_rated_c": 40, "count_by_row": (1, 4, 1, 1)},
        grids={
            "power_by_row_w": ((260, 28, 640, 310), (310, 24, 720, 360), (230, 35, 580, 280)),
            "power_factor_by_row_ratio": ((0.75, 0.9, 0.7, 0.7), (0.7, 0.9, 0.65, 0.75), (0.8, 0.95, 0.7, 0.65)),
            "start_by_row_factor": ((3, 1, 4, 2), (2.5, 1, 5, 3), (4, 1, 4.5, 3)),
            "inverter_rated_w": (1600, 1800, 2400),
            "air_hot_c": (52, 55),
            "inverter_derate_per_k": (0.014, 0.017),
        },
        curated={
            "power_by_row_w": (260, 28, 640, 310),
            "power_factor_by_row_ratio": (0.75, 0.9, 0.7, 0.7),
            "start_by_row_factor": (3, 1, 4, 2),
            "inverter_rated_w": 1800,
            "air_hot_c": 55,
            "inverter_derate_per_k": 0.017,
        },
        mistakes=("IN-01", "IN-02", "IN-10", "IN-11", "IN-06", "IN-07", "IN-17", "IN-20"),
        words=WORDS,
    )


def _order() -> Slot:
    return Order(
        id="L09-order",
        title="From a list to a label",
        statement="A family shows you its appliances, and wants to know which inverter to buy. Put the work in order.",
        hint="What does this card need that another one brings?",
        principle="First who runs together, then the sums, then what heat leaves of a label, and idling last of all.",
        cards={
            "list": "write down watts, power factors and starts",
            "which": "ask what is on in the same minute",
            "watts": "add up the watts that run together",
            "margin": "put the margin on the watts",
            "va": "add up the volt-amps that run together",
            "surge": "put the hardest start on top of the watts",
            "keep": "keep the inverters that carry it in the heat",
            "idle": "compare what idling takes, of those that fit",
        },
        before=(
            ("list", "watts"),
            ("list", "va"),
            ("which", "watts"),
            ("which", "va"),
            ("watts", "margin"),
            ("watts", "surge"),
            ("margin", "keep"),
            ("va", "keep"),
            ("surge", "keep"),
            ("keep", "idle"),
        ),
        extra={"starts": "add up the starts of all motors", "hours": "multiply the watts by the hours of a day"},
    )


def _pick() -> Slot:
    return Pick(
        id="L09-pick",
        title="Pick an inverter",
        statement="At the clinic {peak_w} run together, which are {peak_va}; the hardest start comes to {surge_w}. "
        "{inverter_margin_factor} times the watts are wanted on the label. The inverter hangs where it gets "
        "{air_hot_c}; above the air of its rating it loses {inverter_derate_per_k}. It is on for {inverter_on_h}, and "
        "idling may take {idle_most_wh} a day. Which is the cheapest that keeps every limit? "
        "Costs are invented.",
        hint=TOGETHER,
        principle="An inverter has more than one limit: watts with a margin, volt-amps, the start, the heat. And one "
        "that is too large idles.",
        sheet=_INVERTERS,
        given={"inverter_on_h": 24, **MARGIN},
        grids={
            "peak_w": (1130, 1210, 1280),
            "peak_va": (1780, 1840, 1910),
            "surge_w": (2900, 3200, 3450),
            "air_hot_c": (44, 47),
            "inverter_derate_per_k": (0.018, 0.022),
            "idle_most_wh": (430, 520),
        },
        curated={
            "peak_w": 1130,
            "peak_va": 1780,
            "surge_w": 3450,
            "air_hot_c": 47,
            "inverter_derate_per_k": 0.018,
            "idle_most_wh": 520,
            "batch": 9,
        },
        parts={
            "inverter_rated_w": (1300, 1450, 1550, 1700),
            "inverter_rated_va": (1700, 1950, 2300),
            "inverter_surge_w": (2600, 3600, 4200, 5000),
            "inverter_temp_rated_c": (25, 40),
            "inverter_idle_w": (11, 14, 17, 26),
            "inverter_cost": (420, 480, 560, 640, 730, 850),
        },
        cost="inverter_cost",
        questions={
            "inverter_margin_w": "With the margin on top, how many watts are wanted on the label?",
            "inverter_margin_va": "What do the amps of this load come to, with its power factor?",
            "surge_margin_w": "What is on already in the moment of the hardest start?",
            "heat_margin_w": "For what air was this label written, and how hot does it get here?",
            "idle_margin_wh": "How many watt-hours does this one take in a day with nothing plugged in?",
        },
        words={"peak_w": WORDS["peak_w"], "inverter_cost": "cost"},
    )
