"""Three small pictures for paper: drawn as plain SVG shapes, told apart by pattern and word, read out in a sentence."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from offgrid_core.figures.palette import GRID, LOAD, PAPER, STORE, SUN, TEXT, UNMET, Ink
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities.text import number
from offgrid_core.report.markup import Markup, join, own, tag
from offgrid_core.report.steps import say_month
from offgrid_core.report.words import say
from offgrid_core.system.design import Design
from offgrid_core.system.explore import one_day
from offgrid_core.system.handover import autonomy_by_temperature

WIDTH = 720
#: Left and right edge of the plotted part.
LEFT, RIGHT = 64, 704
#: Most loads drawn; more would not be told apart.
MOST_ROWS = 14
#: The warm end of the sentence about cold, °C: what most labels are for.
WARM_C = 25.0


@dataclass(frozen=True)
class Scale:
    """Turns values into places on the paper."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, x: float) -> float:
        """Return the place of a value."""
        return float(np.interp(x, (self.low, self.high), (self.start, self.end)))


def months(design: Design, settings: Settings) -> Markup:
    """Return sun, load and array asked for, one above the other, with the design month marked through all three."""
    system = design.system
    month = int(system["design_month"])
    bands = (
        ("picture.sun", "peak_sun_by_month_h", SUN, None),
        ("picture.load", "battery_mean_by_month_wh", LOAD, None),
        ("picture.asked", "array_by_month_w", STORE, "array_w"),
    )
    slot = Scale(0, 12, LEFT, RIGHT)
    drawn = [_hatch(slot, month, 26, 440)]
    for i, (key, name, ink, level) in enumerate(bands):
        values = _in_unit(name, np.broadcast_to(system[name], (12,)), settings)
        line = _in_unit(level, system[level], settings).item() if level else None
        said = say(key, unit=settings.unit_for(name).symbol)
        drawn.append(band_of(said, values, line, ink, slot, 44 + 138 * i, settings))
    for m in range(1, 13):
        drawn.append(word_at(say_month(m)[:3], slot(m - 0.5), 456, "middle", bold=m == month))
    drawn.append(word_at(say("picture.design"), slot(month - 0.5), 20, "end" if month > 10 else "middle", bold=True))
    told = say(
        "picture.months_said",
        month=say_month(month),
        sun=show("design_sun_h", system["design_sun_h"], settings, 3),
        load=show("design_load_wh", system["design_load_wh"], settings, 3),
        asked=show("array_for_load_w", system["array_for_load_w"], settings, 3),
        built=show("array_w", system["array_w"], settings, 3),
    )
    return figure_of("months", say("picture.months"), told, 466, drawn)


def hours(design: Design, settings: Settings) -> Markup:
    """Return the energy of each hour of the hardest month's busiest day, the hours without sun hatched."""
    night = design.more["Day and night"]
    dark = night["dark_by_hour_frac"]
    values = _in_unit("load_by_hour_wh", night["load_by_hour_wh"], settings)
    slot, place = Scale(0, 24, LEFT, RIGHT), Scale(0, _round_up(float(np.max(values))), 220, 30)
    drawn = [_night(slot, dark), *_grid(place, settings), pattern_of("hours-line", LOAD)]
    for hour, value in enumerate(values):
        top = place(float(value))
        drawn.append(bar_of(slot(hour) + 4, top, slot(1) - slot(0) - 8, place(0) - top, LOAD, "hours-line"))
    for hour in range(0, 25, 3):
        drawn.append(word_at(str(hour), slot(hour), 238, "middle"))
    unit = settings.unit_for("load_by_hour_wh").symbol
    drawn += [
        word_at(say("picture.hours_y", unit=unit), LEFT, 16, "start"),
        word_at(say("picture.hours_x"), (LEFT + RIGHT) / 2, 258, "middle"),
    ]
    told = say(
        "picture.hours_said",
        month=say_month(design.hardest_month),
        night=show("night_share_frac", night["night_share_frac"], settings, 3),
        most=show("load_by_hour_wh", float(np.max(night["load_by_hour_wh"])), settings, 3),
    )
    return figure_of("hours", say("picture.hours"), told, 266, drawn)


def _night(slot: Scale, dark: np.ndarray) -> Markup:
    """Return the hatched hours, each as wide as the share of it without sun: before sunrise and after sunset."""
    stroke = tag("path", d="M0 8 L8 0", stroke="#8a8a8a", stroke_width="1")
    pattern = tag("pattern", stroke, id="night", width="8", height="8", patternUnits="userSpaceOnUse")
    drawn = [pattern]
    for hour, share in enumerate(dark):
        width = (slot(1) - slot(0)) * float(share)
        left = slot(hour) if hour < 12 else slot(hour + 1) - width
        drawn.append(tag("rect", x=f"{left:.1f}", y="26", width=f"{width:.1f}", height="194", fill="url(#night)"))
    return join(drawn)


