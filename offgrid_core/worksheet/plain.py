"""A loop over one path, written in plain Python floats from the expressions of a worksheet.

In most hours something is left over or something falls short, and in each case half of the lines are nothing. So at
the first line that is the larger of 0 and a quantity the loop parts in two, and what is then known to be nothing is
not worked out at all.
"""

import ast
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet import grammar

Lines = dict[str, ast.expr]
_ZERO, _ONE = ast.Constant(0.0), ast.Constant(1.0)


def plain_source(
    lines: Lines, carried: Mapping[str, str], constants: Sequence[str], feeds: Sequence[str], positive: Collection[str]
) -> str:
    """Write ``run(constants, feeds, start)``, which returns what each step began with and what is carried out.

    Parameters
    ----------
    lines
        Expressions of the loop by name, in worked order.
    carried
        Name at the start of a step = line at its end.
    constants, feeds
        Names that stay, and names with a value for every step.
    positive
        Those of them that are never below 0.
    """
    body = [f"_b{i}.append({n})" for i, n in enumerate(carried)]
    pivot = next((n for n, tree in lines.items() if _larger_than_nothing(tree)), "")
    if pivot:
        tested = _larger_than_nothing(lines[pivot])
        first = _needed(lines, [tested])
        rest = {n: tree for n, tree in lines.items() if n not in first}
        body += [f"{n} = {text}" for n, text in _emitted(first, [*first])]
        for head, known in ((f"if {tested} > 0.0:", ast.Name(tested)), ("else:", _ZERO)):
            body += [head, *(f"    {x}" for x in _branch(rest, carried, {pivot: known}, {*positive, pivot}))]
    else:
        body += _branch(lines, carried, {}, positive)
    top = [f"{', '.join(constants)}, = _c"] if constants else []
    top += [f"_b{i} = []" for i in range(len(carried))]
    top += [f"{', '.join(carried)}, = _s", f"for {', '.join(feeds)}, in zip(*_f):", *(f"    {x}" for x in body)]
    tail = f"return {', '.join(f'_b{i}' for i in range(len(carried)))}, ({', '.join(carried)},)"
    return "\n".join(["def run(_c, _f, _s):", *(f"    {x}" for x in (*top, tail))])


def _larger_than_nothing(tree: ast.expr) -> str:
    """Return the quantity of a line that is the larger of 0 and that quantity; of any other line, nothing."""
    match tree:
        case ast.Call(func=ast.Name(id="larger"), args=[ast.Constant(value=0), ast.Name(id=name)]):
            return name
    return ""


def _branch(lines: Lines, carried: Mapping[str, str], known: Lines, positive: Collection[str]) -> list[str]:
    """Write the lines of one branch, as far as the next step needs them."""
    simple, known, positive = Lines(), dict(known), set(positive)
    for name, tree in lines.items():
        if name not in known:
            made = _simplified(tree, known, positive)
            if isinstance(made, ast.Name | ast.Constant):
                known[name] = made
            else:
                simple[name] = made
            if _never_below(made, positive):
                positive.add(name)
    ends = {n: known.get(end, ast.Name(end)) for n, end in carried.items()}
    moved = {n: end for n, end in ends.items() if ast.unparse(end) != n}
    wanted = [end.id for end in moved.values() if isinstance(end, ast.Name) and end.id in simple]
    written = [f"{n} = {text}" for n, text in _emitted(_needed(simple, wanted), wanted)]
    return [*written, f"{', '.join(moved)}, = {', '.join(map(ast.unparse, moved.values()))},"] if moved else ["pass"]


def _needed(lines: Lines, wanted: Iterable[str]) -> Lines:
    names = set(wanted)
    for name in reversed(lines):
        if name in names:
            names |= set(grammar.names_in(lines[name]))
    return {n: tree for n, tree in lines.items() if n in names}


# ---- what is known to be nothing


def _simplified(tree: ast.expr, known: Lines, positive: Collection[str]) -> ast.expr:
    """Return the expression without what is known to be 0 or 1; floats then give the very same result."""
    match tree:
        case ast.Name(id=name):
            return known.get(name, tree)
        case ast.UnaryOp(op=op, operand=inner):
            return ast.UnaryOp(op, _simplified(inner, known, positive))
        case ast.BinOp(left=left, op=op, right=right):
            return _sum_or_product(_simplified(left, known, positive), op, _simplified(right, known, positive))
        case ast.Call(func=ast.Name(id=name) as function, args=arguments):
            made = [_simplified(a, known, positive) for a in arguments]
            return _choice(name, made, positive) or ast.Call(function, made, [])
    return tree


