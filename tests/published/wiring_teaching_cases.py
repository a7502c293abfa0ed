"""Published examples: how hot copper becomes, and the heat a fuse lets into its cable.

A code follows one law in its factors for other air: above the air, copper warms with the square of its current. A cable
that carries what its code allows in some air comes to just what its insulation stands.
"""

from published.case import Case

from offgrid_core import data
from offgrid_core.sizing.fuse_teaching import COPPER, GAUGE_ON_HAND

US, IEC = data.code_setting("us_style"), data.code_setting("iec_style")


def _laid(code, area, air_c, amperes):
    return {
        "ambient_c": air_c, "wire_temp_c": float(code.insulation_c), "current_by_row_a": amperes,
        "cable_ampacity": code.ampacity_of, "cable_by_row_mm2": area, "grouping_frac": 1, "cables_by_row_count": 1,
    }  # fmt: skip


_B52 = "IEC 60364-5-52 tables B.52.2, B.52.14: PVC 70 °C, ampacity × factor"
_NEC = "NEC Tables 310.16, 310.15(B)(1): 75 °C insulation, ampacity × factor"

COPPER_CASES = [
    Case(
        id_, "conductors", COPPER, "copper_by_row_c", _laid(code, area, air_c, amperes),
        insulation_c, 1.5e-2, source, "seen, computed", "the insulation's own temperature",
    )
    for id_, code, area, air_c, amperes, insulation_c, source in [
        ("IEC 2.5 mm² at 30 °C", IEC, 2.5, 30, 27.0, 70, _B52),
        ("IEC 2.5 mm² at 45 °C", IEC, 2.5, 45, 21.33, 70, _B52),
        ("IEC 16 mm² at 60 °C", IEC, 16, 60, 42.5, 70, _B52),
        ("AMP-030 8 AWG at 40 °C", US, 8.366, 40, 44.0, 75, _NEC),
        ("AMP-032 8 AWG at 50 °C", US, 8.366, 50, 37.5, 75, _NEC),
        ("AMP-035 8 AWG at 65 °C", US, 8.366, 65, 23.5, 75, _NEC),
    ]
] + [
    Case(
        "heat of a fuse", "conductors", COPPER, "heat_at_fuse_by_row_w",
        {"fuse_by_row_a": 40, "length_by_row_m": 10, "resistance_by_row_ohm_m": 0.00308, "cables_by_row_count": 1},
        98.56, 1e-6, "Joule's law; IEC 60228 class 2, 6 mm²: 3.08 ohm/km at 20 °C", "seen, computed",
    ),
    Case(
        "gauge 10 for 35 A", "conductors", GAUGE_ON_HAND, "gauge_margin_by_row_mm2",
        {"gauge_mm2": 5.261, "for_ampacity_by_row_mm2": 13.302},
        -8.041, 1e-3, "ASTM B258 by its formula: gauge 10 is 5.261 mm², gauge 6 is 13.302 mm²", "from memory, computed",
    ),
]  # fmt: skip
