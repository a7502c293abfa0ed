"""The plan of one's own site as a form: every change that makes a plan is saved at once, and nothing typed is lost."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from offgrid_core.errors import OffgridError
from offgrid_core.files import write_whole
from offgrid_core.lab.form_boxes import Boxes, FormBoxes
from offgrid_core.lab.form_words import in_words, label
from offgrid_core.lab.keys import Keys
from offgrid_core.lab.page import PLANS
from offgrid_core.quantities import Settings, say, settings, show
from offgrid_core.quantities.settings import my_folder
from offgrid_core.quantities.text import kept_together
from offgrid_core.system import draft_file, parse_plan, size
from offgrid_core.system import drafting as draft
from offgrid_core.system.draft_file import Box, Draft
from offgrid_core.system.plan import text_of

#: The file of one's own plan, in the learner's folder, and the plan it begins from.
MINE, BEGINS = "my_site.toml", "first_draft.toml"
#: The sentence about the form stays in sight while the page is moved; JupyterLab's own boxes must not cut it off.
_STYLE = """<style>
.offgrid-form, :is(.jp-OutputArea, .jp-OutputArea-child, .jp-OutputArea-output):has(.offgrid-form) {
    overflow: visible; min-width: 0; max-width: 100%; }
.offgrid-form > .offgrid-form-told { position: sticky; top: 0; z-index: 3; margin: 0; min-height: 3.4em; height: auto;
    background: var(--jp-layout-color0, white); border-bottom: 1px solid var(--jp-border-color2, silver); }
