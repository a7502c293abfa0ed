"""How parallel strings share the current: by hand, by folding the ladder up, and by Kirchhoff's laws walked anew."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import show
from offgrid_core.sizing.inverter import INVERTER
from offgrid_core.sizing.sharing import MOST_STRINGS, PLACEMENTS, SHARING, STRING_RESISTANCE, share_current

every_placement = pytest.mark.parametrize("placement", PLACEMENTS)
ohms = st.floats(1e-4, 1.0)
volts = st.floats(11.5, 13.0)
totals = st.floats(-500, 500)


@st.composite
def networks(draw):
    strings = draw(st.integers(1, 12))
    return {
        "strings": strings,
        "total_a": draw(totals),
        "string_ohm": draw(st.lists(ohms, min_size=strings, max_size=strings)),
        "string_v": draw(st.lists(volts, min_size=strings, max_size=strings)),
        "link_ohm": draw(st.floats(0, 0.1)),
        "lead_ohm": draw(st.floats(0, 0.1)),
    }


# ---- a worked example from first principles, and two strings by hand


@pytest.mark.parametrize(("unit_ohm", "link_ohm"), [(0.020, 0.0015), (0.004, 0.0003)])
def test_three_batteries_at_opposite_corners(unit_ohm, link_ohm):
    # PAR-005, WX16: first-principles resistor network, from memory; each link 0.075 of a battery's resistance
    shared = share_current("diagonal", 3, 100, unit_ohm, link_ohm=link_ohm)
    assert [f"{a:.1f}" for a in shared.current_by_string_a] == ["34.1", "31.7", "34.1"]
    assert shared.hardest_string == 1


def test_bus_bars_with_equal_leads_share_equally():
    # PAR-005, note: bus bars or star wiring give equal thirds (from memory)
    shared = share_current("bus bars", 3, 100, 0.020, lead_ohm=0.003)
    assert shared.current_by_string_a == pytest.approx([100 / 3] * 3, rel=1e-12)


@given(totals, ohms, ohms, volts, volts, st.floats(0, 0.1), st.floats(0, 0.1))
def test_two_strings_by_hand(total, r1, r2, e1, e2, link, lead):
    """The loop through both strings: what the first gives is split by resistance, and moved by the voltages."""
    for placement, way1, way2 in (
        ("same end", r1, r2 + 2 * link),
        ("diagonal", r1 + link, r2 + link),
        ("bus bars", r1 + 2 * lead, r2 + 2 * lead),
    ):
        shared = share_current(placement, 2, total, [r1, r2], link_ohm=link, lead_ohm=lead, string_v=[e1, e2])
        first = (total * way2 + e1 - e2) / (way1 + way2)
        assert shared.current_by_string_a == pytest.approx([first, total - first], rel=1e-9, abs=1e-7)


@given(st.lists(ohms, min_size=1, max_size=15), ohms)
def test_leads_at_the_same_end_by_folding_the_ladder_up(strings, link):
    """From the far end: a string beside what lies beyond, then the two links; back again by the current divider."""
    folded = [strings[-1]]
    for own in reversed(strings[:-1]):
        beyond = folded[0] + 2 * link
        folded.insert(0, own * beyond / (own + beyond))
    left, expected = 100.0, []
    for own, here in zip(strings, folded, strict=True):
        expected.append(left * here / own)
        left -= expected[-1]
    shared = share_current("same end", len(strings), 100, strings, link_ohm=link)
    assert shared.current_by_string_a == pytest.approx(expected, rel=1e-8, abs=1e-9)


# ---- Kirchhoff's laws, walked from the currents alone


@every_placement
@given(network=networks())
def test_both_laws_hold(placement, network):
    shared = share_current(placement, **network)
    amps = np.array(shared.current_by_string_a)
    assert shared.residual_a < 1e-9
    assert amps.sum() == pytest.approx(network["total_a"], abs=1e-6)
    at_string = np.array(network["string_v"]) - np.array(network["string_ohm"]) * amps
    if placement == "bus bars":
        at_bars = at_string - 2 * network["lead_ohm"] * amps
        assert np.ptp(at_bars) < 1e-7
        return
    # from one string to the next the + rail carries what lies beyond, and the − rail too, or all that lies before
    beyond = amps[::-1].cumsum()[::-1][1:]
    before = amps.cumsum()[:-1]
    rail = beyond + beyond if placement == "same end" else beyond - before
    assert np.diff(at_string) == pytest.approx(network["link_ohm"] * rail, abs=1e-7)


@every_placement
@given(network=networks())
def test_charge_mirrors_discharge_and_only_differences_of_voltage_count(placement, network):
    there = share_current(placement, **network)
    network["total_a"] *= -1
    network["string_v"] = [-v + 40 for v in network["string_v"]]
    back = share_current(placement, **network)
    assert back.current_by_string_a == pytest.approx([-a for a in there.current_by_string_a], rel=1e-6, abs=1e-6)
    if abs(network["total_a"]) > 1:
        assert back.share_by_string_frac == pytest.approx(there.share_by_string_frac, rel=1e-6, abs=1e-6)
        assert sum(there.share_by_string_frac) == pytest.approx(1)


@every_placement
@pytest.mark.parametrize("strings", [1, 2, 3, 7, MOST_STRINGS])
def test_equal_strings(placement, strings):
    even = [1 / strings] * strings
    assert share_current(placement, strings, 80, 0.02).share_by_string_frac == pytest.approx(even)
    thin = share_current(placement, strings, 80, 0.02, link_ohm=1e-9, lead_ohm=1e-9)
    assert thin.share_by_string_frac == pytest.approx(even, rel=1e-2)
    shared = share_current(placement, strings, 80, 0.02, link_ohm=0.001, lead_ohm=0.001).share_by_string_frac
    if placement == "same end":
        assert np.all(np.diff(shared) <= 1e-12)
        assert strings == 1 or shared[0] > shared[-1]
    else:
        assert shared == pytest.approx(shared[::-1])


@given(st.integers(2, 12), ohms, st.floats(1e-4, 1.0))
def test_opposite_corners_are_better_than_the_same_end(strings, string_ohm, link_ohm):
    same, corner, bars = (
        max(share_current(p, strings, 1, string_ohm, link_ohm=link_ohm).share_by_string_frac) for p in PLACEMENTS
    )
    assert bars == pytest.approx(1 / strings)
    assert bars - 1e-12 <= corner < same


def test_unequal_strings_at_rest_work_against_each_other():
    shared = share_current("bus bars", 2, 0, 0.05, string_v=[12.8, 12.3])
    assert shared.current_by_string_a == pytest.approx([5, -5])
    assert np.isnan(shared.share_by_string_frac).all()
    assert share_current("bus bars", 2, 0, 0.05, string_v=[12.3, 12.8]).hardest_string == 1, "equal but for the sign"


def test_the_hardest_string_may_be_any():
    assert share_current("bus bars", 3, 90, [0.03, 0.03, 0.02]).hardest_string == 3
    assert share_current("bus bars", 3, -90, [0.03, 0.02, 0.03]).hardest_string == 2


# ---- what is refused


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"strings": 0}, "strings in parallel: 0 .* 1 to 200"),
        ({"strings": 2.5}, "strings in parallel: 2.5"),
        ({"strings": MOST_STRINGS + 1}, "1 to 200"),
        ({"string_ohm": -0.02}, "resistance of a string: -0.02 .* 0 or more"),
        ({"string_ohm": [0.02, 0.02, float("nan")]}, "resistance of a string: nan"),
        ({"string_ohm": [0.02, 0.02]}, "2 values are given; .* one each for 3"),
        ({"string_ohm": "much"}, "'much' is not a number"),
        ({"string_ohm": 0.0}, "a loop has no resistance"),
        ({"string_ohm": [0.0, 0.0, 1.0]}, "a loop has no resistance"),
        ({"string_ohm": [1e-30, 1e-30, 1.0]}, "a loop has no resistance"),
        ({"strings": 1, "string_ohm": 0.0}, "a loop has no resistance"),
        ({"link_ohm": -1}, "resistance of a link: -1"),
        ({"lead_ohm": float("inf")}, "resistance of a lead: inf"),
        ({"total_a": float("nan")}, "current of the bank: nan"),
        ({"string_v": float("nan")}, "open-circuit voltage of a string: nan"),
        ({"placement": "diagnal"}, "'diagnal' is not known; nearest: diagonal"),
        ({"placement": 7}, "7 is not known; nearest: same end, diagonal, bus bars"),
    ],
)
def test_what_cannot_be_solved_is_refused_in_words(changed, said):
    usual = {"placement": "same end", "strings": 3, "total_a": 100, "string_ohm": 0.02}
    with pytest.raises(OffgridError, match=said):
        share_current(**{**usual, **changed})


def test_one_string_or_one_bare_string_is_no_loop():
    assert share_current("same end", 1, 100, 0.02).current_by_string_a == (100,)
    bare = share_current("diagonal", 3, 90, [0.0, 0.02, 0.02], link_ohm=0.001).current_by_string_a
    assert sum(bare) == pytest.approx(90)
    assert bare[0] > bare[2] > bare[1]


# ---- the lines before and after


def test_strings_side_by_side_have_the_resistance_of_the_bank():
    unit = {"cells_12v_count": 6, "unit_v": 6, "cell_resistance_ohm_ah": 0.2, "unit_ah": 225, "kept_frac": 0.8}
    string = STRING_RESISTANCE.solve(unit | {"units_in_series_count": 8})["string_ohm"]
    bank = {"cells_count": 24, "cell_resistance_ohm_ah": 0.2, "bank_ah": 3 * 225, "kept_frac": 0.8}
    whole = INVERTER.upto("bank_resistance_ohm").solve(bank)["bank_resistance_ohm"]
    assert string == pytest.approx(8 * 3 * 0.2 / 180)
    assert string / 3 == pytest.approx(whole)


@pytest.mark.parametrize(("placement", "extra", "kept"), [("same end", 0.2195, False), ("diagonal", 0.0238, True)])
def test_a_tenth_over_an_equal_share_is_the_limit(placement, extra, kept):
    shared = share_current(placement, 3, -100, 0.020, link_ohm=0.0015)
    solved = SHARING.solve(
        {"string_share_by_row_frac": shared.share_by_string_frac, "strings_count": 3, "extra_max_frac": 0.10}
    )
    assert solved["extra_share_frac"] == pytest.approx(extra, abs=1e-4)
    (finding,) = solved.findings(show)
    assert (finding.passed, finding.severity) == (kept, "damage")
    assert "bus bars" in finding.mend
