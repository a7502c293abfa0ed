"""A design followed through its years, in sentences and in rows of text: terminal and page read these."""

from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np

from offgrid_core.quantities import Settings, label_of, menu, show
from offgrid_core.quantities.text import capital, number
from offgrid_core.report.year_run import DEPTHS, WEAR, Run, assumed, by_hand
from offgrid_core.report.year_words import say
from offgrid_core.sizing.cost import COST
from offgrid_core.system.assumptions import YEARS_ASSUMPTIONS

Rows = list[list[str]]
COSTS = (
    "first_cost",
    "bank_replaced_cost",
    "controllers_replaced_cost",
    "inverter_replaced_cost",
    "generator_replaced_cost",
    "array_replaced_cost",
    "upkeep_cost",
    "fuel_cost",
    "salvage_cost",
    "life_cycle_cost",
    "year_cost",
    "kwh_cost",
)
#: More years than this are not listed one by one.
MOST_LISTED = 40
#: Energies are shown in kWh where the most of a table is at least this.
KWH_FROM_WH = 10_000
_NOISE = 1e-12
_MILLIONTH = 1e-6


# ---- in a sentence


def verdict(run: Run, settings: Settings) -> str:
    """Return in one sentence what share of the load was lost, and how low the bank came."""
    name, one = run.outcome.weather.name, "_one" if run.count == 1 else ""
    begun = say(f"verdict.{'hours' if run.seed is None else 'drawn'}{one}", count=number(run.count, 9), name=name)
    lost, said = run.by_year["loss_energy_frac"], [say("verdict.none")]
    if np.any(lost > 0):
        said = [say("verdict.lost", lost=show("loss_energy_frac", run.outcome.mean("loss_energy_frac"), settings, 2))]
        if run.count > 1:
            said.append(say("verdict.worst", worst=show("loss_energy_frac", np.max(lost), settings, 2)))
        longest = np.max(run.by_year["longest_outage_h"])
        said.append(say("verdict.outage", outage=show("longest_outage_h", longest, settings, 3)))
    charge = show("lowest_charge_frac", np.min(run.by_year["lowest_charge_frac"]), settings, 2)
    said.append(say("verdict.lowest", charge=charge, date=lowest_date(run)))
    return f"{begun} {'; '.join(said)}."


def lowest_date(run: Run) -> str:
    """Return when the charge was lowest of all."""
    year = run.outcome.years.lowest_hour[0]
    return date(run, year) if run.count == 1 else date_of_year(run, year)


def date(run: Run, year: int) -> str:
    """Return the day of the lowest charge of a year, counted from 0."""
    month, day = run.dates[year]
    return say("date", day=day, month=show("design_month", month))


def date_of_year(run: Run, year: int) -> str:
    """Return the day of the lowest charge of a year, counted from 0, and which year it is."""
    month, day = run.dates[year]
    return say("date_of_year", day=day, month=show("design_month", month), year=year + 1)


def generator_said(run: Run, settings: Settings) -> list[str]:
    """Return how long the generator ran; nothing where there is none."""
    if not run.has_generator:
        return []
    ran, fuel = (show(n, run.outcome.mean(n), settings, 2) for n in ("generator_ran_h", "generator_fuel_l"))
    start, lowest = run.design.given["generator_start_frac"], np.min(run.by_year["lowest_charge_frac"])
    said = [say("generator", ran=ran, fuel=fuel)]
    if lowest > start and np.any(run.by_year["generator_ran_h"] > 0):
        shown = {
            "start": show("generator_start_frac", start, settings),
            "lowest": show("lowest_charge_frac", lowest, settings, 2),
        }
        said.append(say("generator.cold", **shown))
    return said


def closes(run: Run, settings: Settings) -> str:
    """Return how well the hours add up."""
    residual = float(np.max(run.outcome.years.totals["residual_frac"]))
    told = say("closes.least" if residual < _MILLIONTH else "closes.most", residual=number(residual, 2, settings))
    return say("note.closes", residual=told)


def ended_by(run: Run, settings: Settings) -> str:
    """Return what ends the life of the bank, and how many new ones the horizon sees."""
    wear, cost = run.outcome.wear, run.outcome.cost
    key = "wear.cycles" if wear["cycle_life_years"] < wear["calendar_life_years"] else "wear.calendar"
    count = round(float(cost["bank_replaced_count"]))
    replaced = say(("wear.replaced_none", "wear.replaced_one", "wear.replaced_many")[min(count, 2)], count=count)
    life = show("bank_life_years", wear["bank_life_years"], settings, 3)
    return f"{say(key, life=life)} {say('wear.replaced', horizon=horizon(run, settings), count=replaced)}"


