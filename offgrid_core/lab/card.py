"""The exercise card: a problem, a row for each step, and what is said about it.

The card knows no kind of problem: it shows the fields that the slot declares and the sentences that marking
returns. What is typed is text to be read, never evaluated, and is escaped wherever it is shown.
"""

import asyncio
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from html import escape
from typing import Any, NamedTuple

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.lab.sheet_of_paper import on_paper, table
from offgrid_core.practice import Answer, Field, Marks, Problem, Slot, draw, help_for, highest_rung, mark, slot, slots
from offgrid_core.practice.confidence import times_shown
from offgrid_core.practice.feedback import consequences
from offgrid_core.practice.kinds import Guess
from offgrid_core.practice.record import Entry, Record
from offgrid_core.practice.words import say
from offgrid_core.quantities import Settings, settings
from offgrid_core.quantities.text import kept_together

#: Seconds after Enter in which the box's text still arrives from the page.
_TEXT_ARRIVES = 0.15
#: Share of a row that its label takes: 325 px on a wide page, less on a narrow one.
_LABEL = "65%"
#: A long label or option takes as many lines as it needs, an option with its button beside the first.
_STYLE = """<style>
.offgrid-card .widget-radio-box label { height: auto; white-space: normal; position: relative; padding-left: 21px; }
.offgrid-card .widget-radio-box input { position: absolute; left: 0; top: 0; }
.offgrid-card .widget-text { height: auto; align-items: center; }
.offgrid-card .widget-text > .widget-label { height: auto; white-space: normal; overflow: visible; line-height: 1.25; }
</style>"""


def exercise(id_: str) -> "Card":
    """Return the card of a problem, such as ``exercise("L05-3")``, with what was typed before still in it."""
    return Card(slot(id_), Record(), settings.load())


def guess(id_: str) -> "Card":
    """Return the card of a guess, such as ``guess("L05-guess")``; once locked it stays as it is.

    Raises
    ------
    OffgridError
        If that problem is not a guess.
    """
    if not isinstance(slot(id_), Guess):
        raise OffgridError(f"{id_} is not a guess; show it with exercise({id_!r})")
    return exercise(id_)


class _Ready(NamedTuple):
    """A variant that can be shown: its numbers, what is asked, and what stands above that."""

    problem: Problem
    fields: tuple[Field, ...]
    head: widgets.Widget


class _Row:
    """One field on the screen."""

    def __init__(self, field: Field, kept: Answer, alone: bool = True) -> None:
        self.field = field
        self.verdict = widgets.HTML()
        self.box: Any
        self.unit: Any = None
        if field.options:
            keys = [key for key, _ in field.options]
            self.box = widgets.RadioButtons(
                options=[(kept_together(text), key) for key, text in field.options],
                value=kept.text if kept.text in keys else None,
                tooltip=field.label,
                layout={"width": "max-content"},
            )
        else:
            self.box = widgets.Text(
                value=field.filled or kept.text,
                description=field.label,
                disabled=bool(field.filled),
                continuous_update=False,
                style={"description_width": _LABEL},
                layout={"width": "500px", "max_width": "calc(100% - 8px)"},
            )
        if len(field.units) > 1:
            self.unit = widgets.Dropdown(
                options=field.units,
                value=kept.unit if kept.unit in field.units else field.unit,
                tooltip=f"{field.label}: {say('card.unit')}",
                layout={"width": "110px"},
            )
        # the only choice of a card stands under its title, which says what is asked
        told = "" if alone else escape(field.heading)
        above = [widgets.HTML(told, layout={"width": "100%"})] if told else []
        parts = [*above, self.box, *self._after(), self.verdict]
        self.widget = widgets.HBox(parts, layout={"flex_flow": "row wrap"})
        self.say(say("card.given") if field.filled else "")

    @property
    def answer(self) -> Answer:
        """What stands in it now."""
        return Answer(self.box.value or "", self.unit.value if self.unit else self.field.unit)

    def put(self, text: str, unit: str | None) -> None:
        """Enter a text, and choose a unit if one is given."""
        if self.unit and unit is not None:
            self.unit.value = unit
        self.box.value = text

    def lock(self) -> None:
        """Let nothing be changed any more."""
        for each in filter(None, (self.box, self.unit)):
            each.disabled = True

    def say(self, words: str) -> None:
        """Put a few words beside the field."""
        rule = "border-left:3px solid;padding:0 8px;margin-left:8px;line-height:1.5"
        self.verdict.value = f"<span style='{rule}'>{escape(words)}</span>" if words else ""

    def on_change(self, react: Callable[[], None]) -> None:
        """Call ``react`` when the text or the unit changes."""
        for each in filter(None, (self.box, self.unit)):
            each.observe(lambda _: react(), names="value")

    def on_enter(self, react: Callable[[], None]) -> None:
        """Call ``react`` when Enter is pressed in the box."""

        def heard(_: Any, content: Any, __: Any) -> None:
            if isinstance(content, Mapping) and content.get("event") == "submit":
                _soon(react)

        if not self.field.options:
            self.box.on_msg(heard)

    def _after(self) -> list[widgets.Widget]:
        if self.unit:
            return [self.unit]
        return [widgets.Label(self.field.unit, layout={"width": "110px"})] if self.field.units else []


