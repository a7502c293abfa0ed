"""Set-points as they are typed into a charge controller: for the whole bank at 25 °C, and the most current."""

from offgrid_core.worksheet import Sheet, line

_RANGE = "practice gives a range; the battery's own sheet decides"


@line("absorption set-point at 25 °C", standing="maker's data wanted", source=_RANGE)
def absorb_25_set_v(cells_count, absorb_cell_v):
    return cells_count * absorb_cell_v


@line("float set-point at 25 °C", standing="maker's data wanted", source=_RANGE)
def float_25_set_v(cells_count, float_cell_v):
    return cells_count * float_cell_v


@line("equalizing set-point at 25 °C", standing="maker's data wanted", source=_RANGE)
def equalize_25_set_v(cells_count, equalize_cell_v):
    return cells_count * equalize_cell_v


@line("most charging current of all sources together", standing="maker's data wanted")
def charge_most_a(bank_ah, charge_rate_max_per_h):
    return bank_ah * charge_rate_max_per_h


#: For every chemistry.
TYPED_IN = Sheet(absorb_25_set_v, float_25_set_v, charge_most_a)
#: For chemistries that are equalized.
TYPED_IN_EQUALIZE = Sheet(equalize_25_set_v)
