"""Problems of the temperature lesson."""

from offgrid_core.data import capacity_kept
from offgrid_core.practice.kinds import Backwards, Choose, Guess, Option, Rise, Slip, Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot, entry_check
from offgrid_core.practice.slots.l05_temperature_more import mixed, offers
from offgrid_core.sizing import BANK, BANK_1013
from offgrid_core.sizing.charging import SET_POINTS
from offgrid_core.sizing.strings import STRINGS
from offgrid_core.sizing.temperature import FAHRENHEIT, cold_gives_ah
from offgrid_core.worksheet import Sheet

#: From the day's energy to the label, in the order it is taught.
_CHAIN = Sheet(*(BANK[n] for n in ("spell_wh", "bank_warm_wh", "kept_frac", "bank_cold_wh", "bank_needed_ah")))
#: Its end: from the warm bank on.
COLD_END = Sheet(*(BANK[n] for n in ("kept_frac", "bank_cold_wh", "bank_needed_ah")))
#: From the bank in the cold on to whole batteries; and what the hut's bank would hold if it stayed warm.
_UNITS = COLD_END + STRINGS.upto("units_count")
_HUT_WARM_WH = 21020.5
WORDS = {
    "energy_day_wh": "energy a day",
    "mean_temp_c": "yearly mean in the shed",
    "bank_warm_wh": "bank, if it stayed warm",
    "for_all_three_ah": "what the bank must give in the cold",
    "bank_ah": "bank on hand",
    "reading_fahrenheit": "thermometer reading",
    "swing_fahrenheit": "rise on the same thermometer",
}
MARKS = {"reading_fahrenheit": " °F", "swing_fahrenheit": " °F steps"}
COLD = ("TE-01", "TE-02", "TE-03", "TE-04", "TE-05", "TE-06")
_AMP_HOURS = ("BV-07", "BV-08", "BV-09", "BV-10")
_RECIPROCAL = "The curve says what is left. Divide by it; then take your answer into the cold and see what remains."
_CHAIN_IDEA = "Each line asks one thing: the sunless days, the depth limit, the cold, then the voltage."
BACK = "If you take your answer into the cold room, how much of it is left?"
_SHED_ROWS = (-10, -3.9, -1.1, 1.7, 4.4)
_READ_AT = "Read the curve at the temperature the battery itself falls to."


def slots() -> tuple[Slot, ...]:
    """Return the slots of the lesson, in its order."""
    practice = _practice()
    by_id = {s.id: s for s in practice}
    known = entry_check("L05", *(by_id[f"L05-{n}"] for n in (1, 2, 4, 5)))
    return (*_recall(), *_guess_and_reason(), *known, *_faded(), *practice, *mixed(), *_judge(), offers())


def _recall() -> tuple[Slot, ...]:
    return (
        Choose(
            id="L05-recall-1",
            title="From the lesson on depth",
            statement="A bank has a depth limit of 40 %. What does that limit describe?",
            hint="At a full charge, what is the depth of discharge?",
            options=(
                Option("the share that may be taken out", "Depth counts what goes out; 60 % stays in.", right=True),
                Option("the share that must stay in", mistake="DD-03"),
                Option("the share of the array that may charge it", "Which part of the system is being emptied here?"),
                Option("the share of days that may be sunless", "Is a depth counted in days or in amp-hours?"),
            ),
        ),
        Choose(
            id="L05-recall-2",
            title="From the lesson on autonomy",
            statement="A brief asks for 4 days of autonomy. How much sun is counted on in those 4 days?",
            hint="What weather is autonomy there for?",
            options=(
                Option("none", "The bank carries all four alone; any sun is a gift.", right=True),
                Option("one of the four is taken as sunny", mistake="AU-05"),
                Option("a tenth of an ordinary day, every day", "Who promised that tenth on the worst days?"),
                Option("the sun of the design month", "Is the array or the bank sized on that sun?"),
            ),
        ),
        Choose(
            id="L05-recall-3",
            title="From the lesson on loads",
            statement="Riverbend has an AC vaccine fridge and DC ward lights. "
            "Whose energy grows on its way from the battery?",
            hint="Which of them has the inverter between it and the battery?",
            options=(
                Option("the fridge's only", "Only AC energy passes the inverter and pays its loss.", right=True),
                Option("both, by the same factor", mistake="LD-14"),
                Option("the lights' only", mistake="LD-17"),
                Option("neither; the loss is the array's", mistake="LD-15"),
            ),
        ),
    )


