"""Practice: problems whose key, mistakes and worked solution are all solved from the sizing worksheets."""

from offgrid_core.practice.help import Help, help_for, highest_rung
from offgrid_core.practice.marking import mark
from offgrid_core.practice.mistakes import Mistake, catalogue, mistake
from offgrid_core.practice.problem import Problem, Step
from offgrid_core.practice.slot import Answer, Field, FieldMark, Marks, Slot
from offgrid_core.practice.slots import slot, slots
from offgrid_core.practice.variants import draw

__all__ = [
    "Answer",
    "Field",
    "FieldMark",
    "Help",
    "Marks",
    "Mistake",
    "Problem",
    "Slot",
    "Step",
    "catalogue",
    "draw",
    "help_for",
    "highest_rung",
    "mark",
    "mistake",
    "slot",
    "slots",
]
