"""The words of the form of one's own plan: what each box is called, and a plan's complaint in those words."""

import re

from offgrid_core.quantities import label_of, say
from offgrid_core.quantities.text import capital
from offgrid_core.system import drafting as draft
from offgrid_core.system.draft_file import Box

#: Boxes that are no number, or have a shorter word in the form than on the sheet.
_WORDS = {
    "title": "form.title",
    "place": "form.place",
    "name": "form.name",
    "chemistry": "form.chemistry",
    "controller": "form.controller",
    "battery_unit": "form.battery_unit",
    "module": "form.module",
    "bus": "form.bus",
    "start_factor": "form.start_factor",
}
_HEADS = {
    "[site]": "form.head_site",
    "[[load]]": "form.head_loads",
    "[choices]": "form.head_choices",
    "[owned]": "form.head_owned",
}
_KEYS = sorted({*draft.NUMBERS, *_WORDS} - {"place"}, key=len, reverse=True)
#: Where a complaint begins: a section or a row of the loads list, and a key.
_PLACE = re.compile(rf"(?P<where>\[+\w+\]+|load (?P<row>\d+)(?: \(.*?\))?)? ?(?P<key>(?:{'|'.join(_KEYS)})\b)?")
#: Further on only keys that are no everyday words, and none of a section that has no boxes.
_LATER = re.compile(rf"(?<!\[parts\] )\b(?:{'|'.join(key for key in _KEYS if '_' in key)})\b")


def label(key: str) -> str:
    """Return what a box is called, as it reads on in a sentence."""
    return say(_WORDS[key]) if key in _WORDS else label_of(draft.NUMBERS[key])


def in_words(complaint: str) -> tuple[str, Box | None]:
    """Return a complaint about a plan in the words of the form, and the box it begins with, if it does.

    Examples
    --------
    >>> in_words("[choices] depth_frac: 250 % is not allowed")
    ('Choices, depth of discharge: 250 % is not allowed', (None, 'depth_frac'))
    """
    found = _PLACE.match(complaint)
    where, key = (found["where"] or "", found["key"]) if found else ("", None)
    if found is None or (where.startswith("[") and where not in _HEADS):
        return _LATER.sub(lambda m: label(m[0]), complaint), None
    head = say(_HEADS[where]) if where in _HEADS else capital(where)
    place = ", ".join(filter(None, (head, key and label(key))))
    rest = _LATER.sub(lambda m: label(m[0]), complaint[found.end() :])
    return capital(place) + rest, (int(found["row"]) - 1 if found["row"] else None, key) if key else None