def _guess_and_reason() -> tuple[Slot, ...]:
    return (
        Guess(
            id="L05-guess",
            title="Guess, then lock it",
            statement="The warden's flooded bank at Fell hut was bought as {bank_ah}. The shed is at {battery_temp_c} "
            "tonight. How many amp-hours can it give over a day or so?",
            hint="Would it give all, nearly all, or clearly less?",
            principle="A cold battery gives only part of what is printed on it.",
            sheet=Sheet(BANK["kept_frac"], cold_gives_ah),
            given={"capacity_kept": capacity_kept("flooded")},
            curated={"bank_ah": 400, "battery_temp_c": 0},
            starts_curated=True,
            words=WORDS,
            step=Step("cold_gives_ah"),
        ),
        Rise(
            id="L05-explore",
            title="How many more batteries?",
            statement="Fell hut as the panel opens: 4 days, depth 50 %, units of {unit_v} and {unit_ah}. The shed "
            "falls from {battery_temp_c} to {colder_temp_c}. What becomes of the number of battery units?",
            hint="Where do the stairs of the bank as built jump?",
            sheet=_UNITS,
            given={
                "capacity_kept": capacity_kept("flooded"),
                "bank_warm_wh": _HUT_WARM_WH,
                "bank_voltage_v": 48,
                "unit_v": 6,
                "unit_ah": 380,
                "battery_temp_c": -8,
                "colder_temp_c": -12,
            },
            words={**WORDS, "units_count": "number of units"},
            result="units_count",
            moved="battery_temp_c",
            after="colder_temp_c",
            reasons=(
                Option(
                    "batteries come in whole strings, and two strings no longer reach",
                    "A bit colder, and eight more batteries are needed at once: the stairs of the panel.",
                    right=True,
                ),
                Option("each degree asks for a few batteries more", "Does the panel ever show 18 or 20 units?"),
                Option("the share that the cold takes is put on top", mistake="TE-02"),
                Option("the shed's yearly mean decides, and that has hardly moved", mistake="TE-08"),
            ),
        ),
        Choose(
            id="L05-reason",
            title="Say why",
            statement="A bank keeps 75 % in the cold. Why is the label made 1 ÷ 0.75 times as big, and not 1.25 times?",
            hint="What does each of the two give when it is taken into the cold?",
            principle=_RECIPROCAL,
            options=(
                Option(
                    "the cold takes its share from the bigger bank too",
                    "The extra is in the cold as well: 1.25 × 0.75 is less than one.",
                    right=True,
                ),
                Option("25 % is lost, so adding 25 % brings it back", mistake="TE-02"),
                Option("a cold bank needs fewer amp-hours on its label", mistake="TE-01"),
                Option("the correction is made once for each direction", mistake="TE-04"),
            ),
        ),
    )


def _faded() -> tuple[Slot, ...]:
    return (
        Work(
            id="L05-faded-1",
            title="Faded: the first two lines are yours",
            statement="Fell hut needs a flooded bank of {bank_warm_wh} if it stayed warm. On its coldest day the "
            "battery is at {battery_temp_c}; the bank is {bank_voltage_v}.",
            hint=BACK,
            principle=_RECIPROCAL,
            sheet=COLD_END,
            given={"capacity_kept": capacity_kept("flooded"), "bank_voltage_v": 48},
            grids={"bank_warm_wh": (16000, 18000, 21000, 24000), "battery_temp_c": _SHED_ROWS},
            curated={"bank_warm_wh": 18000, "battery_temp_c": -3.9},
            mistakes=COLD,
            words=WORDS,
            asked=(Step("kept_frac"), Step("bank_cold_wh")),
            filled=(Step("bank_needed_ah"),),
        ),
        Work(
            id="L05-faded-2",
            title="Faded: all but the last line are yours",
            statement="A weather mast takes {energy_day_wh} a day and must carry {autonomy_days} alone. The AGM bank "
            "may be emptied by {depth_frac}; its coldest day is {battery_temp_c}, at {bank_voltage_v}.",
            hint=BACK,
            principle=_CHAIN_IDEA,
            sheet=_CHAIN,
            given={"capacity_kept": capacity_kept("agm"), "bank_voltage_v": 12},
            grids={
                "energy_day_wh": (90, 110, 120, 140),
                "autonomy_days": (7, 9, 12),
                "depth_frac": (0.6, 0.7, 0.8),
                "battery_temp_c": (-10, 0),
            },
            curated={"energy_day_wh": 120, "autonomy_days": 9, "depth_frac": 0.7, "battery_temp_c": 0},
            mistakes=("AU-01", "AU-02", "DD-01", "DD-02", "DD-03", *COLD),
            words=WORDS,
            asked=tuple(map(Step, ("spell_wh", "bank_warm_wh", "kept_frac", "bank_cold_wh"))),
            filled=(Step("bank_needed_ah"),),
        ),
    )


