"""Table rows: what the shipped tables give, against values typed from the published tables.

These are rows looked up, not worked examples; count them apart. Each group names its source. Tags: "seen" = read in
a text or open code that transcribes the table; "from memory" = recalled, not seen. The codes beside a group (TMP-001
to TMP-020 and so on) are those of our list of outside values.
"""

import math

import pytest

from offgrid_core import data

# IEEE Std 485 / 450 temperature factor for vented cells, 25 °C base: (published °F, factor, tag); TMP-001 to TMP-020,
# AR067 to AR075
IEEE_485 = [
    (25, 1.52, "from memory"),
    (30, 1.43, "from memory"),
    (35, 1.35, "from memory"),
    (40, 1.30, "seen"),
    (45, 1.25, "seen"),
    (50, 1.19, "seen"),
    (55, 1.15, "seen"),
    (60, 1.11, "seen"),
    (65, 1.08, "seen"),
    (68, 1.056, "seen"),
    (70, 1.04, "seen"),
    (75, 1.011, "seen"),
    (77, 1.00, "seen"),
    (80, 0.98, "seen"),
    (85, 0.96, "seen"),
    (90, 0.94, "seen"),
    (95, 0.93, "seen"),
    (100, 0.91, "seen"),
    (110, 0.88, "seen"),
    (120, 0.86, "seen"),
]
# NEC Chapter 9 Table 8, stranded uncoated copper, ohm per 1000 ft at 75 °C (seen); R8-001 to R8-013
# NEC Table 310.16 copper, 75 and 90 °C columns, A (seen; 1 AWG and the 90 °C value of 3 AWG from memory); AMP-001 to
# AMP-024
NEC_CONDUCTORS = [
    ("14 AWG", 3.14, 20, 25),
    ("12 AWG", 1.98, 25, 30),
    ("10 AWG", 1.24, 35, 40),
    ("8 AWG", 0.778, 50, 55),
    ("6 AWG", 0.491, 65, 75),
    ("4 AWG", 0.308, 85, 95),
    ("3 AWG", 0.245, 100, 115),
    ("2 AWG", 0.194, 115, 130),
    ("1 AWG", 0.154, 130, 145),
    ("1/0 AWG", 0.122, 150, 170),
    ("2/0 AWG", 0.0967, 175, 195),
    ("3/0 AWG", 0.0766, 200, 225),
    ("4/0 AWG", 0.0608, 230, 260),
]
# ASTM B258: areas worked out elsewhere from d = 0.127 mm × 92^((36 − n)/39) (seen); AWG-002 to AWG-014, the even ones
AWG_AREAS = [
    ("14 AWG", 2.0809),
    ("10 AWG", 5.2612),
    ("6 AWG", 13.302),
    ("2 AWG", 33.631),
    ("1/0 AWG", 53.475),
    ("2/0 AWG", 67.431),
    ("4/0 AWG", 107.22),
]
# NEC 240.4(D) largest fuse on small copper conductors (seen); AMP-025
NEC_SMALL = [("14 AWG", 15), ("12 AWG", 20), ("10 AWG", 30)]
# NEC Table 310.15(B)(1): upper edge of the band °C, 75 °C and 90 °C factors (20 to 70 °C seen; 10, 15 from memory)
# AMP-026 to AMP-036
NEC_AMBIENT = [
    (10, 1.20, 1.15),
    (15, 1.15, 1.12),
    (20, 1.11, 1.08),
    (25, 1.05, 1.04),
    (30, 1.00, 1.00),
    (35, 0.94, 0.96),
    (40, 0.88, 0.91),
    (45, 0.82, 0.87),
    (50, 0.75, 0.82),
    (55, 0.67, 0.76),
    (60, 0.58, 0.71),
    (65, 0.47, 0.65),
    (70, 0.33, 0.58),
]
# NEC 240.6(A) (15 to 600 seen; fuses add 1, 3, 6, 10: from memory)
NEC_FUSES = [1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300]
NEC_FUSES += [350, 400, 450, 500, 600]
# IEC preferred rated currents (from memory)
IEC_FUSES = [2, 4, 6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630]
# IEC 60228 class 2, ohm per km at 20 °C (seen); IEC 60364-5-52:2009 tables B.52.2 and B.52.3, method C, two loaded
# conductors, PVC and XLPE, A (seen); I228-001 to I228-012, IEC-013 to IEC-024, IEC-037 to IEC-048
IEC_CONDUCTORS = [
    (1.5, 12.1, 19.5, 24),
    (2.5, 7.41, 27, 33),
    (4, 4.61, 36, 45),
    (6, 3.08, 46, 58),
    (10, 1.83, 63, 80),
    (16, 1.15, 85, 107),
    (25, 0.727, 112, 138),
    (35, 0.524, 138, 171),
    (50, 0.387, 168, 209),
    (70, 0.268, 213, 269),
    (95, 0.193, 258, 328),
    (120, 0.153, 299, 382),
]
# IEC 60364-5-52:2009 table B.52.14, PVC and XLPE (seen); IEC-049 to IEC-058
IEC_AMBIENT = [
    (10, 1.22, 1.15),
    (20, 1.12, 1.08),
    (25, 1.06, 1.04),
    (30, 1.00, 1.00),
    (35, 0.94, 0.96),
    (40, 0.87, 0.91),
    (45, 0.79, 0.87),
    (50, 0.71, 0.82),
    (55, 0.61, 0.76),
    (60, 0.50, 0.71),
]
# IEC 60364-5-52:2009 table B.52.17 item 1, circuits bunched (seen)
IEC_GROUPING = [(1, 1.00), (2, 0.80), (3, 0.70), (4, 0.65), (5, 0.60), (6, 0.57)]
# NEC Table 690.7(A): colder edge, warmer edge °C, factor on open-circuit voltage (seen); NPV-001 to NPV-013, ST003 to
# ST015
NEC_COLD = [
    (20, 24, 1.02),
    (15, 19, 1.04),
    (10, 14, 1.06),
    (5, 9, 1.08),
    (0, 4, 1.10),
    (-5, -1, 1.12),
    (-10, -6, 1.14),
    (-15, -11, 1.16),
    (-20, -16, 1.18),
    (-25, -21, 1.20),
    (-30, -26, 1.21),
    (-35, -31, 1.23),
    (-40, -36, 1.25),
]
# US Army TM 10-6140-200-14: charge, freezing point °F (seen)
#: At full charge the manuals disagree, -95 and -90 degF; a warning goes by the warmer.
ARMY_FREEZING = [(1.0, -90), (0.75, -62), (0.5, -31), (0.25, 1)]
# ASHRAE Handbook, Fundamentals: mean of the yearly lowest temperatures, °C (seen); ST016 to ST021
COLDEST = [("fairbanks", -42.7), ("golden", -22.9), ("chicago", -23.7), ("sterling", -17.2), ("tampa", -0.7)]
COLDEST += [("san_francisco", 1.8)]

