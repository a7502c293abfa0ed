"""What a row of each data file holds, with the range of every value.

Column names carry their units (``_v``, ``_ah``, ``_mm2``, ``_frac`` ...). The ranges are wide enough for any real
part or place, and narrow enough to catch a per cent sign, a wrong unit or a slipped decimal point.
"""

from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, field_validator, model_validator

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def _whole(value: Any) -> Any:
    return int(value) if isinstance(value, str) and value.isdecimal() else value


#: How far a row can be trusted.
Standing = Literal[
    "standard, seen in a transcription",
    "standard, from memory",
    "published, seen",
    "published, from memory",
    "computed from a published record",
    "common practice, no source",
    "invented classroom data",
]
INVENTED = "invented classroom data"

Text = Annotated[str, Field(min_length=1)]
Key = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$")]
Chemistries = Literal["flooded", "agm", "gel", "lfp"]
Family = Literal["us", "iec"]
# a cell of a file is text; a choice among whole numbers has to be made a number first
BankVolts = Annotated[Literal[12, 24, 48], BeforeValidator(_whole)]
Insulation = Annotated[Literal[70, 75, 90], BeforeValidator(_whole)]

Frac = Annotated[float, Field(gt=0, le=1)]
Charge = Annotated[float, Field(ge=0, le=1)]
CellVolts = Annotated[float, Field(gt=1, le=5)]
Volts = Annotated[float, Field(gt=0, le=1500)]
Amps = Annotated[float, Field(gt=0, le=5000)]
AmpHours = Annotated[float, Field(gt=0, le=10_000)]
Watts = Annotated[float, Field(gt=0, le=1_000_000)]
Celsius = Annotated[float, Field(ge=-75, le=90)]
PerKelvin = Annotated[float, Field(ge=-0.01, le=0)]
Cost = Annotated[float, Field(ge=0, le=10_000_000)]
Irradiation = Annotated[float, Field(ge=0, le=12)]
MonthlyMean = Annotated[float, Field(ge=-60, le=50)]
TWELVE = Field(min_length=12, max_length=12)
Factor = Annotated[float, Field(gt=0, le=2)]
CodeFactor = Annotated[float, Field(ge=1, le=2)]
DropFrac = Annotated[float, Field(ge=0.001, le=0.2)]


