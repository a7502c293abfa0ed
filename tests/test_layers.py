"""How the package is put together: imports point down, sums stand in sizing, one table of names, nothing foreign."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest
from worksheet_cases import LINES, SHEETS

from offgrid_core.quantities import QUANTITIES, unit_of
from offgrid_core.worksheet import STANDINGS

ROOT = Path(__file__).resolve().parents[1]
CORE = ROOT / "offgrid_core"
MODULES = sorted(CORE.rglob("*.py"))
every_module = pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(CORE)))

# ---- imports point down only

#: Layer → height. A module imports from lower layers and from its own.
HEIGHT = {
    "__init__": 0,
    "errors": 0,
    "files": 0,
    "worksheet": 1,
    "quantities": 2,
    "data": 2,
    "sizing": 3,
    "system": 4,
    "year": 5,
    "practice": 6,
    "classroom": 6,
    "figures": 7,
    "report": 8,
    "lab": 9,
    "__main__": 10,
}
#: Library → the only places that may import it.
ONLY = {
    "ipywidgets": ("lab/",),
    "anywidget": ("lab/",),
    "traitlets": ("lab/",),
    "IPython": ("lab/",),
    "plotly": ("figures/", "lab/live_figure.py"),
}


def layer_of(path: Path) -> str:
    return path.relative_to(CORE).with_suffix("").parts[0]


def imported(tree: ast.AST):
    """Yield every module that is imported anywhere in a module, also inside functions."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written in full"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def upward(text: str, layer: str):
    """Yield the imports of a module's text that point up or sideways."""
    for name in imported(ast.parse(text)):
        first, *rest = name.split(".")
        if first == "offgrid_core":
            target = rest[0] if rest and rest[0] in HEIGHT else "__init__"
            if target != layer and HEIGHT[target] >= HEIGHT[layer]:
                yield name


@every_module
def test_imports_point_down(path):
    assert layer_of(path) in HEIGHT, "a new layer: say where it stands"
    assert list(upward(path.read_text(encoding="utf-8"), layer_of(path))) == []


@every_module
def test_only_the_lab_knows_widgets_and_only_figures_know_the_plotting_library(path):
    place = path.relative_to(CORE).as_posix()
    for name in imported(ast.parse(path.read_text(encoding="utf-8"))):
        allowed = ONLY.get(name.split(".")[0])
        assert allowed is None or place.startswith(allowed), f"{place} imports {name}"


def test_a_planted_upward_import_is_seen():
    planted = "def late():\n    from offgrid_core.lab import chain_panel\n    import offgrid_core.system.plan\n"
    assert list(upward(planted, "sizing")) == ["offgrid_core.lab.chain_panel", "offgrid_core.system.plan"]
    assert list(upward("from offgrid_core import data", "quantities")) == ["offgrid_core.data"], "sideways"
    assert list(upward("from offgrid_core.sizing import BANK\nimport numpy", "system")) == []


# ---- sums stand in sizing

QUANTITY_NAMES = set(QUANTITIES) | {n for sheet in SHEETS.values() for n in (*sheet, *sheet.inputs)}
SUMS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.FloorDiv, ast.Mod)
WRAPPERS = {"float", "int", "abs", "round", "asarray", "array", "max", "min", "ceil", "floor", "sqrt", "exp", "log"}
SUM_CALLS = {
    "multiply",
    "divide",
    "true_divide",
    "add",
    "subtract",
    "power",
    "floor_divide",
    "prod",
    "sum",
    "cumsum",
    "mean",
    "dot",
    "mul",
    "truediv",
    "sub",
    "pow",
}


