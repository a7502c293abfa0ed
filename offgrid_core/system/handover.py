"""What is worked out after sizing, for those who buy and connect the system: set-points, order list, pictures."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from offgrid_core import data
from offgrid_core.sizing.order import CABLE_ORDER, ORDER
from offgrid_core.sizing.set_points import TYPED_IN, TYPED_IN_EQUALIZE
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Solved

_CURVE = "autonomy_given_days"
_STEPS = 81


@dataclass(frozen=True)
class Item:
    """One row of the order list: so many of a part; of a fuse or breaker also its circuit and its size, A.

    What is on hand is listed, but not bought.
    """

    part: data.BatteryUnit | data.Module | data.Controller | data.Inverter | data.ProtectiveDevice
    count: float
    circuit: str = ""
    fuse_a: float | None = None
    on_hand: bool = False


@dataclass(frozen=True)
class Order:
    """The order list, worked out.

    Attributes
    ----------
    items
        What is bought by the piece; ``priced`` has one row for each, ``priced["order_cost"]`` what they come to.
    cables
        One row for each of the design's wires.
    """

    items: Sequence[Item]
    priced: Solved
    cables: Solved


def set_points(design: Design) -> tuple[tuple[str, ...], Solved]:
    """Return what is typed into the controller: the names of the lines, and the chain solved with them."""
    kind = data.chemistry(design.plan.choices.chemistry)
    typed = TYPED_IN + TYPED_IN_EQUALIZE if kind.equalize_v_per_cell else TYPED_IN
    sheet = (design.system.sheet + typed).upto(*typed)
    return tuple(typed), sheet.solve({n: design.system[n] for n in sheet.inputs})


def order(design: Design) -> Order:
    """Return the order list of a design."""
    items = [*_parts(design), *_devices(design)]
    columns = {
        "count_by_row": [i.count for i in items],
        "unit_by_row_cost": [0.0 if i.on_hand else i.part.cost for i in items],
    }
    return Order(
        items=items,
        priced=ORDER.solve(columns),
        cables=CABLE_ORDER.solve({n: [wire[n] for wire in design.wires] for n in CABLE_ORDER.inputs}),
    )


def _parts(design: Design) -> Iterator[Item]:
    chosen, system, owned = design.parts, design.system, design.plan.owned
    yield Item(chosen.battery_unit, float(system["units_count"]), on_hand=bool(owned.battery_unit))
    yield Item(chosen.module, float(system["modules_count"]), on_hand=bool(owned.module))
    yield Item(chosen.controller, float(system["controllers_count"]))
    if chosen.inverter:
        yield Item(chosen.inverter, 1.0)


def _devices(design: Design) -> Iterator[Item]:
    """Yield one fuse or breaker for every circuit; a single battery string has the main fuse and none of its own."""
    found, strings = design.protection, float(design.system["strings_count"])
    counts = [*np.broadcast_to(design.circuits["circuits_by_row_count"], len(found.circuit_names)), strings, 1.0]
    for name, device, count, fuse in zip(found.names, found.devices, counts, found.rated["fuse_by_row_a"], strict=True):
        if name != found.names[-2] or strings > 1:
            yield Item(device, float(count), name, float(fuse))


def autonomy_by_temperature(design: Design) -> tuple[np.ndarray, np.ndarray]:
    """Return battery temperatures (°C) and the days that the bank *as built* lasts at each of them.

    The temperatures are those that the capacity table covers, the design's own among them.
    """
    kept, coldest = design.given["capacity_kept"].x, design.plan.choices.battery_temp_c
    temps = np.union1d(np.linspace(kept[0], kept[-1], _STEPS), [coldest])
    sheet = design.system.sheet.upto(_CURVE)
    given = {n: design.system[n] for n in sheet.inputs} | {"battery_temp_c": temps}
    return temps, np.broadcast_to(
        sheet.solve(given, held={"strings_count": design.system["strings_count"]})[_CURVE], temps.shape
    )
