"""The plan file: a whole design as one small text file that a person can write, keep and hand on.

Sections: ``[site]``, ``[[load]]`` (one for each row of the loads list), ``[choices]``, ``[parts]``,
``[circuits]``, ``[assume]``. Keys carry their unit. Whatever is left out is chosen or assumed, and the design
sheet says so. Nothing that a worksheet works out can be set here.
"""

import os
import tempfile
import tomllib
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator, model_validator

from offgrid_core.errors import PlanError
from offgrid_core.quantities import QUANTITIES
from offgrid_core.system.explain import sentence_for
from offgrid_core.system.fields import number_of, one_or_twelve_of, read_value, refused, twelve_of

MOST_LOADS = 500
MOST_BYTES = 256 * 1024


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class SitePlan(_Part):
    """Where the system stands: a site of the shipped list by ``name``, or a person's own twelve numbers."""

    name: str = Field(min_length=1, max_length=60)
    latitude_deg: number_of("latitude_deg") | None = None
    sun_by_month_kwh_m2: twelve_of("flat_by_month_kwh_m2") | None = None
    air_temp_by_month_c: twelve_of("air_temp_by_month_c") | None = None
    air_coldest_c: number_of("air_coldest_c") | None = None
    tilt_deg: number_of("tilt_deg") | None = None
    shade_by_month_frac: one_or_twelve_of("shade_by_month_frac") = (1.0,) * 12
    ground_by_month_frac: one_or_twelve_of("ground_by_month_frac") = (0.2,) * 12

    @model_validator(mode="after")
    def _own_numbers_are_complete(self) -> "SitePlan":
        own = [self.latitude_deg, self.sun_by_month_kwh_m2, self.air_temp_by_month_c]
        if any(x is not None for x in own) and any(x is None for x in own):
            raise refused(
                "a site of your own needs latitude_deg, sun_by_month_kwh_m2 and air_temp_by_month_c; give all three or none"
            )
        return self

    @property
    def is_own(self) -> bool:
        """Whether the plan brings its own sun instead of naming a shipped site."""
        return self.sun_by_month_kwh_m2 is not None


class Load(_Part):
    """One row of the loads list."""

    name: str = Field(min_length=1, max_length=60)
    bus: Literal["AC", "DC"]
    power_w: number_of("power_by_row_w")
    hours_h: number_of("hours_by_row_h")
    count: number_of("count_by_row") = 1.0
    duty_frac: number_of("duty_by_row_frac") = 1.0
    week_days: number_of("week_by_row_days") = 7.0
    season_frac: one_or_twelve_of("season_by_row_frac") = (1.0,) * 12
    standby_w: number_of("standby_by_row_w") = 0.0
    coincidence_frac: number_of("coincidence_by_row_frac") = 1.0
    power_factor_ratio: number_of("power_factor_by_row_ratio") = 1.0
    start_factor: number_of("start_by_row_factor") = 1.0


class Choices(_Part):
    """The designer's choices."""

    autonomy_days: number_of("autonomy_days")
    depth_frac: number_of("depth_frac")
    battery_temp_c: number_of("battery_temp_c")
    chemistry: Literal["flooded", "agm", "gel", "lfp"]
    bank_voltage_v: number_of("bank_voltage_v") | None = None
    bank_method: Literal["short", "ieee1013"] = "short"
    controller: Literal["tracking", "direct"] = "tracking"

    @field_validator("bank_voltage_v")
    @classmethod
    def _a_usual_voltage(cls, value: float | None) -> float | None:
        if value not in (None, 12.0, 24.0, 48.0):
            raise refused(f"{value:g} V is not allowed; allowed is 12, 24 or 48 V")
        return value


class Parts(_Part):
    """Parts already decided, by their key in the catalogue; the rest are chosen."""

    battery_unit: str | None = None
    module: str | None = None
    modules_in_series_count: number_of("modules_in_series_count") | None = None
    controller: str | None = None
    inverter: str | None = None

    @field_validator("modules_in_series_count")
    @classmethod
    def _whole(cls, value: float | None) -> float | None:
        if value is not None and value != int(value):
            raise refused(f"{value:g} is not allowed; modules come whole")
        return value


class Circuits(_Part):
    """Lengths one way and the code setting for the main circuits."""

    code: Literal["us_style", "iec_style"] = "iec_style"
    array_m: number_of("length_by_row_m") = 15.0
    controller_m: number_of("length_by_row_m") = 3.0
    inverter_m: number_of("length_by_row_m") = 2.0
    dc_m: number_of("length_by_row_m") = 8.0


