"""The command line: ``python -m offgrid_core size PLAN.toml``."""

import argparse
import io
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from offgrid_core.errors import OffgridError, PlanError


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return 0 when the sheet was printed, 2 when the input cannot be used.

    Broken limits are findings on the sheet, not failures of the command.
    """
    parser = argparse.ArgumentParser(prog="python -m offgrid_core", description="Size a stand-alone solar system.")
    commands = parser.add_subparsers(dest="command")
    sizing = commands.add_parser("size", help="work out the whole system of a plan file")
    sizing.add_argument("plan", help="a plan file, such as lessons/plans/fell_hut.toml")
    sizing.add_argument("--json", action="store_true", help="every line by name, for another program")
    asked = parser.parse_args(arguments)
    if asked.command is None:
        parser.print_help(sys.stderr)
        return 2
    try:
        print(_sized(Path(asked.plan), asked.json), flush=True)
    except OffgridError as e:
        print(" ".join(str(e).split()), file=sys.stderr)
        return 2
    except BrokenPipeError:  # the reader of a pipe has seen enough; Python must not complain while it closes
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


def _sized(path: Path, as_json: bool) -> str:
    from offgrid_core.quantities import settings
    from offgrid_core.system import read_plan, size

    plan = read_plan(path)
    try:
        design = size(plan)
    except OffgridError as e:
        raise PlanError(f"{path.name}, {e}") from None
    if as_json:
        from offgrid_core.report.tables import as_json as values_of

        return json.dumps(values_of(design), indent=1, allow_nan=False)
    from offgrid_core.report.terminal import sheet_text

    return sheet_text(design, settings.load())


if __name__ == "__main__":
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a terminal without our signs shows ? in their place
            stream.reconfigure(errors="replace")
    sys.exit(main())
