"""The wiring picture: well-formed, as many boxes, links and fuses as the bank has, and nothing outside the paper."""

import itertools
import re
import xml.etree.ElementTree as ET
from collections import Counter

import pytest

from offgrid_core.errors import OffgridError
from offgrid_core.report.wiring import LEADS, MOST_SERIES, MOST_STRINGS, BankWiring, wiring_svg, wiring_text

SVG = "{http://www.w3.org/2000/svg}"
ALL = list(itertools.product(range(1, MOST_SERIES + 1), range(1, MOST_STRINGS + 1), LEADS))
#: Points in a millimetre; the height of a letter is its width over this, on the wide side.
POINT_MM, LETTER = 25.4 / 72, 0.62


def bank(series: int = 8, strings: int = 2, leads: str = "bus bars", **more: str) -> BankWiring:
    labels = {"unit": "6 V 225 Ah", "voltage": "48 V", "string_fuse": "100 A", "main_fuse": "200 A"} | more
    return BankWiring(series, strings, leads=leads, **labels)


def drawn(series: int, strings: int, leads: str, **more: str) -> ET.Element:
    return ET.fromstring(wiring_svg(bank(series, strings, leads, **more)))


def of(picture: ET.Element, kind: str) -> list[ET.Element]:
    return [e for e in picture.iter() if e.get("class") == kind]


def points(wire: ET.Element) -> list[tuple[float, float]]:
    return [tuple(map(float, p.split(","))) for p in wire.get("points").split()]


def texts(picture: ET.Element) -> list[str]:
    return [e.text for e in picture.iter(f"{SVG}text")]


@pytest.mark.parametrize("leads", LEADS)
def test_as_many_of_everything_as_the_bank_has(leads):
    for series, strings, way in ALL:
        if way != leads:
            continue
        picture = drawn(series, strings, leads)
        kinds = Counter(e.get("class") for e in picture.iter())
        several = strings > 1
        assert kinds["unit"] == series * strings
        assert kinds["link"] == (series - 1) * strings
        assert kinds["lead"] == 2 * strings
        assert kinds["fuse"] == (strings if several else 0)
        assert kinds["main-fuse"] == 1
        assert kinds["main"] == kinds["end"] == 2
        assert kinds["bar"] == (2 if several and leads == "bus bars" else 0)
        assert kinds["parallel"] == (2 * (strings - 1) if leads == "diagonal" else 0)
        signs = Counter(texts(picture))
        assert signs["+"] == signs["−"] == series * strings + 1, "one pair on each unit, one at the bank's ends"


@pytest.mark.parametrize("leads", LEADS)
def test_every_wire_meets_what_it_joins(leads):
    for series, strings, way in ALL:
        if way != leads:
            continue
        picture = drawn(series, strings, leads)
        joined = Counter()
        for unit in of(picture, "unit"):
            x, y, width, height = (float(unit.get(k)) for k in ("x", "y", "width", "height"))
            for side in (x, x + width):
                joined[round(side, 2), round(y + height / 2, 2)] += 1
        assert max(joined.values()) == 1, "no two units touch"
        for wire in of(picture, "link"):
            first, *_, last = points(wire)
            assert joined[_near(first)] == joined[_near(last)] == 1, "from a unit's side to a unit's side"
            joined[_near(first)] = joined[_near(last)] = 0
        for number, wire in enumerate(of(picture, "lead")):
            unit_end = points(wire)[1 if number % 2 == 0 else 0]
            assert joined[_near(unit_end)] == 1, "and the ends that are left, to the rails"
            joined[_near(unit_end)] = 0
        assert not any(joined.values()), "every side of every unit has one wire"
        for fuse in (*of(picture, "fuse"), *of(picture, "main-fuse")):
            x, y, width, height = (float(fuse.get(k)) for k in ("x", "y", "width", "height"))
            through = [
                w for w in (*of(picture, "lead"), *of(picture, "main")) if _spans(w, x, x + width, y + height / 2)
            ]
            assert len(through) == 1, "a fuse sits on one lead"


def _near(point: tuple[float, float]) -> tuple[float, float]:
    return round(point[0], 2), round(point[1], 2)


def _spans(wire: ET.Element, left: float, right: float, y: float) -> bool:
    xs, ys = zip(*points(wire), strict=True)
    return min(xs) <= left and max(xs) >= right and set(ys) == {ys[0]} and abs(ys[0] - y) < 0.01


