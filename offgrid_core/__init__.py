"""Sizing of stand-alone solar power systems, as worksheets that can be moved, shown, marked and checked."""

__version__ = "0.1.0"
