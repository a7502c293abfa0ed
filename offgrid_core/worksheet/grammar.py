"""What may stand in a line: one plain expression, which is compiled *and* put into words from the same tree.

The grammar is a whitelist. Names, numbers, ``+ - * / **``, unary minus, the rounding and choosing functions
of :data:`FUNCTIONS`, the reducers of :data:`REDUCERS`, and a call of a given that is a table. Nothing else
gets through, so an expression given as text (a catalogued mistake) is as safe as one written in a module.
"""

import ast
import copy
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache, reduce
from typing import Any

import numpy as np

from offgrid_core.errors import WorksheetError

#: Rounding forgives this much, so that 4.000 000 000 1 strings are 4 strings.
FORGIVEN = 1e-9

#: From a call to what it comes to in one case, in words: the rows that a reducer goes through, or the value read from a
#: table; nothing where the call is to be left in words itself.
Told = Callable[[ast.Call], Sequence[str]]

#: An axis that is part of a name: such a quantity holds one value a month, a row of a list, or an hour of the day.
AXES = ("by_month", "by_row", "by_hour")


def up(x: Any) -> Any:
    """Round up to a whole number, forgiving float noise just above one."""
    return np.ceil(x - FORGIVEN * np.abs(x))


def down(x: Any) -> Any:
    """Round down to a whole number, forgiving float noise just below one."""
    return np.floor(x + FORGIVEN * np.abs(x))


def larger(*xs: Any) -> Any:
    """Return the largest of several values, element by element."""
    return reduce(np.maximum, xs)


def smaller(*xs: Any) -> Any:
    """Return the smallest of several values, element by element."""
    return reduce(np.minimum, xs)


def at_least(x: Any, bound: Any) -> Any:
    """Return 1 where a value reaches a bound, else 0: a switch that a line can multiply by."""
    return np.greater_equal(x, bound) * 1.0


def sum_of(x: Any) -> Any:
    """Add up along the months or rows."""
    return np.sum(np.atleast_1d(x), axis=-1)


def largest_of(x: Any) -> Any:
    """Return the largest along the months or rows."""
    return np.max(np.atleast_1d(x), axis=-1)


def smallest_of(x: Any) -> Any:
    """Return the smallest along the months or rows."""
    return np.min(np.atleast_1d(x), axis=-1)


def place_of_largest(x: Any) -> Any:
    """Return the place (1 for January) of the largest; of equal ones, the first."""
    return np.argmax(np.atleast_1d(x), axis=-1) + 1.0


def at_place(x: Any, place: Any) -> Any:
    """Return the value at one place (1 for January) of the months or rows; a lone value stands for all places."""
    values, wanted = np.atleast_1d(x), np.asarray(place, float)
    rows = values.shape[-1]
    found = (wanted >= 1) & (wanted == np.floor(wanted)) & ((wanted <= rows) | (rows == 1))
    if not np.all(found):
        raise WorksheetError(f"a place is a whole number from 1 to {rows}, not {wanted[~found].flat[0]:g}")
    column = np.minimum(wanted, rows).astype(np.intp)[..., None] - 1
    shape = np.broadcast_shapes(values.shape[:-1], column.shape[:-1])
    values = np.broadcast_to(values, (*shape, values.shape[-1]))
    return np.take_along_axis(values, np.broadcast_to(column, (*shape, 1)), axis=-1)[..., 0]


FUNCTIONS: dict[str, tuple[Callable[..., Any], str]] = {
    "up": (up, "round up ({all})"),
    "down": (down, "round down ({all})"),
    "larger": (larger, "larger of ({all})"),
    "smaller": (smaller, "smaller of ({all})"),
    "at_least": (at_least, "1 if {0} is at least {1}, else 0"),
}
REDUCERS: dict[str, tuple[Callable[..., Any], str]] = {
    "sum_of": (sum_of, "sum of ({all})"),
    "largest_of": (largest_of, "largest of ({all})"),
    "smallest_of": (smallest_of, "smallest of ({all})"),
    "place_of_largest": (place_of_largest, "where the largest is in ({all})"),
    "at_place": (at_place, "{0} in place {1}"),
}
_WORDS = {name: words for name, (_, words) in (FUNCTIONS | REDUCERS).items()}
_NAMESPACE = {name: work for name, (work, _) in (FUNCTIONS | REDUCERS).items()}
#: How many arguments each takes; 0 stands for two or more.
_TAKES = {name: work.__code__.co_argcount for name, work in _NAMESPACE.items()}
#: Numbers in a line are below this. Whatever needs a larger one is a slip, or an attempt to keep the machine busy.
_LARGEST = 1e15
#: Of more rows only the first two and the last are written.
_TERMS_MOST = 8
_SIGNS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", 1),
    ast.Sub: ("−", 1),
    ast.Mult: ("×", 2),
    ast.Div: ("÷", 2),
    ast.Pow: ("^", 3),
}


