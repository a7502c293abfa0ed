"""Where sources disagree: the values in circulation, which one ours gives, and why.

``ours`` runs a public worksheet or data table; nothing is computed here but a unit.
"""

from collections.abc import Callable
from dataclasses import dataclass

from offgrid_core import data
from offgrid_core.sizing import BANK_1013, sun
from offgrid_core.sizing.array import ARRAY_LAYOUT, ARRAY_NEED, DIRECT_CONVERTER
from offgrid_core.sizing.bank import kept_frac
from offgrid_core.sizing.forms import FORMS
from offgrid_core.sizing.generator import GENERATOR
from offgrid_core.sizing.life import LIFE
from offgrid_core.sizing.rate import RATE
from offgrid_core.sizing.state import FREEZING
from offgrid_core.sizing.ventilation import FARADAY, VENTILATION
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.worksheet import Sheet


@dataclass(frozen=True)
class Disagreement:
    """One question with more than one answer in print.

    Attributes
    ----------
    values
        ``(value, who says so)``, ours first.
    why
        Why they differ, and why ours is followed.
    ours
        What our public line or table gives.
    tol
        Relative tolerance on our value; the others lie further away than that.
    """

    question: str
    values: tuple[tuple[float, str], ...]
    why: str
    ours: Callable[[], float]
    tol: float = 0.01


US, IEC = data.code_setting("us_style"), data.code_setting("iec_style")
AWG = {label: area for area, label in US.size_labels.items()}


def _multiplier(celsius: float) -> float:
    kept = Sheet(kept_frac).solve({"capacity_kept": data.capacity_kept("flooded"), "battery_temp_c": celsius})
    return 1 / float(kept["kept_frac"])


def _peukert(line: str, amperes: float, exponent: float) -> float:
    given = {"capacity_hours_h": 20, "bank_ah": 100, "running_current_a": amperes, "peukert_exponent": exponent}
    return float(Sheet(RATE["runtime_h"], RATE["delivered_ah"]).solve(given)[line])


def _bank(line: str) -> float:
    given = {
        "battery_day_by_month_wh": [2400.0] * 12, "bank_voltage_v": 24, "autonomy_days": 5, "depth_frac": 0.8,
        "depth_daily_frac": 0.2, "end_of_life_frac": 0.8, "design_margin_factor": 1, "battery_temp_c": 25,
        "capacity_kept": data.capacity_kept("flooded"), "peak_w": 0, "dc_peak_w": 240, "inverter_eff_frac": 1,
    }  # fmt: skip
    return float((FORMS + BANK_1013).solve(given)[line])


def _air(gas: float, bank_ah: float = 500) -> float:
    given = {"cells_count": 24, "gas_ma_ah": gas, "bank_ah": bank_ah}
    return float(VENTILATION.upto("air_needed_m3_h").solve(given)["air_needed_m3_h"])


def _hydrogen(celsius: float) -> float:
    return float(FARADAY.upto("hydrogen_l_ah").solve({"gas_temp_c": celsius})["hydrogen_l_ah"])


def _calendar(years: float) -> float:
    given = {"float_life_years": years, "life_temp_c": 41, "life_table_c": 25}
    given["halving_k"] = ASSUMPTIONS["halving_k"].value
    return float(LIFE.upto("calendar_life_years").solve(given)["calendar_life_years"])


def _freezing(charge: float, fill: str) -> float:
    given = {"depth_frac": 1 - charge, "gravity_of_charge": data.gravity_of_charge(fill)}
    given["freezing_of_gravity"] = data.freezing_of_gravity()
    return float(FREEZING.upto("freezing_left_c").solve(given)["freezing_left_c"])


def _cold_voltage() -> float:
    given = {"modules_in_series_count": 1, "module_voc_v": 1, "voc_temp_per_k": -0.0030, "air_coldest_c": -23.7}
    return float(ARRAY_LAYOUT.upto("string_voc_cold_v").solve(given)["string_voc_cold_v"])


def _direct() -> float:
    given = {"bank_voltage_v": 12, "modules_in_series_count": 1, "module_vmp_v": 17.94}
    return float(Sheet(DIRECT_CONVERTER).solve(given)["converter_kept_frac"])


