"""The command line: ``python -m offgrid_core size PLAN.toml``."""

import argparse
import json
import sys
from collections.abc import Sequence

from offgrid_core.errors import OffgridError


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return 0 when it worked, 1 when a limit is broken, 2 when the input cannot be used."""
    parser = argparse.ArgumentParser(prog="python -m offgrid_core", description="Size a stand-alone solar system.")
    commands = parser.add_subparsers(dest="command", required=True)
    sizing = commands.add_parser("size", help="work out the whole system of a plan file")
    sizing.add_argument("plan", help="a plan file, such as lessons/plans/fell_hut.toml")
    sizing.add_argument("--json", action="store_true", help="every line by name, for another program")
    asked = parser.parse_args(arguments)
    try:
        return _size(asked.plan, asked.json)
    except OffgridError as e:
        print(f"{e}", file=sys.stderr)
        return 2
    except BrokenPipeError:
        return 0


def _size(path: str, as_json: bool) -> int:
    from offgrid_core.quantities import settings
    from offgrid_core.system import read_plan, size

    design = size(read_plan(path))
    if as_json:
        from offgrid_core.report.tables import as_json as values_of

        print(json.dumps(values_of(design), indent=1, allow_nan=False))
    else:
        from offgrid_core.report.terminal import sheet_text

        print(sheet_text(design, settings.load()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
