"""The command line: ``python -m offgrid_core`` with ``size``, ``fit``, ``year`` or ``compare``, and plan files."""

import argparse
import io
import json
import os
import re
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from offgrid_core.errors import OffgridError, PlanError

if TYPE_CHECKING:
    from offgrid_core.report.year_run import Run
    from offgrid_core.system import Design
    from offgrid_core.year.outcome import Outcome
    from offgrid_core.year.weather import Weather

_PLAN = "a plan file, such as lessons/plans/fell_hut.toml"
#: What a shell makes of an interrupted program: 128, and 2 for the signal.
INTERRUPTED = 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return 0 when the sheet was printed or written, 2 when the input cannot be used.

    Broken limits are findings on the sheet, not failures of the command. One that is interrupted returns 130, and
    leaves no half file.
    """
    try:
        parser = _parser()
        asked = parser.parse_args(arguments)
        if asked.command is None:
            parser.print_help(sys.stderr)
            return 2
        work = {"size": _sized, "fit": _fitted, "year": _followed, "compare": _compared}
        print(work[asked.command](asked), flush=True)
    except OffgridError as e:
        print(" ".join(str(e).split()), file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print(_say("stopped"), file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:  # the reader of a pipe has seen enough; Python must not complain while it closes
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m offgrid_core", description="Size a stand-alone solar system.")
    commands = parser.add_subparsers(dest="command")
    sizing = commands.add_parser("size", help="work out the whole system of a plan file")
    sizing.add_argument("plan", help=_PLAN)
    sizing.add_argument("--json", action="store_true", help="every line by name, for another program")
    sizing.add_argument("--report", metavar="SHEET.html", help="write the design sheet as a page to read or print")
    sizing.add_argument("--order", metavar="ORDER.csv", help="write the order list for a spreadsheet")
    fitting = commands.add_parser("fit", help="judge every combination of parts of the catalogue for a plan file")
    fitting.add_argument("plan", help=_PLAN)
    fitting.add_argument("--json", action="store_true", help="every combination that passes, for another program")
    years = commands.add_parser("year", help="follow the system of a plan file through many years, hour by hour")
    years.add_argument("plan", help=_PLAN)
    _add_drawn(years)
    years.add_argument("--hours", metavar="FILE", help="follow the hours of this file instead: EPW, TMY3, TMY2, CSV")
    years.add_argument("--latitude", metavar="D", help="where a CSV file of hours is from, in degrees, north positive")
    years.add_argument("--longitude", metavar="D", help="the same, east positive")
    years.add_argument("--json", action="store_true", help="every number by name, for another program")
    years.add_argument("--report", metavar="YEARS.html", help="write the years as a page to read or print")
    comparing = commands.add_parser("compare", help="follow two to four plan files, and put them side by side")
    comparing.add_argument("plans", nargs="+", metavar="plan", help=_PLAN)
    _add_drawn(comparing)
    comparing.add_argument("--json", action="store_true", help="every number by name, for another program")
    return parser


def _add_drawn(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--years", metavar="N", help="how many years to draw from the monthly means, 20 if not said")
    parser.add_argument("--seed", metavar="S", help="whole number that the years are drawn with, 1 if not said")


# ---- size, fit


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
        return _json(values_of(design))
    from offgrid_core.report.terminal import sheet_text

    return "\n".join(written) or sheet_text(design, mine)


def _fitted(asked: argparse.Namespace) -> str:
    """Return what to print: the parts that fit, as a sheet or as JSON."""
    from offgrid_core.quantities import settings
    from offgrid_core.report.fitting import fit_json, fit_text
    from offgrid_core.system.fit import parts_that_fit

    design = _design(Path(asked.plan))
    fit = parts_that_fit(design)
    return _json(fit_json(design, fit)) if asked.json else fit_text(design, fit, settings.load())


# ---- year, compare


def _followed(asked: argparse.Namespace) -> str:
    """Return what to print: the years, the JSON, or where the page was written."""
    from offgrid_core.quantities import settings
    from offgrid_core.report import writing
    from offgrid_core.report.year_page import year_html
    from offgrid_core.report.year_run import as_json
    from offgrid_core.report.year_text import year_text

    if asked.json and asked.report is not None:
        raise OffgridError(_say("typed.json_report"))
    run_of = _through_hours(asked) if asked.hours is not None else _through_drawn(asked)
    path, mine = Path(asked.plan), settings.load()
    if asked.report is not None:
        kind = writing.Kind(
            "the report of the years", "years.html", lambda design, mine: year_html(run_of(design), mine)
        )
        writing.check_place(kind, Path(asked.report))
        return writing.write(kind, Path(asked.report), kind.made(_design(path), mine))
    run = run_of(_design(path))
    return _json(as_json(run)) if asked.json else year_text(run, mine)


def _through_drawn(asked: argparse.Namespace) -> "Callable[[Design], Run]":
    """Return what follows a design through the years that were asked for."""
    from offgrid_core.report.year_run import Run
    from offgrid_core.year.outcome import drawn_weather

    if asked.latitude is not None or asked.longitude is not None:
        raise OffgridError(_say("typed.place", option="--latitude, --longitude"))
    years, seed = _drawn(asked)
    return lambda design: Run(_outcomes([design], lambda each: drawn_weather(each, years, seed))[0], seed)


def _through_hours(asked: argparse.Namespace) -> "Callable[[Design], Run]":
    """Return what follows a design through the hours of a file."""
    from offgrid_core.report.year_run import Run
    from offgrid_core.year.records import read_hours, weather_of

    for option in ("years", "seed"):
        if vars(asked)[option] is not None:
            raise OffgridError(_say("typed.hours", option=f"--{option}"))
    at = [None if vars(asked)[n] is None else _degrees(f"--{n}", vars(asked)[n]) for n in ("latitude", "longitude")]
    record = read_hours(Path(asked.hours), *at)

    def weather(design: "Design") -> "Weather":
        ground = design.plan.site.ground_by_month_frac
        return weather_of(record, design.tilt_deg, design.azimuth_deg, ground)

    return lambda design: Run(_outcomes([design], weather)[0], latitude_deg=record.latitude_deg)


def _compared(asked: argparse.Namespace) -> str:
    """Return what to print: two to four plans side by side, as a sheet or as JSON."""
    from offgrid_core.quantities import settings
    from offgrid_core.report.year_compare import Comparison, compare_json, compare_text
    from offgrid_core.report.year_run import Run
    from offgrid_core.year.outcome import drawn_weather

    years, seed = _drawn(asked)
    paths = _apart(asked.plans)
    outcomes = _outcomes(list(map(_design, paths.values())), lambda design: drawn_weather(design, years, seed))
    made = Comparison({name: Run(outcome, seed) for name, outcome in zip(paths, outcomes, strict=True)})
    return _json(compare_json(made)) if asked.json else compare_text(made, settings.load())


def _apart(plans: Sequence[str]) -> dict[str, Path]:
    """Return the plan files by what they are called side by side: their names, or their places if names are alike."""
    if not 2 <= len(plans) <= 4:
        raise OffgridError(_say("typed.plans", count=len(plans)))
    paths = [Path(typed) for typed in plans]
    for i, path in enumerate(paths):
        if path.resolve() in [other.resolve() for other in paths[:i]]:
            raise OffgridError(_say("typed.twice", typed=path))
    alike = len({path.stem for path in paths}) < len(paths)
    return {str(path) if alike else path.stem: path for path in paths}


def _outcomes(designs: "Sequence[Design]", weather: "Callable[[Design], Weather]") -> "list[Outcome]":
    """Follow every design through its years, with a bar where that takes long."""
    from offgrid_core.report.progress import Progress
    from offgrid_core.year.outcome import follow

    done: list[Outcome] = []
    with Progress(sys.stderr) as bar:

        def told(year: int, years: int) -> None:
            bar(len(done) * years + year, len(designs) * years)

        for design in designs:
            done.append(follow(design, weather(design), told))
    return done


# ---- what was typed


def _drawn(asked: argparse.Namespace) -> tuple[int, int]:
    """Return how many years to draw, and the seed."""
    from offgrid_core.year.outcome import YEARS
    from offgrid_core.year.sequence import MOST_YEARS

    years = YEARS if asked.years is None else _whole("--years", asked.years, 1, MOST_YEARS)
    return years, 1 if asked.seed is None else _whole("--seed", asked.seed, 0, 2**63 - 1)


def _whole(option: str, typed: str, low: int, high: int) -> int:
    if re.fullmatch(r"[0-9]{1,19}", typed) and low <= int(typed) <= high:
        return int(typed)
    raise OffgridError(_say("typed.whole", option=option, typed=ascii(typed[:40]), low=low, high=high))


def _degrees(option: str, typed: str) -> float:
    if re.fullmatch(r"-?[0-9]{1,3}(\.[0-9]{1,12})?", typed):
        return float(typed)
    raise OffgridError(_say("typed.number", option=option, typed=ascii(typed[:40])))


def _say(key: str, **values: object) -> str:
    from offgrid_core.report.year_words import say

    return say(key, **values)


def _json(values: dict[str, Any]) -> str:
    return json.dumps(values, indent=1, allow_nan=False)


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
