"""The neighbouring rows of a code setting's tables, and the areas of its gauges."""

import pytest

from offgrid_core.data import code_setting
from offgrid_core.data.neighbours import area_of_gauge, neighbours
from offgrid_core.errors import DataError, WorksheetError
from offgrid_core.quantities.units import awg_to_mm2

US, IEC = code_setting("us_style"), code_setting("iec_style")


def test_smaller_fuse():
    """NEC 240.6(A), from memory: below 60 A comes 50 A. IEC preferred currents, from memory: below 63 A comes 50 A."""
    assert neighbours(US)["smaller_fuse"](60) == 50
    assert neighbours(IEC)["smaller_fuse"](63) == 50


def test_thinner_cable():
    """AWG: one size thinner than 4 AWG is 6 AWG in the table. IEC 60228: below 16 mm² comes 10 mm²."""
    assert US.size_label(float(neighbours(US)["thinner_cable"](21.151))) == "6 AWG"
    assert neighbours(IEC)["thinner_cable"](16) == 10


@pytest.mark.parametrize(("amperes", "size"), [(66, "6 AWG"), (74, "6 AWG"), (76, "4 AWG"), (1, "14 AWG")])
def test_nearest_cable(amperes, size):
    """NEC Table 310.16, 75 °C: 65 A for 6 AWG, 85 A for 4 AWG; the nearer of the two, even if it carries less."""
    assert US.size_label(float(neighbours(US)["nearest_cable"](amperes))) == size


def test_ends_are_refused():
    for name, smallest in (("smaller_fuse", US.fuse_size.x[0]), ("thinner_cable", US.conductor_for_ampacity.y[0])):
        with pytest.raises(WorksheetError, match="outside the table"):
            neighbours(US)[name](smallest)
    with pytest.raises(WorksheetError, match="outside the table"):
        neighbours(US)["nearest_cable"](231)


@pytest.mark.parametrize("gauge", [14, 10, 4, 1, 0, -1, -3])
def test_area_of_gauge_against_the_geometry(gauge):
    """ASTM B258 geometry, worked elsewhere in the package; the table is rounded to 0.001 mm²."""
    assert area_of_gauge(US)(gauge) == pytest.approx(awg_to_mm2(gauge), abs=6e-4)


def test_gauges_are_wanted():
    with pytest.raises(DataError, match="listed by their area"):
        area_of_gauge(IEC)
