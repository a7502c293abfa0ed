"""Turning what is wrong in a plan into one sentence: the place, the value, what is allowed."""

import re
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from offgrid_core.data.reading import nearest
from offgrid_core.system.fields import shown


def sentence_for(error: ValidationError, entries: dict[str, Any], model: type[BaseModel]) -> str:
    """Return one sentence for the first thing that is wrong; a key nobody knows comes first.

    A misspelt key also leaves the right one missing, and "missing" alone would send its writer looking.
    """
    found = error.errors(include_url=False)
    first = next((e for e in found if e["type"] == "extra_forbidden"), found[0])
    place = tuple(first["loc"])
    key_is_in_sentence = first["type"] == "offgrid" and len(place) == 1 and _is_section(str(place[0]), model)
    return f"{_place(place, entries, model)}{'' if key_is_in_sentence else ':'} {_said(first, place, model)}"


def unknown_key(key: str, known: list[str]) -> str:
    """Return why a key cannot stand where it stands."""
    from offgrid_core.sizing import LOADS, VOLTAGE, chain
    from offgrid_core.sizing.circuits import MAIN_CIRCUITS

    sheets = (
        LOADS,
        VOLTAGE,
        chain(equalize=True, cold_table=True, acid=True, enclosure=True),
        chain("ieee1013"),
        MAIN_CIRCUITS,
    )
    if any(key in sheet for sheet in sheets):
        return "this is worked out by the worksheet and cannot be set in a plan"
    return f"there is no such key here; {nearest(key, known)}"


def toml_sentence(complaint: str, text: str) -> str:
    """Return one sentence for text that is not TOML: the line, what stands there, what is allowed."""
    where = re.search(r"\(at line (\d+), column \d+\)", complaint)
    if not where:
        return "the file ends too soon; every quotation mark and bracket needs its closing one"
    number = int(where[1])
    line = text.splitlines()[number - 1 : number]
    return f"line {number}: {shown(line[0].strip() if line else '')} cannot be read; {_toml_hint(complaint, line)}"


def _toml_hint(complaint: str, line: list[str]) -> str:
    if line and re.search(r"=\s*[-+]?\d+,\d", line[0]):
        return "numbers take a decimal point, as in 3.5, not a comma"
    if "Cannot overwrite" in complaint or "Cannot declare" in complaint:
        return "it was already given above, and each key and section is allowed once (loads: [[load]])"
    return "a plan has lines such as hours_h = 3.5, with text in quotes, under sections such as [site]"


def _said(first: ErrorDetails, place: tuple[Any, ...], model: type[BaseModel]) -> str:
    """Return what is wrong and what is allowed."""
    found, allowed = shown(first["input"]), first.get("ctx", {})
    match first["type"]:
        case "offgrid":
            return str(allowed["sentence"])
        case "extra_forbidden":
            return unknown_key(str(place[-1]), _keys_at(place[:-1], model))
        case "missing":
            return "it is missing; a plan needs it"
        case "literal_error":
            return f"{found} is not allowed; allowed is {allowed['expected']}"
        case "string_type":
            return f"text in quotes is wanted, not {found}"
        case "too_short" | "string_too_short":
            return (
                "it is empty; at least one is wanted"
                if "string" not in first["type"]
                else "it is empty; text is wanted"
            )
        case "too_long":
            return f"there are too many; at most {allowed['max_length']} are allowed"
        case "string_too_long":
            return f"{found}… is too long; at most {allowed['max_length']} characters are allowed"
        case "tuple_type":
            return "each load is a section of its own, written [[load]] with two brackets"
    return f"a section with keys is wanted, not {found}"


def _place(place: tuple[Any, ...], entries: dict[str, Any], model: type[BaseModel]) -> str:
    """Say where: sections by name, loads by number and name."""
    words: list[str] = []
    for i, part in enumerate(place):
        if isinstance(part, int):
            words[-1] = f"load {part + 1}{_load_name(entries, part)}"
        elif i == 0 and part == "load":
            words.append("[[load]]")
        elif i == 0 and (len(place) > 1 or _is_section(part, model)):
            words.append(f"[{part}]")
        else:
            words.append(shown_key(str(part)))
    return " ".join(words)


def _is_section(key: str, model: type[BaseModel]) -> bool:
    field = model.model_fields.get(key)
    return field is not None and field.annotation is not str


def shown_key(key: str) -> str:
    """Return a key as a message may repeat it."""
    return key[:40] if key[:40].isprintable() else shown(key)


def _load_name(entries: dict[str, Any], row: int) -> str:
    load = entries["load"][row]
    name = load.get("name") if isinstance(load, dict) else None
    return f" ({name[:40]})" if isinstance(name, str) and name and name[:40].isprintable() else ""


def _keys_at(place: tuple[Any, ...], model: type[BaseModel]) -> list[str]:
    """Return the keys allowed at a place, by walking the models."""
    here: Any = model
    for part in place:
        if isinstance(part, int):
            continue
        annotation = here.model_fields[part].annotation
        inner = [a for a in (annotation, *get_args(annotation)) if isinstance(a, type) and issubclass(a, BaseModel)]
        here = inner[0]
    return list(here.model_fields)
