"""The plan of one's own site as a form: every change that makes a plan is saved at once, and nothing typed is lost."""

from collections.abc import Callable, Mapping
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from offgrid_core import data
from offgrid_core.errors import OffgridError
from offgrid_core.files import write_whole
from offgrid_core.lab.keys import Keys
from offgrid_core.lab.page import PLANS
from offgrid_core.quantities import Settings, label_of, say, settings, show
from offgrid_core.quantities.settings import my_folder
from offgrid_core.quantities.text import capital
from offgrid_core.system import drafting as draft
from offgrid_core.system import parse_plan, size

#: The file of one's own plan, in the learner's folder, and the plan it begins from.
MINE, BEGINS = "my_site.toml", "first_draft.toml"
_OWN = "own"
#: What an empty box of the loads list stands for.
_USUAL = {"count": "1", "duty_frac": "100", "standby_w": "0"}
_WIDE, _NARROW = "260px", "92px"


def plan_form() -> "PlanForm":
    """Return the form of one's own plan, with whatever was typed before still in it."""
    return PlanForm(my_folder() / MINE, settings.load())


class PlanForm(widgets.VBox):  # type: ignore[misc]
    """Place, loads list, choices and parts on hand.

    Parameters
    ----------
    path
        The plan; it is begun from the first draft where there is none.
    chosen
        The reader's units and marks.
    """

    def __init__(self, path: Path, chosen: Settings) -> None:
        self.path, self.settings = path, chosen
        self.text = (path if path.exists() else PLANS / BEGINS).read_text(encoding="utf-8")
        self._status = widgets.HTML()
        self._rows = widgets.VBox()
        form = draft.kept(path) or draft.form_of(self.text, chosen)
        self._site = self._site_boxes(form.site)
        self._choices = self._choice_boxes(form.choices)
        self._owned = self._owned_boxes(form.owned)
        self._loads = [self._load_boxes(given, row) for given, row in zip(form.loads, form.rows, strict=True)]
        super().__init__(self._parts())
        self.add_class("offgrid-form")
        self._show_rows()
        self._show_own()
        self.tell()

    @property
    def form(self) -> draft.Form:
        """What stands in the boxes now."""
        site = _texts(self._site)
        place = site.pop("place")
        if place != _OWN:
            site = {"name": place}
        loads = [_texts(boxes) for _, boxes in self._loads]
        rows = tuple(row for row, _ in self._loads)
        return draft.Form(site, _texts(self._choices), _texts(self._owned), tuple(loads), rows)

    @property
    def status(self) -> str:
        """What is said below the form."""
        return self._told

    def put(self, key: str, text: str, load: int | None = None) -> None:
        """Enter a text, as a hand would; ``load`` is the place of a row of the loads list, from 0."""
        groups = [self._site, self._choices, self._owned] if load is None else [self._loads[load][1]]
        next(boxes for boxes in groups if key in boxes)[key].value = text

    def add_row(self) -> None:
        """Add an empty row to the loads list."""
        self._loads.append(self._load_boxes({"bus": "AC"}, None))
        self._show_rows()

    def remove_row(self, load: int) -> None:
        """Take a row off the loads list."""
        del self._loads[load]
        self._show_rows()
        self._changed()

    def tell(self) -> None:
        """Try the form, and say what it comes to or which box wants another entry."""
        try:
            text = draft.drafted(self.text, self.form, self.settings)
            design = size(parse_plan(text, self.path.name))
        except OffgridError as e:
            self._say(say("form.wanting", reason=e), trouble=True)
            return
        found = {n: show(n, design.system[n], self.settings, 3) for n in ("energy_day_wh", "bank_ah", "array_w")}
        told = say("form.comes_to", **found)
        where = say("form.saved", path=self.path) if self.path.exists() else say("form.begun")
        self._say(f"{where} {told}")

    def _changed(self) -> None:
        """Save a form that is a plan; keep one that is none yet beside it."""
        try:
            try:
                self.text = draft.drafted(self.text, self.form, self.settings)
                self._renumber()
                write_whole(self.path, self.text)
                draft.settle(self.path)
            except OffgridError:
                draft.keep(self.path, self.form)
        except OSError as e:
            self._say(say("form.unwritten", path=self.path.parent, reason=e.strerror), trouble=True)
            return
        self.tell()

    def _renumber(self) -> None:
        """Every row of the form is a row of the plan now."""
        self._loads = [(i, boxes) for i, (_, boxes) in enumerate(self._loads)]

    # ---- boxes

    def _site_boxes(self, given: Mapping[str, str]) -> dict[str, Any]:
        places = {say("form.own"): _OWN, **{f"{s.name}, {s.country}": s.key for s in data.sites()}}
        shipped = given.get("name") in places.values() and "latitude_deg" not in given
        boxes = {"place": self._menu(say("form.place"), places, given["name"] if shipped else _OWN)}
        boxes["name"] = self._box(say("form.name"), "" if shipped else given.get("name", ""), "", _WIDE)
        for key, name in (draft.SITE | draft.SITE_MONTHS).items():
            wide = key in draft.SITE_MONTHS
            hint = say("form.twelve") if wide else ""
            boxes[key] = self._number(name, given.get(key, ""), "560px" if wide else _NARROW, hint)
        boxes["place"].observe(lambda _: self._show_own(), names="value")
        return boxes

    def _choice_boxes(self, given: Mapping[str, str]) -> dict[str, Any]:
        boxes = {key: self._number(name, given.get(key, ""), _NARROW) for key, name in draft.CHOICES.items()}
        batteries: dict[str, str] = {kind.label: kind.key for kind in data.chemistries()}
        boxes["chemistry"] = self._menu(say("form.chemistry"), batteries, given["chemistry"])
        volts = {say("form.suggest"): "", **{f"{v} V": f"{v}" for v in (12, 24, 48)}}
        boxes["bank_voltage_v"] = self._menu(
            capital(label_of("bank_voltage_v")), volts, given.get("bank_voltage_v", "")
        )
        kinds = {say(f"form.{kind}"): kind for kind in ("tracking", "direct")}
        boxes["controller"] = self._menu(say("form.controller"), kinds, given.get("controller", "tracking"))
        return boxes

    def _owned_boxes(self, given: Mapping[str, str]) -> dict[str, Any]:
        boxes: dict[str, Any] = {}
        for part, count, catalogue in (
            ("battery_unit", "units_count", data.battery_units()),
            ("module", "modules_count", data.modules()),
        ):
            known = {say("form.none"): "", **{x.label: x.key for x in catalogue}}
            boxes[part] = self._menu(say(f"form.{part}"), known, given.get(part, ""))
            boxes[count] = self._number(draft.OWNED[count], given.get(count, ""), _NARROW)
        return boxes

    def _load_boxes(self, given: Mapping[str, str], row: int | None) -> tuple[int | None, dict[str, Any]]:
        boxes = {"name": self._bare(say("form.load"), given.get("name", ""), "180px")}
        boxes["bus"] = self._menu("", {"AC": "AC", "DC": "DC"}, given.get("bus", "AC"), "70px")
        for key, name in draft.LOAD.items():
            boxes[key] = self._bare(self._label(name), given.get(key, ""), _NARROW, _USUAL.get(key, ""))
        return row, boxes

    def _number(self, name: str, text: str, width: str, hint: str = "") -> widgets.Text:
        return self._box(self._label(name), text, hint, width)

    def _label(self, name: str) -> str:
        symbol = self.settings.unit_for(name).symbol
        return capital(label_of(name)) + (f", {symbol}" if symbol else "")

    def _box(self, label: str, text: str, hint: str, width: str) -> widgets.Text:
        return self._listened(
            widgets.Text(
                value=text,
                description=label,
                placeholder=hint,
                continuous_update=False,
                style={"description_width": "230px"},
                layout={"width": f"calc(238px + {width})", "max_width": "99%"},
            )
        )

    def _bare(self, label: str, text: str, width: str, hint: str = "") -> widgets.Text:
        return self._listened(
            widgets.Text(value=text, tooltip=label, placeholder=hint, continuous_update=False, layout={"width": width})
        )

    def _menu(self, label: str, options: Mapping[str, str], value: str, width: str = _WIDE) -> widgets.Dropdown:
        known = value if value in options.values() else next(iter(options.values()))
        return self._listened(
            widgets.Dropdown(
                options=list(options.items()),
                value=known,
                description=label,
                tooltip=label or say("form.bus"),
                style={"description_width": "230px" if label else "0px"},
                layout={"width": f"calc(238px + {width})" if label else width, "max_width": "99%"},
            )
        )

    def _listened(self, box: Any) -> Any:
        box.observe(lambda _: self._changed(), names="value")
        return box

    # ---- on the screen

    def _parts(self) -> list[widgets.Widget]:
        return [
            _head(say("form.head_site")),
            *self._site.values(),
            _head(say("form.head_loads")),
            self._rows,
            self._button(say("form.add"), self.add_row),
            _head(say("form.head_choices")),
            *self._choices.values(),
            _head(say("form.head_owned")),
            *self._owned.values(),
            self._status,
            Keys(),
        ]

    def _show_rows(self) -> None:
        heads = [say("form.load"), say("form.bus"), *map(self._label, draft.LOAD.values())]
        widths = ["180px", "70px", *[_NARROW] * len(draft.LOAD)]
        small = [
            widgets.HTML(f"<div style='font-size:.85em;line-height:1.2'>{escape(head)}</div>", layout={"width": width})
            for head, width in zip(heads, widths, strict=True)
        ]
        rows = []
        for i, (_, boxes) in enumerate(self._loads):
            name = boxes["name"].value or str(i + 1)
            off = self._button(say("form.remove"), partial(self.remove_row, i), say("form.remove_row", row=name))
            rows.append(widgets.HBox([*boxes.values(), off], layout={"flex_flow": "row wrap"}))
        self._rows.children = [widgets.HBox(small), *rows]

    def _show_own(self) -> None:
        own = self._site["place"].value == _OWN
        for key, box in self._site.items():
            if key != "place":
                box.layout.display = None if own else "none"

    def _button(self, words: str, act: Callable[[], None], told: str = "") -> widgets.Button:
        button = widgets.Button(
            description=words, tooltip=told or words, layout={"width": "auto", "align_self": "flex-start"}
        )
        button.on_click(lambda _: act())
        return button

    def _say(self, told: str, trouble: bool = False) -> None:
        self._told = told
        role, rule = ("alert", "border-left:4px solid #B23C00;") if trouble else ("status", "border-left:3px solid;")
        self._status.value = f"<div role='{role}' style='{rule}padding:2px 10px;margin:8px 0'>{escape(told)}</div>"


def _texts(boxes: Mapping[str, Any]) -> dict[str, str]:
    return {key: box.value for key, box in boxes.items()}


def _head(words: str) -> widgets.HTML:
    return widgets.HTML(f"<b>{escape(words)}</b>", layout={"margin": "10px 0 2px 0"})