def _practice() -> tuple[Slot, ...]:
    return (
        Work(
            id="L05-1",
            title="Two scales",
            statement="A thermometer among the batteries at Fell hut reads {reading_fahrenheit} at dawn. By noon it "
            "has risen by {swing_fahrenheit}. Give the dawn reading in °C and the rise in kelvin.",
            hint="At what reading does water freeze on each scale?",
            principle="A temperature has an offset of 32 °F and a step of 5 K for 9 °F; a difference has only the "
            "step.",
            sheet=FAHRENHEIT,
            grids={"reading_fahrenheit": (5, 14, 23, 41, 50, 59), "swing_fahrenheit": (9, 18, 27, 36, 45)},
            curated={"reading_fahrenheit": 14, "swing_fahrenheit": 27},
            mistakes=("TE-10", "TE-11", "TE-12", "TE-13"),
            words=WORDS,
            marks=MARKS,
            asked=(Step("battery_temp_c"), Step("temp_rise_k")),
            only={"battery_temp_c": ("°C",), "temp_rise_k": ("K",)},
        ),
        Work(
            id="L05-2",
            title="From the share kept to amp-hours",
            statement="A bank of {bank_warm_wh} would do at the lake if it stayed warm. In its shed it keeps "
            "{kept_frac} of its label. The bank is {bank_voltage_v}. What must the label say?",
            hint=BACK,
            principle=_RECIPROCAL,
            sheet=Sheet(BANK["bank_cold_wh"], BANK["bank_needed_ah"]),
            grids={
                "bank_warm_wh": (14000, 15000, 18000, 20000, 22000, 26000),
                "kept_frac": (0.58, 0.66, 0.7, 0.74, 0.77, 0.8),
                "bank_voltage_v": (24, 48),
            },
            curated={"bank_warm_wh": 18000, "kept_frac": 0.7, "bank_voltage_v": 48},
            mistakes=(*COLD, *_AMP_HOURS),
            words=WORDS,
            asked=(Step("bank_cold_wh"), Step("bank_needed_ah")),
        ),
        Work(
            id="L05-3",
            title="The whole chain",
            statement="A border post takes {energy_day_wh} on its hardest day, wants {autonomy_days} of autonomy and "
            "allows a depth of {depth_frac}, at {bank_voltage_v}. The flooded battery falls to {battery_temp_c}; "
            "the shed's yearly mean is {mean_temp_c}, and the coldest air outside was {air_coldest_c}.",
            hint="Which earlier line does this one begin from?",
            principle=f"{_CHAIN_IDEA} {_READ_AT}",
            sheet=_CHAIN,
            given={"capacity_kept": capacity_kept("flooded"), "bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2100, 2400, 2700, 3200),
                "autonomy_days": (3, 5, 6, 7),
                "depth_frac": (0.35, 0.45, 0.6, 0.7, 0.75),
                "battery_temp_c": (-15, -14, 1.7, 4.4),
                "mean_temp_c": (7.2, 10, 12.8),
                "air_coldest_c": (-25, -22, -20),
            },
            curated={
                "energy_day_wh": 2400,
                "autonomy_days": 6,
                "depth_frac": 0.6,
                "battery_temp_c": 1.7,
                "mean_temp_c": 7.2,
                "air_coldest_c": -20,
            },
            mistakes=(
                *("AU-01", "AU-02", "AU-04", "AU-05", "DD-01", "DD-02", "DD-03", "DD-05"),
                *("TE-01", "TE-02", "TE-03", "TE-04", "TE-06", "TE-07", "TE-08", "TE-09", *_AMP_HOURS),
            ),
            words=WORDS,
            asked=tuple(map(Step, _CHAIN)),
        ),
        Work(
            id="L05-4",
            title="Take it into the cold",
            statement="In a cold week at Gull mast the bank must still give {for_all_three_ah}. "
            "It keeps {kept_frac} of its label. How many amp-hours must be on the label?",
            hint=BACK,
            principle=_RECIPROCAL,
            sheet=Sheet(BANK_1013["for_cold_ah"]),
            grids={"for_all_three_ah": (80, 110, 130, 150, 180), "kept_frac": (0.58, 0.65, 0.7, 0.8)},
            curated={"for_all_three_ah": 100, "kept_frac": 0.75},
            starts_curated=True,
            mistakes=COLD,
            words=WORDS,
            asked=(Step("for_cold_ah"),),
        ),
        Work(
            id="L05-5",
            title="Which way does the charge voltage move?",
            statement="A lead-acid bank of {bank_voltage_v} has {cells_12v_count} cells in every 12 V. Its maker gives "
            "{absorb_cell_v} for each cell at {label_temp_c} and {compensation_mv_k} for each cell. "
            "The battery is at {battery_temp_c}. Find the absorption set-point.",
            hint="How far is the battery from the label's temperature, and which way?",
            principle="Each cell moves by its own few millivolts for each kelvin from the label's temperature: up in "
            "the cold, down in heat.",
            sheet=SET_POINTS.upto("absorb_set_v"),
            given={"cells_12v_count": 6, "label_temp_c": 25},
            grids={
                "bank_voltage_v": (24, 48),
                "absorb_cell_v": (2.37, 2.4, 2.45),
                "compensation_mv_k": (-4, -5),
                "battery_temp_c": (-12, -8, 5, 36, 40),
            },
            curated={"bank_voltage_v": 48, "absorb_cell_v": 2.45, "compensation_mv_k": -5, "battery_temp_c": -8},
            mistakes=("TE-14", "TE-15", "TE-16", "TE-17"),
            words=WORDS,
            asked=(Step("cells_count"), Step("absorb_set_v")),
        ),
        Backwards(
            id="L05-6",
            title="How warm must the shed stay?",
            statement="The flooded bank on hand is {bank_ah} at {bank_voltage_v}. The hut takes {energy_day_wh} a "
            "day for {autonomy_days} and allows a depth of {depth_frac}. How cold may the battery become before "
            "this bank is too small?",
            hint="What share of its label may the cold leave, so that it is just enough?",
            principle="Work the chain to the warm bank, see what share of the bank on hand that is, and read the curve "
            "backwards.",
            sheet=_CHAIN,
            given={"capacity_kept": capacity_kept("flooded")},
            grids={
                "bank_ah": (400, 450, 500, 550, 600, 700, 800),
                "bank_voltage_v": (24, 48),
                "energy_day_wh": (1800, 2100, 2400, 2700),
                "autonomy_days": (3, 4),
                "depth_frac": (0.5, 0.6),
            },
            curated={
                "bank_ah": 500,
                "bank_voltage_v": 48,
                "energy_day_wh": 2400,
                "autonomy_days": 4,
                "depth_frac": 0.5,
            },
            mistakes=("TE-02", "TE-04"),
            words=WORDS,
            unknown="battery_temp_c",
            span=(-10, 24),
            result="bank_needed_ah",
            wanted="bank_ah",
        ),
    )


