"""Published examples: a motor's nameplate, its start, and the margin on an inverter's watts."""

from published.case import PRACTICE, Case

from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.inverter_day_teaching import ONE_MOTOR
from offgrid_core.sizing.inverter_teaching import MOTOR

_COMPRESSOR = "NEC Article 440, unmarked small motor-compressors: six times the rated-load current"
_STARTS = "starting beside running current of single-phase motors, as trade handbooks have it"

INVERTER_DAY_CASES = [
    Case(
        "one electrical horsepower", "inverter", MOTOR, "motor_input_w", {"shaft_hp": 1, "motor_eff_frac": 1},
        746, 1e-9, "NIST SP 811, appendix B: horsepower (electric) in watts", "from memory",
    ),
    Case(
        "INV-011", "inverter", INVERTER, "inverter_needed_w", {"peak_w": 1000, "inverter_margin_factor": 1.25},
        1250, 1e-9, PRACTICE, "common practice", "25 to 30 % margin",
    ),
    *(
        Case(
            id_, "inverter", ONE_MOTOR, "surge_w",
            {"motor_input_w": 100, "others_w": others, "start_by_row_factor": times},
            surge, 1e-9, source, tag,
        )
        for id_, others, times, surge, source, tag in (
            ("LD-037 alone", 0, 6, 600, _COMPRESSOR, "from memory"),
            ("LD-036 split-phase, beside 200 W", 200, 5, 700, _STARTS, "common practice"),
            ("LD-036 capacitor, beside 200 W", 200, 2, 400, _STARTS, "common practice"),
        )
    ),
]  # fmt: skip
