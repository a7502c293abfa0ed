"""Published examples: fuel, loading and hours of a backup generator."""

from published.case import PRACTICE, Case, typed

from offgrid_core import data
from offgrid_core.sizing.generator import GENERATOR

_CHART, _SECOND = "widely copied approximate diesel fuel chart", "second approximate diesel fuel chart"
_BOOK = "Skarstein & Uhlen, Wind Engineering 13 (1989) 72-87"


def _load(curve: str, rated_kw: float, kw: float) -> dict[str, float]:
    line = data.fuel_curve(curve)
    return {
        "fuel_size_l_kwh": line.fuel_size_l_kwh, "fuel_work_l_kwh": line.fuel_work_l_kwh,
        "generator_rated_w": typed("generator_rated_w", f"{rated_kw} kW"),
        "generator_load_w": typed("generator_load_w", f"{kw} kW"),
    }  # fmt: skip


#: id, fuel line, rated and actual kW, what was printed, tolerance, source, tag.
_FUEL = [
    ("GN001", "diesel_chart_100kw", 100, 25, "2.6 gal/h", 2e-2, _CHART, "seen, computed"),
    ("GN002", "diesel_chart_100kw", 100, 50, "4.1 gal/h", 2e-2, _CHART, "seen, computed"),
    ("GN003", "diesel_chart_100kw", 100, 75, "5.8 gal/h", 2e-2, _CHART, "seen, computed"),
    ("GN004", "diesel_chart_100kw", 100, 100, "7.4 gal/h", 2e-2, _CHART, "seen, computed"),
    ("GN010 50 %", "diesel_second_20kw", 20, 10, "1.2 gal/h", 2e-2, _SECOND, "seen, computed"),
    ("GN010 100 %", "diesel_second_20kw", 20, 20, "2.1 gal/h", 2e-2, _SECOND, "seen, computed"),
    ("GN012 50 %", "diesel_second_100kw", 100, 50, "5.3 gal/h", 2e-2, _SECOND, "seen, computed"),
    ("GN012 100 %", "diesel_second_100kw", 100, 100, "9.5 gal/h", 2e-2, _SECOND, "seen, computed"),
    ("GN016", "diesel_textbook", 10, 10, "3.3015 L/h", 1e-6, _BOOK, "from memory"),
    ("GN017", "diesel_textbook", 10, 5, "2.0715 L/h", 1e-6, _BOOK, "from memory"),
    ("GN018", "diesel_textbook", 10, 2.5, "1.4565 L/h", 1e-6, _BOOK, "from memory"),
    ("GN019", "diesel_textbook", 50, 25, "10.3575 L/h", 1e-6, _BOOK, "from memory"),
    ("GN020", "diesel_textbook", 100, 75, "26.865 L/h", 1e-6, _BOOK, "from memory"),
]
GENERATOR_CASES = [
    *(
        Case(
            id_, "generator", GENERATOR, "fuel_l_h", _load(curve, rated, kw),
            typed("fuel_l_h", said), tol, source, tag,
        )
        for id_, curve, rated, kw, said, tol, source, tag in _FUEL
    ),
    Case(
        "hours at the charger's pace", "generator", GENERATOR, "generator_run_h",
        {"generator_start_frac": 0.50, "generator_stop_frac": 0.85, "bank_ah": 400, "charger_a": 50},
        2.8, 1e-6, "50 to 85 % of 400 Ah at 50 A; " + PRACTICE, "common practice",
    ),
    Case(
        "GN021", "generator", GENERATOR, "loading_margin_frac",
        {"generator_load_w": 3000, "generator_rated_w": 10_000, "loading_min_frac": 0.3},
        0, 0, "diesel, 30 % of the rating; " + PRACTICE, "common practice", "just met",
    ),
    Case(
        "height and heat", "generator", GENERATOR, "generator_kept_frac",
        {"derate_altitude_frac": 0.035, "altitude_m": 3000, "derate_heat_frac": 0.02, "air_hot_c": 45},
        0.624, 1e-9, "3.5 % for each 300 m, 2 % for each 10 K; " + PRACTICE, "common practice",
    ),
]  # fmt: skip
