"""Published examples: cycles counted by rainflow (kept as rows, see test_wear.py), and Miner's rule on them."""

from published.case import Case

from offgrid_core.sizing.wear import WEAR

#: Series: its source; the record's id of each range and how many cycles of it there are. All ranges are listed; one
#: that only the text of the record gives has an id of its own.
SERIES: dict[str, tuple[tuple[float, ...], str, str, tuple[tuple[str, float, float], ...]]] = {
    "standard": (
        (-2, 1, -3, 5, -1, 3, -4, 4, -2),
        "ASTM E1049-85, section 5.4.4, example of figure 6",
        "seen",
        (("BW001", 3, 0.5), ("BW002", 4, 1.5), ("figure 6", 6, 0.5), ("BW004", 8, 1.0), ("BW005", 9, 0.5)),
    ),
    "library": (
        (-1.5, 1, -3, 10, -1, 3, -8, 4, -2, 6, -1, -4, -8, 2, 1, -5, 0, 2.5, -4, 1, 0, 2, -0.5),
        "second test case of the rainflow library",
        "seen",
        (
            ("BW006", 1, 1.0), ("BW007", 2.5, 1.0), ("BW008", 4, 1.5), ("BW009", 6, 1.5), ("BW010", 6.5, 0.5),
            ("BW011", 7, 1.0), ("BW012", 10.5, 0.5), ("BW013", 13, 0.5), ("BW014", 14, 1.0), ("BW015", 18, 0.5),
        ),
    ),
    "charge": (
        (1, 0.6, 0.9, 0.5, 1, 0.8, 0.95, 0.3, 1),
        "a charge curve, counted by ASTM E1049-85",
        "computed",
        (("BW016", 0.15, 1.0), ("BW017", 0.3, 1.0), ("BW018", 0.5, 1.0), ("BW019", 0.7, 1.0)),
    ),
}  # fmt: skip

WEAR_CASES = [
    Case(
        "BW020", "wear", WEAR.written(life_cycles_by_row_count="1500 * (depth_counted_by_row_frac / 0.5) ** -1.3"),
        "wear_counted_frac",
        {"cycle_depth_by_row_frac": [0.15, 0.3, 0.5, 0.7], "cycle_by_row_count": [1, 1, 1, 1],
         "cycle_depth_least_frac": 0.01},
        0.00218167, 1e-5, "Palmgren-Miner on the cycles of the charge curve; N = 1500 (D ÷ 0.5)^−1.3", "computed",
    ),
]  # fmt: skip
