"""The start page: what it says of its three sliders is what the chain does."""

import pytest

from offgrid_core.lab import chain_panel
from offgrid_core.quantities import Settings
from offgrid_core.system import read_plan, size, whole_chain


@pytest.fixture(scope="module")
def hut(plans):
    return size(read_plan(plans / "fell_hut.toml"))


def decides(view):
    return max(("array_for_load_w", "array_for_refill_w", "array_for_current_w"), key=view.at)


@pytest.mark.parametrize(
    "moved", [{"autonomy_days": 5.0}, {"depth_frac": 0.9}, {"battery_temp_c": 25.0}], ids=lambda m: next(iter(m))
)
def test_each_slider_moves_the_array_by_what_the_bank_gave_out(hut, moved):
    before, after = whole_chain(hut, {}), whole_chain(hut, moved)
    assert after.at("array_needed_w") > 1.05 * before.at("array_needed_w")
    assert after.at("bank_usable_wh") > before.at("bank_usable_wh")
    assert decides(before) == decides(after) == "array_for_refill_w"


def test_a_smaller_bank_can_ask_for_a_larger_array(hut):
    """Warmed from −8 to 25 °C the hut needs 438 Ah in place of 727, and an array of 4 790 W in place of 4 120 W."""
    cold, warm = whole_chain(hut, {}), whole_chain(hut, {"battery_temp_c": 25.0})
    assert [round(v.at("bank_needed_ah")) for v in (cold, warm)] == [727, 438]
    assert [round(v.at("array_needed_w"), -1) for v in (cold, warm)] == [4120, 4790]


def test_a_very_large_bank_wants_a_brisk_current(hut):
    assert decides(whole_chain(hut, {"depth_frac": 0.2})) == "array_for_current_w"


def test_one_string_and_more(hut):
    panel = chain_panel(hut, "", Settings())
    assert "16 battery units in 2 strings make" in panel.summary
    panel.set("autonomy_days", 2.0)
    assert "8 battery units in 1 string make" in panel.summary