class Row(BaseModel):
    """One checked row of a data file; it cannot be changed."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    #: Fields made of twelve columns, with the word that those columns start with.
    monthly: ClassVar[dict[str, str]] = {}

    @classmethod
    def columns(cls) -> list[str]:
        """Return the column names of the file, in order."""
        return [
            column
            for field in cls.model_fields
            for column in ([f"{cls.monthly[field]}_{m}" for m in MONTHS] if field in cls.monthly else [field])
        ]

    @classmethod
    def from_cells(cls, cells: dict[str, str]) -> Self:
        """Check the cells of one line; an empty cell is nothing at all."""
        given: dict[str, Any] = {column: text or None for column, text in cells.items()}
        for field, word in cls.monthly.items():
            given[field] = tuple(given.pop(f"{word}_{m}") for m in MONTHS)
        return cls.model_validate(given)


class Site(Row):
    """A place: monthly means of sun on the flat and of air temperature, and the coldest air."""

    monthly = {"ghi_by_month_kwh_m2": "ghi", "air_temp_by_month_c": "t"}

    key: Key
    name: Text
    country: Text
    latitude_deg: Annotated[float, Field(ge=-66, le=66)]
    longitude_deg: Annotated[float, Field(ge=-180, le=180)]
    elevation_m: Annotated[float, Field(ge=-450, le=6000)]
    ghi_by_month_kwh_m2: Annotated[tuple[Irradiation, ...], TWELVE]
    air_temp_by_month_c: Annotated[tuple[MonthlyMean, ...], TWELVE]
    coldest_c: Annotated[float, Field(ge=-75, le=30)]
    coldest_note: Text
    source: Text
    licence: Text
    standing: Standing

    @model_validator(mode="after")
    def _coldest_is_coldest(self) -> Self:
        if self.coldest_c > min(self.air_temp_by_month_c):
            raise ValueError(
                f"column coldest_c: {self.coldest_c:g} is warmer than the coldest month's mean; "
                f"allowed is at most {min(self.air_temp_by_month_c):g}"
            )
        return self


class Chemistry(Row):
    """A battery chemistry: limits, charging voltages and the numbers of its cells."""

    key: Chemistries
    label: Text
    cell_v: CellVolts
    cells_12v_count: Annotated[int, Field(ge=1, le=12)]
    depth_max_frac: Frac
    depth_daily_frac: Frac
    end_of_life_frac: Frac
    charge_eff_frac: Frac
    charge_rate_min_per_h: Annotated[float, Field(ge=0, le=1)]
    charge_rate_max_per_h: Annotated[float, Field(gt=0, le=5)]
    absorb_v_per_cell: CellVolts
    float_v_per_cell: CellVolts
    equalize_v_per_cell: CellVolts | None
    compensation_mv_per_k_cell: Annotated[float, Field(ge=-10, le=0)]
    charge_temp_min_c: Annotated[float, Field(ge=-40, le=30)]
    discharge_temp_min_c: Annotated[float, Field(ge=-60, le=30)]
    cell_resistance_ohm_ah: Annotated[float, Field(ge=0.001, le=2)]
    peukert_exponent: Annotated[float, Field(ge=1, le=2)]
    self_discharge_frac: Annotated[float, Field(ge=0, le=0.5)]
    taper_frac: Annotated[float, Field(ge=0.05, le=1)]
    source: Text
    standing: Standing


class CapacityAtTemperature(Row):
    """Capacity kept at one battery temperature."""

    chemistry: Chemistries
    temp_c: Celsius
    kept_frac: Annotated[float, Field(gt=0, le=1.5)]
    multiplier: Annotated[float, Field(ge=0.5, le=5)] | None
    source: Text
    standing: Standing


class RestVoltage(Row):
    """Resting voltage of one cell at one state of charge, 25 °C."""

    chemistry: Chemistries
    charge_frac: Charge
    rest_v: CellVolts
    source: Text
    standing: Standing


class CycleLife(Row):
    """Cycles to the end of life at one depth."""

    chemistry: Chemistries
    depth_frac: Frac
    cycles: Annotated[float, Field(ge=1, le=1_000_000)]
    source: Text
    standing: Standing


class ConductorUs(Row):
    """A copper conductor of the US tables; resistance at 75 °C."""

    size: Text
    area_mm2: Annotated[float, Field(gt=0, le=1000)]
    resistance_ohm_km: Annotated[float, Field(gt=0, le=1000)]
    ampacity_75_a: Amps
    ampacity_90_a: Amps
    small_conductor_fuse_a: Amps | None
    source: Text
    standing: Standing


class ConductorIec(Row):
    """A copper conductor of the IEC tables; resistance at 20 °C."""

    size: Text
    area_mm2: Annotated[float, Field(gt=0, le=1000)]
    resistance_ohm_km: Annotated[float, Field(gt=0, le=1000)]
    ampacity_70_a: Amps
    ampacity_90_a: Amps
    source: Text
    standing: Standing


class AmbientUs(Row):
    """Ampacity factors up to one air temperature, US insulation columns; empty where the wire is not allowed."""

    ambient_c: Celsius
    factor_75: Factor | None
    factor_90: Factor | None
    source: Text
    standing: Standing


class AmbientIec(Row):
    """Ampacity factors at one air temperature, IEC insulation columns; empty where the wire is not allowed."""

    ambient_c: Celsius
    factor_70: Factor | None
    factor_90: Factor | None
    source: Text
    standing: Standing


class Grouping(Row):
    """Ampacity factor for up to so many conductors (US) or circuits (IEC) together."""

    family: Family
    count: Annotated[int, Field(ge=1, le=100)]
    factor: Factor
    source: Text
    standing: Standing


class FuseSize(Row):
    """A standard fuse or breaker size."""

    family: Family
    size_a: Amps
    source: Text
    standing: Standing


class ColdVoltage(Row):
    """Factor on the open-circuit voltage for a band of cold."""

    temp_from_c: Celsius
    temp_to_c: Celsius
    factor: CodeFactor
    source: Text
    standing: Standing


class CodeRow(Row):
    """A named code setting: its factors, and which family of tables it reads."""

    key: Key
    label: Text
    family: Family
    insulation_c: Insulation
    table_temp_c: Annotated[float, Field(ge=0, le=100)]
    continuous_factor: CodeFactor
    pv_current_factor: CodeFactor
    string_fuse_factor: CodeFactor
    drop_array_frac: DropFrac
    drop_controller_frac: DropFrac
    drop_inverter_frac: DropFrac
    drop_load_frac: DropFrac
    source: Text
    standing: Standing


class BatteryUnit(Row):
    """A battery of the catalogue; amp-hours are those of ``capacity_hours`` hours."""

    key: Key
    label: Text
    chemistry: Chemistries
    unit_v: Annotated[float, Field(ge=1, le=100)]
    unit_ah: AmpHours
    capacity_hours: Annotated[float, Field(ge=1, le=240)]
    mass_kg: Annotated[float, Field(gt=0, le=5000)]
    discharge_limit_a: Amps
    charge_limit_a: Amps
    cost: Cost
    standing: Standing


class Module(Row):
    """A solar module of the catalogue, at standard test conditions."""

    key: Key
    label: Text
    module_w: Annotated[float, Field(ge=1, le=2000)]
    voc_v: Annotated[float, Field(ge=1, le=500)]
    vmp_v: Annotated[float, Field(ge=1, le=500)]
    isc_a: Annotated[float, Field(ge=0.01, le=100)]
    imp_a: Annotated[float, Field(ge=0.01, le=100)]
    voc_temp_per_k: PerKelvin
    power_temp_per_k: PerKelvin
    noct_c: Annotated[float, Field(ge=30, le=70)]
    nominal_v: Annotated[float, Field(ge=0, le=100)]
    cost: Cost
    standing: Standing

    @model_validator(mode="after")
    def _open_above_working(self) -> Self:
        if self.voc_v <= self.vmp_v:
            raise ValueError(f"column voc_v: {self.voc_v:g} is not allowed; allowed is above vmp_v, {self.vmp_v:g}")
        if self.isc_a <= self.imp_a:
            raise ValueError(f"column isc_a: {self.isc_a:g} is not allowed; allowed is above imp_a, {self.imp_a:g}")
        return self


class Controller(Row):
    """A charge controller of the catalogue, direct (PWM) or tracking (MPPT)."""

    key: Key
    label: Text
    kind: Literal["direct", "tracking"]
    rated_a: Amps
    voltage_max_v: Volts
    pv_margin_v: Annotated[float, Field(ge=0, le=100)]
    banks_v: Annotated[tuple[BankVolts, ...], Field(min_length=1)]
    efficiency_frac: Annotated[float, Field(ge=0.5, le=1)]
    cost: Cost
    standing: Standing

    @field_validator("banks_v", mode="before")
    @classmethod
    def _split(cls, value: Any) -> Any:
        return tuple(value.split()) if isinstance(value, str) else value


class Inverter(Row):
    """An inverter of the catalogue."""

    key: Key
    label: Text
    bank_v: BankVolts
    rated_w: Watts
    rated_va: Watts
    surge_w: Watts
    idle_w: Annotated[float, Field(ge=0, le=1000)]
    efficiency_frac: Annotated[float, Field(ge=0.3, le=1)]
    part_efficiency_frac: Annotated[float, Field(ge=0.3, le=1)]
    full_efficiency_frac: Annotated[float, Field(ge=0.3, le=1)]
    cutoff_v: Volts
    temp_rated_c: Annotated[float, Field(ge=0, le=70)]
    cost: Cost
    standing: Standing

    @model_validator(mode="after")
    def _surge_not_below_rated(self) -> Self:
        if self.surge_w < self.rated_w:
            raise ValueError(
                f"column surge_w: {self.surge_w:g} is not allowed; allowed is rated_w, {self.rated_w:g}, or more"
            )
        return self
