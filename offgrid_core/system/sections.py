"""The sections of a plan: what may stand in each, with the range of every value."""

from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator

from offgrid_core import data
from offgrid_core.data.reading import nearest
from offgrid_core.quantities import show
from offgrid_core.system.clock import WINDOWS_OF
from offgrid_core.system.fields import (
    ONE_LINE,
    number_of,
    one_or_twelve_of,
    part_of,
    refused,
    shown,
    twelve_of,
    whole_of,
)

_OWN = ("latitude_deg", "sun_by_month_kwh_m2", "air_temp_by_month_c", "air_coldest_c")

Name = Annotated[str, Field(min_length=1, max_length=60), ONE_LINE]


class Section(BaseModel):
    """A table of keys; a key nobody knows is refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class SitePlan(Section):
    """Where the system stands: a site of the shipped list by ``name``, or a person's own twelve numbers."""

    name: Name
    latitude_deg: Annotated[float, number_of("latitude_deg")] | None = None
    sun_by_month_kwh_m2: Annotated[tuple[float, ...], twelve_of("flat_by_month_kwh_m2")] | None = None
    air_temp_by_month_c: Annotated[tuple[float, ...], twelve_of("air_temp_by_month_c")] | None = None
    air_coldest_c: Annotated[float, number_of("air_coldest_c")] | None = None
    tilt_deg: Annotated[float, number_of("tilt_deg")] | None = None
    azimuth_deg: Annotated[float, number_of("azimuth_deg")] | None = None
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


class Load(Section):
    """One row of the loads list: its hours a day, or the windows of the day in which it runs."""

    name: Name
    bus: Literal["AC", "DC"]
    power_w: Annotated[float, number_of("power_by_row_w")]
    hours_h: Annotated[float, number_of("hours_by_row_h")] | None = None
    windows: Annotated[tuple[str, ...], *WINDOWS_OF] | None = None
    count: Annotated[float, number_of("count_by_row")] = 1.0
    duty_frac: Annotated[float, number_of("duty_by_row_frac")] = 1.0
    week_days: Annotated[float, number_of("week_by_row_days")] = 7.0
    season_frac: Annotated[tuple[float, ...], one_or_twelve_of("season_by_row_frac")] = (1.0,) * 12
    standby_w: Annotated[float, number_of("standby_by_row_w")] = 0.0
    coincidence_frac: Annotated[float, number_of("coincidence_by_row_frac")] = 1.0
    power_factor_ratio: Annotated[float, number_of("power_factor_by_row_ratio")] = 1.0
    start_factor: Annotated[float, number_of("start_by_row_factor")] = 1.0
    critical: bool = False

    @model_validator(mode="after")
    def _hours_or_windows(self) -> Self:
        if (self.hours_h is None) == (self.windows is None):
            raise refused('one of hours_h and windows is wanted: hours_h = 3.5, or windows = ["06:30-10:00"]')
        return self


class Choices(Section):
    """The designer's choices."""

    autonomy_days: Annotated[float, number_of("autonomy_days")]
    depth_frac: Annotated[float, number_of("depth_frac")]
    battery_temp_c: Annotated[float, number_of("battery_temp_c")]
    chemistry: Literal["flooded", "agm", "gel", "lfp"]
    bank_voltage_v: Annotated[float, number_of("bank_voltage_v")] | None = None
    bank_method: Literal["short", "ieee1013"] = "short"
    spell_rule: Literal["busiest_day", "busiest_run"] = "busiest_day"
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


class Parts(Section):
    """Parts already decided, by their key in the catalogue; the rest are chosen."""

    battery_unit: Annotated[str, part_of(data.battery_units)] | None = None
    module: Annotated[str, part_of(data.modules)] | None = None
    modules_in_series_count: Annotated[float, whole_of("modules_in_series_count")] | None = None
    controller: Annotated[str, part_of(data.controllers)] | None = None
    inverter: Annotated[str, part_of(data.inverters)] | None = None


class Owned(Section):
    """A bank or an array already on hand: so many of one part, and no more."""

    battery_unit: Annotated[str, part_of(data.battery_units)] | None = None
    units_count: Annotated[float, whole_of("owned_units_count")] | None = None
    module: Annotated[str, part_of(data.modules)] | None = None
    modules_count: Annotated[float, whole_of("owned_modules_count")] | None = None

    @model_validator(mode="after")
    def _part_and_count(self) -> Self:
        for part, count in (("battery_unit", "units_count"), ("module", "modules_count")):
            if (getattr(self, part) is None) != (getattr(self, count) is None):
                raise refused(f"{part} and {count} go together; give both, or neither")
        return self


class Enclosure(Section):
    """Where the battery stands, and how warm the room beside it is kept in the coldest spell."""

    kind: Literal["open_shed", "insulated_box", "box_on_warm_wall", "heated_room"]
    room_temp_c: Annotated[float, number_of("room_temp_c")] = 15.0


class Room(Section):
    """The battery's room and its openings to the open air, for ventilation."""

    room_m3: Annotated[float, number_of("room_m3")]
    opening_cm2: Annotated[float, number_of("opening_cm2")]


class Generator(Section):
    """A backup generator: its rating, the battery charger it drives, its fuel, and what it must bring in a year."""

    rated_w: Annotated[float, number_of("generator_rated_w")]
    rated_va: Annotated[float, number_of("generator_rated_va")]
    charger_a: Annotated[float, number_of("charger_rated_a")]
    fuel: Literal["diesel_textbook", "diesel_chart_100kw", "diesel_second_100kw", "diesel_second_20kw"] = (
        "diesel_textbook"
    )
    year_wh: Annotated[float, number_of("generator_year_wh")] | None = None


class Circuits(Section):
    """Lengths one way and the code setting for the main circuits."""

    code: Literal["us_style", "iec_style"] = "iec_style"
    string_m: Annotated[float, number_of("length_by_row_m")] = 3.0
    array_m: Annotated[float, number_of("length_by_row_m")] = 15.0
    controller_m: Annotated[float, number_of("length_by_row_m")] = 3.0
    inverter_m: Annotated[float, number_of("length_by_row_m")] = 2.0
    dc_m: Annotated[float, number_of("length_by_row_m")] = 8.0
    bank_m: Annotated[float, number_of("length_by_row_m")] = 1.0
