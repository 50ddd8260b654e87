"""Phases told by letter or colour: "R phase 21.8, Y 22.4, B 22.1", "17 on red, 17.4 on yellow".

A letter or a colour is a phase only in a row: the three of one family stand near, each beside a value.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.labels.point_at import ELECTRIC_QUANTITIES, PointAt
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import names_with_a_digit, numbers_by_end, numbers_by_start
from dictate.vocabulary.load import table

_REACH = 26
"""Tokens within which the other phases of a row stand."""
_LIVE = frozenset({"voltage", "current"})
_NOUNS = frozenset({"phase", "leg", "line", "wire", "pole"})


@cache
def _families() -> tuple[dict[str, int], ...]:
    rows = table("points")["phases"]["families"]
    return tuple({name: k + 1 for k, name in enumerate(row)} for row in rows)


@cache
def _names() -> frozenset[str]:
    return frozenset(name for family in _families() for name in family)


def find_phase(narration: Narration, i: int) -> PointAt | None:
    """Read a phase, or a pair of two, that is told by letter or colour at token i."""
    name = _name(narration, i)
    if name is None or names_with_a_digit(narration, i):
        return None
    joined = _second(narration, i)
    for family in _families():
        if name not in family or not _in_a_row(narration, i, family):
            continue
        if joined is not None:
            other, end = joined
            if other in family and other != name and _value_beside(narration, i, end):
                low, high = sorted((family[name], family[other]))
                kinds = ELECTRIC_QUANTITIES if len(name) == 1 else _LIVE
                return PointAt(i, end, f"L{low}-L{high}", "legs", kinds)
            continue
        end = i + 1
        if end < len(narration.lowers) and narration.lowers[end] in _NOUNS:
            end += 1
        if _value_beside(narration, i, end):
            return PointAt(
                i, end, f"L{family[name]}", "leg", _LIVE, f"phase {narration.tokens[i].text.rstrip('-/')}"
            )
    return None


def _name(narration: Narration, i: int) -> str | None:
    """Return the letter or colour at token i; a letter needs to be a capital."""
    if i < 0 or i >= len(narration.tokens):
        return None
    text = narration.tokens[i].text.rstrip("-/")
    name = text if len(text) == 1 else text.lower()
    return name if name in _names() else None


def _second(narration: Narration, i: int) -> tuple[str, int] | None:
    """Return the other phase of a pair that begins at token i, and where the pair ends."""
    j = i + 1
    if j < len(narration.lowers) and narration.lowers[j] in {"phase", "leg"}:
        j += 1
    if j < len(narration.lowers) and narration.lowers[j] in {"to", "-", "/", "2", "and"}:
        j += 1 + (narration.lowers[j + 1 : j + 2] == ["the"])
    elif not narration.tokens[i].text.endswith(("-", "/")) and len(narration.tokens[i].text) > 1:
        return None  # "red white" are two of a row, "R Y" a pair
    other = _name(narration, j)
    return None if other is None else (other, j + 1)


def _value_beside(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a value stands right behind the name, or "on" it right before."""
    starts, lowers = numbers_by_start(narration), narration.lowers
    k = end
    while k < len(lowers) and k - end < 4 and lowers[k] in table("points")["phases"]["between"]:
        k += 1
    if k in starts:
        return True
    b = start - 1
    while b >= 0 and lowers[b] in {"on", "the", "for", "in"}:
        b -= 1
    if b == start - 1:
        return False
    b += 1
    ends = numbers_by_end(narration)
    return b in ends or (lowers[b - 1] in {"amps", "volts", "amp", "volt", "a", "v"} and b - 1 in ends)


def _in_a_row(narration: Narration, i: int, family: dict[str, int]) -> bool:
    """Tell whether all three phases of a family stand near token i beside values, and no winding does."""
    low, high = max(0, i - _REACH), min(len(narration.tokens), i + _REACH)
    seen: set[str] = set()
    for k in range(low, high):
        name = _name(narration, k)
        if name is None:
            continue
        pair = _second(narration, k)
        if name in family and (
            _value_beside(narration, k, k + 1 + (narration.lowers[k + 1 : k + 2] == ["phase"]))
            or (pair is not None and pair[0] in family and _value_beside(narration, k, pair[1]))
        ):
            seen.add(name)
            if pair is not None and pair[0] in family:
                seen.add(pair[0])
    if seen != set(family):
        return False
    if len(next(iter(family))) > 1:
        return True
    others = {narration.tokens[k].text.rstrip("-/") for k in range(low, high)} & {"C", "G", "W"}
    return not others - set(family)
