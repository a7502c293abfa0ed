"""How near is near enough: to accept an answer, and (tighter) to see a mistake in it."""

from functools import cache

from offgrid_core.quantities import unit_of

#: Kind of unit -> (least distance, share of the value) to accept, then to match a mistake. A temperature may be
#: rounded to a whole degree, as thermometers are read; 1 % of a temperature near zero would mean nothing.
_BY_KIND: dict[str, tuple[tuple[float, float], tuple[float, float]]] = {
    "count": ((0, 0), (0, 0)),
    "fraction": ((0.001, 0.02), (0.0005, 0.006)),
    "temperature": ((0.5, 0), (0.25, 0)),
    "difference": ((0.2, 0.01), (0.1, 0.006)),
}
_CONTINUOUS = ((0.0, 0.01), (0.0, 0.006))
#: The end of a chain whose steps between were not asked.
_CHAIN_END = ((0.0, 0.02), (0.0, 0.006))
#: A set-point: 0.1 V for each 12 V, and half of that.
_SET_POINT = ((0.0, 0.1 / 12), (0.0, 0.05 / 12))
_FLOAT_NOISE = 1e-9


def accepts(name: str, value: float, expected: float, hidden: bool = False) -> bool:
    """Whether an answer is right.

    Parameters
    ----------
    name
        The quantity, whose unit says which tolerance applies.
    value, expected
        In the unit of the name.
    hidden
        Whether the value is the end of a chain whose steps were not asked.
    """
    return abs(value - expected) <= room(name, expected, hidden)


def matches(name: str, value: float, expected: float) -> bool:
    """Whether an answer is the number that a mistake gives."""
    return abs(value - expected) <= _width(_kinds(name, False)[1], expected)


def room(name: str, expected: float, hidden: bool = False) -> float:
    """Return how far from ``expected`` an answer may lie and be right."""
    return _width(_kinds(name, hidden)[0], expected)


def stands_clear(name: str, wrong: float, right: float, hidden: bool = False) -> bool:
    """Whether a mistake's number can be told from the right one, however both are rounded."""
    return abs(wrong - right) > room(name, right, hidden) + _width(_kinds(name, False)[1], wrong)


def apart(name: str, one: float, other: float) -> bool:
    """Whether two mistakes' numbers can be told from each other: 1 %, or twice what matching forgives."""
    width = _width(_kinds(name, False)[1], max(abs(one), abs(other)))
    return abs(one - other) > max(2 * width, 0.01 * max(abs(one), abs(other)) if width else 0)


@cache
def _kinds(name: str, hidden: bool) -> tuple[tuple[float, float], tuple[float, float]]:
    if name.endswith("_set_v"):
        return _SET_POINT
    return _BY_KIND.get(unit_of(name).kind, _CHAIN_END if hidden else _CONTINUOUS)


def _width(rule: tuple[float, float], expected: float) -> float:
    least, share = rule
    return max(least, share * abs(expected)) + _FLOAT_NOISE * max(1.0, abs(expected))
