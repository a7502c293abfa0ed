"""Reading the source's text formulas, with an evaluator that shares nothing with the package."""

import ast
import csv
import operator
from pathlib import Path

_OPS = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


def evaluate(text, values):
    """Work a text formula: names, numbers, + - * / **, brackets, and a call of a given function; nothing else."""

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
            case ast.Call(func=ast.Name(id=name), args=[argument]):
                return values[name](work(argument))
        raise AssertionError(f"not a formula: {text}")

    return work(ast.parse(text, mode="eval").body)


def rows_beside(module_file):
    """Return the rows of the CSV file beside a module, by id."""
    with Path(module_file).with_suffix(".csv").open(encoding="utf-8") as source:
        return {row["id"]: row for row in csv.DictReader(source)}
