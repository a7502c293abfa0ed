"""The design sheet as one page of HTML, to be read on a screen, printed, and handed to an inspector.

The page is whole by itself: no script, no font, no picture from anywhere else. Whatever number it shows is also
in the JSON of the same design.
"""

from collections.abc import Iterator
from importlib import resources

from offgrid_core.errors import OffgridError
from offgrid_core.quantities import Settings, show
from offgrid_core.quantities import say as say_shared
from offgrid_core.quantities.text import capital, kept_together
from offgrid_core.report import checklist, pictures, side_tables, steps, tables, wiring
from offgrid_core.report.markup import Markup, items, join, own, row, table, tag, unbroken
from offgrid_core.report.words import TEXT, say
from offgrid_core.sizing.sky import midwinter_caution
from offgrid_core.system.design import Design

LANGUAGE = "en"


def page_html(design: Design, settings: Settings) -> str:
    """Return the whole sheet as a page of HTML.

    Parameters
    ----------
    design
        A sized system.
    settings
        Units and marks of the reader.

    Returns
    -------
    str
        A complete HTML document that refers to nothing outside itself.
    """
    parts = list(_sections(design, settings))
    title = say("title", title=own(design.plan.title))
    body = [
        tag("h1", title),
        *(tag("p", own(part)) for part in design.plan.note.split("\n") if part.strip()),
        tag("p", tables.site_text(design, settings, own(design.site.name))),
        tag("p", tables.site_source(design), class_="note"),
        tag("p", say_shared("caution.design_exercise"), class_="caution"),
        *(tag("p", said, class_="caution") for said in [midwinter_caution(design.site.latitude_deg)] if said),
        _results(design, settings),
        contents_of([name for name, _ in parts]),
        *(section_of(number, name, inside) for number, (name, inside) in enumerate(parts, 1)),
    ]
    head = join(
        [
            Markup('<meta charset="utf-8">'),
            Markup('<meta name="viewport" content="width=device-width, initial-scale=1">'),
            tag("title", say("title", title=design.plan.title)),
            tag("style", Markup(resources.files(__package__).joinpath("page.css").read_text("utf-8"))),
        ]
    )
    page = tag("html", tag("head", head), tag("body", tag("main", join(body))), lang=LANGUAGE)
    return f"<!DOCTYPE html>\n{page}\n"


def _sections(design: Design, settings: Settings) -> Iterator[tuple[str, Markup]]:
    """Yield the sections: first what is built and how it is connected, then what it stands on, line by line."""
    yield say("loads"), steps.load_section(design, settings)
    yield say("parts"), _parts(design, settings)
    yield say("circuits"), _circuits(design, settings)
    yield say("wiring"), _wiring(design, settings)
    drawn = (pictures.months, pictures.hours, pictures.rows, pictures.bank)
    yield say("pictures"), join(of(design, settings) for of in drawn)
    yield say("set_points"), checklist.set_point_section(design, settings)
    yield say("checklist"), checklist.checklist_section(design, settings)
    yield say("findings"), _findings(design, settings)
    yield say("growth"), _growth(design, settings)
    yield say("cautions"), items(tables.cautions(design, settings))
    unchecked = [key for key in TEXT if key.startswith("unchecked.") and key != "unchecked.why"]
    yield say("unchecked"), join([tag("p", say("unchecked.why")), items(map(say, unchecked))])
    yield say("assumed"), _assumed(design, settings)
    yield say("worked", part=say("loads")), steps.load_lines(design, settings)
    for title, worked in tables.sections_of(design, settings):
        yield say("worked", part=title), steps.section(design, title, worked, settings)
    yield say("worked", part=say("circuits")), steps.circuit_lines(design, settings)


def section_of(number: int, name: str, inside: Markup) -> Markup:
    """Return a numbered section."""
    return tag("section", tag("h2", f"{number} {name}", id=f"part-{number}"), inside)


def contents_of(names: list[str]) -> Markup:
    """Return the contents, each a link to its section."""
    links = items(tag("a", f"{i} {name}", href=f"#part-{i}") for i, name in enumerate(names, 1))
    return tag("nav", links, aria_label=say("contents"))


def _results(design: Design, settings: Settings) -> Markup:
    """Return the few numbers everybody asks for first."""
    system, parts = design.system, design.parts

    def shown(name: str) -> str:
        return show(name, system[name], settings)

    bank = say(
        "bank",
        count=shown("units_count"),
        part=parts.battery_unit.label,
        ah=shown("bank_ah"),
        volts=shown("bank_voltage_v"),
        energy=shown("bank_wh"),
    )
    array = say(
        "array",
        count=shown("modules_count"),
        part=parts.module.label,
        watts=shown("array_w"),
        strings=shown("array_strings_count"),
        series=shown("modules_in_series_count"),
    )
    inverter = say("counted", count="1", part=parts.inverter.label) if parts.inverter else say("no_inverter")
    rows = {
        "bank": bank,
        "array": array,
        "controller": say("counted", count=shown("controllers_count"), part=parts.controller.label),
        "inverter": inverter,
        "autonomy": say("autonomy", given=shown("autonomy_given_days"), wanted=shown("autonomy_days")),
        "limits": verdict(design),
    }
    body = tag("tbody", *(row([say(f"key.{key}"), said]) for key, said in rows.items()))
    return tag("table", tag("caption", say("table.results")), body, class_="results")


