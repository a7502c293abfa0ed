"""What the pictures of simulated years say, each in a sentence made from its numbers, and those numbers as tables."""

import numpy as np

from offgrid_core.figures import palette
from offgrid_core.figures.data_table import KWH, DataTable, date, in_kwh, short_date
from offgrid_core.quantities import Settings, show
from offgrid_core.year.explore import PLACES as ORDER
from offgrid_core.year.explore import YearView

_LOSS, _SUN, _LOAD, _STORE = palette.LOSS, palette.SUN, palette.LOAD, palette.STORE
_CALLED = {
    "spilled_year_wh": ("spilled, bank full", _SUN),
    "clipped_year_wh": ("cut by the controllers", _SUN),
    "charge_loss_year_wh": ("lost in charging", _LOSS),
    "leak_year_wh": ("lost to self-discharge", _LOSS),
    "store_grown_year_wh": ("more in store at the end", _STORE),
    "inverter_lost_year_wh": ("lost in the inverter", _LOSS),
    "dc_lost_year_wh": ("lost in DC wiring", _LOSS),
    "served_year_wh": ("served to the loads", _LOAD),
}
#: Places of the energy in their order: what each is called, and how it is drawn.
PLACES = {name: _CALLED[name] for name in ORDER}


def fell_short_at(view: YearView) -> np.ndarray:
    """Return the least charge of the days on which the load fell short in any year, as a share; ``nan`` elsewhere."""
    least, _, _ = view.band_frac
    return np.where(view.short_by_day_h.any(axis=0), least, np.nan)


def when(view: YearView, year: int, hour: int) -> str:
    """Return a date with its year, counted from 1; without the year where there is only one."""
    return date(hour) + _of_year(view, year)


def _of_year(view: YearView, year: int) -> str:
    return f" of year {year + 1}" if view.count > 1 else ""


def ribbon_sentence(view: YearView, settings: Settings) -> str:
    """Say when the bank reaches its cut-off and how long the load is off; or how near it came."""
    outage = view.outage
    if outage is None:
        year, hour = view.lowest
        totals = view.outcome.years.totals
        lowest = show("lowest_charge_frac", totals["lowest_charge_frac"][year], settings, 3)
        floor = show("lowest_charge_frac", view.cut_off_frac[year, hour], settings, 3)
        never = "The load never falls short" + (f" in {view.count} years" if view.count > 1 else "")
        return f"{never}: the charge is lowest on {when(view, year, hour)}, {lowest}, with the cut-off at {floor}."
    days = int(np.count_nonzero(view.short_by_day_h))
    row = "for 1 hour" if outage.hours == 1 else f"for {outage.hours} hours in a row"
    others = "the only day it does" if days == 1 else f"the longest outage; it falls short on {days} days"
    within = f" in {view.count} years" if view.count > 1 else ""
    begins = when(view, outage.year, outage.hour)
    return f"The bank reaches its cut-off on {begins} and the load falls short {row}, {others}{within}."


def week_sentence(view: YearView, settings: Settings) -> str:
    """Say what the loads asked and got in the week, what was spilled, and how low the charge fell."""
    seven, sums = view.week, view.week.sums
    asked, got, spilled = (
        in_kwh(float(sums[n]), settings) for n in ("wanted_year_wh", "met_year_wh", "spilled_year_wh")
    )
    lowest = show("lowest_charge_frac", view.outcome.years.charge_frac[seven.year, seven.lowest_hour], settings, 3)
    return (
        f"In the week of the lowest charge{_of_year(view, seven.year)}, from {date(seven.first_hour)}, the loads ask "
        f"for {asked} at the bank and get {got}; {spilled} is spilled, and the charge falls to {lowest} on "
        f"{date(seven.lowest_hour)}."
    )


