"""What the workbench does with one's own plan: size it, keep the sliders' settings, write the sheet and the order."""

from pathlib import Path

from IPython.display import Markdown

from offgrid_core.errors import OffgridError
from offgrid_core.lab.page import PLANS
from offgrid_core.lab.panel import Panel
from offgrid_core.lab.plan_form import BEGINS, MINE
from offgrid_core.quantities import label_of, say, settings, show
from offgrid_core.quantities.settings import my_folder
from offgrid_core.report import writing
from offgrid_core.system import HEADLINE, Design, changed_text, read_plan, save_text, size
from offgrid_core.system.plan import text_of


def my_site() -> Design:
    """Return one's own plan sized; the draft that it begins from as long as nothing was saved.

    Raises
    ------
    OffgridError
        If the plan cannot be sized: one sentence that says why.
    """
    return size(read_plan(_plan() if _plan().exists() else PLANS / BEGINS))


def keep_settings(panel: Panel) -> Markdown:
    """Write what the sliders of a panel of the whole chain stand at into one's own plan.

    Raises
    ------
    OffgridError
        If nothing was saved as one's own plan yet, or the plan would be none with these settings.
    """
    if not _plan().exists():
        raise OffgridError(say("site.first"))
    moved = {c.name: c.value for c in (*panel.parts.controls, *panel.parts.more) if c.value != c.start}
    numbers = {n: int(v) if v == int(v) else v for n, v in moved.items() if isinstance(v, float)}
    text = text_of(_plan())
    for section, wanted in (("choices", True), ("assume", False)):
        entries = {n: v for n, v in numbers.items() if (n in HEADLINE) == wanted}
        text = changed_text(text, section, **entries) if entries else text
    save_text(_plan(), text)
    told = ", ".join(f"{label_of(n)} {show(n, v, panel.settings)}" for n, v in numbers.items()) or say("value.none")
    return _told(say("site.kept", path=_plan(), choices=told))


def write_sheet(design: Design) -> Markdown:
    """Write the design sheet into the learner's folder as a page to read or print, and say where."""
    return _written(design, "report", "my_sheet.html")


def write_order(design: Design) -> Markdown:
    """Write the order list into the learner's folder for a spreadsheet, and say where."""
    return _written(design, "order", "my_order.csv")


def _written(design: Design, what: str, name: str) -> Markdown:
    kind, path = writing.KINDS[what], my_folder() / name
    path.parent.mkdir(parents=True, exist_ok=True)
    writing.write(kind, path, kind.made(design, settings.load()))
    return _told(say(f"site.{what}", path=path.as_posix()))


def _told(sentence: str) -> Markdown:
    return Markdown(sentence)  # type: ignore[no-untyped-call]


def _plan() -> Path:
    return my_folder() / MINE
