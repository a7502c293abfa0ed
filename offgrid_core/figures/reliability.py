"""The picture that no hand method gives: what share of the load is lost, and at what cost, for arrays against banks."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go

from offgrid_core.figures import palette, parts
from offgrid_core.figures.data_table import KWH, DataTable, in_kwh
from offgrid_core.quantities import Settings, show
from offgrid_core.year.map_view import MapView, Spot

#: Loss of load with a contour of its own, and its dash.
LEVELS = ((0.001, "solid"), (0.01, "dash"), (0.05, "dashdot"), (0.10, "dot"))
#: Beyond this share of the map a word stands to the left of its mark, as it would be cut off at the edge.
_NEAR_EDGE = 0.8
#: Lines of equal cost, at most.
_COSTS = 8
#: Marks of the cheapest designs of pinned views: stars, as that of the present one.
_PINNED = ("star-open", "star-square-open", "star-diamond-open")
_LOST, _COST = "loss_energy_frac", "life_cycle_cost"
Pins = Sequence[tuple[str, MapView]]


def make(view: MapView, settings: Settings) -> go.Figure:
    """Return the complete picture for a first view; :func:`draw` moves it in place afterwards."""
    ghosts = parts.ghost_marks(14, _PINNED, 1.5)
    figure = go.Figure([_too_much(), _cost(settings), *map(_contour, LEVELS), *ghosts, *_spots()])
    figure.update_layout(**palette.layout(500))
    figure.update_layout(separators=f"{settings.decimal}\u2009", legend={"y": -0.18})
    figure.update_xaxes(**palette.axis("array (W)"))
    figure.update_yaxes(**palette.axis("bank on the label (kWh)"))
    draw(figure, view, (), settings)
    return figure


def draw(figure: Any, view: MapView, pins: Pins, settings: Settings) -> None:  # noqa: ARG001 - W and kWh in any
    """Put a view's data, and the cheapest designs of pinned views, into a picture made by :func:`make`."""
    too_much, cost, *more = figure.data
    contours, ghosts, spots = more[: len(LEVELS)], more[len(LEVELS) : -3], more[-3:]
    arrays, banks = view.map.array_w, KWH.from_canonical(view.map.bank_wh)
    rows, columns = np.nonzero(view.too_much)
    for axis, values in ((figure.layout.xaxis, arrays), (figure.layout.yaxis, banks)):
        parts.update(axis, "range", (0.0, float(values[-1])))
    parts.put(too_much, arrays[columns], banks[rows])
    for trace, z in ((cost, view.map.life_cycle_cost), *((each, view.map.loss_frac) for each in contours)):
        parts.put(trace, arrays, banks)
        parts.update(trace, "z", z)
    for trace, pinned in parts.each_pin(ghosts, pins):
        _put_spot(trace, _place(pinned.cheapest))
    hand = view.map.hand_array_w, view.map.hand_bank_wh
    for trace, place in zip(spots, (hand, view.guess, _place(view.cheapest)), strict=True):
        _put_spot(trace, place)
    for trace, up in zip(spots[1:], ("bottom", "middle"), strict=True):
        near = len(trace.x) > 0 and trace.x[0] > _NEAR_EDGE * arrays[-1]
        parts.update(trace, "textposition", f"{up} {'left' if near else 'right'}")


def sentence(view: MapView, settings: Settings) -> str:
    """Say what the hand method's design costs against the cheapest that is as good, how often it fails, and more."""
    hand, good = view.hand, view.as_good
    years = "one drawn year" if view.map.years == 1 else f"{view.map.years} drawn years"
    said = (
        f"In {years} the hand method's design, {_design(hand, settings)}, loses {_share(hand.loss_frac, settings)} of "
        f"the load, {_share(hand.worst_frac, settings)} in the worst year, and costs {_money(hand, settings)}"
    )
    if good == hand:
        said += ": nothing on the map is as good for less."
    else:
        said += f"; the cheapest that is as good, {_design(good, settings)}, costs {_money(good, settings)}."
    return f"{said} {_said_of_cheapest(view, settings)}{_said_of_guess(view, settings)} Prices are invented."


def _said_of_cheapest(view: MapView, settings: Settings) -> str:
    allowed, best = _share(view.loss_most_frac, settings), view.cheapest
    if best is None:
        return f"No design on the map loses as little as {allowed}."
    return f"Where {allowed} may be lost, {_design(best, settings)} is the cheapest: {_money(best, settings)}."


