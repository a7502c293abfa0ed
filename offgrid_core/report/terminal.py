"""The design sheet for a terminal: plain text, at most 100 columns wide."""

from collections.abc import Sequence
from textwrap import wrap

from offgrid_core.quantities import Settings, say, show
from offgrid_core.quantities.text import capital
from offgrid_core.report import tables
from offgrid_core.system.design import Design
from offgrid_core.worksheet import Finding, Step

WIDTH = 100


def sheet_text(design: Design, settings: Settings) -> str:
    """Return the whole sheet: loads, every line worked, parts, circuits, assumptions, findings."""
    site = f"{design.site.name}, latitude {show('latitude_deg', design.site.latitude_deg, settings)}"
    tilt = show("tilt_deg", design.tilt_deg, settings)
    parts = [
        _title(f"Design sheet: {design.plan.title}"),
        *wrap(design.plan.note, WIDTH),
        f"Site: {site}; array tilted {tilt} towards the equator.",
        say("caution.design_exercise"),
        _title("Loads"),
        _grid(tables.load_rows(design, settings)),
        "",
        *_lines([s for s in tables.steps_of(design.loads, settings) if s.name in tables.LOAD_TOTALS]),
    ]
    for title, steps in tables.sections_of(design, settings):
        parts += [_title(title), *_lines(steps)]
    parts += [_title("Parts"), _grid(tables.part_rows(design, settings))]
    parts += [_title(f"Main circuits ({design.plan.circuits.code.replace('_', ' ')})")]
    parts += [_grid(tables.circuit_rows(design, settings))]
    parts += [_title("Assumed"), _grid(tables.assumption_rows(design, settings))]
    parts += [_title("Findings"), *_findings(design.findings)]
    parts += [_title("Cautions"), *_cautions(), ""]
    return "\n".join(parts)


CAUTIONS = ("caution.battery", "caution.dc", "caution.gas", "caution.lifting", "caution.design_exercise")


def _cautions() -> list[str]:
    return [text for key in CAUTIONS for text in wrap(f"- {say(key)}", WIDTH, subsequent_indent="  ")]


def _title(text: str) -> str:
    return f"\n{text}\n{'─' * len(text)}"


def _lines(steps: Sequence[Step]) -> list[str]:
    """Two text lines a step: label and value; then the formula with this case's numbers."""
    said = []
    for s in steps:
        said.append(f"{capital(s.label)} = {s.shown}")
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


def _grid(rows: Sequence[Sequence[str]]) -> str:
    widths = [min(max(len(r[i]) for r in rows), 46) for i in range(len(rows[0]))]
    said = []
    for n, row in enumerate(rows):
        cells = [wrap(c, w) or [""] for c, w in zip(row, widths, strict=True)]
        for k in range(max(map(len, cells))):
            line = (c[k] if k < len(c) else "" for c in cells)
            said.append("  ".join(t.ljust(w) for t, w in zip(line, widths, strict=True)).rstrip())
        if n == 0:
            said.append("  ".join("─" * w for w in widths))
    return "\n".join(said)
