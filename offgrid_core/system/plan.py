"""The plan file: a whole design as one small text file that a person can write, keep and hand on.

Sections: ``[site]``, ``[[load]]`` (one for each row of the loads list), ``[choices]``, ``[parts]``,
``[circuits]``, ``[assume]``. Keys carry their unit. Whatever is left out is chosen or assumed, and the design
sheet says so. Nothing that a worksheet works out can be set here.
"""

import tomllib
from collections.abc import MutableMapping
from pathlib import Path
from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator, model_validator
from pydantic_core import PydanticCustomError

from offgrid_core import data
from offgrid_core.data.reading import nearest
from offgrid_core.errors import PlanError
from offgrid_core.files import write_whole
from offgrid_core.quantities import show
from offgrid_core.system.assumptions import ASSUMPTIONS
from offgrid_core.system.explain import sentence_for, shown_key, toml_sentence, unknown_key
from offgrid_core.system.fields import (
    LINES,
    ONE_LINE,
    number_of,
    one_or_twelve_of,
    part_of,
    read_value,
    refused,
    shown,
    twelve_of,
)

MOST_LOADS = 500
MOST_BYTES = 256 * 1024
#: Points in one line. The time that the reader of TOML takes for a key grows with the square of its points.
MOST_POINTS = 100
_SHORT = "a line holds one key and one number, text or list of twelve"
_MOST = f"a plan has at most {MOST_BYTES:,} characters and {MOST_LOADS} loads"
_OWN = ("latitude_deg", "sun_by_month_kwh_m2", "air_temp_by_month_c", "air_coldest_c")


Name = Annotated[str, Field(min_length=1, max_length=60), ONE_LINE]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class SitePlan(_Part):
    """Where the system stands: a site of the shipped list by ``name``, or a person's own twelve numbers."""

    name: Name
    latitude_deg: Annotated[float, number_of("latitude_deg")] | None = None
    sun_by_month_kwh_m2: Annotated[tuple[float, ...], twelve_of("flat_by_month_kwh_m2")] | None = None
    air_temp_by_month_c: Annotated[tuple[float, ...], twelve_of("air_temp_by_month_c")] | None = None
    air_coldest_c: Annotated[float, number_of("air_coldest_c")] | None = None
    tilt_deg: Annotated[float, number_of("tilt_deg")] | None = None
    shade_by_month_frac: Annotated[tuple[float, ...], one_or_twelve_of("shade_by_month_frac")] = (1.0,) * 12
    ground_by_month_frac: Annotated[tuple[float, ...], one_or_twelve_of("ground_by_month_frac")] = (0.2,) * 12

    @model_validator(mode="after")
    def _a_known_place_or_a_whole_own_one(self) -> Self:
        own = (self.latitude_deg, self.sun_by_month_kwh_m2, self.air_temp_by_month_c)
        if all(x is None for x in own):
            known = [site.key for site in data.sites()]
            if self.name not in known:
                raise refused(f"name {shown(self.name)} is not in the list of places; {nearest(self.name, known)}")
        elif any(x is None for x in (*own, self.air_coldest_c)):
            raise refused(
                f"a place of your own needs all of {', '.join(_OWN)}; give all four, or none of the first three"
            )
        return self

    @model_validator(mode="after")
    def _coldest_is_coldest(self) -> Self:
        air = self.air_temp_by_month_c or data.site(self.name).air_temp_by_month_c
        if self.air_coldest_c is not None and self.air_coldest_c > min(air):
            raise refused(
                f"air_coldest_c {show('air_coldest_c', self.air_coldest_c)} is warmer than the coldest month's mean; "
                f"allowed is at most {show('air_coldest_c', min(air))}"
            )
        return self

    @property
    def is_own(self) -> bool:
        """Whether the plan brings its own sun instead of naming a shipped site."""
        return self.sun_by_month_kwh_m2 is not None


class Load(_Part):
    """One row of the loads list."""

    name: Name
    bus: Literal["AC", "DC"]
    power_w: Annotated[float, number_of("power_by_row_w")]
    hours_h: Annotated[float, number_of("hours_by_row_h")]
    count: Annotated[float, number_of("count_by_row")] = 1.0
    duty_frac: Annotated[float, number_of("duty_by_row_frac")] = 1.0
    week_days: Annotated[float, number_of("week_by_row_days")] = 7.0
    season_frac: Annotated[tuple[float, ...], one_or_twelve_of("season_by_row_frac")] = (1.0,) * 12
    standby_w: Annotated[float, number_of("standby_by_row_w")] = 0.0
    coincidence_frac: Annotated[float, number_of("coincidence_by_row_frac")] = 1.0
    power_factor_ratio: Annotated[float, number_of("power_factor_by_row_ratio")] = 1.0
    start_factor: Annotated[float, number_of("start_by_row_factor")] = 1.0


