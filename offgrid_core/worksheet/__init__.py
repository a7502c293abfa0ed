"""The keystone: a sizing rule is one expression, and everything else is read from it."""

from offgrid_core.worksheet.grammar import (
    at_least,
    at_place,
    down,
    larger,
    largest_of,
    place_of_largest,
    smaller,
    smallest_of,
    sum_of,
    up,
)
from offgrid_core.worksheet.line import SEVERITIES, STANDINGS, Line, limit, line
from offgrid_core.worksheet.sheet import Finding, Sheet, Solved, Step, value_at
from offgrid_core.worksheet.stepper import Stepper
from offgrid_core.worksheet.study import Crossing, Swing, sensitivity, solve_for
from offgrid_core.worksheet.table import Table
from offgrid_core.worksheet.turning import turned

__all__ = [
    "SEVERITIES",
    "STANDINGS",
    "Crossing",
    "Finding",
    "Line",
    "Sheet",
    "Solved",
    "Step",
    "Stepper",
    "Swing",
    "Table",
    "at_least",
    "at_place",
    "down",
    "larger",
    "largest_of",
    "limit",
    "line",
    "place_of_largest",
    "sensitivity",
    "smaller",
    "smallest_of",
    "solve_for",
    "sum_of",
    "turned",
    "up",
    "value_at",
]