.offgrid-wrong :is(input, select) { box-shadow: 0 0 0 2px #B23C00; }
</style>"""
_WRONG = "offgrid-wrong"
_COMES_TO = ("energy_day_wh", "bank_ah", "bank_voltage_v", "array_w")


def plan_form() -> "PlanForm":
    """Return the form of one's own plan, with whatever was typed before still in it.

    Raises
    ------
    OffgridError
        If the file is no plan and nothing is kept beside it: one sentence that says why.
    """
    return PlanForm(my_folder() / MINE, settings.load())


class PlanForm(widgets.VBox):  # type: ignore[misc]
    """Place, loads list, choices and parts on hand.

    The file counts: it is read again before each change, so that what was written into it by hand meanwhile stays.

    Parameters
    ----------
    path
        The plan; it is begun from the first draft where there is none.
    chosen
        The reader's units and marks.

    Attributes
    ----------
    text
        The plan that the boxes change, as it was last read or written.
    status
        What is said above the form.
    """

    def __init__(self, path: Path, chosen: Settings) -> None:
        super().__init__()
        self.path, self.settings = path, chosen
        self._filling = False
        self._loads: list[tuple[int | None, Boxes]] = []
        kept = draft_file.kept(path)
        self.text = kept.plan if kept else text_of(path if path.exists() else PLANS / BEGINS)
        given = kept and draft.restated(kept.form, kept.settings, chosen)
        form = given or draft.form_of(self.text, chosen, path.name)
        self._made = FormBoxes(chosen, self._changed)
        self._status, self._rows = widgets.HTML(), widgets.VBox()
        self._status.add_class("offgrid-form-told")
        self._head, self._site = self._made.head(form.head), self._made.site(form.site)
        self._choices, self._owned = self._made.choices(form.choices), self._made.owned(form.owned)
        self._fill_loads(form)
        self.children = self._parts()
        self.add_class("offgrid-form")
        self._show_own()
        if kept:
            self._changed()
        else:
            self._say_design(say("form.saved", path=path) if path.exists() else say("form.begun"))

    @property
    def form(self) -> draft.Form:
        """What stands in the boxes now."""
        loads = tuple(_texts(boxes) for _, boxes in self._loads)
        rows = tuple(row for row, _ in self._loads)
        head, site, choices, owned = map(_texts, (self._head, self._site, self._choices, self._owned))
        return draft.Form(head, site, choices, owned, loads, rows)

    def put(self, key: str, text: str, load: int | None = None) -> None:
        """Enter a text, as a hand would; ``load`` is the place of a row of the loads list, from 0."""
        next(box for place, box in self._boxes() if place == (load, key)).value = text

    def add_row(self) -> None:
        """Add an empty row to the loads list."""
        self._loads.append((None, self._made.load({})))
        self._show_rows()

    def remove_row(self, load: int) -> None:
        """Take a row off the loads list."""
        del self._loads[load]
        self._show_rows()
        self._changed()

    # ---- saved and kept

    def _changed(self, box: Any = None) -> None:
        """Save a form that is a plan; keep beside the plan what is none yet."""
        if self._filling:
            return
        self._show_own()
        try:
            self._save(box)
        except OSError as e:
            self._say(say("form.unwritten", path=self.path.parent, reason=e.strerror), trouble=True)

    def _save(self, box: Any) -> None:
        try:
            news = self._read_again(box)
        except OffgridError as e:
            self._keep()
            self._say(say("form.file_broken", reason=e), trouble=True)
            return
        try:
            text = draft.drafted(self.text, self.form, self.settings)
        except OffgridError as e:
            self._keep()
            said, wrong = in_words(str(e).removeprefix("plan, "))
            self._say(say("form.wanting", reason=said), news, trouble=True, wrong=wrong)
            return
        self.text = text
        self._loads = [(i, boxes) for i, (_, boxes) in enumerate(self._loads)]  # each is a row of the plan now
        if not self.form.is_all_in_the_plan:
            self._keep()
        write_whole(self.path, text)
        if self.form.is_all_in_the_plan:
            draft_file.settle(self.path)
        self._say_design(say("form.saved", path=self.path), news)

    def _keep(self) -> None:
        draft_file.keep(self.path, Draft(self.text, self.form, self.settings))

    def _read_again(self, box: Any) -> str:
        """Take in what was written into the file elsewhere, and say so; the box that was just typed in keeps its text.

        Raises
        ------
        OffgridError
            If the file is no plan now.
        """
        found = text_of(self.path) if self.path.exists() else self.text
        if found == self.text:
            return ""
        moved = next((place for place, each in self._boxes() if each is box), None)
        theirs = draft.form_of(found, self.settings, self.path.name)
        form, gave_way = draft_file.merged(draft.form_of(self.text, self.settings), self.form, theirs, moved)
        self.text = found
        self._fill(form)
        told = ", ".join(f"{label(key)} ({typed})" for key, typed in gave_way)
        return say("form.read_again") + (" " + say("form.gave_way", typed=told) if told else "")

    # ---- boxes

    def _boxes(self) -> Iterator[tuple[Box, Any]]:
        """Yield every box with its place."""
        for boxes in (self._head, self._site, self._choices, self._owned):
            yield from (((None, key), box) for key, box in boxes.items())
        for load, (_, boxes) in enumerate(self._loads):
            yield from (((load, key), box) for key, box in boxes.items())

    def _fill(self, form: draft.Form) -> None:
        """Put a form into the boxes; rows are made anew only where they differ, for the sake of a hand in them."""
        self._filling = True
        for boxes, given in (
            (self._head, form.head),
            (self._site, form.site),
            (self._choices, form.choices),
            (self._owned, form.owned),
        ):
            for key, box in boxes.items():
                box.value = given[key]
        if form.loads != self.form.loads:
            self._fill_loads(form)
        self._loads = [(row, boxes) for row, (_, boxes) in zip(form.rows, self._loads, strict=True)]
        self._filling = False
        self._show_own()

    def _fill_loads(self, form: draft.Form) -> None:
        self._loads = [(row, self._made.load(given)) for row, given in zip(form.rows, form.loads, strict=True)]
        self._show_rows()

    # ---- on the screen

    def _parts(self) -> list[widgets.Widget]:
        return [
            widgets.HTML(_STYLE, layout={"height": "0", "margin": "0"}),
            self._status,
            *self._head.values(),
            _heading(say("form.head_site")),
            *self._site.values(),
            _heading(say("form.head_loads")),
            self._rows,
            self._button(say("form.add"), self.add_row),
            _heading(say("form.head_choices")),
            *self._choices.values(),
            _heading(say("form.head_owned")),
            *self._owned.values(),
            Keys(),
        ]

    def _show_rows(self) -> None:
        small = [
            widgets.HTML(f"<div style='font-size:.85em;line-height:1.2'>{escape(head)}</div>", layout={"width": width})
            for head, width in self._made.columns()
        ]
        rows = []
        for i, (_, boxes) in enumerate(self._loads):
            name = boxes["name"].value or str(i + 1)
            off = self._button(say("form.remove"), partial(self.remove_row, i), say("form.remove_row", row=name))
            rows.append(widgets.HBox([*boxes.values(), off], layout={"flex_flow": "row wrap"}))
        self._rows.children = [widgets.HBox(small), *rows]

    def _show_own(self) -> None:
        """Hide the boxes of a place of one's own while a shipped one is chosen; what stands in them stays."""
        own = not self._site["place"].value
        for key, box in self._site.items():
            if key != "place":
                box.layout.display = None if own else "none"

    def _button(self, words: str, act: Callable[[], None], told: str = "") -> widgets.Button:
        button = widgets.Button(
            description=words, tooltip=told or words, layout={"width": "auto", "align_self": "flex-start"}
        )
        button.on_click(lambda _: act())
        return button

    def _say_design(self, saved: str, news: str = "") -> None:
        """Say what the plan comes to, or why it cannot be sized."""
        try:
            design = size(parse_plan(self.text, self.path.name))
            findings = design.findings
        except OffgridError as e:
            self._say(say("form.unsized", path=self.path, reason=in_words(str(e))[0]), news, trouble=True)
            return
        found = {n: show(n, design.system[n], self.settings, 3) for n in _COMES_TO}
        broken = sum(not f.passed for f in findings)
        limits = say("form.broken", broken=broken, count=len(findings)) if broken else say("form.no_broken")
        self._say(f"{saved} {say('form.comes_to', **found)} {limits}", news)

    def _say(self, told: str, news: str = "", *, trouble: bool = False, wrong: Box | None = None) -> None:
        self.status = f"{told} {news}".strip()
        role, rule = ("alert", "border-left:4px solid #B23C00;") if trouble else ("status", "border-left:3px solid;")
        told = escape(kept_together(self.status))
        self._status.value = f"<div role='{role}' style='{rule}padding:2px 10px;line-height:1.4'>{told}</div>"
        for place, box in self._boxes():
            (box.add_class if place == wrong else box.remove_class)(_WRONG)


def _texts(boxes: Mapping[str, Any]) -> dict[str, str]:
    return {key: box.value for key, box in boxes.items()}


def _heading(words: str) -> widgets.HTML:
    return widgets.HTML(f"<b>{escape(words)}</b>", layout={"margin": "10px 0 2px 0"})
