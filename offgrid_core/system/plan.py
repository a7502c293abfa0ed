"""The plan file: a whole design as one small text file that a person can write, keep and hand on.

Sections: ``[site]``, ``[[load]]`` (one for each row of the loads list), ``[choices]``, ``[parts]``, ``[owned]``,
``[enclosure]``, ``[room]``, ``[generator]``, ``[circuits]``, ``[assume]``. Keys carry their unit. Whatever is left out
is chosen or assumed, and the design sheet says so. Nothing that a worksheet works out can be set here.
"""

import tomllib
from collections.abc import MutableMapping
from pathlib import Path
from typing import Annotated, Any, Self

from pydantic import Field, ValidationError, field_validator, model_validator
from pydantic_core import PydanticCustomError

from offgrid_core.errors import PlanError
from offgrid_core.files import write_whole
from offgrid_core.system.assumptions import ASSUMPTIONS, YEARS_ASSUMPTIONS
from offgrid_core.system.explain import sentence_for, shown_key, toml_sentence, unknown_key
from offgrid_core.system.fields import LINES, ONE_LINE, read_value, refused, shown
from offgrid_core.system.sections import (
    Choices,
    Circuits,
    Enclosure,
    Generator,
    Load,
    Owned,
    Parts,
    Room,
    Section,
    SitePlan,
)

MOST_LOADS = 500
MOST_BYTES = 256 * 1024
#: Points in one line. The time that the reader of TOML takes for a key grows with the square of its points.
MOST_POINTS = 100
_SHORT = "a line holds one key and one number, text or list of twelve"
_MOST = f"a plan has at most {MOST_BYTES:,} characters and {MOST_LOADS} loads"


class Plan(Section):
    """A whole plan, as read from its file."""

    title: Annotated[str, Field(min_length=1, max_length=80), ONE_LINE]
    note: Annotated[str, Field(max_length=2_000), LINES] = ""
    currency: Annotated[str, Field(max_length=8), ONE_LINE] = ""
    site: SitePlan
    choices: Choices
    load: tuple[Load, ...] = Field(min_length=1, max_length=MOST_LOADS, strict=False)
    parts: Parts = Parts()
    owned: Owned = Owned()
    enclosure: Enclosure | None = None
    room: Room | None = None
    generator: Generator | None = None
    circuits: Circuits = Circuits()
    assume: dict[str, float] = Field(default_factory=dict)

    @field_validator("assume", mode="before")
    @classmethod
    def _assumptions_are_known(cls, entries: Any) -> Any:
        if not isinstance(entries, dict):
            return entries
        return {name: _assumed(name, entry) for name, entry in entries.items()}

    @model_validator(mode="after")
    def _owned_is_used(self) -> Self:
        for role in ("battery_unit", "module"):
            named, owned = getattr(self.parts, role), getattr(self.owned, role)
            if named and owned and named != owned:
                raise refused(
                    f"[owned] {role}: {owned} is on hand, but [parts] asks for {named}; name one part in both"
                )
        return self

    @property
    def has_ac(self) -> bool:
        """Whether any load needs an inverter."""
        return any(row.bus == "AC" for row in self.load)


def _assumed(name: str, entry: Any) -> float:
    known = ASSUMPTIONS | YEARS_ASSUMPTIONS
    if name not in known:
        raise refused(f"{shown_key(name)}: {unknown_key(name, list(known))}")
    try:
        return read_value(name, entry)
    except PydanticCustomError as e:
        raise refused(f"{name}: {e}") from None


def read_plan(path: str | Path) -> Plan:
    """Read a plan file.

    Raises
    ------
    PlanError
        One sentence: the place, the value, what is allowed.
    """
    where = Path(path)
    return parse_plan(text_of(where), where.name)


def text_of(where: Path) -> str:
    """Return the text of a plan file as it stands on disk, whether it is a plan or not.

    Raises
    ------
    PlanError
        If there is no such file, or it cannot be read as text.
    """
    try:
        with where.open("rb") as file:
            read = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise PlanError(f"{where.name}: there is no such file; a plan file such as my_site.toml is wanted") from None
    except IsADirectoryError:
        raise PlanError(
            f"{where.name or where}: this is a folder; a plan file such as my_site.toml is wanted"
        ) from None
    except (OSError, ValueError) as e:
        raise PlanError(
            f"{where.name[:60]}: it cannot be read ({e}); a plan file such as my_site.toml is wanted"
        ) from None
    if len(read) > MOST_BYTES:
        raise PlanError(f"{where.name}: it is too long; {_MOST}")
    try:
        return read.decode("utf-8-sig")
    except UnicodeDecodeError as e:
        raise PlanError(f"{where.name}: byte {e.start + 1} is not UTF-8 text; save the file as UTF-8") from None


def parse_plan(text: str, name: str = "plan") -> Plan:
    """Read a plan from its text; ``name`` stands in messages."""
    if len(text) > MOST_BYTES:
        raise PlanError(f"{name}: it is too long; {_MOST}")
    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > MOST_POINTS:
            raise PlanError(
                f"{name}, line {number}: {shown(line.strip())} has more than {MOST_POINTS} points; {_SHORT}"
            )
    try:
        entries = tomllib.loads(text)
    except tomllib.TOMLDecodeError as e:
        raise PlanError(f"{name}, {toml_sentence(str(e), text)}") from None
    except RecursionError:
        raise PlanError(f"{name}: lists inside lists go too deep; a plan has numbers and lists of twelve") from None
    except ValueError:  # the reader of TOML leaves thousands of digits to Python, which refuses them
        raise PlanError(f"{name}: a number has thousands of digits; at most 18 are read") from None
    try:
        return Plan.model_validate(entries)
    except ValidationError as e:
        raise PlanError(f"{name}, {sentence_for(e, entries, Plan)}") from None


def save_text(path: str | Path, text: str) -> None:
    """Write a file whole or not at all."""
    write_whole(Path(path), text)


def changed_text(text: str, section: str, **entries: float | str) -> str:
    """Return the text of a plan with some entries of one section changed; comments and order stay.

    Raises
    ------
    PlanError
        If the changed plan would not be a plan; the text is then left alone.
    """
    import tomlkit

    parse_plan(text)
    document = tomlkit.parse(text)
    table = document.setdefault(section, tomlkit.table())
    if not isinstance(table, MutableMapping):
        raise PlanError(f"{section}: it is not one section with keys; a section such as choices is wanted")
    table.update(entries)
    changed = tomlkit.dumps(document)
    parse_plan(changed)
    return changed
