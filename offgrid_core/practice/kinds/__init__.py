"""The kinds of problem, one module each. A new kind is a new module here; nothing else need know of it."""

from offgrid_core.practice.kinds.backwards import Backwards
from offgrid_core.practice.kinds.choose import Choose, Option
from offgrid_core.practice.kinds.guess import Guess
from offgrid_core.practice.kinds.pick import Pick
from offgrid_core.practice.kinds.slip import Slip
from offgrid_core.practice.kinds.work import Work

__all__ = ["Backwards", "Choose", "Guess", "Option", "Pick", "Slip", "Work"]