def horizon(run: Run, settings: Settings) -> str:
    """Return over how many years the costs are counted."""
    return show("horizon_years", run.outcome.cost["horizon_years"], settings)


def hand_said(run: Run, settings: Settings) -> str:
    """Return the days of autonomy by hand against what the years took out of the bank."""
    given = show("autonomy_given_days", run.design.system["autonomy_given_days"], settings, 3)
    used = show("autonomy_used_days", np.max(run.autonomy_used_days), settings, 3)
    said = [say("hand.said", given=given, used=used)]
    said += [say("hand.warmer")] if _beyond_the_hand_method(run) else []
    said += [say("hand.helped")] if run.has_generator and np.any(run.by_year["generator_ran_h"] > 0) else []
    said += [say("hand.cut")] if np.any(run.by_year["unserved_year_wh"] > 0) else []
    beyond = run.outcome.mean("overload_year_wh") if run.outcome.hours.has_inverter else 0.0
    said += [say("hand.overload", energy=energy(beyond, settings, beyond))] if beyond > 0 else []
    return " ".join(said)


def ribbon_scale(run: Run, settings: Settings) -> str:
    """Return how to read the ribbon, and where the loads are cut off."""
    return say("ribbon.scale", depth=show("depth_frac", run.design.system["depth_frac"], settings))


def place_said(run: Run, settings: Settings) -> list[str]:
    """Return where the hours of a file are from, beside where the plan's site lies; nothing of drawn years."""
    if run.latitude_deg is None:
        return []
    at = {"hours_latitude": run.latitude_deg, "site_latitude": run.design.site.latitude_deg}
    return [say("weather.place", **{key: show("latitude_deg", value, settings, 3) for key, value in at.items()})]


def _beyond_the_hand_method(run: Run) -> bool:
    """Return whether the bank gave more than by hand at an hour when it was warmer than the hand method takes it."""
    system, at = run.design.system, run.outcome.years.lowest_hour
    warmer = run.outcome.hours.by_hour["battery_by_hour_c"][at] > system["battery_temp_c"]
    return bool(warmer and np.max(run.autonomy_used_days) > system["autonomy_given_days"])


def money(name: str, value: float, currency: str, settings: Settings) -> str:
    """Return an amount of money with the plan's currency, or else the reader's."""
    return f"{show(name, value, replace(settings, currency=''))} {currency or settings.currency}".strip()


# ---- in rows


def spread_rows(run: Run, settings: Settings) -> Rows:
    """Return each quantity of a year with its least, its middle and its most; of a single year the value."""
    picks: dict[str, Any] = {"least": np.min, "middle": np.median, "most": np.max}
    picks = picks if run.count > 1 else {"one": np.max}
    rows = [[say("head.quantity"), *(say(f"head.{key}") for key in picks)]]
    for n, values in run.by_year.items():
        shown = partial(energy, most=np.max(values)) if n.endswith("_wh") else partial(told, n)
        rows.append([capital(say(f"short.{n}")), *(shown(pick(values), settings=settings) for pick in picks.values())])
    return rows


def year_rows(run: Run, settings: Settings) -> Rows:
    """Return the years one by one, with the day of the lowest charge; nothing where there is one, or a great many."""
    if not 1 < run.count <= MOST_LISTED:
        return []
    listed = [n for n in run.by_year if n not in ("unserved_year_wh", "loss_hours_frac")]
    at = listed.index("lowest_charge_frac") + 1
    heads = [say(f"short.{n}") for n in listed]
    rows = [[say("head.year"), *heads[:at], say("lowest_on"), *heads[at:]]]
    for year in range(run.count):
        cells = [told(n, run.by_year[n][year], settings) for n in listed]
        rows.append([str(year + 1), *cells[:at], date(run, year), *cells[at:]])
    return rows


def years_notes(run: Run) -> list[str]:
    """Return what to know about the years, and where they are if they are too many to list."""
    more = [say("note.more_years", most=MOST_LISTED)] if run.count > MOST_LISTED else []
    return [say("note.fell_short"), *more]


