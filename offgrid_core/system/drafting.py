"""A plan as a form: what stands in its boxes, and the text of the plan that they make.

The text of a plan stays the one truth. A form shows part of it, in the reader's units; putting it back changes only the
keys that the form has, so that comments, order and everything else in the plan stay as they are.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from offgrid_core import data
from offgrid_core.errors import OffgridError, PlanError
from offgrid_core.quantities import Settings, read_quantity, say, show
from offgrid_core.system.plan import parse_plan

#: Keys of a section with one number, and the quantity each is.
SITE = {"latitude_deg": "latitude_deg", "air_coldest_c": "air_coldest_c"}
#: Keys with twelve numbers, January first.
SITE_MONTHS = {"sun_by_month_kwh_m2": "flat_by_month_kwh_m2", "air_temp_by_month_c": "air_temp_by_month_c"}
CHOICES = {"autonomy_days": "autonomy_days", "depth_frac": "depth_frac", "battery_temp_c": "battery_temp_c"}
VOLTAGE = {"bank_voltage_v": "bank_voltage_v"}
LOAD = {
    "count": "count_by_row",
    "power_w": "power_by_row_w",
    "hours_h": "hours_by_row_h",
    "duty_frac": "duty_by_row_frac",
    "standby_w": "standby_by_row_w",
    "start_factor": "start_by_row_factor",
    "power_factor_ratio": "power_factor_by_row_ratio",
}
OWNED = {"units_count": "owned_units_count", "modules_count": "owned_modules_count"}
NUMBERS = SITE | SITE_MONTHS | CHOICES | VOLTAGE | LOAD | OWNED
#: Keys whose values are names: of the whole, a place, a bus, a chemistry, a part.
NAMES = {
    "head": ("title",),
    "site": ("name",),
    "choices": ("chemistry", "controller"),
    "owned": ("battery_unit", "module"),
    "load": ("name", "bus"),
}
_MONTHS = 12
#: Boxes of a load that may not stay empty; hours may where the plan has windows.
_WANTED = ("name", "power_w", "hours_h")


@dataclass(frozen=True)
class Form:
    """What stands in the boxes, as text in the reader's units; an empty box leaves its key out of the plan.

    Attributes
    ----------
    head, site, choices, owned
        Text by key. ``place`` of the site is the key of a shipped place; empty, the other boxes count.
    loads
        One row of the loads list each: text by key.
    rows
        For each of them its place in the plan's own list, from 0; ``None`` for a new one.
    """

    head: Mapping[str, str]
    site: Mapping[str, str]
    choices: Mapping[str, str]
    owned: Mapping[str, str]
    loads: tuple[Mapping[str, str], ...]
    rows: tuple[int | None, ...]

    @property
    def is_all_in_the_plan(self) -> bool:
        """Whether the plan made of it holds every box; with a shipped place it has none of a place of one's own."""
        own = {key: text for key, text in self.site.items() if key != "place"}
        return not (self.site.get("place") and any(own.values()))


def form_of(text: str, settings: Settings, name: str = "plan") -> Form:
    """Return what the boxes of a plan hold; ``name`` stands in messages.

    Raises
    ------
    PlanError
        If the text is no plan.
    """
    import tomllib

    parse_plan(text, name)
    entries = tomllib.loads(text)

    def shown(section: Mapping[str, Any], names: Mapping[str, str]) -> dict[str, str]:
        return {key: _as_text(name, section[key], settings) for key, name in names.items() if key in section}

    def named(kind: str, section: Mapping[str, Any]) -> dict[str, str]:
        return {key: str(section[key]) for key in NAMES[kind] if key in section}

    site, choices, owned = (entries.get(kind, {}) for kind in ("site", "choices", "owned"))
    place = {"place": site["name"]} if _is_shipped(site) else {"place": "", **named("site", site)}
    return Form(
        head=named("head", entries),
        site=place | shown(site, SITE | SITE_MONTHS),
        choices=named("choices", choices) | shown(choices, CHOICES | VOLTAGE),
        owned=named("owned", owned) | shown(owned, OWNED),
        loads=tuple(named("load", row) | shown(row, LOAD) for row in entries["load"]),
        rows=tuple(range(len(entries["load"]))),
    )


def restated(form: Form, was: Settings, now: Settings) -> Form:
    """Return a form in other units and marks; what cannot be read stays as it was typed."""
    if was == now:
        return form

    def each(boxes: Mapping[str, str]) -> dict[str, str]:
        return {key: _restated(NUMBERS[key], t, was, now) if key in NUMBERS else t for key, t in boxes.items()}

    loads = tuple(map(each, form.loads))
    return Form(form.head, each(form.site), each(form.choices), each(form.owned), loads, form.rows)


