"""A plan as a form: what stands in its boxes, and the text of the plan that they make.

The text of a plan stays the one truth. A form shows part of it, in the reader's units; putting it back changes only the
keys that the form has, so that comments, order and everything else in the plan stay as they are.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from offgrid_core.errors import OffgridError, PlanError
from offgrid_core.files import put_aside, write_whole
from offgrid_core.quantities import Settings, label_of, read_quantity, show
from offgrid_core.system.plan import parse_plan

#: Keys of a section with one number, and the quantity each is.
SITE = {"latitude_deg": "latitude_deg", "air_coldest_c": "air_coldest_c"}
#: Keys with twelve numbers, January first.
SITE_MONTHS = {"sun_by_month_kwh_m2": "flat_by_month_kwh_m2", "air_temp_by_month_c": "air_temp_by_month_c"}
CHOICES = {"autonomy_days": "autonomy_days", "depth_frac": "depth_frac", "battery_temp_c": "battery_temp_c"}
LOAD = {
    "count": "count_by_row",
    "power_w": "power_by_row_w",
    "hours_h": "hours_by_row_h",
    "duty_frac": "duty_by_row_frac",
    "standby_w": "standby_by_row_w",
}
OWNED = {"units_count": "owned_units_count", "modules_count": "owned_modules_count"}
#: Keys whose values are names: of a place, a bus, a chemistry, a part.
NAMES = {
    "site": ("name",),
    "choices": ("chemistry", "controller"),
    "owned": ("battery_unit", "module"),
    "load": ("name", "bus"),
}
_MONTHS = 12


@dataclass(frozen=True)
class Form:
    """What stands in the boxes, as text in the reader's units; an empty box leaves its key out of the plan.

    Attributes
    ----------
    site, choices, owned
        Text by key. ``site`` of a shipped place has its ``name`` only.
    loads
        One row of the loads list each: text by key.
    rows
        For each of them its place in the plan's own list, from 0; ``None`` for a new one.
    """

    site: Mapping[str, str]
    choices: Mapping[str, str]
    owned: Mapping[str, str]
    loads: tuple[Mapping[str, str], ...]
    rows: tuple[int | None, ...]


def form_of(text: str, settings: Settings) -> Form:
    """Return what the boxes of a plan hold.

    Raises
    ------
    PlanError
        If the text is no plan.
    """
    import tomllib

    parse_plan(text)
    entries = tomllib.loads(text)

    def shown(section: Mapping[str, Any], names: Mapping[str, str]) -> dict[str, str]:
        return {key: _as_text(name, section[key], settings) for key, name in names.items() if key in section}

    def named(kind: str, section: Mapping[str, Any]) -> dict[str, str]:
        return {key: str(section[key]) for key in NAMES[kind] if key in section}

    site, choices, owned = (entries.get(kind, {}) for kind in ("site", "choices", "owned"))
    voltage = {"bank_voltage_v": f"{choices['bank_voltage_v']:g}"} if "bank_voltage_v" in choices else {}
    return Form(
        site=named("site", site) | shown(site, SITE | SITE_MONTHS),
        choices=named("choices", choices) | shown(choices, CHOICES) | voltage,
        owned=named("owned", owned) | shown(owned, OWNED),
        loads=tuple(named("load", row) | shown(row, LOAD) for row in entries["load"]),
        rows=tuple(range(len(entries["load"]))),
    )


def drafted(text: str, form: Form, settings: Settings) -> str:
    """Return the text of a plan with a form put back into it.

    Raises
    ------
    OffgridError
        One sentence: the box, what stands in it, what is allowed. The text is then left alone.
    """
    import tomlkit

    document = tomlkit.parse(text)
    for kind, given, numbers in (
        ("site", form.site, SITE | SITE_MONTHS),
        ("choices", form.choices, CHOICES | {"bank_voltage_v": "bank_voltage_v"}),
        ("owned", form.owned, OWNED),
    ):
        section = document.setdefault(kind, tomlkit.table())
        _put(section, given, numbers, NAMES[kind], f"[{kind}]", settings)
    if not document["owned"]:
        del document["owned"]
    loads = document["load"]
    for gone in sorted(set(range(len(loads))) - set(form.rows), reverse=True):
        del loads[gone]
    kept = [row for row in form.rows if row is not None]
    for number, (row, given) in enumerate(zip(form.rows, form.loads, strict=True), 1):
        if row is None:
            loads[-1].add(tomlkit.nl())
            loads.append(tomlkit.table())
        place = -1 if row is None else kept.index(row)
        _put(loads[place], given, LOAD, NAMES["load"], f"load {number}", settings)
    changed = tomlkit.dumps(document)
    parse_plan(changed)
    return changed


def keep(path: Path, form: Form) -> None:
    """Keep a form that is no plan yet beside the plan, so that nothing typed is lost.

    Raises
    ------
    OSError
        If the folder cannot be written.
    """
    write_whole(_beside(path), _JSON.dump_json(form, indent=1).decode() + "\n")


def kept(path: Path) -> Form | None:
    """Return the form that was kept beside a plan, if one was; a damaged one is put aside."""
    try:
        return _JSON.validate_json(_beside(path).read_bytes())
    except FileNotFoundError:
        return None
    except ValidationError:
        put_aside(_beside(path))
        return None


def settle(path: Path) -> None:
    """Forget what was kept beside a plan: the plan holds all of it now."""
    _beside(path).unlink(missing_ok=True)


_JSON = TypeAdapter(Form)


def _beside(path: Path) -> Path:
    return path.with_suffix(".draft.json")


def _put(
    section: Any, given: Mapping[str, str], numbers: Mapping[str, str], names: tuple[str, ...], where: str, s: Settings
) -> None:
    """Put the boxes of one section into it; a box left empty takes its key out."""
    for key in (*names, *numbers):
        text = given.get(key, "").strip()
        if not text:
            section.pop(key, None)
        elif key in names:
            _set(section, key, text)
        else:
            _set(section, key, _read(numbers[key], text, f"{where} {label_of(numbers[key])}", s))


def _set(section: Any, key: str, value: Any) -> None:
    """Set a key that has changed; one that has not keeps how it was written."""
    if key not in section or section[key] != value:
        section[key] = value


def _read(name: str, text: str, where: str, settings: Settings) -> Any:
    if name not in SITE_MONTHS.values():
        return _number(name, text, where, settings)
    parts = text.replace(";", " ").split()
    if len(parts) != _MONTHS:
        raise PlanError(f"{where}: {len(parts)} numbers stand here; twelve are wanted, January first, a space between")
    return [_number(name, part, where, settings) for part in parts]


def _number(name: str, text: str, where: str, settings: Settings) -> float | int:
    unit = settings.unit_for(name).symbol
    plain = text if any(c.isalpha() or c in "%°" for c in text) else f"{text} {unit}".strip()
    try:
        value = round(float(read_quantity(plain, name, settings)), 9)
    except OffgridError as e:
        raise PlanError(f"{where}: {e}") from None
    return int(value) if value == int(value) else value


def _as_text(name: str, value: Any, settings: Settings) -> str:
    """Return a value as it stands in a box: without its unit, which stands beside the box."""
    unit = settings.unit_for(name).symbol

    def plain(x: float) -> str:
        return show(name, x, settings, 6).removesuffix(unit).strip().replace("\u2009", "").replace("\u202f", "")

    return " ".join(map(plain, value)) if isinstance(value, list) else plain(float(value))
