"""A line turned round: what one of its inputs must have been for the line to come out as it did."""

import ast
from dataclasses import replace

from offgrid_core.errors import WorksheetError
from offgrid_core.worksheet.grammar import axis_of, names_in
from offgrid_core.worksheet.line import Line

_CHOOSING = ("smaller", "larger")


def turned(each: Line, need: str) -> Line:
    """Return the line that works out an input of another line from that line's result.

    Parameters
    ----------
    each
        The line, one plain number.
    need
        One of its inputs. Where the smaller or larger of several is taken, the one that it stands in must be it.

    Raises
    ------
    WorksheetError
        If the input stands in the line more than once, or under a power, a table or a rounding.

    Examples
    --------
    >>> from offgrid_core.worksheet import line
    >>> @line("Energy the bank must give", standing="physics")
    ... def spell_wh(energy_day_wh, autonomy_days):
    ...     return energy_day_wh * autonomy_days
    >>> turned(spell_wh, "energy_day_wh").expression
    'spell_wh / autonomy_days'
    """
    if list(names_in(each.tree)).count(need) != 1 or axis_of(each.name) or axis_of(need):
        raise WorksheetError(f"{each.name} cannot be turned round for {need}: it has to stand there once, as a number")
    tree = _undone(each.tree, ast.Name(id=each.name, ctx=ast.Load()), need)
    return replace(each, name=need, label=need, needs=tuple(dict.fromkeys(names_in(tree))), tree=tree)


def _undone(tree: ast.expr, result: ast.expr, need: str) -> ast.expr:
    """Undo a tree from the outside in, sign by sign, until the input stands alone."""
    match tree:
        case ast.Name():
            return result
        case ast.BinOp(left=left, op=op, right=right) if need in names_in(left):
            back = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult}.get(type(op))
            if back:
                return _undone(left, ast.BinOp(left=result, op=back(), right=right), need)
        case ast.BinOp(left=left, op=ast.Add() | ast.Mult() as op, right=right):
            return _undone(ast.BinOp(left=right, op=op, right=left), result, need)
        case ast.BinOp(left=left, op=ast.Sub() | ast.Div() as op, right=right):
            return _undone(right, ast.BinOp(left=left, op=op, right=result), need)
        case ast.Call(func=ast.Name(id=name), args=arguments) if name in _CHOOSING:
            return _undone(next(a for a in arguments if need in names_in(a)), result, need)
    raise WorksheetError(f"{ast.unparse(tree)} cannot be turned round for {need}")
