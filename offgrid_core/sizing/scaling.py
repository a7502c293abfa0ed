"""Designs round a design: its array and its bank made larger and smaller, without rounding to whole parts."""

from offgrid_core.worksheet import Sheet, line

_SMOOTH = "not rounded to whole parts, so that neighbours can be compared"


@line("array", standing="classroom approximation, no source", source=_SMOOTH)
def grown_array_w(array_w, array_factor):
    return array_w * array_factor


@line("modules", standing="classroom approximation, no source", source=_SMOOTH)
def grown_modules_count(modules_count, array_factor):
    return modules_count * array_factor


@line("controllers", standing="classroom approximation, no source", source=_SMOOTH)
def grown_controllers_count(controllers_count, array_factor):
    return controllers_count * array_factor


@line("bank", standing="classroom approximation, no source", source=_SMOOTH)
def grown_bank_wh(bank_wh, bank_factor):
    return bank_wh * bank_factor


@line("units", standing="classroom approximation, no source", source=_SMOOTH)
def grown_units_count(units_count, bank_factor):
    return units_count * bank_factor


@line("controllers for another array", standing="classroom approximation, no source", source=_SMOOTH)
def share_controllers_count(controllers_count, array_for_load_w, array_w):
    return controllers_count * array_for_load_w / array_w


#: Controllers for an array of another size.
ARRAY_SHARE = Sheet(share_controllers_count)
#: From a design to the designs round it.
SCALED = Sheet(grown_array_w, grown_modules_count, grown_controllers_count, grown_bank_wh, grown_units_count)
