"""The bank by both forms: the difference in parts, and the plan's own form among them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from offgrid_core import data
from offgrid_core.sizing import BANK, BANK_1013
from offgrid_core.sizing.forms import FORMS
from offgrid_core.system import parse_plan, size

GIVEN = {
    "battery_day_by_month_wh": [2400.0] * 12, "bank_voltage_v": 24, "autonomy_days": 5, "depth_frac": 0.8,
    "depth_daily_frac": 0.2, "end_of_life_frac": 0.8, "design_margin_factor": 1.1, "battery_temp_c": 10,
    "capacity_kept": data.capacity_kept("flooded"), "peak_w": 0, "dc_peak_w": 240, "inverter_eff_frac": 1,
}  # fmt: skip


def test_the_worked_example_of_the_standard_s_form_and_of_multiplying():
    """IEEE Std 1013 procedure, from memory: 625 Ah is the largest; multiplied it would be 781 Ah, a quarter more."""
    solved = FORMS.solve(GIVEN)
    assert solved["for_all_three_ah"] == 625
    assert solved["standard_form_ah"] == pytest.approx(818.1, rel=1e-3)
    assert solved["multiplied_over_frac"] == pytest.approx(0.25)
    assert solved["multiplied_ah"] * solved["kept_frac"] / 1.1 == pytest.approx(781.25)


@given(
    st.floats(0.5, 20), st.floats(0.2, 1), st.floats(0.05, 1), st.floats(0.5, 1), st.floats(1, 2), st.floats(-30, 40)
)
def test_the_parts_of_the_difference_add_up(days, depth, daily, end, margin, temp):
    given_here = GIVEN | {
        "autonomy_days": days, "depth_frac": depth, "depth_daily_frac": daily, "end_of_life_frac": end,
        "design_margin_factor": margin, "battery_temp_c": temp,
    }  # fmt: skip
    both = FORMS.solve(given_here)
    short, standard = BANK.solve(given_here)["bank_needed_ah"], BANK_1013.solve(given_here)["bank_needed_ah"]
    assert both["short_form_ah"] == pytest.approx(short, rel=1e-12)
    assert both["standard_form_ah"] == pytest.approx(standard, rel=1e-12)
    parts = both["more_for_largest_ah"] + both["more_for_margin_ah"]
    assert short + parts == pytest.approx(standard, rel=1e-9)
    assert min(both["more_for_largest_ah"], both["more_for_margin_ah"]) >= -1e-9


@pytest.mark.parametrize("name", ["fell_hut", "riverbend", "gull_mast", "weekend_cabin"])
def test_a_design_shows_the_other_form_beside_its_own(plans, name):
    text = (plans / f"{name}.toml").read_text(encoding="utf-8")
    d = size(parse_plan(text))
    form = "standard_form_ah" if d.plan.choices.bank_method == "ieee1013" else "short_form_ah"
    assert d.more["The bank by both forms"][form] == pytest.approx(d.system["bank_needed_ah"], rel=1e-12)