class Plan(_Part):
    """A whole plan, as read from its file."""

    title: str = Field(min_length=1, max_length=80)
    note: str = Field(default="", max_length=2_000)
    currency: str = Field(default="", max_length=8)
    site: SitePlan
    choices: Choices
    load: tuple[Load, ...] = Field(min_length=1, max_length=MOST_LOADS, strict=False)
    parts: Parts = Parts()
    circuits: Circuits = Circuits()
    assume: dict[str, float] = Field(default_factory=dict)

    @field_validator("assume", mode="before")
    @classmethod
    def _assumptions_are_known(cls, entries: Any) -> dict[str, float]:
        from offgrid_core.system.assumptions import ASSUMPTIONS

        if not isinstance(entries, dict):
            raise refused("a table of assumptions is wanted, as in soiling_frac = 0.05")
        read = {}
        for name, entry in entries.items():
            if name not in ASSUMPTIONS:
                raise refused(_not_an_assumption(name, list(ASSUMPTIONS)))
            try:
                read[name] = read_value(name, entry)
            except Exception as e:
                raise refused(f"{name}: {e}") from None
        return read

    @property
    def has_ac(self) -> bool:
        """Whether any load needs an inverter."""
        return any(row.bus == "AC" for row in self.load)


def read_plan(path: str | Path) -> Plan:
    """Read a plan file.

    Raises
    ------
    PlanError
        One sentence: the place, the value, what is allowed.
    """
    where = Path(path)
    return parse_plan(_text_of(where), where.name)


def parse_plan(text: str, name: str = "plan") -> Plan:
    """Read a plan from its text; ``name`` stands in messages."""
    if len(text) > MOST_BYTES:
        raise PlanError(f"{name}: {len(text):,} characters; a plan has at most {MOST_BYTES:,} and {MOST_LOADS} loads")
    try:
        entries = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as e:
        raise PlanError(f"{name}: {e}. {_toml_hint(text, str(e))}") from None
    try:
        return Plan.model_validate(entries)
    except ValidationError as e:
        raise PlanError(f"{name}: {sentence_for(e, entries, Plan)}") from None


def save_text(path: str | Path, text: str) -> None:
    """Write a file whole or not at all: to a temporary file beside it, then renamed."""
    where = Path(path)
    handle, beside = tempfile.mkstemp(dir=where.parent, prefix=where.name, suffix=".part")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        os.replace(beside, where)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise


def changed_text(text: str, section: str, **entries: float | str) -> str:
    """Return the text of a plan with some entries of one section changed; comments and order stay.

    Raises
    ------
    PlanError
        If the changed plan would not be a plan; the text is then left alone.
    """
    import tomlkit

    document = tomlkit.parse(text)
    if section not in document:
        document.add(section, tomlkit.table())
    for key, value in entries.items():
        document[section][key] = value  # type: ignore[index]
    changed = tomlkit.dumps(document)
    parse_plan(changed)
    return changed


def _text_of(where: Path) -> str:
    if where.is_dir():
        raise PlanError(f"{where.name}: this is a folder; a plan file such as my_site.toml is wanted")
    try:
        if where.stat().st_size > MOST_BYTES:
            raise PlanError(
                f"{where.name}: {where.stat().st_size:,} bytes; a plan has at most {MOST_BYTES:,} bytes and {MOST_LOADS} loads"
            )
        return where.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise PlanError(f"{where.name}: there is no such file in {where.parent.resolve().name or 'this folder'}") from None
    except UnicodeDecodeError as e:
        raise PlanError(f"{where.name}: byte {e.start + 1} is not UTF-8 text; save the file as UTF-8") from None
    except OSError as e:
        raise PlanError(f"{where.name}: it cannot be read ({e.strerror})") from None


def _toml_hint(text: str, complaint: str) -> str:
    import re

    if re.search(r"=\s*-?\d+,\d", text):
        return "Write numbers with a decimal point, as in 3.5, not with a comma."
    return "A plan is TOML: key = value, text in quotes." if complaint else ""


def _not_an_assumption(name: str, known: list[str]) -> str:
    from offgrid_core.system.explain import nearest

    if name in QUANTITIES:
        return f"{name} is not an assumption; it belongs to another section of the plan or to a part. {nearest(name, known)}"
    return f"there is no assumption called {name}. {nearest(name, known)}"
