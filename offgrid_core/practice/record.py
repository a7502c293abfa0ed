"""What a learner has typed and how it was judged: one plain file in the learner's own folder, not the notebook."""

import warnings
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Literal

from pydantic import TypeAdapter, ValidationError

from offgrid_core.errors import OffgridError
from offgrid_core.practice.shared_file import locked, set_aside, write_whole
from offgrid_core.practice.slot import Answer, Marks
from offgrid_core.practice.words import say
from offgrid_core.quantities.settings import my_folder

_FILE = "practice.json"
_MOST_BYTES = 8_000_000
#: One more than is ever read as a number, so that a longer text stays refused.
_MOST_CHARACTERS = 65


@dataclass(frozen=True)
class Check:
    """One press of Check, for the learner model to read.

    Attributes
    ----------
    attempt
        Which variant.
    rung
        Help taken on that variant before this check: 0 none, 3 shown worked.
    score, finished
        As marked.
    verdicts, mistakes
        Verdict of each field, and ids that explain wrong ones.
    day
        ISO date.
    """

    attempt: int
    rung: int
    score: float
    finished: bool
    verdicts: dict[str, str]
    mistakes: tuple[str, ...]
    day: str


@dataclass(frozen=True)
class Entry:
    """Where one slot stands.

    Attributes
    ----------
    attempt
        The variant on the screen.
    rung
        Highest help taken on it; 3 means that another variant is owed.
    answers
        As typed, by field.
    checks
        Every check, of every variant, in order.
    """

    attempt: int = 0
    rung: int = 0
    answers: dict[str, Answer] = field(default_factory=dict)
    checks: tuple[Check, ...] = ()

    @property
    def tries(self) -> int:
        """Checks of the variant on the screen."""
        return sum(c.attempt == self.attempt for c in self.checks)

    @property
    def owed(self) -> bool:
        """Whether this variant was shown worked and does not count."""
        return self.rung >= 3

    def typed(self, field_id: str, answer: Answer) -> "Entry":
        """Return the entry with one field as typed."""
        kept = Answer(str(answer.text)[:_MOST_CHARACTERS], str(answer.unit)[:_MOST_CHARACTERS])
        return replace(self, answers={**self.answers, field_id: kept})

    def checked(self, marks: Marks) -> "Entry":
        """Return the entry with one more check."""
        verdicts = {f.id: str(f.verdict) for f in marks.fields}
        today = date.today().isoformat()
        check = Check(self.attempt, self.rung, marks.score, marks.finished, verdicts, marks.mistakes, today)
        return replace(self, checks=(*self.checks, check))

    def helped(self, rung: int) -> "Entry":
        """Return the entry after help of a rung."""
        return replace(self, rung=max(self.rung, rung))

    def renewed(self) -> "Entry":
        """Return the entry on the next variant, with nothing typed."""
        return replace(self, attempt=self.attempt + 1, rung=0, answers={})


@dataclass(frozen=True)
class _Kept:
    slots: dict[str, Entry]
    version: Literal[1] = 1


_JSON = TypeAdapter(_Kept)


class Record:
    """The file, read afresh for every change, so that two open notebooks keep each other's entries.

    Parameters
    ----------
    folder
        The learner's folder; the usual one if not given.
    """

    def __init__(self, folder: str | Path | None = None) -> None:
        self.path = Path(folder or my_folder()) / _FILE

    def entries(self) -> Mapping[str, Entry]:
        """Return every entry by slot.

        Raises
        ------
        OffgridError
            If there is a file and it cannot be read; it is left alone.

        Warns
        -----
        UserWarning
            If the file is damaged; it is kept beside, as ``practice.json.damaged-1`` or the next number.
        """
        try:
            if self.path.stat().st_size > _MOST_BYTES:
                raise ValueError(f"more than {_MOST_BYTES} bytes")
            return _JSON.validate_json(self.path.read_bytes()).slots
        except FileNotFoundError:
            return {}
        except OSError as e:
            raise OffgridError(say("record.unread", path=self.path, reason=e.strerror)) from None
        except ValidationError as e:
            first = e.errors()[0]
            where = " › ".join(map(str, first["loc"])) or "the file"
            told = say("record.damaged", path=self.path, reason=f"{where}: {first['msg']}", kept=set_aside(self.path))
        except ValueError as e:
            told = say("record.damaged", path=self.path, reason=e, kept=set_aside(self.path))
        warnings.warn(told, UserWarning, stacklevel=2)
        return {}

    def entry(self, slot_id: str) -> Entry:
        """Return where one slot stands."""
        return self.entries().get(slot_id, Entry())

    def change(self, slot_id: str, how: Callable[[Entry], Entry]) -> Entry:
        """Read, change one entry, and write, while no other notebook does.

        Parameters
        ----------
        how
            From the entry as it is in the file to the entry as it shall be.

        Raises
        ------
        OffgridError
            If the file cannot be read or written; what it held before is still there.
        """
        with locked(self.path):
            entries = dict(self.entries())
            entries[slot_id] = how(entries.get(slot_id, Entry()))
            write_whole(self.path, _JSON.dump_json(_Kept(entries), indent=1).decode() + "\n")
        return entries[slot_id]