def _judge() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L05-slip",
            title="Find the slip",
            statement="Someone sized a flooded bank for Fell hut: {energy_day_wh} a day, {autonomy_days}, depth "
            "{depth_frac}, coldest battery {battery_temp_c}, {bank_voltage_v}. Find the first line that goes wrong, "
            "if there is one, and give its right value.",
            hint="What does this line begin from, and what should happen to it?",
            principle=_CHAIN_IDEA,
            sheet=_CHAIN,
            given={"capacity_kept": capacity_kept("flooded"), "bank_voltage_v": 48},
            grids={
                "energy_day_wh": (2100, 2400, 2700, 3200),
                "autonomy_days": (3, 4, 5),
                "depth_frac": (0.4, 0.6, 0.7),
                "battery_temp_c": (-10, -3.9, -1.1),
            },
            curated={"energy_day_wh": 2400, "autonomy_days": 4, "depth_frac": 0.6, "battery_temp_c": -3.9},
            mistakes=("AU-05", "DD-03", "DD-05", "TE-01", "TE-02", "TE-03", "TE-07"),
            words=WORDS,
        ),
        Choose(
            id="L05-pick",
            title="Insulate or enlarge?",
            statement="Fell hut's bare shed falls to {battery_temp_c}, where a flooded bank keeps {shed_kept_frac}; "
            "sized for that, it has 4 strings of 4 units. In an insulated box the battery would stay at "
            "{box_temp_c}, where it keeps {box_kept_frac}. The box costs as much as one unit. Which would you build?",
            hint="How many of the 4 strings are there only because of the cold, with the box and without it?",
            principle="Compare what each way buys: the units that the cold asks for, against the box.",
            given={
                "battery_temp_c": -10,
                "shed_kept_frac": float(capacity_kept("flooded")(-10)),
                "box_temp_c": 10,
                "box_kept_frac": float(capacity_kept("flooded")(10)),
            },
            options=(
                Option(
                    "the box: it saves a string of four for the price of one unit",
                    "In the box, {shed_kept_frac} ÷ {box_kept_frac} of the four strings would do: three strings.",
                    right=True,
                ),
                Option("the larger bank: adding the share that is lost brings it back", mistake="TE-02"),
                Option("neither: size it for the shed's yearly mean", mistake="TE-08"),
                Option("the larger bank: sized for the coldest air outside, it is safest", mistake="TE-09"),
            ),
        ),
    )
