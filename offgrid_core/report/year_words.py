"""What the reports of the years say, keyed by id; short sentences for who has to live with the system."""

TEXT: dict[str, str] = {
    # headings
    "title": "The year, hour by hour: {title}",
    "years": "The years",
    "ribbon": "Lowest charge, week by week",
    "ribbon_days": "Lowest charge, day by day",
    "places": "Where the energy went",
    "wear": "Wear of the bank",
    "cost": "Cost over the years",
    "hand": "Beside the hand method",
    "limits": "What this weather cannot show",
    "assumed": "Assumed for the years",
    # the verdict
    "verdict.drawn": "In {count} drawn years",
    "verdict.drawn_one": "In one drawn year",
    "verdict.hours": "In {count} years of hours, {name},",
    "verdict.hours_one": "In one year of hours, {name},",
    "verdict.none": "no load was lost",
    "verdict.lost": "{lost} of the load was lost",
    "verdict.worst": "the worst year lost {worst}",
    "verdict.outage": "the longest outage was {outage}",
    "verdict.lowest": "the lowest charge, {charge}, came on {date}",
    "date": "{day} {month}",
    "date_of_year": "{day} {month} of year {year}",
    "generator": "The generator ran {ran} in a mean year and burnt {fuel} of fuel.",
    "generator.cold": (
        "Its start level of {start} is that of a warm bank: in the cold it moves up, as the charge does at which the "
        "loads are cut. So it ran though the charge never fell below {lowest}."
    ),
    # years
    "longest_outage_h": "longest outage",
    "lowest_on": "lowest on",
    "head.year": "year",
    "head.quantity": "in a year",
    "head.one": "the year",
    "head.least": "least",
    "head.middle": "middle",
    "head.most": "most",
    "short.unserved_year_wh": "energy not served",
    "short.loss_energy_frac": "load lost, by energy",
    "short.loss_hours_frac": "load lost, by hours",
    "short.short_year_h": "hours in which it fell short",
    "short.longest_outage_h": "longest outage",
    "short.lowest_charge_frac": "lowest charge",
    "short.spilled_frac": "array's energy spilled or cut",
    "short.generator_ran_h": "generator ran",
    "short.generator_fuel_l": "fuel",
    "table.spread": "The years from least to most",
    "table.years": "Year by year",
    "note.fell_short": "An hour falls short where the loads get less than they ask for, even a little less.",
    "note.more_years": "Beyond {most} years they are not listed one by one here; they are in the JSON.",
    # ribbon
    "ribbon.worst": "lowest of all years",
    "ribbon.middle": "middle of the years",
    "ribbon.only": "the year",
    "ribbon.scale": (
        "One block a week, January first; a full block is a full bank. The loads are cut off once {depth} of it is "
        "used, sooner in the cold."
    ),
    # places
    "place.served_year_wh": "delivered to the loads",
    "place.inverter_lost_year_wh": "lost in the inverter",
    "place.dc_lost_year_wh": "lost in the wiring of the DC loads",
    "place.charge_loss_year_wh": "lost in charging",
    "place.leak_year_wh": "lost to self-discharge",
    "place.spilled_year_wh": "spilled, the bank being full",
    "place.clipped_year_wh": "cut by the controllers",
    "place.store_grown_year_wh": "more in store at the end of the year",
    "place.came_year_wh": "came in: what the array could pass on",
    "place.came_both_year_wh": "came in: what the array could pass on, and the generator's charger",
    "head.place": "in a mean year",
    "head.energy": "energy",
    "head.share": "share",
    "note.places": "What the array could pass on is counted after heat, dirt, and losses in cables and controllers.",
    "note.closes": ("Every hour of every year adds up: {residual} of a day's energy is missing, which is rounding."),
    "closes.least": "less than a millionth",
    "closes.most": "at most {residual}",
    # wear
    "head.wears": "the bank",
    "head.result": "result",
    "head.depth": "depth of the cycle",
    "head.cycles": "cycles a year",
    "head.wear": "share of the life a year",
    "depth": "{low} to {high}",
    "depth.all": "all together",
    "table.depths": "Cycles counted in the charge of the bank, by depth",
    "table.wear": "How long the bank lasts",
    "wear.cycles": "The cycles wear the bank out before its years do: a new one after {life}.",
    "wear.calendar": "Its years end the bank before its cycles do: a new one after {life}.",
    "wear.replaced": "Within {horizon} that is {count}.",
    "wear.replaced_one": "one new bank",
    "wear.replaced_many": "{count} new banks",
    "wear.replaced_none": "no new bank",
    "note.wear": (
        "Wear by counted cycles compares designs; it promises nothing. Hours spent low hurt a real bank too; they are "
        "not counted."
    ),
    # cost
    "head.cost": "in today's money",
    "head.amount": "amount",
    "cost.taken_off": "{label}, taken off",
    "table.cost": "What it costs over {horizon}",
    "note.cost": "Prices are invented classroom data and the rates are assumptions. Put in your own before you decide.",
    # the hand method
    "head.beside": "quantity",
    "head.hand": "by hand",
    "head.followed": "in the years",
    "hand.autonomy": "days of autonomy, at most used",
    "hand.wanted": "days of autonomy wanted",
    "hand.life": "life of the bank",
    "hand.generator": "hours of the generator in a year",
    "hand.fuel": "fuel in a year",
    "hand.said": (
        "By hand the bank lasts {given} without any sun, in the cold, on the load of the hardest day. The hardest "
        "spell here took as much out of it as {used} of that load."
    ),
    "hand.warmer": "It could give more than by hand because it was not at its coldest then.",
    "hand.helped": "The generator helped.",
    "hand.cut": "Load was lost all the same: the bank had nothing more to give when it was asked.",
    "hand.overload": "The loads asked the inverter for {energy} a year beyond its rating, which no bank can serve; "
    "that is not among the load lost.",
    # weather and assumptions
    "weather.place": "The hours are of {hours_latitude}; the site of the plan lies at {site_latitude}.",
    "head.assumed": "assumed",
    "head.value": "value",
    "head.standing": "standing",
    "assumed.plan": "given in the plan",
    # pictures
    "picture.ribbon": "Lowest charge of every day",
    "picture.ribbon_said": (
        "One row a year, one cell a day; the darker, the lower the charge fell. The lowest, {lowest}, came on {date}. "
        "{below} of {days} days went below half charge{mostly}. At the right: hours short."
    ),
    "picture.mostly": ", more in {month} than in any other month",
    "picture.first_years": "The first {count} years are drawn.",
    "picture.year": "year",
    "picture.short": "short",
    "picture.charge": "lowest charge",
    "picture.places": "Where the energy of a mean year went",
    "picture.places_said": (
        "Of {came} that came in, {served} reached the loads. The most of the rest, {most}, went here: {place}."
    ),
    "picture.months": "Energy by month",
    "picture.months_said": (
        "The array could pass on the least in {month}, {offer}, when the loads got {met}. "
        "Not served in a mean year: {unserved}."
    ),
    "picture.offer": "array could pass on ({unit})",
    "picture.met": "given to the loads, losses of inverter and wiring included ({unit})",
    "picture.spilled": "spilled ({unit})",
    "picture.unserved": "not served ({unit})",
    # side by side
    "compare.title": "Side by side: {names}",
    "compare.through": "Each through {weather}.",
    "compare.head": "quantity",
    "compare.same": "Compare costs only where about the same energy is served.",
    "compare.reverses": "What would reverse the choice",
    "compare.cheapest": "{cheapest} costs the least over {horizon}.",
    "compare.unlike": (
        "These designs are not ranked by cost: they serve different loads, from {least} to {most} in a mean year."
    ),
    "compare.equal": "{one} and {other} cost the same.",
    "compare.turned": "{other} gets cheaper than {cheapest} with {moved} at {value}; it is {now} now.",
    "compare.never": "Against {other}: no {moved} from {low} to {high} reverses it.",
    "compare.differ": "Against {other}: {moved} differs between the plans, so it was not moved.",
    "compare.tornado": "What moves the cost of {name}",
    "compare.input": "input",
    "compare.from": "from",
    "compare.to": "to",
    "compare.costs": "costs",
    "compare.steps": "In steps: {listed}. In between, a replacement may come or go.",
    "compare.title_row": "plan",
    "compare.bank": "bank",
    "compare.array": "array",
    "compare.mean_lost": "load lost, by energy, mean year",
    "compare.worst_lost": "load lost, by energy, worst year",
    "compare.mean_short": "hours short, mean year",
    "compare.outage": "longest outage",
    "compare.lowest": "lowest charge",
    "compare.spilled": "array's energy spilled or cut, mean year",
    "compare.ran": "generator ran, mean year",
    "compare.fuel": "fuel, mean year",
    "compare.wear": "share of the bank's life used up in a year",
    "compare.life": "life of the bank",
    # the command
    "told.years": "{done} of {wanted} years",
    "stopped": "Stopped; no file was left half written.",
    "typed.whole": "{option} {typed}: a whole number from {low} to {high} is allowed",
    "typed.number": "{option} {typed}: a number of degrees such as 46.5 or -71.2 is allowed",
    "typed.json_report": "--json and --report: one of the two is allowed, not both",
    "typed.hours": "{option}: with --hours there are as many years as the file has; leave {option} out",
    "typed.place": "{option}: a place is allowed only with --hours",
    "typed.plans": "compare: 2 to 4 plan files are allowed, not {count}",
    "typed.twice": "compare: {typed} is there twice; plan files that differ are allowed",
}


def say(key: str, **values: object) -> str:
    """Return a sentence of the reports with its values put in, each as it is."""
    return TEXT[key].format(**values)