def verdict(design: Design) -> str:
    """Return in one sentence how many limits are broken, and which."""
    broken = [f.label for f in design.findings if not f.passed]
    count = len(design.findings)
    if not broken:
        return say("limits_met", count=count)
    return say("limits_broken", broken=len(broken), count=count, names="; ".join(broken))


def _parts(design: Design, settings: Settings) -> Markup:
    standings = {p.label: p.standing for p in vars(design.parts).values() if p is not None}
    rows = [row([label, count, standings[label]]) for label, count in tables.part_rows(design, settings)[1:]]
    chosen = table(say("table.parts"), [say("head.part"), say("head.count"), say("head.data")], rows, "plain short")
    volts = rows_table(say("voltage"), unbroken(side_tables.voltage_rows(design, settings)))
    return join([chosen, volts, rows_table(say("bank.title"), unbroken(side_tables.bank_rows(design, settings)))])


def _growth(design: Design, settings: Settings) -> Markup:
    note = tag("p", side_tables.growth_note(settings))
    return join([note, rows_table(say("growth"), side_tables.growth_rows(design, settings))])


def rows_table(caption: str, rows: list[list[str]], kind: str = "plain") -> Markup:
    """Return rows of text, the first being the head, as a table."""
    return table(caption, rows[0], map(row, rows[1:]), kind)


def _circuits(design: Design, settings: Settings) -> Markup:
    code = design.plan.circuits.code.replace("_", " ")
    short = rows_table(say("table.circuits", code=code), unbroken(tables.circuit_rows(design, settings)), "figures")
    gauge = [tag("p", say_shared("wire.gauge_note"), class_="note")] if settings.wire == "AWG" else []
    devices = rows_table(say("protection"), unbroken(side_tables.protection_rows(design, settings)), "figures")
    said = [items(design.protection.verdicts()), tag("p", say_shared("caution.fault"), class_="caution")]
    return join([short, *gauge, devices, *said])


def _wiring(design: Design, settings: Settings) -> Markup:
    """Return the wiring of the bank as a picture, or a sentence where there are too many units to draw."""
    system = design.system
    try:
        bank = wiring.BankWiring(
            series=system["units_in_series_count"],
            strings=system["strings_count"],
            unit=f"{show('unit_v', system['unit_v'], settings)} {show('unit_ah', system['unit_ah'], settings)}",
            voltage=show("bank_voltage_v", system["bank_voltage_v"], settings),
            string_fuse=_fuse(design, "battery_string_fuse_a", settings),
            main_fuse=_fuse(design, "bank_main_fuse_a", settings),
        )
    except OffgridError as e:
        return tag("p", say("not_drawn", reason=str(e)))
    # Inside a page a picture needs no namespace, and its address would look like a call to the net.
    drawn = wiring.wiring_svg(bank).replace(' xmlns="http://www.w3.org/2000/svg"', "", 1)
    picture = tag("figure", Markup(drawn), tag("figcaption", say("wiring_said")), class_="wiring")
    return join([picture, *_sharing(design, settings)])


def _fuse(design: Design, name: str, settings: Settings) -> str:
    return show(name, design.protection.solved[name], settings, 3)


def _sharing(design: Design, settings: Settings) -> Iterator[Markup]:
    """Yield how strings would share the current with their leads placed otherwise; nothing for a single string."""
    rows = side_tables.sharing_rows(design, settings)
    if rows[1:]:
        current = show("current_a", side_tables.hardest_a(design), settings, 3)
        yield tag("p", say("sharing.note", current=current, link=show("link_ohm", design.system["link_ohm"], settings)))
        yield rows_table(say("sharing"), rows, "figures")


def _findings(design: Design, settings: Settings) -> Markup:
    heads = [say(f"head.{key}") for key in ("status", "limit", "margin", "severity", "rule")]
    rows = []
    for f in tables.findings_of(design, settings):
        said = [tag("strong", capital(f.label)), tag("span", kept_together(f.worked), class_="under")]
        said += [] if f.passed else [tag("span", say("mend", mend=f.mend))]
        rule = f.standing + (f" ({f.source})" if f.source else "")
        status = say("status.met" if f.passed else "status.broken")
        cells = [status, join(said, ""), tag("b", f.shown), say(f"severity.{f.severity}"), rule]
        rows.append(row(cells, class_="met" if f.passed else "broken", data_finding=f.name))
    late = [tag("p", said, class_="caution") for said in tables.generator_late_said(design, settings)]
    return join([tag("p", verdict(design)), *late, table(say("table.findings"), heads, rows, "findings")])


def _assumed(design: Design, settings: Settings) -> Markup:
    heads, *rows = tables.assumption_rows(design, settings)
    return table(say("table.assumed"), heads, map(row, rows), "plain assumed")
