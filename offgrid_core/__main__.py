"""The command line: ``python -m offgrid_core size PLAN.toml``, and ``fit PLAN.toml``."""

import argparse
import io
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from offgrid_core.errors import OffgridError, PlanError

if TYPE_CHECKING:
    from offgrid_core.system import Design


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return 0 when the sheet was printed or written, 2 when the input cannot be used.

    Broken limits are findings on the sheet, not failures of the command.
    """
    parser = argparse.ArgumentParser(prog="python -m offgrid_core", description="Size a stand-alone solar system.")
    commands = parser.add_subparsers(dest="command")
    sizing = commands.add_parser("size", help="work out the whole system of a plan file")
    sizing.add_argument("plan", help="a plan file, such as lessons/plans/fell_hut.toml")
    sizing.add_argument("--json", action="store_true", help="every line by name, for another program")
    sizing.add_argument("--report", metavar="SHEET.html", help="write the design sheet as a page to read or print")
    sizing.add_argument("--order", metavar="ORDER.csv", help="write the order list for a spreadsheet")
    fitting = commands.add_parser("fit", help="judge every combination of parts of the catalogue for a plan file")
    fitting.add_argument("plan", help="a plan file, such as lessons/plans/fell_hut.toml")
    fitting.add_argument("--json", action="store_true", help="every combination that passes, for another program")
    asked = parser.parse_args(arguments)
    if asked.command is None:
        parser.print_help(sys.stderr)
        return 2
    try:
        print({"size": _sized, "fit": _fitted}[asked.command](asked), flush=True)
    except OffgridError as e:
        print(" ".join(str(e).split()), file=sys.stderr)
        return 2
    except BrokenPipeError:  # the reader of a pipe has seen enough; Python must not complain while it closes
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


def _sized(asked: argparse.Namespace) -> str:
    """Return what to print: the sheet, the JSON, or where files were written."""
    from offgrid_core.quantities import settings
    from offgrid_core.report import writing

    places = [(kind, Path(vars(asked)[key])) for key, kind in writing.KINDS.items() if vars(asked)[key] is not None]
    for kind, place in places:
        writing.check_place(kind, place)
    design, mine = _design(Path(asked.plan)), settings.load()
    made = [(kind, place, kind.made(design, mine)) for kind, place in places]
    written = [writing.write(kind, place, text) for kind, place, text in made]
    if asked.json:
        from offgrid_core.report.tables import as_json as values_of

        print(*written, sep="\n", end="\n" if written else "", file=sys.stderr)  # standard output is JSON alone
        return json.dumps(values_of(design), indent=1, allow_nan=False)
    from offgrid_core.report.terminal import sheet_text

    return "\n".join(written) or sheet_text(design, mine)


def _fitted(asked: argparse.Namespace) -> str:
    """Return what to print: the parts that fit, as a sheet or as JSON."""
    from offgrid_core.quantities import settings
    from offgrid_core.report.fitting import fit_json, fit_text
    from offgrid_core.system.fit import parts_that_fit

    design = _design(Path(asked.plan))
    fit = parts_that_fit(design)
    if asked.json:
        return json.dumps(fit_json(design, fit), indent=1, allow_nan=False)
    return fit_text(design, fit, settings.load())


def _design(path: Path) -> "Design":
    from offgrid_core.system import read_plan, size

    plan = read_plan(path)
    try:
        return size(plan)
    except OffgridError as e:
        raise PlanError(f"{path.name}, {e}") from None


if __name__ == "__main__":
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a terminal without our signs shows ? in their place
            stream.reconfigure(errors="replace")
    sys.exit(main())
