"""The boxes of the form of one's own plan, by the keys of the plan."""

from collections.abc import Callable, Mapping
from typing import Any

import ipywidgets as widgets

from offgrid_core import data
from offgrid_core.lab.form_words import label
from offgrid_core.quantities import Settings, say
from offgrid_core.quantities.text import capital
from offgrid_core.system import drafting as draft

Boxes = dict[str, Any]
#: What an empty box of the loads list stands for.
_USUAL = {"count": "1", "duty_frac": "100", "standby_w": "0", "start_factor": "1", "power_factor_ratio": "1"}
_WIDE, _NARROW = "260px", "92px"
#: Widths of the columns of the loads list; numbers get the last one.
_NAME, _BUS, _NUMBER = "150px", "64px", "76px"


class FormBoxes:
    """Makes boxes with what stands in them at first.

    Parameters
    ----------
    settings
        The reader's units and marks.
    listen
        Called with a box whenever its text was changed.
    """

    def __init__(self, settings: Settings, listen: Callable[[Any], None]) -> None:
        self._settings, self._listen = settings, listen

    def head(self, given: Mapping[str, str]) -> Boxes:
        """Return what stands above the place."""
        return {"title": self._box("title", given, _WIDE)}

    def site(self, given: Mapping[str, str]) -> Boxes:
        """Return the list of places, and the boxes of a place of one's own."""
        places = {say("form.own"): "", **{f"{s.name}, {s.country}": s.key for s in data.sites()}}
        boxes = {"place": self._menu("place", places, given), "name": self._box("name", given, _WIDE)}
        boxes |= {key: self._box(key, given, _NARROW) for key in draft.SITE}
        boxes |= {key: self._box(key, given, "560px", say("form.twelve")) for key in draft.SITE_MONTHS}
        return boxes

    def choices(self, given: Mapping[str, str]) -> Boxes:
        """Return the designer's choices."""
        boxes: Boxes = {key: self._box(key, given, _NARROW) for key in draft.CHOICES}
        batteries: dict[str, str] = {kind.label: kind.key for kind in data.chemistries()}
        boxes["chemistry"] = self._menu("chemistry", batteries, given)
        volts = {say("form.suggest"): "", **{f"{v} V": f"{v}" for v in (12, 24, 48)}}
        boxes["bank_voltage_v"] = self._menu("bank_voltage_v", volts, given)
        kinds = {say(f"form.{kind}"): kind for kind in ("tracking", "direct")}
        boxes["controller"] = self._menu("controller", kinds, given)
        return boxes

    def owned(self, given: Mapping[str, str]) -> Boxes:
        """Return parts on hand and how many of each."""
        boxes: Boxes = {}
        for part, count, catalogue in (
            ("battery_unit", "units_count", data.battery_units()),
            ("module", "modules_count", data.modules()),
        ):
            known = {say("form.none"): "", **{x.label: x.key for x in catalogue}}
            boxes[part] = self._menu(part, known, given)
            boxes[count] = self._box(count, given, _NARROW)
        return boxes

    def load(self, given: Mapping[str, str]) -> Boxes:
        """Return one row of the loads list; what each box is stands above it."""
        boxes = {"name": self._bare(say("form.load"), given.get("name", ""), _NAME)}
        boxes["bus"] = self._listened(
            widgets.Dropdown(
                options=("AC", "DC"), value=given.get("bus", "AC"), tooltip=label("bus"), layout={"width": _BUS}
            )
        )
        for key in draft.LOAD:
            boxes[key] = self._bare(self._label(key), given.get(key, ""), _NUMBER, _USUAL.get(key, ""))
        return boxes

    def columns(self) -> list[tuple[str, str]]:
        """Return heading and width of each column of the loads list."""
        numbers = [(self._label(key), _NUMBER) for key in draft.LOAD]
        return [(capital(say("form.load")), _NAME), (capital(label("bus")), _BUS), *numbers]

    def _label(self, key: str) -> str:
        symbol = self._settings.unit_for(draft.NUMBERS[key]).symbol if key in draft.NUMBERS else ""
        return capital(label(key)) + (f", {symbol}" if symbol else "")

    def _box(self, key: str, given: Mapping[str, str], width: str, hint: str = "") -> widgets.Text:
        return self._listened(
            widgets.Text(
                value=given.get(key, ""),
                description=self._label(key),
                placeholder=hint,
                continuous_update=False,
                style={"description_width": "230px"},
                layout={"width": f"calc(238px + {width})", "max_width": "99%"},
            )
        )

    def _bare(self, told: str, text: str, width: str, hint: str = "") -> widgets.Text:
        return self._listened(
            widgets.Text(value=text, tooltip=told, placeholder=hint, continuous_update=False, layout={"width": width})
        )

    def _menu(self, key: str, options: Mapping[str, str], given: Mapping[str, str]) -> widgets.Dropdown:
        value = given.get(key)
        return self._listened(
            widgets.Dropdown(
                options=list(options.items()),
                value=value if value in options.values() else next(iter(options.values())),
                description=capital(label(key)),
                style={"description_width": "230px"},
                layout={"width": f"calc(238px + {_WIDE})", "max_width": "99%"},
            )
        )

    def _listened(self, box: Any) -> Any:
        box.observe(lambda change: self._listen(change["owner"]), names="value")
        return box
