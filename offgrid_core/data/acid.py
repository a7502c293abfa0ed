"""What a row of the two files about battery acid holds."""

from typing import Annotated, Literal

from pydantic import Field

from offgrid_core.data.models import Charge, Row, Standing, Text

#: How strong the acid of a full cell is: half-charged in one filling is three-quarters charged in another.
Fills = Literal["deep_cycle_1265", "motive_1280", "vehicle_1280"]

Gravity = Annotated[float, Field(ge=1, le=1.4)]


class GravityAtCharge(Row):
    """Specific gravity of the acid at one state of charge, for one filling."""

    fill: Fills
    charge_frac: Charge
    gravity_ratio: Gravity
    source: Text
    standing: Standing


class FreezingAtGravity(Row):
    """Freezing point of sulphuric acid of one specific gravity."""

    gravity_ratio: Gravity
    freezing_c: Annotated[float, Field(ge=-90, le=0)]
    source: Text
    standing: Standing