US = data.code_setting("us_style")
US_90 = data.code_setting("us_style", insulation_c=90)
IEC = data.code_setting("iec_style")
IEC_90 = data.code_setting("iec_style", insulation_c=90)
AREA = {label: area for area, label in US.size_labels.items()}


@pytest.mark.parametrize(("fahrenheit", "factor", "tag"), IEEE_485)
def test_capacity_kept_is_one_over_the_published_factor(fahrenheit, factor, tag):
    kept = data.capacity_kept("flooded")
    celsius = round((fahrenheit - 32) / 1.8, 1)
    assert celsius in kept.x, tag
    assert float(kept(celsius)) == pytest.approx(1 / factor, rel=1e-9)
    assert not kept.invented_at(celsius)


def test_the_published_span_is_exactly_the_published_rows():
    kept = data.capacity_kept("flooded")
    published = [round((f - 32) / 1.8, 1) for f, _, _ in IEEE_485]
    assert [x for x in kept.x if not kept.invented_at(x)] == published
    assert (kept.sourced_from, kept.sourced_to) == (-3.9, 48.9)


@pytest.mark.parametrize(("size", "ohm_kft", "amps_75", "amps_90"), NEC_CONDUCTORS)
def test_us_conductor(size, ohm_kft, amps_75, amps_90):
    area = AREA[size]
    assert float(US.resistance_of(area)) == pytest.approx(ohm_kft / 304.8, rel=1e-7)
    assert float(US.ampacity_of(area)) == amps_75
    assert float(US_90.ampacity_of(area)) == amps_90
    assert US.size_label(float(US.conductor_for_ampacity(amps_75))) == size


def test_no_us_conductor_is_left_unchecked():
    assert list(AREA) == [row[0] for row in NEC_CONDUCTORS]
    assert list(IEC.size_labels) == [row[0] for row in IEC_CONDUCTORS]


@pytest.mark.parametrize(("size", "mm2"), AWG_AREAS)
def test_us_area(size, mm2):
    assert AREA[size] == pytest.approx(mm2, rel=3e-4)


@pytest.mark.parametrize(("size", "amps"), NEC_SMALL)
def test_us_small_conductor_fuse(size, amps):
    assert float(US.fuse_limit_of(AREA[size])) == amps
    assert float(US_90.fuse_limit_of(AREA[size])) == amps


