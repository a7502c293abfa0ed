"""The two forms of the bank side by side: what the standard asks for beyond the trade form, part by part.

The standard takes the *largest* of three demands and adds a margin; the trade form takes one demand and none.
Multiplying depth and end of life, as some do, asks for more than either.
"""

from dataclasses import replace

from offgrid_core.sizing.bank_1013 import BANK_1013
from offgrid_core.worksheet import Sheet, line

_1013 = "IEEE Std 1013 procedure, from memory"


@line("bank by the short trade form", standing="common practice, no source", source="depth of discharge, then cold")
def short_form_ah(for_depth_ah, kept_frac):
    return for_depth_ah / kept_frac


@line("more by the standard, for daily depth or the end of life", standing="standard", source=_1013)
def more_for_largest_ah(for_cold_ah, short_form_ah):
    return for_cold_ah - short_form_ah


#: The standard's own last line, under a name of its own beside the trade form's.
standard_form_ah = replace(BANK_1013["bank_needed_ah"], name="standard_form_ah", label="bank by the standard's form")


@line("more by the standard, for the design margin", standing="standard", source=_1013)
def more_for_margin_ah(standard_form_ah, for_cold_ah):
    return standard_form_ah - for_cold_ah


@line(
    "bank if depth and end of life were multiplied",
    standing="common practice, no source",
    source="a disagreement between hand methods: the largest covers the other",
)
def multiplied_ah(for_depth_ah, end_of_life_frac, kept_frac, design_margin_factor):
    return for_depth_ah / end_of_life_frac / kept_frac * design_margin_factor


@line("multiplied against the standard", standing="physics")
def multiplied_over_frac(multiplied_ah, standard_form_ah):
    return (multiplied_ah - standard_form_ah) / standard_form_ah


#: From the hardest day to both forms, and what makes them differ.
FORMS = BANK_1013.upto("for_cold_ah") + Sheet(
    standard_form_ah, short_form_ah, more_for_largest_ah, more_for_margin_ah, multiplied_ah, multiplied_over_frac
)
