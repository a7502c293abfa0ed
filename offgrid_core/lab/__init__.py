"""What the cells of a lesson call: live panels, exercise cards, worked tables, cautions."""

from offgrid_core.lab.card import exercise, guess
from offgrid_core.lab.chain_panel import chain_panel, temperature_panel
from offgrid_core.lab.course import course
from offgrid_core.lab.explorer import explore
from offgrid_core.lab.front_door import front_door
from offgrid_core.lab.glossary import glossary, words
from offgrid_core.lab.loads_panel import loads_panel
from offgrid_core.lab.page import caution, design_of, loads_table, steps_table, table, use_units
from offgrid_core.lab.progress import next_exercise, progress
from offgrid_core.lab.quiz import entry_check, exit_quiz, unit_gate
from offgrid_core.lab.reliability_panel import reliability_panel
from offgrid_core.lab.year_panel import year_panel

__all__ = [
    "caution",
    "chain_panel",
    "course",
    "design_of",
    "entry_check",
    "exercise",
    "exit_quiz",
    "explore",
    "front_door",
    "glossary",
    "guess",
    "loads_panel",
    "loads_table",
    "next_exercise",
    "progress",
    "reliability_panel",
    "steps_table",
    "table",
    "temperature_panel",
    "unit_gate",
    "use_units",
    "words",
    "year_panel",
]
