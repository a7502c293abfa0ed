"""The trade's words, each explained once in ``glossary.toml`` and shown wherever a lesson needs it."""

import tomllib
from collections.abc import Mapping
from functools import cache
from html import escape
from importlib.resources import files

import ipywidgets as widgets

from offgrid_core.errors import OffgridError


@cache
def explained() -> Mapping[str, str]:
    """Return what each word means, by word, in alphabetical order."""
    found = tomllib.loads((files(__package__) / "glossary.toml").read_text(encoding="utf-8"))
    return dict(sorted(found.items(), key=lambda pair: pair[0].casefold()))


def words(*wanted: str) -> widgets.HTML:
    """Show what words mean, in the order given: ``words("string", "days of autonomy")``.

    Raises
    ------
    OffgridError
        If a word is not in the glossary; the nearest ones are named.
    """
    for word in wanted:
        if word not in explained():
            from difflib import get_close_matches

            near = ", ".join(get_close_matches(word, explained(), 3)) or "none"
            raise OffgridError(f"the glossary has no word {word!r:.40}; nearest: {near}")
    return _list({word: explained()[word] for word in wanted})


def glossary() -> widgets.HTML:
    """Show every word of the glossary."""
    return _list(explained())


def _list(meanings: Mapping[str, str]) -> widgets.HTML:
    told = "".join(
        f"<dt style='font-weight:600'>{escape(word)}</dt><dd style='margin:0 0 4px 20px'>{escape(meaning)}</dd>"
        for word, meaning in meanings.items()
    )
    return widgets.HTML(f"<dl style='line-height:1.5;max-width:760px;margin:0'>{told}</dl>")
