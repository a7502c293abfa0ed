"""Published worked examples: the public worksheets turn each source's inputs into its answer.

The cases stand in ``published/``, each with its source and tag. No rule is written here again. Rows of published
tables (what arrives above the air, declinations) are asserted too, and counted apart.
"""

import importlib
import pkgutil
from collections import Counter

import numpy as np
import published
import pytest
from published.case import Case
from published.sun_cases import ABOVE_THE_AIR, DECLINATIONS, GROUND, LATITUDE, MADISON, TILT

from offgrid_core.quantities import read_quantity
from offgrid_core.sizing import sun
from offgrid_core.worksheet import Sheet

MODULES = [
    importlib.import_module(f"published.{found.name}")
    for found in pkgutil.iter_modules(published.__path__)
    if found.name.endswith("_cases")
]
CASES: list[Case] = [
    case for module in MODULES for name, cases in vars(module).items() if name.endswith("_CASES") for case in cases
]

#: Cases of each topic as they stand; one fewer is a failure, so that none is dropped unseen.
WANTED = {
    "loads": 5,
    "amp-hours": 4,
    "bank": 22,
    "temperature": 9,
    "rate": 19,
    "state of charge": 20,
    "freezing": 12,
    "life": 10,
    "strings": 14,
    "sun": 12,
    "array": 15,
    "cell temperature": 9,
    "cold voltage": 8,
    "conductors": 13,
    "fuses": 6,
    "protection": 23,
    "ventilation": 33,
    "generator": 16,
    "inverter": 5,
    "charge set-points": 9,
    "controller": 13,
    "cost": 73,
    "wear": 1,
    "storage rules": 28,
}
TAGS = {"seen", "from memory", "computed", "common practice"}


def lines_between(case: Case) -> Sheet:
    """Return the lines that lead from what the source gives to its answer, in their order."""
    wanted, lines = {case.result}, []
    for name in reversed(list(case.sheet)):
        if name in wanted and name not in case.given:
            lines.insert(0, case.sheet[name])
            wanted |= set(case.sheet[name].needs)
    return Sheet(*lines)


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c.topic} {c.id}")
def test_the_worksheet_gives_the_published_answer(case):
    sheet = lines_between(case)
    assert case.result in sheet, "an answer that is given is no test"
    answer = float(sheet.solve(case.given)[case.result])
    assert answer == pytest.approx(case.expected, rel=case.rel_tol, abs=1e-12), f"{case.source} ({case.tag})"


@pytest.mark.parametrize("case", CASES, ids=lambda c: f"{c.topic} {c.id}")
def test_nothing_is_given_that_the_answer_does_not_need(case):
    assert set(case.given) == set(lines_between(case).inputs)


def test_enough_cases_of_every_topic_each_with_source_and_tag(capsys):
    counts = Counter(c.topic for c in CASES) + Counter({"sun": len(MADISON)})
    with capsys.disabled():
        print(
            "\npublished cases:", ", ".join(f"{topic} {counts[topic]}" for topic in WANTED), "| in all", counts.total()
        )
    assert {topic: counts[topic] for topic in WANTED if counts[topic] < WANTED[topic]} == {}
    assert counts.total() >= 271
    assert set(counts) == set(WANTED)
    assert len({c.id for c in CASES}) == len(CASES)
    for case in CASES:
        assert case.source
        assert set(case.tag.split(", ")) <= TAGS, case.id
        assert case.rel_tol <= 0.02, case.id


# ---- sun

MONTHS = list(MADISON)
FLAT_MJ, H0_MJ, CLEARNESS, SUNSET, DIFFUSE, RATIO, PLANE_PRINTED = (
    np.array(column) for column in zip(*MADISON.values(), strict=True)
)
MJ_IN_KWH = 3.6


def madison():
    return sun.plane_kwh_m2(FLAT_MJ / MJ_IN_KWH, LATITUDE, TILT, GROUND) * MJ_IN_KWH


@pytest.mark.parametrize("month", range(12), ids=MONTHS)
def test_madison_to_the_last_printed_digit(month):
    assert f"{madison()[month]:.1f}" == PLANE_PRINTED[month]


def test_madison_mirrored_to_the_south():
    turned = np.roll(FLAT_MJ / MJ_IN_KWH, 6)
    # Half a year on and facing north, the beam ratios are the same but for the days between the mean days.
    south = sun.beam_ratio(-LATITUDE, TILT, sun.MEAN_DAYS)
    assert south == pytest.approx(np.roll(RATIO.astype(float), 6), rel=0.03)
    assert sun.plane_kwh_m2(turned, -LATITUDE, TILT, np.roll(GROUND, 6)).argmin() == 4  # May, as November there


# ---- table rows: looked up or single formulas, not worked examples; not counted above


@pytest.mark.parametrize("month", range(12), ids=MONTHS)
def test_row_above_the_air(month):
    book = sun.extraterrestrial_kwh_m2(LATITUDE, sun.MEAN_DAYS)[month] * MJ_IN_KWH
    assert book == pytest.approx(H0_MJ[month], rel=2e-3)


@pytest.mark.parametrize("month", range(12), ids=MONTHS)
def test_rows_on_the_way_to_the_tilted_plane(month):
    day = sun.MEAN_DAYS[month]
    sunset = sun.sunset_deg(LATITUDE, sun.declination_deg(day))
    clearness = FLAT_MJ[month] / MJ_IN_KWH / sun.extraterrestrial_kwh_m2(LATITUDE, day)
    assert sunset == pytest.approx(SUNSET[month], abs=0.051)
    assert clearness == pytest.approx(CLEARNESS[month], abs=0.00051)
    assert sun.diffuse_share(clearness, sunset) == pytest.approx(DIFFUSE[month], abs=0.00051)
    assert sun.beam_ratio(LATITUDE, TILT, day) == pytest.approx(RATIO[month], abs=0.00051)


@pytest.mark.parametrize(("day", "latitude", "megajoules", "tolerance"), [row[1:5] for row in ABOVE_THE_AIR])
def test_row_above_the_air_elsewhere(day, latitude, megajoules, tolerance):
    above = sun.extraterrestrial_kwh_m2(latitude, day) * MJ_IN_KWH
    assert above == pytest.approx(megajoules, rel=tolerance)


@pytest.mark.parametrize(("day", "degrees"), DECLINATIONS)
def test_row_declination(day, degrees):
    assert sun.declination_deg(day) == pytest.approx(degrees, abs=0.06)


def test_megajoules_are_converted_as_the_package_converts_them():
    assert read_quantity("3.6 MJ", "energy_wh") == pytest.approx(1000)
