"""What was typed into a form and is not in its plan: kept in a file beside the plan, and put together with it again."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from offgrid_core.errors import PlanError
from offgrid_core.files import put_aside, write_whole
from offgrid_core.quantities import Settings
from offgrid_core.system.drafting import Form
from offgrid_core.system.plan import parse_plan

#: A box: the place of its row in the form's loads list, from 0, or ``None`` outside it; and its key.
Box = tuple[int | None, str]


@dataclass(frozen=True)
class Draft:
    """A form, the text of the plan that it changes, and the units it was typed in."""

    plan: str
    form: Form
    settings: Settings


def keep(path: Path, draft: Draft) -> None:
    """Keep a draft beside its plan, so that nothing typed is lost.

    Raises
    ------
    OSError
        If the folder cannot be written.
    """
    write_whole(_beside(path), _JSON.dump_json(draft, indent=1).decode() + "\n")


def kept(path: Path) -> Draft | None:
    """Return the draft that was kept beside a plan, if one was; a damaged one is put aside."""
    try:
        draft = _JSON.validate_json(_beside(path).read_bytes())
        parse_plan(draft.plan)
    except FileNotFoundError:
        return None
    except (ValidationError, PlanError):
        put_aside(_beside(path))
        return None
    return draft


def settle(path: Path) -> None:
    """Forget what was kept beside a plan: the plan holds all of it now."""
    _beside(path).unlink(missing_ok=True)


_JSON = TypeAdapter(Draft)


def _beside(path: Path) -> Path:
    return path.with_suffix(".draft.json")


def merged(base: Form, typed: Form, found: Form, moved: Box | None = None) -> tuple[Form, list[tuple[str, str]]]:
    """Put what was typed into a form together with a plan that was changed elsewhere meanwhile.

    A box that was typed in keeps its text, every other one takes the plan's. Where both were changed the plan's counts,
    being the later, except in the box that is being typed in now. Rows of the loads list are known by their names. A
    row changed on one side and removed on the other stays.

    Parameters
    ----------
    base
        The form of the plan that the typing began from.
    typed
        The boxes as they stand now; its ``rows`` are places in the loads list of ``base``.
    found
        The form of the changed plan.
    moved
        The box that is being typed in.

    Returns
    -------
    tuple
        The form of both, with ``rows`` of ``found``; and what was typed but gave way, as key and text.
    """
    merging = _Merging(moved)
    rows = sorted(merging.rows(base, typed, found), key=lambda row: (row[0] is None, row[0]))
    form = Form(
        head=merging.boxes(base.head, typed.head, found.head),
        site=merging.boxes(base.site, typed.site, found.site),
        choices=merging.boxes(base.choices, typed.choices, found.choices),
        owned=merging.boxes(base.owned, typed.owned, found.owned),
        loads=tuple(boxes for _, boxes in rows),
        rows=tuple(row for row, _ in rows),
    )
    return form, merging.gave_way


Row = tuple[int | None, Mapping[str, str]]


@dataclass
class _Merging:
    moved: Box | None
    gave_way: list[tuple[str, str]] = field(default_factory=list)

    def boxes(
        self, base: Mapping[str, str], typed: Mapping[str, str], found: Mapping[str, str], row: int | None = None
    ) -> dict[str, str]:
        return {key: self._box((row, key), base.get(key, ""), text, found.get(key, "")) for key, text in typed.items()}

    def _box(self, box: Box, base: str, typed: str, found: str) -> str:
        if typed in (base, found):
            return found
        if found == base or box == self.moved:
            return typed
        self.gave_way.append((box[1], typed))
        return found

    def rows(self, base: Form, typed: Form, found: Form) -> list[Row]:
        known, new = _same_rows(base, found)
        rows: list[Row] = []
        for place, (row, boxes) in enumerate(zip(typed.rows, typed.loads, strict=True)):
            was = {} if row is None else base.loads[row]
            there = known.get(row) if row is not None else _named(boxes, new, found)
            if there is not None:
                rows.append((there, self.boxes(was, boxes, found.loads[there], place)))
            elif row is None or any(was.get(key, "") != text for key, text in boxes.items()):
                rows.append((None, boxes))
        for row, was in enumerate(base.loads):  # removed here, but there it got another entry
            there = known.get(row)
            if row not in typed.rows and there is not None and was != found.loads[there]:
                rows.append((there, found.loads[there]))
        return rows + [(there, found.loads[there]) for there in new]


def _same_rows(base: Form, found: Form) -> tuple[dict[int, int], list[int]]:
    """Return which row of one list is which of the other, by their names, and the rows that only the second has."""
    new, known = list(range(len(found.loads))), dict[int, int]()
    for row, boxes in enumerate(base.loads):
        there = _named(boxes, new, found)
        if there is not None:
            known[row] = there
    return known, new


def _named(boxes: Mapping[str, str], among: list[int], found: Form) -> int | None:
    """Take the first row with the same name from among some."""
    there = next((row for row in among if found.loads[row]["name"] == boxes.get("name")), None)
    if there is not None:
        among.remove(there)
    return there
