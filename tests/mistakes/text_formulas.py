"""Reading the source's text formulas, with an evaluator that shares nothing with the package."""

import ast
import csv
import math
import operator
from pathlib import Path

_OPS = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
#: Known by name in every formula unless a draw gives its own; a list of months is a value like any other.
_FUNCTIONS = {
    "max": max,
    "min": min,
    "sum": sum,
    "ceil": math.ceil,
    "floor": math.floor,
    "round_half_up": lambda x: math.floor(x + 0.5),
    "zip": lambda *lists: zip(*lists, strict=True),
}


def evaluate(text, values):
    """Work a text formula: names, numbers, + - * / **, brackets, calls of given functions, a list by rows of zip."""

    def work(node):
        match node:
            case ast.Constant(value=int() | float() as number):
                return number
            case ast.Name(id=name):
                return values[name]
            case ast.BinOp(left=left, op=op, right=right):
                return _OPS[type(op)](work(left), work(right))
            case ast.UnaryOp(op=ast.USub(), operand=inner):
                return -work(inner)
            case ast.Call(func=ast.Name(id=name), args=[_, *_] as arguments, keywords=[]):
                return {**_FUNCTIONS, **values}[name](*map(work, arguments))
            case ast.GeneratorExp(
                elt=inner, generators=[ast.comprehension(target=ast.Tuple(elts=names), iter=rows, ifs=[])]
            ):
                columns = [name.id for name in names]
                return [
                    evaluate(ast.unparse(inner), values | dict(zip(columns, row, strict=True))) for row in work(rows)
                ]
        raise AssertionError(f"not a formula: {text}")

    return work(ast.parse(text, mode="eval").body)


def rows_beside(module_file):
    """Return the rows of the CSV file beside a module, by id."""
    with Path(module_file).with_suffix(".csv").open(encoding="utf-8") as source:
        return {row["id"]: row for row in csv.DictReader(source)}
