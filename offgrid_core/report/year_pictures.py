"""Pictures of the years for paper: each day's lowest charge, where the energy went, and the energy by month."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np

from offgrid_core.figures.palette import GRID, LOAD, LOSS, SUN, TEXT, UNMET
from offgrid_core.quantities import Settings, menu, show
from offgrid_core.quantities.text import capital, number
from offgrid_core.report.markup import Markup, tag
from offgrid_core.report.pictures import LEFT, RIGHT, Scale, band_of, bar_of, figure_of, pattern_of, word_at
from offgrid_core.report.steps import say_month
from offgrid_core.report.year_run import Run
from offgrid_core.report.year_tables import energy, lowest_date, told
from offgrid_core.report.year_words import say
from offgrid_core.sizing.hourly_sun import MONTH_DAYS, MONTH_OF_DAY

#: More years than this are not drawn in the ribbon.
MOST_ROWS = 30
#: Shades of the ribbon, from an empty bank to a full one, one for each tenth; even steps of lightness.
SHADES = (
    "#00261e", "#003a2f", "#004e3f", "#006350", "#1a7864", "#43907d", "#6ba898", "#95c1b4", "#c0dad2", "#edf5f2",
)  # fmt: skip
#: Strokes are drawn here, not dots.
_LOST = replace(LOSS, pattern="x")
_ROW, _TOP = 14, 40
#: Bands of the months: words, quantity, ink.
_BANDS = (
    ("offer", "array_offer_by_month_wh", SUN),
    ("met", "met_by_month_wh", LOAD),
    ("spilled", "spilled_by_month_wh", _LOST),
    ("unserved", "unserved_by_month_wh", replace(UNMET, pattern="x")),
)
_BAND = 138


def ribbon(run: Run, settings: Settings) -> Markup:
    """Return one row a year and one cell a day, the darker the lower the charge fell, with the hours short beside."""
    charge = run.outcome.years.daily_lowest_frac
    rows = charge[:MOST_ROWS]
    slot, bottom = Scale(0, charge.shape[1], 40, 640), _TOP + _ROW * len(rows)
    starts = np.cumsum(MONTH_DAYS) - MONTH_DAYS
    drawn = [word_at(say("picture.year"), 34, _TOP - 8, "end"), word_at(say("picture.short"), 648, _TOP - 8, "start")]
    for month, (start, length) in enumerate(zip(starts, MONTH_DAYS, strict=True), 1):
        drawn.append(word_at(say_month(month)[:3], slot(start + length / 2), _TOP - 8, "middle"))
    drawn += [_shade(shade, path) for shade, path in _shades(rows, slot)]
    for start in starts[1:]:
        ends = {"x1": f"{slot(start):.1f}", "x2": f"{slot(start):.1f}", "y1": f"{_TOP}", "y2": f"{bottom}"}
        drawn.append(tag("line", stroke=TEXT, stroke_width="0.5", stroke_dasharray="2 4", **ends))
    for year in range(len(rows)):
        y = _TOP + _ROW * year + 11
        drawn.append(word_at(str(year + 1), 34, y, "end"))
        drawn.append(word_at(show("short_year_h", run.by_year["short_year_h"][year], settings, 3), 648, y, "start"))
    return figure_of(
        "ribbon", say("picture.ribbon"), _ribbon_said(run, settings), bottom + 52, [*drawn, *_legend(bottom, settings)]
    )


def _shades(rows: np.ndarray, slot: Scale) -> Iterator[tuple[int, str]]:
    """Yield the cells of each shade as one path, days alike side by side as one cell."""
    shades = np.clip((rows * len(SHADES)).astype(int), 0, len(SHADES) - 1)
    paths: dict[int, list[str]] = {}
    for year, row in enumerate(shades):
        edges = np.flatnonzero(np.diff(row, prepend=-1, append=-1))
        for start, end in pairwise(edges.tolist()):
            wide = f"M{slot(start):.1f} {_TOP + _ROW * year}H{slot(end):.1f}v{_ROW - 2}H{slot(start):.1f}z"
            paths.setdefault(int(row[start]), []).append(wide)
    for shade, path in sorted(paths.items()):
        yield shade, "".join(path)


def _shade(shade: int, path: str) -> Markup:
    return tag("path", d=path, fill=SHADES[shade])


def _legend(bottom: float, settings: Settings) -> Iterator[Markup]:
    """Yield the shades side by side with the charge at their ends."""
    slot = Scale(0, len(SHADES), 240, 640)
    yield word_at(say("picture.charge"), 230, bottom + 25, "end")
    for shade in range(len(SHADES)):
        size = {"x": f"{slot(shade):.1f}", "y": f"{bottom + 14}", "width": f"{slot(1) - slot(0):.1f}", "height": "14"}
        yield tag("rect", fill=SHADES[shade], stroke=GRID, **size)
    for end in (0, 5, 10):
        yield word_at(show("charge_frac", end / len(SHADES), settings), slot(end), bottom + 44, "middle")


def _ribbon_said(run: Run, settings: Settings) -> str:
    charge = run.outcome.years.daily_lowest_frac
    low = np.nonzero(charge < 0.5)[1]
    text = say(
        "picture.ribbon_said",
        lowest=show("lowest_charge_frac", np.min(charge), settings, 2),
        date=lowest_date(run),
        below=number(len(low), 9, settings),
        days=number(charge.size, 9, settings),
        mostly=say("picture.mostly", month=say_month(int(np.argmax(np.bincount(MONTH_OF_DAY[low]))) + 1))
        if len(low)
        else "",
    )
    return f"{text} {say('picture.first_years', count=MOST_ROWS)}" if run.count > MOST_ROWS else text


def places(run: Run, settings: Settings) -> Markup:
    """Return where the energy of a mean year went, as bars of one scale."""
    solved = run.places
    values = dict(zip(run.place_names, solved["place_by_row_wh"], strict=True))
    shares = dict(zip(run.place_names, solved["place_by_row_frac"], strict=True))
    largest = float(np.max(solved["place_by_row_wh"]))
    length = Scale(0, largest, 300, 560)
    drawn = [pattern_of("places-served", LOAD), pattern_of("places-lost", _LOST)]
    for i, (name, wh) in enumerate(values.items()):
        top, served = 12 + 28 * i, name == "served_year_wh"
        ink, pattern = (LOAD, "places-served") if served else (_LOST, "places-lost")
        said = f"{energy(wh, settings, largest)}, {told('place_frac', shares[name], settings, 2)}"
        drawn += [
            word_at(capital(say(f"place.{name}")), 292, top + 15, "end"),
            bar_of(300, top, length(wh) - 300, 20, ink, pattern),
            word_at(said, length(wh) + 8, top + 15, "start"),
        ]
    lost = max((n for n in values if n != "served_year_wh"), key=lambda n: values[n])
    text = say(
        "picture.places_said",
        came=energy(float(solved["came_year_wh"]), settings, largest),
        served=energy(values["served_year_wh"], settings, largest),
        most=energy(values[lost], settings, largest),
        place=say(f"place.{lost}"),
    )
    return figure_of("places", say("picture.places"), text, 20 + 28 * len(values), drawn)


def months(run: Run, settings: Settings) -> Markup:
    """Return what the array could pass on and what became of it, month by month; a band of nothing is left out."""
    found = run.months
    most = float(max(np.max(x) for x in found.values()))
    unit = next(u for u in menu("energy_wh") if energy(most, settings, most).endswith(f" {u.symbol}"))
    bands = [band for band in _BANDS if not energy(float(np.max(found[band[1]])), settings, most).startswith("0 ")]
    slot, drawn = Scale(0, 12, LEFT, RIGHT), []
    for i, (key, name, ink) in enumerate(bands):
        values = np.asarray(unit.from_canonical(found[name]))
        said = say(f"picture.{key}", unit=unit.symbol)
        drawn.append(band_of(said, values, None, ink, slot, 24 + _BAND * i, settings))
    foot = 22 + _BAND * len(bands)
    drawn += [word_at(say_month(m)[:3], slot(m - 0.5), foot, "middle") for m in range(1, 13)]
    least = int(np.argmin(found["array_offer_by_month_wh"]))
    unserved = run.outcome.mean("unserved_year_wh")
    text = say(
        "picture.months_said",
        month=say_month(least + 1),
        offer=energy(float(found["array_offer_by_month_wh"][least]), settings, most),
        met=energy(float(found["met_by_month_wh"][least]), settings, most),
        unserved=energy(unserved, settings, unserved),
    )
    return figure_of("year-months", say("picture.months"), text, foot + 10, drawn)
