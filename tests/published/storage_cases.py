"""Published rules for days of storage, at one to seven peak sun hours in the worst month."""

from published.case import Case

from offgrid_core.sizing.storage_rules import STORAGE_RULES

_MESSENGER = "Messenger and Ventre, Photovoltaic Systems Engineering: −1.9 T + 18.3 and −0.48 T + 4.58"
_MASTERS = "Masters, Renewable and Efficient Electric Power Systems (2004), chapter 9"
#: Peak sun hours → days for 99 % and 95 % by the straight rules, then by the curved ones.
_DAYS = {
    1: (16.4, 4.1, 19.57, 7.64),
    2: (14.5, 3.62, 15.74, 6.07),
    3: (12.6, 3.14, 12.51, 4.72),
    4: (10.7, 2.66, 9.88, 3.59),
    5: (8.8, 2.18, 7.85, 2.68),
    6: (6.9, 1.7, 6.42, 1.99),
    7: (5.0, 1.22, 5.59, 1.52),
}
STORAGE_CASES = [
    Case(
        f"LL{21 + 4 * (hours - 1) + place:03}", "storage rules", STORAGE_RULES, name, {"worst_sun_h": hours},
        _DAYS[hours][place], 0.001, _MESSENGER if place < 2 else _MASTERS, "from memory",
    )
    for hours in _DAYS
    for place, name in enumerate(STORAGE_RULES)
]  # fmt: skip
