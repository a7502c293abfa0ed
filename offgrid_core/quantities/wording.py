"""What a learner reads outside the lessons: one catalogue, keyed by id, so that it can be checked and translated.

Plain words for a twelve-year-old, plus the trade's own. A sentence speaks about the number or the step,
never about the person: no praise, no blame.
"""

from string import Formatter

from offgrid_core.errors import OffgridError

TEXT: dict[str, str] = {
    "panel.pin": "Pin this setting",
    "panel.unpin": "Remove the pins",
    "panel.reset": "Back to the first setting",
    "panel.more": "More inputs",
    "panel.held": "The sliders wait for the prediction above: lock one, any one, and they move.",
    "panel.missing": "The picture has not come yet. If its axes stay empty, run this cell once more.",
    "panel.problem": "This setting has no answer: {reason}. The picture still shows the last one that had.",
    "form.head_site": "The place",
    "form.head_loads": "The loads list",
    "form.head_choices": "Choices",
    "form.head_owned": "Already on hand",
    "form.title": "title of the sheet",
    "form.place": "place",
    "form.own": "my own numbers",
    "form.name": "its name",
    "form.twelve": "twelve numbers, January first, a blank between",
    "form.twelve_point": "twelve numbers are wanted, January first, parted by blanks, semicolons or comma and blank",
    "form.twelve_comma": "twelve numbers are wanted, January first, parted by blanks or semicolons",
    "form.load": "load",
    "form.bus": "AC or DC",
    "form.start_factor": "start factor (surge)",
    "form.add": "Add a row",
    "form.remove": "Remove",
    "form.remove_row": "Remove the row {row}",
    "form.chemistry": "kind of battery",
    "form.suggest": "let the loads decide",
    "form.controller": "charge controller",
    "form.tracking": "tracking",
    "form.direct": "direct",
    "form.none": "nothing",
    "form.battery_unit": "battery units",
    "form.module": "modules",
    "form.saved": "Saved in {path}.",
    "form.comes_to": "It comes to {energy_day_wh} on the hardest day, a bank of {bank_ah} at {bank_voltage_v} "
    "and an array of {array_w}.",
    "form.broken": "Limits broken: {broken} of {count}; the table “Every limit” names them.",
    "form.no_broken": "No limit is broken.",
    "form.unsized": "Saved in {path}, but it cannot be sized: {reason}.",
    "form.begun": "A first draft; the first change saves it as your own.",
    "form.wanting": "Not saved as a plan yet, but kept: {reason}.",
    "form.read_again": "The file was changed elsewhere meanwhile and was read again.",
    "form.gave_way": "Its entries replace what was typed here: {typed}.",
    "form.file_broken": (
        "The file was changed elsewhere and is no plan now, so nothing is written into it; what is typed here is kept: "
        "{reason}."
    ),
    "form.unwritten": "Nothing could be saved in {path}: {reason}",
    "site.kept": "Written into {path}: {choices}. Run the cells above once more to see it everywhere.",
    "site.report": "Written: [{path}]({path}). A click opens it here; print it from a browser.",
    "site.order": "Written: [{path}]({path}). A click opens it here as a table; it is made for a spreadsheet.",
    "findings.met": "kept",
    "findings.broken": "BROKEN",
    "findings.limit": "limit",
    "findings.kept": "kept?",
    "findings.worked": "with these numbers",
    "findings.margin": "to spare",
    "findings.mend": "what would mend it",
    "findings.title": "Limits of {title}: {broken} of {count} broken",
    "site.first": "Nothing was saved as your own plan yet; one change in the form above does it.",
    "caution.design_exercise": "Design exercise. Local code and a licensed person decide.",
    "caution.battery": (
        "Batteries give thousands of amperes into a spanner or a ring. Metal off hands and neck, insulated tools, "
        "eye protection, and water close by for acid in the eyes."
    ),
    "caution.dc": (
        "A DC arc does not go out by itself. Open the DC disconnect, wait, and measure zero volts before touching. "
        "An array in daylight cannot be switched off."
    ),
    "caution.lifting": (
        "A battery can weigh more than a person should lift alone. Two people or a hoist, and keep it level. "
        "On a roof, work tied on."
    ),
    "caution.cold": (
        "A cold battery still gives its full short-circuit current. One that is low and frozen can burst: "
        "warm it before charging."
    ),
    "caution.gas": (
        "A charging battery gives off hydrogen, which explodes. No flame, spark or switch above it, and air that moves "
        "from low to high."
    ),
    "caution.midwinter_sun": (
        "Beyond {latitude} of latitude, midwinter sun worked out from the mean day of each month can come out a third "
        "too high or more. That is the method here; years drawn hour by hour come out too low instead. "
        "No winter load should rest on either: use an hourly record, or plan a backup."
    ),
    "strings.one": "One string is best: every unit carries the same current.",
    "strings.two": "Two strings are usual: equal leads, or leads at opposite corners, keep them even.",
    "strings.three": "Three strings will do at a pinch: bus bars with equal leads keep them even.",
    "strings.more": (
        "{count} strings are too many to share evenly: take a unit with more amp-hours, or a higher bank voltage."
    ),
    "strings.not_whole": "Not a bank: whole units of {unit} in series do not make {bank}.",
    "wiring.title": "Wiring of a {voltage} bank of {unit} units: {series} in series, {strings} in parallel",
    "wiring.string": "String {number}",
    "wiring.alone": "Here a string is one unit, without links.",
    "wiring.links": "In each string links go from the + of a unit to the − of the next. Links in each string: {count}.",
    "wiring.one": "With one string, its ends are the + and the − of the bank.",
    "wiring.bus_bars": (
        "Every string has leads of its own to the + bus bar and the − bus bar, all of one length and size. "
        "The main leads leave at the middle of the bars."
    ),
    "wiring.diagonal": (
        "Neighbouring strings are joined + to + and − to −. The main lead + leaves at string 1, "
        "the main lead − at string {last}, the opposite corner."
    ),
    "wiring.string_fuses": "Fuse at the + end of each string, close to the unit: {size}.",
    "wiring.main_fuse": "Main fuse at the + of the bank, before anything else: {size}.",
    "wiring.size_open": "size not given",
    "wiring.bar": "bus bar {sign}",
    "wiring.rail": "links {sign}",
    "wiring.main": "main fuse",
    "caution.fault": (
        "A fuse or breaker is made for DC, for this voltage and for this short-circuit current. "
        "One that is not can burst, or burn on after it opens. It stands close to the battery."
    ),
    "caution.lfp": (
        "An LFP battery gives off no gas in normal use. One that is damaged or overcharged vents gas that burns and "
        "poisons: leave and call the fire service."
    ),
    "caution.generator": (
        "Exhaust kills without a smell. Run a generator outdoors, away from windows and battery openings. "
        "Refuel only when it is stopped and cool. A changeover switch keeps its power out of other wires."
    ),
    "protection.selective": (
        "The string fuses together are {ratio} times the largest fuse after them, so that fuse opens first."
    ),
    "protection.not_selective": (
        "The string fuses together are {ratio} times the largest fuse after them. Below {wanted} nobody can say which "
        "opens first."
    ),
    "protection.fuse_each_string": (
        "Each module string needs a fuse: the others can push {current} back into it, and a module stands {most}."
    ),
    "protection.no_fuse_each_string": (
        "The module strings need no fuse of their own: the others push back {current} at most, and a module stands "
        "{most}."
    ),
    "reading.not_text": "please re-enter: a number is read from text of at most {most} characters",
    "reading.long": "please re-enter: at most {most} characters are read, and this has {count}",
    "reading.empty": "please re-enter: the box is empty; allowed is a number such as {example}",
    "reading.hidden": "please re-enter by typing: {text} has a hidden character in it; allowed is {example}",
    "reading.digits": "please re-enter with the digits 0 to 9: {text} has digits of another script",
    "reading.not_number": (
        "please re-enter: {text} is not read as one number; allowed are digits and one decimal mark, such as {example}"
    ),
    "reading.ambiguous": "please re-enter: {text} can be read in two ways, as {whole} or as {parted}",
    "reading.too_many_digits": "please re-enter: {text} has {count} digits that count; at most {most} are read",
    "reading.unit": "please re-enter: {text} is not a unit of this quantity; allowed: {allowed}",
    "reading.no_unit": "please re-enter: this is a plain number without a unit, and {text} stands after it",
    "reading.two_units": "please re-enter: the menu says {chosen} and the number says {text}; use one unit",
    "reading.gauge": "please re-enter: {text} is not a wire gauge; allowed: 4/0, 3/0, 2/0, 1/0 and 1 to 40 AWG",
    "settings.allowed": "settings: {field} is one of {allowed}, not {value}",
    "settings.currency": (
        "settings: currency is a label of at most {most} characters, not {value}; no digit, no < > &, no space at an "
        "end, no sign or mark in front"
    ),
    "settings.damaged": "{path} could not be read as settings ({reason}); {kept}, and the usual settings are used",
    "settings.kept": "it was kept as {path}",
    "settings.left": "it was left where it is",
    "settings.unwritten": "the settings could not be saved in {path}: {reason}",
    "value.none": "not given",
    "value.nan": "not a number",
    "value.yes": "yes",
    "value.no": "no",
    "value.empty": "no values",
    "value.many": "{first} … {last}{unit} ({count} values)",
    "wire.gauge_note": "bigger number = thinner wire",
    "wire.between": "between {thin} and {thick}",
    "month.1": "January",
    "month.2": "February",
    "month.3": "March",
    "month.4": "April",
    "month.5": "May",
    "month.6": "June",
    "month.7": "July",
    "month.8": "August",
    "month.9": "September",
    "month.10": "October",
    "month.11": "November",
    "month.12": "December",
}


def say(key: str, **values: object) -> str:
    """Return a sentence of the catalogue with its values put in.

    Parameters
    ----------
    key
        Id of the sentence in :data:`TEXT`.
    **values
        One for each place held open in the sentence. A value is put in as it is, never read as a sentence.

    Raises
    ------
    OffgridError
        If there is no such id, or a value is missing or left over.

    Examples
    --------
    >>> say("panel.problem", reason="no sun")
    'This setting has no answer: no sun. The picture still shows the last one that had.'
    """
    if key not in TEXT:
        raise OffgridError(f"wording: there is no sentence {key!r}")
    wanted = places(key)
    if wanted != set(values):
        raise OffgridError(f"wording: {key} takes {_listed(wanted)}, not {_listed(set(values))}")
    return TEXT[key].format(**values)


def places(key: str) -> set[str]:
    """Return the names of the places held open in a sentence."""
    return {field for _, field, _, _ in Formatter().parse(TEXT[key]) if field}


def _listed(names: set[str]) -> str:
    return ", ".join(sorted(names)) or "no values"
