"""A reader of worded formulas, for the tests: from the words back to the expression they stand for.

It is written without a look at the package's own grammar and is stricter than a person: two signs may not meet,
and a chain of powers without brackets is refused, because people read it in two ways.
"""

import re

_WORDED = {
    "round up (": "up",
    "round down (": "down",
    "larger of (": "larger",
    "smaller of (": "smaller",
    "sum of (": "sum_of",
    "largest of (": "largest_of",
    "smallest of (": "smallest_of",
    "where the largest is in (": "place_of_largest",
}
_SWITCH = ("1 if", "is at least", ", else 0")
_PHRASES = "|".join(map(re.escape, ("in place", "at (", *_SWITCH, *_WORDED)))
_TOKEN = re.compile(rf"\s*({_PHRASES}|\[[^\]]*\]|[+−×÷^();=]|[\d.]+(?:e[+-]?\d+)?|[A-Za-z_]\w*)")


class UnreadableError(ValueError):
    """The words cannot be read, or could be read in two ways."""


def read(words: str) -> str:
    """Return the worded formula as a Python expression with every bracket written out."""
    reader = _Reader(_tokens(words))
    text = reader.whole()
    if reader.next:
        raise UnreadableError(f"{words!r}: {reader.next!r} is left over")
    return text


def _tokens(words: str) -> list[str]:
    tokens, place = [], 0
    while words[place:].strip():
        if not (match := _TOKEN.match(words, place)):
            raise UnreadableError(f"{words!r}: cannot go on at {words[place : place + 20]!r}")
        tokens.append(match[1])
        place = match.end()
    return tokens


class _Reader:
    def __init__(self, tokens: list[str]) -> None:
        self.tokens = tokens

    @property
    def next(self) -> str:
        return self.tokens[0] if self.tokens else ""

    def take(self, *wanted: str) -> str:
        if wanted and self.next not in wanted:
            raise UnreadableError(f"{self.next!r} where one of {wanted} was expected")
        return self.tokens.pop(0)

    def whole(self) -> str:
        if self.next == _SWITCH[0]:
            self.take()
            value = self.sums()
            self.take(_SWITCH[1])
            bound = self.sums()
            self.take(_SWITCH[2])
            return f"at_least({value}, {bound})"
        first = self.sums()
        if self.next != "in place":
            return first
        self.take()
        return f"at_place({first}, {self.sums()})"

    def sums(self) -> str:
        text = self.products(signed=True)
        while self.next in ("+", "−"):
            sign = "+" if self.take() == "+" else "-"
            text = f"({text} {sign} {self.products()})"
        return text

    def products(self, signed: bool = False) -> str:
        if signed and self.next == "−":
            self.take()
            text = f"(-{self.power()})"
        else:
            text = self.power()
        while self.next in ("×", "÷"):
            sign = "*" if self.take() == "×" else "/"
            text = f"({text} {sign} {self.power()})"
        return text

    def power(self) -> str:
        text = self.atom()
        if self.next != "^":
            return text
        self.take()
        text = f"({text} ** {self.atom()})"
        if self.next == "^":
            raise UnreadableError("a chain of powers without brackets")
        return text

    def atom(self) -> str:
        token = self.take() if self.tokens else ""
        if token == "(":
            inside = self.whole()
            self.take(")")
            return inside
        if token in _WORDED:
            return f"{_WORDED[token]}({self.arguments()})"
        if token.startswith("["):
            return f"array({token})"
        if not re.match(r"[\w.]", token):
            raise UnreadableError(f"{token!r} where a value was expected")
        if self.next != "at (":
            return token
        self.take()
        looked_up = f"{token}({self.arguments()})"
        if self.next != "=":
            return looked_up
        self.take()
        return f"alike({looked_up}, {self.sums()})"

    def arguments(self) -> str:
        said = [self.whole()]
        while self.take(";", ")") == ";":
            said.append(self.whole())
        return ", ".join(said)