def test_the_current_runs_from_minus_to_plus_and_from_plus_to_minus():
    """In the order of the drawing each unit has its − where the link comes in, and its + where it goes out."""
    for series in range(1, MOST_SERIES + 1):
        picture = drawn(series, 1, "bus bars")
        group = list(picture.find(f"{SVG}g"))
        sides = []
        for place, element in enumerate(group):
            if element.get("class") == "unit":
                signs = {t.text: float(t.get("x")) for t in group[place + 1 : place + 4]}
                sides.append((float(element.get("x")), float(element.get("width")), signs["−"], signs["+"]))
        for (x, width, _, plus), (to_x, to_width, minus, _), wire in zip(
            sides, sides[1:], of(picture, "link"), strict=False
        ):
            first, *_, last = points(wire)
            assert first[0] == pytest.approx(x + width if plus > x + width / 2 else x, abs=0.01)
            assert last[0] == pytest.approx(to_x if minus < to_x + to_width / 2 else to_x + to_width, abs=0.01)


def test_leads_at_opposite_corners_or_in_the_middle():
    for series, strings in ((8, 3), (24, 6), (1, 2)):
        minus, plus = (points(w)[0][1] for w in of(drawn(series, strings, "diagonal"), "main"))
        leads = [points(w)[0][1] for w in of(drawn(series, strings, "diagonal"), "lead")]
        assert minus == leads[-2], "− at the last string"
        assert plus == leads[1], "+ at the first"
        minus, plus = (points(w)[0][1] for w in of(drawn(series, strings, "bus bars"), "main"))
        assert minus == (leads[0] + leads[-2]) / 2
        assert plus == (leads[1] + leads[-1]) / 2


@pytest.mark.parametrize("unit", ["6 V 225 Ah", "Flooded 12 V 1\u2009150 Ah, x"])
def test_everything_is_on_the_paper_and_type_stays_seven_points(unit):
    for series, strings, leads in ALL:
        picture = drawn(series, strings, leads, unit=unit)
        _, _, width, height = map(float, picture.get("viewBox").split())
        step_mm = float(picture.get("width").removesuffix("mm")) / width
        assert float(picture.get("height").removesuffix("mm")) / height == pytest.approx(step_mm)
        assert picture.get("width") == "180mm"
        assert height * step_mm <= 257, "one page of A4 within margins of 20 mm"
        for x0, y0, x1, y1 in map(extent, picture.iter()):
            assert 0 <= x0 <= x1 <= width
            assert 0 <= y0 <= y1 <= height
        assert min(float(e.get("font-size")) for e in picture.iter(f"{SVG}text")) * step_mm / POINT_MM >= 7