def parse(text: str) -> ast.expr:
    """Read one expression and refuse whatever the grammar does not hold.

    Parameters
    ----------
    text
        The expression, at most 400 characters.

    Raises
    ------
    WorksheetError
        Naming the first part that is not allowed.
    """
    if len(text) > 400:
        raise WorksheetError(f"an expression is at most 400 characters, not {len(text)}")
    try:
        tree = ast.parse(text.strip(), mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError) as e:
        raise WorksheetError(f"not an expression: {text!r} ({e})") from None
    check(tree)
    return tree


def check(tree: ast.expr) -> None:
    """Raise :class:`WorksheetError` unless the tree is within the grammar (wording it walks all of it)."""
    say(tree, str)


def say(
    tree: ast.expr, word: Callable[[str], str], outer: int = 0, after: bool = False, told: Told | None = None
) -> str:
    """Put an expression into words.

    Parameters
    ----------
    tree
        A checked expression.
    word
        What to write for a name: its label, or its value with the unit.
    outer
        How tightly the surrounding sign binds; brackets appear only where they are needed.
    after
        Whether a sign stands directly before: a negative number gets brackets there, as two signs never meet.
    told
        What a call comes to, where the words are about one case.
    """
    match tree:
        case ast.Name(id=name) if name not in _WORDS and not name.startswith("_"):
            said = word(name)
            return f"({said})" if after and said.startswith("−") else said
        case ast.Constant(value=int() | float() as number) if not isinstance(number, bool) and number < _LARGEST:
            return f"{number:.15g}"
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            said = "−" + say(inner, word, 3, True, told)
            return f"({said})" if after else said
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _SIGNS and not _is_plain_power(tree):
            sign, binds = _SIGNS[type(op)]
            power, apart = isinstance(op, ast.Pow), binds < outer
            base = say(left, word, binds + power, power or (after and not apart), told)
            said = f"{base} {sign} {say(right, word, binds + 1, True, told)}"
            return f"({said})" if apart else said
        case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]) if _takes(name, len(arguments)):
            return _say_call(tree, name, word, outer, told)
    raise WorksheetError(
        f"a line is one plain expression of sums, products and known functions; refused: {_shown(tree)}"
    )


def _say_call(call: ast.Call, name: str, word: Callable[[str], str], outer: int, told: Told | None) -> str:
    found = told(call) if told else ()
    if found and name in REDUCERS:
        return _say_rows(name, found, outer)
    template = _WORDS.get(name, "")
    if template and "{all}" not in template:
        said = template.format(*(say(a, word, 4, told=told) for a in call.args))
        return f"({said})" if outer else said
    together = "; ".join(say(a, word, told=told) for a in call.args)
    if template:
        return template.format(all=together)
    said = f"{word(name)} at ({together})"
    if not found:
        return said
    return f"({said} = {found[0]})" if outer else f"{said} = {found[0]}"


def _say_rows(name: str, rows: Sequence[str], outer: int) -> str:
    written = rows if len(rows) <= _TERMS_MOST else [*rows[:2], "…", rows[-1]]
    if name != "sum_of" and len(rows) > 1:
        return _WORDS[name].format(all="; ".join(written))
    said = " + ".join(written)
    return f"({said})" if outer and any(f" {sign} " in said for sign, _ in _SIGNS.values()) else said


def _takes(name: str, count: int) -> bool:
    wanted = _TAKES.get(name, 1)
    return not name.startswith("_") and (count == wanted if wanted else count > 1)


def _is_plain_power(tree: ast.BinOp) -> bool:
    """Whether a power has no quantity in it: 9 ** 9 ** 9 would never end, and any other can be written out."""
    return isinstance(tree.op, ast.Pow) and not any(names_in(tree))


def _shown(tree: ast.expr) -> str:
    return ast.unparse(tree)[:80]


