"""What the cells of a lesson call: live panels, exercise cards, worked tables, cautions."""

from offgrid_core.lab.array_panel import array_panel
from offgrid_core.lab.autonomy_panel import autonomy_panel, sun_chart
from offgrid_core.lab.card import exercise, guess
from offgrid_core.lab.chain_panel import chain_panel, temperature_panel
from offgrid_core.lab.controller_panel import controller_panel
from offgrid_core.lab.cost_panel import cost_panel
from offgrid_core.lab.course import course
from offgrid_core.lab.depth_panel import depth_panel
from offgrid_core.lab.explorer import explore
from offgrid_core.lab.front_door import front_door
from offgrid_core.lab.generator_panel import generator_panel
from offgrid_core.lab.glossary import glossary, words
from offgrid_core.lab.inverter_panel import inverter_panel
from offgrid_core.lab.loads_panel import loads_panel
from offgrid_core.lab.own_design import my_fault, on_my_design, oral
from offgrid_core.lab.page import caution, design_of, findings_table, loads_table, steps_table, table, use_units
from offgrid_core.lab.plan_form import plan_form
from offgrid_core.lab.progress import next_exercise, progress
from offgrid_core.lab.quiz import entry_check, exit_quiz, unit_gate
from offgrid_core.lab.reliability_panel import reliability_panel
from offgrid_core.lab.strings_panel import strings_panel
from offgrid_core.lab.voltage_panel import voltage_panel
from offgrid_core.lab.wiring_panel import wiring_panel
from offgrid_core.lab.workbench import keep_settings, my_site, write_order, write_sheet
from offgrid_core.lab.year_panel import year_panel

__all__ = [
    "array_panel",
    "autonomy_panel",
    "caution",
    "chain_panel",
    "controller_panel",
    "cost_panel",
    "course",
    "depth_panel",
    "design_of",
    "entry_check",
    "exercise",
    "exit_quiz",
    "explore",
    "findings_table",
    "front_door",
    "generator_panel",
    "glossary",
    "guess",
    "inverter_panel",
    "keep_settings",
    "loads_panel",
    "loads_table",
    "my_fault",
    "my_site",
    "next_exercise",
    "on_my_design",
    "oral",
    "plan_form",
    "progress",
    "reliability_panel",
    "steps_table",
    "strings_panel",
    "sun_chart",
    "table",
    "temperature_panel",
    "unit_gate",
    "use_units",
    "voltage_panel",
    "wiring_panel",
    "words",
    "write_order",
    "write_sheet",
    "year_panel",
]
