"""What the printed design sheet says, keyed by id; what panels and lessons share is in ``quantities.wording``.

Short sentences for the person on site: what to do, what to see, what to keep away from.
"""

TEXT: dict[str, str] = {
    # headings
    "title": "Design sheet: {title}",
    "site": "{name}, latitude {latitude}; array tilted {tilt}, facing {azimuth} clockwise from north.",
    "site_source": "Sun and temperature: {source} ({standing}).",
    "site_own": "Sun and temperature: your own numbers, as given in the plan.",
    "contents": "On this sheet",
    "loads": "Loads",
    "parts": "Parts",
    "circuits": "Main circuits",
    "wiring": "Wiring",
    "pictures": "Pictures",
    "set_points": "Set-points of the charge controller",
    "checklist": "Connecting and handing over",
    "findings": "Findings",
    "cautions": "Cautions",
    "assumed": "Assumed",
    "unchecked": "Not checked",
    "worked": "Worked lines: {part}",
    # key results
    "key.bank": "Bank",
    "key.array": "Array",
    "key.controller": "Charge controller",
    "key.inverter": "Inverter",
    "key.autonomy": "Autonomy of the bank as built",
    "key.limits": "Limits",
    "bank": "{count} × {part}: {ah} at {volts}, {energy} on the label",
    "array": "{count} × {part}: {watts}, {series} in series, {strings} in parallel",
    "counted": "{count} × {part}",
    "no_inverter": "none: there are only DC loads",
    "autonomy": "{given}, and {wanted} wanted",
    "limits_met": "All {count} limits are met.",
    "limits_broken": "{broken} of {count} limits broken: {names}.",
    # tables
    "table.results": "Key results",
    "table.loads": "What runs",
    "table.load_days": "What each load takes",
    "table.load_lines": "Loads, line by line",
    "table.lines": "{title}, line by line",
    "table.months": "Month by month: {title}",
    "table.parts": "Parts and how many",
    "table.circuits": "Circuits in short ({code})",
    "table.circuit_lines": "Main circuits, line by line",
    "table.lead_lines": "Leads of the bank, line by line: the fuse is given, and the lead follows it",
    "table.set_points": "What to type in, and what the controller then aims at",
    "table.checklist": "Tick each step in this order",
    "table.findings": "Every limit, broken ones first",
    "table.assumed": "Assumed where the plan says nothing",
    "head.line": "line",
    "head.line_across": "line and formula",
    "head.worked": "formula, then the numbers of this case",
    "head.result": "result",
    "head.rule": "standing of the rule",
    "head.month": "month",
    "head.load": "load",
    "head.bus": "bus",
    "head.windows": "only between",
    "head.part": "part",
    "head.count": "how many",
    "head.data": "standing of its data",
    "head.circuit": "circuit",
    "head.given": "given",
    "head.status": "status",
    "head.limit": "limit, with its numbers",
    "head.margin": "to spare",
    "head.severity": "if broken",
    "head.number": "step",
    "head.task": "what to do",
    "head.expected": "should be",
    "head.measured": "measured",
    "head.done": "done",
    "generator_late": (
        "The generator starts only {spare} of charge above the level at which the loads are cut: start it at least "
        "{wanted} above that level (common practice, no source)."
    ),
    "invented.kept": "our own figures, as none are published there; never credited above 1 (DOE-SPEC-3019-96)",
    "note.example": "Numbers with a name in front are of that load, the one with the largest result.",
    "note.month": "Numbers with a month in front are of that month; the others stand in the table below.",
    "note.same": "The same for every load: {listed}.",
    "design_month": "{month}, the design month",
    "mend": "mend: {mend}",
    "status.met": "met",
    "status.broken": "BROKEN",
    "severity.danger": "danger: someone is hurt",
    "severity.damage": "damage: equipment is ruined",
    "severity.service": "service: the job is done badly",
    # pictures
    "picture.months": "Load against sun, month by month",
    "picture.months_said": (
        "{month} is the design month, hatched in the picture. It has {sun} of full sun a day for a load of {load}, "
        "and asks for an array of {asked}; {built} are built."
    ),
    "picture.sun": "full sun a day ({unit})",
    "picture.load": "mean load a day ({unit})",
    "picture.asked": "array asked for ({unit}); dashed line: as built",
    "picture.design": "design month",
    "picture.rows": "Where the energy of the busiest day goes",
    "picture.rows_said": "What takes the most out of the battery is: {first}, {energy} of {all} on the busiest day.",
    "picture.rows_more": "The {count} smallest loads are left out of the picture.",
    "picture.bank": "What the bank as built still gives in the cold",
    "picture.bank_said": (
        "At {cold}, its coldest, the bank as built lasts {cold_days}. At {warm} it lasts {warm_days}. "
        "The plan wants {wanted}."
    ),
    "picture.bank_y": "days the bank lasts",
    "picture.bank_x": "battery temperature ({unit})",
    "picture.here": "coldest: {value}",
    "picture.wanted": "wanted: {value}",
    "wiring_said": "The bank as built, unit by unit, with its links, leads and fuses.",
    "not_drawn": "The bank is not drawn: {reason}.",
    "picture.hours": "The day by the clock",
    "picture.hours_said": (
        "Energy out of the battery in each hour of {month}'s busiest day. The sun is down in the hatched hours, in "
        "which {night} of it is used. The largest hour takes {most}."
    ),
    "picture.hours_y": "energy out of the battery in each hour ({unit})",
    "picture.hours_x": "hour of the day, by the sun",
    # connecting
    "stage.before": "Before anything is connected",
    "stage.connect": "Connecting: the bank before the array",
    "stage.set": "Set-points",
    "stage.charge": "First charge",
    "stage.measure": "Measured under load",
    "stage.hand": "Handing over",
    "see.manual": "as the maker's manual",
    "see.table": "as in the table of set-points",
    "see.plus": "plus on plus, minus on minus",
    "see.alike": "alike from unit to unit",
    "see.zero": "0 V",
    "see.units": "{units} in all: {series} in series, {strings} in parallel",
    "see.at_most": "at most {value}",
    "see.at_least": "at least {value}",
    "see.about": "about {value}",
    "see.above": "above {value} on each label",
    "see.under": "at most {cold}, on the coldest morning; never above {most}",
    "see.fuse": "fuse {fuse}; {cables} × {cable} a pole",
    "see.drop": "at most {drop} lost at {current}",
    "see.insulation": "at least 1 MΩ",
    "see.bank": "the bank's volts",
    "see.setting": "{volts}, {chemistry}",
    "do.papers": (
        "This sheet, the makers' manuals and the permit are on site. "
        "A licensed person has read them and leads the work."
    ),
    "do.open": "Every disconnect, breaker and fuse holder is open. Measure before touching.",
    "do.room": "The bank stands level, fixed and dry. Air moves in low and out high, and a sign names the danger.",
    "do.units": "Battery units are of one make and age. None leaks, bulges or has a crack.",
    "do.lift": "Two persons, or a hoist, lift one unit: {mass}.",
    "do.unit_volts": "Measure each unit alone, at rest, and write its volts on its lid.",
    "do.circuit": "{circuit}: fuse and cable are those of this sheet.",
    "do.plugs": (
        "The plugs of most modules take up to {most} (common practice, no source). The {cable} of the module strings, "
        "wanted for the voltage drop, begins in a box beside the modules, or at plugs made for it."
    ),
    "do.torque": "Tighten every terminal with a torque wrench to its maker's figure. Mark it with a line across.",
    "do.polarity": "Follow each cable from end to end with a meter before its second end is joined.",
    "do.insulation": (
        "Measure the insulation of the array cables to earth, with controller, bank and inverter parted from them. "
        "The figure is from IEC 62446-1, from memory; local code decides figure and test voltage."
    ),
    "do.open_volts": "Measure the open-circuit volts of each module string, at its open disconnect.",
    "do.highest": (
        "Charging in the cold brings the bank to {volts}, its highest. Is the highest voltage on the label of {whose} "
        "above that?"
    ),
    "do.highest.both": "the inverter and of every DC load",
    "do.highest.inverter": "the inverter",
    "do.highest.dc": "every DC load",
    "do.strings": (
        "Join the units to strings, then the strings side by side, with leads of one length. Measure the whole."
    ),
    "do.settings": "Tell the controller the bank's voltage and chemistry where its manual lets this be done first.",
    "do.controller": (
        "Join the controller to the bank, its fuse last. A controller that meets the array first can be ruined."
    ),
    "do.wakes": "The controller wakes and shows the volts of the bank.",
    "do.array": "Join the array to the controller with the array disconnect open. Close the disconnect last.",
    "do.inverter": (
        "Join the inverter, its fuse last and its switch off. Its capacitors draw a spark; use the maker's pre-charge."
    ),
    "do.dc": "Join the DC loads through their fuses, one circuit after another.",
    "do.apart": "Taking apart goes the other way: loads, inverter, array, and the bank last of all.",
    "do.set": "Type in the set-points. Read each one back and keep a picture of the screen.",
    "do.probe": "The temperature probe sits on a unit in the middle of the bank and reads as a thermometer there.",
    "do.acid": "Acid covers the plates before the first charge. Water is filled up only after it.",
    "do.charge": "Charge until the absorption stage ends, with no load on. Somebody stays with it.",
    "do.current": "Read the charging current at noon under a clear sky, all controllers together.",
    "do.most": "Read the charging current with every other source on as well.",
    "do.warm": (
        "Feel for warm joints after one hour, with the power off. A warm one is opened, cleaned and tightened again."
    ),
    "do.cold": "Read the temperature of the bank before it is charged.",
    "do.drop": "{circuit}: measure the volts lost there and back with the largest load on.",
    "do.start": "Start the hardest load while the others run. The inverter stays on.",
    "do.cutoff": "Read the inverter's low-voltage cut-off back from its settings.",
    "do.stops": "Open each disconnect once. What stands behind it is dead.",
    "do.shown": "The people who live with it have switched it off and on themselves, from a sheet on the wall.",
    "do.log": "A log hangs by the bank: date, volts at rest, temperature, water, whatever was done.",
    "do.known": "They know what never to do: bridge a fuse, mix old and new units, smoke near the bank.",
    "do.papers_left": "This sheet, the manuals and the measured values stay on site.",
    "signed": "Name and date: ",
    "set_points_note": (
        "Type in the volts at 25 °C where the controller compensates by itself. "
        "The volts at the battery's temperature are what a meter then shows on the coldest day."
    ),
    "set_points_rank": (
        "The battery maker's own figures go before these. "
        "A rested bank that shows less than the resting voltage at the depth limit is deeper down than planned."
    ),
    # not checked
    "unchecked.why": "This sheet is the sum of its lines. It says nothing about the following.",
    "unchecked.structure": "Whether roof, frame, ground and fixings carry the array in wind and snow.",
    "unchecked.earth": "Earthing, bonding, lightning and surge protection.",
    "unchecked.shade": "Shade, but for the shares the plan gives: nobody has surveyed the horizon.",
    "unchecked.law": "Permits, local code, insurance, and distances to doors, windows and flames.",
    "unchecked.arc": "Arc-fault, earth-fault and rapid shut-down rules.",
    "unchecked.curves": "Whether the makers' curves let the fuse nearest a fault open first.",
    "unchecked.branch": "The small circuits behind inverter and DC board, and protection against shock.",
    "unchecked.parts": "Parts are invented classroom data. The makers' sheets of the very parts decide.",
    "unchecked.weather": "Weather hour by hour: monthly means hide runs of dull days, snow and smoke.",
    "unchecked.sun": "Whether the monthly sun of the source is that of this very place.",
    "unchecked.air": "Whether the openings of the battery room stay free, and how it is heated and cooled.",
    "unchecked.life": "Upkeep and cost. A life worked out from tables is no promise.",
    "unchecked.use": "Whether people will use what the loads list says, and no more.",
    "unchecked.generator": "How a second source, such as a generator, is switched over, fenced and vented.",
    "assumed.plan": "given in the plan",
    "assumed.part": "maker's data of the part chosen",
    "assumed.critical": "a load of the plan must not fail: 1.3 to 1.4, IEEE Std 1562, from memory",
    # protection, leads, other units, growth
    "protection": "What opens a short circuit",
    "protection.circuit": "circuit",
    "protection.fuse": "size",
    "protection.volts": "highest voltage",
    "protection.rated": "DC rating",
    "protection.fault": "short-circuit current",
    "protection.opens": "interrupting rating",
    "protection.device": "device",
    "sharing": "If the leads of the bank were placed otherwise",
    "sharing.placement": "leads",
    "sharing.note": "At {current}, the most the bank is asked for. The links are assumed at {link} each.",
    "growth": "What gives way first as the load grows",
    "growth.limit": "limit",
    "growth.load": "breaks at",
    "growth.times": "{load} × the load",
    "growth.severity": "if broken",
    "growth.mend": "mend",
    "growth.note": (
        "Every load draws more, everything built stays as it is. Looked at from {low} to {high} times the load of "
        "the plan; what is not listed holds that far."
    ),
    "voltage": "The same plan at other bank voltages",
    "voltage.bank": "bank voltage",
    "voltage.chosen": "{volts}, this design",
    "voltage.current": "everything running together",
    "voltage.strings": "battery strings",
    "voltage.controllers": "controllers",
    "voltage.cable": "thickest cable",
    "voltage.cable_said": "{size}, {circuit}",
    "voltage.limits": "limits broken",
    "voltage.none_broken": "none",
    "voltage.more": "{listed}; and {count} more",
    "bank.title": "The same bank of other units",
    "bank.unit": "battery unit",
    "bank.built": "in series × strings",
    "bank.counts": "{series} × {strings}",
    "bank.none": "none",
    "bank.capacity": "capacity, at the label's hours",
    "bank.autonomy": "autonomy",
    "bank.one": "one unit",
    "bank.all": "all units",
    "bank.cost": "invented cost",
    "bank.verdict": "verdict",
    "bank.broken": "Breaks: {limit}.",
    "bank.heavy": "Two persons or a hoist lift one unit.",
    # parts that fit
    "fit.title": "Parts that fit: {plan}",
    "fit.count": "{passing} of {tried} combinations of battery unit, module, controller and inverter pass every limit.",
    "fit.order": "Fewest strings first, then fewest controllers, modules and units. Costs are invented and rank last.",
    "fit.first": "The first {count} of them:",
    "fit.stopped": "Parts that fit in no combination",
    "fit.fits": "Parts that fit",
    "fit.times": "{count} combinations",
    "fit.no_inverter": "none",
    "fit.not_judged": "Cables, fuses and ventilation are not judged here; the sheet of a single design does that.",
    # order list
    "order.piece": "piece",
    "order.cable": "cable {size}, {circuit}",
    "order.fuse": "{device}: {size}, {circuit}",
    "order.total": "priced rows together",
    "order.on_hand": "on hand; not bought",
    "order.invented": "invented price; ask your own suppliers",
    "order.unpriced": "not priced; both poles, there and back; add for bends and offcuts",
    "order.fuse_note": "invented price; local code may want one in each pole",
    "order.total_note": "invented prices; cable, frames, boxes, labour and carriage are not in it",
    # the command
    "written": "Written: {path}",
    "place.ending": "{path}: the name of {what} ends in {ending}, as in {example}",
    "place.folder": "{path}: this is a folder; {what} is a file, such as {example}",
    "place.no_folder": "{path}: there is no folder {folder} to write {what} in",
    "place.unwritten": "{path}: {what} cannot be written there ({reason})",
}


def say(key: str, **values: object) -> str:
    """Return a sentence of the sheet with its values put in, each as it is."""
    return TEXT[key].format(**values)