def places_sentence(view: YearView, settings: Settings) -> str:
    """Say what came in in a mean year, and what share was served, spilled or cut, and lost on the way."""
    shares = dict(zip(view.places_wh, np.atleast_1d(view.came["place_by_row_frac"]).tolist(), strict=True))
    most = max((n for n in shares if n != "served_year_wh"), key=lambda n: shares[n])
    served, gone = (show("place_by_row_frac", shares[n], settings, 3) for n in ("served_year_wh", most))
    came = in_kwh(float(view.came["came_year_wh"]), settings)
    source = "array and generator" if "generator_year_wh" in view.came else "the array"
    return (
        f"Of {came} on offer from {source} in a mean year, {served} reaches the loads; "
        f"most of the rest, {gone}, is {PLACES[most][0]}."
    )


def sentence(view: YearView, settings: Settings) -> str:
    """Say what the three pictures say, a sentence each."""
    return " ".join(say(view, settings) for say in (ribbon_sentence, week_sentence, places_sentence))


def places_text(view: YearView, settings: Settings) -> tuple[str, ...]:
    """Return what stands at each bar."""
    shares = dict(zip(view.places_wh, np.atleast_1d(view.came["place_by_row_frac"]).tolist(), strict=True))
    return tuple(
        f"{label}: {in_kwh(view.places_wh[n], settings)}, {show('place_by_row_frac', shares[n], settings, 2)}"
        if n in shares
        else f"{label}: none"
        for n, (label, _) in PLACES.items()
    )


def ribbon_table(view: YearView, settings: Settings) -> DataTable:
    """Return the numbers of the ribbon, a row a day."""
    percent = settings.unit_for("lowest_charge_frac").from_canonical
    least, middle, most = view.band_frac
    return DataTable(
        "Lowest charge of each day",
        {
            "day": [date(24 * day) for day in range(365)],
            "least (%)": percent(least),
            "middle (%)": percent(middle),
            "most (%)": percent(most),
            f"worst year, {view.worst + 1} (%)": percent(view.outcome.years.daily_lowest_frac[view.worst]),
            "cut-off (%)": percent(view.daily_cut_off_frac),
            "years short": np.count_nonzero(view.short_by_day_h, axis=0),
        },
    )


def week_table(view: YearView, settings: Settings) -> DataTable:
    """Return the numbers of the week, a row an hour."""
    percent = settings.unit_for("lowest_charge_frac").from_canonical
    seven = view.week
    flows = {
        "array in (Wh)": "array_in_wh",
        "generator in (Wh)": "generator_in_wh",
        "served (Wh)": "served_wh",
        "not served (Wh)": "unserved_wh",
        "spilled (Wh)": "spilled_wh",
    }
    return DataTable(
        f"Week from {when(view, seven.year, seven.first_hour)}",
        {
            "hour from": [f"{date(hour)}, {hour % 24:02d}:00" for hour in seven.hours.tolist()],
            **{head: seven.along(name) for head, name in flows.items() if seven.has(name)},
            "charge (%)": percent(seven.charge_frac),
            "cut-off (%)": percent(seven.cut_off_frac),
        },
    )


def places_table(view: YearView, settings: Settings) -> DataTable:
    """Return the numbers of where the energy went; they add up to what came in, which is the last row."""
    percent = settings.unit_for("place_by_row_frac").from_canonical
    energies = [*view.places_wh.values(), float(view.came["came_year_wh"])]
    return DataTable(
        "Where the energy of a mean year went",
        {
            "place": [*(PLACES[name][0] for name in view.places_wh), "came in"],
            "energy (kWh)": KWH.from_canonical(np.array(energies)),
            "share (%)": percent(np.append(view.came["place_by_row_frac"], 1.0)),
        },
    )


def tables(view: YearView, settings: Settings) -> list[DataTable]:
    """Return the numbers of all three pictures."""
    return [make(view, settings) for make in (places_table, ribbon_table, week_table)]


def date_of_lowest(view: YearView, settings: Settings) -> str:
    """Return the lowest charge of all years with its date, short enough for a readout."""
    year, hour = view.lowest
    lowest = show("lowest_charge_frac", view.outcome.years.totals["lowest_charge_frac"][year], settings, 3)
    return f"{lowest}, {short_date(hour)}" + (f", year {year + 1}" if view.count > 1 else "")