def extent(e: ET.Element) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of an element; of text, on the wide side."""
    if e.tag == f"{SVG}rect":
        x, y = float(e.get("x", 0)), float(e.get("y", 0))
        return x, y, x + float(e.get("width")), y + float(e.get("height"))
    if e.tag == f"{SVG}circle":
        x, y, r = (float(e.get(k)) for k in ("cx", "cy", "r"))
        return x - r, y - r, x + r, y + r
    if e.tag == f"{SVG}polyline":
        xs, ys = zip(*points(e), strict=True)
        return min(xs), min(ys), max(xs), max(ys)
    if e.tag == f"{SVG}text":
        x, y, size = (float(e.get(k)) for k in ("x", "y", "font-size"))
        width = len(e.text or "") * size * LETTER
        left = x - (width / 2 if e.get("text-anchor") == "middle" else 0)
        return left, y - size, left + width, y + size * 0.3
    return 0, 0, 0, 0


def test_no_two_texts_overlap_and_none_lies_on_a_unit_or_a_wire():
    for series, strings, leads in ALL:
        picture = drawn(series, strings, leads, string_fuse="1\u2009250 A", main_fuse="1\u2009250 A")
        units = [extent(e) for e in of(picture, "unit")]
        words = [extent(e) for e in picture.iter(f"{SVG}text") if e.text]
        for one, other in itertools.combinations(words, 2):
            assert apart(one, other), (series, strings, leads, one, other)
        wires = [segment for e in picture.iter(f"{SVG}polyline") for segment in segments(e)]
        solid = units + wires + [extent(e) for k in ("bar", "fuse", "main-fuse", "end") for e in of(picture, k)]
        for word in words:
            if any(inside(word, unit) for unit in units):
                assert all(apart(word, wire) for wire in wires), (series, strings, leads, word)
            else:
                assert all(apart(word, thing) for thing in solid), (series, strings, leads, word)
        rails = [extent(e) for k in ("bar", "fuse", "parallel", "lead") for e in of(picture, k)]
        for link in (segment for e in of(picture, "link") for segment in segments(e)):
            assert all(apart(link, rail) for rail in rails), (series, strings, leads, link)


def segments(wire: ET.Element) -> list[tuple[float, ...]]:
    pairs = itertools.pairwise(points(wire))
    return [(min(a, c), min(b, d), max(a, c), max(b, d)) for (a, b), (c, d) in pairs]


def inside(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one[0] >= other[0] and one[1] >= other[1] and one[2] <= other[2] and one[3] <= other[3]


def apart(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_labels_are_escaped_and_come_back_as_they_were():
    label = '<b>6 V & "x" \'</b>'
    svg = wiring_svg(bank(2, 2, unit=label, voltage='<"&', main_fuse="1&2", string_fuse="<3>"))
    assert "<b>" not in svg
    picture = ET.fromstring(svg)
    assert texts(picture).count("<3>") == 2
    assert label in texts(picture)
    assert label in picture.find(f"{SVG}title").text
    assert '<"&' in picture.find(f"{SVG}desc").text


def test_nothing_foreign_in_it_and_the_same_twice():
    for series, strings, leads in ALL[::7]:
        svg = wiring_svg(bank(series, strings, leads))
        assert svg == wiring_svg(bank(series, strings, leads))
        assert not re.search(r"<script|<style|<image|href|url\(|@font|\bon\w+=", svg)
        assert re.findall(r"https?://[^\"]+", svg) == ["http://www.w3.org/2000/svg"]
        assert set(re.findall(r"#[0-9A-Fa-f]{6}", svg)) == {"#1B1B1B", "#FFFFFF"}, "nothing by colour alone"


def test_title_and_description_for_those_who_hear_it():
    picture = drawn(8, 3, "diagonal")
    title, desc = picture[0], picture[1]
    assert (title.tag, desc.tag) == (f"{SVG}title", f"{SVG}desc")
    assert picture.get("role") == "img"
    assert (picture.get("aria-labelledby"), picture.get("aria-describedby")) == (title.get("id"), desc.get("id"))
    assert title.get("id") != drawn(8, 3, "bus bars")[0].get("id"), "two pictures may stand on one page"
    assert desc.text == wiring_text(bank(8, 3, "diagonal"))


def test_the_words_say_what_the_picture_shows():
    said = wiring_text(bank(8, 3, "diagonal"))
    for part in (
        "48 V bank of 6 V 225 Ah units: 8 in series, 3 in parallel.",
        "Links in each string: 7.",
        "+ leaves at string 1, the main lead − at string 3",
        "Fuse at the + end of each string, close to the unit: 100 A.",
        "Main fuse at the + of the bank, before anything else: 200 A.",
        "Local code and a licensed person decide.",
    ):
        assert part in said
    assert "bus bar" not in said
    assert "all of one length and size" in wiring_text(bank(8, 3))
    alone = wiring_text(bank(1, 1, main_fuse=""))
    assert "Here a string is one unit" in alone
    assert "each string, close" not in alone
    assert "before anything else: size not given." in alone
    shown = texts(drawn(8, 3, "bus bars"))
    assert {"String 1", "String 3", "bus bar +", "bus bar −", "main fuse", "200 A"} <= set(shown)
    assert shown.count("100 A") == 3
    assert texts(drawn(4, 2, "bus bars")).count("6 V 225 Ah") == 8, "on each unit where there is room"


def test_counts_of_a_solved_worksheet_are_taken():
    assert wiring_svg(bank(8.0, 2.0)) == wiring_svg(bank(8, 2))


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"strings": 0}, "strings: 0 cannot be drawn; drawn are 1 to 6"),
        ({"strings": 7}, "strings: 7"),
        ({"series": 1000}, "series: 1000 cannot be drawn; drawn are 1 to 24"),
        ({"series": 0}, "series: 0"),
        ({"series": -1}, "series: -1"),
        ({"series": 2.5}, "series: 2.5 .* whole"),
        ({"series": float("nan")}, "series: nan"),
        ({"unit": ""}, "unit: ''"),
        ({"unit": "6 V\n225 Ah"}, "unit: .* in one line"),
        ({"unit": "\ud800"}, "unit: "),
        ({"unit": "x" * 25}, "1 to 24 letters"),
        ({"main_fuse": "\x00"}, "main_fuse: "),
        ({"leads": "star"}, "leads: 'star' is not known; allowed: bus bars, diagonal"),
    ],
)
def test_what_cannot_be_drawn_is_refused_in_words(changed, said):
    with pytest.raises(OffgridError, match=said):
        bank(**changed)