def _said_of_guess(view: MapView, settings: Settings) -> str:
    if view.guess is None:
        return ""
    if (spot := view.guessed) is None:
        return " The guess lies beside the map."
    lost = _share(spot.loss_frac, settings)
    return f" Nearest to the guess, {_design(spot, settings)} loses {lost} and costs {_money(spot, settings)}."


def tables(view: MapView, settings: Settings) -> list[DataTable]:
    """Return the numbers of the map, a row a design."""
    percent = settings.unit_for(_LOST).from_canonical
    each, shape = view.map, view.map.loss_frac.shape
    banks = np.broadcast_to(KWH.from_canonical(each.bank_wh)[:, None], shape)
    columns = {
        "bank (kWh)": banks.ravel(),
        "array (W)": np.broadcast_to(each.array_w, shape).ravel(),
        "load lost (%)": percent(each.loss_frac).ravel(),
        "in the worst year (%)": percent(each.worst_frac).ravel(),
        f"life-cycle cost {settings.currency}".rstrip(): each.life_cycle_cost.ravel(),
    }
    return [DataTable(f"Designs through {each.years} drawn years", columns)]


# ---- words


def _share(lost: float, settings: Settings) -> str:
    return show(_LOST, lost, settings, 2)


def _money(spot: Spot, settings: Settings) -> str:
    return show(_COST, spot.life_cycle_cost, settings, 3)


def _design(spot: Spot, settings: Settings) -> str:
    return f"{in_kwh(spot.bank_wh, settings)} of bank with {show('array_w', spot.array_w, settings, 3)} of array"


# ---- traces


def _too_much() -> go.Scatter:
    """Return the empty pattern over the designs that lose too much."""
    marker = {"symbol": "x-thin", "size": 5, "line": {"color": palette.GHOST, "width": 0.9}}
    return go.Scatter(name="loses more than allowed", mode="markers", marker=marker, hoverinfo="skip")


def _cost(settings: Settings) -> go.Contour:
    ink = palette.MONEY
    name = f"life-cycle cost ({settings.currency})" if settings.currency else "life-cycle cost"
    return go.Contour(
        name=name,
        line={"color": ink.colour, "width": 0.8, "dash": ink.dash, "smoothing": 0},
        ncontours=_COSTS,
        contours={"coloring": "none", "showlabels": True, "labelfont": {"size": 10, "color": ink.colour}},
        showlegend=True,
        showscale=False,
        hovertemplate="%{x:,.0f} W, %{y:.3~g} kWh: costs %{z:,.3~r}<extra></extra>",
    )


def _contour(level: tuple[float, str]) -> go.Contour:
    lost, dash = level
    ink = palette.UNMET
    font = {"size": 12, "color": ink.colour, "weight": "bold"}
    drawn = {"start": lost, "end": lost, "size": 1, "coloring": "none", "showlabels": True}
    return go.Contour(
        name=f"{100 * lost:g} % lost",
        line={"color": ink.colour, "width": 2.2, "dash": dash, "smoothing": 0},
        contours={**drawn, "labelformat": "~%", "labelfont": font},
        showlegend=True,
        showscale=False,
        hoverinfo="skip",
    )


def _spots() -> list[go.Scatter]:
    return [
        _spot("hand method", palette.LOAD, "square", "top left"),
        _spot("guess", palette.CURRENT, "triangle-up", "bottom right"),
        _spot("cheapest", palette.MONEY, "star", "middle right"),
    ]


def _spot(name: str, ink: palette.Ink, symbol: str, side: str) -> go.Scatter:
    """Return an empty mark with its word beside it."""
    marker = {"symbol": symbol, "size": 14, "color": ink.colour, "line": {"width": 1.5, "color": palette.PAPER}}
    font = {"size": 13, "color": ink.colour, "weight": "bold", "shadow": ", ".join([f"0 0 3px {palette.PAPER}"] * 3)}
    words = {"mode": "markers+text", "text": [name], "textposition": side, "textfont": font, "showlegend": False}
    return go.Scatter(name=name, marker=marker, **words)


def _place(spot: Spot | None) -> tuple[float, float] | None:
    return None if spot is None else (spot.array_w, spot.bank_wh)


def _put_spot(trace: Any, place: tuple[float, float] | None) -> None:
    arrays, banks = ([], []) if place is None else ([place[0]], [float(KWH.from_canonical(place[1]))])
    parts.put(trace, np.array(arrays), np.array(banks))
