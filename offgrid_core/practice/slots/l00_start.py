"""The start page: one small sum, to try the card."""

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.sizing import BANK_1013
from offgrid_core.worksheet import Sheet


def slots() -> tuple[Slot, ...]:
    """Return the slots of the start page."""
    return (
        Work(
            id="L00-try-1",
            title="A first sum",
            statement="A school takes {energy_day_wh} a day out of a {bank_voltage_v} bank. "
            "How many amp-hours is that?",
            hint="What does a volt turn an amp-hour into?",
            principle="Volts times amp-hours are watt-hours: the same energy is fewer amp-hours at a higher voltage.",
            sheet=Sheet(BANK_1013["day_ah"]),
            grids={"energy_day_wh": (1200, 1500, 1800, 2100, 2700, 3000), "bank_voltage_v": (24, 48)},
            curated={"energy_day_wh": 2400, "bank_voltage_v": 24},
            starts_curated=True,
            mistakes=("BV-07", "BV-08", "BV-09", "BV-10"),
            words={"energy_day_wh": "energy a day"},
            asked=(Step("day_ah"),),
        ),
    )