def place_rows(run: Run, settings: Settings) -> Rows:
    """Return where the energy of a mean year went; the last row is what came in."""
    solved = run.places
    rows = [[say("head.place" if run.count > 1 else "head.one"), say("head.energy"), say("head.share")]]
    shown = partial(energy, settings=settings, most=solved["came_year_wh"])
    for n, wh, share in zip(run.place_names, solved["place_by_row_wh"], solved["place_by_row_frac"], strict=True):
        rows.append([capital(say(f"place.{n}")), shown(wh), told("place_frac", share, settings)])
    came = "place.came_both_year_wh" if run.has_generator else "place.came_year_wh"
    return [*rows, [capital(say(came)), shown(solved["came_year_wh"]), show("place_frac", 1.0, settings)]]


def told(name: str, value: float, settings: Settings, figures: int = 3) -> str:
    """Return a value of a year; the rounding of the computer in a sum that comes to nothing is nothing."""
    return show(name, 0.0 if abs(value) < _NOISE else value, settings, figures)


def energy(wh: float, settings: Settings, most: float) -> str:
    """Return an energy of a year or a month, in kWh where the most of its table asks for it."""
    symbol = "kWh" if most >= KWH_FROM_WH else "Wh"
    unit = next(u for u in menu("energy_wh") if u.symbol == symbol)
    kept = 0.0 if abs(wh) < _NOISE * most else float(unit.from_canonical(wh))
    return f"{number(kept, 4, settings)} {symbol}"


def depth_rows(run: Run, settings: Settings) -> Rows:
    """Return the cycles of a year by their depth, and what share of the life they use up."""
    rows = [[say("head.depth"), say("head.cycles"), say("head.wear")]]
    counts, wears = run.depths.values()
    ends = [show("cycle_depth_frac", x, settings) for x in DEPTHS]
    for low, high, count, wear in zip(ends[:-1], ends[1:], counts, wears, strict=True):
        if count:
            cells = [number(float(count), 3, settings), show("wear_year_frac", wear, settings, 3)]
            rows.append([say("depth", low=low, high=high), *cells])
    whole = show("wear_year_frac", run.outcome.wear["wear_year_frac"], settings, 3)
    return [*rows, [capital(say("depth.all")), "", whole]]


def wear_rows(run: Run, settings: Settings) -> Rows:
    """Return how long the bank lasts by its cycles, by the calendar, and at all."""
    wear = run.outcome.wear
    rows = [[say("head.wears"), say("head.result")]]
    return rows + [[capital(wear.sheet[n].label), show(n, wear[n], settings, 3)] for n in WEAR]


def cost_rows(run: Run, settings: Settings) -> Rows:
    """Return what the design costs over the years; what costs nothing is left out."""
    cost, currency = run.outcome.cost, run.design.plan.currency
    rows = [[say("head.cost"), say("head.amount")]]
    for n in COSTS:
        if cost[n]:
            label = say("cost.taken_off", label=COST[n].label) if n == "salvage_cost" else COST[n].label
            rows.append([capital(label), money(n, cost[n], currency, settings)])
    return rows


def hand_rows(run: Run, settings: Settings) -> Rows:
    """Return what the hand method said, and what the years show, beside each other."""
    outcome, found = run.outcome, by_hand(run.design)
    beside = [
        ("hand.wanted", "autonomy_days", None, None),
        ("hand.autonomy", "autonomy_given_days", "autonomy_used_days", np.max(run.autonomy_used_days)),
        ("hand.life", "bank_life_years", "bank_life_years", outcome.wear["bank_life_years"]),
    ]
    if run.has_generator:
        beside += [
            ("hand.generator", "generator_year_h", "generator_ran_h", outcome.mean("generator_ran_h")),
            ("hand.fuel", "fuel_year_l", "generator_fuel_l", outcome.mean("generator_fuel_l")),
        ]
    rows = [[say("head.beside"), say("head.hand"), say("head.followed")]]
    for key, hand, name, value in beside:
        said = show(hand, found[hand], settings, 3) if hand in found else "–"
        rows.append([capital(say(key)), said, show(name, value, settings, 3) if name else "–"])
    return rows


def assumption_rows(run: Run, settings: Settings) -> Rows:
    """Return what was assumed for the years, each with its standing."""
    rows = [[say("head.assumed"), say("head.value"), say("head.standing")]]
    for n, value in assumed(run).items():
        about = YEARS_ASSUMPTIONS[n]
        standing = " · ".join(filter(None, (about.standing, about.source)))
        said = say("assumed.plan") if n in run.design.plan.assume else standing
        shown = money(n, value, run.design.plan.currency, settings) if n.endswith("_cost") else show(n, value, settings)
        rows.append([label_of(n), shown, said])
    return rows
