"""The kinds of problem, one module each. A new kind is a new module here; nothing else need know of it."""

from offgrid_core.practice.kinds.backwards import Backwards
from offgrid_core.practice.kinds.build import Build
from offgrid_core.practice.kinds.choose import Choose, Option
from offgrid_core.practice.kinds.drawing import Drawing
from offgrid_core.practice.kinds.failed import Failed
from offgrid_core.practice.kinds.guess import Guess
from offgrid_core.practice.kinds.knob import Knob
from offgrid_core.practice.kinds.order import Order, cards_of
from offgrid_core.practice.kinds.pick import Pick
from offgrid_core.practice.kinds.rise import Rise
from offgrid_core.practice.kinds.rough import Factor, Rough
from offgrid_core.practice.kinds.slip import Slip
from offgrid_core.practice.kinds.work import Work

__all__ = [
    "Backwards",
    "Build",
    "Choose",
    "Drawing",
    "Factor",
    "Failed",
    "Guess",
    "Knob",
    "Option",
    "Order",
    "Pick",
    "Rise",
    "Rough",
    "Slip",
    "Work",
    "cards_of",
]
