"""From a plan file to a whole sized system, its findings and its parts."""

from offgrid_core.system.design import Design, PartsChosen, size
from offgrid_core.system.explore import HEADLINE, ChainView, whole_chain
from offgrid_core.system.plan import Plan, changed_text, parse_plan, read_plan, save_text

__all__ = [
    "HEADLINE",
    "ChainView",
    "Design",
    "PartsChosen",
    "Plan",
    "changed_text",
    "parse_plan",
    "read_plan",
    "save_text",
    "size",
    "whole_chain",
]