def called(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def quantity_in(node: ast.AST) -> str:
    """Return the quantity that an operand is, looking through signs, brackets, indices and conversions."""
    match node:
        case ast.Name(id=name) | ast.Attribute(attr=name) if name in QUANTITY_NAMES:
            return name
        case ast.Subscript(slice=ast.Constant(value=str() as name)) if name in QUANTITY_NAMES:
            return name
        case ast.Subscript(value=inner) | ast.UnaryOp(operand=inner) | ast.Starred(value=inner):
            return quantity_in(inner)
        case ast.BinOp(left=left, right=right):
            return quantity_in(left) or quantity_in(right)
        case ast.Call(args=args) if called(node) in WRAPPERS | SUM_CALLS:
            return next(filter(None, map(quantity_in, args)), "")
        case ast.GeneratorExp(elt=inner) | ast.ListComp(elt=inner):
            return quantity_in(inner)
    return ""


def sums_on_quantities(text: str):
    """Yield line number and quantity of every sum that a module does on a quantity."""
    for node in ast.walk(ast.parse(text)):
        match node:
            case ast.BinOp(op=op, left=left, right=right) if isinstance(op, SUMS):
                operands = [left, right]
            case ast.AugAssign(op=op, target=target, value=value) if isinstance(op, SUMS):
                operands = [target, value]
            case ast.Call(args=args) if called(node) in SUM_CALLS:
                operands = args
            case _:
                continue
        if found := next(filter(None, map(quantity_in, operands)), ""):
            yield node.lineno, found


@every_module
def test_no_sum_on_a_quantity_outside_sizing(path):
    if layer_of(path) == "sizing":
        return
    assert list(sums_on_quantities(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize(
    "planted",
    [
        "need = spell_wh / depth_frac",
        "need = 2 * plan.choices.autonomy_days",
        'need = system["bank_ah"] * 1.1',
        'need = float(system["bank_ah"]) * 1.1',
        'need = -system["air_temp_by_month_c"][3] + 2',
        'need = 24 - (x * point["hours_by_row_h"])',
        "bank_ah += 1",
        'total -= given["peak_w"]',
        'need = np.multiply(system["bank_ah"], 2)',
        "need = operator.truediv(bank_wh, 24)",
        'need = sum(row["power_by_row_w"] for row in rows)',
        'need = np.sum(system["array_by_month_w"])',
        "need = array_w ** 2",
        "need = peak_w // 7 % 3",
    ],
)
def test_a_planted_sum_is_seen(planted):
    assert list(sums_on_quantities(f"def f():\n    {planted}\n"))


@pytest.mark.parametrize(
    "harmless",
    [
        'value = system["bank_ah"]',
        'given = given | {"bank_ah": bank_ah}',
        'text = "about " + show("bank_ah", bank_ah)',
        "more = bank_ah > array_w",
        "middle = (low + high) / 2",
        'found = solve({"autonomy_days": autonomy_days})["bank_ah"]',
    ],
)
def test_what_is_no_sum_on_a_quantity_is_let_through(harmless):
    assert list(sums_on_quantities(harmless)) == []


# ---- light to import


@pytest.mark.parametrize("module", ["offgrid_core", "offgrid_core.sizing", "offgrid_core.quantities"])
def test_importing_the_core_loads_nothing_heavy(module):
    code = f"import sys, {module}; print(*sorted({{m.split('.')[0] for m in sys.modules}}))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    names = set(loaded.stdout.split())
    assert module.split(".")[0] in names
    assert names & {"plotly", "ipywidgets", "pandas", "pvlib", "anywidget", "IPython", "matplotlib", "scipy"} == set()


# ---- one table of names

INPUTS = {n for sheet in SHEETS.values() for n in sheet.inputs}
LINE_NAMES = {n for sheet in SHEETS.values() for n in sheet}


#: What the two worksheets of conversion start from: on purpose in no unit of the table.
FOREIGN_UNITS = {"reading_fahrenheit", "swing_fahrenheit"}


def test_every_input_is_in_the_table_of_names_or_another_worksheet_s_line():
    assert sorted(INPUTS - set(QUANTITIES) - LINE_NAMES - FOREIGN_UNITS) == []


def test_no_name_in_the_table_is_dead():
    written = {
        node.value
        for path in MODULES
        if not path.name.endswith("names.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert sorted(set(QUANTITIES) - INPUTS - written) == []


@pytest.mark.parametrize("name", sorted((set(QUANTITIES) | INPUTS | LINE_NAMES) - FOREIGN_UNITS))
def test_every_name_ends_in_a_unit(name):
    if name not in QUANTITIES or not QUANTITIES[name].is_table:
        unit_of(name)


LABELLED = [(q.name, q.label) for q in QUANTITIES.values()] + [(x.name, x.label) for x in LINES.values()]
LABELS = dict(LABELLED)


def test_one_name_one_label():
    """Also where a name is an input here and a line there; the same thing by month may share its label."""
    labels_of: dict[str, set[str]] = {}
    names_of: dict[str, set[str]] = {}
    for name, label in LABELLED:
        labels_of.setdefault(name, set()).add(label)
        names_of.setdefault(label, set()).add(name.replace("_by_month", ""))
    assert {n: labels for n, labels in labels_of.items() if len(labels) > 1} == {}
    assert {label: names for label, names in names_of.items() if len(names) > 1} == {}


@pytest.mark.parametrize("name", LABELS)
def test_a_label_reads_on_in_a_sentence_and_in_a_formula(name):
    label = LABELS[name]
    first = label.split()[0]
    assert label == label.strip()
    assert first.isupper() or first[0].islower(), f"{name}: {label!r} begins with a capital"
    assert not re.search(r"[()+−×÷^;=]|\bin place\b|\d\s*-", label), f"{name}: {label!r} would be misread in a formula"


@pytest.mark.parametrize("name", LINES)
def test_every_line_has_a_standing_and_is_short(name):
    each = LINES[name]
    assert each.standing in STANDINGS
    assert each.standing != "standard" or each.source
    assert len(each.needs) <= 7
    assert bool(each.severity) == bool(each.mend)
    assert not each.severity or "margin" in each.name


def test_every_line_is_used():
    elsewhere = {path: path.read_text(encoding="utf-8") for path in MODULES}
    held = {id(x) for sheet in SHEETS.values() for x in sheet.values()}
    for place, each in LINES.items():
        module, name = place.split(".")
        others = (text for path, text in elsewhere.items() if path != CORE / "sizing" / f"{module}.py")
        assert id(each) in held or any(re.search(rf"\b{name}\b", text) for text in others), f"nobody uses {place}"


@every_module
def test_no_module_is_too_long(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


# ---- nothing foreign

#: Written in pieces, so that this file does not hold what it looks for.
FOREIGN = re.compile(
    "|".join(
        [
            "py"
            + r"pi\.(org|io)|python"
            + r"hosted|npm"
            + r"js|un"
            + r"pkg|jsdel"
            + r"ivr|conda\.an"
            + "aconda|registry"
            + r"\.",
            "/" + r"(work|tmp|root|home)/\w|[A-Z]:\\\\" + "Users|/site" + "-packages/",
        ]
    )
)


def shipped():
    """Yield every text file that git tracks or would track; without git, every file that is not hidden or made."""
    asked = ["git", "ls-files", "-co", "--exclude-standard"]
    listed = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True, check=False)
    names = [Path(name) for name in listed.stdout.splitlines()] or [
        path
        for path in (found.relative_to(ROOT) for found in ROOT.rglob("*"))
        if not any(part.startswith(".") or part == "__pycache__" for part in path.parts)
    ]
    for name in names:
        if (ROOT / name).is_file() and name.suffix not in {".png", ".gz"}:
            yield ROOT / name


def test_no_registry_addresses_and_no_machine_paths():
    files = list(shipped())
    assert len(files) > 100
    found = [
        f"{path.relative_to(ROOT)}: {match[0]}"
        for path in files
        if (match := FOREIGN.search(path.read_text(encoding="utf-8", errors="replace")))
    ]
    assert found == []


def test_a_planted_address_or_path_is_seen():
    for planted in ("https://py" + "pi.org/simple", "/ho" + "me/somebody/x.csv", "/t" + "mp/w/x", "C:\\" + "\\Users"):
        assert FOREIGN.search(planted)
    assert not FOREIGN.search("lessons/plans/fell_hut.toml at home / work")
