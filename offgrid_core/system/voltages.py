"""The same plan at 12, 24 and 48 V: what each bank voltage does to currents, strings, controllers and cables."""

from dataclasses import dataclass

from offgrid_core.errors import PlanError
from offgrid_core.sizing import VOLTAGE_STEPS
from offgrid_core.system.design import Design, size
from offgrid_core.system.plan import Plan


@dataclass(frozen=True)
class AtVoltage:
    """The plan at one bank voltage: its design, or why there is none."""

    bank_voltage_v: float
    design: Design | None
    reason: str

    @property
    def broken(self) -> tuple[str, ...]:
        """Labels of the limits that are broken there."""
        return () if self.design is None else tuple(f.label for f in self.design.findings if not f.passed)


def at_each_voltage(plan: Plan) -> tuple[AtVoltage, ...]:
    """Return the plan sized at each of the usual bank voltages; everything else that it says stays."""
    return tuple(_at(plan, volts) for volts in VOLTAGE_STEPS.y)


def _at(plan: Plan, bank_voltage_v: float) -> AtVoltage:
    choices = plan.choices.model_copy(update={"bank_voltage_v": bank_voltage_v})
    try:
        return AtVoltage(bank_voltage_v, size(plan.model_copy(update={"choices": choices})), "")
    except PlanError as e:
        return AtVoltage(bank_voltage_v, None, str(e))
