"""The order list: what the parts cost, and how much cable the circuits take."""

from offgrid_core.worksheet import Sheet, line, sum_of


@line("cost of the row", standing="physics", source="prices of the catalogue are invented")
def cost_by_row_cost(count_by_row, unit_by_row_cost):
    return count_by_row * unit_by_row_cost


@line("cost of the priced rows together", standing="physics", source="cable is not priced")
def order_cost(cost_by_row_cost):
    return sum_of(cost_by_row_cost)


@line("cable to buy, both poles", standing="physics", source="there and back; bends, drops and offcuts come on top")
def cable_by_row_m(length_by_row_m, cables_by_row_count, circuits_by_row_count):
    return 2 * length_by_row_m * cables_by_row_count * circuits_by_row_count


#: The parts of the catalogue, one row a part.
ORDER = Sheet(cost_by_row_cost, order_cost)
#: The main circuits, one row a kind of circuit.
CABLE_ORDER = Sheet(cable_by_row_m)
