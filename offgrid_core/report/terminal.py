"""The design sheet for a terminal: plain text, at most 100 columns wide."""

from collections.abc import Sequence
from textwrap import wrap

from offgrid_core.quantities import Settings, say
from offgrid_core.quantities.text import capital
from offgrid_core.report import side_tables, tables, words
from offgrid_core.sizing.sky import midwinter_caution
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Finding, Step

WIDTH = 100


def sheet_text(design: Design, settings: Settings) -> str:
    """Return the whole sheet: loads, every line worked, parts, circuits, assumptions, findings."""
    parts = [
        heading(words.say("title", title=design.plan.title)),
        *wrap(design.plan.note, WIDTH),
        *wrap(tables.site_text(design, settings, design.site.name), WIDTH),
        *wrap(midwinter_caution(design.site.latitude_deg), WIDTH),
        say("caution.design_exercise"),
        heading("Loads"),
        grid(tables.load_rows(design, settings)),
        "",
        *_lines([s for s in tables.steps_of(design.loads, settings) if s.name in tables.LOAD_TOTALS]),
    ]
    for title, steps in tables.sections_of(design, settings):
        parts += [heading(title), *_lines(steps)]
    parts += [heading("Parts"), grid(tables.part_rows(design, settings))]
    parts += [heading(f"Main circuits ({design.plan.circuits.code.replace('_', ' ')})")]
    parts += [grid(tables.circuit_rows(design, settings))]
    parts += [heading(words.say("protection")), grid(side_tables.protection_rows(design, settings)), ""]
    parts += [line for verdict in design.protection.verdicts() for line in wrap(verdict, WIDTH)]
    parts += [heading(words.say("voltage")), grid(side_tables.voltage_rows(design, settings))]
    parts += [heading(words.say("growth")), *wrap(side_tables.growth_note(settings), WIDTH), ""]
    parts += [grid(side_tables.growth_rows(design, settings))]
    parts += [heading("Assumed"), grid(tables.assumption_rows(design, settings))]
    parts += [heading("Findings"), *_findings(tables.findings_of(design, settings))]
    parts += [line for said in tables.generator_late_said(design, settings) for line in wrap(said, WIDTH)]
    parts += [heading("Cautions"), *_cautions(design, settings), ""]
    return "\n".join(parts)


def _cautions(design: Design, settings: Settings) -> list[str]:
    said = tables.cautions(design, settings)
    return [line for each in said for line in wrap(f"- {each}", WIDTH, subsequent_indent="  ")]


def heading(text: str) -> str:
    """Return a heading with a line under it."""
    return f"\n{text}\n{'─' * len(text)}"


def _lines(steps: Sequence[Step]) -> list[str]:
    """Two text lines a step: label and value; then the formula with this case's numbers."""
    said = []
    for s in steps:
        said += wrap(f"{capital(s.label)} = {s.shown}", WIDTH, subsequent_indent="    ")
        said += wrap(f"{s.formula} = {s.worked}", WIDTH, initial_indent="    ", subsequent_indent="    ")
        said += wrap(f"[{tables.standing_of(s)}]", WIDTH, initial_indent="    ", subsequent_indent="    ")
    return said


def _findings(findings: Sequence[Finding]) -> list[str]:
    said = []
    broken = [f for f in findings if not f.passed]
    said.append(
        f"{len(broken)} of {len(findings)} limits broken." if broken else f"All {len(findings)} limits are met."
    )
    for f in findings:
        mark = "met   " if f.passed else f"BROKEN ({f.severity})"
        said += wrap(f"{mark} {capital(f.label)}: {f.worked} = {f.shown} to spare", WIDTH, subsequent_indent="    ")
        if not f.passed:
            said += wrap(f"mend: {f.mend}", WIDTH, initial_indent="    ", subsequent_indent="    ")
    return said


def grid(rows: Sequence[Sequence[str]]) -> str:
    """Return rows of text in columns, the first row as their heads."""
    widths, said = _widths(rows), []
    for n, row in enumerate(rows):
        cells = [wrap(c, w) or [""] for c, w in zip(row, widths, strict=True)]
        for k in range(max(map(len, cells))):
            line = (c[k] if k < len(c) else "" for c in cells)
            said.append("  ".join(t.ljust(w) for t, w in zip(line, widths, strict=True)).rstrip())
        if n == 0:
            said.append("  ".join("─" * w for w in widths))
    return "\n".join(said)


def _widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """Return how wide each column may be: as wide as its text, the widest but the first narrowed until all fit."""
    first, *widths = (max(len(row[i]) for row in rows) for i in range(len(rows[0])))
    first = min(first, 42)
    while first + sum(widths) + 2 * len(widths) > WIDTH:
        widths[widths.index(max(widths))] -= 1
    return [first, *widths]