def rows(design: Design, settings: Settings) -> Markup:
    """Return what each load takes out of the battery on the busiest day, the largest on top."""
    taken = [(name, wh) for name, wh in one_day(design, {}).at_battery() if wh > 0]
    shown = taken[:MOST_ROWS]
    length = Scale(0, shown[0][1], 220, 610)
    drawn = []
    for i, (name, wh) in enumerate(shown):
        top = 12 + 28 * i
        drawn += [
            word_at(own(_short(name)), 212, top + 15, "end"),
            bar_of(220, top, length(wh) - 220, 20, LOAD, "rows-line"),
            word_at(show("energy_wh", wh, settings, 3), length(wh) + 8, top + 15, "start"),
        ]
    drawn.insert(0, pattern_of("rows-line", LOAD))
    total = design.loads["battery_day_wh"]
    told = say(
        "picture.rows_said",
        first=own(shown[0][0]),
        energy=show("energy_wh", shown[0][1], settings, 3),
        all=show("battery_day_wh", total, settings, 3),
    )
    left_out = len(taken) - len(shown)
    more = f" {say('picture.rows_more', count=left_out)}" if left_out else ""
    return figure_of("rows", say("picture.rows"), told + more, 20 + 28 * len(shown), drawn)


def bank(design: Design, settings: Settings) -> Markup:
    """Return how many days the bank as built lasts, along the battery's temperature."""
    temps, days = autonomy_by_temperature(design)
    coldest, wanted = design.plan.choices.battery_temp_c, design.plan.choices.autonomy_days
    warm = float(np.clip(WARM_C, temps[0], temps[-1]))
    here, there = (float(np.interp(t, temps, days)) for t in (coldest, warm))
    top = float(max(np.max(days), wanted))
    across, height = Scale(temps[0], temps[-1], LEFT, RIGHT), Scale(0, _round_up(top), 270, 30)
    ticks = _in_unit("battery_temp_c", np.linspace(temps[0], temps[-1], 5), settings)
    drawn = [*_grid(height, settings), word_at(say("picture.bank_y"), LEFT, 16, "start")]
    for place, value in zip(np.linspace(LEFT, RIGHT, 5), ticks, strict=True):
        drawn.append(word_at(number(float(value), 3, settings), place, 288, "middle"))
    unit = settings.unit_for("battery_temp_c").symbol
    drawn.append(word_at(say("picture.bank_x", unit=unit), (LEFT + RIGHT) / 2, 308, "middle"))
    points = " ".join(f"{across(t):.1f},{height(d):.1f}" for t, d in zip(temps, days, strict=True))
    drawn += [
        _line(LEFT, height(wanted), RIGHT, height(wanted), UNMET, "7 4"),
        word_at(
            say("picture.wanted", value=show("autonomy_days", wanted, settings, 3)), RIGHT, height(wanted) + 16, "end"
        ),
        tag("polyline", points=points, fill="none", stroke=STORE.colour, stroke_width="2.5"),
        tag("circle", cx=f"{across(coldest):.1f}", cy=f"{height(here):.1f}", r="6", fill=STORE.colour),
        _here(say("picture.here", value=show("autonomy_given_days", here, settings, 3)), across(coldest), height(here)),
    ]
    told = say(
        "picture.bank_said",
        cold=show("battery_temp_c", coldest, settings, 3),
        cold_days=show("autonomy_given_days", here, settings, 3),
        warm=show("battery_temp_c", warm, settings, 3),
        warm_days=show("autonomy_given_days", there, settings, 3),
        wanted=show("autonomy_days", wanted, settings, 3),
    )
    return figure_of("bank", say("picture.bank"), told, 316, drawn)


def _here(said: str, x: float, y: float) -> Markup:
    """Return the words at the point: up and left of it, where a rising curve is not, unless the edge is near."""
    near = x < LEFT + 150
    return word_at(said, x + 10 if near else x - 8, y + 18 if near else y - 10, "start" if near else "end", bold=True)


def figure_of(key: str, title: str, told: str, height: int, drawn: Sequence[str]) -> Markup:
    """Return a picture with its title as a heading; the sentence under it is also its text for who cannot see it."""
    svg = tag(
        "svg",
        join(drawn),
        role="img",
        aria_labelledby=f"picture-{key}-title picture-{key}-said",
        viewBox=f"0 0 {WIDTH} {height}",
        font_size="13",
        font_family="system-ui, 'Segoe UI', 'DejaVu Sans', Arial, sans-serif",
        fill=TEXT,
    )
    heading = tag("h3", title, id=f"picture-{key}-title")
    return tag("figure", heading, svg, tag("figcaption", told, id=f"picture-{key}-said"))


