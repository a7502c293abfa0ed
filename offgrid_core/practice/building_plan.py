"""A design entered as a form, written as a plan: what its year, its sheet and its faults are then made from."""

from offgrid_core.practice.building import Built
from offgrid_core.practice.building_design import GENERATOR_FIELDS
from offgrid_core.system import changed_text


def plan_of(brief_text: str, made: Built) -> str:
    """Return the text of the plan that a form comes to.

    Parameters
    ----------
    brief_text
        Text of the plan that the form answers: site, loads and choices of the client.
    made
        The form as built, with a design. Its counts of battery units and modules are as entered, its circuits and its
        count of controllers as the sheet works them out.

    Raises
    ------
    OffgridError
        If nothing could be built of the form.
    """
    assert made.design is not None
    parts, system, entries = made.design.parts, made.design.system, made.entries
    named = {"battery_unit": parts.battery_unit.key, "module": parts.module.key}
    chosen = {"controller": parts.controller.key} | ({"inverter": parts.inverter.key} if parts.inverter else {})
    counts = {"units_count": int(system["units_count"]), "modules_count": int(system["modules_count"])}
    text = changed_text(brief_text, "choices", bank_voltage_v=int(entries["bank_voltage_v"]))
    text = changed_text(
        text, "parts", **named, **chosen, modules_in_series_count=int(entries["modules_in_series_count"])
    )
    text = changed_text(text, "owned", **named, **counts)
    if made.design.plan.generator:
        text = changed_text(text, "generator", **{key: entries[n] for n, key in GENERATOR_FIELDS.items()})
    return text
