"""Other pages with a slip, for the exit quiz of the generator lesson."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Slip
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l11_sheets_more import BURNT, LEVELS, LINE, SITE, SIZE, WORDS


def _pages() -> tuple[Slot, ...]:
    return (
        Slip(
            id="L11-exit-6",
            title="The clinic's fuel book",
            statement="From the clinic's fuel book: store {bank_ah}, {bank_voltage_v}, raised out of "
            "{generator_start_frac} to {generator_stop_frac} ({charge_eff_frac} stays); box {charger_a}, "
            "{absorb_set_v}, {charger_eff_frac}; lights {dc_running_w}; autoclave {generator_other_w}; plate "
            "{generator_rated_w}; {fuel_size_l_kwh} idle, {fuel_work_l_kwh} work. Does a line go astray? Name the "
            "earliest and put it right.",
            hint=LINE,
            sheet=BURNT,
            given={"bank_voltage_v": 24},
            grids={
                "bank_ah": (610, 735, 860),
                "generator_start_frac": (0.4, 0.45),
                "generator_stop_frac": (0.8, 0.85),
                "charge_eff_frac": (0.79, 0.83),
                "charger_a": (50, 60, 70),
                "absorb_set_v": (28.2, 28.8),
                "charger_eff_frac": (0.84, 0.88),
                "dc_running_w": (190, 250),
                "generator_other_w": (450, 620),
                "generator_rated_w": (4100, 4800),
                "fuel_size_l_kwh": (0.068, 0.086),
                "fuel_work_l_kwh": (0.25, 0.29),
            },
            curated={
                "bank_ah": 610,
                "generator_start_frac": 0.45,
                "generator_stop_frac": 0.8,
                "charge_eff_frac": 0.83,
                "charger_a": 50,
                "absorb_set_v": 28.8,
                "charger_eff_frac": 0.88,
                "dc_running_w": 190,
                "generator_other_w": 620,
                "generator_rated_w": 4800,
                "fuel_size_l_kwh": 0.086,
                "fuel_work_l_kwh": 0.29,
            },
            mistakes=("GE-03", "GE-06", "GE-07", "GE-09", "GE-11"),
            words=WORDS,
        ),
        Slip(
            id="L11-exit-6",
            title="Ordered by telephone",
            statement="An order by telephone, noted in haste: for a place {altitude_m:m} high and {air_hot_c:°C} hot. "
            "{charger_dc_w} to the cells, {charger_eff_frac}, cos φ {charger_pf_ratio}; kitchen {peak_w}, also given "
            "as {peak_va}; minus {derate_altitude_frac} per 300 m, minus {derate_heat_frac} per 10 K past 25 °C. "
            "Check before it is sent: which figure is off first, if any, and what replaces it?",
            hint=LINE,
            sheet=SIZE,
            given=SITE,
            grids={
                "altitude_m": (1900, 2300, 2700),
                "air_hot_c": (28, 31, 35),
                "charger_dc_w": (1300, 1700, 2100),
                "charger_eff_frac": (0.84, 0.88),
                "charger_pf_ratio": (0.68, 0.76),
                "peak_w": (780, 900),
                "peak_va": (1100, 1300),
            },
            curated={
                "altitude_m": 1900,
                "air_hot_c": 31,
                "charger_dc_w": 1700,
                "charger_eff_frac": 0.88,
                "charger_pf_ratio": 0.68,
                "peak_w": 780,
                "peak_va": 1300,
            },
            mistakes=("GE-01", "GE-02", "GE-13", "GE-14", "GE-15"),
            words=WORDS,
        ),
        Slip(
            id="L11-exit-6",
            title="On a board in the engine house",
            statement="Chalk on a board: lower mark {generator_start_frac}, upper {generator_stop_frac}, cells "
            "{bank_ah}; maker's most {charge_rate_max_per_h}, box {charger_rated_a}; nothing else on DC. Underneath, "
            "four results. Somebody may have slipped. Where did it begin, if it did, and which number belongs there?",
            hint=LINE,
            sheet=LEVELS,
            grids={
                "generator_start_frac": (0.4, 0.45, 0.5),
                "generator_stop_frac": (0.75, 0.8, 0.85),
                "bank_ah": (350, 480, 610),
                "charge_rate_max_per_h": (0.11, 0.13),
                "charger_rated_a": (90, 105, 125),
            },
            curated={
                "generator_start_frac": 0.4,
                "generator_stop_frac": 0.85,
                "bank_ah": 350,
                "charge_rate_max_per_h": 0.13,
                "charger_rated_a": 105,
            },
            mistakes=("GE-05", "GE-10", "GE-17", "GE-18"),
            words=WORDS,
        ),
    )


#: Id of the place -> its pages beside the first.
PAGES: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_pages(),)}
