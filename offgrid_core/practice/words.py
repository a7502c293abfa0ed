"""What the practice cards say, keyed by id; what other cards and panels say is in ``quantities.wording``.

A sentence speaks about the number or the step, never about the person.
"""

from offgrid_core.quantities.text import capital

TEXT: dict[str, str] = {
    "all_right": "Right: {steps}. Every step of this one stands.",
    "credit": "Right so far: {steps}.",
    "credit_of_mistake": "{quantity}: {credit}; that part stands.",
    "ask": "{quantity}, {value}: {question}",
    "ambiguous": "More than one way leads to this number; this question fits the likeliest.",
    "pair": "Two things together would give this number; here is a question about the first.",
    "again": "The same thing shows on {count} different sets of numbers now; that step is worth a closer look.",
    "carried": "{quantity} follows from your earlier step and is not held against you; it moves when that one does.",
    "inconsistent": "{quantity}: {value} does not follow from the steps above it. Which of them was it worked from?",
    "senseless": "{quantity}, {value}: could you find that on a real site, and where would it stand?",
    "moot": "{quantity} is not assessed: the step before it leaves nothing to decide there.",
    "unsafe": "Before anything is built: {label} is not kept ({worked}).",
    "steps_first": "Fill in the steps before it as well ({steps}); then the place to look shows itself.",
    "reenter": "{quantity}: {reason}.",
    "rest": "Not answered yet: {steps}.",
    "nothing": "Nothing is filled in yet. Begin with: {step}.",
    "unit": "Which unit stands in the menu beside your number, and is it the one you worked in?",
    "consequence": "What it would have meant on site: {consequence}",
    "waits": "Noted. The answers of the exit are looked at together, when all {count} are in; {left} to go.",
    "choose_one": "Choose one of the answers.",
    "chosen_right": "Yes: {because}",
    "guess_locked": "Locked: {value}. The lesson works it out; press Compare when you have its value.",
    "guess_compare": "Guessed {guess}, worked {worked}: {words}.",
    "guess_near": "that is within a quarter of it",
    "guess_high": "the guess is {ratio} times the worked value",
    "guess_low": "the worked value is {ratio} times the guess",
    "guess_first": "Lock a guess first; any honest number will do.",
    "guess_positive": "please re-enter: a guess is a number above zero",
    "slip_none": "all lines are right",
    "slip_which": "first line that is wrong",
    "slip_value": "what that line should be",
    "slip_found": "Found: {line} is the first line that goes wrong, and {value} is its right value.",
    "slip_clean": "Yes: every line follows from the one above it.",
    "slip_later": "{line} follows from the lines above it. Does everything above it agree with its own inputs?",
    "slip_earlier": "{line} agrees with its own inputs. Which later line does not?",
    "slip_not_clean": "There is one. Work each line again from its own inputs: which is the first not to agree?",
    "slip_line_only": "{line} is the first line that goes wrong. Its right value is still to be given.",
    "backwards_right": "{value} gives {result}: it meets what was wanted.",
    "backwards_ask": "With {value}, {quantity} comes to {result}, and {wanted} is wanted. {question}",
    "pick_part": "part",
    "pick_binds": "the limit with least to spare",
    "pick_margin": "margin to that limit",
    "pick_breaks": "Part {part} does not keep every limit.",
    "pick_keeps": "Part {part} keeps every limit.",
    "pick_right": "Right: part {part} keeps every limit at least cost; least to spare: {limit}.",
    "pick_dear": "Which of the parts that keep every limit costs the client least?",
    "pick_which": "Of what is compared, where is the smallest share left over?",
    "pick_how_far": "How far is the part from that limit, in that limit's own unit?",
    "help_wait": "One more try with this question first; the next help comes after it.",
    "help_principle": "The idea: {principle}",
    "help_sibling": "The same sum with other numbers:",
    "help_solution": "This one, worked:",
    "help_owed": "Press New numbers and work one without help; this one is not counted.",
    "owed": "This one was shown worked, so it is not counted. Press New numbers.",
    "verdict.right": "right",
    "verdict.carried": "follows from an earlier step",
    "verdict.senseless": "could that be?",
    "verdict.moot": "not assessed",
    "verdict.inconsistent": "does not fit the steps above",
    "verdict.mistake": "look again",
    "verdict.unit": "look at the unit",
    "verdict.unexplained": "look again",
    "verdict.reenter": "please re-enter",
    "verdict.unanswered": "",
    "verdict.locked": "locked",
    "card.check": "Check",
    "card.unit": "Unit",
    "card.compare": "Compare",
    "card.new": "New numbers",
    "card.help": "Help",
    "card.given": "given",
    "card.unsaved": "This answer could not be saved: {reason}.",
    "record.damaged": "{path} could not be read ({reason}); {kept}, and practice starts a new one.",
    "record.kept": "it was kept as {path}",
    "record.left": "it was left where it is",
    "record.unread": "{path} cannot be read ({reason}); nothing is saved until it can",
    "record.busy": "{path} is in use by another notebook; try again in a moment",
    "record.unwritten": "the folder {path} cannot be written ({reason})",
}


def say(key: str, **values: object) -> str:
    """Return a sentence of the practice cards with its values put in; one that begins with a value is capitalised."""
    said = TEXT[key].format(**values)
    return capital(said) if TEXT[key].startswith("{") else said


def listed(items: list[str]) -> str:
    """Return items as a list in a sentence."""
    return "; ".join(items)
