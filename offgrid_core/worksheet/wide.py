"""A loop over many paths at once, written as NumPy calls from the expressions of a worksheet.

Every result goes into an array that is used again as soon as it is free: thousands of paths then stay in the
processor's cache, where an hour of arithmetic costs little more than the arithmetic.
"""

import ast
from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from offgrid_core.worksheet import grammar
from offgrid_core.worksheet.plain import refused
from offgrid_core.worksheet.sheet import Sheet

_SIGNS: dict[type[ast.operator], str] = {
    ast.Add: "add",
    ast.Sub: "subtract",
    ast.Mult: "multiply",
    ast.Div: "divide",
    ast.Pow: "power",
}
_CALLS = {"larger": "maximum", "smaller": "minimum", "at_least": "greater_equal"}


class WideWriter:
    """Writes the loop over many paths, every result into an array that is used again as soon as it is free."""

    def __init__(
        self,
        loop: Sheet,
        carried: Mapping[str, str],
        wanted: Sequence[str],
        shapes: Mapping[str, tuple[int, ...]],
        shape: tuple[int, ...],
    ) -> None:
        self.carried, self.wanted, self.shape = carried, wanted, shape
        self.shapes = {**dict.fromkeys(carried, shape), **shapes}
        self.spares = self._smalls = 0
        self._dying: set[str] = set()
        self._free: list[str] = []
        self._alias: dict[str, str] = {}
        self._held: dict[str, str] = {}
        self._lines: list[str] = []
        self._loop = [(n, self._plain(n, x.tree)) for n, x in loop.items()]
        self._loop = [(n, tree) for n, tree in self._loop if n not in self._alias]
        self._sums: dict[str, list[str]] = {}
        for n in wanted:
            self._sums.setdefault(self._alias.get(n, n), []).append(n)
        self._last = {n: i for i, (n, _) in enumerate(self._loop)}
        self._last |= {m: i for i, (_, tree) in enumerate(self._loop) for m in grammar.names_in(tree)}
        self._last |= {self._alias.get(n, n): len(self._loop) for n in carried.values()}

    def _plain(self, name: str, tree: ast.expr) -> ast.expr:
        """Return the expression with stand-ins resolved; a line that only repeats another becomes its stand-in."""
        tree = grammar.with_names(tree, self._alias)
        if isinstance(tree, ast.Name):
            self._alias[name] = tree.id
        return tree

    def source(self, constants: list[str], feeds: list[str]) -> str:
        """Write ``run(constants, feeds, carried, sums, spares, truths)``; carried and sums change in place."""
        ends = {self._alias.get(end, end): n for n, end in self.carried.items()}
        copied = dict(ends)
        for i, (name, tree) in enumerate(self._loop):
            # What a step began with may be written over once nothing reads it any more.
            over = ends.get(name, "") if self._last.get(ends.get(name, ""), i) <= i else ""
            seen = Counter(grammar.names_in(tree))
            self._dying = {m for m in seen if seen[m] == 1 and m in self._held and self._last[m] == i}
            text, shape = self._worked(tree, over)
            if over and text == over:
                copied.pop(name)
            self.shapes[name], self._held[name] = shape, text
            self._lines += [
                f"{name} = {text}",
                *(f"add(_sum_{n}, {name}, out=_sum_{n})" for n in self._sums.get(name, ())),
            ]
            for m in [m for m in self._held if self._last[m] == i]:
                self._release(self._held.pop(m))
        self._lines += [f"copyto({n}, {end})" for end, n in copied.items()]
        head = [f"{n} = _c[{n!r}]" for n in constants] + [f"{n} = _s[{n!r}]" for n in self.carried]
        head += [f"_sum_{n} = _t[{n!r}]" for n in self.wanted] + [f"_x{i} = _w[{i}]" for i in range(self.spares)]
        body = [f"for {', '.join(feeds)}, in zip(*_f):", *(f"    {x}" for x in self._lines)]
        return "\n".join(["def run(_c, _f, _s, _t, _w, _z):", *(f"    {x}" for x in (*head, *body))])

    def _worked(self, node: ast.expr, over: str = "") -> tuple[str, tuple[int, ...]]:
        """Write the work of an expression, ``over`` an array if one is named; return what holds it and its shape."""
        match node:
            case ast.Name(id=name):
                return name, self.shapes[name]
            case ast.Constant(value=int() | float() as value):
                return f"{float(value)!r}", ()
            case ast.UnaryOp(operand=inner):
                return self._call("negative", [inner], over)
            case ast.BinOp(left=left, op=op, right=right) if type(op) in _SIGNS:
                return self._call(_SIGNS[type(op)], [left, right], over)
            case ast.Call(func=ast.Name(id="larger" | "smaller" as name), args=[*most, last]) if len(most) > 1:
                shorter = ast.Call(func=ast.Name(id=name), args=most, keywords=[])
                return self._call(_CALLS[name], [shorter, last], over)
            case ast.Call(func=ast.Name(id=name), args=arguments) if name in _CALLS:
                return self._call(_CALLS[name], arguments, over)
        raise refused(node)

    def _call(self, function: str, arguments: list[ast.expr], over: str) -> tuple[str, tuple[int, ...]]:
        worked = [self._worked(a) for a in arguments]
        shape = np.broadcast_shapes(*(s for _, s in worked))
        for (text, _), argument in zip(worked, arguments, strict=True):
            # The result may be written over an operand that nobody reads again: half the traffic of the cache.
            if isinstance(argument, ast.Name) and argument.id in self._dying:
                self._release(self._held.pop(argument.id))
            else:
                self._release(text)
        texts = ", ".join(text for text, _ in worked)
        if shape != self.shape:
            # Smaller than the paths: a few numbers for each step, not worth an array of their own.
            self._smalls += 1
            switch = " * 1.0" if function == _CALLS["at_least"] else ""
            self._lines.append(f"_y{self._smalls} = {function}({texts}){switch}")
            return f"_y{self._smalls}", shape
        out = over or (self._free.pop() if self._free else self._new())
        if function == _CALLS["at_least"]:
            self._lines += [f"{function}({texts}, out=_z)", f"copyto({out}, _z)"]
        else:
            self._lines.append(f"{function}({texts}, out={out})")
        return out, shape

    def _new(self) -> str:
        self.spares += 1
        return f"_x{self.spares - 1}"

    def _release(self, text: str) -> None:
        if text.startswith("_x") and text not in self._free:
            self._free.append(text)