def band_of(
    said: str, values: np.ndarray, level: float | None, ink: Ink, slot: Scale, top: float, settings: Settings
) -> Markup:
    """Return twelve bars on a scale from nothing, and a dashed line at a level."""
    high = _round_up(max(float(np.max(values)), level or 0.0))
    height = Scale(0, high, top + 112, top + 14)
    drawn = [word_at(said, LEFT, top + 4, "start"), *_grid(height, settings), pattern_of(f"months-{ink.marker}", ink)]
    for i, value in enumerate(values):
        place = height(float(value))
        drawn.append(bar_of(slot(i) + 9, place, slot(1) - slot(0) - 18, height(0) - place, ink, f"months-{ink.marker}"))
    if level is not None:
        drawn.append(_line(LEFT, height(level), RIGHT, height(level), UNMET, "7 4"))
    return join(drawn)


def _grid(height: Scale, settings: Settings) -> list[Markup]:
    """Return three level lines with their values at the left edge."""
    drawn = []
    for value in np.linspace(height.low, height.high, 3):
        place = height(float(value))
        drawn.append(tag("line", x1=f"{LEFT}", x2=f"{RIGHT}", y1=f"{place:.1f}", y2=f"{place:.1f}", stroke=GRID))
        drawn.append(word_at(number(float(value), 3, settings), LEFT - 8, place + 4, "end"))
    return drawn


def _hatch(slot: Scale, month: int, top: float, bottom: float) -> Markup:
    """Return the hatched column behind the design month."""
    stroke = tag("path", d="M0 8 L8 0", stroke="#8a8a8a", stroke_width="1")
    pattern = tag("pattern", stroke, id="design-month", width="8", height="8", patternUnits="userSpaceOnUse")
    column = tag(
        "rect",
        x=f"{slot(month - 1):.1f}",
        y=f"{top}",
        width=f"{slot(1) - slot(0):.1f}",
        height=f"{bottom - top}",
        fill="url(#design-month)",
        stroke=TEXT,
        stroke_dasharray="3 3",
    )
    return join([pattern, column])


#: Strokes of a quantity's pattern in a tile of 7 × 7.
_STROKES = {"/": "M0 7 L7 0", "\\": "M0 0 L7 7", "x": "M0 7 L7 0 M0 0 L7 7"}


def pattern_of(key: str, ink: Ink) -> Markup:
    """Return the hatch of an ink, to fill with."""
    paper = tag("rect", width="7", height="7", fill=PAPER)
    stroke = tag("path", d=_STROKES[ink.pattern], stroke=ink.colour, stroke_width="1.2")
    return tag("pattern", paper, stroke, id=key, width="7", height="7", patternUnits="userSpaceOnUse")


def bar_of(x: float, y: float, width: float, height: float, ink: Ink, pattern: str) -> Markup:
    """Return a hatched bar."""
    size = {"x": f"{x:.1f}", "y": f"{y:.1f}", "width": f"{width:.1f}", "height": f"{height:.1f}"}
    return tag("rect", fill=f"url(#{pattern})", stroke=ink.colour, stroke_width="1.5", **size)


def _line(x1: float, y1: float, x2: float, y2: float, ink: Ink, dash: str) -> Markup:
    ends = {"x1": f"{x1:.1f}", "y1": f"{y1:.1f}", "x2": f"{x2:.1f}", "y2": f"{y2:.1f}"}
    return tag("line", stroke=ink.colour, stroke_width="2", stroke_dasharray=dash, **ends)


def word_at(said: str, x: float, y: float, anchor: str, bold: bool = False) -> Markup:
    """Return words at a place, with a halo of paper round them."""
    place = {"x": f"{x:.1f}", "y": f"{y:.1f}", "text_anchor": anchor, "font_weight": "700" if bold else "400"}
    halo = {"stroke": PAPER, "stroke_width": "4", "stroke_linejoin": "round", "paint_order": "stroke"}
    return tag("text", said, **place, **halo)


def _in_unit(name: str, values: object, settings: Settings) -> np.ndarray:
    return np.asarray(settings.unit_for(name).from_canonical(np.asarray(values, float)))


def _round_up(high: float) -> float:
    """Return the next of 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten, as the top of a scale."""
    power = 10.0 ** np.floor(np.log10(high)) if high > 0 else 1.0
    return float(next(power * step for step in (1, 1.5, 2, 3, 4, 5, 6, 8, 10) if power * step >= high * (1 - 1e-9)))


def _short(name: str, most: int = 28) -> str:
    return name if len(name) <= most else name[: most - 1] + "…"