def _sum_or_product(left: ast.expr, op: ast.operator, right: ast.expr) -> ast.expr:
    match op:
        case ast.Mult() if _is(left, 0) or _is(right, 0):
            return _ZERO
        case ast.Mult() | ast.Add() if _is(left, int(isinstance(op, ast.Mult))):
            return right
        case ast.Mult() | ast.Add() if _is(right, int(isinstance(op, ast.Mult))):
            return left
        case ast.Sub() if _is(right, 0):
            return left
        case ast.Sub() if _is(left, 0):
            return ast.UnaryOp(ast.USub(), right)
        case ast.Sub() if isinstance(left, ast.Name) and ast.unparse(left) == ast.unparse(right):
            return _ZERO
        case ast.Div() if _is(left, 0):
            return _ZERO
    return ast.BinOp(left, op, right)


def _choice(name: str, arguments: list[ast.expr], positive: Collection[str]) -> ast.expr | None:
    """Return what a choice between nothing and something comes to, if that is known."""
    something = [a for a in arguments if not _is(a, 0)]
    if name == "at_least":
        return _ONE if not something else None
    if len(something) == len(arguments) or not all(_never_below(a, positive) for a in something):
        return None
    if name == "smaller" or not something:
        return _ZERO
    return something[0] if len(something) == 1 else ast.Call(ast.Name(name), something, [])


def _never_below(tree: ast.expr, positive: Collection[str]) -> bool:
    """Whether an expression is never below 0."""
    match tree:
        case ast.Name(id=name):
            return name in positive
        case ast.Constant(value=int() | float() as number):
            return number >= 0
        case ast.BinOp(left=left, op=ast.Add() | ast.Mult() | ast.Div(), right=right):
            return _never_below(left, positive) and _never_below(right, positive)
        case ast.Call(func=ast.Name(id="at_least")):
            return True
        case ast.Call(func=ast.Name(id="larger"), args=arguments):
            return any(_never_below(a, positive) for a in arguments)
        case ast.Call(func=ast.Name(id="smaller"), args=arguments):
            return all(_never_below(a, positive) for a in arguments)
    return False


def _is(tree: ast.expr, number: int) -> bool:
    return isinstance(tree, ast.Constant) and tree.value == number


# ---- as text


def _emitted(lines: Lines, kept: Collection[str]) -> list[tuple[str, str]]:
    """Return assignments; what is used only once, and need not be kept, is written where it is used."""
    uses = Counter(n for tree in lines.values() for n in grammar.names_in(tree))
    inside = {n: tree for n, tree in lines.items() if uses[n] == 1 and n not in kept}
    done: list[tuple[str, str]] = []
    for name, tree in lines.items():
        if name not in inside:
            done.append((name, _text(tree, inside, done)))
    return done


def _text(node: ast.expr, inside: Lines, done: list[tuple[str, str]]) -> str:
    """Return an expression as Python, after the assignments that it needs before it."""
    match node:
        case ast.Name(id=name):
            return _text(inside[name], inside, done) if name in inside else name
        case ast.Constant(value=int() | float() as number):
            return repr(float(number))
        case ast.UnaryOp(operand=inner):
            return f"(-{_text(inner, inside, done)})"
        case ast.BinOp(left=left, op=op, right=right) if not isinstance(op, ast.Pow):
            sign = ast.unparse(ast.BinOp(ast.Name("a"), op, ast.Name("b")))[1:-1]
            return f"({_text(left, inside, done)}{sign}{_text(right, inside, done)})"
        case ast.Call(func=ast.Name(id="at_least"), args=[value, bound]):
            return f"(1.0 if {_text(value, inside, done)} >= {_text(bound, inside, done)} else 0.0)"
        case ast.Call(func=ast.Name(id="larger" | "smaller" as name), args=arguments):
            sign = ">" if name == "larger" else "<"
            best, *others = [_named(a, inside, done) for a in arguments]
            for other in others:
                best = _assigned(f"{best} if {best} {sign} {other} else {other}", done)
            return best
    raise refused(node)


def _named(node: ast.expr, inside: Lines, done: list[tuple[str, str]]) -> str:
    """Return a name or number for an expression."""
    text = _text(node, inside, done)
    return text if text.isidentifier() or isinstance(node, ast.Constant) else _assigned(text, done)


def _assigned(text: str, done: list[tuple[str, str]]) -> str:
    done.append((f"_t{len(done)}", text))
    return done[-1][0]


def refused(node: ast.expr) -> WorksheetError:
    """Return the error for what cannot stand in the loop."""
    return WorksheetError(f"a step has only sums, products, larger, smaller and at_least; refused: {ast.unparse(node)}")