class Card(widgets.VBox):  # type: ignore[misc]
    """A live exercise; as the last value of a cell it shows itself.

    Parameters
    ----------
    place
        The problem's slot.
    record
        Where answers are kept and found again.
    chosen
        Units and decimal mark of the reader.
    """

    def __init__(self, place: Slot, record: Record, chosen: Settings) -> None:
        self.place = place
        self.record = record
        self.settings = chosen
        self._said: list[str] = []
        self._reactions: list[Callable[[], None]] = []
        self._status = widgets.HTML(layout={"display": "block", "width": "auto"})
        self._trouble = widgets.HTML()
        self.entry = self._entries().get(place.id, Entry())
        super().__init__()
        self.add_class("offgrid-card")
        self.layout = {
            "border_left": "1px solid var(--jp-border-color1, gray)",
            "padding": "4px 14px",
            "max_width": "860px",
            "margin": "8px 0",
        }
        self._lay_out(self._ready(self.entry))

    @property
    def feedback(self) -> str:
        """What the card says now, one sentence or more a line."""
        return "\n".join(self._said)

    @property
    def answers(self) -> dict[str, Answer]:
        """What stands in the fields now."""
        return {r.field.id: r.answer for r in self._rows if not r.field.filled}

    def type(self, step: str, text: str, unit: str | None = None) -> None:
        """Enter a text into a field, as a hand would; for a choice, the text or key of the option."""
        row = next((r for r in self._rows if r.field.id == step), None)
        if row is None or row.field.filled:
            raise OffgridError(f"{self.place.id} asks for {', '.join(self.answers)}, not for {step}")
        keys = {words: key for key, words in row.field.options}
        text = keys.get(text, text)
        if keys and text not in keys.values():
            raise OffgridError(f"{self.place.id} has the options {', '.join(keys)}, not {text!r:.60}")
        row.put(text, unit)

    def check(self) -> None:
        """Judge what stands in the fields, and keep both."""
        if self._locked >= self.answers.keys():
            return
        marks = mark(self.problem, self.answers, self.settings)
        if marks.is_read:
            self._keep(lambda entry: entry.checked(marks))
        self._tell(marks)
        for react in self._reactions:
            react()

    def on_check(self, react: Callable[[], None]) -> None:
        """Call ``react`` after every check."""
        self._reactions.append(react)

    def look_again(self) -> None:
        """Say what there is to say now, if this variant was checked before."""
        if self.entry.tries:
            self._tell(mark(self.problem, self.answers, self.settings))

    def help(self) -> None:
        """Take the next rung of help that is open; of a guess, compare it with the worked value."""
        if isinstance(self.place, Guess):
            return self._say(
                [self.place.compare(self.problem, self.answers, self.settings)]
                if self._locked
                else [say("guess_first")]
            )
        if waiting := self._waiting():
            return self._say(waiting)
        wanted, allowed = self.entry.rung + 1, highest_rung(self.entry.tries)
        found = help_for(self.problem, self._marks, min(wanted, allowed), self.settings)
        self._keep(lambda entry: entry.helped(found.rung))
        wait = [say("help_wait")] if wanted > allowed and found.rung < 3 else []
        shown = (*found.tables, ("", found.worked))
        return self._say(found.said, "".join(table(rows, caption) for caption, rows in shown), wait)

    def new_numbers(self) -> None:
        """Draw the next variant, with empty fields."""
        ready = self._ready(self.entry.renewed())  # before it is kept: numbers that cannot be shown are not kept
        self._keep(Entry.renewed)
        moved_on = self.entry.attempt != ready.problem.attempt  # by another card of this place
        self._lay_out(self._ready(self.entry) if moved_on else ready)

    def solve(self) -> None:
        """Fill in the right answers: what the solved run of the lessons presses."""
        self._fill(self.problem.slot.solution(self.problem, self.settings))

    def slip(self, mistake_id: str) -> None:
        """Fill in the answers of somebody who makes one mistake and works on from it."""
        self._fill(self.problem.slot.slipped(self.problem, mistake_id, self.settings))

    def static(self) -> str:
        """Return the problem as HTML for print: blanks to write in, nothing typed, no answer."""
        return on_paper(self.problem, self.settings)

    def _ready(self, entry: Entry) -> "_Ready":
        problem = draw(self.place, entry.attempt)
        return _Ready(problem, problem.slot.fields(problem, self.settings), self._head(problem))

    def _lay_out(self, ready: "_Ready") -> None:
        self.problem = ready.problem
        self._marks: Marks | None = None
        kept, fields = self.entry.answers, ready.fields
        self._rows = [_Row(f, kept.get(f.id, Answer(unit=f.unit)), len(fields) == 1) for f in fields]
        for row in self._rows:
            row.on_change(partial(self._typed, row))
            row.on_enter(self.check)
        self.children = [ready.head, *(r.widget for r in self._rows), self._buttons(), self._status, self._trouble]
        self._say([])
        self._lock()
        self.look_again()

    def _typed(self, row: _Row) -> None:
        row.say("")
        self._keep(lambda entry: entry.typed(row.field.id, row.answer))

    def _head(self, problem: Problem) -> widgets.Widget:
        place = problem.slot
        told = escape(kept_together(problem.text(place.statement, self.settings)))
        shown = "".join(table(rows, caption) for caption, rows in place.tables(problem, self.settings))
        title = f"<b>{escape(place.title)}</b> <small>{escape(place.id)}</small>"
        return widgets.HTML(
            f"{_STYLE}<div style='line-height:1.5'>{title}<br>{told}<div style='overflow-x:auto'>{shown}</div></div>",
            layout={"display": "block", "width": "auto"},
        )

    def _buttons(self) -> widgets.Widget:
        is_guess = isinstance(self.place, Guess)
        wanted = [
            (say("card.lock") if self.is_held else say("card.check"), self.check),
            (say("card.compare") if is_guess else say("card.help"), self.help),
        ]
        if self.place.grids or self.place.others:
            wanted.append((say("card.new"), self.new_numbers))
        made = []
        for words, act in wanted:
            button = widgets.Button(description=words, layout={"width": "auto", "min_width": "88px"})
            button.on_click(lambda _, act=act: act())
            made.append(button)
        self._check_button, *self._later = made
        return widgets.HBox(made, layout={"margin": "8px 0"})

    @property
    def is_held(self) -> bool:
        """Whether a guess or a prediction has still to be locked."""
        return any(r.field.locks and r.field.id not in self._locked for r in self._rows)

    @property
    def _locked(self) -> frozenset[str]:
        """Fields that were locked: a guess, or a prediction."""
        here = [c for c in self.entry.checks if c.attempt == self.entry.attempt]
        return frozenset(i for c in here for i, verdict in c.verdicts.items() if verdict == "locked")

    def _lock(self) -> None:
        """Lock what was locked; what waits for it is shown only then."""
        locked, held = self._locked, self.is_held
        for row in self._rows:
            if row.field.id in locked:
                row.lock()
            row.widget.layout.display = "none" if held and not row.field.locks else None
        self._check_button.description = say("card.lock" if held else "card.check")
        is_one_try = self.place.quiz == "gate" and bool(self._waiting())
        for button in self._later:
            button.layout.display = "none" if is_one_try else None

    def _tell(self, marks: Marks) -> None:
        self._marks = marks
        waiting = self._waiting()
        for row in self._rows:
            if not row.field.filled and not waiting:
                found = marks.of(row.field.id)
                row.say(say(f"verdict.{found.verdict}"))
        self._lock()
        said = [*marks.feedback, *self._again(marks)]
        if marks.finished:
            here = [c for c in self.entry.checks if c.attempt == self.entry.attempt]
            said += consequences(tuple(dict.fromkeys(i for c in here for i in c.mistakes)))
        if self.entry.owed and (self.place.grids or self.place.others):
            said.append(say("owed"))
        self._say(waiting if waiting and marks.is_read else said)  # what could not be read is not noted

    def _again(self, marks: Marks) -> list[str]:
        """Say so where a mistake shows on more than one set of numbers: one match is a guess, two are a habit."""
        named = [i for f in marks.fields if f.named for found in f.explanations[:1] for i in found]
        kept = self._entries() if named else {}
        return (
            [say("again", count=count)] if (count := max((times_shown(i, kept) for i in named), default=0)) > 1 else []
        )

    def _waiting(self) -> list[str]:
        """Of a quiz not yet through: say how many are left, and nothing else."""
        if not self.place.quiz:
            return []
        kept = self._entries()
        quiz = [s.id for s in slots().values() if s.quiz == self.place.quiz and s.lesson == self.place.lesson]
        done = [i for i in quiz if (self.entry if i == self.place.id else kept.get(i, Entry())).checks]
        return [say("waits", count=len(quiz), left=len(quiz) - len(done))] if len(done) < len(quiz) else []

    def _entries(self) -> Mapping[str, Entry]:
        """Return what the learner's file holds; where it cannot be read, nothing, and say so."""
        try:
            return self.record.entries()
        except OffgridError as e:
            self._warn(e)
            return {}

    def _warn(self, trouble: OffgridError) -> None:
        self._trouble.value = f"<div role='alert'>{escape(say('card.unsaved', reason=trouble))}</div>"

    def _fill(self, answers: Mapping[str, Answer]) -> None:
        for id_, answer in answers.items():
            self.type(id_, answer.text, answer.unit)

    def _keep(self, how: Callable[[Entry], Entry]) -> None:
        """Change the entry in the learner's file; where that cannot be written, on this card only, and say so."""
        try:
            self.entry = self.record.change(self.place.id, how)
            self._trouble.value = ""
        except OffgridError as e:
            self.entry = how(self.entry)
            self._warn(e)

    def _say(self, sentences: Sequence[str], tables: str = "", after: Sequence[str] = ()) -> None:
        """Say sentences, then show the tables that they speak of, then say what comes after those."""
        self._said = [*sentences, *after]
        told, then = (_paragraphs(some) for some in (sentences, after))
        rule = "border-left:3px solid;padding:2px 10px;" if told or then else ""
        how = f"role='status' aria-live='polite' style='{rule}line-height:1.5'"
        self._status.value = f"<div {how}>{told}{tables}{then}</div>"


def _paragraphs(sentences: Sequence[str]) -> str:
    return "".join(f"<p style='margin:2px 0'>{escape(kept_together(s))}</p>" for s in sentences)


def _soon(act: Callable[[], None]) -> None:
    """Act when the text that Enter was pressed on has arrived; a page sends it just after the key."""
    try:
        asyncio.get_running_loop().call_later(_TEXT_ARRIVES, act)
    except RuntimeError:
        act()
