"""Reading what stands in the fields of a problem, and writing what should stand there."""

from dataclasses import dataclass

from offgrid_core.errors import ReadingError
from offgrid_core.practice.slot import Answer, Field
from offgrid_core.quantities import Settings, menu, read_number, read_quantity, say
from offgrid_core.quantities.text import number

#: Figures of an answer that is filled in for somebody.
_FIGURES = 4


@dataclass(frozen=True)
class Reading:
    """A number box as read: a value, or the reason why it has none, or neither when nothing stands in it."""

    value: float | None = None
    typed: float = 0.0
    reason: str = ""

    @property
    def is_empty(self) -> bool:
        """Whether nothing was entered."""
        return self.value is None and not self.reason


def read(answer: Answer | None, name: str, units: tuple[str, ...], settings: Settings) -> Reading:
    """Read a number box. Never raises, whatever was typed.

    Parameters
    ----------
    answer
        Text and unit, or nothing.
    name
        The quantity asked.
    units
        Symbols the menu beside the box has.
    """
    if answer is None or answer.text == "" or (isinstance(answer.text, str) and answer.text[:65].isspace()):
        return Reading()
    try:
        unit = answer.unit if answer.unit in units else units[0]
        if answer.unit and answer.unit not in units:
            raise ReadingError(say("reading.unit", text=repr(answer.unit)[:20], allowed=", ".join(filter(None, units))))
        value = read_quantity(answer.text, name, settings, unit or None)
        return Reading(value, _bare(answer.text, value, settings))
    except ReadingError as e:
        return Reading(reason=str(e).removeprefix("please re-enter: "))


def units_for(name: str, settings: Settings, only: tuple[str, ...] = ()) -> tuple[tuple[str, ...], str]:
    """Return the symbols of a menu and the one to show first."""
    symbols = tuple(u.symbol for u in menu(name) if not only or u.symbol in only)
    wanted = settings.unit_for(name).symbol
    return symbols, wanted if wanted in symbols else symbols[0]


def number_field(field_id: str, label: str, name: str, settings: Settings, only: tuple[str, ...] = ()) -> Field:
    """Return a number box with its menu of units."""
    units, unit = units_for(name, settings, only)
    return Field(field_id, label, units, unit)


def written(name: str, value: float, field: Field, settings: Settings) -> Answer:
    """Return an answer as a learner would type it into a field."""
    unit = next(u for u in menu(name) if u.symbol == field.unit)
    return Answer(number(float(unit.from_canonical(value)), _FIGURES, settings), field.unit)


def _bare(text: str, value: float, settings: Settings) -> float:
    try:
        return read_number(text, settings.decimal)
    except ReadingError:
        return value