def _fuel() -> float:
    row = data.fuel_curve("diesel_textbook")
    given = {
        "fuel_size_l_kwh": row.fuel_size_l_kwh, "fuel_work_l_kwh": row.fuel_work_l_kwh,
        "generator_rated_w": 100_000, "generator_load_w": 100_000,
    }  # fmt: skip
    return float(Sheet(GENERATOR["fuel_l_h"]).solve(given)["fuel_l_h"])


def _label_hours() -> float:
    (hours,) = {unit.capacity_hours for unit in data.battery_units()}
    return hours


def _cell() -> float:
    given = {"air_temp_by_month_c": 25, "noct_c": 45, "working_sun_kw_m2": 1}
    return float(Sheet(ARRAY_NEED["cell_temp_by_month_c"]).solve(given)["cell_temp_by_month_c"])


def _above(latitude: float, month: int) -> float:
    return float(sun.extraterrestrial_kwh_m2(latitude, sun.MEAN_DAYS)[month - 1]) * 3.6


#: Sun on the flat at 48.1° N by month, NASA POWER 2001 to 2020, kWh/m² a day (seen).
_FLAT_48 = [1.0, 1.76, 3.04, 4.46, 5.21, 5.87, 5.67, 4.83, 3.72, 2.2, 1.15, 0.81]


def _diffuse_in_june() -> float:
    flat, diffuse = sun.flat_and_diffuse_kwh_m2(_FLAT_48, 48.1)
    return float(diffuse[5] / flat[5])