class Choices(_Part):
    """The designer's choices."""

    autonomy_days: Annotated[float, number_of("autonomy_days")]
    depth_frac: Annotated[float, number_of("depth_frac")]
    battery_temp_c: Annotated[float, number_of("battery_temp_c")]
    chemistry: Literal["flooded", "agm", "gel", "lfp"]
    bank_voltage_v: Annotated[float, number_of("bank_voltage_v")] | None = None
    bank_method: Literal["short", "ieee1013"] = "short"
    controller: Literal["tracking", "direct"] = "tracking"

    @field_validator("bank_voltage_v")
    @classmethod
    def _a_usual_voltage(cls, value: float | None) -> float | None:
        if value not in (None, 12.0, 24.0, 48.0):
            raise refused(f"{value:g} V is not allowed; allowed is 12, 24 or 48 V")
        return value

    @model_validator(mode="after")
    def _within_the_capacity_table(self) -> Self:
        temps = data.capacity_kept(self.chemistry).x
        if not temps[0] <= self.battery_temp_c <= temps[-1]:
            low, high = (show("battery_temp_c", t) for t in (temps[0], temps[-1]))
            raise refused(
                f"battery_temp_c {show('battery_temp_c', self.battery_temp_c)} is not allowed; "
                f"the capacity of {self.chemistry} batteries is known from {low} to {high}"
            )
        return self


class Parts(_Part):
    """Parts already decided, by their key in the catalogue; the rest are chosen."""

    battery_unit: Annotated[str, part_of(data.battery_units)] | None = None
    module: Annotated[str, part_of(data.modules)] | None = None
    modules_in_series_count: Annotated[float, number_of("modules_in_series_count")] | None = None
    controller: Annotated[str, part_of(data.controllers)] | None = None
    inverter: Annotated[str, part_of(data.inverters)] | None = None

    @field_validator("modules_in_series_count")
    @classmethod
    def _whole(cls, value: float | None) -> float | None:
        if value is not None and value != int(value):
            raise refused(f"{value:g} is not allowed; modules come whole, as in 2 or 3")
        return value


class Circuits(_Part):
    """Lengths one way and the code setting for the main circuits."""

    code: Literal["us_style", "iec_style"] = "iec_style"
    array_m: Annotated[float, number_of("length_by_row_m")] = 15.0
    controller_m: Annotated[float, number_of("length_by_row_m")] = 3.0
    inverter_m: Annotated[float, number_of("length_by_row_m")] = 2.0
    dc_m: Annotated[float, number_of("length_by_row_m")] = 8.0


class Plan(_Part):
    """A whole plan, as read from its file."""

    title: Annotated[str, Field(min_length=1, max_length=80), ONE_LINE]
    note: Annotated[str, Field(max_length=2_000), LINES] = ""
    currency: Annotated[str, Field(max_length=8), ONE_LINE] = ""
    site: SitePlan
    choices: Choices
    load: tuple[Load, ...] = Field(min_length=1, max_length=MOST_LOADS, strict=False)
    parts: Parts = Parts()
    circuits: Circuits = Circuits()
    assume: dict[str, float] = Field(default_factory=dict)

    @field_validator("assume", mode="before")
    @classmethod
    def _assumptions_are_known(cls, entries: Any) -> Any:
        if not isinstance(entries, dict):
            return entries
        return {name: _assumed(name, entry) for name, entry in entries.items()}

    @property
    def has_ac(self) -> bool:
        """Whether any load needs an inverter."""
        return any(row.bus == "AC" for row in self.load)


def _assumed(name: str, entry: Any) -> float:
    if name not in ASSUMPTIONS:
        raise refused(f"{shown_key(name)}: {unknown_key(name, list(ASSUMPTIONS))}")
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
    return parse_plan(_text_of(where), where.name)


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


def _text_of(where: Path) -> str:
    try:
        with where.open("rb") as file:
            read = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise PlanError(f"{where.name}: there is no such file; a plan file such as my_site.toml is wanted") from None
    except IsADirectoryError:
        raise PlanError(f"{where.name}: this is a folder; a plan file such as my_site.toml is wanted") from None
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
