"""Ventilation of the battery room: how much hydrogen, how much air, how large the openings, how far from sparks.

A charging lead-acid cell gives off hydrogen in step with its *gassing* current, which is far below the charger's
current. Two ways to the air: the European standard's one formula with openings, and the longer American way from
hydrogen to a limit of concentration. Lithium cells gas only when they fail; air then is not the cure. The amp-hours
here are those of the label, at 20 hours, a little more than the 10 hours of the standard: the cautious side.
Design exercise: local code and a licensed person decide.
"""

from offgrid_core.worksheet import Sheet, larger, limit, line

_IEC = "IEC 62485-2"
_UFC = "UFC 3-410-04N, battery maintenance"


@line(
    "hydrogen for each amp-hour of gassing, one cell",
    standing="physics",
    source="Faraday: two charges a molecule, 96485 C/mol; gas law at 101325 Pa",
)
def hydrogen_l_ah(gas_temp_c):
    return 3600 / (2 * 96485.33) * 8.314463 * (gas_temp_c + 273.15) / 101325 * 1000


@line("air for each amp-hour of gassing, one cell", standing="standard", source=_IEC + ", which rounds it to 0.05")
def air_each_m3_ah(dilution_ratio, hydrogen_l_ah, gas_safety_factor):
    return dilution_ratio * hydrogen_l_ah / 1000 * gas_safety_factor


@line("air wanted", standing="standard", source=_IEC + ": 0.05 m³ of air for each amp-hour of gassing and cell")
def air_needed_m3_h(cells_count, gas_ma_ah, bank_ah):
    return 0.05 * cells_count * gas_ma_ah * bank_ah / 1000


@line("free opening wanted, low and again high", standing="standard", source=_IEC + ": air moves at 0.1 m/s")
def opening_needed_cm2(air_needed_m3_h):
    return 28 * air_needed_m3_h


@line("air changes of the room", standing="physics")
def room_changes_per_h(air_needed_m3_h, room_m3):
    return air_needed_m3_h / room_m3


@line("cells in one block", standing="physics")
def block_cells_count(unit_v, cells_12v_count):
    return unit_v / 12 * cells_12v_count


@line(
    "distance round a cell without sparks or hot surfaces",
    standing="standard",
    source=_IEC + ", close vicinity, from memory",
)
def spark_free_mm(gas_ma_ah, unit_ah, block_cells_count):
    return 28.8 * (gas_ma_ah * unit_ah * block_cells_count) ** (1 / 3)


@limit(
    "free opening against the opening wanted",
    severity="danger",
    mend="make both openings larger, or drive the air with a fan that the charger cannot run without",
    standing="standard",
    source=_IEC,
)
def opening_margin_cm2(opening_cm2, opening_needed_cm2):
    return opening_cm2 - opening_needed_cm2


@line("gassing current of the hot battery", standing="standard", source=_UFC + ": doubles for each 15 °F of rise")
def gas_hot_ma_ah(gas_ma_ah, battery_hot_c, gas_doubling_k):
    return gas_ma_ah * 2 ** (larger(0, battery_hot_c - 25) / gas_doubling_k)


@line("gassing current of the bank", standing="physics")
def gassing_a(gas_hot_ma_ah, bank_ah):
    return gas_hot_ma_ah / 1000 * bank_ah


@line("hydrogen of the bank", standing="physics")
def hydrogen_m3_h(gassing_a, cells_count, hydrogen_l_ah):
    return gassing_a * cells_count * hydrogen_l_ah / 1000


@line("air that dilutes it to the limit", standing="standard", source=_UFC)
def diluting_each_m3_h(hydrogen_m3_h, hydrogen_limit_frac):
    return hydrogen_m3_h / hydrogen_limit_frac


@line("air for all banks, with safety", standing="standard", source=_UFC)
def diluting_m3_h(diluting_each_m3_h, banks_count, ventilation_factor):
    return diluting_each_m3_h * banks_count * ventilation_factor


@line("air changes of the room by that way", standing="physics")
def diluting_changes_per_h(diluting_m3_h, room_m3):
    return diluting_m3_h / room_m3


#: Where the standard's 0.05 comes from.
FARADAY = Sheet(hydrogen_l_ah, air_each_m3_ah)
#: The European way: one formula, openings, and a distance.
VENTILATION = Sheet(
    air_needed_m3_h, opening_needed_cm2, room_changes_per_h, block_cells_count, spark_free_mm, opening_margin_cm2
)
#: The American way: from hydrogen to a limit of concentration.
DILUTION = Sheet(
    hydrogen_l_ah,
    gas_hot_ma_ah,
    gassing_a,
    hydrogen_m3_h,
    diluting_each_m3_h,
    diluting_m3_h,
    diluting_changes_per_h,
)
