"""Turning what pydantic found wrong in a plan into one sentence: the place, the value, what is allowed."""

from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel, ValidationError


def sentence_for(error: ValidationError, entries: dict[str, Any], model: type[BaseModel]) -> str:
    """Return one sentence for the first thing that is wrong."""
    first = error.errors(include_url=False)[0]
    place = tuple(first["loc"])
    where = _place(place, entries)
    match first["type"]:
        case "offgrid":
            said = first["ctx"]["sentence"]
        case "extra_forbidden":
            said = _unknown_key(str(place[-1]), _keys_at(place[:-1], model))
        case "missing":
            said = f"{place[-1]} is missing"
        case "literal_error":
            said = f"{first['input']!r} is not allowed; allowed is {first['ctx']['expected']}"
        case "string_type":
            said = f"text in quotes is wanted, not {first['input']!r}"
        case "too_short" | "string_too_short":
            said = "it is empty; at least one is wanted"
        case "too_long" | "string_too_long":
            said = f"too long; at most {first['ctx'].get('max_length')} are allowed"
        case "model_type" | "model_attributes_type" | "dict_type":
            said = f"a section with keys is wanted, not {str(first['input'])[:40]!r}"
        case "tuple_type":
            said = "write each load as its own [[load]] section"
        case _:
            said = f"{str(first['input'])[:40]!r} is not allowed: {first['msg']}"
    return f"{where}: {said}" if where else said


def nearest(name: str, known: list[str]) -> str:
    """Return a hint with the nearest known names."""
    near = get_close_matches(name, known, 3, 0.5)
    return f"Nearest: {', '.join(near)}." if near else f"Known: {', '.join(sorted(known)[:12])}."


def _place(place: tuple[Any, ...], entries: dict[str, Any]) -> str:
    """Say where: sections by name, loads by number and name."""
    words = []
    for i, part in enumerate(place):
        if i == 1 and place[0] == "load" and isinstance(part, int):
            words[-1] = f"load {part + 1}{_load_name(entries, part)}"
        elif isinstance(part, int):
            words.append(f"value {part + 1}")
        elif not str(part).startswith(("function-", "tuple", "float", "constrained")):
            words.append(f"[{part}]" if i == 0 and len(place) > 1 else str(part))
    return " ".join(words)


def _load_name(entries: dict[str, Any], row: int) -> str:
    loads = entries.get("load")
    if isinstance(loads, list) and row < len(loads) and isinstance(loads[row], dict):
        name = loads[row].get("name")
        if isinstance(name, str) and name:
            return f" ({name[:40]})"
    return ""


def _keys_at(place: tuple[Any, ...], model: type[BaseModel]) -> list[str]:
    """Return the keys allowed at a place, by walking the models."""
    here: Any = model
    for part in place:
        if isinstance(part, int):
            continue
        annotation = here.model_fields[part].annotation
        inner = [a for a in (annotation, *get_args(annotation)) if isinstance(a, type) and issubclass(a, BaseModel)]
        if not inner:
            break
        here = inner[0]
    return list(here.model_fields)


def _unknown_key(key: str, known: list[str]) -> str:
    from offgrid_core.sizing import CIRCUITS, LOADS, VOLTAGE, chain

    if any(key in sheet for sheet in (LOADS, VOLTAGE, chain(), chain("ieee1013"), CIRCUITS)):
        return "this is worked out by the worksheet and cannot be set in a plan"
    return f"there is no such key here. {nearest(key, known)}"