def drafted(text: str, form: Form, settings: Settings) -> str:
    """Return the text of a plan with a form put back into it.

    Raises
    ------
    OffgridError
        One sentence: the box, what stands in it, what is allowed. The text is then left alone.
    """
    import tomlkit

    document = tomlkit.parse(text)
    _put(document, form.head, {}, NAMES["head"], "", settings)
    _put_site(document["site"], form.site, settings)
    for kind, given, numbers in (("choices", form.choices, CHOICES | VOLTAGE), ("owned", form.owned, OWNED)):
        section = document.setdefault(kind, tomlkit.table())
        _put(section, given, numbers, NAMES[kind], f"[{kind}] ", settings)
    if not document["owned"]:
        del document["owned"]
    _put_loads(document["load"], form, settings)
    changed = tomlkit.dumps(document)
    parse_plan(changed)
    return changed


def _put_site(section: Any, given: Mapping[str, str], settings: Settings) -> None:
    """Put the place into its section; a shipped one that was there before keeps all that stands beside it."""
    place = given.get("place", "")
    if place and _is_shipped(section) and section["name"] == place:
        return
    _put(section, {"name": place} if place else given, SITE | SITE_MONTHS, NAMES["site"], "[site] ", settings)


def _is_shipped(section: Mapping[str, Any]) -> bool:
    return "latitude_deg" not in section and section["name"] in {site.key for site in data.sites()}


def _put_loads(loads: Any, form: Form, settings: Settings) -> None:
    """Put the rows into the plan's list: those taken off go, new ones come last."""
    import tomlkit

    for gone in sorted(set(range(len(loads))) - set(form.rows), reverse=True):
        del loads[gone]
    kept = [row for row in form.rows if row is not None]
    for number, (row, given) in enumerate(zip(form.rows, form.loads, strict=True), 1):
        if row is None:
            if loads:
                loads[-1].add(tomlkit.nl())
            loads.append(tomlkit.table())
        section = loads[-1 if row is None else kept.index(row)]
        _put(section, given, LOAD, NAMES["load"], f"load {number} ", settings)
        for key in _WANTED:
            if key not in section and not (key == "hours_h" and "windows" in section):
                raise PlanError(f"load {number} {key}: the box is empty")


def _put(
    section: Any, given: Mapping[str, str], numbers: Mapping[str, str], names: tuple[str, ...], where: str, s: Settings
) -> None:
    """Put the boxes of one section into it; a box left empty takes its key out, one left alone its entry as it is."""
    for key in (*names, *numbers):
        text = given.get(key, "").strip()
        if not text:
            section.pop(key, None)
        elif key in names:
            _set(section, key, text)
        elif key not in section or text != _as_text(numbers[key], section[key], s):
            _set(section, key, _read(numbers[key], text, f"{where}{key}", s))


def _set(section: Any, key: str, value: Any) -> None:
    """Set a key that has changed; one that has not keeps how it was written."""
    if key not in section or section[key] != value:
        section[key] = value


def _read(name: str, text: str, where: str, settings: Settings) -> Any:
    if name in SITE_MONTHS.values():
        return _twelve(name, text, where, settings)
    try:
        return _number(name, text, settings)
    except OffgridError as e:
        raise PlanError(f"{where}: {e}") from None


def _twelve(name: str, text: str, where: str, settings: Settings) -> list[float]:
    """Read twelve numbers; a comma before a blank parts them where the decimal mark is a point."""
    has_point = settings.decimal == "."
    parts = (re.sub(r",(?=\s|$)", " ", text) if has_point else text).replace(";", " ").split()
    allowed = say("form.twelve_point" if has_point else "form.twelve_comma")
    if len(parts) != _MONTHS:
        raise PlanError(f"{where}: {allowed}; here stand {len(parts)}")
    found = []
    for part in parts:
        try:
            found.append(_number(name, part, settings))
        except OffgridError:
            raise PlanError(f"{where}: {part[:20]!r} is not read as one number; {allowed}") from None
    return found


def _number(name: str, text: str, settings: Settings) -> float:
    unit = settings.unit_for(name).symbol
    plain = text if any(c.isalpha() or c in "%°" for c in text) else f"{text} {unit}".strip()
    value = round(float(read_quantity(plain, name, settings)), 9)
    return int(value) if value == int(value) else value


def _restated(name: str, text: str, was: Settings, now: Settings) -> str:
    try:
        return _as_text(name, _read(name, text, "", was), now)
    except OffgridError:
        return text


def _as_text(name: str, value: Any, settings: Settings) -> str:
    """Return a value as it stands in a box: without its unit, which stands beside the box."""
    unit = settings.unit_for(name).symbol

    def plain(entry: Any) -> str:
        x = read_quantity(entry, name) if isinstance(entry, str) else float(entry)
        return show(name, x, settings, 6).removesuffix(unit).strip().replace("\u2009", "").replace("\u202f", "")

    return " ".join(map(plain, value)) if isinstance(value, list) else plain(value)