def compiled(tree: ast.expr, needs: tuple[str, ...]) -> Callable[..., Any]:
    """Make the function that a checked expression describes.

    The expression can only reach its own arguments and the functions of the grammar; ``eval`` here sees a
    tree that :func:`check` has passed, never text.
    """
    arguments = ast.arguments(
        posonlyargs=[], args=[ast.arg(arg=n) for n in needs], kwonlyargs=[], kw_defaults=[], defaults=[]
    )
    made = ast.fix_missing_locations(ast.Expression(ast.Lambda(args=arguments, body=tree)))
    work: Callable[..., Any] = eval(compile(made, "<line>", "eval"), {"__builtins__": {}} | _NAMESPACE)
    return work


def names_in(tree: ast.AST) -> Iterator[str]:
    """Names an expression uses, in reading order, without the grammar's own functions."""
    if isinstance(tree, ast.Name) and tree.id not in _NAMESPACE:
        yield tree.id
    for inner in ast.iter_child_nodes(tree):
        yield from names_in(inner)


def with_names(tree: ast.expr, names: Mapping[str, str]) -> ast.expr:
    """Return a copy of an expression in which some quantities have other names."""

    class Rename(ast.NodeTransformer):
        def visit_Name(self, node: ast.Name) -> ast.Name:
            return ast.Name(id=names.get(node.id, node.id), ctx=node.ctx)

    renamed: ast.expr = Rename().visit(copy.deepcopy(tree))
    return renamed


def looked_up_names(tree: ast.expr) -> set[str]:
    """Names that stand alone in the brackets of a table: they are looked up, not reckoned with."""
    calls = (n for n in ast.walk(tree) if isinstance(n, ast.Call) and isinstance(n.func, ast.Name))
    return {a.id for call in calls if call.func.id not in _WORDS for a in call.args if isinstance(a, ast.Name)}  # type: ignore[attr-defined]


def with_named_numbers(tree: ast.expr) -> tuple[ast.expr, dict[str, tuple[str, float]]]:
    """Return an expression in which a number beside a quantity has a name of its own.

    A number that is added to a quantity, taken from it or compared with it is of its kind: the 25 of ``t_c - 25`` is
    a temperature. The names tell the quantity and the number.
    """
    kinds: dict[str, tuple[str, float]] = {}

    def named(each: ast.expr, beside: Sequence[ast.expr]) -> ast.expr:
        quantity = next((b.id for b in beside if isinstance(b, ast.Name)), "")
        if not (isinstance(each, ast.Constant) and quantity):
            return each
        name = f"number_{len(kinds) + 1}"
        kinds[name] = (quantity, each.value)  # type: ignore[assignment]
        return ast.Name(id=name, ctx=ast.Load())

    class Beside(ast.NodeTransformer):
        def visit_BinOp(self, node: ast.BinOp) -> ast.expr:
            self.generic_visit(node)
            if isinstance(node.op, ast.Add | ast.Sub):
                node.left, node.right = named(node.left, [node.right]), named(node.right, [node.left])
            return node

        def visit_Call(self, node: ast.Call) -> ast.expr:
            called = node.func.id if isinstance(node.func, ast.Name) else ""
            if called in REDUCERS:  # its rows are put into words one by one
                return node
            self.generic_visit(node)
            if called in ("larger", "smaller"):
                node.args = [named(a, node.args) for a in node.args]
            return node

    return Beside().visit(copy.deepcopy(tree)), kinds


def reduced_names(tree: ast.expr) -> set[str]:
    """Names that only ever stand inside the first argument of a reducer."""
    inside: set[str] = set()
    outside: set[str] = set()

    def walk(node: ast.AST, first: bool) -> None:
        if isinstance(node, ast.Name):
            (inside if first else outside).add(node.id)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            for i, argument in enumerate(node.args):
                walk(argument, first or (node.func.id in REDUCERS and i == 0))
        else:
            for child in ast.iter_child_nodes(node):
                walk(child, first)

    walk(tree, False)
    return inside - outside


def reductions(tree: ast.expr) -> Iterator[tuple[str, set[str]]]:
    """Each reducer used, with the axes of the names inside it; an empty text for a name without an axis."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in REDUCERS:
            yield node.func.id, {axis_of(name) for name in names_in(node.args[0])}


@cache
def axis_of(name: str) -> str:
    """Return the axis that is part of a name, or an empty string."""
    return next((axis for axis in AXES if axis in name), "")