DISAGREEMENTS = (
    Disagreement(
        "lead-acid capacity kept at 0 °C",
        ((0.715, "IEEE Std 485"), (0.75, "US Army"), (0.80, "popular tables"), (0.55, "'1 % per °F'")),
        "rate, gravity and plate differ; the last takes a figure for °C as one for °F. IEEE 485 is the standard",
        lambda: 1 / _multiplier(0),
    ),
    Disagreement(
        "multiplier at 26.7 °C", ((1.00, "DOE-SPEC-3019-96"), (0.98, "IEEE Std 485")),
        "warmth is never credited: the next cold week takes it back", lambda: _multiplier(26.7), 1e-6,
    ),
    Disagreement(
        "multiplier at −1.1 °C", ((1.43, "IEEE Std 485"), (1.40, "trade table")),
        "the trade table stretches the standard's cold end", lambda: _multiplier(-1.1),
    ),
    Disagreement(
        "multiplier at 10 °C", ((1.19, "IEEE Std 485"), (1.11, "another stored table")),
        "the other table is shifted by one row", lambda: _multiplier(10),
    ),
    Disagreement(
        "temperature of the label, as capacity kept at 20 °C",
        ((1 / 1.049, "IEEE, 25 °C"), (1.0, "EN, 20 °C")),
        "convert before comparing; all our tables are for 25 °C", lambda: 1 / _multiplier(20), 0.02,
    ),
    Disagreement(
        "temperature compensation, mV a kelvin a cell",
        ((-5.0, "controller practice"), (-3.0, "teaching text"), (-5.4, "open code, from −3 mV a °F")),
        "half of the −3 figures are per °F", lambda: data.chemistry("flooded").compensation_mv_per_k_cell,
    ),
    Disagreement(
        "ten years at 25 °C, run at 41 °C",
        ((3.30, "halving each 10 K"), (2.63, "each 8.3 K"), (2.50, "each 8 K"), (1.50, "a page that fits none")),
        "the rule of thumb behind all three is Arrhenius; a setting, said with the result", lambda: _calendar(10),
    ),
    Disagreement(
        "hours of 100 Ah (20 h) at 5 A, exponent 1.2", ((20.0, "referred form"), (14.5, "C ÷ I^k with the 20 h label")),
        "C ÷ I^k wants the one-hour capacity; at the label's rate the label must come back",
        lambda: _peukert("runtime_h", 5, 1.2),
    ),
    Disagreement(
        "amp-hours of 100 Ah at four times the 20 h current, exponent 1.1",
        ((87.1, "the law"), (79.0, "a printed table")),
        "the printed column is nearer exponent 1.17", lambda: _peukert("delivered_ah", 20, 1.1),
    ),
    Disagreement(
        "litres of hydrogen for each amp-hour of gassing", ((0.457, "IEEE, UFC: 25 °C"), (0.418, "IEC: 0 °C")),
        "both are Faraday's law, at two temperatures", lambda: _hydrogen(25),
    ),
    Disagreement(
        "0.016 ft³ of hydrogen in m³", ((0.000453, "the same in metric"), (0.0000453, "UFGS 16720N as printed")),
        "a published misprint, factor ten", lambda: _hydrogen(25) / 1000,
    ),
    Disagreement(
        "air for 24 vented cells of 500 Ah, boost, m³/h",
        ((12.0, "IEC 62485-2: 20 mA per Ah"), (0.12, "'mA per 100 Ah'"), (60.0, "full charging current")),
        "the label of one table is wrong by 100, and the charger's current is not the gassing current",
        lambda: _air(data.gas_current("flooded", "boost").gas_ma_ah),
    ),
    Disagreement(
        "14 AWG, ohms for 1000 ft", ((3.14, "NEC Table 8, stranded"), (3.07, "the same, solid")),
        "building wire of systems like these is stranded; the table is for 75 °C",
        lambda: float(US.resistance_of(AWG["14 AWG"])) * 304.8,
    ),
    Disagreement(
        "1 AWG at 90 °C, amperes", ((145.0, "NEC from 2011"), (150.0, "NEC to 2008")), "edition",
        lambda: float(data.code_setting("us_style", insulation_c=90).ampacity_of(AWG["1 AWG"])),
    ),
    Disagreement(
        "70 mm² class 2, Ω/km at 20 °C", ((0.268, "IEC 60228"), (0.263, "open code")), "a copying error",
        lambda: float(IEC.resistance_of(70.0)) * 1000,
    ),
    Disagreement(
        "50 mm² class 2, Ω/km at 20 °C", ((0.387, "IEC 60228"), (0.386, "open code")), "a copying error",
        lambda: float(IEC.resistance_of(50.0)) * 1000, 0.001,
    ),
    Disagreement(
        "factor on open-circuit voltage at −20 °C", ((1.18, "NEC Table 690.7(A)"), (1.02, "a course")),
        "the course read the row of 20 to 24 °C", lambda: float(data.cold_voltage_us()(45)),
    ),
    Disagreement(
        "open-circuit voltage at −23.7 °C over the label",
        ((1.146, "module coefficient"), (1.20, "NEC Table 690.7(A)")),
        "NEC since 2008: the coefficient where it is known; the table, the safe side, stands beside it",
        _cold_voltage,
    ),
    Disagreement(
        "gravity of a half-charged cell", ((1.190, "filled to 1.265"), (1.220, "filled to 1.280")),
        "say the full-charge gravity first; deep-cycle cells are filled to 1.265",
        lambda: float(data.gravity_of_charge("deep_cycle_1265")(0.5)), 0.005,
    ),
    Disagreement(
        "freezing point at full charge of a 1.280 filling, °C",
        ((-67.8, "TM 5-1185, −90 °F"), (-70.6, "TM 10-6140-200-14, −95 °F")),
        "near the eutectic the curve is steep; a warning goes by the warmer",
        lambda: _freezing(1.0, "motive_1280"),
    ),
    Disagreement(
        "freezing point at half charge, °C",
        ((-24.3, "filled to 1.265"), (-35.0, "filled to 1.280")),
        "a table for one filling promises the other ten kelvin too much",
        lambda: _freezing(0.5, "deep_cycle_1265"), 0.02,
    ),
    Disagreement(
        "equalizing volts of a cell", ((2.55, "deep-cycle practice, 2.50 to 2.66"), (2.36, "stationary, 2.33 to 2.38")),
        "the alloy of the plates decides; ask the maker",
        lambda: float(data.chemistry("flooded").equalize_v_per_cell or 0),
    ),
    Disagreement(
        "cycles of a flooded battery at half depth", ((400.0, "practice, 300 to 500"), (1100.0, "'more than 1000'")),
        "no common test stands behind either; the lower is planned with",
        lambda: float(data.cycle_life("flooded")(0.5)), 0.25,
    ),
    Disagreement(
        "depth limit 0.80 and end of life 0.80, 500 Ah of load: Ah",
        ((625.0, "IEEE Std 1013: the larger"), (781.0, "both multiplied")),
        "the largest demand covers the other", lambda: _bank("for_all_three_ah"),
    ),
    Disagreement(
        "factor on the array's short-circuit current, US style",
        ((1.5625, "NEC 690.8(A) and (B)"), (1.25, "bright sun alone"), (1.30, "trade")),
        "brighter sun and hours of it are two reasons", lambda: US.pv_current_factor * US.continuous_factor,
    ),
    Disagreement(
        "share of a 36-cell module's power that a direct controller passes at 12 V",
        ((0.669, "battery volts ÷ working volts"), (0.712, "single-diode model")),
        "below its working voltage a module gives a little more current, which the simple ratio leaves out",
        _direct,
    ),
    Disagreement(
        "fuel of 100 kW at full load, L/h",
        ((33.0, "textbook line"), (28.0, "a widely copied chart"), (36.0, "a second chart")),
        "engines differ; the maker's sheet decides", _fuel,
    ),
    Disagreement(
        "sun above the air, 38.6° N, 3 September, MJ/m²", ((33.25, "the book's formula"), (33.0, "as printed there")),
        "rounding on the way", lambda: float(sun.extraterrestrial_kwh_m2(38.6, 246)) * 3.6, 0.001,
    ),
    Disagreement(
        "air for 24 cells with 25 A of gassing, m³/h",
        ((30.0, "IEC 62485-2: safety five below 4 %"), (27.4, "UFC 3-410-04N, fire codes: 1 %"),
         (13.8, "UFC 3-520-01: 2 %"), (13.0, "AS 2676")),
        "a quarter or a half of the lower explosive limit, or a fifth; ours is the most cautious",
        lambda: _air(20, 1250), 0.05,
    ),
    Disagreement(
        "hours behind the amp-hours on a label",
        ((20.0, "deep-cycle trade"), (6.0, "US Army, motive"), (8.0, "US stationary"), (10.0, "EN 60896, US Navy"),
         (100.0, "Pacific guides, C100"), (120.0, "IEC 61427")),
        "an amp-hour without its hours is not defined; the catalogue names them and the rate is verified afterwards",
        _label_hours,
    ),
    Disagreement(
        "does an AGM bank get an equalizing set-point, 1 for yes",
        ((0.0, "practice: not unless the maker says so"), (1.0, "some makers, now and then")),
        "gas that a sealed cell vents is lost; ask the maker",
        lambda: float(data.chemistry("agm").equalize_v_per_cell is not None),
    ),
    Disagreement(
        "sun above the air in February at 45° N, MJ/m²",
        ((17.63, "Klein 1977: the mean day, 16 February"), (17.4, "Duffie & Beckman Table 1.10.1: mean of 28 days")),
        "the monthly method divides by the mean day it was fitted with", lambda: _above(45, 2), 0.002,
    ),
    Disagreement(
        "sun above the air at Madison in January, MJ/m²",
        ((13.37, "Duffie & Beckman Ex 2.19.1: 43° N"), (13.30, "its appendix: 43.1° N")),
        "the example's printed column is that of 43°", lambda: _above(43, 1), 0.001,
    ),
    Disagreement(
        "diffuse share of the sun in June at 48.1° N",
        ((0.42, "Erbs 1982, monthly"), (0.49, "NASA POWER, a satellite's cell of one degree")),
        "Erbs goes with the monthly method; in December, which decides, the two agree",
        _diffuse_in_june, 0.02,
    ),
    Disagreement(
        "cell temperature in full sun at 25 °C of air",
        ((56.25, "nominal temperature 45 °C"), (65.0, "Faiman 2008, still air"), (54.4, "SAND2004-3535, 1 m/s")),
        "the wind decides and monthly means have none; both others stand beside it for whoever measured it",
        _cell,
    ),
    Disagreement(
        "inverter efficiency to size with", ((0.90, "practice: the day's average"), (0.85, "Masters"), (0.95, "label")),
        "the label shows the peak; idle power counts apart", lambda: ASSUMPTIONS["inverter_eff_frac"].value,
    ),
)  # fmt: skip


def as_text(rows: tuple[Disagreement, ...] = DISAGREEMENTS) -> str:
    """Return the questions as a table in Markdown."""
    said = ["| question | ours | others | why |", "|---|---|---|---|"]
    for row in rows:
        ours, *others = (f"{value:g} ({who})" for value, who in row.values)
        said.append(f"| {row.question} | {ours} | {'; '.join(others)} | {row.why} |")
    return "\n".join(said)
