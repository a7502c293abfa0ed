"""Published examples: strings wired by hand, and the rules of a drawing of strings."""

from published.case import PRACTICE, Case

from offgrid_core.sizing.sharing import SHARING
from offgrid_core.sizing.strings_teaching import AS_WIRED, STRING_RULES

_LADDER = "first-principles resistor network, main leads at battery 1 and battery 3 of three"

STRINGS_BY_HAND_CASES = [
    Case(
        "BAT-013 volts", "strings", AS_WIRED, "wired_voltage_v", {"units_in_series_count": 4, "unit_v": 6},
        24, 1e-6, PRACTICE, "common practice", "three strings of four 6 V 225 Ah",
    ),
    Case(
        "BAT-013 units on hand", "strings", AS_WIRED, "wired_wh",
        {"owned_units_count": 12, "units_in_series_count": 4, "unit_v": 6, "unit_ah": 225},
        16_200, 1e-6, PRACTICE, "common practice, computed",
    ),
    Case(
        "PAR-005 corners", "strings", STRING_RULES, "corner_margin_count",
        {"plus_lead_count": 1, "minus_lead_count": 3, "strings_count": 3},
        0, 1e-6, _LADDER, "from memory", "opposite corners: nothing to spare, nothing short",
    ),
    Case(
        "PAR-005 extra", "strings", SHARING, "extra_share_frac",
        {"string_share_by_row_frac": [0.341, 0.317, 0.341], "strings_count": 3},
        0.023, 1e-6, _LADDER, "from memory, computed", "34.1 A of 100 A where a third would be equal",
    ),
    Case(
        "PAR-002 a fuse in each string", "strings", STRING_RULES, "string_fuses_margin_count",
        {"string_fuses_count": 2, "strings_count": 3},
        -1, 1e-6, PRACTICE, "common practice", "one string without a fuse",
    ),
]  # fmt: skip