@pytest.mark.parametrize(("edge", "factor_75", "factor_90"), NEC_AMBIENT)
def test_us_ambient(edge, factor_75, factor_90):
    assert float(US.ambient_factor(edge)) == factor_75
    assert float(US_90.ambient_factor(edge)) == factor_90
    assert float(US.ambient_factor(edge - 4)) == factor_75, "the whole band has the factor of its upper edge"


@pytest.mark.parametrize("size", NEC_FUSES)
def test_us_fuse(size):
    assert float(US.fuse_size(size)) == size
    following = [s for s in NEC_FUSES if s > size]
    if following:
        assert float(US.fuse_size(size + 0.1)) == following[0]


@pytest.mark.parametrize("size", IEC_FUSES)
def test_iec_fuse(size):
    assert float(IEC.fuse_size(size)) == size
    following = [s for s in IEC_FUSES if s > size]
    if following:
        assert float(IEC.fuse_size(size + 0.1)) == following[0]


@pytest.mark.parametrize(("mm2", "ohm_km", "pvc", "xlpe"), IEC_CONDUCTORS)
def test_iec_conductor(mm2, ohm_km, pvc, xlpe):
    assert float(IEC.resistance_of(mm2)) == pytest.approx(ohm_km / 1000, rel=1e-12)
    assert float(IEC.ampacity_of(mm2)) == pvc
    assert float(IEC_90.ampacity_of(mm2)) == xlpe
    assert float(IEC.conductor_for_ampacity(pvc)) == mm2


@pytest.mark.parametrize(("celsius", "pvc", "xlpe"), IEC_AMBIENT)
def test_iec_ambient(celsius, pvc, xlpe):
    assert float(IEC.ambient_factor(celsius)) == pvc
    assert float(IEC_90.ambient_factor(celsius)) == xlpe


@pytest.mark.parametrize(("circuits", "factor"), IEC_GROUPING)
def test_iec_grouping(circuits, factor):
    assert float(IEC.grouping_factor(circuits)) == factor


@pytest.mark.parametrize(("colder", "warmer", "factor"), NEC_COLD)
def test_us_cold_voltage(colder, warmer, factor):
    table = data.cold_voltage_us()
    for celsius in range(colder, warmer + 1):
        assert float(table(25 - celsius)) == factor


@pytest.mark.parametrize(("charge", "fahrenheit"), ARMY_FREEZING)
def test_freezing_point(charge, fahrenheit):
    gravity = data.gravity_of_charge("motive_1280")(charge)
    assert float(data.freezing_of_gravity()(gravity)) == pytest.approx((fahrenheit - 32) / 1.8, abs=0.05)


@pytest.mark.parametrize(("place", "celsius"), COLDEST)
def test_coldest_morning_of_a_shipped_place(place, celsius):
    assert data.site(place).coldest_c == celsius


def test_lfp_is_not_charged_below_freezing():
    # TMP-034, common practice, no source: metal lithium plates out of a frozen cell
    assert data.chemistry("lfp").charge_temp_min_c == 0


def test_capacity_is_that_of_the_ieee_reference_temperature():
    # TMP-040: IEEE Std 485 and UFGS 16265A rate lead-acid at 25 °C (seen)
    assert [float(data.capacity_kept(kind)(25)) for kind in ("flooded", "agm", "gel")] == [1, 1, 1]


def test_textbook_cell_voltage():
    # specific gravity + 0.84: 1.265 gives 2.105 V a cell, textbook rule (seen)
    assert float(data.cell_rest_voltage("flooded")(1.0)) == pytest.approx(2.105, abs=1e-9)


def test_factors_of_the_settings():
    # NEC 690.8(A) × (B) = 1.5625 (seen); IEC 62548 1.25 on the array only (from memory)
    assert US.continuous_factor * US.pv_current_factor == 1.5625
    assert IEC.continuous_factor * IEC.pv_current_factor == 1.25
    # resistance columns: NEC at 75 °C, IEC 60228 at 20 °C (seen)
    assert (US.table_temp_c, IEC.table_temp_c) == (75, 20)


@pytest.mark.parametrize("setting", [US, US_90, IEC, IEC_90], ids=lambda s: f"{s.key} {s.insulation_c}")
def test_ambient_factors_follow_the_square_root(setting):
    # heat balance: factor = sqrt((insulation − air) / (insulation − 30)), physics; an independent check of typing.
    for air, factor in zip(setting.ambient_factor.x, setting.ambient_factor.y, strict=True):
        physics = math.sqrt((setting.insulation_c - air) / (setting.insulation_c - 30))
        assert factor == pytest.approx(physics, abs=0.015)
