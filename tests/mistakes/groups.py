"""Every group of text formulas, by topic."""

import pkgutil
from importlib import import_module

import mistakes

GROUPS = [
    import_module(f"mistakes.{found.name}")
    for found in pkgutil.iter_modules(mistakes.__path__)
    if found.name not in ("text_formulas", "groups")
]
